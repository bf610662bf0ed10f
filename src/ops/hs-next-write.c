// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is written down from what to check next: one more complaint, and which cause it was or was not. */

#include "hs-chain-op.h"
#include "hs-job-next.h"
#include "hs-job-op.h"
#include "hs-ops-private.h"

static const HsNextCause *
find_cause (const HsJobNext *next, const char *id, GError **error)
{
  g_autoptr (GString) known = g_string_new (NULL);

  for (guint i = 0; i < next->causes->len; i++)
    {
      const HsNextCause *cause = g_ptr_array_index (next->causes, i);

      if (g_str_equal (cause->id, id))
        return cause;
      g_string_append_printf (known, "%s%s", i > 0 ? ", " : "", cause->id);
    }
  if (known->len == 0)
    hs_ops_not_found (error, "%s", next->nothing != NULL ? next->nothing : "No cause model fits this job.");
  else
    hs_ops_not_found (error, "There is no cause “%s” here. There are: %s.", id, known->str);
  return NULL;
}

/* The complaint that names the group, if it is not the job's own. */
static const char *
find_complaint (HsBook *book, const HsJobChain *chain, const HsJobNext *next)
{
  const HsCheckGroup *group = hs_checks_lookup_group (hs_book_get_checks (book), next->group);

  for (guint i = 0; g_strcmp0 (next->groups[0], next->group) != 0 && i < hs_chain_get_n_findings (chain->chain); i++)
    {
      const HsChainFinding *finding = hs_chain_get_finding (chain->chain, i);

      if (finding->role == HS_CHAIN_COMPLAINT && g_ascii_strcasecmp (finding->what, group->name) == 0)
        return finding->id;
    }
  return NULL;
}

char *
hs_job_name_cause (HsBook *book, const char *job_id, const char *group, const char *cause, gboolean is_it,
                   const char *seen, HsInstant now, GError **error)
{
  g_autoptr (HsJobNext) next = hs_job_next_load (book, job_id, group, now, error);
  const HsNextCause *known = next != NULL ? find_cause (next, cause, error) : NULL;
  g_autoptr (HsJobChain) chain = known != NULL ? hs_job_chain_load (book, job_id, error) : NULL;
  HsFindingEntry finding = { .role = is_it ? "cause" : "ruled_out", .cause = cause };
  HsBecauseEntry link = { .proof = hs_ops_blank_to_null (seen), .kind = "seen" };

  if (chain == NULL)
    return NULL;
  finding.what = known->name;
  if (link.proof == NULL)
    {
      link.kind = "reading";
      link.reading_id = is_it ? known->reading_id : known->against_id;
    }
  if (link.proof == NULL && link.reading_id == NULL)
    {
      hs_ops_refuse (error,
                     is_it ? "No reading speaks for “%s” yet: say what you saw, or take a reading first."
                           : "No reading speaks against “%s” yet: say what you saw, or take a reading first.",
                     known->name);
      return NULL;
    }
  return hs_chain_extend (book, job_id, find_complaint (book, chain, next), &finding, &link, now, error);
}

/* Behind the caller's own words, which come first in the chain. */
static gboolean
add_complaint (HsBook *book, const char *job_id, const char *what, HsInstant now, GError **error)
{
  const HsFindingEntry entry = { .what = what, .role = "complaint" };
  g_autofree char *own = NULL;
  g_autofree char *id = NULL;

  hs_ops_note (hs_book_get_store (book), job_id, "finding: %s", what);
  own = hs_complaint_ensure (book, job_id, now, error);
  id = own != NULL ? hs_finding_add (book, job_id, &entry, now, error) : NULL;
  return id != NULL;
}

gboolean
hs_job_add_symptom (HsBook *book, const char *job_id, const char *group, HsInstant now, GError **error)
{
  const HsCheckGroup *known = NULL;
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobNext) next = NULL;
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_ops_check_group (book, group, error))
    return FALSE;
  next = hs_job_next_load (book, job_id, NULL, now, error);
  if (next == NULL)
    return FALSE;
  known = hs_checks_lookup_group (hs_book_get_checks (book), group);
  if (g_strv_contains ((const char *const *) next->groups, group))
    return hs_ops_refuse (error, "“%s” is a complaint of this job already.", known->name);
  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  if (job->complaint_group == NULL)
    return hs_job_set_group (book, job_id, group, now, error);
  return hs_store_begin (store, now, error)
         && hs_store_end (store, add_complaint (book, job_id, known->name, now, error), error);
}
