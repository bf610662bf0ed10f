// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The address of the owner's endpoint. It is looked at here, before any library of the network sees it: what two
 * readers could read differently is refused. */

#include "hs-post-address.h"

#include "hs-core-error.h"

#include <string.h>

#define ID "{id}"

/* Signs of RFC 3986; braces are ours and stand in no URI. */
static gboolean
check_signs (const char *text, GError **error)
{
  if (strlen (text) > HS_POST_ADDRESS_BYTES)
    return hs_core_bad_value (error, "The address is longer than %d letters; shorten it.", HS_POST_ADDRESS_BYTES);
  for (const char *at = text; *at != '\0'; at++)
    {
      if (g_ascii_isgraph (*at) && strchr ("\"<>\\^`|", *at) == NULL)
        continue;
      return hs_core_bad_value (error,
                                "The address holds a blank or a sign that none may hold; write such signs as %%xx, and"
                                " a host with accents in its xn-- form.");
    }
  return TRUE;
}

/* In a host one reader would take %xx for a letter, and another for what it is. */
static gboolean
check_percents (const char *text, GError **error)
{
  const char *host = strstr (text, "://");
  const char *first = strchr (text, '%');

  if (host != NULL && first != NULL && first < host + 3 + strcspn (host + 3, "/?#"))
    return hs_core_bad_value (error, "The host of the address is written in letters and digits, without %%.");
  for (const char *at = strchr (text, '%'); at != NULL; at = strchr (at + 1, '%'))
    if (!g_ascii_isxdigit (at[1]) || !g_ascii_isxdigit (at[2]) || (at[1] == '0' && at[2] == '0'))
      return hs_core_bad_value (error, "Behind %% the address needs two digits of 0-9, A-F; write %% itself as %%25.");
  return TRUE;
}

/* Once, and nowhere before the path. */
static gboolean
check_template (const char *text, gboolean *ret_has_id, GError **error)
{
  const char *id = strstr (text, ID);
  const char *behind_scheme = strstr (text, "://");
  const char *path = behind_scheme == NULL ? NULL : strchr (behind_scheme + 3, '/');
  gsize braces = 0;

  for (const char *at = text; *at != '\0'; at++)
    braces += *at == '{' || *at == '}';
  if (braces != (id == NULL ? 0 : 2))
    return hs_core_bad_value (error, "The only braces that an address may hold are {id}, once, for the id of the job.");
  if (id != NULL && (path == NULL || id < path))
    return hs_core_bad_value (error, "{id} stands behind the host: https://example.org/jobs/{id}.json");
  *ret_has_id = id != NULL;
  return TRUE;
}

static char *
put_id (const char *text, const char *id)
{
  const char *at = strstr (text, ID);

  return at == NULL ? g_strdup (text) : g_strdup_printf ("%.*s%s%s", (int) (at - text), text, id, at + strlen (ID));
}

/* Four numbers, 0 to 255, as RFC 3986 has them: any other spelling is a name here, and names are never private by
 * their digits. With a zero in front some readers count in eights, and end up at another machine. */
static gboolean
read_numbers (const char *host, guint numbers[4])
{
  for (guint i = 0; i < 4; i++)
    {
      guint n = 0;
      guint digits = 0;

      for (; g_ascii_isdigit (*host) && digits < 4; host++, digits++)
        n = n * 10 + (guint) (*host - '0');
      if (digits == 0 || n > 255 || (digits > 1 && host[-(int) digits] == '0') || *host++ != (i < 3 ? '.' : '\0'))
        return FALSE;
      numbers[i] = n;
    }
  return TRUE;
}

static gboolean
is_this_machine (const char *host)
{
  guint n[4];

  if (g_ascii_strcasecmp (host, "localhost") == 0 || g_str_equal (host, "::1"))
    return TRUE;
  return read_numbers (host, n) && n[0] == 127;
}

static gboolean
is_private_number (const char *host)
{
  guint n[4];

  if (!read_numbers (host, n))
    return FALSE;
  return n[0] == 10 || (n[0] == 172 && n[1] >= 16 && n[1] <= 31) || (n[0] == 192 && n[1] == 168)
         || (n[0] == 169 && n[1] == 254);
}

/* fc00::/7 and fe80::/10: the first group has four digits, so that fc:: is not taken for fc00::. */
static gboolean
is_private_long_number (const char *host)
{
  guint64 first;
  char *end = NULL;

  if (strchr (host, ':') == NULL)
    return FALSE;
  first = g_ascii_strtoull (host, &end, 16);
  return end == host + 4 && ((first & 0xfe00) == 0xfc00 || (first & 0xffc0) == 0xfe80);
}

