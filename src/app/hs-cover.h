// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/**
 * What stands in place of the views while no book is open: a heading, what to do, and the buttons that do it
 * (`win.make-book`, `win.open-book`, `win.open-demo`).
 */
#define HS_TYPE_COVER (hs_cover_get_type ())
G_DECLARE_FINAL_TYPE (HsCover, hs_cover, HS, COVER, AdwBin)

/**
 * hs_cover_new:
 * @drawing: name of a drawing (hs-glyph.h)
 * @heading: what is the matter
 * @body: what to do about it
 * @may_make: offer to make a new book
 */
GtkWidget *hs_cover_new (const char *drawing, const char *heading, const char *body, gboolean may_make);

G_END_DECLS
