// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Reasons. For a call that is late or not served, smaller days are tried: it alone, it with one other, with two, with
 * three; the first that can't be kept is the reason. What would mend it is tried on the day of all calls that are kept
 * and this one. */

#include "hs-solve-why.h"

#include "hs-plan-mend.h"
#include "hs-plan-words.h"
#include "hs-solve-write.h"

#include <string.h>

#define MAX_OTHERS 3
#define MAX_DROPS 8
#define MAX_TRIALS 600
#define MAX_LABELS 200000
#define NARROW 16
#define MAX_MOVE_MINUTES (12 * 60)

/* @like: a frame of the same tables */
typedef struct
{
  HsExact *exact;
  const HsProblem *problem;
  const HsSolveFrame *like;
  guint call;
  guint kept[HS_PROBLEM_MAX_CALLS];
  guint n_kept;
  guint trials;
} Why;

/* How often @part stands in @parts. */
static guint
count_units (const GArray *parts, guint part)
{
  guint n = 0;

  for (guint k = 0; k < parts->len; k++)
    n += g_array_index (parts, guint, k) == part;
  return n;
}

/* Whether @counter is open long enough for a stop at all. */
static gboolean
can_stop (const HsCounter *counter)
{
  for (guint k = 0; k < counter->hours->len; k++)
    {
      const HsDaySpan *span = &g_array_index (counter->hours, HsDaySpan, k);

      if (span->to_seconds - span->from_seconds >= counter->service_seconds)
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_sold (const HsProblem *problem, guint part)
{
  for (guint c = 0; c < problem->counters->len; c++)
    {
      const HsCounter *counter = hs_problem_get_counter (problem, c);

      if (hs_counter_cents (counter, part) != HS_PROBLEM_NOT_SOLD && can_stop (counter))
        return TRUE;
    }
  return FALSE;
}

/* (transfer full): "nobody sells it", or that those who do are shut; @what: "it" or the part in quotes. */
static char *
why_not_sold (const HsProblem *problem, guint part, const char *what)
{
  const HsCounter *seller = NULL;
  guint n = 0;

  for (guint c = 0; c < problem->counters->len; c++)
    if (hs_counter_cents (hs_problem_get_counter (problem, c), part) != HS_PROBLEM_NOT_SOLD)
      {
        seller = hs_problem_get_counter (problem, c);
        n++;
      }
  if (n == 0)
    return g_strdup_printf ("nobody sells %s", what);
  if (n > 1)
    return g_strdup_printf ("nobody who sells %s is open long enough for a stop", what);
  return g_strdup_printf ("%s, which sells %s, is %s", seller->id, what,
                          seller->hours->len == 0 ? "shut all day" : "never open long enough for a stop");
}

/* The first need of @call that @van neither carries enough of nor can buy; -1 if there is none. */
static int
missing_part (const HsProblem *problem, guint van, const HsCall *call)
{
  for (guint k = 0; k < call->needs->len; k++)
    {
      guint part = g_array_index (call->needs, guint, k);

      if (count_units (hs_problem_get_van (problem, van)->carries, part) < count_units (call->needs, part)
          && !is_sold (problem, part))
        return (int) part;
    }
  return -1;
}

static const char *
part_name (const HsProblem *problem, int part)
{
  return g_ptr_array_index (problem->parts, (guint) part);
}

/* Why @van can't serve @call: the skills, or the part that it lacks (-1: the skills). */
static void
add_why_not (GString *text, const HsProblem *problem, guint van, const HsCall *call, int part)
{
  const HsVan *it = hs_problem_get_van (problem, van);
  g_autofree char *not_sold = part >= 0 ? why_not_sold (problem, (guint) part, "it") : NULL;

  g_string_append (text, text->len > 0 ? "; " : "");
  if (part < 0)
    g_string_append_printf (text, "van %s has not the skills that it needs", it->id);
  else if (count_units (it->carries, (guint) part) == 0)
    g_string_append_printf (text, "van %s carries no “%s”, and %s", it->id, part_name (problem, part), not_sold);
  else
    g_string_append_printf (text, "van %s carries %u of the %u “%s” that it needs, and %s", it->id,
                            count_units (it->carries, (guint) part), count_units (call->needs, (guint) part),
                            part_name (problem, part), not_sold);
}

/* Van by van, of those that it is not kept from. */
static char *
why_not_each (const HsProblem *problem, guint index)
{
  const HsCall *call = hs_problem_get_call (problem, index);
  GString *text = g_string_new (NULL);

  for (guint v = 0; v < problem->vans->len; v++)
    if (call->van == HS_PROBLEM_ANY_VAN || call->van == (int) v)
      add_why_not (text, problem, v, call,
                   hs_problem_may_serve (problem, v, index) ? missing_part (problem, v, call) : -1);
  if (call->van != HS_PROBLEM_ANY_VAN)
    g_string_append (text, ", and no other van may go");
  return g_string_free (text, FALSE);
}

/* (transfer full): why no van can serve @index whatever the time; NULL if one can. */
static char *
why_never (const HsProblem *problem, guint index)
{
  const HsCall *call = hs_problem_get_call (problem, index);
  guint n_may = 0;
  guint n_none = 0;
  int missing = -1;

  for (guint v = 0; v < problem->vans->len; v++)
    {
      int part;

      if (!hs_problem_may_serve (problem, v, index))
        continue;
      part = missing_part (problem, v, call);
      if (part < 0)
        return NULL;
      n_may++;
      n_none += (missing < 0 || part == missing)
                && count_units (hs_problem_get_van (problem, v)->carries, (guint) part) == 0;
      missing = part;
    }
  if (n_may > 0 && n_none == n_may)
    {
      g_autofree char *what = g_strdup_printf ("“%s”", part_name (problem, missing));
      g_autofree char *not_sold = why_not_sold (problem, (guint) missing, what);

      return g_strdup_printf ("%s, and no van that may go carries it", not_sold);
    }
  if (n_may == 0 && call->van == HS_PROBLEM_ANY_VAN)
    return g_strdup ("no van has the skills that it needs");
  return why_not_each (problem, index);
}

guint
hs_solve_why_in_play (const HsProblem *problem, GPtrArray *unserved, guint *ret_calls)
{
  guint n = 0;

  for (guint i = 0; i < problem->calls->len; i++)
    {
      char *why = why_never (problem, i);

      if (why == NULL)
        {
          ret_calls[n++] = i;
          continue;
        }
      g_ptr_array_add (unserved, hs_trouble_new (i, 0));
      ((HsTrouble *) g_ptr_array_index (unserved, unserved->len - 1))->why = why;
    }
  return n;
}

typedef enum
{
  KEEPS,
  KEEPS_NOT,
  KEEPS_UNKNOWN,
} Keeps;

static gboolean
may_try (Why *why, guint n_calls)
{
  return n_calls <= HS_EXACT_MAX_CALLS && ++why->trials <= MAX_TRIALS && !hs_exact_gives_up (why->exact);
}

/* Whether all of @calls can be kept in @problem. */
static Keeps
ask_keeps (Why *why, const HsProblem *problem, const guint *calls, guint n_calls)
{
  const HsSolveTerms strict = { TRUE, 0, 0, 0, 0 };
  g_autoptr (HsSolveFrame) frame = NULL;
  g_autofree HsPath *path = NULL;
  HsScore score = HS_SCORE_WORST;

  if (!may_try (why, n_calls))
    return KEEPS_UNKNOWN;
  path = g_new (HsPath, 1);
  frame = hs_solve_frame_new_like (why->like, problem, calls, n_calls);
  why->exact->max_labels = MAX_LABELS;
  if (hs_exact_run (why->exact, frame, NULL, &strict, NARROW, &score, path, NULL)
      || hs_exact_run (why->exact, frame, NULL, &strict, 0, &score, path, NULL))
    return KEEPS;
  return why->exact->full || why->exact->cut ? KEEPS_UNKNOWN : KEEPS_NOT;
}

/* How little of @calls has to be broken; FALSE if that can't be found out in time. */
static gboolean
find_least (Why *why, const guint *calls, guint n_calls, HsScore *ret_least)
{
  const HsSolveTerms open = HS_SOLVE_TERMS_OPEN;
  g_autoptr (HsSolveFrame) frame = NULL;
  g_autofree HsPath *path = NULL;

  *ret_least = (HsScore) HS_SCORE_WORST;
  if (!may_try (why, n_calls))
    return FALSE;
  path = g_new (HsPath, 1);
  frame = hs_solve_frame_new_like (why->like, why->problem, calls, n_calls);
  why->exact->max_labels = MAX_LABELS;
  hs_exact_run (why->exact, frame, NULL, &open, NARROW, ret_least, path, NULL);
  hs_exact_run (why->exact, frame, NULL, &open, 0, ret_least, path, NULL);
  return !why->exact->full && !why->exact->cut;
}

/* Looks for @more other calls from kept place @from on that can't all be kept with what @set holds. */
static gboolean
find_conflict (Why *why, guint from, guint more, guint *set, guint n_set)
{
  if (more == 0)
    return ask_keeps (why, why->problem, set, n_set) == KEEPS_NOT;
  for (guint k = from; k + more <= why->n_kept && why->trials <= MAX_TRIALS && !why->exact->cut; k++)
    {
      set[n_set] = why->kept[k];
      if (find_conflict (why, k + 1, more - 1, set, n_set + 1))
        return TRUE;
    }
  return FALSE;
}

/* Leaves out of @set, which can't be kept, one after the other what is not needed for that. */
static guint
shrink_conflict (Why *why, guint *set, guint n_set)
{
  for (guint k = n_set - 1; k > 0; k--)
    {
      guint kept = set[k];

      memmove (&set[k], &set[k + 1], (n_set - 1 - k) * sizeof (guint));
      if (ask_keeps (why, why->problem, set, n_set - 1) == KEEPS_NOT)
        {
          n_set--;
          continue;
        }
      memmove (&set[k + 1], &set[k], (n_set - 1 - k) * sizeof (guint));
      set[k] = kept;
    }
  return n_set;
}

/* The smallest set with this call in it that can't be kept. Where it is larger than what is soon looked through, it is
 * at least one of which none can be left out. Returns how many; 0 if none is known, and then @ret_keeps says whether
 * there is none. */
static guint
smallest_conflict (Why *why, guint *set, Keeps *ret_keeps)
{
  guint whole[HS_PROBLEM_MAX_CALLS + 1];
  guint n;

  *ret_keeps = KEEPS_NOT;
  set[0] = whole[0] = why->call;
  for (guint more = 0; more <= MIN (MAX_OTHERS, why->n_kept); more++)
    if (find_conflict (why, 0, more, set, 1))
      return more + 1;
  why->trials = 0;
  memcpy (&whole[1], why->kept, why->n_kept * sizeof (guint));
  *ret_keeps = ask_keeps (why, why->problem, whole, why->n_kept + 1);
  if (*ret_keeps != KEEPS_NOT)
    return 0;
  n = shrink_conflict (why, whole, why->n_kept + 1);
  for (guint more = MAX_OTHERS + 1; more + 1 < n; more++)
    if (find_conflict (why, 0, more, set, 1))
      return more + 1;
  memcpy (set, whole, n * sizeof (guint));
  return n;
}

static const char *
call_id (const Why *why, guint call)
{
  return hs_problem_get_call (why->problem, call)->id;
}

/* "A-0021, A-0022 and A-0023" */
static char *
list_text (const Why *why, const guint *set, guint n)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s%s", i == 0 ? "" : i + 1 == n ? " and " : ", ", call_id (why, set[i]));
  return g_string_free (text, FALSE);
}

static gint32
last_end (const HsCall *call)
{
  gint32 last = G_MININT32;

  for (guint i = 0; i < call->windows->len; i++)
    last = MAX (last, g_array_index (call->windows, HsDaySpan, i).to_seconds);
  return last == G_MININT32 ? 24 * 3600 : last;
}

/* @least: (nullable): how little has to be broken */
static char *
why_alone (const Why *why, const HsScore *least)
{
  gint32 end = last_end (hs_problem_get_call (why->problem, why->call));
  g_autofree char *ends = hs_words_clock (end);
  g_autofree char *starts = NULL;

  if (least == NULL)
    return g_strdup ("it can't be kept even as the only call");
  if (least->dropped > 0)
    return g_strdup ("even as the only call no van can serve it and be home in time");
  starts = hs_words_clock (end + least->late);
  return g_strdup_printf ("even as the only call work can start at %s at the earliest, and the promise ends at %s",
                          starts, ends);
}

/* (transfer full): that there are too few of a part for all of @set; NULL if that isn't so. */
static char *
why_scarce (const Why *why, const guint *set, guint n)
{
  const HsProblem *problem = why->problem;

  for (guint part = 0; part < problem->parts->len; part++)
    {
      guint needed = 0;
      guint on_board = 0;

      for (guint i = 0; i < n; i++)
        needed += count_units (hs_problem_get_call (problem, set[i])->needs, part);
      for (guint v = 0; v < problem->vans->len; v++)
        on_board += count_units (hs_problem_get_van (problem, v)->carries, part);
      if (needed > on_board && !is_sold (problem, part))
        {
          g_autofree char *not_sold = why_not_sold (problem, part, "it");

          return g_strdup_printf ("they need %u of “%s”, %s and %u %s on board", needed,
                                  part_name (problem, (int) part), not_sold, on_board, on_board == 1 ? "is" : "are");
        }
    }
  return NULL;
}

static char *
why_together (const Why *why, const guint *set, guint n, const HsScore *least)
{
  guint sorted[HS_PROBLEM_MAX_CALLS + 1];
  g_autofree char *ids = NULL;
  g_autofree char *late = least == NULL ? NULL : hs_words_length (least->late);
  g_autofree char *scarce = why_scarce (why, set, n);
  const char *all = n == 2 ? "both" : "all";

  memcpy (sorted, set, n * sizeof (guint));
  for (guint i = 1; i < n; i++)
    for (guint k = i; k > 0 && strcmp (call_id (why, sorted[k - 1]), call_id (why, sorted[k])) > 0; k--)
      {
        guint swap = sorted[k];

        sorted[k] = sorted[k - 1];
        sorted[k - 1] = swap;
      }
  ids = list_text (why, sorted, n);
  if (scarce != NULL)
    return g_strdup_printf ("%s can't %s be met: %s", ids, all, scarce);
  if (least == NULL)
    return g_strdup_printf ("%s can't %s be met", ids, all);
  if (least->dropped > 0)
    return g_strdup_printf ("%s can't %s be met: with %s of them no van is home in time", ids, all, all);
  return g_strdup_printf ("%s can't %s be met: with %s of them work starts at least %s late", ids, all, all, late);
}

/* @problem with the windows of @call ending @later minutes later, or all vans leaving @earlier minutes earlier. It
 * shares the rest with it: free with free_shifted (). */
static HsProblem *
new_shifted (const HsProblem *problem, guint call, gint32 later, gint32 earlier)
{
  HsProblem *shifted = g_memdup2 (problem, sizeof *problem);
  HsCall *moved = g_memdup2 (hs_problem_get_call (problem, call), sizeof (HsCall));

  shifted->vans = g_ptr_array_new_with_free_func (g_free);
  shifted->calls = g_ptr_array_copy (problem->calls, NULL, NULL);
  g_ptr_array_set_free_func (shifted->calls, NULL);
  moved->windows = g_array_copy (moved->windows);
  for (guint i = 0; i < moved->windows->len; i++)
    g_array_index (moved->windows, HsDaySpan, i).to_seconds += later * 60;
  shifted->calls->pdata[call] = moved;
  for (guint v = 0; v < problem->vans->len; v++)
    {
      HsVan *van = g_memdup2 (hs_problem_get_van (problem, v), sizeof (HsVan));

      van->leave_from_seconds -= earlier * 60;
      g_ptr_array_add (shifted->vans, van);
    }
  return shifted;
}

static void
free_shifted (HsProblem *shifted, guint call)
{
  HsCall *moved = shifted->calls->pdata[call];

  g_array_unref (moved->windows);
  g_free (moved);
  g_ptr_array_unref (shifted->calls);
  g_ptr_array_unref (shifted->vans);
  g_free (shifted);
}

static gboolean
shift_mends (Why *why, const guint *set, guint n, gint32 later, gint32 earlier)
{
  HsProblem *shifted = new_shifted (why->problem, why->call, later, earlier);
  gboolean mends = ask_keeps (why, shifted, set, n) == KEEPS;

  free_shifted (shifted, why->call);
  return mends;
}

/* The fewest minutes up to @most that mend it, or 0. */
static gint32
least_shift (Why *why, const guint *set, guint n, gboolean later, gint32 most)
{
  gint32 low = 0;
  gint32 high = most;

  if (most <= 0 || !shift_mends (why, set, n, later ? most : 0, later ? 0 : most))
    return 0;
  while (high - low > 1)
    {
      gint32 middle = low + (high - low) / 2;

      if (shift_mends (why, set, n, later ? middle : 0, later ? 0 : middle))
        high = middle;
      else
        low = middle;
    }
  return high;
}

static gint32
earliest_leave (const HsProblem *problem)
{
  gint32 earliest = G_MAXINT32;

  for (guint v = 0; v < problem->vans->len; v++)
    earliest = MIN (earliest, hs_problem_get_van (problem, v)->leave_from_seconds);
  return earliest;
}

/* What would let this call be kept with all that is kept: leaving one of the conflict out, moving it, or starting
 * earlier. */
static void
add_mends (Why *why, HsTrouble *trouble, const guint *conflict, guint n_conflict)
{
  guint set[HS_PROBLEM_MAX_CALLS + 1];
  gint32 minutes;

  set[0] = why->call;
  for (guint c = 1; c < n_conflict; c++)
    {
      guint n = 1;

      for (guint k = 0; k < why->n_kept; k++)
        if (why->kept[k] != conflict[c])
          set[n++] = why->kept[k];
      if (n_conflict <= MAX_DROPS + 1 && ask_keeps (why, why->problem, set, n) == KEEPS)
        g_ptr_array_add (trouble->mends, hs_mend_drop (call_id (why, conflict[c])));
    }
  memcpy (&set[1], why->kept, why->n_kept * sizeof (guint));
  minutes = least_shift (why, set, why->n_kept + 1, TRUE, MAX_MOVE_MINUTES);
  if (minutes > 0)
    g_ptr_array_add (trouble->mends, hs_mend_move (call_id (why, why->call), minutes));
  minutes = least_shift (why, set, why->n_kept + 1, FALSE, earliest_leave (why->problem) / 60);
  if (minutes > 0)
    g_ptr_array_add (trouble->mends, hs_mend_start (minutes));
}

static char *
why_conflict (Why *why, const guint *set, guint n)
{
  HsScore least;
  gboolean known = find_least (why, set, n, &least) && least.missed > 0;

  return n == 1 ? why_alone (why, known ? &least : NULL) : why_together (why, set, n, known ? &least : NULL);
}

static void
explain (Why *why, HsTrouble *trouble)
{
  guint set[HS_PROBLEM_MAX_CALLS + 1];
  Keeps keeps;
  guint n;

  why->call = trouble->call;
  why->trials = 0;
  n = smallest_conflict (why, set, &keeps);
  why->trials = 0;
  if (n > 0)
    {
      g_array_append_vals (trouble->conflicts, &set[1], n - 1);
      trouble->why = why_conflict (why, set, n);
    }
  else
    trouble->why = g_strdup (keeps == KEEPS ? "no room was found for it"
                                            : "the search ended before it was known what is in its way");
  if (keeps != KEEPS)
    add_mends (why, trouble, set, n);
}

static gboolean
is_trouble (const GPtrArray *troubles, guint call)
{
  for (guint i = 0; i < troubles->len; i++)
    if (((const HsTrouble *) g_ptr_array_index (troubles, i))->call == call)
      return TRUE;
  return FALSE;
}

void
hs_solve_why_explain (HsExact *exact, const HsProblem *problem, HsSolution *solution)
{
  g_autoptr (HsSolveFrame) like = hs_solve_frame_new (problem, NULL, 0);
  Why why = { exact, problem, like };
  GPtrArray *lists[] = { solution->broken, solution->unserved };

  for (guint i = 0; i < problem->calls->len; i++)
    if (!is_trouble (solution->broken, i) && !is_trouble (solution->unserved, i))
      why.kept[why.n_kept++] = i;
  for (guint l = 0; l < G_N_ELEMENTS (lists); l++)
    for (guint i = 0; i < lists[l]->len; i++)
      {
        HsTrouble *trouble = g_ptr_array_index (lists[l], i);

        if (trouble->why == NULL)
          explain (&why, trouble);
      }
}
