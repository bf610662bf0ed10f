// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Why it failed, in the sentences that the invoice will have. */

#include "hs-chain-pane.h"

#include <glib/gi18n.h>

#include "hs-line-list.h"

struct _HsChainPane
{
  HsJobPane parent_instance;

  GtkBox *lines;
};

G_DEFINE_FINAL_TYPE (HsChainPane, hs_chain_pane, HS_TYPE_JOB_PANE)

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsChainPane *self = HS_CHAIN_PANE (pane);

  hs_line_list_clear (self->lines);
  hs_line_list_add_all (self->lines, _("Why it failed"), shot->view->because, _("Not said yet why it failed."));
}

static void
hs_chain_pane_class_init (HsChainPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  HS_JOB_PANE_CLASS (klass)->show = show_job;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-chain-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, HsChainPane, lines);
}

static void
hs_chain_pane_init (HsChainPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
