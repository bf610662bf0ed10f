// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Problem details of an endpoint's answer. The answer is anybody's: it is walked once, with a bound on length and
 * depth, and nothing of it is kept but two texts. Refuses whatever is not JSON to the letter. */

#include "hs-post-problem.h"

#include <string.h>

#define MOST_DEPTH 32

/* at: what comes next; end: one behind the last byte. */
typedef struct
{
  const char *at;
  const char *end;
} Walk;

static gboolean walk_value (Walk *walk, guint depth);

static void
skip_blanks (Walk *walk)
{
  while (walk->at < walk->end && strchr (" \t\r\n", *walk->at) != NULL && *walk->at != '\0')
    walk->at++;
}

static gboolean
take (Walk *walk, char sign)
{
  if (walk->at == walk->end || *walk->at != sign)
    return FALSE;
  walk->at++;
  return TRUE;
}

static gboolean
take_word (Walk *walk, const char *word)
{
  gsize length = strlen (word);

  if ((gsize) (walk->end - walk->at) < length || memcmp (walk->at, word, length) != 0)
    return FALSE;
  walk->at += length;
  return TRUE;
}

static gboolean
take_hex (Walk *walk, gunichar *ret_value)
{
  gunichar value = 0;

  if (walk->end - walk->at < 4)
    return FALSE;
  for (guint i = 0; i < 4; i++)
    {
      int digit = g_ascii_xdigit_value (walk->at[i]);

      if (digit < 0)
        return FALSE;
      value = value * 16 + (gunichar) digit;
    }
  walk->at += 4;
  *ret_value = value;
  return TRUE;
}

/* Behind \u: one sign, or two halves of one (RFC 8259, 7). */
static gboolean
take_code (Walk *walk, GString *text)
{
  gunichar sign;
  gunichar low;

  if (!take_hex (walk, &sign) || sign == 0 || (sign >= 0xdc00 && sign <= 0xdfff))
    return FALSE;
  if (sign >= 0xd800 && sign <= 0xdbff)
    {
      if (!take_word (walk, "\\u") || !take_hex (walk, &low) || low < 0xdc00 || low > 0xdfff)
        return FALSE;
      sign = 0x10000 + ((sign - 0xd800) << 10) + (low - 0xdc00);
    }
  g_string_append_unichar (text, sign);
  return TRUE;
}

static gboolean
take_escape (Walk *walk, GString *text)
{
  static const char letters[] = "\"\\/bfnrt";
  static const char meant[] = "\"\\/\b\f\n\r\t";
  const char *found;

  if (take (walk, 'u'))
    return take_code (walk, text);
  found = walk->at < walk->end && *walk->at != '\0' ? strchr (letters, *walk->at) : NULL;
  if (found == NULL)
    return FALSE;
  walk->at++;
  g_string_append_c (text, meant[found - letters]);
  return TRUE;
}

static gboolean
take_text (Walk *walk, char **ret_text)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (!take (walk, '"'))
    return FALSE;
  while (!take (walk, '"'))
    {
      if (take (walk, '\\'))
        {
          if (!take_escape (walk, text))
            return FALSE;
        }
      else if (walk->at == walk->end || (guint8) *walk->at < 0x20)
        return FALSE;
      else
        g_string_append_c (text, *walk->at++);
    }
  if (ret_text != NULL)
    *ret_text = g_strndup (text->str, text->len);
  return TRUE;
}

static gboolean
take_digits (Walk *walk)
{
  const char *from = walk->at;

  while (walk->at < walk->end && g_ascii_isdigit (*walk->at))
    walk->at++;
  return walk->at > from;
}

static gboolean
take_number (Walk *walk)
{
  take (walk, '-');
  if (!take (walk, '0') && !take_digits (walk))
    return FALSE;
  if (take (walk, '.') && !take_digits (walk))
    return FALSE;
  if (!take (walk, 'e') && !take (walk, 'E'))
    return TRUE;
  if (!take (walk, '+'))
    take (walk, '-');
  return take_digits (walk);
}

static gboolean
walk_array (Walk *walk, guint depth)
{
  skip_blanks (walk);
  if (take (walk, ']'))
    return TRUE;
  do
    if (!walk_value (walk, depth + 1))
      return FALSE;
  while (take (walk, ','));
  return take (walk, ']');
}

