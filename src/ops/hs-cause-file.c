// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Reads a cause model from JSON, with or without the words that belong to it. */

#include "hs-cause-file.h"

#include "hs-cause-guide-private.h"
#include "hs-core-error.h"

#include <math.h>
#include <string.h>

/* More causes than this, those of prior 0 included, are not looked at. */
#define MAX_LISTED 256
/* Weights may count anything, on any scale; no other number comes near. */
#define MAX_WEIGHT 1e15
/* A row of chances typed with six decimals sums to 1 within this. */
#define ROW_HAIR 1e-6

typedef struct
{
  HsJsonWalk walk;
  GArray *listed; /* HsCause, those of prior 0 included; ids are the parser's */
  HsCauseGuide *guide;
} Reader;

static void
reader_clear (Reader *reader)
{
  hs_json_walk_clear (&reader->walk);
  g_clear_pointer (&reader->listed, g_array_unref);
  g_clear_pointer (&reader->guide, hs_cause_guide_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Reader, reader_clear)

static gboolean
read_number (Reader *reader, JsonObject *object, const char *name, double *ret_number)
{
  gsize before = hs_json_walk_enter (&reader->walk, name);

  if (!hs_json_walk_number (&reader->walk, json_object_get_member (object, name), ret_number))
    return FALSE;
  hs_json_walk_leave (&reader->walk, before);
  return TRUE;
}

static const char *
read_id (Reader *reader, JsonObject *object)
{
  gsize before = hs_json_walk_enter (&reader->walk, "id");
  const char *id = hs_json_walk_text (&reader->walk, json_object_get_member (object, "id"));

  if (id == NULL)
    return NULL;
  if (*id == '\0')
    {
      hs_json_walk_refuse (&reader->walk, "is empty");
      return NULL;
    }
  hs_json_walk_leave (&reader->walk, before);
  return id;
}

static gboolean
read_cause (Reader *reader, JsonNode *node)
{
  static const char *const known[] = { "id", "prior", "name", "source", "repair", "cents", "proof", NULL };
  JsonObject *object = hs_json_walk_object (&reader->walk, node, known);
  HsCause cause = { NULL, 0, 0 };
  HsGuideCause words;

  if (object == NULL)
    return FALSE;
  cause.id = read_id (reader, object);
  if (cause.id == NULL || !read_number (reader, object, "prior", &cause.weight))
    return FALSE;
  for (guint i = 0; i < reader->listed->len; i++)
    if (g_str_equal (g_array_index (reader->listed, HsCause, i).id, cause.id))
      {
        hs_json_walk_enter (&reader->walk, "id");
        return hs_json_walk_refuse (&reader->walk, "“%s” is there twice", cause.id);
      }
  g_array_append_val (reader->listed, cause);
  if (!hs_cause_words_cause (reader->guide, &reader->walk, object, &words))
    return FALSE;
  if (cause.weight > 0)
    g_array_append_val (reader->guide->causes, words);
  return TRUE;
}

static gboolean
has_a_cause (Reader *reader)
{
  if (reader->listed->len > 0)
    return TRUE;
  hs_json_walk_enter (&reader->walk, "causes");
  return hs_json_walk_refuse (&reader->walk, "is empty; a model has at least one");
}

/* covers: whether the members of @object are the causes that are listed, no fewer and no others. */
static gboolean
covers (Reader *reader, JsonObject *object)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GList) members = json_object_get_members (object);

  for (guint i = 0; i < reader->listed->len; i++)
    {
      const char *id = g_array_index (reader->listed, HsCause, i).id;

      g_hash_table_add (ids, (gpointer) id);
      if (!json_object_has_member (object, id))
        return hs_json_walk_refuse (&reader->walk, "says nothing of “%s”", id);
    }
  for (GList *l = members; l != NULL; l = l->next)
    if (!g_hash_table_contains (ids, l->data))
      return hs_json_walk_refuse (&reader->walk, "“%s” is none of the causes", (const char *) l->data);
  return TRUE;
}

