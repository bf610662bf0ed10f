// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the number pad does over the readings, printed below them. */

#include "hs-pad-hints.h"

#include <glib/gi18n.h>

/* What is frozen is only leafed through. */
static void
set_frozen (HsKeyRow *row)
{
  const HsKeyHint hints[] = {
    { "Enter", _("next line"), "pad.press::Return" },
    { "−", _("back"), "pad.press::minus" },
    { "+", _("before / during / after"), "pad.press::plus" },
    { "F9", _("why it failed"), "win.side" },
    { "=", _("work it out"), "win.work-out" },
  };

  hs_key_row_set (row, hints, G_N_ELEMENTS (hints));
}

void
hs_pad_hints_set (HsKeyRow *row, gboolean cramped, gboolean frozen)
{
  gpointer printed = GUINT_TO_POINTER (1 + (cramped ? 2 : 0) + (frozen ? 4 : 0));
  const HsKeyHint hints[] = {
    { "0–9", _("value"), "pad.value" },
    { "Enter", _("store, next"), "pad.press::Return" },
    { "/", _("over range"), "pad.press::slash" },
    { "*", _("not measured"), "pad.press::asterisk" },
    { "+", _("before / during / after"), "pad.press::plus" },
    { ".", _("own limit"), "pad.press::period" },
    { "−", _("back"), "pad.press::minus" },
    { "F9", _("why it failed"), "win.side" },
    { "=", _("work it out"), "win.work-out" },
  };

  /* Only where they change: a key that has the cursor stays. */
  if (g_object_get_data (G_OBJECT (row), "hints") == printed)
    return;
  g_object_set_data (G_OBJECT (row), "hints", printed);
  if (frozen)
    set_frozen (row);
  else
    hs_key_row_set (row, cramped ? hints + 1 : hints, cramped ? 5 : G_N_ELEMENTS (hints));
}
