// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A why-chain as JSON and as text, and a finding of it by what a person types. */

#include "hs-chain-out.h"

#include "hs-cli.h"
#include "hs-text.h"
#include "hs-words.h"

#include <glib/gi18n.h>

static const char *
id_at (HsWords words, int index)
{
  return index < 0 ? NULL : hs_words_get (words, NULL)[index].id;
}

static const HsChainRow *
row_at (const HsJobChain *job, guint nth)
{
  return &g_array_index (job->rows, HsChainRow, nth);
}

static const HsChainFinding *
finding_of (const HsJobChain *job, const HsChainRow *row)
{
  return hs_chain_get_finding (job->chain, row->finding);
}

static void
write_number (HsJsonOut *out, const HsChainRow *row)
{
  if (row->number > 0)
    hs_json_out_integer (out, "number", row->number);
  else
    hs_json_out_null (out, "number");
}

static void
write_node (HsJsonOut *out, const HsJobChain *job, const HsChainRow *row)
{
  const HsChainFinding *finding = finding_of (job, row);
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "id", finding->id);
  write_number (out, row);
  hs_json_out_integer (out, "level", row->level);
  hs_json_out_string (out, "role", id_at (HS_WORDS_FINDING_ROLE, (int) finding->role));
  hs_json_out_string (out, "what", finding->what);
  hs_json_out_string (out, "place", finding->place);
  hs_json_out_string (out, "sure", id_at (HS_WORDS_SURE, (int) finding->sure));
  hs_json_out_string (out, "end", id_at (HS_WORDS_ENDED, (int) finding->end - 1));
  hs_json_out_string (out, "said_by", finding->said_by);
  hs_json_out_end_object (out);
}

static void
write_link (HsJsonOut *out, const HsJobChain *job, const HsChainLink *link)
{
  gboolean ruled_out = hs_chain_find (job->chain, link->cause_id)->role == HS_CHAIN_RULED_OUT;
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "id", link->id);
  hs_json_out_string (out, "effect", link->effect_id);
  hs_json_out_string (out, "cause", link->cause_id);
  hs_json_out_boolean (out, "ruled_out", ruled_out);
  hs_json_out_string (out, "by", id_at (HS_WORDS_PROOF, (int) link->by));
  hs_json_out_string (out, "proof", link->proof);
  hs_json_out_string (out, "how", link->how);
  hs_json_out_end_object (out);
}

static void
write_tip (HsJsonOut *out, const HsJobChain *job, const HsChainTip *tip)
{
  const HsChainFinding *finding = hs_chain_get_finding (job->chain, tip->finding);
  hs_json_out_begin_object (out, NULL);
  hs_json_out_string (out, "finding", finding->id);
  hs_json_out_string (out, "what", finding->what);
  hs_json_out_string (out, "end", id_at (HS_WORDS_ENDED, (int) tip->end - 1));
  hs_json_out_string (out, "note", finding->end_note);
  hs_json_out_string (out, "missing", tip->missing);
  hs_json_out_end_object (out);
}

void
hs_chain_out_write (HsJsonOut *out, const char *name, const HsJobChain *job)
{
  hs_json_out_begin_object (out, name);
  hs_json_out_begin_array (out, "nodes");
  for (guint i = 0; i < job->rows->len; i++)
    if (row_at (job, i)->kind != HS_CHAIN_REFERENCE)
      write_node (out, job, row_at (job, i));
  hs_json_out_end_array (out);
  hs_json_out_begin_array (out, "links");
  for (guint i = 0; i < hs_chain_get_n_links (job->chain); i++)
    write_link (out, job, hs_chain_get_link (job->chain, i));
  hs_json_out_end_array (out);
  hs_json_out_begin_array (out, "ends");
  for (guint i = 0; i < job->tips->len; i++)
    write_tip (out, job, g_ptr_array_index (job->tips, i));
  hs_json_out_end_array (out);
  hs_json_out_boolean (out, "settled", job->open == NULL);
  hs_json_out_string (out, "open", job->open);
  hs_json_out_begin_array (out, "sentences");
  for (guint i = 0; i < job->sentences->len; i++)
    hs_json_out_string (out, NULL, g_ptr_array_index (job->sentences, i));
  hs_json_out_end_array (out);
  hs_json_out_end_object (out);
}

