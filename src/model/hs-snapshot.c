// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* An owner count around a struct of the ops layer. Use it wherever such a struct crosses from the worker thread to the
 * window or is shared between a page and its rows. */

#include "hs-snapshot.h"

struct _HsSnapshot
{
  gpointer data;
  GDestroyNotify free_data;
};

G_DEFINE_BOXED_TYPE (HsSnapshot, hs_snapshot, hs_snapshot_ref, hs_snapshot_unref)

static void
hs_snapshot_clear (gpointer box)
{
  HsSnapshot *self = box;

  if (self->free_data != NULL && self->data != NULL)
    self->free_data (self->data);
}

HsSnapshot *
hs_snapshot_new (gpointer data, GDestroyNotify free_data)
{
  HsSnapshot *self = g_atomic_rc_box_new0 (HsSnapshot);

  self->data = data;
  self->free_data = free_data;
  return self;
}

HsSnapshot *
hs_snapshot_ref (HsSnapshot *self)
{
  return g_atomic_rc_box_acquire (self);
}

void
hs_snapshot_unref (HsSnapshot *self)
{
  if (self != NULL)
    g_atomic_rc_box_release_full (self, hs_snapshot_clear);
}

gpointer
hs_snapshot_get (HsSnapshot *self)
{
  return self != NULL ? self->data : NULL;
}
