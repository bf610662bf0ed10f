// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Behind the window: opens the book, fills the views, opens job pages and call slips, and keeps "Where was I".
 *
 *   HsClock ─▶ HsLedger ─▶ pages
 *   typed text ─▶ HsDraft ─▶ book ─▶ hs_ask_where () ─▶ bottom bar, F2, and the page that is reopened after a kill
 *
 * It refuses to open a book twice: another one shuts the first. */

#include "hs-shop.h"

#include <glib/gi18n.h>
#include <unistd.h>

#include "hs-ask.h"
#include "hs-call-form.h"
#include "hs-call-slip-window.h"
#include "hs-compat-file.h"
#include "hs-cover.h"
#include "hs-identify-card.h"
#include "hs-intake-card.h"
#include "hs-job-page.h"
#include "hs-jobs-page.h"
#include "hs-money-page.h"
#include "hs-note-card.h"
#include "hs-parts-page.h"
#include "hs-poster.h"
#include "hs-question.h"
#include "hs-safety-window.h"
#include "hs-set-up-window.h"
#include "hs-show.h"
#include "hs-squeeze-window.h"
#include "hs-today-page.h"
#include "hs-unsent-window.h"
#include "hs-usual-window.h"
#include "hs-vehicles-page.h"
#include "hs-work-out-window.h"

struct _HsShop
{
  GObject parent_instance;

  HsWindow *window; /* owns us */
  HsClock *clock;
  HsLedger *ledger;
  HsDraft *draft;
  HsQuestion *where;
  char *frozen_now;
  char *tried_path;
  char *last_job;
  gboolean filled;
  gboolean reopen;
};

G_DEFINE_FINAL_TYPE (HsShop, hs_shop, G_TYPE_OBJECT)

/* What says the sentences that are made of a book. */
static const HsTongue tongue = { gettext, ngettext };

#define SHOP_KEY "hs-shop"

static HsInstant
now_cb (gpointer data)
{
  return hs_clock_get_now (data);
}

/* Where was I. */

static const char *
page_title (const char *page)
{
  static const struct
  {
    const char *id;
    const char *title;
  } titles[] = {
    { "call", N_("Call") }, { "findings", N_("Findings") }, { "choices", N_("Choices") },
    { "bill", N_("Bill") }, { "after", N_("Before and after") }, { "slip", N_("Call slip") },
    { "why", N_("Why it failed") }, { "photos", N_("Photos") }, { HS_USUAL_PAGE, N_("Usual job") },
  };

  for (guint i = 0; i < G_N_ELEMENTS (titles); i++)
    if (g_strcmp0 (titles[i].id, page) == 0)
      return _(titles[i].title);
  return page != NULL ? page : "";
}

/* Fields of panes, under the pane's name in drafts. */
static const char *
pane_field_title (const char *page, const char *field)
{
  static const struct
  {
    const char *page;
    const char *field;
    const char *title;
  } titles[] = {
    { "bill", "goodwill", N_("On the House") },
    { "bill", "paid", N_("Paid") },
    { "choices", "go-ahead", N_("Go-ahead") },
    { "choices", "answer", N_("Answer") },
    { "choices", "wording", N_("Option") },
    { "choices", "group", N_("Option") },
    { "choices", "risk", N_("Option") },
    { "choices", "what", N_("Line of an option") },
    { "choices", "number", N_("Line of an option") },
    { "choices", "times", N_("Line of an option") },
    { "choices", "kind", N_("Line of an option") },
  };

  for (guint i = 0; i < G_N_ELEMENTS (titles); i++)
    if (g_strcmp0 (titles[i].page, page) == 0 && g_strcmp0 (titles[i].field, field) == 0)
      return _(titles[i].title);
  return NULL;
}

