// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Counters' holidays.
 *
 *   hs_ask_holidays ─▶ a row each, today's and later      Enter ─▶ hs_deed_add_holiday ─▶ the book's own rule judges
 *   Delete on a row, or its button ─▶ hs_deed_remove_holiday      the latest change ─▶ Undo
 *
 * It refuses nothing by itself. Only the latest change can be taken back. */

#include "hs-holiday-card.h"

#include <glib/gi18n.h>

#include "hs-area-choice.h"
#include "hs-deed-holiday.h"
#include "hs-key-button.h"
#include "hs-offer-row.h"
#include "hs-question.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-time.h"
#include "hs-wide-layout.h"

struct _HsHolidayCard
{
  AdwBin parent_instance;

  GtkLabel *none;
  GtkListBox *list;
  HsAreaChoice *counter;
  GtkEditable *day;
  GtkEditable *opens;
  GtkEditable *shuts;
  GtkEditable *words;
  GtkWidget *undo_child;

  HsLedger *ledger;
  HsQuestion *holidays;
  HsQuestion *counters;
  HsSnapshot *undo;
  int back_to; /* the row that takes the focus with the next list; -1: none */
};

G_DEFINE_FINAL_TYPE (HsHolidayCard, hs_holiday_card, ADW_TYPE_BIN)

static guint told_signal;

#define ROW_ID "holiday-id"

/* Rows. */

static void
set_undo (HsHolidayCard *self, HsHolidayUndo *undo)
{
  g_clear_pointer (&self->undo, hs_snapshot_unref);
  self->undo = undo != NULL ? hs_snapshot_new (undo, (GDestroyNotify) hs_holiday_undo_free) : NULL;
  gtk_widget_set_visible (self->undo_child, undo != NULL);
}

/* Says what came of it; %TRUE if it was written. */
static gboolean
finish (HsHolidayCard *self, GObject *source, GAsyncResult *result, gpointer *ret_answer)
{
  g_autoptr (GError) error = NULL;
  gboolean good = hs_ledger_task_finish (HS_LEDGER (source), result, ret_answer, &error);

  g_signal_emit (self, told_signal, 0, good ? _("Written down.") : error->message, good);
  return good;
}

static void
removed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsHolidayCard) self = HS_HOLIDAY_CARD (data);
  gpointer undo = NULL;

  if (finish (self, source, result, &undo))
    set_undo (self, undo);
  else
    self->back_to = -1;
}

static void
remove_row (HsHolidayCard *self, GtkWidget *row)
{
  self->back_to = gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (row));
  hs_deed_remove_holiday (self->ledger, g_object_get_data (G_OBJECT (row), ROW_ID), removed_cb, g_object_ref (self));
}

static void
remove_cb (GtkWidget *button)
{
  HsHolidayCard *self = HS_HOLIDAY_CARD (gtk_widget_get_ancestor (button, HS_TYPE_HOLIDAY_CARD));

  remove_row (self, gtk_widget_get_ancestor (button, GTK_TYPE_LIST_BOX_ROW));
}

static gboolean
list_key_cb (HsHolidayCard *self, guint keyval, guint keycode, GdkModifierType state)
{
  GtkWidget *row = gtk_widget_get_focus_child (GTK_WIDGET (self->list));

  if (row == NULL || (keyval != GDK_KEY_Delete && keyval != GDK_KEY_KP_Delete))
    return GDK_EVENT_PROPAGATE;
  remove_row (self, row);
  return GDK_EVENT_STOP;
}

static char *
dup_hours (const HsHoliday *holiday)
{
  g_autofree char *opens = NULL, *shuts = NULL;

  if (holiday->opens_minutes == HS_INT_NONE)
    return g_strdup (_("shut"));
  opens = hs_clock_format ((int) holiday->opens_minutes);
  shuts = hs_clock_format ((int) holiday->shuts_minutes);
  return g_strdup_printf ("%s–%s", opens, shuts);
}

/* The words wrap, letter by letter where a row is narrow: not what the list is to ask room for. */
static GtkWidget *
as_low_as_can_be (GtkWidget *box)
{
  return g_object_new (ADW_TYPE_BIN, "layout-manager", g_object_new (HS_TYPE_WIDE_LAYOUT, NULL), "child", box, NULL);
}

