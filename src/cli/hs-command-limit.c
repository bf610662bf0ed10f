// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `limit`: a vehicle's own limits: lists them, writes one down with its source, or takes one away. */

#include "hs-cli.h"

#include "hs-decimal.h"
#include "hs-history.h"
#include "hs-own-limit.h"

#include <glib/gi18n.h>
#include <string.h>

static void
write_end (HsJsonOut *out, const char *name, gboolean there, gint64 value, guint decimals)
{
  if (there)
    hs_json_out_decimal (out, name, value, decimals);
  else
    hs_json_out_null (out, name);
}

static void
write_limit (HsCli *cli, HsJsonOut *out, const HsOwnLimit *limit)
{
  const HsCheck *check = hs_checks_lookup (hs_book_get_checks (cli->book), limit->check);
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "check", limit->check);
  hs_json_out_string (out, "name", limit->name);
  write_end (out, "low", limit->limits.has_low, limit->limits.low, check->decimals);
  write_end (out, "high", limit->limits.has_high, limit->limits.high, check->decimals);
  hs_json_out_string (out, "unit", check->unit);
  hs_json_out_string (out, "limit", limit->text);
  hs_json_out_string (out, "whose", hs_limit_whose_id (limit->limits.whose));
  hs_json_out_string (out, "source", limit->limits.source);
  hs_json_out_boolean (out, "in_use", limit->in_use);
  hs_json_out_end_object (out);
}

static gboolean
list_limits (HsCli *cli, const char *vehicle_id, const char *check, GError **error)
{
  g_autoptr (GPtrArray) limits = hs_own_limit_list (cli->book, vehicle_id, error);
  if (limits == NULL)
    return FALSE;
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_json_out_begin_array (out, NULL);
  for (guint i = 0; i < limits->len; i++)
    {
      const HsOwnLimit *limit = g_ptr_array_index (limits, i);
      if (check != NULL && !g_str_equal (limit->check, check))
        continue;
      write_limit (cli, out, limit);
      if (!cli->json)
        hs_cli_print ("%s: %s (%s: %s)%s\n", limit->check, limit->text, hs_limit_whose_word (limit->limits.whose),
                      limit->limits.source, limit->in_use ? "" : _(", not in use"));
    }
  hs_json_out_end_array (out);
  if (cli->json)
    hs_cli_print_json (out);
  return TRUE;
}

/* `low=12.2`, `high=15.5`; a value of its own may stand behind the sign. */
static gboolean
read_ends (char **words, HsOwnLimitEntry *entry, GError **error)
{
  for (guint i = 0; words[i] != NULL; i++)
    {
      const char **end = g_str_has_prefix (words[i], "low=") ? &entry->low
                         : g_str_has_prefix (words[i], "high=") ? &entry->high : NULL;
      if (end == NULL)
        return hs_cli_usage (error, _("“%s” is neither low= nor high="), words[i]);
      if (*end != NULL)
        return hs_cli_usage (error, _("“%s” stands twice"), words[i]);
      *end = strchr (words[i], '=') + 1;
    }
  return TRUE;
}

static gboolean
change (HsCli *cli, char **words, HsOwnLimitEntry *entry, gboolean clear, GError **error)
{
  if (!clear && words[1] == NULL)
    return list_limits (cli, entry->vehicle_id, words[0], error);
  entry->check = words[0];
  if (clear && words[1] != NULL)
    return hs_cli_usage (error, _("one word too many: “%s”"), words[1]);
  if (clear)
    return hs_own_limit_clear (cli->book, entry->vehicle_id, entry->check, entry->maker, cli->now, error)
           && list_limits (cli, entry->vehicle_id, entry->check, error);
  return read_ends (words + 1, entry, error) && hs_own_limit_set (cli->book, entry, cli->now, error)
         && list_limits (cli, entry->vehicle_id, entry->check, error);
}

gboolean
hs_command_limit (HsCli *cli, char **words, GError **error)
{
  g_autofree char *source = NULL;
  g_autofree char *unit = NULL;
  gboolean maker = FALSE;
  gboolean clear = FALSE;
  const GOptionEntry entries[] = {
    { "source", 0, 0, G_OPTION_ARG_STRING, &source, NULL, NULL },
    { "unit", 0, 0, G_OPTION_ARG_STRING, &unit, NULL, NULL },
    { "maker", 0, 0, G_OPTION_ARG_NONE, &maker, NULL, NULL },
    { "clear", 0, 0, G_OPTION_ARG_NONE, &clear, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, entries, 1, 4, &left, error))
    return FALSE;
  if (clear && left[1] == NULL)
    return hs_cli_usage (error, _("say which check's limit goes"));
  gboolean writes = clear || (left[1] != NULL && left[2] != NULL);
  if (!hs_cli_open_book (cli, writes ? HS_BOOK_WRITE : HS_BOOK_READ, error))
    return FALSE;
  g_autofree char *vehicle_id = hs_history_find_vehicle (cli->book, left[0], cli->now, error);
  if (vehicle_id == NULL)
    return FALSE;
  if (left[1] == NULL)
    return list_limits (cli, vehicle_id, NULL, error);
  HsOwnLimitEntry entry = { .vehicle_id = vehicle_id, .unit = unit, .source = source, .maker = maker };
  return change (cli, left + 1, &entry, clear, error);
}
