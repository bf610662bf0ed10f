// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* The findings page behind its header: the page itself (hs-findings.c), its field (hs-findings-field.c), what its keys
 * do (hs-findings-keys.c), and the conditions that it asks for (hs-findings-ask.c). */

#include "hs-findings.h"

#include "hs-gauge.h"
#include "hs-key-button.h"
#include "hs-next-pane.h"
#include "hs-number-pad.h"
#include "hs-verdict-label.h"

G_BEGIN_DECLS

/*
 * @text: what is typed into the field; @trouble: why the book refused it
 * @told: condition's id → as it was told, "" for not known; what belongs to one reading goes with its line
 * @asked: the condition that is being asked, %NULL while the field is the reading's
 * @answer: what is typed to it; @fahrenheit: temperatures are typed so
 * @symptom: the complaint group whose models are shown, %NULL for the job's own; @adds_symptom: another is being chosen
 * @doubt: what is asked before @doubt_sign, Enter or a slash, stores it: + says yes; @doubt_about: why
 * @lost: keys that came too quickly and were not taken; @loses: the Enter behind them is one of them
 * @rests: nobody went to the line by himself
 * @lays_out: a complaint was chosen and its sheet is on the way: keys wait as while @storing;
 *   @laid_out: the book has it, and its next answer shows it or what took its place
 * @follows: Enter leads to what is best next; @stored_id: the reading that was stored so and that the page has not been
 *   shown yet
 */
struct _HsFindings
{
  HsPage parent_instance;

  GtkBox *panes;
  GtkWidget *sheet_pane;
  GtkWidget *entry_bin;
  GtkScrolledWindow *entry_scroll;
  GtkWidget *entry_pane;
  GtkToggleButton *phase_buttons[3];
  GtkToggleButton *before_button;
  GtkToggleButton *during_button;
  GtkToggleButton *after_button;
  GtkLabel *progress;
  GtkListBox *lines;
  GtkScrolledWindow *lines_scroll;
  GtkWidget *frozen;
  GtkStack *stack;
  GtkFlowBox *groups;
  GtkLabel *name;
  GtkLabel *typed;
  GtkBox *entry_row;
  GtkWidget *field;
  GtkLabel *figure;
  GtkLabel *unit;
  GtkWidget *verdict_box;
  HsVerdictLabel *verdict;
  GtkLabel *shape_about;
  GtkLabel *limit;
  GtkLabel *note;
  GtkWidget *details;
  HsGauge *gauge;
  GtkLabel *source;
  GtkLabel *caution;
  GtkLabel *advice;
  GtkLabel *then;
  GtkLabel *how;
  AdwBin *next_wide;
  AdwBin *next_narrow;
  GtkWidget *next_box;
  HsNextPane *next;
  HsNextKeys next_keys;
  GtkLabel *groups_title;
  GtkLabel *groups_about;
  HsNumberPad *pad;
  GtkWidget *choices;
  GtkLabel *choices_title;
  GtkLabel *choices_about;
  GtkWidget *choices_box;
  HsKeyButton *best_button;
  HsKeyButton *symptom_button;
  GtkWidget *rolling;
  GtkLabel *rolling_line;

  HsDraft *draft;
  HsSnapshot *snapshot;
  char *job_id;
  guint phase;
  guint line;
  GString *text;
  gboolean asks_why;
  gboolean storing;
  GArray *waiting; /* guint: keys that came meanwhile */
  GHashTable *told;
  const HsCondition *asked;
  GString *answer;
  gboolean fahrenheit;
  char *trouble;
  char *doubt;
  char *doubt_about;
  char doubt_sign;
  GString *lost;
  gboolean loses;
  gboolean rests;
  gboolean lays_out;
  gboolean laid_out;
  HsQuestion *judge;
  char *symptom;
  gboolean adds_symptom;
  gboolean follows;
  char *stored_id;
  guint n_missed; /* how often the job was shown without it */
  guint scroll_idle;
};

