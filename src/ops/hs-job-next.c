// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * What to check next on a job, and what still stands. Of several models for a complaint group the check that chooses
 * between them decides; until it is done it is the first thing to do, and what may be behind the complaint is put
 * together from all of them.
 */

#include "hs-job-next.h"

#include "hs-next-private.h"
#include "hs-ops-private.h"

#include <string.h>

/* One cause of a case, to be put beside the same cause of another model. */
typedef struct
{
  const HsNextCase *from;
  guint cause;
  double weight;
  double most;
} Merged;

typedef struct
{
  HsNextScene scene;
  const HsCauseCatalog *catalog;
  GPtrArray *guides; /* of the group; none is owned */
  GPtrArray *cases;
  char *proof; /* what still proves the repair; NULL while there is something to look for */
  HsJobNext *next;
} Make;

static void
make_clear (Make *make)
{
  hs_next_scene_clear (&make->scene);
  g_clear_pointer (&make->guides, g_ptr_array_unref);
  g_clear_pointer (&make->cases, g_ptr_array_unref);
  g_clear_pointer (&make->next, hs_job_next_free);
  g_free (make->proof);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Make, make_clear)

static void
cause_free (gpointer data)
{
  HsNextCause *cause = data;

  g_free (cause->id);
  g_free (cause->name);
  g_free (cause->source);
  g_free (cause->own);
  g_free (cause->repair);
  g_free (cause->reading_id);
  g_free (cause->against_id);
  g_strfreev (cause->speaks_for);
  g_strfreev (cause->speaks_against);
  g_free (cause);
}

static void
line_free (gpointer data)
{
  HsNextLine *line = data;

  g_free (line->id);
  g_free (line->name);
  g_free (line->source);
  g_free (line->how);
  g_free (line->caution);
  g_strfreev (line->tells);
  g_free (line);
}

void
hs_job_next_free (HsJobNext *next)
{
  if (next == NULL)
    return;
  g_free (next->group);
  g_free (next->name);
  g_free (next->note);
  g_free (next->nothing);
  g_free (next->trouble);
  g_free (next->battery);
  g_strfreev (next->groups);
  g_strfreev (next->models);
  g_strfreev (next->read);
  g_ptr_array_unref (next->causes);
  g_ptr_array_unref (next->lines);
  g_clear_pointer (&next->offers, g_ptr_array_unref);
  g_free (next);
}

const char *
hs_job_next_check (const HsJobNext *next)
{
  const HsNextLine *first = next->lines->len > 0 ? g_ptr_array_index (next->lines, 0) : NULL;

  return first != NULL && first->is_check ? first->id : NULL;
}

/* --- Which models ---------------------------------------------------------------------------------------------- */

static gboolean
has_model (const Make *make, const char *group)
{
  for (guint i = 0; i < make->catalog->guides->len; i++)
    if (g_strcmp0 (hs_cause_guide_get_group (g_ptr_array_index (make->catalog->guides, i)), group) == 0)
      return TRUE;
  return FALSE;
}

/* The group that a complaint names, in its own words or by its id. */
static const char *
group_of_words (const Make *make, const char *words)
{
  g_autofree char *folded = g_utf8_casefold (words, -1);
  const HsCheckGroup *group;

  for (guint i = 0; (group = hs_checks_get_nth_group (make->scene.checks, i)) != NULL; i++)
    {
      g_autofree char *name = g_utf8_casefold (group->name, -1);

      if (g_str_equal (folded, name) || g_str_equal (words, group->id))
        return group->id;
    }
  return NULL;
}

static void
add_group (const Make *make, GPtrArray *groups, const char *group)
{
  if (group != NULL && has_model (make, group) && !g_ptr_array_find_with_equal_func (groups, group, g_str_equal, NULL))
    g_ptr_array_add (groups, (gpointer) group);
}

/* A group shows by itself where the check that chooses between its models gave one of them. */
static gboolean
shows (Make *make, const HsCauseGuide *guide)
{
  const char *when = hs_cause_guide_get_when (guide);

  return when != NULL && hs_cause_guide_is_for (guide, hs_next_answer (&make->scene, when));
}

