// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The calls of a day, shared among the vans.
 *
 *   HsSharing ─▶ what it comes to · proof or gap · what is mended or broken · what to know · each van's stops
 *
 * It shows the best so far and fills in what is better as it comes; nothing in it waits. Nothing stands before it is
 * accepted, and what was accepted here can be undone here. */

#include "hs-share-window.h"

#include <glib/gi18n.h>

#include "hs-face.h"
#include "hs-key-button.h"
#include "hs-offer-row.h"
#include "hs-scroll-keys.h"
#include "hs-show.h"
#include "hs-window.h"

struct _HsShareWindow
{
  AdwWindow parent_instance;

  GtkScrolledWindow *scroller;
  GtkLabel *state;
  GtkLabel *trouble;
  GtkWidget *found;
  GtkLabel *summary;
  GtkLabel *saves;
  GtkLabel *moves;
  GtkListBox *promises;
  GtkListBox *notes;
  GtkBox *vans;
  GtkWidget *accept_child;
  GtkWidget *stop_child;
  GtkWidget *undo_child;
  gboolean stands; /* as the window beneath was told */

  HsLedger *ledger;
  HsSharing *sharing;
};

G_DEFINE_FINAL_TYPE (HsShareWindow, hs_share_window, ADW_TYPE_WINDOW)

/* Rows ------------------------------------------------------------------------------------------------------------- */

static void
clear_rows (GtkListBox *list)
{
  GtkListBoxRow *old;

  while ((old = gtk_list_box_get_row_at_index (list, 0)) != NULL)
    gtk_list_box_remove (list, GTK_WIDGET (old));
  gtk_widget_set_visible (GTK_WIDGET (list), FALSE);
}

static void
add_promises (HsShareWindow *self, GPtrArray *promises, const char *verdict)
{
  for (guint i = 0; i < promises->len; i++)
    {
      const HsBrokenPromise *promise = g_ptr_array_index (promises, i);

      hs_offer_row_append (self->promises, &(HsOfferFace){ NULL, promise->id, verdict, promise->why, NULL });
    }
}

static void
add_notes (HsShareWindow *self, GPtrArray *notes)
{
  for (guint i = 0; i < notes->len; i++)
    {
      const HsShareNote *note = g_ptr_array_index (notes, i);

      hs_offer_row_append (self->notes, &(HsOfferFace){ NULL, note->number, NULL, note->what, NULL });
    }
}

/* Vans ------------------------------------------------------------------------------------------------------------- */

static void
add_break (GtkListBox *list, HsLedger *ledger, const HsShareStop *stop)
{
  g_autofree char *start = hs_show_clock (ledger, stop->start);
  g_autofree char *window = hs_show_window (ledger, stop->start, stop->depart);
  g_autofree char *title = g_strdup_printf (_("break %s"), window);

  hs_offer_row_append (list, &(HsOfferFace){ start, title, NULL, NULL, NULL });
}

static void
add_stop (GtkListBox *list, HsLedger *ledger, const HsShareStop *stop, guint number)
{
  g_autofree char *start = hs_show_clock (ledger, stop->start);
  g_autofree char *window = hs_show_window (ledger, stop->window_from, stop->window_to);
  g_autofree char *title = g_strdup_printf ("%u. %s", number, stop->id);
  g_autofree char *words = NULL, *moved = NULL, *promised = NULL, *spare = NULL, *detail = NULL;

  if (stop->from_van != NULL)
    moved = g_strdup_printf (_("so far van %s’s"), stop->from_van);
  if (*window != '\0')
    promised = g_strdup_printf (_("promised %s"), window);
  if (stop->window_to != HS_INSTANT_NONE)
    spare = hs_face_dup_spare (stop->spare_seconds);
  words = stop->words != NULL ? hs_show_quoted (stop->words) : NULL;
  detail = hs_show_joined (words != NULL ? words : "", promised != NULL ? promised : "", moved != NULL ? moved : "",
                           stop->locked ? _("locked in its place") : "", NULL);
  hs_offer_row_append (list, &(HsOfferFace){ start, title, NULL, detail, spare });
}

static char *
van_head (HsLedger *ledger, const HsShareRoute *route)
{
  g_autofree char *leave = hs_show_clock (ledger, route->leave);
  g_autofree char *home = hs_show_clock (ledger, route->home);
  g_autofree char *miles = hs_show_miles (route->millimiles);

  if (route->leave == HS_INSTANT_NONE)
    return g_strdup_printf (_("Van %s stays"), route->van);
  if (route->begun)
    return g_strdup_printf (_("Van %s: goes on at %s, home %s, %s mi"), route->van, leave, home, miles);
  return g_strdup_printf (_("Van %s: leave %s, home %s, %s mi"), route->van, leave, home, miles);
}

