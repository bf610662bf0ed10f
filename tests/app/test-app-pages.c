// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The pages on the demo book: the owner's stories by keyboard, with their figures. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-battery-card.h"
#include "hs-call-form.h"
#include "hs-call-slip-window.h"
#include "hs-demo.h"
#include "hs-findings.h"
#include "hs-gauge.h"
#include "hs-job-op.h"
#include "hs-job-page.h"
#include "hs-page.h"
#include "hs-room.h"
#include "hs-run-line.h"
#include "hs-run-slip.h"
#include "hs-settings-op.h"
#include "hs-shop.h"
#include "hs-squeeze-window.h"
#include "hs-tag.h"
#include "hs-why-window.h"

#define BAR_PX 50 /* a header or a footer has at least this */

static const char *const views[] = { "jobs", "today", "parts", "vehicles", "money" };

static void
assert_says (GtkWidget *widget, const char *const *texts)
{
  for (guint i = 0; texts[i] != NULL; i++)
    if (!hs_app_test_says_part (widget, texts[i]))
      {
        g_test_message ("not shown: %s", texts[i]);
        g_test_fail ();
      }
}

#define ASSERT_SAYS(widget, ...) assert_says (widget, (const char *const[]) { __VA_ARGS__, NULL })

static void
test_views_are_filled (AppBook *book, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    {
      GtkWidget *page = app_book_show (book, views[i]);

      g_assert_true (HS_IS_PAGE (page));
      g_assert_cmpstr (hs_window_get_page (book->window), ==, views[i]);
      g_assert_nonnull (hs_app_test_find (page, GTK_TYPE_LABEL));
    }
}

/* A page that asks for more height than there is pushes the tabs, or the bar with the keys, out of the window. */
static void
test_fits_low_windows (AppBook *book, gconstpointer data)
{
  static const struct
  {
    int width, height;
  } rows[] = { { 360, 700 }, { 1024, 600 } };
  static const char *const tabs[] = { "call", "findings", "choices", "bill", "after" };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gtk_window_set_default_size (GTK_WINDOW (book->window), rows[i].width, rows[i].height);
      hs_app_test_wait (gtk_widget_get_height (GTK_WIDGET (book->window)) == rows[i].height);
      for (guint j = 0; j < G_N_ELEMENTS (tabs); j++)
        {
          GtkWidget *page = app_book_open_job (book, "A-0014", tabs[j]);

          app_book_settle (book);
          hs_app_test_wait (gtk_widget_get_height (page) > 1);
          g_test_message ("%s: page of %d px in %d px", tabs[j], gtk_widget_get_height (page), rows[i].height);
          g_assert_cmpint (gtk_widget_get_height (page), <=, rows[i].height - 2 * BAR_PX);
        }
    }
}

