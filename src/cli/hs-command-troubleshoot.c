// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* `troubleshoot`: which check or repair comes first in a cause model from a file, without a book. */

#include "hs-cli.h"

#include "hs-cause-file.h"
#include "hs-next-check.h"

#include <glib/gi18n.h>

/* A policy of more steps is not written out. */
#define MAX_STEPS 20000
/* A list that branches further is not added up. */
#define MAX_LIST_STATES 1000000

static char *
step_text (const HsCauseModel *model, const HsNextStep *step)
{
  return g_strdup_printf (step->is_check ? "check %s" : "repair %s",
                          step->is_check ? hs_cause_model_get_check_id (model, step->index)
                                         : hs_cause_model_get_cause (model, step->index)->id);
}

static void
write_step (HsJsonOut *out, const HsCauseModel *model, const HsNextStep *step, const char *minutes_name)
{
  g_autofree char *text = step_text (model, step);

  hs_json_out_string (out, "do", text);
  hs_json_out_real (out, minutes_name, step->minutes);
}

/* write_policy: the members of one step, and below it what follows each outcome. */
static void
write_policy (HsJsonOut *out, const HsCauseModel *model, const HsPolicy *policy)
{
  write_step (out, model, &policy->step, "expected");
  if (!policy->step.is_check && policy->n_next > 0)
    {
      hs_json_out_begin_object (out, "if_not_fixed");
      write_policy (out, model, policy->next[0]);
      hs_json_out_end_object (out);
    }
  if (!policy->step.is_check)
    return;
  hs_json_out_begin_object (out, "then");
  for (guint i = 0; i < policy->n_next; i++)
    if (policy->next[i] != NULL)
      {
        hs_json_out_begin_object (out, hs_cause_model_get_result (model, policy->step.index, i));
        hs_json_out_real (out, "p", policy->chances[i]);
        write_policy (out, model, policy->next[i]);
        hs_json_out_end_object (out);
      }
  hs_json_out_end_object (out);
}

/* list_minutes: of all checks in the order of the file, below 0 if that is too much to add up. */
static double
list_minutes (const HsCauseModel *model)
{
  guint checks[HS_CAUSE_MODEL_MAX_CHECKS];
  HsSeen seen = { 0 };

  for (guint i = 0; i < hs_cause_model_get_n_checks (model); i++)
    checks[i] = i;
  return hs_next_list_minutes (model, &seen, checks, hs_cause_model_get_n_checks (model), MAX_LIST_STATES);
}

/* least_minutes: of steps that count as equal the first is not always the least. */
static double
least_minutes (const HsNext *next)
{
  double least = next->steps[0].minutes;

  for (guint i = 1; i < next->n_steps; i++)
    least = MIN (least, next->steps[i].minutes);
  return least;
}

static void
print_json (const HsCauseModel *model, const HsNext *next, const HsPolicy *policy)
{
  g_autoptr (HsJsonOut) out = hs_json_out_new ();
  g_autofree char *first = step_text (model, &next->steps[0]);
  double list = list_minutes (model);

  hs_json_out_begin_object (out, NULL);
  hs_json_out_boolean (out, "exact", next->exact);
  if (next->exact)
    hs_json_out_real (out, "optimal_minutes", least_minutes (next));
  else
    hs_json_out_null (out, "optimal_minutes");
  hs_json_out_string (out, "first", first);
  hs_json_out_begin_array (out, "actions");
  for (guint i = 0; i < next->n_steps; i++)
    {
      hs_json_out_begin_object (out, NULL);
      write_step (out, model, &next->steps[i], "minutes");
      hs_json_out_end_object (out);
    }
  hs_json_out_end_array (out);
  hs_json_out_real (out, "repairs_only_minutes", next->repairs_minutes);
  hs_json_out_begin_array (out, "repairs_only_order");
  for (guint i = 0; i < next->n_left; i++)
    hs_json_out_string (out, NULL, hs_cause_model_get_cause (model, next->repairs_order[i])->id);
  hs_json_out_end_array (out);
  if (list >= 0)
    hs_json_out_real (out, "list_minutes", list);
  else
    hs_json_out_null (out, "list_minutes");
  if (policy == NULL)
    hs_json_out_null (out, "policy");
  else
    {
      hs_json_out_begin_object (out, "policy");
      write_policy (out, model, policy);
      hs_json_out_end_object (out);
    }
  hs_json_out_end_object (out);
  hs_cli_print_json (out);
}

static void
print_text (const HsCauseModel *model, const HsNext *next)
{
  double list = list_minutes (model);

  hs_cli_print (next->exact ? _("Expected minutes until the fault is gone, by what is done first:\n")
                            : _("Too large to search to the end; by a rule that looks one check ahead, in minutes:\n"));
  for (guint i = 0; i < next->n_steps; i++)
    {
      g_autofree char *text = step_text (model, &next->steps[i]);
      g_autofree char *line = hs_cli_one_line (text);

      hs_cli_print ("%10.1f  %s\n", next->steps[i].minutes, line);
    }
  hs_cli_print (_("%10.1f  repairs alone, in their best order\n"), next->repairs_minutes);
  if (list >= 0)
    hs_cli_print (_("%10.1f  all checks as they are listed, then repairs\n"), list);
}

gboolean
hs_command_troubleshoot (HsCli *cli, char **words, GError **error)
{
  g_autoptr (HsCauseModel) model = NULL;
  g_autoptr (HsPolicy) policy = NULL;
  g_auto (GStrv) rest = NULL;
  g_autofree char *text = NULL;
  HsSeen seen = { 0 };
  HsNext next;
  gsize length;

  if (!hs_cli_parse (words, NULL, 1, 1, &rest, error) || !g_file_get_contents (rest[0], &text, &length, error))
    return FALSE;
  model = hs_cause_file_parse (text, length, error);
  if (model == NULL)
    return hs_cli_name_file (error, rest[0]);
  if (!hs_next_check (model, &seen, HS_NEXT_TO_THE_END, &next, error))
    return FALSE;
  if (!cli->json)
    {
      print_text (model, &next);
      return TRUE;
    }
  policy = hs_next_policy (model, &seen, next.exact ? HS_NEXT_TO_THE_END : 0, MAX_STEPS);
  print_json (model, &next, policy);
  return TRUE;
}
