// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The tongue of whoever hands in none: the sentences of the source. */

#include "hs-tongue.h"

static char *
say (const char *text)
{
  return (char *) text;
}

static char *
say_number (const char *one, const char *many, gulong n)
{
  return (char *) (n == 1 ? one : many);
}

const HsTongue hs_tongue_english = { say, say_number };
