// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Whatever was opened over something shuts by Esc, and then the cursor is where it was and the keys act again. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-bill-pane.h"
#include "hs-call-form.h"
#include "hs-call-slip-window.h"
#include "hs-camera-window.h"
#include "hs-choices-pane.h"
#include "hs-customer-window.h"
#include "hs-field-row.h"
#include "hs-findings.h"
#include "hs-go-ahead-window.h"
#include "hs-hand-off-window.h"
#include "hs-job-page.h"
#include "hs-jobs-page.h"
#include "hs-limit-window.h"
#include "hs-option-window.h"
#include "hs-photo-pane.h"
#include "hs-print-window.h"
#include "hs-roll-window.h"
#include "hs-safety-window.h"
#include "hs-set-up-window.h"
#include "hs-share-window.h"
#include "hs-shots.h"
#include "hs-squeeze-window.h"
#include "hs-stage-window.h"
#include "hs-tag.h"
#include "hs-usual-window.h"
#include "hs-way-window.h"
#include "hs-why-window.h"
#include "hs-work-out-window.h"

static GtkWidget *
get_focus (AppBook *book)
{
  return gtk_root_get_focus (GTK_ROOT (book->window));
}

/* The cursor is on the tag of that job. */
static gboolean
is_on_tag (AppBook *book, const char *number)
{
  GtkWidget *focus = get_focus (book);
  GtkWidget *tag = focus != NULL ? gtk_widget_get_ancestor (focus, HS_TYPE_TAG) : NULL;

  return tag != NULL && hs_app_test_says (tag, number);
}

static GtkWidget *
find_tag (GtkWidget *widget, const char *number)
{
  if (HS_IS_TAG (widget) && hs_app_test_says (widget, number))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_tag (child, number);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* A digit begins to look for something; the board is shown again afterwards. */
static void
assert_digits_act (AppBook *book)
{
  app_book_press (book, GDK_KEY_8);
  app_book_settle (book);
  g_assert_cmpstr (hs_window_get_page (book->window), ==, "vehicles");
  g_assert_true (GTK_IS_TEXT (get_focus (book)));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (get_focus (book))), ==, "8");
  gtk_editable_set_text (GTK_EDITABLE (get_focus (book)), "");
  app_book_show (book, "jobs");
}

/* Esc until nothing lies over the window: some ask twice. */
static void
shut (AppBook *book)
{
  for (guint i = 0; i < 4 && app_book_find_top (book) != NULL; i++)
    app_book_keys (book, "\x1b");
  g_assert_null (app_book_find_top (book));
}

/* @keys, or else @action, opens a window of @type. */
typedef struct
{
  const char *number;
  const char *keys;
  const char *action;
  GType (*type) (void);
} Over;

static void
open_over (AppBook *book, const Over *over)
{
  if (over->keys != NULL)
    app_book_keys (book, over->keys);
  else
    g_assert_true (gtk_widget_activate_action (get_focus (book), over->action, NULL));
  app_book_settle (book);
  for (guint i = 0; i < 5 && app_book_find_top (book) == NULL; i++)
    hs_app_test_frames ();
  if (hs_app_test_window (over->type ()) == NULL)
    g_error ("%s %s opens no %s", over->number, over->keys != NULL ? over->keys : over->action,
             g_type_name (over->type ()));
}

static void
test_over_the_board (AppBook *book, gconstpointer data)
{
  static const Over overs[] = {
    { "A-0023", "F3", NULL, hs_call_slip_window_get_type },
    { "A-0024", "F5", NULL, hs_squeeze_window_get_type },
    { "A-0024", "F6", NULL, hs_why_window_get_type },
    { "A-0022", "=", NULL, hs_work_out_window_get_type },
    { "A-0022", NULL, "win.set-up", hs_set_up_window_get_type },
    { "A-0023", "F4", NULL, hs_roll_window_get_type },
    { "A-0023", "F41", NULL, hs_way_window_get_type },
    { "A-0023", "F4", NULL, hs_safety_window_get_type },
    { "A-0019", "F4", NULL, hs_stage_window_get_type },
  };

  app_book_show (book, "jobs");
  for (guint i = 0; i < G_N_ELEMENTS (overs); i++)
    {
      g_assert_true (gtk_widget_grab_focus (find_tag (GTK_WIDGET (book->window), overs[i].number)));
      open_over (book, &overs[i]);
      shut (book);
      if (!is_on_tag (book, overs[i].number))
        g_error ("%s leaves %s", g_type_name (overs[i].type ()), overs[i].number);
      assert_digits_act (book);
    }
}

