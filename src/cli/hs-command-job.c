// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `job`: shows one, moves it to a stage, or takes a call. */

#include "hs-cli.h"

#include "hs-arrive-out.h"
#include "hs-board.h"
#include "hs-chain-out.h"
#include "hs-choice-out.h"
#include "hs-job-op.h"
#include "hs-photo-op.h"
#include "hs-photo-out.h"
#include "hs-reading-out.h"
#include "hs-repair-out.h"

#include <glib/gi18n.h>
#include <string.h>

static void
write_strings (HsJsonOut *out, const char *name, GPtrArray *strings)
{
  hs_json_out_begin_array (out, name);
  for (guint i = 0; strings != NULL && i < strings->len; i++)
    hs_json_out_string (out, NULL, g_ptr_array_index (strings, i));
  hs_json_out_end_array (out);
}

static void
write_instant (HsJsonOut *out, const char *name, HsInstant instant)
{
  g_autofree char *text = instant != HS_INSTANT_NONE ? hs_instant_format (instant) : NULL;
  hs_json_out_string (out, name, text);
}

static void
write_head (HsJsonOut *out, const HsJobView *view)
{
  const HsBoardRow *tag = view->tag;
  hs_json_out_string (out, "number", tag->number);
  hs_json_out_string (out, "stage", hs_stage_id (tag->stage));
  hs_json_out_string (out, "kind", view->kind);
  hs_json_out_string (out, "group", view->group);
  hs_json_out_string (out, "words", tag->words);
  hs_json_out_string (out, "plate", tag->plate);
  hs_json_out_string (out, "vehicle", tag->vehicle);
  hs_json_out_string (out, "customer", tag->customer);
  hs_json_out_string (out, "area", tag->area);
  hs_cli_json_date (out, "day", tag->day);
  write_instant (out, "window_from", tag->window_from);
  write_instant (out, "window_to", tag->window_to);
  hs_json_out_integer (out, "minutes", tag->minutes);
  hs_json_out_string (out, "act", tag->act);
  hs_json_out_string (out, "waits_for", tag->waits_for);
  hs_json_out_string (out, "follows", view->follows_number);
  hs_json_out_string (out, "return_why", view->return_why);
  write_instant (out, "rolling_at", view->rolling_at);
  write_instant (out, "arrived_at", view->arrived_at);
  write_instant (out, "left_at", view->left_at);
}

/* Opens the object of the job; what is asked of the book beside the view still comes into it. */
static void
write_view (HsJsonOut *out, const HsJobView *view, const HsJobChain *chain, const HsJobChoices *choices,
            const HsRepair *repair, GPtrArray *photos)
{
  hs_json_out_begin_object (out, NULL);
  write_head (out, view);
  hs_json_out_begin_array (out, "readings");
  for (guint i = 0; i < view->readings->len; i++)
    hs_reading_out_write (out, NULL, g_ptr_array_index (view->readings, i));
  hs_json_out_end_array (out);
  write_strings (out, "asked", view->asked);
  write_strings (out, "findings", view->findings);
  write_strings (out, "because", view->because);
  hs_chain_out_write (out, "chain", chain);
  hs_photo_out_write (out, "photos", photos);
  hs_choice_out_write (out, choices);
  write_strings (out, "advice", view->advice);
  write_strings (out, "go_aheads", view->go_aheads);
  write_strings (out, "installed", view->installed);
  write_strings (out, "lines", view->lines);
  hs_repair_out_write (out, repair);
  hs_json_out_integer (out, "clock_minutes", view->clock_minutes);
  hs_json_out_integer (out, "clock_cents", view->clock_cents);
  write_instant (out, "unclocked_at", view->unclocked_at);
  hs_json_out_integer (out, "net_cents", view->net_cents);
  hs_json_out_integer (out, "tax_cents", view->tax_cents);
  hs_json_out_integer (out, "paid_cents", view->paid_cents);
}

static void
print_strings (const char *title, GPtrArray *strings)
{
  for (guint i = 0; strings != NULL && i < strings->len; i++)
    {
      g_autofree char *padded = hs_cli_pad (i == 0 ? title : "", 10);
      hs_cli_print ("%s %s\n", padded, (const char *) g_ptr_array_index (strings, i));
    }
}

