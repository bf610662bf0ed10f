// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Tags, stops and the time strip filled from the book's structs. */

#include "hs-face.h"

#include <glib/gi18n.h>

#include "hs-show.h"

/* The words of a signal that is not good; NULL for good or not known. */
static const char *
signal_words (const char *signal_id)
{
  if (g_strcmp0 (signal_id, "none") == 0)
    return _("no signal");
  if (g_strcmp0 (signal_id, "patchy") == 0)
    return _("patchy signal");
  return NULL;
}

static char *
unpaid_text (HsLedger *ledger, const HsBoardRow *row)
{
  g_autofree char *sum = NULL;

  if (row->unpaid_cents <= 0)
    return g_strdup (_("no window yet"));
  sum = hs_show_money (ledger, row->unpaid_cents);
  /* Translators: an amount that is not paid. */
  return g_strdup_printf (_("%s unpaid"), sum);
}

/* What stands at the right of the window: when it is reached, or for how long it has not been paid. */
static void
set_when (HsTagFace *face, HsLedger *ledger, const HsBoardRow *row, char **ret_lead, char **ret_when)
{
  HsDate today = hs_ledger_get_today (ledger);

  if (row->unpaid_cents > 0 && row->unpaid_since != HS_DATE_NONE)
    *ret_when = g_strdup_printf (ngettext ("%d day", "%d days", (gulong) MAX (0, today - row->unpaid_since)),
                                 today - row->unpaid_since);
  else if (row->arrive != HS_INSTANT_NONE && row->stage == HS_STAGE_PROMISED)
    {
      *ret_lead = g_strdup (_("arrive"));
      *ret_when = hs_show_clock (ledger, row->arrive);
    }
  else if (row->day != HS_DATE_NONE && row->day != today)
    *ret_when = hs_show_day (row->day);
  face->when_lead = *ret_lead;
  face->when = *ret_when;
}

/* %NULL where nothing was promised. */
static char *
dup_window (HsLedger *ledger, HsInstant from, HsInstant to)
{
  return from != HS_INSTANT_NONE || to != HS_INSTANT_NONE ? hs_show_window (ledger, from, to) : NULL;
}

void
hs_face_tag (HsTag *tag, HsLedger *ledger, const HsBoardRow *row)
{
  g_autofree char *words = hs_show_quoted (row->words);
  g_autofree char *window = dup_window (ledger, row->window_from, row->window_to);
  g_autofree char *figure = unpaid_text (ledger, row);
  g_autofree char *lead = NULL, *when = NULL;
  const char *reach = signal_words (row->signal);
  g_autofree char *area = reach != NULL && row->area != NULL ? g_strdup_printf ("%s, %s", row->area, reach)
                                                             : g_strdup (row->area);
  g_autofree char *minutes = row->minutes > 0 && row->stage < HS_STAGE_PROMISED
                               ? g_strdup_printf (_("%d min"), row->minutes) : NULL;
  g_autofree char *place = hs_show_joined (area != NULL ? area : "", row->customer != NULL ? row->customer : "",
                                           minutes != NULL ? minutes : "", NULL);
  HsTagFace face = {
    .stage = hs_stage_id (row->stage),
    .stage_label = _(hs_stage_label (row->stage)),
    .stop = row->stop_number,
    .plate = row->plate,
    .model = row->vehicle,
    .number = row->number,
    .words = words,
    .window = row->unpaid_cents > 0 ? NULL : window,
    .figure = figure,
    .place = place,
    .line_lead = row->waits_for != NULL ? _("Waits for") : NULL,
    .line = row->waits_for != NULL ? row->waits_for : row->note,
    .act = row->act,
    .attention = row->attention,
  };

  set_when (&face, ledger, row, &lead, &when);
  hs_tag_set_face (tag, &face);
}

/* Stops. */

static gboolean
is_tightest (const HsDayPlan *plan, const HsPlannedStop *stop)
{
  return plan->spare_at != NULL && g_strcmp0 (plan->spare_at, stop->id) == 0;
}

int
hs_face_spare_minutes (gint64 spare_seconds)
{
  return (int) (spare_seconds >= 0 ? spare_seconds / 60 : -((-spare_seconds + 59) / 60));
}

char *
hs_face_dup_spare (gint64 spare_seconds)
{
  int minutes = hs_face_spare_minutes (spare_seconds);

  return minutes < 0 ? g_strdup_printf (_("%d min late"), -minutes) : g_strdup_printf (_("%d min spare"), minutes);
}

