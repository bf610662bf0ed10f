// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The job board.
 *
 *   hs_ask_board ─▶ rows in board order ─▶ one HsWire a stage ─▶ HsTag
 *
 * Tags are kept while their stage's row of jobs stays the same, so that the focus survives an answer. What is squared
 * and settled is only counted, until F8 unfolds the newest of it. */

#include "hs-jobs-page.h"

#include <glib/gi18n.h>

#include "hs-ask.h"
#include "hs-face.h"
#include "hs-mover.h"
#include "hs-next-card.h"
#include "hs-pad-key.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-tag-board.h"
#include "hs-tag.h"
#include "hs-why-window.h"
#include "hs-wire.h"

struct _HsJobsPage
{
  HsPage parent_instance;

  GtkStack *stack;
  HsTagBoard *board;
  HsNextCard *next;

  HsQuestion *ask;
  char *laid_out;
  gboolean unfolded;        /* what is settled is shown */
  gboolean goes_to_settled; /* once it is there */
  gboolean follows_window;
  GtkWidget *keyed;         /* (nullable): weak: the tag that F4 is printed on */
  char *points_at;          /* the job whose tag has the focus once it is there */
};

G_DEFINE_FINAL_TYPE (HsJobsPage, hs_jobs_page, HS_TYPE_PAGE)

#define ROW_KEY "hs-job-id"
#define KEY "F4"
#define MOST_CLOSED 30

/* Most urgent first: what is under way, what wants an answer, what was just called, then the day, then what is over. */
static const HsStage order[] = {
  HS_STAGE_ON_SITE,     HS_STAGE_ROLLING,     HS_STAGE_PROVEN,   HS_STAGE_CALLED_IN, HS_STAGE_WAITING_PART,
  HS_STAGE_WAITING_YES, HS_STAGE_PENCILED,    HS_STAGE_PROMISED, HS_STAGE_SQUARED,   HS_STAGE_CALLED_OFF,
  HS_STAGE_TURNED_AWAY,
};

static const HsBoardRow *
find_row (HsJobsPage *self, const char *job_id)
{
  const HsBoardShot *shot = hs_question_get (self->ask);

  for (guint i = 0; shot != NULL && job_id != NULL && i < shot->board->rows->len; i++)
    {
      const HsBoardRow *row = g_ptr_array_index (shot->board->rows, i);

      if (g_strcmp0 (row->job_id, job_id) == 0)
        return row;
    }
  return NULL;
}

static GtkWidget *
focused_tag (HsJobsPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  GtkWidget *tag = NULL;

  if (focus != NULL)
    tag = HS_IS_TAG (focus) ? focus : gtk_widget_get_ancestor (focus, HS_TYPE_TAG);
  return tag != NULL && gtk_widget_is_ancestor (tag, GTK_WIDGET (self)) ? tag : NULL;
}

static const char *
focused_job (HsJobsPage *self)
{
  GtkWidget *tag = focused_tag (self);

  return tag != NULL ? g_object_get_data (G_OBJECT (tag), ROW_KEY) : NULL;
}

/* Of a call that was called off only a fee is left to see to. */
static const char *
pane_for (HsStage stage)
{
  if (stage == HS_STAGE_CALLED_OFF)
    return "bill";
  return stage < HS_STAGE_ON_SITE ? "call" : "findings";
}

static void
tag_activated_cb (HsJobsPage *self, HsTag *tag)
{
  const HsBoardRow *row = find_row (self, g_object_get_data (G_OBJECT (tag), ROW_KEY));

  if (row != NULL)
    hs_page_open_job (HS_PAGE (self), row->job_id, pane_for (row->stage));
}

static GtkWidget *
tag_new (HsJobsPage *self, const HsBoardRow *row)
{
  GtkWidget *tag = hs_tag_new ();

  g_object_set_data_full (G_OBJECT (tag), ROW_KEY, g_strdup (row->job_id), g_free);
  hs_face_tag (HS_TAG (tag), hs_page_get_ledger (HS_PAGE (self)), row);
  g_signal_connect_object (tag, "activated", G_CALLBACK (tag_activated_cb), self, G_CONNECT_SWAPPED);
  return tag;
}

