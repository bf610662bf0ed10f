// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Paths are taken up in the order of their times, and looked up by what they remember. */

#include "hs-tsptw-pass.h"

#define MAX_BUCKETS 8192
#define FIRST_SPACE 1024
#define ASK_EVERY 2048

/* A path about to be kept. */
typedef struct
{
  gint64 time;
  gint64 cost;
  gint64 leave;
  gint64 driven;
  guint32 parent;
  guint16 node;
  guint16 count;
  guint64 set[HS_SET_MAX_WORDS];
} Next;

static guint64
hash_of (guint node, const guint64 *set, guint words)
{
  guint64 hash = node + 1;

  for (guint i = 0; i < words; i++)
    {
      hash = (hash ^ set[i]) * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
      hash ^= hash >> 29;
    }
  hash *= G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  return hash ^ (hash >> 32);
}

static guint64 *
set_of (const HsTsptwPass *pass, guint32 label)
{
  return &pass->sets[(gsize) label * pass->way->words];
}

/* The slot of a key, or the empty one where it would be. */
static HsTsptwSlot *
find_slot (HsTsptwPass *pass, guint node, const guint64 *set)
{
  guint words = pass->way->words;
  guint64 hash = hash_of (node, set, words);
  guint32 tag = (guint32) (hash >> 32);
  guint32 at = (guint32) hash & (pass->n_slots - 1);

  while (pass->slots[at].label != 0)
    {
      guint32 label = pass->slots[at].label;

      if (pass->slots[at].tag == tag && pass->labels[label].node == node
          && hs_set_equals (set_of (pass, label), set, words))
        break;
      at = (at + 1) & (pass->n_slots - 1);
    }
  pass->slots[at].tag = tag;
  return &pass->slots[at];
}

static void
grow_slots (HsTsptwPass *pass)
{
  HsTsptwSlot *old = pass->slots;
  guint32 n_old = pass->n_slots;

  pass->n_slots = n_old == 0 ? 2 * FIRST_SPACE : 2 * n_old;
  pass->slots = g_new0 (HsTsptwSlot, pass->n_slots);
  for (guint32 i = 0; i < n_old; i++)
    if (old[i].label != 0)
      *find_slot (pass, pass->labels[old[i].label].node, set_of (pass, old[i].label)) = old[i];
  g_free (old);
}

static void
grow_labels (HsTsptwPass *pass)
{
  pass->space = pass->space == 0 ? FIRST_SPACE : 2 * pass->space;
  pass->labels = g_renew (HsTsptwLabel, pass->labels, pass->space);
  pass->sets = g_renew (guint64, pass->sets, (gsize) pass->space * pass->way->words);
  if (!pass->ask.measure_away)
    return;
  pass->leaves = g_renew (gint64, pass->leaves, pass->space);
  pass->driven = g_renew (gint64, pass->driven, pass->space);
}

/* Where @next belongs in the chain of its key, or %NULL if a path there is no worse. The latest path comes first, and
 * since none beats another that one is the cheapest: the first path no later than @next decides. */
static guint32 *
find_place (HsTsptwPass *pass, guint32 *first, const Next *next)
{
  guint32 *place = NULL;
  guint32 *link = first;

  while (*link != 0 && pass->labels[*link].time > next->time)
    {
      if (place == NULL && pass->labels[*link].cost >= next->cost)
        place = link;
      link = &pass->labels[*link].chain;
    }
  if (*link != 0 && pass->labels[*link].cost <= next->cost)
    return NULL;
  return place != NULL ? place : link;
}

/* Takes out of the chain, from @place on, what @next beats. */
static void
drop_beaten (HsTsptwPass *pass, guint32 *place, const Next *next)
{
  while (*place != 0 && pass->labels[*place].time >= next->time)
    {
      HsTsptwLabel *label = &pass->labels[*place];

      label->dead = TRUE;
      *place = label->chain;
    }
}

/* With leave times to compare as well there is no such order: all of the chain is looked at. */
static guint32 *
find_place_away (HsTsptwPass *pass, guint32 *first, const Next *next)
{
  for (guint32 label = *first; label != 0; label = pass->labels[label].chain)
    if (pass->labels[label].time <= next->time && pass->labels[label].cost <= next->cost
        && pass->leaves[label] >= next->leave)
      return NULL;
  return first;
}

