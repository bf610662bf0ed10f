// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Mends in words: the planner and who tries mends on a day of the book say the same. */

#include "hs-plan-mend.h"

static const char *
plural (int minutes)
{
  return minutes == 1 ? "" : "s";
}

char *
hs_mend_drop (const char *id)
{
  return g_strdup_printf ("drop %s", id);
}

char *
hs_mend_move (const char *id, int minutes)
{
  return g_strdup_printf ("move %s %d minute%s later", id, minutes, plural (minutes));
}

char *
hs_mend_start (int minutes)
{
  return g_strdup_printf ("start %d minute%s earlier", minutes, plural (minutes));
}
