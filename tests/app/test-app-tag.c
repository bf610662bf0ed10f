// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Tags, wires and the board: what is said, what a key does, where things stand. */

#include "hs-app-test.h"
#include "hs-tag-board.h"
#include "hs-tag.h"
#include "hs-wire.h"

static const HsTagFace face = {
  .stage = "promised",
  .stage_label = "Time given",
  .stop = 2,
  .plate = "TDM 1315",
  .model = "Orsane Merle",
  .number = "A-0021",
  .words = "“one click, no crank”",
  .window = "08:00–10:00",
  .figure = "not shown beside a window",
  .when_lead = "arrive",
  .when = "08:49",
  .place = "Old Market · Marguerite <Stane>",
  .line_lead = "Waits for",
  .line = "starter & pads",
  .act = "Bring the starter",
  .attention = TRUE,
};

static void
count_call (gpointer object,
            gpointer count)
{
  (*(int *) count)++;
}

static void
test_face (void)
{
  GtkWidget *tag = hs_tag_new ();
  GtkWindow *window;

  hs_tag_set_face (HS_TAG (tag), &face);
  window = hs_app_test_show (tag, 400, 171);
  g_assert_true (hs_app_test_says (tag, "TDM 1315"));
  g_assert_true (hs_app_test_says (tag, "08:00–10:00"));
  g_assert_true (hs_app_test_says (tag, "arrive 08:49"));
  g_assert_true (hs_app_test_says (tag, "Old Market · Marguerite <Stane>"));
  g_assert_true (hs_app_test_says (tag, "Waits for starter & pads"));
  g_assert_true (hs_app_test_says (tag, "Bring the starter"));
  g_assert_false (hs_app_test_says (tag, "not shown beside a window"));

  hs_tag_set_face (HS_TAG (tag), &(HsTagFace) { .number = "A-0027", .figure = "361.63 unpaid" });
  g_assert_true (hs_app_test_says (tag, "361.63 unpaid"));
  g_assert_false (hs_app_test_says (tag, "TDM 1315"));
  g_assert_false (hs_app_test_says (tag, "Bring the starter"));
  gtk_window_destroy (window);
}

static void
test_activated (void)
{
  GtkWidget *tag = hs_tag_new ();
  GtkWindow *window;
  int count = 0;

  hs_tag_set_face (HS_TAG (tag), &face);
  g_signal_connect (tag, "activated", G_CALLBACK (count_call), &count);
  window = hs_app_test_show (tag, 400, 171);
  g_assert_true (gtk_widget_grab_focus (tag));
  g_assert_true (gtk_widget_activate_action (tag, "tag.activate", NULL));
  g_assert_cmpint (count, ==, 1);
  hs_tag_set_chosen (HS_TAG (tag), TRUE);
  g_assert_true (hs_tag_get_chosen (HS_TAG (tag)));
  gtk_window_destroy (window);
}

static GtkWidget *
create_wire (guint n_tags)
{
  GtkWidget *wire = hs_wire_new ();

  hs_wire_set_heading (HS_WIRE (wire), "promised", "Time given", "6", "by arrival");
  for (guint i = 0; i < n_tags; i++)
    {
      GtkWidget *tag = hs_tag_new ();

      hs_tag_set_face (HS_TAG (tag), &face);
      hs_wire_append (HS_WIRE (wire), tag);
    }
  return wire;
}

static void
get_place (GtkWidget *widget,
           GtkWidget *root,
           int       *ret_x,
           int       *ret_y)
{
  graphene_rect_t bounds;

  g_assert_true (gtk_widget_compute_bounds (widget, root, &bounds));
  *ret_x = (int) bounds.origin.x;
  *ret_y = (int) bounds.origin.y;
}