static const char *
field_title (HsShop *self, const char *page, const char *field)
{
  HsChecks *checks = hs_ledger_get_checks (self->ledger);
  const char *at = field != NULL && g_str_has_prefix (field, HS_WHERE_LEFT) ? field + strlen (HS_WHERE_LEFT) : field;
  g_auto (GStrv) parts = g_strsplit (at != NULL ? at : "", "/", 2);
  const HsCheck *check = checks != NULL && parts[0] != NULL ? hs_checks_lookup (checks, parts[0]) : NULL;

  if (g_strcmp0 (at, HS_WHERE_HERE) == 0)
    return "";
  if (g_strcmp0 (page, HS_USUAL_PAGE) == 0)
    return hs_usual_window_field_title (at);
  if (pane_field_title (page, parts[0]) != NULL)
    return pane_field_title (page, parts[0]);
  if (check != NULL)
    return hs_show_data (check->name);
  if (g_str_has_prefix (at, HS_INTAKE_FIELD))
    return _("Asked on the phone");
  if (g_str_equal (at, HS_NOTE_FIELD))
    return _("Note on the model");
  if (hs_identify_card_field_title (at) != NULL)
    return hs_identify_card_field_title (at);
  return hs_call_form_field_title (at);
}

static void
where_was_i_cb (HsShop *self)
{
  const HsWhere *where = hs_question_get (self->where);
  GtkWidget *open = hs_window_get_job (self->window);

  if (where == NULL)
    return;
  if (HS_IS_JOB_PAGE (open) && g_strcmp0 (hs_job_page_get_job_id (HS_JOB_PAGE (open)), where->job_id) == 0)
    hs_job_page_go (HS_JOB_PAGE (open), where->page, where->field, where->text);
  else if (where->job_id != NULL)
    hs_shop_open_job (self, where->job_id, where->page, where->field, where->text);
  else
    hs_call_slip_window_go (hs_call_slip_window_present (self->window, self->ledger, self->draft), where->field);
}

static void
where_answered_cb (HsShop *self)
{
  const HsWhere *where = hs_question_get (self->where);
  g_autofree char *place = NULL, *age = NULL;

  if (where == NULL)
    {
      hs_window_set_where (self->window, NULL, NULL);
      return;
    }
  place = hs_show_joined (where->job_number != NULL ? where->job_number : "", page_title (where->page),
                          field_title (self, where->page, where->field), NULL);
  age = hs_show_age (hs_ledger_get_now (self->ledger) - where->at);
  hs_window_set_where (self->window, place, age);
  if (self->reopen)
    {
      self->reopen = FALSE;
      if (where->field != NULL && !g_str_has_prefix (where->field, HS_WHERE_LEFT))
        where_was_i_cb (self);
    }
}

static void
ask_where (HsShop *self)
{
  if (hs_ledger_is_open (self->ledger))
    hs_question_ask (self->where, NULL);
}

static void
call_slip_cb (HsShop *self)
{
  if (hs_ledger_is_open (self->ledger))
    hs_call_slip_window_present (self->window, self->ledger, self->draft);
}

/* The board goes on at the job that was left. */
static void
job_closed_cb (HsShop *self)
{
  GtkWidget *page = hs_window_get_visible_page (self->window);

  if (HS_IS_JOBS_PAGE (page) && self->last_job != NULL)
    gtk_widget_activate_action (page, "page.point", "s", self->last_job);
}

/* Into the day that is looked at, or else today. */
static void
squeeze_in_cb (HsShop *self)
{
  GtkWidget *page = hs_window_get_visible_page (self->window);

  if (hs_ledger_is_open (self->ledger))
    hs_squeeze_window_present (self->window, self->ledger, self->draft,
                               HS_IS_TODAY_PAGE (page) ? hs_today_page_get_day (HS_TODAY_PAGE (page))
                                                       : hs_ledger_get_today (self->ledger));
}

static void
work_out_cb (HsShop *self)
{
  GtkWidget *page = hs_window_get_visible_page (self->window);
  HsJobPage *job = HS_IS_JOB_PAGE (page) ? HS_JOB_PAGE (page) : NULL;
  gboolean open = job != NULL && hs_job_page_takes_findings (job);

  hs_work_out_window_present (self->window, self->ledger, open ? hs_job_page_get_job_id (job) : NULL,
                              open ? hs_job_page_get_number (job) : NULL,
                              open ? hs_findings_get_phase (hs_job_page_get_findings (job)) : NULL);
}

