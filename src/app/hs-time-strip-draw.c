// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The drawing of the time strip: axis, windows in lanes, the van's row, the counters' rails, now.
 *
 * Bracket = limits of a promise; hatch = room left; wire = drive; coil = wait; open switch = break; post = counter.
 * Everything here is said in words by the stops themselves; the drawing refuses to be the only source. */

#include "hs-time-strip-draw.h"

#include <glib/gi18n.h>
#include <math.h>

#include "hs-glyph.h"

#define AXIS_PX 23
#define LANE_PX 27

/* The van's block, where its two lines stand in it, what is above and below its middle, a counter's rail: by form. */
static const struct
{
  double block, number, detail, above, below, rail;
} rows[] = {
  [HS_STRIP_FORM_FULL] = { 48, 15, 36, 34, 33, 24 },
  [HS_STRIP_FORM_TIGHT] = { 43, 13, 32, 31, 28, 19 },
  [HS_STRIP_FORM_COMPACT] = { 34, 17, 17, 36, 30, 0 },
};

static double
px (const HsStripPlan *plan,
    double             design)
{
  return round (design * plan->unit);
}

double
hs_strip_plan_x (const HsStripPlan *plan,
                 double             minute)
{
  double span = MAX (1, plan->day->to - plan->day->from);

  return plan->left + (plan->right - plan->left) * (minute - plan->day->from) / span;
}

static double
block_height (const HsStripPlan *plan)
{
  return px (plan, rows[plan->form].block);
}

void
hs_strip_plan_stop_area (const HsStripPlan *plan,
                         guint              index,
                         graphene_rect_t   *ret_area)
{
  const HsStripStop *stop = g_ptr_array_index (plan->day->stops, index);
  double height = block_height (plan), x = round (hs_strip_plan_x (plan, stop->start));
  double width = round (hs_strip_plan_x (plan, stop->end)) - x;

  if (stop->counter)
    {
      double least = px (plan, plan->form == HS_STRIP_FORM_COMPACT ? 10 : 16);

      x -= MAX (0, (least - width) / 2);
      width = MAX (width, least);
      height += px (plan, plan->form == HS_STRIP_FORM_COMPACT ? 4 : 8);
    }
  graphene_rect_init (ret_area, round (x), round (plan->van_middle - height / 2), MAX (3, round (width)), height);
}

int
hs_strip_plan_height (const HsStripPlan *plan)
{
  if (plan->form == HS_STRIP_FORM_COMPACT)
    return (int) px (plan, 66);
  return (int) (px (plan, AXIS_PX + 7 + rows[plan->form].above + rows[plan->form].below + 1)
                + plan->n_lanes * px (plan, LANE_PX) + plan->day->rails->len * plan->rail);
}

void
hs_strip_plan_place (HsStripPlan *plan)
{
  double u = plan->unit;

  plan->rail = px (plan, rows[plan->form].rail);
  plan->frame_top = (int) (AXIS_PX * u);
  plan->lanes_top = (int) ((AXIS_PX + 7) * u);
  plan->bottom = hs_strip_plan_height (plan) - 1;
  plan->van_middle = (int) (rows[plan->form].above * u);
  if (plan->form != HS_STRIP_FORM_COMPACT)
    plan->van_middle += plan->lanes_top + plan->n_lanes * (int) (LANE_PX * u + 0.5);
  plan->rails_top = plan->van_middle + (int) (rows[plan->form].below * u);
}

static void
label (GtkWidget         *widget,
       cairo_t           *cr,
       const char        *text,
       double             times,
       int                weight,
       const GdkRGBA     *color,
       double             x,
       double             y,
       double             align)
{
  hs_ink_label (widget, cr, text, times, weight, color, x, y, align);
}

static double
half_hour_name (GtkWidget *widget)
{
  return hs_ink_width (widget, "00", 1.05, 700) / 2.0 + 1;
}

static gboolean
is_hidden (GtkWidget *widget,
           double     hour_x,
           double     flag_x,
           double     flag_width)
{
  double half = half_hour_name (widget);

  return hour_x + half > flag_x && hour_x - half < flag_x + flag_width;
}

