// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Putting a part on a vehicle: the part with its cover, why the old one went, the old one's end, the line of the bill
 * and the stock it came from, all in one transaction. Refuses a part without a vehicle, a warranty swap with nothing to
 * stand in for, a part out of a van that does not carry it, and one whose price would pass the go-ahead, by how much,
 * until it is said again that it was put in all the same.
 */

#include "hs-battery.h"
#include "hs-bill-private.h"
#include "hs-choice-private.h"
#include "hs-finding-row.h"
#include "hs-installed-row.h"
#include "hs-job-life.h"
#include "hs-money-row.h"
#include "hs-need-row.h"
#include "hs-odometer-op.h"
#include "hs-ops-private.h"
#include "hs-part-row.h"
#include "hs-repair-private.h"
#include "hs-stock-row.h"
#include "hs-text.h"
#include "hs-vehicle-row.h"

#include <math.h>

typedef struct
{
  HsBook *book;
  HsStore *store;
  const HsInstallEntry *entry;
  HsInstant now;
  HsDate today;
  HsJobRow *job;
  HsPartRow *part;
  HsInstalledRow *row;
  gint64 cost_cents; /* 0: nobody knows, or a warranty pays */
} Install;

static void
install_clear (Install *install)
{
  hs_job_row_free (install->job);
  hs_part_row_free (install->part);
  hs_installed_row_free (install->row);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Install, install_clear)

static gboolean
is_battery (const Install *install)
{
  if (install->entry->battery_kind != NULL || install->entry->ah > 0 || install->entry->cca > 0)
    return TRUE;
  if (install->part != NULL && install->part->kind != NULL)
    return g_str_equal (install->part->kind, "battery");
  return hs_battery_is_named (install->row->what);
}

static gboolean
load_part (Install *install, GError **error)
{
  const char *number = install->entry->part_number;
  g_autoptr (GError) missing = NULL;

  if (number == NULL || hs_part_row_find (install->store, number, &install->part, &missing))
    return TRUE;
  return hs_ops_only_missing (&missing, error)
         && hs_ops_not_found (error, "There is no part %s in the book.", number);
}

static gboolean
fill_what (Install *install, GError **error)
{
  const HsInstallEntry *entry = install->entry;
  HsInstalledRow *row = install->row;

  hs_row_set (&row->what, entry->what != NULL ? entry->what : install->part != NULL ? install->part->name : "");
  hs_row_set (&row->place, hs_ops_blank_to_null (entry->place));
  hs_row_set (&row->maker, hs_ops_blank_to_null (entry->maker));
  hs_row_set (&row->serial, hs_ops_blank_to_null (entry->serial));
  hs_row_set (&row->date_stamp, hs_ops_blank_to_null (entry->date_stamp));
  hs_row_set (&row->supplier_bill, hs_ops_blank_to_null (entry->supplier_bill));
  hs_row_set (&row->known_by, "we_installed_it");
  hs_row_set (&row->job_id, install->job->id);
  hs_row_set (&row->vehicle_id, install->job->vehicle_id);
  row->installed_on = install->today;
  if (install->part != NULL)
    {
      hs_row_set (&row->part_id, install->part->id);
      hs_row_set (&row->kind, install->part->kind);
    }
  if (hs_text_is_blank (row->what))
    return hs_ops_refuse (error, "What was installed? Write it down, or name a part of the catalog.");
  return TRUE;
}

static gboolean
fill_battery (Install *install, GError **error)
{
  const HsInstallEntry *entry = install->entry;
  g_autoptr (HsVehicleRow) vehicle = NULL;
  const char *kind;

  if (!is_battery (install))
    return TRUE;
  if (!hs_ops_word (HS_WORDS_BATTERY_KIND, entry->battery_kind, NULL, &kind, error)
      || !hs_vehicle_row_load (install->store, install->job->vehicle_id, &vehicle, error))
    return FALSE;
  hs_row_set (&install->row->kind, "battery");
  hs_row_set (&install->row->battery_kind, kind);
  if (entry->ah > 0)
    install->row->battery_ah = entry->ah;
  if (entry->cca > 0)
    install->row->battery_cca = (gint64) llround (entry->cca);
  if (install->row->place == NULL)
    hs_row_set (&install->row->place, vehicle->battery_place);
  return TRUE;
}

static void
fill_cover (Install *install)
{
  gint64 months = install->entry->warranty_months;

  if (months <= 0 && install->part != NULL && install->part->warranty_months != HS_INT_NONE)
    months = install->part->warranty_months;
  install->row->warranty_from = install->today;
  install->row->warranty_months = months;
  if (install->entry->warranty_millimiles > 0)
    install->row->warranty_millimiles = install->entry->warranty_millimiles;
  else if (install->part != NULL)
    install->row->warranty_millimiles = install->part->warranty_millimiles;
}

