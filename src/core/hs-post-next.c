// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* When a job is posted again, if at all: a pure function of how the last time ended. Never loses one: what cannot go
 * on by itself waits for the owner. */

#include "hs-post-next.h"

#include <math.h>

/* Marks words for translation; who shows them translates. */
#define N_(text) text

static const char *const end_ids[] = {
  [HS_POST_ANSWERED] = "answered",
  [HS_POST_UNREACHABLE] = "unreachable",
  [HS_POST_TIMED_OUT] = "timed_out",
  [HS_POST_BAD_REPLY] = "bad_reply",
  [HS_POST_BAD_CERTIFICATE] = "bad_certificate",
  [HS_POST_NO_SECRET] = "no_secret",
  [HS_POST_NO_AUTHORITIES] = "no_authorities",
  [HS_POST_BAD_ADDRESS] = "bad_address",
  [HS_POST_BAD_BODY] = "bad_body",
};

const char *
hs_post_end_id (HsPostEnd end)
{
  return end_ids[end];
}

gboolean
hs_post_end_parse (const char *id, HsPostEnd *ret_end)
{
  for (guint i = 0; i < G_N_ELEMENTS (end_ids); i++)
    if (g_strcmp0 (id, end_ids[i]) == 0)
      {
        *ret_end = (HsPostEnd) i;
        return TRUE;
      }
  return FALSE;
}

static HsInstant
next_at (const HsPostOutcome *outcome, guint tries, HsInstant now, double draw)
{
  static const int minutes[] = { 1, 5, 15, 60 };
  int base = 60 * minutes[MIN (tries, G_N_ELEMENTS (minutes) - 1)];
  HsInstant at = now + (HsInstant) lround (base * (0.8 + 0.4 * CLAMP (draw, 0, 1)));

  return MAX (at, outcome->not_before);
}

static HsPostNext
retry (const HsPostOutcome *outcome, guint tries, HsInstant now, double draw, gboolean whole_queue)
{
  return (HsPostNext) { HS_POST_DO_RETRY, whole_queue, next_at (outcome, tries, now, draw) };
}

/* A status of its own that is tried again, and whether all would get it. */
static gboolean
is_tried_again (const HsPostOutcome *outcome, guint tries, gboolean *ret_whole_queue)
{
  int status = outcome->status;

  *ret_whole_queue = status == 429 || status == 502 || status == 503 || status == 504;
  if (status == 409)
    return outcome->not_before != HS_INSTANT_NONE || (tries > 0 && tries <= HS_POST_MOST_RUNNING);
  return status == 408 || status == 429 || (status >= 500 && status <= 599);
}

static HsPostNext
after_answer (const HsPostOutcome *outcome, guint tries, HsInstant now, double draw)
{
  const HsPostNext pause = { HS_POST_DO_PAUSE, TRUE, HS_INSTANT_NONE };
  int status = outcome->status;
  gboolean whole_queue;

  if (status >= 200 && status <= 299)
    return (HsPostNext) { HS_POST_DO_SENT, FALSE, HS_INSTANT_NONE };
  if ((status >= 300 && status <= 399) || status == 401 || status == 403 || status == 407)
    return pause;
  if (is_tried_again (outcome, tries, &whole_queue))
    return retry (outcome, tries, now, draw, whole_queue);
  if (status >= 400 && status <= 499)
    return (HsPostNext) { HS_POST_DO_PARK, FALSE, HS_INSTANT_NONE };
  return retry (outcome, tries, now, draw, TRUE);
}

HsPostNext
hs_post_next (const HsPostOutcome *outcome, guint tries, HsInstant now, double draw)
{
  switch (outcome->end)
    {
    case HS_POST_ANSWERED:
      return after_answer (outcome, tries, now, draw);
    case HS_POST_UNREACHABLE:
    case HS_POST_TIMED_OUT:
    case HS_POST_BAD_REPLY:
    /* Strange networks put themselves in between until one has agreed to them; nothing is sent to them. */
    case HS_POST_BAD_CERTIFICATE:
      return retry (outcome, tries, now, draw, TRUE);
    case HS_POST_BAD_BODY:
      return (HsPostNext) { HS_POST_DO_PARK, FALSE, HS_INSTANT_NONE };
    case HS_POST_NO_SECRET:
    case HS_POST_NO_AUTHORITIES:
    case HS_POST_BAD_ADDRESS:
    default:
      return (HsPostNext) { HS_POST_DO_PAUSE, TRUE, HS_INSTANT_NONE };
    }
}

gboolean
hs_post_clock_went_back (HsInstant tried_at, HsInstant now)
{
  return tried_at != HS_INSTANT_NONE && tried_at - HS_POST_CLOCK_SECONDS > now;
}

static const char *
answer_words (int status)
{
  if (status >= 200 && status <= 299)
    return N_("The endpoint took it (%d).");
  if (status >= 300 && status <= 399)
    return N_("The endpoint sends on to another address (%d), which is not followed. Put in the address itself.");
  if (status == 401)
    return N_("The endpoint refuses the secret (%d). Put in the right one.");
  if (status == 403)
    return N_("The endpoint does not let this secret post there (%d). Look at its rules, or put in another secret.");
  if (status == 404 || status == 405 || status == 410)
    return N_("Nothing at this address takes jobs (%d). Look at the address, then try again.");
  if (status == 407)
    return N_("A proxy in between wants a password (%d). Use another network.");
  if (status == 408)
    return N_("The endpoint waited too long for the message (%d). It is sent again.");
  if (status == 409)
    return N_("The endpoint has something else under this job or is still at work on it (%d).");
  if (status == 429)
    return N_("The endpoint asks for fewer messages (%d). It is sent again later.");
  if (status >= 400 && status <= 499)
    return N_("The endpoint refuses this job (%d). Look at what it says, then try again or drop it.");
  if (status >= 500 && status <= 599)
    return N_("The endpoint has a fault of its own (%d). It is sent again.");
  return N_("The endpoint answered what is no answer (%d). It is sent again.");
}

static const char *
end_words (HsPostEnd end)
{
  switch (end)
    {
    case HS_POST_UNREACHABLE:
      return N_("The endpoint cannot be reached. It is tried again.");
    case HS_POST_TIMED_OUT:
      return N_("The endpoint took too long. It is tried again.");
    case HS_POST_BAD_REPLY:
      return N_("What answers there is no web server, or it was cut off. It is tried again.");
    case HS_POST_BAD_CERTIFICATE:
      return N_("Whoever answers cannot prove to be the endpoint: its certificate is not trusted, has run out or names"
                " another host. Nothing was sent; it is tried again.");
    case HS_POST_NO_SECRET:
      return N_("The secret of the endpoint cannot be had on this machine. Put it in again.");
    case HS_POST_NO_AUTHORITIES:
      return N_("The file with certificate authorities of your own cannot be used. Put in another one, or none.");
    case HS_POST_BAD_BODY:
      return N_("The message of this job cannot be made. Look at the job, then try again.");
    case HS_POST_ANSWERED:
    case HS_POST_BAD_ADDRESS:
    default:
      return N_("There is no address that can be posted to. Put one in.");
    }
}

char *
hs_post_outcome_say (const HsPostOutcome *outcome, const HsTongue *tongue)
{
  const char *words = outcome->end == HS_POST_ANSWERED ? answer_words (outcome->status) : end_words (outcome->end);
  g_autofree char *status = g_strdup_printf ("%d", outcome->status);
  GString *said = g_string_new (tongue != NULL ? tongue->gettext (words) : words);

  g_string_replace (said, "%d", status, 1);
  return g_string_free (said, FALSE);
}
