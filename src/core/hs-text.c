// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Text as a search sees it: for finding people, plates and streets whatever accents, case and punctuation were
 * typed. Works on any script; never looks at the locale. */

#include "hs-text.h"

/* Compatibility letters may hide capitals, so the text is taken apart before and after the case goes. */
static char *
decompose (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  g_autofree char *apart = g_utf8_normalize (valid, -1, G_NORMALIZE_ALL);
  g_autofree char *small = g_utf8_casefold (apart, -1);

  return g_utf8_normalize (small, -1, G_NORMALIZE_ALL);
}

static gboolean
joins_words (gunichar sign)
{
  return g_unichar_ismark (sign) || sign == '\'' || sign == 0x2019 || sign == 0x02BC;
}

static void
append_sign (GString *folded, gunichar sign)
{
  if (g_unichar_isdigit (sign))
    g_string_append_c (folded, (char) ('0' + g_unichar_digit_value (sign)));
  else
    g_string_append_unichar (folded, sign);
}

char *
hs_text_fold (const char *text)
{
  g_autofree char *plain = decompose (text == NULL ? "" : text);
  GString *folded = g_string_new (NULL);
  gboolean parted = FALSE;

  for (const char *at = plain; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar sign = g_utf8_get_char (at);

      if (joins_words (sign))
        continue;
      if (!g_unichar_isalnum (sign))
        {
          parted = folded->len > 0;
          continue;
        }
      if (parted)
        g_string_append_c (folded, ' ');
      parted = FALSE;
      append_sign (folded, sign);
    }
  return g_string_free (folded, FALSE);
}

char **
hs_text_words (const char *text)
{
  g_autofree char *folded = hs_text_fold (text);

  return g_strsplit (folded, " ", -1);
}

char *
hs_text_digits (const char *text)
{
  g_autofree char *folded = hs_text_fold (text);
  GString *digits = g_string_new (NULL);

  for (const char *at = folded; *at != '\0'; at++)
    if (g_ascii_isdigit (*at))
      g_string_append_c (digits, *at);
  return g_string_free (digits, FALSE);
}

char **
hs_text_tails (const char *word, guint least)
{
  glong length = g_utf8_strlen (word, -1);
  GStrvBuilder *builder = g_strv_builder_new ();
  char **tails;

  for (; length >= MAX ((glong) least, 1); length--)
    {
      g_strv_builder_add (builder, word);
      word = g_utf8_next_char (word);
    }
  tails = g_strv_builder_end (builder);
  g_strv_builder_unref (builder);
  return tails;
}

const char *
hs_text_last (const char *text, guint most)
{
  glong length = g_utf8_strlen (text, -1);

  return length <= (glong) most ? text : g_utf8_offset_to_pointer (text, length - (glong) most);
}

gboolean
hs_text_is_blank (const char *text)
{
  for (; text != NULL && *text != '\0'; text = g_utf8_next_char (text))
    if (!g_unichar_isspace (g_utf8_get_char (text)))
      return FALSE;
  return TRUE;
}
