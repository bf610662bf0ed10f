// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What has the focus is wholly in sight, with its line around it. GTK scrolls to the focus when it moves, but not where
 * it comes to a place that is laid out only afterwards: on coming back to a view, or to a tag that was just hung up.
 *
 * To place a list that hangs open from a field GTK looks for the screen that the field is on, and GTK 4.8 falls where
 * it is on none. So a list is shut when its field is scrolled out of sight, and where the field is out of sight the key
 * that would open it brings it into sight first. */

#include "hs-in-sight.h"

#define RING_PX 8  /* of the focus line, with its gap */
#define N_FRAMES 3 /* until what was asked for is laid out */
#define FOLLOWS "hs-in-sight"

typedef struct
{
  GtkWidget *list;  /* (nullable): weak: the popover that has the focus */
  GPtrArray *moves; /* (element-type GtkAdjustment): of what its field scrolls in */
  guint frames;     /* to go */
} Follows;

static void
follows_free (gpointer data)
{
  Follows *follows = data;

  g_clear_weak_pointer (&follows->list);
  g_ptr_array_unref (follows->moves);
  g_free (follows);
}

/* The text of an entry is not the whole of it. */
static GtkWidget *
whole_of (GtkWidget *focus)
{
  return GTK_IS_TEXT (focus) ? gtk_widget_get_parent (focus) : focus;
}

static void
scroll (GtkScrolledWindow *scroller, double top, double bottom)
{
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (scroller);
  double over = bottom - gtk_adjustment_get_page_size (down);

  if (top < 0)
    gtk_adjustment_set_value (down, gtk_adjustment_get_value (down) + top);
  else if (over > 0)
    gtk_adjustment_set_value (down, gtk_adjustment_get_value (down) + MIN (over, top));
}

/* In each view that it scrolls in. What is higher than the view has no place in it; a list of its own scrolls by
 * itself. */
static void
show_focus (GtkWindow *window)
{
  GtkWidget *focus = gtk_window_get_focus (window);
  GtkWidget *shown = focus != NULL ? whole_of (focus) : NULL;
  graphene_rect_t box;

  if (shown == NULL || !gtk_widget_get_mapped (shown) || gtk_widget_get_ancestor (shown, GTK_TYPE_POPOVER) != NULL)
    return;
  for (GtkWidget *at = gtk_widget_get_parent (shown); at != NULL; at = gtk_widget_get_parent (at))
    if (GTK_IS_SCROLLED_WINDOW (at) && gtk_widget_compute_bounds (shown, at, &box) && box.size.height > 0
        && box.size.height <= gtk_widget_get_height (at))
      scroll (GTK_SCROLLED_WINDOW (at), box.origin.y - RING_PX, box.origin.y + box.size.height + RING_PX);
}

static gboolean
tick_cb (GtkWidget *window, GdkFrameClock *clock, gpointer data)
{
  Follows *follows = data;

  /* A tick comes before its frame is laid out: at the first one places are those of before. */
  if (follows->frames < N_FRAMES)
    show_focus (GTK_WINDOW (window));
  return --follows->frames > 0 ? G_SOURCE_CONTINUE : G_SOURCE_REMOVE;
}

static GtkWidget *
content_of (GtkWidget *scroller)
{
  GtkWidget *child = gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (scroller));

  return GTK_IS_VIEWPORT (child) ? gtk_viewport_get_child (GTK_VIEWPORT (child)) : child;
}

/* Before it is laid out where @moved now stands. */
static void
moved_cb (GtkAdjustment *moved, Follows *follows)
{
  GtkWidget *field = follows->list != NULL ? gtk_widget_get_parent (follows->list) : NULL;
  GtkWidget *scroller = field;
  graphene_rect_t box;
  double top;

  while ((scroller = scroller != NULL ? gtk_widget_get_parent (scroller) : NULL) != NULL)
    if (GTK_IS_SCROLLED_WINDOW (scroller)
        && gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller)) == moved)
      break;
  if (scroller == NULL || !gtk_widget_get_mapped (follows->list)
      || !gtk_widget_compute_bounds (field, content_of (scroller), &box))
    return;
  top = box.origin.y - gtk_adjustment_get_value (moved);
  if (top + box.size.height <= 0 || top >= gtk_adjustment_get_page_size (moved))
    gtk_popover_popdown (GTK_POPOVER (follows->list));
}

