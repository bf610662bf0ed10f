// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cause-guide.h"

G_BEGIN_DECLS

/**
 * HsCauseCatalog:
 * @guides: (element-type HsCauseGuide): those in use, in the order of the groups
 * @file: (nullable): the owner's file beside the book; %NULL if there is none
 * @trouble: (nullable): why @file is not used, naming the field by its path; what is built in then stands alone
 * @changes: (array zero-terminated=1): what @file changes and adds, a line each; empty if it is not used
 *
 * Which cause models are in use.
 */
typedef struct
{
  GPtrArray *guides;
  char *file;
  char *trouble;
  char **changes;
} HsCauseCatalog;

/* The name of the file beside the book. */
#define HS_CAUSE_CATALOG_FILE "causes.json"

void hs_cause_catalog_free (HsCauseCatalog *catalog);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCauseCatalog, hs_cause_catalog_free)

/**
 * hs_cause_catalog_load:
 * @book_path: the file beside it is laid over what is built in: a model in it stands for the one of its id
 * @checks: the catalog of checks in use; a model that it no longer fits is left out
 *
 * A file that cannot be read or understood is no error: @trouble says so.
 *
 * Returns: (transfer full): %NULL only if what is built in cannot be read
 */
HsCauseCatalog *hs_cause_catalog_load (const char *book_path, HsChecks *checks, GError **error);

G_END_DECLS
