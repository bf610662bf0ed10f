// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Reads public test problems with one vehicle and time windows. It works on bytes, never rounds, and refuses what it
 * would have to guess. */

#include "hs-tsptw-read.h"

#include "hs-decimal.h"
#include "hs-plan-error.h"

/* Longer words are no numbers that fit. */
#define MAX_WORD 40

/**
 * Reader: where it is in the text.
 * @decimals: how many places are kept, once all are seen; in the first round the most seen so far
 */
typedef struct
{
  const char *at;
  const char *end;
  guint line;
  guint decimals;
  gboolean measuring;
} Reader;

static gboolean
refuse (const Reader *reader, const char *field, const char *reason, GError **error)
{
  g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "line %u: %s: %s", reader->line, field, reason);
  return FALSE;
}

static gboolean
is_blank (char letter)
{
  return letter == ' ' || letter == '\t' || letter == '\r' || letter == '\f' || letter == '\v';
}

static void
skip_line (Reader *reader)
{
  while (reader->at < reader->end && *reader->at != '\n')
    reader->at++;
}

/* Goes to the next word on this line; FALSE at its end. */
static gboolean
find_word (Reader *reader)
{
  while (reader->at < reader->end && is_blank (*reader->at))
    reader->at++;
  if (reader->at < reader->end && *reader->at == '#')
    skip_line (reader);
  return reader->at < reader->end && *reader->at != '\n';
}

/* Goes to the next word on this line or a later one; FALSE at the end of the text. */
static gboolean
find_word_below (Reader *reader)
{
  while (!find_word (reader))
    {
      if (reader->at == reader->end)
        return FALSE;
      reader->at++;
      reader->line++;
    }
  return TRUE;
}

static guint
count_decimals (const char *word)
{
  const char *point = strchr (word, '.');
  gsize length = point == NULL ? 0 : strlen (point + 1);

  while (length > 0 && point[length] == '0')
    length--;
  return (guint) length;
}

static gboolean
take_number (Reader *reader, const char *field, gint64 *ret_value, GError **error)
{
  char word[MAX_WORD + 1];
  gsize length = 0;
  guint decimals;
  g_autoptr (GError) local_error = NULL;

  if (!find_word_below (reader))
    return refuse (reader, field, "the file ends before it", error);
  while (reader->at < reader->end && !is_blank (*reader->at) && *reader->at != '\n' && *reader->at != '#')
    {
      if (length == MAX_WORD || !g_ascii_isprint (*reader->at))
        return refuse (reader, field, "is not a number", error);
      word[length++] = *reader->at++;
    }
  word[length] = '\0';
  decimals = MIN (count_decimals (word), HS_DECIMAL_MOST);
  if (reader->measuring)
    reader->decimals = MAX (reader->decimals, decimals);
  else
    decimals = reader->decimals;
  if (!hs_decimal_parse (word, decimals, ret_value, &local_error))
    return refuse (reader, field, local_error->message, error);
  if (*ret_value < 0)
    return refuse (reader, field, "is below zero", error);
  if (!reader->measuring && *ret_value > HS_TSPTW_MAX_VALUE)
    return refuse (reader, field, "is too large", error);
  return TRUE;
}

static gboolean
read_count (Reader *reader, guint *ret_nodes, GError **error)
{
  gint64 nodes;
  guint decimals = reader->decimals;
  gboolean measuring = reader->measuring;
  gboolean taken;

  reader->measuring = FALSE;
  reader->decimals = 0;
  taken = take_number (reader, "number of nodes", &nodes, error);
  reader->measuring = measuring;
  reader->decimals = decimals;
  if (!taken)
    return FALSE;
  if (nodes < 1 || nodes > HS_TSPTW_MAX_NODES)
    return refuse (reader, "number of nodes", "must be from 1 to 512", error);
  if (find_word (reader))
    return refuse (reader, "number of nodes", "must stand alone on its line", error);
  *ret_nodes = (guint) nodes;
  return TRUE;
}

/* A row that ends amid a line: one that took numbers of the line below was short itself. */
static gboolean
refuse_row (Reader *reader, guint row, guint first_line, guint n_first, guint n_nodes, GError **error)
{
  char field[48];
  char reason[64];

  g_snprintf (field, sizeof field, "legs from %u", row);
  if (reader->line == first_line)
    return refuse (reader, field, "the row has more numbers than there are nodes", error);
  reader->line = first_line;
  g_snprintf (reason, sizeof reason, "the row has only %u of %u numbers", n_first, n_nodes);
  return refuse (reader, field, reason, error);
}

static gboolean
read_row (Reader *reader, HsTsptw *problem, guint row, GError **error)
{
  char field[48];
  guint first_line = 0;
  guint n_first = 0;

  for (guint column = 0; column < problem->n_nodes; column++)
    {
      g_snprintf (field, sizeof field, "leg from %u to %u", row, column);
      if (!take_number (reader, field, &problem->drive[row * problem->n_nodes + column], error))
        return FALSE;
      if (column == 0)
        first_line = reader->line;
      n_first += reader->line == first_line;
    }
  return !find_word (reader) || refuse_row (reader, row, first_line, n_first, problem->n_nodes, error);
}

static gboolean
read_window (Reader *reader, HsTsptw *problem, guint node, GError **error)
{
  char field[48];

  g_snprintf (field, sizeof field, "window of %u", node);
  if (!take_number (reader, field, &problem->from[node], error))
    return FALSE;
  if (!find_word (reader))
    return refuse (reader, field, "has a begin without an end", error);
  if (!take_number (reader, field, &problem->to[node], error))
    return FALSE;
  if (!reader->measuring && problem->to[node] < problem->from[node])
    return refuse (reader, field, "ends before it begins", error);
  skip_line (reader);
  return TRUE;
}

/* Some public files end with the mark 999; whatever follows it is no part of the problem. */
static gboolean
check_end (Reader *reader, GError **error)
{
  gsize length = 0;

  if (!find_word_below (reader))
    return TRUE;
  while (reader->at + length < reader->end && g_ascii_isalnum (reader->at[length]))
    length++;
  return (length == 3 && memcmp (reader->at, "999", 3) == 0)
         || refuse (reader, "end", "nothing may stand behind the last window", error);
}

static HsTsptw *
read_all (Reader *reader, GError **error)
{
  g_autoptr (HsTsptw) problem = NULL;
  guint n_nodes;

  if (!read_count (reader, &n_nodes, error))
    return NULL;
  problem = hs_tsptw_new (n_nodes);
  for (guint row = 0; row < n_nodes; row++)
    if (!read_row (reader, problem, row, error))
      return NULL;
  for (guint node = 0; node < n_nodes; node++)
    if (!read_window (reader, problem, node, error))
      return NULL;
  if (!check_end (reader, error))
    return NULL;
  problem->decimals = reader->decimals;
  return g_steal_pointer (&problem);
}

/* A first round sees how many decimals there are, a second one keeps them. */
gboolean
hs_tsptw_read (const char *text, gsize length, HsTsptw **ret_problem, GError **error)
{
  Reader measure = { text, text + length, 1, 0, TRUE };
  Reader keep = { text, text + length, 1, 0, FALSE };
  g_autoptr (HsTsptw) measured = read_all (&measure, error);
  HsTsptw *problem;

  if (measured == NULL)
    return FALSE;
  keep.decimals = measure.decimals;
  problem = read_all (&keep, error);
  if (problem == NULL)
    return FALSE;
  *ret_problem = problem;
  return TRUE;
}
