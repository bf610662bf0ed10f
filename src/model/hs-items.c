// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* List models over what the worker thread read. A page keeps one HsItems for each list that it shows and calls
 * hs_items_set() when a newer snapshot comes; only what differs is announced.
 *
 *   HsQuestion ─▶ HsSnapshot ─▶ GPtrArray of structs ─▶ HsItems ─▶ (selection) ─▶ list view
 *
 * An element may sit in the list once; keys are compared as text. */

#include "hs-items.h"

struct _HsItem
{
  GObject parent_instance;

  HsSnapshot *snapshot;
  gconstpointer data; /* inside the snapshot */
  char *key;
};

G_DEFINE_FINAL_TYPE (HsItem, hs_item, G_TYPE_OBJECT)

static void
hs_item_finalize (GObject *object)
{
  HsItem *self = HS_ITEM (object);

  g_clear_pointer (&self->snapshot, hs_snapshot_unref);
  g_clear_pointer (&self->key, g_free);
  G_OBJECT_CLASS (hs_item_parent_class)->finalize (object);
}

static void
hs_item_class_init (HsItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hs_item_finalize;
}

static void
hs_item_init (HsItem *self)
{
}

gconstpointer
hs_item_get (HsItem *self)
{
  g_return_val_if_fail (HS_IS_ITEM (self), NULL);

  return self->data;
}

const char *
hs_item_get_key (HsItem *self)
{
  g_return_val_if_fail (HS_IS_ITEM (self), NULL);

  return self->key;
}

/* The list. */

struct _HsItems
{
  GObject parent_instance;

  HsItemsKeyFunc key;
  HsItemsSameFunc same;
  HsSnapshot *snapshot;
  GPtrArray *elements; /* borrowed structs, kept alive by the snapshot */
  GHashTable *made;    /* struct → HsItem, for places that were asked for */
};

static GType
hs_items_get_item_type (GListModel *model)
{
  return HS_TYPE_ITEM;
}

static guint
hs_items_get_n_items (GListModel *model)
{
  return HS_ITEMS (model)->elements->len;
}

static gpointer
hs_items_get_item (GListModel *model, guint position)
{
  HsItems *self = HS_ITEMS (model);
  gpointer data;
  HsItem *row;

  if (position >= self->elements->len)
    return NULL;
  data = g_ptr_array_index (self->elements, position);
  row = g_hash_table_lookup (self->made, data);
  if (row == NULL)
    {
      row = g_object_new (HS_TYPE_ITEM, NULL);
      row->snapshot = hs_snapshot_ref (self->snapshot);
      row->data = data;
      row->key = g_strdup (self->key (data));
      g_hash_table_insert (self->made, data, row);
    }
  return g_object_ref (row);
}

static void
hs_items_list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = hs_items_get_item_type;
  iface->get_n_items = hs_items_get_n_items;
  iface->get_item = hs_items_get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (HsItems, hs_items, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, hs_items_list_model_init))

static void
hs_items_finalize (GObject *object)
{
  HsItems *self = HS_ITEMS (object);

  g_clear_pointer (&self->made, g_hash_table_unref);
  g_clear_pointer (&self->elements, g_ptr_array_unref);
  g_clear_pointer (&self->snapshot, hs_snapshot_unref);
  G_OBJECT_CLASS (hs_items_parent_class)->finalize (object);
}

static void
hs_items_class_init (HsItemsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hs_items_finalize;
}

static void
hs_items_init (HsItems *self)
{
  self->elements = g_ptr_array_new ();
  self->made = g_hash_table_new_full (NULL, NULL, NULL, g_object_unref);
}

HsItems *
hs_items_new (HsItemsKeyFunc key, HsItemsSameFunc same)
{
  HsItems *self = g_object_new (HS_TYPE_ITEMS, NULL);

  self->key = key;
  self->same = same;
  return self;
}

static gboolean
hs_items_is_same (HsItems *self, gconstpointer a, gconstpointer b)
{
  return self->same != NULL && g_strcmp0 (self->key (a), self->key (b)) == 0 && self->same (a, b);
}

/* How many rows at the start (or, @from_end, at the end) are alike in both arrays, up to @most. */
static guint
hs_items_count_alike (HsItems *self, GPtrArray *before, GPtrArray *after, guint most, gboolean from_end)
{
  guint n = 0;

  while (n < most)
    {
      guint i = from_end ? before->len - 1 - n : n;
      guint j = from_end ? after->len - 1 - n : n;

      if (!hs_items_is_same (self, g_ptr_array_index (before, i), g_ptr_array_index (after, j)))
        break;
      n++;
    }
  return n;
}

/* A view that keeps a place also keeps its object, so whoever compares objects sees the same row. */
static void
hs_items_carry_over (HsItems *self, GHashTable *made, gconstpointer before, gpointer after)
{
  HsItem *row = g_hash_table_lookup (made, before);

  if (row != NULL)
    g_hash_table_insert (self->made, after, g_object_ref (row));
}

void
hs_items_set (HsItems *self, HsSnapshot *snapshot, GPtrArray *elements)
{
  g_autoptr (GPtrArray) before = NULL;
  g_autoptr (GHashTable) made = NULL;
  g_autoptr (HsSnapshot) old = NULL;
  GPtrArray *after = g_ptr_array_new ();
  guint start, end;

  g_return_if_fail (HS_IS_ITEMS (self));
  g_return_if_fail (snapshot != NULL || elements == NULL || elements->len == 0);

  for (guint i = 0; elements != NULL && i < elements->len; i++)
    g_ptr_array_add (after, g_ptr_array_index (elements, i));

  before = g_steal_pointer (&self->elements);
  made = g_steal_pointer (&self->made);
  old = g_steal_pointer (&self->snapshot);
  start = hs_items_count_alike (self, before, after, MIN (before->len, after->len), FALSE);
  end = hs_items_count_alike (self, before, after, MIN (before->len, after->len) - start, TRUE);

  self->elements = after;
  self->made = g_hash_table_new_full (NULL, NULL, NULL, g_object_unref);
  self->snapshot = snapshot != NULL ? hs_snapshot_ref (snapshot) : NULL;
  for (guint i = 0; i < start; i++)
    hs_items_carry_over (self, made, g_ptr_array_index (before, i), g_ptr_array_index (after, i));
  for (guint i = 1; i <= end; i++)
    hs_items_carry_over (self, made, g_ptr_array_index (before, before->len - i),
                        g_ptr_array_index (after, after->len - i));
  if (start < before->len || start < after->len)
    g_list_model_items_changed (G_LIST_MODEL (self), start, before->len - start - end, after->len - start - end);
}

guint
hs_items_find (HsItems *self, const char *key)
{
  g_return_val_if_fail (HS_IS_ITEMS (self), G_MAXUINT);

  for (guint i = 0; key != NULL && i < self->elements->len; i++)
    if (g_strcmp0 (self->key (g_ptr_array_index (self->elements, i)), key) == 0)
      return i;
  return G_MAXUINT;
}

gconstpointer
hs_items_get_data (HsItems *self, guint position)
{
  g_return_val_if_fail (HS_IS_ITEMS (self), NULL);

  return position < self->elements->len ? g_ptr_array_index (self->elements, position) : NULL;
}
