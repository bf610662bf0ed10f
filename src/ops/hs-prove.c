// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is still to do before a job is tested good, as one list for the window and the command line. What the rules of
 * the stages refuse comes first; what is only asked for, like a reading that was outside and was not taken again, can
 * be left, and the sheet says so. Refuses nothing itself. */

#include "hs-repair-private.h"

#include "hs-reading-private.h"

#include <string.h>

static const char *const ids[] = { "take_one",      "complaint_stays", "part_why", "open_end", "read_again",
                                   "still_outside", "try",             "not_done", "look",     "safe" };

static void
add_item (HsRepair *repair, HsProveKind kind, gboolean must, const char *what, const char *row_id)
{
  HsProveItem *item = g_new0 (HsProveItem, 1);

  item->kind = kind;
  item->must = must;
  item->what = g_strdup (what);
  item->row_id = g_strdup (row_id);
  g_ptr_array_add (repair->missing, item);
  repair->n_must += must;
}

static gboolean
is_alike (const HsReadingResult *one, const HsReadingResult *other)
{
  return g_str_equal (one->check, other->check) && g_strcmp0 (one->place, other->place) == 0;
}

/* The last reading like @like of @phase. Returns: (nullable) */
static const HsReadingResult *
find_last (const HsJobView *view, const HsReadingResult *like, const char *phase)
{
  const HsReadingResult *found = NULL;

  for (guint i = 0; i < view->readings->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (view->readings, i);

      if (g_str_equal (result->phase, phase) && is_alike (result, like))
        found = result;
    }
  return found;
}

static gboolean
has_after (const HsJobView *view)
{
  for (guint i = 0; i < view->readings->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (view->readings, i);

      if (g_str_equal (result->phase, "after") && hs_repair_is_measured (result))
        return TRUE;
    }
  return FALSE;
}

static void
add_reading (HsRepair *repair, HsProveKind kind, const HsReadingResult *result)
{
  g_autofree char *what = g_strdup_printf ("%s%s%s, %s", result->name, result->place != NULL ? ", " : "",
                                           result->place != NULL ? result->place : "", result->value_text);
  HsProveItem *item;

  add_item (repair, kind, FALSE, what, NULL);
  item = g_ptr_array_index (repair->missing, repair->missing->len - 1);
  item->check = g_strdup (result->check);
  item->place = g_strdup (result->place);
}

static void
add_readings (HsRepair *repair, const HsJobView *view)
{
  for (guint i = 0; i < view->readings->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (view->readings, i);
      gboolean outside = g_strcmp0 (result->verdict, "outside") == 0;
      gboolean trying = g_str_equal (result->check, "starts_good") || g_str_equal (result->check, "tried_again");

      if (!outside || trying || find_last (view, result, result->phase) != result)
        continue;
      if (g_str_equal (result->phase, "before") && find_last (view, result, "after") == NULL)
        add_reading (repair, HS_PROVE_READ_AGAIN, result);
      else if (g_str_equal (result->phase, "after"))
        add_reading (repair, HS_PROVE_STILL_OUTSIDE, result);
    }
}

static void
add_parts (HsRepair *repair)
{
  for (guint i = 0; i < repair->parts->len; i++)
    {
      const HsFittedPart *part = g_ptr_array_index (repair->parts, i);

      if (part->why == NULL)
        add_item (repair, HS_PROVE_PART_WHY, TRUE, part->what, part->id);
    }
}

static void
add_ends (HsRepair *repair, const HsJobChain *chain)
{
  for (guint i = 0; i < chain->tips->len; i++)
    {
      const HsChainTip *tip = g_ptr_array_index (chain->tips, i);

      if (tip->missing != NULL)
        add_item (repair, HS_PROVE_OPEN_END, TRUE, tip->missing,
                  hs_chain_get_finding (chain->chain, tip->finding)->id);
    }
}

/* What is called cured was done by somebody; the invoice says so only if something else does, too. */
static void
add_not_done (HsRepair *repair, const HsJobChain *chain)
{
  for (guint i = 0; i < chain->tips->len; i++)
    {
      const HsChainTip *tip = g_ptr_array_index (chain->tips, i);
      const HsChainFinding *finding = hs_chain_get_finding (chain->chain, tip->finding);

      if (tip->end == HS_CHAIN_CURED && hs_chain_get_cure (chain->chain, finding) >= HS_CHAIN_CURE_UNSAID)
        add_item (repair, HS_PROVE_NOT_DONE, FALSE, finding->what, finding->id);
    }
}

static void
add_looks (HsRepair *repair)
{
  for (guint i = 0; i < repair->looks->len; i++)
    {
      const HsAfterLine *line = g_ptr_array_index (repair->looks, i);

      if (line->done_at == HS_INSTANT_NONE)
        add_item (repair, HS_PROVE_LOOK, FALSE, line->what, line->id);
    }
}

static void
add_try (HsRepair *repair)
{
  HsProveItem *item;

  if (repair->tried != NULL || repair->try_check == NULL)
    return;
  add_item (repair, HS_PROVE_TRY, FALSE, NULL, NULL);
  item = g_ptr_array_index (repair->missing, repair->missing->len - 1);
  item->check = g_strdup (repair->try_check);
}

/* Whoever drives it away has to be told, and what is squared takes no answer any more. */
static void
add_safe (HsRepair *repair, HsStage stage)
{
  if (repair->safe == NULL && stage != HS_STAGE_SQUARED)
    add_item (repair, HS_PROVE_SAFE, FALSE, NULL, NULL);
}

