// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What cameras tell beside a photo (Exif: a TIFF structure with numbered entries): which way up, when, where. A camera
 * may write nonsense; what is out of bounds is as if it were not there. */

#include "hs-picture-private.h"

#include "hs-date.h"

#include <string.h>

enum
{
  TAG_ORIENTATION = 0x0112,
  TAG_CHANGED = 0x0132,
  TAG_MORE = 0x8769,
  TAG_PLACE = 0x8825,
  TAG_TAKEN = 0x9003,
  TAG_DIGITIZED = 0x9004,
  TAG_OFFSET = 0x9010,
  TAG_OFFSET_TAKEN = 0x9011,
};

enum
{
  TYPE_TEXT = 2,
  TYPE_SHORT = 3,
  TYPE_LONG = 4,
};

typedef struct
{
  const guint8 *data;
  gsize length;
  gboolean big;
} Tiff;

static guint32
get16 (const Tiff *tiff, gsize at)
{
  return tiff->big ? hs_picture_big16 (tiff->data + at) : hs_picture_little16 (tiff->data + at);
}

static guint32
get32 (const Tiff *tiff, gsize at)
{
  return tiff->big ? hs_picture_big32 (tiff->data + at) : hs_picture_little32 (tiff->data + at);
}

/* How many entries the list at @at has; 0 if it does not lie in the structure. */
static guint
count_entries (const Tiff *tiff, gsize at)
{
  guint n;

  if (at < 8 || at > tiff->length || tiff->length - at < 2)
    return 0;
  n = get16 (tiff, at);
  return n <= (tiff->length - at - 2) / 12 ? n : 0;
}

/* The entry of @tag, or 0. */
static gsize
find_entry (const Tiff *tiff, gsize list, guint tag)
{
  guint n = count_entries (tiff, list);

  for (guint i = 0; i < n; i++)
    if (get16 (tiff, list + 2 + 12 * i) == tag)
      return list + 2 + 12 * i;
  return 0;
}

/* Where the list stands to which the entry of @tag points, or 0. */
static gsize
find_list (const Tiff *tiff, gsize list, guint tag)
{
  gsize entry = find_entry (tiff, list, tag);

  return entry != 0 && get16 (tiff, entry + 2) == TYPE_LONG ? get32 (tiff, entry + 8) : 0;
}

/* The first @n letters of a text, without the end that C puts behind. */
static gboolean
read_text (const Tiff *tiff, gsize list, guint tag, char *text, gsize n)
{
  gsize entry = find_entry (tiff, list, tag);
  gsize at;

  if (entry == 0 || get16 (tiff, entry + 2) != TYPE_TEXT || get32 (tiff, entry + 4) < n)
    return FALSE;
  at = n <= 4 ? entry + 8 : get32 (tiff, entry + 8);
  if (at > tiff->length || tiff->length - at < n)
    return FALSE;
  memcpy (text, tiff->data + at, n);
  text[n] = '\0';
  return TRUE;
}

static gboolean
fits (const char *text, const char *form)
{
  for (; *form != '\0'; text++, form++)
    if (*form == '0' ? !g_ascii_isdigit (*text) : *text != *form)
      return FALSE;
  return *text == '\0';
}

static int
pair (const char *text)
{
  return (text[0] - '0') * 10 + text[1] - '0';
}

/* "2026:03:10 08:41:07"; cameras whose clock was never set write zeros. */
static gboolean
read_taken (const Tiff *tiff, gsize list, guint tag, HsPicture *picture)
{
  char text[20];

  if (!read_text (tiff, list, tag, text, 19) || !fits (text, "0000:00:00 00:00:00")
      || hs_date_from_ymd (pair (text) * 100 + pair (text + 2), pair (text + 5), pair (text + 8)) == HS_DATE_NONE
      || pair (text + 11) > 23 || pair (text + 14) > 59 || pair (text + 17) > 59)
    return FALSE;
  memcpy (picture->taken, text, sizeof text);
  picture->taken[4] = picture->taken[7] = '-';
  picture->taken[10] = 'T';
  return TRUE;
}

