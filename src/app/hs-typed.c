// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Reads times and minutes as they are keyed. Use it for entry fields; the command line and files want the full
 * spelling. It refuses to guess: what is neither empty nor whole is no value. */

#include "hs-typed.h"

#include <string.h>

#include "hs-time.h"

#define MOST_DIGITS 5
#define MOST_MINUTES (7 * HS_MINUTES_PER_DAY)

/* Only digits, and few enough that their number cannot overflow. */
static gboolean
is_short_number (const char *text)
{
  gsize length = strlen (text);

  return length > 0 && length <= MOST_DIGITS && strspn (text, "0123456789") == length;
}

int
hs_typed_clock (const char *text)
{
  g_autofree char *bare = g_strstrip (g_strdup (text != NULL ? text : ""));
  g_autofree char *spelled = NULL;
  gsize length = strlen (bare);
  int minutes = -1;

  /* The number pad has a point for the colon. */
  if (length > 3 && bare[length - 3] == '.')
    bare[length - 3] = ':';
  if (strchr (bare, ':') != NULL)
    spelled = g_strdup (bare);
  else if (!is_short_number (bare))
    return -1;
  else if (length <= 2)
    spelled = g_strdup_printf ("%s:00", bare);
  else
    spelled = g_strdup_printf ("%.*s:%s", (int) length - 2, bare, bare + length - 2);
  return hs_clock_parse (spelled, &minutes, NULL) ? minutes : -1;
}

int
hs_typed_minutes (const char *text)
{
  g_autofree char *bare = g_strstrip (g_strdup (text != NULL ? text : ""));
  gint64 minutes;

  if (*bare == '\0')
    return 0;
  if (!is_short_number (bare))
    return -1;
  minutes = g_ascii_strtoll (bare, NULL, 10);
  return minutes >= 1 && minutes <= MOST_MINUTES ? (int) minutes : -1;
}
