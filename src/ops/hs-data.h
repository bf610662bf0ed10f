// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-check.h"
#include "hs-reference.h"

G_BEGIN_DECLS

/* The tables that are data, compiled in. None of them needs a book. */

/**
 * hs_data_load_checks:
 *
 * Returns: (transfer full): the catalog of checks, or %NULL with the place that cannot be read
 */
HsChecks *hs_data_load_checks (GError **error);

/**
 * hs_data_load_reference:
 *
 * Reads some thousand rows: load it once and hand it on.
 *
 * Returns: (transfer full): makers, trouble codes, mileage rates and deposits, or %NULL with the row that cannot be
 *   read
 */
HsReference *hs_data_load_reference (GError **error);

G_END_DECLS
