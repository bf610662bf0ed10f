// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One entry of a vehicle's history. What must not be told to the present owner is not in the entry to begin with. */

#include "hs-history-row.h"

#include <glib/gi18n.h>

#include "hs-change-grid.h"
#include "hs-glyph.h"
#include "hs-show.h"

struct _HsHistoryRow
{
  AdwBin parent_instance;

  GtkBox *columns;
  GtkBox *date;
  GtkLabel *day;
  GtkLabel *year;
  HsGlyph *glyph;
  GtkLabel *title;
  GtkLabel *number;
  GtkLabel *detail;
  GtkLabel *more;
  HsChangeGrid *changes;
  char *job_id;
};

G_DEFINE_FINAL_TYPE (HsHistoryRow, hs_history_row, ADW_TYPE_BIN)

static void
hs_history_row_finalize (GObject *object)
{
  g_free (HS_HISTORY_ROW (object)->job_id);
  G_OBJECT_CLASS (hs_history_row_parent_class)->finalize (object);
}

static void
hs_history_row_class_init (HsHistoryRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_history_row_finalize;
  g_type_ensure (HS_TYPE_GLYPH);
  g_type_ensure (HS_TYPE_CHANGE_GRID);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-history-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HsHistoryRow, columns);
  gtk_widget_class_bind_template_child (widget_class, HsHistoryRow, date);
  gtk_widget_class_bind_template_child (widget_class, HsHistoryRow, day);
  gtk_widget_class_bind_template_child (widget_class, HsHistoryRow, year);
  gtk_widget_class_bind_template_child (widget_class, HsHistoryRow, glyph);
  gtk_widget_class_bind_template_child (widget_class, HsHistoryRow, title);
  gtk_widget_class_bind_template_child (widget_class, HsHistoryRow, number);
  gtk_widget_class_bind_template_child (widget_class, HsHistoryRow, detail);
  gtk_widget_class_bind_template_child (widget_class, HsHistoryRow, more);
  gtk_widget_class_bind_template_child (widget_class, HsHistoryRow, changes);
}

static void
hs_history_row_init (HsHistoryRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
set_shown (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static void
set_day (HsHistoryRow *self, HsDate day)
{
  g_autofree char *short_day = hs_show_day (day);
  g_autofree char *year_text = NULL;
  int year = 0;

  if (day != HS_DATE_NONE)
    hs_date_to_ymd (day, &year, NULL, NULL);
  year_text = year > 0 ? g_strdup_printf ("%d", year) : g_strdup ("");
  gtk_label_set_label (self->day, short_day);
  gtk_label_set_label (self->year, year_text);
}

static void
append_texts (GString *lines, GPtrArray *texts, const char *lead)
{
  for (guint i = 0; texts != NULL && i < texts->len; i++)
    g_string_append_printf (lines, "%s%s %s", lines->len > 0 ? "\n" : "", lead,
                            (const char *) g_ptr_array_index (texts, i));
}

static void
set_more (HsHistoryRow *self, HsLedger *ledger, const HsHistoryEntry *entry)
{
  g_autoptr (GString) lines = g_string_new (NULL);

  append_texts (lines, entry->parts, _("Installed:"));
  append_texts (lines, entry->advice, _("Put off:"));
  if (entry->total_cents > 0)
    {
      g_autofree char *total = hs_show_money (ledger, entry->total_cents);

      g_string_append_printf (lines, "%s%s %s", lines->len > 0 ? "\n" : "", _("Total"), total);
    }
  set_shown (self->more, lines->str);
}

/* The day goes over the words instead of beside them. */
static void
set_narrow (HsHistoryRow *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->columns), GTK_ORIENTATION_VERTICAL);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->date), GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_spacing (self->columns, 4);
  gtk_box_set_spacing (self->date, 8);
  gtk_widget_set_visible (GTK_WIDGET (self->glyph), FALSE);
}

static void
set_changes (HsHistoryRow *self, GPtrArray *readings, gboolean narrow)
{
  gtk_widget_set_visible (GTK_WIDGET (self->changes), readings != NULL && readings->len > 0);
  hs_change_grid_set_narrow (self->changes, narrow);
  for (guint i = 0; readings != NULL && i < readings->len; i++)
    {
      const HsHistoryReading *reading = g_ptr_array_index (readings, i);
      HsChange change = { hs_show_data (reading->name), hs_show_data (reading->before),
                          hs_show_verdict (reading->before_word),
                          hs_show_verdict_shape (reading->before_verdict, reading->before_word),
                          hs_show_data (reading->after), hs_show_verdict (reading->after_word),
                          hs_show_verdict_shape (reading->after_verdict, reading->after_word) };

      hs_change_grid_append (self->changes, &change);
    }
}

GtkWidget *
hs_history_row_new (HsLedger *ledger, const HsHistoryEntry *entry, gboolean narrow)
{
  HsHistoryRow *self = g_object_new (HS_TYPE_HISTORY_ROW, NULL);
  gboolean is_job = entry->kind == HS_HISTORY_JOB;
  g_autofree char *title = is_job ? hs_show_quoted (entry->title) : g_strdup (entry->title);

  self->job_id = g_strdup (entry->job_id);
  if (narrow)
    set_narrow (self);
  set_day (self, entry->day);
  hs_glyph_set_name (self->glyph, is_job && entry->stage != NULL && hs_glyph_known (entry->stage) ? entry->stage
                                  : entry->kind == HS_HISTORY_OWNER                               ? "turn"
                                                                                                  : "reading");
  gtk_label_set_label (self->title, title);
  set_shown (self->number, entry->job_number);
  set_shown (self->detail, entry->detail);
  set_more (self, ledger, entry);
  set_changes (self, entry->readings, narrow);
  return GTK_WIDGET (self);
}

const char *
hs_history_row_get_job_id (HsHistoryRow *self)
{
  g_return_val_if_fail (HS_IS_HISTORY_ROW (self), NULL);

  return self->job_id;
}
