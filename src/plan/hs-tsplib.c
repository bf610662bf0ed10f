// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The reader of TSPLIB's text format: a part of KEY: VALUE lines, then sections of numbers. Nothing is skipped in
 * silence but comments and how a map would show the nodes: a key that is not known could change the problem. */

#include "hs-tsplib.h"

#include "hs-decimal.h"
#include "hs-plan-error.h"
#include "hs-tsplib-distance.h"

#include <math.h>
#include <string.h>

#define MAX_WORD 63

typedef enum
{
  KEY_NAME,
  KEY_TYPE,
  KEY_DIMENSION,
  KEY_WEIGHT_TYPE,
  KEY_WEIGHT_FORMAT,
  KEY_NO_MATTER,
  KEY_COORDINATES,
  KEY_WEIGHTS,
  KEY_DISPLAY,
  KEY_EOF,
} KeyId;

typedef struct
{
  const char *name;
  KeyId id;
} Key;

static const Key keys[] = {
  { "NAME", KEY_NAME },
  { "TYPE", KEY_TYPE },
  { "COMMENT", KEY_NO_MATTER },
  { "DIMENSION", KEY_DIMENSION },
  { "EDGE_WEIGHT_TYPE", KEY_WEIGHT_TYPE },
  { "EDGE_WEIGHT_FORMAT", KEY_WEIGHT_FORMAT },
  { "NODE_COORD_TYPE", KEY_NO_MATTER },
  { "DISPLAY_DATA_TYPE", KEY_NO_MATTER },
  { "NODE_COORD_SECTION", KEY_COORDINATES },
  { "EDGE_WEIGHT_SECTION", KEY_WEIGHTS },
  { "DISPLAY_DATA_SECTION", KEY_DISPLAY },
  { "EOF", KEY_EOF },
};

/* Which part of the matrix a format writes, row after row: from column i + @from_add (or 0) to column i + @to_add (or
 * the last one). A format by columns of one triangle is the other triangle by rows. */
typedef struct
{
  const char *name;
  gboolean whole;
  gboolean upper;
  gboolean diagonal;
} MatrixFormat;

static const MatrixFormat formats[] = {
  { "FULL_MATRIX", TRUE, FALSE, TRUE },     { "UPPER_ROW", FALSE, TRUE, FALSE },
  { "LOWER_ROW", FALSE, FALSE, FALSE },     { "UPPER_DIAG_ROW", FALSE, TRUE, TRUE },
  { "LOWER_DIAG_ROW", FALSE, FALSE, TRUE }, { "UPPER_COL", FALSE, FALSE, FALSE },
  { "LOWER_COL", FALSE, TRUE, FALSE },      { "UPPER_DIAG_COL", FALSE, FALSE, TRUE },
  { "LOWER_DIAG_COL", FALSE, TRUE, TRUE },
};

static const char *const types[] = {
  [HS_TSPLIB_TSP] = "TSP",
  [HS_TSPLIB_ATSP] = "ATSP",
  [HS_TSPLIB_SOP] = "SOP",
};

typedef struct
{
  const char *at;
  const char *end;
  guint line;
  const char *field;
  guint32 seen;
  gboolean has_type;
  gboolean has_measure;
  const HsTsplibMeasure *measure;
  const MatrixFormat *format;
  double *points;
  guint8 *has_point;
  HsTsplib *file;
  GError **error;
} Reader;

static gboolean G_GNUC_PRINTF (2, 3)
refuse (Reader *reader, const char *message, ...)
{
  g_autofree char *reason = NULL;
  va_list arguments;

  va_start (arguments, message);
  reason = g_strdup_vprintf (message, arguments);
  va_end (arguments);
  g_set_error (reader->error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "line %u, %s: %s", reader->line, reader->field,
               reason);
  return FALSE;
}

static guint
count_nodes (const Reader *reader)
{
  return reader->file->problem != NULL ? reader->file->problem->n : 0;
}

