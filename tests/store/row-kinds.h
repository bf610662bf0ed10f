// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-store.h"

/* One kind of row: fill() sets the fields of a new one, stands is how it then reads in the file, kept says that it can
 * never be removed. */
typedef struct
{
  const char *table;
  gpointer (*make) (void);
  void (*fill) (gpointer row);
  gboolean (*save) (HsStore *store, gpointer row, GError **error);
  gboolean (*load) (HsStore *store, const char *id, gpointer *ret_row, GError **error);
  gpointer (*copy) (gconstpointer row);
  void (*free) (gpointer row);
  gboolean (*remove) (HsStore *store, const char *id, GError **error);
  const char *stands;
  gboolean kept;
} Kind;

#define KIND(prefix, table, fill, stands, kept) \
  { table, (gpointer (*) (void)) (void (*) (void)) prefix##_new, fill, \
    (gboolean (*) (HsStore *, gpointer, GError **)) (void (*) (void)) prefix##_save, \
    (gboolean (*) (HsStore *, const char *, gpointer *, GError **)) (void (*) (void)) prefix##_load, \
    (gpointer (*) (gconstpointer)) (void (*) (void)) prefix##_copy, \
    (void (*) (gpointer)) (void (*) (void)) prefix##_free, \
    (gboolean (*) (HsStore *, const char *, GError **)) (void (*) (void)) prefix##_delete, stands, kept }

extern const Kind kinds[];
extern const guint n_kinds;
extern const Kind on_site_kinds[];
extern const guint n_on_site_kinds;
