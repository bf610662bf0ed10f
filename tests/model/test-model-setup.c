// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Setting a book up: what is taken, and what is refused in which words. */

#include "hs-ask.h"
#include "hs-deed-setup.h"
#include "hs-travel-op.h"
#include "model-book.h"

typedef struct
{
  gboolean done;
  char *message;
} Outcome;

static void
outcome_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  Outcome *outcome = data;
  g_autoptr (GError) error = NULL;

  outcome->done = hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  outcome->message = error != NULL ? g_strdup (error->message) : NULL;
}

static char *
setting_of (ModelBook *book, const char *key)
{
  g_autoptr (GPtrArray) settings = model_ask (book->ledger, hs_ask_settings, NULL);

  for (guint i = 0; i < settings->len; i++)
    {
      const HsSetting *setting = g_ptr_array_index (settings, i);

      if (g_str_equal (setting->key, key))
        return g_strdup (setting->value);
    }
  return NULL;
}

static void
test_set (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    const char *key;
    const char *value;
    const char *after;
    const char *says;
  } rows[] = {
    { "spare_minutes", "45", "45", NULL },
    { "spare_minutes", "many", "45", "spare_minutes" },
    { "leave_from", "6:00", "06:00", NULL },
    { "leave_from", "25:00", "06:00", "leave_from" },
    { "base_area", "Q", "Q", NULL },
    { "no_such", "1", NULL, "There is no setting" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Outcome outcome = { FALSE, NULL };
      g_autofree char *after = NULL;

      hs_deed_set (book->ledger, rows[i].key, rows[i].value, outcome_cb, &outcome);
      hs_ledger_wait (book->ledger);
      g_assert_true (outcome.done == (rows[i].says == NULL));
      g_assert_true (rows[i].says == NULL || strstr (outcome.message, rows[i].says) != NULL);
      after = setting_of (book, rows[i].key);
      g_assert_cmpstr (after, ==, rows[i].after);
      g_free (outcome.message);
    }
}

static gboolean
is_place (ModelBook *book, const char *code, const char *name)
{
  g_autoptr (GPtrArray) places = model_ask (book->ledger, hs_ask_places, NULL);

  for (guint i = 0; i < places->len; i++)
    {
      const HsPlace *place = g_ptr_array_index (places, i);

      if (g_str_equal (place->code, code))
        return g_strcmp0 (place->name, name) == 0;
    }
  return FALSE;
}

static void
test_places (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    const char *code;
    const char *name;
    gboolean good;
  } rows[] = { { "N", "North Lock", TRUE }, { "W", "The \"Wharf\", lower", TRUE }, { "", "Nowhere", FALSE },
               { "E", "", FALSE }, { "N", "North Lock Road", TRUE } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Outcome outcome = { FALSE, NULL };

      hs_deed_add_place (book->ledger, rows[i].code, rows[i].name, NULL, outcome_cb, &outcome);
      hs_ledger_wait (book->ledger);
      g_assert_true (outcome.done == rows[i].good);
      g_assert_true (is_place (book, rows[i].code, rows[i].name) == rows[i].good);
      /* There is no file to speak of. */
      g_assert_true (rows[i].good || strstr (outcome.message, ":2:") == NULL);
      g_free (outcome.message);
    }
}

/* Where a code lies on the map; -1 if it is not on it. */
static double
latitude_of (ModelBook *book, const char *name)
{
  g_autoptr (GPtrArray) places = model_ask (book->ledger, hs_ask_map, NULL);

  for (guint i = 0; i < places->len; i++)
    {
      const HsMapPlace *place = g_ptr_array_index (places, i);

      if (g_str_equal (place->name, name))
        return place->latitude;
    }
  return -1;
}

static void
test_positions (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    const char *position;
    double latitude;
    const char *says;
  } rows[] = { { "", -1, NULL }, { "40.7128, -74.006", 40.7128, NULL }, { "", 40.7128, NULL },
               { "geo:41.5,-74", 41.5, NULL }, { "95, 12", 41.5, "position" }, { "by the lock", 41.5, "position" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Outcome outcome = { FALSE, NULL };

      hs_deed_add_place (book->ledger, "N", "North Lock", rows[i].position, outcome_cb, &outcome);
      hs_ledger_wait (book->ledger);
      g_assert_true (outcome.done == (rows[i].says == NULL));
      g_assert_true (rows[i].says == NULL || strstr (outcome.message, rows[i].says) != NULL);
      g_assert_cmpfloat_with_epsilon (latitude_of (book, "North Lock"), rows[i].latitude, 1e-9);
      g_free (outcome.message);
    }
}

static void
test_counters (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    const char *name;
    const char *place;
    double latitude;
    gboolean good;
  } rows[] = { { "Lock Parts", "geo:41.5,-74", 41.5, TRUE }, { "Lock Parts", "40.5, -74.25", 40.5, TRUE },
               { "Lock Parts", "no such", 40.5, FALSE }, { "", "40.5, -74.25", -1, FALSE } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Outcome outcome = { FALSE, NULL };

      hs_deed_place_counter (book->ledger, rows[i].name, rows[i].place, outcome_cb, &outcome);
      hs_ledger_wait (book->ledger);
      g_assert_true (outcome.done == rows[i].good);
      g_assert_cmpfloat_with_epsilon (latitude_of (book, rows[i].name), rows[i].latitude, 1e-9);
      g_free (outcome.message);
    }
}

static void
test_drives (ModelBook *book, gconstpointer data)
{
  static const struct
  {
    const char *from;
    const char *to;
    const char *minutes;
    const char *miles;
    const char *says;
  } rows[] = { { "T", "Q", "11", "3.4", NULL }, { "Q", "Q", "3", "0.9", NULL }, { "T", "Z", "11", "3.4", "to" },
               { "T", "Q", "x", "3.4", "minutes" }, { "T", "Q", "11", "", "miles" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Outcome outcome = { FALSE, NULL };

      hs_deed_add_drive (book->ledger, rows[i].from, rows[i].to, rows[i].minutes, rows[i].miles, outcome_cb, &outcome);
      hs_ledger_wait (book->ledger);
      g_assert_true (outcome.done == (rows[i].says == NULL));
      if (rows[i].says != NULL)
        g_assert_true (g_str_has_prefix (outcome.message, rows[i].says));
      g_free (outcome.message);
    }
}

/* Twenty past jobs of the demo, each there and back, all between areas that its table knows; none has a position. */
static void
test_accuracy (ModelBook *book, gconstpointer data)
{
  g_autofree HsTravelAccuracy *accuracy = model_ask (book->ledger, hs_ask_accuracy, NULL);

  g_assert_cmpuint (accuracy->trips, ==, 40);
  g_assert_cmpuint (accuracy->count[HS_TRAVEL_TABLED], ==, 40);
  g_assert_cmpuint (accuracy->count[HS_TRAVEL_OWN] + accuracy->count[HS_TRAVEL_FEW], ==, 40);
  g_assert_cmpuint (accuracy->count[HS_TRAVEL_GUESS], ==, 0);
  g_assert_cmpint (accuracy->off_seconds[HS_TRAVEL_GUESS], ==, -1);
}

#define ADD(name, func) g_test_add (name, ModelBook, NULL, model_book_open, func, model_book_close)

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/setup/set", test_set);
  ADD ("/setup/places", test_places);
  ADD ("/setup/positions", test_positions);
  ADD ("/setup/counters", test_counters);
  ADD ("/setup/drives", test_drives);
  ADD ("/setup/accuracy", test_accuracy);
  return g_test_run ();
}
