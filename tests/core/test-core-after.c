// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a repair disturbs: the list that is shipped, what a list may hold, and what an installed part suggests. */

#include "hs-after.h"

#include "core-test.h"
#include "hs-check.h"

static HsAfterList *
shipped (void)
{
  g_autofree char *path = g_build_filename (HS_TEST_REFERENCE_DIR, "disturbed.ini", NULL);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  HsAfterList *list = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, &error));
  list = hs_after_list_new_from_data (text, -1, &error);
  g_assert_no_error (error);
  return list;
}

static HsChecks *
shipped_checks (void)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  HsChecks *checks = NULL;

  g_assert_true (g_file_get_contents (HS_TEST_CHECKS_INI, &text, NULL, &error));
  checks = hs_checks_new_from_data (text, -1, &error);
  g_assert_no_error (error);
  return checks;
}

/* What must be in it whatever else is: lines that once were forgotten, each with what it hangs on. */
static void
test_shipped (void)
{
  static const struct
  {
    const char *place;
    const char *begins;
    const char *check;
    gboolean coding;
    gint64 again_miles;
  } rows[] = {
    { "battery", "Battery coded", NULL, TRUE, 0 },
    { "battery", "Vent tube reconnected", NULL, FALSE, 0 },
    { "battery", "Both clamps tight", NULL, FALSE, 0 },
    { "relay", "Relay or fuse pressed fully home", "relay_drop", FALSE, 0 },
    { "belt", "Belt in every groove", "belt", FALSE, 0 },
    { "wheel", "Wheel nuts at the vehicle maker's torque", "wheel_nuts", FALSE, 50 },
    { "brakes", "Pedal pumped", NULL, FALSE, 0 },
    { "airbag", "Airbag lamp", NULL, FALSE, 0 },
    { "cooling", "Every hose clip", "cooling_pressure_lost", FALSE, 0 },
    { "cooling", "Filled and bled", "coolant_level", FALSE, 0 },
    { "cooling", "Warmed up", "fan_runs", FALSE, 0 },
    { "joint", "Every joint", "drop_joint", FALSE, 0 },
    { "joint", "No cable on a sharp edge", NULL, FALSE, 0 },
    { "plug", "Every plug that was parted", NULL, FALSE, 0 },
    { "plug", "Trouble codes read again", "trouble_codes", FALSE, 0 },
    { "wheel", "Adapter of the locking nuts", NULL, FALSE, 0 },
    { "brakes", "Brake fluid at its mark", NULL, FALSE, 0 },
    { "brakes", "Each wheel turns free", "wheel_heat", FALSE, 0 },
    { "brakes", "Slow stops tried first", NULL, FALSE, 0 },
    { "fuel", "Pump running: no drip", "fuel_pressure", FALSE, 0 },
    { "starter", "Stud nuts tight", "drop_feed", FALSE, 0 },
    { "starter", "Heat shield", NULL, FALSE, 0 },
    { "oil", "Level right after running", "oil_level", FALSE, 0 },
    { "oil", "Service counter set back", NULL, FALSE, 0 },
    { "air", "Ducts and hoses back", NULL, FALSE, 0 },
    { "high_voltage", "Covers over orange cables shut", NULL, FALSE, 0 },
    { "jacked", "Tools and lamps counted", NULL, FALSE, 0 },
  };
  g_autoptr (HsAfterList) list = shipped ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const HsAfterPlace *place = hs_after_list_find (list, rows[i].place);
      gboolean found = FALSE;

      g_assert_nonnull (place);
      for (guint j = 0; j < place->n_looks; j++)
        {
          const HsAfterLook *look = &place->looks[j];

          if (!g_str_has_prefix (look->words, rows[i].begins))
            continue;
          found = TRUE;
          g_assert_cmpstr (look->check, ==, rows[i].check);
          g_assert_cmpint (look->coding, ==, rows[i].coding);
          g_assert_cmpint (look->again_miles, ==, rows[i].again_miles);
        }
      g_assert_true (found);
    }
}

/* Every check that it names is in the catalog, and every place says who says so. */
static void
test_shipped_holds (void)
{
  g_autoptr (HsAfterList) list = shipped ();
  g_autoptr (HsChecks) checks = shipped_checks ();
  const HsAfterPlace *place;

  for (guint i = 0; (place = hs_after_list_get_nth (list, i)) != NULL; i++)
    {
      g_autofree char *number = g_strdup_printf ("%u", i + 1);

      g_assert_cmpuint (strlen (place->source), >, 0);
      g_assert_cmpuint (strlen (place->sure), >, 0);
      g_assert_true (hs_after_list_find (list, number) == place);
      g_assert_true (hs_after_list_find (list, place->name) == place);
      for (guint j = 0; j < place->n_looks; j++)
        {
          const HsAfterPlace *of = NULL;

          g_assert_true (hs_after_list_find_look (list, place->looks[j].words, &of) == &place->looks[j]);
          g_assert_true (of == place);
          g_assert_true (place->looks[j].check == NULL || hs_checks_lookup (checks, place->looks[j].check) != NULL);
        }
    }
  g_assert_null (hs_after_list_find (list, "0"));
  g_assert_null (hs_after_list_find (list, "99"));
  g_assert_null (hs_after_list_find (list, "the roof"));
  g_assert_null (hs_after_list_find_look (list, "Roof on", NULL));
}

