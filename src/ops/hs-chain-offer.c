// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the next link of a why-chain can be made with: the job's own findings, readings and photos, and the causes that
 * are usual for its complaint group. Reads only; a usual reason is an offer of words, never a finding. */

#include "hs-chain-offer.h"

#include "hs-chain-op.h"
#include "hs-customer-row.h"
#include "hs-finding-row.h"
#include "hs-ops-private.h"
#include "hs-photo-row.h"
#include "hs-reading-private.h"
#include "hs-text.h"

typedef struct
{
  HsBook *book;
  HsJobRow *job;
  GPtrArray *findings;
  GPtrArray *readings;
  HsChainOffers *made;
} Make;

static void
make_clear (Make *make)
{
  g_clear_pointer (&make->job, hs_job_row_free);
  g_clear_pointer (&make->findings, g_ptr_array_unref);
  g_clear_pointer (&make->readings, g_ptr_array_unref);
  g_clear_pointer (&make->made, hs_chain_offers_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Make, make_clear)

static void
offer_free (gpointer data)
{
  HsChainOffer *offer = data;

  g_free (offer->id);
  g_free (offer->words);
  g_free (offer->note);
  g_free (offer);
}

void
hs_chain_offers_free (HsChainOffers *offers)
{
  if (offers == NULL)
    return;
  g_clear_pointer (&offers->findings, g_ptr_array_unref);
  g_clear_pointer (&offers->reasons, g_ptr_array_unref);
  g_clear_pointer (&offers->readings, g_ptr_array_unref);
  g_clear_pointer (&offers->photos, g_ptr_array_unref);
  g_free (offers->customer);
  g_free (offers);
}

/* @words: (transfer full) */
static void
add_offer (GPtrArray *offers, const char *id, char *words)
{
  HsChainOffer *offer = g_new0 (HsChainOffer, 1);

  offer->id = g_strdup (id);
  offer->words = words;
  g_ptr_array_add (offers, offer);
}

/* First what stands beside the chain, then what is in it already: a cause may have more than one effect. */
static void
offer_findings (Make *make, const HsChain *chain)
{
  for (guint held = 0; held < 2; held++)
    for (guint i = 0; i < hs_chain_get_n_findings (chain); i++)
      {
        const HsChainFinding *finding = hs_chain_get_finding (chain, i);
        gboolean alone = finding->role == HS_CHAIN_SEEN && !hs_chain_holds (chain, finding->id);

        if (finding->role != HS_CHAIN_COMPLAINT && finding->role != HS_CHAIN_RULED_OUT && alone == (held == 0))
          add_offer (make->made->findings, finding->id, g_strdup (finding->what));
      }
}

/* The answer, from 1, that was given to @check_id; 0 if it was not asked. */
static guint
find_answer (const Make *make, const char *check_id)
{
  const HsCheck *check = hs_checks_lookup (hs_book_get_checks (make->book), check_id);
  guint answer = 0;

  for (guint i = 0; check != NULL && i < make->readings->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (make->readings, i);
      HsReading reading;

      if (g_str_equal (row->check_id, check_id) && row->answer != NULL && !g_str_equal (row->phase, "after")
          && hs_check_parse (check, row->answer, &reading, NULL))
        answer = (guint) reading.value;
    }
  return answer;
}

static gboolean
is_for_job (const Make *make, const HsCauseGuide *guide)
{
  const char *when = hs_cause_guide_get_when (guide);
  guint answer;

  if (g_strcmp0 (hs_cause_guide_get_group (guide), make->job->complaint_group) != 0)
    return FALSE;
  answer = when != NULL ? find_answer (make, when) : 0;
  return answer == 0 || hs_cause_guide_is_for (guide, answer);
}

static gboolean
is_written (const Make *make, const char *cause, const char *name)
{
  for (guint i = 0; i < make->findings->len; i++)
    {
      const HsFindingRow *row = g_ptr_array_index (make->findings, i);

      if (g_strcmp0 (row->cause, cause) == 0 || g_strcmp0 (row->what, name) == 0)
        return TRUE;
    }
  for (guint i = 0; i < make->made->reasons->len; i++)
    if (g_strcmp0 (((HsChainOffer *) g_ptr_array_index (make->made->reasons, i))->words, name) == 0)
      return TRUE;
  return FALSE;
}

typedef struct
{
  const char *id;
  const char *name;
  double weight;
} Reason;

static int
compare_reasons (gconstpointer a, gconstpointer b)
{
  const Reason *one = a, *other = b;

  if (one->weight != other->weight)
    return one->weight > other->weight ? -1 : 1;
  return g_strcmp0 (one->id, other->id);
}

static void
offer_reasons (Make *make, const HsCauseGuide *guide)
{
  const HsCauseModel *model = hs_cause_guide_get_model (guide);
  g_autoptr (GArray) reasons = g_array_new (FALSE, FALSE, sizeof (Reason));

  for (guint i = 0; i < hs_cause_model_get_n_causes (model); i++)
    {
      const HsCause *cause = hs_cause_model_get_cause (model, i);
      Reason reason = { cause->id, hs_cause_guide_get_cause (guide, i)->name, cause->weight };

      if (reason.name != NULL)
        g_array_append_val (reasons, reason);
    }
  g_array_sort (reasons, compare_reasons);
  for (guint i = 0; i < reasons->len; i++)
    {
      const Reason *reason = &g_array_index (reasons, Reason, i);

      if (!is_written (make, reason->id, reason->name))
        add_offer (make->made->reasons, reason->id, g_strdup (reason->name));
    }
}

static gboolean
offer_usual (Make *make, GError **error)
{
  const HsCauseCatalog *causes = hs_book_get_causes (make->book, error);

  for (guint i = 0; causes != NULL && i < causes->guides->len; i++)
    if (make->job->complaint_group != NULL && is_for_job (make, g_ptr_array_index (causes->guides, i)))
      offer_reasons (make, g_ptr_array_index (causes->guides, i));
  return causes != NULL;
}

static gboolean
is_odd (const HsReadingResult *result)
{
  return result->verdict != NULL && !g_str_equal (result->verdict, hs_verdict_id (HS_VERDICT_WITHIN));
}

static gboolean
offer_readings (Make *make, GError **error)
{
  g_auto (HsReadingGround) ground = { 0 };
  HsReadingScene scene = { make->book, make->job->vehicle_id, make->readings, &ground };

  for (guint odd = 0; odd < 2; odd++)
    for (guint i = make->readings->len; i-- > 0;)
      {
        const HsReadingRow *row = g_ptr_array_index (make->readings, i);
        g_autoptr (HsReadingResult) result = NULL;

        if (row->not_measured_why != NULL)
          continue;
        result = hs_reading_judge_row (&scene, row, error);
        if (result == NULL)
          return FALSE;
        if (is_odd (result) == (odd == 0))
          add_offer (make->made->readings, row->id, hs_reading_result_say (result));
      }
  return TRUE;
}

static gboolean
offer_photos (Make *make, GError **error)
{
  g_autoptr (GPtrArray) photos = NULL;

  if (!hs_photo_row_list_of (hs_book_get_store (make->book), make->job->id, &photos, error))
    return FALSE;
  for (guint i = 0; i < photos->len; i++)
    {
      const HsPhotoRow *row = g_ptr_array_index (photos, i);
      const char *words = hs_text_is_blank (row->words) ? row->name : row->words;

      add_offer (make->made->photos, row->id, g_strdup (words != NULL ? words : "photo"));
    }
  return TRUE;
}

static gboolean
load_rows (Make *make, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (make->book);
  g_autoptr (HsCustomerRow) customer = NULL;

  if (!hs_job_row_load (store, job_id, &make->job, error)
      || !hs_finding_row_list_of (store, job_id, &make->findings, error)
      || !hs_reading_row_list_of (store, job_id, &make->readings, error))
    return FALSE;
  if (make->job->customer_id == NULL)
    return TRUE;
  if (!hs_customer_row_load (store, make->job->customer_id, &customer, error))
    return FALSE;
  make->made->customer = g_strdup (customer->name);
  return TRUE;
}

HsChainOffers *
hs_chain_offers_load (HsBook *book, const char *job_id, GError **error)
{
  g_auto (Make) make = { .book = book, .made = g_new0 (HsChainOffers, 1) };
  GPtrArray **lists[] = { &make.made->findings, &make.made->reasons, &make.made->readings, &make.made->photos };
  g_autoptr (HsJobChain) job = hs_job_chain_load (book, job_id, error);

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    *lists[i] = g_ptr_array_new_with_free_func (offer_free);
  if (job == NULL || !load_rows (&make, job_id, error))
    return NULL;
  offer_findings (&make, job->chain);
  if (!offer_usual (&make, error) || !offer_readings (&make, error) || !offer_photos (&make, error))
    return NULL;
  return g_steal_pointer (&make.made);
}

/* --- By what is known -------------------------------------------------------------------------------------------- */

/* (transfer full): "most likely · for: Battery at rest 11.95 V: low", or who says how often while there is nothing. */
static char *
dup_note (const HsNextCause *cause, const HsTongue *in)
{
  g_autofree char *speaks_for = g_strjoinv ("; ", cause->speaks_for);
  g_autofree char *against = g_strjoinv ("; ", cause->speaks_against);
  g_autoptr (GString) note = g_string_new (in->gettext (hs_next_standing_word (cause->standing)));

  if (*speaks_for != '\0')
    {
      g_string_append (note, " · ");
      g_string_append_printf (note, in->gettext ("for: %s"), speaks_for);
    }
  if (*against != '\0')
    {
      g_string_append (note, " · ");
      g_string_append_printf (note, in->gettext ("against: %s"), against);
    }
  if (cause->own != NULL)
    g_string_append_printf (note, " · %s", cause->own);
  if (*speaks_for == '\0' && *against == '\0' && cause->own == NULL)
    g_string_append_printf (note, " · %s", in->gettext (cause->source));
  return g_string_free (g_steal_pointer (&note), FALSE);
}

/* Where @next ranks the reason; behind all of them where it does not know it. */
static guint
rank_of (const HsJobNext *next, const HsChainOffer *offer)
{
  guint rank;

  for (rank = 0; rank < next->causes->len; rank++)
    if (g_strcmp0 (((const HsNextCause *) g_ptr_array_index (next->causes, rank))->id, offer->id) == 0)
      break;
  return rank;
}

static int
compare_ranks (gconstpointer a, gconstpointer b, gpointer next)
{
  guint left = rank_of (next, *(HsChainOffer *const *) a), right = rank_of (next, *(HsChainOffer *const *) b);

  return left < right ? -1 : left > right;
}

void
hs_chain_offers_rank (HsChainOffers *offers, const HsJobNext *next, const HsTongue *in)
{
  g_ptr_array_sort_with_data (offers->reasons, compare_ranks, (gpointer) next);
  for (guint i = 0; i < offers->reasons->len; i++)
    {
      HsChainOffer *offer = g_ptr_array_index (offers->reasons, i);
      guint rank = rank_of (next, offer);

      g_free (offer->note);
      offer->note = rank < next->causes->len ? dup_note (g_ptr_array_index (next->causes, rank), in) : NULL;
    }
}
