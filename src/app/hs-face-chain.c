// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Why it failed, as it is shown and as it is spoken. What was only said stays somebody's words here too. */

#include "hs-face-chain.h"

#include <glib/gi18n.h>

#include "hs-show.h"

void
hs_chain_face_free (HsChainFace *face)
{
  if (face == NULL)
    return;
  g_free (face->key);
  g_free (face->finding_id);
  g_free (face->link_id);
  g_free (face->title);
  g_free (face->proof_word);
  g_free (face->proof);
  g_free (face->end_title);
  g_free (face->end_note);
  g_free (face->spoken);
  g_free (face);
}

GPtrArray *
hs_chain_faces_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) hs_chain_face_free);
}

const char *
hs_face_proof_word (HsChainProof by)
{
  switch (by)
    {
    /* Translators: what shows a cause: a reading of a meter. */
    case HS_CHAIN_BY_READING: return _("Read");
    case HS_CHAIN_BY_PHOTO: return _("Photo");
    /* Translators: what shows a cause: the mechanic's own eyes. */
    case HS_CHAIN_BY_EYE: return _("Seen");
    /* Translators: what speaks for a cause: somebody's words alone. */
    case HS_CHAIN_BY_WORD:
    default: return _("Said");
    }
}

const char *
hs_face_end_word (HsChainEnd end)
{
  switch (end)
    {
    case HS_CHAIN_CURED: return _("Cured today");
    case HS_CHAIN_CHOSEN: return _("Customer’s choice");
    case HS_CHAIN_OUTSIDE_TOLD: return _("Outside, told");
    case HS_CHAIN_NOT_KNOWN_TOLD: return _("Not known, told");
    case HS_CHAIN_NO_END:
    default: return _("Open end");
    }
}

char *
hs_face_dup_end_note (HsLedger *ledger, const HsChainShot *shot, guint finding)
{
  const HsChainFinding *known = hs_chain_get_finding (shot->chain->chain, finding);
  HsInstant told = finding < shot->told_at->len ? g_array_index (shot->told_at, HsInstant, finding) : HS_INSTANT_NONE;
  g_autofree char *clock = hs_show_clock (ledger, told);

  if (known->end_note != NULL)
    return g_strdup (known->end_note);
  return g_steal_pointer (&clock);
}

typedef struct
{
  HsLedger *ledger;
  const HsChainShot *shot;
  GPtrArray *faces;
} Make;

static const HsChain *
chain_of (const Make *make)
{
  return make->shot->chain->chain;
}

static const HsChainTip *
tip_of (const Make *make, guint finding)
{
  for (guint i = 0; i < make->shot->chain->tips->len; i++)
    {
      const HsChainTip *tip = g_ptr_array_index (make->shot->chain->tips, i);

      if (tip->finding == finding)
        return tip;
    }
  return NULL;
}

/* “plain water, for months” of somebody, or only of whom it is if the words stand in the box already. */
static char *
dup_said (const HsChainFinding *cause, const char *proof)
{
  const char *who = cause->said_by != NULL ? cause->said_by : "";

  if (g_strcmp0 (cause->what, proof) == 0)
    return *who != '\0' ? g_strdup_printf (_("%s, not proven"), who) : g_strdup (_("not proven"));
  /* Translators: somebody's words: who, what. */
  return *who != '\0' ? g_strdup_printf (_("%s: “%s”, not proven"), who, proof)
                      : g_strdup_printf (_("“%s”, not proven"), proof);
}

/* What shows it, and that it does not make it sure, where it was called less than proven. */
static char *
dup_proof (const HsChainFinding *cause, const HsChainLink *link)
{
  if (link->by == HS_CHAIN_BY_WORD)
    return dup_said (cause, link->proof);
  if (cause->sure == HS_CHAIN_PROVEN)
    return g_strdup (link->proof);
  return g_strdup_printf ("%s · %s", link->proof, cause->sure == HS_CHAIN_SUSPECTED ? _("suspected") : _("not known"));
}

