// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-travel.h"

G_BEGIN_DECLS

/**
 * HsTongue:
 * @gettext: of one form
 * @ngettext: of two forms, for a number
 *
 * What puts English into the owner's language: the gettext () and ngettext () of the program, whose signatures they
 * have.
 */
typedef struct
{
  char *(*gettext) (const char *text) G_GNUC_FORMAT (1);
  char *(*ngettext) (const char *one, const char *many, gulong n) G_GNUC_FORMAT (1) G_GNUC_FORMAT (2);
} HsTongue;

/**
 * hs_travel_leg_say:
 *
 * Where the minutes of a drive are known from: "6 own trips at that hour", "your table", "guess: 1 own trip".
 *
 * Returns: (transfer full): in the language of @in
 */
char *hs_travel_leg_say (const HsTravelLeg *leg, const HsTongue *in);

G_END_DECLS
