// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A move swaps two neighboring pieces of the tour, or turns one round. Most moves would drive more and are passed over
 * for that alone. What no such move leads to, because it would take many at once, is reached by taking out stops that
 * are near each other and putting them back one by one. */

#include "hs-tsptw-quick.h"

#define MOST_PIECE 50
#define MOST_KICKED 7
#define KICKS 3
#define KICK_NEAR 12
#define FIRST_HEAT 0.30
#define LAST_HEAT 0.02
#define MOST_OUT 20
/* Of so many near stops those that are taken out are chosen, and each is passed over once in so many times. */
#define NEAREST 40
#define PASSED_OVER 3
#define PLACES_EACH_MISSED 30
#define FIRST_ROUND_HEAT 1.0
#define LAST_ROUND_HEAT 0.05
#define ASK_EVERY 256

/* The pieces from @a to @b and from @b + 1 to @c change places; with @c equal to @b the one is turned round. */
typedef struct
{
  guint a;
  guint b;
  guint c;
} Move;

/* A tour: positions 1 to n − 1 hold stops, the depot stands at 0 and n. While some stops are taken out, it stands right
 * behind those that are left. */
typedef struct
{
  gint64 driven;
  guint16 order[HS_TSPTW_MAX_NODES + 1];
} Tour;

/**
 * HsTsptwQuick:
 * @start: when the stop at a position is served
 * @latest: when it must be reached for the rest to be in time
 * @ahead, @back: driven up to a position, and from there to the begin if the tour were driven backward
 * @looked: for each stop, whether no move helps there
 * @nearest: for each stop the stops that are nearest to it, there and back; made when it is first asked for
 */
struct _HsTsptwQuick
{
  HsTsptwHow how;
  guint n;
  guint words;
  gint64 *drive;
  gint64 *from;
  gint64 *to;
  guint64 *before;
  GRand *rand;
  Tour tour;
  Tour base;
  Tour best;
  gint64 start[HS_TSPTW_MAX_NODES + 1];
  gint64 latest[HS_TSPTW_MAX_NODES + 1];
  gint64 ahead[HS_TSPTW_MAX_NODES + 1];
  gint64 back[HS_TSPTW_MAX_NODES + 1];
  gboolean looked[HS_TSPTW_MAX_NODES];
  guint at[HS_TSPTW_MAX_NODES];
  guint16 queue[HS_TSPTW_MAX_NODES];
  guint n_queue;
  guint16 *nearest;
  guint n_nearest;
  guint64 asked;
};

static inline gint64
leg_at (const HsTsptwQuick *quick, guint from, guint to)
{
  return quick->drive[quick->tour.order[from] * quick->n + quick->tour.order[to]];
}

static inline const guint64 *
before_at (const HsTsptwQuick *quick, guint position)
{
  return quick->before + quick->tour.order[position] * quick->words;
}

/* When each stop is served and must be reached, with the depot at @end. */
static void
fill_times (HsTsptwQuick *quick, guint end)
{
  const guint16 *order = quick->tour.order;

  quick->start[0] = quick->from[0];
  for (guint i = 1; i < end; i++)
    quick->start[i] = MAX (quick->start[i - 1] + leg_at (quick, i - 1, i), quick->from[order[i]]);
  quick->latest[end] = quick->to[0];
  for (guint i = end - 1; i > 0; i--)
    quick->latest[i] = MIN (quick->to[order[i]], quick->latest[i + 1] - leg_at (quick, i, i + 1));
}

/* All that follows from the order. */
static void
fill (HsTsptwQuick *quick)
{
  guint n = quick->n;

  fill_times (quick, n);
  quick->ahead[0] = quick->back[0] = 0;
  for (guint i = 1; i <= n; i++)
    {
      quick->ahead[i] = quick->ahead[i - 1] + leg_at (quick, i - 1, i);
      quick->back[i] = quick->back[i - 1] + leg_at (quick, i, i - 1);
      if (i < n)
        quick->at[quick->tour.order[i]] = i;
    }
  quick->tour.driven = quick->ahead[n];
}

/* Goes on to the stop at @position; whether it is reached in time. */
static inline gboolean
go_to (const HsTsptwQuick *quick, guint *at, gint64 *time, guint position)
{
  guint stop = quick->tour.order[position];

  *time += quick->drive[*at * quick->n + stop];
  *time = MAX (*time, quick->from[stop]);
  *at = stop;
  return *time <= quick->to[stop];
}

