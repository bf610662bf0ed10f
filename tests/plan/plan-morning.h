// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-day.h"

/* The demo morning as a day: six areas of Dunmarrow, two counters, six calls. Stop indexes go in this order. */

enum
{
  LARCH,
  KINGPOST,
  A21,
  A22,
  A23,
  A24,
  A25,
  A26,
  MORNING_STOPS,
};

enum
{
  TANNERY_ROW,
  QUAYSIDE,
  OLD_MARKET,
  HIGHCROFT,
  FOUNDRY,
  SEDGE_END,
  MORNING_PLACES,
};

#define CLOCK(hours, minutes) (((hours) * 60 + (minutes)) * 60)

static const gint32 morning_minutes[MORNING_PLACES][MORNING_PLACES] = {
  { 4, 9, 7, 12, 8, 21 },    { 9, 4, 6, 15, 11, 24 },  { 7, 6, 3, 10, 9, 20 },
  { 12, 15, 10, 5, 14, 17 }, { 8, 11, 9, 14, 4, 16 }, { 21, 24, 20, 17, 16, 6 },
};

/* In tenths of a mile. */
static const gint64 morning_tenths[MORNING_PLACES][MORNING_PLACES] = {
  { 10, 31, 24, 50, 29, 112 }, { 31, 10, 19, 61, 40, 126 }, { 24, 19, 8, 42, 32, 104 },
  { 50, 61, 42, 13, 56, 87 },  { 29, 40, 32, 56, 11, 81 },  { 112, 126, 104, 87, 81, 20 },
};

typedef struct
{
  const char *id;
  HsDayStopKind kind;
  guint place;
  gint32 minutes;
  HsDaySpan spans[2];
  int needs;
} MorningStop;

static const MorningStop morning_stops[MORNING_STOPS] = {
  { "Larch & Weir Auto Electrical", HS_DAY_STOP_COUNTER, OLD_MARKET, 8,
    { { CLOCK (8, 0), CLOCK (12, 30) }, { CLOCK (13, 15), CLOCK (17, 0) } }, -1 },
  { "Kingpost Parts Counter", HS_DAY_STOP_COUNTER, FOUNDRY, 10, { { CLOCK (7, 30), CLOCK (18, 0) } }, -1 },
  { "A-0021", HS_DAY_STOP_CALL, OLD_MARKET, 60, { { CLOCK (8, 0), CLOCK (10, 0) } }, LARCH },
  { "A-0022", HS_DAY_STOP_CALL, QUAYSIDE, 40, { { CLOCK (8, 30), CLOCK (10, 30) } }, -1 },
  { "A-0023", HS_DAY_STOP_CALL, FOUNDRY, 75, { { CLOCK (11, 0), CLOCK (13, 0) } }, KINGPOST },
  { "A-0024", HS_DAY_STOP_CALL, HIGHCROFT, 90, { { CLOCK (13, 0), CLOCK (15, 30) } }, -1 },
  { "A-0025", HS_DAY_STOP_CALL, SEDGE_END, 60, { { CLOCK (9, 0), CLOCK (16, 0) } }, KINGPOST },
  { "A-0026", HS_DAY_STOP_CALL, HIGHCROFT, 45, { { CLOCK (14, 30), CLOCK (17, 30) } }, KINGPOST },
};

static inline HsDay *
morning_day (gint32 spare_minutes)
{
  HsDay *day = hs_day_new (MORNING_PLACES);

  for (guint from = 0; from < MORNING_PLACES; from++)
    for (guint to = 0; to < MORNING_PLACES; to++)
      hs_day_set_leg (day, from, to, morning_minutes[from][to] * 60, morning_tenths[from][to] * 100);
  for (guint i = 0; i < MORNING_STOPS; i++)
    {
      const MorningStop *stop = &morning_stops[i];

      hs_day_add_stop (day, stop->id, stop->kind, stop->place, stop->minutes * 60);
      for (guint k = 0; k < 2 && stop->spans[k].to_seconds > 0; k++)
        hs_day_add_span (day, i, stop->spans[k].from_seconds, stop->spans[k].to_seconds);
      if (stop->needs >= 0)
        hs_day_add_after (day, i, (guint) stop->needs);
    }
  day->leave_from_seconds = CLOCK (7, 30);
  day->leave_to_seconds = CLOCK (9, 30);
  day->home_by_seconds = CLOCK (19, 0);
  day->minute_cents = 160;
  day->mile_cents = 42;
  day->spare_seconds = spare_minutes * 60;
  return day;
}
