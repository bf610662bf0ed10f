// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Why a job's vehicle failed, out of its findings and the links between them. Reads only; what is only suspected is
 * never told as proven. */

#include "hs-job-why.h"

#include "hs-finding-row.h"

static const HsFindingRow *
find_finding (GPtrArray *findings, const char *id)
{
  for (guint i = 0; i < findings->len; i++)
    {
      const HsFindingRow *finding = g_ptr_array_index (findings, i);

      if (g_str_equal (finding->id, id))
        return finding;
    }
  return NULL;
}

static gboolean
has_cause (GPtrArray *links, const char *finding_id)
{
  for (guint i = 0; i < links->len; i++)
    if (g_str_equal (((HsBecauseRow *) g_ptr_array_index (links, i))->effect_id, finding_id))
      return TRUE;
  return FALSE;
}

static const char *
say_sure (const char *sure)
{
  if (g_str_equal (sure, "proven"))
    return "Why it failed";
  return g_str_equal (sure, "not_known") ? "Not known why" : "Suspected";
}

static void
add_end (GString *sentence, const HsFindingRow *finding, const char **last_sure)
{
  const char *sure = say_sure (finding->sure);

  if (sentence->len == 0)
    g_string_append_printf (sentence, "%s: %s", sure, finding->what);
  else if (g_strcmp0 (*last_sure, sure) == 0)
    g_string_append_printf (sentence, "; %s", finding->what);
  else
    g_string_append_printf (sentence, ". %s: %s", sure, finding->what);
  *last_sure = sure;
}

gboolean
hs_job_why_load (HsStore *store, const char *job_id, char **ret_sentence, GError **error)
{
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (GPtrArray) links = NULL;
  g_autoptr (GString) sentence = g_string_new (NULL);
  const char *last_sure = NULL;

  if (!hs_finding_row_list_of (store, job_id, &findings, error)
      || !hs_because_row_list_of (store, job_id, &links, error))
    return FALSE;
  for (guint i = 0; i < findings->len; i++)
    {
      const HsFindingRow *finding = g_ptr_array_index (findings, i);

      if (g_str_equal (finding->role, "cause") && !has_cause (links, finding->id))
        add_end (sentence, finding, &last_sure);
    }
  *ret_sentence = sentence->len > 0 ? g_strdup (sentence->str) : NULL;
  return TRUE;
}

gboolean
hs_job_why_links (HsStore *store, const char *job_id, GPtrArray **ret_links, GError **error)
{
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (GPtrArray) links = NULL;
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);

  if (!hs_finding_row_list_of (store, job_id, &findings, error)
      || !hs_because_row_list_of (store, job_id, &links, error))
    return FALSE;
  for (guint i = 0; i < links->len; i++)
    {
      const HsBecauseRow *link = g_ptr_array_index (links, i);
      const HsFindingRow *effect = find_finding (findings, link->effect_id);
      const HsFindingRow *cause = find_finding (findings, link->cause_id);

      if (effect != NULL && cause != NULL)
        g_ptr_array_add (texts, g_strdup_printf ("%s ← %s (%s)", effect->what, cause->what, link->proof));
    }
  *ret_links = g_steal_pointer (&texts);
  return TRUE;
}
