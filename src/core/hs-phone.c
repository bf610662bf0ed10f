// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Phone numbers: for finding a caller by a few digits while the number stays as it was typed. Refuses what cannot
 * be dialed; a number longer than the standard allows is only pointed out. */

#include "hs-phone.h"

#include "hs-core-error.h"
#include "hs-text.h"

#define E164_MOST_DIGITS 15
#define LEAST_DIGITS 3

/* The number without an extension behind `x` or `ext`. */
static char *
without_extension (const char *text)
{
  g_autofree char *small = g_ascii_strdown (text, -1);
  gsize length = strcspn (small, "xe");

  return g_strndup (text, length);
}

char *
hs_phone_digits (const char *text)
{
  g_autofree char *number = without_extension (text);
  g_autofree char *digits = hs_text_digits (number);

  return g_strconcat (*g_strchug (number) == '+' ? "+" : "", digits, NULL);
}

/* TRUE if @extension is empty, or `x`, `ext`, `ext.` with digits behind. */
static gboolean
is_extension (const char *extension)
{
  g_autofree char *small = g_ascii_strdown (extension, -1);
  const char *at = small;

  if (*at == '\0')
    return TRUE;
  if (g_str_has_prefix (at, "ext"))
    at += at[3] == '.' ? 4 : 3;
  else if (*at == 'x')
    at++;
  else
    return FALSE;
  at += strspn (at, " ");
  return *at != '\0' && strspn (at, "0123456789") == strlen (at);
}

gboolean
hs_phone_check (const char *text, GError **error)
{
  g_autofree char *number = without_extension (text);
  g_autofree char *digits = hs_text_digits (number);
  const char *start = number + strspn (number, " ");
  const char *after_plus = *start == '+' ? start + 1 : start;

  if (strspn (after_plus, "0123456789 .-/()") != strlen (after_plus) || !is_extension (text + strlen (number)))
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” is not a phone number: write digits, with + in front for another country", text);
      return FALSE;
    }
  if (strlen (digits) < LEAST_DIGITS)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” is too short for a phone number", text);
      return FALSE;
    }
  return TRUE;
}

char *
hs_phone_last_four (const char *text)
{
  g_autofree char *number = without_extension (text);
  g_autofree char *digits = hs_text_digits (number);

  return g_strdup (hs_text_last (digits, 4));
}

gboolean
hs_phone_is_long (const char *text)
{
  g_autofree char *number = without_extension (text);
  g_autofree char *digits = hs_text_digits (number);

  return strlen (digits) > E164_MOST_DIGITS;
}
