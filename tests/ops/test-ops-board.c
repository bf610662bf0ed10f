// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The board, a job's page and the bills of the demo business; and stages that the demo morning does not have. */

#include "hs-board.h"

#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-store.h"
#include "ops-demo.h"
#include "ops-town.h"

#include <string.h>

#define MORNING "2026-03-10"
#define JOBS "number,customer_phone,words,plate,kind,stage,area,day,window_from,window_to,minutes\n"

static HsBoard *
demo_board (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsDayPlan) plan
      = hs_day_plan_standing (ops_demo_book (), ops_town_day (MORNING), NULL, HS_INSTANT_NONE, &error);
  HsBoard *board;

  g_assert_no_error (error);
  board = hs_board_load (ops_demo_book (), plan, hs_demo_get_now (), &error);
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

typedef struct
{
  const char *number;
  guint stop;
  const char *act;
  const char *waits_for;
  const char *note;
} Tag;

static const Tag morning_tags[] = {
  { "A-0021", 2, "Bring the starter: 38 % sure", "starter, Larch & Weir Auto Electrical, 38 % sure", NULL },
  { "A-0022", 3, NULL, NULL, "In the van: battery 55 Ah flooded" },
  { "A-0023", 5, NULL, "rear pads, Kingpost Parts Counter", NULL },
  { "A-0025", 6, "27 days after A-0016: decide why", "fuel filter, Kingpost Parts Counter", NULL },
  { "A-0024", 7, NULL, NULL, "Battery in it: 36 months, cover ended Feb 21" },
  { "A-0026", 8, "High voltage: safety list first", "battery 45 Ah AGM, Kingpost Parts Counter", NULL },
};

/* Six promised calls in the order of the plan. */
static void
test_morning (void)
{
  g_autoptr (HsBoard) board = demo_board ();

  for (guint i = 0; i < G_N_ELEMENTS (morning_tags); i++)
    {
      const Tag *tag = &morning_tags[i];
      const HsBoardRow *row = g_ptr_array_index (board->rows, i);

      g_assert_cmpstr (row->number, ==, tag->number);
      g_assert_cmpint (row->stage, ==, HS_STAGE_PROMISED);
      g_assert_cmpuint (row->stop_number, ==, tag->stop);
      g_assert_cmpstr (row->act, ==, tag->act);
      g_assert_cmpstr (row->note, ==, tag->note);
      g_assert_cmpint (row->attention, ==, tag->act != NULL);
      if (tag->waits_for == NULL)
        g_assert_null (row->waits_for);
      else
        g_assert_true (g_str_has_prefix (row->waits_for, tag->waits_for));
    }
}

static void
test_tag (void)
{
  g_autoptr (HsBoard) board = demo_board ();
  const HsBoardRow *row = row_of (board, "A-0025");

  g_assert_cmpstr (row->plate, ==, "TDM 1011");
  g_assert_cmpstr (row->words, ==, "cuts out again");
  g_assert_cmpstr (row->area, ==, "Sedge End");
  g_assert_cmpstr (row->signal, ==, "none");
  g_assert_cmpint (row->minutes, ==, 60);
  g_assert_cmpint (row->window_to - row->window_from, ==, 7 * 3600);
  g_assert_cmpint (row->arrive - row->window_from, ==, 3 * 3600 + 31 * 60);
  g_assert_true (row_of (board, "A-0026")->high_voltage);
}

/* One is not paid; the others are folded away. */
static void
test_unpaid (void)
{
  g_autoptr (HsBoard) board = demo_board ();
  const HsBoardRow *row = row_of (board, "A-0019");

  g_assert_cmpuint (board->rows->len, ==, 7);
  g_assert_nonnull (row);
  g_assert_cmpint (row->stage, ==, HS_STAGE_SQUARED);
  g_assert_cmpint (row->unpaid_cents, ==, 36163);
  g_assert_cmpint (row->unpaid_since, ==, ops_town_day ("2026-02-24"));
  g_assert_cmpstr (row->act, ==, "Ring today: on account since Feb 24");
  g_assert_cmpuint (board->settled, ==, 19);
}

/* Asked for, the newest closed jobs come behind those that want something, the newest first; none comes twice. */
static void
test_unfold (void)
{
  static const char *const settled[] = { "A-0020", "A-0018", "A-0017" };
  g_autoptr (HsBoard) board = demo_board ();
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_board_unfold (ops_demo_book (), board, 4, hs_demo_get_now (), &error));
  g_assert_no_error (error);
  g_assert_cmpuint (board->rows->len, ==, 10);
  g_assert_cmpuint (board->settled, ==, 16);
  g_assert_false (row_of (board, "A-0019")->settled);
  for (guint i = 0; i < G_N_ELEMENTS (settled); i++)
    {
      const HsBoardRow *row = g_ptr_array_index (board->rows, 7 + i);

      g_assert_cmpstr (row->number, ==, settled[i]);
      g_assert_cmpint (row->stage, ==, HS_STAGE_SQUARED);
      g_assert_true (row->settled);
    }
}

