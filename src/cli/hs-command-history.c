// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `history`: what a vehicle has lived through, as its present owner may hear it. */

#include "hs-cli.h"

#include "hs-history.h"

#include <glib/gi18n.h>

static const char *const kind_ids[] = { "job", "owner", "odometer" };

static void
write_strings (HsJsonOut *out, const char *name, GPtrArray *strings)
{
  hs_json_out_begin_array (out, name);
  for (guint i = 0; strings != NULL && i < strings->len; i++)
    hs_json_out_string (out, NULL, g_ptr_array_index (strings, i));
  hs_json_out_end_array (out);
}

static void
write_readings (HsJsonOut *out, GPtrArray *readings)
{
  hs_json_out_begin_array (out, "readings");
  for (guint i = 0; readings != NULL && i < readings->len; i++)
    {
      const HsHistoryReading *reading = g_ptr_array_index (readings, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "name", reading->name);
      hs_json_out_string (out, "before", reading->before);
      hs_json_out_string (out, "before_verdict", reading->before_verdict);
      hs_json_out_string (out, "after", reading->after);
      hs_json_out_string (out, "after_verdict", reading->after_verdict);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
}

static void
write_entry (HsJsonOut *out, const HsHistoryEntry *entry)
{
  hs_json_out_begin_object (out, NULL);
  hs_cli_json_date (out, "day", entry->day);
  hs_json_out_string (out, "kind", kind_ids[entry->kind]);
  hs_json_out_string (out, "title", entry->title);
  hs_json_out_string (out, "detail", entry->detail);
  hs_json_out_string (out, "job", entry->job_number);
  hs_json_out_string (out, "stage", entry->stage);
  hs_cli_json_cents (out, "total_cents", entry->total_cents);
  write_readings (out, entry->readings);
  write_strings (out, "installed", entry->parts);
  write_strings (out, "advice", entry->advice);
  hs_json_out_end_object (out);
}

static void
write_history (HsJsonOut *out, const HsHistory *history)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "plate", history->plate);
  hs_json_out_string (out, "vehicle", history->vehicle);
  hs_json_out_string (out, "customer", history->customer);
  hs_json_out_boolean (out, "high_voltage", history->high_voltage);
  hs_json_out_string (out, "battery", history->battery != NULL ? history->battery->say : NULL);
  hs_json_out_begin_array (out, "entries");
  for (guint i = 0; i < history->entries->len; i++)
    write_entry (out, g_ptr_array_index (history->entries, i));
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

static void
print_strings (const char *before, GPtrArray *strings)
{
  for (guint i = 0; strings != NULL && i < strings->len; i++)
    hs_cli_print ("            %s%s\n", before, (const char *) g_ptr_array_index (strings, i));
}

static const char *
or_else (const char *text, const char *otherwise)
{
  return text != NULL ? text : otherwise;
}

static void
print_reading (const HsHistoryReading *reading)
{
  g_autofree char *name = hs_cli_pad (reading->name, 26);
  g_autofree char *before = hs_cli_pad (or_else (reading->before, "–"), -10);
  g_autofree char *before_word = hs_cli_pad (or_else (reading->before_word, ""), 14);
  g_autofree char *after = hs_cli_pad (or_else (reading->after, "–"), -10);
  hs_cli_print ("            %s %s %s → %s %s\n", name, before, before_word, after,
                or_else (reading->after_word, ""));
}

static void
print_entry (HsCli *cli, const HsHistoryEntry *entry)
{
  g_autofree char *day = hs_date_format (entry->day);
  g_autofree char *title = hs_cli_one_line (entry->title);
  hs_cli_print ("%s  %s%s%s\n", day, title, entry->job_number != NULL ? "  " : "",
                entry->job_number != NULL ? entry->job_number : "");
  if (entry->detail != NULL)
    hs_cli_print ("            %s\n", entry->detail);
  for (guint i = 0; entry->readings != NULL && i < entry->readings->len; i++)
    print_reading (g_ptr_array_index (entry->readings, i));
  print_strings (_("installed: "), entry->parts);
  print_strings ("", entry->advice);
  if (entry->total_cents >= 0)
    {
      g_autofree char *total = hs_cli_money_text (cli, entry->total_cents);
      hs_cli_print (_("            total %s\n"), total);
    }
}

gboolean
hs_command_history (HsCli *cli, char **words, GError **error)
{
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, NULL, 1, G_MAXUINT, &left, error) || !hs_cli_open_book (cli, HS_BOOK_READ, error))
    return FALSE;
  g_autofree char *query = g_strjoinv (" ", left);
  g_autofree char *vehicle_id = hs_history_find_vehicle (cli->book, query, cli->now, error);
  if (vehicle_id == NULL)
    return FALSE;
  g_autoptr (HsHistory) history = hs_history_load (cli->book, vehicle_id, cli->now, error);
  if (history == NULL)
    return FALSE;

  if (cli->json)
    {
      g_autoptr (HsJsonOut) out = hs_json_out_new ();
      write_history (out, history);
      hs_cli_print_json (out);
      return TRUE;
    }
  g_autofree char *who = hs_cli_join (history->vehicle,
                                      history->customer != NULL ? history->customer : _("no present owner"), NULL);
  hs_cli_print ("%s  %s\n", history->plate, who);
  hs_cli_print ("%s\n\n", history->battery != NULL ? history->battery->say : _("No battery on record."));
  for (guint i = 0; i < history->entries->len; i++)
    print_entry (cli, g_ptr_array_index (history->entries, i));
  return TRUE;
}
