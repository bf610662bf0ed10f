// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The why-chain as a widget: its rows as focusable children over one drawing, choosing, the arrow keys.
 *
 * Use it in a scrolled window. Geometry is in hs-chain-plan.c, drawing in hs-chain-draw.c; it refuses to change a
 * chain: what a key does about the chosen row is the page's. */

#include "hs-chain-view.h"

#include <glib/gi18n.h>

#include "hs-chain-draw.h"
#include "hs-ink.h"

struct _HsChainView
{
  GtkWidget parent_instance;
  GPtrArray *faces;
  GPtrArray *rows;
  int chosen;
};

enum
{
  CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HsChainView, hs_chain_view, GTK_TYPE_WIDGET)

/* One row: it draws nothing but the ring of the focus; it speaks and takes the keys. */

#define HS_TYPE_CHAIN_ITEM (hs_chain_item_get_type ())
G_DECLARE_FINAL_TYPE (HsChainItem, hs_chain_item, HS, CHAIN_ITEM, GtkWidget)

struct _HsChainItem
{
  GtkWidget parent_instance;
  guint index;
};

G_DEFINE_FINAL_TYPE (HsChainItem, hs_chain_item, GTK_TYPE_WIDGET)

static const HsChainFace *
face_of (HsChainView *self, guint index)
{
  return g_ptr_array_index (self->faces, index);
}

static HsChainView *
view_of (gpointer item)
{
  return HS_CHAIN_VIEW (gtk_widget_get_parent (GTK_WIDGET (item)));
}

static void
say_chosen (HsChainView *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    gtk_accessible_update_state (g_ptr_array_index (self->rows, i), GTK_ACCESSIBLE_STATE_SELECTED,
                                 (int) i == self->chosen, -1);
}

static void
set_chosen (HsChainView *self, int row)
{
  if (self->chosen == row)
    return;
  self->chosen = row;
  say_chosen (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_signal_emit (self, signals[CHOSEN], 0);
}

static void
item_focus_in (GtkEventControllerFocus *controller, HsChainItem *item)
{
  set_chosen (view_of (item), (int) item->index);
}

static void
item_clicked (GtkGestureClick *gesture, int n_press, double x, double y, HsChainItem *item)
{
  gtk_widget_grab_focus (GTK_WIDGET (item));
  set_chosen (view_of (item), (int) item->index);
}

static void
go_to (HsChainView *self, int row)
{
  if (row < 0 || (guint) row >= self->rows->len)
    return;
  gtk_widget_grab_focus (g_ptr_array_index (self->rows, (guint) row));
  /* A window that has not got the keyboard tells no focus. */
  set_chosen (self, row);
}

/* For those who have neither arrow keys nor a pointer. */
static void
choose_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  go_to (view_of (widget), (int) HS_CHAIN_ITEM (widget)->index);
}

static void
step_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  go_to (view_of (widget), (int) HS_CHAIN_ITEM (widget)->index + g_variant_get_int32 (parameter));
}

static void
end_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChainView *self = view_of (widget);

  go_to (self, g_variant_get_boolean (parameter) ? (int) self->rows->len - 1 : 0);
}

static void
effect_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChainView *self = view_of (widget);

  go_to (self, face_of (self, HS_CHAIN_ITEM (widget)->index)->parent);
}

/* What explains it stands right under it; what was ruled out is not that. */
static void
cause_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsChainView *self = view_of (widget);
  int row = (int) HS_CHAIN_ITEM (widget)->index;

  for (guint i = (guint) row + 1; i < self->rows->len; i++)
    if (face_of (self, i)->parent == row && !hs_chain_face_is_cut (face_of (self, i)))
      {
        go_to (self, (int) i);
        return;
      }
}

static void
bind (GtkWidgetClass *widget_class, guint keyval, guint pad_keyval, const char *action, const char *format, int value)
{
  guint keyvals[] = { keyval, pad_keyval };

  for (guint i = 0; i < G_N_ELEMENTS (keyvals); i++)
    if (format == NULL)
      gtk_widget_class_add_binding_action (widget_class, keyvals[i], 0, action, NULL);
    else
      gtk_widget_class_add_binding_action (widget_class, keyvals[i], 0, action, format, value);
}

static void
hs_chain_item_class_init (HsChainItemClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  gtk_widget_class_install_action (widget_class, "row.step", "i", step_action);
  gtk_widget_class_install_action (widget_class, "row.end", "b", end_action);
  gtk_widget_class_install_action (widget_class, "row.choose", NULL, choose_action);
  gtk_widget_class_install_action (widget_class, "row.effect", NULL, effect_action);
  gtk_widget_class_install_action (widget_class, "row.cause", NULL, cause_action);
  bind (widget_class, GDK_KEY_Up, GDK_KEY_KP_Up, "row.step", "i", -1);
  bind (widget_class, GDK_KEY_Down, GDK_KEY_KP_Down, "row.step", "i", 1);
  bind (widget_class, GDK_KEY_Home, GDK_KEY_KP_Home, "row.end", "b", FALSE);
  bind (widget_class, GDK_KEY_End, GDK_KEY_KP_End, "row.end", "b", TRUE);
  bind (widget_class, GDK_KEY_Left, GDK_KEY_KP_Left, "row.effect", NULL, 0);
  bind (widget_class, GDK_KEY_Right, GDK_KEY_KP_Right, "row.cause", NULL, 0);
  gtk_widget_class_set_css_name (widget_class, "chainrow");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_TREE_ITEM);
}

