// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Finding by what a caller gives, who owns what, and the order of the hits; and that the index is what a rebuild makes
 * of the rows, whatever happened to them. */

#include <string.h>

#include "book.h"
#include "hs-customer-row.h"
#include "hs-job-row.h"
#include "hs-search.h"
#include "hs-store-private.h"
#include "hs-vehicle-row.h"

typedef struct
{
  char *folder;
  HsStore *store;
} Place;

static void
add_customer (HsStore *store, const char *id, const char *name, const char *street, const char *phone)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsCustomerRow) row = hs_customer_row_new ();
  g_autoptr (HsPhoneRow) number = hs_phone_row_new ();

  hs_row_set (&row->id, id);
  hs_row_set (&row->name, name);
  hs_row_set (&row->street, street);
  g_assert_true (hs_customer_row_save (store, row, &error));
  hs_row_set (&number->customer_id, id);
  hs_row_set (&number->shown, phone);
  g_assert_true (hs_phone_row_save (store, number, &error));
}

static void
add_vehicle (HsStore *store, const char *id, const char *plate, const char *vin, const char *make, const char *model,
             gint64 year)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsVehicleRow) row = hs_vehicle_row_new ();

  hs_row_set (&row->id, id);
  hs_row_set (&row->plate, plate);
  hs_row_set (&row->vin, vin);
  hs_row_set (&row->make, make);
  hs_row_set (&row->model, model);
  row->year = year;
  g_assert_true (hs_vehicle_row_save (store, row, &error));
}

static void
add_owner (HsStore *store, const char *vehicle_id, const char *customer_id, const char *to)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsOwnershipRow) row = hs_ownership_row_new ();

  hs_row_set (&row->vehicle_id, vehicle_id);
  hs_row_set (&row->customer_id, customer_id);
  if (to != NULL)
    g_assert_true (hs_date_parse (to, &row->to_date, &error));
  g_assert_true (hs_ownership_row_save (store, row, &error));
}

static void
add_job (HsStore *store, const char *number, const char *customer_id, const char *vehicle_id)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobRow) row = hs_job_row_new ();

  hs_row_set (&row->number, number);
  hs_row_set (&row->customer_id, customer_id);
  hs_row_set (&row->vehicle_id, vehicle_id);
  hs_row_set (&row->words, "slow crank");
  g_assert_true (hs_job_row_save (store, row, &error));
  g_assert_no_error (error);
}

static void
begin (HsStore *store)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
}

static void
commit (HsStore *store)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_store_commit (store, &error));
  g_assert_no_error (error);
}

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = test_folder_make ();
  place->store = test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE);
  begin (place->store);
  add_customer (place->store, "jory", "Jory Pellam", "9 Harbor Row", "555-0118");
  add_customer (place->store, "rue", "Rue Abernant", "4 Quay Street", "(555) 0121");
  add_customer (place->store, "wil", "Wilhelmina Sørrel-O'Hara", NULL, "+1 202 555 0114");
  add_customer (place->store, "new", "Marguerite Stané", NULL, "555 0122");
  add_vehicle (place->store, "crag", "TDM 8816", "1HGBH41JXMN109186", "Vostle", "Crag", 2016);
  add_vehicle (place->store, "pim", "TDM 1216", NULL, "Halvik", "Pim", 2016);
  add_vehicle (place->store, "lodden", "tdm-4409", NULL, "Halvik", "Lodden", 2009);
  add_vehicle (place->store, "barn", "OLD 77", NULL, "Tumbrel", "Dray", 1987);
  add_owner (place->store, "crag", "jory", "2025-08-17");
  add_owner (place->store, "crag", "rue", NULL);
  add_owner (place->store, "pim", "jory", NULL);
  add_owner (place->store, "lodden", "wil", NULL);
  commit (place->store);
}

static void
tear_down (Place *place, gconstpointer data)
{
  hs_store_close (place->store);
  test_folder_remove (place->folder);
}

