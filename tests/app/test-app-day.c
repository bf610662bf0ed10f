// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The day's page by keyboard, and on the days that go wrong: room for the list, keys that reach it, offers that are
 * taken as they stand, minutes that agree. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-call-form.h"
#include "hs-call-slip-window.h"
#include "hs-demo.h"
#include "hs-face.h"
#include "hs-help-overlay.h"
#include "hs-job-op.h"
#include "hs-key-button.h"
#include "hs-key-row.h"
#include "hs-shop.h"
#include "hs-show.h"
#include "hs-squeeze-window.h"
#include "hs-stop-row.h"
#include "hs-time-strip.h"

static HsBook *
open_beside (AppBook *book)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (GError) error = NULL;
  HsBook *other = hs_book_open (book->path, HS_BOOK_WRITE, &user, &error);

  g_assert_no_error (error);
  return other;
}

static void
promise (AppBook *book, const char *phone, const char *area)
{
  HsCallSlip slip = { .phone = phone, .words = "won't start", .area = area, .window_from = 9 * 60,
                      .window_to = 9 * 60 + 15, .minutes = 60, .day = hs_ledger_get_today (book->ledger) };
  g_autoptr (HsBook) other = open_beside (book);
  g_autofree char *id = hs_call_take (other, &slip, hs_demo_get_now (), NULL);

  g_assert_nonnull (id);
  g_assert_true (hs_job_move_stage (other, id, HS_STAGE_PROMISED, NULL, hs_demo_get_now (), NULL));
}

static gboolean
shows (GtkWidget *widget, const char *text)
{
  if (GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
      && g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), text))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (shows (child, text))
      return TRUE;
  return FALSE;
}

static GtkWidget *
focus_of (AppBook *book)
{
  return gtk_root_get_focus (GTK_ROOT (book->window));
}

static GtkWidget *
open_help (AppBook *book)
{
  hs_help_overlay_present (book->window), hs_app_test_frames ();
  return hs_app_test_window (GTK_TYPE_SHORTCUTS_WINDOW);
}

/* The warnings of the platform are fatal here; the keys of the day stand on what is seen first. */
static void
test_help (AppBook *book, gconstpointer data)
{
  static const char *const titles[] = { "Plan the day anew", "Accept the new order", "The next van’s day",
                                        "Share the calls of the day among the vans",
                                        "The day before, the day after; the tabs of a job",
                                        "Into the list, and from line to line", "From stop to stop on the time strip",
                                        "Open what is chosen" };
  GtkWidget *help;

  app_book_show (book, "today");
  help = open_help (book);
  for (guint i = 0; i < G_N_ELEMENTS (titles); i++)
    g_assert_true (shows (help, titles[i]));
  g_assert_false (shows (help, "Over range"));
  gtk_window_destroy (GTK_WINDOW (help));
  app_book_open_job (book, "A-0022", "findings");
  help = open_help (book);
  hs_app_test_picture (help, "help-readings");
  g_assert_true (shows (help, "Over range") && shows (help, "Next stage"));
  g_assert_false (shows (help, "Plan the day anew") || shows (help, "Add a because"));
  gtk_window_destroy (GTK_WINDOW (help));
}

/* Neither the box of broken promises nor the offer of a new order pushes the bottom bar off; the list scrolls. */
static void
test_impossible_day_fits (AppBook *book, gconstpointer data)
{
  static const struct
  {
    int width, height;
  } rows[] = { { 1280, 800 }, { 1024, 600 }, { 360, 640 } };
  GtkWidget *page;

  promise (book, "555-0194", "H");
  promise (book, "555-0195", "S");
  page = app_book_show (book, "today");
  hs_app_test_wait (hs_app_test_says_part (page, "Not every promise can be kept"));
  /* The figure of what is least to spare has no sign: late is said in words. */
  g_assert_true (hs_app_test_says_part (page, "late, most, at A-00"));
  g_assert_false (hs_app_test_says_part (page, "-2"));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      gtk_window_set_default_size (GTK_WINDOW (book->window), rows[i].width, rows[i].height);
      hs_app_test_wait (gtk_widget_get_height (GTK_WIDGET (book->window)) == rows[i].height);
      hs_app_test_wait (hs_window_get_narrow (book->window) == (rows[i].width < 600));
      app_book_settle (book);
      hs_app_test_frames ();
      app_book_assert_fits (book, page, rows[i].width, rows[i].height);
      app_book_press (book, GDK_KEY_0);
      app_book_settle (book);
      hs_app_test_wait (hs_app_test_says_part (page, "Planned anew"));
      hs_app_test_frames ();
      app_book_assert_fits (book, page, rows[i].width, rows[i].height);
      app_book_press (book, GDK_KEY_0);
      app_book_settle (book);
    }
}

