// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The sheets of the gallery, with the values of the invented business. */

#include "gallery-sheets.h"

#include <adwaita.h>

#include "hs-tag-board.h"
#include "hs-chain-view.h"
#include "hs-chip.h"
#include "hs-gauge.h"
#include "hs-key-button.h"
#include "hs-number-pad.h"
#include "hs-reading-line.h"
#include "hs-sketch.h"
#include "hs-slip.h"
#include "hs-sparkline.h"
#include "hs-stop-row.h"
#include "hs-tag.h"
#include "hs-time-strip.h"
#include "hs-verdict-label.h"
#include "hs-window.h"
#include "hs-wire.h"

static HsWindow *
create_shell (void)
{
  static const HsKeyHint keys[] = {
    { "F3", "Call slip", "win.call-slip" },
    { "F5", "Squeeze in", "win.squeeze-in" },
    { "F7", "Customer", "win.customer" },
  };
  static const char *const pages[][3] = {
    { "jobs", "Jobs", "jobs" },
    { "today", "Today", "today" },
    { "parts", "Parts run", "parts" },
    { "vehicles", "Vehicles", "vehicles" },
    { "money", "Money", "money" },
  };
  g_autoptr (GTimeZone) zone = g_time_zone_new_utc ();
  g_autoptr (HsClock) clock = hs_clock_new (zone);
  HsWindow *window;

  hs_clock_freeze_at (clock, 1773129120);
  window = hs_window_new (NULL, clock);
  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      hs_window_add_page (window, pages[i][0], pages[i][1], pages[i][2], gtk_box_new (GTK_ORIENTATION_VERTICAL, 0));
      hs_window_set_keys (window, pages[i][0], keys, G_N_ELEMENTS (keys));
    }
  hs_window_set_where (window, "A-0026 · Call · Who holds the key", "6 min ago");
  return window;
}

static GtkWindow *
create_frame (void)
{
  return GTK_WINDOW (create_shell ());
}

static GtkWindow *
create_job_frame (void)
{
  HsWindow *window = create_shell ();
  GtkWidget *stack = gtk_stack_new ();
  static const char *const titles[] = { "Call", "Findings", "Choices", "Bill", "Before and after" };

  for (guint i = 0; i < G_N_ELEMENTS (titles); i++)
    gtk_stack_add_titled (GTK_STACK (stack), gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), titles[i], titles[i]);
  gtk_stack_set_visible_child_name (GTK_STACK (stack), "Findings");
  hs_window_open_job (window, "A-0024", GTK_STACK (stack), stack);
  hs_window_set_notice (window, "book", "The book is on a read-only folder: nothing can be stored. Move it first.");
  return GTK_WINDOW (window);
}

static GtkWidget *
row_of (GtkWidget *first,
        ...)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 20);
  va_list rest;

  va_start (rest, first);
  for (GtkWidget *child = first; child != NULL; child = va_arg (rest, GtkWidget *))
    {
      gtk_widget_set_valign (child, GTK_ALIGN_CENTER);
      gtk_box_append (GTK_BOX (box), child);
    }
  va_end (rest);
  return box;
}

static GtkWidget *
text (const char *words,
      const char *css_class)
{
  GtkWidget *label = gtk_label_new (words);

  gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
with_class (GtkWidget  *widget,
            const char *css_class)
{
  gtk_widget_add_css_class (widget, css_class);
  return widget;
}

static GtkWindow *
paper_window (GtkWidget *child)
{
  GtkWindow *window = g_object_new (ADW_TYPE_WINDOW, "content", child, NULL);

  gtk_widget_set_margin_start (child, 20);
  gtk_widget_set_margin_end (child, 20);
  gtk_widget_set_margin_top (child, 20);
  gtk_widget_set_margin_bottom (child, 20);
  return window;
}

static GtkWidget *
scrolled (GtkWidget *child)
{
  GtkWidget *window = gtk_scrolled_window_new ();

  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (window), child);
  return window;
}