static void
leave_job (AppBook *book)
{
  g_assert_true (gtk_widget_activate_action (hs_window_get_job (book->window), "win.back", NULL));
  app_book_settle (book);
  hs_app_test_frames ();
}

/* Out of a job, however it was opened, the cursor is on its tag. */
static void
test_out_of_a_job (AppBook *book, gconstpointer data)
{
  app_book_show (book, "jobs");
  gtk_widget_grab_focus (find_tag (GTK_WIDGET (book->window), "A-0024"));
  g_signal_emit_by_name (get_focus (book), "activated");
  hs_app_test_wait (hs_window_get_job (book->window) != NULL);
  app_book_settle (book);
  leave_job (book);
  g_assert_true (is_on_tag (book, "A-0024"));
  assert_digits_act (book);

  app_book_open_job (book, "A-0022", "call");
  hs_app_test_frames ();
  leave_job (book);
  g_assert_true (is_on_tag (book, "A-0022"));
  assert_digits_act (book);

  gtk_widget_grab_focus (find_tag (GTK_WIDGET (book->window), "A-0021"));
  app_book_keys (book, "F2");
  hs_app_test_wait (hs_window_get_job (book->window) != NULL);
  app_book_settle (book);
  hs_app_test_frames ();
  leave_job (book);
  g_assert_true (is_on_tag (book, "A-0026"));
  assert_digits_act (book);
}

/* From the bars, and from nowhere, a digit looks for something just as well. */
static void
test_from_the_bars (AppBook *book, gconstpointer data)
{
  app_book_show (book, "jobs");
  gtk_window_set_focus (GTK_WINDOW (book->window), NULL);
  g_assert_true (gtk_widget_child_focus (GTK_WIDGET (book->window), GTK_DIR_TAB_FORWARD));
  g_assert_null (gtk_widget_get_ancestor (get_focus (book), HS_TYPE_JOBS_PAGE));
  assert_digits_act (book);
  gtk_window_set_focus (GTK_WINDOW (book->window), NULL);
  app_book_press_in (GTK_WIDGET (book->window), GDK_KEY_8);
  app_book_settle (book);
  g_assert_cmpstr (hs_window_get_page (book->window), ==, "vehicles");
}

/* A booked job opens on what comes next; a key too many writes over nothing. */
static void
test_into_a_job (AppBook *book, gconstpointer data)
{
  GtkWidget *page, *form;

  app_book_show (book, "jobs");
  gtk_widget_grab_focus (find_tag (GTK_WIDGET (book->window), "A-0024"));
  g_signal_emit_by_name (get_focus (book), "activated");
  hs_app_test_wait (hs_window_get_job (book->window) != NULL);
  page = hs_window_get_job (book->window);
  hs_app_test_wait (hs_job_page_is_ready (HS_JOB_PAGE (page)));
  app_book_settle (book);
  g_assert_true (get_focus (book) == hs_app_test_button (page, "Time given"));
  form = hs_app_test_find (page, HS_TYPE_CALL_FORM);
  app_book_press (book, GDK_KEY_5);
  app_book_settle (book);
  g_assert_cmpstr (hs_call_form_get_phone (HS_CALL_FORM (form)), ==, "555-0114");
  hs_call_form_go (HS_CALL_FORM (form), "phone", NULL);
  app_book_press (book, GDK_KEY_9);
  g_assert_cmpstr (hs_call_form_get_phone (HS_CALL_FORM (form)), ==, "555-01149");
}

/* From wherever one comes, the keys are the view's at once; also where nothing is on it yet. */
static void
test_go_to_empty (AppBook *book, gconstpointer data)
{
  for (guint i = 0; i < 10; i++)
    {
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.go-to", NULL));
      app_book_settle (book);
      app_book_press_in (app_book_find_top (book), GDK_KEY_KP_1 + i % 5);
      app_book_settle (book);
      g_assert_null (app_book_find_top (book));
      hs_app_test_frames ();
      /* The parts run and the money are read; nothing on them takes it. */
      g_assert_true (i % 5 == 2 || i % 5 == 4
                     || (get_focus (book) != NULL
                         && gtk_widget_is_ancestor (get_focus (book), hs_window_get_visible_page (book->window))));
      if (i % 5 == 0)
        g_assert_true (hs_app_test_says (get_focus (book), "Take a Call"));
    }
}