/* Left of the line, or shifted to the right, still over the line, to clear the hour before. */
void
hs_strip_plan_flag (GtkWidget         *widget,
                    const HsStripPlan *plan,
                    double            *ret_x,
                    double            *ret_width)
{
  double now = round (hs_strip_plan_x (plan, plan->day->now));
  double before = hs_strip_plan_x (plan, plan->day->now / 60 * 60), half = half_hour_name (widget);
  double after = hs_strip_plan_x (plan, (plan->day->now / 60 + 1) * 60);
  double width = hs_ink_width (widget, "00:00", 1.1, 800) + px (plan, 12), shifted;

  *ret_width = width;
  *ret_x = MAX (0, now + 1 - width);
  shifted = MIN (ceil (before + half), now - 1);
  if (is_hidden (widget, before, *ret_x, width) && !is_hidden (widget, before, shifted, width)
      && !is_hidden (widget, after, shifted, width) && shifted + width <= plan->right + px (plan, 14))
    *ret_x = shifted;
}

/* An hour that the flag cannot but hide: it says the time better. */
static gboolean
under_flag (GtkWidget         *widget,
            const HsStripPlan *plan,
            double             x)
{
  double flag_x, flag_width;

  if (plan->form == HS_STRIP_FORM_COMPACT || plan->day->now < plan->day->from || plan->day->now > plan->day->to)
    return FALSE;
  hs_strip_plan_flag (widget, plan, &flag_x, &flag_width);
  return is_hidden (widget, x, flag_x, flag_width);
}

static void
draw_axis (GtkWidget         *widget,
           cairo_t           *cr,
           const HsInk       *ink,
           const HsStripPlan *plan)
{
  gboolean compact = plan->form == HS_STRIP_FORM_COMPACT;
  double hour = hs_strip_plan_x (plan, 60) - hs_strip_plan_x (plan, 0);
  int step = hour < px (plan, 30) ? 120 : 60;

  if (!compact)
    hs_ink_box (cr, &GRAPHENE_RECT_INIT (plan->left, plan->frame_top, plan->right - plan->left,
                                         plan->bottom - plan->frame_top), &ink->well, &ink->edge, 1);
  for (int minute = (plan->day->from + 29) / 30 * 30; minute <= plan->day->to; minute += 30)
    {
      double x = round (hs_strip_plan_x (plan, minute)) + 0.5;

      if (!compact && minute > plan->day->from && minute < plan->day->to)
        hs_ink_line (cr, &ink->rule, 1, x, plan->frame_top + (minute % 60 == 0 ? -2 : 1), x, plan->bottom - 1);
      else if (compact && minute % 60 == 0)
        hs_ink_line (cr, &ink->rule, 1, x, plan->frame_top, x, plan->bottom);
      if (minute % step == 0 && !under_flag (widget, plan, x))
        {
          g_autofree char *text = g_strdup_printf ("%02d", minute / 60);

          label (widget, cr, text, compact ? 0.9 : 1.05, 700, &ink->ink2, x, px (plan, 9), 0.5);
        }
    }
}

static void
draw_bracket (cairo_t     *cr,
              const HsInk *ink,
              double       x,
              double       foot,
              double       top,
              double       bottom)
{
  gdk_cairo_set_source_rgba (cr, &ink->ink);
  cairo_set_line_width (cr, 3);
  cairo_move_to (cr, x + foot, top + 1.5);
  cairo_line_to (cr, x + (foot > 0 ? 1.5 : -1.5), top + 1.5);
  cairo_line_to (cr, x + (foot > 0 ? 1.5 : -1.5), bottom - 1.5);
  cairo_line_to (cr, x + foot, bottom - 1.5);
  cairo_stroke (cr);
}