static gboolean
read_repairs (Reader *reader, JsonObject *top)
{
  gsize before = hs_json_walk_enter (&reader->walk, "repairs");
  JsonObject *object = hs_json_walk_object (&reader->walk, json_object_get_member (top, "repairs"), NULL);

  if (object == NULL || !covers (reader, object))
    return FALSE;
  for (guint i = 0; i < reader->listed->len; i++)
    {
      HsCause *cause = &g_array_index (reader->listed, HsCause, i);

      if (!read_number (reader, object, cause->id, &cause->repair_minutes))
        return FALSE;
    }
  hs_json_walk_leave (&reader->walk, before);
  return TRUE;
}

/* Builds the model of the causes that can be present. */
static gboolean
build_model (Reader *reader)
{
  g_autoptr (GArray) present = g_array_new (FALSE, FALSE, sizeof (HsCause));

  for (guint i = 0; i < reader->listed->len; i++)
    if (g_array_index (reader->listed, HsCause, i).weight > 0)
      g_array_append_val (present, g_array_index (reader->listed, HsCause, i));
  reader->guide->model = hs_cause_model_new ((const HsCause *) present->data, present->len, &reader->walk.error);
  return reader->guide->model != NULL;
}

static gboolean
read_results (Reader *reader, JsonObject *object, GPtrArray *results)
{
  gsize before = hs_json_walk_enter (&reader->walk, "results");
  JsonArray *array = hs_json_walk_array (&reader->walk, json_object_get_member (object, "results"));

  if (array == NULL)
    return FALSE;
  if (json_array_get_length (array) > HS_CAUSE_MODEL_MAX_RESULTS)
    return hs_json_walk_refuse (&reader->walk, "has %u; a check has 2 to %d", json_array_get_length (array),
                                HS_CAUSE_MODEL_MAX_RESULTS);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      gsize at = hs_json_walk_enter_index (&reader->walk, i);
      const char *result = hs_json_walk_text (&reader->walk, json_array_get_element (array, i));

      if (result == NULL)
        return FALSE;
      g_ptr_array_add (results, (gpointer) result);
      hs_json_walk_leave (&reader->walk, at);
    }
  g_ptr_array_add (results, NULL);
  hs_json_walk_leave (&reader->walk, before);
  return TRUE;
}

/* read_row: appends how likely each result is, under @key of @object, to @chances if that is not %NULL. */
static gboolean
read_row (Reader *reader, JsonObject *object, const char *key, guint n_results, GArray *chances)
{
  gsize before = hs_json_walk_enter (&reader->walk, key);
  JsonArray *row = hs_json_walk_array (&reader->walk, json_object_get_member (object, key));
  char text[G_ASCII_DTOSTR_BUF_SIZE];
  double sum = 0;

  if (row == NULL)
    return FALSE;
  if (json_array_get_length (row) != n_results)
    return hs_json_walk_refuse (&reader->walk, "has %u chances for %u results", json_array_get_length (row), n_results);
  for (guint i = 0; i < n_results; i++)
    {
      gsize at = hs_json_walk_enter_index (&reader->walk, i);
      double chance;

      if (!hs_json_walk_number (&reader->walk, json_array_get_element (row, i), &chance))
        return FALSE;
      if (chance > 1)
        return hs_json_walk_refuse (&reader->walk, "is above 1");
      sum += chance;
      if (chances != NULL)
        g_array_append_val (chances, chance);
      hs_json_walk_leave (&reader->walk, at);
    }
  if (fabs (sum - 1) > ROW_HAIR)
    return hs_json_walk_refuse (&reader->walk, "the chances of one cause must sum to 1, not %s",
                                g_ascii_formatd (text, sizeof text, "%.7g", sum));
  hs_json_walk_leave (&reader->walk, before);
  return TRUE;
}

