// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The past jobs of the demo, lived one after the other: call, drive, readings, why it failed, what was told, the yes,
 * the parts, the proof, the bill and the payment, each through its operation and at its own minute.
 */

#include "hs-demo-private.h"

#include "hs-choice-op.h"
#include "hs-decimal.h"
#include "hs-desk-op.h"
#include "hs-job-life.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-safety-op.h"
#include "hs-settings-op.h"
#include "hs-signature.h"

#include <math.h>

/* The yes to the exact sum comes this long after arriving. */
#define GO_AHEAD_SECONDS (20 * 60)

typedef struct
{
  HsDemo *demo;
  HsBook *book;
  JsonObject *story;
  HsDate day;
  HsInstant called;
  HsInstant rolling;
  HsInstant arrived;
  HsInstant left;
  char *job_id;
  gboolean signed_yes;
  GHashTable *findings;
  GHashTable *readings;
} Live;

static void
live_clear (Live *live)
{
  g_free (live->job_id);
  g_clear_pointer (&live->findings, g_hash_table_unref);
  g_clear_pointer (&live->readings, g_hash_table_unref);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Live, live_clear)

static const char *
text_of (JsonObject *object, const char *name)
{
  return json_object_get_string_member_with_default (object, name, NULL);
}

static JsonArray *
array_of (JsonObject *object, const char *name)
{
  return json_object_has_member (object, name) ? json_object_get_array_member (object, name) : NULL;
}

static guint
length_of (JsonArray *array)
{
  return array == NULL ? 0 : json_array_get_length (array);
}

/* "09:10" of the job's day; "16:20 -1" is the day before. */
static gboolean
read_moment (const Live *live, const char *text, HsInstant *ret_instant, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, " ", 2);
  gint64 days = 0;
  int minutes;

  if (!hs_clock_parse (parts[0], &minutes, error)
      || (parts[1] != NULL && !hs_decimal_parse (parts[1], 0, &days, error)))
    return FALSE;
  *ret_instant = hs_instant_from_local (hs_book_get_zone (live->book), hs_date_add_days (live->day, (int) days),
                                        minutes);
  return TRUE;
}

static gboolean
read_moments (Live *live, GError **error)
{
  return hs_date_parse (text_of (live->story, "date"), &live->day, error)
         && read_moment (live, text_of (live->story, "called"), &live->called, error)
         && read_moment (live, text_of (live->story, "rolling"), &live->rolling, error)
         && read_moment (live, text_of (live->story, "arrived"), &live->arrived, error)
         && read_moment (live, text_of (live->story, "left"), &live->left, error);
}

static gboolean
ask (Live *live, GError **error)
{
  JsonArray *asked = array_of (live->story, "asked");

  for (guint i = 0; i < length_of (asked); i++)
    {
      JsonArray *pair = json_array_get_array_element (asked, i);

      if (!hs_asked_add (live->book, live->job_id, json_array_get_string_element (pair, 0),
                         json_array_get_string_element (pair, 1), live->called, error))
        return FALSE;
    }
  return TRUE;
}

/* The promise was two hours around the half hour in which the van came. */
static gboolean
take_call (Live *live, GError **error)
{
  JsonObject *story = live->story;
  HsCallSlip slip = { .phone = text_of (story, "phone"),
                      .words = text_of (story, "words"),
                      .plate = text_of (story, "plate"),
                      .group = text_of (story, "group"),
                      .kind = text_of (story, "kind"),
                      .area = text_of (story, "area"),
                      .follows = text_of (story, "follows"),
                      .return_why = text_of (story, "return_why"),
                      .day = live->day };
  int seconds;

  hs_instant_to_local (hs_book_get_zone (live->book), live->arrived, NULL, &seconds);
  slip.window_from = MAX (0, seconds / 1800 * 30 - 30);
  slip.window_to = slip.window_from + 120;
  slip.minutes = (int) (live->left - live->arrived) / 60;
  live->job_id = hs_call_take (live->book, &slip, live->called, error);
  return live->job_id != NULL && ask (live, error)
         && hs_job_move_stage (live->book, live->job_id, HS_STAGE_PROMISED, NULL, live->called, error);
}

