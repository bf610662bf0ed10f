// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The error domain of the store layer. */

#include "hs-store-error.h"

G_DEFINE_QUARK (hs-store-error-quark, hs_store_error)
