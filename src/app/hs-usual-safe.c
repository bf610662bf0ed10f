// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The safety list of a usual job: the digit of the last line that is so answers all that was read down to it, Enter the
 * first that is open. Whoever leaves has answered nothing more; the window asks it again. */

#include "hs-usual-window-private.h"

#include <glib/gi18n.h>

#include "hs-deed-usual.h"
#include "hs-safety-line.h"
#include "hs-show.h"

static const HsSafetySheet *
get_sheet (HsUsualWindow *self)
{
  const HsArrival *arrival = self->arrival != NULL ? hs_question_get (self->arrival) : NULL;

  return arrival != NULL ? arrival->safety : NULL;
}

/* It was gone through on this visit, and nothing of it is asked since: refused along with the work it is, and what is
 * not so stays so beside that. */
static gboolean
is_over (const HsSafetySheet *sheet)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    {
      const HsSafetyLine *line = g_ptr_array_index (sheet->lines, i);

      if (line->asked || line->not_so)
        return FALSE;
    }
  return sheet->visit_id != NULL && sheet->note != NULL;
}

/* What was gone through on this visit is not asked again. */
static void
arrival_cb (HsUsualWindow *self)
{
  const HsSafetySheet *sheet = get_sheet (self);

  if (self->step != HS_USUAL_SAFE)
    return;
  if (sheet != NULL && is_over (sheet))
    hs_usual_window_go_to (self, HS_USUAL_WHY);
  else
    hs_usual_window_ask (self, HS_USUAL_SAFE);
  if (sheet == NULL)
    hs_usual_window_tell (self, hs_question_get_trouble (self->arrival));
}

void
hs_usual_window_go_to_safe (HsUsualWindow *self)
{
  if (self->arrival == NULL)
    {
      self->arrival = hs_question_new (self->ledger, hs_ask_arrival, (GDestroyNotify) hs_arrival_free);
      g_signal_connect_object (self->arrival, "answered", G_CALLBACK (arrival_cb), self, G_CONNECT_SWAPPED);
    }
  hs_usual_window_go_to (self, HS_USUAL_SAFE);
  hs_question_ask (self->arrival, g_variant_new ("(s)", self->job_id));
}

static void
answered_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;

  hs_usual_window_finish_task (asked, source, result, NULL);
}

