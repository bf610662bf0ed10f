// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `plan`: a day's order of calls and counters. */

#include "hs-cli.h"

#include "hs-day-mend.h"
#include "hs-day-others.h"
#include "hs-day-plan.h"
#include "hs-decimal.h"
#include "hs-share-out.h"
#include "hs-solve-out.h"

#include <glib/gi18n.h>

static void
write_break (HsCli *cli, HsJsonOut *out, HsDate day, HsInstant from, HsInstant to)
{
  if (from == HS_INSTANT_NONE)
    {
      hs_json_out_null (out, "break");
      return;
    }
  hs_json_out_begin_array (out, "break");
  hs_cli_json_clock (cli, out, NULL, day, from);
  hs_cli_json_clock (cli, out, NULL, day, to);
  hs_json_out_end_array (out);
}

static void
write_shorts (HsJsonOut *out, const HsPlannedStop *stop)
{
  hs_json_out_begin_array (out, "also_short");
  for (guint i = 0; i < stop->also_short->len; i++)
    {
      const HsAlsoShort *also = g_ptr_array_index (stop->also_short, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "part", also->part);
      hs_json_out_string (out, "number", also->number);
      hs_json_out_real (out, "qty", (double) also->quantity_milli / 1000);
      hs_cli_json_cents (out, "cents", also->cents);
      hs_json_out_real (out, "left", (double) also->left_milli / 1000);
      hs_json_out_real (out, "keep", (double) also->keep_milli / 1000);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
}

static void
write_stop (HsCli *cli, HsJsonOut *out, HsDate day, const HsPlannedStop *stop)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "kind", stop->is_counter ? "counter" : "call");
  hs_json_out_string (out, "id", stop->id);
  hs_cli_json_clock (cli, out, "arrive", day, stop->arrive);
  hs_cli_json_clock (cli, out, "start", day, stop->start);
  hs_cli_json_clock (cli, out, "depart", day, stop->depart);
  hs_cli_json_minutes (out, "wait_minutes", stop->wait_seconds);
  if (stop->window_from == HS_INSTANT_NONE && stop->window_to == HS_INSTANT_NONE)
    hs_json_out_null (out, "window");
  else
    {
      hs_json_out_begin_array (out, "window");
      hs_cli_json_clock (cli, out, NULL, day, stop->window_from);
      hs_cli_json_clock (cli, out, NULL, day, stop->window_to);
      hs_json_out_end_array (out);
    }
  if (stop->is_counter || stop->window_to == HS_INSTANT_NONE)
    hs_json_out_null (out, "spare_minutes");
  else
    hs_cli_json_minutes (out, "spare_minutes", stop->spare_seconds);
  write_break (cli, out, day, stop->break_from, stop->break_to);
  hs_json_out_boolean (out, "guess", stop->guess);
  hs_json_out_string (out, "drive_source", hs_travel_source_id (stop->leg.source));
  hs_json_out_integer (out, "drive_trips", stop->leg.trips);
  hs_json_out_integer (out, "drive_hour_trips", stop->leg.hour_trips);
  if (stop->is_counter)
    write_shorts (out, stop);
  hs_json_out_end_object (out);
}

