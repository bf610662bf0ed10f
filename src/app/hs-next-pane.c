// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What to check next, and which causes are still possible.
 *
 *   HsJobNext ─▶ rows: minutes, check, what it tells      chosen ─▶ check-chosen
 *            └─▶ rows: cause, word, evidence              chosen ─▶ cause-chosen
 *
 * Rows are made anew with every answer of the book; which one has the focus is kept by its id. */

#include "hs-next-pane.h"

#include <glib/gi18n.h>

#include "hs-act-row.h"
#include "hs-chip.h"
#include "hs-show.h"
#include "hs-spoken.h"

/* Steps that have a row; any other check has its line on the sheet. */
#define MOST_STEPS 3
/* Causes that are worth a row each; the unlikely ones behind them share a sentence. */
#define MOST_CAUSES 4

struct _HsNextPane
{
  AdwBin parent_instance;

  GtkLabel *name;
  GtkListBox *steps;
  GtkLabel *list;
  GtkLabel *battery;
  GtkWidget *standing;
  GtkListBox *causes;
  GtkLabel *rest;
  GtkLabel *nothing;
  GtkLabel *trouble;

  GtkSizeGroup *heads; /* of the rows of causes, so that their columns stand under each other */
  gboolean narrow;
};

enum
{
  CHECK_CHOSEN,
  CAUSE_CHOSEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HsNextPane, hs_next_pane, ADW_TYPE_BIN)

static GtkWidget *
label_new (const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (css_class != NULL)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static void
set_shown (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static char *
join (char **texts, const char *between)
{
  return texts != NULL ? g_strjoinv (between, texts) : g_strdup ("");
}

/* --- Rows -------------------------------------------------------------------------------------------------------- */

static void
clear_list (GtkListBox *list)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (list, 0)) != NULL)
    gtk_list_box_remove (list, GTK_WIDGET (row));
}

/* @id: (nullable): a row that leads nowhere has none. */
static void
append_row (GtkListBox *list, const char *id, GtkWidget *child, const char *spoken)
{
  GtkWidget *row = hs_act_row_new ();

  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), child);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), id != NULL);
  g_object_set_data_full (G_OBJECT (row), "id", g_strdup (id), g_free);
  hs_spoken_name (row, spoken);
  gtk_list_box_append (list, row);
}

static const char *
focused_id (GtkListBox *list)
{
  GtkWidget *row = gtk_widget_get_focus_child (GTK_WIDGET (list));

  return row != NULL ? g_object_get_data (G_OBJECT (row), "id") : NULL;
}

static void
focus_id (GtkListBox *list, const char *id)
{
  GtkListBoxRow *row;

  for (int i = 0; id != NULL && (row = gtk_list_box_get_row_at_index (list, i)) != NULL; i++)
    if (g_strcmp0 (g_object_get_data (G_OBJECT (row), "id"), id) == 0)
      gtk_widget_grab_focus (GTK_WIDGET (row));
}

static const char *
keys_text (HsNextKeys keys)
{
  switch (keys)
    {
    case HS_NEXT_KEYS_ENTER:
      return _("go here");
    case HS_NEXT_KEYS_STORE:
      return _("store and go here");
    case HS_NEXT_KEYS_TWICE:
      return _("twice: store, go here");
    case HS_NEXT_KEYS_NONE:
    default:
      return NULL;
    }
}

static GtkWidget *
keys_new (HsNextKeys keys)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *cap = hs_keycap_new (_("Enter"));

  gtk_widget_set_valign (cap, GTK_ALIGN_CENTER);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), cap);
  gtk_box_append (GTK_BOX (box), gtk_label_new (keys_text (keys)));
  return box;
}

static GtkWidget *
minutes_new (double minutes, gboolean first)
{
  g_autofree char *text = g_strdup_printf ("%.0f", minutes);
  GtkWidget *label = gtk_label_new (text);

  gtk_widget_set_size_request (label, 64, -1);
  gtk_label_set_xalign (GTK_LABEL (label), 1);
  gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (label, first ? "hs-figure" : "hs-value");
  return label;
}

static GtkWidget *
texts_new (const char *name, const char *about, gboolean first)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *tells;

  gtk_widget_set_hexpand (box, TRUE);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), label_new (name, first ? "hs-title" : "hs-strong"));
  if (about == NULL || *about == '\0')
    return box;
  /* What it tells is read out whole; here the first line or two say enough. */
  tells = label_new (about, "hs-caption");
  gtk_label_set_lines (GTK_LABEL (tells), first ? 2 : 1);
  gtk_label_set_ellipsize (GTK_LABEL (tells), PANGO_ELLIPSIZE_END);
  gtk_box_append (GTK_BOX (box), tells);
  return box;
}

static GtkWidget *
row_box_new (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 14);

  gtk_widget_set_margin_top (box, 4);
  gtk_widget_set_margin_bottom (box, 4);
  gtk_widget_set_size_request (box, -1, 44);
  return box;
}

