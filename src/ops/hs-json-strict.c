// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Walks over a JSON text by its grammar (RFC 8259, section 2 to 7) and keeps nothing of it. Use it before a parser; it
 * refuses all that is not exactly JSON. */

#include "hs-json-strict.h"

#include "hs-ops-error.h"

#include <json-glib/json-glib.h>
#include <string.h>

#define MAX_DIGITS 18

typedef struct
{
  const char *what;
  const char *at;
  const char *end;
  guint line;
  guint depth;
  GString *path;
  GError **error;
} Walk;

static gboolean walk_value (Walk *walk);

static gboolean
refuse (Walk *walk, const char *why)
{
  g_set_error (walk->error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, "%s: line %u: %s",
               walk->path->len > 0 ? walk->path->str : walk->what, walk->line, why);
  return FALSE;
}

/* The next character, or a zero at the end. */
static char
peek (const Walk *walk)
{
  return walk->at < walk->end ? *walk->at : '\0';
}

static char
skip_blank (Walk *walk)
{
  for (; walk->at < walk->end && strchr (" \t\r\n", *walk->at) != NULL && *walk->at != '\0'; walk->at++)
    if (*walk->at == '\n')
      walk->line++;
  return peek (walk);
}

static gboolean
take (Walk *walk, char wanted)
{
  if (peek (walk) != wanted || walk->at == walk->end)
    return FALSE;
  walk->at++;
  return TRUE;
}

static guint
take_digits (Walk *walk)
{
  const char *from = walk->at;

  while (g_ascii_isdigit (peek (walk)))
    walk->at++;
  return (guint) (walk->at - from);
}

static gboolean
walk_number (Walk *walk)
{
  gboolean zero;
  guint n_digits;

  take (walk, '-');
  zero = peek (walk) == '0';
  n_digits = take_digits (walk);
  if (n_digits == 0 || (zero && n_digits > 1))
    return refuse (walk, n_digits == 0 ? "a value is missing" : "a number starts with 0");
  if (n_digits > MAX_DIGITS)
    return refuse (walk, "is too large");
  if (take (walk, '.') && take_digits (walk) == 0)
    return refuse (walk, "a digit is missing after the point");
  if (take (walk, 'e') || take (walk, 'E'))
    {
      if (!take (walk, '+'))
        take (walk, '-');
      if (take_digits (walk) == 0)
        return refuse (walk, "a digit is missing in the exponent");
    }
  return TRUE;
}

static gboolean
take_unit (Walk *walk, guint *ret_unit)
{
  guint unit = 0;

  for (guint i = 0; i < 4; i++, walk->at++)
    {
      if (!g_ascii_isxdigit (peek (walk)))
        return refuse (walk, "\\u wants four digits of base 16");
      unit = unit * 16 + (guint) g_ascii_xdigit_value (*walk->at);
    }
  *ret_unit = unit;
  return TRUE;
}

/* What follows "\u". */
static gboolean
walk_unit (Walk *walk)
{
  guint unit = 0;
  guint second = 0;

  if (!take_unit (walk, &unit))
    return FALSE;
  if (unit == 0)
    return refuse (walk, "a text holds a zero character");
  if (unit >= 0xd800 && unit < 0xdc00 && take (walk, '\\') && take (walk, 'u') && !take_unit (walk, &second))
    return FALSE;
  if (unit >= 0xd800 && unit < 0xe000 && (unit >= 0xdc00 || second < 0xdc00 || second >= 0xe000))
    return refuse (walk, "half of a surrogate pair stands alone");
  return TRUE;
}

/* What follows a backslash. */
static gboolean
walk_escape (Walk *walk)
{
  char next = peek (walk);

  if (next == '\0' || strchr ("\"\\/bfnrtu", next) == NULL)
    return refuse (walk, "what follows \\ is not an escape");
  walk->at++;
  return next != 'u' || walk_unit (walk);
}

