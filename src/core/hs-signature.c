// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * A signature as data: what a pen or a finger drew, small enough to stand in the row of the go-ahead that it signs. Use
 * it between the widget that draws and the book. Reading refuses whatever writing would not have made, so that a book
 * from elsewhere cannot make it draw without end.
 */

#include "hs-signature.h"

#include "hs-core-error.h"

#include <math.h>
#include <string.h>

/* Nearer points are the trembling of a hand. */
#define LEAST_STEP 2

struct _HsSignature
{
  int width;
  int height;
  GArray *points;  /* HsSignaturePoint */
  GArray *starts;  /* guint: where each stroke begins in points */
};

HsSignature *
hs_signature_new (int width, int height)
{
  HsSignature *signature;

  g_return_val_if_fail (width >= 1 && width <= HS_SIGNATURE_MOST_SIDE, NULL);
  g_return_val_if_fail (height >= 1 && height <= HS_SIGNATURE_MOST_SIDE, NULL);

  signature = g_new0 (HsSignature, 1);
  signature->width = width;
  signature->height = height;
  signature->points = g_array_new (FALSE, FALSE, sizeof (HsSignaturePoint));
  signature->starts = g_array_new (FALSE, FALSE, sizeof (guint));
  return signature;
}

void
hs_signature_free (HsSignature *signature)
{
  if (signature == NULL)
    return;
  g_array_unref (signature->points);
  g_array_unref (signature->starts);
  g_free (signature);
}

static HsSignaturePoint
point_in (const HsSignature *signature, double x, double y)
{
  return (HsSignaturePoint) { (int) lround (CLAMP (x, 0, signature->width)),
                              (int) lround (CLAMP (y, 0, signature->height)) };
}

gboolean
hs_signature_begin (HsSignature *signature, double x, double y)
{
  HsSignaturePoint point = point_in (signature, x, y);

  if (signature->starts->len >= HS_SIGNATURE_MOST_STROKES || signature->points->len >= HS_SIGNATURE_MOST_POINTS)
    return FALSE;
  g_array_append_val (signature->starts, signature->points->len);
  g_array_append_val (signature->points, point);
  return TRUE;
}

gboolean
hs_signature_move (HsSignature *signature, double x, double y)
{
  HsSignaturePoint point = point_in (signature, x, y);
  const HsSignaturePoint *last;

  if (signature->starts->len == 0 || signature->points->len >= HS_SIGNATURE_MOST_POINTS)
    return FALSE;
  last = &g_array_index (signature->points, HsSignaturePoint, signature->points->len - 1);
  if (ABS (point.x - last->x) >= LEAST_STEP || ABS (point.y - last->y) >= LEAST_STEP)
    g_array_append_val (signature->points, point);
  return TRUE;
}

void
hs_signature_clear (HsSignature *signature)
{
  g_array_set_size (signature->points, 0);
  g_array_set_size (signature->starts, 0);
}

gboolean
hs_signature_is_blank (const HsSignature *signature)
{
  return signature->points->len == signature->starts->len;
}

int
hs_signature_get_width (const HsSignature *signature)
{
  return signature->width;
}

int
hs_signature_get_height (const HsSignature *signature)
{
  return signature->height;
}

guint
hs_signature_get_n_strokes (const HsSignature *signature)
{
  return signature->starts->len;
}

static guint
start_of (const HsSignature *signature, guint nth)
{
  return nth < signature->starts->len ? g_array_index (signature->starts, guint, nth) : signature->points->len;
}

const HsSignaturePoint *
hs_signature_get_stroke (const HsSignature *signature, guint nth, guint *ret_n_points)
{
  g_return_val_if_fail (nth < signature->starts->len, NULL);

  *ret_n_points = start_of (signature, nth + 1) - start_of (signature, nth);
  return &g_array_index (signature->points, HsSignaturePoint, start_of (signature, nth));
}

/* Writing ---------------------------------------------------------------------------------------------------------- */

static void
put (GByteArray *bytes, guint number)
{
  guint8 byte;

  do
    {
      byte = (guint8) (number & 0x7f) | (number > 0x7f ? 0x80 : 0);
      g_byte_array_append (bytes, &byte, 1);
      number >>= 7;
    }
  while (number != 0);
}