static void
skip_blanks (Reader *reader)
{
  for (; reader->at < reader->end && g_ascii_isspace (*reader->at); reader->at++)
    if (*reader->at == '\n')
      reader->line++;
}

/* Whether a number, or what was meant as one, comes next: all keys begin with a letter. */
static gboolean
is_number_next (Reader *reader)
{
  skip_blanks (reader);
  return reader->at < reader->end && !g_ascii_isalpha (*reader->at);
}

/* The next run of letters that are not blank; FALSE when it is too long for a number. */
static gboolean
take_word (Reader *reader, char *word)
{
  gsize length = 0;

  skip_blanks (reader);
  while (reader->at + length < reader->end && !g_ascii_isspace (reader->at[length]))
    {
      if (length == MAX_WORD || reader->at[length] == '\0')
        return refuse (reader, "is not a number");
      length++;
    }
  memcpy (word, reader->at, length);
  word[length] = '\0';
  reader->at += length;
  return TRUE;
}

static gboolean
take_integer (Reader *reader, gint64 *ret_value)
{
  char word[MAX_WORD + 1];

  if (!take_word (reader, word))
    return FALSE;
  if (!hs_decimal_parse (word, 0, ret_value, NULL))
    return refuse (reader, "“%s” is not a whole number", word);
  return TRUE;
}

static gboolean
take_real (Reader *reader, double *ret_value)
{
  char word[MAX_WORD + 1];
  char *end = NULL;

  if (!take_word (reader, word))
    return FALSE;
  *ret_value = g_ascii_strtod (word, &end);
  if (word[strspn (word, "+-.0123456789eE")] != '\0' || end == word || *end != '\0' || !isfinite (*ret_value))
    return refuse (reader, "“%s” is not a number", word);
  return TRUE;
}

static gboolean
check_room (Reader *reader)
{
  if (count_nodes (reader) == 0)
    return refuse (reader, "DIMENSION must come before it");
  return TRUE;
}

static gboolean
read_dimension (Reader *reader, const char *value)
{
  gint64 n;

  if (!hs_decimal_parse (value, 0, &n, NULL) || n < 1)
    return refuse (reader, "“%s” is not a number of nodes", value);
  if (n > HS_TOUR_MAX_NODES)
    return refuse (reader, "%s nodes are too many: up to %d can be planned", value, HS_TOUR_MAX_NODES);
  reader->file->problem = hs_tour_problem_new ((guint) n);
  return TRUE;
}

/* Only the first word counts: some files name a person behind it. */
static gboolean
read_type (Reader *reader, const char *value)
{
  g_auto (GStrv) words = g_strsplit_set (value, " \t", 2);

  for (guint i = 0; i < G_N_ELEMENTS (types); i++)
    if (g_strcmp0 (words[0], types[i]) == 0)
      {
        reader->file->type = (HsTsplibType) i;
        reader->has_type = TRUE;
        return TRUE;
      }
  return refuse (reader, "“%s” is not planned here: it is one of TSP, ATSP, SOP", value);
}

static gboolean
read_weight_type (Reader *reader, const char *value)
{
  reader->measure = hs_tsplib_measure_find (value);
  reader->has_measure = TRUE;
  if (reader->measure == NULL && !g_str_equal (value, "EXPLICIT"))
    return refuse (reader, "“%s” is not known", value);
  return TRUE;
}

static gboolean
read_weight_format (Reader *reader, const char *value)
{
  for (guint i = 0; i < G_N_ELEMENTS (formats); i++)
    if (g_str_equal (formats[i].name, value))
      reader->format = &formats[i];
  if (reader->format == NULL && !g_str_equal (value, "FUNCTION"))
    return refuse (reader, "“%s” is not known", value);
  return TRUE;
}

