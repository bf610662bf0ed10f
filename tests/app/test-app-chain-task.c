// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Telling a cause step by step: which step follows which, what a digit chooses, what is refused at once, and that a
 * task comes back from its text as it went in. */

#include "hs-chain-task.h"

#include <string.h>

static HsChainOffer *
offer (const char *id, const char *words)
{
  HsChainOffer *made = g_new0 (HsChainOffer, 1);

  made->id = g_strdup (id);
  made->words = g_strdup (words);
  return made;
}

static void
offer_free (gpointer data)
{
  HsChainOffer *made = data;

  g_free (made->id);
  g_free (made->words);
  g_free (made->note);
  g_free (made);
}

static HsAnswerLine *
line (const char *id, const char *words, const char *answers)
{
  HsAnswerLine *made = g_new0 (HsAnswerLine, 1);

  made->id = g_strdup (id);
  made->words = g_strdup (words);
  made->answers = answers != NULL ? g_strsplit (answers, "|", -1) : NULL;
  made->again = TRUE;
  return made;
}

/* Two findings, two usual reasons, a reading; a photo comes later. */
static HsChainShot *
shot_new (void)
{
  HsChainShot *shot = g_new0 (HsChainShot, 1);

  shot->offers = g_new0 (HsChainOffers, 1);
  shot->offers->findings = g_ptr_array_new_with_free_func (offer_free);
  shot->offers->reasons = g_ptr_array_new_with_free_func (offer_free);
  shot->offers->readings = g_ptr_array_new_with_free_func (offer_free);
  shot->offers->photos = g_ptr_array_new_with_free_func (offer_free);
  shot->offers->customer = g_strdup ("Bram Hark");
  g_ptr_array_add (shot->offers->findings, offer ("f1", "battery flat"));
  g_ptr_array_add (shot->offers->findings, offer ("f2", "belt wet"));
  g_ptr_array_add (shot->offers->reasons, offer ("belt", "Belt slips"));
  g_ptr_array_add (shot->offers->reasons, offer ("ground", "Ground bad"));
  g_ptr_array_add (shot->offers->readings, offer ("r1", "Charging 12.30 V"));
  shot->answers = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_answer_line_free);
  g_ptr_array_add (shot->answers, line ("heater", "Heater hot or cold?", "hot|cold"));
  g_ptr_array_add (shot->answers, line ("parked", "Parked how long?", NULL));
  return shot;
}

/* What can be chosen, with | between. */
static void
assert_list (const HsChainTask *task, const HsChainShot *shot, const char *expected)
{
  g_autoptr (GPtrArray) list = hs_chain_task_list (task, shot);
  g_autoptr (GString) told = g_string_new (NULL);

  for (guint i = 0; i < list->len; i++)
    g_string_append_printf (told, "%s%s", i > 0 ? "|" : "", (const char *) g_ptr_array_index (list, i));
  g_assert_cmpstr (told->str, ==, expected);
}

static void
say (HsChainTask *task, const char *text)
{
  g_autoptr (GError) error = NULL;

  hs_chain_task_say (task, text, &error);
  g_assert_no_error (error);
}

static void
pick (HsChainTask *task, const HsChainShot *shot, guint digit)
{
  g_autoptr (GError) error = NULL;

  hs_chain_task_pick (task, shot, digit - 1, &error);
  g_assert_no_error (error);
}

