// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `find`: which vehicle is that, and how old is its battery? */

#include "hs-cli.h"

#include "hs-find.h"

#include <glib/gi18n.h>

#define MOST_HITS 50

static void
write_battery (HsJsonOut *out, const HsBatteryFact *battery)
{
  if (battery == NULL)
    {
      hs_json_out_null (out, "battery");
      return;
    }
  hs_json_out_begin_object (out, "battery");
  hs_cli_json_date (out, "fitted_on", battery->installed_on);
  if (battery->age_months >= 0)
    hs_json_out_integer (out, "age_months", battery->age_months);
  else
    hs_json_out_null (out, "age_months");
  hs_json_out_string (out, "known_by", battery->known_by);
  hs_json_out_string (out, "kind", battery->kind);
  if (battery->ah > 0)
    hs_json_out_real (out, "ah", battery->ah);
  else
    hs_json_out_null (out, "ah");
  if (battery->cca > 0)
    hs_json_out_real (out, "cca", battery->cca);
  else
    hs_json_out_null (out, "cca");
  hs_json_out_string (out, "maker", battery->maker);
  hs_json_out_string (out, "place", battery->place);
  hs_cli_json_date (out, "warranty_until", battery->warranty_until);
  hs_json_out_boolean (out, "swapped", battery->swapped);
  hs_json_out_string (out, "job", battery->job_number);
  hs_json_out_string (out, "say", battery->say);
  hs_json_out_end_object (out);
}

static void
write_jobs (HsJsonOut *out, GPtrArray *jobs)
{
  hs_json_out_begin_array (out, "jobs");
  for (guint i = 0; i < jobs->len; i++)
    {
      const HsHit *job = g_ptr_array_index (jobs, i);

      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "number", job->job_number);
      hs_json_out_string (out, "stage", hs_stage_id (job->stage));
      hs_json_out_string (out, "plate", job->plate);
      hs_json_out_string (out, "customer", job->customer);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
}

static void
print_job (const HsHit *job)
{
  g_autofree char *number = hs_cli_pad (job->job_number, 10);
  g_autofree char *who = hs_cli_join (job->plate, job->vehicle, job->customer);

  hs_cli_print ("%s %s, %s\n", number, _(hs_stage_label (job->stage)), who);
}

static void
write_hits (HsJsonOut *out, GPtrArray *jobs, GPtrArray *hits)
{
  hs_json_out_begin_object (out, NULL);
  write_jobs (out, jobs);
  hs_json_out_begin_array (out, "hits");
  for (guint i = 0; i < hits->len; i++)
    {
      const HsHit *hit = g_ptr_array_index (hits, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "plate", hit->plate);
      hs_json_out_string (out, "vehicle", hit->vehicle);
      hs_json_out_string (out, "customer", hit->customer);
      hs_json_out_string (out, "area", hit->area);
      hs_json_out_boolean (out, "present", hit->present);
      hs_cli_json_date (out, "until", hit->until);
      write_battery (out, hit->battery);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

static void
print_hit (const HsHit *hit)
{
  g_autofree char *until = hit->until != HS_DATE_NONE ? hs_date_format (hit->until) : NULL;
  g_autofree char *past = until != NULL ? g_strdup_printf (_(", until %s"), until) : g_strdup ("");
  g_autofree char *who = hs_cli_join (hit->vehicle != NULL ? hit->vehicle : _("no vehicle"), hit->customer, NULL);
  g_autofree char *plate = hs_cli_pad (hit->plate != NULL ? hit->plate : "–", 10);
  hs_cli_print ("%s %s%s\n", plate, who, past);
  hs_cli_print ("           %s\n", hit->battery != NULL ? hit->battery->say : _("No battery on record."));
}

gboolean
hs_command_find (HsCli *cli, char **words, GError **error)
{
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, NULL, 0, G_MAXUINT, &left, error) || !hs_cli_open_book (cli, HS_BOOK_READ, error))
    return FALSE;
  g_autofree char *query = g_strjoinv (" ", left);
  g_autoptr (GPtrArray) hits = hs_find (cli->book, query, MOST_HITS, cli->now, error);
  g_autoptr (GPtrArray) jobs = hits != NULL ? hs_find_jobs (cli->book, query, cli->now, error) : NULL;
  if (jobs == NULL)
    return FALSE;

  if (cli->json)
    {
      g_autoptr (HsJsonOut) out = hs_json_out_new ();
      write_hits (out, jobs, hits);
      hs_cli_print_json (out);
      return TRUE;
    }
  for (guint i = 0; i < jobs->len; i++)
    print_job (g_ptr_array_index (jobs, i));
  for (guint i = 0; i < hits->len; i++)
    print_hit (g_ptr_array_index (hits, i));
  if (jobs->len + hits->len == 0)
    hs_cli_print (_("Nothing found for “%s”.\n"), query);
  return TRUE;
}
