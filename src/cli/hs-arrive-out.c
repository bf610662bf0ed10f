// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Identity, visits and the safety list as JSON, for their own commands and within a job. */

#include "hs-arrive-out.h"

#include "hs-store.h"

static void
write_number (HsJsonOut *out, const char *name, gint64 value)
{
  if (value == HS_INT_NONE)
    hs_json_out_null (out, name);
  else
    hs_json_out_integer (out, name, value);
}

static void
write_instant (HsJsonOut *out, const char *name, HsInstant at)
{
  g_autofree char *text = at != HS_INSTANT_NONE ? hs_instant_format (at) : NULL;
  hs_json_out_string (out, name, text);
}

void
hs_identity_out_write (HsJsonOut *out, const char *name, const HsIdentity *identity)
{
  hs_json_out_begin_object (out, name);
  hs_json_out_string (out, "plate", identity->plate);
  hs_json_out_string (out, "plate_state", identity->plate_state);
  hs_json_out_string (out, "vehicle", identity->vehicle);
  hs_json_out_string (out, "vin", identity->vin);
  hs_json_out_string (out, "unit", identity->unit);
  write_number (out, "odometer", identity->odometer);
  hs_json_out_string (out, "doubted", identity->doubted);
  write_number (out, "last_odometer", identity->last_value);
  hs_cli_json_date (out, "last_on", identity->last_on);
  write_number (out, "a_day_tenths", identity->a_day_tenths);
  hs_json_out_string (out, "words", identity->words);
  hs_json_out_string (out, "saw_it", identity->saw_it);
  hs_json_out_end_object (out);
}

static void
write_item (HsJsonOut *out, const HsSafetyLine *line)
{
  g_autofree char *at = line->at != HS_INSTANT_NONE ? hs_instant_format (line->at) : NULL;
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "item", line->id);
  hs_json_out_string (out, "words", line->words);
  hs_json_out_string (out, "caution", line->caution);
  hs_json_out_string (out, "source", line->source);
  hs_json_out_string (out, "sure", line->sure);
  hs_json_out_boolean (out, "high_voltage", line->high_voltage);
  hs_json_out_string (out, "answer", line->answer);
  hs_json_out_boolean (out, "not_so", line->not_so);
  hs_json_out_string (out, "why", line->why);
  hs_json_out_string (out, "at", at);
  hs_json_out_end_object (out);
}

void
hs_safety_out_write (HsJsonOut *out, const char *name, const HsSafetySheet *sheet)
{
  hs_json_out_begin_object (out, name);
  hs_json_out_boolean (out, "arrived", sheet->visit_id != NULL);
  hs_json_out_boolean (out, "high_voltage", sheet->high_voltage);
  hs_json_out_integer (out, "open", sheet->n_open);
  hs_json_out_integer (out, "not_so", sheet->n_not_so);
  hs_json_out_string (out, "note", sheet->note);
  hs_json_out_begin_array (out, "items");
  for (guint i = 0; i < sheet->lines->len; i++)
    write_item (out, g_ptr_array_index (sheet->lines, i));
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

void
hs_visit_out_write (HsJsonOut *out, const char *name, const HsVisitView *view)
{
  hs_json_out_begin_object (out, name);
  write_instant (out, "rolling_at", view->rolling_at);
  write_instant (out, "arrived_at", view->arrived_at);
  write_instant (out, "left_at", view->left_at);
  write_instant (out, "stopped_at", view->paused_at);
  hs_cli_json_minutes (out, "minutes", view->seconds);
  hs_cli_json_minutes (out, "stopped_minutes", view->paused_seconds);
  hs_json_out_integer (out, "stops", view->n_pauses);
  hs_json_out_string (out, "safety", view->safe_note);
  hs_json_out_end_object (out);
}

gboolean
hs_arrive_out_write (HsCli *cli, HsJsonOut *out, const char *job_id, GError **error)
{
  g_autoptr (HsIdentity) identity = hs_identity_load (cli->book, job_id, error);
  g_autoptr (HsSafetySheet) sheet = NULL;
  g_autoptr (GPtrArray) views = NULL;
  if (identity == NULL || (sheet = hs_safety_sheet_load (cli->book, job_id, error)) == NULL
      || (views = hs_visit_view_list (cli->book, job_id, cli->now, error)) == NULL)
    return FALSE;
  hs_identity_out_write (out, "identity", identity);
  hs_safety_out_write (out, "safety", sheet);
  hs_json_out_begin_array (out, "visits");
  for (guint i = 0; i < views->len; i++)
    hs_visit_out_write (out, NULL, g_ptr_array_index (views, i));
  hs_json_out_end_array (out);
  return TRUE;
}
