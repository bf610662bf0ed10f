// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The time strip as a widget: measuring, its stops as focusable children, choosing, the signals.
 *
 * Use it above a list that says the same as text. Drawing is in hs-time-strip-draw.c, the day in hs-strip-day.c. It
 * refuses dragging as the only way: every act is a key on the chosen stop. */

#include "hs-time-strip-draw.h"

#include <glib/gi18n.h>

struct _HsTimeStrip
{
  GtkWidget parent_instance;
  HsStripDay *day;
  HsStripForm form;
  char *chosen;
  GPtrArray *stops;
};

enum
{
  CHOSEN,
  OPENED,
  LOCK,
  MOVE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HsTimeStrip, hs_time_strip, GTK_TYPE_WIDGET)

/* One stop: nothing is drawn by it but the focus ring; it speaks and takes the keys. */

#define HS_TYPE_STRIP_CHILD (hs_strip_child_get_type ())
G_DECLARE_FINAL_TYPE (HsStripChild, hs_strip_child, HS, STRIP_CHILD, GtkWidget)

struct _HsStripChild
{
  GtkWidget parent_instance;
  guint index;
};

G_DEFINE_FINAL_TYPE (HsStripChild, hs_strip_child, GTK_TYPE_WIDGET)

static HsTimeStrip *
strip_of (gpointer child)
{
  return HS_TIME_STRIP (gtk_widget_get_parent (GTK_WIDGET (child)));
}

static const HsStripStop *
stop_of (HsStripChild *child)
{
  return g_ptr_array_index (strip_of (child)->day->stops, child->index);
}

static void
child_chosen (HsStripChild *child)
{
  HsTimeStrip *self = strip_of (child);
  g_autofree char *id = g_strdup (stop_of (child)->id);

  if (g_strcmp0 (self->chosen, id) == 0)
    return;
  hs_time_strip_choose (self, id);
  g_signal_emit (self, signals[CHOSEN], 0, id);
}

static void
child_focus_in (GtkEventControllerFocus *controller,
                HsStripChild            *child)
{
  child_chosen (child);
}

static void
child_clicked (GtkGestureClick *gesture,
               int              n_press,
               double           x,
               double           y,
               HsStripChild    *child)
{
  gtk_widget_grab_focus (GTK_WIDGET (child));
  child_chosen (child);
  if (n_press == 2)
    g_signal_emit (strip_of (child), signals[OPENED], 0, stop_of (child)->id);
}

static void
child_step (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  HsTimeStrip *self = strip_of (widget);
  int next = (int) HS_STRIP_CHILD (widget)->index + g_variant_get_int32 (parameter);

  if (next >= 0 && (guint) next < self->stops->len)
    gtk_widget_grab_focus (g_ptr_array_index (self->stops, (guint) next));
}

static void
child_open (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  g_signal_emit (strip_of (widget), signals[OPENED], 0, stop_of (HS_STRIP_CHILD (widget))->id);
}

static void
child_lock (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  g_signal_emit (strip_of (widget), signals[LOCK], 0, stop_of (HS_STRIP_CHILD (widget))->id);
}

static void
child_move (GtkWidget  *widget,
            const char *name,
            GVariant   *parameter)
{
  g_signal_emit (strip_of (widget), signals[MOVE], 0, stop_of (HS_STRIP_CHILD (widget))->id,
                 g_variant_get_int32 (parameter));
}

static void
hs_strip_child_class_init (HsStripChildClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  gtk_widget_class_install_action (widget_class, "stop.step", "i", child_step);
  gtk_widget_class_install_action (widget_class, "stop.open", NULL, child_open);
  gtk_widget_class_install_action (widget_class, "stop.lock", NULL, child_lock);
  gtk_widget_class_install_action (widget_class, "stop.move", "i", child_move);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Left, 0, "stop.step", "i", -1);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Left, 0, "stop.step", "i", -1);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Right, 0, "stop.step", "i", 1);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Right, 0, "stop.step", "i", 1);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, 0, "stop.open", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Enter, 0, "stop.open", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F8, 0, "stop.lock", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_plus, 0, "stop.move", "i", 1);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Add, 0, "stop.move", "i", 1);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_minus, 0, "stop.move", "i", -1);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Subtract, 0, "stop.move", "i", -1);
  gtk_widget_class_set_css_name (widget_class, "stop");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST_ITEM);
}

