// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* The findings page behind its header: the page itself (hs-findings.c), what its keys do (hs-findings-keys.c), and the
 * conditions that it asks for (hs-findings-ask.c). */

#include "hs-findings.h"

#include "hs-gauge.h"
#include "hs-number-pad.h"
#include "hs-verdict-label.h"

G_BEGIN_DECLS

/*
 * @text: what is typed into the field; @trouble: why the book refused it
 * @told: condition's id → as it was told, "" for not known; what belongs to one reading goes with its line
 * @asked: the condition that is being asked, %NULL while the field is the reading's
 * @answer: what is typed to it; @fahrenheit: temperatures are typed so
 */
struct _HsFindings
{
  HsPage parent_instance;

  GtkBox *panes;
  GtkWidget *sheet_pane;
  GtkWidget *entry_pane;
  GtkToggleButton *phase_buttons[3];
  GtkToggleButton *before_button;
  GtkToggleButton *during_button;
  GtkToggleButton *after_button;
  GtkLabel *progress;
  GtkListBox *lines;
  GtkScrolledWindow *lines_scroll;
  GtkStack *stack;
  GtkFlowBox *groups;
  GtkLabel *name;
  GtkLabel *typed;
  GtkBox *entry_row;
  GtkWidget *field;
  GtkLabel *figure;
  GtkLabel *unit;
  HsVerdictLabel *verdict;
  GtkLabel *limit;
  GtkLabel *note;
  GtkWidget *details_scroll;
  AdwBin *details_narrow;
  AdwBin *details_wide;
  GtkWidget *details;
  HsGauge *gauge;
  GtkLabel *source;
  GtkLabel *caution;
  GtkWidget *next_pane;
  GtkLabel *next;
  GtkLabel *then;
  GtkLabel *how;
  HsNumberPad *pad;
  GtkWidget *choices;
  GtkLabel *choices_title;
  GtkLabel *choices_text;

  HsDraft *draft;
  HsSnapshot *snapshot;
  char *job_id;
  guint phase;
  guint line;
  GString *text;
  gboolean asks_why;
  gboolean storing;
  GHashTable *told;
  const HsCondition *asked;
  GString *answer;
  gboolean fahrenheit;
  char *trouble;
  HsQuestion *judge;
};

const HsJobShot *hs_findings_get_shot (HsFindings *self);
GPtrArray *hs_findings_get_sheet (HsFindings *self);
const HsReadingResult *hs_findings_get_result (HsFindings *self);
const HsCheck *hs_findings_get_check (HsFindings *self);

/* hs_findings_judged: (transfer none) (nullable): what is typed, judged; or what is stored, while nothing is typed. */
const HsReadingResult *hs_findings_judged (HsFindings *self);

void hs_findings_update_entry (HsFindings *self);
void hs_findings_text_changed (HsFindings *self);
void hs_findings_go_to_line (HsFindings *self, guint line);
void hs_findings_set_phase (HsFindings *self, guint phase);

/* hs-findings-keys.c */

/* hs_findings_is_typed_well: what is typed can be a reading. */
gboolean hs_findings_is_typed_well (HsFindings *self);
gboolean hs_findings_press_group (HsFindings *self, guint nth);
/* hs_findings_then: (transfer none) (nullable): where Enter goes once it is stored: the line of a check that the
 * result suggests, or the next one. */
const HsReadingResult *hs_findings_then (HsFindings *self, guint *ret_line);

/* hs-findings-ask.c */

/* hs_findings_ask_next: asks for the first condition that the verdict of what is typed still wants and nobody was asked
 * for; nothing if there is none. */
void hs_findings_ask_next (HsFindings *self);
/* hs_findings_press_answer: a key while a condition is asked. */
void hs_findings_press_answer (HsFindings *self, char sign);
/* hs_findings_dup_told: (transfer full) (nullable): what was told, as it is written beside a reading of this check. */
char *hs_findings_dup_told (HsFindings *self);
/* hs_findings_forget_told: what belongs to one reading, or all of it. */
void hs_findings_forget_told (HsFindings *self, gboolean all);
/* hs_findings_show_choices: the digits that can be pressed now, in words. */
void hs_findings_show_choices (HsFindings *self);

G_END_DECLS
