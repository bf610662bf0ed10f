// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What was told and picked on a job, as JSON and as text. The cheaper choice is printed like any other. */

#include "hs-choice-out.h"

#include "hs-words.h"

#include <glib/gi18n.h>

/* JSON ------------------------------------------------------------------------------------------------------------- */

static void
write_instant (HsJsonOut *out, const char *name, HsInstant at)
{
  g_autofree char *text = at == HS_INSTANT_NONE ? NULL : hs_instant_format (at);
  hs_json_out_string (out, name, text);
}

static void
write_line (HsJsonOut *out, const HsChoiceLine *line)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "id", line->id);
  hs_json_out_string (out, "kind", line->kind);
  hs_json_out_string (out, "what", line->what);
  hs_json_out_string (out, "part", line->part_number);
  if (line->minutes > 0)
    hs_json_out_integer (out, "minutes", line->minutes);
  else
    hs_json_out_decimal (out, "quantity", line->quantity_milli, 3);
  hs_cli_json_cents (out, "cost_cents", line->cost_cents);
  hs_cli_json_cents (out, "price_cents", line->price_cents);
  hs_cli_json_cents (out, "tax_cents", line->tax_cents);
  hs_json_out_end_object (out);
}

static void
write_choice (HsJsonOut *out, const HsChoice *choice)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_integer (out, "number", choice->number);
  hs_json_out_string (out, "id", choice->id);
  hs_json_out_string (out, "group", choice->group);
  hs_json_out_string (out, "rank", choice->rank);
  hs_json_out_string (out, "wording", choice->wording);
  hs_json_out_string (out, "risk", choice->risk);
  hs_cli_json_cents (out, "price_cents", choice->price_cents);
  hs_cli_json_cents (out, "less_cents", choice->less_cents);
  hs_cli_json_cents (out, "in_all_cents", choice->in_all_cents);
  hs_cli_json_cents (out, "would_cents", choice->would_cents);
  hs_cli_json_cents (out, "would_short_cents", choice->would_short_cents);
  hs_json_out_string (out, "answer", choice->choice);
  hs_json_out_string (out, "by", choice->by);
  hs_json_out_string (out, "means", choice->means);
  hs_json_out_boolean (out, "signed", choice->signature != NULL);
  write_instant (out, "at", choice->at);
  hs_cli_json_date (out, "call_on", choice->call_on);
  hs_json_out_begin_array (out, "lines");
  for (guint i = 0; i < choice->lines->len; i++)
    write_line (out, g_ptr_array_index (choice->lines, i));
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

static void
write_declined (HsJsonOut *out, const HsDeclined *declined)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "job", declined->number);
  hs_cli_json_date (out, "day", declined->day);
  hs_json_out_integer (out, "days", declined->days);
  hs_json_out_string (out, "wording", declined->wording);
  hs_json_out_string (out, "answer", declined->choice);
  hs_json_out_string (out, "risk", declined->risk);
  hs_json_out_string (out, "by", declined->by);
  hs_json_out_string (out, "picked", declined->picked);
  hs_cli_json_cents (out, "price_cents", declined->price_cents);
  hs_cli_json_cents (out, "paid_cents", declined->paid_cents);
  hs_cli_json_cents (out, "in_all_cents", declined->in_all_cents);
  hs_cli_json_cents (out, "extra_cents", declined->extra_cents);
  hs_json_out_boolean (out, "follows", declined->follows);
  hs_json_out_string (out, "return_why", declined->return_why);
  hs_json_out_end_object (out);
}

static void
write_yes (HsJsonOut *out, const HsGoAhead *yes)
{
  hs_json_out_begin_object (out, NULL);
  hs_cli_json_cents (out, "ceiling_cents", yes->ceiling_cents);
  hs_json_out_string (out, "by", yes->by);
  hs_json_out_string (out, "means", yes->means);
  write_instant (out, "at", yes->at);
  hs_json_out_boolean (out, "signed", yes->signature != NULL);
  hs_json_out_end_object (out);
}

