// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The catalog of checks that a book judges by: what is built in, with the owner's file beside the book laid over it. A
 * file that is not understood to its last key is not used at all, and says where it is wrong.
 */

#include "hs-catalog.h"

#include "hs-data.h"
#include "hs-ops-private.h"

void
hs_catalog_free (HsCatalog *catalog)
{
  if (catalog == NULL)
    return;
  g_clear_pointer (&catalog->checks, hs_checks_unref);
  g_free (catalog->file);
  g_free (catalog->trouble);
  g_strfreev (catalog->changes);
  g_free (catalog);
}

gboolean
hs_catalog_reject (HsCatalog *catalog, const char *trouble, GError **error)
{
  HsChecks *builtin = hs_data_load_checks (error);

  if (builtin == NULL)
    return FALSE;
  g_clear_pointer (&catalog->checks, hs_checks_unref);
  catalog->checks = builtin;
  g_free (catalog->trouble);
  catalog->trouble = g_strdup_printf ("%s is not used: %s. The list of checks that is built in stands.", catalog->file,
                                      trouble);
  g_strfreev (catalog->changes);
  catalog->changes = g_new0 (char *, 1);
  return TRUE;
}

static HsChecks *
lay_over (const char *text, gsize length, char ***ret_changes, GError **error)
{
  g_autoptr (GBytes) builtin = hs_ops_load_data ("checks/checks.ini", error);
  gsize builtin_length;
  const char *data;

  if (builtin == NULL)
    return NULL;
  data = g_bytes_get_data (builtin, &builtin_length);
  return hs_checks_new_edited (data, builtin_length, text, length, ret_changes, error);
}

static gboolean
load_file (HsCatalog *catalog, GError **error)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) wrong = NULL;
  g_auto (GStrv) changes = NULL;
  HsChecks *checks;
  gsize length;

  if (!hs_ops_read_own (catalog->file, "checks", &text, &length, &wrong))
    {
      if (wrong != NULL)
        return hs_catalog_reject (catalog, wrong->message, error);
      g_clear_pointer (&catalog->file, g_free);
      return TRUE;
    }
  checks = lay_over (text, length, &changes, &wrong);
  if (checks == NULL)
    return hs_catalog_reject (catalog, wrong->message, error);
  g_clear_pointer (&catalog->checks, hs_checks_unref);
  catalog->checks = checks;
  g_strfreev (catalog->changes);
  catalog->changes = g_steal_pointer (&changes);
  return TRUE;
}

HsCatalog *
hs_catalog_load (const char *book_path, GError **error)
{
  g_autoptr (HsCatalog) catalog = g_new0 (HsCatalog, 1);
  g_autofree char *folder = g_path_get_dirname (book_path);

  catalog->checks = hs_data_load_checks (error);
  if (catalog->checks == NULL)
    return NULL;
  catalog->file = g_build_filename (folder, HS_CATALOG_FILE, NULL);
  catalog->changes = g_new0 (char *, 1);
  return load_file (catalog, error) ? g_steal_pointer (&catalog) : NULL;
}