static void
find_groups (Make *make)
{
  g_autoptr (GPtrArray) groups = g_ptr_array_new ();

  add_group (make, groups, make->scene.job->complaint_group);
  for (guint i = 0; i < make->scene.findings->len; i++)
    {
      const HsFindingRow *row = g_ptr_array_index (make->scene.findings, i);

      if (g_str_equal (row->role, "complaint"))
        add_group (make, groups, group_of_words (make, row->what));
    }
  for (guint i = 0; i < make->catalog->guides->len; i++)
    if (shows (make, g_ptr_array_index (make->catalog->guides, i)))
      add_group (make, groups, hs_cause_guide_get_group (g_ptr_array_index (make->catalog->guides, i)));
  g_ptr_array_add (groups, NULL);
  make->next->groups = g_strdupv ((char **) groups->pdata);
}

/* Those of the group that fit what the check that chooses gave, or what somebody said of it; else all of them. */
static void
find_guides (Make *make)
{
  g_autoptr (GPtrArray) said = g_ptr_array_new ();
  gboolean is_read = FALSE;

  make->guides = g_ptr_array_new ();
  for (guint i = 0; i < make->catalog->guides->len; i++)
    {
      HsCauseGuide *guide = g_ptr_array_index (make->catalog->guides, i);
      const char *when = hs_cause_guide_get_when (guide);
      guint answer = when != NULL ? hs_next_answer (&make->scene, when) : 0;

      if (g_strcmp0 (hs_cause_guide_get_group (guide), make->next->group) != 0)
        continue;
      is_read = is_read || answer != 0;
      if (answer == 0 || hs_cause_guide_is_for (guide, answer))
        g_ptr_array_add (make->guides, guide);
      if (hs_next_is_said_for (&make->scene, guide))
        g_ptr_array_add (said, guide);
    }
  if (is_read || said->len == 0)
    return;
  g_ptr_array_unref (make->guides);
  make->guides = g_steal_pointer (&said);
}

static void
name_models (Make *make)
{
  const HsCheckGroup *group = hs_checks_lookup_group (make->scene.checks, make->next->group);
  g_autoptr (GStrvBuilder) ids = g_strv_builder_new ();

  for (guint i = 0; i < make->guides->len; i++)
    g_strv_builder_add (ids, hs_cause_guide_get_id (g_ptr_array_index (make->guides, i)));
  make->next->models = g_strv_builder_end (ids);
  if (make->guides->len == 1)
    {
      make->next->name = g_strdup (hs_cause_guide_get_name (g_ptr_array_index (make->guides, 0)));
      make->next->note = g_strdup (hs_cause_guide_get_note (g_ptr_array_index (make->guides, 0)));
    }
  else
    make->next->name = g_strdup (group->name);
}

static void
name_read (Make *make)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GStrvBuilder) read = g_strv_builder_new ();

  for (guint i = 0; i < make->scene.readings->len; i++)
    {
      const HsReadingRow *row = g_ptr_array_index (make->scene.readings, i);

      if (!g_str_equal (row->phase, "after") && g_hash_table_add (ids, row->check_id))
        g_strv_builder_add (read, row->check_id);
    }
  make->next->read = g_strv_builder_end (read);
}

static gboolean
make_cases (Make *make, GError **error)
{
  make->cases = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_next_case_free);
  for (guint i = 0; i < make->guides->len; i++)
    {
      HsNextCase *one = hs_next_case_new (&make->scene, g_ptr_array_index (make->guides, i),
                                          HS_NEXT_STATES / make->guides->len, error);

      if (one == NULL)
        return FALSE;
      g_ptr_array_add (make->cases, one);
    }
  hs_next_cases_weigh (make->cases);
  return TRUE;
}

/* --- What still stands ----------------------------------------------------------------------------------------- */

static Merged *
find_merged (GArray *merged, const char *id)
{
  for (guint i = 0; i < merged->len; i++)
    {
      Merged *one = &g_array_index (merged, Merged, i);

      if (g_str_equal (hs_cause_model_get_cause (one->from->model, one->cause)->id, id))
        return one;
    }
  return NULL;
}