static void
put_step (GByteArray *bytes, int step)
{
  put (bytes, step < 0 ? (guint) -step * 2 - 1 : (guint) step * 2);
}

GBytes *
hs_signature_to_bytes (const HsSignature *signature)
{
  GByteArray *bytes = g_byte_array_new ();
  HsSignaturePoint at = { 0, 0 };

  g_byte_array_append (bytes, (const guint8 *) "S1", 2);
  put (bytes, (guint) signature->width);
  put (bytes, (guint) signature->height);
  put (bytes, signature->starts->len);
  for (guint i = 0; i < signature->starts->len; i++)
    {
      guint n_points;
      const HsSignaturePoint *points = hs_signature_get_stroke (signature, i, &n_points);

      put (bytes, n_points);
      for (guint k = 0; k < n_points; k++)
        {
          put_step (bytes, points[k].x - at.x);
          put_step (bytes, points[k].y - at.y);
          at = points[k];
        }
    }
  return g_byte_array_free_to_bytes (bytes);
}

/* Reading ---------------------------------------------------------------------------------------------------------- */

typedef struct
{
  const guint8 *at;
  const guint8 *end;
} Reader;

/* A number from @least to @most; none has more than three bytes, and none a byte that adds nothing. */
static gboolean
take (Reader *reader, guint least, guint most, guint *ret_number)
{
  guint number = 0;

  for (guint shift = 0; shift < 21 && reader->at < reader->end; shift += 7)
    {
      guint8 byte = *reader->at++;

      number |= (guint) (byte & 0x7f) << shift;
      if ((byte & 0x80) != 0)
        continue;
      *ret_number = number;
      return number >= least && number <= most && (byte != 0 || shift == 0);
    }
  return FALSE;
}

static gboolean
take_step (Reader *reader, int from, int most, int *ret_to)
{
  guint folded;
  int to;

  if (!take (reader, 0, 2 * HS_SIGNATURE_MOST_SIDE, &folded))
    return FALSE;
  to = from + (folded % 2 == 1 ? -(int) (folded / 2) - 1 : (int) (folded / 2));
  *ret_to = to;
  return to >= 0 && to <= most;
}

static gboolean
take_stroke (Reader *reader, HsSignature *signature, HsSignaturePoint *at)
{
  guint n_points;

  if (!take (reader, 1, HS_SIGNATURE_MOST_POINTS - signature->points->len, &n_points))
    return FALSE;
  g_array_append_val (signature->starts, signature->points->len);
  for (guint i = 0; i < n_points; i++)
    {
      if (!take_step (reader, at->x, signature->width, &at->x) || !take_step (reader, at->y, signature->height, &at->y))
        return FALSE;
      g_array_append_val (signature->points, *at);
    }
  return TRUE;
}

static HsSignature *
take_all (Reader *reader)
{
  g_autoptr (HsSignature) signature = NULL;
  HsSignaturePoint at = { 0, 0 };
  guint width, height, n_strokes;

  if (!take (reader, 1, HS_SIGNATURE_MOST_SIDE, &width) || !take (reader, 1, HS_SIGNATURE_MOST_SIDE, &height)
      || !take (reader, 0, HS_SIGNATURE_MOST_STROKES, &n_strokes))
    return NULL;
  signature = hs_signature_new ((int) width, (int) height);
  for (guint i = 0; i < n_strokes; i++)
    if (!take_stroke (reader, signature, &at))
      return NULL;
  return reader->at == reader->end ? g_steal_pointer (&signature) : NULL;
}

HsSignature *
hs_signature_from_bytes (GBytes *bytes, GError **error)
{
  gsize size;
  const guint8 *data = g_bytes_get_data (bytes, &size);
  Reader reader = { data, data + size };
  HsSignature *signature = NULL;

  if (size >= 2 && size <= HS_SIGNATURE_MOST_BYTES && memcmp (data, "S1", 2) == 0)
    {
      reader.at += 2;
      signature = take_all (&reader);
    }
  if (signature == NULL)
    hs_core_bad_value (error, "These bytes are no signature; have it signed again.");
  return signature;
}
