// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Nothing typed is ever lost: it is there again when the job is opened again, from wherever, and it is gone from there
 * once the book has it as what it is. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-call-form.h"
#include "hs-call-slip-window.h"
#include "hs-draft.h"
#include "hs-job-page.h"
#include "hs-option-window.h"

static HsFindings *
findings_of (AppBook *book)
{
  return hs_job_page_get_findings (HS_JOB_PAGE (hs_window_get_job (book->window)));
}

/* Fields of the open job in which text stands that is not stored, as "page/field=text". */
static char *
dup_typed (AppBook *book)
{
  const char *id = hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window)));
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_drafts, (GDestroyNotify) g_ptr_array_unref);
  GString *text = g_string_new (NULL);
  GPtrArray *drafts;

  hs_question_ask (ask, g_variant_new ("(ms)", id));
  app_book_settle (book);
  drafts = hs_question_get (ask);
  for (guint i = 0; i < drafts->len; i++)
    {
      const HsWhere *draft = g_ptr_array_index (drafts, i);

      if (*draft->text != '\0')
        g_string_append_printf (text, "%s%s/%s=%s", text->len > 0 ? " " : "", draft->page, draft->field, draft->text);
    }
  g_object_unref (ask);
  return g_string_free (text, FALSE);
}

static void
wait_for_disk (AppBook *book)
{
  gint64 end = g_get_monotonic_time () + (HS_DRAFT_MILLISECONDS + 100) * 1000;

  while (g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
  app_book_settle (book);
}

#define ASSERT_TYPED(book, expected) \
  G_STMT_START \
  { \
    g_autofree char *hs_typed = dup_typed (book); \
    g_assert_cmpstr (hs_typed, ==, expected); \
  } \
  G_STMT_END

/* Left in the middle of a figure for another job, and back by the list. */
static void
test_half_a_reading (AppBook *book, gconstpointer data)
{
  app_book_open_job (book, "A-0024", "findings");
  app_book_type (book, "1");
  app_book_type (book, "1242\n");
  hs_findings_go (findings_of (book), "cranking", NULL);
  app_book_type (book, "870");
  app_book_open_job (book, "A-0022", "call");
  wait_for_disk (book);
  app_book_open_job (book, "A-0024", "findings");
  g_assert_cmpstr (hs_findings_get_text (findings_of (book)), ==, "870");
  ASSERT_TYPED (book, "findings/cranking=870");
  /* Stored, it is a reading and nothing else. */
  app_book_type (book, "\n");
  wait_for_disk (book);
  ASSERT_TYPED (book, "");
  app_book_open_job (book, "A-0022", "call");
  app_book_open_job (book, "A-0024", "findings");
  g_assert_cmpstr (hs_findings_get_text (findings_of (book)), ==, "");
}

/* A hand that is quicker than the disk: what is pressed while a reading is on its way is the next line's. */
static void
test_quick_hand (AppBook *book, gconstpointer data)
{
  app_book_open_job (book, "A-0024", "findings");
  app_book_type (book, "1");
  hs_findings_go (findings_of (book), "battery_rest", NULL);
  for (const char *key = "1242\n5"; *key != '\0'; key++)
    app_book_press (book, *key == '\n' ? GDK_KEY_Return : gdk_unicode_to_keyval ((guint32) *key));
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (book->window), "12.42"));
  g_assert_cmpstr (hs_findings_get_text (findings_of (book)), ==, "5");
  /* What was refused stays with its reason, and nothing is added to it. */
  hs_findings_go (findings_of (book), "battery_rest", NULL);
  for (const char *key = "99999999\n7"; *key != '\0'; key++)
    app_book_press (book, *key == '\n' ? GDK_KEY_Return : gdk_unicode_to_keyval ((guint32) *key));
  app_book_settle (book);
  g_assert_cmpstr (hs_findings_get_text (findings_of (book)), ==, "99999999");
}

/* Whichever tab it is opened on. */
static void
test_from_another_tab (AppBook *book, gconstpointer data)
{
  app_book_open_job (book, "A-0024", "findings");
  app_book_type (book, "1");
  app_book_type (book, "12");
  wait_for_disk (book);
  app_book_open_job (book, "A-0024", "bill");
  g_assert_cmpstr (hs_findings_get_text (findings_of (book)), ==, "12");
}

/* A field of the call that was left is in the book at once, and no draft of it can write over what another device says
 * later. */
static void
test_call_field (AppBook *book, gconstpointer data)
{
  GtkWidget *page = app_book_open_job (book, "A-0024", "call");
  GtkWidget *words = NULL;

  for (GtkWidget *form = hs_app_test_find (page, HS_TYPE_CALL_FORM); form != NULL; form = NULL)
    words = GTK_WIDGET (gtk_widget_get_template_child (form, HS_TYPE_CALL_FORM, "street"));
  g_assert_true (gtk_widget_grab_focus (words));
  app_book_type (book, "9 Coble");
  wait_for_disk (book);
  ASSERT_TYPED (book, "call/street=9 Coble");
  gtk_widget_child_focus (GTK_WIDGET (book->window), GTK_DIR_TAB_FORWARD);
  app_book_settle (book);
  ASSERT_TYPED (book, "");
}

