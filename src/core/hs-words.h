// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * HsWord:
 * @id: how the word stands in the book and in import files
 * @label: how it is shown
 * @aliases: (nullable): other spellings accepted when reading, with `|` between them
 */
typedef struct
{
  const char *id;
  const char *label;
  const char *aliases;
} HsWord;

/**
 * HsWords:
 *
 * The closed lists of words that the book keeps. hs_words_get() says what stands in each.
 */
typedef enum
{
  HS_WORDS_JOB_KIND,
  HS_WORDS_CUSTOMER_KIND,
  HS_WORDS_FUEL,
  HS_WORDS_BATTERY_KIND,
  HS_WORDS_KNOWN_BY,
  HS_WORDS_CORE_PLACE,
  HS_WORDS_SIGNAL,
  HS_WORDS_PHASE,
  HS_WORDS_RETURN_WHY,
  HS_WORDS_MEANS,
  HS_WORDS_CHOICE,
  HS_WORDS_RANK,
  HS_WORDS_NEED_STATE,
  HS_WORDS_SAFE_TO_DRIVE,
  HS_WORDS_LINE_KIND,
  HS_WORDS_PAID_HOW,
  HS_WORDS_STOCK_WHY,
  HS_WORDS_FOLLOW_UP,
  HS_WORDS_FINDING_ROLE,
  HS_WORDS_SURE,
  HS_WORDS_WEIGHT,
  HS_WORDS_PURPOSE,
  HS_WORDS_ODOMETER_UNIT,
  HS_WORDS_STAGE,
  HS_WORDS_VERDICT,
  HS_WORDS_DROP_PLACE,
  HS_WORDS_ENGINE,
  HS_WORDS_METER_AT,
  HS_WORDS_BRAKE_FLUID,
  HS_WORDS_COOLANT,
  HS_WORDS_ENDED,
  HS_WORDS_PROOF,
  HS_WORDS_SAFETY_ANSWER,
  HS_WORDS_SAW_IT,
  HS_WORDS_CALLED_OFF_HOW,
  HS_WORDS_OLD_PART,
  HS_WORDS_NOTE_TOPIC,
  HS_WORDS_REPLACED_WHY,
} HsWords;

/* How many lists there are. */
#define HS_N_WORDS (HS_WORDS_REPLACED_WHY + 1)

/**
 * hs_words_get:
 * @ret_n_words: (out) (optional): how many
 *
 * Returns: (transfer none) (array length=ret_n_words): the list, in the order in which it is shown
 */
const HsWord *hs_words_get (HsWords words, gsize *ret_n_words);

/* hs_words_title: (transfer none): what the list is called in messages, e.g. "kind of job". */
const char *hs_words_title (HsWords words);

/**
 * hs_words_label:
 *
 * Returns: (transfer none): how @id is shown, or @id itself if the list does not have it
 */
const char *hs_words_label (HsWords words, const char *id);

/* hs_words_index: place of @id (exactly as in the book) in the list from 0, or −1. */
int hs_words_index (HsWords words, const char *id);

/**
 * hs_words_parse:
 * @text: an id, a label or an alias; letter case, blanks, dashes and underscores make no difference
 * @ret_id: (out) (transfer none): the id, a static string; untouched on failure
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE with the words that are accepted
 *
 * Returns: %TRUE if the list has it
 */
gboolean hs_words_parse (HsWords words, const char *text, const char **ret_id, GError **error);

/* hs_words_parse_index: like hs_words_parse(), giving the place in the list from 0. */
gboolean hs_words_parse_index (HsWords words, const char *text, int *ret_index, GError **error);

G_END_DECLS