static gboolean
fill_why (Install *install, GError **error)
{
  const HsInstallEntry *entry = install->entry;
  const char *why;
  const char *old_part;

  if (!hs_ops_word (HS_WORDS_REPLACED_WHY, hs_ops_blank_to_null (entry->why), NULL, &why, error)
      || !hs_ops_word (HS_WORDS_OLD_PART, hs_ops_blank_to_null (entry->old_part), NULL, &old_part, error))
    return FALSE;
  hs_row_set (&install->row->old_part, old_part);
  if (entry->why_finding_id != NULL)
    hs_row_set (&install->row->replaced_finding_id, entry->why_finding_id);
  if (why != NULL)
    hs_row_set (&install->row->replaced_why, why);
  else if (entry->why_finding_id != NULL)
    hs_row_set (&install->row->replaced_why, "failed");
  if (g_strcmp0 (install->row->replaced_why, "not_known") == 0)
    install->row->told_at = install->now;
  return TRUE;
}

/* Of one kind, in a place that is the same or not known. */
gboolean
hs_repair_is_same_place (const HsInstalledRow *old, const HsInstalledRow *row)
{
  gboolean battery = g_strcmp0 (row->kind, "battery") == 0;

  if (g_strcmp0 (old->kind, row->kind) != 0)
    return FALSE;
  if (old->place == NULL || row->place == NULL)
    return battery;
  return g_ascii_strcasecmp (old->place, row->place) == 0;
}

static gboolean
is_in_the_way (const HsInstalledRow *old, const HsInstalledRow *row)
{
  return old->removed_on == HS_DATE_NONE && hs_repair_is_same_place (old, row);
}

static gboolean
take_off (Install *install, const HsInstalledRow *old, GError **error)
{
  g_autoptr (HsInstalledRow) gone = hs_installed_row_copy (old);

  gone->removed_on = MAX (install->today, old->installed_on);
  hs_row_set (&gone->removed_job_id, install->job->id);
  if (install->entry->warranty_swap)
    {
      hs_row_set (&install->row->stands_in_for_id, old->id);
      install->row->warranty_from = old->warranty_from;
      install->row->warranty_months = old->warranty_months;
      install->row->warranty_millimiles = old->warranty_millimiles;
    }
  return hs_installed_row_save (install->store, gone, error);
}

