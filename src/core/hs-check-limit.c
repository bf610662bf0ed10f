// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One `[limit …]` section of the catalog: the scale of a check under given conditions. Refuses a scale whose
 * numbers do not rise, a stretch without a sentence, and any key that means nothing. */

#include "hs-check-private.h"
#include "hs-core-error.h"
#include "hs-decimal.h"

#define MOST_BANDS 9

static const char *const known_keys[] = {
  "when",   "bands", "verdicts", "steps", "makers", "limit", "source", "tag",
  "invalid", "why#", "next#",    "word#", "drive#", "then#", NULL,
};

/* How sure a limit is, in the words that are shown beside it. */
static const char *const known_tags[] = {
  "official text", "secondary text", "derived", "common practice", "memory", NULL,
};

static void
band_clear (gpointer data)
{
  HsLimitBand *band = data;

  g_free (band->word);
  g_free (band->why);
  g_free (band->next);
  g_strfreev (band->then);
}

void
hs_limit_free (HsLimit *limit)
{
  if (limit == NULL)
    return;
  g_clear_pointer (&limit->when, g_array_unref);
  g_clear_pointer (&limit->cuts, g_array_unref);
  g_clear_pointer (&limit->bands, g_array_unref);
  g_clear_pointer (&limit->steps, g_array_unref);
  g_clear_pointer (&limit->makers, g_array_unref);
  g_free (limit->name);
  g_free (limit->limit);
  g_free (limit->source);
  g_free (limit->tag);
  g_free (limit);
}

static gboolean
cut_parse (const char *text, guint decimals, GArray *cuts, GError **error)
{
  HsLimitCut cut = { HS_CUT_VALUE, 0 };

  if (g_str_equal (text, "step"))
    cut.kind = HS_CUT_STEP;
  else if (g_str_equal (text, "line"))
    cut.kind = HS_CUT_LINE;
  else if (!hs_decimal_parse (text, decimals, &cut.value, error))
    return FALSE;
  if (cut.kind == HS_CUT_VALUE && cuts->len > 0)
    {
      const HsLimitCut *before = &g_array_index (cuts, HsLimitCut, cuts->len - 1);

      if (before->kind == HS_CUT_VALUE && before->value >= cut.value)
        {
          g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                       "the numbers must rise from left to right, and %s does not", text);
          return FALSE;
        }
    }
  g_array_append_val (cuts, cut);
  return TRUE;
}

/* `outside 13.0 watch 13.5 within`: a verdict, then number and verdict as often as needed. */
static gboolean
bands_parse (const char *text, guint decimals, HsLimit *limit, GError **error)
{
  g_auto (GStrv) words = g_strsplit_set (text, " \t", -1);
  gboolean verdict_next = TRUE;

  for (guint i = 0; words[i] != NULL; i++)
    {
      HsLimitBand band = { 0 };

      if (*words[i] == '\0')
        continue;
      if (!verdict_next && !cut_parse (words[i], decimals, limit->cuts, error))
        return FALSE;
      if (verdict_next && !hs_verdict_parse (words[i], &band.verdict, error))
        return FALSE;
      if (verdict_next)
        g_array_append_val (limit->bands, band);
      verdict_next = !verdict_next;
    }
  if (verdict_next || limit->bands->len > MOST_BANDS)
    {
      g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                           "it must start and end with a verdict and have nine of them at most");
      return FALSE;
    }
  return TRUE;
}

/* `-18 8.5; -12 8.7`: degrees Celsius and value, both rising. */
static gboolean
steps_parse (const char *text, guint decimals, GArray *steps, GError **error)
{
  g_auto (GStrv) rows = g_strsplit (text, ";", -1);

  for (guint i = 0; rows[i] != NULL; i++)
    {
      g_auto (GStrv) pair = g_strsplit (g_strstrip (rows[i]), " ", 2);
      HsLimitStep step;

      if (*rows[i] == '\0')
        continue;
      if (g_strv_length (pair) != 2 || !hs_decimal_parse (pair[0], 0, &step.celsius, NULL)
          || !hs_decimal_parse (pair[1], decimals, &step.value, NULL))
        {
          g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                       "“%s” is not a row of the table: write degrees Celsius, a blank and the value", rows[i]);
          return FALSE;
        }
      if (steps->len > 0 && g_array_index (steps, HsLimitStep, steps->len - 1).celsius >= step.celsius)
        {
          g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "the degrees must rise");
          return FALSE;
        }
      g_array_append_val (steps, step);
    }
  return TRUE;
}

