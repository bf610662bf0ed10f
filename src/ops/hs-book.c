// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * An open book with what every operation needs beside its rows: the catalog of checks, zone and currency. Use it for
 * everything that a person does to a book. Refuses to make a book over an existing file or in a zone that nobody knows.
 */

#include "hs-book.h"

#include "hs-device.h"
#include "hs-interview-op.h"
#include "hs-ops-private.h"
#include "hs-proven-cause.h"
#include "hs-reading-row.h"
#include "hs-setting-row.h"
#include "hs-settings-op.h"

struct _HsBook
{
  HsStore *store;
  HsCatalog *catalog;
  char *path;
  HsCauseCatalog *causes; /* (nullable): not asked for yet */
  HsInterview *interview; /* (nullable): not asked for yet */
  GPtrArray *proven;      /* (nullable): of n_squared jobs */
  guint64 n_squared;
  GHashTable *own_answers; /* (nullable): what was read on those jobs, as hs_next_own_count() keeps it */
  GTimeZone *zone;
  char *currency;
  char *van;
  char *device;
  char *host;
  const HsTongue *in; /* (nullable): English */
};

void
hs_book_close (HsBook *book)
{
  if (book == NULL)
    return;
  g_clear_pointer (&book->store, hs_store_close);
  g_clear_pointer (&book->catalog, hs_catalog_free);
  g_clear_pointer (&book->causes, hs_cause_catalog_free);
  g_clear_pointer (&book->interview, hs_interview_unref);
  g_clear_pointer (&book->proven, g_ptr_array_unref);
  g_clear_pointer (&book->own_answers, g_hash_table_unref);
  g_free (book->path);
  g_clear_pointer (&book->zone, g_time_zone_unref);
  g_free (book->currency);
  g_free (book->van);
  g_free (book->host);
  g_free (book->device);
  g_free (book);
}

const char *
hs_book_get_host (HsBook *book)
{
  return book->host;
}

const char *
hs_book_get_device (HsBook *book)
{
  return book->device;
}

HsStore *
hs_book_get_store (HsBook *book)
{
  return book->store;
}

HsChecks *
hs_book_get_checks (HsBook *book)
{
  return book->catalog->checks;
}

const HsCatalog *
hs_book_get_catalog (HsBook *book)
{
  return book->catalog;
}

const HsCauseCatalog *
hs_book_get_causes (HsBook *book, GError **error)
{
  if (book->causes == NULL)
    book->causes = hs_cause_catalog_load (book->path, book->catalog->checks, error);
  return book->causes;
}

void
hs_book_set_tongue (HsBook *book, const HsTongue *in)
{
  book->in = in;
}

const HsTongue *
hs_book_get_tongue (HsBook *book)
{
  return book->in != NULL ? book->in : &hs_tongue_english;
}

HsInterview *
hs_book_get_interview (HsBook *book, GError **error)
{
  if (book->interview == NULL)
    book->interview = hs_data_load_interview (error);
  return book->interview;
}

/* What a squared job says stays; so the list is read again only when there are others. */
gboolean
hs_book_get_proven_causes (HsBook *book, GPtrArray **ret_causes, GError **error)
{
  guint64 n_squared;

  if (!hs_job_row_count (book->store, HS_STAGE_SQUARED, &n_squared, error))
    return FALSE;
  if (book->proven == NULL || n_squared != book->n_squared)
    {
      g_clear_pointer (&book->proven, g_ptr_array_unref);
      g_clear_pointer (&book->own_answers, g_hash_table_unref);
      book->own_answers = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
      if (!hs_proven_cause_list (book->store, &book->proven, error))
        return FALSE;
      book->n_squared = n_squared;
    }
  *ret_causes = book->proven;
  return TRUE;
}

GHashTable *
hs_book_get_own_answers (HsBook *book)
{
  return book->own_answers;
}

void
hs_book_set_van (HsBook *book, const char *letter)
{
  g_free (book->van);
  book->van = g_strdup (letter);
}

const char *
hs_book_get_van (HsBook *book)
{
  return book->van;
}

GTimeZone *
hs_book_get_zone (HsBook *book)
{
  return book->zone;
}

const char *
hs_book_get_currency (HsBook *book)
{
  return book->currency;
}

gboolean
hs_book_is_read_only (HsBook *book)
{
  return hs_store_is_read_only (book->store);
}

/* A zone that this machine does not know is read as UTC, so that the book still opens. */
gboolean
hs_book_refresh (HsBook *book, GError **error)
{
  g_autofree char *zone_id = hs_settings_dup (book, "zone", error);
  g_autofree char *currency = zone_id == NULL ? NULL : hs_settings_dup (book, "currency", error);
  GTimeZone *zone;

  if (currency == NULL)
    return FALSE;
  zone = g_time_zone_new_identifier (zone_id);
  g_clear_pointer (&book->zone, g_time_zone_unref);
  book->zone = zone != NULL ? zone : g_time_zone_new_utc ();
  g_free (book->currency);
  book->currency = g_steal_pointer (&currency);
  return TRUE;
}

static const HsCheckKindRow *
find_check_kind (GPtrArray *rows, const char *id)
{
  for (guint i = 0; i < rows->len; i++)
    {
      const HsCheckKindRow *row = g_ptr_array_index (rows, i);

      if (g_str_equal (row->id, id))
        return row;
    }
  return NULL;
}

