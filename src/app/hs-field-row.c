// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A field that stores itself when it is left. Use it where each field goes to the book alone: what was refused stays
 * typed, with the refusal under it, and is not tried again until something changes. */

#include "hs-field-row.h"

#include <glib/gi18n.h>

#include "hs-chip.h"
#include "hs-flow-layout.h"
#include "hs-late-keys.h"

#define FRAMES_TO_LAY_OUT 3
#define REVEAL_MARGIN 24

struct _HsFieldRow
{
  AdwBin parent_instance;

  GtkLabel *title;
  GtkWidget *choices;
  GtkEditable *entry;
  GtkWidget *why_box;
  GtkEditable *why;
  GtkLabel *said;

  char *id;
  char *stored;
  char *read_back;
  char *sent;    /* on its way to the book */
  char *refused; /* with this reason or none it was refused */
  HsLateKeys *late;
  gboolean entered;
  gboolean again; /* left once more while the first was on its way */
  gboolean filling;
  guint set_idle;
  guint tick;
  guint frames;
};

G_DEFINE_FINAL_TYPE (HsFieldRow, hs_field_row, ADW_TYPE_BIN)

enum
{
  TYPED,
  STORE,
  ONWARD,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static gboolean
is_text (HsFieldRow *self, const char *text)
{
  return g_strcmp0 (gtk_editable_get_text (self->entry), text != NULL ? text : "") == 0;
}

/* The text and the reason beside it, as one. */
static char *
dup_attempt (HsFieldRow *self)
{
  return g_strconcat (gtk_editable_get_text (self->entry), "\n", gtk_editable_get_text (self->why), NULL);
}

/* What stands in the book is no typing to be taken back: F10 would empty the field, and leaving it the book, instead of
 * what was done last. */
static void
forget_typing (HsFieldRow *self)
{
  gtk_editable_set_enable_undo (self->entry, FALSE);
  gtk_editable_set_enable_undo (self->entry, TRUE);
}

static void
fill (HsFieldRow *self, const char *text)
{
  self->filling = TRUE;
  if (!is_text (self, text))
    {
      gtk_editable_set_text (self->entry, text != NULL ? text : "");
      forget_typing (self);
    }
  self->filling = FALSE;
}

static void
store (HsFieldRow *self, gboolean entered)
{
  const char *text = gtk_editable_get_text (self->entry), *why = gtk_editable_get_text (self->why);
  g_autofree char *attempt = dup_attempt (self);

  if (is_text (self, self->stored) || (*text == '\0' && self->stored == NULL))
    {
      if (entered && self->stored != NULL && self->read_back != NULL)
        hs_field_row_say (self, self->read_back, TRUE);
      else if (entered)
        g_signal_emit (self, signals[ONWARD], 0);
      return;
    }
  if (self->sent != NULL)
    {
      self->entered |= entered;
      self->again = !is_text (self, self->sent);
      if (entered)
        hs_late_keys_hold (self->late);
      return;
    }
  if (!entered && g_strcmp0 (attempt, self->refused) == 0)
    return;
  self->entered = entered;
  self->sent = g_strdup (text);
  if (entered)
    hs_late_keys_hold (self->late);
  g_signal_emit (self, signals[STORE], 0, self->sent, *why != '\0' ? why : NULL);
}

static gboolean
set_cb (gpointer data)
{
  HsFieldRow *self = data;

  self->set_idle = 0;
  store (self, FALSE);
  return G_SOURCE_REMOVE;
}

/* What a voice or a switch sets has no focus that could leave it: it is there at once. */
static void
store_set (HsFieldRow *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (self->set_idle == 0 && (focus == NULL || !gtk_widget_is_ancestor (focus, GTK_WIDGET (self))))
    self->set_idle = g_idle_add (set_cb, self);
}

static void
changed_cb (HsFieldRow *self)
{
  if (self->filling)
    return;
  g_signal_emit (self, signals[TYPED], 0, gtk_editable_get_text (self->entry));
  store_set (self);
}

static void
left_cb (HsFieldRow *self)
{
  store (self, FALSE);
}

void
hs_field_row_enter (HsFieldRow *self)
{
  g_return_if_fail (HS_IS_FIELD_ROW (self));

  store (self, TRUE);
}

static void
hs_field_row_finalize (GObject *object)
{
  HsFieldRow *self = HS_FIELD_ROW (object);

  g_clear_handle_id (&self->set_idle, g_source_remove);
  g_free (self->id);
  g_free (self->stored);
  g_free (self->read_back);
  g_free (self->sent);
  g_free (self->refused);
  G_OBJECT_CLASS (hs_field_row_parent_class)->finalize (object);
}

/* What is stored is keyed anew by the next key; what is half typed goes on at its end. */
static gboolean
grab_focus (GtkWidget *widget)
{
  HsFieldRow *self = HS_FIELD_ROW (widget);

  if (is_text (self, NULL) || is_text (self, self->stored))
    return gtk_widget_grab_focus (GTK_WIDGET (self->entry));
  if (!gtk_entry_grab_focus_without_selecting (GTK_ENTRY (self->entry)))
    return FALSE;
  gtk_editable_set_position (self->entry, -1);
  return TRUE;
}

static void
hs_field_row_class_init (HsFieldRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_field_row_finalize;
  widget_class->grab_focus = grab_focus;
  signals[TYPED] = g_signal_new ("typed", HS_TYPE_FIELD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_STRING);
  signals[STORE] = g_signal_new ("store", HS_TYPE_FIELD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                                 G_TYPE_STRING, G_TYPE_STRING);
  signals[ONWARD] = g_signal_new ("onward", HS_TYPE_FIELD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-field-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HsFieldRow, title);
  gtk_widget_class_bind_template_child (widget_class, HsFieldRow, choices);
  gtk_widget_class_bind_template_child (widget_class, HsFieldRow, entry);
  gtk_widget_class_bind_template_child (widget_class, HsFieldRow, why_box);
  gtk_widget_class_bind_template_child (widget_class, HsFieldRow, why);
  gtk_widget_class_bind_template_child (widget_class, HsFieldRow, said);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, left_cb);
  gtk_widget_class_bind_template_callback (widget_class, hs_field_row_enter);
}

