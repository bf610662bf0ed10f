// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The call slip's fields, in its own window over anything and on a job's first tab.
 *
 *   key ─▶ HsDraft (disk)          leave a field ─▶ hs_deed_take_call ─▶ job
 *   phone ─▶ hs_ask_find ─▶ callers who may be meant          place, day, window, minutes ─▶ hs_ask_offers ─▶ "fits"
 *
 * Nothing is written as a job before there are words and a caller; until then every field waits as a draft. */

#include "hs-call-form.h"

#include <glib/gi18n.h>

#include "hs-area-choice.h"
#include "hs-ask.h"
#include "hs-caller-list.h"
#include "hs-deed.h"
#include "hs-offer-row.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-typed.h"

#define MOST_CALLERS 3
#define MOST_OFFERS 3
#define DAYS_AHEAD 21

enum
{
  FIELD_PHONE,
  FIELD_NAME,
  FIELD_WORDS,
  FIELD_PLATE,
  FIELD_STREET,
  FIELD_FROM,
  FIELD_TO,
  FIELD_MINUTES,
  N_FIELDS,
  /* Picked, not typed. */
  FIELD_AREA = N_FIELDS,
  FIELD_DAY,
  N_NAMED,
};

static const struct
{
  const char *id;
  const char *title;
} fields[N_NAMED] = {
  { "phone", N_("Phone") },   { "name", N_("Name") },        { "words", N_("What the caller says") },
  { "plate", N_("Plate") },   { "street", N_("Street") },    { "from", N_("Between") },
  { "to", N_("and") },        { "minutes", N_("Minutes of work") },
  { "area", N_("Area") },     { "day", N_("Day") },
};

struct _HsCallForm
{
  HsPage parent_instance;

  GtkEditable *phone;
  GtkEditable *name;
  GtkEditable *words;
  GtkEditable *plate;
  GtkEditable *street;
  GtkEditable *from;
  GtkEditable *to;
  GtkEditable *minutes;
  HsAreaChoice *area;
  GtkDropDown *day;
  HsCallerList *callers;
  GtkLabel *fits;
  GtkLabel *status;

  GtkEditable *entries[N_FIELDS];
  HsDraft *draft;
  HsQuestion *find;
  HsQuestion *caller;
  HsQuestion *places;
  HsQuestion *offers;
  char *job_id;
  char *kind;
  char *group;
  char *van; /* of the offer that was taken */
  const char *hint; /* (nullable): what is said to be missing */
  HsDate first_day;
  HsDate wanted_day;
  gboolean placed; /* in an order of the day already, or past it */
  gboolean filling;
  gboolean dirty;
  gboolean saving;
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
    if (g_strcmp0 (fields[i].id, field) == 0)
      return _(fields[i].title);
  return "";
}

static const char *
text_of (HsCallForm *self, guint field)
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

/* Places and days. */

static HsDate
chosen_day (HsCallForm *self)
{
  guint at = gtk_drop_down_get_selected (self->day);

  return at == GTK_INVALID_LIST_POSITION || at == 0 ? HS_DATE_NONE : self->first_day + (HsDate) at - 1;
}

static void
places_cb (HsCallForm *self)
{
  hs_area_choice_set_places (self->area, hs_question_get_snapshot (self->places));
}

static void
fill_days (HsCallForm *self)
{
  HsDate today = hs_ledger_get_today (hs_page_get_ledger (HS_PAGE (self)));
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  self->first_day = self->wanted_day != HS_DATE_NONE ? MIN (today, self->wanted_day) : today;
  gtk_string_list_append (names, _("not given yet"));
  for (HsDate day = self->first_day; day < MAX (today, self->wanted_day) + DAYS_AHEAD; day++)
    {
      g_autofree char *name = hs_show_full_day (day);

      gtk_string_list_append (names, name);
    }
  gtk_drop_down_set_model (self->day, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (self->day, self->wanted_day != HS_DATE_NONE
                                           ? (guint) (self->wanted_day - self->first_day + 1) : 0);
}

/* Where it fits. */

static void
offers_cb (HsCallForm *self)
{
  GPtrArray *offers = hs_question_get (self->offers);
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; offers != NULL && i < MIN (offers->len, MOST_OFFERS); i++)
    {
      g_autofree char *line = hs_offer_row_say (hs_page_get_ledger (HS_PAGE (self)), g_ptr_array_index (offers, i));

      g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "", line);
    }
  if (hs_question_get_trouble (self->offers) != NULL)
    g_string_assign (text, hs_question_get_trouble (self->offers));
  else if (offers != NULL && offers->len == 0)
    g_string_assign (text, _("it fits nowhere on this day"));
  gtk_label_set_label (self->fits, text->str);
}

