// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Steps of work on a job that can be taken back: noted while they are done, kept in the book, taken back one by one. It
 * refuses squared jobs; what stands against taking a step back is said by hs-undo-apply.c. The rows are kept by the
 * names of their fields, so that a step survives a newer schema. */

#include "hs-undo.h"

#include "hs-undo-private.h"

#define MOST_LETTERS 200

void
hs_undo_work_free (HsUndoWork *work)
{
  if (work == NULL)
    return;
  g_free (work->job_id);
  g_free (work->what);
  g_ptr_array_unref (work->changes);
  g_array_unref (work->marks);
  g_free (work);
}

static void
forget (HsStore *store)
{
  g_clear_pointer (&store->undo, hs_undo_work_free);
}

static char *
shorten (const char *what)
{
  g_autofree char *start = NULL;

  if (g_utf8_strlen (what, -1) <= MOST_LETTERS)
    return g_strdup (what);
  start = g_utf8_substring (what, 0, MOST_LETTERS - 1);
  return g_strconcat (start, "…", NULL);
}

void
hs_undo_note (HsStore *store, const char *job_id, const char *what)
{
  g_return_if_fail (store->depth > 0);

  if (job_id == NULL || store->bulk || (store->undo != NULL && store->undo->depth < store->depth))
    return;
  if (store->undo == NULL)
    {
      store->undo = g_new0 (HsUndoWork, 1);
      store->undo->depth = store->depth;
      store->undo->job_id = g_strdup (job_id);
      store->undo->changes = g_ptr_array_new_with_free_func ((GDestroyNotify) g_variant_unref);
      store->undo->marks = g_array_new (FALSE, FALSE, sizeof (guint));
    }
  g_free (store->undo->what);
  store->undo->what = shorten (what);
}

void
hs_undo_began (HsStore *store)
{
  if (store->undo != NULL)
    g_array_append_val (store->undo->marks, store->undo->changes->len);
}

void
hs_undo_rolled_back (HsStore *store)
{
  HsUndoWork *work = store->undo;

  if (work == NULL)
    return;
  if (work->marks->len == 0)
    {
      forget (store);
      return;
    }
  g_ptr_array_set_size (work->changes, (int) g_array_index (work->marks, guint, work->marks->len - 1));
  g_array_set_size (work->marks, work->marks->len - 1);
}

/* A book may be carried to a machine of the other byte order. */
static GVariant *
in_file_order (GVariant *changes)
{
#if G_BYTE_ORDER == G_BIG_ENDIAN
  GVariant *swapped = g_variant_byteswap (changes);

  g_variant_unref (changes);
  return swapped;
#else
  return changes;
#endif
}

static GBytes *
pack (const HsUndoWork *work)
{
  g_autoptr (GVariant) changes = g_variant_ref_sink (
    g_variant_new_array (G_VARIANT_TYPE (HS_UNDO_CHANGE), (GVariant **) work->changes->pdata, work->changes->len));

  changes = in_file_order (g_steal_pointer (&changes));
  return g_variant_get_data_as_bytes (changes);
}

static GVariant *
unpack (GBytes *bytes)
{
  g_autoptr (GVariant) changes = g_variant_ref_sink (
    g_variant_new_from_bytes (G_VARIANT_TYPE (HS_UNDO_CHANGES), bytes, FALSE));

  changes = in_file_order (g_steal_pointer (&changes));
  return g_variant_get_normal_form (changes);
}

/* @ret_open: 1 if the job takes steps, 0 if it is squared up, %HS_INT_NONE if there is none. */
static gboolean
job_is_open (HsStore *store, const char *job_id, gint64 *ret_open, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, "SELECT stage <> 'squared' FROM job WHERE id = ?1", "t", job_id);

  return hs_sql_one_int (query, HS_INT_NONE, ret_open, error);
}

static gboolean
write_step (HsStore *store, const HsUndoWork *work, GError **error)
{
  g_autofree char *id = g_uuid_string_random ();
  g_autoptr (GBytes) changes = pack (work);
  g_autoptr (HsSql) gone = hs_sql_new (store, error,
                                       "DELETE FROM undo_step WHERE job_id = ?1 AND undone_at IS NOT NULL", "t",
                                       work->job_id);
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        "INSERT INTO undo_step (id, job_id, what, at, changes)"
                                        " VALUES (?1, ?2, ?3, ?4, ?5)",
                                        "ttti", id, work->job_id, work->what, store->now);

  return hs_sql_run (gone, error) && query != NULL && hs_sql_bind_bytes (query, 5, changes, error)
         && hs_sql_run (query, error);
}

gboolean
hs_undo_commits (HsStore *store, GError **error)
{
  HsUndoWork *work = store->undo;
  gint64 open = 0;
  gboolean done;

  if (work == NULL)
    return TRUE;
  if (work->marks->len > 0)
    {
      g_array_set_size (work->marks, work->marks->len - 1);
      return TRUE;
    }
  done = work->changes->len == 0 || (job_is_open (store, work->job_id, &open, error)
                                     && (open != 1 || write_step (store, work, error)));
  /* A commit that fails rolls back, which forgets it too. */
  if (done)
    forget (store);
  return done;
}