static void
hs_field_row_init (HsFieldRow *self)
{
  self->late = hs_late_keys_new (GTK_WIDGET (self));
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
hs_field_row_new (const char *id, const char *title)
{
  HsFieldRow *self = g_object_new (HS_TYPE_FIELD_ROW, NULL);

  self->id = g_strdup (id);
  gtk_label_set_label (self->title, title);
  return GTK_WIDGET (self);
}

const char *
hs_field_row_get_id (HsFieldRow *self)
{
  g_return_val_if_fail (HS_IS_FIELD_ROW (self), NULL);

  return self->id;
}

static void
show_label (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

/* Words that came or went have moved what has the focus; once that is laid out it is brought back into sight. */
static gboolean
reveal_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  HsFieldRow *self = HS_FIELD_ROW (widget);
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));
  GtkWidget *scroll = gtk_widget_get_ancestor (widget, GTK_TYPE_VIEWPORT);
  GtkAdjustment *down;
  graphene_rect_t box;

  if (++self->frames < FRAMES_TO_LAY_OUT)
    return G_SOURCE_CONTINUE;
  self->tick = 0;
  if (focus == NULL || scroll == NULL || !gtk_widget_is_ancestor (focus, scroll)
      || !gtk_widget_compute_bounds (focus, scroll, &box))
    return G_SOURCE_REMOVE;
  down = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (scroll));
  gtk_adjustment_clamp_page (down, gtk_adjustment_get_value (down) + box.origin.y - REVEAL_MARGIN,
                             gtk_adjustment_get_value (down) + box.origin.y + box.size.height + REVEAL_MARGIN);
  return G_SOURCE_REMOVE;
}

static void
reveal_focus (HsFieldRow *self)
{
  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  self->frames = 0;
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), reveal_cb, NULL, NULL);
}

static GtkWidget *
choice_new (guint digit, const char *answer)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *words = gtk_label_new (answer);
  g_autofree char *key = g_strdup_printf ("%u", digit);

  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_widget_add_css_class (words, "hs-caption");
  gtk_widget_set_margin_end (box, 8);
  gtk_box_append (GTK_BOX (box), hs_keycap_new (key));
  gtk_box_append (GTK_BOX (box), words);
  return box;
}

void
hs_field_row_set_choices (HsFieldRow *self, const char *const *answers)
{
  GtkWidget *child;

  g_return_if_fail (HS_IS_FIELD_ROW (self));

  while ((child = gtk_widget_get_first_child (self->choices)) != NULL)
    gtk_widget_unparent (child);
  for (guint i = 0; answers != NULL && answers[i] != NULL; i++)
    gtk_box_append (GTK_BOX (self->choices), choice_new (i + 1, answers[i]));
  gtk_widget_set_visible (self->choices, answers != NULL && answers[0] != NULL);
}

void
hs_field_row_set_pad (HsFieldRow *self)
{
  g_return_if_fail (HS_IS_FIELD_ROW (self));

  gtk_entry_set_input_purpose (GTK_ENTRY (self->entry), GTK_INPUT_PURPOSE_DIGITS);
}

