// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The box in the board's first place. Before the first stop it says when to leave; later it says where to be next. */

#include "hs-next-card.h"

#include <glib/gi18n.h>

#include "hs-face.h"
#include "hs-ink.h"
#include "hs-key-button.h"
#include "hs-mover.h"
#include "hs-show.h"

#define LARGE_TEXT 1.5 /* times the usual size */

struct _HsNextCard
{
  AdwBin parent_instance;

  GtkLabel *spare;
  GtkWidget *time_row;
  GtkLabel *time;
  GtkLabel *title;
  GtkLabel *detail;
  GtkWidget *act_box;
  GtkLabel *act;
  GtkLabel *counts;
  GtkWidget *buttons;
  HsKeyButton *next_button;
  HsKeyButton *why_button;

  gboolean narrow;
  gboolean key_is_elsewhere;
};

G_DEFINE_FINAL_TYPE (HsNextCard, hs_next_card, ADW_TYPE_BIN)

/* Beside a large time there is no room for large words. */
static void
hs_next_card_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  HsNextCard *self = HS_NEXT_CARD (widget);
  gboolean large = hs_ink_unit (widget) > LARGE_TEXT;

  GTK_WIDGET_CLASS (hs_next_card_parent_class)->css_changed (widget, change);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->time_row),
                                  large ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_label_set_wrap (self->spare, large);
  gtk_label_set_lines (self->spare, large ? -1 : 1);
  gtk_label_set_ellipsize (self->spare, large ? PANGO_ELLIPSIZE_NONE : PANGO_ELLIPSIZE_START);
}

static void
hs_next_card_class_init (HsNextCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->css_changed = hs_next_card_css_changed;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-next-card.ui");
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, spare);
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, time_row);
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, time);
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, title);
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, detail);
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, act_box);
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, act);
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, counts);
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, buttons);
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, next_button);
  gtk_widget_class_bind_template_child (widget_class, HsNextCard, why_button);
}

