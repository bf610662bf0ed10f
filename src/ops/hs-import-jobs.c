// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Import of jobs. A job from a file is just called, penciled in or has its time given; whatever lies behind that is
 * lived through in the book. Refuses any other stage, a window that ends before it starts or falls into the hour that
 * is skipped when clocks go forward, and changes to a job that is under way. A window outside the customer's reachable
 * hours is taken, with a note.
 */

#include "hs-customer-row.h"
#include "hs-ident.h"
#include "hs-import-row.h"
#include "hs-job-op.h"
#include "hs-ops-error.h"
#include "hs-ops-private.h"
#include "hs-reach.h"
#include "hs-settings-op.h"

#include <string.h>

enum
{
  JOB_NUMBER,
  JOB_PHONE,
  JOB_WORDS,
  JOB_PLATE,
  JOB_KIND,
  JOB_STAGE,
  JOB_AREA,
  JOB_DAY,
  JOB_FROM,
  JOB_TO,
  JOB_MINUTES,
};

static const HsImportColumn job_columns[] = {
  [JOB_NUMBER] = { "number", HS_IMPORT_TEXT, TRUE },
  [JOB_PHONE] = { "customer_phone", HS_IMPORT_PHONE, TRUE },
  [JOB_WORDS] = { "words", HS_IMPORT_TEXT, TRUE },
  [JOB_PLATE] = { "plate", HS_IMPORT_PLATE },
  [JOB_KIND] = { "kind", HS_IMPORT_WORD, .words = HS_WORDS_JOB_KIND },
  [JOB_STAGE] = { "stage", HS_IMPORT_WORD, .words = HS_WORDS_STAGE },
  [JOB_AREA] = { "area", HS_IMPORT_TEXT },
  [JOB_DAY] = { "day", HS_IMPORT_DATE },
  [JOB_FROM] = { "window_from", HS_IMPORT_TEXT },
  [JOB_TO] = { "window_to", HS_IMPORT_TEXT },
  [JOB_MINUTES] = { "minutes", HS_IMPORT_WHOLE, FALSE, 1, 7 * 1440 },
};

/* What a row of the file says, looked up. */
typedef struct
{
  char *customer_id;
  char *vehicle_id;
  char *area_id;
  HsDate day;
  HsInstant from;
  HsInstant to;
  const char *stage;
} Wanted;

static void
wanted_clear (Wanted *wanted)
{
  g_free (wanted->customer_id);
  g_free (wanted->vehicle_id);
  g_free (wanted->area_id);
}

static gboolean
has_offset (const char *text)
{
  const char *clock = strpbrk (text, "Tt ");

  return clock != NULL && strpbrk (clock, "Zz+-") != NULL;
}

/* A clock time that is skipped when clocks go forward cannot be promised: nobody will ever read it off a clock. */
static gboolean
check_gap (HsImportRun *run, guint column, HsInstant instant, const char *clock)
{
  g_autofree char *shown = hs_instant_format_local (hs_book_get_zone (run->book), instant);

  if (strncmp (shown + strlen ("2026-03-10T"), clock, strlen ("HH:MM")) == 0)
    return TRUE;
  return hs_import_refuse (run, column, "%s does not exist on that day; clocks go forward then", clock);
}

static gboolean
read_full_instant (HsImportRun *run, guint column, HsInstant *ret_instant)
{
  const char *text = run->values[column].text;
  GError *error = NULL;

  if (!hs_instant_parse (text, hs_book_get_zone (run->book), ret_instant, &error))
    return hs_import_refuse_error (run, column, error);
  return has_offset (text) || check_gap (run, column, *ret_instant, strpbrk (text, "Tt ") + 1);
}

static gboolean
read_clock_of_day (HsImportRun *run, guint column, HsInstant *ret_instant)
{
  const HsImportValue *day = &run->values[JOB_DAY];
  GError *error = NULL;
  int minutes;

  if (!hs_clock_parse (run->values[column].text, &minutes, &error))
    return hs_import_refuse_error (run, column, error);
  if (!day->given)
    return hs_import_refuse (run, column, "%s of which day? Fill in day", run->values[column].text);
  return hs_reach_instant (hs_book_get_zone (run->book), (HsDate) day->number, minutes, ret_instant, &error)
         || hs_import_refuse_error (run, column, error);
}

