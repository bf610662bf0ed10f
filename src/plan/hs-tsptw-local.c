// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A tour is judged by how late it is, then by its cost. Each move is judged in constant time: a piece of a tour is
 * described by a few numbers, and two pieces are joined without looking inside. */

#include "hs-tsptw-local.h"

#define MAX_PIECE 3
#define WORSE_BY 60
#define MAX_KICKED_PIECE 8

/**
 * Part: a piece of a tour. A stop that is reached late counts as if reached in time, and the time that this took away
 * is counted as @late.
 * @length: from its begin to its end, waiting included
 * @first, @last: between these its begin makes it neither longer nor later
 */
typedef struct
{
  gint64 length;
  gint64 late;
  gint64 first;
  gint64 last;
  gint64 driven;
} Part;

typedef struct
{
  gint64 late;
  gint64 cost;
  gint64 driven;
} Score;

struct _HsTsptwLocal
{
  const HsTsptwFrame *frame;
  HsTsptwHow how;
  guint n;
  gint64 *drive;
  GRand *rand;
  guint16 order[HS_TSPTW_MAX_NODES + 1];
  Part stops[HS_TSPTW_MAX_NODES];
  Part home;
  Part heads[HS_TSPTW_MAX_NODES + 1];
  Part tails[HS_TSPTW_MAX_NODES + 2];
  Score score;
  guint16 best_order[HS_TSPTW_MAX_NODES + 1];
  guint16 base_order[HS_TSPTW_MAX_NODES + 1];
  Score best;
};

/* Positions 1 to n − 1 hold stops; the depot stands before and behind them. */
static guint
stop_at (const HsTsptwLocal *local, guint position)
{
  return position == local->n ? 0 : local->order[position];
}

static inline Part
join (const Part *a, const Part *b, gint64 leg)
{
  gint64 shift = a->length - a->late + leg;
  gint64 wait = MAX (b->first - shift - a->last, 0);
  gint64 late = MAX (a->first + shift - b->last, 0);

  return (Part){
    .length = a->length + b->length + leg + wait,
    .late = a->late + b->late + late,
    .first = MAX (b->first - shift, a->first) - wait,
    .last = MIN (b->last - shift, a->last) + late,
    .driven = a->driven + b->driven + leg,
  };
}

static inline gint64
leg_of (const HsTsptwLocal *local, guint from, guint to)
{
  return local->drive[from * local->n + to];
}

static inline int
compare (const Score *a, const Score *b)
{
  if (a->late != b->late)
    return a->late < b->late ? -1 : 1;
  if (a->cost != b->cost)
    return a->cost < b->cost ? -1 : 1;
  return a->driven < b->driven ? -1 : a->driven > b->driven;
}

static Score
score_of (const HsTsptwLocal *local, const Part *tour)
{
  Score score = { tour->late, tour->driven, tour->driven };

  if (local->how.objective == HS_TSPTW_MAKESPAN)
    score.cost = tour->first + tour->length - tour->late;
  else if (local->how.objective == HS_TSPTW_DURATION)
    score.cost = tour->length - tour->late;
  return score;
}

static void
fill (HsTsptwLocal *local)
{
  guint n = local->n;

  local->heads[0] = local->stops[0];
  for (guint i = 1; i < n; i++)
    local->heads[i] = join (&local->heads[i - 1], &local->stops[local->order[i]],
                            leg_of (local, stop_at (local, i - 1), stop_at (local, i)));
  local->tails[n] = local->home;
  for (guint i = n - 1; i >= 1; i--)
    local->tails[i] = join (&local->stops[local->order[i]], &local->tails[i + 1],
                            leg_of (local, stop_at (local, i), stop_at (local, i + 1)));
  {
    Part tour = join (&local->heads[0], &local->tails[1], leg_of (local, 0, stop_at (local, 1)));

    local->score = score_of (local, &tour);
  }
}

