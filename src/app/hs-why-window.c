// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The order of a day, defended from the plan's own figures: what it comes to, what each other way would cost, and each
 * stop with its reason. It refuses to argue with what the plan does not hold: no reason is made up. */

#include "hs-why-window.h"

#include <glib/gi18n.h>

#include "hs-ask.h"
#include "hs-face.h"
#include "hs-key-button.h"
#include "hs-offer-row.h"
#include "hs-question.h"
#include "hs-scroll-keys.h"
#include "hs-show.h"
#include "hs-window.h"

struct _HsWhyWindow
{
  AdwWindow parent_instance;

  GtkScrolledWindow *scroller;
  GtkLabel *summary;
  GtkLabel *proof;
  GtkLabel *tightest;
  GtkListBox *broken;
  GtkWidget *others_head;
  GtkLabel *others_state;
  GtkListBox *others;
  GtkWidget *stops_head;
  GtkListBox *stops;

  HsLedger *ledger;
  HsQuestion *ask;
  HsQuestion *mends;
  guint n_broken;
};

G_DEFINE_FINAL_TYPE (HsWhyWindow, hs_why_window, ADW_TYPE_WINDOW)

/* Rows ------------------------------------------------------------------------------------------------------------- */

static void
add_broken (HsWhyWindow *self, const HsDayPlan *plan)
{
  for (guint i = 0; i < plan->broken->len; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (plan->broken, i);
      g_autofree char *span = broken->late_seconds > 0 ? hs_show_span (broken->late_seconds) : NULL;
      g_autofree char *late = span != NULL ? g_strdup_printf (_("%s late"), span) : NULL;

      hs_offer_row_append (self->broken, &(HsOfferFace){ NULL, broken->id, late != NULL ? late : _("cannot be kept"),
                                                         broken->why, NULL });
    }
  self->n_broken = plan->broken->len;
}

/* Under what breaks. */
static void
mends_cb (HsWhyWindow *self)
{
  GPtrArray *mends = hs_question_get (self->mends);

  for (GtkListBoxRow *old = gtk_list_box_get_row_at_index (self->broken, (int) self->n_broken); old != NULL;
       old = gtk_list_box_get_row_at_index (self->broken, (int) self->n_broken))
    gtk_list_box_remove (self->broken, GTK_WIDGET (old));
  for (guint i = 0; mends != NULL && i < mends->len; i++)
    {
      const HsDayMend *mend = g_ptr_array_index (mends, i);

      hs_offer_row_append (self->broken, &(HsOfferFace){ NULL, mend->id, _("would mend it"), mend->what, NULL });
    }
}

static void
add_stop (HsWhyWindow *self, const HsPlannedStop *stop, guint number)
{
  g_autofree char *arrive = hs_show_clock (self->ledger, stop->arrive);
  g_autofree char *window = hs_show_window (self->ledger, stop->window_from, stop->window_to);
  g_autofree char *break_window = hs_show_window (self->ledger, stop->break_from, stop->break_to);
  g_autofree char *title = g_strdup_printf ("%u. %s", number, stop->id);
  g_autofree char *source = hs_show_drive_source (&stop->leg);
  g_autofree char *promised = NULL, *spare = NULL, *wait = NULL, *rest = NULL, *drive = NULL, *detail = NULL;

  if (*window != '\0')
    promised = g_strdup_printf (_("promised %s"), window);
  if (!stop->is_counter && stop->window_to != HS_INSTANT_NONE)
    spare = hs_face_dup_spare (stop->spare_seconds);
  if (stop->wait_seconds >= 60)
    {
      g_autofree char *span = hs_show_span (stop->wait_seconds);

      wait = g_strdup_printf (_("waits %s"), span);
    }
  if (stop->break_from != HS_INSTANT_NONE)
    rest = g_strdup_printf (_("then break %s"), break_window);
  if (stop->guess || stop->leg.trips > 0)
    drive = g_strdup_printf (_("the drive: %s"), source);
  detail = hs_show_joined (promised != NULL ? promised : "", stop->note != NULL ? stop->note : "",
                           wait != NULL ? wait : "", drive != NULL ? drive : "",
                           stop->locked ? _("locked in its place") : "", rest != NULL ? rest : "", NULL);
  hs_offer_row_append (self->stops, &(HsOfferFace){ arrive, title, NULL, detail, spare });
}

/* Otherwise -------------------------------------------------------------------------------------------------------- */

/* "3 min longer, 1.2 mi more" */
static char *
dup_difference (const HsDayOther *other)
{
  g_autofree char *span = hs_show_span (ABS (other->adds_seconds));
  g_autofree char *miles = hs_show_miles (ABS (other->adds_millimiles));
  g_autofree char *time = g_strdup_printf (other->adds_seconds >= 0 ? _("%s longer") : _("%s shorter"), span);
  g_autofree char *way = g_strdup_printf (other->adds_millimiles >= 0 ? _("%s mi more") : _("%s mi less"), miles);

  return g_strdup_printf ("%s, %s", time, way);
}