static void
unsent_cb (HsShop *self)
{
  if (hs_ledger_is_open (self->ledger))
    hs_unsent_window_present (self->window, self->ledger);
}

/* Views. */

/* A page is built when it is first looked at: the window shows up sooner. */
static void
build_page_cb (HsShop *self, AdwBin *holder)
{
  GType type = GPOINTER_TO_SIZE (g_object_get_data (G_OBJECT (holder), "page-type"));
  GtkWidget *page;

  if (adw_bin_get_child (holder) != NULL)
    return;
  page = g_object_new (type, "ledger", self->ledger, NULL);
  g_object_bind_property (self->window, "narrow", page, "narrow", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self->window, "cramped", page, "cramped", G_BINDING_SYNC_CREATE);
  adw_bin_set_child (holder, page);
}

static void
add_page (HsShop *self, GType type, const char *name, const char *title)
{
  GtkWidget *holder = adw_bin_new ();

  g_object_set_data (G_OBJECT (holder), "page-type", GSIZE_TO_POINTER (type));
  g_signal_connect_object (holder, "map", G_CALLBACK (build_page_cb), self, G_CONNECT_SWAPPED);
  hs_window_add_page (self->window, name, title, name, holder);
}

static void
set_keys (HsShop *self)
{
  const HsKeyHint jobs[] = { { "F3", _("Call slip"), "win.call-slip" }, { "F11", _("Go to"), "win.go-to" },
                             { "F4", _("Next stage"), "win.next-stage" },
                             { "F8", _("Squared up"), "win.lock" }, { "F10", _("Undo"), "win.undo" },
                             { "0–9", _("Find"), "win.search" } };
  const HsKeyHint today[] = { { "F3", _("Call slip"), "win.call-slip" }, { "F11", _("Go to"), "win.go-to" },
                              { "F5", _("Squeeze in"), "win.squeeze-in" },
                              { "F8", _("Lock stop"), "win.lock" }, { "0", _("Re-plan"), "win.replan" },
                              { "F10", _("Undo"), "win.undo" } };
  const HsKeyHint parts[] = { { "+", _("Tick"), "win.tick" }, { "↓", _("Next line"), NULL },
                              { "F3", _("Call slip"), "win.call-slip" }, { "F11", _("Go to"), "win.go-to" },
                              { "F10", _("Undo"), "win.undo" } };
  const HsKeyHint vehicles[] = { { "↓", _("Next hit"), NULL }, { "Enter", _("Open"), "win.open" },
                                 { "Esc", _("Clear"), "win.clear" }, { "F11", _("Go to"), "win.go-to" },
                                 { "F10", _("Undo"), "win.undo" } };
  const HsKeyHint money[] = { { "Enter", _("Open job"), NULL }, { "F3", _("Call slip"), "win.call-slip" },
                              { "F11", _("Go to"), "win.go-to" }, { "F10", _("Undo"), "win.undo" } };
  const HsKeyHint job[] = { { "Esc", _("Back"), "win.back" },            { "F3", _("Call slip"), "win.call-slip" },
                            { "F4", _("Next stage"), "win.next-stage" }, { "F11", _("Go to"), "win.go-to" },
                            { "F10", _("Undo"), "win.undo" },            { "F7", _("Customer"), "win.customer" },
                            { "F6", _("Usual job"), "win.why" },         { "F8", _("Phone"), "win.lock" } };

  hs_window_set_keys (self->window, "jobs", jobs, G_N_ELEMENTS (jobs));
  hs_window_set_keys (self->window, "today", today, G_N_ELEMENTS (today));
  hs_window_set_keys (self->window, "parts", parts, G_N_ELEMENTS (parts));
  hs_window_set_keys (self->window, "vehicles", vehicles, G_N_ELEMENTS (vehicles));
  hs_window_set_keys (self->window, "money", money, G_N_ELEMENTS (money));
  hs_window_set_keys (self->window, "job", job, G_N_ELEMENTS (job));
}

