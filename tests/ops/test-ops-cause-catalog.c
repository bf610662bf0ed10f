// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The owner's cause models beside the book: laid over those that are built in, or refused as a whole. */

#include "hs-cause-catalog.h"
#include "hs-data.h"
#include "ops-next.h"

#include <glib/gstdio.h>
#include <string.h>

typedef struct
{
  char *folder;
  char *book;
  char *file;
  HsChecks *checks;
} Beside;

static Beside
beside_start (void)
{
  Beside beside = { .folder = g_dir_make_tmp ("hs-causes-XXXXXX", NULL), .checks = hs_data_load_checks (NULL) };

  beside.book = g_build_filename (beside.folder, "a.hsbook", NULL);
  beside.file = g_build_filename (beside.folder, HS_CAUSE_CATALOG_FILE, NULL);
  return beside;
}

static void
beside_clear (Beside *beside)
{
  g_remove (beside->file);
  g_rmdir (beside->folder);
  g_free (beside->folder);
  g_free (beside->book);
  g_free (beside->file);
  hs_checks_unref (beside->checks);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Beside, beside_clear)

static HsCauseCatalog *
load (Beside *beside, const char *text)
{
  g_autoptr (GError) error = NULL;
  HsCauseCatalog *catalog;

  if (text != NULL)
    g_assert_true (g_file_set_contents (beside->file, text, -1, NULL));
  catalog = hs_cause_catalog_load (beside->book, beside->checks, &error);
  g_assert_no_error (error);
  return catalog;
}

/* (transfer full): the models of ops-next.h without their sign, with the first @from in it made @to. */
static char *
changed (const char *from, const char *to)
{
  g_auto (GStrv) plain = g_strsplit (ops_next_models, "@", 2);
  g_autofree char *whole = g_strjoinv ("", plain);
  g_auto (GStrv) parts = g_strsplit (whole, from, 2);

  g_assert_nonnull (parts[1]);
  return g_strjoinv (to, parts);
}

static const HsCauseGuide *
find (const HsCauseCatalog *catalog, const char *id)
{
  for (guint i = 0; i < catalog->guides->len; i++)
    if (g_strcmp0 (hs_cause_guide_get_id (g_ptr_array_index (catalog->guides, i)), id) == 0)
      return g_ptr_array_index (catalog->guides, i);
  return NULL;
}

static void
test_none (void)
{
  g_auto (Beside) beside = beside_start ();
  g_autoptr (HsCauseCatalog) catalog = load (&beside, NULL);

  g_assert_cmpuint (catalog->guides->len, ==, 9);
  g_assert_null (catalog->file);
  g_assert_null (catalog->trouble);
  g_assert_null (catalog->changes[0]);
}

/* A model stands for the one of its id, another is added; a single one needs no list. */
static void
test_laid_over (void)
{
  g_auto (Beside) beside = beside_start ();
  g_autofree char *same = changed ("by hand", "by hand");
  g_autofree char *other = changed ("\"id\": \"drains\"", "\"id\": \"drains_slowly\"");
  g_autofree char *single = g_strndup (same + strlen ("{\"models\": ["),
                                       strlen (same) - strlen ("{\"models\": [") - strlen ("]}"));
  g_autoptr (HsCauseCatalog) changes = load (&beside, same);
  g_autoptr (HsCauseCatalog) adds = load (&beside, other);
  g_autoptr (HsCauseCatalog) one = load (&beside, single);

  g_assert_null (changes->trouble);
  g_assert_cmpstr (changes->file, ==, beside.file);
  g_assert_cmpstr (changes->changes[0], ==, "changed drains");
  g_assert_null (changes->changes[1]);
  g_assert_cmpuint (changes->guides->len, ==, 9);
  g_assert_cmpstr (hs_cause_guide_get_note (find (changes, "drains")), ==, "by hand");
  g_assert_cmpuint (hs_cause_model_get_n_causes (hs_cause_guide_get_model (find (changes, "brakes"))), ==, 8);
  g_assert_cmpstr (adds->changes[0], ==, "added drains_slowly");
  g_assert_cmpuint (adds->guides->len, ==, 10);
  g_assert_cmpstr (one->changes[0], ==, "changed drains");
}

