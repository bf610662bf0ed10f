// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Each kind of file: what is taken, what changes, what adds nothing, and every fault with file, row and field. */

#include "hs-area-row.h"
#include "hs-customer-row.h"
#include "hs-installed-row.h"
#include "hs-job-row.h"
#include "hs-ops-test.h"
#include "hs-settings-op.h"
#include "hs-vehicle-row.h"

#include <string.h>

/* One good file and what it does the first time and the second. */
typedef struct
{
  const char *kind;
  const char *text;
  gsize added;
  gsize unchanged;
} Good;

static void
check_good (const Good *rows, gsize n_rows)
{
  for (gsize i = 0; i < n_rows; i++)
    {
      g_autoptr (HsOpsTest) test = hs_ops_test_open ();
      gint64 seen;

      hs_ops_test_fill (test);
      hs_ops_test_import_ok (test, "jobs",
                             "number,customer_phone,words,plate\nA-0001,555 0115,will not start,TDM5508\n", 1, 0, 0);
      hs_ops_test_import_ok (test, rows[i].kind, rows[i].text, rows[i].added, 0, rows[i].unchanged);
      seen = hs_ops_test_count (test, "change_log");
      hs_ops_test_import_ok (test, rows[i].kind, rows[i].text, 0, 0, rows[i].added + rows[i].unchanged);
      g_assert_cmpint (hs_ops_test_count (test, "change_log"), ==, seen);
    }
}

static void
test_good (void)
{
  static const Good rows[] = {
    { "travel", "from,to,minutes,miles\nT,H,12,5.0\nH,T,12,5\nT,T,4.5,1\nTannery Row,Highcroft,12,5.0\n", 2, 2 },
    { "customers", "name,phone,kind,lat,lon\nRue Abernant,(555) 0121,Trade,41.2,-74.5\n", 1, 0 },
    { "vehicles", "plate,owner_phone,fuel,high_voltage,plate_state\nab-12 cd,555.0115,petrol,TRUE,OH\n", 1, 0 },
    { "vehicles", "plate,owner_phone\ntdm  5508,5550115\n", 0, 1 },
    { "suppliers", "name,restock_percent,stop_minutes\nRidgeback,12.25,7.5\n", 1, 0 },
    { "hours", "supplier,weekday,opens,shuts\nlarch & weir,Mon,08:00,12:30\nLarch & Weir,monday,13:15,24:00\n", 2, 0 },
    { "hours", "supplier,weekday,opens,shuts\nLarch & Weir,tue,8:00,9:00\nLarch & Weir,Tue,08:00,09:00\n", 1, 1 },
    { "parts", "number,name,warranty_miles\nX,strut,12000.5\n", 1, 0 },
    { "prices", "supplier,part,cost,seen_on\nLarch & Weir,BW-55,62.00,2026-03-02\nLarch & Weir,BW-55,63,2026-03-03\n",
      2, 0 },
    { "prices", "supplier,part,cost\nKingpost Parts Counter,glow plug,15.5\n", 1, 0 },
    { "stock", "van,part,quantity,keep\na,BW-55,2.5,3\n", 1, 0 },
    { "stock", "van,part,quantity\nA,BW-55,0\n", 1, 0 },
    { "jobs", "number,customer_phone,words\nA-0001,555-0115,will not start\nJOB 7,555-0115,hums\n", 1, 1 },
    { "needs", "job,part,quantity\nA-0001,BW-55,2\nA-0001,GP-20D,\n", 2, 0 },
    { "odometer", "plate,date,value\nTDM 5508,2025-01-01,5000\nTDM5508,2024-01-01,4000\n", 2, 0 },
    { "installed", "plate,what,date\nTDM 5508,battery,2024-01-01\n", 1, 0 },
    { "readings", "job,check,value\nA-0001,battery_rest,12.42\nA-0001,starts_good,5/5\nA-0001,glow_plug,over range\n",
      3, 0 },
    { "readings", "job,check,value,unit,at\nA-0001,battery_rest,12.42,v,2026-03-09T10:00\n", 1, 0 },
    { "cores", "supplier,part,deposit,paid_on,where_now\nLarch & Weir,BW-55,18.00,2026-03-01,in the van\n"
               "Larch & Weir,BW-55,18.00,2026-03-01,IN_THE_VAN\n",
      2, 0 },
    { "cores", "supplier,part,deposit,paid_on,where_now\nLarch & Weir,BW-55,18,2026-03-01,credited\n"
               "Larch & Weir,BW-55,19,2026-03-01,customer kept it\nLarch & Weir,BW-55,20,2026-03-01,on the vehicle\n"
               "Larch & Weir,BW-55,21,2026-03-01,at base\nLarch & Weir,BW-55,22,2026-03-01,Handed in\n"
               "Larch & Weir,BW-55,23,2026-03-01,lost\nLarch & Weir,BW-55,24,2026-03-01,in_van\n",
      7, 0 },
    { "returns", "supplier,part,quantity,amount,bought_on\nKingpost Parts Counter,GP-20D,3,46.50,2026-02-09\n", 1, 0 },
  };

  check_good (rows, G_N_ELEMENTS (rows));
}