gboolean
hs_post_number_is_near (const char *number)
{
  return is_this_machine (number) || is_private_number (number) || is_private_long_number (number);
}

static gboolean
is_private_name (const char *host)
{
  static const char *const ends[] = { ".local", ".home.arpa", ".internal", ".lan" };
  g_autofree char *lower = g_ascii_strdown (host, -1);
  gboolean letter = FALSE;

  for (const char *at = lower; *at != '\0'; at++)
    letter |= g_ascii_isalpha (*at) && !g_str_has_prefix (lower, "0x");
  if (strpbrk (lower, ".:") == NULL)
    return letter;
  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    if (g_str_has_suffix (lower, ends[i]))
      return TRUE;
  return FALSE;
}

static gboolean
check_plain (const char *host, gboolean private_network, GError **error)
{
  if (is_this_machine (host))
    return TRUE;
  if (!private_network)
    return hs_core_bad_value (error,
                              "%s is not this machine, and over http:// anyone on the way reads along; write https://,"
                              " or switch on the private network if the host is in your own.", host);
  if (hs_post_number_is_near (host) || is_private_name (host))
    return TRUE;
  return hs_core_bad_value (error,
                            "%s is not in a private network, and over http:// anyone on the way reads along; write"
                            " https://.", host);
}

/* Letters, digits, hyphens and dots, or an address of version 6. */
static gboolean
check_host (const char *host, GError **error)
{
  const char *allowed = strchr (host, ':') != NULL ? "0123456789abcdefABCDEF:."
                                                   : "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-.";

  if (*host != '\0' && strlen (host) <= 253 && strspn (host, allowed) == strlen (host) && *host != '.' && *host != '-')
    return TRUE;
  return hs_core_bad_value (error, "The address needs a host behind ://, like https://example.org/jobs.");
}

static gboolean
check_parts (GUri *uri, gboolean private_network, GError **error)
{
  const char *scheme = g_uri_get_scheme (uri);
  const char *host = g_uri_get_host (uri);
  gboolean plain = g_str_equal (scheme, "http");

  if (!plain && !g_str_equal (scheme, "https"))
    return hs_core_bad_value (error, "The address begins with https://, not with %s:.", scheme);
  if (g_uri_get_userinfo (uri) != NULL)
    return hs_core_bad_value (error, "Take the name and the password out of the address; the secret has a place of its"
                                     " own, outside of the book.");
  if (g_uri_get_fragment (uri) != NULL)
    return hs_core_bad_value (error, "Take what stands behind # out of the address; it is never sent.");
  if (host == NULL || !check_host (host, error))
    return host == NULL ? check_host ("", error) : FALSE;
  if (g_uri_get_port (uri) == 0)
    return hs_core_bad_value (error, "The port of an address is 1 to 65535.");
  return !plain || check_plain (host, private_network, error);
}

static char *
make_origin (GUri *uri)
{
  g_autofree char *host = g_ascii_strdown (g_uri_get_host (uri), -1);
  const char *scheme = g_uri_get_scheme (uri);
  int port = g_uri_get_port (uri);

  if (port < 0)
    port = g_str_equal (scheme, "https") ? 443 : 80;
  return g_strdup_printf (strchr (host, ':') != NULL ? "%s://[%s]:%d" : "%s://%s:%d", scheme, host, port);
}

HsPostAddress *
hs_post_address_parse (const char *text, gboolean private_network, GError **error)
{
  g_autofree char *bare = g_strstrip (g_strdup (text));
  g_autofree char *filled = NULL;
  g_autoptr (GUri) uri = NULL;
  g_autoptr (HsPostAddress) address = g_new0 (HsPostAddress, 1);

  if (!check_signs (bare, error) || !check_percents (bare, error) || !check_template (bare, &address->has_id, error))
    return NULL;
  filled = put_id (bare, "0");
  uri = g_uri_parse (filled, G_URI_FLAGS_ENCODED, NULL);
  if (uri == NULL)
    {
      hs_core_bad_value (error, "This is no address; write one like https://example.org/jobs.");
      return NULL;
    }
  if (!check_parts (uri, private_network, error))
    return NULL;
  address->origin = make_origin (uri);
  address->host = g_strdup (g_uri_get_host (uri));
  address->url = g_steal_pointer (&bare);
  return g_steal_pointer (&address);
}

void
hs_post_address_free (HsPostAddress *address)
{
  if (address == NULL)
    return;
  g_free (address->url);
  g_free (address->origin);
  g_free (address->host);
  g_free (address);
}

char *
hs_post_address_expand (const HsPostAddress *address, const char *id)
{
  g_autofree char *escaped = g_uri_escape_string (id, NULL, FALSE);

  return put_id (address->url, escaped);
}