static void
test_fits_a_phone (AppBook *book, gconstpointer data)
{
  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 700);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    {
      GtkWidget *page = app_book_show (book, views[i]);
      int least;

      gtk_widget_measure (page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      g_test_message ("%s: %d px", views[i], least);
      if (least > 360)
        g_test_fail ();
    }
  {
    GtkWidget *page = app_book_show (book, "vehicles");
    int least;

    /* With a vehicle open instead of the hits. */
    app_book_type (book, "0121\n");
    gtk_widget_measure (page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
    g_test_message ("vehicle: %d px", least);
    if (least > 360)
      g_test_fail ();
  }
  for (guint i = 0; i < 3; i++)
    {
      static const char *const tabs[] = { "call", "findings", "after" };
      GtkWidget *page = app_book_open_job (book, "A-0014", tabs[i]);
      int least;

      gtk_widget_measure (page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      g_test_message ("%s: %d px", tabs[i], least);
      if (least > 360)
        g_test_fail ();
    }
}

/* The window as a whole, bars included, at the size of a small laptop: what needs more would be cut off. */
static void
assert_least_width (AppBook *book, const char *what, int most)
{
  GtkWidget *content = gtk_widget_get_first_child (hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_ROOM));
  int least;

  app_book_settle (book);
  gtk_widget_measure (content, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_test_message ("%s: %d px", what, least);
  if (least > most)
    g_test_fail ();
}

static void
test_fits_a_small_laptop (AppBook *book, gconstpointer data)
{
  static const char *const tabs[] = { "call", "findings", "choices", "bill", "after" };

  GtkSettings *settings = gtk_settings_get_default ();
  g_autofree char *layout = NULL;

  /* Some desks have three buttons in the bar. */
  g_object_get (settings, "gtk-decoration-layout", &layout, NULL);
  g_object_set (settings, "gtk-decoration-layout", ":minimize,maximize,close", NULL);
  gtk_window_set_default_size (GTK_WINDOW (book->window), 1024, 600);
  hs_app_test_wait (hs_window_get_cramped (book->window));
  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    {
      app_book_show (book, views[i]);
      assert_least_width (book, views[i], 1024);
    }
  app_book_show (book, "vehicles");
  app_book_type (book, "0121\n");
  assert_least_width (book, "vehicle", 1024);
  for (guint i = 0; i < G_N_ELEMENTS (tabs); i++)
    {
      app_book_open_job (book, "A-0014", tabs[i]);
      assert_least_width (book, tabs[i], 1024);
    }
  g_object_set (settings, "gtk-decoration-layout", layout, NULL);
}

/* Text of twice the size leaves half the room, and between a phone and a laptop there are all widths. */
static void
test_fits_large_text (AppBook *book, gconstpointer data)
{
  static const struct
  {
    int width, dpi;
  } rows[] = { { 1280, 192 }, { 1280, 144 }, { 720, 96 }, { 880, 96 }, { 960, 96 } };
  GtkSettings *settings = gtk_settings_get_default ();
  g_autofree char *font = NULL;
  int dpi;

  g_object_get (settings, "gtk-font-name", &font, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-font-name", "Cantarell 10", NULL);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_object_set (settings, "gtk-xft-dpi", rows[i].dpi * 1024, NULL);
      gtk_window_set_default_size (GTK_WINDOW (book->window), rows[i].width, 800);
      hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == rows[i].width);
      for (guint j = 0; j < G_N_ELEMENTS (views); j++)
        {
          app_book_show (book, views[j]);
          hs_app_test_frames ();
          g_test_message ("%d dpi, %d px", rows[i].dpi, rows[i].width);
          assert_least_width (book, views[j], rows[i].width);
        }
      app_book_show (book, "today");
      hs_app_test_picture (GTK_WIDGET (book->window), rows[i].dpi == 192 ? "today-200" : "today-100");
    }
  g_object_set (settings, "gtk-font-name", font, "gtk-xft-dpi", dpi, NULL);
}

/* Story 1: 0, 1, 2, 1, Enter. */
static void
test_which_battery (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "vehicles");

  g_assert_cmpuint (app_book_type (book, "0121\n"), ==, 5);
  ASSERT_SAYS (page, "TDM 8816", "Vostle Crag", "29", "installed 2023-10-05", "55 Ah", "flooded", "we installed it",
               "A-0002", "Cover ended 2025-10-05");
}

/* Story 2: the past owner's number finds both vehicles; whose it is now is not told, and the other way round. */
static void
test_history_follows_the_vehicle (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "vehicles");

  app_book_type (book, "0118");
  ASSERT_SAYS (page, "TDM 1216", "until 2025-08-17");
  app_book_press (book, GDK_KEY_Escape);
  app_book_type (book, "0121\n");
  ASSERT_SAYS (page, "New owner: Rue Abernant");
  g_assert_false (hs_app_test_says_part (hs_app_test_find (page, GTK_TYPE_STACK), "Jory"));
}

static void
test_digits_from_anywhere (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "vehicles");
  GtkWidget *list = hs_app_test_find (page, GTK_TYPE_LIST_BOX);

  gtk_widget_child_focus (list, GTK_DIR_TAB_FORWARD);
  app_book_type (book, "zzzz");
  ASSERT_SAYS (page, "Nothing matches");
}

static GtkWidget *
focus_of (AppBook *book)
{
  return gtk_window_get_focus (GTK_WINDOW (book->window));
}

