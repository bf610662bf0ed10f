// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The words in the file of a cause model: names, sources, repairs, and which reading is which result. Each may be
 * missing; what is there is looked at. */

#include "hs-cause-guide-private.h"

/* Longer is no name, no source and no sentence. */
#define MOST_LETTERS 300
#define MOST_CENTS 100000000

/* read_word: @ret_word stays if there is none. */
static gboolean
read_word (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *object, const char *key, const char **ret_word)
{
  JsonNode *node = json_object_get_member (object, key);
  gsize before = hs_json_walk_enter (walk, key);
  const char *text;

  if (node != NULL)
    {
      text = hs_json_walk_text (walk, node);
      if (text == NULL)
        return FALSE;
      if (*text == '\0' || g_utf8_strlen (text, -1) > MOST_LETTERS)
        return hs_json_walk_refuse (walk, "must have 1 to %d letters", MOST_LETTERS);
      *ret_word = g_string_chunk_insert_const (self->words, text);
    }
  hs_json_walk_leave (walk, before);
  return TRUE;
}

static gboolean
read_answer (HsJsonWalk *walk, JsonNode *node, guint *ret_answer)
{
  double number;

  if (!hs_json_walk_number (walk, node, &number))
    return FALSE;
  if (number < 1 || number > HS_GUIDE_ANSWERS || number != (guint) number)
    return hs_json_walk_refuse (walk, "must be the digit of an answer, 1 to %d", HS_GUIDE_ANSWERS);
  *ret_answer = (guint) number;
  return TRUE;
}

/* read_share: @ret_number stays if there is none. */
static gboolean
read_share (HsJsonWalk *walk, JsonObject *object, const char *key, double *ret_number)
{
  gsize before = hs_json_walk_enter (walk, key);
  double number = *ret_number;

  if (json_object_has_member (object, key)
      && !hs_json_walk_number (walk, json_object_get_member (object, key), &number))
    return FALSE;
  if (number <= 0)
    return hs_json_walk_refuse (walk, "must be above zero");
  hs_json_walk_leave (walk, before);
  *ret_number = number;
  return TRUE;
}

/* read_when_said: answers in words to a question of the interview, for which the model is. */
static gboolean
read_when_said (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *when)
{
  gsize before = hs_json_walk_enter (walk, "said");
  JsonArray *said;

  if (!json_object_has_member (when, "said"))
    {
      hs_json_walk_leave (walk, before);
      return TRUE;
    }
  if (self->when_question == NULL)
    return hs_json_walk_refuse (walk, "needs the question that it answers");
  said = hs_json_walk_array (walk, json_object_get_member (when, "said"));
  for (guint i = 0; said != NULL && i < json_array_get_length (said); i++)
    {
      gsize at = hs_json_walk_enter_index (walk, i);
      const char *text = hs_json_walk_text (walk, json_array_get_element (said, i));

      if (text == NULL)
        return FALSE;
      g_ptr_array_add (self->when_said, g_string_chunk_insert_const (self->words, text));
      hs_json_walk_leave (walk, at);
    }
  hs_json_walk_leave (walk, before);
  return said != NULL;
}

static gboolean
read_when (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *top)
{
  static const char *const known[] = { "check", "answers", "minutes", "share", "question", "said", NULL };
  gsize before = hs_json_walk_enter (walk, "when");
  JsonObject *object = hs_json_walk_object (walk, json_object_get_member (top, "when"), known);
  JsonArray *answers;

  if (object == NULL || !read_word (self, walk, object, "check", &self->when)
      || !read_word (self, walk, object, "question", &self->when_question)
      || !read_share (walk, object, "minutes", &self->when_minutes)
      || !read_share (walk, object, "share", &self->share) || !read_when_said (self, walk, object))
    return FALSE;
  hs_json_walk_enter (walk, "answers");
  answers = hs_json_walk_array (walk, json_object_get_member (object, "answers"));
  for (guint i = 0; answers != NULL && i < json_array_get_length (answers); i++)
    {
      gsize at = hs_json_walk_enter_index (walk, i);
      guint answer = 0;

      if (!read_answer (walk, json_array_get_element (answers, i), &answer))
        return FALSE;
      self->when_answers |= 1u << answer;
      hs_json_walk_leave (walk, at);
    }
  if (answers != NULL && (self->when == NULL || self->when_answers == 0))
    return hs_json_walk_refuse (walk, "needs a check and at least one of its answers");
  hs_json_walk_leave (walk, before);
  return answers != NULL;
}