static GtkWindow *
create_tokens (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);

  gtk_box_append (GTK_BOX (box), row_of (text ("0.31", "hs-entry"), text ("08:31", "hs-figure"),
                                         text ("Why it failed", "hs-head"), text ("“flat every week”", "hs-title"),
                                         text ("Body text", "hs-body"), text ("Caption", "hs-caption"), NULL));
  gtk_box_append (GTK_BOX (box), row_of (hs_key_button_new ("F2", "Go Back", NULL),
                                         with_class (hs_key_button_new ("F4", "Rolling", NULL), "hs-fill"),
                                         hs_keycap_new ("Enter"), hs_keycap_new ("0–9"), hs_plate_chip_new ("TDM 1315"),
                                         with_class (hs_plate_chip_new ("TDM 8816"), "hs-large"),
                                         hs_bracket_new ("08:00–10:00"),
                                         with_class (hs_bracket_new ("08:00–10:00"), "hs-small"), NULL));
  gtk_box_append (GTK_BOX (box), row_of (hs_verdict_label_new ("within", HS_VERDICT_SHAPE_PLAIN),
                                         hs_verdict_label_new ("charge", HS_VERDICT_SHAPE_THIN),
                                         hs_verdict_label_new ("outside", HS_VERDICT_SHAPE_HEAVY),
                                         hs_verdict_label_new ("cannot tell", HS_VERDICT_SHAPE_DASHED),
                                         hs_verdict_label_new ("makers differ", HS_VERDICT_SHAPE_DOTTED),
                                         hs_verdict_label_new ("do not drive", HS_VERDICT_SHAPE_DOUBLE),
                                         with_class (hs_verdict_label_new ("outside", HS_VERDICT_SHAPE_HEAVY),
                                                     "hs-large"), NULL));
  return paper_window (box);
}

static const HsTagFace promised[] = {
  { "promised", "Time given", 2, "TDM 1315", "Orsane Merle", "A-0021", "“one click, no crank”", "08:00–10:00", NULL,
    "arrive", "08:49", "Old Market · Marguerite Stane, new", "Waits for", "starter, Larch, 38 % sure", NULL, 0,
    "Bring the starter: no return trip", TRUE },
  { "promised", "Time given", 3, "TDM 8816", "Vostle Crag", "A-0022", "“slow crank; how old is my battery?”",
    "08:30–10:30", NULL, "arrive", "09:55", "Quayside · Rue Abernant", NULL, "In the van: battery 55 Ah", NULL, 0, NULL,
    FALSE },
  { "promised", "Time given", 5, "TDM 3316", "Tumbrel Carter", "A-0023", "“rear pads, booked”", "11:00–13:00", NULL,
    "arrive", "11:00", "Foundry estate · Fennimore Bakery", "Waits for", "pads, Kingpost, laid aside", NULL, 0, NULL,
    FALSE },
  { "promised", "Time given", 6, "TDM 1011", "Halvik Bothy", "A-0025", "“cuts out again”", "09:00–16:00", NULL,
    "arrive", "12:31", "Sedge End, no signal · Campsite (Lorna)", "Waits for", "filter, Kingpost, laid aside", NULL, 0,
    "27 days after A-0016: decide why", TRUE },
  { "promised", "Time given", 7, "TDM 4409", "Halvik Lodden", "A-0024", "“flat every week”", "13:00–15:30", NULL,
    "arrive", "13:48", "Highcroft, patchy · Wilhelmina Sorrel", NULL, "Battery in it: 36 months, cover ended Feb 21",
    NULL, 0, NULL, FALSE },
  { "promised", "Time given", 8, "TDM 7717", "Quenby Larkin", "A-0026", "“12 V battery, booked”", "14:30–17:30", NULL,
    "arrive", "15:23", "Highcroft, patchy · Nadira Quell", "Waits for", "45 Ah AGM, Kingpost, laid aside", NULL, 0,
    "High voltage: safety list first", TRUE },
};

static const HsTagFace called_in = {
  "called_in", "Just called", 0, "TDM 5508", "Vostle Nib", "A-0027", "“clicks, won’t turn over”", "09:00–17:00", NULL,
  "fits", "10:41", "Old Market · Teo Calloway · 40 min", NULL, NULL, NULL, 0, "Ring back: adds 44 min, 70.86", TRUE
};

