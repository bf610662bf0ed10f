// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The catalog of checks, made from the text of data/checks/checks.ini: for the findings page, imports and the
 * judge. Refuses a text with anything in it that is not understood, naming the section and the key. */

#include "hs-check.h"

#include "hs-check-private.h"
#include "hs-core-error.h"
#include "hs-decimal.h"

static const char *const check_keys[] = {
  "name", "hint", "how", "unit", "decimals", "least", "most", "asked_below", "entry", "scale", "caution", "by",
  "figure", "over_range", "over_range_why", "over_range_next", "asks", "answer#", NULL,
};

static const char *const group_keys[] = { "name", "checks", NULL };

/* In the order of HsCheckEntry, HsCheckBy, HsCheckFigure. */
static const char *const entries[] = { "number", "pair", "choice", "codes", "text", NULL };

/* What stands in place of a unit where there is no number. */
static const char *const no_units[] = { NULL, NULL, "answer", "codes", "words" };

/* One digit each. */
#define MOST_ANSWERS 9
static const char *const bys[] = { "value", "rated_cca", "share", "loss", NULL };
static const char *const figures[] = { "none", "charge", "percent", "days", "loss", NULL };
static const char *const scales[] = { "straight", "log", NULL };

static void
group_free (gpointer data)
{
  HsCheckGroup *group = data;

  g_free ((char *) group->id);
  g_free ((char *) group->name);
  g_strfreev ((char **) group->check_ids);
  g_free (group);
}

void
hs_check_record_free (HsCheckRecord *record)
{
  if (record == NULL)
    return;
  g_free ((char *) record->shown.id);
  g_free ((char *) record->shown.name);
  g_free ((char *) record->shown.hint);
  g_free ((char *) record->shown.how);
  g_free ((char *) record->shown.unit);
  g_free ((char *) record->shown.caution);
  g_strfreev ((char **) record->shown.answers);
  g_free ((HsConditionKey *) record->shown.asks);
  g_free (record->asks_text);
  g_free (record->over_range_why);
  g_free (record->over_range_next);
  g_ptr_array_unref (record->limits);
  g_free (record);
}

guint
hs_check_scale_decimals (const HsCheckRecord *record)
{
  return hs_check_is_in_unit (record->by) ? record->shown.decimals : HS_CHECK_PERCENT_DECIMALS;
}

gboolean
hs_check_is_in_unit (HsCheckBy by)
{
  return by == HS_CHECK_BY_VALUE || by == HS_CHECK_BY_LOSS;
}

gboolean
hs_key_file_refuse (GError **error, const char *section, const char *format, ...)
{
  g_autofree char *reason = NULL;
  va_list arguments;

  va_start (arguments, format);
  reason = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "[%s] %s", section, reason);
  return FALSE;
}

char *
hs_key_file_dup_text (GKeyFile *file, const char *section, const char *key)
{
  g_autofree char *text = g_key_file_get_string (file, section, key, NULL);

  if (text == NULL || *g_strstrip (text) == '\0')
    return NULL;
  return g_steal_pointer (&text);
}

char *
hs_key_file_dup_needed (GKeyFile *file, const char *section, const char *key, GError **error)
{
  char *text = hs_key_file_dup_text (file, section, key);

  if (text == NULL)
    hs_key_file_refuse (error, section, "there must be a line “%s=”", key);
  return text;
}

static gboolean
is_known_key (const char *key, const char *known, guint most_number)
{
  gsize length = strlen (known);
  guint64 number;

  if (known[length - 1] != '#')
    return g_str_equal (key, known);
  return strncmp (key, known, length - 1) == 0
         && g_ascii_string_to_unsigned (key + length - 1, 10, 1, most_number, &number, NULL);
}

