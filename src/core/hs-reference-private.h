// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* The inside of a reference, for the readers of its tables. */

#include "hs-reference.h"

G_BEGIN_DECLS

struct _HsReference
{
  gatomicrefcount ref_count;
  GStringChunk *strings;
  GArray *makers;
  GArray *troubles;
  GArray *rates;
  GArray *deposits;
};

/* hs-reference-owned.c: the tables that the owner may extend; each fills its own array. */
gboolean hs_reference_read_troubles (HsReference *reference, GBytes *bytes, GError **error);
gboolean hs_reference_read_rates (HsReference *reference, GBytes *bytes, GError **error);
gboolean hs_reference_read_deposits (HsReference *reference, GBytes *bytes, GError **error);

G_END_DECLS
