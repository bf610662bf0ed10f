// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

/* A small town for the tests of days and counters: a new book in a folder of its own, filled by import. It holds areas,
 * drives, three counters with hours, parts with prices and twelve customers with a vehicle each, and no job. */

typedef struct
{
  char *folder;
  char *path;
  HsBook *book;
} OpsTown;

OpsTown *ops_town_new (void);

/* The same with its morning, whose plan was accepted. */
OpsTown *ops_town_new_accepted (void);
void ops_town_free (OpsTown *town);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OpsTown, ops_town_free)

/* Shuts the book and opens it again, as another run of the program would. */
void ops_town_reopen (OpsTown *town);

/* Imports rows of @kind; they have to be good. */
void ops_town_add (OpsTown *town, const char *kind, const char *csv);

/* The six calls of the demo morning, Tuesday 2026-03-10, with what they need, what is owed and what is in the van. */
void ops_town_add_morning (OpsTown *town);

void ops_town_set (OpsTown *town, const char *key, const char *value);

/* 2026-03-10 06:45 in the town's zone. */
HsInstant ops_town_now (OpsTown *town);

/* A clock time of a day there, "2026-03-10T08:31". */
HsInstant ops_town_at (OpsTown *town, const char *text);
HsDate ops_town_day (const char *text);

/**
 * OpsTownDone: a job that is over.
 * @day: when she was there, 09:00 to 10:00
 * @cents: what was asked with no tax; below zero: no bill was written
 * @paid: whether it was paid on the spot
 */
typedef struct
{
  const char *number;
  const char *phone;
  const char *plate;
  const char *words;
  const char *day;
  gint64 cents;
  gboolean paid;
} OpsTownDone;

/* Writes a squared job with its visit, bill and payment. Returns: (transfer full): its id. */
char *ops_town_add_done (OpsTown *town, const OpsTownDone *done);

/* Ids by plate and phone. */
char *ops_town_vehicle (OpsTown *town, const char *plate);
char *ops_town_customer (OpsTown *town, const char *phone);

/* A follow-up of a job. */
void ops_town_add_chase (OpsTown *town, const char *number, const char *kind, const char *due);

/* Adds a finding to a job. Returns: (transfer full): its id. */
char *ops_town_add_finding (OpsTown *town, const char *job_id, const char *role, const char *what, const char *sure);

/* Hands a vehicle over. */
void ops_town_sell (OpsTown *town, const char *plate, const char *phone, const char *day);

/* The id of a job by number. */
char *ops_town_job (OpsTown *town, const char *number);

/* Asserts that @instant is @clock ("08:31") on the wall there. */
void ops_town_assert_clock (OpsTown *town, HsInstant instant, const char *clock);