/* What the clock adds before the job is priced. */
static void
print_clock (HsCli *cli, const HsJobView *view)
{
  g_autofree char *padded = hs_cli_pad (_("line"), 10);
  g_autofree char *price = hs_cli_money_text (cli, view->clock_cents);
  if (view->clock_cents > 0)
    hs_cli_print (_("%s work by the clock so far, %d min on site: not priced yet\t%s\n"), padded,
                  (int) view->clock_minutes, price);
}

/* What is not on the bill since nobody knows how long it took. */
static void
print_unclocked (HsCli *cli, const HsJobView *view)
{
  if (view->unclocked_at == HS_INSTANT_NONE)
    return;
  g_autofree char *at = hs_cli_clock_text (cli, view->unclocked_at);
  hs_cli_print (_("The minutes of the visit that began at %s are not known, since this machine's clock was put back; "
                  "they are not on the bill. Say them: visit %s minutes N\n"), at, view->tag->number);
}

static void
print_view (HsCli *cli, const HsJobView *view, const HsJobChain *chain, const HsJobChoices *choices,
            const HsRepair *repair, GPtrArray *photos)
{
  const HsBoardRow *tag = view->tag;
  g_autofree char *who = hs_cli_join (tag->plate, tag->vehicle, tag->customer);
  hs_cli_print ("%s  %s  %s\n“%s”\n", tag->number, hs_stage_label (tag->stage), who, tag->words);
  if (tag->act != NULL)
    hs_cli_print ("▌ %s\n", tag->act);
  if (tag->waits_for != NULL)
    hs_cli_print (_("Waits for %s\n"), tag->waits_for);
  hs_choice_out_print_declined (cli, choices);
  for (guint i = 0; i < view->readings->len; i++)
    hs_reading_out_print (g_ptr_array_index (view->readings, i));
  print_strings (_("finding"), view->findings);
  print_strings (_("because"), view->because);
  print_strings (_("invoice"), chain->sentences);
  hs_photo_out_print (cli, _("photo"), photos);
  print_strings (_("advice"), view->advice);
  print_strings (_("go-ahead"), view->go_aheads);
  hs_repair_out_print (cli, repair);
  print_strings (_("line"), view->lines);
  print_clock (cli, view);
  print_unclocked (cli, view);
  if (view->net_cents + view->tax_cents > 0)
    {
      g_autofree char *total = hs_cli_money_text (cli, view->net_cents + view->tax_cents);
      g_autofree char *paid = hs_cli_money_text (cli, view->paid_cents);
      hs_cli_print (_("total %s, paid %s\n"), total, paid);
    }
}

