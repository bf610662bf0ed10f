// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-job-next.h"

G_BEGIN_DECLS

/**
 * HsNextPane:
 *
 * What to check next, by the minutes until the complaint is gone, and which causes still stand, each with a word and
 * its evidence. It decides nothing: signals `check-chosen` and `cause-chosen` carry the id of the row that was chosen.
 */
#define HS_TYPE_NEXT_PANE (hs_next_pane_get_type ())
G_DECLARE_FINAL_TYPE (HsNextPane, hs_next_pane, HS, NEXT_PANE, AdwBin)

/**
 * HsNextKeys: where Enter leads from here.
 * @HS_NEXT_KEYS_NONE: not to the best check
 * @HS_NEXT_KEYS_ENTER: to it
 * @HS_NEXT_KEYS_STORE: to it, once what is typed is stored
 * @HS_NEXT_KEYS_TWICE: to it, pressed once more after storing
 */
typedef enum
{
  HS_NEXT_KEYS_NONE,
  HS_NEXT_KEYS_ENTER,
  HS_NEXT_KEYS_STORE,
  HS_NEXT_KEYS_TWICE,
} HsNextKeys;

/**
 * hs_next_pane_set:
 * @next: (nullable): %NULL: the job is over
 * @keys: what the keycap on the best check says
 */
void hs_next_pane_set (HsNextPane *self, const HsJobNext *next, HsNextKeys keys);

/** hs_next_pane_set_narrow: the evidence under the cause. */
void hs_next_pane_set_narrow (HsNextPane *self, gboolean narrow);

G_END_DECLS
