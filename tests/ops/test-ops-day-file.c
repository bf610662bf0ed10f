// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A day read from JSON: each thing where it belongs, each wrong thing refused by its path. */

#include "hs-day-file.h"

#include "hs-json-strict.h"
#include "hs-ops-error.h"
#include "hs-plan-error.h"

#include <string.h>

static const char whole[] =
    "{\n"
    "  \"minute_cents\": 160,\n"
    "  \"mile_cents\": 42,\n"
    "  \"spare_minutes\": 15,\n"
    "  \"travel\": {\"minutes\": [[0, 10.5], [12, 0]], \"miles\": [[0, 3.1], [3.25, 0]]},\n"
    "  \"vans\": [\n"
    "    {\"id\": \"van 1\", \"start\": 0, \"end\": 1, \"from\": \"08:00\", \"to\": \"17:30\",\n"
    "     \"carries\": [\"belt\", \"pump\", \"belt\"], \"skills\": [\"gas\"],\n"
    "     \"break\": {\"minutes\": 30, \"between\": [\"11:30\", \"13:30\"]}},\n"
    "    {\"id\": \"van 2\", \"start\": 1, \"end\": 1, \"from\": \"20:00\", \"to\": \"26:15\", \"break\": null}],\n"
    "  \"calls\": [\n"
    "    {\"id\": \"A-1\", \"place\": 1,\n"
    "     \"minutes\": 45, \"windows\": [[\"10:00\", \"11:00\"], [\"13:00\", \"13:00:30\"]],\n"
    "     \"needs\": [\"pump\", \"hose\"], \"van\": \"van 2\", \"skills\": [\"gas\", \"diesel\"]},\n"
    "    {\"id\": \"A-2\", \"place\": 0, \"minutes\": 0.5}],\n"
    "  \"counters\": [\n"
    "    {\"id\": \"C\", \"place\": 1, \"minutes\": 8, \"hours\": [[\"08:00\", \"12:30\"], [\"13:15\", \"17:00\"]],\n"
    "     \"sells\": {\"hose\": 1250, \"belt\": 0}},\n"
    "    {\"id\": \"D\", \"place\": 0, \"minutes\": 5, \"hours\": [], \"sells\": {}}]\n"
    "}\n";

static HsProblem *
parse (const char *text, GError **error)
{
  return hs_day_file_parse (text, strlen (text), error);
}

static gint32
clock_of (gint32 hours, gint32 minutes, gint32 seconds)
{
  return (hours * 60 + minutes) * 60 + seconds;
}

static void
assert_units (const HsProblem *problem, const GArray *units, const char *names)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint k = 0; k < units->len; k++)
    g_string_append_printf (text, "%s%s", k > 0 ? " " : "",
                            (const char *) problem->parts->pdata[g_array_index (units, guint, k)]);
  g_assert_cmpstr (text->str, ==, names);
}

static void
assert_words (const GPtrArray *words, const char *names)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint k = 0; k < words->len; k++)
    g_string_append_printf (text, "%s%s", k > 0 ? " " : "", (const char *) words->pdata[k]);
  g_assert_cmpstr (text->str, ==, names);
}

static void
assert_span (const GArray *spans, guint index, gint32 from, gint32 to)
{
  g_assert_cmpuint (spans->len, >, index);
  g_assert_cmpint (g_array_index (spans, HsDaySpan, index).from_seconds, ==, from);
  g_assert_cmpint (g_array_index (spans, HsDaySpan, index).to_seconds, ==, to);
}

