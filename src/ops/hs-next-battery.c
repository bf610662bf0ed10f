// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What to say of the battery while the job has not put in another: recharge or replace, with the minutes of the cause
 * models and what the part costs; and where the vehicle draws too much asleep, that no new battery cures that. */

#include "hs-find.h"
#include "hs-installed-row.h"
#include "hs-money-row.h"
#include "hs-money.h"
#include "hs-next-private.h"
#include "hs-ops-private.h"
#include "hs-say.h"

#include <math.h>

#define FLAT_CAUSE "battery_flat"

gboolean
hs_next_has_battery (const HsNextScene *scene)
{
  for (guint i = 0; i < scene->parts->len; i++)
    if (g_strcmp0 (((const HsInstalledRow *) g_ptr_array_index (scene->parts, i))->kind, "battery") == 0)
      return TRUE;
  return FALSE;
}

static int
find_cause (const HsCauseModel *model, const char *id)
{
  for (guint i = 0; i < hs_cause_model_get_n_causes (model); i++)
    if (g_str_equal (hs_cause_model_get_cause (model, i)->id, id))
      return (int) i;
  return -1;
}

/* The first model that has both. */
static const HsCauseGuide *
find_guide (GPtrArray *guides, int *ret_flat, int *ret_worn)
{
  for (guint i = 0; i < guides->len; i++)
    {
      const HsCauseModel *model = hs_cause_guide_get_model (g_ptr_array_index (guides, i));

      *ret_flat = find_cause (model, FLAT_CAUSE);
      *ret_worn = find_cause (model, HS_NEXT_WORN_CAUSE);
      if (*ret_flat >= 0 && *ret_worn >= 0)
        return g_ptr_array_index (guides, i);
    }
  return NULL;
}

/* The latest reading of @check that is not of the repaired vehicle, judged; %NULL if there is none. */
static gboolean
find_reading (HsNextScene *scene, const char *check, const HsReadingResult **ret_judged, GError **error)
{
  *ret_judged = NULL;
  for (guint i = scene->readings->len; i > 0; i--)
    {
      const HsReadingRow *row = g_ptr_array_index (scene->readings, i - 1);

      if (g_str_equal (row->check_id, check) && !g_str_equal (row->phase, "after"))
        return hs_next_judge (scene, row, ret_judged, error);
    }
  return TRUE;
}

/* Whether any of the checks that tell of the battery finds fault with it. */
static gboolean
is_wanting (HsNextScene *scene, gboolean *ret_wanting, GError **error)
{
  static const char *const checks[] = { "battery_rest", "battery_strength", "battery_health", "load_test" };

  *ret_wanting = FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (checks); i++)
    {
      const HsReadingResult *judged;

      if (!find_reading (scene, checks[i], &judged, error))
        return FALSE;
      *ret_wanting = *ret_wanting
                     || (judged != NULL && (g_strcmp0 (judged->verdict, "watch") == 0
                                            || g_strcmp0 (judged->verdict, "outside") == 0));
    }
  return TRUE;
}

/* --- A draw that no new battery cures ---------------------------------------------------------------------------- */

/* What the battery that is on it cost, all in; "" if that was another owner's, or is not known. */
static gboolean
find_price (HsNextScene *scene, const HsBatteryFact *fact, char **ret_price, GError **error)
{
  HsStore *store = hs_book_get_store (scene->book);
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (GPtrArray) invoices = NULL;
  g_autoptr (GError) failure = NULL;

  *ret_price = g_strdup ("");
  if (fact == NULL || fact->job_number == NULL)
    return TRUE;
  if (!hs_job_row_find (store, fact->job_number, &job, &failure))
    return hs_ops_only_missing (&failure, error);
  if (!hs_invoice_row_list_of (store, job->id, &invoices, error))
    return FALSE;
  if (invoices->len > 0 && g_strcmp0 (job->customer_id, scene->job->customer_id) == 0)
    {
      const HsInvoiceRow *invoice = g_ptr_array_index (invoices, 0);
      g_autofree char *money = hs_money_format (invoice->total_cents, hs_book_get_currency (scene->book));

      g_free (*ret_price);
      *ret_price = g_strdup_printf (" (%s)", money);
    }
  return TRUE;
}

