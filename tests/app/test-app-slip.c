// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The call slip under a hurried hand: nothing that was typed goes astray, whatever else happens meanwhile. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-board.h"
#include "hs-call-form.h"
#include "hs-call-slip-window.h"
#include "hs-job-page.h"
#include "hs-shop.h"

static HsCallSlipWindow *
open_slip (AppBook *book, HsCallForm **ret_form)
{
  HsDraft *draft = hs_shop_get_draft (hs_shop_of (book->window));
  HsCallSlipWindow *slip = hs_call_slip_window_present (book->window, book->ledger, draft);

  app_book_settle (book);
  *ret_form = g_object_ref (HS_CALL_FORM (hs_app_test_find (GTK_WIDGET (slip), HS_TYPE_CALL_FORM)));
  return slip;
}

static HsQuestion *
ask (AppBook *book, HsLedgerFunc question, GVariant *args, GDestroyNotify free_answer)
{
  g_autoptr (HsQuestion) asked = hs_question_new (book->ledger, question, free_answer);

  hs_question_ask (asked, args);
  app_book_settle (book);
  g_assert_null (hs_question_get_trouble (asked));
  return g_steal_pointer (&asked);
}

static char *
dup_draft (AppBook *book, const char *field)
{
  g_autoptr (HsQuestion) asked = ask (book, hs_ask_drafts, g_variant_new ("(ms)", NULL),
                                      (GDestroyNotify) g_ptr_array_unref);
  GPtrArray *drafts = hs_question_get (asked);

  for (guint i = 0; i < drafts->len; i++)
    {
      const HsWhere *draft = g_ptr_array_index (drafts, i);

      if (g_strcmp0 (draft->field, field) == 0 && g_strcmp0 (draft->page, "slip") == 0)
        return g_strdup (draft->text);
    }
  return NULL;
}

static const HsBoardRow *
job_of (AppBook *book, HsCallForm *form, HsQuestion **ret_asked)
{
  const HsJobShot *shot;

  g_assert_nonnull (hs_call_form_get_job_id (form));
  *ret_asked = ask (book, hs_ask_job, g_variant_new ("(s)", hs_call_form_get_job_id (form)),
                    (GDestroyNotify) hs_job_shot_free);
  shot = hs_question_get (*ret_asked);
  return shot->view->tag;
}

/* The area of a caller who is new is picked, then the book changes: it stays picked. */
static void
test_area_stays (AppBook *book, gconstpointer data)
{
  g_autoptr (HsQuestion) asked = NULL;
  g_autoptr (HsCallForm) form = NULL;
  GtkWindow *slip = GTK_WINDOW (open_slip (book, &form));
  const HsBoardRow *tag;
  GtkDropDown *area;

  hs_call_form_go (form, "phone", "555-0191");
  hs_call_form_go (form, "words", "leaks under the front");
  /* Not said yet, Tannery Row, Quayside, Old Market. */
  area = GTK_DROP_DOWN (hs_app_test_find (GTK_WIDGET (form), GTK_TYPE_DROP_DOWN));
  gtk_drop_down_set_selected (area, 3);
  app_book_settle (book);
  g_assert_cmpuint (gtk_drop_down_get_selected (area), ==, 3);
  hs_call_form_go (form, "minutes", "40");
  hs_call_form_choose_day (form, hs_ledger_get_today (book->ledger));
  app_book_settle (book);
  gtk_window_close (slip);
  app_book_settle (book);
  tag = job_of (book, form, &asked);
  g_assert_cmpstr (tag->area, ==, "Old Market");
  g_assert_cmpint (tag->minutes, ==, 40);
}

