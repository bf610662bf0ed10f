// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A catalog that its owner has edited, laid over the one that is built in: for programs that read a file beside the
 * book. Every section of the file stands for the one of its name; what the file does not name stays, so that leaving a
 * limit out never switches it off. Refuses another unit, other decimals or another kind of answer for a check that is
 * built in, for books hold readings in them. */

#include "hs-check-private.h"

#define CHECK "check "
#define LIMIT "limit "
#define GROUP "group "

typedef struct
{
  GKeyFile *builtin;
  GKeyFile *edited;
  GKeyFile *merged;
  GStrvBuilder *changes;
  GHashTable *changed_limits;
} Merge;

static gboolean
is_same_section (Merge *merge, const char *section)
{
  g_auto (GStrv) ours = g_key_file_get_keys (merge->builtin, section, NULL, NULL);
  g_auto (GStrv) theirs = g_key_file_get_keys (merge->edited, section, NULL, NULL);
  gboolean same = g_strv_length (ours) == g_strv_length (theirs);

  for (guint i = 0; same && ours[i] != NULL; i++)
    {
      g_autofree char *our = hs_key_file_dup_text (merge->builtin, section, ours[i]);
      g_autofree char *their = hs_key_file_dup_text (merge->edited, section, ours[i]);

      same = g_strcmp0 (our, their) == 0;
    }
  return same;
}

static void
copy_section (GKeyFile *from, GKeyFile *to, const char *section)
{
  g_auto (GStrv) keys = g_key_file_get_keys (from, section, NULL, NULL);

  for (guint i = 0; keys != NULL && keys[i] != NULL; i++)
    {
      g_autofree char *value = g_key_file_get_value (from, section, keys[i], NULL);

      g_key_file_set_value (to, section, keys[i], value);
    }
}

static gboolean
same_text (Merge *merge, const char *section, const char *key)
{
  g_autofree char *our = hs_key_file_dup_text (merge->builtin, section, key);
  g_autofree char *their = hs_key_file_dup_text (merge->edited, section, key);

  return g_strcmp0 (our, their) == 0;
}

static gboolean
fixed_check (Merge *merge, const char *section, GError **error)
{
  static const char *const fixed[] = { "unit", "decimals", "entry" };

  for (gsize i = 0; i < G_N_ELEMENTS (fixed); i++)
    if (!same_text (merge, section, fixed[i]))
      return hs_key_file_refuse (error, section, "“%s” stays as it is built in, for books have readings in it; make a "
                                                 "new check instead", fixed[i]);
  return TRUE;
}

/* Takes the section from the file if that has it, else from what is built in, and notes what is new or other. */
static gboolean
put (Merge *merge, const char *section, GError **error)
{
  gboolean is_builtin = g_key_file_has_group (merge->builtin, section);
  gboolean is_edited = g_key_file_has_group (merge->edited, section);

  if (is_edited && is_builtin && g_str_has_prefix (section, CHECK) && !fixed_check (merge, section, error))
    return FALSE;
  copy_section (is_edited ? merge->edited : merge->builtin, merge->merged, section);
  if (!is_edited || (is_builtin && is_same_section (merge, section)))
    return TRUE;
  g_strv_builder_add (merge->changes, is_builtin ? "changed" : "added");
  g_strv_builder_add (merge->changes, section);
  if (g_str_has_prefix (section, LIMIT))
    g_hash_table_add (merge->changed_limits, g_strdup (section));
  return TRUE;
}

/* What is built in, in its order, then what the file adds. */
static gboolean
put_kind (Merge *merge, const char *kind, GError **error)
{
  g_auto (GStrv) ours = g_key_file_get_groups (merge->builtin, NULL);
  g_auto (GStrv) theirs = g_key_file_get_groups (merge->edited, NULL);

  for (guint i = 0; ours[i] != NULL; i++)
    if (g_str_has_prefix (ours[i], kind) && !put (merge, ours[i], error))
      return FALSE;
  for (guint i = 0; theirs[i] != NULL; i++)
    if (g_str_has_prefix (theirs[i], kind) && !g_key_file_has_group (merge->builtin, theirs[i])
        && !put (merge, theirs[i], error))
      return FALSE;
  return TRUE;
}

/* `drop` of `[limit drop no load]`. */
static gboolean
is_of_check (const char *section, const char *check)
{
  gsize length = strlen (check);
  const char *rest;

  if (!g_str_has_prefix (section, LIMIT))
    return FALSE;
  rest = section + strlen (LIMIT);
  return strncmp (rest, check, length) == 0 && (rest[length] == ' ' || rest[length] == '\0');
}

/* The limit that is built in before which a new one stands: the next one that the file names behind it, else the first
 * that is not about the test being valid. NULL: at the end. */
