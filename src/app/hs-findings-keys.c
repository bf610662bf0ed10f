// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the keys of the findings page do: digits fill the field, Enter stores, signs are over range, not measured, back,
 * what the verdict depends on (or, before anything is typed, the next phase) and a limit of the vehicle's own. */

#include "hs-findings-private.h"

#include <glib/gi18n.h>

#include "hs-deed.h"
#include "hs-job-left.h"
#include "hs-limit-window.h"
#include "hs-pad-key.h"

#define MOST_DIGITS 9
#define MOST_LETTERS 80
/* More than a hand keys while the book writes. */
#define MOST_WAITING 400

/* Why something could not be measured, by one digit. */
static const char *const reasons[] = {
  N_("cannot be reached"), N_("not safe here"), N_("tool not on hand"), N_("no time"), N_("does not apply"),
  N_("no power yet"),
};

const char *
hs_findings_get_reason (guint nth)
{
  return nth < G_N_ELEMENTS (reasons) ? reasons[nth] : NULL;
}

char *
hs_findings_dup_keyed (HsFindings *self, char **ret_place)
{
  const HsCheck *check = hs_findings_get_check (self);
  const char *at = self->text->str;

  if (ret_place != NULL)
    *ret_place = NULL;
  if (check == NULL || !hs_check_has_number (check))
    return g_strdup (at);
  while (*at != '\0' && !g_unichar_isalpha (g_utf8_get_char (at)))
    at = g_utf8_next_char (at);
  if (ret_place != NULL && *at != '\0')
    *ret_place = g_strstrip (g_strdup (at));
  return g_strchomp (g_strndup (self->text->str, (gsize) (at - self->text->str)));
}

gboolean
hs_findings_is_typed_well (HsFindings *self)
{
  const HsCheck *check = hs_findings_get_check (self);
  g_autofree char *keyed = hs_findings_dup_keyed (self, NULL);
  HsReading reading;

  return *keyed != '\0' && check != NULL && hs_check_read_pad (check, keyed, &reading, NULL);
}

/* The line of a check that @judged suggests, not read yet; else what is still to be read again; else the next line. */
static const HsReadingResult *
line_after (HsFindings *self, const HsReadingResult *judged, guint *ret_line)
{
  GPtrArray *sheet = hs_findings_get_sheet (self);
  guint line = self->line + 1;

  hs_findings_to_do (self, TRUE, &line);
  for (guint i = 0; sheet != NULL && judged != NULL && judged->then != NULL && i < sheet->len; i++)
    {
      const HsReadingResult *row = g_ptr_array_index (sheet, i);

      if (row->value_text != NULL || !g_strv_contains ((const char *const *) judged->then, row->check))
        continue;
      line = i;
      break;
    }
  if (sheet == NULL || line >= sheet->len)
    return NULL;
  if (ret_line != NULL)
    *ret_line = line;
  return g_ptr_array_index (sheet, line);
}

const HsReadingResult *
hs_findings_then (HsFindings *self, guint *ret_line)
{
  return line_after (self, self->text->len > 0 ? hs_findings_judged (self) : NULL, ret_line);
}

/* What is best next is known once the job is shown anew; until then no key belongs to any line. */
static void
follow_stored (HsFindings *self, const HsReadingResult *stored)
{
  hs_findings_rest_at (self, self->line);
  self->follows = self->storing = TRUE;
  g_free (self->stored_id);
  self->stored_id = g_strdup (stored->id);
  hs_findings_take_stored (self);
}

static void
stored_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsFindings) self = HS_FINDINGS (data);
  g_autoptr (HsReadingResult) stored = NULL;
  g_autoptr (GError) error = NULL;
  guint then = 0;

  self->storing = FALSE;
  if (!hs_ledger_task_finish (HS_LEDGER (source), result, (gpointer *) &stored, &error))
    {
      g_free (self->trouble);
      self->trouble = g_strdup (error->message);
      hs_findings_lose (self, self->waiting);
      hs_findings_update_entry (self);
      return;
    }
  if (self->follows && self->phase == 0)
    follow_stored (self, stored);
  else
    {
      if (line_after (self, stored, &then) != NULL)
        hs_findings_go_to_line (self, then);
      else
        hs_findings_rest_at (self, self->line);
      hs_findings_press_waiting (self);
    }
}

