// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* One program at a time sends out of a book, so that never two messages are under way. A program that is killed lets go
 * by itself. */

typedef struct _HsPostLock HsPostLock;

/**
 * hs_post_lock_take:
 * @book_path: the book
 * @ret_lock: (out) (transfer full) (nullable): for hs_post_lock_release(); %NULL where no lock can be had, and then all
 *   go on
 *
 * Returns: %FALSE if another program is sending
 */
gboolean hs_post_lock_take (const char *book_path, HsPostLock **ret_lock);

/* hs_post_lock_release: @lock: (transfer full) (nullable). Whatever became of the book, it lets go of what it took. */
void hs_post_lock_release (HsPostLock *lock);

/* hs_post_lock_dup_path: (transfer full): the file that is locked. */
char *hs_post_lock_dup_path (const char *book_path);

G_END_DECLS
