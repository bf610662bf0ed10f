// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* halfshaft-cli: finds the command and the options that may stand before or after it. Exit status: 0 done,
 * 1 refused with the reason on standard error, 2 asked wrongly. */

#include "hs-cli.h"

#include <glib/gi18n.h>
#include <locale.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

enum
{
  EXIT_DONE = 0,
  EXIT_REFUSED = 1,
  EXIT_USAGE = 2,
};

static const HsCommand commands[] = {
  { "new", N_ ("FILE [--zone ZONE]"), N_ ("Make a new book; never overwrites"), hs_command_new },
  { "demo", N_ ("FILE"), N_ ("Make a book with the demo business in it"), hs_command_demo },
  { "set", N_ ("[KEY [VALUE]]"), N_ ("Show or change what the book is set to"), hs_command_set },
  { "import", N_ ("KIND FILE [--ignore-unknown]"), N_ ("Read a CSV file into the book"), hs_command_import },
  { "find", N_ ("WORDS…"), N_ ("Find a vehicle: phone digits, plate, VIN tail, name, street"), hs_command_find },
  { "history", N_ ("PLATE"), N_ ("Print what a vehicle has lived through"), hs_command_history },
  { "plan", N_ ("[--day DATE] [--van LETTER] [--accept | --going] [--others] | --share [--limit SECONDS]"
         " [--accept] | --unshare"),
    N_ ("Plan a day: calls and parts counters, or who should take which call"), hs_command_plan },
  { "parts", N_ ("[--day DATE] [--van LETTER]"), N_ ("Print the parts run of a day"), hs_command_parts },
  { "squeeze", N_ ("--area A --minutes N --window HH:MM-HH:MM [--day DATE] [--van LETTER] [--replan]"),
    N_ ("Say where one more call fits"), hs_command_squeeze },
  { "troubleshoot", N_ ("MODEL.json"), N_ ("Say which check or repair comes first, from causes in a file"),
    hs_command_troubleshoot },
  { "travel",
    N_ ("FROM TO [--at HH:MM] | record FROM TO --left TIME --minutes N --miles M [--van LETTER] | accuracy"
        " | map [FILE]"),
    N_ ("Say how long a drive is, write one down, say how far off such sayings were, or drive on a map"),
    hs_command_travel },
  { "solve", N_ ("FILE | --tsptw FILE | --solomon FILE | --tsplib FILE [--objective NAME] [--limit SECONDS]"
                 " [--seed N]"),
    N_ ("Plan a day from a file, without a book"), hs_command_solve },
  { "job", N_ ("NUMBER | NUMBER STAGE [--reason WORDS] [--leave-open] | take --phone P --words W …"),
    N_ ("Show a job, move it on, or take a call"), hs_command_job },
  { "safety", N_ ("JOB [safe | moved | refused | ITEM ANSWER] [--why WORDS]"),
    N_ ("Show the safety list of a visit, or answer it"), hs_command_safety },
  { "identify", N_ ("JOB [--plate PLATE] [--vin VIN] [--odometer N] [--saw yes|no] [--why WORDS]"),
    N_ ("Hold plate, VIN and odometer against the record"), hs_command_identify },
  { "visit", N_ ("JOB [pause | resume | minutes N]"),
    N_ ("Show the visits of a job, stop or start its labor clock, say what it has no minutes of"),
    hs_command_visit },
  { "note", N_ ("JOB [WORDS [--topic TOPIC] [--years YEARS] | --remove N]"),
    N_ ("Show what is known of the vehicle's model, or write it down"), hs_command_note },
  { "call-off", N_ ("JOB HOW --reason WORDS [--fee SUM]"), N_ ("Call a job off: canceled, no-show or gone on arrival"),
    hs_command_call_off },
  { "reading", N_ ("JOB CHECK VALUE [--phase PHASE] [--place PLACE] [--unit UNIT] [--at TIME] [--conditions WORDS]"
                   " [--why-not WORDS] [--sure]"),
    N_ ("Store a reading and say the verdict"), hs_command_reading },
  { "answer", N_ ("JOB [QUESTION ANSWER [--by NAME]]"), N_ ("Show what is asked about a job, or write an answer down"),
    hs_command_answer },
  { "next", N_ ("JOB [--group GROUP] [--also GROUP] [--is CAUSE | --not CAUSE] [--seen WORDS]"),
    N_ ("Say what may be behind a complaint and what to check next, or name the cause"), hs_command_next },
  { "because", N_ ("JOB [[EFFECT] FINDING] [--reading CHECK | --photo ID | --seen WORDS | --said WORDS] [--end END]"
                   " [--sure SURE] [--ruled-out] [--remove] …"),
    N_ ("Show why a vehicle failed, or write it down link by link"), hs_command_because },
  { "photo", N_ ("JOB [FILE… | --photo N [--remove | --export FILE]] [--finding FINDING] [--phase PHASE]"
                 " [--words WORDS] [--keep-location] | --camera FOLDER [--add]"),
    N_ ("List, add, bind or write out the photos of a job, or look through a camera's folder"), hs_command_photo },
  { "advice", N_ ("JOB [WORDS [--group G] [--rank RANK] [--risk WORDS] LINES | NUMBER {--answer ANSWER --by NAME"
                  " --means MEANS [--call-on DATE] [--ceiling SUM] | --without LINE | --remove | …}]"
                  " [--follows JOB]"),
    N_ ("Show what was told and picked, write an option or an answer down"), hs_command_advice },
  { "go-ahead", N_ ("JOB [CEILING --by NAME --means MEANS | --would PRICE [--kind KIND]]"),
    N_ ("Show how far the customer's yes goes, write a new one down, or try a line against it"), hs_command_go_ahead },
  { "fit", N_ ("JOB [PART] [--number N] [--place P] [--serial S] [--date-code C] [--maker M] [--months N] [--miles N]"
               " [--odometer N] [--why WHY] [--old OLD] [--cost C] [--from-van] [--swap] [--change | --remove] …"),
    N_ ("Show the parts of a job, or write one down that was put in"), hs_command_fit },
  { "disturbed", N_ ("JOB [PLACE | WORDS | LINE --done [--found WORDS] | LINE --open | LINE --remove]"),
    N_ ("Show what was disturbed and is looked after, add to it, or tick it off"), hs_command_disturbed },
  { "stage", N_ ("JOB [STAGE] [--because WORDS] [--leave-open]"),
    N_ ("Say what is missing before a job is tested good, or move it to a stage"), hs_command_stage },
  { "handover", N_ ("JOB [--safe yes | no | told_not_to] [--odometer N]"),
    N_ ("Hand a vehicle back: safe to drive or not, and how long each part is covered"), hs_command_handover },
  { "paper", N_ ("JOB before-after -o FILE [--size letter | A4] [--force]"),
    N_ ("Print the proof sheet of a job, before and after, as a PDF file"), hs_command_paper },
  { "undo", N_ ("JOB [--list | --again]"), N_ ("Take back the last step of a job, do it again, or list them"),
    hs_command_undo },
  { "post", N_ ("[--once [--wait SECONDS] | --on | --off | --all | --secret | --forget]"),
    N_ ("Post what waits to your own endpoint, or switch that on or off for this machine"), hs_command_post },
  { "outbox", N_ ("[--retry | JOB {--retry | --drop | --body}]"),
    N_ ("Show what is not posted yet, try it again or drop it, or show the message of a job"), hs_command_outbox },
  { "limit", N_ ("PLATE [CHECK [low=X] [high=Y] --source WORDS [--maker] [--unit UNIT] | CHECK --clear [--maker]]"),
    N_ ("Show, write down or take away a vehicle's own limits"), hs_command_limit },
  { "calc", N_ ("[NAME KEY=VALUE…]"), N_ ("Work something out without a book; alone it lists all calculators"),
    hs_command_calc },
  { "check", N_ ("[CHECK VALUE [--plate PLATE] [--conditions WORDS]]"),
    N_ ("Check the book, or judge a value without storing it"), hs_command_check },
};

