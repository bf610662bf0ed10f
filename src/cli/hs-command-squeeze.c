// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `squeeze`: where one more call fits into the day as it stands. */

#include "hs-cli.h"

#include "hs-day-plan.h"
#include "hs-decimal.h"

#include <glib/gi18n.h>
#include <string.h>

static void
write_offer (HsCli *cli, HsJsonOut *out, HsDate day, const HsOffer *offer)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "van", offer->van);
  hs_json_out_string (out, "after", offer->after);
  hs_cli_json_clock (cli, out, "leave", day, offer->leave);
  hs_cli_json_clock (cli, out, "start", day, offer->start);
  hs_cli_json_clock (cli, out, "home", day, offer->home);
  hs_cli_json_minutes (out, "adds_minutes", offer->adds_seconds);
  hs_cli_json_miles (out, "adds_miles", offer->adds_millimiles);
  hs_json_out_integer (out, "adds_cents", offer->adds_cents);
  hs_json_out_boolean (out, "replanned", offer->replanned);
  if (offer->free_from == HS_INSTANT_NONE)
    hs_json_out_null (out, "free");
  else
    {
      hs_json_out_begin_array (out, "free");
      hs_cli_json_clock (cli, out, NULL, day, offer->free_from);
      hs_cli_json_clock (cli, out, NULL, day, offer->free_to);
      hs_json_out_end_array (out);
    }
  hs_json_out_begin_array (out, "breaks");
  for (guint i = 0; i < offer->breaks->len; i++)
    {
      const HsBrokenPromise *promise = g_ptr_array_index (offer->breaks, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "id", promise->id);
      hs_cli_json_minutes (out, "late_minutes", MAX (promise->late_seconds, 0));
      hs_json_out_string (out, "why", promise->why);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

static void
print_offer (HsCli *cli, HsDate day, const HsOffer *offer)
{
  g_autofree char *start = hs_cli_day_clock_text (cli, day, offer->start);
  g_autofree char *home = hs_cli_day_clock_text (cli, day, offer->home);
  g_autofree char *miles = hs_cli_miles_text (offer->adds_millimiles);
  g_autofree char *cost = hs_cli_money_text (cli, offer->adds_cents);
  hs_cli_print (_("%s  after %s: adds %d min, %s mi, %s; home %s%s\n"), start,
                offer->after != NULL ? offer->after : _("leaving"), (int) (offer->adds_seconds / 60), miles, cost, home,
                offer->replanned ? _(" (day planned anew)") : "");
  if (offer->van != NULL)
    hs_cli_print (_("       van %s\n"), offer->van);
  if (offer->leave != HS_INSTANT_NONE)
    {
      g_autofree char *leave = hs_cli_day_clock_text (cli, day, offer->leave);
      hs_cli_print (_("       leave %s\n"), leave);
    }
  if (offer->free_from != HS_INSTANT_NONE)
    {
      g_autofree char *from = hs_cli_day_clock_text (cli, day, offer->free_from);
      g_autofree char *to = hs_cli_day_clock_text (cli, day, offer->free_to);
      hs_cli_print (_("       may be promised from %s to %s\n"), from, to);
    }
  for (guint i = 0; i < offer->breaks->len; i++)
    {
      const HsBrokenPromise *promise = g_ptr_array_index (offer->breaks, i);
      hs_cli_print (_("       breaks a promise: %s: %s\n"), promise->id, promise->why);
    }
}

/* "09:00-17:00" */
static gboolean
parse_window (const char *text, int *ret_from, int *ret_to, GError **error)
{
  const char *dash = text != NULL ? strchr (text, '-') : NULL;
  if (dash == NULL)
    return hs_cli_usage (error, _("--window wants HH:MM-HH:MM"));
  g_autofree char *from = g_strndup (text, dash - text);
  g_autoptr (GError) local = NULL;
  if (!hs_clock_parse (from, ret_from, &local) || !hs_clock_parse (dash + 1, ret_to, &local))
    return hs_cli_usage (error, "--window: %s", local->message);
  if (*ret_to < *ret_from)
    return hs_cli_usage (error, _("--window ends before it starts"));
  return TRUE;
}

typedef struct
{
  char *day;
  char *van;
  char *area;
  char *window;
  int minutes;
  gboolean replan;
} SqueezeWords;

static gboolean
squeeze (HsCli *cli, const SqueezeWords *asked, GError **error)
{
  int from = 0;
  int to = 0;
  HsDate day = HS_DATE_NONE;
  if (asked->area == NULL)
    return hs_cli_usage (error, _("--area is missing"));
  if (asked->minutes <= 0)
    return hs_cli_usage (error, _("--minutes wants more than 0"));
  if (!parse_window (asked->window, &from, &to, error)
      || !hs_cli_open_day (cli, HS_BOOK_READ, asked->day, &day, error))
    return FALSE;
  g_autoptr (GPtrArray) offers = hs_day_squeeze (cli->book, day, asked->van, asked->area,
                                                 (gint64) asked->minutes * 60, from, to, asked->replan, cli->now,
                                                 error);
  if (offers == NULL)
    return FALSE;

  if (cli->json)
    {
      g_autoptr (HsJsonOut) out = hs_json_out_new ();
      hs_json_out_begin_object (out, NULL);
      hs_json_out_begin_array (out, "offers");
      for (guint i = 0; i < offers->len; i++)
        write_offer (cli, out, day, g_ptr_array_index (offers, i));
      hs_json_out_end_array (out);
      hs_json_out_end_object (out);
      hs_cli_print_json (out);
      return TRUE;
    }
  for (guint i = 0; i < offers->len; i++)
    print_offer (cli, day, g_ptr_array_index (offers, i));
  return TRUE;
}

gboolean
hs_command_squeeze (HsCli *cli, char **words, GError **error)
{
  SqueezeWords asked = { 0 };
  const GOptionEntry entries[] = {
    { "day", 0, 0, G_OPTION_ARG_STRING, &asked.day, NULL, NULL },
    { "van", 0, 0, G_OPTION_ARG_STRING, &asked.van, NULL, NULL },
    { "area", 0, 0, G_OPTION_ARG_STRING, &asked.area, NULL, NULL },
    { "window", 0, 0, G_OPTION_ARG_STRING, &asked.window, NULL, NULL },
    { "minutes", 0, 0, G_OPTION_ARG_INT, &asked.minutes, NULL, NULL },
    { "replan", 0, 0, G_OPTION_ARG_NONE, &asked.replan, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  gboolean done = hs_cli_parse (words, entries, 0, 0, &left, error) && squeeze (cli, &asked, error);
  g_free (asked.day);
  g_free (asked.van);
  g_free (asked.area);
  g_free (asked.window);
  return done;
}