/* The same cause in two models is one; it speaks in the words of the model that gives it the most. */
static void
merge (GArray *merged, const HsNextCase *from, guint cause)
{
  double weight = from->fits ? from->chance * from->beliefs[cause] : 0;
  Merged *one = find_merged (merged, hs_cause_model_get_cause (from->model, cause)->id);
  Merged added = { from, cause, weight, weight };

  if (one == NULL)
    {
      g_array_append_val (merged, added);
      return;
    }
  one->weight += weight;
  if (weight <= one->most)
    return;
  one->from = from;
  one->cause = cause;
  one->most = weight;
}

/* Whether a repair cured it, by what was read after it. */
static gboolean
is_gone (const Make *make)
{
  for (guint i = 0; i < make->cases->len; i++)
    if (((const HsNextCase *) g_ptr_array_index (make->cases, i))->gone != 0)
      return TRUE;
  return FALSE;
}

/* Nothing is looked for: it was repaired. */
static gboolean
is_over (const Make *make)
{
  return make->proof != NULL || is_gone (make);
}

static HsNextCause *
cause_new (const Make *make, const Merged *merged)
{
  const HsNextCase *from = merged->from;
  const HsGuideCause *words = hs_cause_guide_get_cause (from->guide, merged->cause);
  const HsCause *numbers = hs_cause_model_get_cause (from->model, merged->cause);
  HsNextCause *cause = g_new0 (HsNextCause, 1);

  cause->id = g_strdup (numbers->id);
  cause->name = g_strdup (words->name);
  cause->source = g_strdup (words->source);
  if (from->n_own > 0)
    cause->own = g_strdup_printf (make->scene.in->gettext ("own jobs: %u of %u"),
                                  from->own[merged->cause], from->n_own);
  cause->repair = g_strdup (words->repair);
  cause->repair_minutes = numbers->repair_minutes;
  cause->repair_cents = words->repair_cents;
  cause->weight = merged->weight;
  cause->standing = from->settled[merged->cause] != 0 ? (HsNextStanding) (from->settled[merged->cause] - 1)
                    : is_over (make)                  ? HS_NEXT_UNLIKELY
                                                      : hs_next_standing_of (merged->weight);
  hs_next_evidence (from, &make->scene, merged->cause, cause);
  return cause;
}

static int
rank_of (const HsNextCause *cause)
{
  static const int rank[] = { [HS_NEXT_PROVEN] = 0,   [HS_NEXT_MOST_LIKELY] = 1, [HS_NEXT_POSSIBLE] = 1,
                              [HS_NEXT_UNLIKELY] = 1, [HS_NEXT_RULED_OUT] = 3,   [HS_NEXT_REPAIRED] = 2 };

  return cause->standing == HS_NEXT_REPAIRED && cause->weight > 0 ? 0 : rank[cause->standing];
}

/* What is proven, or cured it, on top, what else is settled below; between them by weight. */
static int
compare_causes (gconstpointer a, gconstpointer b)
{
  const HsNextCause *left = *(HsNextCause *const *) a;
  const HsNextCause *right = *(HsNextCause *const *) b;

  if (rank_of (left) != rank_of (right))
    return rank_of (left) - rank_of (right);
  return left->weight > right->weight ? -1 : left->weight < right->weight;
}

static void
put_causes (Make *make)
{
  g_autoptr (GArray) merged = g_array_new (FALSE, FALSE, sizeof (Merged));

  for (guint i = 0; i < make->cases->len; i++)
    {
      const HsNextCase *from = g_ptr_array_index (make->cases, i);

      for (guint c = 0; c < hs_cause_model_get_n_causes (from->model); c++)
        merge (merged, from, c);
    }
  for (guint i = 0; i < merged->len; i++)
    g_ptr_array_add (make->next->causes, cause_new (make, &g_array_index (merged, Merged, i)));
  g_ptr_array_sort (make->next->causes, compare_causes);
}

/* --- What to do next ------------------------------------------------------------------------------------------- */

static HsNextLine *
check_line (const Make *make, const char *id, double expected, double minutes)
{
  const HsCheck *known = hs_checks_lookup (make->scene.checks, id);
  HsNextLine *line = g_new0 (HsNextLine, 1);

  line->is_check = TRUE;
  line->id = g_strdup (id);
  line->name = g_strdup (known != NULL ? known->name : id);
  line->how = g_strdup (known != NULL ? known->how : NULL);
  line->caution = g_strdup (known != NULL ? known->caution : NULL);
  line->expected_minutes = expected;
  line->minutes = minutes;
  return line;
}