static gboolean
read_window_end (HsImportRun *run, guint column, HsInstant *ret_instant)
{
  if (!run->values[column].given)
    return TRUE;
  if (strchr (run->values[column].text, '-') != NULL)
    return read_full_instant (run, column, ret_instant);
  return read_clock_of_day (run, column, ret_instant);
}

static gboolean
check_window_day (HsImportRun *run, Wanted *wanted)
{
  const HsImportValue *day = &run->values[JOB_DAY];
  HsDate window_day;

  if (wanted->from == HS_INSTANT_NONE)
    return TRUE;
  hs_instant_to_local (hs_book_get_zone (run->book), wanted->from, &window_day, NULL);
  if (!day->given)
    wanted->day = window_day;
  if (wanted->day == window_day)
    return TRUE;
  return hs_import_refuse (run, JOB_FROM, "%s is not on %s", run->values[JOB_FROM].text, day->text);
}

static gboolean
read_window (HsImportRun *run, Wanted *wanted)
{
  const HsImportValue *values = run->values;

  wanted->day = values[JOB_DAY].given ? (HsDate) values[JOB_DAY].number : HS_DATE_NONE;
  wanted->from = wanted->to = HS_INSTANT_NONE;
  if (values[JOB_FROM].given != values[JOB_TO].given)
    return hs_import_refuse (run, values[JOB_FROM].given ? JOB_TO : JOB_FROM, "a window has two ends");
  if (!read_window_end (run, JOB_FROM, &wanted->from) | !read_window_end (run, JOB_TO, &wanted->to))
    return FALSE;
  if (wanted->to < wanted->from)
    return hs_import_refuse (run, JOB_TO, "the window ends at %s, before it starts at %s", values[JOB_TO].text,
                             values[JOB_FROM].text);
  return check_window_day (run, wanted);
}

/* The stages in which a job can come out of a file. */
static gboolean
is_early (const char *stage)
{
  static const char *const early[] = { "called_in", "penciled", "promised", NULL };

  return g_strv_contains (early, stage);
}

/* Without a stage in the file, a window makes a promise. */
static gboolean
read_stage (HsImportRun *run, Wanted *wanted)
{
  const HsImportValue *stage = &run->values[JOB_STAGE];

  wanted->stage = stage->given ? stage->word : NULL;
  if (wanted->stage == NULL || is_early (wanted->stage))
    return TRUE;
  return hs_import_refuse (run, JOB_STAGE,
                           "a job cannot come in as “%s”; bring it in as called_in, penciled or promised and move it "
                           "on in the book",
                           stage->text);
}

static gboolean
read_wanted (HsImportRun *run, Wanted *wanted)
{
  hs_import_find_customer (run, JOB_PHONE, &wanted->customer_id);
  hs_import_find_vehicle (run, JOB_PLATE, &wanted->vehicle_id);
  hs_import_find_area (run, JOB_AREA, &wanted->area_id);
  read_stage (run, wanted);
  read_window (run, wanted);
  if (g_strcmp0 (wanted->stage, "promised") == 0 && wanted->day == HS_DATE_NONE && !run->row_bad)
    hs_import_fault (run, JOB_DAY, "a promise needs its day");
  hs_import_claim (run, JOB_NUMBER, g_strdup (run->values[JOB_NUMBER].text));
  return !run->row_bad;
}

static gboolean
set_instant (HsInstant *field, HsInstant instant)
{
  if (instant == HS_INSTANT_NONE || *field == instant)
    return FALSE;
  *field = instant;
  return TRUE;
}

static gboolean
set_day (HsDate *field, HsDate day)
{
  if (day == HS_DATE_NONE || *field == day)
    return FALSE;
  *field = day;
  return TRUE;
}

static gboolean
set_guess (gint64 *field, const HsImportValue *minutes)
{
  if (!minutes->given || *field == minutes->number * 60)
    return FALSE;
  *field = minutes->number * 60;
  return TRUE;
}