/* Closed jobs of which nothing is wanted, on the board as long as they are looked at. */
static guint
count_settled (const HsBoardShot *shot, HsStage stage)
{
  guint n = 0;

  for (guint i = 0; i < shot->board->rows->len; i++)
    {
      const HsBoardRow *row = g_ptr_array_index (shot->board->rows, i);

      n += row->stage == stage && row->settled;
    }
  return n;
}

static guint
count_of (const HsBoardShot *shot, HsStage stage)
{
  guint n = 0;

  for (guint i = 0; i < shot->board->rows->len; i++)
    n += ((const HsBoardRow *) g_ptr_array_index (shot->board->rows, i))->stage == stage;
  return n;
}

static GtkWidget *
wire_new (HsJobsPage *self, const HsBoardShot *shot, HsStage stage)
{
  GtkWidget *wire = hs_wire_new ();
  g_autofree char *count = NULL, *note = NULL;
  guint n = count_of (shot, stage), n_settled = count_settled (shot, stage);

  for (guint i = 0; i < shot->board->rows->len; i++)
    {
      const HsBoardRow *row = g_ptr_array_index (shot->board->rows, i);

      if (row->stage == stage)
        hs_wire_append (HS_WIRE (wire), tag_new (self, row));
    }
  count = stage == HS_STAGE_SQUARED && n > n_settled ? g_strdup_printf (_("%u not paid"), n - n_settled)
                                                     : g_strdup_printf ("%u", n);
  if (stage == HS_STAGE_SQUARED && shot->board->settled > 0 && n_settled == 0)
    note = g_strdup_printf (_("%u settled, folded"), (guint) shot->board->settled);
  else if (stage == HS_STAGE_SQUARED && shot->board->settled > 0)
    note = g_strdup_printf (_("%u older: type the number"), (guint) shot->board->settled);
  else if (stage == HS_STAGE_PROMISED)
    note = g_strdup (_("by arrival"));
  hs_wire_set_heading (HS_WIRE (wire), hs_stage_id (stage), _(hs_stage_label (stage)), count, note);
  return wire;
}

/* What decides the layout: stages and jobs in their order. */
static char *
layout_of (const HsBoardShot *shot)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < shot->board->rows->len; i++)
    {
      const HsBoardRow *row = g_ptr_array_index (shot->board->rows, i);

      g_string_append_printf (text, "%d%s ", row->stage, row->job_id);
    }
  g_string_append_printf (text, "%" G_GUINT64_FORMAT, shot->board->settled);
  return g_string_free (text, FALSE);
}

static void
update_tags_in (HsJobsPage *self, GtkWidget *parent)
{
  for (GtkWidget *child = gtk_widget_get_first_child (parent); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      const HsBoardRow *row = HS_IS_TAG (child) ? find_row (self, g_object_get_data (G_OBJECT (child), ROW_KEY)) : NULL;

      if (row != NULL)
        hs_face_tag (HS_TAG (child), hs_page_get_ledger (HS_PAGE (self)), row);
      else
        update_tags_in (self, child);
    }
}

/* @job_id: (nullable): any. */
static GtkWidget *
find_tag_in (GtkWidget *parent, const char *job_id)
{
  for (GtkWidget *child = gtk_widget_get_first_child (parent); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = NULL;

      if (HS_IS_TAG (child))
        found = job_id == NULL || g_strcmp0 (g_object_get_data (G_OBJECT (child), ROW_KEY), job_id) == 0 ? child : NULL;
      else
        found = find_tag_in (child, job_id);
      if (found != NULL)
        return found;
    }
  return NULL;
}

/* @all: every tag that there can be is there; the keys go on from the first if that of the job is not among them. */
static void
point (HsJobsPage *self, gboolean all)
{
  GtkWidget *tag = self->points_at != NULL ? find_tag_in (GTK_WIDGET (self->board), self->points_at) : NULL;

  if (tag == NULL && all && self->points_at != NULL && hs_page_get_focus (HS_PAGE (self)) == NULL)
    tag = find_tag_in (GTK_WIDGET (self->board), NULL);
  if (tag != NULL)
    gtk_widget_grab_focus (tag);
  if (tag != NULL || all)
    g_clear_pointer (&self->points_at, g_free);
}