static HsNextLine *
case_check_line (const Make *make, const HsNextCase *from, guint check, double expected)
{
  HsNextLine *line = check_line (make, hs_cause_model_get_check_id (from->model, check), expected,
                                 hs_cause_model_get_check_minutes (from->model, check));

  line->tells = hs_next_dup_tells (from, check, make->scene.in);
  line->source = hs_next_dup_source (from->guide, from->of[check]);
  line->again = from->marks[from->of[check]].again;
  return line;
}

static HsNextLine *
repair_line (const Make *make, const HsNextCase *from, const HsNextStep *step)
{
  const HsCause *cause = hs_cause_model_get_cause (from->model, step->index);
  const HsGuideCause *words = hs_cause_guide_get_cause (from->guide, step->index);
  HsNextLine *line = g_new0 (HsNextLine, 1);

  line->id = g_strdup (cause->id);
  line->name = g_strdup (words->repair);
  line->source = g_strdup (words->source);
  line->expected_minutes = step->minutes;
  line->minutes = cause->repair_minutes;
  line->tells = g_new0 (char *, 2);
  line->tells[0] = g_strdup (make->scene.in->gettext (words->name));
  return line;
}

static void
put_one (Make *make, const HsNextCase *from)
{
  for (guint i = 0; i < from->next.n_steps; i++)
    {
      const HsNextStep *step = &from->next.steps[i];

      g_ptr_array_add (make->next->lines, step->is_check ? case_check_line (make, from, step->index, step->minutes)
                                                         : repair_line (make, from, step));
    }
  make->next->exact = from->next.exact;
  make->next->repairs_minutes = from->next.repairs_minutes;
  make->next->list_minutes = hs_next_case_list_minutes (from);
}

/* What is done in a step of that model: the id of its check, or of the cause that it repairs. */
static const char *
step_id (const HsNextCase *from, const HsNextStep *step)
{
  return step->is_check ? hs_cause_model_get_check_id (from->model, step->index)
                        : hs_cause_model_get_cause (from->model, step->index)->id;
}

/* What doing @id costs as the first step in that model: its own @minutes are paid in vain where the model has no such
 * step. */
static double
first_minutes (const HsNextCase *from, gboolean is_check, const char *id, double minutes)
{
  for (guint i = 0; i < from->next.n_steps; i++)
    if (from->next.steps[i].is_check == is_check && g_str_equal (step_id (from, &from->next.steps[i]), id))
      return from->next.steps[i].minutes;
  return minutes + from->next.steps[0].minutes;
}

/* The same over all models that may be the one. */
static double
minutes_over_all (const Make *make, gboolean is_check, const char *id, double minutes)
{
  double sum = 0;

  for (guint i = 0; i < make->cases->len; i++)
    {
      const HsNextCase *one = g_ptr_array_index (make->cases, i);

      if (one->fits)
        sum += one->chance * first_minutes (one, is_check, id, minutes);
    }
  return sum;
}

/* Each check of any model before the one that chooses: both are paid for, and what the first one says stays. */
static void
put_before_choosing (Make *make, double choosing)
{
  g_autoptr (GHashTable) done = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < make->cases->len; i++)
    {
      const HsNextCase *from = g_ptr_array_index (make->cases, i);

      for (guint k = 0; from->fits && k < hs_cause_model_get_n_checks (from->model); k++)
        {
          const char *id = hs_cause_model_get_check_id (from->model, k);
          double takes = hs_cause_model_get_check_minutes (from->model, k);

          if (hs_next_case_check (from, id) < 0 || !g_hash_table_add (done, (gpointer) id))
            continue;
          g_ptr_array_add (make->next->lines, case_check_line (make, from, k,
                                                               choosing + minutes_over_all (make, TRUE, id, takes)));
        }
    }
}

static int
compare_lines (gconstpointer a, gconstpointer b)
{
  const HsNextLine *left = *(HsNextLine *const *) a;
  const HsNextLine *right = *(HsNextLine *const *) b;

  return left->expected_minutes < right->expected_minutes ? -1 : left->expected_minutes > right->expected_minutes;
}

