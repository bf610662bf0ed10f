// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* When a counter is open: for planning a stop that ends before the door shuts. Refuses spans that overlap or leave
 * their day, since every sum on them would be wrong. */

#include "hs-hours.h"

#include "hs-core-error.h"
#include "hs-time.h"

static const char *const weekday_ids[] = { "mon", "tue", "wed", "thu", "fri", "sat", "sun" };

static gboolean
span_check (const HsOpenSpan *span, GError **error)
{
  g_autofree char *opens = NULL;
  g_autofree char *shuts = NULL;

  if (span->weekday < 1 || span->weekday > 7)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%d is not a weekday: 1 is Monday, 7 is Sunday",
                   span->weekday);
      return FALSE;
    }
  if (span->opens_minutes >= 0 && span->opens_minutes < span->shuts_minutes
      && span->shuts_minutes <= HS_MINUTES_PER_DAY)
    return TRUE;
  opens = hs_clock_format (span->opens_minutes);
  shuts = hs_clock_format (span->shuts_minutes);
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
               "opening hours on %s run from %s to %s: they must shut after they open, by 24:00 at the latest",
               hs_weekday_id (span->weekday), opens, shuts);
  return FALSE;
}

static gboolean
overlap (const HsOpenSpan *a, const HsOpenSpan *b)
{
  return a->weekday == b->weekday && a->opens_minutes < b->shuts_minutes && b->opens_minutes < a->shuts_minutes;
}

gboolean
hs_hours_check (const HsOpenSpan *spans, gsize n_spans, GError **error)
{
  for (gsize i = 0; i < n_spans; i++)
    {
      if (!span_check (&spans[i], error))
        return FALSE;
      for (gsize j = 0; j < i; j++)
        if (overlap (&spans[i], &spans[j]))
          {
            g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                         "opening hours on %s overlap: write spans that follow one another",
                         hs_weekday_id (spans[i].weekday));
            return FALSE;
          }
    }
  return TRUE;
}

/* When the door really shuts that is open in @span: spans that touch are one. */
static int
shuts_for_good (const HsOpenSpan *spans, gsize n_spans, const HsOpenSpan *span)
{
  int shuts = span->shuts_minutes;
  gboolean grew = TRUE;

  while (grew)
    {
      grew = FALSE;
      for (gsize i = 0; i < n_spans; i++)
        if (spans[i].weekday == span->weekday && spans[i].opens_minutes <= shuts && spans[i].shuts_minutes > shuts)
          {
            shuts = spans[i].shuts_minutes;
            grew = TRUE;
          }
    }
  return shuts;
}

gboolean
hs_hours_next_start (const HsOpenSpan *spans, gsize n_spans, int weekday, gint64 arrive_seconds, gint64 stop_seconds,
                     gint64 *ret_start_seconds)
{
  gint64 best = G_MAXINT64;

  for (gsize i = 0; i < n_spans; i++)
    {
      gint64 start, shuts;

      if (spans[i].weekday != weekday)
        continue;
      start = MAX (arrive_seconds, (gint64) spans[i].opens_minutes * 60);
      shuts = (gint64) shuts_for_good (spans, n_spans, &spans[i]) * 60;
      if (start + stop_seconds <= shuts)
        best = MIN (best, start);
    }
  if (best == G_MAXINT64)
    return FALSE;
  *ret_start_seconds = best;
  return TRUE;
}

/* The span of that day that opens first after @after minutes; NULL if there is none. */
static const HsOpenSpan *
next_span (const HsOpenSpan *spans, gsize n_spans, int weekday, int after)
{
  const HsOpenSpan *next = NULL;

  for (gsize i = 0; i < n_spans; i++)
    if (spans[i].weekday == weekday && spans[i].opens_minutes > after
        && (next == NULL || spans[i].opens_minutes < next->opens_minutes))
      next = &spans[i];
  return next;
}

char *
hs_hours_format (const HsOpenSpan *spans, gsize n_spans, int weekday)
{
  GString *text = g_string_new (NULL);
  const HsOpenSpan *span = next_span (spans, n_spans, weekday, -1);

  for (; span != NULL; span = next_span (spans, n_spans, weekday, span->opens_minutes))
    {
      g_autofree char *opens = hs_clock_format (span->opens_minutes);
      g_autofree char *shuts = hs_clock_format (span->shuts_minutes);

      g_string_append_printf (text, "%s%s–%s", text->len > 0 ? ", " : "", opens, shuts);
    }
  if (text->len == 0)
    g_string_append (text, "shut");
  return g_string_free (text, FALSE);
}

gboolean
hs_weekday_parse (const char *text, int *ret_weekday, GError **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (weekday_ids); i++)
    if (g_ascii_strcasecmp (text, weekday_ids[i]) == 0)
      {
        *ret_weekday = (int) i + 1;
        return TRUE;
      }
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
               "“%s” is not a weekday: write mon, tue, wed, thu, fri, sat or sun", text);
  return FALSE;
}

const char *
hs_weekday_id (int weekday)
{
  g_return_val_if_fail (weekday >= 1 && weekday <= 7, NULL);
  return weekday_ids[weekday - 1];
}
