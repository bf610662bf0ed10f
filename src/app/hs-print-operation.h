// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-paper.h"

G_BEGIN_DECLS

/**
 * hs_print_operation_new:
 * @paper: (transfer full)
 *
 * Returns: (transfer full): prints @paper page by page on its own size of paper, as the file has it
 */
GtkPrintOperation *hs_print_operation_new (HsPaper *paper);

G_END_DECLS