/* What has the focus is hidden by a smaller window and by the offer of a new order: the focus stays on the page. */
static void
test_focus_stays_on_the_page (AppBook *book, gconstpointer data)
{
  static const int widths[] = { 1280, 1024, 360 };
  GtkWidget *page;

  promise (book, "555-0194", "H");
  promise (book, "555-0195", "S");
  page = app_book_show (book, "today");
  hs_app_test_wait (hs_app_test_says_part (page, "Not every promise can be kept"));
  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  for (guint i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      gtk_window_set_default_size (GTK_WINDOW (book->window), widths[i], i == 0 ? 800 : 640);
      hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == widths[i]);
      app_book_settle (book);
      hs_app_test_frames ();
      for (guint press = 0; press < 2; press++)
        {
          g_test_message ("%d px, press %u: %s", widths[i], press,
                          focus_of (book) != NULL ? G_OBJECT_TYPE_NAME (focus_of (book)) : "nothing");
          g_assert_nonnull (focus_of (book));
          g_assert_true (gtk_widget_is_ancestor (focus_of (book), page));
          app_book_press (book, GDK_KEY_0);
          app_book_settle (book);
          hs_app_test_frames ();
          g_assert_true (hs_app_test_says_part (page, "Planned anew") == (press == 0));
        }
      gtk_widget_grab_focus (gtk_widget_get_first_child (hs_app_test_find (page, HS_TYPE_TIME_STRIP)));
    }
}

/* The keys of the page act while the focus is in the window's own bars. */
static void
test_keys_from_outside_the_page (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");
  GtkWidget *keys = hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_KEY_ROW);

  g_assert_true (gtk_widget_grab_focus (hs_app_test_button (keys, "Call slip")));
  app_book_press (book, GDK_KEY_0);
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (page, "Planned anew"));
  g_assert_true (gtk_widget_is_ancestor (focus_of (book), keys));
  app_book_press (book, GDK_KEY_KP_Decimal);
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (book->window), "This order stands."));
}

static GtkWidget *
row_at (GtkWidget *page, guint index)
{
  GtkWidget *row = gtk_widget_get_first_child (hs_app_test_find (page, GTK_TYPE_LIST_VIEW));

  for (; row != NULL; row = gtk_widget_get_next_sibling (row))
    if (HS_IS_STOP_ROW (gtk_widget_get_first_child (row))
        && GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (gtk_widget_get_first_child (row)), "index")) == index)
      return row;
  return NULL;
}

static void
test_arrows_reach_the_list (AppBook *book, gconstpointer data)
{
  static const guint keys[] = { GDK_KEY_Down, GDK_KEY_Up, GDK_KEY_KP_Down, GDK_KEY_KP_Up };
  GtkWidget *page = app_book_show (book, "today");
  GtkWidget *list = hs_app_test_find (page, GTK_TYPE_LIST_VIEW);
  GtkWidget *const starts[] = { hs_app_test_button (page, "Why This Order"),
                                gtk_widget_get_first_child (hs_app_test_find (page, HS_TYPE_TIME_STRIP)) };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    for (guint j = 0; j < G_N_ELEMENTS (starts); j++)
      {
        gtk_widget_grab_focus (starts[j]);
        app_book_press (book, keys[i]);
        g_assert_true (gtk_widget_is_ancestor (focus_of (book), list));
        g_assert_true (focus_of (book) == row_at (page, 0));
      }
}

static gboolean
is_locked (AppBook *book, guint index)
{
  g_autoptr (HsBook) other = open_beside (book);
  g_autoptr (HsDayPlan) plan
      = hs_day_plan_standing (other, hs_ledger_get_today (book->ledger), NULL, HS_INSTANT_NONE, NULL);

  g_assert_nonnull (plan);
  return ((const HsPlannedStop *) g_ptr_array_index (plan->stops, index))->locked;
}

