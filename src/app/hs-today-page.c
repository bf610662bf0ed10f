// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The day.
 *
 *   hs_ask_day ─▶ HsDayPlan ─▶ figures · time strip · list of stops (HsItems) · sketch · broken promises
 *
 * The strip and the list show one chosen stop. Key 0 plans anew without writing; the plan that is shown then stands
 * only once it is accepted. */

#include "hs-today-page-private.h"

#include <glib/gi18n.h>

#include "hs-face.h"
#include "hs-flow-layout.h"
#include "hs-mover.h"
#include "hs-next-card.h"
#include "hs-room.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-why-window.h"
#include "hs-window.h"

G_DEFINE_FINAL_TYPE (HsTodayPage, hs_today_page, HS_TYPE_PAGE)

static const char *
stop_key (gconstpointer data)
{
  return ((const HsPlannedStop *) data)->id;
}

static HsDate
shown_day (HsTodayPage *self)
{
  return self->day != HS_DATE_NONE ? self->day : hs_ledger_get_today (hs_page_get_ledger (HS_PAGE (self)));
}

const HsDayPlan *
hs_today_page_get_plan (HsTodayPage *self)
{
  return hs_question_get (self->ask);
}

void
hs_today_page_ask (HsTodayPage *self)
{
  hs_question_ask (self->ask, g_variant_new ("(ib)", shown_day (self), self->anew));
}

const HsPlannedStop *
hs_today_page_get_chosen (HsTodayPage *self)
{
  return hs_items_get_data (self->stops, gtk_single_selection_get_selected (self->selection));
}

/* The head. */

static void
update_day_bar (HsTodayPage *self)
{
  const HsDayPlan *plan = hs_today_page_get_plan (self);
  gboolean narrow = hs_page_get_narrow (HS_PAGE (self)), cramped = hs_page_get_cramped (HS_PAGE (self));
  gboolean several = plan != NULL && plan->next_van != NULL, other_day = self->day != HS_DATE_NONE;
  g_autofree char *van = several ? g_strdup_printf (_("Van %s"), plan->van) : NULL;
  g_autofree char *day = narrow ? hs_show_weekday (shown_day (self)) : hs_show_full_day (shown_day (self));

  gtk_label_set_label (self->day_label, day);
  gtk_widget_set_visible (self->why_button, !cramped);
  gtk_widget_set_visible (GTK_WIDGET (self->day_why), cramped && plan != NULL);
  hs_key_button_set_text (self->day_why, narrow ? _("Why") : _("Why This Order"));
  hs_key_button_set_show_key (self->day_why, !narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->van_button), several);
  hs_key_button_set_text (self->van_button, van != NULL ? van : "");
  hs_key_button_set_show_key (self->van_button, !narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->share_button), several);
  hs_key_button_set_text (self->share_button, narrow ? _("Share") : _("Share the Calls"));
  hs_key_button_set_show_key (self->share_button, !narrow);
  gtk_widget_set_visible (self->this_day_button, other_day);
  gtk_widget_set_visible (self->day_bar, cramped || other_day || several);
}

/* Who is to be rung now stands above all else. Of what is broken a few; F6 has all. The box, and the offer of a new
 * order beside it, must leave room for the list. */
static void
update_broken (HsTodayPage *self)
{
  gboolean cramped = hs_page_get_cramped (HS_PAGE (self));
  GPtrArray *mends = cramped && self->anew ? NULL : hs_question_get (self->mends);
  g_autofree char *ring = hs_face_dup_ring (hs_today_page_get_plan (self));
  g_autofree char *broken = hs_face_dup_broken (hs_today_page_get_plan (self), mends, cramped ? 2 : 3);
  gboolean both = *ring != '\0' && *broken != '\0';
  g_autofree char *text = g_strconcat (ring, both ? "\n" : "", broken, NULL);

  gtk_label_set_label (self->broken_title, *broken != '\0' ? _("Not every promise can be kept") : _("Ring them"));
  gtk_label_set_label (self->broken, text);
  gtk_widget_set_visible (self->broken_box, *text != '\0');
}

