// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of the why-chain: a cause, a link, an end, how sure it is, one step back; an answer of the interview. */

#include "hs-deed-chain.h"

#include "hs-interview-op.h"

#define LINK_FORMAT "(msmsmsmsms)"
#define FINDING_FORMAT "(msmsmsmsmsmsms)"

static GVariant *
link_variant (const HsBecauseEntry *link)
{
  return g_variant_new (LINK_FORMAT, link->how, link->proof, link->kind, link->reading_id, link->photo_id);
}

static void
link_read (GVariant *variant, HsBecauseEntry *ret_link)
{
  g_variant_get (variant, "(m&sm&sm&sm&sm&s)", &ret_link->how, &ret_link->proof, &ret_link->kind,
                 &ret_link->reading_id, &ret_link->photo_id);
}

static gpointer
extend_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autoptr (GVariant) finding = NULL;
  g_autoptr (GVariant) because = NULL;
  const char *job_id, *effect_id;
  HsFindingEntry cause = { NULL };
  HsBecauseEntry link = { NULL };

  g_variant_get (args, "(&sm&s@" FINDING_FORMAT "@" LINK_FORMAT ")", &job_id, &effect_id, &finding, &because);
  g_variant_get (finding, "(m&sm&sm&sm&sm&sm&sm&s)", &cause.place, &cause.what, &cause.role, &cause.sure, &cause.ended,
                 &cause.said_by, &cause.cause);
  link_read (because, &link);
  return hs_chain_extend (book, job_id, effect_id, &cause, &link, now, error);
}

void
hs_deed_extend_chain (HsLedger *ledger, const char *job_id, const char *effect_id, const HsFindingEntry *cause,
                      const HsBecauseEntry *link, GAsyncReadyCallback callback, gpointer user_data)
{
  GVariant *finding = g_variant_new (FINDING_FORMAT, cause->place, cause->what, cause->role, cause->sure, cause->ended,
                                     cause->said_by, cause->cause);

  hs_ledger_write_async (ledger, extend_func,
                         g_variant_new ("(sms@" FINDING_FORMAT "@" LINK_FORMAT ")", job_id, effect_id, finding,
                                        link_variant (link)),
                         g_free, FALSE, callback, user_data);
}

static gpointer
because_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autoptr (GVariant) because = NULL;
  g_autofree char *id = NULL;
  const char *job_id, *effect_id, *cause_id;
  HsBecauseEntry link = { NULL };

  g_variant_get (args, "(&sm&s&s@" LINK_FORMAT ")", &job_id, &effect_id, &cause_id, &because);
  link_read (because, &link);
  id = hs_chain_join (book, job_id, effect_id, cause_id, &link, now, error);
  return id == NULL ? NULL : g_strdup (cause_id);
}

void
hs_deed_add_because (HsLedger *ledger, const char *job_id, const char *effect_id, const char *cause_id,
                     const HsBecauseEntry *link, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, because_func,
                         g_variant_new ("(smss@" LINK_FORMAT ")", job_id, effect_id, cause_id, link_variant (link)),
                         g_free, FALSE, callback, user_data);
}

static gpointer
take_back_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *link_id;

  g_variant_get (args, "(&s)", &link_id);
  hs_chain_take_back (book, link_id, now, error);
  return NULL;
}

void
hs_deed_take_back_link (HsLedger *ledger, const char *link_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, take_back_func, g_variant_new ("(s)", link_id), NULL, FALSE, callback, user_data);
}

static gpointer
remove_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *finding_id;

  g_variant_get (args, "(&s)", &finding_id);
  hs_finding_remove (book, finding_id, now, error);
  return NULL;
}

void
hs_deed_remove_finding (HsLedger *ledger, const char *finding_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, remove_func, g_variant_new ("(s)", finding_id), NULL, FALSE, callback, user_data);
}

static gpointer
settle_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *finding_id, *ended;

  g_variant_get (args, "(&sm&s)", &finding_id, &ended);
  hs_finding_settle (book, finding_id, ended, now, error);
  return NULL;
}

void
hs_deed_settle_end (HsLedger *ledger, const char *finding_id, const char *ended, GAsyncReadyCallback callback,
                    gpointer user_data)
{
  hs_ledger_write_async (ledger, settle_func, g_variant_new ("(sms)", finding_id, ended), NULL, FALSE, callback,
                         user_data);
}

static gpointer
call_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *finding_id, *sure;

  g_variant_get (args, "(&s&s)", &finding_id, &sure);
  hs_finding_call (book, finding_id, sure, now, error);
  return NULL;
}

void
hs_deed_call_finding (HsLedger *ledger, const char *finding_id, const char *sure, GAsyncReadyCallback callback,
                      gpointer user_data)
{
  hs_ledger_write_async (ledger, call_func, g_variant_new ("(ss)", finding_id, sure), NULL, FALSE, callback,
                         user_data);
}

static gpointer
answer_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *question, *text, *said_by;

  g_variant_get (args, "(&s&s&sm&s)", &job_id, &question, &text, &said_by);
  hs_answer_add (book, job_id, question, text, said_by, now, error);
  return NULL;
}

void
hs_deed_add_answer (HsLedger *ledger, const char *job_id, const char *question, const char *text, const char *said_by,
                    GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, answer_func, g_variant_new ("(sssms)", job_id, question, text, said_by), NULL, FALSE,
                         callback, user_data);
}
