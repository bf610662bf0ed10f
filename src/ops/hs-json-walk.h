// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/*
 * Goes through a JSON text from outside and keeps the path of where it is, so that every refusal names its field:
 * "checks[2].p.c1[0]: is below zero". The first refusal stays; what follows it changes nothing.
 */
typedef struct
{
  const char *noun; /* what the text is: "day" */
  double most;      /* no number in it is larger */
  GString *path;
  GError *error;
} HsJsonWalk;

/* hs_json_walk_init: @noun is borrowed. hs_json_walk_clear() frees all but an error that was taken. */
void hs_json_walk_init (HsJsonWalk *self, const char *noun, double most);
void hs_json_walk_clear (HsJsonWalk *self);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (HsJsonWalk, hs_json_walk_clear)

/* More than three times the largest day that may be; what is read of a longer text would not fit into memory. */
#define HS_JSON_WALK_MAX_BYTES 8000000

/**
 * hs_json_walk_load:
 * @text: (array length=length): looked at by hs_json_strict_check() first; one of more than %HS_JSON_WALK_MAX_BYTES is
 *   refused unread
 *
 * Returns: (transfer full) (nullable): the parser, which owns the nodes; %NULL with %HS_OPS_ERROR_REFUSED
 */
JsonParser *hs_json_walk_load (const HsJsonWalk *self, const char *text, gsize length, GError **error);

/* hs_json_walk_refuse: the field where we are is not so. Returns: %FALSE, to be handed on. */
gboolean hs_json_walk_refuse (HsJsonWalk *self, const char *format, ...) G_GNUC_PRINTF (2, 3);

/* hs_json_walk_enter, hs_json_walk_enter_index: into a member or an element. Returns: for hs_json_walk_leave(). */
gsize hs_json_walk_enter (HsJsonWalk *self, const char *name);
gsize hs_json_walk_enter_index (HsJsonWalk *self, guint index);
void hs_json_walk_leave (HsJsonWalk *self, gsize before);

/* hs_json_walk_object: (transfer none) (nullable): @node as an object that has no member but those of @known, a
 * %NULL-terminated list, or any if that is %NULL; else %NULL and a refusal. So for the three that follow; a number is
 * finite, no larger than the most that was given, and not below zero. */
JsonObject *hs_json_walk_object (HsJsonWalk *self, JsonNode *node, const char *const *known);
JsonArray *hs_json_walk_array (HsJsonWalk *self, JsonNode *node);
gboolean hs_json_walk_number (HsJsonWalk *self, JsonNode *node, double *ret_number);
const char *hs_json_walk_text (HsJsonWalk *self, JsonNode *node);

G_END_DECLS