void
hs_undo_step_free (HsUndoStep *step)
{
  if (step == NULL)
    return;
  g_free (step->id);
  g_free (step->job_id);
  g_free (step->what);
  g_free (step->kept);
  g_free (step);
}

static gpointer
read_step (HsSql *query)
{
  HsUndoStep *step = g_new0 (HsUndoStep, 1);

  step->id = g_strdup (hs_sql_text (query, 0));
  step->job_id = g_strdup (hs_sql_text (query, 1));
  step->what = g_strdup (hs_sql_text (query, 2));
  step->at = hs_sql_int (query, 3);
  step->undone_at = hs_sql_int (query, 4);
  step->seq = hs_sql_int (query, 6);
  return step;
}

#define COLUMNS "SELECT id, job_id, what, at, undone_at, changes, seq FROM undo_step "

gboolean
hs_undo_list (HsStore *store, const char *job_id, GPtrArray **ret_steps, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, COLUMNS "WHERE job_id = ?1 ORDER BY seq DESC", "t", job_id);

  return hs_sql_rows (query, read_step, (GDestroyNotify) hs_undo_step_free, ret_steps, error);
}

gboolean
hs_undo_newest (HsStore *store, gboolean undone, HsUndoStep **ret_step, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        undone ? COLUMNS "AS step WHERE undone_at IS NOT NULL AND NOT EXISTS"
                                                         " (SELECT * FROM undo_step AS newer WHERE newer.undone_at IS"
                                                         " NULL AND newer.at > step.undone_at)"
                                                         " ORDER BY undone_at DESC, seq LIMIT 1"
                                               : COLUMNS "WHERE undone_at IS NULL ORDER BY seq DESC LIMIT 1", "");
  gboolean row;

  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  *ret_step = row ? read_step (query) : NULL;
  return TRUE;
}

static gboolean
check_open (HsStore *store, const char *job_id, GError **error)
{
  gint64 open;

  if (!job_is_open (store, job_id, &open, error))
    return FALSE;
  if (open == HS_INT_NONE)
    g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND, "There is no job “%s” in the book", job_id);
  else if (open == 0)
    g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_REFUSED,
                 "The job is squared up; write a return visit or a credit");
  return open == 1;
}

/* The latest step that stands, or (again) the one that was taken back last: the oldest of those taken back. */
static gboolean
find_step (HsStore *store, const char *job_id, gboolean back, HsUndoStep **ret_step, GVariant **ret_changes,
           GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        back ? COLUMNS "WHERE job_id = ?1 AND undone_at IS NULL"
                                                       " ORDER BY seq DESC LIMIT 1"
                                             : COLUMNS "WHERE job_id = ?1 AND undone_at IS NOT NULL"
                                                       " ORDER BY seq LIMIT 1", "t", job_id);
  g_autoptr (GBytes) bytes = NULL;
  gboolean row;

  if (query == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  if (!row)
    {
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND,
                   back ? "There is nothing on this job that can be undone" : "Nothing was undone on this job");
      return FALSE;
    }
  *ret_step = read_step (query);
  bytes = hs_sql_dup_bytes (query, 5);
  *ret_changes = unpack (bytes);
  return TRUE;
}

static gboolean
mark_step (HsStore *store, const HsUndoStep *step, gboolean back, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, "UPDATE undo_step SET undone_at = ?2 WHERE id = ?1", "ti",
                                        step->id, back ? store->now : HS_INSTANT_NONE);

  return hs_sql_run (query, error);
}

static gboolean
turn (HsStore *store, const char *job_id, gboolean back, HsUndoStep **ret_step, GError **error)
{
  g_autoptr (HsUndoStep) step = NULL;
  g_autoptr (GVariant) changes = NULL;
  g_autoptr (GString) kept = g_string_new (NULL);

  if (!check_open (store, job_id, error) || !find_step (store, job_id, back, &step, &changes, error))
    return FALSE;
  if (!hs_undo_apply (store, changes, back, kept, error) || !mark_step (store, step, back, error))
    {
      g_prefix_error (error, back ? "“%s” can't be undone: " : "“%s” can't be done again: ", step->what);
      return FALSE;
    }
  step->undone_at = back ? store->now : HS_INSTANT_NONE;
  step->kept = kept->len > 0 ? g_strdup (kept->str) : NULL;
  *ret_step = g_steal_pointer (&step);
  return TRUE;
}

static gboolean
turn_in_one (HsStore *store, const char *job_id, gboolean back, HsInstant now, HsUndoStep **ret_step, GError **error)
{
  g_autoptr (HsUndoStep) step = NULL;

  if (!hs_store_begin (store, now, error) || !hs_store_end (store, turn (store, job_id, back, &step, error), error))
    return FALSE;
  if (ret_step != NULL)
    *ret_step = g_steal_pointer (&step);
  return TRUE;
}

gboolean
hs_undo_last (HsStore *store, const char *job_id, HsInstant now, HsUndoStep **ret_step, GError **error)
{
  return turn_in_one (store, job_id, TRUE, now, ret_step, error);
}

gboolean
hs_undo_again (HsStore *store, const char *job_id, HsInstant now, HsUndoStep **ret_step, GError **error)
{
  return turn_in_one (store, job_id, FALSE, now, ret_step, error);
}
