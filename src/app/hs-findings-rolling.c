// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A reading that is taken while the van rolls: eyes are on the road, so that the form gives way to one large line, the
 * check and what is keyed of it. All keys of the page act as ever; nothing else is shown, and no condition is asked. */

#include "hs-findings-private.h"

#include <glib/gi18n.h>

#include "hs-show.h"
#include "hs-spoken.h"

gboolean
hs_findings_is_rolling (HsFindings *self)
{
  const HsJobShot *shot = hs_findings_get_shot (self);

  return shot != NULL && shot->view->tag->stage == HS_STAGE_ROLLING && hs_findings_get_result (self) != NULL
         && g_str_equal (hs_findings_get_phase (self), "during");
}

GtkWidget *
hs_findings_get_keyboard (HsFindings *self)
{
  return hs_findings_is_rolling (self) ? self->rolling : self->field;
}

static char *
dup_reading (HsFindings *self)
{
  const HsReadingResult *shown = hs_findings_judged (self);
  const char *word = shown != NULL && shown->value_text != NULL ? hs_show_verdict (shown->word) : NULL;
  const char *figure = gtk_label_get_label (self->figure);
  const char *unit = gtk_label_get_label (self->unit);
  const char *name = gtk_label_get_label (self->name);
  const char *between = *unit != '\0' ? " " : "";

  if (self->trouble != NULL)
    return g_strdup (self->trouble);
  if (self->doubt != NULL && self->loses)
    return g_strdup_printf (_("%s: %s Enter, then + if I read that"), name, self->doubt);
  if (self->doubt != NULL)
    return g_strdup_printf (_("%s: %s + if I read that"), name, self->doubt);
  return word != NULL ? g_strdup_printf ("%s: %s%s%s, %s", name, figure, between, unit, word)
                      : g_strdup_printf ("%s: %s%s%s", name, figure, between, unit);
}

void
hs_findings_update_rolling (HsFindings *self)
{
  g_autofree char *line = NULL;

  if (!hs_findings_is_rolling (self))
    return;
  line = dup_reading (self);
  gtk_label_set_label (self->rolling_line, line);
  hs_spoken_name (self->rolling, line);
}
