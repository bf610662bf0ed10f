// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The customer's page. Lint keeps every header that knows more of a job than the snapshot out of this file.
 *
 *   hs_ask_customer ─▶ HsCustomerShot ─▶ head · readings · why · options · total · signature */

#include "hs-customer-window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "hs-answer-window.h"
#include "hs-ask-customer.h"
#include "hs-chip.h"
#include "hs-gauge.h"
#include "hs-choice-card.h"
#include "hs-key-button.h"
#include "hs-flow-layout.h"
#include "hs-pad-key.h"
#include "hs-question.h"
#include "hs-room.h"
#include "hs-show.h"
#include "hs-spoken.h"
#include "hs-verdict-label.h"
#include "hs-window.h"
#include "hs-wide-layout.h"

struct _HsCustomerWindow
{
  AdwWindow parent_instance;

  HsRoom *room;
  GtkBox *head;
  HsPlateChip *plate;
  GtkLabel *words;
  GtkLabel *vehicle;
  GtkLabel *number;
  GtkBox *columns;
  GtkBox *readings;
  GtkGrid *others;
  GtkBox *why;
  GtkLabel *choose;
  GtkBox *cards;
  GtkLabel *total;
  GtkLabel *lacks;
  GtkLabel *ceiling;
  GtkLabel *over;
  HsSignaturePad *pad;
  GtkWidget *write;

  HsLedger *ledger;
  HsQuestion *ask;
  guint picked; /* 0: none */
};

G_DEFINE_FINAL_TYPE (HsCustomerWindow, hs_customer_window, ADW_TYPE_WINDOW)

static const HsCustomerShot *
get_shot (HsCustomerWindow *self)
{
  return self->ask == NULL ? NULL : hs_question_get (self->ask);
}