/* The model that goes best with the job; @ret_choosing: (nullable): one with a check that chooses and is not done. */
static const HsNextCase *
best_case (Make *make, const HsNextCase **ret_choosing)
{
  const HsNextCase *best = g_ptr_array_index (make->cases, 0);

  *ret_choosing = NULL;
  for (guint i = 0; i < make->cases->len; i++)
    {
      const HsNextCase *one = g_ptr_array_index (make->cases, i);
      const char *when = hs_cause_guide_get_when (one->guide);

      if (one->chance > best->chance)
        best = one;
      if (make->cases->len > 1 && when != NULL && hs_next_answer (&make->scene, when) == 0
          && !hs_next_is_barred (&make->scene, when))
        *ret_choosing = one;
    }
  return best;
}

/* The check that chooses, with the model that each of its answers leads to. */
static void
put_choosing (Make *make, const HsNextCase *first)
{
  double choosing = hs_cause_guide_get_when_minutes (first->guide);
  HsNextLine *line = check_line (make, hs_cause_guide_get_when (first->guide), choosing, choosing);
  g_autoptr (GStrvBuilder) tells = g_strv_builder_new ();
  double list = choosing;

  make->next->exact = TRUE;
  make->next->repairs_minutes = choosing;
  for (guint i = 0; i < make->cases->len; i++)
    {
      const HsNextCase *one = g_ptr_array_index (make->cases, i);
      double listed = one->fits ? hs_next_case_list_minutes (one) : 0;

      if (!one->fits)
        continue;
      line->expected_minutes += one->chance * one->next.steps[0].minutes;
      make->next->repairs_minutes += one->chance * one->next.repairs_minutes;
      make->next->exact = make->next->exact && one->next.exact;
      list = list < 0 || listed < 0 ? -1 : list + one->chance * listed;
      g_strv_builder_add (tells, make->scene.in->gettext (hs_cause_guide_get_name (one->guide)));
    }
  make->next->list_minutes = list;
  line->tells = g_strv_builder_end (tells);
  line->source = g_strdup (hs_cause_guide_get_note (first->guide));
  put_before_choosing (make, choosing);
  g_ptr_array_sort (make->next->lines, compare_lines);
  g_ptr_array_insert (make->next->lines, 0, line);
}

/* Each repair of any model, in the words of the first that has it. */
static void
put_repairs_over_all (Make *make)
{
  g_autoptr (GHashTable) done = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < make->cases->len; i++)
    {
      const HsNextCase *from = g_ptr_array_index (make->cases, i);

      for (guint s = 0; from->fits && s < from->next.n_steps; s++)
        {
          HsNextStep step = from->next.steps[s];
          const HsCause *cause = step.is_check ? NULL : hs_cause_model_get_cause (from->model, step.index);

          if (cause == NULL || !g_hash_table_add (done, (gpointer) cause->id))
            continue;
          step.minutes = minutes_over_all (make, FALSE, cause->id, cause->repair_minutes);
          g_ptr_array_add (make->next->lines, repair_line (make, from, &step));
        }
    }
}

/* Nobody could say which model it is: what can be done is weighed over all of them, as if that were known after it. */
static void
put_unchosen (Make *make)
{
  make->next->repairs_minutes = 0;
  make->next->list_minutes = 0;
  for (guint i = 0; i < make->cases->len; i++)
    {
      const HsNextCase *one = g_ptr_array_index (make->cases, i);
      double listed = one->fits ? hs_next_case_list_minutes (one) : 0;

      if (!one->fits)
        continue;
      make->next->repairs_minutes += one->chance * one->next.repairs_minutes;
      make->next->list_minutes = make->next->list_minutes < 0 || listed < 0
                                   ? -1
                                   : make->next->list_minutes + one->chance * listed;
    }
  put_before_choosing (make, 0);
  put_repairs_over_all (make);
  g_ptr_array_sort (make->next->lines, compare_lines);
}

/* --- All of it ------------------------------------------------------------------------------------------------- */

