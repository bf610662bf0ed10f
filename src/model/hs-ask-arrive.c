// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is asked of the book on arriving: made safe, identified, asked, noted, and the clock. Read at once, so that a
 * page never shows two moments. */

#include "hs-ask-arrive.h"

#include "hs-call-off.h"
#include "hs-words.h"

void
hs_arrival_free (HsArrival *arrival)
{
  if (arrival == NULL)
    return;
  g_clear_pointer (&arrival->safety, hs_safety_sheet_free);
  g_clear_pointer (&arrival->identity, hs_identity_free);
  g_clear_pointer (&arrival->visits, g_ptr_array_unref);
  g_clear_pointer (&arrival->questions, g_ptr_array_unref);
  g_clear_pointer (&arrival->notes, g_ptr_array_unref);
  g_free (arrival);
}

HsArrival *
hs_arrival_load (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  g_autoptr (HsArrival) arrival = g_new0 (HsArrival, 1);

  arrival->now = now;
  if ((arrival->safety = hs_safety_sheet_load (book, job_id, error)) == NULL
      || (arrival->identity = hs_identity_load (book, job_id, error)) == NULL
      || (arrival->visits = hs_visit_view_list (book, job_id, now, error)) == NULL
      || (arrival->questions = hs_job_interview_load (book, job_id, error)) == NULL
      || (arrival->notes = hs_model_note_list (book, job_id, error)) == NULL)
    return NULL;
  return g_steal_pointer (&arrival);
}

const HsVisitView *
hs_arrival_open_visit (const HsArrival *arrival)
{
  for (guint i = arrival->visits->len; i > 0; i--)
    {
      const HsVisitView *view = g_ptr_array_index (arrival->visits, i - 1);

      if (hs_visit_view_is_open (view))
        return view;
    }
  return NULL;
}

gpointer
hs_ask_arrival (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  return hs_arrival_load (book, job_id, now, error);
}

gpointer
hs_ask_interview (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  return hs_data_load_interview (error);
}

gpointer
hs_ask_call_off_fees (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autofree HsCallOffFees *fees = g_new0 (HsCallOffFees, 1);
  gsize n_words;
  const HsWord *words = hs_words_get (HS_WORDS_CALLED_OFF_HOW, &n_words);

  g_assert (n_words == G_N_ELEMENTS (fees->cents));
  for (gsize i = 0; i < n_words; i++)
    if (!hs_call_off_fee (book, words[i].id, &fees->cents[i], error))
      return NULL;
  return g_steal_pointer (&fees);
}