/* "vehicle/customer vehicle/customer<until …" in order. */
static char *
found (HsStore *store, const char *words, guint limit)
{
  g_autoptr (GPtrArray) hits = NULL;
  g_autoptr (GError) error = NULL;
  GString *text = g_string_new (NULL);

  g_assert_true (hs_search (store, words, limit, &hits, &error));
  g_assert_no_error (error);
  for (guint i = 0; i < hits->len; i++)
    {
      HsSearchHit *hit = hits->pdata[i];
      g_autofree char *until = hs_date_format (hit->until);

      g_string_append_printf (text, "%s%s/%s%s%s", i > 0 ? " " : "", hit->vehicle_id != NULL ? hit->vehicle_id : "-",
                              hit->customer_id != NULL ? hit->customer_id : "-",
                              hit->until != HS_DATE_NONE ? "<" : "", until);
    }
  return g_string_free (text, FALSE);
}

static void
assert_found (HsStore *store, const char *words, const char *expected)
{
  g_autofree char *text = found (store, words, 50);

  if (!g_str_equal (text, expected))
    g_error ("“%s” finds “%s”, not “%s”", words, text, expected);
}

static const struct
{
  const char *words;
  const char *finds;
} searches[] = {
  /* phones: the last four, more, all, with and without marks, in pieces */
  { "0121", "crag/rue" },
  { "50121", "crag/rue" },
  { "5550121", "crag/rue" },
  { "555-0121", "crag/rue" },
  { "555 01 21", "crag/rue" },
  { "(555) 0121", "crag/rue" },
  { "+1 202 555 0114", "lodden/wil" },
  { "2025550114", "lodden/wil" },
  { "0114", "lodden/wil" },
  { "0122", "-/new" },
  { "121", "pim/jory" },
  { "9999", "" },
  /* the old owner's phone finds what is and what was theirs */
  { "0118", "pim/jory crag/jory<2025-08-17" },
  /* plates: any part, any way of writing */
  { "8816", "crag/rue" },
  { "tdm 8816", "crag/rue" },
  { "TDM-8816", "crag/rue" },
  { "tdm8816", "crag/rue" },
  { "m88", "crag/rue" },
  { "816", "crag/rue" },
  { "6", "pim/jory crag/rue" },
  { "4409", "lodden/wil" },
  { "tdm", "lodden/wil pim/jory crag/rue" },
  { "old77", "barn/-" },
  /* the VIN and its tails of 4 to 8 */
  { "9186", "crag/rue" },
  { "109186", "crag/rue" },
  { "MN109186", "crag/rue" },
  { "1hgbh", "crag/rue" },
  { "1HGBH41JXMN109186", "crag/rue" },
  { "JXMN109186", "" },
  { "186", "" },
  /* names, streets, make, model, year, any order, accents, letter case, beginnings */
  { "abernant", "crag/rue" },
  { "RUE ab", "crag/rue" },
  { "quay", "crag/rue" },
  { "0121 quay", "crag/rue" },
  { "quay 0121", "crag/rue" },
  { "crag rue 2016", "crag/rue" },
  /* numbers beside each other, short ones too: a house, a plate, a phone, a year */
  { "9 0118", "pim/jory crag/jory<2025-08-17" },
  { "0118 harbor 9", "pim/jory crag/jory<2025-08-17" },
  { "quay 4 8816", "crag/rue" },
  { "77 1987", "barn/-" },
  { "9 0121", "" },
  { "pellam", "pim/jory crag/jory<2025-08-17" },
  { "pellam crag", "crag/jory<2025-08-17" },
  { "jory 8816", "crag/jory<2025-08-17" },
  { "halvik", "lodden/wil pim/jory" },
  { "halvik 2016", "pim/jory" },
  { "stane", "-/new" },
  { "STANÉ", "-/new" },
  { "ohara", "lodden/wil" },
  { "o'hara", "lodden/wil" },
  { "wilhelmina pim", "" },
  { "harbor rue", "" },
  { "dray", "barn/-" },
  { "ernant", "" },
  /* nothing typed, or no word in it: what was seen lately */
  { "", "lodden/wil pim/jory crag/rue barn/- -/new" },
  { " -.*\"' ", "lodden/wil pim/jory crag/rue barn/- -/new" },
  /* what means something to FTS5 means nothing here */
  { "OR", "" },
  { "pim OR crag", "" },
  { "\"tdm\" AND *", "" },
  { "words:crag", "" },
  { "crag*", "crag/rue" },
  { "^crag", "crag/rue" },
};

