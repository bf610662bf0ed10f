// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

typedef struct
{
  const char *name;
  int width;
  int height;
  GtkWindow *(*create) (void);
} Sheet;

/* Ends with a sheet without a name. */
extern const Sheet gallery_sheets[];
