// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A job's page. One question reads the whole job; its answer goes to every pane, so that they always agree.
 *
 *   hs_ask_job ─▶ HsJobShot ─▶ head · Call · Findings (Readings · Why it failed) · Choices · Bill · Before and after */

#include "hs-job-page-private.h"

#include <glib/gi18n.h>

#include "hs-after-pane.h"
#include "hs-bill-pane.h"
#include "hs-call-pane.h"
#include "hs-chain-pane.h"
#include "hs-choices-pane.h"
#include "hs-job-left.h"
#include "hs-pad-hints.h"
#include "hs-photo-pane.h"
#include "hs-safety-window.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-usual-window.h"
#include "hs-window.h"

const char *const hs_job_page_panes[N_PANES] = { "call", "why", "photos", "choices", "bill", "after" };

G_DEFINE_FINAL_TYPE (HsJobPage, hs_job_page, HS_TYPE_PAGE)

const HsJobShot *
hs_job_page_get_shot (HsJobPage *self)
{
  return hs_question_get (self->ask);
}

static void
update_head (HsJobPage *self, const HsJobShot *shot)
{
  const HsBoardRow *tag = shot->view->tag;
  g_autofree char *words = hs_show_quoted (tag->words);
  g_autofree char *battery = shot->battery != NULL ? hs_show_battery (shot->battery) : g_strdup ("");
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

/* What is not safe yet stands over every pane, and the findings of a high-voltage vehicle stay shut. */
static void
update_safety (HsJobPage *self, const HsJobShot *shot)
{
  g_autofree char *unsafe = hs_job_left_dup_unsafe (shot), *why = hs_job_left_dup_shut (shot);
  gboolean shut = hs_job_left_is_shut (shot);
  gboolean had_focus = hs_page_get_focus (HS_PAGE (self)) != NULL;

  gtk_widget_set_visible (GTK_WIDGET (self->unsafe), unsafe != NULL);
  if (unsafe != NULL)
    hs_key_button_set_text (self->unsafe, unsafe);
  gtk_widget_set_visible (GTK_WIDGET (self->faces), !shut);
  gtk_widget_set_visible (GTK_WIDGET (self->shut), why != NULL);
  gtk_label_set_label (self->shut, why != NULL ? why : "");
  hs_page_keep_focus (HS_PAGE (self), had_focus, GTK_WIDGET (self->unsafe));
}

static HsJobPane *
find_pane (HsJobPage *self, const char *name)
{
  for (guint i = 0; i < N_PANES; i++)
    if (g_strcmp0 (name, hs_job_page_panes[i]) == 0)
      return self->panes[i];
  return NULL;
}

/* @name: (nullable): as for hs_job_page_go(); why it failed and the photos are faces of the findings. */
void
hs_job_page_show_pane (HsJobPage *self, const char *name)
{
  gboolean face = g_strcmp0 (name, hs_job_page_panes[PANE_CHAIN]) == 0
                  || g_strcmp0 (name, hs_job_page_panes[PANE_PHOTOS]) == 0;
  const char *tab = face || g_strcmp0 (name, HS_READ_AFTER_PAGE) == 0 ? "findings" : name;

  if (tab == NULL || gtk_stack_get_child_by_name (self->stack, tab) == NULL)
    return;
  gtk_stack_set_visible_child_name (self->stack, tab);
  if (g_str_equal (tab, "findings"))
    gtk_stack_set_visible_child_name (self->faces, face ? name : "readings");
}

gboolean
hs_job_page_shows_readings (HsJobPage *self)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "findings") == 0
         && g_strcmp0 (gtk_stack_get_visible_child_name (self->faces), "readings") == 0;
}

gboolean
hs_job_page_prints (HsJobPage *self)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), hs_job_page_panes[PANE_AFTER]) == 0;
}

static HsJobPane *
find_shown_pane (HsJobPage *self)
{
  const char *tab = gtk_stack_get_visible_child_name (self->stack);

  return find_pane (self, g_strcmp0 (tab, "findings") == 0 ? gtk_stack_get_visible_child_name (self->faces) : tab);
}