static char *
dup_title (const HsChainFinding *finding, const HsChainRow *row)
{
  if (finding->role == HS_CHAIN_COMPLAINT)
    return hs_show_quoted (finding->what);
  if (finding->role == HS_CHAIN_RULED_OUT)
    return g_strdup_printf (_("Ruled out: %s"), hs_show_data (finding->what));
  if (row->kind == HS_CHAIN_REFERENCE)
    /* Translators: a cause that stands further up in the drawing already, under its number. */
    return g_strdup_printf (_("%s: see %u"), hs_show_data (finding->what), row->number);
  return g_strdup (hs_show_data (finding->what));
}

static void
fill_link (const Make *make, const HsChainRow *row, const HsChainFinding *finding, HsChainFace *face)
{
  const HsChainLink *link;

  if (row->link < 0)
    return;
  link = hs_chain_get_link (chain_of (make), (guint) row->link);
  face->link_id = g_strdup (link->id);
  face->by = link->by;
  face->proof_word = g_strdup (hs_face_proof_word (link->by));
  face->proof = dup_proof (finding, link);
}

/* What is called cured, and not done, not tested or not said how. */
static void
add_cure (const Make *make, guint finding, HsChainFace *face)
{
  HsChainCure cure = hs_chain_get_cure (chain_of (make), hs_chain_get_finding (chain_of (make), finding));
  g_autofree char *note = g_steal_pointer (&face->end_note);
  const char *lacks = "";

  if (cure == HS_CHAIN_CURE_UNTESTED)
    lacks = _("not tested yet");
  else if (cure == HS_CHAIN_CURE_UNSAID)
    lacks = _("not written down what");
  else if (cure == HS_CHAIN_CURE_MEANT)
    lacks = _("nothing done yet");
  if (note != NULL || *lacks != '\0')
    face->end_note = hs_show_joined (note != NULL ? note : "", lacks, NULL);
}

/* An end hangs where the finding is drawn, not where it is only named. */
static void
fill_end (const Make *make, const HsChainRow *row, HsChainFace *face)
{
  const HsChainTip *tip = row->kind == HS_CHAIN_NODE ? tip_of (make, row->finding) : NULL;
  g_autofree char *note = NULL;

  if (tip == NULL)
    return;
  note = hs_face_dup_end_note (make->ledger, make->shot, row->finding);
  face->end = tip->end;
  face->open = tip->missing != NULL;
  face->end_title = g_strdup (hs_face_end_word (tip->end));
  face->end_note = *note != '\0' ? g_steal_pointer (&note) : NULL;
  if (face->open)
    face->end_note = g_strdup (_("not settled yet"));
  else if (tip->end == HS_CHAIN_CURED)
    add_cure (make, row->finding, face);
}

/* Spoken. */

static void
say (GString *text, const char *phrase)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", phrase);
}

G_GNUC_PRINTF (2, 3)
static void
say_format (GString *text, const char *format, ...)
{
  va_list args;
  g_autofree char *phrase = NULL;

  va_start (args, format);
  phrase = g_strdup_vprintf (format, args);
  va_end (args);
  say (text, phrase);
}

/* “a”, “b” */
static char *
dup_causes (const Make *make, const char *id)
{
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < hs_chain_get_n_links (chain_of (make)); i++)
    {
      const HsChainLink *link = hs_chain_get_link (chain_of (make), i);
      const HsChainFinding *cause = hs_chain_find (chain_of (make), link->cause_id);

      if (g_str_equal (link->effect_id, id) && cause->role != HS_CHAIN_RULED_OUT)
        g_string_append_printf (names, "%s“%s”", names->len > 0 ? ", " : "",
                                hs_show_data (cause->what));
    }
  return g_string_free (names, FALSE);
}

static void
say_place (const Make *make, const HsChainRow *row, GString *text)
{
  const HsChainRow *above = row->parent >= 0 ? &g_array_index (make->shot->chain->rows, HsChainRow, row->parent) : NULL;
  const char *effect = above != NULL ? hs_chain_get_finding (chain_of (make), above->finding)->what : NULL;

  if (row->number > 0 && row->kind == HS_CHAIN_NODE)
    say_format (text, _("number %u"), row->number);
  say_format (text, _("level %u"), row->level);
  if (effect == NULL)
    return;
  if (row->kind == HS_CHAIN_CUT)
    say_format (text, _("is not the cause of “%s”"), hs_show_data (effect));
  else
    say_format (text, _("led to “%s”"), hs_show_data (effect));
}

