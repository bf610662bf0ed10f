// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"
#include "hs-json-out.h"
#include "hs-stage.h"
#include "hs-travel.h"

G_BEGIN_DECLS

/* What all commands share: the options that may stand anywhere, the open book, the clock and printing. */

typedef enum
{
  HS_CLI_ERROR_USAGE,
} HsCliError;

#define HS_CLI_ERROR (hs_cli_error_quark ())
GQuark hs_cli_error_quark (void);

/**
 * HsCli:
 * @json: `--json`: print for machines
 * @book_path: `--book FILE`, or where the book is by default
 * @now_text: `--now ISO8601`, or %NULL
 * @book: opened by hs_cli_open_book()
 * @now: the instant that counts as now, once the book is open
 */
typedef struct
{
  gboolean json;
  char *book_path;
  char *now_text;
  HsBook *book;
  HsInstant now;
} HsCli;

typedef gboolean (*HsCommandFunc) (HsCli *cli, char **words, GError **error);

/**
 * HsCommand:
 * @words: the arguments it takes, as the help shows them
 * @run: gets the words after the command's name; options of its own it parses with hs_cli_parse()
 */
typedef struct
{
  const char *name;
  const char *words;
  const char *help;
  HsCommandFunc run;
} HsCommand;

/* hs_cli_move_stage: @leave: `--leave-open`: what the van leaves at another vehicle stays open, its labor clock
 * stopped; without it that refuses to roll or to begin. With any other stage it is a usage error. */
gboolean hs_cli_move_stage (HsCli *cli, const char *job_id, HsStage to, const char *reason, gboolean leave,
                            GError **error);

gboolean hs_command_new (HsCli *cli, char **words, GError **error);
gboolean hs_command_demo (HsCli *cli, char **words, GError **error);
gboolean hs_command_set (HsCli *cli, char **words, GError **error);
gboolean hs_command_import (HsCli *cli, char **words, GError **error);
gboolean hs_command_find (HsCli *cli, char **words, GError **error);
gboolean hs_command_history (HsCli *cli, char **words, GError **error);
gboolean hs_command_plan (HsCli *cli, char **words, GError **error);
gboolean hs_command_parts (HsCli *cli, char **words, GError **error);
gboolean hs_command_solve (HsCli *cli, char **words, GError **error);
gboolean hs_command_squeeze (HsCli *cli, char **words, GError **error);
gboolean hs_command_travel (HsCli *cli, char **words, GError **error);
gboolean hs_command_job (HsCli *cli, char **words, GError **error);
gboolean hs_command_safety (HsCli *cli, char **words, GError **error);
gboolean hs_command_identify (HsCli *cli, char **words, GError **error);
gboolean hs_command_visit (HsCli *cli, char **words, GError **error);
gboolean hs_command_note (HsCli *cli, char **words, GError **error);
gboolean hs_command_call_off (HsCli *cli, char **words, GError **error);
gboolean hs_command_reading (HsCli *cli, char **words, GError **error);
gboolean hs_command_answer (HsCli *cli, char **words, GError **error);
gboolean hs_command_photo (HsCli *cli, char **words, GError **error);
gboolean hs_command_next (HsCli *cli, char **words, GError **error);
gboolean hs_command_advice (HsCli *cli, char **words, GError **error);
gboolean hs_command_go_ahead (HsCli *cli, char **words, GError **error);
gboolean hs_command_because (HsCli *cli, char **words, GError **error);
gboolean hs_command_fit (HsCli *cli, char **words, GError **error);
gboolean hs_command_disturbed (HsCli *cli, char **words, GError **error);
gboolean hs_command_stage (HsCli *cli, char **words, GError **error);
gboolean hs_command_handover (HsCli *cli, char **words, GError **error);
gboolean hs_command_paper (HsCli *cli, char **words, GError **error);
gboolean hs_command_post (HsCli *cli, char **words, GError **error);
gboolean hs_command_outbox (HsCli *cli, char **words, GError **error);
gboolean hs_command_undo (HsCli *cli, char **words, GError **error);
gboolean hs_command_calc (HsCli *cli, char **words, GError **error);
gboolean hs_command_limit (HsCli *cli, char **words, GError **error);
gboolean hs_command_troubleshoot (HsCli *cli, char **words, GError **error);
gboolean hs_command_check (HsCli *cli, char **words, GError **error);

/**
 * hs_cli_parse:
 * @words: the command's words
 * @entries: (nullable): the command's own options
 * @least, @most: how many words may be left over
 * @ret_words: (out) (transfer full): what is left over
 *
 * Anything else is a usage error.
 */
gboolean hs_cli_parse (char **words, const GOptionEntry *entries, guint least, guint most, char ***ret_words,
                       GError **error);

