// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `calc`: one calculator on values that are given, without a book and without storing anything. Alone it lists them
 * with their keys and one example each. */

#include "hs-cli.h"

#include "hs-calc.h"
#include "hs-core-error.h"
#include "hs-data.h"

#include <glib/gi18n.h>

/* Without a book there is no owner's currency. */
#define CURRENCY "USD"

/* Today where this machine stands, or on the day of --now. */
static gboolean
find_today (HsCli *cli, HsDate *ret_today, GError **error)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_local ();
  HsInstant now = g_get_real_time () / G_USEC_PER_SEC;
  g_autoptr (GError) local = NULL;
  if (cli->now_text != NULL && !hs_instant_parse (cli->now_text, zone, &now, &local))
    return hs_cli_usage (error, "--now: %s", local->message);
  hs_instant_to_local (zone, now, ret_today, NULL);
  return TRUE;
}

/* `volts=`, `[celsius=]`, `percent=|sg=`: as they may be typed. */
static char *
keys_text (const HsCalc *calc)
{
  GString *text = g_string_new (NULL);
  for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
    {
      gboolean may = key->optional || key->usual != NULL;
      gboolean other = key->either > 0 && key > calc->keys && key[-1].either == key->either;
      g_string_append_printf (text, "%s%s%s=%s", other ? "|" : text->len > 0 ? " " : "", may ? "[" : "", key->id,
                              key->kind == HS_CALC_CHOICE ? key->choices : "");
      g_string_append (text, may ? "]" : "");
    }
  return g_string_free (text, FALSE);
}

static void
print_list (void)
{
  const HsCalc *calc;
  const char *subject = "";
  for (guint i = 0; (calc = hs_calc_get_nth (i)) != NULL; i++)
    {
      g_autofree char *keys = keys_text (calc);
      if (!g_str_equal (calc->subject, subject))
        hs_cli_print ("%s%s\n", i > 0 ? "\n" : "", calc->subject);
      subject = calc->subject;
      hs_cli_print ("  %s %s\n      %s\n      halfshaft-cli calc %s %s\n", calc->name, keys, calc->help, calc->name,
                    calc->example);
    }
}

static const char *
kind_id (HsCalcKind kind)
{
  static const char *const ids[] = {
    [HS_CALC_NUMBER] = "number",   [HS_CALC_NUMBERS] = "numbers", [HS_CALC_MONEY] = "money",
    [HS_CALC_AMOUNTS] = "amounts", [HS_CALC_DATE] = "date",       [HS_CALC_CHOICE] = "choice",
    [HS_CALC_TEXT] = "text",
  };
  return ids[kind];
}

static void
write_key (HsJsonOut *out, const HsCalcKey *key)
{
  g_autofree char *takes = hs_calc_key_dup_range (key);
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "key", key->id);
  hs_json_out_string (out, "label", key->label);
  hs_json_out_string (out, "kind", kind_id (key->kind));
  hs_json_out_string (out, "unit", key->unit);
  hs_json_out_string (out, "takes", takes);
  hs_json_out_boolean (out, "needed", !key->optional && key->usual == NULL && key->either == 0);
  hs_json_out_integer (out, "either", key->either);
  hs_json_out_string (out, "usual", key->usual);
  hs_json_out_end_object (out);
}

static void
write_calc (HsJsonOut *out, const HsCalc *calc)
{
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "name", calc->name);
  hs_json_out_string (out, "title", calc->title);
  hs_json_out_string (out, "subject", calc->subject);
  hs_json_out_string (out, "help", calc->help);
  hs_json_out_begin_array (out, "keys");
  for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
    write_key (out, key);
  hs_json_out_end_array (out);
  hs_json_out_string (out, "example", calc->example);
  hs_json_out_end_object (out);
}

static void
print_list_json (void)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  const HsCalc *calc;
  hs_json_out_begin_array (out, NULL);
  for (guint i = 0; (calc = hs_calc_get_nth (i)) != NULL; i++)
    write_calc (out, calc);
  hs_json_out_end_array (out);
  hs_cli_print_json (out);
}

static void
write_list (HsJsonOut *out, const HsCalcItem *item)
{
  hs_json_out_begin_array (out, item->id);
  for (guint i = 0; item->texts != NULL && item->texts[i] != NULL; i++)
    hs_json_out_string (out, NULL, item->texts[i]);
  for (guint i = 0; item->integers != NULL && i < item->integers->len; i++)
    hs_json_out_integer (out, NULL, g_array_index (item->integers, gint64, i));
  hs_json_out_end_array (out);
}

