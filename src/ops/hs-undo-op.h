// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/*
 * The last thing that was done in the whole book, whatever job it was on: for a key that takes back what was done last.
 * The steps themselves are hs-undo.h's; who takes back on one job that he names uses hs_undo_last().
 */

/* Older than this a step is only taken back by who was told what it is: half a day. */
#define HS_TAKE_BACK_SECONDS (12 * 3600)

/**
 * HsTakenBack:
 * @number: the job's
 * @what: the step, in the owner's words
 * @at: when it was done
 * @mark: its place among all steps
 * @done: it was taken back (or done again); %FALSE: it is older than %HS_TAKE_BACK_SECONDS and has to be asked for
 * @kept: (nullable): as in #HsUndoStep
 */
typedef struct
{
  char *job_id;
  char *number;
  char *what;
  HsInstant at;
  gint64 mark;
  gboolean done;
  char *kept;
} HsTakenBack;

void hs_taken_back_free (HsTakenBack *taken);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTakenBack, hs_taken_back_free)

/* hs_undo_mark: the place of the latest step that stands; 0 if there is none. What is done later has a higher one. */
gboolean hs_undo_mark (HsBook *book, gint64 *ret_mark, GError **error);

/**
 * hs_take_back:
 * @after: only what was done after this mark
 * @asked: the mark of an old step that the owner was told of; 0: none
 * @now: stamped on the changes
 *
 * Returns: (transfer full) (nullable): the step; %NULL without @error if there is none after @after. With @error it
 * was refused as by hs_undo_last(), and nothing older is taken back in its place.
 */
HsTakenBack *hs_take_back (HsBook *book, gint64 after, gint64 asked, HsInstant now, GError **error);

/* hs_do_again: does again what was taken back last; %NULL without @error if something was done since, or nothing was
 * taken back. */
HsTakenBack *hs_do_again (HsBook *book, HsInstant now, GError **error);

G_END_DECLS
