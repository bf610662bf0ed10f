// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the tests of "what next" share. */

#include "ops-next.h"

#include "hs-chain-op.h"
#include "hs-interview-op.h"
#include "hs-job-life.h"
#include "hs-job-op.h"

#include <glib/gstdio.h>

#define NOW HS_OPS_TEST_NOW

const char ops_next_models[]
  = "{\"models\": [{\"id\": \"drains\", \"group\": \"drains\", \"name\": \"Drains\", \"note\": \"by hand\",@"
    " \"causes\": [{\"id\": \"a\", \"prior\": 3, \"name\": \"Battery\", \"source\": \"counted\","
    "   \"repair\": \"Replace it\", \"cents\": 12000},"
    "  {\"id\": \"b\", \"prior\": 1, \"name\": \"Belt\", \"source\": \"guessed\", \"repair\": \"Tighten it\"}],"
    " \"repairs\": {\"a\": 20, \"b\": 30},"
    " \"checks\": ["
    "  {\"id\": \"battery_rest\", \"minutes\": 4, \"results\": [\"low\", \"fine\"], \"source\": \"a book\","
    "   \"sources\": {\"b\": \"another book\"},"
    "   \"said\": {\"question\": \"dash_lamps\", \"answers\": {\"none\": \"low\", \"bright\": \"fine\"}},"
    "   \"from\": {\"verdicts\": {\"outside\": \"low\", \"watch\": \"low\", \"within\": \"fine\"}},"
    "   \"p\": {\"a\": [0.9, 0.1], \"b\": [0.2, 0.8]}},"
    "  {\"id\": \"belt\", \"minutes\": 2, \"results\": [\"good\", \"bad\"], \"source\": \"seen\","
    "   \"from\": {\"answers\": [\"good\", \"bad\", \"bad\", null, \"bad\"]},"
    "   \"p\": {\"a\": [0.9, 0.1], \"b\": [0.1, 0.9]}}]}]}";

static char *
plain_models (void)
{
  g_auto (GStrv) parts = g_strsplit (ops_next_models, "@", 2);

  return g_strjoinv ("", parts);
}

char *
ops_next_add (OpsNext *site, const char *number, const char *group)
{
  g_autofree char *row
    = g_strdup_printf ("number,customer_phone,words,plate,day\n%s,555-0115,flat,TDM 5508,2026-03-10\n", number);
  g_autoptr (GError) error = NULL;
  char *job_id;

  hs_ops_test_import_ok (site->test, "jobs", row, 1, 0, 0);
  job_id = hs_job_find (site->book, number, &error);
  g_assert_no_error (error);
  if (group != NULL)
    g_assert_true (hs_job_set_group (site->book, job_id, group, NOW, &error));
  g_assert_no_error (error);
  return job_id;
}

OpsNext
ops_next_start (const char *models, const char *group)
{
  OpsNext site = { .test = hs_ops_test_open () };
  g_autofree char *path = g_build_filename (site.test->folder, HS_CAUSE_CATALOG_FILE, NULL);
  g_autofree char *plain = plain_models ();

  g_assert_true (g_file_set_contents (path, models != NULL ? models : plain, -1, NULL));
  site.book = site.test->book;
  hs_ops_test_fill (site.test);
  site.job_id = ops_next_add (&site, "A-0001", group);
  return site;
}

void
ops_next_clear (OpsNext *site)
{
  g_autofree char *path = g_build_filename (site->test->folder, HS_CAUSE_CATALOG_FILE, NULL);

  g_remove (path);
  hs_ops_test_close (site->test);
  g_free (site->job_id);
}

static void
read_one (OpsNext *site, const char *check, const char *text, const char *phase, const char *place)
{
  HsReadingEntry entry = { .check = check, .phase = phase, .place = place, .at = HS_INSTANT_NONE };
  g_autoptr (HsReadingResult) result = NULL;
  g_autoptr (GError) error = NULL;

  if (*text == '*')
    {
      entry.keyed = "*";
      entry.why_not = text + 1;
    }
  else
    entry.text = text;
  if (g_str_equal (check, "battery_rest"))
    entry.conditions = "battery_kind:flooded";
  result = hs_reading_add (site->book, site->job_id, &entry, NOW, &error);
  g_assert_no_error (error);
}

void
ops_next_read (OpsNext *site, const char *check, const char *text, const char *phase)
{
  read_one (site, check, text, phase, NULL);
}

void
ops_next_read_at (OpsNext *site, const char *check, const char *text, const char *place)
{
  read_one (site, check, text, "before", place);
}

void
ops_next_say (OpsNext *site, const char *question, const char *answer)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_answer_add (site->book, site->job_id, question, answer, NULL, NOW, &error));
  g_assert_no_error (error);
}

HsJobNext *
ops_next_ask (OpsNext *site)
{
  g_autoptr (GError) error = NULL;
  HsJobNext *next = hs_job_next_load (site->book, site->job_id, NULL, NOW, &error);

  g_assert_no_error (error);
  return next;
}

const HsNextCause *
ops_next_cause (const HsJobNext *next, const char *id)
{
  for (guint i = 0; i < next->causes->len; i++)
    if (g_str_equal (((const HsNextCause *) g_ptr_array_index (next->causes, i))->id, id))
      return g_ptr_array_index (next->causes, i);
  return NULL;
}

const HsNextLine *
ops_next_line (const HsJobNext *next, const char *id)
{
  for (guint i = 0; i < next->lines->len; i++)
    if (g_str_equal (((const HsNextLine *) g_ptr_array_index (next->lines, i))->id, id))
      return g_ptr_array_index (next->lines, i);
  return NULL;
}

const HsNextOffer *
ops_next_offer (const HsJobNext *next, const char *check)
{
  for (guint i = 0; i < next->offers->len; i++)
    if (g_str_equal (((const HsNextOffer *) g_ptr_array_index (next->offers, i))->check, check))
      return g_ptr_array_index (next->offers, i);
  return NULL;
}

char *
ops_next_join (char **texts)
{
  return g_strjoinv (" | ", texts);
}

void
ops_next_square (OpsNext *site, const char *job_id, const char *cause)
{
  HsReadingEntry after = { .check = "charging", .text = "14.20", .phase = "after", .at = HS_INSTANT_NONE };
  g_autoptr (GError) error = NULL;
  g_autofree char *finding = hs_job_name_cause (site->book, job_id, NULL, cause, TRUE, "seen", NOW, &error);
  g_autoptr (HsReadingResult) read = NULL;

  g_assert_no_error (error);
  hs_finding_settle (site->book, finding, "cured", NOW, &error);
  g_assert_no_error (error);
  hs_job_move_stage (site->book, job_id, HS_STAGE_ON_SITE, NULL, NOW, &error);
  g_assert_no_error (error);
  read = hs_reading_add (site->book, job_id, &after, NOW, &error);
  g_assert_no_error (error);
  hs_job_move_stage (site->book, job_id, HS_STAGE_PROVEN, NULL, NOW, &error);
  g_assert_no_error (error);
  g_assert_true (hs_go_ahead_add (site->book, job_id, 100000, "Teo", "in_person", NOW, &error));
  g_assert_true (hs_job_price (site->book, job_id, NULL, NOW, &error));
  hs_job_square (site->book, job_id, NOW, &error);
  g_assert_no_error (error);
}
