// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

#include "hs-tongue.h"

G_BEGIN_DECLS

/**
 * HsVerdict:
 * @HS_VERDICT_WITHIN: good as it is
 * @HS_VERDICT_WATCH: usable, with something to do: charge, recheck
 * @HS_VERDICT_OUTSIDE: over the limit
 * @HS_VERDICT_CANNOT_TELL: a condition is missing or the test is not valid now
 * @HS_VERDICT_DEPENDS: sources conflict; both figures are shown
 */
typedef enum
{
  HS_VERDICT_WITHIN,
  HS_VERDICT_WATCH,
  HS_VERDICT_OUTSIDE,
  HS_VERDICT_CANNOT_TELL,
  HS_VERDICT_DEPENDS,
} HsVerdict;

#define HS_N_VERDICTS (HS_VERDICT_DEPENDS + 1)

/* hs_verdict_id: (transfer none): `within`, `watch`, `outside`, `cannot_tell`, `depends`. */
const char *hs_verdict_id (HsVerdict verdict);

/* hs_verdict_word: (transfer none): as it is shown, e.g. "cannot tell". */
const char *hs_verdict_word (HsVerdict verdict);

/* hs_verdict_word_in: (transfer none) (nullable): the word in the box of a verdict, in another language. The plain
 * words have the context `verdict`, for some of them mean something else elsewhere. */
const char *hs_verdict_word_in (const char *word, const HsTongue *in);

/* hs_verdict_shape: (transfer none): the box that stands for it: plain, thin, heavy, dashed, dotted. */
const char *hs_verdict_shape (HsVerdict verdict);

gboolean hs_verdict_parse (const char *text, HsVerdict *ret_verdict, GError **error);

/**
 * hs_verdict_better:
 *
 * Which of two neighbors a value exactly on their limit belongs to: limits are printed as "at most" or "at least".
 *
 * Returns: the better of both: within, then watch, depends, cannot tell, outside
 */
HsVerdict hs_verdict_better (HsVerdict a, HsVerdict b);

/**
 * hs_verdict_source_text:
 * @source: who says so
 * @sure: (nullable): how sure that is
 *
 * Returns: (transfer full): both, `US Army TM 5-1185 (official text)`; @sure only once where @source says it already
 */
char *hs_verdict_source_text (const char *source, const char *sure);

/* The word and the box for a vehicle that must not be driven; it stands beside a verdict, not instead of one. */
#define HS_DO_NOT_DRIVE_WORD "Do not drive"
#define HS_DO_NOT_DRIVE_SHAPE "double"

G_END_DECLS
