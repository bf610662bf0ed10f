// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

/* The demo business, made once for all tests of a binary; tests only read it, or work on a book of their own. */

/* ops_demo_book: (transfer none) */
HsBook *ops_demo_book (void);

/* ops_demo_vehicle: (transfer full): the id of a plate. */
char *ops_demo_vehicle (const char *plate);

/* ops_demo_job: (transfer full): the id of a job's number. */
char *ops_demo_job (const char *number);

/* ops_demo_run: g_test_run(), then the book goes. */
int ops_demo_run (void);