/* The slip goes from a job with an area to one that has none: the old area does not go along. */
static void
test_area_of_another_job (AppBook *book, gconstpointer data)
{
  g_autoptr (HsQuestion) with = NULL, without = NULL;
  g_autoptr (HsCallForm) form = NULL, other = NULL;
  HsCallSlipWindow *slip = open_slip (book, &form);
  GtkDropDown *area;

  hs_call_form_go (form, "phone", "555-0195");
  hs_call_form_go (form, "words", "no dash lamps");
  hs_call_form_flush (form);
  app_book_settle (book);
  g_assert_null (job_of (book, form, &without)->area);
  gtk_window_close (GTK_WINDOW (slip));
  app_book_settle (book);
  slip = open_slip (book, &other);
  hs_call_form_go (other, "phone", "555-0196");
  hs_call_form_go (other, "words", "squeals");
  hs_call_form_go (other, "area", "Q");
  app_book_settle (book);
  g_assert_nonnull (job_of (book, other, &with)->area);
  area = GTK_DROP_DOWN (hs_app_test_find (GTK_WIDGET (other), GTK_TYPE_DROP_DOWN));
  hs_call_form_set_job (other, hs_question_get_snapshot (with));
  g_assert_cmpuint (gtk_drop_down_get_selected (area), ==, 2);
  hs_call_form_set_job (other, hs_question_get_snapshot (without));
  g_assert_cmpuint (gtk_drop_down_get_selected (area), ==, 0);
  gtk_window_close (GTK_WINDOW (slip));
  app_book_settle (book);
}

/* Writing on over the callers who may be meant: every letter lands in the words, and nobody is taken for known. */
static void
test_writing_over_known_callers (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  GtkWindow *slip = GTK_WINDOW (open_slip (book, &form));
  GtkWidget *row;

  hs_call_form_go (form, "phone", "0115");
  app_book_settle (book);
  row = hs_app_test_find (GTK_WIDGET (form), GTK_TYPE_LIST_BOX_ROW);
  g_assert_nonnull (row);
  gtk_widget_grab_focus (row);
  g_assert_true (gtk_root_get_focus (GTK_ROOT (slip)) == row);
  g_assert_true (hs_app_test_key (row, GDK_KEY_c, 0));
  g_assert_cmpstr (hs_call_form_get_words (form), ==, "c");
  gtk_widget_grab_focus (row);
  g_assert_true (hs_app_test_key (row, GDK_KEY_space, 0));
  g_assert_cmpstr (hs_call_form_get_words (form), ==, "c ");
  gtk_widget_grab_focus (row);
  g_assert_false (hs_app_test_key (row, GDK_KEY_Return, 0));
  gtk_window_close (slip);
  app_book_settle (book);
}

/* Given at once, with the last field still on its way: no ghost of it is offered afterwards. */
static void
test_given_leaves_no_draft (AppBook *book, gconstpointer data)
{
  g_autofree char *left = NULL;
  g_autoptr (HsQuestion) asked = NULL;
  g_autoptr (HsCallForm) form = NULL;
  HsCallSlipWindow *slip = open_slip (book, &form);
  const HsBoardRow *tag;

  hs_call_form_go (form, "name", "Dee Brindle");
  hs_call_form_go (form, "words", "one click");
  hs_call_form_go (form, "area", "Q");
  hs_call_form_choose_day (form, hs_ledger_get_today (book->ledger) + 1);
  hs_call_form_go (form, "from", "1600");
  hs_call_form_go (form, "to", "1730");
  hs_call_form_go (form, "minutes", "45");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL));
  app_book_settle (book);
  tag = job_of (book, form, &asked);
  g_assert_cmpint (tag->stage, ==, HS_STAGE_PROMISED);
  hs_draft_flush (hs_shop_get_draft (hs_shop_of (book->window)));
  app_book_settle (book);
  left = dup_draft (book, "to");
  g_assert_null (left);
}

/* A refused promise leaves the slip open and says why. */
static void
test_refused_stays_open (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  HsCallSlipWindow *slip = open_slip (book, &form);

  hs_call_form_go (form, "phone", "555-0192");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL));
  app_book_settle (book);
  g_assert_true (hs_app_test_says (GTK_WIDGET (slip), "A few words of the caller make it a job."));
  g_assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (GTK_ROOT (slip)), GTK_WIDGET (form)));
  hs_call_form_go (form, "words", "horn stuck");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL));
  app_book_settle (book);
  /* Neither area nor day. */
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (slip)));
  g_assert_true (
    hs_app_test_says (GTK_WIDGET (slip), "To be given a time it still needs: Area · Day · Minutes of work"));
  gtk_window_close (GTK_WINDOW (slip));
  app_book_settle (book);
}

