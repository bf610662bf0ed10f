// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `plan --share`: who should take which call. */

#include "hs-share-out.h"

#include "hs-ops-error.h"
#include "hs-solve-out.h"

#include <glib/gi18n.h>
#include <signal.h>

static volatile sig_atomic_t interrupted;

static void
interrupt (int number)
{
  (void) number;
  interrupted = 1;
}

static gboolean
give_up (gpointer data)
{
  const gint64 *until = data;

  return interrupted || g_get_monotonic_time () >= *until;
}

/* JSON ------------------------------------------------------------------------------------------------------------- */

void
hs_share_out_promises (HsJsonOut *out, const char *name, GPtrArray *promises)
{
  hs_json_out_begin_array (out, name);
  for (guint i = 0; i < promises->len; i++)
    {
      const HsBrokenPromise *promise = g_ptr_array_index (promises, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "id", promise->id);
      if (promise->late_seconds < 0)
        hs_json_out_null (out, "late_minutes");
      else
        hs_cli_json_minutes (out, "late_minutes", promise->late_seconds);
      hs_json_out_string (out, "why", promise->why);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
}

static void
write_window (HsCli *cli, HsJsonOut *out, HsDate day, const HsShareStop *stop)
{
  if (stop->window_from == HS_INSTANT_NONE && stop->window_to == HS_INSTANT_NONE)
    {
      hs_json_out_null (out, "window");
      return;
    }
  hs_json_out_begin_array (out, "window");
  hs_cli_json_clock (cli, out, NULL, day, stop->window_from);
  hs_cli_json_clock (cli, out, NULL, day, stop->window_to);
  hs_json_out_end_array (out);
}

static void
write_stop (HsCli *cli, HsJsonOut *out, HsDate day, const HsShareStop *stop)
{
  static const char *const kinds[] = { "call", "counter", "break" };
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "kind", kinds[stop->kind]);
  hs_json_out_string (out, "id", stop->id);
  hs_json_out_string (out, "from_van", stop->from_van);
  hs_cli_json_clock (cli, out, "arrive", day, stop->arrive);
  hs_cli_json_clock (cli, out, "start", day, stop->start);
  hs_cli_json_clock (cli, out, "depart", day, stop->depart);
  write_window (cli, out, day, stop);
  if (stop->window_to == HS_INSTANT_NONE)
    hs_json_out_null (out, "spare_minutes");
  else
    hs_cli_json_minutes (out, "spare_minutes", stop->spare_seconds);
  hs_json_out_boolean (out, "locked", stop->locked);
  hs_json_out_end_object (out);
}

static void
write_route (HsCli *cli, HsJsonOut *out, HsDate day, const HsShareRoute *route)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "van", route->van);
  hs_cli_json_clock (cli, out, "leave", day, route->leave);
  hs_cli_json_clock (cli, out, "home", day, route->home);
  hs_json_out_boolean (out, "begun", route->begun);
  hs_json_out_integer (out, "drive_minutes", hs_cli_minutes (route->drive_seconds));
  hs_cli_json_miles (out, "miles", route->millimiles);
  hs_json_out_begin_array (out, "stops");
  for (guint i = 0; i < route->stops->len; i++)
    write_stop (cli, out, day, g_ptr_array_index (route->stops, i));
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

