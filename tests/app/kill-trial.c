// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The inverter drops at any moment. `kill-trial ROUNDS` types readings, fields of a call and call slips into a window
 * of another process, kills it at random and looks at the book: what was left a second before is in it, what was being
 * typed is kept, the file is sound, and the window reopens at the same job and field. Prints TAP, and how long
 * reopening took. The process that types tells each key and each field that it left on its standard output:
 *
 *     open MILLISECONDS JOB PAGE TEXT · typed MICROSECONDS FIELD TEXT · left MICROSECONDS KIND VALUE
 */

#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-call-form.h"
#include "hs-call-slip-window.h"
#include "hs-demo.h"
#include "hs-job-page.h"
#include "hs-job-row.h"
#include "hs-reading-row.h"

#define JOB "A-0024"
#define ON_DISK_WITHIN G_USEC_PER_SEC
#define SHORTEST_USEC 150000
#define LONGEST_USEC 2600000

/* The one that types ------------------------------------------------------------------------------------------- */

static void
say (const char *format, ...) G_GNUC_PRINTF (1, 2);

static void
say (const char *format, ...)
{
  g_autofree char *line = NULL;
  va_list values;

  va_start (values, format);
  line = g_strdup_vprintf (format, values);
  va_end (values);
  /* Whole or not at all: shorter than what a pipe takes at once. */
  if (write (STDOUT_FILENO, line, strlen (line)) < 0)
    exit (1);
}

static void
run_for (guint milliseconds)
{
  gint64 end = g_get_monotonic_time () + milliseconds * 1000;

  while (g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (500);
}

static void
key (AppBook *book, GtkWidget *window, guint keyval)
{
  if (window != NULL)
    app_book_press_in (window, keyval);
  else
    app_book_press (book, keyval);
  run_for ((guint) g_random_int_range (4, 60));
}

/* Key by key; @field as drafts call it. */
static void
type (AppBook *book, GtkWidget *window, const char *field, const char *text)
{
  for (guint i = 0; text[i] != '\0'; i++)
    {
      g_autofree char *so_far = g_strndup (text, i + 1);

      key (book, window, gdk_unicode_to_keyval ((guint32) text[i]));
      say ("typed\t%" G_GINT64_FORMAT "\t%s\t%s\n", g_get_monotonic_time (), field, so_far);
    }
}

static HsJobPage *
show (AppBook *book, const char *page)
{
  GtkWidget *job = hs_window_get_job (book->window);

  if (job == NULL || g_strcmp0 (hs_job_page_get_number (HS_JOB_PAGE (job)), JOB) != 0)
    job = app_book_open_job (book, JOB, page);
  gtk_stack_set_visible_child_name (hs_job_page_get_stack (HS_JOB_PAGE (job)), page);
  /* What is not on the screen yet takes no cursor. */
  run_for (30);
  return HS_JOB_PAGE (job);
}

static void
key_reading (AppBook *book)
{
  HsFindings *findings = hs_job_page_get_findings (show (book, "findings"));
  g_autofree char *text = g_strdup_printf ("12%02d", g_random_int_range (10, 90));

  hs_findings_go (findings, "battery_rest", NULL);
  hs_findings_focus (findings);
  type (book, NULL, "findings/battery_rest", text);
  key (book, NULL, GDK_KEY_Return);
  /* Over a reading that is stored, Enter asks first, and + says yes. */
  if (hs_app_test_says_part (GTK_WIDGET (findings), "both stay in the book"))
    key (book, NULL, GDK_KEY_plus);
  say ("left\t%" G_GINT64_FORMAT "\treading\t%s\n", g_get_monotonic_time (), text);
  run_for ((guint) g_random_int_range (20, 300));
  /* The next jump is the hand's, which waits for the line to go on. */
  for (guint i = 0; i < 200 && *hs_findings_get_text (findings) != '\0'; i++)
    run_for (10);
}

static void
key_street (AppBook *book)
{
  HsCallForm *form = HS_CALL_FORM (hs_app_test_find (GTK_WIDGET (show (book, "call")), HS_TYPE_CALL_FORM));
  g_autofree char *text = g_strdup_printf ("%d Mill", g_random_int_range (100, 1000));

  hs_call_form_go (form, "street", NULL);
  run_for (5);
  gtk_editable_set_text (GTK_EDITABLE (gtk_widget_get_ancestor (gtk_root_get_focus (GTK_ROOT (book->window)),
                                                                GTK_TYPE_ENTRY)), "");
  type (book, NULL, "call/street", text);
  hs_call_form_go (form, "words", NULL);
  say ("left\t%" G_GINT64_FORMAT "\tstreet\t%s\n", g_get_monotonic_time (), text);
  run_for ((guint) g_random_int_range (20, 300));
}

static void
key_slip (AppBook *book)
{
  g_autofree char *phone = g_strdup_printf ("5550%d", g_random_int_range (100, 1000));
  g_autofree char *words = g_strdup_printf ("hums %d", g_random_int_range (10000, 100000));
  GtkWidget *slip, *form;

  gtk_widget_activate_action (GTK_WIDGET (book->window), "win.call-slip", NULL);
  run_for (40);
  slip = hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW);
  form = hs_app_test_find (slip, HS_TYPE_CALL_FORM);
  hs_call_form_go (HS_CALL_FORM (form), "phone", NULL);
  type (book, slip, "slip/phone", phone);
  hs_call_form_go (HS_CALL_FORM (form), "words", NULL);
  type (book, slip, "slip/words", words);
  gtk_window_close (GTK_WINDOW (slip));
  say ("left\t%" G_GINT64_FORMAT "\tslip\t%s\n", g_get_monotonic_time (), words);
  run_for ((guint) g_random_int_range (5, 100));
}

