// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the operations share: refusing in words, and finding the van that is meant. */

#include "hs-ops-private.h"

#include "hs-ops-error.h"
#include "hs-ops-resources.h"
#include "hs-text.h"

#include <gio/gio.h>

/* Far more than a list needs; a film dropped under its name is not read. */
#define MOST_OWN_BYTES (4 * 1024 * 1024)

static void G_GNUC_PRINTF (3, 0)
set_error_va (GError **error, HsOpsError code, const char *format, va_list args)
{
  g_propagate_error (error, g_error_new_valist (HS_OPS_ERROR, code, format, args));
}

gboolean
hs_ops_refuse (GError **error, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  set_error_va (error, HS_OPS_ERROR_REFUSED, format, args);
  va_end (args);
  return FALSE;
}

gboolean
hs_ops_doubts (GError **error, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  set_error_va (error, HS_OPS_ERROR_WANTS_WHY, format, args);
  va_end (args);
  return FALSE;
}

gboolean
hs_ops_passes (GError **error, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  set_error_va (error, HS_OPS_ERROR_PAST_CEILING, format, args);
  va_end (args);
  return FALSE;
}

gboolean
hs_ops_not_found (GError **error, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  set_error_va (error, HS_OPS_ERROR_NOT_FOUND, format, args);
  va_end (args);
  return FALSE;
}

gboolean
hs_ops_read_own (const char *path, const char *of, char **ret_text, gsize *ret_length, GError **error)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFileInfo) info = NULL;
  g_autoptr (GError) failure = NULL;

  info = g_file_query_info (file, G_FILE_ATTRIBUTE_STANDARD_SIZE "," G_FILE_ATTRIBUTE_STANDARD_TYPE,
                            G_FILE_QUERY_INFO_NONE, NULL, &failure);
  if (g_error_matches (failure, G_IO_ERROR, G_IO_ERROR_NOT_FOUND))
    return FALSE;
  if (failure != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&failure));
      return FALSE;
    }
  if (g_file_info_get_file_type (info) != G_FILE_TYPE_REGULAR || g_file_info_get_size (info) > MOST_OWN_BYTES)
    return hs_ops_refuse (error, "it is not a list of %s", of);
  return g_file_load_contents (file, NULL, ret_text, ret_length, NULL, error);
}

char *
hs_ops_said_back (const char *text)
{
  glong length = text == NULL ? 0 : g_utf8_strlen (text, -1);

  return length == 0 ? g_strdup ("") : g_utf8_substring (text, 0, MIN (length, 40));
}

gboolean
hs_ops_is_not_found (const GError *error)
{
  return g_error_matches (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND);
}

gboolean
hs_ops_only_missing (GError **failure, GError **error)
{
  if (*failure == NULL || hs_ops_is_not_found (*failure))
    return TRUE;
  g_propagate_error (error, g_steal_pointer (failure));
  return FALSE;
}

GBytes *
hs_ops_load_data (const char *name, GError **error)
{
  static GResource *resource = NULL;
  g_autofree char *path = g_strconcat ("/org/halfshaft/ops/", name, NULL);

  if (g_once_init_enter (&resource))
    g_once_init_leave (&resource, hs_ops_get_resource ());
  return g_resource_lookup_data (resource, path, G_RESOURCE_LOOKUP_FLAGS_NONE, error);
}

const char *
hs_ops_blank_to_null (const char *text)
{
  return hs_text_is_blank (text) ? NULL : text;
}

gboolean
hs_ops_first_van (HsBook *book, HsVanRow **ret_van, GError **error)
{
  g_autoptr (GPtrArray) vans = NULL;
  const HsVanRow *first = NULL;

  if (!hs_van_row_list (hs_book_get_store (book), &vans, error))
    return FALSE;
  for (guint i = 0; i < vans->len; i++)
    {
      const HsVanRow *van = g_ptr_array_index (vans, i);

      if (first == NULL || g_strcmp0 (van->letter, first->letter) < 0)
        first = van;
    }
  if (first == NULL)
    return hs_ops_not_found (error, "The book has no van; add one with: set vans A");
  *ret_van = hs_van_row_copy (first);
  return TRUE;
}

gboolean
hs_ops_van (HsBook *book, const char *letter, HsVanRow **ret_van, GError **error)
{
  g_autoptr (GError) missing = NULL;
  g_autofree char *upper = NULL;

  if (letter == NULL)
    return hs_ops_first_van (book, ret_van, error);
  upper = g_ascii_strup (letter, -1);
  if (hs_van_row_find (hs_book_get_store (book), upper, ret_van, &missing))
    return TRUE;
  return hs_ops_only_missing (&missing, error)
         && hs_ops_not_found (error, "The book has no van “%s”; add its letter with: set vans A,%s", letter, upper);
}

gboolean
hs_ops_check_group (HsBook *book, const char *group, GError **error)
{
  HsChecks *checks = hs_book_get_checks (book);
  g_autoptr (GString) known = g_string_new (NULL);
  const HsCheckGroup *each;

  if (hs_checks_lookup_group (checks, group) != NULL)
    return TRUE;
  for (guint i = 0; (each = hs_checks_get_nth_group (checks, i)) != NULL; i++)
    g_string_append_printf (known, "%s%s", i == 0 ? "" : ", ", each->id);
  return hs_ops_refuse (error, "There is no complaint group “%s”. There are: %s.", group, known->str);
}

void
hs_ops_note (HsStore *store, const char *job_id, const char *format, ...)
{
  g_autofree char *what = NULL;
  va_list values;

  va_start (values, format);
  what = g_strdup_vprintf (format, values);
  va_end (values);
  hs_undo_note (store, job_id, what);
}

gboolean
hs_ops_note_vehicle (HsStore *store, const char *vehicle_id, const char *what, GError **error)
{
  g_autoptr (GPtrArray) jobs = NULL;
  const HsJobRow *latest;
  HsStage stage;

  if (!hs_job_row_list_of_vehicle (store, vehicle_id, &jobs, error))
    return FALSE;
  latest = jobs->len == 0 ? NULL : g_ptr_array_index (jobs, 0);
  if (latest != NULL && hs_stage_parse (latest->stage, &stage, NULL) && hs_stage_is_open (stage))
    hs_undo_note (store, latest->id, what);
  return TRUE;
}

HsDate
hs_ops_today (HsBook *book, HsInstant now)
{
  HsDate today;

  hs_instant_to_local (hs_book_get_zone (book), now, &today, NULL);
  return today;
}

gboolean
hs_ops_word (HsWords words, const char *text, const char *standard, const char **ret_id, GError **error)
{
  if (hs_text_is_blank (text))
    {
      *ret_id = standard;
      return TRUE;
    }
  return hs_words_parse (words, text, ret_id, error);
}
