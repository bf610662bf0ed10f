// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a vehicle has lived through on the demo business, as its present owner may hear it. */

#include "hs-history.h"

#include "hs-demo.h"
#include "hs-ops-error.h"
#include "ops-demo.h"

#include <string.h>

static HsHistory *
load (const char *plate)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *vehicle = ops_demo_vehicle (plate);
  HsHistory *history = hs_history_load (ops_demo_book (), vehicle, hs_demo_get_now (), &error);

  g_assert_no_error (error);
  return history;
}

static const HsHistoryEntry *
entry_of (const HsHistory *history, const char *number)
{
  for (guint i = 0; i < history->entries->len; i++)
    {
      const HsHistoryEntry *entry = g_ptr_array_index (history->entries, i);

      if (g_strcmp0 (entry->job_number, number) == 0)
        return entry;
    }
  return NULL;
}

static const HsHistoryReading *
reading_like (const HsHistoryEntry *entry, const char *name)
{
  for (guint i = 0; i < entry->readings->len; i++)
    {
      const HsHistoryReading *reading = g_ptr_array_index (entry->readings, i);

      if (strstr (reading->name, name) != NULL)
        return reading;
    }
  return NULL;
}

static void
append_text (GString *all, const char *text)
{
  g_string_append_printf (all, "%s\n", text != NULL ? text : "");
}

/* Every text that a history holds. */
static char *
all_texts (const HsHistory *history)
{
  GString *all = g_string_new (NULL);

  append_text (all, history->customer);
  append_text (all, history->phone);
  append_text (all, history->battery->say);
  for (guint i = 0; i < history->entries->len; i++)
    {
      const HsHistoryEntry *entry = g_ptr_array_index (history->entries, i);

      append_text (all, entry->title);
      append_text (all, entry->detail);
      for (guint k = 0; k < entry->parts->len; k++)
        append_text (all, g_ptr_array_index (entry->parts, k));
      for (guint k = 0; k < entry->advice->len; k++)
        append_text (all, g_ptr_array_index (entry->advice, k));
      for (guint k = 0; k < entry->readings->len; k++)
        append_text (all, ((HsHistoryReading *) g_ptr_array_index (entry->readings, k))->name);
    }
  return g_string_free (all, FALSE);
}

/* Nothing of the owner before: neither name nor phone nor what he paid. */
static void
test_resold (void)
{
  g_autoptr (HsHistory) history = load ("TDM 8816");
  g_autofree char *texts = all_texts (history);
  const HsHistoryEntry *old = entry_of (history, "A-0002");

  g_assert_cmpstr (history->customer, ==, "Rue Abernant");
  g_assert_cmpstr (history->phone, ==, "555-0121");
  g_assert_cmpint (history->battery->age_months, ==, 29);
  g_assert_nonnull (old);
  g_assert_cmpstr (old->title, ==, "slow to crank on cold mornings");
  g_assert_cmpstr (old->detail, ==, "Why it failed: battery below half of its rating");
  g_assert_cmpint (old->total_cents, ==, -1);
  g_assert_cmpuint (old->parts->len, ==, 1);
  g_assert_null (strstr (texts, "Jory"));
  g_assert_null (strstr (texts, "Pellam"));
  g_assert_null (strstr (texts, "0118"));
  g_assert_null (strstr (texts, "192.86"));
}

static void
test_readings (void)
{
  g_autoptr (HsHistory) history = load ("TDM 8816");
  const HsHistoryEntry *entry = entry_of (history, "A-0002");
  const HsHistoryReading *rest = reading_like (entry, "rest");
  const HsHistoryReading *charging = reading_like (entry, "harging");

  g_assert_nonnull (rest);
  g_assert_cmpstr (rest->before, ==, "12.05 V");
  g_assert_cmpstr (rest->before_verdict, ==, "watch");
  g_assert_cmpstr (rest->after, ==, "12.64 V");
  g_assert_cmpstr (rest->after_verdict, ==, "within");
  g_assert_nonnull (charging);
  g_assert_null (charging->before);
  g_assert_cmpstr (charging->after, ==, "14.31 V");
}