/* A row may have the focus and another the choice; without a focus in the list it is the chosen one. */
static void
test_lock_takes_the_focused_row (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");

  g_assert_true (gtk_widget_grab_focus (row_at (page, 2)));
  gtk_widget_activate_action (hs_app_test_find (page, GTK_TYPE_LIST_VIEW), "list.select-item", "(ubb)", 1, FALSE,
                              FALSE);
  app_book_settle (book);
  g_assert_true (focus_of (book) == row_at (page, 2));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.lock", NULL));
  app_book_settle (book);
  g_assert_true (is_locked (book, 2));
  g_assert_false (is_locked (book, 1));

  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.lock", NULL));
  app_book_settle (book);
  g_assert_true (is_locked (book, 1));
}

/* What would mend the promises: as many as there is room for, and how many there are besides. */
static void
test_mends_are_counted (void)
{
  static const struct
  {
    guint most, n;
    const char *end;
  } rows[] = {
    { 2, 1, "\nWould mend it: A-0031: an hour later" },
    { 2, 2, "\nWould mend it: A-0031: an hour later · 1 more: F6 has it" },
    { 3, 2, "\nWould mend it: A-0031: an hour later · A-0032: without lunch" },
    { 2, 3, "\nWould mend it: A-0031: an hour later · 2 more: F6 has them" },
  };
  HsDayMend all[] = { { (char *) "A-0031", (char *) "an hour later" }, { (char *) "A-0032", (char *) "without lunch" },
                      { (char *) "A-0032", (char *) "home by 19:00" } };
  HsBrokenPromise broken = { .id = (char *) "A-0031", .why = (char *) "too late" };
  HsDayPlan plan = { .broken = g_ptr_array_new () };

  g_ptr_array_add (plan.broken, &broken);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) mends = g_ptr_array_new ();
      g_autofree char *text = NULL;

      for (guint j = 0; j < rows[i].n; j++)
        g_ptr_array_add (mends, &all[j]);
      text = hs_face_dup_broken (&plan, mends, rows[i].most);
      g_assert_true (g_str_has_prefix (text, "A-0031: too late"));
      g_assert_cmpstr (strchr (text, '\n'), ==, rows[i].end);
    }
  g_ptr_array_unref (plan.broken);
}

/* However the day was come to, the focus is on its rows; F8 is named for the row it acts on. */
static void
test_comes_to_its_rows (AppBook *book, gconstpointer data)
{
  GtkWidget *keys, *page;

  for (guint round = 0; round < 3; round++)
    {
      if (round == 1)
        app_book_open_job (book, "A-0021", "call");
      else
        app_book_show (book, "jobs");
      page = app_book_show (book, "today");
      hs_app_test_frames ();
      g_assert_true (focus_of (book) == row_at (page, 0));
    }
  keys = hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_KEY_ROW);
  g_assert_nonnull (hs_app_test_button (keys, "Lock stop"));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.lock", NULL));
  app_book_settle (book);
  g_assert_true (is_locked (book, 0));
  g_assert_nonnull (hs_app_test_button (keys, "Unlock"));
  g_assert_true (gtk_widget_grab_focus (row_at (page, 1)));
  g_assert_nonnull (hs_app_test_button (keys, "Lock stop"));
}

/* With the focus in the window's bars, or nowhere, an arrow comes to the current row. */
static void
test_arrows_from_the_bars (AppBook *book, gconstpointer data)
{
  static const guint keys[] = { GDK_KEY_Down, GDK_KEY_Up, GDK_KEY_KP_Down, GDK_KEY_KP_Up };
  GtkWidget *page = app_book_show (book, "today");
  GtkWidget *row = hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_KEY_ROW);

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      gtk_widget_grab_focus (gtk_widget_get_first_child (row));
      app_book_press (book, keys[i]);
      g_assert_true (focus_of (book) == row_at (page, 0));
      gtk_window_set_focus (GTK_WINDOW (book->window), NULL);
      g_assert_true (hs_app_test_key (GTK_WIDGET (book->window), keys[i], 0));
      g_assert_true (focus_of (book) == row_at (page, 0));
    }
}

