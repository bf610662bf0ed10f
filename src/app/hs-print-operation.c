// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A paper for the print dialog: the same pages as in the file, for the layers below know nothing of printers. */

#include "hs-print-operation.h"

/* From this width in points on it is letter; A4 is a little narrower. */
#define LETTER_POINTS 600

static void
draw_page_cb (GtkPrintOperation *operation, GtkPrintContext *context, int nth, gpointer data)
{
  hs_paper_draw_page (data, gtk_print_context_get_cairo_context (context), (guint) nth);
}

static GtkPageSetup *
setup_of (const HsPaper *paper)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  GtkPaperSize *size;
  double width, height;

  hs_paper_get_size (paper, &width, &height);
  size = gtk_paper_size_new (width >= LETTER_POINTS ? GTK_PAPER_NAME_LETTER : GTK_PAPER_NAME_A4);
  gtk_page_setup_set_paper_size_and_default_margins (setup, size);
  gtk_paper_size_free (size);
  return setup;
}

static void
drop_paper (gpointer paper, GClosure *closure)
{
  hs_paper_free (paper);
}

GtkPrintOperation *
hs_print_operation_new (HsPaper *paper)
{
  GtkPrintOperation *operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = setup_of (paper);

  gtk_print_operation_set_job_name (operation, hs_paper_get_title (paper));
  gtk_print_operation_set_n_pages (operation, (int) hs_paper_get_n_pages (paper));
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  gtk_print_operation_set_allow_async (operation, TRUE);
  g_signal_connect_data (operation, "draw-page", G_CALLBACK (draw_page_cb), paper, drop_paper, 0);
  return operation;
}
