// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The safety list of a visit. Refuses answers before anybody arrived, an item that the list does not have, a refusal
 * without a reason, "safe here" while an item is not so, once more for items that came to the list after it was gone
 * through, which nobody has looked at, and while a high-voltage vehicle has an item that is not done. Of those, nothing
 * else opens the findings: neither what does not apply nor what is not so.
 *
 * What is not so is held as refused, with what was said of it. The same word stands on what was refused along with the
 * work; that has the reason of the visit. So that they stay apart, the work is not refused in the words of an item that
 * is not so, nor an item in the words of the work.
 */

#include "hs-safety-op.h"

#include "hs-ops-error.h"
#include "hs-ops-private.h"
#include "hs-safety-private.h"
#include "hs-vehicle-row.h"
#include "hs-visit-private.h"
#include "hs-visit-row.h"

#define REFUSED_BECAUSE "refused because "
#define NOT_SO "not so"
#define PASSED "not gone through"

HsSafety *
hs_data_load_safety (GError **error)
{
  g_autoptr (GBytes) bytes = hs_ops_load_data ("safety/lists.ini", error);
  gsize length;
  const char *data;

  if (bytes == NULL)
    return NULL;
  data = g_bytes_get_data (bytes, &length);
  return hs_safety_new_from_data (data, (gssize) length, error);
}

static void
line_free (HsSafetyLine *line)
{
  g_free (line->id);
  g_free (line->words);
  g_free (line->brief);
  g_free (line->caution);
  g_free (line->source);
  g_free (line->sure);
  g_free (line->answer);
  g_free (line->why);
  g_free (line);
}

void
hs_safety_sheet_free (HsSafetySheet *sheet)
{
  if (sheet == NULL)
    return;
  g_ptr_array_unref (sheet->lines);
  g_free (sheet->visit_id);
  g_free (sheet->note);
  g_free (sheet);
}

/* A high-voltage item is over when it is done, or refused along with the whole list. */
static gboolean
is_open (const HsSafetyLine *line)
{
  return line->answer == NULL || (line->high_voltage && g_str_equal (line->answer, "not_here"));
}

/* Returns: (nullable): why no work is done on this visit. */
static const char *
get_refusal (const char *note)
{
  return note != NULL && g_str_has_prefix (note, REFUSED_BECAUSE) ? note + strlen (REFUSED_BECAUSE) : NULL;
}

/* It was not refused along with the work. */
static gboolean
is_not_so (const HsSafetyLine *line, const char *note)
{
  return g_strcmp0 (line->answer, "refused") == 0 && g_strcmp0 (line->why, get_refusal (note)) != 0;
}

/* Once the work is refused it bars nothing. */
static gboolean
bars (const HsSafetySheet *sheet, const HsSafetyLine *line)
{
  return line->not_so && get_refusal (sheet->note) == NULL;
}

/* The sheet -------------------------------------------------------------------------------------------------------- */

/* A job whose vehicle is not known yet is taken for one without high voltage. */
static gboolean
is_high_voltage (HsStore *store, const HsJobRow *job, gboolean *ret_high_voltage, GError **error)
{
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (job->vehicle_id != NULL && !hs_vehicle_row_load (store, job->vehicle_id, &vehicle, error))
    return FALSE;
  *ret_high_voltage = vehicle != NULL && vehicle->high_voltage;
  return TRUE;
}

/* @asked: it belongs to the list of now; what does not is there once it was answered on this visit. */
static gboolean
add_line (HsStore *store, HsSafetySheet *sheet, const HsSafetyItem *item, gboolean asked, GError **error)
{
  g_autoptr (HsSafetyRow) row = NULL;
  HsSafetyLine *line;

  if (sheet->visit_id != NULL && !hs_safety_row_find (store, sheet->visit_id, item->id, &row, error))
    return FALSE;
  if (row == NULL && !asked)
    return TRUE;
  line = g_new0 (HsSafetyLine, 1);
  line->id = g_strdup (item->id);
  line->words = g_strdup (item->words);
  line->brief = g_strdup (item->brief);
  line->caution = g_strdup (item->caution);
  line->source = g_strdup (item->source);
  line->sure = g_strdup (item->sure);
  line->high_voltage = item->high_voltage;
  line->answer = row != NULL ? g_strdup (row->answer) : NULL;
  line->why = row != NULL ? g_strdup (row->why) : NULL;
  line->at = row != NULL ? row->at : HS_INSTANT_NONE;
  line->not_so = is_not_so (line, sheet->note);
  line->asked = is_open (line) || (g_strcmp0 (line->answer, "refused") == 0 && !line->not_so);
  sheet->n_not_so += bars (sheet, line);
  sheet->n_open += is_open (line);
  sheet->n_high_voltage_open += item->high_voltage && (is_open (line) || bars (sheet, line));
  g_ptr_array_add (sheet->lines, line);
  return TRUE;
}