/* One key and a digit go to any view, and from a job to its stages. */
static void
test_go_to (AppBook *book, gconstpointer data)
{
  static const char *const views[] = { "jobs", "today", "parts", "vehicles", "money" };

  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    {
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.go-to", NULL));
      app_book_settle (book);
      if (i == 0)
        hs_app_test_picture (app_book_find_top (book), "go-to");
      app_book_press_in (app_book_find_top (book), GDK_KEY_KP_1 + i);
      app_book_settle (book);
      g_assert_null (app_book_find_top (book));
      g_assert_cmpstr (hs_window_get_page (book->window), ==, views[i]);
      g_assert_true (i == 2 || i == 4
                     || (get_focus (book) != NULL
                         && gtk_widget_is_ancestor (get_focus (book), hs_window_get_visible_page (book->window))));
    }
  app_book_open_job (book, "A-0024", "call");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.go-to", NULL));
  app_book_settle (book);
  app_book_press_in (app_book_find_top (book), GDK_KEY_7);
  app_book_settle (book);
  g_assert_nonnull (hs_app_test_window (HS_TYPE_STAGE_WINDOW));
  shut (book);
  /* A digit means the same from everywhere. */
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.go-to", NULL));
  app_book_settle (book);
  app_book_press_in (app_book_find_top (book), GDK_KEY_6);
  app_book_settle (book);
  g_assert_nonnull (hs_app_test_window (HS_TYPE_SET_UP_WINDOW));
  shut (book);
}

static GtkWidget *
first_of (GtkWidget *page, GType type)
{
  GtkWidget *found = hs_app_test_find (page, type);

  g_assert_nonnull (found);
  return found;
}

static void
test_over_a_day (AppBook *book, gconstpointer data)
{
  static const Over overs[] = {
    { NULL, "F3", NULL, hs_call_slip_window_get_type },
    { NULL, "F5", NULL, hs_squeeze_window_get_type },
    { NULL, "F6", NULL, hs_why_window_get_type },
    { NULL, NULL, "page.share", hs_share_window_get_type },
  };
  GtkWidget *page = app_book_show (book, "today");

  for (guint i = 0; i < G_N_ELEMENTS (overs); i++)
    {
      GtkWidget *focus;

      g_assert_true (gtk_widget_activate_action (page, "page.next-line", NULL));
      app_book_settle (book);
      focus = get_focus (book);
      g_assert_true (focus != NULL && gtk_widget_is_ancestor (focus, page));
      open_over (book, &overs[i]);
      shut (book);
      g_assert_true (get_focus (book) == focus);
    }
}

/* Where a job's page has the cursor before something is opened over it: in the field of that kind on that face. */
typedef struct
{
  Over over;
  const char *face;
  GType (*in) (void);
} OverJob;

static void
test_over_a_job (AppBook *book, gconstpointer data)
{
  static const OverJob overs[] = {
    { { "A-0021", "F3", NULL, hs_call_slip_window_get_type }, "call", hs_field_row_get_type },
    { { "A-0021", "F5", NULL, hs_squeeze_window_get_type }, "call", hs_field_row_get_type },
    { { "A-0021", "F6", NULL, hs_usual_window_get_type }, "call", hs_field_row_get_type },
    { { "A-0021", "F7", NULL, hs_customer_window_get_type }, "call", hs_field_row_get_type },
    { { "A-0021", "F8", NULL, hs_hand_off_window_get_type }, "call", hs_field_row_get_type },
    { { "A-0021", NULL, "page.stages", hs_stage_window_get_type }, "call", hs_field_row_get_type },
    { { "A-0021", NULL, "win.print", hs_print_window_get_type }, "choices", hs_choices_pane_get_type },
    { { "A-0021", NULL, "choices.new", hs_option_window_get_type }, "choices", hs_choices_pane_get_type },
    { { "A-0021", NULL, "choices.go-ahead", hs_go_ahead_window_get_type }, "choices", hs_choices_pane_get_type },
    { { "A-0022", ".", NULL, hs_limit_window_get_type }, "findings", hs_findings_get_type },
    { { "A-0021", "=", NULL, hs_work_out_window_get_type }, "findings", hs_findings_get_type },
    { { "A-0021", "F3", NULL, hs_call_slip_window_get_type }, "findings", hs_findings_get_type },
    { { "A-0021", NULL, "photos.camera", hs_camera_window_get_type }, "photos", hs_photo_pane_get_type },
    { { "A-0021", "F4", NULL, hs_way_window_get_type }, "call", hs_field_row_get_type },
    { { "A-0021", "F4", NULL, hs_safety_window_get_type }, "call", hs_field_row_get_type },
  };

  for (guint i = 0; i < G_N_ELEMENTS (overs); i++)
    {
      GtkWidget *page = app_book_open_job (book, overs[i].over.number, overs[i].face);
      GtkWidget *in = first_of (page, overs[i].in ());
      GtkWidget *focus;

      hs_app_test_frames ();
      if (g_str_equal (overs[i].over.number, "A-0022"))
        {
          app_book_type (book, "1");
          hs_findings_go (hs_job_page_get_findings (HS_JOB_PAGE (page)), "battery_rest", NULL);
          app_book_settle (book);
        }
      if (get_focus (book) == NULL || !gtk_widget_is_ancestor (get_focus (book), in))
        g_assert_true (gtk_widget_child_focus (in, GTK_DIR_TAB_FORWARD));
      focus = get_focus (book);
      open_over (book, &overs[i].over);
      shut (book);
      if (get_focus (book) != focus)
        g_error ("%s: %s %s leaves the cursor on %s", overs[i].over.number, overs[i].face,
                 overs[i].over.keys != NULL ? overs[i].over.keys : overs[i].over.action,
                 get_focus (book) != NULL ? G_OBJECT_TYPE_NAME (get_focus (book)) : "nothing");
    }
}

