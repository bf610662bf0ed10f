// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* What the files of the call slip's fields share: hs-call-form.c has the widget and what is typed, -place.c where and
 * when, -go.c where the cursor goes and what is missing. */

#include "hs-call-form.h"

#include "hs-area-choice.h"
#include "hs-caller-list.h"
#include "hs-late-keys.h"
#include "hs-name-card.h"

G_BEGIN_DECLS

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

typedef struct
{
  const char *id;
  const char *title;
} HsCallField;

extern const HsCallField hs_call_fields[];

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
  HsNameCard *names;
  GtkLabel *fits;
  GtkLabel *status;
  AdwBin *below;
  GtkScrolledWindow *scroll;
  GtkWidget *who;
  GtkWidget *where;
  GtkWidget *hours;

  GtkEditable *entries[N_FIELDS];
  char *shown[N_FIELDS]; /* what the book said when they were filled */
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
  HsLateKeys *late;
  gboolean takes_first; /* once it is known who has the number */
  gboolean settling; /* the only caller who has the number is being looked up */
};

/* What stands in a field; %NULL for nothing. */
const char *hs_call_form_text_of (HsCallForm *self, guint field);

/* Fills a field unless it says the same already. */
void hs_call_form_set_text (HsCallForm *self, guint field, const char *text);

/* hs-call-form-place.c: the day that is chosen, or %HS_DATE_NONE. */
HsDate hs_call_form_chosen_day (HsCallForm *self);
void hs_call_form_fill_days (HsCallForm *self);
void hs_call_form_show_places (HsCallForm *self);

/* Asks where it fits once place, day and minutes are there, and says so. */
void hs_call_form_ask_offers (HsCallForm *self);
void hs_call_form_show_offers (HsCallForm *self);

/* hs-call-form-merge.c: what the fields show now is what the book says. */
void hs_call_form_note_shown (HsCallForm *self);

/* The book says something else while something is typed: the other fields follow it. */
void hs_call_form_follow (HsCallForm *self, const HsJobView *view);

/* Writes @slip over what it showed; answers as hs_deed_merge_call(). */
void hs_call_form_merge (HsCallForm *self, const HsCallSlip *slip, GAsyncReadyCallback callback, gpointer user_data);
void hs_call_form_tell_clashes (HsCallForm *self, GPtrArray *clashes);

/* hs-call-form-go.c: what is wrong or missing before it can be a job, and where; %NULL when nothing is. */
const char *hs_call_form_what_is_missing (HsCallForm *self, guint *ret_field);

/* How many known callers the number may mean while it stands alone in a slip that is no job yet. */
guint hs_call_form_count_meant (HsCallForm *self);

/* Whether what is typed may be the end of that number. */
gboolean hs_call_form_has_number (HsCallForm *self, const char *phone);

/* It could be a job, but for whom is not said. */
gboolean hs_call_form_is_unsettled (HsCallForm *self);

/* To the caller's words, at their end, with what was typed already. */
void hs_call_form_go_on_with_words (HsCallForm *self, const char *typed);

G_END_DECLS
