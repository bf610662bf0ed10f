// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every column of every kind of file: a second file that changes it alone is one change, the third time it is none, and
 * an empty field leaves what the book has. */

#include "hs-import.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-settings-op.h"

#include <string.h>

/* What is changed: @head and @key make the row, @column is the one more that is given. */
typedef struct
{
  const char *column;
  const char *value;
  const char *found; /* the rows "TABLE WHERE …" that are one afterwards */
} Change;

typedef struct
{
  const char *kind;
  const char *head;
  const char *key;
  const Change *changes;
  gsize n_changes;
} Kind;

static const Change area_changes[] = {
  { "signal", "none", "area WHERE id = 'T' AND signal = 'none'" },
  { "signal", "patchy signal", "area WHERE id = 'T' AND signal = 'patchy'" },
};

static const Change customer_changes[] = {
  { "kind", "trade", "customer WHERE name = 'Teo Calloway' AND kind = 'trade'" },
  { "email", "teo@example.org", "customer WHERE email = 'teo@example.org'" },
  { "street", "4 Lock Street", "customer WHERE street = '4 Lock Street' AND email = 'teo@example.org'" },
  { "area", "Highcroft", "customer WHERE name = 'Teo Calloway' AND area_id = 'H'" },
  { "reach_from", "14:00", "customer WHERE reach_from_minutes = 840 AND reach_to_minutes IS NULL" },
  { "reach_to", "20:00", "customer WHERE reach_from_minutes = 840 AND reach_to_minutes = 1200" },
  { "terms_days", "14", "customer WHERE name = 'Teo Calloway' AND terms_days = 14" },
  { "note", "ring, never text", "customer WHERE note = 'ring, never text'" },
};

static const Change vehicle_changes[] = {
  { "plate_state", "OH", "vehicle WHERE plate_state = 'OH'" },
  { "vin", "1M8GDM9AXKP042788", "vehicle WHERE vin = '1M8GDM9AXKP042788'" },
  { "make", "Orsane", "vehicle WHERE plate = 'TDM 5508' AND make = 'Orsane' AND model = 'Nib'" },
  { "model", "Tuck", "vehicle WHERE make = 'Orsane' AND model = 'Tuck'" },
  { "year", "2008", "vehicle WHERE year = 2008" },
  { "engine", "1.0 gas", "vehicle WHERE engine = '1.0 gas'" },
  { "fuel", "petrol", "vehicle WHERE fuel = 'gas'" },
  { "fuel", "hybrid", "vehicle WHERE fuel = 'hybrid' AND high_voltage = 0" },
  { "battery_place", "trunk, left", "vehicle WHERE battery_place = 'trunk, left'" },
  { "battery_kind", "enhanced flooded", "vehicle WHERE battery_kind = 'EFB'" },
  { "battery_ah", "44.5", "vehicle WHERE battery_ah = 44.5" },
  { "battery_cca", "420", "vehicle WHERE battery_cca = 420" },
  { "high_voltage", "yes", "vehicle WHERE plate = 'TDM 5508' AND high_voltage = 1" },
  { "high_voltage", "no", "vehicle WHERE plate = 'TDM 5508' AND high_voltage = 0" },
  { "note", "steep drive", "vehicle WHERE note = 'steep drive'" },
};

static const Change supplier_changes[] = {
  { "area", "H", "supplier WHERE name = 'Kingpost Parts Counter' AND area_id = 'H'" },
  { "phone", "555-0140", "supplier WHERE phone = '555-0140'" },
  { "account", "K-17", "supplier WHERE account = 'K-17'" },
  { "return_days", "14", "supplier WHERE name = 'Kingpost Parts Counter' AND return_days = 14" },
  { "restock_percent", "12.55", "supplier WHERE restock_basis_points = 1255" },
  { "core_days", "60", "supplier WHERE core_days = 60" },
  { "stop_minutes", "8", "supplier WHERE stop_seconds = 480" },
  { "stop_minutes", "7.5", "supplier WHERE stop_seconds = 450" },
};

