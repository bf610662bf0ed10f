// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The error domain of the plan layer. */

#include "hs-plan-error.h"

G_DEFINE_QUARK (hs-plan-error-quark, hs_plan_error)