gboolean
hs_cause_words_top (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *top)
{
  return read_word (self, walk, top, "id", &self->id) && read_word (self, walk, top, "group", &self->group)
         && read_word (self, walk, top, "name", &self->name) && read_word (self, walk, top, "note", &self->note)
         && read_share (walk, top, "counts_as", &self->counts_as)
         && (!json_object_has_member (top, "when") || read_when (self, walk, top));
}

/* read_proof: what shows a cause best, or why nothing does. */
static gboolean
read_proof (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *top, HsGuideCause *cause)
{
  static const char *const known[] = { "check", "result", "not_alone", "none", NULL };
  gsize before = hs_json_walk_enter (walk, "proof");
  JsonNode *node = json_object_get_member (top, "proof");
  JsonObject *object = node != NULL ? hs_json_walk_object (walk, node, known) : NULL;

  if (node != NULL)
    {
      if (object == NULL || !read_word (self, walk, object, "check", &cause->proof_check)
          || !read_word (self, walk, object, "result", &cause->proof_result)
          || !read_word (self, walk, object, "not_alone", &cause->proof_not_alone)
          || !read_word (self, walk, object, "none", &cause->proof_none))
        return FALSE;
      if ((cause->proof_check == NULL) != (cause->proof_result == NULL)
          || (cause->proof_check == NULL) == (cause->proof_none == NULL))
        return hs_json_walk_refuse (walk, "needs a check and its result, or why there is none");
    }
  hs_json_walk_leave (walk, before);
  return TRUE;
}

gboolean
hs_cause_words_cause (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *object, HsGuideCause *ret_cause)
{
  HsGuideCause cause = { NULL };
  gsize before;
  double cents = 0;

  if (!read_word (self, walk, object, "name", &cause.name) || !read_word (self, walk, object, "source", &cause.source)
      || !read_word (self, walk, object, "repair", &cause.repair) || !read_proof (self, walk, object, &cause))
    return FALSE;
  before = hs_json_walk_enter (walk, "cents");
  if (json_object_has_member (object, "cents")
      && !hs_json_walk_number (walk, json_object_get_member (object, "cents"), &cents))
    return FALSE;
  if (cents > MOST_CENTS || cents != (gint64) cents)
    return hs_json_walk_refuse (walk, "must be whole cents, at most %d", MOST_CENTS);
  hs_json_walk_leave (walk, before);
  cause.repair_cents = (gint64) cents;
  *ret_cause = cause;
  return TRUE;
}

/* --- Which reading is which result ----------------------------------------------------------------------------- */

/* read_result: the result that @node names, plus 1; null says nothing, 0. */
static gboolean
read_result (HsJsonWalk *walk, JsonNode *node, const char *const *results, guint8 *ret_result)
{
  const char *text;

  *ret_result = 0;
  if (node != NULL && JSON_NODE_HOLDS_NULL (node))
    return TRUE;
  text = hs_json_walk_text (walk, node);
  for (guint i = 0; text != NULL && results[i] != NULL; i++)
    if (g_str_equal (results[i], text))
      {
        *ret_result = (guint8) (i + 1);
        return TRUE;
      }
  return text != NULL && hs_json_walk_refuse (walk, "“%s” is none of the results", text);
}

