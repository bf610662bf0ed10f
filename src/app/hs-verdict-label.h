// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-chip.h"

G_BEGIN_DECLS

/**
 * HsVerdictShape:
 * @HS_VERDICT_SHAPE_PLAIN: no border: within
 * @HS_VERDICT_SHAPE_THIN: 1.5 px: watch
 * @HS_VERDICT_SHAPE_HEAVY: 4 px: outside
 * @HS_VERDICT_SHAPE_DASHED: cannot tell
 * @HS_VERDICT_SHAPE_DOTTED: depends; makers differ
 * @HS_VERDICT_SHAPE_DOUBLE: do not drive; the word is set in capitals
 */
typedef enum
{
  HS_VERDICT_SHAPE_PLAIN,
  HS_VERDICT_SHAPE_THIN,
  HS_VERDICT_SHAPE_HEAVY,
  HS_VERDICT_SHAPE_DASHED,
  HS_VERDICT_SHAPE_DOTTED,
  HS_VERDICT_SHAPE_DOUBLE,
} HsVerdictShape;

GType hs_verdict_shape_get_type (void);
#define HS_TYPE_VERDICT_SHAPE (hs_verdict_shape_get_type ())

/** A verdict: its word, and a border that says it again without color. CSS class hs-large beside an entry. */
#define HS_TYPE_VERDICT_LABEL (hs_verdict_label_get_type ())
G_DECLARE_FINAL_TYPE (HsVerdictLabel, hs_verdict_label, HS, VERDICT_LABEL, HsChip)

GtkWidget *hs_verdict_label_new (const char *word, HsVerdictShape shape);

/**
 * hs_verdict_label_set:
 * @word: (nullable): %NULL hides it
 *
 * Sets word and shape together, as a list row does when it is recycled.
 */
void hs_verdict_label_set (HsVerdictLabel *self, const char *word, HsVerdictShape shape);
HsVerdictShape hs_verdict_label_get_shape (HsVerdictLabel *self);

G_END_DECLS
