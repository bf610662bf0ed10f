// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The deeds of counters' holidays: one more, one less, and that taken back. */

#include "hs-deed-holiday.h"

#include "hs-ask.h"

gpointer
hs_ask_holidays (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  int from;

  g_variant_get (args, "(i)", &from);
  return hs_holidays_list (book, from, error);
}

gpointer
hs_ask_counters (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) names = hs_holiday_counters (book, error);
  GPtrArray *places;

  if (names == NULL)
    return NULL;
  places = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_place_free);
  for (guint i = 0; i < names->len; i++)
    {
      HsPlace *place = g_new0 (HsPlace, 1);

      place->code = g_strdup (g_ptr_array_index (names, i));
      place->name = g_strdup (g_ptr_array_index (names, i));
      g_ptr_array_add (places, place);
    }
  return places;
}

static gpointer
add_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *counter, *day, *opens, *shuts, *words;

  g_variant_get (args, "(&s&s&s&s&s)", &counter, &day, &opens, &shuts, &words);
  return hs_holiday_add (book, counter, day, opens, shuts, words, now, error);
}

void
hs_deed_add_holiday (HsLedger *ledger, const char *const *fields, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, add_func,
                         g_variant_new ("(sssss)", fields[0], fields[1], fields[2], fields[3], fields[4]),
                         (GDestroyNotify) hs_holiday_undo_free, FALSE, callback, user_data);
}

static gpointer
remove_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *id;

  g_variant_get (args, "(&s)", &id);
  return hs_holiday_remove (book, id, now, error);
}

void
hs_deed_remove_holiday (HsLedger *ledger, const char *id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, remove_func, g_variant_new ("(s)", id), (GDestroyNotify) hs_holiday_undo_free, FALSE,
                         callback, user_data);
}

static gpointer
take_back_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  guint64 address;

  g_variant_get (args, "(t)", &address);
  hs_holiday_take_back (book, (const HsHolidayUndo *) (guintptr) address, now, error);
  return NULL;
}

void
hs_deed_take_back_holiday (HsLedger *ledger, HsSnapshot *undo, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, take_back_func, g_variant_new ("(t)", (guint64) (guintptr) hs_snapshot_get (undo)),
                         NULL, FALSE, callback, user_data);
}