static void
update_accept (HsTodayPage *self, const HsDayPlan *plan)
{
  if (self->anew && plan->stops->len == 0)
    {
      self->anew = FALSE;
      hs_page_tell (HS_PAGE (self), _("No stop is planned on this day: there is nothing to plan anew."));
    }
  if (self->anew && self->before != NULL)
    {
      const HsDayPlan *before = hs_snapshot_get (self->before);
      gboolean same = hs_why_window_is_same (before, plan);
      g_autofree char *change = hs_why_window_dup_change (hs_page_get_ledger (HS_PAGE (self)), before, plan);

      gtk_label_set_label (self->accept_label, change);
      gtk_widget_set_visible (self->keep_old, !same);
      /* There is nothing to decide on. */
      if (same && before->accepted)
        {
          self->anew = FALSE;
          hs_today_page_ask (self);
          hs_page_tell (HS_PAGE (self), change);
        }
    }
  gtk_widget_set_visible (self->accept_box, self->anew);
}

static void
update_penciled (HsTodayPage *self, const HsDayPlan *plan)
{
  g_autofree char *text = hs_face_dup_penciled (plan);

  gtk_label_set_label (self->penciled, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->penciled), text != NULL);
}

static void
update_strip (HsTodayPage *self, const HsDayPlan *plan)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  gboolean today = plan->day == hs_ledger_get_today (ledger);
  g_autoptr (HsStripDay) day = hs_face_day (ledger, plan, today ? hs_ledger_get_now (ledger) : HS_INSTANT_NONE);
  const HsPlannedStop *stop = hs_today_page_get_chosen (self);

  hs_time_strip_set_day (self->strip, day);
  hs_time_strip_choose (self->strip, stop != NULL ? stop->id : NULL);
}

/* A box above it takes the strip's room: the list below has to show some stops. */
static HsStripForm
strip_form (HsTodayPage *self)
{
  gboolean broken = gtk_widget_get_visible (self->broken_box), anew = gtk_widget_get_visible (self->accept_box);
  gboolean cramped = hs_page_get_cramped (HS_PAGE (self));

  if (hs_page_get_narrow (HS_PAGE (self)) || (cramped && (broken || anew)))
    return HS_STRIP_FORM_COMPACT;
  return cramped || (broken && anew) ? HS_STRIP_FORM_TIGHT : HS_STRIP_FORM_FULL;
}

/* Large text in the hand: the list says all that the strip does. */
static gboolean
is_slim (HsTodayPage *self)
{
  GtkWidget *room = gtk_widget_get_ancestor (GTK_WIDGET (self), HS_TYPE_ROOM);

  return room != NULL && hs_room_get_slim (HS_ROOM (room));
}

void
hs_today_page_update_room (HsTodayPage *self)
{
  g_autofree char *none_head = NULL;
  gboolean narrow = hs_page_get_narrow (HS_PAGE (self)), cramped = hs_page_get_cramped (HS_PAGE (self));
  const HsDayPlan *plan = hs_today_page_get_plan (self);
  gboolean any = plan != NULL && plan->stops->len > 0;
  const char *trouble = plan == NULL ? hs_question_get_trouble (self->ask) : NULL;
  gboolean broken = gtk_widget_get_visible (self->broken_box), small = cramped || broken;

  hs_time_strip_set_form (self->strip, strip_form (self));
  hs_day_figures_set_narrow (self->figures, narrow);
  gtk_box_set_spacing (self->page_box, cramped && !narrow ? 5 : 8);
  hs_key_button_set_show_key (self->next_button, !narrow);
  hs_key_button_set_wraps (self->next_button, narrow);
  update_day_bar (self);
  /* F9 folds the sketch where there is room for it and unfolds it where there is not. */
  gtk_widget_set_visible (self->sketch_frame, any && !narrow && small == self->sketch_wanted);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->accept_box),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_widget_set_visible (GTK_WIDGET (self->strip), any && !is_slim (self) && !(narrow && broken && self->anew));
  gtk_widget_set_visible (self->list_frame, any);
  gtk_widget_set_visible (self->none, (plan != NULL || trouble != NULL) && !any);
  gtk_widget_set_visible (GTK_WIDGET (self->figures), trouble == NULL);
  gtk_widget_set_visible (self->set_up_button, trouble != NULL);
  none_head = hs_face_dup_none_head (plan, trouble);
  gtk_label_set_label (self->none_head, none_head);
  gtk_label_set_label (self->none_text,
                       trouble != NULL ? trouble : _("A call whose time is given appears here with its drive, its "
                                                     "parts and its spare time."));
}