/* Enter goes into the history of what was found, with a line around it; Esc goes back to the words, Esc again clears
 * them. The line of history opens its job. */
static void
test_enter_opens (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "vehicles"), *entry = hs_app_test_find (page, GTK_TYPE_ENTRY);

  app_book_type (book, "0121\n");
  hs_app_test_wait (hs_app_test_says (page, "TDM 8816"));
  app_book_settle (book);
  g_assert_true (GTK_IS_LIST_BOX_ROW (focus_of (book)));
  g_assert_true (hs_app_test_says_part (focus_of (book), "A-0002")
                 || hs_app_test_says_part (gtk_widget_get_parent (focus_of (book)), "A-0002"));
  g_assert_true (gtk_window_get_focus_visible (GTK_WINDOW (book->window)));
  hs_app_test_picture (GTK_WIDGET (book->window), "vehicles-history");
  app_book_press (book, GDK_KEY_Escape);
  g_assert_true (gtk_widget_is_ancestor (focus_of (book), entry));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "0121");
  app_book_press (book, GDK_KEY_Escape);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "");
}

/* Words without a hit leave nobody's card behind, and say so. */
static void
test_no_hit_no_card (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "vehicles");

  app_book_type (book, "0121");
  hs_app_test_wait (hs_app_test_says (page, "TDM 8816"));
  app_book_type (book, "9999");
  hs_app_test_wait (hs_app_test_says_part (page, "Nothing matches"));
  app_book_settle (book);
  g_assert_false (gtk_widget_get_mapped (hs_app_test_find (page, HS_TYPE_BATTERY_CARD)));
  /* The same vehicle found again has its card again. */
  app_book_press (book, GDK_KEY_Escape);
  app_book_type (book, "0121");
  hs_app_test_wait (gtk_widget_get_mapped (hs_app_test_find (page, HS_TYPE_BATTERY_CARD)));
}

/* Story 5. */
static void
test_day_figures (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  ASSERT_SAYS (page, "08:31", "16:20", "81", "33.3 mi", "35", "A-0022", "764.39", "leave, in 39 min");
}

static guint
count_said (GtkWidget *widget, const char *text)
{
  guint n = GTK_IS_LABEL (widget) && gtk_widget_is_visible (widget)
            && strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_said (child, text);
  return n;
}

/* A-0024 first starts at 13:00 and takes 90 min; Quayside is 15 min away: 14:45, 4 h 15 min after 10:30. */
static void
test_why_this_order (AppBook *book, gconstpointer data)
{
  g_autoptr (HsDayPlan) plan = NULL;
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_READ, &user, NULL);
  GtkWidget *why;

  app_book_show (book, "today");
  plan = hs_day_plan_make (other, hs_ledger_get_today (book->ledger), NULL, HS_INSTANT_NONE, NULL);
  why = GTK_WIDGET (hs_why_window_present (GTK_WINDOW (book->window), book->ledger, plan));
  app_book_settle (book);
  ASSERT_SAYS (why, "Leave 08:31, home 16:20", "No cheaper order keeps every promise",
               "Tightest promise: A-0022, with 35 min to spare.", "1. Larch & Weir", "08:38", "8. A-0026", "15:23",
               "102 min spare");
  ASSERT_SAYS (why, "A-0024 first", "A-0022 4 h 15 min late, ", "breaks a promise", "Without Kingpost Parts Counter",
               "no other counter has its parts in time");
  g_assert_false (hs_app_test_says_part (why, "cannot be kept"));
  gtk_window_destroy (GTK_WINDOW (why));
}

/* The break of 25 min at 09:00 is best had at Larch, 3 min from A-0021: that starts at 09:28, A-0022 an hour and 6 min
 * later, 4 min after 10:30. */
