// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-photo-intake.h"

G_BEGIN_DECLS

/* The photos of a job: added, bound to a finding, a reading and a phase, taken away. Each is one step that can be taken
 * back; a squared job takes none. The bytes stand in the book once, however many photos show them. */

/**
 * HsPhotoEntry:
 * @phase: `before`, `during`, `after`; %NULL: by the readings that stood when it was taken
 * @finding_id: (nullable): what it shows, of the same job
 * @reading_id: (nullable): the display of a meter, of the same job
 * @words: (nullable): what there is to see
 */
typedef struct
{
  const char *phase;
  const char *finding_id;
  const char *reading_id;
  const char *words;
} HsPhotoEntry;

/**
 * hs_photo_add:
 * @entry: (nullable): what it is bound to
 * @ret_mended: (out) (optional): the photo was on this job, but its picture was missing and is there again
 *
 * Keeps a photo and matches it to the visit in which it was taken. Refuses one that is on the job already. That its
 * place was kept goes into the log.
 *
 * Returns: (transfer full): its id
 */
char *hs_photo_add (HsBook *book, const char *job_id, const HsPhotoIntake *intake, const HsPhotoEntry *entry,
                    HsInstant now, gboolean *ret_mended, GError **error);

/* hs_photo_bind: @finding_id: (nullable): of the same job; %NULL takes the bond away. */
gboolean hs_photo_bind (HsBook *book, const char *photo_id, const char *finding_id, HsInstant now, GError **error);
gboolean hs_photo_set_phase (HsBook *book, const char *photo_id, const char *phase, HsInstant now, GError **error);
gboolean hs_photo_reword (HsBook *book, const char *photo_id, const char *words, HsInstant now, GError **error);

/* hs_photo_remove: refused while it proves a link of the why-chain. */
gboolean hs_photo_remove (HsBook *book, const char *photo_id, HsInstant now, GError **error);

/**
 * HsPhotoCard:
 * @number: from 1 in the order in which they were added to the job
 * @finding: (nullable): the words of its finding
 * @visit: number of its visit from 1; 0: none
 * @width: upright, in pixels; 0 if it is not known
 * @missing: the book does not have its picture, or not all of it
 */
typedef struct
{
  char *id;
  char *file_id;
  char *name;
  char *words;
  char *phase;
  char *finding_id;
  char *finding;
  char *reading_id;
  char *media_type;
  guint number;
  guint visit;
  gint64 bytes;
  gint64 width;
  gint64 height;
  HsInstant taken_at;
  HsInstant added_at;
  gboolean missing;
} HsPhotoCard;

void hs_photo_card_free (HsPhotoCard *card);

/* hs_photo_list: (transfer full) (element-type HsPhotoCard): of a job, oldest first. */
GPtrArray *hs_photo_list (HsBook *book, const char *job_id, GError **error);

/**
 * HsPhotoSubject:
 *
 * A finding of the job, which a photo may show.
 */
typedef struct
{
  char *id;
  char *what;
} HsPhotoSubject;

void hs_photo_subject_free (HsPhotoSubject *subject);

/* hs_photo_subjects: (transfer full) (element-type HsPhotoSubject): oldest first. */
GPtrArray *hs_photo_subjects (HsBook *book, const char *job_id, GError **error);

/* hs_photo_find: (transfer full): the id of a photo of the job, from its number or its id. */
char *hs_photo_find (HsBook *book, const char *job_id, const char *text, GError **error);

/* hs_photo_load: (transfer full): the picture of a photo, bit by bit what was kept; %HS_STORE_ERROR_NOT_FOUND. */
GBytes *hs_photo_load (HsBook *book, const char *photo_id, GError **error);

/* hs_photo_load_thumbnail: (transfer full): a small JPEG; %HS_STORE_ERROR_NOT_FOUND. */
GBytes *hs_photo_load_thumbnail (HsBook *book, const char *photo_id, GError **error);

/* hs_photo_export: writes the picture; a file that is there is never overwritten. */
gboolean hs_photo_export (HsBook *book, const char *photo_id, GFile *to, GError **error);

/**
 * HsPhotoFault:
 * @job: number of the job
 * @number: of the photo on it
 * @name: (nullable): of its file
 *
 * A photo whose picture is not what was kept.
 */
typedef struct
{
  char *job;
  guint number;
  char *name;
} HsPhotoFault;

void hs_photo_fault_free (HsPhotoFault *fault);

/**
 * hs_photo_check:
 * @ret_n_photos: (out): how many the book has
 * @ret_faults: (out) (transfer full) (element-type HsPhotoFault): those whose picture is missing or damaged
 *
 * Reads every picture of the book and compares it with its checksum.
 */
gboolean hs_photo_check (HsBook *book, guint *ret_n_photos, GPtrArray **ret_faults, GError **error);

G_END_DECLS
