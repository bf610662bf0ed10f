// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `fit`: writes down a part that was put in, corrects what was written, or takes it out again. What is given at once is
 * written at once or not at all. */

#include "hs-cli.h"

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-money.h"
#include "hs-ops-error.h"
#include "hs-repair-out.h"
#include "hs-store.h"
#include "hs-text.h"
#include "hs-undo.h"

#include <glib/gi18n.h>

/* The options that are fields of a part, in the order of hs_part_fields. */
enum
{
  FIELD_WHAT,
  FIELD_PLACE,
  FIELD_SERIAL,
  FIELD_DATE_CODE,
  FIELD_MAKER,
  FIELD_BILL,
  FIELD_MONTHS,
  FIELD_MILES,
  FIELD_ODOMETER,
  FIELD_WHY,
  FIELD_OLD,
  FIELD_COST,
  N_FIELDS,
};

typedef struct
{
  HsCli *cli;
  char *job_id;
  char *fields[N_FIELDS];
  char *number, *kind;
  double ah, cca;
  gboolean from_van, swap, change, remove, no_looks, past_ceiling;
} Asked;

static void
asked_clear (Asked *asked)
{
  for (guint i = 0; i < N_FIELDS; i++)
    g_free (asked->fields[i]);
  g_free (asked->job_id);
  g_free (asked->number);
  g_free (asked->kind);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Asked, asked_clear)

static gboolean
check_cost (const Asked *asked, GError **error)
{
  const char *cost = asked->fields[FIELD_COST];
  g_autoptr (GError) local = NULL;
  gint64 cents;
  if (cost == NULL || hs_money_parse (cost, hs_book_get_currency (asked->cli->book), &cents, &local))
    return TRUE;
  return hs_cli_usage (error, "--cost: %s", local->message);
}

static gboolean
set_fields (const Asked *asked, const char *part_id, GError **error)
{
  gboolean (*set) (HsBook *, const char *, const char *, const char *, HsInstant, GError **)
      = asked->past_ceiling ? hs_part_set_past_ceiling : hs_part_set;
  for (guint i = 0; i < N_FIELDS; i++)
    if (asked->fields[i] != NULL
        && !set (asked->cli->book, part_id, hs_part_fields[i], asked->fields[i], asked->cli->now, error))
      return FALSE;
  return TRUE;
}

static gboolean
install (const Asked *asked, const char *what, GError **error)
{
  HsInstallEntry entry = { .what = what,
                           .part_number = asked->number,
                           .place = asked->fields[FIELD_PLACE],
                           .battery_kind = asked->kind,
                           .ah = asked->ah,
                           .cca = asked->cca,
                           .from_van = asked->from_van,
                           .warranty_swap = asked->swap,
                           .past_ceiling = asked->past_ceiling,
                           .looks = !asked->no_looks };
  g_autofree char *id = NULL;
  if (!check_cost (asked, error))
    return FALSE;
  id = hs_part_install (asked->cli->book, asked->job_id, &entry, asked->cli->now, error);
  return id != NULL && set_fields (asked, id, error);
}

/* By its number in the catalog or by what it is called; where a place is given, the one there. */
static const HsFittedPart *
find_part (const HsRepair *repair, const char *text, const char *place)
{
  g_autofree char *wanted = hs_text_fold (text);
  for (guint i = 0; i < repair->parts->len; i++)
    {
      const HsFittedPart *part = g_ptr_array_index (repair->parts, i);
      g_autofree char *what = hs_text_fold (part->what);
      g_autofree char *number = hs_text_fold (part->number);
      if ((g_str_equal (what, wanted) || g_str_equal (number, wanted))
          && (place == NULL || g_strcmp0 (part->place, place) == 0))
        return part;
    }
  return NULL;
}

static gboolean
alter (Asked *asked, const char *text, GError **error)
{
  g_autoptr (HsRepair) repair = hs_repair_load (asked->cli->book, asked->job_id, NULL, asked->cli->now, error);
  const HsFittedPart *part;
  if (repair == NULL)
    return FALSE;
  part = find_part (repair, text, asked->remove ? asked->fields[FIELD_PLACE] : NULL);
  if (part == NULL)
    return hs_cli_usage (error, _("this job installed no “%s”"), text);
  if (asked->remove)
    return hs_part_remove (asked->cli->book, part->id, asked->cli->now, error);
  return set_fields (asked, part->id, error);
}

