// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-proof-sheet.h"
#include "hs-tongue.h"

#include <cairo.h>

G_BEGIN_DECLS

/* The sizes that paper comes in. */
typedef enum
{
  HS_PAPER_LETTER,
  HS_PAPER_A4,
} HsPaperSize;

/* hs_paper_size_parse: `letter` or `A4`; anything else is letter. */
HsPaperSize hs_paper_size_parse (const char *text);

/**
 * HsPaper:
 *
 * Something to print, laid out into pages. One ink is enough for it: shapes and words say everything. It needs no
 * display.
 */
typedef struct _HsPaper HsPaper;

void hs_paper_free (HsPaper *paper);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPaper, hs_paper_free)

/**
 * hs_paper_proof_new:
 * @sheet: nothing of it is kept
 * @in: the language of the fixed words
 *
 * The proof sheet "Before and after".
 */
HsPaper *hs_paper_proof_new (const HsProofSheet *sheet, HsPaperSize size, const HsTongue *in);

guint hs_paper_get_n_pages (const HsPaper *paper);

/* hs_paper_get_size: in points of 1/72 inch. */
void hs_paper_get_size (const HsPaper *paper, double *ret_width, double *ret_height);

/* hs_paper_get_title: (transfer none) */
const char *hs_paper_get_title (const HsPaper *paper);

/* hs_paper_draw_page: @nth: from 0; @cr: in points, its origin the upper left corner of the page. */
void hs_paper_draw_page (const HsPaper *paper, cairo_t *cr, guint nth);

/**
 * hs_paper_dup_pdf:
 * @made_at: (nullable): ISO 8601, when it was made; nothing here asks a clock
 *
 * Returns: (transfer full) (nullable): the bytes of a PDF file with title and structure
 */
GBytes *hs_paper_dup_pdf (const HsPaper *paper, const char *made_at, GError **error);

G_END_DECLS
