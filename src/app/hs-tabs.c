// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Tabs over the pages of a GtkStack, in the header, inside a page or at the bottom of a narrow window.
 *
 * Use it instead of a view switcher: the same buttons serve all three places. Left and Right move between tabs. It
 * refuses badges: what wants attention says so on its page. */

#include "hs-tabs.h"

#include <glib/gi18n.h>

#include "hs-glyph.h"
#include "hs-spoken.h"

struct _HsTabs
{
  GtkWidget parent_instance;
  GtkStack *stack;
  GtkSelectionModel *pages;
  gboolean bottom;
  gboolean wordless;
};

enum
{
  PROP_0,
  PROP_STACK,
  PROP_BOTTOM,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (HsTabs, hs_tabs, GTK_TYPE_WIDGET)

static void
clicked (GtkToggleButton *button,
         HsTabs          *self)
{
  GtkStackPage *page = g_object_get_data (G_OBJECT (button), "page");

  if (self->stack == NULL)
    return;
  gtk_stack_set_visible_child (self->stack, gtk_stack_page_get_child (page));
  gtk_toggle_button_set_active (button, gtk_stack_get_visible_child (self->stack) == gtk_stack_page_get_child (page));
}

static void
select_current (HsTabs *self)
{
  GtkWidget *current = self->stack != NULL ? gtk_stack_get_visible_child (self->stack) : NULL;

  for (GtkWidget *button = gtk_widget_get_first_child (GTK_WIDGET (self)); button != NULL;
       button = gtk_widget_get_next_sibling (button))
    {
      GtkStackPage *page = g_object_get_data (G_OBJECT (button), "page");
      gboolean active = gtk_stack_page_get_child (page) == current;

      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), active);
      gtk_accessible_update_state (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_STATE_SELECTED, active, -1);
    }
}

static void
title_changed (GtkStackPage *page,
               GParamSpec   *pspec,
               GtkWidget    *button)
{
  const char *title = gtk_stack_page_get_title (page);

  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, title != NULL ? title : "",
                                  -1);
}

/* Drawings stand in for words where there is no room for those, and beside them where the stack has the class drawn. */
static gboolean
draws (HsTabs *self)
{
  return self->wordless || gtk_widget_has_css_class (GTK_WIDGET (self->stack), "drawn");
}

/* A page is given its drawing after it has appeared. */
static void
icon_changed (GtkStackPage *page,
              GParamSpec   *pspec,
              GtkWidget    *button)
{
  GtkWidget *box = gtk_button_get_child (GTK_BUTTON (button));

  if (HS_IS_GLYPH (gtk_widget_get_first_child (box)))
    gtk_box_remove (GTK_BOX (box), gtk_widget_get_first_child (box));
  if (draws (HS_TABS (g_object_get_data (G_OBJECT (button), "tabs")))
      && hs_glyph_known (gtk_stack_page_get_icon_name (page)))
    gtk_box_prepend (GTK_BOX (box), hs_glyph_new (gtk_stack_page_get_icon_name (page)));
}

static GtkWidget *
create_tab (HsTabs       *self,
            GtkStackPage *page)
{
  GtkWidget *button, *box, *label;

  button = g_object_new (GTK_TYPE_TOGGLE_BUTTON, "accessible-role", GTK_ACCESSIBLE_ROLE_TAB, NULL);
  box = gtk_box_new (self->bottom ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL, 0);
  label = gtk_label_new (NULL);
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  /* Where there is too little room for a line, a second one; "Before and after" is one of five in the hand. */
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_natural_wrap_mode (GTK_LABEL (label), GTK_NATURAL_WRAP_NONE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  if (self->bottom)
    {
      gtk_label_set_lines (GTK_LABEL (label), 2);
      gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
    }
  gtk_widget_set_visible (label, !self->wordless);
  gtk_box_append (GTK_BOX (box), label);
  gtk_button_set_child (GTK_BUTTON (button), box);

  g_object_set_data (G_OBJECT (button), "tabs", self);
  g_object_set_data_full (G_OBJECT (button), "page", g_object_ref (page), g_object_unref);
  g_object_bind_property (page, "title", label, "label", G_BINDING_SYNC_CREATE);
  g_object_bind_property (page, "visible", button, "visible", G_BINDING_SYNC_CREATE);
  g_signal_connect_object (page, "notify::title", G_CALLBACK (title_changed), button, 0);
  g_signal_connect_object (page, "notify::icon-name", G_CALLBACK (icon_changed), button, 0);
  g_signal_connect (button, "clicked", G_CALLBACK (clicked), self);
  title_changed (page, NULL, button);
  icon_changed (page, NULL, button);
  return button;
}

static void
clear (HsTabs *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
}

static void
rebuild (HsTabs *self)
{
  clear (self);
  for (guint i = 0; self->pages != NULL && i < g_list_model_get_n_items (G_LIST_MODEL (self->pages)); i++)
    {
      g_autoptr (GObject) page = g_list_model_get_item (G_LIST_MODEL (self->pages), i);

      gtk_widget_set_parent (create_tab (self, GTK_STACK_PAGE (page)), GTK_WIDGET (self));
    }
  select_current (self);
}

static void
drop_stack (HsTabs *self)
{
  if (self->pages != NULL)
    g_signal_handlers_disconnect_by_data (self->pages, self);
  if (self->stack != NULL)
    g_signal_handlers_disconnect_by_data (self->stack, self);
  g_clear_object (&self->pages);
  g_clear_object (&self->stack);
}

static gboolean
hs_tabs_focus (GtkWidget        *widget,
               GtkDirectionType  direction)
{
  GtkWidget *focus = gtk_widget_get_focus_child (widget);

  if (focus == NULL && (direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD))
    for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
         child = gtk_widget_get_next_sibling (child))
      if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (child)))
        return gtk_widget_child_focus (child, direction);
  if (focus != NULL && (direction == GTK_DIR_TAB_FORWARD || direction == GTK_DIR_TAB_BACKWARD))
    return FALSE;
  return GTK_WIDGET_CLASS (hs_tabs_parent_class)->focus (widget, direction);
}

