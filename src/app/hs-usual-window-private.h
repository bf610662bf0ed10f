// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* The window of usual jobs behind its header: what its keys do (hs-usual-window.c), and what it asks and shows
 * (hs-usual-ask.c). */

#include "hs-usual-window.h"

#include "hs-ask-arrive.h"
#include "hs-board.h"
#include "hs-question.h"
#include "hs-refusal.h"

G_BEGIN_DECLS

typedef enum
{
  HS_USUAL_WHAT,
  HS_USUAL_YES,
  HS_USUAL_SAFE,
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
 * @held: Enter is held down; a line of the safety list is answered by pressing it anew
 * @moved: the vehicle was moved before it was safe
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
  HsQuestion *arrival; /* (nullable): the safety list of the job */
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
  gboolean moved;
  gboolean held;
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

/* hs_usual_window_go_to: asks @step, and keeps the place for "Where was I". */
void hs_usual_window_go_to (HsUsualWindow *self, HsUsualStep step);

/* hs_usual_window_finish_task: what a deed came to; what was refused is told. */
gboolean hs_usual_window_finish_task (HsRefusal *asked, GObject *source, GAsyncResult *result, gpointer *ret_answer);

/* The safety list (hs-usual-safe.c): goes to it, or past it where it was gone through; lays its items out; takes a
 * key. */
void hs_usual_window_go_to_safe (HsUsualWindow *self);
void hs_usual_window_show_safe (HsUsualWindow *self);
gboolean hs_usual_window_press_safe (HsUsualWindow *self, char sign);

/* hs_usual_window_add_answer: a key with what it means; @inviting: the one that is meant to be pressed. */
void hs_usual_window_add_answer (HsUsualWindow *self, const char *key, char sign, const char *text, gboolean inviting);

/* hs_usual_window_add_note: how the answers that follow are given. */
void hs_usual_window_add_note (HsUsualWindow *self, const char *text);

/* hs_usual_window_tell: @text: (nullable): why something was refused. */
void hs_usual_window_tell (HsUsualWindow *self, const char *text);

G_END_DECLS
