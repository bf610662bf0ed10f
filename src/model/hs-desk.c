// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The worker thread of a ledger: it alone holds the open book. Slips come in through a queue, are worked off one by
 * one and go back through an idle source of the window's context, so that no object of the window is ever touched
 * here. Before each write it looks whether the file is still the one that was opened; a book whose file was moved or
 * replaced is not written any more, for those words would go nowhere. */

#include "hs-desk.h"

#include <errno.h>

#include "hs-demo.h"
#include "hs-model-error.h"
#include "hs-settings-op.h"
#include "hs-store-error.h"

typedef struct
{
  GAsyncQueue *orders;
  GMainContext *context;
  GSourceFunc done;

  HsBook *book;
  char *path;
  guint64 device;
  guint64 inode;
  gint64 data_version;
} HsDesk;

void
hs_desk_slip_free (HsDeskSlip *slip)
{
  if (slip == NULL)
    return;
  if (slip->answer != NULL && slip->free_answer != NULL)
    slip->free_answer (slip->answer);
  g_clear_error (&slip->error);
  g_clear_pointer (&slip->args, g_variant_unref);
  g_clear_pointer (&slip->path, g_free);
  g_clear_pointer (&slip->zone, g_free);
  g_clear_pointer (&slip->program, g_free);
  g_clear_pointer (&slip->book_zone, g_free);
  g_clear_pointer (&slip->book_currency, g_free);
  g_clear_pointer (&slip->book_checks, hs_checks_unref);
  g_free (slip->catalog_trouble);
  g_clear_object (&slip->task);
  g_clear_object (&slip->ledger);
  g_free (slip);
}

static gboolean
hs_desk_stat (const char *path, guint64 *ret_device, guint64 *ret_inode)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GFileInfo) info = g_file_query_info (file, G_FILE_ATTRIBUTE_UNIX_DEVICE "," G_FILE_ATTRIBUTE_UNIX_INODE,
                                                  G_FILE_QUERY_INFO_NONE, NULL, NULL);

  if (info == NULL)
    return FALSE;
  *ret_device = g_file_info_get_attribute_uint32 (info, G_FILE_ATTRIBUTE_UNIX_DEVICE);
  *ret_inode = g_file_info_get_attribute_uint64 (info, G_FILE_ATTRIBUTE_UNIX_INODE);
  return TRUE;
}

/* Whether the path still leads to the file that is open. */
static gboolean
hs_desk_check_file (HsDesk *desk, GError **error)
{
  guint64 device = 0, inode = 0;

  if (hs_desk_stat (desk->path, &device, &inode) && device == desk->device && inode == desk->inode)
    return TRUE;
  g_set_error (error, HS_MODEL_ERROR, HS_MODEL_ERROR_LOST,
               "The file %s was moved, removed or replaced while it was open. Nothing more is written to it. "
               "Put it back, or open the book again.",
               desk->path);
  return FALSE;
}

/* What the window needs of every book, read again whenever it may have changed. */
static void
hs_desk_read_facts (HsDesk *desk, HsDeskSlip *slip)
{
  g_autofree char *clock = hs_settings_dup (desk->book, "clock_starts", NULL);

  slip->read_only = hs_book_is_read_only (desk->book);
  slip->book_zone = hs_settings_dup (desk->book, "zone", NULL);
  slip->book_currency = g_strdup (hs_book_get_currency (desk->book));
  slip->book_clock = HS_INSTANT_NONE;
  if (clock != NULL && *clock != '\0')
    hs_instant_parse (clock, hs_book_get_zone (desk->book), &slip->book_clock, NULL);
  slip->book_checks = hs_checks_ref (hs_book_get_checks (desk->book));
  slip->catalog_trouble = g_strdup (hs_book_get_catalog (desk->book)->trouble);
}

static HsBook *
hs_desk_open_book (HsDeskSlip *slip, GError **error)
{
  HsBookUser user = { slip->program, g_get_host_name (), slip->pid, slip->now };
  gboolean there = g_file_test (slip->path, G_FILE_TEST_EXISTS);
  g_autofree char *folder = g_path_get_dirname (slip->path);

  if (slip->how == HS_LEDGER_OPEN || (slip->how == HS_LEDGER_DEMO && there))
    return hs_book_open (slip->path, HS_BOOK_WRITE, &user, error);
  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      g_set_error (error, HS_STORE_ERROR, HS_STORE_ERROR_FAILED, "The folder %s cannot be made: %s", folder,
                   g_strerror (errno));
      return NULL;
    }
  if (slip->how == HS_LEDGER_DEMO)
    return hs_demo_make (slip->path, &user, error);
  return hs_book_new (slip->path, slip->zone != NULL ? slip->zone : "UTC", &user, error);
}

