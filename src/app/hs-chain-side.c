// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The papers beside the why-chain: its ends and whether the job may be tested good, the sentences for the invoice, the
 * questions that are asked again; and the row of keys under them. */

#include "hs-chain-pane-private.h"

#include <glib/gi18n.h>

#include "hs-chip.h"
#include "hs-end-mark.h"
#include "hs-face-chain.h"
#include "hs-glyph.h"
#include "hs-line-list.h"
#include "hs-show.h"
#include "hs-verdict-label.h"

/* What is still to do takes as much room here; all of it stands under "Before and after". */
#define MOST_LEFT 3

static GtkWidget *
wrapped (const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  return label;
}

/* Ends. */

static void
add_end (HsChainPane *self, const HsChainShot *why, const HsChainTip *tip)
{
  const HsChainFinding *finding = hs_chain_get_finding (why->chain->chain, tip->finding);
  g_autofree char *more = hs_face_dup_end_note (hs_page_get_ledger (HS_PAGE (self)), why, tip->finding);
  g_autofree char *note = hs_show_joined (hs_face_end_word (tip->end), more, NULL);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16), *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (words), wrapped (hs_show_data (finding->what), "hs-strong"));
  gtk_box_append (GTK_BOX (words), wrapped (note, "hs-soft"));
  gtk_box_append (GTK_BOX (line), hs_end_mark_new (tip->end));
  gtk_box_append (GTK_BOX (line), words);
  gtk_box_append (self->ends, line);
}

static char *
dup_standing (const HsChainShot *why, const HsRepair *repair, HsProveStanding standing)
{
  guint n = repair->missing->len;

  if (standing == HS_PROVE_PROVEN || standing == HS_PROVE_OFF_ROAD)
    return g_strdup (_(hs_stage_label (why->stage)));
  if (why->not_yet != NULL || standing == HS_PROVE_BARRED)
    return g_strdup (_("not yet Tested good"));
  if (standing == HS_PROVE_READY)
    return g_strdup (_("may be Tested good"));
  return g_strdup_printf (ngettext ("%u thing still to do before Tested good",
                                    "%u things still to do before Tested good", n), n);
}

/* What is left is the list of "Before and after"; what bars is in it, and only a rule of the stages stands before
 * it. */
static char *
dup_left (const HsChainShot *why, const HsRepair *repair, HsProveStanding standing)
{
  static const HsTongue tongue = { gettext, ngettext };
  g_autofree char *left = hs_prove_dup_left (repair, MOST_LEFT, &tongue);

  if (standing == HS_PROVE_PROVEN || standing == HS_PROVE_OFF_ROAD)
    return g_strdup ("");
  if (why->not_yet == NULL || standing == HS_PROVE_BARRED)
    return g_steal_pointer (&left);
  return g_strchomp (g_strjoin (" ", why->not_yet, left, NULL));
}

static void
show_standing (HsChainPane *self, const HsChainShot *why)
{
  const HsRepair *repair = hs_job_pane_get_shot (HS_JOB_PANE (self))->repair->repair;
  HsProveStanding standing = hs_prove_standing (repair, why->stage);
  g_autofree char *word = dup_standing (why, repair, standing);
  g_autofree char *left = dup_left (why, repair, standing);

  gtk_label_set_label (self->ends_word, word);
  gtk_label_set_label (self->not_yet, left);
  gtk_widget_set_visible (GTK_WIDGET (self->not_yet), *left != '\0');
}

static void
show_ends (HsChainPane *self, const HsChainShot *why)
{
  guint n = why->chain->tips->len, n_open = hs_chain_count_open (why->chain->chain);
  g_autofree char *count = g_strdup_printf (g_dngettext (NULL, "%u end", "%u ends", n), n);
  /* Translators: after how many ends there are. */
  g_autofree char *open = g_strdup_printf (g_dngettext (NULL, "%u open", "%u open", n_open), n_open);
  g_autofree char *title = g_strdup_printf ("%s, %s", count, n_open == 0 ? _("all settled") : open);

  hs_line_list_clear (self->ends);
  for (guint i = 0; i < n; i++)
    add_end (self, why, g_ptr_array_index (why->chain->tips, i));
  gtk_label_set_label (self->ends_title, n > 0 ? title : _("No ends yet"));
  show_standing (self, why);
}

/* Sentences. */

static void
show_told (HsChainPane *self, const HsChainShot *why)
{
  GPtrArray *sentences = why->chain->sentences;
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *count = g_strdup_printf (g_dngettext (NULL, "%u sentence, made from the chain",
                                                         "%u sentences, made from the chain", sentences->len),
                                            sentences->len);

  for (guint i = 0; i < sentences->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " " : "", (const char *) g_ptr_array_index (sentences, i));
  gtk_label_set_label (self->told_count, sentences->len > 0 ? count : "");
  gtk_label_set_label (self->told, text->len > 0 ? text->str : _("Nothing yet: the first cause makes the first one."));
}

/* Questions. */

const HsAnswerLine *
hs_chain_pane_next_question (const HsChainShot *why)
{
  const HsAnswerLine *first = NULL;

  for (guint i = 0; i < why->answers->len; i++)
    {
      const HsAnswerLine *line = g_ptr_array_index (why->answers, i);

      if (line->again && line->answer == NULL)
        return line;
      if (line->again && first == NULL)
        first = line;
    }
  return first;
}

