// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* URIs for the telephone that lies beside the laptop: a number to call, a text to send. For a place see
 * hs_geo_format_uri(). Nothing is made of a number without a digit. */

#include "hs-hand-off.h"

#include "hs-phone.h"

#include <string.h>

/* The digits of a number, its plus in front; an extension is asked for by the one who calls. */
static char *
dup_number (const char *phone)
{
  g_autofree char *main_part = g_strdup (phone != NULL ? phone : "");
  g_autofree char *number = NULL;

  main_part[strcspn (main_part, "xXeE")] = '\0';
  number = hs_phone_digits (main_part);

  return *number == '\0' || g_str_equal (number, "+") ? NULL : g_steal_pointer (&number);
}

char *
hs_hand_off_tel (const char *phone)
{
  g_autofree char *number = dup_number (phone);

  return number != NULL ? g_strconcat ("tel:", number, NULL) : NULL;
}

char *
hs_hand_off_sms (const char *phone, const char *text)
{
  g_autofree char *number = dup_number (phone);
  g_autofree char *body = g_uri_escape_string (text, NULL, FALSE);

  return number != NULL ? g_strconcat ("sms:", number, "?body=", body, NULL) : NULL;
}
