// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cause-model.h"

G_BEGIN_DECLS

/* A cause model from a JSON text, as data/causes/MODEL.md has it:
 * {"causes":[{"id","prior"}],"repairs":{CAUSE:minutes},"checks":[{"id","minutes","results":[…],"p":{CAUSE:[…]}}]} */

/**
 * hs_cause_file_parse:
 * @text: (array length=length): the model, UTF-8
 * @error: names the field by its path, e.g. "checks[0].p.c2[1]: is below zero"
 *
 * The numbers alone; hs_cause_guide_parse() gives the words as well. Priors are on any common scale. A cause of prior 0
 * can't be present: it is read, looked at and left out. Refuses unknown keys, wrong types, causes without a repair or
 * without chances, and all that the model refuses. Fails with %HS_OPS_ERROR_REFUSED or %HS_CORE_ERROR_BAD_VALUE.
 *
 * Returns: (transfer full): the model
 */
HsCauseModel *hs_cause_file_parse (const char *text, gsize length, GError **error);

G_END_DECLS
