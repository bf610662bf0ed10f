// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The repair and its proof: what is still to do, parts, what was disturbed, before and after. What it asks for
 * stands in a file of its own. A reading that was taken only once has its row, too. */

#include "hs-after-pane-private.h"

#include <glib/gi18n.h>

#include "hs-act-check.h"
#include "hs-choice-face.h"
#include "hs-key-button.h"
#include "hs-line-list.h"
#include "hs-pad-key.h"
#include "hs-show.h"
#include "hs-spoken.h"

G_DEFINE_FINAL_TYPE (HsAfterPane, hs_after_pane, HS_TYPE_JOB_PANE)

static const HsTongue tongue = { gettext, ngettext };

void
hs_after_pane_say (HsAfterPane *self, const char *text)
{
  hs_past_yes_say (&self->past, text);
}

gboolean
hs_after_pane_done (HsAfterPane *self, GObject *source, GAsyncResult *result, gpointer *ret_answer)
{
  g_autoptr (GError) error = NULL;

  self->busy = FALSE;
  hs_past_yes_forget (&self->past);
  if (hs_ledger_task_finish (HS_LEDGER (source), result, ret_answer, &error))
    {
      hs_after_pane_say (self, NULL);
      return TRUE;
    }
  hs_past_yes_refuse (&self->past, error);
  return FALSE;
}

/* Still to do ------------------------------------------------------------------------------------------------------ */

/* What is to be looked after stands below line by line; here is how much of it there is. */
static void
add_missing (HsAfterPane *self, const HsRepair *repair)
{
  g_autofree char *below = NULL;
  guint n_looks = 0;

  for (guint i = 0; i < repair->missing->len; i++)
    {
      const HsProveItem *item = g_ptr_array_index (repair->missing, i);
      g_autofree char *said = hs_prove_say (item, &tongue);

      n_looks += item->kind == HS_PROVE_LOOK;
      if (item->kind != HS_PROVE_LOOK)
        hs_line_list_add (self->missing, said, NULL, item->must ? "hs-caution" : NULL);
    }
  if (n_looks == 0)
    return;
  below = g_strdup_printf (ngettext ("%u line below is not looked after yet.",
                                     "%u lines below are not looked after yet.", n_looks), n_looks);
  hs_line_list_add (self->missing, below, NULL, NULL);
}

static const char *
name_figure (const HsRepair *repair, HsStage stage)
{
  HsProveStanding standing = hs_prove_standing (repair, stage);

  if (standing == HS_PROVE_OFF_ROAD)
    return _("Off the road: nothing is to be proven. F4 takes the job up again. Left to do");
  if (repair->missing->len > 0)
    return standing == HS_PROVE_PROVEN ? _("Left open") : _("Still to do before it is tested good");
  return repair->tried != NULL ? _("Nothing left to do. Tried again; times it was good") : _("Nothing left to do");
}

static void
update_missing (HsAfterPane *self, const HsRepair *repair, HsStage stage)
{
  g_autofree char *figure = NULL;

  hs_line_list_clear (self->missing);
  add_missing (self, repair);
  if (repair->missing->len > 0)
    figure = g_strdup_printf ("%u", repair->missing->len);
  else
    figure = g_strdup (repair->tried != NULL ? repair->tried : "0");
  gtk_label_set_label (self->figure_name, name_figure (repair, stage));
  gtk_label_set_label (self->figure, figure);
}

/* Looked after ----------------------------------------------------------------------------------------------------- */

static void
ticked_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsAfterPane) self = data;

  hs_after_pane_done (self, source, result, NULL);
}

static void
toggled_cb (HsAfterPane *self, GtkCheckButton *check)
{
  const char *id = g_object_get_data (G_OBJECT (check), "line");

  hs_deed_tick_look (hs_page_get_ledger (HS_PAGE (self)), id, gtk_check_button_get_active (check), ticked_cb,
                     g_object_ref (self));
}

static char *
say_look (HsAfterPane *self, const HsAfterLine *line)
{
  g_autofree char *at = NULL;

  if (line->done_at == HS_INSTANT_NONE)
    return g_strdup (hs_show_data (line->what));
  at = hs_show_clock (hs_page_get_ledger (HS_PAGE (self)), line->done_at);
  return hs_show_joined (hs_show_data (line->what), at, line->done_words != NULL ? line->done_words : "", NULL);
}

