// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Who sends out of a book: a lock of the system on a file of the user's, not beside the book, for that is one file.
 * cron knows nothing of the session, so that the place follows from HOME alone, and from the file that the book is,
 * whatever leads to it. Two machines on one book are told apart by the endpoint, by key and revision. */

#include "hs-post-lock.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

/* Whoever lets go takes the file away at the very moment; a folder where it never is the same file has no locks. */
#define MOST_TURNS 8

/* @path: as it was when it was taken: another book may stand there by the time it is let go of */
struct _HsPostLock
{
  char *path;
  int fd;
};

char *
hs_post_lock_dup_path (const char *book_path)
{
  g_autofree char *whole = g_canonicalize_filename (book_path, NULL);
  struct stat book;
  g_autofree char *file = stat (book_path, &book) != 0
                            ? g_strdup (whole)
                            : g_strdup_printf ("%" G_GUINT64_FORMAT " %" G_GUINT64_FORMAT, (guint64) book.st_dev,
                                               (guint64) book.st_ino);
  g_autofree char *hash = g_compute_checksum_for_string (G_CHECKSUM_SHA256, file, -1);
  g_autofree char *name = g_strdup_printf ("halfshaft-post-%.16s.lock", hash);

  return g_build_filename (g_get_home_dir (), ".cache", name, NULL);
}

static int
open_file (const char *path)
{
  int fd = g_open (path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
  g_autofree char *folder = NULL;

  if (fd >= 0 || errno != ENOENT)
    return fd;
  folder = g_path_get_dirname (path);
  return g_mkdir_with_parents (folder, 0700) == 0 ? g_open (path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600) : -1;
}

/* Whoever let go of it last took the file away. */
static gboolean
is_still_there (const char *path, int fd)
{
  struct stat ours, theirs;

  return fstat (fd, &ours) == 0 && lstat (path, &theirs) == 0 && ours.st_ino == theirs.st_ino
         && ours.st_dev == theirs.st_dev;
}

gboolean
hs_post_lock_take (const char *book_path, HsPostLock **ret_lock)
{
  g_autofree char *path = hs_post_lock_dup_path (book_path);
  int fd = -1;

  *ret_lock = NULL;
  for (guint turn = 0; turn < MOST_TURNS && (fd = open_file (path)) >= 0; turn++)
    {
      if (flock (fd, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK)
        {
          (void) close (fd);
          return FALSE;
        }
      if (is_still_there (path, fd))
        {
          *ret_lock = g_new (HsPostLock, 1);
          (*ret_lock)->path = g_steal_pointer (&path);
          (*ret_lock)->fd = fd;
          return TRUE;
        }
      (void) close (fd);
    }
  return TRUE;
}

void
hs_post_lock_release (HsPostLock *lock)
{
  if (lock == NULL)
    return;
  (void) g_unlink (lock->path);
  (void) close (lock->fd);
  g_free (lock->path);
  g_free (lock);
}
