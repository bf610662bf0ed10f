// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The town's rows, as import files. */

#include "ops-town.h"

#include "hs-advice-row.h"
#include "hs-chase-row.h"
#include "hs-customer-row.h"
#include "hs-day-plan.h"
#include "hs-finding-row.h"
#include "hs-import.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-money-row.h"
#include "hs-settings-op.h"
#include "hs-vehicle-row.h"
#include "hs-visit-row.h"

#include <glib/gstdio.h>
#include <string.h>

static const char town_areas[] = "code,name,signal\n"
                                 "T,Tannery Row,good\nQ,Quayside,good\nO,Old Market,good\nH,Highcroft,patchy\n"
                                 "F,Foundry estate,good\nS,Sedge End,none\n";

static const char town_travel[] = "from,to,minutes,miles\n"
                                  "T,T,4,1.0\nT,Q,9,3.1\nT,O,7,2.4\nT,H,12,5.0\nT,F,8,2.9\nT,S,21,11.2\n"
                                  "Q,Q,4,1.0\nQ,O,6,1.9\nQ,H,15,6.1\nQ,F,11,4.0\nQ,S,24,12.6\n"
                                  "O,O,3,0.8\nO,H,10,4.2\nO,F,9,3.2\nO,S,20,10.4\n"
                                  "H,H,5,1.3\nH,F,14,5.6\nH,S,17,8.7\nF,F,4,1.1\nF,S,16,8.1\nS,S,6,2.0\n";

static const char town_suppliers[]
    = "name,area,phone,return_days,restock_percent,core_days,stop_minutes\n"
      "Kingpost Parts Counter,F,555-0140,30,0,45,10\n"
      "Larch & Weir Auto Electrical,O,555-0141,14,15,60,8\n"
      "Ridgeback Salvage Yard,S,555-0142,14,0,,15\n";

static const char town_customers[]
    = "name,phone,kind,area\n"
      "Ottoline Mabry,555-0111,private,Q\nFennimore Bakery (Isolde),555-0113,trade,F\n"
      "Wilhelmina Sorrel,555-0114,private,H\nTeo Calloway,555-0115,private,O\nNadira Quell,555-0117,private,H\n"
      "Jory Pellam,555-0118,private,Q\nSedge End Campsite (Lorna),555-0119,trade,S\n"
      "Rue Abernant,555-0121,private,Q\nMarguerite Stane,555-0122,private,O\n";

static const char town_vehicles[]
    = "plate,owner_phone,make,model,year,fuel,battery_place,battery_kind,battery_ah,high_voltage\n"
      "TDM 1204,555-0111,Halvik,Pim,2014,gas,under the hood,flooded,45,no\n"
      "TDM 3316,555-0113,Tumbrel,Carter,2016,diesel,under the seat,EFB,75,no\n"
      "TDM 4409,555-0114,Halvik,Lodden,2009,gas,under the hood,flooded,60,no\n"
      "TDM 5508,555-0115,Vostle,Nib,2008,gas,under the hood,flooded,44,no\n"
      "TDM 7717,555-0117,Quenby,Larkin,2017,hybrid,trunk,AGM,45,yes\n"
      "TDM 1011,555-0119,Halvik,Bothy,2011,diesel,under the hood,flooded,80,no\n"
      "TDM 8816,555-0121,Vostle,Crag,2016,gas,under the hood,flooded,55,no\n"
      "TDM 1315,555-0122,Orsane,Merle,2015,gas,trunk,EFB,60,no\n";

static const char town_parts[]
    = "number,name,kind,warranty_months,core_deposit\n"
      "BW-55,\"battery 55 Ah flooded, Brackwater\",battery,24,18.00\n"
      "BW-45,\"battery 45 Ah flooded, Brackwater\",battery,24,18.00\n"
      "CP-45A,\"battery 45 Ah AGM, Coldpost\",battery,36,18.00\n"
      "ST-1315,\"starter, rebuilt (Orsane Merle 1.6)\",starter,12,45.00\n"
      "PAD-3316,rear pads (Tumbrel Carter),brake,12,\nFF-1011,fuel filter (Halvik Bothy),filter,,\n"
      "GP-20D,glow plug,ignition,12,\nALT-9912,\"alternator, rebuilt (Orsane Tuck)\",charging,12,45.00\n"
      "CLAMP-P,\"battery clamp, pair\",small electrical,,\nNONE-1,gearbox mount,mount,,\n";

