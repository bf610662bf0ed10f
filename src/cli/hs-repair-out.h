// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cli.h"
#include "hs-repair-op.h"

G_BEGIN_DECLS

/* hs_repair_out_write: the members of an object, which the caller has begun. */
void hs_repair_out_write (HsJsonOut *out, const HsRepair *repair);
void hs_repair_out_print (HsCli *cli, const HsRepair *repair);

/* hs_repair_out_show: loads the repair of a job and prints it, as JSON if that is asked. */
gboolean hs_repair_out_show (HsCli *cli, const char *job_id, GError **error);

G_END_DECLS
