// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* From a file to a photo that may be kept: read up to a limit, looked at by core, bared of what it tells, made small
 * once. Refuses with the file's name in front. */

#include "hs-photo-intake.h"

#include "hs-ops-private.h"
#include "hs-pixels.h"

void
hs_photo_intake_free (HsPhotoIntake *intake)
{
  if (intake == NULL)
    return;
  g_free (intake->name);
  g_clear_pointer (&intake->data, g_bytes_unref);
  g_clear_pointer (&intake->thumbnail, g_bytes_unref);
  g_free (intake->taken);
  g_free (intake->offset);
  g_free (intake);
}

/* A pipe or a device would never end, and a folder is not read at all. */
static gboolean
check_plain (GFile *file, GError **error)
{
  g_autoptr (GFileInfo) info = g_file_query_info (file, G_FILE_ATTRIBUTE_STANDARD_TYPE, G_FILE_QUERY_INFO_NONE, NULL,
                                                  error);

  if (info == NULL)
    return FALSE;
  if (g_file_info_get_file_type (info) == G_FILE_TYPE_DIRECTORY)
    return hs_ops_refuse (error, "This is a folder. Choose a photo in it.");
  return g_file_info_get_file_type (info) == G_FILE_TYPE_REGULAR
         || hs_ops_refuse (error, "This is not a file. Only photos are kept: JPEG, PNG or WebP.");
}

/* By hand, for GIO reads a whole file or asks for its length first. */
GBytes *
hs_photo_file_begin (GFile *file, gsize most, GError **error)
{
  g_autoptr (GFileInputStream) stream = NULL;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();

  if (!check_plain (file, error))
    return NULL;
  stream = g_file_read (file, NULL, error);
  if (stream == NULL)
    return NULL;
  while (bytes->len < most)
    {
      g_autoptr (GBytes) piece = g_input_stream_read_bytes (G_INPUT_STREAM (stream), MIN (262144, most - bytes->len),
                                                            NULL, error);

      if (piece == NULL)
        return NULL;
      if (g_bytes_get_size (piece) == 0)
        break;
      g_byte_array_append (bytes, g_bytes_get_data (piece, NULL), (guint) g_bytes_get_size (piece));
    }
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}

/* intake_of: (transfer full) @data: let go of once what is kept of it is made, before it is decoded. */
static HsPhotoIntake *
intake_of (const char *name, GBytes *data, gboolean keep_place, GError **error)
{
  g_autoptr (GBytes) own = data;
  g_autoptr (HsPhotoIntake) intake = g_new0 (HsPhotoIntake, 1);
  gboolean upright;
  HsPicture picture;

  if (!hs_picture_read (data, &picture, error))
    return NULL;
  upright = picture.orientation <= 4;
  intake->name = g_strdup (name);
  intake->media_type = hs_picture_media_type (picture.kind);
  intake->width = upright ? picture.width : picture.height;
  intake->height = upright ? picture.height : picture.width;
  intake->taken = g_strdup (picture.taken);
  intake->offset = g_strdup (picture.offset);
  intake->told_place = picture.tells_place;
  intake->kept_place = picture.tells_place && keep_place;
  intake->data = intake->kept_place ? g_bytes_ref (data) : hs_picture_bare (data, &picture);
  g_clear_pointer (&own, g_bytes_unref);
  intake->thumbnail = hs_pixels_thumbnail (intake->data, HS_PHOTO_THUMBNAIL, error);
  return intake->thumbnail != NULL ? g_steal_pointer (&intake) : NULL;
}

/* take: (transfer full) @data */
static HsPhotoIntake *
take (const char *name, GBytes *data, gboolean keep_place, GError **error)
{
  HsPhotoIntake *intake = intake_of (name, data, keep_place, error);

  if (intake == NULL)
    g_prefix_error (error, "“%s”: ", name);
  return intake;
}

HsPhotoIntake *
hs_photo_intake_take (const char *name, GBytes *data, gboolean keep_place, GError **error)
{
  return take (name, g_bytes_ref (data), keep_place, error);
}

HsPhotoIntake *
hs_photo_intake_read (GFile *file, gboolean keep_place, GError **error)
{
  g_autofree char *base = g_file_get_basename (file);
  g_autofree char *name = g_utf8_make_valid (base != NULL ? base : "", -1);
  GBytes *data = hs_photo_file_begin (file, HS_PICTURE_MOST_BYTES + 1, error);

  if (data != NULL)
    return take (name, data, keep_place, error);
  g_prefix_error (error, "“%s”: ", name);
  return NULL;
}
