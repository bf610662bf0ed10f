// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Photos beside each other. A photo that is still there after a change keeps its place, the choice and the focus. */

#include "hs-photo-strip.h"

#include <glib/gi18n.h>

#include "hs-photo-frame.h"
#include "hs-show.h"
#include "hs-spoken.h"

struct _HsPhotoStrip
{
  AdwBin parent_instance;

  GtkFlowBox *flow;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (HsPhotoStrip, hs_photo_strip, ADW_TYPE_BIN)

enum
{
  CHOSEN,
  OPENED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

char *
hs_photo_say (HsLedger *ledger, const HsPhotoCard *card)
{
  g_autofree char *number = g_strdup_printf (_("photo %u"), card->number);
  g_autofree char *shows = card->finding != NULL ? g_strdup_printf (_("shows: %s"), card->finding) : g_strdup ("");
  g_autofree char *visit = card->visit > 0 ? g_strdup_printf (_("visit %u"), card->visit) : g_strdup ("");
  g_autofree char *day = hs_show_day_of (ledger, card->taken_at);
  g_autofree char *clock = hs_show_clock (ledger, card->taken_at);
  g_autofree char *taken = card->taken_at != HS_INSTANT_NONE ? g_strdup_printf (_("taken %s %s"), day, clock)
                                                             : g_strdup ("");

  return hs_show_joined (number, hs_show_word (HS_WORDS_PHASE, card->phase), shows,
                         card->words != NULL ? card->words : "", taken, visit, card->name != NULL ? card->name : "",
                         card->missing ? _("its picture is missing; add it again or take it from a backup") : "", NULL);
}

static GtkWidget *
label_new (const char *css)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_lines (GTK_LABEL (label), 2);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 1);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (label, css);
  return label;
}

static GtkWidget *
tile_new (const char *photo_id)
{
  GtkWidget *child = gtk_flow_box_child_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);

  gtk_box_append (GTK_BOX (box), hs_photo_frame_new ());
  gtk_box_append (GTK_BOX (box), label_new ("hs-strong"));
  gtk_box_append (GTK_BOX (box), label_new ("hs-caption"));
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (child), box);
  gtk_widget_set_halign (child, GTK_ALIGN_START);
  gtk_widget_set_valign (child, GTK_ALIGN_START);
  gtk_widget_add_css_class (child, "hs-photo");
  g_object_set_data_full (G_OBJECT (child), "photo", g_strdup (photo_id), g_free);
  return child;
}

static const char *
photo_of (GtkFlowBoxChild *child)
{
  return child != NULL ? g_object_get_data (G_OBJECT (child), "photo") : NULL;
}

static void
tile_set (GtkFlowBoxChild *child, HsLedger *ledger, const HsPhotoCard *card)
{
  GtkWidget *frame = gtk_widget_get_first_child (gtk_flow_box_child_get_child (child));
  GtkWidget *head = gtk_widget_get_next_sibling (frame);
  GtkWidget *foot = gtk_widget_get_next_sibling (head);
  g_autofree char *say = hs_photo_say (ledger, card);
  g_autofree char *number = g_strdup_printf ("%u", card->number);
  g_autofree char *text = hs_show_joined (number, hs_show_word (HS_WORDS_PHASE, card->phase), NULL);
  const char *shows = card->finding != NULL ? card->finding : card->words != NULL ? card->words : "";

  hs_photo_frame_show (HS_PHOTO_FRAME (frame), ledger, card->id, card->missing);
  gtk_label_set_label (GTK_LABEL (head), text);
  gtk_label_set_label (GTK_LABEL (foot), shows);
  gtk_widget_set_visible (foot, *shows != '\0');
  hs_spoken_name (GTK_WIDGET (child), say);
}

static GtkFlowBoxChild *
find_tile (HsPhotoStrip *self, const char *photo_id)
{
  GtkFlowBoxChild *child;

  for (int i = 0; (child = gtk_flow_box_get_child_at_index (self->flow, i)) != NULL; i++)
    if (g_strcmp0 (photo_of (child), photo_id) == 0)
      return child;
  return NULL;
}

static gboolean
is_listed (GPtrArray *cards, const char *photo_id)
{
  for (guint i = 0; i < cards->len; i++)
    if (g_str_equal (((HsPhotoCard *) g_ptr_array_index (cards, i))->id, photo_id))
      return TRUE;
  return FALSE;
}