/* title and detail are those of the outermost object; they are asked for there alone. */
static gboolean
walk_member (Walk *walk, guint depth, char **ret_title, char **ret_detail)
{
  g_autofree char *name = NULL;
  char **wanted = NULL;

  skip_blanks (walk);
  if (!take_text (walk, &name))
    return FALSE;
  skip_blanks (walk);
  if (!take (walk, ':'))
    return FALSE;
  skip_blanks (walk);
  if (ret_title != NULL && g_str_equal (name, "title"))
    wanted = ret_title;
  else if (ret_detail != NULL && g_str_equal (name, "detail"))
    wanted = ret_detail;
  if (wanted == NULL || walk->at == walk->end || *walk->at != '"')
    return walk_value (walk, depth + 1);
  g_clear_pointer (wanted, g_free);
  if (!take_text (walk, wanted))
    return FALSE;
  skip_blanks (walk);
  return TRUE;
}

static gboolean
walk_object (Walk *walk, guint depth, char **ret_title, char **ret_detail)
{
  skip_blanks (walk);
  if (take (walk, '}'))
    return TRUE;
  do
    if (!walk_member (walk, depth, ret_title, ret_detail))
      return FALSE;
  while (take (walk, ','));
  return take (walk, '}');
}

static gboolean
walk_value (Walk *walk, guint depth)
{
  gboolean done;

  if (depth > MOST_DEPTH)
    return FALSE;
  skip_blanks (walk);
  if (take (walk, '{'))
    done = walk_object (walk, depth, NULL, NULL);
  else if (take (walk, '['))
    done = walk_array (walk, depth);
  else if (walk->at < walk->end && *walk->at == '"')
    done = take_text (walk, NULL);
  else
    done = take_word (walk, "true") || take_word (walk, "false") || take_word (walk, "null") || take_number (walk);
  skip_blanks (walk);
  return done;
}

/* Marks that turn the order of letters around, and those that nobody sees. */
static gboolean
is_harmful (gunichar sign)
{
  GUnicodeType type = g_unichar_type (sign);

  return type == G_UNICODE_CONTROL || type == G_UNICODE_FORMAT || type == G_UNICODE_LINE_SEPARATOR
         || type == G_UNICODE_PARAGRAPH_SEPARATOR || type == G_UNICODE_PRIVATE_USE || type == G_UNICODE_UNASSIGNED;
}

/* One line without harmful signs and without blanks at its ends; %NULL if nothing is left. */
static char *
clean (const char *text)
{
  g_autoptr (GString) line = g_string_new (NULL);
  gboolean blank = FALSE;

  for (const char *at = text; at != NULL && *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar sign = g_utf8_get_char (at);

      if (g_unichar_isspace (sign) || is_harmful (sign))
        {
          blank = line->len > 0;
          continue;
        }
      if (blank)
        g_string_append_c (line, ' ');
      blank = FALSE;
      g_string_append_unichar (line, sign);
    }
  return line->len == 0 ? NULL : g_strndup (line->str, line->len);
}

static char *
shorten (const char *line)
{
  g_autofree char *start = NULL;

  if (g_utf8_strlen (line, -1) <= HS_POST_PROBLEM_LETTERS)
    return g_strdup (line);
  start = g_utf8_substring (line, 0, HS_POST_PROBLEM_LETTERS - 1);
  return g_strconcat (start, "…", NULL);
}

static char *
join (const char *title, const char *detail)
{
  g_autofree char *line = NULL;

  if (title == NULL && detail == NULL)
    return NULL;
  if (title != NULL && detail != NULL && !g_str_equal (title, detail))
    line = g_strdup_printf ("%s: %s", title, detail);
  else
    line = g_strdup (detail != NULL ? detail : title);
  return shorten (line);
}

static gboolean
holds_any (const char *text, const char *const *words)
{
  for (guint i = 0; text != NULL && words != NULL && words[i] != NULL; i++)
    if (*words[i] != '\0' && strstr (text, words[i]) != NULL)
      return TRUE;
  return FALSE;
}

char *
hs_post_problem_read (const char *text, gsize length)
{
  return hs_post_problem_read_but (text, length, NULL);
}

char *
hs_post_problem_read_but (const char *text, gsize length, const char *const *never)
{
  Walk walk = { text, text + length };
  g_autofree char *title = NULL;
  g_autofree char *detail = NULL;
  g_autofree char *clean_title = NULL;
  g_autofree char *clean_detail = NULL;

  if (length > HS_POST_PROBLEM_BYTES || !g_utf8_validate_len (text, length, NULL))
    return NULL;
  skip_blanks (&walk);
  if (!take (&walk, '{') || !walk_object (&walk, 1, &title, &detail))
    return NULL;
  skip_blanks (&walk);
  if (walk.at != walk.end || holds_any (title, never) || holds_any (detail, never))
    return NULL;
  clean_title = clean (title);
  clean_detail = clean (detail);
  return join (clean_title, clean_detail);
}