static const Change part_changes[] = {
  { "kind", "spare", "part WHERE number = 'BW-55' AND kind = 'spare'" },
  { "warranty_months", "36", "part WHERE number = 'BW-55' AND warranty_months = 36" },
  { "warranty_miles", "12000", "part WHERE warranty_millimiles = 12000000" },
  { "warranty_miles", "12000.5", "part WHERE warranty_millimiles = 12000500" },
  { "core_deposit", "18.00", "part WHERE core_deposit_cents = 1800" },
};

static const Change stock_changes[] = {
  { "keep", "2", "stock WHERE keep_milli = 2000 AND quantity_milli = 1000" },
  { "keep", "0.5", "stock WHERE keep_milli = 500" },
  { "bin", "shelf 1", "stock WHERE bin = 'shelf 1'" },
};

static const Change job_changes[] = {
  { "plate", "TDM 5508", "job JOIN vehicle ON vehicle.id = job.vehicle_id WHERE vehicle.plate = 'TDM 5508'" },
  { "kind", "maintenance", "job WHERE kind = 'upkeep'" },
  { "area", "H", "job WHERE area_id = 'H'" },
  { "stage", "penciled", "job WHERE stage = 'penciled'" },
  { "day", "2026-03-12", "job WHERE day = '2026-03-12' AND stage = 'penciled'" },
  { "minutes", "45", "job WHERE guess_seconds = 2700" },
};

static const Change installed_changes[] = {
  { "part", "BW-55", "installed_part JOIN part ON part.id = installed_part.part_id WHERE part.number = 'BW-55'" },
  { "odometer", "81400", "installed_part WHERE installed_odometer = 81400" },
  { "known_by", "we fitted it", "installed_part WHERE known_by = 'we_installed_it'" },
  { "warranty_from", "2023-12-24", "installed_part WHERE warranty_from = '2023-12-24'" },
  { "warranty_months", "24", "installed_part WHERE warranty_months = 24" },
  { "warranty_miles", "20000", "installed_part WHERE warranty_millimiles = 20000000" },
  { "maker", "Brackwater", "installed_part WHERE maker = 'Brackwater'" },
  { "ah", "55", "installed_part WHERE battery_ah = 55" },
  { "cca", "480", "installed_part WHERE battery_cca = 480" },
  { "battery_kind", "AGM", "installed_part WHERE battery_kind = 'AGM' AND kind = 'battery'" },
  { "place", "under the hood", "installed_part WHERE place = 'under the hood' AND battery_cca = 480" },
  { "removed_on", "2026-03-01", "installed_part WHERE removed_on = '2026-03-01'" },
};

#define KIND(name, head, key, changes) { name, head, key, changes, G_N_ELEMENTS (changes) }

static const Kind kinds[] = {
  KIND ("areas", "code,name", "T,Tannery Row", area_changes),
  KIND ("customers", "name,phone", "Teo Calloway,555-0115", customer_changes),
  KIND ("vehicles", "plate,owner_phone", "TDM 5508,555-0115", vehicle_changes),
  KIND ("suppliers", "name", "Kingpost Parts Counter", supplier_changes),
  KIND ("parts", "number,name", "BW-55,battery 55 Ah flooded", part_changes),
  KIND ("stock", "van,part,quantity", "A,BW-55,1", stock_changes),
  KIND ("jobs", "number,customer_phone,words", "A-0001,555-0115,hums", job_changes),
  KIND ("installed", "plate,what,date", "TDM 5508,battery,2024-01-01", installed_changes),
};

