// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A day to be planned, as plain data, and the check that its numbers make a day. It refuses what cannot be meant
 * (tables of the wrong size, spans that end before they start, unknown indexes); it does not refuse a day that cannot
 * be kept, which is the planner's to explain. */

#include "hs-day.h"

#include "hs-plan-error.h"

#include <string.h>

#define MAX_SECONDS HS_DAY_NO_HOME_BY
#define MAX_MILLIMILES G_GINT64_CONSTANT (1000000000)
#define MAX_RATE_CENTS G_GINT64_CONSTANT (10000000)

static void
day_stop_free (gpointer data)
{
  HsDayStop *stop = data;

  g_free (stop->id);
  g_free (stop->shut_on);
  g_array_unref (stop->spans);
  g_free (stop);
}

static HsDayStop *
day_stop_copy (const HsDayStop *stop)
{
  HsDayStop *copy = g_memdup2 (stop, sizeof *stop);

  copy->id = g_strdup (stop->id);
  copy->shut_on = g_strdup (stop->shut_on);
  copy->spans = g_array_copy (stop->spans);
  return copy;
}

HsDay *
hs_day_new (guint n_places)
{
  HsDay *day = g_new0 (HsDay, 1);

  day->n_places = n_places;
  day->drive_seconds = g_array_new (FALSE, TRUE, sizeof (gint32));
  day->drive_millimiles = g_array_new (FALSE, TRUE, sizeof (gint64));
  g_array_set_size (day->drive_seconds, n_places * n_places);
  g_array_set_size (day->drive_millimiles, n_places * n_places);
  day->leave_to_seconds = 24 * 3600;
  day->home_by_seconds = 24 * 3600;
  day->stops = g_ptr_array_new_with_free_func (day_stop_free);
  return day;
}

HsDay *
hs_day_copy (const HsDay *day)
{
  HsDay *copy = g_memdup2 (day, sizeof *day);

  copy->drive_seconds = g_array_copy (day->drive_seconds);
  copy->drive_millimiles = g_array_copy (day->drive_millimiles);
  copy->stops = g_ptr_array_new_with_free_func (day_stop_free);
  for (guint i = 0; i < day->stops->len; i++)
    g_ptr_array_add (copy->stops, day_stop_copy (hs_day_get_stop (day, i)));
  return copy;
}

void
hs_day_free (HsDay *day)
{
  if (day == NULL)
    return;
  g_array_unref (day->drive_seconds);
  g_array_unref (day->drive_millimiles);
  g_ptr_array_unref (day->stops);
  g_free (day);
}

void
hs_day_set_leg (HsDay *day, guint from, guint to, gint32 seconds, gint64 millimiles)
{
  guint cell = from * day->n_places + to;

  g_return_if_fail (from < day->n_places && to < day->n_places);
  g_array_index (day->drive_seconds, gint32, cell) = seconds;
  g_array_index (day->drive_millimiles, gint64, cell) = millimiles;
}

guint
hs_day_add_stop (HsDay *day, const char *id, HsDayStopKind kind, guint place, gint32 service_seconds)
{
  HsDayStop *stop = g_new0 (HsDayStop, 1);

  stop->id = g_strdup (id);
  stop->kind = kind;
  stop->place = place;
  stop->service_seconds = service_seconds;
  stop->spans = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  g_ptr_array_add (day->stops, stop);
  return day->stops->len - 1;
}

void
hs_day_add_span (HsDay *day, guint stop, gint32 from_seconds, gint32 to_seconds)
{
  HsDaySpan span = { from_seconds, to_seconds };
  HsDayStop *target = g_ptr_array_index (day->stops, stop);

  g_array_append_val (target->spans, span);
}

void
hs_day_shut_stop (HsDay *day, guint stop, const char *day_words)
{
  HsDayStop *target = g_ptr_array_index (day->stops, stop);

  target->shut = TRUE;
  g_free (target->shut_on);
  target->shut_on = g_strdup (day_words);
}

void
hs_day_add_after (HsDay *day, guint stop, guint earlier)
{
  HsDayStop *target = g_ptr_array_index (day->stops, stop);

  g_return_if_fail (earlier < HS_DAY_MAX_STOPS);
  target->after |= G_GUINT64_CONSTANT (1) << earlier;
}

void
hs_day_lock_stop (HsDay *day, guint stop, guint number)
{
  HsDayStop *target = g_ptr_array_index (day->stops, stop);

  target->number = number;
}

const HsDayStop *
hs_day_get_stop (const HsDay *day, guint index)
{
  return g_ptr_array_index (day->stops, index);
}

int
hs_day_find_stop (const HsDay *day, const char *id)
{
  for (guint i = 0; i < day->stops->len; i++)
    if (g_strcmp0 (hs_day_get_stop (day, i)->id, id) == 0)
      return (int) i;
  return HS_DAY_NO_STOP;
}

static gboolean
refuse (GError **error, const char *field, const char *what)
{
  g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "%s: %s", field, what);
  return FALSE;
}

static gboolean
check_number (gint64 value, gint64 max, const char *field, GError **error)
{
  if (value < 0)
    return refuse (error, field, "is below zero");
  if (value > max)
    return refuse (error, field, "is too large");
  return TRUE;
}

