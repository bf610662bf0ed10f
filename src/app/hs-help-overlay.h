// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-window.h"

G_BEGIN_DECLS

/**
 * hs_help_overlay_new:
 * @on_job: over a job, not over a view
 * @face: (nullable): of a job's findings: `readings`, `why`
 *
 * Returns: (transfer floating): the window that lists the keys of that page and of everywhere
 */
GtkWindow *hs_help_overlay_new (gboolean on_job, const char *face);

/** hs_help_overlay_present: shows the keys of what is open in @parent. */
void hs_help_overlay_present (HsWindow *parent);

G_END_DECLS
