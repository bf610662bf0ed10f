// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-window.h"

#include "hs-key-button.h"
#include "hs-room.h"
#include "hs-tabs.h"

G_BEGIN_DECLS

/* Shared by the files of the window: hs-window.c has the frame, -actions.c the keys, -say.c what is said, -over.c what
 * lies over it. */

struct _HsWindow
{
  AdwApplicationWindow parent_instance;

  AdwToastOverlay *toasts;
  AdwToast *toast; /* weak: the one that is shown, since @toast_at */
  gint64 toast_at;
  gint64 refused_at;
  HsRoom *room;
  AdwHeaderBar *header;
  GtkStack *title_stack;
  GtkLabel *narrow_title;
  HsTabs *view_tabs;
  HsTabs *job_tabs;
  HsTabs *bottom_tabs;
  GtkWidget *view_buttons;
  GtkWidget *search_button;
  GtkMenuButton *menu_button;
  GtkWidget *unsent_button;
  GtkWidget *job_buttons;
  GtkLabel *job_title;
  GtkLabel *time_label;
  GtkLabel *date_label;
  GtkWidget *clock_box;
  GtkRevealer *notice_revealer;
  GtkBox *notice_box;
  GtkStack *deck;
  GtkStack *views;
  GtkBox *job_slot;
  GtkWidget *footer;
  GtkWidget *where_box;
  GtkBox *where_words;
  GtkLabel *where_head;
  GtkLabel *where_label;
  GtkLabel *age_label;
  HsKeyButton *go_back;
  HsKeyRow *keys;

  HsClock *clock;
  GtkStack *job_stack;
  GtkWidget *back_to; /* weak: what had the focus before a job was opened */
  GHashTable *hints;
  char *where_place;
  char *where_age;
};

/* hs_window_open_menu: drops the main menu down. */
void hs_window_open_menu (HsWindow *self);

void hs_window_install_actions (GtkWidgetClass *widget_class);

/* hs_window_give_back: @had_focus: (nullable): takes the focus of @beneath back, if it is lost. */
void hs_window_give_back (GtkWindow *beneath, GtkWidget *had_focus);

/* The arrows from the bars of the window onto the lines of the page, and digits to what they look for there. */
void hs_window_watch_keys (HsWindow *self);

G_END_DECLS
