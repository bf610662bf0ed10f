// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which addresses may be posted to. Private numbers are those of RFC 1918, 3927 and 4193, names those of RFC 6761, 6762
 * and 8375. */

#include "hs-core-error.h"
#include "hs-post-address.h"

#include <string.h>

static const struct
{
  const char *text;
  const char *origin;
  gboolean private_network;
  gboolean has_id;
} taken[] = {
  { "https://example.org/jobs", "https://example.org:443", FALSE, FALSE },
  { "  https://Example.ORG:8443/a/b?x=1&y=%20 \n", "https://example.org:8443", FALSE, FALSE },
  { "https://example.org", "https://example.org:443", FALSE, FALSE },
  { "https://example.org/jobs/{id}.json", "https://example.org:443", FALSE, TRUE },
  { "https://example.org/?job={id}", "https://example.org:443", FALSE, TRUE },
  { "https://[2001:db8::7]/jobs", "https://[2001:db8::7]:443", FALSE, FALSE },
  { "https://203.0.113.7:65535/", "https://203.0.113.7:65535", FALSE, FALSE },
  { "HTTPS://example.org/x", "https://example.org:443", FALSE, FALSE },
  { "http://localhost:8080/jobs", "http://localhost:8080", FALSE, FALSE },
  { "http://127.0.0.1/", "http://127.0.0.1:80", FALSE, FALSE },
  { "http://127.255.0.9/", "http://127.255.0.9:80", FALSE, FALSE },
  { "http://[::1]:81/", "http://[::1]:81", FALSE, FALSE },
  { "http://10.0.0.5/", "http://10.0.0.5:80", TRUE, FALSE },
  { "http://172.16.0.1/", "http://172.16.0.1:80", TRUE, FALSE },
  { "http://172.31.255.1/", "http://172.31.255.1:80", TRUE, FALSE },
  { "http://192.168.1.20:5000/jobs/{id}", "http://192.168.1.20:5000", TRUE, TRUE },
  { "http://169.254.3.4/", "http://169.254.3.4:80", TRUE, FALSE },
  { "http://[fd12:3456::1]/", "http://[fd12:3456::1]:80", TRUE, FALSE },
  { "http://[fe80::1]/", "http://[fe80::1]:80", TRUE, FALSE },
  { "http://bench/jobs", "http://bench:80", TRUE, FALSE },
  { "http://bench.local/jobs", "http://bench.local:80", TRUE, FALSE },
  { "http://bench.home.arpa/", "http://bench.home.arpa:80", TRUE, FALSE },
};