static gboolean
add_trip (Live *live, gboolean out, gint64 seconds, gint64 millimiles, GError **error)
{
  g_autofree char *base = hs_settings_dup (live->book, "base_area", error);
  const char *area = text_of (live->story, "area");
  HsTripEntry trip = { .on = live->day,
                       .from = out ? base : area,
                       .to = out ? area : base,
                       .seconds = seconds,
                       .millimiles = millimiles,
                       .purpose = "job",
                       .job_id = live->job_id };

  return base != NULL && hs_trip_add (live->book, &trip, out ? live->arrived : live->left, error);
}

/* What is asked by itself first, then the rest at once. */
static gboolean
make_safe (Live *live, GError **error)
{
  g_autoptr (HsSafetySheet) sheet = hs_safety_sheet_load (live->book, live->job_id, error);

  if (sheet == NULL)
    return FALSE;
  for (guint i = 0; i < sheet->lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (sheet->lines, i);

      if (line->high_voltage
          && !hs_safety_answer (live->book, live->job_id, line->id, "done", NULL, live->arrived, error))
        return FALSE;
    }
  return hs_safety_finish (live->book, live->job_id, HS_SAFETY_SAFE, NULL, live->arrived, error);
}

static gboolean
drive (Live *live, GError **error)
{
  gint64 seconds = 60 * json_object_get_int_member (live->story, "drive_minutes");
  gint64 millimiles = (gint64) llround (1000 * json_object_get_double_member (live->story, "miles"));

  return hs_job_move_stage (live->book, live->job_id, HS_STAGE_ROLLING, NULL, live->rolling, error)
         && hs_job_move_stage (live->book, live->job_id, HS_STAGE_ON_SITE, NULL, live->arrived, error)
         && make_safe (live, error)
         && hs_visit_drive (live->book, live->job_id, seconds, millimiles, live->arrived, error)
         && add_trip (live, TRUE, seconds / 2, millimiles / 2, error)
         && add_trip (live, FALSE, seconds - seconds / 2, millimiles - millimiles / 2, error);
}

static gboolean
read_odometer (Live *live, GError **error)
{
  g_autofree char *vehicle_id = NULL;

  if (!json_object_has_member (live->story, "odometer"))
    return TRUE;
  vehicle_id = hs_demo_vehicle (live->demo, text_of (live->story, "plate"), error);
  return vehicle_id != NULL
         && hs_odometer_add (live->book, vehicle_id, live->job_id, live->day,
                             json_object_get_int_member (live->story, "odometer"), NULL, live->arrived, error);
}

static gboolean
take_reading (Live *live, JsonObject *each, GError **error)
{
  HsReadingEntry entry = { .check = text_of (each, "check"),
                           .text = text_of (each, "value"),
                           .phase = text_of (each, "phase"),
                           .place = text_of (each, "place"),
                           .conditions = text_of (each, "note") };
  g_autoptr (HsReadingResult) result = NULL;

  if (!read_moment (live, text_of (each, "at"), &entry.at, error))
    return FALSE;
  result = hs_reading_add (live->book, live->job_id, &entry, entry.at, error);
  if (result == NULL)
    return FALSE;
  if (!g_hash_table_contains (live->readings, entry.check))
    g_hash_table_insert (live->readings, g_strdup (entry.check), g_strdup (result->id));
  return TRUE;
}