static const char *
find_anchor (Merge *merge, char **ours, char **theirs, guint new_one, const char *check)
{
  for (guint i = new_one + 1; theirs[i] != NULL; i++)
    if (is_of_check (theirs[i], check) && g_key_file_has_group (merge->builtin, theirs[i]))
      return theirs[i];
  for (guint i = 0; ours[i] != NULL; i++)
    if (is_of_check (ours[i], check) && !g_key_file_has_key (merge->builtin, ours[i], "invalid", NULL))
      return ours[i];
  return NULL;
}

static gboolean
put_new_limits (Merge *merge, char **ours, char **theirs, const char *check, const char *before, GError **error)
{
  for (guint i = 0; theirs[i] != NULL; i++)
    if (is_of_check (theirs[i], check) && !g_key_file_has_group (merge->builtin, theirs[i])
        && g_strcmp0 (find_anchor (merge, ours, theirs, i, check), before) == 0 && !put (merge, theirs[i], error))
      return FALSE;
  return TRUE;
}

static gboolean
put_limits_of (Merge *merge, char **ours, char **theirs, const char *check, GError **error)
{
  for (guint i = 0; ours[i] != NULL; i++)
    if (is_of_check (ours[i], check)
        && (!put_new_limits (merge, ours, theirs, check, ours[i], error) || !put (merge, ours[i], error)))
      return FALSE;
  return put_new_limits (merge, ours, theirs, check, NULL, error);
}

static gboolean
put_limits (Merge *merge, GError **error)
{
  g_auto (GStrv) ours = g_key_file_get_groups (merge->builtin, NULL);
  g_auto (GStrv) theirs = g_key_file_get_groups (merge->edited, NULL);
  g_auto (GStrv) all = g_key_file_get_groups (merge->merged, NULL);

  for (guint i = 0; all[i] != NULL; i++)
    if (g_str_has_prefix (all[i], CHECK) && !put_limits_of (merge, ours, theirs, all[i] + strlen (CHECK), error))
      return FALSE;
  return TRUE;
}

/* What was not put is a limit of a check that does not exist, or no section at all; the reader names it. */
static void
put_rest (Merge *merge)
{
  g_auto (GStrv) theirs = g_key_file_get_groups (merge->edited, NULL);

  for (guint i = 0; theirs[i] != NULL; i++)
    if (!g_key_file_has_group (merge->merged, theirs[i]))
      {
        copy_section (merge->edited, merge->merged, theirs[i]);
        /* A section without keys would vanish. */
        if (!g_key_file_has_group (merge->merged, theirs[i]))
          g_key_file_set_value (merge->merged, theirs[i], "empty", "");
      }
}

/* "changed", "[limit …]" become one line. */
static char **
dup_lines (char **words)
{
  g_autoptr (GStrvBuilder) lines = g_strv_builder_new ();

  for (guint i = 0; words[i] != NULL; i += 2)
    {
      g_autofree char *line = g_strdup_printf ("%s [%s]", words[i], words[i + 1]);

      g_strv_builder_add (lines, line);
    }
  return g_strv_builder_end (lines);
}

static void
mark_changed (HsChecks *checks, Merge *merge)
{
  for (guint i = 0; i < checks->checks->len; i++)
    {
      const HsCheckRecord *record = g_ptr_array_index (checks->checks, i);

      for (guint j = 0; j < record->limits->len; j++)
        {
          HsLimit *limit = g_ptr_array_index (record->limits, j);

          limit->changed = g_hash_table_contains (merge->changed_limits, limit->name);
        }
    }
}

static HsChecks *
merge_all (Merge *merge, char ***ret_changes, GError **error)
{
  g_autoptr (HsChecks) checks = NULL;
  g_auto (GStrv) words = NULL;

  if (!put_kind (merge, CHECK, error) || !put_limits (merge, error) || !put_kind (merge, GROUP, error))
    return NULL;
  put_rest (merge);
  checks = hs_checks_new_from_key_file (merge->merged, error);
  if (checks == NULL)
    return NULL;
  mark_changed (checks, merge);
  words = g_strv_builder_end (merge->changes);
  *ret_changes = dup_lines (words);
  return g_steal_pointer (&checks);
}

HsChecks *
hs_checks_new_edited (const char *builtin, gsize builtin_length, const char *edited, gsize edited_length,
                      char ***ret_changes, GError **error)
{
  g_autoptr (GKeyFile) ours = hs_key_file_read (builtin, builtin_length, "the list of checks", error);
  g_autoptr (GKeyFile) theirs = ours == NULL ? NULL : hs_key_file_read (edited, edited_length, "the file", error);
  g_autoptr (GKeyFile) merged = g_key_file_new ();
  g_autoptr (GStrvBuilder) changes = g_strv_builder_new ();
  g_autoptr (GHashTable) changed_limits = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  Merge merge = { ours, theirs, merged, changes, changed_limits };

  return theirs == NULL ? NULL : merge_all (&merge, ret_changes, error);
}