static void
test_suggest (void)
{
  static const struct
  {
    const char *part;
    const char *ids;
  } rows[] = {
    { "battery 45 Ah AGM", "battery" },
    { "Battery cable", "joint" },
    { "key fob battery", "" },
    { "Relay, rear-window heater", "relay" },
    { "drive belt", "belt" },
    { "seat belt buckle", "airbag" },
    { "Alternator, rebuilt", "belt starter" },
    { "fuel filter", "fuel" },
    { "fuel hose", "fuel" },
    { "lower hose", "cooling" },
    { "water pump", "belt cooling" },
    { "brake pads", "brakes" },
    { "brake lamp", "plug" },
    { "wheel bearing", "wheel jacked" },
    { "glow plug", "ignition" },
    { "gold bar", "" },
    { "spark plugs, set of 4", "ignition" },
    { "injector, cylinder 2", "fuel" },
    { "lower ball joint", "jacked" },
    { "key", "" },
    { "battery charger", "" },
    { "wiper blade", "panels" },
    { "radiator", "cooling" },
    { "drain plug seal", "" },
    { "starter", "starter" },
    { "Starter solenoid lead", "joint starter" },
    { "ground strap, engine to body", "joint" },
    { "oxygen sensor", "plug" },
    { "oil filter", "oil" },
    { "coil pack", "ignition" },
    { "coil, oil-filled", "ignition" },
    { "air filter", "air" },
    { "thermostat", "cooling" },
    { "vacuum hose", "air" },
    { "brake hose", "brakes" },
    { "brake pads and rotors", "brakes" },
    { "main fuse 80 A", "relay" },
    { "fuel filler cap", "" },
    { "fuel pump fuse", "relay" },
    { "tire 195/65 R15", "wheel" },
    { "clock spring", "airbag jacked" },
    { "exhaust clamp", "joint jacked" },
    { "tray under the engine", "panels" },
    { "hybrid battery fan", "battery high_voltage" },
    { "", "" },
  };
  g_autoptr (HsAfterList) list = shipped ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) found = hs_after_list_suggest (list, rows[i].part);
      g_autoptr (GString) ids = g_string_new (NULL);

      for (guint j = 0; j < found->len; j++)
        g_string_append_printf (ids, "%s%s", j > 0 ? " " : "",
                                ((const HsAfterPlace *) g_ptr_array_index (found, j))->id);
      g_assert_cmpstr (ids->str, ==, rows[i].ids);
    }
}

/* It outlives the first who lets go of it, and a text of a given length ends there. */
static void
test_held (void)
{
  static const char text[] = "[a]\nname=A\nlook1=x\nsource=a book\ntag=derived\n[b]\nname=B";
  HsAfterList *list = hs_after_list_new_from_data (text, (gssize) (strstr (text, "[b]") - text), NULL);
  HsAfterList *held;

  g_assert_nonnull (list);
  held = hs_after_list_ref (list);
  hs_after_list_unref (list);
  g_assert_cmpstr (hs_after_list_get_nth (held, 0)->name, ==, "A");
  g_assert_cmpstr (hs_after_list_get_nth (held, 0)->source, ==, "a book");
  g_assert_null (hs_after_list_get_nth (held, 1));
  hs_after_list_unref (held);
  hs_after_list_unref (NULL);
}

#define WHO "source=a book\ntag=derived\n"

static void
test_refused (void)
{
  static const struct
  {
    const char *text;
    const char *said;
  } rows[] = {
    { "[a]\nlook1=x\n" WHO, "“name=”" },
    { "[a]\nname=A\nlook1=x\ntag=derived\n", "“source=”" },
    { "[a]\nname=A\nlook1=x\nsource=s\n", "“tag=”" },
    { "[a]\nname=A\nlook1=x\nsource=s\ntag=sure\n", "[a] “tag” does not say how sure it is: “sure”" },
    { "[a]\nname=A\n" WHO, "write “look1”" },
    { "[a]\nname=A\nlook2=x\n" WHO, "“look2” has none before it" },
    { "[a]\nname=A\nlook1=x\ncheck2=belt\n" WHO, "“look2” is missing" },
    { "[a]\nname=A\nlook1=x\nonly1=rain\n" WHO, "“only1” must be coding, not “rain”" },
    { "[a]\nname=A\nlook1=x\nagain1=soon\n" WHO, "“again1” must be whole miles" },
    { "[a]\nname=A\nlook1=x\nagain1=0\n" WHO, "“again1” must be whole miles" },
    { "[a]\nname=A\nlook1=x\nagain1=1001\n" WHO, "“again1” must be whole miles" },
    { "[a]\nname=A\nlook1=x\ncolor=red\n" WHO, "“color” means nothing here" },
    { "[a]\nname=A\nlook1=x\nlook2=x\n" WHO, "“x” is said twice" },
    { "[a]\nname=A\nlook1=x\n" WHO "[b]\nname=B\nlook1=x\n" WHO, "[b] “x” is said twice" },
    { "[a]\nname=A\nlook1=x\nonly2=coding\n" WHO, "“look2” is missing" },
    { "[a]\nname=A\nlook1=x\nagain2=50\n" WHO, "“look2” is missing" },
    { "[a]\nname=A\nlook1=x\nlook10=y\n" WHO, "“look10” means nothing here" },
    { "[a]\nname=A\nlook1=\n" WHO, "write “look1”" },
    { "[a]\nname=\nlook1=x\n" WHO, "“name=”" },
    { "a=b\n", "the list of disturbed places" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      HsAfterList *list = hs_after_list_new_from_data (rows[i].text, -1, &error);

      assert_bad_value (list != NULL, &error, rows[i].said);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/after/shipped", test_shipped);
  g_test_add_func ("/after/shipped-holds", test_shipped_holds);
  g_test_add_func ("/after/suggest", test_suggest);
  g_test_add_func ("/after/held", test_held);
  g_test_add_func ("/after/refused", test_refused);
  return g_test_run ();
}
