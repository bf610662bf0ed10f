// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Bringing a file of rows into the book. One file is one transaction: every row is tried, every fault is listed, and
 * nothing stays if there is one. A row that the book already holds word for word adds nothing, so a file may be
 * brought in twice. Refuses unknown columns by name (unless told to ignore them), missing ones, and whatever the
 * columns and the book refuse.
 */

#include "hs-import.h"

#include "hs-csv.h"
#include "hs-import-row.h"
#include "hs-ops-error.h"
#include "hs-ops-private.h"

static const HsImportKind *const kinds[] = {
  &hs_import_areas,    &hs_import_travel,   &hs_import_customers, &hs_import_vehicles,
  &hs_import_suppliers, &hs_import_hours,   &hs_import_parts,     &hs_import_prices,
  &hs_import_stock,    &hs_import_jobs,     &hs_import_needs,     &hs_import_odometer,
  &hs_import_installed, &hs_import_readings, &hs_import_cores,    &hs_import_returns,
  &hs_import_trips,    &hs_import_holidays,
};

void
hs_import_report_free (HsImportReport *report)
{
  if (report == NULL)
    return;
  g_ptr_array_unref (report->faults);
  g_ptr_array_unref (report->notes);
  g_free (report);
}

static HsImportReport *
report_new (void)
{
  HsImportReport *report = g_new0 (HsImportReport, 1);

  report->faults = g_ptr_array_new_with_free_func (g_free);
  report->notes = g_ptr_array_new_with_free_func (g_free);
  return report;
}

const char *const *
hs_import_get_kinds (void)
{
  static const char *ids[G_N_ELEMENTS (kinds) + 1];
  static gsize ready = 0;

  if (g_once_init_enter (&ready))
    {
      for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
        ids[i] = kinds[i]->id;
      g_once_init_leave (&ready, 1);
    }
  return ids;
}

static const HsImportKind *
find_kind (const char *id, GError **error)
{
  g_autofree char *known = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (g_str_equal (kinds[i]->id, id))
      return kinds[i];
  known = g_strjoinv (", ", (char **) hs_import_get_kinds ());
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, "There is no kind of file called “%s”. There are: %s.", id,
               known);
  return NULL;
}

static int
find_column (const HsImportKind *kind, const char *name)
{
  for (gsize i = 0; i < kind->n_columns; i++)
    if (g_ascii_strcasecmp (kind->columns[i].name, name) == 0)
      return (int) i;
  return -1;
}

static char *
column_names (const HsImportKind *kind)
{
  GString *names = g_string_new (NULL);

  for (gsize i = 0; i < kind->n_columns; i++)
    g_string_append_printf (names, "%s%s", i == 0 ? "" : ", ", kind->columns[i].name);
  return g_string_free (names, FALSE);
}

static void
check_header (HsImportRun *run, HsCsv *csv, HsImportFlags flags)
{
  const char *const *header = hs_csv_get_header (csv);
  g_autofree char *known = column_names (run->kind);

  for (gsize i = 0; header[i] != NULL; i++)
    if (find_column (run->kind, header[i]) < 0 && (flags & HS_IMPORT_IGNORE_UNKNOWN) == 0)
      g_ptr_array_add (run->report->faults,
                       g_strdup_printf ("%s:1: %s: there is no such column for %s; there are: %s", run->file,
                                        header[i], run->kind->id, known));
  for (gsize i = 0; i < run->kind->n_columns; i++)
    if (run->kind->columns[i].required && hs_csv_find_column (csv, run->kind->columns[i].name) < 0)
      g_ptr_array_add (run->report->faults,
                       g_strdup_printf ("%s:1: %s: the column is missing, but it is needed", run->file,
                                        run->kind->columns[i].name));
}

static void
save_row (HsImportRun *run)
{
  HsImportOutcome outcome = run->kind->save (run);

  if (run->row_bad)
    return;
  if (outcome == HS_IMPORT_ADDED)
    run->report->added++;
  else if (outcome == HS_IMPORT_CHANGED)
    run->report->changed++;
  else
    run->report->unchanged++;
}

