// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Undo for the window. Use it from the window alone: what a page did is found by its place in the book. */

#include "hs-deed-undo.h"

gpointer
hs_ask_undo_mark (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  gint64 mark;

  return hs_undo_mark (book, &mark, error) ? g_memdup2 (&mark, sizeof mark) : NULL;
}

static gpointer
take_back_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  gint64 after, asked;

  g_variant_get (args, "(xx)", &after, &asked);
  return hs_take_back (book, after, asked, now, error);
}

void
hs_deed_take_back (HsLedger *ledger, gint64 after, gint64 asked, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, take_back_func, g_variant_new ("(xx)", after, asked),
                         (GDestroyNotify) hs_taken_back_free, FALSE, callback, user_data);
}

static gpointer
do_again_func (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  return hs_do_again (book, now, error);
}

void
hs_deed_do_again (HsLedger *ledger, GAsyncReadyCallback callback, gpointer user_data)
{
  hs_ledger_write_async (ledger, do_again_func, NULL, (GDestroyNotify) hs_taken_back_free, FALSE, callback, user_data);
}
