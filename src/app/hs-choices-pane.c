// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Told and picked, and the go-aheads of a job. It shows what the book says and opens a window of its own for each thing
 * that is written: an option, an answer, a go-ahead.
 *
 *   HsJobShot ─▶ cards · room · go-aheads
 *   digit ─▶ HsAnswerWindow     + * . ─▶ HsOptionWindow     / ─▶ HsGoAheadWindow */

#include "hs-choices-pane.h"

#include <glib/gi18n.h>

#include "hs-answer-window.h"
#include "hs-choice-face.h"
#include "hs-deed-choice.h"
#include "hs-go-ahead-window.h"
#include "hs-key-button.h"
#include "hs-key-row.h"
#include "hs-line-list.h"
#include "hs-option-window.h"
#include "hs-pad-key.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-wide-layout.h"

struct _HsChoicesPane
{
  HsJobPane parent_instance;

  GtkBox *columns;
  GtkBox *declined;
  GtkBox *cards;
  GtkLabel *none;
  GtkLabel *used;
  GtkLabel *ceiling;
  GtkLabel *room;
  GtkBox *given;
  GtkBox *keys;
  GtkWidget *frozen;

  HsOptionWindow *option; /* weak */
  GtkWindow *asking;      /* weak: for an answer or a go-ahead */
};

G_DEFINE_FINAL_TYPE (HsChoicesPane, hs_choices_pane, HS_TYPE_JOB_PANE)

static const HsJobChoices *
get_choices (HsChoicesPane *self)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (self));

  return shot == NULL ? NULL : shot->choices;
}

static HsLedger *
get_ledger (HsChoicesPane *self)
{
  return hs_page_get_ledger (HS_PAGE (self));
}

/* What is asked for ------------------------------------------------------------------------------------------------ */

static gboolean
may_change (HsChoicesPane *self)
{
  const HsJobChoices *job = get_choices (self);

  if (job == NULL)
    return FALSE;
  return !hs_job_pane_tell_frozen (HS_JOB_PANE (self));
}

/* The name on the latest answer or go-ahead, else the customer's. */
static const char *
guess_who (const HsJobChoices *job)
{
  for (guint i = job->choices->len; i > 0; i--)
    if (((const HsChoice *) g_ptr_array_index (job->choices, i - 1))->by != NULL)
      return ((const HsChoice *) g_ptr_array_index (job->choices, i - 1))->by;
  return job->room->by != NULL ? job->room->by : job->customer;
}

static void
watch (HsChoicesPane *self, GtkWindow *window)
{
  g_clear_weak_pointer (&self->asking);
  g_set_weak_pointer (&self->asking, window);
}

static void
ask_answer (HsChoicesPane *self, guint number)
{
  const HsJobChoices *job = get_choices (self);
  const HsChoice *choice = job == NULL ? NULL : hs_job_choices_find (job, number);

  if (choice == NULL || !may_change (self))
    return;
  watch (self, GTK_WINDOW (hs_answer_window_present (
                 GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), get_ledger (self),
                 &(HsAnswerAsk) { .choice_id = choice->id, .wording = choice->wording,
                                  .risk = choice->no_risk ? NULL : choice->risk,
                                  .who = guess_who (job), .asked_cents = choice->price_cents,
                                  .would_cents = choice->would_cents, .would_short_cents = choice->would_short_cents,
                                  .ceiling_cents = job->room->given ? job->room->ceiling_cents : HS_INT_NONE,
                                  .pane = GTK_WIDGET (self) })));
}

static void
card_clicked_cb (HsChoicesPane *self, GtkWidget *card)
{
  ask_answer (self, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (card), "number")));
}

static void
write_option (HsChoicesPane *self, const HsChoice *choice, const HsChoice *beside)
{
  const HsJobChoices *job = get_choices (self);

  if (job == NULL || !may_change (self))
    return;
  g_clear_weak_pointer (&self->option);
  g_set_weak_pointer (&self->option,
                      hs_option_window_present (HS_PAGE (self), hs_job_pane_get_job_id (HS_JOB_PANE (self)),
                                                choice != NULL ? choice->id : NULL, beside));
  if (choice != NULL)
    hs_option_window_show (self->option, job);
}