const HsJobShot *hs_findings_get_shot (HsFindings *self);
GPtrArray *hs_findings_get_sheet (HsFindings *self);
const HsReadingResult *hs_findings_get_result (HsFindings *self);
const HsCheck *hs_findings_get_check (HsFindings *self);
/* hs_findings_check_of: (transfer none) (nullable): the check of a line; @result may be %NULL. */
const HsCheck *hs_findings_check_of (HsFindings *self, const HsReadingResult *result);

void hs_findings_update_lines (HsFindings *self);
void hs_findings_text_changed (HsFindings *self);
void hs_findings_go_to_line (HsFindings *self, guint line);
/* hs_findings_rest_at: the cursor comes to a line that nobody went to. */
void hs_findings_rest_at (HsFindings *self, guint line);
void hs_findings_set_phase (HsFindings *self, guint phase);

/* hs-findings-field.c */

/* hs_findings_judged: (transfer none) (nullable): what is typed, judged; or what is stored, while nothing is typed. */
const HsReadingResult *hs_findings_judged (HsFindings *self);
void hs_findings_update_entry (HsFindings *self);

/* hs-findings-doubt.c */

/* hs_findings_doubts: what @sign would store as @keyed has to be asked about first, and is now. */
gboolean hs_findings_doubts (HsFindings *self, const char *keyed, const char *place, char sign);
void hs_findings_forget_doubt (HsFindings *self);
/* hs_findings_dup_stands: (transfer full) (nullable): "164 A stands here." */
char *hs_findings_dup_stands (HsFindings *self);
/* hs_findings_lose: @keys were meant for another line, and are not typed anywhere; they are emptied. */
void hs_findings_lose (HsFindings *self, GArray *keys);
/* hs_findings_loses: the key is of a hand that has not seen yet what it is asked, and does nothing. */
gboolean hs_findings_loses (HsFindings *self, guint keyval);
/* hs_findings_dup_lost: (transfer full) (nullable): which keys were not taken, in a sentence. */
char *hs_findings_dup_lost (HsFindings *self);
/* hs_findings_dup_shape: (transfer full): where digits come into the empty field, "0.000"; "" where there are words. */
char *hs_findings_dup_shape (HsFindings *self);
/* hs_findings_dup_shape_about: (transfer full) (nullable): the same in a sentence. */
char *hs_findings_dup_shape_about (HsFindings *self);

/* hs-findings-rolling.c */

/* hs_findings_is_rolling: a reading is taken while the van rolls: one large line, and no condition is asked. */
gboolean hs_findings_is_rolling (HsFindings *self);
void hs_findings_update_rolling (HsFindings *self);
/* hs_findings_get_keyboard: (transfer none): what has the keyboard while readings are keyed. */
GtkWidget *hs_findings_get_keyboard (HsFindings *self);

/* hs-findings-room.c */

void hs_findings_room_changed (HsPage *page);
/* hs_findings_is_slim: large text in the hand. */
gboolean hs_findings_is_slim (HsFindings *self);
/* hs_findings_set_up_room: once, before the page is shown. */
void hs_findings_set_up_room (HsFindings *self);
/* hs_findings_give_room: to what is asked, where there is little. */
void hs_findings_give_room (HsFindings *self);
/* hs_findings_show_field: scrolls back to what is being typed, and to what can be pressed to answer it. */
void hs_findings_show_field (HsFindings *self);

/* hs-findings-keys.c */

/* hs_findings_typed_cb: what the field holds was set without keys. */
void hs_findings_typed_cb (HsFindings *self, const char *text);

/* hs_findings_holds: the key comes while a reading or a sheet is on its way, and waits for it. */
gboolean hs_findings_holds (HsFindings *self, guint keyval);
/* hs_findings_press_arrow: another line, freely; what is typed is never left behind. */
gboolean hs_findings_press_arrow (HsFindings *self, guint keyval);
/* hs_findings_take_sheet: the sheet of the chosen complaint may be there. */
void hs_findings_take_sheet (HsFindings *self);
/* hs_findings_press_waiting: the keys that were quicker than the book, now that it is known which line is theirs. */
void hs_findings_press_waiting (HsFindings *self);