/* The digits are for what is asked, so that comes first. */
static gboolean
add_lines (HsStore *store, const HsSafety *safety, const char *group, HsSafetySheet *sheet, GError **error)
{
  g_autoptr (GPtrArray) asked = hs_safety_list (safety, group, sheet->high_voltage);
  const HsSafetyItem *item;

  for (guint i = 0; i < asked->len; i++)
    if (!add_line (store, sheet, g_ptr_array_index (asked, i), TRUE, error))
      return FALSE;
  for (guint i = 0; (item = hs_safety_get_nth (safety, i)) != NULL; i++)
    if (!g_ptr_array_find (asked, item, NULL) && !add_line (store, sheet, item, FALSE, error))
      return FALSE;
  return TRUE;
}

static gboolean
fill_sheet (HsStore *store, const HsJobRow *job, HsSafetySheet *sheet, GError **error)
{
  g_autoptr (HsSafety) safety = hs_data_load_safety (error);
  g_autoptr (HsVisitRow) visit = NULL;

  if (safety == NULL || !is_high_voltage (store, job, &sheet->high_voltage, error)
      || !hs_visit_load_arrived (store, job->id, &visit, error))
    return FALSE;
  if (visit != NULL)
    {
      sheet->visit_id = g_strdup (visit->id);
      sheet->note = g_strdup (visit->safe_note);
      sheet->passed = g_strcmp0 (sheet->note, PASSED) == 0;
    }
  return add_lines (store, safety, job->complaint_group, sheet, error);
}

static HsSafetySheet *
load_sheet (HsStore *store, const HsJobRow *job, GError **error)
{
  g_autoptr (HsSafetySheet) sheet = g_new0 (HsSafetySheet, 1);

  sheet->lines = g_ptr_array_new_with_free_func ((GDestroyNotify) line_free);
  return fill_sheet (store, job, sheet, error) ? g_steal_pointer (&sheet) : NULL;
}

HsSafetySheet *
hs_safety_sheet_load (HsBook *book, const char *job_id, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsJobRow) job = NULL;

  return hs_job_row_load (store, job_id, &job, error) ? load_sheet (store, job, error) : NULL;
}

/* The gate --------------------------------------------------------------------------------------------------------- */

static const HsSafetyLine *
first_high_voltage_open (const HsSafetySheet *sheet)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (sheet->lines, i);

      if (line->high_voltage && (is_open (line) || bars (sheet, line)))
        return line;
    }
  return NULL;
}

/* Each in quotes, as they are named in a sentence. @not_so: those that are not, else those that nobody answered. */
static char *
dup_names (const HsSafetySheet *sheet, gboolean not_so)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < sheet->lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (sheet->lines, i);

      if (not_so ? line->not_so : is_open (line))
        g_string_append_printf (names, "%s“%s”", names->len > 0 ? ", " : "", line->brief);
    }
  return g_string_free (g_steal_pointer (&names), FALSE);
}

static gboolean
refuse_not_so (const HsSafetySheet *sheet, GError **error)
{
  g_autofree char *names = dup_names (sheet, TRUE);

  return hs_ops_refuse (error, "Not so on the safety list: %s. Do not go on here. Put it right and answer it anew, or "
                               "refuse the work and say why.", names);
}

static gboolean
check_sheet (const HsSafetySheet *sheet, const HsJobRow *job, GError **error)
{
  const HsSafetyLine *open = first_high_voltage_open (sheet);

  if (sheet->visit_id == NULL)
    return hs_ops_refuse (error, "%s is a high-voltage vehicle, and nobody has arrived yet. Arrive and answer its "
                                 "safety list before anything is measured or found.", job->number);
  if (open == NULL)
    return TRUE;
  if (open->not_so)
    return refuse_not_so (sheet, error);
  return hs_ops_refuse (error, "%s is a high-voltage vehicle. Answer its safety list first; “%s” is not done yet on "
                               "this visit. Say done, or refuse the work as a whole and why.",
                        job->number, open->brief);
}