static const char *
name_of_shown (HsJobPage *self)
{
  HsJobPane *pane = find_shown_pane (self);

  for (guint i = 0; i < N_PANES; i++)
    if (self->panes[i] == pane)
      return hs_job_page_panes[i];
  return "findings";
}

/* Where the owner is, whatever was stored last, is where a killed program goes on. A cursor in the bars of the window
 * takes nobody away from the field. */
static void
visit (HsJobPage *self)
{
  HsJobPane *pane = find_shown_pane (self);
  GtkWidget *focus = hs_page_get_focus (HS_PAGE (self));
  const char *name = name_of_shown (self);
  g_autofree char *field = NULL;

  if (!self->gone || self->draft == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self))
      || (focus == NULL && g_strcmp0 (self->visited, name) == 0))
    return;
  self->visited = name;
  field = pane != NULL ? hs_job_pane_dup_field (pane, focus) : hs_findings_dup_field (self->findings);
  hs_draft_visit (self->draft, self->job_id, name, field != NULL ? field : HS_WHERE_HERE);
}

/* What was told to be left open is told again once anything else is done. */
static void
moved_cb (HsJobPage *self)
{
  g_clear_pointer (&self->told_open, g_free);
  visit (self);
}

static void
over_cb (HsJobPage *self)
{
  g_clear_pointer (&self->told_open, g_free);
}

static void
take_up_place (HsJobPage *self)
{
  gboolean worked = self->worked;
  HsJobPane *pane;

  if (self->gone || !self->typed)
    return;
  self->gone = TRUE;
  if (g_strcmp0 (self->go_page, HS_USUAL_PAGE) == 0)
    {
      hs_job_page_open_usual (self, self->go_text);
      return;
    }
  if (g_strcmp0 (self->go_page, HS_SAFETY_PAGE) == 0)
    {
      gtk_widget_activate_action (GTK_WIDGET (self), "page.make-safe", NULL);
      return;
    }
  hs_job_page_show_pane (self, self->go_page);
  pane = find_pane (self, self->go_page);
  if (pane != NULL)
    hs_job_pane_go (pane, self->go_field, self->go_text);
  else if (g_strcmp0 (self->go_page, "findings") == 0 && self->go_field != NULL)
    hs_findings_go (self->findings, self->go_field, self->go_text);
  else if (g_strcmp0 (self->go_page, HS_READ_AFTER_PAGE) == 0)
    hs_findings_go_after (self->findings);
  else if (!self->reads)
    hs_findings_go (self->findings, NULL, NULL);
  if (hs_job_page_shows_readings (self))
    hs_findings_focus (self->findings);
  /* Being led there is no work; yet a field that one is led back to is interrupted still. */
  self->worked = worked || self->go_field != NULL;
  visit (self);
}

static void
take_up_draft (HsJobPage *self, const HsWhere *draft)
{
  HsJobPane *pane = find_pane (self, draft->page);
  gboolean here = g_strcmp0 (draft->page, self->go_page) == 0 && g_strcmp0 (draft->field, self->go_field) == 0;

  if (*draft->text == '\0' || g_str_has_prefix (draft->field, HS_WHERE_LEFT) || here)
    return;
  if (pane != NULL)
    hs_job_pane_go (pane, draft->field, draft->text);
  else if (g_str_equal (draft->page, "findings"))
    {
      hs_findings_go (self->findings, draft->field, draft->text);
      self->reads = TRUE;
    }
}

/* What was typed and not stored, on whichever pane, is there again; only then the place that is meant. */
static void
drafts_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsJobPage) self = HS_JOB_PAGE (data);
  g_autoptr (GPtrArray) drafts = NULL;

  self->typed = TRUE;
  hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &drafts, NULL);
  if (hs_job_page_get_shot (self) == NULL)
    return;
  for (guint i = 0; drafts != NULL && i < drafts->len; i++)
    take_up_draft (self, g_ptr_array_index (drafts, i));
  take_up_place (self);
}

