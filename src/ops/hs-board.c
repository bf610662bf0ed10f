// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The board: every job that is open, and every closed one that still wants something, by stage in the order in which
 * they want attention. What is squared and paid is only counted. Reads only.
 */

#include "hs-board.h"

#include "hs-board-row.h"
#include "hs-chase-row.h"
#include "hs-job-row.h"

#include <string.h>

void
hs_board_free (HsBoard *board)
{
  if (board == NULL)
    return;
  g_ptr_array_unref (board->rows);
  g_free (board);
}

/* At hand first, then who waits for an answer, then the day, then money. */
static int
stage_rank (HsStage stage)
{
  static const int rank[HS_N_STAGES] = {
    [HS_STAGE_ROLLING] = 0, [HS_STAGE_ON_SITE] = 1, [HS_STAGE_CALLED_IN] = 2, [HS_STAGE_PENCILED] = 3,
    [HS_STAGE_WAITING_PART] = 4, [HS_STAGE_WAITING_YES] = 5, [HS_STAGE_PROVEN] = 6, [HS_STAGE_PROMISED] = 7,
    [HS_STAGE_SQUARED] = 8, [HS_STAGE_CALLED_OFF] = 9, [HS_STAGE_TURNED_AWAY] = 10,
  };

  return rank[stage];
}

static int
compare_instants (HsInstant left, HsInstant right)
{
  if (left == right)
    return 0;
  if (left == HS_INSTANT_NONE || right == HS_INSTANT_NONE)
    return left == HS_INSTANT_NONE ? 1 : -1;
  return left < right ? -1 : 1;
}

static int
compare_days (HsDate left, HsDate right)
{
  if (left == right)
    return 0;
  if (left == HS_DATE_NONE || right == HS_DATE_NONE)
    return left == HS_DATE_NONE ? 1 : -1;
  return left < right ? -1 : 1;
}

static int
compare_rows (gconstpointer a, gconstpointer b)
{
  const HsBoardRow *left = *(HsBoardRow *const *) a;
  const HsBoardRow *right = *(HsBoardRow *const *) b;
  int order = stage_rank (left->stage) - stage_rank (right->stage);

  if (order == 0)
    order = compare_days (left->day, right->day);
  if (order == 0)
    order = compare_instants (left->arrive, right->arrive);
  if (order == 0)
    order = compare_instants (left->window_from, right->window_from);
  return order != 0 ? order : strcmp (left->number, right->number);
}

/* The longest due follow-up of a job, an unpaid bill before all else. */
static const HsChaseRow *
find_chase (GPtrArray *chases, const char *job_id)
{
  const HsChaseRow *first = NULL;

  for (guint i = 0; i < chases->len; i++)
    {
      const HsChaseRow *chase = g_ptr_array_index (chases, i);

      if (g_strcmp0 (chase->job_id, job_id) != 0)
        continue;
      if (first == NULL || (g_str_equal (chase->kind, "unpaid") && !g_str_equal (first->kind, "unpaid")))
        first = chase;
    }
  return first;
}

static gboolean
has_glance (GPtrArray *glances, const char *job_id)
{
  for (guint i = 0; i < glances->len; i++)
    if (g_str_equal (((HsJobGlance *) g_ptr_array_index (glances, i))->id, job_id))
      return TRUE;
  return FALSE;
}

/* Closed jobs about which somebody is to be called. */
static gboolean
add_chased (HsStore *store, GPtrArray *glances, GPtrArray *chases, GError **error)
{
  for (guint i = 0; i < chases->len; i++)
    {
      const HsChaseRow *chase = g_ptr_array_index (chases, i);
      HsJobGlance *glance = NULL;

      if (chase->job_id == NULL || has_glance (glances, chase->job_id))
        continue;
      if (!hs_job_glance_load (store, chase->job_id, &glance, error))
        return FALSE;
      g_ptr_array_add (glances, glance);
    }
  return TRUE;
}

static gboolean
count_settled (HsStore *store, HsBoard *board, GError **error)
{
  if (!hs_job_row_count_closed (store, &board->settled, error))
    return FALSE;
  for (guint i = 0; i < board->rows->len; i++)
    if (!hs_stage_is_open (((HsBoardRow *) g_ptr_array_index (board->rows, i))->stage))
      board->settled--;
  return TRUE;
}

static gboolean
add_rows (HsBook *book, HsBoard *board, GPtrArray *glances, GPtrArray *chases, const HsDayPlan *plan, HsInstant now,
          GError **error)
{
  for (guint i = 0; i < glances->len; i++)
    {
      const HsJobGlance *glance = g_ptr_array_index (glances, i);
      HsBoardRow *row = hs_board_row_make (book, glance, plan, find_chase (chases, glance->id), now, error);

      if (row == NULL)
        return FALSE;
      g_ptr_array_add (board->rows, row);
    }
  g_ptr_array_sort (board->rows, compare_rows);
  return TRUE;
}

HsBoard *
hs_board_load (HsBook *book, const HsDayPlan *plan, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsBoard) board = g_new0 (HsBoard, 1);
  g_autoptr (GPtrArray) glances = NULL;
  g_autoptr (GPtrArray) chases = NULL;
  HsDate today;

  board->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_board_row_free);
  hs_instant_to_local (hs_book_get_zone (book), now, &today, NULL);
  if (!hs_job_glance_list (store, &glances, error) || !hs_chase_row_list_due (store, today, &chases, error)
      || !add_chased (store, glances, chases, error)
      || !add_rows (book, board, glances, chases, plan, now, error) || !count_settled (store, board, error))
    return NULL;
  return g_steal_pointer (&board);
}

static gboolean
has_row (const HsBoard *board, const char *job_id)
{
  for (guint i = 0; i < board->rows->len; i++)
    if (g_str_equal (((HsBoardRow *) g_ptr_array_index (board->rows, i))->job_id, job_id))
      return TRUE;
  return FALSE;
}

gboolean
hs_board_unfold (HsBook *book, HsBoard *board, guint most, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) glances = NULL;

  if (!hs_job_glance_list_closed (hs_book_get_store (book), most, &glances, error))
    return FALSE;
  for (guint i = 0; i < glances->len; i++)
    {
      const HsJobGlance *glance = g_ptr_array_index (glances, i);
      HsBoardRow *row;

      if (has_row (board, glance->id))
        continue;
      row = hs_board_row_make (book, glance, NULL, NULL, now, error);
      if (row == NULL)
        return FALSE;
      row->settled = TRUE;
      board->settled--;
      g_ptr_array_add (board->rows, row);
    }
  return TRUE;
}
