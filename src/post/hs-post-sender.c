// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The wire. Everything that comes back is bounded in time and size and is read by core alone. Each message has a
 * connection of its own: what an endpoint did with the last one does no harm to the next. What is not encrypted goes to
 * numbers of this machine or of a private network, and there directly: a proxy would carry it out. */

#include "hs-post-sender.h"

#include "hs-post-near.h"
#include "hs-post-problem.h"
#include "hs-post-secret.h"

#include <libsoup/soup.h>
#include <string.h>

struct _HsPostSender
{
  GMainContext *context;
  guint seconds;
};

/* One message on its way. body: (nullable): as far as it was read; broken: it broke off or is too long; secret and
 * header: (nullable): what nobody may say back to us; proved: who is there has shown a certificate that holds; faults:
 * of one that does not. */
typedef struct
{
  const HsPostParcel *parcel;
  char *secret;
  char *header;
  GMainContext *context;
  GCancellable *cancellable;
  SoupSession *session;
  SoupMessage *message;
  GInputStream *stream;
  GByteArray *body;
  GError *error;
  GTlsCertificateFlags faults;
  gboolean broken;
  gboolean proved;
  gboolean too_old;
  gboolean done;
} Trip;

HsPostSender *
hs_post_sender_new (guint seconds)
{
  HsPostSender *sender = g_new0 (HsPostSender, 1);

  sender->context = g_main_context_new ();
  sender->seconds = seconds == 0 ? HS_POST_SECONDS : seconds;
  return sender;
}

void
hs_post_sender_free (HsPostSender *sender)
{
  if (sender == NULL)
    return;
  g_main_context_unref (sender->context);
  g_free (sender);
}

static void
end (HsPostReply *reply, HsPostEnd how, const char *said)
{
  reply->end = how;
  reply->said = g_strdup (said);
}

/* %NULL where the machine's way of finding a host, and its proxies, do no harm: what is said there is encrypted. */
static GSocketConnectable *
find_near (const HsPostParcel *parcel)
{
  g_autoptr (GUri) uri = g_uri_parse (parcel->url, SOUP_HTTP_URI_FLAGS, NULL);

  if (uri == NULL || !g_str_equal (g_uri_get_scheme (uri), "http") || g_uri_get_host (uri) == NULL)
    return NULL;
  return hs_post_near_new (g_uri_get_host (uri), (guint16) (g_uri_get_port (uri) < 0 ? 80 : g_uri_get_port (uri)));
}

static SoupSession *
make_session (HsPostSender *sender, const HsPostParcel *parcel, GError **error)
{
  g_autoptr (GSocketConnectable) near = find_near (parcel);
  g_autoptr (SoupSession) session = soup_session_new_with_options (
    "timeout", sender->seconds, "max-conns", 1, "max-conns-per-host", 1, "user-agent", "Halfshaft/" HS_VERSION,
    "remote-connectable", near, NULL);

  if (near != NULL)
    soup_session_set_proxy_resolver (session, NULL);
  soup_session_remove_feature_by_type (session, SOUP_TYPE_AUTH_MANAGER);
  soup_session_remove_feature_by_type (session, SOUP_TYPE_CONTENT_DECODER);
  soup_session_remove_feature_by_type (session, SOUP_TYPE_COOKIE_JAR);
  if (parcel->ca_file != NULL)
    {
      g_autoptr (GTlsDatabase) authorities = g_tls_file_database_new (parcel->ca_file, error);

      if (authorities == NULL)
        return NULL;
      soup_session_set_tls_database (session, authorities);
    }
  return g_steal_pointer (&session);
}

/* RFC 6750, 2.1; RFC 7617, 2. */
static char *
make_authorization (const HsPostParcel *parcel, const char *secret)
{
  g_autofree char *pair = NULL;
  g_autofree char *coded = NULL;
  char *header;

  if (parcel->auth == HS_POST_AUTH_BEARER)
    return g_strconcat ("Bearer ", secret, NULL);
  pair = g_strconcat (parcel->user != NULL ? parcel->user : "", ":", secret, NULL);
  coded = g_base64_encode ((const guchar *) pair, strlen (pair));
  header = g_strconcat ("Basic ", coded, NULL);
  explicit_bzero (pair, strlen (pair));
  explicit_bzero (coded, strlen (coded));
  return header;
}

