// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the commands share. Nothing here knows what a command does. */

#include "hs-cli.h"

#include "hs-decimal.h"
#include "hs-money.h"
#include "hs-settings-op.h"
#include "hs-travel-say.h"

#include <glib/gi18n.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

G_DEFINE_QUARK (hs-cli-error-quark, hs_cli_error)

gboolean
hs_cli_usage (GError **error, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  g_autofree char *message = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error_literal (error, HS_CLI_ERROR, HS_CLI_ERROR_USAGE, message);
  return FALSE;
}

/* Stands before a word that only looks like an option. */
#define VEIL '\1'

static gboolean
is_below_zero (const char *word)
{
  return word[0] == '-' && (g_ascii_isdigit (word[1]) || (word[1] == '.' && g_ascii_isdigit (word[2])));
}

/* GOptionContext wants a program name in front and leaves it there. It takes `-7` for an option, so a number below
 * zero is veiled from it, unless it is an option's value. */
static char **
dress_words (char **words)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_strv_builder_add (builder, g_get_prgname ());
  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *veiled = g_strdup_printf ("%c%s", VEIL, words[i]);
      gboolean value = i > 0 && g_str_has_prefix (words[i - 1], "--");
      g_strv_builder_add (builder, is_below_zero (words[i]) && !value ? veiled : words[i]);
    }
  return g_strv_builder_end (builder);
}

gboolean
hs_cli_parse (char **words, const GOptionEntry *entries, guint least, guint most, char ***ret_words, GError **error)
{
  g_autoptr (GOptionContext) context = g_option_context_new (NULL);
  g_option_context_set_help_enabled (context, FALSE);
  if (entries != NULL)
    g_option_context_add_main_entries (context, entries, NULL);

  g_auto (GStrv) parsed = dress_words (words);
  g_autoptr (GError) local = NULL;
  if (!g_option_context_parse_strv (context, &parsed, &local))
    return hs_cli_usage (error, "%s", local->message);

  g_autoptr (GStrvBuilder) left = g_strv_builder_new ();
  gboolean only_words = FALSE;
  guint count = 0;
  for (guint i = 1; parsed[i] != NULL; i++)
    {
      if (!only_words && g_str_equal (parsed[i], "--"))
        {
          only_words = TRUE;
          continue;
        }
      g_strv_builder_add (left, parsed[i] + (*parsed[i] == VEIL ? 1 : 0));
      count++;
    }
  if (count < least)
    return hs_cli_usage (error, _("something is missing"));
  const char *last = parsed[g_strv_length (parsed) - 1];
  if (count > most)
    return hs_cli_usage (error, _("one word too many: “%s”"), last + (*last == VEIL ? 1 : 0));

  *ret_words = g_strv_builder_end (left);
  return TRUE;
}

HsBookUser
hs_cli_user (void)
{
  return (HsBookUser) {
    .program = "halfshaft-cli",
    .host = g_get_host_name (),
    .pid = (int) getpid (),
    .now = g_get_real_time () / G_USEC_PER_SEC,
  };
}

gboolean
hs_cli_set_clock (HsCli *cli, GError **error)
{
  GTimeZone *zone = hs_book_get_zone (cli->book);
  if (cli->now_text != NULL)
    {
      g_autoptr (GError) local = NULL;
      if (hs_instant_parse (cli->now_text, zone, &cli->now, &local))
        return TRUE;
      return hs_cli_usage (error, "--now: %s", local->message);
    }

  g_autofree char *starts = hs_settings_dup (cli->book, "clock_starts", error);
  if (starts == NULL)
    return FALSE;
  if (*starts != '\0')
    return hs_instant_parse (starts, zone, &cli->now, error);
  cli->now = g_get_real_time () / G_USEC_PER_SEC;
  return TRUE;
}

gboolean
hs_cli_open_book (HsCli *cli, HsBookMode mode, GError **error)
{
  HsBookUser user = hs_cli_user ();
  cli->book = hs_book_open (cli->book_path, mode, &user, error);
  if (cli->book == NULL)
    return FALSE;
  /* JSON is for programs: it reads alike in every language. */
  static const HsTongue tongue = { gettext, ngettext };
  if (!cli->json)
    hs_book_set_tongue (cli->book, &tongue);
  if (hs_book_get_catalog (cli->book)->trouble != NULL)
    {
      g_autofree char *trouble = g_strdup_printf ("halfshaft-cli: %s", hs_book_get_catalog (cli->book)->trouble);
      hs_cli_complain (trouble);
    }
  return hs_cli_set_clock (cli, error);
}

