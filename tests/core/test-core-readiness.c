// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Readiness out of the bytes of PID 01; the bits are those of an encyclopaedia's text on SAE J1979. */

#include "core-test.h"

#include "hs-readiness.h"

/* The monitors in order, with a ! before those that are not ready. */
static const struct
{
  const char *id;
  const char *bytes;
  gboolean lamp;
  guint n_codes;
  gboolean compression;
  const char *monitors;
} rows[] = {
  { "RDY-1", "83 07 65 04", TRUE, 3, FALSE,
    "misfire, fuel system, components, catalyst, !evaporative system, oxygen sensor, oxygen sensor heater" },
  { "as the tool answers", "41 01 83 07 65 04", TRUE, 3, FALSE,
    "misfire, fuel system, components, catalyst, !evaporative system, oxygen sensor, oxygen sensor heater" },
  { "nothing", "00000000", FALSE, 0, FALSE, "" },
  { "most codes", "ff000000", TRUE, 127, FALSE, "" },
  { "codes without the lamp", "7F000000", FALSE, 127, FALSE, "" },
  { "all of spark, none ready", "0077ffff", FALSE, 0, FALSE,
    "!misfire, !fuel system, !components, !catalyst, !heated catalyst, !evaporative system, !secondary air, "
    "!air conditioning refrigerant, !oxygen sensor, !oxygen sensor heater, !exhaust gas recirculation" },
  { "all of compression, none ready", "007Fffff", FALSE, 0, TRUE,
    "!misfire, !fuel system, !components, !NMHC catalyst, !NOx aftertreatment, !boost pressure, !exhaust gas sensor, "
    "!particulate filter, !exhaust gas recirculation" },
  { "compression, reserved bits alone", "00081414", FALSE, 0, TRUE, "" },
  { "not complete, but the vehicle has it not", "007000FF", FALSE, 0, FALSE, "" },
  { "one bit of B each", "00110000", FALSE, 0, FALSE, "!misfire" },
  { "the middle one", "00020000", FALSE, 0, FALSE, "fuel system" },
  { "the last one", "00440000", FALSE, 0, FALSE, "!components" },
  { "first and last of C", "00008180", FALSE, 0, FALSE, "catalyst, !exhaust gas recirculation" },
  /* A blank between the bytes and none at all are the same. */
  { "blanks", " 00 00 81 80 ", FALSE, 0, FALSE, "catalyst, !exhaust gas recirculation" },
};

static void
test_rows (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GString) monitors = g_string_new (NULL);
      HsReadiness readiness;
      guint n_open = 0;

      g_test_message ("%s", rows[i].id);
      g_assert_true (hs_readiness_parse (rows[i].bytes, &readiness, &error));
      g_assert_no_error (error);
      g_assert_cmpint (readiness.lamp, ==, rows[i].lamp);
      g_assert_cmpuint (readiness.n_codes, ==, rows[i].n_codes);
      g_assert_cmpint (readiness.compression, ==, rows[i].compression);
      for (guint j = 0; j < readiness.n_monitors; j++)
        {
          g_string_append_printf (monitors, "%s%s%s", j > 0 ? ", " : "", readiness.monitors[j].ready ? "" : "!",
                                  readiness.monitors[j].name);
          n_open += !readiness.monitors[j].ready;
        }
      g_assert_cmpstr (monitors->str, ==, rows[i].monitors);
      g_assert_cmpuint (hs_readiness_count_open (&readiness), ==, n_open);
    }
}

static void
test_refused (void)
{
  static const char *const texts[] = {
    "", "83", "83 07 65", "83 07 65 04 00", "83 07 65 0", "83 07 65 0G", "42 01 83 07 65 04", "41 01 83 07 65",
    "0x83076504", "-3 07 65 04", "83,07,65,04",
  };
  HsReadiness readiness = { .n_codes = 99 };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;

      assert_bad_value (hs_readiness_parse (texts[i], &readiness, &error), &error, "four bytes like 83 07 65 04");
    }
  g_assert_cmpuint (readiness.n_codes, ==, 99);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/readiness/rows", test_rows);
  g_test_add_func ("/readiness/refused", test_refused);
  return g_test_run ();
}
