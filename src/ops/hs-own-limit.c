// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Limits of one vehicle's own: what its maker prints, or what the owner has found to be right for it. Each needs its
 * source. Refuses numbers that the check cannot show, so that millivolts typed for volts are seen at once.
 */

#include "hs-own-limit.h"

#include "hs-decimal.h"
#include "hs-ops-private.h"
#include "hs-reading-private.h"
#include "hs-text.h"
#include "hs-vehicle-row.h"

void
hs_own_limit_free (HsOwnLimit *limit)
{
  if (limit == NULL)
    return;
  g_free (limit->check);
  g_free (limit->name);
  g_free ((char *) limit->limits.source);
  g_free (limit->text);
  g_free (limit);
}

static gboolean
read_end (const HsCheck *check, const char *which, const char *text, gint64 *ret_value, GError **error)
{
  g_autoptr (GError) wrong = NULL;
  g_autofree char *least = hs_decimal_format (check->least, check->decimals);
  g_autofree char *most = hs_decimal_format (check->most, check->decimals);
  gint64 value;

  *ret_value = HS_INT_NONE;
  if (hs_text_is_blank (text))
    return TRUE;
  if (!hs_decimal_parse (text, check->decimals, &value, &wrong))
    return hs_ops_refuse (error, "%s, %s limit: %s", check->name, which, wrong->message);
  if (value < check->least || value > check->most)
    return hs_ops_refuse (error, "%s, %s limit: %s cannot be, it lies between %s and %s %s. Is it another unit?",
                          check->name, which, text, least, most, check->unit);
  *ret_value = value;
  return TRUE;
}

static gboolean
fill_row (const HsCheck *check, const HsOwnLimitEntry *entry, HsCheckOwnRow *row, GError **error)
{
  if (check->entry != HS_CHECK_NUMBER && check->entry != HS_CHECK_PAIR)
    return hs_ops_refuse (error, "%s gives no number, so it has no limit.", check->name);
  if (!hs_text_is_blank (entry->unit) && g_ascii_strcasecmp (entry->unit, check->unit) != 0)
    return hs_ops_refuse (error, "%s is read in %s, not in %s.", check->name, check->unit, entry->unit);
  if (hs_text_is_blank (entry->source))
    return hs_ops_refuse (error, "%s: say who says so: the manual and its page, or what you saw.", check->name);
  if (!read_end (check, "low", entry->low, &row->low, error)
      || !read_end (check, "high", entry->high, &row->high, error))
    return FALSE;
  if (row->low == HS_INT_NONE && row->high == HS_INT_NONE)
    return hs_ops_refuse (error, "%s: give the low limit, the high limit or both.", check->name);
  if (row->low != HS_INT_NONE && row->high != HS_INT_NONE && row->low > row->high)
    return hs_ops_refuse (error, "%s: the low limit %s is above the high limit %s.", check->name, entry->low,
                          entry->high);
  hs_row_set (&row->source, entry->source);
  g_strstrip (row->source);
  return TRUE;
}

