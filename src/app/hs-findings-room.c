// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How the findings page uses the room it has: the list beside the field, or below it with the pad on a phone. */

#include "hs-findings-private.h"

#include "hs-ink.h"
#include "hs-room.h"

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

/* --- What is typed, and all that it says ------------------------------------------------------------------------- */

/* On a phone the list and the pad need the height too: of the field's pane as much stays as the figure needs. */
#define LEAST_ENTRY_PX 118
#define LEAST_ENTRY_SLIM_PX 76

static GtkSizeRequestMode
entry_mode (GtkWidget *bin)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* A scrolled window does not know how high words are that wrap; what it scrolls does, once it is told its width. */
static void
measure_entry (GtkWidget *bin, GtkOrientation orientation, int for_size, int *minimum, int *natural,
               int *minimum_baseline, int *natural_baseline)
{
  GtkWidget *scroll = gtk_widget_get_first_child (bin);
  GtkWidget *viewport = gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroll));
  HsFindings *self = HS_FINDINGS (gtk_widget_get_ancestor (bin, HS_TYPE_FINDINGS));
  int least = (int) ((hs_findings_is_slim (self) ? LEAST_ENTRY_SLIM_PX : LEAST_ENTRY_PX) * hs_ink_unit (bin));

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      gtk_widget_measure (scroll, orientation, -1, minimum, natural, NULL, NULL);
      return;
    }
  gtk_widget_measure (gtk_viewport_get_child (GTK_VIEWPORT (viewport)), orientation, for_size, minimum, natural, NULL,
                      NULL);
  *minimum = MIN (*minimum, least);
}

static void
allocate_entry (GtkWidget *bin, int width, int height, int baseline)
{
  gtk_widget_allocate (gtk_widget_get_first_child (bin), width, height, baseline, NULL);
}

static HsRoom *
room_of (HsFindings *self)
{
  GtkWidget *room = gtk_widget_get_ancestor (GTK_WIDGET (self), HS_TYPE_ROOM);

  return room != NULL ? HS_ROOM (room) : NULL;
}

gboolean
hs_findings_is_slim (HsFindings *self)
{
  HsRoom *room = room_of (self);

  return room != NULL && hs_room_get_slim (room);
}

/* Slim comes and goes while narrow stays. */
static void
map_cb (HsFindings *self)
{
  HsRoom *room = room_of (self);

  if (room == NULL)
    return;
  g_signal_handlers_disconnect_by_func (room, hs_findings_room_changed, self);
  g_signal_connect_object (room, "notify::slim", G_CALLBACK (hs_findings_room_changed), self, G_CONNECT_SWAPPED);
  hs_findings_room_changed (HS_PAGE (self));
}

void
hs_findings_set_up_room (HsFindings *self)
{
  g_signal_connect (self, "map", G_CALLBACK (map_cb), NULL);
  gtk_widget_set_layout_manager (self->entry_bin, gtk_custom_layout_new (entry_mode, measure_entry, allocate_entry));
}

/* Large text in the hand has room for the question or for the list, not for both. */
void
hs_findings_give_room (HsFindings *self)
{
  gboolean asks = hs_findings_is_slim (self) && gtk_widget_get_visible (self->choices);

  gtk_widget_set_visible (GTK_WIDGET (self->lines_scroll), !asks);
  if (asks)
    gtk_widget_set_visible (GTK_WIDGET (self->best_button), FALSE);
}

void
hs_findings_show_field (HsFindings *self)
{
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (self->entry_scroll);

  gtk_adjustment_set_value (adjustment, gtk_adjustment_get_lower (adjustment));
}

/* ----------------------------------------------------------------------------------------------------------------- */

void
hs_findings_room_changed (HsPage *page)
{
  HsFindings *self = HS_FINDINGS (page);
  gboolean narrow = hs_page_get_narrow (page);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->panes),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_reorder_child_after (self->panes, self->sheet_pane, narrow ? self->entry_bin : NULL);
  gtk_box_set_spacing (self->panes, narrow ? 0 : 20);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->entry_row),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_spacing (self->entry_row, narrow ? 8 : 16);
  if (narrow)
    gtk_widget_remove_css_class (GTK_WIDGET (self->verdict), "hs-large");
  else
    gtk_widget_add_css_class (GTK_WIDGET (self->verdict), "hs-large");
  gtk_widget_set_vexpand (self->entry_bin, !narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->next_wide), !narrow);
  place (self->next_box, narrow ? self->next_wide : self->next_narrow,
         narrow ? self->next_narrow : self->next_wide);
  hs_findings_update_next (self, TRUE);
  gtk_widget_set_size_request (self->sheet_pane, narrow ? -1 : 500, -1);
  gtk_widget_set_hexpand (self->sheet_pane, narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->progress), !hs_findings_is_slim (self));
  gtk_widget_set_visible (GTK_WIDGET (self->typed), !hs_findings_is_slim (self));
  /* Where there is no room for both, the keys that answer come before the reasons. */
  gtk_box_reorder_child_after (GTK_BOX (self->choices), self->choices_box,
                               GTK_WIDGET (hs_findings_is_slim (self) ? self->choices_title : self->choices_about));
  hs_key_button_set_show_key (self->best_button, !narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->pad), narrow && !hs_findings_is_frozen (self));
  hs_findings_update_lines (self);
  hs_findings_update_entry (self);
}
