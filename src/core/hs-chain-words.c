// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A why-chain in sentences for the customer. Every sentence and every clause is one whole pattern with names in braces,
 * so that another language can order them its own way. What is only suspected is told as likely, what somebody said as
 * their words; neither becomes a fact. */

#include "hs-chain-private.h"

#include "hs-text.h"

#include <string.h>

/* For translators; said by the tongue that is handed in. */
#define N_(text) text

/* How a cause is told. */
typedef enum
{
  TOLD_PROVEN,
  TOLD_LIKELY,
  TOLD_UNKNOWN,
  TOLD_SAID,
  N_TOLD,
} Told;

/* How it follows on what was told before: the effect by name, the sentence before, one more cause, one told above. */
typedef enum
{
  AFTER_NAME,
  AFTER_SENTENCE,
  ONE_MORE,
  TOLD_ABOVE,
  N_FOLLOWS,
} Follows;

static const char *const reasons[N_TOLD][N_FOLLOWS] = {
  [TOLD_PROVEN] = {
    N_ ("The reason for “{effect}”: {cause}{proof}"),
    N_ ("The reason for that: {cause}{proof}"),
    N_ ("Another reason for “{effect}”: {cause}{proof}"),
    N_ ("“{cause}” is also a reason for “{effect}”{proof}"),
  },
  [TOLD_LIKELY] = {
    N_ ("The likely reason for “{effect}”, not proven: {cause}{proof}"),
    N_ ("The likely reason for that, not proven: {cause}{proof}"),
    N_ ("Another likely reason for “{effect}”, not proven: {cause}{proof}"),
    N_ ("“{cause}” is likely also a reason for “{effect}”, which is not proven{proof}"),
  },
  [TOLD_UNKNOWN] = {
    N_ ("The reason for “{effect}” is not known: {cause}{proof}"),
    N_ ("The reason for that is not known: {cause}{proof}"),
    N_ ("Another reason for “{effect}” is not known: {cause}{proof}"),
    N_ ("It is not known either whether “{cause}” is a reason for “{effect}”{proof}"),
  },
  [TOLD_SAID] = {
    N_ ("About “{effect}” {who} says: “{cause}”{proof}; this is not proven"),
    N_ ("About that {who} says: “{cause}”{proof}; this is not proven"),
    N_ ("About “{effect}” {who} also says: “{cause}”{proof}; this is not proven"),
    N_ ("What {who} says, “{cause}”{proof}, may also be a reason for “{effect}”; this is not proven"),
  },
};

/* A cause that explains nothing, or nothing yet. */
static const char *const alone[N_TOLD] = {
  [TOLD_PROVEN] = N_ ("Found: {cause}"),
  [TOLD_LIKELY] = N_ ("Suspected, not proven: {cause}"),
  [TOLD_UNKNOWN] = N_ ("Not known: {cause}"),
  [TOLD_SAID] = N_ ("{who} says: “{cause}”; this is not proven"),
};

/* A complaint with nothing behind it, by its end; the first is without one, what is cured stands below. */
static const char *const complaints[] = {
  N_ ("The reason for “{effect}” has not been found yet"),
  NULL,
  N_ ("What to do about “{effect}” was the customer's choice"),
  N_ ("“{effect}” came from outside the vehicle, and the customer was told"),
  N_ ("The reason for “{effect}” is not known, and the customer was told"),
};

/* In the order of HsChainProof. */
static const char *const proofs[] = {
  N_ (" (measured: {words})"),
  N_ (" (photo: {words})"),
  N_ (" (seen: {words})"),
  N_ (" (said: {words})"),
};

/* How it ended, after a semicolon; in the order of HsChainEnd, none first. What is cured stands below. */
static const char *const ends[] = {
  "",
  NULL,
  N_ ("what to do about it was the customer's choice"),
  N_ ("it came from outside the vehicle, and the customer was told"),
  N_ ("what is behind it is not known, and the customer was told"),
};

/* What is called cured, as far as it is known; in the order of HsChainCure. What is not done or not shown is not said
 * to be put right. */
