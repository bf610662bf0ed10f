// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The questions of the phone. In the slip the list comes from what is compiled in, on a job's page from the job; both
 * lay out the same rows.
 *
 *   group ─▶ rows ─▶ Enter or leaving ─▶ hs_deed_answer ─▶ job (before there is one: HsDraft, then hs_deed_answer) */

#include "hs-intake-card.h"

#include <glib/gi18n.h>

#include "hs-ask-arrive.h"
#include "hs-decision.h"
#include "hs-deed-arrive.h"
#include "hs-field-row.h"
#include "hs-group-keys.h"
#include "hs-key-button.h"
#include "hs-late-keys.h"
#include "hs-pad-key.h"
#include "hs-show.h"

struct _HsIntakeCard
{
  HsJobPane parent_instance;

  GtkLabel *group_name;
  HsKeyButton *ask;
  HsKeyButton *change;
  GtkFlowBox *groups;
  GtkBox *rows;

  HsQuestion *interview; /* of a slip */
  HsDraft *draft;        /* of a slip */
  GHashTable *pending;   /* answers of a slip by question, until it is a job */
  char *group;
  char *laid_out; /* the group that the rows are of; %NULL: none yet */
  char *go_field; /* a draft that came before its row */
  char *go_text;
  char *awaited; /* the group that was chosen and whose questions are still on their way */
  HsLateKeys *late;
  gboolean written; /* the awaited group is in the book: its next answer shows it, or what took its place */
  gboolean slip;
  gboolean choosing;
};

G_DEFINE_FINAL_TYPE (HsIntakeCard, hs_intake_card, HS_TYPE_JOB_PANE)

enum
{
  GROUP_CHOSEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static const char *
job_of (HsIntakeCard *self)
{
  return hs_job_pane_get_job_id (HS_JOB_PANE (self));
}

static HsFieldRow *
find_row (HsIntakeCard *self, const char *id)
{
  for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self->rows)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    if (g_strcmp0 (hs_field_row_get_id (HS_FIELD_ROW (row)), id) == 0)
      return HS_FIELD_ROW (row);
  return NULL;
}

/* The next open question behind @after (nullable: the first one), round the end. */
static GtkWidget *
next_open (HsIntakeCard *self, GtkWidget *after)
{
  GtkWidget *first = NULL;
  gboolean behind = after == NULL;

  for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self->rows)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    {
      gboolean open = hs_field_row_is_bare (HS_FIELD_ROW (row));

      if (open && behind)
        return row;
      if (open && first == NULL)
        first = row;
      behind |= row == after;
    }
  return first;
}

/* Groups. */

static void
show_group (HsIntakeCard *self)
{
  HsChecks *checks = hs_ledger_get_checks (hs_page_get_ledger (HS_PAGE (self)));
  const HsCheckGroup *group
      = checks != NULL && self->group != NULL ? hs_checks_lookup_group (checks, self->group) : NULL;
  gboolean choosing = group == NULL || self->choosing;

  gtk_label_set_label (self->group_name, group != NULL ? hs_show_data (group->name) : _("What does it do, or not do?"));
  gtk_widget_set_visible (GTK_WIDGET (self->change), !choosing);
  gtk_widget_set_visible (GTK_WIDGET (self->groups), choosing);
}

/* The questions come from the book; digits that are keyed meanwhile are the answers to them. */
static void
await (HsIntakeCard *self, const char *group)
{
  g_free (self->awaited);
  self->awaited = g_strdup (group);
  self->written = FALSE;
  hs_late_keys_hold (self->late);
}

static void
ask_awaited (HsIntakeCard *self)
{
  if (self->awaited == NULL)
    return;
  if (g_strcmp0 (self->awaited, self->laid_out) != 0)
    {
      /* Taken back or changed elsewhere meanwhile: they are answers to other questions. */
      if (self->written)
        hs_intake_card_refuse (self);
      return;
    }
  g_clear_pointer (&self->awaited, g_free);
  hs_intake_card_ask (self);
  hs_late_keys_release (self->late);
}