/* "A-0022 31 min late", or why it is not served at all. */
static char *
dup_break (const HsBrokenPromise *broken)
{
  g_autofree char *span = NULL;

  if (broken->late_seconds <= 0)
    return g_strdup_printf ("%s: %s", broken->id, broken->why);
  span = hs_show_span (broken->late_seconds);
  return g_strdup_printf (_("%s %s late"), broken->id, span);
}

static char *
dup_breaks (const HsDayOther *other)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < other->breaks->len; i++)
    {
      g_autofree char *late = dup_break (g_ptr_array_index (other->breaks, i));

      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", late);
    }
  return g_string_free (text, FALSE);
}

static gboolean
loses_a_call (const HsDayOther *other)
{
  for (guint i = 0; i < other->breaks->len; i++)
    if (((const HsBrokenPromise *) g_ptr_array_index (other->breaks, i))->late_seconds <= 0)
      return TRUE;
  return FALSE;
}

/* What is cheaper for a call less is no saving, and is not told as one. */
static void
add_other (HsWhyWindow *self, const HsDayOther *other)
{
  gboolean loses = loses_a_call (other);
  g_autofree char *title = g_strdup_printf (other->kind == HS_DAY_OTHER_FIRST ? _("%s first") : _("Without %s"),
                                            other->id);
  g_autofree char *breaks = dup_breaks (other);
  g_autofree char *difference = loses ? NULL : dup_difference (other);
  g_autofree char *detail = hs_show_joined (breaks, difference != NULL ? difference : "", NULL);
  g_autofree char *cents = hs_show_money (self->ledger, ABS (other->adds_cents));
  g_autofree char *cost = loses ? NULL : g_strconcat (other->adds_cents >= 0 ? "+" : "−", cents, NULL);

  hs_offer_row_append (
      self->others, &(HsOfferFace){ NULL, title, *breaks != '\0' ? _("breaks a promise") : NULL, detail, cost });
}

static void
others_cb (HsWhyWindow *self)
{
  GPtrArray *others = hs_question_get (self->ask);
  const char *trouble = hs_question_get_trouble (self->ask);
  GtkListBoxRow *old;

  gtk_label_set_label (self->others_state, trouble != NULL ? trouble : "");
  gtk_widget_set_visible (GTK_WIDGET (self->others_state), trouble != NULL);
  gtk_widget_set_visible (self->others_head, trouble != NULL || (others != NULL && others->len > 0));
  while ((old = gtk_list_box_get_row_at_index (self->others, 0)) != NULL)
    gtk_list_box_remove (self->others, GTK_WIDGET (old));
  for (guint i = 0; trouble == NULL && others != NULL && i < others->len; i++)
    add_other (self, g_ptr_array_index (others, i));
}

/* Window ----------------------------------------------------------------------------------------------------------- */

static const char *
proof_text (const HsDayPlan *plan)
{
  if (plan->accepted)
    return _("This is the order that was accepted, timed again on today’s jobs. Key 0 plans it anew.");
  if (plan->status == HS_PLAN_OPTIMAL)
    return _("No cheaper order keeps every promise, the counters’ hours and the spare time asked for: all "
             "were weighed.");
  if (plan->status == HS_PLAN_BEST_FOUND)
    return _("The best order found; so many stops cannot all be weighed.");
  return plan->proven ? _("No order keeps every promise. This one breaks the least.")
                      : _("No order was found that keeps every promise; so many stops cannot all be weighed.");
}

