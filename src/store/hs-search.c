// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Finds vehicles and customers by what a caller gives in the first seconds. Every word has to be the beginning of
 * a word of the document, in any order; the documents hold the endings that people know. Hits come by number,
 * newest first: ranking by relevance would read every match. */

#include "hs-search.h"

#include <string.h>

#include "hs-sql.h"
#include "hs-search-index.h"
#include "hs-text.h"

/* Words beyond these add nothing but work. */
#define MOST_WORDS 12

/* Digits of a number that is said by itself. */
#define LEAST_NUMBER 3

void
hs_search_hit_free (HsSearchHit *hit)
{
  if (hit == NULL)
    return;
  g_free (hit->vehicle_id);
  g_free (hit->customer_id);
  g_free (hit);
}

static gboolean
is_digits (const char *word)
{
  return word != NULL && word[strspn (word, "0123456789")] == '\0';
}

static void
add_and (GString *match, const char *word)
{
  g_string_append_printf (match, "%s\"%s\"*", match->len == 0 ? "" : " AND ", word);
}

/* A number typed in pieces is looked for in one (555 01 21) and in its pieces (8816 0121). A short piece must be a
 * whole word then, like that of a house (4 8816), or every second document would do. Returns how many words it took. */
static guint
add_number (GString *match, char **words)
{
  g_autoptr (GString) joined = g_string_new (NULL);
  guint n = 0;

  for (; words[n] != NULL && is_digits (words[n]); n++)
    g_string_append (joined, words[n]);
  if (n == 1)
    {
      add_and (match, joined->str);
      return n;
    }
  g_string_append (match, match->len > 0 ? " AND ((" : "((");
  for (guint i = 0; i < n; i++)
    g_string_append_printf (match, "%s\"%s\"%s", i > 0 ? " AND " : "", words[i],
                            strlen (words[i]) < LEAST_NUMBER ? "" : "*");
  g_string_append_printf (match, ") OR \"%s\"*)", joined->str);
  return n;
}

/* (nullable): %NULL if there is no word in it. Folded words hold letters and digits alone, so quoting them is
 * enough. */
static char *
dup_match (const char *text)
{
  g_auto (GStrv) words = hs_text_words (text != NULL ? text : "");
  g_autoptr (GString) match = g_string_new (NULL);
  guint n_words = MIN (g_strv_length (words), MOST_WORDS);

  for (guint i = n_words; words[i] != NULL; i++)
    g_clear_pointer (&words[i], g_free);
  for (guint i = 0; i < n_words;)
    if (is_digits (words[i]))
      i += add_number (match, words + i);
    else
      add_and (match, words[i++]);
  return match->len == 0 ? NULL : g_strdup (match->str);
}

static HsSql *
new_query (HsStore *store, const char *match, GError **error)
{
  if (match == NULL)
    return hs_sql_new (store, error,
                       "SELECT vehicle_id, customer_id, until FROM search_doc ORDER BY doc DESC", "");
  return hs_sql_new (store, error,
                     "SELECT d.vehicle_id, d.customer_id, d.until FROM search s JOIN search_doc d ON d.doc = s.rowid"
                     " WHERE s.search MATCH ?1 ORDER BY s.rowid DESC", "t", match);
}

static HsSearchHit *
read_hit (HsSql *query)
{
  HsSearchHit *hit = g_new0 (HsSearchHit, 1);

  hit->vehicle_id = g_strdup (hs_sql_text (query, 0));
  hit->customer_id = g_strdup (hs_sql_text (query, 1));
  hit->until = hs_sql_date (query, 2);
  return hit;
}

/* The first document of a vehicle is its best one; the others are passed over. */
static gboolean
read_hits (HsSql *query, guint limit, GPtrArray *hits, GError **error)
{
  g_autoptr (GHashTable) vehicles = g_hash_table_new (g_str_hash, g_str_equal);
  gboolean row = TRUE;

  while (hits->len < limit)
    {
      g_autoptr (HsSearchHit) hit = NULL;

      if (!hs_sql_step (query, &row, error))
        return FALSE;
      if (!row)
        break;
      hit = read_hit (query);
      if (hit->vehicle_id != NULL && g_hash_table_contains (vehicles, hit->vehicle_id))
        continue;
      if (hit->vehicle_id != NULL)
        g_hash_table_add (vehicles, hit->vehicle_id);
      g_ptr_array_add (hits, g_steal_pointer (&hit));
    }
  return TRUE;
}

gboolean
hs_search (HsStore *store, const char *words, guint limit, GPtrArray **ret_hits, GError **error)
{
  g_autoptr (GPtrArray) hits = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_search_hit_free);
  g_autofree char *match = dup_match (words);
  g_autoptr (HsSql) query = NULL;

  if (store->depth > 0 && !hs_search_index_flush (store, error))
    return FALSE;
  query = new_query (store, match, error);
  if (query == NULL || !read_hits (query, limit, hits, error))
    return FALSE;
  *ret_hits = g_steal_pointer (&hits);
  return TRUE;
}

gboolean
hs_search_seen (HsStore *store, const char *vehicle_id, GError **error)
{
  if (!hs_store_may_change (store, error))
    return FALSE;
  hs_search_index_seen (store, vehicle_id);
  return TRUE;
}
