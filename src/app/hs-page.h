// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"
#include "hs-question.h"
#include "hs-window.h"

G_BEGIN_DECLS

/**
 * HsPage:
 *
 * What all pages share: the ledger, how much room there is, and questions that sleep while the page is not shown.
 * Properties: ledger (construct only), narrow, cramped (set by the window's filler).
 */
#define HS_TYPE_PAGE (hs_page_get_type ())
G_DECLARE_DERIVABLE_TYPE (HsPage, hs_page, HS, PAGE, AdwBin)

/**
 * HsPageClass:
 * @room_changed: narrow or cramped is another now
 * @shown: the page came to the screen
 */
struct _HsPageClass
{
  AdwBinClass parent_class;

  void (*room_changed) (HsPage *page);
  void (*shown) (HsPage *page);
};

HsLedger *hs_page_get_ledger (HsPage *page);
gboolean hs_page_get_narrow (HsPage *page);
gboolean hs_page_get_cramped (HsPage *page);

/**
 * hs_page_ask:
 * @func: what to ask; see hs-ask.h
 * @free_answer: frees the answer
 * @answered: (scope forever): void (*) (PAGE *page), called with every new answer
 *
 * Returns: (transfer none): a question that the page owns; it has not asked yet
 */
HsQuestion *hs_page_ask (HsPage *page, HsLedgerFunc func, GDestroyNotify free_answer, GCallback answered);

/* hs_page_tell: one short sentence that passes. */
void hs_page_tell (HsPage *page, const char *text);

/* hs_page_did: what F10 takes back from now on, unless it is an edit of a job; see hs_window_did(). Says nothing. */
void hs_page_did (HsPage *page, const char *what, HsUndoFunc undo, gpointer data, GDestroyNotify free_data);

/* hs_page_say_frozen: why nothing of a job that is squared up can be changed. */
const char *hs_page_say_frozen (void);

/* hs_page_open_job: @page_name: (nullable): which of its tabs. */
void hs_page_open_job (HsPage *page, const char *job_id, const char *page_name);

/* hs_page_get_focus: (transfer none) (nullable): what has the focus, if that is on the page. */
GtkWidget *hs_page_get_focus (HsPage *self);

/* hs_page_lead_into: the focus goes onto the page, not onto the first button of the bar, where GTK would leave it;
 * where nothing on it takes it yet, with the next answer. */
void hs_page_lead_into (HsPage *self);

/**
 * hs_page_keep_focus:
 * @had_focus: hs_page_get_focus() gave something before widgets were hidden or taken away
 * @preferred: what takes the focus if it can
 *
 * Sees to it that the focus does not fall out of the page, whose keys would be lost then, because the widget that had
 * it is there no more.
 */
void hs_page_keep_focus (HsPage *self, gboolean had_focus, GtkWidget *preferred);

G_END_DECLS
