// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Programs that are killed while they write: nothing that was saved is lost, nothing is half there. */

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include "book.h"
#include "hs-draft-row.h"
#include "hs-setting-row.h"
#include "hs-store-private.h"

typedef struct
{
  char *folder;
  char *path;
} Place;

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = test_folder_make ();
  place->path = g_build_filename (place->folder, "test.hsbook", NULL);
}

static void
tear_down (Place *place, gconstpointer data)
{
  test_folder_remove (place->folder);
  g_free (place->path);
}

static HsStore *
open_as (const char *path, HsStoreMode mode, int pid, GError **error)
{
  const HsStoreUser user = { .program = "test", .host = "tannery", .pid = pid, .now = TEST_NOW, .who = "A",
                             .busy_milliseconds = 50 };

  return hs_store_open (path, mode, &user, error);
}

static char *
get (HsStore *store, const char *key)
{
  g_autoptr (GError) error = NULL;
  char *value = NULL;

  g_assert_true (hs_setting_row_get (store, key, &value, &error));
  g_assert_no_error (error);
  return value;
}

/* kill -9 in the middle: what the child reported as saved is there, what it was about to save is whole or not there. */

static void
save_for_ever (const char *path, int reports)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsStore) store = open_as (path, HS_STORE_WRITE, 1, &error);

  for (guint32 i = 0; store != NULL; i++)
    {
      g_autofree char *text = g_strdup_printf ("%u", i);

      if (!hs_store_begin (store, TEST_NOW, &error) || !hs_setting_row_put (store, "one", text, &error)
          || !hs_draft_row_put (store, NULL, "findings", "rest", text, &error)
          || !hs_setting_row_put (store, "two", text, &error) || !hs_store_commit (store, &error)
          || write (reports, &i, sizeof i) != sizeof i)
        break;
    }
  _exit (1);
}

static guint32
run_and_kill (const char *path, guint after_milliseconds)
{
  int ends[2];
  guint32 saved = 0, last = 0;
  pid_t pid;

  g_assert_cmpint (pipe (ends), ==, 0);
  pid = fork ();
  if (pid == 0)
    {
      close (ends[0]);
      /* A child of a fork draws the same ids as its parent. */
      g_random_set_seed ((guint32) getpid ());
      save_for_ever (path, ends[1]);
    }
  close (ends[1]);
  g_assert_cmpint (read (ends[0], &saved, sizeof saved), ==, sizeof saved);
  g_usleep (after_milliseconds * 1000);
  g_assert_cmpint (kill (pid, SIGKILL), ==, 0);
  g_assert_cmpint (waitpid (pid, NULL, 0), ==, pid);
  for (last = saved; read (ends[0], &saved, sizeof saved) == sizeof saved;)
    last = saved;
  close (ends[0]);
  return last;
}

static void
test_kill (Place *place, gconstpointer data)
{
  hs_store_close (test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE));
  for (guint round = 0; round < 20; round++)
    {
      guint32 last = run_and_kill (place->path, 2 + round * 3);
      g_autoptr (HsStore) store = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
      g_autoptr (HsDraftRow) draft = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *one = get (store, "one");
      g_autofree char *two = get (store, "two");
      guint64 value = g_ascii_strtoull (one, NULL, 10);

      g_assert_true (hs_store_check (store, TRUE, &error));
      g_assert_cmpstr (one, ==, two);
      g_assert_cmpint (value, >=, last);
      g_assert_cmpint (value, <=, last + 1);
      g_assert_true (hs_draft_row_latest (store, &draft, &error));
      g_assert_cmpstr (draft->page, ==, "findings");
      g_assert_cmpstr (draft->field, ==, "rest");
      g_assert_cmpstr (draft->text, ==, one);
    }
}

/* After a kill the row of the dead program stays; whoever has the book alone next takes it away. */
static void
test_dead_sessions (Place *place, gconstpointer data)
{
  g_autoptr (HsStore) store = NULL;

  hs_store_close (test_book_open (place->folder, "test.hsbook", HS_STORE_CREATE));
  run_and_kill (place->path, 1);
  hs_store_close (test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE));
  store = test_book_open (place->folder, "test.hsbook", HS_STORE_WRITE);
  g_assert_cmpint (test_int (store->db, "SELECT count (*) FROM session"), ==, 1);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *name;
    void (*test) (Place *place, gconstpointer data);
  } tests[] = {
    { "kill", test_kill },
    { "dead-sessions", test_dead_sessions },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autofree char *path = g_strconcat ("/store/kill/", tests[i].name, NULL);

      g_test_add (path, Place, NULL, set_up, tests[i].test, tear_down);
    }
  return g_test_run ();
}