/* Whatever is not likely was asked about before it comes here. */
static void
store (HsFindings *self, const char *keyed, const char *place, const char *why_not)
{
  const HsReadingResult *result = hs_findings_get_result (self);
  HsReadingEntry entry = { .at = HS_INSTANT_NONE };
  g_autofree char *told = hs_findings_dup_told (self);

  if (result == NULL || self->storing)
    return;
  entry.check = result->check;
  entry.keyed = keyed;
  entry.phase = hs_ask_phases[self->phase];
  entry.place = place != NULL ? place : result->place;
  entry.why_not = why_not;
  entry.conditions = told;
  entry.sure = TRUE;
  self->storing = TRUE;
  /* Before the reading, which takes it out again; behind it, it would be offered as typed once more. */
  if (self->draft != NULL)
    hs_draft_flush (self->draft);
  hs_deed_add_reading (hs_page_get_ledger (HS_PAGE (self)), self->job_id, &entry, stored_cb, g_object_ref (self));
}

static void
press_enter (HsFindings *self)
{
  GPtrArray *sheet = hs_findings_get_sheet (self);
  guint best;

  if (self->storing)
    return;
  if (self->text->len > 0)
    {
      g_autofree char *place = NULL;
      g_autofree char *keyed = hs_findings_dup_keyed (self, &place);

      if (!hs_findings_doubts (self, keyed, place, '\n'))
        store (self, keyed, place, NULL);
    }
  else if (hs_findings_best_line (self, &best) != NULL && best != self->line)
    hs_findings_follow (self, hs_findings_best_check (self));
  else if (sheet != NULL && self->line + 1 < sheet->len)
    hs_findings_go_to_line (self, self->line + 1);
}

/* Yes, it was read so. */
static void
confirm (HsFindings *self)
{
  g_autofree char *place = NULL;
  g_autofree char *keyed = self->doubt_sign == '/' ? g_strdup ("/") : hs_findings_dup_keyed (self, &place);

  hs_findings_forget_doubt (self);
  store (self, keyed, place, NULL);
}

static void
press_back (HsFindings *self, gboolean whole_line)
{
  if (self->asks_why || (self->doubt != NULL && self->text->len == 0))
    {
      self->asks_why = FALSE;
      hs_findings_forget_doubt (self);
      hs_findings_update_entry (self);
    }
  else if (self->text->len > 0)
    {
      g_string_truncate (self->text, whole_line ? 0 : self->text->len - 1);
      hs_findings_text_changed (self);
    }
  else if (whole_line && self->line > 0)
    hs_findings_go_to_line (self, self->line - 1);
}

static void
press_reason (HsFindings *self, int digit)
{
  if (digit < 1 || digit > (int) G_N_ELEMENTS (reasons))
    return;
  self->asks_why = FALSE;
  store (self, "*", NULL, reasons[digit - 1]);
}

static gboolean
has_place (HsFindings *self)
{
  g_autofree char *place = NULL;
  g_autofree char *keyed = hs_findings_dup_keyed (self, &place);

  return place != NULL;
}

static void
press_digit (HsFindings *self, char digit)
{
  const HsCheck *check = hs_findings_get_check (self);

  if (self->asks_why)
    press_reason (self, digit - '0');
  else if (check != NULL && check->entry == HS_CHECK_CHOICE && !self->storing)
    {
      g_string_printf (self->text, "%c", digit);
      hs_findings_text_changed (self);
    }
  else if (self->text->len < (has_place (self) ? MOST_LETTERS : MOST_DIGITS) && !self->storing)
    {
      g_string_append_c (self->text, digit);
      hs_findings_text_changed (self);
    }
}

/* A job without a complaint group has no sheet: one choice makes it. */

static void
group_set_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsFindings) self = HS_FINDINGS (data);
  g_autoptr (GError) error = NULL;

  if (hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    {
      self->laid_out = TRUE;
      return;
    }
  /* Without a sheet there is no line that they could be for. */
  self->lays_out = self->storing = FALSE;
  g_array_set_size (self->waiting, 0);
  hs_page_tell (HS_PAGE (self), error->message);
}

void
hs_findings_take_sheet (HsFindings *self)
{
  gboolean there = hs_findings_get_result (self) != NULL;

  if (!self->lays_out || (!there && !self->laid_out))
    return;
  self->lays_out = self->storing = FALSE;
  /* Taken back meanwhile: none of them is a choice of a complaint. */
  if (!there)
    g_array_set_size (self->waiting, 0);
  hs_findings_press_waiting (self);
}