/* What was put off comes up on its day. */
static void
test_follow_up (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsBoard) board
      = hs_board_load (ops_demo_book (), NULL, hs_demo_get_now () + 4 * HS_SECONDS_PER_DAY, &error);
  const HsBoardRow *row;

  g_assert_no_error (error);
  row = row_of (board, "A-0012");
  g_assert_nonnull (row);
  g_assert_nonnull (strstr (row->act, "“Battery at 62 % of rating”"));
  g_assert_cmpuint (board->settled, ==, 18);
}

/* Stages ----------------------------------------------------------------------------------------------------------- */

static void
move (OpsTown *town, const char *number, HsStage to, const char *reason)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *job = ops_town_job (town, number);

  hs_job_move_stage (town->book, job, to, reason, ops_town_now (town), &error);
  g_assert_no_error (error);
}

static HsBoard *
town_board (OpsTown *town)
{
  g_autoptr (GError) error = NULL;
  HsBoard *board = hs_board_load (town->book, NULL, ops_town_now (town), &error);

  g_assert_no_error (error);
  return board;
}

static const char stage_jobs[]
    = JOBS "A-0001,555-0122,a,TDM 1315,repair,promised,O," MORNING ",08:00,10:00,30\n"
           "A-0002,555-0121,b,TDM 8816,repair,penciled,Q," MORNING ",08:00,10:00,30\n"
           "A-0003,555-0115,c,TDM 5508,repair,called_in,O,,,,30\n"
           "A-0004,555-0114,d,TDM 4409,repair,promised,H," MORNING ",08:00,10:00,30\n"
           "A-0005,555-0113,e,TDM 3316,repair,promised,F," MORNING ",08:00,10:00,30\n"
           "A-0006,555-0119,f,TDM 1011,repair,promised,S," MORNING ",08:00,10:00,30\n"
           "A-0007,555-0117,g,TDM 7717,repair,promised,H," MORNING ",08:00,10:00,30\n"
           "A-0008,555-0111,h,TDM 1204,repair,promised,Q,2026-03-11,08:00,10:00,30\n";

static void
test_stages (void)
{
  static const struct
  {
    const char *number;
    const char *act;
  } rows[] = {
    { "A-0004", NULL },
    { "A-0005", NULL },
    { "A-0003", "Ring back: give a time" },
    { "A-0002", "Confirm the window with Rue Abernant" },
    { "A-0006", "Ring Sedge End Campsite (Lorna) for a yes" },
    { "A-0001", "Square it up" },
    { "A-0007", "High voltage: safety list first" },
    { "A-0008", NULL },
  };
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsBoard) board = NULL;

  ops_town_add (town, "jobs", stage_jobs);
  move (town, "A-0004", HS_STAGE_ROLLING, NULL);
  move (town, "A-0005", HS_STAGE_ON_SITE, NULL);
  move (town, "A-0006", HS_STAGE_ON_SITE, NULL);
  move (town, "A-0006", HS_STAGE_WAITING_YES, NULL);
  move (town, "A-0001", HS_STAGE_ON_SITE, NULL);
  move (town, "A-0001", HS_STAGE_PROVEN, "dark and raining, road test refused");
  board = town_board (town);
  g_assert_cmpuint (board->rows->len, ==, G_N_ELEMENTS (rows));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsBoardRow *row = g_ptr_array_index (board->rows, i);

      g_assert_cmpstr (row->number, ==, rows[i].number);
      g_assert_cmpstr (row->act, ==, rows[i].act);
      g_assert_cmpuint (row->stop_number, ==, 0);
    }
  g_assert_cmpuint (board->settled, ==, 0);
}

static void
test_called_off (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsBoard) board = NULL;

  ops_town_add (town, "jobs", stage_jobs);
  move (town, "A-0002", HS_STAGE_CALLED_OFF, "sold the car");
  move (town, "A-0003", HS_STAGE_TURNED_AWAY, "needs a key specialist");
  board = town_board (town);
  g_assert_cmpuint (board->rows->len, ==, 6);
  g_assert_null (row_of (board, "A-0002"));
  g_assert_null (row_of (board, "A-0003"));
  g_assert_cmpuint (board->settled, ==, 2);
}

