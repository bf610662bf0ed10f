// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of choices: options and their lines, the customer's answer, and how far the yes goes. */

#include "hs-deed-choice.h"

/* Options ---------------------------------------------------------------------------------------------------------- */

static GVariant *
entry_args (const char *id, const HsChoiceEntry *entry)
{
  return g_variant_new ("(smsmsmsmsmsms)", id, entry->group, entry->rank, entry->wording, entry->risk,
                        entry->finding_id, entry->beside);
}

static const char *
read_entry (GVariant *args, HsChoiceEntry *ret_entry)
{
  const char *id;

  g_variant_get (args, "(&sm&sm&sm&sm&sm&sm&s)", &id, &ret_entry->group, &ret_entry->rank, &ret_entry->wording,
                 &ret_entry->risk, &ret_entry->finding_id, &ret_entry->beside);
  return id;
}

static gpointer
add_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsChoiceEntry entry;
  const char *job_id = read_entry (args, &entry);

  return hs_choice_add (book, job_id, &entry, NULL, 0, now, error);
}

void
hs_deed_add_choice (HsLedger *ledger, const char *job_id, const HsChoiceEntry *entry, GAsyncReadyCallback callback,
                    gpointer user_data)
{
  hs_ledger_write_async (ledger, add_func, entry_args (job_id, entry), g_free, FALSE, callback, user_data);
}

static gpointer
change_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsChoiceEntry entry;
  const char *choice_id = read_entry (args, &entry);

  hs_choice_change (book, choice_id, &entry, now, error);
  return NULL;
}

void
hs_deed_change_choice (HsLedger *ledger, const char *choice_id, const HsChoiceEntry *entry,
                       GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, change_func, entry_args (choice_id, entry), NULL, FALSE, callback, user_data);
}

static gpointer
remove_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *choice_id;

  g_variant_get (args, "(&s)", &choice_id);
  hs_choice_remove (book, choice_id, now, error);
  return NULL;
}

void
hs_deed_remove_choice (HsLedger *ledger, const char *choice_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, remove_func, g_variant_new ("(s)", choice_id), NULL, FALSE, callback, user_data);
}

static gpointer
add_line_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsChoiceLineEntry line = HS_CHOICE_LINE_NONE;
  const char *choice_id;
  g_autofree char *id = NULL;

  g_variant_get (args, "(&sm&sm&sm&sm&sxxxx)", &choice_id, &line.id, &line.kind, &line.what, &line.part_number,
                 &line.minutes, &line.quantity_milli, &line.cost_cents, &line.price_cents);
  id = hs_choice_line_add (book, choice_id, &line, now, error);
  return NULL;
}

void
hs_deed_add_choice_line (HsLedger *ledger, const char *choice_id, const HsChoiceLineEntry *line,
                         GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, add_line_func,
                         g_variant_new ("(smsmsmsmsxxxx)", choice_id, line->id, line->kind, line->what,
                                        line->part_number, line->minutes, line->quantity_milli, line->cost_cents,
                                        line->price_cents),
                         NULL, FALSE, callback, user_data);
}

static gpointer
remove_line_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *line_id;

  g_variant_get (args, "(&s)", &line_id);
  hs_choice_line_remove (book, line_id, now, error);
  return NULL;
}

void
hs_deed_remove_choice_line (HsLedger *ledger, const char *line_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, remove_line_func, g_variant_new ("(s)", line_id), NULL, FALSE, callback, user_data);
}

/* Answers ---------------------------------------------------------------------------------------------------------- */

/* Bytes travel as such; none as no array at all. */
static GVariant *
bytes_arg (GBytes *bytes)
{
  return g_variant_new_maybe (G_VARIANT_TYPE_BYTESTRING,
                              bytes == NULL ? NULL : g_variant_new_from_bytes (G_VARIANT_TYPE_BYTESTRING, bytes, TRUE));
}

static GBytes *
take_bytes (GVariant *maybe)
{
  g_autoptr (GVariant) owned = maybe;
  g_autoptr (GVariant) bytes = g_variant_get_maybe (maybe);

  return bytes == NULL ? NULL : g_variant_get_data_as_bytes (bytes);
}

static gpointer
decide_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsChoiceAnswer answer = HS_CHOICE_ANSWER_NONE;
  GVariant *maybe;
  const char *choice_id;
  g_autoptr (GBytes) signature = NULL;

  g_variant_get (args, "(&sm&sm&sm&sm&sxix@may)", &choice_id, &answer.choice, &answer.by, &answer.means, &answer.risk,
                 &answer.at, &answer.call_on, &answer.ceiling_cents, &maybe);
  answer.signature = signature = take_bytes (maybe);
  hs_choice_decide (book, choice_id, &answer, now, error);
  return NULL;
}

void
hs_deed_decide (HsLedger *ledger, const char *choice_id, const HsChoiceAnswer *answer, GAsyncReadyCallback callback,
                gpointer user_data)
{
  hs_ledger_write_async (ledger, decide_func,
                         g_variant_new ("(smsmsmsmsxix@may)", choice_id, answer->choice, answer->by, answer->means,
                                        answer->risk, answer->at, answer->call_on, answer->ceiling_cents,
                                        bytes_arg (answer->signature)),
                         NULL, FALSE, callback, user_data);
}

static gpointer
give_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsGoAheadEntry entry = { 0 };
  GVariant *maybe;
  const char *job_id;
  g_autoptr (GBytes) signature = NULL;

  g_variant_get (args, "(&sxm&sm&sx@may)", &job_id, &entry.ceiling_cents, &entry.by, &entry.means, &entry.at, &maybe);
  entry.signature = signature = take_bytes (maybe);
  hs_go_ahead_give (book, job_id, &entry, now, error);
  return NULL;
}

void
hs_deed_give_go_ahead (HsLedger *ledger, const char *job_id, const HsGoAheadEntry *entry, GAsyncReadyCallback callback,
                       gpointer user_data)
{
  hs_ledger_write_async (ledger, give_func,
                         g_variant_new ("(sxmsmsx@may)", job_id, entry->ceiling_cents, entry->by, entry->means,
                                        entry->at, bytes_arg (entry->signature)),
                         NULL, FALSE, callback, user_data);
}

static gpointer
follow_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *earlier_id, *why;

  g_variant_get (args, "(&s&sm&s)", &job_id, &earlier_id, &why);
  hs_job_follow (book, job_id, earlier_id, why, now, error);
  return NULL;
}

void
hs_deed_follow (HsLedger *ledger, const char *job_id, const char *earlier_id, const char *why,
                GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, follow_func, g_variant_new ("(ssms)", job_id, earlier_id, why), NULL, FALSE, callback,
                         user_data);
}
