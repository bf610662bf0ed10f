// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is not posted yet, in the window, over a network that is played: seen, understood, tried again, dropped and led
 * elsewhere by keys alone; and posting as it is set up. */

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask-window.h"
#include "hs-deed-post.h"
#include "hs-deed-setup.h"
#include "hs-demo.h"
#include "hs-items.h"
#include "hs-job-page.h"
#include "hs-log-row.h"
#include "hs-post-card.h"
#include "hs-poster.h"
#include "hs-set-up-window.h"
#include "hs-unsent-window.h"

#include <string.h>

/* statuses: what the next messages are answered; then `status`. held: a message stays under way. */
static struct
{
  GMutex lock;
  int statuses[8];
  guint n_statuses;
  int status;
  gboolean held;
  guint sent;
  char *url;
  char *origin;
  char *secret;
  const char *refuses;
} far;

static void
send (const HsPostParcel *parcel, GCancellable *cancellable, HsPostReply *ret_reply)
{
  while (g_atomic_int_get (&far.held) && !g_cancellable_is_cancelled (cancellable))
    g_usleep (1000);
  g_mutex_lock (&far.lock);
  ret_reply->status = far.n_statuses > 0 ? far.statuses[--far.n_statuses] : far.status;
  if (ret_reply->status == 422)
    ret_reply->said = g_strdup ("no odometer");
  g_free (far.url);
  far.url = g_strdup (parcel->url);
  far.sent++;
  g_mutex_unlock (&far.lock);
}

static gboolean
store_secret (const char *origin, const char *secret, GError **error)
{
  g_mutex_lock (&far.lock);
  g_free (far.origin);
  g_free (far.secret);
  far.origin = g_strdup (origin);
  far.secret = g_strdup (secret);
  g_mutex_unlock (&far.lock);
  if (far.refuses != NULL)
    g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_FAILED, far.refuses);
  return far.refuses == NULL;
}

static const HsPostNet net = { send, store_secret };

static void
set_up (AppBook *book, gconstpointer data)
{
  hs_post_net_install (&net);
  far.n_statuses = far.sent = 0;
  far.status = 201;
  far.held = FALSE;
  far.refuses = NULL;
  g_clear_pointer (&far.url, g_free);
  g_clear_pointer (&far.origin, g_free);
  g_clear_pointer (&far.secret, g_free);
  app_book_open (book, data);
  app_book_show (book, "jobs");
}

static void
tear_down (AppBook *book, gconstpointer data)
{
  g_atomic_int_set (&far.held, FALSE);
  hs_app_test_wait (!hs_poster_is_busy (hs_poster_of (book->ledger)));
  app_book_close (book, data);
  hs_post_net_install (NULL);
}

/* The jobs of the demo, 26, are to be posted. */
static void
begin (AppBook *book)
{
  hs_deed_set (book->ledger, "post_url", "https://example.org/jobs", NULL, NULL);
  hs_deed_post_switch (book->ledger, TRUE, NULL, NULL);
  hs_deed_post_all (book->ledger, NULL, NULL);
  app_book_settle (book);
}

static const HsPostOverview *
overview (AppBook *book)
{
  return hs_poster_get_overview (hs_poster_of (book->ledger));
}

static gboolean
is_at_rest (AppBook *book, gint64 waiting, gint64 parked)
{
  return !hs_poster_is_busy (hs_poster_of (book->ledger)) && overview (book) != NULL
         && overview (book)->sums.waiting == waiting && overview (book)->sums.parked == parked;
}

/* The sign in the header: the button by its action. */
static gboolean
has_sign (GtkWidget *widget)
{
  if (GTK_IS_BUTTON (widget)
      && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)), "win.unsent") == 0)
    return gtk_widget_get_mapped (widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (has_sign (child))
      return TRUE;
  return FALSE;
}

#define WAIT_FOR_SIGN(book, wanted) hs_app_test_wait (has_sign (GTK_WIDGET ((book)->window)) == (wanted))
#define WAIT_TO_SAY(widget, text) hs_app_test_wait (hs_app_test_says_part (GTK_WIDGET (widget), text))
#define ASSERT_SAYS_NOT(widget, text) g_assert_false (hs_app_test_says_part (GTK_WIDGET (widget), text))

