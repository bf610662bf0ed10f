// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The calculators in the window: found by typing, filled by number pad, judged with every key, sent to the open job. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-calc-field.h"
#include "hs-job-page.h"
#include "hs-shop.h"
#include "hs-verdict-label.h"
#include "hs-work-out-window.h"

static void
assert_says (HsWorkOutWindow *window, const char *text)
{
  if (!hs_app_test_says_part (GTK_WIDGET (window), text))
    g_error ("not shown: %s", text);
}

static HsWorkOutWindow *
open_window (AppBook *book, const char *number)
{
  HsJobPage *job = number != NULL ? HS_JOB_PAGE (app_book_open_job (book, number, "findings")) : NULL;
  HsWorkOutWindow *window;

  window = hs_work_out_window_present (book->window, book->ledger, job != NULL ? hs_job_page_get_job_id (job) : NULL,
                                       number, number != NULL ? "before" : NULL);
  hs_app_test_wait (gtk_widget_get_width (GTK_WIDGET (window)) > 0);
  return window;
}

static void
test_opens_over_the_window (AppBook *book, gconstpointer data)
{
  app_book_show (book, "today");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.work-out", NULL));
  hs_app_test_wait (g_object_get_data (G_OBJECT (book->window), "hs-work-out") != NULL);
  gtk_window_close (g_object_get_data (G_OBJECT (book->window), "hs-work-out"));
  app_book_settle (book);
  g_assert_null (g_object_get_data (G_OBJECT (book->window), "hs-work-out"));
}

static void
test_found_by_typing (AppBook *book, gconstpointer data)
{
  HsWorkOutWindow *window = open_window (book, NULL);
  GtkWidget *search = hs_app_test_find (GTK_WIDGET (window), GTK_TYPE_SEARCH_ENTRY);
  HsCalcSheet *sheet;

  g_assert_nonnull (search);
  assert_says (window, "Battery");
  assert_says (window, "Tire date");
  hs_app_test_picture (GTK_WIDGET (window), "work-out-list");
  gtk_editable_set_text (GTK_EDITABLE (search), "ripple");
  g_signal_emit_by_name (search, "search-changed");
  g_signal_emit_by_name (search, "activate");
  sheet = HS_CALC_SHEET (hs_app_test_find (GTK_WIDGET (window), HS_TYPE_CALC_SHEET));
  g_assert_nonnull (sheet);
  g_assert_cmpstr (hs_calc_sheet_get_calc (sheet)->name, ==, "ripple");
  assert_says (window, "Still needed: AC volts at the posts");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "work-out.back", NULL));
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (window), "Charging ripple"));
  gtk_window_close (GTK_WINDOW (window));
}

/* Digits without a point fill the decimals; what is wrong is said at its field with the range it takes. */
static void
test_judged_with_every_key (AppBook *book, gconstpointer data)
{
  HsWorkOutWindow *window = open_window (book, NULL);
  HsCalcSheet *sheet = hs_work_out_window_choose (window, "charge");

  hs_calc_sheet_fill (sheet, "volts", "1");
  g_assert_null (hs_calc_sheet_get_result (sheet));
  hs_calc_sheet_fill (sheet, "kind", "flooded");
  assert_says (window, "0.01 V");
  assert_says (window, "something still on");
  hs_calc_sheet_fill (sheet, "volts", "1242");
  assert_says (window, "= 12.42 V");
  assert_says (window, "71 %");
  assert_says (window, "12.40 V or more");
  assert_says (window, "Who says so");
  assert_says (window, "common practice");
  hs_app_test_picture (GTK_WIDGET (window), "work-out-charge");
  hs_calc_sheet_fill (sheet, "kind", "AGM");
  assert_says (window, "12.60 V or more");
  gtk_window_close (GTK_WINDOW (window));
}

static void
test_wrong_entries (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *text;
    const char *says;
  } rows[] = {
    { "12,4", "write a point" }, { "-12.4", "leads swapped" }, { "12.4V", "It takes 0 to 20 V." },
    { "99", NULL },              { "9900", "out of range" },   { "nan", "only plain numbers" },
  };
  HsWorkOutWindow *window = open_window (book, NULL);
  HsCalcSheet *sheet = hs_work_out_window_choose (window, "charge");

  hs_calc_sheet_fill (sheet, "kind", "flooded");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      hs_calc_sheet_fill (sheet, "volts", rows[i].text);
      g_assert_true ((hs_calc_sheet_get_result (sheet) != NULL) == (rows[i].says == NULL));
      if (rows[i].says != NULL)
        assert_says (window, rows[i].says);
    }
  hs_app_test_picture (GTK_WIDGET (window), "work-out-wrong");
  gtk_window_close (GTK_WINDOW (window));
}

