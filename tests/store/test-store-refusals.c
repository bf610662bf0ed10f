// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every rule that the book keeps by itself, tried past the store on bare connections: once with the settings of the
 * store and once with those of any other program. Nothing of a refused change may stay. */

#include <string.h>

#include "book.h"
#include "hs-migrate.h"
#include "hs-words.h"
#include "refusals.h"

typedef struct
{
  const Refusal *refusal;
  gboolean plain;
} Case;

static sqlite3 *
world (gboolean plain)
{
  g_autoptr (GError) error = NULL;
  sqlite3 *db = test_connect (":memory:", plain);

  g_assert_true (hs_migrate (db, NULL, hs_migrations, hs_n_migrations, &error));
  test_run (db, test_on_site_world_sql);
  return db;
}

static void
try_refusal (gconstpointer data)
{
  const Case *each = data;
  const Refusal *refusal = each->refusal;
  sqlite3 *db = world (each->plain);
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  int rc;

  if (refusal->before != NULL)
    test_run (db, refusal->before);
  before = test_dump (db);
  rc = sqlite3_exec (db, refusal->refused, NULL, NULL, NULL);
  if (rc == SQLITE_OK)
    g_test_fail_printf ("accepted: %s", refusal->refused);
  else if (strstr (sqlite3_errmsg (db), refusal->says) == NULL)
    g_test_fail_printf ("said “%s”, not “%s”", sqlite3_errmsg (db), refusal->says);
  after = test_dump (db);
  if (rc != SQLITE_OK && !g_str_equal (after, before))
    g_test_fail_printf ("refused, but something stayed: %s", refusal->refused);
  g_assert_cmpint (sqlite3_close (db), ==, SQLITE_OK);
}

static void
try_allowed (gconstpointer data)
{
  const Allowed *each = data;
  sqlite3 *db = world (FALSE);
  g_autofree char *before = test_dump (db);
  g_autofree char *after = NULL;

  test_run (db, each->sql);
  after = test_dump (db);
  g_assert_cmpstr (after, !=, before);
  g_assert_cmpint (test_int (db, "SELECT count (*) FROM pragma_foreign_key_check"), ==, 0);
  g_assert_cmpint (sqlite3_close (db), ==, SQLITE_OK);
}

/* The lists of the file and of the program are the same words: each is accepted, and nothing else. */
static const struct
{
  HsWords words;
  const char *update;
} lists[] = {
  { HS_WORDS_JOB_KIND,
    "UPDATE job SET kind = ?1, follows_job_id = 'squared', return_why = 'not_decided' WHERE id = 'open'" },
  { HS_WORDS_STAGE,
    "UPDATE job SET stage = ?1, turned_away_why = 'x', called_off_why = 'x' WHERE id = 'open2'" },
  { HS_WORDS_RETURN_WHY, "UPDATE job SET return_why = ?1 WHERE id = 'open'" },
  { HS_WORDS_SAFE_TO_DRIVE, "UPDATE job SET safe_to_drive = ?1 WHERE id = 'open'" },
  { HS_WORDS_CUSTOMER_KIND, "UPDATE customer SET kind = ?1" },
  { HS_WORDS_FUEL, "UPDATE vehicle SET fuel = ?1" },
  { HS_WORDS_BATTERY_KIND, "UPDATE vehicle SET battery_kind = ?1" },
  { HS_WORDS_BATTERY_KIND, "UPDATE installed_part SET kind = 'battery', battery_kind = ?1 WHERE id = 'i-open'" },
  { HS_WORDS_ODOMETER_UNIT, "UPDATE vehicle SET odometer_unit = ?1" },
  { HS_WORDS_KNOWN_BY, "UPDATE installed_part SET known_by = ?1 WHERE id = 'i-open'" },
  { HS_WORDS_CORE_PLACE, "UPDATE core SET where_now = ?1, credit_ref = 'x'" },
  { HS_WORDS_SIGNAL, "UPDATE area SET signal = ?1" },
  { HS_WORDS_PHASE, "UPDATE reading SET phase = ?1 WHERE id = 'r-open2'" },
  { HS_WORDS_MEANS, "UPDATE advice SET means = ?1 WHERE id = 'a-open'" },
  { HS_WORDS_MEANS, "INSERT INTO go_ahead (id, job_id, ceiling_cents, by_whom, at, means)"
                    " VALUES (hex (randomblob (8)), 'open', 1, 'x', 1, ?1)" },
  { HS_WORDS_CHOICE, "UPDATE advice SET choice = ?1, risk_told = 'x' WHERE id = 'a-open'" },
  { HS_WORDS_NEED_STATE, "INSERT INTO need (id, job_id, part_id, state)"
                         " VALUES (hex (randomblob (8)), 'open', 'b', ?1)" },
  { HS_WORDS_LINE_KIND, "UPDATE line SET kind = ?1 WHERE id = 'l-open'" },
  { HS_WORDS_PAID_HOW, "INSERT INTO payment (id, job_id, at, cents, how)"
                       " VALUES (hex (randomblob (8)), 'open', 1, 1, ?1)" },
  { HS_WORDS_STOCK_WHY, "INSERT INTO stock_move (id, van_id, part_id, quantity_milli, why, at)"
                        " VALUES (hex (randomblob (8)), 'va', 'b', 1, ?1, 1)" },
  { HS_WORDS_FOLLOW_UP, "INSERT INTO chase (id, kind, due_on) VALUES (hex (randomblob (8)), ?1, '2026-03-10')" },
  { HS_WORDS_FINDING_ROLE, "UPDATE finding SET role = ?1 WHERE id = 'f-open'" },
  { HS_WORDS_SURE, "UPDATE finding SET sure = ?1 WHERE id = 'f-open'" },
  { HS_WORDS_WEIGHT, "UPDATE finding SET weight = ?1 WHERE id = 'f-open'" },
  { HS_WORDS_PURPOSE, "INSERT INTO trip (id, van_id, on_date, millimiles, purpose)"
                      " VALUES (hex (randomblob (8)), 'va', '2026-03-10', 1, ?1)" },
  { HS_WORDS_ENDED, "UPDATE finding SET ended = ?1, told_at = 1 WHERE id = 'f-open'" },
  { HS_WORDS_PROOF,
    "INSERT INTO because (id, job_id, effect_id, cause_id, proof, proof_kind, reading_id, photo_id)"
    " VALUES ('z', 'open2', 'g-open2', 'h-open2', 'x', ?1, 'r-open2', 'p-open2')" },
  { HS_WORDS_SAFETY_ANSWER, "INSERT INTO safety (id, visit_id, item, answer, why, at)"
                            " VALUES ('z', 'vi-open2', 'z', ?1, 'x', 1)" },
  { HS_WORDS_SAW_IT, "UPDATE job SET saw_it = ?1 WHERE id = 'open'" },
  { HS_WORDS_CALLED_OFF_HOW, "UPDATE job SET called_off_how = ?1 WHERE id = 'open'" },
  { HS_WORDS_OLD_PART, "UPDATE installed_part SET old_part = ?1 WHERE id = 'i-open'" },
  { HS_WORDS_PHASE, "UPDATE photo SET phase = ?1 WHERE id = 'p-open'" },
  { HS_WORDS_LINE_KIND, "UPDATE advice_line SET kind = ?1 WHERE id = 'al-open'" },
  { HS_WORDS_NOTE_TOPIC, "INSERT INTO model_note (id, make, model, topic, words, at)"
                         " VALUES (hex (randomblob (8)), 'x', 'x', ?1, 'x', 1)" },
};

