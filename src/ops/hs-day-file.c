// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Reads a day to be planned from JSON. Every refusal names the field by its path. */

#include "hs-day-file.h"

#include "hs-json-walk.h"

#include <math.h>
#include <string.h>

#define MAX_NUMBER 1e9

/* Where we are, and whether all was well so far. */
typedef struct
{
  HsProblem *problem;
  HsJsonWalk *walk;
} Reader;

/* A number of the owner's unit as whole numbers of ours, half up; the slack takes back what binary fractions lose. */
static gboolean
get_scaled (Reader *reader, JsonNode *node, gint64 scale, gint64 *ret_scaled)
{
  double number;

  if (!hs_json_walk_number (reader->walk, node, &number))
    return FALSE;
  *ret_scaled = (gint64) floor (number * (double) scale + 0.5 + 1e-7);
  return TRUE;
}

static gboolean
get_whole (Reader *reader, JsonNode *node, gint64 *ret_whole)
{
  double number;

  if (!hs_json_walk_number (reader->walk, node, &number))
    return FALSE;
  if (number != floor (number))
    return hs_json_walk_refuse (reader->walk, "must be a whole number");
  *ret_whole = (gint64) number;
  return TRUE;
}

static gboolean
read_seconds (Reader *reader, JsonObject *object, const char *name, gint32 *ret_seconds)
{
  gsize before = hs_json_walk_enter (reader->walk, name);
  gint64 seconds = 0;

  if (!get_scaled (reader, json_object_get_member (object, name), 60, &seconds))
    return FALSE;
  if (seconds > G_MAXINT32 / 4)
    return hs_json_walk_refuse (reader->walk, "is too large");
  *ret_seconds = (gint32) seconds;
  hs_json_walk_leave (reader->walk, before);
  return TRUE;
}

static gboolean
read_cents (Reader *reader, JsonObject *object, const char *name, gint64 *ret_cents)
{
  gsize before = hs_json_walk_enter (reader->walk, name);

  if (!get_whole (reader, json_object_get_member (object, name), ret_cents))
    return FALSE;
  hs_json_walk_leave (reader->walk, before);
  return TRUE;
}

static gboolean
read_place (Reader *reader, JsonObject *object, const char *name, guint *ret_place)
{
  gsize before = hs_json_walk_enter (reader->walk, name);
  gint64 place = 0;

  if (!get_whole (reader, json_object_get_member (object, name), &place))
    return FALSE;
  if (place >= reader->problem->n_places)
    return hs_json_walk_refuse (reader->walk,
                                "there is no place %" G_GINT64_FORMAT "; the tables have %u, counted from 0", place,
                                reader->problem->n_places);
  *ret_place = (guint) place;
  hs_json_walk_leave (reader->walk, before);
  return TRUE;
}

/* "HH:MM" or "HH:MM:SS"; hours go on after midnight. */
static gboolean
get_clock (Reader *reader, JsonNode *node, gint32 *ret_seconds)
{
  const char *text = hs_json_walk_text (reader->walk, node);
  gsize length = text == NULL ? 0 : strlen (text);
  gint32 parts[3] = { 0, 0, 0 };

  if (text == NULL)
    return FALSE;
  if (length != 5 && length != 8)
    return hs_json_walk_refuse (reader->walk, "“%s” is not a time like 08:30", text);
  for (gsize i = 0; i < length; i++)
    if (i % 3 == 2 ? text[i] != ':' : !g_ascii_isdigit (text[i]))
      return hs_json_walk_refuse (reader->walk, "“%s” is not a time like 08:30", text);
  for (gsize i = 0; i < length; i += 3)
    parts[i / 3] = (text[i] - '0') * 10 + text[i + 1] - '0';
  if (parts[1] > 59 || parts[2] > 59)
    return hs_json_walk_refuse (reader->walk, "“%s” is not a time like 08:30", text);
  *ret_seconds = parts[0] * 3600 + parts[1] * 60 + parts[2];
  return TRUE;
}