static void
show_plan (HsWhyWindow *self, const HsDayPlan *plan)
{
  g_autofree char *leave = hs_show_clock (self->ledger, plan->leave);
  g_autofree char *home = hs_show_clock (self->ledger, plan->home);
  g_autofree char *drive = hs_show_span (plan->drive_seconds);
  g_autofree char *miles = hs_show_miles (plan->millimiles);
  g_autofree char *cost = hs_show_money (self->ledger, plan->cost_cents);
  g_autofree char *line = NULL, *tightest = NULL;

  add_broken (self, plan);
  if (plan->stops->len == 0)
    {
      gtk_label_set_label (self->summary, _("No stop is planned on this day."));
      gtk_widget_set_visible (GTK_WIDGET (self->proof), FALSE);
      return;
    }
  line = g_strdup_printf (_("Leave %s, home %s: %s on the road, %s mi, %s for the day away."), leave, home, drive,
                          miles, cost);
  gtk_label_set_label (self->summary, line);
  gtk_label_set_label (self->proof, proof_text (plan));
  if (plan->spare_at != NULL && plan->spare_seconds >= 0)
    {
      tightest = g_strdup_printf (_("Tightest promise: %s, with %d min to spare."), plan->spare_at,
                                  hs_face_spare_minutes (plan->spare_seconds));
      gtk_label_set_label (self->tightest, tightest);
      gtk_widget_set_visible (GTK_WIDGET (self->tightest), TRUE);
    }
  gtk_widget_set_visible (self->stops_head, TRUE);
  for (guint i = 0; i < plan->stops->len; i++)
    add_stop (self, g_ptr_array_index (plan->stops, i), i + 1);
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
hs_why_window_dispose (GObject *object)
{
  HsWhyWindow *self = HS_WHY_WINDOW (object);

  g_clear_object (&self->ask);
  g_clear_object (&self->mends);
  g_clear_object (&self->ledger);
  G_OBJECT_CLASS (hs_why_window_parent_class)->dispose (object);
}

static void
hs_why_window_class_init (HsWhyWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_why_window_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-why-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsWhyWindow, scroller);
  gtk_widget_class_bind_template_child (widget_class, HsWhyWindow, summary);
  gtk_widget_class_bind_template_child (widget_class, HsWhyWindow, proof);
  gtk_widget_class_bind_template_child (widget_class, HsWhyWindow, tightest);
  gtk_widget_class_bind_template_child (widget_class, HsWhyWindow, broken);
  gtk_widget_class_bind_template_child (widget_class, HsWhyWindow, others_head);
  gtk_widget_class_bind_template_child (widget_class, HsWhyWindow, others_state);
  gtk_widget_class_bind_template_child (widget_class, HsWhyWindow, others);
  gtk_widget_class_bind_template_child (widget_class, HsWhyWindow, stops_head);
  gtk_widget_class_bind_template_child (widget_class, HsWhyWindow, stops);
  gtk_widget_class_install_action (widget_class, "why.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "why.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F6, 0, "why.close", NULL);
}

static void
hs_why_window_init (HsWhyWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hs_scroll_keys_install (GTK_WIDGET (self), self->scroller);
}

HsWhyWindow *
hs_why_window_present (GtkWindow *parent, HsLedger *ledger, const HsDayPlan *plan)
{
  HsWhyWindow *self = g_object_new (HS_TYPE_WHY_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);

  self->ledger = g_object_ref (ledger);
  self->ask = hs_question_new (ledger, hs_ask_others, (GDestroyNotify) g_ptr_array_unref);
  g_signal_connect_object (self->ask, "answered", G_CALLBACK (others_cb), self, G_CONNECT_SWAPPED);
  self->mends = hs_question_new (ledger, hs_ask_mends, (GDestroyNotify) g_ptr_array_unref);
  g_signal_connect_object (self->mends, "answered", G_CALLBACK (mends_cb), self, G_CONNECT_SWAPPED);
  show_plan (self, plan);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  if (plan->stops->len > 0)
    hs_question_ask (self->ask, g_variant_new ("(i)", plan->day));
  if (plan->broken->len > 0)
    hs_question_ask (self->mends, g_variant_new ("(ib)", plan->day, !plan->accepted));
  return self;
}

/* Planned anew ----------------------------------------------------------------------------------------------------- */

static gboolean
is_same_order (const HsDayPlan *a, const HsDayPlan *b)
{
  if (a->stops->len != b->stops->len)
    return FALSE;
  for (guint i = 0; i < a->stops->len; i++)
    if (g_strcmp0 (((const HsPlannedStop *) g_ptr_array_index (a->stops, i))->id,
                   ((const HsPlannedStop *) g_ptr_array_index (b->stops, i))->id) != 0)
      return FALSE;
  return TRUE;
}

gboolean
hs_why_window_is_same (const HsDayPlan *before, const HsDayPlan *anew)
{
  return is_same_order (before, anew) && before->leave == anew->leave && before->home == anew->home;
}

char *
hs_why_window_dup_change (HsLedger *ledger, const HsDayPlan *before, const HsDayPlan *anew)
{
  g_autofree char *old_home = hs_show_clock (ledger, before->home), *home = hs_show_clock (ledger, anew->home);
  g_autofree char *old_leave = hs_show_clock (ledger, before->leave), *leave = hs_show_clock (ledger, anew->leave);
  g_autofree char *old_cost = hs_show_money (ledger, before->cost_cents);
  g_autofree char *cost = hs_show_money (ledger, anew->cost_cents);
  gboolean same = is_same_order (before, anew);

  if (hs_why_window_is_same (before, anew))
    return g_strdup (before->accepted ? _("Planned anew: nothing is better, the order stays as it is.")
                                      : _("Planned anew: nothing is better. Once accepted, this order stands."));
  return g_strdup_printf (same ? _("Planned anew, the same order: leave %s → %s, home %s → %s, %s → %s. It stands once "
                                   "it is accepted.")
                               : _("Planned anew, another order: leave %s → %s, home %s → %s, %s → %s. It stands once "
                                   "it is accepted."),
                          old_leave, leave, old_home, home, old_cost, cost);
}
