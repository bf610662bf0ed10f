// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

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

/* hs_tongue_english: says everything as it stands. */
extern const HsTongue hs_tongue_english;

G_END_DECLS