static gboolean
show_job (HsCli *cli, const char *job_id, GError **error)
{
  g_autoptr (HsJobView) view = hs_job_view_load (cli->book, job_id, cli->now, error);
  if (view == NULL)
    return FALSE;
  g_autoptr (HsJobChain) chain = hs_job_chain_load (cli->book, job_id, error);
  if (chain == NULL)
    return FALSE;
  g_autoptr (HsJobChoices) choices = hs_job_choices_load (cli->book, job_id, cli->now, error);
  if (choices == NULL)
    return FALSE;
  g_autoptr (HsRepair) repair = hs_repair_load (cli->book, job_id, view, cli->now, error);
  g_autoptr (GPtrArray) photos = repair == NULL ? NULL : hs_photo_list (cli->book, job_id, error);
  if (photos == NULL)
    return FALSE;
  if (!cli->json)
    {
      print_view (cli, view, chain, choices, repair, photos);
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  write_view (out, view, chain, choices, repair, photos);
  if (!hs_arrive_out_write (cli, out, job_id, error))
    return FALSE;
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
  return TRUE;
}

static gboolean
move_job (HsCli *cli, char **words, GError **error)
{
  g_autofree char *reason = NULL;
  gboolean leave = FALSE;
  const GOptionEntry entries[] = {
    { "reason", 0, 0, G_OPTION_ARG_STRING, &reason, NULL, NULL },
    { "leave-open", 0, 0, G_OPTION_ARG_NONE, &leave, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  HsStage stage;
  g_autoptr (GError) local = NULL;
  if (!hs_cli_parse (words, entries, 2, 2, &left, error))
    return FALSE;
  if (!hs_stage_parse (left[1], &stage, &local))
    return hs_cli_usage (error, "%s", local->message);
  if (!hs_cli_open_book (cli, HS_BOOK_WRITE, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, left[0], error);
  return job_id != NULL && hs_cli_move_stage (cli, job_id, stage, reason, leave, error)
         && show_job (cli, job_id, error);
}

typedef struct
{
  char *phone, *name, *words, *plate, *make, *model, *group, *kind, *area, *street, *day, *from, *to, *van;
  int minutes;
} TakeWords;

static void
clear_take (TakeWords *asked)
{
  char **texts[] = { &asked->phone, &asked->name,   &asked->words, &asked->plate, &asked->make,
                     &asked->model, &asked->group,  &asked->kind,  &asked->area,  &asked->street,
                     &asked->day,   &asked->from,   &asked->to,    &asked->van };
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_clear_pointer (texts[i], g_free);
}

static gboolean
read_clock (const char *option, const char *text, int *ret_minutes, GError **error)
{
  g_autoptr (GError) local = NULL;
  *ret_minutes = -1;
  if (text == NULL || hs_clock_parse (text, ret_minutes, &local))
    return TRUE;
  return hs_cli_usage (error, "--%s: %s", option, local->message);
}

static gboolean
take_slip (HsCli *cli, const TakeWords *asked, GError **error)
{
  HsCallSlip slip = {
    .phone = asked->phone, .name = asked->name, .words = asked->words, .plate = asked->plate, .make = asked->make,
    .model = asked->model, .group = asked->group, .kind = asked->kind, .area = asked->area,
    .street = asked->street, .minutes = asked->minutes, .van = asked->van,
  };
  HsDate day = HS_DATE_NONE;
  if (!read_clock ("from", asked->from, &slip.window_from, error)
      || !read_clock ("to", asked->to, &slip.window_to, error)
      || !hs_cli_open_day (cli, HS_BOOK_WRITE, asked->day, &day, error))
    return FALSE;
  slip.day = asked->day != NULL ? day : HS_DATE_NONE;
  g_autofree char *job_id = hs_call_take (cli->book, &slip, cli->now, error);
  return job_id != NULL && show_job (cli, job_id, error);
}

static gboolean
take_call (HsCli *cli, char **words, GError **error)
{
  TakeWords asked = { 0 };
  const GOptionEntry entries[] = {
    { "phone", 0, 0, G_OPTION_ARG_STRING, &asked.phone, NULL, NULL },
    { "name", 0, 0, G_OPTION_ARG_STRING, &asked.name, NULL, NULL },
    { "words", 0, 0, G_OPTION_ARG_STRING, &asked.words, NULL, NULL },
    { "plate", 0, 0, G_OPTION_ARG_STRING, &asked.plate, NULL, NULL },
    { "make", 0, 0, G_OPTION_ARG_STRING, &asked.make, NULL, NULL },
    { "model", 0, 0, G_OPTION_ARG_STRING, &asked.model, NULL, NULL },
    { "group", 0, 0, G_OPTION_ARG_STRING, &asked.group, NULL, NULL },
    { "kind", 0, 0, G_OPTION_ARG_STRING, &asked.kind, NULL, NULL },
    { "area", 0, 0, G_OPTION_ARG_STRING, &asked.area, NULL, NULL },
    { "street", 0, 0, G_OPTION_ARG_STRING, &asked.street, NULL, NULL },
    { "day", 0, 0, G_OPTION_ARG_STRING, &asked.day, NULL, NULL },
    { "from", 0, 0, G_OPTION_ARG_STRING, &asked.from, NULL, NULL },
    { "to", 0, 0, G_OPTION_ARG_STRING, &asked.to, NULL, NULL },
    { "minutes", 0, 0, G_OPTION_ARG_INT, &asked.minutes, NULL, NULL },
    { "van", 0, 0, G_OPTION_ARG_STRING, &asked.van, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  gboolean done = hs_cli_parse (words + 1, entries, 0, 0, &left, error);
  if (done && asked.words == NULL)
    done = hs_cli_usage (error, _("--words is missing: what the caller says"));
  done = done && take_slip (cli, &asked, error);
  clear_take (&asked);
  return done;
}

gboolean
hs_command_job (HsCli *cli, char **words, GError **error)
{
  if (words[0] == NULL)
    return hs_cli_usage (error, _("a job number is missing"));
  if (g_str_equal (words[0], "take"))
    return take_call (cli, words, error);
  if (words[1] != NULL)
    return move_job (cli, words, error);
  if (!hs_cli_open_book (cli, HS_BOOK_READ, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, words[0], error);
  return job_id != NULL && show_job (cli, job_id, error);
}
