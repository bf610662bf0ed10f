// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Sharing a day's calls in the background.
 *
 *   begin ─▶ ledger's worker: HsShareCase ─▶ thread of its own: hs_share_solve () ─▶ idle source, once a better plan
 *   accept ─▶ ledger's worker: hs_share_accept () ─▶ the book knows what stood before ─▶ take back
 *
 * The worker is free while the search goes on, so that what is typed meanwhile is saved as ever. What a search that was
 * given up still finds is dropped. */

#include "hs-sharing.h"

#include "hs-ask.h"

/* Small days are proven long before; nobody waits longer for the others. */
#define LIMIT_SECONDS 120

/* A search; the thread and the sharing each own it. */
typedef struct
{
  HsShareCase *of;
  GMainContext *context;
  GWeakRef sharing;
  gint stop;
  gint64 until;
} Search;

struct _HsSharing
{
  GObject parent_instance;

  HsLedger *ledger;
  HsDate day;
  HsSharingState state;
  guint stamp;
  Search *search;
  HsSnapshot *plan;
  gboolean can_take_back;
  char *path;
  char *trouble;
};

G_DEFINE_FINAL_TYPE (HsSharing, hs_sharing, G_TYPE_OBJECT)

enum
{
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
search_clear (gpointer data)
{
  Search *search = data;

  hs_share_case_free (search->of);
  g_main_context_unref (search->context);
  g_weak_ref_clear (&search->sharing);
}

static void
search_unref (Search *search)
{
  g_atomic_rc_box_release_full (search, search_clear);
}

static void
set_state (HsSharing *self, HsSharingState state, const char *trouble)
{
  self->state = state;
  g_free (self->trouble);
  self->trouble = g_strdup (trouble);
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
take_plan (HsSharing *self, HsSharePlan *plan)
{
  g_clear_pointer (&self->plan, hs_snapshot_unref);
  self->plan = hs_snapshot_new (plan, (GDestroyNotify) hs_share_plan_free);
}

static void
drop_search (HsSharing *self)
{
  if (self->search == NULL)
    return;
  g_atomic_int_set (&self->search->stop, TRUE);
  g_clear_pointer (&self->search, search_unref);
}

/* Searching -------------------------------------------------------------------------------------------------------- */

/* What comes back to the window's thread. @last: the search is over. */
typedef struct
{
  Search *search;
  HsSharePlan *plan;
  GError *error;
  gboolean last;
} News;

static void
news_free (gpointer data)
{
  News *news = data;

  search_unref (news->search);
  hs_share_plan_free (news->plan);
  g_clear_error (&news->error);
  g_free (news);
}

static gboolean
news_cb (gpointer data)
{
  News *news = data;
  g_autoptr (HsSharing) self = g_weak_ref_get (&news->search->sharing);

  if (self == NULL || self->search != news->search)
    return G_SOURCE_REMOVE;
  if (news->plan != NULL)
    take_plan (self, g_steal_pointer (&news->plan));
  if (!news->last)
    set_state (self, HS_SHARING_SEARCHING, NULL);
  else
    {
      drop_search (self);
      set_state (self, news->error != NULL ? HS_SHARING_FAILED : HS_SHARING_FOUND,
                 news->error != NULL ? news->error->message : NULL);
    }
  return G_SOURCE_REMOVE;
}

static void
send_news (Search *search, HsSharePlan *plan, GError *error, gboolean last)
{
  g_autoptr (GSource) source = g_idle_source_new ();
  News *news = g_new0 (News, 1);

  news->search = g_atomic_rc_box_acquire (search);
  news->plan = plan;
  news->error = error;
  news->last = last;
  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, news_cb, news, news_free);
  g_source_attach (source, search->context);
}

static gboolean
give_up (gpointer data)
{
  Search *search = data;

  return g_atomic_int_get (&search->stop) || g_get_monotonic_time () >= search->until;
}

static void
found (HsSharePlan *plan, gpointer data)
{
  send_news (data, plan, NULL, FALSE);
}

static gpointer
search_thread (gpointer data)
{
  Search *search = data;
  const HsShareHow how = { give_up, found, search, 1 };
  GError *error = NULL;
  HsSharePlan *plan = hs_share_solve (search->of, &how, &error);

  send_news (search, plan, error, TRUE);
  search_unref (search);
  return NULL;
}

static void
begin_search (HsSharing *self, HsShareCase *of)
{
  Search *search = g_atomic_rc_box_new0 (Search);

  search->of = of;
  search->context = g_main_context_ref_thread_default ();
  g_weak_ref_init (&search->sharing, self);
  search->until = g_get_monotonic_time () + LIMIT_SECONDS * G_TIME_SPAN_SECOND;
  self->search = search;
  g_thread_unref (g_thread_new ("hs-sharing", search_thread, g_atomic_rc_box_acquire (search)));
  set_state (self, HS_SHARING_SEARCHING, NULL);
}

/* @stamp: of the beginning that asked */
typedef struct
{
  HsSharing *self;
  guint stamp;
} Asking;

static Asking *
asking_new (HsSharing *self)
{
  Asking *asking = g_new0 (Asking, 1);

  asking->self = g_object_ref (self);
  asking->stamp = self->stamp;
  return asking;
}

/* Whether there is something to take back is shown with the next change of state. */
static void
undo_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Asking *asking = data;
  g_autoptr (HsSharing) self = asking->self;
  gpointer can = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, &can, NULL) && asking->stamp == self->stamp)
    self->can_take_back = can != NULL;
}

