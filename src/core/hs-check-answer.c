// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Readings that are words: one of a few answers, trouble codes, or a text as it stands on a plate. For the number pad,
 * files and imports. Refuses an answer that the check does not have and a code that cannot be one. */

#include "hs-check-private.h"
#include "hs-core-error.h"
#include "hs-text.h"
#include "hs-trouble.h"

#define NO_CODES "none"

gboolean
hs_check_has_number (const HsCheck *check)
{
  return check->entry == HS_CHECK_NUMBER || check->entry == HS_CHECK_PAIR;
}

static gboolean
refuse_choice (const HsCheck *check, const char *text, GError **error)
{
  g_autoptr (GString) all = g_string_new (NULL);

  for (guint i = 0; check->answers[i] != NULL; i++)
    g_string_append_printf (all, "%s%u %s", i == 0 ? "" : ", ", i + 1, check->answers[i]);
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: “%s” is no answer; there are: %s", check->name,
               text, all->str);
  return FALSE;
}

/* A digit, or the answer itself; letter case, blanks and dashes make no difference. */
static gboolean
choice_read (const HsCheck *check, const char *text, gint64 *ret_number, GError **error)
{
  g_autofree char *folded = hs_text_fold (text);
  guint64 number = 0;
  gboolean is_digit = g_ascii_string_to_unsigned (text, 10, 1, 9, &number, NULL);

  for (guint i = 0; check->answers[i] != NULL; i++)
    {
      g_autofree char *answer = hs_text_fold (check->answers[i]);

      if (is_digit ? number == i + 1 : g_str_equal (answer, folded))
        {
          *ret_number = i + 1;
          return TRUE;
        }
    }
  return refuse_choice (check, text, error);
}

static gboolean
add_code (GPtrArray *codes, const char *text, GError **error)
{
  guint16 value;
  char *code;

  if (!hs_trouble_parse (text, &value, error))
    return FALSE;
  code = hs_trouble_format (value);
  if (g_ptr_array_find_with_equal_func (codes, code, g_str_equal, NULL))
    g_free (code);
  else
    g_ptr_array_add (codes, code);
  return TRUE;
}

/* Codes stand apart by blanks, commas or semicolons; one that stands twice counts once. */
static GPtrArray *
codes_read (const HsCheck *check, const char *text, GError **error)
{
  g_auto (GStrv) parts = g_strsplit_set (text, " ,;\t\n", -1);
  g_autoptr (GPtrArray) codes = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *folded = hs_text_fold (text);
  guint said = 0;

  if (g_str_equal (folded, NO_CODES) || g_str_equal (folded, "no codes") || g_str_equal (folded, "0"))
    return g_steal_pointer (&codes);
  for (guint i = 0; parts[i] != NULL; i++)
    {
      if (*parts[i] == '\0')
        continue;
      said++;
      if (!add_code (codes, parts[i], error))
        {
          g_prefix_error (error, "%s: ", check->name);
          return NULL;
        }
    }
  if (said > 0 && codes->len <= HS_CHECK_CODES_MOST)
    return g_steal_pointer (&codes);
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
               said == 0 ? "%s: type the codes with blanks between them, or 0 for none"
                         : "%s: more codes than one answer takes", check->name);
  return NULL;
}

static gboolean
text_check (const HsCheck *check, const char *text, GError **error)
{
  if (!hs_text_is_blank (text) && g_utf8_validate (text, -1, NULL) && g_utf8_strlen (text, -1) <= HS_CHECK_TEXT_MOST)
    return TRUE;
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: write it down in 1 to %d letters", check->name,
               HS_CHECK_TEXT_MOST);
  return FALSE;
}

gboolean
hs_check_read_answer (const HsCheck *check, const char *text, HsReading *ret_reading, GError **error)
{
  g_autoptr (GPtrArray) codes = NULL;
  HsReading reading = { .kind = HS_READING_VALUE, .value = 1 };

  switch (check->entry)
    {
    case HS_CHECK_CHOICE:
      if (!choice_read (check, text, &reading.value, error))
        return FALSE;
      break;
    case HS_CHECK_CODES:
      codes = codes_read (check, text, error);
      if (codes == NULL)
        return FALSE;
      reading.value = codes->len;
      break;
    case HS_CHECK_TEXT:
    default:
      if (!text_check (check, text, error))
        return FALSE;
      break;
    }
  *ret_reading = reading;
  return TRUE;
}

static char *
join_codes (GPtrArray *codes)
{
  g_autoptr (GString) joined = g_string_new (codes->len == 0 ? NO_CODES : NULL);

  for (guint i = 0; i < codes->len; i++)
    g_string_append_printf (joined, "%s%s", i == 0 ? "" : " ", (const char *) g_ptr_array_index (codes, i));
  return g_string_free (g_steal_pointer (&joined), FALSE);
}

char *
hs_check_dup_answer (const HsCheck *check, const char *text, GError **error)
{
  g_autofree char *written = g_strstrip (g_strdup (text));
  g_autoptr (GPtrArray) codes = NULL;
  gint64 number;

  switch (check->entry)
    {
    case HS_CHECK_CHOICE:
      return choice_read (check, written, &number, error) ? g_strdup (check->answers[number - 1]) : NULL;
    case HS_CHECK_CODES:
      codes = codes_read (check, written, error);
      return codes == NULL ? NULL : join_codes (codes);
    case HS_CHECK_TEXT:
      return text_check (check, written, error) ? g_steal_pointer (&written) : NULL;
    case HS_CHECK_NUMBER:
    case HS_CHECK_PAIR:
    default:
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: its answer is a number", check->name);
      return NULL;
    }
}
