// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Picks out of a job what its customer may see. Whose words are quoted is left out where it is not the one who stands
 * there: in place of a name it says that somebody said so. Reads only. */

#include "hs-customer-shot.h"

#include "hs-board.h"
#include "hs-chain-op.h"
#include "hs-choice-op.h"
#include "hs-decimal.h"
#include "hs-job-op.h"
#include "hs-job-row.h"
#include "hs-reading-private.h"
#include "hs-text.h"
#include "hs-vehicle-row.h"

#include <string.h>

static void
scale_free (HsCustomerScale *scale)
{
  if (scale == NULL)
    return;
  g_array_unref (scale->bands);
  g_free (scale);
}

static void
reading_free (HsCustomerReading *reading)
{
  char **texts[] = { &reading->name,        &reading->place,       &reading->before,        &reading->before_verdict,
                     &reading->before_word, &reading->before_note, &reading->after,         &reading->after_verdict,
                     &reading->after_word,  &reading->after_note };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_free (*texts[i]);
  scale_free (reading->scale);
  g_free (reading);
}

static void
choice_free (HsCustomerChoice *choice)
{
  g_free (choice->id);
  g_free (choice->rank);
  g_free (choice->wording);
  g_free (choice->risk);
  g_free (choice->choice);
  g_free (choice);
}

void
hs_customer_shot_free (HsCustomerShot *shot)
{
  if (shot == NULL)
    return;
  g_free (shot->number);
  g_free (shot->plate);
  g_free (shot->vehicle);
  g_free (shot->words);
  g_free (shot->signer);
  g_ptr_array_unref (shot->readings);
  g_ptr_array_unref (shot->why);
  g_ptr_array_unref (shot->choices);
  g_free (shot);
}

static HsCustomerShot *
shot_new (void)
{
  HsCustomerShot *shot = g_new0 (HsCustomerShot, 1);

  shot->readings = g_ptr_array_new_with_free_func ((GDestroyNotify) reading_free);
  shot->why = g_ptr_array_new_with_free_func (g_free);
  shot->choices = g_ptr_array_new_with_free_func ((GDestroyNotify) choice_free);
  shot->day = HS_DATE_NONE;
  return shot;
}

/* Readings --------------------------------------------------------------------------------------------------------- */

/* The row of a check at a place; what is read again later stands for what was read before. */
static HsCustomerReading *
reading_for (HsCustomerShot *shot, const HsReadingResult *result)
{
  HsCustomerReading *reading;

  for (guint i = 0; i < shot->readings->len; i++)
    {
      reading = g_ptr_array_index (shot->readings, i);
      if (g_str_equal (reading->name, result->name) && g_strcmp0 (reading->place, result->place) == 0)
        return reading;
    }
  reading = g_new0 (HsCustomerReading, 1);
  reading->name = g_strdup (result->name);
  reading->place = g_strdup (result->place);
  g_ptr_array_add (shot->readings, reading);
  return reading;
}

static void
set (char **field, const char *text)
{
  g_free (*field);
  *field = g_strdup (text);
}

static void
add_reading (HsCustomerShot *shot, const HsReadingResult *result)
{
  HsCustomerReading *reading;
  gboolean after = g_strcmp0 (result->phase, "after") == 0;

  if (result->value_text == NULL)
    return;
  reading = reading_for (shot, result);
  if (g_strcmp0 (result->phase, "during") == 0 && reading->before != NULL)
    return;
  set (after ? &reading->after : &reading->before, result->value_text);
  set (after ? &reading->after_verdict : &reading->before_verdict, result->verdict);
  set (after ? &reading->after_word : &reading->before_word, result->word);
  set (after ? &reading->after_note : &reading->before_note, result->note);
}

static void
band_clear (gpointer data)
{
  g_free (((HsCustomerBand *) data)->limit);
}

static double
unscaled (const HsCheck *check, gint64 value)
{
  return (double) value / (double) hs_decimal_power (check->decimals);
}

