// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/**
 * hs_json_text:
 *
 * Use it for whatever goes to others or is kept.
 *
 * Returns: (transfer full): @root in one line, as RFC 8259 has it, whatever signs stand in its texts
 */
char *hs_json_text (JsonNode *root);

G_END_DECLS
