// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a calculator found: results in order, unrounded, with their text for the eye; verdict, sentence, next step; and
 * who says so, of several sources with the least sure tag. */

#include "hs-calc-private.h"

#include "hs-money.h"

#include <math.h>

#define NOTHING "–"

/* From the surest; the vehicle's own limit is not a tag of the catalog and never gets here. */
static const char *const sures[] = {
  HS_SURE_OFFICIAL, HS_SURE_DERIVED, HS_SURE_SECONDARY, HS_SURE_PRACTICE, HS_SURE_MEMORY,
};

struct _HsCalcResult
{
  char *currency;
  GArray *items;
  gboolean judged;
  HsVerdict verdict;
  char *word;
  char *limit;
  GString *because;
  GString *next;
  GPtrArray *sources;
  char *source;
  const char *sure;
};

static void
item_clear (gpointer data)
{
  HsCalcItem *item = data;

  g_strfreev (item->texts);
  g_clear_pointer (&item->integers, g_array_unref);
  g_free (item->shown);
}

HsCalcResult *
hs_calc_result_new (const HsCalcScene *scene)
{
  HsCalcResult *result = g_new0 (HsCalcResult, 1);

  result->currency = g_strdup (scene->currency);
  result->items = g_array_new (FALSE, TRUE, sizeof (HsCalcItem));
  g_array_set_clear_func (result->items, item_clear);
  result->because = g_string_new (NULL);
  result->next = g_string_new (NULL);
  result->sources = g_ptr_array_new_with_free_func (g_free);
  result->source = g_strdup ("");
  result->sure = "";
  return result;
}

void
hs_calc_result_free (HsCalcResult *result)
{
  if (result == NULL)
    return;
  g_array_unref (result->items);
  g_string_free (result->because, TRUE);
  g_string_free (result->next, TRUE);
  g_ptr_array_unref (result->sources);
  g_free (result->source);
  g_free (result->currency);
  g_free (result->word);
  g_free (result->limit);
  g_free (result);
}

static void
put (HsCalcResult *result, const char *id, const char *label, HsCalcItem item)
{
  item.id = id;
  item.label = label;
  if (item.shown == NULL)
    item.shown = g_strdup (NOTHING);
  g_array_append_val (result->items, item);
}

static char *
with_unit (const char *number, const char *unit)
{
  return unit == NULL || *unit == '\0' ? g_strdup (number) : g_strdup_printf ("%s %s", number, unit);
}

void
hs_calc_put_none (HsCalcResult *result, const char *id, const char *label)
{
  put (result, id, label, (HsCalcItem) { .shape = HS_CALC_IS_NONE });
}

char *
hs_calc_rounded_text (double number, guint decimals)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE * 8];
  char format[] = { '%', '.', (char) ('0' + MIN (decimals, HS_DECIMAL_MOST)), 'f', '\0' };

  return g_strdup (g_ascii_formatd (buffer, sizeof buffer, format, number));
}

void
hs_calc_put_number (HsCalcResult *result, const char *id, const char *label, double value, const char *unit,
                    guint decimals)
{
  g_autofree char *text = NULL;

  if (!isfinite (value))
    {
      hs_calc_put_none (result, id, label);
      return;
    }
  /* Minus zero is zero. */
  value += 0.0;
  text = hs_calc_rounded_text (value, decimals);
  put (result, id, label,
       (HsCalcItem) { .shape = HS_CALC_IS_NUMBER, .number = value, .shown = with_unit (text, unit) });
}

void
hs_calc_put_integer (HsCalcResult *result, const char *id, const char *label, gint64 value, const char *unit)
{
  g_autofree char *text = g_strdup_printf ("%" G_GINT64_FORMAT, value);

  put (result, id, label,
       (HsCalcItem) { .shape = HS_CALC_IS_INTEGER, .integer = value, .shown = with_unit (text, unit) });
}