static gboolean
read_point (Reader *reader)
{
  const HsTsplibMeasure *measure = reader->measure;
  gint64 node;
  double *point;

  if (!take_integer (reader, &node))
    return FALSE;
  if (node < 1 || node > count_nodes (reader))
    return refuse (reader, "node %" G_GINT64_FORMAT " is not one of 1 to %u", node, count_nodes (reader));
  if (reader->has_point[node - 1])
    return refuse (reader, "node %" G_GINT64_FORMAT " is there twice", node);
  reader->has_point[node - 1] = 1;
  point = &reader->points[3 * (node - 1)];
  for (guint i = 0; i < measure->dimensions; i++)
    if (!is_number_next (reader))
      return refuse (reader, "node %" G_GINT64_FORMAT " has too few coordinates", node);
    else if (!take_real (reader, &point[i]))
      return FALSE;
  if (measure->on_globe && (fabs (point[0]) > 90 || fabs (point[1]) > 180))
    return refuse (reader, "node %" G_GINT64_FORMAT " is off the globe", node);
  return TRUE;
}

static gboolean
read_points (Reader *reader)
{
  guint n = count_nodes (reader);
  guint read = 0;

  if (!check_room (reader))
    return FALSE;
  if (reader->measure == NULL)
    return refuse (reader, "EDGE_WEIGHT_TYPE before it must say how far apart points are");
  reader->points = g_new0 (double, (gsize) 3 * n);
  reader->has_point = g_new0 (guint8, n);
  for (; is_number_next (reader); read++)
    if (read == n)
      return refuse (reader, "there are more than %u nodes", n);
    else if (!read_point (reader))
      return FALSE;
  if (read < n)
    return refuse (reader, "there are %u nodes instead of %u", read, n);
  return TRUE;
}

/* How many numbers there are up to the next key; the reader stays where it is. */
static gsize
count_numbers (const Reader *reader)
{
  gsize count = 0;

  for (const char *at = reader->at; at < reader->end; count++)
    {
      while (at < reader->end && g_ascii_isspace (*at))
        at++;
      if (at == reader->end || g_ascii_isalpha (*at))
        break;
      while (at < reader->end && !g_ascii_isspace (*at))
        at++;
    }
  return count;
}

static gboolean
take_weight (Reader *reader, guint row, guint column)
{
  HsTourProblem *problem = reader->file->problem;
  gboolean is_sop = reader->has_type && reader->file->type == HS_TSPLIB_SOP;
  gint64 value;

  if (!is_number_next (reader))
    return refuse (reader, "it ends before the leg from node %u to node %u", row + 1, column + 1);
  if (!take_integer (reader, &value))
    return FALSE;
  if (row == column)
    return TRUE;
  if (value < (is_sop ? -1 : 0))
    return refuse (reader, "the leg from node %u to node %u is below zero", row + 1, column + 1);
  if (value > HS_TOUR_MAX_COST)
    return refuse (reader, "the leg from node %u to node %u is above %d", row + 1, column + 1, HS_TOUR_MAX_COST);
  hs_tour_problem_set_cost (problem, row, column, (gint32) value);
  if (!reader->format->whole)
    hs_tour_problem_set_cost (problem, column, row, (gint32) value);
  return TRUE;
}

/* Files of type SOP may say the dimension once more before the matrix. */
static gboolean
skip_dimension_again (Reader *reader)
{
  gsize n = count_nodes (reader);
  gint64 again;

  if (!reader->has_type || reader->file->type != HS_TSPLIB_SOP || !reader->format->whole
      || count_numbers (reader) != n * n + 1)
    return TRUE;
  if (!take_integer (reader, &again))
    return FALSE;
  return again == (gint64) n || refuse (reader, "there are more numbers than %u × %u", (guint) n, (guint) n);
}

