// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* HsQuery: newest question wins, sleeps off the screen, keeps the last good answer. */

#include "hs-ask.h"
#include "hs-deed.h"
#include "hs-query.h"
#include "model-book.h"

static void
count_cb (HsQuery *query, gpointer data)
{
  (*(int *) data)++;
}

static gpointer
echo_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *text = args != NULL ? g_variant_get_string (args, NULL) : "none";

  if (g_str_equal (text, "bad"))
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED, "It went wrong.");
      return NULL;
    }
  return g_strdup (text);
}

static gpointer
touch_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  return NULL;
}

static void
touch (HsLedger *ledger)
{
  hs_ledger_write_async (ledger, touch_func, NULL, NULL, FALSE, NULL, NULL);
  hs_ledger_wait (ledger);
}

static void
test_late_answers_are_dropped (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsQuery) query = hs_query_new (book->ledger, echo_func, g_free);
  int n_answered = 0;

  g_signal_connect (query, "answered", G_CALLBACK (count_cb), &n_answered);
  hs_query_ask (query, g_variant_new_string ("0"));
  hs_query_ask (query, g_variant_new_string ("01"));
  hs_query_ask (query, g_variant_new_string ("012"));
  g_assert_true (hs_query_is_asking (query));
  g_assert_null (hs_query_get (query));
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 1);
  g_assert_cmpstr (hs_query_get (query), ==, "012");
  g_assert_false (hs_query_is_asking (query));
}

static void
test_failure_keeps_the_answer (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsQuery) query = hs_query_new (book->ledger, echo_func, g_free);

  hs_query_ask (query, g_variant_new_string ("good"));
  hs_ledger_wait (book->ledger);
  hs_query_ask (query, g_variant_new_string ("bad"));
  hs_ledger_wait (book->ledger);
  g_assert_cmpstr (hs_query_get (query), ==, "good");
  g_assert_cmpstr (hs_query_get_trouble (query), ==, "It went wrong.");
  hs_query_ask (query, g_variant_new_string ("better"));
  hs_ledger_wait (book->ledger);
  g_assert_null (hs_query_get_trouble (query));
  g_assert_cmpstr (hs_query_get (query), ==, "better");
}

static void
test_follows_the_book_only_awake (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsQuery) query = hs_query_new (book->ledger, echo_func, g_free);
  int n_answered = 0;

  g_signal_connect (query, "answered", G_CALLBACK (count_cb), &n_answered);
  touch (book->ledger);
  g_assert_cmpint (n_answered, ==, 0);
  hs_query_ask (query, NULL);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 1);
  touch (book->ledger);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 2);

  hs_query_set_awake (query, FALSE);
  touch (book->ledger);
  touch (book->ledger);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 2);
  hs_query_set_awake (query, TRUE);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 3);
  hs_query_set_awake (query, TRUE);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 3);
}

static void
test_forget (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsQuery) query = hs_query_new (book->ledger, echo_func, g_free);
  int n_answered = 0;

  g_signal_connect (query, "answered", G_CALLBACK (count_cb), &n_answered);
  hs_query_ask (query, NULL);
  hs_query_forget (query);
  hs_ledger_wait (book->ledger);
  touch (book->ledger);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 0);
  g_assert_null (hs_query_get_snapshot (query));
}

#define ADD(name, func) g_test_add (name, ModelBook, NULL, model_book_open, func, model_book_close)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/query/late-answers-are-dropped", test_late_answers_are_dropped);
  ADD ("/query/failure-keeps-the-answer", test_failure_keeps_the_answer);
  ADD ("/query/follows-the-book-only-awake", test_follows_the_book_only_awake);
  ADD ("/query/forget", test_forget);
  return g_test_run ();
}
