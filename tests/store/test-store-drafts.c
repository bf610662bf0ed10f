// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is being typed: kept by its field, forgotten, and without its text once it stands in the book as what it is. */

#include "book.h"
#include "hs-draft-row.h"
#include "hs-store-private.h"

typedef struct
{
  char *folder;
  HsStore *store;
  GError *error;
} Place;

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = test_folder_make ();
  place->store = test_book_new (place->folder);
  g_assert_true (hs_store_begin (place->store, TEST_NOW, &place->error));
}

static void
tear_down (Place *place, gconstpointer data)
{
  g_assert_no_error (place->error);
  hs_store_close (place->store);
  test_folder_remove (place->folder);
}

/* The fields, oldest first. */
static void
assert_fields (GPtrArray **rows, const char *expected)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < (*rows)->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " " : "", ((HsDraftRow *) g_ptr_array_index (*rows, i))->field);
  g_assert_cmpstr (text->str, ==, expected);
  g_clear_pointer (rows, g_ptr_array_unref);
}

static void
test_drafts (Place *place, gconstpointer data)
{
  g_autoptr (HsDraftRow) latest = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  gint64 logged = test_int (place->store->db, "SELECT count (*) FROM change_log");

  g_assert_true (hs_draft_row_latest (place->store, &latest, &place->error));
  g_assert_null (latest);
  g_assert_true (hs_draft_row_put (place->store, "open", "findings", "rest", "12.4", &place->error));
  g_assert_true (hs_draft_row_put (place->store, NULL, "call", "words", "will not", &place->error));
  g_assert_true (hs_draft_row_put (place->store, "open", "findings", "crank", "9", &place->error));
  g_assert_true (hs_draft_row_put (place->store, "open", "findings", "rest", "12.42", &place->error));
  g_assert_true (hs_draft_row_latest (place->store, &latest, &place->error));
  g_assert_cmpstr (latest->field, ==, "rest");
  g_assert_cmpstr (latest->text, ==, "12.42");
  g_assert_cmpint (latest->at, ==, TEST_NOW);
  g_assert_true (hs_draft_row_list_of (place->store, "open", &rows, &place->error));
  assert_fields (&rows, "crank rest");
  g_assert_true (hs_draft_row_list_of (place->store, NULL, &rows, &place->error));
  assert_fields (&rows, "words");
  g_assert_true (hs_draft_row_drop (place->store, "open", "findings", "rest", &place->error));
  g_assert_true (hs_draft_row_list_of (place->store, "open", &rows, &place->error));
  assert_fields (&rows, "crank");
  g_assert_true (hs_draft_row_drop (place->store, "open", NULL, NULL, &place->error));
  g_assert_true (hs_draft_row_drop (place->store, NULL, "call", NULL, &place->error));
  g_clear_pointer (&latest, hs_draft_row_free);
  g_assert_true (hs_draft_row_latest (place->store, &latest, &place->error));
  g_assert_null (latest);
  g_assert_cmpint (test_int (place->store->db, "SELECT count (*) FROM change_log"), ==, logged);
}

static void
test_settled (Place *place, gconstpointer data)
{
  g_autoptr (GPtrArray) rows = NULL;

  g_assert_true (hs_draft_row_put (place->store, "open", "findings", "crank", "9", &place->error));
  g_assert_true (hs_draft_row_put (place->store, "open", "findings", "rest", "12.42", &place->error));
  /* Stored: the places stay in their order, without what was typed; other pages keep theirs. */
  g_assert_true (hs_draft_row_settle (place->store, "open", "findings", "crank", &place->error));
  g_assert_cmpint (test_int (place->store->db, "SELECT count (*) FROM draft WHERE text = ''"), ==, 1);
  g_assert_true (hs_draft_row_settle (place->store, "open", "findings", NULL, &place->error));
  g_assert_true (hs_draft_row_settle (place->store, "open", "call", NULL, &place->error));
  g_assert_cmpint (test_int (place->store->db, "SELECT count (*) FROM draft WHERE text = ''"), ==, 2);
  g_assert_true (hs_draft_row_list_of (place->store, "open", &rows, &place->error));
  assert_fields (&rows, "crank rest");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/store/drafts/kept", Place, NULL, set_up, test_drafts, tear_down);
  g_test_add ("/store/drafts/settled", Place, NULL, set_up, test_settled, tear_down);
  return g_test_run ();
}
