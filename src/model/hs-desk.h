// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gio/gio.h>

#include "hs-ledger.h"

G_BEGIN_DECLS

/**
 * HsDeskWhat:
 * @HS_DESK_OPEN: open a book
 * @HS_DESK_ASK: read
 * @HS_DESK_WRITE: write
 * @HS_DESK_LOOK: see whether another program wrote
 * @HS_DESK_QUIT: shut the book and end the thread
 *
 * What lies on the desk. Private to the ledger.
 */
typedef enum
{
  HS_DESK_OPEN,
  HS_DESK_ASK,
  HS_DESK_WRITE,
  HS_DESK_LOOK,
  HS_DESK_QUIT,
} HsDeskWhat;

/**
 * HsDeskSlip:
 *
 * One order from the window's thread to the worker and, filled in, back again. `ledger` and `task` are touched in the
 * window's thread only.
 */
typedef struct
{
  HsDeskWhat what;
  HsLedger *ledger;
  GTask *task;

  /* there */
  HsInstant now;
  HsLedgerFunc func;
  GVariant *args;
  GDestroyNotify free_answer;
  gboolean quiet;
  char *path;
  HsLedgerOpen how;
  char *zone;
  char *program;
  int pid;

  /* back */
  gpointer answer;
  GError *error;
  gboolean changed;
  gboolean read_only;
  char *book_zone;
  char *book_currency;
  HsInstant book_clock;
  HsChecks *book_checks;
  char *catalog_trouble;
} HsDeskSlip;

void hs_desk_slip_free (HsDeskSlip *slip);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsDeskSlip, hs_desk_slip_free)

/**
 * hs_desk_start:
 * @orders: where slips come in; one reference is kept by the thread
 * @context: where they go back to
 * @done: called in @context with each slip but %HS_DESK_QUIT (transfer full)
 *
 * Returns: (transfer full): the thread; it ends after %HS_DESK_QUIT
 */
GThread *hs_desk_start (GAsyncQueue *orders, GMainContext *context, GSourceFunc done);

G_END_DECLS
