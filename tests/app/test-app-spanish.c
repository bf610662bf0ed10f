// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Words of the shipped data files in a Spanish window: points of the safety list, checks, complaint groups, causes;
 * what the owner wrote stays as it is, and so does what goes back into the book. */

#include "hs-app-test.h"
#include "hs-cause-guide.h"
#include "hs-chain.h"
#include "hs-data.h"
#include "hs-interview-op.h"
#include "hs-safety-line.h"
#include "hs-show.h"

#include <glib/gi18n.h>
#include <locale.h>

#define LOCALE "es_US.UTF-8"

static void
run (const char *const *words)
{
  g_autoptr (GError) error = NULL;
  int status = 0;

  g_assert_true (g_spawn_sync (NULL, (char **) words, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, &status,
                               &error));
  g_assert_no_error (error);
  g_assert_true (g_spawn_check_wait_status (status, &error));
  g_assert_no_error (error);
}

/* A machine may have no locale but C, in which newer C libraries translate nothing. Only words are taken of it: numbers
 * stay as they are. */
static void
make_locale (const char *folder)
{
  g_autofree char *made = g_build_filename (folder, LOCALE, NULL);
  const char *words[] = { "localedef", "-i", "es_US", "-f", "UTF-8", made, NULL };

  run (words);
  g_setenv ("LOCPATH", folder, TRUE);
  g_assert_nonnull (setlocale (LC_MESSAGES, LOCALE));
}

/* learn_spanish: puts po/es.po where gettext looks for it. Returns: (transfer full): the folder. */
static char *
learn_spanish (void)
{
  char *folder = g_dir_make_tmp ("hs-spanish-XXXXXX", NULL);
  g_autofree char *place = g_build_filename (folder, "es", "LC_MESSAGES", NULL);
  g_autofree char *mo = g_build_filename (place, GETTEXT_PACKAGE ".mo", NULL);
  const char *words[] = { "msgfmt", "-o", mo, g_getenv ("HS_SPANISH"), NULL };

  g_assert_nonnull (words[3]);
  g_assert_cmpint (g_mkdir_with_parents (place, 0700), ==, 0);
  run (words);
  make_locale (folder);
  g_assert_nonnull (bindtextdomain (GETTEXT_PACKAGE, folder));
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  return folder;
}

static void
forget_spanish (char *folder)
{
  const char *words[] = { "rm", "-r", folder, NULL };

  run (words);
  g_free (folder);
}

/* Every shipped question, its answers and what they decide, in whole and in the part that is about one answer. */
static void
test_questions (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsInterview) interview = hs_data_load_interview (&error);
  const HsInterviewQuestion *question;
  g_autofree char *part = hs_show_sentences ("Bright: look past the battery.");
  g_autofree char *own = hs_show_sentences ("Ask my brother. He knows");

  g_assert_no_error (error);
  for (guint i = 0; (question = hs_interview_get_nth (interview, i)) != NULL; i++)
    {
      g_autofree char *decides = hs_show_sentences (question->decides);

      g_test_message ("%s", question->id);
      g_assert_cmpstr (hs_show_data (question->words), !=, question->words);
      g_assert_cmpstr (decides, !=, question->decides);
      for (guint k = 0; question->answers != NULL && question->answers[k] != NULL; k++)
        if (!g_str_equal (question->answers[k], "no"))
          g_assert_cmpstr (hs_show_data (question->answers[k]), !=, question->answers[k]);
    }
  g_assert_cmpstr (part, ==, "Vivas: busque más allá de la batería.");
  g_assert_cmpstr (own, ==, "Ask my brother. He knows");
}

static void
test_words (void)
{
  g_assert_cmpstr (hs_show_data ("Battery at rest"), ==, "Batería en reposo");
  g_assert_cmpstr (hs_show_data ("Will not start"), ==, "No arranca");
  g_assert_cmpstr (hs_show_data ("Drain plug at the maker's torque with a new washer"), ==,
                   "Tapón de drenaje al torque del fabricante con arandela nueva");
  g_assert_cmpstr (hs_show_data ("My own check of the winch"), ==, "My own check of the winch");
  g_assert_cmpstr (hs_show_data (""), ==, "");
  g_assert_null (hs_show_data (NULL));
}

/* Every check, group and cause that is shipped has Spanish words, and they are other than the English ones but where
 * both write alike. */
static void
test_all_shipped (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HsChecks) checks = hs_data_load_checks (&error);
  g_autoptr (GPtrArray) guides = hs_cause_guides_load (&error);
  guint n_words = 0, n_alike = 0;
  const HsCheckGroup *group;

  for (guint i = 0; (group = hs_checks_get_nth_group (checks, i)) != NULL; i++, n_words++)
    n_alike += g_str_equal (hs_show_data (group->name), group->name);
  for (guint i = 0; i < guides->len; i++)
    {
      const HsCauseGuide *guide = g_ptr_array_index (guides, i);
      const HsCauseModel *model = hs_cause_guide_get_model (guide);

      for (guint cause = 0; cause < hs_cause_model_get_n_causes (model); cause++, n_words++)
        {
          const HsGuideCause *words = hs_cause_guide_get_cause (guide, cause);

          n_alike += g_str_equal (hs_show_data (words->name), words->name);
          n_alike += g_str_equal (hs_show_data (words->repair), words->repair);
        }
    }
  g_assert_cmpuint (n_words, >, 70);
  g_assert_cmpuint (n_alike, ==, 0);
}

