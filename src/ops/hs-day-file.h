// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-problem.h"

G_BEGIN_DECLS

/* A day to be planned from a JSON text, as data/plan/day.schema.json has it. */

/**
 * hs_day_file_parse:
 * @bytes: (array length=length): the text, UTF-8
 * @error: names the field by its path, e.g. "calls[2].windows[0]: ends before it starts"
 *
 * Minutes are read to the second and miles to the thousandth, half up. Refuses unknown keys, wrong types, unknown ids
 * and all that hs_problem_check () refuses. Fails with %HS_OPS_ERROR_REFUSED or %HS_PLAN_ERROR_BAD_DAY.
 *
 * Returns: (transfer full): the problem
 */
HsProblem *hs_day_file_parse (const char *bytes, gsize length, GError **error);

G_END_DECLS