static void
test_tables (void)
{
  static const gint32 seconds[] = { 0, 630, 720, 0 };
  static const gint64 millimiles[] = { 0, 3100, 3250, 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsProblem) problem = parse (whole, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (problem->n_places, ==, 2);
  g_assert_cmpint (problem->minute_cents, ==, 160);
  g_assert_cmpint (problem->mile_cents, ==, 42);
  g_assert_cmpint (problem->spare_seconds, ==, 900);
  for (guint cell = 0; cell < 4; cell++)
    {
      g_assert_cmpint (g_array_index (problem->drive_seconds, gint32, cell), ==, seconds[cell]);
      g_assert_cmpint (g_array_index (problem->drive_millimiles, gint64, cell), ==, millimiles[cell]);
    }
}

static void
test_vans (void)
{
  g_autoptr (HsProblem) problem = parse (whole, NULL);
  const HsVan *first = hs_problem_get_van (problem, 0);
  const HsVan *second = hs_problem_get_van (problem, 1);

  g_assert_cmpuint (problem->vans->len, ==, 2);
  g_assert_cmpstr (first->id, ==, "van 1");
  g_assert_cmpuint (first->start, ==, 0);
  g_assert_cmpuint (first->end, ==, 1);
  g_assert_cmpint (first->leave_from_seconds, ==, clock_of (8, 0, 0));
  g_assert_cmpint (first->leave_to_seconds, ==, clock_of (17, 30, 0));
  g_assert_cmpint (first->home_by_seconds, ==, clock_of (17, 30, 0));
  g_assert_cmpint (first->break_seconds, ==, 1800);
  g_assert_cmpint (first->break_span.from_seconds, ==, clock_of (11, 30, 0));
  g_assert_cmpint (first->break_span.to_seconds, ==, clock_of (13, 30, 0));
  assert_units (problem, first->carries, "belt pump belt");
  assert_words (first->skills, "gas");
  g_assert_cmpstr (second->id, ==, "van 2");
  g_assert_cmpint (second->home_by_seconds, ==, clock_of (26, 15, 0));
  g_assert_cmpint (second->break_seconds, ==, 0);
  g_assert_cmpuint (second->carries->len + second->skills->len, ==, 0);
}

static void
test_stops (void)
{
  g_autoptr (HsProblem) problem = parse (whole, NULL);
  const HsCall *first = hs_problem_get_call (problem, 0);
  const HsCall *second = hs_problem_get_call (problem, 1);
  const HsCounter *counter = hs_problem_get_counter (problem, 0);

  g_assert_cmpstr (first->id, ==, "A-1");
  g_assert_cmpuint (first->place, ==, 1);
  g_assert_cmpint (first->service_seconds, ==, 2700);
  g_assert_cmpint (first->van, ==, 1);
  assert_span (first->windows, 0, clock_of (10, 0, 0), clock_of (11, 0, 0));
  assert_span (first->windows, 1, clock_of (13, 0, 0), clock_of (13, 0, 30));
  assert_units (problem, first->needs, "pump hose");
  assert_words (first->skills, "gas diesel");
  g_assert_cmpint (second->service_seconds, ==, 30);
  g_assert_cmpint (second->van, ==, HS_PROBLEM_ANY_VAN);
  g_assert_cmpuint (second->windows->len + second->needs->len + second->skills->len, ==, 0);
  g_assert_cmpstr (counter->id, ==, "C");
  g_assert_cmpuint (counter->place, ==, 1);
  g_assert_cmpint (counter->service_seconds, ==, 480);
  assert_span (counter->hours, 1, clock_of (13, 15, 0), clock_of (17, 0, 0));
  g_assert_cmpint (hs_counter_cents (counter, hs_problem_part (problem, "hose")), ==, 1250);
  g_assert_cmpint (hs_counter_cents (counter, hs_problem_part (problem, "belt")), ==, 0);
  g_assert_cmpint (hs_counter_cents (counter, hs_problem_part (problem, "pump")), ==, HS_PROBLEM_NOT_SOLD);
  g_assert_cmpuint (hs_problem_get_counter (problem, 1)->hours->len, ==, 0);
}

/* @find in the whole day is replaced by @put. @message: NULL where the day is still one. */
typedef struct
{
  const char *find;
  const char *put;
  const char *message;
} Edit;

static const Edit edits[] = {
  /* What may be left out, and what not. */
  { "  \"spare_minutes\": 15,\n", "", NULL },
  { "     \"carries\": [\"belt\", \"pump\", \"belt\"], \"skills\": [\"gas\"],\n", "", NULL },
  { ", \"van\": \"van 2\"", "", NULL },
  { ", \"van\": \"van 2\"", ", \"van\": null", NULL },
  { ", \"break\": null", "", NULL },
  { "\"minute_cents\": 160,", "", "minute_cents: is missing" },
  { "\"mile_cents\": 42,", "", "mile_cents: is missing" },
  { "\"mile_cents\": 42,", "\"$schema\": \"day.schema.json\", \"mile_cents\": 42,", NULL },
  { "\"miles\": [[0, 3.1], [3.25, 0]]", "\"feet\": 1", "travel.feet: is not a key that a day has" },
  { ", \"miles\": [[0, 3.1], [3.25, 0]]", "", "travel.miles: is missing" },
  { "\"travel\": {", "\"journey\": {", "journey: is not a key that a day has" },
  { "\"vans\": [", "\"cars\": [", "cars: is not a key that a day has" },
  { "\"id\": \"van 2\", ", "", "vans[1].id: is missing" },
  { "\"id\": \"van 2\"", "\"id\": \"\"", "calls[0].van: there is no van “van 2”" },
  { "\"id\": \"van 2\"", "\"id\": 2", "vans[1].id: must be a text" },
  { "\"id\": \"van 2\"", "\"id\": \"van 1\"", "calls[0].van: there is no van “van 2”" },
  { ", \"start\": 1", "", "vans[1].start: is missing" },
  { "\"start\": 1", "\"start\": 2", "vans[1].start: there is no place 2; the tables have 2, counted from 0" },
  { "\"start\": 1", "\"start\": -1", "vans[1].start: is below zero" },
  { "\"start\": 1", "\"start\": 0.5", "vans[1].start: must be a whole number" },
  { "\"start\": 1", "\"start\": 1.0", NULL },
  { "\"start\": 1", "\"start\": \"1\"", "vans[1].start: must be a number" },
  { "\"start\": 1", "\"start\": true", "vans[1].start: must be a number" },
  { "\"start\": 1", "\"start\": null", "vans[1].start: must be a number" },
  { "\"start\": 1", "\"start\": [1]", "vans[1].start: must be a number" },
  { "\"from\": \"20:00\", ", "", "vans[1].from: is missing" },
  { ", \"to\": \"26:15\"", "", "vans[1].to: is missing" },
  { "\"break\": null", "\"break\": {}", "vans[1].break.minutes: is missing" },
  { "\"break\": null", "\"break\": 30", "vans[1].break: must be an object" },
  { "\"break\": null", "\"break\": {\"minutes\": 30}", "vans[1].break.between: is missing" },
  { "\"break\": null", "\"break\": {\"minutes\": 30, \"after\": 1}",
    "vans[1].break.after: is not a key that a day has" },
  { "\"break\": null", "\"pause\": null", "vans[1].pause: is not a key that a day has" },
  { "{\"minutes\": 30, \"between\"", "{\"minutes\": 121, \"between\"",
    "vans[0].break.between: is shorter than the break" },
  { "{\"minutes\": 30, \"between\"", "{\"minutes\": 120, \"between\"", NULL },
  { "[\"11:30\", \"13:30\"]", "[\"13:30\", \"11:30\"]", "vans[0].break.between: ends before it starts" },
  { "\"pump\", \"belt\"]", "7]", "vans[0].carries[1]: must be a text" },
  { "[\"belt\", \"pump\", \"belt\"]", "\"belt\"", "vans[0].carries: must be a list" },
  { "[\"belt\", \"pump\", \"belt\"]", "null", "vans[0].carries: must be a list" },

  /* Times. */
  { "\"26:15\"", "\"24:00\"", NULL },
  { "\"26:15\"", "\"99:59:59\"", NULL },
  { "\"26:15\"", "\"20:00\"", NULL },
  { "\"26:15\"", "\"19:59\"", "vans[1].to: is before it may leave" },
  { "\"26:15\"", "\"26:60\"", "vans[1].to: “26:60” is not a time like 08:30" },
  { "\"26:15\"", "\"26:15:60\"", "vans[1].to: “26:15:60” is not a time like 08:30" },
  { "\"26:15\"", "\"8:15\"", "vans[1].to: “8:15” is not a time like 08:30" },
  { "\"26:15\"", "\"26.15\"", "vans[1].to: “26.15” is not a time like 08:30" },
  { "\"26:15\"", "\"026:15\"", "vans[1].to: “026:15” is not a time like 08:30" },
  { "\"26:15\"", "\"+6:15\"", "vans[1].to: “+6:15” is not a time like 08:30" },
  { "\"26:15\"", "\"26:1 \"", "vans[1].to: “26:1 ” is not a time like 08:30" },
  { "\"26:15\"", "\"26:15:1\"", "vans[1].to: “26:15:1” is not a time like 08:30" },
  { "\"26:15\"", "\"26:15-00\"", "vans[1].to: “26:15-00” is not a time like 08:30" },
  { "\"26:15\"", "\"\"", "vans[1].to: “” is not a time like 08:30" },
  { "\"26:15\"", "1575", "vans[1].to: must be a text" },
  { "[\"10:00\", \"11:00\"]", "[\"11:00\", \"10:00\"]", "calls[0].windows[0]: ends before it starts" },
  { "[\"10:00\", \"11:00\"]", "[\"10:00\"]", "calls[0].windows[0]: must be two times" },
  { "[\"10:00\", \"11:00\"]", "[]", "calls[0].windows[0]: must be two times" },
  { "[\"10:00\", \"11:00\"]", "[\"10:00\", \"11:00\", \"12:00\"]", "calls[0].windows[0]: must be two times" },
  { "[\"10:00\", \"11:00\"]", "\"10:00\"", "calls[0].windows[0]: must be a list" },
  { "[\"10:00\", \"11:00\"]", "[\"10:00\", 11]", "calls[0].windows[0][1]: must be a text" },
  { "[\"13:00\", \"13:00:30\"]", "[\"13:00\", \"13:00\"]", NULL },
  { "[\"13:15\", \"17:00\"]", "[\"17:15\", \"17:00\"]", "counters[0].hours[1]: ends before it starts" },

  /* Calls. */
  { "\"minutes\": 45, ", "", "calls[0].minutes: is missing" },
  { "\"minutes\": 45", "\"minutes\": -1", "calls[0].minutes: is below zero" },
  { "\"minutes\": 45", "\"minutes\": \"45\"", "calls[0].minutes: must be a number" },
  { "\"minutes\": 45", "\"minutes\": 14400", NULL },
  { "\"minutes\": 45", "\"minutes\": 14401", "calls[0].minutes: is too large" },
  { "\"minutes\": 45", "\"minutes\": 1e9", "calls[0].minutes: is too large" },
  { "\"minutes\": 45", "\"minutes\": 1e300", "calls[0].minutes: is too large" },
  { "\"minutes\": 45", "\"minutes\": 4.5e1", NULL },
  { "\"place\": 0, \"minutes\": 0.5", "\"place\": 0, \"minutes\": 0.5, \"windows\": []",
    "calls[1].windows: is empty; leave it out for the whole day" },
  { "\"place\": 0, \"minutes\": 0.5", "\"place\": 0, \"minutes\": 0.5, \"windows\": null",
    "calls[1].windows: must be a list" },
  { "\"place\": 0, \"minutes\": 0.5", "\"place\": 9, \"minutes\": 0.5",
    "calls[1].place: there is no place 9; the tables have 2, counted from 0" },
  { "\"id\": \"A-2\"", "\"id\": \"A-1\"", "calls[1].id: stands twice in the day" },
  { "\"id\": \"A-2\"", "\"id\": \"\"", "calls[1].id: is missing" },
  { "\"id\": \"A-2\"", "\"id\": \"C\"", "counters[0].id: stands twice in the day" },
  { "\"van\": \"van 2\"", "\"van\": \"van 3\"", "calls[0].van: there is no van “van 3”" },
  { "\"van\": \"van 2\"", "\"van\": 1", "calls[0].van: must be a text" },
  { "\"skills\": [\"gas\", \"diesel\"]", "\"skills\": {}", "calls[0].skills: must be a list" },
  { "\"needs\": [\"pump\", \"hose\"]", "\"needs\": [\"pump\", null]", "calls[0].needs[1]: must be a text" },
  { "{\"id\": \"A-2\", \"place\": 0, \"minutes\": 0.5}", "7", "calls[1]: must be an object" },
  { "{\"id\": \"A-2\", \"place\": 0, \"minutes\": 0.5}", "{}", "calls[1].id: is missing" },


  /* Counters. */
  { ", \"hours\": [], \"sells\": {}", ", \"sells\": {}", "counters[1].hours: is missing" },
  { ", \"hours\": [], \"sells\": {}", ", \"hours\": []", "counters[1].sells: is missing" },
  { "\"sells\": {}", "\"sells\": []", "counters[1].sells: must be an object of prices" },
  { "\"sells\": {}", "\"sells\": {\"x\": 12.5}", "counters[1].sells.x: must be a whole number" },
  { "\"sells\": {}", "\"sells\": {\"x\": -1}", "counters[1].sells.x: is below zero" },
  { "\"sells\": {}", "\"sells\": {\"x\": \"1\"}", "counters[1].sells.x: must be a number" },
  { "\"sells\": {}", "\"sells\": {\"x\": 10000000}", NULL },
  { "\"sells\": {}", "\"sells\": {\"x\": 10000001}", "counters[1].sells.x: is too large" },
  { "\"sells\": {}", "\"sells\": {\"x\": 1, \"x\": 2}", "counters[1].sells.x: line 19: stands twice" },

  /* Numbers of the day. */
  { "160", "1.5", "minute_cents: must be a whole number" },
  { "160", "-1", "minute_cents: is below zero" },
  { "160", "10000001", "minute_cents: is too large" },
  { "160", "999999999999999999", "minute_cents: is too large" },
  { "160", "1e400", "minute_cents: is too large" },
  { "160", "null", "minute_cents: must be a number" },
  { "160", "0", NULL },
  { "15,", "0.25,", NULL },
  { "15,", "-0.25,", "spare_minutes: is below zero" },
  { "15,", "14401,", "spare_minutes: is too large" },
  { "15,", "null,", "spare_minutes: must be a number" },

  /* Tables. */
  { "[12, 0]]", "[12, 0], [1, 2]]", "travel.minutes[0]: has 2 entries where the table has 3 rows" },
  { "[12, 0]]", "[12]]", "travel.minutes[1]: has 1 entries where the table has 2 rows" },
  { "[12, 0]]", "12]", "travel.minutes[1]: must be a list" },
  { "[12, 0]]", "[12, -0.5]]", "travel.minutes[1][1]: is below zero" },
  { "[12, 0]]", "[12, null]]", "travel.minutes[1][1]: must be a number" },
  { "[12, 0]]", "[14401, 0]]", "travel.minutes[1][0]: is too large" },
  { "[3.25, 0]]", "[3.25, 0], [0, 0]]", "travel.miles: has 3 rows where the other table has 2" },
  { "[3.25, 0]]", "[3.25, \"0\"]]", "travel.miles[1][1]: must be a number" },
  { "[3.25, 0]]", "[100000, 0]]", NULL },
  { "[3.25, 0]]", "[100000.001, 0]]", "travel.miles[1][0]: is too large" },
  { "[[0, 10.5], [12, 0]]", "[]", "travel.minutes: must have 1 to 256 rows" },
  { "[[0, 10.5], [12, 0]]", "{}", "travel.minutes: must be a list" },

  /* Not JSON, or more than it. */
  { "}]\n}\n", "}]\n", "the day: line 20: a comma or } is missing" },
  { "}]\n}\n", "}]\n}}\n", "the day: line 20: something follows the end" },
  { "160", "0160", "minute_cents: line 2: a number starts with 0" },
  { "160", "NaN", "minute_cents: line 2: a value is missing" },
  { "160", "1 // a cent", "the day: line 2: a comma or } is missing" },
  { "\"mile_cents\": 42", "\"minute_cents\": 42", "minute_cents: line 3: stands twice" },
};

static char *
edited (const Edit *edit)
{
  const char *at = strstr (whole, edit->find);

  g_assert_nonnull (at);
  return g_strdup_printf ("%.*s%s%s", (int) (at - whole), whole, edit->put, at + strlen (edit->find));
}

static void
test_edits (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (edits); i++)
    {
      g_autofree char *text = edited (&edits[i]);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsProblem) problem = parse (text, &error);

      g_assert_cmpstr (error == NULL ? NULL : error->message, ==, edits[i].message);
      g_assert_cmpint (problem == NULL, ==, edits[i].message != NULL);
      g_assert_true (error == NULL || error->domain == HS_PLAN_ERROR
                     || g_error_matches (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED));
    }
}