static void
update_sketch (HsTodayPage *self)
{
  hs_face_sketch (self->sketch, hs_today_page_get_plan (self), hs_question_get (self->places));
}

/* The next stage. */

gboolean
hs_today_page_is_in_list (HsTodayPage *self)
{
  GtkWidget *focus = hs_page_get_focus (HS_PAGE (self));

  return focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->list));
}

const HsPlannedStop *
hs_today_page_get_focused (HsTodayPage *self)
{
  GtkWidget *row = gtk_widget_get_focus_child (GTK_WIDGET (self->list));
  GtkWidget *face = row != NULL && hs_today_page_is_in_list (self) ? gtk_widget_get_first_child (row) : NULL;

  return HS_IS_STOP_ROW (face)
           ? hs_items_get_data (self->stops, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (face), "index"))) : NULL;
}

const HsBoardRow *
hs_today_page_get_next_job (HsTodayPage *self)
{
  const HsBoardShot *shot = hs_question_get (self->board);
  const HsPlannedStop *focused = hs_today_page_get_focused (self);
  gboolean is_call = focused != NULL && !focused->is_counter;
  const HsBoardRow *row = is_call ? hs_next_card_find_row (shot, focused->row_id) : NULL;
  HsStage to;

  return row != NULL && hs_stage_next (row->stage, &to) ? row : hs_next_card_find_job (shot);
}

static void
update_next (HsTodayPage *self)
{
  const HsBoardRow *job = hs_today_page_get_next_job (self);
  g_autofree char *text = job != NULL ? hs_mover_dup_next (job->number, job->stage) : NULL;

  gtk_widget_set_sensitive (GTK_WIDGET (self->next_button), text != NULL);
  hs_key_button_set_text (self->next_button, text != NULL ? text : _(hs_stage_label (HS_STAGE_ROLLING)));
}

/* What F8 acts on: the stop whose row has the focus, else the chosen one. */
const HsPlannedStop *
hs_today_page_get_current (HsTodayPage *self)
{
  const HsPlannedStop *focused = hs_today_page_get_focused (self);

  return focused != NULL ? focused : hs_today_page_get_chosen (self);
}

static void
update_lock (HsTodayPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  const HsPlannedStop *stop = hs_today_page_get_current (self);

  if (HS_IS_WINDOW (root))
    hs_window_name_key (HS_WINDOW (root), "today", "win.lock",
                        stop != NULL && stop->locked ? _("Unlock") : _("Lock stop"));
}

static void
focus_cb (HsTodayPage *self)
{
  update_next (self);
  update_lock (self);
}

/* Answers. */

static void
show_answer (HsTodayPage *self)
{
  const HsDayPlan *plan = hs_today_page_get_plan (self);
  const HsPlannedStop *chosen = hs_today_page_get_chosen (self);
  g_autofree char *chosen_id = chosen != NULL ? g_strdup (chosen->id) : NULL;
  guint at;

  if (plan == NULL)
    {
      /* Told on the page itself, for as long as it is so. */
      hs_today_page_update_room (self);
      return;
    }
  if (hs_question_get_trouble (self->ask) != NULL)
    hs_page_tell (HS_PAGE (self), hs_question_get_trouble (self->ask));
  hs_items_set (self->stops, hs_question_get_snapshot (self->ask), plan->stops);
  at = hs_items_find (self->stops, chosen_id);
  if (at != G_MAXUINT)
    gtk_single_selection_set_selected (self->selection, at);
  hs_day_figures_set_plan (self->figures, hs_page_get_ledger (HS_PAGE (self)), plan);
  if (plan->broken->len > 0)
    hs_question_ask (self->mends, g_variant_new ("(ib)", plan->day, !plan->accepted));
  else
    hs_question_forget (self->mends);
  update_broken (self);
  update_accept (self, plan);
  update_penciled (self, plan);
  update_strip (self, plan);
  update_sketch (self);
  hs_today_page_update_room (self);
}

