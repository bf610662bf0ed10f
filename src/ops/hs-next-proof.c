// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Once a repair is written down nothing is looked for until what was read after it says that it was not that: what is
 * still to be done then is to prove it, and that is the list of "Before and after". */

#include "hs-next-private.h"

#include "hs-repair-op.h"

/* Whether that cause was repaired and nothing says yet that it was not that. */
static gboolean
waits (const HsNextCase *one, guint cause)
{
  return one->settled[cause] == HS_NEXT_REPAIRED + 1 && ((one->cured | one->failed) & 1u << cause) == 0;
}

/* A cause that is proven and not repaired is still to be repaired. */
static gboolean
is_to_repair (const HsNextCase *one, guint cause)
{
  return one->settled[cause] == HS_NEXT_PROVEN + 1 && (one->cured & 1u << cause) == 0;
}

/* (transfer full): what was repaired and waits for its proof; "" if nothing does, or something is to be repaired. */
static char *
dup_repaired (const HsNextScene *scene, GPtrArray *cases)
{
  g_autoptr (GHashTable) done = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < cases->len; i++)
    {
      const HsNextCase *one = g_ptr_array_index (cases, i);

      for (guint c = 0; c < hs_cause_model_get_n_causes (one->model); c++)
        {
          if (is_to_repair (one, c))
            return g_strdup ("");
          if (waits (one, c) && g_hash_table_add (done, (gpointer) hs_cause_model_get_cause (one->model, c)->id))
            g_string_append_printf (names, "%s%s", names->len > 0 ? "; " : "",
                                    scene->in->gettext (hs_cause_guide_get_cause (one->guide, c)->name));
        }
    }
  return g_string_free (g_steal_pointer (&names), FALSE);
}

static gboolean
proves (HsProveKind kind)
{
  return kind == HS_PROVE_TAKE_ONE || kind == HS_PROVE_READ_AGAIN || kind == HS_PROVE_STILL_OUTSIDE
         || kind == HS_PROVE_TRY || kind == HS_PROVE_COMPLAINT_STAYS;
}

static char *
say_proof (const HsNextScene *scene, const char *repaired, const HsRepair *repair)
{
  g_autoptr (GString) left = g_string_new (NULL);

  for (guint i = 0; i < repair->missing->len; i++)
    {
      const HsProveItem *item = g_ptr_array_index (repair->missing, i);
      g_autofree char *said = proves (item->kind) ? hs_prove_say (item, scene->in) : NULL;

      if (said != NULL)
        g_string_append_printf (left, " %s", said);
    }
  if (left->len == 0)
    return g_strdup_printf (scene->in->gettext ("Repaired: %s. What was asked for after it is read."), repaired);
  return g_strdup_printf (scene->in->gettext ("Repaired: %s. What proves it:%s"), repaired, left->str);
}

gboolean
hs_next_proof (HsNextScene *scene, GPtrArray *cases, HsInstant now, char **ret_words, GError **error)
{
  g_autofree char *repaired = NULL;
  g_autoptr (HsRepair) repair = NULL;

  *ret_words = NULL;
  if (g_str_equal (scene->job->stage, hs_stage_id (HS_STAGE_PROVEN)))
    {
      *ret_words = g_strdup (scene->in->gettext ("Tested good: nothing is left to look for."));
      return TRUE;
    }
  repaired = dup_repaired (scene, cases);
  if (*repaired == '\0')
    return TRUE;
  repair = hs_repair_load (scene->book, scene->job->id, NULL, now, error);
  if (repair == NULL)
    return FALSE;
  *ret_words = say_proof (scene, repaired, repair);
  return TRUE;
}