static const char town_prices[]
    = "supplier,part,cost,seen_on\n"
      "Kingpost Parts Counter,BW-55,62.00,2026-03-02\nKingpost Parts Counter,BW-45,58.00,2026-01-26\n"
      "Kingpost Parts Counter,CP-45A,112.00,2026-03-09\nKingpost Parts Counter,PAD-3316,27.00,2026-03-09\n"
      "Kingpost Parts Counter,FF-1011,21.00,2026-03-09\nKingpost Parts Counter,GP-20D,15.50,2026-02-09\n"
      "Larch & Weir Auto Electrical,ST-1315,118.00,2026-03-09\n"
      "Larch & Weir Auto Electrical,ALT-9912,126.00,2026-02-23\n"
      "Larch & Weir Auto Electrical,CLAMP-P,9.00,2026-02-23\n";

static const char morning_jobs[]
    = "number,customer_phone,words,plate,kind,stage,area,day,window_from,window_to,minutes\n"
      "A-0021,555-0122,\"one click, no crank\",TDM 1315,repair,promised,O,2026-03-10,08:00,10:00,60\n"
      "A-0022,555-0121,slow crank; how old is my battery?,TDM 8816,repair,promised,Q,2026-03-10,08:30,10:30,40\n"
      "A-0023,555-0113,\"rear pads, booked\",TDM 3316,repair,promised,F,2026-03-10,11:00,13:00,75\n"
      "A-0024,555-0114,flat every week,TDM 4409,repair,promised,H,2026-03-10,13:00,15:30,90\n"
      "A-0025,555-0119,cuts out again,TDM 1011,repair,promised,S,2026-03-10,09:00,16:00,60\n"
      "A-0026,555-0117,\"12 V battery, booked\",TDM 7717,repair,promised,H,2026-03-10,14:30,17:30,45\n";

static const char morning_needs[] = "job,part,quantity,sure_percent,supplier,quoted\n"
                                    "A-0021,ST-1315,1,38,Larch & Weir Auto Electrical,118.00\n"
                                    "A-0022,BW-55,1,90,,62.00\n"
                                    "A-0023,PAD-3316,1,100,Kingpost Parts Counter,27.00\n"
                                    "A-0025,FF-1011,1,100,Kingpost Parts Counter,21.00\n"
                                    "A-0026,CP-45A,1,100,Kingpost Parts Counter,112.00\n";

static const char morning_stock[] = "van,part,quantity,keep,bin\nA,BW-55,1,2,shelf 1\nA,BW-45,1,1,shelf 1\n"
                                    "A,CLAMP-P,3,4,drawer 2\n";

static const char morning_cores[] = "supplier,part,deposit,paid_on,job,where_now\n"
                                    "Kingpost Parts Counter,BW-45,18.00,2026-01-26,,in_the_van\n"
                                    "Kingpost Parts Counter,CP-45A,18.00,2026-02-12,,in_the_van\n"
                                    "Larch & Weir Auto Electrical,ALT-9912,45.00,2026-02-24,,at_base\n"
                                    "Kingpost Parts Counter,BW-55,18.00,2026-03-02,A-0022,on_the_vehicle\n"
                                    "Kingpost Parts Counter,BW-55,30.00,2025-04-08,,lost\n";

static const char morning_returns[] = "supplier,part,quantity,amount,bought_on,last_day\n"
                                      "Kingpost Parts Counter,GP-20D,3,46.50,2026-02-09,2026-03-11\n";