/* One transaction, and one step that can be taken back. */
static gboolean
write_down (Asked *asked, const char *what, GError **error)
{
  HsStore *store = hs_book_get_store (asked->cli->book);
  const char *act = asked->remove ? "not installed" : asked->change ? "part" : "installed";
  g_autofree char *note = NULL;
  gboolean done;
  if (!hs_store_begin (store, asked->cli->now, error))
    return FALSE;
  note = g_strdup_printf ("%s: %s", act, what != NULL ? what : asked->number);
  hs_undo_note (store, asked->job_id, note);
  done = asked->change || asked->remove ? alter (asked, what, error) : install (asked, what, error);
  if (!hs_store_end (store, done, error))
    {
      if (error != NULL && g_error_matches (*error, HS_OPS_ERROR, HS_OPS_ERROR_PAST_CEILING))
        g_prefix_error (error, "%s", _("Nothing was written down; --past-ceiling does so all the same. "));
      return FALSE;
    }
  return TRUE;
}

static gboolean
fit (Asked *asked, char **left, GError **error)
{
  HsCli *cli = asked->cli;
  const char *what = left[1];
  gboolean shows = what == NULL && asked->number == NULL;
  if (what == NULL && (asked->change || asked->remove))
    return hs_cli_usage (error, _("say which part: by its number, or by what it is called"));
  if (!hs_cli_open_book (cli, shows ? HS_BOOK_READ : HS_BOOK_WRITE, error))
    return FALSE;
  asked->job_id = hs_job_find (cli->book, left[0], error);
  return asked->job_id != NULL && (shows || write_down (asked, what, error))
         && hs_repair_out_show (cli, asked->job_id, error);
}

gboolean
hs_command_fit (HsCli *cli, char **words, GError **error)
{
  g_auto (Asked) asked = { .cli = cli };
  const GOptionEntry entries[] = {
    { "name", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_WHAT], NULL, NULL },
    { "place", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_PLACE], NULL, NULL },
    { "serial", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_SERIAL], NULL, NULL },
    { "date-code", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_DATE_CODE], NULL, NULL },
    { "maker", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_MAKER], NULL, NULL },
    { "bill", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_BILL], NULL, NULL },
    { "months", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_MONTHS], NULL, NULL },
    { "miles", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_MILES], NULL, NULL },
    { "odometer", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_ODOMETER], NULL, NULL },
    { "why", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_WHY], NULL, NULL },
    { "old", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_OLD], NULL, NULL },
    { "number", 0, 0, G_OPTION_ARG_STRING, &asked.number, NULL, NULL },
    { "kind", 0, 0, G_OPTION_ARG_STRING, &asked.kind, NULL, NULL },
    { "cost", 0, 0, G_OPTION_ARG_STRING, &asked.fields[FIELD_COST], NULL, NULL },
    { "ah", 0, 0, G_OPTION_ARG_DOUBLE, &asked.ah, NULL, NULL },
    { "cca", 0, 0, G_OPTION_ARG_DOUBLE, &asked.cca, NULL, NULL },
    { "from-van", 0, 0, G_OPTION_ARG_NONE, &asked.from_van, NULL, NULL },
    { "swap", 0, 0, G_OPTION_ARG_NONE, &asked.swap, NULL, NULL },
    { "change", 0, 0, G_OPTION_ARG_NONE, &asked.change, NULL, NULL },
    { "remove", 0, 0, G_OPTION_ARG_NONE, &asked.remove, NULL, NULL },
    { "past-ceiling", 0, 0, G_OPTION_ARG_NONE, &asked.past_ceiling, NULL, NULL },
    { "no-looks", 0, 0, G_OPTION_ARG_NONE, &asked.no_looks, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  return hs_cli_parse (words, entries, 1, 2, &left, error) && fit (&asked, left, error);
}