static void
hs_strip_child_init (HsStripChild *child)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkGesture *click = gtk_gesture_click_new ();

  gtk_widget_set_focusable (GTK_WIDGET (child), TRUE);
  g_signal_connect (focus, "enter", G_CALLBACK (child_focus_in), child);
  gtk_widget_add_controller (GTK_WIDGET (child), focus);
  g_signal_connect (click, "pressed", G_CALLBACK (child_clicked), child);
  gtk_widget_add_controller (GTK_WIDGET (child), GTK_EVENT_CONTROLLER (click));
}

/* The strip. */

static int
index_of (HsTimeStrip *self,
          const char  *id)
{
  for (guint i = 0; id != NULL && i < self->day->stops->len; i++)
    if (g_strcmp0 (((HsStripStop *) g_ptr_array_index (self->day->stops, i))->id, id) == 0)
      return (int) i;
  return -1;
}

static int
row_names_width (HsTimeStrip *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int width = hs_ink_width (widget, _("Time given"), 1.05, 700);

  if (self->day->van != NULL)
    width = MAX (width, hs_ink_width (widget, self->day->van, 1.05, 700));
  for (guint i = 0; i < self->day->rails->len; i++)
    {
      const HsStripRail *rail = g_ptr_array_index (self->day->rails, i);

      width = MAX (width, hs_ink_width (widget, rail->name, 1.05, 700));
    }
  return width;
}

static void
plan_lanes (HsTimeStrip *self,
            HsStripPlan *plan)
{
  g_autofree int *drawn = g_new (int, 2 * MAX (1, self->day->stops->len));

  plan->lanes = g_new (int, MAX (1, self->day->stops->len));
  hs_strip_plan_drawn (GTK_WIDGET (self), plan, drawn);
  plan->n_lanes = hs_strip_day_pack (self->day, drawn, plan->lanes);
  if (plan->form == HS_STRIP_FORM_FULL)
    return;
  plan->n_lanes = plan->form == HS_STRIP_FORM_TIGHT && plan->n_lanes > 0 ? 1 : 0;
  for (guint i = 0; i < self->day->stops->len; i++)
    if (plan->lanes[i] >= 0)
      plan->lanes[i] = plan->n_lanes > 0 && ((int) i == plan->tightest || (int) i == plan->chosen) ? 0 : -1;
  if (plan->chosen >= 0 && plan->tightest >= 0 && plan->chosen != plan->tightest && plan->lanes[plan->chosen] == 0)
    {
      const int *one = drawn + 2 * plan->chosen, *other = drawn + 2 * plan->tightest;

      if (one[0] < other[1] && other[0] < one[1])
        {
          plan->lanes[plan->chosen] = 1;
          plan->n_lanes = 2;
        }
    }
}

/* So far from the widget's end that the time at home finds room behind the last drive. */
static double
right_end (HsTimeStrip       *self,
           const HsStripPlan *plan,
           int                width)
{
  double right = width - (plan->form == HS_STRIP_FORM_COMPACT ? 10 : 14) * plan->unit, room;
  int span = self->day->to - self->day->from, until = self->day->home - self->day->from;

  if (plan->form == HS_STRIP_FORM_COMPACT || self->day->leave < 0 || until <= 0)
    return right;
  room = width - 2 - hs_strip_plan_home_width (GTK_WIDGET (self), plan) - plan->left;
  return MAX (plan->left + 100, MIN (right, plan->left + room * span / until));
}

