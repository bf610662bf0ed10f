// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A vehicle's own limits: the maker's value, or what its owner set. For the judge and for showing them; whoever hands
 * them in has picked the maker's where both are there. */

#include "hs-check-private.h"
#include "hs-decimal.h"

static const struct
{
  const char *id;
  const char *word;
} whoses[] = {
  [HS_LIMIT_OWNER] = { "owner", "owner's limit" },
  [HS_LIMIT_MAKER] = { "maker", "maker's value" },
  [HS_LIMIT_CATALOG] = { "catalog", "list of checks" },
};

const char *
hs_limit_whose_id (HsLimitWhose whose)
{
  return whoses[whose].id;
}

const char *
hs_limit_whose_word (HsLimitWhose whose)
{
  return whoses[whose].word;
}

char *
hs_range_text (const char *unit, guint decimals, const gint64 *low, const gint64 *high)
{
  g_autofree char *from = low == NULL ? NULL : hs_decimal_format (*low, decimals);
  g_autofree char *to = high == NULL ? NULL : hs_decimal_format (*high, decimals);

  if (from != NULL && to != NULL)
    return g_strdup_printf ("%s to %s %s", from, to, unit);
  if (from != NULL)
    return g_strdup_printf ("%s %s or more", from, unit);
  return to == NULL ? g_strdup ("") : g_strdup_printf ("%s %s or less", to, unit);
}

char *
hs_own_limits_text (const HsCheck *check, const HsOwnLimits *own)
{
  return hs_range_text (check->unit, check->decimals, own->has_low ? &own->low : NULL,
                        own->has_high ? &own->high : NULL);
}

gboolean
hs_own_limits_say_something (const HsOwnLimits *own)
{
  return own != NULL && (own->has_low || own->has_high);
}

int
hs_own_limits_side (const HsOwnLimits *own, const HsReading *reading)
{
  gint64 power = hs_decimal_power (reading->finer);

  if (own->has_low && reading->value < own->low * power)
    return -1;
  return own->has_high && reading->value > own->high * power ? 1 : 0;
}

const char *
hs_own_limits_why (const HsOwnLimits *own, int side)
{
  gboolean maker = own->whose == HS_LIMIT_MAKER;

  if (side < 0)
    return maker ? "It is below the maker's value for this vehicle."
                 : "It is below the owner's limit for this vehicle.";
  if (side > 0)
    return maker ? "It is above the maker's value for this vehicle."
                 : "It is above the owner's limit for this vehicle.";
  return maker ? "It keeps to the maker's value for this vehicle." : "It keeps to the owner's limit for this vehicle.";
}
