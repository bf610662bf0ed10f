// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What was told and picked in words for the page. A choice that was made is shown without a remark: what it would have
 * saved or cost later is told only while it is open. */

#include "hs-choice-face.h"

#include <glib/gi18n.h>

#include "hs-decimal.h"
#include "hs-line-list.h"
#include "hs-show.h"
#include "hs-signature-pad.h"

/* "Feb 3, 09:36". */
static char *
dup_minute (HsLedger *ledger, HsInstant at)
{
  g_autofree char *clock = hs_show_clock (ledger, at);
  g_autofree char *date = NULL;
  HsDate day;

  hs_instant_to_local (hs_ledger_get_zone (ledger), at, &day, NULL);
  date = hs_show_day (day);
  /* Translators: a day and a time of day. */
  return g_strdup_printf (_("%s, %s"), date, clock);
}

static char *
dup_answer (HsLedger *ledger, const HsChoice *choice)
{
  g_autofree char *minute = NULL;
  g_autofree char *day = NULL;
  g_autofree char *call = NULL;

  if (g_str_equal (choice->choice, "open"))
    return g_strdup (_("No answer yet"));
  minute = dup_minute (ledger, choice->at);
  day = hs_show_day (choice->call_on);
  /* Translators: a day on which to call somebody. */
  call = choice->call_on == HS_DATE_NONE ? g_strdup ("") : g_strdup_printf (_("call on %s"), day);
  return hs_show_joined (hs_show_word (HS_WORDS_CHOICE, choice->choice), choice->by,
                         hs_show_word (HS_WORDS_MEANS, choice->means), minute, call, NULL);
}

static char *
dup_weigh (HsLedger *ledger, const HsChoice *choice)
{
  g_autofree char *less = hs_show_money (ledger, choice->less_cents);
  g_autofree char *in_all = hs_show_money (ledger, choice->in_all_cents);
  g_autofree char *would = hs_show_money (ledger, choice->would_cents);
  g_autofree char *over = hs_show_money (ledger, choice->would_short_cents);
  g_autofree char *beside = NULL;
  g_autofree char *passes = NULL;

  if (!g_str_equal (choice->choice, "open"))
    return NULL;
  /* Translators: two sums of money. */
  beside = choice->less_cents > 0
               ? g_strdup_printf (_("%s less now; %s in all if the rest follows later"), less, in_all)
               : g_strdup ("");
  /* Translators: two sums of money: what the job comes to, and by how much that is more than was agreed to. */
  passes = choice->would_short_cents > 0 && choice->would_short_cents < choice->would_cents
               ? g_strdup_printf (_("brings the job to %s: short by %s"), would, over)
               : g_strdup ("");
  return hs_show_joined (beside, passes, NULL);
}

static const char *
rank_word (const HsChoice *choice)
{
  if (g_strcmp0 (choice->rank, "best") == 0)
    return _("Best");
  if (g_strcmp0 (choice->rank, "enough") == 0)
    return _("Enough");
  return g_strcmp0 (choice->rank, "least") == 0 ? _("Least") : "";
}

GtkWidget *
hs_choice_face_card (HsLedger *ledger, const HsChoice *choice)
{
  g_autofree char *price = hs_show_money (ledger, choice->price_cents);
  g_autofree char *answer = dup_answer (ledger, choice);
  g_autofree char *weigh = dup_weigh (ledger, choice);
  g_autofree char *rank = hs_show_joined (rank_word (choice), choice->group != NULL ? choice->group : "", NULL);

  return hs_choice_card_new (&(HsChoiceFace) { .number = choice->number, .rank = rank, .wording = choice->wording,
                                               .price = price, .risk = choice->risk, .weigh = weigh,
                                               .answer = answer,
                                               .chosen = g_str_equal (choice->choice, "yes") });
}

char *
hs_choice_face_dup_line (const HsChoiceLine *line)
{
  g_autofree char *times = NULL;
  g_autofree char *minutes = NULL;

  if (line->minutes > 0)
    minutes = hs_show_span (line->minutes * 60);
  else if (line->quantity_milli != 1000)
    times = hs_decimal_format_short (line->quantity_milli, 3);
  return hs_show_joined (line->what, minutes != NULL ? minutes : "", times != NULL ? "×" : "",
                         times != NULL ? times : "", NULL);
}

