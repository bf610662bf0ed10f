// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The repair of a job as it stands: parts with their cover, what was disturbed, what is still to do. Reads only. */

#include "hs-repair-private.h"

#include "hs-battery-code.h"
#include "hs-bill-private.h"
#include "hs-finding-row.h"
#include "hs-money-row.h"
#include "hs-odometer-row.h"
#include "hs-ops-private.h"
#include "hs-part-row.h"
#include "hs-reading-row.h"
#include "hs-say.h"
#include "hs-text.h"
#include "hs-vehicle-row.h"

#define STARTS "starts_good"
#define TRIED "tried_again"

typedef struct
{
  HsBook *book;
  HsStore *store;
  HsJobRow *job;
  HsDate today;
  HsOdometerPace pace;
  HsCoverScene cover;
  HsRepair *repair;
  GPtrArray *lines; /* (element-type HsLineRow) of the bill */
} Make;

static void
part_free (HsFittedPart *part)
{
  char **const texts[] = { &part->id,   &part->what, &part->number, &part->place, &part->serial,   &part->date_stamp,
                           &part->made, &part->maker, &part->bill,  &part->kind,  &part->why,      &part->why_said,
                           &part->cover, &part->old_part };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    g_free (*texts[i]);
  g_free (part);
}

static void
item_free (HsProveItem *item)
{
  g_free (item->what);
  g_free (item->check);
  g_free (item->place);
  g_free (item->row_id);
  g_free (item);
}

void
hs_repair_free (HsRepair *repair)
{
  if (repair == NULL)
    return;
  g_ptr_array_unref (repair->parts);
  g_clear_pointer (&repair->looks, g_ptr_array_unref);
  g_ptr_array_unref (repair->missing);
  g_free (repair->tried);
  g_free (repair->unproved_why);
  g_free (repair->safe);
  g_free (repair->odometer_unit);
  g_free (repair);
}

gint64
hs_repair_miles_in (gint64 millimiles, const char *unit)
{
  if (g_strcmp0 (unit, "km") == 0)
    return millimiles * 1609344 / 1000000000;
  return millimiles / 1000;
}

gboolean
hs_repair_find_pace (HsStore *store, const char *vehicle_id, HsOdometerPace *ret_pace, gboolean *ret_known,
                     GError **error)
{
  g_autoptr (GArray) readings = g_array_new (FALSE, FALSE, sizeof (HsOdometer));
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_odometer_row_list_of (store, vehicle_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsOdometerRow *row = g_ptr_array_index (rows, i);
      HsOdometer reading = { row->on_date, row->value };

      if (row->doubted == NULL)
        g_array_append_val (readings, reading);
    }
  *ret_known = hs_odometer_pace ((const HsOdometer *) (gpointer) readings->data, readings->len, ret_pace, NULL);
  return TRUE;
}

gboolean
hs_repair_is_measured (const HsReadingResult *result)
{
  return result->has_value || result->answer != NULL || g_strcmp0 (result->value_text, "over range") == 0;
}

/* "March 2025"; both where a letter leaves two months open. */
static char *
dup_made (const HsInstalledRow *row, HsDate today)
{
  g_auto (HsBatteryCode) code = { 0 };
  g_autofree char *first = NULL;
  g_autofree char *last = NULL;

  if (g_strcmp0 (row->kind, "battery") != 0 || row->date_stamp == NULL
      || !hs_battery_code_parse (row->date_stamp, today, &code, NULL))
    return NULL;
  first = hs_say_month (g_array_index (code.months, HsDate, 0));
  if (code.months->len == 1)
    return g_steal_pointer (&first);
  last = hs_say_month (g_array_index (code.months, HsDate, code.months->len - 1));
  return g_strdup_printf ("%s or %s", first, last);
}

static gboolean
say_why (const Make *make, const HsInstalledRow *row, char **ret_said, GError **error)
{
  g_autoptr (HsFindingRow) finding = NULL;
  const char *label = hs_words_label (HS_WORDS_REPLACED_WHY, row->replaced_why);

  if (row->replaced_finding_id == NULL)
    {
      *ret_said = g_strdup (label);
      return TRUE;
    }
  if (!hs_finding_row_load (make->store, row->replaced_finding_id, &finding, error))
    return FALSE;
  *ret_said = g_strdup_printf ("%s: %s", label, finding->what);
  return TRUE;
}

static gboolean
fill_number (const Make *make, const HsInstalledRow *row, HsFittedPart *part, GError **error)
{
  g_autoptr (HsPartRow) found = NULL;

  if (row->part_id == NULL)
    return TRUE;
  if (!hs_part_row_load (make->store, row->part_id, &found, error))
    return FALSE;
  part->number = g_strdup (found->number);
  return TRUE;
}

static gboolean
fill_price (const Make *make, const HsInstalledRow *row, HsFittedPart *part, GError **error)
{
  for (guint i = 0; i < make->lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (make->lines, i);

      if (g_strcmp0 (line->installed_part_id, row->id) != 0)
        continue;
      part->cost_cents = line->cost_cents;
      part->price_cents = line->price_cents;
      return hs_bill_lacks_price (make->store, make->lines, line, &part->unpriced, error);
    }
  return TRUE;
}

