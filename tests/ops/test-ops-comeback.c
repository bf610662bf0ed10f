// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a tag of the board says about a job's past: comebacks, unpaid bills, people to call. */

#include "hs-board.h"

#include "hs-job-row.h"
#include "ops-town.h"

#include <string.h>

#define JOBS "number,customer_phone,words,plate,kind,stage,area,day,window_from,window_to,minutes\n"

static HsBoard *
board_of (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  HsBoard *board = hs_board_load (town->book, NULL, ops_town_now (town), &error);

  g_assert_no_error (error);
  return board;
}

static const HsBoardRow *
row_of (const HsBoard *board, const char *number)
{
  for (guint i = 0; i < board->rows->len; i++)
    if (g_str_equal (((HsBoardRow *) g_ptr_array_index (board->rows, i))->number, number))
      return g_ptr_array_index (board->rows, i);
  return NULL;
}

static void
add_done (OpsTown *town, const OpsTownDone *done)
{
  g_autofree char *id = ops_town_add_done (town, done);

  g_assert_nonnull (id);
}

/* Comebacks -------------------------------------------------------------------------------------------------------- */

typedef struct
{
  const char *done_on;
  const char *kind;
  const char *act;
} Comeback;

/* The new job is for 2026-03-10; 90 days before that is 2025-12-10. */
static const Comeback comebacks[] = {
  { "2026-02-11", "repair", "27 days after A-0100: decide why" },
  { "2026-03-09", "repair", "1 day after A-0100: decide why" },
  { "2026-03-10", "repair", "Same day as A-0100: decide why" },
  { "2025-12-10", "repair", "90 days after A-0100: decide why" },
  { "2025-12-09", "repair", NULL },
  { "2026-02-11", "upkeep", NULL },
  { "2026-02-11", "look_over", NULL },
};

static void
test_comebacks (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (comebacks); i++)
    {
      const Comeback *row = &comebacks[i];
      const OpsTownDone done = { "A-0100", "555-0122", "TDM 1315", "no crank", row->done_on, 10000, TRUE };
      g_autofree char *jobs = g_strdup_printf (
          JOBS "A-0101,555-0122,no crank again,TDM 1315,%s,promised,O,2026-03-10,08:00,10:00,30\n", row->kind);
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsBoard) board = NULL;

      add_done (town, &done);
      ops_town_add (town, "jobs", jobs);
      board = board_of (town);
      g_assert_cmpuint (board->rows->len, ==, 1);
      g_assert_cmpstr (row_of (board, "A-0101")->act, ==, row->act);
      g_assert_cmpint (row_of (board, "A-0101")->attention, ==, row->act != NULL);
      g_assert_cmpuint (board->settled, ==, 1);
    }
}

/* Another vehicle of the same owner is no comeback; the newest job of several counts; days are a setting. */
static void
test_comeback_which (void)
{
  static const OpsTownDone dones[] = {
    { "A-0100", "555-0122", "TDM 1315", "no crank", "2026-01-20", 10000, TRUE },
    { "A-0101", "555-0122", "TDM 1315", "lamp", "2026-03-01", 10000, TRUE },
    { "A-0102", "555-0121", "TDM 8816", "noise", "2026-03-05", 10000, TRUE },
  };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsBoard) board = NULL;
  g_autoptr (HsBoard) strict = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (dones); i++)
    add_done (town, &dones[i]);
  ops_town_add (town, "jobs",
                JOBS "A-0103,555-0122,no crank again,TDM 1315,repair,promised,O,2026-03-10,08:00,10:00,30\n"
                     "A-0104,555-0111,new noise,TDM 1204,repair,promised,Q,2026-03-10,08:00,10:00,30\n"
                     "A-0105,555-0111,no plate yet,,repair,promised,Q,2026-03-10,08:00,10:00,30\n");
  board = board_of (town);
  g_assert_cmpstr (row_of (board, "A-0103")->act, ==, "9 days after A-0101: decide why");
  g_assert_null (row_of (board, "A-0104")->act);
  g_assert_null (row_of (board, "A-0105")->act);
  ops_town_set (town, "return_visit_days", "8");
  strict = board_of (town);
  g_assert_null (row_of (strict, "A-0103")->act);
}

static void
set_return (OpsTown *town, const char *number, const char *follows, const char *why)
{
  HsStore *store = hs_book_get_store (town->book);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobRow) job = NULL;

  g_assert_true (hs_store_begin (store, ops_town_now (town), &error));
  g_assert_true (hs_job_row_find (store, number, &job, &error));
  hs_row_set (&job->kind, "return_visit");
  g_free (job->follows_job_id);
  job->follows_job_id = ops_town_job (town, follows);
  hs_row_set (&job->return_why, why);
  hs_job_row_save (store, job, &error);
  g_assert_no_error (error);
  g_assert_true (hs_store_commit (store, &error));
}

