// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-proof-load.h"
#include "hs-repair-op.h"

G_BEGIN_DECLS

/* The repair and its proof for the window; see hs-repair-op.h. */

/**
 * HsRepairFrom: why a part is offered as the one that was put in.
 * @HS_REPAIR_FROM_NEED: the job wants it, or it was brought or bought for it
 * @HS_REPAIR_FROM_BILL: it stands on the bill and is not in yet
 * @HS_REPAIR_FROM_VAN: the van carries it
 */
typedef enum
{
  HS_REPAIR_FROM_NEED,
  HS_REPAIR_FROM_BILL,
  HS_REPAIR_FROM_VAN,
} HsRepairFrom;

/**
 * HsRepairNeed: a part that may have been put in.
 * @number: (nullable): of the catalog; %NULL: it has only words
 * @in_van: it can be taken out of the van
 */
typedef struct
{
  char *number;
  char *name;
  HsRepairFrom from;
  gboolean in_van;
} HsRepairNeed;

/**
 * HsRepairReason: a finding that may say why an old part failed.
 */
typedef struct
{
  char *id;
  char *what;
} HsRepairReason;

/**
 * HsRepairShot: what the pane shows; never changes once loaded.
 * @needs: (element-type HsRepairNeed): first what the job wants, then what its bill has, then what the van carries
 * @reasons: (element-type HsRepairReason)
 */
typedef struct
{
  HsRepair *repair;
  GPtrArray *needs;
  GPtrArray *reasons;
} HsRepairShot;

void hs_repair_shot_free (HsRepairShot *shot);
HsRepairShot *hs_repair_shot_load (HsBook *book, const char *job_id, const HsJobView *view, HsInstant now,
                                   GError **error);

/* hs_ask_proof: (st): id of a job, and where the #HsTongue is that says its sentences, which has to live as long;
 * answers an #HsProofSheet. */
gpointer hs_ask_proof (HsBook *book, GVariant *args, HsInstant now, GError **error);

/* hs_deed_fit: @number: (nullable): of the catalog; @past_ceiling: that it passes the go-ahead was told: answers the
 * part's id (transfer full, g_free()). */
void hs_deed_fit (HsLedger *ledger, const char *job_id, const char *what, const char *number, gboolean from_van,
                  gboolean past_ceiling, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_set_part: one field; @past_ceiling: as above: answers nothing. */
void hs_deed_set_part (HsLedger *ledger, const char *part_id, const char *field, const char *text,
                       gboolean past_ceiling, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_remove_part: answers nothing. */
void hs_deed_remove_part (HsLedger *ledger, const char *part_id, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_disturb: answers nothing. */
void hs_deed_disturb (HsLedger *ledger, const char *job_id, const char *what, GAsyncReadyCallback callback,
                      gpointer user_data);

/* hs_deed_tick_look: answers nothing. */
void hs_deed_tick_look (HsLedger *ledger, const char *line_id, gboolean done, GAsyncReadyCallback callback,
                        gpointer user_data);

/* hs_deed_remove_look: answers nothing. */
void hs_deed_remove_look (HsLedger *ledger, const char *line_id, GAsyncReadyCallback callback, gpointer user_data);

/* hs_deed_say: of a job: @what is `unproved`, `safe` or `odometer`: answers nothing. */
void hs_deed_say (HsLedger *ledger, const char *job_id, const char *what, const char *text,
                  GAsyncReadyCallback callback, gpointer user_data);

G_END_DECLS
