// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Where everything of a drawn why-chain stands, with letters of 8 × 20 pixels: nothing overlaps, nothing is cut, wires
 * meet what they join, at every width and text size. */

#include "hs-chain-plan.h"

#include <string.h>

#include "hs-face-chain.h"

/* Rows as "KIND COLUMN<FROM ^PARENT @WIRES title | proof | end". */
typedef struct
{
  HsChainRowKind kind;
  guint column;
  guint from;
  int parent;
  guint64 wires;
  const char *title;
  const char *proof;
  const char *end;
} Row;

/* A-0013 as it is drawn in the look: one straight line, something ruled out, three ends. */
static const Row line[] = {
  { HS_CHAIN_NODE, 0, 0, -1, 0, "battery lamp, slow crank", NULL, NULL },
  { HS_CHAIN_NODE, 0, 0, 0, 0, "battery nearly empty", "11.95 V at rest", NULL },
  { HS_CHAIN_NODE, 0, 0, 1, 0, "not being charged", "12.30 V", NULL },
  { HS_CHAIN_CUT, 1, 0, 2, 1, "Ruled out: alternator", "full output with a dry belt", NULL },
  { HS_CHAIN_NODE, 0, 0, 2, 0, "drive belt glazed and wet", "wet and glazed", "Cured today, belt replaced" },
  { HS_CHAIN_NODE, 0, 0, 4, 0, "pump seal weeps onto the belt", "0.3 bar lost in 10 min", "Customer's choice" },
  { HS_CHAIN_NODE, 0, 0, 5, 0, "topped up with plain water for months", "Bram Hark, not proven", "Outside, told" },
};

/* Two causes of one effect, the first with one of its own: it stands one further in, and the wire of the second passes
 * both. */
static const Row branches[] = {
  { HS_CHAIN_NODE, 0, 0, -1, 0, "dead", NULL, NULL },
  { HS_CHAIN_NODE, 1, 0, 0, 1, "battery worn", "44 %", "Cured today" },
  { HS_CHAIN_NODE, 1, 1, 1, 1, "never charged full", "12.9 V", "Open end" },
  { HS_CHAIN_NODE, 0, 0, 0, 0, "draw while parked", "0.31 A", "Customer's choice" },
};

static GPtrArray *
faces_of (const Row *rows, guint n_rows)
{
  GPtrArray *faces = hs_chain_faces_new ();

  for (guint i = 0; i < n_rows; i++)
    {
      HsChainFace *face = g_new0 (HsChainFace, 1);

      face->kind = rows[i].kind;
      face->column = rows[i].column;
      face->from_column = rows[i].from;
      face->parent = rows[i].parent;
      face->wires = rows[i].wires;
      face->number = rows[i].kind == HS_CHAIN_NODE ? i : 0;
      face->title = g_strdup (rows[i].title);
      face->proof = g_strdup (rows[i].proof);
      face->end_title = g_strdup (rows[i].end);
      face->link_id = g_strdup (rows[i].parent >= 0 ? rows[i].title : NULL);
      g_ptr_array_add (faces, face);
    }
  return faces;
}

typedef struct
{
  GPtrArray *faces;
  double unit;
} Letters;

static int
measure (gpointer data, guint row, HsChainText text, int width)
{
  const Letters *letters = data;
  const HsChainFace *face = g_ptr_array_index (letters->faces, row);
  const char *const texts[] = { face->title, face->proof, face->end_title };
  int room = MAX (1, (int) (width / (8 * letters->unit)));
  int n = texts[text] == NULL ? 0 : (int) strlen (texts[text]);

  return (int) ((n + room - 1) / room * 20 * letters->unit);
}

static HsChainPlan *
plan_of (GPtrArray *faces, int width, double unit)
{
  Letters letters = { faces, unit };

  return hs_chain_plan_new (faces, width, unit, measure, &letters);
}

static double
right_of (const graphene_rect_t *area)
{
  return area->origin.x + area->size.width;
}

