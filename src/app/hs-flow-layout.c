// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A layout for a row whose buttons go on in a next line where one has no room for them.
 *
 * Lines end at the right, or begin at the left with property start; what is left of one goes to its
 * children that expand. A child shrinks as far as it can before
 * it goes into the next line; none is cut. Use it for a few children. It takes what is hidden for not there, which
 * GtkFlowBox does not. */

#include "hs-flow-layout.h"

#define GAP_PX 8
#define MOST_CHILDREN 12

struct _HsFlowLayout
{
  GtkLayoutManager parent_instance;

  gboolean start;
};

enum
{
  PROP_0,
  PROP_START,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (HsFlowLayout, hs_flow_layout, GTK_TYPE_LAYOUT_MANAGER)

/* @end: (nullable): what stands behind the line; @sizes: of its children, in their order */
typedef struct
{
  GtkWidget *end;
  GtkRequestedSize sizes[MOST_CHILDREN];
  guint n;
  guint n_expand;
  int left; /* over, once all are as wide as they would like to be */
  int height;
} Line;

static gboolean
expands (GtkWidget *child)
{
  return gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL);
}

/* Takes what finds room side by side; @width: of a line, -1 for any. */
static int
collect (GtkWidget *from, int width, Line *line)
{
  int least = 0;

  for (GtkWidget *child = from; child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkRequestedSize *size = &line->sizes[line->n];
      int next;

      if (!gtk_widget_should_layout (child))
        continue;
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &size->minimum_size, &size->natural_size, NULL, NULL);
      next = least + size->minimum_size + (line->n > 0 ? GAP_PX : 0);
      if (line->n == MOST_CHILDREN - 1 || (line->n > 0 && width >= 0 && next > width))
        {
          line->end = child;
          break;
        }
      size->data = child;
      least = next;
      line->n++;
      line->n_expand += expands (child) ? 1 : 0;
    }
  return least;
}

/* Returns: whether there is a line from @from on. */
static gboolean
next_line (GtkWidget *from, int width, Line *ret_line)
{
  int least;

  *ret_line = (Line) { 0 };
  least = collect (from, width, ret_line);
  ret_line->left = gtk_distribute_natural_allocation (width < 0 ? G_MAXINT / 2 : MAX (0, width - least), ret_line->n,
                                                      ret_line->sizes);
  for (guint i = 0; i < ret_line->n; i++)
    {
      int height;

      gtk_widget_measure (ret_line->sizes[i].data, GTK_ORIENTATION_VERTICAL, ret_line->sizes[i].minimum_size, NULL,
                          &height, NULL, NULL);
      ret_line->height = MAX (ret_line->height, height);
    }
  return ret_line->n > 0;
}

static void
measure_width (GtkWidget *widget, int *minimum, int *natural)
{
  guint n = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int least, wanted;

      if (!gtk_widget_should_layout (child))
        continue;
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, &wanted, NULL, NULL);
      *minimum = MAX (*minimum, least);
      *natural += wanted + (n++ > 0 ? GAP_PX : 0);
    }
}

static int
lines_height (GtkWidget *widget, int width)
{
  Line line;
  int height = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && next_line (child, width, &line);
       child = line.end)
    height += line.height + (height > 0 ? GAP_PX : 0);
  return height;
}

static void
hs_flow_layout_measure (GtkLayoutManager *manager,
                        GtkWidget        *widget,
                        GtkOrientation    orientation,
                        int               for_size,
                        int              *minimum,
                        int              *natural,
                        int              *minimum_baseline,
                        int              *natural_baseline)
{
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    measure_width (widget, minimum, natural);
  else
    *minimum = *natural = lines_height (widget, for_size);
}

static void
allocate_line (const Line *line, int width, int y, gboolean from_start, gboolean mirrored)
{
  int x = line->n_expand > 0 || from_start ? 0 : line->left;

  for (guint i = 0; i < line->n; i++)
    {
      int own = line->sizes[i].minimum_size;

      if (expands (line->sizes[i].data))
        own += line->left / (int) line->n_expand;
      gtk_widget_allocate (line->sizes[i].data, own, line->height, -1,
                           gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT (mirrored ? width - x - own : x, y)));
      x += own + GAP_PX;
    }
}

static void
hs_flow_layout_allocate (GtkLayoutManager *manager,
                         GtkWidget        *widget,
                         int               width,
                         int               height,
                         int               baseline)
{
  gboolean mirrored = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  Line line;
  int y = MAX (0, (height - lines_height (widget, width)) / 2);

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && next_line (child, width, &line);
       child = line.end)
    {
      allocate_line (&line, width, y, HS_FLOW_LAYOUT (manager)->start, mirrored);
      y += line.height + GAP_PX;
    }
}

static GtkSizeRequestMode
hs_flow_layout_get_request_mode (GtkLayoutManager *manager,
                                 GtkWidget        *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_flow_layout_get_property (GObject    *object,
                             guint       id,
                             GValue     *value,
                             GParamSpec *pspec)
{
  if (id == PROP_START)
    g_value_set_boolean (value, HS_FLOW_LAYOUT (object)->start);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_flow_layout_set_property (GObject      *object,
                             guint         id,
                             const GValue *value,
                             GParamSpec   *pspec)
{
  if (id == PROP_START)
    HS_FLOW_LAYOUT (object)->start = g_value_get_boolean (value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_flow_layout_class_init (HsFlowLayoutClass *klass)
{
  GtkLayoutManagerClass *layout_class = GTK_LAYOUT_MANAGER_CLASS (klass);
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = hs_flow_layout_get_property;
  object_class->set_property = hs_flow_layout_set_property;
  properties[PROP_START] = g_param_spec_boolean ("start", NULL, NULL, FALSE,
                                                 G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  layout_class->measure = hs_flow_layout_measure;
  layout_class->allocate = hs_flow_layout_allocate;
  layout_class->get_request_mode = hs_flow_layout_get_request_mode;
}

static void
hs_flow_layout_init (HsFlowLayout *self)
{
}
