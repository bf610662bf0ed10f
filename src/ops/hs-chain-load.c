// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The why-chain of one job out of its rows, with the rows, ends and sentences that are made of it. Reads only. */

#include "hs-chain-op.h"

#include "hs-advice-row.h"
#include "hs-disturbed-row.h"
#include "hs-finding-row.h"
#include "hs-installed-row.h"
#include "hs-job-row.h"
#include "hs-money-row.h"
#include "hs-ops-private.h"
#include "hs-photo-row.h"
#include "hs-reading-private.h"
#include "hs-text.h"

typedef struct
{
  HsBook *book;
  HsStore *store;
  const char *job_id;
  HsJobRow *job;
  GPtrArray *findings;
  GPtrArray *links;
  GPtrArray *readings;
  GPtrArray *photos;
  GPtrArray *advice;
  GPtrArray *parts;
  GPtrArray *lines;
  GPtrArray *looks;
  HsJobChain *made;
} Make;

static void
make_clear (Make *make)
{
  g_clear_pointer (&make->job, hs_job_row_free);
  g_clear_pointer (&make->findings, g_ptr_array_unref);
  g_clear_pointer (&make->links, g_ptr_array_unref);
  g_clear_pointer (&make->readings, g_ptr_array_unref);
  g_clear_pointer (&make->photos, g_ptr_array_unref);
  g_clear_pointer (&make->advice, g_ptr_array_unref);
  g_clear_pointer (&make->parts, g_ptr_array_unref);
  g_clear_pointer (&make->lines, g_ptr_array_unref);
  g_clear_pointer (&make->looks, g_ptr_array_unref);
  g_clear_pointer (&make->made, hs_job_chain_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Make, make_clear)

void
hs_job_chain_free (HsJobChain *chain)
{
  if (chain == NULL)
    return;
  g_clear_pointer (&chain->chain, hs_chain_free);
  g_clear_pointer (&chain->rows, g_array_unref);
  g_clear_pointer (&chain->tips, g_ptr_array_unref);
  g_clear_pointer (&chain->sentences, g_ptr_array_unref);
  g_free (chain->open);
  g_free (chain->words);
  g_free (chain);
}

/* A reading that was taken, or a photo, of the finding itself. */
static gboolean
has_proof (const Make *make, const char *finding_id)
{
  for (guint i = 0; i < make->photos->len; i++)
    if (g_strcmp0 (((HsPhotoRow *) g_ptr_array_index (make->photos, i))->finding_id, finding_id) == 0)
      return TRUE;
  for (guint i = 0; i < make->readings->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (make->readings, i);

      if (g_strcmp0 (row->finding_id, finding_id) == 0 && row->not_measured_why == NULL)
        return TRUE;
    }
  return FALSE;
}

static void
add_note (GString *note, const char *words)
{
  g_string_append_printf (note, "%s%s", note->len > 0 ? ", " : "", words);
}

/* "drive belt installed" */
static void
add_parts (const Make *make, const char *finding_id, GString *note)
{
  gboolean some = FALSE;

  for (guint i = 0; i < make->parts->len; i++)
    {
      const HsInstalledRow *row = g_ptr_array_index (make->parts, i);

      if (g_strcmp0 (row->replaced_finding_id, finding_id) != 0)
        continue;
      add_note (note, row->what);
      some = TRUE;
    }
  if (some)
    g_string_append (note, " installed");
}

/* "Belt only, Bram Hark": the choices of this finding, or those of the job that name no finding. */
static void
add_choices (const Make *make, const char *finding_id, GString *note)
{
  gboolean named = FALSE;

  for (guint i = 0; i < make->advice->len; i++)
    named |= g_strcmp0 (((HsAdviceRow *) g_ptr_array_index (make->advice, i))->finding_id, finding_id) == 0;
  for (guint i = 0; i < make->advice->len; i++)
    {
      const HsAdviceRow *row = g_ptr_array_index (make->advice, i);

      if (g_strcmp0 (row->finding_id, named ? finding_id : NULL) != 0 || !g_str_equal (row->choice, "yes"))
        continue;
      add_note (note, row->wording);
      if (!hs_text_is_blank (row->decided_by))
        add_note (note, row->decided_by);
    }
}

static char *
say_end (const Make *make, const HsFindingRow *row)
{
  g_autoptr (GString) note = g_string_new (NULL);

  if (g_strcmp0 (row->ended, "cured") == 0)
    add_parts (make, row->id, note);
  else if (g_strcmp0 (row->ended, "chosen") == 0)
    add_choices (make, row->id, note);
  return note->len > 0 ? g_strdup (note->str) : NULL;
}

static void
put_finding (const Make *make, const HsFindingRow *row)
{
  g_autofree char *note = say_end (make, row);
  HsChainFinding finding = {
    .id = row->id,
    .what = row->what,
    .place = row->place,
    .said_by = row->said_by,
    .end_note = note,
    .role = (HsChainRole) MAX (0, hs_words_index (HS_WORDS_FINDING_ROLE, row->role)),
    .sure = (HsChainSure) MAX (0, hs_words_index (HS_WORDS_SURE, row->sure)),
    .end = (HsChainEnd) (hs_words_index (HS_WORDS_ENDED, row->ended) + 1),
    .has_proof = has_proof (make, row->id),
  };

  hs_chain_put_finding (make->made->chain, &finding);
}

/* Links of older books name the kind of proof where newer ones say how the cause led to the effect. */
static HsChainProof
proof_of (const HsBecauseRow *row, gboolean *ret_older)
{
  static const struct
  {
    const char *how;
    HsChainProof by;
  } older[] = { { "read", HS_CHAIN_BY_READING },
                { "photo", HS_CHAIN_BY_PHOTO },
                { "seen", HS_CHAIN_BY_EYE },
                { "said", HS_CHAIN_BY_WORD } };

  *ret_older = FALSE;
  for (guint i = 0; g_str_equal (row->proof_kind, "said") && i < G_N_ELEMENTS (older); i++)
    if (g_strcmp0 (row->how, older[i].how) == 0)
      {
        *ret_older = TRUE;
        return older[i].by;
      }
  return (HsChainProof) MAX (0, hs_words_index (HS_WORDS_PROOF, row->proof_kind));
}

static gboolean
put_link (const Make *make, const HsBecauseRow *row, GError **error)
{
  gboolean older;
  HsChainLink link = { .id = row->id,
                       .effect_id = row->effect_id,
                       .cause_id = row->cause_id,
                       .proof = row->proof,
                       .by = proof_of (row, &older) };

  link.how = older ? NULL : row->how;
  return hs_chain_put_link (make->made->chain, &link, error);
}

static gboolean
load_rows (Make *make, GError **error)
{
  return hs_finding_row_list_of (make->store, make->job_id, &make->findings, error)
         && hs_because_row_list_of (make->store, make->job_id, &make->links, error)
         && hs_reading_row_list_of (make->store, make->job_id, &make->readings, error)
         && hs_photo_row_list_of (make->store, make->job_id, &make->photos, error)
         && hs_advice_row_list_of (make->store, make->job_id, &make->advice, error)
         && hs_installed_row_list_of_job (make->store, make->job_id, &make->parts, error)
         && hs_line_row_list_of (make->store, make->job_id, &make->lines, error)
         && hs_disturbed_row_list_of (make->store, make->job_id, &make->looks, error);
}

/* What a yes expects is no work yet: a part counts once it is put in, work once it is priced. */
static gboolean
is_expected (const HsLineRow *line)
{
  return line->advice_line_id != NULL && line->installed_part_id == NULL;
}

/* What is on the bill as work or a part, beside what is only expected and the fee for having been called off. */
static gboolean
is_charged (const Make *make)
{
  for (guint i = 0; i < make->lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (make->lines, i);

      if (is_expected (line))
        continue;
      if (g_str_equal (line->kind, "labor") || g_str_equal (line->kind, "part") || g_str_equal (line->kind, "sundry")
          || (g_str_equal (line->kind, "call_out") && make->job->called_off_how == NULL))
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_looked_after (const Make *make)
{
  for (guint i = 0; i < make->looks->len; i++)
    if (((HsDisturbedRow *) g_ptr_array_index (make->looks, i))->done_at != HS_INSTANT_NONE)
      return TRUE;
  return FALSE;
}

/* A later one of the same check and place stands for it. */
static gboolean
is_last_after (const Make *make, guint at)
{
  const HsReadingRow *row = g_ptr_array_index (make->readings, at);

  for (guint i = at + 1; i < make->readings->len; i++)
    {
      const HsReadingRow *later = g_ptr_array_index (make->readings, i);

      if (g_str_equal (later->phase, "after") && later->not_measured_why == NULL
          && g_str_equal (later->check_id, row->check_id) && g_strcmp0 (later->place, row->place) == 0)
        return FALSE;
    }
  return g_str_equal (row->phase, "after") && row->not_measured_why == NULL;
}

/* A try that failed some of its times shows nothing, nor does a reading that is still outside. The second number of
 * other pairs is what was to be expected, and their limits say how near is near enough. */
static gboolean
check_shows (const HsReadingScene *scene, const HsReadingRow *row, gboolean *ret_shows, GError **error)
{
  g_autoptr (HsReadingResult) judged = NULL;

  if (g_str_equal (row->check_id, "starts_good") || g_str_equal (row->check_id, "tried_again"))
    {
      *ret_shows = row->of_value == HS_INT_NONE || row->value >= row->of_value;
      return TRUE;
    }
  judged = hs_reading_judge_row (scene, row, error);
  if (judged == NULL)
    return FALSE;
  *ret_shows = g_strcmp0 (judged->verdict, "outside") != 0;
  return TRUE;
}

/* By a photo that was taken afterwards, or a reading. */
static gboolean
check_shown (const Make *make, gboolean *ret_shown, GError **error)
{
  g_auto (HsReadingGround) ground = { 0 };
  const HsReadingScene scene = { make->book, make->job->vehicle_id, make->readings, &ground };

  *ret_shown = FALSE;
  for (guint i = 0; i < make->photos->len && !*ret_shown; i++)
    *ret_shown = g_strcmp0 (((HsPhotoRow *) g_ptr_array_index (make->photos, i))->phase, "after") == 0;
  for (guint i = 0; i < make->readings->len && !*ret_shown; i++)
    if (is_last_after (make, i) && !check_shows (&scene, g_ptr_array_index (make->readings, i), ret_shown, error))
      return FALSE;
  return TRUE;
}

static void
fill_made (HsJobChain *made, const HsTongue *in)
{
  g_autoptr (GError) open = NULL;

  made->rows = hs_chain_lay_out (made->chain);
  made->tips = hs_chain_list_tips (made->chain);
  made->sentences = hs_chain_list_sentences (made->chain, in);
  if (!hs_chain_check_settled (made->chain, &open))
    made->open = g_strdup (open->message);
}

HsJobChain *
hs_job_chain_load (HsBook *book, const char *job_id, GError **error)
{
  g_auto (Make) make = { .book = book, .store = hs_book_get_store (book), .job_id = job_id };
  gboolean shown;

  if (!hs_job_row_load (make.store, job_id, &make.job, error) || !load_rows (&make, error)
      || !check_shown (&make, &shown, error))
    return NULL;
  make.made = g_new0 (HsJobChain, 1);
  make.made->chain = hs_chain_new ();
  make.made->words = g_strdup (make.job->words);
  for (guint i = 0; i < make.findings->len; i++)
    put_finding (&make, g_ptr_array_index (make.findings, i));
  for (guint i = 0; i < make.links->len; i++)
    if (!put_link (&make, g_ptr_array_index (make.links, i), error))
      return NULL;
  hs_chain_set_work (make.made->chain, make.parts->len > 0 || is_charged (&make) || is_looked_after (&make), shown);
  fill_made (make.made, hs_book_get_tongue (book));
  return g_steal_pointer (&make.made);
}
