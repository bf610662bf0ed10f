// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cli.h"
#include "hs-plan.h"

G_BEGIN_DECLS

/* What `solve` hands to each of its formats. */

/**
 * HsSolveJob:
 * @text, @length: the file
 * @objective: (nullable): as asked
 * @began: monotonic time at which it did, in microseconds
 */
typedef struct
{
  HsCli *cli;
  char *text;
  gsize length;
  const char *objective;
  guint32 seed;
  double limit_seconds;
  gint64 began;
} HsSolveJob;

/** hs_solve_job_gives_up: an #HsPlanGiveUp over a #HsSolveJob. */
gboolean hs_solve_job_gives_up (gpointer job);

/** hs_solve_job_seconds: since the search began. */
double hs_solve_job_seconds (const HsSolveJob *job);

/** hs_solve_status: "optimal", "best_found" or "impossible". */
const char *hs_solve_status (HsPlanStatus status);

/** hs_solve_status_words: the same for people; "impossible" is told of promises. */
const char *hs_solve_status_words (HsPlanStatus status);

/* Each solves the text and prints the answer. */
gboolean hs_solve_out_day (HsSolveJob *job, GError **error);
gboolean hs_solve_out_solomon (HsSolveJob *job, GError **error);
gboolean hs_solve_out_tsplib (HsSolveJob *job, GError **error);
gboolean hs_solve_out_tsptw (HsSolveJob *job, GError **error);

/* The objectives of a format, the usual one first. */
extern const char *const hs_solve_solomon_objectives[];
extern const char *const hs_solve_tsptw_objectives[];

G_END_DECLS
