// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-find.h"

G_BEGIN_DECLS

typedef enum
{
  HS_HISTORY_JOB,
  HS_HISTORY_OWNER,
  HS_HISTORY_ODOMETER,
} HsHistoryKind;

/**
 * HsHistoryReading: one line of a job's before → after table.
 * @name: the check's name, with its place if it has one
 * @before, @after: "12.05 V", "over range", or %NULL when not taken
 * @before_verdict, @after_verdict: verdict ids, or %NULL
 * @before_word, @after_word: the words to show ("charge, test"), or %NULL
 */
typedef struct
{
  char *name;
  char *before;
  char *before_verdict;
  char *before_word;
  char *after;
  char *after_verdict;
  char *after_word;
} HsHistoryReading;

/**
 * HsHistoryEntry:
 * @day: when
 * @kind: what the entry tells
 * @title: the caller's words, or "New owner: …"
 * @detail: why it failed, or more words; may be %NULL
 * @job_id, @job_number, @stage: of a job
 * @total_cents: -1 when it must not be shown (another owner's) or there is none
 * @readings: (element-type HsHistoryReading)
 * @parts: (element-type utf8): what was installed
 * @advice: (element-type utf8): what was declined or put off
 */
typedef struct
{
  HsDate day;
  HsHistoryKind kind;
  char *title;
  char *detail;
  char *job_id;
  char *job_number;
  char *stage;
  gint64 total_cents;
  GPtrArray *readings;
  GPtrArray *parts;
  GPtrArray *advice;
} HsHistoryEntry;

/**
 * HsHistory: what a vehicle has lived through, as it may be told to its present owner: nothing of an owner before,
 * neither name, phone nor prices.
 */
typedef struct
{
  char *vehicle_id;
  char *plate;
  char *vehicle;
  char *engine;
  char *customer;
  char *phone;
  char *area;
  gboolean high_voltage;
  HsBatteryFact *battery;
  GPtrArray *entries;
} HsHistory;

void hs_history_free (HsHistory *history);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsHistory, hs_history_free)

HsHistory *hs_history_load (HsBook *book, const char *vehicle_id, HsInstant now, GError **error);

/** hs_history_find_vehicle: the vehicle of a plate, a full phone number's only vehicle, or a search with one hit. */
char *hs_history_find_vehicle (HsBook *book, const char *words, HsInstant now, GError **error);

G_END_DECLS
