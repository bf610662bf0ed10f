// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The call slip's fields, in its own window over anything and on a job's first tab.
 *
 *   key ─▶ HsDraft (disk)          leave a field ─▶ hs_deed_take_call ─▶ job
 *   phone ─▶ hs_ask_callers ─▶ callers who may be meant          place, day, window, minutes ─▶ hs_ask_offers ─▶ "fits"
 *
 * Nothing is written as a job before there are words and a caller; until then every field waits as a draft. */

#include "hs-call-form-private.h"

#include "hs-call-merge.h"

#include <glib/gi18n.h>

#include "hs-ask.h"
#include "hs-deed.h"
#include "hs-deed-merge.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-typed.h"

#define MOST_CALLERS 3
/* Text half as large again as usual, in the units of the setting. */
#define LARGE_DPI (144 * 1024)

const HsCallField hs_call_fields[N_NAMED] = {
  { "phone", N_("Phone") },   { "name", N_("Name") },        { "words", N_("What the caller says") },
  { "plate", N_("Plate") },   { "street", N_("Street") },    { "from", N_("Between") },
  { "to", N_("and") },        { "minutes", N_("Minutes of work") },
  { "area", N_("Area") },     { "day", N_("Day") },
};

G_DEFINE_FINAL_TYPE (HsCallForm, hs_call_form, HS_TYPE_PAGE)

enum
{
  SAVED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

const char *
hs_call_form_field_title (const char *field)
{
  for (guint i = 0; i < N_NAMED; i++)
    if (g_strcmp0 (hs_call_fields[i].id, field) == 0)
      return _(hs_call_fields[i].title);
  return "";
}

const char *
hs_call_form_text_of (HsCallForm *self, guint field)
{
  const char *text = gtk_editable_get_text (self->entries[field]);

  return *text != '\0' ? text : NULL;
}

static guint
field_of (HsCallForm *self, GtkEditable *entry)
{
  for (guint i = 0; i < N_FIELDS; i++)
    if (self->entries[i] == entry)
      return i;
  return FIELD_WORDS;
}

/* Saving. */

static void save (HsCallForm *self);

static void
note (HsCallForm *self, guint field, const char *text)
{
  if (self->draft != NULL)
    hs_draft_note (self->draft, self->job_id, self->job_id != NULL ? "call" : "slip", hs_call_fields[field].id, text);
}

static void
tell_written (HsCallForm *self)
{
  g_autofree char *text = self->van != NULL ? g_strdup_printf (_("Written down, for van %s."), self->van)
                                            : g_strdup (_("Written down."));

  gtk_label_set_label (self->status, text);
}

static void
saved_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsCallForm) self = HS_CALL_FORM (data);
  g_autoptr (GError) error = NULL;
  char *job_id = NULL;
  gboolean first;

  self->saving = FALSE;
  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &job_id, &error))
    {
      self->dirty = TRUE;
      gtk_label_set_label (self->status, error->message);
      return;
    }
  first = self->job_id == NULL;
  g_free (self->job_id);
  self->job_id = job_id;
  tell_written (self);
  /* Whoever hears of it writes the rest of the slip before its drafts go. */
  hs_name_card_set_job (self->names, hs_page_get_ledger (HS_PAGE (self)), self->job_id);
  g_signal_emit (self, signals[SAVED], 0, self->job_id);
  if (first && self->draft != NULL)
    hs_draft_forget (self->draft, NULL, "slip");
  if (self->dirty)
    save (self);
}

static void
merged_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsCallForm) self = HS_CALL_FORM (data);
  g_autoptr (GPtrArray) clashes = NULL;
  g_autoptr (GError) error = NULL;

  self->saving = FALSE;
  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &clashes, &error))
    {
      self->dirty = TRUE;
      gtk_label_set_label (self->status, error->message);
      return;
    }
  tell_written (self);
  hs_call_form_tell_clashes (self, clashes);
  hs_name_card_set_job (self->names, hs_page_get_ledger (HS_PAGE (self)), self->job_id);
  g_signal_emit (self, signals[SAVED], 0, self->job_id);
  if (self->dirty)
    save (self);
}

