// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What an odometer may show. Use it wherever one is written down: on arriving, beside a part, on leaving, at the desk.
 * Refuses what no odometer shows; what can hardly be is a question.
 */

#include "hs-odometer-op.h"

#include "hs-desk-op.h"
#include "hs-ops-error.h"
#include "hs-ops-private.h"

static gboolean
check_fall (const HsVehicleRow *vehicle, const HsOdometerRow *other, const HsOdometer *now, GError **error)
{
  HsOdometer then = { other->on_date, other->value };
  g_autofree char *day = hs_date_format (other->on_date);

  if (other->on_date > now->date ? other->value >= now->value
                                 : hs_odometer_step (&then, now) != HS_ODOMETER_STEP_FELL)
    return TRUE;
  return hs_ops_doubts (error, "It showed %" G_GINT64_FORMAT " %s on %s. A slip of the finger, a changed cluster, "
                               "another vehicle? Read it again, or give the reason.",
                        other->value, vehicle->odometer_unit, day);
}

static gboolean
check_jump (const HsVehicleRow *vehicle, const HsOdometerRow *last, const HsOdometer *now, GError **error)
{
  HsOdometer then = { last->on_date, last->value };
  gint64 days = MAX (1, now->date - last->on_date);
  g_autofree char *day = hs_date_format (last->on_date);

  if (last->on_date > now->date || hs_odometer_step (&then, now) != HS_ODOMETER_STEP_JUMPED)
    return TRUE;
  return hs_ops_doubts (error, "That is %" G_GINT64_FORMAT " %s a day since %s, when it showed %" G_GINT64_FORMAT
                               ". A digit too many, miles taken for kilometers, another vehicle? Read it again, or "
                               "give the reason.",
                        (now->value - last->value) / days, vehicle->odometer_unit, day, last->value);
}

/* With nothing before that it could be held against. */
static gboolean
check_first (const HsVehicleRow *vehicle, const HsOdometer *now, GError **error)
{
  gboolean known = vehicle->year != HS_INT_NONE;
  int year;

  hs_date_to_ymd (now->date, &year, NULL, NULL);
  if (!hs_odometer_is_low (now->value, known ? MAX (0, year - (int) vehicle->year) : -1))
    return TRUE;
  if (!known)
    return hs_ops_doubts (error, "%" G_GINT64_FORMAT " %s? A slip of the finger, or another vehicle? Read it again, or "
                                 "give the reason.", now->value, vehicle->odometer_unit);
  return hs_ops_doubts (error, "%" G_GINT64_FORMAT " %s on a vehicle of %d? A slip of the finger, or another vehicle? "
                               "Read it again, or give the reason.",
                        now->value, vehicle->odometer_unit, (int) vehicle->year);
}

gboolean
hs_odometer_question (const HsVehicleRow *vehicle, GPtrArray *rows, const HsOdometerRow *instead_of,
                      const HsOdometer *now, GError **error)
{
  const HsOdometerRow *last = NULL;

  for (guint i = 0; i < rows->len; i++)
    {
      const HsOdometerRow *row = g_ptr_array_index (rows, i);

      if (row == instead_of || row->doubted != NULL)
        continue;
      if (!check_fall (vehicle, row, now, error))
        return FALSE;
      last = row;
    }
  return last == NULL || check_jump (vehicle, last, now, error);
}

gboolean
hs_odometer_question_read (const HsVehicleRow *vehicle, GPtrArray *rows, const HsOdometerRow *instead_of,
                           const HsOdometer *now, GError **error)
{
  gboolean first = TRUE;

  for (guint i = 0; i < rows->len; i++)
    {
      const HsOdometerRow *row = g_ptr_array_index (rows, i);

      first &= row == instead_of || row->doubted != NULL;
    }
  return hs_odometer_question (vehicle, rows, instead_of, now, error) && (!first || check_first (vehicle, now, error));
}

gboolean
hs_odometer_check_range (gint64 value, GError **error)
{
  if (value >= 0 && value <= HS_ODOMETER_MOST)
    return TRUE;
  return hs_ops_refuse (error, "Odometer: write what it shows, 0 to %d, without decimals.", HS_ODOMETER_MOST);
}

/* Also with a reason: it was asked and answered. */
static gboolean
is_noted (GPtrArray *rows, HsDate today, gint64 value)
{
  for (guint i = 0; i < rows->len; i++)
    {
      const HsOdometerRow *row = g_ptr_array_index (rows, i);

      if (row->on_date == today && row->value == value)
        return TRUE;
    }
  return FALSE;
}

gboolean
hs_odometer_note (HsBook *book, const HsJobRow *job, gint64 value, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GError) odd = NULL;
  HsDate today = hs_ops_today (book, now);

  if (!hs_odometer_check_range (value, error))
    return FALSE;
  if (job->vehicle_id == NULL)
    return hs_ops_refuse (error, "%s has no vehicle yet; name it first.", job->number);
  if (!hs_odometer_row_list_of (hs_book_get_store (book), job->vehicle_id, &rows, error))
    return FALSE;
  if (is_noted (rows, today, value) || hs_odometer_add (book, job->vehicle_id, job->id, today, value, NULL, now, &odd))
    return TRUE;
  if (g_error_matches (odd, HS_OPS_ERROR, HS_OPS_ERROR_WANTS_WHY))
    return hs_ops_refuse (error, "%s The reason goes beside the odometer of the call.", odd->message);
  g_propagate_error (error, g_steal_pointer (&odd));
  return FALSE;
}
