// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The states of one layer have the same number of nodes done. States with the same nodes done share the tree over what
 * is left; a state adds the cheapest leg from its last node into the rest and the cheapest one from the rest home. */

#include "hs-tour-label.h"

#include <string.h>

#define FAR HS_TOUR_FAR
#define NONE G_MAXUINT32
#define UNKNOWN G_MININT64
#define ASK_EVERY 512
#define FIRST_ROOM 256
#define HASH_FACTOR G_GUINT64_CONSTANT (0x9e3779b97f4a7c15)

typedef struct
{
  gint64 cost;
  gint64 least;
  guint32 past;
  guint32 next;
  guint16 last;
} Label;

/* A way to a state: where it came from, for writing down the best round. */
typedef struct
{
  guint32 parent;
  guint16 node;
} Past;

typedef struct
{
  guint n_sets;
  guint sets_room;
  guint64 *bits;
  gint64 *rest;
  gint64 *visits;
  guint32 *heads;
  guint n_slots;
  guint32 *slots;
  guint n_labels;
  guint labels_room;
  Label *labels;
} Layer;

typedef struct
{
  HsTourLabels *run;
  const HsTourFrame *frame;
  guint n;
  guint words;
  gint64 *weights;
  gint64 *either;
  gint64 *going;
  gint64 *coming;
  Layer now;
  Layer next;
  GArray *pasts;
  guint done;
  gint64 next_floor;
  gint64 dropped_floor;
  guint64 asks;
  guint16 *left;
  gint64 *nearest;
} Run;

static inline gboolean
has_bit (const guint64 *bits, guint at)
{
  return (bits[at / 64] >> at % 64 & 1) != 0;
}

static gsize
bytes_kept (const Run *run)
{
  gsize per_set = run->words * sizeof (guint64) + 2 * sizeof (gint64) + sizeof (guint32);

  return (run->now.sets_room + run->next.sets_room) * per_set
         + (run->now.labels_room + run->next.labels_room) * sizeof (Label)
         + (run->now.n_slots + run->next.n_slots) * sizeof (guint32) + run->pasts->len * sizeof (Past);
}

static void
layer_clear (Layer *layer)
{
  g_free (layer->bits);
  g_free (layer->rest);
  g_free (layer->visits);
  g_free (layer->heads);
  g_free (layer->slots);
  g_free (layer->labels);
  memset (layer, 0, sizeof *layer);
}

static guint64
hash_bits (const Run *run, const guint64 *bits)
{
  guint64 hash = 0;

  for (guint w = 0; w < run->words; w++)
    {
      hash = (hash ^ bits[w]) * HASH_FACTOR;
      hash ^= hash >> 29;
    }
  return hash;
}

/* The slot of @bits: where it is, or where it belongs. */
static guint
find_slot (const Run *run, const Layer *layer, const guint64 *bits)
{
  guint slot = (guint) (hash_bits (run, bits) & (layer->n_slots - 1));

  while (layer->slots[slot] != NONE
         && memcmp (&layer->bits[(gsize) layer->slots[slot] * run->words], bits, run->words * sizeof *bits) != 0)
    slot = (slot + 1) & (layer->n_slots - 1);
  return slot;
}

static void
grow_sets (const Run *run, Layer *layer)
{
  guint room = MAX (2 * layer->sets_room, FIRST_ROOM);

  layer->bits = g_realloc_n (layer->bits, (gsize) room * run->words, sizeof *layer->bits);
  layer->rest = g_realloc_n (layer->rest, room, sizeof *layer->rest);
  layer->visits = g_realloc_n (layer->visits, room, sizeof *layer->visits);
  layer->heads = g_realloc_n (layer->heads, room, sizeof *layer->heads);
  layer->sets_room = room;
  layer->n_slots = 2 * room;
  g_free (layer->slots);
  layer->slots = g_new (guint32, layer->n_slots);
  memset (layer->slots, 0xff, layer->n_slots * sizeof *layer->slots);
  for (guint s = 0; s < layer->n_sets; s++)
    layer->slots[find_slot (run, layer, &layer->bits[(gsize) s * run->words])] = s;
}

