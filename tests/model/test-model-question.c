// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* HsQuestion: newest question wins, sleeps off the screen, keeps the last good answer. */

#include "hs-ask.h"
#include "hs-deed.h"
#include "hs-question.h"
#include "model-book.h"

static void
count_cb (HsQuestion *question, gpointer data)
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
  g_autoptr (HsQuestion) question = hs_question_new (book->ledger, echo_func, g_free);
  int n_answered = 0;

  g_signal_connect (question, "answered", G_CALLBACK (count_cb), &n_answered);
  hs_question_ask (question, g_variant_new_string ("0"));
  hs_question_ask (question, g_variant_new_string ("01"));
  hs_question_ask (question, g_variant_new_string ("012"));
  g_assert_true (hs_question_is_asking (question));
  g_assert_null (hs_question_get (question));
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 1);
  g_assert_cmpstr (hs_question_get (question), ==, "012");
  g_assert_false (hs_question_is_asking (question));
}

static void
test_failure_keeps_the_answer (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsQuestion) question = hs_question_new (book->ledger, echo_func, g_free);

  hs_question_ask (question, g_variant_new_string ("good"));
  hs_ledger_wait (book->ledger);
  hs_question_ask (question, g_variant_new_string ("bad"));
  hs_ledger_wait (book->ledger);
  g_assert_cmpstr (hs_question_get (question), ==, "good");
  g_assert_cmpstr (hs_question_get_trouble (question), ==, "It went wrong.");
  hs_question_ask (question, g_variant_new_string ("better"));
  hs_ledger_wait (book->ledger);
  g_assert_null (hs_question_get_trouble (question));
  g_assert_cmpstr (hs_question_get (question), ==, "better");
}

static void
test_follows_the_book_only_awake (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsQuestion) question = hs_question_new (book->ledger, echo_func, g_free);
  int n_answered = 0;

  g_signal_connect (question, "answered", G_CALLBACK (count_cb), &n_answered);
  touch (book->ledger);
  g_assert_cmpint (n_answered, ==, 0);
  hs_question_ask (question, NULL);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 1);
  touch (book->ledger);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 2);

  hs_question_set_awake (question, FALSE);
  touch (book->ledger);
  touch (book->ledger);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 2);
  hs_question_set_awake (question, TRUE);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 3);
  hs_question_set_awake (question, TRUE);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 3);
}

static void
test_forget (ModelBook *book, gconstpointer data)
{
  g_autoptr (HsQuestion) question = hs_question_new (book->ledger, echo_func, g_free);
  int n_answered = 0;

  g_signal_connect (question, "answered", G_CALLBACK (count_cb), &n_answered);
  hs_question_ask (question, NULL);
  hs_question_forget (question);
  /* Nobody hears of it any more, so that nobody may wait for it. */
  g_assert_false (hs_question_is_asking (question));
  hs_ledger_wait (book->ledger);
  touch (book->ledger);
  hs_ledger_wait (book->ledger);
  g_assert_cmpint (n_answered, ==, 0);
  g_assert_null (hs_question_get_snapshot (question));
}

#define ADD(name, func) g_test_add (name, ModelBook, NULL, model_book_open, func, model_book_close)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/question/late-answers-are-dropped", test_late_answers_are_dropped);
  ADD ("/question/failure-keeps-the-answer", test_failure_keeps_the_answer);
  ADD ("/question/follows-the-book-only-awake", test_follows_the_book_only_awake);
  ADD ("/question/forget", test_forget);
  return g_test_run ();
}