/* Without area, day or minutes the time is not given: which is missing is said, and the cursor is there. */
static void
test_untimed (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *field, *text; /* to be given */
    const char *said, *then;
  } rows[] = {
    { "words", "horn stuck", "Area · Day · Minutes of work", "area" },
    { "area", "Q", "Day · Minutes of work", "day" },
    { "minutes", "40", "Day", "day" },
  };
  g_autoptr (HsQuestion) asked = NULL;
  g_autoptr (HsQuestion) still = NULL;
  g_autoptr (HsCallForm) form = NULL;
  HsCallSlipWindow *slip = open_slip (book, &form);

  hs_call_form_go (form, "phone", "555-0192");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *said = g_strconcat ("To be given a time it still needs: ", rows[i].said, NULL);
      GtkWidget *focus;

      hs_call_form_go (form, rows[i].field, rows[i].text);
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL));
      app_book_settle (book);
      g_assert_true (hs_app_test_says (GTK_WIDGET (slip), said));
      focus = gtk_root_get_focus (GTK_ROOT (slip));
      hs_call_form_go (form, rows[i].then, NULL);
      g_assert_true (focus != NULL && focus == gtk_root_get_focus (GTK_ROOT (slip)));
    }
  g_assert_cmpint (job_of (book, form, &asked)->stage, ==, HS_STAGE_CALLED_IN);
  hs_call_form_choose_day (form, hs_ledger_get_today (book->ledger) + 1);
  /* No time is given while one cannot be read. */
  hs_call_form_go (form, "from", "9.3");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL));
  app_book_settle (book);
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (slip)));
  g_assert_true (hs_app_test_says (GTK_WIDGET (slip), "A time is written 930 or 9:30."));
  g_assert_cmpint (job_of (book, form, &still)->stage, ==, HS_STAGE_CALLED_IN);
  hs_call_form_go (form, "from", "9.30");
  hs_call_form_go (form, "to", "12");
  g_object_ref (slip);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL));
  app_book_settle (book);
  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (slip)));
  g_object_unref (slip);
}

/* What is said to be missing goes as soon as it is typed. */
static void
test_hint_follows (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  GtkWindow *slip = GTK_WINDOW (open_slip (book, &form));

  hs_call_form_go (form, "plate", "TDM 77");
  hs_call_form_flush (form);
  g_assert_true (hs_app_test_says (GTK_WIDGET (form), "A few words of the caller make it a job."));
  hs_call_form_go (form, "words", "h");
  g_assert_false (hs_app_test_says (GTK_WIDGET (form), "A few words of the caller make it a job."));
  g_assert_true (hs_app_test_says (GTK_WIDGET (form), "A number or a name makes it a job."));
  hs_call_form_go (form, "name", "I");
  g_assert_false (hs_app_test_says (GTK_WIDGET (form), "A number or a name makes it a job."));
  gtk_window_close (slip);
  app_book_settle (book);
}

/* "After two" or "by four" is all that some callers say: it is kept and shown, and the day is planned with it. Without
 * a day it waits, and the slip says for what. */