static void
hs_chain_item_init (HsChainItem *item)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_widget_set_focusable (GTK_WIDGET (item), TRUE);
  g_signal_connect (focus, "enter", G_CALLBACK (item_focus_in), item);
  gtk_widget_add_controller (GTK_WIDGET (item), focus);
  g_signal_connect (click, "pressed", G_CALLBACK (item_clicked), item);
  gtk_widget_add_controller (GTK_WIDGET (item), GTK_EVENT_CONTROLLER (click));
}

/* The view. */

static int
measure_text (gpointer data, guint row, HsChainText text, int width)
{
  HsChainView *self = HS_CHAIN_VIEW (data);
  g_autoptr (PangoLayout) layout = hs_chain_draw_text (GTK_WIDGET (self), face_of (self, row), text);
  int high;

  pango_layout_set_width (layout, width * PANGO_SCALE);
  pango_layout_get_pixel_size (layout, NULL, &high);
  return high;
}

static HsChainPlan *
make_plan (HsChainView *self, int width)
{
  return hs_chain_plan_new (self->faces, width, hs_ink_unit (GTK_WIDGET (self)), measure_text, self);
}

static GtkSizeRequestMode
hs_chain_view_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_chain_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                       int *minimum_baseline, int *natural_baseline)
{
  HsChainView *self = HS_CHAIN_VIEW (widget);
  int least = hs_chain_plan_least (self->faces, hs_ink_unit (widget));
  g_autoptr (HsChainPlan) plan = NULL;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = least;
      *natural = MAX (least, (int) (800 * hs_ink_unit (widget)));
      return;
    }
  plan = make_plan (self, MAX (least, for_size));
  *minimum = *natural = plan->height;
}

static void
hs_chain_view_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HsChainView *self = HS_CHAIN_VIEW (widget);
  g_autoptr (HsChainPlan) plan = make_plan (self, width);

  for (guint i = 0; i < self->rows->len; i++)
    {
      const graphene_rect_t *box = &hs_chain_plan_get (plan, i)->box;

      gtk_widget_allocate (g_ptr_array_index (self->rows, i), (int) box->size.width, (int) box->size.height, -1,
                           gsk_transform_translate (NULL, &box->origin));
    }
}

static void
hs_chain_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HsChainView *self = HS_CHAIN_VIEW (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 2);
  g_autoptr (HsChainPlan) plan = make_plan (self, gtk_widget_get_width (widget));

  hs_chain_draw (widget, cr, self->faces, plan, self->chosen);
  GTK_WIDGET_CLASS (hs_chain_view_parent_class)->snapshot (widget, snapshot);
}

/* Tab enters at the chosen row and leaves the chain; the arrows move inside. */
static gboolean
hs_chain_view_focus_in (GtkWidget *widget, GtkDirectionType direction)
{
  HsChainView *self = HS_CHAIN_VIEW (widget);

  return gtk_widget_get_focus_child (widget) == NULL && hs_chain_view_focus (self);
}

static gboolean
hs_chain_view_grab_focus (GtkWidget *widget)
{
  return hs_chain_view_focus (HS_CHAIN_VIEW (widget));
}

static void
drop_rows (HsChainView *self, guint keep)
{
  while (self->rows->len > keep)
    {
      gtk_widget_unparent (g_ptr_array_index (self->rows, self->rows->len - 1));
      g_ptr_array_set_size (self->rows, (int) self->rows->len - 1);
    }
}

static void
hs_chain_view_dispose (GObject *object)
{
  drop_rows (HS_CHAIN_VIEW (object), 0);
  G_OBJECT_CLASS (hs_chain_view_parent_class)->dispose (object);
}

static void
hs_chain_view_finalize (GObject *object)
{
  HsChainView *self = HS_CHAIN_VIEW (object);

  g_ptr_array_unref (self->rows);
  g_ptr_array_unref (self->faces);
  G_OBJECT_CLASS (hs_chain_view_parent_class)->finalize (object);
}

static void
hs_chain_view_class_init (HsChainViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_chain_view_dispose;
  G_OBJECT_CLASS (klass)->finalize = hs_chain_view_finalize;
  widget_class->get_request_mode = hs_chain_view_get_request_mode;
  widget_class->measure = hs_chain_view_measure;
  widget_class->size_allocate = hs_chain_view_size_allocate;
  widget_class->snapshot = hs_chain_view_snapshot;
  widget_class->focus = hs_chain_view_focus_in;
  widget_class->grab_focus = hs_chain_view_grab_focus;
  signals[CHOSEN] = g_signal_new ("chosen", HS_TYPE_CHAIN_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (widget_class, "chain");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_TREE);
}