gboolean
hs_safety_gate (HsStore *store, const char *job_id, GError **error)
{
  g_autoptr (HsSafetySheet) sheet = NULL;
  g_autoptr (HsJobRow) job = NULL;
  gboolean high_voltage;

  if (!hs_job_row_load (store, job_id, &job, error) || !is_high_voltage (store, job, &high_voltage, error))
    return FALSE;
  if (!high_voltage)
    return TRUE;
  sheet = load_sheet (store, job, error);
  return sheet != NULL && check_sheet (sheet, job, error);
}

static gboolean
is_begun (const HsSafetySheet *sheet)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    if (((const HsSafetyLine *) g_ptr_array_index (sheet->lines, i))->answer != NULL)
      return TRUE;
  return sheet->note != NULL && !sheet->passed;
}

/* Returns: (nullable): what is not so comes first. */
static char *
dup_barring (const HsSafetySheet *sheet)
{
  g_autofree char *not_so = sheet->n_not_so > 0 ? dup_names (sheet, TRUE) : NULL;
  g_autofree char *open = sheet->n_open > 0 ? dup_names (sheet, FALSE) : NULL;

  if (not_so == NULL)
    return g_steal_pointer (&open);
  return open == NULL ? g_strdup_printf ("%s (not so)", not_so) : g_strdup_printf ("%s (not so), %s", not_so, open);
}

gboolean
hs_safety_dup_open (HsStore *store, const HsJobRow *job, char **ret_names, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;
  g_autoptr (HsSafetySheet) sheet = NULL;

  *ret_names = NULL;
  if (!hs_visit_load_arrived (store, job->id, &visit, error))
    return FALSE;
  if (visit == NULL || visit->left_at != HS_INSTANT_NONE)
    return TRUE;
  sheet = load_sheet (store, job, error);
  if (sheet == NULL)
    return FALSE;
  if (is_begun (sheet))
    *ret_names = dup_barring (sheet);
  return TRUE;
}

/* Answering -------------------------------------------------------------------------------------------------------- */

static gboolean
load_running (HsStore *store, const char *job_id, HsVisitRow **ret_visit, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;

  if (!hs_visit_load_arrived (store, job_id, &visit, error))
    return FALSE;
  if (visit == NULL)
    return hs_ops_refuse (error, "Nobody has arrived yet; the safety list is answered at the vehicle.");
  if (visit->left_at != HS_INSTANT_NONE)
    return hs_ops_refuse (error, "That visit is over. Arrive again, and the list is asked again.");
  *ret_visit = g_steal_pointer (&visit);
  return TRUE;
}

static gboolean
save_answer (HsStore *store, const char *visit_id, const char *item, const char *answer, const char *why,
             HsInstant now, GError **error)
{
  g_autoptr (HsSafetyRow) row = NULL;

  if (!hs_safety_row_find (store, visit_id, item, &row, error))
    return FALSE;
  if (answer == NULL)
    return row == NULL || hs_safety_row_delete (store, row->id, error);
  if (row == NULL)
    row = hs_safety_row_new ();
  hs_row_set (&row->visit_id, visit_id);
  hs_row_set (&row->item, item);
  hs_row_set (&row->answer, answer);
  hs_row_set (&row->why, g_str_equal (answer, "refused") ? why : NULL);
  row->at = now;
  return hs_safety_row_save (store, row, error);
}

static gboolean
answer_item (HsStore *store, const char *job_id, const HsSafetyItem *item, const char *answer, const char *why,
             HsInstant now, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;

  if (!load_running (store, job_id, &visit, error))
    return FALSE;
  if (g_strcmp0 (answer, "refused") == 0 && g_strcmp0 (why, get_refusal (visit->safe_note)) == 0)
    return hs_ops_refuse (error, "%s: the work was refused in these words. Say in others what is not so.",
                          item->brief);
  return save_answer (store, visit->id, item->id, answer, why, now, error);
}

static gboolean
check_high_voltage (const HsSafetyItem *item, const char *answer, GError **error)
{
  if (!item->high_voltage || g_strcmp0 (answer, "not_here") != 0)
    return TRUE;
  return hs_ops_refuse (error, "%s: on a high-voltage vehicle it always applies. Say done once it is so, or refuse the "
                               "work as a whole and say why.", item->brief);
}

static const HsSafetyItem *
find_item (const HsSafety *safety, const char *id, GError **error)
{
  const HsSafetyItem *item = hs_safety_find (safety, id);
  g_autoptr (GString) known = g_string_new (NULL);

  if (item != NULL)
    return item;
  for (guint i = 0; (item = hs_safety_get_nth (safety, i)) != NULL; i++)
    g_string_append_printf (known, "%s%s", i == 0 ? "" : ", ", item->id);
  hs_ops_refuse (error, "The safety list has no “%s”. It has: %s.", id == NULL ? "" : id, known->str);
  return NULL;
}

