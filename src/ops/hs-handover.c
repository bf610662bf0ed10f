// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Handing the vehicle back: why it could not be proven, whether it is safe to drive, what the odometer showed. Refuses
 * to take away the only thing that proves a job. */

#include "hs-odometer-op.h"
#include "hs-repair-private.h"

#include "hs-ops-private.h"
#include "hs-stage.h"
#include "hs-text.h"

const char *
hs_unproved_reason (guint nth, const HsTongue *in)
{
  switch (nth)
    {
    case 0:
      return in->gettext ("The customer had to drive off.");
    case 1:
      return in->gettext ("Dark and raining, so no road test.");
    case 2:
      return in->gettext ("The part is on order; made safe only.");
    case 3:
      return in->gettext ("It comes and goes, and did not show today.");
    case 4:
      return in->gettext ("It needs days on the road; call and ask.");
    default:
      return NULL;
    }
}

static gboolean
save_unproved (HsStore *store, const char *job_id, const char *why, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  hs_row_set (&job->unproved_why, why);
  return hs_job_row_save (store, job, error);
}

static gboolean
save_safe (HsStore *store, const char *job_id, const char *safe, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  if (!hs_job_row_load (store, job_id, &job, error))
    return FALSE;
  hs_row_set (&job->safe_to_drive, safe);
  return hs_job_row_save (store, job, error);
}

gboolean
hs_job_set_unproved (HsBook *book, const char *job_id, const char *why, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "not proven because");
  return hs_store_end (store, save_unproved (store, job_id, hs_ops_blank_to_null (why), error), error);
}

gboolean
hs_job_set_safe (HsBook *book, const char *job_id, const char *safe, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  const char *id;

  if (!hs_ops_word (HS_WORDS_SAFE_TO_DRIVE, hs_ops_blank_to_null (safe), NULL, &id, error)
      || !hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "safe to drive: %s",
               id == NULL ? "not said" : hs_words_label (HS_WORDS_SAFE_TO_DRIVE, id));
  return hs_store_end (store, save_safe (store, job_id, id, error), error);
}

static gboolean
note_odometer (HsBook *book, const char *job_id, gint64 odometer, HsInstant now, GError **error)
{
  g_autoptr (HsJobRow) job = NULL;

  return hs_job_row_load (hs_book_get_store (book), job_id, &job, error)
         && hs_odometer_note (book, job, odometer, now, error);
}

gboolean
hs_job_leave (HsBook *book, const char *job_id, gint64 odometer, HsInstant now, GError **error)
{
  HsStore *store = hs_book_get_store (book);

  if (!hs_store_begin (store, now, error))
    return FALSE;
  hs_ops_note (store, job_id, "odometer: %" G_GINT64_FORMAT, odometer);
  return hs_store_end (store, note_odometer (book, job_id, odometer, now, error), error);
}