/* What was typed into a window over this pane and is not in the book yet. */
static void
go (HsJobPane *pane, const char *field, const char *text)
{
  HsChoicesPane *self = HS_CHOICES_PANE (pane);
  const HsJobChoices *job = get_choices (self);
  g_auto (GStrv) parts = g_strsplit (field != NULL ? field : "", "/", 2);
  const HsChoice *choice = NULL;

  if (job == NULL || parts[0] == NULL || text == NULL || *text == '\0')
    return;
  for (guint i = 0; parts[1] != NULL && i < job->choices->len; i++)
    if (g_str_equal (((const HsChoice *) g_ptr_array_index (job->choices, i))->id, parts[1]))
      choice = g_ptr_array_index (job->choices, i);
  if (parts[1] != NULL && choice == NULL)
    return;
  /* It stands there already; it is not asked twice. */
  if (self->asking != NULL)
    return;
  if (g_strcmp0 (field, HS_GO_AHEAD_FIELD) == 0)
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "choices.go-ahead", NULL);
      return;
    }
  if (g_str_has_prefix (field, HS_ANSWER_FIELD))
    {
      ask_answer (self, choice->number);
      return;
    }
  if (self->option == NULL)
    write_option (self, choice, NULL);
  if (self->option != NULL)
    hs_option_window_fill (self->option, parts[0], text);
}

/* The option whose card has the focus, else the first that is open. */
static const HsChoice *
find_meant (HsChoicesPane *self)
{
  const HsJobChoices *job = get_choices (self);
  GtkWidget *focus = hs_page_get_focus (HS_PAGE (self));
  gpointer number = focus == NULL ? NULL : g_object_get_data (G_OBJECT (focus), "number");

  if (number != NULL)
    return hs_job_choices_find (job, GPOINTER_TO_UINT (number));
  for (guint i = 1; i <= job->choices->len; i++)
    if (g_str_equal (hs_job_choices_find (job, i)->choice, "open"))
      return hs_job_choices_find (job, i);
  return hs_job_choices_find (job, 1);
}

static void
new_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  write_option (HS_CHOICES_PANE (widget), NULL, NULL);
}

/* Another answer to the question of the option at hand. */
static void
beside_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChoicesPane *self = HS_CHOICES_PANE (widget);
  const HsChoice *meant = get_choices (self) == NULL ? NULL : find_meant (self);

  write_option (self, NULL, meant);
}

static void
change_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChoicesPane *self = HS_CHOICES_PANE (widget);
  const HsChoice *meant = get_choices (self) == NULL ? NULL : find_meant (self);

  if (meant != NULL)
    write_option (self, meant, NULL);
}

static void
go_ahead_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChoicesPane *self = HS_CHOICES_PANE (widget);

  if (may_change (self))
    watch (self, GTK_WINDOW (hs_go_ahead_window_present (HS_PAGE (self), hs_job_pane_get_job_id (HS_JOB_PANE (self)),
                                                         get_choices (self))));
}

static void
followed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsChoicesPane) self = data;
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  hs_page_tell (HS_PAGE (self), error != NULL ? error->message : _("It is a return visit now: declined earlier."));
}

/* The latest that is not taken up yet. */
static const HsDeclined *
find_declined (HsChoicesPane *self)
{
  const HsJobChoices *job = get_choices (self);

  for (guint i = 0; job != NULL && i < job->declined->len; i++)
    if (!((const HsDeclined *) g_ptr_array_index (job->declined, i))->follows)
      return g_ptr_array_index (job->declined, i);
  return NULL;
}

