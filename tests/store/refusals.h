// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

/*
 * before (or NULL) is accepted, refused is not; says is part of the message. plain: refused on a connection without
 * foreign keys and recursive triggers too.
 */
typedef struct
{
  const char *name;
  const char *before;
  const char *refused;
  const char *says;
  gboolean plain;
} Refusal;

typedef struct
{
  const char *name;
  const char *sql;
} Allowed;

extern const Refusal closing_refusals[];
extern const guint n_closing_refusals;
extern const Refusal standing_refusals[];
extern const guint n_standing_refusals;
extern const Refusal on_site_refusals[];
extern const guint n_on_site_refusals;
extern const Refusal kept_refusals[];
extern const guint n_kept_refusals;
extern const Refusal outbox_refusals[];
extern const guint n_outbox_refusals;
extern const Allowed allowed[];
extern const guint n_allowed;
extern const Allowed on_site_allowed[];
extern const guint n_on_site_allowed;