static void
test_words (Place *place, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (searches); i++)
    assert_found (place->store, searches[i].words, searches[i].finds);
  assert_found (place->store, NULL, "lodden/wil pim/jory crag/rue barn/- -/new");
}

static void
test_limit (Place *place, gconstpointer data)
{
  g_autofree char *one = found (place->store, "tdm", 1);
  g_autofree char *two = found (place->store, "tdm", 2);
  g_autofree char *lately = found (place->store, "", 2);

  g_assert_cmpstr (one, ==, "lodden/wil");
  g_assert_cmpstr (two, ==, "lodden/wil pim/jory");
  g_assert_cmpstr (lately, ==, "lodden/wil pim/jory");
}

/* Very many words are no harm. */
static void
test_long (Place *place, gconstpointer data)
{
  g_autofree char *many = g_strnfill (20000, 'a');
  g_autoptr (GString) words = g_string_new ("crag");

  assert_found (place->store, many, "");
  for (guint i = 0; i < 5000; i++)
    g_string_append (words, " tdm");
  assert_found (place->store, words->str, "crag/rue");
}

static void
test_seen_comes_first (Place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  begin (place->store);
  add_job (place->store, "A-0001", "rue", "crag");
  assert_found (place->store, "tdm", "crag/rue lodden/wil pim/jory");
  commit (place->store);
  assert_found (place->store, "tdm", "crag/rue lodden/wil pim/jory");
  begin (place->store);
  g_assert_true (hs_search_seen (place->store, "pim", &error));
  commit (place->store);
  assert_found (place->store, "tdm", "pim/jory crag/rue lodden/wil");
  begin (place->store);
  add_job (place->store, "A-0002", "rue", "crag");
  add_job (place->store, "A-0003", "wil", "lodden");
  add_job (place->store, "A-0004", "rue", "crag");
  commit (place->store);
  assert_found (place->store, "tdm", "crag/rue lodden/wil pim/jory");
  assert_refused (hs_search_seen (place->store, "pim", &error), error, HS_STORE_ERROR_FAILED, "transaction");
}

/* Each change of a row changes what finds it, and leaves the order as it is. */

static void
change_name (HsStore *store)
{
  g_autoptr (HsCustomerRow) row = NULL;

  g_assert_true (hs_customer_row_load (store, "rue", &row, NULL));
  hs_row_set (&row->name, "Rue Larkmoor");
  g_assert_true (hs_customer_row_save (store, row, NULL));
}

static void
change_phone (HsStore *store)
{
  g_autoptr (GPtrArray) rows = NULL;
  HsPhoneRow *row;

  g_assert_true (hs_phone_row_list_of (store, "rue", &rows, NULL));
  row = rows->pdata[0];
  hs_row_set (&row->shown, "555-0177");
  g_assert_true (hs_phone_row_save (store, row, NULL));
  g_assert_cmpstr (row->digits, ==, "5550177");
}

static void
remove_phone (HsStore *store)
{
  g_autoptr (GPtrArray) rows = NULL;

  g_assert_true (hs_phone_row_list_of (store, "rue", &rows, NULL));
  g_assert_true (hs_phone_row_delete (store, ((HsPhoneRow *) rows->pdata[0])->id, NULL));
}

static void
change_plate (HsStore *store)
{
  g_autoptr (HsVehicleRow) row = NULL;
  g_autoptr (HsOldPlateRow) old = hs_old_plate_row_new ();

  g_assert_true (hs_vehicle_row_load (store, "crag", &row, NULL));
  hs_row_set (&row->plate, "XYZ 123");
  g_assert_true (hs_vehicle_row_save (store, row, NULL));
  hs_row_set (&old->vehicle_id, "crag");
  hs_row_set (&old->plate, "TDM 8816");
  g_assert_true (hs_old_plate_row_save (store, old, NULL));
}

