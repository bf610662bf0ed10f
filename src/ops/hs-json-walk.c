// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Goes through a JSON text from outside; every refusal names the field by its path. */

#include "hs-json-walk.h"

#include "hs-json-strict.h"
#include "hs-ops-error.h"

#include <math.h>

void
hs_json_walk_init (HsJsonWalk *self, const char *noun, double most)
{
  *self = (HsJsonWalk){ .noun = noun, .most = most, .path = g_string_new (NULL) };
}

void
hs_json_walk_clear (HsJsonWalk *self)
{
  if (self->path != NULL)
    g_string_free (g_steal_pointer (&self->path), TRUE);
  g_clear_error (&self->error);
}

JsonParser *
hs_json_walk_load (const HsJsonWalk *self, const char *text, gsize length, GError **error)
{
  g_autoptr (JsonParser) parser = json_parser_new_immutable ();
  g_autoptr (GError) local = NULL;
  g_autofree char *what = g_strdup_printf ("the %s", self->noun);

  if (length > HS_JSON_WALK_MAX_BYTES)
    {
      g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED,
                   "%s: has %" G_GSIZE_FORMAT " bytes, more than the %d that a %s may have", what, length,
                   HS_JSON_WALK_MAX_BYTES, self->noun);
      return NULL;
    }
  if (!hs_json_strict_check (what, text, length, error))
    return NULL;
  if (json_parser_load_from_data (parser, text, (gssize) length, &local))
    return g_steal_pointer (&parser);
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, "%s is not JSON: %s", what, local->message);
  return NULL;
}

gboolean
hs_json_walk_refuse (HsJsonWalk *self, const char *format, ...)
{
  g_autofree char *reason = NULL;
  va_list args;

  if (self->error != NULL)
    return FALSE;
  va_start (args, format);
  reason = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (&self->error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED, "%s%s: %s", self->path->len > 0 ? "" : "the ",
               self->path->len > 0 ? self->path->str : self->noun, reason);
  return FALSE;
}

gsize
hs_json_walk_enter (HsJsonWalk *self, const char *name)
{
  gsize before = self->path->len;

  g_string_append_printf (self->path, "%s%s", before > 0 ? "." : "", name);
  return before;
}

gsize
hs_json_walk_enter_index (HsJsonWalk *self, guint index)
{
  gsize before = self->path->len;

  g_string_append_printf (self->path, "[%u]", index);
  return before;
}

void
hs_json_walk_leave (HsJsonWalk *self, gsize before)
{
  g_string_truncate (self->path, before);
}

JsonObject *
hs_json_walk_object (HsJsonWalk *self, JsonNode *node, const char *const *known)
{
  g_autoptr (GList) members = NULL;
  JsonObject *object;

  if (node == NULL || !JSON_NODE_HOLDS_OBJECT (node))
    {
      hs_json_walk_refuse (self, "%s", node == NULL ? "is missing" : "must be an object");
      return NULL;
    }
  object = json_node_get_object (node);
  members = json_object_get_members (object);
  for (GList *l = members; known != NULL && l != NULL; l = l->next)
    if (!g_strv_contains (known, l->data))
      {
        gsize before = hs_json_walk_enter (self, l->data);

        hs_json_walk_refuse (self, "is not a key that a %s has", self->noun);
        hs_json_walk_leave (self, before);
        return NULL;
      }
  return object;
}

JsonArray *
hs_json_walk_array (HsJsonWalk *self, JsonNode *node)
{
  if (node != NULL && JSON_NODE_HOLDS_ARRAY (node))
    return json_node_get_array (node);
  hs_json_walk_refuse (self, "%s", node == NULL ? "is missing" : "must be a list");
  return NULL;
}

gboolean
hs_json_walk_number (HsJsonWalk *self, JsonNode *node, double *ret_number)
{
  GType type = node != NULL && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_value_type (node) : G_TYPE_INVALID;
  double number;

  if (node == NULL)
    return hs_json_walk_refuse (self, "is missing");
  if (type != G_TYPE_INT64 && type != G_TYPE_DOUBLE)
    return hs_json_walk_refuse (self, "must be a number");
  number = type == G_TYPE_INT64 ? (double) json_node_get_int (node) : json_node_get_double (node);
  if (!isfinite (number) || number > self->most)
    return hs_json_walk_refuse (self, "is too large");
  if (number < 0)
    return hs_json_walk_refuse (self, "is below zero");
  *ret_number = number;
  return TRUE;
}

const char *
hs_json_walk_text (HsJsonWalk *self, JsonNode *node)
{
  if (node != NULL && JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING)
    return json_node_get_string (node);
  hs_json_walk_refuse (self, "%s", node == NULL ? "is missing" : "must be a text");
  return NULL;
}