/* A move: the piece from @a to @b goes behind the stops from @b + 1 to @c, turned round or not. With @c equal to @b it
 * is only turned round in its place. */
typedef struct
{
  guint a;
  guint b;
  guint c;
  gboolean turned;
} Move;

static void
apply (HsTsptwLocal *local, const Move *move)
{
  guint16 piece[HS_TSPTW_MAX_NODES];
  guint length = move->b - move->a + 1;

  for (guint i = 0; i < length; i++)
    piece[i] = local->order[move->turned ? move->b - i : move->a + i];
  memmove (&local->order[move->a], &local->order[move->b + 1], (move->c - move->b) * sizeof (guint16));
  memcpy (&local->order[move->a + move->c - move->b], piece, length * sizeof (guint16));
  fill (local);
}

static gboolean
try_score (HsTsptwLocal *local, const Part *tour, const Move *move, Score *best, Move *best_move)
{
  Score score = score_of (local, tour);

  if (compare (&score, best) >= 0)
    return FALSE;
  *best = score;
  *best_move = *move;
  return TRUE;
}

/* The piece from @a to @b as it stands and turned round. */
static gboolean
make_piece (const HsTsptwLocal *local, guint a, guint b, Part *piece, Part *turned)
{
  gboolean turns = TRUE;

  *piece = *turned = local->stops[local->order[a]];
  for (guint i = a + 1; i <= b; i++)
    {
      guint stop = local->order[i];
      guint previous = local->order[i - 1];

      *piece = join (piece, &local->stops[stop], leg_of (local, previous, stop));
      *turned = join (&local->stops[stop], turned, leg_of (local, stop, previous));
      for (guint j = a; j < i; j++)
        turns = turns && !hs_set_has (hs_tsptw_frame_before (local->frame, stop), local->order[j]);
    }
  return turns && b > a;
}

/* Puts @piece, which begins with @first and ends with @last, between @head and the stop at @next. */
static Part
put_between (const HsTsptwLocal *local, const Part *head, guint before, const Part *piece, guint first, guint last,
             guint next)
{
  Part tour = join (head, piece, leg_of (local, before, first));

  return join (&tour, &local->tails[next], leg_of (local, last, stop_at (local, next)));
}

static gboolean
has_to_follow (const HsTsptwLocal *local, guint a, guint b, guint stop)
{
  for (guint i = a; i <= b; i++)
    if (hs_set_has (hs_tsptw_frame_before (local->frame, stop), local->order[i]))
      return TRUE;
  return FALSE;
}

static gboolean
has_to_lead (const HsTsptwLocal *local, guint a, guint b, guint stop)
{
  for (guint i = a; i <= b; i++)
    if (hs_set_has (hs_tsptw_frame_after (local->frame, stop), local->order[i]))
      return TRUE;
  return FALSE;
}

static void
look_behind (HsTsptwLocal *local, guint a, guint b, Score *best, Move *move)
{
  Part piece, turned;
  gboolean turns = make_piece (local, a, b, &piece, &turned);
  Part head = local->heads[a - 1];
  guint first = local->order[a];
  guint last = local->order[b];
  guint at = stop_at (local, a - 1);

  for (guint c = b + 1; c < local->n; c++)
    {
      guint stop = local->order[c];
      Part tour;

      if (has_to_follow (local, a, b, stop))
        break;
      head = join (&head, &local->stops[stop], leg_of (local, at, stop));
      if (head.late > best->late)
        break;
      at = stop;
      tour = put_between (local, &head, at, &piece, first, last, c + 1);
      try_score (local, &tour, &(Move){ a, b, c, FALSE }, best, move);
      if (!turns)
        continue;
      tour = put_between (local, &head, at, &turned, last, first, c + 1);
      try_score (local, &tour, &(Move){ a, b, c, TRUE }, best, move);
    }
}

/* The same move seen from the other side: the stops from @c to @a − 1 go behind the piece; turning the piece then
 * takes a second move, so it is only looked at as it stands. */