static gboolean
is_done (const HsPlannedStop *stop)
{
  return !stop->is_counter && stop->stage > HS_STAGE_ROLLING;
}

static char *
spare_text (const HsPlannedStop *stop)
{
  int minutes = hs_face_spare_minutes (stop->spare_seconds);

  /* Once there, nothing is left to spare. */
  if (stop->is_counter || stop->window_to == HS_INSTANT_NONE || is_done (stop))
    return NULL;
  return minutes < 0 ? g_strdup_printf (_("%d late"), -minutes) : g_strdup_printf ("%d", minutes);
}

/* "then break 11:00–11:30"; %NULL where none is taken. */
static char *
dup_break (HsLedger *ledger, const HsPlannedStop *stop)
{
  g_autofree char *window = hs_show_window (ledger, stop->break_from, stop->break_to);

  return stop->break_from != HS_INSTANT_NONE ? g_strdup_printf (_("then break %s"), window) : NULL;
}

void
hs_face_stop (HsStopRow *row, HsLedger *ledger, const HsDayPlan *plan, guint index, gboolean chosen)
{
  const HsPlannedStop *stop = g_ptr_array_index (plan->stops, index);
  g_autofree char *time = hs_show_clock (ledger, stop->arrive);
  g_autofree char *words = stop->is_counter ? g_strdup (stop->id) : hs_show_quoted (stop->words);
  g_autofree char *window = dup_window (ledger, stop->window_from, stop->window_to);
  g_autofree char *spare = spare_text (stop);
  g_autofree char *wait_span = stop->wait_seconds >= 60 ? hs_show_span (stop->wait_seconds) : NULL;
  g_autofree char *wait = wait_span != NULL ? g_strdup_printf (_("waits %s"), wait_span) : NULL;
  g_autofree char *rest = dup_break (ledger, stop);
  /* Two lines at most: the wait is said nowhere else, so it comes first. */
  g_autofree char *note = hs_show_joined (wait != NULL ? wait : "", rest != NULL ? rest : "",
                                          stop->note != NULL ? stop->note : "",
                                          stop->guess ? _("drive is a guess") : "", NULL);
  HsStopFace face = {
    .number = index + 1,
    .counter = stop->is_counter,
    .first = index == 0,
    .last = index + 1 == plan->stops->len,
    .drive = (int) ((stop->drive_seconds + 30) / 60),
    .time = time,
    .plate = stop->is_counter ? NULL : stop->plate,
    .name = words,
    .window = window,
    .note = note,
    .spare = spare,
    .tightest = is_tightest (plan, stop),
    .locked = stop->locked,
    .stage = stop->stage != HS_STAGE_PROMISED && !stop->is_counter ? hs_stage_id (stop->stage) : NULL,
    .chosen = chosen,
  };

  hs_stop_row_set_face (row, &face);
}

char *
hs_face_dup_stop_say (HsLedger *ledger, const HsDayPlan *plan, guint index)
{
  const HsPlannedStop *stop = g_ptr_array_index (plan->stops, index);
  g_autofree char *arrive = hs_show_clock (ledger, stop->arrive);
  g_autofree char *depart = hs_show_clock (ledger, stop->depart);
  g_autofree char *window = hs_show_window (ledger, stop->window_from, stop->window_to);
  g_autofree char *spare = spare_text (stop);
  g_autofree char *rest = dup_break (ledger, stop);
  GString *say = g_string_new (NULL);

  g_string_append_printf (say, _("Stop %u, %s, arrive %s, leave %s"), index + 1, stop->id, arrive, depart);
  if (stop->plate != NULL)
    g_string_append_printf (say, ", %s", stop->plate);
  if (stop->words != NULL && !stop->is_counter)
    g_string_append_printf (say, ", %s", stop->words);
  if (*window != '\0' && spare != NULL)
    g_string_append_printf (say, _(", promised %s, %s minutes spare"), window, spare);
  else if (*window != '\0')
    g_string_append_printf (say, _(", promised %s"), window);
  if (stop->note != NULL)
    g_string_append_printf (say, ", %s", stop->note);
  if (rest != NULL)
    g_string_append_printf (say, ", %s", rest);
  if (stop->locked)
    g_string_append_printf (say, ", %s", _("locked"));
  return g_string_free (say, FALSE);
}