char *
hs_choice_face_dup_shares (HsLedger *ledger, gint64 cost_cents, gint64 price_cents, gint64 tax_cents)
{
  g_autofree char *cost = hs_show_money (ledger, cost_cents);
  g_autofree char *markup = hs_show_money (ledger, price_cents - cost_cents);
  g_autofree char *tax = hs_show_money (ledger, tax_cents);

  if (cost_cents == 0)
    return NULL;
  if (tax_cents == 0)
    /* Translators: two sums of money: what a part cost, and what is added to that. */
    return g_strdup_printf (_("cost %s, markup %s"), cost, markup);
  /* Translators: three sums of money: what a part cost, what is added to that, and the tax. */
  return g_strdup_printf (_("cost %s, markup %s, tax %s"), cost, markup, tax);
}

char *
hs_choice_face_dup_declined (HsLedger *ledger, const HsDeclined *declined)
{
  g_autofree char *price = hs_show_money (ledger, declined->price_cents);
  g_autofree char *in_all = hs_show_money (ledger, declined->in_all_cents);
  g_autofree char *extra = hs_show_money (ledger, declined->extra_cents);
  g_autofree char *what
      = g_str_equal (declined->choice, "later")
            /* Translators: a job's number, days, what was recommended, a sum of money. */
            ? g_strdup_printf (ngettext ("Put off on %s, %d day before: %s, %s.",
                                         "Put off on %s, %d days before: %s, %s.", (gulong) declined->days),
                               declined->number, declined->days, declined->wording, price)
            : g_strdup_printf (ngettext ("Declined on %s, %d day before: %s, %s.",
                                         "Declined on %s, %d days before: %s, %s.", (gulong) declined->days),
                               declined->number, declined->days, declined->wording, price);
  /* Translators: two sums of money. */
  g_autofree char *sums = g_strdup_printf (_("%s in all over both visits, %s extra."), in_all, extra);

  return g_strdup_printf ("%s\n%s", what, sums);
}

char *
hs_choice_face_dup_room (HsLedger *ledger, const HsGoAheadRoom *room)
{
  g_autofree char *over = hs_show_money (ledger, room->short_cents);
  g_autofree char *left = hs_show_money (ledger, room->ceiling_cents + room->overrun_cents - room->total_cents);

  if (!room->given)
    return g_strdup (_("no go-ahead yet"));
  /* Translators: a sum of money. */
  return room->short_cents > 0 ? g_strdup_printf (_("short by %s"), over) : g_strdup_printf (_("room for %s"), left);
}

static void
add_signature (GtkBox *box, const char *by, GBytes *signature)
{
  GtkWidget *pad;

  if (signature == NULL)
    return;
  pad = hs_signature_pad_new ();
  hs_signature_pad_set_hint (HS_SIGNATURE_PAD (pad), by);
  hs_signature_pad_show (HS_SIGNATURE_PAD (pad), signature);
  gtk_widget_set_focusable (pad, FALSE);
  gtk_box_append (box, pad);
}

/* What was declined and signed stands under what was agreed to. */
static void
add_signed_declines (GtkBox *box, HsLedger *ledger, const HsJobChoices *job)
{
  for (guint i = 0; i < job->choices->len; i++)
    {
      const HsChoice *choice = g_ptr_array_index (job->choices, i);
      g_autofree char *answer = choice->signature != NULL ? dup_answer (ledger, choice) : NULL;
      g_autofree char *text = answer != NULL ? g_strdup_printf ("%s: %s", choice->wording, answer) : NULL;

      if (text == NULL)
        continue;
      hs_line_list_add (box, text, NULL, NULL);
      add_signature (box, choice->by, choice->signature);
    }
}

void
hs_choice_face_list_go_aheads (GtkBox *box, HsLedger *ledger, const HsJobChoices *job)
{
  hs_line_list_clear (box);
  for (guint i = job->go_aheads->len; i > 0; i--)
    {
      const HsGoAhead *yes = g_ptr_array_index (job->go_aheads, i - 1);
      g_autofree char *ceiling = hs_show_money (ledger, yes->ceiling_cents);
      g_autofree char *minute = dup_minute (ledger, yes->at);
      g_autofree char *who = hs_show_joined (yes->by, hs_show_word (HS_WORDS_MEANS, yes->means), minute, NULL);

      hs_line_list_add (box, who, ceiling, i == job->go_aheads->len ? "hs-strong" : "hs-soft");
      add_signature (box, yes->by, yes->signature);
    }
  add_signed_declines (box, ledger, job);
}