gboolean
hs_safety_answer (HsBook *book, const char *job_id, const char *item, const char *answer, const char *why,
                  HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsSafety) safety = hs_data_load_safety (error);
  const HsSafetyItem *found = safety == NULL ? NULL : find_item (safety, item, error);
  const char *answer_id;

  if (found == NULL || !hs_ops_word (HS_WORDS_SAFETY_ANSWER, answer, NULL, &answer_id, error)
      || !check_high_voltage (found, answer_id, error))
    return FALSE;
  why = hs_ops_blank_to_null (why);
  if (why == NULL && answer != NULL && g_ascii_strncasecmp (answer, "not", 3) == 0)
    why = NOT_SO;
  if (g_strcmp0 (answer_id, "refused") == 0 && why == NULL)
    return hs_ops_refuse (error, "%s: refused because of what? A few words will do.", found->brief);
  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "safety: %s", found->brief);
  return hs_store_end (store, answer_item (store, job_id, found, answer_id, why, now, error), error);
}

/* @item: (nullable): the one that is answered. */
static gboolean
check_above (const HsSafetyLine *line, const char *item, GError **error)
{
  if (!line->high_voltage || !line->asked || g_strcmp0 (line->id, item) == 0)
    return TRUE;
  return hs_ops_refuse (error, "High voltage: answer “%s” by itself; it is not done along with the rest.",
                        line->brief);
}

static gboolean
answer_down_to (HsBook *book, const char *job_id, const char *item, HsInstant now, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;
  g_autoptr (HsSafetySheet) sheet = NULL;

  if (!load_running (hs_book_get_store (book), job_id, &visit, error)
      || (sheet = hs_safety_sheet_load (book, job_id, error)) == NULL)
    return FALSE;
  for (guint i = 0; i < sheet->lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (sheet->lines, i);

      if (!check_above (line, item, error)
          || (line->asked
              && !save_answer (hs_book_get_store (book), visit->id, line->id, "done", NULL, now, error)))
        return FALSE;
      if (g_str_equal (line->id, item))
        return TRUE;
    }
  return hs_ops_refuse (error, "The safety list of this visit does not ask “%s”.", item);
}

gboolean
hs_safety_answer_down_to (HsBook *book, const char *job_id, const char *item, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsSafety) safety = hs_data_load_safety (error);
  const HsSafetyItem *found = safety == NULL ? NULL : find_item (safety, item, error);

  if (found == NULL || !hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "safety: %s", found->brief);
  return hs_store_end (store, answer_down_to (book, job_id, found->id, now, error), error);
}

static char *
say_end (HsSafetyEnd end, const char *why)
{
  if (end == HS_SAFETY_REFUSED)
    return g_strconcat (REFUSED_BECAUSE, why, NULL);
  if (end == HS_SAFETY_MOVED)
    return why != NULL ? g_strdup_printf ("moved: %s", why) : g_strdup ("moved");
  return g_strdup ("safe here");
}

static gboolean
answer_rest (HsStore *store, const HsSafetySheet *sheet, HsSafetyEnd end, const char *why, HsInstant now,
             GError **error)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (sheet->lines, i);

      if (line->asked
          && !save_answer (store, sheet->visit_id, line->id, end == HS_SAFETY_REFUSED ? "refused" : "done", why, now,
                           error))
        return FALSE;
    }
  return TRUE;
}

/* Also where the work was refused: that is over with "safe here". */
static gboolean
has_not_so (const HsSafetySheet *sheet)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    if (((const HsSafetyLine *) g_ptr_array_index (sheet->lines, i))->not_so)
      return TRUE;
  return FALSE;
}

/* Also where it was refused along with the work, and that opened the findings. */
static gboolean
check_high_voltage_asked (const HsSafetySheet *sheet, GError **error)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    if (!check_above (g_ptr_array_index (sheet->lines, i), NULL, error))
      return FALSE;
  return TRUE;
}

/* In the words of an item that is not so that one would be taken for refused along with the work. */
static gboolean
check_reason (const HsSafetySheet *sheet, const char *why, GError **error)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (sheet->lines, i);

      if (line->not_so && g_strcmp0 (line->why, why) == 0)
        return hs_ops_refuse (error, "“%s” has these words already. Say in other words why the work is refused.",
                              line->brief);
    }
  return TRUE;
}

