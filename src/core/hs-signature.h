// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The most that a signature holds; a hand at full length stays far below. */
#define HS_SIGNATURE_MOST_STROKES 200
#define HS_SIGNATURE_MOST_POINTS 4000
#define HS_SIGNATURE_MOST_BYTES 16384
#define HS_SIGNATURE_MOST_SIDE 4096

/**
 * HsSignature:
 *
 * A name drawn by hand: strokes of points in a field of width × height, whole units with the origin at the top left.
 */
typedef struct _HsSignature HsSignature;

typedef struct
{
  int x;
  int y;
} HsSignaturePoint;

/* hs_signature_new: an empty field; sides of 1 to %HS_SIGNATURE_MOST_SIDE. */
HsSignature *hs_signature_new (int width, int height);
void hs_signature_free (HsSignature *signature);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsSignature, hs_signature_free)

/* hs_signature_begin: puts the pen down; what lies outside the field is drawn to its edge. Returns: %FALSE once it is
 * full. */
gboolean hs_signature_begin (HsSignature *signature, double x, double y);

/* hs_signature_move: draws on to there; what is less than two units away adds nothing. Returns: %FALSE once it is full,
 * or if no stroke was begun. */
gboolean hs_signature_move (HsSignature *signature, double x, double y);

void hs_signature_clear (HsSignature *signature);

/* hs_signature_is_blank: nothing is drawn but dots: no name. */
gboolean hs_signature_is_blank (const HsSignature *signature);

int hs_signature_get_width (const HsSignature *signature);
int hs_signature_get_height (const HsSignature *signature);
guint hs_signature_get_n_strokes (const HsSignature *signature);

/* hs_signature_get_stroke: (transfer none) (array length=ret_n_points) */
const HsSignaturePoint *hs_signature_get_stroke (const HsSignature *signature, guint nth, guint *ret_n_points);

/**
 * hs_signature_to_bytes:
 *
 * `S1`, width, height, how many strokes, and for each how many points and the steps from point to point (the first from
 * 0, 0), all whole numbers seven bits a byte, low ones first, the top bit set while more follow; steps are folded so
 * that the sign is in the lowest bit.
 *
 * Returns: (transfer full): at most %HS_SIGNATURE_MOST_BYTES
 */
GBytes *hs_signature_to_bytes (const HsSignature *signature);

/**
 * hs_signature_from_bytes:
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE for anything that hs_signature_to_bytes() does not write
 *
 * Returns: (transfer full) (nullable)
 */
HsSignature *hs_signature_from_bytes (GBytes *bytes, GError **error);

G_END_DECLS
