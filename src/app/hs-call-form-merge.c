// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A call's fields while another device writes the same job. What each field showed is remembered; one that is not being
 * typed into follows the book at once, one that is keeps what is typed. When it is written, both are kept
 * (hs-call-merge.h), and that is said. */

#include "hs-call-form-private.h"

#include <glib/gi18n.h>

#include "hs-call-merge.h"
#include "hs-deed-merge.h"
#include "hs-typed.h"

/* Those that are typed and not reckoned with others. */
static const guint merged[] = { FIELD_PHONE, FIELD_NAME, FIELD_WORDS, FIELD_PLATE, FIELD_STREET, FIELD_MINUTES };

void
hs_call_form_note_shown (HsCallForm *self)
{
  for (guint i = 0; i < N_FIELDS; i++)
    {
      g_free (self->shown[i]);
      self->shown[i] = g_strdup (gtk_editable_get_text (self->entries[i]));
    }
}

static const char *
text_of_view (const HsJobView *view, guint field, const char *minutes)
{
  switch (field)
    {
    case FIELD_PHONE:
      return view->phone;
    case FIELD_NAME:
      return hs_call_is_placeholder (view->tag->customer, view->phone) ? NULL : view->tag->customer;
    case FIELD_WORDS:
      return view->tag->words;
    case FIELD_PLATE:
      return view->tag->plate;
    case FIELD_STREET:
      return view->street;
    case FIELD_MINUTES:
    default:
      return minutes;
    }
}

static void
tell_clash (HsCallForm *self, guint field, const char *theirs)
{
  g_autofree char *text = NULL;

  /* Translators: the name of a field, and what another device wrote into it. */
  text = g_strdup_printf (_("%s: another device wrote “%s” meanwhile. Both are kept, that one among the answers."),
                          _(hs_call_fields[field].title), theirs);
  hs_call_form_tell (self, text);
}

void
hs_call_form_follow (HsCallForm *self, const HsJobView *view)
{
  g_autofree char *minutes = view->tag->minutes > 0 ? g_strdup_printf ("%d", view->tag->minutes) : NULL;

  for (guint i = 0; i < G_N_ELEMENTS (merged); i++)
    {
      guint field = merged[i];
      const char *theirs = text_of_view (view, field, minutes), *mine = gtk_editable_get_text (self->entries[field]);

      theirs = theirs != NULL ? theirs : "";
      if (g_strcmp0 (mine, self->shown[field]) != 0)
        {
          if (g_strcmp0 (theirs, self->shown[field]) != 0 && g_strcmp0 (theirs, mine) != 0 && *theirs != '\0')
            tell_clash (self, field, theirs);
          continue;
        }
      self->filling = TRUE;
      hs_call_form_set_text (self, field, theirs);
      self->filling = FALSE;
      g_free (self->shown[field]);
      self->shown[field] = g_strdup (theirs);
    }
}

static guint
field_named (const char *id)
{
  guint field = 0;

  while (field + 1 < N_FIELDS && !g_str_equal (hs_call_fields[field].id, id))
    field++;
  return field;
}

void
hs_call_form_tell_clashes (HsCallForm *self, GPtrArray *clashes)
{
  for (guint i = 0; i < clashes->len; i++)
    {
      const HsCallClash *clash = g_ptr_array_index (clashes, i);

      tell_clash (self, field_named (clash->field), clash->theirs);
    }
}

void
hs_call_form_merge (HsCallForm *self, const HsCallSlip *slip, GAsyncReadyCallback callback, gpointer user_data)
{
  const HsCallSlip was = { .phone = self->shown[FIELD_PHONE], .name = self->shown[FIELD_NAME],
                           .words = self->shown[FIELD_WORDS], .plate = self->shown[FIELD_PLATE],
                           .street = self->shown[FIELD_STREET],
                           .minutes = MAX (0, hs_typed_minutes (self->shown[FIELD_MINUTES])) };

  hs_deed_merge_call (hs_page_get_ledger (HS_PAGE (self)), slip, &was, callback, user_data);
  /* What goes is what this device knows of the book from now on, whatever is typed meanwhile. */
  hs_call_form_note_shown (self);
}
