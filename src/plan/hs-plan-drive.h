// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-plan-frame.h"
#include "hs-plan.h"

G_BEGIN_DECLS

/* A plan out of an order, a leave time and a place for the break (private to this layer). */

/**
 * HsDriven: what an order comes to, in the order in which ways to take the break are compared.
 * @broken: stops late, the break among them
 * @late: seconds late in all
 * @home_late: seconds home after home_by
 * @stingy: stops that do not leave the frame's spare
 * @spare: least slack over all calls; %HS_PLAN_NO_LIMIT if none has a window end
 * @home: when home
 */
typedef struct
{
  guint broken;
  gint64 late;
  gint64 home_late;
  guint stingy;
  gint64 spare;
  gint64 home;
} HsDriven;

typedef enum
{
  HS_DRIVE_FOR_HOME,
  HS_DRIVE_FOR_SPARE,
} HsDriveAim;

/* What @order (frame->n stops by index in the frame) comes to with the break after position @break_after, which is
 * %HS_PLAN_NO_BREAK or %HS_PLAN_BREAK_FIRST or counts from 0. FALSE where it would begin too late there. */
gboolean hs_drive_measure (const HsFrame *frame, const guint *order, gint64 leave, int break_after,
                           HsDriven *ret_driven);

/* The best place for the break from position @first on: most in time, then least lateness, then home in time, then the
 * frame's spare, then by @aim the most spare or home earliest, then as late as can be,
 * so that work comes early. None where none is as good. */
int hs_drive_place_break (const HsFrame *frame, const guint *order, gint64 leave, int first, HsDriveAim aim,
                          HsDriven *ret_driven);

/* The plan, under the frame's spare: everything but status, proven, states and broken. */
HsPlan *hs_drive_plan (const HsFrame *frame, const guint *order, gint64 leave, int break_after);

/* The break goes where it is best. */
#define HS_PLAN_PLACE_BREAK (-3)

/* hs_plan_drive_order () for an order that is known to be good, with the break where @break_after says; where it would
 * begin too late there, there is none. (transfer full) */
HsPlan *hs_plan_drive (const HsDay *day, const guint *order, guint n_order, gint32 leave_seconds, int break_after);

G_END_DECLS
