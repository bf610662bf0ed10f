// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * HsPastYes:
 * @said: where it is told why an answer was refused
 * @insist: the key that says yes to it all the same; shown while there is something to say yes to
 * @given: (nullable): the answer that was sent last and not refused
 * @passes: (nullable): the one of which it was told by how much it would pass the go-ahead
 */
typedef struct
{
  GtkLabel *said;
  GtkWidget *insist;
  char *given;
  char *passes;
} HsPastYes;

/** hs_past_yes_clear: its strings; the widgets are the pane's. */
void hs_past_yes_clear (HsPastYes *self);

/** hs_past_yes_say: @text: (nullable): nothing */
void hs_past_yes_say (HsPastYes *self, const char *text);

/** hs_past_yes_give: an answer is on its way to the book. */
void hs_past_yes_give (HsPastYes *self, const char *text);

/** hs_past_yes_refuse: the book refused it; where it only passes the go-ahead, a yes to it is offered. What was refused
 * without hs_past_yes_give() has no answer to say yes to, and is told alone. */
void hs_past_yes_refuse (HsPastYes *self, const GError *error);

/** hs_past_yes_forget: another answer comes, and what was told holds no more. */
void hs_past_yes_forget (HsPastYes *self);

G_END_DECLS