void
hs_calc_put_money (HsCalcResult *result, const char *id, const char *label, gint64 minor)
{
  put (result, id, label,
       (HsCalcItem) { .shape = HS_CALC_IS_MONEY, .integer = minor,
                      .shown = hs_money_format_grouped (minor, result->currency) });
}

void
hs_calc_put_boolean (HsCalcResult *result, const char *id, const char *label, gboolean value)
{
  put (result, id, label,
       (HsCalcItem) { .shape = HS_CALC_IS_BOOLEAN, .integer = value ? 1 : 0,
                      .shown = g_strdup (value ? "yes" : "no") });
}

void
hs_calc_put_text (HsCalcResult *result, const char *id, const char *label, const char *text)
{
  HsCalcItem item = { .shape = text == NULL ? HS_CALC_IS_NONE : HS_CALC_IS_TEXT };

  if (text != NULL)
    {
      item.texts = g_strdupv ((char *[]) { (char *) text, NULL });
      item.shown = g_strdup (text);
    }
  put (result, id, label, item);
}

void
hs_calc_put_date (HsCalcResult *result, const char *id, const char *label, HsDate date)
{
  g_autofree char *text = date == HS_DATE_NONE ? NULL : hs_date_format (date);

  hs_calc_put_text (result, id, label, text);
}

void
hs_calc_put_texts (HsCalcResult *result, const char *id, const char *label, const char *const *texts)
{
  g_auto (GStrv) copy = g_strdupv ((char **) texts);
  char *shown = copy[0] == NULL ? NULL : g_strjoinv (", ", copy);

  put (result, id, label,
       (HsCalcItem) { .shape = HS_CALC_IS_TEXTS, .texts = g_steal_pointer (&copy), .shown = shown });
}

void
hs_calc_put_integers (HsCalcResult *result, const char *id, const char *label, const gint64 *values, gsize n)
{
  GArray *integers = g_array_new (FALSE, FALSE, sizeof (gint64));
  GString *shown = g_string_new (NULL);

  for (gsize i = 0; i < n; i++)
    g_string_append_printf (shown, "%s%" G_GINT64_FORMAT, i > 0 ? ", " : "", values[i]);
  if (n > 0)
    g_array_append_vals (integers, values, (guint) n);
  put (result, id, label,
       (HsCalcItem) { .shape = HS_CALC_IS_INTEGERS, .integers = integers,
                      .shown = g_string_free (shown, n == 0) });
}

static guint
rank_of (const char *sure)
{
  for (guint i = 0; i < G_N_ELEMENTS (sures); i++)
    if (g_str_equal (sures[i], sure))
      return i;
  g_assert_not_reached ();
}

void
hs_calc_cite (HsCalcResult *result, const char *source, const char *sure)
{
  g_auto (GStrv) all = NULL;

  if (*result->sure == '\0' || rank_of (sure) > rank_of (result->sure))
    result->sure = sures[rank_of (sure)];
  for (guint i = 0; i < result->sources->len; i++)
    if (g_str_equal (g_ptr_array_index (result->sources, i), source))
      return;
  g_ptr_array_add (result->sources, g_strdup (source));
  all = g_new0 (char *, result->sources->len + 1);
  for (guint i = 0; i < result->sources->len; i++)
    all[i] = g_strdup (g_ptr_array_index (result->sources, i));
  g_free (result->source);
  result->source = g_strjoinv ("; ", all);
}

static void
append_sentence (GString *text, const char *sentence)
{
  if (text->len > 0 && *sentence != '\0')
    g_string_append_c (text, ' ');
  g_string_append (text, sentence);
}

void
hs_calc_say (HsCalcResult *result, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_autofree char *sentence = g_strdup_vprintf (format, args);
  va_end (args);
  append_sentence (result->because, sentence);
}

void
hs_calc_advise (HsCalcResult *result, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_autofree char *sentence = g_strdup_vprintf (format, args);
  va_end (args);
  append_sentence (result->next, sentence);
}

void
hs_calc_verdict (HsCalcResult *result, HsVerdict verdict, const char *word)
{
  result->judged = TRUE;
  result->verdict = verdict;
  g_free (result->word);
  result->word = g_strdup (word != NULL ? word : hs_verdict_word (verdict));
}

