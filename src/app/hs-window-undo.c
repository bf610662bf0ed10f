// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What F10 takes back: the last thing that was done, whatever is shown now.
 *
 *   steps of jobs, kept in the book ──┐
 *                                     ├─▶ the later one
 *   what pages said by hs_window_did ─┘    (each with the mark of the book's last step when it was done)
 *
 * An edit of a job needs no word of its page: operations note their steps themselves (hs-undo.h), and these outlive the
 * program. Whoever lets something else be done says so by hs_window_did(). A field that has the focus takes back its
 * own typing first. It refuses to guess: what cannot be taken back is named, and nothing older goes in its place by the
 * same press. */

#include "hs-window-private.h"

#include <glib/gi18n.h>

#include "hs-deed-undo.h"
#include "hs-show.h"
#include "hs-step-words.h"

#define KEY "hs-window-undo"
#define MOST_DONE 100

/* @mark: of the book's last step when it was done; %G_MAXINT64 until the book has said so: nothing came later. */
typedef struct
{
  char *what;
  HsUndoFunc undo;
  gpointer data;
  GDestroyNotify free_data;
  gint64 mark;
  guint serial;
} Done;

/*
 * @done: newest first
 * @asked: the mark of an old step that was named and not taken back
 * @waiting: presses while the book answers
 */
typedef struct
{
  HsWindow *window; /* owns us */
  HsLedger *ledger;
  GQueue done;
  guint last_serial;
  gint64 asked;
  guint waiting;
  gboolean busy;
  gboolean other; /* what was taken back last was no step of the book */
} Undo;

static void press (Undo *undo);

static void
done_free (gpointer data)
{
  Done *done = data;

  if (done->free_data != NULL)
    done->free_data (done->data);
  g_free (done->what);
  g_free (done);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Done, done_free)

static void
undo_free (gpointer data)
{
  Undo *undo = data;

  g_queue_clear_full (&undo->done, done_free);
  g_clear_object (&undo->ledger);
  g_free (undo);
}

static Undo *
undo_of (HsWindow *self)
{
  Undo *undo = g_object_get_data (G_OBJECT (self), KEY);

  if (undo == NULL)
    {
      undo = g_new0 (Undo, 1);
      undo->window = self;
      g_queue_init (&undo->done);
      g_object_set_data_full (G_OBJECT (self), KEY, undo, undo_free);
    }
  return undo;
}

void
hs_window_watch_undo (HsWindow *self, HsLedger *ledger)
{
  g_return_if_fail (HS_IS_WINDOW (self));

  g_set_object (&undo_of (self)->ledger, ledger);
}

/* What is done. */

typedef struct
{
  HsWindow *window;
  guint serial;
} Marking;

static void
marked_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Marking *marking = data;
  g_autoptr (HsWindow) self = marking->window;
  g_autofree gint64 *mark = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &mark, NULL))
    return;
  for (GList *at = undo_of (self)->done.head; at != NULL; at = at->next)
    if (((Done *) at->data)->serial == marking->serial)
      ((Done *) at->data)->mark = *mark;
}

static void
ask_mark (Undo *undo, Done *done)
{
  Marking *marking;

  done->mark = G_MAXINT64;
  done->serial = ++undo->last_serial;
  if (undo->ledger == NULL || !hs_ledger_is_open (undo->ledger))
    return;
  marking = g_new0 (Marking, 1);
  marking->window = g_object_ref (undo->window);
  marking->serial = done->serial;
  hs_ledger_ask_async (undo->ledger, hs_ask_undo_mark, NULL, g_free, marked_cb, marking);
}

void
hs_window_did (HsWindow *self, const char *what, HsUndoFunc func, gpointer data, GDestroyNotify free_data)
{
  Undo *undo;
  Done *done;

  g_return_if_fail (HS_IS_WINDOW (self));

  undo = undo_of (self);
  done = g_new0 (Done, 1);
  done->what = g_strdup (what);
  done->undo = func;
  done->data = data;
  done->free_data = free_data;
  ask_mark (undo, done);
  g_queue_push_head (&undo->done, done);
  if (undo->done.length > MOST_DONE)
    done_free (g_queue_pop_tail (&undo->done));
}

void
hs_window_undid (HsWindow *self, HsUndoFunc func)
{
  Undo *undo;

  g_return_if_fail (HS_IS_WINDOW (self));

  undo = undo_of (self);
  for (GList *at = undo->done.head; at != NULL; at = at->next)
    if (((Done *) at->data)->undo == func)
      {
        done_free (at->data);
        g_queue_delete_link (&undo->done, at);
        return;
      }
}

void
hs_window_forget_done (HsWindow *self)
{
  Undo *undo;

  g_return_if_fail (HS_IS_WINDOW (self));

  undo = undo_of (self);
  g_queue_clear_full (&undo->done, done_free);
  undo->asked = 0;
  undo->other = FALSE;
}

/* What is taken back. */