gboolean
hs_findings_press_group (HsFindings *self, guint nth)
{
  HsChecks *checks = hs_ledger_get_checks (hs_page_get_ledger (HS_PAGE (self)));
  const HsCheckGroup *group = checks != NULL ? hs_checks_get_nth_group (checks, nth) : NULL;

  if (group == NULL || self->job_id == NULL)
    return FALSE;
  if (self->adds_symptom)
    {
      hs_findings_choose_symptom (self, group->id);
      return TRUE;
    }
  self->lays_out = self->storing = TRUE;
  self->laid_out = FALSE;
  hs_deed_set_group (hs_page_get_ledger (HS_PAGE (self)), self->job_id, group->id, group_set_cb, g_object_ref (self));
  return TRUE;
}

/* A check that gives codes or words takes letters; a sign is a command only before the first of them. Behind a number
 * letters say where it was taken. */
static gboolean
takes_words (HsFindings *self, guint keyval)
{
  const HsCheck *check = hs_findings_get_check (self);
  gunichar letter = gdk_keyval_to_unicode (keyval);

  if (check == NULL || check->entry == HS_CHECK_CHOICE)
    return FALSE;
  if (check->entry == HS_CHECK_CODES || check->entry == HS_CHECK_TEXT)
    return TRUE;
  return self->text->len > 0 && (g_unichar_isalpha (letter) || letter == ' ');
}

static gboolean
press_letter (HsFindings *self, guint keyval)
{
  gunichar letter = gdk_keyval_to_unicode (keyval);

  if (letter < 32 || letter == 127 || self->asks_why || self->storing || self->text->len >= MOST_LETTERS)
    return FALSE;
  if (self->text->len == 0 && !g_unichar_isalnum (letter))
    return FALSE;
  g_string_append_unichar (self->text, letter);
  hs_findings_text_changed (self);
  return TRUE;
}

/* A limit of this vehicle's own. */
static void
open_limit (HsFindings *self)
{
  const HsJobShot *shot = hs_findings_get_shot (self);
  const HsCheck *check = hs_findings_get_check (self);

  if (shot == NULL || check == NULL || !hs_check_has_number (check))
    return;
  if (shot->vehicle_id == NULL)
    {
      hs_page_tell (HS_PAGE (self), _("The job has no vehicle yet; a limit of its own needs one."));
      return;
    }
  hs_limit_window_present (HS_PAGE (self), shot->vehicle_id, check, shot->limits);
}

static gboolean
press_sign (HsFindings *self, char sign)
{
  switch (sign)
    {
    case '\n':
      press_enter (self);
      return TRUE;
    case '\b':
      press_back (self, FALSE);
      return TRUE;
    case '-':
      press_back (self, TRUE);
      return TRUE;
    case '+':
      if (self->doubt != NULL)
        confirm (self);
      else if (!hs_findings_ask_next (self) && self->text->len == 0)
        hs_findings_set_phase (self, (self->phase + 1) % 3);
      return TRUE;
    case '/':
      if (!hs_findings_doubts (self, "/", NULL, '/'))
        store (self, "/", NULL, NULL);
      return TRUE;
    case '*':
      /* Rolling, nothing is asked: the next digit is a figure. */
      if (hs_findings_is_rolling (self))
        return TRUE;
      hs_findings_forget_doubt (self);
      self->asks_why = TRUE;
      hs_findings_update_entry (self);
      return TRUE;
    case '.':
      if (self->text->len == 0)
        open_limit (self);
      else if (strchr (self->text->str, '.') == NULL)
        {
          g_string_append_c (self->text, '.');
          hs_findings_text_changed (self);
        }
      return TRUE;
    default:
      return FALSE;
    }
}

static gboolean
is_arrow (guint keyval)
{
  return keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up || keyval == GDK_KEY_Down || keyval == GDK_KEY_KP_Down;
}

gboolean
hs_findings_press_arrow (HsFindings *self, guint keyval)
{
  gboolean up = keyval == GDK_KEY_Up || keyval == GDK_KEY_KP_Up;
  GPtrArray *sheet = hs_findings_get_sheet (self);

  if (!is_arrow (keyval) || sheet == NULL || self->adds_symptom)
    return FALSE;
  if (self->text->len > 0 || self->asked != NULL)
    return TRUE;
  if (up && self->line > 0)
    hs_findings_go_to_line (self, self->line - 1);
  else if (!up && self->line + 1 < sheet->len)
    hs_findings_go_to_line (self, self->line + 1);
  return TRUE;
}

