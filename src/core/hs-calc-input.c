// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is typed into a calculator: `key=value` words against the calculator's table of keys. Refuses what would have
 * to be guessed: unknown and missing keys, two of which only one may stand, numbers out of range or with a unit. */

#include "hs-calc-private.h"

#include "hs-core-error.h"
#include "hs-money.h"

#include <string.h>

#define TODAY "today"

/* One key's value: which member counts is told by the key's kind. */
typedef struct
{
  gboolean given;
  char *text;
  HsDate date;
  int choice;
  GArray *numbers;
  GArray *scaled;
} Value;

struct _HsCalcInput
{
  const HsCalc *calc;
  GArray *values;
};

static gboolean
refuse (GError **error, HsCoreError code, const char *format, ...) G_GNUC_PRINTF (3, 4);

static gboolean
refuse (GError **error, HsCoreError code, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_autofree char *message = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, HS_CORE_ERROR, (int) code, message);
  return FALSE;
}

static void
value_clear (gpointer data)
{
  Value *value = data;

  g_free (value->text);
  g_clear_pointer (&value->numbers, g_array_unref);
  g_clear_pointer (&value->scaled, g_array_unref);
}

void
hs_calc_input_free (HsCalcInput *input)
{
  if (input == NULL)
    return;
  g_array_unref (input->values);
  g_free (input);
}

char *
hs_calc_number_text (double number)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  return g_strdup (g_ascii_formatd (buffer, sizeof buffer, "%.10g", number));
}

static gboolean
is_money (const HsCalcKey *key)
{
  return key->kind == HS_CALC_MONEY || key->kind == HS_CALC_AMOUNTS;
}

static gboolean
is_list (const HsCalcKey *key)
{
  return key->kind == HS_CALC_NUMBERS || key->kind == HS_CALC_AMOUNTS;
}

static char *
range_of_numbers (const HsCalcKey *key)
{
  g_autofree char *least = hs_calc_number_text (key->least);
  g_autofree char *most = hs_calc_number_text (key->most);
  const char *unit = key->unit == NULL ? "" : key->unit;

  return g_strdup_printf ("%s%s to %s%s%s", is_list (key) ? "numbers with commas between, each " : "", least, most,
                          *unit == '\0' ? "" : " ", unit);
}

char *
hs_calc_key_dup_range (const HsCalcKey *key)
{
  g_auto (GStrv) choices = NULL;

  switch (key->kind)
    {
    case HS_CALC_DATE:
      return g_strdup ("a date like 2026-03-10");
    case HS_CALC_CHOICE:
      choices = g_strsplit (key->choices, "|", -1);
      return g_strjoinv (", ", choices);
    case HS_CALC_TEXT:
      return g_strdup ("text");
    case HS_CALC_NUMBER:
    case HS_CALC_NUMBERS:
    case HS_CALC_MONEY:
    case HS_CALC_AMOUNTS:
    default:
      return range_of_numbers (key);
    }
}

/* `1242` as 12.42, `5` as 0.05; anything that is not digits alone stays. */
static char *
number_typed (const char *typed, guint decimals)
{
  gboolean negative = *typed == '-';
  const char *digits = typed + (negative ? 1 : 0);
  gsize length = strlen (digits);
  g_autofree char *padded = NULL;

  if (decimals == 0 || length == 0 || length > 12 || strspn (digits, "0123456789") != length)
    return g_strdup (typed);
  padded = length > decimals ? g_strdup (digits) : g_strdup_printf ("%0*d%s", (int) (decimals + 1 - length), 0, digits);
  length = strlen (padded) - decimals;
  return g_strdup_printf ("%s%.*s.%s", negative ? "-" : "", (int) length, padded, padded + length);
}

char *
hs_calc_key_dup_typed (const HsCalcKey *key, const char *typed)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (typed));
  g_auto (GStrv) pieces = NULL;
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) numbers = NULL;

  if (key->kind > HS_CALC_AMOUNTS)
    return g_steal_pointer (&trimmed);
  if (!is_list (key))
    return number_typed (trimmed, key->decimals);
  pieces = g_strsplit_set (trimmed, ",+/; ", -1);
  for (guint i = 0; pieces[i] != NULL; i++)
    {
      g_autofree char *number = *pieces[i] == '\0' ? NULL : number_typed (pieces[i], key->decimals);

      if (number != NULL)
        g_strv_builder_add (builder, number);
    }
  numbers = g_strv_builder_end (builder);
  return g_strjoinv (",", numbers);
}

