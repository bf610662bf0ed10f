// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Reasons. For each promise that cannot be kept, smaller days are planned: it alone with what must come before it; then
 * it and one other; then both again with the break; then all, less each stop without which they still collide. The
 * first of these that fails is the reason; if none does, the day as a whole is too full. */

#include "hs-plan-why.h"

#include "hs-plan-tune.h"
#include "hs-plan-words.h"

#include <string.h>

/* Small days that are searched for one reason; each takes some ten microseconds. */
#define MAX_TRIES 4000

char *
hs_why_clock (const HsDay *day, gint64 seconds)
{
  return hs_words_clock (seconds + (seconds >= day->change_seconds ? day->change_by_seconds : 0));
}

void
hs_why_free (gpointer data)
{
  HsPlanBroken *broken = data;

  g_free (broken->why);
  g_free (broken);
}

void
hs_why_add (GPtrArray *broken, int stop, gint64 late_seconds, char *why)
{
  HsPlanBroken *entry = g_new0 (HsPlanBroken, 1);

  entry->stop = stop;
  entry->late_seconds = (gint32) late_seconds;
  entry->why = why;
  g_ptr_array_add (broken, entry);
}

static char *
why_shut (const HsDayStop *stop)
{
  g_autofree char *length = hs_words_length (stop->service_seconds);

  if (stop->shut)
    return g_strdup_printf ("%s does not open on %s", stop->id, stop->shut_on != NULL ? stop->shut_on : "this day");
  return g_strdup_printf ("%s is never open for the %s that the stop takes", stop->id, length);
}

guint64
hs_why_add_shut (const HsDay *day, guint64 among, GPtrArray *broken)
{
  guint64 shut = 0;

  for (guint i = 0; i < day->stops->len; i++)
    if (!hs_frame_is_open (hs_day_get_stop (day, i)))
      shut |= HS_FRAME_BIT (i) & among;
  for (guint i = 0; shut != 0 && i < day->stops->len; i++)
    {
      const HsDayStop *stop = hs_day_get_stop (day, i);
      guint64 lost = stop->after & shut;

      if ((shut & HS_FRAME_BIT (i)) != 0)
        {
          hs_why_add (broken, (int) i, 0, why_shut (stop));
        }
      else if ((among & HS_FRAME_BIT (i)) != 0 && lost != 0)
        {
          g_autofree char *reason = why_shut (hs_day_get_stop (day, (guint) __builtin_ctzll (lost)));

          hs_why_add (broken, (int) i, 0, g_strdup_printf ("its parts cannot be had first: %s", reason));
        }
    }
  return shut;
}

static void
add_rings (const HsDay *day, GPtrArray *broken)
{
  guint64 before[HS_DAY_MAX_STOPS];

  hs_frame_before (day, before);
  for (guint i = 0; i < day->stops->len; i++)
    {
      const char *other = NULL;

      if ((before[i] & HS_FRAME_BIT (i)) == 0)
        continue;
      for (guint j = 0; j < day->stops->len && other == NULL; j++)
        if (j != i && (before[i] & HS_FRAME_BIT (j)) != 0 && (before[j] & HS_FRAME_BIT (i)) != 0)
          other = hs_day_get_stop (day, j)->id;
      hs_why_add (broken, (int) i, 0,
                  other == NULL ? g_strdup ("it is set to come before itself")
                                : g_strdup_printf ("it and %s are each set to come before the other", other));
    }
}

guint64
hs_why_in_play (const HsDay *day, GPtrArray *broken)
{
  guint64 all = day->stops->len == HS_DAY_MAX_STOPS ? ~G_GUINT64_CONSTANT (0) : HS_FRAME_BIT (day->stops->len) - 1;
  guint64 shut = hs_why_add_shut (day, all, broken);

  add_rings (day, broken);
  return all & ~shut;
}

/* How late the stops of @judged are at the least when only @in_play are stopped at and going home does not matter.
 * Returns FALSE if that could not be made sure of. */
