// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Places by whatever the owner calls them. Use it where somebody types where from or where to; the book itself knows
 * places by the codes of areas. Refuses words that could mean two places.
 */

#include "hs-spot.h"

#include "hs-area-row.h"
#include "hs-customer-row.h"
#include "hs-geo.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-ops-private.h"
#include "hs-supplier-row.h"
#include "hs-text.h"

#include <math.h>
#include <string.h>

void
hs_spot_free (HsSpot *spot)
{
  if (spot == NULL)
    return;
  g_free (spot->area);
  g_free (spot->name);
  g_free (spot);
}

static HsSpot *
spot_new (const char *name)
{
  HsSpot *spot = g_new0 (HsSpot, 1);

  spot->name = g_strdup (name);
  return spot;
}

static void
set_position (HsSpot *spot, double latitude, double longitude)
{
  spot->has_position = !isnan (latitude) && !isnan (longitude);
  spot->latitude = spot->has_position ? latitude : 0;
  spot->longitude = spot->has_position ? longitude : 0;
}

static gboolean
same_words (const char *a, const char *b)
{
  g_autofree char *folded_a = hs_text_fold (a);
  g_autofree char *folded_b = hs_text_fold (b);

  return *folded_a != '\0' && g_str_equal (folded_a, folded_b);
}

/* Areas ------------------------------------------------------------------------------------------------------------ */

/* Gives @spot the position of its area if it has none of its own. */
static gboolean
locate_by_area (HsStore *store, HsSpot *spot, GError **error)
{
  g_autoptr (HsAreaRow) area = NULL;
  double latitude, longitude;

  if (spot->has_position || spot->area == NULL)
    return TRUE;
  if (!hs_area_row_load (store, spot->area, &area, error))
    return FALSE;
  set_position (spot, area->lat, area->lon);
  if (spot->has_position)
    return TRUE;
  if (!hs_customer_row_middle (store, spot->area, &latitude, &longitude, error))
    return FALSE;
  set_position (spot, latitude, longitude);
  return TRUE;
}

static gboolean
has_code (const HsAreaRow *area, const char *text)
{
  return g_str_equal (area->id, text);
}

static gboolean
has_code_in_other_case (const HsAreaRow *area, const char *text)
{
  return g_ascii_strcasecmp (area->id, text) == 0;
}

static gboolean
has_name (const HsAreaRow *area, const char *text)
{
  return same_words (area->name, text);
}

/* The one area that @is_it; %NULL for none. Refuses two. */
static gboolean
find_one_area (GPtrArray *areas, const char *text, gboolean (*is_it) (const HsAreaRow *, const char *),
               const HsAreaRow **ret_area, GError **error)
{
  const HsAreaRow *found = NULL;

  for (guint i = 0; i < areas->len; i++)
    {
      const HsAreaRow *area = g_ptr_array_index (areas, i);

      if (!is_it (area, text))
        continue;
      if (found != NULL)
        return hs_ops_refuse (error, "“%s” may be %s (%s) or %s (%s): give its code.", text, found->name, found->id,
                              area->name, area->id);
      found = area;
    }
  *ret_area = found;
  return TRUE;
}

/* By the very code, else by the code in other letter case, else by the name. */
static gboolean
find_area (HsBook *book, const char *text, HsSpot **ret_spot, GError **error)
{
  static gboolean (*const ways[]) (const HsAreaRow *, const char *) = { has_code, has_code_in_other_case, has_name };
  g_autoptr (GPtrArray) areas = NULL;
  const HsAreaRow *found = NULL;

  if (!hs_area_row_list (hs_book_get_store (book), &areas, error))
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (ways) && found == NULL; i++)
    if (!find_one_area (areas, text, ways[i], &found, error))
      return FALSE;
  if (found == NULL)
    return TRUE;
  *ret_spot = spot_new (found->name);
  (*ret_spot)->area = g_strdup (found->id);
  return TRUE;
}

/* A position that an area was made for is that area. */
static gboolean
find_position (HsBook *book, const char *text, HsSpot **ret_spot, GError **error)
{
  g_autofree char *code = NULL;
  HsGeo geo;

  if (!hs_geo_is_meant (text))
    return TRUE;
  if (!hs_geo_parse (text, &geo, error))
    return FALSE;
  code = hs_geo_format (geo.latitude, geo.longitude);
  if (!find_area (book, code, ret_spot, error))
    return FALSE;
  if (*ret_spot == NULL)
    *ret_spot = spot_new (code);
  set_position (*ret_spot, geo.latitude, geo.longitude);
  return TRUE;
}

/* Jobs, counters, customers ---------------------------------------------------------------------------------------- */