static void
answered_cb (HsTodayPage *self)
{
  gboolean had_focus = hs_page_get_focus (HS_PAGE (self)) != NULL;

  show_answer (self);
  hs_page_keep_focus (HS_PAGE (self), had_focus, GTK_WIDGET (self->list));
  if (self->comes)
    hs_today_page_go_to_list (self);
  self->comes = FALSE;
  focus_cb (self);
}

/* Choosing. */

static void
selected_cb (HsTodayPage *self)
{
  const HsDayPlan *plan = hs_today_page_get_plan (self);
  const HsPlannedStop *stop = hs_today_page_get_chosen (self);

  if (stop != NULL)
    hs_time_strip_choose (self->strip, stop->id);
  update_lock (self);
  for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self->list)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    {
      GtkWidget *face = gtk_widget_get_first_child (row);
      guint index = face != NULL ? GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (face), "index")) : 0;

      if (HS_IS_STOP_ROW (face) && plan != NULL && index < plan->stops->len)
        hs_face_stop (HS_STOP_ROW (face), hs_page_get_ledger (HS_PAGE (self)), plan, index,
                      index == gtk_single_selection_get_selected (self->selection));
    }
}

void
hs_today_page_choose (HsTodayPage *self, const char *id)
{
  guint at = hs_items_find (self->stops, id);

  if (at == G_MAXUINT)
    return;
  gtk_single_selection_set_selected (self->selection, at);
  gtk_widget_activate_action (GTK_WIDGET (self->list), "list.scroll-to-item", "u", at);
}

static void
open_stop (HsTodayPage *self, const HsPlannedStop *stop)
{
  if (stop == NULL)
    return;
  if (stop->is_counter)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.show-page", "s", "parts");
  else
    hs_page_open_job (HS_PAGE (self), stop->row_id, "call");
}

static void
strip_opened_cb (HsTodayPage *self, const char *id)
{
  open_stop (self, hs_items_get_data (self->stops, hs_items_find (self->stops, id)));
}

static void
list_activated_cb (HsTodayPage *self, guint position)
{
  open_stop (self, hs_items_get_data (self->stops, position));
}

/* Rows. */

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item)
{
  gtk_list_item_set_child (item, hs_stop_row_new ());
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, HsTodayPage *self)
{
  GtkWidget *row = gtk_list_item_get_child (item);
  guint index = gtk_list_item_get_position (item);
  const HsDayPlan *plan = hs_today_page_get_plan (self);
  g_autofree char *say = NULL;

  if (plan == NULL || index >= plan->stops->len)
    return;
  g_object_set_data (G_OBJECT (row), "index", GUINT_TO_POINTER (index));
  hs_stop_row_set_narrow (HS_STOP_ROW (row), hs_page_get_narrow (HS_PAGE (self)));
  hs_face_stop (HS_STOP_ROW (row), hs_page_get_ledger (HS_PAGE (self)), plan, index,
                index == gtk_single_selection_get_selected (self->selection));
  say = hs_face_dup_stop_say (hs_page_get_ledger (HS_PAGE (self)), plan, index);
  hs_spoken_name_item (item, say);
}

static void
room_changed (HsPage *page)
{
  HsTodayPage *self = HS_TODAY_PAGE (page);
  gboolean had_focus = hs_page_get_focus (page) != NULL;

  hs_today_page_update_room (self);
  hs_page_keep_focus (page, had_focus, GTK_WIDGET (self->list));
  for (GtkWidget *row = gtk_widget_get_first_child (GTK_WIDGET (self->list)); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    if (HS_IS_STOP_ROW (gtk_widget_get_first_child (row)))
      hs_stop_row_set_narrow (HS_STOP_ROW (gtk_widget_get_first_child (row)), hs_page_get_narrow (page));
}

/* With every minute a promise comes nearer to its end. What is looked at for choosing stays as it is. */
static void
minute_cb (HsTodayPage *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)) && !self->anew && self->day == HS_DATE_NONE)
    hs_today_page_ask (self);
}

