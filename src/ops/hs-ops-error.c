// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The error domain of the ops layer. */

#include "hs-ops-error.h"

G_DEFINE_QUARK (hs-ops-error-quark, hs_ops_error)