static void
undo_other (Undo *undo)
{
  g_autoptr (Done) done = g_queue_pop_head (&undo->done);
  g_autofree char *text = NULL;

  undo->other = done != NULL;
  if (done != NULL && done->undo != NULL)
    {
      done->undo (undo->window, done->data);
      return;
    }
  /* Translators: what was done, as it was said then. */
  text = done != NULL ? g_strdup_printf (_("“%s” can’t be taken back by a key."), done->what)
                      : g_strdup (_("Nothing was done that a key can take back."));
  hs_window_toast (undo->window, text, NULL, NULL);
}

/* @text: (transfer full): what was taken back or done again. */
static char *
with_kept (char *text, const HsTakenBack *taken)
{
  g_autofree char *said = text;

  if (taken->kept == NULL)
    return g_steal_pointer (&said);
  /* Translators: that something was taken back or done again, and the numbers of one job or more. */
  return g_strdup_printf (_("%s. The labor clock of what is squared up stays as it is: %s."), said, taken->kept);
}

static void
tell_taken (Undo *undo, const HsTakenBack *taken)
{
  g_autofree char *what = hs_step_words (taken->what);
  g_autofree char *text = NULL, *age = NULL;

  if (taken->done)
    {
      /* Translators: a job's number, and what was done on it: "A-0021: reading: Battery at rest, 12.42 V". */
      text = with_kept (g_strdup_printf (_("Taken back on %s: %s"), taken->number, what), taken);
      hs_window_toast (undo->window, text, _("Do It Again"), "win.redo");
      return;
    }
  age = hs_show_age (hs_ledger_get_now (undo->ledger) - taken->at);
  /* Translators: how long ago, a job's number, and what was done on it. */
  text = g_strdup_printf (_("Done last, %s, on %s: %s. F10 again takes it back."), age, taken->number, what);
  undo->asked = taken->mark;
  hs_window_toast (undo->window, text, NULL, NULL);
}

static void
next_press (Undo *undo)
{
  undo->busy = FALSE;
  if (undo->waiting > 0)
    {
      undo->waiting--;
      press (undo);
    }
}

static void
taken_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsWindow) self = data;
  Undo *undo = undo_of (self);
  g_autoptr (HsTakenBack) taken = NULL;
  g_autoptr (GError) error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &taken, &error))
    hs_window_toast (self, error->message, NULL, NULL);
  else if (taken != NULL)
    {
      undo->other = FALSE;
      tell_taken (undo, taken);
    }
  else
    undo_other (undo);
  next_press (undo);
}

static void
press (Undo *undo)
{
  const Done *newest = g_queue_peek_head (&undo->done);

  if (undo->busy)
    {
      undo->waiting++;
      return;
    }
  if (undo->ledger == NULL || !hs_ledger_is_open (undo->ledger))
    {
      undo_other (undo);
      return;
    }
  undo->busy = TRUE;
  hs_deed_take_back (undo->ledger, newest != NULL ? newest->mark : 0, undo->asked, taken_cb,
                     g_object_ref (undo->window));
}

/* Whether there was something of the field's own to take back. */
static gboolean
undo_typing (GtkWidget *text)
{
  g_autofree char *before = g_strdup (gtk_editable_get_text (GTK_EDITABLE (text)));

  gtk_widget_activate_action (text, "text.undo", NULL);
  return !g_str_equal (before, gtk_editable_get_text (GTK_EDITABLE (text)));
}

void
hs_window_undo (HsWindow *self)
{
  GtkWidget *focus;

  g_return_if_fail (HS_IS_WINDOW (self));

  focus = gtk_root_get_focus (GTK_ROOT (self));
  if (!GTK_IS_TEXT (focus) || !undo_typing (focus))
    press (undo_of (self));
}

static void
again_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsWindow) self = data;
  g_autoptr (HsTakenBack) taken = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *what = NULL, *text = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &taken, &error))
    text = g_strdup (error->message);
  else if (taken == NULL)
    text = g_strdup (_("Nothing was taken back since something was done last."));
  else
    {
      what = hs_step_words (taken->what);
      /* Translators: a job's number, and what was done on it once more. */
      text = with_kept (g_strdup_printf (_("Done again on %s: %s"), taken->number, what), taken);
    }
  hs_window_toast (self, text, NULL, NULL);
}

void
hs_window_redo (HsWindow *self)
{
  Undo *undo;

  g_return_if_fail (HS_IS_WINDOW (self));

  undo = undo_of (self);
  if (undo->ledger == NULL || !hs_ledger_is_open (undo->ledger) || undo->other)
    hs_window_toast (self, _("What was taken back last can’t be done again by a key."), NULL, NULL);
  else
    hs_deed_do_again (undo->ledger, again_cb, g_object_ref (self));
}

void
hs_window_tell_undone (HsWindow *self, const char *what, const GError *error)
{
  g_autofree char *text = NULL;

  g_return_if_fail (HS_IS_WINDOW (self));

  text = error != NULL ? g_strdup (error->message) : g_strdup_printf (_("Taken back: %s"), what);
  hs_window_toast (self, text, NULL, NULL);
}
