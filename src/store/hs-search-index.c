// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The documents that a search looks through: one for each vehicle and owner, for a vehicle without one, and for a
 * customer without one. A document holds folded words, and the endings of what people know only the end of:
 * phones, VINs and plates. Its number grows when the vehicle is seen, and the present owner's is the highest of a
 * vehicle, so reading backward gives the newest first and the present owner first. The row hooks note what
 * changed; the documents are written once, before the commit. */

#include "hs-search-index.h"

#include <string.h>

#include "hs-ident.h"
#include "hs-sql.h"
#include "hs-search.h"
#include "hs-text.h"

#define LEAST_PHONE_TAIL 4
#define LEAST_VIN_TAIL 4
#define MOST_VIN_TAIL 8

static void
add_words (GString *words, const char *text)
{
  g_autofree char *folded = text == NULL ? NULL : hs_text_fold (text);

  if (folded != NULL && folded[0] != '\0')
    g_string_append_printf (words, "%s ", folded);
}

static void
add_tails (GString *words, const char *word, guint least, guint most)
{
  g_auto (GStrv) tails = hs_text_tails (word, least);

  for (guint i = 0; tails[i] != NULL; i++)
    if (strlen (tails[i]) <= most)
      g_string_append_printf (words, "%s ", tails[i]);
}

static void
add_plate (GString *words, const char *plate)
{
  g_autofree char *key = plate == NULL ? NULL : hs_plate_normalize (plate);
  g_autofree char *folded = key == NULL ? NULL : hs_text_fold (key);

  if (folded != NULL)
    add_tails (words, folded, 1, G_MAXUINT);
}

/* Calls @add for the first column of every row. */
static gboolean
add_rows (GString *words, HsSql *query, void (*add) (GString *words, const char *text), GError **error)
{
  gboolean row = TRUE;

  if (query == NULL)
    return FALSE;
  while (row)
    {
      if (!hs_sql_step (query, &row, error))
        return FALSE;
      if (row)
        add (words, hs_sql_text (query, 0));
    }
  return TRUE;
}

static void
add_phone (GString *words, const char *digits)
{
  add_tails (words, digits, LEAST_PHONE_TAIL, G_MAXUINT);
  if (strlen (digits) < LEAST_PHONE_TAIL)
    add_words (words, digits);
}

static gboolean
add_vehicle (HsStore *store, GString *words, const char *vehicle_id, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        "SELECT plate, vin, make, model, year FROM vehicle WHERE id = ?1", "t",
                                        vehicle_id);
  g_autoptr (HsSql) plates = hs_sql_new (store, error, "SELECT plate FROM old_plate WHERE vehicle_id = ?1", "t",
                                         vehicle_id);
  g_autofree char *vin = NULL;
  gboolean row;

  if (query == NULL || plates == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  if (!row)
    return TRUE;
  add_plate (words, hs_sql_text (query, 0));
  vin = hs_sql_text (query, 1) == NULL ? NULL : hs_text_fold (hs_sql_text (query, 1));
  add_words (words, vin);
  if (vin != NULL)
    add_tails (words, vin, LEAST_VIN_TAIL, MOST_VIN_TAIL);
  for (int i = 2; i <= 4; i++)
    add_words (words, hs_sql_text (query, i));
  return add_rows (words, plates, add_plate, error);
}

static gboolean
add_customer (HsStore *store, GString *words, const char *customer_id, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, "SELECT name, street FROM customer WHERE id = ?1", "t",
                                        customer_id);
  g_autoptr (HsSql) phones = hs_sql_new (store, error, "SELECT digits FROM phone WHERE customer_id = ?1", "t",
                                         customer_id);
  gboolean row;

  if (query == NULL || phones == NULL || !hs_sql_step (query, &row, error))
    return FALSE;
  if (row)
    {
      add_words (words, hs_sql_text (query, 0));
      add_words (words, hs_sql_text (query, 1));
    }
  return add_rows (words, phones, add_phone, error);
}

/* @doc: a number that is free again, or %HS_INT_NONE for the next one. */
static gboolean
write_doc (HsStore *store, gint64 doc, const char *vehicle_id, const char *customer_id, const char *until,
           GError **error)
{
  g_autoptr (GString) words = g_string_new (NULL);
  g_autoptr (HsSql) query = NULL;
  g_autoptr (HsSql) index = NULL;

  if ((vehicle_id != NULL && !add_vehicle (store, words, vehicle_id, error))
      || (customer_id != NULL && !add_customer (store, words, customer_id, error)))
    return FALSE;
  query = hs_sql_new (store, error,
                      "INSERT INTO search_doc (doc, vehicle_id, customer_id, until, words)"
                      " VALUES (?1, ?2, ?3, ?4, ?5)",
                      "itttt", doc, vehicle_id, customer_id, until, words->str);
  if (!hs_sql_run (query, error))
    return FALSE;
  if (store->bulk)
    return TRUE;
  index = hs_sql_new (store, error, "INSERT INTO search (rowid, words) VALUES (?1, ?2)", "it",
                      sqlite3_last_insert_rowid (store->db), words->str);
  return hs_sql_run (index, error);
}

