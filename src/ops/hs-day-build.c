// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Turns what the book knows about a day into the plain numbers that the planner takes. Use it wherever a day is timed:
 * planning, timing the plan that stands again, squeezing one more call in. What cannot be planned (no area, no roads,
 * a window on another day) is left out with a reason, so that the rest of the day still gets its order; only a base
 * that is not known is refused outright.
 */

#include "hs-day-build.h"

#include "hs-day-drives.h"
#include "hs-ops-error.h"
#include "hs-plan-error.h"

HsBrokenPromise *
hs_broken_promise_new (const char *id, gint64 late_seconds, const char *why)
{
  HsBrokenPromise *broken = g_new0 (HsBrokenPromise, 1);

  broken->id = g_strdup (id);
  broken->late_seconds = late_seconds;
  broken->why = g_strdup (why);
  return broken;
}

void
hs_broken_promise_free (HsBrokenPromise *broken)
{
  if (broken == NULL)
    return;
  g_free (broken->id);
  g_free (broken->why);
  g_free (broken);
}

static void G_GNUC_PRINTF (4, 5)
add_broken (GPtrArray *list, const char *id, gint64 late_seconds, const char *format, ...)
{
  g_autofree char *why = NULL;
  va_list args;

  va_start (args, format);
  why = g_strdup_vprintf (format, args);
  va_end (args);
  g_ptr_array_add (list, hs_broken_promise_new (id, late_seconds, why));
}

gint32
hs_day_build_seconds (const HsDayFacts *facts, int minutes)
{
  return (gint32) (hs_instant_from_local (facts->zone, facts->day, minutes) - facts->starts_at);
}

int
hs_day_build_place (const HsDayBuild *build, const char *code)
{
  for (guint i = 0; code != NULL && i < build->places->len; i++)
    if (g_str_equal (g_ptr_array_index (build->places, i), code))
      return (int) i;
  return -1;
}

static void
add_place (HsDayBuild *build, const char *area)
{
  if (area != NULL && hs_day_build_place (build, area) < 0)
    g_ptr_array_add (build->places, g_strdup (area));
}

static const char *
ref_id (const HsDayStopRef *ref)
{
  return ref->call != NULL ? ref->call->number : ref->counter->name;
}

const char *
hs_day_ref_place (const HsDayStopRef *ref)
{
  return ref->call != NULL ? hs_day_call_place (ref->call) : ref->counter->area;
}

static const char *
area_name (const HsDayFacts *facts, const char *code)
{
  const HsDayArea *area = hs_day_facts_find_area (facts, code);

  return area != NULL ? area->name : code;
}

static gboolean
window_is_elsewhere (const HsDayFacts *facts, const HsDayCall *call)
{
  return (call->window_to != HS_INSTANT_NONE && call->window_to < facts->starts_at)
         || (call->window_from != HS_INSTANT_NONE && call->window_from >= facts->ends_at);
}

static gboolean
call_can_be_planned (HsDayBuild *build, const HsDayCall *call)
{
  if (call->area == NULL)
    add_broken (build->left_out, call->number, -1, "%s has no area: say where the vehicle stands, then plan again",
                call->number);
  else if (window_is_elsewhere (build->facts, call))
    add_broken (build->left_out, call->number, -1, "The window of %s is not on this day: give it a new one",
                call->number);
  else if (call->window_from != HS_INSTANT_NONE && call->window_to != HS_INSTANT_NONE
           && call->window_to < call->window_from)
    add_broken (build->left_out, call->number, -1, "The window of %s ends before it starts: give it a new one",
                call->number);
  else
    return TRUE;
  return FALSE;
}

static void
choose_stops (HsDayBuild *build)
{
  const HsDayFacts *facts = build->facts;

  for (guint i = 0; i < facts->calls->len; i++)
    {
      HsDayStopRef ref = { g_ptr_array_index (facts->calls, i), NULL };

      if (call_can_be_planned (build, ref.call))
        g_array_append_val (build->refs, ref);
    }
  for (guint i = 0; i < facts->counters->len; i++)
    {
      HsDayStopRef ref = { NULL, g_ptr_array_index (facts->counters, i) };

      if (ref.counter->area != NULL)
        g_array_append_val (build->refs, ref);
      else
        add_broken (build->left_out, ref.counter->name, -1, "%s has no area: say where the counter is, then plan again",
                    ref.counter->name);
    }
  while (build->refs->len > HS_DAY_MAX_STOPS)
    {
      const char *id = ref_id (&g_array_index (build->refs, HsDayStopRef, build->refs->len - 1));

      add_broken (build->left_out, id, -1, "%s is more than the %d stops that a day can have", id, HS_DAY_MAX_STOPS);
      g_array_set_size (build->refs, build->refs->len - 1);
    }
}

