// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* The day behind its header: what the page shows (hs-today-page.c) and what its keys do (hs-today-actions.c). */

#include "hs-today-page.h"

#include "hs-ask.h"
#include "hs-day-figures.h"
#include "hs-items.h"
#include "hs-key-button.h"
#include "hs-sketch.h"
#include "hs-time-strip.h"

G_BEGIN_DECLS

struct _HsTodayPage
{
  HsPage parent_instance;

  GtkBox *page_box;
  GtkLabel *day_label;
  GtkWidget *day_bar;
  HsKeyButton *day_why; /* why_button where that has no room in the bar */
  HsSnapshot *before; /* the plan that stands, while another is looked at */
  HsDayFigures *figures;
  GtkWidget *why_button;
  HsKeyButton *van_button;
  HsKeyButton *share_button;
  GtkWidget *this_day_button;
  GtkWidget *accept_box;
  GtkWidget *keep_old;
  GtkLabel *accept_label;
  HsKeyButton *next_button;
  GtkWidget *broken_box;
  GtkLabel *broken_title;
  GtkLabel *broken;
  HsTimeStrip *strip;
  GtkListView *list;
  GtkWidget *list_frame;
  GtkWidget *none;
  GtkLabel *none_head;
  GtkWidget *set_up_button;
  GtkLabel *none_text;
  GtkLabel *penciled;
  GtkWidget *sketch_frame;
  HsSketch *sketch;

  HsItems *stops;
  GtkSingleSelection *selection;
  HsQuestion *ask;
  HsQuestion *mends;
  HsQuestion *board;
  HsQuestion *places;
  HsDate day;
  gboolean anew;
  gboolean sketch_wanted;
  gboolean follows_window;
  gboolean comes; /* it was shown just now and the focus is not in the list yet */
};

/* hs_today_page_get_plan: (transfer none) (nullable): what is shown. */
const HsDayPlan *hs_today_page_get_plan (HsTodayPage *self);
void hs_today_page_ask (HsTodayPage *self);

/* hs_today_page_get_chosen: (transfer none) (nullable): the stop that is chosen in the list and on the strip. */
const HsPlannedStop *hs_today_page_get_chosen (HsTodayPage *self);
void hs_today_page_choose (HsTodayPage *self, const char *id);

/* hs_today_page_get_focused: (transfer none) (nullable): the stop whose row has the focus, which may be another. */
const HsPlannedStop *hs_today_page_get_focused (HsTodayPage *self);
/* hs_today_page_get_current: (transfer none) (nullable): that one, else the chosen one. */
const HsPlannedStop *hs_today_page_get_current (HsTodayPage *self);
gboolean hs_today_page_is_in_list (HsTodayPage *self);

/* hs_today_page_go_to_list: puts the focus on the chosen row, unless the list has it. Returns: whether it did. */
gboolean hs_today_page_go_to_list (HsTodayPage *self);

/* hs_today_page_get_next_job: (transfer none) (nullable): what F4 moves: the call whose row has the focus, else the
 * van's own. */
const HsBoardRow *hs_today_page_get_next_job (HsTodayPage *self);

/* hs_today_page_update_room: shows what there is room for. */
void hs_today_page_update_room (HsTodayPage *self);

/* hs-today-actions.c */

void hs_today_actions_install (GtkWidgetClass *widget_class);

G_END_DECLS
