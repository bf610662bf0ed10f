// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsPaperError:
 * @HS_PAPER_ERROR_FAILED: a page could not be drawn
 */
typedef enum
{
  HS_PAPER_ERROR_FAILED,
} HsPaperError;

#define HS_PAPER_ERROR (hs_paper_error_quark ())
GQuark hs_paper_error_quark (void);

G_END_DECLS
