// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-verdict-label.h"

G_BEGIN_DECLS

/**
 * HsChange: one reading before and after the work.
 * @name: what was measured
 * @before, @after: values in words; %NULL: not taken
 * @before_word, @after_word: verdict words; may be %NULL
 */
typedef struct
{
  const char *name;
  const char *before;
  const char *before_word;
  HsVerdictShape before_shape;
  const char *after;
  const char *after_word;
  HsVerdictShape after_shape;
} HsChange;

/** Rows of before → after with their verdict boxes: name, before, box, arrow, after, box; two lines where narrow. */
#define HS_TYPE_CHANGE_GRID (hs_change_grid_get_type ())
G_DECLARE_FINAL_TYPE (HsChangeGrid, hs_change_grid, HS, CHANGE_GRID, GtkWidget)

GtkWidget *hs_change_grid_new (void);
void hs_change_grid_append (HsChangeGrid *self, const HsChange *change);
void hs_change_grid_clear (HsChangeGrid *self);
void hs_change_grid_set_narrow (HsChangeGrid *self, gboolean narrow);

G_END_DECLS