static gboolean
check_tables (const HsDay *day, GError **error)
{
  guint cells = day->n_places * day->n_places;

  if (day->n_places == 0 || day->n_places > HS_DAY_MAX_PLACES)
    return refuse (error, "n_places", "must be from 1 to 256");
  if (day->drive_seconds->len != cells)
    return refuse (error, "drive_seconds", "is not a square table of all places");
  if (day->drive_millimiles->len != cells)
    return refuse (error, "drive_millimiles", "is not a square table of all places");
  for (guint cell = 0; cell < cells; cell++)
    {
      guint from = cell / day->n_places;
      guint to = cell % day->n_places;
      g_autofree char *seconds = g_strdup_printf ("drive_seconds[%u][%u]", from, to);
      g_autofree char *miles = g_strdup_printf ("drive_millimiles[%u][%u]", from, to);

      if (!check_number (g_array_index (day->drive_seconds, gint32, cell), MAX_SECONDS, seconds, error)
          || !check_number (g_array_index (day->drive_millimiles, gint64, cell), MAX_MILLIMILES, miles, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_spans (const HsDayStop *stop, const char *path, GError **error)
{
  if (stop->spans->len > HS_DAY_MAX_SPANS)
    {
      g_autofree char *field = g_strdup_printf ("%s.spans", path);

      return refuse (error, field, "has more than 24 spans");
    }
  for (guint i = 0; i < stop->spans->len; i++)
    {
      const HsDaySpan *span = &g_array_index (stop->spans, HsDaySpan, i);
      g_autofree char *field = g_strdup_printf ("%s.spans[%u]", path, i);

      if (span->to_seconds < span->from_seconds)
        return refuse (error, field, "ends before it starts");
      if (span->from_seconds < -MAX_SECONDS || span->to_seconds > MAX_SECONDS)
        return refuse (error, field, "lies outside the day");
    }
  return TRUE;
}

static gboolean
check_after (const HsDay *day, const HsDayStop *stop, const char *path, GError **error)
{
  for (guint bit = 0; bit < HS_DAY_MAX_STOPS; bit++)
    if (((stop->after >> bit) & 1) != 0 && bit >= day->stops->len)
      {
        g_autofree char *field = g_strdup_printf ("%s.after[%u]", path, bit);

        return refuse (error, field, "no such stop");
      }
  return TRUE;
}

static gboolean
check_stop (const HsDay *day, guint index, GError **error)
{
  const HsDayStop *stop = hs_day_get_stop (day, index);
  g_autofree char *path = g_strdup_printf ("stops[%u]", index);
  g_autofree char *id = g_strdup_printf ("%s.id", path);
  g_autofree char *place = g_strdup_printf ("%s.place", path);
  g_autofree char *service = g_strdup_printf ("%s.service_seconds", path);
  g_autofree char *shut = g_strdup_printf ("%s.shut", path);

  if (stop->id == NULL || stop->id[0] == '\0')
    return refuse (error, id, "is missing");
  if (hs_day_find_stop (day, stop->id) != (int) index)
    return refuse (error, id, "stands twice in the day");
  if (stop->place >= day->n_places)
    return refuse (error, place, "no such place");
  if (stop->shut && (stop->kind != HS_DAY_STOP_COUNTER || stop->spans->len > 0))
    return refuse (error, shut, "only a counter without opening hours can be shut");
  return check_number (stop->service_seconds, MAX_SECONDS, service, error) && check_spans (stop, path, error)
         && check_after (day, stop, path, error);
}

static gboolean
check_break (const HsDay *day, GError **error)
{
  const HsDaySpan *span = &day->break_span;

  if (day->break_seconds == 0)
    return TRUE;
  if (!check_number (day->break_seconds, MAX_SECONDS, "break_seconds", error))
    return FALSE;
  if (span->to_seconds < span->from_seconds)
    return refuse (error, "break_span", "ends before it starts");
  if (span->from_seconds < -MAX_SECONDS || span->to_seconds > MAX_SECONDS)
    return refuse (error, "break_span", "lies outside the day");
  if (span->to_seconds - span->from_seconds < day->break_seconds)
    return refuse (error, "break_span", "is shorter than the break");
  return TRUE;
}

static gboolean
check_frame_of_day (const HsDay *day, GError **error)
{
  if (day->start_place >= day->n_places)
    return refuse (error, "start_place", "no such place");
  if (day->end_place >= day->n_places)
    return refuse (error, "end_place", "no such place");
  if (day->leave_to_seconds < day->leave_from_seconds)
    return refuse (error, "leave_to_seconds", "is before leave_from_seconds");
  return check_number (day->leave_from_seconds, MAX_SECONDS, "leave_from_seconds", error)
         && check_number (day->leave_to_seconds, MAX_SECONDS, "leave_to_seconds", error)
         && check_number (day->home_by_seconds, MAX_SECONDS, "home_by_seconds", error)
         && check_number (day->minute_cents, MAX_RATE_CENTS, "minute_cents", error)
         && check_number (day->mile_cents, MAX_RATE_CENTS, "mile_cents", error)
         && check_number (day->spare_seconds, MAX_SECONDS, "spare_seconds", error) && check_break (day, error);
}

gboolean
hs_day_check (const HsDay *day, GError **error)
{
  if (!check_tables (day, error) || !check_frame_of_day (day, error))
    return FALSE;
  if (day->stops->len > HS_DAY_MAX_STOPS)
    return refuse (error, "stops", "more than 64 stops in one day");
  for (guint i = 0; i < day->stops->len; i++)
    if (!check_stop (day, i, error))
      return FALSE;
  return TRUE;
}