static void
test_half_a_window (AppBook *book, gconstpointer data)
{
  static const struct
  {
    const char *field, *typed, *shown, *phone;
  } rows[] = { { "from", "14", "after 14:00", "555-0191" }, { "to", "16", "by 16:00", "555-0192" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsQuestion) asked = NULL;
      g_autoptr (HsCallForm) form = NULL;
      HsCallSlipWindow *slip = open_slip (book, &form);
      const HsBoardRow *tag;

      hs_call_form_go (form, "phone", rows[i].phone);
      hs_call_form_go (form, "words", "hums");
      hs_call_form_go (form, "area", "O");
      hs_call_form_go (form, "minutes", "30");
      hs_call_form_go (form, rows[i].field, rows[i].typed);
      hs_call_form_flush (form);
      g_assert_true (hs_app_test_says (GTK_WIDGET (form), "A window of which day? Choose the day."));
      hs_call_form_choose_day (form, hs_ledger_get_today (book->ledger));
      app_book_settle (book);
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL));
      app_book_settle (book);
      tag = job_of (book, form, &asked);
      g_assert_cmpint (tag->stage, ==, HS_STAGE_PROMISED);
      g_assert_cmpint (tag->window_from == HS_INSTANT_NONE, ==, i == 1);
      g_assert_cmpint (tag->window_to == HS_INSTANT_NONE, ==, i == 0);
      hs_app_test_wait (hs_app_test_says (app_book_show (book, "today"), rows[i].shown));
      hs_app_test_wait (hs_app_test_says (app_book_show (book, "jobs"), rows[i].shown));
    }
}

/* A number alone, the slip shut: somebody waits to be rung back. The next ring finds a blank slip. */
static void
test_number_alone (AppBook *book, gconstpointer data)
{
  g_autofree char *phone = NULL;
  g_autoptr (HsCallForm) form = NULL;

  open_slip (book, &form);
  hs_call_form_go (form, "phone", "555-0193");
  g_assert_true (hs_call_form_finish (form));
  g_assert_nonnull (hs_call_form_get_job_id (form));
  gtk_window_close (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (form))));
  app_book_settle (book);
  g_clear_object (&form);
  open_slip (book, &form);
  g_assert_false (hs_call_form_is_touched (form));
  g_assert_cmpstr (hs_call_form_get_words (form), ==, "");
  phone = dup_draft (book, "phone");
  g_assert_null (phone);
}

/* Enter is quicker than the answer about the last digits: who has only the first of them is not who rings. */
static void
test_enter_before_the_answer (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  GtkWidget *slip = GTK_WIDGET (open_slip (book, &form));
  int at = 3;

  hs_call_form_go (form, "phone", "555");
  app_book_settle (book);
  g_assert_true (hs_app_test_says_part (slip, "Known: Enter takes the first"));
  gtk_editable_insert_text (GTK_EDITABLE (gtk_window_get_focus (GTK_WINDOW (slip))), "0190", -1, &at);
  hs_call_form_take_first_caller (form);
  app_book_settle (book);
  hs_call_form_go (form, "words", "clicks");
  g_assert_true (hs_call_form_finish (form));
  app_book_settle (book);
  {
    g_autoptr (HsQuestion) asked = NULL;

    g_assert_cmpstr (job_of (book, form, &asked)->plate, ==, NULL);
  }
}

/* A known number under another name: both names are said, and one key renames the customer. The slip itself is nobody
 * who is known. */
static void
test_other_name (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  GtkWidget *slip = GTK_WIDGET (open_slip (book, &form));
  g_autoptr (HsQuestion) asked = NULL;

  hs_call_form_go (form, "phone", "555-0115");
  hs_call_form_go (form, "name", "Mara Calloway");
  hs_call_form_go (form, "words", "clicks");
  hs_call_form_flush (form);
  app_book_settle (book);
  g_assert_true (hs_app_test_says (slip, "The book knows this caller as Teo Calloway and keeps that name; “Mara "
                                         "Calloway” stands beside the job."));
  hs_app_test_picture (slip, "slip-other-name");
  app_book_press_in (slip, GDK_KEY_Insert);
  app_book_settle (book);
  g_assert_false (hs_app_test_says_part (slip, "The book knows this caller as"));
  g_assert_cmpstr (job_of (book, form, &asked)->customer, ==, "Mara Calloway");
}

static void
test_not_known_by_itself (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  GtkWidget *slip = GTK_WIDGET (open_slip (book, &form));

  hs_call_form_go (form, "phone", "555-0193");
  hs_call_form_go (form, "words", "clicks");
  hs_call_form_go (form, "plate", "NEW 4711");
  hs_call_form_flush (form);
  app_book_settle (book);
  g_assert_nonnull (hs_call_form_get_job_id (form));
  hs_call_form_go (form, "plate", "NEW 471");
  hs_call_form_go (form, "plate", "NEW 4711");
  app_book_settle (book);
  g_assert_false (hs_app_test_says_part (slip, "Known: Enter takes the first"));
}

