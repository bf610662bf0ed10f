// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Bytes of the answer to service 01, PID 01. */
#define HS_READINESS_BYTES 4

/* Monitors that an answer can tell about. */
#define HS_READINESS_MOST 11

/**
 * HsMonitor:
 * @name: (transfer none): "catalyst"
 * @ready: it has run to its end since the codes were cleared
 *
 * A self-test that the vehicle has.
 */
typedef struct
{
  const char *name;
  gboolean ready;
} HsMonitor;

/**
 * HsReadiness:
 * @lamp: the malfunction lamp is commanded on
 * @n_codes: how many confirmed codes are stored
 * @compression: compression ignition (diesel), not spark
 * @monitors: those that the vehicle has, in the order of their bits
 */
typedef struct
{
  gboolean lamp;
  guint n_codes;
  gboolean compression;
  guint n_monitors;
  HsMonitor monitors[HS_READINESS_MOST];
} HsReadiness;

/**
 * hs_readiness_parse:
 * @text: four bytes, `83 07 65 04`, also with the `41 01` of the answer before them; blanks make no difference
 * @ret_readiness: (out): untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE
 *
 * Byte A: bit 7 lamp, bits 0–6 count. Byte B: bits 0–2 misfire, fuel system, components; bits 4–6 the same, set while
 * not complete; bit 3 compression ignition. Bytes C (the vehicle has it) and D (not complete) by kind of ignition.
 * The layout is that of an encyclopaedia's text on SAE J1979.
 */
gboolean hs_readiness_parse (const char *text, HsReadiness *ret_readiness, GError **error);

/* hs_readiness_count_open: how many monitors are not ready. */
guint hs_readiness_count_open (const HsReadiness *readiness);

G_END_DECLS
