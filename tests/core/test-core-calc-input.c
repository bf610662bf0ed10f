// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is typed wrongly, over every calculator that is shipped: each number, choice and date of each is tried with what
 * fingers and other programs write. It must be refused, name the key, and give no result. */

#include "calc-test.h"
#include "reference-test.h"

typedef struct
{
  HsChecks *checks;
  HsReference *reference;
  HsCalcScene scene;
} Bench;

static void
bench_init (Bench *bench)
{
  bench->checks = shipped_checks ();
  bench->reference = shipped_reference ();
  bench->scene = (HsCalcScene) { .checks = bench->checks, .reference = bench->reference, .currency = "USD",
                                 .today = day (CALC_TODAY) };
}

static void
bench_clear (Bench *bench)
{
  hs_checks_unref (bench->checks);
  hs_reference_unref (bench->reference);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Bench, bench_clear)

/* The example's words with @key alone replaced, or added; keys that may not stand beside it are left out. */
static char **
words_with (const HsCalc *calc, const HsCalcKey *key, const char *value)
{
  g_auto (GStrv) words = g_strsplit (calc->example, " ", -1);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_autofree char *replaced = g_strdup_printf ("%s=%s", key->id, value);

  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *id = g_strndup (words[i], strcspn (words[i], "="));
      const HsCalcKey *other = hs_calc_find_key (calc, id);

      g_assert_nonnull (other);
      if (other != key && (key->either == 0 || other->either != key->either))
        g_strv_builder_add (builder, words[i]);
    }
  g_strv_builder_add (builder, replaced);
  return g_strv_builder_end (builder);
}

static void
assert_key_refuses (const Bench *bench, const HsCalc *calc, const HsCalcKey *key, const char *value)
{
  g_auto (GStrv) words = words_with (calc, key, value);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsCalcResult) result = hs_calc_run (calc, &bench->scene, (const char *const *) words, &error);

  g_test_message ("%s %s=%s", calc->name, key->id, value);
  assert_refused (result != NULL, &error, HS_CORE_ERROR_BAD_VALUE, key->id);
}

static gboolean
is_number (const HsCalcKey *key)
{
  return key->kind <= HS_CALC_AMOUNTS;
}

/* Not read as a number at all: by nobody's locale, in no unit, and never infinite. */
static void
test_numbers (void)
{
  static const char *const typed[] = {
    "nan", "NaN", "inf", "-inf", "1e3", "1e999", "1e-999", "0x10", "12V", "12 V", "1..2", ".", "-", "+5", "1 000",
    "1'000", "1.234.567", "--1", "1-", "٣", "½", "99999999999999999999", "1/2", "1_000", "$5", "12\xc2\xa0", "five",
  };
  g_auto (Bench) bench = { 0 };
  const HsCalc *calc;

  bench_init (&bench);
  for (guint i = 0; (calc = hs_calc_get_nth (i)) != NULL; i++)
    for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
      for (guint j = 0; is_number (key) && j < G_N_ELEMENTS (typed); j++)
        assert_key_refuses (&bench, calc, key, typed[j]);
}

/* A decimal comma is named as one where a single number is asked; beyond its ends a key says what it takes. */
static void
test_ranges (void)
{
  g_auto (Bench) bench = { 0 };
  const HsCalc *calc;

  bench_init (&bench);
  for (guint i = 0; (calc = hs_calc_get_nth (i)) != NULL; i++)
    for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
      {
        g_autofree char *over = NULL, *under = NULL;

        if (!is_number (key))
          continue;
        over = g_strdup_printf ("%" G_GINT64_FORMAT, (gint64) floor (key->most) + 1);
        under = g_strdup_printf ("%" G_GINT64_FORMAT, (gint64) ceil (key->least) - 1);
        assert_key_refuses (&bench, calc, key, over);
        assert_key_refuses (&bench, calc, key, under);
        if (key->kind == HS_CALC_NUMBER || key->kind == HS_CALC_MONEY)
          assert_key_refuses (&bench, calc, key, "1,5");
      }
}

static void
test_words (void)
{
  g_auto (Bench) bench = { 0 };
  const HsCalc *calc;

  bench_init (&bench);
  for (guint i = 0; (calc = hs_calc_get_nth (i)) != NULL; i++)
    for (const HsCalcKey *key = calc->keys; key->id != NULL; key++)
      if (key->kind == HS_CALC_CHOICE)
        {
          assert_key_refuses (&bench, calc, key, "no such word");
          assert_key_refuses (&bench, calc, key, key->choices);
        }
      else if (key->kind == HS_CALC_DATE)
        {
          assert_key_refuses (&bench, calc, key, "2026-02-30");
          assert_key_refuses (&bench, calc, key, "11/25/2026");
          assert_key_refuses (&bench, calc, key, "yesterday");
        }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/calc-input/numbers", test_numbers);
  g_test_add_func ("/calc-input/ranges", test_ranges);
  g_test_add_func ("/calc-input/words", test_words);
  return g_test_run ();
}
