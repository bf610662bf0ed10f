// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The safety list of a usual job: one key for whoever looked round, a digit for an item by itself. Whoever leaves has
 * answered nothing; the window asks it again. */

#include "hs-usual-window-private.h"

#include <glib/gi18n.h>

#include "hs-deed-usual.h"
#include "hs-safety-line.h"

static const HsSafetySheet *
get_sheet (HsUsualWindow *self)
{
  const HsArrival *arrival = self->arrival != NULL ? hs_question_get (self->arrival) : NULL;

  return arrival != NULL ? arrival->safety : NULL;
}

/* What was gone through on this visit is not asked again. */
static void
arrival_cb (HsUsualWindow *self)
{
  const HsSafetySheet *sheet = get_sheet (self);

  if (self->step != HS_USUAL_SAFE)
    return;
  if (sheet != NULL && sheet->visit_id != NULL && sheet->n_open == 0 && sheet->note != NULL)
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

typedef struct
{
  HsRefusal *asked;
  HsSafetyEnd end;
  gboolean item;
} Safe;

static void
safe_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Safe *safe = data;
  g_autoptr (HsRefusal) asked = safe->asked;
  HsUsualWindow *self = hs_refusal_get_window (asked);

  if (!hs_usual_window_finish_task (asked, source, result, NULL) || safe->item)
    return;
  if (safe->end != HS_SAFETY_REFUSED)
    {
      hs_usual_window_go_to (self, HS_USUAL_WHY);
      return;
    }
  if (self->home != NULL)
    hs_window_toast (self->home, _("Work refused: not safe here. Call it off by its stage, or go on once it is safe."),
                     NULL, NULL);
  gtk_window_close (GTK_WINDOW (self));
}

static void
make_safe (HsUsualWindow *self, const char *item, HsSafetyEnd end)
{
  Safe *safe = g_new0 (Safe, 1);

  safe->asked = hs_refusal_expect (GTK_WINDOW (self), NULL);
  safe->end = end;
  safe->item = item != NULL;
  self->busy = TRUE;
  hs_deed_make_usual_safe (self->ledger, self->job_id, item, end,
                           end == HS_SAFETY_REFUSED ? _("not safe here") : NULL, safe_cb, safe);
}

static void
press_item (HsUsualWindow *self, guint nth)
{
  const HsSafetySheet *sheet = get_sheet (self);

  if (sheet != NULL && nth < sheet->lines->len)
    make_safe (self, ((const HsSafetyLine *) g_ptr_array_index (sheet->lines, nth))->id, HS_SAFETY_SAFE);
}

gboolean
hs_usual_window_press_safe (HsUsualWindow *self, char sign)
{
  /* Nobody says yes to a list that is not there yet. */
  if (get_sheet (self) == NULL)
    return sign != '\0';
  if (sign >= '1' && sign <= '9')
    press_item (self, (guint) (sign - '1'));
  else if (sign == '\n')
    make_safe (self, NULL, HS_SAFETY_SAFE);
  else if (sign == '+')
    make_safe (self, NULL, HS_SAFETY_MOVED);
  else if (sign == '/')
    make_safe (self, NULL, HS_SAFETY_REFUSED);
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

void
hs_usual_window_show_safe (HsUsualWindow *self)
{
  const HsSafetySheet *sheet = get_sheet (self);

  if (sheet == NULL)
    return;
  hs_usual_window_add_answer (self, "Enter", '\n', _("Safe here"), TRUE);
  for (guint i = 0; i < sheet->lines->len; i++)
    {
      GtkWidget *line = hs_safety_line_button_new (i);

      hs_safety_line_button_set_source_shown (HS_SAFETY_LINE_BUTTON (line), FALSE);
      hs_safety_line_button_set_caution_shown (HS_SAFETY_LINE_BUTTON (line), FALSE);
      hs_safety_line_button_show (HS_SAFETY_LINE_BUTTON (line), g_ptr_array_index (sheet->lines, i));
      g_signal_connect_object (line, "clicked", G_CALLBACK (line_clicked_cb), self, G_CONNECT_SWAPPED);
      gtk_box_append (self->answers, line);
    }
  hs_usual_window_add_answer (self, "+", '+', _("Moved, and safe now"), FALSE);
  hs_usual_window_add_answer (self, "/", '/', _("Refused: not safe here"), FALSE);
}
