// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A job's page. One question reads the whole job; its answer goes to the five tabs, so that they always agree.
 *
 *   hs_ask_job ─▶ HsJobShot ─▶ head · Call · Findings · Choices · Bill · Before and after */

#include "hs-job-page.h"

#include <glib/gi18n.h>

#include "hs-ask.h"
#include "hs-call-form.h"
#include "hs-change-grid.h"
#include "hs-chip.h"
#include "hs-glyph.h"
#include "hs-key-button.h"
#include "hs-key-row.h"
#include "hs-mover.h"
#include "hs-show.h"
#include "hs-stage-window.h"
#include "hs-window.h"

struct _HsJobPage
{
  HsPage parent_instance;

  GtkWidget *head;
  HsGlyph *glyph;
  HsPlateChip *plate;
  GtkLabel *words;
  GtkLabel *vehicle;
  HsKeyButton *stage;
  GtkStack *stack;
  AdwBin *call_bin;
  AdwBin *findings_bin;
  GtkWidget *pad_bar;
  HsKeyRow *pad_keys;
  GtkBox *choices;
  GtkBox *bill;
  HsChangeGrid *changes;
  GtkLabel *changes_none;
  GtkLabel *because;

  HsCallForm *call;
  HsFindings *findings;
  HsDraft *draft;
  HsQuestion *ask;
  char *job_id;
  char *go_page;
  char *go_field;
  char *go_text;
  gboolean gone;
};

G_DEFINE_FINAL_TYPE (HsJobPage, hs_job_page, HS_TYPE_PAGE)

static const HsJobShot *
get_shot (HsJobPage *self)
{
  return hs_question_get (self->ask);
}

/* "55 Ah, flooded, 29 months", as far as it is known. */
static char *
dup_battery_text (const HsBatteryFact *fact)
{
  g_autofree char *ah = fact->ah > 0 ? g_strdup_printf (_("%g Ah"), fact->ah) : g_strdup ("");
  g_autofree char *months = hs_show_months (fact->age_months);

  return hs_show_joined (ah, hs_show_word (HS_WORDS_BATTERY_KIND, fact->kind), months, NULL);
}

static void
update_head (HsJobPage *self, const HsJobShot *shot)
{
  const HsBoardRow *tag = shot->view->tag;
  g_autofree char *words = hs_show_quoted (tag->words);
  g_autofree char *battery = shot->battery != NULL ? dup_battery_text (shot->battery) : g_strdup ("");
  g_autofree char *vehicle = NULL;
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  vehicle = hs_show_joined (tag->vehicle != NULL ? tag->vehicle : "", tag->customer != NULL ? tag->customer : "",
                            battery, tag->high_voltage ? _("high voltage") : "", NULL);
  hs_glyph_set_name (self->glyph, hs_stage_id (tag->stage));
  hs_chip_set_text (HS_CHIP (self->plate), tag->plate);
  gtk_label_set_label (self->words, words);
  gtk_label_set_label (self->vehicle, vehicle);
  hs_key_button_set_text (self->stage, _(hs_stage_label (tag->stage)));
  if (HS_IS_WINDOW (root))
    hs_window_set_job_title (HS_WINDOW (root), tag->number);
}

/* Plain lines. */

static void
clear_box (GtkBox *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

static void
add_line (GtkBox *box, const char *text, const char *figure, const char *css)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16), *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (line), label);
  if (css != NULL)
    gtk_widget_add_css_class (label, css);
  if (figure != NULL)
    {
      GtkWidget *sum = gtk_label_new (figure);

      gtk_widget_add_css_class (sum, "hs-sum");
      gtk_widget_set_valign (sum, GTK_ALIGN_BASELINE);
      gtk_box_append (GTK_BOX (line), sum);
    }
  gtk_box_append (box, line);
}

static void
add_lines (GtkBox *box, const char *heading, GPtrArray *texts, const char *none)
{
  add_line (box, heading, NULL, "hs-title");
  for (guint i = 0; texts != NULL && i < texts->len; i++)
    add_line (box, g_ptr_array_index (texts, i), NULL, NULL);
  if (texts == NULL || texts->len == 0)
    add_line (box, none, NULL, "hs-soft");
}

