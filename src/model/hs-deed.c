// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the pages write. Arguments travel to the worker thread as variants, which nobody can change on the way. */

#include "hs-deed.h"

#include "hs-call-off.h"
#include "hs-day-plan.h"
#include "hs-job-life.h"
#include "hs-money.h"
#include "hs-parts-run.h"
#include "hs-roll-op.h"
#include "hs-safety-op.h"

/* The variant of a text that may be missing. */
static GVariant *
hs_deed_maybe (const char *text)
{
  return g_variant_new ("ms", text);
}

static gpointer
hs_deed_move_stage_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *reason;
  gint64 fee_cents;
  gint32 to;

  g_variant_get (args, "(&sim&s)", &job_id, &to, &reason);
  if (!hs_safety_check_read (book, job_id, (HsStage) to, error)
      || !hs_call_off_charged (book, job_id, &fee_cents, error)
      || !(to == HS_STAGE_ON_SITE ? hs_arrive (book, job_id, reason, FALSE, now, error)
                                  : hs_job_move_stage (book, job_id, (HsStage) to, reason, now, error)))
    return NULL;
  return to == HS_STAGE_SQUARED || fee_cents == 0 ? NULL
                                                  : hs_money_format_grouped (fee_cents, hs_book_get_currency (book));
}

void
hs_deed_move_stage (HsLedger *ledger, const char *job_id, HsStage to, const char *reason, GAsyncReadyCallback callback,
                    gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_move_stage_func, g_variant_new ("(sims)", job_id, (gint32) to, reason),
                         g_free, FALSE, callback, user_data);
}

static gpointer
hs_deed_go_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *reason;
  gint64 fee_cents;
  gboolean leave;
  gint32 to;

  g_variant_get (args, "(&sim&sb)", &job_id, &to, &reason, &leave);
  if (!hs_call_off_charged (book, job_id, &fee_cents, error)
      || !(to == HS_STAGE_ON_SITE ? hs_arrive : hs_roll) (book, job_id, reason, leave, now, error))
    return NULL;
  return fee_cents == 0 ? NULL : hs_money_format_grouped (fee_cents, hs_book_get_currency (book));
}

void
hs_deed_go (HsLedger *ledger, const char *job_id, HsStage to, const char *reason, gboolean leave,
            GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_go_func, g_variant_new ("(simsb)", job_id, (gint32) to, reason, leave),
                         g_free, FALSE, callback, user_data);
}

/* The slip's drafts go with it, in one: what stands in the book is not offered as typed once more. */
static char *
take_call (HsBook *book, const HsCallSlip *slip, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autofree char *id = NULL;

  if (!hs_store_begin (store, now, error))
    return NULL;
  id = hs_call_take (book, slip, now, error);
  if (!hs_store_end (store,
                     id != NULL
                       && (slip->job_id != NULL ? hs_where_settle (book, id, "call", NULL, now, error)
                                                : hs_where_save (book, NULL, "slip", NULL, NULL, now, error)),
                     error))
    return NULL;
  return g_steal_pointer (&id);
}

static gpointer
hs_deed_take_call_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autoptr (GVariant) texts = NULL;
  const char *field[12] = { NULL };
  HsCallSlip slip = { NULL };

  g_variant_get (args, "(@amsiiii)", &texts, &slip.day, &slip.window_from, &slip.window_to, &slip.minutes);
  for (gsize i = 0; i < G_N_ELEMENTS (field); i++)
    g_variant_get_child (texts, i, "m&s", &field[i]);
  slip.job_id = field[0];
  slip.phone = field[1];
  slip.name = field[2];
  slip.words = field[3];
  slip.plate = field[4];
  slip.make = field[5];
  slip.model = field[6];
  slip.group = field[7];
  slip.kind = field[8];
  slip.area = field[9];
  slip.street = field[10];
  slip.van = field[11];
  return take_call (book, &slip, now, error);
}

void
hs_deed_take_call (HsLedger *ledger, const HsCallSlip *slip, GAsyncReadyCallback callback, gpointer user_data)
{
  const char *texts[] = { slip->job_id, slip->phone, slip->name,  slip->words, slip->plate, slip->make,
                          slip->model,  slip->group, slip->kind,  slip->area,  slip->street, slip->van };
  GVariantBuilder builder;

  g_variant_builder_init (&builder, G_VARIANT_TYPE ("ams"));
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    g_variant_builder_add_value (&builder, hs_deed_maybe (texts[i]));
  hs_ledger_write_async (ledger, hs_deed_take_call_func,
                         g_variant_new ("(amsiiii)", &builder, slip->day, slip->window_from, slip->window_to,
                                        slip->minutes),
                         g_free, FALSE, callback, user_data);
}

