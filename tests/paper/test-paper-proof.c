// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The proof sheet on paper: its pages and sizes, its words as poppler reads them back, and the boxes of the verdicts in
 * one ink. */

#include "hs-paper-flow.h"

#include <libintl.h>
#include <glib/gstdio.h>
#include <string.h>

static const HsTongue english = { gettext, ngettext };

/* The sheet of an invented job with something of everything. */
static HsProofSheet *
make_sheet (void)
{
  HsProofSheet *sheet = hs_proof_sheet_new ();
  HsProofChange *change = hs_proof_sheet_add_change (sheet);
  HsProofLine *line;

  sheet->business = g_strdup ("Tannery Row Repairs");
  sheet->number = g_strdup ("A-0013");
  sheet->day = g_strdup ("February 3, 2026");
  sheet->plate = g_strdup ("TDM 6613");
  sheet->vehicle = g_strdup ("Halvik Pim 2014");
  sheet->owner = g_strdup ("Ångström & Søn");
  sheet->complaint = g_strdup ("battery lamp, slow crank");
  sheet->tried = g_strdup ("5 of 5");
  change->name = g_strdup ("Charging");
  change->limit = g_strdup ("13.50 to 14.70 V");
  change->source = g_strdup ("A manual (official text)");
  change->before = (HsProofValue){ g_strdup ("12.30 V"), g_strdup ("not charging"), HS_VERDICT_OUTSIDE, FALSE };
  change->after = (HsProofValue){ g_strdup ("14.08 V"), g_strdup ("within"), HS_VERDICT_WITHIN, FALSE };
  g_ptr_array_add (sheet->why, g_strdup ("The reason for “battery lamp”: drive belt glazed and wet."));
  line = hs_proof_line_add (sheet->parts, "drive belt", NULL);
  g_ptr_array_add (line->more, g_strdup ("Covered to February 3, 2027."));
  line = hs_proof_line_add (sheet->declined, "Water pump, belt and coolant", "520.94");
  g_ptr_array_add (line->more, g_strdup ("no: Bram Hark, signed on screen"));
  g_ptr_array_add (sheet->looked_after, g_strdup ("Belt in every groove of every pulley"));
  return sheet;
}

static HsPaper *
lay_out (const HsProofSheet *sheet)
{
  return hs_paper_proof_new (sheet, HS_PAPER_LETTER, &english);
}

/* (transfer full): what a tool of poppler says of the pages, with blanks and line breaks as one blank. */
static char *
ask_tool (const HsPaper *paper, const char *const *command)
{
  g_autofree char *path = NULL;
  g_autofree char *said = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = hs_paper_dup_pdf (paper, "2026-02-03T15:00:00Z", &error);
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  g_auto (GStrv) parts = NULL;
  GString *text = g_string_new (NULL);
  int handle = g_file_open_tmp ("hs-paper-XXXXXX.pdf", &path, &error);

  g_assert_no_error (error);
  g_assert_true (g_close (handle, NULL));
  g_assert_true (g_file_set_contents (path, g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes), NULL));
  for (guint i = 0; command[i] != NULL; i++)
    g_ptr_array_add (words, (char *) (g_str_equal (command[i], "FILE") ? path : command[i]));
  g_ptr_array_add (words, NULL);
  g_assert_true (g_spawn_sync (NULL, (char **) words->pdata, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &said, NULL, NULL,
                               &error));
  g_assert_no_error (error);
  g_unlink (path);
  parts = g_strsplit_set (said, " \n\f", -1);
  for (guint i = 0; parts[i] != NULL; i++)
    if (*parts[i] != '\0')
      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", parts[i]);
  return g_string_free (text, FALSE);
}

static char *
read_words (const HsPaper *paper)
{
  static const char *const command[] = { "pdftotext", "-enc", "UTF-8", "FILE", "-", NULL };

  return ask_tool (paper, command);
}

static gboolean
has_tools (void)
{
  g_autofree char *text = g_find_program_in_path ("pdftotext");
  g_autofree char *info = g_find_program_in_path ("pdfinfo");

  if (text != NULL && info != NULL)
    return TRUE;
  g_test_skip ("poppler's tools are not here");
  return FALSE;
}

static void
assert_says (const char *text, const char *words)
{
  if (strstr (text, words) == NULL)
    g_error ("“%s” does not say “%s”", text, words);
}

