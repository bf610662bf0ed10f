// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <gtk/gtk.h>

/* Starts GTK, libadwaita and the look, with Cantarell-like fixed settings; call it first in main. */
void hs_app_test_init (int *argc, char ***argv);

/* Runs the main loop until @condition holds; fails the test after a minute, for a machine may be busy. */
#define hs_app_test_wait(condition)                                            \
  G_STMT_START                                                                 \
  {                                                                            \
    gint64 hs_end = g_get_monotonic_time () + 60 * G_USEC_PER_SEC;             \
    while (!(condition) && g_get_monotonic_time () < hs_end)                   \
      if (!g_main_context_iteration (NULL, FALSE))                             \
        g_usleep (1000);                                                       \
    g_assert_true (condition);                                                 \
  }                                                                            \
  G_STMT_END

/* Presents @widget in a window of @width × @height and waits for its first frame. */
GtkWindow *hs_app_test_show (GtkWidget *widget, int width, int height);

/* Types @text into @widget key by key, as a keyboard would: each widget on the way up may take a key. */
gboolean hs_app_test_key (GtkWidget *widget, guint keyval, GdkModifierType modifiers);

/* The same, but the key is not let go: pressed so again, it repeats. */
gboolean hs_app_test_hold_key (GtkWidget *widget, guint keyval);

/* (transfer none): the first descendant of @type, in drawing order; NULL when there is none. */
GtkWidget *hs_app_test_find (GtkWidget *widget, GType type);

/* Whether a shown label below @widget has exactly @text. */
gboolean hs_app_test_says (GtkWidget *widget, const char *text);

/* Whether a shown label below @widget has @text in it. */
gboolean hs_app_test_says_part (GtkWidget *widget, const char *text);

/* (transfer none) (nullable): the shown label below @widget with exactly @text; the key button with such a label. */
GtkWidget *hs_app_test_label (GtkWidget *widget, const char *text);
GtkWidget *hs_app_test_button (GtkWidget *widget, const char *text);

/* (transfer none) (nullable): the window of @type that is open. */
GtkWidget *hs_app_test_window (GType type);

/* Lets some frames be drawn. */
void hs_app_test_frames (void);

/* Saves what @widget looks like as HS_TEST_PICTURES/@name.png, for people to look at; nothing if that is not set. */
void hs_app_test_picture (GtkWidget *widget, const char *name);
