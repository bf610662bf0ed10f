// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-log-row.h"

G_BEGIN_DECLS

/* hs_change_log_add: one line in the log, at the transaction's now; nothing while a book is filled in bulk. */
gboolean hs_change_log_add (HsStore *store, const char *table, const char *row_id, const char *act, const char *field,
                            const char *was, const char *became, GError **error);

G_END_DECLS
