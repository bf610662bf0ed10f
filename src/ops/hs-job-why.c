// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Why a job's vehicle failed, out of its findings and the links between them. Reads only; what is only suspected is
 * never told as proven. */

#include "hs-job-why.h"

#include "hs-chain-op.h"

/* In the order of HsChainSure. */
static const char *const sures[] = { "Suspected", "Why it failed", "Not known why" };

static void
add_end (GString *sentence, const HsChainFinding *finding, int *last_sure)
{
  const char *sure = sures[finding->sure];

  if (sentence->len == 0)
    g_string_append_printf (sentence, "%s: %s", sure, finding->what);
  else if (*last_sure == (int) finding->sure)
    g_string_append_printf (sentence, "; %s", finding->what);
  else
    g_string_append_printf (sentence, ". %s: %s", sure, finding->what);
  *last_sure = (int) finding->sure;
}

gboolean
hs_job_why_load (HsBook *book, const char *job_id, char **ret_sentence, GError **error)
{
  g_autoptr (HsJobChain) job = hs_job_chain_load (book, job_id, error);
  g_autoptr (GString) sentence = g_string_new (NULL);
  int last_sure = -1;

  if (job == NULL)
    return FALSE;
  for (guint i = 0; i < hs_chain_get_n_findings (job->chain); i++)
    {
      const HsChainFinding *finding = hs_chain_get_finding (job->chain, i);

      if (finding->role == HS_CHAIN_CAUSE && !hs_chain_has_cause (job->chain, finding->id))
        add_end (sentence, finding, &last_sure);
    }
  *ret_sentence = sentence->len > 0 ? g_strdup (sentence->str) : NULL;
  return TRUE;
}

gboolean
hs_job_why_links (HsBook *book, const char *job_id, GPtrArray **ret_links, GError **error)
{
  g_autoptr (HsJobChain) job = hs_job_chain_load (book, job_id, error);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);

  if (job == NULL)
    return FALSE;
  for (guint i = 0; i < hs_chain_get_n_links (job->chain); i++)
    {
      const HsChainLink *link = hs_chain_get_link (job->chain, i);
      const HsChainFinding *cause = hs_chain_find (job->chain, link->cause_id);

      if (cause->role != HS_CHAIN_RULED_OUT)
        g_ptr_array_add (texts, g_strdup_printf ("%s ← %s (%s)", hs_chain_find (job->chain, link->effect_id)->what,
                                                 cause->what, link->proof));
    }
  *ret_links = g_steal_pointer (&texts);
  return TRUE;
}
