// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Currents and resistances of circuits: what a wrong source drives, drops, relays, starters. */

#include "core-test.h"
#include "hs-circuit.h"
#include "hs-decimal.h"
#include "hs-drop.h"
#include "hs-relay.h"
#include "hs-starter.h"
#include "hs-words.h"

#include <math.h>

/* (source − battery) / R; reversed leads put both in series. */
static void
test_surge (void)
{
  static const struct
  {
    const char *id;
    double source, battery, milliohms, amps;
  } rows[] = {
    { "JMP-1: 12.6 V against a reversed 12.0 V battery, 6 + 6 + 8 + 4 mohm", 12.6, -12.0, 24, 1025 },
    { "a 24 V pack at rest 28 V over 30 mohm", 28, 12, 30, 533.333333333 },
    { "an ordinary jump", 12.6, 11.4, 24, 50 },
    { "nothing to drive it", 12.6, 12.6, 24, 0 },
    { "the battery feeds the source", 10.0, 12.4, 24, -100 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].id);
      g_assert_cmpfloat_with_epsilon (hs_circuit_surge_amps (rows[i].source, rows[i].battery, rows[i].milliohms),
                                      rows[i].amps, 1e-6);
    }
}

static void
test_share (void)
{
  g_assert_cmpfloat (hs_circuit_share_percent (90, 120), ==, 75);
  g_assert_cmpfloat (hs_circuit_share_percent (102, 120), ==, 85);
  g_assert_cmpfloat (hs_circuit_share_percent (0, 120), ==, 0);
}

/* VD-1 0.45 V at 180 A is 2.5 mohm; VD-3 0.22 V at 60 A is 3.7. */
static void
test_drop (void)
{
  g_assert_cmpfloat_with_epsilon (hs_drop_milliohms (0.45, 180), 2.5, 1e-12);
  g_assert_cmpfloat_with_epsilon (hs_drop_milliohms (0.22, 60), 3.7, 0.05);
  g_assert_cmpfloat (hs_drop_milliohms (0, 60), ==, 0);
}

static gint64
scaled (const char *text)
{
  gint64 value = -1;

  g_assert_true (hs_decimal_parse (text, HS_DECIMAL_MOST, &value, NULL));
  return value;
}