static void
loaded_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Asking *asking = data;
  g_autoptr (HsSharing) self = asking->self;
  g_autoptr (HsShareCase) of = NULL;
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &of, &error);
  if (asking->stamp != self->stamp)
    return;
  if (error != NULL)
    set_state (self, HS_SHARING_FAILED, error->message);
  else
    begin_search (self, g_steal_pointer (&of));
}

void
hs_sharing_begin (HsSharing *self)
{
  g_return_if_fail (HS_IS_SHARING (self));

  drop_search (self);
  g_clear_pointer (&self->plan, hs_snapshot_unref);
  self->stamp++;
  hs_ledger_ask_async (self->ledger, hs_ask_share_undo, g_variant_new ("(i)", self->day), NULL, undo_cb,
                       asking_new (self));
  hs_ledger_ask_async (self->ledger, hs_ask_share, g_variant_new ("(i)", self->day),
                       (GDestroyNotify) hs_share_case_free, loaded_cb, asking_new (self));
  set_state (self, HS_SHARING_LOADING, NULL);
}

void
hs_sharing_stop (HsSharing *self)
{
  g_return_if_fail (HS_IS_SHARING (self));

  if (self->search != NULL)
    g_atomic_int_set (&self->search->stop, TRUE);
}

/* Writing ---------------------------------------------------------------------------------------------------------- */

/* The worker only reads what @held (nullable) keeps alive until it is through. @back: where to go if it is refused */
typedef struct
{
  HsSharing *self;
  HsSnapshot *held;
  HsSharingState back;
} Writing;

static Writing *
writing_new (HsSharing *self, HsSnapshot *held)
{
  Writing *writing = g_new0 (Writing, 1);

  writing->self = g_object_ref (self);
  writing->held = held != NULL ? hs_snapshot_ref (held) : NULL;
  writing->back = self->state == HS_SHARING_SEARCHING ? HS_SHARING_FOUND : self->state;
  return writing;
}

static void
writing_free (Writing *writing)
{
  g_clear_pointer (&writing->held, hs_snapshot_unref);
  g_object_unref (writing->self);
  g_free (writing);
}

static GVariant *
pointer_args (HsSnapshot *held)
{
  return g_variant_new ("(t)", (guint64) (guintptr) hs_snapshot_get (held));
}

static gpointer
args_pointer (GVariant *args)
{
  guint64 address;

  g_variant_get (args, "(t)", &address);
  return (gpointer) (guintptr) address;
}

static gpointer
accept_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  hs_share_accept (book, args_pointer (args), now, error);
  return NULL;
}

static void
accepted_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Writing *writing = data;
  HsSharing *self = writing->self;
  g_autoptr (GError) error = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    {
      self->can_take_back = TRUE;
      set_state (self, HS_SHARING_ACCEPTED, NULL);
    }
  else
    set_state (self, writing->back, error->message);
  writing_free (writing);
}