static void
clear_box (GtkBox *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

static GtkWidget *
add_label (GtkWidget *box, const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

/* Readings --------------------------------------------------------------------------------------------------------- */

/* "12.30 V" as a large figure with a small unit; words stay words. */
static void
add_value (GtkWidget *row, const char *value)
{
  const char *blank = strrchr (value, ' ');
  gboolean figure = g_ascii_isdigit (*value) && blank != NULL && !g_ascii_isdigit (blank[1]);
  g_autofree char *front = figure ? g_strndup (value, (gsize) (blank - value)) : g_strdup (value);
  GtkWidget *label = add_label (row, front, "hs-customer-figure");

  gtk_label_set_wrap (GTK_LABEL (label), !figure);
  if (!figure)
    return;
  label = add_label (row, blank + 1, "hs-customer-unit");
  gtk_label_set_wrap (GTK_LABEL (label), FALSE);
  gtk_widget_set_valign (label, GTK_ALIGN_END);
}

static void
add_verdict (GtkWidget *row, const char *verdict, const char *word)
{
  GtkWidget *label;

  if (word == NULL)
    return;
  label = hs_verdict_label_new (word, hs_show_verdict_shape (verdict, word));
  gtk_widget_set_valign (label, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (row), label);
}

static gboolean
is_outside (const char *verdict)
{
  return g_strcmp0 (verdict, "outside") == 0;
}

/* The reading that answers the page's question: the first that was outside, best with one afterwards. */
static guint
find_main (const HsCustomerShot *shot)
{
  guint found = 0;
  int best = -1;

  for (guint i = 0; i < shot->readings->len; i++)
    {
      const HsCustomerReading *reading = g_ptr_array_index (shot->readings, i);
      int worth = (is_outside (reading->before_verdict) ? 2 : 0) + (reading->before != NULL && reading->after != NULL);

      if (worth > best)
        {
          best = worth;
          found = i;
        }
    }
  return found;
}

/* Side by side, as far as there is room. */
static GtkWidget *
flow_new (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  gtk_widget_set_layout_manager (box, g_object_new (HS_TYPE_FLOW_LAYOUT, "start", TRUE, NULL));
  return box;
}

/* A value with its verdict; @arrow: it came of the one before. */
static GtkWidget *
value_new (const char *value, const char *verdict, const char *word, gboolean arrow)
{
  GtkWidget *box = flow_new ();

  if (arrow)
    gtk_label_set_wrap (GTK_LABEL (add_label (box, "→", "hs-customer-arrow")), FALSE);
  add_value (box, value);
  add_verdict (box, verdict, word);
  return box;
}

static char *
dup_note (const HsCustomerReading *reading)
{
  return hs_show_joined (reading->before_note != NULL ? reading->before_note : "",
                         reading->after_note != NULL ? "→" : "",
                         reading->after_note != NULL ? reading->after_note : "", NULL);
}

static HsGaugeBand
band_of (HsVerdict verdict)
{
  switch (verdict)
    {
    case HS_VERDICT_WITHIN:
      return HS_GAUGE_BAND_WITHIN;
    case HS_VERDICT_WATCH:
      return HS_GAUGE_BAND_WATCH;
    case HS_VERDICT_OUTSIDE:
      return HS_GAUGE_BAND_OUTSIDE;
    case HS_VERDICT_CANNOT_TELL:
    case HS_VERDICT_DEPENDS:
    default:
      return HS_GAUGE_BAND_NOT_JUDGED;
    }
}

/* The reading on its limits; the needle is hollow where it was before. */
static void
show_scale (HsCustomerWindow *self, const HsCustomerReading *reading)
{
  const HsCustomerScale *scale = reading->scale;
  GtkWidget *gauge;
  g_autofree char *say = NULL;

  if (scale == NULL)
    return;
  gauge = hs_gauge_new ();
  hs_gauge_set_scale (HS_GAUGE (gauge), scale->from, scale->to, scale->logarithmic);
  for (guint i = 0; i < scale->bands->len; i++)
    {
      const HsCustomerBand *band = &g_array_index (scale->bands, HsCustomerBand, i);

      hs_gauge_add_band (HS_GAUGE (gauge), band_of (band->verdict), band->to,
                         hs_show_verdict (hs_verdict_word (band->verdict)));
      if (band->limit != NULL)
        hs_gauge_add_tick (HS_GAUGE (gauge), band->to, band->limit);
    }
  say = hs_show_joined (hs_show_data (reading->name),
                        hs_show_data (reading->after != NULL ? reading->after : reading->before),
                        hs_show_verdict (reading->after != NULL ? reading->after_word : reading->before_word), NULL);
  hs_gauge_set_needle (HS_GAUGE (gauge), TRUE, scale->now, say);
  hs_gauge_set_before (HS_GAUGE (gauge), scale->has_before, scale->before);
  hs_gauge_set_compact (HS_GAUGE (gauge), hs_room_get_cramped (self->room));
  gtk_box_append (self->readings, gauge);
}

/* The one that answers the page's question has its figures under its name. */
static void
show_main (HsCustomerWindow *self, const HsCustomerReading *reading)
{
  gboolean stacked = hs_room_get_cramped (self->room);
  GtkWidget *values
      = gtk_box_new (stacked ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL, stacked ? 2 : 16);
  g_autofree char *name = hs_show_joined (hs_show_data (reading->name), reading->place != NULL ? reading->place : "",
                                           NULL);
  g_autofree char *note = dup_note (reading);

  add_label (GTK_WIDGET (self->readings), name, "hs-title");
  if (reading->before != NULL)
    gtk_box_append (GTK_BOX (values),
                    value_new (reading->before, reading->before_verdict, reading->before_word, FALSE));
  if (reading->after != NULL)
    gtk_box_append (GTK_BOX (values), value_new (reading->after, reading->after_verdict, reading->after_word,
                                                 reading->before != NULL));
  gtk_box_append (self->readings, values);
  show_scale (self, reading);
  if (*note != '\0')
    add_label (GTK_WIDGET (self->readings), note, "hs-body");
}

static void
attach (HsCustomerWindow *self, GtkWidget *child, int column, int row, int width)
{
  gtk_widget_set_valign (child, GTK_ALIGN_CENTER);
  gtk_widget_set_halign (child, GTK_ALIGN_START);
  gtk_grid_attach (self->others, child, column, row, width, 1);
}

static GtkWidget *
label_new (const char *text, const char *css)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, css);
  return label;
}

/* A number is never cut in two. */
static GtkWidget *
small_value_new (const char *value)
{
  GtkWidget *label = label_new (hs_show_data (value), "hs-customer-value");

  gtk_label_set_wrap (GTK_LABEL (label), !g_ascii_isdigit (*value));
  return label;
}

static void
attach_value (HsCustomerWindow *self, const char *value, const char *verdict, const char *word, int column, int row)
{
  attach (self, small_value_new (value), column, row, 1);
  attach (self, hs_verdict_label_new (word, hs_show_verdict_shape (verdict, word)), column + 1, row, 1);
}

/* In the hand what does not find room in the line goes into the next. */
static void
append_value (GtkWidget *box, const char *value, const char *verdict, const char *word)
{
  gtk_box_append (GTK_BOX (box), small_value_new (value));
  gtk_box_append (GTK_BOX (box), hs_verdict_label_new (word, hs_show_verdict_shape (verdict, word)));
}