/* The day by one hand on the keyboard, from the window's bottom bar on; each of these keys stands in the help. */
static void
test_by_keyboard_alone (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");
  GtkWidget *list = hs_app_test_find (page, GTK_TYPE_LIST_VIEW);
  GtkWidget *strip = hs_app_test_find (page, HS_TYPE_TIME_STRIP);
  GtkWidget *keys = hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_KEY_ROW);

  gtk_widget_grab_focus (hs_app_test_button (keys, "Call slip"));
  app_book_press (book, GDK_KEY_KP_Page_Down);
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (page, "Wednesday, March 11, 2026"));
  app_book_press (book, GDK_KEY_Page_Up);
  app_book_settle (book);
  gtk_widget_grab_focus (hs_app_test_button (page, "Why This Order"));
  app_book_press (book, GDK_KEY_Down);
  g_assert_true (gtk_widget_is_ancestor (focus_of (book), list));
  app_book_press (book, GDK_KEY_KP_Page_Down);
  app_book_settle (book);
  g_assert_nonnull (focus_of (book));
  g_assert_true (gtk_widget_is_ancestor (focus_of (book), page));
  app_book_press (book, GDK_KEY_Page_Up);
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (page, "764.39"));
  app_book_press (book, GDK_KEY_0);
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (page, "Planned anew"));
  app_book_press (book, GDK_KEY_KP_0);
  app_book_settle (book);
  g_assert_false (hs_app_test_says_part (page, "Planned anew"));
  g_assert_true (gtk_widget_grab_focus (gtk_widget_get_first_child (strip)));
  g_assert_true (gtk_widget_activate_action (focus_of (book), "stop.step", "i", 1));
  g_assert_true (focus_of (book) == gtk_widget_get_next_sibling (gtk_widget_get_first_child (strip)));
}

/* Each key that acts on a page is lit in the bar while that page is shown. */
static void
test_hints_are_lit (AppBook *book, gconstpointer data)
{
  static const char *const rows[][2] = { { "today", "Re-plan" }, { "parts", "Tick" }, { "vehicles", "Clear" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GtkWidget *keys, *button;

      app_book_show (book, rows[i][0]);
      keys = hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_KEY_ROW);
      button = hs_app_test_button (keys, rows[i][1]);
      g_assert_nonnull (button);
      g_test_message ("%s", rows[i][1]);
      g_assert_true (gtk_widget_is_sensitive (button));
    }
}

static void
test_plan_anew (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_show (book, "today");
  GtkWidget *keys = hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_KEY_ROW);

  /* Without an offer there is nothing to accept. */
  app_book_press (book, GDK_KEY_period);
  app_book_settle (book);
  g_assert_false (hs_app_test_says_part (GTK_WIDGET (book->window), "This order stands."));
  g_signal_emit_by_name (hs_app_test_button (keys, "Re-plan"), "clicked");
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (page, "Planned anew: nothing is better"));
  g_assert_nonnull (hs_app_test_label (hs_app_test_button (page, "Accept"), "."));
  app_book_press (book, GDK_KEY_KP_Decimal);
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (book->window), "This order stands."));
  g_assert_false (hs_app_test_says_part (page, "Planned anew"));

  g_assert_true (gtk_widget_activate_action (page, "page.next-day", NULL));
  app_book_settle (book);
  app_book_press (book, GDK_KEY_0);
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (book->window), "there is nothing to plan anew"));
}

static HsDayPlan *
plan_of_one (AppBook *book, HsPlannedStop *stop)
{
  HsDayPlan *plan = g_new0 (HsDayPlan, 1);

  plan->day = hs_ledger_get_today (book->ledger);
  plan->leave = plan->home = plan->break_from = plan->break_to = HS_INSTANT_NONE;
  plan->spare_seconds = -1;
  plan->stops = g_ptr_array_new ();
  plan->broken = g_ptr_array_new ();
  plan->ring = g_ptr_array_new ();
  plan->spans = g_ptr_array_new ();
  plan->shut = g_ptr_array_new ();
  plan->penciled = g_ptr_array_new ();
  g_ptr_array_add (plan->stops, stop);
  return plan;
}

