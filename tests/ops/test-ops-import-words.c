// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The words that somebody who has never seen the program writes into the columns with closed lists: trade words,
 * labels, ids, any letter case. */

#include "hs-ops-test.h"

#include <string.h>

typedef struct
{
  const char *kind;
  const char *csv;
  const char *found; /* rows that the book then has */
} Word;

static const Word words[] = {
  { "jobs",
    "number,customer_phone,words,day,window_from,window_to,stage\n"
    "A-0009,555-0115,hums,2026-03-11,09:00,11:00,just called\n",
    "job WHERE number = 'A-0009' AND stage = 'called_in'" },
  { "jobs",
    "number,customer_phone,words,day,window_from,window_to,stage\n"
    "A-0009,555-0115,hums,2026-03-11,09:00,11:00,called in\n",
    "job WHERE number = 'A-0009' AND stage = 'called_in'" },
  { "jobs",
    "number,customer_phone,words,day,window_from,window_to,stage\n"
    "A-0009,555-0115,hums,2026-03-11,09:00,11:00,called_in\n",
    "job WHERE number = 'A-0009' AND stage = 'called_in'" },
  { "jobs",
    "number,customer_phone,words,day,window_from,window_to,stage\n"
    "A-0009,555-0115,hums,2026-03-11,09:00,11:00,Penciled in\n",
    "job WHERE number = 'A-0009' AND stage = 'penciled'" },
  { "jobs",
    "number,customer_phone,words,day,window_from,window_to,stage\n"
    "A-0009,555-0115,hums,2026-03-11,09:00,11:00,penciled\n",
    "job WHERE number = 'A-0009' AND stage = 'penciled'" },
  { "jobs",
    "number,customer_phone,words,day,window_from,window_to,stage\n"
    "A-0009,555-0115,hums,2026-03-11,09:00,11:00,promised\n",
    "job WHERE number = 'A-0009' AND stage = 'promised'" },
  { "jobs",
    "number,customer_phone,words,day,window_from,window_to,stage\n"
    "A-0009,555-0115,hums,2026-03-11,09:00,11:00,Time given\n",
    "job WHERE number = 'A-0009' AND stage = 'promised'" },
  { "jobs",
    "number,customer_phone,words,day,window_from,window_to,stage\n"
    "A-0009,555-0115,hums,2026-03-11,09:00,11:00,PROMISED\n",
    "job WHERE number = 'A-0009' AND stage = 'promised'" },
  { "jobs",
    "number,customer_phone,words,kind\n"
    "A-0009,555-0115,hums,repair\n",
    "job WHERE number = 'A-0009' AND kind = 'repair'" },
  { "jobs",
    "number,customer_phone,words,kind\n"
    "A-0009,555-0115,hums,Repair\n",
    "job WHERE number = 'A-0009' AND kind = 'repair'" },
  { "jobs",
    "number,customer_phone,words,kind\n"
    "A-0009,555-0115,hums,upkeep\n",
    "job WHERE number = 'A-0009' AND kind = 'upkeep'" },
  { "jobs",
    "number,customer_phone,words,kind\n"
    "A-0009,555-0115,hums,service\n",
    "job WHERE number = 'A-0009' AND kind = 'upkeep'" },
  { "jobs",
    "number,customer_phone,words,kind\n"
    "A-0009,555-0115,hums,look-over\n",
    "job WHERE number = 'A-0009' AND kind = 'look_over'" },
  { "jobs",
    "number,customer_phone,words,kind\n"
    "A-0009,555-0115,hums,look over\n",
    "job WHERE number = 'A-0009' AND kind = 'look_over'" },
  { "jobs",
    "number,customer_phone,words,kind\n"
    "A-0009,555-0115,hums,look_over\n",
    "job WHERE number = 'A-0009' AND kind = 'look_over'" },
  { "customers",
    "name,phone,kind\n"
    "Iris Fenn,555-0190,private\n",
    "customer WHERE kind = 'private' AND name = 'Iris Fenn'" },
  { "customers",
    "name,phone,kind\n"
    "Iris Fenn,555-0190,Private\n",
    "customer WHERE kind = 'private' AND name = 'Iris Fenn'" },
  { "customers",
    "name,phone,kind\n"
    "Iris Fenn,555-0190,trade\n",
    "customer WHERE kind = 'trade' AND name = 'Iris Fenn'" },
  { "customers",
    "name,phone,kind\n"
    "Iris Fenn,555-0190,business\n",
    "customer WHERE kind = 'trade' AND name = 'Iris Fenn'" },
  { "vehicles",
    "plate,owner_phone,make,model,fuel\n"
    "TDM 9000,555-0115,Vostle,Nib,gas\n",
    "vehicle WHERE fuel = 'gas' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,fuel\n"
    "TDM 9000,555-0115,Vostle,Nib,petrol\n",
    "vehicle WHERE fuel = 'gas' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,fuel\n"
    "TDM 9000,555-0115,Vostle,Nib,gasoline\n",
    "vehicle WHERE fuel = 'gas' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,fuel\n"
    "TDM 9000,555-0115,Vostle,Nib,Diesel\n",
    "vehicle WHERE fuel = 'diesel' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,fuel\n"
    "TDM 9000,555-0115,Vostle,Nib,hybrid\n",
    "vehicle WHERE fuel = 'hybrid' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,fuel\n"
    "TDM 9000,555-0115,Vostle,Nib,electric\n",
    "vehicle WHERE fuel = 'electric' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,fuel\n"
    "TDM 9000,555-0115,Vostle,Nib,other\n",
    "vehicle WHERE fuel = 'other' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,battery_kind\n"
    "TDM 9000,555-0115,Vostle,Nib,flooded\n",
    "vehicle WHERE battery_kind = 'flooded' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,battery_kind\n"
    "TDM 9000,555-0115,Vostle,Nib,efb\n",
    "vehicle WHERE battery_kind = 'EFB' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,battery_kind\n"
    "TDM 9000,555-0115,Vostle,Nib,EFB\n",
    "vehicle WHERE battery_kind = 'EFB' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,battery_kind\n"
    "TDM 9000,555-0115,Vostle,Nib,agm\n",
    "vehicle WHERE battery_kind = 'AGM' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,battery_kind\n"
    "TDM 9000,555-0115,Vostle,Nib,AGM\n",
    "vehicle WHERE battery_kind = 'AGM' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,battery_kind\n"
    "TDM 9000,555-0115,Vostle,Nib,lithium\n",
    "vehicle WHERE battery_kind = 'lithium' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,battery_kind\n"
    "TDM 9000,555-0115,Vostle,Nib,unknown\n",
    "vehicle WHERE battery_kind = 'unknown' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,battery_kind\n"
    "TDM 9000,555-0115,Vostle,Nib,not known\n",
    "vehicle WHERE battery_kind = 'unknown' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,high_voltage\n"
    "TDM 9000,555-0115,Vostle,Nib,yes\n",
    "vehicle WHERE high_voltage = '1' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,high_voltage\n"
    "TDM 9000,555-0115,Vostle,Nib,no\n",
    "vehicle WHERE high_voltage = '0' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,high_voltage\n"
    "TDM 9000,555-0115,Vostle,Nib,1\n",
    "vehicle WHERE high_voltage = '1' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,high_voltage\n"
    "TDM 9000,555-0115,Vostle,Nib,0\n",
    "vehicle WHERE high_voltage = '0' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,high_voltage\n"
    "TDM 9000,555-0115,Vostle,Nib,true\n",
    "vehicle WHERE high_voltage = '1' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,high_voltage\n"
    "TDM 9000,555-0115,Vostle,Nib,false\n",
    "vehicle WHERE high_voltage = '0' AND plate = 'TDM 9000'" },
  { "vehicles",
    "plate,owner_phone,make,model,high_voltage\n"
    "TDM 9000,555-0115,Vostle,Nib,Yes\n",
    "vehicle WHERE high_voltage = '1' AND plate = 'TDM 9000'" },
  { "installed",
    "plate,what,date,known_by\n"
    "TDM 5508,starter,2024-01-01,we installed it\n",
    "installed_part WHERE known_by = 'we_installed_it'" },
  { "installed",
    "plate,what,date,known_by\n"
    "TDM 5508,starter,2024-01-01,we_installed_it\n",
    "installed_part WHERE known_by = 'we_installed_it'" },
  { "installed",
    "plate,what,date,known_by\n"
    "TDM 5508,starter,2024-01-01,we fitted it\n",
    "installed_part WHERE known_by = 'we_installed_it'" },
  { "installed",
    "plate,what,date,known_by\n"
    "TDM 5508,starter,2024-01-01,receipt\n",
    "installed_part WHERE known_by = 'receipt'" },
  { "installed",
    "plate,what,date,known_by\n"
    "TDM 5508,starter,2024-01-01,date stamp\n",
    "installed_part WHERE known_by = 'date_stamp'" },
  { "installed",
    "plate,what,date,known_by\n"
    "TDM 5508,starter,2024-01-01,date_stamp\n",
    "installed_part WHERE known_by = 'date_stamp'" },
  { "installed",
    "plate,what,date,known_by\n"
    "TDM 5508,starter,2024-01-01,customer says\n",
    "installed_part WHERE known_by = 'customer_says'" },
  { "installed",
    "plate,what,date,known_by\n"
    "TDM 5508,starter,2024-01-01,not known\n",
    "installed_part WHERE known_by = 'not_known'" },
  { "installed",
    "plate,what,date,known_by\n"
    "TDM 5508,starter,2024-01-01,unknown\n",
    "installed_part WHERE known_by = 'not_known'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,in the van\n",
    "core WHERE where_now = 'in_the_van'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,in van\n",
    "core WHERE where_now = 'in_the_van'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,in_the_van\n",
    "core WHERE where_now = 'in_the_van'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,at base\n",
    "core WHERE where_now = 'at_base'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,At Base\n",
    "core WHERE where_now = 'at_base'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,on the vehicle\n",
    "core WHERE where_now = 'on_the_vehicle'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,on_vehicle\n",
    "core WHERE where_now = 'on_the_vehicle'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,handed in\n",
    "core WHERE where_now = 'handed_in'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,dropped off\n",
    "core WHERE where_now = 'handed_in'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,customer kept it\n",
    "core WHERE where_now = 'customer_kept_it'" },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,lost\n",
    "core WHERE where_now = 'lost'" },
  { "areas",
    "code,name,signal\n"
    "Z,Far End,good\n",
    "area WHERE signal = 'good' AND id = 'Z'" },
  { "areas",
    "code,name,signal\n"
    "Z,Far End,patchy\n",
    "area WHERE signal = 'patchy' AND id = 'Z'" },
  { "areas",
    "code,name,signal\n"
    "Z,Far End,none\n",
    "area WHERE signal = 'none' AND id = 'Z'" },
  { "areas",
    "code,name,signal\n"
    "Z,Far End,no signal\n",
    "area WHERE signal = 'none' AND id = 'Z'" },
  { "areas",
    "code,name,signal\n"
    "Z,Far End,Patchy\n",
    "area WHERE signal = 'patchy' AND id = 'Z'" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,mon,08:00,12:30\n",
    "supplier_hours WHERE weekday = 1" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,monday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 1" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,Monday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 1" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,tue,08:00,12:30\n",
    "supplier_hours WHERE weekday = 2" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,tuesday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 2" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,Tuesday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 2" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,wed,08:00,12:30\n",
    "supplier_hours WHERE weekday = 3" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,wednesday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 3" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,Wednesday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 3" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,thu,08:00,12:30\n",
    "supplier_hours WHERE weekday = 4" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,thursday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 4" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,Thursday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 4" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,fri,08:00,12:30\n",
    "supplier_hours WHERE weekday = 5" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,friday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 5" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,Friday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 5" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,sat,08:00,12:30\n",
    "supplier_hours WHERE weekday = 6" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,saturday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 6" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,Saturday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 6" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,sun,08:00,12:30\n",
    "supplier_hours WHERE weekday = 7" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,sunday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 7" },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,Sunday,08:00,12:30\n",
    "supplier_hours WHERE weekday = 7" },
  { "readings",
    "job,check,value,phase\n"
    "A-0001,battery_rest,12.42,before\n",
    "reading WHERE phase = 'before'" },
  { "readings",
    "job,check,value,phase\n"
    "A-0001,battery_rest,12.42,during\n",
    "reading WHERE phase = 'during'" },
  { "readings",
    "job,check,value,phase\n"
    "A-0001,battery_rest,12.42,after\n",
    "reading WHERE phase = 'after'" },
  { "readings",
    "job,check,value,phase\n"
    "A-0001,battery_rest,12.42,After\n",
    "reading WHERE phase = 'after'" },
};