static void
test_battery_cable (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "installed",
                         "plate,what,date\nTDM 5508,battery,2024-01-01\nTDM 5508,battery cable,2025-01-01\n", 2, 0, 0);
  g_assert_cmpint (hs_ops_test_count (test, "installed_part WHERE kind = 'battery' AND removed_on IS NULL"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "installed_part WHERE what = 'battery cable' AND kind IS NULL"), ==, 1);
}

static void
test_known_by (void)
{
  static const char *const words[] = { "we fitted it", "We installed it", "receipt", "Date stamp",
                                       "customer_says", "not known" };

  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    {
      g_autoptr (HsOpsTest) test = hs_ops_test_open ();
      g_autofree char *text
          = g_strdup_printf ("plate,what,date,known_by\nTDM 5508,battery,2024-01-01,%s\n", words[i]);

      hs_ops_test_fill (test);
      hs_ops_test_import_ok (test, "installed", text, 1, 0, 0);
    }
}

/* A file with one bad row, and the whole of what is said about it. */
typedef struct
{
  const char *kind;
  const char *text;
  const char *faults;
} Bad;

static const Bad bad_rows[] = {
  { "travel", "from,to,minutes,miles\nT,X,4,1\n",
    "travel.csv:2: to: there is no area “X” in the book; import areas first\n" },
  { "travel", "from,to,minutes,miles\nT,H,-5,1\n",
    "travel.csv:2: minutes: “-5” must lie between 0 and 1440\n" },
  { "travel", "from,to,minutes,miles\nT,H,4,1\nH,T,5,1\n",
    "travel.csv:3: to: row 2 says something else about the same one; keep one of the two\n" },
  { "customers", "name,phone,reach_from,reach_to\nX,555-0199,12:00,11:00\n",
    "customers.csv:2: reach_to: 11:00 is before reach_from, 12:00\n" },
  { "customers", "name,phone,lat\nX,555-0199,41\n", "customers.csv:2: lon: a place needs both lat and lon\n" },
  { "customers", "name,phone,lat,lon\nX,555-0199,91,0\n", "customers.csv:2: lat: “91” must lie between -90 and 90\n" },
  { "customers", "name,phone,area\nX,555-0199,Nowhere\n",
    "customers.csv:2: area: there is no area “Nowhere” in the book; import areas first\n" },
  { "vehicles", "plate,owner_phone\nNEW 1,555-0999\n",
    "vehicles.csv:2: owner_phone: there is no customer with the phone 555-0999 in the book; import customers first\n" },
  { "vehicles", "plate,owner_phone,year\nNEW 1,555-0115,1492\n",
    "vehicles.csv:2: year: “1492” must lie between 1885 and 2200\n" },
  { "vehicles", "plate,owner_phone,high_voltage\nNEW 1,555-0115,maybe\n",
    "vehicles.csv:2: high_voltage: “maybe” is neither yes nor no\n" },
  { "vehicles", "plate,owner_phone\n--,555-0115\n",
    "vehicles.csv:2: plate: “--” has neither a letter nor a digit\n" },
  { "suppliers", "name,restock_percent\nX,101\n",
    "suppliers.csv:2: restock_percent: “101” must lie between 0 and 100\n" },
  { "suppliers", "name,restock_percent\nX,1.125\n",
    "suppliers.csv:2: restock_percent: “1.125” has more than two decimals\n" },
  { "hours", "supplier,weekday,opens,shuts\nNobody,mon,08:00,09:00\n",
    "hours.csv:2: supplier: there is no supplier “Nobody” in the book; import suppliers first\n" },
  { "holidays", "supplier,date\nNobody,2026-07-03\n",
    "holidays.csv:2: supplier: there is no supplier “Nobody” in the book; import suppliers first\n" },
  { "holidays", "supplier,date,opens,shuts\nLarch & Weir,2026-07-03,09:00,\n",
    "holidays.csv:2: shuts: is empty: write both times, or neither for a day on which it stays shut\n" },
  { "holidays", "date,opens,shuts\n2026-07-03,,12:00\n",
    "holidays.csv:2: opens: is empty: write both times, or neither for a day on which it stays shut\n" },
  { "holidays", "date,opens,shuts\n2026-07-03,,\n2026-07-03,09:00,12:00\n",
    "holidays.csv:3: date: row 2 says something else about the same one; keep one of the two\n" },
  { "holidays", "date,opens,shuts,words\n2026-07-03,09:00,12:00,a\n2026-07-03,09:00,12:00,b\n",
    "holidays.csv:3: date: row 2 says something else about the same one; keep one of the two\n" },
  { "prices", "supplier,part,cost\nLarch & Weir,NO-1,1.00\n",
    "prices.csv:2: part: there is no part “NO-1” in the book; import parts first\n" },
  { "prices", "supplier,part,cost\nLarch & Weir,BW-55,-1.00\n",
    "prices.csv:2: cost: “-1.00” is below zero; an amount here is 0 or more\n" },
  { "prices", "supplier,part,cost,seen_on\nLarch & Weir,BW-55,1.00,2026-03-01\nLarch & Weir,BW-55,2.00,2026-03-01\n",
    "prices.csv:3: cost: row 2 says something else about the same one; keep one of the two\n" },
  { "stock", "van,part,quantity\nB,BW-55,1\n",
    "stock.csv:2: van: The book has no van “B”; add its letter with: set vans A,B\n" },
  { "stock", "van,part,quantity\nA,BW-55,-1\n",
    "stock.csv:2: quantity: “-1” must lie between 0 and 1000000\n" },
  { "jobs", "number,customer_phone,words\nA-0002,555-0999,hums\n",
    "jobs.csv:2: customer_phone: there is no customer with the phone 555-0999 in the book; import customers first\n" },
  { "jobs", "number,customer_phone,words,plate\nA-0002,555-0115,hums,ZZZ 1\n",
    "jobs.csv:2: plate: there is no vehicle ZZZ 1 in the book; import vehicles first\n" },
  { "jobs", "number,customer_phone,words,stage\nA-0002,555-0115,hums,squared\n",
    "jobs.csv:2: stage: a job cannot come in as “squared”; bring it in as called_in, penciled or promised and move it "
    "on in the book\n" },
  { "jobs", "number,customer_phone,words,stage\nA-0002,555-0115,hums,promised\n",
    "jobs.csv:2: day: a promise needs its day\n" },
  { "jobs", "number,customer_phone,words,day,window_from,window_to\nA-0002,555-0115,hums,2026-03-10,11:00,10:59\n",
    "jobs.csv:2: window_to: the window ends at 10:59, before it starts at 11:00\n" },
  { "jobs", "number,customer_phone,words,day,window_from\nA-0002,555-0115,hums,2026-03-10,11:00\n",
    "jobs.csv:2: window_to: a window has two ends\n" },
  { "jobs", "number,customer_phone,words,window_from,window_to\nA-0002,555-0115,hums,11:00,12:00\n",
    "jobs.csv:2: window_from: 11:00 of which day? Fill in day\n"
    "jobs.csv:2: window_to: 12:00 of which day? Fill in day\n" },
  { "jobs", "number,customer_phone,words,day,window_from,window_to\nA-0002,555-0115,hums,2026-03-08,02:30,04:00\n",
    "jobs.csv:2: window_from: 02:30 does not exist on that day; clocks go forward then\n" },
  { "jobs",
    "number,customer_phone,words,window_from,window_to\nA-0002,555-0115,hums,2026-03-08T02:30,2026-03-08T04:00\n",
    "jobs.csv:2: window_from: 02:30 does not exist on that day; clocks go forward then\n" },
  { "jobs",
    "number,customer_phone,words,day,window_from,window_to\n"
    "A-0002,555-0115,hums,2026-03-11,2026-03-10T11:00,2026-03-10T12:00\n",
    "jobs.csv:2: window_from: 2026-03-10T11:00 is not on 2026-03-11\n" },
  { "jobs", "number,customer_phone,words,minutes\nA-0002,555-0115,hums,0\n",
    "jobs.csv:2: minutes: “0” must lie between 1 and 10080\n" },
  { "jobs", "number,customer_phone,words,plate,kind\nA-0002,555-0117,hums,TDM 7717,return visit\n",
    "jobs.csv:2: kind: there is no earlier job of this vehicle to return to\n" },
  { "jobs", "number,customer_phone,words\nA-0002,555-0115,hums\nA-0002,555-0115,roars\n",
    "jobs.csv:3: number: row 2 says something else about the same one; keep one of the two\n" },
  { "needs", "job,part,quantity\nA-0001,BW-55,0\n",
    "needs.csv:2: quantity: “0” must lie between 0.001 and 1000000\n" },
  { "needs", "job,part,sure_percent\nA-0001,BW-55,101\n",
    "needs.csv:2: sure_percent: “101” must lie between 0 and 100\n" },
  { "needs", "job,part\nA-0099,BW-55\n", "needs.csv:2: job: there is no job A-0099 in the book; import jobs first\n" },
  { "installed", "plate,what,date\nTDM 5508,battery,2024-01-01\nTDM 5508,battery 44 Ah,2025-01-01\n",
    "installed.csv:3: removed_on: this vehicle has a battery since 2024-01-01 (battery); give that one its removed_on "
    "first\n" },
  { "installed", "plate,what,date,removed_on\nTDM 5508,battery,2024-01-01,2023-01-01\n",
    "installed.csv:2: removed_on: 2023-01-01 is before it was installed, 2024-01-01\n" },
  { "installed", "plate,what,date,warranty_from\nTDM 5508,starter,2024-01-01,2024-01-02\n",
    "installed.csv:2: warranty_from: 2024-01-02 is after it was installed, 2024-01-01\n" },
  { "installed", "plate,what,date\nTDM 5508,starter,2027-01-01\n",
    "installed.csv:2: date: 2027-01-01 is still to come\n" },
  { "installed", "plate,what,date,stands_in_for_date\nTDM 5508,battery,2024-01-01,2023-01-01\n",
    "installed.csv:2: stands_in_for_date: no such part was installed on this vehicle on 2023-01-01\n" },
  { "installed",
    "plate,what,date,removed_on,warranty_from,stands_in_for_date\nTDM 5508,battery,2023-01-01,2024-01-01,,\n"
    "TDM 5508,battery,2024-01-01,,2024-01-01,2023-01-01\n",
    "installed.csv:3: warranty_from: a warranty swap keeps the first date, 2023-01-01; this row says 2024-01-01\n" },
  { "installed",
    "plate,what,date,removed_on,warranty_from,stands_in_for_date\nTDM 5508,battery,2023-01-01,2024-01-01,,\n"
    "TDM 5508,battery,2024-01-01,2025-01-01,,2023-01-01\nTDM 5508,battery,2025-01-01,,2024-01-01,2024-01-01\n",
    "installed.csv:4: warranty_from: a warranty swap keeps the first date, 2023-01-01; this row says 2024-01-01\n" },
  { "readings", "job,check,value\nA-0001,moon_phase,1\n", "readings.csv:2: check: there is no check “moon_phase”\n" },
  { "readings", "job,check,value,unit\nA-0001,battery_rest,12.4,A\n",
    "readings.csv:2: unit: battery_rest is read in V, not in A\n" },
  { "readings", "job,check,value,at\nA-0001,battery_rest,12.4,2027-01-01T00:00\n",
    "readings.csv:2: at: 2027-01-01T00:00 is still to come\n" },
  { "cores", "supplier,part,deposit,paid_on\nLarch & Weir,BW-55,0,2026-03-01\n",
    "cores.csv:2: deposit: a deposit is more than nothing\n" },
  { "returns", "supplier,part,quantity,amount,bought_on\nLarch & Weir,BW-55,0,1.00,2026-03-01\n",
    "returns.csv:2: quantity: “0” must lie between 0.001 and 1000000\n" },
  { "returns", "supplier,part,quantity,amount,bought_on,last_day\nLarch & Weir,BW-55,1,1.00,2026-03-01,2026-02-01\n",
    "returns.csv:2: last_day: 2026-02-01 is before it was bought, 2026-03-01\n" },
};

