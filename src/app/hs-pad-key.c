// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One sign for one meaning: the keypad, the main keys and the pad on the screen all send their own names for it. A
 * comma counts as the decimal point, since many keypads have one in its place. */

#include "hs-pad-key.h"

static const struct
{
  guint keyval;
  char sign;
} named[] = {
  { GDK_KEY_KP_Divide, '/' },    { GDK_KEY_KP_Multiply, '*' },  { GDK_KEY_KP_Subtract, '-' },
  { GDK_KEY_KP_Add, '+' },       { GDK_KEY_KP_Decimal, '.' },   { GDK_KEY_KP_Separator, '.' },
  { GDK_KEY_comma, '.' },        { GDK_KEY_KP_Enter, '\n' },    { GDK_KEY_Return, '\n' },
  { GDK_KEY_ISO_Enter, '\n' },   { GDK_KEY_BackSpace, '\b' },   { GDK_KEY_slash, '/' },
  { GDK_KEY_asterisk, '*' },     { GDK_KEY_minus, '-' },        { GDK_KEY_plus, '+' },
  { GDK_KEY_period, '.' },
};

char
hs_pad_key_sign (guint keyval)
{
  if (keyval >= GDK_KEY_0 && keyval <= GDK_KEY_9)
    return (char) ('0' + (keyval - GDK_KEY_0));
  if (keyval >= GDK_KEY_KP_0 && keyval <= GDK_KEY_KP_9)
    return (char) ('0' + (keyval - GDK_KEY_KP_0));
  for (gsize i = 0; i < G_N_ELEMENTS (named); i++)
    if (named[i].keyval == keyval)
      return named[i].sign;
  return '\0';
}

gboolean
hs_pad_key_is_text (GtkWindow *window)
{
  GtkWidget *focus = gtk_window_get_focus (window);

  return focus != NULL && GTK_IS_EDITABLE (focus);
}