#define HEAD "{\"minute_cents\":1,\"mile_cents\":1,\"travel\":{\"minutes\":[[0]],\"miles\":[[0]]},"
#define A_CALL "\"calls\":[{\"id\":\"A\",\"place\":0,\"minutes\":1}],"
#define A_VAN "\"vans\":[{\"id\":\"a\",\"start\":0,\"end\":0,\"from\":\"08:00\",\"to\":\"17:00\"}],"

/* Whole texts that are no day. */
static void
test_texts (void)
{
  static const struct
  {
    const char *text;
    const char *message;
  } texts[] = {
    { "", "the day: line 1: a value is missing" },
    { "   \n", "the day: line 2: a value is missing" },
    { "null", "the day: must be an object" },
    { "[]", "the day: must be an object" },
    { "7", "the day: must be an object" },
    { "{}", "travel: is missing" },
    { "{\"travel\": []}", "travel: must be an object" },
    { "{\"travel\": {}}", "travel.minutes: is missing" },
    { HEAD A_VAN "\"calls\":[]}", "calls: is empty; a day to be planned has at least one" },
    { HEAD A_CALL "\"vans\":[]}", "vans: is empty; a day to be planned has at least one" },
    { HEAD A_VAN "\"counters\":[]}", "calls: is missing" },
    { "\xff{}", "the day: is not UTF-8 text" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (parse (texts[i].text, &error));
      g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
      g_assert_cmpstr (error->message, ==, texts[i].message);
    }
}

/* Cut off anywhere, it is refused; all there, it is read, with a byte order mark as without. */
static void
test_truncated (void)
{
  const gsize length = strlen (whole);
  g_autofree char *marked = g_strconcat ("\xef\xbb\xbf", whole, NULL);
  g_autoptr (HsProblem) problem = NULL;

  for (gsize n = 0; n + 2 < length; n++)
    {
      g_autofree char *text = g_strndup (whole, n);
      g_autoptr (GError) error = NULL;

      g_assert_null (parse (text, &error));
      g_assert_error (error, HS_OPS_ERROR, HS_OPS_ERROR_REFUSED);
    }
  problem = parse (marked, NULL);
  g_assert_nonnull (problem);
}

/* One byte changed at a time: read or refused, with a reason. */
static void
test_spoiled (void)
{
  static const char bytes[] = "\"{}[]:,0-9.eE\\\x01\xc3 nt";

  for (gsize at = 0; at < strlen (whole); at++)
    for (guint b = 0; b < sizeof bytes - 1; b++)
      {
        g_autofree char *text = g_strdup (whole);
        g_autoptr (GError) error = NULL;
        g_autoptr (HsProblem) problem = NULL;

        text[at] = bytes[b];
        problem = parse (text, &error);
        g_assert_true ((problem == NULL) == (error != NULL));
        g_assert_true (problem == NULL || hs_problem_check (problem, NULL));
      }
}

static char *
repeated (const char *head, const char *item, guint n, const char *tail)
{
  GString *text = g_string_new (head);

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *number = g_strdup_printf ("%u", i);
      g_auto (GStrv) halves = g_strsplit (item, "#", 2);

      g_string_append_printf (text, "%s%s%s%s", i > 0 ? "," : "", halves[0], halves[1] != NULL ? number : "",
                              halves[1] != NULL ? halves[1] : "");
    }
  g_string_append (text, tail);
  return g_string_free (text, FALSE);
}