/* Every pane with a field, what is pressed to be in it, and what is typed there. */
static const struct
{
  const char *page;
  const char *keys;
  const char *typed;
} panes[] = {
  { "call", NULL, "9 Coble" },
  { "findings", "1", "124" },
  { "why", "\n", "battery em" },
  { "bill", "2", "first-time cust" },
  { "after", "1", "heater rel" },
};

static GtkWidget *
enter (AppBook *book, guint pane)
{
  GtkWidget *page = app_book_open_job (book, "A-0024", panes[pane].page);

  if (panes[pane].keys != NULL)
    app_book_type (book, panes[pane].keys);
  else
    hs_call_form_go (HS_CALL_FORM (hs_app_test_find (page, HS_TYPE_CALL_FORM)), "street", NULL);
  app_book_settle (book);
  return page;
}

/* The text at the cursor, and where that stands in it. */
static char *
dup_at_cursor (AppBook *book, guint pane)
{
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (book->window));

  if (g_str_equal (panes[pane].page, "findings"))
    return g_strdup (hs_findings_get_text (findings_of (book)));
  g_assert_true (GTK_IS_EDITABLE (focus));
  return g_strdup_printf ("%s @%d", gtk_editable_get_text (GTK_EDITABLE (focus)),
                          gtk_editable_get_position (GTK_EDITABLE (focus)));
}

/* The phone rings while something is being typed: F3, digits, Esc, and the next letter goes where it would have
 * gone. */
static void
test_slip_over_all (AppBook *book, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (panes); i++)
    {
      GtkWidget *focus, *slip;
      g_autofree char *before = NULL, *after = NULL;

      enter (book, i);
      app_book_type (book, panes[i].typed);
      focus = gtk_root_get_focus (GTK_ROOT (book->window));
      before = dup_at_cursor (book, i);
      app_book_press (book, GDK_KEY_F3);
      app_book_settle (book);
      slip = hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW);
      g_assert_nonnull (slip);
      for (const char *digit = "5550"; *digit != '\0'; digit++)
        app_book_press_in (slip, gdk_unicode_to_keyval ((guint32) *digit));
      app_book_press_in (slip, GDK_KEY_Escape);
      app_book_settle (book);
      g_assert_null (hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW));
      after = dup_at_cursor (book, i);
      g_assert_cmpstr (after, ==, before);
      g_assert_true (gtk_root_get_focus (GTK_ROOT (book->window)) == focus);
    }
}

/* Killed in whichever pane: it reopens there by itself, with what was typed. */
static void
test_reopens_in_all (AppBook *book, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (panes); i++)
    {
      g_autofree char *before = NULL, *after = NULL, *typed = NULL;

      enter (book, i);
      app_book_type (book, panes[i].typed);
      before = dup_at_cursor (book, i);
      wait_for_disk (book);
      typed = dup_typed (book);
      g_assert_nonnull (strstr (typed, panes[i].typed));
      app_book_close_window (book);
      app_book_open_window (book);
      hs_app_test_wait (hs_window_get_job (book->window) != NULL
                        && hs_job_page_is_ready (HS_JOB_PAGE (hs_window_get_job (book->window))));
      app_book_settle (book);
      hs_app_test_frames ();
      after = dup_at_cursor (book, i);
      g_test_message ("%s in %s: %s", panes[i].typed, panes[i].page, after);
      g_assert_nonnull (strstr (after, panes[i].typed));
    }
}

static const char *
text_in (GtkWidget *window)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  g_assert_true (GTK_IS_EDITABLE (focus));
  return gtk_editable_get_text (GTK_EDITABLE (focus));
}

/* An option that is being worded when the power goes, in a window of its own. */
static void
test_option (AppBook *book, gconstpointer data)
{
  GtkWidget *option;

  app_book_open_job (book, "A-0024", "choices");
  g_assert_true (gtk_widget_activate_action (gtk_root_get_focus (GTK_ROOT (book->window)), "choices.new", NULL));
  app_book_settle (book);
  option = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  for (const char *key = "move the tracker"; *key != '\0'; key++)
    app_book_press_in (option, gdk_unicode_to_keyval ((guint32) *key));
  wait_for_disk (book);
  ASSERT_TYPED (book, "choices/wording=move the tracker");
  app_book_close_window (book);
  app_book_open_window (book);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_OPTION_WINDOW) != NULL);
  app_book_settle (book);
  option = hs_app_test_window (HS_TYPE_OPTION_WINDOW);
  g_assert_cmpstr (text_in (option), ==, "move the tracker");
  gtk_window_close (GTK_WINDOW (option));
  wait_for_disk (book);
  /* Left, it is an option. */
  ASSERT_TYPED (book, "");
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (book->window), "move the tracker"));
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/keep/half-a-reading", test_half_a_reading);
  ADD ("/keep/quick-hand", test_quick_hand);
  ADD ("/keep/from-another-tab", test_from_another_tab);
  ADD ("/keep/call-field", test_call_field);
  ADD ("/keep/slip-over-all", test_slip_over_all);
  ADD ("/keep/option", test_option);
  ADD ("/keep/reopens-in-all", test_reopens_in_all);
  return g_test_run ();
}