/* Every calculator fits a phone with its own example filled in, and says who says so. */
static void
test_fits_a_phone (AppBook *book, gconstpointer data)
{
  HsWorkOutWindow *window;
  const HsCalc *calc;

  gtk_window_set_default_size (GTK_WINDOW (book->window), 360, 700);
  hs_app_test_wait (hs_window_get_narrow (book->window));
  window = open_window (book, NULL);
  for (guint i = 0; (calc = hs_calc_get_nth (i)) != NULL; i++)
    {
      HsCalcSheet *sheet = hs_work_out_window_choose (window, calc->name);
      g_auto (GStrv) words = g_strsplit (calc->example, " ", -1);
      int least;

      for (guint j = 0; words[j] != NULL; j++)
        {
          g_auto (GStrv) sides = g_strsplit (words[j], "=", 2);

          /* A whole number as it is, not as digits to be filled up. */
          if (hs_calc_find_key (calc, sides[0])->kind == HS_CALC_NUMBER && strchr (sides[1], '.') == NULL)
            {
              g_autofree char *plain = g_strconcat (sides[1], ".0", NULL);

              hs_calc_sheet_fill (sheet, sides[0], plain);
            }
          else
            hs_calc_sheet_fill (sheet, sides[0], sides[1]);
        }
      g_test_message ("%s", calc->name);
      g_assert_nonnull (hs_calc_sheet_get_result (sheet));
      assert_says (window, "Who says so");
      gtk_widget_measure (GTK_WIDGET (window), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      g_assert_cmpint (least, <=, 360);
    }
  hs_work_out_window_choose (window, "cable");
  assert_says (window, "Still needed: Wire size, AWG or Wire size, mm²");
  hs_work_out_window_choose (window, "drop");
  hs_app_test_picture (GTK_WIDGET (window), "work-out-360");
  gtk_window_close (GTK_WINDOW (window));
}

/* What stands is measured the same with and without a width, or GTK says so, and that is an error here. */
static void
test_back_from_a_result (AppBook *book, gconstpointer data)
{
  HsWorkOutWindow *window = open_window (book, "A-0022");
  HsCalcSheet *sheet = hs_work_out_window_choose (window, "parasitic");
  int least, least_wide;

  hs_calc_sheet_fill (sheet, "amps", "310");
  hs_calc_sheet_fill (sheet, "ah", "60.0");
  gtk_widget_measure (GTK_WIDGET (sheet), GTK_ORIENTATION_VERTICAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_measure (GTK_WIDGET (sheet), GTK_ORIENTATION_VERTICAL, G_MAXINT16, &least_wide, NULL, NULL, NULL);
  g_assert_cmpint (least, >=, least_wide);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "work-out.back", NULL));
  hs_app_test_frames ();
  gtk_window_close (GTK_WINDOW (window));
}

static gboolean
send_waits (HsWorkOutWindow *window)
{
  return !hs_app_test_says_part (GTK_WIDGET (window), "has it.");
}

/* A result whose calculator names a check becomes its reading; any other one a finding in words. */
static void
test_sent_to_the_job (AppBook *book, gconstpointer data)
{
  HsWorkOutWindow *window = open_window (book, "A-0022");
  HsJobPage *job = HS_JOB_PAGE (hs_window_get_job (book->window));
  g_autofree char *id = g_strdup (hs_job_page_get_job_id (job));
  HsCalcSheet *sheet = hs_work_out_window_choose (window, "ripple");
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);
  const HsJobShot *shot;
  gboolean found = FALSE;

  assert_says (window, "Send to A-0022");
  hs_calc_sheet_fill (sheet, "volts", "25");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "work-out.send", NULL));
  app_book_settle (book);
  hs_app_test_wait (!send_waits (window));

  sheet = hs_work_out_window_choose (window, "cable");
  hs_calc_sheet_fill (sheet, "awg", "16");
  hs_calc_sheet_fill (sheet, "meters", "6.0");
  hs_calc_sheet_fill (sheet, "amps", "5.0");
  hs_app_test_picture (GTK_WIDGET (window), "work-out-cable");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "work-out.send", NULL));
  app_book_settle (book);
  hs_app_test_wait (!send_waits (window));

  hs_question_ask (ask, g_variant_new ("(s)", id));
  app_book_settle (book);
  shot = hs_question_get (ask);
  g_assert_nonnull (shot);
  for (guint i = 0; i < shot->sheets[0]->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (shot->sheets[0], i);

      found |= g_strcmp0 (row->check, "ripple") == 0 && g_strcmp0 (row->value_text, "0.25 V AC") == 0;
    }
  g_assert_true (found);
  found = FALSE;
  for (guint i = 0; i < shot->view->findings->len; i++)
    found |= strstr (g_ptr_array_index (shot->view->findings, i), "0.395 V") != NULL;
  g_assert_true (found);
  g_object_unref (ask);
  gtk_window_close (GTK_WINDOW (window));
}

/* "Do not drive" has a box of its own, so that it is never taken for any other bad verdict. */
static void
test_do_not_drive (AppBook *book, gconstpointer data)
{
  HsWorkOutWindow *window = open_window (book, NULL);
  HsCalcSheet *sheet = hs_work_out_window_choose (window, "pads");
  HsVerdictLabel *verdict = HS_VERDICT_LABEL (hs_app_test_find (GTK_WIDGET (sheet), HS_TYPE_VERDICT_LABEL));

  hs_calc_sheet_fill (sheet, "mm", "0.5,4.0");
  g_assert_cmpint (hs_verdict_label_get_shape (verdict), ==, HS_VERDICT_SHAPE_DOUBLE);
  hs_calc_sheet_fill (sheet, "mm", "2.5,4.0");
  g_assert_cmpint (hs_verdict_label_get_shape (verdict), ==, HS_VERDICT_SHAPE_HEAVY);
  gtk_window_close (GTK_WINDOW (window));
}