static void
add_row (HsHolidayCard *self, const HsHoliday *holiday)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *button = hs_key_button_new (NULL, _("Remove"), NULL);
  const char *counter = holiday->counter != NULL ? holiday->counter : _("All counters");
  g_autofree char *iso = hs_date_format (holiday->day), *day = hs_show_full_day (holiday->day);
  g_autofree char *hours = dup_hours (holiday);
  g_autofree char *detail = hs_show_joined (counter, day, holiday->words != NULL ? holiday->words : "", NULL);
  g_autofree char *title = g_strdup_printf ("%s, %s", iso, hours);
  g_autofree char *say = hs_show_joined (hours, detail, NULL);

  gtk_box_append (GTK_BOX (box), hs_offer_row_new_with_face (&(HsOfferFace){ NULL, title, NULL, detail, NULL }));
  gtk_widget_set_halign (button, GTK_ALIGN_END);
  gtk_widget_set_margin_end (button, 14);
  gtk_widget_set_margin_bottom (button, 8);
  g_signal_connect (button, "clicked", G_CALLBACK (remove_cb), NULL);
  gtk_box_append (GTK_BOX (box), button);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), as_low_as_can_be (box));
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  g_object_set_data_full (G_OBJECT (row), ROW_ID, g_strdup (holiday->id), g_free);
  hs_spoken_name (row, say);
  gtk_list_box_append (self->list, row);
}

/* Whoever took one away stands on the next one. */
static void
focus_back (HsHolidayCard *self, guint n_rows)
{
  int at = self->back_to;

  self->back_to = -1;
  if (at < 0)
    return;
  if (n_rows == 0)
    gtk_widget_grab_focus (GTK_WIDGET (self->day));
  else
    gtk_widget_grab_focus (GTK_WIDGET (gtk_list_box_get_row_at_index (self->list, MIN (at, (int) n_rows - 1))));
}

static void
holidays_cb (HsHolidayCard *self)
{
  GPtrArray *holidays = hs_question_get (self->holidays);
  const char *trouble = hs_question_get_trouble (self->holidays);
  GtkListBoxRow *old;

  while ((old = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (old));
  for (guint i = 0; holidays != NULL && i < holidays->len; i++)
    add_row (self, g_ptr_array_index (holidays, i));
  gtk_widget_set_visible (GTK_WIDGET (self->list), holidays != NULL && holidays->len > 0);
  gtk_label_set_label (self->none, trouble != NULL ? trouble
                                                   : _("No day is coming on which a counter keeps other hours than "
                                                       "those of its week."));
  gtk_widget_set_visible (GTK_WIDGET (self->none), holidays == NULL || holidays->len == 0);
  focus_back (self, holidays != NULL ? holidays->len : 0);
}

static void
counters_cb (HsHolidayCard *self)
{
  hs_area_choice_set_places (self->counter, hs_question_get_snapshot (self->counters));
}

/* One more. */

static void
added_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsHolidayCard) self = HS_HOLIDAY_CARD (data);
  GtkEditable *const entries[] = { self->day, self->opens, self->shuts, self->words };
  gpointer undo = NULL;

  if (!finish (self, source, result, &undo))
    return;
  set_undo (self, undo);
  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    gtk_editable_set_text (entries[i], "");
  gtk_widget_grab_focus (GTK_WIDGET (self->day));
}

static void
add_cb (HsHolidayCard *self)
{
  const HsPlace *counter = hs_area_choice_get_place (self->counter);
  const char *fields[] = { counter != NULL ? counter->code : "", gtk_editable_get_text (self->day),
                           gtk_editable_get_text (self->opens), gtk_editable_get_text (self->shuts),
                           gtk_editable_get_text (self->words), NULL };

  hs_deed_add_holiday (self->ledger, fields, added_cb, g_object_ref (self));
}

typedef struct
{
  HsHolidayCard *self;
  HsSnapshot *held; /* the worker reads it */
} Undoing;