/* The row that is there, or a new one. */
static gboolean
load_row (HsStore *store, const char *vehicle_id, const char *check, HsLimitWhose whose, HsCheckOwnRow **ret_row,
          GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (HsCheckOwnRow) fresh = hs_check_own_row_new ();

  if (!hs_check_own_row_list_of (store, vehicle_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsCheckOwnRow *row = g_ptr_array_index (rows, i);

      if (!g_str_equal (row->check_id, check) || !g_str_equal (row->whose, hs_limit_whose_id (whose)))
        continue;
      *ret_row = hs_check_own_row_copy (row);
      return TRUE;
    }
  hs_row_set (&fresh->vehicle_id, vehicle_id);
  hs_row_set (&fresh->check_id, check);
  hs_row_set (&fresh->whose, hs_limit_whose_id (whose));
  *ret_row = g_steal_pointer (&fresh);
  return TRUE;
}

gboolean
hs_own_limit_set (HsBook *book, const HsOwnLimitEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const HsCheck *check = hs_reading_find_check (book, entry->check, error);
  HsLimitWhose whose = entry->maker ? HS_LIMIT_MAKER : HS_LIMIT_OWNER;
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autoptr (HsCheckOwnRow) row = NULL;

  if (check == NULL || !hs_vehicle_row_load (store, entry->vehicle_id, &vehicle, error)
      || !load_row (store, entry->vehicle_id, check->id, whose, &row, error) || !fill_row (check, entry, row, error)
      || !hs_store_begin (store, now, error))
    return FALSE;
  g_autofree char *what = g_strconcat ("own limit: ", check->name, NULL);
  return hs_store_end (store, hs_ops_note_vehicle (store, entry->vehicle_id, what, error)
                                && hs_check_own_row_save (store, row, error), error);
}

gboolean
hs_own_limit_clear (HsBook *book, const char *vehicle_id, const char *check, gboolean maker, HsInstant now,
                    GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const HsCheck *known = hs_reading_find_check (book, check, error);
  HsLimitWhose whose = maker ? HS_LIMIT_MAKER : HS_LIMIT_OWNER;
  g_autoptr (HsVehicleRow) vehicle = NULL;
  g_autoptr (HsCheckOwnRow) row = NULL;

  if (known == NULL || !hs_vehicle_row_load (store, vehicle_id, &vehicle, error)
      || !load_row (store, vehicle_id, known->id, whose, &row, error))
    return FALSE;
  if (row->id == NULL)
    return hs_ops_not_found (error, "%s: there is no %s for this vehicle.", known->name, hs_limit_whose_word (whose));
  if (!hs_store_begin (store, now, error))
    return FALSE;
  g_autofree char *what = g_strconcat ("own limit removed: ", known->name, NULL);
  return hs_store_end (store, hs_ops_note_vehicle (store, vehicle_id, what, error)
                                && hs_check_own_row_delete (store, row->id, error), error);
}

static HsOwnLimit *
limit_of_row (const HsCheck *check, const HsCheckOwnRow *row)
{
  HsOwnLimit *limit = g_new0 (HsOwnLimit, 1);

  limit->check = g_strdup (check->id);
  limit->name = g_strdup (check->name);
  limit->limits.has_low = row->low != HS_INT_NONE;
  limit->limits.low = limit->limits.has_low ? row->low : 0;
  limit->limits.has_high = row->high != HS_INT_NONE;
  limit->limits.high = limit->limits.has_high ? row->high : 0;
  limit->limits.source = g_strdup (row->source);
  limit->limits.whose = g_str_equal (row->whose, hs_limit_whose_id (HS_LIMIT_MAKER)) ? HS_LIMIT_MAKER : HS_LIMIT_OWNER;
  limit->text = hs_own_limits_text (check, &limit->limits);
  return limit;
}

/* Of one check and one of both, if it is there. */
static void
put_limit (GPtrArray *rows, const HsCheck *check, HsLimitWhose whose, GPtrArray *limits)
{
  const HsOwnLimit *before = limits->len == 0 ? NULL : g_ptr_array_index (limits, limits->len - 1);

  for (guint i = 0; i < rows->len; i++)
    {
      const HsCheckOwnRow *row = g_ptr_array_index (rows, i);
      HsOwnLimit *limit;

      if (!g_str_equal (row->check_id, check->id) || !g_str_equal (row->whose, hs_limit_whose_id (whose)))
        continue;
      limit = limit_of_row (check, row);
      limit->in_use = before == NULL || !g_str_equal (before->check, check->id) || !before->in_use;
      limit->in_use = limit->in_use && (limit->limits.has_low || limit->limits.has_high);
      g_ptr_array_add (limits, limit);
    }
}

GPtrArray *
hs_own_limit_list (HsBook *book, const char *vehicle_id, GError **error)
{
  HsChecks *checks = hs_book_get_checks (book);
  g_autoptr (GPtrArray) limits = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_own_limit_free);
  g_autoptr (GPtrArray) rows = NULL;
  const HsCheck *check;

  if (!hs_check_own_row_list_of (hs_book_get_store (book), vehicle_id, &rows, error))
    return NULL;
  for (guint i = 0; rows->len > 0 && (check = hs_checks_get_nth (checks, i)) != NULL; i++)
    {
      put_limit (rows, check, HS_LIMIT_MAKER, limits);
      put_limit (rows, check, HS_LIMIT_OWNER, limits);
    }
  return g_steal_pointer (&limits);
}

const HsOwnLimit *
hs_own_limit_find (GPtrArray *limits, const char *check)
{
  for (guint i = 0; limits != NULL && i < limits->len; i++)
    {
      const HsOwnLimit *limit = g_ptr_array_index (limits, i);

      if (limit->in_use && g_str_equal (limit->check, check))
        return limit;
    }
  return NULL;
}
