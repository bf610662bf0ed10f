// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Readings with one hand.
 *
 *   key ─▶ text ─▶ value shown at once (core) ─▶ hs_ask_judge ─▶ verdict while typing
 *            │                                       Enter ─▶ hs_deed_add_reading ─▶ next line
 *            └─▶ HsDraft (disk)
 *
 * A line is left only when the book has what was typed. What the book refuses stays in the field with the reason
 * beside it. */

#include "hs-findings-private.h"

#include <glib/gi18n.h>
#include <locale.h>

#include "hs-act-row.h"
#include "hs-face.h"
#include "hs-figure-field.h"
#include "hs-flow-layout.h"
#include "hs-group-keys.h"
#include "hs-key-button.h"
#include "hs-show.h"
#include "hs-spoken.h"

G_DEFINE_FINAL_TYPE (HsFindings, hs_findings, HS_TYPE_PAGE)

const HsJobShot *
hs_findings_get_shot (HsFindings *self)
{
  return hs_snapshot_get (self->snapshot);
}

GPtrArray *
hs_findings_get_sheet (HsFindings *self)
{
  const HsJobShot *shot = hs_findings_get_shot (self);

  return shot != NULL ? shot->sheets[self->phase] : NULL;
}

const HsReadingResult *
hs_findings_get_result (HsFindings *self)
{
  GPtrArray *sheet = hs_findings_get_sheet (self);

  return sheet != NULL && self->line < sheet->len ? g_ptr_array_index (sheet, self->line) : NULL;
}

const HsCheck *
hs_findings_check_of (HsFindings *self, const HsReadingResult *result)
{
  HsChecks *checks = hs_ledger_get_checks (hs_page_get_ledger (HS_PAGE (self)));

  return checks != NULL && result != NULL ? hs_checks_lookup (checks, result->check) : NULL;
}

const HsCheck *
hs_findings_get_check (HsFindings *self)
{
  return hs_findings_check_of (self, hs_findings_get_result (self));
}

char *
hs_findings_dup_field (HsFindings *self)
{
  const HsReadingResult *result = hs_findings_get_result (self);

  if (result == NULL)
    return NULL;
  return self->phase == 0 ? g_strdup (result->check)
                          : g_strdup_printf ("%s/%s", result->check, hs_ask_phases[self->phase]);
}

const char *
hs_findings_get_text (HsFindings *self)
{
  return self->text->str;
}

const char *
hs_findings_get_phase (HsFindings *self)
{
  g_return_val_if_fail (HS_IS_FINDINGS (self), NULL);

  return hs_ask_phases[self->phase];
}

static void
note_draft (HsFindings *self)
{
  g_autofree char *field = hs_findings_dup_field (self);

  if (self->draft != NULL && self->job_id != NULL && field != NULL)
    hs_draft_note (self->draft, self->job_id, "findings", field, self->text->str);
}

/* The sheet. */

static void
update_progress (HsFindings *self)
{
  GPtrArray *sheet = hs_findings_get_sheet (self);
  const HsJobShot *shot = hs_findings_get_shot (self);
  HsChecks *checks = hs_ledger_get_checks (hs_page_get_ledger (HS_PAGE (self)));
  const HsCheckGroup *group = NULL;
  guint n = sheet != NULL ? sheet->len : 0;
  g_autofree char *text = NULL;

  if (shot != NULL && shot->view->group != NULL && checks != NULL)
    group = hs_checks_lookup_group (checks, shot->view->group);
  if (hs_page_get_narrow (HS_PAGE (self)))
    /* Translators: the line, and how many lines there are. */
    text = g_strdup_printf (_("%u of %u"), self->line + 1, n);
  else
    /* Translators: complaint group, then the line and how many lines there are. */
    text = g_strdup_printf (_("%s · %u of %u"), group != NULL ? hs_show_data (group->name) : _("Readings"),
                            self->line + 1, n);
  gtk_label_set_label (self->progress, text);
}

static void
scroll_to_line (HsFindings *self)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->lines, (int) self->line);
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (self->lines_scroll);
  graphene_rect_t box;
  double beside;

  gtk_list_box_select_row (self->lines, row);
  if (row == NULL || !gtk_widget_compute_bounds (GTK_WIDGET (row), GTK_WIDGET (self->lines), &box)
      || box.size.height <= 0)
    return;
  /* With its neighbors where there is room for them. */
  beside = CLAMP ((gtk_adjustment_get_page_size (adjustment) - box.size.height) / 2, 0, box.size.height);
  gtk_adjustment_clamp_page (adjustment, box.origin.y - beside, box.origin.y + box.size.height + beside);
}

static gboolean
scroll_idle_cb (gpointer data)
{
  HsFindings *self = data;

  self->scroll_idle = 0;
  scroll_to_line (self);
  return G_SOURCE_REMOVE;
}

