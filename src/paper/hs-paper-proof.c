// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The proof sheet "Before and after" as a paper: what was wrong, each reading before and after with its verdict in its
 * box, why it failed, what was installed and how long it is covered, what was declined, and who says what is right. For
 * the owner of the vehicle; nothing on it is anybody else's. */

#include "hs-paper-flow.h"

#include <string.h>

/* Columns as shares of the line. */
#define BEFORE_X 0.44
#define ARROW_X 0.655
#define AFTER_X 0.74

typedef struct
{
  const HsProofSheet *sheet;
  HsPaper *paper;
  const HsTongue *in;
  GPtrArray *sources;
} Proof;

/* "first · second", of those that say something. */
static char *
join (const char *first, const char *second, const char *third)
{
  const char *const all[] = { first, second, third };
  g_autoptr (GString) text = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    if (all[i] != NULL && *all[i] != '\0')
      g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", all[i]);
  return g_strdup (text->str);
}

static gboolean
is_said (const char *text)
{
  return text != NULL && *text != '\0';
}

static void
add_title (const Proof *proof, const char *title)
{
  hs_paper_flow_gap (proof->paper, 12);
  hs_paper_flow_text (proof->paper, title, HS_TYPE_TITLE, 0);
  hs_paper_flow_gap (proof->paper, 3);
}

static void
add_head (const Proof *proof)
{
  const HsProofSheet *sheet = proof->sheet;
  g_autofree char *under = join (sheet->owner, sheet->day, sheet->odometer);
  g_autofree char *quoted = g_strdup_printf ("“%s”", sheet->complaint == NULL ? "" : sheet->complaint);

  hs_paper_flow_tag (proof->paper, is_said (sheet->plate) ? sheet->plate : sheet->number,
                     is_said (sheet->vehicle) ? sheet->vehicle : "", under, sheet->number);
  hs_paper_flow_gap (proof->paper, 14);
  hs_paper_flow_text (proof->paper, proof->in->gettext ("Before and after"), HS_TYPE_HEAD, 0);
  hs_paper_flow_gap (proof->paper, 2);
  hs_paper_flow_text (proof->paper, quoted, HS_TYPE_TITLE, 0);
}

/* The number of a source in the list at the end, from 1. */
static guint
number_source (const Proof *proof, const char *source)
{
  guint at;

  if (g_ptr_array_find_with_equal_func (proof->sources, source, g_str_equal, &at))
    return at + 1;
  g_ptr_array_add (proof->sources, g_strdup (source));
  return proof->sources->len;
}

static char *
say_limit (const Proof *proof, const HsProofChange *change)
{
  if (!is_said (change->limit))
    return NULL;
  if (!is_said (change->source))
    return g_strdup (change->limit);
  return g_strdup_printf ("%s [%u]", change->limit, number_source (proof, change->source));
}

static HsColumn
column_of_value (const HsProofValue *value, double x)
{
  HsColumn column = { .x = x, .width = ARROW_X - BEFORE_X - 0.01 };

  column.cells[0] = (HsCell){ .text = value->text != NULL ? value->text : "–", .style = HS_TYPE_FIGURE };
  column.cells[1] = (HsCell){ .text = value->word,
                              .style = HS_TYPE_BODY,
                              .boxed = TRUE,
                              .box = hs_box_of (value->verdict, value->do_not_drive) };
  column.n_cells = 2;
  return column;
}

static void
add_change (const Proof *proof, const HsProofChange *change)
{
  g_autofree char *limit = say_limit (proof, change);
  HsColumn columns[3] = {
    { .x = 0, .width = BEFORE_X - 0.02, .n_cells = 3 },
    column_of_value (&change->before, BEFORE_X),
    column_of_value (&change->after, AFTER_X),
  };

  columns[0].cells[0] = (HsCell){ .text = change->name, .style = HS_TYPE_STRONG };
  columns[0].cells[1] = (HsCell){ .text = change->place, .style = HS_TYPE_BODY };
  columns[0].cells[2] = (HsCell){ .text = limit, .style = HS_TYPE_SMALL };
  columns[2].width = 1 - AFTER_X;
  hs_paper_flow_row (proof->paper, columns, G_N_ELEMENTS (columns), ARROW_X);
}

static void
add_changes (const Proof *proof)
{
  HsColumn heads[3] = { { .x = 0, .width = BEFORE_X - 0.02, .n_cells = 1 },
                        { .x = BEFORE_X, .width = 0.2, .n_cells = 1 },
                        { .x = AFTER_X, .width = 1 - AFTER_X, .n_cells = 1 } };

  if (proof->sheet->changes->len == 0)
    return;
  hs_paper_flow_gap (proof->paper, 14);
  heads[0].cells[0] = (HsCell){ .text = proof->in->gettext ("Reading"), .style = HS_TYPE_SMALL };
  heads[1].cells[0] = (HsCell){ .text = proof->in->gettext ("before the repair"), .style = HS_TYPE_SMALL };
  heads[2].cells[0] = (HsCell){ .text = proof->in->gettext ("after it"), .style = HS_TYPE_SMALL };
  hs_paper_flow_row (proof->paper, heads, G_N_ELEMENTS (heads), -1);
  for (guint i = 0; i < proof->sheet->changes->len; i++)
    {
      hs_paper_flow_rule (proof->paper);
      add_change (proof, g_ptr_array_index (proof->sheet->changes, i));
    }
  hs_paper_flow_rule (proof->paper);
}

