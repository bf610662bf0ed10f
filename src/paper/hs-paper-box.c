// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The boxes of the verdicts in one ink: none, thin, heavy, dashed, dotted, double. */

#include "hs-paper-flow.h"

HsBox
hs_box_of (HsVerdict verdict, gboolean do_not_drive)
{
  static const HsBox boxes[HS_N_VERDICTS] = {
    [HS_VERDICT_WITHIN] = HS_BOX_NONE,         [HS_VERDICT_WATCH] = HS_BOX_THIN,
    [HS_VERDICT_OUTSIDE] = HS_BOX_HEAVY,       [HS_VERDICT_CANNOT_TELL] = HS_BOX_DASHED,
    [HS_VERDICT_DEPENDS] = HS_BOX_DOTTED,
  };

  return do_not_drive ? HS_BOX_DOUBLE : boxes[verdict];
}

void
hs_box_paint (cairo_t *cr, HsBox box, double x, double y, double width, double height)
{
  static const double widths[] = { [HS_BOX_THIN] = 0.75, [HS_BOX_HEAVY] = 2.5, [HS_BOX_DASHED] = 1.25,
                                   [HS_BOX_DOTTED] = 1.75, [HS_BOX_DOUBLE] = 1 };
  static const double dashes[] = { 4, 3 };
  static const double dots[] = { 0, 3.5 };

  if (box == HS_BOX_NONE)
    return;
  cairo_save (cr);
  cairo_set_line_width (cr, widths[box]);
  if (box == HS_BOX_DASHED)
    cairo_set_dash (cr, dashes, 2, 0);
  if (box == HS_BOX_DOTTED)
    {
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      cairo_set_dash (cr, dots, 2, 0);
    }
  cairo_rectangle (cr, x, y, width, height);
  if (box == HS_BOX_DOUBLE)
    cairo_rectangle (cr, x + 2.5, y + 2.5, width - 5, height - 5);
  cairo_stroke (cr);
  cairo_restore (cr);
}
