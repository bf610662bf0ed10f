// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>
#include <stdlib.h>

/* A result as one JSON object that begins with when it was measured and how many programs wanted a processor then: with
 * that, what a table says of a quiet or a busy machine is no memory. */

static inline GString *
bench_result_begin (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autofree char *day = g_date_time_format (now, "%F");
  GString *text = g_string_new ("{");
  double load = -1;

  getloadavg (&load, 1);
  g_string_append_printf (text, "\n  \"measured\": {\"on\": \"%s\", \"processors\": %u, \"load\": %.2f}", day,
                          g_get_num_processors (), load);
  return text;
}

/* bench_result_end: frees @text. @file: (nullable): else it is printed. */
static inline void
bench_result_end (GString *text, const char *file)
{
  g_autoptr (GError) error = NULL;

  g_string_append (text, "\n}\n");
  if (file == NULL)
    g_print ("%s", text->str);
  else if (!g_file_set_contents (file, text->str, -1, &error))
    g_error ("%s", error->message);
  g_string_free (text, TRUE);
}