/* Each way through: "w:words" is said, a digit is picked; what comes out. */
static void
test_ways (void)
{
  static const struct
  {
    HsChainTaskKind kind;
    int by;
    const char *way;
    const char *finding, *cause, *what, *reading, *proof, *who;
    int then_by;
  } rows[] = {
    { HS_CHAIN_TASK_BECAUSE, -1, "w:belt glazed/3/w:it shines", NULL, NULL, "belt glazed", NULL, "it shines", NULL,
      HS_CHAIN_BY_EYE },
    { HS_CHAIN_TASK_BECAUSE, -1, "1/1/1", "f2", NULL, "belt wet", "r1", NULL, NULL, HS_CHAIN_BY_READING },
    { HS_CHAIN_TASK_BECAUSE, -1, "2/1/1", NULL, "belt", "Belt slips", "r1", NULL, NULL, HS_CHAIN_BY_READING },
    { HS_CHAIN_TASK_BECAUSE, -1, "w:plain water/4/w:plain water/w:Bram", NULL, NULL, "plain water", NULL,
      "plain water", "Bram", HS_CHAIN_BY_WORD },
    /* A finding that is there has its own words and needs nobody's name. */
    { HS_CHAIN_TASK_BECAUSE, -1, "1/4/w:he saw it", "f2", NULL, "belt wet", NULL, "he saw it", NULL, HS_CHAIN_BY_WORD },
    /* The proof first. */
    { HS_CHAIN_TASK_BECAUSE, HS_CHAIN_BY_EYE, "w:belt glazed/w:it shines", NULL, NULL, "belt glazed", NULL,
      "it shines", NULL, HS_CHAIN_BY_EYE },
    /* What is ruled out is no finding that is there. */
    { HS_CHAIN_TASK_RULE_OUT, -1, "2/3/w:14.2 V", NULL, "ground", "Ground bad", NULL, "14.2 V", NULL, HS_CHAIN_BY_EYE },
    /* Back to the beginning, and another way on. */
    { HS_CHAIN_TASK_BECAUSE, -1, "2/3/-/-/w:belt off/1/1", NULL, NULL, "belt off", "r1", NULL, NULL,
      HS_CHAIN_BY_READING },
  };
  HsChainShot *shot = shot_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsChainTask) task = hs_chain_task_new (rows[i].kind, "f1", "battery flat", rows[i].by);
      g_auto (GStrv) way = g_strsplit (rows[i].way, "/", -1);

      for (guint k = 0; way[k] != NULL; k++)
        if (g_str_has_prefix (way[k], "w:"))
          say (task, way[k] + 2);
        else if (g_str_equal (way[k], "-"))
          g_assert_true (hs_chain_task_back (task));
        else
          pick (task, shot, (guint) (way[k][0] - '0'));
      g_assert_cmpint (task->step, ==, HS_CHAIN_STEP_DONE);
      g_assert_cmpstr (task->finding_id, ==, rows[i].finding);
      g_assert_cmpstr (task->cause_id, ==, rows[i].cause);
      g_assert_cmpstr (task->what, ==, rows[i].what);
      g_assert_cmpstr (task->reading_id, ==, rows[i].reading);
      g_assert_cmpstr (task->proof, ==, rows[i].proof);
      g_assert_cmpstr (task->who, ==, rows[i].who);
      g_assert_cmpint (task->by, ==, rows[i].then_by);
    }
  hs_chain_shot_free (shot);
}

/* A photo says what there is to see. */
static void
test_photo (void)
{
  HsChainShot *shot = shot_new ();
  g_autoptr (HsChainTask) task = hs_chain_task_new (HS_CHAIN_TASK_BECAUSE, "f1", "battery flat", HS_CHAIN_BY_PHOTO);

  g_ptr_array_add (shot->offers->photos, offer ("p1", "IMG_1.jpg"));
  g_ptr_array_add (shot->offers->photos, offer ("p2", "the clamp, green"));
  say (task, "clamp loose");
  assert_list (task, shot, "IMG_1.jpg|the clamp, green");
  pick (task, shot, 2);
  g_assert_cmpint (task->step, ==, HS_CHAIN_STEP_DONE);
  g_assert_cmpstr (task->photo_id, ==, "p2");
  g_assert_cmpstr (task->proof, ==, "the clamp, green");
  hs_chain_shot_free (shot);
}

/* Round through what is asked again, and round again. */
static void
test_turn (void)
{
  HsChainShot *shot = shot_new ();
  g_autoptr (HsChainTask) task = hs_chain_task_new_ask (g_ptr_array_index (shot->answers, 1));
  HsAnswerLine *phone = line ("spot", "Street?", NULL);

  phone->again = FALSE;
  g_ptr_array_insert (shot->answers, 1, phone);
  g_assert_true (hs_chain_task_turn (task, shot));
  g_assert_cmpstr (task->question_id, ==, "heater");
  g_assert_cmpstr (task->effect, ==, "Heater hot or cold?");
  g_assert_true (hs_chain_task_turn (task, shot));
  g_assert_cmpstr (task->question_id, ==, "parked");
  say (task, "a week");
  g_assert_false (hs_chain_task_turn (task, shot));
  hs_chain_shot_free (shot);
}

