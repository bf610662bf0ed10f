// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-verdict-label.h"

G_BEGIN_DECLS

/** One check in the list of findings: number, name, hint, value with its unit, verdict. For a GtkListView. */
#define HS_TYPE_READING_LINE (hs_reading_line_get_type ())
G_DECLARE_FINAL_TYPE (HsReadingLine, hs_reading_line, HS, READING_LINE, GtkWidget)

/**
 * HsReadingFace:
 * @number: place in the list, the key that jumps there
 * @name: the check
 * @hint: how it is taken, or how it was
 * @value: the stored value as text; %NULL shows a line to write on
 * @words: it is an answer in words, which may take two lines and are set smaller than a number
 * @unit: its unit
 * @verdict: the verdict's word; %NULL for none
 * @shape: its border
 * @chosen: whether it is the check being entered
 */
typedef struct
{
  guint number;
  const char *name;
  const char *hint;
  const char *value;
  gboolean words;
  const char *unit;
  const char *verdict;
  HsVerdictShape shape;
  gboolean chosen;
} HsReadingFace;

GtkWidget *hs_reading_line_new (void);
void hs_reading_line_set_face (HsReadingLine *self, const HsReadingFace *face);

/** hs_reading_line_set_narrow: the verdict under the name. */
void hs_reading_line_set_narrow (HsReadingLine *self, gboolean narrow);

/** hs_reading_line_set_slim: the value under the name too: large text in the hand. */
void hs_reading_line_set_slim (HsReadingLine *self, gboolean slim);

G_END_DECLS
