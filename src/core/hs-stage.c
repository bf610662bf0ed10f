// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Where a job stands and where it may go: for every button and command that moves one. Refuses a move that would
 * leave a job unproven, unexplained, undecided or unpaid for, and says what is missing. */

#include "hs-stage.h"

#include "hs-core-error.h"
#include "hs-money.h"
#include "hs-words.h"

#define OFF_THE_ROAD (-1)
#define NO_NEXT (-1)

/* How far along the road each stage is, the usual next one, and the name of its silhouette. */
static const struct
{
  int rank;
  int next;
  const char *shape;
} stages[HS_N_STAGES] = {
  [HS_STAGE_CALLED_IN] = { 0, HS_STAGE_PENCILED, "stage-called_in" },
  [HS_STAGE_PENCILED] = { 1, HS_STAGE_PROMISED, "stage-penciled" },
  [HS_STAGE_PROMISED] = { 2, HS_STAGE_ROLLING, "stage-promised" },
  [HS_STAGE_ROLLING] = { 3, HS_STAGE_ON_SITE, "stage-rolling" },
  [HS_STAGE_ON_SITE] = { 4, HS_STAGE_PROVEN, "stage-on_site" },
  [HS_STAGE_WAITING_PART] = { 5, HS_STAGE_ROLLING, "stage-waiting_part" },
  [HS_STAGE_WAITING_YES] = { 5, HS_STAGE_ON_SITE, "stage-waiting_yes" },
  [HS_STAGE_PROVEN] = { 6, HS_STAGE_SQUARED, "stage-proven" },
  [HS_STAGE_SQUARED] = { 7, NO_NEXT, "stage-squared" },
  [HS_STAGE_CALLED_OFF] = { OFF_THE_ROAD, NO_NEXT, "stage-called_off" },
  [HS_STAGE_TURNED_AWAY] = { OFF_THE_ROAD, NO_NEXT, "stage-turned_away" },
};

const char *
hs_stage_id (HsStage stage)
{
  g_return_val_if_fail (stage < HS_N_STAGES, NULL);
  return hs_words_get (HS_WORDS_STAGE, NULL)[stage].id;
}

const char *
hs_stage_label (HsStage stage)
{
  g_return_val_if_fail (stage < HS_N_STAGES, NULL);
  return hs_words_get (HS_WORDS_STAGE, NULL)[stage].label;
}

const char *
hs_stage_shape (HsStage stage)
{
  g_return_val_if_fail (stage < HS_N_STAGES, NULL);
  return stages[stage].shape;
}

gboolean
hs_stage_parse (const char *text, HsStage *ret_stage, GError **error)
{
  int index;

  if (!hs_words_parse_index (HS_WORDS_STAGE, text, &index, error))
    return FALSE;
  *ret_stage = (HsStage) index;
  return TRUE;
}

gboolean
hs_stage_is_open (HsStage stage)
{
  return stages[stage].rank != OFF_THE_ROAD && stage != HS_STAGE_SQUARED;
}

gboolean
hs_stage_next (HsStage stage, HsStage *ret_next)
{
  if (stages[stage].next == NO_NEXT)
    return FALSE;
  *ret_next = (HsStage) stages[stage].next;
  return TRUE;
}

gboolean
hs_stage_may_move (HsStage from, HsStage to)
{
  int was = stages[from].rank;
  int becomes = stages[to].rank;
  int site = stages[HS_STAGE_ON_SITE].rank;
  int proven = stages[HS_STAGE_PROVEN].rank;

  if (from == to || from == HS_STAGE_SQUARED)
    return FALSE;
  /* A fee for what was called off is squared up like any other bill. */
  if (from == HS_STAGE_CALLED_OFF && to == HS_STAGE_SQUARED)
    return TRUE;
  if (becomes == OFF_THE_ROAD)
    return was != OFF_THE_ROAD && was < proven;
  if (was == OFF_THE_ROAD || becomes <= site)
    return becomes <= site;
  /* What is left leads to waiting, proven or squared: one stride at a time, or back. */
  if (to == HS_STAGE_SQUARED)
    return from == HS_STAGE_PROVEN;
  return was >= site;
}

static HsStageWhyNot
why_not_finished (HsStage to, const HsStageFacts *facts)
{
  if (facts->open_safety != NULL)
    return HS_STAGE_OPEN_SAFETY;
  if (!facts->has_after_reading && !facts->has_unproven_reason)
    return HS_STAGE_NO_PROOF;
  if (to == HS_STAGE_PROVEN && facts->complaint_stays != NULL && !facts->has_unproven_reason)
    return HS_STAGE_COMPLAINT_STAYS;
  if (facts->parts_without_reason > 0)
    return HS_STAGE_PART_WITHOUT_REASON;
  if (facts->open_ends != NULL)
    return HS_STAGE_OPEN_END;
  if (to == HS_STAGE_SQUARED && facts->open_choices > 0)
    return HS_STAGE_OPEN_CHOICE;
  if (to == HS_STAGE_SQUARED && hs_stage_short_cents (facts) > 0)
    return HS_STAGE_OVER_CEILING;
  return HS_STAGE_MAY_MOVE;
}

/* Nothing was repaired, so nothing is proven; what was put in or told all the same is held to the same rules. */
static HsStageWhyNot
why_not_charged (const HsStageFacts *facts)
{
  if (facts->parts_without_reason > 0)
    return HS_STAGE_PART_WITHOUT_REASON;
  if (facts->open_choices > 0)
    return HS_STAGE_OPEN_CHOICE;
  return hs_stage_short_cents (facts) > 0 ? HS_STAGE_OVER_CEILING : HS_STAGE_MAY_MOVE;
}