/* "9 tries, all good" as one figure, and whether it is proven. */
static void
add_result (const Proof *proof)
{
  const HsProofSheet *sheet = proof->sheet;
  gboolean good = hs_proof_sheet_is_good (sheet);
  HsColumn columns[2] = { { .x = 0, .width = 0.72, .n_cells = 1 }, { .x = 0.74, .width = 0.26, .n_cells = 1 } };
  g_autofree char *tried = NULL;

  if (is_said (sheet->tried))
    tried = g_strdup_printf (proof->in->gettext ("The complaint was tried again: %s good."), sheet->tried);
  hs_paper_flow_gap (proof->paper, 10);
  columns[0].cells[0] = (HsCell){ .text = tried, .style = HS_TYPE_FIGURE };
  columns[1].cells[0] = (HsCell){ .text = good ? proof->in->gettext ("tested good") : proof->in->gettext ("not proven"),
                                  .style = HS_TYPE_STRONG,
                                  .boxed = TRUE,
                                  .box = good ? HS_BOX_NONE : HS_BOX_HEAVY };
  columns[1].right = TRUE;
  hs_paper_flow_row (proof->paper, columns, G_N_ELEMENTS (columns), -1);
  if (is_said (sheet->unproved_why))
    {
      g_autofree char *why = g_strdup_printf (proof->in->gettext ("Not proven because: %s"), sheet->unproved_why);

      hs_paper_flow_text (proof->paper, why, HS_TYPE_STRONG, 0);
    }
  for (guint i = 0; i < sheet->open->len; i++)
    hs_paper_flow_text (proof->paper, g_ptr_array_index (sheet->open, i), HS_TYPE_BODY, 0);
}

static void
add_texts (const Proof *proof, const char *title, GPtrArray *texts)
{
  if (texts->len == 0)
    return;
  add_title (proof, title);
  for (guint i = 0; i < texts->len; i++)
    hs_paper_flow_text (proof->paper, g_ptr_array_index (texts, i), HS_TYPE_BODY, 0);
}

static void
add_lines (const Proof *proof, const char *title, GPtrArray *lines)
{
  if (lines->len == 0)
    return;
  add_title (proof, title);
  for (guint i = 0; i < lines->len; i++)
    {
      const HsProofLine *line = g_ptr_array_index (lines, i);
      HsColumn columns[2] = { { .x = 0, .width = line->figure != NULL ? 0.78 : 1, .n_cells = 1 },
                              { .x = 0.8, .width = 0.2, .n_cells = 1, .right = TRUE } };

      columns[0].cells[0] = (HsCell){ .text = line->what, .style = HS_TYPE_STRONG };
      columns[1].cells[0] = (HsCell){ .text = line->figure, .style = HS_TYPE_STRONG };
      hs_paper_flow_row (proof->paper, columns, G_N_ELEMENTS (columns), -1);
      for (guint j = 0; j < line->more->len; j++)
        hs_paper_flow_text (proof->paper, g_ptr_array_index (line->more, j), HS_TYPE_BODY, 0.03);
    }
}

static void
add_safe (const Proof *proof)
{
  const char *safe = proof->sheet->safe;
  const char *said = NULL;

  if (g_strcmp0 (safe, "yes") == 0)
    said = proof->in->gettext ("The vehicle was safe to drive when it was handed back.");
  else if (g_strcmp0 (safe, "no") == 0)
    said = proof->in->gettext ("The vehicle was not safe to drive when it was handed back.");
  else if (g_strcmp0 (safe, "told_not_to") == 0)
    said = proof->in->gettext ("The owner was told not to drive the vehicle.");
  if (said == NULL)
    return;
  hs_paper_flow_gap (proof->paper, 12);
  hs_paper_flow_text (proof->paper, said, HS_TYPE_STRONG, 0);
}

static void
add_sources (const Proof *proof)
{
  if (proof->sources->len > 0)
    add_title (proof, proof->in->gettext ("Who says so"));
  for (guint i = 0; i < proof->sources->len; i++)
    {
      g_autofree char *text = g_strdup_printf ("[%u] %s", i + 1, (char *) g_ptr_array_index (proof->sources, i));

      hs_paper_flow_text (proof->paper, text, HS_TYPE_SMALL, 0);
    }
  hs_paper_flow_gap (proof->paper, 6);
  hs_paper_flow_text (proof->paper,
                      proof->in->gettext ("The vehicle maker's figures and procedures, and local codes, come first."),
                      HS_TYPE_SMALL, 0);
}

/* How many things were done, for the file's summary: "2 readings, 1 part". */
static char *
dup_subject (const HsProofSheet *sheet, const HsTongue *in)
{
  guint n = sheet->changes->len;
  g_autofree char *readings = g_strdup_printf (in->ngettext ("%u reading", "%u readings", n), n);

  return join (sheet->number, sheet->plate, readings);
}

HsPaper *
hs_paper_proof_new (const HsProofSheet *sheet, HsPaperSize size, const HsTongue *in)
{
  g_autofree char *name = join (in->gettext ("Before and after"), sheet->number, NULL);
  g_autofree char *subject = dup_subject (sheet, in);
  g_autoptr (GPtrArray) sources = g_ptr_array_new_with_free_func (g_free);
  Proof proof = { sheet, hs_paper_flow_begin (size, in, name, sheet->business, subject), in, sources };

  add_head (&proof);
  add_changes (&proof);
  add_result (&proof);
  add_texts (&proof, in->gettext ("Why it failed"), sheet->why);
  add_lines (&proof, in->gettext ("Installed"), sheet->parts);
  add_texts (&proof, in->gettext ("Looked after before leaving"), sheet->looked_after);
  add_lines (&proof, in->gettext ("Told and declined"), sheet->declined);
  add_safe (&proof);
  add_sources (&proof);
  hs_paper_flow_end (proof.paper);
  return proof.paper;
}