static char *
dup_spoken (const Make *make, const HsChainRow *row, const HsChainFinding *finding, const HsChainFace *face)
{
  g_autofree char *causes = dup_causes (make, finding->id);
  GString *text = g_string_new (face->title);

  say_place (make, row, text);
  if (face->proof != NULL)
    say_format (text, _("proof: %s, %s"), face->proof_word, face->proof);
  if (row->kind == HS_CHAIN_NODE && *causes != '\0')
    say_format (text, _("caused by %s"), causes);
  if (!face->firm)
    say (text, _("not proven"));
  if (face->end_title != NULL && face->end_note != NULL)
    say_format (text, "%s: %s", face->end_title, face->end_note);
  else if (face->end_title != NULL)
    say (text, face->end_title);
  return g_string_free (text, FALSE);
}

static void
add_face (const Make *make, const HsChainRow *row)
{
  const HsChainFinding *finding = hs_chain_get_finding (chain_of (make), row->finding);
  HsChainFace *face = g_new0 (HsChainFace, 1);

  face->finding_id = g_strdup (finding->id);
  face->kind = finding->role == HS_CHAIN_RULED_OUT ? HS_CHAIN_CUT : row->kind;
  face->complaint = finding->role == HS_CHAIN_COMPLAINT;
  face->firm = face->complaint || finding->role == HS_CHAIN_RULED_OUT || finding->sure == HS_CHAIN_PROVEN;
  face->number = row->kind == HS_CHAIN_NODE ? row->number : 0;
  face->level = row->level;
  face->position = row->position;
  face->n_siblings = row->n_siblings;
  face->parent = row->parent;
  face->column = row->column;
  face->from_column = row->from_column;
  face->wires = row->wires;
  face->title = dup_title (finding, row);
  fill_link (make, row, finding, face);
  fill_end (make, row, face);
  face->key = g_strdup (face->link_id != NULL ? face->link_id : finding->id);
  face->spoken = dup_spoken (make, row, finding, face);
  g_ptr_array_add (make->faces, face);
}

static gboolean
has_complaint (const Make *make)
{
  for (guint i = 0; i < make->faces->len; i++)
    if (((HsChainFace *) g_ptr_array_index (make->faces, i))->complaint)
      return TRUE;
  return FALSE;
}

/* What the caller said stands on top from the start, so that the first cause can be put under it. */
static void
put_words_on_top (const Make *make)
{
  HsChainFace *top = g_new0 (HsChainFace, 1);
  guint n_tops = 1;

  top->key = g_strdup ("");
  top->finding_id = g_strdup ("");
  top->complaint = top->firm = TRUE;
  top->level = top->position = 1;
  top->parent = -1;
  top->title = hs_show_quoted (make->shot->chain->words);
  top->spoken = g_strdup_printf (_("%s; no cause is written down yet"), top->title);
  for (guint i = 0; i < make->faces->len; i++)
    {
      HsChainFace *face = g_ptr_array_index (make->faces, i);

      if (face->parent >= 0)
        face->parent++;
      else
        face->position = ++n_tops;
    }
  g_ptr_array_insert (make->faces, 0, top);
  for (guint i = 0; i < make->faces->len; i++)
    if (((HsChainFace *) g_ptr_array_index (make->faces, i))->parent < 0)
      ((HsChainFace *) g_ptr_array_index (make->faces, i))->n_siblings = n_tops;
}

GPtrArray *
hs_face_chain (HsLedger *ledger, const HsChainShot *shot)
{
  Make make = { ledger, shot, hs_chain_faces_new () };

  for (guint i = 0; i < shot->chain->rows->len; i++)
    add_face (&make, &g_array_index (shot->chain->rows, HsChainRow, i));
  if (!has_complaint (&make))
    put_words_on_top (&make);
  return make.faces;
}