static gboolean
makers_parse (const char *text, guint decimals, GArray *makers, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", -1);

  for (guint i = 0; parts[i] != NULL; i++)
    {
      gint64 value;

      if (*g_strstrip (parts[i]) == '\0')
        continue;
      if (!hs_decimal_parse (parts[i], decimals, &value, error))
        return FALSE;
      g_array_append_val (makers, value);
    }
  return TRUE;
}

static char *
dup_numbered (GKeyFile *file, const char *section, const char *stem, guint number)
{
  g_autofree char *key = g_strdup_printf ("%s%u", stem, number);

  return hs_key_file_dup_text (file, section, key);
}

/* `then1=charging; ripple`: ids of checks; NULL if there are none. */
static char **
dup_ids (GKeyFile *file, const char *section, guint number)
{
  g_autofree char *text = dup_numbered (file, section, "then", number);

  return text == NULL ? NULL : hs_ids_split (text);
}

/* The sentences of the bands; each needs a why. */
static gboolean
sentences_read (GKeyFile *file, const char *section, HsLimit *limit, GError **error)
{
  for (guint i = 0; i < limit->bands->len; i++)
    {
      HsLimitBand *band = &g_array_index (limit->bands, HsLimitBand, i);
      g_autofree char *drive = dup_numbered (file, section, "drive", i + 1);

      band->why = dup_numbered (file, section, "why", i + 1);
      band->next = dup_numbered (file, section, "next", i + 1);
      band->word = dup_numbered (file, section, "word", i + 1);
      band->then = dup_ids (file, section, i + 1);
      if (band->why == NULL)
        return hs_key_file_refuse (error, section, "there are %u verdicts, so there must be a sentence “why%u”",
                                   limit->bands->len, i + 1);
      if (drive != NULL && !g_str_equal (drive, "no"))
        return hs_key_file_refuse (error, section, "“drive%u” may only be “no”", i + 1);
      band->do_not_drive = drive != NULL;
    }
  return TRUE;
}

static gboolean
tag_check (const char *section, const char *tag, GError **error)
{
  if (g_strv_contains (known_tags, tag))
    return TRUE;
  return hs_key_file_refuse (error, section, "“tag” must be official text, secondary text, derived, common practice "
                                             "or memory, not “%s”", tag);
}

static gboolean
asks_temperature (const HsLimit *limit)
{
  for (guint i = 0; i < limit->when->len; i++)
    {
      const HsWhen *when = &g_array_index (limit->when, HsWhen, i);

      if (when->key == HS_CONDITION_TEMPERATURE && !when->unknown)
        return TRUE;
    }
  return FALSE;
}

/* A scale that asks the table by temperature must have it, and a temperature to look up in it. */
static gboolean
steps_check (const char *section, const HsLimit *limit, GError **error)
{
  for (guint i = 0; i < limit->cuts->len; i++)
    if (g_array_index (limit->cuts, HsLimitCut, i).kind != HS_CUT_VALUE && limit->steps->len == 0)
      return hs_key_file_refuse (error, section, "“bands” names step or line, so there must be “steps”");
  if (limit->steps->len > 0 && !asks_temperature (limit))
    return hs_key_file_refuse (error, section, "“steps” need a “when” with temperature, one that is known");
  return TRUE;
}

typedef gboolean (*ListParse) (const char *text, guint decimals, GArray *list, GError **error);

static gboolean
list_read (GKeyFile *file, const char *section, const char *key, ListParse parse, guint decimals, GArray *list,
           GError **error)
{
  g_autofree char *text = hs_key_file_dup_text (file, section, key);

  if (text == NULL || parse (text, decimals, list, error))
    return TRUE;
  g_prefix_error (error, "[%s] “%s”: ", section, key);
  return FALSE;
}

/* `outside outside watch within`: one for each answer of a choice. */
static gboolean
verdicts_parse (const char *text, guint n_answers, HsLimit *limit, GError **error)
{
  g_auto (GStrv) words = g_strsplit_set (text, " \t", -1);

  for (guint i = 0; words[i] != NULL; i++)
    {
      HsLimitBand band = { 0 };

      if (*words[i] == '\0')
        continue;
      if (!hs_verdict_parse (words[i], &band.verdict, error))
        return FALSE;
      g_array_append_val (limit->bands, band);
    }
  if (limit->bands->len == n_answers)
    return TRUE;
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "there are %u answers, so there must be %u verdicts",
               n_answers, n_answers);
  return FALSE;
}

