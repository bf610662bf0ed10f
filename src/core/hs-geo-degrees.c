// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Latitude and longitude as people write them: degrees, degrees and minutes, degrees, minutes and seconds, with signs
 * or letters, in ASCII or with the proper marks. The text is cut into tokens, the tokens into two halves, and each half
 * is read. Refuses what could be read in two ways.
 */

#include "hs-geo.h"

#include "hs-core-error.h"
#include "hs-geo-private.h"

#include <math.h>
#include <string.h>

typedef enum
{
  TOKEN_NUMBER,
  TOKEN_DEGREE,
  TOKEN_MINUTE,
  TOKEN_SECOND,
  TOKEN_COLON,
  TOKEN_COMMA,
  TOKEN_LETTER,
} TokenKind;

typedef struct
{
  TokenKind kind;
  double value;
  gboolean is_signed;
  gboolean is_below;
  gboolean has_point;
  char letter;
} Token;

static const struct
{
  const char *mark;
  TokenKind kind;
} marks[] = {
  { "''", TOKEN_SECOND }, { "′′", TOKEN_SECOND }, { "\"", TOKEN_SECOND }, { "″", TOKEN_SECOND },
  { "”", TOKEN_SECOND },  { "'", TOKEN_MINUTE },  { "′", TOKEN_MINUTE },  { "’", TOKEN_MINUTE },
  { "°", TOKEN_DEGREE },  { "º", TOKEN_DEGREE },  { ":", TOKEN_COLON },   { ",", TOKEN_COMMA },
  { ";", TOKEN_COMMA },
};

static gboolean
take_mark (const char **at, GArray *tokens)
{
  for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
    if (g_str_has_prefix (*at, marks[i].mark))
      {
        Token token = { .kind = marks[i].kind };

        g_array_append_val (tokens, token);
        *at += strlen (marks[i].mark);
        return TRUE;
      }
  return FALSE;
}

/* A letter stands alone: the N of "40 N", not of "North". */
static gboolean
take_letter (const char **at, GArray *tokens)
{
  Token token = { .kind = TOKEN_LETTER, .letter = g_ascii_toupper (**at) };

  if (token.letter == '\0' || strchr ("NSEW", token.letter) == NULL || g_ascii_isalpha ((*at)[1]))
    return FALSE;
  g_array_append_val (tokens, token);
  (*at)++;
  return TRUE;
}

static gsize
sign_length (const char *at)
{
  return *at == '-' || *at == '+' ? 1 : g_str_has_prefix (at, "−") ? strlen ("−") : 0;
}

static gboolean
take_number (const char **at, GArray *tokens)
{
  gsize sign = sign_length (*at);
  const char *digits = *at + sign;
  gsize whole = strspn (digits, "0123456789");
  gsize fraction = digits[whole] == '.' ? strspn (digits + whole + 1, "0123456789") : 0;
  g_autofree char *text = NULL;
  Token token = { .kind = TOKEN_NUMBER, .is_signed = sign > 0, .is_below = sign > 0 && **at != '+',
                  .has_point = fraction > 0 };

  if (whole == 0 || (digits[whole] == '.' && fraction == 0))
    return FALSE;
  text = g_strndup (digits, whole + (fraction > 0 ? 1 + fraction : 0));
  token.value = g_ascii_strtod (text, NULL);
  g_array_append_val (tokens, token);
  *at = digits + strlen (text);
  return TRUE;
}

/* (nullable): %NULL if something is no part of a position. */
static GArray *
cut (const char *text)
{
  g_autoptr (GArray) tokens = g_array_new (FALSE, FALSE, sizeof (Token));
  const char *at = text;

  while (*at != '\0')
    {
      if (*at == ' ' || *at == '\t')
        at++;
      else if (g_str_has_prefix (at, "\302\240"))
        at += 2;
      else if (!take_number (&at, tokens) && !take_mark (&at, tokens) && !take_letter (&at, tokens))
        return NULL;
    }
  return g_steal_pointer (&tokens);
}

static const Token *
token_at (const GArray *tokens, guint index)
{
  return &g_array_index (tokens, Token, index);
}

static guint
count_kind (const GArray *tokens, TokenKind kind)
{
  guint count = 0;

  for (guint i = 0; i < tokens->len; i++)
    count += token_at (tokens, i)->kind == kind;
  return count;
}

/* Index of the @nth token of a kind, counted from 1; there must be as many. */
static guint
find_kind (const GArray *tokens, TokenKind kind, guint nth)
{
  guint i = 0;

  for (guint seen = token_at (tokens, 0)->kind == kind; seen < nth; seen += token_at (tokens, i)->kind == kind)
    i++;
  return i;
}

