// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a repair disturbs and what is looked after again because of it. For the list that is gone through before leaving
 * a vehicle. Refuses a text with anything in it that is not understood, naming the section and the key. */

#include "hs-after.h"

#include "hs-check-private.h"
#include "hs-core-error.h"
#include "hs-text.h"

/* One digit each. */
#define MOST_LOOKS 9
#define MOST_MILES 1000

static const char *const known_keys[] = { "name",  "parts", "unless", "caution", "look#", "check#",
                                          "only#", "again#", "source", "tag",     NULL };
static const char *const sures[] = { "official text", "derived", "secondary text", "common practice", "memory", NULL };

typedef struct
{
  HsAfterPlace shown;
  GArray *looks;
  char **parts;
  char **unless;
} Record;

struct _HsAfterList
{
  gatomicrefcount ref_count;
  GPtrArray *records;
};

static void
look_clear (HsAfterLook *look)
{
  g_free ((char *) look->words);
  g_free ((char *) look->check);
}

static void
record_free (Record *record)
{
  g_free ((char *) record->shown.id);
  g_free ((char *) record->shown.name);
  g_free ((char *) record->shown.caution);
  g_free ((char *) record->shown.source);
  g_free ((char *) record->shown.sure);
  g_array_unref (record->looks);
  g_strfreev (record->parts);
  g_strfreev (record->unless);
  g_free (record);
}

static char *
dup_numbered (GKeyFile *file, const char *section, const char *key, guint number)
{
  g_autofree char *name = g_strdup_printf ("%s%u", key, number);

  return hs_key_file_dup_text (file, section, name);
}

static gboolean
read_only (GKeyFile *file, const char *section, guint number, HsAfterLook *look, GError **error)
{
  g_autofree char *only = dup_numbered (file, section, "only", number);

  look->coding = only != NULL;
  if (only == NULL || g_str_equal (only, "coding"))
    return TRUE;
  return hs_key_file_refuse (error, section, "“only%u” must be coding, not “%s”", number, only);
}

static gboolean
read_again (GKeyFile *file, const char *section, guint number, HsAfterLook *look, GError **error)
{
  g_autofree char *again = dup_numbered (file, section, "again", number);
  guint64 miles = 0;

  if (again != NULL && !g_ascii_string_to_unsigned (again, 10, 1, MOST_MILES, &miles, NULL))
    return hs_key_file_refuse (error, section, "“again%u” must be whole miles from 1 to %u, not “%s”", number,
                               MOST_MILES, again);
  look->again_miles = (gint64) miles;
  return TRUE;
}

static gboolean
is_said (const HsAfterList *list, const char *words)
{
  return hs_after_list_find_look (list, words, NULL) != NULL;
}

static gboolean
read_look (HsAfterList *list, GKeyFile *file, const char *section, guint number, Record *record, GError **error)
{
  g_autofree char *words = dup_numbered (file, section, "look", number);
  g_autofree char *check = dup_numbered (file, section, "check", number);
  HsAfterLook look = { 0 };

  if (!read_only (file, section, number, &look, error) || !read_again (file, section, number, &look, error))
    return FALSE;
  if (words == NULL && (check != NULL || look.coding || look.again_miles > 0))
    return hs_key_file_refuse (error, section, "“look%u” is missing, but something is said about it", number);
  if (words == NULL)
    return TRUE;
  if (record->looks->len + 1 != number)
    return hs_key_file_refuse (error, section, "“look%u” has none before it: number them from 1", number);
  if (is_said (list, words))
    return hs_key_file_refuse (error, section, "“%s” is said twice", words);
  look.words = g_steal_pointer (&words);
  look.check = g_steal_pointer (&check);
  g_array_append_val (record->looks, look);
  record->shown.looks = (const HsAfterLook *) (gpointer) record->looks->data;
  record->shown.n_looks = record->looks->len;
  return TRUE;
}

static char **
dup_phrases (GKeyFile *file, const char *section, const char *key)
{
  g_autofree char *text = hs_key_file_dup_text (file, section, key);

  return g_strsplit (text == NULL ? "" : text, ";", -1);
}

static gboolean
read_words (GKeyFile *file, const char *section, Record *record, GError **error)
{
  record->shown.name = hs_key_file_dup_needed (file, section, "name", error);
  if (record->shown.name == NULL)
    return FALSE;
  record->shown.source = hs_key_file_dup_needed (file, section, "source", error);
  if (record->shown.source == NULL)
    return FALSE;
  record->shown.sure = hs_key_file_dup_needed (file, section, "tag", error);
  if (record->shown.sure == NULL)
    return FALSE;
  if (!g_strv_contains (sures, record->shown.sure))
    return hs_key_file_refuse (error, section, "“tag” does not say how sure it is: “%s”", record->shown.sure);
  record->shown.caution = hs_key_file_dup_text (file, section, "caution");
  record->parts = dup_phrases (file, section, "parts");
  record->unless = dup_phrases (file, section, "unless");
  return hs_key_file_only (file, section, known_keys, MOST_LOOKS, error);
}