gboolean
hs_key_file_only (GKeyFile *file, const char *section, const char *const *known, guint most_number, GError **error)
{
  g_auto (GStrv) keys = g_key_file_get_keys (file, section, NULL, NULL);

  for (guint i = 0; keys != NULL && keys[i] != NULL; i++)
    {
      gboolean found = FALSE;

      for (guint j = 0; !found && known[j] != NULL; j++)
        found = is_known_key (keys[i], known[j], most_number);
      if (!found)
        return hs_key_file_refuse (error, section, "“%s” means nothing here: correct or remove it", keys[i]);
    }
  return TRUE;
}

/* A word out of a short list; the first one if the key is not there. */
static gboolean
option_read (GKeyFile *file, const char *section, const char *key, const char *const *words, guint *ret_index,
             GError **error)
{
  g_autofree char *word = hs_key_file_dup_text (file, section, key);
  g_autofree char *all = NULL;
  guint index = 0;

  while (word != NULL && words[index] != NULL && !g_str_equal (words[index], word))
    index++;
  if (words[index] != NULL)
    {
      *ret_index = index;
      return TRUE;
    }
  all = g_strjoinv (", ", (char **) words);
  return hs_key_file_refuse (error, section, "“%s” must be one of %s, not “%s”", key, all, word);
}

static gboolean
number_read (GKeyFile *file, const char *section, const char *key, guint decimals, gint64 *ret_number, GError **error)
{
  g_autofree char *text = hs_key_file_dup_needed (file, section, key, error);

  if (text == NULL)
    return FALSE;
  if (hs_decimal_parse (text, decimals, ret_number, error))
    return TRUE;
  g_prefix_error (error, "[%s] “%s”: ", section, key);
  return FALSE;
}

static gboolean
texts_read (GKeyFile *file, const char *section, HsCheckRecord *record, GError **error)
{
  HsCheck *shown = &record->shown;

  shown->name = hs_key_file_dup_needed (file, section, "name", error);
  if (shown->name == NULL)
    return FALSE;
  shown->how = hs_key_file_dup_needed (file, section, "how", error);
  if (shown->how == NULL)
    return FALSE;
  shown->hint = hs_key_file_dup_text (file, section, "hint");
  if (shown->hint == NULL)
    shown->hint = g_strdup ("");
  shown->caution = hs_key_file_dup_text (file, section, "caution");
  record->asks_text = hs_key_file_dup_text (file, section, "asks");
  record->over_range_why = hs_key_file_dup_text (file, section, "over_range_why");
  record->over_range_next = hs_key_file_dup_text (file, section, "over_range_next");
  return TRUE;
}

static gboolean
numbers_read (GKeyFile *file, const char *section, HsCheck *shown, GError **error)
{
  gint64 decimals;

  shown->unit = hs_key_file_dup_needed (file, section, "unit", error);
  if (shown->unit == NULL)
    return FALSE;
  if (!number_read (file, section, "decimals", 0, &decimals, error))
    return FALSE;
  if (decimals < 0 || decimals > 4)
    return hs_key_file_refuse (error, section, "“decimals” must be 0 to 4");
  shown->decimals = (guint) decimals;
  if (!number_read (file, section, "least", shown->decimals, &shown->least, error)
      || !number_read (file, section, "most", shown->decimals, &shown->most, error))
    return FALSE;
  if (shown->least >= shown->most)
    return hs_key_file_refuse (error, section, "“least” must be smaller than “most”");
  shown->asked_below = shown->least;
  if (!g_key_file_has_key (file, section, "asked_below", NULL))
    return TRUE;
  if (!number_read (file, section, "asked_below", shown->decimals, &shown->asked_below, error))
    return FALSE;
  return (shown->asked_below > shown->least && shown->asked_below < shown->most)
         || hs_key_file_refuse (error, section, "“asked_below” must lie between “least” and “most”");
}

