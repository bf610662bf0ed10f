// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every stage that a job may go to, back ones and those off the road too. Use it where the one key to the next stage
 * is refused, or where another stage is meant. It only offers what the table of moves knows; the book has the last
 * word, and its words are shown as they are. F4 takes the job where it was to go; after
 * a refusal so does Enter in the reason, and 0 leads to where it is mended. */

#include "hs-stage-window.h"

#include <glib/gi18n.h>

#include "hs-call-off-window.h"
#include "hs-deed.h"
#include "hs-deed-bill.h"
#include "hs-flow-layout.h"
#include "hs-key-button.h"
#include "hs-mover.h"
#include "hs-ops-error.h"
#include "hs-refusal.h"
#include "hs-spoken.h"
#include "hs-square-window.h"
#include "hs-window.h"

struct _HsStageWindow
{
  AdwWindow parent_instance;

  GtkLabel *refusal;
  GtkEditable *reason;
  GtkFlowBox *stages;
  GtkBox *reasons;
  HsKeyButton *lead;
  HsKeyButton *onward;

  HsPage *page; /* weak: under us, in the window that destroys us */
  char *job_id;
  char *number;
  HsStage from;
  HsStage wanted; /* where F4 takes it; @from: nowhere */
  gboolean refused;
  char *place; /* (nullable): face of the job's page where what was refused is mended */
};

G_DEFINE_FINAL_TYPE (HsStageWindow, hs_stage_window, ADW_TYPE_WINDOW)

typedef struct
{
  HsRefusal *asked;
  HsStage to;
} Move;

static void
show_lead (HsStageWindow *self, char *place)
{
  g_autofree char *words = place != NULL ? hs_square_window_say_place (place) : NULL;

  g_free (self->place);
  self->place = place;
  if (words != NULL)
    hs_key_button_set_text (self->lead, words);
  gtk_widget_set_visible (GTK_WIDGET (self->lead), words != NULL);
}

static void
place_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsStageWindow) self = data;
  g_autofree char *place = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &place, NULL) && self->page != NULL
      && self->refused && place != NULL && *place != '\0')
    show_lead (self, g_steal_pointer (&place));
}

/* @text: (nullable): why it may not go to @to; where that is mended is one key away. */
static void
tell (HsStageWindow *self, const char *text, HsStage to)
{
  const char *reason = gtk_editable_get_text (self->reason);

  self->refused = text != NULL;
  hs_refusal_say (self->refusal, text);
  show_lead (self, NULL);
  if (self->refused && self->page != NULL)
    hs_ledger_ask_async (hs_page_get_ledger (self->page), hs_ask_block_place,
                         g_variant_new ("(sums)", self->job_id, to, *reason != '\0' ? reason : NULL), g_free, place_cb,
                         g_object_ref (self));
}

static void
lead_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsStageWindow *self = HS_STAGE_WINDOW (widget);

  if (self->place == NULL || self->page == NULL)
    return;
  hs_page_open_job (self->page, self->job_id, self->place);
  gtk_window_close (GTK_WINDOW (self));
}

static HsStage
stage_of (GtkWidget *button)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "stage"));
}

/* Usual reasons, one digit each, so that nobody types junk to get on. */
static const struct
{
  HsStage to;
  const char *words;
} usual_reasons[] = {
  { HS_STAGE_PROVEN, N_("the customer had to go") },
  { HS_STAGE_PROVEN, N_("not safe here") },
  { HS_STAGE_PROVEN, N_("tool not on hand") },
  { HS_STAGE_PROVEN, N_("it cannot be tried here") },
  { HS_STAGE_TURNED_AWAY, N_("too far") },
  { HS_STAGE_TURNED_AWAY, N_("not work that is done here") },
  { HS_STAGE_TURNED_AWAY, N_("no time for it") },
  { HS_STAGE_TURNED_AWAY, N_("not safe to work on there") },
};

/* Returns: (nullable): the @digit-th usual reason of @to. */
static const char *
usual_reason (HsStage to, guint digit)
{
  for (guint i = 0; i < G_N_ELEMENTS (usual_reasons); i++)
    if (usual_reasons[i].to == to && digit-- == 1)
      return usual_reasons[i].words;
  return NULL;
}

