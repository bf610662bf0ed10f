// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One check in the list of findings.
 *
 * Use it in a list item factory. It shows what was stored and judged elsewhere; typing goes to the page. */

#include "hs-reading-line.h"

#include <glib/gi18n.h>

#include "hs-ink.h"

struct _HsReadingLine
{
  GtkWidget parent_instance;
  GtkWidget *box;
  GtkLabel *number;
  GtkLabel *name;
  GtkLabel *hint;
  GtkBox *texts;
  GtkWidget *value_box;
  GtkLabel *value;
  GtkLabel *unit;
  GtkWidget *verdict_box;
  HsVerdictLabel *verdict;
  HsVerdictLabel *slim_verdict;
  gboolean empty;
  gboolean chosen;
  gboolean narrow;
  gboolean slim;
};

G_DEFINE_FINAL_TYPE (HsReadingLine, hs_reading_line, GTK_TYPE_WIDGET)

static void
hs_reading_line_snapshot (GtkWidget   *widget,
                         GtkSnapshot *snapshot)
{
  HsReadingLine *self = HS_READING_LINE (widget);
  g_autoptr (HsCairo) cr = hs_ink_cairo (snapshot, widget, 0);
  double u = hs_ink_unit (widget), height = gtk_widget_get_height (widget);
  graphene_rect_t area;
  HsInk ink;

  hs_ink_read (widget, &ink);
  if (self->chosen)
    {
      hs_ink_box (cr, &GRAPHENE_RECT_INIT (0, 0, gtk_widget_get_width (widget), height), &ink.wash, NULL, 0);
      hs_ink_box (cr, &GRAPHENE_RECT_INIT (0, 0, 5, height), &ink.copper, NULL, 0);
    }
  if (self->empty && gtk_widget_compute_bounds (GTK_WIDGET (self->unit), widget, &area))
    {
      double x = area.origin.x - 6 * u, y = area.origin.y + area.size.height - 4 * u;

      hs_ink_line (cr, &ink.edge, 2, x - 64 * u, y, x, y);
    }
  GTK_WIDGET_CLASS (hs_reading_line_parent_class)->snapshot (widget, snapshot);
}

static void
hs_reading_line_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), HS_TYPE_READING_LINE);
  G_OBJECT_CLASS (hs_reading_line_parent_class)->dispose (object);
}

static void
hs_reading_line_class_init (HsReadingLineClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_reading_line_dispose;
  widget_class->snapshot = hs_reading_line_snapshot;
  g_type_ensure (HS_TYPE_VERDICT_LABEL);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-reading-line.ui");
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, box);
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, number);
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, name);
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, hint);
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, texts);
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, value_box);
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, value);
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, unit);
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, verdict_box);
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, verdict);
  gtk_widget_class_bind_template_child (widget_class, HsReadingLine, slim_verdict);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "readingrow");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}

static void
hs_reading_line_init (HsReadingLine *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
hs_reading_line_new (void)
{
  return g_object_new (HS_TYPE_READING_LINE, NULL);
}

static void
set_text (GtkLabel   *label,
          const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static void
update_name (HsReadingLine        *self,
             const HsReadingFace *face)
{
  g_autofree char *name = NULL;

  /* Translators: a check as a sentence: its number, its name, the reading with its unit, the verdict. */
  name = g_strdup_printf (_("%u, %s, %s %s, %s"), face->number, face->name != NULL ? face->name : "",
                          face->value != NULL ? face->value : _("no reading"),
                          face->value != NULL && face->unit != NULL ? face->unit : "",
                          face->verdict != NULL ? face->verdict : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

/* A number is never broken; words wrap, so that they leave room for the name. */
static void
set_words (HsReadingLine *self,
           gboolean       words)
{
  gtk_label_set_wrap (self->value, words);
  gtk_widget_set_valign (GTK_WIDGET (self->value), words ? GTK_ALIGN_CENTER : GTK_ALIGN_BASELINE);
  gtk_label_set_max_width_chars (self->value, words ? 14 : -1);
  if (words)
    {
      gtk_widget_add_css_class (GTK_WIDGET (self->value), "hs-strong");
      gtk_widget_remove_css_class (GTK_WIDGET (self->value), "hs-value");
    }
  else
    {
      gtk_widget_add_css_class (GTK_WIDGET (self->value), "hs-value");
      gtk_widget_remove_css_class (GTK_WIDGET (self->value), "hs-strong");
    }
}

void
hs_reading_line_set_face (HsReadingLine        *self,
                         const HsReadingFace *face)
{
  g_autofree char *number = NULL;

  g_return_if_fail (HS_IS_READING_LINE (self));
  g_return_if_fail (face != NULL);

  number = g_strdup_printf ("%u", face->number);
  self->empty = face->value == NULL;
  self->chosen = face->chosen;
  set_text (self->number, number);
  set_text (self->name, face->name);
  set_text (self->hint, face->hint);
  /* Without a value its room stays, for the line to write on. */
  set_words (self, !self->empty && face->words);
  set_text (self->value, self->empty ? " " : face->value);
  gtk_label_set_width_chars (self->value, self->empty ? 4 : -1);
  set_text (self->unit, face->unit);
  hs_verdict_label_set (self->verdict, self->narrow ? NULL : face->verdict, face->shape);
  hs_verdict_label_set (self->slim_verdict, self->narrow ? face->verdict : NULL, face->shape);
  update_name (self, face);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hs_reading_line_set_narrow (HsReadingLine *self,
                           gboolean      narrow)
{
  HsVerdictLabel *from, *to;

  g_return_if_fail (HS_IS_READING_LINE (self));

  if (self->narrow == narrow)
    return;
  self->narrow = narrow;
  from = narrow ? self->verdict : self->slim_verdict;
  to = narrow ? self->slim_verdict : self->verdict;
  hs_verdict_label_set (to, hs_chip_get_text (HS_CHIP (from)), hs_verdict_label_get_shape (from));
  hs_verdict_label_set (from, NULL, HS_VERDICT_SHAPE_PLAIN);
  gtk_widget_set_visible (self->verdict_box, !narrow);
  gtk_widget_set_valign (GTK_WIDGET (self->number), narrow ? GTK_ALIGN_START : GTK_ALIGN_CENTER);
  gtk_widget_set_valign (self->value_box, narrow ? GTK_ALIGN_START : GTK_ALIGN_CENTER);
}

void
hs_reading_line_set_slim (HsReadingLine *self,
                          gboolean      slim)
{
  g_return_if_fail (HS_IS_READING_LINE (self));

  if (self->slim == slim)
    return;
  self->slim = slim;
  g_object_ref (self->value_box);
  gtk_box_remove (slim ? GTK_BOX (self->box) : self->texts, self->value_box);
  if (slim)
    gtk_box_insert_child_after (self->texts, self->value_box, GTK_WIDGET (self->hint));
  else
    gtk_box_insert_child_after (GTK_BOX (self->box), self->value_box, GTK_WIDGET (self->texts));
  g_object_unref (self->value_box);
}