static void
update_hints (HsJobPage *self)
{
  hs_pad_hints_set (self->pad_keys, hs_page_get_cramped (HS_PAGE (self)),
                    self->panes[0] != NULL && hs_job_pane_is_frozen (self->panes[0]));
}

static void
answered_cb (HsJobPage *self)
{
  const HsJobShot *shot = hs_job_page_get_shot (self);

  if (shot == NULL)
    {
      if (hs_question_get_trouble (self->ask) != NULL)
        hs_page_tell (HS_PAGE (self), hs_question_get_trouble (self->ask));
      return;
    }
  update_head (self, shot);
  update_safety (self, shot);
  hs_findings_set_job (self->findings, self->job_id, hs_question_get_snapshot (self->ask));
  for (guint i = 0; i < N_PANES; i++)
    hs_job_pane_show (self->panes[i], hs_question_get_snapshot (self->ask));
  update_hints (self);
  take_up_place (self);
  /* What a finish in a window of its own noted is over. */
  if (shot->view->tag->stage == HS_STAGE_SQUARED)
    visit (self);
}

static void
name_key (HsJobPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (HS_IS_WINDOW (root))
    hs_window_name_key (HS_WINDOW (root), "job", "win.lock",
                        hs_job_page_shows_readings (self) ? _("One more complaint") : _("Phone"));
}

static void
map_cb (HsJobPage *self)
{
  name_key (self);
  g_signal_connect_object (gtk_widget_get_root (GTK_WIDGET (self)), "notify::focus-widget", G_CALLBACK (moved_cb), self,
                           G_CONNECT_SWAPPED);
}

/* What was left stays the place of "Where was I" until something is done elsewhere. */
static void
unmap_cb (HsJobPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  g_clear_pointer (&self->told_open, g_free);
  if (root != NULL)
    g_signal_handlers_disconnect_by_func (root, moved_cb, self);
  if (self->gone && self->draft != NULL)
    hs_draft_leave (self->draft, self->job_id, self->worked);
}

static void
room_changed (HsPage *page)
{
  HsJobPage *self = HS_JOB_PAGE (page);

  gtk_widget_set_visible (self->head, !hs_page_get_narrow (page));
  /* A narrow page has its keys as buttons. */
  gtk_widget_set_visible (self->pad_bar, !hs_page_get_narrow (page));
  update_hints (self);
}

static void
add_pane (HsJobPage *self, AdwBin *bin, HsPage *pane)
{
  adw_bin_set_child (bin, GTK_WIDGET (pane));
  g_object_bind_property (self, "narrow", pane, "narrow", G_BINDING_SYNC_CREATE);
  g_object_bind_property (self, "cramped", pane, "cramped", G_BINDING_SYNC_CREATE);
}

static void
add_panes (HsJobPage *self)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  const GType types[N_PANES] = { HS_TYPE_CALL_PANE,    HS_TYPE_CHAIN_PANE, HS_TYPE_PHOTO_PANE,
                                 HS_TYPE_CHOICES_PANE, HS_TYPE_BILL_PANE,  HS_TYPE_AFTER_PANE };
  AdwBin *const bins[N_PANES] = { self->call_bin,    self->chain_bin, self->photos_bin,
                                  self->choices_bin, self->bill_bin,  self->after_bin };

  self->findings = g_object_new (HS_TYPE_FINDINGS, "ledger", ledger, NULL);
  add_pane (self, self->findings_bin, HS_PAGE (self->findings));
  for (guint i = 0; i < N_PANES; i++)
    {
      self->panes[i] = g_object_new (types[i], "ledger", ledger, NULL);
      add_pane (self, bins[i], HS_PAGE (self->panes[i]));
    }
}

/* A high-voltage vehicle shows its list before its findings. */
static void
show_safety_first (HsJobPage *self)
{
  const HsJobShot *shot = hs_job_page_get_shot (self);

  if (shot != NULL && hs_arrival_open_visit (shot->arrival) != NULL
      && shot->arrival->safety->n_high_voltage_open > 0)
    hs_safety_window_present (HS_PAGE (self), self->job_id, shot->view->tag->number);
}

