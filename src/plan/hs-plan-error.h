// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsPlanError:
 * @HS_PLAN_ERROR_BAD_DAY: the day handed in cannot be planned as it is written
 * @HS_PLAN_ERROR_NO_TRAVEL: a drive between two places is neither known nor can it be estimated
 *
 * The codes that a caller acts on; the message says the rest, in words for the owner.
 */
typedef enum
{
  HS_PLAN_ERROR_BAD_DAY,
  HS_PLAN_ERROR_NO_TRAVEL,
} HsPlanError;

#define HS_PLAN_ERROR (hs_plan_error_quark ())
GQuark hs_plan_error_quark (void);

G_END_DECLS