/* One slip and nothing of the file is used; the field is told by its path. */
static void
test_refused (void)
{
  static const struct
  {
    const char *from;
    const char *to;
    const char *said;
  } rows[] = {
    { "\"prior\": 3", "\"prior\": \"often\"", "models[0].causes[0].prior: must be a number" },
    { "[0.2, 0.8]", "[0.2, 0.9]", "models[0].checks[0].p.b: the chances of one cause must sum to 1, not 1.1" },
    { "\"name\": \"Belt\", ", "", "models[0].causes[1].name: is missing" },
    { "\"group\": \"drains\"", "\"group\": \"dreams\"", "models[0].group: there is no group “dreams”" },
    { "\"id\": \"belt\"", "\"id\": \"suspenders\"",
      "models[0].checks[1].id: there is no check “suspenders”; halfshaft-cli check lists them" },
    { "\"note\"", "\"nota\"", "models[0].nota: is not a key that a list of models has" },
    { "{\"models\": [", "{\"model\": [", "model: is not a key that a list of models has" },
    { "{\"models\": [", "{\"models\": [7, ", "models[0]: must be an object" },
    { "]}]}", "]}", "a comma or ] is missing" },
    { "\"none\": \"low\"", "\"none\": \"dark\"",
      "models[0].checks[0].said.answers.none: “dark” is none of the results" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Beside) beside = beside_start ();
      g_autofree char *text = changed (rows[i].from, rows[i].to);
      g_autoptr (HsCauseCatalog) catalog = load (&beside, text);

      g_test_message ("%s", catalog->trouble);
      g_assert_nonnull (catalog->trouble);
      g_assert_nonnull (strstr (catalog->trouble, rows[i].said));
      g_assert_true (g_str_has_prefix (catalog->trouble, beside.file));
      g_assert_true (g_str_has_suffix (catalog->trouble, "The cause models that are built in stand."));
      g_assert_cmpuint (catalog->guides->len, ==, 9);
      g_assert_cmpstr (hs_cause_guide_get_note (find (catalog, "drains")), !=, "by hand");
      g_assert_null (catalog->changes[0]);
    }
}

static void
test_twice (void)
{
  g_auto (Beside) beside = beside_start ();
  g_autofree char *once = changed ("by hand", "by hand");
  g_autofree char *model = g_strndup (once + strlen ("{\"models\": ["),
                                      strlen (once) - strlen ("{\"models\": [") - strlen ("]}"));
  g_autofree char *twice = g_strdup_printf ("{\"models\": [%s, %s]}", model, model);
  g_autoptr (HsCauseCatalog) catalog = load (&beside, twice);

  g_assert_nonnull (strstr (catalog->trouble, "models[1].id: “drains” is there twice"));
}

/* Something else under that name is told, not read. */
static void
test_no_file (void)
{
  g_auto (Beside) beside = beside_start ();
  g_autoptr (HsCauseCatalog) catalog = NULL;

  g_assert_cmpint (g_mkdir (beside.file, 0700), ==, 0);
  catalog = load (&beside, NULL);
  g_assert_nonnull (strstr (catalog->trouble, "it is not a list of models"));
  g_assert_cmpuint (catalog->guides->len, ==, 9);
  g_assert_cmpint (g_rmdir (beside.file), ==, 0);
}

/* A list of checks that the owner has cut short takes the models with it that need the others. */
static void
test_fewer_checks (void)
{
  static const char few[] = "[check battery_rest]\nname=B\nhow=h\nunit=V\ndecimals=2\nleast=0.00\nmost=20.00\n"
                            "[limit battery_rest any]\nbands=outside 12.00 within\nwhy1=w\nnext1=n\n"
                            "why2=w\nsource=s\ntag=memory\n"
                            "[group drains]\nname=D\nchecks=battery_rest\n";
  g_auto (Beside) beside = beside_start ();
  g_autoptr (GError) error = NULL;
  g_autoptr (HsCauseCatalog) catalog = NULL;

  hs_checks_unref (beside.checks);
  beside.checks = hs_checks_new_from_data (few, -1, &error);
  g_assert_no_error (error);
  catalog = load (&beside, NULL);
  g_assert_cmpuint (catalog->guides->len, ==, 0);
  g_assert_null (catalog->trouble);
}

/* The book hands them out, and says what is wrong with the file. */
static void
test_book (void)
{
  g_auto (OpsNext) good = ops_next_start (NULL, "drains");
  g_auto (OpsNext) bad = ops_next_start ("{\"models\": [{}]}", "drains");
  g_autoptr (GError) error = NULL;
  g_autoptr (HsJobNext) next = ops_next_ask (&bad);

  g_assert_cmpstr (hs_book_get_causes (good.book, &error)->changes[0], ==, "changed drains");
  g_assert_true (hs_book_get_causes (good.book, &error) == hs_book_get_causes (good.book, &error));
  g_assert_nonnull (strstr (next->trouble, "models[0].causes: is missing"));
  g_assert_cmpstr (next->name, ==, "Drains overnight");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cause-catalog/none", test_none);
  g_test_add_func ("/cause-catalog/laid-over", test_laid_over);
  g_test_add_func ("/cause-catalog/refused", test_refused);
  g_test_add_func ("/cause-catalog/twice", test_twice);
  g_test_add_func ("/cause-catalog/no-file", test_no_file);
  g_test_add_func ("/cause-catalog/fewer-checks", test_fewer_checks);
  g_test_add_func ("/cause-catalog/book", test_book);
  return g_test_run ();
}