/* Inside its window, left of the start of work where it is the tightest; %FALSE where it finds no room there. */
static gboolean
put_inside (const HsStripPlan *plan,
            const HsStripStop *stop,
            gboolean           tightest,
            double             after_label,
            HsStripWords      *words)
{
  double right = hs_strip_plan_x (plan, stop->window_to) - px (plan, 8) - words->text_width;

  if (right < after_label)
    return FALSE;
  words->text_x = right;
  if (tightest && stop->start <= stop->window_to)
    words->text_x = MAX (after_label, MIN (right, hs_strip_plan_x (plan, stop->start) - px (plan, 5)
                                                    - words->text_width));
  return TRUE;
}

/* Behind its window; before it where the strip ends. */
static void
put_beside (const HsStripPlan *plan,
            double             x1,
            double             x2,
            double             label_width,
            gboolean           label_too,
            HsStripWords      *words)
{
  double gap = label_too && words->text != NULL ? px (plan, 8) : 0;
  double width = (label_too ? label_width : 0) + gap + (words->text != NULL ? words->text_width : 0);
  double x = x2 + px (plan, 6);

  if (width <= 0)
    return;
  if (x + width > plan->right)
    x = x1 - px (plan, 6) - width;
  if (label_too)
    words->label_x = x;
  words->text_x = x + width - words->text_width;
  words->from = MIN (x1, x - px (plan, 4));
  words->to = MAX (x2, x + width + px (plan, 6));
}

/* (nullable): once the van is there, nothing is left to spare. */
static char *
spare_text (const HsStripStop *stop)
{
  int spare = hs_strip_day_get_spare (stop);

  if (stop->done)
    return NULL;
  /* Translators: minutes left between the start of work and the end of the promised window; and below: how late. */
  return spare >= 0 ? g_strdup_printf (_("%d spare"), spare) : g_strdup_printf (_("%d late"), -spare);
}

void
hs_strip_plan_words (GtkWidget         *widget,
                     const HsStripPlan *plan,
                     guint              index,
                     HsStripWords      *ret_words)
{
  const HsStripStop *stop = g_ptr_array_index (plan->day->stops, index);
  double x1 = round (hs_strip_plan_x (plan, stop->window_from)), x2 = round (hs_strip_plan_x (plan, stop->window_to));
  gboolean tightest = (int) index == plan->tightest, label_too;
  double label_width = hs_ink_width (widget, stop->label, 1.05, 800);
  int spare = hs_strip_day_get_spare (stop);

  *ret_words = (HsStripWords) { .text = spare_text (stop) };
  if (ret_words->text != NULL)
    ret_words->text_width = hs_ink_width (widget, ret_words->text, 1.05, tightest || spare < 0 ? 800 : 400)
                            + (tightest ? px (plan, 12) : 0);
  ret_words->label_x = x1 + px (plan, 11);
  ret_words->from = x1;
  ret_words->to = x2;
  label_too = x2 - x1 < label_width + px (plan, 20);
  if (!label_too && ret_words->text == NULL)
    return;
  if (!label_too && put_inside (plan, stop, tightest, x1 + px (plan, 16) + label_width, ret_words))
    return;
  if (!tightest && spare >= 0)
    g_clear_pointer (&ret_words->text, g_free);
  put_beside (plan, x1, x2, label_width, label_too, ret_words);
}

void
hs_strip_plan_drawn (GtkWidget         *widget,
                     const HsStripPlan *plan,
                     int               *ret_drawn)
{
  double minutes_per_px = (plan->day->to - plan->day->from) / MAX (1, plan->right - plan->left);

  for (guint i = 0; i < plan->day->stops->len; i++)
    {
      const HsStripStop *stop = g_ptr_array_index (plan->day->stops, i);
      double x1 = round (hs_strip_plan_x (plan, stop->window_from));
      double x2 = round (hs_strip_plan_x (plan, stop->window_to));
      HsStripWords words;

      ret_drawn[2 * i] = stop->window_from;
      ret_drawn[2 * i + 1] = stop->window_to;
      if (stop->counter || stop->window_from < 0)
        continue;
      hs_strip_plan_words (widget, plan, i, &words);
      ret_drawn[2 * i] -= (int) ceil ((x1 - words.from) * minutes_per_px);
      ret_drawn[2 * i + 1] += (int) ceil ((words.to - x2) * minutes_per_px);
      g_free (words.text);
    }
}

