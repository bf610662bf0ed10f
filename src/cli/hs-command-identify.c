// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `identify`: holds plate, VIN and odometer against the vehicle on record, and writes down whether the complaint was
 * seen to happen. What is given at once is written at once or not at all. */

#include "hs-cli.h"

#include "hs-arrive-out.h"
#include "hs-job-op.h"
#include "hs-store.h"

#include <glib/gi18n.h>

typedef struct
{
  char *plate, *vin, *odometer, *saw, *why;
} Asked;

static void
asked_clear (Asked *asked)
{
  char **texts[] = { &asked->plate, &asked->vin, &asked->odometer, &asked->saw, &asked->why };
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_clear_pointer (texts[i], g_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Asked, asked_clear)

/* "104500 mi" */
static char *
dup_miles (const HsIdentity *identity, gint64 value)
{
  return g_strdup_printf ("%" G_GINT64_FORMAT " %s", value, identity->unit);
}

static void
print_odometer (const HsIdentity *identity)
{
  g_autofree char *now = dup_miles (identity, identity->odometer);
  g_autofree char *before = dup_miles (identity, identity->last_value);
  if (identity->odometer != HS_INT_NONE)
    hs_cli_print (_("odometer  %s\n"), now);
  if (identity->doubted != NULL)
    {
      g_autofree char *doubted = hs_cli_one_line (identity->doubted);
      hs_cli_print (_("          does not count: %s\n"), doubted);
    }
  if (identity->last_value != HS_INT_NONE)
    {
      g_autofree char *day = hs_date_format (identity->last_on);
      hs_cli_print (_("before    %s on %s\n"), before, day);
    }
  if (identity->a_day_tenths != HS_INT_NONE)
    hs_cli_print (_("a day     %.1f %s\n"), (double) identity->a_day_tenths / 10, identity->unit);
}

static void
print_identity (const HsIdentity *identity)
{
  g_autofree char *who = hs_cli_join (identity->plate, identity->plate_state, identity->vehicle);
  g_autofree char *words = hs_cli_one_line (identity->words);
  hs_cli_print ("%s\n", who);
  if (identity->vin != NULL)
    hs_cli_print (_("VIN       %s\n"), identity->vin);
  print_odometer (identity);
  hs_cli_print ("“%s”\n", words);
  if (identity->saw_it != NULL)
    hs_cli_print (_("saw it    %s\n"), identity->saw_it);
}

static gboolean
write_all (HsCli *cli, const char *job_id, const Asked *asked, GError **error)
{
  HsBook *book = cli->book;
  if (asked->plate != NULL && !hs_identify_plate (book, job_id, asked->plate, asked->why, cli->now, NULL, error))
    return FALSE;
  if (asked->vin != NULL && !hs_identify_vin (book, job_id, asked->vin, asked->why, cli->now, NULL, error))
    return FALSE;
  if (asked->odometer != NULL && !hs_identify_odometer (book, job_id, asked->odometer, asked->why, cli->now, error))
    return FALSE;
  return asked->saw == NULL || hs_identify_saw_it (book, job_id, asked->saw, cli->now, error);
}

static gboolean
write_at_once (HsCli *cli, const char *job_id, const Asked *asked, GError **error)
{
  HsStore *store = hs_book_get_store (cli->book);
  return hs_store_begin (store, cli->now, error)
         && hs_store_end (store, write_all (cli, job_id, asked, error), error);
}

static gboolean
show_identity (HsCli *cli, const char *job_id, GError **error)
{
  g_autoptr (HsIdentity) identity = hs_identity_load (cli->book, job_id, error);
  if (identity == NULL)
    return FALSE;
  if (!cli->json)
    {
      print_identity (identity);
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_identity_out_write (out, NULL, identity);
  hs_cli_print_json (out);
  return TRUE;
}

gboolean
hs_command_identify (HsCli *cli, char **words, GError **error)
{
  g_auto (Asked) asked = { NULL };
  const GOptionEntry entries[] = {
    { "plate", 0, 0, G_OPTION_ARG_STRING, &asked.plate, NULL, NULL },
    { "vin", 0, 0, G_OPTION_ARG_STRING, &asked.vin, NULL, NULL },
    { "odometer", 0, 0, G_OPTION_ARG_STRING, &asked.odometer, NULL, NULL },
    { "saw", 0, 0, G_OPTION_ARG_STRING, &asked.saw, NULL, NULL },
    { "why", 0, 0, G_OPTION_ARG_STRING, &asked.why, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 1, 1, &left, error))
    return FALSE;
  gboolean writes = asked.plate != NULL || asked.vin != NULL || asked.odometer != NULL || asked.saw != NULL;
  if (asked.why != NULL && !writes)
    return hs_cli_usage (error, _("--why needs what it is the reason for"));
  if (!hs_cli_open_book (cli, writes ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  g_autofree char *job_id = hs_job_find (cli->book, left[0], error);
  if (job_id == NULL || (writes && !write_at_once (cli, job_id, &asked, error)))
    return FALSE;
  return show_identity (cli, job_id, error);
}
