// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Lays a frame out for going through it forward or backward. */

#include "hs-tsptw-way.h"

static gint64
leg_of (const HsTsptwFrame *frame, gboolean backward, guint from, guint to)
{
  return backward ? frame->drive[to * frame->n + from] : frame->drive[from * frame->n + to];
}

static gint64
near_of (const HsTsptwFrame *frame, gboolean backward, guint from, guint to)
{
  return backward ? frame->near[to * frame->n + from] : frame->near[from * frame->n + to];
}

static int
compare_steps (const void *a, const void *b)
{
  const HsTsptwStep *left = a;
  const HsTsptwStep *right = b;

  if (left->limit != right->limit)
    return left->limit > right->limit ? -1 : 1;
  return (int) left->to - (int) right->to;
}

static void
lay_steps (HsTsptwWay *way, const HsTsptwFrame *frame)
{
  guint count = 0;

  way->steps = g_new (HsTsptwStep, way->n * way->n);
  for (guint from = 0; from < way->n; from++)
    {
      way->first_step[from] = count;
      for (guint to = 1; to < way->n; to++)
        {
          gint64 drive = leg_of (frame, way->backward, from, to);

          if (drive < HS_TSPTW_FAR)
            way->steps[count++] = (HsTsptwStep){ drive, way->to[to] - drive, 0, (guint16) to };
        }
      qsort (&way->steps[way->first_step[from]], count - way->first_step[from], sizeof (HsTsptwStep), compare_steps);
      way->home[from] = leg_of (frame, way->backward, from, 0);
      way->near_home[from] = near_of (frame, way->backward, from, 0);
    }
  way->first_step[way->n] = count;
}

/* Late: after @limit the stop @other is missed. */
typedef struct
{
  gint64 limit;
  guint other;
} Late;

static int
compare_lates (const void *a, const void *b)
{
  const Late *left = a;
  const Late *right = b;

  return left->limit < right->limit ? -1 : left->limit > right->limit;
}

/* What has to come before @node is missed anyway, and is not listed. */
static guint
find_lates (const HsTsptwWay *way, const HsTsptwFrame *frame, guint node, Late *lates)
{
  guint count = 0;

  for (guint other = 1; other < way->n; other++)
    {
      gint64 limit = way->to[other] - near_of (frame, way->backward, node, other);

      if (other != node && limit < way->to[node] && !hs_set_has (way->before + node * way->words, other))
        lates[count++] = (Late){ limit, other };
    }
  qsort (lates, count, sizeof (Late), compare_lates);
  return count;
}

static void
lay_lates (HsTsptwWay *way, const HsTsptwFrame *frame)
{
  g_autofree Late *lates = g_new (Late, way->n);
  gsize bytes = way->words * sizeof (guint64);
  guint at = 0;

  way->lates = g_new (gint64, way->n * way->n);
  way->missed = g_malloc (way->n * way->n * bytes);
  for (guint node = 1; node < way->n; node++)
    {
      guint count = find_lates (way, frame, node, lates);

      way->first_late[node] = at;
      for (guint i = 0; i < count; i++, at++)
        {
          guint64 *missed = way->missed + (gsize) at * way->words;

          way->lates[at] = lates[i].limit;
          if (i == 0)
            memset (missed, 0, bytes);
          else
            memcpy (missed, missed - way->words, bytes);
          hs_set_add (missed, lates[i].other);
        }
    }
  way->first_late[way->n] = at;
}

HsTsptwWay *
hs_tsptw_way_new (const HsTsptwFrame *frame, gboolean backward)
{
  HsTsptwWay *way = g_new0 (HsTsptwWay, 1);

  way->n = frame->n;
  way->words = frame->words;
  way->backward = backward;
  way->possible = frame->possible;
  way->shift = frame->home_by;
  way->start = backward ? 0 : frame->from[0];
  way->end = backward ? frame->home_by - frame->from[0] : frame->home_by;
  way->from = g_new (gint64, way->n);
  way->to = g_new (gint64, way->n);
  way->home = g_new (gint64, way->n);
  way->near_home = g_new (gint64, way->n);
  for (guint i = 0; i < way->n; i++)
    {
      way->from[i] = backward ? way->shift - frame->to[i] : frame->from[i];
      way->to[i] = backward ? way->shift - frame->from[i] : frame->to[i];
    }
  way->before = g_memdup2 (backward ? frame->after : frame->before, way->n * way->words * sizeof (guint64));
  lay_steps (way, frame);
  lay_lates (way, frame);
  return way;
}

void
hs_tsptw_way_free (HsTsptwWay *way)
{
  if (way == NULL)
    return;
  g_free (way->from);
  g_free (way->to);
  g_free (way->home);
  g_free (way->near_home);
  g_free (way->steps);
  g_free (way->lates);
  g_free (way->missed);
  g_free (way->before);
  g_free (way);
}
