// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the keys of the day do: lock, plan anew, accept, another day, another van, share, why, the next stage.
 *
 * Install them on the page's class. They read what the page shows and write through deeds; they refuse to draw. */

#include "hs-today-page-private.h"

#include <glib/gi18n.h>

#include "hs-deed.h"
#include "hs-mover.h"
#include "hs-share-window.h"
#include "hs-stop-row.h"
#include "hs-why-window.h"
#include "hs-window.h"

/* From anywhere on the page the arrows come to the list, at the chosen stop; inside it they are the list's own. */
gboolean
hs_today_page_go_to_list (HsTodayPage *self)
{
  guint at = gtk_single_selection_get_selected (self->selection);

  if (hs_today_page_is_in_list (self) || !gtk_widget_get_visible (self->list_frame) || at == GTK_INVALID_LIST_POSITION)
    return GDK_EVENT_PROPAGATE;
  gtk_widget_activate_action (GTK_WIDGET (self->list), "list.scroll-to-item", "u", at);
  return gtk_widget_grab_focus (GTK_WIDGET (self->list));
}

/* From the bars of the window. */
static void
line_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  GtkRoot *root = gtk_widget_get_root (widget);

  if (hs_today_page_go_to_list (HS_TODAY_PAGE (widget)) && GTK_IS_WINDOW (root))
    gtk_window_set_focus_visible (GTK_WINDOW (root), TRUE);
}

/* A lock that was set, or taken away; and what it takes to turn it round. */
typedef struct
{
  HsLedger *ledger;
  HsPage *page;     /* %NULL once it may be turned round */
  HsWindow *window; /* while it is turned round */
  HsDate day;
  char *id;
  gboolean locked;
} Lock;

static void
lock_free (gpointer data)
{
  Lock *lock = data;

  g_clear_object (&lock->ledger);
  g_clear_object (&lock->page);
  g_clear_object (&lock->window);
  g_free (lock->id);
  g_free (lock);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Lock, lock_free)

static Lock *
lock_new (HsLedger *ledger, HsDate day, const char *id, gboolean locked)
{
  Lock *lock = g_new0 (Lock, 1);

  lock->ledger = g_object_ref (ledger);
  lock->day = day;
  lock->id = g_strdup (id);
  lock->locked = locked;
  return lock;
}

static char *
lock_dup_what (const Lock *lock)
{
  /* Translators: a stop of the day that was locked in its place, or is not any more; after "Taken back:". */
  return g_strdup_printf (lock->locked ? _("%s locked") : _("%s unlocked"), lock->id);
}

static void
unlocked_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Lock) lock = data;
  g_autoptr (GError) error = NULL;
  g_autofree char *what = lock_dup_what (lock);

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  hs_window_tell_undone (lock->window, what, error);
}

static void
undo_lock (HsWindow *window, gpointer data)
{
  const Lock *was = data;
  Lock *lock = lock_new (was->ledger, was->day, was->id, was->locked);

  lock->window = g_object_ref (window);
  hs_deed_lock_stop (lock->ledger, lock->day, lock->id, !lock->locked, unlocked_cb, lock);
}

static void
locked_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Lock) lock = data;
  g_autoptr (HsPage) page = g_steal_pointer (&lock->page);
  g_autoptr (GError) error = NULL;
  g_autofree char *what = lock_dup_what (lock);

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    hs_page_tell (page, error->message);
  else
    hs_page_did (page, what, undo_lock, g_steal_pointer (&lock), lock_free);
}

static void
lock_stop (HsTodayPage *self, const HsPlannedStop *stop)
{
  Lock *lock;

  if (stop == NULL)
    return;
  lock = lock_new (hs_page_get_ledger (HS_PAGE (self)), hs_today_page_get_day (self), stop->id, !stop->locked);
  lock->page = g_object_ref (HS_PAGE (self));
  hs_deed_lock_stop (lock->ledger, lock->day, lock->id, lock->locked, locked_cb, lock);
}

static void
lock_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  lock_stop (HS_TODAY_PAGE (widget), hs_today_page_get_current (HS_TODAY_PAGE (widget)));
}

static void
strip_lock_cb (HsTodayPage *self, const char *id)
{
  hs_today_page_choose (self, id);
  lock_stop (self, hs_today_page_get_chosen (self));
}

static void
strip_move_cb (HsTodayPage *self, const char *id, int step)
{
  hs_today_page_choose (self, id);
  hs_page_tell (HS_PAGE (self), _("The order is the cheapest that keeps every promise. F8 locks a stop in its place, 0 "
                                  "plans around it."));
}

static void
replan_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsTodayPage *self = HS_TODAY_PAGE (widget);

  if (hs_today_page_get_plan (self) == NULL)
    return;
  /* What stands is kept to be compared with. */
  if (!self->anew)
    {
      g_clear_pointer (&self->before, hs_snapshot_unref);
      self->before = hs_snapshot_ref (hs_question_get_snapshot (self->ask));
    }
  self->anew = !self->anew;
  hs_today_page_ask (self);
}

static void
accepted_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsTodayPage) self = HS_TODAY_PAGE (data);
  g_autoptr (GError) error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    {
      hs_page_tell (HS_PAGE (self), error->message);
      return;
    }
  self->anew = FALSE;
  hs_today_page_ask (self);
  hs_page_tell (HS_PAGE (self), _("This order stands."));
  hs_page_did (HS_PAGE (self), _("This order stands."), NULL, NULL, NULL);
}

