// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How the findings page uses the room it has: the list beside the field, or below it with the pad on a phone. */

#include "hs-findings-private.h"

/* Moves @widget, unless it is there already. */
static void
place (GtkWidget *widget, AdwBin *from, AdwBin *to)
{
  if (adw_bin_get_child (from) == NULL)
    return;
  g_object_ref (widget);
  adw_bin_set_child (from, NULL);
  adw_bin_set_child (to, widget);
  g_object_unref (widget);
}

/* Caution, gauge and source scroll on a phone, where the pad needs the height; elsewhere they stand in full: a scrolled
 * window does not know how high words are that wrap. */
static void
place_details (HsFindings *self, gboolean narrow)
{
  gtk_widget_set_visible (self->details_scroll, narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->details_wide), !narrow);
  place (self->details, narrow ? self->details_wide : self->details_narrow,
         narrow ? self->details_narrow : self->details_wide);
}

void
hs_findings_room_changed (HsPage *page)
{
  HsFindings *self = HS_FINDINGS (page);
  gboolean narrow = hs_page_get_narrow (page);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->panes),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_reorder_child_after (self->panes, self->sheet_pane, narrow ? self->entry_pane : NULL);
  gtk_box_set_spacing (self->panes, narrow ? 0 : 20);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->entry_row),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_spacing (self->entry_row, narrow ? 8 : 16);
  place_details (self, narrow);
  if (narrow)
    gtk_widget_remove_css_class (GTK_WIDGET (self->verdict), "hs-large");
  else
    gtk_widget_add_css_class (GTK_WIDGET (self->verdict), "hs-large");
  gtk_widget_set_vexpand (self->entry_pane, !narrow);
  gtk_widget_set_visible (self->next_scroll, !narrow);
  place (self->next_box, narrow ? self->next_wide : self->next_narrow,
         narrow ? self->next_narrow : self->next_wide);
  hs_findings_update_next (self, TRUE);
  gtk_widget_set_size_request (self->sheet_pane, narrow ? -1 : 500, -1);
  gtk_widget_set_hexpand (self->sheet_pane, narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->pad), narrow);
  hs_findings_update_lines (self);
}