static void
add_hours (OpsTown *town)
{
  static const char *const weekdays[] = { "mon", "tue", "wed", "thu", "fri" };
  g_autoptr (GString) csv = g_string_new ("supplier,weekday,opens,shuts\n");

  for (guint i = 0; i < G_N_ELEMENTS (weekdays); i++)
    {
      g_string_append_printf (csv, "Kingpost Parts Counter,%s,07:30,18:00\n", weekdays[i]);
      g_string_append_printf (csv, "Larch & Weir Auto Electrical,%s,08:00,12:30\n", weekdays[i]);
      g_string_append_printf (csv, "Larch & Weir Auto Electrical,%s,13:15,17:00\n", weekdays[i]);
      if (i > 0)
        g_string_append_printf (csv, "Ridgeback Salvage Yard,%s,09:00,16:30\n", weekdays[i]);
    }
  g_string_append (csv, "Kingpost Parts Counter,sat,08:00,16:00\nLarch & Weir Auto Electrical,sat,08:30,12:00\n"
                        "Ridgeback Salvage Yard,sat,09:00,16:30\n");
  ops_town_add (town, "hours", csv->str);
}

void
ops_town_add (OpsTown *town, const char *kind, const char *csv)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new_static (csv, strlen (csv));
  g_autoptr (HsImportReport) report = NULL;
  gboolean done = hs_import (town->book, kind, "town.csv", bytes, HS_IMPORT_NONE, ops_town_now (town), &report, &error);

  for (guint i = 0; report != NULL && i < report->faults->len; i++)
    g_test_message ("%s: %s", kind, (const char *) g_ptr_array_index (report->faults, i));
  g_assert_no_error (error);
  g_assert_true (done);
}

void
ops_town_set (OpsTown *town, const char *key, const char *value)
{
  g_autoptr (GError) error = NULL;

  hs_settings_set (town->book, key, value, ops_town_now (town), &error);
  g_assert_no_error (error);
}

OpsTown *
ops_town_new (void)
{
  g_autoptr (GError) error = NULL;
  OpsTown *town = g_new0 (OpsTown, 1);
  HsBookUser user = { "test", "bench", 1, 1773139500 };

  town->folder = g_dir_make_tmp (NULL, &error);
  g_assert_no_error (error);
  town->path = g_build_filename (town->folder, "town.hsbook", NULL);
  town->book = hs_book_new (town->path, "America/New_York", &user, &error);
  g_assert_no_error (error);
  ops_town_add (town, "areas", town_areas);
  ops_town_add (town, "travel", town_travel);
  ops_town_set (town, "base_area", "T");
  ops_town_add (town, "suppliers", town_suppliers);
  add_hours (town);
  ops_town_add (town, "customers", town_customers);
  ops_town_add (town, "vehicles", town_vehicles);
  ops_town_add (town, "parts", town_parts);
  ops_town_add (town, "prices", town_prices);
  return town;
}

void
ops_town_reopen (OpsTown *town)
{
  HsBookUser user = { "test", "bench", 2, 1773139560 };
  g_autoptr (GError) error = NULL;

  hs_book_close (town->book);
  town->book = hs_book_open (town->path, HS_BOOK_WRITE, &user, &error);
  g_assert_no_error (error);
}

void
ops_town_add_morning (OpsTown *town)
{
  ops_town_add (town, "jobs", morning_jobs);
  ops_town_add (town, "needs", morning_needs);
  ops_town_add (town, "stock", morning_stock);
  ops_town_add (town, "cores", morning_cores);
  ops_town_add (town, "returns", morning_returns);
}

char *
ops_town_vehicle (OpsTown *town, const char *plate)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  hs_vehicle_row_list_by_plate (hs_book_get_store (town->book), plate, &rows, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (rows->len, ==, 1);
  return g_strdup (((HsVehicleRow *) g_ptr_array_index (rows, 0))->id);
}

char *
ops_town_customer (OpsTown *town, const char *phone)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  hs_customer_row_list_by_phone (hs_book_get_store (town->book), phone, &rows, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (rows->len, ==, 1);
  return g_strdup (((HsCustomerRow *) g_ptr_array_index (rows, 0))->id);
}

static void
begin (OpsTown *town, HsInstant now)
{
  g_autoptr (GError) error = NULL;

  hs_store_begin (hs_book_get_store (town->book), now, &error);
  g_assert_no_error (error);
}

