// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Places wires and boxes side by side.
 *
 * Use it inside a scrolled window. A row is as high as its highest child. It refuses to reorder: what wants attention
 * first is appended first. */

#include "hs-tag-board.h"

#include "hs-ink.h"
#include "hs-wire.h"

#define ROW_GAP_PX 12

struct _HsTagBoard
{
  GtkWidget parent_instance;
  guint n_columns;
};

typedef struct
{
  GtkWidget *child;
  guint column;
  guint span;
  guint row;
} Place;

G_DEFINE_FINAL_TYPE (HsTagBoard, hs_tag_board, GTK_TYPE_WIDGET)

static guint
columns_in (HsTagBoard *self,
            int      width)
{
  int least = (int) (HS_WIRE_COLUMN_PX * hs_ink_unit (GTK_WIDGET (self)));
  guint columns = (guint) MAX (1, (width + HS_WIRE_GAP_PX) / (least + HS_WIRE_GAP_PX));

  return MIN (columns, 3);
}

static GArray *
place_children (HsTagBoard *self,
                guint    columns)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (Place));
  guint row = 0, column = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      guint wanted = HS_IS_WIRE (child) ? MAX (1, hs_wire_get_n_tags (HS_WIRE (child))) : 1;
      Place place = { .child = child, .span = MIN (wanted, columns) };

      if (!gtk_widget_should_layout (child))
        continue;
      if (column + place.span > columns)
        {
          row++;
          column = 0;
        }
      place.row = row;
      place.column = column;
      column += place.span;
      g_array_append_val (places, place);
    }
  return places;
}

static int
span_width (int   width,
            guint columns,
            guint span)
{
  int cell = (width - (int) (columns - 1) * HS_WIRE_GAP_PX) / (int) columns;

  return cell * (int) span + (int) (span - 1) * HS_WIRE_GAP_PX;
}

static int
row_height (const GArray *places,
            guint         row,
            int           width,
            guint         columns)
{
  int height = 0;

  for (guint i = 0; i < places->len; i++)
    {
      const Place *place = &g_array_index (places, Place, i);
      int wanted;

      if (place->row != row)
        continue;
      gtk_widget_measure (place->child, GTK_ORIENTATION_VERTICAL, span_width (width, columns, place->span), NULL,
                          &wanted, NULL, NULL);
      height = MAX (height, wanted);
    }
  return height;
}

static guint
row_count (const GArray *places)
{
  return places->len > 0 ? g_array_index (places, Place, places->len - 1).row + 1 : 0;
}

static int
least_child_width (HsTagBoard *self)
{
  int least = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int width;

      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
      least = MAX (least, width);
    }
  return least;
}

static void
hs_tag_board_measure (GtkWidget      *widget,
                  GtkOrientation  orientation,
                  int             for_size,
                  int            *minimum,
                  int            *natural,
                  int            *minimum_baseline,
                  int            *natural_baseline)
{
  HsTagBoard *self = HS_TAG_BOARD (widget);
  int width = for_size > 0 ? for_size : (int) (1240 * hs_ink_unit (widget));
  guint columns = columns_in (self, width);
  g_autoptr (GArray) places = NULL;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = least_child_width (self);
      *natural = MAX (*minimum, width);
      return;
    }
  places = place_children (self, columns);
  for (guint row = 0; row < row_count (places); row++)
    *natural += row_height (places, row, width, columns) + (row > 0 ? ROW_GAP_PX : 0);
  *minimum = *natural;
}

static void
hs_tag_board_size_allocate (GtkWidget *widget,
                        int        width,
                        int        height,
                        int        baseline)
{
  HsTagBoard *self = HS_TAG_BOARD (widget);
  guint columns = columns_in (self, width);
  g_autoptr (GArray) places = place_children (self, columns);
  int y = 0, tall = 0;

  self->n_columns = columns;
  for (guint i = 0; i < places->len; i++)
    {
      const Place *place = &g_array_index (places, Place, i);
      gboolean starts_row = i == 0 || place->row != g_array_index (places, Place, i - 1).row;

      if (starts_row)
        {
          y += i > 0 ? tall + ROW_GAP_PX : 0;
          tall = row_height (places, place->row, width, columns);
        }
      gtk_widget_allocate (place->child, span_width (width, columns, place->span), tall, -1,
                           gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT (
                             place->column > 0 ? span_width (width, columns, place->column) + HS_WIRE_GAP_PX : 0, y)));
    }
}

/* Where the arrows go: every tag, and every box that hangs on no wire, in the order of reading. */
static GPtrArray *
list_places (HsTagBoard *self)
{
  GPtrArray *places = g_ptr_array_new ();

  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (!HS_IS_WIRE (child))
      g_ptr_array_add (places, child);
    else
      for (guint i = 0; i < hs_wire_get_n_tags (HS_WIRE (child)); i++)
        g_ptr_array_add (places, hs_wire_get_tag (HS_WIRE (child), i));
  return places;
}

static gboolean
enter_place (GtkWidget *place, GtkDirectionType direction)
{
  return gtk_widget_get_focusable (place) ? gtk_widget_grab_focus (place) : gtk_widget_child_focus (place, direction);
}