static gboolean
number_read (const HsCalcKey *key, const HsCalcScene *scene, const char *text, Value *value, GError **error)
{
  guint decimals = is_money (key) ? (guint) MAX (0, hs_currency_decimals (scene->currency)) : HS_DECIMAL_MOST;
  g_autofree char *range = hs_calc_key_dup_range (key);
  g_autoptr (GError) broken = NULL;
  gint64 scaled;
  double number;

  if (!hs_decimal_parse (text, decimals, &scaled, &broken))
    return refuse (error, HS_CORE_ERROR_BAD_VALUE, "%s: %s. It takes %s.", key->id, broken->message, range);
  number = (double) scaled / (double) hs_decimal_power (decimals);
  if (number < key->least && key->below != NULL)
    return refuse (error, HS_CORE_ERROR_BAD_VALUE, "%s: %s is too low: %s. It takes %s.", key->id, text, key->below,
                   range);
  if (number < key->least || number > key->most)
    return refuse (error, HS_CORE_ERROR_BAD_VALUE, "%s: %s is out of range. It takes %s.", key->id, text, range);
  g_array_append_val (value->numbers, number);
  g_array_append_val (value->scaled, scaled);
  return TRUE;
}

static gboolean
numbers_read (const HsCalcKey *key, const HsCalcScene *scene, Value *value, GError **error)
{
  g_auto (GStrv) texts = g_strsplit (value->text, is_list (key) ? "," : "\n", -1);

  value->numbers = g_array_new (FALSE, FALSE, sizeof (double));
  value->scaled = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (guint i = 0; texts[i] != NULL; i++)
    if (!number_read (key, scene, g_strstrip (texts[i]), value, error))
      return FALSE;
  return TRUE;
}

static gboolean
choice_read (const HsCalcKey *key, Value *value, GError **error)
{
  g_auto (GStrv) choices = g_strsplit (key->choices, "|", -1);
  g_autofree char *range = NULL;

  for (guint i = 0; choices[i] != NULL; i++)
    if (g_ascii_strcasecmp (choices[i], value->text) == 0)
      {
        value->choice = (int) i;
        return TRUE;
      }
  range = hs_calc_key_dup_range (key);
  return refuse (error, HS_CORE_ERROR_BAD_VALUE, "%s: “%s” is none of %s.", key->id, value->text, range);
}

static gboolean
date_read (const HsCalcKey *key, const HsCalcScene *scene, Value *value, GError **error)
{
  g_autoptr (GError) broken = NULL;

  if (g_str_equal (value->text, TODAY))
    value->date = scene->today;
  else if (!hs_date_parse (value->text, &value->date, &broken))
    return refuse (error, HS_CORE_ERROR_BAD_VALUE, "%s: %s", key->id, broken->message);
  return TRUE;
}

static gboolean
value_read (const HsCalcKey *key, const HsCalcScene *scene, Value *value, GError **error)
{
  switch (key->kind)
    {
    case HS_CALC_DATE:
      return date_read (key, scene, value, error);
    case HS_CALC_CHOICE:
      return choice_read (key, value, error);
    case HS_CALC_TEXT:
      return TRUE;
    case HS_CALC_NUMBER:
    case HS_CALC_NUMBERS:
    case HS_CALC_MONEY:
    case HS_CALC_AMOUNTS:
    default:
      return numbers_read (key, scene, value, error);
    }
}

static char *
keys_text (const HsCalc *calc, guint either)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) names = NULL;

  for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
    if (either == 0 || key->either == either)
      g_strv_builder_add (builder, key->id);
  names = g_strv_builder_end (builder);
  return g_strjoinv (", ", names);
}

static Value *
nth_value (const HsCalcInput *input, guint nth)
{
  return &g_array_index (input->values, Value, nth);
}

/* Keeps the text of one `key=value`. */
static gboolean
word_keep (HsCalcInput *input, const char *word, GError **error)
{
  g_auto (GStrv) sides = g_strsplit (word, "=", 2);
  const HsCalcKey *key = NULL;
  Value *value;

  if (g_strv_length (sides) == 2)
    key = hs_calc_find_key (input->calc, g_strstrip (sides[0]));
  if (key == NULL)
    {
      g_autofree char *names = keys_text (input->calc, 0);

      return refuse (error, HS_CORE_ERROR_REFUSED, "“%s” is no key=value of “%s”. Its keys are %s.", word,
                     input->calc->name, names);
    }
  value = nth_value (input, (guint) (key - input->calc->keys));
  if (value->text != NULL)
    return refuse (error, HS_CORE_ERROR_REFUSED, "%s is given twice.", key->id);
  value->text = g_strdup (g_strstrip (sides[1]));
  value->given = *value->text != '\0';
  return TRUE;
}