static void
update_choices (HsJobPage *self, const HsJobView *view)
{
  clear_box (self->choices);
  add_lines (self->choices, _("Told and picked"), view->advice, _("Nothing was recommended yet."));
  add_lines (self->choices, _("Go-ahead"), view->go_aheads, _("No go-ahead yet."));
}

static void
add_sum (HsJobPage *self, const char *text, gint64 cents)
{
  g_autofree char *figure = hs_show_money (hs_page_get_ledger (HS_PAGE (self)), cents);

  add_line (self->bill, text, figure, "hs-strong");
}

static void
update_bill (HsJobPage *self, const HsJobView *view)
{
  gint64 total = view->net_cents + view->tax_cents;

  clear_box (self->bill);
  add_line (self->bill, _("Lines"), NULL, "hs-title");
  for (guint i = 0; view->lines != NULL && i < view->lines->len; i++)
    {
      g_auto (GStrv) parts = g_strsplit (g_ptr_array_index (view->lines, i), "\t", 2);

      add_line (self->bill, parts[0], parts[1], NULL);
    }
  if (view->lines == NULL || view->lines->len == 0)
    add_line (self->bill, _("Nothing is charged yet."), NULL, "hs-soft");
  add_sum (self, _("Net"), view->net_cents);
  add_sum (self, _("Tax"), view->tax_cents);
  add_sum (self, _("Total"), total);
  add_sum (self, _("Paid"), view->paid_cents);
  add_sum (self, _("To pay"), total - view->paid_cents);
  add_lines (self->bill, _("Installed"), view->installed, _("No part was installed."));
}

/* Before and after. */

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
add_change (HsJobPage *self, const HsReadingResult *before, const HsReadingResult *after)
{
  const HsReadingResult *any = before != NULL ? before : after;
  HsChange change = { .name = any->name };

  if (before != NULL)
    {
      change.before = before->value_text;
      change.before_word = before->word;
      change.before_shape = hs_show_verdict_shape (before->verdict, before->word);
    }
  if (after != NULL)
    {
      change.after = after->value_text;
      change.after_word = after->word;
      change.after_shape = hs_show_verdict_shape (after->verdict, after->word);
    }
  hs_change_grid_append (self->changes, &change);
}

static guint
add_changes (HsJobPage *self, const HsJobShot *shot)
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
update_changes (HsJobPage *self, const HsJobShot *shot)
{
  g_autoptr (GString) because = g_string_new (NULL);
  guint n;

  hs_change_grid_clear (self->changes);
  hs_change_grid_set_narrow (self->changes, hs_page_get_narrow (HS_PAGE (self)));
  n = add_changes (self, shot);
  gtk_widget_set_visible (GTK_WIDGET (self->changes), n > 0);
  gtk_widget_set_visible (GTK_WIDGET (self->changes_none), n == 0);
  for (guint i = 0; shot->view->because != NULL && i < shot->view->because->len; i++)
    g_string_append_printf (because, "%s%s", i > 0 ? "\n" : "",
                            (const char *) g_ptr_array_index (shot->view->because, i));
  gtk_label_set_label (self->because, because->str);
  gtk_widget_set_visible (GTK_WIDGET (self->because), because->len > 0);
}

static void
take_up_place (HsJobPage *self)
{
  if (self->gone)
    return;
  self->gone = TRUE;
  if (self->go_page != NULL && gtk_stack_get_child_by_name (self->stack, self->go_page) != NULL)
    gtk_stack_set_visible_child_name (self->stack, self->go_page);
  if (g_strcmp0 (self->go_page, "call") == 0)
    hs_call_form_go (self->call, self->go_field, self->go_text);
  else
    hs_findings_go (self->findings, g_strcmp0 (self->go_page, "findings") == 0 ? self->go_field : NULL, self->go_text);
  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "findings") == 0)
    hs_findings_focus (self->findings);
}

