// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-go-ahead.h"

G_BEGIN_DECLS

/*
 * Told and picked: options that stand beside each other in a group, each made of lines, and what the customer answered.
 * Each operation is one transaction and one step that can be taken back. A squared job takes none. An option that was
 * answered is not changed; its answer is taken back first, so that what was agreed stays what was shown.
 */

/**
 * HsChoiceEntry:
 * @group: (nullable): options of one group stand beside each other
 * @rank: (nullable): `best`, `enough`, `least`, or a place from 1
 * @wording: what it is, in the customer's words
 * @risk: (nullable): in one sentence
 * @finding_id: (nullable): what it is about
 * @beside: (nullable): of a new one: it answers the same question as this option, in whose group it goes; an option
 *   without a group lends its words to the group
 *
 * An option. When one is changed, what is %NULL stays as it is and an empty text takes it away.
 */
typedef struct
{
  const char *group;
  const char *rank;
  const char *wording;
  const char *risk;
  const char *finding_id;
  const char *beside;
} HsChoiceEntry;

/**
 * HsChoiceLineEntry:
 * @id: (nullable): its own, from who writes it down: sent twice, it is there once, and refused if it came with
 *   something else in it; %NULL: a new one
 * @kind: labor, part, call_out, core_deposit, discount, sundry, goodwill; %NULL: part if one is named or costs
 *   something, else labor
 * @what: (nullable): %NULL: the catalog's name of the part, or what such a line is called; of a part also its number
 * @part_number: (nullable): of the catalog
 * @minutes: of labor
 * @quantity_milli: thousandths; 0: one
 * @cost_cents: of one piece, or %HS_INT_NONE: what the catalog paid last
 * @price_cents: of the whole line without tax, or %HS_INT_NONE: by the book's rates
 */
typedef struct
{
  const char *id;
  const char *kind;
  const char *what;
  const char *part_number;
  gint64 minutes;
  gint64 quantity_milli;
  gint64 cost_cents;
  gint64 price_cents;
} HsChoiceLineEntry;

/* An entry with nothing in it. */
#define HS_CHOICE_LINE_NONE \
  (HsChoiceLineEntry) { .cost_cents = HS_INT_NONE, .price_cents = HS_INT_NONE }

/** hs_choice_add: @lines: (array length=n_lines): its price is their sum with tax. Returns the option's id. */
char *hs_choice_add (HsBook *book, const char *job_id, const HsChoiceEntry *entry, const HsChoiceLineEntry *lines,
                     gsize n_lines, HsInstant now, GError **error);
gboolean hs_choice_change (HsBook *book, const char *choice_id, const HsChoiceEntry *entry, HsInstant now,
                           GError **error);
gboolean hs_choice_remove (HsBook *book, const char *choice_id, HsInstant now, GError **error);

/** hs_choice_line_add: Returns the line's id; nothing is done where the option has that very line. */
char *hs_choice_line_add (HsBook *book, const char *choice_id, const HsChoiceLineEntry *line, HsInstant now,
                          GError **error);
gboolean hs_choice_line_remove (HsBook *book, const char *line_id, HsInstant now, GError **error);

/**
 * HsChoiceAnswer:
 * @choice: `open` takes the answer back, `yes`, `no`, `later`
 * @by: who decided
 * @means: how it came; %NULL: signed on the screen with a @signature, else it is refused
 * @risk: (nullable): the risk that was told; %NULL: as it is written down
 * @at: 0: now, or when the work was agreed first, of a yes that is said once more or instead of another one's
 * @call_on: for `later`, and for `no` if wanted: when to call; %HS_DATE_NONE: in 14 days for `later`, never for `no`
 * @ceiling_cents: a new go-ahead by the same person in the same way, or %HS_INT_NONE: none
 * @signature: (nullable): of that go-ahead, or of the no or later that was signed
 */
typedef struct
{
  const char *choice;
  const char *by;
  const char *means;
  const char *risk;
  HsInstant at;
  HsDate call_on;
  gint64 ceiling_cents;
  GBytes *signature;
} HsChoiceAnswer;

/* An answer with nothing in it. */
#define HS_CHOICE_ANSWER_NONE \
  (HsChoiceAnswer) { .call_on = HS_DATE_NONE, .ceiling_cents = HS_INT_NONE }

/**
 * hs_choice_decide:
 *
 * A yes puts the option's lines on the bill and its parts among the needs, and answers the rest of its group with no:
 * each keeps the risk that was told of it, a better one without gets that of what was picked, else it says that none
 * was told. Where nobody said their places, each without gets that of what was picked, which is taken instead of it.
 * What a better one got goes when its answer is taken back, or a lesser one is picked anew. A yes is refused, by how
 * much, if that would pass the go-ahead. Any other answer takes those lines off again.
 * A later makes somebody to call.
 */
