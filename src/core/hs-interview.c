// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The questions of the phone and of the interview beside the vehicle. For call slips, the findings page and the command
 * line. Refuses a text with anything in it that is not understood, naming the section and the key. */

#include "hs-interview.h"

#include "hs-check-private.h"
#include "hs-core-error.h"
#include "hs-text.h"

#define PREFIX "question "
#define ALL "all"
/* One digit each. */
#define MOST_ANSWERS 9
#define N_WHEN (HS_INTERVIEW_AGAIN + 1)

static const char *const known_keys[]
    = { "words", "short", "also", "phone", "again", "entry", "answer#", "decides", NULL };

/* In the order of HsInterviewWhen and HsInterviewEntry. */
static const char *const whens[N_WHEN] = { "phone", "again" };
static const char *const entries[] = { "choice", "yes_no", "time", "words" };

typedef struct
{
  HsInterviewQuestion shown;
  char **groups[N_WHEN];
  gboolean of_all[N_WHEN];
} Record;

struct _HsInterview
{
  gatomicrefcount ref_count;
  GPtrArray *records;
  GHashTable *by_words; /* folded wordings and ids */
};

static void
record_free (Record *record)
{
  g_free ((char *) record->shown.id);
  g_free ((char *) record->shown.words);
  g_free ((char *) record->shown.brief);
  g_free ((char *) record->shown.decides);
  g_strfreev ((char **) record->shown.answers);
  for (guint i = 0; i < N_WHEN; i++)
    g_strfreev (record->groups[i]);
  g_free (record);
}

static gboolean
entry_read (GKeyFile *file, const char *section, Record *record, GError **error)
{
  g_autofree char *word = hs_key_file_dup_needed (file, section, "entry", error);

  if (word == NULL)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    if (g_str_equal (entries[i], word))
      {
        record->shown.entry = (HsInterviewEntry) i;
        return TRUE;
      }
  return hs_key_file_refuse (error, section, "“entry” must be choice, yes_no, time or words, not “%s”", word);
}

static gboolean
answers_read (GKeyFile *file, const char *section, Record *record, GError **error)
{
  g_autoptr (GPtrArray) answers = g_ptr_array_new_with_free_func (g_free);
  gboolean choice = record->shown.entry == HS_INTERVIEW_CHOICE;

  for (guint i = 1; i <= MOST_ANSWERS; i++)
    {
      g_autofree char *key = g_strdup_printf ("answer%u", i);
      char *answer = hs_key_file_dup_text (file, section, key);

      if (answer != NULL)
        g_ptr_array_add (answers, answer);
      if (answer != NULL && answers->len != i)
        return hs_key_file_refuse (error, section, "“%s” has no answer before it: number them from 1", key);
    }
  if (choice ? answers->len < 2 : answers->len > 0)
    return hs_key_file_refuse (error, section, choice ? "a choice needs two answers or more"
                                                      : "only a choice has answers");
  if (record->shown.entry == HS_INTERVIEW_YES_NO)
    {
      g_ptr_array_add (answers, g_strdup ("yes"));
      g_ptr_array_add (answers, g_strdup ("no"));
    }
  if (answers->len == 0)
    return TRUE;
  g_ptr_array_add (answers, NULL);
  record->shown.answers = (const char *const *) g_ptr_array_free (g_steal_pointer (&answers), FALSE);
  return TRUE;
}

static void
groups_read (GKeyFile *file, const char *section, Record *record)
{
  for (guint i = 0; i < N_WHEN; i++)
    {
      g_autofree char *text = hs_key_file_dup_text (file, section, whens[i]);

      record->groups[i] = hs_ids_split (text == NULL ? "" : text);
      record->of_all[i] = g_strv_contains ((const char *const *) record->groups[i], ALL);
    }
}

/* Every wording leads to one question. */
static gboolean
wording_add (HsInterview *interview, const char *section, const char *words, Record *record, GError **error)
{
  g_autofree char *folded = hs_text_fold (words);
  Record *other = g_hash_table_lookup (interview->by_words, folded);

  if (other != NULL && other != record)
    return hs_key_file_refuse (error, section, "“%s” is asked by [question %s] already", words, other->shown.id);
  g_hash_table_insert (interview->by_words, g_steal_pointer (&folded), record);
  return TRUE;
}

static gboolean
wordings_add (HsInterview *interview, GKeyFile *file, const char *section, Record *record, GError **error)
{
  g_autofree char *also = hs_key_file_dup_text (file, section, "also");
  g_auto (GStrv) others = g_strsplit (also == NULL ? "" : also, "|", -1);
  gboolean added = wording_add (interview, section, record->shown.id, record, error)
                   && wording_add (interview, section, record->shown.words, record, error);

  for (guint i = 0; added && others[i] != NULL; i++)
    added = wording_add (interview, section, others[i], record, error);
  return added;
}

