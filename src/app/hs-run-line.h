// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-ledger.h"
#include "hs-parts-run.h"

G_BEGIN_DECLS

/** A row of the parts run with its tick. Space, + or a click tick it; signal `ticked` (list, row id, done). */
#define HS_TYPE_RUN_LINE (hs_run_line_get_type ())
G_DECLARE_FINAL_TYPE (HsRunLine, hs_run_line, HS, RUN_LINE, AdwBin)

/** hs_run_line_new: @list: as hs_parts_run_tick() names it. */
GtkWidget *hs_run_line_new (HsLedger *ledger, const char *list, const HsRunRow *row);

/** hs_run_line_get_id: (transfer none): the row it shows. */
const char *hs_run_line_get_id (HsRunLine *self);
gboolean hs_run_line_get_ticked (HsRunLine *self);

/** hs_run_line_toggle: as a click does. */
void hs_run_line_toggle (HsRunLine *self);

/** hs_run_line_reveal: scrolls to the whole of it; without effect before it is laid out. */
void hs_run_line_reveal (HsRunLine *self);

/** hs_run_line_focus: without ticking it. */
void hs_run_line_focus (HsRunLine *self);

G_END_DECLS