static gboolean
read_clock (Reader *reader, JsonObject *object, const char *name, gint32 *ret_seconds)
{
  gsize before = hs_json_walk_enter (reader->walk, name);

  if (!get_clock (reader, json_object_get_member (object, name), ret_seconds))
    return FALSE;
  hs_json_walk_leave (reader->walk, before);
  return TRUE;
}

static gboolean
get_span (Reader *reader, JsonNode *node, HsDaySpan *ret_span)
{
  JsonArray *pair = hs_json_walk_array (reader->walk, node);
  gint32 *ends[] = { &ret_span->from_seconds, &ret_span->to_seconds };

  if (pair == NULL)
    return FALSE;
  if (json_array_get_length (pair) != 2)
    return hs_json_walk_refuse (reader->walk, "must be two times");
  for (guint i = 0; i < 2; i++)
    {
      gsize before = hs_json_walk_enter_index (reader->walk, i);

      if (!get_clock (reader, json_array_get_element (pair, i), ends[i]))
        return FALSE;
      hs_json_walk_leave (reader->walk, before);
    }
  if (ret_span->to_seconds < ret_span->from_seconds)
    return hs_json_walk_refuse (reader->walk, "ends before it starts");
  return TRUE;
}

static gboolean
read_spans (Reader *reader, JsonObject *object, const char *name, GArray *spans)
{
  gsize before = hs_json_walk_enter (reader->walk, name);
  JsonArray *array = hs_json_walk_array (reader->walk, json_object_get_member (object, name));

  if (array == NULL)
    return FALSE;
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      gsize at = hs_json_walk_enter_index (reader->walk, i);
      HsDaySpan span;

      if (!get_span (reader, json_array_get_element (array, i), &span))
        return FALSE;
      g_array_append_val (spans, span);
      hs_json_walk_leave (reader->walk, at);
    }
  hs_json_walk_leave (reader->walk, before);
  return TRUE;
}

/* The part called @name; refused where the day names more of them than it may, before that takes long. */
static gboolean
find_part (Reader *reader, const char *name, guint *ret_part)
{
  *ret_part = hs_problem_part (reader->problem, name);
  return reader->problem->parts->len <= HS_PROBLEM_MAX_PARTS
         || hs_json_walk_refuse (reader->walk, "names more than %d parts in all", HS_PROBLEM_MAX_PARTS);
}

/* The texts of a list that may be absent: as indexes of parts, or as they are. */
static gboolean
read_words (Reader *reader, JsonObject *object, const char *name, GArray *parts, GPtrArray *words)
{
  gsize before = reader->walk->path->len;
  JsonArray *array;

  if (!json_object_has_member (object, name))
    return TRUE;
  hs_json_walk_enter (reader->walk, name);
  array = hs_json_walk_array (reader->walk, json_object_get_member (object, name));
  if (array != NULL && json_array_get_length (array) > HS_PROBLEM_MAX_UNITS)
    return hs_json_walk_refuse (reader->walk, "has more than %d %s", HS_PROBLEM_MAX_UNITS,
                                parts != NULL ? "units" : "skills");
  for (guint i = 0; array != NULL && i < json_array_get_length (array); i++)
    {
      gsize at = hs_json_walk_enter_index (reader->walk, i);
      const char *word = hs_json_walk_text (reader->walk, json_array_get_element (array, i));
      guint part = 0;

      if (word == NULL || (parts != NULL && !find_part (reader, word, &part)))
        return FALSE;
      if (words != NULL)
        g_ptr_array_add (words, g_strdup (word));
      if (parts != NULL)
        g_array_append_val (parts, part);
      hs_json_walk_leave (reader->walk, at);
    }
  hs_json_walk_leave (reader->walk, before);
  return array != NULL;
}