static const struct
{
  const char *text;
  gboolean private_network;
  const char *why;
} refused[] = {
  { "", FALSE, "This is no address" },
  { "example.org/jobs", FALSE, "" },
  { "ftp://example.org/jobs", FALSE, "begins with https://, not with ftp" },
  { "file:///etc/passwd", FALSE, "begins with https" },
  { "https:///jobs", FALSE, "needs a host" },
  { "https://:443/jobs", FALSE, "needs a host" },
  { "https://example.org:0/", FALSE, "port" },
  { "https://example.org:65536/", FALSE, "" },
  { "https://example.org:x/", FALSE, "" },
  { "https://.example.org/", FALSE, "needs a host" },
  { "https://ann@example.org/", FALSE, "Take the name and the password out" },
  { "https://ann:pw@example.org/", FALSE, "Take the name and the password out" },
  { "https://@example.org/", FALSE, "" },
  { "https://example.org/#jobs", FALSE, "behind #" },
  { "https://example.org/a b", FALSE, "blank" },
  { "https://example.org/a\tb", FALSE, "blank" },
  { "https://example.org/a\r\nHost: other", FALSE, "blank" },
  { "https://example.org/\x01", FALSE, "blank" },
  { "https://example.org/\x7f", FALSE, "blank" },
  { "https://ex\xc3\xa4mple.org/", FALSE, "xn--" },
  { "https://example.org\\@other.org/", FALSE, "blank" },
  { "https://example.org/<x>", FALSE, "blank" },
  { "https://example.org/%", FALSE, "%25" },
  { "https://example.org/%4", FALSE, "%25" },
  { "https://example.org/%zz", FALSE, "%25" },
  { "https://example.org/%00", FALSE, "%25" },
  { "https://exam%70le.org/", FALSE, "" },
  { "https://[fe80::1%25eth0]/", FALSE, "" },
  { "https://[::1/", FALSE, "" },
  { "https://{id}.example.org/", FALSE, "stands behind the host" },
  { "https://{id}/", FALSE, "stands behind the host" },
  { "https://example.org?{id}", FALSE, "stands behind the host" },
  { "https://example.org/{id}/{id}", FALSE, "once" },
  { "https://example.org/{number}", FALSE, "once" },
  { "https://example.org/{id", FALSE, "once" },
  { "https://example.org/id}", FALSE, "once" },
  { "http://example.org/", FALSE, "switch on the private network" },
  { "http://10.0.0.5/", FALSE, "switch on the private network" },
  { "http://bench/", FALSE, "switch on the private network" },
  { "http://example.org/", TRUE, "not in a private network" },
  { "http://172.15.0.1/", TRUE, "not in a private network" },
  { "http://172.32.0.1/", TRUE, "not in a private network" },
  { "http://192.169.0.1/", TRUE, "not in a private network" },
  { "http://11.0.0.1/", TRUE, "not in a private network" },
  { "http://[2001:db8::1]/", TRUE, "not in a private network" },
  { "http://[fc::1]/", TRUE, "not in a private network" },
  { "http://[::ffff:10.0.0.1]/", TRUE, "not in a private network" },
  { "http://[fec0::1]/", TRUE, "not in a private network" },
  /* Digits that some readers take for a number of another place. */
  { "http://134744072/", TRUE, "not in a private network" },
  { "http://0x08080808/", TRUE, "not in a private network" },
  { "http://10.8.8/", TRUE, "not in a private network" },
  { "http://127.1/", FALSE, "not this machine" },
  { "http://0127.0.0.1/", FALSE, "not this machine" },
  { "http://127.0.0.01/", FALSE, "not this machine" },
  { "http://010.0.0.5/", TRUE, "not in a private network" },
  { "http://192.0168.0.1/", TRUE, "not in a private network" },
  { "http://192.168.1.00/", TRUE, "not in a private network" },
  { "http://[0:0:0:0:0:0:0:1]/", FALSE, "not this machine" },
  { "http://[::]/", TRUE, "not in a private network" },
  { "http://0.0.0.0/", TRUE, "not in a private network" },
  { "http://localhost./", TRUE, "not in a private network" },
  { "http://bench.local./", TRUE, "not in a private network" },
  { "http://10.0.0.5./", TRUE, "not in a private network" },
  { "https://example.org:{id}/", FALSE, "stands behind the host" },
  { "https://example.org:-1/", FALSE, "" },
  { "https://example.org:+443/", FALSE, "" },
  { "https://[v1.x]/", FALSE, "" },
  { "https://10.0.0.5@example.org/", FALSE, "Take the name and the password out" },
  { "https://example.org%2F@other.org/", FALSE, "" },
  { "http://notlocalhost/", FALSE, "not this machine" },
  { "http://localhost.example.org/", TRUE, "not in a private network" },
  { "http://benchlocal.org/", TRUE, "not in a private network" },
};

static void
test_taken (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (taken); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HsPostAddress) address = hs_post_address_parse (taken[i].text, taken[i].private_network, &error);
      g_autofree char *bare = g_strstrip (g_strdup (taken[i].text));

      g_test_message ("%s", taken[i].text);
      g_assert_no_error (error);
      g_assert_cmpstr (address->origin, ==, taken[i].origin);
      g_assert_cmpint (address->has_id, ==, taken[i].has_id);
      g_assert_cmpstr (address->url, ==, bare);
    }
}

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", refused[i].text);
      g_assert_null (hs_post_address_parse (refused[i].text, refused[i].private_network, &error));
      g_assert_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE);
      g_test_message ("%s", error->message);
      g_assert_nonnull (strstr (error->message, refused[i].why));
    }
}

