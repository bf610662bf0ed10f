// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of a repair, each one transaction of the ops layer, and what its pane shows. */

#include "hs-deed-repair.h"

#include "hs-decimal.h"
#include "hs-finding-row.h"
#include "hs-job-life.h"
#include "hs-job-row.h"
#include "hs-money-row.h"
#include "hs-need-row.h"
#include "hs-part-row.h"
#include "hs-stock-row.h"
#include "hs-text.h"

static void
need_free (HsRepairNeed *need)
{
  g_free (need->number);
  g_free (need->name);
  g_free (need);
}

static void
reason_free (HsRepairReason *reason)
{
  g_free (reason->id);
  g_free (reason->what);
  g_free (reason);
}

void
hs_repair_shot_free (HsRepairShot *shot)
{
  if (shot == NULL)
    return;
  hs_repair_free (shot->repair);
  g_ptr_array_unref (shot->needs);
  g_ptr_array_unref (shot->reasons);
  g_free (shot);
}

/* A number says it, where both have one; else the words, however they are spelled. */
static gboolean
is_offered (const HsRepairShot *shot, const char *number, const char *name)
{
  g_autofree char *wanted = hs_text_fold (name);
  gboolean found = FALSE;

  for (guint i = 0; i < shot->needs->len && !found; i++)
    {
      const HsRepairNeed *need = g_ptr_array_index (shot->needs, i);
      g_autofree char *folded = hs_text_fold (need->name);

      found = number != NULL && need->number != NULL ? g_str_equal (need->number, number)
                                                     : g_str_equal (folded, wanted);
    }
  return found;
}

static void
offer (HsRepairShot *shot, const char *number, const char *name, HsRepairFrom from, gboolean in_van)
{
  HsRepairNeed *need;

  if (is_offered (shot, number, name))
    return;
  need = g_new0 (HsRepairNeed, 1);
  need->number = g_strdup (number);
  need->name = g_strdup (name);
  need->from = from;
  need->in_van = in_van;
  g_ptr_array_add (shot->needs, need);
}

static gboolean
add_need (HsStore *store, const char *van_id, const HsNeedRow *row, HsRepairShot *shot, GError **error)
{
  g_autoptr (HsPartRow) part = NULL;
  g_autoptr (HsStockRow) stock = NULL;

  if (g_str_equal (row->state, "installed") || g_str_equal (row->state, "dropped")
      || g_str_equal (row->state, "going_back"))
    return TRUE;
  if (!hs_part_row_load (store, row->part_id, &part, error))
    return FALSE;
  offer (shot, part->number, part->name, HS_REPAIR_FROM_NEED,
         van_id != NULL && hs_stock_row_find (store, van_id, part->id, &stock, NULL)
             && stock->quantity_milli >= 1000);
  return TRUE;
}

/* What was agreed to and waits; a part of the catalog is a need as well and stands there already. */
static gboolean
add_lines (HsStore *store, const char *job_id, HsRepairShot *shot, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_line_row_list_of (store, job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsLineRow *row = g_ptr_array_index (rows, i);

      if (g_str_equal (row->kind, "part") && row->installed_part_id == NULL)
        offer (shot, NULL, row->what, HS_REPAIR_FROM_BILL, FALSE);
    }
  return TRUE;
}

