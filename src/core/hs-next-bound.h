// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/*
 * What the rest of a policy costs at least, for the search of hs-next-exact.h. Costs are unscaled: minutes times
 * weights.
 *
 * Whatever a policy does, what it costs is, summed over the causes that may be there, the repair of that cause, every
 * other repair that is done before it, and the checks. Of two causes a and b one is repaired first: if a, then b pays
 * for a where it is b. So the whole splits over the pairs, each a small problem of its own: which of the two first,
 * with the same checks. A share of the minutes of a check may be put on each pair, as long as no cause pays for more
 * than the whole check. Each small problem is solved for all odds of the two causes, for each set of checks that are
 * left; what it costs is concave in the odds, so that a straight line between two solved ones lies below it.
 */

#define HS_NEXT_BOUND_CAUSES 16
#define HS_NEXT_BOUND_CHECKS 12

typedef struct
{
  double minutes;
  guint n_results;
  const double *chances[HS_NEXT_BOUND_CAUSES]; /* of each result under each cause */
} HsNextBoundCheck;

typedef struct HsNextBound HsNextBound;

/* hs_next_bound_new: (transfer full): borrows @checks and what they point to; nobody asks about a cause whose repair
 * takes no minutes. @is_thorough: whether shares are tried out: more time for each answer, and a higher one. */
HsNextBound *hs_next_bound_new (const double *repairs,
                                guint n_causes,
                                const HsNextBoundCheck *checks,
                                guint n_checks,
                                gboolean is_thorough);
void hs_next_bound_free (HsNextBound *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsNextBound, hs_next_bound_free)

/* hs_next_bound_place: where a cause of this weight and these minutes stands on the scale of the odds. */
double hs_next_bound_place (double weight, double minutes);
/* hs_next_bound_move: how far a chance moves a cause on that scale. */
double hs_next_bound_move (double chance);

/**
 * hs_next_bound_mistakes:
 * @w: (array): the weight of each cause; 0: can't be
 * @places: (array): of each cause that can be
 * @open: a bit for each check that is left
 * @enough: a cost at which nobody asks any further
 *
 * Returns: what repairs in vain and checks cost at least from here on
 */
double hs_next_bound_mistakes (HsNextBound *self,
                               const double *w,
                               const double *places,
                               guint open,
                               double enough);

G_END_DECLS
