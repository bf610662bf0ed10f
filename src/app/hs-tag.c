// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A job as a tag: punched strip with the stage, then plate, words, window, place and the next act.
 *
 * Use it in a wire (hs-wire.c), which hangs it by its string. A recycled tag gets a whole new face in one call. It
 * refuses to tint by stage: the silhouette and the words say it. */

#include "hs-tag.h"

#include <glib/gi18n.h>

#include "hs-chip.h"
#include "hs-glyph.h"
#include "hs-ink.h"

#define STRIP_PX 62
#define CUT_PX 14
#define EAR_PX 30
#define LEAST_HEIGHT_PX 168
#define KEY_FOOT_PX 5
#define LEAST_WIDTH_PX 300
#define LARGE_TEXT 1.5 /* times the usual size */
#define MOST_STRIP 1.2 /* times the usual width: with large text the room is for the words */
#define USUAL_WIDTH_PX 400

struct _HsTag
{
  GtkWidget parent_instance;
  GtkWidget *content;
  GtkWidget *keycap; /* on the strip */
  GtkWidget *top_row;
  HsPlateChip *plate;
  GtkLabel *model;
  GtkLabel *number;
  GtkLabel *words;
  GtkWidget *time_row;
  HsBracket *window;
  GtkLabel *figure;
  GtkLabel *when;
  GtkLabel *place;
  GtkWidget *line_row;
  GtkLabel *line;
  HsVerdictLabel *verdict;
  GtkWidget *act_row;
  GtkLabel *act;

  char *stage;
  guint stop;
  gboolean attention;
  gboolean chosen;
};

enum
{
  PROP_0,
  PROP_CHOSEN,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

enum
{
  ACTIVATED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HsTag, hs_tag, GTK_TYPE_WIDGET)

static void
trace_outline (cairo_t  *cr,
               double    w,
               double    h,
               double    inset,
               double    cut,
               double    ear)
{
  cairo_move_to (cr, cut, inset);
  if (ear > 0)
    {
      cairo_line_to (cr, w - ear, inset);
      cairo_line_to (cr, w - inset, ear);
    }
  else
    cairo_line_to (cr, w - inset, inset);
  cairo_line_to (cr, w - inset, h - inset);
  cairo_line_to (cr, cut, h - inset);
  cairo_line_to (cr, inset, h - cut);
  cairo_line_to (cr, inset, cut);
  cairo_close_path (cr);
}

static void
draw_paper (HsTag       *self,
            cairo_t     *cr,
            const HsInk *ink,
            double       w,
            double       h,
            double       u)
{
  double line = self->chosen ? 3 : 1.25, ear = self->attention ? EAR_PX * u : 0;

  trace_outline (cr, w, h, line / 2, CUT_PX * u, ear);
  gdk_cairo_set_source_rgba (cr, self->chosen ? &ink->wash : &ink->paper);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, self->chosen ? &ink->copper : &ink->edge);
  cairo_set_line_width (cr, line);
  cairo_stroke (cr);
  if (ear > 0)
    {
      cairo_move_to (cr, w - ear, 0);
      cairo_line_to (cr, w, ear);
      cairo_line_to (cr, w - ear, ear);
      cairo_close_path (cr);
      gdk_cairo_set_source_rgba (cr, &ink->ink);
      cairo_fill (cr);
    }
}

static int
strip_width (GtkWidget *widget)
{
  return (int) (STRIP_PX * MIN (hs_ink_unit (widget), MOST_STRIP));
}

static void
draw_strip (HsTag       *self,
            cairo_t     *cr,
            const HsInk *ink,
            double       h,
            double       u)
{
  static const double dashes[] = { 2.5, 4 };
  graphene_point_t eyelet;

  hs_tag_get_eyelet (self, &eyelet);
  cairo_save (cr);
  cairo_set_dash (cr, dashes, 2, 0);
  hs_ink_line (cr, &ink->ink2, 1.5, strip_width (GTK_WIDGET (self)), 6, strip_width (GTK_WIDGET (self)), h - 6);
  cairo_restore (cr);

  cairo_arc (cr, eyelet.x, eyelet.y, 9 * u, 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (cr, &ink->edge);
  cairo_set_line_width (cr, 1.25);
  cairo_stroke (cr);
  cairo_arc (cr, eyelet.x, eyelet.y, 5.5 * u, 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (cr, &ink->bench);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, &ink->ink);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);

  if (self->stage != NULL)
    hs_glyph_draw (cr, self->stage, &ink->ink, eyelet.x - 15 * u, 42 * u, 30 * u);
  if (self->stop > 0)
    {
      g_autofree char *number = g_strdup_printf ("%u", self->stop);

      hs_ink_label (GTK_WIDGET (self), cr, number, 1.6, 800, &ink->ink, eyelet.x, 98 * u, 0.5);
      /* Translators: below the number of a stop in today's order. */
      hs_ink_label (GTK_WIDGET (self), cr, _("stop"), 0.95, 400, &ink->ink2, eyelet.x, 120 * u, 0.5);
    }
}

