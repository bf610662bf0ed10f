// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Not sent yet.
 *
 *   hs_ask_unsent ─▶ what holds all of them · a row for each of the first ─▶ +: try it now   Del: drop it   Enter: job
 *   HsPoster ─▶ something is under way, or the book cannot be read for it
 *   the address, saved when it is left ─▶ hs_deed_set
 *
 * It sends nothing itself and waits for nobody. However many there are, it makes no more rows than were asked for: a
 * few at a time, those first that wait for the owner. */

#include "hs-unsent-window.h"

#include <glib/gi18n.h>

#include "hs-act-row.h"
#include "hs-ask-window.h"
#include "hs-deed-post.h"
#include "hs-deed-setup.h"
#include "hs-flow-layout.h"
#include "hs-follow.h"
#include "hs-items.h"
#include "hs-key-button.h"
#include "hs-offer-row.h"
#include "hs-poster.h"
#include "hs-question.h"
#include "hs-refusal.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-tongue.h"

/* So many rows more at a time. */
#define ROWS 10

struct _HsUnsentWindow
{
  AdwWindow parent_instance;

  GtkLabel *state;
  GtkLabel *why;
  GtkLabel *trouble;
  GtkListBox *list;
  GtkLabel *rest;
  GtkWidget *more;
  GtkEditable *address;
  GtkWidget *back;

  HsLedger *ledger;
  HsPoster *poster;
  HsQuestion *unsent;
  HsQuestion *settings;
  HsItems *items;
  guint most;
  int back_to; /* the row that takes the focus with the next answer; -1: none */
  gboolean shown;
};

G_DEFINE_FINAL_TYPE (HsUnsentWindow, hs_unsent_window, ADW_TYPE_WINDOW)

static const HsTongue tongue = { gettext, ngettext };

/* Words ------------------------------------------------------------------------------------------------------------ */

/* "today 14:05", "Mar 9 14:05" */
static char *
dup_moment (HsUnsentWindow *self, HsInstant at)
{
  g_autofree char *day = hs_show_day_of (self->ledger, at);
  g_autofree char *time = hs_show_clock (self->ledger, at);

  return g_strdup_printf ("%s %s", day, time);
}

static char *
dup_next (HsUnsentWindow *self, const HsPostOverview *overview)
{
  HsInstant at = MAX (overview->sums.soonest, overview->hold_until);
  g_autofree char *moment = at == HS_INSTANT_NONE ? NULL : dup_moment (self, at);

  if (hs_post_net_get () == NULL)
    return g_strdup (_("This build does not post."));
  if (!overview->on)
    return g_strdup (_("Posting is off on this machine."));
  if (overview->paused_at != HS_INSTANT_NONE)
    return g_strdup (_("Nothing is sent before you do something about it."));
  if (hs_poster_is_busy (self->poster))
    return g_strdup (_("Sending …"));
  if (overview->sums.waiting == 0)
    return g_strdup ("");
  return at * G_USEC_PER_SEC <= g_get_real_time () ? g_strdup (_("Sent as soon as there is a way."))
                                                   : g_strdup_printf (_("Tried again: %s."), moment);
}

static char *
dup_state (HsUnsentWindow *self, const HsPostOverview *overview)
{
  gint64 n = overview->sums.waiting + overview->sums.parked;
  g_autofree char *next = dup_next (self, overview);
  g_autofree char *count = n == 0 ? g_strdup (_("Nothing waits to be posted."))
                                  : g_strdup_printf (ngettext ("%d job is not sent yet.", "%d jobs are not sent yet.",
                                                               (gulong) n), (int) n);

  return g_strconcat (count, *next == '\0' ? "" : " ", next, NULL);
}

/* What paused or holds all of them; empty if nothing does. */
static char *
dup_why (const HsPostOverview *overview)
{
  g_autofree char *said = overview->said != NULL ? hs_show_quoted (overview->said) : NULL;
  gboolean held = overview->hold_until != HS_INSTANT_NONE
                  && overview->hold_until * G_USEC_PER_SEC > g_get_real_time ();

  if (overview->why == NULL || (overview->paused_at == HS_INSTANT_NONE && !held))
    return g_strdup ("");
  return g_strconcat (overview->why, said != NULL ? "\n" : NULL, said, NULL);
}

static char *
dup_detail (HsUnsentWindow *self, const HsPostUnsent *unsent)
{
  g_autofree char *moment = dup_moment (self, unsent->since);
  g_autofree char *since = g_strdup_printf (_("since %s"), moment);
  g_autofree char *tries
    = unsent->tries == 0 ? g_strdup (_("not tried yet"))
                         : g_strdup_printf (ngettext ("tried %u time", "tried %u times", unsent->tries), unsent->tries);
  g_autofree char *said = unsent->said != NULL ? hs_show_quoted (unsent->said) : g_strdup ("");

  return hs_show_joined (since, tries, unsent->why != NULL ? unsent->why : "", said, NULL);
}

