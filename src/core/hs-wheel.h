// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Wheel nuts are tried again after this far, miles: a carmaker 2020 says 25, a tire maker 30, truck makers 50 to 100,
 * another carmaker at latest 100. */
#define HS_WHEEL_RECHECK_FROM_MILES 25
#define HS_WHEEL_RECHECK_TO_MILES 50
#define HS_WHEEL_RECHECK_LATEST_MILES 100

G_END_DECLS