/* The field as "Where was I" calls it: a check's id, with the phase behind it unless that is before. */
static HsReadingResult *
add_reading (HsBook *book, const char *job_id, const HsReadingEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  gboolean before = entry->phase == NULL || g_str_equal (entry->phase, "before");
  g_autofree char *field = before ? g_strdup (entry->check) : g_strdup_printf ("%s/%s", entry->check, entry->phase);
  g_autoptr (HsReadingResult) result = NULL;

  if (!hs_store_begin (store, now, error))
    return NULL;
  result = hs_reading_add (book, job_id, entry, now, error);
  if (!hs_store_end (store, result != NULL && hs_where_settle (book, job_id, "findings", field, now, error), error))
    return NULL;
  return g_steal_pointer (&result);
}

static gpointer
hs_deed_add_reading_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsReadingEntry entry = { NULL };
  const char *job_id;

  g_variant_get (args, "(&s&sm&sm&sm&s&sm&sm&sm&sbx)", &job_id, &entry.check, &entry.keyed, &entry.text, &entry.unit,
                 &entry.phase, &entry.place, &entry.conditions, &entry.why_not, &entry.sure, &entry.at);
  return add_reading (book, job_id, &entry, now, error);
}

void
hs_deed_add_reading (HsLedger *ledger, const char *job_id, const HsReadingEntry *entry, GAsyncReadyCallback callback,
                     gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_add_reading_func,
                         g_variant_new ("(ssmsmsmssmsmsmsbx)", job_id, entry->check, entry->keyed, entry->text,
                                        entry->unit, entry->phase, entry->place, entry->conditions, entry->why_not,
                                        entry->sure, entry->at),
                         (GDestroyNotify) hs_reading_result_free, FALSE, callback, user_data);
}

static gpointer
hs_deed_tell_reading_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *reading_id, *condition, *text;

  g_variant_get (args, "(&s&sm&s)", &reading_id, &condition, &text);
  hs_reading_tell (book, reading_id, condition, text, now, error);
  return NULL;
}

void
hs_deed_tell_reading (HsLedger *ledger, const char *reading_id, const char *condition, const char *text,
                      GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_tell_reading_func, g_variant_new ("(ssms)", reading_id, condition, text), NULL,
                         FALSE, callback, user_data);
}

static gpointer
hs_deed_note_finding_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsFindingEntry entry = { .role = "seen", .sure = "suspected" };
  const char *job_id;
  g_autofree char *id = NULL;

  g_variant_get (args, "(&s&s)", &job_id, &entry.what);
  id = hs_finding_add (book, job_id, &entry, now, error);
  return NULL;
}

void
hs_deed_note_finding (HsLedger *ledger, const char *job_id, const char *what, GAsyncReadyCallback callback,
                      gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_note_finding_func, g_variant_new ("(ss)", job_id, what), NULL, FALSE,
                         callback, user_data);
}

static gpointer
hs_deed_set_limit_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsOwnLimitEntry entry = { NULL };

  g_variant_get (args, "(&s&sm&sm&sm&sm&sb)", &entry.vehicle_id, &entry.check, &entry.low, &entry.high, &entry.unit,
                 &entry.source, &entry.maker);
  hs_own_limit_set (book, &entry, now, error);
  return NULL;
}

void
hs_deed_set_limit (HsLedger *ledger, const HsOwnLimitEntry *entry, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_set_limit_func,
                         g_variant_new ("(ssmsmsmsmsb)", entry->vehicle_id, entry->check, entry->low, entry->high,
                                        entry->unit, entry->source, entry->maker),
                         NULL, FALSE, callback, user_data);
}

static gpointer
hs_deed_clear_limit_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *vehicle_id, *check;
  gboolean maker;

  g_variant_get (args, "(&s&sb)", &vehicle_id, &check, &maker);
  hs_own_limit_clear (book, vehicle_id, check, maker, now, error);
  return NULL;
}

