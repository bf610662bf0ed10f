// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The safety lists that are shipped, and what such a list may hold. */

#include "hs-safety.h"

#include "core-test.h"
#include "hs-check.h"
#include "hs-text.h"

static char *
read_file (const char *path)
{
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, &error));
  g_assert_no_error (error);
  return text;
}

static HsSafety *
shipped (void)
{
  g_autofree char *text = read_file (HS_TEST_SAFETY_INI);
  g_autoptr (GError) error = NULL;
  HsSafety *safety = hs_safety_new_from_data (text, -1, &error);

  g_assert_no_error (error);
  return safety;
}

/* "a b c", with a ! before what only high-voltage vehicles are asked. */
static char *
ids_of (GPtrArray *items)
{
  g_autoptr (GString) ids = g_string_new (NULL);

  for (guint i = 0; i < items->len; i++)
    {
      const HsSafetyItem *item = g_ptr_array_index (items, i);

      g_string_append_printf (ids, "%s%s%s", i > 0 ? " " : "", item->high_voltage ? "!" : "", item->id);
    }
  return g_strdup (ids->str);
}

static void
test_shipped (void)
{
  static const struct
  {
    const char *group;
    gboolean high_voltage;
    const char *ids;
  } rows[] = {
    { "will_not_start", FALSE, "traffic slope alone battery_acid closed_garage fuel" },
    { "will_not_start", TRUE,
      "!ready_lamp !orange !twelve_volts traffic slope alone battery_acid closed_garage fuel" },
    { "everything_dead", FALSE, "traffic slope alone battery_acid airbags" },
    { "drains", FALSE, "traffic slope alone battery_acid closed_garage" },
    { "charging_lamp", FALSE, "traffic slope alone coolant battery_acid closed_garage" },
    { "overheats", FALSE, "traffic slope alone coolant closed_garage" },
    { "brakes", FALSE, "traffic slope alone jacking" },
    { "cuts_out", FALSE, "traffic slope alone closed_garage fuel" },
    { "upkeep", TRUE, "!ready_lamp !orange !twelve_volts traffic slope alone jacking" },
    { "other", FALSE, "traffic slope alone jacking airbags" },
    { NULL, FALSE, "traffic slope alone jacking battery_acid closed_garage" },
    { NULL, TRUE, "!ready_lamp !orange !twelve_volts traffic slope alone jacking battery_acid closed_garage" },
    { "no_such_group", TRUE, "!ready_lamp !orange !twelve_volts traffic slope alone" },
  };
  g_autoptr (HsSafety) safety = shipped ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) list = hs_safety_list (safety, rows[i].group, rows[i].high_voltage);
      g_autofree char *ids = ids_of (list);

      g_assert_cmpstr (ids, ==, rows[i].ids);
    }
}

/* Each group of the catalog has a list that the digits reach, and each item says what to do, why, and who says so. */
static void
test_fits_digits (void)
{
  g_autofree char *text = read_file (HS_TEST_CHECKS_INI);
  HsChecks *checks = hs_checks_new_from_data (text, -1, NULL);
  g_autoptr (HsSafety) safety = shipped ();
  const HsCheckGroup *group;
  const HsSafetyItem *item;

  for (guint i = 0; (group = hs_checks_get_nth_group (checks, i)) != NULL; i++)
    {
      g_autoptr (GPtrArray) list = hs_safety_list (safety, group->id, TRUE);

      g_assert_cmpuint (list->len, <=, HS_SAFETY_MOST_ITEMS);
    }
  for (guint i = 0; (item = hs_safety_get_nth (safety, i)) != NULL; i++)
    {
      g_test_message ("%s", item->id);
      g_assert_true (hs_safety_find (safety, item->id) == item);
      g_assert_cmpuint (strlen (item->brief), <=, 20);
      g_assert_cmpuint (strlen (item->words), <=, 90);
      g_assert_false (hs_text_is_blank (item->caution));
    }
  g_assert_null (hs_safety_find (safety, "no_such_item"));
  g_assert_null (hs_safety_find (safety, NULL));
  hs_checks_unref (checks);
}

static void
test_refused (void)
{
  static const struct
  {
    const char *text;
    const char *said;
  } rows[] = {
    { "[traffic]\nwords=a\n", "a section here is [item ID]" },
    { "[item ]\nwords=a\n", "a section here is [item ID]" },
    { "[item a]\nof=all\nsource=s\nsure=derived\n", "words" },
    { "[item a]\nwords=w\nsource=s\nsure=derived\n", "of" },
    { "[item a]\nwords=w\nof=;\nsource=s\nsure=derived\n", "“of” names no complaint group" },
    { "[item a]\nwords=w\nof=all\nsure=derived\n", "source" },
    { "[item a]\nwords=w\nof=all\nsource=s\n", "sure" },
    { "[item a]\nwords=w\nof=all\nsource=s\nsure=memory\n", "“sure” must be official text" },
    { "[item a]\nwords=w\nof=all\nsource=s\nsure=derived\nvehicle=van\n", "not “van”" },
    { "[item a]\nwords=w\nof=all\nsource=s\nsure=derived\nwhen=night\n", "when" },
    { "[item a]\nwords=w\nof=all\nsource=s\nsure=derived\n[item a]\nwords=x\n", "item a" },
    { "words=w\n", "safety list" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsSafety) safety = hs_safety_new_from_data (rows[i].text, -1, &error);

      g_test_message ("%s", rows[i].text);
      assert_refused (safety != NULL, &error, HS_CORE_ERROR_BAD_VALUE, rows[i].said);
    }
}

/* What may be left away: the short words are the words then. */
static void
test_least (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsSafety) safety
      = hs_safety_new_from_data ("[item a]\nwords=w\nof=brakes; drains\nsource=s\nsure=derived\n", -1, &error);
  g_autoptr (HsSafety) kept = NULL;
  g_autoptr (GPtrArray) drains = NULL;
  g_autoptr (GPtrArray) none = NULL;

  g_assert_no_error (error);
  kept = hs_safety_ref (safety);
  drains = hs_safety_list (kept, "drains", FALSE);
  none = hs_safety_list (kept, NULL, TRUE);
  g_assert_cmpuint (drains->len, ==, 1);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_cmpstr (((const HsSafetyItem *) g_ptr_array_index (drains, 0))->brief, ==, "w");
  g_assert_null (((const HsSafetyItem *) g_ptr_array_index (drains, 0))->caution);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/safety/shipped", test_shipped);
  g_test_add_func ("/safety/fits-digits", test_fits_digits);
  g_test_add_func ("/safety/refused", test_refused);
  g_test_add_func ("/safety/least", test_least);
  return g_test_run ();
}