static void
assert_said (const char *english, const char *where)
{
  if (english == NULL || *english == '\0')
    return;
  if (g_str_equal (hs_show_data (english), english))
    g_error ("%s: no Spanish words for “%s”", where, english);
}

/* What may be answered, how it is measured, and each verdict with its word, why and what to do next. */
static void
test_checks (void)
{
  g_autoptr (HsChecks) checks = hs_data_load_checks (NULL);
  const HsCheck *check;
  guint n_answers = 0;

  for (guint i = 0; (check = hs_checks_get_nth (checks, i)) != NULL; i++)
    {
      assert_said (check->how, check->id);
      for (guint k = 0; check->answers != NULL && check->answers[k] != NULL; k++, n_answers++)
        assert_said (check->answers[k], check->id);
    }
  g_assert_cmpuint (n_answers, >, 90);
  g_assert_cmpstr (hs_show_data ("fast clicks"), ==, "clics rápidos");
  g_assert_cmpstr (hs_show_data ("The ground side loses too much."), ==, "El lado de tierra pierde demasiado.");
  g_assert_cmpstr (hs_show_data ("Write down how cold it is."), ==, "Anote qué frío hace.");
}

/* The plain words of verdicts have a context of their own: what comes from outside is another word. */
static void
test_verdicts (void)
{
  g_autoptr (GtkWidget) outside = g_object_ref_sink (hs_verdict_label_new ("outside", HS_VERDICT_SHAPE_HEAVY));
  g_autoptr (GtkWidget) own = g_object_ref_sink (hs_verdict_label_new ("my own word", HS_VERDICT_SHAPE_HEAVY));

  g_assert_cmpstr (hs_show_verdict ("within"), ==, "dentro");
  g_assert_cmpstr (hs_show_verdict ("outside"), ==, "fuera");
  g_assert_cmpstr (hs_show_verdict ("cannot tell"), ==, "no se sabe");
  g_assert_cmpstr (hs_show_verdict ("charge and test"), ==, "cargar y probar");
  g_assert_null (hs_show_verdict (NULL));
  g_assert_true (hs_app_test_says (outside, "fuera"));
  g_assert_true (hs_app_test_says (own, "my own word"));
}

static void
test_chain (void)
{
  static const HsTongue tongue = { gettext, ngettext };
  const HsChainFinding complaint = { .id = "c", .what = "no arranca", .role = HS_CHAIN_COMPLAINT };
  const HsChainFinding clamp = { .id = "b", .what = "A clamp is loose or corroded", .role = HS_CHAIN_CAUSE,
                                 .sure = HS_CHAIN_PROVEN, .end = HS_CHAIN_CURED };
  const HsChainLink link = { .id = "l", .effect_id = "c", .cause_id = "b", .by = HS_CHAIN_BY_EYE, .proof = "verde" };
  g_autoptr (HsChain) chain = hs_chain_new ();
  g_autoptr (GPtrArray) sentences = NULL;
  g_autofree char *said = NULL;

  hs_chain_put_finding (chain, &complaint);
  hs_chain_put_finding (chain, &clamp);
  g_assert_true (hs_chain_put_link (chain, &link, NULL));
  hs_chain_set_work (chain, TRUE, TRUE);
  sentences = hs_chain_list_sentences (chain, &tongue);
  said = g_strdup_printf ("El motivo de «no arranca»: %s (visto: verde); esto se arregló en esta visita.",
                          hs_show_data (clamp.what));
  g_assert_cmpstr (g_ptr_array_index (sentences, 0), ==, said);
}

static void
test_safety_line (void)
{
  HsSafetyLine line = { .id = (char *) "jack",
                        .words = (char *) "It is lifted on hard ground only, on stands, with the far wheels chocked.",
                        .caution = (char *) "My uncle said so.",
                        .source = (char *) "a manual",
                        .sure = (char *) "official text" };
  g_autoptr (GtkWidget) button = g_object_ref_sink (hs_safety_line_button_new (0));

  hs_safety_line_button_show (HS_SAFETY_LINE_BUTTON (button), &line);
  g_assert_true (hs_app_test_says (button, "Se levanta solo sobre suelo duro, en torres, con las ruedas opuestas "
                                           "calzadas."));
  g_assert_true (hs_app_test_says (button, "My uncle said so."));
}

int
main (int argc, char *argv[])
{
  char *folder;
  int result;

  g_setenv ("LANGUAGE", "es", TRUE);
  hs_app_test_init (&argc, &argv);
  /* The toolkit's tests begin in a locale without words of its own, in which nothing is translated. */
  g_assert_nonnull (setlocale (LC_ALL, "C.UTF-8"));
  folder = learn_spanish ();
  g_test_add_func ("/app/spanish/words", test_words);
  g_test_add_func ("/app/spanish/questions", test_questions);
  g_test_add_func ("/app/spanish/all-shipped", test_all_shipped);
  g_test_add_func ("/app/spanish/checks", test_checks);
  g_test_add_func ("/app/spanish/verdicts", test_verdicts);
  g_test_add_func ("/app/spanish/chain", test_chain);
  g_test_add_func ("/app/spanish/safety-line", test_safety_line);
  result = g_test_run ();
  forget_spanish (folder);
  return result;
}