static void
test_why_impossible (AppBook *book, gconstpointer data)
{
  static const char *const rules[][2]
      = { { "break_minutes", "25" }, { "break_from", "09:00" }, { "break_to", "09:25" } };
  g_autoptr (HsDayPlan) plan = NULL;
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  GtkWidget *why;

  app_book_show (book, "today");
  for (guint i = 0; i < G_N_ELEMENTS (rules); i++)
    g_assert_true (hs_settings_set (other, rules[i][0], rules[i][1], hs_demo_get_now (), NULL));
  plan = hs_day_plan_make (other, hs_ledger_get_today (book->ledger), NULL, HS_INSTANT_NONE, NULL);
  why = GTK_WIDGET (hs_why_window_present (GTK_WINDOW (book->window), book->ledger, plan));
  app_book_settle (book);
  ASSERT_SAYS (why, "This one breaks the least", "A-0022", "4 min late",
               "A-0022, A-0021 and the break can't all be met");
  /* Boxed above, and at its stop. */
  g_assert_cmpuint (count_said (why, "4 min late"), ==, 2);
  gtk_window_destroy (GTK_WINDOW (why));
}

/* The key * shows the day of the second van, and then the first one's again. */
static void
test_each_van (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  ASSERT_SAYS (page, "Van A", "764.39");
  app_book_press (book, GDK_KEY_asterisk);
  app_book_settle (book);
  ASSERT_SAYS (page, "Van B", "Nothing is promised for van B on this day");
  app_book_press (book, GDK_KEY_KP_Multiply);
  app_book_settle (book);
  ASSERT_SAYS (page, "Van A", "764.39");
}

static void
test_lock_and_replan (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  app_book_press (book, GDK_KEY_0);
  app_book_settle (book);
  ASSERT_SAYS (page, "Planned anew: nothing is better. Once accepted, this order stands.", "Accept");
  g_assert_false (hs_app_test_says_part (page, "Keep the Old"));
  hs_app_test_picture (GTK_WIDGET (book->window), "nothing-better");
  g_assert_true (gtk_widget_activate_action (page, "page.accept", NULL));
  app_book_settle (book);
  g_assert_false (hs_app_test_says_part (page, "Planned anew"));
  /* Nothing is better than what was accepted: told, and nothing is asked. */
  for (guint i = 0; i < 2; i++)
    {
      app_book_press (book, GDK_KEY_0);
      app_book_settle (book);
      g_assert_false (hs_app_test_says_part (page, "Planned anew"));
      g_assert_false (hs_app_test_says_part (page, "Accept"));
      ASSERT_SAYS (GTK_WIDGET (book->window), "Planned anew: nothing is better, the order stays as it is.");
      ASSERT_SAYS (page, "764.39");
    }
  g_assert_true (gtk_widget_activate_action (page, "page.lock", NULL));
  app_book_settle (book);
  ASSERT_SAYS (page, "764.39");
}

static void
test_other_days (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  g_assert_true (gtk_widget_activate_action (page, "page.next-day", NULL));
  app_book_settle (book);
  ASSERT_SAYS (page, "Wednesday, March 11, 2026", "Nothing is promised for van A on this day");
  g_assert_true (gtk_widget_activate_action (page, "page.previous-day", NULL));
  app_book_settle (book);
  ASSERT_SAYS (page, "764.39");
}

/* Story 8. */
static void
test_parts_run (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "parts");
  GtkWidget *larch = hs_app_test_find (page, HS_TYPE_RUN_SLIP);
  GtkWidget *kingpost = gtk_widget_get_next_sibling (larch);
  GtkWidget *line;

  ASSERT_SAYS (page, "127.50", "278.00", "63.00");
  ASSERT_SAYS (larch, "Larch & Weir", "Old Market · 08:38", "118.00", "45.00", "163.00");
  ASSERT_SAYS (kingpost, "Kingpost", "160.00", "36.00", "46.50", "178.00", "82.50");

  g_assert_cmpuint (count_said (larch, "38 % sure"), ==, 1);
  line = hs_app_test_find (larch, HS_TYPE_RUN_LINE);
  g_assert_false (hs_run_line_get_ticked (HS_RUN_LINE (line)));
  gtk_widget_child_focus (line, GTK_DIR_TAB_FORWARD);
  app_book_press (book, GDK_KEY_KP_Add);
  app_book_settle (book);
  line = hs_app_test_find (hs_app_test_find (page, HS_TYPE_RUN_SLIP), HS_TYPE_RUN_LINE);
  g_assert_true (hs_run_line_get_ticked (HS_RUN_LINE (line)));
}