static GtkWidget *
small_values_new (const HsCustomerReading *reading)
{
  GtkWidget *box = flow_new ();

  if (reading->before != NULL)
    append_value (box, reading->before, reading->before_verdict, reading->before_word);
  if (reading->before != NULL && reading->after != NULL)
    gtk_box_append (GTK_BOX (box), label_new ("→", "hs-customer-arrow"));
  if (reading->after != NULL)
    append_value (box, reading->after, reading->after_verdict, reading->after_word);
  return box;
}

/* One line each: what it is, then before and after as far as they were taken; where there is less room two lines. */
static void
add_other (HsCustomerWindow *self, const HsCustomerReading *reading, int *row)
{
  gboolean stacked = hs_room_get_cramped (self->room);
  g_autofree char *note = dup_note (reading);
  g_autofree char *name = hs_show_joined (hs_show_data (reading->name), reading->place != NULL ? reading->place : "",
                                           note, NULL);
  GtkWidget *label = label_new (name, "hs-body");
  int column = stacked ? 0 : 1;

  gtk_widget_set_hexpand (label, TRUE);
  attach (self, label, 0, *row, stacked ? 5 : 1);
  *row += stacked ? 1 : 0;
  if (hs_room_get_narrow (self->room))
    {
      gtk_grid_attach (self->others, small_values_new (reading), 0, (*row)++, 5, 1);
      return;
    }
  if (reading->before != NULL)
    attach_value (self, reading->before, reading->before_verdict, reading->before_word, column, *row);
  if (reading->before != NULL && reading->after != NULL)
    attach (self, label_new ("→", "hs-customer-arrow"), column + 2, *row, 1);
  if (reading->after != NULL)
    attach_value (self, reading->after, reading->after_verdict, reading->after_word,
                  column + (reading->before != NULL ? 3 : 0), *row);
  *row += 1;
}

static void
show_readings (HsCustomerWindow *self, const HsCustomerShot *shot)
{
  guint first = find_main (shot);
  GtkWidget *child;
  int row = 0;

  clear_box (self->readings);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->others))) != NULL)
    gtk_grid_remove (self->others, child);
  if (shot->readings->len > 0)
    show_main (self, g_ptr_array_index (shot->readings, first));
  for (guint i = 0; i < shot->readings->len; i++)
    if (i != first)
      add_other (self, g_ptr_array_index (shot->readings, i), &row);
  gtk_widget_set_visible (GTK_WIDGET (self->others), shot->readings->len > 1);
  clear_box (self->why);
  for (guint i = 0; i < shot->why->len; i++)
    add_label (GTK_WIDGET (self->why), g_ptr_array_index (shot->why, i), "hs-body");
  gtk_widget_set_visible (GTK_WIDGET (self->why), shot->why->len > 0);
}

/* Options ---------------------------------------------------------------------------------------------------------- */

static const HsCustomerChoice *
find_choice (const HsCustomerShot *shot, guint number)
{
  return shot != NULL && number >= 1 && number <= shot->choices->len
             ? g_ptr_array_index (shot->choices, number - 1) : NULL;
}

static guint
number_of (GtkWidget *card)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (card), "number"));
}

void
hs_customer_window_pick (HsCustomerWindow *self, guint number)
{
  const HsCustomerShot *shot;

  g_return_if_fail (HS_IS_CUSTOMER_WINDOW (self));

  shot = get_shot (self);
  if (find_choice (shot, number) == NULL || !shot->may_sign)
    return;
  self->picked = number;
  for (GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (self->cards)); card != NULL;
       card = gtk_widget_get_next_sibling (card))
    hs_choice_card_set_chosen (HS_CHOICE_CARD (card), number_of (card) == number);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "customer.write", TRUE);
}

static void
card_clicked_cb (HsCustomerWindow *self, GtkWidget *card)
{
  hs_customer_window_pick (self, number_of (card));
}

static const char *
rank_word (const char *rank)
{
  if (g_strcmp0 (rank, "best") == 0)
    return _("Best");
  if (g_strcmp0 (rank, "enough") == 0)
    return _("Enough");
  return g_strcmp0 (rank, "least") == 0 ? _("Least") : NULL;
}

static const char *
answer_word (const char *choice)
{
  if (g_str_equal (choice, "yes"))
    return _("Picked");
  if (g_str_equal (choice, "no"))
    return _("No");
  return g_str_equal (choice, "later") ? _("Later") : NULL;
}

