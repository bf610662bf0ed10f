// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every kind of row of the work on site, filled in with one of each. */

#include "row-kinds.h"

#include "hs-advice-row.h"
#include "hs-disturbed-row.h"
#include "hs-model-note-row.h"
#include "hs-outbox-row.h"
#include "hs-photo-row.h"
#include "hs-visit-row.h"

#define PHOTO_SHA "abababababababababababababababababababababababababababababababab"

static void
set (char **field, const char *text)
{
  hs_row_set (field, text);
}

static void
fill_safety_row (gpointer data)
{
  HsSafetyRow *row = data;

  set (&row->visit_id, "vi");
  set (&row->item, "traffic");
  set (&row->answer, "refused");
  set (&row->why, "on a bend");
  row->at = 710;
}

static void
fill_photo_row (gpointer data)
{
  HsPhotoRow *row = data;

  set (&row->job_id, "open");
  set (&row->visit_id, "vi");
  set (&row->finding_id, "f-open");
  set (&row->reading_id, "r-before");
  set (&row->file_id, PHOTO_SHA);
  set (&row->name, "meter.jpg");
  set (&row->words, "the meter");
  set (&row->phase, "before");
  row->taken_at = 5;
  row->added_at = 6;
}

static void
fill_disturbed_row (gpointer data)
{
  HsDisturbedRow *row = data;

  set (&row->job_id, "open");
  set (&row->what, "belt cover");
  set (&row->check_id, "rest");
  row->done_at = 900;
  set (&row->done_words, "tight");
}

static void
fill_model_note_row (gpointer data)
{
  HsModelNoteRow *row = data;

  set (&row->make, "Vostle");
  set (&row->model, "Crag");
  row->year_from = 2014;
  row->year_to = 2018;
  set (&row->topic, "knack");
  set (&row->words, "lift the clip first");
  set (&row->job_id, "open");
  row->at = 950;
}

static void
fill_advice_line_row (gpointer data)
{
  HsAdviceLineRow *row = data;

  set (&row->advice_id, "a-open");
  set (&row->kind, "part");
  set (&row->what, "drive belt");
  row->quantity_milli = 2000;
  row->cost_cents = 1200;
  row->price_cents = 2000;
  row->tax_cents = 160;
  set (&row->part_id, "b");
}

static void
fill_outbox_row (gpointer data)
{
  HsOutboxRow *row = data;

  set (&row->job_id, "open");
  row->revision = 7;
  set (&row->state, "parked");
  row->queued_at = 1;
  set (&row->body, "{}");
  row->tries = 2;
  row->tried_at = 3;
  row->next_at = 4;
  set (&row->ended, "answered");
  row->status = 422;
  set (&row->said, "no");
  row->sent_at = 5;
  row->sent_revision = 6;
}

static void
fill_queue_row (gpointer data)
{
  HsOutboxQueueRow *row = data;

  set (&row->id, "queue");
  row->paused_at = 1;
  row->hold_until = 2;
  row->tries = 3;
  set (&row->ended, "answered");
  row->status = 401;
  set (&row->said, "no");
}

static void
fill_device_row (gpointer data)
{
  HsPostDeviceRow *row = data;

  set (&row->id, "d0");
  set (&row->name, "bench");
  row->since = 970;
}

const Kind on_site_kinds[] = {
  KIND (hs_safety_row, "safety", fill_safety_row,
    "vi|traffic|refused|on a bend|710", FALSE),
  KIND (hs_photo_row, "photo", fill_photo_row,
    "open|vi|f-open|r-before|" PHOTO_SHA "|meter.jpg|the meter|before|5|6", FALSE),
  KIND (hs_disturbed_row, "disturbed", fill_disturbed_row,
    "open|belt cover|rest|900|tight", FALSE),
  KIND (hs_model_note_row, "model_note", fill_model_note_row,
    "Vostle|Crag|2014|2018|knack|lift the clip first|open|950", FALSE),
  KIND (hs_advice_line_row, "advice_line", fill_advice_line_row,
    "a-open|part|drive belt|2000|1200|2000|160|b", FALSE),
  KIND (hs_outbox_row, "outbox", fill_outbox_row,
    "open|7|parked|1|{}|2|3|4|answered|422|no|5|6", FALSE),
  KIND (hs_outbox_queue_row, "outbox_queue", fill_queue_row,
    "queue|1|2|3|answered|401|no", FALSE),
  KIND (hs_post_device_row, "post_device", fill_device_row,
    "d0|bench|970", FALSE),
};
const guint n_on_site_kinds = G_N_ELEMENTS (on_site_kinds);