static void
add_van (HsShareWindow *self, const HsShareRoute *route)
{
  g_autofree char *text = van_head (self->ledger, route);
  GtkWidget *head = gtk_label_new (text);
  GtkWidget *list = gtk_list_box_new ();
  guint number = 0;

  gtk_label_set_xalign (GTK_LABEL (head), 0);
  gtk_label_set_wrap (GTK_LABEL (head), TRUE);
  gtk_widget_set_margin_top (head, 6);
  gtk_widget_add_css_class (head, "hs-title");
  gtk_widget_add_css_class (head, "numeric");
  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "hs-rows");
  gtk_widget_add_css_class (list, "hs-paper");
  gtk_accessible_update_property (GTK_ACCESSIBLE (list), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  gtk_widget_set_visible (list, FALSE);
  for (guint i = 0; i < route->stops->len; i++)
    {
      const HsShareStop *stop = g_ptr_array_index (route->stops, i);

      if (stop->kind == HS_SHARE_BREAK)
        add_break (GTK_LIST_BOX (list), self->ledger, stop);
      else
        add_stop (GTK_LIST_BOX (list), self->ledger, stop, ++number);
    }
  gtk_box_append (self->vans, head);
  gtk_box_append (self->vans, list);
}

/* What it comes to ------------------------------------------------------------------------------------------------- */

/* @stood: the orders compared with stand no more. */
static char *
dup_saves (HsLedger *ledger, const HsSharePlan *plan, gboolean stood)
{
  gint64 seconds = plan->standing.seconds - plan->total.seconds;
  gint64 millimiles = plan->standing.millimiles - plan->total.millimiles;
  gint64 cents = plan->standing.cents - plan->total.cents;
  g_autofree char *span = hs_show_span (ABS (seconds));
  g_autofree char *miles = hs_show_miles (ABS (millimiles));
  g_autofree char *money = hs_show_money (ledger, ABS (cents));
  g_autofree char *time = g_strdup_printf (seconds >= 0 ? _("%s shorter") : _("%s longer"), span);
  g_autofree char *way = g_strdup_printf (millimiles >= 0 ? _("%s mi less") : _("%s mi more"), miles);
  g_autofree char *cost = g_strdup_printf (cents >= 0 ? _("%s cheaper") : _("%s dearer"), money);

  if (seconds == 0 && millimiles == 0 && cents == 0)
    return g_strdup (_("The orders that stand come to just as much."));
  return g_strdup_printf (stood ? _("Against the orders before: %s, %s, %s.")
                                : _("Against the orders that stand: %s, %s, %s."), time, way, cost);
}

/* "A-0022 to van B, A-0024 to van A" */
static char *
dup_moves (const HsSharePlan *plan)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < plan->moves->len; i++)
    {
      const HsShareMove *move = g_ptr_array_index (plan->moves, i);

      if (i > 0)
        g_string_append (text, ", ");
      g_string_append_printf (text, _("%s to van %s"), move->number, move->to);
    }
  return g_string_free (plan->moves->len > 0 ? text : g_string_assign (text, _("Every call stays with its van.")),
                          FALSE);
}

static void
show_plan (HsShareWindow *self, const HsSharePlan *plan)
{
  g_autofree char *span = hs_show_span (plan->total.seconds);
  g_autofree char *miles = hs_show_miles (plan->total.millimiles);
  g_autofree char *cost = hs_show_money (self->ledger, plan->total.cents);
  g_autofree char *summary = g_strdup_printf (_("All vans: %s away, %s mi, %s."), span, miles, cost);
  gboolean stood = hs_sharing_get_state (self->sharing) == HS_SHARING_ACCEPTED;
  g_autofree char *saves = dup_saves (self->ledger, plan, stood);
  g_autofree char *moves = dup_moves (plan);
  GtkWidget *old;

  gtk_label_set_label (self->summary, summary);
  gtk_label_set_label (self->saves, saves);
  gtk_label_set_label (self->moves, moves);
  clear_rows (self->promises);
  add_promises (self, plan->broken, _("cannot be kept"));
  add_promises (self, plan->worse, _("worse"));
  add_promises (self, plan->mended, NULL);
  add_promises (self, plan->left_out, _("left out"));
  clear_rows (self->notes);
  add_notes (self, plan->parts);
  add_notes (self, plan->stays);
  while ((old = gtk_widget_get_first_child (GTK_WIDGET (self->vans))) != NULL)
    gtk_box_remove (self->vans, old);
  for (guint i = 0; i < plan->routes->len; i++)
    add_van (self, g_ptr_array_index (plan->routes, i));
}