static void
hand_over (HsStore *store)
{
  g_assert_true (hs_ownership_row_hand_over (store, "crag", "new", hs_date_from_ymd (2026, 3, 1), NULL));
}

static void
take_over_ownerless (HsStore *store)
{
  add_owner (store, "barn", "new", NULL);
}

static void
remove_ownership (HsStore *store)
{
  g_autoptr (HsOwnershipRow) row = NULL;

  g_assert_true (hs_ownership_row_present (store, "lodden", &row, NULL));
  g_assert_true (hs_ownership_row_delete (store, row->id, NULL));
}

static void
remove_vehicle (HsStore *store)
{
  g_assert_true (hs_vehicle_row_delete (store, "barn", NULL));
}

static const struct
{
  const char *name;
  void (*change) (HsStore *store);
  const char *finds[8];
} changes[] = {
  { "name", change_name, { "abernant", "", "larkmoor", "crag/rue", "tdm", "lodden/wil pim/jory crag/rue" } },
  { "phone", change_phone, { "0121", "", "0177", "crag/rue" } },
  { "phone-gone", remove_phone, { "0121", "", "rue", "crag/rue" } },
  { "plate", change_plate, { "xyz", "crag/rue", "8816", "crag/rue", "tdm8816", "crag/rue" } },
  { "owner", hand_over, { "0121", "crag/rue<2026-03-01", "0122", "crag/new", "8816", "crag/new", "0118",
                          "pim/jory crag/jory<2025-08-17" } },
  { "first-owner", take_over_ownerless, { "old77", "barn/new", "stane", "barn/new" } },
  { "no-owner", remove_ownership, { "4409", "lodden/-", "0114", "-/wil" } },
  { "vehicle-gone", remove_vehicle, { "old77", "", "", "lodden/wil pim/jory crag/rue -/new" } },
};

static char *
documents (HsStore *store)
{
  g_autoptr (GError) error = NULL;
  GString *text = g_string_new (NULL);
  sqlite3_stmt *stmt = NULL;

  g_assert_cmpint (sqlite3_prepare_v2 (store->db,
                                       "SELECT ifnull (vehicle_id, '-') || ' ' || ifnull (customer_id, '-') || ' ' ||"
                                       " ifnull (until, '-') || ' ' || words FROM search_doc ORDER BY 1", -1, &stmt,
                                       NULL), ==, SQLITE_OK);
  while (sqlite3_step (stmt) == SQLITE_ROW)
    g_string_append_printf (text, "%s\n", (const char *) sqlite3_column_text (stmt, 0));
  sqlite3_finalize (stmt);
  test_run (store->db, "INSERT INTO search (search, rank) VALUES ('integrity-check', 1)");
  return g_string_free (text, FALSE);
}

static void
test_changes (Place *place, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autofree char *kept = NULL;
      g_autofree char *rebuilt = NULL;
      g_autofree char *undone = NULL;
      g_autofree char *before = documents (place->store);
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", changes[i].name);
      begin (place->store);
      changes[i].change (place->store);
      for (guint j = 0; j < G_N_ELEMENTS (changes[i].finds) && changes[i].finds[j + 1] != NULL; j += 2)
        assert_found (place->store, changes[i].finds[j], changes[i].finds[j + 1]);
      kept = documents (place->store);
      g_assert_true (hs_search_rebuild (place->store, &error));
      rebuilt = documents (place->store);
      g_assert_cmpstr (rebuilt, ==, kept);
      hs_store_rollback (place->store);
      undone = documents (place->store);
      g_assert_cmpstr (undone, ==, before);
    }
}

static void
test_rolled_back (Place *place, gconstpointer data)
{
  begin (place->store);
  add_customer (place->store, "x", "Nobody Known", NULL, "555 0999");
  hs_store_rollback (place->store);
  assert_found (place->store, "0999", "");
  begin (place->store);
  commit (place->store);
  assert_found (place->store, "0999", "");
}

