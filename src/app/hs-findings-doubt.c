// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is asked about and never refused: a figure beyond what its check is likely to show, and one where another
 * stands already. The key that would store it does not answer, however often it is pressed, for a hand that did not
 * look presses it twice; + says that it was read so, a key back types it anew. What is likely, on a line that is empty,
 * costs no press. A hand that goes on with the next reading: its keys, up to the Enter behind them, are neither an
 * answer nor put into a line that they were not meant for; they are told.
 *
 * And what the empty field looks like, so that nobody has to guess where the point stands. */

#include "hs-findings-private.h"

#include <glib/gi18n.h>

#include "hs-decimal.h"
#include "hs-pad-key.h"

/* As it is shown beside a reading: "12.42 V", "5 of 5", "over range". */
static char *
dup_shown (const HsCheck *check, const HsReading *reading)
{
  g_autofree char *text = hs_check_format (check, reading);

  return reading->kind != HS_READING_VALUE || g_str_equal (check->unit, "count")
           ? g_strdup (text) : g_strdup_printf ("%s %s", text, check->unit);
}

/* (nullable): what would be stored, as the line would show it; %NULL if it is no reading. */
static char *
dup_value (const HsCheck *check, const char *keyed)
{
  HsReading reading;

  if (!hs_check_read_pad_sure (check, keyed, &reading, NULL))
    return NULL;
  return reading.kind == HS_READING_VALUE && !hs_check_has_number (check) ? hs_check_dup_answer (check, keyed, NULL)
                                                                          : dup_shown (check, &reading);
}

static char *
dup_likely (const HsCheck *check)
{
  g_autofree char *least = hs_decimal_format (check->asked_below, check->decimals);
  g_autofree char *most = hs_decimal_format (check->most, check->decimals);

  /* Translators: the least and the most that a check is likely to show, and the unit. */
  return g_strdup_printf (_("Likely is %s to %s %s (common practice)."), least, most, check->unit);
}

/* (nullable): the value that stands where a new one of @place would; what was not measured is no value. */
static const char *
find_standing (HsFindings *self, const char *place)
{
  const HsReadingResult *result = hs_findings_get_result (self);

  if (result == NULL || result->value_text == NULL || result->why_not != NULL
      || (place != NULL && g_strcmp0 (place, result->place) != 0))
    return NULL;
  return result->value_text;
}

char *
hs_findings_dup_stands (HsFindings *self)
{
  const char *standing = find_standing (self, NULL);

  return standing != NULL ? g_strdup_printf (_("%s stands here."), standing) : NULL;
}

/* @standing: %NULL or what stands there. */
static void
set_doubt (HsFindings *self, const char *value, gboolean likely, const char *standing)
{
  const HsCheck *check = hs_findings_get_check (self);
  g_autofree char *range = likely ? NULL : dup_likely (check);
  g_autofree char *further = standing == NULL ? NULL
    : g_strdup_printf (_("%s becomes a further reading; both stay in the book."), value);
  g_autofree char *stands = standing == NULL ? NULL : g_strdup_printf (_("%s stands here."), standing);
  g_autofree char *first = likely ? g_strdup (stands) : g_strdup_printf (_("%s?"), value);
  const char *const about[] = { range, likely ? NULL : stands, further };
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (about); i++)
    if (about[i] != NULL)
      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", about[i]);
  self->doubt = g_steal_pointer (&first);
  self->doubt_about = g_string_free (g_steal_pointer (&text), FALSE);
}

gboolean
hs_findings_doubts (HsFindings *self, const char *keyed, const char *place, char sign)
{
  const HsCheck *check = hs_findings_get_check (self);
  g_autofree char *value = check != NULL ? dup_value (check, keyed) : NULL;
  const char *standing = find_standing (self, place);
  gboolean likely = TRUE;
  HsReading reading;

  hs_findings_forget_doubt (self);
  if (value == NULL)
    return FALSE;
  if (hs_check_read_pad_sure (check, keyed, &reading, NULL))
    likely = hs_check_is_likely (check, &reading);
  if (g_strcmp0 (standing, value) == 0)
    standing = NULL;
  if (likely && standing == NULL)
    return FALSE;
  set_doubt (self, value, likely, standing);
  self->doubt_sign = sign;
  hs_findings_update_entry (self);
  hs_findings_show_field (self);
  return TRUE;
}