static void
fill_promise (AppBook *book, HsCallForm *form, const char *name)
{
  hs_call_form_go (form, "name", name);
  hs_call_form_go (form, "words", "one click");
  hs_call_form_go (form, "area", "Q");
  hs_call_form_choose_day (form, hs_ledger_get_today (book->ledger) + 1);
  hs_call_form_go (form, "from", "1600");
  hs_call_form_go (form, "to", "1730");
  hs_call_form_go (form, "minutes", "45");
}

/* Everything is shut while the time is still being given: the answer finds nobody to tell. */
static void
test_shut_while_giving (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  HsCallSlipWindow *slip = open_slip (book, &form);
  g_autoptr (HsLedger) ledger = g_object_ref (book->ledger);
  HsWindow *window = book->window;

  fill_promise (book, form, "Dee Brindle");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL));
  g_clear_object (&form);
  g_object_add_weak_pointer (G_OBJECT (window), (gpointer *) &window);
  app_book_close_window (book);
  g_assert_null (window);
  hs_ledger_wait (ledger);
  app_book_open_window (book);
}

/* F4 twice, and Esc behind it: given once, and nothing is refused. */
static void
test_given_twice (AppBook *book, gconstpointer data)
{
  g_autoptr (HsQuestion) asked = NULL;
  g_autoptr (HsCallForm) form = NULL;
  HsCallSlipWindow *slip = open_slip (book, &form);

  fill_promise (book, form, "Ira Holt");
  g_object_ref (slip);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL));
  gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL);
  gtk_window_close (GTK_WINDOW (slip));
  app_book_settle (book);
  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (slip)));
  g_object_unref (slip);
  g_assert_cmpint (job_of (book, form, &asked)->stage, ==, HS_STAGE_PROMISED);
  g_assert_true (hs_app_test_says (GTK_WIDGET (book->window), "Time given: “one click”"));
}

static gboolean
close_cb (gpointer slip)
{
  gtk_window_close (GTK_WINDOW (slip));
  return G_SOURCE_REMOVE;
}

/* F4 without a day, and Esc before the answer: the refusal is seen. */
static void
test_refusal_outlasts_escape (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  HsCallSlipWindow *slip = open_slip (book, &form);

  hs_call_form_go (form, "phone", "555-0194");
  hs_call_form_go (form, "words", "horn stuck");
  g_idle_add_full (G_PRIORITY_HIGH, close_cb, slip, NULL);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (slip), "slip.promise", NULL));
  app_book_settle (book);
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (form)) && gtk_widget_get_mapped (GTK_WIDGET (form)));
  g_assert_true (hs_app_test_says_part (GTK_WIDGET (form), "it still needs"));
  gtk_window_close (GTK_WINDOW (slip));
  app_book_settle (book);
  g_assert_false (gtk_widget_get_mapped (GTK_WIDGET (form)));
}

static gboolean
destroy_cb (gpointer slip)
{
  gtk_window_destroy (GTK_WINDOW (slip));
  return G_SOURCE_REMOVE;
}

/* Keys go on while the slip waits for the book; one of them may shut it. */
static void
test_shut_while_waiting (AppBook *book, gconstpointer data)
{
  HsDraft *draft = hs_shop_get_draft (hs_shop_of (book->window));
  HsCallSlipWindow *slip = hs_call_slip_window_present (book->window, book->ledger, draft);
  const HsCallSlip proposal = { .area = (char *) "Q", .day = HS_DATE_NONE, .window_from = -1, .window_to = -1 };
  g_autoptr (HsCallForm) form = NULL;

  g_idle_add_full (G_PRIORITY_HIGH, destroy_cb, slip, NULL);
  hs_call_slip_window_propose (slip, &proposal);
  app_book_settle (book);
  /* The next one is a new one. */
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (open_slip (book, &form))));
}