static void
read_offset (const Tiff *tiff, gsize list, guint tag, HsPicture *picture)
{
  char text[7];

  if (*picture->offset == '\0' && read_text (tiff, list, tag, text, 6)
      && (fits (text, "+00:00") || fits (text, "-00:00")) && pair (text + 1) <= 14 && pair (text + 4) <= 59)
    memcpy (picture->offset, text, sizeof text);
}

static void
read_orientation (const Tiff *tiff, gsize list, HsPicture *picture)
{
  gsize entry = find_entry (tiff, list, TAG_ORIENTATION);
  guint32 value = entry != 0 && get16 (tiff, entry + 2) == TYPE_SHORT ? get16 (tiff, entry + 8) : 0;

  if (value >= 1 && value <= 8)
    picture->orientation = value;
}

void
hs_picture_read_exif (const guint8 *data, gsize length, HsPicture *picture)
{
  Tiff tiff = { data, length, FALSE };
  gsize first, more;

  if (length < 8 || (memcmp (data, "II*\0", 4) != 0 && memcmp (data, "MM\0*", 4) != 0))
    return;
  tiff.big = data[0] == 'M';
  first = get32 (&tiff, 4);
  more = find_list (&tiff, first, TAG_MORE);
  read_orientation (&tiff, first, picture);
  picture->tells_place = picture->tells_place || count_entries (&tiff, find_list (&tiff, first, TAG_PLACE)) > 0;
  if (!read_taken (&tiff, more, TAG_TAKEN, picture) && !read_taken (&tiff, more, TAG_DIGITIZED, picture)
      && !read_taken (&tiff, first, TAG_CHANGED, picture))
    return;
  read_offset (&tiff, more, TAG_OFFSET_TAKEN, picture);
  read_offset (&tiff, more, TAG_OFFSET, picture);
}

/* Writing: most significant byte first. */

static void
put16 (GByteArray *out, guint value)
{
  const guint8 bytes[] = { (guint8) (value >> 8), (guint8) value };

  g_byte_array_append (out, bytes, sizeof bytes);
}

static void
put32 (GByteArray *out, guint value)
{
  put16 (out, value >> 16);
  put16 (out, value & 0xffff);
}

static void
put_entry (GByteArray *out, guint tag, guint type, guint count, guint value)
{
  put16 (out, tag);
  put16 (out, type);
  put32 (out, count);
  put32 (out, value);
}

/* A list of two behind the head of 8, a list of one or two behind that, the texts behind both. */
GByteArray *
hs_picture_write_exif (const HsPicture *picture)
{
  gboolean timed = *picture->taken != '\0', offset = timed && *picture->offset != '\0';
  guint first = 2 + 12 * (timed ? 2 : 1) + 4, more = 2 + 12 * (offset ? 2 : 1) + 4;
  GByteArray *out;
  char taken[20];

  if (!timed && picture->orientation == 1)
    return NULL;
  out = g_byte_array_new ();
  g_byte_array_append (out, (const guint8 *) "MM\0*", 4);
  put32 (out, 8);
  put16 (out, timed ? 2 : 1);
  put_entry (out, TAG_ORIENTATION, TYPE_SHORT, 1, picture->orientation << 16);
  if (timed)
    put_entry (out, TAG_MORE, TYPE_LONG, 1, 8 + first);
  put32 (out, 0);
  if (!timed)
    return out;
  put16 (out, offset ? 2 : 1);
  put_entry (out, TAG_TAKEN, TYPE_TEXT, 20, 8 + first + more);
  if (offset)
    put_entry (out, TAG_OFFSET_TAKEN, TYPE_TEXT, 7, 8 + first + more + 20);
  put32 (out, 0);
  memcpy (taken, picture->taken, sizeof taken);
  taken[4] = taken[7] = ':';
  taken[10] = ' ';
  g_byte_array_append (out, (const guint8 *) taken, 20);
  if (offset)
    g_byte_array_append (out, (const guint8 *) picture->offset, 7);
  return out;
}
