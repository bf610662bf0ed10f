// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Steps that can be taken back, said in the language of the window. The book keeps them in US English, for it is read
 * on other machines too; what stands before the colon is one of the heads below. A head that is not among them is shown
 * as the book has it. */

#include "hs-step-words.h"

#include <glib/gi18n.h>
#include <string.h>

static const char *const heads[] = {
  /* Translators: the following are things done on a job, as in "Taken back on A-0021: reading: 12.42 V". */
  N_("answer"), N_("at the vehicle, labor clock stopped"), N_("call slip"), N_("called off"), N_("choice"),
  N_("choice changed"), N_("choice removed"),
  N_("complaint"), N_("complaint group"), N_("customer renamed"), N_("disturbed"), N_("drive"), N_("finding"),
  N_("finding removed"), N_("finding reworded"), N_("installed"), N_("labor clock started"), N_("labor clock stopped"),
  N_("link removed"), N_("looked after"), N_("minutes at the vehicle"), N_("not disturbed"), N_("not installed"),
  N_("not looked after"), N_("not proven because"), N_("odometer"), N_("own limit"), N_("own limit removed"),
  N_("owner"), N_("phase of a photo"), N_("photo"), N_("photo removed"), N_("photo, with its place"), N_("plate"),
  N_("priced"), N_("reading"), N_("reading removed"), N_("rolling, labor clock stopped"), N_("safe to drive"),
  N_("safety"), N_("saw it happen"), N_("settled"), N_("stage"), N_("sure"), N_("taken back"), N_("usual job"),
  N_("what a photo shows"), N_("why"), N_("words of a photo"),
};

static const char *
translate_head (const char *head)
{
  for (guint i = 0; i < G_N_ELEMENTS (heads); i++)
    if (g_str_equal (heads[i], head))
      return _(heads[i]);
  return head;
}

char *
hs_step_words (const char *what)
{
  const char *colon;
  g_autofree char *head = NULL;

  g_return_val_if_fail (what != NULL, NULL);

  colon = strstr (what, ": ");
  if (colon == NULL)
    return g_strdup (translate_head (what));
  head = g_strndup (what, (gsize) (colon - what));
  /* Translators: a thing done on a job, and on what: "reading: Battery at rest, 12.42 V". */
  return g_strdup_printf (_("%s: %s"), translate_head (head),
                          g_str_equal (head, "stage") ? _(colon + 2) : colon + 2);
}
