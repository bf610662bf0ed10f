// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/**
 * What was told and picked on a job, and what was said yes to. A digit asks for the answer to that option, + writes a
 * new one that is a question of its own, * one beside the one that has the focus, of which one is picked; . changes
 * that one, / asks for a go-ahead, 0 takes up what was declined earlier; F7 turns the page to the customer.
 */
#define HS_TYPE_CHOICES_PANE (hs_choices_pane_get_type ())
G_DECLARE_FINAL_TYPE (HsChoicesPane, hs_choices_pane, HS, CHOICES_PANE, HsJobPane)

/** hs_choices_pane_press: what a key of the pad does. Returns: it was taken. */
gboolean hs_choices_pane_press (HsChoicesPane *self, guint keyval);

G_END_DECLS