static void
fill_views (HsShop *self)
{
  if (self->filled)
    return;
  self->filled = TRUE;
  add_page (self, HS_TYPE_JOBS_PAGE, "jobs", _("Jobs"));
  add_page (self, HS_TYPE_TODAY_PAGE, "today", _("Today"));
  add_page (self, HS_TYPE_PARTS_PAGE, "parts", _("Parts run"));
  add_page (self, HS_TYPE_VEHICLES_PAGE, "vehicles", _("Vehicles"));
  add_page (self, HS_TYPE_MONEY_PAGE, "money", _("Money"));
  set_keys (self);
}

/* The book. */

static void
set_clock (HsShop *self)
{
  HsInstant starts = hs_ledger_get_clock_starts (self->ledger);
  HsInstant frozen;

  hs_clock_set_zone (self->clock, hs_ledger_get_zone (self->ledger));
  if (self->frozen_now != NULL
      && hs_instant_parse (self->frozen_now, hs_ledger_get_zone (self->ledger), &frozen, NULL))
    hs_clock_freeze_at (self->clock, frozen);
  else if (starts != HS_INSTANT_NONE)
    hs_clock_start_at (self->clock, starts);
}

/* The zone may be set while the book is open, here or by the command line. */
static void
book_changed_cb (HsShop *self)
{
  if (hs_clock_get_zone (self->clock) != hs_ledger_get_zone (self->ledger))
    hs_clock_set_zone (self->clock, hs_ledger_get_zone (self->ledger));
}

static void
message_cb (HsShop *self)
{
  hs_window_set_notice (self->window, "book", hs_ledger_get_message (self->ledger));
}

/* Nothing is said while all is well. */
static void
posted_cb (HsShop *self, HsPoster *poster)
{
  hs_window_set_unsent (self->window, hs_poster_wants_owner (poster));
}

/* The book of a ledger changes, the poster stays. */
static void
begin_posting (HsShop *self)
{
  HsPoster *poster = hs_poster_of (self->ledger);

  g_signal_handlers_disconnect_by_func (poster, posted_cb, self);
  g_signal_connect_object (poster, "changed", G_CALLBACK (posted_cb), self, G_CONNECT_SWAPPED);
}

static void
opened_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsShop) self = HS_SHOP (data);
  g_autoptr (GError) error = NULL;

  if (!hs_ledger_open_finish (self->ledger, result, &error))
    {
      g_autofree char *heading = g_strdup_printf (_("%s is not open"), self->tried_path);

      hs_window_set_cover (self->window, hs_cover_new ("jobs", heading, error->message, FALSE));
      return;
    }
  set_clock (self);
  fill_views (self);
  hs_window_set_cover (self->window, NULL);
  hs_window_forget_done (self->window);
  hs_window_set_notice (self->window, "catalog", hs_ledger_get_catalog_trouble (self->ledger));
  begin_posting (self);
  self->reopen = TRUE;
  ask_where (self);
}

void
hs_shop_open (HsShop *self, const char *path, HsLedgerOpen how)
{
  g_autoptr (GTimeZone) local = g_time_zone_new_local ();

  g_return_if_fail (HS_IS_SHOP (self));

  g_free (self->tried_path);
  self->tried_path = g_path_get_basename (path);
  hs_ledger_open_async (self->ledger, path, how, g_time_zone_get_identifier (local), opened_cb, g_object_ref (self));
}

void
hs_shop_welcome (HsShop *self)
{
  g_return_if_fail (HS_IS_SHOP (self));

  hs_window_set_cover (self->window,
                       hs_cover_new ("jobs", _("No book yet"),
                                     _("A book is one file that holds all calls, vehicles, readings and bills. Make a "
                                       "new one for this business, or look around in the demo first."),
                                     TRUE));
}

static char *
own_path (const char *name)
{
  return g_build_filename (g_get_user_data_dir (), "halfshaft", name, NULL);
}

static void
make_book_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autofree char *path = own_path ("book.hsbook");

  hs_shop_open (data, path, HS_LEDGER_NEW);
}

static void
open_demo_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autofree char *path = own_path ("demo.hsbook");

  hs_shop_open (data, path, HS_LEDGER_DEMO);
}

