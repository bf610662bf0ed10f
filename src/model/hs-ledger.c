// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The book for the window: tasks in, snapshots out.
 *
 *   page ─▶ hs_ledger_ask_async () ─▶ queue ─▶ HsDesk (thread, owns HsBook) ─▶ idle source ─▶ callback of the page
 *
 * A file monitor on the book's folder wakes the desk, which asks SQLite whether another connection has written; nobody
 * polls. Our own writes are announced when they come back. Late answers are the business of HsQuestion. */

#include "hs-ledger.h"

#include "hs-data.h"
#include "hs-demo.h"
#include "hs-desk.h"
#include "hs-model-error.h"
#include "hs-store-error.h"

/* What another program writes is to be seen within a quarter of a second, with the question that follows. */
#define LOOK_MILLISECONDS 60

struct _HsLedger
{
  GObject parent_instance;

  HsNowFunc now;
  gpointer now_data;
  GDestroyNotify free_now_data;
  char *program;
  int pid;
  GMainContext *context;
  GAsyncQueue *orders;
  GThread *desk;
  guint outstanding;
  gboolean look_is_under_way;
  gboolean look_again;

  char *path;
  HsInstant clock_starts;
  gboolean read_only;
  char *message;
  GTimeZone *zone;
  char *zone_id;
  char *currency;
  HsChecks *checks;
  char *catalog_trouble;
  HsChecks *shipped_checks;
  HsReference *reference;
  GFileMonitor *monitor;
};

G_DEFINE_FINAL_TYPE (HsLedger, hs_ledger, G_TYPE_OBJECT)

enum
{
  PROP_0,
  PROP_PATH,
  PROP_READ_ONLY,
  PROP_MESSAGE,
  N_PROPS,
};

enum
{
  CHANGED,
  N_SIGNALS,
};

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

static gboolean hs_ledger_done_cb (gpointer data);

static HsDeskSlip *
hs_ledger_slip (HsLedger *self, HsDeskWhat what, GTask *task)
{
  HsDeskSlip *slip = g_new0 (HsDeskSlip, 1);

  slip->what = what;
  slip->ledger = g_object_ref (self);
  slip->task = task;
  slip->now = self->now (self->now_data);
  return slip;
}

static void
hs_ledger_hand_in (HsLedger *self, HsDeskSlip *slip)
{
  self->outstanding++;
  g_async_queue_push (self->orders, slip);
}

static void
hs_ledger_set_message (HsLedger *self, const char *message)
{
  if (g_strcmp0 (self->message, message) == 0)
    return;
  g_free (self->message);
  self->message = g_strdup (message);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_MESSAGE]);
}

/* Sees to it that the desk looks once after this moment: a look that is under way may be past it already. */
static void
hs_ledger_look (HsLedger *self)
{
  if (self->look_is_under_way)
    {
      self->look_again = TRUE;
      return;
    }
  self->look_is_under_way = TRUE;
  hs_ledger_hand_in (self, hs_ledger_slip (self, HS_DESK_LOOK, NULL));
}

static void
hs_ledger_folder_changed_cb (GFileMonitor *monitor, GFile *file, GFile *other, GFileMonitorEvent event, gpointer data)
{
  HsLedger *self = HS_LEDGER (data);
  g_autofree char *book = g_path_get_basename (self->path);
  g_autofree char *name = g_file_get_basename (file);

  if (name != NULL && g_str_has_prefix (name, book))
    hs_ledger_look (self);
}

static void
hs_ledger_watch (HsLedger *self)
{
  g_autoptr (GFile) file = g_file_new_for_path (self->path);
  g_autoptr (GFile) folder = g_file_get_parent (file);

  g_clear_object (&self->monitor);
  if (folder == NULL)
    return;
  self->monitor = g_file_monitor_directory (folder, G_FILE_MONITOR_NONE, NULL, NULL);
  if (self->monitor == NULL)
    return;
  g_file_monitor_set_rate_limit (self->monitor, LOOK_MILLISECONDS);
  g_signal_connect_object (self->monitor, "changed", G_CALLBACK (hs_ledger_folder_changed_cb), self, 0);
}

