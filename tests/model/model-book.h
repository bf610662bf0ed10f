// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gio/gio.h>

#include "hs-ledger.h"

/* A demo book in a folder of its own, opened in a ledger whose clock stands at the demo's morning. */
typedef struct
{
  char *folder;
  char *path;
  HsLedger *ledger;
} ModelBook;

void model_book_open (ModelBook *book, gconstpointer data);
void model_book_close (ModelBook *book, gconstpointer data);

/* Runs the main context until @done or five seconds are over; the caller asserts on what it waited for. */
void model_wait (gboolean (*done) (gpointer data), gpointer data);

/* The answer of a question, asked and waited for; fails the test with the error's message. */
gpointer model_ask (HsLedger *ledger, HsLedgerFunc func, GVariant *args);

/* A second program's book on the same file. */
HsBook *model_other_book (ModelBook *book);
