// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a reading means, as a word and a shape: for every place that shows one, since color alone says nothing. */

#include "hs-verdict.h"

#include "hs-words.h"

#include <string.h>

/* By verdict: its box, and how good it is where two of them meet on a limit. */
static const struct
{
  const char *shape;
  int rank;
} verdicts[HS_N_VERDICTS] = {
  [HS_VERDICT_WITHIN] = { "plain", 0 },
  [HS_VERDICT_WATCH] = { "thin", 1 },
  [HS_VERDICT_DEPENDS] = { "dotted", 2 },
  [HS_VERDICT_CANNOT_TELL] = { "dashed", 3 },
  [HS_VERDICT_OUTSIDE] = { "heavy", 4 },
};

const char *
hs_verdict_id (HsVerdict verdict)
{
  g_return_val_if_fail (verdict < HS_N_VERDICTS, NULL);
  return hs_words_get (HS_WORDS_VERDICT, NULL)[verdict].id;
}

const char *
hs_verdict_word (HsVerdict verdict)
{
  g_return_val_if_fail (verdict < HS_N_VERDICTS, NULL);
  return hs_words_get (HS_WORDS_VERDICT, NULL)[verdict].label;
}

const char *
hs_verdict_shape (HsVerdict verdict)
{
  g_return_val_if_fail (verdict < HS_N_VERDICTS, NULL);
  return verdicts[verdict].shape;
}

gboolean
hs_verdict_parse (const char *text, HsVerdict *ret_verdict, GError **error)
{
  int index;

  if (!hs_words_parse_index (HS_WORDS_VERDICT, text, &index, error))
    return FALSE;
  *ret_verdict = (HsVerdict) index;
  return TRUE;
}

HsVerdict
hs_verdict_better (HsVerdict a, HsVerdict b)
{
  g_return_val_if_fail (a < HS_N_VERDICTS && b < HS_N_VERDICTS, a);
  return verdicts[a].rank <= verdicts[b].rank ? a : b;
}

const char *
hs_verdict_word_in (const char *word, const HsTongue *in)
{
  for (guint i = 0; word != NULL && i < HS_N_VERDICTS; i++)
    if (g_str_equal (word, hs_verdict_word ((HsVerdict) i)))
      {
        g_autofree char *key = g_strconcat ("verdict\004", word, NULL);
        const char *said = in->gettext (key);

        return g_str_equal (said, key) ? word : said;
      }
  return word != NULL && *word != '\0' ? in->gettext (word) : word;
}

char *
hs_verdict_source_text (const char *source, const char *sure)
{
  gboolean alone = strchr (source, ';') == NULL;
  gboolean said = sure == NULL || *sure == '\0'
                  || (alone && g_ascii_strncasecmp (source, sure, strlen (sure)) == 0);

  return said ? g_strdup (source) : g_strdup_printf ("%s (%s)", source, sure);
}