static void
answered_cb (HsJobPage *self)
{
  const HsJobShot *shot = get_shot (self);

  if (shot == NULL)
    {
      if (hs_question_get_trouble (self->ask) != NULL)
        hs_page_tell (HS_PAGE (self), hs_question_get_trouble (self->ask));
      return;
    }
  update_head (self, shot);
  gtk_widget_set_sensitive (GTK_WIDGET (self->call), TRUE);
  hs_call_form_set_job (self->call, hs_question_get_snapshot (self->ask));
  hs_findings_set_job (self->findings, self->job_id, hs_question_get_snapshot (self->ask));
  update_choices (self, shot->view);
  update_bill (self, shot->view);
  update_changes (self, shot);
  take_up_place (self);
}

/* A tab that was left stays the place of "Where was I" until something is typed elsewhere. */
static void
leave (HsJobPage *self)
{
  g_autofree char *field = NULL, *left = NULL;

  if (!self->gone || self->draft == NULL || g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "findings") != 0)
    return;
  field = hs_findings_dup_field (self->findings);
  if (field == NULL || *hs_findings_get_text (self->findings) != '\0')
    return;
  left = g_strconcat (HS_DRAFT_LEFT, field, NULL);
  hs_draft_note (self->draft, self->job_id, "findings", left, "");
  hs_draft_flush (self->draft);
}

static void
unmap_cb (HsJobPage *self)
{
  leave (self);
}

static void
stages_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);
  const HsJobShot *shot = get_shot (self);
  HsStage next;

  if (shot == NULL)
    return;
  next = shot->view->tag->stage;
  hs_stage_next (shot->view->tag->stage, &next);
  hs_stage_window_present (HS_PAGE (self), self->job_id, shot->view->tag->number, shot->view->tag->stage, next, NULL);
}

static void
next_stage_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobPage *self = HS_JOB_PAGE (widget);
  const HsJobShot *shot = get_shot (self);

  if (shot != NULL)
    hs_mover_next (HS_PAGE (self), self->job_id, shot->view->tag->number, shot->view->tag->stage);
}

static void
room_changed (HsPage *page)
{
  HsJobPage *self = HS_JOB_PAGE (page);

  gtk_widget_set_visible (self->head, !hs_page_get_narrow (page));
  /* A narrow page has its keys as buttons; a cramped one needs the height. */
  gtk_widget_set_visible (self->pad_bar, !hs_page_get_narrow (page) && !hs_page_get_cramped (page));
  if (self->ask != NULL && get_shot (self) != NULL)
    update_changes (self, get_shot (self));
}

/* What the number pad does over the readings. */
static void
set_pad_keys (HsJobPage *self)
{
  const HsKeyHint hints[] = {
    { "0–9", _("value"), NULL },          { "Enter", _("store, next"), NULL }, { "/", _("over range"), NULL },
    { "*", _("not measured"), NULL },     { "−", _("back"), NULL },            { "+", _("before / after"), NULL },
    { ".", _("own limit"), NULL },        { "=", _("work it out"), "win.work-out" },
  };

  hs_key_row_set (self->pad_keys, hints, G_N_ELEMENTS (hints));
}

static void
add_tabs (HsJobPage *self)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));

  self->call = g_object_new (HS_TYPE_CALL_FORM, "ledger", ledger, NULL);
  self->findings = g_object_new (HS_TYPE_FINDINGS, "ledger", ledger, NULL);
  /* Nothing is typed over a job that is not read yet: blank fields would be taken for its own. */
  gtk_widget_set_sensitive (GTK_WIDGET (self->call), FALSE);
  adw_bin_set_child (self->call_bin, GTK_WIDGET (self->call));
  adw_bin_set_child (self->findings_bin, GTK_WIDGET (self->findings));
  for (guint i = 0; i < 2; i++)
    {
      GtkWidget *tab = i == 0 ? GTK_WIDGET (self->call) : GTK_WIDGET (self->findings);

      g_object_bind_property (self, "narrow", tab, "narrow", G_BINDING_SYNC_CREATE);
      g_object_bind_property (self, "cramped", tab, "cramped", G_BINDING_SYNC_CREATE);
    }
}

