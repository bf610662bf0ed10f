// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * HsCompatFile:
 * @file: (nullable) (transfer none): what was chosen; %NULL when the owner turned back
 */
typedef void (*HsCompatFile) (GFile *file, gpointer user_data);

/**
 * hs_compat_choose_file:
 * @save: whether to name a new file rather than to open one
 * @pattern: (nullable): a shell pattern, for example `*.hsbook`
 * @pattern_title: (nullable): what such files are called
 * @done: (scope async): called once
 */
void hs_compat_choose_file (GtkWindow *parent, const char *title, gboolean save, const char *pattern,
                            const char *pattern_title, HsCompatFile done, gpointer user_data);

/**
 * hs_compat_save_file:
 * @name: (nullable): what the new file may be called
 *
 * Like hs_compat_choose_file() for a new file.
 */
void hs_compat_save_file (GtkWindow *parent, const char *title, const char *name, const char *pattern,
                          const char *pattern_title, HsCompatFile done, gpointer user_data);

/**
 * HsCompatFiles:
 * @files: (nullable) (transfer none): a list of #GFile; %NULL when the owner turned back
 */
typedef void (*HsCompatFiles) (GListModel *files, gpointer user_data);

/* hs_compat_choose_photos: one photo or several; @done: (scope async): called once. */
void hs_compat_choose_photos (GtkWindow *parent, const char *title, HsCompatFiles done, gpointer user_data);

/* hs_compat_choose_folder: @start: (nullable): where to begin; @done: (scope async): called once. */
void hs_compat_choose_folder (GtkWindow *parent, const char *title, GFile *start, HsCompatFile done,
                              gpointer user_data);

G_END_DECLS