void
hs_choice_out_write_room (HsJsonOut *out, const char *name, const HsJobChoices *job, const HsGoAheadRoom *room,
                          const char *words)
{
  hs_json_out_begin_object (out, name);
  hs_json_out_boolean (out, "given", room->given);
  hs_cli_json_cents (out, "ceiling_cents", room->ceiling_cents);
  hs_cli_json_cents (out, "overrun_cents", room->overrun_cents);
  hs_cli_json_cents (out, "used_cents", room->used_cents);
  hs_cli_json_cents (out, "added_cents", room->added_cents);
  hs_cli_json_cents (out, "total_cents", room->total_cents);
  hs_cli_json_cents (out, "short_cents", room->short_cents);
  hs_json_out_string (out, "says", words);
  hs_json_out_begin_array (out, "given_by");
  for (guint i = 0; i < job->go_aheads->len; i++)
    write_yes (out, g_ptr_array_index (job->go_aheads, i));
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

void
hs_choice_out_write (HsJsonOut *out, const HsJobChoices *job)
{
  hs_json_out_begin_array (out, "choices");
  for (guint i = 0; i < job->choices->len; i++)
    write_choice (out, g_ptr_array_index (job->choices, i));
  hs_json_out_end_array (out);
  hs_json_out_begin_array (out, "declined");
  for (guint i = 0; i < job->declined->len; i++)
    write_declined (out, g_ptr_array_index (job->declined, i));
  hs_json_out_end_array (out);
  hs_choice_out_write_room (out, "go_ahead", job, job->room, job->room_words);
}

/* Text ------------------------------------------------------------------------------------------------------------- */

/* "2026-02-03 09:36" on the wall of the business. */
static char *
minute_text (HsCli *cli, HsInstant at)
{
  HsDate day;
  if (at == HS_INSTANT_NONE)
    return g_strdup ("");
  hs_instant_to_local (hs_book_get_zone (cli->book), at, &day, NULL);
  g_autofree char *date = hs_date_format (day);
  g_autofree char *clock = hs_cli_clock_text (cli, at);
  return g_strdup_printf ("%s %s", date, clock);
}

static void
print_line (HsCli *cli, const HsChoiceLine *line)
{
  g_autofree char *price = hs_cli_money_text (cli, line->price_cents + line->tax_cents);
  g_autofree char *padded = hs_cli_pad (price, -10);
  g_autofree char *what = hs_cli_one_line (line->what);
  if (line->minutes > 0)
    hs_cli_print (_("     %s  %s, %d min\n"), padded, what, (int) line->minutes);
  else
    hs_cli_print ("     %s  %s\n", padded, what);
}

static void
print_answer (HsCli *cli, const HsChoice *choice)
{
  g_autofree char *by = hs_cli_one_line (choice->by);
  g_autofree char *clock = minute_text (cli, choice->at);
  g_autofree char *day = hs_date_format (choice->call_on);
  if (g_str_equal (choice->choice, "open"))
    hs_cli_print ("   %s\n", hs_words_label (HS_WORDS_CHOICE, choice->choice));
  else
    hs_cli_print ("   %s: %s, %s, %s\n", hs_words_label (HS_WORDS_CHOICE, choice->choice), by,
                  hs_words_label (HS_WORDS_MEANS, choice->means), clock);
  if (choice->call_on != HS_DATE_NONE)
    hs_cli_print (_("   call on %s\n"), day);
}

static void
print_choice (HsCli *cli, const HsJobChoices *job, const HsChoice *choice)
{
  g_autofree char *price = hs_cli_money_text (cli, choice->price_cents);
  g_autofree char *less = hs_cli_money_text (cli, choice->less_cents);
  g_autofree char *in_all = hs_cli_money_text (cli, choice->in_all_cents);
  g_autofree char *would = hs_cli_money_text (cli, choice->would_cents);
  g_autofree char *over = hs_cli_money_text (cli, choice->would_short_cents);
  g_autofree char *wording = hs_cli_one_line (choice->wording);
  g_autofree char *group = hs_cli_one_line (choice->group);
  g_autofree char *risk = hs_cli_one_line (choice->risk);
  g_autofree char *head
      = hs_cli_join (choice->group == NULL ? NULL : group,
                     choice->rank == NULL ? NULL : hs_words_label (HS_WORDS_RANK, choice->rank), wording);
  hs_cli_print ("%u  %s  %s\n", choice->number, price, head);
  if (choice->risk != NULL)
    hs_cli_print ("   %s\n", risk);
  if (choice->less_cents > 0 && g_str_equal (choice->choice, "open"))
    hs_cli_print (_("   %s less now; %s in all if the rest follows later\n"), less, in_all);
  if (job->room->given && choice->would_short_cents > 0 && g_str_equal (choice->choice, "open"))
    hs_cli_print (_("   brings the job to %s: short by %s\n"), would, over);
  for (guint i = 0; i < choice->lines->len; i++)
    print_line (cli, g_ptr_array_index (choice->lines, i));
  print_answer (cli, choice);
}

static void
print_declined (HsCli *cli, const HsDeclined *declined)
{
  g_autofree char *price = hs_cli_money_text (cli, declined->price_cents);
  g_autofree char *in_all = hs_cli_money_text (cli, declined->in_all_cents);
  g_autofree char *extra = hs_cli_money_text (cli, declined->extra_cents);
  g_autofree char *wording = hs_cli_one_line (declined->wording);
  hs_cli_print (g_str_equal (declined->choice, "later")
                    ? ngettext ("Put off on %s, %d day before: %s, %s\n", "Put off on %s, %d days before: %s, %s\n",
                                (gulong) declined->days)
                    : ngettext ("Declined on %s, %d day before: %s, %s\n", "Declined on %s, %d days before: %s, %s\n",
                                (gulong) declined->days),
                declined->number, declined->days, wording, price);
  hs_cli_print (_("   %s in all over both visits, %s extra\n"), in_all, extra);
  if (declined->follows && declined->return_why != NULL)
    hs_cli_print (_("   this job is the return visit: %s\n"),
                  hs_words_label (HS_WORDS_RETURN_WHY, declined->return_why));
}

void
hs_choice_out_print_declined (HsCli *cli, const HsJobChoices *job)
{
  for (guint i = 0; i < job->declined->len; i++)
    print_declined (cli, g_ptr_array_index (job->declined, i));
}

void
hs_choice_out_print (HsCli *cli, const HsJobChoices *job)
{
  hs_choice_out_print_declined (cli, job);
  if (job->choices->len == 0)
    hs_cli_print ("%s\n", _("Nothing is recommended yet."));
  for (guint i = 0; i < job->choices->len; i++)
    print_choice (cli, job, g_ptr_array_index (job->choices, i));
}

void
hs_choice_out_print_go_aheads (HsCli *cli, const HsJobChoices *job)
{
  for (guint i = 0; i < job->go_aheads->len; i++)
    {
      const HsGoAhead *yes = g_ptr_array_index (job->go_aheads, i);
      g_autofree char *ceiling = hs_cli_money_text (cli, yes->ceiling_cents);
      g_autofree char *padded = hs_cli_pad (ceiling, -10);
      g_autofree char *by = hs_cli_one_line (yes->by);
      g_autofree char *at = minute_text (cli, yes->at);
      hs_cli_print ("%s  %s, %s, %s\n", padded, by, hs_words_label (HS_WORDS_MEANS, yes->means), at);
    }
}