/* Lists as long as they may be, one longer, and very much longer. */
static const struct
{
  const char *head;
  const char *item;
  const char *tail;
  guint most;
  const char *message;
} lists[] = {
  { HEAD A_VAN "\"calls\":[", "{\"id\":\"A#\",\"place\":0,\"minutes\":1}", "]}", 200,
    "calls: has %u entries, more than the 200 that a day may have" },
  { HEAD A_VAN A_CALL "\"counters\":[", "{\"id\":\"C#\",\"place\":0,\"minutes\":1,\"hours\":[],\"sells\":{}}",
    "]}", 16, "counters: has %u entries, more than the 16 that a day may have" },
  { HEAD A_CALL "\"vans\":[", "{\"id\":\"v#\",\"start\":0,\"end\":0,\"from\":\"08:00\",\"to\":\"17:00\"}", "]}",
    8, "vans: has %u entries, more than the 8 that a day may have" },
  { HEAD A_VAN "\"calls\":[{\"id\":\"A\",\"place\":0,\"minutes\":1,\"windows\":[", "[\"08:00\",\"09:00\"]", "]}]}", 24,
    "calls[0].windows: has more than 24 spans" },
  { HEAD A_VAN "\"calls\":[{\"id\":\"A\",\"place\":0,\"minutes\":1,\"needs\":[", "\"p#\"", "]}]}", 64,
    "calls[0].needs: has more than 64 units" },
  { HEAD A_VAN "\"calls\":[{\"id\":\"A\",\"place\":0,\"minutes\":1,\"skills\":[", "\"s#\"", "]}]}", 64,
    "calls[0].skills: has more than 64 skills" },
  { HEAD A_VAN A_CALL "\"counters\":[{\"id\":\"C\",\"place\":0,\"minutes\":1,\"hours\":[],\"sells\":{",
    "\"p#\":1", "}}]}", 1000, "counters[0].sells: names more than 1000 parts in all" },
};