static void
show_choices (HsCustomerWindow *self, const HsCustomerShot *shot)
{
  clear_box (self->cards);
  for (guint i = 0; i < shot->choices->len; i++)
    {
      const HsCustomerChoice *choice = g_ptr_array_index (shot->choices, i);
      g_autofree char *price = hs_show_money (self->ledger, choice->asked_cents);
      /* Translators: what may happen, in one sentence that the customer was told. */
      g_autofree char *risk = choice->risk != NULL ? g_strdup_printf (_("Risk: %s"), choice->risk) : NULL;
      GtkWidget *card = hs_choice_card_new (&(HsChoiceFace) {
        .number = choice->number, .rank = rank_word (choice->rank), .wording = choice->wording, .price = price,
        .risk = risk, .answer = answer_word (choice->choice),
        .chosen = self->picked == 0 ? g_str_equal (choice->choice, "yes") : self->picked == choice->number });

      g_object_set_data (G_OBJECT (card), "number", GUINT_TO_POINTER (choice->number));
      g_signal_connect_object (card, "clicked", G_CALLBACK (card_clicked_cb), self, G_CONNECT_SWAPPED);
      gtk_widget_add_css_class (card, "large");
      gtk_box_append (self->cards, card);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->choose), shot->choices->len > 0);
}

static void
show_sums (HsCustomerWindow *self, const HsCustomerShot *shot)
{
  g_autofree char *total = hs_show_money (self->ledger, shot->total_cents);
  g_autofree char *ceiling = hs_show_money (self->ledger, shot->ceiling_cents);
  g_autofree char *over = hs_show_money (self->ledger, shot->short_cents);
  /* Translators: a sum of money. */
  g_autofree char *agreed = g_strdup_printf (_("agreed up to %s"), ceiling);
  g_autofree char *more = g_strdup_printf (_("%s more than agreed"), over);
  /* A sum that is not all of it says so. */
  g_autofree char *lacks
      = g_strdup_printf (ngettext ("%u part has no price yet and is not in it.",
                                   "%u parts have no price yet and are not in it.", shot->n_unpriced),
                         shot->n_unpriced);

  gtk_label_set_label (self->lacks, lacks);
  gtk_widget_set_visible (GTK_WIDGET (self->lacks), shot->n_unpriced > 0);
  gtk_label_set_label (self->total, total);
  gtk_label_set_label (self->ceiling, agreed);
  gtk_widget_set_visible (GTK_WIDGET (self->ceiling), shot->ceiling_cents != HS_INT_NONE);
  gtk_label_set_label (self->over, more);
  gtk_widget_set_visible (GTK_WIDGET (self->over), shot->short_cents > 0);
}

static void
show_head (HsCustomerWindow *self, const HsCustomerShot *shot)
{
  g_autofree char *words = hs_show_quoted (shot->words);
  g_autofree char *day = shot->day == HS_DATE_NONE ? g_strdup ("") : hs_show_full_day (shot->day);
  g_autofree char *vehicle = hs_show_joined (shot->vehicle != NULL ? shot->vehicle : "", day, NULL);
  /* Translators: who signs. */
  g_autofree char *hint = g_strdup_printf (_("Sign here: %s"), shot->signer);

  hs_chip_set_text (HS_CHIP (self->plate), shot->plate);
  gtk_label_set_label (self->words, words);
  gtk_label_set_label (self->vehicle, vehicle);
  gtk_label_set_label (self->number, shot->number);
  hs_signature_pad_set_hint (self->pad, hint);
  gtk_widget_set_visible (GTK_WIDGET (self->pad), shot->may_sign);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "customer.write", shot->may_sign && self->picked > 0);
  gtk_widget_set_visible (gtk_widget_get_parent (self->write), shot->may_sign);
}

static void
show_all (HsCustomerWindow *self)
{
  const HsCustomerShot *shot = get_shot (self);

  if (shot == NULL)
    return;
  show_head (self, shot);
  show_readings (self, shot);
  show_choices (self, shot);
  show_sums (self, shot);
}

/* Writing ---------------------------------------------------------------------------------------------------------- */

static void
answered_cb (HsCustomerWindow *self)
{
  self->picked = 0;
  hs_signature_pad_clear (self->pad);
}

