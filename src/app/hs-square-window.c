// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Squaring up, asked for once. It adds nothing up: the book says what would be frozen and what stands against it, and
 * is asked again after each change of it, so that Enter never squares up what was not shown.
 *
 *   hs_ask_square ─▶ HsSquareOutlook ─▶ sum · what is frozen · what is left open · refusal and the key to its place */

#include "hs-square-window.h"

#include <glib/gi18n.h>

#include "hs-deed-bill.h"
#include "hs-findings.h"
#include "hs-key-button.h"
#include "hs-line-list.h"
#include "hs-mover.h"
#include "hs-pad-key.h"
#include "hs-question.h"
#include "hs-refusal.h"
#include "hs-show.h"
#include "hs-window.h"

struct _HsSquareWindow
{
  AdwWindow parent_instance;

  GtkLabel *figure;
  GtkBox *frozen;
  GtkBox *open;
  GtkLabel *refusal;
  HsKeyButton *lead;
  GtkLabel *no_work;
  HsKeyButton *add;
  GtkWidget *square;

  HsPage *page; /* weak: under us, in the window that destroys us */
  HsQuestion *ask;
  char *job_id;
  char *number;
  gboolean busy;
};

G_DEFINE_FINAL_TYPE (HsSquareWindow, hs_square_window, ADW_TYPE_WINDOW)

static const HsTongue tongue = { gettext, ngettext };

static const HsSquareOutlook *
get_outlook (HsSquareWindow *self)
{
  return self->ask != NULL ? hs_question_get (self->ask) : NULL;
}