static void
test_bad (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,plate\nA-0001,555 0115,will not start,TDM5508\n", 1, 0, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (bad_rows); i++)
    hs_ops_test_import_bad (test, bad_rows[i].kind, bad_rows[i].text, bad_rows[i].faults);
}

/* What core words: only where it is told is held here. */
static void
test_bad_fields (void)
{
  static const Bad rows[] = {
    { "customers", "name,phone\nX,call me\n", "customers.csv:2: phone: " },
    { "customers", "name,phone,kind\nX,555-0199,royal\n", "customers.csv:2: kind: " },
    { "vehicles", "plate,owner_phone,vin\nN 1,555-0115,IOQ45678901234567\n", "vehicles.csv:2: vin: " },
    { "vehicles", "plate,owner_phone,battery_kind\nN 1,555-0115,steam\n", "vehicles.csv:2: battery_kind: " },
    { "hours", "supplier,weekday,opens,shuts\nLarch & Weir,mon,09:00,08:00\n", "hours.csv:2: shuts: " },
    { "hours", "supplier,weekday,opens,shuts\nLarch & Weir,fun,09:00,10:00\n", "hours.csv:2: weekday: " },
    { "hours", "supplier,weekday,opens,shuts\nLarch & Weir,mon,08:00,12:00\nLarch & Weir,mon,11:00,13:00\n",
      "hours.csv:3: shuts: " },
    { "holidays", "supplier,date\nLarch & Weir,\n", "holidays.csv:2: date: " },
    { "holidays", "supplier,date\nLarch & Weir,2026-02-30\n", "holidays.csv:2: date: " },
    { "holidays", "date,opens,shuts\n2026-07-03,noon,13:00\n", "holidays.csv:2: opens: " },
    { "holidays", "date,opens,shuts\n2026-07-03,12:00,09:00\n", "holidays.csv:2: shuts: " },
    { "holidays", "date,opens,shuts\n2026-07-03,08:00,12:00\n2026-07-03,11:00,13:00\n", "holidays.csv:3: shuts: " },
    { "prices", "supplier,part,cost\nLarch & Weir,BW-55,1.005\n", "prices.csv:2: cost: " },
    { "prices", "supplier,part,cost,seen_on\nLarch & Weir,BW-55,1.00,2026-02-30\n", "prices.csv:2: seen_on: " },
    { "odometer", "plate,date,value\nTDM 5508,2025-01-01,5000\nTDM 5508,2025-06-01,4000\n", "odometer.csv:3: value: " },
    { "odometer", "plate,date,value\nTDM 5508,2025-01-01,10.5\n", "odometer.csv:2: value: " },
    { "readings", "job,check,value\nA-0001,battery_rest,99\n", "readings.csv:2: value: " },
    { "readings", "job,check,value\nA-0001,starts_good,5\n", "readings.csv:2: value: " },
    { "readings", "job,check,value,phase\nA-0001,battery_rest,12,later\n", "readings.csv:2: phase: " },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsOpsTest) test = hs_ops_test_open ();
      g_autofree char *faults = NULL;

      hs_ops_test_fill (test);
      hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words\nA-0001,555 0115,will not start\n", 1, 0, 0);
      g_assert_false (hs_ops_test_import (test, rows[i].kind, rows[i].text, NULL, &faults));
      if (!g_str_has_prefix (faults, rows[i].faults))
        g_test_message ("%s\nis not\n%s", faults, rows[i].faults);
      g_assert_true (g_str_has_prefix (faults, rows[i].faults));
      g_assert_nonnull (strchr (faults, '\n'));
      g_assert_cmpstr (strchr (faults, '\n'), ==, "\n");
    }
}

