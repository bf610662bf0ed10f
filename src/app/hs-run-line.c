// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One thing to pick up, drop off or return. The tick is what the owner did; the book keeps it for the day. */

#include "hs-run-line.h"

#include <glib/gi18n.h>

#include "hs-act-check.h"
#include "hs-show.h"

/* What stays free above and below the line with the focus; its ring lies outside of it. */
#define REVEAL_MARGIN 6

struct _HsRunLine
{
  AdwBin parent_instance;

  GtkCheckButton *check;
  GtkLabel *part;
  GtkLabel *sum;
  GtkLabel *detail;
  GtkWidget *act_box;
  GtkLabel *act;
  char *list;
  char *id;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (HsRunLine, hs_run_line, ADW_TYPE_BIN)

enum
{
  TICKED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
toggled_cb (HsRunLine *self)
{
  if (!self->filling)
    g_signal_emit (self, signals[TICKED], 0, self->list, self->id, gtk_check_button_get_active (self->check));
}

static void
hs_run_line_finalize (GObject *object)
{
  g_free (HS_RUN_LINE (object)->list);
  g_free (HS_RUN_LINE (object)->id);
  G_OBJECT_CLASS (hs_run_line_parent_class)->finalize (object);
}

static void
hs_run_line_class_init (HsRunLineClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_run_line_finalize;
  signals[TICKED] = g_signal_new ("ticked", HS_TYPE_RUN_LINE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 3,
                                  G_TYPE_STRING, G_TYPE_STRING, G_TYPE_BOOLEAN);
  g_type_ensure (HS_TYPE_ACT_CHECK);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-run-line.ui");
  gtk_widget_class_bind_template_child (widget_class, HsRunLine, check);
  gtk_widget_class_bind_template_child (widget_class, HsRunLine, part);
  gtk_widget_class_bind_template_child (widget_class, HsRunLine, sum);
  gtk_widget_class_bind_template_child (widget_class, HsRunLine, detail);
  gtk_widget_class_bind_template_child (widget_class, HsRunLine, act_box);
  gtk_widget_class_bind_template_child (widget_class, HsRunLine, act);
  gtk_widget_class_bind_template_callback (widget_class, toggled_cb);
  gtk_widget_class_bind_template_callback (widget_class, hs_run_line_reveal);
}

static void
hs_run_line_init (HsRunLine *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* How sure a part is stands in the note, which is boxed. */
static char *
detail_of (HsLedger *ledger, const HsRunRow *row)
{
  g_autofree char *deposit_sum = row->deposit_cents > 0 ? hs_show_money (ledger, row->deposit_cents) : NULL;
  g_autofree char *deposit = deposit_sum != NULL ? g_strdup_printf (_("deposit %s"), deposit_sum) : NULL;
  g_autofree char *van = row->van != NULL ? g_strdup_printf (_("van %s"), row->van) : NULL;
  g_autofree char *day = hs_show_day (row->last_day);
  g_autofree char *due = *day != '\0' ? g_strdup_printf (_("due %s"), day) : NULL;

  return hs_show_joined (row->job_number != NULL ? row->job_number : "", van != NULL ? van : "",
                         hs_show_word (HS_WORDS_CORE_PLACE, row->where_now),
                         deposit != NULL ? deposit : "", due != NULL ? due : "", NULL);
}

GtkWidget *
hs_run_line_new (HsLedger *ledger, const char *list, const HsRunRow *row)
{
  HsRunLine *self = g_object_new (HS_TYPE_RUN_LINE, NULL);
  g_autofree char *part = row->quantity > 1 ? g_strdup_printf ("%s × %g", row->part, row->quantity)
                                            : g_strdup (row->part);
  g_autofree char *sum = row->cents >= 0 ? hs_show_money (ledger, row->cents) : g_strdup (_("price?"));
  g_autofree char *detail = detail_of (ledger, row);
  g_autofree char *say = hs_show_joined (part, sum, detail, row->note != NULL ? row->note : "", NULL);

  self->filling = TRUE;
  self->list = g_strdup (list);
  self->id = g_strdup (row->id);
  gtk_label_set_label (self->part, part);
  gtk_label_set_label (self->sum, sum);
  gtk_label_set_label (self->detail, detail);
  gtk_widget_set_visible (GTK_WIDGET (self->detail), *detail != '\0');
  gtk_label_set_label (self->act, row->note != NULL ? row->note : "");
  gtk_widget_set_visible (self->act_box, row->note != NULL);
  gtk_check_button_set_active (self->check, row->ticked);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->check), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
  self->filling = FALSE;
  return GTK_WIDGET (self);
}

const char *
hs_run_line_get_id (HsRunLine *self)
{
  g_return_val_if_fail (HS_IS_RUN_LINE (self), NULL);

  return self->id;
}

gboolean
hs_run_line_get_ticked (HsRunLine *self)
{
  g_return_val_if_fail (HS_IS_RUN_LINE (self), FALSE);

  return gtk_check_button_get_active (self->check);
}

void
hs_run_line_toggle (HsRunLine *self)
{
  g_return_if_fail (HS_IS_RUN_LINE (self));

  gtk_check_button_set_active (self->check, !gtk_check_button_get_active (self->check));
}

void
hs_run_line_reveal (HsRunLine *self)
{
  GtkWidget *scroller;
  GtkAdjustment *down;
  graphene_rect_t bounds;
  double top;

  g_return_if_fail (HS_IS_RUN_LINE (self));

  scroller = gtk_widget_get_ancestor (GTK_WIDGET (self), GTK_TYPE_SCROLLED_WINDOW);
  if (scroller == NULL || gtk_widget_get_height (GTK_WIDGET (self)) == 0
      || !gtk_widget_compute_bounds (GTK_WIDGET (self), scroller, &bounds))
    return;
  down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  top = gtk_adjustment_get_value (down) + (double) bounds.origin.y;
  gtk_adjustment_clamp_page (down, top - REVEAL_MARGIN, top + (double) bounds.size.height + REVEAL_MARGIN);
}

void
hs_run_line_focus (HsRunLine *self)
{
  g_return_if_fail (HS_IS_RUN_LINE (self));

  gtk_widget_grab_focus (GTK_WIDGET (self->check));
}
