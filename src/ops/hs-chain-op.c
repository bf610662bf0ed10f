// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The steps that write a why-chain: a finding, a link, an end, how sure it is, and all of them taken away again. Each
 * asks the rules of the chain first, so that a refusal says what to do, and is one transaction.
 */

#include "hs-chain-op.h"

#include "hs-customer-row.h"
#include "hs-finding-row.h"
#include "hs-job-row.h"
#include "hs-ops-private.h"
#include "hs-reading-private.h"
#include "hs-safety-private.h"
#include "hs-text.h"

/* What the customer was told, by the end that says so. */
static gboolean
is_told (const char *ended)
{
  return g_strcmp0 (ended, "outside_told") == 0 || g_strcmp0 (ended, "not_known_told") == 0;
}

static gboolean
finding_load (HsStore *store, const char *finding_id, HsFindingRow **ret_row, GError **error)
{
  g_autoptr (GError) missing = NULL;

  if (finding_id != NULL && hs_finding_row_load (store, finding_id, ret_row, &missing))
    return TRUE;
  if (finding_id == NULL || hs_ops_only_missing (&missing, error))
    hs_ops_not_found (error, "There is no such finding in this book.");
  return FALSE;
}

/* The rules of the chain, asked about a finding that is about to be written. */
static gboolean
check_finding (const HsFindingRow *row, GError **error)
{
  HsChainFinding finding = { .what = row->what,
                             .role = (HsChainRole) hs_words_index (HS_WORDS_FINDING_ROLE, row->role),
                             .sure = (HsChainSure) hs_words_index (HS_WORDS_SURE, row->sure),
                             .end = (HsChainEnd) (hs_words_index (HS_WORDS_ENDED, row->ended) + 1) };

  return hs_chain_check_finding (&finding, error);
}

static HsFindingRow *
finding_of_entry (const HsFindingEntry *entry, HsInstant now, GError **error)
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
  hs_row_set (&row->ended, ended);
  hs_row_set (&row->what, entry->what == NULL ? "" : entry->what);
  hs_row_set (&row->place, hs_ops_blank_to_null (entry->place));
  hs_row_set (&row->said_by, hs_ops_blank_to_null (entry->said_by));
  hs_row_set (&row->cause, hs_ops_blank_to_null (entry->cause));
  row->entered_at = now;
  if (is_told (ended))
    row->told_at = entry->told_at > 0 ? entry->told_at : now;
  return check_finding (row, error) ? g_steal_pointer (&row) : NULL;
}

/* What a customer said was said by somebody: by the customer of the job unless it was another. */
static gboolean
fill_said_by (HsStore *store, HsFindingRow *row, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsCustomerRow) customer = NULL;

  if (row->said_by != NULL || !g_str_equal (row->role, "customer_said"))
    return TRUE;
  if (!hs_job_row_load (store, row->job_id, &job, error)
      || !hs_customer_row_load (store, job->customer_id, &customer, error))
    return FALSE;
  hs_row_set (&row->said_by, customer->name);
  return TRUE;
}

/* What is told needs nobody at the vehicle; what is found does. */
static gboolean
is_told_role (const char *role)
{
  return g_str_equal (role, "complaint") || g_str_equal (role, "customer_said");
}

static gboolean
finding_save_new (HsStore *store, const char *job_id, HsFindingRow *row, GError **error)
{
  if (!is_told_role (row->role) && !hs_safety_gate (store, job_id, error))
    return FALSE;
  hs_ops_note (store, job_id, "finding: %s", row->what);
  hs_row_set (&row->job_id, job_id);
  return fill_said_by (store, row, error) && hs_finding_row_save (store, row, error);
}

char *
hs_finding_add (HsBook *book, const char *job_id, const HsFindingEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsFindingRow) row = finding_of_entry (entry, now, error);

  if (row == NULL || !hs_store_begin (store, now, error)
      || !hs_store_end (store, finding_save_new (store, job_id, row, error), error))
    return NULL;
  return g_strdup (row->id);
}

static gboolean
reword (HsStore *store, const char *finding_id, const char *what, const char *place, GError **error)
{
  g_autoptr (HsFindingRow) row = NULL;

  if (!finding_load (store, finding_id, &row, error))
    return FALSE;
  hs_ops_note (store, row->job_id, "finding reworded: %s", row->what);
  hs_row_set (&row->what, what == NULL ? "" : what);
  hs_row_set (&row->place, hs_ops_blank_to_null (place));
  return check_finding (&(HsFindingRow){ .what = row->what, .role = row->role }, error)
         && hs_finding_row_save (store, row, error);
}