/* Roads ------------------------------------------------------------------------------------------------------------ */

static guint
count_missing_roads (HsDayBuild *build, guint place, const char **ret_first)
{
  const char *code = g_ptr_array_index (build->places, place);
  guint missing = 0;

  for (guint i = 0; i < build->places->len; i++)
    {
      const char *other = g_ptr_array_index (build->places, i);

      if (hs_day_drives_known (build->facts, code, other))
        continue;
      if (missing == 0)
        *ret_first = other;
      missing += i == 0 ? build->places->len : 1;
    }
  return missing;
}

static void
leave_place_out (HsDayBuild *build, guint place, const char *other)
{
  const char *code = g_ptr_array_index (build->places, place);

  for (guint i = build->refs->len; i > 0; i--)
    {
      const HsDayStopRef *ref = &g_array_index (build->refs, HsDayStopRef, i - 1);

      if (!g_str_equal (hs_day_ref_place (ref), code))
        continue;
      add_broken (build->left_out, ref_id (ref), -1,
                  "No drive between %s and %s is known: enter its minutes and miles, then plan again",
                  area_name (build->facts, other), area_name (build->facts, code));
      g_array_remove_index (build->refs, i - 1);
    }
  g_ptr_array_remove_index (build->places, place);
}

/* Leaves out the place with most roads missing, until none is; a missing road from the base weighs more than all. */
static void
leave_out_unreachable (HsDayBuild *build)
{
  for (;;)
    {
      guint worst = 0, most = 0;
      const char *worst_other = NULL;

      for (guint i = 1; i < build->places->len; i++)
        {
          const char *other = NULL;
          guint missing = count_missing_roads (build, i, &other);

          if (missing < most || missing == 0)
            continue;
          most = missing;
          worst = i;
          worst_other = other;
        }
      if (most == 0)
        return;
      leave_place_out (build, worst, worst_other);
    }
}

/* The day ---------------------------------------------------------------------------------------------------------- */

static void
add_call_span (HsDayBuild *build, guint stop, const HsDayCall *call)
{
  const HsDayFacts *facts = build->facts;
  HsInstant from = call->window_from != HS_INSTANT_NONE ? MAX (call->window_from, facts->starts_at) : facts->starts_at;
  HsInstant to = call->window_to != HS_INSTANT_NONE ? call->window_to : facts->ends_at;

  if (call->window_from == HS_INSTANT_NONE && call->window_to == HS_INSTANT_NONE)
    return;
  hs_day_add_span (build->day, stop, (gint32) (from - facts->starts_at), (gint32) (to - facts->starts_at));
}

/* Says what the book says of this very day: "2026-03-10: Founders' Day". */
static void
set_shut (HsDayBuild *build, guint stop, const HsDayCounter *counter)
{
  g_autofree char *date = hs_date_format (build->facts->day);
  g_autofree char *day = counter->words != NULL ? g_strdup_printf ("%s: %s", date, counter->words) : g_strdup (date);

  hs_day_shut_stop (build->day, stop, counter->shut ? day : NULL);
}

/* Clock spans become spans of seconds that really pass; one that a clock change swallows is no span at all. */
static void
add_counter_spans (HsDayBuild *build, guint stop, const HsDayCounter *counter)
{
  int weekday = hs_date_weekday (build->facts->day);
  guint added = 0;

  for (guint i = 0; i < counter->spans->len; i++)
    {
      const HsOpenSpan *span = &g_array_index (counter->spans, HsOpenSpan, i);
      gint32 opens = hs_day_build_seconds (build->facts, span->opens_minutes);
      gint32 shuts = hs_day_build_seconds (build->facts, span->shuts_minutes);

      if (span->weekday != weekday || shuts <= opens)
        continue;
      hs_day_add_span (build->day, stop, opens, shuts);
      added++;
    }
  if (added == 0 && (counter->shut || counter->spans->len > 0))
    set_shut (build, stop, counter);
}

static void
add_stops (HsDayBuild *build)
{
  for (guint i = 0; i < build->refs->len; i++)
    {
      const HsDayStopRef *ref = &g_array_index (build->refs, HsDayStopRef, i);
      guint place = (guint) hs_day_build_place (build, hs_day_ref_place (ref));

      if (ref->call != NULL)
        add_call_span (build,
                       hs_day_add_stop (build->day, ref->call->number, HS_DAY_STOP_CALL, place,
                                        (gint32) ref->call->service_seconds),
                       ref->call);
      else
        add_counter_spans (build,
                           hs_day_add_stop (build->day, ref->counter->name, HS_DAY_STOP_COUNTER, place,
                                            (gint32) ref->counter->stop_seconds),
                           ref->counter);
    }
}

