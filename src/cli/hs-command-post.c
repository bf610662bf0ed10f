// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `post`: sends what waits for the owner's endpoint, switches posting on or off for this machine, and takes the secret,
 * which comes in on standard input and nowhere else. */

#include "hs-cli.h"

#include "hs-cli-post.h"
#include "hs-ops-error.h"
#include "hs-post-op.h"
#include "hs-store-error.h"

#include <glib/gi18n.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

/* How often a program that goes on looks for what was queued meanwhile. */
#define LOOK_SECONDS 5
#define SECRET_BYTES 4097

typedef struct
{
  gboolean once;
  gboolean on;
  gboolean off;
  gboolean all;
  gboolean secret;
  gboolean forget;
  int seconds;
} Asked;

/* @now: (nullable): what was said to be the time; @over: a signal came. */
typedef struct
{
  guint seconds;
  const HsInstant *now;
  GCancellable *over;
} World;

static void
send_parcel (gpointer data, const HsPostParcel *parcel, HsPostReply *ret_reply)
{
  const World *world = data;

  hs_cli_post_send (world->seconds, parcel, world->over, ret_reply);
}

/* A book with a clock of its own is posted by the true one: the endpoint lives in the world. */
static HsInstant
tell_time (gpointer data)
{
  const World *world = data;

  return world->now != NULL ? *world->now : g_get_real_time () / G_USEC_PER_SEC;
}

static double
draw (gpointer data)
{
  return g_random_double ();
}

static gboolean
is_stopped (gpointer data)
{
  return g_cancellable_is_cancelled (((const World *) data)->over);
}

static void
write_instant (HsJsonOut *out, const char *name, HsInstant at)
{
  g_autofree char *text = at == HS_INSTANT_NONE ? NULL : hs_instant_format (at);

  hs_json_out_string (out, name, text);
}

static void
print_report (HsCli *cli, const HsPostReport *report, const HsPostOverview *overview)
{
  g_autoptr (HsJsonOut) out = NULL;

  if (!cli->json)
    {
      if (report->busy)
        hs_cli_print ("%s\n", _("another program is posting"));
      hs_cli_print (_("posted: %u, not taken: %u, waiting: %d, parked: %d\n"), report->sent, report->failed,
                    (int) overview->sums.waiting, (int) overview->sums.parked);
      return;
    }
  out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_json_out_integer (out, "sent", report->sent);
  hs_json_out_integer (out, "failed", report->failed);
  hs_json_out_boolean (out, "busy", report->busy);
  hs_json_out_integer (out, "waiting", overview->sums.waiting);
  hs_json_out_integer (out, "parked", overview->sums.parked);
  hs_json_out_boolean (out, "paused", overview->paused_at != HS_INSTANT_NONE);
  hs_json_out_string (out, "why", overview->why);
  hs_json_out_string (out, "said", overview->said);
  write_instant (out, "next_at", report->next_at);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

/* What the owner has to do something about is a refusal, so that cron writes to her. */
static gboolean
run_once (HsCli *cli, const HsPostWorks *works, HsPostReport *ret_report, GError **error)
{
  static const HsTongue tongue = { gettext, ngettext };
  g_autoptr (HsPostOverview) overview = NULL;

  if (!hs_post_run (cli->book, works, G_MAXUINT, ret_report, error))
    return FALSE;
  overview = hs_post_overview_load (cli->book, 0, &tongue, error);
  if (overview == NULL)
    return FALSE;
  print_report (cli, ret_report, overview);
  if (overview->paused_at == HS_INSTANT_NONE)
    return TRUE;
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, "%s%s%s", overview->why, overview->said != NULL ? " " : "",
               overview->said != NULL ? overview->said : "");
  return FALSE;
}

static gboolean
anything_due (HsCli *cli, const HsPostWorks *works, gboolean *ret_due, GError **error)
{
  HsPostReport report;

  if (!hs_post_run (cli->book, works, 0, &report, error))
    return FALSE;
  *ret_due = report.next_at != HS_INSTANT_NONE && report.next_at <= works->clock (works->data);
  return TRUE;
}

