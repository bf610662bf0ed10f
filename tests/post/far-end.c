// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An endpoint of the tests that keeps what it is sent and fails in whatever way it is told; with CERTIFICATE and KEY
 * over TLS. It says its port, then obeys lines of standard input, until they end. A step is for the next message; when
 * there is none, a message is kept and answered with 201. What may hold blanks is in base64, `-` is nothing:
 *
 *   answer STATUS HEADERS BODY   answers so and keeps nothing; HEADERS are lines
 *   raw BYTES PIECE              the bytes as they are, then the piece for ever, or the end
 *   lost                         keeps it and hangs up
 *   slow MILLISECONDS            keeps it and answers late
 *   hold KEEP                    keeps it if KEEP is 1, and says nothing before `go`; then hangs up
 *   pass                         as without a step
 *   clear                        no more steps
 *   go                           for what is held
 *   seen FROM                    says `state CONNECTIONS MOST-AT-ONCE HELD`, a line `message METHOD PATH HEADERS BODY`
 *                                for each that was kept from the FROMth on, and `.`
 */

#include <libsoup/soup.h>
#include <stdio.h>
#include <string.h>

typedef struct
{
  char *method;
  char *path;
  char *headers;
  GBytes *body;
} Kept;

/* What is done with a connection that was taken from the server, in a thread of its own. */
typedef struct
{
  GIOStream *stream;
  guint milliseconds;
  gboolean hold;
  GBytes *bytes;
  GBytes *piece;
} Course;

static struct
{
  GMainLoop *loop;
  SoupServer *server;
  GTlsCertificate *certificate;
  GQueue steps;
  GPtrArray *kept;
  guint connections;
  int at_once;
  int most_at_once;
  GMutex lock;
  GCond went;
  guint held;
  guint goes;
} far;

/* What is said ----------------------------------------------------------------------------------------------------- */

static char *
code (gconstpointer data, gsize length)
{
  return length == 0 ? g_strdup ("-") : g_base64_encode (data, length);
}

static GBytes *
decode (const char *text)
{
  gsize length = 0;
  guchar *data = text == NULL || g_str_equal (text, "-") ? NULL : g_base64_decode (text, &length);

  return g_bytes_new_take (data, length);
}

static void
say_kept (const Kept *kept)
{
  g_autofree char *path = code (kept->path, strlen (kept->path));
  g_autofree char *headers = code (kept->headers, strlen (kept->headers));
  g_autofree char *body = code (g_bytes_get_data (kept->body, NULL), g_bytes_get_size (kept->body));

  printf ("message %s %s %s %s\n", kept->method, path, headers, body);
}

static void
say_seen (guint from)
{
  guint held;

  g_mutex_lock (&far.lock);
  held = far.held;
  g_mutex_unlock (&far.lock);
  printf ("state %u %d %u\n", far.connections, g_atomic_int_get (&far.most_at_once), held);
  for (guint i = from; i < far.kept->len; i++)
    say_kept (g_ptr_array_index (far.kept, i));
  printf (".\n");
  (void) fflush (stdout);
}

/* What is kept ----------------------------------------------------------------------------------------------------- */

static void
add_header (const char *name, const char *value, gpointer data)
{
  g_string_append_printf (data, "%s: %s\n", name, value);
}

static void
keep (SoupServerMessage *message)
{
  GUri *uri = soup_server_message_get_uri (message);
  g_autoptr (GString) headers = g_string_new (NULL);
  Kept *kept = g_new0 (Kept, 1);

  soup_message_headers_foreach (soup_server_message_get_request_headers (message), add_header, headers);
  kept->method = g_strdup (soup_server_message_get_method (message));
  kept->path = g_strconcat (g_uri_get_path (uri), g_uri_get_query (uri) != NULL ? "?" : NULL, g_uri_get_query (uri),
                            NULL);
  kept->headers = g_strdup (headers->str);
  kept->body = soup_message_body_flatten (soup_server_message_get_request_body (message));
  g_ptr_array_add (far.kept, kept);
}

static void
free_kept (gpointer data)
{
  Kept *kept = data;

  g_free (kept->method);
  g_free (kept->path);
  g_free (kept->headers);
  g_bytes_unref (kept->body);
  g_free (kept);
}

/* How many are under way ------------------------------------------------------------------------------------------- */

static void
begin_one (void)
{
  int now = g_atomic_int_add (&far.at_once, 1) + 1;

  if (now > g_atomic_int_get (&far.most_at_once))
    g_atomic_int_set (&far.most_at_once, now);
}

static void
end_one (void)
{
  g_atomic_int_add (&far.at_once, -1);
}