static const char *const cures[] = {
  N_ ("this was put right on this visit"),
  N_ ("this was repaired on this visit, and nothing has shown yet that it holds"),
  N_ ("it was tested afterwards; what was done to it is not written down"),
  N_ ("it is to be put right; nobody wrote down yet that it was"),
};

/* The same of a complaint with nothing behind it. */
static const char *const cured_complaints[] = {
  N_ ("“{effect}” was put right on this visit"),
  N_ ("“{effect}” was repaired on this visit, and nothing has shown yet that it holds"),
  N_ ("“{effect}” was tested afterwards; what was done is not written down"),
  N_ ("“{effect}” is to be put right; nobody wrote down yet that it was"),
};

/* And with what was put in. */
static const char *const untested_noted
    = N_ ("this was repaired on this visit: {note}; nothing has shown yet that it holds");

/* The same with a note of its own. */
static const char *const noted_ends[] = {
  "",
  N_ ("this was put right on this visit: {note}"),
  N_ ("what to do about it was the customer's choice: {note}"),
  N_ ("it came from outside the vehicle, and the customer was told: {note}"),
  N_ ("what is behind it is not known, and the customer was told: {note}"),
};

/* An influence from outside that is not proven stays a maybe. */
static const char *const outside_if = N_ ("if so, it came from outside the vehicle; the customer was told");

/* What is not known has been said in the sentence itself. */
static const char *const told_alone = N_ ("the customer was told");

typedef struct
{
  const char *name;
  const char *words;
} Blank;

/* Fills {name} in @pattern; what is filled in is not looked at again. */
static void
fill (GString *text, const char *pattern, const Blank *blanks)
{
  for (const char *at = pattern; *at != '\0';)
    {
      const char *end = *at == '{' ? strchr (at, '}') : NULL;
      const Blank *blank = blanks;

      while (end != NULL && blank->name != NULL
             && (strlen (blank->name) != (gsize) (end - at - 1) || strncmp (blank->name, at + 1, strlen (blank->name))))
        blank++;
      if (end == NULL || blank->name == NULL)
        g_string_append_c (text, *at++);
      else
        {
          g_string_append (text, blank->words == NULL ? "" : blank->words);
          at = end + 1;
        }
    }
}

/* The owner's words on one line, without the stop that the sentence brings itself. */
static char *
tidy (const char *words)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (const char *at = words == NULL ? "" : words; *at != '\0'; at++)
    if (!g_ascii_isspace (*at))
      g_string_append_c (text, *at);
    else if (text->len > 0 && text->str[text->len - 1] != ' ')
      g_string_append_c (text, ' ');
  while (text->len > 0 && strchr (" .;,", text->str[text->len - 1]) != NULL)
    g_string_truncate (text, text->len - 1);
  return g_strdup (text->str);
}

typedef struct
{
  const HsChain *chain;
  const HsTongue *in;
  const GArray *rows;
  GPtrArray *sentences;
  int last_told; /* the finding that the last sentence was about, or -1 */
} Telling;

static const HsChainFinding *
finding_of (const Telling *telling, const HsChainRow *row)
{
  return &hs_chain_node (telling->chain, row->finding)->finding;
}

/* @shown: something other than words shows it. Then it is more than said, even where words alone make it the reason. */
static Told
told_of (const HsChainFinding *cause, HsChainProof by, gboolean shown)
{
  if (by == HS_CHAIN_BY_WORD)
    return cause->sure == HS_CHAIN_PROVEN && shown ? TOLD_LIKELY : TOLD_SAID;
  if (cause->sure == HS_CHAIN_NOT_KNOWN)
    return TOLD_UNKNOWN;
  return cause->sure == HS_CHAIN_PROVEN ? TOLD_PROVEN : TOLD_LIKELY;
}

static Follows
follows_of (const Telling *telling, guint nth)
{
  const HsChainRow *row = &g_array_index (telling->rows, HsChainRow, nth);
  const HsChainRow *before = row - 1;

  if (row->kind == HS_CHAIN_REFERENCE)
    return TOLD_ABOVE;
  if ((int) nth - 1 != row->parent && (before->kind != HS_CHAIN_CUT || before->parent != row->parent))
    return ONE_MORE;
  if (telling->last_told == (int) g_array_index (telling->rows, HsChainRow, row->parent).finding)
    return AFTER_SENTENCE;
  return AFTER_NAME;
}