static void
hint (HsCallForm *self, const char *text)
{
  self->hint = text;
  gtk_label_set_label (self->status, text != NULL ? text : "");
}

/* What was missing may be there by now. */
static void
update_hint (HsCallForm *self)
{
  guint field;

  if (self->hint != NULL && g_str_equal (self->hint, gtk_label_get_label (self->status)))
    hint (self, hs_call_form_what_is_missing (self, &field));
}

static void
save (HsCallForm *self)
{
  const HsPlace *place = hs_area_choice_get_place (self->area);
  int from = hs_typed_clock (hs_call_form_text_of (self, FIELD_FROM));
  int to = hs_typed_clock (hs_call_form_text_of (self, FIELD_TO));
  HsCallSlip slip = { .job_id = self->job_id };
  guint field;

  if (hs_call_form_what_is_missing (self, &field) != NULL)
    {
      hint (self, hs_call_form_what_is_missing (self, &field));
      if (field >= FIELD_FROM)
        gtk_widget_add_css_class (GTK_WIDGET (self->status), "hs-strong");
      return;
    }
  if (self->saving || self->settling)
    return;
  slip.phone = hs_call_form_text_of (self, FIELD_PHONE);
  slip.name = hs_call_form_text_of (self, FIELD_NAME);
  slip.words = hs_call_form_text_of (self, FIELD_WORDS);
  slip.plate = hs_call_form_text_of (self, FIELD_PLATE);
  slip.street = hs_call_form_text_of (self, FIELD_STREET);
  slip.kind = self->kind;
  slip.group = self->group;
  slip.van = self->van;
  slip.area = place != NULL ? place->code : NULL;
  slip.day = hs_call_form_chosen_day (self);
  slip.window_from = from;
  slip.window_to = to;
  slip.minutes = hs_typed_minutes (hs_call_form_text_of (self, FIELD_MINUTES));
  self->dirty = FALSE;
  self->saving = TRUE;
  if (self->draft != NULL)
    hs_draft_flush (self->draft);
  if (self->job_id != NULL)
    {
      hs_call_form_merge (self, &slip, merged_cb, g_object_ref (self));
      return;
    }
  hs_call_form_note_shown (self);
  hs_deed_take_call (hs_page_get_ledger (HS_PAGE (self)), &slip, saved_cb, g_object_ref (self));
}

void
hs_call_form_flush (HsCallForm *self)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  if (self->dirty)
    save (self);
}

/* While it is not said which of the known callers is meant, it waits among the drafts. */
static void
save_settled (HsCallForm *self)
{
  if (hs_call_form_is_unsettled (self))
    hint (self, _("A known caller may have that number. Pick whom you mean, or type a name."));
  else
    save (self);
}

/* Typing. */

static void
forget_callers (HsCallForm *self)
{
  self->takes_first = FALSE;
  hs_question_forget (self->find);
  hs_caller_list_set_hits (self->callers, NULL, NULL);
}

/* Whoever is not looked for any more is not waited for. */
static void
find_caller (HsCallForm *self, const char *text)
{
  gboolean waited = self->takes_first;

  if (text != NULL)
    {
      hs_question_ask (self->find, g_variant_new ("(sums)", text, MOST_CALLERS, self->job_id));
      return;
    }
  forget_callers (self);
  if (waited)
    hs_late_keys_release (self->late);
}

static void
changed_cb (HsCallForm *self, GtkEditable *entry)
{
  guint field = field_of (self, entry);

  if (self->filling)
    return;
  self->dirty = TRUE;
  note (self, field, gtk_editable_get_text (entry));
  if (field == FIELD_PHONE || field == FIELD_NAME || field == FIELD_PLATE)
    find_caller (self, hs_call_form_text_of (self, field));
  if (field >= FIELD_FROM)
    hs_call_form_ask_offers (self);
  update_hint (self);
}