/* Where the second half begins; 0 if that cannot be told. A comma is skipped by the caller. */
static guint
find_split (const GArray *tokens)
{
  guint numbers = count_kind (tokens, TOKEN_NUMBER);
  guint commas = count_kind (tokens, TOKEN_COMMA);

  if (commas > 1 || numbers < 2)
    return 0;
  if (commas == 1)
    return find_kind (tokens, TOKEN_COMMA, 1);
  if (count_kind (tokens, TOKEN_LETTER) == 2)
    return token_at (tokens, 0)->kind == TOKEN_LETTER ? find_kind (tokens, TOKEN_LETTER, 2)
                                                      : find_kind (tokens, TOKEN_LETTER, 1) + 1;
  if (count_kind (tokens, TOKEN_DEGREE) == 2)
    return find_kind (tokens, TOKEN_DEGREE, 2) - 1;
  return numbers % 2 == 0 ? find_kind (tokens, TOKEN_NUMBER, numbers / 2 + 1) : 0;
}

typedef struct
{
  double degrees;
  char letter;
} Half;

/* The mark behind the number of this rank, if there is one: ° ′ ″, or a colon with a number behind. */
static gboolean
skip_mark (const GArray *tokens, guint *i, guint end, guint rank)
{
  TokenKind kind = *i < end ? token_at (tokens, *i)->kind : TOKEN_NUMBER;

  if (kind == TOKEN_NUMBER || kind == TOKEN_LETTER)
    return TRUE;
  (*i)++;
  if (kind == TOKEN_COLON)
    return rank < 2 && *i < end && token_at (tokens, *i)->kind == TOKEN_NUMBER;
  return kind == TOKEN_DEGREE + rank;
}

static gboolean
read_half (const GArray *tokens, guint begin, guint end, Half *half)
{
  static const double parts[] = { 1.0, 60.0, 3600.0 };
  guint i = begin, rank = 0;
  gboolean is_signed = FALSE, is_below = FALSE, has_point = FALSE;

  half->letter = '\0';
  half->degrees = 0.0;
  if (i < end && token_at (tokens, i)->kind == TOKEN_LETTER)
    half->letter = token_at (tokens, i++)->letter;
  for (; i < end && token_at (tokens, i)->kind == TOKEN_NUMBER; rank++)
    {
      const Token *number = token_at (tokens, i++);

      if (rank > 2 || has_point || (rank > 0 && (number->is_signed || number->value >= 60.0)))
        return FALSE;
      has_point = number->has_point;
      is_signed |= number->is_signed;
      is_below |= number->is_below;
      half->degrees += number->value / parts[rank];
      if (!skip_mark (tokens, &i, end, rank))
        return FALSE;
    }
  if (i < end && half->letter == '\0' && token_at (tokens, i)->kind == TOKEN_LETTER)
    half->letter = token_at (tokens, i++)->letter;
  if (is_below || half->letter == 'S' || half->letter == 'W')
    half->degrees = -half->degrees;
  return i == end && rank > 0 && !(is_signed && half->letter != '\0');
}

static gboolean
is_north_south (const Half *half)
{
  return half->letter == 'N' || half->letter == 'S';
}

/* Latitude first, unless the letters say otherwise; both have one or none. */
static gboolean
join_halves (const Half *first, const Half *second, HsGeo *geo)
{
  gboolean swapped = first->letter != '\0' && !is_north_south (first);

  if ((first->letter == '\0') != (second->letter == '\0'))
    return FALSE;
  if (first->letter != '\0' && is_north_south (first) == is_north_south (second))
    return FALSE;
  geo->latitude = swapped ? second->degrees : first->degrees;
  geo->longitude = swapped ? first->degrees : second->degrees;
  return TRUE;
}

static gboolean
read_halves (const GArray *tokens, HsGeo *geo)
{
  guint split = tokens->len > 0 ? find_split (tokens) : 0;
  Half first, second;
  guint begin;

  if (split == 0)
    return FALSE;
  begin = token_at (tokens, split)->kind == TOKEN_COMMA ? split + 1 : split;
  return read_half (tokens, 0, split, &first) && read_half (tokens, begin, tokens->len, &second)
         && join_halves (&first, &second, geo);
}

gboolean
hs_geo_is_meant (const char *text)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  g_autoptr (GArray) tokens = NULL;

  if (g_ascii_strncasecmp (trimmed, "geo:", 4) == 0)
    return TRUE;
  tokens = cut (trimmed);
  return tokens != NULL && count_kind (tokens, TOKEN_NUMBER) >= 2;
}

gboolean
hs_geo_parse (const char *text, HsGeo *ret_geo, GError **error)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  g_autoptr (GArray) tokens = NULL;
  HsGeo geo = { 0, 0, NAN, NAN };

  if (!hs_geo_check_size (text, error))
    return FALSE;
  if (g_ascii_strncasecmp (trimmed, "geo:", 4) == 0)
    return hs_geo_parse_uri (trimmed, ret_geo, error);
  tokens = cut (trimmed);
  if (tokens == NULL || !read_halves (tokens, &geo))
    return hs_core_bad_value (error, "“%s” is not a position: write latitude and longitude with a point for decimals, "
                              "like 40.7128, -74.006 or 40°42'46\"N 74°0'22\"W", text);
  return hs_geo_finish (trimmed, &geo, ret_geo, error);
}
