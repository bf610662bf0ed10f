// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What is typed into an option and not stored: kept on the page of the choices, under its name and, once it has one,
 * the option's. */

#include "hs-option-window-private.h"

#include "hs-job-pane.h"

GtkEditable *
hs_option_typed_get (HsOptionWindow *self, guint i, const char **ret_name)
{
  GtkEditable *const fields[HS_OPTION_N_TYPED] = { self->wording, self->group,  self->risk,
                                                   self->what,    self->number, self->times };
  static const char *const names[HS_OPTION_N_TYPED] = { "wording", "group", "risk", "what", "number", "times" };

  *ret_name = names[i];
  return fields[i];
}

static char *
dup_field (HsOptionWindow *self, const char *name)
{
  return self->choice_id != NULL ? g_strdup_printf ("%s/%s", name, self->choice_id) : g_strdup (name);
}

/* Which kind of line was begun goes with it. */
void
hs_option_typed_note_kind (HsOptionWindow *self)
{
  g_autofree char *field = dup_field (self, HS_OPTION_KIND);

  if (self->page != NULL && hs_option_window_is_line_begun (self))
    hs_job_pane_note (HS_JOB_PANE (self->page), HS_OPTION_PAGE, field, hs_option_window_get_kind_id (self->kind));
}

/* Under its name and, once it has one, the option's. */
void
hs_option_typed_note (HsOptionWindow *self, GtkEditable *entry)
{
  const char *name;

  if (self->filling || self->page == NULL)
    return;
  for (guint i = 0; i < HS_OPTION_N_TYPED; i++)
    if (hs_option_typed_get (self, i, &name) == entry)
      {
        g_autofree char *field = dup_field (self, name);

        hs_job_pane_note (HS_JOB_PANE (self->page), HS_OPTION_PAGE, field, gtk_editable_get_text (entry));
        if (i >= HS_OPTION_N_FIELDS)
          hs_option_typed_note_kind (self);
      }
}

/* A line that was begun stands there again when the option is changed once more. */
void
hs_option_typed_leave (HsOptionWindow *self)
{
  g_autofree char *kind = dup_field (self, HS_OPTION_KIND);
  const char *name;

  for (guint i = HS_OPTION_N_FIELDS; i < HS_OPTION_N_TYPED; i++)
    {
      g_autofree char *field = (hs_option_typed_get (self, i, &name), dup_field (self, name));

      hs_job_pane_leave (HS_JOB_PANE (self->page), HS_OPTION_PAGE, field);
    }
  hs_job_pane_leave (HS_JOB_PANE (self->page), HS_OPTION_PAGE, kind);
}

void
hs_option_typed_take_up_kind (HsOptionWindow *self)
{
  g_autofree char *field = dup_field (self, HS_OPTION_KIND);
  const char *id = self->page != NULL ? hs_job_pane_get_typed (HS_JOB_PANE (self->page), field) : NULL;

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
      const char *text = hs_job_pane_get_typed (HS_JOB_PANE (self->page), field);

      if (text != NULL)
        gtk_editable_set_text (entry, text);
    }
  hs_option_typed_take_up_kind (self);
}

static void
settle_field (HsOptionWindow *self, const char *name)
{
  g_autofree char *field = dup_field (self, name);

  if (self->page != NULL && hs_job_pane_get_typed (HS_JOB_PANE (self->page), field) != NULL)
    hs_job_pane_note (HS_JOB_PANE (self->page), HS_OPTION_PAGE, field, "");
}

/* The book has the option's own fields as they were saved; what is typed of a line, or since then, is kept on. */
void
hs_option_typed_settle (HsOptionWindow *self)
{
  const char *name;

  for (guint i = 0; i < HS_OPTION_N_FIELDS; i++)
    if (g_strcmp0 (gtk_editable_get_text (hs_option_typed_get (self, i, &name)), self->saved[i]) == 0)
      settle_field (self, name);
}

void
hs_option_typed_take_id (HsOptionWindow *self, char *id)
{
  const char *name;

  hs_option_typed_forget (self);
  self->choice_id = id;
  for (guint i = 0; i < HS_OPTION_N_TYPED; i++)
    {
      GtkEditable *entry = hs_option_typed_get (self, i, &name);
      const char *saved = i < HS_OPTION_N_FIELDS && self->saved[i] != NULL ? self->saved[i] : "";

      if (g_strcmp0 (gtk_editable_get_text (entry), saved) != 0)
        hs_option_typed_note (self, entry);
    }
}

void
hs_option_typed_forget (HsOptionWindow *self)
{
  const char *name;

  for (guint i = 0; i < HS_OPTION_N_TYPED; i++)
    {
      hs_option_typed_get (self, i, &name);
      settle_field (self, name);
    }
  settle_field (self, HS_OPTION_KIND);
}