static char *
say_cover (const HsBatteryFact *fact, HsDate today)
{
  g_autofree char *words = NULL;

  if (fact == NULL || fact->warranty_until == HS_DATE_NONE)
    return g_strdup ("");
  if (fact->warranty_until < today)
    {
      words = hs_say_ended (fact->warranty_until, today);
      return g_strdup_printf ("The battery's cover ended %s. ", words);
    }
  words = hs_say_day_full (fact->warranty_until);
  return g_strdup_printf ("The battery is covered until %s. ", words);
}

/* @words: (inout): gets what there is to say of a draw above its limit. */
static gboolean
say_draw (HsNextScene *scene, HsDate today, GString *words, GError **error)
{
  g_autoptr (HsBatteryFact) fact = NULL;
  g_autofree char *price = NULL;
  g_autofree char *cover = NULL;
  g_autoptr (GError) failure = NULL;
  const HsReadingResult *draw;

  if (!find_reading (scene, "sleeping_draw", &draw, error))
    return FALSE;
  if (draw == NULL || g_strcmp0 (draw->verdict, "outside") != 0)
    return TRUE;
  if (scene->job->vehicle_id != NULL)
    fact = hs_battery_fact_load (scene->book, scene->job->vehicle_id, today, &failure);
  if (failure != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&failure));
      return FALSE;
    }
  if (!find_price (scene, fact, &price, error))
    return FALSE;
  cover = say_cover (fact, today);
  g_string_append_printf (words, scene->in->gettext ("%sReplacing it%s would not cure a draw of %s%s%s%s."), cover,
                          price, draw->value_text,
                          draw->note != NULL ? " (" : "", draw->note != NULL ? draw->note : "",
                          draw->note != NULL ? ")" : "");
  return TRUE;
}

/* --- Two ways out ------------------------------------------------------------------------------------------------ */

/* @worth: replacing it is worth a word. */
static void
say_ways (HsNextScene *scene, GPtrArray *guides, gboolean worth, GString *words)
{
  int flat, worn;
  const HsCauseGuide *guide = find_guide (guides, &flat, &worn);
  const HsCauseModel *model = guide != NULL ? hs_cause_guide_get_model (guide) : NULL;
  g_autofree char *price = NULL;

  if (guide == NULL)
    return;
  g_string_append_printf (words, scene->in->gettext ("%sRecharge it and test it again: about %d min."),
                          words->len > 0 ? " " : "",
                          (int) lround (hs_cause_model_get_cause (model, (guint) flat)->repair_minutes));
  if (!worth)
    return;
  price = hs_money_format (hs_cause_guide_get_cause (guide, (guint) worn)->repair_cents,
                           hs_book_get_currency (scene->book));
  g_string_append_printf (words,
                          scene->in->gettext (" Or replace it: about %d min, and about %s for the battery (%s)."),
                          (int) lround (hs_cause_model_get_cause (model, (guint) worn)->repair_minutes), price,
                          scene->in->gettext (hs_cause_guide_get_cause (guide, (guint) worn)->source));
}

gboolean
hs_next_battery (HsNextScene *scene, GPtrArray *guides, HsDate today, char **ret_words, GError **error)
{
  g_autoptr (GString) words = g_string_new (NULL);
  gboolean wanting;

  *ret_words = NULL;
  /* What was read before was another one. */
  if (hs_next_has_battery (scene))
    return TRUE;
  if (!is_wanting (scene, &wanting, error) || !say_draw (scene, today, words, error))
    return FALSE;
  if (wanting)
    say_ways (scene, guides, words->len == 0, words);
  *ret_words = words->len > 0 ? g_string_free (g_steal_pointer (&words), FALSE) : NULL;
  return TRUE;
}