void
hs_sharing_accept (HsSharing *self)
{
  Writing *writing;

  g_return_if_fail (HS_IS_SHARING (self));

  if (self->plan == NULL || (self->state != HS_SHARING_SEARCHING && self->state != HS_SHARING_FOUND))
    return;
  drop_search (self);
  writing = writing_new (self, self->plan);
  hs_ledger_write_async (self->ledger, accept_func, pointer_args (self->plan), NULL, FALSE, accepted_cb, writing);
  set_state (self, HS_SHARING_WRITING, NULL);
}

/* Answers whether an earlier one can be taken back now. */
static gpointer
take_back_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;
  g_autoptr (GPtrArray) back = NULL;

  g_variant_get (args, "(i)", &day);
  back = hs_share_take_back (book, day, now, error);
  return back != NULL ? hs_ask_share_undo (book, args, now, error) : NULL;
}

static void
taken_back_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Writing *writing = data;
  HsSharing *self = writing->self;
  gpointer can = NULL;
  g_autoptr (GError) error = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, &can, &error))
    {
      self->can_take_back = can != NULL;
      /* What was found meanwhile was found for a day that is no more. */
      if (writing->back == HS_SHARING_FOUND || writing->back == HS_SHARING_FAILED)
        hs_sharing_begin (self);
      else
        set_state (self, HS_SHARING_FOUND, NULL);
    }
  else
    set_state (self, writing->back, error->message);
  writing_free (writing);
}

void
hs_sharing_take_back (HsSharing *self)
{
  Writing *writing;

  g_return_if_fail (HS_IS_SHARING (self));

  /* What another book holds of that day is none of its business. */
  if (self->state == HS_SHARING_WRITING || g_strcmp0 (self->path, hs_ledger_get_path (self->ledger)) != 0)
    return;
  drop_search (self);
  self->stamp++;
  writing = writing_new (self, NULL);
  hs_ledger_write_async (self->ledger, take_back_func, g_variant_new ("(i)", self->day), NULL, FALSE, taken_back_cb,
                         writing);
  set_state (self, HS_SHARING_WRITING, NULL);
}

/* Object ----------------------------------------------------------------------------------------------------------- */

static void
hs_sharing_dispose (GObject *object)
{
  HsSharing *self = HS_SHARING (object);

  drop_search (self);
  g_clear_object (&self->ledger);
  g_clear_pointer (&self->plan, hs_snapshot_unref);
  g_clear_pointer (&self->path, g_free);
  g_clear_pointer (&self->trouble, g_free);
  G_OBJECT_CLASS (hs_sharing_parent_class)->dispose (object);
}

static void
hs_sharing_class_init (HsSharingClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hs_sharing_dispose;

  /**
   * HsSharing::changed:
   *
   * The state, the plan or the trouble is another one.
   */
  signals[CHANGED] = g_signal_new ("changed", HS_TYPE_SHARING, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hs_sharing_init (HsSharing *self)
{
  self->state = HS_SHARING_LOADING;
}

HsSharing *
hs_sharing_new (HsLedger *ledger, HsDate day)
{
  HsSharing *self;

  g_return_val_if_fail (HS_IS_LEDGER (ledger), NULL);

  self = g_object_new (HS_TYPE_SHARING, NULL);
  self->ledger = g_object_ref (ledger);
  self->day = day;
  self->path = g_strdup (hs_ledger_get_path (ledger));
  return self;
}

gboolean
hs_sharing_can_take_back (HsSharing *self)
{
  g_return_val_if_fail (HS_IS_SHARING (self), FALSE);

  return self->can_take_back;
}

HsLedger *
hs_sharing_get_ledger (HsSharing *self)
{
  g_return_val_if_fail (HS_IS_SHARING (self), NULL);

  return self->ledger;
}

HsDate
hs_sharing_get_day (HsSharing *self)
{
  g_return_val_if_fail (HS_IS_SHARING (self), HS_DATE_NONE);

  return self->day;
}

HsSharingState
hs_sharing_get_state (HsSharing *self)
{
  g_return_val_if_fail (HS_IS_SHARING (self), HS_SHARING_FAILED);

  return self->state;
}

const HsSharePlan *
hs_sharing_get_plan (HsSharing *self)
{
  g_return_val_if_fail (HS_IS_SHARING (self), NULL);

  return hs_snapshot_get (self->plan);
}

const char *
hs_sharing_get_trouble (HsSharing *self)
{
  g_return_val_if_fail (HS_IS_SHARING (self), NULL);

  return self->trouble;
}