static gboolean
take_readings (Live *live, gboolean after, GError **error)
{
  JsonArray *readings = array_of (live->story, "readings");

  for (guint i = 0; i < length_of (readings); i++)
    {
      JsonObject *each = json_array_get_object_element (readings, i);

      if (g_str_equal (text_of (each, "phase"), "after") == after && !take_reading (live, each, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
add_findings (Live *live, GError **error)
{
  JsonArray *findings = array_of (live->story, "findings");

  for (guint i = 0; i < length_of (findings); i++)
    {
      JsonObject *each = json_array_get_object_element (findings, i);
      HsFindingEntry entry = { .place = text_of (each, "place"),
                               .what = text_of (each, "what"),
                               .role = text_of (each, "role"),
                               .sure = text_of (each, "sure"),
                               .weight = text_of (each, "weight"),
                               .ended = text_of (each, "ended"),
                               .said_by = text_of (each, "said_by") };
      char *id = hs_finding_add (live->book, live->job_id, &entry, live->arrived + GO_AHEAD_SECONDS / 2, error);

      if (id == NULL)
        return FALSE;
      g_hash_table_insert (live->findings, g_strdup (text_of (each, "id")), id);
    }
  return TRUE;
}

/* The first reading of that check, the one that showed what is wrong. */
static const char *
reading_of (Live *live, const char *check)
{
  return check == NULL ? NULL : g_hash_table_lookup (live->readings, check);
}

static gboolean
add_causes (Live *live, GError **error)
{
  JsonArray *links = array_of (live->story, "because");

  for (guint i = 0; i < length_of (links); i++)
    {
      JsonObject *each = json_array_get_object_element (links, i);
      HsBecauseEntry entry = { .proof = text_of (each, "proof"),
                               .kind = text_of (each, "by"),
                               .reading_id = reading_of (live, text_of (each, "check")) };
      g_autofree char *link_id
          = hs_because_add (live->book, g_hash_table_lookup (live->findings, text_of (each, "effect")),
                            g_hash_table_lookup (live->findings, text_of (each, "cause")), &entry,
                            live->arrived + GO_AHEAD_SECONDS / 2, error);

      if (link_id == NULL)
        return FALSE;
    }
  return TRUE;
}

/* An option with a price that was only said. */
static char *
add_said (Live *live, JsonObject *each, const HsChoiceAnswer *answer, GError **error)
{
  HsAdviceEntry entry = { .group = text_of (each, "group"),
                          .rank = (int) json_object_get_int_member_with_default (each, "rank", 0),
                          .wording = text_of (each, "wording"),
                          .choice = answer->choice,
                          .risk = answer->risk,
                          .by = answer->by,
                          .means = answer->means,
                          .at = answer->at,
                          .chase_on = answer->call_on };

  if (!hs_money_parse (text_of (each, "price"), hs_book_get_currency (live->book), &entry.price_cents, error))
    return NULL;
  return hs_advice_add (live->book, live->job_id, &entry, answer->at, error);
}

static gboolean
read_lines (Live *live, JsonArray *array, HsChoiceLineEntry *lines, GError **error)
{
  for (guint i = 0; i < length_of (array); i++)
    {
      JsonObject *each = json_array_get_object_element (array, i);
      const char *cost = text_of (each, "cost");

      lines[i] = HS_CHOICE_LINE_NONE;
      lines[i].kind = text_of (each, "kind");
      lines[i].what = text_of (each, "what");
      lines[i].minutes = json_object_get_int_member_with_default (each, "minutes", 0);
      if (cost != NULL && !hs_money_parse (cost, hs_book_get_currency (live->book), &lines[i].cost_cents, error))
        return FALSE;
    }
  return TRUE;
}

static char *
add_priced (Live *live, JsonObject *each, const HsChoiceAnswer *answer, GError **error)
{
  g_autofree char *rank
      = g_strdup_printf ("%" G_GINT64_FORMAT, json_object_get_int_member_with_default (each, "rank", 1));
  const HsChoiceEntry entry = { .group = text_of (each, "group"), .rank = rank, .wording = text_of (each, "wording") };
  JsonArray *array = array_of (each, "lines");
  g_autofree HsChoiceLineEntry *lines = g_new0 (HsChoiceLineEntry, length_of (array) + 1);
  g_autofree char *id = NULL;

  if (!read_lines (live, array, lines, error))
    return NULL;
  id = hs_choice_add (live->book, live->job_id, &entry, lines, length_of (array), answer->at, error);
  if (id == NULL || !hs_choice_decide (live->book, id, answer, answer->at, error))
    return NULL;
  return g_steal_pointer (&id);
}

/* Nobody's name: a wave, as it is drawn on the screen. */
static GBytes *
scribble (void)
{
  g_autoptr (HsSignature) signature = hs_signature_new (400, 120);

  hs_signature_begin (signature, 40, 60);
  for (int i = 1; i <= 16; i++)
    hs_signature_move (signature, 40 + 20 * i, i % 2 == 0 ? 80 - 2 * i : 34 + i);
  return hs_signature_to_bytes (signature);
}

static gboolean
read_costs (Live *live, gint64 *costs, GError **error)
{
  JsonArray *parts = array_of (live->story, "parts");

  for (guint i = 0; i < length_of (parts); i++)
    if (!hs_money_parse (text_of (json_array_get_object_element (parts, i), "cost"),
                         hs_book_get_currency (live->book), &costs[i], error))
      return FALSE;
  return TRUE;
}

/* What the job comes to is known from the rates. */
static gboolean
estimate (Live *live, gint64 *ret_cents, GError **error)
{
  guint n_parts = length_of (array_of (live->story, "parts"));
  g_autofree gint64 *costs = g_new0 (gint64, n_parts + 1);
  gint64 net_cents;
  gint64 tax_cents;

  if (!read_costs (live, costs, error)
      || !hs_job_estimate (live->book, (live->left - live->arrived) / 60, costs, n_parts, &net_cents, &tax_cents,
                           error))
    return FALSE;
  *ret_cents = net_cents + tax_cents;
  return TRUE;
}

/* A yes that was signed is the go-ahead for the exact sum. */
static gboolean
sign (Live *live, HsChoiceAnswer *answer, GBytes *signature, GError **error)
{
  if (g_strcmp0 (answer->means, "signed_on_screen") != 0)
    return TRUE;
  answer->signature = signature;
  if (g_strcmp0 (answer->choice, "yes") != 0)
    return TRUE;
  live->signed_yes = TRUE;
  return estimate (live, &answer->ceiling_cents, error);
}

static gboolean
add_advice_entry (Live *live, JsonObject *each, GError **error)
{
  const char *chase = text_of (each, "chase");
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  g_autoptr (GBytes) signature = scribble ();
  g_autofree char *id = NULL;

  answer.choice = text_of (each, "choice");
  answer.risk = text_of (each, "risk");
  answer.by = text_of (each, "by");
  answer.means = text_of (each, "means");
  if (!sign (live, &answer, signature, error) || !read_moment (live, text_of (each, "at"), &answer.at, error)
      || (chase != NULL && !hs_date_parse (chase, &answer.call_on, error)))
    return FALSE;
  id = length_of (array_of (each, "lines")) > 0 ? add_priced (live, each, &answer, error)
                                                : add_said (live, each, &answer, error);
  return id != NULL;
}

static gboolean
add_advice (Live *live, GError **error)
{
  JsonArray *advice = array_of (live->story, "advice");

  for (guint i = 0; i < length_of (advice); i++)
    if (!add_advice_entry (live, json_array_get_object_element (advice, i), error))
      return FALSE;
  return TRUE;
}

/* The yes covers the exact sum. */
static gboolean
get_go_ahead (Live *live, GError **error)
{
  gint64 cents;

  if (live->signed_yes || text_of (live->story, "goodwill") != NULL)
    return TRUE;
  return estimate (live, &cents, error)
         && hs_go_ahead_add (live->book, live->job_id, cents, text_of (live->story, "told"), "in_person",
                             live->arrived + GO_AHEAD_SECONDS, error);
}

static gboolean
install_part (Live *live, JsonObject *each, gint64 cost_cents, GError **error)
{
  gboolean upkeep = g_str_equal (text_of (live->story, "kind"), "upkeep");
  const char *number = text_of (each, "from_van");
  HsInstallEntry entry = { .what = text_of (each, "what"),
                           .part_number = number,
                           .from_van = number != NULL,
                           .place = text_of (each, "place"),
                           .maker = text_of (each, "maker"),
                           .battery_kind = text_of (each, "battery_kind"),
                           .ah = (double) json_object_get_int_member_with_default (each, "ah", 0),
                           .cca = (double) json_object_get_int_member_with_default (each, "cca", 0),
                           .warranty_months = (int) json_object_get_int_member_with_default (each, "months", 0),
                           .cost_cents = cost_cents,
                           .why = upkeep ? "due" : NULL,
                           .why_finding_id = g_hash_table_lookup (live->findings, text_of (each, "why")),
                           .past_ceiling = TRUE,
                           .warranty_swap = json_object_get_boolean_member_with_default (each, "swap", FALSE) };
  g_autofree char *id = hs_part_install (live->book, live->job_id, &entry, live->arrived + 2 * GO_AHEAD_SECONDS, error);

  return id != NULL;
}

static gboolean
install_parts (Live *live, GError **error)
{
  JsonArray *parts = array_of (live->story, "parts");
  g_autofree gint64 *costs = g_new0 (gint64, length_of (parts) + 1);

  if (!read_costs (live, costs, error))
    return FALSE;
  for (guint i = 0; i < length_of (parts); i++)
    if (!install_part (live, json_array_get_object_element (parts, i), costs[i], error))
      return FALSE;
  return TRUE;
}

static gboolean
work (Live *live, GError **error)
{
  return read_odometer (live, error) && take_readings (live, FALSE, error) && add_findings (live, error)
         && add_causes (live, error) && add_advice (live, error) && get_go_ahead (live, error)
         && install_parts (live, error) && take_readings (live, TRUE, error);
}

static gboolean
square (Live *live, GError **error)
{
  return hs_job_move_stage (live->book, live->job_id, HS_STAGE_PROVEN, NULL, live->left, error)
         && hs_job_price (live->book, live->job_id, text_of (live->story, "goodwill"), live->left, error)
         && hs_job_square (live->book, live->job_id, live->left, error);
}

/* Paid on the spot as the van leaves, or at noon of a later day. */
static gboolean
pay (Live *live, GError **error)
{
  JsonNode *node = json_object_get_member (live->story, "paid");
  g_autoptr (HsJobRow) job = NULL;
  JsonArray *paid;
  HsDate day;
  HsInstant at;

  if (node == NULL || JSON_NODE_HOLDS_NULL (node))
    return TRUE;
  paid = json_node_get_array (node);
  if (!hs_date_parse (json_array_get_string_element (paid, 0), &day, error)
      || !hs_job_row_load (live->demo->store, live->job_id, &job, error))
    return FALSE;
  at = day == live->day ? live->left : hs_instant_from_local (hs_book_get_zone (live->book), day, 12 * 60);
  return hs_payment_add (live->book, live->job_id, job->owed_cents, json_array_get_string_element (paid, 1), at,
                         error);
}

static gboolean
live_job (HsDemo *demo, JsonObject *story, GError **error)
{
  g_auto (Live) live = { .demo = demo,
                         .book = demo->book,
                         .story = story,
                         .findings = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free),
                         .readings = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free) };

  if (!read_moments (&live, error) || !hs_store_begin (demo->store, live.left, error))
    return FALSE;
  return hs_store_end (demo->store,
                       take_call (&live, error) && drive (&live, error) && work (&live, error)
                           && square (&live, error) && pay (&live, error),
                       error);
}

gboolean
hs_demo_live_jobs (HsDemo *demo, GError **error)
{
  JsonArray *jobs = json_object_get_array_member (demo->story, "jobs");

  for (guint i = 0; i < json_array_get_length (jobs); i++)
    {
      JsonObject *story = json_array_get_object_element (jobs, i);

      if (live_job (demo, story, error))
        continue;
      g_prefix_error (error, "%s: ", text_of (story, "number"));
      return FALSE;
    }
  return TRUE;
}
