// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An answer that would pass the go-ahead, in a pane that asks for costs. Nothing is written yet; a part that is on the
 * vehicle can be, once it is known what it comes to: by a key that is no other's, so that none pressed twice does it
 * unread. */

#include "hs-past-yes.h"

#include "hs-ops-error.h"
#include "hs-refusal.h"

void
hs_past_yes_clear (HsPastYes *self)
{
  g_clear_pointer (&self->given, g_free);
  g_clear_pointer (&self->passes, g_free);
}

void
hs_past_yes_say (HsPastYes *self, const char *text)
{
  hs_refusal_say (self->said, text);
}

void
hs_past_yes_give (HsPastYes *self, const char *text)
{
  char *given = g_strdup (text);

  g_free (self->given);
  self->given = given;
}

void
hs_past_yes_refuse (HsPastYes *self, const GError *error)
{
  g_autofree char *given = g_steal_pointer (&self->given);

  /* Where no answer was sent there is nothing to say yes to. */
  if (given != NULL && g_error_matches (error, HS_OPS_ERROR, HS_OPS_ERROR_PAST_CEILING))
    {
      g_free (self->passes);
      self->passes = g_steal_pointer (&given);
      gtk_widget_set_visible (self->insist, TRUE);
    }
  hs_past_yes_say (self, error->message);
}

void
hs_past_yes_forget (HsPastYes *self)
{
  if (self->passes == NULL)
    return;
  g_clear_pointer (&self->passes, g_free);
  gtk_widget_set_visible (self->insist, FALSE);
  hs_past_yes_say (self, NULL);
}