/* The clock, on another day behind its name. */
static char *
show_opening (HsLedger *ledger, HsInstant opens)
{
  g_autofree char *clock = hs_show_clock (ledger, opens);
  g_autofree char *name = NULL;
  HsDate day;

  hs_instant_to_local (hs_ledger_get_zone (ledger), opens, &day, NULL);
  if (day == hs_ledger_get_today (ledger))
    return g_steal_pointer (&clock);
  name = hs_show_weekday (day);
  return g_strdup_printf ("%s, %s", name, clock);
}

char *
hs_face_dup_shut (HsLedger *ledger, const HsShutPart *part)
{
  g_autofree char *opens = part->opens != HS_INSTANT_NONE ? show_opening (ledger, part->opens) : NULL;

  /* Translators: a parts counter, when it opens, a part and the number of the job that it is for. */
  if (opens != NULL)
    return g_strdup_printf (_("%s is shut until %s: %s for %s"), part->supplier, opens, part->part, part->number);
  /* Translators: a parts counter, a part and the number of the job that it is for. */
  return g_strdup_printf (_("%s is shut today: %s for %s"), part->supplier, part->part, part->number);
}

/* The strip. */

static int
minute_of (HsLedger *ledger, HsDate day, HsInstant instant)
{
  HsDate at;
  int seconds;

  if (instant == HS_INSTANT_NONE)
    return -1;
  hs_instant_to_local (hs_ledger_get_zone (ledger), instant, &at, &seconds);
  return (at - day) * HS_MINUTES_PER_DAY + seconds / 60;
}

/* Rounded up, so that what is left to the end of a window is as many whole minutes as the list says. */
static int
minute_begun (HsLedger *ledger, HsDate day, HsInstant instant)
{
  return instant != HS_INSTANT_NONE ? minute_of (ledger, day, instant + 59) : -1;
}

/* "21" of "A-0021"; the whole text where it is no job number. */
static char *
short_label (const HsPlannedStop *stop)
{
  const char *dash = strrchr (stop->id, '-');

  if (stop->is_counter || dash == NULL)
    return g_strdup (stop->id);
  for (dash++; *dash == '0' && dash[1] != '\0'; dash++)
    ;
  return g_strdup (dash);
}

static int
add_rail (HsStripDay *strip, HsLedger *ledger, const HsDayPlan *plan, const char *supplier)
{
  g_autoptr (GArray) minutes = g_array_new (FALSE, FALSE, sizeof (int));
  g_auto (GStrv) words = g_strsplit (supplier, " ", 2);

  for (guint i = 0; i < plan->spans->len; i++)
    {
      const HsCounterSpan *span = g_ptr_array_index (plan->spans, i);
      int from, to;

      if (g_strcmp0 (span->supplier, supplier) != 0)
        continue;
      from = minute_of (ledger, plan->day, span->opens);
      to = minute_of (ledger, plan->day, span->shuts);
      g_array_append_val (minutes, from);
      g_array_append_val (minutes, to);
    }
  return hs_strip_day_add_rail (strip, words[0], (const int *) (void *) minutes->data, minutes->len / 2);
}

static void
add_strip_stop (HsStripDay *strip, HsLedger *ledger, const HsDayPlan *plan, guint index)
{
  const HsPlannedStop *stop = g_ptr_array_index (plan->stops, index);
  g_autofree char *label = short_label (stop);
  g_autofree char *say = hs_face_dup_stop_say (ledger, plan, index);
  /* A promise without an end leaves nothing to draw; one without a beginning begins with the day. */
  int window_from = stop->is_counter ? -1 : minute_of (ledger, plan->day, stop->window_from);
  int window_to = stop->is_counter ? -1 : minute_of (ledger, plan->day, stop->window_to);
  int begins = window_from >= 0 ? window_from : MAX (0, minute_of (ledger, plan->day, plan->leave));
  HsStripStop face = {
    .id = stop->id,
    .number = index + 1,
    .counter = stop->is_counter,
    .label = label,
    .arrive = minute_begun (ledger, plan->day, stop->arrive),
    .start = minute_begun (ledger, plan->day, stop->start),
    .end = minute_begun (ledger, plan->day, stop->depart),
    .window_from = window_to >= 0 ? begins : -1,
    .window_to = window_to,
    .rail = stop->is_counter ? add_rail (strip, ledger, plan, stop->id) : -1,
    .locked = stop->locked,
    .done = is_done (stop),
    .spoken = say,
  };

  hs_strip_day_add_stop (strip, &face);
}