static HsVerdictShape
shape_of (HsParkedVerdict verdict)
{
  switch (verdict)
    {
    case HS_PARKED_FITS: return HS_VERDICT_SHAPE_THIN;
    case HS_PARKED_DOES_NOT_FIT: return HS_VERDICT_SHAPE_HEAVY;
    case HS_PARKED_CANNOT_TELL:
    default: return HS_VERDICT_SHAPE_DASHED;
    }
}

/* Whether the answer agrees with what was measured; it is no proof, whatever it says. */
static void
add_fits (GtkBox *box, const HsAnswerLine *line)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *verdict = hs_verdict_label_new (_(hs_parked_verdict_label (line->verdict)), shape_of (line->verdict));
  GtkWidget *words = wrapped (line->fits, "hs-soft");

  gtk_widget_set_valign (verdict, GTK_ALIGN_START);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (row), verdict);
  gtk_box_append (GTK_BOX (row), words);
  gtk_box_append (box, row);
}

static void
add_answer (HsChainPane *self, const HsAnswerLine *line)
{
  g_autofree char *clock = hs_show_clock (hs_page_get_ledger (HS_PAGE (self)), line->at);
  g_autofree char *question = hs_show_quoted (hs_show_data (line->words));
  g_autofree char *quoted = hs_show_quoted (hs_show_data (line->answer));
  g_autofree char *who = hs_show_joined (line->said_by != NULL ? line->said_by : "", clock, NULL);
  /* Translators: what was answered, and who said it when. */
  g_autofree char *said = g_strdup_printf (_("Said %s %s"), quoted, who);

  gtk_box_append (self->asked, wrapped (question, NULL));
  gtk_box_append (self->asked, wrapped (said, "hs-strong"));
  if (line->fits != NULL)
    add_fits (self->asked, line);
}

static void
show_questions (HsChainPane *self, const HsChainShot *why)
{
  const HsAnswerLine *next = hs_chain_pane_next_question (why);
  g_autofree char *question = next != NULL && next->answer == NULL ? hs_show_quoted (hs_show_data (next->words))
                                                                      : NULL;

  hs_line_list_clear (self->asked);
  for (guint i = 0; i < why->answers->len; i++)
    {
      const HsAnswerLine *line = g_ptr_array_index (why->answers, i);

      if (line->again && line->answer != NULL)
        add_answer (self, line);
    }
  if (question != NULL)
    {
      gtk_box_append (self->asked, wrapped (question, "hs-strong"));
      g_autofree char *decides = hs_show_sentences (next->decides);

      if (*decides != '\0')
        gtk_box_append (self->asked, wrapped (decides, "hs-soft"));
    }
  else
    gtk_box_append (self->asked, wrapped (_("All of them are answered."), "hs-soft"));
  gtk_widget_set_visible (self->ask_button, next != NULL);
}

void
hs_chain_pane_show_side (HsChainPane *self, const HsChainShot *why)
{
  show_ends (self, why);
  show_told (self, why);
  show_questions (self, why);
}

/* Keys. */

/* @sign: what the key is to the pane; a key without one is the window's */
typedef struct
{
  const char *key;
  const char *sign;
  const char *words;
  const char *glyph;
  HsChainEnd end;
} Key;

static const Key keys[] = {
  /* Translators: keys of the why-chain: what shows a cause. */
  { "1", "1", N_("read"), "reading", 0 },
  { "2", "2", N_("photo"), "photo", 0 },
  { "3", "3", N_("seen"), "seen", 0 },
  { "4", "4", N_("said"), "said", 0 },
  /* Translators: keys of the why-chain: how an end is settled; the last two say that the customer was told. */
  { "7", "7", N_("cured"), NULL, HS_CHAIN_CURED },
  { "8", "8", N_("chosen"), NULL, HS_CHAIN_CHOSEN },
  { "9", "9", N_("outside, told"), NULL, HS_CHAIN_OUTSIDE_TOLD },
  { "0", "0", N_("not known, told"), NULL, HS_CHAIN_NOT_KNOWN_TOLD },
  { "F9", NULL, N_("photos"), NULL, 0 },
};

static void
add_key (GtkWidget *box, const Key *key)
{
  GtkWidget *button = gtk_button_new (), *inside = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *label = gtk_label_new (_(key->words));

  gtk_box_append (GTK_BOX (inside), hs_keycap_new (key->key));
  if (key->glyph != NULL)
    gtk_box_append (GTK_BOX (inside), hs_glyph_new (key->glyph));
  if (key->end != HS_CHAIN_NO_END)
    gtk_box_append (GTK_BOX (inside), hs_end_mark_new (key->end));
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_box_append (GTK_BOX (inside), label);
  gtk_button_set_child (GTK_BUTTON (button), inside);
  gtk_widget_add_css_class (button, "hs-hint");
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), key->sign != NULL ? "chain.press" : "win.side");
  if (key->sign != NULL)
    gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", key->sign);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, _(key->words),
                                  GTK_ACCESSIBLE_PROPERTY_KEY_SHORTCUTS, key->key, -1);
  gtk_widget_set_parent (button, box);
}

void
hs_chain_pane_fill_keys (HsChainPane *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    add_key (self->keys, &keys[i]);
}

void
hs_chain_pane_show_proof_keys (HsChainPane *self, gboolean show)
{
  GtkWidget *child = gtk_widget_get_first_child (self->keys);

  for (guint i = 0; i < G_N_ELEMENTS (keys) && keys[i].glyph != NULL; i++, child = gtk_widget_get_next_sibling (child))
    gtk_widget_set_visible (child, show);
}
