// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is made safe before work begins: for the sheet that comes with arriving, and for the rule that a high-voltage
 * vehicle is measured after it only. Refuses a text with anything in it that is not understood, naming the section and
 * the key. */

#include "hs-safety.h"

#include "hs-check-private.h"
#include "hs-core-error.h"
#include "hs-text.h"

#define PREFIX "item "
#define ALL "all"
#define NOT_TOLD "not_told"
#define HIGH_VOLTAGE "high_voltage"

static const char *const known_keys[] = { "words", "short", "of", "vehicle", "caution", "source", "sure", NULL };
static const char *const sures[] = { "official text", "secondary text", "derived", "common practice", NULL };

typedef struct
{
  HsSafetyItem shown;
  char **groups;
} Record;

struct _HsSafety
{
  gatomicrefcount ref_count;
  GPtrArray *records;
};

static void
record_free (Record *record)
{
  g_free ((char *) record->shown.id);
  g_free ((char *) record->shown.words);
  g_free ((char *) record->shown.brief);
  g_free ((char *) record->shown.caution);
  g_free ((char *) record->shown.source);
  g_free ((char *) record->shown.sure);
  g_strfreev (record->groups);
  g_free (record);
}

static gboolean
vehicle_read (GKeyFile *file, const char *section, Record *record, GError **error)
{
  g_autofree char *vehicle = hs_key_file_dup_text (file, section, "vehicle");

  if (vehicle != NULL && !g_str_equal (vehicle, HIGH_VOLTAGE))
    return hs_key_file_refuse (error, section, "“vehicle” may be high_voltage or left away, not “%s”", vehicle);
  record->shown.high_voltage = vehicle != NULL;
  return TRUE;
}

static gboolean
groups_read (GKeyFile *file, const char *section, Record *record, GError **error)
{
  g_autofree char *text = hs_key_file_dup_needed (file, section, "of", error);

  if (text == NULL)
    return FALSE;
  record->groups = hs_ids_split (text);
  if (*record->groups == NULL)
    return hs_key_file_refuse (error, section, "“of” names no complaint group; write all, or one");
  return TRUE;
}

static gboolean
source_read (GKeyFile *file, const char *section, Record *record, GError **error)
{
  record->shown.source = hs_key_file_dup_needed (file, section, "source", error);
  if (record->shown.source == NULL)
    return FALSE;
  record->shown.sure = hs_key_file_dup_needed (file, section, "sure", error);
  if (record->shown.sure == NULL || g_strv_contains (sures, record->shown.sure))
    return record->shown.sure != NULL;
  return hs_key_file_refuse (error, section,
                             "“sure” must be official text, secondary text, derived or common practice, not “%s”",
                             record->shown.sure);
}

static gboolean
item_read (HsSafety *safety, GKeyFile *file, const char *section, GError **error)
{
  Record *record = g_new0 (Record, 1);

  g_ptr_array_add (safety->records, record);
  if (!g_str_has_prefix (section, PREFIX) || hs_text_is_blank (section + strlen (PREFIX)))
    return hs_key_file_refuse (error, section, "a section here is [item ID]");
  record->shown.id = g_strstrip (g_strdup (section + strlen (PREFIX)));
  record->shown.words = hs_key_file_dup_needed (file, section, "words", error);
  if (record->shown.words == NULL || !hs_key_file_only (file, section, known_keys, 0, error)
      || !groups_read (file, section, record, error) || !vehicle_read (file, section, record, error)
      || !source_read (file, section, record, error))
    return FALSE;
  record->shown.brief = hs_key_file_dup_text (file, section, "short");
  if (record->shown.brief == NULL)
    record->shown.brief = g_strdup (record->shown.words);
  record->shown.caution = hs_key_file_dup_text (file, section, "caution");
  return TRUE;
}

HsSafety *
hs_safety_new_from_data (const char *data, gssize length, GError **error)
{
  g_autoptr (GKeyFile) file
      = hs_key_file_read (data, length < 0 ? strlen (data) : (gsize) length, "the safety list", error);
  g_auto (GStrv) sections = file == NULL ? NULL : g_key_file_get_groups (file, NULL);
  g_autoptr (HsSafety) safety = g_new0 (HsSafety, 1);

  g_atomic_ref_count_init (&safety->ref_count);
  safety->records = g_ptr_array_new_with_free_func ((GDestroyNotify) record_free);
  if (file == NULL)
    return NULL;
  for (guint i = 0; sections[i] != NULL; i++)
    if (!item_read (safety, file, sections[i], error))
      return NULL;
  return g_steal_pointer (&safety);
}

HsSafety *
hs_safety_ref (HsSafety *safety)
{
  g_atomic_ref_count_inc (&safety->ref_count);
  return safety;
}

void
hs_safety_unref (HsSafety *safety)
{
  if (safety == NULL || !g_atomic_ref_count_dec (&safety->ref_count))
    return;
  g_ptr_array_unref (safety->records);
  g_free (safety);
}

const HsSafetyItem *
hs_safety_get_nth (const HsSafety *safety, guint nth)
{
  if (nth >= safety->records->len)
    return NULL;
  return &((const Record *) g_ptr_array_index (safety->records, nth))->shown;
}

const HsSafetyItem *
hs_safety_find (const HsSafety *safety, const char *id)
{
  const HsSafetyItem *item;

  for (guint i = 0; (item = hs_safety_get_nth (safety, i)) != NULL; i++)
    if (g_strcmp0 (item->id, id) == 0)
      return item;
  return NULL;
}

static gboolean
is_asked (const Record *record, const char *group, gboolean high_voltage)
{
  const char *const *groups = (const char *const *) record->groups;

  if (record->shown.high_voltage && !high_voltage)
    return FALSE;
  return g_strv_contains (groups, ALL) || g_strv_contains (groups, group != NULL ? group : NOT_TOLD);
}

GPtrArray *
hs_safety_list (const HsSafety *safety, const char *group, gboolean high_voltage)
{
  GPtrArray *list = g_ptr_array_new ();

  for (guint i = 0; i < safety->records->len; i++)
    {
      Record *record = g_ptr_array_index (safety->records, i);

      if (is_asked (record, group, high_voltage))
        g_ptr_array_add (list, &record->shown);
    }
  return list;
}