/* Takes the documents away; their numbers are added to @numbers, lowest first. */
static gboolean
drop_docs (HsStore *store, const char *where, const char *id, GArray *numbers, GError **error)
{
  g_autofree char *sql = g_strconcat ("SELECT doc, words FROM search_doc ", where, " ORDER BY doc", NULL);
  g_autofree char *delete_sql = g_strconcat ("DELETE FROM search_doc ", where, NULL);
  g_autoptr (HsSql) query = hs_sql_new (store, error, sql, "t", id);
  g_autoptr (HsSql) gone = NULL;
  gboolean row = TRUE;

  while (query != NULL && row)
    {
      g_autoptr (HsSql) index = NULL;
      gint64 doc;

      if (!hs_sql_step (query, &row, error))
        return FALSE;
      if (!row)
        break;
      doc = hs_sql_int (query, 0);
      g_array_append_val (numbers, doc);
      index = hs_sql_new (store, error, "INSERT INTO search (search, rowid, words) VALUES ('delete', ?1, ?2)", "it",
                          doc, hs_sql_text (query, 1));
      if (!hs_sql_run (index, error))
        return FALSE;
    }
  gone = query == NULL ? NULL : hs_sql_new (store, error, delete_sql, "t", id);
  return hs_sql_run (gone, error);
}

/* Past owners first, the present one last: the highest number. */
static gboolean
write_owners (HsStore *store, const char *vehicle_id, const GArray *numbers, GError **error)
{
  g_autoptr (HsSql) owners = hs_sql_new (store, error,
                                         "SELECT customer_id, to_date FROM ownership WHERE vehicle_id = ?1"
                                         " ORDER BY to_date IS NULL, to_date, seq", "t", vehicle_id);
  gboolean row = TRUE;
  guint n = 0;

  if (owners == NULL)
    return FALSE;
  for (;; n++)
    {
      if (!hs_sql_step (owners, &row, error))
        return FALSE;
      if (!row)
        break;
      if (!write_doc (store, n < numbers->len ? g_array_index (numbers, gint64, n) : HS_INT_NONE, vehicle_id,
                      hs_sql_text (owners, 0), hs_sql_text (owners, 1), error))
        return FALSE;
    }
  return n > 0 || write_doc (store, numbers->len > 0 ? g_array_index (numbers, gint64, 0) : HS_INT_NONE, vehicle_id,
                             NULL, NULL, error);
}

static gboolean
exists (HsStore *store, const char *sql, const char *id, gboolean *ret_there, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error, sql, "t", id);

  return query != NULL && hs_sql_step (query, ret_there, error);
}

static gboolean
write_vehicle (HsStore *store, const char *vehicle_id, gboolean seen, GError **error)
{
  g_autoptr (GArray) numbers = g_array_new (FALSE, FALSE, sizeof (gint64));
  gboolean there;

  if (!drop_docs (store, "WHERE vehicle_id = ?1", vehicle_id, numbers, error)
      || !exists (store, "SELECT 1 FROM vehicle WHERE id = ?1", vehicle_id, &there, error))
    return FALSE;
  if (seen)
    g_array_set_size (numbers, 0);
  return !there || write_owners (store, vehicle_id, numbers, error);
}

/* The document of a customer without a vehicle. */
static gboolean
write_customer (HsStore *store, const char *customer_id, GError **error)
{
  g_autoptr (GArray) numbers = g_array_new (FALSE, FALSE, sizeof (gint64));
  gboolean there, owns;

  if (!drop_docs (store, "WHERE customer_id = ?1 AND vehicle_id IS NULL", customer_id, numbers, error)
      || !exists (store, "SELECT 1 FROM customer WHERE id = ?1", customer_id, &there, error)
      || !exists (store, "SELECT 1 FROM ownership WHERE customer_id = ?1", customer_id, &owns, error))
    return FALSE;
  if (!there || owns)
    return TRUE;
  return write_doc (store, numbers->len > 0 ? g_array_index (numbers, gint64, 0) : HS_INT_NONE, NULL, customer_id, NULL,
                    error);
}

/* The latest note of an id counts, so that what was seen last comes first. */
static void
note (HsStore *store, GHashTable *set, const char *id)
{
  if (id != NULL && !store->bulk)
    g_hash_table_replace (set, g_strdup (id), GUINT_TO_POINTER (++store->noted));
}

void
hs_search_index_vehicle (HsStore *store, const char *vehicle_id)
{
  note (store, store->changed_vehicles, vehicle_id);
}

