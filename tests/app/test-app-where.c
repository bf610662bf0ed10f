// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* "Where was I": the pane and the field that the owner was in last, whatever was stored last, after a kill and after
 * squaring too. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-demo.h"
#include "hs-field-row.h"
#include "hs-identify-card.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-job-page.h"
#include "hs-shop.h"
#include "hs-square-window.h"

/* "A-0022 bill ." */
static char *
dup_where (AppBook *book)
{
  g_autoptr (HsQuestion) asked = hs_question_new (book->ledger, hs_ask_where, (GDestroyNotify) hs_where_free);
  const HsWhere *where;

  app_book_settle (book);
  hs_question_ask (asked, NULL);
  app_book_settle (book);
  where = hs_question_get (asked);
  return where != NULL ? g_strdup_printf ("%s %s %s", where->job_number, where->page, where->field) : g_strdup ("none");
}

static void
assert_where (AppBook *book, const char *expected)
{
  g_autofree char *where = dup_where (book);

  g_assert_cmpstr (where, ==, expected);
}

static const char *
shown_tab (AppBook *book)
{
  return gtk_stack_get_visible_child_name (hs_job_page_get_stack (HS_JOB_PAGE (hs_window_get_job (book->window))));
}

static void
turn_tabs (AppBook *book, guint n)
{
  for (guint i = 0; i < n; i++)
    app_book_press (book, GDK_KEY_Page_Down);
  app_book_settle (book);
}

/* A reading was stored, then the bill was opened: the bill it is, with F2 and on the bar. */
static void
test_pane (AppBook *book, gconstpointer data)
{
  app_book_open_job (book, "A-0022", "findings");
  app_book_type (book, "1" "1242\n");
  turn_tabs (book, 2);
  g_assert_cmpstr (shown_tab (book), ==, "bill");
  assert_where (book, "A-0022 bill .");
  app_book_show (book, "jobs");
  assert_where (book, "A-0022 bill left:.");
  g_assert_true (hs_app_test_says (GTK_WIDGET (book->window), "A-0022 · Bill"));
  app_book_press (book, GDK_KEY_F2);
  hs_app_test_wait (hs_window_get_job (book->window) != NULL
                    && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
  app_book_settle (book);
  g_assert_cmpstr (shown_tab (book), ==, "bill");
}

/* Killed there, it reopens there. */
static void
test_reopens (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *page, *field, *tab, *face;
  } rows[] = {
    { "bill", HS_WHERE_HERE, "bill", NULL },     { "choices", HS_WHERE_HERE, "choices", NULL },
    { "after", HS_WHERE_HERE, "after", NULL },   { "photos", HS_WHERE_HERE, "findings", "photos" },
    { "why", HS_WHERE_HERE, "findings", "why" }, { "call", "id:vin", "call", NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsBookUser user = { "halfshaft", "here", 1, hs_demo_get_now () };
      HsJobPage *page;

      app_book_close_window (book);
      {
        g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
        g_autofree char *job_id = hs_job_find (other, "A-0024", NULL);

        g_assert_true (hs_where_visit (other, job_id, rows[i].page, rows[i].field, hs_demo_get_now (), NULL));
      }
      app_book_open_window (book);
      hs_app_test_wait (hs_window_get_job (book->window) != NULL
                        && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
      page = HS_JOB_PAGE (hs_window_get_job (book->window));
      g_assert_cmpstr (hs_job_page_get_number (page), ==, "A-0024");
      g_assert_cmpstr (shown_tab (book), ==, rows[i].tab);
      g_assert_cmpstr (hs_job_page_get_face (page), ==, rows[i].face);
    }
}

static HsFieldRow *
find_row (GtkWidget *widget, const char *id)
{
  for (GtkWidget *at = gtk_widget_get_first_child (widget); at != NULL; at = gtk_widget_get_next_sibling (at))
    {
      HsFieldRow *row = HS_IS_FIELD_ROW (at) && g_str_equal (hs_field_row_get_id (HS_FIELD_ROW (at)), id)
                            ? HS_FIELD_ROW (at) : find_row (at, id);

      if (row != NULL)
        return row;
    }
  return NULL;
}

/* The field that has the cursor, though another was stored last; and the cursor comes back to it. */
static void
test_field (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkWidget *card = hs_app_test_find (page, HS_TYPE_IDENTIFY_CARD);

  gtk_widget_grab_focus (GTK_WIDGET (find_row (card, "vin")));
  app_book_type (book, "042788\n");
  assert_where (book, "A-0021 call id:odometer");
  app_book_show (book, "jobs");
  app_book_press (book, GDK_KEY_F2);
  hs_app_test_wait (hs_window_get_job (book->window) != NULL
                    && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
  app_book_settle (book);
  page = hs_window_get_job (book->window);
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (book->window)),
                                         GTK_WIDGET (find_row (page, "odometer"))));
}

/* A job that is only looked at takes nothing away; what is half typed is where one goes back to. */
static void
test_glance (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");

  gtk_widget_grab_focus (GTK_WIDGET (find_row (page, "odometer")));
  app_book_type (book, "1045");
  app_book_show (book, "jobs");
  assert_where (book, "A-0021 call id:odometer");
  app_book_open_job (book, "A-0024", "findings");
  app_book_press (book, GDK_KEY_Escape);
  app_book_show (book, "jobs");
  assert_where (book, "A-0021 call id:odometer");
}