static gboolean
send_due (HsCli *cli, const HsPostWorks *works, GError **error)
{
  HsPostReport report;
  gboolean due = FALSE;

  return anything_due (cli, works, &due, error) && (!due || run_once (cli, works, &report, error));
}

/* TRUE if it passes by itself: somebody else writes, or there is no room. It is said once, @told is what was. */
static gboolean
bear (char **told, const GError *trouble)
{
  g_autofree char *said = g_strdup_printf ("halfshaft-cli: %s", trouble->message);

  if (!g_error_matches (trouble, HS_STORE_ERROR, HS_STORE_ERROR_BUSY)
      && !g_error_matches (trouble, HS_STORE_ERROR, HS_STORE_ERROR_FULL))
    return FALSE;
  if (g_strcmp0 (*told, said) != 0)
    hs_cli_complain (said);
  g_free (*told);
  *told = g_steal_pointer (&said);
  return TRUE;
}

static gpointer
wait_for_signal (gpointer data)
{
  GCancellable *over = data;
  sigset_t ends;
  int number;

  sigemptyset (&ends);
  sigaddset (&ends, SIGINT);
  sigaddset (&ends, SIGTERM);
  if (sigwait (&ends, &number) == 0)
    g_cancellable_cancel (over);
  g_object_unref (over);
  return NULL;
}

/* What is under way is broken off too, which no handler of a signal could do. Every thread leaves them to that one. */
static void
listen_for_signals (GCancellable *over)
{
  sigset_t ends;

  sigemptyset (&ends);
  sigaddset (&ends, SIGINT);
  sigaddset (&ends, SIGTERM);
  (void) pthread_sigmask (SIG_BLOCK, &ends, NULL);
  g_thread_unref (g_thread_new ("signals", wait_for_signal, g_object_ref (over)));
}

static gboolean
go_on (HsCli *cli, const HsPostWorks *works, GError **error)
{
  g_autofree char *told = NULL;

  listen_for_signals (((const World *) works->data)->over);
  while (!is_stopped (works->data))
    {
      g_autoptr (GError) trouble = NULL;

      if (send_due (cli, works, &trouble))
        g_clear_pointer (&told, g_free);
      else if (!bear (&told, trouble))
        {
          g_propagate_error (error, g_steal_pointer (&trouble));
          return FALSE;
        }
      (void) fflush (stdout);
      for (guint i = 0; !is_stopped (works->data) && i < LOOK_SECONDS; i++)
        (void) sleep (1);
    }
  return TRUE;
}

static gboolean
post (HsCli *cli, const Asked *asked, GError **error)
{
  g_autoptr (GCancellable) over = g_cancellable_new ();
  World world = { (guint) asked->seconds, cli->now_text != NULL ? &cli->now : NULL, over };
  HsPostWorks works = { send_parcel, tell_time, draw, is_stopped, &world };
  HsPostReport report;
  gboolean on = FALSE;

  if (!hs_post_is_on (cli->book, &on, error))
    return FALSE;
  if (!on)
    {
      g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                           _("posting is off on this machine; halfshaft-cli post --on switches it on"));
      return FALSE;
    }
  return asked->once ? run_once (cli, &works, &report, error) : go_on (cli, &works, error);
}

/* What is typed on a terminal is not to be read from it afterwards. Whatever ends the program meanwhile, the terminal
 * shows again what is typed. */
static const int ending[] = { SIGINT, SIGTERM, SIGHUP, SIGQUIT };
static struct termios shown;

static void
end_shown (int signal_number)
{
  (void) tcsetattr (STDIN_FILENO, TCSANOW, &shown);
  (void) raise (signal_number);
}

static void
show_typing (const struct sigaction *before)
{
  (void) tcsetattr (STDIN_FILENO, TCSAFLUSH, &shown);
  for (guint i = 0; i < G_N_ELEMENTS (ending); i++)
    (void) sigaction (ending[i], &before[i], NULL);
}