/* The cheapest tree over the nodes not in @bits, less their prices; FAR if there is none, 0 if nothing is left. */
static gint64
weigh_rest (Run *run, const guint64 *bits)
{
  guint n_left = 0;
  gint64 sum = -run->coming[0];
  guint node = 0;

  for (guint i = 1; i < run->n; i++)
    if (!has_bit (bits, i))
      {
        run->nearest[n_left] = FAR;
        run->left[n_left++] = (guint16) i;
        sum -= run->going[i] + run->coming[i];
      }
  if (n_left == 0)
    return sum;
  node = run->left[--n_left];
  while (n_left > 0)
    {
      const gint64 *row = &run->either[(gsize) node * run->n];
      guint pick = 0;

      for (guint i = 0; i < n_left; i++)
        {
          run->nearest[i] = MIN (run->nearest[i], row[run->left[i]]);
          if (run->nearest[i] < run->nearest[pick])
            pick = i;
        }
      if (run->nearest[pick] >= FAR)
        return FAR;
      sum += run->nearest[pick];
      node = run->left[pick];
      n_left--;
      run->left[pick] = run->left[n_left];
      run->nearest[pick] = run->nearest[n_left];
    }
  return sum;
}

/* FALSE if @node still waits for something. */
static gboolean
is_ready (const Run *run, const guint64 *bits, guint node)
{
  const guint64 *before = &run->frame->before[(gsize) node * run->words];

  for (guint w = 0; w < run->words; w++)
    if ((before[w] & ~bits[w]) != 0)
      return FALSE;
  return TRUE;
}

/* The least that is still to come after the tree over the rest: the legs into it and home from it. */
static gint64
weigh_ends (const Run *run, const guint64 *bits, guint last)
{
  gint64 into = FAR;
  gint64 home = FAR;
  gboolean any = FALSE;

  for (guint i = 1; i < run->n; i++)
    {
      gint64 leg;

      if (has_bit (bits, i))
        continue;
      any = TRUE;
      home = MIN (home, run->weights[(gsize) i * run->n]);
      leg = run->weights[(gsize) last * run->n + i];
      if (leg < into && is_ready (run, bits, i))
        into = leg;
    }
  if (!any)
    return run->weights[(gsize) last * run->n] - run->going[last];
  return into >= FAR || home >= FAR ? FAR : into + home - run->going[last];
}

/* The prices of visits that are still to come; 0 without a bound over places. */
static gint64
sum_visits (const Run *run, const guint64 *bits)
{
  const HsTourPlaces *places = run->run->places;
  gint64 sum = 0;

  if (places != NULL)
    for (guint i = 1; i < run->n; i++)
      sum += has_bit (bits, i) ? 0 : places->prices[i];
  return sum;
}

static guint
find_set (Run *run, const guint64 *bits)
{
  Layer *layer = &run->next;
  guint slot;
  guint set;

  if (layer->n_sets == layer->sets_room)
    grow_sets (run, layer);
  slot = find_slot (run, layer, bits);
  if (layer->slots[slot] != NONE)
    return layer->slots[slot];
  set = layer->n_sets++;
  layer->slots[slot] = set;
  memcpy (&layer->bits[(gsize) set * run->words], bits, run->words * sizeof *bits);
  layer->rest[set] = UNKNOWN;
  layer->visits[set] = sum_visits (run, bits);
  layer->heads[set] = NONE;
  return set;
}

static void
append_label (Run *run, guint set, const Label *label)
{
  Layer *layer = &run->next;

  if (layer->n_labels == layer->labels_room)
    {
      layer->labels_room = MAX (2 * layer->labels_room, FIRST_ROOM);
      layer->labels = g_realloc_n (layer->labels, layer->labels_room, sizeof *layer->labels);
    }
  layer->labels[layer->n_labels] = *label;
  layer->labels[layer->n_labels].next = layer->heads[set];
  layer->heads[set] = layer->n_labels++;
}

/* What is still to come from a state at the least, by whichever bound says more; the second is only asked for if the
 * first leaves room under @most. */
static gint64
weigh_all (Run *run, guint set, guint last, gint64 most)
{
  const HsTourPlaces *places = run->run->places;
  Layer *layer = &run->next;
  const guint64 *bits = &layer->bits[(gsize) set * run->words];
  gint64 least = G_MININT64 / 4;
  gint64 ends;

  if (places != NULL)
    least = places->rest[(gsize) run->done * run->n + last] - layer->visits[set];
  if (least > most)
    return least;
  if (layer->rest[set] == UNKNOWN)
    layer->rest[set] = weigh_rest (run, bits);
  if (layer->rest[set] >= FAR)
    return FAR;
  ends = weigh_ends (run, bits, last);
  return ends >= FAR ? FAR : MAX (least, ends + layer->rest[set]);
}