/* Story 9: six readings of a no-start in at most 40 presses. */
static void
test_findings_by_number_pad (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0022", "findings");
  GtkWidget *findings = GTK_WIDGET (hs_job_page_get_findings (HS_JOB_PAGE (page)));
  guint presses;

  ASSERT_SAYS (findings, "What does it do, or not do?");
  presses = app_book_type (book, "1");
  ASSERT_SAYS (findings, "Battery at rest");
  app_book_type (book, "1242");
  ASSERT_SAYS (findings, "12.42", "within", "71 %");
  presses += 4 + app_book_type (book, "\n");
  ASSERT_SAYS (findings, "12.42");
  g_assert_cmpstr (hs_findings_get_text (HS_FINDINGS (findings)), ==, "");
  presses += app_book_type (book, "221\n" "890\n" "31\n" "12\n" "186\n");
  g_test_message ("%u presses", presses);
  g_assert_cmpuint (presses, <=, 40);
  {
    g_autofree char *field = hs_findings_dup_field (HS_FINDINGS (findings));
    HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
    g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_READ, &user, NULL);
    g_autofree char *id = hs_job_find (other, "A-0022", NULL);
    g_autoptr (GPtrArray) sheet = hs_job_sheet (other, id, "before", hs_demo_get_now (), NULL);
    guint stored = 0;

    for (guint i = 0; i < sheet->len; i++)
      stored += ((HsReadingResult *) g_ptr_array_index (sheet, i))->value_text != NULL;
    g_assert_cmpuint (stored, ==, 6);
    g_assert_nonnull (field);
  }
}

/* On a battery's gauge the decision is what is seen: neither a dead cell's limits nor a reading far off take its
 * room. */
static void
test_gauge_shows_the_limits (AppBook *book, gconstpointer data)
{
  static const char *const typed[] = { "", "1242", "123", "9999" };
  GtkWidget *page = app_book_open_job (book, "A-0022", "findings");
  HsGauge *gauge;

  app_book_type (book, "1");
  gauge = HS_GAUGE (hs_app_test_find (page, HS_TYPE_GAUGE));
  for (guint i = 0; i < G_N_ELEMENTS (typed); i++)
    {
      app_book_type (book, typed[i]);
      g_test_message ("“%s”: 12.20 at %.2f, 12.40 at %.2f", typed[i], hs_gauge_get_fraction (gauge, 12.2),
                      hs_gauge_get_fraction (gauge, 12.4));
      g_assert_cmpfloat (hs_gauge_get_fraction (gauge, 12.2), >, 0.02);
      g_assert_cmpfloat (hs_gauge_get_fraction (gauge, 12.4) - hs_gauge_get_fraction (gauge, 12.2), >, 0.05);
      g_assert_cmpfloat (hs_gauge_get_fraction (gauge, 12.4), <, 0.8);
      for (guint n = strlen (typed[i]); n > 0; n--)
        app_book_press (book, GDK_KEY_BackSpace);
      app_book_settle (book);
    }
}

static void
test_over_range_not_measured_back (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0022", "findings");
  GtkWidget *findings = GTK_WIDGET (hs_job_page_get_findings (HS_JOB_PAGE (page)));
  g_autofree char *first = NULL, *second = NULL, *back = NULL, *after = NULL;

  app_book_type (book, "1");
  first = hs_findings_dup_field (HS_FINDINGS (findings));
  app_book_type (book, "/");
  ASSERT_SAYS (findings, "over range");
  second = hs_findings_dup_field (HS_FINDINGS (findings));
  g_assert_cmpstr (first, !=, second);
  app_book_type (book, "*");
  ASSERT_SAYS (findings, "Not measured. Why? One digit:");
  app_book_type (book, "1");
  ASSERT_SAYS (findings, "not measured");
  app_book_type (book, "-");
  back = hs_findings_dup_field (HS_FINDINGS (findings));
  g_assert_cmpstr (back, ==, second);
  app_book_type (book, "+");
  app_book_type (book, "+");
  after = hs_findings_dup_field (HS_FINDINGS (findings));
  g_assert_true (g_str_has_suffix (after, "/after"));
}