/* Rows ------------------------------------------------------------------------------------------------------------- */

static const char *
unsent_key (gconstpointer data)
{
  return ((const HsPostUnsent *) data)->job_id;
}

static gboolean
is_same (gconstpointer a, gconstpointer b)
{
  const HsPostUnsent *one = a, *other = b;

  return one->revision == other->revision && one->parked == other->parked && one->since == other->since
         && one->tries == other->tries && g_strcmp0 (one->customer, other->customer) == 0
         && g_strcmp0 (one->why, other->why) == 0
         && g_strcmp0 (one->said, other->said) == 0;
}

static GtkWidget *
row_new (gpointer item, gpointer data)
{
  HsUnsentWindow *self = data;
  const HsPostUnsent *unsent = hs_item_get (item);
  g_autofree char *detail = dup_detail (self, unsent);
  const char *verdict = unsent->parked ? _("waits for you") : NULL;
  g_autofree char *what = hs_show_joined (unsent->number, unsent->customer != NULL ? unsent->customer : "", NULL);
  g_autofree char *say = hs_show_joined (what, verdict != NULL ? verdict : "", detail, NULL);
  GtkWidget *row = hs_act_row_new ();

  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), hs_offer_row_new_with_face (&(HsOfferFace){
    NULL, what, verdict, detail, NULL }));
  hs_spoken_name (row, say);
  return row;
}

/* (nullable): the row that has the focus, or the only one. */
static const HsPostUnsent *
chosen (HsUnsentWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  GtkWidget *row = focus != NULL ? gtk_widget_get_ancestor (focus, GTK_TYPE_LIST_BOX_ROW) : NULL;
  int at = row != NULL ? gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (row)) : 0;

  if (row == NULL && g_list_model_get_n_items (G_LIST_MODEL (self->items)) != 1)
    return NULL;
  return hs_items_get_data (self->items, (guint) at);
}

/* Whoever stood on a row that went stands on the next one; or where a key types nothing. */
static void
focus_back (HsUnsentWindow *self)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (self->items));
  int at = self->back_to;

  self->back_to = -1;
  if (at < 0)
    return;
  if (n == 0)
    gtk_widget_grab_focus (self->back);
  else
    gtk_widget_grab_focus (GTK_WIDGET (gtk_list_box_get_row_at_index (self->list, MIN (at, (int) n - 1))));
}

static void
show_head (HsUnsentWindow *self)
{
  const HsPostOverview *overview = hs_question_get (self->unsent);
  const char *trouble = hs_poster_get_trouble (self->poster);
  g_autofree char *state = overview != NULL ? dup_state (self, overview) : g_strdup ("");
  g_autofree char *why = overview != NULL ? dup_why (overview) : g_strdup ("");

  gtk_label_set_label (self->state, state);
  gtk_label_set_label (self->why, why);
  gtk_widget_set_visible (GTK_WIDGET (self->why), *why != '\0');
  if (trouble == NULL)
    trouble = hs_question_get_trouble (self->unsent);
  if (trouble != NULL)
    hs_refusal_say (self->trouble, trouble);
}

static void
unsent_cb (HsUnsentWindow *self)
{
  const HsPostOverview *overview = hs_question_get (self->unsent);
  gint64 more = overview != NULL ? overview->sums.waiting + overview->sums.parked - overview->unsent->len : 0;
  g_autofree char *rest
    = g_strdup_printf (ngettext ("and %d more", "and %d more", (gulong) MAX (more, 0)), (int) more);

  hs_items_set (self->items, hs_question_get_snapshot (self->unsent), overview != NULL ? overview->unsent : NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->list), overview != NULL && overview->unsent->len > 0);
  gtk_label_set_label (self->rest, rest);
  gtk_widget_set_visible (GTK_WIDGET (self->rest), more > 0);
  gtk_widget_set_visible (self->more, more > 0);
  show_head (self);
  if (!self->shown)
    self->back_to = 0;
  self->shown = TRUE;
  focus_back (self);
}

static void
ask_unsent (HsUnsentWindow *self)
{
  hs_question_ask (self->unsent, g_variant_new ("(ut)", self->most, (guint64) (guintptr) &tongue));
}

static void
more_cb (HsUnsentWindow *self)
{
  self->back_to = (int) self->most;
  self->most += ROWS;
  ask_unsent (self);
}

/* Deeds ------------------------------------------------------------------------------------------------------------ */

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsUnsentWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;
  gboolean good = hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);

  if (!hs_refusal_late (asked, good ? NULL : error->message))
    hs_refusal_say (self->trouble, good ? NULL : error->message);
}