static const char *
read_id (Reader *reader, JsonObject *object)
{
  gsize before = hs_json_walk_enter (reader->walk, "id");
  const char *id = hs_json_walk_text (reader->walk, json_object_get_member (object, "id"));

  if (id != NULL)
    hs_json_walk_leave (reader->walk, before);
  return id;
}

static gboolean
read_row (Reader *reader, JsonNode *node, guint from, gboolean miles)
{
  JsonArray *row = hs_json_walk_array (reader->walk, node);

  if (row == NULL)
    return FALSE;
  if (json_array_get_length (row) != reader->problem->n_places)
    return hs_json_walk_refuse (reader->walk, "has %u entries where the table has %u rows", json_array_get_length (row),
                                reader->problem->n_places);
  for (guint to = 0; to < reader->problem->n_places; to++)
    {
      gsize before = hs_json_walk_enter_index (reader->walk, to);
      guint cell = from * reader->problem->n_places + to;
      gint64 value = 0;

      if (!get_scaled (reader, json_array_get_element (row, to), miles ? 1000 : 60, &value))
        return FALSE;
      if (miles)
        g_array_index (reader->problem->drive_millimiles, gint64, cell) = value;
      else if (value > G_MAXINT32 / 4)
        return hs_json_walk_refuse (reader->walk, "is too large");
      else
        g_array_index (reader->problem->drive_seconds, gint32, cell) = (gint32) value;
      hs_json_walk_leave (reader->walk, before);
    }
  return TRUE;
}

static gboolean
read_table (Reader *reader, JsonObject *travel, const char *name)
{
  gsize before = hs_json_walk_enter (reader->walk, name);
  JsonArray *rows = hs_json_walk_array (reader->walk, json_object_get_member (travel, name));
  guint n = rows == NULL ? 0 : json_array_get_length (rows);
  gboolean miles = g_str_equal (name, "miles");

  if (rows == NULL)
    return FALSE;
  if (reader->problem == NULL && (n == 0 || n > HS_DAY_MAX_PLACES))
    return hs_json_walk_refuse (reader->walk, "must have 1 to %d rows", HS_DAY_MAX_PLACES);
  if (reader->problem == NULL)
    reader->problem = hs_problem_new (n);
  if (n != reader->problem->n_places)
    return hs_json_walk_refuse (reader->walk, "has %u rows where the other table has %u", n, reader->problem->n_places);
  for (guint from = 0; from < n; from++)
    {
      gsize at = hs_json_walk_enter_index (reader->walk, from);

      if (!read_row (reader, json_array_get_element (rows, from), from, miles))
        return FALSE;
      hs_json_walk_leave (reader->walk, at);
    }
  hs_json_walk_leave (reader->walk, before);
  return TRUE;
}

static gboolean
read_break (Reader *reader, JsonObject *object, HsVan *van)
{
  static const char *const known[] = { "minutes", "between", NULL };
  JsonNode *node = json_object_get_member (object, "break");
  gsize before = hs_json_walk_enter (reader->walk, "break");
  gsize between;
  JsonObject *pause;

  if (node == NULL || JSON_NODE_HOLDS_NULL (node))
    {
      hs_json_walk_leave (reader->walk, before);
      return TRUE;
    }
  pause = hs_json_walk_object (reader->walk, node, known);
  if (pause == NULL || !read_seconds (reader, pause, "minutes", &van->break_seconds))
    return FALSE;
  between = hs_json_walk_enter (reader->walk, "between");
  if (!get_span (reader, json_object_get_member (pause, "between"), &van->break_span))
    return FALSE;
  hs_json_walk_leave (reader->walk, between);
  hs_json_walk_leave (reader->walk, before);
  return TRUE;
}