static double
bottom_of (const graphene_rect_t *area)
{
  return area->origin.y + area->size.height;
}

static double
middle_of (const graphene_rect_t *area)
{
  return area->origin.y + area->size.height / 2;
}

static gboolean
is_there (const graphene_rect_t *area)
{
  return area->size.width > 0 && area->size.height > 0;
}

/* The look: node 47, band 51, so that the next box begins 98 further down; the end's middle is the node's. */
static void
test_line (void)
{
  g_autoptr (GPtrArray) faces = faces_of (line, G_N_ELEMENTS (line));
  g_autoptr (HsChainPlan) plan = plan_of (faces, 800, 1);
  static const double tops[] = { 0, 98, 196, -1, 294, 392, 490 };

  g_assert_false (plan->stacked);
  for (guint i = 0; i < faces->len; i++)
    {
      const HsChainPlace *place = hs_chain_plan_get (plan, i);

      if (i == 3)
        continue;
      g_assert_cmpfloat (place->box.origin.y, ==, tops[i]);
      g_assert_cmpfloat (place->box.size.height, ==, 47);
      g_assert_cmpfloat (place->box.size.width, ==, 484);
      g_assert_cmpfloat (place->wire, ==, 38);
      g_assert_cmpint (place->tail, ==, i < 6);
      if (is_there (&place->mark))
        g_assert_cmpfloat (ABS (middle_of (&place->mark) - middle_of (&place->box)), <, 1);
    }
  g_assert_cmpint (plan->height, ==, 490 + 47);
}

/* What was ruled out hangs at the right of its effect, level with it, and takes no row of its own. */
static void
test_cut (void)
{
  g_autoptr (GPtrArray) faces = faces_of (line, G_N_ELEMENTS (line));
  g_autoptr (HsChainPlan) wide = plan_of (faces, 800, 1);
  g_autoptr (HsChainPlan) narrow = plan_of (faces, 340, 1);
  g_autoptr (HsChainPlan) long_words = NULL;
  const HsChainPlace *cut = hs_chain_plan_get (wide, 3), *effect = hs_chain_plan_get (wide, 2);

  g_free (((HsChainFace *) g_ptr_array_index (faces, 3))->proof);
  ((HsChainFace *) g_ptr_array_index (faces, 3))->proof = g_strdup ("full output with a dry belt, 88 of 90 A");
  long_words = plan_of (faces, 800, 1);
  g_assert_cmpfloat (ABS (middle_of (&hs_chain_plan_get (long_words, 3)->sleeve)
                          - middle_of (&hs_chain_plan_get (long_words, 2)->box)), <, 2);
  g_assert_cmpfloat (hs_chain_plan_get (long_words, 2)->box.size.height, ==, 60);
  g_assert_true (cut->beside);
  g_assert_cmpfloat (cut->sleeve.origin.x, >, right_of (&effect->box) + 20);
  g_assert_cmpfloat (ABS (middle_of (&cut->sleeve) - middle_of (&effect->box)), <, 2);
  g_assert_false (is_there (&cut->row));
  cut = hs_chain_plan_get (narrow, 3);
  effect = hs_chain_plan_get (narrow, 2);
  g_assert_false (cut->beside);
  g_assert_cmpfloat (cut->sleeve.origin.y, >=, bottom_of (&effect->box));
  g_assert_cmpfloat (bottom_of (&cut->box), <=, hs_chain_plan_get (narrow, 4)->row.origin.y);
}

/* Narrow, or with twice the text: ends go under their node, right of the wire that goes on. */
static void
test_stacked (void)
{
  static const struct
  {
    int width;
    double unit;
    gboolean stacked;
  } rows[] = { { 800, 1, FALSE }, { 620, 1, FALSE }, { 619, 1, TRUE }, { 336, 1, TRUE }, { 800, 2, TRUE } };
  g_autoptr (GPtrArray) faces = faces_of (line, G_N_ELEMENTS (line));

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (HsChainPlan) plan = plan_of (faces, rows[i].width, rows[i].unit);
      const HsChainPlace *place = hs_chain_plan_get (plan, 4);

      g_assert_cmpint (plan->stacked, ==, rows[i].stacked);
      if (rows[i].stacked)
        {
          g_assert_cmpfloat (place->mark.origin.y, >=, bottom_of (&place->box));
          g_assert_cmpfloat (place->mark.origin.x, >, place->wire);
          g_assert_cmpfloat (place->box.size.width, ==, rows[i].width);
        }
      else
        g_assert_cmpfloat (place->mark.origin.x, >, right_of (&place->box));
    }
}