static void
undone_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Undoing *undoing = data;

  finish (undoing->self, source, result, NULL);
  set_undo (undoing->self, NULL);
  gtk_widget_grab_focus (GTK_WIDGET (undoing->self->day));
  hs_snapshot_unref (undoing->held);
  g_object_unref (undoing->self);
  g_free (undoing);
}

static void
undo_cb (HsHolidayCard *self)
{
  Undoing *undoing;

  if (self->undo == NULL)
    return;
  undoing = g_new0 (Undoing, 1);
  undoing->self = g_object_ref (self);
  undoing->held = hs_snapshot_ref (self->undo);
  hs_deed_take_back_holiday (self->ledger, self->undo, undone_cb, undoing);
}

static void
hs_holiday_card_dispose (GObject *object)
{
  HsHolidayCard *self = HS_HOLIDAY_CARD (object);

  g_clear_object (&self->holidays);
  g_clear_object (&self->counters);
  g_clear_object (&self->ledger);
  g_clear_pointer (&self->undo, hs_snapshot_unref);
  G_OBJECT_CLASS (hs_holiday_card_parent_class)->dispose (object);
}

static void
hs_holiday_card_class_init (HsHolidayCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_holiday_card_dispose;
  told_signal = g_signal_new ("told", HS_TYPE_HOLIDAY_CARD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                              G_TYPE_STRING, G_TYPE_BOOLEAN);
  g_type_ensure (HS_TYPE_AREA_CHOICE);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-holiday-card.ui");
  gtk_widget_class_bind_template_child (widget_class, HsHolidayCard, none);
  gtk_widget_class_bind_template_child (widget_class, HsHolidayCard, list);
  gtk_widget_class_bind_template_child (widget_class, HsHolidayCard, counter);
  gtk_widget_class_bind_template_child (widget_class, HsHolidayCard, day);
  gtk_widget_class_bind_template_child (widget_class, HsHolidayCard, opens);
  gtk_widget_class_bind_template_child (widget_class, HsHolidayCard, shuts);
  gtk_widget_class_bind_template_child (widget_class, HsHolidayCard, words);
  gtk_widget_class_bind_template_child (widget_class, HsHolidayCard, undo_child);
  gtk_widget_class_bind_template_callback (widget_class, list_key_cb);
  gtk_widget_class_bind_template_callback (widget_class, add_cb);
  gtk_widget_class_bind_template_callback (widget_class, undo_cb);
}

static void
hs_holiday_card_init (HsHolidayCard *self)
{
  self->back_to = -1;
  gtk_widget_init_template (GTK_WIDGET (self));
  hs_area_choice_set_words (self->counter, _("Counter"), _("All counters"));
}

void
hs_holiday_card_set_ledger (HsHolidayCard *self, HsLedger *ledger)
{
  g_return_if_fail (HS_IS_HOLIDAY_CARD (self));
  g_return_if_fail (self->ledger == NULL);

  self->ledger = g_object_ref (ledger);
  self->holidays = hs_question_new (ledger, hs_ask_holidays, (GDestroyNotify) g_ptr_array_unref);
  self->counters = hs_question_new (ledger, hs_ask_counters, (GDestroyNotify) g_ptr_array_unref);
  g_signal_connect_object (self->holidays, "answered", G_CALLBACK (holidays_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->counters, "answered", G_CALLBACK (counters_cb), self, G_CONNECT_SWAPPED);
  hs_question_ask (self->holidays, g_variant_new ("(i)", hs_ledger_get_today (ledger)));
  hs_question_ask (self->counters, NULL);
}

void
hs_holiday_card_flush (HsHolidayCard *self)
{
  GtkEditable *const entries[] = { self->day, self->opens, self->shuts, self->words };
  gboolean typed = FALSE;

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    typed |= *gtk_editable_get_text (entries[i]) != '\0';
  if (typed)
    add_cb (self);
}

GtkEditable *
hs_holiday_card_get_entry (HsHolidayCard *self, const char *name)
{
  GObject *child;

  g_return_val_if_fail (HS_IS_HOLIDAY_CARD (self), NULL);

  child = gtk_widget_get_template_child (GTK_WIDGET (self), HS_TYPE_HOLIDAY_CARD, name);
  return GTK_IS_EDITABLE (child) ? GTK_EDITABLE (child) : NULL;
}
