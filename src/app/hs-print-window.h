// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <adwaita.h>

#include "hs-page.h"

G_BEGIN_DECLS

/** The proof sheet of a job, to be printed under 1 or kept as a PDF file under 2; Esc stops a file that is written. */
#define HS_TYPE_PRINT_WINDOW (hs_print_window_get_type ())
G_DECLARE_FINAL_TYPE (HsPrintWindow, hs_print_window, HS, PRINT_WINDOW, AdwWindow)

HsPrintWindow *hs_print_window_present (HsPage *page, const char *job_id);

/** hs_print_window_is_ready: the sheet is there. */
gboolean hs_print_window_is_ready (HsPrintWindow *self);

/** hs_print_window_get_name: (transfer none) (nullable): what the file would be called. */
const char *hs_print_window_get_name (HsPrintWindow *self);

/** hs_print_window_save: writes the sheet into @file, away from the window's thread. */
void hs_print_window_save (HsPrintWindow *self, GFile *file);

/** hs_print_window_dup_operation: (transfer full) (nullable): what is handed to the print dialog. */
GtkPrintOperation *hs_print_window_dup_operation (HsPrintWindow *self);

G_END_DECLS