gboolean
hs_finding_reword (HsBook *book, const char *finding_id, const char *what, const char *place, HsInstant now,
                   GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error)
         && hs_store_end (store, reword (store, finding_id, what, place, error), error);
}

static gboolean
remove_finding (HsStore *store, const char *finding_id, GError **error)
{
  g_autoptr (HsFindingRow) row = NULL;
  g_autoptr (GPtrArray) links = NULL;

  if (!finding_load (store, finding_id, &row, error) || !hs_because_row_list_of (store, row->job_id, &links, error))
    return FALSE;
  for (guint i = 0; i < links->len; i++)
    {
      const HsBecauseRow *link = g_ptr_array_index (links, i);

      if (g_str_equal (link->effect_id, finding_id) || g_str_equal (link->cause_id, finding_id))
        return hs_ops_refuse (error, "“%s” is linked. Take its links away first.", row->what);
    }
  hs_ops_note (store, row->job_id, "finding removed: %s", row->what);
  return hs_finding_row_delete (store, finding_id, error);
}

gboolean
hs_finding_remove (HsBook *book, const char *finding_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, remove_finding (store, finding_id, error), error);
}

static gboolean
settle (HsBook *book, const char *finding_id, const char *ended, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsFindingRow) row = NULL;
  g_autoptr (HsJobChain) job = NULL;

  if (!finding_load (store, finding_id, &row, error))
    return FALSE;
  job = hs_job_chain_load (book, row->job_id, error);
  if (job == NULL
      || !hs_chain_check_end (job->chain, finding_id, (HsChainEnd) (hs_words_index (HS_WORDS_ENDED, ended) + 1), error))
    return FALSE;
  hs_ops_note (store, row->job_id, "settled: %s", row->what);
  hs_row_set (&row->ended, ended);
  row->told_at = is_told (ended) ? now : HS_INSTANT_NONE;
  return hs_finding_row_save (store, row, error);
}

gboolean
hs_finding_settle (HsBook *book, const char *finding_id, const char *ended, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const char *word;

  return hs_ops_word (HS_WORDS_ENDED, ended, NULL, &word, error) && hs_store_begin (store, now, error)
         && hs_store_end (store, settle (book, finding_id, word, now, error), error);
}

static gboolean
call (HsBook *book, const char *finding_id, const char *sure, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsFindingRow) row = NULL;
  g_autoptr (HsJobChain) job = NULL;

  if (!finding_load (store, finding_id, &row, error))
    return FALSE;
  job = hs_job_chain_load (book, row->job_id, error);
  if (job == NULL
      || !hs_chain_check_sure (job->chain, finding_id, (HsChainSure) hs_words_index (HS_WORDS_SURE, sure), error))
    return FALSE;
  hs_ops_note (store, row->job_id, "sure: %s", row->what);
  hs_row_set (&row->sure, sure);
  return hs_finding_row_save (store, row, error);
}

gboolean
hs_finding_call (HsBook *book, const char *finding_id, const char *sure, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const char *word;

  return hs_ops_word (HS_WORDS_SURE, sure, "suspected", &word, error) && hs_store_begin (store, now, error)
         && hs_store_end (store, call (book, finding_id, word, error), error);
}

/* Links ------------------------------------------------------------------------------------------------------------ */

static gboolean
say_reading (HsBook *book, const char *job_id, const char *reading_id, char **ret_words, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsReadingRow) row = NULL;
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GPtrArray) readings = NULL;
  g_autoptr (HsReadingResult) result = NULL;

  if (!hs_reading_row_load (store, reading_id, &row, error) || !hs_job_row_load (store, job_id, &job, error)
      || !hs_reading_row_list_of (store, job_id, &readings, error))
    return FALSE;
  if (row->not_measured_why != NULL)
    return hs_ops_refuse (error, "That reading was not taken, so it shows nothing.");
  result = hs_reading_judge_row (&(HsReadingScene){ book, job->vehicle_id, readings, NULL }, row, error);
  if (result == NULL)
    return FALSE;
  *ret_words = hs_reading_result_say (result);
  return TRUE;
}

static const char *
usual_proof (const HsBecauseEntry *entry)
{
  if (entry->reading_id != NULL)
    return "reading";
  return entry->photo_id != NULL ? "photo" : "said";
}

static gboolean
check_kind (const HsBecauseRow *row, GError **error)
{
  if (g_str_equal (row->proof_kind, "reading") && row->reading_id == NULL)
    return hs_ops_refuse (error, "Which reading shows it? Name one of this job, or say that you saw it.");
  if (g_str_equal (row->proof_kind, "photo") && row->photo_id == NULL)
    return hs_ops_refuse (error, "Which photo shows it? Name one of this job, or say that you saw it.");
  return TRUE;
}

