// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "app-book.h"
#include "hs-ask.h"
#include "hs-field-row.h"
#include "hs-question.h"

/* app_arrive_ask_job: (transfer full): the job as its page is shown it; app_arrive_ask: the one of a page. */
HsQuestion *app_arrive_ask_job (AppBook *book, const char *job_id);
HsQuestion *app_arrive_ask (AppBook *book, GtkWidget *page);
const HsArrival *app_arrive_of (HsQuestion *asked);

/* app_arrive_press_in: a key in a window that lies over the book's own, as a keyboard would. */
void app_arrive_press_in (AppBook *book, GtkWidget *window, guint keyval);
void app_arrive_type_in (AppBook *book, GtkWidget *window, const char *keys);

/* app_arrive_at: F4 and F4: rolling, at the vehicle. Returns: (nullable): the window of the safety list. */
GtkWidget *app_arrive_at (AppBook *book, GtkWidget *page);

/* app_arrive_row: (nullable): the field of that id below a widget; app_arrive_has_cursor: it has the keyboard. */
HsFieldRow *app_arrive_row (GtkWidget *card, const char *id);
gboolean app_arrive_has_cursor (AppBook *book, HsFieldRow *row);