static void
test_lists (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_autofree char *full = repeated (lists[i].head, lists[i].item, lists[i].most, lists[i].tail);
      g_autoptr (GError) refused = NULL;
      g_autoptr (HsProblem) problem = parse (full, &refused);
      const guint over[] = { lists[i].most + 1, 50000 };

      g_assert_no_error (refused);
      g_assert_nonnull (problem);
      for (guint k = 0; k < G_N_ELEMENTS (over); k++)
        {
          g_autofree char *text = repeated (lists[i].head, lists[i].item, over[k], lists[i].tail);
          g_autofree char *start = g_strndup (lists[i].message, strcspn (lists[i].message, "%"));
          g_autoptr (GError) error = NULL;

          g_assert_null (parse (text, &error));
          g_assert_true (g_str_has_prefix (error->message, start));
        }
    }
}

/* As many bytes as a day may have, and one more. */
static void
test_bytes (void)
{
  const char day[] = HEAD A_VAN A_CALL "\"counters\":[]}";
  g_autofree char *text = g_malloc (8000001);
  g_autoptr (GError) refused = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (HsProblem) problem = NULL;

  memset (text, ' ', 8000001);
  memcpy (text, day, sizeof day - 1);
  problem = hs_day_file_parse (text, 8000000, &refused);
  g_assert_no_error (refused);
  g_assert_nonnull (problem);
  g_assert_null (hs_day_file_parse (text, 8000001, &error));
  g_assert_cmpstr (error->message, ==, "the day: has 8000001 bytes, more than the 8000000 that a day may have");
}

