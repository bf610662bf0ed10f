// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsOpenSpan:
 * @weekday: 1 = Monday … 7 = Sunday
 * @opens_minutes: after midnight
 * @shuts_minutes: after midnight, later than @opens_minutes, at most 1440
 *
 * One span in which a counter is open. A weekday may have several (a lunch closing) or none.
 */
typedef struct
{
  int weekday;
  int opens_minutes;
  int shuts_minutes;
} HsOpenSpan;

/**
 * hs_hours_check:
 *
 * Returns: %FALSE with %HS_CORE_ERROR_BAD_VALUE for a span that shuts before it opens, leaves the day, has no such
 *   weekday or overlaps another one
 */
gboolean hs_hours_check (const HsOpenSpan *spans, gsize n_spans, GError **error);

/**
 * hs_hours_next_start:
 * @spans: (array length=n_spans): in any order; spans that touch count as one
 * @weekday: 1 = Monday … 7 = Sunday
 * @arrive_seconds: of the day
 * @stop_seconds: how long the stop takes
 * @ret_start_seconds: (out): when it can start; untouched on failure
 *
 * A stop starts and ends inside one span: the counter is never left at shutting time with half a list. Ending in the
 * very second of shutting is in time.
 *
 * Returns: %FALSE if no span of that day has room after @arrive_seconds
 */
gboolean hs_hours_next_start (const HsOpenSpan *spans, gsize n_spans, int weekday, gint64 arrive_seconds,
                              gint64 stop_seconds, gint64 *ret_start_seconds);

/**
 * hs_hours_format:
 *
 * Returns: (transfer full): that day's spans in order, `08:00–12:30, 13:15–17:00`, or `shut`
 */
char *hs_hours_format (const HsOpenSpan *spans, gsize n_spans, int weekday);

/**
 * hs_weekday_parse:
 * @text: `mon` … `sun`, letter case ignored
 * @ret_weekday: (out): 1 to 7; untouched on failure
 */
gboolean hs_weekday_parse (const char *text, int *ret_weekday, GError **error);

/* hs_weekday_id: (transfer none): `mon` … `sun`. */
const char *hs_weekday_id (int weekday);

G_END_DECLS