static void
follow_window (HsTodayPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (self->follows_window || !HS_IS_WINDOW (root))
    return;
  self->follows_window = TRUE;
  g_signal_connect_object (hs_window_get_clock (HS_WINDOW (root)), "notify::now", G_CALLBACK (minute_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (root, "notify::focus-widget", G_CALLBACK (focus_cb), self, G_CONNECT_SWAPPED);
}

static void
shown (HsPage *page)
{
  HsTodayPage *self = HS_TODAY_PAGE (page);

  follow_window (self);
  self->comes = TRUE;
  hs_today_page_ask (self);
  hs_question_ask (self->board, NULL);
  hs_question_ask (self->places, NULL);
}

void
hs_today_page_set_day (HsTodayPage *self, HsDate day)
{
  g_return_if_fail (HS_IS_TODAY_PAGE (self));

  self->day = day;
  self->anew = FALSE;
  hs_today_page_ask (self);
}

HsDate
hs_today_page_get_day (HsTodayPage *self)
{
  g_return_val_if_fail (HS_IS_TODAY_PAGE (self), HS_DATE_NONE);

  return shown_day (self);
}

static void
hs_today_page_constructed (GObject *object)
{
  HsTodayPage *self = HS_TODAY_PAGE (object);
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  G_OBJECT_CLASS (hs_today_page_parent_class)->constructed (object);
  self->ask = hs_page_ask (HS_PAGE (self), hs_ask_day, (GDestroyNotify) hs_day_plan_free, G_CALLBACK (answered_cb));
  self->mends = hs_page_ask (HS_PAGE (self), hs_ask_mends, (GDestroyNotify) g_ptr_array_unref,
                             G_CALLBACK (update_broken));
  self->board = hs_page_ask (HS_PAGE (self), hs_ask_board, (GDestroyNotify) hs_board_shot_free,
                             G_CALLBACK (update_next));
  self->places = hs_page_ask (HS_PAGE (self), hs_ask_places, (GDestroyNotify) g_ptr_array_unref,
                              G_CALLBACK (update_sketch));
  self->stops = hs_items_new (stop_key, NULL);
  self->selection = gtk_single_selection_new (g_object_ref (G_LIST_MODEL (self->stops)));
  g_signal_connect_object (self->selection, "notify::selected", G_CALLBACK (selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), NULL);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind_cb), self, 0);
  gtk_list_view_set_factory (self->list, factory);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (self->selection));
}

static void
hs_today_page_dispose (GObject *object)
{
  HsTodayPage *self = HS_TODAY_PAGE (object);

  g_clear_object (&self->selection);
  g_clear_object (&self->stops);
  g_clear_pointer (&self->before, hs_snapshot_unref);
  G_OBJECT_CLASS (hs_today_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, page_box);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, day_label);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, day_bar);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, day_why);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, figures);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, why_button);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, van_button);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, share_button);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, this_day_button);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, accept_box);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, keep_old);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, accept_label);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, next_button);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, broken_box);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, broken_title);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, broken);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, strip);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, list);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, list_frame);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, none);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, none_head);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, set_up_button);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, none_text);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, penciled);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, sketch_frame);
  gtk_widget_class_bind_template_child (widget_class, HsTodayPage, sketch);
  gtk_widget_class_bind_template_callback (widget_class, hs_today_page_choose);
  gtk_widget_class_bind_template_callback (widget_class, strip_opened_cb);
  gtk_widget_class_bind_template_callback (widget_class, list_activated_cb);
}

static void
hs_today_page_class_init (HsTodayPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = hs_today_page_constructed;
  G_OBJECT_CLASS (klass)->dispose = hs_today_page_dispose;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  HS_PAGE_CLASS (klass)->shown = shown;
  g_type_ensure (HS_TYPE_DAY_FIGURES);
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_TIME_STRIP);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_SKETCH);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-today-page.ui");
  bind_children (widget_class);
  hs_today_actions_install (widget_class);
}

static void
hs_today_page_init (HsTodayPage *self)
{
  self->day = HS_DATE_NONE;
  gtk_widget_init_template (GTK_WIDGET (self));
}