/* What a proof of that kind says of itself. */
#define SAID "said "

/* Words that only repeat what was said are no proof to tell. */
static gboolean
is_repeated (const char *what, const char *proof)
{
  g_autofree char *folded_what = hs_text_fold (what);
  g_autofree char *folded_proof = hs_text_fold (proof);

  return strstr (folded_what, folded_proof) != NULL;
}

static char *
say_proof (const Telling *telling, const HsChainFinding *cause, const HsChainLink *link)
{
  g_autofree char *words = tidy (link->proof);
  g_autoptr (GString) text = g_string_new (NULL);
  gboolean twice = link->by == HS_CHAIN_BY_WORD && g_str_has_prefix (words, SAID);
  const Blank blanks[] = { { "words", twice ? words + strlen (SAID) : words }, { NULL, NULL } };

  if (*words == '\0' || (link->by == HS_CHAIN_BY_WORD && is_repeated (cause->what, words)))
    return g_strdup ("");
  fill (text, telling->in->gettext (proofs[link->by]), blanks);
  return g_strdup (text->str);
}

static const char *
cure_pattern (HsChainCure cure, gboolean noted)
{
  if (!noted)
    return cures[cure];
  return cure == HS_CHAIN_CURE_SHOWN ? noted_ends[HS_CHAIN_CURED] : untested_noted;
}

static void
add_end (GString *text, const Telling *telling, const HsChainFinding *finding, Told told)
{
  g_autofree char *note = tidy (finding->end_note);
  const Blank blanks[] = { { "note", note }, { NULL, NULL } };
  const char *pattern;

  if (finding->end == HS_CHAIN_NO_END)
    return;
  pattern = *note == '\0' ? ends[finding->end] : noted_ends[finding->end];
  if (finding->end == HS_CHAIN_CURED)
    pattern = cure_pattern (hs_chain_get_cure (telling->chain, finding), *note != '\0');
  if (finding->end == HS_CHAIN_OUTSIDE_TOLD && told != TOLD_PROVEN)
    pattern = outside_if;
  if (finding->end == HS_CHAIN_NOT_KNOWN_TOLD && told == TOLD_UNKNOWN)
    pattern = told_alone;
  g_string_append (text, "; ");
  fill (text, telling->in->gettext (pattern), blanks);
}

static void
add_sentence (Telling *telling, GString *text)
{
  text->str[0] = g_ascii_toupper (text->str[0]);
  g_string_append_c (text, '.');
  g_ptr_array_add (telling->sentences, g_strdup (text->str));
}

/* By name only where it is known; nobody is given words of which it was not written down whose they are. */
static char *
say_who (const Telling *telling, const HsChainFinding *finding)
{
  g_autofree char *who = tidy (finding->said_by);

  if (*who != '\0')
    return g_steal_pointer (&who);
  return g_strdup (telling->in->gettext (finding->role == HS_CHAIN_CUSTOMER_SAID ? N_ ("the customer")
                                                                                 : N_ ("somebody")));
}

/* What was found; the words of a cause model are said in the language of the rest, the owner's own as they are. */
static char *
say_what (const Telling *telling, const HsChainFinding *finding)
{
  g_autofree char *what = tidy (finding->what);

  return *what == '\0' ? g_steal_pointer (&what) : g_strdup (telling->in->gettext (what));
}

static char *
say_cause (const Telling *telling, const HsChainFinding *finding, const HsChainLink *link)
{
  g_autofree char *what = say_what (telling, finding);
  g_autofree char *how = tidy (link->how);

  return *how == '\0' ? g_steal_pointer (&what) : g_strdup_printf ("%s, %s", what, how);
}

