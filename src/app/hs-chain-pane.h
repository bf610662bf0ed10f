// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/**
 * Why it failed: what led to what on a job and the proof of each, drawn and read as a tree; the ends and whether they
 * are settled; the sentences for the invoice; the questions that are asked again. Enter adds a because under the chosen
 * row, `/` rules something out, 1–4 begin with the proof, 7 8 9 0 settle an end, `+` says how sure it is, `−` takes a
 * link back, `*` asks.
 */
#define HS_TYPE_CHAIN_PANE (hs_chain_pane_get_type ())
G_DECLARE_FINAL_TYPE (HsChainPane, hs_chain_pane, HS, CHAIN_PANE, HsJobPane)

/** hs_chain_pane_press: what a key does; the tests use it. Returns: it was taken */
gboolean hs_chain_pane_press (HsChainPane *self, guint keyval);

G_END_DECLS