static guint
count_given (const HsCalcInput *input, guint either)
{
  guint count = 0;

  for (guint i = 0; i < input->values->len; i++)
    count += input->calc->keys[i].either == either && nth_value (input, i)->given;
  return count;
}

/* Exactly one of a group; the first key of the group speaks for it, so that it is told once. */
static gboolean
either_holds (const HsCalcInput *input, const HsCalcKey *key, GError **error)
{
  guint count = count_given (input, key->either);
  g_autofree char *names = NULL;

  if (count == 1 || (count == 0 && key->optional))
    return TRUE;
  names = keys_text (input->calc, key->either);
  return refuse (error, HS_CORE_ERROR_REFUSED, count == 0 ? "One of these is missing: %s." : "Give only one of %s.",
                 names);
}

static gboolean
key_finish (HsCalcInput *input, guint nth, const HsCalcScene *scene, GError **error)
{
  const HsCalcKey *key = &input->calc->keys[nth];
  Value *value = nth_value (input, nth);

  if (key->either > 0 && !either_holds (input, key, error))
    return FALSE;
  if (!value->given && key->usual != NULL)
    {
      g_free (value->text);
      value->text = g_strdup (key->usual);
      value->given = TRUE;
    }
  if (value->given)
    return value_read (key, scene, value, error);
  if (key->optional || key->either > 0)
    return TRUE;
  return refuse (error, HS_CORE_ERROR_REFUSED, "%s is missing (%s).", key->id, key->label);
}

HsCalcInput *
hs_calc_input_new (const HsCalc *calc, const HsCalcScene *scene, const char *const *words, GError **error)
{
  g_autoptr (HsCalcInput) input = g_new0 (HsCalcInput, 1);

  input->calc = calc;
  input->values = g_array_new (FALSE, TRUE, sizeof (Value));
  g_array_set_clear_func (input->values, value_clear);
  for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
    {
      Value value = { .date = HS_DATE_NONE, .choice = -1 };

      g_array_append_val (input->values, value);
    }
  for (guint i = 0; words[i] != NULL; i++)
    if (!word_keep (input, words[i], error))
      return NULL;
  for (guint i = 0; i < input->values->len; i++)
    if (!key_finish (input, i, scene, error))
      return NULL;
  return g_steal_pointer (&input);
}

static const Value *
value_of (const HsCalcInput *input, const char *id)
{
  const HsCalcKey *key = hs_calc_find_key (input->calc, id);

  g_assert (key != NULL);
  return nth_value (input, (guint) (key - input->calc->keys));
}

gboolean
hs_calc_has (const HsCalcInput *input, const char *id)
{
  return value_of (input, id)->given;
}

double
hs_calc_number (const HsCalcInput *input, const char *id)
{
  const Value *value = value_of (input, id);

  return value->given ? g_array_index (value->numbers, double, 0) : 0;
}

gint64
hs_calc_scaled (const HsCalcInput *input, const char *id)
{
  const Value *value = value_of (input, id);

  return value->given ? g_array_index (value->scaled, gint64, 0) : 0;
}

const double *
hs_calc_numbers (const HsCalcInput *input, const char *id, gsize *ret_length)
{
  const Value *value = value_of (input, id);

  *ret_length = value->given ? value->numbers->len : 0;
  return value->given ? (const double *) (gpointer) value->numbers->data : NULL;
}

const gint64 *
hs_calc_scaled_list (const HsCalcInput *input, const char *id, gsize *ret_length)
{
  const Value *value = value_of (input, id);

  *ret_length = value->given ? value->scaled->len : 0;
  return value->given ? (const gint64 *) (gpointer) value->scaled->data : NULL;
}

int
hs_calc_choice (const HsCalcInput *input, const char *id)
{
  return value_of (input, id)->choice;
}

const char *
hs_calc_text (const HsCalcInput *input, const char *id)
{
  const Value *value = value_of (input, id);

  return value->given ? value->text : NULL;
}

HsDate
hs_calc_date (const HsCalcInput *input, const char *id)
{
  return value_of (input, id)->date;
}
