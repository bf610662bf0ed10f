// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Import of what is open with the counters: core deposits, parts to return, and the needs of jobs. Two equal rows of
 * cores are two cores. Refuses a deposit or a quantity of nothing and a last day before the purchase.
 */

#include "hs-core-row.h"
#include "hs-import-row.h"
#include "hs-need-row.h"
#include "hs-ops-private.h"
#include "hs-supplier-row.h"

#define MOST_PIECES G_GINT64_CONSTANT (1000000000)

enum
{
  NEED_JOB,
  NEED_PART,
  NEED_QUANTITY,
  NEED_SURE,
  NEED_SUPPLIER,
  NEED_QUOTED,
};

static const HsImportColumn need_columns[] = {
  [NEED_JOB] = { "job", HS_IMPORT_TEXT, TRUE },
  [NEED_PART] = { "part", HS_IMPORT_TEXT, TRUE },
  [NEED_QUANTITY] = { "quantity", HS_IMPORT_THOUSANDTHS, FALSE, 1, MOST_PIECES },
  [NEED_SURE] = { "sure_percent", HS_IMPORT_WHOLE, FALSE, 0, 100 },
  [NEED_SUPPLIER] = { "supplier", HS_IMPORT_TEXT },
  [NEED_QUOTED] = { "quoted", HS_IMPORT_MONEY },
};

static const HsNeedRow *
pick_need (GPtrArray *needs, const char *part_id, const char *supplier_id)
{
  for (guint i = 0; i < needs->len; i++)
    {
      const HsNeedRow *need = g_ptr_array_index (needs, i);

      if (g_str_equal (need->part_id, part_id) && g_strcmp0 (need->supplier_id, supplier_id) == 0)
        return need;
    }
  return NULL;
}

static HsImportOutcome
save_need_row (HsImportRun *run, const char *job_id, const char *part_id, const char *supplier_id)
{
  g_autoptr (GPtrArray) needs = NULL;
  g_autoptr (HsNeedRow) need = NULL;
  const HsNeedRow *known;
  GError *error = NULL;
  gboolean changed;

  if (!hs_need_row_list_of (run->store, job_id, &needs, &error))
    return hs_import_fault_error (run, NEED_JOB, error);
  known = pick_need (needs, part_id, supplier_id);
  need = known == NULL ? hs_need_row_new () : hs_need_row_copy (known);
  changed = hs_import_set_id (&need->job_id, job_id);
  changed |= hs_import_set_id (&need->part_id, part_id);
  changed |= hs_import_set_id (&need->supplier_id, supplier_id);
  changed |= hs_import_set_number (&need->quantity_milli, &run->values[NEED_QUANTITY]);
  changed |= hs_import_set_number (&need->sure_percent, &run->values[NEED_SURE]);
  changed |= hs_import_set_number (&need->quoted_cents, &run->values[NEED_QUOTED]);
  if (changed)
    hs_need_row_save (run->store, need, &error);
  return hs_import_outcome (run, known == NULL, changed, error);
}

static HsImportOutcome
save_need (HsImportRun *run)
{
  g_autofree char *job_id = NULL;
  g_autofree char *part_id = NULL;
  g_autofree char *supplier_id = NULL;

  if (!hs_import_find_job (run, NEED_JOB, &job_id) | !hs_import_find_part (run, NEED_PART, &part_id)
      | !hs_import_find_supplier (run, NEED_SUPPLIER, &supplier_id))
    return HS_IMPORT_BAD;
  if (!hs_import_claim (run, NEED_PART,
                        g_strdup_printf ("%s\n%s\n%s", job_id, part_id, supplier_id == NULL ? "" : supplier_id)))
    return HS_IMPORT_BAD;
  return save_need_row (run, job_id, part_id, supplier_id);
}

const HsImportKind hs_import_needs = { "needs", need_columns, G_N_ELEMENTS (need_columns), save_need };

enum
{
  CORE_SUPPLIER,
  CORE_PART,
  CORE_DEPOSIT,
  CORE_PAID_ON,
  CORE_JOB,
  CORE_WHERE,
};

