// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Taking a link of a why-chain back. What was written down as a cause together with its link goes with it, as long as
 * nothing else rests on it; what was seen or noted before the chain stays a finding. Refuses, as hs_because_remove()
 * does, to leave something that is called proven without its proof. */

#include "hs-chain-op.h"

#include "hs-advice-row.h"
#include "hs-finding-row.h"
#include "hs-installed-row.h"
#include "hs-ops-private.h"
#include "hs-photo-row.h"
#include "hs-reading-row.h"

typedef struct
{
  GPtrArray *links;
  GPtrArray *readings;
  GPtrArray *photos;
  GPtrArray *advice;
  GPtrArray *parts;
} Around;

static void
around_clear (Around *around)
{
  g_clear_pointer (&around->links, g_ptr_array_unref);
  g_clear_pointer (&around->readings, g_ptr_array_unref);
  g_clear_pointer (&around->photos, g_ptr_array_unref);
  g_clear_pointer (&around->advice, g_ptr_array_unref);
  g_clear_pointer (&around->parts, g_ptr_array_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Around, around_clear)

/* @names: what the row of an array says a finding's id in. */
#define NAMES(array, Type, field, id)                                                                                  \
  for (guint i = 0; i < (array)->len; i++)                                                                             \
    if (g_strcmp0 (((const Type *) g_ptr_array_index (array, i))->field, id) == 0)                                     \
      return TRUE

static gboolean
is_named (const Around *around, const char *finding_id)
{
  NAMES (around->readings, HsReadingRow, finding_id, finding_id);
  NAMES (around->photos, HsPhotoRow, finding_id, finding_id);
  NAMES (around->advice, HsAdviceRow, finding_id, finding_id);
  NAMES (around->parts, HsInstalledRow, replaced_finding_id, finding_id);
  return FALSE;
}

static guint
count_links (const Around *around, const char *finding_id)
{
  guint n = 0;

  for (guint i = 0; i < around->links->len; i++)
    {
      const HsBecauseRow *link = g_ptr_array_index (around->links, i);

      n += g_str_equal (link->effect_id, finding_id) || g_str_equal (link->cause_id, finding_id);
    }
  return n;
}

static gboolean
load_around (HsStore *store, const char *job_id, Around *around, GError **error)
{
  return hs_because_row_list_of (store, job_id, &around->links, error)
         && hs_reading_row_list_of (store, job_id, &around->readings, error)
         && hs_photo_row_list_of (store, job_id, &around->photos, error)
         && hs_advice_row_list_of (store, job_id, &around->advice, error)
         && hs_installed_row_list_of_job (store, job_id, &around->parts, error);
}

/* A finding that is called proven does not lose its last proof in the book, not even on its way out. */
static gboolean
remove_both (HsStore *store, const HsBecauseRow *link, HsFindingRow *cause, GError **error)
{
  hs_row_set (&cause->sure, "suspected");
  return hs_finding_row_save (store, cause, error) && hs_because_row_delete (store, link->id, error)
         && hs_finding_row_delete (store, cause->id, error);
}

static gboolean
take_back (HsBook *book, const HsBecauseRow *link, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsFindingRow) cause = NULL;
  g_autoptr (HsJobChain) job = NULL;
  g_auto (Around) around = { NULL };

  if (!hs_finding_row_load (store, link->cause_id, &cause, error) || !load_around (store, link->job_id, &around, error))
    return FALSE;
  hs_ops_note (store, link->job_id, "taken back: %s", cause->what);
  if (!g_str_equal (cause->role, "seen") && count_links (&around, cause->id) == 1 && !is_named (&around, cause->id))
    return remove_both (store, link, cause, error);
  job = hs_job_chain_load (book, link->job_id, error);
  return job != NULL && hs_chain_check_unlink (job->chain, link->id, error)
         && hs_because_row_delete (store, link->id, error);
}

gboolean
hs_chain_take_back (HsBook *book, const char *link_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsBecauseRow) link = NULL;

  return hs_because_row_load (store, link_id, &link, error) && hs_store_begin (store, now, error)
         && hs_store_end (store, take_back (book, link, error), error);
}
