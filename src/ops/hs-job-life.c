// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What is found, why it failed, what was told and picked, and how far the customer's yes goes. Each entry is one
 * transaction. Refuses words that are not on the closed lists, and whatever the book keeps of a why-chain.
 */

#include "hs-job-life.h"

#include "hs-advice-row.h"
#include "hs-finding-row.h"
#include "hs-ops-private.h"
#include "hs-visit-row.h"

static gboolean
save_asked (HsStore *store, const char *job_id, const char *question, const char *answer, HsInstant now,
            GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (HsAskedRow) asked = hs_asked_row_new ();

  if (!hs_asked_row_list_of (store, job_id, &rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsAskedRow *row = g_ptr_array_index (rows, i);

      if (g_str_equal (row->question, question))
        hs_row_set (&asked->id, row->id);
    }
  hs_row_set (&asked->job_id, job_id);
  hs_row_set (&asked->question, question);
  hs_row_set (&asked->answer, answer);
  asked->at = now;
  return hs_asked_row_save (store, asked, error);
}

gboolean
hs_asked_add (HsBook *book, const char *job_id, const char *question, const char *answer, HsInstant now,
              GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (hs_ops_blank_to_null (question) == NULL || hs_ops_blank_to_null (answer) == NULL)
    return hs_ops_refuse (error, "A question and its answer both need words.");
  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, save_asked (store, job_id, question, answer, now, error), error);
}

static HsFindingRow *
finding_of_entry (const HsFindingEntry *entry, GError **error)
{
  g_autoptr (HsFindingRow) row = hs_finding_row_new ();
  const char *role;
  const char *sure;
  const char *weight;
  const char *ended;

  if (!hs_ops_word (HS_WORDS_FINDING_ROLE, entry->role, "seen", &role, error)
      || !hs_ops_word (HS_WORDS_SURE, entry->sure, "suspected", &sure, error)
      || !hs_ops_word (HS_WORDS_WEIGHT, entry->weight, NULL, &weight, error)
      || !hs_ops_word (HS_WORDS_ENDED, entry->ended, NULL, &ended, error))
    return NULL;
  hs_row_set (&row->role, role);
  hs_row_set (&row->sure, sure);
  hs_row_set (&row->weight, weight);
  hs_row_set (&row->what, entry->what);
  hs_row_set (&row->place, hs_ops_blank_to_null (entry->place));
  hs_row_set (&row->ended, ended);
  hs_row_set (&row->cause, hs_ops_blank_to_null (entry->cause));
  hs_row_set (&row->said_by, hs_ops_blank_to_null (entry->said_by));
  return g_steal_pointer (&row);
}

static gboolean
needs_telling (const char *ended)
{
  return g_strcmp0 (ended, "outside_told") == 0 || g_strcmp0 (ended, "not_known_told") == 0;
}

char *
hs_finding_add (HsBook *book, const char *job_id, const HsFindingEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsFindingRow) row = NULL;

  if (hs_ops_blank_to_null (entry->what) == NULL)
    {
      hs_ops_refuse (error, "A finding needs words.");
      return NULL;
    }
  row = finding_of_entry (entry, error);
  if (row == NULL || !hs_store_begin (store, now, error))
    return NULL;
  hs_row_set (&row->job_id, job_id);
  row->entered_at = now;
  if (needs_telling (row->ended))
    row->told_at = entry->told_at > 0 ? entry->told_at : now;
  if (!hs_store_end (store, hs_finding_row_save (store, row, error), error))
    return NULL;
  return g_strdup (row->id);
}

static const char *
kind_of_proof (const HsBecauseEntry *entry)
{
  if (entry->kind != NULL)
    return entry->kind;
  return entry->reading_id != NULL ? "reading" : entry->photo_id != NULL ? "photo" : "said";
}

static gboolean
save_because (HsStore *store, const char *effect_id, const char *cause_id, const HsBecauseEntry *entry, GError **error)
{
  g_autoptr (HsFindingRow) effect = NULL;
  g_autoptr (HsBecauseRow) because = hs_because_row_new ();
  const char *kind;

  if (!hs_ops_word (HS_WORDS_PROOF, kind_of_proof (entry), "said", &kind, error)
      || !hs_finding_row_load (store, effect_id, &effect, error))
    return FALSE;
  hs_row_set (&because->job_id, effect->job_id);
  hs_row_set (&because->effect_id, effect_id);
  hs_row_set (&because->cause_id, cause_id);
  hs_row_set (&because->how, hs_ops_blank_to_null (entry->how));
  hs_row_set (&because->proof, entry->proof == NULL ? "" : entry->proof);
  hs_row_set (&because->proof_kind, kind);
  hs_row_set (&because->reading_id, entry->reading_id);
  hs_row_set (&because->photo_id, entry->photo_id);
  return hs_because_row_save (store, because, error);
}

gboolean
hs_because_add (HsBook *book, const char *effect_id, const char *cause_id, const HsBecauseEntry *entry, HsInstant now,
                GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, save_because (store, effect_id, cause_id, entry, error), error);
}

static HsAdviceRow *
advice_of_entry (const HsAdviceEntry *entry, GError **error)
{
  g_autoptr (HsAdviceRow) row = hs_advice_row_new ();
  const char *choice;
  const char *means;

  if (!hs_ops_word (HS_WORDS_CHOICE, entry->choice, "open", &choice, error)
      || !hs_ops_word (HS_WORDS_MEANS, entry->means, NULL, &means, error))
    return NULL;
  hs_row_set (&row->choice, choice);
  hs_row_set (&row->means, means);
  hs_row_set (&row->option_group, hs_ops_blank_to_null (entry->group));
  hs_row_set (&row->wording, entry->wording == NULL ? "" : entry->wording);
  hs_row_set (&row->risk_told, hs_ops_blank_to_null (entry->risk));
  hs_row_set (&row->decided_by, hs_ops_blank_to_null (entry->by));
  if (entry->rank > 0)
    row->rank = entry->rank;
  row->price_cents = entry->price_cents;
  row->decided_at = entry->at;
  row->chase_on = entry->chase_on;
  return g_steal_pointer (&row);
}

char *
hs_advice_add (HsBook *book, const char *job_id, const HsAdviceEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsAdviceRow) row = advice_of_entry (entry, error);

  if (row == NULL || !hs_store_begin (store, now, error))
    return NULL;
  hs_row_set (&row->job_id, job_id);
  if (!hs_store_end (store, hs_advice_row_save (store, row, error), error))
    return NULL;
  return g_strdup (row->id);
}

gboolean
hs_go_ahead_add (HsBook *book, const char *job_id, gint64 ceiling_cents, const char *by, const char *means,
                 HsInstant at, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsGoAheadRow) row = hs_go_ahead_row_new ();
  const char *means_id;

  if (hs_ops_blank_to_null (by) == NULL)
    return hs_ops_refuse (error, "Who said yes? A go-ahead needs a name.");
  if (ceiling_cents < 0)
    return hs_ops_refuse (error, "A ceiling is not less than nothing.");
  if (!hs_ops_word (HS_WORDS_MEANS, means, "in_person", &means_id, error) || !hs_store_begin (store, at, error))
    return FALSE;
  hs_row_set (&row->job_id, job_id);
  hs_row_set (&row->by_whom, by);
  hs_row_set (&row->means, means_id);
  row->ceiling_cents = ceiling_cents;
  row->at = at;
  return hs_store_end (store, hs_go_ahead_row_save (store, row, error), error);
}