static const HsImportColumn core_columns[] = {
  [CORE_SUPPLIER] = { "supplier", HS_IMPORT_TEXT, TRUE },
  [CORE_PART] = { "part", HS_IMPORT_TEXT, TRUE },
  [CORE_DEPOSIT] = { "deposit", HS_IMPORT_MONEY, TRUE },
  [CORE_PAID_ON] = { "paid_on", HS_IMPORT_DATE, TRUE },
  [CORE_JOB] = { "job", HS_IMPORT_TEXT },
  [CORE_WHERE] = { "where_now", HS_IMPORT_WORD, .words = HS_WORDS_CORE_PLACE },
};

static char *
core_key (const HsCoreRow *core)
{
  return g_strdup_printf ("%s\n%s\n%s\n%" G_GINT64_FORMAT "\n%d", core->supplier_id,
                          core->part_id == NULL ? "" : core->part_id, core->job_id == NULL ? "" : core->job_id,
                          core->deposit_cents, core->paid_on);
}

/* How many equal cores the book had before this file; the table is read once a file. */
static gboolean
count_cores (HsImportRun *run, const char *key, guint *ret_count, GError **error)
{
  g_autoptr (GPtrArray) cores = NULL;

  if (run->in_book == NULL)
    {
      if (!hs_core_row_list (run->store, FALSE, &cores, error))
        return FALSE;
      run->in_book = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
    }
  for (guint i = 0; cores != NULL && i < cores->len; i++)
    {
      char *known = core_key (g_ptr_array_index (cores, i));
      guint count = GPOINTER_TO_UINT (g_hash_table_lookup (run->in_book, known));

      g_hash_table_insert (run->in_book, known, GUINT_TO_POINTER (count + 1));
    }
  *ret_count = GPOINTER_TO_UINT (g_hash_table_lookup (run->in_book, key));
  return TRUE;
}

static gboolean
fill_core (HsImportRun *run, HsCoreRow *core, GError **error)
{
  const HsImportValue *where = &run->values[CORE_WHERE];
  g_autoptr (HsSupplierRow) supplier = NULL;

  core->deposit_cents = run->values[CORE_DEPOSIT].number;
  core->paid_on = (HsDate) run->values[CORE_PAID_ON].number;
  hs_import_set_word (&core->where_now, where);
  if (g_strcmp0 (where->word, "credited") == 0)
    core->credit_ref = g_strdup_printf ("%s, row %u", run->file, run->row);
  if (!hs_supplier_row_load (run->store, core->supplier_id, &supplier, error))
    return FALSE;
  if (supplier->core_days != HS_INT_NONE)
    core->due_on = hs_date_add_days (core->paid_on, (int) supplier->core_days);
  return TRUE;
}

static HsImportOutcome
save_core (HsImportRun *run)
{
  g_autoptr (HsCoreRow) core = hs_core_row_new ();
  g_autofree char *key = NULL;
  GError *error = NULL;
  guint in_book;

  if (run->values[CORE_DEPOSIT].number == 0)
    hs_import_fault (run, CORE_DEPOSIT, "a deposit is more than nothing");
  hs_import_find_supplier (run, CORE_SUPPLIER, &core->supplier_id);
  hs_import_find_part (run, CORE_PART, &core->part_id);
  hs_import_find_job (run, CORE_JOB, &core->job_id);
  if (run->row_bad)
    return HS_IMPORT_BAD;
  if (!fill_core (run, core, &error))
    return hs_import_fault_error (run, CORE_SUPPLIER, error);
  key = core_key (core);
  if (!count_cores (run, key, &in_book, &error))
    return hs_import_fault_error (run, CORE_SUPPLIER, error);
  if (hs_import_count (run, key) <= in_book)
    return HS_IMPORT_UNCHANGED;
  hs_core_row_save (run->store, core, &error);
  return hs_import_outcome (run, TRUE, TRUE, error);
}

const HsImportKind hs_import_cores = { "cores", core_columns, G_N_ELEMENTS (core_columns), save_core };

enum
{
  RETURN_SUPPLIER,
  RETURN_PART,
  RETURN_QUANTITY,
  RETURN_AMOUNT,
  RETURN_BOUGHT_ON,
  RETURN_LAST_DAY,
};

