// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What comes of what is typed, on the demo business: digits, plates, names, streets, makes, in any order and form.
 * Which vehicles match was read off the demo's own list of customers and vehicles. */

#include "hs-demo.h"
#include "hs-find.h"
#include "ops-demo.h"

typedef struct
{
  const char *words;
  const char *plates; /* sorted, with a line for the blank inside */
} Query;

static const Query queries[] = {
  { "0111",
    "TDM_1204" },
  { "555-0111",
    "TDM_1204" },
  { "(555) 0111",
    "TDM_1204" },
  { "0112",
    "TDM_2218" },
  { "555-0112",
    "TDM_2218" },
  { "(555) 0112",
    "TDM_2218" },
  { "0113",
    "TDM_3316 TDM_3319 TDM_3321" },
  { "555-0113",
    "TDM_3316 TDM_3319 TDM_3321" },
  { "(555) 0113",
    "TDM_3316 TDM_3319 TDM_3321" },
  { "0114",
    "TDM_4409" },
  { "555-0114",
    "TDM_4409" },
  { "(555) 0114",
    "TDM_4409" },
  { "0115",
    "TDM_5508" },
  { "555-0115",
    "TDM_5508" },
  { "(555) 0115",
    "TDM_5508" },
  { "0116",
    "TDM_6613 TDM_6615" },
  { "555-0116",
    "TDM_6613 TDM_6615" },
  { "(555) 0116",
    "TDM_6613 TDM_6615" },
  { "0117",
    "TDM_7717" },
  { "555-0117",
    "TDM_7717" },
  { "(555) 0117",
    "TDM_7717" },
  { "0118",
    "TDM_1216 TDM_8816" },
  { "555-0118",
    "TDM_1216 TDM_8816" },
  { "(555) 0118",
    "TDM_1216 TDM_8816" },
  { "0119",
    "TDM_1011" },
  { "555-0119",
    "TDM_1011" },
  { "(555) 0119",
    "TDM_1011" },
  { "0120",
    "TDM_9912" },
  { "555-0120",
    "TDM_9912" },
  { "(555) 0120",
    "TDM_9912" },
  { "0121",
    "TDM_8816" },
  { "555-0121",
    "TDM_8816" },
  { "(555) 0121",
    "TDM_8816" },
  { "0122",
    "TDM_1315" },
  { "555-0122",
    "TDM_1315" },
  { "(555) 0122",
    "TDM_1315" },
  { "TDM 1204",
    "TDM_1204" },
  { "tdm-1204",
    "TDM_1204" },
  { "1204",
    "TDM_1204" },
  { "TDM 2218",
    "TDM_2218" },
  { "tdm-2218",
    "TDM_2218" },
  { "2218",
    "TDM_2218" },
  { "TDM 3316",
    "TDM_3316" },
  { "tdm-3316",
    "TDM_3316" },
  { "3316",
    "TDM_3316" },
  { "TDM 3319",
    "TDM_3319" },
  { "tdm-3319",
    "TDM_3319" },
  { "3319",
    "TDM_3319" },
  { "TDM 3321",
    "TDM_3321" },
  { "tdm-3321",
    "TDM_3321" },
  { "3321",
    "TDM_3321" },
  { "TDM 4409",
    "TDM_4409" },
  { "tdm-4409",
    "TDM_4409" },
  { "4409",
    "TDM_4409" },
  { "TDM 5508",
    "TDM_5508" },
  { "tdm-5508",
    "TDM_5508" },
  { "5508",
    "TDM_5508" },
  { "TDM 6615",
    "TDM_6615" },
  { "tdm-6615",
    "TDM_6615" },
  { "6615",
    "TDM_6615" },
  { "TDM 6613",
    "TDM_6613" },
  { "tdm-6613",
    "TDM_6613" },
  { "6613",
    "TDM_6613" },
  { "TDM 7717",
    "TDM_7717" },
  { "tdm-7717",
    "TDM_7717" },
  { "7717",
    "TDM_7717" },
  { "TDM 8816",
    "TDM_8816" },
  { "tdm-8816",
    "TDM_8816" },
  { "8816",
    "TDM_8816" },
  { "TDM 9912",
    "TDM_9912" },
  { "tdm-9912",
    "TDM_9912" },
  { "9912",
    "TDM_9912" },
  { "TDM 1011",
    "TDM_1011" },
  { "tdm-1011",
    "TDM_1011" },
  { "1011",
    "TDM_1011" },
  { "TDM 1216",
    "TDM_1216" },
  { "tdm-1216",
    "TDM_1216" },
  { "1216",
    "TDM_1216" },
  { "TDM 1315",
    "TDM_1315" },
  { "tdm-1315",
    "TDM_1315" },
  { "1315",
    "TDM_1315" },
  { "33",
    "TDM_3316 TDM_3319 TDM_3321" },
  { "ottoline",
    "TDM_1204" },
  { "MABRY",
    "TDM_1204" },
  { "bakery",
    "TDM_3316 TDM_3319 TDM_3321" },
  { "isolde",
    "TDM_3316 TDM_3319 TDM_3321" },
  { "bram",
    "TDM_6613 TDM_6615" },
  { "hark land",
    "TDM_6613 TDM_6615" },
  { "lorna",
    "TDM_1011" },
  { "beacon",
    "TDM_4409 TDM_9912" },
  { "22 beacon",
    "TDM_4409" },
  { "kiln road",
    "TDM_3316 TDM_3319 TDM_3321" },
  { "poultry",
    "TDM_5508" },
  { "butter cross",
    "TDM_1315" },
  { "netmakers rue",
    "TDM_8816" },
  { "pim",
    "TDM_1204 TDM_1216" },
  { "merle",
    "TDM_1315 TDM_2218" },
  { "tumbrel",
    "TDM_3316 TDM_3319 TDM_6613 TDM_6615" },
  { "carter long",
    "TDM_6613" },
  { "quenby larkin",
    "TDM_7717" },
  { "vickery tuck",
    "TDM_9912" },
  { "0113 wick",
    "TDM_3321" },
  { "3316 isolde",
    "TDM_3316" },
  { "isolde 3316",
    "TDM_3316" },
  { "stane orsane",
    "TDM_1315" },
  { "quell nadira",
    "TDM_7717" },
  { "0999",
    "" },
  { "zebra",
    "" },
  { "rue 0111",
    "" },
  { "TDM 0000",
    "" },
  { "bakery 8816",
    "" },
};