/* The hours that hold everything, with half an hour before it for the flag of now, and room for the time of leaving. */
static void
set_span (HsStripDay *strip)
{
  int from = strip->leave >= 0 ? strip->leave : 8 * 60, to = strip->home >= 0 ? strip->home : 17 * 60;

  for (guint i = 0; i < strip->stops->len; i++)
    {
      const HsStripStop *stop = g_ptr_array_index (strip->stops, i);

      if (stop->window_from >= 0)
        from = MIN (from, stop->window_from);
      to = MAX (to, MAX (stop->end, stop->window_to));
    }
  if (strip->now >= 0 && strip->now > from - 90 && strip->now < to + 60)
    from = MIN (from, strip->now);
  from = MIN (from - 30, strip->leave >= 0 ? strip->leave - 45 : from);
  strip->from = MAX (0, from / 30 * 30);
  strip->to = (to + 59) / 60 * 60;
}

HsStripDay *
hs_face_day (HsLedger *ledger, const HsDayPlan *plan, HsInstant now)
{
  HsStripDay *strip = hs_strip_day_new ();

  strip->leave = minute_of (ledger, plan->day, plan->leave);
  strip->home = minute_of (ledger, plan->day, plan->home);
  strip->now = minute_of (ledger, plan->day, now);
  strip->break_from = minute_of (ledger, plan->day, plan->break_from);
  strip->break_to = minute_of (ledger, plan->day, plan->break_to);
  if (strip->now < 0 || strip->now >= HS_MINUTES_PER_DAY)
    strip->now = -1;
  g_free (strip->van);
  strip->van = g_strdup_printf (_("Van %s"), plan->van != NULL ? plan->van : "");
  for (guint i = 0; i < plan->stops->len; i++)
    add_strip_stop (strip, ledger, plan, i);
  set_span (strip);
  return strip;
}

/* Words of the day. */

/* (nullable): the first of them in a line, each with the promise that it is of, and how many there are besides. */
static char *
dup_mends (GPtrArray *mends, guint most)
{
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);
  guint left = mends != NULL && mends->len > most ? mends->len - most : 0;
  g_autofree char *line = NULL;

  for (guint i = 0; mends != NULL && i < MIN (mends->len, most); i++)
    {
      const HsDayMend *mend = g_ptr_array_index (mends, i);

      g_ptr_array_add (words, g_strdup_printf ("%s: %s", mend->id, mend->what));
    }
  if (words->len == 0)
    return NULL;
  if (left > 0)
    g_ptr_array_add (words, g_strdup_printf (ngettext ("%u more: F6 has it", "%u more: F6 has them", left), left));
  g_ptr_array_add (words, NULL);
  line = g_strjoinv (" · ", (char **) words->pdata);
  return g_strdup_printf (_("Would mend it: %s"), line);
}

char *
hs_face_dup_broken (const HsDayPlan *plan, GPtrArray *mends, guint most)
{
  GString *text = g_string_new (NULL);
  guint n = plan != NULL ? plan->broken->len : 0;
  guint left = n > most ? n - most : 0;
  g_autofree char *mended = n > 0 ? dup_mends (mends, most - 1) : NULL;

  for (guint i = 0; i < n - left; i++)
    {
      const HsBrokenPromise *broken = g_ptr_array_index (plan->broken, i);

      /* Some reasons name the call themselves. */
      if (g_str_has_prefix (broken->why, broken->id))
        g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "", broken->why);
      else
        g_string_append_printf (text, "%s%s: %s", i > 0 ? "\n" : "", broken->id, broken->why);
    }
  if (left > 0)
    g_string_append_printf (text, ngettext ("\n%u more: F6 tells why", "\n%u more: F6 tells why", left), left);
  if (mended != NULL)
    g_string_append_printf (text, "\n%s", mended);
  return g_string_free (text, FALSE);
}

char *
hs_face_dup_ring (const HsDayPlan *plan)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; plan != NULL && i < plan->ring->len; i++)
    {
      const HsDayRing *ring = g_ptr_array_index (plan->ring, i);

      /* Translators: whom to ring, their number, and why: a call's number and what is about to happen to it. */
      g_string_append_printf (text, _("%sRing %s, %s: %s %s"), i > 0 ? "\n" : "",
                              ring->who != NULL ? ring->who : _("the customer"),
                              ring->phone != NULL ? ring->phone : _("no number known"), ring->id, ring->why);
    }
  return g_string_free (text, FALSE);
}