static void
make_plan (HsTimeStrip *self,
           int          width,
           HsStripPlan *plan)
{
  double u = hs_ink_unit (GTK_WIDGET (self));
  gboolean compact = self->form == HS_STRIP_FORM_COMPACT;

  *plan = (HsStripPlan) { .day = self->day, .form = self->form, .unit = u };
  plan->chosen = index_of (self, self->chosen);
  plan->tightest = hs_strip_day_find_tightest (self->day);
  plan->left = compact ? 10 * u : MAX (row_names_width (self) + 22 * u, 112 * u);
  plan->right = right_end (self, plan, width);
  plan_lanes (self, plan);
  hs_strip_plan_place (plan);
}

static void
hs_time_strip_measure (GtkWidget      *widget,
                       GtkOrientation  orientation,
                       int             for_size,
                       int            *minimum,
                       int            *natural,
                       int            *minimum_baseline,
                       int            *natural_baseline)
{
  HsTimeStrip *self = HS_TIME_STRIP (widget);
  double u = hs_ink_unit (widget);
  HsStripPlan plan;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = (int) (self->form == HS_STRIP_FORM_COMPACT ? 280 : 320);
      *natural = (int) (1240 * u);
      return;
    }
  make_plan (self, for_size > 0 ? for_size : 1000, &plan);
  *minimum = *natural = hs_strip_plan_height (&plan);
  g_free (plan.lanes);
}

/* Words that find no room in a narrower strip take a lane more. */
static GtkSizeRequestMode
hs_time_strip_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_time_strip_size_allocate (GtkWidget *widget,
                             int        width,
                             int        height,
                             int        baseline)
{
  HsTimeStrip *self = HS_TIME_STRIP (widget);
  HsStripPlan plan;

  make_plan (self, width, &plan);
  for (guint i = 0; i < self->stops->len; i++)
    {
      graphene_rect_t area;

      hs_strip_plan_stop_area (&plan, i, &area);
      gtk_widget_allocate (g_ptr_array_index (self->stops, i), (int) area.size.width, (int) area.size.height, -1,
                           gsk_transform_translate (NULL, &area.origin));
    }
  g_free (plan.lanes);
}

static void
hs_time_strip_snapshot (GtkWidget   *widget,
                        GtkSnapshot *snapshot)
{
  HsTimeStrip *self = HS_TIME_STRIP (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 2);
  HsStripPlan plan;
  HsInk ink;

  hs_ink_read (widget, &ink);
  make_plan (self, gtk_widget_get_width (widget), &plan);
  hs_strip_draw (widget, cr, &ink, &plan);
  g_free (plan.lanes);
  GTK_WIDGET_CLASS (hs_time_strip_parent_class)->snapshot (widget, snapshot);
}

/* Tab enters at the chosen stop and leaves the strip; the arrows move inside. */
static gboolean
hs_time_strip_focus (GtkWidget        *widget,
                     GtkDirectionType  direction)
{
  HsTimeStrip *self = HS_TIME_STRIP (widget);
  int index = MAX (0, index_of (self, self->chosen));

  if (gtk_widget_get_focus_child (widget) != NULL || self->stops->len == 0)
    return FALSE;
  return gtk_widget_grab_focus (g_ptr_array_index (self->stops, (guint) index));
}

static void
drop_stops (HsTimeStrip *self)
{
  for (guint i = 0; i < self->stops->len; i++)
    gtk_widget_unparent (g_ptr_array_index (self->stops, i));
  g_ptr_array_set_size (self->stops, 0);
}

static void
hs_time_strip_dispose (GObject *object)
{
  drop_stops (HS_TIME_STRIP (object));
  G_OBJECT_CLASS (hs_time_strip_parent_class)->dispose (object);
}