/* By its key. */
static HsUnsentWindow *
open_unsent (AppBook *book)
{
  app_book_press (book, GDK_KEY_minus);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_UNSENT_WINDOW) != NULL);
  app_book_settle (book);
  hs_app_test_frames ();
  return HS_UNSENT_WINDOW (hs_app_test_window (HS_TYPE_UNSENT_WINDOW));
}

static guint
n_rows (HsUnsentWindow *window)
{
  GtkListBox *list = GTK_LIST_BOX (hs_app_test_find (GTK_WIDGET (window), GTK_TYPE_LIST_BOX));
  guint n = 0;

  while (gtk_list_box_get_row_at_index (list, (int) n) != NULL)
    n++;
  return n;
}

static gboolean
is_gone (void)
{
  return hs_app_test_window (HS_TYPE_UNSENT_WINDOW) == NULL;
}

static const HsPostUnsent *
unsent_at (HsUnsentWindow *window, guint at)
{
  return hs_items_get_data (HS_ITEMS (hs_unsent_window_get_items (window)), at);
}

/* A second connection, as another program would look. */
static char *
setting_of (AppBook *book, const char *key)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_READ, &user, NULL);

  return hs_settings_dup (other, key, NULL);
}

/* Nothing is said while nothing is to be done: off, on and all sent, on and waiting. */
static void
test_quiet (AppBook *book, gconstpointer data)
{
  HsUnsentWindow *window;

  g_assert_false (has_sign (GTK_WIDGET (book->window)));
  window = open_unsent (book);
  WAIT_TO_SAY (window, "Nothing waits to be posted. Posting is off on this machine.");
  app_book_press_in (GTK_WIDGET (window), GDK_KEY_minus);
  hs_app_test_wait (is_gone ());
  begin (book);
  hs_app_test_wait (is_at_rest (book, 0, 0));
  g_assert_cmpuint (far.sent, ==, 26);
  g_assert_false (has_sign (GTK_WIDGET (book->window)));
  far.status = 503;
  hs_deed_set (book->ledger, "post_phone", "yes", NULL, NULL);
  hs_deed_post_all (book->ledger, NULL, NULL);
  app_book_settle (book);
  g_assert_false (has_sign (GTK_WIDGET (book->window)));
}

/* One is refused, the others go on; it is seen in the header, understood, tried again and gone. */
static void
test_parked (AppBook *book, gconstpointer data)
{
  HsUnsentWindow *window;

  far.statuses[far.n_statuses++] = 422;
  begin (book);
  hs_app_test_wait (is_at_rest (book, 0, 1));
  g_assert_cmpuint (far.sent, ==, 26);
  WAIT_FOR_SIGN (book, TRUE);
  hs_app_test_picture (GTK_WIDGET (book->window), "unsent-sign");
  window = open_unsent (book);
  WAIT_TO_SAY (window, "1 job is not sent yet.");
  g_assert_cmpuint (n_rows (window), ==, 1);
  WAIT_TO_SAY (window, "A-0001 · Wilhelmina Sorrel");
  WAIT_TO_SAY (window, "waits for you");
  WAIT_TO_SAY (window, "since today 07:52 · tried 1 time · The endpoint refuses this job (422). Look at what it says, "
                       "then try again or drop it. · “no odometer”");
  hs_app_test_picture (GTK_WIDGET (window), "unsent-parked");
  app_book_press_in (GTK_WIDGET (window), GDK_KEY_KP_Add);
  hs_app_test_wait (is_at_rest (book, 0, 0));
  WAIT_TO_SAY (window, "Nothing waits to be posted.");
  g_assert_cmpuint (n_rows (window), ==, 0);
  g_assert_cmpuint (far.sent, ==, 27);
  WAIT_FOR_SIGN (book, FALSE);
  app_book_press_in (GTK_WIDGET (window), GDK_KEY_Escape);
  hs_app_test_wait (is_gone ());
}

static void
find_deed (AppBook *book, const char *job_id, guint *ret_n)
{
  HsBookUser user = { "test", "here", 1, hs_demo_get_now () };
  g_autoptr (HsBook) other = hs_book_open (book->path, HS_BOOK_READ, &user, NULL);
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_log_row_list_of (hs_book_get_store (other), "post", job_id, &rows, &error));
  *ret_n = rows->len;
}