gboolean
hs_cli_open_day (HsCli *cli, HsBookMode mode, const char *text, HsDate *ret_day, GError **error)
{
  HsDate day = HS_DATE_NONE;
  g_autoptr (GError) local = NULL;
  if (text != NULL && !hs_date_parse (text, &day, &local))
    return hs_cli_usage (error, "--day: %s", local->message);
  if (!hs_cli_open_book (cli, mode, error))
    return FALSE;
  if (text == NULL)
    hs_instant_to_local (hs_book_get_zone (cli->book), cli->now, &day, NULL);
  *ret_day = day;
  return TRUE;
}

gboolean
hs_cli_is_harmful (gunichar sign)
{
  if (sign == '\n' || sign == '\t' || sign == 0x00ad || sign == 0x200c || sign == 0x200d)
    return FALSE;
  switch (g_unichar_type (sign))
    {
    case G_UNICODE_CONTROL:
    case G_UNICODE_FORMAT:
    case G_UNICODE_LINE_SEPARATOR:
    case G_UNICODE_PARAGRAPH_SEPARATOR:
      return TRUE;
    default:
      return FALSE;
    }
}

char *
hs_cli_harmless (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  g_autoptr (GString) harmless = g_string_sized_new (strlen (valid));
  for (const char *at = valid; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar sign = g_utf8_get_char (at);
      g_string_append_unichar (harmless, hs_cli_is_harmful (sign) ? 0xfffd : sign);
    }
  return g_string_free (g_steal_pointer (&harmless), FALSE);
}

void
hs_cli_print (const char *format, ...)
{
  va_list args;
  va_start (args, format);
  g_autofree char *text = g_strdup_vprintf (format, args);
  va_end (args);
  g_autofree char *harmless = hs_cli_harmless (text);
  fputs (harmless, stdout);
}

void
hs_cli_complain (const char *text)
{
  g_autofree char *harmless = hs_cli_harmless (text);
  fprintf (stderr, "%s\n", harmless);
}

void
hs_cli_print_json (HsJsonOut *out)
{
  g_autofree char *text = hs_json_out_to_string (out);
  fputs (text, stdout);
}

char *
hs_cli_clock_text (HsCli *cli, HsInstant instant)
{
  if (instant == HS_INSTANT_NONE)
    return g_strdup ("–");
  HsDate day;
  int seconds;
  hs_instant_to_local (hs_book_get_zone (cli->book), instant, &day, &seconds);
  return hs_clock_format (seconds / 60);
}

char *
hs_cli_day_clock_text (HsCli *cli, HsDate day, HsInstant instant)
{
  g_autofree char *clock = hs_cli_clock_text (cli, instant);
  if (instant == HS_INSTANT_NONE)
    return g_steal_pointer (&clock);
  HsDate on = day;
  hs_instant_to_local (hs_book_get_zone (cli->book), instant, &on, NULL);
  if (on == day + 1)
    return g_strdup_printf (_("%s the next day"), clock);
  if (on != day)
    {
      g_autofree char *date = hs_date_format (on);
      return g_strdup_printf (_("%s on %s"), clock, date);
    }
  return g_steal_pointer (&clock);
}

/* A window that ends at midnight ends with its own day. */
char *
hs_cli_until_text (HsCli *cli, HsInstant from, HsInstant to)
{
  g_autofree char *text = hs_cli_clock_text (cli, to);
  return g_strdup (from < to && g_str_equal (text, "00:00") ? "24:00" : text);
}

char *
hs_cli_window_text (HsCli *cli, HsInstant from, HsInstant to)
{
  g_autofree char *start = hs_cli_clock_text (cli, from);
  g_autofree char *end = hs_cli_until_text (cli, from, to);
  /* Translators: a window that has only one end. */
  if (to == HS_INSTANT_NONE)
    return g_strdup_printf (_("after %s"), start);
  /* Translators: a window that has only one end. */
  if (from == HS_INSTANT_NONE)
    return g_strdup_printf (_("by %s"), end);
  return g_strdup_printf ("%s–%s", start, end);
}