static void
hs_tag_snapshot (GtkWidget   *widget,
                 GtkSnapshot *snapshot)
{
  HsTag *self = HS_TAG (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 0);
  double u = hs_ink_unit (widget);
  HsInk ink;

  hs_ink_read (widget, &ink);
  draw_paper (self, cr, &ink, gtk_widget_get_width (widget), gtk_widget_get_height (widget), u);
  draw_strip (self, cr, &ink, gtk_widget_get_height (widget), u);
  gtk_widget_snapshot_child (widget, self->content, snapshot);
  gtk_widget_snapshot_child (widget, self->keycap, snapshot);
}

/* Without it the width is not handed to the measuring, and a tag whose lines wrap is too low for them. */
static GtkSizeRequestMode
hs_tag_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
hs_tag_measure (GtkWidget      *widget,
                GtkOrientation  orientation,
                int             for_size,
                int            *minimum,
                int            *natural,
                int            *minimum_baseline,
                int            *natural_baseline)
{
  HsTag *self = HS_TAG (widget);
  double u = hs_ink_unit (widget);
  int strip = strip_width (widget) + 12, least_width, least, wanted;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      gtk_widget_measure (self->content, orientation, -1, &least, NULL, NULL, NULL);
      *minimum = MIN (least + strip, (int) (LEAST_WIDTH_PX * u));
      *natural = MAX (*minimum, (int) (USUAL_WIDTH_PX * u));
    }
  else
    {
      gtk_widget_measure (self->content, GTK_ORIENTATION_HORIZONTAL, -1, &least_width, NULL, NULL, NULL);
      gtk_widget_measure (self->content, orientation, for_size > strip ? MAX (least_width, for_size - strip) : -1,
                          &least, &wanted, NULL, NULL);
      *minimum = MAX (least, (int) (LEAST_HEIGHT_PX * u));
      *natural = MAX (wanted, *minimum);
    }
}

/* At the foot of the strip, below the number of the stop. */
static void
allocate_key (HsTag *self, int height)
{
  graphene_point_t eyelet, place;
  int wide, high;

  hs_tag_get_eyelet (self, &eyelet);
  gtk_widget_measure (self->keycap, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &wide, NULL, NULL);
  gtk_widget_measure (self->keycap, GTK_ORIENTATION_VERTICAL, wide, NULL, &high, NULL, NULL);
  place = GRAPHENE_POINT_INIT (MAX (0, (int) eyelet.x - wide / 2), height - high - KEY_FOOT_PX);
  gtk_widget_allocate (self->keycap, wide, high, -1, gsk_transform_translate (NULL, &place));
}

static void
hs_tag_size_allocate (GtkWidget *widget,
                      int        width,
                      int        height,
                      int        baseline)
{
  HsTag *self = HS_TAG (widget);
  int strip = strip_width (widget) + 12, least;

  gtk_widget_measure (self->content, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_allocate (self->content, MAX (least, width - strip), height, -1,
                       gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT (strip, 0)));
  if (gtk_widget_should_layout (self->keycap))
    allocate_key (self, height);
}

static void
activate (GtkWidget  *widget,
          const char *name,
          GVariant   *parameter)
{
  g_signal_emit (widget, signals[ACTIVATED], 0);
}

static void
clicked (GtkGestureClick *gesture,
         int              n_press,
         double           x,
         double           y,
         GtkWidget       *widget)
{
  gtk_widget_grab_focus (widget);
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  g_signal_emit (widget, signals[ACTIVATED], 0);
}

