// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The message about a job. Every member stands in a table, so that one sees at a glance what leaves the machine; what
 * is in no table is never sent. */

#include "hs-post-body-private.h"

#include "hs-area-row.h"
#include "hs-customer-row.h"
#include "hs-geo.h"
#include "hs-job-row.h"
#include "hs-json-text.h"
#include "hs-settings-op.h"
#include "hs-van-row.h"
#include "hs-vehicle-row.h"

static const struct
{
  HsPostShow show;
  const char *word;
} switches[] = {
  { HS_POST_SHOW_PHONE, "phone" },   { HS_POST_SHOW_STREET, "street" }, { HS_POST_SHOW_SIGNATURE, "signature" },
  { HS_POST_SHOW_PHOTOS, "photos" }, { HS_POST_SHOW_COSTS, "costs" },
};

static const HsPostField job_fields[] = {
  HS_POST_FIELD (HsJobRow, TEXT, number),
  HS_POST_FIELD (HsJobRow, TEXT, kind),
  HS_POST_FIELD (HsJobRow, TEXT, stage),
  HS_POST_FIELD (HsJobRow, TEXT, complaint_group),
  HS_POST_FIELD (HsJobRow, TEXT, words),
  HS_POST_FIELD (HsJobRow, INSTANT, called_at),
  HS_POST_FIELD_IF (HsJobRow, TEXT, street, "street", STREET),
  HS_POST_FIELD_IF (HsJobRow, TEXT, access_note, "access_note", STREET),
  HS_POST_FIELD (HsJobRow, DATE, day),
  HS_POST_FIELD (HsJobRow, INSTANT, window_from),
  HS_POST_FIELD (HsJobRow, INSTANT, window_to),
  HS_POST_FIELD_AS (HsJobRow, TEXT, zone, "window_zone"),
  HS_POST_FIELD (HsJobRow, TEXT, follows_job_id),
  HS_POST_FIELD (HsJobRow, TEXT, return_why),
  HS_POST_FIELD (HsJobRow, TEXT, unproved_why),
  HS_POST_FIELD (HsJobRow, TEXT, turned_away_why),
  HS_POST_FIELD (HsJobRow, TEXT, called_off_how),
  HS_POST_FIELD (HsJobRow, TEXT, called_off_why),
  HS_POST_FIELD (HsJobRow, TEXT, safe_to_drive),
  HS_POST_FIELD (HsJobRow, TEXT, saw_it),
  HS_POST_FIELD_AS (HsJobRow, MONEY, owed_cents, "owed"),
  HS_POST_FIELD (HsJobRow, INSTANT, changed_at),
};

static const HsPostField customer_fields[] = {
  HS_POST_FIELD (HsCustomerRow, TEXT, id),
  HS_POST_FIELD (HsCustomerRow, TEXT, name),
  HS_POST_FIELD (HsCustomerRow, TEXT, kind),
  HS_POST_FIELD (HsCustomerRow, AREA, area_id),
  HS_POST_FIELD (HsCustomerRow, INT, terms_days),
  HS_POST_FIELD_IF (HsCustomerRow, TEXT, email, "email", PHONE),
  HS_POST_FIELD_IF (HsCustomerRow, TEXT, street, "street", STREET),
  HS_POST_FIELD_IF (HsCustomerRow, TEXT, access_note, "access_note", STREET),
};

static const HsPostField phone_fields[] = {
  HS_POST_FIELD_AS (HsPhoneRow, TEXT, shown, "number"),
  HS_POST_FIELD (HsPhoneRow, TEXT, whose),
};

static const HsPostField vehicle_fields[] = {
  HS_POST_FIELD (HsVehicleRow, TEXT, id),
  HS_POST_FIELD (HsVehicleRow, TEXT, plate),
  HS_POST_FIELD (HsVehicleRow, TEXT, plate_state),
  HS_POST_FIELD (HsVehicleRow, TEXT, vin),
  HS_POST_FIELD (HsVehicleRow, TEXT, make),
  HS_POST_FIELD (HsVehicleRow, TEXT, model),
  HS_POST_FIELD (HsVehicleRow, INT, year),
  HS_POST_FIELD (HsVehicleRow, TEXT, engine),
  HS_POST_FIELD (HsVehicleRow, TEXT, fuel),
  HS_POST_FIELD (HsVehicleRow, TEXT, battery_place),
  HS_POST_FIELD (HsVehicleRow, TEXT, battery_size),
  HS_POST_FIELD (HsVehicleRow, TEXT, battery_kind),
  HS_POST_FIELD_AS (HsVehicleRow, MILLI, battery_ah, "battery_milli_ah"),
  HS_POST_FIELD (HsVehicleRow, INT, battery_cca),
  HS_POST_FIELD (HsVehicleRow, FLAG, stop_start),
  HS_POST_FIELD (HsVehicleRow, FLAG, high_voltage),
  HS_POST_FIELD (HsVehicleRow, TEXT, odometer_unit),
};