char *
hs_square_window_say_place (const char *place)
{
  const struct
  {
    const char *place;
    const char *words;
  } rows[] = {
    { "safety", _("Go to the Safety List") },
    { HS_READ_AFTER_PAGE, _("Go to the Readings") },
    { "why", _("Go to Why It Failed") },
    { "choices", _("Go to the Choices") },
    { "bill", _("Go to the Bill") },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    if (g_strcmp0 (rows[i].place, place) == 0)
      return g_strdup (rows[i].words);
  return g_strdup (_("Go to Before and After"));
}

/* What is shown ---------------------------------------------------------------------------------------------------- */

static void
show_frozen (HsSquareWindow *self, const HsSquareOutlook *outlook)
{
  HsLedger *ledger = hs_page_get_ledger (self->page);
  gint64 owed_cents = outlook->net_cents + outlook->tax_cents - outlook->paid_cents;
  g_autofree char *net = hs_show_money (ledger, outlook->net_cents);
  g_autofree char *tax = hs_show_money (ledger, outlook->tax_cents);
  g_autofree char *paid = hs_show_money (ledger, outlook->paid_cents);
  g_autofree char *owed = hs_show_money (ledger, owed_cents);
  g_autofree char *day = hs_show_day (outlook->due_on);
  /* Translators: a day. */
  g_autofree char *due = g_strdup_printf (_("Owed, due on %s"), day);
  g_autofree char *choices = NULL;

  hs_line_list_clear (self->frozen);
  hs_line_list_add (self->frozen, _("Net"), net, NULL);
  hs_line_list_add (self->frozen, _("Tax"), tax, NULL);
  hs_line_list_add (self->frozen, _("Paid"), paid, NULL);
  hs_line_list_add (self->frozen, owed_cents > 0 ? due : _("Owed"), owed, "hs-strong");
  if (outlook->n_yes + outlook->n_no + outlook->n_later == 0)
    return;
  /* Translators: how many options the customer said yes, no and later to. */
  choices = g_strdup_printf (_("Told and picked: %u yes, %u no, %u later"), outlook->n_yes, outlook->n_no,
                             outlook->n_later);
  hs_line_list_add (self->frozen, choices, NULL, NULL);
}

/* What the invoice or the sheet will say is missing; it cannot be added afterwards. */
static void
show_open (HsSquareWindow *self, const HsSquareOutlook *outlook)
{
  GPtrArray *missing = outlook->repair != NULL ? outlook->repair->missing : NULL;
  g_autofree char *unproved = NULL;

  hs_line_list_clear (self->open);
  if (outlook->unproved_why != NULL && outlook->stage != HS_STAGE_CALLED_OFF)
    {
      unproved = g_strdup_printf (_("Not proven because: %s"), outlook->unproved_why);
      hs_line_list_add (self->open, unproved, NULL, "hs-caution");
    }
  for (guint i = 0; missing != NULL && i < missing->len; i++)
    {
      const HsProveItem *item = g_ptr_array_index (missing, i);
      g_autofree char *said = hs_prove_say (item, &tongue);
      g_autofree char *left = g_strdup_printf (_("Left open: %s"), said);

      if (!item->must && (item->kind != HS_PROVE_TAKE_ONE || outlook->unproved_why == NULL))
        hs_line_list_add (self->open, left, NULL, NULL);
    }
}

static void
show_way (HsSquareWindow *self, const HsSquareOutlook *outlook)
{
  g_autofree char *work = hs_show_money (hs_page_get_ledger (self->page), outlook->work_cents);
  /* Translators: a sum of money. */
  g_autofree char *add = g_strdup_printf (_("Add Call-out and Labor: %s"), work);
  g_autofree char *lead = hs_square_window_say_place (outlook->place);

  hs_refusal_say (self->refusal, outlook->refusal);
  hs_key_button_set_text (self->lead, lead);
  gtk_widget_set_visible (GTK_WIDGET (self->lead), outlook->refusal != NULL && outlook->place != NULL);
  hs_key_button_set_text (self->add, add);
  gtk_widget_set_visible (GTK_WIDGET (self->no_work), outlook->no_work);
  gtk_widget_set_visible (GTK_WIDGET (self->add), outlook->may_price);
  gtk_widget_set_visible (self->square, outlook->refusal == NULL);
}

/* Enter squares up, or leads to where it is mended. */
static void
focus_first (HsSquareWindow *self, const HsSquareOutlook *outlook)
{
  if (outlook->refusal == NULL)
    gtk_widget_grab_focus (self->square);
  else
    gtk_widget_grab_focus (outlook->place != NULL ? GTK_WIDGET (self->lead) : GTK_WIDGET (self));
}

static void
answered_cb (HsSquareWindow *self)
{
  const HsSquareOutlook *outlook = get_outlook (self);
  g_autofree char *sum = NULL;

  if (outlook == NULL)
    hs_refusal_say (self->refusal, hs_question_get_trouble (self->ask));
  if (outlook == NULL || self->page == NULL)
    return;
  sum = hs_show_money (hs_page_get_ledger (self->page), outlook->net_cents + outlook->tax_cents);
  gtk_label_set_label (self->figure, sum);
  show_frozen (self, outlook);
  show_open (self, outlook);
  show_way (self, outlook);
  focus_first (self, outlook);
}

/* What is done ----------------------------------------------------------------------------------------------------- */

static void
squared_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsSquareWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  self->busy = FALSE;
  if (error != NULL)
    {
      hs_refusal_say (self->refusal, error->message);
      return;
    }
  if (self->page != NULL)
    hs_mover_tell (self->page, self->number, HS_STAGE_SQUARED);
  gtk_window_close (GTK_WINDOW (self));
}

static void
square_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsSquareWindow *self = HS_SQUARE_WINDOW (widget);
  const HsSquareOutlook *outlook = get_outlook (self);

  if (outlook == NULL || outlook->refusal != NULL || self->busy || self->page == NULL)
    return;
  self->busy = TRUE;
  hs_deed_square (hs_page_get_ledger (self->page), self->job_id, squared_cb,
                  hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
priced_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsSquareWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  self->busy = FALSE;
  if (error != NULL)
    hs_refusal_say (self->refusal, error->message);
}