static gboolean
options_read (GKeyFile *file, const char *section, HsCheckRecord *record, GError **error)
{
  g_autofree char *over_range = hs_key_file_dup_text (file, section, "over_range");
  guint entry, by, figure, scale;

  if (!option_read (file, section, "entry", entries, &entry, error)
      || !option_read (file, section, "by", bys, &by, error)
      || !option_read (file, section, "figure", figures, &figure, error)
      || !option_read (file, section, "scale", scales, &scale, error))
    return FALSE;
  record->shown.entry = (HsCheckEntry) entry;
  record->shown.log_scale = scale == 1;
  record->by = (HsCheckBy) by;
  record->figure = (HsCheckFigure) figure;
  if ((record->by == HS_CHECK_BY_SHARE || record->by == HS_CHECK_BY_LOSS) != (record->shown.entry == HS_CHECK_PAIR))
    return hs_key_file_refuse (error, section, "“entry=pair” and “by=share” or “by=loss” belong together");
  record->over_range = HS_VERDICT_CANNOT_TELL;
  if (over_range == NULL || hs_verdict_parse (over_range, &record->over_range, error))
    return TRUE;
  g_prefix_error (error, "[%s] “over_range”: ", section);
  return FALSE;
}

/* `answer1=silent`, `answer2=one click`, without a gap. */
static gboolean
answers_read (GKeyFile *file, const char *section, HsCheck *shown, GError **error)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();

  for (guint i = 1; i <= MOST_ANSWERS; i++)
    {
      g_autofree char *key = g_strdup_printf ("answer%u", i);
      g_autofree char *answer = hs_key_file_dup_text (file, section, key);

      if (answer != NULL && shown->most != i - 1)
        return hs_key_file_refuse (error, section, "the answers are numbered from 1 without a gap");
      if (answer != NULL)
        {
          g_strv_builder_add (builder, answer);
          shown->most = i;
        }
    }
  shown->answers = (const char *const *) g_strv_builder_end (builder);
  if (shown->most < 2)
    return hs_key_file_refuse (error, section, "a choice has two answers or more, “answer1=”, “answer2=”");
  return TRUE;
}

/* What has no number has no unit, no decimals and no ends. */
static gboolean
words_read (GKeyFile *file, const char *section, HsCheckRecord *record, GError **error)
{
  static const char *const of_numbers[] = {
    "unit", "decimals", "least", "most", "asked_below", "by", "figure", "scale", "over_range",
  };
  HsCheck *shown = &record->shown;

  for (gsize i = 0; i < G_N_ELEMENTS (of_numbers); i++)
    if (g_key_file_has_key (file, section, of_numbers[i], NULL))
      return hs_key_file_refuse (error, section, "“%s” is for numbers, and the answer is none", of_numbers[i]);
  shown->unit = g_strdup (no_units[shown->entry]);
  shown->least = shown->entry == HS_CHECK_CODES ? 0 : 1;
  shown->most = shown->entry == HS_CHECK_CODES ? HS_CHECK_CODES_MOST : shown->entry == HS_CHECK_TEXT ? 1 : 0;
  return shown->entry != HS_CHECK_CHOICE || answers_read (file, section, shown, error);
}

static gboolean
values_read (GKeyFile *file, const char *section, HsCheckRecord *record, GError **error)
{
  g_autofree char *first = hs_key_file_dup_text (file, section, "answer1");

  if (!hs_check_has_number (&record->shown))
    return words_read (file, section, record, error);
  if (first != NULL)
    return hs_key_file_refuse (error, section, "“answer1” is for “entry=choice”");
  return numbers_read (file, section, &record->shown, error);
}

static gboolean
id_check (const char *section, const char *id, GError **error)
{
  if (*id != '\0' && strspn (id, "abcdefghijklmnopqrstuvwxyz0123456789_") == strlen (id))
    return TRUE;
  return hs_key_file_refuse (error, section, "an id has small letters, digits and _ only");
}