static void
take_judgment (HsCalcResult *result, const HsJudgment *judgment)
{
  hs_calc_verdict (result, judgment->verdict, judgment->do_not_drive ? HS_DO_NOT_DRIVE_WORD : judgment->word);
  append_sentence (result->because, judgment->why);
  append_sentence (result->next, judgment->next);
  g_free (result->limit);
  result->limit = g_strdup (judgment->limit);
  if (*judgment->tag != '\0')
    hs_calc_cite (result, judgment->source, judgment->tag);
}

void
hs_calc_judge (const HsCalcScene *scene, HsCalcResult *result, const char *check_id, double value,
               const HsConditions *conditions)
{
  const HsCheck *check = hs_checks_lookup (scene->checks, check_id);
  g_auto (HsJudgment) judgment = { 0 };
  HsReading reading = { .kind = HS_READING_VALUE };

  g_assert (check != NULL);
  reading.finer = HS_DECIMAL_MOST - check->decimals;
  if (!(fabs (value) < (double) G_MAXINT32))
    {
      hs_calc_verdict (result, HS_VERDICT_CANNOT_TELL, NULL);
      hs_calc_say (result, "The figure is too large to be judged.");
      return;
    }
  reading.value = (gint64) nearbyint (value * (double) hs_decimal_power (HS_DECIMAL_MOST));
  hs_check_judge (scene->checks, check, conditions, NULL, &reading, &judgment);
  take_judgment (result, &judgment);
}

void
hs_calc_judge_pair (const HsCalcScene *scene, HsCalcResult *result, const char *check_id, gint64 value, gint64 of,
                    const HsConditions *conditions)
{
  const HsCheck *check = hs_checks_lookup (scene->checks, check_id);
  g_auto (HsJudgment) judgment = { 0 };
  HsReading reading = { .kind = HS_READING_VALUE, .value = value, .of = of };

  g_assert (check != NULL);
  reading.finer = HS_DECIMAL_MOST - check->decimals;
  /* Zeros that both numbers end in say nothing, and without them a share of them fits. */
  while (reading.finer > 0 && reading.of != 0 && reading.value % 10 == 0 && reading.of % 10 == 0)
    {
      reading.value /= 10;
      reading.of /= 10;
      reading.finer--;
    }
  hs_check_judge (scene->checks, check, conditions, NULL, &reading, &judgment);
  take_judgment (result, &judgment);
}

guint
hs_calc_result_get_length (const HsCalcResult *result)
{
  return result->items->len;
}

const HsCalcItem *
hs_calc_result_get_nth (const HsCalcResult *result, guint nth)
{
  return nth < result->items->len ? &g_array_index (result->items, HsCalcItem, nth) : NULL;
}

const HsCalcItem *
hs_calc_result_lookup (const HsCalcResult *result, const char *id)
{
  for (guint i = 0; i < result->items->len; i++)
    if (g_str_equal (hs_calc_result_get_nth (result, i)->id, id))
      return hs_calc_result_get_nth (result, i);
  return NULL;
}

gboolean
hs_calc_result_get_verdict (const HsCalcResult *result, HsVerdict *ret_verdict)
{
  if (result->judged && ret_verdict != NULL)
    *ret_verdict = result->verdict;
  return result->judged;
}

const char *
hs_calc_result_get_word (const HsCalcResult *result)
{
  return result->word != NULL ? result->word : "";
}

const char *
hs_calc_result_get_because (const HsCalcResult *result)
{
  return result->because->str;
}

const char *
hs_calc_result_get_limit (const HsCalcResult *result)
{
  return result->limit != NULL ? result->limit : "";
}

const char *
hs_calc_result_get_next (const HsCalcResult *result)
{
  return result->next->str;
}

const char *
hs_calc_result_get_source (const HsCalcResult *result)
{
  return result->source;
}

const char *
hs_calc_result_get_sure (const HsCalcResult *result)
{
  return result->sure;
}