/* Story 10: what was typed and where is there again after the program is simply gone. */
static void
test_reopens_where_it_was (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0022", "findings");
  g_autofree char *field = NULL, *again = NULL;
  HsDraft *draft = hs_shop_get_draft (hs_shop_of (book->window));
  gboolean saved = FALSE;

  app_book_type (book, "1");
  app_book_type (book, "1242\n" "22");
  field = hs_findings_dup_field (hs_job_page_get_findings (HS_JOB_PAGE (page)));
  hs_draft_flush (draft);
  app_book_settle (book);
  app_book_close_window (book);

  app_book_open_window (book);
  hs_app_test_wait (hs_window_get_job (book->window) != NULL
                    && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
  page = hs_window_get_job (book->window);
  again = hs_findings_dup_field (hs_job_page_get_findings (HS_JOB_PAGE (page)));
  g_assert_cmpstr (again, ==, field);
  g_assert_cmpstr (hs_findings_get_text (hs_job_page_get_findings (HS_JOB_PAGE (page))), ==, "22");
  g_assert_false (saved);
}

static void
test_stage_moves_and_refusals (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");

  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  app_book_settle (book);
  ASSERT_SAYS (GTK_WIDGET (book->window), "Rolling");
  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  app_book_settle (book);
  ASSERT_SAYS (page, "At the vehicle");
}

/* A promise without a place: neither view says that nothing is promised, both say what is missing. */
static void
test_promise_without_a_place (AppBook *book, gconstpointer data)
{
  HsBookUser user = { "halfshaft-cli", "here", 1, hs_demo_get_now () };
  HsDate next = hs_ledger_get_today (book->ledger) + 1;
  HsCallSlip slip = { .phone = "555-0194", .words = "horn stuck", .day = next, .window_from = 540, .window_to = 660,
                      .minutes = 30 };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *id = hs_call_take (other, &slip, hs_demo_get_now (), NULL);
  GtkWidget *page;

  g_assert_nonnull (id);
  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_PROMISED, NULL, hs_demo_get_now (), NULL));
  page = app_book_show (book, "today");
  g_assert_true (gtk_widget_activate_action (page, "page.next-day", NULL));
  hs_app_test_wait (hs_app_test_says_part (page, "No promise has a place in the day yet"));
  ASSERT_SAYS (page, "A-0027 has no area");
  g_assert_false (hs_app_test_says_part (page, "A-0027: A-0027"));
  g_assert_false (hs_app_test_says_part (page, "Nothing is promised"));
}

/* Another program writes: shown within a second. */
static void
test_other_program_is_seen (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "jobs");
  HsBookUser user = { "halfshaft-cli", "here", 1, hs_demo_get_now () };
  HsCallSlip slip = { .phone = "555-0115", .words = "clicks, will not turn over", .day = HS_DATE_NONE,
                      .window_from = -1, .window_to = -1 };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *id = NULL;
  gint64 start = g_get_monotonic_time ();

  g_assert_false (hs_app_test_says_part (page, "clicks, will not turn over"));
  id = hs_call_take (other, &slip, hs_demo_get_now (), NULL);
  g_assert_nonnull (id);
  hs_app_test_wait (hs_app_test_says_part (page, "clicks, will not turn over"));
  g_assert_cmpint (g_get_monotonic_time () - start, <, G_USEC_PER_SEC);
}

static void
press_next_to (AppBook *book, GtkWidget *page, HsStage stage)
{
  for (guint i = 0; i < 2 && !hs_app_test_says_part (page, hs_stage_label (stage)); i++)
    {
      g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
      app_book_settle (book);
    }
  ASSERT_SAYS (page, hs_stage_label (stage));
}

