// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* When a job is posted again. Waits are worked out by hand: 1, 5, 15 and 60 minutes, ±20 %. What each status means is
 * RFC 9110, 15; 409 while the first still runs is draft-ietf-httpapi-idempotency-key-header, 2.6. */

#include "hs-post-next.h"

#include <string.h>

#define NOW ((HsInstant) 1000000)
#define NONE HS_INSTANT_NONE

static void
expect (const HsPostOutcome *outcome, guint tries, double draw, HsPostDo what, gboolean whole_queue, HsInstant at)
{
  HsPostNext next = hs_post_next (outcome, tries, NOW, draw);

  g_test_message ("end %d, status %d, try %u", outcome->end, outcome->status, tries);
  g_assert_cmpint (next.what, ==, what);
  g_assert_cmpint (next.whole_queue, ==, whole_queue);
  g_assert_cmpint (next.at, ==, at);
}

static const struct
{
  guint tries;
  double draw;
  HsInstant wait;
} waits[] = {
  { 0, 0.5, 60 },    { 1, 0.5, 300 },   { 2, 0.5, 900 },   { 3, 0.5, 3600 },  { 4, 0.5, 3600 },  { 1000000, 0.5, 3600 },
  { 0, 0.0, 48 },    { 0, 1.0, 72 },    { 1, 0.0, 240 },   { 1, 1.0, 360 },   { 2, 0.0, 720 },   { 2, 1.0, 1080 },
  { 3, 0.0, 2880 },  { 3, 1.0, 4320 },  { 0, 0.25, 54 },   { 1, 0.75, 330 },
  /* A draw that is none stays within the bounds. */
  { 0, -3.0, 48 },   { 0, 7.0, 72 },
};

static void
test_waits (void)
{
  const HsPostOutcome gone = { HS_POST_UNREACHABLE, 0, NONE };
  const HsPostOutcome fault = { HS_POST_ANSWERED, 500, NONE };

  for (guint i = 0; i < G_N_ELEMENTS (waits); i++)
    {
      expect (&gone, waits[i].tries, waits[i].draw, HS_POST_DO_RETRY, TRUE, NOW + waits[i].wait);
      expect (&fault, waits[i].tries, waits[i].draw, HS_POST_DO_RETRY, FALSE, NOW + waits[i].wait);
    }
}

/* Retry-After moves a retry back, never forward, and moves nothing else. */
static const struct
{
  int status;
  guint tries;
  HsInstant not_before;
  HsPostDo what;
  gboolean whole_queue;
  HsInstant at;
} asked[] = {
  { 503, 0, NOW + 3600, HS_POST_DO_RETRY, TRUE, NOW + 3600 },
  { 503, 3, NOW + 3601, HS_POST_DO_RETRY, TRUE, NOW + 3601 },
  { 503, 3, NOW + 3599, HS_POST_DO_RETRY, TRUE, NOW + 3600 },
  { 429, 0, NOW + 61, HS_POST_DO_RETRY, TRUE, NOW + 61 },
  { 429, 0, NOW + 1, HS_POST_DO_RETRY, TRUE, NOW + 60 },
  { 429, 0, NOW - 500, HS_POST_DO_RETRY, TRUE, NOW + 60 },
  { 500, 1, NOW + 86400, HS_POST_DO_RETRY, FALSE, NOW + 86400 },
  { 409, 0, NOW + 100, HS_POST_DO_RETRY, FALSE, NOW + 100 },
  { 400, 0, NOW + 100, HS_POST_DO_PARK, FALSE, NONE },
  { 401, 0, NOW + 100, HS_POST_DO_PAUSE, TRUE, NONE },
  { 301, 0, NOW + 100, HS_POST_DO_PAUSE, TRUE, NONE },
  { 201, 0, NOW + 100, HS_POST_DO_SENT, FALSE, NONE },
};

static void
test_asked (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (asked); i++)
    {
      HsPostOutcome outcome = { HS_POST_ANSWERED, asked[i].status, asked[i].not_before };

      expect (&outcome, asked[i].tries, 0.5, asked[i].what, asked[i].whole_queue, asked[i].at);
    }
}