static void
hs_ledger_take_facts (HsLedger *self, HsDeskSlip *slip)
{
  if (slip->book_zone != NULL && g_strcmp0 (self->zone_id, slip->book_zone) != 0)
    {
      GTimeZone *zone = g_time_zone_new_identifier (slip->book_zone);

      if (zone != NULL)
        {
          g_time_zone_unref (self->zone);
          self->zone = zone;
        }
      g_free (self->zone_id);
      self->zone_id = g_steal_pointer (&slip->book_zone);
    }
  if (slip->book_currency != NULL)
    {
      g_free (self->currency);
      self->currency = g_steal_pointer (&slip->book_currency);
    }
  if (slip->book_checks != NULL)
    {
      g_clear_pointer (&self->checks, hs_checks_unref);
      self->checks = g_steal_pointer (&slip->book_checks);
      g_free (self->catalog_trouble);
      self->catalog_trouble = g_steal_pointer (&slip->catalog_trouble);
    }
}

static void
hs_ledger_opened (HsLedger *self, HsDeskSlip *slip)
{
  gboolean open = slip->error == NULL;

  g_clear_object (&self->monitor);
  g_free (self->path);
  self->path = open ? g_strdup (slip->path) : NULL;
  self->clock_starts = open ? slip->book_clock : HS_INSTANT_NONE;
  if (open && slip->how == HS_LEDGER_DEMO && self->clock_starts == HS_INSTANT_NONE)
    self->clock_starts = hs_demo_get_now ();
  self->read_only = open && slip->read_only;
  hs_ledger_set_message (self, self->read_only ? "This book can be read but not written. What is typed is not kept: "
                                                 "move the book to a folder that can be written."
                                               : NULL);
  if (open)
    hs_ledger_watch (self);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_PATH]);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_READ_ONLY]);
}

/* A trouble that stays until a write succeeds, as against a refusal, which is the page's to show. */
static gboolean
hs_ledger_is_lasting (const GError *error)
{
  return g_error_matches (error, HS_MODEL_ERROR, HS_MODEL_ERROR_LOST)
         || g_error_matches (error, HS_STORE_ERROR, HS_STORE_ERROR_FULL)
         || g_error_matches (error, HS_STORE_ERROR, HS_STORE_ERROR_BUSY)
         || g_error_matches (error, HS_STORE_ERROR, HS_STORE_ERROR_READ_ONLY)
         || g_error_matches (error, HS_STORE_ERROR, HS_STORE_ERROR_FAILED);
}

static void
hs_ledger_note_trouble (HsLedger *self, HsDeskSlip *slip)
{
  if (slip->error != NULL && hs_ledger_is_lasting (slip->error))
    hs_ledger_set_message (self, slip->error->message);
  else if (slip->error == NULL && slip->what == HS_DESK_WRITE && !self->read_only)
    hs_ledger_set_message (self, NULL);
}

static void
hs_ledger_looked (HsLedger *self)
{
  self->look_is_under_way = FALSE;
  if (self->look_again)
    {
      self->look_again = FALSE;
      hs_ledger_look (self);
    }
}

static void
hs_ledger_answer (HsDeskSlip *slip)
{
  if (slip->task == NULL)
    return;
  if (slip->error != NULL)
    g_task_return_error (slip->task, g_steal_pointer (&slip->error));
  else if (slip->what == HS_DESK_OPEN)
    g_task_return_boolean (slip->task, TRUE);
  else
    g_task_return_pointer (slip->task, g_steal_pointer (&slip->answer), slip->free_answer);
}

/* The window's thread again. The answer goes out before `changed`, so that the page that wrote knows it first. */
static gboolean
hs_ledger_done_cb (gpointer data)
{
  g_autoptr (HsDeskSlip) slip = data;
  g_autoptr (HsLedger) self = g_object_ref (slip->ledger);
  gboolean changed = slip->changed;

  self->outstanding--;
  hs_ledger_take_facts (self, slip);
  if (slip->what == HS_DESK_OPEN)
    hs_ledger_opened (self, slip);
  else
    hs_ledger_note_trouble (self, slip);
  if (slip->what == HS_DESK_LOOK)
    hs_ledger_looked (self);
  hs_ledger_answer (slip);
  if (changed)
    g_signal_emit (self, signals[CHANGED], 0);
  return G_SOURCE_REMOVE;
}

