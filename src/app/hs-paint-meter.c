// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Measures what opening the window costs this process. Use it from the command line (`--measure`); a bare window is
 * measured by the same code, so that the two compare. Processor time counts, since wall time tells of the machine. */

#include "hs-paint-meter.h"

#include <stdio.h>
#include <sys/resource.h>

#define SETTLE_MS 2500

typedef struct
{
  GtkWindow *window;
  double first_ms;
} Meter;

static double
processor_ms (void)
{
  struct rusage usage;

  getrusage (RUSAGE_SELF, &usage);
  return (double) (usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) * 1000.0
         + (double) (usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / 1000.0;
}

/* Resident pages now, not the most there ever were. */
static double
resident_mib (void)
{
  g_autofree char *text = NULL;
  long total = 0;
  long resident = 0;

  if (!g_file_get_contents ("/proc/self/statm", &text, NULL, NULL) || sscanf (text, "%ld %ld", &total, &resident) != 2)
    return 0;
  return (double) resident * 4096.0 / 1048576.0;
}

static gboolean
on_settled (gpointer data)
{
  Meter *meter = data;

  g_print ("{\"first_paint_cpu_ms\": %.1f, \"settled_cpu_ms\": %.1f, \"rss_mib\": %.1f}\n", meter->first_ms,
           processor_ms (), resident_mib ());
  gtk_window_close (meter->window);
  return G_SOURCE_REMOVE;
}

static void
on_after_paint (GdkFrameClock *clock, gpointer data)
{
  Meter *meter = data;

  g_signal_handlers_disconnect_by_func (clock, on_after_paint, data);
  meter->first_ms = processor_ms ();
  g_timeout_add_full (G_PRIORITY_DEFAULT, SETTLE_MS, on_settled, meter, g_free);
}

static void
on_map (GtkWidget *window, gpointer data)
{
  g_signal_handlers_disconnect_by_func (window, on_map, data);
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (on_after_paint), data);
}

void
hs_paint_meter_start (GtkWindow *window)
{
  Meter *meter;

  g_return_if_fail (GTK_IS_WINDOW (window));

  meter = g_new0 (Meter, 1);
  meter->window = window;
  g_signal_connect (window, "map", G_CALLBACK (on_map), meter);
}