static void
commit (OpsTown *town)
{
  g_autoptr (GError) error = NULL;

  hs_store_commit (hs_book_get_store (town->book), &error);
  g_assert_no_error (error);
}

static void
add_visit (HsStore *store, const char *job_id, HsInstant arrived)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsVisitRow) visit = hs_visit_row_new ();

  hs_row_set (&visit->job_id, job_id);
  visit->rolling_at = arrived - 600;
  visit->arrived_at = arrived;
  visit->left_at = arrived + 3600;
  hs_visit_row_save (store, visit, &error);
  g_assert_no_error (error);
}

static void
add_charges (HsStore *store, const char *job_id, gint64 cents, HsInstant at)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsLineRow) line = hs_line_row_new ();
  g_autoptr (HsGoAheadRow) yes = hs_go_ahead_row_new ();

  hs_row_set (&line->job_id, job_id);
  hs_row_set (&line->kind, "labor");
  hs_row_set (&line->what, "call-out and time");
  line->price_cents = cents;
  line->tax_cents = 0;
  line->cost_cents = 0;
  hs_line_row_save (store, line, &error);
  g_assert_no_error (error);
  hs_row_set (&yes->job_id, job_id);
  yes->ceiling_cents = cents;
  hs_row_set (&yes->by_whom, "the owner");
  hs_row_set (&yes->means, "in_person");
  yes->at = at;
  hs_go_ahead_row_save (store, yes, &error);
  g_assert_no_error (error);
}

static void
add_bill (HsStore *store, const HsJobRow *job, const OpsTownDone *done, HsInstant at)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsInvoiceRow) invoice = hs_invoice_row_new ();
  g_autoptr (HsPaymentRow) payment = hs_payment_row_new ();

  hs_row_set (&invoice->number, done->number);
  hs_row_set (&invoice->job_id, job->id);
  invoice->issued_on = job->day;
  invoice->due_on = job->day;
  invoice->net_cents = done->cents;
  invoice->tax_cents = 0;
  invoice->total_cents = done->cents;
  hs_row_set (&invoice->frozen, "as handed over");
  hs_row_set (&invoice->sha256, "0000000000000000000000000000000000000000000000000000000000000000");
  hs_invoice_row_save (store, invoice, &error);
  g_assert_no_error (error);
  if (!done->paid)
    return;
  hs_row_set (&payment->job_id, job->id);
  hs_row_set (&payment->how, "cash");
  payment->cents = done->cents;
  payment->at = at;
  hs_payment_row_save (store, payment, &error);
  g_assert_no_error (error);
}

char *
ops_town_add_done (OpsTown *town, const OpsTownDone *done)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobRow) job = hs_job_row_new ();
  g_autofree char *nine = g_strdup_printf ("%sT09:00", done->day);
  HsInstant at = ops_town_at (town, nine);

  begin (town, at);
  hs_row_set (&job->number, done->number);
  job->customer_id = ops_town_customer (town, done->phone);
  job->vehicle_id = done->plate != NULL ? ops_town_vehicle (town, done->plate) : NULL;
  hs_row_set (&job->words, done->words);
  hs_row_set (&job->stage, "on_site");
  job->day = ops_town_day (done->day);
  job->called_at = at - 3600;
  hs_job_row_save (store, job, &error);
  g_assert_no_error (error);
  add_visit (store, job->id, at);
  if (done->cents >= 0)
    add_charges (store, job->id, done->cents, at);
  hs_job_row_move (store, job->id, HS_STAGE_PROVEN, "tried once more, works", &error);
  g_assert_no_error (error);
  if (done->cents >= 0)
    {
      add_bill (store, job, done, at + 3600);
      hs_job_row_move (store, job->id, HS_STAGE_SQUARED, NULL, &error);
    }
  g_assert_no_error (error);
  commit (town);
  return g_strdup (job->id);
}

void
ops_town_add_chase (OpsTown *town, const char *number, const char *kind, const char *due)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsChaseRow) chase = hs_chase_row_new ();

  begin (town, ops_town_now (town));
  chase->job_id = ops_town_job (town, number);
  hs_row_set (&chase->kind, kind);
  chase->due_on = ops_town_day (due);
  hs_chase_row_save (hs_book_get_store (town->book), chase, &error);
  g_assert_no_error (error);
  commit (town);
}