/* 0.20 V per 100 A (US Army TM 10-3930-671-24 p. F-303), exactly. */
static void
test_heavy (void)
{
  static const struct
  {
    HsDropPlace place;
    const char *volts, *amps;
    gboolean heavy;
  } rows[] = {
    { HS_DROP_STARTER_POSITIVE, "0.45", "180", TRUE }, /* VD-1 */
    { HS_DROP_STARTER_POSITIVE, "0.36", "180", FALSE },
    { HS_DROP_STARTER_POSITIVE, "0.360000001", "180", TRUE },
    { HS_DROP_STARTER_POSITIVE, "0.359999999", "180", FALSE },
    { HS_DROP_STARTER_POSITIVE, "0.21", "60", TRUE },
    { HS_DROP_STARTER_NEGATIVE, "0.13", "60", TRUE },
    { HS_DROP_STARTER_NEGATIVE, "0.12", "60", FALSE },
    { HS_DROP_CABLE, "0.19", "60", FALSE },
    { HS_DROP_CABLE, "0.19", "99.999999999", FALSE },
    { HS_DROP_CABLE, "0.19", "100", FALSE },
    { HS_DROP_CABLE, "0.20", "100", FALSE },
    { HS_DROP_CABLE, "0.200000001", "100", TRUE },
    { HS_DROP_MAGNETIC_SWITCH, "0.30", "120", TRUE },
    { HS_DROP_STARTER_POSITIVE, "0.45", "0", FALSE },
    { HS_DROP_STARTER_POSITIVE, "0", "180", FALSE },
    { HS_DROP_STARTER_POSITIVE, "0.000000001", "0.0000004", TRUE },
    { HS_DROP_STARTER_POSITIVE, "0.000000001", "0.0000005", FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s V at %s A", rows[i].volts, rows[i].amps);
      g_assert_cmpint (hs_drop_is_heavy (rows[i].place, scaled (rows[i].volts), scaled (rows[i].amps)), ==,
                       rows[i].heavy);
    }
}

/* The places are those of the catalog's condition, in one order. */
static void
test_places (void)
{
  g_auto (GStrv) choices = g_strsplit (HS_DROP_PLACES, "|", -1);
  gsize n_words;
  const HsWord *words = hs_words_get (HS_WORDS_DROP_PLACE, &n_words);

  g_assert_cmpuint (n_words, ==, HS_N_DROP_PLACES);
  g_assert_cmpuint (g_strv_length (choices), ==, HS_N_DROP_PLACES);
  for (gsize i = 0; i < n_words; i++)
    g_assert_cmpstr (words[i].id, ==, choices[i]);
  g_assert_cmpstr (choices[HS_DROP_STARTER_NEGATIVE], ==, "starter-negative");
}

/* RLY-1: 75 ohm at 13.5 V draw 0.18 A; a new contact loses 50 mV at 10 A (relay data sheet). */
static void
test_relay (void)
{
  g_auto (GStrv) numbers = g_strsplit (HS_RELAY_TERMINALS, "|", -1);

  g_assert_cmpfloat_with_epsilon (hs_relay_coil_amps (13.5, 75), 0.18, 1e-12);
  g_assert_cmpfloat_with_epsilon (hs_relay_coil_amps (12, HS_RELAY_COIL_LEAST_OHMS), 0.2, 1e-12);
  g_assert_cmpfloat_with_epsilon (hs_relay_coil_amps (12, HS_RELAY_COIL_MOST_OHMS), 0.15, 1e-12);
  g_assert_cmpfloat_with_epsilon (hs_relay_new_contact_volts (10), 0.050, 1e-12);
  g_assert_cmpfloat_with_epsilon (hs_relay_new_contact_volts (4), 0.020, 1e-12);
  for (guint i = 0; numbers[i] != NULL; i++)
    g_assert_true (g_str_has_prefix (hs_relay_terminal (numbers[i]), numbers[i]));
  g_assert_nonnull (strstr (hs_relay_terminal ("30"), "common"));
  g_assert_nonnull (strstr (hs_relay_terminal ("87"), "closed while the coil is on"));
  g_assert_nonnull (strstr (hs_relay_terminal ("87A"), "closed while the coil is off"));
  g_assert_nonnull (strstr (hs_relay_terminal ("86"), "plus"));
  g_assert_nonnull (strstr (hs_relay_terminal ("85"), "minus"));
  g_assert_null (hs_relay_terminal ("88"));
}

/* Textbook page: four cylinders at most 185 A, usually below 100; six 200 and 125; eight 250 and 150. */
static void
test_starter (void)
{
  static const struct
  {
    const char *id;
    int cylinders;
    HsStarterCrank crank;
    double amps, volts;
    HsStarterFinding finding;
  } rows[] = {
    { "STR-1", 4, HS_STARTER_CRANK_SLOW, 260, NAN, HS_STARTER_BINDS },
    { "STR-2", 4, HS_STARTER_CRANK_SLOW, 60, 12.3, HS_STARTER_RESISTANCE },
    { "slow, exactly the most", 4, HS_STARTER_CRANK_SLOW, 185, NAN, HS_STARTER_OPEN },
    { "slow, just over", 4, HS_STARTER_CRANK_SLOW, 185.5, NAN, HS_STARTER_BINDS },
    { "slow, between", 4, HS_STARTER_CRANK_SLOW, 100, 11, HS_STARTER_OPEN },
    { "slow, six, between", 6, HS_STARTER_CRANK_SLOW, 125, 11, HS_STARTER_OPEN },
    { "slow, six, low", 6, HS_STARTER_CRANK_SLOW, 124, 11, HS_STARTER_RESISTANCE },
    { "slow, eight, high", 8, HS_STARTER_CRANK_SLOW, 251, 9, HS_STARTER_BINDS },
    { "slow, low, volts not known", 4, HS_STARTER_CRANK_SLOW, 60, NAN, HS_STARTER_RESISTANCE },
    { "slow, low, volts gone", 4, HS_STARTER_CRANK_SLOW, 60, 9.5, HS_STARTER_BATTERY },
    { "slow, low, 9.6 V is not low", 4, HS_STARTER_CRANK_SLOW, 60, 9.6, HS_STARTER_RESISTANCE },
    { "stuck, nothing flows", 4, HS_STARTER_CRANK_NONE, 3, 12.5, HS_STARTER_CONTROL },
    { "stuck, nothing flows, low", 4, HS_STARTER_CRANK_NONE, 3, 12.4, HS_STARTER_RESISTANCE },
    { "stuck, nothing flows, flat", 4, HS_STARTER_CRANK_NONE, 3, 9.0, HS_STARTER_BATTERY },
    { "stuck, much flows", 4, HS_STARTER_CRANK_NONE, 400, 8, HS_STARTER_BINDS },
    { "good", 4, HS_STARTER_CRANK_NORMAL, 120, 10.5, HS_STARTER_NORMAL },
    { "good, most", 6, HS_STARTER_CRANK_NORMAL, 200, 10.5, HS_STARTER_NORMAL },
    { "turns well, draws much", 6, HS_STARTER_CRANK_NORMAL, 201, 10.5, HS_STARTER_MUCH },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].id);
      g_assert_cmpint (hs_starter_find (hs_starter_draw (rows[i].cylinders), rows[i].crank, rows[i].amps,
                                        rows[i].volts),
                       ==, rows[i].finding);
    }
  g_assert_null (hs_starter_draw (5));
  g_assert_cmpint (hs_starter_draw (8)->high_most, ==, 300);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/circuit/surge", test_surge);
  g_test_add_func ("/circuit/share", test_share);
  g_test_add_func ("/drop/milliohms", test_drop);
  g_test_add_func ("/drop/heavy", test_heavy);
  g_test_add_func ("/drop/places", test_places);
  g_test_add_func ("/relay", test_relay);
  g_test_add_func ("/starter", test_starter);
  return g_test_run ();
}