/* The place of the first photo that went, or -1. */
static int
drop_gone (HsPhotoStrip *self, GPtrArray *cards)
{
  GtkFlowBoxChild *child;
  int first = -1;

  for (int i = 0; (child = gtk_flow_box_get_child_at_index (self->flow, i)) != NULL;)
    {
      if (is_listed (cards, photo_of (child)))
        {
          i++;
          continue;
        }
      first = first < 0 ? i : first;
      gtk_flow_box_remove (self->flow, GTK_WIDGET (child));
    }
  return first;
}

static GtkFlowBoxChild *
get_chosen_tile (HsPhotoStrip *self)
{
  g_autoptr (GList) chosen = gtk_flow_box_get_selected_children (self->flow);

  return chosen != NULL ? chosen->data : NULL;
}

static void
choose_tile (HsPhotoStrip *self, GtkFlowBoxChild *child, gboolean focus)
{
  gtk_flow_box_select_child (self->flow, child);
  if (focus)
    gtk_widget_grab_focus (GTK_WIDGET (child));
}

void
hs_photo_strip_set (HsPhotoStrip *self, HsLedger *ledger, GPtrArray *cards)
{
  gboolean focus;
  int gone;

  g_return_if_fail (HS_IS_PHOTO_STRIP (self) && HS_IS_LEDGER (ledger));

  focus = gtk_widget_get_focus_child (GTK_WIDGET (self->flow)) != NULL;
  self->filling = TRUE;
  gone = drop_gone (self, cards);
  for (guint i = 0; i < cards->len; i++)
    {
      const HsPhotoCard *card = g_ptr_array_index (cards, i);

      if (find_tile (self, card->id) == NULL)
        gtk_flow_box_insert (self->flow, tile_new (card->id), (int) i);
      tile_set (find_tile (self, card->id), ledger, card);
    }
  if (cards->len > 0 && get_chosen_tile (self) == NULL)
    choose_tile (self, gtk_flow_box_get_child_at_index (self->flow, CLAMP (gone, 0, (int) cards->len - 1)), focus);
  self->filling = FALSE;
  g_signal_emit (self, signals[CHOSEN], 0);
}

const char *
hs_photo_strip_get_chosen (HsPhotoStrip *self)
{
  g_return_val_if_fail (HS_IS_PHOTO_STRIP (self), NULL);

  return photo_of (get_chosen_tile (self));
}

void
hs_photo_strip_choose (HsPhotoStrip *self, const char *photo_id, gboolean focus)
{
  GtkFlowBoxChild *child;

  g_return_if_fail (HS_IS_PHOTO_STRIP (self));

  child = photo_id != NULL ? find_tile (self, photo_id) : get_chosen_tile (self);
  if (child != NULL)
    choose_tile (self, child, focus);
}

static void
selected_cb (HsPhotoStrip *self)
{
  if (!self->filling)
    g_signal_emit (self, signals[CHOSEN], 0);
}

static void
activated_cb (HsPhotoStrip *self)
{
  g_signal_emit (self, signals[OPENED], 0);
}

static void
hs_photo_strip_class_init (HsPhotoStripClass *klass)
{
  signals[CHOSEN] = g_signal_new ("chosen", HS_TYPE_PHOTO_STRIP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
  signals[OPENED] = g_signal_new ("opened", HS_TYPE_PHOTO_STRIP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
}

static void
hs_photo_strip_init (HsPhotoStrip *self)
{
  GtkWidget *flow = gtk_flow_box_new (), *scroll = gtk_scrolled_window_new ();

  self->flow = GTK_FLOW_BOX (flow);
  gtk_flow_box_set_selection_mode (self->flow, GTK_SELECTION_BROWSE);
  gtk_flow_box_set_activate_on_single_click (self->flow, FALSE);
  gtk_flow_box_set_max_children_per_line (self->flow, 12);
  gtk_flow_box_set_column_spacing (self->flow, 8);
  gtk_flow_box_set_row_spacing (self->flow, 8);
  gtk_flow_box_set_homogeneous (self->flow, TRUE);
  gtk_widget_set_valign (flow, GTK_ALIGN_START);
  hs_spoken_name (flow, _("Photos"));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), flow);
  adw_bin_set_child (ADW_BIN (self), scroll);
  g_signal_connect_object (flow, "selected-children-changed", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (flow, "child-activated", G_CALLBACK (activated_cb), self, G_CONNECT_SWAPPED);
}

GtkWidget *
hs_photo_strip_new (void)
{
  return g_object_new (HS_TYPE_PHOTO_STRIP, NULL);
}
