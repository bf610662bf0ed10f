// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Plain http on a network that is played: whatever a name leads to, nothing is begun outside of this machine and the
 * private networks. Names lead where `names` says, and nowhere else. */

#include "hs-post-near.h"
#include "hs-post-sender.h"

#include <string.h>

/* Numbers of RFC 5737 and RFC 3849 stand for the world outside. */
static const struct
{
  const char *name;
  const char *numbers[4];
} names[] = {
  { "bench", { "203.0.113.5" } },
  { "bench.local", { "2001:db8::5", "203.0.113.5", "198.51.100.7" } },
  { "shop.lan", { "203.0.113.5", "127.0.0.1" } },
  { "shop.home.arpa", { "127.0.0.1", "2001:db8::5" } },
};

#define TEST_TYPE_RESOLVER (test_resolver_get_type ())
G_DECLARE_FINAL_TYPE (TestResolver, test_resolver, TEST, RESOLVER, GResolver)

struct _TestResolver
{
  GResolver parent_instance;
};

G_DEFINE_FINAL_TYPE (TestResolver, test_resolver, G_TYPE_RESOLVER)

static void
free_numbers (gpointer data)
{
  g_list_free_full (data, g_object_unref);
}

static GList *
find (const char *name, GResolverNameLookupFlags flags, GError **error)
{
  GList *found = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    for (guint n = 0; g_str_equal (names[i].name, name) && names[i].numbers[n] != NULL; n++)
      {
        gboolean long_one = strchr (names[i].numbers[n], ':') != NULL;

        if ((long_one && (flags & G_RESOLVER_NAME_LOOKUP_FLAGS_IPV4_ONLY) != 0)
            || (!long_one && (flags & G_RESOLVER_NAME_LOOKUP_FLAGS_IPV6_ONLY) != 0))
          continue;
        found = g_list_append (found, g_inet_address_new_from_string (names[i].numbers[n]));
      }
  if (found == NULL)
    g_set_error (error, G_RESOLVER_ERROR, G_RESOLVER_ERROR_NOT_FOUND, "no such name: %s", name);
  return found;
}

static GList *
look_up_both (GResolver *resolver, const char *name, GCancellable *cancellable, GError **error)
{
  return find (name, G_RESOLVER_NAME_LOOKUP_FLAGS_DEFAULT, error);
}

static GList *
look_up (GResolver *resolver, const char *name, GResolverNameLookupFlags flags, GCancellable *cancellable,
         GError **error)
{
  return find (name, flags, error);
}

static void
look_up_async (GResolver *resolver, const char *name, GResolverNameLookupFlags flags, GCancellable *cancellable,
               GAsyncReadyCallback callback, gpointer data)
{
  g_autoptr (GTask) task = g_task_new (resolver, cancellable, callback, data);
  GError *error = NULL;
  GList *found = find (name, flags, &error);

  if (found != NULL)
    g_task_return_pointer (task, found, free_numbers);
  else
    g_task_return_error (task, error);
}