static HsJobRow *
load_job (HsOpsTest *test, const char *number)
{
  HsJobRow *job = NULL;
  GError *error = NULL;

  hs_job_row_find (hs_book_get_store (test->book), number, &job, &error);
  g_assert_no_error (error);
  return job;
}

static void
test_job_window (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsJobRow) full = NULL;

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,stage,day,window_from,window_to,minutes\n"
                         "A-0012,555-0117,hums,Time given,2026-03-10,08:00,24:00,40\n"
                         "A-0013,555-0117,hums,,,2026-03-10T12:00Z,2026-03-10T10:00,\n",
                         2, 0, 0);
  job = load_job (test, "A-0012");
  g_assert_cmpint (job->window_from, ==, HS_OPS_TEST_NOW + 75 * 60);
  g_assert_cmpint (job->window_to, ==, HS_OPS_TEST_NOW + (17 * 60 + 15) * 60);
  g_assert_cmpint (job->guess_seconds, ==, 2400);
  g_assert_cmpstr (job->stage, ==, "promised");
  g_assert_cmpstr (job->zone, ==, "America/New_York");
  g_assert_cmpstr (job->area_id, ==, "H");
  full = load_job (test, "A-0013");
  g_assert_cmpint (full->window_from, ==, HS_OPS_TEST_NOW + 75 * 60);
  g_assert_cmpint (full->window_to, ==, HS_OPS_TEST_NOW + 195 * 60);
  g_assert_cmpint (full->day, ==, hs_date_from_ymd (2026, 3, 10));
  g_assert_cmpstr (full->stage, ==, "promised");
}