static void
hs_chain_view_init (HsChainView *self)
{
  self->faces = hs_chain_faces_new ();
  self->rows = g_ptr_array_new ();
  self->chosen = -1;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Why it failed"), -1);
}

GtkWidget *
hs_chain_view_new (void)
{
  return g_object_new (HS_TYPE_CHAIN_VIEW, NULL);
}

static int
find_face (GPtrArray *faces, const HsChainFace *like, gboolean by_key)
{
  for (guint i = 0; i < faces->len; i++)
    {
      const HsChainFace *face = g_ptr_array_index (faces, i);

      if (g_strcmp0 (by_key ? face->key : face->finding_id, by_key ? like->key : like->finding_id) == 0)
        return (int) i;
    }
  return -1;
}

/* Which row a chain that was read again should have chosen: the same, or its finding where it stands now; else the
 * effect of what has gone, else the nearest. */
static int
find_again (HsChainView *self, GPtrArray *faces)
{
  for (int row = self->chosen; row >= 0; row = face_of (self, (guint) row)->parent)
    {
      int found = find_face (faces, face_of (self, (guint) row), TRUE);

      if (found < 0)
        found = find_face (faces, face_of (self, (guint) row), FALSE);
      if (found >= 0)
        return found;
    }
  return faces->len == 0 ? -1 : CLAMP (self->chosen, 0, (int) faces->len - 1);
}

static void
fill_row (HsChainView *self, guint index)
{
  const HsChainFace *face = face_of (self, index);
  HsChainItem *item;

  if (index == self->rows->len)
    {
      item = g_object_new (HS_TYPE_CHAIN_ITEM, NULL);
      item->index = index;
      gtk_widget_set_parent (GTK_WIDGET (item), GTK_WIDGET (self));
      g_ptr_array_add (self->rows, item);
    }
  item = g_ptr_array_index (self->rows, index);
  gtk_accessible_update_property (GTK_ACCESSIBLE (item), GTK_ACCESSIBLE_PROPERTY_LABEL, face->spoken,
                                  GTK_ACCESSIBLE_PROPERTY_LEVEL, (int) face->level, -1);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (item), GTK_ACCESSIBLE_RELATION_POS_IN_SET, (int) face->position,
                                  GTK_ACCESSIBLE_RELATION_SET_SIZE, (int) face->n_siblings, -1);
}

void
hs_chain_view_set_faces (HsChainView *self, GPtrArray *faces)
{
  gboolean had_focus;
  int chosen;

  g_return_if_fail (HS_IS_CHAIN_VIEW (self));
  g_return_if_fail (faces != NULL);

  had_focus = gtk_widget_get_focus_child (GTK_WIDGET (self)) != NULL;
  chosen = find_again (self, faces);
  g_ptr_array_ref (faces);
  g_ptr_array_unref (self->faces);
  self->faces = faces;
  self->chosen = chosen;
  for (guint i = 0; i < faces->len; i++)
    fill_row (self, i);
  if (had_focus)
    go_to (self, chosen);
  drop_rows (self, faces->len);
  self->chosen = chosen;
  say_chosen (self);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  g_signal_emit (self, signals[CHOSEN], 0);
}

const HsChainFace *
hs_chain_view_get_chosen (HsChainView *self)
{
  g_return_val_if_fail (HS_IS_CHAIN_VIEW (self), NULL);

  return self->chosen >= 0 ? face_of (self, (guint) self->chosen) : NULL;
}

gboolean
hs_chain_view_choose (HsChainView *self, const char *finding_id)
{
  g_return_val_if_fail (HS_IS_CHAIN_VIEW (self), FALSE);

  for (guint i = 0; i < self->faces->len; i++)
    if (g_strcmp0 (face_of (self, i)->finding_id, finding_id) == 0)
      {
        if (gtk_widget_get_focus_child (GTK_WIDGET (self)) != NULL)
          go_to (self, (int) i);
        set_chosen (self, (int) i);
        return TRUE;
      }
  return FALSE;
}

gboolean
hs_chain_view_focus (HsChainView *self)
{
  g_return_val_if_fail (HS_IS_CHAIN_VIEW (self), FALSE);

  if (self->rows->len == 0)
    return FALSE;
  return gtk_widget_grab_focus (g_ptr_array_index (self->rows, (guint) MAX (0, self->chosen)));
}

guint
hs_chain_view_get_n_rows (HsChainView *self)
{
  g_return_val_if_fail (HS_IS_CHAIN_VIEW (self), 0);

  return self->rows->len;
}

GtkWidget *
hs_chain_view_get_row (HsChainView *self, guint row)
{
  g_return_val_if_fail (HS_IS_CHAIN_VIEW (self), NULL);
  g_return_val_if_fail (row < self->rows->len, NULL);

  return g_ptr_array_index (self->rows, row);
}