static void
hs_tabs_get_property (GObject    *object,
                      guint       id,
                      GValue     *value,
                      GParamSpec *pspec)
{
  switch (id)
    {
    case PROP_STACK:
      g_value_set_object (value, HS_TABS (object)->stack);
      break;
    case PROP_BOTTOM:
      g_value_set_boolean (value, HS_TABS (object)->bottom);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_tabs_set_property (GObject      *object,
                      guint         id,
                      const GValue *value,
                      GParamSpec   *pspec)
{
  switch (id)
    {
    case PROP_STACK:
      hs_tabs_set_stack (HS_TABS (object), g_value_get_object (value));
      break;
    case PROP_BOTTOM:
      hs_tabs_set_bottom (HS_TABS (object), g_value_get_boolean (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_tabs_dispose (GObject *object)
{
  drop_stack (HS_TABS (object));
  clear (HS_TABS (object));
  G_OBJECT_CLASS (hs_tabs_parent_class)->dispose (object);
}

static void
hs_tabs_class_init (HsTabsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = hs_tabs_get_property;
  object_class->set_property = hs_tabs_set_property;
  object_class->dispose = hs_tabs_dispose;
  widget_class->focus = hs_tabs_focus;
  properties[PROP_STACK] = g_param_spec_object ("stack", NULL, NULL, GTK_TYPE_STACK, flags);
  properties[PROP_BOTTOM] = g_param_spec_boolean ("bottom", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "tabs");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_TAB_LIST);
}

static void
hs_tabs_init (HsTabs *self)
{
  hs_spoken_name (GTK_WIDGET (self), _("Pages"));
}

GtkWidget *
hs_tabs_new (GtkStack *stack)
{
  return g_object_new (HS_TYPE_TABS, "stack", stack, NULL);
}

void
hs_tabs_set_stack (HsTabs   *self,
                   GtkStack *stack)
{
  g_return_if_fail (HS_IS_TABS (self));
  g_return_if_fail (stack == NULL || GTK_IS_STACK (stack));

  if (self->stack == stack)
    return;
  drop_stack (self);
  if (stack != NULL)
    {
      self->stack = g_object_ref (stack);
      self->pages = gtk_stack_get_pages (stack);
      g_signal_connect_swapped (self->pages, "items-changed", G_CALLBACK (rebuild), self);
      g_signal_connect_swapped (stack, "notify::visible-child", G_CALLBACK (select_current), self);
    }
  rebuild (self);
}

void
hs_tabs_set_bottom (HsTabs   *self,
                    gboolean  bottom)
{
  g_return_if_fail (HS_IS_TABS (self));

  if (self->bottom == bottom)
    return;
  self->bottom = bottom;
  gtk_box_layout_set_homogeneous (GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self))), bottom);
  if (bottom)
    gtk_widget_add_css_class (GTK_WIDGET (self), "bottom");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self), "bottom");
  rebuild (self);
}

void
hs_tabs_set_words (HsTabs   *self,
                   gboolean  words)
{
  g_return_if_fail (HS_IS_TABS (self));

  if (self->wordless == !words)
    return;
  self->wordless = !words;
  rebuild (self);
}