/* Nothing explains itself; a ruled-out cause is chosen among the reasons alone. */
static void
test_lists (void)
{
  HsChainShot *shot = shot_new ();
  g_autoptr (HsChainTask) because = hs_chain_task_new (HS_CHAIN_TASK_BECAUSE, "f1", "battery flat", -1);
  g_autoptr (HsChainTask) first = hs_chain_task_new (HS_CHAIN_TASK_BECAUSE, NULL, "dead", -1);
  g_autoptr (HsChainTask) cut = hs_chain_task_new (HS_CHAIN_TASK_RULE_OUT, "f1", "battery flat", -1);

  assert_list (because, shot, "belt wet|Belt slips|Ground bad");
  assert_list (first, shot, "battery flat|belt wet|Belt slips|Ground bad");
  assert_list (cut, shot, "Belt slips|Ground bad");
  /* What is known of a usual reason stands below it; a finding has nothing to say but itself. */
  ((HsChainOffer *) g_ptr_array_index (shot->offers->reasons, 1))->note = g_strdup ("possible");
  g_assert_cmpstr (hs_chain_task_get_note (because, shot, 2), ==, "possible");
  g_assert_cmpstr (hs_chain_task_get_note (cut, shot, 1), ==, "possible");
  g_assert_null (hs_chain_task_get_note (cut, shot, 0));
  g_assert_null (hs_chain_task_get_note (because, shot, 0));
  g_assert_null (hs_chain_task_get_note (because, shot, 9));
  pick (cut, shot, 1);
  assert_list (cut, shot, "Read|Photo|Seen|Said");
  pick (cut, shot, 1);
  assert_list (cut, shot, "Charging 12.30 V");
  hs_chain_shot_free (shot);
}

static void
test_refused (void)
{
  HsChainShot *shot = shot_new ();
  g_autoptr (HsChainTask) task = hs_chain_task_new (HS_CHAIN_TASK_BECAUSE, "f1", "battery flat", -1);
  g_autoptr (GError) error = NULL;

  g_assert_false (hs_chain_task_say (task, "  ", &error));
  g_assert_cmpstr (error->message, ==, "A finding needs words: say what it is.");
  g_clear_error (&error);
  g_assert_false (hs_chain_task_pick (task, shot, 3, &error));
  g_assert_nonnull (strstr (error->message, "Nothing stands under that digit"));
  g_clear_error (&error);
  g_assert_cmpint (task->step, ==, HS_CHAIN_STEP_CAUSE);
  g_assert_false (hs_chain_task_back (task));
  say (task, "belt");
  g_assert_false (hs_chain_task_pick (task, shot, HS_CHAIN_BY_PHOTO, &error));
  g_assert_nonnull (strstr (error->message, "There is no photo on this job yet"));
  g_clear_error (&error);
  g_assert_false (hs_chain_task_say (task, "words", &error));
  g_assert_nonnull (strstr (error->message, "One digit chooses here"));
  g_clear_error (&error);
  g_ptr_array_set_size (shot->offers->readings, 0);
  g_assert_false (hs_chain_task_pick (task, shot, HS_CHAIN_BY_READING, &error));
  g_assert_nonnull (strstr (error->message, "There is no reading on this job yet"));
  g_assert_cmpint (task->step, ==, HS_CHAIN_STEP_KIND);
  /* An empty proof goes to the book: its rule has the words. Refused there, the same is asked again. */
  pick (task, shot, 3);
  say (task, "");
  g_assert_cmpint (task->step, ==, HS_CHAIN_STEP_DONE);
  hs_chain_task_reopen (task);
  g_assert_cmpint (task->step, ==, HS_CHAIN_STEP_SEEN);
  hs_chain_shot_free (shot);
}

/* What somebody says is usually the cause, and it is usually the customer. */
static void
test_presets (void)
{
  HsChainShot *shot = shot_new ();
  g_autoptr (HsChainTask) task = hs_chain_task_new (HS_CHAIN_TASK_BECAUSE, "f1", "battery flat", -1);
  g_autofree char *said = NULL, *who = NULL, *title = NULL, *told = NULL;

  say (task, "plain water");
  pick (task, shot, 4);
  said = hs_chain_task_dup_preset (task, shot);
  g_assert_cmpstr (said, ==, "plain water");
  say (task, said);
  who = hs_chain_task_dup_preset (task, shot);
  title = hs_chain_task_dup_title (task);
  told = hs_chain_task_dup_told (task);
  g_assert_cmpstr (who, ==, "Bram Hark");
  g_assert_cmpstr (title, ==, "Who said it?");
  g_assert_cmpstr (told, ==, "“plain water” is behind “battery flat”");
  hs_chain_shot_free (shot);
}

