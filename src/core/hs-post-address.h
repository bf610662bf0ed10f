// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define HS_POST_ADDRESS_BYTES 2048

/**
 * HsPostAddress:
 * @url: as it was put in, without blanks around it
 * @origin: scheme, host and port, `https://example.org:443`: whom a secret belongs to
 * @host: the name or number alone
 * @has_id: `{id}` stands in it, so that each job has a place of its own and is PUT there; without it all are POSTed
 */
typedef struct
{
  char *url;
  char *origin;
  char *host;
  gboolean has_id;
} HsPostAddress;

/**
 * hs_post_address_parse:
 * @text: what the owner put in
 * @private_network: plain http is also taken for hosts of her own network
 * @error: %HS_CORE_ERROR_BAD_VALUE with what is wrong and what to do
 *
 * `https://` to any host; `http://` to this machine (`localhost`, 127.0.0.0/8, `[::1]`; RFC 6761, RFC 1122), and with
 * @private_network to a host that no one outside can be: addresses of RFC 1918, RFC 3927 and RFC 4193, names without a
 * dot, and names under `.local` (RFC 6762), `.home.arpa` (RFC 8375), `.internal` and `.lan`. Refused are a user or
 * password in the address, a part behind #, anything that is no visible ASCII letter, `{id}` outside of path and query
 * or more than once, and more than %HS_POST_ADDRESS_BYTES.
 *
 * Returns: (transfer full): the address, or %NULL
 */
HsPostAddress *hs_post_address_parse (const char *text, gboolean private_network, GError **error);
void hs_post_address_free (HsPostAddress *address);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsPostAddress, hs_post_address_free)

/**
 * hs_post_number_is_near:
 * @number: what a name led to, as the system writes it: `192.168.1.20`, `fd12:3456::1`
 *
 * Whether plain http may go there: to this machine or into a private network. A name says nothing about it: on another
 * network the same one leads somewhere else.
 */
gboolean hs_post_number_is_near (const char *number);

/* hs_post_address_expand: (transfer full): where the job @id goes. */
char *hs_post_address_expand (const HsPostAddress *address, const char *id);

G_END_DECLS
