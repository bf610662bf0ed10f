// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-next.h"
#include "hs-ops-test.h"

/* A job of its own in a small business, with cause models beside the book that can be worked out by hand: of the group
 * drains "Battery" with prior 3 and 20 minutes and "Belt" with prior 1 and 30 minutes; the volts at rest (4 minutes)
 * are low with 0.9 and 0.2, the belt (2 minutes) is good with 0.9 and 0.1. Twenty jobs stand for the priors:
 * weights 15 and 5. */
typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job_id;
} OpsNext;

/* The file itself, with the sign @ where a test puts more keys of the model. */
extern const char ops_next_models[];

/* @models: (nullable): text of causes.json; %NULL: what is above. @group: (nullable) */
OpsNext ops_next_start (const char *models, const char *group);
void ops_next_clear (OpsNext *site);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (OpsNext, ops_next_clear)

/* (transfer full): one more job of the group. */
char *ops_next_add (OpsNext *site, const char *number, const char *group);

/* A reading of the site's job, on a flooded battery. @text "*REASON" could not be measured. */
void ops_next_read (OpsNext *site, const char *check, const char *text, const char *phase);
void ops_next_read_at (OpsNext *site, const char *check, const char *text, const char *place);
void ops_next_say (OpsNext *site, const char *question, const char *answer);

/* (transfer full): never %NULL. */
HsJobNext *ops_next_ask (OpsNext *site);

/* (transfer none) (nullable): by id. */
const HsNextCause *ops_next_cause (const HsJobNext *next, const char *id);
const HsNextLine *ops_next_line (const HsJobNext *next, const char *id);
const HsNextOffer *ops_next_offer (const HsJobNext *next, const char *check);

/* (transfer full): all of @texts with a bar between. */
char *ops_next_join (char **texts);

/* Proves, settles and squares a job on which it was @cause. */
void ops_next_square (OpsNext *site, const char *job_id, const char *cause);
