// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What to check next, on the findings page. The list is walked line by line as long as nobody asks for more; Enter on
 * an empty field, or a row of the panel, follows what is best next, and from then on each reading that is stored leads
 * to the next best, until another line is chosen. */

#include "hs-findings-private.h"

#include <glib/gi18n.h>

#include "hs-cause-window.h"
#include "hs-deed-next.h"
#include "hs-job-left.h"
#include "hs-pad-key.h"
#include "hs-show.h"

const HsJobNext *
hs_findings_get_next (HsFindings *self)
{
  const HsJobShot *shot = hs_findings_get_shot (self);

  if (shot == NULL || shot->nexts == NULL || shot->nexts->len == 0)
    return NULL;
  for (guint i = 0; i < shot->nexts->len; i++)
    {
      const HsJobNext *next = g_ptr_array_index (shot->nexts, i);

      if (self->symptom != NULL && g_strcmp0 (next->group, self->symptom) == 0)
        return next;
    }
  return g_ptr_array_index (shot->nexts, 0);
}

const char *
hs_findings_best_check (HsFindings *self)
{
  const HsJobNext *next = hs_findings_get_next (self);

  return self->phase == 0 && next != NULL ? hs_job_next_check (next) : NULL;
}

gboolean
hs_findings_is_best (HsFindings *self, const HsReadingResult *result)
{
  const char *best = hs_findings_best_check (self);

  return best != NULL && result != NULL && g_str_equal (result->check, best);
}

char *
hs_findings_dup_best_minutes (HsFindings *self)
{
  const HsJobNext *next = hs_findings_get_next (self);
  const HsNextLine *first = next != NULL && next->lines->len > 0 ? g_ptr_array_index (next->lines, 0) : NULL;

  return first != NULL ? g_strdup_printf (_("next best: %.0f min"), first->expected_minutes) : NULL;
}

char *
hs_findings_dup_beside (HsFindings *self, const HsReadingResult *result)
{
  static const HsTongue tongue = { gettext, ngettext };
  const HsJobNext *next = hs_findings_get_next (self);
  HsChecks *checks = hs_ledger_get_checks (hs_page_get_ledger (HS_PAGE (self)));

  /* What is only typed is not known yet. */
  if (next == NULL || checks == NULL || self->phase == 2 || result->id == NULL)
    return NULL;
  return hs_job_next_beside (next, checks, (const char *const *) result->then, &tongue);
}

/* Where on the sheet that is shown a check stands. */
static gboolean
find_line (HsFindings *self, const char *check_id, guint *ret_line)
{
  GPtrArray *sheet = hs_findings_get_sheet (self);

  for (guint i = 0; sheet != NULL && i < sheet->len; i++)
    if (g_str_equal (((const HsReadingResult *) g_ptr_array_index (sheet, i))->check, check_id))
      {
        *ret_line = i;
        return TRUE;
      }
  return FALSE;
}

/* The line of a reading that was outside and is to be taken again, or is outside still. */
static gboolean
find_line_of (HsFindings *self, const HsProveItem *item, guint *ret_line)
{
  GPtrArray *sheet = hs_findings_get_sheet (self);

  if (item->kind != HS_PROVE_READ_AGAIN && item->kind != HS_PROVE_STILL_OUTSIDE)
    return FALSE;
  for (guint i = 0; i < sheet->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (sheet, i);

      if (g_strcmp0 (row->check, item->check) != 0 || g_strcmp0 (row->place, item->place) != 0)
        continue;
      *ret_line = i;
      return TRUE;
    }
  return FALSE;
}

gboolean
hs_findings_to_do (HsFindings *self, gboolean but_this, guint *ret_line)
{
  const HsJobShot *shot = hs_findings_get_shot (self);
  GPtrArray *missing;
  guint line;

  if (self->phase != 2 || shot == NULL || shot->repair == NULL || hs_findings_get_sheet (self) == NULL)
    return FALSE;
  missing = shot->repair->repair->missing;
  for (guint i = 0; i < missing->len; i++)
    if (find_line_of (self, g_ptr_array_index (missing, i), &line) && !(but_this && line == self->line))
      {
        *ret_line = line;
        return TRUE;
      }
  return FALSE;
}