/* A branch stands one column further in, its wire leaves its effect's left of it. */
static void
test_branches (void)
{
  g_autoptr (GPtrArray) faces = faces_of (branches, G_N_ELEMENTS (branches));
  g_autoptr (HsChainPlan) plan = plan_of (faces, 800, 1);
  const HsChainPlace *worn = hs_chain_plan_get (plan, 1), *charged = hs_chain_plan_get (plan, 2);
  const HsChainPlace *draw = hs_chain_plan_get (plan, 3), *dead = hs_chain_plan_get (plan, 0);

  g_assert_cmpfloat (worn->box.origin.x, ==, plan->indent);
  g_assert_cmpfloat (worn->from, ==, dead->wire);
  g_assert_cmpfloat (worn->from, <, worn->box.origin.x);
  g_assert_cmpfloat (worn->sleeve.origin.x, >, worn->from);
  g_assert_cmpfloat (charged->from, ==, charged->wire);
  g_assert_cmpfloat (draw->box.origin.x, ==, 0);
  g_assert_cmpfloat (draw->wire, ==, dead->wire);
  g_assert_true (dead->tail && worn->tail && !charged->tail && !draw->tail);
  g_assert_cmpfloat (right_of (&worn->box), ==, right_of (&draw->box));
}

static void
assert_apart (const graphene_rect_t *one, const graphene_rect_t *other, const char *what)
{
  graphene_rect_t both;

  if (is_there (one) && is_there (other) && graphene_rect_intersection (one, other, &both) && both.size.width > 0.5
      && both.size.height > 0.5)
    g_error ("%s overlap", what);
}

static void
assert_sane (const HsChainPlan *plan, GPtrArray *faces)
{
  for (guint i = 0; i < faces->len; i++)
    {
      const HsChainPlace *place = hs_chain_plan_get (plan, i);
      const graphene_rect_t *all[] = { &place->box, &place->sleeve, &place->proof, &place->mark, &place->end };

      for (guint k = 0; k < G_N_ELEMENTS (all); k++)
        if (is_there (all[k]))
          {
            g_assert_cmpfloat (all[k]->origin.x, >=, 0);
            g_assert_cmpfloat (right_of (all[k]), <=, plan->width + 0.5);
            g_assert_cmpfloat (bottom_of (all[k]), <=, plan->height + 0.5);
          }
      g_assert_cmpfloat (place->box.size.height, >=, 44 * plan->unit);
      g_assert_cmpfloat (place->title.size.width, >, 20);
      for (guint j = i + 1; j < faces->len; j++)
        {
          const HsChainPlace *other = hs_chain_plan_get (plan, j);
          const graphene_rect_t *others[] = { &other->box, &other->sleeve, &other->proof, &other->mark, &other->end };

          for (guint k = 0; k < G_N_ELEMENTS (all); k++)
            for (guint l = 0; l < G_N_ELEMENTS (others); l++)
              assert_apart (all[k], others[l], ((HsChainFace *) g_ptr_array_index (faces, i))->title);
        }
    }
}

/* From a phone with twice the text to a wide screen. */
static void
test_nothing_overlaps (void)
{
  static const double units[] = { 0.9, 1, 1.25, 2 };
  g_autoptr (GPtrArray) straight = faces_of (line, G_N_ELEMENTS (line));
  g_autoptr (GPtrArray) branched = faces_of (branches, G_N_ELEMENTS (branches));
  GPtrArray *const chains[] = { straight, branched };

  for (gsize c = 0; c < G_N_ELEMENTS (chains); c++)
    for (gsize u = 0; u < G_N_ELEMENTS (units); u++)
      for (int width = MAX (336, hs_chain_plan_least (chains[c], units[u])); width < 1700; width += 61)
        {
          g_autoptr (HsChainPlan) plan = plan_of (chains[c], width, units[u]);

          assert_sane (plan, chains[c]);
        }
}