/* The text of the field with the cursor, as soon as there is one: fields are filled behind their window. */
static const char *
text_at_cursor (GtkWidget *window)
{
  gint64 end = g_get_monotonic_time () + G_USEC_PER_SEC / 2;
  const char *text = "";

  while (*text == '\0' && g_get_monotonic_time () < end)
    {
      GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (window));

      text = GTK_IS_EDITABLE (focus) ? gtk_editable_get_text (GTK_EDITABLE (focus)) : "";
      run_for (1);
    }
  return text;
}

/* Where it has reopened by itself, once it has. */
static void
say_place (AppBook *book, gint64 started)
{
  GtkWidget *slip = hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW);
  GtkWidget *job = hs_window_get_job (book->window);
  const char *page = slip != NULL ? "slip" : "-", *text = "";

  if (slip == NULL && job != NULL)
    page = gtk_stack_get_visible_child_name (hs_job_page_get_stack (HS_JOB_PAGE (job)));
  if (g_strcmp0 (page, "findings") == 0)
    text = hs_findings_get_text (hs_job_page_get_findings (HS_JOB_PAGE (job)));
  else
    text = text_at_cursor (slip != NULL ? slip : GTK_WIDGET (book->window));
  say ("open\t%" G_GINT64_FORMAT "\t%s\t%s\t%s\n", (g_get_monotonic_time () - started) / 1000,
       slip == NULL && job != NULL ? hs_job_page_get_number (HS_JOB_PAGE (job)) : "-", page, text);
}

static gboolean
is_there (AppBook *book, gboolean wanted)
{
  GtkWidget *job = hs_window_get_job (book->window);

  return !wanted || hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW) != NULL
         || (job != NULL && hs_job_page_is_ready (HS_JOB_PAGE (job)));
}

static int
type_for_ever (const char *path, guint32 seed, gint64 started, gboolean reopens)
{
  AppBook book = { .path = (char *) path };
  GtkWidget *slip;

  g_random_set_seed (seed);
  app_book_open_window (&book);
  hs_app_test_wait (is_there (&book, reopens));
  say_place (&book, started);
  slip = hs_app_test_window (HS_TYPE_CALL_SLIP_WINDOW);
  if (slip != NULL)
    gtk_window_destroy (GTK_WINDOW (slip));
  for (;;)
    {
      gint32 what = g_random_int_range (0, 6);

      if (what < 3)
        key_reading (&book);
      else if (what < 5)
        key_street (&book);
      else
        key_slip (&book);
    }
  return 0;
}

/* The one that kills ------------------------------------------------------------------------------------------- */

typedef struct
{
  const char *self;
  char *folder;
  char *path;
  guint n, n_failed, round;
  GHashTable *readings; /* value → how often it has to be there at least */
  char *street;         /* the latest that has to be there */
  GPtrArray *streets;   /* others that may be there instead: left since */
  char *words;          /* of the slip that is being typed */
  char *place;          /* where it has to reopen: "JOB\tPAGE\tTEXT" */
  GArray *reopened;     /* milliseconds */
} Trial;

