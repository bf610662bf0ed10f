// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every operation of a repair is one step with words of its own; taken back it leaves what was there, done again what
 * it made. */

#include "ops-repair.h"

#include "hs-undo.h"

/* All that a repair may touch, as one text. */
#define DIGEST                                                                                                         \
  "SELECT json_array ("                                                                                                \
  "(SELECT json_group_array (json_array (id, what, place, serial, date_stamp, maker, supplier_bill, warranty_months,"  \
  " warranty_millimiles, installed_odometer, replaced_why, replaced_finding_id, told_at, old_part, removed_on,"        \
  " removed_job_id)) FROM (SELECT * FROM installed_part ORDER BY id)),"                                                \
  "(SELECT json_group_array (json_array (id, what, check_id, done_at, done_words))"                                    \
  " FROM (SELECT * FROM disturbed ORDER BY id)),"                                                                      \
  "(SELECT json_group_array (json_array (id, kind, due_on)) FROM (SELECT * FROM chase ORDER BY id)),"                  \
  "(SELECT json_group_array (json_array (id, what, price_cents)) FROM (SELECT * FROM line ORDER BY id)),"              \
  "(SELECT json_group_array (quantity_milli) FROM stock), (SELECT json_group_array (state) FROM need),"                \
  "(SELECT json_group_array (json_array (value, on_date)) FROM (SELECT * FROM odometer ORDER BY id)),"                 \
  "(SELECT json_array (unproved_why, safe_to_drive) FROM job))"

typedef struct
{
  Bay bay;
  char *part;
  char *line;
} Work;

static gboolean
fit_battery (Work *work, GError **error)
{
  const HsInstallEntry entry = { .part_number = "BW-55", .from_van = TRUE, .cost_cents = 6200, .why = "due",
                                 .odometer = 63000, .looks = TRUE };

  g_free (work->part);
  work->part = hs_part_install (work->bay.book, work->bay.job, &entry, NOW, error);
  return work->part != NULL;
}

static gboolean
fit_wheel (Work *work, GError **error)
{
  const HsInstallEntry entry = { .what = "wheel hub", .why = "due", .looks = TRUE };
  g_autofree char *id = hs_part_install (work->bay.book, work->bay.job, &entry, NOW, error);

  return id != NULL;
}

static gboolean
set_place (Work *work, GError **error)
{
  return hs_part_set (work->bay.book, work->part, "place", "trunk", NOW, error);
}

static gboolean
set_cover (Work *work, GError **error)
{
  return hs_part_set (work->bay.book, work->part, "months", "36", NOW, error);
}

static gboolean
set_why (Work *work, GError **error)
{
  return hs_part_set (work->bay.book, work->part, "why", "not_known", NOW, error);
}

static gboolean
set_old (Work *work, GError **error)
{
  return hs_part_set (work->bay.book, work->part, "old", "core", NOW, error);
}

static gboolean
set_cost (Work *work, GError **error)
{
  return hs_part_set (work->bay.book, work->part, "cost", "50.00", NOW, error);
}

static gboolean
set_odometer (Work *work, GError **error)
{
  return hs_part_set (work->bay.book, work->part, "odometer", "63001", NOW, error);
}

static gboolean
disturb (Work *work, GError **error)
{
  return hs_disturbed_add (work->bay.book, work->bay.job, "brakes", NOW, NULL, error);
}

static gboolean
tick (Work *work, GError **error)
{
  g_free (work->line);
  work->line = hs_ops_test_id (work->bay.test, "SELECT id FROM disturbed WHERE what LIKE 'Pedal%'");
  return hs_disturbed_tick (work->bay.book, work->line, TRUE, "hard", NOW, error);
}

static gboolean
untick (Work *work, GError **error)
{
  return hs_disturbed_tick (work->bay.book, work->line, FALSE, NULL, NOW, error);
}

static gboolean
drop_line (Work *work, GError **error)
{
  return hs_disturbed_remove (work->bay.book, work->line, NOW, error);
}

static gboolean
say_unproved (Work *work, GError **error)
{
  return hs_job_set_unproved (work->bay.book, work->bay.job, "dark", NOW, error);
}

static gboolean
say_safe (Work *work, GError **error)
{
  return hs_job_set_safe (work->bay.book, work->bay.job, "no", NOW, error);
}

static gboolean
leave (Work *work, GError **error)
{
  return hs_job_leave (work->bay.book, work->bay.job, 63010, NOW, error);
}

static gboolean
take_out (Work *work, GError **error)
{
  return hs_part_remove (work->bay.book, work->part, NOW, error);
}

static const struct
{
  gboolean (*run) (Work *work, GError **error);
  const char *what;
} steps[] = {
  { fit_battery, "installed: battery 55 Ah flooded" },
  { fit_wheel, "installed: wheel hub" },
  { set_place, "battery 55 Ah flooded: place" },
  { set_cover, "battery 55 Ah flooded: months" },
  { set_why, "battery 55 Ah flooded: why" },
  { set_old, "battery 55 Ah flooded: old" },
  { set_cost, "battery 55 Ah flooded: cost" },
  { set_odometer, "battery 55 Ah flooded: odometer" },
  { disturb, "disturbed: Brakes opened" },
  { tick, "looked after: Pedal pumped until it is hard, before the vehicle moved" },
  { untick, "not looked after: Pedal pumped until it is hard, before the vehicle moved" },
  { drop_line, "not disturbed: Pedal pumped until it is hard, before the vehicle moved" },
  { say_unproved, "not proven because" },
  { say_safe, "safe to drive: no" },
  { leave, "odometer: 63010" },
  { take_out, "not installed: battery 55 Ah flooded" },
};

static void
test_steps (void)
{
  Work work = { .bay = bay_start () };
  HsStore *store = hs_book_get_store (work.bay.book);

  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      g_autofree char *before = hs_ops_test_id (work.bay.test, DIGEST);
      g_autoptr (GPtrArray) list = NULL;
      g_autofree char *after = NULL;
      g_autofree char *back = NULL;
      g_autofree char *again = NULL;
      g_autoptr (GError) error = NULL;

      g_assert_true (steps[i].run (&work, &error));
      g_assert_no_error (error);
      after = hs_ops_test_id (work.bay.test, DIGEST);
      g_assert_cmpstr (before, !=, after);
      g_assert_true (hs_undo_list (store, work.bay.job, &list, NULL));
      g_assert_cmpstr (((HsUndoStep *) g_ptr_array_index (list, 0))->what, ==, steps[i].what);
      g_assert_true (hs_undo_last (store, work.bay.job, NOW, NULL, &error));
      g_assert_no_error (error);
      back = hs_ops_test_id (work.bay.test, DIGEST);
      g_assert_cmpstr (back, ==, before);
      g_assert_true (hs_undo_again (store, work.bay.job, NOW, NULL, &error));
      again = hs_ops_test_id (work.bay.test, DIGEST);
      g_assert_cmpstr (again, ==, after);
    }
  g_free (work.part);
  g_free (work.line);
  bay_clear (&work.bay);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/repair-undo/steps", test_steps);
  return g_test_run ();
}
