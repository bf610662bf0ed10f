// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Writing a call slip over what may have been written elsewhere meanwhile: beside the slip goes what its fields showed
 * before. */

#include "hs-deed-merge.h"

#include "hs-call-find.h"

#include <string.h>

#define N_TEXTS 12
#define N_WAS 5

/* The texts in the order in which they travel. */
static void
point_at (HsCallSlip *slip, const char ***ret_texts)
{
  const char **texts[N_TEXTS] = { &slip->job_id, &slip->phone, &slip->name,  &slip->words, &slip->plate, &slip->street,
                                  &slip->make,   &slip->model, &slip->group, &slip->kind,  &slip->area,  &slip->van };

  memcpy (ret_texts, texts, sizeof texts);
}

static gboolean
merge (HsBook *book, const HsCallSlip *slip, const HsCallSlip *was, HsInstant now, GPtrArray **ret_clashes,
       GError **error)
{
  return hs_call_merge (book, slip, was, now, ret_clashes, error)
         && hs_where_settle (book, slip->job_id, "call", NULL, now, error);
}

static gpointer
merge_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GVariant) texts = NULL;
  g_autoptr (GVariant) before = NULL;
  g_autoptr (GPtrArray) clashes = NULL;
  HsCallSlip slip = { NULL }, was = { .day = HS_DATE_NONE };
  const char **to[N_TEXTS], **from[N_TEXTS];

  g_variant_get (args, "(@ams@amsiiiii)", &texts, &before, &slip.day, &slip.window_from, &slip.window_to,
                 &slip.minutes, &was.minutes);
  point_at (&slip, to);
  point_at (&was, from);
  for (guint i = 0; i < N_TEXTS; i++)
    g_variant_get_child (texts, i, "m&s", to[i]);
  for (guint i = 0; i < N_WAS; i++)
    g_variant_get_child (before, i, "m&s", from[i + 1]);
  if (!hs_store_begin (store, now, error)
      || !hs_store_end (store, merge (book, &slip, &was, now, &clashes, error), error))
    return NULL;
  return g_steal_pointer (&clashes);
}

static void
add_texts (GVariantBuilder *builder, const char ***texts, guint first, guint n)
{
  g_variant_builder_init (builder, G_VARIANT_TYPE ("ams"));
  for (guint i = first; i < first + n; i++)
    g_variant_builder_add_value (builder, g_variant_new ("ms", *texts[i]));
}

void
hs_deed_merge_call (HsLedger *ledger, const HsCallSlip *slip, const HsCallSlip *was, GAsyncReadyCallback callback,
                    gpointer user_data)
{
  HsCallSlip mine = *slip, before = *was;
  const char **texts[N_TEXTS], **shown[N_TEXTS];
  GVariantBuilder now, then;

  point_at (&mine, texts);
  point_at (&before, shown);
  add_texts (&now, texts, 0, N_TEXTS);
  add_texts (&then, shown, 1, N_WAS);
  hs_ledger_write_async (ledger, merge_func,
                         g_variant_new ("(amsamsiiiii)", &now, &then, slip->day, slip->window_from, slip->window_to,
                                        slip->minutes, was->minutes),
                         (GDestroyNotify) g_ptr_array_unref, FALSE, callback, user_data);
}

gpointer
hs_ask_call_name (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;
  HsCallName *name = NULL;

  g_variant_get (args, "(&s)", &job_id);
  return hs_call_name_load (book, job_id, &name, error) ? name : NULL;
}

static gpointer
take_name_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  hs_call_name_take (book, job_id, now, error);
  return NULL;
}

void
hs_deed_take_call_name (HsLedger *ledger, const char *job_id, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, take_name_func, g_variant_new ("(s)", job_id), NULL, FALSE, callback, user_data);
}

gpointer
hs_ask_callers (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *words, *job_id;
  guint limit;

  g_variant_get (args, "(&sum&s)", &words, &limit, &job_id);
  return hs_call_find (book, job_id, words, limit, now, error);
}