static gboolean
take_off_old (Install *install, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_installed_row_list_of_vehicle (install->store, install->job->vehicle_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    if (is_in_the_way (g_ptr_array_index (rows, i), install->row)
        && !take_off (install, g_ptr_array_index (rows, i), error))
      return FALSE;
  if (install->entry->warranty_swap && install->row->stands_in_for_id == NULL)
    return hs_ops_refuse (error, "A warranty swap stands in for a part, but there is none in that place.");
  return TRUE;
}

static gboolean
fill_odometer (Install *install, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (install->entry->odometer > 0
      && !hs_odometer_note (install->book, install->job, install->entry->odometer, install->now, error))
    return FALSE;
  if (!hs_odometer_row_list_of (install->store, install->job->vehicle_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsOdometerRow *row = g_ptr_array_index (rows, i);

      if (row->on_date == install->today && row->doubted == NULL)
        install->row->installed_odometer = row->value;
    }
  return TRUE;
}

/* What a picked option put on the bill keeps the price that was agreed. */
static gboolean
claim_line (Install *install, HsLineRow *line, GError **error)
{
  hs_row_set (&line->installed_part_id, install->row->id);
  if (install->cost_cents > 0)
    line->cost_cents = install->cost_cents;
  return hs_line_row_save (install->store, line, error);
}

static gboolean
fill_cost (Install *install, GError **error)
{
  install->cost_cents = install->entry->cost_cents;
  if (install->cost_cents > 0 || install->part == NULL || install->entry->warranty_swap)
    return TRUE;
  return hs_bill_known_cost (install->store, install->job->id, install->part->id, &install->cost_cents, error);
}

static gboolean
add_line (Install *install, GError **error)
{
  const char *part_id = install->part == NULL ? NULL : install->part->id;
  g_autoptr (HsLineRow) picked = NULL;
  g_autoptr (HsLineRow) line = hs_line_row_new ();

  if (!hs_bill_claim_line (install->store, install->job->id, part_id, install->row->what, &picked, error))
    return FALSE;
  if (picked != NULL)
    return claim_line (install, picked, error);
  hs_row_set (&line->job_id, install->job->id);
  hs_row_set (&line->kind, "part");
  hs_row_set (&line->what, install->row->what);
  hs_row_set (&line->installed_part_id, install->row->id);
  line->cost_cents = install->cost_cents;
  line->tax_cents = 0;
  return hs_bill_banded (install->book, line->cost_cents, &line->price_cents, error)
         && hs_line_row_save (install->store, line, error);
}

/* A line that would pass the ceiling says by how much before it is there. */
static gboolean
charge (Install *install, GError **error)
{
  gint64 before_cents = 0;

  if (install->entry->past_ceiling)
    return add_line (install, error);
  return hs_go_ahead_short (install->book, install->job->id, install->now, &before_cents, error)
         && add_line (install, error)
         && hs_go_ahead_check_past (install->book, install->job->id, install->row->what, before_cents, install->now,
                                    error);
}

static gboolean
take_from_van (Install *install, GError **error)
{
  g_autoptr (HsStockRow) stock = NULL;
  g_autoptr (HsStockMoveRow) move = hs_stock_move_row_new ();
  g_autoptr (GError) missing = NULL;

  if (!install->entry->from_van)
    return TRUE;
  if (install->part == NULL)
    return hs_ops_refuse (error, "Which part came out of the van? Name it by its number.");
  if (!hs_stock_row_find (install->store, install->job->van_id, install->part->id, &stock, &missing)
      && !hs_ops_only_missing (&missing, error))
    return FALSE;
  if (stock == NULL || stock->quantity_milli < 1000)
    return hs_ops_refuse (error, "The van has no %s; count the stock, or say where it came from.",
                          install->part->name);
  hs_row_set (&move->van_id, install->job->van_id);
  hs_row_set (&move->part_id, install->part->id);
  hs_row_set (&move->why, "installed");
  hs_row_set (&move->job_id, install->job->id);
  move->quantity_milli = -1000;
  move->cost_cents = install->cost_cents;
  move->at = install->now;
  return hs_stock_move_row_save (install->store, move, error);
}

static gboolean
meet_need (Install *install, GError **error)
{
  g_autoptr (GPtrArray) needs = NULL;

  if (install->part == NULL)
    return TRUE;
  if (!hs_need_row_list_of (install->store, install->job->id, &needs, error))
    return FALSE;
  for (guint i = 0; i < needs->len; i++)
    {
      HsNeedRow *need = g_ptr_array_index (needs, i);

      if (!g_str_equal (need->part_id, install->part->id) || g_str_equal (need->state, "installed"))
        continue;
      hs_row_set (&need->state, "installed");
      return hs_need_row_save (install->store, need, error);
    }
  return TRUE;
}

static gboolean
install_part (Install *install, GError **error)
{
  if (install->job->vehicle_id == NULL)
    return hs_ops_refuse (error, "%s has no vehicle yet; name it first.", install->job->number);
  if (!load_part (install, error) || !fill_what (install, error))
    return FALSE;
  hs_ops_note (install->store, install->job->id, "installed: %s", install->row->what);
  return fill_battery (install, error)
         && (fill_cover (install), fill_why (install, error)) && fill_odometer (install, error)
         && take_off_old (install, error) && hs_installed_row_save (install->store, install->row, error)
         && fill_cost (install, error) && charge (install, error) && take_from_van (install, error)
         && meet_need (install, error)
         && (!install->entry->looks || hs_disturbed_by_part (install->book, install->job, install->row->what,
                                                             install->now, error));
}

static gboolean
check_numbers (const HsInstallEntry *entry, GError **error)
{
  if (entry->cost_cents < 0)
    return hs_ops_refuse (error, "A cost is not less than nothing.");
  return hs_part_check_months (entry->warranty_months, error)
         && hs_part_check_millimiles (entry->warranty_millimiles, error)
         && hs_odometer_check_range (entry->odometer, error);
}

char *
hs_part_install (HsBook *book, const char *job_id, const HsInstallEntry *entry, HsInstant now, GError **error)
{
  g_auto (Install) install = { .book = book,
                               .store = hs_book_get_store (book),
                               .entry = entry,
                               .now = now,
                               .today = hs_ops_today (book, now),
                               .row = hs_installed_row_new () };

  if (!check_numbers (entry, error))
    return NULL;
  if (!hs_store_begin (install.store, now, error))
    return NULL;
  hs_undo_note (install.store, job_id, "installed");
  if (!hs_store_end (install.store, hs_job_row_load (install.store, job_id, &install.job, error)
                                         && install_part (&install, error), error))
    return NULL;
  return g_strdup (install.row->id);
}