/* What cannot be read is told when its field is left, before anything that is only missing yet. */
static void
test_told_on_leaving (AppBook *book, gconstpointer data)
{
  static const char time[] = "A time is written 930 or 9:30.";
  static const char minutes[] = "Minutes of work are a whole number, at most a week.";
  static const struct
  {
    const char *field, *text, *said;
  } rows[] = {
    { "to", "5550115", time },    { "to", "11", NULL },    { "from", "nine", time }, { "from", "9", NULL },
    { "minutes", "half", minutes }, { "minutes", "40", NULL },
  };
  g_autoptr (HsCallForm) form = NULL;
  GtkWindow *slip = GTK_WINDOW (open_slip (book, &form));

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s: %s", rows[i].field, rows[i].text);
      hs_call_form_go (form, rows[i].field, rows[i].text);
      hs_call_form_go (form, "plate", NULL);
      app_book_settle (book);
      g_assert_cmpint (hs_app_test_says (GTK_WIDGET (form), time), ==, rows[i].said == time);
      g_assert_cmpint (hs_app_test_says (GTK_WIDGET (form), minutes), ==, rows[i].said == minutes);
      if (rows[i].said == minutes)
        hs_app_test_picture (GTK_WIDGET (slip), "slip-told");
    }
  g_assert_true (hs_app_test_says (GTK_WIDGET (form), "A few words of the caller make it a job."));
  gtk_window_close (slip);
  app_book_settle (book);
}

/* The name of the field that has the focus. */
static const char *
focused_field (GtkWindow *slip)
{
  GtkWidget *focus = gtk_window_get_focus (slip);

  for (GtkWidget *at = focus; at != NULL; at = gtk_widget_get_parent (at))
    if (GTK_IS_ENTRY (at) || GTK_IS_DROP_DOWN (at))
      return gtk_buildable_get_buildable_id (GTK_BUILDABLE (at));
  return NULL;
}

/* A slip that was begun opens again at its first empty field: a new number does not land among its minutes. */
static void
test_goes_on_where_empty (AppBook *book, gconstpointer data)
{
  static const char *const given[][2] = { { "minutes", "40" }, { "phone", "555-0197" }, { "name", "Dee Brindle" },
                                          { "plate", "TDM 1" }, { "street", "Mill Lane" } };
  static const char *const next[] = { "phone", "name", "words", "words", "words" };
  g_autoptr (HsCallForm) form = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (given); i++)
    {
      GtkWindow *slip = GTK_WINDOW (open_slip (book, &form));

      hs_call_form_go (form, given[i][0], given[i][1]);
      hs_draft_flush (hs_shop_get_draft (hs_shop_of (book->window)));
      app_book_settle (book);
      gtk_window_destroy (slip);
      g_clear_object (&form);
      slip = GTK_WINDOW (open_slip (book, &form));
      g_assert_cmpstr (focused_field (slip), ==, next[i]);
      gtk_window_destroy (slip);
      g_clear_object (&form);
    }
}

/* Killed in the middle of the caller's words: the cursor is back behind the last of them, and nothing is selected that
 * the next key would write over. */
static void
test_killed_in_words (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  GtkWidget *slip = GTK_WIDGET (open_slip (book, &form));

  hs_call_form_go (form, "words", "clicks and");
  hs_draft_flush (hs_shop_get_draft (hs_shop_of (book->window)));
  app_book_settle (book);
  g_clear_object (&form);
  gtk_window_destroy (GTK_WINDOW (slip));
  app_book_close_window (book);
  app_book_open_window (book);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW) != NULL);
  app_book_settle (book);
  slip = hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW);
  g_assert_cmpstr (focused_field (GTK_WINDOW (slip)), ==, "words");
  app_book_press_in (slip, GDK_KEY_x);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (gtk_window_get_focus (GTK_WINDOW (slip)))), ==, "clicks andx");
}

