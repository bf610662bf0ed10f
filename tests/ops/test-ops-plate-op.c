// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One plate, two vehicles of different states: which one is meant is asked, never guessed. */

#include "hs-plate-op.h"

#include "hs-history.h"
#include "hs-identify-op.h"
#include "hs-job-op.h"
#include "ops-town.h"

#include <string.h>

static const char shared[] = "plate,owner_phone,make,model,year,plate_state\n"
                             "XYZ 1,555-0115,Orsane,Tuck,2012,OH\n"
                             "XYZ 1,555-0117,Vostle,Crag,2016,PA\n";

static char *
dup_make (OpsTown *town, const char *plate, const HsPlateHint *hint, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (!hs_plate_find_vehicle (hs_book_get_store (town->book), plate, hint, &vehicle, error))
    return NULL;
  return g_strdup (vehicle != NULL ? vehicle->make : "none");
}

static void
test_which (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  static const struct
  {
    const char *plate, *phone, *make, *found;
  } rows[] = {
    { "XYZ 1", "555-0115", NULL, "Orsane" }, { "xyz-1", "555-0117", NULL, "Vostle" },
    { "XYZ 1", NULL, "vostle", "Vostle" },   { "XYZ 1", "555-0121", "Orsane", "Orsane" },
    { "XYZ 1/1", NULL, NULL, "Orsane" },     { "XYZ 1/2", NULL, NULL, "Vostle" },
    { "XYZ 1/2", "555-0115", NULL, "Vostle" },
    { "XYZ 1/0", NULL, NULL, "none" },       { "XYZ 1/0", "555-0115", "Orsane", "none" },
    { "TDM 1315", NULL, NULL, "Orsane" },    { "TDM 1315/1", NULL, NULL, "Orsane" },
    { "TDM 1315/0", NULL, NULL, "none" },    { "QQ 9", "555-0115", "Orsane", "none" },
    { "QQ 9/1", NULL, NULL, "none" },        { "QQ/A", NULL, NULL, "none" },
  };

  ops_town_add (town, "vehicles", shared);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *customer = rows[i].phone != NULL ? ops_town_customer (town, rows[i].phone) : NULL;
      HsPlateHint hint = { NULL, customer, rows[i].make };
      g_autofree char *make = dup_make (town, rows[i].plate, &hint, &error);

      g_assert_no_error (error);
      g_assert_cmpstr (make, ==, rows[i].found);
    }
}

static void
assert_asked (GError *error)
{
  static const char *const said[] = { "“XYZ 1”", "1 Orsane Tuck 2012, Teo Calloway", "2 Vostle Crag 2016, Nadira Quell",
                                      "“XYZ 1/1”", "“XYZ 1/0” for none of these" };

  g_assert_nonnull (error);
  for (gsize i = 0; i < G_N_ELEMENTS (said); i++)
    if (strstr (error->message, said[i]) == NULL)
      g_error ("“%s” is not in “%s”", said[i], error->message);
}

/* A caller who owns neither is asked, in the call, at the vehicle and by the history; a digit answers. */
static void
test_asked (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  HsCallSlip slip = { .phone = "555-0121", .words = "clicks", .plate = "XYZ 1", .day = HS_DATE_NONE, .window_from = -1,
                      .window_to = -1 };
  g_autoptr (GError) call = NULL, vehicle = NULL, history = NULL, none = NULL;
  g_autofree char *refused = NULL, *job_id = NULL, *found = NULL;
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsVehicleRow) second = NULL;
  HsIdentified how;

  ops_town_add (town, "vehicles", shared);
  refused = hs_call_take (town->book, &slip, ops_town_now (town), &call);
  g_assert_null (refused);
  assert_asked (call);
  found = hs_history_find_vehicle (town->book, "XYZ 1", ops_town_now (town), &history);
  g_assert_null (found);
  assert_asked (history);
  slip.plate = NULL;
  job_id = hs_call_take (town->book, &slip, ops_town_now (town), &none);
  g_assert_no_error (none);
  g_assert_false (hs_identify_plate (town->book, job_id, "XYZ 1", NULL, ops_town_now (town), &how, &vehicle));
  assert_asked (vehicle);
  g_assert_true (hs_identify_plate (town->book, job_id, "XYZ 1/2", NULL, ops_town_now (town), &how, &none));
  g_assert_true (hs_job_row_load (hs_book_get_store (town->book), job_id, &job, NULL));
  g_assert_true (hs_vehicle_row_load (hs_book_get_store (town->book), job->vehicle_id, &second, NULL));
  g_assert_cmpstr (second->make, ==, "Vostle");
  /* The slip that is written again with the plate as it is shown keeps the vehicle. */
  slip.job_id = job_id;
  slip.plate = "XYZ 1";
  g_free (hs_call_take (town->book, &slip, ops_town_now (town), &none));
  g_assert_no_error (none);
}

