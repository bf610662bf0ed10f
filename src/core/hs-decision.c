// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What an answer decides, out of what all answers to its question decide. For whoever just keyed one and wants to know
 * what to load, how long to allow, or that it must not be driven. */

#include "hs-decision.h"

#include "hs-text.h"

#include <string.h>

/* Whether a sentence speaks of the answer: its head begins with it, or the answer with the head. */
static gboolean
is_of (const char *head, const char *answer)
{
  g_autofree char *folded_head = hs_text_fold (head);
  g_autofree char *folded_answer = hs_text_fold (answer);

  return g_str_has_prefix (folded_head, folded_answer) || g_str_has_prefix (folded_answer, folded_head);
}

static char *
pick (const char *decides, const char *answer)
{
  g_auto (GStrv) sentences = g_strsplit (decides, ". ", -1);
  g_autoptr (GString) picked = g_string_new (NULL);
  gboolean ours = FALSE;
  gboolean headed = FALSE;

  for (guint i = 0; sentences[i] != NULL; i++)
    {
      const char *colon = strchr (sentences[i], ':');
      g_autofree char *head = colon != NULL ? g_strndup (sentences[i], colon - sentences[i]) : NULL;

      if (head != NULL)
        ours = is_of (head, answer);
      headed |= head != NULL;
      if (ours)
        g_string_append_printf (picked, "%s%s%s", picked->len > 0 ? " " : "", sentences[i],
                                g_str_has_suffix (sentences[i], ".") ? "" : ".");
    }
  if (!headed)
    return g_strdup (decides);
  return picked->len > 0 ? g_string_free (g_steal_pointer (&picked), FALSE) : NULL;
}

char *
hs_decision_of_answer (const char *decides, const char *const *answers, const char *answer)
{
  if (hs_text_is_blank (decides))
    return NULL;
  if (answers == NULL || !g_strv_contains (answers, answer))
    return g_strdup (decides);
  return pick (decides, answer);
}