static void
test_job_van (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (HsJobRow) own = NULL;
  g_autoptr (HsJobRow) other = NULL;
  g_autoptr (GError) error = NULL;

  hs_ops_test_fill (test);
  g_assert_true (hs_settings_set (test->book, "vans", "A,B", HS_OPS_TEST_NOW, &error));
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words\nB-0007,555-0117,hums\nW/O 12,555-0117,hums\n"
                         "A-0003,555-0117,hums\n",
                         3, 0, 0);
  own = load_job (test, "B-0007");
  other = load_job (test, "W/O 12");
  g_assert_cmpstr (own->van_id, !=, other->van_id);
  g_assert_cmpint (hs_ops_test_count (test, "van WHERE letter = 'B' AND next_number = 8"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "van WHERE letter = 'A' AND next_number = 4"), ==, 1);
}

static void
test_job_changes (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  g_autoptr (HsJobRow) back = NULL;

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 5508\n", 1, 0, 0);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,stage,day\nA-0001,555-0115,roars,penciled,2026-03-11\n", 0, 1,
                         0);
  g_assert_cmpint (hs_ops_test_count (test, "job WHERE words = 'roars' AND stage = 'penciled'"), ==, 1);
  hs_ops_test_import_ok (test, "jobs",
                         "number,customer_phone,words,plate,kind\nA-0002,555-0115,again,TDM 5508,return_visit\n", 1, 0,
                         0);
  back = load_job (test, "A-0002");
  g_assert_cmpstr (back->return_why, ==, "not_decided");
  g_assert_nonnull (back->follows_job_id);
}