/* What the list has room for is known only once it is laid out. */
static void
scroll_cb (HsFindings *self)
{
  if (self->scroll_idle == 0)
    self->scroll_idle = g_idle_add (scroll_idle_cb, self);
}

static void
set_line (HsFindings *self, guint index)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->lines, (int) index);
  const HsReadingResult *result = g_ptr_array_index (hs_findings_get_sheet (self), index);
  HsReadingLine *line = HS_READING_LINE (gtk_list_box_row_get_child (row));
  gboolean is_best = result->value_text == NULL && hs_findings_is_best (self, result);
  g_autofree char *best = is_best ? hs_findings_dup_best_minutes (self) : NULL;
  gboolean is_read = result->value_text != NULL;
  const char *word = is_read && result->word != NULL ? hs_show_verdict (result->word) : best != NULL ? best : "";
  g_autofree char *say = g_strdup_printf ("%u, %s, %s %s", index + 1, hs_show_data (result->name),
                                          is_read ? hs_show_data (result->value_text) : _("not read yet"), word);

  hs_reading_line_set_narrow (line, hs_page_get_narrow (HS_PAGE (self)));
  hs_reading_line_set_slim (line, hs_findings_is_slim (self));
  hs_face_reading (line, index + 1, result, hs_findings_check_of (self, result), index == self->line, best);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
}

/* Once a group is chosen its button is gone; the keys that follow belong to the field. */
static void
show_pane (HsFindings *self, const char *pane)
{
  GtkWidget *focus = gtk_widget_get_focus_child (GTK_WIDGET (self->stack));
  gboolean turned = g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), pane) != 0;

  gtk_stack_set_visible_child_name (self->stack, pane);
  if (turned && focus != NULL)
    hs_findings_focus (self);
}

void
hs_findings_update_lines (HsFindings *self)
{
  GPtrArray *sheet = hs_findings_get_sheet (self);
  guint n = sheet != NULL ? sheet->len : 0;
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->lines, (int) n)) != NULL)
    gtk_list_box_remove (self->lines, GTK_WIDGET (row));
  for (guint i = 0; i < n; i++)
    {
      if (gtk_list_box_get_row_at_index (self->lines, (int) i) == NULL)
        {
          GtkWidget *item = hs_act_row_new ();

          gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (item), hs_reading_line_new ());
          gtk_list_box_append (self->lines, item);
        }
      set_line (self, i);
    }
  show_pane (self, hs_findings_is_rolling (self) ? "rolling" : n > 0 && !self->adds_symptom ? "sheet" : "groups");
  update_progress (self);
  scroll_to_line (self);
}

void
hs_findings_text_changed (HsFindings *self)
{
  g_autofree char *told = hs_findings_dup_told (self);
  g_autofree char *keyed = hs_findings_dup_keyed (self, NULL);

  g_clear_pointer (&self->trouble, g_free);
  hs_findings_forget_doubt (self);
  note_draft (self);
  if (hs_findings_is_typed_well (self))
    hs_question_ask (self->judge, g_variant_new ("(ssssms)", self->job_id, hs_ask_phases[self->phase],
                                                 hs_findings_get_result (self)->check, keyed, told));
  else
    hs_question_forget (self->judge);
  hs_findings_update_entry (self);
  hs_findings_show_field (self);
}

void
hs_findings_go_to_line (HsFindings *self, guint line)
{
  self->line = line;
  self->rests = FALSE;
  self->follows = FALSE;
  self->asks_why = FALSE;
  self->asked = NULL;
  hs_findings_forget_told (self, FALSE);
  g_string_truncate (self->text, 0);
  hs_findings_text_changed (self);
  hs_findings_update_lines (self);
}

void
hs_findings_rest_at (HsFindings *self, guint line)
{
  hs_findings_go_to_line (self, line);
  self->rests = TRUE;
  hs_findings_show_choices (self);
}

void
hs_findings_set_phase (HsFindings *self, guint phase)
{
  guint line;

  if (phase != self->phase)
    hs_findings_forget_told (self, TRUE);
  self->phase = phase;
  gtk_toggle_button_set_active (self->phase_buttons[phase], TRUE);
  hs_findings_rest_at (self, hs_findings_to_do (self, FALSE, &line) ? line : 0);
}

static gboolean
is_in_findings (HsFindings *self, GtkWidget *focus)
{
  return focus == NULL || focus == self->field || focus == self->rolling
         || gtk_widget_is_ancestor (focus, GTK_WIDGET (self->lines))
         || gtk_widget_is_ancestor (focus, self->field);
}