void
hs_prove_fill (HsRepair *repair, const HsJobView *view, const HsJobChain *chain, gboolean called_off)
{
  gboolean reason = repair->unproved_why != NULL;

  /* Off the road nothing is to be proven; parts that were put in are still asked about. */
  if (called_off || view->tag->stage == HS_STAGE_TURNED_AWAY)
    {
      add_parts (repair);
      return;
    }
  if (!has_after (view))
    add_item (repair, HS_PROVE_TAKE_ONE, !reason, NULL, NULL);
  if (repair->tried != NULL && !repair->tried_good)
    add_item (repair, HS_PROVE_COMPLAINT_STAYS, !reason, repair->tried, NULL);
  add_parts (repair);
  add_ends (repair, chain);
  add_readings (repair, view);
  add_try (repair);
  add_not_done (repair, chain);
  add_looks (repair);
  add_safe (repair, view->tag->stage);
}

const char *
hs_prove_id (HsProveKind kind)
{
  return ids[kind];
}

char *
hs_prove_say (const HsProveItem *item, const HsTongue *in)
{
  switch (item->kind)
    {
    case HS_PROVE_TAKE_ONE:
      return g_strdup (in->gettext ("Take a reading after the repair, or say why it could not be tested."));
    case HS_PROVE_COMPLAINT_STAYS:
      return g_strdup_printf (in->gettext ("The complaint is still there: %s good. Go on, or say why it is left so."),
                              item->what);
    case HS_PROVE_PART_WHY:
      return g_strdup_printf (in->gettext ("Say why the old one went: %s."), item->what);
    case HS_PROVE_READ_AGAIN:
      return g_strdup_printf (in->gettext ("Read again: %s was outside before."), item->what);
    case HS_PROVE_STILL_OUTSIDE:
      return g_strdup_printf (in->gettext ("Still outside: %s."), item->what);
    case HS_PROVE_TRY:
      return g_strdup (in->gettext ("Try the complaint again, five times or more."));
    case HS_PROVE_NOT_DONE:
      return g_strdup_printf (in->gettext ("Say what was done: “%s” is called cured, but no part is installed, nothing "
                                           "is looked after and no work is on the bill."),
                              item->what);
    case HS_PROVE_LOOK:
      return g_strdup_printf (in->gettext ("Look after: %s."), item->what);
    case HS_PROVE_SAFE:
      return g_strdup (in->gettext ("Say whether it is safe to drive: yes, no, or told not to."));
    case HS_PROVE_OPEN_END:
    default:
      return g_strdup (item->what);
    }
}

HsProveStanding
hs_prove_standing (const HsRepair *repair, HsStage stage)
{
  if (stage == HS_STAGE_CALLED_OFF || stage == HS_STAGE_TURNED_AWAY)
    return HS_PROVE_OFF_ROAD;
  if (stage == HS_STAGE_PROVEN || stage == HS_STAGE_SQUARED)
    return HS_PROVE_PROVEN;
  if (repair->n_must > 0)
    return HS_PROVE_BARRED;
  return repair->missing->len > 0 ? HS_PROVE_ASKED : HS_PROVE_READY;
}

char *
hs_prove_dup_left (const HsRepair *repair, guint most, const HsTongue *in)
{
  g_autoptr (GString) text = g_string_new (NULL);
  guint n_more = repair->missing->len > most ? repair->missing->len - most : 0;

  for (guint i = 0; i < repair->missing->len && i < most; i++)
    {
      g_autofree char *said = hs_prove_say (g_ptr_array_index (repair->missing, i), in);

      g_string_append_printf (text, "%s%s", i > 0 ? " " : "", said);
    }
  if (n_more > 0)
    {
      g_string_append (text, most > 0 ? " " : "");
      g_string_append_printf (text, in->ngettext ("And %u more, under Before and after.",
                                                  "And %u more, under Before and after.", n_more), n_more);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* (transfer none) (nullable): the line on which @item is read; an empty one without a place gets its place. */
static HsReadingResult *
find_line (const HsProveItem *item, GPtrArray *sheet)
{
  HsReadingResult *empty = NULL;

  for (guint i = 0; i < sheet->len; i++)
    {
      HsReadingResult *result = g_ptr_array_index (sheet, i);

      if (!g_str_equal (result->check, item->check))
        continue;
      if (g_strcmp0 (result->place, item->place) == 0)
        return result;
      if (result->value_text == NULL && result->place == NULL && empty == NULL)
        empty = result;
    }
  if (empty != NULL)
    empty->place = g_strdup (item->place);
  return empty;
}

void
hs_prove_add_lines (HsBook *book, const HsRepair *repair, GPtrArray *sheet)
{
  for (guint i = 0; i < repair->missing->len; i++)
    {
      const HsProveItem *item = g_ptr_array_index (repair->missing, i);
      const HsCheck *check = NULL;
      HsReadingResult *line;

      if (item->kind == HS_PROVE_READ_AGAIN)
        check = hs_checks_lookup (hs_book_get_checks (book), item->check);
      if (check == NULL || find_line (item, sheet) != NULL)
        continue;
      line = hs_reading_result_of_check (check, "after");
      line->place = g_strdup (item->place);
      g_ptr_array_add (sheet, line);
    }
}