/* It asks first; the job stays, the log has it. */
static void
test_dropped (AppBook *book, gconstpointer data)
{
  HsUnsentWindow *window;
  g_autofree char *job_id = NULL;
  guint n;

  far.statuses[far.n_statuses++] = 422;
  far.statuses[far.n_statuses++] = 422;
  begin (book);
  hs_app_test_wait (is_at_rest (book, 0, 2));
  window = open_unsent (book);
  g_assert_cmpuint (n_rows (window), ==, 2);
  job_id = g_strdup (unsent_at (window, 0)->job_id);
  /* The first one has the focus. */
  app_book_press_in (GTK_WIDGET (window), GDK_KEY_Delete);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ASK_WINDOW) != NULL);
  WAIT_TO_SAY (hs_app_test_window (HS_TYPE_ASK_WINDOW), "Drop A-0001?");
  /* Enter does not do it. */
  app_book_press_in (hs_app_test_window (HS_TYPE_ASK_WINDOW), GDK_KEY_KP_Enter);
  app_book_settle (book);
  g_assert_nonnull (hs_app_test_window (HS_TYPE_ASK_WINDOW));
  app_book_press_in (hs_app_test_window (HS_TYPE_ASK_WINDOW), GDK_KEY_Escape);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ASK_WINDOW) == NULL);
  app_book_settle (book);
  find_deed (book, job_id, &n);
  g_assert_cmpuint (n, ==, 0);
  g_assert_cmpuint (n_rows (window), ==, 2);
  app_book_press_in (GTK_WIDGET (window), GDK_KEY_KP_Decimal);
  hs_app_test_wait (hs_app_test_window (HS_TYPE_ASK_WINDOW) != NULL);
  app_book_press_in (hs_app_test_window (HS_TYPE_ASK_WINDOW), GDK_KEY_KP_1);
  hs_app_test_wait (is_at_rest (book, 0, 1));
  WAIT_TO_SAY (window, "1 job is not sent yet.");
  g_assert_cmpuint (n_rows (window), ==, 1);
  ASSERT_SAYS_NOT (window, "A-0001");
  find_deed (book, job_id, &n);
  g_assert_cmpuint (n, ==, 1);
  /* Whoever stood on the row that went stands on the next one, and opens its job. */
  app_book_settle (book);
  g_assert_true (GTK_IS_LIST_BOX_ROW (gtk_window_get_focus (GTK_WINDOW (window))));
  gtk_widget_activate (gtk_window_get_focus (GTK_WINDOW (window)));
  hs_app_test_wait (is_gone ());
  app_book_settle (book);
  g_assert_true (HS_IS_JOB_PAGE (hs_window_get_job (book->window)));
  g_assert_cmpuint (far.sent, ==, 26);
}

/* The secret is refused: all of them wait, and say so; a bad address is refused where it is typed, a good one mends
 * it, by keys alone. */
static void
test_paused (AppBook *book, gconstpointer data)
{
  HsUnsentWindow *window;
  GtkEditable *address;
  g_autofree char *url = NULL;

  far.status = 401;
  begin (book);
  hs_app_test_wait (is_at_rest (book, 26, 0) && overview (book)->paused_at != HS_INSTANT_NONE);
  g_assert_cmpuint (far.sent, ==, 1);
  WAIT_FOR_SIGN (book, TRUE);
  window = open_unsent (book);
  WAIT_TO_SAY (window, "26 jobs are not sent yet. Nothing is sent before you do something about it.");
  WAIT_TO_SAY (window, "The endpoint refuses the secret (401). Put in the right one.");
  g_assert_cmpuint (n_rows (window), ==, 10);
  WAIT_TO_SAY (window, "and 16 more");
  hs_app_test_picture (GTK_WIDGET (window), "unsent-paused");
  app_book_press_in (GTK_WIDGET (window), GDK_KEY_F9);
  address = hs_unsent_window_get_address (window);
  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (window)), GTK_WIDGET (address)));
  g_assert_cmpstr (gtk_editable_get_text (address), ==, "https://example.org/jobs");
  gtk_editable_set_text (address, "http://far.example/jobs");
  g_signal_emit_by_name (address, "activate");
  WAIT_TO_SAY (window, "post_url: ");
  url = setting_of (book, "post_url");
  g_assert_cmpstr (url, ==, "https://example.org/jobs");
  g_assert_cmpuint (far.sent, ==, 1);
  far.status = 201;
  gtk_editable_set_text (address, "https://example.net/jobs");
  g_signal_emit_by_name (address, "activate");
  hs_app_test_wait (is_at_rest (book, 0, 0));
  ASSERT_SAYS_NOT (window, "post_url: ");
  g_assert_cmpstr (far.url, ==, "https://example.net/jobs");
  g_assert_cmpuint (far.sent, ==, 27);
  WAIT_FOR_SIGN (book, FALSE);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Try all now; while one is under way the window says so and answers. */
