// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What goes between the queue and the wire: words and how it is freed. */

#include "hs-post-wire.h"

static const struct
{
  HsPostAuth auth;
  const char *id;
} auths[] = { { HS_POST_AUTH_NONE, "none" }, { HS_POST_AUTH_BEARER, "bearer" }, { HS_POST_AUTH_BASIC, "basic" } };

static void
test_auth (void)
{
  HsPostAuth auth = HS_POST_AUTH_BASIC;

  for (guint i = 0; i < G_N_ELEMENTS (auths); i++)
    {
      g_autofree char *upper = g_ascii_strup (auths[i].id, -1);

      g_assert_cmpstr (hs_post_auth_id (auths[i].auth), ==, auths[i].id);
      g_assert_true (hs_post_auth_parse (upper, &auth));
      g_assert_cmpint (auth, ==, auths[i].auth);
    }
  g_assert_false (hs_post_auth_parse ("digest", &auth));
  g_assert_false (hs_post_auth_parse ("", &auth));
  g_assert_cmpint (auth, ==, HS_POST_AUTH_BASIC);
}

static void
test_free (void)
{
  HsPostReply reply = { HS_POST_ANSWERED, 503, g_strdup ("5"), g_strdup ("busy") };
  HsPostParcel *parcel = g_new0 (HsPostParcel, 1);

  parcel->body = g_strdup ("{}");
  hs_post_parcel_free (parcel);
  hs_post_parcel_free (NULL);
  hs_post_reply_clear (&reply);
  g_assert_null (reply.retry_after);
  g_assert_null (reply.said);
  g_assert_cmpint (reply.status, ==, 0);
  hs_post_reply_clear (&reply);
}

/* A small message has what it is given; a large one a second more for each 16 KiB, within an hour more. */
static void
test_seconds (void)
{
  g_assert_cmpuint (hs_post_seconds_for (60, 0), ==, 60);
  g_assert_cmpuint (hs_post_seconds_for (60, 16383), ==, 60);
  g_assert_cmpuint (hs_post_seconds_for (60, 16384), ==, 61);
  g_assert_cmpuint (hs_post_seconds_for (1, 16 * 1024 * 1024), ==, 1025);
  g_assert_cmpuint (hs_post_seconds_for (60, G_MAXSIZE), ==, 3660);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/core/post-wire/auth", test_auth);
  g_test_add_func ("/core/post-wire/free", test_free);
  g_test_add_func ("/core/post-wire/seconds", test_seconds);
  return g_test_run ();
}