static gboolean
add_part (Make *make, const HsInstalledRow *row, GError **error)
{
  HsFittedPart *part = g_new0 (HsFittedPart, 1);

  g_ptr_array_add (make->repair->parts, part);
  part->id = g_strdup (row->id);
  part->what = g_strdup (row->what);
  part->place = g_strdup (row->place);
  part->serial = g_strdup (row->serial);
  part->date_stamp = g_strdup (row->date_stamp);
  part->made = dup_made (row, make->today);
  part->maker = g_strdup (row->maker);
  part->bill = g_strdup (row->supplier_bill);
  part->kind = g_strdup (row->kind);
  part->odometer = row->installed_odometer;
  part->months = row->warranty_months;
  part->millimiles = row->warranty_millimiles;
  part->why = g_strdup (row->replaced_why);
  part->old_part = g_strdup (row->old_part);
  part->swap = row->stands_in_for_id != NULL;
  hs_cover_fill (&make->cover, row, part);
  return fill_number (make, row, part, error) && fill_price (make, row, part, error)
         && (row->replaced_why == NULL || say_why (make, row, &part->why_said, error));
}

static gboolean
fill_parts (Make *make, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  if (!hs_installed_row_list_of_job (make->store, make->job->id, &rows, error)
      || !hs_line_row_list_of (make->store, make->job->id, &make->lines, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    if (!add_part (make, g_ptr_array_index (rows, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
fill_vehicle (Make *make, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;
  gboolean known;

  make->repair->odometer_unit = g_strdup ("mi");
  if (make->job->vehicle_id != NULL)
    {
      if (!hs_vehicle_row_load (make->store, make->job->vehicle_id, &vehicle, error)
          || !hs_repair_find_pace (make->store, make->job->vehicle_id, &make->pace, &known, error))
        return FALSE;
      make->cover.pace = known ? &make->pace : NULL;
      g_free (make->repair->odometer_unit);
      make->repair->odometer_unit = g_strdup (vehicle->odometer_unit);
    }
  make->cover.unit = make->repair->odometer_unit;
  return TRUE;
}

/* Where the vehicle is started as the customer does, every start counts; else what brought the complaint on. Work that
 * answers no complaint has none to try. */
static const char *
choose_try (const HsJobRow *job)
{
  static const char *const starting[] = { "will_not_start", "everything_dead", "drains", NULL };

  if (g_str_equal (job->kind, "upkeep") || g_str_equal (job->kind, "look_over"))
    return NULL;
  return job->complaint_group != NULL && g_strv_contains (starting, job->complaint_group) ? STARTS : TRIED;
}

static gboolean
is_try (const HsReadingRow *row)
{
  return g_str_equal (row->phase, "after") && row->value != HS_INT_NONE && row->of_value != HS_INT_NONE
         && (g_str_equal (row->check_id, STARTS) || g_str_equal (row->check_id, TRIED));
}

/* The last try, whichever check took it. */
static gboolean
find_tries (HsStore *store, const char *job_id, char **ret_tries, gboolean *ret_good, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;

  *ret_tries = NULL;
  *ret_good = FALSE;
  if (!hs_reading_row_list_of (store, job_id, &rows, error))
    return FALSE;
  for (guint i = rows->len; i > 0; i--)
    {
      const HsReadingRow *row = g_ptr_array_index (rows, i - 1);

      if (!is_try (row))
        continue;
      *ret_tries = g_strdup_printf ("%" G_GINT64_FORMAT " of %" G_GINT64_FORMAT, row->value, row->of_value);
      *ret_good = row->value == row->of_value;
      return TRUE;
    }
  return TRUE;
}

gboolean
hs_complaint_stays (HsBook *book, const char *job_id, char **ret_tries, GError **error)
{
  g_autofree char *tries = NULL;
  gboolean good;

  if (!find_tries (hs_book_get_store (book), job_id, &tries, &good, error))
    return FALSE;
  *ret_tries = good ? NULL : g_steal_pointer (&tries);
  return TRUE;
}

static gboolean
fill_repair (Make *make, const HsJobView *view, GError **error)
{
  HsRepair *repair = make->repair;
  g_autoptr (HsJobChain) chain = hs_job_chain_load (make->book, make->job->id, error);

  if (chain == NULL || !fill_vehicle (make, error) || !fill_parts (make, error)
      || !hs_after_fill (make->book, make->job->id, &repair->looks, error)
      || !find_tries (make->store, make->job->id, &repair->tried, &repair->tried_good, error))
    return FALSE;
  repair->try_check = choose_try (make->job);
  repair->unproved_why = hs_text_is_blank (make->job->unproved_why) ? NULL : g_strdup (make->job->unproved_why);
  repair->safe = g_strdup (make->job->safe_to_drive);
  hs_prove_fill (repair, view, chain, hs_job_row_is_called_off (make->job));
  return TRUE;
}

static void
make_clear (Make *make)
{
  hs_job_row_free (make->job);
  g_clear_pointer (&make->lines, g_ptr_array_unref);
  hs_repair_free (make->repair);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Make, make_clear)

HsRepair *
hs_repair_load (HsBook *book, const char *job_id, const HsJobView *view, HsInstant now, GError **error)
{
  g_auto (Make) make = { .book = book, .store = hs_book_get_store (book), .today = hs_ops_today (book, now) };
  g_autoptr (HsJobView) own = NULL;

  if (view == NULL)
    view = own = hs_job_view_load (book, job_id, now, error);
  if (view == NULL || !hs_job_row_load (make.store, job_id, &make.job, error))
    return NULL;
  make.repair = g_new0 (HsRepair, 1);
  make.repair->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) part_free);
  make.repair->missing = g_ptr_array_new_with_free_func ((GDestroyNotify) item_free);
  return fill_repair (&make, view, error) ? g_steal_pointer (&make.repair) : NULL;
}