char *
hs_face_dup_none_head (const HsDayPlan *plan, const char *trouble)
{
  if (trouble != NULL)
    return g_strdup (_("The day cannot be planned yet"));
  if (plan != NULL && plan->broken->len > 0)
    return g_strdup (_("No promise has a place in the day yet"));
  /* Where there are several vans, the others may have calls on this day. */
  if (plan != NULL && plan->next_van != NULL)
    return g_strdup_printf (_("Nothing is promised for van %s on this day"), plan->van);
  return g_strdup (_("Nothing is promised on this day"));
}

char *
hs_face_dup_leave_note (HsLedger *ledger, const HsDayPlan *plan)
{
  gint64 left = plan->leave != HS_INSTANT_NONE ? plan->leave - hs_ledger_get_now (ledger) : -1;
  g_autofree char *span = NULL;

  if (left < 0 || left > 12 * 3600)
    return g_strdup (_("leave"));
  span = hs_show_span (left);
  return g_strdup_printf (_("leave, in %s"), span);
}

char *
hs_face_dup_home_note (const HsDayPlan *plan)
{
  g_autofree char *span = hs_show_span (plan->home_late_seconds);

  return plan->home_late_seconds > 0 ? g_strdup_printf (_("home, %s past the time set"), span) : g_strdup (_("home"));
}

char *
hs_face_dup_penciled (const HsDayPlan *plan)
{
  g_autofree char *numbers = NULL;
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  if (plan->penciled == NULL || plan->penciled->len == 0)
    return NULL;
  for (guint i = 0; i < plan->penciled->len; i++)
    g_ptr_array_add (names, g_ptr_array_index (plan->penciled, i));
  g_ptr_array_add (names, NULL);
  numbers = g_strjoinv (", ", (char **) names->pdata);
  return g_strdup_printf (_("Penciled in, not in this order: %s"), numbers);
}

/* The sketch. */

static HsSketchSignal
signal_of (const HsPlace *place)
{
  if (g_strcmp0 (place->signal, "none") == 0)
    return HS_SKETCH_SIGNAL_NONE;
  return g_strcmp0 (place->signal, "patchy") == 0 ? HS_SKETCH_SIGNAL_PATCHY : HS_SKETCH_SIGNAL_GOOD;
}

/* The place of @area in the sketch, added at its first stop; @drawn maps codes to places + 1. */
static guint
place_of (HsSketch *sketch, GPtrArray *places, GHashTable *drawn, const char *area)
{
  guint known = GPOINTER_TO_UINT (g_hash_table_lookup (drawn, area)), at;
  const HsPlace *place = NULL;

  if (known > 0)
    return known - 1;
  for (guint i = 0; places != NULL && i < places->len && place == NULL; i++)
    if (g_strcmp0 (((const HsPlace *) g_ptr_array_index (places, i))->code, area) == 0)
      place = g_ptr_array_index (places, i);
  at = hs_sketch_add_place (sketch, place != NULL ? place->name : area,
                            place != NULL ? signal_of (place) : HS_SKETCH_SIGNAL_GOOD, FALSE);
  g_hash_table_insert (drawn, g_strdup (area), GUINT_TO_POINTER (at + 1));
  return at;
}

void
hs_face_sketch (HsSketch *sketch, const HsDayPlan *plan, GPtrArray *places)
{
  g_autoptr (GHashTable) drawn = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint before, base;

  hs_sketch_clear (sketch);
  if (plan == NULL || plan->stops->len == 0)
    return;
  /* Translators: where the van starts and ends its day. */
  before = base = hs_sketch_add_place (sketch, _("Base"), HS_SKETCH_SIGNAL_GOOD, TRUE);
  for (guint i = 0; i < plan->stops->len; i++)
    {
      const HsPlannedStop *stop = g_ptr_array_index (plan->stops, i);
      guint at = place_of (sketch, places, drawn, stop->area != NULL ? stop->area : "");

      hs_sketch_add_stop (sketch, at, i + 1);
      hs_sketch_add_leg (sketch, before, at, (int) ((stop->drive_seconds + 30) / 60));
      before = at;
    }
  hs_sketch_add_leg (sketch, before, base, (int) ((plan->home_drive_seconds + 30) / 60));
}
