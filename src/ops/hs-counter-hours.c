// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Answers when a counter is open on a day. Use it wherever opening hours of the book are read, so that holidays count
 * everywhere. What is said of one counter for a day goes before what is said of all, and that before the hours of the
 * week. Refuses nothing: a counter of which the book knows no hours is open at any time.
 */

#include "hs-counter-hours.h"

#include "hs-supplier-row.h"

#define MAX_DAYS 62

HsCounterHours *
hs_counter_hours_load (HsStore *store, HsDate day, GError **error)
{
  g_autoptr (HsCounterHours) hours = g_new0 (HsCounterHours, 1);

  hours->day = day;
  if (!hs_hours_row_list_of (store, NULL, &hours->weekly, error)
      || !hs_counter_day_row_list_on (store, day, &hours->apart, error))
    return NULL;
  return g_steal_pointer (&hours);
}

void
hs_counter_hours_free (HsCounterHours *hours)
{
  if (hours == NULL)
    return;
  g_clear_pointer (&hours->weekly, g_ptr_array_unref);
  g_clear_pointer (&hours->apart, g_ptr_array_unref);
  g_free (hours);
}

/* Whose rows of the day hold for a counter: its own where it has any, else those of all. */
static const char *
whose_day (const HsCounterHours *hours, const char *supplier_id)
{
  for (guint i = 0; i < hours->apart->len; i++)
    if (g_strcmp0 (((const HsCounterDayRow *) g_ptr_array_index (hours->apart, i))->supplier_id, supplier_id) == 0)
      return supplier_id;
  return NULL;
}

static gboolean
add_apart (const HsCounterHours *hours, const char *supplier_id, GArray *spans, gboolean *ret_shut, char **ret_words)
{
  const char *whose = whose_day (hours, supplier_id);
  gboolean said = FALSE;

  for (guint i = 0; i < hours->apart->len; i++)
    {
      const HsCounterDayRow *row = g_ptr_array_index (hours->apart, i);
      HsOpenSpan span = { hs_date_weekday (hours->day), (int) row->opens_minutes, (int) row->shuts_minutes };

      if (g_strcmp0 (row->supplier_id, whose) != 0)
        continue;
      said = TRUE;
      if (*ret_words == NULL)
        *ret_words = g_strdup (row->words);
      if (row->opens_minutes == HS_INT_NONE)
        *ret_shut = TRUE;
      else if (!*ret_shut)
        g_array_append_val (spans, span);
    }
  return said;
}

gboolean
hs_counter_hours_fill (const HsCounterHours *hours, const char *supplier_id, GArray *spans, gboolean *ret_shut,
                       char **ret_words)
{
  gboolean said;

  *ret_shut = FALSE;
  *ret_words = NULL;
  said = add_apart (hours, supplier_id, spans, ret_shut, ret_words);
  for (guint i = 0; i < hours->weekly->len; i++)
    {
      const HsHoursRow *row = g_ptr_array_index (hours->weekly, i);
      HsOpenSpan span = { (int) row->weekday, (int) row->opens_minutes, (int) row->shuts_minutes };

      if (g_str_equal (row->supplier_id, supplier_id) && !(said && span.weekday == hs_date_weekday (hours->day)))
        g_array_append_val (spans, span);
    }
  return said;
}

gboolean
hs_counter_hours_is_open (const HsCounterHours *hours, const char *supplier_id)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsOpenSpan));
  g_autofree char *words = NULL;
  gboolean shut;

  hs_counter_hours_fill (hours, supplier_id, spans, &shut, &words);
  if (shut)
    return FALSE;
  for (guint i = 0; i < spans->len; i++)
    if (g_array_index (spans, HsOpenSpan, i).weekday == hs_date_weekday (hours->day))
      return TRUE;
  return spans->len == 0;
}

/* When the counter opens on the day of @hours, as minutes of the day; -1 if it does not. */
static int
first_opening (const HsCounterHours *hours, const char *supplier_id)
{
  g_autoptr (GArray) spans = g_array_new (FALSE, FALSE, sizeof (HsOpenSpan));
  g_autofree char *words = NULL;
  gboolean shut;
  int first = -1;

  hs_counter_hours_fill (hours, supplier_id, spans, &shut, &words);
  for (guint i = 0; !shut && i < spans->len; i++)
    {
      const HsOpenSpan *span = &g_array_index (spans, HsOpenSpan, i);

      if (span->weekday == hs_date_weekday (hours->day) && (first < 0 || span->opens_minutes < first))
        first = span->opens_minutes;
    }
  return first;
}

gboolean
hs_counter_hours_find_next (HsStore *store, const char *supplier_id, HsDate after, HsDate *ret_day, int *ret_minutes,
                            GError **error)
{
  for (HsDate day = after + 1; day <= after + MAX_DAYS; day++)
    {
      g_autoptr (HsCounterHours) hours = hs_counter_hours_load (store, day, error);
      int minutes;

      if (hours == NULL)
        return FALSE;
      minutes = first_opening (hours, supplier_id);
      if (minutes < 0)
        continue;
      *ret_day = day;
      *ret_minutes = minutes;
      return TRUE;
    }
  *ret_day = HS_DATE_NONE;
  *ret_minutes = 0;
  return TRUE;
}