gboolean hs_choice_decide (HsBook *book, const char *choice_id, const HsChoiceAnswer *answer, HsInstant now,
                           GError **error);

/* What is written down --------------------------------------------------------------------------------------------- */

/**
 * HsChoiceLine:
 * @minutes: of labor that goes by the clock, else 0
 * @cost_cents, @price_cents, @tax_cents: of the whole line
 */
typedef struct
{
  char *id;
  char *kind;
  char *what;
  char *part_number;
  gint64 minutes;
  gint64 quantity_milli;
  gint64 cost_cents;
  gint64 price_cents;
  gint64 tax_cents;
} HsChoiceLine;

/**
 * HsChoice:
 * @number: from 1, in the order in which they are shown
 * @rank: (nullable): `best`, `enough`, `least`
 * @no_risk: @risk says only that none was told: another one was picked
 * @price_cents: with tax
 * @choice: `open`, `yes`, `no`, `later`
 * @call_on: or %HS_DATE_NONE
 * @signature: (nullable): of a no or a later
 * @lines: (element-type HsChoiceLine)
 * @less_cents: how much less it is than the first of its group; 0 for that
 * @in_all_cents: what is paid if the first of its group is wanted later after all; 0 for that one and where it is no
 *   dearer
 * @would_cents: what the job would come to with it, with tax
 * @would_short_cents: by how much that would pass the go-ahead; all of it while there is none
 */
typedef struct
{
  guint number;
  char *id;
  char *group;
  char *rank;
  char *wording;
  char *risk;
  gboolean no_risk;
  gint64 price_cents;
  char *choice;
  char *by;
  char *means;
  HsInstant at;
  HsDate call_on;
  GBytes *signature;
  GPtrArray *lines;
  gint64 less_cents;
  gint64 in_all_cents;
  gint64 would_cents;
  gint64 would_short_cents;
} HsChoice;

/**
 * HsGoAhead:
 * @signature: (nullable)
 */
typedef struct
{
  gint64 ceiling_cents;
  char *by;
  char *means;
  HsInstant at;
  GBytes *signature;
} HsGoAhead;

/**
 * HsDeclined:
 * @number: of an earlier job on the same vehicle
 * @days: from that visit to this job's day
 * @wording, @price_cents, @risk, @by, @choice: of what was declined or put off there
 * @picked: (nullable): what was picked there instead
 * @paid_cents: the invoice of that job
 * @in_all_cents: that and this job's lines, or what was declined while this job has none
 * @extra_cents: how much more that is than what was declined
 * @follows: this job is its return visit
 * @return_why: (nullable): why, if it is
 */
typedef struct
{
  char *job_id;
  char *number;
  HsDate day;
  int days;
  char *wording;
  char *choice;
  char *risk;
  char *by;
  gint64 price_cents;
  char *picked;
  gint64 paid_cents;
  gint64 in_all_cents;
  gint64 extra_cents;
  gboolean follows;
  char *return_why;
} HsDeclined;

/**
 * HsJobChoices:
 * @choices: (element-type HsChoice): group by group, best first; one whose place in its group nobody said stands before
 *   those that cost less
 * @go_aheads: (element-type HsGoAhead): in the order in which they were given
 * @room: how far the latest one reaches
 * @room_words: that as a sentence
 * @declined: (element-type HsDeclined): what was declined on the vehicle's earlier jobs, latest first
 * @customer: whom the job is for
 * @squared: nothing may change any more
 */
typedef struct
{
  GPtrArray *choices;
  GPtrArray *go_aheads;
  HsGoAheadRoom *room;
  char *room_words;
  GPtrArray *declined;
  char *customer;
  gboolean squared;
} HsJobChoices;

void hs_job_choices_free (HsJobChoices *choices);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsJobChoices, hs_job_choices_free)

/** hs_job_choices_load: (transfer full) (nullable): reads only. */
HsJobChoices *hs_job_choices_load (HsBook *book, const char *job_id, HsInstant now, GError **error);

/** hs_job_choices_find: (transfer none) (nullable): an option by its number. */
const HsChoice *hs_job_choices_find (const HsJobChoices *choices, guint number);

/**
 * hs_job_follow:
 * @earlier_id: a job on the same vehicle
 * @why: `declined_earlier`, `cheaper_choice` …
 *
 * Makes a job the return visit to an earlier one, and says why.
 */
gboolean hs_job_follow (HsBook *book, const char *job_id, const char *earlier_id, const char *why, HsInstant now,
                        GError **error);

G_END_DECLS