static GList *
look_up_finish (GResolver *resolver, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

static void
test_resolver_class_init (TestResolverClass *klass)
{
  GResolverClass *resolver = G_RESOLVER_CLASS (klass);

  resolver->lookup_by_name = look_up_both;
  resolver->lookup_by_name_with_flags = look_up;
  resolver->lookup_by_name_with_flags_async = look_up_async;
  resolver->lookup_by_name_with_flags_finish = look_up_finish;
}

static void
test_resolver_init (TestResolver *self)
{
}

/* An endpoint of this machine that takes one message. */
typedef struct
{
  GSocketListener *listener;
  GThread *thread;
  GString *heard;
  guint16 port;
} Endpoint;

static gpointer
serve (gpointer data)
{
  Endpoint *endpoint = data;
  g_autoptr (GSocketConnection) connection = g_socket_listener_accept (endpoint->listener, NULL, NULL, NULL);
  char buffer[4096];
  gssize got;

  /* Hanging up before all is read would cut the answer off. */
  while (!g_str_has_suffix (endpoint->heard->str, "{}")
         && (got = g_input_stream_read (g_io_stream_get_input_stream (G_IO_STREAM (connection)), buffer, sizeof buffer,
                                        NULL, NULL)) > 0)
    g_string_append_len (endpoint->heard, buffer, got);
  g_output_stream_write_all (g_io_stream_get_output_stream (G_IO_STREAM (connection)),
                             "HTTP/1.1 201 Created\r\nContent-Length: 0\r\n\r\n", 43, NULL, NULL, NULL);
  return NULL;
}

static void
open_endpoint (Endpoint *endpoint)
{
  g_autoptr (GInetAddress) here = g_inet_address_new_loopback (G_SOCKET_FAMILY_IPV4);
  g_autoptr (GSocketAddress) wanted = g_inet_socket_address_new (here, 0);
  g_autoptr (GSocketAddress) bound = NULL;
  g_autoptr (GError) error = NULL;

  endpoint->listener = g_socket_listener_new ();
  endpoint->heard = g_string_new (NULL);
  g_socket_listener_add_address (endpoint->listener, wanted, G_SOCKET_TYPE_STREAM, G_SOCKET_PROTOCOL_TCP, NULL, &bound,
                                 &error);
  g_assert_no_error (error);
  endpoint->port = g_inet_socket_address_get_port (G_INET_SOCKET_ADDRESS (bound));
  endpoint->thread = g_thread_new ("endpoint", serve, endpoint);
}

static void
close_endpoint (Endpoint *endpoint)
{
  g_thread_join (endpoint->thread);
  g_object_unref (endpoint->listener);
  g_string_free (endpoint->heard, TRUE);
}

static void
post_to (const char *host, guint16 port, HsPostReply *ret_reply)
{
  g_autoptr (HsPostSender) sender = hs_post_sender_new (20);
  g_autoptr (HsPostParcel) parcel = g_new0 (HsPostParcel, 1);

  parcel->key = g_strdup ("025b7f6d-800d-44cb-85c6-7cdb92faafcb");
  parcel->url = g_strdup_printf ("http://%s:%u/jobs", host, port);
  parcel->origin = g_strdup_printf ("http://%s:%u", host, port);
  parcel->body = g_strdup ("{}");
  hs_post_sender_send (sender, parcel, NULL, ret_reply);
}

static void
test_led_out (void)
{
  static const struct
  {
    const char *host;
    const char *to;
  } rows[] = {
    { "bench", "bench leads out of your own, to 203.0.113.5" },
    { "bench.local", "bench.local leads out of" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (HsPostReply) reply = { 0 };

      post_to (rows[i].host, 9, &reply);
      g_test_message ("%s: %s", rows[i].host, reply.said);
      g_assert_cmpint (reply.end, ==, HS_POST_UNREACHABLE);
      g_assert_nonnull (strstr (reply.said, rows[i].to));
    }
}

/* With numbers of both kinds only the near one is used; the name stands in the head all the same. */
static void
test_both (void)
{
  static const char *const hosts[] = { "shop.lan", "shop.home.arpa", "127.0.0.1" };

  for (guint i = 0; i < G_N_ELEMENTS (hosts); i++)
    {
      g_auto (HsPostReply) reply = { 0 };
      g_autofree char *head = NULL;
      Endpoint endpoint;

      open_endpoint (&endpoint);
      post_to (hosts[i], endpoint.port, &reply);
      g_assert_cmpint (reply.end, ==, HS_POST_ANSWERED);
      g_assert_cmpint (reply.status, ==, 201);
      head = g_strdup_printf ("\r\nHost: %s:%u\r\n", hosts[i], endpoint.port);
      g_assert_nonnull (strstr (endpoint.heard->str, head));
      close_endpoint (&endpoint);
    }
}

static void
test_no_name (void)
{
  g_auto (HsPostReply) reply = { 0 };

  post_to ("attic.local", 9, &reply);
  g_assert_cmpint (reply.end, ==, HS_POST_UNREACHABLE);
  g_assert_nonnull (strstr (reply.said, "no such name"));
}

static char *
walk (const char *host)
{
  g_autoptr (GSocketConnectable) near = hs_post_near_new (host, 80);
  g_autoptr (GSocketAddressEnumerator) walk = g_socket_connectable_enumerate (near);
  g_autoptr (GString) all = g_string_new (NULL);
  GSocketAddress *address;

  while ((address = g_socket_address_enumerator_next (walk, NULL, NULL)) != NULL)
    {
      g_autofree char *number = g_socket_connectable_to_string (G_SOCKET_CONNECTABLE (address));

      g_string_append_printf (all, "%s ", number);
      g_object_unref (address);
    }
  return g_string_free (g_steal_pointer (&all), FALSE);
}

/* One after another, for whoever waits for each. */
static void
test_walk (void)
{
  g_autofree char *out = walk ("bench");
  g_autofree char *both = walk ("shop.lan");
  g_autofree char *number = walk ("10.0.0.5");
  g_autofree char *far = walk ("203.0.113.5");
  g_autoptr (GSocketConnectable) near = hs_post_near_new ("bench", 80);
  g_autofree char *name = g_socket_connectable_to_string (near);

  g_assert_cmpstr (out, ==, "");
  g_assert_cmpstr (both, ==, "127.0.0.1:80 ");
  g_assert_cmpstr (number, ==, "10.0.0.5:80 ");
  g_assert_cmpstr (far, ==, "");
  g_assert_cmpstr (name, ==, "bench");
}

int
main (int argc, char **argv)
{
  g_autoptr (GResolver) resolver = NULL;

  g_test_init (&argc, &argv, NULL);
  resolver = g_object_new (TEST_TYPE_RESOLVER, NULL);
  g_resolver_set_default (resolver);
  g_test_add_func ("/post/near/led-out", test_led_out);
  g_test_add_func ("/post/near/both", test_both);
  g_test_add_func ("/post/near/no-name", test_no_name);
  g_test_add_func ("/post/near/walk", test_walk);
  return g_test_run ();
}