/* The one that F4 means stands out. Returns: (nullable) (transfer none): its button. */
static GtkWidget *
want (HsStageWindow *self, HsStage wanted)
{
  GtkWidget *found = NULL;
  GtkFlowBoxChild *child;

  self->wanted = wanted;
  for (int i = 0; (child = gtk_flow_box_get_child_at_index (self->stages, i)) != NULL; i++)
    {
      GtkWidget *button = gtk_flow_box_child_get_child (child);

      if (stage_of (button) == wanted)
        gtk_widget_add_css_class (found = button, "hs-fill");
      else
        gtk_widget_remove_css_class (button, "hs-fill");
    }
  if (found == NULL)
    self->wanted = self->from;
  hs_key_button_set_text (self->onward, _(hs_stage_label (self->wanted)));
  gtk_widget_set_visible (GTK_WIDGET (self->onward), found != NULL);
  return found;
}

static void offer_reasons (HsStageWindow *self);

/* The safety list comes first, and keeps the reason. */
static void
bar (HsStageWindow *self)
{
  const char *reason = gtk_editable_get_text (self->reason);

  hs_mover_bar (self->page, self->job_id, self->number, self->from, *reason != '\0' ? reason : NULL);
  gtk_window_close (GTK_WINDOW (self));
}

/* A vehicle would be left with its clock running: what becomes of that is asked in its own window. */
static void
ask_leaving (HsStageWindow *self, HsStage to)
{
  const char *reason = gtk_editable_get_text (self->reason);

  hs_mover_ask_anew (self->page, self->job_id, self->number, self->from, to, *reason != '\0' ? reason : NULL);
  gtk_window_close (GTK_WINDOW (self));
}

static void
moved_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Move *move = data;
  g_autoptr (HsRefusal) asked = move->asked;
  HsStageWindow *self = hs_refusal_get_window (asked);
  g_autofree char *fee = NULL;
  g_autoptr (GError) error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &fee, &error))
    {
      if (hs_refusal_late (asked, error->message))
        return;
      if (g_error_matches (error, HS_OPS_ERROR, HS_OPS_ERROR_UNREAD) && self->page != NULL)
        {
          bar (self);
          return;
        }
      if (g_error_matches (error, HS_OPS_ERROR, HS_OPS_ERROR_LEAVES_OPEN) && self->page != NULL)
        {
          ask_leaving (self, move->to);
          return;
        }
      tell (self, error->message, move->to);
      want (self, move->to);
      offer_reasons (self);
      gtk_widget_grab_focus (GTK_WIDGET (self->reason));
      return;
    }
  if (self->page != NULL)
    hs_mover_moved (self->page, self->job_id, self->number, move->to, fee);
  gtk_window_close (GTK_WINDOW (self));
}

void
hs_stage_window_move (HsStageWindow *self, HsStage to)
{
  const char *reason;
  Move *move;

  g_return_if_fail (HS_IS_STAGE_WINDOW (self));

  if (self->page == NULL)
    return;
  reason = gtk_editable_get_text (self->reason);
  if (to == HS_STAGE_CALLED_OFF)
    {
      hs_call_off_window_present (self->page, self->job_id, self->number, reason);
      gtk_window_close (GTK_WINDOW (self));
      return;
    }
  if (to == HS_STAGE_SQUARED)
    {
      hs_square_window_present (self->page, self->job_id, self->number);
      gtk_window_close (GTK_WINDOW (self));
      return;
    }
  if (to == HS_STAGE_ROLLING)
    {
      hs_mover_roll (self->page, self->job_id, self->number, self->from, *reason != '\0' ? reason : NULL);
      gtk_window_close (GTK_WINDOW (self));
      return;
    }
  move = g_new0 (Move, 1);
  move->asked = hs_refusal_expect (GTK_WINDOW (self), reason);
  move->to = to;
  hs_deed_move_stage (hs_page_get_ledger (self->page), self->job_id, to, *reason != '\0' ? reason : NULL, moved_cb,
                      move);
}

