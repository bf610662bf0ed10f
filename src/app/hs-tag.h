// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-verdict-label.h"

G_BEGIN_DECLS

/**
 * A job as a tag on a wire. Signal `activated` on click, Enter or Space; property chosen. Role list item; its
 * accessible name is everything written on it.
 */
#define HS_TYPE_TAG (hs_tag_get_type ())
G_DECLARE_FINAL_TYPE (HsTag, hs_tag, HS, TAG, GtkWidget)

/**
 * HsTagFace:
 * @stage: stage id, for the silhouette
 * @stage_label: the stage in words, for screen readers
 * @stop: number of the stop in today's order; 0 when it has none
 * @plate: number plate; %NULL when not known yet
 * @model: the vehicle in words
 * @number: the job's number
 * @words: what the caller said, with its quotation marks
 * @window: the promised window, 08:00–10:00; %NULL shows @figure instead
 * @figure: what stands there without a window, for example “361.63 unpaid”
 * @when_lead: the word before the time, for example “arrive”
 * @when: the time or duration itself
 * @place: area and name
 * @line_lead: “Waits for”, or %NULL
 * @line: what it waits for, or what is known
 * @verdict: a verdict word at the end of the line, or %NULL
 * @verdict_shape: its border
 * @act: what to do next, or %NULL
 * @attention: whether it wants attention: the dog-ear
 *
 * What is written on a tag. Strings are borrowed for the call; any may be %NULL.
 */
typedef struct
{
  const char *stage;
  const char *stage_label;
  guint stop;
  const char *plate;
  const char *model;
  const char *number;
  const char *words;
  const char *window;
  const char *figure;
  const char *when_lead;
  const char *when;
  const char *place;
  const char *line_lead;
  const char *line;
  const char *verdict;
  HsVerdictShape verdict_shape;
  const char *act;
  gboolean attention;
} HsTagFace;

GtkWidget *hs_tag_new (void);
void hs_tag_set_face (HsTag *self, const HsTagFace *face);
void hs_tag_set_chosen (HsTag *self, gboolean chosen);
gboolean hs_tag_get_chosen (HsTag *self);

/** hs_tag_set_key: @key: (nullable): the key that acts on it now, printed on its strip. */
void hs_tag_set_key (HsTag *self, const char *key);

/**
 * hs_tag_get_eyelet:
 * @ret_point: (out): the middle of the eyelet, in the tag's own coordinates; the string ends there
 */
void hs_tag_get_eyelet (HsTag *self, graphene_point_t *ret_point);

G_END_DECLS