static void
all_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsUnsentWindow *self = HS_UNSENT_WINDOW (widget);

  hs_deed_post_retry (self->ledger, NULL, done_cb, hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
retry_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsUnsentWindow *self = HS_UNSENT_WINDOW (widget);
  const HsPostUnsent *unsent = chosen (self);

  if (unsent == NULL)
    {
      hs_refusal_say (self->trouble, _("Choose a job first: the arrow keys go from one to the next."));
      return;
    }
  hs_deed_post_retry (self->ledger, unsent->job_id, done_cb, hs_refusal_expect (GTK_WINDOW (self), NULL));
}

/* The row that the question was asked of. */
static void
drop_cb (HsUnsentWindow *self, HsAskWindow *asked)
{
  const char *job_id = g_object_get_data (G_OBJECT (asked), "job");

  self->back_to = (int) hs_items_find (self->items, job_id);
  hs_deed_post_drop (self->ledger, job_id, done_cb, hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
drop_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsUnsentWindow *self = HS_UNSENT_WINDOW (widget);
  const HsPostUnsent *unsent = chosen (self);
  g_autofree char *heading = NULL;
  HsAskWindow *asked;

  if (unsent == NULL)
    {
      hs_refusal_say (self->trouble, _("Choose a job first: the arrow keys go from one to the next."));
      return;
    }
  heading = g_strdup_printf (_("Drop %s?"), unsent->number);
  asked = hs_ask_window_present (GTK_WINDOW (self), heading,
                                 _("Your endpoint does not hear of it as it stands. The job itself stays, and is "
                                   "posted again when it changes stage. The log says that you dropped it."),
                                 _("Drop It"));
  g_object_set_data_full (G_OBJECT (asked), "job", g_strdup (unsent->job_id), g_free);
  g_signal_connect_object (asked, "agreed", G_CALLBACK (drop_cb), self, G_CONNECT_SWAPPED);
}

static void
open_cb (HsUnsentWindow *self, GtkListBoxRow *row)
{
  const HsPostUnsent *unsent = hs_items_get_data (self->items, (guint) gtk_list_box_row_get_index (row));
  GtkWindow *beneath = gtk_window_get_transient_for (GTK_WINDOW (self));

  if (unsent == NULL || beneath == NULL)
    return;
  gtk_widget_activate_action (GTK_WIDGET (beneath), "win.open-job", "(ss)", unsent->job_id, "");
  gtk_window_close (GTK_WINDOW (self));
}

/* The address ------------------------------------------------------------------------------------------------------ */

static const char *
stored_address (HsUnsentWindow *self)
{
  GPtrArray *settings = self->settings != NULL ? hs_question_get (self->settings) : NULL;

  for (guint i = 0; settings != NULL && i < settings->len; i++)
    if (g_str_equal (((const HsSetting *) g_ptr_array_index (settings, i))->key, "post_url"))
      return ((const HsSetting *) g_ptr_array_index (settings, i))->value;
  return NULL;
}

static void
settings_cb (HsUnsentWindow *self)
{
  const char *stored = stored_address (self);

  if (stored != NULL)
    hs_follow_fill (self->address, stored);
}

static void
save_address (HsUnsentWindow *self)
{
  const char *text = gtk_editable_get_text (self->address), *stored = stored_address (self);

  if (stored == NULL || !hs_follow_is_touched (self->address))
    return;
  hs_deed_set (self->ledger, "post_url", text, done_cb, hs_refusal_expect (GTK_WINDOW (self), text));
}

static void
address_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_widget_grab_focus (GTK_WIDGET (HS_UNSENT_WINDOW (widget)->address));
}

static void
set_up_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  GtkWindow *beneath = gtk_window_get_transient_for (GTK_WINDOW (widget));

  if (beneath != NULL)
    gtk_widget_activate_action (GTK_WIDGET (beneath), "win.set-up-posting", NULL);
  gtk_window_close (GTK_WINDOW (widget));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static gboolean
close_request_cb (HsUnsentWindow *self)
{
  save_address (self);
  return GDK_EVENT_PROPAGATE;
}

/* The window ------------------------------------------------------------------------------------------------------- */

static void
hs_unsent_window_dispose (GObject *object)
{
  HsUnsentWindow *self = HS_UNSENT_WINDOW (object);

  g_clear_object (&self->unsent);
  g_clear_object (&self->settings);
  g_clear_object (&self->items);
  g_clear_object (&self->poster);
  g_clear_object (&self->ledger);
  G_OBJECT_CLASS (hs_unsent_window_parent_class)->dispose (object);
}