static gboolean
fill_job (HsImportRun *run, const Wanted *wanted, HsJobRow *job)
{
  const HsImportValue *values = run->values;
  gboolean changed = hs_import_set_text (&job->number, &values[JOB_NUMBER]);

  changed |= hs_import_set_id (&job->customer_id, wanted->customer_id);
  changed |= hs_import_set_text (&job->words, &values[JOB_WORDS]);
  changed |= hs_import_set_id (&job->vehicle_id, wanted->vehicle_id);
  changed |= hs_import_set_word (&job->kind, &values[JOB_KIND]);
  changed |= hs_import_set_id (&job->area_id, wanted->area_id);
  changed |= set_day (&job->day, wanted->day);
  changed |= set_instant (&job->window_from, wanted->from);
  changed |= set_instant (&job->window_to, wanted->to);
  changed |= set_guess (&job->guess_seconds, &values[JOB_MINUTES]);
  return changed;
}

/* The van whose letter the number bears; a number of another form belongs to the first van. */
static gboolean
set_van (HsImportRun *run, HsJobRow *job, GError **error)
{
  g_autoptr (HsVanRow) van = NULL;
  g_autoptr (GError) missing = NULL;
  char letter[2] = { 0 };
  int number = 0;
  gboolean own = hs_job_number_parse (job->number, &letter[0], &number, NULL);

  if (own && !hs_van_row_find (run->store, letter, &van, &missing) && !hs_ops_only_missing (&missing, error))
    return FALSE;
  own = van != NULL;
  if (!own && !hs_ops_first_van (run->book, &van, error))
    return FALSE;
  hs_row_set (&job->van_id, van->id);
  if (!own || van->next_number > number)
    return TRUE;
  van->next_number = number + 1;
  return hs_van_row_save (run->store, van, error);
}

static gboolean
set_customer_area (HsImportRun *run, HsJobRow *job, GError **error)
{
  g_autoptr (HsCustomerRow) customer = NULL;

  if (job->area_id != NULL)
    return TRUE;
  if (!hs_customer_row_load (run->store, job->customer_id, &customer, error))
    return FALSE;
  hs_import_set_id (&job->area_id, customer->area_id);
  return TRUE;
}

/* A return visit follows the latest earlier job of the same vehicle; why it came back is decided later. */
static gboolean
set_earlier_job (HsImportRun *run, HsJobRow *job, GError **error)
{
  g_autoptr (GPtrArray) earlier = NULL;

  if (g_strcmp0 (job->kind, "return_visit") != 0 || job->follows_job_id != NULL)
    return TRUE;
  if (job->vehicle_id != NULL && !hs_job_row_list_of_vehicle (run->store, job->vehicle_id, &earlier, error))
    return FALSE;
  for (guint i = 0; earlier != NULL && i < earlier->len; i++)
    {
      const HsJobRow *row = g_ptr_array_index (earlier, i);

      if (g_strcmp0 (row->number, job->number) == 0)
        continue;
      hs_row_set (&job->follows_job_id, row->id);
      hs_row_set (&job->return_why, "not_decided");
      return TRUE;
    }
  hs_import_fault (run, JOB_KIND, "there is no earlier job of this vehicle to return to");
  return TRUE;
}

/* Saves a job of which something changed, and notes a window outside the customer's hours. */
static HsImportOutcome
save_changed (HsImportRun *run, HsJobRow *job, gboolean is_new)
{
  g_autofree char *note = NULL;
  GError *error = NULL;

  if (hs_job_row_save (run->store, job, &error) && hs_reach_log (run->book, job, &note, &error) && note != NULL)
    hs_import_note (run, JOB_FROM, note);
  return hs_import_outcome (run, is_new, TRUE, error);
}