static char *
dup_gap (HsLedger *ledger, const HsSharePlan *plan)
{
  gint64 gap = hs_share_plan_gap_cents (plan);
  g_autofree char *money = hs_show_money (ledger, MAX (0, gap));

  if (gap < 0)
    return g_strdup (_("how far it is from the best is not known yet"));
  return g_strdup_printf (_("the best is at most %s cheaper"), money);
}

/* What is proven may still be that a promise must break. */
static char *
dup_found (HsLedger *ledger, const HsSharePlan *plan)
{
  g_autofree char *gap = NULL;

  if (plan->proven)
    return g_strdup (plan->broken->len > 0 ? _("Proven: whoever goes, no more promises can be kept, and none cheaper.")
                                           : _("Proven: nothing better keeps every promise."));
  gap = dup_gap (ledger, plan);
  return g_strdup_printf (_("The best that was found; %s."), gap);
}

static char *
dup_state (HsShareWindow *self, const HsSharePlan *plan)
{
  g_autofree char *gap = NULL;

  switch (hs_sharing_get_state (self->sharing))
    {
    case HS_SHARING_LOADING:
      return g_strdup (_("Reading the day …"));
    case HS_SHARING_SEARCHING:
      if (plan == NULL)
        return g_strdup (_("Searching …"));
      gap = dup_gap (self->ledger, plan);
      return g_strdup_printf (_("Searching … The best so far; %s."), gap);
    case HS_SHARING_FOUND:
      return dup_found (self->ledger, plan);
    case HS_SHARING_WRITING:
      return g_strdup (_("Writing …"));
    case HS_SHARING_ACCEPTED:
      return g_strdup (_("These orders stand."));
    case HS_SHARING_FAILED:
      return g_strdup (_("The calls cannot be shared."));
    }
  g_return_val_if_reached (NULL);
}

static gboolean
can_accept (const HsSharePlan *plan)
{
  for (guint i = 0; plan != NULL && i < plan->routes->len; i++)
    if (((const HsShareRoute *) g_ptr_array_index (plan->routes, i))->stops->len > 0)
      return TRUE;
  return FALSE;
}

/* What was accepted here, or before this window was opened. */
static gboolean
can_undo (HsShareWindow *self)
{
  HsSharingState state = hs_sharing_get_state (self->sharing);

  return hs_sharing_can_take_back (self->sharing)
         && (state == HS_SHARING_ACCEPTED || state == HS_SHARING_FOUND || state == HS_SHARING_FAILED);
}

/* Undone from outside ---------------------------------------------------------------------------------------------- */

static void
undone_cb (HsSharing *sharing, HsWindow *window)
{
  const char *trouble = hs_sharing_get_trouble (sharing);
  g_autoptr (GError) error = trouble != NULL ? g_error_new_literal (G_IO_ERROR, G_IO_ERROR_FAILED, trouble) : NULL;
  g_autofree char *day = hs_show_weekday (hs_sharing_get_day (sharing));
  /* Translators: after "Taken back:". */
  g_autofree char *what = g_strdup_printf (_("how the calls of %s were shared. The orders before stand again."), day);

  if (hs_sharing_get_state (sharing) == HS_SHARING_WRITING)
    return;
  hs_window_tell_undone (window, what, error);
  g_object_set_data (G_OBJECT (window), "share-undo", NULL);
}

static void
undo_sharing (HsWindow *window, gpointer data)
{
  HsSharing *done = data;
  HsSharing *sharing = hs_sharing_new (hs_sharing_get_ledger (done), hs_sharing_get_day (done));

  g_object_set_data_full (G_OBJECT (window), "share-undo", sharing, g_object_unref);
  g_signal_connect_object (sharing, "changed", G_CALLBACK (undone_cb), window, 0);
  hs_sharing_take_back (sharing);
}

static void
tell_beneath (HsShareWindow *self)
{
  GtkWindow *beneath = gtk_window_get_transient_for (GTK_WINDOW (self));
  gboolean stands = hs_sharing_get_state (self->sharing) == HS_SHARING_ACCEPTED;

  if (!HS_IS_WINDOW (beneath) || stands == self->stands)
    return;
  self->stands = stands;
  if (stands)
    hs_window_did (HS_WINDOW (beneath), _("These orders stand."), undo_sharing, g_object_ref (self->sharing),
                   g_object_unref);
  else
    hs_window_undid (HS_WINDOW (beneath), undo_sharing);
}

/* State ------------------------------------------------------------------------------------------------------------ */