void
hs_stage_window_set_reason (HsStageWindow *self, const char *reason)
{
  g_return_if_fail (HS_IS_STAGE_WINDOW (self));

  gtk_editable_set_text (self->reason, reason);
}

static void
stage_clicked_cb (HsStageWindow *self, GtkWidget *button)
{
  hs_stage_window_move (self, stage_of (button));
}

static void
move_on (HsStageWindow *self)
{
  if (self->wanted != self->from)
    hs_stage_window_move (self, self->wanted);
}

static void
onward_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  move_on (HS_STAGE_WINDOW (widget));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

/* What was refused is tried again. Else a reason alone does not say which stage it is for. */
static void
reason_entered_cb (HsStageWindow *self)
{
  GtkWidget *onward = want (self, self->wanted);

  if (self->refused && onward != NULL)
    move_on (self);
  else if (onward != NULL)
    gtk_widget_grab_focus (onward);
  else
    gtk_widget_child_focus (GTK_WIDGET (self->stages), GTK_DIR_TAB_FORWARD);
}

static void
take_reason (HsStageWindow *self, guint digit)
{
  gtk_editable_set_text (self->reason, _(usual_reason (self->wanted, digit)));
  move_on (self);
}

static void
reason_clicked_cb (HsStageWindow *self, GtkWidget *button)
{
  take_reason (self, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "digit")));
}

/* A digit is printed on one thing only. */
static void
show_stage_keys (HsStageWindow *self, gboolean show)
{
  GtkFlowBoxChild *child;

  for (int i = 0; (child = gtk_flow_box_get_child_at_index (self->stages, i)) != NULL; i++)
    hs_key_button_set_show_key (HS_KEY_BUTTON (gtk_flow_box_child_get_child (child)), show);
}

/* Shown where one is missing; as long as nothing is typed, their digits are theirs. */
static void
offer_reasons (HsStageWindow *self)
{
  GtkWidget *child;
  const char *words;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->reasons))) != NULL)
    gtk_box_remove (self->reasons, child);
  for (guint digit = 1; self->refused && (words = usual_reason (self->wanted, digit)) != NULL; digit++)
    {
      g_autofree char *key = g_strdup_printf ("%u", digit);
      GtkWidget *button = hs_key_button_new (key, _(words), NULL);

      hs_key_button_set_row (HS_KEY_BUTTON (button));
      g_object_set_data (G_OBJECT (button), "digit", GUINT_TO_POINTER (digit));
      g_signal_connect_object (button, "clicked", G_CALLBACK (reason_clicked_cb), self, G_CONNECT_SWAPPED);
      gtk_box_append (self->reasons, button);
    }
  show_stage_keys (self, gtk_widget_get_first_child (GTK_WIDGET (self->reasons)) == NULL);
}

/* A key belongs to the reason once it is begun; until then a digit is the stage's that it is printed on. */
static gboolean
writes_reason (HsStageWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->reason))
         && (*gtk_editable_get_text (self->reason) != '\0' || gtk_widget_get_first_child (GTK_WIDGET (self->reasons)));
}

/* Who writes on a button means the reason. */
static void
go_on_with_reason (HsStageWindow *self, gunichar letter)
{
  char text[7] = { 0 };
  int at = -1;

  g_unichar_to_utf8 (letter, text);
  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (self->reason));
  gtk_editable_insert_text (self->reason, text, -1, &at);
  gtk_editable_set_position (self->reason, -1);
}

/* A digit picks a stage unless it is part of the reason, or picks a usual one that is missing; a letter begins the
 * reason. */