/* Courses ---------------------------------------------------------------------------------------------------------- */

static void
wait_for_go (void)
{
  guint mine;

  g_mutex_lock (&far.lock);
  mine = ++far.held;
  while (far.goes < mine)
    g_cond_wait (&far.went, &far.lock);
  g_mutex_unlock (&far.lock);
}

static gboolean
write_bytes (GIOStream *stream, GBytes *bytes)
{
  gsize size;
  gconstpointer data = g_bytes_get_data (bytes, &size);

  return g_output_stream_write_all (g_io_stream_get_output_stream (stream), data, size, NULL, NULL, NULL);
}

static gpointer
run_course (gpointer data)
{
  Course *course = data;

  if (course->hold)
    wait_for_go ();
  g_usleep (course->milliseconds * 1000UL);
  if (write_bytes (course->stream, course->bytes) && g_bytes_get_size (course->piece) > 0)
    while (write_bytes (course->stream, course->piece))
      ;
  g_io_stream_close (course->stream, NULL, NULL);
  end_one ();
  g_object_unref (course->stream);
  g_bytes_unref (course->bytes);
  g_bytes_unref (course->piece);
  g_free (course);
  return NULL;
}

static void
begin_course (SoupServerMessage *message, guint milliseconds, gboolean hold, GBytes *bytes, GBytes *piece)
{
  Course *course = g_new0 (Course, 1);

  *course = (Course) { soup_server_message_steal_connection (message), milliseconds, hold, bytes, piece };
  begin_one ();
  g_thread_unref (g_thread_new ("course", run_course, course));
}

/* Answers ---------------------------------------------------------------------------------------------------------- */

static void
on_finished (SoupServerMessage *message, gpointer data)
{
  end_one ();
}

static void
answer (SoupServerMessage *message, guint status, GBytes *headers, GBytes *body)
{
  gsize size;
  const char *data = g_bytes_get_data (headers, &size);
  g_autofree char *text = g_strndup (size == 0 ? "" : data, size);
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  begin_one ();
  g_signal_connect (message, "finished", G_CALLBACK (on_finished), NULL);
  soup_server_message_set_status (message, status, NULL);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      char *value = strchr (lines[i], ':');

      if (value == NULL)
        continue;
      *value++ = '\0';
      soup_message_headers_append (soup_server_message_get_response_headers (message), lines[i], g_strstrip (value));
    }
  if (g_bytes_get_size (body) > 0)
    soup_message_body_append_bytes (soup_server_message_get_response_body (message), body);
  soup_message_body_complete (soup_server_message_get_response_body (message));
}

static void
answer_taken (SoupServerMessage *message)
{
  g_autoptr (GBytes) nothing = g_bytes_new (NULL, 0);

  keep (message);
  answer (message, SOUP_STATUS_CREATED, nothing, nothing);
}

static GBytes *
late_answer (void)
{
  static const char text[] = "HTTP/1.1 201 Created\r\nContent-Length: 0\r\nConnection: close\r\n\r\n";

  return g_bytes_new_static (text, strlen (text));
}

/* words: what the step says; missing ones are empty. */
static void
take_step (SoupServerMessage *message, char **words)
{
  const char *first = words[1] != NULL ? words[1] : "";
  GBytes *nothing = g_bytes_new (NULL, 0);

  if (g_str_equal (words[0], "answer"))
    {
      g_autoptr (GBytes) headers = decode (words[2]);
      g_autoptr (GBytes) body = decode (words[2] != NULL ? words[3] : NULL);

      answer (message, (guint) g_ascii_strtoull (first, NULL, 10), headers, body);
    }
  else if (g_str_equal (words[0], "raw"))
    begin_course (message, 0, FALSE, decode (first), decode (words[2]));
  else if (g_str_equal (words[0], "slow"))
    {
      keep (message);
      begin_course (message, (guint) g_ascii_strtoull (first, NULL, 10), FALSE, late_answer (), g_bytes_ref (nothing));
    }
  else if (g_str_equal (words[0], "hold") || g_str_equal (words[0], "lost"))
    {
      if (!g_str_equal (first, "0"))
        keep (message);
      begin_course (message, 0, g_str_equal (words[0], "hold"), g_bytes_ref (nothing), g_bytes_ref (nothing));
    }
  else
    answer_taken (message);
  g_bytes_unref (nothing);
}

static void
on_message (SoupServer *server, SoupServerMessage *message, const char *path, GHashTable *query, gpointer data)
{
  g_auto (GStrv) words = g_queue_pop_head (&far.steps);

  if (words != NULL)
    take_step (message, words);
  else
    answer_taken (message);
}

