// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/* How far the customer's yes goes: the ceiling, what of it is used, and every yes as a row of its own. */

/**
 * HsGoAheadEntry:
 * @ceiling_cents: with tax
 * @by: who said yes
 * @means: how it came; %NULL: signed on the screen with a @signature, else it is refused
 * @signature: (nullable): as hs_signature_to_bytes() writes it
 * @at: 0: now
 */
typedef struct
{
  gint64 ceiling_cents;
  const char *by;
  const char *means;
  GBytes *signature;
  HsInstant at;
} HsGoAheadEntry;

/**
 * hs_go_ahead_give:
 *
 * Writes a yes down beside those before it, which stay; the latest counts, also where it is lower. It is no step that
 * can be taken back. Refused: nobody's name, no word on how it came, a ceiling below nothing, a signature that is none
 * or that was not signed on the screen, signed on the screen without one, a squared job.
 */
gboolean hs_go_ahead_give (HsBook *book, const char *job_id, const HsGoAheadEntry *entry, HsInstant now,
                           GError **error);

/**
 * HsGoAheadRoom:
 * @given: there is a go-ahead; without one @ceiling_cents is 0
 * @by, @means, @at: of the latest one
 * @overrun_cents: how far the owner lets the lines pass it
 * @used_cents: lines with the tax of the whole bill, and the work by the clock where that is more than the lines say
 * @added_cents: what a line that was asked about adds, with the tax that comes of it
 * @total_cents: both
 * @short_cents: by how much that passes what is covered; 0 if it does not
 */
typedef struct
{
  gboolean given;
  char *by;
  char *means;
  HsInstant at;
  gint64 ceiling_cents;
  gint64 overrun_cents;
  gint64 used_cents;
  gint64 added_cents;
  gint64 total_cents;
  gint64 short_cents;
} HsGoAheadRoom;

void hs_go_ahead_room_free (HsGoAheadRoom *room);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsGoAheadRoom, hs_go_ahead_room_free)

/**
 * hs_go_ahead_check:
 * @kind: (nullable): kind of a line that may be added; %NULL: none
 * @net_cents: its price without tax
 *
 * What the job comes to now, and what that line would bring it to. Reads only; it is asked before a line is added.
 *
 * Returns: (transfer full) (nullable)
 */
HsGoAheadRoom *hs_go_ahead_check (HsBook *book, const char *job_id, const char *kind, gint64 net_cents, HsInstant now,
                                  GError **error);

/* hs_go_ahead_room_say: (transfer full): one sentence, with what to do if it is short. */
char *hs_go_ahead_room_say (HsBook *book, const HsGoAheadRoom *room);

G_END_DECLS
