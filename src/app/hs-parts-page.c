// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The parts run of today.
 *
 *   hs_ask_run ─▶ HsPartsRun ─▶ a slip for each counter, and what to take along, what may come, what the van lacks
 *
 * A tick is written at once; the page is laid out anew only when its rows are others. */

#include "hs-parts-page.h"

#include <glib/gi18n.h>

#include "hs-ask.h"
#include "hs-deed.h"
#include "hs-flow-layout.h"
#include "hs-load-list.h"
#include "hs-run-line.h"
#include "hs-run-slip.h"
#include "hs-show.h"
#include "hs-spoken.h"

struct _HsPartsPage
{
  HsPage parent_instance;

  GtkStack *stack;
  GtkLabel *coming;
  GtkLabel *parts;
  GtkLabel *deposits;
  GtkBox *slips;
  GtkBox *extras;
  GtkWidget *before_box;
  GtkBox *before;
  GtkWidget *maybe_box;
  GtkBox *maybe;
  GtkWidget *lacking_box;
  GtkBox *lacking;
  GtkWidget *nowhere_box;
  GtkBox *nowhere;

  HsQuestion *ask;
  HsQuestion *places;
  guint revealing; /* the tick that waits for the line with the focus to be laid out */
};

G_DEFINE_FINAL_TYPE (HsPartsPage, hs_parts_page, HS_TYPE_PAGE)

/* A line's tick that was set, or taken away; and what it takes to turn it round. */
typedef struct
{
  HsLedger *ledger;
  HsPartsPage *page; /* %NULL once it may be turned round */
  HsWindow *window;  /* while it is turned round */
  HsDate day;
  char *list;
  char *row_id;
  gboolean ticked;
} Tick;

static void
tick_free (gpointer data)
{
  Tick *tick = data;

  g_clear_object (&tick->ledger);
  g_clear_object (&tick->page);
  g_clear_object (&tick->window);
  g_free (tick->list);
  g_free (tick->row_id);
  g_free (tick);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Tick, tick_free)

static Tick *
tick_new (HsLedger *ledger, HsDate day, const char *list, const char *row_id, gboolean ticked)
{
  Tick *tick = g_new0 (Tick, 1);

  tick->ledger = g_object_ref (ledger);
  tick->day = day;
  tick->list = g_strdup (list);
  tick->row_id = g_strdup (row_id);
  tick->ticked = ticked;
  return tick;
}

/* After "Taken back:". */
static const char *
tick_what (const Tick *tick)
{
  return tick->ticked ? _("a tick of the parts run") : _("that a tick of the parts run was taken away");
}

static void
turned_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Tick) tick = data;
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  hs_window_tell_undone (tick->window, tick_what (tick), error);
}

static void
undo_tick (HsWindow *window, gpointer data)
{
  const Tick *was = data;
  Tick *tick = tick_new (was->ledger, was->day, was->list, was->row_id, was->ticked);

  tick->window = g_object_ref (window);
  hs_deed_tick (tick->ledger, tick->day, tick->list, tick->row_id, !tick->ticked, turned_cb, tick);
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Tick) tick = data;
  g_autoptr (HsPartsPage) self = g_steal_pointer (&tick->page);
  g_autoptr (GError) error = NULL;
  const char *what = tick_what (tick);

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    {
      hs_page_tell (HS_PAGE (self), error->message);
      g_signal_emit_by_name (self->ask, "answered");
    }
  else
    hs_page_did (HS_PAGE (self), what, undo_tick, g_steal_pointer (&tick), tick_free);
}

static void
ticked_cb (HsPartsPage *self, const char *list, const char *row_id, gboolean done)
{
  HsLedger *ledger = hs_page_get_ledger (HS_PAGE (self));
  Tick *tick = tick_new (ledger, hs_ledger_get_today (ledger), list, row_id, done);

  tick->page = g_object_ref (self);
  hs_deed_tick (ledger, tick->day, list, row_id, done, written_cb, tick);
}

