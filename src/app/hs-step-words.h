// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * hs_step_words:
 * @what: a step of a job as the book has it: "stage: At the vehicle"
 *
 * Returns: (transfer full): the same in the language of the window; what the owner wrote stays as it is
 */
char *hs_step_words (const char *what);

G_END_DECLS