const HsReadingResult *
hs_findings_best_line (HsFindings *self, guint *ret_line)
{
  const char *best = hs_findings_best_check (self);
  guint line;

  if (best == NULL || !find_line (self, best, &line))
    return NULL;
  *ret_line = line;
  return g_ptr_array_index (hs_findings_get_sheet (self), line);
}

void
hs_findings_follow (HsFindings *self, const char *check_id)
{
  guint line;

  if (self->phase != 0)
    hs_findings_set_phase (self, 0);
  if (!find_line (self, check_id, &line))
    return;
  hs_findings_go_to_line (self, line);
  self->follows = TRUE;
  hs_findings_update_entry (self);
}

void
hs_findings_take_stored (HsFindings *self)
{
  GPtrArray *sheet = hs_findings_get_sheet (self);
  gboolean stands = FALSE;
  const char *best;

  if (self->stored_id == NULL)
    return;
  for (guint i = 0; sheet != NULL && i < sheet->len; i++)
    stands = stands || g_strcmp0 (((const HsReadingResult *) g_ptr_array_index (sheet, i))->id, self->stored_id) == 0;
  /* A reading that was taken back meanwhile never comes. */
  if (!stands && ++self->n_missed < 2)
    return;
  self->n_missed = 0;
  g_clear_pointer (&self->stored_id, g_free);
  self->storing = FALSE;
  best = hs_findings_best_check (self);
  if (best != NULL)
    hs_findings_follow (self, best);
  hs_findings_press_waiting (self);
}

/* --- The panel --------------------------------------------------------------------------------------------------- */

static HsNextKeys
keys_of (HsFindings *self)
{
  const HsReadingResult *best;
  guint line;

  best = hs_findings_best_line (self, &line);
  if (best == NULL || line == self->line || self->asked != NULL || self->asks_why || self->doubt != NULL)
    return HS_NEXT_KEYS_NONE;
  if (self->text->len == 0)
    return HS_NEXT_KEYS_ENTER;
  return hs_findings_then (self, NULL) == best ? HS_NEXT_KEYS_STORE : HS_NEXT_KEYS_TWICE;
}

/* (transfer full) (nullable): what is best next and how long it takes until the complaint is gone. */
static char *
dup_best (HsFindings *self)
{
  const HsJobNext *next = hs_findings_get_next (self);
  const HsNextLine *first = next != NULL && next->lines->len > 0 ? g_ptr_array_index (next->lines, 0) : NULL;
  const HsReadingResult *result = hs_findings_get_result (self);

  if (first == NULL || self->phase != 0)
    return NULL;
  if (!first->is_check)
    return g_strdup_printf (_("Next best: repair %s, %.0f min"), hs_show_data (first->name), first->expected_minutes);
  if (result != NULL && g_str_equal (result->check, first->id))
    return g_strdup_printf (_("This is the next best check, %.0f min"), first->expected_minutes);
  return g_strdup_printf (_("Next best: %s, %.0f min"), hs_show_data (first->name), first->expected_minutes);
}

/* What is not safe yet comes first, and large text has room for one line over the list. */
static gboolean
is_unsafe (HsFindings *self)
{
  const HsJobShot *shot = hs_findings_get_shot (self);
  g_autofree char *unsafe = shot != NULL ? hs_job_left_dup_unsafe (shot) : NULL;

  return unsafe != NULL;
}

/* One line that is always in sight, for the panel may lie below the edge. */
static void
update_best (HsFindings *self, HsNextKeys keys)
{
  g_autofree char *best = is_unsafe (self) ? NULL : dup_best (self);

  gtk_widget_set_visible (GTK_WIDGET (self->best_button), best != NULL);
  hs_key_button_set_text (self->best_button, best != NULL ? best : "");
  hs_key_button_set_key (self->best_button, keys == HS_NEXT_KEYS_ENTER ? _("Enter") : NULL);
}