static gboolean
add_secret (Trip *trip, guint seconds, GError **error)
{
  const HsPostParcel *parcel = trip->parcel;

  if (parcel->auth == HS_POST_AUTH_NONE)
    return TRUE;
  trip->secret = hs_post_secret_load (parcel->origin, parcel->secret_file, seconds, trip->cancellable, error);
  if (trip->secret == NULL)
    return FALSE;
  trip->header = make_authorization (parcel, trip->secret);
  soup_message_headers_replace (soup_message_get_request_headers (trip->message), "Authorization", trip->header);
  return TRUE;
}

/* RFC 8996: what is older than TLS 1.2 is no longer safe. Before anything is sent. */
static void
on_network_event (SoupMessage *message, GSocketClientEvent event, GIOStream *stream, gpointer data)
{
  Trip *trip = data;

  if (event != G_SOCKET_CLIENT_TLS_HANDSHAKED || !G_IS_TLS_CONNECTION (stream))
    return;
  trip->proved = TRUE;
  trip->too_old
    = g_tls_connection_get_protocol_version (G_TLS_CONNECTION (stream)) < G_TLS_PROTOCOL_VERSION_TLS_1_2;
  if (trip->too_old)
    g_cancellable_cancel (trip->cancellable);
}

/* None of them is ever taken. */
static gboolean
on_certificate (SoupMessage *message, GTlsCertificate *certificate, GTlsCertificateFlags faults, gpointer data)
{
  ((Trip *) data)->faults = faults;
  return FALSE;
}