static gboolean
least_lateness (HsSearch *search, const HsDay *day, guint64 in_play, guint64 judged, gboolean with_break,
                HsFinish *ret_finish)
{
  g_autoptr (HsFrame) frame = hs_frame_new (day, in_play);
  g_autoptr (HsBound) bound = NULL;
  HsTerms terms = HS_TERMS_OPEN (day->leave_from_seconds, day->leave_from_seconds);
  HsFinish best = HS_FINISH_WORST;
  guint order[HS_DAY_MAX_STOPS];

  if (frame->n > HS_PLAN_EXACT_STOPS)
    return FALSE;
  bound = hs_bound_new (frame);
  terms.flat = TRUE;
  frame->home_by = HS_FRAME_FAR;
  if (!with_break)
    hs_frame_drop_break (frame);
  for (guint i = 0; i < frame->n; i++)
    frame->stops[i].forgiving = (judged & HS_FRAME_BIT (frame->stops[i].day_stop)) == 0;
  if (!hs_search_run (search, frame, bound, &terms, &best, order) || search->cut)
    return FALSE;
  *ret_finish = best;
  return TRUE;
}

static gint64
last_end (const HsDayStop *stop)
{
  gint32 end = G_MININT32;

  for (guint i = 0; i < stop->spans->len; i++)
    end = MAX (end, g_array_index (stop->spans, HsDaySpan, i).to_seconds);
  return end;
}

static gint64
first_opening (const HsDayStop *stop)
{
  gint32 from = G_MAXINT32;

  for (guint i = 0; i < stop->spans->len; i++)
    from = MIN (from, g_array_index (stop->spans, HsDaySpan, i).from_seconds);
  return from;
}

/* "after Larch & Weir (opens 08:00) " for a call that is too late even alone, or "even as the first stop ". */
static char *
what_comes_first (const HsDay *day, guint64 before)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint64 left = before; left != 0; left &= left - 1)
    {
      const HsDayStop *stop = hs_day_get_stop (day, (guint) __builtin_ctzll (left));

      g_string_append_printf (text, "%s%s", text->len == 0 ? "even straight after " : " and ", stop->id);
      if (stop->spans->len > 0 && first_opening (stop) >= 0)
        {
          g_autofree char *opens = hs_why_clock (day, first_opening (stop));

          g_string_append_printf (text, " (%s %s)", stop->kind == HS_DAY_STOP_COUNTER ? "opens at" : "not before",
                                  opens);
        }
    }
  return text->len == 0 ? g_strdup ("even as the first stop") : g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
why_alone (const HsDay *day, guint64 before, const HsDayStop *stop, gint64 late)
{
  gint64 inside = stop->kind == HS_DAY_STOP_COUNTER ? stop->service_seconds : 0;
  g_autofree char *first = what_comes_first (day, before);
  g_autofree char *start = hs_why_clock (day, last_end (stop) - inside + late);
  g_autofree char *end = hs_why_clock (day, last_end (stop));

  if (stop->kind == HS_DAY_STOP_COUNTER)
    {
      g_autofree char *takes = hs_words_length (stop->service_seconds);

      return g_strdup_printf ("%s it is %s before the stop can start; it takes %s and the counter shuts at %s", first,
                              start, takes, end);
    }
  return g_strdup_printf ("%s it is %s before work can start; the promise ends %s", first, start, end);
}

/* The first other stop, by id, that cannot be in time together with @stop; HS_DAY_NO_STOP if there is none. */
static int
find_rival (HsSearch *search, const HsDay *day, guint64 in_play, const guint64 *before, guint stop,
            gboolean with_break)
{
  int rival = HS_DAY_NO_STOP;

  for (guint j = 0; j < day->stops->len; j++)
    {
      guint64 pair = HS_FRAME_BIT (stop) | HS_FRAME_BIT (j);
      guint64 small = in_play & (pair | before[stop] | before[j]);
      HsFinish both;
      HsFinish other;

      if (j == stop || (in_play & HS_FRAME_BIT (j)) == 0)
        continue;
      if (rival != HS_DAY_NO_STOP
          && strcmp (hs_day_get_stop (day, j)->id, hs_day_get_stop (day, (guint) rival)->id) > 0)
        continue;
      if (!least_lateness (search, day, small, pair, with_break, &both) || both.broken == 0)
        continue;
      if (least_lateness (search, day, in_play & (HS_FRAME_BIT (j) | before[j]), HS_FRAME_BIT (j), with_break,
                          &other)
          && other.broken == 0)
        rival = (int) j;
    }
  return rival;
}

