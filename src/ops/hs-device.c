// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Which machine this is, so that a book that is carried to another one does not go on posting there. */

#include "hs-device.h"

#include <string.h>

#define SALT "org.halfshaft.Halfshaft.post"
#define ID_LETTERS 32

static char *
read_system_id (void)
{
  static const char *const places[] = { "/etc/machine-id", "/var/lib/dbus/machine-id" };

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_autofree char *text = NULL;

      if (g_file_get_contents (places[i], &text, NULL, NULL) && strlen (g_strstrip (text)) == ID_LETTERS)
        return g_steal_pointer (&text);
    }
  return NULL;
}

char *
hs_device_dup_id (const char *host)
{
  g_autofree char *system = read_system_id ();
  g_autofree char *hash = g_compute_hmac_for_string (G_CHECKSUM_SHA256, (const guchar *) SALT, sizeof SALT - 1,
                                                     system != NULL ? system : host, -1);

  return g_strndup (hash, ID_LETTERS);
}
