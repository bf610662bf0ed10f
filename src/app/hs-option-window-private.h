// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"
#include "hs-late-keys.h"
#include "hs-option-window.h"

G_BEGIN_DECLS

/* What the parts of the window share: hs-option-window.c writes the option, hs-option-lines.c its lines,
 * hs-option-typed.c keeps what is typed. */

#define HS_OPTION_PAGE "choices"
#define HS_OPTION_KIND "kind"
#define HS_OPTION_LINE "line"
#define HS_OPTION_N_TYPED 6
#define HS_OPTION_N_KEPT (HS_OPTION_N_TYPED + 2)
#define HS_OPTION_N_KINDS 6

/* The fields that are of the option itself. */
enum
{
  HS_OPTION_WORDING,
  HS_OPTION_GROUP,
  HS_OPTION_RISK,
  HS_OPTION_N_FIELDS,
};

struct _HsOptionWindow
{
  AdwWindow parent_instance;

  GtkLabel *refusal;
  GtkEditable *wording;
  GtkFlowBox *ranks;
  GtkEditable *group;
  GtkEditable *risk;
  GtkLabel *price;
  GtkLabel *passes;
  GtkBox *lines;
  GtkFlowBox *kinds;
  GtkEditable *what;
  GtkWidget *number_box;
  GtkLabel *number_label;
  GtkEditable *number;
  GtkWidget *times_box;
  GtkEditable *times;

  HsPage *page; /* weak: under us, in the window that destroys us */
  HsJobPane *pane; /* weak: the same, which keeps what is typed; also once we are shut, until the book has answered */
  char *job_id;
  char *choice_id;
  char *rank;
  char *beside;  /* of a new one: the option whose question it answers, too */
  char *line_id; /* of the line that stands in the fields, so that it is in the book once however often it is sent */
  char *taken;   /* its words as they stood there when the window was opened */
  char *saved[HS_OPTION_N_FIELDS]; /* as the book has it */
  char *sent[HS_OPTION_N_FIELDS];  /* on its way there; %NULL: nothing is */
  guint kind;
  HsLateKeys *late;
  gboolean adding; /* the option is on its way to the book */
  gboolean sending_line; /* a line is */
  gboolean ending; /* it shuts once the line that was begun is in the book */
  gboolean filling;
};

/* (nullable): gone with the page. */
HsLedger *hs_option_window_get_ledger (HsOptionWindow *self);
void hs_option_window_save_fields (HsOptionWindow *self);
GtkWidget *hs_option_window_nth_button (GtkFlowBox *buttons, guint nth);
void hs_option_window_mark (GtkFlowBox *buttons, guint chosen);

/* hs_option_window_get_kind_id: (nullable): of the nth kind of line. */
const char *hs_option_window_get_kind_id (guint kind);
const char *hs_option_window_get_kind_word (guint kind);
void hs_option_window_set_kind (HsOptionWindow *self, guint kind);
gboolean hs_option_window_is_line_begun (HsOptionWindow *self);

/* hs_option_window_add_line: what stands in the fields of the line, or says what it lacks; @ending: then shuts. */
void hs_option_window_add_line (HsOptionWindow *self, gboolean ending);
void hs_option_window_line_entered (HsOptionWindow *self, GtkWidget *entry);
void hs_option_window_list_lines (HsOptionWindow *self, const HsChoice *choice);

/* hs_option_line_name: the line that stands in the fields has an id from now on. */
void hs_option_line_name (HsOptionWindow *self);

/* hs_option_line_settle: the book has it already, for it was sent before the window was shut the last time. */
void hs_option_line_settle (HsOptionWindow *self, const HsChoice *choice);

/* hs_option_typed_get: a field and its name; those of the option itself come first. */
GtkEditable *hs_option_typed_get (HsOptionWindow *self, guint i, const char **ret_name);
void hs_option_typed_note (HsOptionWindow *self, GtkEditable *entry);
void hs_option_typed_note_kind (HsOptionWindow *self);
void hs_option_typed_leave (HsOptionWindow *self);
void hs_option_typed_take_up (HsOptionWindow *self);
void hs_option_typed_take_up_kind (HsOptionWindow *self);

/* hs_option_typed_settle: the book has the option's own fields as they were saved; what was typed since, and of a line,
 * is kept on. No widget is asked, here and below: we may be shut by now. */
void hs_option_typed_settle (HsOptionWindow *self);

/* hs_option_typed_take_id: the book has the option as @id, under which its typed text is kept from now on. */
void hs_option_typed_take_id (HsOptionWindow *self, char *id);

/* hs_option_typed_forget_line: the book has the line. */
void hs_option_typed_forget_line (HsOptionWindow *self);

/* hs_option_typed_forget: nothing of this option is typed any more. */
void hs_option_typed_forget (HsOptionWindow *self);

G_END_DECLS
