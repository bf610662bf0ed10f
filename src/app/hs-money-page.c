// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Invoices as plain lines, what is open first. */

#include "hs-money-page.h"

#include <glib/gi18n.h>

#include "hs-act-row.h"
#include "hs-ask.h"
#include "hs-show.h"

#define MOST_ROWS 60

struct _HsMoneyPage
{
  HsPage parent_instance;

  GtkLabel *open_sum;
  GtkLabel *open_count;
  GtkListBox *open_list;
  GtkListBox *all_list;

  HsQuestion *unpaid;
  HsQuestion *all;
};

G_DEFINE_FINAL_TYPE (HsMoneyPage, hs_money_page, HS_TYPE_PAGE)

static GtkWidget *
label_new (const char *text, float xalign, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_ellipsize (GTK_LABEL (label), xalign == 0 ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
  gtk_widget_add_css_class (label, css);
  return label;
}

static char *
state_of (const HsMoneyRow *row)
{
  g_autofree char *day = NULL;

  if (row->paid_cents >= row->total_cents)
    return g_strdup (_("paid"));
  day = hs_show_day (row->due_on);
  return *day != '\0' ? g_strdup_printf (_("due %s"), day) : g_strdup (_("open"));
}

static GtkWidget *
row_new (HsMoneyPage *self, const HsMoneyRow *money)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  GtkWidget *row = hs_act_row_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2), *sums = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gint64 open = money->total_cents - money->paid_cents;
  g_autofree char *issued = hs_show_day (money->issued_on);
  g_autofree char *where = hs_show_joined (money->number, money->plate != NULL ? money->plate : "", issued, NULL);
  g_autofree char *sum = hs_show_money (ledger, open > 0 ? open : money->total_cents);
  g_autofree char *state = state_of (money);
  g_autofree char *say = g_strdup_printf ("%s, %s, %s, %s", money->customer, where, sum, state);

  gtk_box_append (GTK_BOX (words), label_new (money->customer, 0, "hs-strong"));
  gtk_box_append (GTK_BOX (words), label_new (where, 0, "hs-caption"));
  gtk_box_append (GTK_BOX (sums), label_new (sum, 1, "hs-sum"));
  gtk_box_append (GTK_BOX (sums), label_new (state, 1, "hs-caption"));
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (box), words);
  gtk_box_append (GTK_BOX (box), sums);
  g_object_set (box, "margin-start", 14, "margin-end", 14, "margin-top", 8, "margin-bottom", 8, NULL);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
  g_object_set_data_full (G_OBJECT (row), "job", g_strdup (money->job_id), g_free);
  return row;
}

static gint64
fill_list (HsMoneyPage *self, GtkListBox *list, GPtrArray *rows)
{
  gint64 open = 0;
  GtkWidget *child;

  while ((child = GTK_WIDGET (gtk_list_box_get_row_at_index (list, 0))) != NULL)
    gtk_list_box_remove (list, child);
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    {
      const HsMoneyRow *money = g_ptr_array_index (rows, i);

      open += money->total_cents - money->paid_cents;
      gtk_list_box_append (list, row_new (self, money));
    }
  return open;
}

static void
unpaid_cb (HsMoneyPage *self)
{
  GPtrArray *rows = hs_question_get (self->unpaid);
  gint64 open = fill_list (self, self->open_list, rows);
  g_autofree char *sum = hs_show_money (hs_page_get_ledger (HS_PAGE (self)), open);
  guint n = rows != NULL ? rows->len : 0;
  g_autofree char *count = g_strdup_printf (ngettext ("open, on %u invoice", "open, on %u invoices", n), n);

  gtk_label_set_label (self->open_sum, sum);
  gtk_label_set_label (self->open_count, count);
}

static void
all_cb (HsMoneyPage *self)
{
  fill_list (self, self->all_list, hs_question_get (self->all));
}

static void
activated_cb (HsMoneyPage *self, GtkListBoxRow *row)
{
  hs_page_open_job (HS_PAGE (self), g_object_get_data (G_OBJECT (row), "job"), "bill");
}

static void
shown (HsPage *page)
{
  HsMoneyPage *self = HS_MONEY_PAGE (page);

  hs_question_ask (self->unpaid, g_variant_new ("(bu)", TRUE, MOST_ROWS));
  hs_question_ask (self->all, g_variant_new ("(bu)", FALSE, MOST_ROWS));
}

static void
hs_money_page_constructed (GObject *object)
{
  HsMoneyPage *self = HS_MONEY_PAGE (object);

  G_OBJECT_CLASS (hs_money_page_parent_class)->constructed (object);
  self->unpaid = hs_page_ask (HS_PAGE (self), hs_ask_money, (GDestroyNotify) g_ptr_array_unref,
                              G_CALLBACK (unpaid_cb));
  self->all = hs_page_ask (HS_PAGE (self), hs_ask_money, (GDestroyNotify) g_ptr_array_unref, G_CALLBACK (all_cb));
}

static void
hs_money_page_class_init (HsMoneyPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = hs_money_page_constructed;
  HS_PAGE_CLASS (klass)->shown = shown;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-money-page.ui");
  gtk_widget_class_bind_template_child (widget_class, HsMoneyPage, open_sum);
  gtk_widget_class_bind_template_child (widget_class, HsMoneyPage, open_count);
  gtk_widget_class_bind_template_child (widget_class, HsMoneyPage, open_list);
  gtk_widget_class_bind_template_child (widget_class, HsMoneyPage, all_list);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
}

static void
hs_money_page_init (HsMoneyPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