static void
hs_job_page_constructed (GObject *object)
{
  HsJobPage *self = HS_JOB_PAGE (object);

  G_OBJECT_CLASS (hs_job_page_parent_class)->constructed (object);
  add_tabs (self);
  set_pad_keys (self);
  self->ask = hs_page_ask (HS_PAGE (self), hs_ask_job, (GDestroyNotify) hs_job_shot_free, G_CALLBACK (answered_cb));
  g_signal_connect (self, "unmap", G_CALLBACK (unmap_cb), NULL);
}

static void
hs_job_page_finalize (GObject *object)
{
  HsJobPage *self = HS_JOB_PAGE (object);

  g_clear_object (&self->draft);
  g_free (self->job_id);
  g_free (self->go_page);
  g_free (self->go_field);
  g_free (self->go_text);
  G_OBJECT_CLASS (hs_job_page_parent_class)->finalize (object);
}

static void
hs_job_page_class_init (HsJobPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = hs_job_page_constructed;
  G_OBJECT_CLASS (klass)->finalize = hs_job_page_finalize;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  g_type_ensure (HS_TYPE_GLYPH);
  g_type_ensure (HS_TYPE_PLATE_CHIP);
  g_type_ensure (HS_TYPE_CHANGE_GRID);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_KEY_ROW);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-job-page.ui");
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, head);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, glyph);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, plate);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, words);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, vehicle);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, stage);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, stack);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, call_bin);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, findings_bin);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, pad_bar);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, pad_keys);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, choices);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, bill);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, changes);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, changes_none);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, because);
  gtk_widget_class_install_action (widget_class, "page.next-stage", NULL, next_stage_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "win.back", NULL);
  gtk_widget_class_install_action (widget_class, "page.stages", NULL, stages_action);
}

static void
hs_job_page_init (HsJobPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
hs_job_page_new (HsLedger *ledger, HsDraft *draft, const char *job_id)
{
  HsJobPage *self;

  g_return_val_if_fail (job_id != NULL, NULL);

  self = g_object_new (HS_TYPE_JOB_PAGE, "ledger", ledger, NULL);
  self->job_id = g_strdup (job_id);
  g_set_object (&self->draft, draft);
  hs_findings_set_draft (self->findings, draft);
  hs_call_form_set_draft (self->call, draft);
  hs_question_ask (self->ask, g_variant_new ("(s)", job_id));
  return GTK_WIDGET (self);
}

GtkStack *
hs_job_page_get_stack (HsJobPage *self)
{
  g_return_val_if_fail (HS_IS_JOB_PAGE (self), NULL);

  return self->stack;
}

void
hs_job_page_go (HsJobPage *self, const char *page_name, const char *field, const char *text)
{
  g_return_if_fail (HS_IS_JOB_PAGE (self));

  if (field != NULL && g_str_has_prefix (field, HS_DRAFT_LEFT))
    field += strlen (HS_DRAFT_LEFT);
  self->go_page = g_strdup (page_name);
  self->go_field = g_strdup (field);
  self->go_text = g_strdup (text);
  self->gone = FALSE;
  if (get_shot (self) != NULL)
    take_up_place (self);
}

const char *
hs_job_page_get_job_id (HsJobPage *self)
{
  g_return_val_if_fail (HS_IS_JOB_PAGE (self), NULL);

  return self->job_id;
}

const char *
hs_job_page_get_number (HsJobPage *self)
{
  const HsJobShot *shot;

  g_return_val_if_fail (HS_IS_JOB_PAGE (self), NULL);

  shot = get_shot (self);
  return shot != NULL ? shot->view->tag->number : NULL;
}

gboolean
hs_job_page_takes_findings (HsJobPage *self)
{
  const HsJobShot *shot;

  g_return_val_if_fail (HS_IS_JOB_PAGE (self), FALSE);

  shot = get_shot (self);
  return shot != NULL && shot->view->tag->stage != HS_STAGE_SQUARED;
}

gboolean
hs_job_page_is_ready (HsJobPage *self)
{
  g_return_val_if_fail (HS_IS_JOB_PAGE (self), FALSE);

  return self->gone;
}

HsFindings *
hs_job_page_get_findings (HsJobPage *self)
{
  g_return_val_if_fail (HS_IS_JOB_PAGE (self), NULL);

  return self->findings;
}