static void
add_band (HsCustomerScale *scale, const HsCheck *check, const HsCheckBand *from)
{
  gboolean last = from->high == G_MAXINT64 || unscaled (check, from->high) >= scale->to;
  HsCustomerBand band = { from->verdict, last ? scale->to : unscaled (check, from->high), NULL };

  if (band.to <= scale->from)
    return;
  band.limit = last ? NULL : hs_decimal_format_short (from->high, check->decimals);
  g_array_append_val (scale->bands, band);
}

/* The scale of the reading afterwards, or of the only one; @before (nullable) stands on it too. */
static gboolean
fill_scale (const HsReadingScene *scene, const HsReadingResult *result, const HsReadingResult *before,
            HsCustomerReading *reading, GError **error)
{
  HsCustomerScale scale = { .now = result->value };
  g_autoptr (GArray) bands = NULL;
  const HsCheck *check;

  if (!hs_reading_dup_bands (scene, result->id, &check, &bands, error))
    return FALSE;
  scale.has_before = before != NULL;
  scale.before = before != NULL ? before->value : 0;
  if (bands->len == 0 || !hs_check_get_scale (check, bands, &scale.now, &scale.from, &scale.to))
    return TRUE;
  scale.logarithmic = check->log_scale && scale.from > 0;
  scale.bands = g_array_new (FALSE, FALSE, sizeof (HsCustomerBand));
  g_array_set_clear_func (scale.bands, band_clear);
  for (guint i = 0; i < bands->len; i++)
    add_band (&scale, check, &g_array_index (bands, HsCheckBand, i));
  reading->scale = g_memdup2 (&scale, sizeof scale);
  return TRUE;
}

/* The last number of @reading in a phase: taken again, it stands for the earlier one. */
static const HsReadingResult *
last_of (HsCustomerShot *shot, const HsJobView *view, const HsCustomerReading *reading, const char *phase)
{
  const HsReadingResult *last = NULL;

  for (guint i = 0; i < view->readings->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (view->readings, i);

      if (result->has_value && g_str_equal (result->phase, phase) && reading_for (shot, result) == reading)
        last = result;
    }
  return last;
}

static gboolean
fill_scales (HsCustomerShot *shot, HsBook *book, const char *job_id, const HsJobView *view, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_auto (HsReadingGround) ground = { 0 };
  g_autoptr (GPtrArray) rows = NULL;
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error) || !hs_reading_row_list_of (store, job_id, &rows, error))
    return FALSE;
  HsReadingScene scene = { book, job->vehicle_id, rows, &ground };
  for (guint i = 0; i < shot->readings->len; i++)
    {
      HsCustomerReading *reading = g_ptr_array_index (shot->readings, i);
      const HsReadingResult *before = last_of (shot, view, reading, "before");
      const HsReadingResult *after = last_of (shot, view, reading, "after");

      if (after == NULL && before == NULL)
        continue;
      if (!fill_scale (&scene, after != NULL ? after : before, after != NULL ? before : NULL, reading, error))
        return FALSE;
    }
  return TRUE;
}

static void
fill_job (HsCustomerShot *shot, const HsJobView *view)
{
  const HsBoardRow *tag = view->tag;

  shot->number = g_strdup (tag->number);
  shot->plate = g_strdup (tag->plate);
  shot->vehicle = g_strdup (tag->vehicle);
  shot->words = g_strdup (tag->words);
  shot->day = tag->day;
  shot->signer = g_strdup (tag->customer);
  shot->may_sign = tag->stage != HS_STAGE_SQUARED;
  for (guint i = 0; i < view->readings->len; i++)
    add_reading (shot, g_ptr_array_index (view->readings, i));
}

/* Why it failed ---------------------------------------------------------------------------------------------------- */

/* How people are spoken to says nothing about who they are; as hs_text_words() gives it. */
static const char *const titles[] = { "mr", "mrs", "ms", "miss", "dr", NULL };