/* What was interrupted and gone back to is interrupted still, however often one only looks at it. */
static void
test_gone_back_to (AppBook *book, gconstpointer data)
{
  for (guint i = 0; i < 3; i++)
    {
      app_book_show (book, "jobs");
      app_book_press (book, GDK_KEY_F2);
      hs_app_test_wait (hs_window_get_job (book->window) != NULL
                        && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
      app_book_settle (book);
      g_assert_cmpstr (hs_job_page_get_number (HS_JOB_PAGE (hs_window_get_job (book->window))), ==, "A-0026");
    }
}

/* Squared by the keys of its bill, it is still the place: nothing jumps to the job that was left half typed before. */
static void
test_squared (AppBook *book, gconstpointer data)
{
  HsBookUser user = { "halfshaft", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *job_id = hs_job_find (other, "A-0022", NULL);
  HsInstant at = hs_demo_get_now () + 27 * 60;
  GtkWidget *page;

  g_assert_true (hs_job_move_stage (other, job_id, HS_STAGE_ROLLING, NULL, at, NULL));
  g_assert_true (hs_job_move_stage (other, job_id, HS_STAGE_ON_SITE, NULL, at, NULL));
  g_assert_true (hs_go_ahead_add (other, job_id, 20000, "Rue Abernant", "in_person", at, NULL));
  g_assert_true (hs_job_move_stage (other, job_id, HS_STAGE_PROVEN, "customer drove off", at + 1800, NULL));
  page = app_book_open_job (book, "A-0021", "call");
  gtk_widget_grab_focus (GTK_WIDGET (find_row (page, "odometer")));
  app_book_type (book, "1045");
  app_book_open_job (book, "A-0022", "choices");
  turn_tabs (book, 1);
  app_book_keys (book, "13\n");
  hs_app_test_wait (hs_app_test_says_part (hs_window_get_job (book->window), "Paid: cash"));
  assert_where (book, "A-0022 bill .");
  app_book_type (book, "1");
  app_book_press (book, GDK_KEY_Escape);
  assert_where (book, "A-0022 bill .");
  app_book_show (book, "jobs");
  assert_where (book, "A-0022 bill left:.");
}

/* Half typed and killed: the cursor is behind what was typed, and the next key writes nothing over. */
static void
test_half_typed (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  GtkEditable *at;

  gtk_widget_grab_focus (GTK_WIDGET (find_row (page, "odometer")));
  app_book_type (book, "1045");
  hs_draft_flush (hs_shop_get_draft (hs_shop_of (book->window)));
  app_book_settle (book);
  app_book_close_window (book);
  app_book_open_window (book);
  hs_app_test_wait (hs_window_get_job (book->window) != NULL
                    && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
  app_book_settle (book);
  at = GTK_EDITABLE (gtk_root_get_focus (GTK_ROOT (book->window)));
  g_assert_true (gtk_widget_is_ancestor (GTK_WIDGET (at),
                                         GTK_WIDGET (find_row (hs_window_get_job (book->window), "odometer"))));
  g_assert_false (gtk_editable_get_selection_bounds (at, NULL, NULL));
  app_book_type (book, "7");
  g_assert_cmpstr (gtk_editable_get_text (at), ==, "10457");
}

/* Squared up from another tab, the page goes on to the bill, where it is paid; F2 stays there. */
static void
test_squared_elsewhere (AppBook *book, gconstpointer data)
{
  HsBookUser user = { "halfshaft", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *job_id = hs_job_find (other, "A-0022", NULL);
  HsInstant at = hs_demo_get_now () + 27 * 60;

  g_assert_true (hs_job_move_stage (other, job_id, HS_STAGE_ROLLING, NULL, at, NULL));
  g_assert_true (hs_job_move_stage (other, job_id, HS_STAGE_ON_SITE, NULL, at, NULL));
  g_assert_true (hs_go_ahead_add (other, job_id, 20000, "Rue Abernant", "in_person", at, NULL));
  g_assert_true (hs_job_move_stage (other, job_id, HS_STAGE_PROVEN, "customer drove off", at + 1800, NULL));
  g_assert_true (hs_job_price (other, job_id, NULL, at + 1800, NULL));
  app_book_open_job (book, "A-0022", "choices");
  app_book_press (book, GDK_KEY_F4);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_SQUARE_WINDOW) != NULL);
  app_book_settle (book);
  app_book_keys (book, "\n");
  hs_app_test_wait (hs_app_test_window (HS_TYPE_SQUARE_WINDOW) == NULL);
  hs_app_test_wait (g_strcmp0 (shown_tab (book), "bill") == 0);
  app_book_settle (book);
  assert_where (book, "A-0022 bill .");
  app_book_press (book, GDK_KEY_F2);
  app_book_settle (book);
  g_assert_cmpstr (shown_tab (book), ==, "bill");
}

#define ADD(name, func) g_test_add ("/where/" name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char **argv)
{
  hs_app_test_init (&argc, &argv);
  ADD ("pane", test_pane);
  ADD ("reopens", test_reopens);
  ADD ("field", test_field);
  ADD ("glance", test_glance);
  ADD ("gone-back-to", test_gone_back_to);
  ADD ("half-typed", test_half_typed);
  ADD ("squared", test_squared);
  ADD ("squared-elsewhere", test_squared_elsewhere);
  return g_test_run ();
}