/* Starts between two minutes: the list and the strip say the same. */
static void
test_minutes_agree (AppBook *book, gconstpointer data)
{
  static const struct
  {
    int start_second; /* after 12:45 */
    int spare;        /* to 16:00 */
  } rows[] = { { 0, 195 }, { 1, 194 }, { 30, 194 }, { 60, 194 }, { 61, 193 }, { 3 * 3600 + 15 * 60, 0 },
               { 3 * 3600 + 15 * 60 + 1, -1 }, { 3 * 3600 + 16 * 60, -1 }, { 3 * 3600 + 16 * 60 + 20, -2 } };
  HsInstant base = hs_demo_get_now ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      HsInstant noon = base - base % 3600;
      HsPlannedStop stop = { .id = (char *) "A-0025", .area = (char *) "S", .break_from = HS_INSTANT_NONE,
                             .break_to = HS_INSTANT_NONE };
      HsDayPlan *plan = plan_of_one (book, &stop);
      GtkWidget *row = hs_stop_row_new ();
      g_autoptr (HsStripDay) strip = NULL;
      g_autofree char *said = rows[i].spare >= 0 ? g_strdup_printf ("%d", rows[i].spare)
                                                 : g_strdup_printf ("%d late", -rows[i].spare);
      g_autofree char *words = rows[i].spare >= 0 ? g_strdup_printf ("%d min spare", rows[i].spare)
                                                  : g_strdup_printf ("%d min late", -rows[i].spare);
      g_autofree char *spare = NULL;

      stop.window_from = noon;
      stop.arrive = stop.start = noon + 45 * 60 + rows[i].start_second;
      stop.depart = stop.start + 3600;
      stop.window_to = noon + 4 * 3600;
      stop.spare_seconds = stop.window_to - stop.start;
      spare = hs_face_dup_spare (stop.spare_seconds);
      g_object_ref_sink (row);
      hs_face_stop (HS_STOP_ROW (row), book->ledger, plan, 0, FALSE);
      g_assert_true (hs_app_test_says (row, said));
      strip = hs_face_day (book->ledger, plan, HS_INSTANT_NONE);
      g_assert_cmpint (hs_strip_day_get_spare (g_ptr_array_index (strip->stops, 0)), ==, rows[i].spare);
      g_assert_cmpint (hs_face_spare_minutes (stop.spare_seconds), ==, rows[i].spare);
      g_assert_cmpstr (spare, ==, words);
      g_object_unref (row);
      hs_day_plan_free (plan);
    }
}

/* How long the van waits is the one figure of the note that stands nowhere else: it is not what is cut. */
static void
test_wait_comes_first (AppBook *book, gconstpointer data)
{
  HsInstant now = hs_demo_get_now ();
  HsPlannedStop stop = { .id = (char *) "A-0025", .area = (char *) "S", .arrive = now, .start = now + 4800,
                         .depart = now + 6000, .wait_seconds = 4800, .break_from = HS_INSTANT_NONE,
                         .break_to = HS_INSTANT_NONE, .window_from = now + 4800, .window_to = now + 9000,
                         .note = (char *) "fuel filter from a counter with a long name · no signal" };
  HsDayPlan *plan = plan_of_one (book, &stop);
  GtkWidget *row = hs_stop_row_new ();

  g_object_ref_sink (row);
  hs_face_stop (HS_STOP_ROW (row), book->ledger, plan, 0, FALSE);
  g_assert_true (hs_app_test_says (row, "waits 1 h 20 min · fuel filter from a counter with a long name · no signal"));
  g_object_unref (row);
  hs_day_plan_free (plan);
}

/* What the slip holds after Enter on an offer's row. */
typedef struct
{
  GtkWidget *form;
  HsCallSlipWindow *slip;
} Written;

static void
take_offer (AppBook *book, guint index, gboolean by_key, Written *ret_written)
{
  HsDraft *draft = hs_shop_get_draft (hs_shop_of (book->window));
  HsSqueezeWindow *squeeze = hs_squeeze_window_present (book->window, book->ledger, draft,
                                                        hs_ledger_get_today (book->ledger));
  GtkListBox *list = GTK_LIST_BOX (hs_app_test_find (GTK_WIDGET (squeeze), GTK_TYPE_LIST_BOX));

  app_book_settle (book);
  hs_squeeze_window_fill (squeeze, "Old Market", "40", "9", "1700");
  app_book_settle (book);
  if (by_key)
    {
      gtk_widget_grab_focus (GTK_WIDGET (gtk_list_box_get_row_at_index (list, (int) index)));
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (squeeze), "squeeze.write", NULL));
    }
  else
    g_signal_emit_by_name (list, "row-activated", gtk_list_box_get_row_at_index (list, (int) index));
  app_book_settle (book);
  ret_written->slip = hs_call_slip_window_present (book->window, book->ledger, draft);
  ret_written->form = hs_app_test_find (GTK_WIDGET (ret_written->slip), HS_TYPE_CALL_FORM);
}