static guint
count_of (OpsTown *town, const char *plate)
{
  g_autoptr (GPtrArray) rows = NULL;

  g_assert_true (hs_vehicle_row_list_by_plate (hs_book_get_store (town->book), plate, &rows, NULL));
  return rows->len;
}

/* The figure that answers the question is never stored as a plate; one that answers nothing is asked again. */
static void
assert_no_figures (OpsTown *town)
{
  static const char *const wrong[] = { "XYZ 1/0", "XYZ 1/2", "XYZ 1/3", "XYZ 1/22", "TDM 1315/0",
                                       "TDM 1315/2", "QQ 9/1" };

  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    g_assert_cmpuint (count_of (town, wrong[i]), ==, 0);
}

static void
test_call (void)
{
  static const struct
  {
    const char *plate, *said;
    guint shared, single;
  } rows[] = {
    { "XYZ 1/3", "There is no “XYZ 1/3”; “XYZ 1” is: 1 Orsane Tuck", 2, 1 },
    { "XYZ 1/22", "There is no “XYZ 1/22”", 2, 1 },
    { "TDM 1315/2", "There is no “TDM 1315/2”; “TDM 1315” is: 1 Orsane", 2, 1 },
    { "QQ 9/1", "No vehicle of this book has “QQ 9”", 2, 1 },
    { "TDM 1315/1", NULL, 2, 1 },
    { "TDM 1315/0", NULL, 2, 2 },
    { "XYZ 1/0", NULL, 3, 2 },
  };
  g_autoptr (OpsTown) town = ops_town_new ();
  HsCallSlip slip = { .phone = "555-0121", .words = "clicks", .day = HS_DATE_NONE, .window_from = -1,
                      .window_to = -1 };

  ops_town_add (town, "vehicles", shared);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *job = NULL;

      slip.plate = rows[i].plate;
      job = hs_call_take (town->book, &slip, ops_town_now (town), &error);
      g_assert_cmpint (job == NULL, ==, rows[i].said != NULL);
      if (rows[i].said != NULL && strstr (error->message, rows[i].said) == NULL)
        g_error ("“%s” is not in “%s”", rows[i].said, error->message);
      g_assert_cmpuint (count_of (town, "XYZ 1"), ==, rows[i].shared);
      g_assert_cmpuint (count_of (town, "TDM 1315"), ==, rows[i].single);
      assert_no_figures (town);
    }
}

/* Beside the vehicle: the call is for the first. */
static void
test_vehicle (void)
{
  static const struct
  {
    const char *plate, *said;
  } rows[] = {
    { "XYZ 1", NULL },
    { "XYZ 1/1", NULL },
    { "XYZ 1/2", "“XYZ 1/2” is another vehicle of this book; this call is for XYZ 1" },
    { "XYZ 1/0", "“XYZ 1/0” is a vehicle that this book does not have yet" },
    { "XYZ 1/3", "There is no “XYZ 1/3”" },
    { "TDM 1315/0", "On record it carries XYZ 1" },
  };
  g_autoptr (OpsTown) town = ops_town_new ();
  HsCallSlip slip = { .phone = "555-0115", .words = "clicks", .plate = "XYZ 1", .day = HS_DATE_NONE, .window_from = -1,
                      .window_to = -1 };
  g_autofree char *job_id = NULL;

  ops_town_add (town, "vehicles", shared);
  job_id = hs_call_take (town->book, &slip, ops_town_now (town), NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const char *why = i + 1 < G_N_ELEMENTS (rows) ? "the other one stands here" : NULL;
      g_autoptr (GError) error = NULL;
      HsIdentified how;
      gboolean good = hs_identify_plate (town->book, job_id, rows[i].plate, why, ops_town_now (town), &how, &error);

      g_assert_cmpint (good, ==, rows[i].said == NULL);
      if (rows[i].said != NULL && strstr (error->message, rows[i].said) == NULL)
        g_error ("“%s” is not in “%s”", rows[i].said, error->message);
      assert_no_figures (town);
      g_assert_cmpuint (count_of (town, "XYZ 1"), ==, 2);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/plate/which", test_which);
  g_test_add_func ("/ops/plate/asked", test_asked);
  g_test_add_func ("/ops/plate/call", test_call);
  g_test_add_func ("/ops/plate/vehicle", test_vehicle);
  return g_test_run ();
}