static void
test_hand_over (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "vehicles", "plate,owner_phone\nTDM 5508,555-0117\n", 0, 1, 0);
  g_assert_cmpint (hs_ops_test_count (test, "ownership"), ==, 3);
  g_assert_cmpint (hs_ops_test_count (test, "ownership WHERE to_date = '2026-03-10'"), ==, 1);
  hs_ops_test_import_ok (test, "vehicles", "plate,owner_phone\nTDM 5508,555-0117\n", 0, 0, 1);
}

static void
test_states (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "vehicles",
                         "plate,owner_phone,plate_state\nXYZ 1,555-0115,OH\nXYZ 1,555-0117,PA\n", 2, 0, 0);
  hs_ops_test_import_ok (test, "vehicles", "plate,owner_phone,plate_state\nXYZ1,555-0115,oh\n", 0, 0, 1);
  hs_ops_test_import_bad (test, "vehicles", "plate,owner_phone\nXYZ 1,555-0115\n",
                          "vehicles.csv:2: plate_state: 2 vehicles have the plate XYZ 1; say which state\n");
}

static void
test_stock_counts (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "stock", "van,part,quantity\nA,BW-55,3\n", 1, 0, 0);
  hs_ops_test_import_ok (test, "stock", "van,part,quantity\nA,BW-55,1\n", 0, 1, 0);
  g_assert_cmpint (hs_ops_test_count (test, "stock_move WHERE why = 'count_fix' AND quantity_milli = -2000"), ==, 1);
  g_assert_cmpint (hs_ops_test_count (test, "stock WHERE quantity_milli = 1000"), ==, 1);
}