/* A book filled in bulk is found after one rebuild: by the last job, vehicles that never had one before them. */
static void
test_bulk (Place *place, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  gint64 logged = test_int (place->store->db, "SELECT count (*) FROM change_log");

  begin (place->store);
  hs_store_set_bulk (place->store, TRUE);
  add_customer (place->store, "bulk", "Bulk Owner", NULL, "555 0300");
  add_vehicle (place->store, "b1", "BLK 1", NULL, "Make", "Model", 2000);
  add_owner (place->store, "b1", "bulk", NULL);
  add_job (place->store, "A-0001", "bulk", "b1");
  add_job (place->store, "A-0002", "jory", "pim");
  assert_found (place->store, "0300", "");
  g_assert_true (hs_search_rebuild (place->store, &error));
  commit (place->store);
  assert_found (place->store, "0300", "b1/bulk");
  assert_found (place->store, "", "pim/jory b1/bulk barn/- lodden/wil crag/rue -/new");
  g_assert_cmpint (test_int (place->store->db, "SELECT count (*) FROM change_log"), ==, logged);
  begin (place->store);
  add_customer (place->store, "x", "After Bulk", NULL, "555 0999");
  commit (place->store);
  assert_found (place->store, "0999", "-/x");
  assert_refused (hs_search_rebuild (place->store, &error), error, HS_STORE_ERROR_FAILED, "transaction");
}

static void
test_lookups (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) by_plate = NULL;
  g_autoptr (GPtrArray) by_phone = NULL;
  g_autoptr (GPtrArray) by_name = NULL;
  g_autoptr (GPtrArray) owned = NULL;
  g_autoptr (GPtrArray) owners = NULL;
  g_autoptr (HsOwnershipRow) nobody = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_vehicle_row_list_by_plate (place->store, "tdm8816", &by_plate, &error));
  g_assert_cmpint (by_plate->len, ==, 1);
  g_assert_cmpstr (((HsVehicleRow *) by_plate->pdata[0])->id, ==, "crag");
  g_assert_true (hs_customer_row_list_by_phone (place->store, "5550121", &by_phone, &error));
  g_assert_cmpint (by_phone->len, ==, 1);
  g_assert_cmpstr (((HsCustomerRow *) by_phone->pdata[0])->id, ==, "rue");
  g_assert_true (hs_customer_row_list_by_name (place->store, "Rue Abernant", &by_name, &error));
  g_assert_cmpint (by_name->len, ==, 1);
  g_assert_cmpstr (((HsCustomerRow *) by_name->pdata[0])->id, ==, "rue");
  g_clear_pointer (&by_name, g_ptr_array_unref);
  g_assert_true (hs_customer_row_list_by_name (place->store, "Rue", &by_name, &error));
  g_assert_cmpint (by_name->len, ==, 0);
  g_assert_true (hs_vehicle_row_list_owned (place->store, "jory", &owned, &error));
  g_assert_cmpint (owned->len, ==, 1);
  g_assert_cmpstr (((HsVehicleRow *) owned->pdata[0])->id, ==, "pim");
  g_assert_true (hs_ownership_row_list_of (place->store, "crag", &owners, &error));
  g_assert_cmpint (owners->len, ==, 2);
  g_assert_cmpstr (((HsOwnershipRow *) owners->pdata[0])->customer_id, ==, "rue");
  g_assert_cmpstr (((HsOwnershipRow *) owners->pdata[1])->customer_id, ==, "jory");
  g_assert_true (hs_ownership_row_present (place->store, "barn", &nobody, &error));
  g_assert_null (nobody);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    void (*test) (Place *place, gconstpointer data);
  } tests[] = {
    { "words", test_words },
    { "limit", test_limit },
    { "long", test_long },
    { "seen-comes-first", test_seen_comes_first },
    { "changes", test_changes },
    { "rolled-back", test_rolled_back },
    { "bulk", test_bulk },
    { "lookups", test_lookups },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strconcat ("/store/search/", tests[i].name, NULL);

      g_test_add (path, Place, NULL, set_up, tests[i].test, tear_down);
    }
  return g_test_run ();
}