/* Story 7, in the call slip: the best place and its price stand there before the phone is put down. */
static void
test_call_slip (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0022", "findings");
  GtkWidget *before = gtk_root_get_focus (GTK_ROOT (book->window));
  HsCallSlipWindow *slip;
  GtkWidget *form;

  slip = hs_call_slip_window_present (book->window, book->ledger, hs_shop_get_draft (hs_shop_of (book->window)));
  app_book_settle (book);
  form = hs_app_test_find (GTK_WIDGET (slip), HS_TYPE_CALL_FORM);
  g_assert_nonnull (form);
  hs_call_form_go (HS_CALL_FORM (form), "phone", "0115");
  app_book_settle (book);
  ASSERT_SAYS (form, "TDM 5508", "Teo Calloway");
  hs_call_form_take_first_caller (HS_CALL_FORM (form));
  app_book_settle (book);
  hs_call_form_go (HS_CALL_FORM (form), "words", "clicks, won’t turn over");
  hs_call_form_go (HS_CALL_FORM (form), "from", "900");
  hs_call_form_go (HS_CALL_FORM (form), "to", "1700");
  hs_call_form_go (HS_CALL_FORM (form), "minutes", "40");
  hs_call_form_choose_day (HS_CALL_FORM (form), hs_ledger_get_today (book->ledger));
  app_book_settle (book);
  ASSERT_SAYS (form, "fits 10:41", "+44 min", "+1.1 mi", "+70.86", "home 17:04", "after A-0022");
  g_assert_nonnull (hs_call_form_get_job_id (HS_CALL_FORM (form)));
  gtk_window_close (GTK_WINDOW (slip));
  app_book_settle (book);
  g_assert_true (gtk_root_get_focus (GTK_ROOT (book->window)) == before);
  g_assert_true (hs_window_get_job (book->window) == page);
  ASSERT_SAYS (app_book_show (book, "jobs"), "clicks, won’t turn over");
  /* On its own page the offers stand at once, until its time is given: then it would be fitted in beside itself. */
  page = app_book_open_job (book, "A-0027", "call");
  ASSERT_SAYS (page, "fits 10:41");
  press_next_to (book, page, HS_STAGE_PROMISED);
  g_assert_false (hs_app_test_says_part (page, "fits 10:41"));
}

/* A call that stands in the day's order is not offered a second place in it; one that does not is. */
static void
test_offers_before_a_promise (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0021", "call");
  HsBookUser user = { "halfshaft-cli", "here", 1, hs_demo_get_now () };
  HsCallSlip slip = { .phone = "555-0115", .words = "clicks", .area = "O", .minutes = 40, .window_from = 540,
                      .window_to = 1020, .day = hs_ledger_get_today (book->ledger) };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *id = hs_call_take (other, &slip, hs_demo_get_now (), NULL);

  app_book_settle (book);
  g_assert_false (hs_app_test_says_part (page, "say where it fits"));
  g_assert_false (hs_app_test_says_part (page, "fits "));
  hs_shop_open_job (hs_shop_of (book->window), id, "call", NULL, NULL);
  hs_app_test_wait (hs_app_test_says_part (hs_window_get_job (book->window), "fits 10:41"));
}