static void
follow_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChoicesPane *self = HS_CHOICES_PANE (widget);
  const HsDeclined *declined = find_declined (self);

  if (declined != NULL && may_change (self))
    hs_deed_follow (get_ledger (self), hs_job_pane_get_job_id (HS_JOB_PANE (self)), declined->job_id,
                    "declined_earlier", followed_cb, g_object_ref (self));
}

gboolean
hs_choices_pane_press (HsChoicesPane *self, guint keyval)
{
  static const struct
  {
    char sign;
    const char *action;
  } acts[] = {
    { '+', "choices.new" },      { '*', "choices.beside" }, { '.', "choices.change" },
    { '/', "choices.go-ahead" }, { '0', "choices.follow" },
  };
  char sign = hs_pad_key_sign (keyval);

  g_return_val_if_fail (HS_IS_CHOICES_PANE (self), FALSE);

  if (sign >= '1' && sign <= '9')
    {
      ask_answer (self, (guint) (sign - '0'));
      return TRUE;
    }
  for (guint i = 0; i < G_N_ELEMENTS (acts); i++)
    if (sign == acts[i].sign)
      return gtk_widget_activate_action (GTK_WIDGET (self), acts[i].action, NULL);
  return FALSE;
}

static gboolean
key_cb (HsChoicesPane *self, guint keyval, guint keycode, GdkModifierType state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  return hs_choices_pane_press (self, keyval) ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

/* What is shown ---------------------------------------------------------------------------------------------------- */

static void
show_declined (HsChoicesPane *self, const HsJobChoices *job)
{
  hs_line_list_clear (self->declined);
  for (guint i = 0; i < job->declined->len; i++)
    {
      const HsDeclined *declined = g_ptr_array_index (job->declined, i);
      g_autofree char *words = hs_choice_face_dup_declined (get_ledger (self), declined);

      hs_line_list_add (self->declined, words, NULL, "hs-caution");
      if (declined->follows)
        {
          /* Translators: why the vehicle is back. */
          g_autofree char *why = g_strdup_printf (_("This is the return visit: %s"),
                                                  hs_show_word (HS_WORDS_RETURN_WHY, declined->return_why));

          hs_line_list_add (self->declined, why, NULL, "hs-strong");
        }
      else if (declined == find_declined (self) && !job->squared)
        gtk_box_append (self->declined,
                        hs_key_button_new ("0", _("Declined Earlier: That Is Why"), "choices.follow"));
    }
  gtk_widget_set_visible (GTK_WIDGET (self->declined), job->declined->len > 0);
}

static guint
focused_number (HsChoicesPane *self)
{
  GtkWidget *focus = hs_page_get_focus (HS_PAGE (self));

  return focus == NULL ? 0 : GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (focus), "number"));
}

static void
show_cards (HsChoicesPane *self, const HsJobChoices *job)
{
  guint focused = focused_number (self);
  gboolean had_focus = hs_page_get_focus (HS_PAGE (self)) != NULL;
  GtkWidget *keep = NULL;

  hs_line_list_clear (self->cards);
  for (guint i = 0; i < job->choices->len; i++)
    {
      const HsChoice *choice = g_ptr_array_index (job->choices, i);
      GtkWidget *card = hs_choice_face_card (get_ledger (self), choice);

      g_object_set_data (G_OBJECT (card), "number", GUINT_TO_POINTER (choice->number));
      g_signal_connect_object (card, "clicked", G_CALLBACK (card_clicked_cb), self, G_CONNECT_SWAPPED);
      gtk_box_append (self->cards, card);
      if (choice->number == MAX (focused, 1))
        keep = card;
    }
  gtk_widget_set_visible (GTK_WIDGET (self->none), job->choices->len == 0);
  hs_page_keep_focus (HS_PAGE (self), had_focus, keep != NULL ? keep : GTK_WIDGET (self));
}

