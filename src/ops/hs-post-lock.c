// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Who sends out of a book: a lock of the system on a file of the session, not beside the book, for that is one file.
 * Two machines on one book are told apart by the endpoint, by key and revision. */

#include "hs-post-lock.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <sys/file.h>
#include <unistd.h>

char *
hs_post_lock_dup_path (const char *book_path)
{
  g_autofree char *whole = g_canonicalize_filename (book_path, NULL);
  g_autofree char *hash = g_compute_checksum_for_string (G_CHECKSUM_SHA256, whole, -1);
  g_autofree char *name = g_strdup_printf ("halfshaft-post-%.16s.lock", hash);

  return g_build_filename (g_get_user_runtime_dir (), name, NULL);
}

gboolean
hs_post_lock_take (const char *book_path, int *ret_lock)
{
  g_autofree char *path = hs_post_lock_dup_path (book_path);
  int fd = g_open (path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);

  if (fd < 0 && errno == ENOENT && g_mkdir_with_parents (g_get_user_runtime_dir (), 0700) == 0)
    fd = g_open (path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (fd >= 0 && flock (fd, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK)
    {
      (void) close (fd);
      return FALSE;
    }
  *ret_lock = fd;
  return TRUE;
}

void
hs_post_lock_release (int lock)
{
  if (lock >= 0)
    (void) close (lock);
}
