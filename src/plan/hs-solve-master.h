// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A small linear program (private to this layer): the least cost of columns that cover each of the first rows at least
 * once and each of the rest at most so often. Floating point: its prices are a good guess and prove nothing by
 * themselves. Revised simplex with a dense inverse, which keeps its basis between calls. */

typedef struct _HsMaster HsMaster;

/**
 * hs_master_new:
 * @n_cover: rows to be covered at least once
 * @n_rows: all rows
 * @limits: how often each of the rest may be taken
 * @missing_cost: what it costs to leave a row uncovered; more than any column
 */
HsMaster *hs_master_new (guint n_cover, guint n_rows, const guint *limits, double missing_cost);
void hs_master_free (HsMaster *master);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsMaster, hs_master_free)

/* Adds a column with a one in each of @rows; a row that stands twice counts twice. */
void hs_master_add (HsMaster *master, double cost, const guint16 *rows, guint n_rows);

/**
 * hs_master_solve:
 * @ret_prices: (out): one a row; not below zero for rows to be covered, not above for the rest
 *
 * FALSE if the numbers came out too rough to go on; @ret_prices is what was known last.
 */
gboolean hs_master_solve (HsMaster *master, double *ret_prices);

/* Makes column @index cost as much as leaving a row uncovered. */
void hs_master_forbid (HsMaster *master, guint index);

/* How much of column @index, counted in the order in which they were added, is taken. */
double hs_master_get_share (const HsMaster *master, guint index);

G_END_DECLS
