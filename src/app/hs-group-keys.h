// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

#include "hs-check.h"

G_BEGIN_DECLS

/**
 * hs_group_keys_fill:
 * @box: gets a button for each complaint group, once
 * @checks: (nullable): the catalog; without it nothing happens
 * @clicked: void (*) (GObject *owner, GtkButton *button); hs_group_keys_get_nth() says which group it is
 */
void hs_group_keys_fill (GtkFlowBox *box, HsChecks *checks, GCallback clicked, GObject *owner);

/* hs_group_keys_get_nth: which group of the catalog @button stands for. */
guint hs_group_keys_get_nth (GtkButton *button);

G_END_DECLS