static gboolean
arrives (const HsTsptwQuick *quick, guint at, gint64 time, guint position)
{
  return time + quick->drive[at * quick->n + quick->tour.order[position]] <= quick->latest[position];
}

static gboolean
keeps_windows (const HsTsptwQuick *quick, const Move *move)
{
  guint at = quick->tour.order[move->a - 1];
  gint64 time = quick->start[move->a - 1];

  if (move->b == move->c)
    {
      for (guint i = move->b; i >= move->a; i--)
        if (!go_to (quick, &at, &time, i))
          return FALSE;
      return arrives (quick, at, time, move->b + 1);
    }
  for (guint i = move->b + 1; i <= move->c; i++)
    if (!go_to (quick, &at, &time, i))
      return FALSE;
  for (guint i = move->a; i <= move->b; i++)
    if (!go_to (quick, &at, &time, i))
      return FALSE;
  return arrives (quick, at, time, move->c + 1);
}

static inline gint64
gain_of_swap (const HsTsptwQuick *quick, guint a, guint b, guint c)
{
  return leg_at (quick, a - 1, a) + leg_at (quick, b, b + 1) + leg_at (quick, c, c + 1) - leg_at (quick, a - 1, b + 1)
         - leg_at (quick, c, a) - leg_at (quick, b, c + 1);
}

static inline gint64
gain_of_turn (const HsTsptwQuick *quick, guint a, guint b)
{
  return quick->ahead[b + 1] - quick->ahead[a - 1] - leg_at (quick, a - 1, b) - leg_at (quick, a, b + 1)
         - (quick->back[b] - quick->back[a]);
}

static inline void
consider (const HsTsptwQuick *quick, guint a, guint b, guint c, gint64 gain, Move *best, gint64 *most)
{
  Move move = { a, b, c };

  if (gain <= *most || !keeps_windows (quick, &move))
    return;
  *most = gain;
  *best = move;
}

/* Pieces that begin at @a. */
static void
look_from (const HsTsptwQuick *quick, guint a, Move *best, gint64 *most)
{
  guint64 piece[HS_SET_MAX_WORDS] = { 0 };
  guint last = MIN (quick->n - 1, a + MOST_PIECE);

  for (guint b = a; b < last; b++)
    {
      hs_set_add (piece, quick->tour.order[b]);
      for (guint c = b + 1; c <= last && !hs_set_meets (before_at (quick, c), piece, quick->words); c++)
        consider (quick, a, b, c, gain_of_swap (quick, a, b, c), best, most);
    }
}

/* Pieces that meet behind @b. */
static void
look_around (const HsTsptwQuick *quick, guint b, Move *best, gint64 *most)
{
  guint64 piece[HS_SET_MAX_WORDS] = { 0 };
  guint last = MIN (quick->n - 1, b + MOST_PIECE);

  for (guint a = b; a > 0 && b - a < MOST_PIECE; a--)
    {
      hs_set_add (piece, quick->tour.order[a]);
      for (guint c = b + 1; c <= last; c++)
        {
          if (hs_set_meets (before_at (quick, c), piece, quick->words))
            {
              last = c - 1;
              break;
            }
          consider (quick, a, b, c, gain_of_swap (quick, a, b, c), best, most);
        }
    }
}

/* Pieces that end at @c. */
static void
look_to (const HsTsptwQuick *quick, guint c, Move *best, gint64 *most)
{
  guint64 wanted[HS_SET_MAX_WORDS] = { 0 };
  guint first = c > MOST_PIECE ? c - MOST_PIECE : 1;

  for (guint b = c - 1; b >= first; b--)
    {
      for (guint i = 0; i < quick->words; i++)
        wanted[i] |= before_at (quick, b + 1)[i];
      for (guint a = b; a >= first && !hs_set_has (wanted, quick->tour.order[a]); a--)
        consider (quick, a, b, c, gain_of_swap (quick, a, b, c), best, most);
    }
}

static void
look_turned (const HsTsptwQuick *quick, guint position, Move *best, gint64 *most)
{
  guint64 piece[HS_SET_MAX_WORDS] = { 0 };
  guint64 wanted[HS_SET_MAX_WORDS] = { 0 };

  hs_set_add (piece, quick->tour.order[position]);
  for (guint b = position + 1; b < quick->n && !hs_set_meets (before_at (quick, b), piece, quick->words); b++)
    {
      hs_set_add (piece, quick->tour.order[b]);
      consider (quick, position, b, b, gain_of_turn (quick, position, b), best, most);
    }
  for (guint a = position; a > 0 && !hs_set_has (wanted, quick->tour.order[a]); a--)
    {
      for (guint i = 0; i < quick->words; i++)
        wanted[i] |= before_at (quick, a)[i];
      if (a < position)
        consider (quick, a, position, position, gain_of_turn (quick, a, position), best, most);
    }
}