static void
accept_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsTodayPage *self = HS_TODAY_PAGE (widget);

  if (!gtk_widget_get_visible (self->accept_box))
    return;
  hs_deed_accept_plan (hs_page_get_ledger (HS_PAGE (self)), hs_today_page_get_day (self), accepted_cb,
                       g_object_ref (self));
}

static void
move_day (HsTodayPage *self, int days)
{
  HsDate day = hs_date_add_days (hs_today_page_get_day (self), days);

  hs_today_page_set_day (self, day == hs_ledger_get_today (hs_page_get_ledger (HS_PAGE (self))) ? HS_DATE_NONE : day);
}

static void
day_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  move_day (HS_TODAY_PAGE (widget), g_str_equal (name, "page.next-day") ? 1 : -1);
}

static void
this_day_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_today_page_set_day (HS_TODAY_PAGE (widget), HS_DATE_NONE);
}

/* Whatever else was looked at belongs to the other van. */
static void
next_van_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsTodayPage *self = HS_TODAY_PAGE (widget);
  const HsDayPlan *plan = hs_today_page_get_plan (self);

  if (plan == NULL || plan->next_van == NULL)
    return;
  self->anew = FALSE;
  g_clear_pointer (&self->before, hs_snapshot_unref);
  hs_deed_show_van (hs_page_get_ledger (HS_PAGE (self)), plan->next_van, NULL, NULL);
}

static void
share_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsTodayPage *self = HS_TODAY_PAGE (widget);

  if (hs_today_page_get_plan (self) != NULL && hs_today_page_get_plan (self)->next_van != NULL)
    hs_share_window_present (GTK_WINDOW (gtk_widget_get_root (widget)), hs_page_get_ledger (HS_PAGE (self)),
                             hs_today_page_get_day (self));
}

static void
why_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsTodayPage *self = HS_TODAY_PAGE (widget);

  if (hs_today_page_get_plan (self) != NULL)
    hs_why_window_present (GTK_WINDOW (gtk_widget_get_root (widget)), hs_page_get_ledger (HS_PAGE (self)),
                           hs_today_page_get_plan (self));
}

static void
side_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsTodayPage *self = HS_TODAY_PAGE (widget);

  self->sketch_wanted = !self->sketch_wanted;
  hs_today_page_update_room (self);
}

static void
next_stage_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsTodayPage *self = HS_TODAY_PAGE (widget);
  const HsBoardRow *job = hs_today_page_get_next_job (self);

  if (job != NULL)
    hs_mover_next (HS_PAGE (self), job->job_id, job->number, job->stage);
}

static gboolean
key_cb (HsTodayPage *self, guint keyval, guint keycode, GdkModifierType state)
{
  static const struct
  {
    guint keys[3];
    const char *action;
  } keys[] = {
    { { GDK_KEY_0, GDK_KEY_KP_0 }, "page.replan" },
    { { GDK_KEY_period, GDK_KEY_KP_Decimal, GDK_KEY_KP_Separator }, "page.accept" },
    { { GDK_KEY_asterisk, GDK_KEY_KP_Multiply }, "page.next-van" },
    { { GDK_KEY_slash, GDK_KEY_KP_Divide }, "page.share" },
    { { GDK_KEY_Page_Down, GDK_KEY_KP_Page_Down }, "page.next-day" },
    { { GDK_KEY_Page_Up, GDK_KEY_KP_Page_Up }, "page.previous-day" },
  };

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (keyval == GDK_KEY_Down || keyval == GDK_KEY_KP_Down || keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up)
    return hs_today_page_go_to_list (self);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keyval == keys[i].keys[0] || keyval == keys[i].keys[1] || (keys[i].keys[2] != 0 && keyval == keys[i].keys[2]))
      return gtk_widget_activate_action (GTK_WIDGET (self), keys[i].action, NULL) || GDK_EVENT_STOP;
  return GDK_EVENT_PROPAGATE;
}

void
hs_today_actions_install (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "page.next-line", NULL, line_action);
  gtk_widget_class_install_action (widget_class, "page.previous-line", NULL, line_action);
  gtk_widget_class_install_action (widget_class, "page.lock", NULL, lock_action);
  gtk_widget_class_install_action (widget_class, "page.replan", NULL, replan_action);
  gtk_widget_class_install_action (widget_class, "page.accept", NULL, accept_action);
  gtk_widget_class_install_action (widget_class, "page.next-day", NULL, day_action);
  gtk_widget_class_install_action (widget_class, "page.previous-day", NULL, day_action);
  gtk_widget_class_install_action (widget_class, "page.this-day", NULL, this_day_action);
  gtk_widget_class_install_action (widget_class, "page.next-van", NULL, next_van_action);
  gtk_widget_class_install_action (widget_class, "page.share", NULL, share_action);
  gtk_widget_class_install_action (widget_class, "page.why", NULL, why_action);
  gtk_widget_class_install_action (widget_class, "page.side", NULL, side_action);
  gtk_widget_class_install_action (widget_class, "page.next-stage", NULL, next_stage_action);
  gtk_widget_class_bind_template_callback (widget_class, strip_lock_cb);
  gtk_widget_class_bind_template_callback (widget_class, strip_move_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
}