static const HsTagFace squared = {
  "squared", "Squared up", 0, "TDM 9912", "Orsane Tuck", "A-0019", "“lamps dim at idle”", NULL, "361.63 unpaid", NULL,
  "14 days", "Highcroft · Ansel Vickery · pays late", NULL, "Sleeping draw 0.31 A,", "outside", HS_VERDICT_SHAPE_HEAVY,
  "Ring today: on account since Feb 24", TRUE
};

static void
hang (GtkWidget       *board,
      const char      *title,
      const char      *count,
      const char      *note,
      const HsTagFace *faces,
      guint            n_faces)
{
  GtkWidget *wire = hs_wire_new ();

  hs_wire_set_heading (HS_WIRE (wire), faces[0].stage, title, count, note);
  for (guint i = 0; i < n_faces; i++)
    {
      GtkWidget *tag = hs_tag_new ();

      hs_tag_set_face (HS_TAG (tag), &faces[i]);
      hs_tag_set_chosen (HS_TAG (tag), g_strcmp0 (faces[i].number, "A-0024") == 0);
      hs_wire_append (HS_WIRE (wire), tag);
    }
  hs_tag_board_append (HS_TAG_BOARD (board), wire);
}

static GtkWindow *
create_board (void)
{
  GtkWidget *board = hs_tag_board_new ();
  GtkWidget *next = with_class (gtk_label_new ("the next stop"), "hs-box");

  gtk_widget_set_margin_top (next, 13);
  hs_tag_board_append (HS_TAG_BOARD (board), next);
  hang (board, "Just called", "1", "07:49", &called_in, 1);
  hang (board, "Squared up", "1 not paid", "19 paid, folded", &squared, 1);
  hang (board, "Time given", "6", "by arrival", promised, G_N_ELEMENTS (promised));
  gtk_widget_set_valign (board, GTK_ALIGN_START);
  return paper_window (scrolled (board));
}

static const HsStripStop stops[] = {
  { "Larch", 1, TRUE, "Larch", 518, 518, 526, -1, -1, 0, FALSE, NULL },
  { "A-0021", 2, FALSE, "21", 529, 529, 589, 480, 600, -1, FALSE, NULL },
  { "A-0022", 3, FALSE, "22", 595, 595, 635, 510, 630, -1, FALSE, NULL },
  { "Kingpost", 4, TRUE, "Kingpost", 646, 646, 656, -1, -1, 1, FALSE, NULL },
  { "A-0023", 5, FALSE, "23", 660, 660, 735, 660, 780, -1, TRUE, NULL },
  { "A-0025", 6, FALSE, "25", 751, 751, 811, 540, 960, -1, FALSE, NULL },
  { "A-0024", 7, FALSE, "24", 828, 828, 918, 780, 930, -1, FALSE, NULL },
  { "A-0026", 8, FALSE, "26", 923, 923, 968, 870, 1050, -1, FALSE, NULL },
};

static GtkWidget *
create_strip (HsStripForm form)
{
  static const int larch[] = { 480, 750, 795, 1020 }, kingpost[] = { 450, 1080 };
  g_autoptr (HsStripDay) day = hs_strip_day_new ();
  GtkWidget *strip = hs_time_strip_new ();

  day->leave = 511;
  day->home = 980;
  day->now = 472;
  day->van = g_strdup ("Van A");
  hs_strip_day_add_rail (day, "Larch", larch, 2);
  hs_strip_day_add_rail (day, "Kingpost", kingpost, 1);
  for (guint i = 0; i < G_N_ELEMENTS (stops); i++)
    hs_strip_day_add_stop (day, &stops[i]);
  hs_time_strip_set_day (HS_TIME_STRIP (strip), day);
  hs_time_strip_choose (HS_TIME_STRIP (strip), "A-0024");
  hs_time_strip_set_form (HS_TIME_STRIP (strip), form);
  return strip;
}