/* "takes 4 min · there is power again · flat: Battery is flat" */
static char *
dup_about (const HsNextLine *line, const char *tells)
{
  g_autofree char *takes = g_strdup_printf (_("takes %.0f min"), line->minutes);
  char *parts[4] = { takes, NULL };
  guint n = 1;

  if (line->again)
    parts[n++] = (char *) _("there is power again");
  if (*tells != '\0')
    parts[n++] = (char *) tells;
  return g_strjoinv (" · ", parts);
}

static void
append_step (HsNextPane *self, const HsNextLine *line, gboolean first, HsNextKeys keys)
{
  GtkWidget *box = row_box_new ();
  g_autofree char *tells = join (line->tells, " · ");
  g_autofree char *name = line->is_check ? g_strdup (hs_show_data (line->name))
                                         : g_strdup_printf (_("Repair: %s"), hs_show_data (line->name));
  g_autofree char *about = dup_about (line, tells);
  g_autofree char *spoken = g_strdup_printf (_("%.0f minutes on average until fixed: %s, %s"),
                                              line->expected_minutes, name, about);

  gtk_box_append (GTK_BOX (box), minutes_new (line->expected_minutes, first));
  gtk_box_append (GTK_BOX (box), texts_new (name, about, first));
  if (first && line->is_check && keys_text (keys) != NULL && !self->narrow)
    gtk_box_append (GTK_BOX (box), keys_new (keys));
  append_row (self->steps, line->is_check ? line->id : NULL, box, spoken);
}

static void
append_offer (HsNextPane *self, const HsNextOffer *offer)
{
  GtkWidget *box = row_box_new ();
  g_autofree char *spoken = g_strdup_printf ("%s. %s", hs_show_data (offer->name), offer->why);

  gtk_box_append (GTK_BOX (box), texts_new (hs_show_data (offer->name), offer->why, FALSE));
  append_row (self->steps, offer->check, box, spoken);
}

/* "for: … · against: …", or who says how often while there is nothing. */
static char *
dup_evidence (const HsNextCause *cause)
{
  g_autofree char *speaks_for = join (cause->speaks_for, "; ");
  g_autofree char *against = join (cause->speaks_against, "; ");
  g_autoptr (GString) text = g_string_new (NULL);

  if (*speaks_for != '\0')
    g_string_append_printf (text, _("for: %s"), speaks_for);
  if (*against != '\0')
    {
      g_string_append (text, text->len > 0 ? " · " : "");
      g_string_append_printf (text, _("against: %s"), against);
    }
  if (cause->own != NULL)
    g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", cause->own);
  if (text->len == 0)
    g_string_append (text, hs_show_data (cause->source));
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static const char *
standing_word (HsNextStanding standing)
{
  static const char *const words[] = {
    [HS_NEXT_MOST_LIKELY] = N_("most likely"), [HS_NEXT_POSSIBLE] = N_("possible"),
    [HS_NEXT_UNLIKELY] = N_("unlikely"),       [HS_NEXT_RULED_OUT] = N_("ruled out"),
    [HS_NEXT_PROVEN] = N_("proven"),           [HS_NEXT_REPAIRED] = N_("repaired"),
  };

  return _(words[standing]);
}

static void
append_cause (HsNextPane *self, const HsNextCause *cause)
{
  GtkWidget *box = row_box_new ();
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *name = label_new (hs_show_data (cause->name), "hs-strong");
  GtkWidget *word = label_new (standing_word (cause->standing), NULL);
  g_autofree char *evidence = dup_evidence (cause);
  GtkWidget *about = label_new (evidence, "hs-caption");
  g_autofree char *spoken = g_strdup_printf ("%s, %s. %s", hs_show_data (cause->name),
                                             standing_word (cause->standing), evidence);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (box),
                                  self->narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_spacing (GTK_BOX (box), self->narrow ? 0 : 14);
  gtk_widget_set_hexpand (name, self->narrow);
  gtk_label_set_width_chars (GTK_LABEL (word), 9);
  gtk_widget_set_valign (name, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (head), name);
  gtk_box_append (GTK_BOX (head), word);
  if (!self->narrow)
    {
      gtk_label_set_width_chars (GTK_LABEL (name), 19);
      gtk_label_set_max_width_chars (GTK_LABEL (name), 19);
      gtk_widget_set_hexpand (about, TRUE);
      gtk_size_group_add_widget (self->heads, head);
    }
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), about);
  append_row (self->causes, cause->id, box, spoken);
}

/* --- The whole --------------------------------------------------------------------------------------------------- */

static void
put_steps (HsNextPane *self, const HsJobNext *next, HsNextKeys keys)
{
  clear_list (self->steps);
  for (guint i = 0; next != NULL && i < next->lines->len && i < MOST_STEPS; i++)
    append_step (self, g_ptr_array_index (next->lines, i), i == 0, keys);
  for (guint i = 0; next != NULL && i < next->offers->len; i++)
    append_offer (self, g_ptr_array_index (next->offers, i));
  gtk_widget_set_visible (GTK_WIDGET (self->steps), gtk_list_box_get_row_at_index (self->steps, 0) != NULL);
}