static void
draw_words (GtkWidget         *widget,
            cairo_t           *cr,
            const HsInk       *ink,
            const HsStripPlan *plan,
            guint              index,
            double             middle)
{
  const HsStripStop *stop = g_ptr_array_index (plan->day->stops, index);
  gboolean tightest = (int) index == plan->tightest;
  g_autofree char *text = NULL;
  HsStripWords words;

  hs_strip_plan_words (widget, plan, index, &words);
  text = words.text;
  label (widget, cr, stop->label, 1.05, 800, &ink->ink, words.label_x, middle, 0);
  if (text == NULL)
    return;
  if (tightest)
    hs_ink_box (cr, &GRAPHENE_RECT_INIT (round (words.text_x), middle - px (plan, 10), words.text_width, px (plan, 19)),
                &ink->paper, &ink->ink, 1.5);
  label (widget, cr, text, 1.05, tightest || hs_strip_day_get_spare (stop) < 0 ? 800 : 400, &ink->ink,
         round (words.text_x) + (tightest ? px (plan, 6) : 0), middle, 0);
}

static void
draw_window (GtkWidget         *widget,
             cairo_t           *cr,
             const HsInk       *ink,
             const HsStripPlan *plan,
             guint              index)
{
  const HsStripStop *stop = g_ptr_array_index (plan->day->stops, index);
  double top = plan->lanes_top + plan->lanes[index] * px (plan, LANE_PX), bottom = top + px (plan, 25);
  double x1 = round (hs_strip_plan_x (plan, stop->window_from)), x2 = round (hs_strip_plan_x (plan, stop->window_to));
  double work = round (CLAMP (hs_strip_plan_x (plan, stop->start), x1, x2));
  double hatch = px (plan, 8);

  hs_ink_line (cr, &ink->ink, 1.25, x1, bottom - 0.75, work, bottom - 0.75);
  if (!stop->done)
    hs_ink_hatch (cr, &ink->ink, &GRAPHENE_RECT_INIT (work, bottom - hatch, MAX (0, x2 - work - 2), hatch),
                  px (plan, 6), FALSE);
  if (stop->start <= stop->window_to)
    hs_ink_line (cr, &ink->ink, 2.5, work, bottom - px (plan, 13), work, bottom);
  draw_bracket (cr, ink, x1, px (plan, 6), top, bottom);
  draw_bracket (cr, ink, x2, -px (plan, 6), top, bottom);
  draw_words (widget, cr, ink, plan, index, top + px (plan, 8));
}

static void
draw_coil (cairo_t           *cr,
           const HsInk       *ink,
           const HsStripPlan *plan,
           double             x1,
           double             x2)
{
  double wave = px (plan, 7), y = plan->van_middle;

  gdk_cairo_set_source_rgba (cr, &ink->ink);
  cairo_set_line_width (cr, 1.75);
  cairo_move_to (cr, x1, y);
  for (double x = x1; x + wave / 2 <= x2; x += wave)
    {
      cairo_curve_to (cr, x + wave * 0.25, y - wave, x + wave * 0.35, y - wave, x + wave * 0.5, y);
      cairo_curve_to (cr, x + wave * 0.65, y + wave, x + wave * 0.75, y + wave, MIN (x + wave, x2), y);
    }
  cairo_stroke (cr);
}