static const HsStopFace rows[] = {
  { 1, TRUE, TRUE, FALSE, 7, "08:38", NULL, "Larch & Weir", NULL, "pick up 1, drop off 1", NULL },
  { 2, FALSE, FALSE, FALSE, 3, "08:49", "TDM 1315", "“one click, no crank”", "08:00–10:00", "Starter in hand", "71",
    .stage = "promised" },
  { 3, FALSE, FALSE, FALSE, 6, "09:55", "TDM 8816", "“slow crank; how old is my battery?”", "08:30–10:30",
    "55 Ah in van", "35", .tightest = TRUE, .stage = "promised" },
  { 4, TRUE, FALSE, FALSE, 11, "10:46", NULL, "Kingpost", NULL, "pick up 3, drop off 2, return 1", NULL },
  { 5, FALSE, FALSE, FALSE, 4, "11:00", "TDM 3316", "“rear pads, booked”", "11:00–13:00", "Pads from stop 4", "120",
    .locked = TRUE, .stage = "promised" },
  { 7, FALSE, FALSE, TRUE, 17, "13:48", "TDM 4409", "“flat every week”", "13:00–15:30", "Patchy signal", "102",
    .stage = "promised", .chosen = TRUE },
};

static GtkWidget *
create_rows (gboolean narrow)
{
  GtkWidget *box = with_class (gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), "hs-paper");

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GtkWidget *row = hs_stop_row_new ();

      hs_stop_row_set_face (HS_STOP_ROW (row), &rows[i]);
      hs_stop_row_set_narrow (HS_STOP_ROW (row), narrow);
      gtk_box_append (GTK_BOX (box), row);
    }
  return box;
}

static GtkWindow *
create_today (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16), *list = create_rows (FALSE);

  gtk_box_append (GTK_BOX (box), create_strip (HS_STRIP_FORM_FULL));
  gtk_widget_set_halign (list, GTK_ALIGN_START);
  gtk_widget_set_size_request (list, 790, -1);
  gtk_box_append (GTK_BOX (box), list);
  gtk_box_append (GTK_BOX (box), create_strip (HS_STRIP_FORM_TIGHT));
  return paper_window (box);
}

static GtkWindow *
create_today_narrow (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);

  gtk_box_append (GTK_BOX (box), create_strip (HS_STRIP_FORM_COMPACT));
  gtk_box_append (GTK_BOX (box), create_rows (TRUE));
  return g_object_new (ADW_TYPE_WINDOW, "content", box, NULL);
}

static GtkWidget *
create_gauge (gboolean after)
{
  static const struct
  {
    double value;
    const char *text;
  } ticks[] = { { 0.01, "0.01" }, { 0.02, "0.02" }, { 0.05, "0.05" }, { 0.1, "0.1" },
                { 0.2, "0.2" },   { 0.5, "0.5" },   { 1, "1" } };
  GtkWidget *gauge = hs_gauge_new ();

  hs_gauge_set_scale (HS_GAUGE (gauge), 0.01, 1, TRUE);
  hs_gauge_add_band (HS_GAUGE (gauge), HS_GAUGE_BAND_WITHIN, 0.05, "within");
  hs_gauge_add_band (HS_GAUGE (gauge), HS_GAUGE_BAND_OUTSIDE, 1, "outside");
  for (guint i = 0; i < G_N_ELEMENTS (ticks); i++)
    hs_gauge_add_tick (HS_GAUGE (gauge), ticks[i].value, ticks[i].text);
  hs_gauge_add_maker (HS_GAUGE (gauge), 0.025);
  hs_gauge_add_maker (HS_GAUGE (gauge), 0.03);
  hs_gauge_add_maker (HS_GAUGE (gauge), 0.035);
  hs_gauge_set_needle (HS_GAUGE (gauge), TRUE, after ? 0.024 : 0.31, "0.31 A, outside");
  hs_gauge_set_before (HS_GAUGE (gauge), after, 0.31);
  return gauge;
}