/* A table of 256 places is read, one of 257 not. */
static void
test_table_size (void)
{
  for (guint n = 256; n <= 257; n++)
    {
      g_autofree char *row = repeated ("[", "1.5", n, "]");
      g_autofree char *rows = repeated ("[", row, n, "]");
      g_autofree char *text = g_strdup_printf ("{\"minute_cents\":1,\"mile_cents\":1,\"travel\":{\"minutes\":%s,"
                                               "\"miles\":%s}," A_VAN A_CALL "\"counters\":[]}", rows, rows);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsProblem) problem = parse (text, &error);

      if (n == 256)
        g_assert_no_error (error);
      g_assert_cmpint (problem != NULL, ==, n == 256);
      if (problem == NULL)
        g_assert_cmpstr (error->message, ==, "travel.minutes: must have 1 to 256 rows");
      else
        g_assert_cmpint (g_array_index (problem->drive_millimiles, gint64, 256 * 256 - 1), ==, 1500);
    }
}

/* Nested too deeply, however deeply. */
static void
test_depth (void)
{
  static const guint depths[] = { HS_JSON_STRICT_DEPTH + 1, 1000, 1000000 };

  for (guint i = 0; i < G_N_ELEMENTS (depths); i++)
    {
      g_autofree char *text = g_strnfill (depths[i], '[');
      g_autoptr (GError) error = NULL;

      g_assert_null (parse (text, &error));
      g_assert_true (g_str_has_suffix (error->message, "is nested too deeply"));
    }
}

