// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Notes by model. A note is written in one line; what it is about is chosen beside it, and a note that was a slip is
 * taken away again. */

#include "hs-note-card.h"

#include <glib/gi18n.h>

#include "hs-deed-arrive.h"
#include "hs-field-row.h"
#include "hs-line-list.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-words.h"

struct _HsNoteCard
{
  HsJobPane parent_instance;

  GtkBox *lines;
  GtkBox *writer;
  GtkDropDown *topic;

  HsFieldRow *words;
};

G_DEFINE_FINAL_TYPE (HsNoteCard, hs_note_card, HS_TYPE_JOB_PANE)

char *
hs_note_card_dup_line (const HsModelNote *note)
{
  g_autofree char *said = NULL;

  g_return_val_if_fail (note != NULL, NULL);

  /* Translators: what a note is about, then the note. */
  said = g_strdup_printf (_("%s: %s"), _(note->topic_word), note->words);
  return note->years != NULL ? g_strdup_printf ("%s (%s)", said, note->years) : g_steal_pointer (&said);
}

/* Writing. */

static void
written_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsNoteCard) self = data;
  g_autoptr (GError) error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    {
      hs_field_row_refuse (self->words, error->message, FALSE);
      return;
    }
  /* The line is for the next one. */
  hs_field_row_accept (self->words);
  hs_field_row_set_text (self->words, NULL);
  hs_field_row_set_stored (self->words, NULL);
}

static void
store_cb (HsNoteCard *self, const char *text, const char *why, HsFieldRow *row)
{
  const HsWord *words = hs_words_get (HS_WORDS_NOTE_TOPIC, NULL);

  if (*text == '\0')
    {
      hs_field_row_accept (row);
      return;
    }
  hs_deed_note_model (hs_page_get_ledger (HS_PAGE (self)), hs_job_pane_get_job_id (HS_JOB_PANE (self)),
                      words[gtk_drop_down_get_selected (self->topic)].id, text, NULL, written_cb, g_object_ref (self));
}

static void
typed_cb (HsNoteCard *self, const char *text)
{
  hs_job_pane_note (HS_JOB_PANE (self), "call", HS_NOTE_FIELD, text);
}

static void
dropped_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsNoteCard) self = data;
  g_autoptr (GError) error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    hs_page_tell (HS_PAGE (self), error->message);
}

static void
drop_cb (HsNoteCard *self, GtkWidget *button)
{
  hs_deed_drop_note (hs_page_get_ledger (HS_PAGE (self)), hs_job_pane_get_job_id (HS_JOB_PANE (self)),
                     g_object_get_data (G_OBJECT (button), "note"), dropped_cb, g_object_ref (self));
}

/* Reading. */

static void
add_note (HsNoteCard *self, const HsModelNote *note)
{
  g_autofree char *text = hs_note_card_dup_line (note);
  g_autofree char *name = g_strdup_printf (_("Take away the note “%s”"), note->words);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12), *label = gtk_label_new (text);
  GtkWidget *button = gtk_button_new_with_label (_("Take Away"));

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  if (g_str_equal (note->topic, "caution"))
    gtk_widget_add_css_class (label, "hs-strong");
  hs_spoken_name (button, name);
  g_object_set_data_full (G_OBJECT (button), "note", g_strdup (note->id), g_free);
  g_signal_connect_object (button, "clicked", G_CALLBACK (drop_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (line), label);
  gtk_box_append (GTK_BOX (line), button);
  gtk_box_append (self->lines, line);
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsNoteCard *self = HS_NOTE_CARD (pane);
  gboolean had_focus = hs_page_get_focus (HS_PAGE (self)) != NULL;
  GPtrArray *notes = shot->arrival->notes;

  hs_line_list_clear (self->lines);
  for (guint i = 0; i < notes->len; i++)
    add_note (self, g_ptr_array_index (notes, i));
  if (notes->len == 0)
    hs_line_list_add (self->lines, _("Nothing is noted on this model yet."), NULL, "hs-soft");
  hs_page_keep_focus (HS_PAGE (self), had_focus, GTK_WIDGET (self->words));
}

static void
go (HsJobPane *pane, const char *field, const char *text)
{
  HsNoteCard *self = HS_NOTE_CARD (pane);

  if (text != NULL && *text != '\0')
    hs_field_row_set_text (self->words, text);
  gtk_widget_grab_focus (GTK_WIDGET (self->words));
}

static void
fill_topics (HsNoteCard *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  gsize n_words;
  const HsWord *words = hs_words_get (HS_WORDS_NOTE_TOPIC, &n_words);

  for (gsize i = 0; i < n_words; i++)
    gtk_string_list_append (names, hs_show_word (HS_WORDS_NOTE_TOPIC, words[i].id));
  gtk_drop_down_set_model (self->topic, G_LIST_MODEL (names));
  hs_spoken_name_drop_down (self->topic, _("What the note is about"));
}

static void
hs_note_card_class_init (HsNoteCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  HS_JOB_PANE_CLASS (klass)->show = show_job;
  HS_JOB_PANE_CLASS (klass)->go = go;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-note-card.ui");
  gtk_widget_class_bind_template_child (widget_class, HsNoteCard, lines);
  gtk_widget_class_bind_template_child (widget_class, HsNoteCard, writer);
  gtk_widget_class_bind_template_child (widget_class, HsNoteCard, topic);
}

static void
hs_note_card_init (HsNoteCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->words = HS_FIELD_ROW (hs_field_row_new ("model", _("What is worth knowing when the next one comes?")));
  gtk_widget_set_hexpand (GTK_WIDGET (self->words), TRUE);
  g_signal_connect_object (self->words, "typed", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->words, "store", G_CALLBACK (store_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->writer, GTK_WIDGET (self->words));
  fill_topics (self);
}
