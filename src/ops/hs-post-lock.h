// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* One program at a time sends out of a book, so that never two messages are under way. A program that is killed lets go
 * by itself. */

/**
 * hs_post_lock_take:
 * @book_path: the book
 * @ret_lock: (out): for hs_post_lock_release(); −1 where no lock can be had, and then all go on
 *
 * Returns: %FALSE if another program is sending
 */
gboolean hs_post_lock_take (const char *book_path, int *ret_lock);
void hs_post_lock_release (const char *book_path, int lock);

/* hs_post_lock_dup_path: (transfer full): the file that is locked. */
char *hs_post_lock_dup_path (const char *book_path);

G_END_DECLS