static void
ask_offers (HsCallForm *self)
{
  const HsPlace *place = hs_area_choice_get_place (self->area);
  HsDate day = chosen_day (self);
  int from = hs_typed_clock (text_of (self, FIELD_FROM)), to = hs_typed_clock (text_of (self, FIELD_TO));
  int minutes = hs_typed_minutes (text_of (self, FIELD_MINUTES));

  if (self->placed || place == NULL || day == HS_DATE_NONE || minutes <= 0)
    {
      hs_question_forget (self->offers);
      gtk_label_set_label (self->fits, self->placed ? "" : _("Place, day and minutes say where it fits."));
      return;
    }
  hs_question_ask (self->offers, g_variant_new ("(isiiib)", day, place->code, minutes, MAX (from, 0),
                                                to >= 0 ? to : HS_MINUTES_PER_DAY, FALSE));
}

/* Saving. */

static void save (HsCallForm *self);

static void
note (HsCallForm *self, guint field, const char *text)
{
  if (self->draft != NULL)
    hs_draft_note (self->draft, self->job_id, self->job_id != NULL ? "call" : "slip", fields[field].id, text);
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

  self->saving = FALSE;
  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &job_id, &error))
    {
      self->dirty = TRUE;
      gtk_label_set_label (self->status, error->message);
      return;
    }
  if (self->job_id == NULL && self->draft != NULL)
    hs_draft_forget (self->draft, NULL, "slip");
  g_free (self->job_id);
  self->job_id = job_id;
  tell_written (self);
  g_signal_emit (self, signals[SAVED], 0, self->job_id);
  if (self->dirty)
    save (self);
}

/* What is wrong or missing before it can be a job, and where; %NULL when nothing is. What was typed comes first: its
 * field was just left. */
static const char *
what_is_missing (HsCallForm *self, guint *ret_field)
{
  int from = hs_typed_clock (text_of (self, FIELD_FROM)), to = hs_typed_clock (text_of (self, FIELD_TO));

  *ret_field = text_of (self, FIELD_FROM) != NULL && from < 0 ? FIELD_FROM : FIELD_TO;
  if ((text_of (self, FIELD_FROM) != NULL && from < 0) || (text_of (self, FIELD_TO) != NULL && to < 0))
    return _("A time is written 930 or 9:30.");
  *ret_field = FIELD_MINUTES;
  if (hs_typed_minutes (text_of (self, FIELD_MINUTES)) < 0)
    return _("Minutes of work are a whole number, at most a week.");
  *ret_field = FIELD_WORDS;
  if (text_of (self, FIELD_WORDS) == NULL)
    return _("A few words of the caller make it a job.");
  *ret_field = FIELD_PHONE;
  if (text_of (self, FIELD_PHONE) == NULL && text_of (self, FIELD_NAME) == NULL)
    return _("A number or a name makes it a job.");
  return NULL;
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
    hint (self, what_is_missing (self, &field));
}

static void
save (HsCallForm *self)
{
  const HsPlace *place = hs_area_choice_get_place (self->area);
  int from = hs_typed_clock (text_of (self, FIELD_FROM)), to = hs_typed_clock (text_of (self, FIELD_TO));
  HsCallSlip slip = { .job_id = self->job_id };
  guint field;

  if (what_is_missing (self, &field) != NULL)
    {
      hint (self, what_is_missing (self, &field));
      if (field >= FIELD_FROM)
        gtk_widget_add_css_class (GTK_WIDGET (self->status), "hs-strong");
      return;
    }
  if (self->saving)
    return;
  slip.phone = text_of (self, FIELD_PHONE);
  slip.name = text_of (self, FIELD_NAME);
  slip.words = text_of (self, FIELD_WORDS);
  slip.plate = text_of (self, FIELD_PLATE);
  slip.street = text_of (self, FIELD_STREET);
  slip.kind = self->kind;
  slip.group = self->group;
  slip.van = self->van;
  slip.area = place != NULL ? place->code : NULL;
  slip.day = chosen_day (self);
  /* A window has two ends and a day; until all are there the job has none. */
  slip.window_from = slip.day != HS_DATE_NONE && from >= 0 && to >= 0 ? from : -1;
  slip.window_to = slip.window_from >= 0 ? to : -1;
  slip.minutes = hs_typed_minutes (text_of (self, FIELD_MINUTES));
  self->dirty = FALSE;
  self->saving = TRUE;
  if (self->draft != NULL)
    hs_draft_flush (self->draft);
  hs_deed_take_call (hs_page_get_ledger (HS_PAGE (self)), &slip, saved_cb, g_object_ref (self));
}