static gboolean
read_van (Reader *reader, JsonNode *node)
{
  static const char *const known[]
      = { "id", "start", "end", "from", "to", "carries", "skills", "break", NULL };
  JsonObject *object = hs_json_walk_object (reader->walk, node, known);
  const char *id = object == NULL ? NULL : read_id (reader, object);
  HsVan *van;

  if (id == NULL)
    return FALSE;
  van = hs_problem_add_van (reader->problem, id);
  if (!read_place (reader, object, "start", &van->start) || !read_place (reader, object, "end", &van->end)
      || !read_clock (reader, object, "from", &van->leave_from_seconds)
      || !read_clock (reader, object, "to", &van->home_by_seconds))
    return FALSE;
  van->leave_to_seconds = van->home_by_seconds;
  return read_words (reader, object, "carries", van->carries, NULL)
         && read_words (reader, object, "skills", NULL, van->skills) && read_break (reader, object, van);
}

static gboolean
read_van_of (Reader *reader, JsonObject *object, HsCall *call)
{
  JsonNode *node = json_object_get_member (object, "van");
  gsize before = hs_json_walk_enter (reader->walk, "van");
  const char *id;

  if (node == NULL || JSON_NODE_HOLDS_NULL (node))
    {
      hs_json_walk_leave (reader->walk, before);
      return TRUE;
    }
  id = hs_json_walk_text (reader->walk, node);
  for (guint v = 0; id != NULL && v < reader->problem->vans->len; v++)
    if (g_str_equal (hs_problem_get_van (reader->problem, v)->id, id))
      call->van = (int) v;
  if (id != NULL && call->van == HS_PROBLEM_ANY_VAN)
    hs_json_walk_refuse (reader->walk, "there is no van “%s”", id);
  hs_json_walk_leave (reader->walk, before);
  return reader->walk->error == NULL;
}

static gboolean
read_call (Reader *reader, JsonNode *node)
{
  static const char *const known[] = { "id", "place", "minutes", "windows", "needs", "van", "skills", NULL };
  JsonObject *object = hs_json_walk_object (reader->walk, node, known);
  const char *id = object == NULL ? NULL : read_id (reader, object);
  HsCall *call;

  if (id == NULL)
    return FALSE;
  call = hs_problem_add_call (reader->problem, id, 0, 0);
  if (!read_place (reader, object, "place", &call->place)
      || !read_seconds (reader, object, "minutes", &call->service_seconds))
    return FALSE;
  if (json_object_has_member (object, "windows") && !read_spans (reader, object, "windows", call->windows))
    return FALSE;
  if (json_object_has_member (object, "windows") && call->windows->len == 0)
    {
      hs_json_walk_enter (reader->walk, "windows");
      return hs_json_walk_refuse (reader->walk, "is empty; leave it out for the whole day");
    }
  return read_words (reader, object, "needs", call->needs, NULL)
         && read_words (reader, object, "skills", NULL, call->skills) && read_van_of (reader, object, call);
}

static gboolean
read_prices (Reader *reader, JsonObject *object, HsCounter *counter)
{
  gsize before = hs_json_walk_enter (reader->walk, "sells");
  JsonNode *node = json_object_get_member (object, "sells");
  g_autoptr (GList) members = NULL;
  JsonObject *sells;

  if (node == NULL || !JSON_NODE_HOLDS_OBJECT (node))
    return hs_json_walk_refuse (reader->walk, "%s", node == NULL ? "is missing" : "must be an object of prices");
  sells = json_node_get_object (node);
  members = json_object_get_members (sells);
  for (GList *l = members; l != NULL; l = l->next)
    {
      gint64 cents = 0;
      guint part = 0;

      if (!read_cents (reader, sells, l->data, &cents) || !find_part (reader, l->data, &part))
        return FALSE;
      hs_counter_sell (counter, part, cents);
    }
  hs_json_walk_leave (reader->walk, before);
  return TRUE;
}

