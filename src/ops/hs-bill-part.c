// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What an installed part costs and sells for on the bill. A part of the catalog brings its cost along; one that was
 * typed has no price until somebody says what it cost, and a job with such a line is not squared up. That nothing is
 * charged is said by 0, and stands on the bill as words. Refuses a cost that is no sum of money or less than nothing.
 */

#include "hs-bill-private.h"

#include "hs-installed-row.h"
#include "hs-money.h"
#include "hs-need-row.h"
#include "hs-ops-private.h"
#include "hs-part-row.h"
#include "hs-text.h"

static gboolean
is_kind (const HsLineRow *line, const char *kind)
{
  return g_str_equal (line->kind, kind);
}

/* Known costs ------------------------------------------------------------------------------------------------------ */

static gboolean
quoted_cost (HsStore *store, const char *job_id, const char *part_id, gint64 *ret_cents, GError **error)
{
  g_autoptr (GPtrArray) needs = NULL;

  if (!hs_need_row_list_of (store, job_id, &needs, error))
    return FALSE;
  for (guint i = 0; i < needs->len; i++)
    {
      const HsNeedRow *need = g_ptr_array_index (needs, i);

      if (g_str_equal (need->part_id, part_id) && need->quoted_cents != HS_INT_NONE)
        *ret_cents = need->quoted_cents;
    }
  return TRUE;
}

gboolean
hs_bill_known_cost (HsStore *store, const char *job_id, const char *part_id, gint64 *ret_cents, GError **error)
{
  g_autoptr (GPtrArray) prices = NULL;
  gint64 cents = 0;

  if (!quoted_cost (store, job_id, part_id, &cents, error)
      || (cents == 0 && !hs_price_row_list_latest (store, part_id, &prices, error)))
    return FALSE;
  if (cents == 0 && prices->len > 0)
    cents = ((const HsPriceRow *) g_ptr_array_index (prices, 0))->cost_cents;
  *ret_cents = cents;
  return TRUE;
}

/* Without a price -------------------------------------------------------------------------------------------------- */

/* What stands in for one that failed under warranty costs nothing, nor does what is on the house. */
gboolean
hs_bill_lacks_price (HsStore *store, GPtrArray *lines, const HsLineRow *line, gboolean *ret_lacks, GError **error)
{
  g_autoptr (HsInstalledRow) part = NULL;

  *ret_lacks = FALSE;
  if (hs_bill_is_given (lines) || !is_kind (line, "part") || line->advice_line_id != NULL
      || line->installed_part_id == NULL || line->price_cents != 0 || line->cost_cents != 0)
    return TRUE;
  if (!hs_installed_row_load (store, line->installed_part_id, &part, error))
    return FALSE;
  *ret_lacks = part->stands_in_for_id == NULL;
  return TRUE;
}

gboolean
hs_bill_find_unpriced (HsStore *store, GPtrArray *lines, const HsLineRow **ret_line, GError **error)
{
  gboolean lacks = FALSE;

  *ret_line = NULL;
  for (guint i = 0; i < lines->len && !lacks; i++)
    {
      const HsLineRow *line = g_ptr_array_index (lines, i);

      if (!hs_bill_lacks_price (store, lines, line, &lacks, error))
        return FALSE;
      *ret_line = lacks ? line : NULL;
    }
  return TRUE;
}

/* Saying it -------------------------------------------------------------------------------------------------------- */

static gboolean
read_cost (HsBook *book, const char *what, const char *text, gint64 *ret_cents, GError **error)
{
  g_autoptr (GError) wrong = NULL;

  if (!hs_money_parse (text, hs_book_get_currency (book), ret_cents, &wrong))
    return hs_ops_refuse (error, "What “%s” cost: %s", what, wrong->message);
  return *ret_cents >= 0 || hs_ops_refuse (error, "What “%s” cost is not less than nothing.", what);
}

/* What was given for nothing before is given with its new price, too. */
static void
give_along (GPtrArray *lines, const HsLineRow *line, gint64 more_cents)
{
  gboolean behind = FALSE;

  for (guint i = 0; i < lines->len; i++)
    {
      HsLineRow *other = g_ptr_array_index (lines, i);

      behind |= other == line;
      if (behind && hs_bill_is_gift (other))
        {
          other->price_cents -= more_cents;
          return;
        }
    }
}

static gboolean
price_line (HsBook *book, GPtrArray *lines, HsLineRow *line, const char *what, const char *text, GError **error)
{
  gboolean said = !hs_text_is_blank (text);
  gint64 price_cents = 0;

  line->cost_cents = 0;
  if (said && !read_cost (book, what, text, &line->cost_cents, error))
    return FALSE;
  /* What the customer said yes to keeps its price. */
  if (line->advice_line_id != NULL)
    return TRUE;
  if (!hs_bill_banded (book, line->cost_cents, &price_cents, error))
    return FALSE;
  g_free (line->what);
  line->what = said && line->cost_cents == 0 ? g_strdup_printf ("%s: not charged", what) : g_strdup (what);
  hs_row_set (&line->kind, said && line->cost_cents == 0 ? "sundry" : "part");
  give_along (lines, line, price_cents - line->price_cents);
  line->price_cents = price_cents;
  return TRUE;
}

static HsLineRow *
find_line (GPtrArray *lines, const char *part_id)
{
  for (guint i = 0; i < lines->len; i++)
    {
      HsLineRow *line = g_ptr_array_index (lines, i);

      if (g_strcmp0 (line->installed_part_id, part_id) == 0)
        return line;
    }
  return NULL;
}

gboolean
hs_bill_set_cost (HsBook *book, const char *job_id, const char *part_id, const char *what, const char *text,
                  GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) lines = NULL;
  HsLineRow *line;

  if (!hs_line_row_list_of (store, job_id, &lines, error))
    return FALSE;
  line = find_line (lines, part_id);
  if (line == NULL)
    return hs_ops_refuse (error, "“%s” has no line on the bill; take the part out and put it in again.", what);
  if (!price_line (book, lines, line, what, text, error) || !hs_bill_tax_lines (book, lines, error))
    return FALSE;
  for (guint i = 0; i < lines->len; i++)
    if (!hs_line_row_save (store, g_ptr_array_index (lines, i), error))
      return FALSE;
  return TRUE;
}