static GtkWidget *
create_volts_gauge (void)
{
  GtkWidget *gauge = hs_gauge_new ();

  hs_gauge_set_scale (HS_GAUGE (gauge), 11.5, 13, FALSE);
  hs_gauge_add_band (HS_GAUGE (gauge), HS_GAUGE_BAND_OUTSIDE, 12.0, "empty");
  hs_gauge_add_band (HS_GAUGE (gauge), HS_GAUGE_BAND_WATCH, 12.4, "charge");
  hs_gauge_add_band (HS_GAUGE (gauge), HS_GAUGE_BAND_WITHIN, 12.8, "within");
  hs_gauge_add_band (HS_GAUGE (gauge), HS_GAUGE_BAND_NOT_JUDGED, 13, "not judged");
  hs_gauge_add_tick (HS_GAUGE (gauge), 12, "12.0");
  hs_gauge_add_tick (HS_GAUGE (gauge), 12.4, "12.4");
  hs_gauge_add_tick (HS_GAUGE (gauge), 12.8, "12.8");
  hs_gauge_set_needle (HS_GAUGE (gauge), TRUE, 12.31, "12.31 V, charge");
  return gauge;
}

static GtkWidget *
create_readings (gboolean narrow)
{
  static const HsReadingFace readings[] = {
    { 1, "Battery at rest", "lamps on 2 min first", "12.31", FALSE, "V", "charge",
      HS_VERDICT_SHAPE_THIN, FALSE },
    { 2, "Battery strength", "430 of 540 A", "79.6", FALSE, "%", "charge first",
      HS_VERDICT_SHAPE_DASHED, FALSE },
    { 3, "Charging", "1,500 rpm, loads on", "14.21", FALSE, "V", "within",
      HS_VERDICT_SHAPE_PLAIN, FALSE },
    { 5, "Starter draw", "cranking", "186", FALSE, "A", "makers differ",
      HS_VERDICT_SHAPE_DOTTED, FALSE },
    { 6, "Sleeping draw", "asleep 42 min, 48 °F", "0.31", FALSE, "A", "outside",
      HS_VERDICT_SHAPE_HEAVY, TRUE },
    { 7, "Draw, plug-in things out", "asleep again, 5 min", NULL, FALSE, "A", "next best",
      HS_VERDICT_SHAPE_PLAIN, FALSE },
  };
  GtkWidget *box = with_class (gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), "hs-paper");

  for (guint i = 0; i < G_N_ELEMENTS (readings); i++)
    {
      GtkWidget *row = hs_reading_line_new ();

      hs_reading_line_set_face (HS_READING_LINE (row), &readings[i]);
      hs_reading_line_set_narrow (HS_READING_LINE (row), narrow);
      gtk_box_append (GTK_BOX (box), row);
      gtk_box_append (GTK_BOX (box), with_class (gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), "hs-rule"));
    }
  return box;
}

static GtkWindow *
create_findings (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 20), *right = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  GtkWidget *list = create_readings (FALSE);

  gtk_widget_set_size_request (list, 518, -1);
  gtk_widget_set_valign (list, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (box), list);
  gtk_widget_set_hexpand (right, TRUE);
  gtk_box_append (GTK_BOX (right), with_class (create_gauge (FALSE), "hs-paper"));
  gtk_box_append (GTK_BOX (right), with_class (create_gauge (TRUE), "hs-paper"));
  gtk_box_append (GTK_BOX (right), with_class (create_volts_gauge (), "hs-paper"));
  gtk_box_append (GTK_BOX (box), right);
  return paper_window (box);
}

static GtkWindow *
create_findings_narrow (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 10), *gauge = create_gauge (FALSE);
  GtkWidget *pad = hs_number_pad_new ();

  hs_gauge_set_compact (HS_GAUGE (gauge), TRUE);
  gtk_box_append (GTK_BOX (box), gauge);
  gtk_box_append (GTK_BOX (box), create_readings (TRUE));
  gtk_widget_set_margin_start (pad, 12);
  gtk_widget_set_margin_end (pad, 12);
  gtk_box_append (GTK_BOX (box), pad);
  return g_object_new (ADW_TYPE_WINDOW, "content", box, NULL);
}

