// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The go-ahead: each yes a row that is never altered, and the room that the latest one leaves. Use the check before a
 * line is added; squaring up asks the same of the lines that stand. Refuses a yes without a name, and a signature that
 * cannot be drawn again.
 */

#include "hs-go-ahead.h"

#include "hs-bill-private.h"
#include "hs-choice-private.h"
#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-money-row.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-settings-op.h"
#include "hs-signature.h"

/* Giving ----------------------------------------------------------------------------------------------------------- */

gboolean
hs_go_ahead_check_signature (GBytes *bytes, const char *means, GError **error)
{
  gboolean signed_here = g_str_equal (means, "signed_on_screen");
  g_autoptr (HsSignature) signature = NULL;

  if (bytes == NULL)
    return !signed_here
           || hs_ops_refuse (error, "There is no signature yet. Have it signed on the screen, or write down how else "
                                    "the answer came: in person, phone, text or email.");
  if (!signed_here)
    return hs_ops_refuse (error, "A signature goes with an answer that was signed on the screen, not with one by %s.",
                          hs_words_label (HS_WORDS_MEANS, means));
  signature = hs_signature_from_bytes (bytes, error);
  if (signature == NULL)
    return FALSE;
  return !hs_signature_is_blank (signature)
         || hs_ops_refuse (error, "The signature is blank. Have it signed again, or write down how else the answer "
                                  "came.");
}

gboolean
hs_go_ahead_read_means (const char *text, GBytes *signature, const char **ret_means, GError **error)
{
  const char *usual = signature != NULL ? "signed_on_screen" : NULL;
  const char *means;

  if (!hs_ops_word (HS_WORDS_MEANS, text, usual, &means, error))
    return FALSE;
  if (means == NULL)
    return hs_ops_refuse (error, "How did the answer come? Say in person, by phone, by text, by email, or signed on "
                                 "the screen.");
  *ret_means = means;
  return TRUE;
}

static gboolean
fill_yes (const HsGoAheadEntry *entry, HsInstant now, HsGoAheadRow *row, GError **error)
{
  const char *means;

  if (hs_ops_blank_to_null (entry->by) == NULL)
    return hs_ops_refuse (error, "Who said yes? A go-ahead needs a name.");
  if (entry->ceiling_cents < 0)
    return hs_ops_refuse (error, "A ceiling is not less than nothing.");
  if (!hs_go_ahead_read_means (entry->means, entry->signature, &means, error)
      || !hs_go_ahead_check_signature (entry->signature, means, error))
    return FALSE;
  row->by_whom = g_strstrip (g_strdup (entry->by));
  hs_row_set (&row->means, means);
  row->ceiling_cents = entry->ceiling_cents;
  row->at = entry->at == 0 ? now : entry->at;
  row->signature = entry->signature == NULL ? NULL : g_bytes_ref (entry->signature);
  return TRUE;
}

gboolean
hs_go_ahead_give (HsBook *book, const char *job_id, const HsGoAheadEntry *entry, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (HsGoAheadRow) row = hs_go_ahead_row_new ();

  if (!fill_yes (entry, now, row, error) || !hs_store_begin (store, now, error))
    return FALSE;
  hs_row_set (&row->job_id, job_id);
  return hs_store_end (store, hs_go_ahead_row_save (store, row, error), error);
}

gboolean
hs_go_ahead_add (HsBook *book, const char *job_id, gint64 ceiling_cents, const char *by, const char *means,
                 HsInstant at, GError **error)
{
  const HsGoAheadEntry entry = { .ceiling_cents = ceiling_cents, .by = by, .means = means };

  return hs_go_ahead_give (book, job_id, &entry, at, error);
}

/* Room ------------------------------------------------------------------------------------------------------------- */

void
hs_go_ahead_room_free (HsGoAheadRoom *room)
{
  if (room == NULL)
    return;
  g_free (room->by);
  g_free (room->means);
  g_free (room);
}

static gboolean
fill_latest (HsBook *book, const char *job_id, HsGoAheadRoom *room, GError **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  const HsGoAheadRow *latest;

  room->at = HS_INSTANT_NONE;
  if (!hs_go_ahead_row_list_of (hs_book_get_store (book), job_id, &rows, error)
      || !hs_settings_get_int (book, "overrun_cents", &room->overrun_cents, error))
    return FALSE;
  room->given = rows->len > 0;
  if (!room->given)
    return TRUE;
  latest = g_ptr_array_index (rows, rows->len - 1);
  room->by = g_strdup (latest->by_whom);
  room->means = g_strdup (latest->means);
  room->at = latest->at;
  room->ceiling_cents = latest->ceiling_cents;
  return TRUE;
}

/* Lines without tax, and what the clock adds to them. */
static gboolean
sum_net (HsBook *book, const HsJobRow *job, GPtrArray *lines, HsInstant now, gint64 *ret_cents, GError **error)
{
  HsBillClock clock;
  gint64 net_cents;

  if (!hs_bill_clock (book, job, lines, now, &clock, error))
    return FALSE;
  net_cents = clock.more_cents;
  for (guint i = 0; i < lines->len; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (!hs_money_sum ((const gint64[]) { net_cents, line->price_cents }, 2, &net_cents, error))
        return FALSE;
    }
  *ret_cents = net_cents;
  return TRUE;
}