static gboolean
walk_text (Walk *walk)
{
  if (!take (walk, '"'))
    return refuse (walk, "a text in \" is missing");
  while (!take (walk, '"'))
    {
      if (walk->at == walk->end)
        return refuse (walk, "a text has no end");
      if ((guchar) *walk->at < 0x20)
        return refuse (walk, "a text holds a control character");
      if (!take (walk, '\\'))
        walk->at++;
      else if (!walk_escape (walk))
        return FALSE;
    }
  return TRUE;
}

static gboolean
walk_word (Walk *walk)
{
  static const char *const words[] = { "true", "false", "null" };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      gsize length = strlen (words[i]);

      if ((gsize) (walk->end - walk->at) >= length && memcmp (walk->at, words[i], length) == 0)
        {
          walk->at += length;
          return !g_ascii_isalnum (peek (walk)) || refuse (walk, "a value is missing");
        }
    }
  return refuse (walk, "a value is missing");
}

static gboolean
walk_list (Walk *walk)
{
  gsize before = walk->path->len;
  guint index = 0;

  if (skip_blank (walk) == ']')
    return take (walk, ']');
  do
    {
      g_string_append_printf (walk->path, "[%u]", index++);
      if (!walk_value (walk))
        return FALSE;
      g_string_truncate (walk->path, before);
      skip_blank (walk);
    }
  while (take (walk, ','));
  return take (walk, ']') || refuse (walk, "a comma or ] is missing");
}

/* A checked text, with its quotes, as it reads: one name may be spelled in several ways. */
static char *
dup_plain (const char *from, gsize length)
{
  g_autofree char *list = g_strdup_printf ("[%.*s]", (int) length, from);
  g_autoptr (JsonNode) node = json_from_string (list, NULL);

  return g_strdup (json_array_get_string_element (json_node_get_array (node), 0));
}

/* A key, the colon and the value. */
static gboolean
walk_member (Walk *walk, GHashTable *seen)
{
  gsize before = walk->path->len;
  const char *from;
  char *key;

  skip_blank (walk);
  from = walk->at;
  if (!walk_text (walk))
    return FALSE;
  key = dup_plain (from, (gsize) (walk->at - from));
  g_string_append_printf (walk->path, "%s%s", before > 0 ? "." : "", key);
  if (!g_hash_table_add (seen, key))
    return refuse (walk, "stands twice");
  skip_blank (walk);
  if (!take (walk, ':'))
    return refuse (walk, "a colon is missing");
  if (!walk_value (walk))
    return FALSE;
  g_string_truncate (walk->path, before);
  return TRUE;
}

static gboolean
walk_object (Walk *walk)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  if (skip_blank (walk) == '}')
    return take (walk, '}');
  do
    {
      if (!walk_member (walk, seen))
        return FALSE;
      skip_blank (walk);
    }
  while (take (walk, ','));
  return take (walk, '}') || refuse (walk, "a comma or } is missing");
}

static gboolean
walk_value (Walk *walk)
{
  char first = skip_blank (walk);
  gboolean whole;

  if (first == '"')
    return walk_text (walk);
  if (first == '-' || g_ascii_isdigit (first))
    return walk_number (walk);
  if (first != '{' && first != '[')
    return walk_word (walk);
  if (walk->depth == HS_JSON_STRICT_DEPTH)
    return refuse (walk, "is nested too deeply");
  walk->depth++;
  walk->at++;
  whole = first == '{' ? walk_object (walk) : walk_list (walk);
  walk->depth--;
  return whole;
}

gboolean
hs_json_strict_check (const char *what, const char *text, gsize length, GError **error)
{
  g_autoptr (GString) path = g_string_new (NULL);
  g_autoptr (GError) local = NULL;
  Walk walk = { what, text, text + length, 1, 0, path, &local };

  if (length > G_MAXINT32 || !g_utf8_validate (text, (gssize) length, NULL))
    {
      g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, "%s: is not UTF-8 text", what);
      return FALSE;
    }
  if (length >= 3 && memcmp (text, "\xef\xbb\xbf", 3) == 0)
    walk.at += 3;
  if (walk_value (&walk))
    {
      skip_blank (&walk);
      if (walk.at == walk.end || refuse (&walk, "something follows the end"))
        return TRUE;
    }
  g_propagate_error (error, g_steal_pointer (&local));
  return FALSE;
}