/* Whatever the outcome: a retry never comes before what was asked for nor before the least wait, and never later than
 * the longest wait or what was asked for; nothing else has a time. */
static void
expect_bounds (const HsPostOutcome *outcome, guint tries, double draw)
{
  static const HsInstant least[] = { 48, 240, 720, 2880 };
  static const HsInstant most[] = { 72, 360, 1080, 4320 };
  HsPostNext next = hs_post_next (outcome, tries, NOW, draw);
  guint row = MIN (tries, 3);

  if (next.what != HS_POST_DO_RETRY)
    {
      g_assert_true (next.at == NONE);
      return;
    }
  g_assert_cmpint (next.at, >=, MAX (NOW + least[row], outcome->not_before));
  g_assert_cmpint (next.at, <=, MAX (NOW + most[row], outcome->not_before));
}

static void
test_bounds (void)
{
  for (int status = -1; status <= 700; status++)
    for (guint tries = 0; tries < 7; tries++)
      for (int tenth = 0; tenth <= 10; tenth++)
        {
          HsPostOutcome plain = { HS_POST_ANSWERED, status, NONE };
          HsPostOutcome asked_for = { HS_POST_ANSWERED, status, NOW + 1000 };

          expect_bounds (&plain, tries, tenth / 10.0);
          expect_bounds (&asked_for, tries, tenth / 10.0);
        }
}

/* The wait grows evenly with the draw. */
static void
test_draw (void)
{
  const HsPostOutcome gone = { HS_POST_UNREACHABLE, 0, NONE };
  HsInstant before = NOW;

  for (int percent = 0; percent <= 100; percent++)
    {
      HsPostNext next = hs_post_next (&gone, 3, NOW, percent / 100.0);

      g_assert_cmpint (next.at, >, before);
      /* 3600 s: 2880 + 14.4 for each percent, half up. */
      g_assert_cmpint (next.at - NOW, ==, (28800 + 144 * percent + 5) / 10);
      before = next.at;
    }
}

typedef struct
{
  int from;
  int to;
  guint tries;
  HsPostDo what;
  gboolean whole_queue;
} Status;

static const Status statuses[] = {
  { 200, 299, 0, HS_POST_DO_SENT, FALSE },
  { 200, 299, 9, HS_POST_DO_SENT, FALSE },
  { 300, 399, 0, HS_POST_DO_PAUSE, TRUE },
  { 400, 400, 0, HS_POST_DO_PARK, FALSE },
  { 401, 401, 0, HS_POST_DO_PAUSE, TRUE },
  { 402, 402, 3, HS_POST_DO_PARK, FALSE },
  { 403, 403, 5, HS_POST_DO_PAUSE, TRUE },
  { 404, 406, 0, HS_POST_DO_PARK, FALSE },
  { 407, 407, 0, HS_POST_DO_PAUSE, TRUE },
  { 408, 408, 0, HS_POST_DO_RETRY, FALSE },
  { 408, 408, 99, HS_POST_DO_RETRY, FALSE },
  /* The key is new: nothing can be running yet. */
  { 409, 409, 0, HS_POST_DO_PARK, FALSE },
  { 409, 409, 1, HS_POST_DO_RETRY, FALSE },
  { 409, 409, 5, HS_POST_DO_RETRY, FALSE },
  { 409, 409, 6, HS_POST_DO_PARK, FALSE },
  { 410, 428, 0, HS_POST_DO_PARK, FALSE },
  { 410, 428, 7, HS_POST_DO_PARK, FALSE },
  { 429, 429, 0, HS_POST_DO_RETRY, TRUE },
  { 430, 499, 0, HS_POST_DO_PARK, FALSE },
  { 500, 501, 0, HS_POST_DO_RETRY, FALSE },
  { 502, 504, 0, HS_POST_DO_RETRY, TRUE },
  { 505, 599, 40, HS_POST_DO_RETRY, FALSE },
  /* No status of HTTP. */
  { 0, 199, 0, HS_POST_DO_RETRY, TRUE },
  { 600, 620, 0, HS_POST_DO_RETRY, TRUE },
  { -1, -1, 0, HS_POST_DO_RETRY, TRUE },
};