static void
draw_post (GtkWidget             *widget,
           cairo_t               *cr,
           const HsInk           *ink,
           const HsStripPlan     *plan,
           const HsStripStop     *stop,
           const graphene_rect_t *area)
{
  double x = area->origin.x, y = area->origin.y, w = area->size.width, h = area->size.height, notch = px (plan, 5);
  g_autofree char *number = g_strdup_printf ("%u", stop->number);

  gdk_cairo_set_source_rgba (cr, &ink->ink);
  cairo_rectangle (cr, x, y + notch, w, h - notch);
  cairo_rectangle (cr, x, y, w * 0.28, notch);
  cairo_rectangle (cr, x + w * 0.72, y, w * 0.28, notch);
  cairo_fill (cr);
  if (plan->form == HS_STRIP_FORM_COMPACT)
    return;
  label (widget, cr, number, 1.1, 800, &ink->paper, x + w / 2, plan->van_middle + px (plan, 1), 0.5);
  if (stop->rail >= 0 && (guint) stop->rail < plan->day->rails->len)
    {
      static const double dash[] = { 3, 3 };

      cairo_save (cr);
      cairo_set_dash (cr, dash, 2, 0);
      hs_ink_line (cr, &ink->ink, 1.5, round (x + w / 2) + 0.5, y + h, round (x + w / 2) + 0.5,
                   plan->rails_top + (stop->rail + 0.5) * plan->rail - 2);
      cairo_restore (cr);
    }
}

static void
draw_block (GtkWidget             *widget,
            cairo_t               *cr,
            const HsInk           *ink,
            const HsStripPlan     *plan,
            const HsStripStop     *stop,
            const graphene_rect_t *area,
            gboolean               chosen)
{
  double x = area->origin.x, y = area->origin.y, w = area->size.width;
  g_autofree char *number = g_strdup_printf ("%u", stop->number);
  g_autofree char *detail = g_strdup_printf ("%s · %d", stop->label, stop->end - stop->start);

  hs_ink_box (cr, area, chosen ? &ink->wash : &ink->paper, chosen ? &ink->copper : &ink->ink, chosen ? 4 : 2);
  if (plan->form == HS_STRIP_FORM_COMPACT)
    {
      label (widget, cr, number, 1.15, 800, &ink->ink, x + w / 2, plan->van_middle, 0.5);
      return;
    }
  label (widget, cr, number, 1.5, 800, &ink->ink, x + px (plan, 9), y + px (plan, rows[plan->form].number), 0);
  if (hs_ink_width (widget, detail, 1.05, 400) + px (plan, 10) > w)
    {
      g_free (detail);
      detail = g_strdup (stop->label);
    }
  if (hs_ink_width (widget, detail, 1.05, 400) + px (plan, 10) <= w)
    label (widget, cr, detail, 1.05, 400, &ink->ink, x + px (plan, 9), y + px (plan, rows[plan->form].detail), 0);
  if (stop->locked && w > px (plan, 40))
    hs_glyph_draw (cr, "lock", &ink->ink, x + w - px (plan, 20), y + px (plan, 5), px (plan, 15));
}

static void
draw_end (cairo_t           *cr,
          const HsInk       *ink,
          const HsStripPlan *plan,
          double             x)
{
  cairo_arc (cr, x, plan->van_middle, px (plan, 6), 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (cr, &ink->well);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, &ink->copper);
  cairo_set_line_width (cr, 3);
  cairo_stroke (cr);
}

static char *
home_text (const HsStripPlan *plan)
{
  /* Translators: beside the end of the day on the time strip: when the van is home. */
  return g_strdup_printf (_("%02d:%02d home"), plan->day->home / 60, plan->day->home % 60);
}

double
hs_strip_plan_home_width (GtkWidget         *widget,
                          const HsStripPlan *plan)
{
  g_autofree char *home = home_text (plan);

  return px (plan, 12) + hs_ink_width (widget, home, 1.15, 800);
}