/* With the line around it, in whatever it scrolls in. */
static gboolean
is_in_sight (GtkWidget *focus)
{
  graphene_rect_t box;

  g_main_context_iteration (NULL, FALSE);
  for (GtkWidget *at = focus; at != NULL; at = gtk_widget_get_parent (at))
    if (at != focus && GTK_IS_SCROLLED_WINDOW (at)
        && (!gtk_widget_compute_bounds (focus, at, &box) || box.origin.y < 5
            || box.origin.y + box.size.height + 5 > gtk_widget_get_height (at)))
      return FALSE;
  return TRUE;
}

/* Whether the picture has the color of the focus line where the pane has its edge. */
static gboolean
is_ringed (AppBook *book, GtkWidget *pane)
{
  g_autofree char *path = g_build_filename (book->folder, "ring.png", NULL);
  g_autoptr (GdkPixbuf) picture = NULL;
  g_autoptr (GError) error = NULL;
  graphene_rect_t box;
  const guint8 *dots;

  g_assert_true (gtk_widget_compute_bounds (pane, GTK_WIDGET (book->window), &box));
  hs_shots_save (GTK_WIDGET (book->window), path, &error);
  g_assert_no_error (error);
  picture = gdk_pixbuf_new_from_file (path, &error);
  g_assert_no_error (error);
  dots = gdk_pixbuf_read_pixels (picture);
  for (guint i = 0; i < 4; i++)
    {
      int x = (int) (i < 2 ? box.origin.x + 1 : box.origin.x + box.size.width - 2);
      int y = (int) (i % 2 == 0 ? box.origin.y + box.size.height / 2 : box.origin.y + box.size.height - 2);
      const guint8 *dot = dots + y * gdk_pixbuf_get_rowstride (picture) + x * gdk_pixbuf_get_n_channels (picture);

      if (dot[0] != 0x8a || dot[1] != 0x3d || dot[2] != 0x0e)
        return FALSE;
    }
  return TRUE;
}

/* On coming back the cursor may be on the whole face: its line is drawn whole, no piece of it under the head. */
static void
test_ring_of_a_face (AppBook *book, gconstpointer data)
{
  static const int sizes[][2] = { { 1280, 800 }, { 1024, 600 }, { 360, 640 } };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree char *name = g_strdup_printf ("bill-back-%d", sizes[i][0]);
      GtkWidget *page;

      gtk_window_set_default_size (GTK_WINDOW (book->window), sizes[i][0], sizes[i][1]);
      hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == sizes[i][0]);
      page = app_book_open_job (book, "A-0021", "bill");
      hs_app_test_frames ();
      app_book_keys (book, "2\x1b");
      app_book_press (book, GDK_KEY_Page_Up);
      app_book_settle (book);
      app_book_press (book, GDK_KEY_Page_Down);
      app_book_settle (book);
      gtk_window_set_focus_visible (GTK_WINDOW (book->window), TRUE);
      hs_app_test_frames ();
      hs_app_test_frames ();
      g_assert_true (get_focus (book) == first_of (page, HS_TYPE_BILL_PANE));
      g_assert_true (is_ringed (book, get_focus (book)));
      hs_app_test_picture (GTK_WIDGET (book->window), name);
    }
}

