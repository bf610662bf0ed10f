// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* On the way. Read at a glance through the windshield's light: the address is the largest line, and nothing wants an
 * answer. Whom to ring stands on top, for when the van has stopped. */

#include "hs-way-window.h"

#include <glib/gi18n.h>

#include "hs-ask-way.h"
#include "hs-face.h"
#include "hs-geo.h"
#include "hs-hand-off-window.h"
#include "hs-key-button.h"
#include "hs-line-list.h"
#include "hs-mover.h"
#include "hs-question.h"
#include "hs-room.h"
#include "hs-show.h"
#include "hs-window.h"

struct _HsWayWindow
{
  AdwWindow parent_instance;

  GtkWidget *ring_box;
  GtkLabel *ring;
  GtkLabel *who;
  GtkLabel *where;
  GtkLabel *there;
  GtkBox *before;
  GtkLabel *access;
  HsKeyButton *arrived;

  HsPage *page; /* weak: under us, in the window that destroys us */
  HsQuestion *ask;
  char *job_id;
  char *number;
};

G_DEFINE_FINAL_TYPE (HsWayWindow, hs_way_window, ADW_TYPE_WINDOW)

#define WINDOW_KEY "hs-way-window"

static const HsWay *
get_way (HsWayWindow *self)
{
  return self->ask != NULL ? hs_question_get (self->ask) : NULL;
}

static void
set_line (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

/* "4 Quay Street, Quayside"; an area that is a position of its own is no address. */
static char *
dup_where (const HsJobView *view)
{
  const char *street = view->street != NULL ? view->street : "";
  const char *area = view->tag->area != NULL && !hs_geo_is_meant (view->tag->area) ? view->tag->area : "";

  if (*street == '\0' && *area == '\0')
    return g_strdup (view->tag->customer != NULL ? view->tag->customer : view->tag->number);
  return g_strconcat (street, *street != '\0' && *area != '\0' ? ", " : "", area, NULL);
}

/* "promised 08:00–10:00", of another day than today with the day: who rolls early sees it. */
static char *
dup_promised (HsLedger *ledger, const HsBoardRow *tag)
{
  g_autofree char *window = hs_show_window (ledger, tag->window_from, tag->window_to);
  g_autofree char *day = tag->day != hs_ledger_get_today (ledger) ? hs_show_day (tag->day) : NULL;

  if (*window == '\0')
    return g_strdup ("");
  if (day == NULL)
    return g_strdup_printf (_("promised %s"), window);
  /* Translators: a day and hours: "promised Mar 12, 08:00–10:00". */
  return g_strdup_printf (_("promised %s, %s"), day, window);
}

static char *
dup_there (HsLedger *ledger, const HsWay *way)
{
  g_autofree char *clock = way->stop != NULL ? hs_show_clock (ledger, way->stop->arrive) : NULL;
  g_autofree char *there = clock != NULL ? g_strdup_printf (_("there %s"), clock) : g_strdup ("");
  g_autofree char *promised = dup_promised (ledger, way->view->tag);

  return hs_show_joined (there, promised, NULL);
}

/* A counter on the way that is shut, and one that lacks a part of this call. */
static void
show_shut (HsWayWindow *self, HsLedger *ledger, const HsWay *way)
{
  for (guint i = 0; way->plan != NULL && i < way->plan->shut->len; i++)
    {
      const HsShutPart *part = g_ptr_array_index (way->plan->shut, i);
      gboolean mine = g_str_equal (part->job_id, self->job_id);
      g_autofree char *text = NULL;

      for (guint k = 0; !mine && k < way->before->len; k++)
        mine = g_str_equal (part->supplier_id, ((HsPlannedStop *) g_ptr_array_index (way->before, k))->row_id);
      text = mine ? hs_face_dup_shut (ledger, part) : NULL;
      if (text != NULL)
        hs_line_list_add (self->before, text, NULL, "hs-title");
    }
}

static void
show_before (HsWayWindow *self, HsLedger *ledger, const HsWay *way)
{
  hs_line_list_clear (self->before);
  for (guint i = 0; i < way->before->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (way->before, i);
      g_autofree char *clock = hs_show_clock (ledger, stop->arrive);
      /* Translators: a parts counter on the way, and when she is there. */
      g_autofree char *first = g_strdup_printf (_("First %s, %s"), stop->id, clock);
      g_autofree char *text = hs_show_joined (first, stop->note != NULL ? stop->note : "", NULL);

      hs_line_list_add (self->before, text, NULL, "hs-title");
    }
  show_shut (self, ledger, way);
  gtk_widget_set_visible (GTK_WIDGET (self->before), gtk_widget_get_first_child (GTK_WIDGET (self->before)) != NULL);
}

static void
show_ring (HsWayWindow *self, const HsWay *way)
{
  const char *who = way->view->tag->customer, *phone = way->view->phone;
  g_autofree char *text = way->ring == NULL ? NULL
                          : hs_show_joined (way->ring, who != NULL ? who : "", phone != NULL ? phone : "", NULL);

  set_line (self->ring, text);
  gtk_widget_set_visible (self->ring_box, way->ring != NULL);
}

static void
answered_cb (HsWayWindow *self)
{
  const HsWay *way = get_way (self);
  HsLedger *ledger = self->page != NULL ? hs_page_get_ledger (self->page) : NULL;
  g_autofree char *who = NULL, *where = NULL, *there = NULL;

  if (way == NULL || ledger == NULL)
    return;
  if (way->view->tag->stage != HS_STAGE_ROLLING)
    {
      gtk_window_destroy (GTK_WINDOW (self));
      return;
    }
  who = hs_show_joined (self->number, way->view->tag->customer != NULL ? way->view->tag->customer : "",
                        way->view->tag->plate != NULL ? way->view->tag->plate : "",
                        way->view->tag->vehicle != NULL ? way->view->tag->vehicle : "", NULL);
  where = dup_where (way->view);
  there = dup_there (ledger, way);
  set_line (self->who, who);
  set_line (self->where, where);
  set_line (self->there, there);
  set_line (self->access, way->view->access_note);
  show_before (self, ledger, way);
  show_ring (self, way);
}

static void
arrived_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsWayWindow *self = HS_WAY_WINDOW (widget);

  if (self->page != NULL && get_way (self) != NULL)
    hs_mover_next (self->page, self->job_id, self->number, HS_STAGE_ROLLING);
}