static void
add_look (HsAfterPane *self, const HsAfterLine *line)
{
  GtkWidget *check = hs_act_check_new ();
  g_autofree char *text = say_look (self, line);
  GtkWidget *label = gtk_label_new (text);

  gtk_widget_set_sensitive (check, !hs_job_pane_is_frozen (HS_JOB_PANE (self)));
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_check_button_set_child (GTK_CHECK_BUTTON (check), label);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), line->done_at != HS_INSTANT_NONE);
  gtk_widget_add_css_class (check, "hs-tickrow");
  gtk_widget_set_size_request (check, -1, 44);
  hs_spoken_name (check, text);
  g_object_set_data_full (G_OBJECT (check), "line", g_strdup (line->id), g_free);
  g_signal_connect_object (check, "toggled", G_CALLBACK (toggled_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->looks, check);
}

static void
update_looks (HsAfterPane *self, const HsRepair *repair)
{
  const char *caution = NULL;

  hs_line_list_clear (self->looks);
  hs_line_list_add (self->looks, _("Looked after before leaving"), NULL, "hs-title");
  for (guint i = 0; i < repair->looks->len; i++)
    {
      const HsAfterLine *line = g_ptr_array_index (repair->looks, i);

      add_look (self, line);
      if (line->done_at == HS_INSTANT_NONE && caution == NULL)
        caution = hs_show_data (line->caution);
    }
  if (repair->looks->len == 0)
    hs_line_list_add (self->looks, _("Nothing was disturbed yet. A part that is put in brings its list along."), NULL,
                      "hs-soft");
  gtk_label_set_label (self->caution, caution != NULL ? caution : "");
  gtk_widget_set_visible (GTK_WIDGET (self->caution), caution != NULL);
}

/* Parts ------------------------------------------------------------------------------------------------------------ */

static void
part_clicked_cb (HsAfterPane *self, GtkButton *button)
{
  g_autofree char *id = g_strdup (g_object_get_data (G_OBJECT (button), "part"));

  hs_after_ask_part (self, id);
}

static char *
dup_price (HsAfterPane *self, const HsFittedPart *part)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  g_autofree char *sum = hs_show_money (ledger, part->price_cents);
  g_autofree char *shares = hs_choice_face_dup_shares (ledger, part->cost_cents, part->price_cents, 0);
  g_autofree char *price = NULL;

  if (part->unpriced)
    return g_strdup (_("No price yet; the job is not squared up without one."));
  /* Translators: a sum of money that is asked for a part. */
  price = g_strdup_printf (_("On the bill: %s"), sum);
  return hs_show_joined (price, shares != NULL ? shares : "", NULL);
}

static void
add_part (HsAfterPane *self, const HsFittedPart *part)
{
  GtkWidget *button;
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  g_autofree char *what = hs_show_joined (part->what, part->maker != NULL ? part->maker : "",
                                          part->place != NULL ? part->place : "", NULL);
  g_autofree char *numbers = hs_show_joined (part->serial != NULL ? part->serial : "",
                                             part->date_stamp != NULL ? part->date_stamp : "",
                                             part->made != NULL ? part->made : "", NULL);
  const char *why = part->why_said != NULL ? part->why_said : _("Nobody said yet why the old one went.");
  g_autofree char *price = dup_price (self, part);
  g_autofree char *spoken = hs_show_joined (what, numbers, why, price, part->cover, NULL);

  hs_line_list_add (GTK_BOX (box), what, NULL, "hs-strong");
  if (*numbers != '\0')
    hs_line_list_add (GTK_BOX (box), numbers, NULL, NULL);
  hs_line_list_add (GTK_BOX (box), why, NULL, part->why != NULL ? NULL : "hs-caution");
  hs_line_list_add (GTK_BOX (box), price, NULL, part->unpriced ? "hs-caution" : "hs-soft");
  if (part->old_part != NULL)
    hs_line_list_add (GTK_BOX (box), hs_show_word (HS_WORDS_OLD_PART, part->old_part), NULL, NULL);
  hs_line_list_add (GTK_BOX (box), part->cover, NULL, "hs-soft");
  /* Of what is frozen there is nothing to press. */
  if (hs_job_pane_is_frozen (HS_JOB_PANE (self)))
    {
      gtk_box_append (self->parts, box);
      return;
    }
  button = gtk_button_new ();
  gtk_widget_set_margin_top (box, 8);
  gtk_widget_set_margin_bottom (box, 8);
  gtk_button_set_child (GTK_BUTTON (button), box);
  hs_spoken_name (button, spoken);
  g_object_set_data_full (G_OBJECT (button), "part", g_strdup (part->id), g_free);
  g_signal_connect_object (button, "clicked", G_CALLBACK (part_clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->parts, button);
}

static void
update_parts (HsAfterPane *self, const HsRepair *repair)
{
  hs_line_list_clear (self->parts);
  hs_line_list_add (self->parts, _("Installed"), NULL, "hs-title");
  for (guint i = 0; i < repair->parts->len; i++)
    add_part (self, g_ptr_array_index (repair->parts, i));
  if (repair->parts->len == 0)
    hs_line_list_add (self->parts, _("No part was installed."), NULL, "hs-soft");
}

static void
update_handed (HsAfterPane *self, const HsRepair *repair)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (repair->unproved_why != NULL)
    g_string_append_printf (text, _("Not proven because: %s"), repair->unproved_why);
  if (repair->safe != NULL)
    {
      g_string_append (text, text->len > 0 ? "\n" : "");
      g_string_append_printf (text, _("Safe to drive: %s"), hs_show_word (HS_WORDS_SAFE_TO_DRIVE, repair->safe));
    }
  gtk_label_set_label (self->handed, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->handed), text->len > 0);
}

