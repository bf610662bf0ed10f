// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-life.h"
#include "hs-job-op.h"
#include "hs-ops-test.h"
#include "hs-repair-op.h"

#include <libintl.h>

G_BEGIN_DECLS

/* What the tests of the repair share: a job at the vehicle, with a van that carries a battery. The vehicle wants its
 * battery coded and was read at 61,000 miles fifty days ago and at 63,000 today: 40 miles a day. */

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job;
} Bay;

Bay bay_start (void);
void bay_clear (Bay *bay);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Bay, bay_clear)

/* bay_fit: (transfer full): installs a part that is accepted. */
char *bay_fit (Bay *bay, const HsInstallEntry *entry);

/* bay_find: (transfer full): writes down a finding. */
char *bay_find (Bay *bay, const char *what, const char *role, const char *ended);

/* bay_read: takes a reading; voltage drops with their load on. */
void bay_read (Bay *bay, const char *check, const char *text, const char *phase, const char *place);

HsRepair *bay_load (Bay *bay);

/* bay_missing: (transfer full): what is still to do, as "id! id id": those that must be with a mark. */
char *bay_missing (Bay *bay);

G_END_DECLS