static GPtrArray *
list_new_checks (HsBook *book, GPtrArray *known)
{
  GPtrArray *missing = g_ptr_array_new ();
  const HsCheck *check;

  for (guint i = 0; (check = hs_checks_get_nth (book->catalog->checks, i)) != NULL; i++)
    if (find_check_kind (known, check->id) == NULL)
      g_ptr_array_add (missing, (gpointer) check);
  return missing;
}

/* A check of the owner's file that the book holds readings of in another unit cannot be used. */
static gboolean
settle_catalog (HsBook *book, GError **error)
{
  g_autoptr (GPtrArray) known = NULL;

  if (book->catalog->file == NULL || book->catalog->trouble != NULL)
    return TRUE;
  if (!hs_check_kind_row_list (book->store, &known, error))
    return FALSE;
  for (guint i = 0; i < known->len; i++)
    {
      const HsCheckKindRow *row = g_ptr_array_index (known, i);
      const HsCheck *check = hs_checks_lookup (book->catalog->checks, row->id);
      g_autofree char *trouble = NULL;

      if (check == NULL || (g_str_equal (check->unit, row->unit) && check->decimals == row->decimals))
        continue;
      trouble = g_strdup_printf ("[check %s] the book knows it in %s with %d decimals; make a new check instead",
                                 row->id, row->unit, (int) row->decimals);
      return hs_catalog_reject (book->catalog, trouble, error);
    }
  return TRUE;
}

static gboolean
save_checks (HsBook *book, GPtrArray *missing, GError **error)
{
  for (guint i = 0; i < missing->len; i++)
    {
      const HsCheck *check = g_ptr_array_index (missing, i);
      g_autoptr (HsCheckKindRow) row = hs_check_kind_row_new ();

      hs_row_set (&row->id, check->id);
      hs_row_set (&row->name, check->name);
      hs_row_set (&row->unit, check->unit);
      row->decimals = check->decimals;
      if (!hs_check_kind_row_save (book->store, row, error))
        return FALSE;
    }
  return TRUE;
}

/* The book has to know every check's unit to refuse a reading in another one. What it knows stays as it is. */
static gboolean
add_checks (HsBook *book, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) known = NULL;
  g_autoptr (GPtrArray) missing = NULL;

  if (!hs_check_kind_row_list (book->store, &known, error))
    return FALSE;
  missing = list_new_checks (book, known);
  if (missing->len == 0)
    return TRUE;
  if (!hs_store_begin (book->store, now, error))
    return FALSE;
  return hs_store_end (book->store, save_checks (book, missing, error), error);
}

static HsBook *
open_store (const char *path, HsStoreMode mode, const HsBookUser *user, GError **error)
{
  HsStoreUser store_user = { .program = user->program, .host = user->host, .pid = user->pid, .now = user->now };
  g_autoptr (HsBook) book = g_new0 (HsBook, 1);

  book->path = g_strdup (path);
  book->catalog = hs_catalog_load (path, error);
  if (book->catalog == NULL)
    return NULL;
  book->store = hs_store_open (path, mode, &store_user, error);
  if (book->store == NULL)
    return NULL;
  book->host = g_strdup (user->host);
  book->device = hs_device_dup_id (user->host);
  hs_store_set_device (book->store, book->device);
  return g_steal_pointer (&book);
}

HsBook *
hs_book_open (const char *path, HsBookMode mode, const HsBookUser *user, GError **error)
{
  g_autoptr (HsBook) book
      = open_store (path, mode == HS_BOOK_READ ? HS_STORE_READ : HS_STORE_WRITE, user, error);
  g_autoptr (GError) later = NULL;

  if (book == NULL || !hs_book_refresh (book, error) || !settle_catalog (book, error))
    return NULL;
  if (mode == HS_BOOK_READ || hs_book_is_read_only (book) || add_checks (book, user->now, &later))
    return g_steal_pointer (&book);
  /* Another program is writing: the next opening adds what is missing. */
  if (g_error_matches (later, HS_STORE_ERROR, HS_STORE_ERROR_BUSY))
    return g_steal_pointer (&book);
  g_propagate_error (error, g_steal_pointer (&later));
  return NULL;
}

static gboolean
fill_new (HsBook *book, const char *zone, HsInstant now, GError **error)
{
  g_autoptr (HsVanRow) van = hs_van_row_new ();

  hs_row_set (&van->letter, "A");
  return hs_van_row_save (book->store, van, error) && hs_settings_set (book, "zone", zone, now, error)
         && add_checks (book, now, error);
}

static gboolean
prepare_new (HsBook *book, const char *zone, HsInstant now, GError **error)
{
  if (!hs_book_refresh (book, error) || !hs_store_begin (book->store, now, error))
    return FALSE;
  return hs_store_end (book->store, fill_new (book, zone, now, error), error);
}

HsBook *
hs_book_new (const char *path, const char *zone, const HsBookUser *user, GError **error)
{
  g_autoptr (GTimeZone) known = g_time_zone_new_identifier (zone);
  g_autoptr (HsBook) book = NULL;

  if (known == NULL || *zone == '\0')
    {
      hs_ops_refuse (error, "There is no time zone “%s”; write it like America/New_York.", zone);
      return NULL;
    }
  book = open_store (path, HS_STORE_CREATE, user, error);
  if (book == NULL || prepare_new (book, zone, user->now, error))
    return g_steal_pointer (&book);
  g_clear_pointer (&book, hs_book_close);
  hs_store_remove (path);
  return NULL;
}