/* Every word of it is the customer's: a half of the name is enough, or the boss of a firm that has it. A word that the
 * customer's name lacks makes it somebody else: neighbors and relatives have the same surname. */
static gboolean
is_own_name (const char *name, const char *customer)
{
  g_auto (GStrv) words = hs_text_words (name);
  g_auto (GStrv) own = hs_text_words (customer);
  guint n_own = 0;

  for (guint i = 0; words[i] != NULL; i++)
    {
      if (g_strv_contains (titles, words[i]))
        continue;
      if (!g_strv_contains ((const char *const *) own, words[i]))
        return FALSE;
      n_own++;
    }
  return n_own > 0;
}

static gboolean
stands_alone (const char *text, const char *at, gsize length)
{
  return (at == text || !g_unichar_isalnum (g_utf8_get_char (g_utf8_prev_char (at))))
         && !g_unichar_isalnum (g_utf8_get_char (at + length));
}

/* A name is taken out as a whole word; a short one may be a part of many. */
static char *
without_name (const char *text, const char *name, const HsTongue *in)
{
  g_autoptr (GString) without = g_string_new (NULL);
  gsize length = strlen (name);
  const char *rest = text;
  const char *at;

  for (const char *from = text; (at = strstr (from, name)) != NULL; from = at + length)
    if (stands_alone (text, at, length))
      {
        g_string_append_len (without, rest, at - rest);
        g_string_append (without, in->gettext ("somebody"));
        rest = at + length;
      }
  g_string_append (without, rest);
  return g_string_free (g_steal_pointer (&without), FALSE);
}

static int
compare_lengths (gconstpointer a, gconstpointer b)
{
  gsize one = strlen (*(const char *const *) a), other = strlen (*(const char *const *) b);

  return one < other ? 1 : one > other ? -1 : 0;
}

/* What somebody is to the vehicle or to the customer, as hs_text_words() gives it: no name, and some of it is what a
 * part is called by as well. */
static const char *const roles[] = {
  "a",        "an",         "the",       "my",      "his",        "her",       "their",    "our",       "of",
  "from",     "at",         "and",       "or",      "last",       "former",    "other",    "another",   "young",
  "old",      "driver",     "drivers",   "owner",   "owners",     "keeper",    "user",     "passenger", "customer",
  "caller",   "neighbor",   "neighbour", "friend",  "wife",       "husband",   "partner",  "son",       "daughter",
  "father",   "mother",     "parents",   "brother", "sister",     "uncle",     "aunt",     "boss",      "manager",
  "fleet",    "office",     "foreman",   "helper",  "colleague",  "coworker",  "clerk",    "secretary", "dispatcher",
  "mechanic", "technician", "fitter",    "shop",    "garage",     "dealer",    "seller",   "supplier",  "counter",
  "tow",      "truck",      "operator",  "police",  "officer",    "guard",     "landlord", "caretaker", "farmer",
  "man",      "woman",      "somebody",  "someone", "bystander",  "witness",   "company",  "insurer",   "agent",
  NULL,
};

static gboolean
is_role (const char *name)
{
  g_auto (GStrv) words = hs_text_words (name);

  for (guint i = 0; words[i] != NULL; i++)
    if (!g_strv_contains (roles, words[i]))
      return FALSE;
  return words[0] != NULL;
}

static void
add_other (GPtrArray *names, const char *name, const char *customer)
{
  if (!hs_text_is_blank (name) && !is_own_name (name, customer) && !is_role (name))
    g_ptr_array_add (names, (gpointer) name);
}

/* Whoever else said or decided something, long names first: one may begin with another. */
static GPtrArray *
list_others (const HsChain *chain, const HsJobChoices *choices, const char *customer)
{
  GPtrArray *names = g_ptr_array_new ();

  for (guint i = 0; i < hs_chain_get_n_findings (chain); i++)
    add_other (names, hs_chain_get_finding (chain, i)->said_by, customer);
  for (guint i = 0; i < choices->choices->len; i++)
    add_other (names, ((const HsChoice *) g_ptr_array_index (choices->choices, i))->by, customer);
  g_ptr_array_sort (names, compare_lengths);
  return names;
}