static GtkWidget *
create_sketch (void)
{
  static const struct
  {
    const char *name;
    HsSketchSignal signal;
    gboolean base;
    const char *stops;
  } places[] = {
    { "Tannery Row", HS_SKETCH_SIGNAL_GOOD, TRUE, "" },   { "Old Market", HS_SKETCH_SIGNAL_GOOD, FALSE, "12" },
    { "Quayside", HS_SKETCH_SIGNAL_GOOD, FALSE, "3" },    { "Foundry estate", HS_SKETCH_SIGNAL_GOOD, FALSE, "45" },
    { "Sedge End", HS_SKETCH_SIGNAL_NONE, FALSE, "6" },   { "Highcroft", HS_SKETCH_SIGNAL_PATCHY, FALSE, "78" },
  };
  static const int legs[][3] = { { 0, 1, 7 }, { 1, 2, 6 }, { 2, 3, 11 }, { 3, 4, 16 }, { 4, 5, 17 }, { 5, 0, 12 } };
  GtkWidget *sketch = hs_sketch_new ();

  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      guint at = hs_sketch_add_place (HS_SKETCH (sketch), places[i].name, places[i].signal, places[i].base);

      for (const char *stop = places[i].stops; *stop != '\0'; stop++)
        hs_sketch_add_stop (HS_SKETCH (sketch), at, (guint) (*stop - '0'));
    }
  for (guint i = 0; i < G_N_ELEMENTS (legs); i++)
    hs_sketch_add_leg (HS_SKETCH (sketch), (guint) legs[i][0], (guint) legs[i][1], legs[i][2]);
  hs_sketch_set_minutes (HS_SKETCH (sketch), 0, 3, 9);
  hs_sketch_set_minutes (HS_SKETCH (sketch), 1, 5, 14);
  hs_sketch_set_minutes (HS_SKETCH (sketch), 0, 4, 15);
  return sketch;
}

static GtkWindow *
create_drawings (void)
{
  static const int larch[] = { 480, 750, 795, 1020 }, kingpost[] = { 450, 1080 };
  static const HsSparkPoint strength[] = { { 0, 44, TRUE, "44 %" }, { 29, 46, FALSE, "46 %" } };
  static const HsSparkPoint rest[] = {
    { 0, 12.05, TRUE, "12.05 V" }, { 0.5, 12.64, FALSE, "12.64 V" }, { 29, 12.43, FALSE, "12.43 V" }
  };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 20), *right = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  GtkWidget *rail = hs_open_rail_new (), *second = hs_open_rail_new (), *inside;
  GtkWidget *line = hs_sparkline_new (), *other = hs_sparkline_new (), *sketch = create_sketch ();

  hs_open_rail_set (HS_OPEN_RAIL (rail), larch, 2, 518);
  hs_open_rail_set (HS_OPEN_RAIL (second), kingpost, 1, 646);
  hs_sparkline_set (HS_SPARKLINE (line), "Strength", strength, G_N_ELEMENTS (strength), "70 %", 70);
  hs_sparkline_set (HS_SPARKLINE (other), "At rest", rest, G_N_ELEMENTS (rest), "12.40", 12.4);
  inside = row_of (text ("Larch & Weir", "hs-head"), rail, second, NULL);
  gtk_widget_set_margin_start (inside, 18);
  gtk_widget_set_margin_end (inside, 18);
  gtk_widget_set_margin_top (inside, 12);
  gtk_widget_set_margin_bottom (inside, 12);
  gtk_box_append (GTK_BOX (right), hs_slip_new (inside));
  gtk_box_append (GTK_BOX (right), with_class (row_of (line, other, NULL), "hs-paper"));
  gtk_widget_set_size_request (sketch, 430, 376);
  gtk_widget_set_hexpand (right, TRUE);
  gtk_box_append (GTK_BOX (box), right);
  gtk_box_append (GTK_BOX (box), with_class (sketch, "hs-paper"));
  return paper_window (box);
}