void
hs_call_form_flush (HsCallForm *self)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  if (self->dirty)
    save (self);
}

/* Typing. */

static void
changed_cb (HsCallForm *self, GtkEditable *entry)
{
  guint field = field_of (self, entry);

  if (self->filling)
    return;
  self->dirty = TRUE;
  note (self, field, gtk_editable_get_text (entry));
  if (field == FIELD_PHONE || field == FIELD_NAME || field == FIELD_PLATE)
    {
      if (text_of (self, field) != NULL)
        hs_question_ask (self->find, g_variant_new ("(su)", text_of (self, field), MOST_CALLERS));
      else
        {
          hs_question_forget (self->find);
          hs_caller_list_set_hits (self->callers, NULL, NULL);
        }
    }
  if (field >= FIELD_FROM)
    ask_offers (self);
  update_hint (self);
}

static void
left_cb (HsCallForm *self)
{
  hs_call_form_flush (self);
}

static void
chosen (HsCallForm *self)
{
  self->dirty = TRUE;
  ask_offers (self);
  save (self);
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
  HsDate day = chosen_day (self);
  g_autofree char *date = day != HS_DATE_NONE ? hs_date_format (day) : g_strdup ("");

  if (self->filling)
    return;
  if (day != self->wanted_day)
    note (self, FIELD_DAY, date);
  self->wanted_day = day;
  chosen (self);
}

/* A caller who is known. */

static void
found_cb (HsCallForm *self)
{
  hs_caller_list_set_hits (self->callers, hs_page_get_ledger (HS_PAGE (self)), hs_question_get (self->find));
}

static void
caller_picked_cb (HsCallForm *self, const char *vehicle_id)
{
  hs_question_ask (self->caller, g_variant_new ("(s)", vehicle_id));
}

/* To the caller's words, at their end, with what was typed already. */
static void
go_on_with_words (HsCallForm *self, const char *typed)
{
  int at = -1;

  gtk_entry_grab_focus_without_selecting (GTK_ENTRY (self->words));
  if (typed != NULL)
    gtk_editable_insert_text (self->words, typed, -1, &at);
  gtk_editable_set_position (self->words, -1);
}

/* Enter in the phone field takes the first of them. */
void
hs_call_form_take_first_caller (HsCallForm *self)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  if (!hs_caller_list_pick_first (self->callers))
    gtk_widget_child_focus (GTK_WIDGET (self), GTK_DIR_TAB_FORWARD);
}

static void
set_text (HsCallForm *self, guint field, const char *text)
{
  if (g_strcmp0 (gtk_editable_get_text (self->entries[field]), text != NULL ? text : "") == 0)
    return;
  gtk_editable_set_text (self->entries[field], text != NULL ? text : "");
}

static void
caller_cb (HsCallForm *self)
{
  const HsHistory *history = hs_question_get (self->caller);

  if (history == NULL)
    return;
  self->filling = TRUE;
  set_text (self, FIELD_PHONE, history->phone);
  set_text (self, FIELD_NAME, history->customer);
  set_text (self, FIELD_PLATE, history->plate);
  if (history->area != NULL)
    hs_area_choice_choose (self->area, history->area);
  self->filling = FALSE;
  for (guint i = 0; i < N_FIELDS; i++)
    if (i == FIELD_PHONE || i == FIELD_NAME || i == FIELD_PLATE)
      note (self, i, gtk_editable_get_text (self->entries[i]));
  self->dirty = TRUE;
  hs_question_forget (self->caller);
  hs_question_forget (self->find);
  hs_caller_list_set_hits (self->callers, NULL, NULL);
  ask_offers (self);
  save (self);
  go_on_with_words (self, NULL);
}

/* A job that is there. */

