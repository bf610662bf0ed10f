// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A caller who gives another name than the book knows: both are kept, and one deed calls the customer so. */

#include "hs-call-name.h"

#include "hs-call-find.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-undo.h"

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job;
} Call;

/* 555-0115 is Teo Calloway's. */
static Call
call_take (const char *name)
{
  Call call = { .test = hs_ops_test_open () };
  HsCallSlip slip = { .phone = "555-0115", .name = name, .words = "hums", .day = HS_DATE_NONE, .window_from = -1,
                      .window_to = -1 };
  g_autoptr (GError) error = NULL;

  hs_ops_test_fill (call.test);
  call.book = call.test->book;
  call.job = hs_call_take (call.book, &slip, NOW, &error);
  g_assert_no_error (error);
  return call;
}

static void
call_clear (Call *call)
{
  hs_ops_test_close (call->test);
  g_free (call->job);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Call, call_clear)

static char *
dup_names (Call *call)
{
  g_autoptr (HsCallName) name = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_call_name_load (call->book, call->job, &name, &error));
  g_assert_no_error (error);
  return name != NULL ? g_strdup_printf ("%s/%s", name->known, name->given) : g_strdup ("same");
}

static void
test_differs (void)
{
  static const struct
  {
    const char *given;
    const char *names;
  } rows[] = {
    { NULL, "same" }, { "Teo Calloway", "same" }, { "Mara Calloway", "Teo Calloway/Mara Calloway" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Call) call = call_take (rows[i].given);
      g_autofree char *names = dup_names (&call);

      g_assert_cmpstr (names, ==, rows[i].names);
    }
}

/* Renamed, the customer is called so on every job, until it is taken back. */
static void
test_take (void)
{
  g_auto (Call) call = call_take ("Mara Calloway");
  g_autoptr (GError) error = NULL;
  g_autofree char *after = NULL, *back = NULL;

  g_assert_true (hs_call_name_take (call.book, call.job, NOW, &error));
  g_assert_no_error (error);
  hs_ops_test_one (call.test, "customer WHERE name = 'Mara Calloway'");
  after = dup_names (&call);
  g_assert_cmpstr (after, ==, "same");
  g_assert_false (hs_call_name_take (call.book, call.job, NOW, &error));
  hs_ops_test_refused (&error, "no other name than “Mara Calloway” was given");
  g_assert_true (hs_undo_last (hs_book_get_store (call.book), call.job, NOW, NULL, NULL));
  hs_ops_test_one (call.test, "customer WHERE name = 'Teo Calloway'");
  back = dup_names (&call);
  g_assert_cmpstr (back, ==, "Teo Calloway/Mara Calloway");
}

static guint
count_found (Call *call, const char *job_id, const char *words)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) hits = hs_call_find (call->book, job_id, words, 3, NOW, &error);

  g_assert_no_error (error);
  return hits->len;
}

/* The slip itself is nobody who is known; its vehicle is, as soon as another job has it. */
static void
test_find (void)
{
  g_auto (Call) call = call_take (NULL);
  HsCallSlip slip = { .phone = "555-0193", .name = "Ida Fenn", .words = "hums", .plate = "NEW 4711",
                      .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 };
  g_autofree char *first = hs_call_take (call.book, &slip, NOW, NULL);
  g_autofree char *second = NULL;

  g_assert_cmpuint (count_found (&call, NULL, "0193"), ==, 1);
  g_assert_cmpuint (count_found (&call, first, "0193"), ==, 0);
  g_assert_cmpuint (count_found (&call, first, "NEW 4711"), ==, 0);
  g_assert_cmpuint (count_found (&call, first, "5508"), ==, 1);
  g_assert_cmpuint (count_found (&call, call.job, "0193"), ==, 1);
  second = hs_call_take (call.book, &slip, NOW + 60, NULL);
  g_assert_cmpuint (count_found (&call, first, "0193"), ==, 1);
}

static void
test_unknown (void)
{
  g_auto (Call) call = call_take (NULL);
  g_autoptr (HsCallName) name = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_call_name_load (call.book, "no-such-job", &name, &error));
  g_assert_nonnull (error);
  g_assert_null (name);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/call-name/differs", test_differs);
  g_test_add_func ("/ops/call-name/take", test_take);
  g_test_add_func ("/ops/call-name/find", test_find);
  g_test_add_func ("/ops/call-name/unknown", test_unknown);
  return g_test_run ();
}