static void
draw_ends (GtkWidget         *widget,
           cairo_t           *cr,
           const HsInk       *ink,
           const HsStripPlan *plan)
{
  g_autofree char *leave = g_strdup_printf ("%02d:%02d", plan->day->leave / 60, plan->day->leave % 60);
  g_autofree char *home = home_text (plan);
  double x1 = hs_strip_plan_x (plan, plan->day->leave), x2 = hs_strip_plan_x (plan, plan->day->home);

  if (plan->form == HS_STRIP_FORM_COMPACT)
    return;
  draw_end (cr, ink, plan, x1);
  draw_end (cr, ink, plan, x2);
  if (x1 - px (plan, 11) - hs_ink_width (widget, leave, 1.15, 800) >= plan->left)
    label (widget, cr, leave, 1.15, 800, &ink->ink, x1 - px (plan, 11), plan->van_middle, 1);
  if (x2 + hs_strip_plan_home_width (widget, plan) <= gtk_widget_get_width (widget))
    label (widget, cr, home, 1.15, 800, &ink->ink, x2 + px (plan, 12), plan->van_middle, 0);
}

static void
draw_wire (cairo_t           *cr,
           const HsInk       *ink,
           const HsStripPlan *plan)
{
  double x1 = hs_strip_plan_x (plan, plan->day->leave), x2 = hs_strip_plan_x (plan, plan->day->home);

  if (plan->day->leave < 0)
    return;
  hs_ink_line (cr, &ink->copper, px (plan, 5), x1, plan->van_middle, x2, plan->van_middle);
}

/* The break opens the wire like a switch. */
static void
draw_break (cairo_t           *cr,
            const HsInk       *ink,
            const HsStripPlan *plan)
{
  double x1 = hs_strip_plan_x (plan, plan->day->break_from), x2 = hs_strip_plan_x (plan, plan->day->break_to);
  double y = plan->van_middle, dot = px (plan, 4);

  if (plan->day->break_from < 0 || x2 - x1 < 4 * dot)
    return;
  hs_ink_box (cr, &GRAPHENE_RECT_INIT (x1, y - dot, x2 - x1, 2 * dot), &ink->well, NULL, 0);
  hs_ink_line (cr, &ink->copper, px (plan, 3), x1 + dot, y, x2 - dot, y - px (plan, 13));
  gdk_cairo_set_source_rgba (cr, &ink->copper);
  cairo_arc (cr, x1 + dot, y, dot, 0, 2 * G_PI);
  cairo_fill (cr);
  cairo_arc (cr, x2 - dot, y, dot, 0, 2 * G_PI);
  cairo_fill (cr);
}

static void
draw_van (GtkWidget         *widget,
          cairo_t           *cr,
          const HsInk       *ink,
          const HsStripPlan *plan)
{
  draw_wire (cr, ink, plan);
  if (plan->day->leave >= 0)
    draw_ends (widget, cr, ink, plan);
  draw_break (cr, ink, plan);
  for (guint i = 0; i < plan->day->stops->len; i++)
    {
      const HsStripStop *stop = g_ptr_array_index (plan->day->stops, i);
      graphene_rect_t area;

      hs_strip_plan_stop_area (plan, i, &area);
      if (stop->arrive >= 0 && stop->arrive < stop->start)
        {
          double x1 = hs_strip_plan_x (plan, stop->arrive), x2 = hs_strip_plan_x (plan, stop->start);

          hs_ink_box (cr, &GRAPHENE_RECT_INIT (x1, plan->van_middle - px (plan, 4), x2 - x1, px (plan, 8)), &ink->well,
                      NULL, 0);
          draw_coil (cr, ink, plan, x1, x2);
        }
      if (stop->counter)
        draw_post (widget, cr, ink, plan, stop, &area);
      else
        draw_block (widget, cr, ink, plan, stop, &area, (int) i == plan->chosen);
    }
}