static void
fill_window (HsCallForm *self, const HsBoardRow *tag)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  g_autofree char *from = hs_show_clock (ledger, tag->window_from);
  g_autofree char *to = hs_show_clock (ledger, tag->window_to);
  g_autofree char *minutes = tag->minutes > 0 ? g_strdup_printf ("%d", tag->minutes) : NULL;

  set_text (self, FIELD_FROM, from);
  set_text (self, FIELD_TO, to);
  set_text (self, FIELD_MINUTES, minutes);
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
    return;
  self->filling = TRUE;
  g_free (self->job_id);
  self->job_id = g_strdup (view->tag->job_id);
  g_free (self->kind);
  self->kind = g_strdup (view->kind);
  g_free (self->group);
  self->group = g_strdup (view->group);
  self->wanted_day = view->tag->day;
  set_text (self, FIELD_PHONE, view->phone);
  set_text (self, FIELD_NAME, view->tag->customer);
  set_text (self, FIELD_WORDS, view->tag->words);
  set_text (self, FIELD_PLATE, view->tag->plate);
  set_text (self, FIELD_STREET, view->street);
  fill_window (self, view->tag);
  hs_area_choice_choose (self->area, view->tag->area);
  fill_days (self);
  self->filling = FALSE;
  self->placed = view->tag->stage != HS_STAGE_CALLED_IN && view->tag->stage != HS_STAGE_PENCILED;
  ask_offers (self);
}

void
hs_call_form_choose_day (HsCallForm *self, HsDate day)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  gtk_drop_down_set_selected (self->day, day >= self->first_day ? (guint) (day - self->first_day + 1) : 0);
}

static void
propose_clock (HsCallForm *self, guint field, int minutes)
{
  g_autofree char *text = minutes >= 0 ? hs_clock_format (minutes) : NULL;

  if (text != NULL)
    set_text (self, field, text);
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
    set_text (self, FIELD_MINUTES, minutes);
}

void
hs_call_form_set_draft (HsCallForm *self, HsDraft *draft)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  g_set_object (&self->draft, draft);
}

static void
go_to_area (HsCallForm *self, const char *code)
{
  if (code != NULL && *code != '\0')
    hs_area_choice_choose (self->area, code);
  gtk_widget_grab_focus (GTK_WIDGET (self->area));
}

static void
go_to_day (HsCallForm *self, const char *date)
{
  HsDate day;

  if (date != NULL && hs_date_parse (date, &day, NULL))
    hs_call_form_choose_day (self, day);
  gtk_widget_grab_focus (GTK_WIDGET (self->day));
}

void
hs_call_form_go (HsCallForm *self, const char *field, const char *text)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  for (guint i = 0; i < N_FIELDS; i++)
    if (g_strcmp0 (fields[i].id, field) == 0)
      {
        if (text != NULL && *text != '\0')
          set_text (self, i, text);
        gtk_widget_grab_focus (GTK_WIDGET (self->entries[i]));
        return;
      }
  if (g_strcmp0 (field, fields[FIELD_AREA].id) == 0)
    go_to_area (self, text);
  else if (g_strcmp0 (field, fields[FIELD_DAY].id) == 0)
    go_to_day (self, text);
  else
    gtk_widget_grab_focus (GTK_WIDGET (self->phone));
}

void
hs_call_form_go_on (HsCallForm *self)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  for (guint i = 0; i < N_FIELDS; i++)
    {
      if (i == FIELD_FROM && hs_area_choice_get_place (self->area) == NULL)
        hs_call_form_go (self, fields[FIELD_AREA].id, NULL);
      else if (i == FIELD_FROM && chosen_day (self) == HS_DATE_NONE)
        hs_call_form_go (self, fields[FIELD_DAY].id, NULL);
      else if (text_of (self, i) == NULL)
        hs_call_form_go (self, fields[i].id, NULL);
      else
        continue;
      return;
    }
  go_on_with_words (self, NULL);
}

const char *
hs_call_form_get_words (HsCallForm *self)
{
  g_return_val_if_fail (HS_IS_CALL_FORM (self), "");

  return gtk_editable_get_text (self->words);
}

void
hs_call_form_tell (HsCallForm *self, const char *text)
{
  g_return_if_fail (HS_IS_CALL_FORM (self));

  gtk_label_set_label (self->status, text);
  gtk_widget_add_css_class (GTK_WIDGET (self->status), "hs-strong");
}

void
hs_call_form_point_at_missing (HsCallForm *self)
{
  const char *missing;
  guint field;

  g_return_if_fail (HS_IS_CALL_FORM (self));

  missing = what_is_missing (self, &field);
  if (missing == NULL)
    return;
  hs_call_form_tell (self, missing);
  self->hint = missing;
  gtk_widget_grab_focus (GTK_WIDGET (self->entries[field]));
}