static int
stop_of_call (const HsDayBuild *build, const HsDayCall *call)
{
  for (guint i = 0; i < build->refs->len; i++)
    if (g_array_index (build->refs, HsDayStopRef, i).call == call)
      return (int) i;
  return -1;
}

static int
stop_of_counter (const HsDayBuild *build, const char *supplier_id)
{
  for (guint i = 0; i < build->refs->len; i++)
    {
      const HsDayCounter *counter = g_array_index (build->refs, HsDayStopRef, i).counter;

      if (counter != NULL && g_str_equal (counter->supplier_id, supplier_id))
        return (int) i;
    }
  return -1;
}

static void
join_need (HsDayBuild *build, const HsDayNeed *need)
{
  const HsDayCall *call = g_ptr_array_index (build->facts->calls, need->call);
  int stop = stop_of_call (build, call);
  int counter;

  if (stop < 0 || need->source == HS_DAY_SOURCE_VAN)
    return;
  if (need->source == HS_DAY_SOURCE_NOWHERE)
    {
      add_broken (build->nowhere, call->number, 0, "No counter lists %s (%s), and the van has none", need->part,
                  need->number);
      return;
    }
  counter = stop_of_counter (build, need->supplier_id);
  if (counter >= 0)
    hs_day_add_after (build->day, (guint) stop, (guint) counter);
  else
    add_broken (build->nowhere, call->number, 0, "%s (%s) comes from %s, which cannot be planned", need->part,
                need->number, hs_day_facts_find_counter (build->facts, need->supplier_id)->name);
}

static void
keep_stop (HsDay *day, const HsDayStop *source, const GArray *stops, guint done)
{
  guint index = hs_day_add_stop (day, source->id, source->kind, source->place, source->service_seconds);
  HsDayStop *stop = g_ptr_array_index (day->stops, index);

  if (source->shut)
    hs_day_shut_stop (day, index, source->shut_on);
  stop->number = source->number > done ? source->number - done : 0;
  if (source->spans->len > 0)
    g_array_append_vals (stop->spans, source->spans->data, source->spans->len);
  for (guint i = 0; i < stops->len; i++)
    if ((source->after >> g_array_index (stops, guint, i) & 1) != 0)
      hs_day_add_after (day, index, i);
}

void
hs_day_build_keep (HsDayBuild *build, const GArray *stops, guint done)
{
  g_autoptr (HsDay) whole = g_steal_pointer (&build->day);
  g_autoptr (GArray) refs = g_steal_pointer (&build->refs);

  build->day = hs_day_copy (whole);
  g_ptr_array_set_size (build->day->stops, 0);
  build->refs = g_array_new (FALSE, FALSE, sizeof (HsDayStopRef));
  for (guint i = 0; i < stops->len; i++)
    {
      guint stop = g_array_index (stops, guint, i);

      keep_stop (build->day, hs_day_get_stop (whole, stop), stops, done);
      g_array_append_val (build->refs, g_array_index (refs, HsDayStopRef, stop));
    }
}

static void
set_rules (HsDayBuild *build)
{
  const HsDayRules *rules = &build->facts->rules;
  HsDay *day = build->day;

  day->leave_from_seconds = hs_day_build_seconds (build->facts, rules->leave_from);
  day->leave_to_seconds = hs_day_build_seconds (build->facts, rules->leave_to);
  day->home_by_seconds = rules->home_by < HS_MINUTES_PER_DAY ? hs_day_build_seconds (build->facts, rules->home_by)
                                                             : HS_DAY_NO_HOME_BY;
  day->break_seconds = 60 * (gint32) rules->break_minutes;
  day->break_span.from_seconds = hs_day_build_seconds (build->facts, rules->break_from);
  day->break_span.to_seconds = MAX (hs_day_build_seconds (build->facts, rules->break_to),
                                    day->break_span.from_seconds + day->break_seconds);
  day->minute_cents = rules->minute_cents;
  day->mile_cents = rules->mile_cents;
  day->spare_seconds = (gint32) rules->spare_seconds;
  day->start_place = 0;
  day->end_place = 0;
}

