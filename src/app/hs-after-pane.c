// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Before and after. A reading that was taken only once has its row, too. */

#include "hs-after-pane.h"

#include "hs-change-grid.h"
#include "hs-show.h"

struct _HsAfterPane
{
  HsJobPane parent_instance;

  HsChangeGrid *changes;
  GtkLabel *changes_none;
  GtkLabel *because;
};

G_DEFINE_FINAL_TYPE (HsAfterPane, hs_after_pane, HS_TYPE_JOB_PANE)

static const HsReadingResult *
find_reading (GPtrArray *sheet, const HsReadingResult *like)
{
  for (guint i = 0; i < sheet->len; i++)
    {
      const HsReadingResult *result = g_ptr_array_index (sheet, i);

      if (g_strcmp0 (result->check, like->check) == 0 && g_strcmp0 (result->place, like->place) == 0)
        return result->value_text != NULL ? result : NULL;
    }
  return NULL;
}

static void
add_change (HsAfterPane *self, const HsReadingResult *before, const HsReadingResult *after)
{
  const HsReadingResult *any = before != NULL ? before : after;
  HsChange change = { .name = any->name };

  if (before != NULL)
    {
      change.before = before->value_text;
      change.before_word = before->word;
      change.before_shape = hs_show_verdict_shape (before->verdict, before->word);
    }
  if (after != NULL)
    {
      change.after = after->value_text;
      change.after_word = after->word;
      change.after_shape = hs_show_verdict_shape (after->verdict, after->word);
    }
  hs_change_grid_append (self->changes, &change);
}

static guint
add_changes (HsAfterPane *self, const HsJobShot *shot)
{
  guint n = 0;

  for (guint i = 0; i < shot->sheets[0]->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (shot->sheets[0], i);
      const HsReadingResult *after = find_reading (shot->sheets[2], row);

      if (row->value_text == NULL && after == NULL)
        continue;
      add_change (self, row->value_text != NULL ? row : NULL, after);
      n++;
    }
  for (guint i = 0; i < shot->sheets[2]->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (shot->sheets[2], i);
      gboolean listed = FALSE;

      for (guint j = 0; j < shot->sheets[0]->len; j++)
        listed |= g_strcmp0 (row->check, ((HsReadingResult *) g_ptr_array_index (shot->sheets[0], j))->check) == 0;
      if (row->value_text == NULL || listed)
        continue;
      add_change (self, NULL, row);
      n++;
    }
  return n;
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsAfterPane *self = HS_AFTER_PANE (pane);
  g_autoptr (GString) because = g_string_new (NULL);
  guint n;

  hs_change_grid_clear (self->changes);
  hs_change_grid_set_narrow (self->changes, hs_page_get_narrow (HS_PAGE (self)));
  n = add_changes (self, shot);
  gtk_widget_set_visible (GTK_WIDGET (self->changes), n > 0);
  gtk_widget_set_visible (GTK_WIDGET (self->changes_none), n == 0);
  for (guint i = 0; shot->view->because != NULL && i < shot->view->because->len; i++)
    g_string_append_printf (because, "%s%s", i > 0 ? "\n" : "",
                            (const char *) g_ptr_array_index (shot->view->because, i));
  gtk_label_set_label (self->because, because->str);
  gtk_widget_set_visible (GTK_WIDGET (self->because), because->len > 0);
}

static void
room_changed (HsPage *page)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (page));

  if (shot != NULL)
    show_job (HS_JOB_PANE (page), shot);
}

static void
hs_after_pane_class_init (HsAfterPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  HS_JOB_PANE_CLASS (klass)->show = show_job;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  g_type_ensure (HS_TYPE_CHANGE_GRID);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-after-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, changes);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, changes_none);
  gtk_widget_class_bind_template_child (widget_class, HsAfterPane, because);
}

static void
hs_after_pane_init (HsAfterPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