static int
try_word (sqlite3 *db, const char *update, const char *word)
{
  sqlite3_stmt *stmt = NULL;
  int rc;

  test_run (db, "SAVEPOINT word");
  g_assert_cmpint (sqlite3_prepare_v2 (db, update, -1, &stmt, NULL), ==, SQLITE_OK);
  g_assert_cmpint (sqlite3_bind_text (stmt, 1, word, -1, SQLITE_STATIC), ==, SQLITE_OK);
  rc = sqlite3_step (stmt);
  sqlite3_finalize (stmt);
  test_run (db, "ROLLBACK TO word; RELEASE word");
  return rc;
}

static void
test_words (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      sqlite3 *db = world (FALSE);
      gsize n_words;
      const HsWord *words = hs_words_get (lists[i].words, &n_words);

      for (gsize j = 0; j < n_words; j++)
        {
          int rc = try_word (db, lists[i].update, words[j].id);

          if (rc != SQLITE_DONE)
            g_assert_cmpstr (words[j].id, ==, lists[i].update);
        }
      g_assert_cmpint (try_word (db, lists[i].update, "nonsense"), ==, SQLITE_CONSTRAINT);
      g_assert_cmpint (sqlite3_close (db), ==, SQLITE_OK);
    }
}

static void
add_refusals (const char *group, const Refusal *refusals, guint n)
{
  for (guint i = 0; i < n; i++)
    for (int plain = 0; plain <= (refusals[i].plain ? 1 : 0); plain++)
      {
        g_autofree char *slug = g_strdelimit (g_strdup (refusals[i].name), " /", '-');
        g_autofree char *path = g_strdup_printf ("/store/%s/%s/%s", group, plain ? "plain" : "house", slug);
        Case *each = g_new (Case, 1);

        *each = (Case) { &refusals[i], plain };
        g_test_add_data_func_full (path, each, try_refusal, g_free);
      }
}

static void
add_allowed (const Allowed *list, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *slug = g_strdelimit (g_strdup (list[i].name), " /", '-');
      g_autofree char *path = g_strdup_printf ("/store/allowed/%s", slug);

      g_test_add_data_func (path, &list[i], try_allowed);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add_refusals ("closing", closing_refusals, n_closing_refusals);
  add_refusals ("standing", standing_refusals, n_standing_refusals);
  add_refusals ("on-site", on_site_refusals, n_on_site_refusals);
  add_refusals ("outbox", outbox_refusals, n_outbox_refusals);
  add_refusals ("kept", kept_refusals, n_kept_refusals);
  add_allowed (allowed, n_allowed);
  add_allowed (on_site_allowed, n_on_site_allowed);
  g_test_add_func ("/store/words", test_words);
  return g_test_run ();
}