static gboolean
check_read (GKeyFile *file, const char *section, const char *id, HsChecks *checks, GError **error)
{
  g_autoptr (HsCheckRecord) record = g_new0 (HsCheckRecord, 1);

  record->limits = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_limit_free);
  record->shown.id = g_strdup (id);
  if (!id_check (section, id, error) || !hs_key_file_only (file, section, check_keys, MOST_ANSWERS, error)
      || !texts_read (file, section, record, error) || !options_read (file, section, record, error)
      || !values_read (file, section, record, error))
    return FALSE;
  g_hash_table_insert (checks->by_id, (char *) record->shown.id, record);
  g_ptr_array_add (checks->checks, g_steal_pointer (&record));
  return TRUE;
}

/* `[limit ID WORDS]`: the words tell limits of one check apart. */
static gboolean
limit_read (GKeyFile *file, const char *section, const char *rest, HsChecks *checks, GError **error)
{
  g_auto (GStrv) words = g_strsplit (rest, " ", 2);
  HsCheckRecord *record = words[0] == NULL ? NULL : g_hash_table_lookup (checks->by_id, words[0]);
  HsLimit *limit;

  if (record == NULL)
    return hs_key_file_refuse (error, section, "there is no [check %s] above it", words[0] == NULL ? "" : words[0]);
  limit = hs_limit_new_from_key_file (file, section, record, error);
  if (limit == NULL)
    return FALSE;
  g_ptr_array_add (record->limits, limit);
  return TRUE;
}

char **
hs_ids_split (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, ";", -1);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();

  for (guint i = 0; parts[i] != NULL; i++)
    if (*g_strstrip (parts[i]) != '\0')
      g_strv_builder_add (builder, parts[i]);
  return g_strv_builder_end (builder);
}

static gboolean
group_read (GKeyFile *file, const char *section, const char *id, HsChecks *checks, GError **error)
{
  g_autofree char *name = hs_key_file_dup_needed (file, section, "name", error);
  g_autofree char *list = name == NULL ? NULL : hs_key_file_dup_needed (file, section, "checks", error);
  g_auto (GStrv) ids = list == NULL ? NULL : hs_ids_split (list);
  HsCheckGroup *group;

  if (ids == NULL || !id_check (section, id, error) || !hs_key_file_only (file, section, group_keys, 0, error))
    return FALSE;
  for (guint i = 0; ids[i] != NULL; i++)
    if (!g_hash_table_contains (checks->by_id, ids[i]))
      return hs_key_file_refuse (error, section, "there is no [check %s] above it", ids[i]);
  group = g_new0 (HsCheckGroup, 1);
  group->id = g_strdup (id);
  group->name = g_steal_pointer (&name);
  group->check_ids = (const char *const *) g_steal_pointer (&ids);
  g_ptr_array_add (checks->groups, group);
  return TRUE;
}

static gboolean
section_read (GKeyFile *file, const char *section, HsChecks *checks, GError **error)
{
  if (g_str_has_prefix (section, "check "))
    return check_read (file, section, section + strlen ("check "), checks, error);
  if (g_str_has_prefix (section, "limit "))
    return limit_read (file, section, section + strlen ("limit "), checks, error);
  if (g_str_has_prefix (section, "group "))
    return group_read (file, section, section + strlen ("group "), checks, error);
  return hs_key_file_refuse (error, section, "a section is a check, a limit or a group");
}

/* What can be seen only once all sections are read. */
static gboolean
join_up (HsChecks *checks, GError **error)
{
  for (guint i = 0; i < checks->checks->len; i++)
    {
      HsCheckRecord *record = g_ptr_array_index (checks->checks, i);

      if (!hs_check_fill_asks (record, record->asks_text, error))
        return FALSE;
      for (guint j = 0; j < record->limits->len; j++)
        if (!hs_limit_check_then (g_ptr_array_index (record->limits, j), checks, error))
          return FALSE;
    }
  return TRUE;
}