/* A way to the state (@bits, @node) at @cost; kept if it can lead to something better. */
static void
reach (Run *run, const guint64 *bits, guint node, gint64 cost, guint32 parent)
{
  gint64 wanted = (run->run->search->best_cost - 1) * HS_TOUR_SCALE;
  Layer *layer = &run->next;
  guint set = find_set (run, bits);
  guint32 old;
  gint64 least;

  for (old = layer->heads[set]; old != NONE && layer->labels[old].last != node; old = layer->labels[old].next)
    ;
  if (old != NONE && layer->labels[old].cost <= cost)
    return;
  least = weigh_all (run, set, node, wanted - cost * HS_TOUR_SCALE) + cost * HS_TOUR_SCALE;
  if (least > wanted)
    return;
  run->next_floor = MIN (run->next_floor, least);
  if (old != NONE)
    {
      Past *past = &g_array_index (run->pasts, Past, layer->labels[old].past);

      layer->labels[old].cost = cost;
      layer->labels[old].least = least;
      past->parent = parent;
    }
  else
    {
      Past past = { parent, (guint16) node };
      Label label = { cost, least, run->pasts->len, NONE, (guint16) node };

      g_array_append_val (run->pasts, past);
      append_label (run, set, &label);
    }
}

static void
leave (Run *run, guint set, const Label *label)
{
  const guint64 *bits = &run->now.bits[(gsize) set * run->words];
  guint64 then[(HS_TOUR_MAX_NODES + 63) / 64];

  memcpy (then, bits, run->words * sizeof *bits);
  for (guint j = 1; j < run->n; j++)
    {
      if (has_bit (bits, j) || run->weights[(gsize) label->last * run->n + j] >= FAR || !is_ready (run, bits, j))
        continue;
      then[j / 64] ^= G_GUINT64_CONSTANT (1) << j % 64;
      reach (run, then, j, label->cost + hs_tour_frame_cost (run->frame, label->last, j), label->past);
      then[j / 64] ^= G_GUINT64_CONSTANT (1) << j % 64;
    }
}

/* FALSE if told to give up, or full. */
static gboolean
leave_layer (Run *run)
{
  for (guint set = 0; set < run->now.n_sets; set++)
    for (guint32 l = run->now.heads[set]; l != NONE; l = run->now.labels[l].next)
      {
        if (run->asks++ % ASK_EVERY == 0)
          {
            run->run->full = bytes_kept (run) > run->run->most_bytes;
            if (run->run->full || hs_tour_search_gives_up (run->run->search))
              return FALSE;
          }
        leave (run, set, &run->now.labels[l]);
      }
  return TRUE;
}

static int
compare_least (const void *a, const void *b)
{
  gint64 left = *(const gint64 *) a;
  gint64 right = *(const gint64 *) b;

  return (left > right) - (left < right);
}

/* Keeps only the @width states of the next layer that promise most; of those that promise as much as the last of them
 * (@alike, so many) any. */
static void
narrow_layer (Run *run, guint width)
{
  Layer *layer = &run->next;
  guint n_labels = layer->n_labels;
  g_autofree gint64 *sorted = NULL;
  guint alike = width;
  gint64 most;

  if (width == 0 || n_labels <= width)
    return;
  sorted = g_new (gint64, n_labels);
  for (guint l = 0; l < n_labels; l++)
    sorted[l] = layer->labels[l].least;
  qsort (sorted, n_labels, sizeof *sorted, compare_least);
  most = sorted[width - 1];
  while (alike > 0 && sorted[width - alike] < most)
    alike--;
  run->dropped_floor = MIN (run->dropped_floor, sorted[width]);
  for (guint set = 0; set < layer->n_sets; set++)
    {
      guint32 *link = &layer->heads[set];

      while (*link != NONE)
        {
          const Label *label = &layer->labels[*link];

          if (label->least < most || (label->least == most && alike > 0))
            {
              alike -= label->least == most;
              link = &layer->labels[*link].next;
            }
          else
            *link = label->next;
        }
    }
}

/* The last layer: all nodes done, only the leg home is left. */
static void
keep_best (Run *run)
{
  HsTourSearch *search = run->run->search;

  for (guint l = 0; l < run->now.n_labels; l++)
    {
      const Label *label = &run->now.labels[l];
      gint64 cost = label->cost + (run->n > 1 ? hs_tour_frame_cost (run->frame, label->last, 0) : 0);
      guint32 past = label->past;

      if (cost >= search->best_cost)
        continue;
      search->best_cost = cost;
      for (guint k = run->n; k > 0; k--)
        {
          search->best[k - 1] = g_array_index (run->pasts, Past, past).node;
          past = g_array_index (run->pasts, Past, past).parent;
        }
    }
}