static void
drop_beaten_away (HsTsptwPass *pass, guint32 *link, const Next *next)
{
  while (*link != 0)
    {
      HsTsptwLabel *label = &pass->labels[*link];

      if (label->time >= next->time && label->cost >= next->cost && pass->leaves[*link] <= next->leave)
        {
          label->dead = TRUE;
          *link = label->chain;
        }
      else
        link = &label->chain;
    }
}

static void
queue_label (HsTsptwPass *pass, guint32 label)
{
  gint64 bucket = (pass->labels[label].time - pass->way->start) / pass->bucket_width;

  pass->labels[label].queue = pass->buckets[bucket];
  pass->buckets[bucket] = label;
}

static void
keep (HsTsptwPass *pass, const Next *next, guint32 *place)
{
  guint32 label = pass->n_labels++;

  pass->labels[label] = (HsTsptwLabel){ next->time, next->cost, next->parent, *place, 0, next->node, next->count,
                                        FALSE };
  memcpy (set_of (pass, label), next->set, pass->way->words * sizeof (guint64));
  if (pass->ask.measure_away)
    {
      pass->leaves[label] = next->leave;
      pass->driven[label] = next->driven;
    }
  *place = label;
  queue_label (pass, label);
}

/* @tail: the cheapest end in time. A path that is beaten is not kept, but its leg may be one that a tour needs. */
static void
add (HsTsptwPass *pass, const Next *next, guint32 tail)
{
  const HsTsptwTails *tails = pass->ask.tails;
  guint64 *used = pass->used + pass->labels[next->parent].node * pass->way->words;
  gint64 rest = pass->ask.budget - next->cost;
  HsTsptwSlot *slot;
  guint32 *place;

  slot = find_slot (pass, next->node, next->set);
  place = pass->ask.measure_away ? find_place_away (pass, &slot->label, next)
                                 : find_place (pass, &slot->label, next);
  if (place == NULL && (pass->ask.memory == NULL || hs_set_has (used, next->node)))
    return;
  if (tails != NULL && !hs_tsptw_tails_find (tails, next->node, next->time, next->set, rest, &tail))
    return;
  hs_set_add (used, next->node);
  if (place == NULL)
    return;
  pass->n_keys += slot->label == 0;
  if (pass->ask.measure_away)
    drop_beaten_away (pass, place, next);
  else
    drop_beaten (pass, place, next);
  keep (pass, next, place);
}

/* What the path remembers after @step; FALSE when something can't be served any more. */
static gboolean
remember (const HsTsptwPass *pass, const guint64 *set, guint to, gint64 time, guint64 *ret_set)
{
  const HsTsptwWay *way = pass->way;
  const guint64 *memory = pass->ask.memory;
  const guint64 *missed = hs_tsptw_way_missed (way, to, time);
  guint words = way->words;

  if (memory == NULL)
    {
      if (!hs_set_is_within (way->before + to * words, set, words))
        return FALSE;
      memcpy (ret_set, set, words * sizeof (guint64));
      hs_set_add (ret_set, to);
      return missed == NULL || hs_set_is_within (missed, ret_set, words);
    }
  for (guint i = 0; i < words; i++)
    ret_set[i] = set[i] & memory[to * words + i] & ~(missed == NULL ? 0 : missed[i]);
  hs_set_add (ret_set, to);
  return TRUE;
}

/* When it had to leave at the latest, and whether a tour that is away for no longer than asked is left. */
static gboolean
measure (HsTsptwPass *pass, guint32 label, const HsTsptwStep *step, Next *next)
{
  const HsTsptwWay *way = pass->way;

  next->driven = pass->driven[label] + step->drive;
  next->leave = MIN (pass->leaves[label], way->to[step->to] - next->driven);
  return MAX (next->time - next->leave, next->driven) + way->near_home[step->to] <= pass->ask.max_away;
}

