// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The base of every page. A page asks the book through hs_page_ask(); its questions follow the book only while the
 * page is on the screen. It refuses to know the window: it finds it as its root when it has something to say. */

#include "hs-page.h"

#include <glib/gi18n.h>

typedef struct
{
  HsLedger *ledger;
  GPtrArray *questions;
  gboolean narrow;
  gboolean cramped;
  gboolean leads_into; /* the focus, once something can take it */
} HsPagePrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (HsPage, hs_page, ADW_TYPE_BIN)

enum
{
  PROP_0,
  PROP_LEDGER,
  PROP_NARROW,
  PROP_CRAMPED,
  N_PROPS,
};

static GParamSpec *props[N_PROPS];

static HsPagePrivate *
private_of (gpointer page)
{
  return hs_page_get_instance_private (HS_PAGE (page));
}

static void
set_awake (HsPage *self, gboolean awake)
{
  HsPagePrivate *priv = private_of (self);

  for (guint i = 0; i < priv->questions->len; i++)
    hs_question_set_awake (g_ptr_array_index (priv->questions, i), awake);
}

static void
hs_page_map (GtkWidget *widget)
{
  HsPageClass *klass = HS_PAGE_GET_CLASS (widget);

  GTK_WIDGET_CLASS (hs_page_parent_class)->map (widget);
  set_awake (HS_PAGE (widget), TRUE);
  if (klass->shown != NULL)
    klass->shown (HS_PAGE (widget));
}

static void
hs_page_unmap (GtkWidget *widget)
{
  set_awake (HS_PAGE (widget), FALSE);
  private_of (widget)->leads_into = FALSE;
  GTK_WIDGET_CLASS (hs_page_parent_class)->unmap (widget);
}

static void
set_room (HsPage *self, gboolean *place, gboolean value)
{
  HsPageClass *klass = HS_PAGE_GET_CLASS (self);

  if (*place == value)
    return;
  *place = value;
  if (klass->room_changed != NULL)
    klass->room_changed (self);
}