void
hs_deed_clear_limit (HsLedger *ledger, const char *vehicle_id, const char *check, gboolean maker,
                     GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_clear_limit_func, g_variant_new ("(ssb)", vehicle_id, check, maker), NULL,
                         FALSE, callback, user_data);
}

static gpointer
hs_deed_set_group_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *group;

  g_variant_get (args, "(&s&s)", &job_id, &group);
  hs_job_set_group (book, job_id, group, now, error);
  return NULL;
}

void
hs_deed_set_group (HsLedger *ledger, const char *job_id, const char *group, GAsyncReadyCallback callback,
                   gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_set_group_func, g_variant_new ("(ss)", job_id, group), NULL, FALSE, callback,
                         user_data);
}

static gpointer
hs_deed_lock_stop_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;
  const char *stop_id;
  gboolean locked;

  g_variant_get (args, "(i&sb)", &day, &stop_id, &locked);
  hs_day_plan_lock (book, day, NULL, stop_id, locked, now, error);
  return NULL;
}

void
hs_deed_lock_stop (HsLedger *ledger, HsDate day, const char *stop_id, gboolean locked, GAsyncReadyCallback callback,
                   gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_lock_stop_func, g_variant_new ("(isb)", day, stop_id, locked), NULL, FALSE,
                         callback, user_data);
}

static gpointer
hs_deed_accept_plan_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;
  g_autoptr (HsDayPlan) plan = NULL;

  g_variant_get (args, "(i)", &day);
  plan = hs_day_plan_make (book, day, NULL, now, error);
  if (plan != NULL)
    hs_day_plan_accept (book, plan, now, error);
  return NULL;
}

void
hs_deed_accept_plan (HsLedger *ledger, HsDate day, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_accept_plan_func, g_variant_new ("(i)", day), NULL, FALSE, callback,
                         user_data);
}

static gpointer
hs_deed_show_van_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *letter;

  g_variant_get (args, "(&s)", &letter);
  hs_book_set_van (book, letter);
  return NULL;
}

void
hs_deed_show_van (HsLedger *ledger, const char *letter, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_show_van_func, g_variant_new ("(s)", letter), NULL, FALSE, callback,
                         user_data);
}

static gpointer
hs_deed_tick_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsDate day;
  const char *list, *row_id;
  gboolean done;

  g_variant_get (args, "(i&s&sb)", &day, &list, &row_id, &done);
  hs_parts_run_tick (book, day, list, row_id, done, now, error);
  return NULL;
}

void
hs_deed_tick (HsLedger *ledger, HsDate day, const char *list, const char *row_id, gboolean done,
              GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_tick_func, g_variant_new ("(issb)", day, list, row_id, done), NULL, FALSE,
                         callback, user_data);
}

static gpointer
hs_deed_save_where_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *page, *field, *text;

  g_variant_get (args, "(m&sm&sm&sm&s)", &job_id, &page, &field, &text);
  hs_where_save (book, job_id, page, field, text, now, error);
  return NULL;
}

void
hs_deed_save_where (HsLedger *ledger, const char *job_id, const char *page, const char *field, const char *text,
                    GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_save_where_func, g_variant_new ("(msmsmsms)", job_id, page, field, text), NULL,
                         TRUE, callback, user_data);
}

static gpointer
hs_deed_visit_where_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id, *page, *field;

  g_variant_get (args, "(&s&s&s)", &job_id, &page, &field);
  hs_where_visit (book, job_id, page, field, now, error);
  return NULL;
}

void
hs_deed_visit_where (HsLedger *ledger, const char *job_id, const char *page, const char *field,
                     GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_visit_where_func, g_variant_new ("(sss)", job_id, page, field), NULL, TRUE,
                         callback, user_data);
}

static gpointer
hs_deed_leave_where_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;
  gboolean worked;

  g_variant_get (args, "(&sb)", &job_id, &worked);
  hs_where_leave (book, job_id, worked, now, error);
  return NULL;
}

void
hs_deed_leave_where (HsLedger *ledger, const char *job_id, gboolean worked, GAsyncReadyCallback callback,
                     gpointer user_data)
{
  hs_ledger_write_async (ledger, hs_deed_leave_where_func, g_variant_new ("(sb)", job_id, worked), NULL, TRUE,
                         callback, user_data);
}