void
hs_findings_follow_best_cb (HsFindings *self)
{
  const char *best = hs_findings_best_check (self);

  if (best != NULL && self->text->len == 0 && !self->storing)
    hs_findings_follow (self, best);
  gtk_widget_grab_focus (self->field);
}

void
hs_findings_update_next (HsFindings *self, gboolean anew)
{
  HsNextKeys keys = keys_of (self);

  update_best (self, keys);

  if (!anew && keys == self->next_keys)
    return;
  self->next_keys = keys;
  hs_next_pane_set_narrow (self->next, hs_page_get_narrow (HS_PAGE (self)));
  hs_next_pane_set (self->next, hs_findings_get_next (self), keys);
}

void
hs_findings_check_chosen_cb (HsFindings *self, const char *check_id)
{
  if (check_id == NULL)
    return;
  hs_findings_follow (self, check_id);
  gtk_widget_grab_focus (self->field);
}

void
hs_findings_cause_chosen_cb (HsFindings *self, const char *cause_id)
{
  const HsJobNext *next = hs_findings_get_next (self);

  for (guint i = 0; next != NULL && i < next->causes->len; i++)
    {
      const HsNextCause *cause = g_ptr_array_index (next->causes, i);

      if (g_strcmp0 (cause->id, cause_id) == 0)
        {
          hs_cause_window_present (HS_PAGE (self), self->job_id, next, cause);
          return;
        }
    }
}

/* --- One more complaint ------------------------------------------------------------------------------------------ */

static void
added_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsFindings) self = HS_FINDINGS (data);
  g_autoptr (GError) error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    hs_page_tell (HS_PAGE (self), error->message);
}

/* One that the job has is shown; any other is added, and shown once it is there. */
void
hs_findings_choose_symptom (HsFindings *self, const char *group)
{
  const HsJobShot *shot = hs_findings_get_shot (self);

  self->adds_symptom = FALSE;
  g_free (self->symptom);
  self->symptom = g_strdup (group);
  for (guint i = 0; shot != NULL && shot->nexts != NULL && i < shot->nexts->len; i++)
    if (g_strcmp0 (((const HsJobNext *) g_ptr_array_index (shot->nexts, i))->group, group) == 0)
      {
        hs_findings_show_sheet (self);
        return;
      }
  hs_deed_add_symptom (hs_page_get_ledger (HS_PAGE (self)), self->job_id, group, added_cb, g_object_ref (self));
  hs_findings_show_sheet (self);
}

void
hs_findings_show_sheet (HsFindings *self)
{
  gtk_label_set_label (self->groups_title,
                       self->adds_symptom ? _("What else does it do, or not do?") : _("What does it do, or not do?"));
  gtk_label_set_label (self->groups_about,
                       self->adds_symptom
                         ? _("Each complaint is looked at by itself: two faults are common. Esc goes back.")
                         : _("The answer lays out the readings to take."));
  hs_findings_update_lines (self);
  hs_findings_update_entry (self);
  hs_findings_update_next (self, TRUE);
  if (!self->adds_symptom)
    hs_findings_focus (self);
}

static void
add_symptom (HsFindings *self, gboolean adds)
{
  self->adds_symptom = adds && hs_findings_get_result (self) != NULL && hs_findings_get_next (self) != NULL;
  hs_findings_show_sheet (self);
}

gboolean
hs_findings_press_symptom (HsFindings *self, guint keyval)
{
  if (keyval == GDK_KEY_Insert || keyval == GDK_KEY_KP_Insert)
    add_symptom (self, !self->adds_symptom);
  else if (self->adds_symptom && (keyval == GDK_KEY_Escape || hs_pad_key_sign (keyval) == '-'))
    add_symptom (self, FALSE);
  else
    return FALSE;
  return TRUE;
}

void
hs_findings_turn_symptom (HsFindings *self)
{
  g_return_if_fail (HS_IS_FINDINGS (self));

  if (hs_findings_is_frozen (self))
    hs_page_tell (HS_PAGE (self), hs_page_say_frozen ());
  else
    add_symptom (self, !self->adds_symptom);
}
