// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The file that may hold the secret: only one that nobody else could have read or put there. The keyring is in
 * tests/cli/test-cli-post-secret.py, for it wants a session of its own. */

#include "hs-post-secret.h"

#include "keyring.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct
{
  char *folder;
  char *path;
} Place;

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = g_dir_make_tmp (NULL, NULL);
  place->path = g_build_filename (place->folder, "secret", NULL);
}

static void
tear_down (Place *place, gconstpointer data)
{
  g_unlink (place->path);
  g_rmdir (place->folder);
  g_free (place->path);
  g_free (place->folder);
}

static void
write_file (Place *place, const char *content, gssize length, mode_t mode)
{
  g_assert_true (g_file_set_contents (place->path, content, length, NULL));
  g_assert_cmpint (g_chmod (place->path, (int) mode), ==, 0);
}

static void
assert_refused (const char *path, const char *why)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_post_secret_read_file (path, &error));
  g_assert_error (error, HS_POST_ERROR, HS_POST_ERROR_NO_SECRET);
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, why));
  g_assert_null (strstr (error->message, "hunter"));
}

static const struct
{
  const char *content;
  const char *secret;
} taken[] = {
  { "hunter2", "hunter2" },
  { "hunter2\n", "hunter2" },
  { "  hun ter  \n", "  hun ter  " },
  { "hün:ter", "hün:ter" },
};

static const struct
{
  const char *content;
  gssize length;
  const char *why;
} refused[] = {
  { "", 0, "empty" },
  { "\n", 1, "empty" },
  { "hunter2\n\n", 9, "one line" },
  { "hunter2\nmore\n", 13, "one line" },
  { "hunter2\r\n", 9, "one line" },
  { "hun\tter", 7, "without tabs" },
  { "hunter2\0x", 9, "no text" },
  { "\xffhunter", 7, "no text" },
};

static void
test_content (Place *place, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (taken); i++)
    {
      g_autoptr (GError) error = NULL;
      char *secret;

      write_file (place, taken[i].content, -1, 0600);
      secret = hs_post_secret_load ("https://example.org:443", place->path, 60, NULL, &error);
      g_assert_no_error (error);
      g_assert_cmpstr (secret, ==, taken[i].secret);
      hs_post_secret_free (secret);
    }
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      write_file (place, refused[i].content, refused[i].length, 0600);
      assert_refused (place->path, refused[i].why);
    }
}

static void
test_length (Place *place, gconstpointer data)
{
  g_autofree char *letters = g_strnfill (HS_POST_SECRET_BYTES + 2, 'x');
  char *secret;

  write_file (place, letters, HS_POST_SECRET_BYTES, 0600);
  secret = hs_post_secret_read_file (place->path, NULL);
  g_assert_cmpuint (strlen (secret), ==, HS_POST_SECRET_BYTES);
  hs_post_secret_free (secret);
  write_file (place, letters, HS_POST_SECRET_BYTES + 1, 0600);
  assert_refused (place->path, "at most");
  write_file (place, letters, HS_POST_SECRET_BYTES + 2, 0600);
  assert_refused (place->path, "longer than a secret");
}

static void
test_modes (Place *place, gconstpointer data)
{
  static const mode_t shut[] = { 0600, 0400, 0700 };
  static const mode_t open[] = { 0640, 0604, 0620, 0602, 0601, 0610, 0644, 0666, 0777 };

  for (guint i = 0; i < G_N_ELEMENTS (shut); i++)
    {
      char *secret;

      write_file (place, "hunter2", -1, shut[i]);
      secret = hs_post_secret_read_file (place->path, NULL);
      g_assert_cmpstr (secret, ==, "hunter2");
      hs_post_secret_free (secret);
    }
  for (guint i = 0; i < G_N_ELEMENTS (open); i++)
    {
      write_file (place, "hunter2", -1, open[i]);
      assert_refused (place->path, "Others may look at");
    }
}

static void
test_kinds (Place *place, gconstpointer data)
{
  g_autofree char *link_path = g_build_filename (place->folder, "link", NULL);
  g_autofree char *pipe_path = g_build_filename (place->folder, "pipe", NULL);

  assert_refused (place->path, "cannot be read");
  assert_refused (place->folder, "no file");
  write_file (place, "hunter2", -1, 0600);
  g_assert_cmpint (symlink (place->path, link_path), ==, 0);
  assert_refused (link_path, "it is a link");
  g_unlink (link_path);
  g_assert_cmpint (mkfifo (pipe_path, 0600), ==, 0);
  assert_refused (pipe_path, "no file");
  g_unlink (pipe_path);
}

/* Only root can give a file away. */
static void
test_owner (Place *place, gconstpointer data)
{
  write_file (place, "hunter2", -1, 0600);
  if (geteuid () != 0 || chown (place->path, 65534, 65534) != 0)
    {
      g_test_skip ("a file cannot be given away here");
      return;
    }
  assert_refused (place->path, "belongs to somebody else");
}

/* Where nobody unlocks it, it is not waited for without end: others wait for the lock of the queue. */
static void
test_locked (void)
{
  Keyring *keyring = keyring_open ();
  g_autoptr (GError) error = NULL;
  gint64 start = g_get_monotonic_time ();

  if (keyring == NULL)
    {
      g_test_skip ("dbus-daemon is not installed");
      return;
    }
  g_assert_null (hs_post_secret_load ("https://example.org:443", NULL, 1, NULL, &error));
  g_assert_error (error, HS_POST_ERROR, HS_POST_ERROR_NO_SECRET);
  g_assert_nonnull (strstr (error->message, "is locked"));
  keyring_wait_asked (keyring);
  g_assert_cmpint (g_get_monotonic_time () - start, >=, G_USEC_PER_SEC);
  keyring_close (keyring);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/post/secret/content", Place, NULL, set_up, test_content, tear_down);
  g_test_add ("/post/secret/length", Place, NULL, set_up, test_length, tear_down);
  g_test_add ("/post/secret/modes", Place, NULL, set_up, test_modes, tear_down);
  g_test_add ("/post/secret/kinds", Place, NULL, set_up, test_kinds, tear_down);
  g_test_add ("/post/secret/owner", Place, NULL, set_up, test_owner, tear_down);
  g_test_add_func ("/post/secret/locked", test_locked);
  return g_test_run ();
}