gboolean
hs_call_form_point_at_untimed (HsCallForm *self)
{
  static const guint needed[] = { FIELD_AREA, FIELD_DAY, FIELD_MINUTES };
  gboolean missing[G_N_ELEMENTS (needed)];
  g_autoptr (GString) names = g_string_new (NULL);
  g_autofree char *text = NULL;
  const char *first = NULL;

  g_return_val_if_fail (HS_IS_CALL_FORM (self), FALSE);

  missing[0] = hs_area_choice_get_place (self->area) == NULL;
  missing[1] = chosen_day (self) == HS_DATE_NONE;
  missing[2] = hs_typed_minutes (text_of (self, FIELD_MINUTES)) <= 0;
  for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
    if (missing[i])
      {
        first = first != NULL ? first : fields[needed[i]].id;
        g_string_append_printf (names, "%s%s", names->len > 0 ? " · " : "", _(fields[needed[i]].title));
      }
  if (first == NULL)
    return FALSE;
  /* Translators: names of fields of the call slip, such as "Area · Day". */
  text = g_strdup_printf (_("To be given a time it still needs: %s"), names->str);
  hs_call_form_tell (self, text);
  hs_call_form_go (self, first, NULL);
  return TRUE;
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
  if (self->dirty && text_of (self, FIELD_WORDS) == NULL && text_of (self, FIELD_PHONE) != NULL)
    set_text (self, FIELD_WORDS, _("said nothing yet"));
  hs_call_form_flush (self);
  if (self->draft != NULL)
    hs_draft_flush (self->draft);
  hs_ledger_wait (hs_page_get_ledger (HS_PAGE (self)));
  /* Either a job has it or the drafts have. */
  return !self->dirty || self->draft == NULL || hs_draft_is_kept (self->draft);
}

const char *
hs_call_form_get_job_id (HsCallForm *self)
{
  g_return_val_if_fail (HS_IS_CALL_FORM (self), NULL);

  return self->job_id;
}

static void
hs_call_form_constructed (GObject *object)
{
  HsCallForm *self = HS_CALL_FORM (object);

  G_OBJECT_CLASS (hs_call_form_parent_class)->constructed (object);
  self->find = hs_page_ask (HS_PAGE (self), hs_ask_find, (GDestroyNotify) g_ptr_array_unref, G_CALLBACK (found_cb));
  self->caller = hs_page_ask (HS_PAGE (self), hs_ask_history, (GDestroyNotify) hs_history_free,
                              G_CALLBACK (caller_cb));
  self->places = hs_page_ask (HS_PAGE (self), hs_ask_places, (GDestroyNotify) g_ptr_array_unref,
                              G_CALLBACK (places_cb));
  self->offers = hs_page_ask (HS_PAGE (self), hs_ask_offers, (GDestroyNotify) g_ptr_array_unref,
                              G_CALLBACK (offers_cb));
  self->filling = TRUE;
  fill_days (self);
  self->filling = FALSE;
  hs_area_choice_offer_map (self->area, hs_page_get_ledger (HS_PAGE (self)));
  hs_question_ask (self->places, NULL);
  ask_offers (self);
}

static void
hs_call_form_finalize (GObject *object)
{
  HsCallForm *self = HS_CALL_FORM (object);

  g_clear_object (&self->draft);
  g_free (self->job_id);
  g_free (self->kind);
  g_free (self->group);
  g_free (self->van);
  G_OBJECT_CLASS (hs_call_form_parent_class)->finalize (object);
}

static void
hs_call_form_class_init (HsCallFormClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = hs_call_form_constructed;
  G_OBJECT_CLASS (klass)->finalize = hs_call_form_finalize;
  signals[SAVED] = g_signal_new ("saved", HS_TYPE_CALL_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_STRING);
  g_type_ensure (HS_TYPE_AREA_CHOICE);
  g_type_ensure (HS_TYPE_CALLER_LIST);
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
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, fits);
  gtk_widget_class_bind_template_child (widget_class, HsCallForm, status);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, left_cb);
  gtk_widget_class_bind_template_callback (widget_class, area_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, day_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, caller_picked_cb);
  gtk_widget_class_bind_template_callback (widget_class, go_on_with_words);
  gtk_widget_class_bind_template_callback (widget_class, hs_call_form_take_first_caller);
}

static void
hs_call_form_init (HsCallForm *self)
{
  self->wanted_day = HS_DATE_NONE;
  gtk_widget_init_template (GTK_WIDGET (self));
  hs_spoken_name_drop_down (self->day, _("Day"));
  self->entries[FIELD_PHONE] = self->phone;
  self->entries[FIELD_NAME] = self->name;
  self->entries[FIELD_WORDS] = self->words;
  self->entries[FIELD_PLATE] = self->plate;
  self->entries[FIELD_STREET] = self->street;
  self->entries[FIELD_FROM] = self->from;
  self->entries[FIELD_TO] = self->to;
  self->entries[FIELD_MINUTES] = self->minutes;
}