void
hs_field_row_set_read_back (HsFieldRow *self, const char *text)
{
  g_return_if_fail (HS_IS_FIELD_ROW (self));

  g_free (self->read_back);
  self->read_back = g_strdup (text);
}

gboolean
hs_field_row_is_stored (HsFieldRow *self)
{
  g_return_val_if_fail (HS_IS_FIELD_ROW (self), FALSE);

  return self->stored != NULL;
}

gboolean
hs_field_row_is_bare (HsFieldRow *self)
{
  g_return_val_if_fail (HS_IS_FIELD_ROW (self), FALSE);

  return self->stored == NULL && is_text (self, NULL);
}

void
hs_field_row_set_stored (HsFieldRow *self, const char *text)
{
  gboolean untouched;

  g_return_if_fail (HS_IS_FIELD_ROW (self));

  if (text != NULL && *text == '\0')
    text = NULL;
  untouched = is_text (self, self->stored) || (self->sent != NULL && is_text (self, self->sent));
  if (g_strcmp0 (text, self->stored) != 0)
    {
      g_free (self->stored);
      self->stored = g_strdup (text);
    }
  if (untouched && self->sent == NULL)
    fill (self, self->stored);
}

void
hs_field_row_say (HsFieldRow *self, const char *text, gboolean strong)
{
  g_return_if_fail (HS_IS_FIELD_ROW (self));

  if (self->refused != NULL)
    return;
  if (g_strcmp0 (gtk_label_get_label (self->said), text != NULL ? text : "") != 0)
    reveal_focus (self);
  show_label (self->said, text);
  if (strong)
    gtk_widget_add_css_class (GTK_WIDGET (self->said), "hs-strong");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->said), "hs-strong");
}

static void
ask_why (HsFieldRow *self, gboolean asks_why)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  gboolean was_there = focus != NULL && gtk_widget_is_ancestor (focus, self->why_box);

  if (!asks_why && was_there)
    gtk_widget_grab_focus (GTK_WIDGET (self->entry));
  if (!asks_why)
    gtk_editable_set_text (self->why, "");
  gtk_widget_set_visible (self->why_box, asks_why);
}

/* What was entered is stored: on to the next, with the keys that were quicker than the book. What was typed over it
 * meanwhile goes to the book first. */
static void
go_on (HsFieldRow *self)
{
  gboolean entered = self->entered, again = self->again;

  self->entered = FALSE;
  self->again = FALSE;
  if (again)
    {
      store (self, entered);
      if (self->sent != NULL)
        return;
      entered = FALSE;
    }
  if (entered)
    g_signal_emit (self, signals[ONWARD], 0);
  hs_late_keys_release (self->late);
}

/* What was sent is what stands in the book, unless it spelled it out; then it is shown anew. */
void
hs_field_row_accept (HsFieldRow *self)
{
  g_return_if_fail (HS_IS_FIELD_ROW (self));

  if (self->sent != NULL && (self->again || is_text (self, self->sent)))
    {
      g_free (self->stored);
      self->stored = g_strdup (*self->sent != '\0' ? self->sent : NULL);
      if (is_text (self, self->stored))
        forget_typing (self);
    }
  g_clear_pointer (&self->sent, g_free);
  g_clear_pointer (&self->refused, g_free);
  show_label (self->said, NULL);
  ask_why (self, FALSE);
  g_signal_emit (self, signals[TYPED], 0, "");
  go_on (self);
}

void
hs_field_row_refuse (HsFieldRow *self, const char *message, gboolean asks_why)
{
  g_return_if_fail (HS_IS_FIELD_ROW (self));

  g_clear_pointer (&self->sent, g_free);
  g_clear_pointer (&self->refused, g_free);
  if (self->again)
    {
      /* Something else stands there by now; that is what is asked for. */
      go_on (self);
      return;
    }
  hs_field_row_say (self, message, TRUE);
  self->refused = dup_attempt (self);
  ask_why (self, asks_why);
  self->entered = FALSE;
  /* They were meant for another field. */
  hs_late_keys_drop (self->late);
}

void
hs_field_row_drop_keys (HsFieldRow *self)
{
  g_return_if_fail (HS_IS_FIELD_ROW (self));

  hs_late_keys_drop (self->late);
}

const char *
hs_field_row_get_text (HsFieldRow *self)
{
  g_return_val_if_fail (HS_IS_FIELD_ROW (self), NULL);

  return gtk_editable_get_text (self->entry);
}

void
hs_field_row_set_text (HsFieldRow *self, const char *text)
{
  g_return_if_fail (HS_IS_FIELD_ROW (self));

  fill (self, text);
  gtk_editable_set_position (self->entry, -1);
}