static HsImportOutcome
add_job (HsImportRun *run, const Wanted *wanted)
{
  g_autoptr (HsJobRow) job = hs_job_row_new ();
  g_autofree char *zone = NULL;
  GError *error = NULL;

  fill_job (run, wanted, job);
  if (wanted->stage != NULL)
    hs_row_set (&job->stage, wanted->stage);
  else
    hs_row_set (&job->stage, wanted->from == HS_INSTANT_NONE ? "called_in" : "promised");
  job->called_at = run->now;
  zone = hs_settings_dup (run->book, "zone", &error);
  if (zone == NULL || !set_van (run, job, &error) || !set_customer_area (run, job, &error)
      || !set_earlier_job (run, job, &error))
    return hs_import_fault_error (run, JOB_NUMBER, error);
  if (run->row_bad)
    return HS_IMPORT_BAD;
  hs_row_set (&job->zone, zone);
  return save_changed (run, job, TRUE);
}

/* The stage in an old file does not pull back a job that has gone on since. */
static HsImportOutcome
change_job (HsImportRun *run, const Wanted *wanted, HsJobRow *job)
{
  gboolean early = is_early (job->stage);
  gboolean changed = fill_job (run, wanted, job);
  GError *error = NULL;

  if (early)
    changed |= hs_import_set_id (&job->stage, wanted->stage);
  if (changed && !early)
    return hs_import_fault (run, JOB_NUMBER, "%s is past its promise (%s); change it on its page", job->number,
                            hs_words_label (HS_WORDS_STAGE, job->stage));
  if (changed && !set_earlier_job (run, job, &error))
    return hs_import_fault_error (run, JOB_NUMBER, error);
  if (run->row_bad)
    return HS_IMPORT_BAD;
  return changed ? save_changed (run, job, FALSE) : HS_IMPORT_UNCHANGED;
}

/* `A-7`, or `J7` where there is no van J: somebody's own way of numbering. `a7` is only short for A-0007. */
static gboolean
is_own_way (HsImportRun *run, const char *number)
{
  const char letter[] = { number[0], '\0' };
  g_autoptr (HsVanRow) van = NULL;

  if (!g_ascii_isupper (number[0]))
    return FALSE;
  return (number[1] == '-' && g_ascii_isdigit (number[2])) || !hs_van_row_find (run->store, letter, &van, NULL);
}

/* `a21` and `A 21` are the job A-0021, as everywhere. A new number stays as it is written unless it is short for one
 * that the book itself would give. */
static gboolean
spell_number (HsImportRun *run, HsJobRow **ret_job, GError **error)
{
  HsImportValue *number = &run->values[JOB_NUMBER];
  g_autoptr (GError) missing = NULL;
  g_autofree char *job_id = hs_job_find (run->book, number->text, &missing);
  char letter;
  int count;

  if (job_id != NULL && hs_job_row_load (run->store, job_id, ret_job, error))
    hs_row_set (&number->text, (*ret_job)->number);
  if (job_id != NULL)
    return *ret_job != NULL;
  if (!g_error_matches (missing, HS_OPS_ERROR, HS_OPS_ERROR_NOT_FOUND))
    {
      g_propagate_error (error, g_steal_pointer (&missing));
      return FALSE;
    }
  if (is_own_way (run, number->text) || !hs_job_number_parse (number->text, &letter, &count, NULL))
    return TRUE;
  g_free (number->text);
  number->text = hs_job_number_format (letter, count);
  return TRUE;
}

static HsImportOutcome
save_wanted (HsImportRun *run, Wanted *wanted)
{
  g_autoptr (HsJobRow) job = NULL;
  GError *error = NULL;

  if (!spell_number (run, &job, &error))
    return hs_import_fault_error (run, JOB_NUMBER, error);
  if (!read_wanted (run, wanted))
    return HS_IMPORT_BAD;
  return job != NULL ? change_job (run, wanted, job) : add_job (run, wanted);
}

static HsImportOutcome
save_job (HsImportRun *run)
{
  Wanted wanted = { NULL, NULL, NULL, HS_DATE_NONE, HS_INSTANT_NONE, HS_INSTANT_NONE, NULL };
  HsImportOutcome outcome = save_wanted (run, &wanted);

  wanted_clear (&wanted);
  return outcome;
}

const HsImportKind hs_import_jobs = { "jobs", job_columns, G_N_ELEMENTS (job_columns), save_job };
