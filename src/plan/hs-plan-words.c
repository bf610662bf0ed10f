// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Clock times and lengths in words. */

#include "hs-plan-words.h"

#define DAY_SECONDS (24 * 3600)

char *
hs_words_clock (gint64 seconds)
{
  gint64 days = seconds >= 0 ? seconds / DAY_SECONDS : -((DAY_SECONDS - 1 - seconds) / DAY_SECONDS);
  gint64 minutes = (seconds - days * DAY_SECONDS) / 60;
  const char *which = days == 0 ? "" : days == 1 ? " the next day" : days == -1 ? " the day before" : " days later";

  return g_strdup_printf ("%02d:%02d%s", (int) (minutes / 60), (int) (minutes % 60),
                          days < -1 ? " days before" : which);
}

char *
hs_words_length (gint64 seconds)
{
  gint64 minutes = (seconds + 59) / 60;

  if (seconds < 60)
    return g_strdup_printf ("%d s", (int) seconds);
  if (minutes < 60)
    return g_strdup_printf ("%d min", (int) minutes);
  if (minutes % 60 == 0)
    return g_strdup_printf ("%d h", (int) (minutes / 60));
  return g_strdup_printf ("%d h %d min", (int) (minutes / 60), (int) (minutes % 60));
}