static const Word refused[] = {
  { "areas",
    "code,name,signal\n"
    "Z,Far End,loud\n",
    "areas.csv:2: signal: " },
  { "customers",
    "name,phone,kind\n"
    "Iris Fenn,555-0190,friend\n",
    "customers.csv:2: kind: " },
  { "vehicles",
    "plate,owner_phone,make,model,fuel\n"
    "TDM 9000,555-0115,Vostle,Nib,wood\n",
    "vehicles.csv:2: fuel: " },
  { "vehicles",
    "plate,owner_phone,make,model,battery_kind\n"
    "TDM 9000,555-0115,Vostle,Nib,dry\n",
    "vehicles.csv:2: battery_kind: " },
  { "vehicles",
    "plate,owner_phone,make,model,high_voltage\n"
    "TDM 9000,555-0115,Vostle,Nib,perhaps\n",
    "vehicles.csv:2: high_voltage: " },
  { "installed",
    "plate,what,date,known_by\n"
    "TDM 5508,starter,2024-01-01,rumor\n",
    "installed.csv:2: known_by: " },
  { "cores",
    "supplier,part,deposit,paid_on,where_now\n"
    "Kingpost Parts Counter,BW-55,18.00,2026-03-01,on the moon\n",
    "cores.csv:2: where_now: " },
  { "hours",
    "supplier,weekday,opens,shuts\n"
    "Larch & Weir,someday,08:00,12:30\n",
    "hours.csv:2: weekday: " },
  { "jobs",
    "number,customer_phone,words,stage\n"
    "A-0009,555-0115,hums,finished\n",
    "jobs.csv:2: stage: " },
  { "jobs",
    "number,customer_phone,words,kind\n"
    "A-0009,555-0115,hums,miracle\n",
    "jobs.csv:2: kind: " },
  { "readings",
    "job,check,value,phase\n"
    "A-0001,battery_rest,12.42,later\n",
    "readings.csv:2: phase: " },
};

