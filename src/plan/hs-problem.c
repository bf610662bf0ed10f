// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A day of several vans as plain data, and the check that its numbers make one. It refuses what cannot be meant; it
 * does not refuse what cannot be kept, which is the planner's to explain. */

#include "hs-problem.h"

#include "hs-plan-error.h"

#define MAX_SECONDS (10 * 24 * 3600)
#define MAX_MILLIMILES G_GINT64_CONSTANT (100000000)
#define MAX_CENTS G_GINT64_CONSTANT (10000000)

static void
van_free (gpointer data)
{
  HsVan *van = data;

  g_free (van->id);
  g_array_unref (van->carries);
  g_ptr_array_unref (van->skills);
  g_free (van);
}

static void
call_free (gpointer data)
{
  HsCall *call = data;

  g_free (call->id);
  g_array_unref (call->windows);
  g_array_unref (call->needs);
  g_ptr_array_unref (call->skills);
  g_free (call);
}

static void
counter_free (gpointer data)
{
  HsCounter *counter = data;

  g_free (counter->id);
  g_array_unref (counter->hours);
  g_array_unref (counter->cents);
  g_free (counter);
}

HsProblem *
hs_problem_new (guint n_places)
{
  HsProblem *problem = g_new0 (HsProblem, 1);

  problem->n_places = n_places;
  problem->drive_seconds = g_array_new (FALSE, TRUE, sizeof (gint32));
  problem->drive_millimiles = g_array_new (FALSE, TRUE, sizeof (gint64));
  g_array_set_size (problem->drive_seconds, n_places * n_places);
  g_array_set_size (problem->drive_millimiles, n_places * n_places);
  problem->parts = g_ptr_array_new_with_free_func (g_free);
  problem->vans = g_ptr_array_new_with_free_func (van_free);
  problem->calls = g_ptr_array_new_with_free_func (call_free);
  problem->counters = g_ptr_array_new_with_free_func (counter_free);
  return problem;
}

void
hs_problem_free (HsProblem *problem)
{
  if (problem == NULL)
    return;
  g_array_unref (problem->drive_seconds);
  g_array_unref (problem->drive_millimiles);
  g_ptr_array_unref (problem->parts);
  g_ptr_array_unref (problem->vans);
  g_ptr_array_unref (problem->calls);
  g_ptr_array_unref (problem->counters);
  g_free (problem);
}

guint
hs_problem_part (HsProblem *problem, const char *name)
{
  for (guint i = 0; i < problem->parts->len; i++)
    if (g_str_equal (g_ptr_array_index (problem->parts, i), name))
      return i;
  g_ptr_array_add (problem->parts, g_strdup (name));
  return problem->parts->len - 1;
}

HsVan *
hs_problem_add_van (HsProblem *problem, const char *id)
{
  HsVan *van = g_new0 (HsVan, 1);

  van->id = g_strdup (id);
  van->leave_to_seconds = 24 * 3600;
  van->home_by_seconds = 24 * 3600;
  van->carries = g_array_new (FALSE, FALSE, sizeof (guint));
  van->skills = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (problem->vans, van);
  return van;
}

HsCall *
hs_problem_add_call (HsProblem *problem, const char *id, guint place, gint32 service_seconds)
{
  HsCall *call = g_new0 (HsCall, 1);

  call->id = g_strdup (id);
  call->place = place;
  call->service_seconds = service_seconds;
  call->windows = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  call->needs = g_array_new (FALSE, FALSE, sizeof (guint));
  call->skills = g_ptr_array_new_with_free_func (g_free);
  call->van = HS_PROBLEM_ANY_VAN;
  g_ptr_array_add (problem->calls, call);
  return call;
}

HsCounter *
hs_problem_add_counter (HsProblem *problem, const char *id, guint place, gint32 service_seconds)
{
  HsCounter *counter = g_new0 (HsCounter, 1);

  counter->id = g_strdup (id);
  counter->place = place;
  counter->service_seconds = service_seconds;
  counter->hours = g_array_new (FALSE, FALSE, sizeof (HsDaySpan));
  counter->cents = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_ptr_array_add (problem->counters, counter);
  return counter;
}

void
hs_counter_sell (HsCounter *counter, guint part, gint64 cents)
{
  const gint64 not_sold = HS_PROBLEM_NOT_SOLD;

  while (counter->cents->len <= part)
    g_array_append_val (counter->cents, not_sold);
  g_array_index (counter->cents, gint64, part) = cents;
}

gint64
hs_counter_cents (const HsCounter *counter, guint part)
{
  return part < counter->cents->len ? g_array_index (counter->cents, gint64, part) : HS_PROBLEM_NOT_SOLD;
}

const HsVan *
hs_problem_get_van (const HsProblem *problem, guint index)
{
  return g_ptr_array_index (problem->vans, index);
}

const HsCall *
hs_problem_get_call (const HsProblem *problem, guint index)
{
  return g_ptr_array_index (problem->calls, index);
}

const HsCounter *
hs_problem_get_counter (const HsProblem *problem, guint index)
{
  return g_ptr_array_index (problem->counters, index);
}