/* Connections ------------------------------------------------------------------------------------------------------ */

static gboolean
on_incoming (GSocketService *service, GSocketConnection *connection, GObject *source, gpointer data)
{
  g_autoptr (GSocketAddress) local = g_socket_connection_get_local_address (connection, NULL);
  g_autoptr (GSocketAddress) remote = g_socket_connection_get_remote_address (connection, NULL);
  g_autoptr (GIOStream) stream = NULL;

  far.connections++;
  stream = far.certificate == NULL
             ? g_object_ref (G_IO_STREAM (connection))
             : g_tls_server_connection_new (G_IO_STREAM (connection), far.certificate, NULL);
  if (stream != NULL && local != NULL && remote != NULL)
    soup_server_accept_iostream (far.server, stream, local, remote, NULL);
  return TRUE;
}

static guint16
listen_here (GSocketService *service, GError **error)
{
  g_autoptr (GInetAddress) here = g_inet_address_new_loopback (G_SOCKET_FAMILY_IPV4);
  g_autoptr (GSocketAddress) wanted = g_inet_socket_address_new (here, 0);
  g_autoptr (GSocketAddress) bound = NULL;

  if (!g_socket_listener_add_address (G_SOCKET_LISTENER (service), wanted, G_SOCKET_TYPE_STREAM, G_SOCKET_PROTOCOL_TCP,
                                      NULL, &bound, error))
    return 0;
  return g_inet_socket_address_get_port (G_INET_SOCKET_ADDRESS (bound));
}

/* Lines ------------------------------------------------------------------------------------------------------------ */

static void
let_go (void)
{
  g_mutex_lock (&far.lock);
  far.goes = far.held;
  g_cond_broadcast (&far.went);
  g_mutex_unlock (&far.lock);
}

static void
obey (const char *line)
{
  char **words = g_strsplit (line, " ", -1);

  if (g_strcmp0 (words[0], "seen") == 0)
    say_seen (words[1] == NULL ? 0 : (guint) g_ascii_strtoull (words[1], NULL, 10));
  else if (g_strcmp0 (words[0], "go") == 0)
    let_go ();
  else if (g_strcmp0 (words[0], "clear") == 0)
    g_queue_clear_full (&far.steps, (GDestroyNotify) g_strfreev);
  else if (words[0] != NULL)
    g_queue_push_tail (&far.steps, g_steal_pointer (&words));
  g_strfreev (words);
}

static void
on_line (GObject *source, GAsyncResult *result, gpointer data)
{
  GDataInputStream *in = G_DATA_INPUT_STREAM (source);
  g_autofree char *line = g_data_input_stream_read_line_finish (in, result, NULL, NULL);

  if (line == NULL)
    {
      g_main_loop_quit (far.loop);
      return;
    }
  obey (line);
  g_data_input_stream_read_line_async (in, G_PRIORITY_DEFAULT, NULL, on_line, NULL);
}

static gboolean
prepare (int argc, char **argv, GError **error)
{
  far.loop = g_main_loop_new (NULL, FALSE);
  far.server = soup_server_new (NULL, NULL);
  far.kept = g_ptr_array_new_with_free_func (free_kept);
  g_queue_init (&far.steps);
  soup_server_add_handler (far.server, NULL, on_message, NULL, NULL);
  if (argc == 3)
    far.certificate = g_tls_certificate_new_from_files (argv[1], argv[2], error);
  return argc != 3 || far.certificate != NULL;
}

int
main (int argc, char **argv)
{
  g_autoptr (GSocketService) service = g_socket_service_new ();
  g_autoptr (GInputStream) lines = NULL;
  g_autoptr (GDataInputStream) in = NULL;
  g_autoptr (GError) error = NULL;
  guint16 port = prepare (argc, argv, &error) ? listen_here (service, &error) : 0;
  g_autoptr (GFile) standard_input = g_file_new_for_path ("/dev/stdin");

  if (port == 0)
    g_error ("%s", error->message);
  g_signal_connect (service, "incoming", G_CALLBACK (on_incoming), NULL);
  g_socket_service_start (service);
  printf ("%u\n", port);
  (void) fflush (stdout);
  lines = G_INPUT_STREAM (g_file_read (standard_input, NULL, &error));
  if (lines == NULL)
    g_error ("%s", error->message);
  in = g_data_input_stream_new (lines);
  g_data_input_stream_read_line_async (in, G_PRIORITY_DEFAULT, NULL, on_line, NULL);
  g_main_loop_run (far.loop);
  return 0;
}