static const HsCommand *
find_command (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    if (g_str_equal (commands[i].name, name))
      return &commands[i];
  return NULL;
}

static void
print_help (FILE *stream)
{
  fprintf (stream, "%s\n\n", _("halfshaft-cli [OPTION…] COMMAND [WORDS…]"));
  for (guint i = 0; i < G_N_ELEMENTS (commands); i++)
    fprintf (stream, "  %s %s\n      %s\n", commands[i].name, _(commands[i].words), _(commands[i].help));
  fprintf (stream, "\n%s\n",
           _("Options that may stand before or after the command:\n"
             "  --book FILE    the book; otherwise the one in the data folder\n"
             "  --json         print JSON\n"
             "  --now TIME     ISO 8601; without an offset it is read in the book's time zone\n"
             "  --help, --version"));
}

/* Takes the value of `--name VALUE` or `--name=VALUE` at words[*index]; moves *index onto the last word used. */
static gboolean
take_value (char **words, guint *index, const char *name, char **ret_value, gboolean *ret_matched, GError **error)
{
  gsize length = strlen (name);
  *ret_matched = FALSE;
  if (!g_str_has_prefix (words[*index], name))
    return TRUE;
  const char *rest = words[*index] + length;
  if (*rest != '\0' && *rest != '=')
    return TRUE;
  *ret_matched = TRUE;
  const char *value = *rest == '=' ? rest + 1 : words[++*index];
  if (value == NULL)
    return hs_cli_usage (error, _("%s wants a value"), name);
  g_free (*ret_value);
  *ret_value = g_strdup (value);
  return TRUE;
}