static void
clear_box (GtkBox *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

static void
add_line (HsPartsPage *self, GtkBox *box, const char *list, const HsRunRow *row)
{
  GtkWidget *line = hs_run_line_new (hs_page_get_ledger (HS_PAGE (self)), list, row);

  g_signal_connect_object (line, "ticked", G_CALLBACK (ticked_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (box, line);
}

static void
add_lines (HsPartsPage *self, GtkBox *box, const char *list, GPtrArray *rows)
{
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    add_line (self, box, list, g_ptr_array_index (rows, i));
}

static void
add_before (HsPartsPage *self, const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, css_class);
  gtk_box_append (self->before, label);
}

/* What to see to before the van leaves, and why. */
static void
fill_before (HsPartsPage *self, const HsLoadRow *row)
{
  const char *target = row->job_number != NULL && row->kind != HS_LOAD_FROM_BASE ? row->job_number : row->supplier;
  g_autofree char *text = row->kind == HS_LOAD_LEAVE ? g_strdup_printf (_("Leave %s for %s"), row->what, target)
                                                     : g_strdup_printf (_("%s for %s"), row->what, target);

  add_before (self, text, "hs-title");
  if (row->kind == HS_LOAD_BRING || row->kind == HS_LOAD_LEAVE)
    add_before (self, row->why, "hs-caption");
}

static void
fill_extras (HsPartsPage *self, const HsPartsRun *run)
{
  clear_box (self->before);
  clear_box (self->maybe);
  clear_box (self->lacking);
  clear_box (self->nowhere);
  for (guint i = 0; i < run->counters->len; i++)
    {
      const HsRunCounter *counter = g_ptr_array_index (run->counters, i);

      add_lines (self, self->maybe, "maybe", counter->maybe);
      add_lines (self, self->lacking, "restock", counter->restock);
    }
  for (guint i = 0; i < run->load_list->len; i++)
    fill_before (self, g_ptr_array_index (run->load_list, i));
  add_lines (self, self->nowhere, "pick_up", run->nowhere);
  gtk_widget_set_visible (self->before_box, gtk_widget_get_first_child (GTK_WIDGET (self->before)) != NULL);
  gtk_widget_set_visible (self->maybe_box, gtk_widget_get_first_child (GTK_WIDGET (self->maybe)) != NULL);
  gtk_widget_set_visible (self->lacking_box, gtk_widget_get_first_child (GTK_WIDGET (self->lacking)) != NULL);
  gtk_widget_set_visible (self->nowhere_box, gtk_widget_get_first_child (GTK_WIDGET (self->nowhere)) != NULL);
}

static void
set_figure (HsPartsPage *self, GtkLabel *label, gint64 cents)
{
  g_autofree char *text = hs_show_money (hs_page_get_ledger (HS_PAGE (self)), cents);

  gtk_label_set_label (label, text);
}

static HsRunLine *
focused_line (HsPartsPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  GtkWidget *line = focus != NULL ? gtk_widget_get_ancestor (focus, HS_TYPE_RUN_LINE) : NULL;

  return line != NULL && gtk_widget_is_ancestor (line, GTK_WIDGET (self)) ? HS_RUN_LINE (line) : NULL;
}

static HsRunLine *
find_line (GtkWidget *parent, const char *id)
{
  for (GtkWidget *child = gtk_widget_get_first_child (parent); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      HsRunLine *found = NULL;

      if (HS_IS_RUN_LINE (child))
        found = g_strcmp0 (hs_run_line_get_id (HS_RUN_LINE (child)), id) == 0 ? HS_RUN_LINE (child) : NULL;
      else
        found = find_line (child, id);
      if (found != NULL)
        return found;
    }
  return NULL;
}

static const char *
place_name (HsPartsPage *self, const char *code)
{
  GPtrArray *places = hs_question_get (self->places);

  for (guint i = 0; places != NULL && i < places->len; i++)
    {
      const HsPlace *place = g_ptr_array_index (places, i);

      if (g_strcmp0 (place->code, code) == 0)
        return place->name;
    }
  return NULL;
}

static void
fill_slips (HsPartsPage *self, const HsPartsRun *run)
{
  gboolean narrow = hs_page_get_narrow (HS_PAGE (self)), cramped = hs_page_get_cramped (HS_PAGE (self));

  clear_box (self->slips);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->slips),
                                  cramped || narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_homogeneous (self->slips, !cramped && !narrow);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->extras),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  for (guint i = 0; i < run->counters->len; i++)
    {
      const HsRunCounter *counter = g_ptr_array_index (run->counters, i);
      GtkWidget *slip = hs_run_slip_new (hs_page_get_ledger (HS_PAGE (self)), run, counter,
                                         place_name (self, counter->area), narrow);

      g_signal_connect_object (slip, "ticked", G_CALLBACK (ticked_cb), self, G_CONNECT_SWAPPED);
      gtk_box_append (self->slips, slip);
    }
}

/* New lines have no place before they are drawn. */
static gboolean
reveal_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer data)
{
  HsPartsPage *self = HS_PARTS_PAGE (widget);
  HsRunLine *line = focused_line (self);

  if (line != NULL && gtk_widget_get_height (GTK_WIDGET (line)) == 0)
    return G_SOURCE_CONTINUE;
  if (line != NULL)
    hs_run_line_reveal (line);
  self->revealing = 0;
  return G_SOURCE_REMOVE;
}

static void
go_back_to (HsPartsPage *self, const char *id)
{
  HsRunLine *line = find_line (GTK_WIDGET (self), id);

  if (line == NULL)
    return;
  hs_run_line_focus (line);
  if (self->revealing == 0)
    self->revealing = gtk_widget_add_tick_callback (GTK_WIDGET (self), reveal_cb, NULL, NULL);
}

