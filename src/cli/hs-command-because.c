// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `because`: shows why a job's vehicle failed, and writes it down step by step: a cause and what shows it, how an end
 * is settled, what was ruled out. */

#include "hs-cli.h"

#include "hs-chain-out.h"
#include "hs-job-op.h"
#include "hs-undo.h"

#include <glib/gi18n.h>

typedef struct
{
  HsCli *cli;
  char *job_id;
  HsJobChain *job;
  char *reading, *reading_place, *photo, *seen, *said, *by, *proof, *how, *place, *role, *sure, *end;
  gboolean ruled_out;
  gboolean remove;
} Asked;

static void
asked_clear (Asked *asked)
{
  char **texts[] = { &asked->job_id, &asked->reading, &asked->reading_place, &asked->photo, &asked->seen,
                     &asked->said,   &asked->by,      &asked->proof,         &asked->how,   &asked->place,
                     &asked->role,   &asked->sure,    &asked->end };
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_clear_pointer (texts[i], g_free);
  g_clear_pointer (&asked->job, hs_job_chain_free);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Asked, asked_clear)

static gboolean
load_chain (Asked *asked, GError **error)
{
  g_clear_pointer (&asked->job, hs_job_chain_free);
  asked->job = hs_job_chain_load (asked->cli->book, asked->job_id, error);
  return asked->job != NULL;
}

static gboolean
show_chain (Asked *asked, GError **error)
{
  if (!load_chain (asked, error))
    return FALSE;
  if (!asked->cli->json)
    {
      hs_chain_out_print (asked->job);
      return TRUE;
    }
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  hs_chain_out_write (out, NULL, asked->job);
  hs_cli_print_json (out);
  return TRUE;
}

static guint
count_proofs (const Asked *asked)
{
  return (asked->reading != NULL) + (asked->photo != NULL) + (asked->seen != NULL) + (asked->said != NULL);
}

/* The one proof that was named, with a reading found by its check. */
static gboolean
read_proof (const Asked *asked, HsBecauseEntry *entry, char **ret_reading_id, GError **error)
{
  if (count_proofs (asked) > 1)
    return hs_cli_usage (error, _("one proof at a time: --reading, --photo, --seen or --said"));
  *entry = (HsBecauseEntry){ .how = asked->how, .proof = asked->proof, .photo_id = asked->photo };
  if (asked->seen != NULL || asked->said != NULL)
    {
      entry->kind = asked->seen != NULL ? "seen" : "said";
      entry->proof = asked->seen != NULL ? asked->seen : asked->said;
    }
  if (asked->reading == NULL)
    return TRUE;
  *ret_reading_id
      = hs_reading_find_proof (asked->cli->book, asked->job_id, asked->reading, asked->reading_place, error);
  entry->reading_id = *ret_reading_id;
  return *ret_reading_id != NULL;
}

static const char *
usual_role (const Asked *asked)
{
  if (asked->ruled_out)
    return "ruled_out";
  if (asked->role != NULL)
    return asked->role;
  return asked->said != NULL ? "customer_said" : "cause";
}

static HsFindingEntry
entry_of (const Asked *asked, const char *what)
{
  return (HsFindingEntry){ .what = what,
                           .place = asked->place,
                           .role = usual_role (asked),
                           .sure = asked->sure,
                           .ended = asked->end,
                           .said_by = asked->by };
}

/* `open` takes an end away again. */
static gboolean
mark_finding (const Asked *asked, const char *id, GError **error)
{
  HsBook *book = asked->cli->book;
  gboolean open = asked->end != NULL && g_ascii_strcasecmp (asked->end, "open") == 0;
  if (asked->sure != NULL && !hs_finding_call (book, id, asked->sure, asked->cli->now, error))
    return FALSE;
  return asked->end == NULL || hs_finding_settle (book, id, open ? NULL : asked->end, asked->cli->now, error);
}

/* What a finding is was said when it was written down; saying it of one that stands there already is a slip. */
static gboolean
check_new (const Asked *asked, const HsChainFinding *found, GError **error)
{
  if (found == NULL || (asked->place == NULL && asked->by == NULL && asked->role == NULL
                        && (!asked->ruled_out || found->role == HS_CHAIN_RULED_OUT)))
    return TRUE;
  return hs_cli_usage (error, _("“%s” stands on this job already; --role, --ruled-out, --place and --by are for a new "
                                "finding, so take the old one away first"), found->what);
}

/* because JOB FINDING: settles, calls or removes what is there; anything else is a new finding. */
static gboolean
one_finding (Asked *asked, const char *text, GError **error)
{
  HsBook *book = asked->cli->book;
  const HsChainFinding *found = hs_chain_out_find (asked->job, text);
  if (count_proofs (asked) > 0)
    return hs_cli_usage (error, _("a proof joins two: say what it led to, then the cause"));
  if (found == NULL && asked->remove)
    return hs_cli_usage (error, _("there is no finding “%s” on this job"), text);
  if (!check_new (asked, found, error))
    return FALSE;
  if (found == NULL)
    {
      HsFindingEntry entry = entry_of (asked, text);
      g_autofree char *id = hs_finding_add (book, asked->job_id, &entry, asked->cli->now, error);
      return id != NULL;
    }
  if (asked->remove)
    return hs_finding_remove (book, found->id, asked->cli->now, error);
  if (asked->end == NULL && asked->sure == NULL)
    return hs_cli_usage (error, _("say what about it: --end, --sure or --remove"));
  return mark_finding (asked, found->id, error);
}

