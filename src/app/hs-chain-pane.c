// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Why it failed. The drawing has the keyboard; what is told takes the place of the papers beside it, or on a narrow
 * page of the drawing itself, until it is in the book.
 *
 *   HsJobShot ─▶ HsChainShot ─▶ faces ─▶ HsChainView
 *                            └▶ ends · sentences · questions
 *   keys ─▶ HsChainTask (HsChainEntry) ─▶ a deed ─▶ the book ─▶ HsJobShot */

#include "hs-chain-pane-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "hs-face-chain.h"
#include "hs-flow-layout.h"
#include "hs-ink.h"
#include "hs-key-button.h"
#include "hs-pad-key.h"
#include "hs-spoken.h"

#define PAGE "why"
#define FIELD "because"
#define SIDE_PX 420
#define CRAMPED_SIDE_PX 330

G_DEFINE_FINAL_TYPE (HsChainPane, hs_chain_pane, HS_TYPE_JOB_PANE)

const HsChainShot *
hs_chain_pane_get_why (HsChainPane *self)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (self));

  return shot != NULL ? shot->why : NULL;
}

static gboolean
is_asking (HsChainPane *self)
{
  return hs_chain_entry_get_task (self->entry) != NULL;
}

/* Layout. */

static void
move_child (AdwBin *from, AdwBin *to, GtkWidget *child)
{
  if (adw_bin_get_child (from) == NULL)
    return;
  g_object_ref (child);
  adw_bin_set_child (from, NULL);
  adw_bin_set_child (to, child);
  g_object_unref (child);
}

/* The drawing gets what the papers do not need. */
static int
side_px (HsChainPane *self)
{
  return (int) ((hs_page_get_cramped (HS_PAGE (self)) ? CRAMPED_SIDE_PX : SIDE_PX) * hs_ink_unit (GTK_WIDGET (self)));
}

static void
update_room (HsChainPane *self)
{
  gboolean narrow = hs_page_get_narrow (HS_PAGE (self)), asking = is_asking (self);
  GtkWidget *const empty[] = { GTK_WIDGET (self->acts_narrow), GTK_WIDGET (self->keys_narrow),
                               GTK_WIDGET (self->papers_narrow) };

  /* What holds nothing takes no gap either. */
  for (guint i = 0; i < G_N_ELEMENTS (empty); i++)
    gtk_widget_set_visible (empty[i], narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->acts_wide), !narrow);

  gtk_widget_set_visible (self->chain_side, !narrow || !asking);
  gtk_widget_set_visible (GTK_WIDGET (self->side_clamp), !narrow || asking);
  adw_clamp_set_maximum_size (self->side_clamp, narrow ? G_MAXINT : side_px (self));
  adw_clamp_set_tightening_threshold (self->side_clamp, narrow ? G_MAXINT : side_px (self));
  /* Words that wrap would let it be squeezed to a word. */
  gtk_widget_set_size_request (GTK_WIDGET (self->side_clamp), narrow ? -1 : side_px (self), -1);
  gtk_widget_set_hexpand (GTK_WIDGET (self->side_clamp), narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->keys_wide), !narrow && !asking);
  gtk_stack_set_visible_child_name (self->side, asking ? "entry" : "papers");
}

static void
room_changed (HsPage *page)
{
  HsChainPane *self = HS_CHAIN_PANE (page);
  gboolean narrow = hs_page_get_narrow (page), cramped = hs_page_get_cramped (page);

  move_child (narrow ? self->papers_wide : self->papers_narrow, narrow ? self->papers_narrow : self->papers_wide,
              self->papers);
  /* In a narrow page they scroll away with the drawing, which needs the height. */
  move_child (narrow ? self->acts_wide : self->acts_narrow, narrow ? self->acts_narrow : self->acts_wide, self->acts);
  move_child (narrow ? self->keys_wide : self->keys_narrow, narrow ? self->keys_narrow : self->keys_wide, self->keys);
  hs_key_button_set_text (self->rule_out, narrow || cramped ? _("Rule Out") : _("Rule Something Out"));
  hs_chain_pane_show_proof_keys (self, narrow || !cramped);
  update_room (self);
}

/* Asking. */

static void
note_typed (HsChainPane *self)
{
  const HsChainTask *task = hs_chain_entry_get_task (self->entry);
  g_autofree char *text = NULL;

  if (task == NULL)
    return;
  text = hs_chain_task_write (task, hs_chain_entry_get_text (self->entry));
  hs_job_pane_note (HS_JOB_PANE (self), PAGE, FIELD, text);
}

void
hs_chain_pane_open (HsChainPane *self, HsChainTask *task, const char *typed)
{
  gtk_stack_set_visible_child_name (self->side, "entry");
  gtk_widget_set_visible (GTK_WIDGET (self->side_clamp), TRUE);
  hs_chain_entry_open (self->entry, task, typed, hs_chain_pane_get_why (self));
  update_room (self);
}

