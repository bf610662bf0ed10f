// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The order of a day, defended stop by stop from the plan's own figures. It refuses to argue with what the plan does
 * not hold: no reason is made up. */

#include "hs-why-window.h"

#include <glib/gi18n.h>

#include "hs-ask.h"
#include "hs-show.h"
#include "hs-window.h"

static void
add_line (GString *text, const char *line)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", line);
}

static void
add_summary (GString *text, HsLedger *ledger, const HsDayPlan *plan)
{
  g_autofree char *leave = hs_show_clock (ledger, plan->leave);
  g_autofree char *home = hs_show_clock (ledger, plan->home);
  g_autofree char *drive = hs_show_span (plan->drive_seconds);
  g_autofree char *miles = hs_show_miles (plan->millimiles);
  g_autofree char *cost = hs_show_money (ledger, plan->cost_cents);
  g_autofree char *line = NULL;

  line = g_strdup_printf (_("Leave %s, home %s: %s on the road, %s mi, %s for the day away."), leave, home, drive,
                          miles, cost);
  add_line (text, line);
  if (plan->accepted)
    add_line (text, _("This is the order that was accepted, timed again on today’s jobs. Key 0 plans it anew."));
  else if (plan->status == HS_PLAN_OPTIMAL)
    add_line (text, _("No cheaper order keeps every promise, the counters’ hours and the spare time asked for: all "
                      "were weighed."));
  else if (plan->status == HS_PLAN_BEST_FOUND)
    add_line (text, _("The best order found; so many stops cannot all be weighed."));
  else
    add_line (text, _("No order keeps every promise. This one breaks the least."));
}

static void
add_stop (GString *text, HsLedger *ledger, const HsPlannedStop *stop, guint number)
{
  g_autofree char *arrive = hs_show_clock (ledger, stop->arrive);
  g_autofree char *window = hs_show_window (ledger, stop->window_from, stop->window_to);
  g_autofree char *break_window = hs_show_window (ledger, stop->break_from, stop->break_to);
  g_autofree char *spare = NULL, *wait = NULL, *rest = NULL, *line = NULL;

  if (stop->spare_seconds >= 0 && stop->window_to != HS_INSTANT_NONE)
    spare = g_strdup_printf (_("promised %s, %d min spare"), window, (int) (stop->spare_seconds / 60));
  if (stop->wait_seconds >= 60)
    {
      g_autofree char *span = hs_show_span (stop->wait_seconds);

      wait = g_strdup_printf (_("waits %s"), span);
    }
  if (stop->break_from != HS_INSTANT_NONE)
    rest = g_strdup_printf (_("then break %s"), break_window);
  line = hs_show_joined ("", stop->note != NULL ? stop->note : "", spare != NULL ? spare : "", wait != NULL ? wait : "",
                         stop->guess ? _("the drive is a guess") : "", stop->locked ? _("locked in its place") : "",
                         rest != NULL ? rest : "", NULL);
  g_string_append_printf (text, "\n%u. %s %s%s%s", number, arrive, stop->id, *line != '\0' ? ": " : "", line);
}

static void
add_broken (GString *text, const HsDayPlan *plan)
{
  for (guint i = 0; i < plan->broken->len; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (plan->broken, i);

      g_string_append_printf (text, "\n%s: %s", broken->id, broken->why);
    }
}

char *
hs_why_window_dup_text (HsLedger *ledger, const HsDayPlan *plan)
{
  GString *text = g_string_new (NULL);

  if (plan->stops->len == 0)
    add_line (text, _("No stop is planned on this day."));
  else
    add_summary (text, ledger, plan);
  if (plan->spare_at != NULL)
    {
      g_autofree char *line = g_strdup_printf (_("Tightest promise: %s, with %d min to spare."), plan->spare_at,
                                               (int) (plan->spare_seconds / 60));

      add_line (text, line);
    }
  add_broken (text, plan);
  for (guint i = 0; i < plan->stops->len; i++)
    add_stop (text, ledger, g_ptr_array_index (plan->stops, i), i + 1);
  return g_string_free (text, FALSE);
}