static void
show_room (HsChoicesPane *self, const HsJobChoices *job)
{
  HsLedger *ledger = get_ledger (self);
  g_autofree char *used = hs_show_money (ledger, job->room->total_cents);
  g_autofree char *ceiling = hs_show_money (ledger, job->room->ceiling_cents);
  g_autofree char *room = hs_choice_face_dup_room (ledger, job->room);

  gtk_label_set_label (self->used, used);
  gtk_label_set_label (self->ceiling, job->room->given ? ceiling : "–");
  gtk_label_set_label (self->room, room);
  if (job->room->short_cents > 0)
    gtk_widget_add_css_class (GTK_WIDGET (self->room), "hs-caution");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->room), "hs-caution");
  hs_choice_face_list_go_aheads (self->given, ledger, job);
}

/* Buttons that wrap, for a narrow page has no keyboard to speak of. */
static void
show_keys (HsChoicesPane *self)
{
  gboolean frozen = hs_job_pane_is_frozen (HS_JOB_PANE (self));
  const HsKeyHint hints[] = {
    { "+", _("New Option"), "choices.new" },
    { "*", _("Same Question"), "choices.beside" },
    { ".", _("Change It"), "choices.change" },
    { "/", _("Go-Ahead"), "choices.go-ahead" },
    { "F7", _("Show the Customer"), "win.customer" },
  };

  /* A key that has the cursor stays. */
  if (gtk_widget_get_first_child (GTK_WIDGET (self->keys)) != NULL && gtk_widget_get_visible (self->frozen) == frozen)
    return;
  hs_line_list_clear (self->keys);
  gtk_widget_set_visible (self->frozen, frozen);
  /* Of what is frozen only the last is left: to show it. */
  for (gsize i = frozen ? G_N_ELEMENTS (hints) - 1 : 0; i < G_N_ELEMENTS (hints); i++)
    gtk_box_append (self->keys, hs_key_button_new (hints[i].key, hints[i].label, hints[i].action));
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsChoicesPane *self = HS_CHOICES_PANE (pane);

  show_keys (self);
  show_declined (self, shot->choices);
  show_cards (self, shot->choices);
  show_room (self, shot->choices);
  if (self->option != NULL)
    hs_option_window_show (self->option, shot->choices);
}

static void
room_changed (HsPage *page)
{
  HsChoicesPane *self = HS_CHOICES_PANE (page);
  gboolean narrow = hs_page_get_narrow (page);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->columns),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_homogeneous (self->columns, FALSE);
}

/* Its keys act as soon as it is shown. */
static void
shown (HsPage *page)
{
  HsChoicesPane *self = HS_CHOICES_PANE (page);
  GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (self->cards));

  gtk_widget_grab_focus (card != NULL ? card : GTK_WIDGET (self));
}

static void
hs_choices_pane_dispose (GObject *object)
{
  HsChoicesPane *self = HS_CHOICES_PANE (object);
  GtkWindow *asking = self->asking;

  g_clear_weak_pointer (&self->option);
  g_clear_weak_pointer (&self->asking);
  /* It asks for this pane; without it nothing could be written down. */
  if (asking != NULL)
    gtk_window_destroy (asking);
  G_OBJECT_CLASS (hs_choices_pane_parent_class)->dispose (object);
}

static void
hs_choices_pane_class_init (HsChoicesPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_choices_pane_dispose;
  HS_JOB_PANE_CLASS (klass)->show = show_job;
  HS_JOB_PANE_CLASS (klass)->go = go;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  HS_PAGE_CLASS (klass)->shown = shown;
  g_type_ensure (HS_TYPE_WIDE_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-choices-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, columns);
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, declined);
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, cards);
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, none);
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, used);
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, ceiling);
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, room);
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, given);
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, keys);
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, frozen);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "choices.new", NULL, new_action);
  gtk_widget_class_install_action (widget_class, "choices.beside", NULL, beside_action);
  gtk_widget_class_install_action (widget_class, "choices.change", NULL, change_action);
  gtk_widget_class_install_action (widget_class, "choices.go-ahead", NULL, go_ahead_action);
  gtk_widget_class_install_action (widget_class, "choices.follow", NULL, follow_action);
}

static void
hs_choices_pane_init (HsChoicesPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  show_keys (self);
}