static gboolean
read_chances (Reader *reader, JsonObject *check, guint n_results, GArray *chances)
{
  gsize before = hs_json_walk_enter (&reader->walk, "p");
  JsonObject *object = hs_json_walk_object (&reader->walk, json_object_get_member (check, "p"), NULL);

  if (object == NULL || !covers (reader, object))
    return FALSE;
  for (guint i = 0; i < reader->listed->len; i++)
    {
      const HsCause *cause = &g_array_index (reader->listed, HsCause, i);

      if (!read_row (reader, object, cause->id, n_results, cause->weight > 0 ? chances : NULL))
        return FALSE;
    }
  hs_json_walk_leave (&reader->walk, before);
  return TRUE;
}

/* read_elsewhere: of the check that was read last. */
static gboolean
read_elsewhere (Reader *reader, JsonObject *object, guint n_results)
{
  HsGuideCheck *check = &g_array_index (reader->guide->checks, HsGuideCheck, reader->guide->checks->len - 1);
  g_autoptr (GArray) chances = g_array_new (FALSE, FALSE, sizeof (double));

  if (!json_object_has_member (object, "elsewhere"))
    return TRUE;
  if (!read_row (reader, object, "elsewhere", n_results, chances))
    return FALSE;
  check->has_elsewhere = TRUE;
  memcpy (check->elsewhere, chances->data, n_results * sizeof (double));
  return TRUE;
}

static gboolean
read_check (Reader *reader, JsonNode *node)
{
  static const char *const known[]
    = { "id", "minutes", "results", "p", "elsewhere", "from", "source", "sources", "said", NULL };
  JsonObject *object = hs_json_walk_object (&reader->walk, node, known);
  g_autoptr (GPtrArray) results = g_ptr_array_new ();
  g_autoptr (GArray) chances = g_array_new (FALSE, FALSE, sizeof (double));
  const char *id = object != NULL ? read_id (reader, object) : NULL;
  double minutes;

  return id != NULL && read_number (reader, object, "minutes", &minutes) && read_results (reader, object, results)
         && read_chances (reader, object, results->len - 1, chances)
         && hs_cause_model_add_check (reader->guide->model, id, minutes, (const char *const *) results->pdata,
                                      (const double *) chances->data, &reader->walk.error)
         && hs_cause_words_check (reader->guide, &reader->walk, object, (const char *const *) results->pdata)
         && read_elsewhere (reader, object, results->len - 1);
}

static gboolean
read_list (Reader *reader, JsonObject *top, const char *name, gboolean (*read) (Reader *, JsonNode *))
{
  gsize before = hs_json_walk_enter (&reader->walk, name);
  JsonArray *array = hs_json_walk_array (&reader->walk, json_object_get_member (top, name));

  if (array == NULL)
    return FALSE;
  if (json_array_get_length (array) > MAX_LISTED)
    return hs_json_walk_refuse (&reader->walk, "has more than %d entries", MAX_LISTED);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      gsize at = hs_json_walk_enter_index (&reader->walk, i);

      if (!read (reader, json_array_get_element (array, i)))
        return FALSE;
      hs_json_walk_leave (&reader->walk, at);
    }
  hs_json_walk_leave (&reader->walk, before);
  return TRUE;
}

static gboolean
read_model (Reader *reader, JsonNode *root)
{
  static const char *const known[]
    = { "$schema", "id", "group", "name", "note", "when", "counts_as", "causes", "repairs", "checks", NULL };
  JsonObject *top = hs_json_walk_object (&reader->walk, root, known);

  return top != NULL && hs_cause_words_top (reader->guide, &reader->walk, top)
         && read_list (reader, top, "causes", read_cause) && has_a_cause (reader)
         && read_repairs (reader, top) && build_model (reader)
         && (!json_object_has_member (top, "checks") || read_list (reader, top, "checks", read_check));
}

/* read_one: (transfer full) (nullable): the guide at @node; what is refused stays in the walk. */
static HsCauseGuide *
read_one (Reader *reader, JsonNode *node)
{
  g_clear_pointer (&reader->listed, g_array_unref);
  g_clear_pointer (&reader->guide, hs_cause_guide_free);
  reader->listed = g_array_new (FALSE, FALSE, sizeof (HsCause));
  reader->guide = hs_cause_guide_new ();
  return read_model (reader, node) ? g_steal_pointer (&reader->guide) : NULL;
}