static void
add_keys (GtkWidgetClass *widget_class)
{
  const struct
  {
    guint key;
    const char *action;
  } keys[] = {
    { GDK_KEY_Escape, "unsent.close" },  { GDK_KEY_minus, "unsent.close" },    { GDK_KEY_KP_Subtract, "unsent.close" },
    { GDK_KEY_0, "unsent.all" },         { GDK_KEY_KP_0, "unsent.all" },       { GDK_KEY_KP_Insert, "unsent.all" },
    { GDK_KEY_plus, "unsent.retry" },    { GDK_KEY_KP_Add, "unsent.retry" },   { GDK_KEY_Delete, "unsent.drop" },
    { GDK_KEY_KP_Delete, "unsent.drop" }, { GDK_KEY_period, "unsent.drop" },   { GDK_KEY_KP_Decimal, "unsent.drop" },
    { GDK_KEY_F9, "unsent.address" },    { GDK_KEY_F6, "unsent.set-up" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_widget_class_add_binding_action (widget_class, keys[i].key, 0, keys[i].action, NULL);
  /* Where plus is a shifted key. */
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_plus, GDK_SHIFT_MASK, "unsent.retry", NULL);
}

static void
hs_unsent_window_class_init (HsUnsentWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_unsent_window_dispose;
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-unsent-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsUnsentWindow, state);
  gtk_widget_class_bind_template_child (widget_class, HsUnsentWindow, why);
  gtk_widget_class_bind_template_child (widget_class, HsUnsentWindow, trouble);
  gtk_widget_class_bind_template_child (widget_class, HsUnsentWindow, list);
  gtk_widget_class_bind_template_child (widget_class, HsUnsentWindow, rest);
  gtk_widget_class_bind_template_child (widget_class, HsUnsentWindow, more);
  gtk_widget_class_bind_template_child (widget_class, HsUnsentWindow, address);
  gtk_widget_class_bind_template_child (widget_class, HsUnsentWindow, back);
  gtk_widget_class_bind_template_callback (widget_class, close_request_cb);
  gtk_widget_class_bind_template_callback (widget_class, more_cb);
  gtk_widget_class_bind_template_callback (widget_class, open_cb);
  gtk_widget_class_bind_template_callback (widget_class, save_address);
  gtk_widget_class_install_action (widget_class, "unsent.close", NULL, close_action);
  gtk_widget_class_install_action (widget_class, "unsent.all", NULL, all_action);
  gtk_widget_class_install_action (widget_class, "unsent.retry", NULL, retry_action);
  gtk_widget_class_install_action (widget_class, "unsent.drop", NULL, drop_action);
  gtk_widget_class_install_action (widget_class, "unsent.address", NULL, address_action);
  gtk_widget_class_install_action (widget_class, "unsent.set-up", NULL, set_up_action);
  add_keys (widget_class);
}

static void
hs_unsent_window_init (HsUnsentWindow *self)
{
  self->most = ROWS;
  self->back_to = -1;
  self->items = hs_items_new (unsent_key, is_same);
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_list_box_bind_model (self->list, G_LIST_MODEL (self->items), row_new, self, NULL);
}

HsUnsentWindow *
hs_unsent_window_present (HsWindow *parent, HsLedger *ledger)
{
  HsUnsentWindow *self;

  g_return_val_if_fail (HS_IS_WINDOW (parent), NULL);
  g_return_val_if_fail (HS_IS_LEDGER (ledger), NULL);

  self = g_object_new (HS_TYPE_UNSENT_WINDOW, "transient-for", parent, "destroy-with-parent", TRUE, NULL);
  self->ledger = g_object_ref (ledger);
  self->poster = g_object_ref (hs_poster_of (ledger));
  self->unsent = hs_question_new (ledger, hs_ask_unsent, (GDestroyNotify) hs_post_overview_free);
  self->settings = hs_question_new (ledger, hs_ask_settings, (GDestroyNotify) g_ptr_array_unref);
  g_signal_connect_object (self->unsent, "answered", G_CALLBACK (unsent_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->settings, "answered", G_CALLBACK (settings_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->poster, "changed", G_CALLBACK (ask_unsent), self, G_CONNECT_SWAPPED);
  hs_window_fit_over (GTK_WINDOW (self));
  ask_unsent (self);
  hs_question_ask (self->settings, NULL);
  gtk_window_present (GTK_WINDOW (self));
  gtk_window_set_focus_visible (GTK_WINDOW (self), TRUE);
  return self;
}

GListModel *
hs_unsent_window_get_items (HsUnsentWindow *self)
{
  g_return_val_if_fail (HS_IS_UNSENT_WINDOW (self), NULL);

  return G_LIST_MODEL (self->items);
}

GtkEditable *
hs_unsent_window_get_address (HsUnsentWindow *self)
{
  g_return_val_if_fail (HS_IS_UNSENT_WINDOW (self), NULL);

  return self->address;
}
