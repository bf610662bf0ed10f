// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* URIs for a telephone, written out by hand after RFC 3966, RFC 5724 and RFC 3986. */

#include "hs-hand-off.h"

static const struct
{
  const char *phone;
  const char *tel;
} numbers[] = {
  { "555-0121", "tel:5550121" },
  { "(212) 555 01 21", "tel:2125550121" },
  { "+1 212 555-0121", "tel:+12125550121" },
  { "  +44 (0) 20 5550121", "tel:+440205550121" },
  { "555-0121 x12", "tel:5550121" },
  { "555 0121 ext. 12", "tel:5550121" },
  { "no number", NULL },
  { "+", NULL },
  { "", NULL },
  { NULL, NULL },
};

static void
test_tel (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autofree char *tel = hs_hand_off_tel (numbers[i].phone);

      g_assert_cmpstr (tel, ==, numbers[i].tel);
    }
}

static const struct
{
  const char *text;
  const char *body;
} texts[] = {
  { "I am late", "I%20am%20late" },
  { "10:45, sure? 50% & more = +1 #2", "10%3A45%2C%20sure%3F%2050%25%20%26%20more%20%3D%20%2B1%20%232" },
  { "a-b_c.d~e", "a-b_c.d~e" },
  { "one\r\ntwo", "one%0D%0Atwo" },
  { "Señora", "Se%C3%B1ora" },
  { "“€”", "%E2%80%9C%E2%82%AC%E2%80%9D" },
  { "", "" },
};

static void
test_sms (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *sms = hs_hand_off_sms ("+1 555-0121", texts[i].text);
      g_autofree char *wanted = g_strconcat ("sms:+15550121?body=", texts[i].body, NULL);

      g_assert_cmpstr (sms, ==, wanted);
    }
  g_assert_null (hs_hand_off_sms (NULL, "x"));
  g_assert_null (hs_hand_off_sms ("none", "x"));
}

/* What is read back is what was said. */
static void
test_back (void)
{
  static const char *const said[] = { "I’ll be there at 10:45 — sorry!", "a=b&c=d", "100 %", "línea 1\nlínea 2" };

  for (guint i = 0; i < G_N_ELEMENTS (said); i++)
    {
      g_autofree char *sms = hs_hand_off_sms ("5550121", said[i]);
      g_autofree char *back = g_uri_unescape_string (sms + 17, NULL);

      g_assert_true (g_str_has_prefix (sms, "sms:5550121?body="));
      g_assert_cmpstr (back, ==, said[i]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/hand-off/tel", test_tel);
  g_test_add_func ("/core/hand-off/sms", test_sms);
  g_test_add_func ("/core/hand-off/back", test_back);
  return g_test_run ();
}