static void
expect_status (const Status *row, int status)
{
  static const HsInstant at[] = { 60, 300, 900, 3600 };
  HsPostOutcome outcome = { HS_POST_ANSWERED, status, NONE };

  expect (&outcome, row->tries, 0.5, row->what, row->whole_queue,
          row->what == HS_POST_DO_RETRY ? NOW + at[MIN (row->tries, 3)] : NONE);
}

static void
test_statuses (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (statuses); i++)
    for (int status = statuses[i].from; status <= statuses[i].to; status++)
      expect_status (&statuses[i], status);
}

static const struct
{
  HsPostEnd end;
  const char *id;
  HsPostDo what;
  gboolean whole_queue;
  HsInstant at;
} ends[] = {
  { HS_POST_UNREACHABLE, "unreachable", HS_POST_DO_RETRY, TRUE, NOW + 60 },
  { HS_POST_TIMED_OUT, "timed_out", HS_POST_DO_RETRY, TRUE, NOW + 60 },
  { HS_POST_BAD_REPLY, "bad_reply", HS_POST_DO_RETRY, TRUE, NOW + 60 },
  { HS_POST_BAD_CERTIFICATE, "bad_certificate", HS_POST_DO_RETRY, TRUE, NOW + 60 },
  { HS_POST_NO_SECRET, "no_secret", HS_POST_DO_PAUSE, TRUE, NONE },
  { HS_POST_NO_AUTHORITIES, "no_authorities", HS_POST_DO_PAUSE, TRUE, NONE },
  { HS_POST_BAD_ADDRESS, "bad_address", HS_POST_DO_PAUSE, TRUE, NONE },
  { HS_POST_BAD_BODY, "bad_body", HS_POST_DO_PARK, FALSE, NONE },
};

static void
test_ends (void)
{
  HsPostEnd end;

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      HsPostOutcome outcome = { ends[i].end, 0, NONE };

      expect (&outcome, 0, 0.5, ends[i].what, ends[i].whole_queue, ends[i].at);
      g_assert_cmpstr (hs_post_end_id (ends[i].end), ==, ends[i].id);
      g_assert_true (hs_post_end_parse (ends[i].id, &end));
      g_assert_cmpint (end, ==, ends[i].end);
    }
  g_assert_cmpstr (hs_post_end_id (HS_POST_ANSWERED), ==, "answered");
  end = HS_POST_TIMED_OUT;
  g_assert_false (hs_post_end_parse ("lost", &end));
  g_assert_false (hs_post_end_parse (NULL, &end));
  g_assert_cmpint (end, ==, HS_POST_TIMED_OUT);
}

static const struct
{
  HsPostOutcome outcome;
  const char *part;
} said[] = {
  { { HS_POST_ANSWERED, 201, NONE }, "took it (201)" },
  { { HS_POST_ANSWERED, 302, NONE }, "another address (302), which is not followed" },
  { { HS_POST_ANSWERED, 401, NONE }, "refuses the secret (401). Put in the right one." },
  { { HS_POST_ANSWERED, 403, NONE }, "(403)" },
  { { HS_POST_ANSWERED, 407, NONE }, "A proxy in between wants a password (407)." },
  { { HS_POST_ANSWERED, 408, NONE }, "(408). It is sent again." },
  { { HS_POST_ANSWERED, 409, NONE }, "still at work on it (409)." },
  { { HS_POST_ANSWERED, 404, NONE }, "Nothing at this address takes jobs (404). Look at the address" },
  { { HS_POST_ANSWERED, 405, NONE }, "Nothing at this address takes jobs (405)" },
  { { HS_POST_ANSWERED, 410, NONE }, "Nothing at this address takes jobs (410)" },
  { { HS_POST_ANSWERED, 422, NONE }, "refuses this job (422). Look at what it says" },
  { { HS_POST_ANSWERED, 429, NONE }, "fewer messages (429)" },
  { { HS_POST_ANSWERED, 503, NONE }, "a fault of its own (503). It is sent again." },
  { { HS_POST_ANSWERED, 999, NONE }, "no answer (999)" },
  { { HS_POST_UNREACHABLE, 0, NONE }, "cannot be reached" },
  { { HS_POST_TIMED_OUT, 0, NONE }, "took too long" },
  { { HS_POST_BAD_REPLY, 0, NONE }, "no web server" },
  { { HS_POST_BAD_CERTIFICATE, 0, NONE }, "Nothing was sent" },
  { { HS_POST_NO_SECRET, 0, NONE }, "Put it in again." },
  { { HS_POST_NO_AUTHORITIES, 0, NONE }, "Put in another one" },
  { { HS_POST_BAD_ADDRESS, 0, NONE }, "no address that can be posted to" },
  { { HS_POST_BAD_BODY, 0, NONE }, "message of this job cannot be made" },
};