static void
write_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsCustomerWindow *self = HS_CUSTOMER_WINDOW (widget);
  const HsCustomerShot *shot = get_shot (self);
  const HsCustomerChoice *choice = find_choice (shot, self->picked);
  g_autoptr (GBytes) signature = hs_signature_pad_dup_bytes (self->pad);
  HsAnswerWindow *window;

  if (choice == NULL)
    return;
  window = hs_answer_window_present (GTK_WINDOW (self), self->ledger,
                                     &(HsAnswerAsk) { .choice_id = choice->id, .wording = choice->wording,
                                                      .risk = choice->risk, .who = shot->signer,
                                                      .asked_cents = choice->asked_cents,
                                                      .would_cents = choice->would_cents,
                                                      .would_short_cents = choice->would_short_cents,
                                                      .ceiling_cents = shot->ceiling_cents,
                                                      .signature = signature });
  hs_answer_window_answer (window, 1);
  g_signal_connect_object (window, "done", G_CALLBACK (answered_cb), self, G_CONNECT_SWAPPED);
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static gboolean
key_cb (HsCustomerWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (sign >= '1' && sign <= '9')
    hs_customer_window_pick (self, (guint) (sign - '0'));
  else if (sign == '\n' && self->picked > 0)
    gtk_widget_activate_action (GTK_WIDGET (self), "customer.write", NULL);
  else
    return GDK_EVENT_PROPAGATE;
  return GDK_EVENT_STOP;
}

/* Two columns where there is room, else one. */
static void
room_cb (HsCustomerWindow *self)
{
  gboolean narrow = hs_room_get_narrow (self->room);
  GtkOrientation across = narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL;

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->columns), across);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->head), across);
  gtk_box_set_homogeneous (self->columns, !narrow);
  gtk_widget_set_halign (GTK_WIDGET (self->plate), narrow ? GTK_ALIGN_START : GTK_ALIGN_FILL);
  gtk_widget_set_halign (GTK_WIDGET (self->number), narrow ? GTK_ALIGN_START : GTK_ALIGN_FILL);
  show_all (self);
}

static void
hs_customer_window_dispose (GObject *object)
{
  HsCustomerWindow *self = HS_CUSTOMER_WINDOW (object);

  g_clear_object (&self->ask);
  g_clear_object (&self->ledger);
  G_OBJECT_CLASS (hs_customer_window_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, room);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, head);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, plate);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, words);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, vehicle);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, number);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, columns);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, readings);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, others);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, why);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, choose);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, cards);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, total);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, lacks);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, ceiling);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, over);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, pad);
  gtk_widget_class_bind_template_child (widget_class, HsCustomerWindow, write);
}

static void
hs_customer_window_class_init (HsCustomerWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_customer_window_dispose;
  g_type_ensure (HS_TYPE_PLATE_CHIP);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_WIDE_LAYOUT);
  g_type_ensure (HS_TYPE_SIGNATURE_PAD);
  g_type_ensure (HS_TYPE_ROOM);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-customer-window.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, room_cb);
  gtk_widget_class_install_action (widget_class, "customer.write", NULL, write_action);
  gtk_widget_class_install_action (widget_class, "customer.close", NULL, close_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "customer.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F7, 0, "customer.close", NULL);
}

static void
hs_customer_window_init (HsCustomerWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "customer.write", FALSE);
}

HsCustomerWindow *
hs_customer_window_present (GtkWindow *over, HsLedger *ledger, const char *job_id)
{
  HsCustomerWindow *self;

  g_return_val_if_fail (HS_IS_LEDGER (ledger) && job_id != NULL, NULL);

  self = g_object_new (HS_TYPE_CUSTOMER_WINDOW, "transient-for", over, "destroy-with-parent", TRUE, NULL);
  self->ledger = g_object_ref (ledger);
  self->ask = hs_question_new (ledger, hs_ask_customer, (GDestroyNotify) hs_customer_shot_free);
  g_signal_connect_object (self->ask, "answered", G_CALLBACK (show_all), self, G_CONNECT_SWAPPED);
  if (over != NULL)
    gtk_window_set_default_size (GTK_WINDOW (self), gtk_widget_get_width (GTK_WIDGET (over)),
                                 gtk_widget_get_height (GTK_WIDGET (over)));
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_fullscreen (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  hs_question_ask (self->ask, g_variant_new ("(s)", job_id));
  return self;
}

HsSignaturePad *
hs_customer_window_get_pad (HsCustomerWindow *self)
{
  g_return_val_if_fail (HS_IS_CUSTOMER_WINDOW (self), NULL);

  return self->pad;
}

gboolean
hs_customer_window_is_shown (HsCustomerWindow *self)
{
  g_return_val_if_fail (HS_IS_CUSTOMER_WINDOW (self), FALSE);

  return get_shot (self) != NULL;
}
