// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What of a job goes to the telephone, as its window asks for it. */

#include "hs-ask-hand-off.h"

gpointer
hs_ask_hand_off (HsBook *book, GVariant *args, HsInstant now, GError **error)
{
  const char *job_id;

  g_variant_get (args, "(&s)", &job_id);
  return hs_hand_off_load (book, job_id, now, error);
}