static void
test_waits (void)
{
  g_autoptr (OpsTown) town = ops_town_new ();
  g_autoptr (HsBoard) board = NULL;
  const HsBoardRow *row;

  ops_town_add (town, "jobs", stage_jobs);
  ops_town_add (town, "stock", "van,part,quantity,keep\nA,BW-55,1,1\n");
  ops_town_add (town, "needs",
                "job,part,quantity,sure_percent,supplier\n"
                "A-0001,ST-1315,1,100,Larch & Weir Auto Electrical\nA-0001,BW-55,1,100,\nA-0001,NONE-1,1,100,\n");
  board = town_board (town);
  row = row_of (board, "A-0001");
  g_assert_cmpstr (row->waits_for, ==, "starter, Larch & Weir Auto Electrical; gearbox mount");
  g_assert_cmpstr (row->note, ==, "In the van: battery 55 Ah flooded");
  g_assert_null (row->act);
}

/* A job's page ----------------------------------------------------------------------------------------------------- */

static HsJobView *
view_of (const char *number)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *job = ops_demo_job (number);
  HsJobView *view = hs_job_view_load (ops_demo_book (), job, hs_demo_get_now (), &error);

  g_assert_no_error (error);
  return view;
}

static gboolean
has_text (GPtrArray *texts, const char *part)
{
  for (guint i = 0; i < texts->len; i++)
    if (strstr (g_ptr_array_index (texts, i), part) != NULL)
      return TRUE;
  return FALSE;
}

static void
test_view (void)
{
  g_autoptr (HsJobView) view = view_of ("A-0013");

  g_assert_cmpstr (view->tag->number, ==, "A-0013");
  g_assert_cmpstr (view->kind, ==, "repair");
  g_assert_cmpstr (view->phone, ==, "555-0116");
  g_assert_true (has_text (view->findings, "water pump seal weeping onto drive belt"));
  g_assert_cmpuint (view->because->len, >, 0);
  g_assert_true (has_text (view->because, "←"));
  g_assert_true (has_text (view->advice, "Water pump, belt and coolant, 520.94: no by Bram Hark"));
  g_assert_true (has_text (view->advice, "Belt only, 153.79: yes by Bram Hark"));
  g_assert_true (has_text (view->go_aheads, "up to 153.79 by"));
  g_assert_true (has_text (view->lines, "drive belt\t42.40"));
  g_assert_true (has_text (view->installed, "drive belt"));
  g_assert_cmpint (view->net_cents + view->tax_cents, ==, 15379);
  g_assert_cmpint (view->paid_cents, ==, 15379);
  g_assert_cmpint (view->left_at - view->arrived_at, ==, 3600);
  g_assert_cmpint (view->arrived_at - view->rolling_at, ==, 14 * 60);
  g_assert_cmpuint (view->asked->len % 2, ==, 0);
  for (guint i = 0; i < view->readings->len; i++)
    g_assert_nonnull (((HsReadingResult *) g_ptr_array_index (view->readings, i))->value_text);
}

static void
test_view_return (void)
{
  g_autoptr (HsJobView) view = view_of ("A-0020");
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (view->kind, ==, "return_visit");
  g_assert_cmpstr (view->follows_number, ==, "A-0013");
  g_assert_cmpstr (view->return_why, ==, "declined_earlier");
  g_assert_null (hs_job_view_load (ops_demo_book (), "no such job", hs_demo_get_now (), &error));
  g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND);
}

static void
test_money (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) all = hs_money_list (ops_demo_book (), FALSE, 100, &error);
  g_autoptr (GPtrArray) unpaid = hs_money_list (ops_demo_book (), TRUE, 100, &error);
  gint64 total = 0;
  const HsMoneyRow *row;

  g_assert_no_error (error);
  g_assert_cmpuint (all->len, ==, 20);
  for (guint i = 0; i < all->len; i++)
    {
      row = g_ptr_array_index (all, i);
      total += row->total_cents;
      if (i > 0)
        g_assert_cmpint (row->issued_on, <=, ((HsMoneyRow *) g_ptr_array_index (all, i - 1))->issued_on);
    }
  g_assert_cmpint (total, ==, 482748);
  g_assert_cmpuint (unpaid->len, ==, 1);
  row = g_ptr_array_index (unpaid, 0);
  g_assert_cmpstr (row->customer, ==, "Ansel Vickery");
  g_assert_cmpstr (row->plate, ==, "TDM 9912");
  g_assert_cmpint (row->total_cents, ==, 36163);
  g_assert_cmpint (row->paid_cents, ==, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/board/morning", test_morning);
  g_test_add_func ("/ops/board/tag", test_tag);
  g_test_add_func ("/ops/board/unpaid", test_unpaid);
  g_test_add_func ("/ops/board/unfold", test_unfold);
  g_test_add_func ("/ops/board/follow-up", test_follow_up);
  g_test_add_func ("/ops/board/stages", test_stages);
  g_test_add_func ("/ops/board/called-off", test_called_off);
  g_test_add_func ("/ops/board/waits", test_waits);
  g_test_add_func ("/ops/board/view", test_view);
  g_test_add_func ("/ops/board/view-return", test_view_return);
  g_test_add_func ("/ops/board/money", test_money);
  return ops_demo_run ();
}
