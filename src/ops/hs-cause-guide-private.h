// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cause-guide.h"
#include "hs-json-walk.h"

G_BEGIN_DECLS

#define HS_GUIDE_ANSWERS 9
#define HS_GUIDE_CUTS (HS_CAUSE_MODEL_MAX_RESULTS - 1)

typedef enum
{
  HS_GUIDE_BY_NOTHING,
  HS_GUIDE_BY_VERDICT,
  HS_GUIDE_BY_ANSWER,
  HS_GUIDE_BY_NUMBER,
} HsGuideBy;

/* Which reading is which result: the result plus 1, 0 where it says nothing. */
typedef struct
{
  HsGuideBy by;
  guint8 of_verdict[HS_N_VERDICTS];
  guint8 of_answer[HS_GUIDE_ANSWERS];
  guint n_answers;
  double cuts[HS_GUIDE_CUTS]; /* the first result is below the first of them */
  guint n_cuts;
  guint8 over_range;
} HsGuideFrom;

typedef struct
{
  const char *source;
  GHashTable *sources; /* (nullable): id of a cause → who says so, where that is someone else */
  HsGuideFrom from;
  const char *question; /* (nullable): of the interview, that asks for the same */
  GHashTable *said;     /* (nullable): answer to it → the result plus 1 */
  gboolean has_elsewhere;
  double elsewhere[HS_CAUSE_MODEL_MAX_RESULTS];
} HsGuideCheck;

struct HsCauseGuide
{
  HsCauseModel *model;
  GStringChunk *words;
  const char *id;
  const char *group;
  const char *name;
  const char *note;
  const char *when;
  guint when_answers; /* a bit for each, from 1 */
  double when_minutes;
  double share;
  const char *when_question;
  GPtrArray *when_said; /* answers to that question */
  double counts_as;
  GArray *causes;     /* HsGuideCause, as in the model */
  GArray *checks;     /* HsGuideCheck, as in the model */
};

HsCauseGuide *hs_cause_guide_new (void);

/* hs_cause_words_top, hs_cause_words_cause, hs_cause_words_check: the words of each kind of object, those that are
 * there. Return: %FALSE with a refusal where one is not what it should be. */
gboolean hs_cause_words_top (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *top);
gboolean hs_cause_words_cause (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *object, HsGuideCause *ret_cause);
/* @results: (array zero-terminated=1) */
gboolean hs_cause_words_check (HsCauseGuide *self, HsJsonWalk *walk, JsonObject *object, const char *const *results);

G_END_DECLS