void
hs_intake_card_accept (HsIntakeCard *self)
{
  g_return_if_fail (HS_IS_INTAKE_CARD (self));

  self->written = TRUE;
}

void
hs_intake_card_refuse (HsIntakeCard *self)
{
  g_return_if_fail (HS_IS_INTAKE_CARD (self));

  g_clear_pointer (&self->awaited, g_free);
  hs_late_keys_drop (self->late);
}

static void
choose_nth (HsIntakeCard *self, guint nth)
{
  HsChecks *checks = hs_ledger_get_checks (hs_page_get_ledger (HS_PAGE (self)));
  const HsCheckGroup *group = checks != NULL ? hs_checks_get_nth_group (checks, nth) : NULL;

  if (group == NULL)
    return;
  self->choosing = FALSE;
  if (g_strcmp0 (group->id, self->laid_out) != 0)
    await (self, group->id);
  hs_intake_card_set_group (self, group->id);
  g_signal_emit (self, signals[GROUP_CHOSEN], 0, group->id);
  if (self->awaited == NULL)
    hs_intake_card_ask (self);
}

static void
group_clicked_cb (HsIntakeCard *self, GtkButton *button)
{
  choose_nth (self, hs_group_keys_get_nth (button));
}

static gboolean
groups_key_cb (HsIntakeCard *self, guint keyval)
{
  char sign = hs_pad_key_sign (keyval);

  if (sign < '1' || sign > '9' || self->awaited != NULL)
    return GDK_EVENT_PROPAGATE;
  choose_nth (self, (guint) (sign - '1'));
  return GDK_EVENT_STOP;
}

static void
change_cb (HsIntakeCard *self)
{
  self->choosing = TRUE;
  show_group (self);
  gtk_widget_child_focus (GTK_WIDGET (self->groups), GTK_DIR_TAB_FORWARD);
}

/* Answers. */

static void
answered_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsFieldRow) row = data;
  g_autoptr (GError) error = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    hs_field_row_accept (row);
  else
    hs_field_row_refuse (row, error->message, FALSE);
}

static void
note (HsIntakeCard *self, HsFieldRow *row, const char *text)
{
  g_autofree char *field = g_strconcat (HS_INTAKE_FIELD, hs_field_row_get_id (row), NULL);

  if (job_of (self) != NULL)
    hs_job_pane_note (HS_JOB_PANE (self), "call", field, text);
  else if (self->draft != NULL)
    hs_draft_note (self->draft, NULL, "slip", field, text);
}

static void
typed_cb (HsIntakeCard *self, const char *text, HsFieldRow *row)
{
  note (self, row, text);
}

/* What the answer decides, and how it stands beside the readings. */
static void
say_decision (HsFieldRow *row, const char *decides, const char *const *answers, const char *answer, const char *fits)
{
  g_autofree char *decided = answer != NULL ? hs_decision_of_answer (decides, answers, answer) : NULL;
  g_autofree char *decision = decided != NULL ? hs_show_sentences (decided) : NULL;
  g_autofree char *said = fits != NULL && decision != NULL ? g_strdup_printf ("%s %s", fits, decision) : NULL;

  hs_field_row_say (row, said != NULL ? said : fits != NULL ? fits : decision, TRUE);
}

/* Until the slip is a job; spelled out already, and with what it decides. */
static void
keep (HsIntakeCard *self, HsFieldRow *row, const char *text)
{
  HsInterview *interview = hs_question_get (self->interview);
  const HsInterviewQuestion *question = hs_interview_find (interview, hs_field_row_get_id (row));
  g_autoptr (GError) error = NULL;
  g_autofree char *answer = hs_interview_dup_answer (question, text, &error);

  if (answer == NULL)
    {
      hs_field_row_refuse (row, error->message, FALSE);
      return;
    }
  g_hash_table_insert (self->pending, g_strdup (question->id), g_strdup (answer));
  hs_field_row_accept (row);
  hs_field_row_set_stored (row, hs_show_data (answer));
  note (self, row, answer);
  say_decision (row, question->decides, question->answers, answer, NULL);
}

