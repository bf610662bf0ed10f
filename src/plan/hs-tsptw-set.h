// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <string.h>

#include "hs-tsptw.h"

G_BEGIN_DECLS

/* Sets of nodes as words of bits (private to this layer). All sets of one problem have the same number of words. */

#define HS_SET_WORD_BITS 64
#define HS_SET_MAX_WORDS (HS_TSPTW_MAX_NODES / HS_SET_WORD_BITS)

static inline guint
hs_set_words (guint n_nodes)
{
  return (n_nodes + HS_SET_WORD_BITS - 1) / HS_SET_WORD_BITS;
}

static inline gboolean
hs_set_has (const guint64 *set, guint node)
{
  return (set[node / HS_SET_WORD_BITS] >> (node % HS_SET_WORD_BITS)) & 1;
}

static inline void
hs_set_add (guint64 *set, guint node)
{
  set[node / HS_SET_WORD_BITS] |= G_GUINT64_CONSTANT (1) << (node % HS_SET_WORD_BITS);
}

static inline void
hs_set_remove (guint64 *set, guint node)
{
  set[node / HS_SET_WORD_BITS] &= ~(G_GUINT64_CONSTANT (1) << (node % HS_SET_WORD_BITS));
}

static inline gboolean
hs_set_is_within (const guint64 *set, const guint64 *whole, guint words)
{
  guint64 outside = 0;

  for (guint i = 0; i < words; i++)
    outside |= set[i] & ~whole[i];
  return outside == 0;
}

static inline gboolean
hs_set_meets (const guint64 *a, const guint64 *b, guint words)
{
  guint64 common = 0;

  for (guint i = 0; i < words; i++)
    common |= a[i] & b[i];
  return common != 0;
}

static inline gboolean
hs_set_equals (const guint64 *a, const guint64 *b, guint words)
{
  guint64 other = 0;

  for (guint i = 0; i < words; i++)
    other |= a[i] ^ b[i];
  return other == 0;
}

G_END_DECLS