static void
file_chosen_cb (GFile *file, gpointer data)
{
  g_autoptr (HsShop) self = HS_SHOP (data);
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (path != NULL)
    hs_shop_open (self, path, HS_LEDGER_OPEN);
}

static void
open_book_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  HsShop *self = HS_SHOP (data);

  hs_compat_choose_file (GTK_WINDOW (self->window), _("Open a Book"), FALSE, "*.hsbook", _("Halfshaft books"),
                         file_chosen_cb, g_object_ref (self));
}

static void
set_up_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  HsShop *self = HS_SHOP (data);

  if (hs_ledger_is_open (self->ledger))
    hs_set_up_window_present (self->window, self->ledger);
}

static void
set_up_posting_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  HsShop *self = HS_SHOP (data);

  if (hs_ledger_is_open (self->ledger))
    hs_set_up_window_show_posting (hs_set_up_window_present (self->window, self->ledger));
}

static void
open_job_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  const char *job_id, *page;

  g_variant_get (parameter, "(&s&s)", &job_id, &page);
  hs_shop_open_job (data, job_id, *page != '\0' ? page : NULL, NULL, NULL);
}

typedef struct
{
  HsShop *shop;
  char *page;
} Opening;

static void
number_found_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Opening *opening = data;
  g_autoptr (HsShop) self = opening->shop;
  g_autofree char *page = opening->page;
  g_autofree char *job_id = NULL;
  g_autoptr (GError) error = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &job_id, &error))
    hs_shop_open_job (self, job_id, page, NULL, NULL);
  else
    hs_window_toast (self->window, error->message, NULL, NULL);
}

/* "A-0021" or "A-0021/findings". */
static void
open_number_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  HsShop *self = HS_SHOP (data);
  g_auto (GStrv) parts = g_strsplit (g_variant_get_string (parameter, NULL), "/", 2);
  Opening *opening = g_new0 (Opening, 1);

  opening->shop = g_object_ref (self);
  opening->page = g_strdup (parts[0] != NULL ? parts[1] : NULL);
  hs_ledger_ask_async (self->ledger, hs_ask_job_number, g_variant_new ("(s)", parts[0] != NULL ? parts[0] : ""), g_free,
                       number_found_cb, opening);
}

static const GActionEntry entries[] = {
  { "make-book", make_book_cb },
  { "open-book", open_book_cb },
  { "open-demo", open_demo_cb },
  { "set-up", set_up_cb },
  { "set-up-posting", set_up_posting_cb },
  { "open-job", open_job_cb, "(ss)" },
  { "open-number", open_number_cb, "s" },
};

static void
hs_shop_dispose (GObject *object)
{
  HsShop *self = HS_SHOP (object);

  /* The window goes first; what the ledger still answers must not reach for it. */
  if (self->ledger != NULL)
    {
      g_signal_handlers_disconnect_by_data (self->where, self);
      g_signal_handlers_disconnect_by_data (self->draft, self);
      g_signal_handlers_disconnect_by_data (self->clock, self);
      g_signal_handlers_disconnect_by_data (self->ledger, self);
      g_signal_handlers_disconnect_by_data (hs_poster_of (self->ledger), self);
    }
  if (self->draft != NULL && hs_ledger_is_open (self->ledger))
    {
      hs_draft_flush (self->draft);
      hs_ledger_wait (self->ledger);
    }
  g_clear_object (&self->draft);
  g_clear_object (&self->where);
  g_clear_object (&self->ledger);
  g_clear_object (&self->clock);
  G_OBJECT_CLASS (hs_shop_parent_class)->dispose (object);
}

static void
hs_shop_finalize (GObject *object)
{
  HsShop *self = HS_SHOP (object);

  g_free (self->frozen_now);
  g_free (self->tried_path);
  g_free (self->last_job);
  G_OBJECT_CLASS (hs_shop_parent_class)->finalize (object);
}

static void
hs_shop_class_init (HsShopClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hs_shop_dispose;
  G_OBJECT_CLASS (klass)->finalize = hs_shop_finalize;
}

static void
hs_shop_init (HsShop *self)
{
}

