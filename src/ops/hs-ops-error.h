// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsOpsError:
 * @HS_OPS_ERROR_REFUSED: the operation is not allowed as asked; nothing was saved
 * @HS_OPS_ERROR_NOT_FOUND: it names something that the book does not hold
 * @HS_OPS_ERROR_WANTS_WHY: refused as it stands; with a reason it would be taken
 * @HS_OPS_ERROR_PAST_CEILING: it would pass the go-ahead by what the message says; told so, the owner may still do it
 * @HS_OPS_ERROR_LEAVES_OPEN: the van would leave a vehicle whose labor clock runs; told so, the owner may still go
 * @HS_OPS_ERROR_UNREAD: nobody began the safety list of the visit; told so, the owner may pass it
 *
 * The codes that a caller acts on; the message says the rest, in words for the owner.
 */
typedef enum
{
  HS_OPS_ERROR_REFUSED,
  HS_OPS_ERROR_NOT_FOUND,
  HS_OPS_ERROR_WANTS_WHY,
  HS_OPS_ERROR_PAST_CEILING,
  HS_OPS_ERROR_LEAVES_OPEN,
  HS_OPS_ERROR_UNREAD,
} HsOpsError;

#define HS_OPS_ERROR (hs_ops_error_quark ())
GQuark hs_ops_error_quark (void);

G_END_DECLS