static void
write_notes (HsJsonOut *out, const char *name, GPtrArray *notes)
{
  hs_json_out_begin_array (out, name);
  for (guint i = 0; i < notes->len; i++)
    {
      const HsShareNote *note = g_ptr_array_index (notes, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "id", note->number);
      hs_json_out_string (out, "what", note->what);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
}

/* The name of either van is null where a call has none. */
static void
write_moves (HsJsonOut *out, GPtrArray *moves)
{
  hs_json_out_begin_array (out, "moves");
  for (guint i = 0; i < moves->len; i++)
    {
      const HsShareMove *move = g_ptr_array_index (moves, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "id", move->number);
      hs_json_out_string (out, "from", move->from);
      hs_json_out_string (out, "to", move->to);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
}

static void
write_sums (HsJsonOut *out, const HsSharePlan *plan)
{
  gint64 gap = hs_share_plan_gap_cents (plan);
  hs_json_out_string (out, "status", hs_solve_status (plan->status));
  hs_json_out_boolean (out, "proven", plan->proven);
  hs_json_out_integer (out, "cost_cents", plan->total.cents);
  hs_json_out_integer (out, "bound_cents", plan->bound_cents);
  if (gap < 0)
    hs_json_out_null (out, "gap_cents");
  else
    hs_json_out_integer (out, "gap_cents", gap);
  hs_cli_json_minutes (out, "minutes", plan->total.seconds);
  hs_cli_json_miles (out, "miles", plan->total.millimiles);
  if (plan->total.spare_seconds == HS_PLAN_NO_LIMIT)
    hs_json_out_null (out, "spare_minutes");
  else
    hs_cli_json_minutes (out, "spare_minutes", plan->total.spare_seconds);
  hs_json_out_begin_object (out, "saves");
  hs_cli_json_minutes (out, "minutes", plan->standing.seconds - plan->total.seconds);
  hs_cli_json_miles (out, "miles", plan->standing.millimiles - plan->total.millimiles);
  hs_json_out_integer (out, "cents", plan->standing.cents - plan->total.cents);
  hs_json_out_end_object (out);
}

static void
write_plan (HsCli *cli, const HsSharePlan *plan, gboolean accepted)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  g_autofree char *day = hs_date_format (plan->day);
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "day", day);
  write_sums (out, plan);
  hs_json_out_begin_array (out, "vans");
  for (guint i = 0; i < plan->routes->len; i++)
    write_route (cli, out, plan->day, g_ptr_array_index (plan->routes, i));
  hs_json_out_end_array (out);
  write_moves (out, plan->moves);
  write_notes (out, "parts", plan->parts);
  write_notes (out, "stays", plan->stays);
  hs_share_out_promises (out, "broken", plan->broken);
  hs_share_out_promises (out, "mended", plan->mended);
  hs_share_out_promises (out, "worse", plan->worse);
  hs_share_out_promises (out, "left_out", plan->left_out);
  hs_json_out_boolean (out, "accepted", accepted);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

/* Text ------------------------------------------------------------------------------------------------------------- */

static char *
dup_proof (HsCli *cli, const HsSharePlan *plan)
{
  gint64 gap = hs_share_plan_gap_cents (plan);
  g_autofree char *money = gap > 0 ? hs_cli_money_text (cli, gap) : NULL;
  if (plan->proven)
    return g_strdup (_("proven best"));
  return money != NULL ? g_strdup_printf (_("best found, at most %s above the best"), money)
                       : g_strdup (_("best found"));
}

/* What keeps more promises may take longer or cost more: then nothing is called saved, and the window's words hold. */
static void
print_saves (HsCli *cli, const HsSharePlan *plan)
{
  gint64 seconds = plan->standing.seconds - plan->total.seconds;
  gint64 millimiles = plan->standing.millimiles - plan->total.millimiles;
  gint64 cents = plan->standing.cents - plan->total.cents;
  int minutes = hs_cli_minutes (ABS (seconds));
  g_autofree char *span = g_strdup_printf (_("%d min"), minutes);
  g_autofree char *miles = hs_cli_miles_text (ABS (millimiles));
  g_autofree char *money = hs_cli_money_text (cli, ABS (cents));
  g_autofree char *time = g_strdup_printf (seconds >= 0 ? _("%s shorter") : _("%s longer"), span);
  g_autofree char *way = g_strdup_printf (millimiles >= 0 ? _("%s mi less") : _("%s mi more"), miles);
  g_autofree char *cost = g_strdup_printf (cents >= 0 ? _("%s cheaper") : _("%s dearer"), money);
  if (seconds >= 0 && millimiles >= 0 && cents >= 0)
    {
      hs_cli_print (_("Saves %d min, %s mi, %s against the orders that stand\n"), minutes, miles, money);
      return;
    }
  g_autofree char *line = g_strdup_printf (_("Against the orders that stand: %s, %s, %s."), time, way, cost);
  hs_cli_print ("%s\n", line);
}

static void
print_sums (HsCli *cli, const HsSharePlan *plan)
{
  g_autofree char *day = hs_date_format (plan->day);
  g_autofree char *miles = hs_cli_miles_text (plan->total.millimiles);
  g_autofree char *cost = hs_cli_money_text (cli, plan->total.cents);
  g_autofree char *proof = dup_proof (cli, plan);
  hs_cli_print (_("%s: all vans %d min away, %s mi, costs %s (%s)\n"), day, hs_cli_minutes (plan->total.seconds),
                miles, cost, proof);
  print_saves (cli, plan);
}

static void
print_stop (HsCli *cli, guint number, const HsShareStop *stop)
{
  g_autofree char *start = hs_cli_clock_text (cli, stop->start);
  g_autofree char *until = hs_cli_clock_text (cli, stop->depart);
  g_autofree char *window = hs_cli_window_text (cli, stop->window_from, stop->window_to);
  g_autofree char *words = hs_cli_one_line (stop->words);
  g_autofree char *moved = stop->from_van != NULL ? g_strdup_printf (_(", from van %s"), stop->from_van) : NULL;
  const char *and_moved = moved != NULL ? moved : "";
  if (stop->kind == HS_SHARE_BREAK)
    hs_cli_print (_("           break %s–%s\n"), start, until);
  else if (stop->kind == HS_SHARE_COUNTER)
    hs_cli_print ("%2u  %s  %s, %s\n", number, start, stop->id, stop->area);
  else if (stop->window_from == HS_INSTANT_NONE && stop->window_to == HS_INSTANT_NONE)
    hs_cli_print (_("%2u  %s  %s  “%s”, %s, any time%s\n"), number, start, stop->id, words, stop->area, and_moved);
  else
    {
      g_autofree char *spare = stop->window_to != HS_INSTANT_NONE ? hs_cli_spare_text (stop->spare_seconds) : NULL;
      g_autofree char *and_spare = spare != NULL ? g_strdup_printf (", %s", spare) : g_strdup ("");
      hs_cli_print (_("%2u  %s  %s  “%s”, %s [%s]%s%s\n"), number, start, stop->id, words, stop->area, window,
                    and_spare, and_moved);
    }
}

static void
print_route (HsCli *cli, const HsShareRoute *route)
{
  g_autofree char *leave = hs_cli_clock_text (cli, route->leave);
  g_autofree char *home = hs_cli_clock_text (cli, route->home);
  g_autofree char *miles = hs_cli_miles_text (route->millimiles);
  guint number = 0;
  if (route->leave == HS_INSTANT_NONE)
    {
      hs_cli_print (_("Van %s stays.\n"), route->van);
      return;
    }
  hs_cli_print (route->begun ? _("Van %s: goes on at %s, home %s, %d min driving, %s mi\n")
                             : _("Van %s: leave %s, home %s, %d min driving, %s mi\n"),
                route->van, leave, home, hs_cli_minutes (route->drive_seconds), miles);
  for (guint i = 0; i < route->stops->len; i++)
    {
      const HsShareStop *stop = g_ptr_array_index (route->stops, i);
      print_stop (cli, stop->kind == HS_SHARE_BREAK ? number : ++number, stop);
    }
}

static void
print_promises (const char *format, GPtrArray *promises)
{
  for (guint i = 0; i < promises->len; i++)
    {
      const HsBrokenPromise *promise = g_ptr_array_index (promises, i);
      g_autofree char *said = g_strdup_printf ("%s: %s", promise->id, promise->why);
      hs_cli_print ("%s: %s\n", format, said);
    }
}

static void
print_notes (GPtrArray *notes, const char *between)
{
  for (guint i = 0; i < notes->len; i++)
    {
      const HsShareNote *note = g_ptr_array_index (notes, i);
      hs_cli_print ("%s%s%s\n", note->number, between, note->what);
    }
}

static void
print_moves (GPtrArray *moves)
{
  for (guint i = 0; i < moves->len; i++)
    {
      const HsShareMove *move = g_ptr_array_index (moves, i);
      hs_cli_print (_("%s goes from van %s to van %s\n"), move->number, move->from != NULL ? move->from : "–",
                    move->to != NULL ? move->to : "–");
    }
}

static void
print_plan (HsCli *cli, const HsSharePlan *plan, gboolean accepted)
{
  print_sums (cli, plan);
  for (guint i = 0; i < plan->routes->len; i++)
    print_route (cli, g_ptr_array_index (plan->routes, i));
  print_moves (plan->moves);
  if (plan->moves->len == 0)
    hs_cli_print (_("Every call stays with its van.\n"));
  print_notes (plan->parts, ": ");
  print_notes (plan->stays, " ");
  print_promises (_("Mended"), plan->mended);
  print_promises (_("Worse"), plan->worse);
  print_promises (_("Cannot be kept"), plan->broken);
  print_promises (_("Left out"), plan->left_out);
  if (accepted)
    hs_cli_print (_("These orders stand.\n"));
}

/* ------------------------------------------------------------------------------------------------------------------ */

static HsSharePlan *
share (HsCli *cli, HsDate day, double limit_seconds, GError **error)
{
  gint64 until = g_get_monotonic_time () + (gint64) (limit_seconds * G_USEC_PER_SEC);
  const HsShareHow how = { .give_up = give_up, .user_data = &until, .seed = 1 };
  g_autoptr (HsShareCase) of = NULL;
  HsSharePlan *plan = NULL;

  interrupted = 0;
  signal (SIGINT, interrupt);
  of = hs_share_case_load (cli->book, day, cli->now, error);
  if (of != NULL)
    plan = hs_share_solve (of, &how, error);
  signal (SIGINT, SIG_DFL);
  return plan;
}

gboolean
hs_share_out (HsCli *cli, HsDate day, double limit_seconds, gboolean accept, GError **error)
{
  g_autoptr (HsSharePlan) plan = share (cli, day, limit_seconds, error);
  gboolean accepts = accept && !interrupted;

  if (plan == NULL || (accepts && !hs_share_accept (cli->book, plan, cli->now, error)))
    return FALSE;
  if (cli->json)
    write_plan (cli, plan, accepts);
  else
    print_plan (cli, plan, accepts);
  if (accepts == accept)
    return TRUE;
  g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                       _("The search was interrupted, so nothing was accepted"));
  return FALSE;
}

gboolean
hs_share_out_undo (HsCli *cli, HsDate day, GError **error)
{
  g_autoptr (GPtrArray) back = hs_share_take_back (cli->book, day, cli->now, error);
  g_autofree char *date = hs_date_format (day);

  if (back == NULL)
    return FALSE;
  if (!cli->json)
    {
      print_moves (back);
      hs_cli_print ("%s\n", _("Taken back: the orders before stand again."));
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "day", date);
  write_moves (out, back);
  hs_json_out_boolean (out, "taken_back", TRUE);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
  return TRUE;
}
