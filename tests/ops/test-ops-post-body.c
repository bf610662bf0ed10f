// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The message about a job: what stands in it of a demo job whose figures are known, and that nothing is told which is
 * held back. Whether it is as data/post/job.schema.json says is for tests/cli/test-cli-post-body.py. */

#include "hs-go-ahead.h"
#include "hs-json-strict.h"
#include "hs-photo-op.h"
#include "hs-post-body.h"
#include "ops-demo.h"
#include "ops-post.h"

#include <json-glib/json-glib.h>
#include <string.h>

#define ALL \
  (HsPostShow) (HS_POST_SHOW_PHONE | HS_POST_SHOW_STREET | HS_POST_SHOW_SIGNATURE | HS_POST_SHOW_PHOTOS \
                | HS_POST_SHOW_COSTS)

static char *
make (HsBook *book, const char *job_id, HsPostShow show)
{
  g_autoptr (GError) error = NULL;
  char *body = hs_post_body_make (book, job_id, 7, show, &error);

  g_assert_no_error (error);
  g_assert_null (strchr (body, '\n'));
  return body;
}

static JsonObject *
read_body (JsonParser *parser, const char *body)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (json_parser_load_from_data (parser, body, -1, &error));
  return json_node_get_object (json_parser_get_root (parser));
}

static gint64
sum (JsonObject *body, const char *array, const char *member)
{
  JsonArray *rows = json_object_get_array_member (body, array);
  gint64 minor = 0;

  for (guint i = 0; i < json_array_get_length (rows); i++)
    {
      JsonObject *money = json_object_get_object_member (json_array_get_object_element (rows, i), member);

      g_assert_cmpstr (json_object_get_string_member (money, "currency"), ==, "USD");
      minor += json_object_get_int_member (money, "minor");
    }
  return minor;
}

/* A-0004 of the demo: invoice 426.91 with tax 16.51 (labor 204.00, parts 206.40), paid. */
static void
test_figures (void)
{
  g_autofree char *id = ops_demo_job ("A-0004");
  g_autofree char *text = make (ops_demo_book (), id, HS_POST_SHOW_NOTHING);
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonObject *body = read_body (parser, text);
  JsonObject *job = json_object_get_object_member (body, "job");

  g_assert_cmpstr (json_object_get_string_member (body, "format"), ==, "halfshaft-job");
  g_assert_cmpint (json_object_get_int_member (body, "version"), ==, 1);
  g_assert_cmpint (json_object_get_int_member (body, "revision"), ==, 7);
  g_assert_cmpstr (json_object_get_string_member (body, "id"), ==, id);
  g_assert_cmpstr (json_object_get_string_member (body, "zone"), ==, "America/New_York");
  g_assert_cmpstr (json_object_get_string_member (job, "number"), ==, "A-0004");
  g_assert_cmpstr (json_object_get_string_member (job, "stage"), ==, "squared");
  g_assert_cmpstr (json_object_get_string_member (job, "van"), ==, "A");
  g_assert_cmpint (sum (body, "invoices", "total"), ==, 42691);
  g_assert_cmpint (sum (body, "invoices", "tax"), ==, 1651);
  g_assert_cmpint (sum (body, "lines", "price"), ==, 20400 + 20640);
  g_assert_cmpint (sum (body, "payments", "amount"), ==, 42691);
  g_assert_cmpuint (json_array_get_length (json_object_get_array_member (body, "held_back")), ==, 5);
}

/* A value that must not be in the message, by the row of the book that holds it. */
static const struct
{
  HsPostShow show;
  const char *what;
  const char *sql;
} kept[] = {
  { HS_POST_SHOW_PHONE, "phone", "UPDATE phone SET shown = '555-SECRET1'" },
  { HS_POST_SHOW_PHONE, "e-mail", "UPDATE customer SET email = 'SECRET2'" },
  { HS_POST_SHOW_STREET, "street", "UPDATE customer SET street = 'SECRET3'" },
  { HS_POST_SHOW_STREET, "gate code", "UPDATE customer SET access_note = 'SECRET4'" },
  { HS_POST_SHOW_STREET, "street of the job", "UPDATE job SET street = 'SECRET5' WHERE stage <> 'squared'" },
  { HS_POST_SHOW_STREET, "gate code of the job", "UPDATE job SET access_note = 'SECRET6' WHERE stage <> 'squared'" },
  { HS_POST_SHOW_COSTS, "what a line cost", "UPDATE line SET cost_cents = 98765431 WHERE job_id = 'JOB'" },
  { HS_POST_SHOW_NOTHING, "note on the customer", "UPDATE customer SET note = 'SECRET7'" },
  { HS_POST_SHOW_NOTHING, "note on the vehicle", "UPDATE vehicle SET note = 'SECRET8'" },
  { HS_POST_SHOW_NOTHING, "note on the job", "UPDATE job SET note = 'SECRET9' WHERE stage <> 'squared'" },
  { HS_POST_SHOW_NOTHING, "where she buys",
    "UPDATE installed_part SET supplier_bill = 'SECRET10' WHERE job_id = 'JOB'" },
};

