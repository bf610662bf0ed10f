// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The demo business: an invented town, its people and vehicles from files, and four years of jobs lived through the
 * operations that a person uses, each at its own time, so that making the demo proves the rules. hs-demo-job.c lives
 * the jobs. Refuses to write over an existing file.
 */

#include "hs-demo.h"

#include "hs-core-row.h"
#include "hs-customer-row.h"
#include "hs-demo-private.h"
#include "hs-desk-op.h"
#include "hs-import.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-part-row.h"
#include "hs-settings-op.h"
#include "hs-supplier-row.h"
#include "hs-area-row.h"
#include "hs-vehicle-row.h"

/* Own trips that stand behind each drive of the demo. */
#define DEMO_SAMPLES 8

HsInstant
hs_demo_get_now (void)
{
  /* 06:45 in New York, where clocks went forward two days before. */
  return (HsInstant) hs_date_from_ymd (2026, 3, 10) * HS_SECONDS_PER_DAY + (10 * 60 + 45) * 60;
}

static GBytes *
load_file (const char *name, GError **error)
{
  g_autofree char *path = g_strconcat ("demo/", name, NULL);

  return hs_ops_load_data (path, error);
}

static JsonNode *
load_story (GError **error)
{
  g_autoptr (GBytes) bytes = load_file ("story.json", error);
  g_autoptr (JsonParser) parser = json_parser_new_immutable ();
  gsize length;
  const char *data;

  if (bytes == NULL)
    return NULL;
  data = g_bytes_get_data (bytes, &length);
  return json_parser_load_from_data (parser, data, (gssize) length, error) ? json_parser_steal_root (parser) : NULL;
}

static gboolean
import (HsDemo *demo, const char *kind, HsInstant now, GError **error)
{
  g_autofree char *name = g_strconcat (kind, ".csv", NULL);
  g_autoptr (GBytes) bytes = load_file (name, error);
  g_autoptr (HsImportReport) report = NULL;

  if (bytes == NULL)
    return FALSE;
  if (hs_import (demo->book, kind, name, bytes, HS_IMPORT_NONE, now, &report, error))
    return TRUE;
  if (report != NULL && report->faults->len > 0)
    g_prefix_error (error, "%s: ", (const char *) g_ptr_array_index (report->faults, 0));
  return FALSE;
}

static gboolean
import_all (HsDemo *demo, const char *const *kinds, HsInstant now, GError **error)
{
  for (gsize i = 0; kinds[i] != NULL; i++)
    if (!import (demo, kinds[i], now, error))
      return FALSE;
  return TRUE;
}

static gboolean
apply_settings (HsDemo *demo, GError **error)
{
  JsonObject *settings = json_object_get_object_member (demo->story, "settings");
  g_autoptr (GList) keys = json_object_get_members (settings);

  for (GList *each = keys; each != NULL; each = each->next)
    if (!hs_settings_set (demo->book, each->data, json_object_get_string_member (settings, each->data), demo->begins,
                          error))
      return FALSE;
  return TRUE;
}

static gboolean
add_workers (HsDemo *demo, GError **error)
{
  JsonArray *workers = json_object_get_array_member (demo->story, "workers");

  for (guint i = 0; i < json_array_get_length (workers); i++)
    {
      JsonObject *each = json_array_get_object_element (workers, i);
      g_autoptr (HsWorkerRow) worker = hs_worker_row_new ();

      hs_row_set (&worker->name, json_object_get_string_member (each, "name"));
      if (!hs_money_parse (json_object_get_string_member (each, "wage"), hs_book_get_currency (demo->book),
                           &worker->wage_cents, error)
          || !hs_worker_row_save (demo->store, worker, error))
        return FALSE;
    }
  return TRUE;
}

/* The owner's drives are known from the trips of years that the demo does not tell. */
static gboolean
count_samples (HsDemo *demo, GError **error)
{
  g_autoptr (GPtrArray) drives = NULL;

  if (!hs_travel_row_list (demo->store, &drives, error))
    return FALSE;
  for (guint i = 0; i < drives->len; i++)
    {
      HsTravelRow *drive = g_ptr_array_index (drives, i);

      drive->samples = DEMO_SAMPLES;
      if (!hs_travel_row_save (demo->store, drive, error))
        return FALSE;
    }
  return TRUE;
}

