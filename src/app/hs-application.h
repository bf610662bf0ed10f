// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-window.h"

G_BEGIN_DECLS

#define HS_TYPE_APPLICATION (hs_application_get_type ())
G_DECLARE_FINAL_TYPE (HsApplication, hs_application, HS, APPLICATION, AdwApplication)

/**
 * HsApplicationFill:
 * @application: the application, with its options read
 * @window: a window without pages
 *
 * Fills a new window with pages; given by main, which alone knows what is behind them.
 */
typedef void (*HsApplicationFill) (HsApplication *application, HsWindow *window, gpointer user_data);

/**
 * hs_application_new:
 * @fill: (scope forever): called for every new window
 */
HsApplication *hs_application_new (HsApplicationFill fill, gpointer user_data);

/** hs_application_get_book: Returns: (nullable): the path given with --book. */
const char *hs_application_get_book (HsApplication *self);

/** hs_application_get_demo: Returns: whether --demo was given. */
gboolean hs_application_get_demo (HsApplication *self);

/** hs_application_get_now: Returns: (nullable): the text given with --now, to be read in the book's zone. */
const char *hs_application_get_now (HsApplication *self);

/** hs_application_get_shots: Returns: (nullable): the folder given with --shots. */
const char *hs_application_get_shots (HsApplication *self);

G_END_DECLS