static const char *
nothing_to_say (const Make *make)
{
  const HsTongue *in = make->scene.in;
  gboolean fits = FALSE;

  if (make->proof != NULL)
    return make->proof;
  if (make->next->group == NULL)
    return in->gettext ("Choose what it does or does not do; that says what may be behind it.");
  if (!has_model (make, make->next->group))
    return in->gettext ("There is no cause model for this complaint; the list is as good as any order.");
  if (make->guides->len == 0)
    return in->gettext ("No cause model is for what the key does here; check freely.");
  if (is_gone (make))
    return in->gettext ("After the repair it reads good. If the complaint is still there, write it down as “Complaint "
                        "tried again”: what is left is weighed then.");
  for (guint i = 0; i < make->cases->len; i++)
    fits = fits || ((const HsNextCase *) g_ptr_array_index (make->cases, i))->fits;
  if (fits)
    return NULL;
  return in->gettext ("No cause of the model explains all that was found: a reading may be off, or it is something "
                      "else.");
}

static gboolean
choose_group (Make *make, const char *group, GError **error)
{
  if (group == NULL)
    {
      make->next->group = g_strdup (make->next->groups[0] != NULL ? make->next->groups[0]
                                                                  : make->scene.job->complaint_group);
      return TRUE;
    }
  if (!hs_ops_check_group (make->scene.book, group, error))
    return FALSE;
  make->next->group = g_strdup (group);
  return TRUE;
}

static void
put_all (Make *make)
{
  const HsNextCase *choosing;
  const HsNextCase *best;

  make->next->nothing = g_strdup (nothing_to_say (make));
  put_causes (make);
  /* What was said of the vehicle as it came is no advice any more. */
  if (is_over (make))
    g_clear_pointer (&make->next->battery, g_free);
  if (make->next->nothing != NULL)
    return;
  best = best_case (make, &choosing);
  if (choosing != NULL)
    put_choosing (make, choosing);
  else if (make->cases->len > 1 && best->chance < 1)
    put_unchosen (make);
  else
    put_one (make, best);
}

HsJobNext *
hs_job_next_load (HsBook *book, const char *job_id, const char *group, HsInstant now, GError **error)
{
  g_auto (Make) make = { .catalog = hs_book_get_causes (book, error) };

  if (make.catalog == NULL || !hs_next_scene_load (book, job_id, &make.scene, error))
    return NULL;
  make.next = g_new0 (HsJobNext, 1);
  make.next->causes = g_ptr_array_new_with_free_func (cause_free);
  make.next->lines = g_ptr_array_new_with_free_func (line_free);
  make.next->offers = hs_next_offers (&make.scene);
  make.next->list_minutes = -1;
  make.next->trouble = g_strdup (make.catalog->trouble);
  name_read (&make);
  find_groups (&make);
  if (!choose_group (&make, group, error))
    return NULL;
  find_guides (&make);
  if (make.next->group != NULL && hs_checks_lookup_group (make.scene.checks, make.next->group) != NULL)
    name_models (&make);
  else
    make.next->models = g_new0 (char *, 1);
  if (!make_cases (&make, error) || !hs_next_proof (&make.scene, make.cases, now, &make.proof, error)
      || !hs_next_battery (&make.scene, make.catalog->guides, hs_ops_today (book, now), &make.next->battery, error))
    return NULL;
  put_all (&make);
  return g_steal_pointer (&make.next);
}

/* --- On the sheet ---------------------------------------------------------------------------------------------- */

static void
add_line (HsBook *book, const char *check_id, GPtrArray *sheet)
{
  const HsCheck *check = hs_checks_lookup (hs_book_get_checks (book), check_id);

  for (guint i = 0; i < sheet->len; i++)
    if (g_str_equal (((const HsReadingResult *) g_ptr_array_index (sheet, i))->check, check_id))
      return;
  if (check != NULL)
    g_ptr_array_add (sheet, hs_reading_result_of_check (check, "before"));
}

void
hs_job_next_add_lines (HsBook *book, const HsJobNext *next, GPtrArray *sheet)
{
  for (guint i = 0; i < next->lines->len; i++)
    {
      const HsNextLine *line = g_ptr_array_index (next->lines, i);

      if (line->is_check)
        add_line (book, line->id, sheet);
    }
  for (guint i = 0; i < next->offers->len; i++)
    add_line (book, ((const HsNextOffer *) g_ptr_array_index (next->offers, i))->check, sheet);
}
