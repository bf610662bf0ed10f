// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the tests of the pages share. */

#include "app-book.h"

#include <glib/gstdio.h>

#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-job-page.h"
#include "hs-roll-window.h"
#include "hs-room.h"
#include "hs-safety-op.h"
#include "hs-shop.h"

void
app_book_settle (AppBook *book)
{
  gboolean busy = TRUE;

  /* An answer may ask the next question, and a layout may bind rows: until a round brings nothing more. A cursor that
   * blinks does so for ever. */
  for (int round = 0; round < 4 || (busy && round < 20); round++)
    {
      hs_ledger_wait (book->ledger);
      busy = FALSE;
      while (g_main_context_iteration (NULL, FALSE))
        busy = TRUE;
    }
}

static void
open_window (AppBook *book, HsLedgerOpen how)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_utc ();
  g_autoptr (HsClock) clock = hs_clock_new (zone);
  HsShop *shop;

  book->window = hs_window_new (NULL, clock);
  shop = hs_shop_new (book->window);
  book->ledger = hs_shop_get_ledger (shop);
  hs_shop_freeze (shop, "2026-03-10T07:52");
  hs_shop_open (shop, book->path, how);
  hs_app_test_show (GTK_WIDGET (book->window), 1280, 800);
  hs_app_test_wait (hs_ledger_is_open (book->ledger));
  app_book_settle (book);
}

void
app_book_open_window (AppBook *book)
{
  open_window (book, HS_LEDGER_DEMO);
}

void
app_book_close_window (AppBook *book)
{
  gtk_window_destroy (GTK_WINDOW (book->window));
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

static void
open_in_folder (AppBook *book, const char *name, HsLedgerOpen how)
{
  g_autoptr (GError) error = NULL;

  book->folder = g_dir_make_tmp (NULL, &error);
  g_assert_no_error (error);
  book->path = g_build_filename (book->folder, name, NULL);
  open_window (book, how);
}

void
app_book_open (AppBook *book, gconstpointer data)
{
  open_in_folder (book, "demo.hsbook", HS_LEDGER_DEMO);
}

void
app_book_open_new (AppBook *book, gconstpointer data)
{
  open_in_folder (book, "mine.hsbook", HS_LEDGER_NEW);
}

void
app_book_close (AppBook *book, gconstpointer data)
{
  g_autoptr (GDir) dir = NULL;
  const char *name;

  app_book_close_window (book);
  dir = g_dir_open (book->folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (book->folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (book->folder);
  g_free (book->path);
  g_free (book->folder);
}

GtkWidget *
app_book_show (AppBook *book, const char *page)
{
  hs_window_show_page (book->window, page);
  app_book_settle (book);
  return hs_window_get_visible_page (book->window);
}

/* The window's own keys, which stand behind all others. */
static gboolean
window_takes (GtkWidget *window, guint keyval)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (window);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);

      for (guint j = 0; G_IS_LIST_MODEL (controller) && j < g_list_model_get_n_items (G_LIST_MODEL (controller)); j++)
        {
          g_autoptr (GtkShortcut) shortcut = g_list_model_get_item (G_LIST_MODEL (controller), j);
          GtkShortcutTrigger *trigger = gtk_shortcut_get_trigger (shortcut);

          if (GTK_IS_KEYVAL_TRIGGER (trigger)
              && gtk_keyval_trigger_get_keyval (GTK_KEYVAL_TRIGGER (trigger)) == keyval
              && gtk_keyval_trigger_get_modifiers (GTK_KEYVAL_TRIGGER (trigger)) == 0
              && gtk_shortcut_action_activate (gtk_shortcut_get_action (shortcut), 0, window,
                                               gtk_shortcut_get_arguments (shortcut)))
            return TRUE;
        }
    }
  return FALSE;
}

/* @page: where a key goes while nothing has the focus. */
static void
press_in (GtkWidget *window, GtkWidget *page, guint keyval)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (window));

  /* Controllers that catch keys on their way down see them first. */
  if (hs_app_test_key (focus != NULL ? focus : page, keyval, 0))
    return;
  if (GTK_IS_EDITABLE (focus) && gdk_keyval_to_unicode (keyval) >= 32)
    {
      char text[7] = { 0 };
      int at = -1;

      g_unichar_to_utf8 (gdk_keyval_to_unicode (keyval), text);
      gtk_editable_delete_selection (GTK_EDITABLE (focus));
      gtk_editable_insert_text (GTK_EDITABLE (focus), text, -1, &at);
    }
  else if (GTK_IS_TEXT (focus) && (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter))
    g_signal_emit_by_name (focus, "activate");
  else
    window_takes (window, keyval);
}

void
app_book_press (AppBook *book, guint keyval)
{
  static const char *const f_keys[] = { "where-was-i", "call-slip", "next-stage", "squeeze-in", "why",  "customer",
                                        "lock",        "side",      "undo" };
  g_autofree char *action = NULL;

  /* The program's own keys, which stand before all others. */
  if (keyval < GDK_KEY_F2 || keyval > GDK_KEY_F10)
    {
      press_in (GTK_WIDGET (book->window), hs_window_get_visible_page (book->window), keyval);
      return;
    }
  action = g_strconcat ("win.", f_keys[keyval - GDK_KEY_F2], NULL);
  gtk_widget_activate_action (GTK_WIDGET (book->window), action, NULL);
}

