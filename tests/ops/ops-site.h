// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ops-test.h"

G_BEGIN_DECLS

/* A book with one promised call to a vehicle of a known model, for what happens beside it. */
typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job_id;
} OpsSite;

/* ops_site_start: A-0001 at TDM 5508, a Vostle Nib of 2008; @high_voltage makes it one. */
OpsSite ops_site_start (gboolean high_voltage);
void ops_site_clear (OpsSite *site);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (OpsSite, ops_site_clear)

/* ops_site_arrive: rolls ten minutes before @at and arrives then. */
void ops_site_arrive (OpsSite *site, const char *at);

/* ops_site_square: tested good, priced, agreed to and squared up at @at. */
void ops_site_square (OpsSite *site, HsInstant at);

G_END_DECLS