char *
ops_town_add_finding (OpsTown *town, const char *job_id, const char *role, const char *what, const char *sure)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsFindingRow) finding = hs_finding_row_new ();

  begin (town, ops_town_now (town));
  hs_row_set (&finding->job_id, job_id);
  hs_row_set (&finding->role, role);
  hs_row_set (&finding->what, what);
  hs_row_set (&finding->sure, sure);
  hs_finding_row_save (hs_book_get_store (town->book), finding, &error);
  g_assert_no_error (error);
  commit (town);
  return g_strdup (finding->id);
}

/* An owner who came in by import on the town's today has had the vehicle for longer. */
static void
begin_ownership (HsStore *store, const char *vehicle_id, HsDate before)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsOwnershipRow) owner = NULL;

  hs_ownership_row_present (store, vehicle_id, &owner, &error);
  g_assert_no_error (error);
  if (owner->from_date < before)
    return;
  owner->from_date = ops_town_day ("2022-01-01");
  hs_ownership_row_save (store, owner, &error);
  g_assert_no_error (error);
}

void
ops_town_sell (OpsTown *town, const char *plate, const char *phone, const char *day)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *vehicle = ops_town_vehicle (town, plate);
  g_autofree char *customer = ops_town_customer (town, phone);

  begin (town, ops_town_now (town));
  begin_ownership (hs_book_get_store (town->book), vehicle, ops_town_day (day));
  hs_ownership_row_hand_over (hs_book_get_store (town->book), vehicle, customer, ops_town_day (day), &error);
  g_assert_no_error (error);
  commit (town);
}

void
ops_town_free (OpsTown *town)
{
  const char *name;
  GDir *folder;

  if (town == NULL)
    return;
  hs_book_close (town->book);
  folder = g_dir_open (town->folder, 0, NULL);
  while (folder != NULL && (name = g_dir_read_name (folder)) != NULL)
    {
      g_autofree char *path = g_build_filename (town->folder, name, NULL);

      g_unlink (path);
    }
  g_clear_pointer (&folder, g_dir_close);
  g_rmdir (town->folder);
  g_free (town->folder);
  g_free (town->path);
  g_free (town);
}

HsInstant
ops_town_at (OpsTown *town, const char *text)
{
  HsInstant instant = HS_INSTANT_NONE;

  g_assert_true (hs_instant_parse (text, hs_book_get_zone (town->book), &instant, NULL));
  return instant;
}

HsInstant
ops_town_now (OpsTown *town)
{
  return ops_town_at (town, "2026-03-10T06:45");
}

HsDate
ops_town_day (const char *text)
{
  HsDate day = HS_DATE_NONE;

  g_assert_true (hs_date_parse (text, &day, NULL));
  return day;
}

char *
ops_town_job (OpsTown *town, const char *number)
{
  g_autoptr (GError) error = NULL;
  char *id = hs_job_find (town->book, number, &error);

  g_assert_no_error (error);
  return id;
}

void
ops_town_assert_clock (OpsTown *town, HsInstant instant, const char *clock)
{
  g_autofree char *text = NULL;
  int seconds;

  hs_instant_to_local (hs_book_get_zone (town->book), instant, NULL, &seconds);
  text = hs_clock_format (seconds / 60);
  g_assert_cmpint (seconds % 60, ==, 0);
  g_assert_cmpstr (text, ==, clock);
}

OpsTown *
ops_town_new_accepted (void)
{
  OpsTown *town = ops_town_new ();
  g_autoptr (HsDayPlan) plan = NULL;
  g_autoptr (GError) error = NULL;

  ops_town_add_morning (town);
  plan = hs_day_plan_make (town->book, ops_town_day ("2026-03-10"), NULL, HS_INSTANT_NONE, &error);
  g_assert_true (hs_day_plan_accept (town->book, plan, ops_town_now (town), &error));
  return town;
}