static const HsImportColumn return_columns[] = {
  [RETURN_SUPPLIER] = { "supplier", HS_IMPORT_TEXT, TRUE },
  [RETURN_PART] = { "part", HS_IMPORT_TEXT, TRUE },
  [RETURN_QUANTITY] = { "quantity", HS_IMPORT_THOUSANDTHS, TRUE, 1, MOST_PIECES },
  [RETURN_AMOUNT] = { "amount", HS_IMPORT_MONEY, TRUE },
  [RETURN_BOUGHT_ON] = { "bought_on", HS_IMPORT_DATE, TRUE },
  [RETURN_LAST_DAY] = { "last_day", HS_IMPORT_DATE },
};

static char *
return_key (const HsReturnRow *row)
{
  return g_strdup_printf ("%s\n%s\n%d\n%" G_GINT64_FORMAT, row->supplier_id, row->part_id, row->bought_on,
                          row->quantity_milli);
}

/* Reads the table of returns once a file; of two with one key the first counts. */
static gboolean
load_returns (HsImportRun *run, GError **error)
{
  g_autoptr (GPtrArray) returns = NULL;

  if (run->in_book != NULL)
    return TRUE;
  if (!hs_return_row_list (run->store, FALSE, &returns, error))
    return FALSE;
  run->in_book = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) hs_return_row_free);
  for (guint i = returns->len; i > 0; i--)
    {
      const HsReturnRow *row = g_ptr_array_index (returns, i - 1);

      g_hash_table_replace (run->in_book, return_key (row), hs_return_row_copy (row));
    }
  return TRUE;
}

/* Without a last day in the file, a new row takes it from the supplier's terms. */
static gboolean
set_last_day (HsImportRun *run, HsReturnRow *row, gboolean is_new, GError **error)
{
  const HsImportValue *last_day = &run->values[RETURN_LAST_DAY];
  g_autoptr (HsSupplierRow) supplier = NULL;
  HsDate wanted = row->last_day;

  if (last_day->given)
    wanted = (HsDate) last_day->number;
  else if (is_new)
    {
      if (!hs_supplier_row_load (run->store, row->supplier_id, &supplier, error))
        return FALSE;
      if (supplier->return_days != HS_INT_NONE)
        wanted = hs_date_add_days (row->bought_on, (int) supplier->return_days);
    }
  if (wanted == row->last_day)
    return FALSE;
  row->last_day = wanted;
  return TRUE;
}

/* A row of the book is changed, any other joins what is known, so that its repetition in the file is no second one. */
static HsImportOutcome
save_return_row (HsImportRun *run, HsReturnRow *wanted)
{
  g_autofree char *key = return_key (wanted);
  HsReturnRow *row = NULL;
  GError *error = NULL;
  gboolean is_new, changed;

  if (!load_returns (run, &error))
    return hs_import_fault_error (run, RETURN_SUPPLIER, error);
  row = g_hash_table_lookup (run->in_book, key);
  is_new = row == NULL;
  if (is_new)
    {
      row = hs_return_row_copy (wanted);
      g_hash_table_insert (run->in_book, g_steal_pointer (&key), row);
    }
  changed = is_new;
  changed |= hs_import_set_number (&row->amount_cents, &run->values[RETURN_AMOUNT]);
  changed |= set_last_day (run, row, is_new, &error);
  if (changed && error == NULL)
    hs_return_row_save (run->store, row, &error);
  return hs_import_outcome (run, is_new, changed, error);
}

static HsImportOutcome
save_return (HsImportRun *run)
{
  const HsImportValue *values = run->values;
  g_autoptr (HsReturnRow) wanted = hs_return_row_new ();

  if (values[RETURN_LAST_DAY].given && values[RETURN_LAST_DAY].number < values[RETURN_BOUGHT_ON].number)
    hs_import_fault (run, RETURN_LAST_DAY, "%s is before it was bought, %s", values[RETURN_LAST_DAY].text,
                     values[RETURN_BOUGHT_ON].text);
  hs_import_find_supplier (run, RETURN_SUPPLIER, &wanted->supplier_id);
  hs_import_find_part (run, RETURN_PART, &wanted->part_id);
  wanted->bought_on = (HsDate) values[RETURN_BOUGHT_ON].number;
  wanted->quantity_milli = values[RETURN_QUANTITY].number;
  if (run->row_bad || !hs_import_claim (run, RETURN_PART, return_key (wanted)))
    return HS_IMPORT_BAD;
  return save_return_row (run, wanted);
}

const HsImportKind hs_import_returns = { "returns", return_columns, G_N_ELEMENTS (return_columns), save_return };