/* The change of owner stands where it happened, newest first. */
static void
test_order (void)
{
  static const HsHistoryKind kinds[] = { HS_HISTORY_JOB, HS_HISTORY_OWNER, HS_HISTORY_JOB };
  g_autoptr (HsHistory) history = load ("TDM 8816");
  const HsHistoryEntry *change;

  g_assert_cmpuint (history->entries->len, ==, G_N_ELEMENTS (kinds));
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    g_assert_cmpint (((HsHistoryEntry *) g_ptr_array_index (history->entries, i))->kind, ==, kinds[i]);
  change = g_ptr_array_index (history->entries, 1);
  g_assert_cmpstr (change->title, ==, "New owner: Rue Abernant");
  g_assert_cmpint (change->total_cents, ==, -1);
}

/* The owner who paid hears the sum, the declined work and the odometer. */
static void
test_own (void)
{
  g_autoptr (HsHistory) fleet = load ("TDM 6613");
  g_autoptr (HsHistory) taxi = load ("TDM 2218");
  const HsHistoryEntry *first = entry_of (fleet, "A-0013");
  guint odometers = 0;

  g_assert_cmpint (first->total_cents, ==, 15379);
  g_assert_cmpuint (first->advice->len, ==, 1);
  g_assert_nonnull (strstr (g_ptr_array_index (first->advice, 0), "Water pump, belt and coolant: declined"));
  g_assert_cmpint (entry_of (fleet, "A-0020")->total_cents, ==, 52094);
  g_assert_cmpint (entry_of (taxi, "A-0009")->total_cents, ==, 0);
  g_assert_nonnull (strstr (g_ptr_array_index (entry_of (taxi, "A-0009")->parts, 0), "(warranty swap)"));
  for (guint i = 0; i < taxi->entries->len; i++)
    {
      const HsHistoryEntry *entry = g_ptr_array_index (taxi->entries, i);

      if (entry->kind != HS_HISTORY_ODOMETER)
        continue;
      g_assert_cmpstr (entry->title, ==, odometers++ == 0 ? "Odometer 94,400 mi" : "Odometer 81,400 mi");
    }
  g_assert_cmpuint (odometers, ==, 2);
}

static void
test_suspected (void)
{
  g_autoptr (HsHistory) history = load ("TDM 7717");
  const HsHistoryEntry *entry = entry_of (history, "A-0018");

  g_assert_true (history->high_voltage);
  g_assert_nonnull (entry->detail);
  g_assert_null (strstr (entry->detail, "Why it failed"));
}

static void
test_find_vehicle (void)
{
  static const char *const rows[][2] = {
    { "TDM 8816", "TDM 8816" }, { "tdm8816", "TDM 8816" }, { "555-0121", "TDM 8816" },
    { "0121", "TDM 8816" },     { "crag", "TDM 8816" },    { "abernant", "TDM 8816" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *expected = ops_demo_vehicle (rows[i][1]);
      g_autofree char *id = hs_history_find_vehicle (ops_demo_book (), rows[i][0], hs_demo_get_now (), &error);

      g_assert_no_error (error);
      g_assert_cmpstr (id, ==, expected);
    }
}

static void
test_find_refused (void)
{
  g_autoptr (GError) many = NULL;
  g_autoptr (GError) none = NULL;

  g_assert_null (hs_history_find_vehicle (ops_demo_book (), "555-0113", hs_demo_get_now (), &many));
  g_assert_error (many, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
  g_assert_nonnull (strstr (many->message, "TDM 3316"));
  g_assert_nonnull (strstr (many->message, "TDM 3321"));
  g_assert_null (hs_history_find_vehicle (ops_demo_book (), "zebra", hs_demo_get_now (), &none));
  g_assert_error (none, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/history/resold", test_resold);
  g_test_add_func ("/ops/history/readings", test_readings);
  g_test_add_func ("/ops/history/order", test_order);
  g_test_add_func ("/ops/history/own", test_own);
  g_test_add_func ("/ops/history/suspected", test_suspected);
  g_test_add_func ("/ops/history/find-vehicle", test_find_vehicle);
  g_test_add_func ("/ops/history/find-refused", test_find_refused);
  return ops_demo_run ();
}