/* Words that are longer than the box make it grow, and everything under it moves down. */
static void
test_long_words (void)
{
  Row rows[] = {
    { HS_CHAIN_NODE, 0, 0, -1, 0, NULL, NULL, NULL },
    { HS_CHAIN_NODE, 0, 0, 0, 0, "b", "p", "e" },
  };
  g_autofree char *words = g_strnfill (400, 'x');
  g_autoptr (GPtrArray) faces = NULL;
  g_autoptr (HsChainPlan) plan = NULL;

  rows[0].title = words;
  faces = faces_of (rows, 2);
  plan = plan_of (faces, 336, 1);
  /* 336 − 2 × 12 = 312 pixels are 39 letters, so 11 lines of 20. */
  g_assert_cmpfloat (hs_chain_plan_get (plan, 0)->box.size.height, ==, 11 * 20 + 20);
  g_assert_cmpfloat (hs_chain_plan_get (plan, 1)->box.origin.y, ==, 240 + 51);
  assert_sane (plan, faces);
}

/* Several that were ruled out stand under each other beside one node, and under its end. */
static void
test_many_cuts (void)
{
  static const Row rows[] = {
    { HS_CHAIN_NODE, 0, 0, -1, 0, "dead", NULL, NULL },
    { HS_CHAIN_NODE, 0, 0, 0, 0, "worn", "44 %", "Cured today" },
    { HS_CHAIN_CUT, 1, 0, 1, 1, "Ruled out: starter", "164 A", NULL },
    { HS_CHAIN_CUT, 1, 0, 1, 1, "Ruled out: alternator", "14.2 V", NULL },
    { HS_CHAIN_NODE, 0, 0, 1, 0, "never charged full", "12.9 V", "Open end" },
  };
  g_autoptr (GPtrArray) faces = faces_of (rows, G_N_ELEMENTS (rows));

  for (int width = 336; width < 1300; width += 300)
    {
      g_autoptr (HsChainPlan) plan = plan_of (faces, width, 1);
      double end = middle_of (&hs_chain_plan_get (plan, 1)->mark);

      assert_sane (plan, faces);
      g_assert_cmpfloat (end, <, middle_of (&hs_chain_plan_get (plan, 2)->sleeve));
      g_assert_cmpfloat (bottom_of (&hs_chain_plan_get (plan, 2)->box), <=,
                         hs_chain_plan_get (plan, 3)->box.origin.y);
      g_assert_cmpfloat (bottom_of (&hs_chain_plan_get (plan, 3)->box), <=,
                         bottom_of (&hs_chain_plan_get (plan, 1)->row) + 0.5);
    }
}

static void
test_empty (void)
{
  g_autoptr (GPtrArray) faces = hs_chain_faces_new ();
  g_autoptr (HsChainPlan) plan = plan_of (faces, 336, 1);

  g_assert_cmpint (plan->height, ==, 0);
  g_assert_cmpint (hs_chain_plan_least (faces, 1), ==, 150);
  hs_chain_plan_free (NULL);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chain-plan/line", test_line);
  g_test_add_func ("/chain-plan/cut", test_cut);
  g_test_add_func ("/chain-plan/stacked", test_stacked);
  g_test_add_func ("/chain-plan/branches", test_branches);
  g_test_add_func ("/chain-plan/nothing-overlaps", test_nothing_overlaps);
  g_test_add_func ("/chain-plan/long-words", test_long_words);
  g_test_add_func ("/chain-plan/many-cuts", test_many_cuts);
  g_test_add_func ("/chain-plan/empty", test_empty);
  return g_test_run ();
}
