// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Vans with their letters and job numbers, and the people who work. */

#include "hs-van-row.h"

#include "hs-ident.h"
#include "hs-table.h"

static const HsColumn van_columns[] = {
  HS_TEXT (HsVanRow, id),
  HS_TEXT (HsVanRow, letter),
  HS_TEXT (HsVanRow, plate),
  HS_INT_OR (HsVanRow, next_number, 1),
};

static const HsTable van_table = {
  HS_TABLE (HsVanRow, "van", "van", van_columns),
};

static const HsColumn worker_columns[] = {
  HS_TEXT (HsWorkerRow, id),
  HS_TEXT (HsWorkerRow, name),
  HS_INT_OR (HsWorkerRow, wage_cents, 0),
};

static const HsTable worker_table = {
  HS_TABLE (HsWorkerRow, "worker", "worker", worker_columns),
};

HS_DEFINE_ROW (HsVanRow, hs_van_row, van_table)
HS_DEFINE_ROW (HsWorkerRow, hs_worker_row, worker_table)

gboolean
hs_van_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &van_table, (GDestroyNotify) hs_van_row_free, ret_rows, error,
                        "ORDER BY letter", "");
}

gboolean
hs_worker_row_list (HsStore *store, GPtrArray **ret_rows, GError **error)
{
  return hs_table_list (store, &worker_table, (GDestroyNotify) hs_worker_row_free, ret_rows, error,
                        "ORDER BY seq", "");
}

gboolean
hs_van_row_find (HsStore *store, const char *letter, HsVanRow **ret_row, GError **error)
{
  return hs_table_need (store, &van_table, (gpointer *) ret_row, error, letter,
                        "WHERE letter = ?1", "t", letter);
}

gboolean
hs_van_row_take_number (HsStore *store, const char *van_id, char **ret_number, GError **error)
{
  g_autoptr (HsVanRow) van = NULL;
  g_autofree char *number = NULL;

  if (!hs_van_row_load (store, van_id, &van, error))
    return FALSE;
  if (van->next_number > HS_JOB_NUMBER_LAST)
    {
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_REFUSED, "Van %s has used up its job numbers; add another van",
                   van->letter);
      return FALSE;
    }
  number = hs_job_number_format (van->letter[0], (int) van->next_number);
  van->next_number++;
  if (!hs_van_row_save (store, van, error))
    return FALSE;
  *ret_number = g_steal_pointer (&number);
  return TRUE;
}