static gboolean
key_cb (HsStageWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  gunichar letter = gdk_keyval_to_unicode (keyval);
  GtkFlowBoxChild *child;

  if (keyval == GDK_KEY_Escape)
    gtk_window_close (GTK_WINDOW (self));
  else if (keyval == GDK_KEY_F4)
    move_on (self);
  else if (self->refused && *gtk_editable_get_text (self->reason) == '\0' && letter >= '1' && letter <= '9'
           && usual_reason (self->wanted, letter - '0') != NULL)
    take_reason (self, letter - '0');
  else if (letter == '0' && self->place != NULL && *gtk_editable_get_text (self->reason) == '\0')
    lead_action (GTK_WIDGET (self), NULL, NULL);
  else if (writes_reason (self) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  else if (g_unichar_isalpha (letter))
    go_on_with_reason (self, letter);
  else if (letter >= '1' && letter <= '9'
           && (child = gtk_flow_box_get_child_at_index (self->stages, (int) (letter - '1'))) != NULL)
    stage_clicked_cb (self, gtk_flow_box_child_get_child (child));
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

/* The focus never begins on a way back. */
static void
fill (HsStageWindow *self, HsStage wanted)
{
  GtkWidget *onward;
  guint n = 0;

  for (guint to = 0; to < HS_N_STAGES; to++)
    {
      g_autofree char *key = NULL;
      GtkWidget *button;

      if (to == self->from || !hs_stage_may_move (self->from, to))
        continue;
      n++;
      key = n <= 9 ? g_strdup_printf ("%u", n) : NULL;
      button = hs_key_button_new (key, _(hs_stage_label (to)), NULL);
      g_object_set_data (G_OBJECT (button), "stage", GUINT_TO_POINTER (to));
      g_signal_connect_object (button, "clicked", G_CALLBACK (stage_clicked_cb), self, G_CONNECT_SWAPPED);
      gtk_flow_box_append (self->stages, button);
      gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
      hs_spoken_name (gtk_widget_get_parent (button), _(hs_stage_label (to)));
    }
  onward = want (self, wanted);
  gtk_widget_grab_focus (onward != NULL ? onward : GTK_WIDGET (self->reason));
}

static void
hs_stage_window_dispose (GObject *object)
{
  HsStageWindow *self = HS_STAGE_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  g_clear_pointer (&self->job_id, g_free);
  g_clear_pointer (&self->number, g_free);
  g_clear_pointer (&self->place, g_free);
  G_OBJECT_CLASS (hs_stage_window_parent_class)->dispose (object);
}

static void
hs_stage_window_class_init (HsStageWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_stage_window_dispose;
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-stage-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsStageWindow, refusal);
  gtk_widget_class_bind_template_child (widget_class, HsStageWindow, reason);
  gtk_widget_class_bind_template_child (widget_class, HsStageWindow, stages);
  gtk_widget_class_bind_template_child (widget_class, HsStageWindow, reasons);
  gtk_widget_class_bind_template_child (widget_class, HsStageWindow, lead);
  gtk_widget_class_bind_template_child (widget_class, HsStageWindow, onward);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, reason_entered_cb);
  gtk_widget_class_install_action (widget_class, "stage.lead", NULL, lead_action);
  gtk_widget_class_install_action (widget_class, "stage.onward", NULL, onward_action);
  gtk_widget_class_install_action (widget_class, "stage.close", NULL, close_action);
}

static void
hs_stage_window_init (HsStageWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

HsStageWindow *
hs_stage_window_present (HsPage *page, const char *job_id, const char *number, HsStage from, HsStage wanted,
                         const char *refusal)
{
  g_autofree char *title = NULL;
  HsStageWindow *self;
  GtkRoot *root;

  g_return_val_if_fail (HS_IS_PAGE (page), NULL);
  g_return_val_if_fail (job_id != NULL && number != NULL, NULL);

  root = gtk_widget_get_root (GTK_WIDGET (page));
  self = g_object_new (HS_TYPE_STAGE_WINDOW, "transient-for", root, "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  self->job_id = g_strdup (job_id);
  self->number = g_strdup (number);
  /* Translators: the number of a job. */
  title = g_strdup_printf (_("%s: where it goes"), number);
  gtk_window_set_title (GTK_WINDOW (self), title);
  self->from = from;
  gtk_window_set_default_size (GTK_WINDOW (self), 560, refusal != NULL ? 764 : 500);
  hs_window_fit_over (GTK_WINDOW (self));
  tell (self, refusal, wanted);
  fill (self, wanted);
  offer_reasons (self);
  gtk_window_present (GTK_WINDOW (self));
  return self;
}