static void
hs_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  HsPagePrivate *priv = private_of (object);

  switch (id)
    {
    case PROP_LEDGER:
      priv->ledger = g_value_dup_object (value);
      break;
    case PROP_NARROW:
      set_room (HS_PAGE (object), &priv->narrow, g_value_get_boolean (value));
      break;
    case PROP_CRAMPED:
      set_room (HS_PAGE (object), &priv->cramped, g_value_get_boolean (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  HsPagePrivate *priv = private_of (object);

  switch (id)
    {
    case PROP_LEDGER:
      g_value_set_object (value, priv->ledger);
      break;
    case PROP_NARROW:
      g_value_set_boolean (value, priv->narrow);
      break;
    case PROP_CRAMPED:
      g_value_set_boolean (value, priv->cramped);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_page_dispose (GObject *object)
{
  HsPagePrivate *priv = private_of (object);

  g_ptr_array_set_size (priv->questions, 0);
  G_OBJECT_CLASS (hs_page_parent_class)->dispose (object);
}

static void
hs_page_finalize (GObject *object)
{
  HsPagePrivate *priv = private_of (object);

  g_clear_pointer (&priv->questions, g_ptr_array_unref);
  g_clear_object (&priv->ledger);
  G_OBJECT_CLASS (hs_page_parent_class)->finalize (object);
}

static void
hs_page_class_init (HsPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->set_property = hs_page_set_property;
  object_class->get_property = hs_page_get_property;
  object_class->dispose = hs_page_dispose;
  object_class->finalize = hs_page_finalize;
  widget_class->map = hs_page_map;
  widget_class->unmap = hs_page_unmap;

  props[PROP_LEDGER] = g_param_spec_object ("ledger", NULL, NULL, HS_TYPE_LEDGER, flags | G_PARAM_CONSTRUCT_ONLY);
  props[PROP_NARROW] = g_param_spec_boolean ("narrow", NULL, NULL, FALSE, flags);
  props[PROP_CRAMPED] = g_param_spec_boolean ("cramped", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
hs_page_init (HsPage *self)
{
  private_of (self)->questions = g_ptr_array_new_with_free_func (g_object_unref);
}

HsLedger *
hs_page_get_ledger (HsPage *self)
{
  g_return_val_if_fail (HS_IS_PAGE (self), NULL);

  return private_of (self)->ledger;
}

gboolean
hs_page_get_narrow (HsPage *self)
{
  g_return_val_if_fail (HS_IS_PAGE (self), FALSE);

  return private_of (self)->narrow;
}

gboolean
hs_page_get_cramped (HsPage *self)
{
  g_return_val_if_fail (HS_IS_PAGE (self), FALSE);

  return private_of (self)->cramped;
}

/* An open menu keeps it. */
static void
lead_into (HsPage *self)
{
  HsPagePrivate *priv = private_of (self);
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;

  if (!priv->leads_into || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  if (hs_page_get_focus (self) != NULL || (focus != NULL && gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER) != NULL)
      || gtk_widget_child_focus (GTK_WIDGET (self), GTK_DIR_TAB_FORWARD))
    priv->leads_into = FALSE;
}

void
hs_page_lead_into (HsPage *self)
{
  g_return_if_fail (HS_IS_PAGE (self));

  private_of (self)->leads_into = TRUE;
  lead_into (self);
}

HsQuestion *
hs_page_ask (HsPage *self, HsLedgerFunc func, GDestroyNotify free_answer, GCallback answered)
{
  HsPagePrivate *priv;
  HsQuestion *question;

  g_return_val_if_fail (HS_IS_PAGE (self), NULL);

  priv = private_of (self);
  question = hs_question_new (priv->ledger, func, free_answer);
  hs_question_set_awake (question, gtk_widget_get_mapped (GTK_WIDGET (self)));
  g_signal_connect_object (question, "answered", answered, self, G_CONNECT_SWAPPED);
  g_signal_connect_object (question, "answered", G_CALLBACK (lead_into), self, G_CONNECT_SWAPPED);
  g_ptr_array_add (priv->questions, question);
  return question;
}

void
hs_page_tell (HsPage *self, const char *text)
{
  GtkRoot *root;

  g_return_if_fail (HS_IS_PAGE (self));

  root = gtk_widget_get_root (GTK_WIDGET (self));
  if (HS_IS_WINDOW (root))
    hs_window_toast (HS_WINDOW (root), text, NULL, NULL);
}

void
hs_page_did (HsPage *self, const char *what, HsUndoFunc undo, gpointer data, GDestroyNotify free_data)
{
  GtkRoot *root;

  g_return_if_fail (HS_IS_PAGE (self));

  root = gtk_widget_get_root (GTK_WIDGET (self));
  if (HS_IS_WINDOW (root))
    hs_window_did (HS_WINDOW (root), what, undo, data, free_data);
  else if (free_data != NULL)
    free_data (data);
}

const char *
hs_page_say_frozen (void)
{
  return _("The job is squared up; nothing on it can be changed any more. Write a return visit or a credit.");
}

void
hs_page_open_job (HsPage *self, const char *job_id, const char *page_name)
{
  g_return_if_fail (HS_IS_PAGE (self));
  g_return_if_fail (job_id != NULL);

  gtk_widget_activate_action (GTK_WIDGET (self), "win.open-job", "(ss)", job_id, page_name != NULL ? page_name : "");
}

GtkWidget *
hs_page_get_focus (HsPage *self)
{
  GtkRoot *root;
  GtkWidget *focus;

  g_return_val_if_fail (HS_IS_PAGE (self), NULL);

  root = gtk_widget_get_root (GTK_WIDGET (self));
  focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self)) ? focus : NULL;
}

/* What is looked for next is looked for from the top on, not from what is gone. */
static void
forget_focus (GtkWidget *widget)
{
  GtkWidget *child;

  for (; (child = gtk_widget_get_focus_child (widget)) != NULL; widget = child)
    gtk_widget_set_focus_child (widget, NULL);
}

void
hs_page_keep_focus (HsPage *self, gboolean had_focus, GtkWidget *preferred)
{
  GtkWidget *focus = hs_page_get_focus (self);

  g_return_if_fail (GTK_IS_WIDGET (preferred));

  if (!had_focus || (focus != NULL && gtk_widget_is_visible (focus) && gtk_widget_is_sensitive (focus)))
    return;
  if (gtk_widget_is_visible (preferred) && gtk_widget_grab_focus (preferred))
    return;
  forget_focus (GTK_WIDGET (self));
  gtk_widget_child_focus (GTK_WIDGET (self), GTK_DIR_TAB_FORWARD);
}