void
app_book_press_in (GtkWidget *window, guint keyval)
{
  press_in (window, window, keyval);
}

guint
app_book_type (AppBook *book, const char *keys)
{
  guint n = 0;

  for (const char *at = keys; *at != '\0'; at = g_utf8_next_char (at))
    {
      app_book_press (book, *at == '\n' ? GDK_KEY_Return : gdk_unicode_to_keyval (g_utf8_get_char (at)));
      app_book_settle (book);
      n++;
    }
  return n;
}

GtkWidget *
app_book_find_top (AppBook *book)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();
  GtkWidget *top = GTK_WIDGET (book->window);
  gboolean found = TRUE;

  while (found)
    {
      found = FALSE;
      for (GList *at = windows; at != NULL && !found; at = at->next)
        if (gtk_widget_get_visible (at->data) && gtk_window_get_transient_for (at->data) == GTK_WINDOW (top))
          {
            top = at->data;
            found = TRUE;
          }
    }
  return top == GTK_WIDGET (book->window) ? NULL : top;
}

static void
press_on_top (AppBook *book, guint keyval)
{
  GtkWidget *top = app_book_find_top (book);

  if (top == NULL)
    app_book_press (book, keyval);
  else
    app_book_press_in (top, keyval);
  app_book_settle (book);
  /* A window that comes or goes takes some frames. */
  if (app_book_find_top (book) != NULL || top != NULL)
    hs_app_test_frames ();
}

guint
app_book_keys (AppBook *book, const char *keys)
{
  guint n = 0;

  for (const char *at = keys; *at != '\0'; at = g_utf8_next_char (at), n++)
    if (*at == 'F' && g_ascii_isdigit (at[1]))
      press_on_top (book, GDK_KEY_F1 + (guint) (*++at - '1'));
    else if (*at == '^')
      press_on_top (book, GDK_KEY_Page_Down);
    else if (*at == '~')
      press_on_top (book, GDK_KEY_Insert);
    else if (*at == '\n')
      press_on_top (book, GDK_KEY_Return);
    else if (*at == '\x1b')
      press_on_top (book, GDK_KEY_Escape);
    else
      press_on_top (book, gdk_unicode_to_keyval (g_utf8_get_char (at)));
  return n;
}

void
app_book_next_stage (AppBook *book, GtkWidget *page)
{
  GtkWidget *asked;

  g_assert_true (gtk_widget_activate_action (page, "page.next-stage", NULL));
  app_book_settle (book);
  asked = hs_app_test_window (HS_TYPE_ROLL_WINDOW);
  if (asked == NULL)
    return;
  app_book_press_in (asked, GDK_KEY_1);
  app_book_settle (book);
}

GtkWidget *
app_book_open_job (AppBook *book, const char *number, const char *page)
{
  g_autofree char *text = g_strdup_printf ("%s/%s", number, page);

  g_action_group_activate_action (G_ACTION_GROUP (book->window), "open-number", g_variant_new_string (text));
  hs_app_test_wait (hs_window_get_job (book->window) != NULL
                    && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
  app_book_settle (book);
  return hs_window_get_job (book->window);
}

void
app_book_assert_fits (AppBook *book, GtkWidget *page, int width, int height)
{
  GtkWidget *content = gtk_widget_get_first_child (hs_app_test_find (GTK_WIDGET (book->window), HS_TYPE_ROOM));
  GtkWidget *list = gtk_widget_get_parent (hs_app_test_find (page, GTK_TYPE_LIST_VIEW));
  int least_width, least_height, page_width;

  gtk_widget_measure (content, GTK_ORIENTATION_HORIZONTAL, -1, &least_width, NULL, NULL, NULL);
  gtk_widget_measure (content, GTK_ORIENTATION_VERTICAL, width, &least_height, NULL, NULL, NULL);
  gtk_widget_measure (page, GTK_ORIENTATION_HORIZONTAL, -1, &page_width, NULL, NULL, NULL);
  g_test_message ("%d × %d: needs %d × %d, page %d wide, list of %d px", width, height, least_width, least_height,
                  page_width, gtk_widget_get_height (list));
  g_assert_cmpint (least_width, <=, width);
  g_assert_cmpint (page_width, <=, width);
  g_assert_cmpint (least_height, <=, height);
  g_assert_cmpint (gtk_widget_get_height (list), >=, 60);
}

void
app_book_make_safe (AppBook *book, const char *number)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_WRITE, &user, NULL);
  g_autofree char *id = hs_job_find (other, number, NULL);
  g_autoptr (GError) error = NULL;

  hs_safety_finish (other, id, HS_SAFETY_SAFE, NULL, hs_demo_get_now (), &error);
  g_assert_no_error (error);
}
