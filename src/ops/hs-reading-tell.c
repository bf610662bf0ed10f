// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What a verdict depends on, told after the reading was stored: it is written beside it as if it had been told before,
 * and takes the place of what was told then. Refuses a condition that does not exist and an answer that it does not
 * take; what is squared refuses by itself.
 */

#include "hs-job-op.h"
#include "hs-ops-private.h"
#include "hs-reading-private.h"
#include "hs-text.h"

static gboolean
is_of (const char *part, const HsCondition *condition)
{
  g_auto (GStrv) sides = g_strsplit (part, ":", 2);

  return sides[0] != NULL && sides[1] != NULL && g_ascii_strcasecmp (g_strstrip (sides[0]), condition->id) == 0;
}

/* (transfer full) (nullable): @conditions with @text for @condition; remarks between them stay. */
static char *
dup_conditions (const char *conditions, const HsCondition *condition, const char *text)
{
  g_auto (GStrv) parts = g_strsplit (conditions != NULL ? conditions : "", ";", -1);
  g_autoptr (GString) all = g_string_new (NULL);

  for (guint i = 0; parts[i] != NULL; i++)
    if (!hs_text_is_blank (parts[i]) && !is_of (parts[i], condition))
      g_string_append_printf (all, "%s%s", all->len > 0 ? "; " : "", g_strstrip (parts[i]));
  if (text != NULL)
    g_string_append_printf (all, "%s%s:%s", all->len > 0 ? "; " : "", condition->id, text);
  return all->len > 0 ? g_string_free (g_steal_pointer (&all), FALSE) : NULL;
}

static gboolean
tell (HsBook *book, const char *reading_id, const HsCondition *condition, const char *text, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsReadingRow) row = NULL;
  g_autofree char *conditions = NULL;
  const HsCheck *check;

  if (!hs_reading_row_load (store, reading_id, &row, error))
    return FALSE;
  check = hs_checks_lookup (hs_book_get_checks (book), row->check_id);
  hs_ops_note (store, row->job_id, "reading: %s, %s: %s", check == NULL ? row->check_id : check->name,
               condition->label, text != NULL ? text : "not known");
  conditions = dup_conditions (row->conditions, condition, text);
  hs_row_set (&row->conditions, conditions);
  return hs_reading_row_save (store, row, error);
}

gboolean
hs_reading_tell (HsBook *book, const char *reading_id, const char *condition, const char *text, HsInstant now,
                 GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const HsCondition *known = hs_condition_lookup (condition);
  HsConditions conditions = HS_CONDITIONS_INIT;
  g_autofree char *written = NULL;
  g_autoptr (GError) wrong = NULL;

  if (known == NULL)
    return hs_ops_refuse (error, "There is no condition “%s”.", condition);
  text = hs_ops_blank_to_null (text);
  written = g_strdup_printf ("%s:%s", known->id, text != NULL ? text : "unknown");
  if (!hs_conditions_put (written, &conditions, &wrong))
    return hs_ops_refuse (error, "Conditions: %s.", wrong->message);
  if (!hs_store_begin (store, now, error))
    return FALSE;
  return hs_store_end (store, tell (book, reading_id, known, text, error), error);
}
