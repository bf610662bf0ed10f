// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The known callers under a slip's number.
 *
 * Hand it each answer of hs_ask_find(). It refuses to take letters: whoever writes on over it means the words. */

#include "hs-caller-list.h"

#include "hs-act-row.h"
#include "hs-hit-row.h"

struct _HsCallerList
{
  AdwBin parent_instance;

  GtkListBox *rows;
};

G_DEFINE_FINAL_TYPE (HsCallerList, hs_caller_list, ADW_TYPE_BIN)

enum
{
  PICKED,
  TYPED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
activated_cb (HsCallerList *self, GtkListBoxRow *row)
{
  g_signal_emit (self, signals[PICKED], 0, g_object_get_data (G_OBJECT (row), "vehicle"));
}

/* Enter alone picks the row. */
static gboolean
key_cb (HsCallerList *self, guint keyval, guint keycode, GdkModifierType state)
{
  gunichar letter = gdk_keyval_to_unicode (keyval);
  char typed[7] = { 0 };

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || !g_unichar_isprint (letter))
    return GDK_EVENT_PROPAGATE;
  g_unichar_to_utf8 (letter, typed);
  g_signal_emit (self, signals[TYPED], 0, typed);
  return GDK_EVENT_STOP;
}

static void
add_row (HsCallerList *self, HsLedger *ledger, const HsHit *hit)
{
  GtkWidget *row = hs_act_row_new (), *face = hs_hit_row_new ();
  g_autofree char *say = hs_hit_row_say (ledger, hit);

  hs_hit_row_set (HS_HIT_ROW (face), ledger, hit);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), face);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, say, -1);
  g_object_set_data_full (G_OBJECT (row), "vehicle", g_strdup (hit->vehicle_id), g_free);
  gtk_list_box_append (self->rows, row);
}

void
hs_caller_list_set_hits (HsCallerList *self, HsLedger *ledger, GPtrArray *hits)
{
  GtkListBoxRow *old;

  g_return_if_fail (HS_IS_CALLER_LIST (self));

  while ((old = gtk_list_box_get_row_at_index (self->rows, 0)) != NULL)
    gtk_list_box_remove (self->rows, GTK_WIDGET (old));
  for (guint i = 0; hits != NULL && i < hits->len; i++)
    {
      const HsHit *hit = g_ptr_array_index (hits, i);

      if (hit->vehicle_id != NULL && hit->present)
        add_row (self, ledger, hit);
    }
  gtk_widget_set_visible (GTK_WIDGET (self), gtk_list_box_get_row_at_index (self->rows, 0) != NULL);
}

guint
hs_caller_list_count (HsCallerList *self)
{
  guint n = 0;

  g_return_val_if_fail (HS_IS_CALLER_LIST (self), 0);

  while (gtk_list_box_get_row_at_index (self->rows, (int) n) != NULL)
    n++;
  return n;
}

gboolean
hs_caller_list_pick_first (HsCallerList *self)
{
  GtkListBoxRow *row;

  g_return_val_if_fail (HS_IS_CALLER_LIST (self), FALSE);

  row = gtk_list_box_get_row_at_index (self->rows, 0);
  if (row == NULL || !gtk_widget_get_visible (GTK_WIDGET (self)))
    return FALSE;
  activated_cb (self, row);
  return TRUE;
}

static void
hs_caller_list_class_init (HsCallerListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  signals[PICKED] = g_signal_new ("picked", HS_TYPE_CALLER_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                  1, G_TYPE_STRING);
  signals[TYPED] = g_signal_new ("typed", HS_TYPE_CALLER_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_STRING);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-caller-list.ui");
  gtk_widget_class_bind_template_child (widget_class, HsCallerList, rows);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
}

static void
hs_caller_list_init (HsCallerList *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
