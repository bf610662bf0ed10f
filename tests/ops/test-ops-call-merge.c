// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Two devices write one call slip: nobody's words are lost, field by field. */

#include "hs-call-merge.h"
#include "hs-ops-test.h"
#include "hs-undo.h"

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job;
} Slip;

static Slip
slip_start (void)
{
  Slip slip = { .test = hs_ops_test_open () };

  hs_ops_test_fill (slip.test);
  hs_ops_test_import_ok (slip.test, "jobs",
                         "number,customer_phone,words,plate\nA-0001,555-0115,hums,TDM 5508\n", 1, 0, 0);
  hs_ops_test_run (slip.test, "UPDATE job SET street = '2 Hill Road', guess_seconds = 1800");
  slip.book = slip.test->book;
  slip.job = hs_job_find (slip.book, "A-0001", NULL);
  return slip;
}

static void
slip_clear (Slip *slip)
{
  hs_ops_test_close (slip->test);
  g_free (slip->job);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Slip, slip_clear)

/* As the window showed it. */
static HsCallSlip
shown (Slip *slip)
{
  return (HsCallSlip) { .job_id = slip->job, .phone = "555-0115", .name = "Teo Calloway", .words = "hums",
                        .plate = "TDM 5508", .street = "2 Hill Road", .minutes = 30, .day = HS_DATE_NONE,
                        .window_from = -1, .window_to = -1 };
}

typedef struct
{
  const char *name;
  const char *elsewhere; /* what another device did meanwhile, as SQL */
  const char *words;     /* what is typed here; NULL: untouched */
  const char *street;
  int minutes;
  const char *row;   /* of the book afterwards */
  const char *clash; /* (nullable): field that both wrote */
  const char *kept;  /* (nullable): the answer that has the other's words */
} Case;

static const Case cases[] = {
  { "nobody-else", "", "hums loudly", NULL, 30,
    "job WHERE words = 'hums loudly' AND street = '2 Hill Road' AND guess_seconds = 1800", NULL, NULL },
  { "other-field", "UPDATE job SET street = '9 Coble Walk'", "hums loudly", NULL, 30,
    "job WHERE words = 'hums loudly' AND street = '9 Coble Walk'", NULL, NULL },
  { "nothing-here", "UPDATE job SET words = 'clicks', street = '9 Coble Walk', guess_seconds = 3600", NULL, NULL, 30,
    "job WHERE words = 'clicks' AND street = '9 Coble Walk' AND guess_seconds = 3600", NULL, NULL },
  { "same", "UPDATE job SET street = '9 Coble Walk'", NULL, "9 Coble Walk", 30,
    "job WHERE street = '9 Coble Walk'", NULL, NULL },
  { "both", "UPDATE job SET street = '9 Coble Walk'", NULL, "7 Mill Lane", 30, "job WHERE street = '7 Mill Lane'",
    "street", "asked WHERE question = 'Street, as another device had it' AND answer = '9 Coble Walk'" },
  { "both-words", "UPDATE job SET words = 'clicks'", "hums loudly", NULL, 30, "job WHERE words = 'hums loudly'",
    "words", "asked WHERE question = 'What the caller says, as another device had it' AND answer = 'clicks'" },
  { "both-minutes", "UPDATE job SET guess_seconds = 3600", NULL, NULL, 45, "job WHERE guess_seconds = 2700",
    "minutes", "asked WHERE question = 'Minutes of work, as another device had it' AND answer = '60'" },
  /* Emptied elsewhere leaves no words to keep. */
  { "emptied", "UPDATE job SET street = NULL", NULL, "7 Mill Lane", 30, "job WHERE street = '7 Mill Lane'", NULL,
    NULL },
};

static void
test_case (gconstpointer data)
{
  const Case *row = data;
  g_auto (Slip) slip = slip_start ();
  HsCallSlip was = shown (&slip), mine = shown (&slip);
  g_autoptr (GPtrArray) clashes = NULL;
  g_autoptr (GError) error = NULL;

  hs_ops_test_run (slip.test, row->elsewhere);
  mine.words = row->words != NULL ? row->words : mine.words;
  mine.street = row->street != NULL ? row->street : mine.street;
  mine.minutes = row->minutes;
  g_assert_true (hs_call_merge (slip.book, &mine, &was, NOW, &clashes, &error));
  g_assert_no_error (error);
  hs_ops_test_one (slip.test, row->row);
  g_assert_cmpuint (clashes->len, ==, row->clash != NULL ? 1 : 0);
  g_assert_cmpint (hs_ops_test_count (slip.test, "asked"), ==, row->kept != NULL ? 1 : 0);
  if (row->clash == NULL)
    return;
  g_assert_cmpstr (((HsCallClash *) g_ptr_array_index (clashes, 0))->field, ==, row->clash);
  hs_ops_test_one (slip.test, row->kept);
  /* One step takes the words here back, and with them that there was a clash. */
  g_assert_true (hs_undo_last (hs_book_get_store (slip.book), slip.job, NOW, NULL, &error));
  g_assert_cmpint (hs_ops_test_count (slip.test, "asked"), ==, 0);
}

