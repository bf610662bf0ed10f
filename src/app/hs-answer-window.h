// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-consent.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * HsAnswerAsk:
 * @choice_id: the option
 * @risk: (nullable): as it is written down
 * @who: (nullable): whose answer it most likely is
 * @would_cents: what the job comes to with it
 * @would_short_cents: by how much that passes the go-ahead
 * @ceiling_cents: what was agreed to before, or %HS_INT_NONE
 * @signature: (nullable): it was signed already
 * @pane: (nullable): a pane of the job, which keeps what is typed and not written down
 *
 * What has to be known to ask for an answer.
 */
typedef struct
{
  const char *choice_id;
  const char *wording;
  const char *risk;
  const char *who;
  gint64 asked_cents;
  gint64 would_cents;
  gint64 would_short_cents;
  gint64 ceiling_cents;
  GBytes *signature;
  GtkWidget *pane;
} HsAnswerAsk;

/* Where that is kept, on the page of the choices; the option's id stands behind it. */
#define HS_ANSWER_FIELD "answer/"

/**
 * What the customer answers to an option: yes, no, later or nothing yet by a digit, then how by a digit, then Enter.
 * What the book refuses is told in it; a yes beyond the go-ahead takes a new one along. Signal: `done`, once the book
 * has it.
 */
#define HS_TYPE_ANSWER_WINDOW (hs_answer_window_get_type ())
G_DECLARE_FINAL_TYPE (HsAnswerWindow, hs_answer_window, HS, ANSWER_WINDOW, AdwWindow)

/** hs_answer_window_present: @over: the window that it lies over. Returns: (transfer none): gone once it is shut. */
HsAnswerWindow *hs_answer_window_present (GtkWindow *over, HsLedger *ledger, const HsAnswerAsk *ask);

/** hs_answer_window_answer: as a digit: 1 yes, 2 no, 3 later, 4 no answer yet. */
void hs_answer_window_answer (HsAnswerWindow *self, guint digit);
HsConsent *hs_answer_window_get_consent (HsAnswerWindow *self);
/** hs_answer_window_set_risk: types it and presses Enter. */
void hs_answer_window_set_risk (HsAnswerWindow *self, const char *risk);

G_END_DECLS
