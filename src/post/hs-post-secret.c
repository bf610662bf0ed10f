// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The secret of the endpoint. Refuses a file that others could have read or put there, and says nothing of what is in
 * it. */

#include "hs-post-secret.h"

#include <errno.h>
#include <fcntl.h>
#include <libsecret/secret.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

G_DEFINE_QUARK (hs-post-error-quark, hs_post_error)

static const SecretSchema schema = {
  .name = "org.halfshaft.Halfshaft.post",
  .flags = SECRET_SCHEMA_NONE,
  .attributes = { { "origin", SECRET_SCHEMA_ATTRIBUTE_STRING } },
};

static gboolean
refuse (GError **error, const char *format, ...) G_GNUC_PRINTF (2, 3);

static gboolean
refuse (GError **error, const char *format, ...)
{
  g_autofree char *text = NULL;
  va_list values;

  va_start (values, format);
  text = g_strdup_vprintf (format, values);
  va_end (values);
  g_set_error_literal (error, HS_POST_ERROR, HS_POST_ERROR_NO_SECRET, text);
  return FALSE;
}

/* Libraries copy what they are given and do not wipe it. From here on nothing of what this process puts into memory
 * goes into a core file; where it crashed still does. */
static void
keep_out_of_cores (void)
{
  int fd = open ("/proc/self/coredump_filter", O_WRONLY | O_CLOEXEC);

  if (fd < 0)
    return;
  (void) !write (fd, "0x10", 4);
  (void) close (fd);
}

void
hs_post_secret_free (char *secret)
{
  if (secret != NULL)
    explicit_bzero (secret, strlen (secret));
  g_free (secret);
}

gboolean
hs_post_secret_check (const char *secret, GError **error)
{
  gsize length = strlen (secret);

  if (length == 0)
    return refuse (error, "The secret is empty.");
  if (length > HS_POST_SECRET_BYTES)
    return refuse (error, "A secret has at most %d bytes.", HS_POST_SECRET_BYTES);
  if (!g_utf8_validate (secret, -1, NULL))
    return refuse (error, "The secret is no text.");
  for (const char *at = secret; *at != '\0'; at++)
    if (g_ascii_iscntrl (*at))
      return refuse (error, "The secret is one line, without tabs.");
  return TRUE;
}

static gboolean
check_status (const char *path, const struct stat *status, GError **error)
{
  if (!S_ISREG (status->st_mode))
    return refuse (error, "%s is no file; the secret lies in a plain one.", path);
  if (status->st_uid != geteuid ())
    return refuse (error, "%s belongs to somebody else; make it your own, or the secret may be theirs.", path);
  if ((status->st_mode & 077) != 0)
    return refuse (error, "Others may look at %s; shut it to them: chmod 600 %s", path, path);
  if (status->st_size > HS_POST_SECRET_BYTES + 1)
    return refuse (error, "%s is longer than a secret; it holds one line.", path);
  return TRUE;
}

static gboolean
read_all (int fd, char *buffer, gsize size, gsize *ret_length)
{
  gsize length = 0;

  while (length < size)
    {
      gssize got = read (fd, buffer + length, size - length);

      if (got < 0 && errno == EINTR)
        continue;
      if (got < 0)
        return FALSE;
      if (got == 0)
        break;
      length += (gsize) got;
    }
  *ret_length = length;
  return TRUE;
}

/* One line break at the end is the editor's. */
static gboolean
read_line (int fd, const char *path, char *buffer, gsize size, GError **error)
{
  gsize length;

  if (!read_all (fd, buffer, size - 1, &length))
    return refuse (error, "%s cannot be read: %s", path, g_strerror (errno));
  if (length > 0 && buffer[length - 1] == '\n')
    length--;
  buffer[length] = '\0';
  if (strlen (buffer) != length)
    return refuse (error, "The secret in %s is no text.", path);
  return hs_post_secret_check (buffer, error);
}

char *
hs_post_secret_read_file (const char *path, GError **error)
{
  int fd = open (path, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY);
  char buffer[HS_POST_SECRET_BYTES + 3];
  struct stat status;
  char *secret = NULL;

  if (fd < 0)
    {
      refuse (error, "%s, where the secret should lie, cannot be read: %s", path,
              errno == ELOOP ? "it is a link; name the file itself" : g_strerror (errno));
      return NULL;
    }
  if (fstat (fd, &status) != 0)
    refuse (error, "%s cannot be read: %s", path, g_strerror (errno));
  else if (check_status (path, &status, error) && read_line (fd, path, buffer, sizeof buffer, error))
    secret = g_strdup (buffer);
  explicit_bzero (buffer, sizeof buffer);
  (void) close (fd);
  return secret;
}