static void
write_item (HsJsonOut *out, const HsCalcItem *item)
{
  switch (item->shape)
    {
    case HS_CALC_IS_NUMBER:
      hs_json_out_real (out, item->id, item->number);
      return;
    case HS_CALC_IS_INTEGER:
    case HS_CALC_IS_MONEY:
      hs_json_out_integer (out, item->id, item->integer);
      return;
    case HS_CALC_IS_BOOLEAN:
      hs_json_out_boolean (out, item->id, item->integer != 0);
      return;
    case HS_CALC_IS_TEXT:
      hs_json_out_string (out, item->id, item->texts[0]);
      return;
    case HS_CALC_IS_TEXTS:
    case HS_CALC_IS_INTEGERS:
      write_list (out, item);
      return;
    case HS_CALC_IS_NONE:
    default:
      hs_json_out_null (out, item->id);
    }
}

static void
print_result_json (const HsCalc *calc, const HsCalcResult *result)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  HsVerdict verdict;
  gboolean judged = hs_calc_result_get_verdict (result, &verdict);
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "name", calc->name);
  hs_json_out_begin_object (out, "result");
  for (guint i = 0; i < hs_calc_result_get_length (result); i++)
    write_item (out, hs_calc_result_get_nth (result, i));
  hs_json_out_end_object (out);
  hs_json_out_string (out, "verdict", judged ? hs_verdict_id (verdict) : NULL);
  hs_json_out_string (out, "word", judged ? hs_calc_result_get_word (result) : NULL);
  hs_json_out_string (out, "because", hs_calc_result_get_because (result));
  hs_json_out_string (out, "limit", hs_calc_result_get_limit (result));
  hs_json_out_string (out, "next", hs_calc_result_get_next (result));
  hs_json_out_string (out, "caution", calc->caution);
  hs_json_out_string (out, "source", hs_calc_result_get_source (result));
  hs_json_out_string (out, "sure", hs_calc_result_get_sure (result));
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_line (const char *title, const char *text)
{
  if (text == NULL || *text == '\0')
    return;
  g_autofree char *padded = hs_cli_pad (title, 12);
  hs_cli_print ("    %s %s\n", padded, text);
}

static void
print_result (const HsCalc *calc, const HsCalcResult *result)
{
  hs_cli_print ("%s", calc->title);
  if (hs_calc_result_get_verdict (result, NULL))
    hs_cli_print ("  [%s]", hs_calc_result_get_word (result));
  hs_cli_print ("\n");
  for (guint i = 0; i < hs_calc_result_get_length (result); i++)
    {
      const HsCalcItem *item = hs_calc_result_get_nth (result, i);
      g_autofree char *padded = hs_cli_pad (item->label, 26);
      hs_cli_print ("  %s %s\n", padded, item->shown);
    }
  g_autofree char *says =
    hs_verdict_source_text (hs_calc_result_get_source (result), hs_calc_result_get_sure (result));
  print_line (_("why"), hs_calc_result_get_because (result));
  print_line (_("limit"), hs_calc_result_get_limit (result));
  print_line (_("who says so"), says);
  print_line (_("next"), hs_calc_result_get_next (result));
  print_line (_("caution"), calc->caution);
}

static HsCalcResult *
work_out (const HsCalc *calc, HsDate today, char **words, GError **error)
{
  g_autoptr (HsChecks) checks = hs_data_load_checks (error);
  if (checks == NULL)
    return NULL;
  g_autoptr (HsReference) reference = hs_data_load_reference (error);
  if (reference == NULL)
    return NULL;
  HsCalcScene scene = { .checks = checks, .reference = reference, .currency = CURRENCY, .today = today };
  g_autoptr (GError) local = NULL;
  g_autoptr (HsCalcResult) result = hs_calc_run (calc, &scene, (const char *const *) words, &local);
  if (result != NULL)
    return g_steal_pointer (&result);
  if (g_error_matches (local, HS_CORE_ERROR, HS_CORE_ERROR_REFUSED))
    hs_cli_usage (error, "%s: %s", calc->name, local->message);
  else
    g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s: %s", calc->name, local->message);
  return NULL;
}

gboolean
hs_command_calc (HsCli *cli, char **words, GError **error)
{
  g_auto (GStrv) left = NULL;
  if (!hs_cli_parse (words, NULL, 0, G_MAXUINT, &left, error))
    return FALSE;
  if (left[0] == NULL)
    {
      if (cli->json)
        print_list_json ();
      else
        print_list ();
      return TRUE;
    }

  const HsCalc *calc = hs_calc_lookup (left[0]);
  if (calc == NULL)
    return hs_cli_usage (error, _("there is no calculator “%s”; “calc” alone lists them"), left[0]);
  HsDate today;
  if (!find_today (cli, &today, error))
    return FALSE;
  g_autoptr (HsCalcResult) result = work_out (calc, today, left + 1, error);
  if (result == NULL)
    return FALSE;
  if (cli->json)
    print_result_json (calc, result);
  else
    print_result (calc, result);
  return TRUE;
}