static void
phone_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsWayWindow *self = HS_WAY_WINDOW (widget);

  if (self->page != NULL)
    hs_hand_off_window_present (GTK_WINDOW (self), hs_page_get_ledger (self->page), self->job_id, NULL);
}

/* A caller comes first, also at the wheel's side. */
static void
call_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsWayWindow *self = HS_WAY_WINDOW (widget);
  GtkWindow *over = gtk_window_get_transient_for (GTK_WINDOW (self));

  if (over != NULL)
    gtk_widget_activate_action (GTK_WIDGET (over), "win.call-slip", NULL);
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
hs_way_window_dispose (GObject *object)
{
  HsWayWindow *self = HS_WAY_WINDOW (object);

  if (self->page != NULL && g_object_get_data (G_OBJECT (self->page), WINDOW_KEY) == self)
    g_object_set_data (G_OBJECT (self->page), WINDOW_KEY, NULL);
  g_clear_weak_pointer (&self->page);
  g_clear_object (&self->ask);
  g_clear_pointer (&self->job_id, g_free);
  g_clear_pointer (&self->number, g_free);
  G_OBJECT_CLASS (hs_way_window_parent_class)->dispose (object);
}

static void
add_keys (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "way.arrived", NULL, arrived_action);
  gtk_widget_class_install_action (widget_class, "way.phone", NULL, phone_action);
  gtk_widget_class_install_action (widget_class, "way.call", NULL, call_action);
  gtk_widget_class_install_action (widget_class, "way.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F3, 0, "way.call", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F4, 0, "way.arrived", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F8, 0, "way.phone", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F2, 0, "way.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "way.close", NULL);
}

static void
hs_way_window_class_init (HsWayWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_way_window_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_ROOM);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-way-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsWayWindow, ring_box);
  gtk_widget_class_bind_template_child (widget_class, HsWayWindow, ring);
  gtk_widget_class_bind_template_child (widget_class, HsWayWindow, who);
  gtk_widget_class_bind_template_child (widget_class, HsWayWindow, where);
  gtk_widget_class_bind_template_child (widget_class, HsWayWindow, there);
  gtk_widget_class_bind_template_child (widget_class, HsWayWindow, before);
  gtk_widget_class_bind_template_child (widget_class, HsWayWindow, access);
  gtk_widget_class_bind_template_child (widget_class, HsWayWindow, arrived);
  add_keys (widget_class);
}

static void
hs_way_window_init (HsWayWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static HsWayWindow *
open_window (HsPage *page, const char *job_id, const char *number)
{
  GtkWidget *over = GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (page)));
  HsWayWindow *self = g_object_new (HS_TYPE_WAY_WINDOW, "transient-for", over, "destroy-with-parent", TRUE, NULL);
  /* Translators: the number of a job. */
  g_autofree char *title = g_strdup_printf (_("On the way to %s"), number);
  g_autofree char *next = hs_mover_dup_next (number, HS_STAGE_ROLLING);

  g_set_weak_pointer (&self->page, page);
  g_object_set_data (G_OBJECT (page), WINDOW_KEY, self);
  self->job_id = g_strdup (job_id);
  self->number = g_strdup (number);
  gtk_window_set_title (GTK_WINDOW (self), title);
  hs_key_button_set_text (self->arrived, next);
  self->ask = hs_question_new (hs_page_get_ledger (page), hs_ask_way, (GDestroyNotify) hs_way_free);
  g_signal_connect_object (self->ask, "answered", G_CALLBACK (answered_cb), self, G_CONNECT_SWAPPED);
  hs_question_ask (self->ask, g_variant_new ("(s)", job_id));
  gtk_window_set_default_size (GTK_WINDOW (self), gtk_widget_get_width (over), gtk_widget_get_height (over));
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_fullscreen (GTK_WINDOW (self));
  return self;
}

HsWayWindow *
hs_way_window_present (HsPage *page, const char *job_id, const char *number)
{
  HsWayWindow *self;

  g_return_val_if_fail (HS_IS_PAGE (page), NULL);
  g_return_val_if_fail (job_id != NULL && number != NULL, NULL);

  self = g_object_get_data (G_OBJECT (page), WINDOW_KEY);
  if (self == NULL)
    self = open_window (page, job_id, number);
  gtk_widget_grab_focus (GTK_WIDGET (self->arrived));
  gtk_window_present (GTK_WINDOW (self));
  return self;
}

gboolean
hs_way_window_is_shown (HsWayWindow *self)
{
  g_return_val_if_fail (HS_IS_WAY_WINDOW (self), FALSE);

  return get_way (self) != NULL;
}