/* Before and after ------------------------------------------------------------------------------------------------- */

static const HsReadingResult *
find_reading (GPtrArray *sheet, const HsReadingResult *like)
{
  for (guint i = 0; i < sheet->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (sheet, i);

      if (g_strcmp0 (result->check, like->check) == 0 && g_strcmp0 (result->place, like->place) == 0)
        return result->value_text != NULL ? result : NULL;
    }
  return NULL;
}

static void
add_change (HsAfterPane *self, const HsReadingResult *before, const HsReadingResult *after)
{
  const HsReadingResult *any = before != NULL ? before : after;
  HsChange change = { .name = hs_show_data (any->name) };

  if (before != NULL)
    {
      change.before = hs_show_data (before->value_text);
      change.before_word = hs_show_verdict (before->word);
      change.before_shape = hs_show_verdict_shape (before->verdict, before->word);
    }
  if (after != NULL)
    {
      change.after = hs_show_data (after->value_text);
      change.after_word = hs_show_verdict (after->word);
      change.after_shape = hs_show_verdict_shape (after->verdict, after->word);
    }
  hs_change_grid_append (self->changes, &change);
}

static guint
add_changes (HsAfterPane *self, const HsJobShot *shot)
{
  guint n = 0;

  for (guint i = 0; i < shot->sheets[0]->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (shot->sheets[0], i);
      const HsReadingResult *after = find_reading (shot->sheets[2], row);

      if (row->value_text == NULL && after == NULL)
        continue;
      add_change (self, row->value_text != NULL ? row : NULL, after);
      n++;
    }
  for (guint i = 0; i < shot->sheets[2]->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (shot->sheets[2], i);
      gboolean listed = FALSE;

      for (guint j = 0; j < shot->sheets[0]->len; j++)
        listed |= g_strcmp0 (row->check, ((HsReadingResult *) g_ptr_array_index (shot->sheets[0], j))->check) == 0;
      if (row->value_text == NULL || listed)
        continue;
      add_change (self, NULL, row);
      n++;
    }
  return n;
}

static void
update_changes (HsAfterPane *self, const HsJobShot *shot)
{
  GPtrArray *sentences = shot->why != NULL ? shot->why->chain->sentences : NULL;
  g_autoptr (GString) because = g_string_new (NULL);
  guint n;

  hs_change_grid_clear (self->changes);
  hs_change_grid_set_narrow (self->changes,
                             hs_page_get_narrow (HS_PAGE (self)) || hs_page_get_cramped (HS_PAGE (self)));
  n = add_changes (self, shot);
  gtk_widget_set_visible (GTK_WIDGET (self->changes), n > 0);
  gtk_widget_set_visible (GTK_WIDGET (self->changes_none), n == 0);
  for (guint i = 0; sentences != NULL && i < sentences->len; i++)
    g_string_append_printf (because, "%s%s", i > 0 ? " " : "", (const char *) g_ptr_array_index (sentences, i));
  gtk_label_set_label (self->because, because->str);
  gtk_widget_set_visible (GTK_WIDGET (self->because), because->len > 0);
}