/* While a reading is on its way, keys are for the line that comes next: a quick hand loses none. */
gboolean
hs_findings_holds (HsFindings *self, guint keyval)
{
  gboolean means_something = hs_pad_key_sign (keyval) != '\0' || is_arrow (keyval) || keyval == GDK_KEY_Insert
                             || keyval == GDK_KEY_KP_Insert || gdk_keyval_to_unicode (keyval) >= 32;

  if (!self->storing || !means_something || self->waiting->len >= MOST_WAITING)
    return FALSE;
  g_array_append_val (self->waiting, keyval);
  return TRUE;
}

void
hs_findings_press_waiting (HsFindings *self)
{
  g_autoptr (GArray) waiting = g_steal_pointer (&self->waiting);

  self->waiting = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < waiting->len; i++)
    {
      guint keyval = g_array_index (waiting, guint, i);

      if (!hs_findings_holds (self, keyval) && !hs_findings_press_symptom (self, keyval)
          && !hs_findings_press_arrow (self, keyval))
        hs_findings_press (self, keyval);
    }
}

/* Off the road a job takes no reading. */
static gboolean
tells_off (HsFindings *self)
{
  const HsJobShot *shot = hs_findings_get_shot (self);
  g_autofree char *off = shot != NULL ? hs_job_left_dup_off (shot) : NULL;

  if (off != NULL)
    hs_page_tell (HS_PAGE (self), off);
  return off != NULL;
}

gboolean
hs_findings_is_frozen (HsFindings *self)
{
  const HsJobShot *shot = hs_findings_get_shot (self);

  return shot != NULL && shot->view->tag->stage == HS_STAGE_SQUARED;
}

/* Of a job that is squared up one turns the phases and goes through the lines; all else would write. */
static gboolean
press_frozen (HsFindings *self, char sign)
{
  GPtrArray *sheet = hs_findings_get_sheet (self);

  if (sign == '+')
    hs_findings_set_phase (self, (self->phase + 1) % 3);
  else if (sign == '-')
    press_back (self, TRUE);
  else if (sign == '\n' && sheet != NULL && self->line + 1 < sheet->len)
    hs_findings_go_to_line (self, self->line + 1);
  else if (sign != '\0' && sign != '\n')
    hs_page_tell (HS_PAGE (self), hs_page_say_frozen ());
  return sign != '\0';
}

gboolean
hs_findings_press (HsFindings *self, guint keyval)
{
  char sign = hs_pad_key_sign (keyval);

  g_return_val_if_fail (HS_IS_FINDINGS (self), FALSE);

  if (hs_findings_is_frozen (self))
    return press_frozen (self, sign);

  if (hs_findings_holds (self, keyval))
    return TRUE;
  if (sign != '\0' && tells_off (self))
    return TRUE;

  if (hs_findings_get_result (self) == NULL || self->adds_symptom)
    return g_ascii_isdigit (sign) && hs_findings_press_group (self, (guint) (sign - '1'));
  if (hs_findings_loses (self, keyval))
    return TRUE;
  if (self->asked != NULL && sign != '\0')
    {
      hs_findings_press_answer (self, sign);
      return TRUE;
    }
  /* They answer what is asked, also where they could be text. */
  if (self->doubt != NULL && (sign == '+' || sign == '-'))
    return press_sign (self, sign);
  if (takes_words (self, keyval) && press_letter (self, keyval))
    return TRUE;
  if (!g_ascii_isdigit (sign))
    return press_sign (self, sign);
  press_digit (self, sign);
  return TRUE;
}


/* As if it had been keyed, so that no rule of the keys is passed by. */
void
hs_findings_typed_cb (HsFindings *self, const char *text)
{
  g_autofree char *keys = g_strdup (text);

  if (hs_findings_get_result (self) == NULL || self->adds_symptom)
    return;
  while (!self->storing && (self->asked != NULL ? self->answer->len : self->text->len) > 0)
    hs_findings_press (self, GDK_KEY_BackSpace);
  for (const char *at = keys; *at != '\0'; at = g_utf8_next_char (at))
    hs_findings_press (self, gdk_unicode_to_keyval (g_utf8_get_char (at)));
  hs_findings_update_entry (self);
}
