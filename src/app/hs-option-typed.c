// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is typed into an option and not stored: kept on the page of the choices, under its name and, once it has one,
 * the option's. */

#include "hs-option-window-private.h"

GtkEditable *
hs_option_typed_get (HsOptionWindow *self, guint i, const char **ret_name)
{
  GtkEditable *const fields[HS_OPTION_N_TYPED] = { self->wording, self->group,  self->risk,
                                                   self->what,    self->number, self->times };
  static const char *const names[HS_OPTION_N_TYPED] = { "wording", "group", "risk", "what", "number", "times" };

  *ret_name = names[i];
  return fields[i];
}

/* Also of what is no field of its own: the kind of line that was begun, and which one it is. */
static const char *
get_name (HsOptionWindow *self, guint i)
{
  const char *name = i == HS_OPTION_N_TYPED ? HS_OPTION_KIND : HS_OPTION_LINE;

  if (i < HS_OPTION_N_TYPED)
    hs_option_typed_get (self, i, &name);
  return name;
}

static char *
dup_field (HsOptionWindow *self, const char *name)
{
  return self->choice_id != NULL ? g_strdup_printf ("%s/%s", name, self->choice_id) : g_strdup (name);
}

/* Which kind of line was begun, and which line it is, goes with it. */
void
hs_option_typed_note_kind (HsOptionWindow *self)
{
  g_autofree char *field = dup_field (self, HS_OPTION_KIND);
  g_autofree char *line = dup_field (self, HS_OPTION_LINE);

  if (self->pane == NULL || !hs_option_window_is_line_begun (self))
    return;
  hs_option_line_name (self);
  hs_job_pane_note (self->pane, HS_OPTION_PAGE, line, self->line_id);
  hs_job_pane_note (self->pane, HS_OPTION_PAGE, field, hs_option_window_get_kind_id (self->kind));
}

/* Under its name and, once it has one, the option's. */
void
hs_option_typed_note (HsOptionWindow *self, GtkEditable *entry)
{
  const char *name;

  if (self->filling || self->pane == NULL)
    return;
  for (guint i = 0; i < HS_OPTION_N_TYPED; i++)
    if (hs_option_typed_get (self, i, &name) == entry)
      {
        g_autofree char *field = dup_field (self, name);

        hs_job_pane_note (self->pane, HS_OPTION_PAGE, field, gtk_editable_get_text (entry));
        if (i >= HS_OPTION_N_FIELDS)
          hs_option_typed_note_kind (self);
      }
}

/* (nullable): what is typed under @name and not stored. */
static const char *
get_typed (HsOptionWindow *self, const char *name)
{
  g_autofree char *field = dup_field (self, name);

  return self->pane != NULL ? hs_job_pane_get_typed (self->pane, field) : NULL;
}

static void
leave_field (HsOptionWindow *self, const char *name)
{
  g_autofree char *field = dup_field (self, name);

  if (get_typed (self, name) != NULL)
    hs_job_pane_leave (self->pane, HS_OPTION_PAGE, field);
}

/* A line that was begun stands there again when the option is changed once more. */
void
hs_option_typed_leave (HsOptionWindow *self)
{
  for (guint i = HS_OPTION_N_FIELDS; i < HS_OPTION_N_KEPT; i++)
    leave_field (self, get_name (self, i));
}

void
hs_option_typed_take_up_kind (HsOptionWindow *self)
{
  g_autofree char *field = dup_field (self, HS_OPTION_KIND);
  const char *id = self->pane != NULL ? hs_job_pane_get_typed (self->pane, field) : NULL;

  for (guint i = 0; id != NULL && hs_option_window_get_kind_id (i) != NULL; i++)
    if (g_str_equal (hs_option_window_get_kind_id (i), id))
      hs_option_window_set_kind (self, i);
}

void
hs_option_typed_take_up (HsOptionWindow *self)
{
  const char *name;

  for (guint i = HS_OPTION_N_FIELDS; i < HS_OPTION_N_TYPED; i++)
    {
      GtkEditable *entry = hs_option_typed_get (self, i, &name);
      g_autofree char *field = dup_field (self, name);
      const char *text = hs_job_pane_get_typed (self->pane, field);

      if (text != NULL)
        gtk_editable_set_text (entry, text);
    }
  g_free (self->taken);
  self->taken = g_strdup (gtk_editable_get_text (self->what));
  g_free (self->line_id);
  self->line_id = g_strdup (get_typed (self, HS_OPTION_LINE));
  hs_option_typed_take_up_kind (self);
}

static void
settle_field (HsOptionWindow *self, const char *name)
{
  g_autofree char *field = dup_field (self, name);

  if (get_typed (self, name) != NULL)
    hs_job_pane_note (self->pane, HS_OPTION_PAGE, field, "");
}

void
hs_option_typed_settle (HsOptionWindow *self)
{
  for (guint i = 0; i < HS_OPTION_N_FIELDS; i++)
    if (g_strcmp0 (get_typed (self, get_name (self, i)), self->saved[i]) == 0)
      settle_field (self, get_name (self, i));
}

void
hs_option_typed_take_id (HsOptionWindow *self, char *id)
{
  g_autoptr (GPtrArray) typed = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < HS_OPTION_N_KEPT; i++)
    g_ptr_array_add (typed, g_strdup (get_typed (self, get_name (self, i))));
  hs_option_typed_forget (self);
  g_free (self->choice_id);
  self->choice_id = id;
  for (guint i = 0; i < typed->len; i++)
    {
      const char *text = g_ptr_array_index (typed, i);
      g_autofree char *field = dup_field (self, get_name (self, i));

      if (text != NULL && (i >= HS_OPTION_N_FIELDS || g_strcmp0 (text, self->saved[i]) != 0))
        hs_job_pane_note (self->pane, HS_OPTION_PAGE, field, text);
    }
}

void
hs_option_typed_forget_line (HsOptionWindow *self)
{
  for (guint i = HS_OPTION_N_FIELDS; i < HS_OPTION_N_KEPT; i++)
    settle_field (self, get_name (self, i));
}

void
hs_option_typed_forget (HsOptionWindow *self)
{
  for (guint i = 0; i < HS_OPTION_N_KEPT; i++)
    settle_field (self, get_name (self, i));
}