/* What the calculator was told holds for its reading too: another kind of battery than the vehicle has on record. */
static void
test_sent_with_its_conditions (AppBook *book, gconstpointer data)
{
  HsWorkOutWindow *window = open_window (book, "A-0022");
  g_autofree char *id = g_strdup (hs_job_page_get_job_id (HS_JOB_PAGE (hs_window_get_job (book->window))));
  HsCalcSheet *sheet = hs_work_out_window_choose (window, "charge");
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);
  const HsJobShot *shot;
  const char *limit = NULL;

  hs_calc_sheet_fill (sheet, "kind", "AGM");
  hs_calc_sheet_fill (sheet, "volts", "1245");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "work-out.send", NULL));
  app_book_settle (book);
  hs_app_test_wait (!send_waits (window));

  hs_question_ask (ask, g_variant_new ("(s)", id));
  app_book_settle (book);
  shot = hs_question_get (ask);
  g_assert_nonnull (shot);
  for (guint i = 0; i < shot->sheets[0]->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (shot->sheets[0], i);

      if (g_strcmp0 (row->check, "battery_rest") == 0 && g_strcmp0 (row->value_text, "12.45 V") == 0)
        limit = row->limit;
    }
  g_assert_cmpstr (limit, ==, "12.60 V or more");
  g_object_unref (ask);
  gtk_window_close (GTK_WINDOW (window));
}

/* Without an open job nothing can be sent, and a squared one takes nothing any more. */
static void
test_not_sent (AppBook *book, gconstpointer data)
{
  HsWorkOutWindow *window = open_window (book, NULL);
  HsCalcSheet *sheet = hs_work_out_window_choose (window, "ripple");

  hs_calc_sheet_fill (sheet, "volts", "25");
  g_assert_nonnull (hs_calc_sheet_get_result (sheet));
  g_assert_false (hs_app_test_says_part (GTK_WIDGET (window), "Send to"));
  gtk_window_close (GTK_WINDOW (window));
  app_book_settle (book);
  g_assert_false (hs_job_page_takes_findings (HS_JOB_PAGE (app_book_open_job (book, "A-0001", "findings"))));
  g_assert_true (hs_job_page_takes_findings (HS_JOB_PAGE (app_book_open_job (book, "A-0022", "findings"))));
}

/* What is worked out after the repair is a reading of after the repair. */
static void
test_sent_to_the_phase (AppBook *book, gconstpointer data)
{
  HsJobPage *job = HS_JOB_PAGE (app_book_open_job (book, "A-0022", "findings"));
  HsQuestion *ask = hs_question_new (book->ledger, hs_ask_job, (GDestroyNotify) hs_job_shot_free);
  HsWorkOutWindow *window;
  const HsJobShot *shot;
  guint stored = 0;

  app_book_type (book, "1++");
  g_assert_cmpstr (hs_findings_get_phase (hs_job_page_get_findings (job)), ==, "after");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (book->window), "win.work-out", NULL));
  window = g_object_get_data (G_OBJECT (book->window), "hs-work-out");
  hs_calc_sheet_fill (hs_work_out_window_choose (window, "ripple"), "volts", "5");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "work-out.send", NULL));
  app_book_settle (book);
  hs_app_test_wait (!send_waits (window));
  hs_question_ask (ask, g_variant_new ("(s)", hs_job_page_get_job_id (job)));
  app_book_settle (book);
  shot = hs_question_get (ask);
  for (guint i = 0; i < shot->sheets[2]->len; i++)
    stored += g_strcmp0 (((HsReadingResult *) g_ptr_array_index (shot->sheets[2], i))->value_text, "0.05 V AC") == 0;
  g_assert_cmpuint (stored, ==, 1);
  g_object_unref (ask);
  gtk_window_close (GTK_WINDOW (window));
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/work-out/opens-over-the-window", test_opens_over_the_window);
  ADD ("/work-out/found-by-typing", test_found_by_typing);
  ADD ("/work-out/judged-with-every-key", test_judged_with_every_key);
  ADD ("/work-out/wrong-entries", test_wrong_entries);
  ADD ("/work-out/fits-a-phone", test_fits_a_phone);
  ADD ("/work-out/back-from-a-result", test_back_from_a_result);
  ADD ("/work-out/sent-to-the-job", test_sent_to_the_job);
  ADD ("/work-out/do-not-drive", test_do_not_drive);
  ADD ("/work-out/sent-with-its-conditions", test_sent_with_its_conditions);
  ADD ("/work-out/sent-to-the-phase", test_sent_to_the_phase);
  ADD ("/work-out/not-sent", test_not_sent);
  return g_test_run ();
}