static HsOpsTest *
open_book (void)
{
  HsOpsTest *test = hs_ops_test_open ();

  hs_ops_test_fill (test);
  hs_ops_test_import_ok (test, "jobs", "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 5508\n", 1, 0, 0);
  return test;
}

static void
test_word (gconstpointer data)
{
  const Word *word = data;
  g_autoptr (HsOpsTest) test = open_book ();

  g_assert_cmpint (hs_ops_test_count (test, word->found), ==, 0);
  hs_ops_test_import_ok (test, word->kind, word->csv, 1, 0, 0);
  g_assert_cmpint (hs_ops_test_count (test, word->found), ==, 1);
}

/* A word that nobody uses is named with its row and column, and the words that are taken. */
static void
test_refused (gconstpointer data)
{
  const Word *word = data;
  g_autoptr (HsOpsTest) test = open_book ();
  g_autofree char *faults = NULL;

  g_assert_false (hs_ops_test_import (test, word->kind, word->csv, NULL, &faults));
  g_assert_true (g_str_has_prefix (faults, word->found));
  g_assert_cmpuint (strlen (faults), >, strlen (word->found) + 10);
}

static void
add (const char *name, const Word *word, gsize number, GTestDataFunc func)
{
  g_autofree char *path = g_strdup_printf ("/words/%s/%s-%" G_GSIZE_FORMAT, name, word->kind, number);

  g_test_add_data_func (path, word, func);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    add ("taken", &words[i], i, test_word);
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    add ("refused", &refused[i], i, test_refused);
  return g_test_run ();
}