/* Splits the options that may stand anywhere from the words of the command; `--` ends them. */
static gboolean
split_words (HsCli *cli, char **argv, char ***ret_words, gboolean *ret_help, gboolean *ret_version, GError **error)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  gboolean started = FALSE;
  for (guint i = 1; argv[i] != NULL; i++)
    {
      gboolean matched = FALSE;
      if (g_str_equal (argv[i], "--"))
        {
          for (i += started ? 0 : 1; argv[i] != NULL; i++)
            g_strv_builder_add (builder, argv[i]);
          break;
        }
      if (!take_value (argv, &i, "--book", &cli->book_path, &matched, error))
        return FALSE;
      if (!matched && !take_value (argv, &i, "--now", &cli->now_text, &matched, error))
        return FALSE;
      if (matched)
        continue;
      if (g_str_equal (argv[i], "--json"))
        cli->json = TRUE;
      else if (g_str_equal (argv[i], "--help") || g_str_equal (argv[i], "-h"))
        *ret_help = TRUE;
      else if (g_str_equal (argv[i], "--version"))
        *ret_version = TRUE;
      else
        {
          g_strv_builder_add (builder, argv[i]);
          started = TRUE;
        }
    }
  *ret_words = g_strv_builder_end (builder);
  return TRUE;
}

/* What is wrong, then how the command is called. */
static void
show_own_line (const HsCommand *command, GError **error)
{
  g_autoptr (GError) asked = g_steal_pointer (error);
  hs_cli_usage (error, "%s: %s\nhalfshaft-cli %s %s", command->name, asked->message, command->name,
                _(command->words));
}

static gboolean
run (HsCli *cli, char **argv, GError **error)
{
  g_auto (GStrv) words = NULL;
  gboolean help = FALSE;
  gboolean version = FALSE;
  if (!split_words (cli, argv, &words, &help, &version, error))
    return FALSE;
  if (version)
    {
      hs_cli_print ("halfshaft-cli %s\n", HS_VERSION);
      return TRUE;
    }
  if (help)
    {
      print_help (stdout);
      return TRUE;
    }
  if (words[0] == NULL)
    return hs_cli_usage (error, _("a command is missing"));
  const HsCommand *command = find_command (words[0]);
  if (command == NULL)
    return hs_cli_usage (error, _("there is no command “%s”"), words[0]);
  if (command->run (cli, words + 1, error))
    return TRUE;
  if (g_error_matches (*error, HS_CLI_ERROR, HS_CLI_ERROR_USAGE))
    show_own_line (command, error);
  return FALSE;
}

static void
clear_cli (HsCli *cli)
{
  g_clear_pointer (&cli->book, hs_book_close);
  g_clear_pointer (&cli->book_path, g_free);
  g_clear_pointer (&cli->now_text, g_free);
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, HS_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_prgname ("halfshaft-cli");
  /* A file that may not grow is an error to report, not a reason to die. */
  signal (SIGXFSZ, SIG_IGN);

  HsCli cli = { .book_path = g_build_filename (g_get_user_data_dir (), "halfshaft", "book.hsbook", NULL) };
  g_autoptr (GError) error = NULL;
  gboolean done = run (&cli, argv, &error);
  clear_cli (&cli);
  if (done && fflush (stdout) == 0 && !ferror (stdout))
    return EXIT_DONE;
  if (error == NULL)
    {
      fprintf (stderr, "halfshaft-cli: %s\n", _("the answer could not be written"));
      return EXIT_REFUSED;
    }
  g_prefix_error (&error, "halfshaft-cli: ");
  hs_cli_complain (error->message);
  return g_error_matches (error, HS_CLI_ERROR, HS_CLI_ERROR_USAGE) ? EXIT_USAGE : EXIT_REFUSED;
}
