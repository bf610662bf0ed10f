// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The folder of a camera: which photos are there, which of them are new, and at which vehicle each was taken, by its
 * time. Nothing is added here; what cannot be read is left out. */

#include "hs-photo-folder.h"

#include "hs-job-row.h"
#include "hs-ops-private.h"
#include "hs-photo-intake.h"
#include "hs-photo-private.h"
#include "hs-photo-row.h"
#include "hs-vehicle-row.h"

#define MOST_FOUND 2000
#define MOST_DEEP 4

/* What a camera tells stands in front of the picture. */
#define HEAD_BYTES 131072

#define ATTRIBUTES \
  G_FILE_ATTRIBUTE_STANDARD_NAME "," G_FILE_ATTRIBUTE_STANDARD_TYPE "," G_FILE_ATTRIBUTE_STANDARD_SIZE \
  "," G_FILE_ATTRIBUTE_STANDARD_IS_HIDDEN "," G_FILE_ATTRIBUTE_TIME_MODIFIED

void
hs_photo_found_free (HsPhotoFound *found)
{
  if (found == NULL)
    return;
  g_free (found->uri);
  g_free (found->name);
  g_free (found->taken);
  g_free (found->offset);
  g_free (found->job_id);
  g_free (found->job);
  g_free (found->plate);
  g_free (found->visit_id);
  g_free (found);
}

static gboolean
is_named_so (const char *name)
{
  static const char *const ends[] = { ".jpg", ".jpeg", ".png", ".webp" };
  g_autofree char *lower = g_ascii_strdown (name, -1);

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    if (g_str_has_suffix (lower, ends[i]))
      return TRUE;
  return FALSE;
}

static void
look_at (GFile *file, GFileInfo *info, GPtrArray *found)
{
  g_autoptr (GBytes) head = hs_photo_file_begin (file, HEAD_BYTES, NULL);
  g_autoptr (GDateTime) changed = g_file_info_get_modification_date_time (info);
  HsPhotoFound *one;
  HsPicture picture;

  if (head == NULL || !hs_picture_read_head (head, &picture))
    return;
  one = g_new0 (HsPhotoFound, 1);
  one->uri = g_file_get_uri (file);
  one->name = g_utf8_make_valid (g_file_info_get_name (info), -1);
  one->bytes = g_file_info_get_size (info);
  one->taken = g_strdup (picture.taken);
  one->offset = g_strdup (picture.offset);
  one->changed_at = changed != NULL ? g_date_time_to_unix (changed) : HS_INSTANT_NONE;
  one->at = HS_INSTANT_NONE;
  g_ptr_array_add (found, one);
}

/* A folder inside that cannot be read is left out, as a file is. */
static gboolean
scan (GFile *folder, guint deep, GPtrArray *found, GError **error)
{
  g_autoptr (GFileEnumerator) inside
      = g_file_enumerate_children (folder, ATTRIBUTES, G_FILE_QUERY_INFO_NOFOLLOW_SYMLINKS, NULL, error);
  GFileInfo *info;
  GFile *file;

  if (inside == NULL)
    return FALSE;
  while (found->len < MOST_FOUND && g_file_enumerator_iterate (inside, &info, &file, NULL, NULL) && info != NULL)
    {
      GFileType type = g_file_info_get_file_type (info);

      if (g_file_info_get_is_hidden (info))
        continue;
      if (type == G_FILE_TYPE_DIRECTORY && deep < MOST_DEEP)
        scan (file, deep + 1, found, NULL);
      else if (type == G_FILE_TYPE_REGULAR && is_named_so (g_file_info_get_name (info)))
        look_at (file, info, found);
    }
  return TRUE;
}

GPtrArray *
hs_photo_folder_scan (GFile *folder, GError **error)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_photo_found_free);
  g_autoptr (GError) failure = NULL;
  g_autofree char *name = NULL;

  if (scan (folder, 0, found, &failure))
    return g_steal_pointer (&found);
  name = g_file_get_parse_name (folder);
  hs_ops_refuse (error, "“%s” is no folder that can be read: %s. Unlock the phone or camera and look again.", name,
                 failure->message);
  return NULL;
}

static gboolean
set_job (HsStore *store, HsPhotoFound *one, const HsVisitRow *visit, gboolean *ret_set, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;
  g_autoptr (HsVehicleRow) vehicle = NULL;

  if (!hs_job_row_load (store, visit->job_id, &job, error)
      || (job->vehicle_id != NULL && !hs_vehicle_row_load (store, job->vehicle_id, &vehicle, error)))
    return FALSE;
  *ret_set = !g_str_equal (job->stage, "squared");
  if (!*ret_set)
    return TRUE;
  hs_row_set (&one->job_id, job->id);
  hs_row_set (&one->job, job->number);
  hs_row_set (&one->visit_id, visit->id);
  hs_row_set (&one->plate, vehicle != NULL ? vehicle->plate : NULL);
  return TRUE;
}

/* The visit that lies nearest. */
static gboolean
match_visit (HsStore *store, HsPhotoFound *one, HsInstant now, GError **error)
{
  g_autoptr (GPtrArray) visits = NULL;
  gint64 best = -1;

  if (one->at == HS_INSTANT_NONE)
    return TRUE;
  if (!hs_visit_row_list_during (store, one->at - HS_PHOTO_SLACK_SECONDS, one->at + HS_PHOTO_SLACK_SECONDS, &visits,
                                 error))
    return FALSE;
  for (guint i = 0; i < visits->len; i++)
    {
      const HsVisitRow *visit = g_ptr_array_index (visits, i);
      gint64 far = hs_photo_far (visit, one->at, now);
      gboolean set = FALSE;

      if (far < 0 || (best >= 0 && far >= best))
        continue;
      if (!set_job (store, one, visit, &set, error))
        return FALSE;
      best = set ? far : best;
    }
  return TRUE;
}

static gboolean
match (HsBook *book, HsPhotoFound *one, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  HsInstant taken_at = hs_photo_instant (book, one->taken, one->offset);
  g_autoptr (HsPhotoRow) there = NULL;

  one->at = taken_at != HS_INSTANT_NONE ? taken_at : one->changed_at;
  if (!hs_photo_row_find (store, one->name, taken_at, &there, error))
    return FALSE;
  one->known = there != NULL;
  return match_visit (store, one, now, error);
}

static int
compare (gconstpointer a, gconstpointer b)
{
  const HsPhotoFound *one = *(HsPhotoFound *const *) a, *other = *(HsPhotoFound *const *) b;

  if (one->at != other->at)
    return one->at < other->at ? 1 : -1;
  return g_strcmp0 (one->uri, other->uri);
}

gboolean
hs_photo_folder_match (HsBook *book, GPtrArray *found, HsInstant now, GError **error)
{
  for (guint i = 0; i < found->len; i++)
    if (!match (book, g_ptr_array_index (found, i), now, error))
      return FALSE;
  g_ptr_array_sort (found, compare);
  return TRUE;
}