static void
look_ahead (HsTsptwLocal *local, guint a, guint b, Score *best, Move *move)
{
  Part piece, turned;
  Part middle;
  guint end = stop_at (local, a - 1);

  make_piece (local, a, b, &piece, &turned);
  for (guint c = a - 1; c >= 1; c--)
    {
      guint stop = local->order[c];
      Part tour, tail;

      if (has_to_lead (local, a, b, stop))
        break;
      middle = c == a - 1 ? local->stops[stop]
                          : join (&local->stops[stop], &middle, leg_of (local, stop, local->order[c + 1]));
      if (middle.late > best->late)
        break;
      tail = join (&middle, &local->tails[b + 1], leg_of (local, end, stop_at (local, b + 1)));
      tour = join (&local->heads[c - 1], &piece, leg_of (local, stop_at (local, c - 1), local->order[a]));
      tour = join (&tour, &tail, leg_of (local, local->order[b], stop));
      try_score (local, &tour, &(Move){ c, a - 1, b, FALSE }, best, move);
    }
}

static void
look_turned (HsTsptwLocal *local, guint a, Score *best, Move *move)
{
  Part turned = local->stops[local->order[a]];

  for (guint b = a + 1; b < local->n; b++)
    {
      guint stop = local->order[b];
      Part tour;

      if (has_to_follow (local, a, b - 1, stop))
        break;
      turned = join (&local->stops[stop], &turned, leg_of (local, stop, local->order[b - 1]));
      if (turned.late > best->late)
        break;
      tour = put_between (local, &local->heads[a - 1], stop_at (local, a - 1), &turned, stop, local->order[a], b + 1);
      try_score (local, &tour, &(Move){ a, b, b, TRUE }, best, move);
    }
}

static gboolean
improve_at (HsTsptwLocal *local, guint a)
{
  Score best = local->score;
  Move move = { 0, 0, 0, FALSE };

  for (guint b = a; b < MIN (a + MAX_PIECE, local->n); b++)
    {
      look_behind (local, a, b, &best, &move);
      look_ahead (local, a, b, &best, &move);
    }
  look_turned (local, a, &best, &move);
  if (move.a == 0)
    return FALSE;
  apply (local, &move);
  return TRUE;
}

static gboolean
gives_up (const HsTsptwLocal *local)
{
  return local->how.give_up != NULL && local->how.give_up (local->how.user_data);
}

static void
keep_best (HsTsptwLocal *local)
{
  if (compare (&local->score, &local->best) > 0)
    return;
  local->best = local->score;
  memcpy (local->best_order, local->order, sizeof local->order);
}

/* The next kick starts from a tour that is little worse than the best, so that it gets away from there. */
static void
keep_base (HsTsptwLocal *local)
{
  gboolean near_best = local->score.late <= local->best.late
                       && local->score.cost - local->best.cost <= local->best.cost / WORSE_BY;

  if (near_best)
    memcpy (local->base_order, local->order, sizeof local->order);
  else
    memcpy (local->base_order, local->best_order, sizeof local->order);
}

/* Until no move helps. */
static gboolean
descend (HsTsptwLocal *local)
{
  guint still = 0;
  guint steps = 0;

  for (guint a = 1; still < local->n; a = a + 1 < local->n ? a + 1 : 1)
    {
      still = improve_at (local, a) ? 0 : still + 1;
      if (++steps % 64 == 0 && gives_up (local))
        return FALSE;
    }
  return TRUE;
}

static gboolean
may_swap (const HsTsptwLocal *local, const Move *move)
{
  for (guint c = move->b + 1; c <= move->c; c++)
    if (has_to_follow (local, move->a, move->b, local->order[c]))
      return FALSE;
  return TRUE;
}