int
hs_cli_minutes (gint64 seconds)
{
  return (int) ((seconds + 30) / 60);
}

char *
hs_cli_pad (const char *text, int columns)
{
  int blanks = MAX (0, ABS (columns) - (int) g_utf8_strlen (text, -1));
  return columns < 0 ? g_strdup_printf ("%*s%s", blanks, "", text) : g_strdup_printf ("%s%*s", text, blanks, "");
}

const char *
hs_cli_data (const char *words)
{
  return words != NULL && *words != '\0' ? _(words) : words;
}

char *
hs_cli_one_line (const char *text)
{
  g_auto (GStrv) words = g_strsplit_set (text != NULL ? text : "", " \t\r\n", -1);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  for (guint i = 0; words[i] != NULL; i++)
    if (*words[i] != '\0')
      g_strv_builder_add (builder, words[i]);
  g_auto (GStrv) kept = g_strv_builder_end (builder);
  return g_strjoinv (" ", kept);
}

gboolean
hs_cli_name_file (GError **error, const char *file)
{
  g_autofree char *line = hs_cli_one_line ((*error)->message);

  g_free ((*error)->message);
  (*error)->message = g_strdup_printf ("%s: %s", file, line);
  return FALSE;
}

char *
hs_cli_join (const char *first, const char *second, const char *third)
{
  const char *texts[] = { first, second, third };
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    if (texts[i] != NULL && *texts[i] != '\0')
      g_strv_builder_add (builder, texts[i]);
  g_auto (GStrv) said = g_strv_builder_end (builder);
  return said[0] != NULL ? g_strjoinv (" · ", said) : g_strdup ("–");
}

char *
hs_cli_miles_text (gint64 millimiles)
{
  gint64 tenths = 0;
  return hs_ratio_half_up (millimiles, 1, 100, &tenths) ? hs_decimal_format (tenths, 1) : g_strdup ("–");
}

char *
hs_cli_spare_text (gint64 spare_seconds)
{
  if (spare_seconds < 0)
    return g_strdup_printf (_("%d min late"), (int) ((59 - spare_seconds) / 60));
  return g_strdup_printf (_("%d min spare"), (int) (spare_seconds / 60));
}

char *
hs_cli_drive_text (const HsTravelLeg *leg)
{
  const HsTongue tongue = { gettext, ngettext };

  return hs_travel_leg_say (leg, &tongue);
}

char *
hs_cli_money_text (HsCli *cli, gint64 cents)
{
  return hs_money_format (cents, hs_book_get_currency (cli->book));
}

void
hs_cli_json_clock (HsCli *cli, HsJsonOut *out, const char *name, HsDate day, HsInstant instant)
{
  HsDate on = day;
  int seconds = 0;
  if (instant == HS_INSTANT_NONE)
    {
      hs_json_out_null (out, name);
      return;
    }
  hs_instant_to_local (hs_book_get_zone (cli->book), instant, &on, &seconds);
  g_autofree char *text = hs_clock_format (HS_MINUTES_PER_DAY * (on - day) + seconds / 60);
  hs_json_out_string (out, name, text);
}

void
hs_cli_json_date (HsJsonOut *out, const char *name, HsDate date)
{
  g_autofree char *text = date == HS_DATE_NONE ? NULL : hs_date_format (date);
  hs_json_out_string (out, name, text);
}

void
hs_cli_json_miles (HsJsonOut *out, const char *name, gint64 millimiles)
{
  gint64 tenths = 0;
  if (hs_ratio_half_up (millimiles, 1, 100, &tenths))
    hs_json_out_decimal (out, name, tenths, 1);
  else
    hs_json_out_null (out, name);
}

void
hs_cli_json_minutes (HsJsonOut *out, const char *name, gint64 seconds)
{
  if (seconds % 60 == 0)
    hs_json_out_integer (out, name, seconds / 60);
  else
    hs_json_out_real (out, name, (double) seconds / 60.0);
}

void
hs_cli_json_cents (HsJsonOut *out, const char *name, gint64 cents)
{
  if (cents < 0)
    hs_json_out_null (out, name);
  else
    hs_json_out_integer (out, name, cents);
}