static gboolean
read_weights (Reader *reader)
{
  const MatrixFormat *format = reader->format;
  guint n = count_nodes (reader);

  if (!check_room (reader))
    return FALSE;
  if (!reader->has_measure || reader->measure != NULL)
    return refuse (reader, "EDGE_WEIGHT_TYPE before it must be EXPLICIT");
  if (format == NULL)
    return refuse (reader, "EDGE_WEIGHT_FORMAT before it must say how it is written");
  if (!reader->has_type)
    return refuse (reader, "TYPE must come before it");
  if (!skip_dimension_again (reader))
    return FALSE;
  for (guint i = 0; i < n; i++)
    {
      guint from = format->whole || !format->upper ? 0 : i + !format->diagonal;
      guint to = format->whole || format->upper ? n : i + format->diagonal;

      for (guint j = from; j < to; j++)
        if (!take_weight (reader, i, j))
          return FALSE;
    }
  if (is_number_next (reader))
    return refuse (reader, "there are more numbers than a matrix of %u nodes has", n);
  return TRUE;
}

static gboolean
skip_numbers (Reader *reader)
{
  char word[MAX_WORD + 1];

  while (is_number_next (reader))
    if (!take_word (reader, word))
      return FALSE;
  return TRUE;
}

/* The rest of the line, without its blanks and the colon before it. */
static char *
take_value (Reader *reader)
{
  const char *from = reader->at;
  gsize length;
  char *value;

  while (reader->at < reader->end && *reader->at != '\n')
    reader->at++;
  length = (gsize) (reader->at - from);
  value = g_strstrip (g_strndup (from, length));
  if (*value == ':')
    memmove (value, value + 1, strlen (value));
  return g_strstrip (value);
}

static const Key *
take_key (Reader *reader)
{
  gsize length = 0;

  while (reader->at + length < reader->end && (g_ascii_isalnum (reader->at[length]) || reader->at[length] == '_'))
    length++;
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (strlen (keys[i].name) == length && memcmp (keys[i].name, reader->at, length) == 0)
      {
        reader->at += length;
        reader->field = keys[i].name;
        return &keys[i];
      }
  return NULL;
}

static gboolean
read_unknown (Reader *reader)
{
  g_autofree char *line = take_value (reader);
  g_autofree char *shown = g_utf8_make_valid (line, (gssize) MIN (strlen (line), MAX_WORD));

  reader->field = "the text";
  return refuse (reader, "“%s” is not known", shown);
}

static gboolean
read_section (Reader *reader, const Key *key)
{
  if (key->id == KEY_COORDINATES)
    return read_points (reader);
  if (key->id == KEY_WEIGHTS)
    return read_weights (reader);
  return skip_numbers (reader);
}

static gboolean
read_entry (Reader *reader, const Key *key)
{
  g_autofree char *value = take_value (reader);

  if (!g_utf8_validate (value, -1, NULL))
    return key->id == KEY_NO_MATTER || refuse (reader, "is not text in UTF-8");
  if (key->id == KEY_TYPE)
    return read_type (reader, value);
  if (key->id == KEY_DIMENSION)
    return read_dimension (reader, value);
  if (key->id == KEY_WEIGHT_TYPE)
    return read_weight_type (reader, value);
  if (key->id == KEY_WEIGHT_FORMAT)
    return read_weight_format (reader, value);
  if (key->id == KEY_NAME)
    reader->file->name = g_steal_pointer (&value);
  return TRUE;
}

static gboolean
read_part (Reader *reader)
{
  const Key *key = take_key (reader);
  guint32 bit;

  if (key == NULL)
    return read_unknown (reader);
  if (key->id == KEY_EOF)
    {
      reader->at = reader->end;
      return TRUE;
    }
  bit = 1u << key->id;
  if (key->id != KEY_NO_MATTER && (reader->seen & bit) != 0)
    return refuse (reader, "is there twice");
  reader->seen |= bit;
  if (key->id < KEY_COORDINATES)
    return read_entry (reader, key);
  g_free (take_value (reader));
  return read_section (reader, key);
}