HsShop *
hs_shop_new (HsWindow *window)
{
  HsShop *self;

  g_return_val_if_fail (HS_IS_WINDOW (window), NULL);

  self = g_object_new (HS_TYPE_SHOP, NULL);
  self->window = window;
  self->clock = g_object_ref (hs_window_get_clock (window));
  hs_ledger_say_in (&tongue);
  self->ledger = hs_ledger_new (now_cb, g_object_ref (self->clock), g_object_unref, "halfshaft", (int) getpid ());
  self->draft = hs_draft_new (self->ledger);
  self->where = hs_question_new (self->ledger, hs_ask_where, (GDestroyNotify) hs_where_free);
  g_signal_connect_object (self->where, "answered", G_CALLBACK (where_answered_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->draft, "saved", G_CALLBACK (ask_where), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->clock, "notify::now", G_CALLBACK (where_answered_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->ledger, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->ledger, "notify::message", G_CALLBACK (message_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (window, "where-was-i", G_CALLBACK (where_was_i_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (window, "job-closed", G_CALLBACK (job_closed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (window, "call-slip", G_CALLBACK (call_slip_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (window, "unsent", G_CALLBACK (unsent_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (window, "work-out", G_CALLBACK (work_out_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (window, "squeeze-in", G_CALLBACK (squeeze_in_cb), self, G_CONNECT_SWAPPED);
  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), self);
  hs_window_watch_undo (window, self->ledger);
  g_object_set_data_full (G_OBJECT (window), SHOP_KEY, self, g_object_unref);
  return self;
}

HsShop *
hs_shop_of (HsWindow *window)
{
  return g_object_get_data (G_OBJECT (window), SHOP_KEY);
}

void
hs_shop_fill (HsApplication *application, HsWindow *window, gpointer user_data)
{
  HsShop *self = hs_shop_new (window);
  g_autofree char *own = own_path ("book.hsbook");

  hs_shop_freeze (self, hs_application_get_now (application));
  if (hs_application_get_book (application) != NULL)
    hs_shop_open (self, hs_application_get_book (application), HS_LEDGER_OPEN);
  else if (hs_application_get_demo (application))
    open_demo_cb (NULL, NULL, self);
  else if (g_file_test (own, G_FILE_TEST_EXISTS))
    hs_shop_open (self, own, HS_LEDGER_OPEN);
  else
    hs_shop_welcome (self);
}

void
hs_shop_open_job (HsShop *self, const char *job_id, const char *page_name, const char *field, const char *text)
{
  GtkWidget *page;

  g_return_if_fail (HS_IS_SHOP (self));
  g_return_if_fail (job_id != NULL);

  page = hs_window_get_job (self->window);
  if (page != NULL && g_strcmp0 (page_name, HS_SAFETY_PAGE) == 0
      && g_strcmp0 (hs_job_page_get_job_id (HS_JOB_PAGE (page)), job_id) == 0)
    {
      hs_job_page_go (HS_JOB_PAGE (page), page_name, NULL, NULL);
      return;
    }
  g_free (self->last_job);
  self->last_job = g_strdup (job_id);
  page = hs_job_page_new (self->ledger, self->draft, job_id);
  g_object_bind_property (self->window, "narrow", page, "narrow", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self->window, "cramped", page, "cramped", G_BINDING_SYNC_CREATE);
  hs_window_open_job (self->window, "", hs_job_page_get_stack (HS_JOB_PAGE (page)), page);
  hs_job_page_go (HS_JOB_PAGE (page), page_name, field, text);
}

HsLedger *
hs_shop_get_ledger (HsShop *self)
{
  g_return_val_if_fail (HS_IS_SHOP (self), NULL);

  return self->ledger;
}

HsDraft *
hs_shop_get_draft (HsShop *self)
{
  g_return_val_if_fail (HS_IS_SHOP (self), NULL);

  return self->draft;
}

void
hs_shop_freeze (HsShop *self, const char *now)
{
  g_return_if_fail (HS_IS_SHOP (self));

  g_free (self->frozen_now);
  self->frozen_now = g_strdup (now);
}
