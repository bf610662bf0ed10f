// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The cause models that a book is asked by: those that are built in, with the owner's file beside the book laid over
 * them. A file that is not understood to its last key is not used at all, and says where it is wrong.
 */

#include "hs-cause-catalog.h"

#include "hs-ops-private.h"

void
hs_cause_catalog_free (HsCauseCatalog *catalog)
{
  if (catalog == NULL)
    return;
  g_clear_pointer (&catalog->guides, g_ptr_array_unref);
  g_free (catalog->file);
  g_free (catalog->trouble);
  g_strfreev (catalog->changes);
  g_free (catalog);
}

/* Those that the catalog of checks, which the owner may have edited, still fits. */
static GPtrArray *
load_shipped (HsChecks *checks, GError **error)
{
  GPtrArray *guides = hs_cause_guides_load (error);

  for (guint i = guides != NULL ? guides->len : 0; i > 0; i--)
    if (!hs_cause_guide_check (g_ptr_array_index (guides, i - 1), checks, NULL))
      g_ptr_array_remove_index (guides, i - 1);
  return guides;
}

/* Puts @own in the place of the one of its id, or behind the last. Returns: whether there was one. */
static gboolean
put_own (GPtrArray *guides, HsCauseGuide *own)
{
  for (guint i = 0; i < guides->len; i++)
    if (g_str_equal (hs_cause_guide_get_id (g_ptr_array_index (guides, i)), hs_cause_guide_get_id (own)))
      {
        hs_cause_guide_free (g_ptr_array_index (guides, i));
        g_ptr_array_index (guides, i) = own;
        return TRUE;
      }
  g_ptr_array_add (guides, own);
  return FALSE;
}

static void
lay_over (HsCauseCatalog *catalog, GPtrArray *own)
{
  g_autoptr (GStrvBuilder) changes = g_strv_builder_new ();

  g_ptr_array_set_free_func (own, NULL);
  for (guint i = 0; i < own->len; i++)
    {
      HsCauseGuide *guide = g_ptr_array_index (own, i);
      g_autofree char *change = NULL;

      change = g_strdup_printf (put_own (catalog->guides, guide) ? "changed %s" : "added %s",
                                hs_cause_guide_get_id (guide));
      g_strv_builder_add (changes, change);
    }
  g_strfreev (catalog->changes);
  catalog->changes = g_strv_builder_end (changes);
}

HsCauseCatalog *
hs_cause_catalog_load (const char *book_path, HsChecks *checks, GError **error)
{
  g_autoptr (HsCauseCatalog) catalog = g_new0 (HsCauseCatalog, 1);
  g_autofree char *folder = g_path_get_dirname (book_path);
  g_autofree char *file = g_build_filename (folder, HS_CAUSE_CATALOG_FILE, NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) wrong = NULL;
  g_autoptr (GPtrArray) own = NULL;
  gsize length = 0;

  catalog->changes = g_new0 (char *, 1);
  catalog->guides = load_shipped (checks, error);
  if (catalog->guides == NULL)
    return NULL;
  if (hs_ops_read_own (file, "models", &text, &length, &wrong))
    own = hs_cause_guides_parse (text, length, checks, &wrong);
  if (own != NULL)
    lay_over (catalog, own);
  if (own != NULL || wrong != NULL)
    catalog->file = g_steal_pointer (&file);
  if (wrong != NULL)
    catalog->trouble = g_strdup_printf ("%s is not used: %s. The cause models that are built in stand.", catalog->file,
                                        wrong->message);
  return g_steal_pointer (&catalog);
}