/* (nullable): what the question of the row may be answered with, in the words of the book. */
static const char *const *
find_answers (HsIntakeCard *self, const char *id)
{
  const HsJobShot *shot = job_of (self) != NULL ? hs_job_pane_get_shot (HS_JOB_PANE (self)) : NULL;
  HsInterview *interview = hs_question_get (self->interview);
  const HsInterviewQuestion *question = interview != NULL ? hs_interview_find (interview, id) : NULL;

  for (guint i = 0; shot != NULL && i < shot->arrival->questions->len; i++)
    {
      const HsAnswerLine *line = g_ptr_array_index (shot->arrival->questions, i);

      if (g_strcmp0 (line->id, id) == 0)
        return (const char *const *) line->answers;
    }
  return question != NULL ? question->answers : NULL;
}

/* An answer as it is shown is the one that the book knows by its own words. */
static const char *
spell (HsIntakeCard *self, HsFieldRow *row, const char *text)
{
  const char *const *answers = find_answers (self, hs_field_row_get_id (row));

  for (guint i = 0; answers != NULL && answers[i] != NULL; i++)
    if (g_str_equal (text, hs_show_data (answers[i])))
      return answers[i];
  return text;
}

static void
store_cb (HsIntakeCard *self, const char *text, const char *why, HsFieldRow *row)
{
  text = spell (self, row, text);
  if (job_of (self) != NULL)
    {
      hs_deed_answer (hs_page_get_ledger (HS_PAGE (self)), job_of (self), hs_field_row_get_id (row), text, NULL,
                      answered_cb, g_object_ref (row));
      return;
    }
  keep (self, row, text);
}

static void
onward_cb (HsIntakeCard *self, HsFieldRow *row)
{
  GtkWidget *next = next_open (self, GTK_WIDGET (row));

  if (next != NULL)
    gtk_widget_grab_focus (next);
  else
    gtk_widget_child_focus (GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))), GTK_DIR_TAB_FORWARD);
}