static void
let_go (Follows *follows)
{
  for (guint i = 0; i < follows->moves->len; i++)
    g_signal_handlers_disconnect_by_func (g_ptr_array_index (follows->moves, i), moved_cb, follows);
  g_ptr_array_set_size (follows->moves, 0);
  g_clear_weak_pointer (&follows->list);
}

static void
follow_list (Follows *follows, GtkWidget *focus)
{
  GtkWidget *list = focus != NULL ? gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER) : NULL;

  let_go (follows);
  g_set_weak_pointer (&follows->list, list);
  for (GtkWidget *at = list; at != NULL; at = gtk_widget_get_parent (at))
    if (at != list && GTK_IS_SCROLLED_WINDOW (at))
      {
        GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (at));

        g_signal_connect (down, "value-changed", G_CALLBACK (moved_cb), follows);
        g_ptr_array_add (follows->moves, g_object_ref (down));
      }
}

static void
focus_cb (GtkWidget *window, GParamSpec *pspec, Follows *follows)
{
  follow_list (follows, gtk_window_get_focus (GTK_WINDOW (window)));
  if (follows->frames == 0)
    gtk_widget_add_tick_callback (window, tick_cb, follows, NULL);
  follows->frames = N_FRAMES;
}

/* Of one scrolled view in another the outer one decides. */
static gboolean
is_out_of_sight (GtkWidget *shown)
{
  graphene_rect_t box;

  for (GtkWidget *at = gtk_widget_get_parent (shown); at != NULL; at = gtk_widget_get_parent (at))
    if (GTK_IS_SCROLLED_WINDOW (at)
        && (!gtk_widget_compute_bounds (shown, at, &box) || box.size.height <= 0
            || box.origin.y + box.size.height <= 0 || box.origin.y >= gtk_widget_get_height (at)))
      return TRUE;
  return FALSE;
}

static gboolean
opens (GtkWidget *focus, guint keyval, GdkModifierType state)
{
  gboolean enters = keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter || keyval == GDK_KEY_ISO_Enter
                    || keyval == GDK_KEY_space || keyval == GDK_KEY_KP_Space;

  return (enters && gtk_widget_get_ancestor (focus, GTK_TYPE_DROP_DOWN) != NULL) || keyval == GDK_KEY_Menu
         || (keyval == GDK_KEY_F10 && (state & GDK_SHIFT_MASK) != 0);
}

static gboolean
key_cb (GtkEventControllerKey *keys, guint keyval, guint keycode, GdkModifierType state, Follows *follows)
{
  GtkWidget *window = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys));
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  if (focus == NULL || !opens (focus, keyval, state) || gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER) != NULL
      || !is_out_of_sight (focus))
    return GDK_EVENT_PROPAGATE;
  focus_cb (window, NULL, follows);
  return GDK_EVENT_STOP;
}

static void
gone_cb (GtkWidget *window, Follows *follows)
{
  let_go (follows);
}

void
hs_in_sight_follow (GtkWindow *window)
{
  GtkEventController *keys;
  Follows *follows;

  g_return_if_fail (GTK_IS_WINDOW (window));

  follows = g_new0 (Follows, 1);
  follows->moves = g_ptr_array_new_with_free_func (g_object_unref);
  g_object_set_data_full (G_OBJECT (window), FOLLOWS, follows, follows_free);
  g_signal_connect (window, "notify::focus-widget", G_CALLBACK (focus_cb), follows);
  g_signal_connect (window, "destroy", G_CALLBACK (gone_cb), follows);
  keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_cb), follows);
  gtk_widget_add_controller (GTK_WIDGET (window), keys);
}
