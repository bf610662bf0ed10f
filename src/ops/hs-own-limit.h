// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/**
 * HsOwnLimitEntry:
 * @check: the check's id; it has to be one that gives a number
 * @low, @high: as written, with a point, in the check's unit: "12.20"; %NULL or blank leaves that end open
 * @unit: (nullable): must be the check's
 * @source: who says so; never blank
 * @maker: it is the vehicle maker's value, not the owner's own
 *
 * A limit for one vehicle, to be written down.
 */
typedef struct
{
  const char *vehicle_id;
  const char *check;
  const char *low;
  const char *high;
  const char *unit;
  const char *source;
  gboolean maker;
} HsOwnLimitEntry;

/**
 * HsOwnLimit:
 * @name: of the check
 * @limits: the numbers, scaled by the check's decimals, whose they are and who says so; its source belongs to this
 * @text: "12.20 to 15.50 V"
 * @in_use: verdicts rest on it; not so for the owner's beside the maker's
 *
 * A limit of one vehicle.
 */
typedef struct
{
  char *check;
  char *name;
  HsOwnLimits limits;
  char *text;
  gboolean in_use;
} HsOwnLimit;

void hs_own_limit_free (HsOwnLimit *limit);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsOwnLimit, hs_own_limit_free)

/**
 * hs_own_limit_set:
 *
 * Writes down a limit, or changes the one that is there: the maker's and the owner's stand side by side, and the
 * maker's wins. Refuses an unknown check or one without a number, a missing source, no number at all, a low end above
 * the high one, another unit, and a number that the check cannot show: that is a slip or another unit.
 */
gboolean hs_own_limit_set (HsBook *book, const HsOwnLimitEntry *entry, HsInstant now, GError **error);

/** hs_own_limit_clear: takes the maker's or the owner's limit away; %HS_OPS_ERROR_NOT_FOUND if there is none. */
gboolean hs_own_limit_clear (HsBook *book, const char *vehicle_id, const char *check, gboolean maker, HsInstant now,
                             GError **error);

/** hs_own_limit_list: (element-type HsOwnLimit): of a vehicle, in the order of the checks, the maker's before the
 * owner's. A limit of a check that this version does not know is left out. */
GPtrArray *hs_own_limit_list (HsBook *book, const char *vehicle_id, GError **error);

/** hs_own_limit_find: (nullable): the limit of @limits (element-type HsOwnLimit) that verdicts of @check rest on. */
const HsOwnLimit *hs_own_limit_find (GPtrArray *limits, const char *check);

G_END_DECLS
