// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* JSON that others can read. The library leaves the last of the control characters, U+001F, as it is, which no reader
 * to the letter takes. */

#include "hs-json-text.h"

char *
hs_json_text (JsonNode *root)
{
  g_autofree char *written = json_to_string (root, FALSE);
  GString *text = g_string_new (written);

  /* Between texts there is none. */
  g_string_replace (text, "\x1f", "\\u001f", 0);
  return g_string_free (text, FALSE);
}