/* What a name led to; RFC 1918, 3927, 4193 and 4291, 2.5.6. */
static void
test_near (void)
{
  static const char *const near[] = { "127.0.0.1", "127.255.255.254", "::1", "10.0.0.1", "172.16.0.1", "172.31.255.255",
                                      "192.168.0.1", "169.254.1.1", "fc00::1", "fdff::1", "fe80::1", "febf::1" };
  static const char *const far[] = { "203.0.113.5", "128.0.0.1", "9.255.255.255", "172.32.0.1", "192.167.255.255",
                                     "0.0.0.0", "169.253.0.1", "100.64.0.1", "::", "::2", "2001:db8::1", "fbff::1",
                                     "fec0::1", "ff02::1", "::ffff:203.0.113.5", "fc::1", "", "bench.local" };

  for (guint i = 0; i < G_N_ELEMENTS (near); i++)
    g_assert_true (hs_post_number_is_near (near[i]));
  for (guint i = 0; i < G_N_ELEMENTS (far); i++)
    g_assert_false (hs_post_number_is_near (far[i]));
}

/* Each sign of each address that is taken, turned into each ASCII sign: what is still taken holds nothing that two
 * readers could read differently, and is over http only where the row before was, or nearer. */
static void
test_bent (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (taken); i++)
    for (gsize at = 0; at < strlen (taken[i].text); at++)
      for (int sign = 1; sign < 128; sign++)
        {
          g_autofree char *bent = g_strdup (taken[i].text);
          g_autoptr (HsPostAddress) address = NULL;

          bent[at] = (char) sign;
          address = hs_post_address_parse (bent, FALSE, NULL);
          if (address == NULL)
            continue;
          for (const char *letter = address->url; *letter != '\0'; letter++)
            g_assert_true (g_ascii_isgraph (*letter));
          g_assert_null (strpbrk (address->host, "/@#?%{}\\ "));
          g_assert_null (strchr (address->url, '#'));
          if (g_str_has_prefix (address->origin, "http:"))
            g_assert_true (g_ascii_strcasecmp (address->host, "localhost") == 0
                           || g_str_has_prefix (address->host, "127.") || g_str_equal (address->host, "::1"));
        }
}

static void
test_length (void)
{
  g_autofree char *letters = g_strnfill (HS_POST_ADDRESS_BYTES, 'x');
  g_autofree char *fits = g_strdup_printf ("https://example.org/%.*s", HS_POST_ADDRESS_BYTES - 20, letters);
  g_autofree char *long_one = g_strconcat (fits, "x", NULL);
  g_autoptr (HsPostAddress) address = hs_post_address_parse (fits, FALSE, NULL);

  g_assert_nonnull (address);
  g_assert_null (hs_post_address_parse (long_one, FALSE, NULL));
}

static void
test_expand (void)
{
  g_autoptr (HsPostAddress) one = hs_post_address_parse ("https://example.org/j/{id}.json?v=1", FALSE, NULL);
  g_autoptr (HsPostAddress) all = hs_post_address_parse ("https://example.org/j", FALSE, NULL);
  g_autofree char *put = hs_post_address_expand (one, "025b7f6d-800d-44cb-85c6-7cdb92faafcb");
  g_autofree char *odd = hs_post_address_expand (one, "../a b?c#{id}");
  g_autofree char *post = hs_post_address_expand (all, "025b7f6d");

  g_assert_cmpstr (put, ==, "https://example.org/j/025b7f6d-800d-44cb-85c6-7cdb92faafcb.json?v=1");
  g_assert_cmpstr (odd, ==, "https://example.org/j/..%2Fa%20b%3Fc%23%7Bid%7D.json?v=1");
  g_assert_cmpstr (post, ==, "https://example.org/j");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/post-address/taken", test_taken);
  g_test_add_func ("/core/post-address/refused", test_refused);
  g_test_add_func ("/core/post-address/near", test_near);
  g_test_add_func ("/core/post-address/bent", test_bent);
  g_test_add_func ("/core/post-address/length", test_length);
  g_test_add_func ("/core/post-address/expand", test_expand);
  return g_test_run ();
}