HsCauseGuide *
hs_cause_guide_parse (const char *text, gsize length, GError **error)
{
  g_auto (Reader) reader = { 0 };
  g_autoptr (JsonParser) parser = NULL;
  HsCauseGuide *guide;

  hs_json_walk_init (&reader.walk, "model", MAX_WEIGHT);
  parser = hs_json_walk_load (&reader.walk, text, length, error);
  if (parser == NULL)
    return NULL;
  guide = read_one (&reader, json_parser_get_root (parser));
  if (guide == NULL)
    g_propagate_error (error, g_steal_pointer (&reader.walk.error));
  return guide;
}

/* add_one: whole against @checks, and of an id that no other has. */
static gboolean
add_one (Reader *reader, JsonNode *node, HsChecks *checks, GPtrArray *guides)
{
  g_autofree char *path = g_strdup (reader->walk.path->str);
  g_autoptr (HsCauseGuide) guide = read_one (reader, node);

  if (guide == NULL)
    {
      /* The model itself does not know where in the file it stands. */
      if (*path != '\0' && reader->walk.error->domain == HS_CORE_ERROR)
        g_prefix_error (&reader->walk.error, "%s: ", path);
      return FALSE;
    }
  if (!hs_cause_guide_check (guide, checks, &reader->walk.error))
    {
      if (*path != '\0')
        g_prefix_error (&reader->walk.error, "%s.", path);
      return FALSE;
    }
  for (guint i = 0; i < guides->len; i++)
    if (g_str_equal (hs_cause_guide_get_id (g_ptr_array_index (guides, i)), hs_cause_guide_get_id (guide)))
      {
        hs_json_walk_enter (&reader->walk, "id");
        return hs_json_walk_refuse (&reader->walk, "“%s” is there twice", hs_cause_guide_get_id (guide));
      }
  g_ptr_array_add (guides, g_steal_pointer (&guide));
  return TRUE;
}

static gboolean
add_all (Reader *reader, JsonNode *root, HsChecks *checks, GPtrArray *guides)
{
  static const char *const known[] = { "$schema", "models", NULL };
  JsonObject *top;
  JsonArray *models;

  if (!JSON_NODE_HOLDS_OBJECT (root) || !json_object_has_member (json_node_get_object (root), "models"))
    return add_one (reader, root, checks, guides);
  top = hs_json_walk_object (&reader->walk, root, known);
  if (top == NULL)
    return FALSE;
  hs_json_walk_enter (&reader->walk, "models");
  models = hs_json_walk_array (&reader->walk, json_object_get_member (top, "models"));
  for (guint i = 0; models != NULL && i < json_array_get_length (models); i++)
    {
      gsize at = hs_json_walk_enter_index (&reader->walk, i);

      if (!add_one (reader, json_array_get_element (models, i), checks, guides))
        return FALSE;
      hs_json_walk_leave (&reader->walk, at);
    }
  return models != NULL;
}

GPtrArray *
hs_cause_guides_parse (const char *text, gsize length, HsChecks *checks, GError **error)
{
  g_auto (Reader) reader = { 0 };
  g_autoptr (GPtrArray) guides = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_cause_guide_free);
  g_autoptr (JsonParser) parser = NULL;

  hs_json_walk_init (&reader.walk, "list of models", MAX_WEIGHT);
  parser = hs_json_walk_load (&reader.walk, text, length, error);
  if (parser == NULL)
    return NULL;
  if (add_all (&reader, json_parser_get_root (parser), checks, guides))
    return g_steal_pointer (&guides);
  g_propagate_error (error, g_steal_pointer (&reader.walk.error));
  return NULL;
}

HsCauseModel *
hs_cause_file_parse (const char *text, gsize length, GError **error)
{
  g_autoptr (HsCauseGuide) guide = hs_cause_guide_parse (text, length, error);

  return guide != NULL ? g_steal_pointer (&guide->model) : NULL;
}