static gboolean
hide_typing (struct sigaction *ret_before)
{
  struct sigaction show = { .sa_handler = end_shown, .sa_flags = SA_RESETHAND | SA_NODEFER };
  struct termios hidden;

  if (tcgetattr (STDIN_FILENO, &shown) != 0)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (ending); i++)
    (void) sigaction (ending[i], &show, &ret_before[i]);
  hidden = shown;
  hidden.c_lflag &= ~(tcflag_t) ECHO;
  hidden.c_lflag |= ECHONL;
  if (tcsetattr (STDIN_FILENO, TCSAFLUSH, &hidden) == 0)
    return TRUE;
  show_typing (ret_before);
  return FALSE;
}

static char *
read_secret (GError **error)
{
  char *line = g_malloc0 (SECRET_BYTES + 1);
  struct sigaction before[G_N_ELEMENTS (ending)];
  gboolean hidden = hide_typing (before);
  char *end;

  if (fgets (line, SECRET_BYTES + 1, stdin) == NULL)
    *line = '\0';
  if (hidden)
    show_typing (before);
  end = strchr (line, '\n');
  if (end != NULL)
    *end = '\0';
  return line;
}

static gboolean
change_secret (HsCli *cli, gboolean forget, GError **error)
{
  g_autofree char *origin = hs_post_keyring_origin (cli->book, !forget, error);
  char *secret = NULL;
  gboolean done;

  if (origin == NULL)
    return FALSE;
  if (!forget)
    secret = read_secret (error);
  done = hs_cli_post_store_secret (origin, secret, error);
  if (secret != NULL)
    explicit_bzero (secret, SECRET_BYTES);
  g_free (secret);
  /* With another secret the queue may go on. */
  return done && (forget || hs_post_retry (cli->book, NULL, cli->now, error));
}

static gboolean
queue_all (HsCli *cli, GError **error)
{
  guint n = 0;

  if (!hs_post_queue_all (cli->book, cli->now, &n, error))
    return FALSE;
  if (cli->json)
    {
      g_autoptr (HsJsonOut) out = hs_json_out_new ();

      hs_json_out_begin_object (out, NULL);
      hs_json_out_integer (out, "queued", n);
      hs_json_out_end_object (out);
      hs_cli_print_json (out);
      return TRUE;
    }
  hs_cli_print (ngettext ("%u job waits to be posted\n", "%u jobs wait to be posted\n", n), n);
  return TRUE;
}

static gboolean
act (HsCli *cli, const Asked *asked, GError **error)
{
  if (!hs_cli_open_book (cli, HS_BOOK_WRITE, error))
    return FALSE;
  if (asked->off)
    return hs_post_switch (cli->book, FALSE, cli->now, error);
  if (!hs_cli_post_is_built_in ())
    {
      g_set_error_literal (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, _("this build does not post"));
      return FALSE;
    }
  if (asked->on)
    return hs_post_switch (cli->book, TRUE, cli->now, error);
  if (asked->all)
    return queue_all (cli, error);
  if (asked->secret || asked->forget)
    return change_secret (cli, asked->forget, error);
  return post (cli, asked, error);
}

gboolean
hs_command_post (HsCli *cli, char **words, GError **error)
{
  Asked asked = { 0 };
  const GOptionEntry entries[] = {
    { "once", 0, 0, G_OPTION_ARG_NONE, &asked.once, NULL, NULL },
    { "on", 0, 0, G_OPTION_ARG_NONE, &asked.on, NULL, NULL },
    { "off", 0, 0, G_OPTION_ARG_NONE, &asked.off, NULL, NULL },
    { "all", 0, 0, G_OPTION_ARG_NONE, &asked.all, NULL, NULL },
    { "secret", 0, 0, G_OPTION_ARG_NONE, &asked.secret, NULL, NULL },
    { "forget", 0, 0, G_OPTION_ARG_NONE, &asked.forget, NULL, NULL },
    { "wait", 0, 0, G_OPTION_ARG_INT, &asked.seconds, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;

  if (!hs_cli_parse (words, entries, 0, 0, &left, error))
    return FALSE;
  if (asked.once + asked.on + asked.off + asked.all + asked.secret + asked.forget > 1)
    return hs_cli_usage (error, _("one of --once, --on, --off, --all, --secret and --forget at a time"));
  if (asked.seconds < 0 || asked.seconds > 600)
    return hs_cli_usage (error, _("--wait takes 1 to 600 seconds"));
  return act (cli, &asked, error);
}
