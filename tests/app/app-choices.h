// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "app-book.h"
#include "hs-app-test.h"
#include "hs-ask.h"
#include "hs-question.h"

void app_choices_assert_says (GtkWidget *widget, const char *text);

/* Something that can be typed into says @text. */
gboolean app_choices_holds (GtkWidget *widget, const char *text);

/* The pane of a job's choices. */
GtkWidget *app_choices_open (AppBook *book, const char *number);

/* Runs until the window of @type is gone and the book has answered. */
void app_choices_wait_shut (AppBook *book, GType type);

/* The choices as the book has them. */
HsQuestion *app_choices_ask_job (AppBook *book);
const HsJobChoices *app_choices_get (HsQuestion *ask);

/* Types into whatever has the focus of @window; Enter there. */
void app_choices_type_at (GtkWidget *window, const char *text);
void app_choices_enter (AppBook *book, GtkWidget *window);
void app_choices_press_button (AppBook *book, GtkWidget *window, const char *text);

/* The window of an option that the book has with its words alone; a line of it; one whole option of 211.01. */
GtkWidget *app_choices_begin_option (AppBook *book, GtkWidget *pane, const char *wording);
void app_choices_add_line (AppBook *book, GtkWidget *window, const char *kind, const char *what, const char *number);
void app_choices_write_battery (AppBook *book, GtkWidget *pane);

/* The window that asks for an answer to an option, with @keys pressed in it. */
void app_choices_answer (AppBook *book, GtkWidget *pane, guint number, const char *keys);

/* Later, by phone; why is not typed yet. */
GtkWidget *app_choices_say_later (AppBook *book, GtkWidget *pane);

/* The program gone and started again, which opens the job where it was left: its pane. */
GtkWidget *app_choices_come_back (AppBook *book);
