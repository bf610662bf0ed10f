// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What one reading suggests to check next, beside what is best next over all that is known of the job. */

#include "hs-job-next.h"

#include <math.h>

static const HsNextLine *
find_check (const HsJobNext *next, const char *id)
{
  for (guint i = 0; i < next->lines->len; i++)
    {
      const HsNextLine *line = g_ptr_array_index (next->lines, i);

      if (line->is_check && g_str_equal (line->id, id))
        return line;
    }
  return NULL;
}

/* (transfer full): what is best next, by name; a repair says that it is one. */
static char *
dup_name (const HsNextLine *line, const HsTongue *in)
{
  return line->is_check ? g_strdup (in->gettext (line->name))
                        : g_strdup_printf (in->gettext ("Repair: %s"), in->gettext (line->name));
}

static char *
say_other (const HsNextLine *best, const HsNextLine *other, const char *name, const HsTongue *in)
{
  g_autofree char *first = dup_name (best, in);

  if (other == NULL)
    /* Translators: twice the name of a check, then minutes. */
    return g_strdup_printf (in->gettext ("This reading alone asks for “%s” next. That check is not compared here; of "
                                         "those that are, “%s” is best next: %d min until fixed."),
                            name, first, (int) lround (best->expected_minutes));
  if (lround (best->expected_minutes) == lround (other->expected_minutes))
    return g_strdup_printf (in->gettext ("This reading alone asks for “%s” next; with all that is known “%s” is as "
                                         "good."),
                            name, first);
  /* Translators: twice the name of a check, then minutes. */
  return g_strdup_printf (in->gettext ("This reading alone asks for “%s” next; with all that is known “%s” is sooner "
                                       "done: %d min until fixed, not %d."),
                          name, first, (int) lround (best->expected_minutes),
                          (int) lround (other->expected_minutes));
}

char *
hs_job_next_beside (const HsJobNext *next, HsChecks *checks, const char *const *then, const HsTongue *in)
{
  const HsNextLine *best = next->lines->len > 0 ? g_ptr_array_index (next->lines, 0) : NULL;
  const HsCheck *open = NULL;

  for (guint i = 0; best != NULL && then != NULL && then[i] != NULL; i++)
    {
      if (best->is_check && g_str_equal (then[i], best->id))
        return g_strdup (in->gettext ("That is best next with all that is known, too."));
      if (open == NULL && !g_strv_contains ((const char *const *) next->read, then[i]))
        open = hs_checks_lookup (checks, then[i]);
    }
  return open != NULL ? say_other (best, find_check (next, open->id), in->gettext (open->name), in) : NULL;
}
