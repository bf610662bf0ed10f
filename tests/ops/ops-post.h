// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ops-test.h"
#include "hs-post-op.h"

G_BEGIN_DECLS

/* The demo business in a book of its own that posts to an endpoint which is played here. */

/* 2026-03-10 06:45 in New York, when the demo begins. */
#define START HS_OPS_TEST_NOW

/**
 * Wire:
 * @script: of HsPostReply, taken one by one; when it is empty every message is answered with 201
 * @now: the clock; each message takes a second
 * @seen: (element-type HsPostParcel): everything that was sent
 * @during: (nullable): what happens while a message is under way
 */
typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  GQueue *script;
  HsInstant now;
  GPtrArray *seen;
  void (*during) (gpointer wire);
  HsPostWorks works;
} Wire;

Wire *wire_open (void);
void wire_close (Wire *wire);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Wire, wire_close)

/* wire_set: a setting. */
void wire_set (Wire *wire, const char *key, const char *value);

/* wire_answers: the next message ends so. */
void wire_answers (Wire *wire, HsPostEnd end, int status, const char *retry_after, const char *said);

/* wire_run: sends what is due. */
HsPostReport wire_run (Wire *wire, guint most);

/* wire_queue: a job by its number, as it stands. */
void wire_queue (Wire *wire, const char *number);

/* wire_saw: (transfer none): a parcel by its place, counted from 0. */
const HsPostParcel *wire_saw (Wire *wire, guint n);

/* wire_look: (transfer full) */
HsPostOverview *wire_look (Wire *wire);

G_END_DECLS