static void
hs_tag_get_property (GObject    *object,
                     guint       id,
                     GValue     *value,
                     GParamSpec *pspec)
{
  if (id == PROP_CHOSEN)
    g_value_set_boolean (value, HS_TAG (object)->chosen);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_tag_set_property (GObject      *object,
                     guint         id,
                     const GValue *value,
                     GParamSpec   *pspec)
{
  if (id == PROP_CHOSEN)
    hs_tag_set_chosen (HS_TAG (object), g_value_get_boolean (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_tag_dispose (GObject *object)
{
  g_clear_pointer (&HS_TAG (object)->keycap, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (object), HS_TYPE_TAG);
  G_OBJECT_CLASS (hs_tag_parent_class)->dispose (object);
}

static void
hs_tag_finalize (GObject *object)
{
  g_free (HS_TAG (object)->stage);
  G_OBJECT_CLASS (hs_tag_parent_class)->finalize (object);
}

/* Else it ends where the line does. */
static void
let_wrap (GtkLabel *label,
          gboolean  wraps)
{
  gtk_label_set_wrap (label, wraps);
  gtk_label_set_lines (label, wraps ? -1 : 1);
  gtk_label_set_ellipsize (label, wraps ? PANGO_ELLIPSIZE_NONE : PANGO_ELLIPSIZE_END);
}

/* Large words stand below each other: no number is cut. */
static void
stack_rows (HsTag    *self,
            gboolean  stacked)
{
  GtkOrientation way = stacked ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL;

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->top_row), way);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->time_row), way);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->line_row), way);
  let_wrap (self->model, stacked);
  let_wrap (self->place, stacked);
  gtk_label_set_wrap (self->figure, stacked);
  gtk_label_set_wrap (self->when, stacked);
  gtk_label_set_xalign (self->number, stacked ? 0 : 1);
  gtk_label_set_xalign (self->when, stacked ? 0 : 1);
  gtk_widget_set_halign (GTK_WIDGET (self->plate), stacked ? GTK_ALIGN_START : GTK_ALIGN_FILL);
  gtk_widget_set_halign (GTK_WIDGET (self->window), stacked ? GTK_ALIGN_START : GTK_ALIGN_FILL);
  gtk_widget_set_halign (GTK_WIDGET (self->verdict), stacked ? GTK_ALIGN_START : GTK_ALIGN_FILL);
}

/* How large the words are is known from here on. */
static void
hs_tag_css_changed (GtkWidget         *widget,
                    GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (hs_tag_parent_class)->css_changed (widget, change);
  stack_rows (HS_TAG (widget), hs_ink_unit (widget) > LARGE_TEXT);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HsTag, content);
  gtk_widget_class_bind_template_child (widget_class, HsTag, top_row);
  gtk_widget_class_bind_template_child (widget_class, HsTag, time_row);
  gtk_widget_class_bind_template_child (widget_class, HsTag, plate);
  gtk_widget_class_bind_template_child (widget_class, HsTag, model);
  gtk_widget_class_bind_template_child (widget_class, HsTag, number);
  gtk_widget_class_bind_template_child (widget_class, HsTag, words);
  gtk_widget_class_bind_template_child (widget_class, HsTag, window);
  gtk_widget_class_bind_template_child (widget_class, HsTag, figure);
  gtk_widget_class_bind_template_child (widget_class, HsTag, when);
  gtk_widget_class_bind_template_child (widget_class, HsTag, place);
  gtk_widget_class_bind_template_child (widget_class, HsTag, line_row);
  gtk_widget_class_bind_template_child (widget_class, HsTag, line);
  gtk_widget_class_bind_template_child (widget_class, HsTag, verdict);
  gtk_widget_class_bind_template_child (widget_class, HsTag, act_row);
  gtk_widget_class_bind_template_child (widget_class, HsTag, act);
  gtk_widget_class_bind_template_callback (widget_class, clicked);
}

static void
hs_tag_class_init (HsTagClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = hs_tag_get_property;
  object_class->set_property = hs_tag_set_property;
  object_class->dispose = hs_tag_dispose;
  object_class->finalize = hs_tag_finalize;
  widget_class->css_changed = hs_tag_css_changed;
  widget_class->snapshot = hs_tag_snapshot;
  widget_class->get_request_mode = hs_tag_get_request_mode;
  widget_class->measure = hs_tag_measure;
  widget_class->size_allocate = hs_tag_size_allocate;
  properties[PROP_CHOSEN] = g_param_spec_boolean ("chosen", NULL, NULL, FALSE,
                                                  G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  signals[ACTIVATED] = g_signal_new ("activated", HS_TYPE_TAG, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);

  g_type_ensure (HS_TYPE_PLATE_CHIP);
  g_type_ensure (HS_TYPE_BRACKET);
  g_type_ensure (HS_TYPE_VERDICT_LABEL);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-tag.ui");
  bind_children (widget_class);
  gtk_widget_class_install_action (widget_class, "tag.activate", NULL, activate);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Return, 0, "tag.activate", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_KP_Enter, 0, "tag.activate", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_space, 0, "tag.activate", NULL);
  gtk_widget_class_set_css_name (widget_class, "tag");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST_ITEM);
}

static void
hs_tag_init (HsTag *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  self->keycap = hs_keycap_new (NULL);
  gtk_widget_set_parent (self->keycap, GTK_WIDGET (self));
}