/* A second section or key of one name would silently win over the first. */
static gboolean
nothing_twice (const char *text, GError **error)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *section = g_strdup ("");

  for (guint i = 0; lines[i] != NULL; i++)
    {
      const char *line = g_strstrip (lines[i]);
      const char *equals = strchr (line, '=');
      g_autofree char *name = NULL;

      if (*line == '[')
        {
          g_free (section);
          section = g_strdup (line);
          name = g_strdup (line);
        }
      else if (*line != '#' && equals != NULL)
        name = g_strdup_printf ("%s %.*s", section, (int) (equals - line), line);
      if (name != NULL && g_hash_table_contains (seen, name))
        {
          g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                       "line %u: %s stands twice: remove one of the two", i + 1, name);
          return FALSE;
        }
      if (name != NULL)
        g_hash_table_add (seen, g_steal_pointer (&name));
    }
  return TRUE;
}

GKeyFile *
hs_key_file_read (const char *data, gsize length, const char *what, GError **error)
{
  g_autoptr (GKeyFile) file = g_key_file_new ();
  g_autoptr (GError) broken = NULL;
  /* No bytes at all have no address either. */
  g_autofree char *text = g_strndup (data == NULL ? "" : data, length);

  if (!g_key_file_load_from_data (file, text, strlen (text), G_KEY_FILE_NONE, &broken))
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "%s cannot be read: %s", what, broken->message);
      return NULL;
    }
  if (!nothing_twice (text, error))
    return NULL;
  return g_steal_pointer (&file);
}

HsChecks *
hs_checks_new_from_key_file (GKeyFile *file, GError **error)
{
  g_autoptr (HsChecks) checks = g_new0 (HsChecks, 1);
  g_auto (GStrv) sections = g_key_file_get_groups (file, NULL);

  g_atomic_ref_count_init (&checks->ref_count);
  checks->checks = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_check_record_free);
  checks->by_id = g_hash_table_new (g_str_hash, g_str_equal);
  checks->groups = g_ptr_array_new_with_free_func (group_free);
  for (guint i = 0; sections[i] != NULL; i++)
    if (!section_read (file, sections[i], checks, error))
      return NULL;
  return join_up (checks, error) ? g_steal_pointer (&checks) : NULL;
}

HsChecks *
hs_checks_new_from_data (const char *data, gssize length, GError **error)
{
  g_autoptr (GKeyFile) file
      = hs_key_file_read (data, length < 0 ? strlen (data) : (gsize) length, "the list of checks", error);

  return file == NULL ? NULL : hs_checks_new_from_key_file (file, error);
}

HsChecks *
hs_checks_ref (HsChecks *checks)
{
  g_atomic_ref_count_inc (&checks->ref_count);
  return checks;
}

void
hs_checks_unref (HsChecks *checks)
{
  if (checks == NULL || !g_atomic_ref_count_dec (&checks->ref_count))
    return;
  g_hash_table_unref (checks->by_id);
  g_ptr_array_unref (checks->checks);
  g_ptr_array_unref (checks->groups);
  g_free (checks);
}

const HsCheckRecord *
hs_check_record (HsChecks *checks, const HsCheck *check)
{
  return g_hash_table_lookup (checks->by_id, check->id);
}

const HsCheck *
hs_checks_lookup (HsChecks *checks, const char *id)
{
  const HsCheckRecord *record = g_hash_table_lookup (checks->by_id, id);

  return record == NULL ? NULL : &record->shown;
}

const HsCheck *
hs_checks_get_nth (HsChecks *checks, guint nth)
{
  if (nth >= checks->checks->len)
    return NULL;
  return &((const HsCheckRecord *) g_ptr_array_index (checks->checks, nth))->shown;
}

const HsCheckGroup *
hs_checks_lookup_group (HsChecks *checks, const char *id)
{
  const HsCheckGroup *group;

  for (guint i = 0; (group = hs_checks_get_nth_group (checks, i)) != NULL; i++)
    if (g_str_equal (group->id, id))
      return group;
  return NULL;
}

const HsCheckGroup *
hs_checks_get_nth_group (HsChecks *checks, guint nth)
{
  return nth < checks->groups->len ? g_ptr_array_index (checks->groups, nth) : NULL;
}