static void
test_columns (void)
{
  static const struct
  {
    int width;
    guint columns;
    int second_x;
  } rows[] = { { 1240, 3, 420 }, { 984, 2, 502 }, { 400, 1, 0 }, { 340, 1, 0 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GtkWidget *board = hs_tag_board_new (), *wire = create_wire (6);
      GtkWindow *window;
      int x0, y0, x1, y1;

      hs_tag_board_append (HS_TAG_BOARD (board), wire);
      window = hs_app_test_show (board, rows[i].width, 1600);
      g_assert_cmpuint (hs_tag_board_get_n_columns (HS_TAG_BOARD (board)), ==, rows[i].columns);
      get_place (hs_wire_get_tag (HS_WIRE (wire), 0), board, &x0, &y0);
      get_place (hs_wire_get_tag (HS_WIRE (wire), 1), board, &x1, &y1);
      g_assert_cmpint (x1 - x0, ==, rows[i].second_x);
      if (rows[i].columns == 1)
        g_assert_cmpint (y1, >, y0 + 162);
      else
        g_assert_cmpint (y1, ==, y0);
      gtk_window_destroy (window);
    }
}

static void
test_side_by_side (void)
{
  GtkWidget *board = hs_tag_board_new (), *first = create_wire (1), *second = create_wire (2), *third = create_wire (1);
  GtkWindow *window;
  int x1, y1, x2, y2, x3, y3;

  hs_tag_board_append (HS_TAG_BOARD (board), first);
  hs_tag_board_append (HS_TAG_BOARD (board), second);
  hs_tag_board_append (HS_TAG_BOARD (board), third);
  window = hs_app_test_show (board, 1240, 800);
  get_place (first, board, &x1, &y1);
  get_place (second, board, &x2, &y2);
  get_place (third, board, &x3, &y3);
  g_assert_cmpint (y1, ==, y2);
  g_assert_cmpint (x2, ==, 420);
  g_assert_cmpint (x3, ==, 0);
  g_assert_cmpint (y3, >, y1);
  hs_wire_remove_all (HS_WIRE (second));
  g_assert_cmpuint (hs_wire_get_n_tags (HS_WIRE (second)), ==, 0);
  g_assert_null (hs_wire_get_tag (HS_WIRE (second), 0));
  gtk_window_destroy (window);
}

static GtkWidget *
find_label (GtkWidget  *widget,
            const char *text)
{
  if (GTK_IS_LABEL (widget) && g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), text))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_label (child, text);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* The tallest tag a morning brings: words and what it waits for both in two lines, and an act. All of it is on the
 * paper, with the margin below. */
static void
test_nothing_runs_out (void)
{
  static const char *const lines[] = { "starter", "starter, Larch & Weir Auto Electrical, 38 % sure" };
  static const char *const words[] = { "“one click”", "“slow to crank on cold mornings, and the lamp is on”" };

  for (guint i = 0; i < 4; i++)
    {
      GtkWidget *board = hs_tag_board_new (), *wire = create_wire (3);
      GtkWidget *tag = hs_wire_get_tag (HS_WIRE (wire), 0), *act;
      HsTagFace tall = face;
      GtkWindow *window;
      graphene_rect_t bounds;

      tall.line = lines[i % 2];
      tall.words = words[i / 2];
      hs_tag_set_face (HS_TAG (tag), &tall);
      hs_tag_board_append (HS_TAG_BOARD (board), wire);
      window = hs_app_test_show (board, 1240, 800);
      act = find_label (tag, "Bring the starter");
      g_assert_nonnull (act);
      g_assert_true (gtk_widget_compute_bounds (act, tag, &bounds));
      g_test_message ("%u: act ends at %.0f of %d", i, bounds.origin.y + bounds.size.height,
                      gtk_widget_get_height (tag));
      g_assert_cmpfloat (bounds.origin.y + bounds.size.height + 5, <=, gtk_widget_get_height (tag));
      gtk_window_destroy (window);
    }
}

int
main (int   argc,
      char *argv[])
{
  hs_app_test_init (&argc, &argv);
  g_test_add_func ("/app/tag/face", test_face);
  g_test_add_func ("/app/tag/activated", test_activated);
  g_test_add_func ("/app/tag/nothing-runs-out", test_nothing_runs_out);
  g_test_add_func ("/app/tag/columns", test_columns);
  g_test_add_func ("/app/tag/side-by-side", test_side_by_side);
  return g_test_run ();
}