static void
left_cb (HsCallForm *self)
{
  if (self->dirty)
    save_settled (self);
}

static void
chosen (HsCallForm *self)
{
  self->dirty = TRUE;
  hs_call_form_ask_offers (self);
  save_settled (self);
}

static void
area_chosen_cb (HsCallForm *self)
{
  const HsPlace *place = hs_area_choice_get_place (self->area);

  if (self->filling)
    return;
  note (self, FIELD_AREA, place != NULL ? place->code : "");
  chosen (self);
}

static void
day_chosen_cb (HsCallForm *self)
{
  HsDate day = hs_call_form_chosen_day (self);
  g_autofree char *date = day != HS_DATE_NONE ? hs_date_format (day) : g_strdup ("");

  if (self->filling)
    return;
  if (day != self->wanted_day)
    note (self, FIELD_DAY, date);
  self->wanted_day = day;
  chosen (self);
}

/* A caller who is known. */

/* What is typed meanwhile is for the field that comes next. */
static void
take_first_caller (HsCallForm *self)
{
  self->takes_first = FALSE;
  if (hs_caller_list_pick_first (self->callers))
    return;
  gtk_widget_child_focus (GTK_WIDGET (self), GTK_DIR_TAB_FORWARD);
  hs_late_keys_release (self->late);
}

static void
found_cb (HsCallForm *self)
{
  hs_caller_list_set_hits (self->callers, hs_page_get_ledger (HS_PAGE (self)), hs_question_get (self->find));
  if (self->takes_first)
    take_first_caller (self);
}

static void
caller_picked_cb (HsCallForm *self, const char *vehicle_id)
{
  hs_question_ask (self->caller, g_variant_new ("(s)", vehicle_id));
}

/* Enter in the phone field takes the first of them. Until the answer about the last digit is there, the list is of
 * those who have the digits before it. */
void
hs_call_form_take_first_caller (HsCallForm *self)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  hs_late_keys_hold (self->late);
  self->takes_first = hs_question_is_asking (self->find);
  if (!self->takes_first)
    take_first_caller (self);
}

/* What nobody typed is no typing to be taken back: F10 would empty the field instead of what was done last. */
void
hs_call_form_set_text (HsCallForm *self, guint field, const char *text)
{
  if (g_strcmp0 (gtk_editable_get_text (self->entries[field]), text != NULL ? text : "") == 0)
    return;
  gtk_editable_set_enable_undo (self->entries[field], FALSE);
  gtk_editable_set_text (self->entries[field], text != NULL ? text : "");
  gtk_editable_set_enable_undo (self->entries[field], TRUE);
}

static void
fill_caller (HsCallForm *self)
{
  const HsHistory *history = hs_question_get (self->caller);

  if (history == NULL)
    return;
  if (self->settling && !hs_call_form_has_number (self, history->phone))
    {
      hs_question_forget (self->caller);
      return;
    }
  self->filling = TRUE;
  hs_call_form_set_text (self, FIELD_PHONE, history->phone);
  hs_call_form_set_text (self, FIELD_NAME, history->customer);
  hs_call_form_set_text (self, FIELD_PLATE, history->plate);
  if (history->area != NULL)
    hs_area_choice_choose (self->area, history->area);
  self->filling = FALSE;
  for (guint i = 0; i < N_FIELDS; i++)
    if (i == FIELD_PHONE || i == FIELD_NAME || i == FIELD_PLATE)
      note (self, i, gtk_editable_get_text (self->entries[i]));
  self->dirty = TRUE;
  hs_question_forget (self->caller);
  forget_callers (self);
  hs_call_form_ask_offers (self);
  /* Whoever settles it goes on by himself. */
  if (self->settling)
    return;
  save (self);
  hs_call_form_go_on_with_words (self, NULL);
}