static void
hs_time_strip_finalize (GObject *object)
{
  HsTimeStrip *self = HS_TIME_STRIP (object);

  g_ptr_array_unref (self->stops);
  hs_strip_day_free (self->day);
  g_free (self->chosen);
  G_OBJECT_CLASS (hs_time_strip_parent_class)->finalize (object);
}

static guint
stop_signal (const char *name)
{
  return g_signal_new (name, HS_TYPE_TIME_STRIP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
hs_time_strip_class_init (HsTimeStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_time_strip_dispose;
  G_OBJECT_CLASS (klass)->finalize = hs_time_strip_finalize;
  widget_class->measure = hs_time_strip_measure;
  widget_class->get_request_mode = hs_time_strip_get_request_mode;
  widget_class->size_allocate = hs_time_strip_size_allocate;
  widget_class->snapshot = hs_time_strip_snapshot;
  widget_class->focus = hs_time_strip_focus;
  signals[CHOSEN] = stop_signal ("chosen");
  signals[OPENED] = stop_signal ("opened");
  signals[LOCK] = stop_signal ("lock");
  signals[MOVE] = g_signal_new ("move", HS_TYPE_TIME_STRIP, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                                G_TYPE_STRING, G_TYPE_INT);
  gtk_widget_class_set_css_name (widget_class, "timestrip");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST);
}

static void
hs_time_strip_init (HsTimeStrip *self)
{
  self->day = hs_strip_day_new ();
  self->stops = g_ptr_array_new ();
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Time strip of the day"), -1);
}

GtkWidget *
hs_time_strip_new (void)
{
  return g_object_new (HS_TYPE_TIME_STRIP, NULL);
}

void
hs_time_strip_set_day (HsTimeStrip      *self,
                       const HsStripDay *day)
{
  HsStripDay *copy;

  g_return_if_fail (HS_IS_TIME_STRIP (self));

  copy = day != NULL ? hs_strip_day_copy (day) : hs_strip_day_new ();
  drop_stops (self);
  hs_strip_day_free (self->day);
  self->day = copy;
  for (guint i = 0; i < copy->stops->len; i++)
    {
      const HsStripStop *stop = g_ptr_array_index (copy->stops, i);
      HsStripChild *child = g_object_new (HS_TYPE_STRIP_CHILD, NULL);

      child->index = i;
      gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      stop->spoken != NULL ? stop->spoken : stop->label, -1);
      gtk_widget_set_parent (GTK_WIDGET (child), GTK_WIDGET (self));
      g_ptr_array_add (self->stops, child);
    }
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
hs_time_strip_set_now (HsTimeStrip *self,
                       int          minute)
{
  g_return_if_fail (HS_IS_TIME_STRIP (self));

  if (self->day->now == minute)
    return;
  self->day->now = minute;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_time_strip_set_form (HsTimeStrip *self,
                        HsStripForm  form)
{
  g_return_if_fail (HS_IS_TIME_STRIP (self));

  if (self->form == form)
    return;
  self->form = form;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
hs_time_strip_choose (HsTimeStrip *self,
                      const char  *id)
{
  int index;

  g_return_if_fail (HS_IS_TIME_STRIP (self));

  if (g_strcmp0 (self->chosen, id) == 0)
    return;
  g_free (self->chosen);
  self->chosen = g_strdup (id);
  index = index_of (self, id);
  for (guint i = 0; i < self->stops->len; i++)
    gtk_accessible_update_state (g_ptr_array_index (self->stops, i), GTK_ACCESSIBLE_STATE_SELECTED, (int) i == index,
                                 -1);
  if (self->form == HS_STRIP_FORM_TIGHT)
    gtk_widget_queue_resize (GTK_WIDGET (self));
  else
    gtk_widget_queue_draw (GTK_WIDGET (self));
}

const char *
hs_time_strip_get_chosen (HsTimeStrip *self)
{
  g_return_val_if_fail (HS_IS_TIME_STRIP (self), NULL);

  return self->chosen;
}
