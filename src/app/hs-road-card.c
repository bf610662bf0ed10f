// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The map of roads in the set-up window. The work itself goes on in HsRoadMaker, also when this is gone; here it is
 * begun, shown and stopped. Without roads in the program there is a sentence instead of a button. */

#include "hs-road-card.h"

#include <glib/gi18n.h>

#include "hs-compat-file.h"
#include "hs-key-button.h"

struct _HsRoadCard
{
  AdwBin parent_instance;

  GtkLabel *told;
  GtkLabel *step;
  GtkProgressBar *progress;
  GtkWidget *make;
  GtkWidget *stop;

  HsRoadMaker *maker;
  HsLedger *ledger; /* keeps the maker */
  gboolean wants_focus;
};

G_DEFINE_FINAL_TYPE (HsRoadCard, hs_road_card, ADW_TYPE_BIN)

static gboolean
is_there (void)
{
  const HsRoadWorks *works = hs_road_works_get ();
  g_autofree char *folder = works != NULL ? works->dup_folder () : NULL;

  return works != NULL && works->has_map (folder);
}

/* What there is to say; (transfer full). */
static char *
dup_state (HsRoadCard *self)
{
  guint driven = hs_road_maker_get_driven (self->maker);

  if (hs_road_works_get () == NULL)
    return g_strdup (_("This program was built without roads: drives are told from own trips, your table and "
                       "guesses."));
  switch (hs_road_maker_get_state (self->maker))
    {
    case HS_ROAD_MAKER_READING:
      return g_strdup (_("Reading the extract …"));
    case HS_ROAD_MAKER_SPLITTING:
      return g_strdup (_("Making the road map. This takes minutes; the window may be shut meanwhile."));
    case HS_ROAD_MAKER_DRIVING:
      return g_strdup (_("Driving between the places of the book …"));
    case HS_ROAD_MAKER_DONE:
      return g_strdup_printf (ngettext ("The road map is in use: %u new drive is in the book.",
                                        "The road map is in use: %u new drives are in the book.", driven), driven);
    case HS_ROAD_MAKER_FAILED:
      return g_strdup (hs_road_maker_get_trouble (self->maker));
    case HS_ROAD_MAKER_STOPPED:
      return g_strdup (_("Stopped. Nothing was changed."));
    case HS_ROAD_MAKER_IDLE:
      return g_strdup (is_there () ? _("There is a road map. A newer extract replaces it.")
                                   : _("There is no road map yet. Choose an OpenStreetMap extract that you have on "
                                       "disk (.osm.pbf); places need a position."));
    }
  g_assert_not_reached ();
}

/* One button makes way for the other, or for none while nothing can be stopped: whoever stood on one stands on the next
 * that comes. */
static void
show_button (HsRoadCard *self, gboolean make, gboolean stop)
{
  GtkWidget *shown = make ? self->make : stop ? self->stop : NULL;

  self->wants_focus |= gtk_widget_is_focus (self->make) || gtk_widget_is_focus (self->stop);
  gtk_widget_set_visible (self->make, make);
  gtk_widget_set_visible (self->stop, stop);
  if (!self->wants_focus || shown == NULL)
    return;
  self->wants_focus = FALSE;
  gtk_widget_grab_focus (shown);
}

static void
changed_cb (HsRoadCard *self)
{
  HsRoadMakerState state = hs_road_maker_get_state (self->maker);
  const char *step = hs_road_maker_get_step (self->maker);
  g_autofree char *text = dup_state (self);
  gboolean busy = hs_road_maker_is_busy (self->maker);

  gtk_label_set_label (self->told, text);
  gtk_label_set_label (self->step, step != NULL ? step : "");
  gtk_widget_set_visible (GTK_WIDGET (self->step), state == HS_ROAD_MAKER_SPLITTING && step != NULL);
  gtk_progress_bar_set_fraction (self->progress, hs_road_maker_get_share (self->maker));
  gtk_widget_set_visible (GTK_WIDGET (self->progress), busy);
  show_button (self, !busy && hs_road_works_get () != NULL,
               state == HS_ROAD_MAKER_READING || state == HS_ROAD_MAKER_SPLITTING);
}

static void
chosen (GFile *file, gpointer data)
{
  g_autoptr (HsRoadCard) self = HS_ROAD_CARD (data);
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (path != NULL && self->maker != NULL)
    hs_road_maker_make (self->maker, path);
}

static void
make_cb (HsRoadCard *self)
{
  hs_compat_choose_file (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), _("OpenStreetMap Extract"), FALSE, NULL,
                         NULL, chosen, g_object_ref (self));
}

static void
stop_cb (HsRoadCard *self)
{
  hs_road_maker_stop (self->maker);
}

static void
hs_road_card_dispose (GObject *object)
{
  HsRoadCard *self = HS_ROAD_CARD (object);

  g_clear_object (&self->maker);
  g_clear_object (&self->ledger);
  G_OBJECT_CLASS (hs_road_card_parent_class)->dispose (object);
}

static void
hs_road_card_class_init (HsRoadCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_road_card_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-road-card.ui");
  gtk_widget_class_bind_template_child (widget_class, HsRoadCard, told);
  gtk_widget_class_bind_template_child (widget_class, HsRoadCard, step);
  gtk_widget_class_bind_template_child (widget_class, HsRoadCard, progress);
  gtk_widget_class_bind_template_child (widget_class, HsRoadCard, make);
  gtk_widget_class_bind_template_child (widget_class, HsRoadCard, stop);
  gtk_widget_class_bind_template_callback (widget_class, make_cb);
  gtk_widget_class_bind_template_callback (widget_class, stop_cb);
}

static void
hs_road_card_init (HsRoadCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
hs_road_card_set_ledger (HsRoadCard *self, HsLedger *ledger)
{
  g_return_if_fail (HS_IS_ROAD_CARD (self));
  g_return_if_fail (self->ledger == NULL);

  self->ledger = g_object_ref (ledger);
  self->maker = g_object_ref (hs_road_maker_of (ledger));
  g_signal_connect_object (self->maker, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  changed_cb (self);
}
