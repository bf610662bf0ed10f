// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-board.h"
#include "hs-choice-op.h"
#include "hs-ops-test.h"

/* One job at the vehicle, A-0001 on TDM 5508 for Teo Calloway, on a book with 8 % tax on parts and the usual rates:
 * call-out 60.00 for 30 min, then 24.00 for each started 15. BW-55 costs 62.00 at the counter. */

#define OPS_CHOICE_NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job;
} OpsChoice;

OpsChoice ops_choice_start (void);
void ops_choice_clear (OpsChoice *choice);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (OpsChoice, ops_choice_clear)

/* The belt alone: call-out, 60 min and a part of 24.00: 60.00 + 48.00 + 42.40 + 3.39 = 153.79. */
char *ops_choice_add_belt (OpsChoice *choice);

/* Pump, belt and coolant: call-out, 165 min and parts of 88.00, 24.00 and 27.00:
 * 60.00 + 216.00 + 137.20 + 42.40 + 47.20 + 18.14 = 520.94. */
char *ops_choice_add_cure (OpsChoice *choice);

/* An answer that has to be taken, or refused with words. */
void ops_choice_answer (OpsChoice *choice, const char *id, const char *answer, const char *risk);
void ops_choice_refused (OpsChoice *choice, const char *id, const HsChoiceAnswer *answer, const char *said);

/* The option as it stands; the choices are to be freed. */
HsJobChoices *ops_choice_load (OpsChoice *choice);

/* The job as it stands at @now; to be freed. */
HsJobView *ops_choice_view_at (OpsChoice *choice, HsInstant now);