static void
hs_next_card_init (HsNextCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
hs_next_card_new (void)
{
  return g_object_new (HS_TYPE_NEXT_CARD, NULL);
}

const HsBoardRow *
hs_next_card_find_row (const HsBoardShot *shot, const char *job_id)
{
  for (guint i = 0; shot != NULL && i < shot->board->rows->len; i++)
    {
      const HsBoardRow *row = g_ptr_array_index (shot->board->rows, i);

      if (g_strcmp0 (row->job_id, job_id) == 0)
        return row;
    }
  return NULL;
}

static const HsBoardRow *
row_of (const HsBoardShot *shot, const HsPlannedStop *stop)
{
  return hs_next_card_find_row (shot, stop->row_id);
}

static gboolean
is_under_way (HsStage stage)
{
  return stage == HS_STAGE_ROLLING || stage == HS_STAGE_ON_SITE || stage == HS_STAGE_PROVEN;
}

/* Whether the stop is a counter on the way to the call that the van is rolling to. */
static gboolean
is_on_way (const HsBoardShot *shot, guint index)
{
  const HsPlannedStop *stop = g_ptr_array_index (shot->plan->stops, index);

  if (!stop->is_counter)
    return FALSE;
  while (stop->is_counter && ++index < shot->plan->stops->len)
    stop = g_ptr_array_index (shot->plan->stops, index);
  return !stop->is_counter && stop->stage == HS_STAGE_ROLLING;
}

/* A job under way in another van is no act of the van that is shown. */
static gboolean
is_of_van (const HsBoardShot *shot, const HsBoardRow *row)
{
  return shot->plan == NULL || row->van_id == NULL || g_strcmp0 (row->van_id, shot->plan->van_id) == 0;
}

static const HsBoardRow *
find_in_stage (const HsBoardShot *shot, HsStage from, HsStage to)
{
  for (guint i = 0; i < shot->board->rows->len; i++)
    {
      const HsBoardRow *row = g_ptr_array_index (shot->board->rows, i);

      if (row->stage >= from && row->stage <= to && is_of_van (shot, row))
        return row;
    }
  return NULL;
}

static const HsBoardRow *
find_promised (const HsBoardShot *shot)
{
  for (guint i = 0; shot->plan != NULL && i < shot->plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (shot->plan->stops, i);
      const HsBoardRow *row = stop->is_counter ? NULL : row_of (shot, stop);

      if (row != NULL && row->stage == HS_STAGE_PROMISED)
        return row;
    }
  return NULL;
}

/* What only has to be priced does not keep the van from driving on. */
const HsBoardRow *
hs_next_card_find_job (const HsBoardShot *shot)
{
  const HsBoardRow *row;

  if (shot == NULL)
    return NULL;
  row = find_in_stage (shot, HS_STAGE_ROLLING, HS_STAGE_ON_SITE);
  if (row == NULL)
    row = find_promised (shot);
  return row != NULL ? row : find_in_stage (shot, HS_STAGE_PROVEN, HS_STAGE_PROVEN);
}

static void
set_counts (HsNextCard *self, HsLedger *ledger, const HsBoardShot *shot)
{
  g_autofree char *home = hs_show_clock (ledger, shot->plan->home);
  g_autofree char *text = NULL, *spare = NULL;
  guint promised = 0, counters = 0;

  for (guint i = 0; i < shot->board->rows->len; i++)
    promised += ((const HsBoardRow *) g_ptr_array_index (shot->board->rows, i))->stage == HS_STAGE_PROMISED;
  for (guint i = 0; i < shot->plan->stops->len; i++)
    counters += ((const HsPlannedStop *) g_ptr_array_index (shot->plan->stops, i))->is_counter;
  /* Translators: calls with a time given, parts counters on the way, and when the day ends at home. */
  text = g_markup_printf_escaped (_("<b>%u</b> time given   <b>%u</b> counters   home <b>%s</b>"), promised, counters,
                                  home);
  gtk_label_set_markup (self->counts, text);
  if (shot->plan->spare_at != NULL)
    spare = g_strdup_printf (_("Spare %d min at %s"),
                             hs_face_spare_minutes (shot->plan->spare_seconds), shot->plan->spare_at);
  gtk_label_set_label (self->spare, spare != NULL ? spare : "");
}

static char *
stop_title (const HsPlannedStop *stop)
{
  if (stop->is_counter || stop->customer == NULL)
    return g_strdup (stop->id);
  return g_strdup_printf ("%s, %s", stop->id, stop->customer);
}

/* (nullable): the counters that are shut for a stop: at the counter itself, or for the parts of a call. */
static char *
dup_shut (HsLedger *ledger, const HsDayPlan *plan, const HsPlannedStop *stop)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < plan->shut->len; i++)
    {
      const HsShutPart *part = g_ptr_array_index (plan->shut, i);
      g_autofree char *line = NULL;

      if (!g_str_equal (stop->is_counter ? part->supplier_id : part->job_id, stop->row_id))
        continue;
      line = hs_face_dup_shut (ledger, part);
      g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", line);
    }
  return g_string_free (text, text->len == 0);
}

static void
set_act_line (HsNextCard *self, HsLedger *ledger, const HsBoardShot *shot, const HsPlannedStop *stop)
{
  const HsBoardRow *row = stop->is_counter ? NULL : row_of (shot, stop);
  g_autofree char *shut = dup_shut (ledger, shot->plan, stop);
  const char *act = row != NULL && row->act != NULL ? row->act : stop->note;
  g_autofree char *text = hs_show_joined (shut != NULL ? shut : "", act != NULL ? act : "", NULL);

  gtk_label_set_label (self->act, text);
  gtk_widget_set_visible (self->act_box, *text != '\0');
}

/* On the way to a counter the van has left; there before it opens, it waits. */
static void
set_next (HsNextCard *self, HsLedger *ledger, const HsBoardShot *shot, guint index)
{
  const HsPlannedStop *stop = g_ptr_array_index (shot->plan->stops, index);
  HsInstant now = hs_ledger_get_now (ledger);
  gboolean on_way = is_on_way (shot, index);
  gboolean first = index == 0 && !on_way;
  HsInstant leave = first ? shot->plan->leave : stop->arrive - stop->drive_seconds;
  HsInstant there = on_way && now > stop->arrive ? stop->start : stop->arrive;
  gint64 left = on_way ? MAX (0, there - now) : leave - now;
  g_autofree char *where = stop_title (stop);
  g_autofree char *time = hs_show_clock (ledger, first ? leave : there);
  g_autofree char *drive = hs_show_span (stop->drive_seconds);
  g_autofree char *in = hs_show_span (ABS (left));
  g_autofree char *leave_at = hs_show_clock (ledger, leave);
  g_autofree char *title = g_strdup_printf (first ? _("Leave for %s") : _("At %s"), where);
  g_autofree char *when = NULL, *detail = NULL;

  if (left < -60)
    when = g_strdup_printf (_("%s late"), in);
  else if (first || on_way)
    when = g_strdup_printf (_("in %s"), in);
  else
    when = g_strdup_printf (_("leave %s, in %s"), leave_at, in);
  detail = g_strdup_printf (_("%s · drive %s"), when, drive);
  gtk_label_set_label (self->time, time);
  gtk_label_set_label (self->title, title);
  gtk_label_set_label (self->detail, detail);
  set_act_line (self, ledger, shot, stop);
}