static void
judge (Trial *trial, gboolean good, const char *what, const char *detail)
{
  trial->n++;
  trial->n_failed += !good;
  if (!good)
    printf ("# round %u: %s: %s\n", trial->round, what, detail);
  fflush (stdout);
}

static HsBook *
open_book (Trial *trial)
{
  HsBookUser user = { "kill-trial", "here", (int) getpid (), hs_demo_get_now () };
  g_autoptr (GError) error = NULL;
  HsBook *book = hs_book_open (trial->path, HS_BOOK_WRITE, &user, &error);

  g_assert_no_error (error);
  return book;
}

static void
make_book (Trial *trial)
{
  HsBookUser user = { "kill-trial", "here", (int) getpid (), hs_demo_get_now () };
  g_autoptr (HsBook) book = NULL;
  g_autofree char *id = NULL;
  g_autoptr (GError) error = NULL;

  trial->folder = g_dir_make_tmp ("hs-kill-XXXXXX", NULL);
  trial->path = g_build_filename (trial->folder, "demo.hsbook", NULL);
  book = hs_demo_make (trial->path, &user, &error);
  g_assert_no_error (error);
  id = hs_job_find (book, JOB, NULL);
  g_assert_true (hs_job_set_group (book, id, "will_not_start", hs_demo_get_now (), &error));
}

static gboolean
finds_words (HsBook *book, const char *words)
{
  g_autoptr (HsBoard) board = hs_board_load (book, NULL, hs_demo_get_now (), NULL);

  for (guint i = 0; board != NULL && i < board->rows->len; i++)
    if (g_strcmp0 (((const HsBoardRow *) g_ptr_array_index (board->rows, i))->words, words) == 0)
      return TRUE;
  return FALSE;
}

static void
judge_readings (Trial *trial, HsBook *book, const char *job_id)
{
  g_autoptr (GPtrArray) rows = NULL;
  GHashTableIter iter;
  gpointer value, count;

  g_assert_true (hs_reading_row_list_of (hs_book_get_store (book), job_id, &rows, NULL));
  g_hash_table_iter_init (&iter, trial->readings);
  while (g_hash_table_iter_next (&iter, &value, &count))
    {
      guint found = 0;

      for (guint i = 0; i < rows->len; i++)
        {
          const HsReadingRow *row = g_ptr_array_index (rows, i);
          g_autofree char *text = g_strdup_printf ("%" G_GINT64_FORMAT, row->value);

          found += g_str_equal (row->check_id, "battery_rest") && g_str_equal (text, value);
        }
      judge (trial, found >= GPOINTER_TO_UINT (count), "a stored reading is lost", value);
    }
}

static void
judge_street (Trial *trial, HsBook *book, const char *job_id)
{
  g_autoptr (HsJobRow) job = NULL;
  gboolean good;

  if (trial->street == NULL)
    return;
  g_assert_true (hs_job_row_load (hs_book_get_store (book), job_id, &job, NULL));
  good = g_strcmp0 (job->street, trial->street) == 0;
  for (guint i = 0; i < trial->streets->len; i++)
    good |= g_strcmp0 (job->street, g_ptr_array_index (trial->streets, i)) == 0;
  judge (trial, good, "a field that was left is lost", trial->street);
}

/* @typed: "FIELD\tTEXT" that was typed a second before and not left since: it, or what it went on to be, is kept. */
static void
judge_typed (Trial *trial, HsBook *book, const char *job_id, const char *typed)
{
  g_auto (GStrv) parts = g_strsplit (typed, "\t", 2);
  gboolean slip = g_str_has_prefix (parts[0], "slip/"), good = FALSE;
  g_autoptr (GVariant) args = g_variant_ref_sink (g_variant_new ("(ms)", slip ? NULL : job_id));
  g_autoptr (GPtrArray) drafts = hs_ask_drafts (book, args, hs_demo_get_now (), NULL);

  for (guint i = 0; i < drafts->len; i++)
    {
      const HsWhere *draft = g_ptr_array_index (drafts, i);
      g_autofree char *field = g_strdup_printf ("%s/%s", draft->page, draft->field);

      good |= g_str_equal (field, parts[0]) && g_str_has_prefix (draft->text, parts[1]);
    }
  /* Shut, it is a call already, which may not have been told any more. */
  good |= slip && trial->words != NULL && finds_words (book, trial->words);
  judge (trial, good, "what was typed is lost", typed);
}

