// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"

G_BEGIN_DECLS

/* The fee that the settings give. */
#define HS_FEE_AS_SET G_GINT64_CONSTANT (-1)

/**
 * hs_job_call_off:
 * @how: `canceled`, `no_show`, `gone_on_arrival`
 * @fee_cents: 0: none; %HS_FEE_AS_SET
 * @reason: needed
 *
 * The job goes off the road. A fee becomes a line of it; calling it off in another way takes that line away again.
 */
gboolean hs_job_call_off (HsBook *book, const char *job_id, const char *how, gint64 fee_cents, const char *reason,
                          HsInstant now, GError **error);

/** hs_call_off_charged: the fee on the bill of a job that is called off, which goes when it is taken up; 0: none. */
gboolean hs_call_off_charged (HsBook *book, const char *job_id, gint64 *ret_cents, GError **error);

/** hs_call_off_fee: what the settings ask for being called off in that way. */
gboolean hs_call_off_fee (HsBook *book, const char *how, gint64 *ret_cents, GError **error);

G_END_DECLS
