// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Plain http goes to numbers that are near, whatever a name resolves to: on a strange network `bench` or `bench.local`
 * may be anybody's. Used in place of the address that the library would look up itself. */

#include "hs-post-near.h"

#include "hs-post-address.h"

struct _HsPostNear
{
  GObject parent_instance;

  GSocketConnectable *whole;
  char *host;
};

/* left_out: (nullable): the last number that was not near. */
#define HS_TYPE_POST_NEAR_WALK (hs_post_near_walk_get_type ())
G_DECLARE_FINAL_TYPE (HsPostNearWalk, hs_post_near_walk, HS, POST_NEAR_WALK, GSocketAddressEnumerator)

struct _HsPostNearWalk
{
  GSocketAddressEnumerator parent_instance;

  GSocketAddressEnumerator *whole;
  char *host;
  char *left_out;
  gboolean any;
};

static void hs_post_near_connectable_init (GSocketConnectableIface *iface);

G_DEFINE_FINAL_TYPE (HsPostNearWalk, hs_post_near_walk, G_TYPE_SOCKET_ADDRESS_ENUMERATOR)
G_DEFINE_FINAL_TYPE_WITH_CODE (HsPostNear, hs_post_near, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_SOCKET_CONNECTABLE, hs_post_near_connectable_init))

/* TRUE if @address may be used; what may not is remembered. */
static gboolean
check (HsPostNearWalk *self, GSocketAddress *address)
{
  g_autofree char *number = NULL;

  if (G_IS_INET_SOCKET_ADDRESS (address))
    number = g_inet_address_to_string (g_inet_socket_address_get_address (G_INET_SOCKET_ADDRESS (address)));
  if (number != NULL && hs_post_number_is_near (number))
    {
      self->any = TRUE;
      return TRUE;
    }
  g_free (self->left_out);
  self->left_out = g_steal_pointer (&number);
  return FALSE;
}

/* At the end: nothing, which is an error only if there was something that was left out. */
static GSocketAddress *
blame (HsPostNearWalk *self, GError **error)
{
  if (!self->any && self->left_out != NULL)
    g_set_error (error, G_IO_ERROR, G_IO_ERROR_HOST_UNREACHABLE,
                 "On this network %s leads out of your own, to %s; http:// goes there nowhere.", self->host,
                 self->left_out);
  return NULL;
}

static GSocketAddress *
next (GSocketAddressEnumerator *walk, GCancellable *cancellable, GError **error)
{
  HsPostNearWalk *self = HS_POST_NEAR_WALK (walk);
  GError *failure = NULL;
  GSocketAddress *address;

  while ((address = g_socket_address_enumerator_next (self->whole, cancellable, &failure)) != NULL)
    {
      if (check (self, address))
        return address;
      g_object_unref (address);
    }
  if (failure == NULL)
    return blame (self, error);
  g_propagate_error (error, failure);
  return NULL;
}

static void on_next (GObject *source, GAsyncResult *result, gpointer data);

static void
ask (GTask *task)
{
  HsPostNearWalk *self = g_task_get_source_object (task);

  g_socket_address_enumerator_next_async (self->whole, g_task_get_cancellable (task), on_next, task);
}

static void
on_next (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GTask) task = data;
  HsPostNearWalk *self = g_task_get_source_object (task);
  GError *failure = NULL;
  g_autoptr (GSocketAddress) address
    = g_socket_address_enumerator_next_finish (G_SOCKET_ADDRESS_ENUMERATOR (source), result, &failure);

  if (address != NULL && !check (self, address))
    {
      ask (g_steal_pointer (&task));
      return;
    }
  if (address == NULL && failure == NULL)
    blame (self, &failure);
  if (failure != NULL)
    g_task_return_error (task, failure);
  else
    g_task_return_pointer (task, g_steal_pointer (&address), g_object_unref);
}

static void
next_async (GSocketAddressEnumerator *walk, GCancellable *cancellable, GAsyncReadyCallback callback, gpointer data)
{
  ask (g_task_new (walk, cancellable, callback, data));
}

static GSocketAddress *
next_finish (GSocketAddressEnumerator *walk, GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}

static void
hs_post_near_walk_finalize (GObject *object)
{
  HsPostNearWalk *self = HS_POST_NEAR_WALK (object);

  g_clear_object (&self->whole);
  g_free (self->host);
  g_free (self->left_out);
  G_OBJECT_CLASS (hs_post_near_walk_parent_class)->finalize (object);
}

static void
hs_post_near_walk_class_init (HsPostNearWalkClass *klass)
{
  GSocketAddressEnumeratorClass *enumerator = G_SOCKET_ADDRESS_ENUMERATOR_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_post_near_walk_finalize;
  enumerator->next = next;
  enumerator->next_async = next_async;
  enumerator->next_finish = next_finish;
}

static void
hs_post_near_walk_init (HsPostNearWalk *self)
{
}

static GSocketAddressEnumerator *
enumerate (GSocketConnectable *connectable)
{
  HsPostNear *self = HS_POST_NEAR (connectable);
  HsPostNearWalk *walk = g_object_new (HS_TYPE_POST_NEAR_WALK, NULL);

  walk->whole = g_socket_connectable_enumerate (self->whole);
  walk->host = g_strdup (self->host);
  return G_SOCKET_ADDRESS_ENUMERATOR (walk);
}

static char *
to_string (GSocketConnectable *connectable)
{
  return g_strdup (HS_POST_NEAR (connectable)->host);
}

static void
hs_post_near_connectable_init (GSocketConnectableIface *iface)
{
  iface->enumerate = enumerate;
  iface->proxy_enumerate = enumerate;
  iface->to_string = to_string;
}

static void
hs_post_near_finalize (GObject *object)
{
  HsPostNear *self = HS_POST_NEAR (object);

  g_clear_object (&self->whole);
  g_free (self->host);
  G_OBJECT_CLASS (hs_post_near_parent_class)->finalize (object);
}

static void
hs_post_near_class_init (HsPostNearClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hs_post_near_finalize;
}

static void
hs_post_near_init (HsPostNear *self)
{
}

GSocketConnectable *
hs_post_near_new (const char *host, guint16 port)
{
  HsPostNear *self = g_object_new (HS_TYPE_POST_NEAR, NULL);

  self->whole = g_network_address_new (host, port);
  self->host = g_strdup (host);
  return G_SOCKET_CONNECTABLE (self);
}
