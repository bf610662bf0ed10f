// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Reads the text format of Solomon's sets. Every refusal names the line, the field and the reason. Nothing is guessed:
 * a line that is too short or too long, a number out of turn or a word where a number belongs stops the reading. */

#include "hs-vrptw-read.h"

#include "hs-decimal.h"
#include "hs-plan-error.h"

#define MOST_WORDS 16

/* A line cut into words; both live as long as the reader. */
typedef struct
{
  char *text;
  char *next;
  guint line;
  char *words[MOST_WORDS];
  guint n_words;
} Reader;

static const char *const columns[] = {
  "CUST NO.", "XCOORD.", "YCOORD.", "DEMAND", "READY TIME", "DUE DATE", "SERVICE TIME",
};

static gboolean refuse (const Reader *reader, const char *field, GError **error, const char *format, ...)
  G_GNUC_PRINTF (4, 5);

static gboolean
refuse (const Reader *reader, const char *field, GError **error, const char *format, ...)
{
  g_autofree char *why = NULL;
  va_list arguments;

  va_start (arguments, format);
  why = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, HS_PLAN_ERROR, HS_PLAN_ERROR_BAD_DAY, "line %u, %s: %s", reader->line, field, why);
  return FALSE;
}

/* Cuts the current line into words; what is beyond the last word that there is room for is counted, not kept. */
static void
cut_words (Reader *reader, char *line)
{
  char *at = line;

  reader->n_words = 0;
  while (*(at += strspn (at, " \t\f\v")) != '\0')
    {
      if (reader->n_words < MOST_WORDS)
        reader->words[reader->n_words] = at;
      reader->n_words++;
      at += strcspn (at, " \t\f\v");
      if (*at != '\0')
        *at++ = '\0';
    }
}

/* Goes to the next line that is not blank. */
static gboolean
next_line (Reader *reader)
{
  while (reader->next != NULL)
    {
      char *line = reader->next;
      char *end = line + strcspn (line, "\r\n");
      gboolean pair = end[0] == '\r' && end[1] == '\n';

      reader->line++;
      reader->next = *end == '\0' ? NULL : end + (pair ? 2 : 1);
      *end = '\0';
      cut_words (reader, line);
      if (reader->n_words > 0)
        return TRUE;
    }
  reader->n_words = 0;
  return FALSE;
}

static gboolean
expect_word (Reader *reader, const char *word, GError **error)
{
  if (!next_line (reader))
    return refuse (reader, word, error, "the file ends before it");
  if (reader->n_words != 1 || g_ascii_strcasecmp (reader->words[0], word) != 0)
    return refuse (reader, word, error, "this line should say %s and nothing else", word);
  return TRUE;
}

/* A line of column names: words, no number first. */
static gboolean
expect_heading (Reader *reader, const char *first, GError **error)
{
  if (!next_line (reader))
    return refuse (reader, first, error, "the file ends before the column names");
  if (g_ascii_strncasecmp (reader->words[0], first, strlen (first)) != 0)
    return refuse (reader, first, error, "column names that start with %s belong here", first);
  return TRUE;
}

static gboolean
read_number (const Reader *reader, guint word, const char *field, gint64 least, gint64 *ret_value, GError **error)
{
  g_autoptr (GError) cause = NULL;
  gint64 value;

  if (!hs_decimal_parse (reader->words[word], HS_VRPTW_DECIMALS, &value, &cause))
    return refuse (reader, field, error, "%s", cause->message);
  if (value < least)
    return refuse (reader, field, error, least == 0 ? "below zero" : "below minus a million");
  if (value > HS_VRPTW_MOST)
    return refuse (reader, field, error, "above a million");
  *ret_value = value;
  return TRUE;
}

static gboolean
read_whole (const Reader *reader, guint word, const char *field, guint *ret_value, GError **error)
{
  gint64 one = hs_decimal_power (HS_VRPTW_DECIMALS);
  gint64 value;

  if (!read_number (reader, word, field, 0, &value, error))
    return FALSE;
  if (value % one != 0)
    return refuse (reader, field, error, "not a whole number");
  *ret_value = (guint) (value / one);
  return TRUE;
}

static gboolean
read_vans (Reader *reader, guint *ret_vans, gint64 *ret_capacity, GError **error)
{
  if (!expect_word (reader, "VEHICLE", error) || !expect_heading (reader, "NUMBER", error))
    return FALSE;
  if (!next_line (reader))
    return refuse (reader, "NUMBER", error, "the file ends before it");
  if (reader->n_words != 2)
    return refuse (reader, "NUMBER", error, "the number of vans and their capacity belong here, two numbers");
  if (!read_whole (reader, 0, "NUMBER", ret_vans, error)
      || !read_number (reader, 1, "CAPACITY", 0, ret_capacity, error))
    return FALSE;
  if (*ret_vans == 0)
    return refuse (reader, "NUMBER", error, "there is no van");
  return TRUE;
}

