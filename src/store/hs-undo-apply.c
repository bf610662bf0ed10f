// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Takes the changes of a step back or does them again, through the same doors as any change: rules, log, search and
 * what follows from a row. A change applies only to a row that stands as the step left it. The labor clock of a job
 * that is squared up since stays as it is: it was billed. */

#include "hs-undo-private.h"

#define TABLES(X) \
  X (hs_advice_line_row) X (hs_advice_row) X (hs_asked_row) X (hs_because_row) X (hs_chase_row) X (hs_check_own_row) \
  X (hs_core_row) X (hs_customer_row) X (hs_disturbed_row) X (hs_finding_row) X (hs_go_ahead_row) \
  X (hs_installed_row) X (hs_job_row) X (hs_line_row) X (hs_model_note_row) X (hs_need_row) X (hs_odometer_row) \
  X (hs_old_plate_row) X (hs_ownership_row) X (hs_pause_row) X (hs_phone_row) X (hs_photo_row) X (hs_plan_row) \
  X (hs_plan_stop_row) X (hs_reading_row) \
  X (hs_return_row) X (hs_safety_row) X (hs_stock_move_row) X (hs_stock_row) X (hs_tick_row) X (hs_trip_row) \
  X (hs_vehicle_row) X (hs_visit_row)

#define DECLARE(prefix) const HsTable *prefix##_get_table (void);
#define NAME(prefix) prefix##_get_table,

TABLES (DECLARE)

static const HsTable *(*const tables[]) (void) = { TABLES (NAME) };

/* One change as it stands in the step. */
typedef struct
{
  const HsTable *table;
  const char *id;
  guint8 act;
  gint64 seq;
  GVariantIter *fields;
  GVariant *variant;
} Change;

static void
change_clear (Change *change)
{
  g_clear_pointer (&change->fields, g_variant_iter_free);
  g_clear_pointer (&change->variant, g_variant_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Change, change_clear)

static const HsTable *
find_table (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (tables); i++)
    if (g_str_equal (tables[i] ()->name, name))
      return tables[i] ();
  return NULL;
}

static const HsColumn *
find_column (const HsTable *table, const char *name)
{
  for (guint i = 0; i < table->n_columns; i++)
    if (g_str_equal (table->columns[i].name, name))
      return &table->columns[i];
  return NULL;
}

static gboolean
stands_against (GError **error, const char *what, const char *why)
{
  g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_REFUSED, "the %s %s", what, why);
  return FALSE;
}

static gboolean
read_change (GVariant *changes, gsize i, Change *ret_change, GError **error)
{
  const char *table;

  ret_change->variant = g_variant_get_child_value (changes, i);
  g_variant_get (ret_change->variant, "(&s&syxa(smvmv))", &table, &ret_change->id, &ret_change->act, &ret_change->seq,
                 &ret_change->fields);
  ret_change->table = find_table (table);
  return ret_change->table != NULL
         || stands_against (error, table, "that it changed is never taken back");
}

/* Puts the fields as they were (or became) into @row; @must: only if they stand in @row as they became (or were). */
static gboolean
set_fields (Change *change, gpointer row, gboolean back, gboolean must, GError **error)
{
  const char *name;
  GVariant *was, *became;

  while (g_variant_iter_next (change->fields, "(&smvmv)", &name, &was, &became))
    {
      g_autoptr (GVariant) old = was;
      g_autoptr (GVariant) new = became;
      const HsColumn *column = find_column (change->table, name);

      if (column == NULL)
        return stands_against (error, change->table->what, "has a field that this version does not know");
      if (must && !hs_table_field_is (row, column, back ? new : old))
        return stands_against (error, change->table->what, "was changed since");
      hs_table_field_set (row, column, back ? old : new);
    }
  return TRUE;
}

static gboolean
load_row (HsStore *store, const Change *change, gpointer *ret_row, GError **error)
{
  return hs_table_find (store, change->table, ret_row, error, "WHERE id = ?1", "t", change->id);
}

static gboolean
change_row (HsStore *store, Change *change, gpointer row, gboolean back, GError **error)
{
  if (row == NULL)
    return stands_against (error, change->table->what, "was removed since");
  return set_fields (change, row, back, TRUE, error) && hs_table_save (store, change->table, row, error);
}