static char *
dup_faults (GTlsCertificateFlags faults)
{
  static const struct
  {
    GTlsCertificateFlags fault;
    const char *words;
  } rows[] = {
    { G_TLS_CERTIFICATE_EXPIRED, "Its certificate has run out: have it renewed there." },
    { G_TLS_CERTIFICATE_NOT_ACTIVATED, "Its certificate is not valid yet: is the clock of this machine right?" },
    { G_TLS_CERTIFICATE_BAD_IDENTITY, "Its certificate names another host: put in the address that it names." },
    { G_TLS_CERTIFICATE_REVOKED, "Its certificate was taken back by whoever gave it." },
    { G_TLS_CERTIFICATE_INSECURE, "Its certificate is signed in a way that is no longer safe." },
    { G_TLS_CERTIFICATE_UNKNOWN_CA, "Nobody whom this machine trusts has signed its certificate: if it is your own, "
                                    "put in the file of your own certificate authorities." },
  };
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    if ((faults & rows[i].fault) != 0)
      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", rows[i].words);
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

static SoupMessage *
make_message (const HsPostParcel *parcel)
{
  SoupMessage *message = soup_message_new (parcel->put ? SOUP_METHOD_PUT : SOUP_METHOD_POST, parcel->url);
  g_autoptr (GBytes) body = g_bytes_new_static (parcel->body, strlen (parcel->body));
  g_autofree char *key = g_strdup_printf ("\"%s\"", parcel->key);
  SoupMessageHeaders *headers;

  if (message == NULL)
    return NULL;
  headers = soup_message_get_request_headers (message);
  soup_message_add_flags (message, SOUP_MESSAGE_NO_REDIRECT | SOUP_MESSAGE_NEW_CONNECTION
                                     | SOUP_MESSAGE_DO_NOT_USE_AUTH_CACHE);
  soup_message_set_request_body_from_bytes (message, "application/json", body);
  soup_message_headers_replace (headers, "Idempotency-Key", key);
  soup_message_headers_replace (headers, "Accept", "application/problem+json, application/json;q=0.5");
  soup_message_headers_replace (headers, "Accept-Encoding", "identity");
  soup_message_headers_replace (headers, "Connection", "close");
  return message;
}

/* Only what core can read as problem details is worth reading. */
static gboolean
is_problem (SoupMessage *message)
{
  SoupMessageHeaders *headers = soup_message_get_response_headers (message);
  const char *type = soup_message_headers_get_content_type (headers, NULL);
  const char *encoding = soup_message_headers_get_list (headers, "Content-Encoding");

  return type != NULL && g_ascii_strcasecmp (type, "application/problem+json") == 0
         && (encoding == NULL || g_ascii_strcasecmp (encoding, "identity") == 0)
         && !SOUP_STATUS_IS_SUCCESSFUL (soup_message_get_status (message));
}

static void read_on (Trip *trip);

static void
on_read (GObject *source, GAsyncResult *result, gpointer data)
{
  Trip *trip = data;
  g_autoptr (GBytes) bytes = g_input_stream_read_bytes_finish (G_INPUT_STREAM (source), result, NULL);
  gsize size = 0;
  gconstpointer read;

  /* A body that breaks off says nothing; the status stands. */
  if (bytes == NULL || g_bytes_get_size (bytes) == 0)
    {
      trip->broken = bytes == NULL;
      trip->done = TRUE;
      return;
    }
  read = g_bytes_get_data (bytes, &size);
  g_byte_array_append (trip->body, read, (guint) size);
  if (trip->body->len <= HS_POST_PROBLEM_BYTES)
    {
      read_on (trip);
      return;
    }
  trip->broken = TRUE;
  trip->done = TRUE;
}

static void
read_on (Trip *trip)
{
  g_input_stream_read_bytes_async (trip->stream, 8192, G_PRIORITY_DEFAULT, trip->cancellable, on_read, trip);
}

static void
on_answer (GObject *source, GAsyncResult *result, gpointer data)
{
  Trip *trip = data;

  trip->stream = soup_session_send_finish (SOUP_SESSION (source), result, &trip->error);
  if (trip->stream == NULL || !is_problem (trip->message))
    {
      trip->done = TRUE;
      return;
    }
  trip->body = g_byte_array_new ();
  read_on (trip);
}

static gboolean
on_late (gpointer data)
{
  g_cancellable_cancel (data);
  return G_SOURCE_REMOVE;
}

static void
on_canceled (GCancellable *outer, gpointer data)
{
  g_cancellable_cancel (data);
}

/* TRUE if the time ran out. */
static gboolean
travel (HsPostSender *sender, Trip *trip)
{
  guint seconds = hs_post_seconds_for (sender->seconds, strlen (trip->parcel->body));
  g_autoptr (GSource) late = g_timeout_source_new_seconds (seconds);
  gboolean timed_out;

  g_signal_connect (trip->message, "network-event", G_CALLBACK (on_network_event), trip);
  g_signal_connect (trip->message, "accept-certificate", G_CALLBACK (on_certificate), trip);
  g_source_set_callback (late, on_late, trip->cancellable, NULL);
  g_source_attach (late, sender->context);
  soup_session_send_async (trip->session, trip->message, G_PRIORITY_DEFAULT, trip->cancellable, on_answer, trip);
  while (!trip->done)
    g_main_context_iteration (sender->context, TRUE);
  timed_out = g_source_is_destroyed (late);
  g_source_destroy (late);
  return timed_out;
}

static HsPostEnd
end_of (const GError *error)
{
  if (g_error_matches (error, G_TLS_ERROR, G_TLS_ERROR_BAD_CERTIFICATE))
    return HS_POST_BAD_CERTIFICATE;
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_TIMED_OUT))
    return HS_POST_TIMED_OUT;
  if (error->domain == SOUP_SESSION_ERROR || g_error_matches (error, G_TLS_ERROR, G_TLS_ERROR_NOT_TLS))
    return HS_POST_BAD_REPLY;
  return HS_POST_UNREACHABLE;
}

/* The library takes a body for whole that is shorter than was said. */
static gboolean
is_whole (const Trip *trip, SoupMessageHeaders *headers)
{
  if (trip->body == NULL || trip->broken)
    return FALSE;
  return soup_message_headers_get_encoding (headers) != SOUP_ENCODING_CONTENT_LENGTH
         || soup_message_headers_get_content_length (headers) == trip->body->len;
}

