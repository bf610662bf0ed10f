// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-customer-shot.h"
#include "hs-ledger.h"

G_BEGIN_DECLS

/* hs_ask_customer: (s): id of a job; answers an #HsCustomerShot. In a header of its own, for the page that asks it may
 * know nothing else of a job. */
gpointer hs_ask_customer (HsBook *book, GVariant *args, HsInstant now, GError **error);

G_END_DECLS
