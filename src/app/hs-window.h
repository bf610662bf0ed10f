// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-clock.h"
#include "hs-key-row.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * The window: five views, one job page over them, the bottom bar. Properties: clock, narrow, cramped, where-place,
 * where-age.
 *
 * A page is a plain widget. It takes a function key by installing the action of the same meaning on its class:
 * `page.next-stage` (F4), `page.why` (F6), `page.customer` (F7), `page.lock` (F8), `page.side`
 * (F9), `page.print` (F12), `page.search` (Ctrl+F), `page.find-next`. The window
 * looks for the action from the focused widget upward, then on the visible page.
 *
 * Signals: `call-slip` (F3), `where-was-i` (F2), `job-closed` (the job page was left), `page-shown` (name).
 */
#define HS_TYPE_WINDOW (hs_window_get_type ())
G_DECLARE_FINAL_TYPE (HsWindow, hs_window, HS, WINDOW, AdwApplicationWindow)

/**
 * hs_window_new:
 * @application: (nullable): the application; %NULL in tests
 * @clock: the source of now
 */
HsWindow *hs_window_new (GtkApplication *application, HsClock *clock);
HsClock *hs_window_get_clock (HsWindow *self);

/**
 * hs_window_add_page:
 * @name: stable id: `jobs` `today` `parts` `vehicles` `money`
 * @title: the translated word on its tab
 * @drawing: name of its drawing (hs-glyph.h)
 * @page: (transfer floating): the page
 *
 * Adds a view after the ones that are there.
 */
void hs_window_add_page (HsWindow *self, const char *name, const char *title, const char *drawing, GtkWidget *page);

/**
 * hs_window_set_keys:
 * @name: a view added before, or `job`
 * @hints: (array length=n_hints): the keys that act there
 *
 * What the bottom bar prints while that view is shown; the words are copied.
 */
void hs_window_set_keys (HsWindow *self, const char *name, const HsKeyHint *hints, guint n_hints);

/** hs_window_name_key: what the key of @action does now on the view @name, in the bottom bar; the word is copied. */
void hs_window_name_key (HsWindow *self, const char *name, const char *action, const char *label);

/** hs_window_show_page: leaves the job page, if one is open, and shows the view @name. */
void hs_window_show_page (HsWindow *self, const char *name);
const char *hs_window_get_page (HsWindow *self);

/**
 * hs_window_open_job:
 * @title: the job's number, shown beside the back arrow
 * @tabs: (nullable): the stack inside @page whose pages become the header's tabs
 * @page: (transfer floating): the job page; the one that was open is dropped
 */
void hs_window_open_job (HsWindow *self, const char *title, GtkStack *tabs, GtkWidget *page);

/** hs_window_set_job_title: the number of the open job, once it is known. */
void hs_window_set_job_title (HsWindow *self, const char *title);

/** hs_window_close_job: back to the view below; does nothing when no job is open. */
void hs_window_close_job (HsWindow *self);
GtkWidget *hs_window_get_job (HsWindow *self);

/**
 * hs_window_set_cover:
 * @cover: (nullable) (transfer floating): what stands instead of all views while no book is open; %NULL uncovers them
 */
void hs_window_set_cover (HsWindow *self, GtkWidget *cover);

/**
 * hs_window_get_visible_page:
 *
 * Returns: (transfer none) (nullable): the job page while one is open, else the shown view
 */
GtkWidget *hs_window_get_visible_page (HsWindow *self);

/**
 * hs_window_set_where:
 * @place: (nullable): job · page · field of the interrupted entry; %NULL when there is none
 * @age: (nullable): how long ago, in words
 */
void hs_window_set_where (HsWindow *self, const char *place, const char *age);

/* hs_window_set_unsent: whether something that is not posted waits for the owner: a sign in the header says so, and
 * leads to it. */
void hs_window_set_unsent (HsWindow *self, gboolean unsent);

/**
 * hs_window_set_notice:
 * @id: which lasting message: `book`, `disk`, …
 * @text: (nullable): the sentence; %NULL takes it away
 *
 * For a state that lasts (a read-only book, a full disk). What passes is a toast.
 */
void hs_window_set_notice (HsWindow *self, const char *id, const char *text);

/**
 * hs_window_toast:
 * @text: one short sentence
 * @button: (nullable): the word on its button
 * @action: (nullable): the detailed action of the button, for example `win.undo`
 */
void hs_window_toast (HsWindow *self, const char *text, const char *button, const char *action);

/* hs_window_refuse: why something was not stored, in full and for a while, whatever room there is: a toast that is cut
 * or gone would lose it. */
void hs_window_refuse (HsWindow *self, const char *text);

/** HsUndoFunc: takes back what was done and says so by hs_window_tell_undone(). */
typedef void (*HsUndoFunc) (HsWindow *window, gpointer data);

/**
 * hs_window_did:
 * @what: what was done, in a few words
 * @undo: (nullable): takes it back; %NULL where a key cannot
 * @data: for @undo, freed by @free_data
 *
 * Until something else is done this is what F10 takes back. Not for edits of a job: their operations note themselves in
 * the book (hs-undo.h) and come back without a word of the page.
 */
void hs_window_did (HsWindow *self, const char *what, HsUndoFunc undo, gpointer data, GDestroyNotify free_data);

/** hs_window_undid: what was done last with @undo has been taken back on another way. */
void hs_window_undid (HsWindow *self, HsUndoFunc undo);

/** hs_window_forget_done: nothing that was said by hs_window_did() can be taken back any more: another book is open. */
void hs_window_forget_done (HsWindow *self);

/** hs_window_watch_undo: @ledger: whose book the steps of jobs are taken back in. */
void hs_window_watch_undo (HsWindow *self, HsLedger *ledger);

/** hs_window_undo: what F10 does. */
void hs_window_undo (HsWindow *self);

/** hs_window_redo: does again what hs_window_undo() took back last in the book. */
void hs_window_redo (HsWindow *self);

/** hs_window_tell_undone: @what: as a thing that is taken back; @error: (nullable): why it was not. */
void hs_window_tell_undone (HsWindow *self, const char *what, const GError *error);

gboolean hs_window_get_narrow (HsWindow *self);
gboolean hs_window_get_cramped (HsWindow *self);

/**
 * hs_window_fit_over:
 * @over: a window with its default size and what it is transient for
 *
 * Makes it no wider or higher than what it lies over: that may be all of a small screen. Once closed it lies over
 * nothing.
 */
void hs_window_fit_over (GtkWindow *over);

/* hs_window_dup_views: (transfer full): the views, as #GtkStackPage. */
GtkSelectionModel *hs_window_dup_views (HsWindow *self);

G_END_DECLS