/* Three equal cores where the book has two: one is new. */
static void
test_equal_cores (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();
  static const char head[] = "supplier,part,deposit,paid_on\n";
  static const char row[] = "Kingpost Parts Counter,BW-55,18.00,2026-01-26\n";
  g_autofree char *two = g_strconcat (head, row, row, NULL);
  g_autofree char *three = g_strconcat (head, row, row, row, NULL);

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "cores", two, 2, 0, 0);
  hs_ops_test_import_ok (test, "cores", two, 0, 0, 2);
  hs_ops_test_import_ok (test, "cores", three, 1, 0, 2);
  g_assert_cmpint (hs_ops_test_count (test, "core WHERE due_on = '2026-03-12'"), ==, 3);
}

static void
test_batteries (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "installed",
                         "plate,what,date,place\nTDM 5508,battery,2024-01-01,front\nTDM 5508,battery,2024-01-01,rear\n",
                         2, 0, 0);
  hs_ops_test_import_ok (test, "installed",
                         "plate,what,date,removed_on,stands_in_for_date,warranty_months\n"
                         "TDM 7717,battery,2024-05-14,2025-09-02,,36\nTDM 7717,battery,2025-09-02,,2024-05-14,36\n",
                         2, 0, 0);
  g_assert_cmpint (hs_ops_test_count (test, "installed_part WHERE stands_in_for_id IS NOT NULL "
                                            "AND warranty_from = '2024-05-14' AND kind = 'battery'"),
                   ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/import/good", test_good);
  g_test_add_func ("/import/battery-cable", test_battery_cable);
  g_test_add_func ("/import/known-by", test_known_by);
  g_test_add_func ("/import/bad", test_bad);
  g_test_add_func ("/import/bad-fields", test_bad_fields);
  g_test_add_func ("/import/job-window", test_job_window);
  g_test_add_func ("/import/job-van", test_job_van);
  g_test_add_func ("/import/job-changes", test_job_changes);
  g_test_add_func ("/import/hand-over", test_hand_over);
  g_test_add_func ("/import/states", test_states);
  g_test_add_func ("/import/stock-counts", test_stock_counts);
  g_test_add_func ("/import/equal-cores", test_equal_cores);
  g_test_add_func ("/import/batteries", test_batteries);
  return g_test_run ();
}