/* What of @set and before it is stopped at. */
static guint64
with_before (guint64 in_play, const guint64 *before, guint64 set)
{
  guint64 all = set;

  for (guint64 left = set; left != 0; left &= left - 1)
    all |= before[__builtin_ctzll (left)];
  return all & in_play;
}

/* Whether it is sure that not all of @set can be in time. */
static gboolean
collide (HsSearch *search, const HsDay *day, guint64 in_play, const guint64 *before, guint64 set, gboolean with_break)
{
  HsFinish best;

  return least_lateness (search, day, with_before (in_play, before, set), set, with_break, &best) && best.broken > 0;
}

static gint64
end_or_never (const HsDayStop *stop)
{
  return stop->spans->len > 0 ? last_end (stop) : G_MAXINT64;
}

/* All of @in_play that can be searched at once: what may be latest goes first. */
static guint64
what_can_be_searched (const HsDay *day, guint64 in_play, const guint64 *before, guint stop)
{
  guint64 set = in_play;

  while (__builtin_popcountll (with_before (in_play, before, set)) > HS_PLAN_EXACT_STOPS)
    {
      guint latest = stop;

      for (guint64 left = set & ~HS_FRAME_BIT (stop); left != 0; left &= left - 1)
        if (latest == stop
            || end_or_never (hs_day_get_stop (day, (guint) __builtin_ctzll (left)))
                 > end_or_never (hs_day_get_stop (day, latest)))
          latest = (guint) __builtin_ctzll (left);
      if (latest == stop)
        break;
      set &= ~HS_FRAME_BIT (latest);
    }
  return set;
}

/* Stops that can't all be in time, none of which can be spared; 0 if none are known. */
static guint64
find_colliding (HsSearch *search, const HsDay *day, guint64 in_play, const guint64 *before, guint stop,
                gboolean with_break)
{
  guint64 set = what_can_be_searched (day, in_play, before, stop);

  /* One that is late even alone explains nothing. */
  for (guint j = 0; j < day->stops->len; j++)
    if (j != stop && (set & HS_FRAME_BIT (j)) != 0
        && collide (search, day, in_play, before, HS_FRAME_BIT (j), with_break))
      set &= ~HS_FRAME_BIT (j);
  if (!collide (search, day, in_play, before, set, with_break))
    return 0;
  for (guint j = 0; j < day->stops->len; j++)
    if (j != stop && (set & HS_FRAME_BIT (j)) != 0
        && collide (search, day, in_play, before, set & ~HS_FRAME_BIT (j), with_break))
      set &= ~HS_FRAME_BIT (j);
  if (collide (search, day, in_play, before, set & ~HS_FRAME_BIT (stop), with_break))
    set &= ~HS_FRAME_BIT (stop);
  return set;
}

/* A search for few stops that can't all be in time. @others: what may stand beside @stop, by id */
typedef struct
{
  HsSearch *search;
  const HsDay *day;
  guint64 in_play;
  const guint64 *before;
  guint stop;
  guint n_others;
  guint others[HS_DAY_MAX_STOPS];
  guint tries;
} Conflict;

static void
fill_others (Conflict *conflict)
{
  for (guint j = 0; j < conflict->day->stops->len; j++)
    {
      guint at = conflict->n_others;

      if (j == conflict->stop || (conflict->in_play & HS_FRAME_BIT (j)) == 0
          || collide (conflict->search, conflict->day, conflict->in_play, conflict->before, HS_FRAME_BIT (j), FALSE))
        continue;
      for (; at > 0
             && strcmp (hs_day_get_stop (conflict->day, j)->id,
                        hs_day_get_stop (conflict->day, conflict->others[at - 1])->id) < 0;
           at--)
        conflict->others[at] = conflict->others[at - 1];
      conflict->others[at] = j;
      conflict->n_others++;
    }
}

/* The first @more others from place @from on, by id, that can't all be in time together with @set; 0 if none can be
 * found. */
static guint64
find_beside (Conflict *conflict, guint from, guint more, guint64 set, gboolean with_break)
{
  if (more == 0)
    return ++conflict->tries <= MAX_TRIES
               && collide (conflict->search, conflict->day, conflict->in_play, conflict->before, set, with_break)
             ? set
             : 0;
  for (guint k = from; k + more <= conflict->n_others && conflict->tries <= MAX_TRIES && !conflict->search->cut; k++)
    {
      guint64 found = find_beside (conflict, k + 1, more - 1, set | HS_FRAME_BIT (conflict->others[k]), with_break);

      if (found != 0)
        return found;
    }
  return 0;
}

