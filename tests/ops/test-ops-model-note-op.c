// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Notes by model: written on one job, offered on the next one of that model. */

#include "hs-job-life.h"
#include "hs-model-note-op.h"
#include "hs-undo.h"
#include "ops-site.h"

#define NOW HS_OPS_TEST_NOW

static char *
add (OpsSite *site, const char *topic, const char *words, const char *years, GError **error)
{
  HsModelNoteEntry entry = { topic, words, years };

  return hs_model_note_add (site->book, site->job_id, &entry, NOW, error);
}

static void
check_notes (OpsSite *site, const char *job_id, const char *wanted)
{
  g_autoptr (GPtrArray) notes = hs_model_note_list (site->book, job_id, NULL);
  g_autoptr (GString) told = g_string_new (NULL);

  g_assert_nonnull (notes);
  for (guint i = 0; i < notes->len; i++)
    {
      const HsModelNote *note = g_ptr_array_index (notes, i);

      g_string_append_printf (told, "%s%s: %s", i > 0 ? "; " : "", note->topic_word, note->words);
      if (note->years != NULL)
        g_string_append_printf (told, " (%s)", note->years);
    }
  g_assert_cmpstr (told->str, ==, wanted);
}

/* TDM 5508 is of 2008; what holds for other years is not offered. */
static void
test_offered (void)
{
  static const struct
  {
    const char *topic;
    const char *words;
    const char *years;
  } rows[] = {
    { "place", "main fuse behind the glove box", NULL },
    { "caution", "fan starts with the key off", "2005-2010" },
    { NULL, "lift the pedal while turning", "2008" },
    { "part_name", "the counter calls it a cradle", "2009-" },
    { "knack", "for the old ones", "-2007" },
    { "knack", "up to this one", "-2008" },
  };
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *other = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *id = add (&site, rows[i].topic, rows[i].words, rows[i].years, &error);

      g_assert_no_error (error);
      g_assert_nonnull (id);
    }
  check_notes (&site, site.job_id,
               "beware: fan starts with the key off (2005 to 2010); the knack: up to this one (to 2008); "
               "the knack: lift the pedal while turning (2008); where it is: main fuse behind the glove box");
  hs_ops_test_import_ok (site.test, "vehicles", "plate,owner_phone,make,model,year\nTDM 1,555-0117,vostle,NIB,2012\n",
                         1, 0, 0);
  hs_ops_test_import_ok (site.test, "jobs", "number,customer_phone,words,plate\nA-0002,555-0117,hums,TDM 1\n", 1, 0,
                         0);
  other = hs_job_find (site.book, "A-0002", NULL);
  check_notes (&site, other,
               "the counter's name for the part: the counter calls it a cradle (from 2009); "
               "where it is: main fuse behind the glove box");
}

static void
test_refused (void)
{
  static const struct
  {
    const char *topic;
    const char *words;
    const char *years;
    const char *said;
  } rows[] = {
    { "gossip", "words", NULL, "gossip" },
    { NULL, NULL, NULL, "A note needs a few words" },
    { NULL, "  ", NULL, "A note needs a few words" },
    { NULL, "words", "08", "“08” is no year" },
    { NULL, "words", "2008-soon", "“soon” is no year" },
    { NULL, "words", "2010-2008", "the first year comes first" },
    { NULL, "words", "1884", "is no year" },
  };
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_assert_null (add (&site, rows[i].topic, rows[i].words, rows[i].years, &error));
      hs_ops_test_refused (&error, rows[i].said);
    }
  hs_ops_test_run (site.test, "UPDATE vehicle SET model = NULL WHERE plate = 'TDM 5508'");
  g_assert_null (add (&site, NULL, "words", NULL, &error));
  hs_ops_test_refused (&error, "Make and model of the vehicle of A-0001 are not known yet");
  check_notes (&site, site.job_id, "");
  hs_ops_test_run (site.test, "UPDATE job SET vehicle_id = NULL");
  check_notes (&site, site.job_id, "");
  g_assert_cmpint (hs_ops_test_count (site.test, "model_note"), ==, 0);
}

/* Taken away, taken back, and written on a job that is squared up. */
static void
test_kept (void)
{
  g_auto (OpsSite) site = ops_site_start (FALSE);
  g_autofree char *id = add (&site, NULL, "words", NULL, NULL);
  g_autofree char *late = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hs_model_note_remove (site.book, site.job_id, id, NOW, NULL));
  check_notes (&site, site.job_id, "");
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, NULL));
  check_notes (&site, site.job_id, "the knack: words");
  ops_site_arrive (&site, "2026-03-10T08:40");
  ops_site_square (&site, NOW + 9000);
  late = add (&site, "place", "under the seat", NULL, &error);
  g_assert_no_error (error);
  check_notes (&site, site.job_id, "where it is: under the seat; the knack: words");
  g_assert_true (hs_model_note_remove (site.book, site.job_id, id, NOW, &error));
  g_assert_false (hs_model_note_remove (site.book, site.job_id, "nothing", NOW, &error));
  g_assert_nonnull (error);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/model-note-op/offered", test_offered);
  g_test_add_func ("/model-note-op/refused", test_refused);
  g_test_add_func ("/model-note-op/kept", test_kept);
  return g_test_run ();
}