/* Two causes of one effect, each with an end of its own; every proof and every end once. */
static GtkWindow *
create_chain (void)
{
  static const HsChainFace faces[] = {
    { .kind = HS_CHAIN_NODE, .complaint = TRUE, .firm = TRUE, .parent = -1,
      .title = (char *) "“battery lamp, slow crank”" },
    { .kind = HS_CHAIN_NODE, .firm = TRUE, .parent = 0, .column = 1, .wires = 1, .number = 1, .link_id = (char *) "1",
      .by = HS_CHAIN_BY_READING, .proof_word = (char *) "Read", .proof = (char *) "11.95 V at rest: 9 % charged",
      .title = (char *) "Battery nearly empty", .end = HS_CHAIN_CURED, .end_title = (char *) "Cured today" },
    { .kind = HS_CHAIN_CUT, .firm = TRUE, .parent = 1, .column = 2, .from_column = 1, .wires = 3,
      .link_id = (char *) "2", .by = HS_CHAIN_BY_EYE, .proof_word = (char *) "Seen",
      .proof = (char *) "full output with a dry belt",
      .title = (char *) "Ruled out: alternator" },
    { .kind = HS_CHAIN_NODE, .firm = TRUE, .parent = 1, .column = 1, .from_column = 1, .wires = 1, .number = 2,
      .link_id = (char *) "3", .by = HS_CHAIN_BY_PHOTO, .proof_word = (char *) "Photo",
      .proof = (char *) "belt wet and glazed", .title = (char *) "Drive belt glazed", .end = HS_CHAIN_CHOSEN,
      .end_title = (char *) "Customer’s choice", .end_note = (char *) "belt only" },
    { .kind = HS_CHAIN_NODE, .parent = 3, .column = 1, .from_column = 1, .wires = 1, .number = 3,
      .link_id = (char *) "4", .by = HS_CHAIN_BY_WORD, .proof_word = (char *) "Said",
      .proof = (char *) "Bram Hark, not proven",
      .title = (char *) "Topped up with plain water", .end = HS_CHAIN_OUTSIDE_TOLD,
      .end_title = (char *) "Outside, told" },
    { .kind = HS_CHAIN_NODE, .firm = TRUE, .parent = 0, .number = 4, .link_id = (char *) "5", .by = HS_CHAIN_BY_READING,
      .proof_word = (char *) "Read", .proof = (char *) "0.31 A asleep", .title = (char *) "Draw while parked",
      .end = HS_CHAIN_NOT_KNOWN_TOLD, .end_title = (char *) "Not known, told" },
    { .kind = HS_CHAIN_REFERENCE, .firm = TRUE, .parent = 5, .link_id = (char *) "6", .by = HS_CHAIN_BY_EYE,
      .proof_word = (char *) "Seen", .proof = (char *) "stays warm", .title = (char *) "Drive belt glazed: see 2" },
  };
  g_autoptr (GPtrArray) shown = g_ptr_array_new ();
  GtkWidget *view = hs_chain_view_new ();

  for (guint i = 0; i < G_N_ELEMENTS (faces); i++)
    g_ptr_array_add (shown, (gpointer) &faces[i]);
  hs_chain_view_set_faces (HS_CHAIN_VIEW (view), shown);
  return paper_window (view);
}

const Sheet gallery_sheets[] = {
  { "tokens", 1100, 300, create_tokens },
  { "shell", 1280, 800, create_frame },
  { "shell-1024", 1024, 600, create_frame },
  { "shell-360", 360, 800, create_frame },
  { "job", 1280, 400, create_job_frame },
  { "job-360", 360, 400, create_job_frame },
  { "board", 1280, 730, create_board },
  { "board-360", 360, 1100, create_board },
  { "today", 1280, 760, create_today },
  { "today-360", 360, 460, create_today_narrow },
  { "findings", 1280, 560, create_findings },
  { "findings-360", 360, 800, create_findings_narrow },
  { "drawings", 1280, 420, create_drawings },
  { "chain", 900, 760, create_chain },
  { "chain-360", 360, 1000, create_chain },
  { NULL },
};