static gboolean
read_verdicts (HsJsonWalk *walk, JsonNode *node, const char *const *results, HsGuideFrom *from)
{
  JsonObject *object = hs_json_walk_object (walk, node, NULL);
  g_autoptr (GList) members = object != NULL ? json_object_get_members (object) : NULL;

  for (GList *l = members; l != NULL; l = l->next)
    {
      gsize at = hs_json_walk_enter (walk, l->data);
      HsVerdict verdict;

      if (!hs_verdict_parse (l->data, &verdict, NULL) || verdict == HS_VERDICT_CANNOT_TELL)
        return hs_json_walk_refuse (walk, "is not within, watch, outside or depends");
      if (!read_result (walk, json_object_get_member (object, l->data), results, &from->of_verdict[verdict]))
        return FALSE;
      hs_json_walk_leave (walk, at);
    }
  return object != NULL;
}

static gboolean
read_answers (HsJsonWalk *walk, JsonNode *node, const char *const *results, HsGuideFrom *from)
{
  JsonArray *array = hs_json_walk_array (walk, node);

  from->n_answers = array != NULL ? json_array_get_length (array) : 0;
  if (from->n_answers > HS_GUIDE_ANSWERS)
    return hs_json_walk_refuse (walk, "has more than %d answers", HS_GUIDE_ANSWERS);
  for (guint i = 0; i < from->n_answers; i++)
    {
      gsize at = hs_json_walk_enter_index (walk, i);

      if (!read_result (walk, json_array_get_element (array, i), results, &from->of_answer[i]))
        return FALSE;
      hs_json_walk_leave (walk, at);
    }
  return array != NULL;
}

static gboolean
read_cuts (HsJsonWalk *walk, JsonNode *node, const char *const *results, HsGuideFrom *from)
{
  JsonArray *array = hs_json_walk_array (walk, node);

  from->n_cuts = array != NULL ? json_array_get_length (array) : 0;
  if (array != NULL && from->n_cuts + 1 != g_strv_length ((char **) results))
    return hs_json_walk_refuse (walk, "has %u numbers between %u results", from->n_cuts,
                                g_strv_length ((char **) results));
  for (guint i = 0; i < from->n_cuts; i++)
    {
      gsize at = hs_json_walk_enter_index (walk, i);

      if (!hs_json_walk_number (walk, json_array_get_element (array, i), &from->cuts[i]))
        return FALSE;
      if (i > 0 && from->cuts[i] <= from->cuts[i - 1])
        return hs_json_walk_refuse (walk, "is not above the one before it");
      hs_json_walk_leave (walk, at);
    }
  return array != NULL;
}

static gboolean
read_over_range (HsJsonWalk *walk, JsonObject *object, const char *const *results, HsGuideFrom *from)
{
  gsize before = hs_json_walk_enter (walk, "over_range");

  if (json_object_has_member (object, "over_range")
      && !read_result (walk, json_object_get_member (object, "over_range"), results, &from->over_range))
    return FALSE;
  hs_json_walk_leave (walk, before);
  return TRUE;
}

static gboolean
read_from (HsJsonWalk *walk, JsonNode *node, const char *const *results, HsGuideFrom *from)
{
  static const char *const known[] = { "verdicts", "answers", "cuts", "over_range", NULL };
  static gboolean (*const readers[]) (HsJsonWalk *, JsonNode *, const char *const *, HsGuideFrom *)
    = { read_verdicts, read_answers, read_cuts };
  gsize before = hs_json_walk_enter (walk, "from");
  JsonObject *object = hs_json_walk_object (walk, node, known);

  if (object == NULL)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (readers); i++)
    if (json_object_has_member (object, known[i]))
      {
        gsize at;

        /* Cuts beside verdicts say what it is where sources differ. */
        if (from->by != HS_GUIDE_BY_NOTHING && (from->by != HS_GUIDE_BY_VERDICT || readers[i] != read_cuts))
          return hs_json_walk_refuse (walk, "has answers beside verdicts or cuts");
        if (from->by == HS_GUIDE_BY_NOTHING)
          from->by = HS_GUIDE_BY_VERDICT + i;
        at = hs_json_walk_enter (walk, known[i]);
        if (!readers[i](walk, json_object_get_member (object, known[i]), results, from))
          return FALSE;
        hs_json_walk_leave (walk, at);
      }
  if (from->by == HS_GUIDE_BY_NOTHING)
    return hs_json_walk_refuse (walk, "needs verdicts, answers or cuts");
  if (!read_over_range (walk, object, results, from))
    return FALSE;
  hs_json_walk_leave (walk, before);
  return TRUE;
}

