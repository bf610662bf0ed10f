// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a program opens and closes beside its own connection takes none of the locks of that connection: another program
 * that found none would fold the log in and take it away, while the first one writes on into what is gone. */

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include "book.h"
#include "hs-setting-row.h"
#include "hs-store-file.h"

/* SQLite, "Database File Format", 1.3 and os.h: whoever has a book open in a log holds one of these bytes shared. */
#define SHARED_FIRST (0x40000000 + 2)
#define SHARED_SIZE 510

/* In another process, for one never sees one's own locks. */
static gboolean
is_locked_for_others (const char *path)
{
  pid_t child = fork ();
  int status = 0;

  if (child == 0)
    {
      struct flock lock = { .l_type = F_WRLCK, .l_whence = SEEK_SET, .l_start = SHARED_FIRST, .l_len = SHARED_SIZE };
      int fd = open (path, O_RDWR);

      _exit (fd < 0 || fcntl (fd, F_GETLK, &lock) != 0 ? 2 : lock.l_type != F_UNLCK);
    }
  g_assert_cmpint (child, >, 0);
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFEXITED (status) && WEXITSTATUS (status) < 2);
  return WEXITSTATUS (status) == 1;
}

static void
test_second_connection (void)
{
  char *folder = test_folder_make ();
  g_autofree char *path = g_build_filename (folder, "test.hsbook", NULL);
  HsStore *store = test_book_open (folder, "test.hsbook", HS_STORE_CREATE);
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_store_begin (store, TEST_NOW, &error));
  g_assert_true (hs_store_end (store, hs_setting_row_put (store, "a", "1", &error), &error));
  g_assert_true (is_locked_for_others (path));
  hs_store_close (test_book_open (folder, "test.hsbook", HS_STORE_WRITE));
  g_assert_true (is_locked_for_others (path));
  hs_store_close (test_book_open (folder, "test.hsbook", HS_STORE_READ));
  g_assert_true (is_locked_for_others (path));
  g_assert_true (hs_store_file_inspect (path, G_MAXINT, &error));
  g_assert_true (is_locked_for_others (path));
  hs_store_close (store);
  g_assert_false (is_locked_for_others (path));
  test_folder_remove (folder);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/store/locks/second-connection", test_second_connection);
  return g_test_run ();
}