static void
test_all_now (AppBook *book, gconstpointer data)
{
  HsUnsentWindow *window;

  far.status = 503;
  begin (book);
  hs_app_test_wait (is_at_rest (book, 26, 0) && overview (book)->hold_until != HS_INSTANT_NONE);
  g_assert_false (has_sign (GTK_WIDGET (book->window)));
  window = open_unsent (book);
  WAIT_TO_SAY (window, "26 jobs are not sent yet. Tried again: ");
  WAIT_TO_SAY (window, "The endpoint has a fault of its own (503). It is sent again.");
  /* Without a chosen row there is none to try. */
  gtk_widget_grab_focus (GTK_WIDGET (hs_unsent_window_get_address (window)));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "unsent.retry", NULL));
  WAIT_TO_SAY (window, "Choose a job first");
  g_atomic_int_set (&far.held, TRUE);
  far.status = 201;
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "unsent.all", NULL));
  WAIT_TO_SAY (window, "Sending …");
  ASSERT_SAYS_NOT (window, "Choose a job first");
  g_atomic_int_set (&far.held, FALSE);
  hs_app_test_wait (is_at_rest (book, 0, 0));
  WAIT_TO_SAY (window, "Nothing waits to be posted.");
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A few rows at a time. */
static void
test_more (AppBook *book, gconstpointer data)
{
  HsUnsentWindow *window;

  far.status = 401;
  begin (book);
  hs_app_test_wait (is_at_rest (book, 26, 0));
  window = open_unsent (book);
  WAIT_TO_SAY (window, "and 16 more");
  g_assert_cmpuint (g_list_model_get_n_items (hs_unsent_window_get_items (window)), ==, 10);
  g_signal_emit_by_name (hs_app_test_button (GTK_WIDGET (window), "Show More"), "clicked");
  hs_app_test_wait (g_list_model_get_n_items (hs_unsent_window_get_items (window)) == 20);
  WAIT_TO_SAY (window, "and 6 more");
  g_signal_emit_by_name (hs_app_test_button (GTK_WIDGET (window), "Show More"), "clicked");
  hs_app_test_wait (g_list_model_get_n_items (hs_unsent_window_get_items (window)) == 26);
  app_book_settle (book);
  ASSERT_SAYS_NOT (window, " more");
  ASSERT_SAYS_NOT (window, "Show More");
  g_assert_cmpuint (n_rows (window), ==, 26);
  /* On the first of the new ones. */
  g_assert_cmpint (gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (gtk_window_get_focus (GTK_WINDOW (window)))), ==, 20);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* Set-up. */

static HsPostCard *
open_card (AppBook *book)
{
  GtkWidget *window = GTK_WIDGET (hs_set_up_window_present (book->window, book->ledger));

  app_book_settle (book);
  return HS_POST_CARD (hs_app_test_find (window, HS_TYPE_POST_CARD));
}

static gboolean
is_ticked (HsPostCard *card, const char *key)
{
  return gtk_check_button_get_active (GTK_CHECK_BUTTON (hs_post_card_get (card, key)));
}

static void
tick (AppBook *book, HsPostCard *card, const char *key)
{
  gtk_check_button_set_active (GTK_CHECK_BUTTON (hs_post_card_get (card, key)), TRUE);
  app_book_settle (book);
}

static void
enter (AppBook *book, HsPostCard *card, const char *key, const char *text)
{
  GtkWidget *entry = hs_post_card_get (card, key);

  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
  app_book_settle (book);
}