/* Why nothing is planned although something may be promised; %NULL if nothing is. */
static const char *
what_hinders (const HsBoardShot *shot)
{
  if (shot == NULL || shot->plan == NULL)
    return shot != NULL ? shot->trouble : NULL;
  if (shot->plan->stops->len > 0 || shot->plan->broken->len == 0)
    return NULL;
  return ((const HsBrokenPromise *) g_ptr_array_index (shot->plan->broken, 0))->why;
}

static void
set_nothing (HsNextCard *self, HsLedger *ledger, const HsBoardShot *shot)
{
  gboolean planned = shot != NULL && shot->plan != NULL && shot->plan->stops->len > 0;
  g_autofree char *home = planned ? hs_show_clock (ledger, shot->plan->home) : g_strdup ("—");
  const char *hindrance = what_hinders (shot);

  gtk_label_set_label (self->time, home);
  gtk_label_set_label (self->title, planned             ? _("Home")
                                    : hindrance != NULL ? _("The day is not planned yet")
                                                        : _("Nothing promised today"));
  gtk_label_set_label (self->detail, planned             ? _("no stop is left")
                                     : hindrance != NULL ? hindrance
                                                         : _("F3 takes a call"));
  gtk_widget_set_visible (self->act_box, FALSE);
  if (!planned)
    {
      gtk_label_set_label (self->counts, "");
      gtk_label_set_label (self->spare, "");
    }
}

/* A call that is under way, or that a counter comes before, is not the stop that comes next: the button names it, and
 * takes a line of its own. */
static void
set_act (HsNextCard *self, const HsBoardRow *job, gboolean counter_first)
{
  gboolean apart = job != NULL && (counter_first || is_under_way (job->stage));
  g_autofree char *text = apart ? hs_mover_dup_next (job->number, job->stage) : NULL;

  gtk_widget_set_sensitive (GTK_WIDGET (self->next_button), job != NULL);
  hs_key_button_set_text (self->next_button, text != NULL ? text : _(hs_stage_label (HS_STAGE_ROLLING)));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->buttons),
                                  apart ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
}

void
hs_next_card_set (HsNextCard *self, HsLedger *ledger, const HsBoardShot *shot)
{
  gboolean planned = shot != NULL && shot->plan != NULL;
  guint next = planned ? hs_day_plan_next (shot->plan, hs_ledger_get_now (ledger)) : 0;

  g_return_if_fail (HS_IS_NEXT_CARD (self));

  if (planned && shot->plan->stops->len > 0)
    set_counts (self, ledger, shot);
  if (planned && next < shot->plan->stops->len)
    set_next (self, ledger, shot, next);
  else
    set_nothing (self, ledger, shot);
  set_act (self, hs_next_card_find_job (shot),
           planned && next < shot->plan->stops->len
               && ((const HsPlannedStop *) g_ptr_array_index (shot->plan->stops, next))->is_counter);
}

void
hs_next_card_set_key_is_elsewhere (HsNextCard *self, gboolean elsewhere)
{
  g_return_if_fail (HS_IS_NEXT_CARD (self));

  self->key_is_elsewhere = elsewhere;
  hs_key_button_set_show_key (self->next_button, !self->narrow && !elsewhere);
}

void
hs_next_card_set_narrow (HsNextCard *self, gboolean narrow)
{
  g_return_if_fail (HS_IS_NEXT_CARD (self));

  self->narrow = narrow;
  hs_key_button_set_show_key (self->next_button, !narrow && !self->key_is_elsewhere);
  hs_key_button_set_show_key (self->why_button, !narrow);
}