static gboolean
read_counter (Reader *reader, JsonNode *node)
{
  static const char *const known[] = { "id", "place", "minutes", "hours", "sells", NULL };
  JsonObject *object = hs_json_walk_object (reader->walk, node, known);
  const char *id = object == NULL ? NULL : read_id (reader, object);
  HsCounter *counter;

  if (id == NULL)
    return FALSE;
  counter = hs_problem_add_counter (reader->problem, id, 0, 0);
  return read_place (reader, object, "place", &counter->place)
         && read_seconds (reader, object, "minutes", &counter->service_seconds)
         && read_spans (reader, object, "hours", counter->hours) && read_prices (reader, object, counter);
}

static gboolean
read_list (Reader *reader, JsonObject *object, const char *name, guint least, guint most,
           gboolean (*read) (Reader *, JsonNode *))
{
  gsize before = hs_json_walk_enter (reader->walk, name);
  JsonArray *array = hs_json_walk_array (reader->walk, json_object_get_member (object, name));

  if (array == NULL)
    return FALSE;
  if (json_array_get_length (array) < least)
    return hs_json_walk_refuse (reader->walk, "is empty; a day to be planned has at least one");
  if (json_array_get_length (array) > most)
    return hs_json_walk_refuse (reader->walk, "has %u entries, more than the %u that a day may have",
                                json_array_get_length (array), most);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      gsize at = hs_json_walk_enter_index (reader->walk, i);

      if (!read (reader, json_array_get_element (array, i)))
        return FALSE;
      hs_json_walk_leave (reader->walk, at);
    }
  hs_json_walk_leave (reader->walk, before);
  return TRUE;
}

static gboolean
read_travel (Reader *reader, JsonObject *object)
{
  static const char *const known[] = { "minutes", "miles", NULL };
  gsize before = hs_json_walk_enter (reader->walk, "travel");
  JsonObject *travel = hs_json_walk_object (reader->walk, json_object_get_member (object, "travel"), known);

  if (travel == NULL || !read_table (reader, travel, "minutes") || !read_table (reader, travel, "miles"))
    return FALSE;
  hs_json_walk_leave (reader->walk, before);
  return TRUE;
}

static gboolean
read_day (Reader *reader, JsonNode *root)
{
  static const char *const known[] = { "$schema", "minute_cents", "mile_cents", "spare_minutes", "travel", "vans",
                                       "calls", "counters", NULL };
  JsonObject *object = hs_json_walk_object (reader->walk, root, known);

  if (object == NULL || !read_travel (reader, object))
    return FALSE;
  if (!read_cents (reader, object, "minute_cents", &reader->problem->minute_cents)
      || !read_cents (reader, object, "mile_cents", &reader->problem->mile_cents))
    return FALSE;
  if (json_object_has_member (object, "spare_minutes")
      && !read_seconds (reader, object, "spare_minutes", &reader->problem->spare_seconds))
    return FALSE;
  if (!read_list (reader, object, "vans", 1, HS_PROBLEM_MAX_VANS, read_van)
      || !read_list (reader, object, "calls", 1, HS_PROBLEM_MAX_CALLS, read_call))
    return FALSE;
  return !json_object_has_member (object, "counters")
         || read_list (reader, object, "counters", 0, HS_PROBLEM_MAX_COUNTERS, read_counter);
}

HsProblem *
hs_day_file_parse (const char *bytes, gsize length, GError **error)
{
  g_auto (HsJsonWalk) walk = { 0 };
  g_autoptr (JsonParser) parser = NULL;
  Reader reader = { NULL, &walk };

  hs_json_walk_init (&walk, "day", MAX_NUMBER);
  parser = hs_json_walk_load (&walk, bytes, length, error);
  if (parser == NULL)
    return NULL;
  if (read_day (&reader, json_parser_get_root (parser)) && hs_problem_check (reader.problem, error))
    return reader.problem;
  if (walk.error != NULL)
    g_propagate_error (error, g_steal_pointer (&walk.error));
  hs_problem_free (reader.problem);
  return NULL;
}