static void
read_rows (HsImportRun *run, HsCsv *csv)
{
  g_autofree const char **fields = g_new0 (const char *, run->kind->n_columns);
  g_autofree int *columns = g_new (int, run->kind->n_columns);

  for (gsize i = 0; i < run->kind->n_columns; i++)
    columns[i] = hs_csv_find_column (csv, run->kind->columns[i].name);
  while (run->fatal == NULL)
    {
      g_autoptr (GError) error = NULL;
      HsCsvStep step = hs_csv_next (csv, &error);

      if (step == HS_CSV_END)
        return;
      run->row = hs_csv_get_row (csv);
      run->report->rows++;
      if (step == HS_CSV_BAD_ROW)
        {
          g_ptr_array_add (run->report->faults,
                           g_strdup_printf ("%s:%u: row: %s", run->file, run->row, error->message));
          continue;
        }
      for (gsize i = 0; i < run->kind->n_columns; i++)
        fields[i] = columns[i] < 0 ? NULL : hs_csv_get_field (csv, (guint) columns[i]);
      if (hs_import_read_row (run, fields))
        save_row (run);
      hs_import_clear_row (run);
    }
}

static gboolean
refuse (HsImportRun *run, GError **error)
{
  guint n = run->report->faults->len;

  if (run->fatal != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&run->fatal));
      return FALSE;
    }
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
               "%s: %u fault%s; nothing was saved. Mend %s and bring the file in again.", run->file, n,
               n == 1 ? "" : "s", n == 1 ? "it" : "them");
  return FALSE;
}

static gboolean
run_in_transaction (HsImportRun *run, HsCsv *csv, GError **error)
{
  if (!hs_store_begin (run->store, run->now, error))
    return FALSE;
  read_rows (run, csv);
  if (run->report->faults->len == 0 && run->fatal == NULL)
    return hs_store_commit (run->store, error);
  hs_store_rollback (run->store);
  run->report->added = run->report->changed = run->report->unchanged = 0;
  g_ptr_array_set_size (run->report->notes, 0);
  return refuse (run, error);
}

static void
run_clear (HsImportRun *run)
{
  g_clear_pointer (&run->keys, g_hash_table_unref);
  g_clear_pointer (&run->seen, g_hash_table_unref);
  g_clear_pointer (&run->in_book, g_hash_table_unref);
  g_clear_pointer (&run->values, g_free);
  g_clear_error (&run->fatal);
}

gboolean
hs_import (HsBook *book, const char *kind_id, const char *file, GBytes *bytes, HsImportFlags flags, HsInstant now,
           HsImportReport **ret_report, GError **error)
{
  const HsImportKind *kind = find_kind (kind_id, error);
  g_autoptr (HsImportReport) report = report_new ();
  g_autoptr (GError) broken = NULL;
  g_autoptr (HsCsv) csv = NULL;
  gboolean done = FALSE;

  if (kind == NULL)
    return FALSE;
  HsImportRun run = { .book = book,
                      .store = hs_book_get_store (book),
                      .now = now,
                      .currency = hs_book_get_currency (book),
                      .kind = kind,
                      .file = file,
                      .report = report };
  hs_instant_to_local (hs_book_get_zone (book), now, &run.today, NULL);
  csv = hs_csv_new (bytes, 0, &broken);
  if (csv == NULL)
    g_ptr_array_add (report->faults, g_strdup_printf ("%s:1: header: %s", file, broken->message));
  else
    check_header (&run, csv, flags);
  run.values = g_new0 (HsImportValue, kind->n_columns);
  done = report->faults->len > 0 ? refuse (&run, error) : run_in_transaction (&run, csv, error);
  run_clear (&run);
  if (ret_report != NULL)
    *ret_report = g_steal_pointer (&report);
  return done;
}
