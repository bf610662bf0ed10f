// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The sheets of the gallery, with the values of the invented business. */

#include "gallery-sheets.h"

#include <adwaita.h>

#include "hs-chip.h"
#include "hs-key-button.h"
#include "hs-verdict-label.h"
#include "hs-window.h"

static HsWindow *
create_shell (void)
{
  static const HsKeyHint keys[] = {
    { "F3", "Call slip", "win.call-slip" },
    { "F5", "Squeeze in", "win.squeeze-in" },
    { "F7", "Customer", "win.customer" },
  };
  static const char *const pages[][3] = {
    { "jobs", "Jobs", "jobs" },
    { "today", "Today", "today" },
    { "parts", "Parts run", "parts" },
    { "vehicles", "Vehicles", "vehicles" },
    { "money", "Money", "money" },
  };
  g_autoptr (GTimeZone) zone = g_time_zone_new_utc ();
  g_autoptr (HsClock) clock = hs_clock_new (zone);
  HsWindow *window;

  hs_clock_freeze_at (clock, 1773129120);
  window = hs_window_new (NULL, clock);
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      hs_window_add_page (window, pages[i][0], pages[i][1], pages[i][2], gtk_box_new (GTK_ORIENTATION_VERTICAL, 0));
      hs_window_set_keys (window, pages[i][0], keys, G_N_ELEMENTS (keys));
    }
  hs_window_set_where (window, "A-0026 · Call · Who holds the key", "6 min ago");
  return window;
}

static GtkWindow *
create_frame (void)
{
  return GTK_WINDOW (create_shell ());
}

static GtkWindow *
create_job_frame (void)
{
  HsWindow *window = create_shell ();
  GtkWidget *stack = gtk_stack_new ();
  static const char *const titles[] = { "Call", "Findings", "Choices", "Bill", "Before and after" };

  for (guint i = 0; i < G_N_ELEMENTS (titles); i++)
    gtk_stack_add_titled (GTK_STACK (stack), gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), titles[i], titles[i]);
  gtk_stack_set_visible_child_name (GTK_STACK (stack), "Findings");
  hs_window_open_job (window, "A-0024", GTK_STACK (stack), stack);
  hs_window_set_notice (window, "book", "The book is on a read-only folder: nothing can be stored. Move it first.");
  return GTK_WINDOW (window);
}

static GtkWidget *
row_of (GtkWidget *first,
        ...)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 20);
  va_list rest;

  va_start (rest, first);
  for (GtkWidget *child = first; child != NULL; child = va_arg (rest, GtkWidget *))
    {
      gtk_widget_set_valign (child, GTK_ALIGN_CENTER);
      gtk_box_append (GTK_BOX (box), child);
    }
  va_end (rest);
  return box;
}

static GtkWidget *
text (const char *words,
      const char *css_class)
{
  GtkWidget *label = gtk_label_new (words);

  gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
with_class (GtkWidget  *widget,
            const char *css_class)
{
  gtk_widget_add_css_class (widget, css_class);
  return widget;
}

static GtkWindow *
paper_window (GtkWidget *child)
{
  GtkWindow *window = g_object_new (ADW_TYPE_WINDOW, "content", child, NULL);

  gtk_widget_set_margin_start (child, 20);
  gtk_widget_set_margin_end (child, 20);
  gtk_widget_set_margin_top (child, 20);
  gtk_widget_set_margin_bottom (child, 20);
  return window;
}

static GtkWindow *
create_tokens (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);

  gtk_box_append (GTK_BOX (box), row_of (text ("0.31", "hs-entry"), text ("08:31", "hs-figure"),
                                         text ("Why it failed", "hs-head"), text ("“flat every week”", "hs-title"),
                                         text ("Body text", "hs-body"), text ("Caption", "hs-caption"), NULL));
  gtk_box_append (GTK_BOX (box), row_of (hs_key_button_new ("F2", "Go Back", NULL),
                                         with_class (hs_key_button_new ("F4", "Rolling", NULL), "hs-fill"),
                                         hs_keycap_new ("Enter"), hs_keycap_new ("0–9"), hs_plate_chip_new ("TDM 1315"),
                                         with_class (hs_plate_chip_new ("TDM 8816"), "hs-large"),
                                         hs_bracket_new ("08:00–10:00"),
                                         with_class (hs_bracket_new ("08:00–10:00"), "hs-small"), NULL));
  gtk_box_append (GTK_BOX (box), row_of (hs_verdict_label_new ("within", HS_VERDICT_SHAPE_PLAIN),
                                         hs_verdict_label_new ("charge", HS_VERDICT_SHAPE_THIN),
                                         hs_verdict_label_new ("outside", HS_VERDICT_SHAPE_HEAVY),
                                         hs_verdict_label_new ("cannot tell", HS_VERDICT_SHAPE_DASHED),
                                         hs_verdict_label_new ("makers differ", HS_VERDICT_SHAPE_DOTTED),
                                         hs_verdict_label_new ("do not drive", HS_VERDICT_SHAPE_DOUBLE),
                                         with_class (hs_verdict_label_new ("outside", HS_VERDICT_SHAPE_HEAVY),
                                                     "hs-large"), NULL));
  return paper_window (box);
}

const Sheet gallery_sheets[] = {
  { "tokens", 1100, 300, create_tokens },
  { "shell", 1280, 800, create_frame },
  { "shell-1024", 1024, 600, create_frame },
  { "shell-360", 360, 800, create_frame },
  { "job", 1280, 400, create_job_frame },
  { "job-360", 360, 400, create_job_frame },
  { NULL },
};
