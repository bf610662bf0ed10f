// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Why it failed, in a window, by keyboard alone: the chain of a past job as it is drawn and told, a new one from the
 * first cause to its ends, what the rules refuse and in which words, and the questions that are asked again. */

#include <string.h>

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-chain-pane.h"
#include "hs-chain-view.h"
#include "hs-deed.h"
#include "hs-job-page.h"

static HsChainPane *
open_why (AppBook *book, const char *number)
{
  return HS_CHAIN_PANE (hs_app_test_find (app_book_open_job (book, number, "why"), HS_TYPE_CHAIN_PANE));
}

static HsChainView *
view_of (HsChainPane *pane)
{
  return HS_CHAIN_VIEW (hs_app_test_find (GTK_WIDGET (pane), HS_TYPE_CHAIN_VIEW));
}

static void
assert_says (gpointer widget, const char *text)
{
  if (!hs_app_test_says_part (GTK_WIDGET (widget), text))
    g_error ("not shown: %s", text);
}



static void
test_past_job (AppBook *book, gconstpointer data)
{
  HsChainPane *pane = open_why (book, "A-0013");

  g_assert_cmpuint (hs_chain_view_get_n_rows (view_of (pane)), ==, 7);
  assert_says (pane, "3 ends, all settled");
  hs_app_test_picture (GTK_WIDGET (book->window), "chain-a13");
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/chain/past-job", test_past_job);
  return g_test_run ();
}
