// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-signature-pad.h"

G_BEGIN_DECLS

/**
 * Who says so, and how: a name, five ways by digit, and a box to sign in when that is the way. Signals: `changed`;
 * `entered`, by Enter in the name.
 */
#define HS_TYPE_CONSENT (hs_consent_get_type ())
G_DECLARE_FINAL_TYPE (HsConsent, hs_consent, HS, CONSENT, GtkBox)

void hs_consent_set_who (HsConsent *self, const char *who);
const char *hs_consent_get_who (HsConsent *self);

/** hs_consent_press: a digit from 1 for a way. Returns: there is such a way. */
gboolean hs_consent_press (HsConsent *self, guint digit);

/** hs_consent_get_means: (nullable): `phone` …, %NULL until one is picked. */
const char *hs_consent_get_means (HsConsent *self);

/** hs_consent_set_means: @id: of a way; anything else leaves it as it is. */
void hs_consent_set_means (HsConsent *self, const char *id);

/** hs_consent_say_missing: that no way is picked yet, and how one is. */
const char *hs_consent_say_missing (void);

/** hs_consent_focus: the cursor on the way that is picked, else on the first. */
void hs_consent_focus (HsConsent *self);

/** hs_consent_show_digits: whether digits mean a way now. */
void hs_consent_show_digits (HsConsent *self, gboolean shown);

/** hs_consent_dup_signature: (transfer full) (nullable): if that is the way and it was signed. */
GBytes *hs_consent_dup_signature (HsConsent *self);
HsSignaturePad *hs_consent_get_pad (HsConsent *self);

/** hs_consent_set_signed: it was signed elsewhere already; @signature: (nullable) */
void hs_consent_set_signed (HsConsent *self, GBytes *signature);

G_END_DECLS