/* "3 min longer, 1.2 mi more, 5.30 dearer" */
static char *
dup_difference (HsLedger *ledger, const HsDayOther *other)
{
  g_autofree char *span = hs_show_span (ABS (other->adds_seconds));
  g_autofree char *miles = hs_show_miles (ABS (other->adds_millimiles));
  g_autofree char *cost = hs_show_money (ledger, ABS (other->adds_cents));
  g_autofree char *time = g_strdup_printf (other->adds_seconds >= 0 ? _("%s longer") : _("%s shorter"), span);
  g_autofree char *way = g_strdup_printf (other->adds_millimiles >= 0 ? _("%s mi more") : _("%s mi less"), miles);
  g_autofree char *money = g_strdup_printf (other->adds_cents >= 0 ? _("%s dearer") : _("%s cheaper"), cost);

  return g_strdup_printf ("%s, %s, %s", time, way, money);
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
add_other (GString *text, HsLedger *ledger, const HsDayOther *other)
{
  g_autofree char *difference = loses_a_call (other) ? NULL : dup_difference (ledger, other);
  const char *before = difference != NULL ? "; " : "";

  if (text->len > 0)
    g_string_append_c (text, '\n');
  g_string_append_printf (text, other->kind == HS_DAY_OTHER_FIRST ? _("%s first: %s") : _("Without %s: %s"), other->id,
                          difference != NULL ? difference : "");
  for (guint i = 0; i < other->breaks->len; i++)
    {
      g_autofree char *late = dup_break (g_ptr_array_index (other->breaks, i));

      g_string_append_printf (text, "%s%s", before, late);
      before = ", ";
    }
}

char *
hs_why_window_dup_others (HsLedger *ledger, GPtrArray *others)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < others->len; i++)
    add_other (text, ledger, g_ptr_array_index (others, i));
  return g_string_free (text, FALSE);
}

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

char *
hs_why_window_dup_change (HsLedger *ledger, const HsDayPlan *before, const HsDayPlan *anew)
{
  g_autofree char *old_home = hs_show_clock (ledger, before->home), *home = hs_show_clock (ledger, anew->home);
  g_autofree char *old_leave = hs_show_clock (ledger, before->leave), *leave = hs_show_clock (ledger, anew->leave);
  g_autofree char *old_cost = hs_show_money (ledger, before->cost_cents);
  g_autofree char *cost = hs_show_money (ledger, anew->cost_cents);
  gboolean same = is_same_order (before, anew);

  if (same && before->leave == anew->leave && before->home == anew->home)
    return g_strdup (_("Planned anew: nothing is better, the order stays as it is."));
  return g_strdup_printf (same ? _("Planned anew, the same order: leave %s → %s, home %s → %s, %s → %s. It stands once "
                                   "it is accepted.")
                               : _("Planned anew, another order: leave %s → %s, home %s → %s, %s → %s. It stands once "
                                   "it is accepted."),
                          old_leave, leave, old_home, home, old_cost, cost);
}

static gboolean
key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, gpointer data)
{
  if (keyval != GDK_KEY_Escape && keyval != GDK_KEY_F6)
    return GDK_EVENT_PROPAGATE;
  gtk_window_close (GTK_WINDOW (data));
  return GDK_EVENT_STOP;
}

static void
others_found_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  HsLedger *ledger = HS_LEDGER (source);
  g_autoptr (GtkLabel) label = data;
  g_autoptr (GPtrArray) others = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL, *words = NULL, *text = NULL;

  if (!hs_ledger_task_finish (ledger, result, (gpointer *) &others, &error))
    words = g_strdup (error->message);
  else if (others->len > 0)
    words = hs_why_window_dup_others (ledger, others);
  if (words == NULL)
    return;
  before = g_strdup (gtk_label_get_label (label));
  text = g_strdup_printf ("%s\n\n%s\n%s", before, _("Otherwise"), words);
  gtk_label_set_label (label, text);
}

void
hs_why_window_present (GtkWindow *parent, HsLedger *ledger, const HsDayPlan *plan)
{
  g_autofree char *text = hs_why_window_dup_text (ledger, plan);
  GtkWidget *window = adw_window_new ();
  GtkWidget *label = gtk_label_new (text);
  GtkWidget *scroll = gtk_scrolled_window_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *header = adw_header_bar_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
  gtk_label_set_selectable (GTK_LABEL (label), TRUE);
  g_object_set (label, "margin-start", 20, "margin-end", 20, "margin-top", 16, "margin-bottom", 16, NULL);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroll), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroll), label);
  gtk_widget_set_vexpand (scroll, TRUE);
  gtk_box_append (GTK_BOX (box), header);
  gtk_box_append (GTK_BOX (box), scroll);
  adw_window_set_content (ADW_WINDOW (window), box);
  gtk_window_set_title (GTK_WINDOW (window), _("Why This Order"));
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_modal (GTK_WINDOW (window), TRUE);
  gtk_window_set_default_size (GTK_WINDOW (window), 620, 520);
  hs_window_fit_over (GTK_WINDOW (window));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), window);
  gtk_widget_add_controller (window, keys);
  gtk_window_present (GTK_WINDOW (window));
  /* The focus would have all of it marked. */
  gtk_label_select_region (GTK_LABEL (label), 0, 0);
  if (plan->stops->len > 0)
    hs_ledger_ask_async (ledger, hs_ask_others, g_variant_new ("(i)", plan->day), (GDestroyNotify) g_ptr_array_unref,
                         others_found_cb, g_object_ref (label));
}