/* One word that is written small may be a name all the same, or any word: of the words of an option it stays a part. */
static gboolean
is_name (const char *name)
{
  g_auto (GStrv) words = hs_text_words (name);

  for (const char *at = name; *at != '\0'; at = g_utf8_next_char (at))
    if (g_unichar_isupper (g_utf8_get_char (at)))
      return TRUE;
  return g_strv_length (words) > 1;
}

static GPtrArray *
list_names (GPtrArray *others)
{
  GPtrArray *names = g_ptr_array_new ();

  for (guint i = 0; i < others->len; i++)
    if (is_name (g_ptr_array_index (others, i)))
      g_ptr_array_add (names, g_ptr_array_index (others, i));
  return names;
}

static char *
without_names (const char *text, GPtrArray *others, const HsTongue *in)
{
  char *kept = g_strdup (text);

  for (guint k = 0; kept != NULL && k < others->len; k++)
    {
      g_autofree char *named = kept;

      kept = without_name (named, g_ptr_array_index (others, k), in);
    }
  return kept;
}

/* What somebody else said stays said, but not by whom. */
static void
fill_why (HsCustomerShot *shot, const HsJobChain *job, GPtrArray *others, const HsTongue *in)
{
  for (guint i = 0; i < job->sentences->len; i++)
    g_ptr_array_add (shot->why, without_names (g_ptr_array_index (job->sentences, i), others, in));
}

/* Choices ---------------------------------------------------------------------------------------------------------- */

static void
add_choice (HsCustomerShot *shot, const HsChoice *from, GPtrArray *names, const HsTongue *in)
{
  HsCustomerChoice *choice = g_new0 (HsCustomerChoice, 1);

  choice->number = from->number;
  choice->id = g_strdup (from->id);
  choice->rank = g_strdup (from->rank);
  choice->wording = without_names (from->wording, names, in);
  choice->risk = from->no_risk ? NULL : without_names (from->risk, names, in);
  choice->asked_cents = from->price_cents;
  choice->choice = g_strdup (from->choice);
  choice->would_cents = from->would_cents;
  choice->would_short_cents = from->would_short_cents;
  g_ptr_array_add (shot->choices, choice);
}

static void
fill_choices (HsCustomerShot *shot, const HsJobChoices *choices, GPtrArray *others, const HsTongue *in)
{
  g_autoptr (GPtrArray) names = list_names (others);

  for (guint i = 0; i < choices->choices->len; i++)
    add_choice (shot, g_ptr_array_index (choices->choices, i), names, in);
  shot->total_cents = choices->room->total_cents;
  shot->ceiling_cents = choices->room->given ? choices->room->ceiling_cents : HS_INT_NONE;
  shot->short_cents = choices->room->given ? choices->room->short_cents : 0;
}

HsCustomerShot *
hs_customer_shot_load (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  g_autoptr (HsCustomerShot) shot = shot_new ();
  g_autoptr (HsJobView) view = hs_job_view_load (book, job_id, now, error);
  g_autoptr (HsJobChain) chain = view == NULL ? NULL : hs_job_chain_load (book, job_id, error);
  g_autoptr (HsJobChoices) choices = chain == NULL ? NULL : hs_job_choices_load (book, job_id, now, error);
  g_autoptr (GPtrArray) others = NULL;

  if (choices == NULL)
    return NULL;
  fill_job (shot, view);
  shot->n_unpriced = view->n_unpriced;
  if (!fill_scales (shot, book, job_id, view, error))
    return NULL;
  others = list_others (chain->chain, choices, shot->signer);
  fill_why (shot, chain, others, hs_book_get_tongue (book));
  fill_choices (shot, choices, others, hs_book_get_tongue (book));
  return g_steal_pointer (&shot);
}
