// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan-frame.h"

G_BEGIN_DECLS

/* A label is one way of having done a set of stops (private to this layer). It keeps the time at which the van is free
 * as a function of the leave time L: max (L + drive, ready), good for L up to leave_max. `ready` is never below what
 * leaving first thing gives. A stop with several spans makes one label for each span, so that every label stays of
 * this form; a lunch closing is thus two labels, not a step in one. @owes: the break is still to come. */

typedef struct
{
  guint64 done;
  gint64 drive;
  gint64 ready;
  gint64 leave_max;
  gint64 units;
  gint64 late;
  guint broken;
  gboolean owes;
  int last;
  int parent;
  int next;
} HsLabel;

/* What is settled before a search: which leave times, and what may be broken. */
typedef struct
{
  gint64 leave_from;
  gint64 leave_to;
  gboolean flat;
  guint broken;
  gint64 late;
  gint64 home_late;
} HsTerms;

/* A finished day, in the order in which days are compared. */
typedef struct
{
  guint broken;
  gint64 late;
  gint64 home_late;
  gint64 units;
  gint64 home;
  gint64 leave;
} HsFinish;

#define HS_FINISH_WORST { G_MAXUINT, G_MAXINT64, G_MAXINT64, G_MAXINT64, G_MAXINT64, 0 }
#define HS_TERMS_OPEN(from, to) { (from), (to), FALSE, G_MAXUINT, G_MAXINT64, G_MAXINT64 }
#define HS_LABEL_MAX_BEGIN 2
#define HS_LABEL_MAX_NEXT (2 * (HS_DAY_MAX_SPANS + 1))

/* Below zero if @a is better. */
int hs_finish_compare (const HsFinish *a, const HsFinish *b);

/* The labels of not having left yet: leaving at any time, or only after the break. Returns how many. With terms->flat
 * the van leaves as early as it may and money is not counted. */
guint hs_label_begin (const HsFrame *frame, const HsTerms *terms, HsLabel *ret_labels);

/* Goes on to stop @i, with and without the break behind it: writes up to HS_LABEL_MAX_NEXT labels, returns how many
 * (0: not possible under the terms). */
guint hs_label_extend (const HsFrame *frame, const HsTerms *terms, const HsLabel *label, guint i, HsLabel *ret_next);

/* Drives home with the best leave time; FALSE if the terms do not allow it. */
gboolean hs_label_finish (const HsFrame *frame, const HsTerms *terms, const HsLabel *label, HsFinish *ret_finish);

/* Whether @a, with the same stops done and the same last one, is at least as good as @b whatever follows. */
gboolean hs_label_dominates (const HsLabel *a, const HsLabel *b);

/* The best finish of a given order; FALSE if the terms do not allow it. */
gboolean hs_label_drive (const HsFrame *frame, const HsTerms *terms, const guint *order, HsFinish *ret_finish);

G_END_DECLS