static gboolean
measure_legs (Reader *reader)
{
  HsTourProblem *problem = reader->file->problem;

  reader->field = "NODE_COORD_SECTION";
  for (guint i = 0; i < problem->n; i++)
    for (guint j = 0; j < i; j++)
      {
        double leg = reader->measure->distance (&reader->points[3 * i], &reader->points[3 * j]);

        if (!(leg >= 0 && leg <= HS_TOUR_MAX_COST))
          return refuse (reader, "nodes %u and %u are more than %d apart", j + 1, i + 1, HS_TOUR_MAX_COST);
        hs_tour_problem_set_cost (problem, i, j, (gint32) leg);
        hs_tour_problem_set_cost (problem, j, i, (gint32) leg);
      }
  return TRUE;
}

static gboolean
check_alike (Reader *reader)
{
  const HsTourProblem *problem = reader->file->problem;
  guint n = problem->n;

  reader->field = "EDGE_WEIGHT_SECTION";
  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < i; j++)
      if (problem->costs[i * n + j] != problem->costs[j * n + i])
        return refuse (reader, "the legs between nodes %u and %u differ, which needs TYPE ATSP", j + 1, i + 1);
  return TRUE;
}

/* A leg of −1 says that the node it leads to comes first. */
static void
take_orders (HsTourProblem *problem)
{
  guint n = problem->n;

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < n; j++)
      {
        if (i == j || problem->costs[i * n + j] >= 0)
          continue;
        hs_tour_problem_set_cost (problem, i, j, 0);
        if (i != n - 1 && j != 0)
          hs_tour_problem_add_order (problem, j, i);
      }
  for (guint i = 1; i + 1 < n; i++)
    hs_tour_problem_add_order (problem, i, n - 1);
  if (n > 1)
    hs_tour_problem_set_cost (problem, n - 1, 0, 0);
}

static gboolean
finish (Reader *reader)
{
  HsTourProblem *problem = reader->file->problem;

  reader->field = "the end";
  if (problem == NULL)
    return refuse (reader, "DIMENSION is missing");
  if (!reader->has_type)
    return refuse (reader, "TYPE is missing");
  if (!reader->has_measure)
    return refuse (reader, "EDGE_WEIGHT_TYPE is missing");
  if (reader->measure != NULL && reader->points == NULL)
    return refuse (reader, "NODE_COORD_SECTION is missing");
  if (reader->measure == NULL && (reader->seen & 1u << KEY_WEIGHTS) == 0)
    return refuse (reader, "EDGE_WEIGHT_SECTION is missing");
  if (reader->measure != NULL && !measure_legs (reader))
    return FALSE;
  if (reader->file->type == HS_TSPLIB_TSP && !check_alike (reader))
    return FALSE;
  if (reader->file->type == HS_TSPLIB_SOP)
    take_orders (problem);
  return TRUE;
}

HsTsplib *
hs_tsplib_parse (const char *text, gsize length, GError **error)
{
  g_autoptr (HsTsplib) file = g_new0 (HsTsplib, 1);
  Reader reader = { text, text + length, 1, "the text", .file = file, .error = error };
  gboolean good = TRUE;

  for (skip_blanks (&reader); good && reader.at < reader.end; skip_blanks (&reader))
    good = read_part (&reader);
  good = good && finish (&reader);
  g_free (reader.points);
  g_free (reader.has_point);
  if (!good)
    return NULL;
  if (!hs_tour_problem_check (file->problem, error))
    {
      g_prefix_error (error, "line %u, EDGE_WEIGHT_SECTION: ", reader.line);
      return NULL;
    }
  return g_steal_pointer (&file);
}

void
hs_tsplib_free (HsTsplib *tsplib)
{
  if (tsplib == NULL)
    return;
  g_free (tsplib->name);
  hs_tour_problem_free (tsplib->problem);
  g_free (tsplib);
}