/* What stands in the book already, with the kind of proof and its words settled. */
static HsBecauseRow *
because_of_entry (HsBook *book, const HsFindingRow *effect, const char *cause_id, const HsBecauseEntry *entry,
                  GError **error)
{
  g_autoptr (HsBecauseRow) row = hs_because_row_new ();
  g_autofree char *proof = g_strdup (entry->proof == NULL ? "" : entry->proof);
  const char *kind;

  if (!hs_ops_word (HS_WORDS_PROOF, entry->kind, usual_proof (entry), &kind, error))
    return NULL;
  hs_row_set (&row->proof_kind, kind);
  hs_row_set (&row->reading_id, g_str_equal (kind, "reading") ? entry->reading_id : NULL);
  hs_row_set (&row->photo_id, g_str_equal (kind, "photo") ? entry->photo_id : NULL);
  if (!check_kind (row, error))
    return NULL;
  if (row->reading_id != NULL && hs_text_is_blank (proof))
    {
      g_clear_pointer (&proof, g_free);
      if (!say_reading (book, effect->job_id, row->reading_id, &proof, error))
        return NULL;
    }
  hs_row_set (&row->job_id, effect->job_id);
  hs_row_set (&row->effect_id, effect->id);
  hs_row_set (&row->cause_id, cause_id);
  hs_row_set (&row->how, hs_ops_blank_to_null (entry->how));
  hs_row_set (&row->proof, proof);
  return g_steal_pointer (&row);
}

static gboolean
add_link (HsBook *book, const char *effect_id, const char *cause_id, const HsBecauseEntry *entry, char **ret_id,
          GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsFindingRow) effect = NULL;
  g_autoptr (HsBecauseRow) row = NULL;
  g_autoptr (HsJobChain) job = NULL;

  if (!finding_load (store, effect_id, &effect, error))
    return FALSE;
  job = hs_job_chain_load (book, effect->job_id, error);
  row = job == NULL ? NULL : because_of_entry (book, effect, cause_id, entry, error);
  if (row == NULL)
    return FALSE;
  HsChainLink link = { .effect_id = row->effect_id,
                       .cause_id = row->cause_id,
                       .proof = row->proof,
                       .by = (HsChainProof) hs_words_index (HS_WORDS_PROOF, row->proof_kind) };
  if (!hs_chain_check_link (job->chain, &link, error))
    return FALSE;
  hs_ops_note (store, row->job_id, "why: %s", row->proof);
  if (!hs_because_row_save (store, row, error))
    return FALSE;
  *ret_id = g_strdup (row->id);
  return TRUE;
}

char *
hs_because_add (HsBook *book, const char *effect_id, const char *cause_id, const HsBecauseEntry *entry, HsInstant now,
                GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autofree char *id = NULL;

  if (!hs_store_begin (store, now, error)
      || !hs_store_end (store, add_link (book, effect_id, cause_id, entry, &id, error), error))
    return NULL;
  return g_steal_pointer (&id);
}

static gboolean
remove_link (HsBook *book, const char *link_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsBecauseRow) row = NULL;
  g_autoptr (HsJobChain) job = NULL;

  if (!hs_because_row_load (store, link_id, &row, error))
    return FALSE;
  job = hs_job_chain_load (book, row->job_id, error);
  if (job == NULL || !hs_chain_check_unlink (job->chain, link_id, error))
    return FALSE;
  hs_ops_note (store, row->job_id, "link removed: %s", row->proof);
  return hs_because_row_delete (store, link_id, error);
}

gboolean
hs_because_remove (HsBook *book, const char *link_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  return hs_store_begin (store, now, error) && hs_store_end (store, remove_link (book, link_id, error), error);
}

/* A cause and its link in one step --------------------------------------------------------------------------------- */

static gboolean
ensure_complaint (HsStore *store, const char *job_id, HsInstant now, char **ret_id, GError **error)
{
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsFindingRow) row = hs_finding_row_new ();

  if (!hs_finding_row_list_of (store, job_id, &findings, error) || !hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  for (guint i = 0; i < findings->len; i++)
    {
      const HsFindingRow *finding = g_ptr_array_index (findings, i);

      if (!g_str_equal (finding->role, "complaint"))
        continue;
      *ret_id = g_strdup (finding->id);
      return TRUE;
    }
  hs_row_set (&row->job_id, job_id);
  hs_row_set (&row->role, "complaint");
  hs_row_set (&row->what, job->words);
  hs_ops_note (store, job_id, "complaint");
  hs_row_set (&row->sure, g_strcmp0 (job->saw_it, "yes") == 0 ? "proven" : "suspected");
  row->entered_at = now;
  if (!hs_finding_row_save (store, row, error))
    return FALSE;
  *ret_id = g_strdup (row->id);
  return TRUE;
}