void
hs_post_write_text (HsPostWriter *writer, const char *name, const char *text)
{
  g_autofree char *valid = text == NULL ? NULL : g_utf8_make_valid (text, -1);

  json_builder_set_member_name (writer->json, name);
  if (valid == NULL)
    json_builder_add_null_value (writer->json);
  else
    json_builder_add_string_value (writer->json, valid);
}

static void
write_int (HsPostWriter *writer, const char *name, gint64 value)
{
  json_builder_set_member_name (writer->json, name);
  if (value == HS_INT_NONE)
    json_builder_add_null_value (writer->json);
  else
    json_builder_add_int_value (writer->json, value);
}

static void
write_money (HsPostWriter *writer, const char *name, gint64 minor)
{
  json_builder_set_member_name (writer->json, name);
  json_builder_begin_object (writer->json);
  write_int (writer, "minor", minor);
  hs_post_write_text (writer, "currency", writer->currency);
  json_builder_end_object (writer->json);
}

static void
write_dated (HsPostWriter *writer, const char *name, char *text)
{
  hs_post_write_text (writer, name, *text == '\0' ? NULL : text);
  g_free (text);
}

static void
write_bytes (HsPostWriter *writer, const char *name, GBytes *bytes)
{
  g_autofree char *text = NULL;

  if (bytes != NULL)
    text = g_base64_encode (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
  hs_post_write_text (writer, name, text);
}

static void
write_flag (HsPostWriter *writer, const char *name, gboolean flag)
{
  json_builder_set_member_name (writer->json, name);
  json_builder_add_boolean_value (writer->json, flag);
}

/* A position that stands for an area is closer than any street. */
static const char *
area_to_tell (const HsPostWriter *writer, const char *id)
{
  HsGeo geo;

  if (id == NULL || (writer->show & HS_POST_SHOW_STREET) != 0 || !hs_geo_parse (id, &geo, NULL))
    return id;
  return NULL;
}

static void
write_field (HsPostWriter *writer, const HsPostField *field, gconstpointer row)
{
  gconstpointer at = (const guint8 *) row + field->offset;
  double real;

  switch (field->type)
    {
    case HS_POST_TEXT:
      hs_post_write_text (writer, field->name, *(char *const *) at);
      break;
    case HS_POST_AREA:
      hs_post_write_text (writer, field->name, area_to_tell (writer, *(char *const *) at));
      break;
    case HS_POST_INT:
      write_int (writer, field->name, *(const gint64 *) at);
      break;
    case HS_POST_FLAG:
      write_flag (writer, field->name, *(const gboolean *) at);
      break;
    case HS_POST_DATE:
      write_dated (writer, field->name, hs_date_format (*(const HsDate *) at));
      break;
    case HS_POST_INSTANT:
      write_dated (writer, field->name, hs_instant_format (*(const HsInstant *) at));
      break;
    case HS_POST_MONEY:
      write_money (writer, field->name, *(const gint64 *) at);
      break;
    case HS_POST_MILLI:
      real = *(const double *) at;
      write_int (writer, field->name, isnan (real) ? HS_INT_NONE : (gint64) llround (real * 1000));
      break;
    case HS_POST_BYTES:
    default:
      write_bytes (writer, field->name, *(GBytes *const *) at);
      break;
    }
}

void
hs_post_write_fields (HsPostWriter *writer, const HsPostField *fields, guint n_fields, gconstpointer row)
{
  for (guint i = 0; i < n_fields; i++)
    if (fields[i].only == 0 || (writer->show & fields[i].only) != 0)
      write_field (writer, &fields[i], row);
}

static gboolean
write_van (HsPostWriter *writer, const HsJobRow *job, GError **error)
{
  g_autoptr (HsVanRow) van = NULL;

  if (job->van_id != NULL && !hs_van_row_load (hs_book_get_store (writer->book), job->van_id, &van, error))
    return FALSE;
  hs_post_write_text (writer, "van", van == NULL ? NULL : van->letter);
  return TRUE;
}

static gboolean
write_area (HsPostWriter *writer, const HsJobRow *job, GError **error)
{
  const char *id = area_to_tell (writer, job->area_id);
  g_autoptr (HsAreaRow) area = NULL;

  if (id != NULL && !hs_area_row_load (hs_book_get_store (writer->book), id, &area, error))
    return FALSE;
  hs_post_write_text (writer, "area_id", id);
  hs_post_write_text (writer, "area_name", area == NULL ? NULL : area->name);
  return TRUE;
}

static gboolean
write_job (HsPostWriter *writer, const HsJobRow *job, GError **error)
{
  json_builder_set_member_name (writer->json, "job");
  json_builder_begin_object (writer->json);
  hs_post_write_fields (writer, job_fields, G_N_ELEMENTS (job_fields), job);
  if (!write_van (writer, job, error) || !write_area (writer, job, error))
    return FALSE;
  json_builder_end_object (writer->json);
  return TRUE;
}

static gboolean
write_phones (HsPostWriter *writer, const char *customer_id, GError **error)
{
  g_autoptr (GPtrArray) phones = NULL;

  if ((writer->show & HS_POST_SHOW_PHONE) == 0)
    return TRUE;
  if (!hs_phone_row_list_of (hs_book_get_store (writer->book), customer_id, &phones, error))
    return FALSE;
  json_builder_set_member_name (writer->json, "phones");
  json_builder_begin_array (writer->json);
  for (guint i = 0; i < phones->len; i++)
    {
      json_builder_begin_object (writer->json);
      hs_post_write_fields (writer, phone_fields, G_N_ELEMENTS (phone_fields), g_ptr_array_index (phones, i));
      json_builder_end_object (writer->json);
    }
  json_builder_end_array (writer->json);
  return TRUE;
}

static gboolean
write_customer (HsPostWriter *writer, const char *customer_id, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;

  if (!hs_customer_row_load (hs_book_get_store (writer->book), customer_id, &customer, error))
    return FALSE;
  json_builder_set_member_name (writer->json, "customer");
  json_builder_begin_object (writer->json);
  hs_post_write_fields (writer, customer_fields, G_N_ELEMENTS (customer_fields), customer);
  if (!write_phones (writer, customer_id, error))
    return FALSE;
  json_builder_end_object (writer->json);
  return TRUE;
}

static gboolean
write_vehicle (HsPostWriter *writer, const char *vehicle_id, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;

  json_builder_set_member_name (writer->json, "vehicle");
  if (vehicle_id == NULL)
    {
      json_builder_add_null_value (writer->json);
      return TRUE;
    }
  if (!hs_vehicle_row_load (hs_book_get_store (writer->book), vehicle_id, &vehicle, error))
    return FALSE;
  json_builder_begin_object (writer->json);
  hs_post_write_fields (writer, vehicle_fields, G_N_ELEMENTS (vehicle_fields), vehicle);
  json_builder_end_object (writer->json);
  return TRUE;
}

static void
write_held_back (HsPostWriter *writer)
{
  json_builder_set_member_name (writer->json, "held_back");
  json_builder_begin_array (writer->json);
  for (guint i = 0; i < G_N_ELEMENTS (switches); i++)
    if ((writer->show & switches[i].show) == 0)
      json_builder_add_string_value (writer->json, switches[i].word);
  json_builder_end_array (writer->json);
}

static gboolean
write_head (HsPostWriter *writer, const HsJobRow *job, gint64 revision, GError **error)
{
  g_autofree char *zone = hs_settings_dup (writer->book, "zone", error);

  if (zone == NULL)
    return FALSE;
  hs_post_write_text (writer, "format", "halfshaft-job");
  write_int (writer, "version", HS_POST_BODY_VERSION);
  hs_post_write_text (writer, "id", job->id);
  write_int (writer, "revision", revision);
  hs_post_write_text (writer, "zone", zone);
  hs_post_write_text (writer, "currency", writer->currency);
  write_held_back (writer);
  return TRUE;
}

static gboolean
write_body (HsPostWriter *writer, const char *job_id, gint64 revision, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  return hs_job_row_load (hs_book_get_store (writer->book), job_id, &job, error)
         && write_head (writer, job, revision, error) && write_job (writer, job, error)
         && write_customer (writer, job->customer_id, error) && write_vehicle (writer, job->vehicle_id, error)
         && hs_post_write_rows (writer, job_id, error) && hs_post_write_photos (writer, job_id, error);
}

char *
hs_post_body_make (HsBook *book, const char *job_id, gint64 revision, HsPostShow show, GError **error)
{
  g_autoptr (JsonBuilder) json = json_builder_new ();
  g_autoptr (JsonNode) root = NULL;
  HsPostWriter writer = { book, json, hs_book_get_currency (book), show };

  json_builder_begin_object (json);
  if (!write_body (&writer, job_id, revision, error))
    return NULL;
  json_builder_end_object (json);
  root = json_builder_get_root (json);
  return hs_json_text (root);
}
