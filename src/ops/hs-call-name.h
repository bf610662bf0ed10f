// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"

G_BEGIN_DECLS

/* The question under which a name stands beside a job whose caller the book knows by another one. */
#define HS_CALL_NAME_QUESTION "Name, as it was given"

/**
 * HsCallName:
 * @known: what the book calls the customer
 * @given: what the caller called himself on this job
 */
typedef struct
{
  char *known;
  char *given;
} HsCallName;

void hs_call_name_free (HsCallName *name);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsCallName, hs_call_name_free)

/**
 * hs_call_name_load:
 * @ret_name: (out) (nullable): %NULL while both are the same, and once the job is squared up
 */
gboolean hs_call_name_load (HsBook *book, const char *job_id, HsCallName **ret_name, GError **error);

/* hs_call_name_take: the customer is called from now on what was given; refused where nothing else was. */
gboolean hs_call_name_take (HsBook *book, const char *job_id, HsInstant now, GError **error);

G_END_DECLS