static void
tell_link (Telling *telling, guint nth)
{
  const HsChainRow *row = &g_array_index (telling->rows, HsChainRow, nth);
  const HsChainFinding *cause = finding_of (telling, row);
  const HsChainLink *link = &hs_chain_edge (telling->chain, (guint) row->link)->link;
  g_autofree char *what = say_cause (telling, cause, link);
  g_autofree char *effect
      = say_what (telling, finding_of (telling, &g_array_index (telling->rows, HsChainRow, row->parent)));
  g_autofree char *proof = say_proof (telling, cause, link);
  g_autofree char *who = say_who (telling, cause);
  const Blank blanks[]
      = { { "effect", effect }, { "cause", what }, { "proof", proof }, { "who", who }, { NULL, NULL } };
  g_autoptr (GString) text = g_string_new (NULL);
  Told told = told_of (cause, link->by,
                       hs_chain_node_is_shown (telling->chain, hs_chain_node (telling->chain, row->finding)));

  fill (text, telling->in->gettext (reasons[told][follows_of (telling, nth)]), blanks);
  if (row->kind == HS_CHAIN_NODE)
    add_end (text, telling, cause, told);
  add_sentence (telling, text);
}

static void
tell_top (Telling *telling, const HsChainRow *row)
{
  const HsChainFinding *finding = finding_of (telling, row);
  g_autofree char *what = say_what (telling, finding);
  g_autofree char *who = say_who (telling, finding);
  const Blank blanks[] = { { "effect", what }, { "cause", what }, { "who", who }, { NULL, NULL } };
  g_autoptr (GString) text = g_string_new (NULL);
  gboolean only_said = finding->role == HS_CHAIN_CUSTOMER_SAID && !finding->has_proof;
  Told told = told_of (finding, only_said ? HS_CHAIN_BY_WORD : HS_CHAIN_BY_EYE, FALSE);

  if (finding->role == HS_CHAIN_COMPLAINT && hs_chain_has_cause (telling->chain, finding->id))
    return;
  if (finding->role == HS_CHAIN_COMPLAINT)
    {
      const char *pattern = complaints[finding->end];

      if (finding->end == HS_CHAIN_CURED)
        pattern = cured_complaints[hs_chain_get_cure (telling->chain, finding)];
      fill (text, telling->in->gettext (pattern), blanks);
    }
  else
    {
      fill (text, telling->in->gettext (alone[told]), blanks);
      add_end (text, telling, finding, told);
    }
  add_sentence (telling, text);
}

/* All that was ruled out, with its proofs, in one sentence. */
static void
tell_cuts (Telling *telling)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < telling->rows->len; i++)
    {
      const HsChainRow *row = &g_array_index (telling->rows, HsChainRow, i);
      const HsChainFinding *finding = finding_of (telling, row);
      g_autofree char *what = NULL;
      g_autofree char *proof = NULL;

      if (row->kind != HS_CHAIN_CUT)
        continue;
      what = say_what (telling, finding);
      proof = row->link < 0 ? g_strdup ("")
                            : say_proof (telling, finding, &hs_chain_edge (telling->chain, (guint) row->link)->link);
      g_string_append_printf (text, "%s%s%s", text->len == 0 ? telling->in->gettext ("Ruled out: ") : "; ", what,
                              proof);
    }
  if (text->len > 0)
    add_sentence (telling, text);
}

/* A complaint is not told by a sentence of its own, so nothing can refer to "that" after it. */
static void
tell_row (Telling *telling, guint nth)
{
  const HsChainRow *row = &g_array_index (telling->rows, HsChainRow, nth);
  HsChainRole role = finding_of (telling, row)->role;

  if (role == HS_CHAIN_RULED_OUT)
    return;
  if (row->link < 0)
    tell_top (telling, row);
  else
    tell_link (telling, nth);
  telling->last_told = row->kind == HS_CHAIN_NODE && role != HS_CHAIN_COMPLAINT ? (int) row->finding : -1;
}

GPtrArray *
hs_chain_list_sentences (const HsChain *chain, const HsTongue *in)
{
  g_autoptr (GArray) rows = hs_chain_lay_out (chain);
  Telling telling = { chain, in != NULL ? in : &hs_tongue_english, rows, g_ptr_array_new_with_free_func (g_free), -1 };

  for (guint i = 0; i < rows->len; i++)
    tell_row (&telling, i);
  tell_cuts (&telling);
  return telling.sentences;
}