static void
test_ask (void)
{
  HsChainShot *shot = shot_new ();
  g_autoptr (HsChainTask) heater = hs_chain_task_new_ask (g_ptr_array_index (shot->answers, 0));
  g_autoptr (HsChainTask) parked = hs_chain_task_new_ask (g_ptr_array_index (shot->answers, 1));
  g_autoptr (GError) error = NULL;

  assert_list (heater, shot, "hot|cold");
  assert_list (parked, shot, "");
  pick (heater, shot, 2);
  g_assert_cmpstr (heater->answer, ==, "2");
  g_assert_cmpint (heater->step, ==, HS_CHAIN_STEP_WHO);
  g_assert_true (hs_chain_task_back (heater));
  say (heater, "lukewarm");
  say (heater, " ");
  g_assert_cmpstr (heater->answer, ==, "lukewarm");
  g_assert_null (heater->who);
  g_assert_cmpint (heater->step, ==, HS_CHAIN_STEP_DONE);
  hs_chain_task_reopen (heater);
  g_assert_cmpint (heater->step, ==, HS_CHAIN_STEP_ANSWER);
  g_assert_false (hs_chain_task_say (parked, "", &error));
  g_assert_nonnull (strstr (error->message, "An answer needs words"));
  hs_chain_shot_free (shot);
}

/* A task and what stands in the field, in any words, and texts that are none. */
static void
test_round_trip (void)
{
#define NONE6 "nothing, nothing, nothing, nothing, nothing, nothing"
  static const char *const bad[] = {
    "", "(", "(0, 0)", "nonsense",
    "(uint32 9, uint32 0, nothing, '', nothing, nothing, nothing, -1, " NONE6 ", '')",
    "(uint32 0, uint32 0, nothing, '', nothing, nothing, nothing, 7, " NONE6 ", '')",
    "(uint32 0, uint32 8, nothing, '', nothing, nothing, nothing, -1, " NONE6 ", '')",
  };
  HsChainShot *shot = shot_new ();
  g_autoptr (HsChainTask) task = hs_chain_task_new (HS_CHAIN_TASK_RULE_OUT, NULL, "“dead”, it's said\n", -1);
  g_autoptr (HsChainTask) again = NULL;
  g_autofree char *text = NULL, *typed = NULL;

  pick (task, shot, 1);
  pick (task, shot, 3);
  text = hs_chain_task_write (task, "14.2 'V' so");
  again = hs_chain_task_read (text, &typed);
  g_assert_nonnull (again);
  g_assert_cmpstr (typed, ==, "14.2 'V' so");
  g_assert_cmpint (again->kind, ==, HS_CHAIN_TASK_RULE_OUT);
  g_assert_cmpint (again->step, ==, HS_CHAIN_STEP_SEEN);
  g_assert_cmpstr (again->effect, ==, "“dead”, it's said\n");
  g_assert_null (again->effect_id);
  g_assert_cmpstr (again->cause_id, ==, "belt");
  g_assert_cmpstr (again->what, ==, "Belt slips");
  g_assert_cmpint (again->by, ==, HS_CHAIN_BY_EYE);
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *none = NULL;

      g_assert_null (hs_chain_task_read (bad[i], &none));
      g_assert_null (none);
    }
  hs_chain_task_free (NULL);
  hs_chain_shot_free (shot);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chain-task/ways", test_ways);
  g_test_add_func ("/chain-task/photo", test_photo);
  g_test_add_func ("/chain-task/turn", test_turn);
  g_test_add_func ("/chain-task/lists", test_lists);
  g_test_add_func ("/chain-task/refused", test_refused);
  g_test_add_func ("/chain-task/presets", test_presets);
  g_test_add_func ("/chain-task/ask", test_ask);
  g_test_add_func ("/chain-task/round-trip", test_round_trip);
  return g_test_run ();
}