static void
test_words (void)
{
  static const char *const said[] = {
    "TDM 6613", "A-0013", "Halvik Pim 2014", "Ångström & Søn · February 3, 2026", "Before and after",
    "“battery lamp, slow crank”", "before the repair", "after it", "Charging", "12.30 V", "not charging", "14.08 V",
    "within", "13.50 to 14.70 V [1]", "The complaint was tried again: 5 of 5 good.", "tested good", "Why it failed",
    "drive belt glazed and wet", "Installed", "Covered to February 3, 2027.", "Looked after before leaving",
    "Belt in every groove", "Told and declined", "Water pump, belt and coolant", "520.94", "no: Bram Hark",
    "Who says so", "[1] A manual (official text)", "come first", "Page 1 of 1", "Tannery Row Repairs",
  };
  g_autoptr (HsProofSheet) sheet = make_sheet ();
  g_autoptr (HsPaper) paper = lay_out (sheet);
  g_autofree char *text = NULL;

  if (!has_tools ())
    return;
  text = read_words (paper);
  for (gsize i = 0; i < G_N_ELEMENTS (said); i++)
    assert_says (text, said[i]);
  g_assert_null (strstr (text, "not proven"));
  g_assert_null (strstr (text, "safe to drive"));
}

/* Why it could not be proven, what was not done, and whether it may be driven, stand on it in words. */
static void
test_unproved (void)
{
  static const struct
  {
    const char *safe;
    const char *said;
  } rows[] = {
    { "yes", "was safe to drive" },
    { "no", "was not safe to drive" },
    { "told_not_to", "was told not to drive" },
  };

  if (!has_tools ())
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsProofSheet) sheet = make_sheet ();
      g_autoptr (HsPaper) paper = NULL;
      g_autofree char *text = NULL;

      sheet->unproved_why = g_strdup ("Dark and raining, so no road test.");
      sheet->safe = g_strdup (rows[i].safe);
      g_ptr_array_add (sheet->open, g_strdup ("Not read again after the repair: Cooling pressure lost, 0.3 bar."));
      paper = lay_out (sheet);
      text = read_words (paper);
      assert_says (text, "Not proven because: Dark and raining, so no road test.");
      assert_says (text, "not proven");
      assert_says (text, "Not read again after the repair: Cooling pressure lost, 0.3 bar.");
      assert_says (text, rows[i].said);
      g_assert_null (strstr (text, "tested good"));
    }
}

/* Title, author, size and structure are in the file. */
static void
test_info (void)
{
  static const char *const command[] = { "pdfinfo", "-isodates", "FILE", NULL };
  static const struct
  {
    HsPaperSize size;
    const char *said;
  } rows[] = {
    { HS_PAPER_LETTER, "Page size: 612 x 792 pts (letter)" },
    { HS_PAPER_A4, "Page size: 595.28 x 841.89 pts (A4)" },
  };

  if (!has_tools ())
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsProofSheet) sheet = make_sheet ();
      g_autoptr (HsPaper) paper = hs_paper_proof_new (sheet, rows[i].size, &english);
      g_autofree char *text = ask_tool (paper, command);

      assert_says (text, "Title: Before and after · A-0013");
      assert_says (text, "Author: Tannery Row Repairs");
      assert_says (text, "Subject: A-0013 · TDM 6613 · 1 reading");
      assert_says (text, "Pages: 1");
      assert_says (text, "CreationDate: 2026-02-03T15:00:00Z");
      assert_says (text, rows[i].said);
    }
}

/* A reader for those who do not see it finds headings and paragraphs in order. */
static void
test_structure (void)
{
  static const char *const command[] = { "pdfinfo", "-struct", "FILE", NULL };
  g_autoptr (HsProofSheet) sheet = make_sheet ();
  g_autoptr (HsPaper) paper = lay_out (sheet);
  g_autofree char *text = NULL;

  if (!has_tools ())
    return;
  text = ask_tool (paper, command);
  assert_says (text, "P (block) H1 (block) H2 (block) P (block)");
}

static void
test_size (void)
{
  static const struct
  {
    const char *text;
    HsPaperSize size;
  } rows[] = {
    { "letter", HS_PAPER_LETTER }, { "A4", HS_PAPER_A4 }, { "a4", HS_PAPER_A4 }, { "A5", HS_PAPER_LETTER },
    { "", HS_PAPER_LETTER },       { NULL, HS_PAPER_LETTER },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_paper_size_parse (rows[i].text), ==, rows[i].size);
}

/* Long sheets break into pages; the head of each says what it is, and no word is lost on the way. */
static void
test_pages (void)
{
  g_autoptr (HsProofSheet) sheet = make_sheet ();
  g_autoptr (HsPaper) paper = NULL;
  g_autofree char *text = NULL;

  for (guint i = 0; i < 40; i++)
    {
      HsProofChange *change = hs_proof_sheet_add_change (sheet);

      change->name = g_strdup_printf ("Check number %u", i);
      change->before.text = g_strdup_printf ("%u.11 V", i);
      change->after.text = g_strdup_printf ("%u.99 V", i);
    }
  paper = lay_out (sheet);
  g_assert_cmpuint (hs_paper_get_n_pages (paper), >=, 3);
  g_assert_cmpuint (hs_paper_get_n_pages (paper), <=, 6);
  if (!has_tools ())
    return;
  text = read_words (paper);
  for (guint i = 0; i < 40; i++)
    {
      g_autofree char *name = g_strdup_printf ("Check number %u %u.11 V", i, i);
      g_autofree char *after = g_strdup_printf ("%u.99 V", i);

      assert_says (text, name);
      assert_says (text, after);
    }
  assert_says (text, "Before and after · A-0013 Check number");
}

