// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A whole visit by keyboard alone, from the drive to the receipt, with the presses counted: A-0024, flat every week. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-job-page.h"

#include <string.h>

/* Down or up the sheet to a check, as far as it is. */
static guint
go_to (AppBook *book, const char *check)
{
  HsFindings *findings = hs_job_page_get_findings (HS_JOB_PAGE (hs_window_get_job (book->window)));
  guint n = 0;

  for (guint keyval = GDK_KEY_Down; n < 40; n++)
    {
      g_autofree char *field = hs_findings_dup_field (findings), *after = NULL;

      if (g_str_has_prefix (field, check))
        return n;
      app_book_press (book, keyval);
      after = hs_findings_dup_field (findings);
      if (g_str_equal (field, after))
        keyval = GDK_KEY_Up;
    }
  g_assert_not_reached ();
}

static char *
dup_end (AppBook *book)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_READ, &user, NULL);
  g_autofree char *id = hs_job_find (other, "A-0024", NULL);
  g_autoptr (HsJobView) view = hs_job_view_load (other, id, hs_demo_get_now (), NULL);

  return g_strdup_printf ("%s, %u readings, %u because, %u go-ahead, %" G_GINT64_FORMAT " of %" G_GINT64_FORMAT,
                          hs_stage_id (view->tag->stage), view->readings->len, view->because->len,
                          view->go_aheads->len, view->paid_cents, view->net_cents + view->tax_cents);
}

static void
test_visit (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *what;
    const char *keys;
    const char *check; /* (nullable): the line that is gone to before them */
  } parts[] = {
    { "on the way although another is promised, arrived, safe", "F41F46\n", NULL },
    { "the complaint's sheet, the battery", "^21242\n", NULL },
    { "what it draws, 0.310 A", "310\n", "sleeping_draw" },
    { "why it failed", "F9\ntracker draws\n3at its fuse\n7", NULL },
    { "the draw again afterwards, 0.024 A", "F9F9++", NULL },
    { "what it draws now", "24\n", "sleeping_draw" },
    { "up to 200.00, says the customer by phone", "^/4.200\n", NULL },
    { "tested good, although not tried again", "F4F4", NULL },
    { "priced, squared up, paid in cash", "^13\n1\n", NULL },
  };
  guint total = 0;
  g_autofree char *end = NULL;

  app_book_open_job (book, "A-0024", "call");
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      guint n = parts[i].check != NULL ? go_to (book, parts[i].check) : 0;

      n += app_book_keys (book, parts[i].keys);
      g_test_message ("%3u presses: %s", n, parts[i].what);
      total += n;
    }
  g_test_message ("%3u presses for the whole visit, %u of them letters", total,
                  (guint) (strlen ("tracker draws") + strlen ("at its fuse")));
  end = dup_end (book);
  g_assert_cmpstr (end, ==, "squared, 3 readings, 1 because, 1 go-ahead, 6000 of 6000");
  g_assert_cmpuint (total, <=, 90);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/visit/a-0024", test_visit);
  return g_test_run ();
}