static void
answer (HsUsualWindow *self, const HsSafetyLine *line, const char *answer)
{
  self->busy = TRUE;
  hs_deed_answer_usual_safe (self->ledger, self->job_id, line->id, answer,
                             self->moved ? HS_SAFETY_MOVED : HS_SAFETY_SAFE, answered_cb,
                             hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
refused_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsUsualWindow *self = hs_refusal_get_window (asked);

  if (!hs_usual_window_finish_task (asked, source, result, NULL))
    return;
  if (self->home != NULL)
    hs_window_toast (self->home, _("Work refused: not safe here. Call it off by its stage, or go on once it is safe."),
                     NULL, NULL);
  gtk_window_close (GTK_WINDOW (self));
}

static void
refuse (HsUsualWindow *self)
{
  self->busy = TRUE;
  hs_deed_finish_usual_safe (self->ledger, self->job_id, HS_SAFETY_REFUSED, _("not safe here"), refused_cb,
                             hs_refusal_expect (GTK_WINDOW (self), NULL));
}

/* Returns: (nullable): the first line that is open. */
static const HsSafetyLine *
get_asked (const HsSafetySheet *sheet)
{
  for (guint i = 0; i < sheet->lines->len; i++)
    if (((const HsSafetyLine *) g_ptr_array_index (sheet->lines, i))->asked)
      return g_ptr_array_index (sheet->lines, i);
  return NULL;
}

/* What is answered is asked again. */
static void
press_item (HsUsualWindow *self, guint nth)
{
  const HsSafetySheet *sheet = get_sheet (self);
  const HsSafetyLine *line = nth < sheet->lines->len ? g_ptr_array_index (sheet->lines, nth) : NULL;

  if (line != NULL)
    answer (self, line, line->asked ? "down_to" : NULL);
}

/* Moved first: it is said with the last answer. */
static void
press_moved (HsUsualWindow *self)
{
  self->moved = !self->moved;
  hs_usual_window_ask (self, HS_USUAL_SAFE);
}

gboolean
hs_usual_window_press_safe (HsUsualWindow *self, char sign)
{
  const HsSafetySheet *sheet = get_sheet (self);
  const HsSafetyLine *asked = sheet != NULL ? get_asked (sheet) : NULL;

  /* Nobody says yes to a list that is not there yet, nor, by Enter, to what is not so. */
  if (sheet == NULL || (asked == NULL && sign == '\n'))
    return sign != '\0';
  if (sign >= '1' && sign <= '9')
    press_item (self, (guint) (sign - '1'));
  else if (sign == '\n')
    answer (self, asked, "done");
  else if (sign == '0' && asked != NULL)
    answer (self, asked, "not_so");
  else if (sign == '*' && asked != NULL)
    answer (self, asked, "not_here");
  else if (sign == '+')
    press_moved (self);
  else if (sign == '/')
    refuse (self);
  else
    return FALSE;
  return TRUE;
}

static void
line_clicked_cb (HsUsualWindow *self, HsSafetyLineButton *line)
{
  if (!self->busy)
    press_item (self, hs_safety_line_button_get_nth (line));
}

static void
add_line (HsUsualWindow *self, guint nth, const HsSafetyLine *shown)
{
  GtkWidget *line = hs_safety_line_button_new (nth);

  hs_safety_line_button_set_source_shown (HS_SAFETY_LINE_BUTTON (line), FALSE);
  hs_safety_line_button_set_caution_shown (HS_SAFETY_LINE_BUTTON (line), shown->not_so);
  hs_safety_line_button_show (HS_SAFETY_LINE_BUTTON (line), shown);
  g_signal_connect_object (line, "clicked", G_CALLBACK (line_clicked_cb), self, G_CONNECT_SWAPPED);
  gtk_box_append (self->answers, line);
}

/* The keys that answer one line name it. */
static void
add_keys (HsUsualWindow *self, const HsSafetyLine *asked)
{
  const char *brief = hs_show_data (asked->brief);
  /* Translators: a point of the safety list, in a word or two: "Traffic". */
  g_autofree char *so = g_strdup_printf (_("%s: it is so"), brief);
  /* Translators: a point of the safety list, in a word or two: "Traffic". */
  g_autofree char *not_so = g_strdup_printf (_("%s: not so"), brief);
  /* Translators: a point of the safety list, in a word or two: "Traffic". */
  g_autofree char *not_here = g_strdup_printf (_("%s: does not apply here"), brief);

  hs_usual_window_add_answer (self, "Enter", '\n', so, FALSE);
  hs_usual_window_add_answer (self, "0", '0', not_so, FALSE);
  if (!asked->high_voltage)
    hs_usual_window_add_answer (self, "*", '*', not_here, FALSE);
}

void
hs_usual_window_show_safe (HsUsualWindow *self)
{
  const HsSafetySheet *sheet = get_sheet (self);
  const HsSafetyLine *asked;

  if (sheet == NULL)
    return;
  asked = get_asked (sheet);
  if (asked != NULL && asked->high_voltage)
    hs_usual_window_add_note (self, _("High voltage: each of its lines by itself, before anything is measured."));
  else if (asked != NULL)
    hs_usual_window_add_note (self, _("Read down the list: the digit of the last line that is so answers all above "
                                      "it."));
  for (guint i = 0; i < sheet->lines->len; i++)
    add_line (self, i, g_ptr_array_index (sheet->lines, i));
  if (asked != NULL)
    add_keys (self, asked);
  hs_usual_window_add_answer (self, "+", '+', self->moved ? _("Not moved") : _("Moved first"), FALSE);
  hs_usual_window_add_answer (self, "/", '/', _("Refused: not safe here"), FALSE);
}
