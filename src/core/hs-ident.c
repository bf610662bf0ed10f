// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What vehicles and jobs are called: plates, VINs, job numbers. For comparing what two people typed. Refuses a VIN
 * that cannot be one; a plate may be anything. */

#include "hs-ident.h"

#include "hs-core-error.h"
#include "hs-text.h"

#define VIN_LENGTH 17

/* Letters and digits as capitals; accents stay, since plates of some places tell by them. */
static char *
capitals (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  g_autofree char *whole = g_utf8_normalize (valid, -1, G_NORMALIZE_ALL_COMPOSE);
  GString *kept = g_string_new (NULL);

  for (const char *at = whole; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar sign = g_utf8_get_char (at);

      if (g_unichar_isalnum (sign))
        g_string_append_unichar (kept, g_unichar_toupper (sign));
    }
  return g_string_free (kept, FALSE);
}

char *
hs_plate_normalize (const char *plate)
{
  return capitals (plate);
}

char *
hs_vin_normalize (const char *vin, GError **error)
{
  g_autofree char *normal = capitals (vin);
  gsize length = strlen (normal);

  if (length == 0 || length > VIN_LENGTH || strspn (normal, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789") != length)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” is not a VIN: it has at most 17 letters and digits", vin);
      return NULL;
    }
  if (length == VIN_LENGTH && strpbrk (normal, "IOQ") != NULL)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” is not a VIN: it never has I, O or Q; read it again as 1 or 0", vin);
      return NULL;
    }
  return g_steal_pointer (&normal);
}

char *
hs_vin_tail (const char *vin, guint n)
{
  g_autofree char *normal = capitals (vin);

  return g_strdup (hs_text_last (normal, n));
}

char *
hs_job_number_format (char letter, int number)
{
  g_return_val_if_fail (g_ascii_isupper (letter) && number >= 1 && number <= HS_JOB_NUMBER_LAST, NULL);
  return g_strdup_printf ("%c-%04d", letter, number);
}

gboolean
hs_job_number_parse (const char *text, char *ret_letter, int *ret_number, GError **error)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  const char *digits = trimmed + (g_ascii_isalpha (trimmed[0]) ? 1 : 0);
  gsize n_digits;
  int number = 0;

  if (digits > trimmed && (*digits == '-' || *digits == ' '))
    digits++;
  n_digits = strspn (digits, "0123456789");
  if (n_digits <= 6)
    number = (int) g_ascii_strtoll (digits, NULL, 10);
  if (digits == trimmed || digits[n_digits] != '\0' || number < 1)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” is not a job number: write the van's letter and up to six digits like A-0021", text);
      return FALSE;
    }
  if (ret_letter != NULL)
    *ret_letter = g_ascii_toupper (trimmed[0]);
  if (ret_number != NULL)
    *ret_number = number;
  return TRUE;
}