/* All off and held back; each is switched on by itself. */
static void
test_ticks (AppBook *book, gconstpointer data)
{
  static const char *const keys[]
    = { "post_phone", "post_street", "post_signature", "post_photos", "post_costs", "post_private_network" };
  HsPostCard *card = open_card (book);
  GtkWidget *window = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (card)));

  g_assert_false (is_ticked (card, "on"));
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      g_autofree char *before = setting_of (book, keys[i]);
      g_autofree char *after = NULL;

      g_assert_false (is_ticked (card, keys[i]));
      g_assert_cmpstr (before, ==, "no");
      tick (book, card, keys[i]);
      after = setting_of (book, keys[i]);
      g_assert_cmpstr (after, ==, "yes");
      for (guint j = i + 1; j < G_N_ELEMENTS (keys); j++)
        g_assert_false (is_ticked (card, keys[j]));
    }
  /* Without an address it stays off, and says why. */
  tick (book, card, "on");
  WAIT_TO_SAY (window, "There is no address to post to");
  g_assert_false (is_ticked (card, "on"));
  enter (book, card, "post_url", "https://example.org/jobs");
  tick (book, card, "on");
  g_assert_true (is_ticked (card, "on"));
  hs_app_test_wait (overview (book)->on);
  g_signal_emit_by_name (hs_app_test_button (GTK_WIDGET (card), "Post All Jobs So Far"), "clicked");
  WAIT_TO_SAY (window, "26 jobs wait to be posted.");
  hs_app_test_wait (far.sent == 26 && is_at_rest (book, 0, 0));
  /* Nowhere a second time as bare settings. */
  g_assert_null (hs_set_up_window_get_entry (HS_SET_UP_WINDOW (window), "post_url"));
  gtk_widget_grab_focus (hs_post_card_get (card, "on"));
  app_book_settle (book);
  hs_app_test_frames ();
  hs_app_test_picture (window, "posting-card");
  gtk_window_destroy (GTK_WINDOW (window));
}

static gboolean
has_bytes (const char *path, const char *part)
{
  g_autofree char *bytes = NULL;
  gsize n_bytes = 0;

  g_assert_true (g_file_get_contents (path, &bytes, &n_bytes, NULL));
  for (gsize i = 0; i + strlen (part) <= n_bytes; i++)
    if (memcmp (bytes + i, part, strlen (part)) == 0)
      return TRUE;
  return FALSE;
}

/* In the book or in any file beside it. */
static gboolean
is_on_disk (AppBook *book, const char *part)
{
  g_autoptr (GDir) dir = g_dir_open (book->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (book->folder, name, NULL);

      if (has_bytes (path, part))
        return TRUE;
    }
  return FALSE;
}

/* The secret goes to the keyring of this machine, under the origin of the address, and nowhere else. */
static void
test_secret (AppBook *book, gconstpointer data)
{
  HsPostCard *card = open_card (book);
  GtkWidget *window = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (card)));
  GtkWidget *secret = hs_post_card_get (card, "secret");

  g_assert_false (gtk_widget_get_mapped (secret));
  enter (book, card, "post_url", "https://example.org:8443/jobs");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hs_post_card_get (card, "post_auth")), 2);
  app_book_settle (book);
  hs_app_test_frames ();
  g_assert_true (gtk_widget_get_mapped (secret));
  g_assert_true (gtk_widget_get_mapped (hs_post_card_get (card, "post_user")));
  enter (book, card, "secret", "tin-lantern-93");
  WAIT_TO_SAY (window, "the keyring of this machine has it so");
  g_assert_cmpstr (far.secret, ==, "tin-lantern-93");
  g_assert_cmpstr (far.origin, ==, "https://example.org:8443");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (secret)), ==, "");
  g_assert_true (is_on_disk (book, "example.org:8443"));
  g_assert_false (is_on_disk (book, "tin-lantern"));
  /* Refused by a keyring that is locked: said, also once the window is shut; what was typed is not repeated. */
  far.refuses = "The keyring is locked.";
  enter (book, card, "secret", "tin-lantern-94");
  WAIT_TO_SAY (window, "The keyring is locked.");
  gtk_editable_set_text (GTK_EDITABLE (secret), "tin-lantern-95");
  gtk_window_close (GTK_WINDOW (window));
  WAIT_TO_SAY (book->window, "The keyring is locked.");
  ASSERT_SAYS_NOT (book->window, "tin-lantern");
  g_assert_cmpstr (far.secret, ==, "tin-lantern-95");
}

