// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store.h"

G_BEGIN_DECLS

/**
 * hs_bench_book_fill:
 * @n_vehicles: vehicles, each with an owner, a phone and a battery
 * @n_jobs: squared jobs, spread over the vehicles and over ten years
 *
 * Fills a new book with an invented town. The same numbers give the same rows, ids apart. It has no findings and no
 * lines, so it is somewhat smaller than a lived-in book.
 */
gboolean hs_bench_book_fill (HsStore *store, guint n_vehicles, guint n_jobs, GError **error);

/* hs_bench_phone, hs_bench_plate: what vehicle @index has; free with g_free(). */
char *hs_bench_phone (guint index);
char *hs_bench_plate (guint index);

G_END_DECLS