static void
find_place (Trial *trial, HsBook *book)
{
  g_autoptr (HsWhere) where = hs_where_load (book, NULL);

  g_clear_pointer (&trial->place, g_free);
  if (where != NULL && !g_str_has_prefix (where->field, HS_WHERE_LEFT))
    trial->place = g_strdup_printf ("%s\t%s\t%s", where->job_number != NULL ? where->job_number : "-", where->page,
                                    where->text);
}

static void
judge_book (Trial *trial, GPtrArray *slips, const char *typed)
{
  g_autoptr (HsBook) book = open_book (trial);
  g_autofree char *job_id = hs_job_find (book, JOB, NULL);
  g_autoptr (GError) error = NULL;

  judge (trial, hs_store_check (hs_book_get_store (book), TRUE, &error), "the file is not sound",
         error != NULL ? error->message : "");
  judge_readings (trial, book, job_id);
  judge_street (trial, book, job_id);
  for (guint i = 0; i < slips->len; i++)
    judge (trial, finds_words (book, g_ptr_array_index (slips, i)), "a call is lost", g_ptr_array_index (slips, i));
  if (typed != NULL)
    judge_typed (trial, book, job_id, typed);
  find_place (trial, book);
}

static void
left (Trial *trial, GPtrArray *slips, char **parts, gboolean for_sure)
{
  const char *kind = parts[2], *value = parts[3];

  if (g_str_equal (kind, "street") && for_sure)
    {
      g_free (trial->street);
      trial->street = g_strdup (value);
      g_ptr_array_set_size (trial->streets, 0);
    }
  else if (g_str_equal (kind, "street"))
    g_ptr_array_add (trial->streets, g_strdup (value));
  else if (!for_sure)
    return;
  else if (g_str_equal (kind, "slip"))
    g_ptr_array_add (slips, g_strdup (value));
  else
    g_hash_table_insert (trial->readings, g_strdup (value),
                         GUINT_TO_POINTER (GPOINTER_TO_UINT (g_hash_table_lookup (trial->readings, value)) + 1));
}

/* A field of the call that holds nothing but what the book has shows that, and a slip goes on in its first empty
 * field. */
static gboolean
is_at (const char *expected, char **parts)
{
  g_auto (GStrv) wanted = g_strsplit (expected, "\t", 3);

  return g_str_equal (wanted[0], parts[2]) && g_str_equal (wanted[1], parts[3])
         && (g_str_equal (wanted[2], parts[4]) || g_str_equal (wanted[1], "slip")
             || (g_str_equal (wanted[1], "call") && *wanted[2] == '\0'));
}

/* Typing over a field that was stored may be stored by itself before it is left. */
static void
typed_on (Trial *trial, char **parts, gboolean for_sure, char **typed)
{
  if (g_str_equal (parts[2], "call/street"))
    g_ptr_array_add (trial->streets, g_strdup (parts[3]));
  if (g_str_equal (parts[2], "slip/words"))
    {
      g_free (trial->words);
      trial->words = g_strdup (parts[3]);
    }
  if (!for_sure)
    return;
  g_free (*typed);
  *typed = g_strdup_printf ("%s\t%s", parts[2], parts[3]);
}

static void
judge_open (Trial *trial, const char *expected, char **parts)
{
  gint64 milliseconds = g_ascii_strtoll (parts[1], NULL, 10);
  g_autofree char *place = g_strjoinv ("\t", parts + 2);
  g_autofree char *detail = g_strdup_printf ("at %s, not at %s", place, expected != NULL ? expected : "nothing");

  if (expected != NULL)
    judge (trial, is_at (expected, parts), "it reopened elsewhere", detail);
  g_array_append_val (trial->reopened, milliseconds);
}

/* @killed: when; lines of the one that typed, in their order. */
static void
judge_round (Trial *trial, const char *expected, char **lines, gint64 killed)
{
  g_autoptr (GPtrArray) slips = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *typed = NULL;

  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) parts = g_strsplit (lines[i], "\t", 5);
      gint64 at = g_strv_length (parts) > 2 ? g_ascii_strtoll (parts[1], NULL, 10) : 0;
      gboolean for_sure = at <= killed - ON_DISK_WITHIN;

      if (g_strv_length (parts) == 5 && g_str_equal (parts[0], "open"))
        judge_open (trial, expected, parts);
      else if (g_strv_length (parts) == 4 && g_str_equal (parts[0], "left"))
        {
          left (trial, slips, parts, for_sure);
          g_clear_pointer (&typed, g_free);
        }
      else if (g_strv_length (parts) == 4)
        typed_on (trial, parts, for_sure, &typed);
    }
  judge_book (trial, slips, typed);
}