static void
caller_cb (HsCallForm *self)
{
  fill_caller (self);
  hs_late_keys_release (self->late);
}

/* A job that is there. */

static void
fill_window (HsCallForm *self, const HsBoardRow *tag)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  g_autofree char *from = hs_show_clock (ledger, tag->window_from);
  g_autofree char *to = hs_show_clock (ledger, tag->window_to);
  g_autofree char *minutes = tag->minutes > 0 ? g_strdup_printf ("%d", tag->minutes) : NULL;

  hs_call_form_set_text (self, FIELD_FROM, from);
  hs_call_form_set_text (self, FIELD_TO, to);
  hs_call_form_set_text (self, FIELD_MINUTES, minutes);
}

void
hs_call_form_set_job (HsCallForm *self, HsSnapshot *snapshot)
{
  const HsJobShot *shot = hs_snapshot_get (snapshot);
  const HsJobView *view;

  g_return_if_fail (HS_IS_CALL_FORM (self));
  g_return_if_fail (shot != NULL);

  view = shot->view;
  if (self->dirty)
    {
      hs_call_form_follow (self, view);
      return;
    }
  self->filling = TRUE;
  g_free (self->job_id);
  self->job_id = g_strdup (view->tag->job_id);
  hs_name_card_set_job (self->names, hs_page_get_ledger (HS_PAGE (self)), self->job_id);
  g_free (self->kind);
  self->kind = g_strdup (view->kind);
  g_free (self->group);
  self->group = g_strdup (view->group);
  self->wanted_day = view->tag->day;
  hs_call_form_set_text (self, FIELD_PHONE, view->phone);
  hs_call_form_set_text (self, FIELD_NAME,
                         hs_call_is_placeholder (view->tag->customer, view->phone) ? "" : view->tag->customer);
  hs_call_form_set_text (self, FIELD_WORDS, view->tag->words);
  hs_call_form_set_text (self, FIELD_PLATE, view->tag->plate);
  hs_call_form_set_text (self, FIELD_STREET, view->street);
  fill_window (self, view->tag);
  hs_area_choice_choose (self->area, view->tag->area);
  hs_call_form_fill_days (self);
  self->filling = FALSE;
  hs_call_form_note_shown (self);
  if (view->tag->stage == HS_STAGE_SQUARED)
    hint (self, _("Squared up: nothing here can be changed any more."));
  self->placed = view->tag->stage != HS_STAGE_CALLED_IN && view->tag->stage != HS_STAGE_PENCILED;
  hs_call_form_ask_offers (self);
}

static void
propose_clock (HsCallForm *self, guint field, int minutes)
{
  g_autofree char *text = minutes >= 0 ? hs_clock_format (minutes) : NULL;

  if (text != NULL)
    hs_call_form_set_text (self, field, text);
}

void
hs_call_form_propose (HsCallForm *self, const HsCallSlip *slip)
{
  g_autofree char *minutes = g_strdup_printf ("%d", slip->minutes);

  g_return_if_fail (HS_IS_CALL_FORM (self));

  if (self->job_id == NULL)
    {
      g_free (self->van);
      self->van = g_strdup (slip->van);
    }
  if (slip->area != NULL)
    hs_area_choice_choose (self->area, slip->area);
  if (slip->day != HS_DATE_NONE)
    hs_call_form_choose_day (self, slip->day);
  propose_clock (self, FIELD_FROM, slip->window_from);
  propose_clock (self, FIELD_TO, slip->window_to);
  if (slip->minutes > 0)
    hs_call_form_set_text (self, FIELD_MINUTES, minutes);
}

void
hs_call_form_set_draft (HsCallForm *self, HsDraft *draft)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  g_set_object (&self->draft, draft);
}

const char *
hs_call_form_get_words (HsCallForm *self)
{
  g_return_val_if_fail (HS_IS_CALL_FORM (self), "");

  return gtk_editable_get_text (self->words);
}

