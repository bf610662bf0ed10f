// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A why-chain as rows: for drawing it with wires and for reading it as a tree. Rows run from each complaint down to its
 * ends. Branches to the side come first, the last cause goes on straight down:
 *
 *     complaint
 *     ├─ cause 1
 *     │  cause of cause 1
 *     cause 2
 */

#include "hs-chain-private.h"

typedef struct
{
  const HsChain *chain;
  GArray *rows;  /* of HsChainRow: written */
  GArray *stack; /* of HsChainRow: waiting, the next one last */
  int *row_of;   /* where a finding is written, or -1 */
  guint n_numbers;
} Layout;

static gboolean
is_cut (const Layout *layout, guint finding)
{
  return hs_chain_node (layout->chain, finding)->finding.role == HS_CHAIN_RULED_OUT;
}

static guint64
wire (guint column)
{
  return G_GUINT64_CONSTANT (1) << column;
}

/* One cause of the finding in row @parent; @further: other causes follow in the parent's column. */
static HsChainRow
row_under (const Layout *layout, int parent, int link, gboolean further)
{
  const HsChainRow *above = &g_array_index (layout->rows, HsChainRow, parent);
  HsChainRow row = { .finding = hs_chain_edge (layout->chain, (guint) link)->cause,
                     .link = link,
                     .parent = parent,
                     .level = above->level + 1,
                     .column = above->column,
                     .from_column = above->column,
                     .wires = above->wires };

  if (further)
    row.wires |= wire (above->column);
  if (further || is_cut (layout, row.finding))
    row.column = MIN (above->column + 1, HS_CHAIN_MOST_COLUMNS - 1);
  return row;
}

/* The causes of the finding in row @parent: first what was ruled out, then the others, each as they were linked. */
static GArray *
list_causes (const Layout *layout, int parent)
{
  const HsChainNode *node
      = hs_chain_node (layout->chain, g_array_index (layout->rows, HsChainRow, parent).finding);
  GArray *causes = g_array_new (FALSE, FALSE, sizeof (int));

  for (int cut = TRUE; cut >= FALSE; cut--)
    for (guint i = 0; i < node->causes->len; i++)
      {
        int link = g_array_index (node->causes, int, i);

        if (is_cut (layout, hs_chain_edge (layout->chain, (guint) link)->cause) == cut)
          g_array_append_val (causes, link);
      }
  return causes;
}

static void
push_causes (Layout *layout, int parent)
{
  g_autoptr (GArray) causes = list_causes (layout, parent);

  for (guint i = causes->len; i-- > 0;)
    {
      HsChainRow row = row_under (layout, parent, g_array_index (causes, int, i), i + 1 < causes->len);

      row.position = i + 1;
      row.n_siblings = causes->len;
      g_array_append_val (layout->stack, row);
    }
}

static void
write_row (Layout *layout, HsChainRow row)
{
  int place = (int) layout->rows->len;
  int before = layout->row_of[row.finding];

  row.kind = is_cut (layout, row.finding) ? HS_CHAIN_CUT : HS_CHAIN_NODE;
  if (before >= 0)
    {
      row.kind = HS_CHAIN_REFERENCE;
      row.number = g_array_index (layout->rows, HsChainRow, before).number;
    }
  else if (row.kind == HS_CHAIN_NODE
           && hs_chain_node (layout->chain, row.finding)->finding.role != HS_CHAIN_COMPLAINT)
    row.number = ++layout->n_numbers;
  g_array_append_val (layout->rows, row);
  if (before >= 0)
    return;
  layout->row_of[row.finding] = place;
  push_causes (layout, place);
}

/* Complaints first, then what stands alone, then what was ruled out. */
static guint
rank_of (const HsChainNode *node)
{
  if (node->finding.role == HS_CHAIN_COMPLAINT)
    return 0;
  return node->finding.role == HS_CHAIN_RULED_OUT ? 2 : 1;
}

static void
push_tops (Layout *layout)
{
  g_autoptr (GArray) tops = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint rank = 0; rank < 3; rank++)
    for (guint i = 0; i < layout->chain->nodes->len; i++)
      {
        const HsChainNode *node = hs_chain_node (layout->chain, i);

        if (node->effects->len == 0 && hs_chain_node_holds (node) && rank_of (node) == rank)
          g_array_append_val (tops, i);
      }
  for (guint i = tops->len; i-- > 0;)
    {
      HsChainRow row = { .finding = g_array_index (tops, guint, i),
                         .link = -1,
                         .parent = -1,
                         .level = 1,
                         .position = i + 1,
                         .n_siblings = tops->len };

      g_array_append_val (layout->stack, row);
    }
}

GArray *
hs_chain_lay_out (const HsChain *chain)
{
  g_autoptr (GArray) stack = g_array_new (FALSE, FALSE, sizeof (HsChainRow));
  g_autofree int *row_of = g_new (int, chain->nodes->len + 1);
  Layout layout = { chain, g_array_new (FALSE, FALSE, sizeof (HsChainRow)), stack, row_of, 0 };

  for (guint i = 0; i < chain->nodes->len; i++)
    row_of[i] = -1;
  push_tops (&layout);
  while (stack->len > 0)
    {
      HsChainRow row = g_array_index (stack, HsChainRow, stack->len - 1);

      g_array_set_size (stack, stack->len - 1);
      write_row (&layout, row);
    }
  return layout.rows;
}