static void
answered_cb (HsPartsPage *self)
{
  const HsPartsRun *run = hs_question_get (self->ask);
  HsRunLine *line = focused_line (self);
  g_autofree char *focused = line != NULL ? g_strdup (hs_run_line_get_id (line)) : NULL;

  if (hs_question_get_trouble (self->ask) != NULL)
    hs_page_tell (HS_PAGE (self), hs_question_get_trouble (self->ask));
  if (run == NULL)
    return;
  set_figure (self, self->coming, run->coming_back_cents);
  set_figure (self, self->parts, run->parts_cents);
  set_figure (self, self->deposits, run->deposits_cents);
  fill_slips (self, run);
  fill_extras (self, run);
  gtk_stack_set_visible_child_name (self->stack, run->counters->len > 0 || run->nowhere->len > 0 ? "run" : "none");
  if (focused != NULL)
    go_back_to (self, focused);
}

static void
places_cb (HsPartsPage *self)
{
  if (hs_question_get (self->ask) != NULL)
    answered_cb (self);
}

/* From line to line ------------------------------------------------------------------------------------------------ */

static void
add_lines_below (GtkWidget *parent, GPtrArray *lines)
{
  for (GtkWidget *child = gtk_widget_get_first_child (parent); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (HS_IS_RUN_LINE (child) && gtk_widget_get_mapped (child))
      g_ptr_array_add (lines, child);
    else
      add_lines_below (child, lines);
}

/* From the focused line @by lines on, as far as there are any; onto the first one where none has the focus. */
static void
walk (HsPartsPage *self, int by)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new ();
  HsRunLine *line = focused_line (self);
  guint at;

  add_lines_below (GTK_WIDGET (self), lines);
  if (lines->len == 0)
    return;
  if (line == NULL || !g_ptr_array_find (lines, line, &at))
    at = 0;
  else
    at = (guint) CLAMP ((int) at + by, 0, (int) lines->len - 1);
  hs_run_line_focus (g_ptr_array_index (lines, at));
  if (GTK_IS_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))))
    gtk_window_set_focus_visible (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))), TRUE);
}

static void
walk_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  walk (HS_PARTS_PAGE (widget), g_str_equal (name, "page.next-line") ? 1 : -1);
}

/* Nothing is ticked that the owner does not stand on. */
static void
tick_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsRunLine *line = focused_line (HS_PARTS_PAGE (widget));

  if (line != NULL)
    hs_run_line_toggle (line);
  else
    walk (HS_PARTS_PAGE (widget), 0);
}

/* + ticks; ↓, ↑ and Enter walk from line to line and change nothing. They are caught on their way down, since a box
 * takes Enter for a tick, and an arrow for one too. */
static gboolean
key_cb (HsPartsPage *self, guint keyval, guint keycode, GdkModifierType state)
{
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (keyval == GDK_KEY_plus || keyval == GDK_KEY_KP_Add)
    tick_action (GTK_WIDGET (self), NULL, NULL);
  else if (keyval == GDK_KEY_Down || keyval == GDK_KEY_KP_Down || keyval == GDK_KEY_Return
           || keyval == GDK_KEY_KP_Enter)
    walk (self, 1);
  else if (keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up)
    walk (self, -1);
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

static void
room_changed (HsPage *page)
{
  HsPartsPage *self = HS_PARTS_PAGE (page);

  if (self->ask != NULL && hs_question_get (self->ask) != NULL)
    answered_cb (self);
}

static void
shown (HsPage *page)
{
  HsPartsPage *self = HS_PARTS_PAGE (page);

  hs_question_ask (self->places, NULL);
  hs_question_ask (self->ask, g_variant_new ("(i)", hs_ledger_get_today (hs_page_get_ledger (page))));
}

static void
hs_parts_page_constructed (GObject *object)
{
  HsPartsPage *self = HS_PARTS_PAGE (object);

  G_OBJECT_CLASS (hs_parts_page_parent_class)->constructed (object);
  /* Asked for before the run, so that its answer is there when the slips are filled. */
  self->places = hs_page_ask (HS_PAGE (self), hs_ask_places, (GDestroyNotify) g_ptr_array_unref,
                              G_CALLBACK (places_cb));
  self->ask = hs_page_ask (HS_PAGE (self), hs_ask_run, (GDestroyNotify) hs_parts_run_free, G_CALLBACK (answered_cb));
}

static void
hs_parts_page_class_init (HsPartsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = hs_parts_page_constructed;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  HS_PAGE_CLASS (klass)->shown = shown;
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-parts-page.ui");
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, stack);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, coming);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, parts);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, deposits);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, slips);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, extras);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, before_box);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, before);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, maybe_box);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, maybe);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, lacking_box);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, lacking);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, nowhere_box);
  gtk_widget_class_bind_template_child (widget_class, HsPartsPage, nowhere);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "page.tick", NULL, tick_action);
  gtk_widget_class_install_action (widget_class, "page.next-line", NULL, walk_action);
  gtk_widget_class_install_action (widget_class, "page.previous-line", NULL, walk_action);
}

static void
hs_parts_page_init (HsPartsPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hs_spoken_stack (self->stack);
}
