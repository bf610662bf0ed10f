// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-key-row.h"

G_BEGIN_DECLS

/* hs_pad_hints_set: @cramped: there is little height, so only what its signs do; @frozen: nothing is stored. */
void hs_pad_hints_set (HsKeyRow *row, gboolean cramped, gboolean frozen);

G_END_DECLS
