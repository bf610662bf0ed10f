// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-check.h"

G_BEGIN_DECLS

/**
 * HsCatalog:
 * @checks: what a book judges by
 * @file: (nullable): the file beside the book; %NULL if there is none
 * @trouble: (nullable): why @file is not used, naming section and key; what is built in then stands alone
 * @changes: (array zero-terminated=1): what @file adds and changes, a line each; empty if it is not used
 *
 * Which catalog is in use.
 */
typedef struct
{
  HsChecks *checks;
  char *file;
  char *trouble;
  char **changes;
} HsCatalog;

/* The name of the file beside the book. */
#define HS_CATALOG_FILE "checks.ini"

void hs_catalog_free (HsCatalog *catalog);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCatalog, hs_catalog_free)

/**
 * hs_catalog_load:
 * @book_path: the file beside it is laid over what is built in
 *
 * A file that cannot be read or understood is no error: @trouble says so.
 *
 * Returns: (transfer full): %NULL only if what is built in cannot be read
 */
HsCatalog *hs_catalog_load (const char *book_path, GError **error);

/* hs_catalog_reject: goes back to what is built in, for the reason @trouble. */
gboolean hs_catalog_reject (HsCatalog *catalog, const char *trouble, GError **error);

G_END_DECLS
