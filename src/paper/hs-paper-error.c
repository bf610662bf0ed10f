// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What can go wrong with a page. */

#include "hs-paper-error.h"

G_DEFINE_QUARK (hs-paper-error-quark, hs_paper_error)