static gboolean
tells (const char *text)
{
  return strstr (text, "SECRET") != NULL || strstr (text, "98765431") != NULL;
}

/* A job of the demo that is open and has lines and parts of its own. */
static char *
make_open_job (Wire *wire)
{
  char *id = hs_ops_test_id (wire->test, "SELECT id FROM job WHERE stage <> 'squared' AND customer_id IN"
                                         " (SELECT customer_id FROM phone) ORDER BY number LIMIT 1");
  g_autofree char *rows = g_strdup_printf (
    "INSERT INTO line (id, job_id, kind, what, price_cents) VALUES ('6e0b1c1e-0000-4000-8000-000000000001', '%s',"
    " 'part', 'bulb', 100);"
    "INSERT INTO installed_part (id, vehicle_id, job_id, kind, what, installed_on, known_by, place) VALUES"
    " ('6e0b1c1e-0000-4000-8000-000000000002', (SELECT id FROM vehicle LIMIT 1), '%s', 'lamp', 'bulb', '2026-03-10',"
    " 'we_installed_it', 'test')", id, id);

  hs_ops_test_run (wire->test, rows);
  return id;
}

static void
test_held_back (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autofree char *id = make_open_job (wire);

  for (guint i = 0; i < G_N_ELEMENTS (kept); i++)
    {
      GString *sql = g_string_new (kept[i].sql);
      g_autofree char *query = NULL;
      g_autofree char *without = NULL;
      g_autofree char *with = NULL;
      g_autofree char *reset = NULL;
      g_autofree char *all = NULL;

      g_string_replace (sql, "JOB", id, 0);
      query = g_string_free (sql, FALSE);
      hs_ops_test_run (wire->test, query);
      without = make (wire->book, id, (HsPostShow) (ALL & ~(guint) kept[i].show));
      with = make (wire->book, id, kept[i].show);
      all = make (wire->book, id, ALL);
      g_test_message ("%s", kept[i].what);
      g_assert_cmpint (tells (without), ==, FALSE);
      g_assert_cmpint (tells (with), ==, kept[i].show != HS_POST_SHOW_NOTHING);
      g_assert_cmpint (tells (all), ==, kept[i].show != HS_POST_SHOW_NOTHING);
      hs_ops_test_run (wire->test,
                       "UPDATE phone SET shown = digits; UPDATE customer SET email = NULL, street = NULL, access_note ="
                       " NULL, note = NULL; UPDATE vehicle SET note = NULL; UPDATE job SET street = NULL, access_note ="
                       " NULL, note = NULL WHERE stage <> 'squared'; UPDATE line SET cost_cents = 0 WHERE id LIKE"
                       " '6e0b1c1e%'");
    }
}

/* A call may be taken with a position in place of an area: that is closer than any street. An area is none, whatever
 * its code looks like. */
static void
test_position (void)
{
  static const struct
  {
    const char *code;
    gboolean street;
  } rows[] = { { "41.40338,-81.17403", TRUE }, { "-1.00000,2.50000", TRUE }, { "N1-2", FALSE }, { "T", FALSE } };
  g_autoptr (Wire) wire = wire_open ();
  g_autofree char *id = make_open_job (wire);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *sql = g_strdup_printf (
        "INSERT OR IGNORE INTO area (id, name) VALUES ('%s', '%s'); UPDATE customer SET area_id = '%s';"
        "UPDATE job SET area_id = '%s' WHERE id = '%s'", rows[i].code, rows[i].code, rows[i].code, rows[i].code, id);
      g_autofree char *told = g_strdup_printf ("\"area_id\":\"%s\"", rows[i].code);
      g_autofree char *without = NULL;
      g_autofree char *with = NULL;

      hs_ops_test_run (wire->test, sql);
      without = make (wire->book, id, (HsPostShow) (ALL & ~(guint) HS_POST_SHOW_STREET));
      with = make (wire->book, id, HS_POST_SHOW_STREET);
      g_assert_cmpint (strstr (without, told) != NULL, ==, !rows[i].street);
      g_assert_nonnull (strstr (with, told));
      if (!rows[i].street)
        continue;
      g_assert_null (strstr (without, rows[i].code));
      g_assert_nonnull (strstr (without, "\"area_id\":null,\"area_name\":null}"));
      g_assert_nonnull (strstr (with, "\"area_name\":\""));
    }
}

