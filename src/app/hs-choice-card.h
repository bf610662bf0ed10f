// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * HsChoiceFace:
 * @number: the digit that picks it; more than 9 is shown without
 * @rank: (nullable): “Best”
 * @price: with tax
 * @risk: (nullable): in one sentence
 * @weigh: (nullable): what it means beside the others
 * @answer: (nullable): what was answered; %NULL: nothing yet
 * @chosen: it is the one that stands out
 *
 * What is shown of an option, in words.
 */
typedef struct
{
  guint number;
  const char *rank;
  const char *wording;
  const char *price;
  const char *risk;
  const char *weigh;
  const char *answer;
  gboolean chosen;
} HsChoiceFace;

/** An option as a card with its digit; a button. CSS class hs-choice; chosen. */
#define HS_TYPE_CHOICE_CARD (hs_choice_card_get_type ())
G_DECLARE_FINAL_TYPE (HsChoiceCard, hs_choice_card, HS, CHOICE_CARD, GtkButton)

GtkWidget *hs_choice_card_new (const HsChoiceFace *face);
void hs_choice_card_set_chosen (HsChoiceCard *self, gboolean chosen);

G_END_DECLS
