// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tour.h"

G_BEGIN_DECLS

/* Reads the text format of TSPLIB 95 (G. Reinelt: TSPLIB 95, Universität Heidelberg): TYPE TSP, ATSP and SOP. */

/**
 * HsTsplibType:
 * @HS_TSPLIB_TSP: a round, legs alike both ways
 * @HS_TSPLIB_ATSP: a round, legs may differ
 * @HS_TSPLIB_SOP: a way from the first to the last node, with orders to keep
 */
typedef enum
{
  HS_TSPLIB_TSP,
  HS_TSPLIB_ATSP,
  HS_TSPLIB_SOP,
} HsTsplibType;

/**
 * HsTsplib:
 * @name: (nullable): NAME
 * @type: TYPE
 * @problem: node k of the file is node k − 1; a SOP's leg from the last node back to the first is free
 *
 * Free with hs_tsplib_free ().
 */
typedef struct
{
  char *name;
  HsTsplibType type;
  HsTourProblem *problem;
} HsTsplib;

/**
 * hs_tsplib_parse:
 * @text: (array length=length): the file's bytes
 * @error: "line 12, EDGE_WEIGHT_SECTION: …"
 *
 * Distances are rounded as TSPLIB says. Knows EDGE_WEIGHT_TYPE EUC_2D, EUC_3D, MAX_2D, MAX_3D, MAN_2D, MAN_3D, CEIL_2D,
 * GEO, ATT and EXPLICIT with every matrix format. Refuses with %HS_PLAN_ERROR_BAD_DAY what it does not know, what is
 * missing or too much, legs below zero or above %HS_TOUR_MAX_COST, rings of orders and more than %HS_TOUR_MAX_NODES
 * nodes.
 *
 * Returns: (transfer full) (nullable): the problem
 */
HsTsplib *hs_tsplib_parse (const char *text, gsize length, GError **error);

/**
 * hs_tsplib_free:
 * @tsplib: (nullable) (transfer full): a file's content
 */
void hs_tsplib_free (HsTsplib *tsplib);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTsplib, hs_tsplib_free)

G_END_DECLS