static gboolean
holds (GtkWidget *widget, const char *text)
{
  if (GTK_IS_ENTRY (widget) && g_str_equal (gtk_editable_get_text (GTK_EDITABLE (widget)), text))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (holds (child, text))
      return TRUE;
  return FALSE;
}

/* Every offer of both vans, taken: its free window within the 09:00 to 17:00 that was asked for, or the hour from its
 * start on where it has none; and its van, which the job's number begins with. */
static void
test_offer_is_taken_as_it_stands (AppBook *book, gconstpointer data)
{
  HsDate today = hs_ledger_get_today (book->ledger);
  g_autoptr (HsBook) other = open_beside (book);
  g_autoptr (GPtrArray) offers
      = hs_day_squeeze (other, today, NULL, "O", 40 * 60, 9 * 60, 17 * 60, FALSE, HS_INSTANT_NONE, NULL);
  guint n_free = 0, n_broken = 0, n_b = 0;
  HsInstant morning = hs_instant_from_local (hs_ledger_get_zone (book->ledger), today, 9 * 60);
  HsInstant evening = hs_instant_from_local (hs_ledger_get_zone (book->ledger), today, 17 * 60);

  g_assert_nonnull (offers);
  app_book_show (book, "today");
  for (guint i = 0; i < offers->len; i++)
    {
      const HsOffer *offer = g_ptr_array_index (offers, i);
      gboolean is_free = offer->free_from != HS_INSTANT_NONE && offer->free_to > offer->free_from;
      g_autofree char *from = hs_show_clock (book->ledger, is_free ? MAX (offer->free_from, morning) : offer->start);
      g_autofree char *to = hs_show_clock (book->ledger, is_free ? MIN (offer->free_to, evening) : offer->start + 3600);
      g_autofree char *phone = g_strdup_printf ("555-01%02u", 60 + i), *number = NULL;
      g_autoptr (HsJobView) view = NULL;
      Written written;

      take_offer (book, i, i % 2 == 0, &written);
      g_test_message ("%u: van %s, %s–%s", i, offer->van, from, to);
      g_assert_true (holds (written.form, from));
      g_assert_true (holds (written.form, to));
      hs_call_form_go (HS_CALL_FORM (written.form), "phone", phone);
      hs_call_form_go (HS_CALL_FORM (written.form), "words", "clicks");
      hs_call_form_flush (HS_CALL_FORM (written.form));
      app_book_settle (book);
      view = hs_job_view_load (other, hs_call_form_get_job_id (HS_CALL_FORM (written.form)), hs_demo_get_now (), NULL);
      g_assert_nonnull (view);
      g_assert_true (g_str_has_prefix (view->tag->number, offer->van));
      if (is_free)
        g_assert_cmpint (view->tag->window_to, ==, MIN (offer->free_to, evening));
      gtk_window_close (GTK_WINDOW (written.slip));
      app_book_settle (book);
      n_free += is_free;
      n_broken += offer->breaks->len > 0;
      n_b += g_str_equal (offer->van, "B");
    }
  g_assert_cmpuint (n_free, >, 1);
  g_assert_cmpuint (n_broken, >, 0);
  g_assert_cmpuint (n_b, >, 0);
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/day/help", test_help);
  ADD ("/day/impossible-day-fits", test_impossible_day_fits);
  ADD ("/day/focus-stays-on-the-page", test_focus_stays_on_the_page);
  ADD ("/day/keys-from-outside-the-page", test_keys_from_outside_the_page);
  ADD ("/day/arrows-reach-the-list", test_arrows_reach_the_list);
  ADD ("/day/lock-takes-the-focused-row", test_lock_takes_the_focused_row);
  g_test_add_func ("/day/mends-are-counted", test_mends_are_counted);
  ADD ("/day/comes-to-its-rows", test_comes_to_its_rows);
  ADD ("/day/arrows-from-the-bars", test_arrows_from_the_bars);
  ADD ("/day/by-keyboard-alone", test_by_keyboard_alone);
  ADD ("/day/hints-are-lit", test_hints_are_lit);
  ADD ("/day/plan-anew", test_plan_anew);
  ADD ("/day/minutes-agree", test_minutes_agree);
  ADD ("/day/wait-comes-first", test_wait_comes_first);
  ADD ("/day/offer-is-taken-as-it-stands", test_offer_is_taken_as_it_stands);
  return g_test_run ();
}