static void
add_row (HsIntakeCard *self, const char *id, const char *words, const char *const *answers, gboolean pad)
{
  GtkWidget *row = hs_field_row_new (id, hs_show_data (words));
  g_autoptr (GPtrArray) shown = g_ptr_array_new ();

  for (guint i = 0; answers != NULL && answers[i] != NULL; i++)
    g_ptr_array_add (shown, (gpointer) hs_show_data (answers[i]));
  g_ptr_array_add (shown, NULL);
  hs_field_row_set_choices (HS_FIELD_ROW (row), (const char *const *) shown->pdata);
  if (pad)
    hs_field_row_set_pad (HS_FIELD_ROW (row));
  g_signal_connect_object (row, "typed", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (row, "store", G_CALLBACK (store_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (row, "onward", G_CALLBACK (onward_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->rows, row);
}

static void
take_up_draft (HsIntakeCard *self)
{
  HsFieldRow *row = self->go_field != NULL ? find_row (self, self->go_field) : NULL;

  if (row == NULL)
    return;
  if (self->go_text != NULL && *self->go_text != '\0')
    hs_field_row_set_text (row, self->go_text);
  gtk_widget_grab_focus (GTK_WIDGET (row));
  g_clear_pointer (&self->go_field, g_free);
  g_clear_pointer (&self->go_text, g_free);
}

/* Rows are laid out once a group; whether another one is meant now. */
static gboolean
begin_rows (HsIntakeCard *self)
{
  const char *group = self->group != NULL ? self->group : "";
  GtkWidget *row;

  hs_group_keys_fill (self->groups, hs_ledger_get_checks (hs_page_get_ledger (HS_PAGE (self))),
                      G_CALLBACK (group_clicked_cb), G_OBJECT (self));
  show_group (self);
  if (g_strcmp0 (group, self->laid_out) == 0)
    return FALSE;
  while ((row = gtk_widget_get_first_child (GTK_WIDGET (self->rows))) != NULL)
    gtk_box_remove (self->rows, row);
  g_free (self->laid_out);
  self->laid_out = g_strdup (group);
  return TRUE;
}

/* A slip. */

static void
lay_out_slip (HsIntakeCard *self)
{
  HsInterview *interview = hs_question_get (self->interview);
  g_autoptr (GPtrArray) list = NULL;

  if (interview == NULL && hs_question_get_trouble (self->interview) != NULL)
    hs_intake_card_refuse (self);
  if (interview == NULL || !begin_rows (self))
    return;
  self->written = TRUE;
  list = hs_interview_list (interview, self->group, HS_INTERVIEW_PHONE);
  for (guint i = 0; i < list->len; i++)
    {
      const HsInterviewQuestion *question = g_ptr_array_index (list, i);

      add_row (self, question->id, question->words, question->answers, question->entry != HS_INTERVIEW_WORDS);
      hs_field_row_set_stored (find_row (self, question->id),
                               hs_show_data (g_hash_table_lookup (self->pending, question->id)));
      say_decision (find_row (self, question->id), question->decides, question->answers,
                    g_hash_table_lookup (self->pending, question->id), NULL);
    }
  take_up_draft (self);
  ask_awaited (self);
}

void
hs_intake_card_set_slip (HsIntakeCard *self, HsDraft *draft)
{
  g_return_if_fail (HS_IS_INTAKE_CARD (self));

  g_set_object (&self->draft, draft);
  self->slip = TRUE;
  hs_question_ask (self->interview, NULL);
}

void
hs_intake_card_set_group (HsIntakeCard *self, const char *group)
{
  g_return_if_fail (HS_IS_INTAKE_CARD (self));

  if (g_strcmp0 (group, self->group) == 0)
    return;
  g_free (self->group);
  self->group = g_strdup (group);
  if (self->slip)
    lay_out_slip (self);
}

/* Its row may not be there yet. */
void
hs_intake_card_keep (HsIntakeCard *self, const char *field, const char *text)
{
  const char *id;
  HsFieldRow *row;

  g_return_if_fail (HS_IS_INTAKE_CARD (self) && g_str_has_prefix (field, HS_INTAKE_FIELD));

  id = field + strlen (HS_INTAKE_FIELD);
  row = find_row (self, id);
  if (text == NULL || *text == '\0')
    return;
  g_hash_table_insert (self->pending, g_strdup (id), g_strdup (text));
  if (row != NULL)
    hs_field_row_set_stored (row, hs_show_data (text));
}

static void
late_answer_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsIntakeCard) self = data;
  g_autoptr (GError) error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    hs_page_tell (HS_PAGE (self), error->message);
}

void
hs_intake_card_set_job_id (HsIntakeCard *self, const char *job_id)
{
  GHashTableIter iter;
  gpointer id, text;

  g_return_if_fail (HS_IS_INTAKE_CARD (self));

  if (g_strcmp0 (job_id, job_of (self)) == 0)
    return;
  hs_job_pane_set_job (HS_JOB_PANE (self), job_id, self->draft);
  g_hash_table_iter_init (&iter, self->pending);
  while (g_hash_table_iter_next (&iter, &id, &text))
    hs_deed_answer (hs_page_get_ledger (HS_PAGE (self)), job_id, id, text, NULL, late_answer_cb, g_object_ref (self));
  g_hash_table_remove_all (self->pending);
}

/* A job. */

static void
show_line (HsIntakeCard *self, const HsAnswerLine *line)
{
  HsFieldRow *row = find_row (self, line->id);

  if (row == NULL)
    return;
  hs_field_row_set_stored (row, hs_show_data (line->answer));
  say_decision (row, line->decides, (const char *const *) line->answers, line->answer, line->fits);
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsIntakeCard *self = HS_INTAKE_CARD (pane);
  GPtrArray *lines = shot->arrival->questions;
  gboolean anew;

  g_free (self->group);
  self->group = g_strdup (shot->view->group);
  gtk_widget_set_sensitive (GTK_WIDGET (self), shot->view->tag->stage != HS_STAGE_SQUARED);
  anew = begin_rows (self);
  for (guint i = 0; i < lines->len; i++)
    {
      const HsAnswerLine *line = g_ptr_array_index (lines, i);

      if (line->id == NULL || !line->phone)
        continue;
      if (anew)
        add_row (self, line->id, line->words, (const char *const *) line->answers, line->entry != HS_INTERVIEW_WORDS);
      show_line (self, line);
    }
  take_up_draft (self);
  ask_awaited (self);
}

static void
go (HsJobPane *pane, const char *field, const char *text)
{
  HsIntakeCard *self = HS_INTAKE_CARD (pane);

  g_free (self->go_field);
  g_free (self->go_text);
  self->go_field = g_strdup (field != NULL && g_str_has_prefix (field, HS_INTAKE_FIELD)
                                 ? field + strlen (HS_INTAKE_FIELD) : NULL);
  self->go_text = g_strdup (text);
  take_up_draft (self);
}

void
hs_intake_card_ask (HsIntakeCard *self)
{
  GtkWidget *open;

  g_return_if_fail (HS_IS_INTAKE_CARD (self));

  open = next_open (self, NULL);
  if (self->group == NULL && gtk_widget_get_visible (GTK_WIDGET (self->groups)))
    gtk_widget_child_focus (GTK_WIDGET (self->groups), GTK_DIR_TAB_FORWARD);
  else if (open != NULL)
    gtk_widget_grab_focus (open);
  else
    gtk_widget_grab_focus (GTK_WIDGET (self->change));
}

void
hs_intake_card_set_ask (HsIntakeCard *self, const char *action)
{
  g_return_if_fail (HS_IS_INTAKE_CARD (self));

  gtk_actionable_set_detailed_action_name (GTK_ACTIONABLE (self->ask), action);
  gtk_widget_set_visible (GTK_WIDGET (self->ask), TRUE);
}

gboolean
hs_intake_card_has_focus (HsIntakeCard *self)
{
  g_return_val_if_fail (HS_IS_INTAKE_CARD (self), FALSE);

  return hs_page_get_focus (HS_PAGE (self)) != NULL;
}

static void
hs_intake_card_constructed (GObject *object)
{
  HsIntakeCard *self = HS_INTAKE_CARD (object);

  G_OBJECT_CLASS (hs_intake_card_parent_class)->constructed (object);
  self->interview = hs_page_ask (HS_PAGE (self), hs_ask_interview, (GDestroyNotify) hs_interview_unref,
                                 G_CALLBACK (lay_out_slip));
}

static void
hs_intake_card_finalize (GObject *object)
{
  HsIntakeCard *self = HS_INTAKE_CARD (object);

  g_clear_object (&self->draft);
  g_hash_table_unref (self->pending);
  g_free (self->group);
  g_free (self->laid_out);
  g_free (self->go_field);
  g_free (self->go_text);
  g_free (self->awaited);
  G_OBJECT_CLASS (hs_intake_card_parent_class)->finalize (object);
}

static void
hs_intake_card_class_init (HsIntakeCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = hs_intake_card_constructed;
  G_OBJECT_CLASS (klass)->finalize = hs_intake_card_finalize;
  HS_JOB_PANE_CLASS (klass)->show = show_job;
  HS_JOB_PANE_CLASS (klass)->go = go;
  signals[GROUP_CHOSEN] = g_signal_new ("group-chosen", HS_TYPE_INTAKE_CARD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                        G_TYPE_NONE, 1, G_TYPE_STRING);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-intake-card.ui");
  gtk_widget_class_bind_template_child (widget_class, HsIntakeCard, group_name);
  gtk_widget_class_bind_template_child (widget_class, HsIntakeCard, ask);
  gtk_widget_class_bind_template_child (widget_class, HsIntakeCard, change);
  gtk_widget_class_bind_template_child (widget_class, HsIntakeCard, groups);
  gtk_widget_class_bind_template_child (widget_class, HsIntakeCard, rows);
  gtk_widget_class_bind_template_callback (widget_class, change_cb);
  gtk_widget_class_bind_template_callback (widget_class, groups_key_cb);
}

static void
hs_intake_card_init (HsIntakeCard *self)
{
  self->pending = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  self->late = hs_late_keys_new (GTK_WIDGET (self));
  gtk_widget_init_template (GTK_WIDGET (self));
}
