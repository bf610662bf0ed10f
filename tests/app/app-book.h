// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-window.h"

/* A window on a demo book in a folder of its own, its clock standing at 07:52 of the demo's morning. */
typedef struct
{
  char *folder;
  char *path;
  HsWindow *window;
  HsLedger *ledger;
} AppBook;

void app_book_open (AppBook *book, gconstpointer data);
/* The same on a new, empty book. */
void app_book_open_new (AppBook *book, gconstpointer data);
void app_book_close (AppBook *book, gconstpointer data);

/* Opens the window again on the same file, as after a kill: what was open is simply forgotten. */
void app_book_open_window (AppBook *book);
void app_book_close_window (AppBook *book);

/* Shows a view and waits until the ledger has answered. */
GtkWidget *app_book_show (AppBook *book, const char *page);

/* Runs the main context until nothing is outstanding. */
void app_book_settle (AppBook *book);

/* Presses keys, as a keyboard would, at whatever has the focus; "\n" is Enter. Returns: how many. */
guint app_book_type (AppBook *book, const char *keys);
void app_book_press (AppBook *book, guint keyval);

/* The same in a window that lies over it. */
void app_book_press_in (GtkWidget *window, guint keyval);

/* (nullable) (transfer none): the window that lies on top; %NULL: none over the book's own. */
GtkWidget *app_book_find_top (AppBook *book);

/* Presses keys at whatever window lies on top. "F" and a digit is a function key, "^" Page Down, "~" Insert, "\n"
 * Enter, "\x1b" Esc, all else itself. Returns: how many. */
guint app_book_keys (AppBook *book, const char *keys);

/* What F4 does on a page; where it is asked first whether to roll, 1 answers. */
void app_book_next_stage (AppBook *book, GtkWidget *page);

/* The window needs no more than @width × @height, and the list of a page keeps some room in it. */
void app_book_assert_fits (AppBook *book, GtkWidget *page, int width, int height);

/* The safety list of the visit at @number is answered: safe here. */
void app_book_make_safe (AppBook *book, const char *number);

/* Opens a job's page by its number. */
GtkWidget *app_book_open_job (AppBook *book, const char *number, const char *page);
