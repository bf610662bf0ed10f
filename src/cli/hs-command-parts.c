// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `parts`: what to pick up, drop off and return at each counter of a day. */

#include "hs-cli.h"

#include "hs-load-list.h"

#include <glib/gi18n.h>

static void
write_row (HsJsonOut *out, const HsRunRow *row)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "part", row->part);
  hs_json_out_string (out, "number", row->number);
  hs_json_out_real (out, "qty", row->quantity);
  hs_cli_json_cents (out, "cents", row->cents);
  hs_json_out_integer (out, "deposit_cents", row->deposit_cents);
  hs_json_out_string (out, "for", row->job_number);
  if (row->sure_percent >= 0)
    hs_json_out_integer (out, "sure_percent", row->sure_percent);
  if (row->where_now != NULL)
    hs_json_out_string (out, "where_now", row->where_now);
  hs_cli_json_date (out, "last_day", row->last_day);
  hs_json_out_string (out, "note", row->note);
  if (row->van != NULL)
    hs_json_out_string (out, "van", row->van);
  hs_json_out_boolean (out, "done", row->ticked);
  hs_json_out_end_object (out);
}

static void
write_rows (HsJsonOut *out, const char *name, GPtrArray *rows)
{
  hs_json_out_begin_array (out, name);
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    write_row (out, g_ptr_array_index (rows, i));
  hs_json_out_end_array (out);
}

static void
write_counter (HsCli *cli, HsJsonOut *out, HsDate day, const HsRunCounter *counter)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "supplier", counter->supplier);
  hs_cli_json_clock (cli, out, "arrive", day, counter->arrive);
  hs_json_out_integer (out, "stop", counter->stop_number);
  hs_json_out_string (out, "why_not", counter->why_not);
  write_rows (out, "pick_up", counter->pick_up);
  write_rows (out, "drop_off", counter->drop_off);
  write_rows (out, "maybe", counter->maybe);
  write_rows (out, "return", counter->give_back);
  write_rows (out, "restock", counter->restock);
  hs_json_out_integer (out, "pick_up_cents", counter->pick_up_cents);
  hs_json_out_integer (out, "deposit_cents", counter->deposit_cents);
  hs_json_out_integer (out, "drop_off_cents", counter->drop_off_cents);
  hs_json_out_integer (out, "return_cents", counter->give_back_cents);
  hs_json_out_end_object (out);
}

static void
write_load (HsJsonOut *out, const HsLoadRow *row)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "do", hs_load_kind_id (row->kind));
  hs_json_out_string (out, "what", row->what);
  hs_json_out_string (out, "number", row->number);
  hs_json_out_real (out, "qty", row->quantity);
  hs_json_out_string (out, "for", row->job_number);
  hs_json_out_string (out, "supplier", row->supplier);
  if (row->sure_percent >= 0)
    hs_json_out_integer (out, "sure_percent", row->sure_percent);
  if (row->line_permille >= 0)
    {
      hs_json_out_real (out, "line_percent", row->line_permille / 10.0);
      hs_json_out_integer (out, "gain_cents", row->gain_cents);
    }
  if (row->vain_cents >= 0)
    hs_json_out_integer (out, "vain_cents", row->vain_cents);
  if (row->trip_cents >= 0)
    hs_json_out_integer (out, "second_trip_cents", row->trip_cents);
  hs_json_out_string (out, "why", row->why);
  hs_json_out_end_object (out);
}

static void
write_run (HsCli *cli, HsJsonOut *out, const HsPartsRun *run)
{
  hs_json_out_begin_object (out, NULL);
  hs_cli_json_date (out, "day", run->plan->day);
  hs_json_out_string (out, "van", run->plan->van);
  hs_json_out_begin_array (out, "load");
  for (guint i = 0; i < run->load_list->len; i++)
    write_load (out, g_ptr_array_index (run->load_list, i));
  hs_json_out_end_array (out);
  hs_json_out_begin_array (out, "counters");
  for (guint i = 0; i < run->counters->len; i++)
    write_counter (cli, out, run->plan->day, g_ptr_array_index (run->counters, i));
  hs_json_out_end_array (out);
  write_rows (out, "from_van", run->from_van);
  write_rows (out, "nowhere", run->nowhere);
  write_rows (out, "elsewhere", run->elsewhere);
  hs_json_out_end_object (out);
}