static void
write_others (HsJsonOut *out, GPtrArray *others)
{
  hs_json_out_begin_array (out, "others");
  for (guint i = 0; i < others->len; i++)
    {
      const HsDayOther *other = g_ptr_array_index (others, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "kind", other->kind == HS_DAY_OTHER_FIRST ? "first" : "without");
      hs_json_out_string (out, "id", other->id);
      hs_cli_json_minutes (out, "adds_minutes", other->adds_seconds);
      hs_cli_json_miles (out, "adds_miles", other->adds_millimiles);
      hs_json_out_integer (out, "adds_cents", other->adds_cents);
      hs_share_out_promises (out, "breaks", other->breaks);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
}

static void
write_mends (HsJsonOut *out, GPtrArray *mends)
{
  hs_json_out_begin_array (out, "mends");
  for (guint i = 0; i < mends->len; i++)
    {
      const HsDayMend *mend = g_ptr_array_index (mends, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "id", mend->id);
      hs_json_out_string (out, "what", mend->what);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
}

static void
write_rings (HsJsonOut *out, GPtrArray *rings)
{
  hs_json_out_begin_array (out, "ring");
  for (guint i = 0; i < rings->len; i++)
    {
      const HsDayRing *ring = g_ptr_array_index (rings, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "id", ring->id);
      hs_json_out_string (out, "who", ring->who);
      hs_json_out_string (out, "phone", ring->phone);
      hs_cli_json_minutes (out, "spare_minutes", ring->spare_seconds);
      hs_json_out_string (out, "why", ring->why);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
}

static void
write_plan (HsCli *cli, HsJsonOut *out, const HsDayPlan *plan, GPtrArray *mends, GPtrArray *others)
{
  g_autofree char *day = hs_date_format (plan->day);
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "day", day);
  hs_json_out_string (out, "status", hs_solve_status (plan->status));
  hs_cli_json_clock (cli, out, "leave", plan->day, plan->leave);
  hs_cli_json_clock (cli, out, "home", plan->day, plan->home);
  hs_cli_json_clock (cli, out, "home_by", plan->day, plan->home_by);
  hs_cli_json_minutes (out, "home_late_minutes", plan->home_late_seconds);
  hs_json_out_integer (out, "drive_minutes", hs_cli_minutes (plan->drive_seconds));
  hs_cli_json_miles (out, "miles", plan->millimiles);
  if (plan->spare_at == NULL)
    hs_json_out_null (out, "spare_minutes");
  else
    hs_cli_json_minutes (out, "spare_minutes", plan->spare_seconds);
  hs_json_out_string (out, "spare_at", plan->spare_at);
  hs_json_out_integer (out, "cost_cents", plan->cost_cents);
  hs_json_out_integer (out, "states", (gint64) plan->states);
  write_break (cli, out, plan->day, plan->break_from, plan->break_to);
  hs_json_out_begin_array (out, "stops");
  for (guint i = 0; i < plan->stops->len; i++)
    write_stop (cli, out, plan->day, g_ptr_array_index (plan->stops, i));
  hs_json_out_end_array (out);
  write_rings (out, plan->ring);
  hs_share_out_promises (out, "broken", plan->broken);
  write_mends (out, mends);
  hs_json_out_begin_array (out, "penciled");
  for (guint i = 0; i < plan->penciled->len; i++)
    hs_json_out_string (out, NULL, g_ptr_array_index (plan->penciled, i));
  hs_json_out_end_array (out);
  if (others != NULL)
    write_others (out, others);
  hs_json_out_end_object (out);
}

static void
print_break (HsCli *cli, HsInstant break_from, HsInstant break_to)
{
  g_autofree char *from = hs_cli_clock_text (cli, break_from);
  g_autofree char *to = hs_cli_clock_text (cli, break_to);
  if (break_from != HS_INSTANT_NONE)
    hs_cli_print (_("           break %s–%s\n"), from, to);
}

static void
print_shorts (const HsPlannedStop *stop)
{
  g_autoptr (GString) parts = g_string_new (NULL);
  for (guint i = 0; i < stop->also_short->len; i++)
    {
      const HsAlsoShort *also = g_ptr_array_index (stop->also_short, i);
      g_autofree char *quantity = hs_decimal_format_short (also->quantity_milli, 3);
      g_string_append_printf (parts, "%s%s × %s", i > 0 ? "; " : "", quantity, also->part);
    }
  if (parts->len > 0)
    hs_cli_print (_("           also short: %s\n"), parts->str);
}

static void
print_stop (HsCli *cli, guint number, const HsPlannedStop *stop)
{
  g_autofree char *arrive = hs_cli_clock_text (cli, stop->arrive);
  g_autofree char *window = hs_cli_window_text (cli, stop->window_from, stop->window_to);
  g_autofree char *words = hs_cli_one_line (stop->words);
  g_autofree char *source = hs_cli_drive_text (&stop->leg);
  g_autofree char *guess = stop->guess ? g_strdup_printf (" (%s)", source) : g_strdup ("");
  if (stop->is_counter)
    hs_cli_print ("%2u  %s  %s, %s%s\n", number, arrive, stop->id, stop->area, guess);
  else if (stop->window_from == HS_INSTANT_NONE && stop->window_to == HS_INSTANT_NONE)
    hs_cli_print (_("%2u  %s  %s  “%s”, %s, any time%s\n"), number, arrive, stop->id, words, stop->area, guess);
  else
    {
      g_autofree char *spare = stop->window_to != HS_INSTANT_NONE ? hs_cli_spare_text (stop->spare_seconds) : NULL;
      g_autofree char *and_spare = spare != NULL ? g_strdup_printf (", %s", spare) : g_strdup ("");
      hs_cli_print (_("%2u  %s  %s  “%s”, %s [%s]%s%s\n"), number, arrive, stop->id, words, stop->area, window,
                    and_spare, guess);
    }
  if (stop->wait_seconds > 0)
    {
      g_autofree char *start = hs_cli_clock_text (cli, stop->start);
      hs_cli_print (_("           wait until %s\n"), start);
    }
  print_shorts (stop);
  print_break (cli, stop->break_from, stop->break_to);
}

static void
print_home_late (HsCli *cli, const HsDayPlan *plan)
{
  g_autofree char *asked = hs_cli_day_clock_text (cli, plan->day, plan->home_by);
  int minutes = (int) ((plan->home_late_seconds + 59) / 60);
  if (minutes > 0)
    hs_cli_print (_("Home %d min after %s, the time that is set (home_by): promises go first.\n"), minutes, asked);
}

static void
print_mends (GPtrArray *mends)
{
  for (guint i = 0; i < mends->len; i++)
    {
      const HsDayMend *mend = g_ptr_array_index (mends, i);
      hs_cli_print (_("       would mend %s: %s\n"), mend->id, mend->what);
    }
}

/* First of all, for the van is on the road. */
static void
print_rings (GPtrArray *rings)
{
  for (guint i = 0; i < rings->len; i++)
    {
      const HsDayRing *ring = g_ptr_array_index (rings, i);
      const char *who = ring->who != NULL ? ring->who : _("the customer");
      hs_cli_print (_("Ring them: %s, %s: %s %s\n"), who, ring->phone != NULL ? ring->phone : _("no number known"),
                    ring->id, ring->why);
    }
}

static void
print_spare (const HsDayPlan *plan)
{
  int asked = (int) (plan->asked_spare_seconds / 60);
  if (plan->spare_at == NULL)
    return;
  if (plan->spare_seconds < 0)
    {
      hs_cli_print (_("Latest: %d min late at %s\n"), (int) ((59 - plan->spare_seconds) / 60), plan->spare_at);
      return;
    }
  hs_cli_print (_("Least spare time: %d min at %s\n"), (int) (plan->spare_seconds / 60), plan->spare_at);
  if (plan->spare_seconds < plan->asked_spare_seconds && plan->status == HS_PLAN_OPTIMAL)
    hs_cli_print (_("No order has the %d min that are asked (spare_minutes).\n"), asked);
  else if (plan->spare_seconds < plan->asked_spare_seconds)
    hs_cli_print (_("That is less than the %d min that are asked (spare_minutes).\n"), asked);
}

/* The plan that stands, where it is another one. */
static void
print_standing (HsCli *cli, const HsDayPlan *standing)
{
  g_autofree char *leave = hs_cli_clock_text (cli, standing->leave);
  g_autofree char *home = hs_cli_day_clock_text (cli, standing->day, standing->home);
  hs_cli_print (_("Another plan is accepted: leave %s, home %s; plan --going shows it.\n"), leave, home);
}

static void
print_plan (HsCli *cli, const HsDayPlan *plan, GPtrArray *mends)
{
  g_autofree char *day = hs_date_format (plan->day);
  print_rings (plan->ring);
  if (plan->stops->len == 0)
    hs_cli_print (plan->broken->len > 0 ? _("%s: none of the promised calls can be planned.\n")
                                        : _("%s: no promised calls.\n"), day);
  else
    {
      g_autofree char *leave = hs_cli_clock_text (cli, plan->leave);
      g_autofree char *home = hs_cli_day_clock_text (cli, plan->day, plan->home);
      g_autofree char *miles = hs_cli_miles_text (plan->millimiles);
      g_autofree char *cost = hs_cli_money_text (cli, plan->cost_cents);
      hs_cli_print (_("%s: leave %s, home %s, %d min driving, %s mi, costs %s (%s)\n"), day, leave, home,
                    hs_cli_minutes (plan->drive_seconds), miles, cost, hs_solve_status_words (plan->status));
      print_home_late (cli, plan);
      print_spare (plan);
    }
  if (plan->stops->len > 0 && plan->break_from != HS_INSTANT_NONE
      && plan->break_from < ((const HsPlannedStop *) g_ptr_array_index (plan->stops, 0))->arrive)
    print_break (cli, plan->break_from, plan->break_to);
  for (guint i = 0; i < plan->stops->len; i++)
    print_stop (cli, i + 1, g_ptr_array_index (plan->stops, i));
  for (guint i = 0; i < plan->broken->len; i++)
    {
      const HsBrokenPromise *promise = g_ptr_array_index (plan->broken, i);
      hs_cli_print (_("Cannot be kept: %s: %s\n"), promise->id, promise->why);
    }
  print_mends (mends);
  for (guint i = 0; i < plan->penciled->len; i++)
    hs_cli_print (_("Penciled in, not in the plan: %s\n"), (const char *) g_ptr_array_index (plan->penciled, i));
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
print_other (HsCli *cli, const HsDayOther *other)
{
  g_autofree char *miles = hs_cli_miles_text (other->adds_millimiles);
  g_autofree char *cost = hs_cli_money_text (cli, other->adds_cents);
  if (loses_a_call (other))
    hs_cli_print (other->kind == HS_DAY_OTHER_FIRST ? _("%s first: not every call is served\n")
                                                    : _("Without %s: not every call is served\n"),
                  other->id);
  else
    hs_cli_print (other->kind == HS_DAY_OTHER_FIRST ? _("%s first: adds %d min, %s mi, %s\n")
                                                    : _("Without %s: adds %d min, %s mi, %s\n"),
                  other->id, (int) (other->adds_seconds / 60), miles, cost);
  for (guint i = 0; i < other->breaks->len; i++)
    {
      const HsBrokenPromise *promise = g_ptr_array_index (other->breaks, i);
      hs_cli_print (_("       breaks a promise: %s: %s\n"), promise->id, promise->why);
    }
}

static gboolean
share (HsCli *cli, HsDate day, const char *limit_text, gboolean accept, GError **error)
{
  char *end = NULL;
  double limit = limit_text != NULL ? g_ascii_strtod (limit_text, &end) : 10;
  /* Not a number is no time either. */
  if ((end != NULL && (end == limit_text || *end != '\0')) || !(limit > 0 && limit <= 86400))
    return hs_cli_usage (error, _("--limit is in seconds, above 0 and up to a day"));
  return hs_share_out (cli, day, limit, accept, error);
}

gboolean
hs_command_plan (HsCli *cli, char **words, GError **error)
{
  g_autofree char *day_text = NULL;
  g_autofree char *van = NULL;
  gboolean accept = FALSE;
  gboolean asks_others = FALSE;
  gboolean going = FALSE;
  gboolean shares = FALSE;
  gboolean unshares = FALSE;
  g_autofree char *limit = NULL;
  const GOptionEntry entries[] = {
    { "day", 0, 0, G_OPTION_ARG_STRING, &day_text, NULL, NULL },
    { "van", 0, 0, G_OPTION_ARG_STRING, &van, NULL, NULL },
    { "accept", 0, 0, G_OPTION_ARG_NONE, &accept, NULL, NULL },
    { "going", 0, 0, G_OPTION_ARG_NONE, &going, NULL, NULL },
    { "others", 0, 0, G_OPTION_ARG_NONE, &asks_others, NULL, NULL },
    { "share", 0, 0, G_OPTION_ARG_NONE, &shares, NULL, NULL },
    { "unshare", 0, 0, G_OPTION_ARG_NONE, &unshares, NULL, NULL },
    { "limit", 0, 0, G_OPTION_ARG_STRING, &limit, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  HsDate day = HS_DATE_NONE;
  if (!hs_cli_parse (words, entries, 0, 0, &left, error)
      || !hs_cli_open_day (cli, accept || unshares ? HS_BOOK_WRITE : HS_BOOK_READ, day_text, &day, error))
    return FALSE;

  if (accept && going)
    return hs_cli_usage (error, _("--accept plans anew, --going shows what was accepted: give one of them"));
  if (shares && (van != NULL || going || asks_others))
    return hs_cli_usage (error, _("--share is about all vans: it goes with --day, --limit and --accept"));
  if (unshares && (shares || accept || van != NULL || going || asks_others || limit != NULL))
    return hs_cli_usage (error, _("--unshare is about all vans: it goes with --day alone"));
  if (unshares)
    return hs_share_out_undo (cli, day, error);
  if (!shares && limit != NULL)
    return hs_cli_usage (error, _("--limit goes with --share"));
  if (shares)
    return share (cli, day, limit, accept, error);
  g_autoptr (HsDayPlan) plan = going ? hs_day_plan_standing (cli->book, day, van, cli->now, error)
                                     : hs_day_plan_make (cli->book, day, van, cli->now, error);
  if (plan == NULL || (accept && !hs_day_plan_accept (cli->book, plan, cli->now, error)))
    return FALSE;
  g_autoptr (HsDayPlan) standing = NULL;
  if (!going && !accept && !hs_day_plan_find_other (cli->book, plan, cli->now, &standing, error))
    return FALSE;
  g_autoptr (GPtrArray) others = asks_others ? hs_day_others (cli->book, day, van, cli->now, error) : NULL;
  if (asks_others && others == NULL)
    return FALSE;
  g_autoptr (GPtrArray) mends
      = plan->broken->len > 0 ? hs_day_mends (cli->book, day, van, !going, cli->now, error) : g_ptr_array_new ();
  if (mends == NULL)
    return FALSE;
  if (cli->json)
    {
      g_autoptr (HsJsonOut) out = hs_json_out_new ();
      write_plan (cli, out, plan, mends, others);
      hs_cli_print_json (out);
    }
  else
    print_plan (cli, plan, mends);
  if (!cli->json && standing != NULL)
    print_standing (cli, standing);
  for (guint i = 0; !cli->json && others != NULL && i < others->len; i++)
    print_other (cli, g_ptr_array_index (others, i));
  return TRUE;
}