static void
look_again (HsTsptwQuick *quick, guint position)
{
  guint stop;

  if (position == 0 || position >= quick->n)
    return;
  stop = quick->tour.order[position];
  if (!quick->looked[stop])
    return;
  quick->looked[stop] = FALSE;
  quick->queue[quick->n_queue++] = (guint16) stop;
}

static void
apply (HsTsptwQuick *quick, const Move *move)
{
  guint16 piece[HS_TSPTW_MAX_NODES];
  guint length = move->b - move->a + 1;
  guint16 *order = quick->tour.order;

  for (guint i = 0; i < length; i++)
    piece[i] = order[move->b == move->c ? move->b - i : move->a + i];
  memmove (&order[move->a], &order[move->b + 1], (move->c - move->b) * sizeof (guint16));
  memcpy (&order[move->a + move->c - move->b], piece, length * sizeof (guint16));
  fill (quick);
  look_again (quick, move->a - 1);
  look_again (quick, move->a);
  look_again (quick, move->a + move->c - move->b - 1);
  look_again (quick, move->a + move->c - move->b);
  look_again (quick, move->c);
  look_again (quick, move->c + 1);
}

/* Until no move helps where something changed. */
static void
mend (HsTsptwQuick *quick)
{
  while (quick->n_queue > 0)
    {
      guint stop = quick->queue[--quick->n_queue];
      guint position = quick->at[stop];
      Move best;
      gint64 most = 0;

      quick->looked[stop] = TRUE;
      look_from (quick, position, &best, &most);
      look_around (quick, position, &best, &most);
      look_to (quick, position, &best, &most);
      look_turned (quick, position, &best, &most);
      if (most == 0)
        continue;
      look_again (quick, position);
      apply (quick, &best);
    }
}

static gboolean
keeps_orders (const HsTsptwQuick *quick, const Move *move)
{
  guint64 wanted[HS_SET_MAX_WORDS] = { 0 };

  for (guint c = move->b + 1; c <= move->c; c++)
    for (guint i = 0; i < quick->words; i++)
      wanted[i] |= before_at (quick, c)[i];
  for (guint a = move->a; a <= move->b; a++)
    if (hs_set_has (wanted, quick->tour.order[a]))
      return FALSE;
  return TRUE;
}

/* Swaps short pieces somewhere, all near each other. */
static void
kick (HsTsptwQuick *quick)
{
  gint stops = (gint) quick->n - 1;
  gint middle = g_rand_int_range (quick->rand, 1, stops + 1);
  gint count = g_rand_int_range (quick->rand, 1, KICKS + 1);

  for (guint tries = 0; tries < 30 && count > 0; tries++)
    {
      gint a = middle + g_rand_int_range (quick->rand, -KICK_NEAR, KICK_NEAR + 1);
      gint b = a + g_rand_int_range (quick->rand, 0, MOST_KICKED);
      gint c = b + g_rand_int_range (quick->rand, 1, MOST_KICKED + 1);
      Move move = { (guint) a, (guint) b, (guint) c };

      if (a < 1 || c > stops || !keeps_orders (quick, &move) || !keeps_windows (quick, &move))
        continue;
      apply (quick, &move);
      count--;
    }
}

static void
keep_best (HsTsptwQuick *quick)
{
  if (quick->tour.driven < quick->best.driven)
    quick->best = quick->tour;
}

/* A step back is taken when it is small for the heat. */
static gboolean
is_accepted (HsTsptwQuick *quick, double heat)
{
  gint64 worse = quick->tour.driven - quick->base.driven;

  return worse <= 0 || g_rand_double (quick->rand) < exp (-(double) worse / heat);
}

static gboolean
gives_up (HsTsptwQuick *quick)
{
  return ++quick->asked % ASK_EVERY == 0 && quick->how.give_up != NULL && quick->how.give_up (quick->how.user_data);
}