static int
compare (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(const char *const *) a, *(const char *const *) b);
}

static char *
join_plates (GPtrArray *hits)
{
  g_autoptr (GPtrArray) plates = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < hits->len; i++)
    {
      char *plate = g_strdup (((HsHit *) g_ptr_array_index (hits, i))->plate);

      g_ptr_array_add (plates, g_strdelimit (plate, " ", '_'));
    }
  g_ptr_array_sort (plates, compare);
  g_ptr_array_add (plates, NULL);
  return g_strjoinv (" ", (char **) plates->pdata);
}

static void
test_query (gconstpointer data)
{
  const Query *query = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) hits = hs_find (ops_demo_book (), query->words, 50, hs_demo_get_now (), &error);
  g_autofree char *plates = NULL;

  g_assert_no_error (error);
  plates = join_plates (hits);
  g_assert_cmpstr (plates, ==, query->plates);
}

/* Whatever was typed, nobody is told who the owner before was unless that owner's own words were typed. */
static void
test_past_owner_only_when_asked (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (queries); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) hits = hs_find (ops_demo_book (), queries[i].words, 50, hs_demo_get_now (), &error);

      for (guint k = 0; k < hits->len; k++)
        {
          const HsHit *hit = g_ptr_array_index (hits, k);

          g_assert_true (hit->present == (hit->until == HS_DATE_NONE));
          if (!hit->present)
            g_assert_nonnull (g_strrstr (queries[i].words, "0118"));
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (queries); i++)
    {
      g_autofree char *path = g_strdup_printf ("/find-words/%" G_GSIZE_FORMAT, i);

      g_test_add_data_func (path, &queries[i], test_query);
    }
  g_test_add_func ("/find-words/past-owner-only-when-asked", test_past_owner_only_when_asked);
  return ops_demo_run ();
}