static void
test_forget (AppBook *book, gconstpointer data)
{
  HsPostCard *card = open_card (book);
  GtkWidget *window = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (card)));

  enter (book, card, "post_url", "https://example.org/jobs");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hs_post_card_get (card, "post_auth")), 1);
  app_book_settle (book);
  far.secret = g_strdup ("old");
  g_signal_emit_by_name (hs_app_test_button (GTK_WIDGET (card), "Forget the Secret"), "clicked");
  WAIT_TO_SAY (window, "the keyring of this machine has it so");
  g_assert_null (far.secret);
  g_assert_cmpstr (far.origin, ==, "https://example.org:443");
  gtk_window_destroy (GTK_WINDOW (window));
}

/* From what is not sent to where it is set up, by its key. */
static void
test_leads_to_set_up (AppBook *book, gconstpointer data)
{
  HsUnsentWindow *window = open_unsent (book);
  GtkWidget *over;

  app_book_press_in (GTK_WIDGET (window), GDK_KEY_F6);
  hs_app_test_wait (is_gone ());
  hs_app_test_wait (hs_app_test_window (HS_TYPE_SET_UP_WINDOW) != NULL);
  over = hs_app_test_window (HS_TYPE_SET_UP_WINDOW);
  app_book_settle (book);
  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (over)),
                                         hs_app_test_find (over, HS_TYPE_POST_CARD)));
  gtk_window_destroy (GTK_WINDOW (over));
}

/* The cursor is in the address before the book has answered; looked at and left, it stays in the book. */
static void
test_address_left_untouched (AppBook *book, gconstpointer data)
{
  GtkWidget *over, *address;
  g_autofree char *kept = NULL;

  hs_deed_set (book->ledger, "post_url", "https://jobs.example/a", NULL, NULL);
  app_book_settle (book);
  app_book_press_in (GTK_WIDGET (open_unsent (book)), GDK_KEY_F6);
  hs_app_test_wait ((over = hs_app_test_window (HS_TYPE_SET_UP_WINDOW)) != NULL);
  app_book_settle (book);
  address = hs_post_card_get (HS_POST_CARD (hs_app_test_find (over, HS_TYPE_POST_CARD)), "post_url");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (address)), ==, "https://jobs.example/a");
  gtk_widget_child_focus (over, GTK_DIR_TAB_FORWARD);
  app_book_settle (book);
  kept = setting_of (book, "post_url");
  g_assert_cmpstr (kept, ==, "https://jobs.example/a");
  gtk_window_destroy (GTK_WINDOW (over));
}

static void
test_not_built_in (AppBook *book, gconstpointer data)
{
  HsPostCard *card;
  HsUnsentWindow *unsent;

  hs_post_net_install (NULL);
  card = open_card (book);
  WAIT_TO_SAY (card, "This build does not post");
  g_assert_false (gtk_widget_get_mapped (hs_post_card_get (card, "post_url")));
  g_assert_false (gtk_widget_get_mapped (hs_post_card_get (card, "on")));
  gtk_window_destroy (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (card))));
  unsent = open_unsent (book);
  WAIT_TO_SAY (unsent, "This build does not post.");
  gtk_window_destroy (GTK_WINDOW (unsent));
  g_assert_cmpuint (far.sent, ==, 0);
}

/* In 360 pixels nothing is wider than the window. */
static void
test_narrow (AppBook *book, gconstpointer data)
{
  HsUnsentWindow *window;
  GtkWidget *set_up;
  HsPostCard *card;
  int least;

  far.statuses[far.n_statuses++] = 422;
  begin (book);
  hs_app_test_wait (is_at_rest (book, 0, 1));
  window = open_unsent (book);
  gtk_widget_measure (GTK_WIDGET (window), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
  gtk_window_set_default_size (GTK_WINDOW (window), 360, 640);
  hs_app_test_frames ();
  hs_app_test_picture (GTK_WIDGET (window), "unsent-360");
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_FORCE_DARK);
  hs_app_test_frames ();
  hs_app_test_picture (GTK_WIDGET (window), "unsent-dark");
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_FORCE_LIGHT);
  gtk_window_destroy (GTK_WINDOW (window));
  card = open_card (book);
  set_up = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (card)));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (hs_post_card_get (card, "post_auth")), 2);
  app_book_settle (book);
  gtk_widget_measure (set_up, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
  gtk_window_set_default_size (GTK_WINDOW (set_up), 360, 700);
  hs_app_test_frames ();
  gtk_widget_grab_focus (hs_post_card_get (card, "post_street"));
  app_book_settle (book);
  hs_app_test_frames ();
  hs_app_test_picture (set_up, "posting-360");
  gtk_window_destroy (GTK_WINDOW (set_up));
}