gboolean
hs_tsptw_quick_run (HsTsptwQuick *quick, guint kicks)
{
  double leg = (double) quick->best.driven / quick->n;
  double first = MAX (leg * FIRST_HEAT, 1e-9);
  double cooling = log (LAST_HEAT / FIRST_HEAT);

  if (quick->n <= 2)
    return TRUE;
  quick->base = quick->best;
  for (guint i = 0; i < kicks; i++)
    {
      quick->tour = quick->base;
      fill (quick);
      kick (quick);
      mend (quick);
      keep_best (quick);
      if (is_accepted (quick, first * exp (cooling * i / kicks)))
        quick->base = quick->tour;
      if (gives_up (quick))
        return FALSE;
    }
  return TRUE;
}

static gint64
there_and_back (const HsTsptwQuick *quick, guint a, guint b)
{
  return quick->drive[a * quick->n + b] + quick->drive[b * quick->n + a];
}

static void
find_nearest (HsTsptwQuick *quick)
{
  guint n = quick->n;

  if (quick->nearest != NULL)
    return;
  quick->n_nearest = MIN (n - 2, NEAREST);
  quick->nearest = g_new (guint16, n * quick->n_nearest);
  for (guint stop = 1; stop < n; stop++)
    {
      guint16 *row = quick->nearest + stop * quick->n_nearest;
      guint count = 0;

      for (guint other = 1; other < n; other++)
        {
          gint64 way = there_and_back (quick, stop, other);
          guint at = count;

          if (other == stop)
            continue;
          while (at > 0 && there_and_back (quick, stop, row[at - 1]) > way)
            at--;
          if (at == quick->n_nearest)
            continue;
          count = MIN (count + 1, quick->n_nearest);
          memmove (&row[at + 1], &row[at], (count - at - 1) * sizeof (guint16));
          row[at] = (guint16) other;
        }
    }
}

/* Takes a stop and some near it out of the tour; the position of the depot behind those that are left. */
static guint
take_out (HsTsptwQuick *quick, guint16 *out, guint *ret_n_out)
{
  guint64 gone[HS_SET_MAX_WORDS] = { 0 };
  guint16 *order = quick->tour.order;
  guint wanted = (guint) g_rand_int_range (quick->rand, 1, (gint32) MIN (MOST_OUT, (quick->n - 1) / 2) + 1);
  guint16 middle = (guint16) g_rand_int_range (quick->rand, 1, (gint32) quick->n);
  const guint16 *near = quick->nearest + middle * quick->n_nearest;
  guint end = 1;

  out[0] = middle;
  *ret_n_out = 1;
  for (guint i = 0; i < quick->n_nearest && *ret_n_out < wanted; i++)
    if (g_rand_int_range (quick->rand, 0, PASSED_OVER) > 0)
      out[(*ret_n_out)++] = near[i];
  for (guint i = 0; i < *ret_n_out; i++)
    hs_set_add (gone, out[i]);
  for (guint i = 1; i < quick->n; i++)
    if (!hs_set_has (gone, order[i]))
      order[end++] = order[i];
  order[end] = 0;
  return end;
}

/* The first and the last position at which @stop keeps all orders. */
static void
find_room (const HsTsptwQuick *quick, guint stop, guint end, guint *ret_first, guint *ret_last)
{
  const guint64 *before = quick->before + stop * quick->words;

  *ret_first = 1;
  *ret_last = end;
  for (guint i = 1; i < *ret_last; i++)
    if (hs_set_has (before, quick->tour.order[i]))
      *ret_first = i + 1;
    else if (hs_set_has (before_at (quick, i), stop))
      *ret_last = i;
}

/* The position at which @stop costs least, but for some that are missed by chance; 0: there is none. */
static guint
find_place (const HsTsptwQuick *quick, guint stop, guint end)
{
  const gint64 *to_stop = quick->drive + stop;
  const gint64 *from_stop = quick->drive + stop * quick->n;
  const guint16 *order = quick->tour.order;
  gint64 least = G_MAXINT64;
  guint place = 0;
  guint first, last;

  find_room (quick, stop, end, &first, &last);
  for (guint i = first; i <= last && quick->start[i - 1] <= quick->to[stop]; i++)
    {
      gint64 in = to_stop[order[i - 1] * quick->n];
      gint64 out = from_stop[order[i]];
      gint64 more = in + out - leg_at (quick, i - 1, i);
      gint64 time = MAX (quick->start[i - 1] + in, quick->from[stop]);

      if (more >= least || time > quick->to[stop] || time + out > quick->latest[i]
          || g_rand_int_range (quick->rand, 0, PLACES_EACH_MISSED) == 0)
        continue;
      least = more;
      place = i;
    }
  return place;
}