/* As few as can be that can't all be in time, the break being one of them where it is in the way; that it takes three
 * is known. 0 if none are known. What is kept without @stop is on time, so that every such set has @stop in it. */
static guint64
smallest_colliding (HsSearch *search, const HsDay *day, guint64 in_play, const guint64 *before, guint stop,
                    gboolean *ret_with_break)
{
  Conflict conflict = { search, day, in_play, before, stop, 0, { 0 }, 0 };
  guint64 set = 0;
  guint size;

  *ret_with_break = FALSE;
  for (guint k = 0; k < (day->break_seconds > 0 ? 2 : 1) && set == 0; k++)
    {
      *ret_with_break = k > 0;
      set = find_colliding (search, day, in_play, before, stop, *ret_with_break);
    }
  if (set == 0)
    return 0;
  size = (guint) __builtin_popcountll (set) + (*ret_with_break ? 1 : 0);
  fill_others (&conflict);
  for (guint less = 3; less < size; less++)
    for (guint k = 0; k < (day->break_seconds > 0 ? 2 : 1); k++)
      {
        guint64 found = find_beside (&conflict, 0, less - 1 - k, HS_FRAME_BIT (stop), k > 0);

        if (found == 0)
          continue;
        *ret_with_break = k > 0;
        return found;
      }
  return set;
}

/* "A-3, A-1 and A-2 can't all be met": @stop comes first. */
static char *
say_colliding (const HsDay *day, guint64 set, guint stop, gboolean with_break)
{
  g_autoptr (GPtrArray) ids = g_ptr_array_new ();
  g_autoptr (GString) text = g_string_new (NULL);

  if ((set & HS_FRAME_BIT (stop)) != 0)
    g_ptr_array_add (ids, hs_day_get_stop (day, stop)->id);
  for (guint64 left = set & ~HS_FRAME_BIT (stop); left != 0; left &= left - 1)
    g_ptr_array_add (ids, hs_day_get_stop (day, (guint) __builtin_ctzll (left))->id);
  if (with_break)
    g_ptr_array_add (ids, (char *) "the break");
  for (guint i = 0; i < ids->len; i++)
    g_string_append_printf (text, "%s%s", i == 0 ? "" : i + 1 < ids->len ? ", " : " and ",
                            (const char *) g_ptr_array_index (ids, i));
  g_string_append (text, " can't all be met");
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
hs_why_late (HsSearch *search, const HsDay *day, guint64 in_play, guint stop)
{
  guint64 before[HS_DAY_MAX_STOPS];
  const HsDayStop *it = hs_day_get_stop (day, stop);
  guint64 needs;
  guint64 set;
  gboolean with_break;
  HsFinish alone;
  int rival;

  hs_frame_before (day, before);
  needs = before[stop] & in_play & ~HS_FRAME_BIT (stop);
  if (least_lateness (search, day, needs | HS_FRAME_BIT (stop), HS_FRAME_BIT (stop), FALSE, &alone) && alone.broken > 0)
    return why_alone (day, needs, it, alone.late);
  rival = find_rival (search, day, in_play, before, stop, FALSE);
  if (rival != HS_DAY_NO_STOP)
    return g_strdup_printf ("%s and %s can't both be met", it->id, hs_day_get_stop (day, (guint) rival)->id);
  if (day->break_seconds > 0
      && least_lateness (search, day, needs | HS_FRAME_BIT (stop), HS_FRAME_BIT (stop), TRUE, &alone)
      && alone.broken > 0)
    return g_strdup_printf ("%s and the break can't both be met", it->id);
  if (day->break_seconds > 0)
    rival = find_rival (search, day, in_play, before, stop, TRUE);
  if (rival != HS_DAY_NO_STOP)
    return g_strdup_printf ("%s, %s and the break can't all be met", it->id,
                            hs_day_get_stop (day, (guint) rival)->id);
  set = smallest_colliding (search, day, in_play, before, stop, &with_break);
  return set != 0 ? say_colliding (day, set, stop, with_break) : g_strdup ("too much for one day before it");
}