static void
face_changed_cb (HsJobPage *self)
{
  self->worked |= self->gone;
  moved_cb (self);
  name_key (self);
}

/* The tabs of the findings stand in the head while the findings are shown. */
static void
tab_changed_cb (HsJobPage *self)
{
  gboolean findings = g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "findings") == 0;

  gtk_widget_set_visible (GTK_WIDGET (self->face_tabs), findings);
  hs_key_button_set_key (self->unsafe, hs_job_page_prints (self) ? "Pause" : "F12");
  if (findings && self->gone)
    show_safety_first (self);
  face_changed_cb (self);
}

static void
hs_job_page_constructed (GObject *object)
{
  HsJobPage *self = HS_JOB_PAGE (object);

  G_OBJECT_CLASS (hs_job_page_parent_class)->constructed (object);
  add_panes (self);
  update_hints (self);
  self->ask = hs_page_ask (HS_PAGE (self), hs_ask_job, (GDestroyNotify) hs_job_shot_free, G_CALLBACK (answered_cb));
  g_signal_connect (self, "map", G_CALLBACK (map_cb), NULL);
  g_signal_connect_object (gtk_window_get_toplevels (), "items-changed", G_CALLBACK (over_cb), self, G_CONNECT_SWAPPED);
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
  g_free (self->told_open);
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
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_KEY_ROW);
  g_type_ensure (HS_TYPE_TABS);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-job-page.ui");
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, head);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, glyph);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, plate);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, words);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, vehicle);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, stage);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, unsafe);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, stack);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, call_bin);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, findings_bin);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, face_tabs);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, faces);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, shut);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, chain_bin);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, photos_bin);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, choices_bin);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, bill_bin);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, after_bin);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, pad_bar);
  gtk_widget_class_bind_template_child (widget_class, HsJobPage, pad_keys);
  gtk_widget_class_bind_template_callback (widget_class, tab_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, face_changed_cb);
  hs_job_page_install_actions (widget_class);
}

static void
hs_job_page_init (HsJobPage *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  /* Translators: what a screen reader calls this part of the window. */
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Job page"), -1);
  hs_spoken_stack (self->stack);
  hs_spoken_stack (self->faces);
  hs_key_button_set_wraps (self->unsafe, TRUE);
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (hs_job_page_tab_key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  tab_changed_cb (self);
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
  for (guint i = 0; i < N_PANES; i++)
    hs_job_pane_set_job (self->panes[i], job_id, draft);
  hs_question_ask (self->ask, g_variant_new ("(s)", job_id));
  hs_ledger_ask_async (ledger, hs_ask_drafts, g_variant_new ("(ms)", job_id), (GDestroyNotify) g_ptr_array_unref,
                       drafts_cb, g_object_ref (self));
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

  if (field != NULL && g_str_has_prefix (field, HS_WHERE_LEFT))
    field += strlen (HS_WHERE_LEFT);
  if (g_strcmp0 (field, HS_WHERE_HERE) == 0)
    field = NULL;
  g_free (self->go_page);
  g_free (self->go_field);
  g_free (self->go_text);
  self->go_page = g_strdup (page_name);
  self->go_field = g_strdup (field);
  self->go_text = g_strdup (text);
  self->gone = FALSE;
  if (hs_job_page_get_shot (self) != NULL)
    take_up_place (self);
}

const char *
hs_job_page_get_face (HsJobPage *self)
{
  g_return_val_if_fail (HS_IS_JOB_PAGE (self), NULL);

  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "findings") != 0)
    return NULL;
  return gtk_stack_get_visible_child_name (self->faces);
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

  shot = hs_job_page_get_shot (self);
  return shot != NULL ? shot->view->tag->number : NULL;
}

gboolean
hs_job_page_takes_findings (HsJobPage *self)
{
  const HsJobShot *shot;

  g_return_val_if_fail (HS_IS_JOB_PAGE (self), FALSE);

  shot = hs_job_page_get_shot (self);
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