static void
test_return_visit (void)
{
  static const struct
  {
    const char *why;
    const char *act;
  } rows[] = {
    { "not_decided", "27 days after A-0100: decide why" },
    { "our_work", NULL },
    { "unrelated", NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const OpsTownDone done = { "A-0100", "555-0122", "TDM 1315", "no crank", "2026-02-11", 10000, TRUE };
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsBoard) board = NULL;

      add_done (town, &done);
      ops_town_add (town, "jobs",
                    JOBS "A-0101,555-0122,again,TDM 1315,repair,promised,O,2026-03-10,08:00,10:00,30\n");
      set_return (town, "A-0101", "A-0100", rows[i].why);
      board = board_of (town);
      g_assert_cmpstr (row_of (board, "A-0101")->act, ==, rows[i].act);
    }
}

/* Money and calls -------------------------------------------------------------------------------------------------- */

static void
test_unpaid (void)
{
  static const OpsTownDone dones[] = {
    { "A-0100", "555-0122", "TDM 1315", "no crank", "2026-02-24", 36163, FALSE },
    { "A-0101", "555-0121", "TDM 8816", "lamp", "2026-02-25", 5000, TRUE },
    { "A-0102", "555-0111", NULL, "advice by phone", "2026-02-26", 0, FALSE },
  };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsBoard) board = NULL;
  const HsBoardRow *row;

  for (guint i = 0; i < G_N_ELEMENTS (dones); i++)
    add_done (town, &dones[i]);
  board = board_of (town);
  g_assert_cmpuint (board->rows->len, ==, 1);
  row = row_of (board, "A-0100");
  g_assert_cmpint (row->unpaid_cents, ==, 36163);
  g_assert_cmpint (row->unpaid_since, ==, ops_town_day ("2026-02-24"));
  g_assert_cmpstr (row->act, ==, "Ring today: on account since Feb 24");
  g_assert_cmpuint (board->settled, ==, 2);
}

static void
test_people_to_call (void)
{
  static const struct
  {
    const char *kind;
    const char *due;
    const char *act;
  } rows[] = {
    { "how_is_it_running", "2026-03-10", "Call Marguerite Stane today: how is it running" },
    { "how_is_it_running", "2026-03-08", "Call Marguerite Stane: how is it running, due since Mar 8" },
    { "declined_work", "2026-03-10", "Call Marguerite Stane today: declined work" },
    { "retorque", "2026-03-11", NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const OpsTownDone done = { "A-0100", "555-0122", "TDM 1315", "no crank", "2026-02-11", 10000, TRUE };
      g_autoptr (OpsTown) town = ops_town_new ();
      g_autoptr (HsBoard) board = NULL;

      add_done (town, &done);
      ops_town_add_chase (town, "A-0100", rows[i].kind, rows[i].due);
      board = board_of (town);
      g_assert_cmpuint (board->rows->len, ==, rows[i].act != NULL ? 1 : 0);
      g_assert_cmpuint (board->settled, ==, rows[i].act != NULL ? 0 : 1);
      if (rows[i].act != NULL)
        g_assert_cmpstr (row_of (board, "A-0100")->act, ==, rows[i].act);
    }
}

static void
test_bills (void)
{
  static const OpsTownDone dones[] = {
    { "A-0100", "555-0122", "TDM 1315", "no crank", "2026-02-24", 36163, FALSE },
    { "A-0101", "555-0121", "TDM 8816", "lamp", "2026-03-01", 5000, TRUE },
    { "A-0102", "555-0111", NULL, "talk", "2026-03-01", 4000, TRUE },
  };
  static const char *const order[] = { "A-0102", "A-0101", "A-0100" };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) all = NULL;
  g_autoptr (GPtrArray) two = NULL;
  g_autoptr (GPtrArray) unpaid = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (dones); i++)
    add_done (town, &dones[i]);
  all = hs_money_list (town->book, FALSE, 10, &error);
  two = hs_money_list (town->book, FALSE, 2, &error);
  unpaid = hs_money_list (town->book, TRUE, 10, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (all->len, ==, G_N_ELEMENTS (order));
  for (guint i = 0; i < all->len; i++)
    g_assert_cmpstr (((HsMoneyRow *) g_ptr_array_index (all, i))->number, ==, order[i]);
  g_assert_null (((HsMoneyRow *) g_ptr_array_index (all, 0))->plate);
  g_assert_cmpint (((HsMoneyRow *) g_ptr_array_index (all, 1))->paid_cents, ==, 5000);
  g_assert_cmpuint (two->len, ==, 2);
  g_assert_cmpuint (unpaid->len, ==, 1);
  g_assert_cmpint (((HsMoneyRow *) g_ptr_array_index (unpaid, 0))->total_cents, ==, 36163);
  g_assert_cmpint (((HsMoneyRow *) g_ptr_array_index (unpaid, 0))->paid_cents, ==, 0);
  g_assert_cmpint (((HsMoneyRow *) g_ptr_array_index (unpaid, 0))->issued_on, ==, ops_town_day ("2026-02-24"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/comeback/days", test_comebacks);
  g_test_add_func ("/ops/comeback/which", test_comeback_which);
  g_test_add_func ("/ops/comeback/return-visit", test_return_visit);
  g_test_add_func ("/ops/comeback/unpaid", test_unpaid);
  g_test_add_func ("/ops/comeback/people-to-call", test_people_to_call);
  g_test_add_func ("/ops/comeback/bills", test_bills);
  return g_test_run ();
}