/* Not if it gives the secret back, by itself or as it stood in the header: what is said is kept in the book. */
static char *
read_problem (const Trip *trip)
{
  const char *never[] = { trip->secret, trip->header == NULL ? NULL : strchr (trip->header, ' ') + 1, NULL };

  return hs_post_problem_read_but ((const char *) trip->body->data, trip->body->len, never);
}

static void
tell_answer (const Trip *trip, HsPostReply *reply)
{
  SoupMessageHeaders *headers = soup_message_get_response_headers (trip->message);

  reply->end = HS_POST_ANSWERED;
  reply->status = (int) soup_message_get_status (trip->message);
  reply->retry_after = g_strdup (soup_message_headers_get_one (headers, "Retry-After"));
  if (is_whole (trip, headers))
    reply->said = read_problem (trip);
}

/* The library gives the answer of a proxy that does not let one through for the endpoint's. */
static gboolean
is_of_proxy (const Trip *trip)
{
  return !trip->proved && g_ascii_strncasecmp (trip->parcel->url, "https:", 6) == 0;
}

/* A trip that failed may still have an answer: the time ran out while its body was read. */
static void
tell (const Trip *trip, gboolean timed_out, HsPostReply *reply)
{
  g_autofree char *faults = dup_faults (trip->faults);

  if (trip->stream != NULL && is_of_proxy (trip))
    {
      reply->end = HS_POST_UNREACHABLE;
      reply->said = g_strdup_printf ("A proxy in between lets nothing through (%u).",
                                     soup_message_get_status (trip->message));
    }
  else if (trip->stream != NULL)
    tell_answer (trip, reply);
  else if (trip->too_old)
    end (reply, HS_POST_BAD_CERTIFICATE, "It offers no TLS 1.2 or newer; what is older is no longer safe.");
  else if (timed_out)
    end (reply, HS_POST_TIMED_OUT, NULL);
  else
    end (reply, end_of (trip->error), faults != NULL ? faults : trip->error->message);
}

static void
clear_trip (Trip *trip)
{
  soup_session_abort (trip->session);
  g_clear_object (&trip->stream);
  g_clear_object (&trip->message);
  g_clear_object (&trip->session);
  g_clear_pointer (&trip->body, g_byte_array_unref);
  g_clear_error (&trip->error);
  g_clear_pointer (&trip->secret, hs_post_secret_free);
  g_clear_pointer (&trip->header, hs_post_secret_free);
  /* What the closed connection left to do. */
  while (g_main_context_iteration (trip->context, FALSE))
    ;
}

static void
send_message (HsPostSender *sender, Trip *trip, HsPostReply *reply)
{
  g_autoptr (GError) error = NULL;
  gboolean timed_out;

  if (!add_secret (trip, sender->seconds, &error))
    {
      /* Whoever was stopped while a keyring asked does not know whether there is one. */
      end (reply, g_cancellable_is_cancelled (trip->cancellable) ? HS_POST_UNREACHABLE : HS_POST_NO_SECRET,
           error->message);
      return;
    }
  timed_out = travel (sender, trip);
  tell (trip, timed_out, reply);
}

void
hs_post_sender_send (HsPostSender *sender, const HsPostParcel *parcel, GCancellable *cancellable,
                     HsPostReply *ret_reply)
{
  g_autoptr (GCancellable) own = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  Trip trip = { .parcel = parcel, .context = sender->context, .cancellable = own };
  gulong handler = 0;

  *ret_reply = (HsPostReply) { 0 };
  g_main_context_push_thread_default (sender->context);
  trip.session = make_session (sender, parcel, &error);
  trip.message = trip.session == NULL ? NULL : make_message (parcel);
  if (cancellable != NULL)
    handler = g_cancellable_connect (cancellable, G_CALLBACK (on_canceled), g_object_ref (own), g_object_unref);
  if (trip.session == NULL)
    end (ret_reply, HS_POST_NO_AUTHORITIES, error->message);
  else if (trip.message == NULL)
    end (ret_reply, HS_POST_BAD_ADDRESS, NULL);
  else
    send_message (sender, &trip, ret_reply);
  if (cancellable != NULL)
    g_cancellable_disconnect (cancellable, handler);
  if (trip.session != NULL)
    clear_trip (&trip);
  g_main_context_pop_thread_default (sender->context);
}