/* Set before any book is opened, read by the worker thread. */
static const HsTongue *tongue;

void
hs_ledger_say_in (const HsTongue *in)
{
  tongue = in;
}

static void
hs_desk_open (HsDesk *desk, HsDeskSlip *slip)
{
  g_clear_pointer (&desk->book, hs_book_close);
  g_clear_pointer (&desk->path, g_free);
  desk->book = hs_desk_open_book (slip, &slip->error);
  if (desk->book == NULL)
    return;
  hs_book_set_tongue (desk->book, tongue);

  desk->path = g_strdup (slip->path);
  if (!hs_desk_stat (desk->path, &desk->device, &desk->inode))
    desk->device = desk->inode = 0;
  if (!hs_store_data_version (hs_book_get_store (desk->book), &desk->data_version, &slip->error))
    {
      g_clear_pointer (&desk->book, hs_book_close);
      return;
    }
  hs_desk_read_facts (desk, slip);
  slip->changed = TRUE;
}

static void
hs_desk_run (HsDesk *desk, HsDeskSlip *slip)
{
  gboolean writes = slip->what == HS_DESK_WRITE;

  if (writes && !hs_desk_check_file (desk, &slip->error))
    return;
  slip->answer = slip->func (desk->book, slip->args, slip->now, &slip->error);
  if (writes && slip->error == NULL && !slip->quiet)
    {
      hs_desk_read_facts (desk, slip);
      slip->changed = TRUE;
    }
}

static void
hs_desk_look (HsDesk *desk, HsDeskSlip *slip)
{
  gint64 data_version = desk->data_version;

  if (!hs_desk_check_file (desk, &slip->error))
    return;
  if (!hs_store_data_version (hs_book_get_store (desk->book), &data_version, &slip->error))
    return;
  if (data_version == desk->data_version)
    return;
  desk->data_version = data_version;
  hs_desk_read_facts (desk, slip);
  slip->changed = TRUE;
}

static void
hs_desk_work_off (HsDesk *desk, HsDeskSlip *slip)
{
  if (slip->what == HS_DESK_OPEN)
    hs_desk_open (desk, slip);
  else if (desk->book == NULL)
    g_set_error_literal (&slip->error, HS_MODEL_ERROR, HS_MODEL_ERROR_CLOSED, "No book is open.");
  else if (slip->what == HS_DESK_LOOK)
    hs_desk_look (desk, slip);
  else
    hs_desk_run (desk, slip);
}

/* An idle source and not g_main_context_invoke(), which would call back here while nobody runs that context. */
static void
hs_desk_hand_back (HsDesk *desk, HsDeskSlip *slip)
{
  g_autoptr (GSource) source = g_idle_source_new ();

  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, desk->done, slip, NULL);
  g_source_attach (source, desk->context);
}

static gpointer
hs_desk_thread (gpointer data)
{
  HsDesk *desk = data;

  while (TRUE)
    {
      HsDeskSlip *slip = g_async_queue_pop (desk->orders);

      if (slip->what == HS_DESK_QUIT)
        {
          hs_desk_slip_free (slip);
          break;
        }
      hs_desk_work_off (desk, slip);
      hs_desk_hand_back (desk, slip);
    }

  g_clear_pointer (&desk->book, hs_book_close);
  g_free (desk->path);
  g_async_queue_unref (desk->orders);
  g_main_context_unref (desk->context);
  g_free (desk);
  return NULL;
}

GThread *
hs_desk_start (GAsyncQueue *orders, GMainContext *context, GSourceFunc done)
{
  HsDesk *desk = g_new0 (HsDesk, 1);

  desk->orders = g_async_queue_ref (orders);
  desk->context = g_main_context_ref (context);
  desk->done = done;
  return g_thread_new ("hs-desk", hs_desk_thread, desk);
}
