// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The window of keys: those of everywhere, and those of the page that it lies over. GtkShortcutsWindow is deprecated in
 * later GTK, so this file is the only one that knows it. */

#include "hs-help-overlay.h"

#include "hs-job-page.h"

/* On a job the keys of the day do nothing; of its findings, those of the face that is open count. */
static void
show_groups (GtkBuilder *builder, gboolean on_job, const char *face)
{
  const struct
  {
    const char *group;
    gboolean shown;
  } groups[] = {
    { "day", !on_job },
    { "job", on_job },
    { "readings", g_strcmp0 (face, "readings") == 0 },
    { "why", g_strcmp0 (face, "why") == 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (groups); i++)
    {
      GtkWidget *group = GTK_WIDGET (gtk_builder_get_object (builder, groups[i].group));

      if (!groups[i].shown)
        gtk_box_remove (GTK_BOX (gtk_widget_get_parent (group)), group);
    }
  /* Told its height, the section lays out anew what is left. */
  g_object_set (gtk_builder_get_object (builder, "section"), "max-height", 13, NULL);
}

GtkWindow *
hs_help_overlay_new (gboolean on_job, const char *face)
{
  g_autoptr (GtkBuilder) builder = gtk_builder_new_from_resource ("/org/halfshaft/Halfshaft/ui/hs-help-overlay.ui");

  show_groups (builder, on_job, face);
  return GTK_WINDOW (gtk_builder_get_object (builder, "help_overlay"));
}

void
hs_help_overlay_present (HsWindow *parent)
{
  GtkWidget *job;
  GtkWindow *overlay;

  g_return_if_fail (HS_IS_WINDOW (parent));

  job = hs_window_get_job (parent);
  overlay = hs_help_overlay_new (job != NULL,
                                 HS_IS_JOB_PAGE (job) ? hs_job_page_get_face (HS_JOB_PAGE (job)) : NULL);
  gtk_window_set_transient_for (overlay, GTK_WINDOW (parent));
  gtk_window_set_modal (overlay, TRUE);
  gtk_window_present (overlay);
}
