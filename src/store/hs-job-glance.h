// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-row.h"

G_BEGIN_DECLS

/**
 * HsJobGlance:
 * @id: of the job
 * @stage: id of the stage
 * @vehicle: (nullable): "Vostle Crag 2016"
 * @follows_number: (nullable): of a return visit, the earlier job
 * @need_count: needs that are neither in the van, installed, going back nor dropped
 * @need_part: (nullable): name of the first of them
 * @need_supplier: (nullable): its counter
 * @need_sure_percent: how sure it is, or %HS_INT_NONE
 * @van_part: (nullable): name of the first need that is in the van
 * @open_choices: recommendations without an answer
 * @charges_cents: lines with tax
 * @ceiling_cents: of the latest go-ahead; 0 if there is none
 * @invoiced_on: or %HS_DATE_NONE
 * @due_on: of the invoice, or %HS_DATE_NONE
 * @rolling_at: of the latest visit, as @arrived_at and @left_at
 * @has_draft: something was being typed
 * @van_id: (nullable): the van that has it
 *
 * One job as the board shows it, with what decides whether it wants attention.
 */
typedef struct
{
  char *id;
  char *number;
  char *stage;
  char *kind;
  char *words;
  HsDate day;
  HsInstant window_from;
  HsInstant window_to;
  gint64 guess_seconds;
  char *return_why;
  gint64 owed_cents;
  HsInstant changed_at;
  char *customer_id;
  char *customer;
  char *area_id;
  char *area;
  char *signal;
  char *vehicle_id;
  char *plate;
  char *vehicle;
  gboolean high_voltage;
  char *follows_number;
  gint64 need_count;
  char *need_part;
  char *need_supplier;
  gint64 need_sure_percent;
  char *van_part;
  gint64 open_choices;
  gint64 charges_cents;
  gint64 ceiling_cents;
  HsDate invoiced_on;
  HsDate due_on;
  HsInstant rolling_at;
  HsInstant arrived_at;
  HsInstant left_at;
  gboolean has_draft;
  char *van_id;
} HsJobGlance;

void hs_job_glance_free (HsJobGlance *glance);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsJobGlance, hs_job_glance_free)

/* hs_job_glance_list: every open job, and every other one that owes something; by stage, window, number. One query. */
gboolean hs_job_glance_list (HsStore *store, GPtrArray **ret_glances, GError **error);

/* hs_job_glance_list_closed: of the closed jobs the @limit newest, newest first. */
gboolean hs_job_glance_list_closed (HsStore *store, guint limit, GPtrArray **ret_glances, GError **error);

/* hs_job_glance_load: of one job in any stage; %HS_STORE_ERROR_NOT_FOUND. */
gboolean hs_job_glance_load (HsStore *store, const char *job_id, HsJobGlance **ret_glance, GError **error);

G_END_DECLS