static void
put_list_minutes (HsNextPane *self, const HsJobNext *next)
{
  g_autofree char *text = NULL;

  if (next != NULL && next->lines->len > 0 && next->list_minutes >= 0)
    text = g_strdup_printf (_("Average minutes until fixed. In list order: %.0f"), next->list_minutes);
  gtk_label_set_label (self->list, text != NULL ? text : _("Average minutes until fixed"));
}

/* Those that are unlikely and have no row, by name. */
static void
put_rest (HsNextPane *self, const HsJobNext *next, guint from)
{
  g_autoptr (GString) names = g_string_new (NULL);
  g_autofree char *text = NULL;

  for (guint i = from; i < next->causes->len; i++)
    {
      const HsNextCause *cause = g_ptr_array_index (next->causes, i);

      g_string_append_printf (names, "%s%s", names->len > 0 ? "; " : "", hs_show_data (cause->name));
    }
  if (names->len > 0)
    /* Translators: causes that are unlikely or ruled out, with semicolons between. */
    text = g_strdup_printf (_("Less likely, or ruled out: %s."), names->str);
  set_shown (self->rest, text);
}

static void
put_causes (HsNextPane *self, const HsJobNext *next)
{
  guint n = 0;

  clear_list (self->causes);
  for (; next != NULL && n < next->causes->len && n < MOST_CAUSES; n++)
    append_cause (self, g_ptr_array_index (next->causes, n));
  gtk_widget_set_visible (self->standing, n > 0);
  if (next != NULL)
    put_rest (self, next, n);
}

void
hs_next_pane_set (HsNextPane *self, const HsJobNext *next, HsNextKeys keys)
{
  g_autofree char *step = NULL;
  g_autofree char *cause = NULL;

  g_return_if_fail (HS_IS_NEXT_PANE (self));

  step = g_strdup (focused_id (self->steps));
  cause = g_strdup (focused_id (self->causes));
  set_shown (self->name, next != NULL && next->nothing == NULL ? hs_show_data (next->name) : NULL);
  put_steps (self, next, keys);
  put_list_minutes (self, next);
  put_causes (self, next);
  set_shown (self->battery, next != NULL ? next->battery : NULL);
  set_shown (self->nothing, next != NULL ? next->nothing : _("The job is over; nothing is left to check."));
  set_shown (self->trouble, next != NULL ? next->trouble : NULL);
  focus_id (self->steps, step);
  focus_id (self->causes, cause);
}

void
hs_next_pane_set_narrow (HsNextPane *self, gboolean narrow)
{
  g_return_if_fail (HS_IS_NEXT_PANE (self));

  self->narrow = narrow;
}

static void
step_cb (HsNextPane *self, GtkListBoxRow *row)
{
  g_signal_emit (self, signals[CHECK_CHOSEN], 0, g_object_get_data (G_OBJECT (row), "id"));
}

static void
cause_cb (HsNextPane *self, GtkListBoxRow *row)
{
  g_signal_emit (self, signals[CAUSE_CHOSEN], 0, g_object_get_data (G_OBJECT (row), "id"));
}

static void
hs_next_pane_finalize (GObject *object)
{
  g_clear_object (&HS_NEXT_PANE (object)->heads);
  G_OBJECT_CLASS (hs_next_pane_parent_class)->finalize (object);
}

static void
hs_next_pane_class_init (HsNextPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_next_pane_finalize;
  signals[CHECK_CHOSEN] = g_signal_new ("check-chosen", HS_TYPE_NEXT_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                        G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[CAUSE_CHOSEN] = g_signal_new ("cause-chosen", HS_TYPE_NEXT_PANE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                        G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-next-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, HsNextPane, name);
  gtk_widget_class_bind_template_child (widget_class, HsNextPane, steps);
  gtk_widget_class_bind_template_child (widget_class, HsNextPane, list);
  gtk_widget_class_bind_template_child (widget_class, HsNextPane, battery);
  gtk_widget_class_bind_template_child (widget_class, HsNextPane, standing);
  gtk_widget_class_bind_template_child (widget_class, HsNextPane, causes);
  gtk_widget_class_bind_template_child (widget_class, HsNextPane, rest);
  gtk_widget_class_bind_template_child (widget_class, HsNextPane, nothing);
  gtk_widget_class_bind_template_child (widget_class, HsNextPane, trouble);
  gtk_widget_class_bind_template_callback (widget_class, step_cb);
  gtk_widget_class_bind_template_callback (widget_class, cause_cb);
}

static void
hs_next_pane_init (HsNextPane *self)
{
  self->heads = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  gtk_widget_init_template (GTK_WIDGET (self));
}