static void
hs_ledger_finalize (GObject *object)
{
  HsLedger *self = HS_LEDGER (object);
  HsDeskSlip *quit = g_new0 (HsDeskSlip, 1);

  quit->what = HS_DESK_QUIT;
  g_async_queue_push (self->orders, quit);
  g_thread_join (self->desk);
  g_clear_pointer (&self->orders, g_async_queue_unref);
  g_clear_pointer (&self->context, g_main_context_unref);
  g_clear_object (&self->monitor);
  if (self->free_now_data != NULL)
    self->free_now_data (self->now_data);
  g_clear_pointer (&self->program, g_free);
  g_clear_pointer (&self->path, g_free);
  g_clear_pointer (&self->message, g_free);
  g_clear_pointer (&self->zone, g_time_zone_unref);
  g_clear_pointer (&self->zone_id, g_free);
  g_clear_pointer (&self->currency, g_free);
  g_clear_pointer (&self->checks, hs_checks_unref);
  g_clear_pointer (&self->shipped_checks, hs_checks_unref);
  g_free (self->catalog_trouble);
  g_clear_pointer (&self->reference, hs_reference_unref);
  G_OBJECT_CLASS (hs_ledger_parent_class)->finalize (object);
}

static void
hs_ledger_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  HsLedger *self = HS_LEDGER (object);

  switch (id)
    {
    case PROP_PATH:
      g_value_set_string (value, self->path);
      break;
    case PROP_READ_ONLY:
      g_value_set_boolean (value, self->read_only);
      break;
    case PROP_MESSAGE:
      g_value_set_string (value, self->message);
      break;
    default:
      g_assert_not_reached ();
    }
}

static void
hs_ledger_class_init (HsLedgerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;

  object_class->finalize = hs_ledger_finalize;
  object_class->get_property = hs_ledger_get_property;

  props[PROP_PATH] = g_param_spec_string ("path", NULL, NULL, NULL, flags);
  props[PROP_READ_ONLY] = g_param_spec_boolean ("read-only", NULL, NULL, FALSE, flags);
  props[PROP_MESSAGE] = g_param_spec_string ("message", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);

  /**
   * HsLedger::changed:
   *
   * The book says something else now: this program wrote, another one did, or another book is open.
   */
  signals[CHANGED] = g_signal_new ("changed", HS_TYPE_LEDGER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hs_ledger_init (HsLedger *self)
{
  self->context = g_main_context_ref_thread_default ();
  self->orders = g_async_queue_new ();
  self->desk = hs_desk_start (self->orders, self->context, hs_ledger_done_cb);
  self->zone = g_time_zone_new_utc ();
  self->currency = g_strdup ("USD");
  self->clock_starts = HS_INSTANT_NONE;
}

HsLedger *
hs_ledger_new (HsNowFunc now, gpointer data, GDestroyNotify free_data, const char *program, int pid)
{
  HsLedger *self;

  g_return_val_if_fail (now != NULL, NULL);

  self = g_object_new (HS_TYPE_LEDGER, NULL);
  self->now = now;
  self->now_data = data;
  self->free_now_data = free_data;
  self->program = g_strdup (program);
  self->pid = pid;
  return self;
}

void
hs_ledger_open_async (HsLedger *self, const char *path, HsLedgerOpen how, const char *zone,
                      GAsyncReadyCallback callback, gpointer user_data)
{
  HsDeskSlip *slip;
  GTask *task;

  g_return_if_fail (HS_IS_LEDGER (self));
  g_return_if_fail (path != NULL);

  task = g_task_new (self, NULL, callback, user_data);
  g_task_set_source_tag (task, hs_ledger_open_async);
  slip = hs_ledger_slip (self, HS_DESK_OPEN, task);
  slip->path = g_canonicalize_filename (path, NULL);
  slip->how = how;
  slip->zone = g_strdup (zone);
  slip->program = g_strdup (self->program);
  slip->pid = self->pid;
  hs_ledger_hand_in (self, slip);
}

gboolean
hs_ledger_open_finish (HsLedger *self, GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_task_is_valid (result, self), FALSE);

  return g_task_propagate_boolean (G_TASK (result), error);
}

static void
hs_ledger_hand_in_task (HsLedger *self, HsDeskWhat what, HsLedgerFunc func, GVariant *args, GDestroyNotify free_answer,
                        gboolean quiet, GAsyncReadyCallback callback, gpointer user_data)
{
  HsDeskSlip *slip = hs_ledger_slip (self, what, g_task_new (self, NULL, callback, user_data));

  slip->func = func;
  slip->args = args != NULL ? g_variant_ref_sink (args) : NULL;
  slip->free_answer = free_answer;
  slip->quiet = quiet;
  hs_ledger_hand_in (self, slip);
}

void
hs_ledger_ask_async (HsLedger *self, HsLedgerFunc func, GVariant *args, GDestroyNotify free_answer,
                     GAsyncReadyCallback callback, gpointer user_data)
{
  g_return_if_fail (HS_IS_LEDGER (self));

  hs_ledger_hand_in_task (self, HS_DESK_ASK, func, args, free_answer, TRUE, callback, user_data);
}

void
hs_ledger_write_async (HsLedger *self, HsLedgerFunc func, GVariant *args, GDestroyNotify free_answer, gboolean quiet,
                       GAsyncReadyCallback callback, gpointer user_data)
{
  g_return_if_fail (HS_IS_LEDGER (self));

  hs_ledger_hand_in_task (self, HS_DESK_WRITE, func, args, free_answer, quiet, callback, user_data);
}

gboolean
hs_ledger_task_finish (HsLedger *self, GAsyncResult *result, gpointer *ret_answer, GError **error)
{
  g_autoptr (GError) failure = NULL;
  gpointer answer;

  g_return_val_if_fail (g_task_is_valid (result, self), FALSE);

  answer = g_task_propagate_pointer (G_TASK (result), &failure);
  if (failure != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&failure));
      return FALSE;
    }
  if (ret_answer != NULL)
    *ret_answer = answer;
  return TRUE;
}

