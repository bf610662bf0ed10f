// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The error domain of the core layer. */

#include "hs-core-error.h"

G_DEFINE_QUARK (hs-core-error-quark, hs_core_error)
