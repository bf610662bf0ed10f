// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The bill of a job as it stands now. It adds nothing up: every sum comes from the book. */

#include "hs-bill-pane.h"

#include <glib/gi18n.h>

#include "hs-line-list.h"
#include "hs-show.h"

struct _HsBillPane
{
  HsJobPane parent_instance;

  GtkBox *lines;
};

G_DEFINE_FINAL_TYPE (HsBillPane, hs_bill_pane, HS_TYPE_JOB_PANE)

static void
add_sum (HsBillPane *self, const char *text, gint64 cents)
{
  g_autofree char *figure = hs_show_money (hs_page_get_ledger (HS_PAGE (self)), cents);

  hs_line_list_add (self->lines, text, figure, "hs-strong");
}

static void
add_charges (HsBillPane *self, GPtrArray *charges)
{
  hs_line_list_add (self->lines, _("Lines"), NULL, "hs-title");
  for (guint i = 0; charges != NULL && i < charges->len; i++)
    {
      g_auto (GStrv) parts = g_strsplit (g_ptr_array_index (charges, i), "\t", 2);

      hs_line_list_add (self->lines, parts[0], parts[1], NULL);
    }
  if (charges == NULL || charges->len == 0)
    hs_line_list_add (self->lines, _("Nothing is charged yet."), NULL, "hs-soft");
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsBillPane *self = HS_BILL_PANE (pane);
  const HsJobView *view = shot->view;
  gint64 total = view->net_cents + view->tax_cents;

  hs_line_list_clear (self->lines);
  add_charges (self, view->lines);
  add_sum (self, _("Net"), view->net_cents);
  add_sum (self, _("Tax"), view->tax_cents);
  add_sum (self, _("Total"), total);
  add_sum (self, _("Paid"), view->paid_cents);
  add_sum (self, _("To pay"), total - view->paid_cents);
  hs_line_list_add_all (self->lines, _("Installed"), view->installed, _("No part was installed."));
}

static void
hs_bill_pane_class_init (HsBillPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  HS_JOB_PANE_CLASS (klass)->show = show_job;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-bill-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, HsBillPane, lines);
}

static void
hs_bill_pane_init (HsBillPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
