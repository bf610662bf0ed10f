// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* As much of the interface org.freedesktop.Secret as looking up a secret needs before somebody has to be asked. */

#include "keyring.h"

#include <gio/gio.h>

struct _Keyring
{
  GSubprocess *bus;
  GDBusConnection *connection;
  int asked;
};

static GVariant *
make_answer (Keyring *keyring, GDBusMessage *call)
{
  const char *member = g_dbus_message_get_member (call);
  const char *algorithm = NULL;

  if (g_strcmp0 (member, "OpenSession") == 0)
    {
      g_variant_get_child (g_dbus_message_get_body (call), 0, "&s", &algorithm);
      return g_strcmp0 (algorithm, "plain") == 0 ? g_variant_new ("(vo)", g_variant_new_string (""), "/session") : NULL;
    }
  if (g_strcmp0 (member, "SearchItems") == 0)
    return g_variant_new_parsed ("(@ao [], [objectpath '/org/freedesktop/secrets/collection/own/1'])");
  if (g_strcmp0 (member, "Unlock") == 0)
    return g_variant_new_parsed ("(@ao [], objectpath '/org/freedesktop/secrets/prompt/1')");
  if (g_strcmp0 (member, "Prompt") == 0)
    {
      g_atomic_int_set (&keyring->asked, 1);
      return g_variant_new ("()");
    }
  return g_strcmp0 (member, "Dismiss") == 0 ? g_variant_new ("()") : NULL;
}

/* In the thread of the connection. */
static GDBusMessage *
filter (GDBusConnection *connection, GDBusMessage *message, gboolean incoming, gpointer data)
{
  g_autoptr (GDBusMessage) reply = NULL;
  GVariant *body;

  if (!incoming || g_dbus_message_get_message_type (message) != G_DBUS_MESSAGE_TYPE_METHOD_CALL)
    return message;
  body = make_answer (data, message);
  if (body == NULL)
    reply = g_dbus_message_new_method_error_literal (message, "org.freedesktop.DBus.Error.NotSupported", "no");
  else
    {
      reply = g_dbus_message_new_method_reply (message);
      g_dbus_message_set_body (reply, body);
    }
  g_dbus_connection_send_message (connection, reply, G_DBUS_SEND_MESSAGE_FLAGS_NONE, NULL, NULL);
  g_object_unref (message);
  return NULL;
}

static void
start_bus (Keyring *keyring)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GDataInputStream) said = NULL;
  g_autofree char *address = NULL;

  keyring->bus = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE | G_SUBPROCESS_FLAGS_STDERR_SILENCE, &error,
                                   "dbus-daemon", "--session", "--nofork", "--print-address", NULL);
  g_assert_no_error (error);
  said = g_data_input_stream_new (g_subprocess_get_stdout_pipe (keyring->bus));
  address = g_data_input_stream_read_line (said, NULL, NULL, &error);
  g_assert_no_error (error);
  g_setenv ("DBUS_SESSION_BUS_ADDRESS", address, TRUE);
}

static void
connect_to (Keyring *keyring)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GVariant) named = NULL;

  keyring->connection = g_dbus_connection_new_for_address_sync (
    g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
    G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, &error);
  g_assert_no_error (error);
  g_dbus_connection_add_filter (keyring->connection, filter, keyring, NULL);
  named = g_dbus_connection_call_sync (keyring->connection, "org.freedesktop.DBus", "/org/freedesktop/DBus",
                                       "org.freedesktop.DBus", "RequestName",
                                       g_variant_new ("(su)", "org.freedesktop.secrets", 4), NULL,
                                       G_DBUS_CALL_FLAGS_NONE, -1, NULL, &error);
  g_assert_no_error (error);
}

Keyring *
keyring_open (void)
{
  g_autofree char *daemon = g_find_program_in_path ("dbus-daemon");
  g_autoptr (GDBusConnection) session = NULL;
  Keyring *keyring;

  if (daemon == NULL)
    return NULL;
  keyring = g_new0 (Keyring, 1);
  start_bus (keyring);
  connect_to (keyring);
  /* What looks the secret up holds on to the bus, which goes away before it. */
  session = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  g_dbus_connection_set_exit_on_close (session, FALSE);
  return keyring;
}

void
keyring_close (Keyring *keyring)
{
  g_dbus_connection_close_sync (keyring->connection, NULL, NULL);
  g_object_unref (keyring->connection);
  g_subprocess_force_exit (keyring->bus);
  g_subprocess_wait (keyring->bus, NULL, NULL);
  g_object_unref (keyring->bus);
  g_free (keyring);
}

void
keyring_wait_asked (Keyring *keyring)
{
  while (g_atomic_int_get (&keyring->asked) == 0)
    g_usleep (1000);
}