static void
lay_out (HsJobsPage *self, const HsBoardShot *shot)
{
  const char *focused = focused_job (self);

  if (focused != NULL && self->points_at == NULL)
    self->points_at = g_strdup (focused);
  hs_tag_board_remove_all (self->board);
  self->next = HS_NEXT_CARD (hs_next_card_new ());
  hs_next_card_set_narrow (self->next, hs_page_get_narrow (HS_PAGE (self)));
  hs_tag_board_append (self->board, GTK_WIDGET (self->next));
  /* Short wires first: they fill the row beside the next stop, and the day's long wire stays in one piece. */
  for (guint pass = 0; pass < 2; pass++)
    for (guint i = 0; i < G_N_ELEMENTS (order); i++)
      {
        gboolean is_short = count_of (shot, order[i]) == 1;

        if (count_of (shot, order[i]) > 0 && is_short == (pass == 0))
          hs_tag_board_append (self->board, wire_new (self, shot, order[i]));
      }
}

/* What has no place yet cannot be scrolled to. */
static gboolean
focus_cb (GtkWidget *tag, GdkFrameClock *clock, gpointer data)
{
  if (gtk_widget_get_height (tag) <= 0)
    return G_SOURCE_CONTINUE;
  gtk_widget_grab_focus (tag);
  return G_SOURCE_REMOVE;
}

static void
go_to_settled (HsJobsPage *self, const HsBoardShot *shot)
{
  self->goes_to_settled = FALSE;
  for (guint i = 0; i < shot->board->rows->len; i++)
    {
      const HsBoardRow *row = g_ptr_array_index (shot->board->rows, i);
      GtkWidget *tag = row->settled ? find_tag_in (GTK_WIDGET (self->board), row->job_id) : NULL;

      if (tag == NULL)
        continue;
      gtk_widget_add_tick_callback (tag, focus_cb, NULL, NULL);
      return;
    }
}

/* F4 is printed where it acts: on the tag that has the focus, else on the job that is next. */
static void
print_key (HsJobsPage *self)
{
  GtkWidget *tag = focused_tag (self);
  const HsBoardRow *row = find_row (self, focused_job (self));

  if (self->keyed != NULL && self->keyed != tag)
    hs_tag_set_key (HS_TAG (self->keyed), NULL);
  g_set_weak_pointer (&self->keyed, tag);
  if (tag != NULL)
    hs_tag_set_key (HS_TAG (tag), hs_page_get_narrow (HS_PAGE (self)) ? NULL : KEY);
  if (self->next != NULL)
    hs_next_card_set_key_is_elsewhere (self->next,
                                       row != NULL && row != hs_next_card_find_job (hs_question_get (self->ask)));
}

static void
answered_cb (HsJobsPage *self)
{
  const HsBoardShot *shot = hs_question_get (self->ask);
  g_autofree char *layout = NULL;

  if (shot == NULL)
    return;
  layout = layout_of (shot);
  if (g_strcmp0 (layout, self->laid_out) != 0)
    {
      lay_out (self, shot);
      g_free (self->laid_out);
      self->laid_out = g_steal_pointer (&layout);
    }
  else
    update_tags_in (self, GTK_WIDGET (self->board));
  point (self, TRUE);
  hs_next_card_set (self->next, hs_page_get_ledger (HS_PAGE (self)), shot);
  gtk_stack_set_visible_child_name (self->stack, shot->board->rows->len > 0 ? "board" : "none");
  if (self->goes_to_settled)
    go_to_settled (self, shot);
  print_key (self);
}

/* F4 on the chosen tag, else on the job that is next. */
static void
next_stage_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobsPage *self = HS_JOBS_PAGE (widget);
  const HsBoardRow *row = g_str_equal (name, "page.next-stage") ? find_row (self, focused_job (self)) : NULL;

  if (row == NULL)
    row = hs_next_card_find_job (hs_question_get (self->ask));
  if (row != NULL)
    hs_mover_next (HS_PAGE (self), row->job_id, row->number, row->stage);
  else
    hs_page_tell (HS_PAGE (self), _("No job is next. Choose a tag with the arrow keys first."));
}

static void
why_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobsPage *self = HS_JOBS_PAGE (widget);
  const HsBoardShot *shot = hs_question_get (self->ask);

  if (shot != NULL && shot->plan != NULL)
    hs_why_window_present (GTK_WINDOW (gtk_widget_get_root (widget)), hs_page_get_ledger (HS_PAGE (self)), shot->plan);
}