void
hs_chain_pane_close (HsChainPane *self)
{
  hs_chain_entry_close (self->entry);
  hs_job_pane_forget (HS_JOB_PANE (self), PAGE);
  /* The keyboard goes to the chain before what had it is hidden, or the papers would take it and scroll. */
  gtk_widget_set_visible (self->chain_side, TRUE);
  hs_chain_view_focus (self->view);
  update_room (self);
}

static void
begin_because (HsChainPane *self, HsChainTaskKind kind, int by)
{
  const HsChainShot *why = hs_chain_pane_get_why (self);
  const HsChainFace *face = hs_chain_view_get_chosen (self->view);
  const HsChainFinding *effect;

  if (why == NULL || face == NULL)
    return;
  effect = hs_chain_find (why->chain->chain, face->finding_id);
  hs_chain_pane_open (self, hs_chain_task_new (kind, effect != NULL ? effect->id : NULL,
                                               effect != NULL ? effect->what : why->chain->words, by), NULL);
}

static void
begin_ask (HsChainPane *self)
{
  const HsChainShot *why = hs_chain_pane_get_why (self);
  const HsAnswerLine *line = why != NULL ? hs_chain_pane_next_question (why) : NULL;

  if (line != NULL)
    hs_chain_pane_open (self, hs_chain_task_new_ask (line), NULL);
}

static void
done_cb (HsChainPane *self)
{
  hs_chain_pane_write_task (self);
}

static void
left_cb (HsChainPane *self)
{
  hs_chain_pane_close (self);
}

static void
typed_cb (HsChainPane *self)
{
  note_typed (self);
}

/* Keys. */

static gboolean
writes (char sign)
{
  return sign == '\n' || g_ascii_isdigit (sign) || (sign != '\0' && strchr ("/+-*", sign) != NULL);
}

static gboolean
press_sign (HsChainPane *self, char sign)
{
  static const HsChainEnd ends[] = { HS_CHAIN_NOT_KNOWN_TOLD, 0, 0, 0, 0, 0, 0, HS_CHAIN_CURED, HS_CHAIN_CHOSEN,
                                     HS_CHAIN_OUTSIDE_TOLD };

  if (writes (sign) && hs_job_pane_tell_frozen (HS_JOB_PANE (self)))
    return TRUE;
  if (sign == '\n')
    begin_because (self, HS_CHAIN_TASK_BECAUSE, -1);
  else if (sign == '/')
    begin_because (self, HS_CHAIN_TASK_RULE_OUT, -1);
  else if (sign >= '1' && sign <= '4')
    begin_because (self, HS_CHAIN_TASK_BECAUSE, sign - '1');
  else if (g_ascii_isdigit (sign) && ends[sign - '0'] != HS_CHAIN_NO_END)
    hs_chain_pane_settle (self, ends[sign - '0']);
  else if (sign == '+')
    hs_chain_pane_call (self);
  else if (sign == '-')
    hs_chain_pane_take_back (self);
  else if (sign == '*')
    begin_ask (self);
  else
    return FALSE;
  return TRUE;
}

/* Keys that are quicker than the book wait for the chain that they are about. */
static gboolean
hold (HsChainPane *self, guint keyval)
{
  if (!self->writing && !self->stale)
    return FALSE;
  g_array_append_val (self->held, keyval);
  return TRUE;
}

/* A letter goes where the keyboard is. */
static void
type_letter (HsChainPane *self, guint keyval)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  gunichar letter = gdk_keyval_to_unicode (keyval);
  char text[7] = { 0 };
  int at;

  if (letter < 32 || letter == 127 || !GTK_IS_EDITABLE (focus))
    return;
  g_unichar_to_utf8 (letter, text);
  gtk_editable_delete_selection (GTK_EDITABLE (focus));
  at = gtk_editable_get_position (GTK_EDITABLE (focus));
  gtk_editable_insert_text (GTK_EDITABLE (focus), text, -1, &at);
  gtk_editable_set_position (GTK_EDITABLE (focus), at);
}

static void
press_held (HsChainPane *self)
{
  g_autoptr (GArray) held = self->held;

  self->held = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < held->len; i++)
    if (!hs_chain_pane_press (self, g_array_index (held, guint, i)))
      type_letter (self, g_array_index (held, guint, i));
}

gboolean
hs_chain_pane_press (HsChainPane *self, guint keyval)
{
  GtkWidget *focus;
  char sign = hs_pad_key_sign (keyval);

  g_return_val_if_fail (HS_IS_CHAIN_PANE (self), FALSE);

  if (hs_chain_pane_get_why (self) == NULL)
    return FALSE;
  if (hold (self, keyval))
    return TRUE;
  if (is_asking (self))
    return hs_chain_entry_press (self->entry, keyval);
  focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));
  if (sign == '\n' && GTK_IS_BUTTON (focus))
    return FALSE;
  if (keyval == GDK_KEY_Delete || keyval == GDK_KEY_KP_Delete)
    sign = '-';
  return press_sign (self, sign);
}