/* read_sources: who says so of single causes, which are looked up among @p. */
static gboolean
read_sources (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *check, HsGuideCheck *ret_check)
{
  gsize before = hs_json_walk_enter (walk, "sources");
  JsonObject *object = hs_json_walk_object (walk, json_object_get_member (check, "sources"), NULL);
  JsonObject *p = json_object_get_object_member (check, "p");
  g_autoptr (GList) members = object != NULL ? json_object_get_members (object) : NULL;

  if (object == NULL)
    return FALSE;
  ret_check->sources = g_hash_table_new (g_str_hash, g_str_equal);
  for (GList *l = members; l != NULL; l = l->next)
    {
      const char *source = NULL;

      if (!json_object_has_member (p, l->data))
        return hs_json_walk_refuse (walk, "“%s” is none of the causes", (const char *) l->data);
      if (!read_word (self, walk, object, l->data, &source))
        return FALSE;
      g_hash_table_insert (ret_check->sources, g_string_chunk_insert_const (self->words, l->data), (gpointer) source);
    }
  hs_json_walk_leave (walk, before);
  return TRUE;
}

/* read_said: what an answer to a question of the interview speaks for. */
static gboolean
read_said (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *check, const char *const *results,
           HsGuideCheck *ret_check)
{
  static const char *const known[] = { "question", "answers", NULL };
  gsize before = hs_json_walk_enter (walk, "said");
  JsonObject *object = hs_json_walk_object (walk, json_object_get_member (check, "said"), known);
  JsonObject *answers;
  g_autoptr (GList) members = NULL;

  if (object == NULL || !read_word (self, walk, object, "question", &ret_check->question))
    return FALSE;
  if (ret_check->question == NULL)
    return hs_json_walk_refuse (walk, "needs the question that it answers");
  hs_json_walk_enter (walk, "answers");
  answers = hs_json_walk_object (walk, json_object_get_member (object, "answers"), NULL);
  members = answers != NULL ? json_object_get_members (answers) : NULL;
  ret_check->said = g_hash_table_new (g_str_hash, g_str_equal);
  for (GList *l = members; l != NULL; l = l->next)
    {
      gsize at = hs_json_walk_enter (walk, l->data);
      guint8 result;

      if (!read_result (walk, json_object_get_member (answers, l->data), results, &result))
        return FALSE;
      g_hash_table_insert (ret_check->said, g_string_chunk_insert_const (self->words, l->data),
                           GUINT_TO_POINTER (result));
      hs_json_walk_leave (walk, at);
    }
  hs_json_walk_leave (walk, before);
  return answers != NULL;
}

gboolean
hs_cause_words_check (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *object, const char *const *results)
{
  HsGuideCheck check = { 0 };
  gboolean is_read = read_word (self, walk, object, "source", &check.source)
                     && (!json_object_has_member (object, "sources") || read_sources (self, walk, object, &check))
                     && (!json_object_has_member (object, "from")
                         || read_from (walk, json_object_get_member (object, "from"), results, &check.from))
                     && (!json_object_has_member (object, "said")
                         || read_said (self, walk, object, results, &check));

  g_array_append_val (self->checks, check);
  return is_read;
}