/* As squaring up will tax them, with a line of @kind (nullable) beside them. */
static gboolean
sum_tax (HsBook *book, GPtrArray *lines, const char *kind, gint64 net_cents, gint64 *ret_cents, GError **error)
{
  g_autoptr (GPtrArray) taxed = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_line_row_free);
  gint64 cents = 0;

  for (guint i = 0; i < lines->len; i++)
    g_ptr_array_add (taxed, hs_line_row_copy (g_ptr_array_index (lines, i)));
  if (kind != NULL)
    {
      HsLineRow *added = hs_line_row_new ();

      g_ptr_array_add (taxed, added);
      hs_row_set (&added->kind, kind);
      added->price_cents = net_cents;
    }
  if (!hs_bill_tax_lines (book, taxed, error))
    return FALSE;
  for (guint i = 0; i < taxed->len; i++)
    if (!hs_money_sum ((const gint64[]) { cents, ((HsLineRow *) g_ptr_array_index (taxed, i))->tax_cents }, 2, &cents,
                       error))
      return FALSE;
  *ret_cents = cents;
  return TRUE;
}

gboolean
hs_go_ahead_weigh (HsBook *book, const HsJobRow *job, GPtrArray *lines, const char *kind, gint64 net_cents,
                   HsInstant now, HsGoAheadRoom *room, GError **error)
{
  gint64 used_net, used_tax, all_tax, covered;

  if (!sum_net (book, job, lines, now, &used_net, error) || !sum_tax (book, lines, NULL, 0, &used_tax, error)
      || !sum_tax (book, lines, kind, net_cents, &all_tax, error)
      || !hs_money_sum ((const gint64[]) { used_net, used_tax }, 2, &room->used_cents, error)
      || !hs_money_sum ((const gint64[]) { used_net, all_tax, kind == NULL ? 0 : net_cents }, 3, &room->total_cents,
                        error))
    return FALSE;
  room->added_cents = room->total_cents - room->used_cents;
  covered = room->ceiling_cents + (room->given ? room->overrun_cents : 0);
  room->short_cents = MAX (0, room->total_cents - covered);
  return TRUE;
}

static gboolean
fill_sums (HsBook *book, const char *job_id, const char *kind, gint64 net_cents, HsInstant now, HsGoAheadRoom *room,
           GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;
  g_autoptr (HsJobRow) job = NULL;

  return hs_job_row_load (store, job_id, &job, error) && hs_line_row_list_of (store, job_id, &lines, error)
         && hs_go_ahead_weigh (book, job, lines, kind, net_cents, now, room, error);
}

HsGoAheadRoom *
hs_go_ahead_check (HsBook *book, const char *job_id, const char *kind, gint64 net_cents, HsInstant now,
                   GError **error)
{
  g_autoptr (HsGoAheadRoom) room = g_new0 (HsGoAheadRoom, 1);
  const char *kind_id;

  if (!hs_ops_word (HS_WORDS_LINE_KIND, kind, NULL, &kind_id, error) || !fill_latest (book, job_id, room, error)
      || !fill_sums (book, job_id, kind_id, net_cents, now, room, error))
    return NULL;
  return g_steal_pointer (&room);
}

char *
hs_go_ahead_room_say (HsBook *book, const HsGoAheadRoom *room)
{
  const char *currency = hs_book_get_currency (book);
  g_autofree char *total = hs_money_format_grouped (room->total_cents, currency);
  g_autofree char *ceiling = hs_money_format_grouped (room->ceiling_cents, currency);
  g_autofree char *over = hs_money_format_grouped (room->short_cents, currency);
  g_autofree char *left
      = hs_money_format_grouped (room->ceiling_cents + room->overrun_cents - room->total_cents, currency);

  if (!room->given)
    return g_strdup_printf ("The job comes to %s and nobody gave a go-ahead yet.", total);
  if (room->short_cents > 0)
    return g_strdup_printf ("The job comes to %s and the go-ahead by %s covers %s: short by %s. "
                            "Ask for a new go-ahead or take something off.", total, room->by, ceiling, over);
  return g_strdup_printf ("The job comes to %s and the go-ahead by %s covers %s: room for %s.", total, room->by,
                          ceiling, left);
}

/* Before a line ---------------------------------------------------------------------------------------------------- */

gboolean
hs_go_ahead_short (HsBook *book, const char *job_id, HsInstant now, gint64 *ret_cents, GError **error)
{
  g_autoptr (HsGoAheadRoom) room = hs_go_ahead_check (book, job_id, NULL, 0, now, error);

  if (room == NULL)
    return FALSE;
  *ret_cents = room->given ? room->short_cents : 0;
  return TRUE;
}

gboolean
hs_go_ahead_check_past (HsBook *book, const char *job_id, const char *what, gint64 before_cents, HsInstant now,
                        GError **error)
{
  g_autoptr (HsGoAheadRoom) room = hs_go_ahead_check (book, job_id, NULL, 0, now, error);
  g_autofree char *said = NULL;

  if (room == NULL)
    return FALSE;
  if (!room->given || room->short_cents <= before_cents)
    return TRUE;
  said = hs_go_ahead_room_say (book, room);
  return hs_ops_passes (error, "With “%s”: %s", what, said);
}