/* On a day when the clocks change: the first instant with the new ones. */
static HsInstant
find_change (const HsDayFacts *facts)
{
  int before = hs_instant_offset (facts->zone, facts->starts_at);
  HsInstant low = facts->starts_at;
  HsInstant high = facts->ends_at;

  while (high - low > 1)
    {
      HsInstant middle = low + (high - low) / 2;

      if (hs_instant_offset (facts->zone, middle) == before)
        low = middle;
      else
        high = middle;
    }
  return high;
}

static void
set_change (HsDayBuild *build)
{
  const HsDayFacts *facts = build->facts;
  int by = hs_instant_offset (facts->zone, facts->ends_at) - hs_instant_offset (facts->zone, facts->starts_at);

  if (by == 0)
    return;
  build->day->change_by_seconds = by;
  build->day->change_seconds = (gint32) (find_change (facts) - facts->starts_at);
}

static gboolean
check_base (const HsDayFacts *facts, GError **error)
{
  const char *base = facts->rules.base_area;

  if (base == NULL || *base == '\0')
    g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                         "The book does not say where the van starts: give its area in Set Up This Book (base_area)");
  else if (hs_day_facts_find_area (facts, base) == NULL)
    g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                 "base_area is “%s”, but the book has no area of that code: import the areas or set base_area", base);
  else
    return TRUE;
  return FALSE;
}

static gboolean
check_extra (const HsDayBuild *build, const char *area, GError **error)
{
  if (area == NULL)
    return TRUE;
  if (hs_day_facts_find_area (build->facts, area) == NULL)
    g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND, "The book has no area “%s”", area);
  else if (hs_day_build_place (build, area) < 0)
    g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                 "No drive to %s is known from every stop of the day: enter its minutes and miles first",
                 area_name (build->facts, area));
  else
    return TRUE;
  return FALSE;
}

static HsDayBuild *
build_new (const HsDayFacts *facts)
{
  HsDayBuild *build = g_new0 (HsDayBuild, 1);

  build->facts = facts;
  build->refs = g_array_new (FALSE, TRUE, sizeof (HsDayStopRef));
  build->places = g_ptr_array_new_with_free_func (g_free);
  build->left_out = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_broken_promise_free);
  build->nowhere = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_broken_promise_free);
  return build;
}

HsDayBuild *
hs_day_build (const HsDayFacts *facts, const char *extra_area, GError **error)
{
  g_autoptr (HsDayBuild) build = build_new (facts);

  if (!check_base (facts, error))
    return NULL;
  choose_stops (build);
  add_place (build, facts->rules.base_area);
  for (guint i = 0; i < build->refs->len; i++)
    add_place (build, hs_day_ref_place (&g_array_index (build->refs, HsDayStopRef, i)));
  if (extra_area != NULL && hs_day_facts_find_area (facts, extra_area) != NULL)
    add_place (build, extra_area);
  leave_out_unreachable (build);
  if (!check_extra (build, extra_area, error) || !hs_day_drives_fill (build, error))
    return NULL;
  build->day = hs_day_new (build->places->len);
  hs_travel_apply (build->travel, build->day);
  set_rules (build);
  set_change (build);
  add_stops (build);
  for (guint i = 0; i < facts->needs->len; i++)
    join_need (build, g_ptr_array_index (facts->needs, i));
  return g_steal_pointer (&build);
}

HsDayBuild *
hs_day_build_view (const HsDayBuild *build, HsDay *day)
{
  HsDayBuild *view = g_new0 (HsDayBuild, 1);

  view->facts = build->facts;
  view->day = day;
  view->refs = g_array_ref (build->refs);
  view->places = g_ptr_array_ref (build->places);
  view->travel = hs_travel_copy (build->travel);
  view->begun = hs_travel_copy (build->begun);
  for (guint band = 0; band < HS_TRAVEL_N_BANDS; band++)
    view->hours[band] = hs_travel_copy (build->hours[band]);
  view->left_out = g_ptr_array_ref (build->left_out);
  view->nowhere = g_ptr_array_ref (build->nowhere);
  return view;
}

void
hs_day_build_free (HsDayBuild *build)
{
  if (build == NULL)
    return;
  hs_day_free (build->day);
  g_array_unref (build->refs);
  g_ptr_array_unref (build->places);
  hs_travel_free (build->travel);
  hs_travel_free (build->begun);
  for (guint band = 0; band < HS_TRAVEL_N_BANDS; band++)
    hs_travel_free (build->hours[band]);
  g_ptr_array_unref (build->left_out);
  g_ptr_array_unref (build->nowhere);
  g_free (build);
}