/* Which legs there are: all of the frame, or those that the tree has not taken out. */
static void
fill_legs (Run *run)
{
  const HsTourTree *tree = run->run->tree;
  gsize n = run->n;

  for (gsize i = 0; i < n * n; i++)
    run->weights[i] = tree == NULL && run->frame->costs[i] != HS_TOUR_NO_LEG ? 0 : FAR;
  if (tree == NULL)
    return;
  memcpy (run->going, tree->prices, n * sizeof *run->going);
  memcpy (run->coming, tree->prices + (tree->target == 1 ? n : 0), n * sizeof *run->coming);
  for (guint a = 0; a < tree->n_legs; a++)
    {
      guint i = tree->legs[a].tail;
      guint j = tree->legs[a].head;

      if (tree->state[a] == HS_TOUR_LEG_OUT)
        continue;
      run->weights[i * n + j] = 0;
      if (tree->target == 2)
        run->weights[j * n + i] = 0;
    }
}

static void
weigh_legs (Run *run)
{
  gsize n = run->n;

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      if (run->weights[i * n + j] < FAR)
        run->weights[i * n + j] = (gint64) hs_tour_frame_cost (run->frame, i, j) * HS_TOUR_SCALE + run->going[i]
                                  + run->coming[j];
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      run->either[i * n + j] = MIN (run->weights[i * n + j], run->weights[j * n + i]);
}

static void
run_clear (Run *run)
{
  layer_clear (&run->now);
  layer_clear (&run->next);
  g_array_unref (run->pasts);
  g_free (run->weights);
  g_free (run->either);
  g_free (run->going);
  g_free (run->coming);
  g_free (run->left);
  g_free (run->nearest);
}

static void
run_init (Run *run, HsTourLabels *labels)
{
  gsize n = labels->search->frame->n;

  run->run = labels;
  run->frame = labels->search->frame;
  run->n = labels->search->frame->n;
  run->words = labels->search->frame->words;
  run->weights = g_new (gint64, n * n);
  run->either = g_new (gint64, n * n);
  run->going = g_new0 (gint64, n);
  run->coming = g_new0 (gint64, n);
  run->left = g_new (guint16, n);
  run->nearest = g_new (gint64, n);
  run->pasts = g_array_new (FALSE, FALSE, sizeof (Past));
  fill_legs (run);
  weigh_legs (run);
}

/* The bound that the states of a layer give, those that were dropped before included. */
static void
raise_floor (Run *run, gint64 floor)
{
  floor = MIN (floor, run->dropped_floor);
  if (floor > 0 && floor < FAR)
    run->run->floor = MAX (run->run->floor, (floor + HS_TOUR_SCALE - 1) / HS_TOUR_SCALE);
}

static gboolean
make_next_layer (Run *run)
{
  HsTourLabels *labels = run->run;

  if (labels->tree != NULL && labels->tree->target == 1)
    {
      hs_tour_labels_retune (labels->search, run->weights, run->done + 1, run->going, run->coming);
      weigh_legs (run);
    }
  run->next_floor = G_MAXINT64;
  if (!leave_layer (run))
    return FALSE;
  narrow_layer (run, labels->width);
  return TRUE;
}

gboolean
hs_tour_labels_run (HsTourLabels *labels)
{
  Run run = { NULL };
  guint64 start[(HS_TOUR_MAX_NODES + 63) / 64] = { 1 };
  gboolean whole = TRUE;

  run_init (&run, labels);
  run.next_floor = run.dropped_floor = G_MAXINT64;
  reach (&run, start, 0, 0, NONE);
  for (run.done = 1; whole; run.done++)
    {
      raise_floor (&run, run.next_floor);
      layer_clear (&run.now);
      run.now = run.next;
      memset (&run.next, 0, sizeof run.next);
      labels->states += run.now.n_labels;
      if (run.now.n_labels == 0)
        break;
      if (run.done == run.n)
        {
          keep_best (&run);
          break;
        }
      whole = make_next_layer (&run);
    }
  run_clear (&run);
  if (!whole)
    return FALSE;
  if (run.dropped_floor == G_MAXINT64)
    labels->floor = labels->search->best_cost;
  else
    labels->floor = MAX (labels->floor, MIN (labels->search->best_cost, run.dropped_floor / HS_TOUR_SCALE));
  return labels->floor >= labels->search->best_cost;
}