void
hs_ledger_wait (HsLedger *self)
{
  g_return_if_fail (HS_IS_LEDGER (self));

  while (self->outstanding > 0)
    g_main_context_iteration (self->context, TRUE);
}

HsInstant
hs_ledger_get_clock_starts (HsLedger *self)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), HS_INSTANT_NONE);

  return self->clock_starts;
}

HsInstant
hs_ledger_get_now (HsLedger *self)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), 0);

  return self->now (self->now_data);
}

const char *
hs_ledger_get_path (HsLedger *self)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), NULL);

  return self->path;
}

gboolean
hs_ledger_is_open (HsLedger *self)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), FALSE);

  return self->path != NULL;
}

gboolean
hs_ledger_is_read_only (HsLedger *self)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), FALSE);

  return self->read_only;
}

const char *
hs_ledger_get_message (HsLedger *self)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), NULL);

  return self->message;
}

GTimeZone *
hs_ledger_get_zone (HsLedger *self)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), NULL);

  return self->zone;
}

const char *
hs_ledger_get_currency (HsLedger *self)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), NULL);

  return self->currency;
}

HsChecks *
hs_ledger_get_checks (HsLedger *self)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), NULL);

  return self->checks;
}

const char *
hs_ledger_get_catalog_trouble (HsLedger *self)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), NULL);

  return self->catalog_trouble;
}

HsDate
hs_ledger_get_today (HsLedger *self)
{
  HsDate today = HS_DATE_NONE;

  g_return_val_if_fail (HS_IS_LEDGER (self), HS_DATE_NONE);

  hs_instant_to_local (self->zone, self->now (self->now_data), &today, NULL);
  return today;
}

gboolean
hs_ledger_get_scene (HsLedger *self, HsCalcScene *ret_scene, GError **error)
{
  g_return_val_if_fail (HS_IS_LEDGER (self), FALSE);

  if (self->checks == NULL && self->shipped_checks == NULL)
    self->shipped_checks = hs_data_load_checks (error);
  if (self->checks == NULL && self->shipped_checks == NULL)
    return FALSE;
  if (self->reference == NULL)
    self->reference = hs_data_load_reference (error);
  if (self->reference == NULL)
    return FALSE;
  *ret_scene = (HsCalcScene) {
    .checks = self->checks != NULL ? self->checks : self->shipped_checks,
    .reference = self->reference,
    .currency = hs_ledger_is_open (self) ? hs_ledger_get_currency (self) : "USD",
    .today = hs_ledger_get_today (self),
  };
  return TRUE;
}