static gboolean
question_read (HsInterview *interview, GKeyFile *file, const char *section, GError **error)
{
  Record *record = g_new0 (Record, 1);

  g_ptr_array_add (interview->records, record);
  if (!g_str_has_prefix (section, PREFIX) || hs_text_is_blank (section + strlen (PREFIX)))
    return hs_key_file_refuse (error, section, "a section here is [question ID]");
  record->shown.id = g_strstrip (g_strdup (section + strlen (PREFIX)));
  record->shown.words = hs_key_file_dup_needed (file, section, "words", error);
  if (record->shown.words == NULL || !hs_key_file_only (file, section, known_keys, MOST_ANSWERS, error)
      || !entry_read (file, section, record, error) || !answers_read (file, section, record, error))
    return FALSE;
  record->shown.brief = hs_key_file_dup_text (file, section, "short");
  if (record->shown.brief == NULL)
    record->shown.brief = g_strdup (record->shown.words);
  record->shown.decides = hs_key_file_dup_text (file, section, "decides");
  groups_read (file, section, record);
  if (*record->groups[0] == NULL && *record->groups[1] == NULL)
    return hs_key_file_refuse (error, section, "say when it is asked: “phone=” or “again=”");
  return wordings_add (interview, file, section, record, error);
}

HsInterview *
hs_interview_new_from_data (const char *data, gssize length, GError **error)
{
  g_autoptr (GKeyFile) file
      = hs_key_file_read (data, length < 0 ? strlen (data) : (gsize) length, "the list of questions", error);
  g_auto (GStrv) sections = file == NULL ? NULL : g_key_file_get_groups (file, NULL);
  g_autoptr (HsInterview) interview = g_new0 (HsInterview, 1);

  g_atomic_ref_count_init (&interview->ref_count);
  interview->records = g_ptr_array_new_with_free_func ((GDestroyNotify) record_free);
  interview->by_words = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  if (file == NULL)
    return NULL;
  for (guint i = 0; sections[i] != NULL; i++)
    if (!question_read (interview, file, sections[i], error))
      return NULL;
  return g_steal_pointer (&interview);
}

HsInterview *
hs_interview_ref (HsInterview *interview)
{
  g_atomic_ref_count_inc (&interview->ref_count);
  return interview;
}

void
hs_interview_unref (HsInterview *interview)
{
  if (interview == NULL || !g_atomic_ref_count_dec (&interview->ref_count))
    return;
  g_hash_table_unref (interview->by_words);
  g_ptr_array_unref (interview->records);
  g_free (interview);
}

guint
hs_interview_get_n_questions (const HsInterview *interview)
{
  return interview->records->len;
}

const HsInterviewQuestion *
hs_interview_get_nth (const HsInterview *interview, guint nth)
{
  if (nth >= interview->records->len)
    return NULL;
  return &((const Record *) g_ptr_array_index (interview->records, nth))->shown;
}

const HsInterviewQuestion *
hs_interview_find (const HsInterview *interview, const char *text)
{
  g_autofree char *folded = hs_text_fold (text);
  const Record *record = g_hash_table_lookup (interview->by_words, folded);

  return record == NULL ? NULL : &record->shown;
}

GPtrArray *
hs_interview_list (const HsInterview *interview, const char *group, HsInterviewWhen when)
{
  GPtrArray *list = g_ptr_array_new ();

  for (guint i = 0; i < interview->records->len; i++)
    {
      Record *record = g_ptr_array_index (interview->records, i);

      if (record->of_all[when]
          || (group != NULL && g_strv_contains ((const char *const *) record->groups[when], group)))
        g_ptr_array_add (list, &record->shown);
    }
  return list;
}

const char *
hs_interview_get_nth_group (const HsInterview *interview, const HsInterviewQuestion *question, HsInterviewWhen when,
                            guint nth)
{
  g_autofree char *folded = hs_text_fold (question->id);
  const Record *record = g_hash_table_lookup (interview->by_words, folded);

  if (record == NULL || record->of_all[when] || nth >= g_strv_length (record->groups[when]))
    return NULL;
  return record->groups[when][nth];
}

/* Digits alone are days; the book keeps them so that nobody has to guess. */
static char *
spell_days (const char *words)
{
  if (words[strspn (words, "0123456789")] != '\0')
    return g_strdup (words);
  return g_strdup_printf (g_str_equal (words, "1") ? "%s day" : "%s days", words);
}

char *
hs_interview_dup_answer (const HsInterviewQuestion *question, const char *text, GError **error)
{
  g_autofree char *words = g_strstrip (g_strdup (text == NULL ? "" : text));
  guint n_answers = question->answers == NULL ? 0 : g_strv_length ((char **) question->answers);

  if (*words == '\0')
    {
      hs_core_bad_value (error, "“%s” needs an answer.", question->words);
      return NULL;
    }
  if (question->entry == HS_INTERVIEW_TIME)
    return spell_days (words);
  if (n_answers == 0 || !g_ascii_isdigit (words[0]) || words[1] != '\0')
    return g_steal_pointer (&words);
  if (words[0] == '0' || (guint) (words[0] - '0') > n_answers)
    {
      hs_core_bad_value (error, "“%s” has the answers 1 to %u, and other words.", question->words, n_answers);
      return NULL;
    }
  return g_strdup (question->answers[words[0] - '1']);
}