static void
assert_fits (GtkWidget *window, const char *what, guint row, int width, int height)
{
  static const char *const sizes[] = { "360", "1024", "1280-200", "360-200" };
  g_autofree char *name = g_strdup_printf ("%s-%s", what, sizes[row]);
  int least;

  gtk_window_set_default_size (GTK_WINDOW (window), width, height);
  hs_app_test_wait (gtk_widget_get_width (window) == width);
  hs_app_test_frames ();
  hs_app_test_picture (window, name);
  gtk_widget_measure (window, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_test_message ("%s: %d", name, least);
  g_assert_cmpint (least, <=, width);
  gtk_widget_measure (window, GTK_ORIENTATION_VERTICAL, width, &least, NULL, NULL, NULL);
  g_test_message ("%s: %d high", name, least);
  g_assert_cmpint (least, <=, height);
}

/* The sign in the header, the window behind it and the card of set-up, however small the screen and large the text. */
static void
test_sizes (AppBook *book, gconstpointer data)
{
  static const struct
  {
    int width;
    int height;
    int dpi;
  } rows[] = { { 360, 700, 96 }, { 1024, 600, 96 }, { 1280, 800, 192 }, { 360, 700, 192 } };
  GtkSettings *settings = gtk_settings_get_default ();
  HsPostCard *card;
  GtkWidget *windows[3] = { GTK_WIDGET (book->window) };

  /* First: with another way to be known all would be tried again. */
  hs_deed_set (book->ledger, "post_auth", "basic", NULL, NULL);
  far.statuses[far.n_statuses++] = 422;
  begin (book);
  hs_app_test_wait (is_at_rest (book, 0, 1));
  WAIT_FOR_SIGN (book, TRUE);
  windows[1] = GTK_WIDGET (open_unsent (book));
  card = open_card (book);
  windows[2] = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (card)));
  gtk_widget_grab_focus (hs_post_card_get (card, "post_street"));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_object_set (settings, "gtk-xft-dpi", rows[i].dpi * PANGO_SCALE, NULL);
      assert_fits (windows[0], "sign", i, rows[i].width, rows[i].height);
      g_assert_true (has_sign (windows[0]));
      assert_fits (windows[1], "unsent", i, rows[i].width, rows[i].height);
      assert_fits (windows[2], "posting", i, rows[i].width, rows[i].height);
    }
  g_object_set (settings, "gtk-xft-dpi", 96 * PANGO_SCALE, NULL);
  gtk_window_destroy (GTK_WINDOW (windows[2]));
  gtk_window_destroy (GTK_WINDOW (windows[1]));
}

#define ADD(path, test) g_test_add (path, AppBook, NULL, set_up, test, tear_down)

int
main (int argc, char **argv)
{
  hs_app_test_init (&argc, &argv);
  ADD ("/app/unsent/quiet", test_quiet);
  ADD ("/app/unsent/parked", test_parked);
  ADD ("/app/unsent/dropped", test_dropped);
  ADD ("/app/unsent/paused", test_paused);
  ADD ("/app/unsent/all-now", test_all_now);
  ADD ("/app/unsent/more", test_more);
  ADD ("/app/unsent/ticks", test_ticks);
  ADD ("/app/unsent/secret", test_secret);
  ADD ("/app/unsent/forget", test_forget);
  ADD ("/app/unsent/leads-to-set-up", test_leads_to_set_up);
  ADD ("/app/unsent/address-left-untouched", test_address_left_untouched);
  ADD ("/app/unsent/not-built-in", test_not_built_in);
  ADD ("/app/unsent/narrow", test_narrow);
  ADD ("/app/unsent/sizes", test_sizes);
  return g_test_run ();
}