/* Whatever comes, there is one whole line to be shown, and an answer is told by its number. */
static void
test_always_says (void)
{
  for (int status = 0; status < 700; status++)
    for (int end = HS_POST_ANSWERED; end <= HS_POST_BAD_BODY; end++)
      {
        const HsPostOutcome outcome = { (HsPostEnd) end, status, NONE };
        g_autofree char *text = hs_post_outcome_say (&outcome, NULL);
        g_autofree char *number = g_strdup_printf ("(%d)", status);

        g_assert_true (g_ascii_isupper (*text));
        g_assert_true (g_str_has_suffix (text, "."));
        g_assert_null (strpbrk (text, "\n%"));
        g_assert_true ((strstr (text, number) != NULL) == (end == HS_POST_ANSWERED));
      }
}

/* The clock is put right by a few minutes every now and then; that is nothing. */
static void
test_clock (void)
{
  g_assert_false (hs_post_clock_went_back (NONE, NOW));
  g_assert_false (hs_post_clock_went_back (NOW - 86400, NOW));
  g_assert_false (hs_post_clock_went_back (NOW, NOW));
  g_assert_false (hs_post_clock_went_back (NOW + 300, NOW));
  g_assert_true (hs_post_clock_went_back (NOW + 301, NOW));
  g_assert_true (hs_post_clock_went_back (G_MAXINT64, NOW));
}

/* 1 + 5 + 15 minutes, then hours: 27 tries and what follows on them are a day, 26 are not. */
static void
test_day (void)
{
  const HsPostOutcome gone = { HS_POST_UNREACHABLE, 0, NONE };
  HsInstant now = NOW;

  for (guint tries = 0; tries < HS_POST_TRIES_A_DAY; tries++)
    {
      g_assert_cmpint (now - NOW, <, 86400);
      now = hs_post_next (&gone, tries, now, 0.5).at;
    }
  g_assert_cmpint (now - NOW, >=, 86400);
}

static char *
shout (const char *text)
{
  return (char *) (g_str_has_prefix (text, "The endpoint took it") ? "LO TIENE (%d)" : text);
}

static void
test_say (void)
{
  const HsTongue tongue = { shout, NULL };
  g_autofree char *translated = hs_post_outcome_say (&said[0].outcome, &tongue);

  for (guint i = 0; i < G_N_ELEMENTS (said); i++)
    {
      g_autofree char *text = hs_post_outcome_say (&said[i].outcome, NULL);

      g_test_message ("%s", text);
      g_assert_nonnull (strstr (text, said[i].part));
      g_assert_null (strstr (text, "%d"));
    }
  g_assert_cmpstr (translated, ==, "LO TIENE (201)");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/post-next/waits", test_waits);
  g_test_add_func ("/core/post-next/asked", test_asked);
  g_test_add_func ("/core/post-next/bounds", test_bounds);
  g_test_add_func ("/core/post-next/draw", test_draw);
  g_test_add_func ("/core/post-next/statuses", test_statuses);
  g_test_add_func ("/core/post-next/ends", test_ends);
  g_test_add_func ("/core/post-next/always-says", test_always_says);
  g_test_add_func ("/core/post-next/clock", test_clock);
  g_test_add_func ("/core/post-next/day", test_day);
  g_test_add_func ("/core/post-next/say", test_say);
  return g_test_run ();
}
