// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A VIN scanner among the keys. Use it where a scan has to land in one field, whatever has the focus. It refuses to
 * take a hand for a scanner: nobody types 17 signs with less than a tenth of a second between any two of them. */

#include "hs-scan.h"

#include "hs-vin.h"

#define MOST_BETWEEN 80 /* milliseconds */

struct _HsScan
{
  GString *signs;
  gint64 last;
  GtkEditable *entry; /* weak: had the focus when the first sign came */
  char *before;       /* what stood in it */
};

HsScan *
hs_scan_new (void)
{
  HsScan *self = g_new0 (HsScan, 1);

  self->signs = g_string_new (NULL);
  return self;
}

static void
forget (HsScan *self)
{
  g_string_truncate (self->signs, 0);
  g_clear_weak_pointer (&self->entry);
  g_clear_pointer (&self->before, g_free);
}

void
hs_scan_free (HsScan *self)
{
  if (self == NULL)
    return;
  forget (self);
  g_string_free (self->signs, TRUE);
  g_free (self);
}

static void
begin (HsScan *self, GtkWidget *focus)
{
  GtkWidget *entry = focus;

  forget (self);
  if (GTK_IS_TEXT (focus))
    entry = gtk_widget_get_ancestor (focus, GTK_TYPE_ENTRY);
  if (!GTK_IS_EDITABLE (entry))
    return;
  g_set_weak_pointer (&self->entry, GTK_EDITABLE (entry));
  self->before = g_strdup (gtk_editable_get_text (self->entry));
}

static char *
take (HsScan *self)
{
  g_autofree char *scanned = g_strdup (self->signs->str);

  if (self->entry != NULL)
    gtk_editable_set_text (self->entry, self->before);
  forget (self);
  return g_steal_pointer (&scanned);
}

char *
hs_scan_feed (HsScan *self, GtkWidget *focus, guint keyval, gint64 milliseconds)
{
  gunichar sign = gdk_keyval_to_unicode (keyval);
  gboolean late = milliseconds - self->last > MOST_BETWEEN || milliseconds < self->last;
  gboolean enter = keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter || keyval == GDK_KEY_ISO_Enter;

  /* Scanners hold Shift for capitals. */
  if (keyval == GDK_KEY_Shift_L || keyval == GDK_KEY_Shift_R)
    return NULL;
  self->last = milliseconds;
  if (enter && !late && self->signs->len == HS_VIN_LENGTH)
    return take (self);
  if (enter || sign >= 128 || !g_ascii_isalnum ((char) sign))
    {
      forget (self);
      return NULL;
    }
  if (late || self->signs->len == 0)
    begin (self, focus);
  g_string_append_c (self->signs, g_ascii_toupper ((char) sign));
  return NULL;
}