/* Ten thousand letters without a blank, without a line break, or in every script: all of it is there. */
static void
test_long (void)
{
  g_autoptr (HsProofSheet) sheet = make_sheet ();
  g_autoptr (GString) complaint = g_string_new (NULL);
  g_autoptr (HsPaper) paper = NULL;
  g_autofree char *text = NULL;
  guint n = 0;

  while (complaint->len < 10000)
    g_string_append (complaint, "knirscht");
  g_free (sheet->complaint);
  sheet->complaint = g_strdup (complaint->str);
  g_ptr_array_add (sheet->why, g_strdup ("Το ρελέ δεν πατήθηκε · реле · リレー · \xf0\x9f\x94\xa7 \xff broken"));
  paper = lay_out (sheet);
  g_assert_cmpuint (hs_paper_get_n_pages (paper), >=, 2);
  if (!has_tools ())
    return;
  text = read_words (paper);
  for (const char *at = text; (at = strchr (at, 'k')) != NULL; at++)
    n++;
  g_assert_cmpuint (n, >=, 10000 / 8);
  assert_says (text, "Το ρελέ δεν πατήθηκε · реле");
  assert_says (text, "broken");
}

/* An empty sheet is a page, too. */
static void
test_empty (void)
{
  g_autoptr (HsProofSheet) sheet = hs_proof_sheet_new ();
  g_autoptr (HsPaper) paper = NULL;
  g_autoptr (GBytes) bytes = NULL;
  double width;
  double height;

  sheet->number = g_strdup ("A-0001");
  paper = lay_out (sheet);
  bytes = hs_paper_dup_pdf (paper, NULL, NULL);
  g_assert_cmpuint (hs_paper_get_n_pages (paper), ==, 1);
  g_assert_cmpint (memcmp (g_bytes_get_data (bytes, NULL), "%PDF-", 5), ==, 0);
  hs_paper_get_size (paper, &width, &height);
  g_assert_cmpfloat (width, ==, 612);
  g_assert_cmpfloat (height, ==, 792);
  g_assert_cmpstr (hs_paper_get_title (paper), ==, "Before and after · A-0001");
  hs_paper_free (NULL);
}

static guint
count_ink (HsBox box)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 100, 40);
  cairo_t *cr = cairo_create (surface);
  const guchar *data;
  guint sum = 0;

  hs_box_paint (cr, box, 10, 10, 80, 20);
  cairo_surface_flush (surface);
  data = cairo_image_surface_get_data (surface);
  for (int y = 0; y < 40; y++)
    for (int x = 0; x < 100; x++)
      sum += data[y * cairo_image_surface_get_stride (surface) + x];
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return sum;
}

/* Told apart in one ink: each box has its own weight, and within has none. */
static void
test_boxes (void)
{
  static const struct
  {
    HsVerdict verdict;
    gboolean do_not_drive;
    HsBox box;
  } rows[] = {
    { HS_VERDICT_WITHIN, FALSE, HS_BOX_NONE },        { HS_VERDICT_WATCH, FALSE, HS_BOX_THIN },
    { HS_VERDICT_OUTSIDE, FALSE, HS_BOX_HEAVY },      { HS_VERDICT_CANNOT_TELL, FALSE, HS_BOX_DASHED },
    { HS_VERDICT_DEPENDS, FALSE, HS_BOX_DOTTED },     { HS_VERDICT_OUTSIDE, TRUE, HS_BOX_DOUBLE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    g_assert_cmpint (hs_box_of (rows[i].verdict, rows[i].do_not_drive), ==, rows[i].box);
  g_assert_cmpuint (count_ink (HS_BOX_NONE), ==, 0);
  g_assert_cmpuint (count_ink (HS_BOX_DOTTED), >, 0);
  g_assert_cmpuint (count_ink (HS_BOX_HEAVY), >, 2 * count_ink (HS_BOX_THIN));
  g_assert_cmpuint (count_ink (HS_BOX_DOUBLE), >, count_ink (HS_BOX_THIN));
  g_assert_cmpuint (count_ink (HS_BOX_DASHED), <, count_ink (HS_BOX_HEAVY));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/paper/words", test_words);
  g_test_add_func ("/paper/unproved", test_unproved);
  g_test_add_func ("/paper/info", test_info);
  g_test_add_func ("/paper/structure", test_structure);
  g_test_add_func ("/paper/size", test_size);
  g_test_add_func ("/paper/pages", test_pages);
  g_test_add_func ("/paper/long", test_long);
  g_test_add_func ("/paper/empty", test_empty);
  g_test_add_func ("/paper/boxes", test_boxes);
  return g_test_run ();
}
