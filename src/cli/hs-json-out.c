// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* JSON for machines: everything `--json` prints goes through here. It refuses nothing; a caller that leaves an object
 * open is a bug and is caught by an assertion. */

#include "hs-json-out.h"

#include "hs-cli.h"
#include "hs-decimal.h"

#include <math.h>
#include <string.h>

struct _HsJsonOut
{
  GString *text;
  GString *open; /* one character a level: the bracket that closes it */
  gboolean first;
};

static void
append_escaped (GString *text, gunichar sign)
{
  if (sign < 0x10000)
    g_string_append_printf (text, "\\u%04x", sign);
  else
    g_string_append_printf (text, "\\u%04x\\u%04x", 0xd800 + ((sign - 0x10000) >> 10), 0xdc00 + (sign & 0x3ff));
}

/* What would do harm on a terminal is escaped, so that the text may be looked at and still reads back as it was. */
static void
append_quoted (GString *text, const char *value)
{
  g_autofree char *valid = g_utf8_make_valid (value, -1);
  g_string_append_c (text, '"');
  for (const char *at = valid; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar sign = g_utf8_get_char (at);
      if (sign == '"' || sign == '\\')
        g_string_append_printf (text, "\\%c", (char) sign);
      else if (sign < 0x20 || hs_cli_is_harmful (sign))
        append_escaped (text, sign);
      else
        g_string_append_unichar (text, sign);
    }
  g_string_append_c (text, '"');
}

char *
hs_json_out_harmless (const char *json)
{
  g_autoptr (GString) text = g_string_sized_new (strlen (json));

  for (const char *at = json; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar sign = g_utf8_get_char (at);

      if (hs_cli_is_harmful (sign))
        append_escaped (text, sign);
      else
        g_string_append_unichar (text, sign);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
begin_value (HsJsonOut *out, const char *name)
{
  if (!out->first)
    g_string_append_c (out->text, ',');
  out->first = FALSE;
  if (out->open->len > 0)
    {
      g_string_append_c (out->text, '\n');
      for (gsize i = 0; i < out->open->len; i++)
        g_string_append (out->text, "  ");
    }
  if (name != NULL)
    {
      append_quoted (out->text, name);
      g_string_append (out->text, ": ");
    }
}

static void
begin_level (HsJsonOut *out, const char *name, const char *brackets)
{
  begin_value (out, name);
  g_string_append_c (out->text, brackets[0]);
  g_string_append_c (out->open, brackets[1]);
  out->first = TRUE;
}

static void
end_level (HsJsonOut *out, char bracket)
{
  g_assert (out->open->len > 0 && out->open->str[out->open->len - 1] == bracket);
  g_string_truncate (out->open, out->open->len - 1);
  if (!out->first)
    {
      g_string_append_c (out->text, '\n');
      for (gsize i = 0; i < out->open->len; i++)
        g_string_append (out->text, "  ");
    }
  g_string_append_c (out->text, bracket);
  out->first = FALSE;
}

HsJsonOut *
hs_json_out_new (void)
{
  HsJsonOut *out = g_new0 (HsJsonOut, 1);
  out->text = g_string_new (NULL);
  out->open = g_string_new (NULL);
  out->first = TRUE;
  return out;
}

void
hs_json_out_free (HsJsonOut *out)
{
  if (out == NULL)
    return;
  g_string_free (out->text, TRUE);
  g_string_free (out->open, TRUE);
  g_free (out);
}

void
hs_json_out_begin_object (HsJsonOut *out, const char *name)
{
  begin_level (out, name, "{}");
}

void
hs_json_out_end_object (HsJsonOut *out)
{
  end_level (out, '}');
}

void
hs_json_out_begin_array (HsJsonOut *out, const char *name)
{
  begin_level (out, name, "[]");
}

void
hs_json_out_end_array (HsJsonOut *out)
{
  end_level (out, ']');
}

void
hs_json_out_string (HsJsonOut *out, const char *name, const char *value)
{
  if (value == NULL)
    {
      hs_json_out_null (out, name);
      return;
    }
  begin_value (out, name);
  append_quoted (out->text, value);
}

void
hs_json_out_boolean (HsJsonOut *out, const char *name, gboolean value)
{
  begin_value (out, name);
  g_string_append (out->text, value ? "true" : "false");
}

void
hs_json_out_integer (HsJsonOut *out, const char *name, gint64 value)
{
  begin_value (out, name);
  g_string_append_printf (out->text, "%" G_GINT64_FORMAT, value);
}

void
hs_json_out_null (HsJsonOut *out, const char *name)
{
  begin_value (out, name);
  g_string_append (out->text, "null");
}

void
hs_json_out_decimal (HsJsonOut *out, const char *name, gint64 scaled, guint decimals)
{
  g_autofree char *digits = hs_decimal_format_short (scaled, decimals);
  begin_value (out, name);
  g_string_append (out->text, digits);
}

void
hs_json_out_real (HsJsonOut *out, const char *name, double value)
{
  if (!isfinite (value))
    {
      hs_json_out_null (out, name);
      return;
    }
  char digits[G_ASCII_DTOSTR_BUF_SIZE];
  for (int precision = 15; precision <= 17; precision++)
    {
      char format[8] = "%.";
      g_snprintf (format + 2, sizeof format - 2, "%dg", precision);
      g_ascii_formatd (digits, sizeof digits, format, value);
      if (g_ascii_strtod (digits, NULL) == value)
        break;
    }
  begin_value (out, name);
  g_string_append (out->text, digits);
}

char *
hs_json_out_to_string (HsJsonOut *out)
{
  g_assert (out->open->len == 0);
  return g_strdup_printf ("%s\n", out->text->str);
}
