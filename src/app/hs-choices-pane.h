// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/** What was told and picked on a job, and what was said yes to. */
#define HS_TYPE_CHOICES_PANE (hs_choices_pane_get_type ())
G_DECLARE_FINAL_TYPE (HsChoicesPane, hs_choices_pane, HS, CHOICES_PANE, HsJobPane)

G_END_DECLS