static pid_t
spawn (Trial *trial, int *ret_out)
{
  g_autofree char *seed = g_strdup_printf ("%u", g_random_int ());
  g_autofree char *now = g_strdup_printf ("%" G_GINT64_FORMAT, g_get_monotonic_time ());
  const char *argv[] = { trial->self, "--type", trial->path, seed, now, trial->place != NULL ? "1" : "0", NULL };
  int ends[2];
  pid_t pid;

  g_assert_cmpint (pipe (ends), ==, 0);
  pid = fork ();
  g_assert_cmpint (pid, >=, 0);
  if (pid == 0)
    {
      dup2 (ends[1], STDOUT_FILENO);
      close (ends[0]);
      close (ends[1]);
      execv (trial->self, (char *const *) argv);
      _exit (127);
    }
  close (ends[1]);
  *ret_out = ends[0];
  return pid;
}

/* Until its window is there, so that the moment of the kill is one of typing. */
static void
read_open (int out, GString *text)
{
  char sign;

  while ((strstr (text->str, "open\t") == NULL || text->str[text->len - 1] != '\n') && read (out, &sign, 1) == 1)
    g_string_append_c (text, sign);
}

static void
read_rest (int out, GString *text)
{
  char piece[4096];
  ssize_t n;

  while ((n = read (out, piece, sizeof piece)) > 0)
    g_string_append_len (text, piece, n);
  close (out);
}

static void
run_round (Trial *trial)
{
  g_autofree char *expected = g_strdup (trial->place);
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (GStrv) lines = NULL;
  int out, status;
  pid_t pid = spawn (trial, &out);
  gint64 killed;

  read_open (out, text);
  g_usleep ((gulong) g_random_int_range (SHORTEST_USEC, LONGEST_USEC));
  kill (pid, SIGKILL);
  killed = g_get_monotonic_time ();
  waitpid (pid, &status, 0);
  judge (trial, WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL, "it ended by itself", text->str);
  read_rest (out, text);
  lines = g_strsplit (text->str, "\n", -1);
  judge_round (trial, expected, lines, killed);
}

static int
compare (gconstpointer a, gconstpointer b)
{
  return (*(const gint64 *) a > *(const gint64 *) b) - (*(const gint64 *) a < *(const gint64 *) b);
}

static void
tell (Trial *trial)
{
  guint n = trial->reopened->len;

  g_array_sort (trial->reopened, compare);
  printf ("%sok 1 - %u rounds, %u looks, %u faults\n1..1\n", trial->n_failed == 0 ? "" : "not ", trial->round, trial->n,
          trial->n_failed);
  if (n > 0)
    printf ("# reopened after %" G_GINT64_FORMAT " ms in the middle, %" G_GINT64_FORMAT " ms at the most\n",
            g_array_index (trial->reopened, gint64, n / 2), g_array_index (trial->reopened, gint64, n - 1));
}

static void
remove_folder (Trial *trial)
{
  g_autoptr (GDir) dir = g_dir_open (trial->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (trial->folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (trial->folder);
}

static int
kill_for (const char *self, guint rounds)
{
  Trial trial = { .self = self };

  trial.readings = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  trial.streets = g_ptr_array_new_with_free_func (g_free);
  trial.reopened = g_array_new (FALSE, FALSE, sizeof (gint64));
  make_book (&trial);
  while (trial.round < rounds)
    {
      trial.round++;
      run_round (&trial);
      if (trial.round % 100 == 0)
        printf ("# %u rounds, %u faults\n", trial.round, trial.n_failed);
      fflush (stdout);
    }
  tell (&trial);
  remove_folder (&trial);
  return trial.n_failed == 0 ? 0 : 1;
}

int
main (int argc, char *argv[])
{
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);

  if (argc == 6 && g_str_equal (argv[1], "--type"))
    {
      gint64 started = g_ascii_strtoll (argv[4], NULL, 10);
      int n = 1;

      hs_app_test_init (&n, &argv);
      return type_for_ever (argv[2], (guint32) g_ascii_strtoull (argv[3], NULL, 10), started, *argv[5] == '1');
    }
  return kill_for (self, argc > 1 ? (guint) atoi (argv[1]) : 20);
}