/* (transfer full) (nullable): the line or part that has the focus, to have it again when its row was made anew. */
static char *
dup_focused (HsAfterPane *self, const char *key)
{
  GtkWidget *focus = hs_page_get_focus (HS_PAGE (self));

  return focus != NULL ? g_strdup (g_object_get_data (G_OBJECT (focus), key)) : NULL;
}

static GtkWidget *
find_row (GtkBox *box, const char *key, const char *id)
{
  GtkWidget *row = id != NULL ? gtk_widget_get_first_child (GTK_WIDGET (box)) : NULL;

  while (row != NULL && g_strcmp0 (g_object_get_data (G_OBJECT (row), key), id) != 0)
    row = gtk_widget_get_next_sibling (row);
  return row;
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsAfterPane *self = HS_AFTER_PANE (pane);
  gboolean had_focus = hs_page_get_focus (HS_PAGE (self)) != NULL;
  g_autofree char *line = dup_focused (self, "line");
  g_autofree char *part = dup_focused (self, "part");
  GtkWidget *row;

  gtk_widget_set_visible (self->frozen, hs_job_pane_is_frozen (pane));
  gtk_widget_set_visible (self->tick_key, !hs_job_pane_is_frozen (pane));
  gtk_widget_set_visible (self->remove_key, !hs_job_pane_is_frozen (pane));
  update_missing (self, shot->repair->repair, shot->view->tag->stage);
  update_looks (self, shot->repair->repair);
  update_parts (self, shot->repair->repair);
  update_handed (self, shot->repair->repair);
  update_changes (self, shot);
  hs_after_ask_update (self);
  hs_after_ask_shown (self);
  row = line != NULL ? find_row (self->looks, "line", line) : find_row (self->parts, "part", part);
  if (row != NULL)
    gtk_widget_grab_focus (row);
  else
    hs_page_keep_focus (HS_PAGE (self), had_focus, GTK_WIDGET (self));
}

/* Keys ------------------------------------------------------------------------------------------------------------- */

static void
press_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_after_ask_choose (HS_AFTER_PANE (widget), g_variant_get_uint32 (parameter));
}

/* The line that has the focus, else the first that is open. */
static void
tick (HsAfterPane *self)
{
  GtkWidget *focus = hs_page_get_focus (HS_PAGE (self));
  GtkWidget *row = focus != NULL && GTK_IS_CHECK_BUTTON (focus) ? focus : NULL;

  if (hs_job_pane_tell_frozen (HS_JOB_PANE (self)))
    return;
  for (GtkWidget *at = gtk_widget_get_first_child (GTK_WIDGET (self->looks)); row == NULL && at != NULL;
       at = gtk_widget_get_next_sibling (at))
    if (GTK_IS_CHECK_BUTTON (at) && !gtk_check_button_get_active (GTK_CHECK_BUTTON (at)))
      row = at;
  if (row == NULL)
    return;
  gtk_widget_grab_focus (row);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (row), !gtk_check_button_get_active (GTK_CHECK_BUTTON (row)));
}

static void
more_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_after_ask_turn (HS_AFTER_PANE (widget));
}

static void
tick_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  tick (HS_AFTER_PANE (widget));
}

static void
remove_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsAfterPane *self = HS_AFTER_PANE (widget);
  g_autofree char *line = dup_focused (self, "line");
  g_autofree char *part = dup_focused (self, "part");

  if (hs_job_pane_tell_frozen (HS_JOB_PANE (self)))
    return;
  if (line != NULL)
    hs_deed_remove_look (hs_page_get_ledger (HS_PAGE (self)), line, ticked_cb, g_object_ref (self));
  else if (part != NULL)
    hs_deed_remove_part (hs_page_get_ledger (HS_PAGE (self)), part, ticked_cb, g_object_ref (self));
  else
    hs_after_pane_say (self, _("Choose a line or a part first, by Tab and the arrows."));
}

