// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `set`: without words it lists every key; with a key it prints its value; with a value it changes it. */

#include "hs-cli.h"

#include "hs-settings-op.h"

static void
print_list (HsCli *cli, GPtrArray *settings)
{
  if (!cli->json)
    {
      for (guint i = 0; i < settings->len; i++)
        {
          const HsSetting *setting = g_ptr_array_index (settings, i);
          g_autofree char *key = hs_cli_pad (setting->key, 22);
          g_autofree char *value = hs_cli_pad (*setting->value != '\0' ? setting->value : "–", 22);
          hs_cli_print ("%s %s %s\n", key, value, setting->help);
        }
      return;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_json_out_begin_array (out, "settings");
  for (guint i = 0; i < settings->len; i++)
    {
      const HsSetting *setting = g_ptr_array_index (settings, i);
      hs_json_out_begin_object (out, NULL);
      hs_json_out_string (out, "key", setting->key);
      hs_json_out_string (out, "value", setting->value);
      hs_json_out_boolean (out, "default", setting->is_default);
      hs_json_out_string (out, "help", setting->help);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_value (HsCli *cli, const char *key, const char *value)
{
  if (!cli->json)
    {
      hs_cli_print ("%s\n", value);
      return;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "key", key);
  hs_json_out_string (out, "value", value);
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

gboolean
hs_command_set (HsCli *cli, char **words, GError **error)
{
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, NULL, 0, 2, &left, error))
    return FALSE;
  guint n_words = g_strv_length (left);
  if (!hs_cli_open_book (cli, n_words == 2 ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;

  if (n_words == 0)
    {
      g_autoptr (GPtrArray) settings = hs_settings_list (cli->book, error);
      if (settings == NULL)
        return FALSE;
      print_list (cli, settings);
      return TRUE;
    }
  if (n_words == 2 && !hs_settings_set (cli->book, left[0], left[1], cli->now, error))
    return FALSE;
  g_autofree char *value = hs_settings_dup (cli->book, left[0], error);
  if (value == NULL)
    return FALSE;
  print_value (cli, left[0], value);
  return TRUE;
}