const char *
hs_call_form_get_phone (HsCallForm *self)
{
  g_return_val_if_fail (HS_IS_CALL_FORM (self), "");

  return gtk_editable_get_text (self->phone);
}

void
hs_call_form_tell (HsCallForm *self, const char *text)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  gtk_label_set_label (self->status, text);
  gtk_widget_add_css_class (GTK_WIDGET (self->status), "hs-strong");
}

gboolean
hs_call_form_is_touched (HsCallForm *self)
{
  g_return_val_if_fail (HS_IS_CALL_FORM (self), FALSE);

  return self->dirty || self->job_id != NULL;
}

gboolean
hs_call_form_finish (HsCallForm *self)
{
  g_return_val_if_fail (HS_IS_CALL_FORM (self), TRUE);

  /* A ring that said nothing yet is a call all the same: somebody waits to be rung back. */
  if (self->dirty && hs_call_form_text_of (self, FIELD_WORDS) == NULL
      && hs_call_form_text_of (self, FIELD_PHONE) != NULL)
    hs_call_form_set_text (self, FIELD_WORDS, _("said nothing yet"));
  /* One of several is not asked for any more; then it is a caller with that number. */
  if (self->dirty && hs_call_form_count_meant (self) == 1)
    hs_call_form_settle_caller (self);
  hs_call_form_flush (self);
  if (self->draft != NULL)
    hs_draft_flush (self->draft);
  hs_ledger_wait (hs_page_get_ledger (HS_PAGE (self)));
  /* Either a job has it or the drafts have. */
  return !self->dirty || self->draft == NULL || hs_draft_is_kept (self->draft);
}

/* A group alone makes no job; with words and a caller it is saved at once. */
void
hs_call_form_set_group (HsCallForm *self, const char *group)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  if (g_strcmp0 (group, self->group) == 0)
    return;
  g_free (self->group);
  self->group = g_strdup (group);
  if (self->draft != NULL && self->job_id == NULL)
    hs_draft_note (self->draft, NULL, "slip", HS_CALL_FORM_GROUP, group);
  self->dirty = TRUE;
  save (self);
}

const char *
hs_call_form_get_group (HsCallForm *self)
{
  g_return_val_if_fail (HS_IS_CALL_FORM (self), NULL);

  return self->group;
}

void
hs_call_form_stand (HsCallForm *self)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  gtk_scrolled_window_set_policy (self->scroll, GTK_POLICY_NEVER, GTK_POLICY_NEVER);
}

void
hs_call_form_set_below (HsCallForm *self, GtkWidget *below)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  adw_bin_set_child (self->below, below);
}

const char *
hs_call_form_get_job_id (HsCallForm *self)
{
  g_return_val_if_fail (HS_IS_CALL_FORM (self), NULL);

  return self->job_id;
}