static void
test_columns (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const Kind *kind = &kinds[i];
      g_autoptr (HsOpsTest) test = hs_ops_test_open ();
      g_autofree char *first = g_strdup_printf ("%s\n%s\n", kind->head, kind->key);

      hs_ops_test_fill (test);
      g_assert_true (hs_ops_test_import (test, kind->kind, first, NULL, NULL));
      for (gsize j = 0; j < kind->n_changes; j++)
        {
          const Change *change = &kind->changes[j];
          g_autofree char *text
              = g_strdup_printf ("%s,%s\n%s,\"%s\"\n", kind->head, change->column, kind->key, change->value);
          g_autofree char *empty = g_strdup_printf ("%s,%s\n%s,\n", kind->head, change->column, kind->key);

          g_test_message ("%s: %s", kind->kind, change->column);
          hs_ops_test_import_ok (test, kind->kind, text, 0, 1, 0);
          hs_ops_test_one (test, change->found);
          hs_ops_test_import_ok (test, kind->kind, text, 0, 0, 1);
          hs_ops_test_import_ok (test, kind->kind, empty, 0, 0, 1);
          hs_ops_test_one (test, change->found);
        }
    }
}

/* A name is changed by the key that stays; the key alone tells which row it is. */
static void
test_names (void)
{
  static const struct
  {
    const char *kind;
    const char *text;
    const char *found;
  } rows[] = {
    { "areas", "code,name\nT,Tannery Yard\n", "area WHERE id = 'T' AND name = 'Tannery Yard'" },
    { "customers", "name,phone\nTeo B. Calloway,(555) 01-15\n", "customer WHERE name = 'Teo B. Calloway'" },
    { "parts", "number,name\nBW-55,battery 55 Ah\n", "part WHERE number = 'BW-55' AND name = 'battery 55 Ah'" },
    { "jobs", "number,customer_phone,words\nA-0001,555-0115,roars\n", "job WHERE words = 'roars'" },
    { "jobs", "number,customer_phone,words\nA-0001,555-0117,roars\n",
      "job JOIN customer ON customer.id = job.customer_id WHERE customer.name = 'Nadira Quell'" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words\nA-0001,555-0115,hums\n", 1, 0, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      hs_ops_test_import_ok (test, rows[i].kind, rows[i].text, 0, 1, 0);
      hs_ops_test_one (test, rows[i].found);
      hs_ops_test_import_ok (test, rows[i].kind, rows[i].text, 0, 0, 1);
    }
}

/* Places in degrees, both together; seven places are kept. */
static void
test_places (void)
{
  static const char *const bad[][2] = {
    { "40.5,", "customers.csv:2: lon: a place needs both lat and lon\n" },
    { ",-80.5", "customers.csv:2: lat: a place needs both lat and lon\n" },
    { "90.1,0", "customers.csv:2: lat: “90.1” must lie between -90 and 90\n" },
    { "0,-180.1", "customers.csv:2: lon: “-180.1” must lie between -180 and 180\n" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "customers", "name,phone,lat,lon\nTeo Calloway,555-0115,40.1234567,-80.5\n", 0, 1, 0);
  hs_ops_test_one (test, "customer WHERE abs (lat - 40.1234567) < 1e-9 AND lon = -80.5");
  hs_ops_test_import_ok (test, "customers", "name,phone,lat,lon\nTeo Calloway,555-0115,40.1234567,-80.50\n", 0, 0, 1);
  hs_ops_test_import_ok (test, "customers", "name,phone,lat,lon\nTeo Calloway,555-0115,-90,180\n", 0, 1, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *text = g_strdup_printf ("name,phone,lat,lon\nTeo Calloway,555-0115,%s\n", bad[i][0]);

      hs_ops_test_import_bad (test, "customers", text, bad[i][1]);
    }
}

/* A drive is one both ways; half minutes and tenths of a mile are kept; what is tabled counts as five own trips. */
static void
test_travel (void)
{
  static const struct
  {
    const char *row;
    gsize added;
    gsize changed;
    const char *found;
  } rows[] = {
    { "T,H,12,5.0", 1, 0, "travel WHERE seconds = 720 AND millimiles = 5000 AND samples = 5" },
    { "H,T,12,5", 0, 0, "travel" },
    { "H,T,12.5,5.0", 0, 1, "travel WHERE seconds = 750 AND millimiles = 5000" },
    { "T,H,12.5,5.1", 0, 1, "travel WHERE millimiles = 5100" },
    { "Highcroft,tannery row,12.5,5.1", 0, 0, "travel" },
    { "T,T,4,1.0", 1, 0, "travel WHERE from_id = to_id AND seconds = 240" },
    { "T,T,4,0", 0, 1, "travel WHERE from_id = to_id AND millimiles = 0" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf ("from,to,minutes,miles\n%s\n", rows[i].row);
      gsize same = 1 - rows[i].added - rows[i].changed;

      hs_ops_test_import_ok (test, "travel", text, rows[i].added, rows[i].changed, same);
      hs_ops_test_one (test, rows[i].found);
    }
  hs_ops_test_import_bad (test, "travel", "from,to,minutes,miles\nT,H,12,5.0\nH,T,13,5.0\n",
                          "travel.csv:3: to: row 2 says something else about the same one; keep one of the two\n");
}

/* The price of a day is changed, of another day is one more; without a day it is today's, if it is news. */
static void
test_prices (void)
{
  static const struct
  {
    const char *row;
    gsize added;
    gsize changed;
    const char *found;
  } rows[] = {
    { "62.00,2026-03-02", 1, 0, "price WHERE cost_cents = 6200 AND seen_on = '2026-03-02'" },
    { "62.00,2026-03-02", 0, 0, "price" },
    { "63.00,2026-03-02", 0, 1, "price WHERE cost_cents = 6300 AND seen_on = '2026-03-02'" },
    { "63.00,", 0, 0, "price" },
    { "64.50,", 1, 0, "price WHERE cost_cents = 6450 AND seen_on = '2026-03-10'" },
    { "64.50,", 0, 0, "price WHERE seen_on = '2026-03-10'" },
    { "65.00,", 0, 1, "price WHERE cost_cents = 6500 AND seen_on = '2026-03-10'" },
    { "60.00,2026-01-02", 1, 0, "price WHERE cost_cents = 6000" },
    { "0.00,2026-01-03", 1, 0, "price WHERE cost_cents = 0" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text
          = g_strdup_printf ("supplier,part,cost,seen_on\nKingpost Parts Counter,BW-55,%s\n", rows[i].row);
      gsize same = 1 - rows[i].added - rows[i].changed;

      hs_ops_test_import_ok (test, "prices", text, rows[i].added, rows[i].changed, same);
      hs_ops_test_one (test, rows[i].found);
    }
}

/* What was counted against what the book had: the difference is a move of its own. */
static void
test_stock (void)
{
  static const struct
  {
    const char *quantity;
    gsize added;
    gsize changed;
    gint64 milli;
    gint64 moves;
    gint64 last_move;
  } rows[] = {
    { "3", 1, 0, 3000, 1, 3000 },   { "3", 0, 0, 3000, 1, 3000 },  { "1", 0, 1, 1000, 2, -2000 },
    { "2.5", 0, 1, 2500, 3, 1500 }, { "0", 0, 1, 0, 4, -2500 },    { "0", 0, 0, 0, 4, -2500 },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf ("van,part,quantity\nA,BW-55,%s\n", rows[i].quantity);
      g_autofree char *found = g_strdup_printf ("stock WHERE quantity_milli = %d", (int) rows[i].milli);
      g_autofree char *last
          = g_strdup_printf ("stock_move WHERE quantity_milli = %d AND why = 'count_fix' "
                             "AND seq = (SELECT max(seq) FROM stock_move)",
                             (int) rows[i].last_move);
      gsize same = 1 - rows[i].added - rows[i].changed;

      hs_ops_test_import_ok (test, "stock", text, rows[i].added, rows[i].changed, same);
      hs_ops_test_one (test, found);
      hs_ops_test_one (test, last);
      g_assert_cmpint (hs_ops_test_count (test, "stock_move"), ==, rows[i].moves);
    }
}

/* Readings and odometers are only added: another value, phase, time or day is another one. */
static void
test_added (void)
{
  static const struct
  {
    const char *kind;
    const char *text;
    gsize added;
  } rows[] = {
    { "odometer", "plate,date,value\nTDM 5508,2025-09-02,81400\n", 1 },
    { "odometer", "plate,date,value\ntdm-5508,2025-09-02,81400\n", 0 },
    { "odometer", "plate,date,value\nTDM 5508,2025-12-11,94400\n", 1 },
    { "readings", "job,check,value\nA-0001,battery_rest,12.05\n", 1 },
    { "readings", "job,check,value\nA-0001,battery_rest,12.05\n", 0 },
    { "readings", "job,check,value,unit\nA-0001,battery_rest,12.05,v\n", 0 },
    { "readings", "job,check,value\nA-0001,battery_rest,12.06\n", 1 },
    { "readings", "job,check,value,phase\nA-0001,battery_rest,12.06,during\n", 1 },
    { "readings", "job,check,value,phase\nA-0001,battery_rest,12.06,after\n", 1 },
    { "readings", "job,check,value,at\nA-0001,battery_rest,12.06,2026-03-10T06:00\n", 1 },
    { "readings", "job,check,value,at\nA-0001,battery_rest,12.06,2026-03-10T10:00Z\n", 0 },
    { "readings", "job,check,value\nA-0001,glow_plug,over range\n", 1 },
    { "readings", "job,check,value\nA-0001,glow_plug,over range\n", 0 },
    { "readings", "job,check,value\nA-0001,starts_good,5 of 5\n", 1 },
    { "readings", "job,check,value\nA-0001,starts_good,4 of 5\n", 1 },
    { "readings", "job,check,value\nA-0001,starts_good,4 of 6\n", 1 },
    { "hours", "supplier,weekday,opens,shuts\nLarch & Weir,tue,08:00,12:30\n", 1 },
    { "hours", "supplier,weekday,opens,shuts\nLarch & Weir,Tuesday,8:00,12:30\n", 0 },
    { "hours", "supplier,weekday,opens,shuts\nLarch & Weir,tue,13:15,17:00\n", 1 },
    { "hours", "supplier,weekday,opens,shuts\nLarch & Weir,wed,08:00,12:30\n", 1 },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 5508\n", 1, 0, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    hs_ops_test_import_ok (test, rows[i].kind, rows[i].text, rows[i].added, 0, 1 - rows[i].added);
  g_assert_cmpint (hs_ops_test_count (test, "odometer"), ==, 2);
  g_assert_cmpint (hs_ops_test_count (test, "reading"), ==, 9);
  g_assert_cmpint (hs_ops_test_count (test, "supplier_hours"), ==, 3);
  hs_ops_test_one (test, "reading WHERE over_range = 1 AND value IS NULL AND check_id = 'glow_plug'");
  hs_ops_test_one (test, "reading WHERE value = 4 AND of_value = 6");
  hs_ops_test_one (test, "supplier_hours WHERE weekday = 2 AND opens_minutes = 795 AND shuts_minutes = 1020");
}

/* Windows: by the day's clock, with a date, with an offset; the day comes from the window if it is not given. */
static void
test_windows (void)
{
  static const struct
  {
    const char *day;
    const char *from;
    const char *to;
    const char *from_utc;
    const char *to_utc;
  } rows[] = {
    { "2026-03-10", "08:00", "10:00", "2026-03-10T12:00Z", "2026-03-10T14:00Z" },
    { "2026-03-10", "8:00", "24:00", "2026-03-10T12:00Z", "2026-03-11T04:00Z" },
    { "", "2026-03-10T08:00", "2026-03-10T10:00", "2026-03-10T12:00Z", "2026-03-10T14:00Z" },
    { "", "2026-03-10T12:00Z", "2026-03-10T10:00-05:00", "2026-03-10T12:00Z", "2026-03-10T15:00Z" },
    { "2026-01-10", "08:00", "10:00", "2026-01-10T13:00Z", "2026-01-10T15:00Z" },
    { "2026-03-08", "01:59", "03:00", "2026-03-08T06:59Z", "2026-03-08T07:00Z" },
    { "2026-11-01", "01:30", "02:00", "2026-11-01T05:30Z", "2026-11-01T07:00Z" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsOpsTest) test = hs_ops_test_open ();
      g_autofree char *text
          = g_strdup_printf ("number,customer_phone,words,day,window_from,window_to\nA-0001,555-0115,hums,%s,%s,%s\n",
                             rows[i].day, rows[i].from, rows[i].to);
      g_autofree char *found
          = g_strdup_printf ("job WHERE window_from = %" G_GINT64_FORMAT " AND window_to = %" G_GINT64_FORMAT
                             " AND stage = 'promised' AND day IS NOT NULL",
                             hs_ops_test_at (rows[i].from_utc), hs_ops_test_at (rows[i].to_utc));

      hs_ops_test_fill (test);
      hs_ops_test_import_ok (test, "jobs", text, 1, 0, 0);
      hs_ops_test_one (test, found);
      hs_ops_test_import_ok (test, "jobs", text, 0, 0, 1);
    }
}

/* A day apart may change its mind: shut takes the place of hours, hours that of shut, and words may come later. */
static void
test_holidays (void)
{
  static const struct
  {
    const char *row;
    gsize added;
    gsize changed;
    gsize n_rows;
    const char *found;
  } rows[] = {
    { "Larch & Weir,2026-07-03,09:00,12:00,", 1, 0, 1, "opens_minutes = 540 AND shuts_minutes = 720" },
    { "larch & weir,2026-07-03,9:00,12:00,", 0, 0, 1, "opens_minutes = 540" },
    { "Larch & Weir,2026-07-03,09:00,12:00,Founders' Day", 0, 1, 1, "words = 'Founders'' Day'" },
    { "Larch & Weir,2026-07-03,13:00,15:00,", 1, 0, 2, "opens_minutes = 780 AND words IS NULL" },
    { "Larch & Weir,2026-07-03,,,", 0, 1, 1, "opens_minutes IS NULL AND words = 'Founders'' Day'" },
    { "Larch & Weir,2026-07-03,,,", 0, 0, 1, "opens_minutes IS NULL" },
    { ",2026-07-03,,,everybody", 1, 0, 2, "supplier_id IS NULL AND words = 'everybody'" },
    { "Larch & Weir,2026-07-04,,,", 1, 0, 3, "on_date = '2026-07-04' AND supplier_id IS NOT NULL" },
    { "Larch & Weir,2026-07-03,10:00,11:00,", 0, 1, 3, "opens_minutes = 600 AND on_date = '2026-07-03'" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf ("supplier,date,opens,shuts,words\n%s\n", rows[i].row);
      g_autofree char *found = g_strdup_printf ("counter_day WHERE %s", rows[i].found);

      hs_ops_test_import_ok (test, "holidays", text, rows[i].added, rows[i].changed,
                             1 - rows[i].added - rows[i].changed);
      hs_ops_test_one (test, found);
      g_assert_cmpint (hs_ops_test_count (test, "counter_day"), ==, rows[i].n_rows);
    }
}

/* Two parts of one name: the number has to be written; one part of the name will do. */
static void
test_part_names (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "parts", "number,name\nGP-21,glow plug\nFF-1,fuel filter\n", 2, 0, 0);
  hs_ops_test_import_bad (test, "stock", "van,part,quantity\nA,glow plug,1\n",
                          "stock.csv:2: part: “glow plug” is the name of two parts, GP-20D and GP-21; write the "
                          "number\n");
  hs_ops_test_import_ok (test, "stock", "van,part,quantity\nA,fuel filter,1\n", 1, 0, 0);
  hs_ops_test_one (test, "stock JOIN part ON part.id = stock.part_id WHERE part.number = 'FF-1'");
}

/* Two vehicles of one plate in two states: a file that names a plate alone cannot mean one of them. */
static void
test_two_states (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "vehicles",
                         "plate,owner_phone,plate_state\nXYZ 1,555-0115,OH\nXYZ 1,555-0117,PA\n", 2, 0, 0);
  hs_ops_test_import_bad (test, "odometer", "plate,date,value\nXYZ 1,2025-01-01,5000\n",
                          "odometer.csv:2: plate: 2 vehicles have the plate XYZ 1, of different states; enter this one "
                          "by hand\n");
}

/* Readings that say when: a clock that cannot be read, and one that was never taken. */
static void
test_reading_faults (void)
{
  static const char *const rows[][2] = {
    { "A-0001,battery_rest,12.4,,yesterday", "readings.csv:2: at: " },
    { "A-0001,battery_rest,12.4,,2026-03-12T00:00", "readings.csv:2: at: 2026-03-12T00:00 is still to come" },
    { "A-0001,battery_rest,twelve,,", "readings.csv:2: value: " },
    { "A-0001,battery_rest,,,", "readings.csv:2: value: is empty, but it is needed" },
    { "A-0009,battery_rest,12.4,,", "readings.csv:2: job: there is no job A-0009 in the book; import jobs first" },
  };
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words\nA-0001,555-0115,hums\n", 1, 0, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf ("job,check,value,unit,at\n%s\n", rows[i][0]);
      g_autofree char *faults = NULL;

      g_assert_false (hs_ops_test_import (test, "readings", text, NULL, &faults));
      g_assert_true (g_str_has_prefix (faults, rows[i][1]));
    }
  g_assert_cmpint (hs_ops_test_count (test, "reading"), ==, 0);
}

/* A swap names the day of the one it stands in for, or the day on which that one's cover began. */
static void
test_swaps (void)
{
  g_autoptr (HsOpsTest) test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "installed",
                         "plate,what,date,removed_on,warranty_from,warranty_months,stands_in_for_date\n"
                         "TDM 5508,battery,2024-05-20,2025-09-02,2024-05-14,36,\n"
                         "TDM 5508,battery,2025-09-02,,,36,2024-05-14\n",
                         2, 0, 0);
  hs_ops_test_one (test, "installed_part WHERE installed_on = '2025-09-02' AND warranty_from = '2024-05-14' "
                         "AND stands_in_for_id = (SELECT id FROM installed_part WHERE installed_on = '2024-05-20')");
  hs_ops_test_import_ok (test, "installed",
                         "plate,what,date,stands_in_for_date\nTDM 5508,battery,2025-09-02,2024-05-20\n", 0, 0, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/import/changes/columns", test_columns);
  g_test_add_func ("/import/changes/names", test_names);
  g_test_add_func ("/import/changes/places", test_places);
  g_test_add_func ("/import/changes/travel", test_travel);
  g_test_add_func ("/import/changes/prices", test_prices);
  g_test_add_func ("/import/changes/stock", test_stock);
  g_test_add_func ("/import/changes/added", test_added);
  g_test_add_func ("/import/changes/holidays", test_holidays);
  g_test_add_func ("/import/changes/windows", test_windows);
  g_test_add_func ("/import/changes/part-names", test_part_names);
  g_test_add_func ("/import/changes/two-states", test_two_states);
  g_test_add_func ("/import/changes/reading-faults", test_reading_faults);
  g_test_add_func ("/import/changes/swaps", test_swaps);
  return g_test_run ();
}
