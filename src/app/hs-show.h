// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-battery-fact.h"
#include "hs-ledger.h"
#include "hs-travel.h"
#include "hs-verdict-label.h"
#include "hs-words.h"

G_BEGIN_DECLS

/* How facts of the book are written on a page. All return new text (transfer full) unless said, and never %NULL; what
 * is not known is shown as an empty text. Times are in the book's zone. */

/* hs_show_clock: "08:31". */
char *hs_show_clock (HsLedger *ledger, HsInstant instant);

/* hs_show_window: "08:00–10:00", "after 14:00", "by 16:00". */
char *hs_show_window (HsLedger *ledger, HsInstant from, HsInstant to);

/* hs_show_day: "Mar 10". */
char *hs_show_day (HsDate day);

/* hs_show_weekday: "Tue, Mar 10". */
char *hs_show_weekday (HsDate day);

/* hs_show_full_day: "Tuesday, March 10, 2026". */
char *hs_show_full_day (HsDate day);

/* hs_show_day_of: "today" if it is, else "Mar 10". */
char *hs_show_day_of (HsLedger *ledger, HsInstant instant);

/* hs_show_money: "1,234.50", without a currency sign. */
char *hs_show_money (HsLedger *ledger, gint64 cents);

/* hs_show_miles: "33.3". */
char *hs_show_miles (gint64 millimiles);

/* hs_show_minutes: whole minutes, "81". */
char *hs_show_minutes (gint64 seconds);

/* hs_show_drive_source: where the minutes of a drive come from: "guess: 3 own trips and the estimate". */
char *hs_show_drive_source (const HsTravelLeg *leg);

/* hs_show_span: "44 min", "2 h 16 min". */
char *hs_show_span (gint64 seconds);

/* hs_show_age: "just now", "6 min ago", "2 h 16 min ago", "3 days ago". */
char *hs_show_age (gint64 seconds);

/* hs_show_months: "29 months"; empty for less than none. */
char *hs_show_months (int months);

/* hs_show_word: (transfer none): a word of the book as it is read; empty for %NULL. */
const char *hs_show_word (HsWords words, const char *id);

/* hs_show_data: (transfer none): words of a data file that are shipped, in the language of the screen; words of the
 * owner's own as they are; %NULL for %NULL. What the book keeps and what goes back into it is never this. */
const char *hs_show_data (const char *words);

/* hs_show_sentences: (transfer full): the same of words that are shown in whole or in part: sentence by sentence. */
char *hs_show_sentences (const char *words);

/* hs_show_verdict: (transfer none) (nullable): the word in the box of a verdict, likewise. */
const char *hs_show_verdict (const char *word);

/* hs_show_quoted: a caller's words between quotation marks. */
char *hs_show_quoted (const char *words);

/* hs_show_joined: the texts that are there, with " · " between them; ends at the first %NULL argument after @first; an
 * empty text is left out. */
char *hs_show_joined (const char *first, ...) G_GNUC_NULL_TERMINATED;

/* hs_show_verdict_shape: the box of a verdict id and its word; plain for %NULL, double for "Do not drive". */
HsVerdictShape hs_show_verdict_shape (const char *verdict, const char *word);

/* hs_show_battery: (transfer full): "55 Ah, flooded, 29 months", as far as it is known. */
char *hs_show_battery (const HsBatteryFact *fact);

G_END_DECLS
