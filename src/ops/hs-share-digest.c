// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * Everything of a day that a proposal depends on, in one short text, so that accepting can tell whether the day is
 * still what it was. The hour is left out: a proposal does not spoil by being looked at.
 */

#include "hs-share-private.h"

#include "hs-plan-row.h"

#include <string.h>

static void
add_number (GString *text, gint64 number)
{
  g_string_append_printf (text, "%" G_GINT64_FORMAT " ", number);
}

static void
add_text (GString *text, const char *value)
{
  g_string_append_printf (text, "%" G_GSIZE_FORMAT ":%s ", value != NULL ? strlen (value) : 0,
                          value != NULL ? value : "");
}

static void
add_calls (GString *text, const HsDayFacts *facts)
{
  for (guint i = 0; i < facts->calls->len; i++)
    {
      const HsDayCall *call = g_ptr_array_index (facts->calls, i);

      add_text (text, call->job_id);
      add_text (text, call->number);
      add_text (text, call->van_id);
      add_text (text, call->area);
      add_number (text, call->stage);
      add_number (text, call->window_from);
      add_number (text, call->window_to);
      add_number (text, call->service_seconds);
    }
}

static void
add_needs (GString *text, const HsDayFacts *facts)
{
  for (guint i = 0; i < facts->needs->len; i++)
    {
      const HsDayNeed *need = g_ptr_array_index (facts->needs, i);

      add_text (text, need->id);
      add_text (text, need->part_id);
      add_text (text, need->state);
      add_text (text, need->supplier_id);
      add_number (text, need->source);
      add_number (text, need->quantity_milli);
      for (guint k = 0; k < need->offers->len; k++)
        {
          add_text (text, ((HsDayOffer *) g_ptr_array_index (need->offers, k))->supplier_id);
          add_number (text, ((HsDayOffer *) g_ptr_array_index (need->offers, k))->unit_cents);
        }
    }
}

static void
add_stops (GString *text, const HsDay *day)
{
  for (guint i = 0; i < day->stops->len; i++)
    {
      const HsDayStop *stop = hs_day_get_stop (day, i);

      add_text (text, stop->id);
      add_number (text, stop->place);
      add_number (text, stop->service_seconds);
      add_number (text, stop->shut);
      for (guint k = 0; k < stop->spans->len; k++)
        {
          add_number (text, g_array_index (stop->spans, HsDaySpan, k).from_seconds);
          add_number (text, g_array_index (stop->spans, HsDaySpan, k).to_seconds);
        }
    }
}

static void
add_day (GString *text, const HsDay *day)
{
  const gint64 rules[] = { day->minute_cents, day->mile_cents, day->spare_seconds, day->start_place, day->end_place };

  for (guint i = 0; i < G_N_ELEMENTS (rules); i++)
    add_number (text, rules[i]);
  for (guint i = 0; i < day->n_places * day->n_places; i++)
    {
      add_number (text, g_array_index (day->drive_seconds, gint32, i));
      add_number (text, g_array_index (day->drive_millimiles, gint64, i));
    }
  add_stops (text, day);
}

static void
add_hours (GString *text, const HsTravel *const *hours)
{
  for (guint band = 0; band < HS_TRAVEL_N_BANDS && hours[band] != NULL; band++)
    for (guint cell = 0; cell < hours[band]->n_places * hours[band]->n_places; cell++)
      {
        add_number (text, hours[band]->legs[cell].seconds);
        add_number (text, hours[band]->legs[cell].millimiles);
      }
}

static void
add_standing (GString *text, const HsDayStanding *standing)
{
  add_text (text, standing->id);
  add_number (text, standing->leave_at);
  for (guint i = 0; i < standing->rows->len; i++)
    {
      add_text (text, g_ptr_array_index (standing->rows, i));
      add_number (text, g_array_index (standing->locked, gboolean, i));
    }
}

static void
add_rules (GString *text, const HsShareVan *van)
{
  const gint64 rules[] = { van->rules.leave_from_seconds, van->rules.leave_to_seconds, van->rules.home_by_seconds,
                           van->rules.break_seconds, van->rules.break_from_seconds, van->rules.break_to_seconds };

  for (guint i = 0; i < G_N_ELEMENTS (rules); i++)
    add_number (text, rules[i]);
}

static void
add_van (GString *text, const HsShareVan *van, const HsVan *of)
{
  add_text (text, van->id);
  add_text (text, van->letter);
  add_rules (text, van);
  for (guint i = 0; i < van->past->len; i++)
    add_text (text, ((HsPlanStopRow *) g_ptr_array_index (van->past, i))->job_id);
  for (guint i = 0; i < of->carries->len; i++)
    add_number (text, g_array_index (of->carries, guint, i));
  if (van->standing != NULL)
    add_standing (text, van->standing);
}

static void
add_stays (GString *text, GPtrArray *stays)
{
  for (guint i = 0; i < stays->len; i++)
    {
      add_text (text, ((HsShareNote *) g_ptr_array_index (stays, i))->number);
      add_text (text, ((HsShareNote *) g_ptr_array_index (stays, i))->what);
    }
}

char *
hs_share_case_digest (const HsShareCase *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  add_number (text, self->facts->day);
  add_calls (text, self->facts);
  add_needs (text, self->facts);
  add_day (text, self->build->day);
  add_hours (text, (const HsTravel *const *) self->build->hours);
  for (guint v = 0; v < self->vans->len; v++)
    add_van (text, g_ptr_array_index (self->vans, v), hs_problem_get_van (self->problem->problem, v));
  add_stays (text, self->stays);
  return g_compute_checksum_for_string (G_CHECKSUM_SHA256, text->str, (gssize) text->len);
}
