// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Small switching relays: coil, contact and what the numbers on the pins mean. */

#include "hs-relay.h"

#define NEW_CONTACT_OHMS 0.005

static const struct
{
  const char *number;
  const char *meaning;
} terminals[] = {
  { "30", "30 is the common contact: it is fed, or goes to the load." },
  { "85", "85 is the coil's ground side, its minus where a diode is fitted." },
  { "86", "86 is the coil's feed side, its plus where a diode is fitted." },
  { "87", "87 is the contact that is closed while the coil is on." },
  { "87a", "87a is the contact that is closed while the coil is off." },
};

double
hs_relay_coil_amps (double volts, double ohms)
{
  return volts / ohms;
}

double
hs_relay_new_contact_volts (double amps)
{
  return amps * NEW_CONTACT_OHMS;
}

const char *
hs_relay_terminal (const char *number)
{
  for (guint i = 0; i < G_N_ELEMENTS (terminals); i++)
    if (g_ascii_strcasecmp (terminals[i].number, number) == 0)
      return terminals[i].meaning;
  return NULL;
}
