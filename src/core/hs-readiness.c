// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which self-tests a vehicle has and which have not run yet, out of the bytes that a scan tool shows. Refuses anything
 * but whole bytes; says nothing about passing an inspection, since that is for the state to say. */

#include "hs-readiness.h"

#include "hs-core-error.h"

#define HEX_DIGITS "0123456789ABCDEF"
#define ANSWER "4101"
#define LAMP_BIT 0x80
#define COMPRESSION_BIT 0x08
#define BITS 8

static const char *const always[] = { "misfire", "fuel system", "components" };

/* By bit; NULL is reserved. */
static const char *const spark[BITS] = {
  "catalyst", "heated catalyst", "evaporative system", "secondary air", "air conditioning refrigerant",
  "oxygen sensor", "oxygen sensor heater", "exhaust gas recirculation",
};
static const char *const compression[BITS] = {
  "NMHC catalyst", "NOx aftertreatment", NULL, "boost pressure", NULL,
  "exhaust gas sensor", "particulate filter", "exhaust gas recirculation",
};

static gboolean
bytes_read (const char *text, guint8 bytes[HS_READINESS_BYTES], GError **error)
{
  g_autoptr (GString) kept = g_string_new (NULL);
  const char *digits;

  for (const char *at = text; *at != '\0'; at++)
    if (!g_ascii_isspace (*at))
      g_string_append_c (kept, g_ascii_toupper (*at));
  digits = kept->str;
  if (kept->len == strlen (ANSWER) + 2 * HS_READINESS_BYTES && g_str_has_prefix (digits, ANSWER))
    digits += strlen (ANSWER);
  if (strlen (digits) != 2 * HS_READINESS_BYTES || strspn (digits, HEX_DIGITS) != 2 * HS_READINESS_BYTES)
    {
      g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE,
                   "“%s” is not an answer to PID 01: write its four bytes like 83 07 65 04", text);
      return FALSE;
    }
  for (guint i = 0; i < HS_READINESS_BYTES; i++)
    bytes[i] = (guint8) (g_ascii_xdigit_value (digits[2 * i]) * 16 + g_ascii_xdigit_value (digits[2 * i + 1]));
  return TRUE;
}

static void
add_monitors (HsReadiness *readiness, const char *const *names, guint n_names, guint has, guint open)
{
  for (guint bit = 0; bit < n_names; bit++)
    if (names[bit] != NULL && (has >> bit & 1) != 0)
      readiness->monitors[readiness->n_monitors++] = (HsMonitor) { names[bit], (open >> bit & 1) == 0 };
}

gboolean
hs_readiness_parse (const char *text, HsReadiness *ret_readiness, GError **error)
{
  guint8 bytes[HS_READINESS_BYTES];
  HsReadiness readiness = { 0 };

  if (!bytes_read (text, bytes, error))
    return FALSE;
  readiness.lamp = (bytes[0] & LAMP_BIT) != 0;
  readiness.n_codes = bytes[0] & ~LAMP_BIT & 0xFFu;
  readiness.compression = (bytes[1] & COMPRESSION_BIT) != 0;
  add_monitors (&readiness, always, G_N_ELEMENTS (always), bytes[1], bytes[1] >> 4);
  add_monitors (&readiness, readiness.compression ? compression : spark, BITS, bytes[2], bytes[3]);
  *ret_readiness = readiness;
  return TRUE;
}

guint
hs_readiness_count_open (const HsReadiness *readiness)
{
  guint count = 0;

  for (guint i = 0; i < readiness->n_monitors; i++)
    count += !readiness->monitors[i].ready;
  return count;
}