static gboolean
bands_read (GKeyFile *file, const char *section, const HsCheckRecord *record, HsLimit *limit, GError **error)
{
  gboolean is_choice = record->shown.entry == HS_CHECK_CHOICE;
  const char *key = is_choice ? "verdicts" : "bands";
  g_autofree char *text = hs_key_file_dup_needed (file, section, key, error);
  gboolean parsed;

  if (text == NULL)
    return FALSE;
  if (g_key_file_has_key (file, section, is_choice ? "bands" : "verdicts", NULL))
    return hs_key_file_refuse (error, section, "a choice has “verdicts”, everything else has “bands”");
  parsed = is_choice ? verdicts_parse (text, g_strv_length ((char **) record->shown.answers), limit, error)
                     : bands_parse (text, hs_check_scale_decimals (record), limit, error);
  if (!parsed)
    g_prefix_error (error, "[%s] “%s”: ", section, key);
  else if (record->shown.entry == HS_CHECK_TEXT && limit->cuts->len > 0)
    return hs_key_file_refuse (error, section, "“bands” of a text is one verdict without a number");
  return parsed;
}

static gboolean
invalid_read (GKeyFile *file, const char *section, HsLimit *limit, GError **error)
{
  g_autofree char *text = hs_key_file_dup_text (file, section, "invalid");

  if (text != NULL && !g_str_equal (text, "yes"))
    return hs_key_file_refuse (error, section, "“invalid” may only be “yes”");
  limit->invalid = text != NULL;
  for (guint i = 0; limit->invalid && i < limit->bands->len; i++)
    if (g_array_index (limit->bands, HsLimitBand, i).verdict != HS_VERDICT_CANNOT_TELL)
      return hs_key_file_refuse (error, section, "a test that is not valid has the verdict cannot_tell alone");
  return TRUE;
}

static gboolean
scale_read (GKeyFile *file, const char *section, const HsCheckRecord *record, HsLimit *limit, GError **error)
{
  guint decimals = hs_check_scale_decimals (record);
  g_autofree char *when = hs_key_file_dup_text (file, section, "when");

  limit->when = hs_when_parse (when != NULL ? when : "", error);
  if (limit->when == NULL)
    {
      g_prefix_error (error, "[%s] “when”: ", section);
      return FALSE;
    }
  return bands_read (file, section, record, limit, error) && invalid_read (file, section, limit, error)
         && list_read (file, section, "steps", steps_parse, decimals, limit->steps, error)
         && list_read (file, section, "makers", makers_parse, decimals, limit->makers, error);
}

HsLimit *
hs_limit_new_from_key_file (GKeyFile *file, const char *section, const HsCheckRecord *record, GError **error)
{
  g_autoptr (HsLimit) limit = g_new0 (HsLimit, 1);

  limit->name = g_strdup (section);
  limit->cuts = g_array_new (FALSE, FALSE, sizeof (HsLimitCut));
  limit->bands = g_array_new (FALSE, FALSE, sizeof (HsLimitBand));
  limit->steps = g_array_new (FALSE, FALSE, sizeof (HsLimitStep));
  limit->makers = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_array_set_clear_func (limit->bands, band_clear);
  if (!scale_read (file, section, record, limit, error)
      || !hs_key_file_only (file, section, known_keys, limit->bands->len, error)
      || !sentences_read (file, section, limit, error) || !steps_check (section, limit, error))
    return NULL;
  limit->limit = hs_key_file_dup_text (file, section, "limit");
  limit->source = hs_key_file_dup_needed (file, section, "source", error);
  if (limit->source == NULL)
    return NULL;
  limit->tag = hs_key_file_dup_needed (file, section, "tag", error);
  if (limit->tag == NULL || !tag_check (section, limit->tag, error))
    return NULL;
  return g_steal_pointer (&limit);
}

gboolean
hs_limit_check_then (const HsLimit *limit, HsChecks *checks, GError **error)
{
  for (guint i = 0; i < limit->bands->len; i++)
    {
      char **then = g_array_index (limit->bands, HsLimitBand, i).then;

      for (guint j = 0; then != NULL && then[j] != NULL; j++)
        if (hs_checks_lookup (checks, then[j]) == NULL)
          return hs_key_file_refuse (error, limit->name, "“then%u”: there is no [check %s]", i + 1, then[j]);
    }
  return TRUE;
}