static void
extend (HsTsptwPass *pass, guint32 label, const HsTsptwStep *step)
{
  const HsTsptwWay *way = pass->way;
  const HsTsptwTails *tails = pass->ask.tails;
  const HsTsptwLabel *from = &pass->labels[label];
  guint32 tail = 0;
  Next next;

  if (hs_set_has (set_of (pass, label), step->to))
    return;
  next.time = MAX (way->from[step->to], from->time + step->drive);
  next.cost = from->cost + step->cost;
  if (tails != NULL && !hs_tsptw_tails_reach (tails, step->to, next.time, pass->ask.budget - next.cost, &tail))
    return;
  next.leave = next.driven = 0;
  next.parent = label;
  next.node = step->to;
  next.count = (guint16) MIN (from->count + 1u, HS_TSPTW_MAX_NODES);
  if (remember (pass, set_of (pass, label), step->to, next.time, next.set)
      && (!pass->ask.measure_away || measure (pass, label, step, &next)))
    add (pass, &next, tail);
}

static void
go_home (HsTsptwPass *pass, guint32 label)
{
  const HsTsptwWay *way = pass->way;
  const HsTsptwLabel *from = &pass->labels[label];
  gint64 leg = way->home[from->node];
  gint64 time, cost;

  if (leg >= HS_TSPTW_FAR || from->time + leg > way->end)
    return;
  if (pass->ask.memory == NULL && from->count + 1u < way->n)
    return;
  time = from->time + leg;
  cost = from->cost + leg * pass->ask.scale;
  if (cost > pass->ask.budget)
    return;
  hs_set_add (pass->used + from->node * way->words, 0);
  if (pass->ask.measure_away)
    {
      gint64 driven = pass->driven[label] + leg;

      cost = MAX (time - MIN (pass->leaves[label], way->end - driven), driven);
    }
  if (pass->last != 0 && (cost > pass->cost || (cost == pass->cost && time >= pass->home_time)))
    return;
  pass->cost = cost;
  pass->home_time = time;
  pass->last = label;
}

static void
expand (HsTsptwPass *pass, guint32 label)
{
  const HsTsptwWay *way = pass->way;
  guint node = pass->labels[label].node;
  gint64 time = pass->labels[label].time;

  while (pass->n_labels + way->n > pass->space)
    grow_labels (pass);
  while (2 * (pass->n_keys + way->n) >= pass->n_slots)
    grow_slots (pass);
  for (guint i = way->first_step[node]; i < way->first_step[node + 1] && time <= way->steps[i].limit; i++)
    extend (pass, label, &way->steps[i]);
  if (node != 0)
    go_home (pass, label);
}

static gboolean
has_to_stop (HsTsptwPass *pass)
{
  if (pass->ask.give_up != NULL && pass->ask.give_up (pass->ask.user_data))
    pass->cut = TRUE;
  return pass->cut || pass->n_labels >= pass->ask.max_labels;
}

static void
start (HsTsptwPass *pass)
{
  Next first = { pass->way->start, 0, pass->way->to[0], 0, 0, 0, 0, { 0 } };
  guint32 none = 0;

  grow_labels (pass);
  grow_slots (pass);
  pass->n_labels = 1;
  memset (&pass->labels[0], 0, sizeof (HsTsptwLabel));
  keep (pass, &first, &none);
}

static void
set_costs (HsTsptwWay *way, const HsTsptwAsk *ask)
{
  for (guint i = 0; i < way->first_step[way->n]; i++)
    way->steps[i].cost = way->steps[i].drive * ask->scale - ask->prize[way->steps[i].to];
}

HsTsptwPass *
hs_tsptw_pass_run (HsTsptwWay *way, const HsTsptwAsk *ask)
{
  HsTsptwPass *pass = g_new0 (HsTsptwPass, 1);
  gint64 span = MAX (way->end - way->start, 0) + 1;
  guint steps = 0;

  pass->way = way;
  pass->ask = *ask;
  pass->n_buckets = (guint) MIN (span, MAX_BUCKETS);
  pass->bucket_width = (span + pass->n_buckets - 1) / pass->n_buckets;
  pass->buckets = g_new0 (guint32, pass->n_buckets);
  pass->used = g_new0 (guint64, way->n * way->words);
  set_costs (way, ask);
  start (pass);
  for (guint bucket = 0; way->possible && bucket < pass->n_buckets; bucket++)
    while (pass->buckets[bucket] != 0)
      {
        guint32 label = pass->buckets[bucket];

        pass->buckets[bucket] = pass->labels[label].queue;
        if (!pass->labels[label].dead)
          expand (pass, label);
        if (pass->n_labels >= ask->max_labels || ++steps % ASK_EVERY == 0)
          if (has_to_stop (pass))
            return pass;
      }
  pass->complete = TRUE;
  return pass;
}

