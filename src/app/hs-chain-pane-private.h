// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* The page of why it failed behind its header: the page and its keys (hs-chain-pane.c), what it writes
 * (hs-chain-acts.c), and the papers beside the drawing (hs-chain-side.c). */

#include "hs-chain-pane.h"

#include "hs-chain-entry.h"
#include "hs-chain-view.h"
#include "hs-key-button.h"

G_BEGIN_DECLS

/*
 * @then_finding: (nullable): what is chosen once the book shows it
 * @writing: a deed is on its way
 * @stale: it is done, and the book does not show it yet
 * @held: (element-type guint): keys that came meanwhile
 */
struct _HsChainPane
{
  HsJobPane parent_instance;

  GtkBox *panes;
  GtkWidget *chain_side;
  AdwBin *acts_wide;
  AdwBin *acts_narrow;
  GtkWidget *acts;
  GtkWidget *frozen;
  HsKeyButton *rule_out;
  HsChainView *view;
  AdwClamp *side_clamp;
  GtkStack *side;
  AdwBin *entry_bin;
  HsChainEntry *entry;
  AdwBin *papers_wide;
  AdwBin *papers_narrow;
  GtkWidget *papers;
  AdwBin *keys_wide;
  AdwBin *keys_narrow;
  GtkWidget *keys;
  GtkLabel *ends_title;
  GtkLabel *ends_word;
  GtkBox *ends;
  GtkLabel *not_yet;
  GtkLabel *told_count;
  GtkLabel *told;
  GtkWidget *ask_button;
  GtkBox *asked;

  char *then_finding;
  gboolean writing;
  gboolean stale;
  GArray *held;
};

/* hs_chain_pane_get_why: (transfer none) (nullable) */
const HsChainShot *hs_chain_pane_get_why (HsChainPane *self);

/* hs_chain_pane_open: asks for the steps of @task (transfer full); @typed: (nullable): what stood in the field. */
void hs_chain_pane_open (HsChainPane *self, HsChainTask *task, const char *typed);
void hs_chain_pane_close (HsChainPane *self);

/* hs-chain-acts.c */

/* hs_chain_pane_write_task: what the entry has been told becomes a deed. */
void hs_chain_pane_write_task (HsChainPane *self);

/* hs_chain_pane_settle: @end of the chosen row; the same again opens it. */
void hs_chain_pane_settle (HsChainPane *self, HsChainEnd end);

/* hs_chain_pane_call: the chosen row is called as sure as comes next: suspected, proven, not known. */
void hs_chain_pane_call (HsChainPane *self);

/* hs_chain_pane_take_back: the link of the chosen row, or what stands without one. */
void hs_chain_pane_take_back (HsChainPane *self);

/* hs-chain-side.c */

void hs_chain_pane_show_side (HsChainPane *self, const HsChainShot *why);

/* hs_chain_pane_next_question: (transfer none) (nullable): what is asked again next: not answered yet, else the
 * first. */
const HsAnswerLine *hs_chain_pane_next_question (const HsChainShot *why);
void hs_chain_pane_fill_keys (HsChainPane *self);

/* hs_chain_pane_show_proof_keys: a low page prints them only where a proof is asked for. */
void hs_chain_pane_show_proof_keys (HsChainPane *self, gboolean show);

G_END_DECLS