/* Minutes to the second and miles to the thousandth, half up; every thousandth as written. */
static void
test_numbers (void)
{
  static const struct
  {
    const char *text;
    gint32 seconds;
    gint64 millimiles;
  } numbers[] = {
    { "0", 0, 0 },           { "-0", 0, 0 },          { "0.0", 0, 0 },          { "1e0", 60, 1000 },
    { "0.5", 30, 500 },      { "0.1", 6, 100 },       { "0.01", 1, 10 },        { "0.008", 0, 8 },
    { "0.0083", 0, 8 },      { "0.00835", 1, 8 },     { "0.0005", 0, 1 },       { "0.00049", 0, 0 },
    { "2.675", 161, 2675 },  { "1.0005", 60, 1001 },  { "33.3", 1998, 33300 },  { "7.25", 435, 7250 },
    { "1.5E1", 900, 15000 }, { "14400", 864000, 14400000 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      const Edit minutes = { "10.5", numbers[i].text, NULL };
      const Edit miles = { "3.1", numbers[i].text, NULL };
      g_autofree char *minutes_text = edited (&minutes);
      g_autofree char *miles_text = edited (&miles);
      g_autoptr (HsProblem) first = parse (minutes_text, NULL);
      g_autoptr (HsProblem) second = parse (miles_text, NULL);

      g_assert_cmpint (g_array_index (first->drive_seconds, gint32, 1), ==, numbers[i].seconds);
      g_assert_cmpint (g_array_index (second->drive_millimiles, gint64, 1), ==, numbers[i].millimiles);
    }
  for (gint64 thousandths = 0; thousandths < 20000; thousandths += 7)
    {
      g_autofree char *number = g_strdup_printf ("%d.%03d", (int) thousandths / 1000, (int) thousandths % 1000);
      const Edit edit = { "3.1", number, NULL };
      g_autofree char *text = edited (&edit);
      g_autoptr (HsProblem) problem = parse (text, NULL);

      g_assert_cmpint (g_array_index (problem->drive_millimiles, gint64, 1), ==, thousandths);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/day-file/tables", test_tables);
  g_test_add_func ("/ops/day-file/vans", test_vans);
  g_test_add_func ("/ops/day-file/stops", test_stops);
  g_test_add_func ("/ops/day-file/edits", test_edits);
  g_test_add_func ("/ops/day-file/texts", test_texts);
  g_test_add_func ("/ops/day-file/truncated", test_truncated);
  g_test_add_func ("/ops/day-file/spoiled", test_spoiled);
  g_test_add_func ("/ops/day-file/lists", test_lists);
  g_test_add_func ("/ops/day-file/bytes", test_bytes);
  g_test_add_func ("/ops/day-file/table-size", test_table_size);
  g_test_add_func ("/ops/day-file/depth", test_depth);
  g_test_add_func ("/ops/day-file/numbers", test_numbers);
  return g_test_run ();
}