void
hs_findings_forget_doubt (HsFindings *self)
{
  g_clear_pointer (&self->doubt, g_free);
  g_clear_pointer (&self->doubt_about, g_free);
  g_string_truncate (self->lost, 0);
  self->loses = FALSE;
}

/* --- Keys that belong to no line --------------------------------------------------------------------------------- */

static void
append_lost (HsFindings *self, guint keyval)
{
  gunichar letter = gdk_keyval_to_unicode (keyval);
  char sign = hs_pad_key_sign (keyval);

  if (sign == '\n')
    g_string_append_printf (self->lost, "%s%s ", self->lost->len > 0 ? " " : "", _("Enter"));
  else if (sign != '\0' && sign != '\b')
    g_string_append_c (self->lost, sign);
  else if (letter >= 32 && letter != 127)
    g_string_append_unichar (self->lost, letter);
}

char *
hs_findings_dup_lost (HsFindings *self)
{
  g_autofree char *keys = g_strstrip (g_strdup (self->lost->str));

  /* Translators: keys that came too quickly behind a reading that has to be looked at first. */
  return *keys != '\0' ? g_strdup_printf (_("Keyed after it and not taken: %s"), keys) : NULL;
}

void
hs_findings_lose (HsFindings *self, GArray *keys)
{
  for (guint i = 0; i < keys->len; i++)
    append_lost (self, g_array_index (keys, guint, i));
  g_array_set_size (keys, 0);
}

gboolean
hs_findings_loses (HsFindings *self, guint keyval)
{
  char sign = hs_pad_key_sign (keyval);
  gboolean enters = sign == '\n';

  if (self->doubt == NULL || sign == '-' || sign == '\b' || (sign == '+' && !self->loses))
    return FALSE;
  /* The key that asked says nothing new. */
  if (!self->loses && (enters || sign == self->doubt_sign))
    return TRUE;
  append_lost (self, keyval);
  self->loses = !enters;
  hs_findings_update_entry (self);
  hs_findings_show_field (self);
  return TRUE;
}

/* --- The empty field --------------------------------------------------------------------------------------------- */

char *
hs_findings_dup_shape (HsFindings *self)
{
  const HsCheck *check = hs_findings_get_check (self);
  const HsReading nothing = { .kind = HS_READING_VALUE };

  return check != NULL && hs_check_has_number (check) ? hs_check_format (check, &nothing) : g_strdup ("");
}

/* What is typed into the field and what comes of it: shown by the one figure that is easily taken for another. */
static char *
dup_example (const HsCheck *check, const char *keyed)
{
  HsReading reading;

  return hs_check_read_pad_sure (check, keyed, &reading, NULL) ? dup_shown (check, &reading) : g_strdup (keyed);
}

/* Whole figures without a unit of their own speak for themselves. */
char *
hs_findings_dup_shape_about (HsFindings *self)
{
  const HsCheck *check = hs_findings_get_check (self);

  if (check == NULL || !hs_check_has_number (check))
    return NULL;
  if (check->entry == HS_CHECK_PAIR && check->decimals == 0)
    return g_strdup (_("Both numbers: 55 is 5 of 5, 9.12 is 9 of 12"));
  if (check->entry == HS_CHECK_PAIR)
    return g_strdup (_("Both numbers, all digits: 11901262 is 11.90 of 12.62"));
  if (check->decimals == 0)
    return NULL;
  g_autofree char *filled = dup_example (check, "31");
  g_autofree char *pointed = dup_example (check, "31.");
  /* Translators: what 31 without a point becomes, "0.031 A", and with one, "31.000 A". */
  return g_strdup_printf (_("Digits come in from the right: 31 is %s; 31. is %s"), filled, pointed);
}
