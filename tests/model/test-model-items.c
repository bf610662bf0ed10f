// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* HsItems: what is announced when a newer snapshot comes, and that rows outlive the list's move. */

#include <glib.h>

#include "hs-items.h"

static int n_freed;

/* A snapshot's array of texts: the letter is the key, the rest what it looks like. */
static void
texts_free (gpointer data)
{
  g_ptr_array_unref (data);
  n_freed++;
}

static HsSnapshot *
texts_new (const char *words)
{
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  g_auto (GStrv) split = g_strsplit (words, " ", -1);

  for (guint i = 0; split[i] != NULL; i++)
    if (*split[i] != '\0')
      g_ptr_array_add (texts, g_strdup (split[i]));
  return hs_snapshot_new (texts, texts_free);
}

static const char *
text_key (gconstpointer data)
{
  static char key[2];

  key[0] = ((const char *) data)[0];
  return key;
}

static const char *
text_whole (gconstpointer data)
{
  return data;
}

static gboolean
text_same (gconstpointer a, gconstpointer b)
{
  return g_str_equal (a, b);
}

static void
note_cb (GListModel *model, guint position, guint removed, guint added, gpointer data)
{
  g_string_append_printf (data, "%u-%u+%u ", position, removed, added);
}

static void
set_words (HsItems *rows, const char *words)
{
  g_autoptr (HsSnapshot) snapshot = texts_new (words);

  hs_items_set (rows, snapshot, hs_snapshot_get (snapshot));
}

static void
test_announced (void)
{
  static const struct
  {
    const char *before;
    const char *after;
    const char *announced;
  } table[] = {
    { "", "", "" },
    { "", "a b c", "0-0+3 " },
    { "a b c", "", "0-3+0 " },
    { "a b c", "a b c", "" },
    { "a b c", "a b2 c", "1-1+1 " },
    { "a b c", "a b c d", "3-0+1 " },
    { "a b c", "z a b c", "0-0+1 " },
    { "a b c", "a c", "1-1+0 " },
    { "a b c", "x y", "0-3+2 " },
    { "a a", "a a a", "2-0+1 " },
  };

  for (guint i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autoptr (HsItems) rows = hs_items_new (text_whole, text_same);
      g_autoptr (GString) announced = g_string_new (NULL);
      g_autoptr (HsSnapshot) after = texts_new (table[i].after);
      GPtrArray *texts = hs_snapshot_get (after);

      set_words (rows, table[i].before);
      g_signal_connect (rows, "items-changed", G_CALLBACK (note_cb), announced);
      hs_items_set (rows, after, texts);
      g_assert_cmpstr (announced->str, ==, table[i].announced);
      g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (rows)), ==, texts->len);
    }
}

static void
test_same_key_other_look (void)
{
  g_autoptr (HsItems) rows = hs_items_new (text_key, text_same);
  g_autoptr (GString) announced = g_string_new (NULL);

  set_words (rows, "a1 b1 c1");
  g_signal_connect (rows, "items-changed", G_CALLBACK (note_cb), announced);
  set_words (rows, "a1 b2 c1");
  g_assert_cmpstr (announced->str, ==, "1-1+1 ");
  g_assert_cmpuint (hs_items_find (rows, "b"), ==, 1);
  g_assert_cmpuint (hs_items_find (rows, "q"), ==, G_MAXUINT);
  g_assert_cmpuint (hs_items_find (rows, NULL), ==, G_MAXUINT);
}

static void
test_without_same_all_changes (void)
{
  g_autoptr (HsItems) rows = hs_items_new (text_key, NULL);
  g_autoptr (GString) announced = g_string_new (NULL);

  set_words (rows, "a b");
  g_signal_connect (rows, "items-changed", G_CALLBACK (note_cb), announced);
  set_words (rows, "a b");
  g_assert_cmpstr (announced->str, ==, "0-2+2 ");
}

static void
test_row_objects (void)
{
  g_autoptr (HsItems) rows = hs_items_new (text_whole, text_same);
  g_autoptr (HsItem) a = NULL, again = NULL, carried = NULL, c = NULL;

  set_words (rows, "a b c");
  g_assert_true (g_list_model_get_item_type (G_LIST_MODEL (rows)) == HS_TYPE_ITEM);
  a = g_list_model_get_item (G_LIST_MODEL (rows), 0);
  c = g_list_model_get_item (G_LIST_MODEL (rows), 2);
  again = g_list_model_get_item (G_LIST_MODEL (rows), 0);
  g_assert_true (a == again);
  g_assert_null (g_list_model_get_item (G_LIST_MODEL (rows), 3));

  set_words (rows, "a x y");
  carried = g_list_model_get_item (G_LIST_MODEL (rows), 0);
  g_assert_true (carried == a);
  g_assert_cmpstr (hs_item_get (c), ==, "c");
  g_assert_cmpstr (hs_item_get_key (c), ==, "c");
  g_assert_cmpstr (hs_items_get_data (rows, 1), ==, "x");
  g_assert_null (hs_items_get_data (rows, 3));
}

static void
test_snapshot_lives_as_long_as_its_rows (void)
{
  g_autoptr (HsItems) rows = hs_items_new (text_whole, text_same);
  HsItem *row;

  n_freed = 0;
  set_words (rows, "a");
  row = g_list_model_get_item (G_LIST_MODEL (rows), 0);
  hs_items_set (rows, NULL, NULL);
  g_assert_cmpint (n_freed, ==, 0);
  g_assert_cmpstr (hs_item_get (row), ==, "a");
  g_object_unref (row);
  g_assert_cmpint (n_freed, ==, 1);
}

static void
test_snapshot (void)
{
  HsSnapshot *snapshot = texts_new ("a");
  HsSnapshot *other = hs_snapshot_ref (snapshot);

  n_freed = 0;
  hs_snapshot_unref (snapshot);
  g_assert_cmpint (n_freed, ==, 0);
  g_assert_cmpuint (((GPtrArray *) hs_snapshot_get (other))->len, ==, 1);
  hs_snapshot_unref (other);
  g_assert_cmpint (n_freed, ==, 1);
  hs_snapshot_unref (NULL);
  g_assert_null (hs_snapshot_get (NULL));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/items/announced", test_announced);
  g_test_add_func ("/items/same-key-other-look", test_same_key_other_look);
  g_test_add_func ("/items/without-same-all-changes", test_without_same_all_changes);
  g_test_add_func ("/items/row-objects", test_row_objects);
  g_test_add_func ("/items/snapshot-lives-as-long-as-its-rows", test_snapshot_lives_as_long_as_its_rows);
  g_test_add_func ("/snapshot", test_snapshot);
  return g_test_run ();
}