static gboolean
key_cb (HsAfterPane *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (self->asks != HS_AFTER_ASK_NOTHING)
    {
      if (keyval == GDK_KEY_Escape)
        hs_after_ask_stop (self);
      else if (sign == '+' && hs_after_ask_insist (self))
        return GDK_EVENT_STOP;
      else if (sign == '+' && *gtk_editable_get_text (GTK_EDITABLE (self->entry)) == '\0')
        hs_after_ask_turn (self);
      else if (!g_ascii_isdigit (sign) || !hs_after_ask_press (self, (guint) (sign - '0')))
        return GDK_EVENT_PROPAGATE;
      return GDK_EVENT_STOP;
    }
  if (sign == '+')
    tick (self);
  else if (sign == '-')
    remove_action (GTK_WIDGET (self), NULL, NULL);
  else if (g_ascii_isdigit (sign) && hs_job_pane_tell_frozen (HS_JOB_PANE (self)))
    return GDK_EVENT_STOP;
  else if (!g_ascii_isdigit (sign) || !hs_after_ask_start (self, (guint) (sign - '0')))
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

static void
entry_activate_cb (HsAfterPane *self)
{
  hs_after_ask_take (self);
}

/* For a finger, a voice or a switch. */
static void
take_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_after_ask_take (HS_AFTER_PANE (widget));
}

static void
insist_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_after_ask_insist (HS_AFTER_PANE (widget));
}

static void
leave_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_after_ask_stop (HS_AFTER_PANE (widget));
}

static void
entry_changed_cb (HsAfterPane *self)
{
  hs_past_yes_forget (&self->past);
  hs_after_ask_note (self);
}

static void
room_changed (HsPage *page)
{
  hs_after_ask_update (HS_AFTER_PANE (page));
  if (hs_job_pane_get_shot (HS_JOB_PANE (page)) != NULL)
    update_changes (HS_AFTER_PANE (page), hs_job_pane_get_shot (HS_JOB_PANE (page)));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (HS_AFTER_PANE (page)->panes), hs_page_get_narrow (page)
                                                                                  ? GTK_ORIENTATION_VERTICAL
                                                                                  : GTK_ORIENTATION_HORIZONTAL);
}

/* Digits act as soon as it is looked at. */
static void
shown (HsPage *page)
{
  HsAfterPane *self = HS_AFTER_PANE (page);

  gtk_widget_grab_focus (self->asks == HS_AFTER_ASK_NOTHING ? GTK_WIDGET (self) : GTK_WIDGET (self->entry));
}

static void
go (HsJobPane *pane, const char *field, const char *text)
{
  hs_after_ask_go (HS_AFTER_PANE (pane), field, text);
}

static void
hs_after_pane_finalize (GObject *object)
{
  HsAfterPane *self = HS_AFTER_PANE (object);

  g_free (self->part_id);
  hs_past_yes_clear (&self->past);
  g_ptr_array_unref (self->values);
  g_clear_pointer (&self->list, hs_after_list_unref);
  G_OBJECT_CLASS (hs_after_pane_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, panes);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, facts_box);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, ask_box);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, more);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, tick_key);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, remove_key);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, frozen);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, figure_name);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, figure);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, missing);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, looks);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, parts);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, handed);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, changes);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, changes_none);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, because);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, caution);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, acts);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, asked);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, entry);
  gtk_widget_class_bind_template_child_full (widget_class, "insist", FALSE, G_STRUCT_OFFSET (HsAfterPane, past.insist));
  gtk_widget_class_bind_template_child_full (widget_class, "said", FALSE, G_STRUCT_OFFSET (HsAfterPane, past.said));
  gtk_widget_class_bind_template_callback (widget_class, entry_activate_cb);
  gtk_widget_class_bind_template_callback (widget_class, entry_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
}

static void
hs_after_pane_class_init (HsAfterPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_after_pane_finalize;
  HS_JOB_PANE_CLASS (klass)->show = show_job;
  HS_JOB_PANE_CLASS (klass)->go = go;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  HS_PAGE_CLASS (klass)->shown = shown;
  g_type_ensure (HS_TYPE_CHANGE_GRID);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-after-pane.ui");
  bind_children (widget_class);
  gtk_widget_class_install_action (widget_class, "after.press", "u", press_action);
  gtk_widget_class_install_action (widget_class, "after.more", NULL, more_action);
  gtk_widget_class_install_action (widget_class, "after.tick", NULL, tick_action);
  gtk_widget_class_install_action (widget_class, "after.take", NULL, take_action);
  gtk_widget_class_install_action (widget_class, "after.insist", NULL, insist_action);
  gtk_widget_class_install_action (widget_class, "after.leave", NULL, leave_action);
  gtk_widget_class_install_action (widget_class, "after.remove", NULL, remove_action);
}

static void
hs_after_pane_init (HsAfterPane *self)
{
  self->values = g_ptr_array_new_with_free_func (g_free);
  self->list = hs_data_load_after (NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
}