static void
mix (HsTsptwQuick *quick, guint16 *stops, guint count)
{
  for (guint i = count; i > 1; i--)
    {
      guint at = (guint) g_rand_int_range (quick->rand, 0, (gint32) i);
      guint16 stop = stops[at];

      stops[at] = stops[i - 1];
      stops[i - 1] = stop;
    }
}

/* Where legs are no shortest ways, a tour without some of its stops can be late. FALSE: there is no tour, for that or
 * because some stop found no place. */
static gboolean
rebuild (HsTsptwQuick *quick)
{
  guint16 out[MOST_OUT];
  guint n_out;
  guint end = take_out (quick, out, &n_out);

  fill_times (quick, end);
  if (quick->start[1] > quick->latest[1])
    return FALSE;
  mix (quick, out, n_out);
  for (guint i = 0; i < n_out; i++)
    {
      guint place = find_place (quick, out[i], end);
      guint16 *order = quick->tour.order;

      if (place == 0)
        return FALSE;
      end++;
      memmove (&order[place + 1], &order[place], (end - place) * sizeof (guint16));
      order[place] = out[i];
      fill_times (quick, end);
    }
  quick->tour.driven = 0;
  for (guint i = 1; i <= end; i++)
    quick->tour.driven += leg_at (quick, i - 1, i);
  return TRUE;
}

gboolean
hs_tsptw_quick_rebuild (HsTsptwQuick *quick, guint rounds)
{
  double leg = (double) quick->best.driven / quick->n;
  double first = MAX (leg * FIRST_ROUND_HEAT, 1e-9);
  double cooling = log (LAST_ROUND_HEAT / FIRST_ROUND_HEAT);

  if (quick->n <= 3)
    return TRUE;
  find_nearest (quick);
  quick->base = quick->best;
  for (guint i = 0; i < rounds; i++)
    {
      quick->tour = quick->base;
      if (rebuild (quick) && is_accepted (quick, first * exp (cooling * i / rounds)))
        {
          keep_best (quick);
          quick->base = quick->tour;
        }
      if (gives_up (quick))
        return FALSE;
    }
  return TRUE;
}

void
hs_tsptw_quick_start_from (HsTsptwQuick *quick, const guint16 *order)
{
  memcpy (&quick->tour.order[1], order, (quick->n - 1) * sizeof (guint16));
  fill (quick);
  for (guint i = 1; i < quick->n; i++)
    look_again (quick, i);
  mend (quick);
  keep_best (quick);
}

void
hs_tsptw_quick_get_best (const HsTsptwQuick *quick, guint16 *order)
{
  memcpy (order, &quick->best.order[1], (quick->n - 1) * sizeof (guint16));
}

/* A leg that isn't there is so long that nobody is in time. */
static void
copy_legs (HsTsptwQuick *quick, const HsTsptw *problem)
{
  quick->drive = g_new (gint64, quick->n * quick->n);
  for (guint i = 0; i < quick->n * quick->n; i++)
    quick->drive[i] = problem->drive[i] == HS_TSPTW_NO_LEG ? problem->to[0] + 1 : problem->drive[i];
}

HsTsptwQuick *
hs_tsptw_quick_new (const HsTsptw *problem, const HsTsptwFrame *frame, const HsTsptwHow *how)
{
  HsTsptwQuick *quick = g_new0 (HsTsptwQuick, 1);
  guint n = problem->n_nodes;

  quick->how = *how;
  quick->n = n;
  quick->words = frame->words;
  quick->rand = g_rand_new_with_seed (how->seed);
  copy_legs (quick, problem);
  quick->from = g_memdup2 (frame->from, n * sizeof (gint64));
  quick->to = g_memdup2 (frame->to, n * sizeof (gint64));
  quick->to[0] = frame->home_by;
  quick->before = g_memdup2 (frame->before, n * frame->words * sizeof (guint64));
  for (guint i = 0; i < n; i++)
    quick->looked[i] = TRUE;
  quick->best.driven = G_MAXINT64;
  return quick;
}

void
hs_tsptw_quick_free (HsTsptwQuick *quick)
{
  if (quick == NULL)
    return;
  g_free (quick->drive);
  g_free (quick->from);
  g_free (quick->to);
  g_free (quick->before);
  g_free (quick->nearest);
  g_rand_free (quick->rand);
  g_free (quick);
}