/* hs_findings_dup_keyed: (transfer full): what is typed of the value; the letters behind a number say where it was
 * taken: @ret_place (optional) (nullable). */
char *hs_findings_dup_keyed (HsFindings *self, char **ret_place);
/* hs_findings_is_typed_well: what is typed can be a reading. */
gboolean hs_findings_is_typed_well (HsFindings *self);
/* hs_findings_is_frozen: the job is squared up. */
gboolean hs_findings_is_frozen (HsFindings *self);

/* hs_findings_get_reason: (transfer none) (nullable): why something could not be measured, by its digit less 1. */
const char *hs_findings_get_reason (guint nth);
gboolean hs_findings_press_group (HsFindings *self, guint nth);
/* hs_findings_then: (transfer none) (nullable): where Enter goes once it is stored: the line of a check that the
 * result suggests, or the next one. */
const HsReadingResult *hs_findings_then (HsFindings *self, guint *ret_line);

/* hs-findings-next.c */

/* hs_findings_get_next: (transfer none) (nullable): of the complaint that is shown. */
const HsJobNext *hs_findings_get_next (HsFindings *self);
/* hs_findings_dup_beside: (transfer full) (nullable): how what a stored reading suggests goes with the next best. */
char *hs_findings_dup_beside (HsFindings *self, const HsReadingResult *result);
/* hs_findings_best_check: (transfer none) (nullable): its id; only before the repair. */
const char *hs_findings_best_check (HsFindings *self);
gboolean hs_findings_is_best (HsFindings *self, const HsReadingResult *result);
/* hs_findings_dup_best_minutes: "next best: 74 min". */
char *hs_findings_dup_best_minutes (HsFindings *self);
/* hs_findings_follow_best_cb: the best check was pressed. */
void hs_findings_follow_best_cb (HsFindings *self);
/* hs_findings_best_line: (transfer none) (nullable): its line on the sheet that is shown. */
const HsReadingResult *hs_findings_best_line (HsFindings *self, guint *ret_line);
/* hs_findings_to_do: after the repair, the first line that is still to be read; @but_this: beside the one of the
 * cursor. Returns: %FALSE if none is. */
gboolean hs_findings_to_do (HsFindings *self, gboolean but_this, guint *ret_line);
/* hs_findings_follow: goes to a check, and from there on to what is best next. */
void hs_findings_follow (HsFindings *self, const char *check_id);
/* hs_findings_take_stored: the job was shown anew: goes on if that was waited for. */
void hs_findings_take_stored (HsFindings *self);
/* hs_findings_update_next: @anew: the job was shown anew; else only where a key leads may have changed. */
void hs_findings_update_next (HsFindings *self, gboolean anew);
void hs_findings_choose_symptom (HsFindings *self, const char *group);
/* hs_findings_show_sheet: the readings, or the choice of one more complaint. */
void hs_findings_show_sheet (HsFindings *self);
/* hs_findings_press_symptom: a key that begins or ends that choice. */
gboolean hs_findings_press_symptom (HsFindings *self, guint keyval);
void hs_findings_turn_symptom (HsFindings *self);
void hs_findings_check_chosen_cb (HsFindings *self, const char *check_id);
void hs_findings_cause_chosen_cb (HsFindings *self, const char *cause_id);

/* hs-findings-ask.c */

/* hs_findings_ask_next: asks for a condition that the verdict of what is typed, or stands there, still wants. Returns:
 * %FALSE if it wants none. */
gboolean hs_findings_ask_next (HsFindings *self);
/* hs_findings_press_answer: a key while a condition is asked. */
void hs_findings_press_answer (HsFindings *self, char sign);
/* hs_findings_dup_told: (transfer full) (nullable): what was told, as it is written beside a reading of this check. */
char *hs_findings_dup_told (HsFindings *self);
/* hs_findings_forget_told: what belongs to one reading, or all of it. */
void hs_findings_forget_told (HsFindings *self, gboolean all);
/* hs_findings_show_choices: the digits that can be pressed now, in words. */
void hs_findings_show_choices (HsFindings *self);

G_END_DECLS