static void
print_rows (HsCli *cli, const char *title, GPtrArray *rows)
{
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const HsRunRow *row = g_ptr_array_index (rows, i);
      g_autofree char *cents = row->cents >= 0 ? hs_cli_money_text (cli, row->cents) : g_strdup (_("no price"));
      char quantity[G_ASCII_DTOSTR_BUF_SIZE];
      g_ascii_formatd (quantity, sizeof quantity, "%g", row->quantity);
      g_autofree char *padded_title = hs_cli_pad (i == 0 ? title : "", 9);
      g_autofree char *part = hs_cli_pad (row->part, 36);
      g_autofree char *sum = hs_cli_pad (cents, -9);
      hs_cli_print ("  %s %s %s × %s %s  %s%s%s\n", padded_title, row->ticked ? "[x]" : "[ ]", quantity, part, sum,
                    row->job_number != NULL ? row->job_number : "",
                    row->note != NULL ? " · " : "", row->note != NULL ? row->note : "");
    }
}

static void
print_counter (HsCli *cli, const HsRunCounter *counter)
{
  g_autofree char *arrive = hs_cli_clock_text (cli, counter->arrive);
  g_autofree char *parts = hs_cli_money_text (cli, counter->pick_up_cents);
  g_autofree char *deposits = hs_cli_money_text (cli, counter->deposit_cents);
  g_autofree char *back = hs_cli_money_text (cli, counter->drop_off_cents + counter->give_back_cents);
  if (counter->arrive == HS_INSTANT_NONE)
    hs_cli_print (_("–  %s, cannot be visited\n"), counter->supplier);
  else
    hs_cli_print (_("%u  %s, %s\n"), counter->stop_number, counter->supplier, arrive);
  if (counter->why_not != NULL)
    hs_cli_print ("   %s\n", counter->why_not);
  print_rows (cli, _("pick up"), counter->pick_up);
  print_rows (cli, _("drop off"), counter->drop_off);
  print_rows (cli, _("return"), counter->give_back);
  print_rows (cli, _("maybe"), counter->maybe);
  print_rows (cli, _("restock"), counter->restock);
  if (counter->arrive != HS_INSTANT_NONE)
    hs_cli_print (_("  pay %s + deposits %s, coming back %s\n"), parts, deposits, back);
}

static const char *
load_word (HsLoadKind kind)
{
  switch (kind)
    {
    case HS_LOAD_TOOL:
    case HS_LOAD_ON_BOARD:
      return _("on board");
    case HS_LOAD_FROM_BASE:
    case HS_LOAD_GIVE_BACK:
      return _("load");
    case HS_LOAD_BRING:
      return _("bring");
    case HS_LOAD_LEAVE:
      return _("leave");
    }
  g_return_val_if_reached ("");
}

static void
print_load (const HsPartsRun *run)
{
  if (run->load_list->len > 0)
    hs_cli_print (_("Before van %s leaves\n"), run->plan->van);
  for (guint i = 0; i < run->load_list->len; i++)
    {
      const HsLoadRow *row = g_ptr_array_index (run->load_list, i);
      g_autofree char *word = hs_cli_pad (load_word (row->kind), 9);
      gboolean for_job = row->job_number != NULL && row->kind != HS_LOAD_FROM_BASE;
      const char *target = for_job ? row->job_number : row->supplier;
      hs_cli_print ("  %s %s, %s: %s\n", word, row->what, target != NULL ? target : "", row->why);
    }
}

gboolean
hs_command_parts (HsCli *cli, char **words, GError **error)
{
  g_autofree char *day_text = NULL;
  g_autofree char *van = NULL;
  const GOptionEntry entries[] = {
    { "day", 0, 0, G_OPTION_ARG_STRING, &day_text, NULL, NULL },
    { "van", 0, 0, G_OPTION_ARG_STRING, &van, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  HsDate day = HS_DATE_NONE;
  if (!hs_cli_parse (words, entries, 0, 0, &left, error)
      || !hs_cli_open_day (cli, HS_BOOK_READ, day_text, &day, error))
    return FALSE;

  g_autoptr (HsPartsRun) run = hs_parts_run_make (cli->book, day, van, cli->now, error);
  if (run == NULL)
    return FALSE;
  if (cli->json)
    {
      g_autoptr (HsJsonOut) out = hs_json_out_new ();
      write_run (cli, out, run);
      hs_cli_print_json (out);
      return TRUE;
    }
  print_load (run);
  for (guint i = 0; i < run->counters->len; i++)
    print_counter (cli, g_ptr_array_index (run->counters, i));
  if (run->counters->len == 0)
    hs_cli_print (_("No counter today.\n"));
  print_rows (cli, _("in van"), run->from_van);
  print_rows (cli, _("nowhere"), run->nowhere);
  print_rows (cli, _("elsewhere"), run->elsewhere);
  return TRUE;
}