/* Opens the window again, as after a kill: nothing is said to what was open. */
static void
kill_and_reopen (AppBook *book)
{
  app_book_settle (book);
  app_book_close_window (book);
  app_book_open_window (book);
}

/* The slip is a job by now, the telephone was shown and shut again: killed there, it goes on in the same field of that
 * job, behind what stands there, and nothing is selected. Shut as usual, nothing is interrupted. */
static void
test_killed_as_a_job (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  GtkWidget *slip = GTK_WIDGET (open_slip (book, &form)), *job;
  GtkEditable *at;

  hs_call_form_go (form, "phone", "555-0191");
  hs_call_form_go (form, "words", "hums");
  hs_call_form_go (form, "street", "4 Quay");
  hs_call_form_flush (form);
  app_book_settle (book);
  g_assert_nonnull (hs_call_form_get_job_id (form));
  app_book_press_in (slip, GDK_KEY_F8);
  app_book_settle (book);
  app_book_press_in (app_book_find_top (book), GDK_KEY_Escape);
  app_book_settle (book);
  g_assert_true (app_book_find_top (book) == slip);
  g_assert_cmpstr (focused_field (GTK_WINDOW (slip)), ==, "street");
  g_clear_object (&form);
  gtk_window_destroy (GTK_WINDOW (slip));
  kill_and_reopen (book);
  hs_app_test_wait ((job = hs_window_get_job (book->window)) != NULL && hs_job_page_is_ready (HS_JOB_PAGE (job)));
  app_book_settle (book);
  at = GTK_EDITABLE (gtk_window_get_focus (GTK_WINDOW (book->window)));
  g_assert_cmpstr (gtk_editable_get_text (at), ==, "4 Quay");
  g_assert_false (gtk_editable_get_selection_bounds (at, NULL, NULL));
  g_assert_cmpint (gtk_editable_get_position (at), ==, 6);
}

static void
test_shut_is_not_interrupted (AppBook *book, gconstpointer data)
{
  g_autoptr (HsCallForm) form = NULL;
  GtkWindow *slip = GTK_WINDOW (open_slip (book, &form));

  hs_call_form_go (form, "phone", "555-0191");
  hs_call_form_go (form, "words", "hums");
  hs_call_form_flush (form);
  app_book_settle (book);
  gtk_window_close (slip);
  kill_and_reopen (book);
  g_assert_null (hs_window_get_job (book->window));
  g_assert_null (app_book_find_top (book));
}

#define ADD(name, func) g_test_add (name, AppBook, NULL, app_book_open, func, app_book_close)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/slip/area-stays", test_area_stays);
  ADD ("/slip/area-of-another-job", test_area_of_another_job);
  ADD ("/slip/writing-over-known-callers", test_writing_over_known_callers);
  ADD ("/slip/given-leaves-no-draft", test_given_leaves_no_draft);
  ADD ("/slip/refused-stays-open", test_refused_stays_open);
  ADD ("/slip/untimed", test_untimed);
  ADD ("/slip/hint-follows", test_hint_follows);
  ADD ("/slip/half-a-window", test_half_a_window);
  ADD ("/slip/number-alone", test_number_alone);
  ADD ("/slip/enter-before-the-answer", test_enter_before_the_answer);
  ADD ("/slip/other-name", test_other_name);
  ADD ("/slip/not-known-by-itself", test_not_known_by_itself);
  ADD ("/slip/killed-in-words", test_killed_in_words);
  ADD ("/slip/killed-as-a-job", test_killed_as_a_job);
  ADD ("/slip/shut-is-not-interrupted", test_shut_is_not_interrupted);
  ADD ("/slip/shut-while-giving", test_shut_while_giving);
  ADD ("/slip/given-twice", test_given_twice);
  ADD ("/slip/refusal-outlasts-escape", test_refusal_outlasts_escape);
  ADD ("/slip/shut-while-waiting", test_shut_while_waiting);
  ADD ("/slip/told-on-leaving", test_told_on_leaving);
  ADD ("/slip/goes-on-where-empty", test_goes_on_where_empty);
  return g_test_run ();
}
