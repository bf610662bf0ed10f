// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The figures at the top of the day. Use it above the list of stops; it holds no plan, only what it was told last. */

#include "hs-day-figures.h"

#include <glib/gi18n.h>

#include "hs-face.h"
#include "hs-show.h"

struct _HsDayFigures
{
  AdwBin parent_instance;

  GtkLabel *leave;
  GtkLabel *leave_note;
  GtkLabel *home;
  GtkLabel *home_note;
  GtkLabel *drive;
  GtkLabel *drive_note;
  GtkLabel *spare;
  GtkLabel *spare_note;
  GtkLabel *cost;
  GtkWidget *drive_box;
  GtkWidget *spare_box;
  GtkWidget *cost_box;
};

G_DEFINE_FINAL_TYPE (HsDayFigures, hs_day_figures, ADW_TYPE_BIN)

static void
hs_day_figures_class_init (HsDayFiguresClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-day-figures.ui");
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, leave);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, leave_note);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, home);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, home_note);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, drive);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, drive_note);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, spare);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, spare_note);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, cost);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, drive_box);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, spare_box);
  gtk_widget_class_bind_template_child (widget_class, HsDayFigures, cost_box);
}

static void
hs_day_figures_init (HsDayFigures *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
set_figure (GtkLabel *label, const char *figure, const char *unit)
{
  g_autofree char *text = unit != NULL ? g_markup_printf_escaped ("%s<span size='50%%'> %s</span>", figure, unit)
                                       : g_markup_escape_text (*figure != '\0' ? figure : "—", -1);

  gtk_label_set_markup (label, text);
}

/* Under the figure, which has no sign. */
static char *
dup_spare_note (const HsDayPlan *plan, int minutes)
{
  if (plan->spare_at == NULL)
    return g_strdup (_("spare"));
  return g_strdup_printf (minutes >= 0 ? _("spare, least, at %s") : _("late, most, at %s"), plan->spare_at);
}

void
hs_day_figures_set_plan (HsDayFigures *self, HsLedger *ledger, const HsDayPlan *plan)
{
  g_autofree char *leave = hs_show_clock (ledger, plan->leave);
  g_autofree char *home = hs_show_clock (ledger, plan->home);
  g_autofree char *drive = hs_show_minutes (plan->drive_seconds);
  g_autofree char *miles = hs_show_miles (plan->millimiles);
  int minutes = hs_face_spare_minutes (plan->spare_seconds);
  g_autofree char *spare = plan->spare_at != NULL ? g_strdup_printf ("%d", ABS (minutes)) : g_strdup ("—");
  g_autofree char *cost = hs_show_money (ledger, plan->cost_cents);
  g_autofree char *drive_note = g_strdup_printf (_("drive, %s mi"), miles);
  g_autofree char *spare_note = dup_spare_note (plan, minutes);
  g_autofree char *leave_note = hs_face_dup_leave_note (ledger, plan);
  g_autofree char *home_note = hs_face_dup_home_note (plan);

  g_return_if_fail (HS_IS_DAY_FIGURES (self));

  set_figure (self->leave, leave, NULL);
  set_figure (self->home, home, NULL);
  set_figure (self->drive, drive, _("min"));
  set_figure (self->spare, spare, _("min"));
  set_figure (self->cost, cost, NULL);
  gtk_label_set_label (self->leave_note, leave_note);
  gtk_label_set_label (self->home_note, home_note);
  gtk_label_set_label (self->drive_note, drive_note);
  gtk_label_set_label (self->spare_note, spare_note);
}

void
hs_day_figures_set_narrow (HsDayFigures *self, gboolean narrow)
{
  g_return_if_fail (HS_IS_DAY_FIGURES (self));

  gtk_widget_set_visible (self->drive_box, !narrow);
  gtk_widget_set_visible (self->spare_box, !narrow);
  gtk_widget_set_visible (self->cost_box, !narrow);
}