/* The step names what was not empty. What was written into a field since would go with the row unseen. */
static gboolean
remove_row (HsStore *store, Change *change, gpointer row, gboolean back, GError **error)
{
  gpointer left;
  gboolean done;

  if (row == NULL)
    return stands_against (error, change->table->what, "was removed since");
  left = hs_table_new (change->table);
  hs_table_set_id (change->table, left, change->id);
  done = set_fields (change, left, !back, FALSE, error);
  if (done && hs_table_differs (change->table, left, row))
    done = stands_against (error, change->table->what, "was changed since");
  hs_table_free (change->table, left);
  return done && hs_table_delete (store, change->table, change->id, error);
}

static gboolean
put_back_row (HsStore *store, Change *change, gpointer there, gboolean back, GError **error)
{
  gpointer row;
  gboolean done;

  if (there != NULL)
    return stands_against (error, change->table->what, "is there already");
  row = hs_table_new (change->table);
  hs_table_set_id (change->table, row, change->id);
  done = set_fields (change, row, back, FALSE, error)
         && hs_table_put_back (store, change->table, row, change->seq, error);
  hs_table_free (change->table, row);
  return done;
}

/* What the row hangs on: of one that is not there, by what the step knows of it. */
static char *
dup_owner (const Change *change, gconstpointer row, const char *column)
{
  g_autoptr (GVariantIter) fields = g_variant_iter_copy (change->fields);
  gpointer left = hs_table_new (change->table);
  g_autoptr (GVariant) owner = NULL;
  const char *name;
  GVariant *was, *became;

  while (g_variant_iter_next (fields, "(&smvmv)", &name, &was, &became))
    {
      g_autoptr (GVariant) old = was;
      g_autoptr (GVariant) new = became;

      if (g_str_equal (name, column))
        hs_table_field_set (left, find_column (change->table, column), new != NULL ? new : old);
    }
  owner = hs_table_field_get (row != NULL ? row : left, find_column (change->table, column));
  hs_table_free (change->table, left);
  return owner != NULL ? g_strdup (g_variant_get_bytestring (owner)) : NULL;
}

/* @ret_number: of the squared job whose labor clock the row is; %NULL: of none. */
static gboolean
find_squared (HsStore *store, const Change *change, gconstpointer row, char **ret_number, GError **error)
{
  gboolean pause = g_str_equal (change->table->name, "pause");
  g_autofree char *owner = NULL;
  g_autoptr (HsSql) query = NULL;
  gboolean found;

  *ret_number = NULL;
  if (!pause && !g_str_equal (change->table->name, "visit"))
    return TRUE;
  owner = dup_owner (change, row, pause ? "visit_id" : "job_id");
  query = hs_sql_new (store, error,
                      pause ? "SELECT number FROM job WHERE stage = 'squared'"
                              " AND id = (SELECT job_id FROM visit WHERE id = ?1)"
                            : "SELECT number FROM job WHERE stage = 'squared' AND id = ?1", "t", owner);
  if (query == NULL || !hs_sql_step (query, &found, error))
    return FALSE;
  *ret_number = found ? g_strdup (hs_sql_text (query, 0)) : NULL;
  return TRUE;
}

static void
keep (GString *kept, const char *number)
{
  g_auto (GStrv) numbers = g_strsplit (kept->str, ", ", -1);

  if (!g_strv_contains ((const char *const *) numbers, number))
    g_string_append_printf (kept, "%s%s", kept->len > 0 ? ", " : "", number);
}

static gboolean
turn_row (HsStore *store, Change *change, gpointer row, gboolean back, GString *kept, GError **error)
{
  g_autofree char *squared = NULL;

  if (!find_squared (store, change, row, &squared, error))
    return FALSE;
  if (squared != NULL)
    {
      keep (kept, squared);
      return TRUE;
    }
  if (change->act == 'c')
    return change_row (store, change, row, back, error);
  return (change->act == 'a') == back ? remove_row (store, change, row, back, error)
                                      : put_back_row (store, change, row, back, error);
}

static gboolean
apply (HsStore *store, GVariant *changes, gsize i, gboolean back, GString *kept, GError **error)
{
  g_auto (Change) change = { 0 };
  gpointer row = NULL;
  gboolean done;

  if (!read_change (changes, i, &change, error) || !load_row (store, &change, &row, error))
    return FALSE;
  done = turn_row (store, &change, row, back, kept, error);
  hs_table_free (change.table, row);
  return done;
}

gboolean
hs_undo_apply (HsStore *store, GVariant *changes, gboolean back, GString *kept, GError **error)
{
  gsize n = g_variant_n_children (changes);

  for (gsize i = 0; i < n; i++)
    if (!apply (store, changes, back ? n - 1 - i : i, back, kept, error))
      return FALSE;
  return TRUE;
}
