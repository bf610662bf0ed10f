// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Trouble codes as two bytes and as five characters, and who gives them their meaning. What a code means stands in
 * data/reference/trouble-codes.ini, not here. Refuses a letter, a second character or a length that no code has. */

#include "hs-trouble.h"

#include "hs-core-error.h"

#define HEX_DIGITS "0123456789ABCDEF"
#define LETTERS "PCBU"
/* From here on a P3 code is ISO/SAE's again. */
#define FIRST_GENERIC_P3 0x3400

static const char *const system_labels[] = { "powertrain", "chassis", "body", "network" };

static const char *const scope_labels[] = { "no code", "generic", "maker", "maker or reserved", "reserved" };

/* By the second character; a P3 code is told apart by its number. */
static const HsTroubleScope scopes[4][4] = {
  { HS_TROUBLE_GENERIC, HS_TROUBLE_MAKER, HS_TROUBLE_GENERIC, HS_TROUBLE_MAKER },
  { HS_TROUBLE_GENERIC, HS_TROUBLE_MAKER, HS_TROUBLE_MAKER, HS_TROUBLE_RESERVED },
  { HS_TROUBLE_GENERIC, HS_TROUBLE_MAKER, HS_TROUBLE_MAKER, HS_TROUBLE_RESERVED },
  { HS_TROUBLE_GENERIC, HS_TROUBLE_MAKER, HS_TROUBLE_MAKER, HS_TROUBLE_MAKER_OR_RESERVED },
};

/* A carmaker's table of 2008, by the third character. */
static const char *const part_labels[] = {
  "fuel, air and auxiliary emission controls", "fuel and air", "fuel and air", "ignition and misfire",
  "auxiliary emission controls", "speed and idle", "control unit and its outputs", "transmission", "transmission",
  "transmission",
};

static gboolean
refuse (GError **error, const char *text, const char *reason)
{
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” is not a trouble code: %s", text, reason);
  return FALSE;
}

/* Capitals and digits, without blanks and dashes. */
static char *
bare (const char *text)
{
  GString *kept = g_string_new (NULL);

  for (const char *at = text; *at != '\0'; at++)
    if (!g_ascii_isspace (*at) && *at != '-')
      g_string_append_c (kept, g_ascii_toupper (*at));
  return g_string_free (kept, FALSE);
}

static guint16
hex_value (const char *digits)
{
  return (guint16) g_ascii_strtoull (digits, NULL, 16);
}

gboolean
hs_trouble_parse (const char *text, guint16 *ret_value, GError **error)
{
  g_autofree char *code = bare (text);
  const char *letter = *code == '\0' ? NULL : strchr (LETTERS, *code);

  if (letter == NULL)
    return refuse (error, text, "it starts with P, C, B or U, such as P0133");
  if (strlen (code) != HS_TROUBLE_LENGTH)
    return refuse (error, text, "a letter and four characters, such as P0133; leave out what a tool adds behind them");
  if (code[1] < '0' || code[1] > '3')
    return refuse (error, text, "its second character is 0, 1, 2 or 3");
  if (strspn (code + 2, HEX_DIGITS) != 3)
    return refuse (error, text, "behind the second character stand digits and A to F only");
  *ret_value = (guint16) (((letter - LETTERS) << 14) | hex_value (code + 1));
  return TRUE;
}

char *
hs_trouble_format (guint16 value)
{
  return g_strdup_printf ("%c%d%03X", LETTERS[value >> 14], (value >> 12) & 3, value & 0xFFFu);
}

gboolean
hs_trouble_parse_hex (const char *text, guint16 *ret_value, GError **error)
{
  g_autofree char *code = bare (text);
  const char *digits = g_str_has_prefix (code, "0X") ? code + 2 : code;

  if (strlen (digits) != 4 || strspn (digits, HEX_DIGITS) != 4)
    return refuse (error, text, "two bytes are four hexadecimal digits, such as 0133");
  *ret_value = hex_value (digits);
  return TRUE;
}

HsTroubleScope
hs_trouble_scope (guint16 value)
{
  if (value == 0)
    return HS_TROUBLE_PADDING;
  if (value >= FIRST_GENERIC_P3 && value < 0x4000)
    return HS_TROUBLE_GENERIC;
  return scopes[value >> 14][(value >> 12) & 3];
}

const char *
hs_trouble_scope_label (HsTroubleScope scope)
{
  return scope_labels[scope];
}

const char *
hs_trouble_system_label (guint16 value)
{
  return system_labels[value >> 14];
}

const char *
hs_trouble_part_label (guint16 value)
{
  guint third = (value >> 8) & 0xF;

  if (value == 0 || value >> 12 != 0 || third >= G_N_ELEMENTS (part_labels))
    return NULL;
  return part_labels[third];
}