static gboolean
key_cb (HsFindings *self, guint keyval, guint keycode, GdkModifierType state)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (GTK_WIDGET (self)));

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (is_in_findings (self, focus) && hs_findings_holds (self, keyval))
    return GDK_EVENT_STOP;
  if (hs_findings_press_symptom (self, keyval))
    return GDK_EVENT_STOP;
  if (focus == hs_findings_get_keyboard (self) && hs_findings_press_arrow (self, keyval))
    return GDK_EVENT_STOP;
  /* Enter on a button is the button's. */
  if ((keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter) && !is_in_findings (self, focus))
    return GDK_EVENT_PROPAGATE;
  if (!hs_findings_press (self, keyval))
    return GDK_EVENT_PROPAGATE;
  /* Also when a tab or a button had the focus: the Enter that follows belongs to the figure. */
  if (hs_findings_get_result (self) != NULL && focus != hs_findings_get_keyboard (self))
    gtk_widget_grab_focus (hs_findings_get_keyboard (self));
  return GDK_EVENT_STOP;
}

static void
pad_key_cb (HsFindings *self, const char *key)
{
  hs_findings_press (self, gdk_keyval_from_name (key));
}

static void
line_activated_cb (HsFindings *self, GtkListBoxRow *row)
{
  hs_findings_go_to_line (self, (guint) gtk_list_box_row_get_index (row));
  gtk_widget_grab_focus (self->field);
}

static void
phase_toggled_cb (HsFindings *self, GtkToggleButton *button)
{
  if (!gtk_toggle_button_get_active (button))
    return;
  for (guint i = 0; i < G_N_ELEMENTS (self->phase_buttons); i++)
    if (self->phase_buttons[i] == button && self->phase != i)
      hs_findings_set_phase (self, i);
}

static void
group_clicked_cb (HsFindings *self, GtkButton *button)
{
  hs_findings_press_group (self, hs_group_keys_get_nth (button));
}

static void
shown (HsPage *page)
{
  hs_findings_focus (HS_FINDINGS (page));
}

void
hs_findings_focus (HsFindings *self)
{
  g_return_if_fail (HS_IS_FINDINGS (self));

  if (hs_findings_get_result (self) != NULL)
    gtk_widget_grab_focus (hs_findings_get_keyboard (self));
  else
    gtk_widget_child_focus (GTK_WIDGET (self->groups), GTK_DIR_TAB_FORWARD);
}

void
hs_findings_set_draft (HsFindings *self, HsDraft *draft)
{
  g_return_if_fail (HS_IS_FINDINGS (self));

  g_set_object (&self->draft, draft);
}

void
hs_findings_set_job (HsFindings *self, const char *job_id, HsSnapshot *snapshot)
{
  g_return_if_fail (HS_IS_FINDINGS (self));

  if (snapshot != NULL)
    hs_snapshot_ref (snapshot);
  g_clear_pointer (&self->snapshot, hs_snapshot_unref);
  self->snapshot = snapshot;
  g_free (self->job_id);
  self->job_id = g_strdup (job_id);
  gtk_widget_set_visible (self->frozen, hs_findings_is_frozen (self));
  gtk_widget_set_visible (GTK_WIDGET (self->pad),
                          hs_page_get_narrow (HS_PAGE (self)) && !hs_findings_is_frozen (self));
  hs_group_keys_fill (self->groups, hs_ledger_get_checks (hs_page_get_ledger (HS_PAGE (self))),
                      G_CALLBACK (group_clicked_cb), G_OBJECT (self));
  hs_findings_update_lines (self);
  hs_findings_take_sheet (self);
  hs_findings_take_stored (self);
  hs_findings_update_entry (self);
  hs_findings_update_next (self, TRUE);
}

static gboolean
find_field (HsFindings *self, const char *field)
{
  g_auto (GStrv) parts = g_strsplit (field, "/", 2);
  GPtrArray *sheet;
  guint phase = 0;

  for (guint i = 0; parts[1] != NULL && hs_ask_phases[i] != NULL; i++)
    if (g_str_equal (hs_ask_phases[i], parts[1]))
      phase = i;
  hs_findings_set_phase (self, phase);
  sheet = hs_findings_get_sheet (self);
  for (guint i = 0; sheet != NULL && i < sheet->len; i++)
    if (g_str_equal (((const HsReadingResult *) g_ptr_array_index (sheet, i))->check, parts[0]))
      {
        hs_findings_go_to_line (self, i);
        return TRUE;
      }
  return FALSE;
}

/* Without a field: the first line that nobody has read. */
static void
go_to_first_open (HsFindings *self)
{
  GPtrArray *sheet = hs_findings_get_sheet (self);
  guint line = 0;

  while (sheet != NULL && line + 1 < sheet->len
         && ((const HsReadingResult *) g_ptr_array_index (sheet, line))->value_text != NULL)
    line++;
  hs_findings_rest_at (self, line);
}