static gboolean
find_job (HsBook *book, const char *text, HsSpot **ret_spot, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GError) missing = NULL;
  g_autofree char *id = hs_job_find (book, text, &missing);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsCustomerRow) customer = NULL;
  gboolean at_home;

  if (g_error_matches (missing, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND))
    return TRUE;
  if (id == NULL)
    {
      g_propagate_error (error, g_steal_pointer (&missing));
      return FALSE;
    }
  if (!hs_job_row_load (store, id, &job, error) || !hs_customer_row_load (store, job->customer_id, &customer, error))
    return FALSE;
  at_home = job->area_id == NULL || g_strcmp0 (job->area_id, customer->area_id) == 0;
  *ret_spot = spot_new (job->number);
  (*ret_spot)->area = g_strdup (at_home ? customer->area_id : job->area_id);
  if (at_home)
    set_position (*ret_spot, customer->lat, customer->lon);
  return TRUE;
}

static gboolean
find_counter (HsBook *book, const char *text, HsSpot **ret_spot, GError **error)
{
  g_autoptr (GPtrArray) suppliers = NULL;

  if (!hs_supplier_row_list (hs_book_get_store (book), &suppliers, error))
    return FALSE;
  for (guint i = 0; i < suppliers->len && *ret_spot == NULL; i++)
    {
      const HsSupplierRow *supplier = g_ptr_array_index (suppliers, i);

      if (!same_words (supplier->name, text))
        continue;
      *ret_spot = spot_new (supplier->name);
      (*ret_spot)->area = g_strdup (supplier->area_id);
    }
  return TRUE;
}

static gboolean
starts_with_words (const char *text, const char *words)
{
  g_autofree char *folded = text == NULL ? g_strdup ("") : hs_text_fold (text);
  g_autofree char *folded_words = hs_text_fold (words);

  return *folded_words != '\0' && g_str_has_prefix (folded, folded_words);
}

static gboolean
same_place (const HsCustomerRow *a, const HsCustomerRow *b)
{
  gboolean both = !isnan (a->lat) && !isnan (b->lat);

  return g_strcmp0 (a->area_id, b->area_id) == 0 && isnan (a->lat) == isnan (b->lat)
         && (!both || (a->lat == b->lat && a->lon == b->lon));
}

static HsSpot *
spot_of_customer (const HsCustomerRow *customer)
{
  HsSpot *spot = spot_new (customer->street != NULL ? customer->street : customer->name);

  spot->area = g_strdup (customer->area_id);
  set_position (spot, customer->lat, customer->lon);
  return spot;
}

static gboolean
find_customer (HsBook *book, const char *text, HsSpot **ret_spot, GError **error)
{
  g_autoptr (GPtrArray) customers = NULL;
  const HsCustomerRow *found = NULL;

  if (!hs_customer_row_list (hs_book_get_store (book), &customers, error))
    return FALSE;
  for (guint i = 0; i < customers->len; i++)
    {
      const HsCustomerRow *customer = g_ptr_array_index (customers, i);

      if (!starts_with_words (customer->street, text) && !starts_with_words (customer->name, text))
        continue;
      if (found != NULL && !same_place (found, customer))
        return hs_ops_refuse (error, "“%s” may be %s (%s) or %s (%s): say more of it.", text, found->name,
                              found->street != NULL ? found->street : "no street", customer->name,
                              customer->street != NULL ? customer->street : "no street");
      found = customer;
    }
  if (found != NULL)
    *ret_spot = spot_of_customer (found);
  return TRUE;
}

HsSpot *
hs_spot_find (HsBook *book, const char *text, GError **error)
{
  static gboolean (*const finders[]) (HsBook *, const char *, HsSpot **, GError **)
      = { find_area, find_position, find_job, find_counter, find_customer };
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  g_autoptr (HsSpot) spot = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (finders) && spot == NULL; i++)
    if (!finders[i](book, trimmed, &spot, error))
      return NULL;
  if (spot == NULL)
    {
      hs_ops_not_found (error, "There is no place “%s” in the book: name an area, a position like 40.7128,-74.006, a "
                        "job, a counter, or a customer's street.", trimmed);
      return NULL;
    }
  return locate_by_area (hs_book_get_store (book), spot, error) ? g_steal_pointer (&spot) : NULL;
}

/* Positions as areas ----------------------------------------------------------------------------------------------- */

gboolean
hs_spot_area_id (HsStore *store, const char *text, char **ret_id, GError **error)
{
  g_autoptr (HsAreaRow) area = NULL;
  g_autoptr (GError) missing = NULL;
  g_autofree char *code = NULL;
  HsGeo geo;

  if (!hs_area_row_load (store, text, &area, &missing) && !hs_ops_only_missing (&missing, error))
    return FALSE;
  if (area != NULL || !hs_geo_is_meant (text))
    {
      *ret_id = g_strdup (text);
      return TRUE;
    }
  g_clear_error (&missing);
  if (!hs_geo_parse (text, &geo, error))
    return FALSE;
  code = hs_geo_format (geo.latitude, geo.longitude);
  if (!hs_area_row_load (store, code, &area, &missing))
    {
      if (!hs_ops_only_missing (&missing, error))
        return FALSE;
      area = hs_area_row_new ();
      hs_row_set (&area->id, code);
      hs_row_set (&area->name, code);
      area->lat = geo.latitude;
      area->lon = geo.longitude;
      if (!hs_area_row_save (store, area, error))
        return FALSE;
    }
  *ret_id = g_steal_pointer (&code);
  return TRUE;
}