GtkWidget *
hs_tag_new (void)
{
  return g_object_new (HS_TYPE_TAG, NULL);
}

static void
set_label (GtkLabel   *label,
           const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static char *
dup_bold_end (const char *lead,
              const char *text)
{
  if (text == NULL)
    return NULL;
  if (lead == NULL)
    return g_markup_escape_text (text, -1);
  return g_markup_printf_escaped ("%s <b>%s</b>", lead, text);
}

static char *
dup_bold_start (const char *lead,
                const char *text)
{
  if (lead == NULL)
    return text != NULL ? g_markup_escape_text (text, -1) : NULL;
  return g_markup_printf_escaped ("<b><span size=\"88%%\">%s</span></b> %s", lead, text != NULL ? text : "");
}

static void
say (GString    *spoken,
     const char *text)
{
  if (text == NULL || *text == '\0')
    return;
  if (spoken->len > 0)
    g_string_append (spoken, ", ");
  g_string_append (spoken, text);
}

static void
say_pair (GString    *spoken,
          const char *lead,
          const char *text)
{
  g_autofree char *both = g_strdup_printf ("%s %s", lead != NULL ? lead : "", text != NULL ? text : "");

  say (spoken, g_strstrip (both));
}

static void
update_name (HsTag           *self,
             const HsTagFace *face)
{
  g_autoptr (GString) spoken = g_string_new (NULL);

  say (spoken, face->plate);
  say (spoken, face->model);
  say (spoken, face->number);
  say (spoken, face->stage_label);
  if (face->stop > 0)
    {
      g_autofree char *stop = g_strdup_printf (_("stop %u"), face->stop);

      say (spoken, stop);
    }
  say (spoken, face->words);
  say (spoken, face->window != NULL ? face->window : face->figure);
  say_pair (spoken, face->when_lead, face->when);
  say (spoken, face->place);
  say_pair (spoken, face->line_lead, face->line);
  say (spoken, face->verdict);
  say (spoken, face->act);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken->str, -1);
}

void
hs_tag_set_face (HsTag           *self,
                 const HsTagFace *face)
{
  g_autofree char *when = NULL;
  g_autofree char *line = NULL;
  double u;

  g_return_if_fail (HS_IS_TAG (self));
  g_return_if_fail (face != NULL);

  u = hs_ink_unit (GTK_WIDGET (self));
  when = dup_bold_end (face->when_lead, face->when);
  line = dup_bold_start (face->line_lead, face->line);

  if (g_strcmp0 (self->stage, face->stage) != 0)
    {
      g_free (self->stage);
      self->stage = g_strdup (face->stage);
    }
  self->stop = face->stop;
  self->attention = face->attention;
  hs_chip_set_text (HS_CHIP (self->plate), face->plate);
  set_label (self->model, face->model);
  set_label (self->number, face->number);
  gtk_widget_set_margin_end (GTK_WIDGET (self->number), face->attention ? (int) (22 * u) : 0);
  set_label (self->words, face->words);
  hs_chip_set_text (HS_CHIP (self->window), face->window);
  set_label (self->figure, face->window == NULL ? face->figure : NULL);
  set_label (self->when, when);
  set_label (self->place, face->place);
  set_label (self->line, line);
  hs_verdict_label_set (self->verdict, face->verdict, face->verdict_shape);
  gtk_widget_set_visible (self->line_row, face->line != NULL || face->verdict != NULL);
  set_label (self->act, face->act);
  gtk_widget_set_visible (self->act_row, face->act != NULL);
  stack_rows (self, u > LARGE_TEXT);
  update_name (self, face);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_tag_set_chosen (HsTag    *self,
                   gboolean  chosen)
{
  g_return_if_fail (HS_IS_TAG (self));

  if (self->chosen == chosen)
    return;
  self->chosen = chosen;
  gtk_accessible_update_state (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_STATE_SELECTED, chosen, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_CHOSEN]);
}

gboolean
hs_tag_get_chosen (HsTag *self)
{
  g_return_val_if_fail (HS_IS_TAG (self), FALSE);

  return self->chosen;
}

void
hs_tag_set_key (HsTag      *self,
                const char *key)
{
  g_return_if_fail (HS_IS_TAG (self));

  hs_chip_set_text (HS_CHIP (self->keycap), key);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_KEY_SHORTCUTS,
                                  key != NULL ? key : "", -1);
}

void
hs_tag_get_eyelet (HsTag            *self,
                   graphene_point_t *ret_point)
{
  double u = hs_ink_unit (GTK_WIDGET (self));

  *ret_point = GRAPHENE_POINT_INIT ((float) (strip_width (GTK_WIDGET (self)) * 30 / STRIP_PX), (float) (18 * u));
}
