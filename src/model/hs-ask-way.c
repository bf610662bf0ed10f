// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What she has to know before she rolls and at the wheel, as the windows ask for it. */

#include "hs-ask-way.h"

gpointer
hs_ask_way (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  return hs_way_load (book, job_id, now, error);
}

gpointer
hs_ask_roll (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;
  gint32 to;

  g_variant_get (args, "(&si)", &job_id, &to);
  return to == HS_STAGE_ON_SITE ? hs_arrive_outlook_load (book, job_id, now, error)
                                : hs_roll_outlook_load (book, job_id, now, error);
}