static void
changed_cb (HsShareWindow *self)
{
  HsSharingState state = hs_sharing_get_state (self->sharing);
  const HsSharePlan *plan = hs_sharing_get_plan (self->sharing);
  const char *trouble = hs_sharing_get_trouble (self->sharing);
  g_autofree char *text = dup_state (self, plan);
  gboolean open = state == HS_SHARING_SEARCHING || state == HS_SHARING_FOUND;

  gtk_label_set_label (self->state, text);
  gtk_label_set_label (self->trouble, trouble != NULL ? trouble : "");
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), trouble != NULL);
  gtk_widget_set_visible (self->found, plan != NULL);
  if (plan != NULL)
    show_plan (self, plan);
  gtk_widget_set_visible (self->accept_child, open && can_accept (plan));
  gtk_widget_set_visible (self->stop_child, state == HS_SHARING_SEARCHING);
  gtk_widget_set_visible (self->undo_child, can_undo (self));
  tell_beneath (self);
}

/* Keys ------------------------------------------------------------------------------------------------------------- */

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
accept_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_sharing_accept (HS_SHARE_WINDOW (widget)->sharing);
}

/* One key ends the search, and undoes what was accepted. */
static void
back_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsShareWindow *self = HS_SHARE_WINDOW (widget);

  if (can_undo (self))
    hs_sharing_take_back (self->sharing);
  else
    hs_sharing_stop (self->sharing);
}

static void
again_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsShareWindow *self = HS_SHARE_WINDOW (widget);

  if (hs_sharing_get_state (self->sharing) != HS_SHARING_WRITING)
    hs_sharing_begin (self->sharing);
}

/* It can still be undone from the page beneath. */
static gboolean
close_request_cb (HsShareWindow *self)
{
  GtkWindow *beneath = gtk_window_get_transient_for (GTK_WINDOW (self));
  /* As on the buttons: the key first. */
  g_autofree char *button = g_strdup_printf ("Ctrl+Z  %s", _("Undo"));

  if (hs_sharing_get_state (self->sharing) == HS_SHARING_ACCEPTED && HS_IS_WINDOW (beneath))
    hs_window_toast (HS_WINDOW (beneath), _("These orders stand."), button, "win.undo");
  return GDK_EVENT_PROPAGATE;
}

static void
hs_share_window_dispose (GObject *object)
{
  HsShareWindow *self = HS_SHARE_WINDOW (object);

  g_clear_object (&self->sharing);
  g_clear_object (&self->ledger);
  G_OBJECT_CLASS (hs_share_window_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, scroller);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, state);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, trouble);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, found);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, summary);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, saves);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, moves);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, promises);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, notes);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, vans);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, accept_child);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, stop_child);
  gtk_widget_class_bind_template_child (widget_class, HsShareWindow, undo_child);
}

static void
add_key (GtkWidgetClass *widget_class, guint key, guint pad_key, const char *action)
{
  gtk_widget_class_add_binding_action (widget_class, key, 0, action, NULL);
  gtk_widget_class_add_binding_action (widget_class, pad_key, 0, action, NULL);
}

static void
hs_share_window_class_init (HsShareWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_share_window_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-share-window.ui");
  bind_children (widget_class);
  gtk_widget_class_install_action (widget_class, "share.close", NULL, close_action);
  gtk_widget_class_install_action (widget_class, "share.accept", NULL, accept_action);
  gtk_widget_class_install_action (widget_class, "share.back", NULL, back_action);
  gtk_widget_class_install_action (widget_class, "share.again", NULL, again_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "share.close", NULL);
  add_key (widget_class, GDK_KEY_slash, GDK_KEY_KP_Divide, "share.close");
  add_key (widget_class, GDK_KEY_plus, GDK_KEY_KP_Add, "share.accept");
  add_key (widget_class, GDK_KEY_minus, GDK_KEY_KP_Subtract, "share.back");
  add_key (widget_class, GDK_KEY_0, GDK_KEY_KP_0, "share.again");
  /* Where plus is a shifted key. */
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_plus, GDK_SHIFT_MASK, "share.accept", NULL);
}

static void
hs_share_window_init (HsShareWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hs_scroll_keys_install (GTK_WIDGET (self), self->scroller);
  g_signal_connect (self, "close-request", G_CALLBACK (close_request_cb), NULL);
}

HsShareWindow *
hs_share_window_present (GtkWindow *parent, HsLedger *ledger, HsDate day)
{
  HsShareWindow *self = g_object_new (HS_TYPE_SHARE_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);

  self->ledger = g_object_ref (ledger);
  self->sharing = hs_sharing_new (ledger, day);
  g_signal_connect_object (self->sharing, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  hs_window_fit_over (GTK_WINDOW (self));
  hs_sharing_begin (self->sharing);
  gtk_window_present (GTK_WINDOW (self));
  return self;
}

HsSharing *
hs_share_window_get_sharing (HsShareWindow *self)
{
  g_return_val_if_fail (HS_IS_SHARE_WINDOW (self), NULL);

  return self->sharing;
}