/* To the one before or behind in the order of reading; what takes no focus is passed over. */
static gboolean
go_along (GPtrArray *places, guint at, gboolean on)
{
  for (int i = (int) at + (on ? 1 : -1); i >= 0 && i < (int) places->len; i += on ? 1 : -1)
    if (enter_place (g_ptr_array_index (places, i), on ? GTK_DIR_RIGHT : GTK_DIR_LEFT))
      return TRUE;
  return FALSE;
}

/* Wholly below, or wholly above. */
static gboolean
is_beyond (const graphene_rect_t *box, const graphene_rect_t *from, gboolean down)
{
  return down ? box->origin.y >= from->origin.y + from->size.height - 1
              : box->origin.y + box->size.height <= from->origin.y + 1;
}

static double
middle_of (const graphene_rect_t *box)
{
  return box->origin.x + box->size.width / 2;
}

/* (nullable): of the next row, what lies nearest: nothing hangs between the two. */
static GtkWidget *
find_beyond (HsTagBoard *self, GPtrArray *places, const graphene_rect_t *from, gboolean down)
{
  GtkWidget *best = NULL;
  graphene_rect_t best_box, box;

  for (guint i = 0; i < places->len; i++)
    {
      GtkWidget *place = g_ptr_array_index (places, i);

      if (!gtk_widget_compute_bounds (place, GTK_WIDGET (self), &box) || !is_beyond (&box, from, down))
        continue;
      if (best == NULL || is_beyond (&best_box, &box, down)
          || (!is_beyond (&box, &best_box, down)
              && ABS (middle_of (&box) - middle_of (from)) < ABS (middle_of (&best_box) - middle_of (from))))
        {
          best = place;
          best_box = box;
        }
    }
  return best;
}

static gboolean
go_beyond (HsTagBoard *self, GPtrArray *places, GtkWidget *from, gboolean down)
{
  graphene_rect_t box;
  GtkWidget *next;

  if (!gtk_widget_compute_bounds (from, GTK_WIDGET (self), &box))
    return FALSE;
  while ((next = find_beyond (self, places, &box, down)) != NULL)
    {
      if (enter_place (next, down ? GTK_DIR_DOWN : GTK_DIR_UP))
        return TRUE;
      g_ptr_array_remove (places, next);
    }
  return FALSE;
}

/* The toolkit looks within one wire, then only at wires that begin above or below: rows beside a short wire would be
 * left out, and right and left end where a row does. */
static gboolean
hs_tag_board_focus (GtkWidget *widget, GtkDirectionType direction)
{
  GtkWidget *focus = gtk_root_get_focus (gtk_widget_get_root (widget));
  g_autoptr (GPtrArray) places = list_places (HS_TAG_BOARD (widget));
  gboolean mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  guint at = 0;

  while (focus != NULL && at < places->len && focus != g_ptr_array_index (places, at)
         && !gtk_widget_is_ancestor (focus, g_ptr_array_index (places, at)))
    at++;
  if (focus == NULL || at == places->len || direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD)
    return GTK_WIDGET_CLASS (hs_tag_board_parent_class)->focus (widget, direction);
  if (focus != g_ptr_array_index (places, at) && gtk_widget_child_focus (g_ptr_array_index (places, at), direction))
    return TRUE;
  if (direction == GTK_DIR_LEFT || direction == GTK_DIR_RIGHT)
    return go_along (places, at, (direction == GTK_DIR_RIGHT) != mirrored);
  return go_beyond (HS_TAG_BOARD (widget), places, g_ptr_array_index (places, at), direction == GTK_DIR_DOWN);
}

static GtkSizeRequestMode
hs_tag_board_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_tag_board_dispose (GObject *object)
{
  hs_tag_board_remove_all (HS_TAG_BOARD (object));
  G_OBJECT_CLASS (hs_tag_board_parent_class)->dispose (object);
}

static void
hs_tag_board_class_init (HsTagBoardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_tag_board_dispose;
  widget_class->measure = hs_tag_board_measure;
  widget_class->size_allocate = hs_tag_board_size_allocate;
  widget_class->focus = hs_tag_board_focus;
  widget_class->get_request_mode = hs_tag_board_get_request_mode;
  gtk_widget_class_set_css_name (widget_class, "board");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hs_tag_board_init (HsTagBoard *self)
{
}

GtkWidget *
hs_tag_board_new (void)
{
  return g_object_new (HS_TYPE_TAG_BOARD, NULL);
}

void
hs_tag_board_append (HsTagBoard   *self,
                 GtkWidget *child)
{
  g_return_if_fail (HS_IS_TAG_BOARD (self));
  g_return_if_fail (GTK_IS_WIDGET (child));

  gtk_widget_set_parent (child, GTK_WIDGET (self));
}

void
hs_tag_board_remove_all (HsTagBoard *self)
{
  GtkWidget *child;

  g_return_if_fail (HS_IS_TAG_BOARD (self));

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
}

guint
hs_tag_board_get_n_columns (HsTagBoard *self)
{
  g_return_val_if_fail (HS_IS_TAG_BOARD (self), 0);

  return self->n_columns;
}