static void
ask (HsJobsPage *self)
{
  hs_question_ask (self->ask, g_variant_new ("(u)", self->unfolded ? MOST_CLOSED : 0));
}

/* F8: what is settled comes onto the board, with the cursor on the newest, and goes again. */
static void
fold_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobsPage *self = HS_JOBS_PAGE (widget);

  self->unfolded = !self->unfolded;
  self->goes_to_settled = self->unfolded;
  ask (self);
}

/* A digit begins the number of a job, or how a telephone ends. */
static void
type_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  GtkRoot *window = gtk_widget_get_root (widget);

  if (!HS_IS_WINDOW (window))
    return;
  hs_window_show_page (HS_WINDOW (window), "vehicles");
  gtk_widget_activate_action_variant (hs_window_get_visible_page (HS_WINDOW (window)), name, parameter);
}

static gboolean
key_cb (HsJobsPage *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign[2] = { hs_pad_key_sign (keyval), '\0' };

  if (!g_ascii_isdigit (*sign) || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  return gtk_widget_activate_action (GTK_WIDGET (self), "page.type", "s", sign);
}

/* To the tag of a job that was left; what is not laid out yet is waited for. */
static void
point_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsJobsPage *self = HS_JOBS_PAGE (widget);

  g_free (self->points_at);
  self->points_at = g_variant_dup_string (parameter, NULL);
  point (self, FALSE);
}

static void
room_changed (HsPage *page)
{
  HsJobsPage *self = HS_JOBS_PAGE (page);

  if (self->next != NULL)
    hs_next_card_set_narrow (self->next, hs_page_get_narrow (page));
  print_key (self);
}

static void
follow_window (HsJobsPage *self)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));

  if (self->follows_window || root == NULL)
    return;
  self->follows_window = TRUE;
  g_signal_connect_object (root, "notify::focus-widget", G_CALLBACK (print_key), self, G_CONNECT_SWAPPED);
}

static void
shown (HsPage *page)
{
  follow_window (HS_JOBS_PAGE (page));
  ask (HS_JOBS_PAGE (page));
}

static void
hs_jobs_page_constructed (GObject *object)
{
  HsJobsPage *self = HS_JOBS_PAGE (object);

  G_OBJECT_CLASS (hs_jobs_page_parent_class)->constructed (object);
  self->ask = hs_page_ask (HS_PAGE (self), hs_ask_board, (GDestroyNotify) hs_board_shot_free,
                           G_CALLBACK (answered_cb));
}

static void
hs_jobs_page_finalize (GObject *object)
{
  HsJobsPage *self = HS_JOBS_PAGE (object);

  g_clear_weak_pointer (&self->keyed);
  g_free (self->laid_out);
  g_free (self->points_at);
  G_OBJECT_CLASS (hs_jobs_page_parent_class)->finalize (object);
}

static void
hs_jobs_page_class_init (HsJobsPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->constructed = hs_jobs_page_constructed;
  object_class->finalize = hs_jobs_page_finalize;
  HS_PAGE_CLASS (klass)->room_changed = room_changed;
  HS_PAGE_CLASS (klass)->shown = shown;
  g_type_ensure (HS_TYPE_TAG_BOARD);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-jobs-page.ui");
  gtk_widget_class_bind_template_child (widget_class, HsJobsPage, stack);
  gtk_widget_class_bind_template_child (widget_class, HsJobsPage, board);
  gtk_widget_class_install_action (widget_class, "page.next-stage", NULL, next_stage_action);
  gtk_widget_class_install_action (widget_class, "page.start-next", NULL, next_stage_action);
  gtk_widget_class_install_action (widget_class, "page.why", NULL, why_action);
  gtk_widget_class_install_action (widget_class, "page.lock", NULL, fold_action);
  gtk_widget_class_install_action (widget_class, "page.type", "s", type_action);
  gtk_widget_class_install_action (widget_class, "page.point", "s", point_action);
}

static void
hs_jobs_page_init (HsJobsPage *self)
{
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_widget_init_template (GTK_WIDGET (self));
  hs_spoken_stack (self->stack);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}