char *
hs_demo_vehicle (HsDemo *demo, const char *plate, GError **error)
{
  g_autoptr (GPtrArray) vehicles = NULL;

  if (!hs_vehicle_row_list_by_plate (demo->store, plate, &vehicles, error))
    return NULL;
  if (vehicles->len == 1)
    return g_strdup (((HsVehicleRow *) g_ptr_array_index (vehicles, 0))->id);
  hs_ops_not_found (error, "The demo has no vehicle %s.", plate);
  return NULL;
}

static char *
find_customer (HsDemo *demo, const char *phone, GError **error)
{
  g_autoptr (GPtrArray) customers = NULL;

  if (!hs_customer_row_list_by_phone (demo->store, phone, &customers, error))
    return NULL;
  if (customers->len == 1)
    return g_strdup (((HsCustomerRow *) g_ptr_array_index (customers, 0))->id);
  hs_ops_not_found (error, "The demo has no customer with the phone %s.", phone);
  return NULL;
}

static gboolean
set_owners (HsDemo *demo, GError **error)
{
  JsonArray *owners = json_object_get_array_member (demo->story, "owners");

  for (guint i = 0; i < json_array_get_length (owners); i++)
    {
      JsonObject *each = json_array_get_object_element (owners, i);
      g_autofree char *vehicle_id
          = hs_demo_vehicle (demo, json_object_get_string_member (each, "plate"), error);
      g_autofree char *customer_id = find_customer (demo, json_object_get_string_member (each, "phone"), error);
      HsDate since;

      if (vehicle_id == NULL || customer_id == NULL
          || !hs_date_parse (json_object_get_string_member (each, "since"), &since, error)
          || !hs_owner_change (demo->book, vehicle_id, customer_id, since, demo->begins, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
start_business (HsDemo *demo, GError **error)
{
  static const char *const kinds[] = { "customers", "vehicles", "suppliers", "hours",
                                       "parts",     "prices",   "stock",     NULL };

  return apply_settings (demo, error) && add_workers (demo, error) && import (demo, "areas", demo->begins, error)
         && import (demo, "travel", demo->begins, error) && count_samples (demo, error)
         && import_all (demo, kinds, demo->begins, error) && set_owners (demo, error);
}

static gboolean
is_core (const HsCoreRow *core, const char *supplier_id, const char *part_id, HsDate paid_on)
{
  return g_str_equal (core->supplier_id, supplier_id) && g_strcmp0 (core->part_id, part_id) == 0
         && core->paid_on == paid_on;
}

static gboolean
credit_core (HsDemo *demo, JsonObject *each, GError **error)
{
  g_autoptr (HsSupplierRow) supplier = NULL;
  g_autoptr (HsPartRow) part = NULL;
  g_autoptr (GPtrArray) cores = NULL;
  const char *reference = json_object_get_string_member (each, "credit_ref");
  HsDate paid_on;
  HsDate handed_in;

  if (!hs_supplier_row_find (demo->store, json_object_get_string_member (each, "supplier"), &supplier, error)
      || !hs_part_row_find (demo->store, json_object_get_string_member (each, "part"), &part, error)
      || !hs_date_parse (json_object_get_string_member (each, "paid_on"), &paid_on, error)
      || !hs_date_parse (json_object_get_string_member (each, "handed_in"), &handed_in, error)
      || !hs_core_row_list (demo->store, FALSE, &cores, error))
    return FALSE;
  for (guint i = 0; i < cores->len; i++)
    {
      const HsCoreRow *core = g_ptr_array_index (cores, i);

      if (is_core (core, supplier->id, part->id, paid_on))
        return hs_core_credit (demo->book, core->id, handed_in, reference, demo->morning, error);
    }
  return hs_ops_not_found (error, "The demo has no core to credit under %s.", reference);
}

static gboolean
credit_cores (HsDemo *demo, GError **error)
{
  JsonArray *cores = json_object_get_array_member (demo->story, "cores");

  for (guint i = 0; i < json_array_get_length (cores); i++)
    if (!credit_core (demo, json_array_get_object_element (cores, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
add_follow_up (HsDemo *demo, JsonObject *each, GError **error)
{
  g_autofree char *job_id = hs_job_find (demo->book, json_object_get_string_member (each, "job"), error);
  const char *done_text = json_object_get_string_member_with_default (each, "done", NULL);
  g_autofree char *id = NULL;
  HsDate due;
  HsDate done;

  if (job_id == NULL || !hs_date_parse (json_object_get_string_member (each, "due"), &due, error))
    return FALSE;
  id = hs_follow_up_add (demo->book, job_id, json_object_get_string_member (each, "kind"), due, demo->morning, error);
  if (id == NULL || done_text == NULL)
    return id != NULL;
  return hs_date_parse (done_text, &done, error)
         && hs_follow_up_done (demo->book, id, done, json_object_get_string_member (each, "outcome"), demo->morning,
                               error);
}

static gboolean
add_follow_ups (HsDemo *demo, GError **error)
{
  JsonArray *people = json_object_get_array_member (demo->story, "people_to_call");

  for (guint i = 0; i < json_array_get_length (people); i++)
    if (!add_follow_up (demo, json_array_get_object_element (people, i), error))
      return FALSE;
  return TRUE;
}

static gboolean
interrupt (HsDemo *demo, GError **error)
{
  JsonObject *place = json_object_get_object_member (demo->story, "interrupted");
  g_autofree char *job_id = hs_job_find (demo->book, json_object_get_string_member (place, "job"), error);
  HsInstant at;

  return job_id != NULL
         && hs_instant_parse (json_object_get_string_member (place, "at"), hs_book_get_zone (demo->book), &at, error)
         && hs_where_save (demo->book, job_id, json_object_get_string_member (place, "page"),
                           json_object_get_string_member (place, "field"),
                           json_object_get_string_member (place, "text"), at, error);
}

static gboolean
start_morning (HsDemo *demo, GError **error)
{
  static const char *const kinds[] = { "jobs", "needs", "cores", "returns", NULL };

  return import_all (demo, kinds, demo->morning, error) && credit_cores (demo, error) && add_follow_ups (demo, error);
}

/* One transaction a chapter: the disk is waited for a few times, not a few hundred times. */
static gboolean
tell (HsDemo *demo, gboolean (*chapter) (HsDemo *, GError **), HsInstant now, GError **error)
{
  if (!hs_store_begin (demo->store, now, error))
    return FALSE;
  return hs_store_end (demo->store, chapter (demo, error), error);
}

static gboolean
tell_all (HsDemo *demo, GError **error)
{
  return tell (demo, start_business, demo->begins, error) && hs_demo_live_jobs (demo, error)
         && tell (demo, start_morning, demo->morning, error) && interrupt (demo, error);
}

static gboolean
read_clock (HsDemo *demo, GError **error)
{
  HsDate begins;

  if (!hs_date_parse (json_object_get_string_member (demo->story, "begins"), &begins, error))
    return FALSE;
  demo->begins = hs_instant_from_local (hs_book_get_zone (demo->book), begins, 8 * 60);
  demo->morning = hs_demo_get_now () - 15 * 60;
  return TRUE;
}

HsBook *
hs_demo_make (const char *path, const HsBookUser *user, GError **error)
{
  g_autoptr (JsonNode) root = load_story (error);
  g_autoptr (HsBook) book = NULL;
  HsDemo demo = { 0 };

  if (root == NULL)
    return NULL;
  demo.story = json_node_get_object (root);
  book = hs_book_new (path, json_object_get_string_member (demo.story, "zone"), user, error);
  if (book == NULL)
    return NULL;
  demo.book = book;
  demo.store = hs_book_get_store (book);
  if (read_clock (&demo, error) && tell_all (&demo, error))
    return g_steal_pointer (&book);
  g_clear_pointer (&book, hs_book_close);
  hs_store_remove (path);
  return NULL;
}