void
hs_problem_set_leg (HsProblem *problem, guint from, guint to, gint32 seconds, gint64 millimiles)
{
  guint cell = from * problem->n_places + to;

  g_return_if_fail (from < problem->n_places && to < problem->n_places);
  g_array_index (problem->drive_seconds, gint32, cell) = seconds;
  g_array_index (problem->drive_millimiles, gint64, cell) = millimiles;
}

gboolean
hs_problem_may_serve (const HsProblem *problem, guint van, guint call)
{
  const HsVan *it = hs_problem_get_van (problem, van);
  const HsCall *work = hs_problem_get_call (problem, call);

  if (work->van != HS_PROBLEM_ANY_VAN && work->van != (int) van)
    return FALSE;
  for (guint i = 0; i < work->skills->len; i++)
    if (!g_ptr_array_find_with_equal_func (it->skills, g_ptr_array_index (work->skills, i), g_str_equal, NULL))
      return FALSE;
  return TRUE;
}

static gboolean refuse (GError **error, const char *what, const char *format, ...) G_GNUC_PRINTF (3, 4);

static gboolean
refuse (GError **error, const char *what, const char *format, ...)
{
  g_autofree char *field = NULL;
  va_list args;

  va_start (args, format);
  field = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "%s: %s", field, what);
  return FALSE;
}

static const char *
wrong_number (gint64 value, gint64 max)
{
  return value < 0 ? "is below zero" : value > max ? "is too large" : NULL;
}

static gboolean
check_tables (const HsProblem *problem, GError **error)
{
  guint n = problem->n_places;

  if (n == 0 || n > HS_DAY_MAX_PLACES)
    return refuse (error, "must be a square table of 1 to 256 places", "travel.minutes");
  if (problem->drive_seconds->len != n * n)
    return refuse (error, "is not a square table of all places", "travel.minutes");
  if (problem->drive_millimiles->len != n * n)
    return refuse (error, "is not a square table of all places", "travel.miles");
  for (guint cell = 0; cell < n * n; cell++)
    {
      const char *seconds = wrong_number (g_array_index (problem->drive_seconds, gint32, cell), MAX_SECONDS);
      const char *miles = wrong_number (g_array_index (problem->drive_millimiles, gint64, cell), MAX_MILLIMILES);

      if (seconds != NULL)
        return refuse (error, seconds, "travel.minutes[%u][%u]", cell / n, cell % n);
      if (miles != NULL)
        return refuse (error, miles, "travel.miles[%u][%u]", cell / n, cell % n);
    }
  return TRUE;
}

static gboolean
is_outside (const HsDaySpan *span)
{
  return span->from_seconds < -MAX_SECONDS || span->to_seconds > MAX_SECONDS;
}

static gboolean
check_spans (const GArray *spans, const char *list, guint index, const char *field, GError **error)
{
  if (spans->len > HS_DAY_MAX_SPANS)
    return refuse (error, "has more than 24 spans", "%s[%u].%s", list, index, field);
  for (guint i = 0; i < spans->len; i++)
    {
      const HsDaySpan *span = &g_array_index (spans, HsDaySpan, i);

      if (span->to_seconds < span->from_seconds)
        return refuse (error, "ends before it starts", "%s[%u].%s[%u]", list, index, field, i);
      if (is_outside (span))
        return refuse (error, "lies outside the day", "%s[%u].%s[%u]", list, index, field, i);
    }
  return TRUE;
}

static gboolean
check_parts (const HsProblem *problem, const GArray *parts, const char *list, guint index, const char *field,
             GError **error)
{
  if (parts->len > HS_PROBLEM_MAX_UNITS)
    return refuse (error, "has more than 64 units", "%s[%u].%s", list, index, field);
  for (guint i = 0; i < parts->len; i++)
    if (g_array_index (parts, guint, i) >= problem->parts->len)
      return refuse (error, "no such part", "%s[%u].%s[%u]", list, index, field, i);
  return TRUE;
}

static gboolean
check_skills (const GPtrArray *skills, const char *list, guint index, GError **error)
{
  return skills->len <= HS_PROBLEM_MAX_UNITS || refuse (error, "has more than 64 skills", "%s[%u].skills", list, index);
}

static gboolean
check_id (const char *id, const char *list, guint index, GHashTable *seen, GError **error)
{
  if (id == NULL || id[0] == '\0')
    return refuse (error, "is missing", "%s[%u].id", list, index);
  if (!g_hash_table_add (seen, (gpointer) id))
    return refuse (error, "stands twice in the day", "%s[%u].id", list, index);
  return TRUE;
}

