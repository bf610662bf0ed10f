// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A slip for one counter. Sums count job needs and what is in hand at leaving; deposits stand apart; what may come off
 * on the way is not here but under "maybe". */

#include "hs-run-slip.h"

#include <glib/gi18n.h>

#include "hs-flow-layout.h"
#include "hs-run-line.h"
#include "hs-show.h"
#include "hs-slip.h"

struct _HsRunSlip
{
  AdwBin parent_instance;

  GtkLabel *number;
  GtkLabel *supplier;
  GtkLabel *where;
  HsOpenRail *hours;
  GtkBox *columns;
  GtkBox *pick_up;
  GtkBox *drop_off;
  GtkBox *give_back;
  GtkLabel *pick_up_sum;
  GtkLabel *drop_off_sum;
  GtkLabel *give_back_sum;
  GtkLabel *pay;
  GtkLabel *pay_note;
  GtkLabel *back;
  GtkLabel *back_note;
};

G_DEFINE_FINAL_TYPE (HsRunSlip, hs_run_slip, ADW_TYPE_BIN)

enum
{
  TICKED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
hs_run_slip_class_init (HsRunSlipClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  signals[TICKED] = g_signal_new ("ticked", HS_TYPE_RUN_SLIP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 3,
                                  G_TYPE_STRING, G_TYPE_STRING, G_TYPE_BOOLEAN);
  g_type_ensure (HS_TYPE_SLIP);
  g_type_ensure (HS_TYPE_OPEN_RAIL);
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-run-slip.ui");
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, number);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, supplier);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, where);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, hours);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, columns);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, pick_up);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, drop_off);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, give_back);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, pick_up_sum);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, drop_off_sum);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, give_back_sum);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, pay);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, pay_note);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, back);
  gtk_widget_class_bind_template_child (widget_class, HsRunSlip, back_note);
}

static void
hs_run_slip_init (HsRunSlip *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
ticked_cb (HsRunSlip *self, const char *list, const char *row_id, gboolean done)
{
  g_signal_emit (self, signals[TICKED], 0, list, row_id, done);
}

static void
fill_column (HsRunSlip *self, GtkBox *column, HsLedger *ledger, const char *list, GPtrArray *rows)
{
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      GtkWidget *line = hs_run_line_new (ledger, list, g_ptr_array_index (rows, i));

      g_signal_connect_object (line, "ticked", G_CALLBACK (ticked_cb), self, G_CONNECT_SWAPPED);
      gtk_box_append (column, line);
    }
  if (rows == NULL || rows->len == 0)
    {
      GtkWidget *none = gtk_label_new (_("nothing"));

      gtk_label_set_xalign (GTK_LABEL (none), 0);
      gtk_widget_add_css_class (none, "hs-caption");
      gtk_box_append (column, none);
    }
}

static void
set_sum (GtkLabel *label, HsLedger *ledger, gint64 cents)
{
  g_autofree char *sum = hs_show_money (ledger, cents);

  gtk_label_set_label (label, sum);
}

/* "118.00 + deposit 45.00", or nothing where there is only one of them. */
static void
set_parts_of (GtkLabel *label, HsLedger *ledger, gint64 first, const char *word, gint64 second)
{
  g_autofree char *one = hs_show_money (ledger, first), *two = hs_show_money (ledger, second);
  g_autofree char *rest = g_strdup_printf ("%s%s", word, two);
  g_autofree char *text = first > 0 && second > 0 ? g_strdup_printf ("%s + %s", one, rest) : g_strdup ("");

  gtk_label_set_label (label, text);
}

static int
minute_of (HsLedger *ledger, HsInstant instant)
{
  HsDate day;
  int seconds;

  if (instant == HS_INSTANT_NONE)
    return -1;
  hs_instant_to_local (hs_ledger_get_zone (ledger), instant, &day, &seconds);
  return seconds / 60;
}

static void
set_hours (HsRunSlip *self, HsLedger *ledger, const HsPartsRun *run, const HsRunCounter *counter)
{
  g_autoptr (GArray) minutes = g_array_new (FALSE, FALSE, sizeof (int));

  for (guint i = 0; i < run->plan->spans->len; i++)
    {
      const HsCounterSpan *span = g_ptr_array_index (run->plan->spans, i);
      int opens = minute_of (ledger, span->opens), shuts = minute_of (ledger, span->shuts);

      if (g_strcmp0 (span->supplier, counter->supplier) != 0)
        continue;
      shuts = shuts == 0 ? 24 * 60 : shuts;
      g_array_append_val (minutes, opens);
      g_array_append_val (minutes, shuts);
    }
  hs_open_rail_set (self->hours, (const int *) (void *) minutes->data, minutes->len / 2,
                    minute_of (ledger, counter->arrive));
}

static void
fill_head (HsRunSlip *self, HsLedger *ledger, const HsPartsRun *run, const HsRunCounter *counter, const char *place)
{
  g_autofree char *number = counter->stop_number > 0 ? g_strdup_printf ("%u", counter->stop_number) : g_strdup ("–");
  g_autofree char *arrive = hs_show_clock (ledger, counter->arrive);
  g_autofree char *stay = hs_show_span (counter->stop_seconds);
  g_autofree char *when = *arrive != '\0' ? g_strdup_printf ("%s, %s", arrive, stay) : NULL;
  const char *area = place != NULL ? place : counter->area;
  const char *or_why = when != NULL ? when : counter->why_not;
  g_autofree char *where = hs_show_joined (area != NULL ? area : "", or_why != NULL ? or_why : "", NULL);

  gtk_label_set_label (self->number, number);
  gtk_label_set_label (self->supplier, counter->supplier);
  gtk_label_set_label (self->where, where);
  set_hours (self, ledger, run, counter);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, counter->supplier, -1);
}

GtkWidget *
hs_run_slip_new (HsLedger *ledger, const HsPartsRun *run, const HsRunCounter *counter, const char *place,
                 gboolean narrow)
{
  HsRunSlip *self = g_object_new (HS_TYPE_RUN_SLIP, NULL);

  fill_head (self, ledger, run, counter, place);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->columns),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_homogeneous (self->columns, !narrow);
  fill_column (self, self->pick_up, ledger, "pick_up", counter->pick_up);
  fill_column (self, self->drop_off, ledger, "drop_off", counter->drop_off);
  fill_column (self, self->give_back, ledger, "return", counter->give_back);
  set_sum (self->pick_up_sum, ledger, counter->pick_up_cents);
  set_sum (self->drop_off_sum, ledger, counter->drop_off_cents);
  set_sum (self->give_back_sum, ledger, counter->give_back_cents);
  /* Nothing changes hands where she can't stop. */
  if (counter->stop_number == 0)
    {
      set_sum (self->pay, ledger, 0);
      set_sum (self->back, ledger, 0);
      return GTK_WIDGET (self);
    }
  set_sum (self->pay, ledger, counter->pick_up_cents + counter->deposit_cents);
  set_sum (self->back, ledger, counter->drop_off_cents + counter->give_back_cents);
  set_parts_of (self->pay_note, ledger, counter->pick_up_cents, _("deposit "), counter->deposit_cents);
  set_parts_of (self->back_note, ledger, counter->drop_off_cents, "", counter->give_back_cents);
  return GTK_WIDGET (self);
}