/* Swaps two short neighboring pieces somewhere. */
static void
kick (HsTsptwLocal *local)
{
  guint stops = local->n - 1;

  for (guint tries = 0; tries < 20; tries++)
    {
      Move move = { 0, 0, 0, FALSE };

      move.a = (guint) g_rand_int_range (local->rand, 1, (gint32) stops);
      move.b = move.a + (guint) g_rand_int_range (local->rand, 0, MAX_KICKED_PIECE);
      move.c = move.b + (guint) g_rand_int_range (local->rand, 1, MAX_KICKED_PIECE + 1);
      if (move.c > stops || !may_swap (local, &move))
        continue;
      apply (local, &move);
      return;
    }
}

gboolean
hs_tsptw_local_run (HsTsptwLocal *local, guint kicks)
{
  if (local->n <= 2)
    return TRUE;
  memcpy (local->base_order, local->best_order, sizeof local->order);
  for (guint i = 0; i < kicks; i++)
    {
      guint strength = (guint) g_rand_int_range (local->rand, 1, 5);

      memcpy (local->order, local->base_order, sizeof local->order);
      fill (local);
      for (guint j = 0; j < strength; j++)
        kick (local);
      if (!descend (local))
        return FALSE;
      keep_best (local);
      keep_base (local);
    }
  return TRUE;
}

void
hs_tsptw_local_start_from (HsTsptwLocal *local, const guint16 *order)
{
  memcpy (&local->order[1], order, (local->n - 1) * sizeof (guint16));
  fill (local);
  keep_best (local);
}

gboolean
hs_tsptw_local_get_best (const HsTsptwLocal *local, guint16 *order, gint64 *ret_cost)
{
  if (local->best.late > 0)
    return FALSE;
  memcpy (order, &local->best_order[1], (local->n - 1) * sizeof (guint16));
  *ret_cost = local->best.cost;
  return TRUE;
}

/* A leg that isn't there is so long that nobody is home in time. */
static void
copy_legs (HsTsptwLocal *local, const HsTsptw *problem)
{
  local->drive = g_new (gint64, local->n * local->n);
  for (guint i = 0; i < local->n * local->n; i++)
    local->drive[i] = problem->drive[i] == HS_TSPTW_NO_LEG ? problem->to[0] + 1 : problem->drive[i];
}

static gboolean
is_free (const HsTsptwLocal *local, const guint64 *done, guint stop)
{
  return !hs_set_has (done, stop)
         && hs_set_is_within (hs_tsptw_frame_before (local->frame, stop), done, local->frame->words);
}

/* The stop whose window ends first of those that nothing has to come before. */
static void
make_first_order (HsTsptwLocal *local)
{
  guint64 done[HS_SET_MAX_WORDS] = { 0 };

  for (guint position = 1; position < local->n; position++)
    {
      guint chosen = 0;

      for (guint stop = 1; stop < local->n; stop++)
        if (is_free (local, done, stop)
            && (chosen == 0 || local->frame->to[stop] < local->frame->to[chosen]))
          chosen = stop;
      local->order[position] = (guint16) chosen;
      hs_set_add (done, chosen);
    }
}

HsTsptwLocal *
hs_tsptw_local_new (const HsTsptw *problem, const HsTsptwFrame *frame, const HsTsptwHow *how)
{
  HsTsptwLocal *local = g_new0 (HsTsptwLocal, 1);

  local->frame = frame;
  local->how = *how;
  local->n = problem->n_nodes;
  local->rand = g_rand_new_with_seed (how->seed);
  copy_legs (local, problem);
  for (guint i = 0; i < local->n; i++)
    local->stops[i] = (Part){ 0, 0, frame->from[i], frame->to[i], 0 };
  local->home = (Part){ 0, 0, 0, frame->home_by, 0 };
  local->best.late = G_MAXINT64;
  make_first_order (local);
  if (local->n > 1)
    {
      fill (local);
      keep_best (local);
      descend (local);
      keep_best (local);
    }
  return local;
}

void
hs_tsptw_local_free (HsTsptwLocal *local)
{
  if (local == NULL)
    return;
  g_free (local->drive);
  g_rand_free (local->rand);
  g_free (local);
}