/* The book has changed then, and says anew what it comes to. */
static void
add_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsSquareWindow *self = HS_SQUARE_WINDOW (widget);
  const HsSquareOutlook *outlook = get_outlook (self);

  if (outlook == NULL || !outlook->may_price || self->busy || self->page == NULL)
    return;
  self->busy = TRUE;
  hs_deed_price (hs_page_get_ledger (self->page), self->job_id, NULL, priced_cb,
                 hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
lead_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsSquareWindow *self = HS_SQUARE_WINDOW (widget);
  const HsSquareOutlook *outlook = get_outlook (self);
  HsPage *page = self->page;

  if (outlook == NULL || outlook->place == NULL || page == NULL)
    return;
  hs_page_open_job (page, self->job_id, outlook->place);
  gtk_window_close (GTK_WINDOW (self));
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static gboolean
key_cb (HsSquareWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);
  gboolean enter = keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter;
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (sign == '1')
    add_action (GTK_WIDGET (self), NULL, NULL);
  else if (sign == '0')
    lead_action (GTK_WIDGET (self), NULL, NULL);
  else if (enter && (focus == NULL || !GTK_IS_BUTTON (focus)))
    square_action (GTK_WIDGET (self), NULL, NULL);
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

static void
hs_square_window_dispose (GObject *object)
{
  HsSquareWindow *self = HS_SQUARE_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  g_clear_object (&self->ask);
  g_clear_pointer (&self->job_id, g_free);
  g_clear_pointer (&self->number, g_free);
  G_OBJECT_CLASS (hs_square_window_parent_class)->dispose (object);
}

static void
hs_square_window_class_init (HsSquareWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_square_window_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-square-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsSquareWindow, figure);
  gtk_widget_class_bind_template_child (widget_class, HsSquareWindow, frozen);
  gtk_widget_class_bind_template_child (widget_class, HsSquareWindow, open);
  gtk_widget_class_bind_template_child (widget_class, HsSquareWindow, refusal);
  gtk_widget_class_bind_template_child (widget_class, HsSquareWindow, lead);
  gtk_widget_class_bind_template_child (widget_class, HsSquareWindow, no_work);
  gtk_widget_class_bind_template_child (widget_class, HsSquareWindow, add);
  gtk_widget_class_bind_template_child (widget_class, HsSquareWindow, square);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "square.up", NULL, square_action);
  gtk_widget_class_install_action (widget_class, "square.add", NULL, add_action);
  gtk_widget_class_install_action (widget_class, "square.lead", NULL, lead_action);
  gtk_widget_class_install_action (widget_class, "square.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "square.close", NULL);
}

static void
hs_square_window_init (HsSquareWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

HsSquareWindow *
hs_square_window_present (HsPage *page, const char *job_id, const char *number)
{
  g_autofree char *title = NULL;
  HsSquareWindow *self;

  g_return_val_if_fail (HS_IS_PAGE (page), NULL);
  g_return_val_if_fail (job_id != NULL && number != NULL, NULL);

  self = g_object_new (HS_TYPE_SQUARE_WINDOW, "transient-for", gtk_widget_get_root (GTK_WIDGET (page)),
                       "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  self->job_id = g_strdup (job_id);
  self->number = g_strdup (number);
  /* Translators: the number of a job. */
  title = g_strdup_printf (_("%s: square up?"), number);
  gtk_window_set_title (GTK_WINDOW (self), title);
  self->ask = hs_question_new (hs_page_get_ledger (page), hs_ask_square, (GDestroyNotify) hs_square_outlook_free);
  g_signal_connect_object (self->ask, "answered", G_CALLBACK (answered_cb), self, G_CONNECT_SWAPPED);
  hs_question_ask (self->ask, g_variant_new ("(s)", job_id));
  gtk_window_set_default_size (GTK_WINDOW (self), 600, 640);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  return self;
}