void
hs_findings_go (HsFindings *self, const char *field, const char *text)
{
  g_return_if_fail (HS_IS_FINDINGS (self));

  if (field == NULL || !find_field (self, field))
    {
      go_to_first_open (self);
      return;
    }
  g_string_assign (self->text, text != NULL ? text : "");
  hs_findings_text_changed (self);
}

void
hs_findings_go_after (HsFindings *self)
{
  guint line;

  g_return_if_fail (HS_IS_FINDINGS (self));

  hs_findings_set_phase (self, 2);
  if (!hs_findings_to_do (self, FALSE, &line))
    go_to_first_open (self);
}

static void
hs_findings_constructed (GObject *object)
{
  HsFindings *self = HS_FINDINGS (object);

  G_OBJECT_CLASS (hs_findings_parent_class)->constructed (object);
  self->judge = hs_page_ask (HS_PAGE (self), hs_ask_judge, (GDestroyNotify) hs_reading_result_free,
                             G_CALLBACK (hs_findings_update_entry));
  hs_findings_room_changed (HS_PAGE (self));
}

static void
hs_findings_finalize (GObject *object)
{
  HsFindings *self = HS_FINDINGS (object);

  g_clear_handle_id (&self->scroll_idle, g_source_remove);
  g_clear_object (&self->draft);
  g_clear_pointer (&self->snapshot, hs_snapshot_unref);
  g_free (self->job_id);
  g_free (self->trouble);
  hs_findings_forget_doubt (self);
  g_string_free (self->lost, TRUE);
  g_free (self->symptom);
  g_free (self->stored_id);
  g_string_free (self->text, TRUE);
  g_array_unref (self->waiting);
  g_string_free (self->answer, TRUE);
  g_hash_table_unref (self->told);
  G_OBJECT_CLASS (hs_findings_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HsFindings, panes);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, sheet_pane);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, entry_bin);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, entry_scroll);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, entry_pane);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, before_button);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, during_button);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, after_button);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, progress);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, lines);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, lines_scroll);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, frozen);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, stack);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, groups);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, name);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, typed);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, entry_row);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, field);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, figure);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, unit);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, verdict_box);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, verdict);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, shape_about);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, limit);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, note);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, details);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, gauge);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, source);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, caution);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, advice);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, next_wide);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, next_narrow);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, next_box);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, next);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, groups_title);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, groups_about);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, then);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, how);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, pad);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, choices);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, choices_title);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, choices_about);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, choices_box);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, best_button);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, symptom_button);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, rolling);
  gtk_widget_class_bind_template_child (widget_class, HsFindings, rolling_line);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, pad_key_cb);
  gtk_widget_class_bind_template_callback (widget_class, line_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, phase_toggled_cb);
  gtk_widget_class_bind_template_callback (widget_class, hs_findings_typed_cb);
  gtk_widget_class_bind_template_callback (widget_class, hs_findings_turn_symptom);
  gtk_widget_class_bind_template_callback (widget_class, hs_findings_follow_best_cb);
  gtk_widget_class_bind_template_callback (widget_class, hs_findings_check_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, hs_findings_cause_chosen_cb);
}

static void
hs_findings_class_init (HsFindingsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = hs_findings_constructed;
  G_OBJECT_CLASS (klass)->finalize = hs_findings_finalize;
  HS_PAGE_CLASS (klass)->room_changed = hs_findings_room_changed;
  HS_PAGE_CLASS (klass)->shown = shown;
  g_type_ensure (HS_TYPE_FIGURE_FIELD);
  g_type_ensure (HS_TYPE_GAUGE);
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_NEXT_PANE);
  g_type_ensure (HS_TYPE_NUMBER_PAD);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_VERDICT_LABEL);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-findings.ui");
  bind_children (widget_class);
}

static void
hs_findings_init (HsFindings *self)
{
  self->text = g_string_new (NULL);
  self->lost = g_string_new (NULL);
  self->waiting = g_array_new (FALSE, FALSE, sizeof (guint));
  self->answer = g_string_new (NULL);
  /* Where the owner's own region counts in Fahrenheit, so does the thermometer. */
  self->fahrenheit = strstr (setlocale (LC_ALL, NULL), "_US") != NULL;
  self->told = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);
  gtk_widget_init_template (GTK_WIDGET (self));
  /* Translators: what a screen reader calls this part of the window. */
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Measuring"), -1);
  hs_spoken_stack (self->stack);
  hs_findings_set_up_room (self);
  g_signal_connect_object (gtk_scrolled_window_get_vadjustment (self->lines_scroll), "changed",
                           G_CALLBACK (scroll_cb), self, G_CONNECT_SWAPPED);
  self->phase_buttons[0] = self->before_button;
  self->phase_buttons[1] = self->during_button;
  self->phase_buttons[2] = self->after_button;
  hs_key_button_set_row (self->best_button);
  hs_key_button_set_wraps (self->best_button, TRUE);
  hs_key_button_set_wraps (self->symptom_button, TRUE);
}
