// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-book.h"
#include "hs-date.h"

G_BEGIN_DECLS

/* What was learned of a model, offered the next time that one comes. */

/**
 * HsModelNote:
 * @topic: `place`, `knack`, `part_name`, `caution`
 * @topic_word: as it is shown: "where it is"
 * @years: (nullable): "2014 to 2018", if it does not hold for all
 * @number: (nullable): of the job on which it was learned
 */
typedef struct
{
  char *id;
  char *topic;
  const char *topic_word;
  char *words;
  char *years;
  char *number;
  HsInstant at;
} HsModelNote;

void hs_model_note_free (HsModelNote *note);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsModelNote, hs_model_note_free)

/** hs_model_note_list: (transfer full) (element-type HsModelNote): the notes on the model of a job's vehicle, what to
 * beware of first, then the newest; empty if the model is not known. Reads only. */
GPtrArray *hs_model_note_list (HsBook *book, const char *job_id, GError **error);

/**
 * HsModelNoteEntry:
 * @topic: %NULL: `knack`
 * @years: (nullable): "2014", "2014-2018", "2014-", "-2018"; %NULL: it holds for all
 */
typedef struct
{
  const char *topic;
  const char *words;
  const char *years;
} HsModelNoteEntry;

/** hs_model_note_add: (transfer full): learned on this job, on the model of its vehicle. Returns the note's id. */
char *hs_model_note_add (HsBook *book, const char *job_id, const HsModelNoteEntry *entry, HsInstant now,
                         GError **error);

gboolean hs_model_note_remove (HsBook *book, const char *job_id, const char *note_id, HsInstant now, GError **error);

G_END_DECLS