static void
draw_rail (GtkWidget         *widget,
           cairo_t           *cr,
           const HsInk       *ink,
           const HsStripPlan *plan,
           guint              index)
{
  const HsStripRail *rail = g_ptr_array_index (plan->day->rails, index);
  double y = round (plan->rails_top + (index + 0.5) * plan->rail), end = plan->left;

  for (guint i = 0; i + 1 < rail->spans->len; i += 2)
    {
      int from = g_array_index (rail->spans, int, i), to = g_array_index (rail->spans, int, i + 1);
      double x1 = round (hs_strip_plan_x (plan, MAX (from, plan->day->from)));
      double x2 = round (hs_strip_plan_x (plan, MIN (to, plan->day->to)));

      if (x2 <= x1)
        continue;
      hs_ink_line (cr, &ink->ink, 4, x1, y, x2, y);
      if (from > plan->day->from)
        hs_ink_line (cr, &ink->ink, 2.5, x1, y - px (plan, 6), x1, y + px (plan, 6));
      if (to < plan->day->to)
        hs_ink_line (cr, &ink->ink, 2.5, x2, y - px (plan, 6), x2, y + px (plan, 6));
      if (i > 0 && x1 - end > hs_ink_width (widget, _("shut"), 1, 700) + 4)
        label (widget, cr, _("shut"), 1, 700, &ink->ink, (end + x1) / 2, y, 0.5);
      end = x2;
    }
  if (end + px (plan, 9) + hs_ink_width (widget, _("shut"), 1, 400) < plan->right)
    label (widget, cr, _("shut"), 1, 400, &ink->ink2, end + px (plan, 9), y, 0);
}

static void
draw_now (GtkWidget         *widget,
          cairo_t           *cr,
          const HsInk       *ink,
          const HsStripPlan *plan)
{
  double x = round (hs_strip_plan_x (plan, plan->day->now)), flag_x, width;
  g_autofree char *text = g_strdup_printf ("%02d:%02d", plan->day->now / 60, plan->day->now % 60);

  if (plan->day->now < plan->day->from || plan->day->now > plan->day->to)
    return;
  hs_ink_line (cr, &ink->copper, 2.5, x, px (plan, 2), x, plan->bottom);
  cairo_move_to (cr, x, plan->bottom - px (plan, 12));
  cairo_line_to (cr, x + px (plan, 9), plan->bottom + 1);
  cairo_line_to (cr, x - px (plan, 9), plan->bottom + 1);
  cairo_close_path (cr);
  gdk_cairo_set_source_rgba (cr, &ink->copper);
  cairo_fill (cr);
  if (plan->form == HS_STRIP_FORM_COMPACT)
    return;
  hs_strip_plan_flag (widget, plan, &flag_x, &width);
  hs_ink_box (cr, &GRAPHENE_RECT_INIT (flag_x, 0, width, px (plan, 21)), &ink->fill, NULL, 0);
  label (widget, cr, text, 1.1, 800, &ink->on_fill, flag_x + width / 2, px (plan, 10.5), 0.5);
}

static void
draw_row_names (GtkWidget         *widget,
                cairo_t           *cr,
                const HsInk       *ink,
                const HsStripPlan *plan)
{
  double x = plan->left - px (plan, 12);

  if (plan->n_lanes > 0)
    label (widget, cr, _("Time given"), 1.05, 700, &ink->ink2, x,
           plan->lanes_top + plan->n_lanes * px (plan, LANE_PX) / 2, 1);
  label (widget, cr, plan->day->van != NULL ? plan->day->van : _("Van"), 1.05, 700, &ink->ink2, x, plan->van_middle, 1);
  for (guint i = 0; i < plan->day->rails->len; i++)
    {
      const HsStripRail *rail = g_ptr_array_index (plan->day->rails, i);

      label (widget, cr, rail->name, 1.05, 700, &ink->ink2, x, plan->rails_top + (i + 0.5) * plan->rail, 1);
    }
}

void
hs_strip_draw (GtkWidget         *widget,
               cairo_t           *cr,
               const HsInk       *ink,
               const HsStripPlan *plan)
{
  draw_axis (widget, cr, ink, plan);
  if (plan->form != HS_STRIP_FORM_COMPACT)
    {
      draw_row_names (widget, cr, ink, plan);
      for (guint i = 0; i < plan->day->stops->len; i++)
        if (plan->lanes[i] >= 0)
          draw_window (widget, cr, ink, plan, i);
      for (guint i = 0; i < plan->day->rails->len; i++)
        draw_rail (widget, cr, ink, plan, i);
    }
  draw_van (widget, cr, ink, plan);
  draw_now (widget, cr, ink, plan);
}
