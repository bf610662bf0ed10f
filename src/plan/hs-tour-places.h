// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-tour-search.h"

G_BEGIN_DECLS

/* A bound for rounds with orders (private to this layer): the cheapest walk of n legs in which every node stands only
 * where the orders let it, counted from the start, under prices for each visit that push every node toward one visit
 * (J. C. Picard and M. Queyranne, Operations Research 26, 1978). Where there are many orders it sees what a tree
 * cannot: that there is a direction. */

/**
 * HsTourPlaces:
 * @prices: (array length=n): of a visit; 0 for node 0
 * @rest: n × n: the least weight of the walk home from node j (column) at place k (row, node 0 being at place 0), legs
 *   and prices of the nodes behind it, in cost × %HS_TOUR_SCALE; %HS_TOUR_NO_WALK where there is none
 * @bound: of the whole round, × %HS_TOUR_SCALE
 */
typedef struct
{
  const HsTourFrame *frame;
  guint n;
  gint64 *prices;
  gint64 *rest;
  gint64 bound;
  guint16 *first;
  guint16 *last;
  guint16 *next;
  gint32 *visits;
  gint64 *best_prices;
} HsTourPlaces;

#define HS_TOUR_NO_WALK (G_GINT64_CONSTANT (1) << 58)

HsTourPlaces *hs_tour_places_new (const HsTourFrame *frame);
void hs_tour_places_free (HsTourPlaces *places);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsTourPlaces, hs_tour_places_free)

/* Moves the prices up to @steps times to where the bound is highest, and leaves @rest there. Ends early when @search is
 * told to give up, or when its best round is proven. */
void hs_tour_places_climb (HsTourPlaces *places, HsTourSearch *search, guint steps);

G_END_DECLS
