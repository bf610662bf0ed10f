// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* The window of usual jobs behind its header: what its keys do (hs-usual-window.c), and what it asks and shows
 * (hs-usual-ask.c). */

#include "hs-usual-window.h"

#include "hs-board.h"
#include "hs-question.h"

G_BEGIN_DECLS

typedef enum
{
  HS_USUAL_WHAT,
  HS_USUAL_YES,
  HS_USUAL_WHY,
  HS_USUAL_PROOF,
  HS_USUAL_UNPROVEN,
  HS_USUAL_PAID,
  HS_USUAL_SQUARE,
  HS_USUAL_RECEIPT,
  HS_USUAL_N_STEPS,
} HsUsualStep;

/*
 * @typed: the figure of a reading that is measured each time
 * @proof: what is keyed for the reading
 * @unproven: index of the reason, or -1
 * @way: index of how it is paid; the one behind the last is on account
 */
struct _HsUsualWindow
{
  AdwWindow parent_instance;

  GtkLabel *so_far;
  GtkLabel *figure;
  GtkLabel *question;
  GtkLabel *caution;
  GtkBox *answers;
  GtkLabel *refusal;

  HsLedger *ledger;
  HsDraft *draft;
  HsWindow *home; /* weak */
  HsQuestion *ask;
  char *job_id;
  HsUsualJobFunc get_job;
  gpointer data;

  HsUsualStep step;
  guint nth;
  int why;
  GString *typed;
  char *proof;
  int unproven;
  int way;
  char *gone_text;
  HsJobView *receipt;
  gboolean agreed;
  gboolean busy;
};

/* How it can be paid, as the book spells it; the place of the %NULL at the end is on account. */
extern const char *const hs_usual_ways[];
#define HS_USUAL_N_WAYS 5

/* hs_usual_window_get: (transfer none) (nullable): which usual job it is. */
const HsUsual *hs_usual_window_get (HsUsualWindow *self);

/* hs_usual_window_get_check: (transfer none) (nullable): the check that proves it. */
const HsCheck *hs_usual_window_get_check (HsUsualWindow *self);

/* hs_usual_window_ask: shows @step: the question, its digits, and what was told so far. */
void hs_usual_window_ask (HsUsualWindow *self, HsUsualStep step);

/* hs_usual_window_tell: @text: (nullable): why something was refused. */
void hs_usual_window_tell (HsUsualWindow *self, const char *text);

G_END_DECLS
