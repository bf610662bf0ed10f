// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-job-op.h"

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/**
 * HsDemo: the demo while it is made.
 * @story: data/demo/story.json
 * @begins: when the business begins
 * @morning: just before the demo's clock starts
 */
typedef struct
{
  HsBook *book;
  HsStore *store;
  JsonObject *story;
  HsInstant begins;
  HsInstant morning;
} HsDemo;

/* hs_demo_vehicle: the id of the vehicle with that plate. */
char *hs_demo_vehicle (HsDemo *demo, const char *plate, GError **error);

/* hs_demo_live_jobs: every past job, from the call to the payment, at its own times. */
gboolean hs_demo_live_jobs (HsDemo *demo, GError **error);

G_END_DECLS