/** hs_cli_usage: sets a usage error: exit status 2. Always returns %FALSE. */
gboolean hs_cli_usage (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

/** hs_cli_user: who this program is, for the book's session row; the host's name lives as long as the program. */
HsBookUser hs_cli_user (void);

/**
 * hs_cli_open_book:
 *
 * Opens the book and sets the clock: `--now` read in the book's zone, or the book's own clock (a demo's), or the
 * machine's.
 */
gboolean hs_cli_open_book (HsCli *cli, HsBookMode mode, GError **error);

/** hs_cli_set_clock: the second half of hs_cli_open_book(), for a book that a command has just made. */
gboolean hs_cli_set_clock (HsCli *cli, GError **error);

/** hs_cli_open_day: hs_cli_open_book() for a day: the one that @text names, or today when @text is %NULL. */
gboolean hs_cli_open_day (HsCli *cli, HsBookMode mode, const char *text, HsDate *ret_day, GError **error);

/** hs_cli_print: prints formatted text on standard output, harmless as by hs_cli_harmless(). */
void hs_cli_print (const char *format, ...) G_GNUC_PRINTF (1, 2);

/** hs_cli_is_harmful: whether a terminal would act on the sign, or show the letters around it in another order. A line
 * break is not; joiners of letters are not. */
gboolean hs_cli_is_harmful (gunichar sign);

/** hs_cli_harmless: (transfer full): @text, which files may have had a hand in, with U+FFFD for each harmful sign. */
char *hs_cli_harmless (const char *text);

/** hs_cli_complain: prints @text and a line break on standard error, harmless. */
void hs_cli_complain (const char *text);

/** hs_cli_print_json: prints the whole of @out. */
void hs_cli_print_json (HsJsonOut *out);

/* Values as text and as JSON; each returned text is the caller's. */
char *hs_cli_clock_text (HsCli *cli, HsInstant instant);

/* hs_cli_day_clock_text: "07:25", or "07:25 the next day" and the like where it is no longer @day. */
char *hs_cli_day_clock_text (HsCli *cli, HsDate day, HsInstant instant);
char *hs_cli_until_text (HsCli *cli, HsInstant from, HsInstant to);

/* hs_cli_window_text: (transfer full): a promise that has at least one end. */
char *hs_cli_window_text (HsCli *cli, HsInstant from, HsInstant to);
char *hs_cli_miles_text (gint64 millimiles);

/* hs_cli_spare_text: "35 min spare", or "222 min late" below zero. */
char *hs_cli_spare_text (gint64 spare_seconds);
char *hs_cli_money_text (HsCli *cli, gint64 cents);

/* hs_cli_drive_text: where the minutes of a drive come from: "guess: 3 own trips and the estimate". */
char *hs_cli_drive_text (const HsTravelLeg *leg);

/** hs_cli_pad: @text filled with blanks to @columns letters, on the left where @columns is below zero; what is longer
 * stays whole. printf() counts bytes, so that an accent shifts what follows. */
char *hs_cli_pad (const char *text, int columns);

/** hs_cli_data: words of a data file in the language of the screen, the owner's own as they are; for text, never for
 * JSON, whose words are those of the book. %NULL for %NULL. */
const char *hs_cli_data (const char *words);

/** hs_cli_one_line: @text with every run of blanks and line breaks as one blank; "" for %NULL. Anything out of a file
 * that is printed within a line goes through it. */
char *hs_cli_one_line (const char *text);

/** hs_cli_minutes: whole minutes of a span that is not below 0, rounded once, half up, as the window shows them. */
int hs_cli_minutes (gint64 seconds);

/* hs_cli_name_file: puts the name of @file before what is wrong in it, in one line whatever names the file has.
 * Returns: %FALSE, to be handed on. */
gboolean hs_cli_name_file (GError **error, const char *file);

/** hs_cli_join: those of @first, @second and @third that say something, with middle dots between; "–" if none does. */
char *hs_cli_join (const char *first, const char *second, const char *third);

/** hs_cli_json_clock: "16:20"; past the end of @day hours go on, as in a file to solve: "24:00", "25:30". */
void hs_cli_json_clock (HsCli *cli, HsJsonOut *out, const char *name, HsDate day, HsInstant instant);
void hs_cli_json_date (HsJsonOut *out, const char *name, HsDate date);
void hs_cli_json_miles (HsJsonOut *out, const char *name, gint64 millimiles);
void hs_cli_json_minutes (HsJsonOut *out, const char *name, gint64 seconds);
void hs_cli_json_cents (HsJsonOut *out, const char *name, gint64 cents);

G_END_DECLS