char *
hs_complaint_ensure (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autofree char *id = NULL;

  if (!hs_store_begin (store, now, error)
      || !hs_store_end (store, ensure_complaint (store, job_id, now, &id, error), error))
    return NULL;
  return g_steal_pointer (&id);
}

/* The link is what proves a cause, so the cause is called proven after it. */
static gboolean
extend (HsBook *book, const char *job_id, const char *effect_id, const HsFindingEntry *cause,
        const HsBecauseEntry *link, HsInstant now, char **ret_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  HsFindingEntry entry = *cause;
  g_autofree char *complaint_id = NULL;
  g_autofree char *link_id = NULL;
  g_autoptr (HsFindingRow) row = NULL;
  const char *by;

  entry.role = entry.role == NULL ? "cause" : entry.role;
  entry.sure = NULL;
  row = finding_of_entry (&entry, now, error);
  if (row == NULL || !hs_ops_word (HS_WORDS_PROOF, link->kind, usual_proof (link), &by, error)
      || (effect_id == NULL && !ensure_complaint (store, job_id, now, &complaint_id, error))
      || !finding_save_new (store, job_id, row, error)
      || !add_link (book, effect_id == NULL ? complaint_id : effect_id, row->id, link, &link_id, error))
    return FALSE;
  *ret_id = g_strdup (row->id);
  if (cause->sure != NULL)
    return hs_finding_call (book, row->id, cause->sure, now, error);
  if (g_str_equal (by, "said") || (g_str_equal (row->role, "customer_said") && g_str_equal (by, "seen")))
    return TRUE;
  return call (book, row->id, "proven", error);
}

/* One step, whatever it consists of. */
static gboolean
extend_in_one (HsBook *book, const char *job_id, const char *effect_id, const HsFindingEntry *cause,
               const HsBecauseEntry *link, HsInstant now, char **ret_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const char *what = cause->what == NULL ? "" : cause->what;
  gboolean done;

  hs_ops_note (store, job_id, "why: %s", what);
  done = extend (book, job_id, effect_id, cause, link, now, ret_id, error);
  hs_ops_note (store, job_id, "why: %s", what);
  return done;
}

char *
hs_chain_extend (HsBook *book, const char *job_id, const char *effect_id, const HsFindingEntry *cause,
                 const HsBecauseEntry *link, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autofree char *id = NULL;

  if (!hs_store_begin (store, now, error)
      || !hs_store_end (store, extend_in_one (book, job_id, effect_id, cause, link, now, &id, error), error))
    return NULL;
  return g_steal_pointer (&id);
}

static gboolean
join (HsBook *book, const char *job_id, const char *effect_id, const char *cause_id, const HsBecauseEntry *link,
      HsInstant now, char **ret_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autofree char *complaint_id = NULL;
  g_autoptr (HsFindingRow) cause = NULL;

  if (!finding_load (store, cause_id, &cause, error)
      || (effect_id == NULL && !ensure_complaint (store, job_id, now, &complaint_id, error))
      || !add_link (book, effect_id == NULL ? complaint_id : effect_id, cause_id, link, ret_id, error))
    return FALSE;
  hs_ops_note (store, job_id, "why: %s", cause->what);
  return TRUE;
}

char *
hs_chain_join (HsBook *book, const char *job_id, const char *effect_id, const char *cause_id,
               const HsBecauseEntry *link, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autofree char *id = NULL;

  if (!hs_store_begin (store, now, error)
      || !hs_store_end (store, join (book, job_id, effect_id, cause_id, link, now, &id, error), error))
    return NULL;
  return g_steal_pointer (&id);
}

char *
hs_reading_find_proof (HsBook *book, const char *job_id, const char *check, const char *place, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  const HsReadingRow *found = NULL;

  if (hs_reading_find_check (book, check, error) == NULL
      || !hs_reading_row_list_of (hs_book_get_store (book), job_id, &rows, error))
    return NULL;
  for (guint i = 0; i < rows->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (rows, i);
      gboolean before = g_str_equal (row->phase, "before");

      if (g_str_equal (row->check_id, check) && row->not_measured_why == NULL
          && (place == NULL || g_strcmp0 (row->place, place) == 0)
          && (found == NULL || before || !g_str_equal (found->phase, "before")))
        found = row;
    }
  if (found == NULL)
    hs_ops_not_found (error, "There is no reading of “%s” on this job. Take it first.", check);
  return found == NULL ? NULL : g_strdup (found->id);
}