/* Large text in the hand: one field a line. */
static void
room_changed (HsPage *page)
{
  HsCallForm *self = HS_CALL_FORM (page);
  GtkWidget *const lines[] = { self->who, self->where, self->hours };
  gboolean stacked;
  int dpi = 0;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-xft-dpi", &dpi, NULL);
  stacked = hs_page_get_narrow (page) && dpi > LARGE_DPI;
  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    gtk_orientable_set_orientation (GTK_ORIENTABLE (lines[i]),
                                    stacked ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  hs_area_choice_set_stacked (self->area, stacked);
  self->filling = TRUE;
  hs_call_form_fill_days (self);
  self->filling = FALSE;
}

static void
hs_call_form_constructed (GObject *object)
{
  HsCallForm *self = HS_CALL_FORM (object);

  G_OBJECT_CLASS (hs_call_form_parent_class)->constructed (object);
  self->find = hs_page_ask (HS_PAGE (self), hs_ask_callers, (GDestroyNotify) g_ptr_array_unref,
                            G_CALLBACK (found_cb));
  self->caller = hs_page_ask (HS_PAGE (self), hs_ask_history, (GDestroyNotify) hs_history_free,
                              G_CALLBACK (caller_cb));
  self->places = hs_page_ask (HS_PAGE (self), hs_ask_places, (GDestroyNotify) g_ptr_array_unref,
                              G_CALLBACK (hs_call_form_show_places));
  self->offers = hs_page_ask (HS_PAGE (self), hs_ask_offers, (GDestroyNotify) g_ptr_array_unref,
                              G_CALLBACK (hs_call_form_show_offers));
  self->filling = TRUE;
  hs_call_form_fill_days (self);
  self->filling = FALSE;
  hs_area_choice_offer_map (self->area, hs_page_get_ledger (HS_PAGE (self)));
  hs_question_ask (self->places, NULL);
  hs_call_form_ask_offers (self);
  g_signal_connect_object (gtk_widget_get_settings (GTK_WIDGET (self)), "notify::gtk-xft-dpi",
                           G_CALLBACK (room_changed), self, G_CONNECT_SWAPPED);
}

static void
hs_call_form_finalize (GObject *object)
{
  HsCallForm *self = HS_CALL_FORM (object);

  g_clear_object (&self->draft);
  for (guint field = 0; field < N_FIELDS; field++)
    g_free (self->shown[field]);
  g_free (self->job_id);
  g_free (self->kind);
  g_free (self->group);
  g_free (self->van);
  G_OBJECT_CLASS (hs_call_form_parent_class)->finalize (object);
}

/* Enter goes on, as it does from every other field. */
static void
entered_cb (HsCallForm *self, GtkWidget *entry)
{
  gtk_widget_child_focus (GTK_WIDGET (gtk_widget_get_root (entry)), GTK_DIR_TAB_FORWARD);
}

static void
hs_call_form_class_init (HsCallFormClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = hs_call_form_constructed;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  G_OBJECT_CLASS (klass)->finalize = hs_call_form_finalize;
  signals[SAVED] = g_signal_new ("saved", HS_TYPE_CALL_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_STRING);
  g_type_ensure (HS_TYPE_AREA_CHOICE);
  g_type_ensure (HS_TYPE_CALLER_LIST);
  g_type_ensure (HS_TYPE_NAME_CARD);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-call-form.ui");
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, phone);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, name);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, words);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, plate);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, street);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, from);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, to);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, minutes);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, area);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, day);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, callers);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, names);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, fits);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, status);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, below);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, scroll);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, who);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, where);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, hours);
  gtk_widget_class_bind_template_callback (widget_class, entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, left_cb);
  gtk_widget_class_bind_template_callback (widget_class, area_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, day_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, caller_picked_cb);
  gtk_widget_class_bind_template_callback (widget_class, hs_call_form_go_on_with_words);
  gtk_widget_class_bind_template_callback (widget_class, hs_call_form_take_first_caller);
}

/* Caught on its way down, for a field has a use of its own for it. */
static gboolean
key_cb (HsCallForm *self, guint keyval, guint keycode, GdkModifierType state)
{
  return hs_name_card_press (self->names, keyval);
}

static void
hs_call_form_init (HsCallForm *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  self->wanted_day = HS_DATE_NONE;
  gtk_widget_init_template (GTK_WIDGET (self));
  self->late = hs_late_keys_new (GTK_WIDGET (self));
  /* Its label names the list itself already. */
  hs_spoken_name (gtk_widget_get_first_child (GTK_WIDGET (self->day)), _("Day"));
  self->entries[FIELD_PHONE] = self->phone;
  self->entries[FIELD_NAME] = self->name;
  self->entries[FIELD_WORDS] = self->words;
  self->entries[FIELD_PLATE] = self->plate;
  self->entries[FIELD_STREET] = self->street;
  self->entries[FIELD_FROM] = self->from;
  self->entries[FIELD_TO] = self->to;
  self->entries[FIELD_MINUTES] = self->minutes;
}