static gboolean
blame_keyring (GError *failure, GError **error)
{
  refuse (error,
          "The keyring of this machine does not answer (%s); unlock it, or put the secret into a file of mode 0600 and"
          " set post_secret_file to its path.", failure->message);
  g_error_free (failure);
  return FALSE;
}

/* A question to the keyring. found: (nullable): of the library, to be wiped by it; late: nobody unlocked it in time;
 * over: no answer is waited for any more. */
typedef struct
{
  GCancellable *cancellable;
  guint seconds;
  char *found;
  GError *failure;
  gboolean late;
  gboolean over;
} Question;

static void
on_found (GObject *source, GAsyncResult *result, gpointer data)
{
  Question *question = data;

  question->found = secret_password_lookup_finish (result, &question->failure);
  question->over = TRUE;
}

/* The library takes no question back before the keyring agrees to it, which it may never do. */
static gboolean
on_second (gpointer data)
{
  Question *question = data;

  if (g_cancellable_is_cancelled (question->cancellable))
    question->over = TRUE;
  else if (--question->seconds == 0)
    {
      question->late = TRUE;
      g_cancellable_cancel (question->cancellable);
    }
  return G_SOURCE_CONTINUE;
}

static void
on_canceled (GCancellable *outer, gpointer data)
{
  g_cancellable_cancel (data);
}

/* A keyring that is locked asks whoever sits there, who may be nobody. Nobody but this function ever lets anything run
 * in @context: what comes after it is over finds no ear. */
static void
ask (const char *origin, GCancellable *outer, Question *question)
{
  g_autoptr (GMainContext) context = g_main_context_new ();
  g_autoptr (GSource) second = g_timeout_source_new_seconds (1);
  gulong handler = 0;

  question->cancellable = g_cancellable_new ();
  g_main_context_push_thread_default (context);
  g_source_set_callback (second, on_second, question, NULL);
  g_source_attach (second, context);
  if (outer != NULL)
    handler = g_cancellable_connect (outer, G_CALLBACK (on_canceled), g_object_ref (question->cancellable),
                                     g_object_unref);
  secret_password_lookup (&schema, question->cancellable, on_found, question, "origin", origin, NULL);
  while (!question->over)
    g_main_context_iteration (context, TRUE);
  if (outer != NULL)
    g_cancellable_disconnect (outer, handler);
  g_source_destroy (second);
  g_main_context_pop_thread_default (context);
  g_object_unref (question->cancellable);
}

static char *
look_up (const char *origin, guint seconds, GCancellable *cancellable, GError **error)
{
  Question question = { .seconds = MAX (seconds, 1) };
  char *found;
  char *secret = NULL;

  ask (origin, cancellable, &question);
  found = question.found;
  if (found == NULL && question.late)
    {
      g_clear_error (&question.failure);
      refuse (error, "The keyring of this machine is locked, and nobody unlocked it; unlock it, then try again.");
      return NULL;
    }
  if (question.failure != NULL)
    {
      blame_keyring (question.failure, error);
      return NULL;
    }
  if (found == NULL)
    refuse (error, "There is no secret for %s in the keyring of this machine; put it in.", origin);
  else if (hs_post_secret_check (found, error))
    secret = g_strdup (found);
  if (found != NULL)
    secret_password_free (found);
  return secret;
}

char *
hs_post_secret_load (const char *origin, const char *file, guint seconds, GCancellable *cancellable, GError **error)
{
  keep_out_of_cores ();
  return file != NULL ? hs_post_secret_read_file (file, error) : look_up (origin, seconds, cancellable, error);
}

gboolean
hs_post_secret_store (const char *origin, const char *secret, GError **error)
{
  g_autofree char *label = g_strdup_printf ("Halfshaft: %s", origin);
  GError *failure = NULL;

  keep_out_of_cores ();
  if (!hs_post_secret_check (secret, error))
    return FALSE;
  if (secret_password_store_sync (&schema, SECRET_COLLECTION_DEFAULT, label, secret, NULL, &failure, "origin", origin,
                                  NULL))
    return TRUE;
  return blame_keyring (failure, error);
}

gboolean
hs_post_secret_forget (const char *origin, GError **error)
{
  GError *failure = NULL;

  secret_password_clear_sync (&schema, NULL, &failure, "origin", origin, NULL);
  return failure == NULL || blame_keyring (failure, error);
}