void
hs_tsptw_pass_free (HsTsptwPass *pass)
{
  if (pass == NULL)
    return;
  g_free (pass->labels);
  g_free (pass->sets);
  g_free (pass->leaves);
  g_free (pass->driven);
  g_free (pass->slots);
  g_free (pass->buckets);
  g_free (pass->used);
  g_free (pass);
}

guint
hs_tsptw_pass_trace (const HsTsptwPass *pass, guint16 *order, guint max)
{
  guint count = 0;
  guint at;

  for (guint32 label = pass->last; label > 1; label = pass->labels[label].parent)
    count++;
  at = count;
  for (guint32 label = pass->last; label > 1; label = pass->labels[label].parent)
    {
      guint position = pass->way->backward ? count - at : at - 1;

      if (position < max)
        order[position] = pass->labels[label].node;
      at--;
    }
  return count;
}

static int
compare_tails (const void *a, const void *b)
{
  const HsTsptwTail *left = a;
  const HsTsptwTail *right = b;

  if (left->cost != right->cost)
    return left->cost < right->cost ? -1 : 1;
  if (left->latest != right->latest)
    return left->latest > right->latest ? -1 : 1;
  return left->set < right->set ? -1 : left->set > right->set;
}

static void
gather (const HsTsptwPass *pass, HsTsptwTails *tails)
{
  guint32 at[HS_TSPTW_MAX_NODES + 1] = { 0 };

  for (guint32 i = 1; i < pass->n_labels; i++)
    if (!pass->labels[i].dead)
      at[pass->labels[i].node + 1]++;
  for (guint node = 0; node < pass->way->n; node++)
    {
      at[node + 1] += at[node];
      tails->first[node + 1] = at[node + 1];
    }
  tails->tails = g_new (HsTsptwTail, at[pass->way->n]);
  tails->sets = g_new (guint64, (gsize) at[pass->way->n] * tails->words);
  tails->stairs = g_new (guint32, at[pass->way->n]);
  for (guint32 i = 1; i < pass->n_labels; i++)
    {
      const HsTsptwLabel *label = &pass->labels[i];

      if (!label->dead)
        tails->tails[at[label->node]++] = (HsTsptwTail){ label->cost, pass->way->shift - label->time, i };
    }
}

/* Sorts the tails of a node and finds its stairs. */
static void
sort_node (const HsTsptwPass *pass, HsTsptwTails *tails, guint node, guint32 *n_stairs)
{
  guint32 first = tails->first[node];
  guint32 end = tails->first[node + 1];
  gint64 latest = G_MININT64;

  qsort (&tails->tails[first], end - first, sizeof (HsTsptwTail), compare_tails);
  tails->first_stair[node] = *n_stairs;
  for (guint32 i = first; i < end; i++)
    {
      HsTsptwTail *tail = &tails->tails[i];
      guint64 *set = &tails->sets[(gsize) i * tails->words];

      memcpy (set, set_of (pass, tail->set), tails->words * sizeof (guint64));
      hs_set_remove (set, node);
      if (tail->latest > latest)
        tails->stairs[(*n_stairs)++] = i;
      latest = MAX (latest, tail->latest);
    }
  tails->first_stair[node + 1] = *n_stairs;
}

HsTsptwTails *
hs_tsptw_pass_make_tails (const HsTsptwPass *pass)
{
  HsTsptwTails *tails = g_new0 (HsTsptwTails, 1);
  guint32 n_stairs = 0;

  tails->words = pass->way->words;
  memcpy (tails->prize, pass->ask.prize, pass->way->n * sizeof (gint64));
  gather (pass, tails);
  for (guint node = 0; node < pass->way->n; node++)
    sort_node (pass, tails, node, &n_stairs);
  return tails;
}
