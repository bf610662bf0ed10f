// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* What the tests of the reference tables share: the shipped ones. */

#include "core-test.h"
#include "hs-reference.h"

static inline GBytes *
shipped_table (const char *name)
{
  g_autofree char *path = g_build_filename (HS_TEST_REFERENCE_DIR, name, NULL);
  g_autoptr (GError) error = NULL;
  char *text;
  gsize length;

  g_file_get_contents (path, &text, &length, &error);
  g_assert_no_error (error);
  return g_bytes_new_take (text, length);
}

static inline HsReference *
shipped_reference (void)
{
  g_autoptr (GBytes) makers = shipped_table ("makers.csv");
  g_autoptr (GBytes) trouble_codes = shipped_table ("trouble-codes.ini");
  g_autoptr (GBytes) mileage = shipped_table ("mileage.ini");
  g_autoptr (GBytes) deposits = shipped_table ("deposits.ini");
  g_autoptr (GError) error = NULL;
  HsReference *reference = hs_reference_new (&(HsReferenceTables) { makers, trouble_codes, mileage, deposits }, &error);

  g_assert_no_error (error);
  return reference;
}
