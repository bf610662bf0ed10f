// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the tests of the repair share: a job at the vehicle, and short ways to work on it. */

#include "ops-repair.h"

Bay
bay_start (void)
{
  Bay bay = { .test = hs_ops_test_open () };

  hs_ops_test_fill (bay.test);
  hs_ops_test_import_ok (bay.test, "stock", "van,part,quantity\nA,BW-55,2\n", 1, 0, 0);
  hs_ops_test_import_ok (bay.test, "jobs",
                         "number,customer_phone,words,plate,day\n"
                         "A-0001,555-0115,dead again next day,TDM 5508,2026-03-10\n", 1, 0, 0);
  hs_ops_test_import_ok (bay.test, "needs", "job,part\nA-0001,BW-55\n", 1, 0, 0);
  hs_ops_test_import_ok (bay.test, "odometer", "plate,date,value\nTDM 5508,2026-01-19,61000\n", 1, 0, 0);
  hs_ops_test_run (bay.test, "UPDATE vehicle SET needs_coding = 1 WHERE plate = 'TDM 5508'");
  hs_ops_test_run (bay.test, "UPDATE job SET complaint_group = 'will_not_start'");
  bay.book = bay.test->book;
  bay.job = hs_job_find (bay.book, "A-0001", NULL);
  g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_ROLLING, NULL, NOW - 600, NULL));
  g_assert_true (hs_job_move_stage (bay.book, bay.job, HS_STAGE_ON_SITE, NULL, NOW, NULL));
  return bay;
}

void
bay_clear (Bay *bay)
{
  g_free (bay->job);
  hs_ops_test_close (bay->test);
}

char *
bay_fit (Bay *bay, const HsInstallEntry *entry)
{
  GError *error = NULL;
  char *id = hs_part_install (bay->book, bay->job, entry, NOW, &error);

  g_assert_no_error (error);
  return id;
}

char *
bay_find (Bay *bay, const char *what, const char *role, const char *ended)
{
  const HsFindingEntry entry = { .what = what, .role = role, .ended = ended };
  GError *error = NULL;
  char *id = hs_finding_add (bay->book, bay->job, &entry, NOW, &error);

  g_assert_no_error (error);
  return id;
}

void
bay_read (Bay *bay, const char *check, const char *text, const char *phase, const char *place)
{
  const HsReadingEntry entry = { .check = check, .text = text, .phase = phase, .place = place, .at = NOW,
                                 .conditions = g_str_equal (check, "drop_feed") ? "loaded:yes" : NULL };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsReadingResult) result = hs_reading_add (bay->book, bay->job, &entry, NOW, &error);

  g_assert_no_error (error);
}

HsRepair *
bay_load (Bay *bay)
{
  GError *error = NULL;
  HsRepair *repair = hs_repair_load (bay->book, bay->job, NULL, NOW, &error);

  g_assert_no_error (error);
  return repair;
}

/* What is still to do, as "id! id id": those that must be with a mark. */
char *
bay_missing (Bay *bay)
{
  g_autoptr (HsRepair) repair = bay_load (bay);
  g_autoptr (GString) text = g_string_new (NULL);
  guint n_must = 0;

  for (guint i = 0; i < repair->missing->len; i++)
    {
      const HsProveItem *item = g_ptr_array_index (repair->missing, i);

      g_string_append_printf (text, "%s%s%s", i > 0 ? " " : "", hs_prove_id (item->kind), item->must ? "!" : "");
      n_must += item->must;
    }
  g_assert_cmpuint (repair->n_must, ==, n_must);
  return g_strdup (text->str);
}