void
hs_search_index_seen (HsStore *store, const char *vehicle_id)
{
  note (store, store->seen_vehicles, vehicle_id);
}

void
hs_search_index_customer (HsStore *store, const char *customer_id)
{
  note (store, store->changed_customers, customer_id);
}

/* A changed customer changes the documents of all vehicles that are or were theirs. */
static gboolean
spread_customer (HsStore *store, const char *customer_id, GError **error)
{
  g_autoptr (HsSql) query = hs_sql_new (store, error,
                                        "SELECT vehicle_id FROM ownership WHERE customer_id = ?1", "t",
                                        customer_id);
  g_autoptr (GPtrArray) vehicles = NULL;

  if (!hs_sql_texts (query, &vehicles, error))
    return FALSE;
  for (guint i = 0; i < vehicles->len; i++)
    if (!g_hash_table_contains (store->changed_vehicles, vehicles->pdata[i]))
      hs_search_index_vehicle (store, vehicles->pdata[i]);
  return write_customer (store, customer_id, error);
}

static int
by_note (gconstpointer a, gconstpointer b, gpointer set)
{
  guint one = GPOINTER_TO_UINT (g_hash_table_lookup (set, *(gconstpointer *) a));
  guint other = GPOINTER_TO_UINT (g_hash_table_lookup (set, *(gconstpointer *) b));

  return one < other ? -1 : one > other;
}

/* The ids in the order in which they were noted. */
static GPtrArray *
in_order (GHashTable *set)
{
  GPtrArray *ids = g_ptr_array_new ();
  GHashTableIter iter;
  gpointer id;

  g_hash_table_iter_init (&iter, set);
  while (g_hash_table_iter_next (&iter, &id, NULL))
    g_ptr_array_add (ids, id);
  g_ptr_array_sort_with_data (ids, by_note, set);
  return ids;
}

gboolean
hs_search_index_flush (HsStore *store, GError **error)
{
  g_autoptr (GPtrArray) customers = in_order (store->changed_customers);
  g_autoptr (GPtrArray) changed = NULL;
  g_autoptr (GPtrArray) seen = NULL;

  for (guint i = 0; i < customers->len; i++)
    if (!spread_customer (store, customers->pdata[i], error))
      return FALSE;
  changed = in_order (store->changed_vehicles);
  for (guint i = 0; i < changed->len; i++)
    if (!g_hash_table_contains (store->seen_vehicles, changed->pdata[i])
        && !write_vehicle (store, changed->pdata[i], FALSE, error))
      return FALSE;
  seen = in_order (store->seen_vehicles);
  for (guint i = 0; i < seen->len; i++)
    if (!write_vehicle (store, seen->pdata[i], TRUE, error))
      return FALSE;
  g_hash_table_remove_all (store->changed_customers);
  g_hash_table_remove_all (store->changed_vehicles);
  g_hash_table_remove_all (store->seen_vehicles);
  return TRUE;
}

/* Past docs and their index are gone; what was seen last gets the highest number. */
static gboolean
write_all (HsStore *store, GError **error)
{
  g_autoptr (HsSql) customers = hs_sql_new (store, error,
                                            "SELECT id FROM customer WHERE id NOT IN"
                                            " (SELECT customer_id FROM ownership) ORDER BY seq", "");
  g_autoptr (HsSql) vehicles = hs_sql_new (store, error,
                                           "SELECT v.id FROM vehicle v LEFT JOIN"
                                           " (SELECT vehicle_id, max (seq) AS last FROM job GROUP BY vehicle_id) j"
                                           " ON j.vehicle_id = v.id ORDER BY j.last NULLS FIRST, v.seq", "");
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (gint64));
  gboolean row = customers != NULL && vehicles != NULL;

  if (!row)
    return FALSE;
  while (row)
    if (!hs_sql_step (customers, &row, error)
        || (row && !write_doc (store, HS_INT_NONE, NULL, hs_sql_text (customers, 0), NULL, error)))
      return FALSE;
  for (row = TRUE; row;)
    if (!hs_sql_step (vehicles, &row, error) || (row && !write_owners (store, hs_sql_text (vehicles, 0), none, error)))
      return FALSE;
  return TRUE;
}

gboolean
hs_search_rebuild (HsStore *store, GError **error)
{
  gboolean bulk = store->bulk;
  gboolean done;

  if (!hs_store_may_change (store, error) || !hs_store_exec (store, "DELETE FROM search_doc", error))
    return FALSE;
  /* In bulk the documents alone are written; the index is made from them at once. */
  store->bulk = TRUE;
  done = write_all (store, error) && hs_store_exec (store, "INSERT INTO search (search) VALUES ('rebuild')", error);
  store->bulk = bulk;
  g_hash_table_remove_all (store->changed_customers);
  g_hash_table_remove_all (store->changed_vehicles);
  g_hash_table_remove_all (store->seen_vehicles);
  return done;
}