/* Story 7: a new 40-minute Old Market call, 09:00–17:00. What breaks a promise costs less and is listed last. */
static void
test_squeeze_in (AppBook *book, gconstpointer data)
{
  HsDraft *draft = hs_shop_get_draft (hs_shop_of (book->window));
  HsDate today = hs_ledger_get_today (book->ledger);
  HsSqueezeWindow *squeeze;
  HsCallSlipWindow *slip;
  GtkWidget *list, *form;
  guint n = 0, n_broken = 0;

  app_book_show (book, "today");
  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 700);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  squeeze = hs_squeeze_window_present (book->window, book->ledger, draft, today);
  app_book_settle (book);
  hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (squeeze)) > 0);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (squeeze)), <=, 360);
  ASSERT_SAYS (GTK_WIDGET (squeeze), "Tuesday, March 10, 2026", "Area and minutes say where it fits.");
  hs_squeeze_window_fill (squeeze, "Old Market", "40x", "9", "1700");
  ASSERT_SAYS (GTK_WIDGET (squeeze), "Minutes of work are a whole number");
  hs_squeeze_window_fill (squeeze, "Old Market", "40", "9", "17h");
  ASSERT_SAYS (GTK_WIDGET (squeeze), "A time is written 930 or 9:30.");
  hs_squeeze_window_fill (squeeze, "Old Market", "40", "9", "1700");
  app_book_settle (book);
  list = hs_app_test_find (GTK_WIDGET (squeeze), GTK_TYPE_LIST_BOX);
  ASSERT_SAYS (gtk_widget_get_first_child (list), "10:41", "after A-0022", "+44 min", "+1.1 mi", "home 17:04", "70.86");
  g_assert_false (hs_app_test_says_part (gtk_widget_get_first_child (list), "breaks a promise"));
  for (GtkWidget *row = gtk_widget_get_first_child (list); row != NULL; row = gtk_widget_get_next_sibling (row), n++)
    if (hs_app_test_says_part (row, "breaks a promise"))
      {
        n_broken++;
        if (hs_app_test_says_part (row, "after A-0021"))
          ASSERT_SAYS (row, "A-0022 8 min late", "69.14");
      }
    else
      g_assert_cmpuint (n_broken, ==, 0);
  g_assert_cmpuint (n_broken, >, 0);
  g_assert_cmpuint (n_broken, <, n);

  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (squeeze), "squeeze.write", NULL));
  app_book_settle (book);
  slip = hs_call_slip_window_present (book->window, book->ledger, draft);
  form = hs_app_test_find (GTK_WIDGET (slip), HS_TYPE_CALL_FORM);
  hs_call_form_go (HS_CALL_FORM (form), "phone", "555-0115");
  hs_call_form_go (HS_CALL_FORM (form), "words", "clicks, won’t turn over");
  app_book_settle (book);
  ASSERT_SAYS (form, "fits 10:41", "+70.86");
  gtk_window_close (GTK_WINDOW (slip));
  app_book_settle (book);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/pages/views-are-filled", test_views_are_filled);
  ADD ("/pages/which-battery", test_which_battery);
  ADD ("/pages/history-follows-the-vehicle", test_history_follows_the_vehicle);
  ADD ("/pages/digits-from-anywhere", test_digits_from_anywhere);
  ADD ("/pages/enter-opens", test_enter_opens);
  ADD ("/pages/no-hit-no-card", test_no_hit_no_card);
  ADD ("/pages/day-figures", test_day_figures);
  ADD ("/pages/why-this-order", test_why_this_order);
  ADD ("/pages/why-impossible", test_why_impossible);
  ADD ("/pages/each-van", test_each_van);
  ADD ("/pages/lock-and-replan", test_lock_and_replan);
  ADD ("/pages/other-days", test_other_days);
  ADD ("/pages/parts-run", test_parts_run);
  ADD ("/pages/findings-by-number-pad", test_findings_by_number_pad);
  ADD ("/pages/gauge-shows-the-limits", test_gauge_shows_the_limits);
  ADD ("/pages/over-range-not-measured-back", test_over_range_not_measured_back);
  ADD ("/pages/reopens-where-it-was", test_reopens_where_it_was);
  ADD ("/pages/stage-moves-and-refusals", test_stage_moves_and_refusals);
  ADD ("/pages/other-program-is-seen", test_other_program_is_seen);
  ADD ("/pages/promise-without-a-place", test_promise_without_a_place);
  ADD ("/pages/call-slip", test_call_slip);
  ADD ("/pages/offers-before-a-promise", test_offers_before_a_promise);
  ADD ("/pages/squeeze-in", test_squeeze_in);
  ADD ("/pages/fits-low-windows", test_fits_low_windows);
  ADD ("/pages/fits-a-phone", test_fits_a_phone);
  ADD ("/pages/fits-a-small-laptop", test_fits_a_small_laptop);
  ADD ("/pages/fits-large-text", test_fits_large_text);
  return g_test_run ();
}
