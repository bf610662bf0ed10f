// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-chain-task.h"

G_BEGIN_DECLS

/**
 * What is asked while something is told to the why-chain: a question, the choices that have a digit, and a field for
 * words. Signals: `done` (the task has all that it asks for), `left` (the owner went back out of it), `typed` (what is
 * asked, or what stands in the field, is another now).
 */
#define HS_TYPE_CHAIN_ENTRY (hs_chain_entry_get_type ())
G_DECLARE_FINAL_TYPE (HsChainEntry, hs_chain_entry, HS, CHAIN_ENTRY, AdwBin)

GtkWidget *hs_chain_entry_new (void);

/** hs_chain_entry_open: @task: (transfer full): it is asked from here; @typed: (nullable): what stood in the field;
 * @shot: what its choices come from; it must be handed over again by hs_chain_entry_set_shot() before it goes. */
void hs_chain_entry_open (HsChainEntry *self, HsChainTask *task, const char *typed, const HsChainShot *shot);
void hs_chain_entry_set_shot (HsChainEntry *self, const HsChainShot *shot);

/** hs_chain_entry_get_task: (transfer none) (nullable): what is being told; %NULL while nothing is. */
const HsChainTask *hs_chain_entry_get_task (HsChainEntry *self);
const char *hs_chain_entry_get_text (HsChainEntry *self);

/** hs_chain_entry_refuse: what was done was refused for the reason @trouble; the last step is asked once more. */
void hs_chain_entry_refuse (HsChainEntry *self, const char *trouble);

/** hs_chain_entry_close: what was told is in the book, or is not wanted any more. */
void hs_chain_entry_close (HsChainEntry *self);

/** hs_chain_entry_press: what a key does while it is open. Returns: it was taken */
gboolean hs_chain_entry_press (HsChainEntry *self, guint keyval);
void hs_chain_entry_focus (HsChainEntry *self);

G_END_DECLS