static GtkWidget *
find_open_popover (GtkWidget *widget)
{
  if (GTK_IS_POPOVER (widget) && gtk_widget_get_mapped (widget))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_open_popover (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static GtkAdjustment *
find_scrolling (GtkWidget *widget)
{
  for (GtkWidget *at = widget; at != NULL; at = gtk_widget_get_parent (at))
    if (GTK_IS_SCROLLED_WINDOW (at))
      {
        GtkAdjustment *by = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (at));

        if (gtk_adjustment_get_upper (by) > 2 * gtk_adjustment_get_page_size (by))
          return by;
      }
  return NULL;
}

/* A list that hangs from a field goes with it: GTK would look for the screen that the field is on, and there is none
 * where it was scrolled off all of them. */
static void
test_list_scrolled_away (AppBook *book, gconstpointer data)
{
  for (guint i = 0; i < 2; i++)
    {
      GtkWidget *page, *list;
      GtkAdjustment *by;

      gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 640);
      hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == 360);
      page = app_book_open_job (book, "A-0026", "call");
      hs_app_test_frames ();
      list = hs_app_test_find (page, GTK_TYPE_DROP_DOWN);
      by = find_scrolling (list);
      g_assert_nonnull (by);
      gtk_adjustment_set_value (by, 0);
      g_assert_true (gtk_widget_grab_focus (gtk_widget_get_first_child (list)));
      hs_app_test_frames ();
      g_signal_emit_by_name (list, "activate");
      hs_app_test_wait ((g_main_context_iteration (NULL, FALSE), find_open_popover (list) != NULL));
      hs_app_test_frames ();
      gtk_adjustment_set_value (by, gtk_adjustment_get_upper (by));
      hs_app_test_wait ((g_main_context_iteration (NULL, FALSE), find_open_popover (list) == NULL));
      hs_app_test_frames ();
      g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (book->window)));
    }
}

/* What has the cursor was scrolled away: Enter shows it first, and opens it then. */
static void
test_list_out_of_sight (AppBook *book, gconstpointer data)
{
  GtkWidget *page, *list;
  GtkAdjustment *by;

  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 640);
  hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (book->window)) == 360);
  page = app_book_open_job (book, "A-0026", "call");
  hs_app_test_frames ();
  list = hs_app_test_find (page, GTK_TYPE_DROP_DOWN);
  by = find_scrolling (list);
  g_assert_true (gtk_widget_grab_focus (gtk_widget_get_first_child (list)));
  hs_app_test_frames ();
  hs_app_test_frames ();
  hs_app_test_frames ();
  g_assert_false (hs_app_test_key (get_focus (book), GDK_KEY_Return, 0));
  gtk_adjustment_set_value (by, gtk_adjustment_get_upper (by));
  hs_app_test_frames ();
  g_assert_false (is_in_sight (get_focus (book)));
  g_assert_true (hs_app_test_key (get_focus (book), GDK_KEY_Return, 0));
  hs_app_test_wait (is_in_sight (get_focus (book)));
  g_assert_null (find_open_popover (list));
  g_assert_false (hs_app_test_key (get_focus (book), GDK_KEY_Return, 0));
}

int
main (int argc, char **argv)
{
  hs_app_test_init (&argc, &argv);
  g_test_add ("/back/over-the-board", AppBook, NULL, app_book_open, test_over_the_board, app_book_close);
  g_test_add ("/back/out-of-a-job", AppBook, NULL, app_book_open, test_out_of_a_job, app_book_close);
  g_test_add ("/back/from-the-bars", AppBook, NULL, app_book_open, test_from_the_bars, app_book_close);
  g_test_add ("/back/into-a-job", AppBook, NULL, app_book_open, test_into_a_job, app_book_close);
  g_test_add ("/back/go-to", AppBook, NULL, app_book_open, test_go_to, app_book_close);
  g_test_add ("/back/go-to-empty", AppBook, NULL, app_book_open_new, test_go_to_empty, app_book_close);
  g_test_add ("/back/ring-of-a-face", AppBook, NULL, app_book_open, test_ring_of_a_face, app_book_close);
  g_test_add ("/back/list-scrolled-away", AppBook, NULL, app_book_open, test_list_scrolled_away, app_book_close);
  g_test_add ("/back/list-out-of-sight", AppBook, NULL, app_book_open, test_list_out_of_sight, app_book_close);
  g_test_add ("/back/over-a-day", AppBook, NULL, app_book_open, test_over_a_day, app_book_close);
  g_test_add ("/back/over-a-job", AppBook, NULL, app_book_open, test_over_a_job, app_book_close);
  return g_test_run ();
}