static gboolean
remove_link (const Asked *asked, const HsChainFinding *effect, const HsChainFinding *cause, GError **error)
{
  for (guint i = 0; cause != NULL && i < hs_chain_get_n_links (asked->job->chain); i++)
    {
      const HsChainLink *link = hs_chain_get_link (asked->job->chain, i);
      if (g_str_equal (link->effect_id, effect->id) && g_str_equal (link->cause_id, cause->id))
        return hs_because_remove (asked->cli->book, link->id, asked->cli->now, error);
    }
  return hs_cli_usage (error, _("there is no such link on this job"));
}

/* because JOB EFFECT CAUSE: a link, with the cause as a new finding unless it is there. */
static gboolean
two_findings (Asked *asked, const char *effect_text, const char *cause_text, GError **error)
{
  HsBook *book = asked->cli->book;
  gboolean complaint = g_ascii_strcasecmp (effect_text, "complaint") == 0;
  const HsChainFinding *effect = hs_chain_out_find (asked->job, effect_text);
  const HsChainFinding *cause = hs_chain_out_find (asked->job, cause_text);
  g_autofree char *effect_id = effect != NULL ? g_strdup (effect->id) : NULL;
  g_autofree char *reading_id = NULL;
  g_autofree char *id = NULL;
  HsBecauseEntry link;
  if (effect == NULL && (!complaint || asked->remove))
    return hs_cli_usage (error, _("there is no finding “%s” on this job"), effect_text);
  if (asked->remove)
    return remove_link (asked, effect, cause, error);
  if (!check_new (asked, cause, error) || !read_proof (asked, &link, &reading_id, error))
    return FALSE;
  if (cause == NULL)
    {
      HsFindingEntry entry = entry_of (asked, cause_text);
      id = hs_chain_extend (book, asked->job_id, effect_id, &entry, &link, asked->cli->now, error);
      return id != NULL;
    }
  if (effect_id == NULL)
    effect_id = hs_complaint_ensure (book, asked->job_id, asked->cli->now, error);
  id = effect_id == NULL ? NULL : hs_because_add (book, effect_id, cause->id, &link, asked->cli->now, error);
  return id != NULL && mark_finding (asked, cause->id, error);
}

/* Whatever it takes is one transaction, and one step that can be undone. */
static gboolean
write_down (Asked *asked, char **left, GError **error)
{
  HsStore *store = hs_book_get_store (asked->cli->book);
  g_autofree char *what = g_strdup_printf ("why: %s", left[2] != NULL ? left[2] : left[1]);

  if (!hs_store_begin (store, asked->cli->now, error))
    return FALSE;
  if (!asked->remove && (left[2] != NULL || (asked->end != NULL && asked->sure != NULL)))
    hs_undo_note (store, asked->job_id, what);
  return hs_store_end (store, left[2] == NULL ? one_finding (asked, left[1], error)
                                              : two_findings (asked, left[1], left[2], error), error);
}

static gboolean
run (Asked *asked, char **left, GError **error)
{
  if (!hs_cli_open_book (asked->cli, left[1] == NULL ? HS_BOOK_READ : HS_BOOK_WRITE, error))
    return FALSE;
  asked->job_id = hs_job_find (asked->cli->book, left[0], error);
  if (asked->job_id == NULL || !load_chain (asked, error))
    return FALSE;
  if (left[1] != NULL && !write_down (asked, left, error))
    return FALSE;
  return show_chain (asked, error);
}

gboolean
hs_command_because (HsCli *cli, char **words, GError **error)
{
  g_auto (Asked) asked = { .cli = cli };
  const GOptionEntry entries[] = {
    { "reading", 0, 0, G_OPTION_ARG_STRING, &asked.reading, NULL, NULL },
    { "reading-place", 0, 0, G_OPTION_ARG_STRING, &asked.reading_place, NULL, NULL },
    { "photo", 0, 0, G_OPTION_ARG_STRING, &asked.photo, NULL, NULL },
    { "seen", 0, 0, G_OPTION_ARG_STRING, &asked.seen, NULL, NULL },
    { "said", 0, 0, G_OPTION_ARG_STRING, &asked.said, NULL, NULL },
    { "by", 0, 0, G_OPTION_ARG_STRING, &asked.by, NULL, NULL },
    { "proof", 0, 0, G_OPTION_ARG_STRING, &asked.proof, NULL, NULL },
    { "how", 0, 0, G_OPTION_ARG_STRING, &asked.how, NULL, NULL },
    { "place", 0, 0, G_OPTION_ARG_STRING, &asked.place, NULL, NULL },
    { "role", 0, 0, G_OPTION_ARG_STRING, &asked.role, NULL, NULL },
    { "sure", 0, 0, G_OPTION_ARG_STRING, &asked.sure, NULL, NULL },
    { "end", 0, 0, G_OPTION_ARG_STRING, &asked.end, NULL, NULL },
    { "ruled-out", 0, 0, G_OPTION_ARG_NONE, &asked.ruled_out, NULL, NULL },
    { "remove", 0, 0, G_OPTION_ARG_NONE, &asked.remove, NULL, NULL },
    { NULL },
  };
  g_auto (GStrv) left = NULL;
  return hs_cli_parse (words, entries, 1, 3, &left, error) && run (&asked, left, error);
}