static gboolean
read_place (HsAfterList *list, GKeyFile *file, const char *section, GError **error)
{
  Record *record = g_new0 (Record, 1);

  record->looks = g_array_new (FALSE, FALSE, sizeof (HsAfterLook));
  g_array_set_clear_func (record->looks, (GDestroyNotify) look_clear);
  record->shown.id = g_strdup (section);
  g_ptr_array_add (list->records, record);
  if (!read_words (file, section, record, error))
    return FALSE;
  for (guint i = 1; i <= MOST_LOOKS; i++)
    if (!read_look (list, file, section, i, record, error))
      return FALSE;
  if (record->looks->len == 0)
    return hs_key_file_refuse (error, section, "nothing is looked after: write “look1”");
  return TRUE;
}

HsAfterList *
hs_after_list_new_from_data (const char *data, gssize length, GError **error)
{
  g_autoptr (GKeyFile) file
      = hs_key_file_read (data, length < 0 ? strlen (data) : (gsize) length, "the list of disturbed places", error);
  g_auto (GStrv) sections = file == NULL ? NULL : g_key_file_get_groups (file, NULL);
  g_autoptr (HsAfterList) list = g_new0 (HsAfterList, 1);

  g_atomic_ref_count_init (&list->ref_count);
  list->records = g_ptr_array_new_with_free_func ((GDestroyNotify) record_free);
  if (file == NULL)
    return NULL;
  for (guint i = 0; sections[i] != NULL; i++)
    if (!read_place (list, file, sections[i], error))
      return NULL;
  return g_steal_pointer (&list);
}

HsAfterList *
hs_after_list_ref (HsAfterList *list)
{
  g_atomic_ref_count_inc (&list->ref_count);
  return list;
}

void
hs_after_list_unref (HsAfterList *list)
{
  if (list == NULL || !g_atomic_ref_count_dec (&list->ref_count))
    return;
  g_ptr_array_unref (list->records);
  g_free (list);
}

const HsAfterPlace *
hs_after_list_get_nth (const HsAfterList *list, guint nth)
{
  return nth < list->records->len ? &((const Record *) g_ptr_array_index (list->records, nth))->shown : NULL;
}

const HsAfterPlace *
hs_after_list_find (const HsAfterList *list, const char *text)
{
  g_autofree char *folded = hs_text_fold (text);
  guint64 number;

  if (g_ascii_string_to_unsigned (folded, 10, 1, G_MAXUINT, &number, NULL))
    return hs_after_list_get_nth (list, (guint) number - 1);
  for (guint i = 0; i < list->records->len; i++)
    {
      const HsAfterPlace *place = hs_after_list_get_nth (list, i);
      g_autofree char *id = hs_text_fold (place->id);
      g_autofree char *name = hs_text_fold (place->name);

      if (g_str_equal (id, folded) || g_str_equal (name, folded))
        return place;
    }
  return NULL;
}

/* Every word of @phrase is one of @words. */
static gboolean
has_phrase (const char *const *words, const char *phrase)
{
  g_auto (GStrv) wanted = hs_text_words (phrase);

  for (guint i = 0; wanted[i] != NULL; i++)
    if (!g_strv_contains (words, wanted[i]))
      return FALSE;
  return *wanted != NULL;
}

static gboolean
has_one (const char *const *words, char **phrases)
{
  for (guint i = 0; phrases[i] != NULL; i++)
    if (has_phrase (words, phrases[i]))
      return TRUE;
  return FALSE;
}

GPtrArray *
hs_after_list_suggest (const HsAfterList *list, const char *part)
{
  g_auto (GStrv) words = hs_text_words (part);
  GPtrArray *found = g_ptr_array_new ();

  for (guint i = 0; i < list->records->len; i++)
    {
      Record *record = g_ptr_array_index (list->records, i);

      if (has_one ((const char *const *) words, record->parts)
          && !has_one ((const char *const *) words, record->unless))
        g_ptr_array_add (found, &record->shown);
    }
  return found;
}

const HsAfterLook *
hs_after_list_find_look (const HsAfterList *list, const char *words, const HsAfterPlace **ret_place)
{
  for (guint i = 0; i < list->records->len; i++)
    {
      const HsAfterPlace *place = hs_after_list_get_nth (list, i);

      for (guint j = 0; j < place->n_looks; j++)
        if (g_str_equal (place->looks[j].words, words))
          {
            if (ret_place != NULL)
              *ret_place = place;
            return &place->looks[j];
          }
    }
  return NULL;
}