static gboolean
check_van (const HsProblem *problem, guint index, GHashTable *seen, GError **error)
{
  const HsVan *van = hs_problem_get_van (problem, index);
  const char *wrong;

  if (!check_id (van->id, "vans", index, seen, error))
    return FALSE;
  if (van->start >= problem->n_places)
    return refuse (error, "no such place", "vans[%u].start", index);
  if (van->end >= problem->n_places)
    return refuse (error, "no such place", "vans[%u].end", index);
  if ((wrong = wrong_number (van->leave_from_seconds, MAX_SECONDS)) != NULL)
    return refuse (error, wrong, "vans[%u].from", index);
  if ((wrong = wrong_number (van->home_by_seconds, MAX_SECONDS)) != NULL)
    return refuse (error, wrong, "vans[%u].to", index);
  if (van->leave_to_seconds < van->leave_from_seconds || van->home_by_seconds < van->leave_from_seconds)
    return refuse (error, "is before it may leave", "vans[%u].to", index);
  if ((wrong = wrong_number (van->break_seconds, MAX_SECONDS)) != NULL)
    return refuse (error, wrong, "vans[%u].break.minutes", index);
  if (van->break_span.to_seconds < van->break_span.from_seconds)
    return refuse (error, "ends before it starts", "vans[%u].break.between", index);
  if (is_outside (&van->break_span))
    return refuse (error, "lies outside the day", "vans[%u].break.between", index);
  if (van->break_seconds > 0 && van->break_span.to_seconds - van->break_span.from_seconds < van->break_seconds)
    return refuse (error, "is shorter than the break", "vans[%u].break.between", index);
  return check_parts (problem, van->carries, "vans", index, "carries", error)
         && check_skills (van->skills, "vans", index, error);
}

static gboolean
check_call (const HsProblem *problem, guint index, GHashTable *seen, GError **error)
{
  const HsCall *call = hs_problem_get_call (problem, index);
  const char *wrong = wrong_number (call->service_seconds, MAX_SECONDS);

  if (!check_id (call->id, "calls", index, seen, error))
    return FALSE;
  if (call->place >= problem->n_places)
    return refuse (error, "no such place", "calls[%u].place", index);
  if (wrong != NULL)
    return refuse (error, wrong, "calls[%u].minutes", index);
  if (call->van < HS_PROBLEM_ANY_VAN || call->van >= (int) problem->vans->len)
    return refuse (error, "no such van", "calls[%u].van", index);
  return check_spans (call->windows, "calls", index, "windows", error)
         && check_parts (problem, call->needs, "calls", index, "needs", error)
         && check_skills (call->skills, "calls", index, error);
}

static gboolean
check_counter (const HsProblem *problem, guint index, GHashTable *seen, GError **error)
{
  const HsCounter *counter = hs_problem_get_counter (problem, index);
  const char *wrong = wrong_number (counter->service_seconds, MAX_SECONDS);

  if (!check_id (counter->id, "counters", index, seen, error))
    return FALSE;
  if (counter->place >= problem->n_places)
    return refuse (error, "no such place", "counters[%u].place", index);
  if (wrong != NULL)
    return refuse (error, wrong, "counters[%u].minutes", index);
  for (guint part = 0; part < counter->cents->len; part++)
    {
      gint64 cents = g_array_index (counter->cents, gint64, part);

      if (part >= problem->parts->len)
        return refuse (error, "no such part", "counters[%u].sells", index);
      if (cents != HS_PROBLEM_NOT_SOLD && (wrong = wrong_number (cents, MAX_CENTS)) != NULL)
        return refuse (error, wrong, "counters[%u].sells.%s", index,
                       (const char *) g_ptr_array_index (problem->parts, part));
    }
  return check_spans (counter->hours, "counters", index, "hours", error);
}

static gboolean
check_sizes (const HsProblem *problem, GError **error)
{
  const char *wrong;

  if ((wrong = wrong_number (problem->minute_cents, MAX_CENTS)) != NULL)
    return refuse (error, wrong, "minute_cents");
  if ((wrong = wrong_number (problem->mile_cents, MAX_CENTS)) != NULL)
    return refuse (error, wrong, "mile_cents");
  if ((wrong = wrong_number (problem->spare_seconds, MAX_SECONDS)) != NULL)
    return refuse (error, wrong, "spare_minutes");
  if (problem->vans->len == 0 || problem->vans->len > HS_PROBLEM_MAX_VANS)
    return refuse (error, "must be 1 to 8 vans", "vans");
  if (problem->calls->len > HS_PROBLEM_MAX_CALLS)
    return refuse (error, "more than 200 calls in one day", "calls");
  if (problem->counters->len > HS_PROBLEM_MAX_COUNTERS)
    return refuse (error, "more than 16 counters in one day", "counters");
  if (problem->parts->len > HS_PROBLEM_MAX_PARTS)
    return refuse (error, "more than 1000 parts in one day", "parts");
  return TRUE;
}

gboolean
hs_problem_check (const HsProblem *problem, GError **error)
{
  g_autoptr (GHashTable) vans = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) stops = g_hash_table_new (g_str_hash, g_str_equal);

  if (!check_tables (problem, error) || !check_sizes (problem, error))
    return FALSE;
  for (guint i = 0; i < problem->vans->len; i++)
    if (!check_van (problem, i, vans, error))
      return FALSE;
  for (guint i = 0; i < problem->calls->len; i++)
    if (!check_call (problem, i, stops, error))
      return FALSE;
  for (guint i = 0; i < problem->counters->len; i++)
    if (!check_counter (problem, i, stops, error))
      return FALSE;
  return TRUE;
}
