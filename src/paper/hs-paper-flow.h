// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-paper.h"
#include "hs-verdict.h"

#include <pango/pangocairo.h>

G_BEGIN_DECLS

/*
 * How a paper is put together; private to the layer. A paper is filled from top to bottom with strips that are not
 * broken: a line of a paragraph, a row of a table. hs_paper_flow_end() then breaks them into pages.
 */

typedef enum
{
  HS_TYPE_HEAD,
  HS_TYPE_TITLE,
  HS_TYPE_FIGURE,
  HS_TYPE_BODY,
  HS_TYPE_STRONG,
  HS_TYPE_SMALL,
} HsTypeStyle;

/* The box around a word; those of the verdicts first. */
typedef enum
{
  HS_BOX_NONE,
  HS_BOX_THIN,
  HS_BOX_HEAVY,
  HS_BOX_DASHED,
  HS_BOX_DOTTED,
  HS_BOX_DOUBLE,
} HsBox;

HsBox hs_box_of (HsVerdict verdict, gboolean do_not_drive);

/* hs_box_paint: around a rectangle, in the ink of @cr. */
void hs_box_paint (cairo_t *cr, HsBox box, double x, double y, double width, double height);

/* A text of a row, under those before it in its column. */
typedef struct
{
  const char *text;
  HsTypeStyle style;
  HsBox box;
  gboolean boxed;
} HsCell;

#define HS_CELLS_MOST 4

/* A column of a row: @x and @width as shares of the line. */
typedef struct
{
  double x;
  double width;
  HsCell cells[HS_CELLS_MOST];
  guint n_cells;
  gboolean right;
} HsColumn;

/* hs_paper_flow_begin: @title: for the head of later pages and the file; @author, @subject: for the file. */
HsPaper *hs_paper_flow_begin (HsPaperSize size, const HsTongue *in, const char *title, const char *author,
                              const char *subject);

/* hs_paper_flow_text: a paragraph; @indent: as a share of the line. It may go over pages; a title stays with what is
 * under it. */
void hs_paper_flow_text (HsPaper *paper, const char *text, HsTypeStyle style, double indent);
void hs_paper_flow_gap (HsPaper *paper, double height);
void hs_paper_flow_rule (HsPaper *paper);

/* hs_paper_flow_row: @arrow: share of the line at which an arrow points right, or below 0. */
void hs_paper_flow_row (HsPaper *paper, const HsColumn *columns, guint n_columns, double arrow);

/* hs_paper_flow_tag: a tag on its string with these lines on it. */
void hs_paper_flow_tag (HsPaper *paper, const char *plate, const char *beside, const char *under, const char *number);

/* hs_paper_flow_end: breaks it into pages. */
void hs_paper_flow_end (HsPaper *paper);

G_END_DECLS