/* What a row is called: a number to type, a cross for what was ruled out, an arrow back for what stands above. */
static char *
mark_of (const HsChainRow *row)
{
  if (row->kind == HS_CHAIN_CUT)
    return g_strdup ("×");
  if (row->kind == HS_CHAIN_REFERENCE)
    return g_strdup_printf ("↑%u", row->number);
  return row->number > 0 ? g_strdup_printf ("%u", row->number) : g_strdup ("!");
}

static void
print_row (const HsJobChain *job, const HsChainRow *row)
{
  const HsChainFinding *finding = finding_of (job, row);
  g_autofree char *mark = mark_of (row);
  g_autofree char *padded = hs_cli_pad (mark, 3);
  g_autofree char *what = hs_cli_one_line (finding->what);
  hs_cli_print ("%*s%s %s", 2 * ((int) row->level - 1), "", padded, what);
  if (row->link >= 0)
    {
      const HsChainLink *link = hs_chain_get_link (job->chain, (guint) row->link);
      g_autofree char *proof = hs_cli_one_line (link->proof);
      hs_cli_print ("  (%s: %s)", hs_words_label (HS_WORDS_PROOF, id_at (HS_WORDS_PROOF, (int) link->by)), proof);
    }
  if (row->kind == HS_CHAIN_CUT)
    hs_cli_print ("  [%s]", _("ruled out"));
  else if (row->kind == HS_CHAIN_NODE && finding->sure != HS_CHAIN_PROVEN)
    hs_cli_print ("  [%s]", hs_words_label (HS_WORDS_SURE, id_at (HS_WORDS_SURE, (int) finding->sure)));
  if (row->kind == HS_CHAIN_NODE && finding->end != HS_CHAIN_NO_END)
    hs_cli_print ("  [%s]", hs_words_label (HS_WORDS_ENDED, id_at (HS_WORDS_ENDED, (int) finding->end - 1)));
  hs_cli_print ("\n");
}

void
hs_chain_out_print (const HsJobChain *job)
{
  if (job->rows->len == 0)
    hs_cli_print (_("Nothing is written down yet of why it failed.\n"));
  for (guint i = 0; i < job->rows->len; i++)
    print_row (job, row_at (job, i));
  if (job->open != NULL)
    hs_cli_print ("▌ %s\n", job->open);
  for (guint i = 0; i < job->sentences->len; i++)
    hs_cli_print ("%s%s\n", i == 0 ? "\n" : "", (const char *) g_ptr_array_index (job->sentences, i));
}

static const HsChainFinding *
find_number (const HsJobChain *job, const char *text)
{
  guint64 number;
  if (!g_ascii_string_to_unsigned (text, 10, 1, G_MAXUINT, &number, NULL))
    return NULL;
  for (guint i = 0; i < job->rows->len; i++)
    if (row_at (job, i)->kind == HS_CHAIN_NODE && row_at (job, i)->number == number)
      return finding_of (job, row_at (job, i));
  return NULL;
}

const HsChainFinding *
hs_chain_out_find (const HsJobChain *job, const char *text)
{
  const HsChainFinding *found = hs_chain_find (job->chain, text);
  gboolean first = g_ascii_strcasecmp (text, "complaint") == 0;
  if (found == NULL)
    found = find_number (job, text);
  g_autofree char *wanted = hs_text_fold (text);
  for (guint i = 0; found == NULL && i < hs_chain_get_n_findings (job->chain); i++)
    {
      const HsChainFinding *finding = hs_chain_get_finding (job->chain, i);
      g_autofree char *folded = hs_text_fold (finding->what);
      if (first ? finding->role == HS_CHAIN_COMPLAINT : *wanted != '\0' && g_str_equal (folded, wanted))
        found = finding;
    }
  return found;
}