/* A signature and a photo as bytes, only if they are shown. */
static void
test_bytes (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autofree char *id = make_open_job (wire);
  g_autofree char *sql = g_strdup_printf (
    "INSERT INTO go_ahead (id, job_id, ceiling_cents, by_whom, at, means, signature) VALUES"
    " ('6e0b1c1e-0000-4000-8000-000000000003', '%s', 100, 'Rue', 5, 'signed_on_screen', X'00FF10');"
    "INSERT INTO photo_file (id, media_type, bytes, width, height) VALUES"
    " ('9834876dcfb05cb167a5c24953eba58c4ac89b1adf57f28f2f9d09af107ee8f0', 'image/png', 3, 1, 1);"
    "INSERT INTO photo_chunk (file_id, n, data) VALUES"
    " ('9834876dcfb05cb167a5c24953eba58c4ac89b1adf57f28f2f9d09af107ee8f0', 0, CAST ('aaa' AS BLOB));"
    "INSERT INTO photo (id, job_id, file_id, phase, added_at) VALUES ('6e0b1c1e-0000-4000-8000-000000000004', '%s',"
    " '9834876dcfb05cb167a5c24953eba58c4ac89b1adf57f28f2f9d09af107ee8f0', 'before', 5),"
    " ('6e0b1c1e-0000-4000-8000-000000000005', '%s',"
    " '0000000000000000000000000000000000000000000000000000000000000000', 'after', 5)", id, id, id);
  g_autofree char *without = NULL;
  g_autofree char *with = NULL;

  hs_ops_test_run (wire->test, sql);
  without = make (wire->book, id, HS_POST_SHOW_NOTHING);
  g_assert_null (strstr (without, "AP8Q"));
  g_assert_null (strstr (without, "photos\":["));
  with = make (wire->book, id, ALL);
  g_assert_nonnull (strstr (with, "\"signature\":\"AP8Q\""));
  g_assert_nonnull (strstr (with, "\"media_type\":\"image/png\",\"data\":\"YWFh\""));
  g_assert_nonnull (strstr (with, "\"media_type\":null,\"data\":null"));
  g_assert_nonnull (strstr (with, "\"held_back\":[]"));
}

/* Whatever signs somebody pasted or imported, it is JSON to the letter and reads back as it was. */
static void
test_signs (void)
{
  g_autoptr (Wire) wire = wire_open ();
  g_autofree char *id = make_open_job (wire);

  for (guint sign = 1; sign < 0xa1; sign++)
    {
      g_autofree char *sql = g_strdup_printf (
        "UPDATE job SET words = 'a' || char (%u) || char (%u) || 'b\\u001f' WHERE id = '%s'", sign, sign, id);
      g_autofree char *said = NULL;
      g_autofree char *text = NULL;
      g_autoptr (JsonParser) parser = json_parser_new ();
      g_autoptr (GError) error = NULL;
      JsonObject *job;

      hs_ops_test_run (wire->test, sql);
      said = hs_ops_test_id (wire->test, "SELECT words FROM job WHERE words LIKE 'a__b%'");
      text = make (wire->book, id, HS_POST_SHOW_NOTHING);
      hs_json_strict_check ("the message", text, strlen (text), &error);
      g_assert_no_error (error);
      job = json_object_get_object_member (read_body (parser, text), "job");
      g_assert_cmpstr (json_object_get_string_member (job, "words"), ==, said);
    }
}

static void
test_no_job (void)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (hs_post_body_make (ops_demo_book (), "none", 1, HS_POST_SHOW_NOTHING, &error));
  g_assert_error (error, HS_STORE_ERROR, HS_STORE_ERROR_NOT_FOUND);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ops/post-body/figures", test_figures);
  g_test_add_func ("/ops/post-body/held-back", test_held_back);
  g_test_add_func ("/ops/post-body/position", test_position);
  g_test_add_func ("/ops/post-body/bytes", test_bytes);
  g_test_add_func ("/ops/post-body/signs", test_signs);
  g_test_add_func ("/ops/post-body/no-job", test_no_job);
  return ops_demo_run ();
}