/* What has to hold between the fields of a stop. */
static gboolean
check_stop (const Reader *reader, const HsVrptwStop *stop, gboolean is_home, GError **error)
{
  if (stop->due < stop->ready)
    return refuse (reader, columns[5], error, "before the ready time");
  if (is_home && stop->demand != 0)
    return refuse (reader, columns[3], error, "customer 0 is home and takes no load");
  if (is_home && stop->service != 0)
    return refuse (reader, columns[6], error, "customer 0 is home and takes no service");
  return TRUE;
}

static gboolean
read_stop (Reader *reader, GArray *stops, GError **error)
{
  HsVrptwStop stop;
  gint64 *const fields[] = { &stop.x, &stop.y, &stop.demand, &stop.ready, &stop.due, &stop.service };
  guint number;

  if (reader->n_words != G_N_ELEMENTS (columns))
    return refuse (reader, columns[0], error, "a customer has %u numbers, this line has %u",
                   (guint) G_N_ELEMENTS (columns), reader->n_words);
  if (!read_whole (reader, 0, columns[0], &number, error))
    return FALSE;
  if (number != stops->len)
    return refuse (reader, columns[0], error, "customer %u belongs here", stops->len);
  if (stops->len > HS_VRPTW_MAX_CUSTOMERS)
    return refuse (reader, columns[0], error, "more than %d customers", HS_VRPTW_MAX_CUSTOMERS);
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    if (!read_number (reader, i + 1, columns[i + 1], i < 2 ? -HS_VRPTW_MOST : 0, fields[i], error))
      return FALSE;
  if (!check_stop (reader, &stop, number == 0, error))
    return FALSE;
  g_array_append_val (stops, stop);
  return TRUE;
}

static gboolean
read_stops (Reader *reader, GArray *stops, GError **error)
{
  if (!expect_word (reader, "CUSTOMER", error) || !expect_heading (reader, "CUST", error))
    return FALSE;
  while (next_line (reader))
    if (!read_stop (reader, stops, error))
      return FALSE;
  if (stops->len == 0)
    return refuse (reader, columns[0], error, "the file ends before customer 0, which is home");
  return TRUE;
}

static HsVrptw *
make_problem (const char *name, guint vans, gint64 capacity, const GArray *stops)
{
  HsVrptw *problem = hs_vrptw_new (stops->len - 1);

  g_free (problem->name);
  problem->name = g_strdup (name);
  problem->vans = vans;
  problem->capacity = capacity;
  memcpy (problem->stops, stops->data, stops->len * sizeof *problem->stops);
  hs_vrptw_measure (problem);
  return problem;
}

/* The name with single spaces. */
static char *
read_name (Reader *reader)
{
  g_autoptr (GString) name = g_string_new (NULL);

  for (guint i = 0; i < MIN (reader->n_words, MOST_WORDS); i++)
    g_string_append_printf (name, "%s%s", i > 0 ? " " : "", reader->words[i]);
  return g_string_free (g_steal_pointer (&name), FALSE);
}

/* Names the first byte that no text has. */
static gboolean
check_text (Reader *reader, const char *bytes, gsize length, GError **error)
{
  const char *bad;
  const char *line = bytes;

  reader->line = 1;
  if (g_utf8_validate_len (bytes, length, &bad))
    return TRUE;
  for (const char *at = bytes; at < bad; at++)
    if (*at == '\n')
      {
        reader->line++;
        line = at + 1;
      }
  if (*bad == '\0')
    return refuse (reader, "text", error, "byte %d of the line is zero: this is not a text file",
                   (int) (bad - line) + 1);
  return refuse (reader, "text", error, "byte %d of the line is not UTF-8: save the file as text",
                 (int) (bad - line) + 1);
}

gboolean
hs_vrptw_read (const char *bytes, gsize length, HsVrptw **ret_problem, GError **error)
{
  g_autofree char *text = g_strndup (bytes, length);
  g_autofree char *name = NULL;
  g_autoptr (GArray) stops = g_array_new (FALSE, FALSE, sizeof (HsVrptwStop));
  Reader reader = { text, text, 0, { NULL }, 0 };
  guint vans;
  gint64 capacity;

  if (!check_text (&reader, bytes, length, error))
    return FALSE;
  reader.line = 0;
  if (!next_line (&reader))
    return refuse (&reader, "name", error, "the file is empty");
  name = read_name (&reader);
  if (!read_vans (&reader, &vans, &capacity, error) || !read_stops (&reader, stops, error))
    return FALSE;
  *ret_problem = make_problem (name, vans, capacity, stops);
  return TRUE;
}