static gboolean
add_stock (HsStore *store, const char *van_id, HsRepairShot *shot, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (van_id == NULL)
    return TRUE;
  if (!hs_stock_row_list (store, van_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsStockRow *row = g_ptr_array_index (rows, i);
      g_autoptr (HsPartRow) part = NULL;

      if (row->quantity_milli < 1000)
        continue;
      if (!hs_part_row_load (store, row->part_id, &part, error))
        return FALSE;
      offer (shot, part->number, part->name, HS_REPAIR_FROM_VAN, TRUE);
    }
  return TRUE;
}

static gboolean
load_needs (HsStore *store, const char *job_id, HsRepairShot *shot, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_need_row_list_of (store, job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    if (!add_need (store, job->van_id, g_ptr_array_index (rows, i), shot, error))
      return FALSE;
  return add_lines (store, job_id, shot, error) && add_stock (store, job->van_id, shot, error);
}

static gboolean
load_reasons (HsStore *store, const char *job_id, HsRepairShot *shot, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_finding_row_list_of (store, job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsFindingRow *row = g_ptr_array_index (rows, i);
      HsRepairReason *reason;

      if (!g_str_equal (row->role, "cause") && !g_str_equal (row->role, "seen"))
        continue;
      reason = g_new0 (HsRepairReason, 1);
      reason->id = g_strdup (row->id);
      reason->what = g_strdup (row->what);
      g_ptr_array_add (shot->reasons, reason);
    }
  return TRUE;
}

HsRepairShot *
hs_repair_shot_load (HsBook *book, const char *job_id, const HsJobView *view, HsInstant now, GError **error)
{
  HsRepairShot *shot = g_new0 (HsRepairShot, 1);
  HsStore *store = hs_book_get_store (book);

  shot->needs = g_ptr_array_new_with_free_func ((GDestroyNotify) need_free);
  shot->reasons = g_ptr_array_new_with_free_func ((GDestroyNotify) reason_free);
  shot->repair = hs_repair_load (book, job_id, view, now, error);
  if (shot->repair == NULL || !load_needs (store, job_id, shot, error) || !load_reasons (store, job_id, shot, error))
    g_clear_pointer (&shot, hs_repair_shot_free);
  return shot;
}

gpointer
hs_ask_proof (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const HsTongue *in;
  const char *job_id;
  guint64 address;

  g_variant_get (args, "(&st)", &job_id, &address);
  in = GSIZE_TO_POINTER ((gsize) address);
  return hs_proof_sheet_load (book, job_id, in, now, error);
}

static gpointer
fit_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsInstallEntry entry = { .looks = TRUE };
  const char *job_id;

  g_variant_get (args, "(&sm&sm&sbb)", &job_id, &entry.what, &entry.part_number, &entry.from_van,
                 &entry.past_ceiling);
  return hs_part_install (book, job_id, &entry, now, error);
}

void
hs_deed_fit (HsLedger *ledger, const char *job_id, const char *what, const char *number, gboolean from_van,
             gboolean past_ceiling, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, fit_func, g_variant_new ("(smsmsbb)", job_id, what, number, from_van, past_ceiling),
                         g_free, FALSE, callback, user_data);
}

static gpointer
set_part_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *part_id, *field, *text;
  gboolean past_ceiling;

  g_variant_get (args, "(&s&s&sb)", &part_id, &field, &text, &past_ceiling);
  if (past_ceiling)
    hs_part_set_past_ceiling (book, part_id, field, text, now, error);
  else
    hs_part_set (book, part_id, field, text, now, error);
  return NULL;
}

void
hs_deed_set_part (HsLedger *ledger, const char *part_id, const char *field, const char *text, gboolean past_ceiling,
                  GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, set_part_func, g_variant_new ("(sssb)", part_id, field, text, past_ceiling), NULL,
                         FALSE, callback, user_data);
}

static gpointer
remove_part_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *part_id;

  g_variant_get (args, "(&s)", &part_id);
  hs_part_remove (book, part_id, now, error);
  return NULL;
}

void
hs_deed_remove_part (HsLedger *ledger, const char *part_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, remove_part_func, g_variant_new ("(s)", part_id), NULL, FALSE, callback, user_data);
}

static gpointer
disturb_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *what;

  g_variant_get (args, "(&s&s)", &job_id, &what);
  hs_disturbed_add (book, job_id, what, now, NULL, error);
  return NULL;
}

void
hs_deed_disturb (HsLedger *ledger, const char *job_id, const char *what, GAsyncReadyCallback callback,
                 gpointer user_data)
{
  hs_ledger_write_async (ledger, disturb_func, g_variant_new ("(ss)", job_id, what), NULL, FALSE, callback, user_data);
}

static gpointer
tick_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *line_id;
  gboolean done;

  g_variant_get (args, "(&sb)", &line_id, &done);
  hs_disturbed_tick (book, line_id, done, NULL, now, error);
  return NULL;
}

void
hs_deed_tick_look (HsLedger *ledger, const char *line_id, gboolean done, GAsyncReadyCallback callback,
                   gpointer user_data)
{
  hs_ledger_write_async (ledger, tick_func, g_variant_new ("(sb)", line_id, done), NULL, FALSE, callback, user_data);
}

static gpointer
remove_look_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *line_id;

  g_variant_get (args, "(&s)", &line_id);
  hs_disturbed_remove (book, line_id, now, error);
  return NULL;
}

void
hs_deed_remove_look (HsLedger *ledger, const char *line_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, remove_look_func, g_variant_new ("(s)", line_id), NULL, FALSE, callback, user_data);
}

static gpointer
say_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *what, *text;
  gint64 odometer;

  g_variant_get (args, "(&s&s&s)", &job_id, &what, &text);
  if (g_str_equal (what, "unproved"))
    hs_job_set_unproved (book, job_id, text, now, error);
  else if (g_str_equal (what, "safe"))
    hs_job_set_safe (book, job_id, text, now, error);
  else if (hs_decimal_parse (text, 0, &odometer, error))
    hs_job_leave (book, job_id, odometer, now, error);
  return NULL;
}

void
hs_deed_say (HsLedger *ledger, const char *job_id, const char *what, const char *text, GAsyncReadyCallback callback,
             gpointer user_data)
{
  hs_ledger_write_async (ledger, say_func, g_variant_new ("(sss)", job_id, what, text), NULL, FALSE, callback,
                         user_data);
}
