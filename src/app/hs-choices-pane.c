// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Told and picked, and the go-aheads of a job. */

#include "hs-choices-pane.h"

#include <glib/gi18n.h>

#include "hs-line-list.h"

struct _HsChoicesPane
{
  HsJobPane parent_instance;

  GtkBox *lines;
};

G_DEFINE_FINAL_TYPE (HsChoicesPane, hs_choices_pane, HS_TYPE_JOB_PANE)

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsChoicesPane *self = HS_CHOICES_PANE (pane);

  hs_line_list_clear (self->lines);
  hs_line_list_add_all (self->lines, _("Told and picked"), shot->view->advice, _("Nothing was recommended yet."));
  hs_line_list_add_all (self->lines, _("Go-ahead"), shot->view->go_aheads, _("No go-ahead yet."));
}

static void
hs_choices_pane_class_init (HsChoicesPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  HS_JOB_PANE_CLASS (klass)->show = show_job;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-choices-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, HsChoicesPane, lines);
}

static void
hs_choices_pane_init (HsChoicesPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
