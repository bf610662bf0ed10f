// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the tests at the vehicle share. */

#include "app-arrive.h"

#include "hs-app-test.h"
#include "hs-job-page.h"
#include "hs-safety-window.h"

HsQuestion *
app_arrive_ask_job (AppBook *book, const char *job_id)
{
  g_autoptr (HsQuestion) asked = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);

  hs_question_ask (asked, g_variant_new ("(s)", job_id));
  app_book_settle (book);
  return g_steal_pointer (&asked);
}

HsQuestion *
app_arrive_ask (AppBook *book, GtkWidget *page)
{
  return app_arrive_ask_job (book, hs_job_page_get_job_id (HS_JOB_PAGE (page)));
}

const HsArrival *
app_arrive_of (HsQuestion *asked)
{
  return ((const HsJobShot *) hs_question_get (asked))->arrival;
}

void
app_arrive_press_in (AppBook *book, GtkWidget *window, guint keyval)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  if (!hs_app_test_key (focus != NULL ? focus : window, keyval, 0))
    {
      gunichar letter = gdk_keyval_to_unicode (keyval);
      char text[7] = { 0 };
      int end = -1;

      if (GTK_IS_TEXT (focus) && keyval == GDK_KEY_Return)
        g_signal_emit_by_name (focus, "activate");
      else if (GTK_IS_BUTTON (focus) && keyval == GDK_KEY_Return)
        g_signal_emit_by_name (focus, "clicked");
      else if (GTK_IS_TEXT (focus) && letter >= 32)
        {
          g_unichar_to_utf8 (letter, text);
          gtk_editable_insert_text (GTK_EDITABLE (focus), text, -1, &end);
          gtk_editable_set_position (GTK_EDITABLE (focus), -1);
        }
    }
  app_book_settle (book);
}

void
app_arrive_type_in (AppBook *book, GtkWidget *window, const char *keys)
{
  for (const char *at = keys; *at != '\0'; at++)
    app_arrive_press_in (book, window, *at == '\n' ? GDK_KEY_Return : gdk_unicode_to_keyval ((guchar) *at));
}

/* F4 and F4: rolling, at the vehicle. */
GtkWidget *
app_arrive_at (AppBook *book, GtkWidget *page)
{
  for (guint i = 0; i < 2; i++)
    app_book_next_stage (book, page);
  return hs_app_test_window (HS_TYPE_SAFETY_WINDOW);
}

HsFieldRow *
app_arrive_row (GtkWidget *card, const char *id)
{
  for (GtkWidget *at = gtk_widget_get_first_child (card); at != NULL; at = gtk_widget_get_next_sibling (at))
    {
      HsFieldRow *found = HS_IS_FIELD_ROW (at) && g_str_equal (hs_field_row_get_id (HS_FIELD_ROW (at)), id)
                              ? HS_FIELD_ROW (at) : app_arrive_row (at, id);

      if (found != NULL)
        return found;
    }
  return NULL;
}

gboolean
app_arrive_has_cursor (AppBook *book, HsFieldRow *row)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (book->window));

  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (row));
}
