// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-pane.h"

G_BEGIN_DECLS

/* Stands before the name of a field of this card where it is a field of a page. */
#define HS_IDENTIFY_FIELD "id:"

/**
 * Whether the vehicle that stands there is the one on record: plate, VIN, odometer; and whether the complaint was seen
 * to happen. What does not agree is a question; a reason answers it. A VIN that is scanned lands in its field from
 * anywhere in the card.
 */
#define HS_TYPE_IDENTIFY_CARD (hs_identify_card_get_type ())
G_DECLARE_FINAL_TYPE (HsIdentifyCard, hs_identify_card, HS, IDENTIFY_CARD, HsJobPane)

/** hs_identify_card_go_on: puts the cursor where the vehicle that stands there is identified next: its plate first, as
 * long as its odometer was not read on this job. Returns: whether anything is left. */
gboolean hs_identify_card_go_on (HsIdentifyCard *self);

/** hs_identify_card_field_title: (transfer none) (nullable): the name of a field of this card, for "Where was I". */
const char *hs_identify_card_field_title (const char *field);

G_END_DECLS
