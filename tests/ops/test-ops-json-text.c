// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* JSON that goes to others: to the letter for each sign, in texts and in names. */

#include "hs-json-strict.h"
#include "hs-json-text.h"

#include <string.h>

static void
test_signs (void)
{
  for (gunichar sign = 1; sign < 0x800; sign++)
    {
      g_autoptr (JsonBuilder) builder = json_builder_new ();
      g_autoptr (JsonParser) parser = json_parser_new ();
      g_autoptr (GError) error = NULL;
      g_autoptr (JsonNode) root = NULL;
      g_autofree char *text = NULL;
      char said[16] = { 'a' };

      said[1 + g_unichar_to_utf8 (sign, said + 1)] = 'z';
      json_builder_begin_object (builder);
      json_builder_set_member_name (builder, said);
      json_builder_add_string_value (builder, said);
      json_builder_end_object (builder);
      root = json_builder_get_root (builder);
      text = hs_json_text (root);
      hs_json_strict_check ("the text", text, strlen (text), &error);
      g_assert_no_error (error);
      g_assert_null (strpbrk (text, "\r\n"));
      g_assert_true (json_parser_load_from_data (parser, text, -1, &error));
      g_assert_cmpstr (json_object_get_string_member (json_node_get_object (json_parser_get_root (parser)), said), ==,
                       said);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/json-text/signs", test_signs);
  return g_test_run ();
}