/* A second clash of the same field keeps both of the others' words. */
static void
test_twice (void)
{
  g_auto (Slip) slip = slip_start ();
  HsCallSlip was = shown (&slip), mine = shown (&slip);
  g_autoptr (GError) error = NULL;

  mine.street = "7 Mill Lane";
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (GPtrArray) clashes = NULL;

      hs_ops_test_run (slip.test,
                       i == 0 ? "UPDATE job SET street = '9 Coble Walk'" : "UPDATE job SET street = '4 Weir'");
      g_assert_true (hs_call_merge (slip.book, &mine, &was, NOW, &clashes, &error));
      g_assert_cmpuint (clashes->len, ==, 1);
    }
  hs_ops_test_one (slip.test, "asked WHERE answer = '9 Coble Walk · 4 Weir'");
}

/* Written without a name, named afterwards: the placeholder was nobody's word, and is not kept as one. */
static void
test_named_later (void)
{
  g_auto (Slip) slip = slip_start ();
  HsCallSlip unnamed = { .phone = "555-0199", .words = "dead", .day = HS_DATE_NONE, .window_from = -1,
                         .window_to = -1 };
  g_autoptr (GPtrArray) clashes = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *job = hs_call_take (slip.book, &unnamed, NOW, &error);
  HsCallSlip was = unnamed, mine = unnamed;

  g_assert_no_error (error);
  hs_ops_test_one (slip.test, "customer WHERE name = 'Caller 555-0199'");
  was.job_id = mine.job_id = job;
  mine.name = "Bo Lind";
  g_assert_true (hs_call_merge (slip.book, &mine, &was, NOW, &clashes, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (clashes->len, ==, 0);
  hs_ops_test_one (slip.test, "customer WHERE name = 'Bo Lind'");
  g_assert_cmpint (hs_ops_test_count (slip.test, "asked"), ==, 0);
}

/* One whom the book knows by another name keeps it, and what was given is not lost. */
static void
test_other_name (void)
{
  g_auto (Slip) slip = slip_start ();
  HsCallSlip was = shown (&slip), mine = shown (&slip);
  g_autoptr (GPtrArray) clashes = NULL;
  g_autoptr (GError) error = NULL;

  mine.name = "Wanda Calloway";
  g_assert_true (hs_call_merge (slip.book, &mine, &was, NOW, &clashes, &error));
  g_assert_no_error (error);
  hs_ops_test_one (slip.test, "customer WHERE name = 'Teo Calloway'");
  hs_ops_test_one (slip.test, "asked WHERE question = 'Name, as it was given' AND answer = 'Wanda Calloway'");
}

/* What is refused changes nothing, the kept words included. */
static void
test_refused (void)
{
  g_auto (Slip) slip = slip_start ();
  HsCallSlip was = shown (&slip), mine = shown (&slip);
  g_autoptr (GPtrArray) clashes = NULL;
  g_autoptr (GError) error = NULL;

  hs_ops_test_run (slip.test, "UPDATE job SET street = '9 Coble Walk'");
  mine.street = "7 Mill Lane";
  mine.words = " ";
  g_assert_false (hs_call_merge (slip.book, &mine, &was, NOW, &clashes, &error));
  hs_ops_test_refused (&error, "Write down what the caller says");
  g_assert_null (clashes);
  hs_ops_test_one (slip.test, "job WHERE street = '9 Coble Walk'");
  g_assert_cmpint (hs_ops_test_count (slip.test, "asked"), ==, 0);
  hs_call_clash_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/ops/call-merge/", cases[i].name, NULL);

      g_test_add_data_func (path, &cases[i], test_case);
    }
  g_test_add_func ("/ops/call-merge/twice", test_twice);
  g_test_add_func ("/ops/call-merge/named-later", test_named_later);
  g_test_add_func ("/ops/call-merge/other-name", test_other_name);
  g_test_add_func ("/ops/call-merge/refused", test_refused);
  return g_test_run ();
}