static gboolean
key_cb (HsChainPane *self, guint keyval, guint keycode, GdkModifierType modifiers)
{
  if ((modifiers & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return FALSE;
  return hs_chain_pane_press (self, keyval);
}

/* The same by pointer: the target is the key. */
static void
press_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChainPane *self = HS_CHAIN_PANE (widget);

  if (hs_chain_pane_get_why (self) != NULL && !is_asking (self))
    press_sign (self, *g_variant_get_string (parameter, NULL));
}

/* The job. */

/* What was told last is chosen, so that the next because goes under it. */
static void
choose_told (HsChainPane *self)
{
  if (self->then_finding != NULL && hs_chain_view_choose (self->view, self->then_finding))
    g_clear_pointer (&self->then_finding, g_free);
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsChainPane *self = HS_CHAIN_PANE (pane);
  g_autoptr (GPtrArray) faces = hs_face_chain (hs_page_get_ledger (HS_PAGE (self)), shot->why);

  gtk_widget_set_visible (self->frozen, hs_job_pane_is_frozen (pane));
  gtk_widget_set_visible (self->acts, !hs_job_pane_is_frozen (pane));
  gtk_widget_set_visible (self->keys, !hs_job_pane_is_frozen (pane));
  hs_chain_view_set_faces (self->view, faces);
  choose_told (self);
  hs_chain_entry_set_shot (self->entry, shot->why);
  hs_chain_pane_show_side (self, shot->why);
  self->stale = FALSE;
  if (self->held->len > 0 && !self->writing)
    press_held (self);
}

/* What was being told goes on where it was left. */
static void
go (HsJobPane *pane, const char *field, const char *text)
{
  HsChainPane *self = HS_CHAIN_PANE (pane);
  g_autofree char *typed = NULL;
  HsChainTask *task = NULL;

  if (g_strcmp0 (field, FIELD) == 0 && text != NULL && hs_chain_pane_get_why (self) != NULL)
    task = hs_chain_task_read (text, &typed);
  if (task != NULL)
    hs_chain_pane_open (self, task, typed);
  else if (is_asking (self))
    hs_chain_entry_focus (self->entry);
  else
    hs_chain_view_focus (self->view);
}

static gboolean
hs_chain_pane_focus (GtkWidget *widget, GtkDirectionType direction)
{
  HsChainPane *self = HS_CHAIN_PANE (widget);

  /* Whoever turns to this page lands on the chain, not on the first button. */
  if (gtk_widget_get_focus_child (widget) == NULL && direction == GTK_DIR_TAB_FORWARD && !is_asking (self)
      && hs_chain_view_focus (self->view))
    return TRUE;
  return GTK_WIDGET_CLASS (hs_chain_pane_parent_class)->focus (widget, direction);
}

static void
hs_chain_pane_finalize (GObject *object)
{
  HsChainPane *self = HS_CHAIN_PANE (object);

  g_free (self->then_finding);
  g_array_unref (self->held);
  G_OBJECT_CLASS (hs_chain_pane_parent_class)->finalize (object);
}

static void
hs_chain_pane_class_init (HsChainPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_chain_pane_finalize;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  HS_JOB_PANE_CLASS (klass)->show = show_job;
  HS_JOB_PANE_CLASS (klass)->go = go;
  widget_class->focus = hs_chain_pane_focus;
  g_type_ensure (HS_TYPE_CHAIN_VIEW);
  g_type_ensure (HS_TYPE_CHAIN_ENTRY);
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-chain-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, panes);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, chain_side);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, acts_wide);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, acts_narrow);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, acts);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, frozen);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, rule_out);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, view);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, side_clamp);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, side);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, entry_bin);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, entry);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, papers_wide);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, papers_narrow);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, papers);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, keys_wide);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, keys_narrow);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, keys);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, ends_title);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, ends_word);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, ends);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, not_yet);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, told_count);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, told);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, ask_button);
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, asked);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, done_cb);
  gtk_widget_class_bind_template_callback (widget_class, left_cb);
  gtk_widget_class_bind_template_callback (widget_class, typed_cb);
  gtk_widget_class_install_action (widget_class, "chain.press", "s", press_action);
}

static void
hs_chain_pane_init (HsChainPane *self)
{
  self->held = g_array_new (FALSE, FALSE, sizeof (guint));
  gtk_widget_init_template (GTK_WIDGET (self));
  /* Translators: what a screen reader calls this part of the window. */
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Why-chain"), -1);
  hs_spoken_stack (self->side);
  hs_chain_pane_fill_keys (self);
  update_room (self);
}