/* Whoever went through the list once has not looked at what came to it since. */
static gboolean
check_added (const HsSafetySheet *sheet, GError **error)
{
  g_autofree char *names = NULL;

  if (sheet->note == NULL || sheet->passed || sheet->n_open == 0)
    return TRUE;
  names = dup_names (sheet, FALSE);
  return hs_ops_refuse (error, "Answer by itself: %s. It came to the list after it was gone through.", names);
}

static gboolean
check_end (const HsSafetySheet *sheet, HsSafetyEnd end, const char *why, GError **error)
{
  if (end == HS_SAFETY_REFUSED)
    return check_reason (sheet, why, error);
  if (has_not_so (sheet))
    return refuse_not_so (sheet, error);
  return check_high_voltage_asked (sheet, error) && check_added (sheet, error);
}

static gboolean
finish (HsBook *book, const char *job_id, HsSafetyEnd end, const char *why, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsVisitRow) visit = NULL;
  g_autoptr (HsSafetySheet) sheet = NULL;

  if (!load_running (store, job_id, &visit, error))
    return FALSE;
  sheet = hs_safety_sheet_load (book, job_id, error);
  if (sheet == NULL)
    return FALSE;
  if (!check_end (sheet, end, why, error))
    return FALSE;
  g_free (visit->safe_note);
  visit->safe_note = say_end (end, why);
  return answer_rest (store, sheet, end, why, now, error) && hs_visit_row_save (store, visit, error);
}

/* The words of an item are no reason for the whole. */
static gboolean
need_reason (const char *why, GError **error)
{
  g_autofree char *words = why != NULL ? g_strstrip (g_strdup (why)) : NULL;

  if (words == NULL)
    return hs_ops_refuse (error, "Refused because of what? A few words will do.");
  return g_ascii_strcasecmp (words, NOT_SO) != 0
         || hs_ops_refuse (error, "“%s” is no reason. Refused because of what? A few words will do.", words);
}

gboolean
hs_safety_finish (HsBook *book, const char *job_id, HsSafetyEnd end, const char *why, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  why = hs_ops_blank_to_null (why);
  if (end == HS_SAFETY_REFUSED && !need_reason (why, error))
    return FALSE;
  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_undo_note (store, job_id, end == HS_SAFETY_REFUSED ? "safety: refused"
                               : end == HS_SAFETY_MOVED ? "safety: moved" : "safety: safe here");
  return hs_store_end (store, finish (book, job_id, end, why, now, error), error);
}

/* Passing ---------------------------------------------------------------------------------------------------------- */

static gboolean
refuse_unread (GError **error)
{
  g_set_error (error, HS_OPS_ERROR, HS_OPS_ERROR_UNREAD,
               "Nobody went through the safety list of this visit. Go through it before it is tested good.");
  return FALSE;
}

gboolean
hs_safety_check_read (HsBook *book, const char *job_id, HsStage to, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;
  g_autoptr (HsSafetySheet) sheet = NULL;

  if (to != HS_STAGE_PROVEN)
    return TRUE;
  if (!hs_visit_load_arrived (hs_book_get_store (book), job_id, &visit, error))
    return FALSE;
  if (visit == NULL || visit->left_at != HS_INSTANT_NONE)
    return TRUE;
  sheet = hs_safety_sheet_load (book, job_id, error);
  return sheet != NULL && (sheet->passed || is_begun (sheet) || refuse_unread (error));
}

static gboolean
pass (HsBook *book, const char *job_id, GError **error)
{
  g_autoptr (HsVisitRow) visit = NULL;
  g_autoptr (HsSafetySheet) sheet = NULL;

  if (!load_running (hs_book_get_store (book), job_id, &visit, error)
      || (sheet = hs_safety_sheet_load (book, job_id, error)) == NULL)
    return FALSE;
  if (sheet->high_voltage)
    return hs_ops_refuse (error, "High voltage: its safety list is not passed. Answer it, or refuse the work and say "
                                 "why.");
  if (is_begun (sheet))
    return hs_ops_refuse (error, "The safety list of this visit is begun. Answer what is left of it.");
  g_free (visit->safe_note);
  visit->safe_note = g_strdup (PASSED);
  return hs_visit_row_save (hs_book_get_store (book), visit, error);
}

gboolean
hs_safety_pass (HsBook *book, const char *job_id, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_undo_note (store, job_id, "safety: " PASSED);
  return hs_store_end (store, pass (book, job_id, error), error);
}
