// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Until when a battery deposit goes back: New York ECL 27-1701 gives 30 days. */

#include "reference-test.h"

#include "hs-deposit.h"

static void
test_rows (void)
{
  static const struct
  {
    const char *place;
    const char *sold;
    const char *last;
  } rows[] = {
    { "New York", "2026-11-01", "2026-12-01" },       /* DEP-1: the 1st goes back, the 2nd is 31 days on */
    { "New York", "2026-02-10", "2026-03-12" },
    { "Arizona", "2026-11-01", "2026-12-16" },
    { "Maine", "2024-02-25", "2024-03-03" },
    { "Minnesota", "2026-11-01", "" },
  };
  g_autoptr (HsReference) reference = shipped_reference ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsDepositRule *rule = hs_reference_lookup_deposit (reference, rows[i].place);

      g_assert_cmpint (hs_deposit_last_day (rule, day (rows[i].sold)), ==, day (rows[i].last));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/deposit/rows", test_rows);
  return g_test_run ();
}