HsStageWhyNot
hs_stage_why_not (HsStage from, HsStage to, const HsStageFacts *facts)
{
  if (from == to)
    return HS_STAGE_SAME;
  if (from == HS_STAGE_SQUARED)
    return HS_STAGE_SHUT_FOR_GOOD;
  if (!hs_stage_may_move (from, to))
    return HS_STAGE_NO_SUCH_MOVE;
  if (from == HS_STAGE_CALLED_OFF && to == HS_STAGE_SQUARED)
    return why_not_charged (facts);
  if (to == HS_STAGE_PROVEN || to == HS_STAGE_SQUARED)
    return why_not_finished (to, facts);
  if (stages[to].rank == OFF_THE_ROAD && !facts->has_leaving_reason)
    return HS_STAGE_NO_LEAVING_REASON;
  return HS_STAGE_MAY_MOVE;
}

gint64
hs_stage_short_cents (const HsStageFacts *facts)
{
  gint64 covered = facts->ceiling_cents;
  gint64 over;

  if (covered > 0 && __builtin_add_overflow (covered, facts->overrun_cents, &covered))
    covered = G_MAXINT64;
  if (facts->charges_cents <= covered)
    return 0;
  return __builtin_sub_overflow (facts->charges_cents, covered, &over) ? G_MAXINT64 : over;
}

static char *
say_over_ceiling (const HsStageFacts *facts)
{
  g_autofree char *charges = hs_money_format_grouped (facts->charges_cents, facts->currency);
  g_autofree char *ceiling = hs_money_format_grouped (facts->ceiling_cents, facts->currency);
  g_autofree char *over = hs_money_format_grouped (hs_stage_short_cents (facts), facts->currency);

  if (facts->ceiling_cents > 0 && facts->overrun_cents > 0)
    {
      g_autofree char *overrun = hs_money_format_grouped (facts->overrun_cents, facts->currency);

      return g_strdup_printf ("The charges come to %s and the go-ahead covers %s with %s to spare: short by %s. "
                              "Ask for a new go-ahead or take something off.", charges, ceiling, overrun, over);
    }
  return g_strdup_printf ("The charges come to %s and the go-ahead covers %s: short by %s. "
                          "Ask for a new go-ahead or take something off.", charges, ceiling, over);
}

static char *
say_no_such_move (HsStage from, HsStage to)
{
  const char *hint = "Take it back to an earlier stage first.";

  if (to == HS_STAGE_SQUARED)
    hint = "It has to be tested good first.";
  else if (stages[to].rank > stages[HS_STAGE_ON_SITE].rank && stages[from].rank != OFF_THE_ROAD)
    hint = "Arrive at the vehicle first.";
  return g_strdup_printf ("A job cannot go from “%s” to “%s”. %s", hs_stage_label (from), hs_stage_label (to), hint);
}

static char *
say_why_not (HsStageWhyNot why_not, HsStage from, HsStage to, const HsStageFacts *facts)
{
  switch (why_not)
    {
    case HS_STAGE_SAME:
      return g_strdup_printf ("The job is at “%s” already.", hs_stage_label (to));
    case HS_STAGE_SHUT_FOR_GOOD:
      return g_strdup ("A squared job does not go back. Open a return visit for it.");
    case HS_STAGE_NO_SUCH_MOVE:
      return say_no_such_move (from, to);
    case HS_STAGE_OPEN_SAFETY:
      return g_strdup_printf ("The safety list of this visit is not done: %s. Answer each by itself, or refuse the "
                              "work and say why.", facts->open_safety);
    case HS_STAGE_NO_PROOF:
      return g_strdup ("There is no reading after the repair. Take one, or write down why it could not be tested.");
    case HS_STAGE_COMPLAINT_STAYS:
      return g_strdup_printf ("The complaint was tried again and is still there: %s good. Go on with why it failed, "
                              "or write down why it is left so.", facts->complaint_stays);
    case HS_STAGE_PART_WITHOUT_REASON:
      return g_strdup_printf (facts->parts_without_reason == 1
                                ? "%u installed part does not say why the old one failed. "
                                  "Give the reason, or that it is not known and when the customer was told."
                                : "%u installed parts do not say why the old ones failed. "
                                  "Give the reasons, or that they are not known and when the customer was told.",
                              facts->parts_without_reason);
    case HS_STAGE_OPEN_END:
      return g_strdup (facts->open_ends);
    case HS_STAGE_OPEN_CHOICE:
      return g_strdup_printf (facts->open_choices == 1
                                ? "%u recommendation has no answer yet. Write down yes, no or later."
                                : "%u recommendations have no answer yet. Write down yes, no or later for each.",
                              facts->open_choices);
    case HS_STAGE_OVER_CEILING:
      return say_over_ceiling (facts);
    case HS_STAGE_NO_LEAVING_REASON:
      return g_strdup_printf ("“%s” needs a reason. Write it down first.", hs_stage_label (to));
    case HS_STAGE_MAY_MOVE:
    default:
      return NULL;
    }
}

gboolean
hs_stage_check_move (HsStage from, HsStage to, const HsStageFacts *facts, GError **error)
{
  HsStageWhyNot why_not = hs_stage_why_not (from, to, facts);
  g_autofree char *sentence = NULL;

  if (why_not == HS_STAGE_MAY_MOVE)
    return TRUE;
  sentence = say_why_not (why_not, from, to, facts);
  g_set_error_literal (error, HS_CORE_ERROR, HS_CORE_ERROR_REFUSED, sentence);
  return FALSE;
}
