// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cli.h"
#include "hs-identify-op.h"
#include "hs-safety-op.h"
#include "hs-visit-view.h"

G_BEGIN_DECLS

/* What belongs to arriving, as JSON; each under @name, or %NULL within an array or at the top. */

void hs_identity_out_write (HsJsonOut *out, const char *name, const HsIdentity *identity);
void hs_safety_out_write (HsJsonOut *out, const char *name, const HsSafetySheet *sheet);
void hs_visit_out_write (HsJsonOut *out, const char *name, const HsVisitView *view);

/** hs_arrive_out_write: identity, visits and safety of a job, within its object. */
gboolean hs_arrive_out_write (HsCli *cli, HsJsonOut *out, const char *job_id, GError **error);

G_END_DECLS
