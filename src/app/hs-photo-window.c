// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Looking at the photos of a job one by one. A picture that the book does not have says so in its place. */

#include "hs-photo-window.h"

#include <glib/gi18n.h>

#include "hs-ask-photo.h"
#include "hs-compat-file.h"
#include "hs-deed-photo.h"
#include "hs-flow-layout.h"
#include "hs-key-button.h"
#include "hs-photo-frame.h"
#include "hs-photo-strip.h"
#include "hs-refusal.h"

/* More pixels than that no screen shows. */
#define MOST_PIXELS 2560

struct _HsPhotoWindow
{
  AdwWindow parent_instance;

  GtkPicture *picture;
  GtkLabel *trouble;
  GtkLabel *words;
  GtkWidget *next;
  GtkWidget *previous;

  HsPage *page; /* weak: under us */
  HsSnapshot *snapshot;
  GPtrArray *cards;
  guint at;
  guint stamp;
};

G_DEFINE_FINAL_TYPE (HsPhotoWindow, hs_photo_window, ADW_TYPE_WINDOW)

typedef struct
{
  HsPhotoWindow *self;
  guint stamp;
} Asked;

static void
shown_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Asked *asked = data;
  g_autoptr (HsPhotoWindow) self = asked->self;
  g_autoptr (GError) error = NULL;
  g_autoptr (HsPixels) pixels = hs_photo_show_finish (HS_LEDGER (source), result, &error);
  g_autoptr (GdkTexture) texture = NULL;

  if (asked->stamp != self->stamp)
    return;
  if (pixels != NULL)
    texture = hs_photo_texture_new (pixels);
  else
    gtk_label_set_label (self->trouble, error->message);
  gtk_picture_set_paintable (self->picture, GDK_PAINTABLE (texture));
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), pixels == NULL);
}

static void
show_at (HsPhotoWindow *self, guint at)
{
  const HsPhotoCard *card = g_ptr_array_index (self->cards, at);
  g_autofree char *say = NULL;
  Asked *asked;

  if (self->page == NULL)
    return;
  self->at = at;
  say = hs_photo_say (hs_page_get_ledger (self->page), card);
  gtk_label_set_label (self->words, say);
  gtk_picture_set_alternative_text (self->picture, say);
  gtk_picture_set_paintable (self->picture, NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), FALSE);
  gtk_widget_set_sensitive (self->previous, at > 0);
  gtk_widget_set_sensitive (self->next, at + 1 < self->cards->len);
  asked = g_new0 (Asked, 1);
  asked->self = g_object_ref (self);
  asked->stamp = ++self->stamp;
  hs_photo_show_async (hs_page_get_ledger (self->page), card->id, MOST_PIXELS, shown_cb, asked);
}

/* A copy. */

static void
saved_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsPhotoWindow *self = hs_refusal_get_window (asked);
  g_autoptr (GError) error = NULL;

  hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);
  if (hs_refusal_late (asked, error != NULL ? error->message : NULL))
    return;
  hs_refusal_say (self->trouble, error == NULL ? _("The copy is written.") : error->message);
}

void
hs_photo_window_save (HsPhotoWindow *self, GFile *to)
{
  const HsPhotoCard *card;
  g_autofree char *uri = NULL;

  g_return_if_fail (HS_IS_PHOTO_WINDOW (self) && G_IS_FILE (to));

  if (self->page == NULL)
    return;
  card = g_ptr_array_index (self->cards, self->at);
  uri = g_file_get_uri (to);
  hs_deed_write_photo (hs_page_get_ledger (self->page), card->id, uri, saved_cb,
                       hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
file_cb (GFile *file, gpointer data)
{
  g_autoptr (HsPhotoWindow) self = data;

  if (file != NULL)
    hs_photo_window_save (self, file);
}

static void
save_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_compat_choose_file (GTK_WINDOW (widget), _("Save a Copy"), TRUE, NULL, NULL, file_cb, g_object_ref (widget));
}

static void
next_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsPhotoWindow *self = HS_PHOTO_WINDOW (widget);

  if (self->at + 1 < self->cards->len)
    show_at (self, self->at + 1);
}

static void
previous_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsPhotoWindow *self = HS_PHOTO_WINDOW (widget);

  if (self->at > 0)
    show_at (self, self->at - 1);
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
hs_photo_window_dispose (GObject *object)
{
  HsPhotoWindow *self = HS_PHOTO_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  g_clear_pointer (&self->snapshot, hs_snapshot_unref);
  G_OBJECT_CLASS (hs_photo_window_parent_class)->dispose (object);
}

/* Caught on their way down: the arrows would only move the focus from button to button. */
static gboolean
key_cb (HsPhotoWindow *self, guint keyval)
{
  static const struct
  {
    guint keyval;
    const char *action;
  } keys[] = {
    { GDK_KEY_Right, "photo.next" },     { GDK_KEY_KP_Right, "photo.next" },
    { GDK_KEY_plus, "photo.next" },      { GDK_KEY_KP_Add, "photo.next" },
    { GDK_KEY_Left, "photo.previous" },  { GDK_KEY_KP_Left, "photo.previous" },
    { GDK_KEY_minus, "photo.previous" }, { GDK_KEY_KP_Subtract, "photo.previous" },
    { GDK_KEY_Escape, "photo.close" },   { GDK_KEY_Return, "photo.close" },
    { GDK_KEY_KP_Enter, "photo.close" }, { GDK_KEY_slash, "photo.save" },
    { GDK_KEY_KP_Divide, "photo.save" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i].keyval == keyval)
      return gtk_widget_activate_action (GTK_WIDGET (self), keys[i].action, NULL);
  return GDK_EVENT_PROPAGATE;
}

static void
hs_photo_window_class_init (HsPhotoWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_photo_window_dispose;
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-photo-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsPhotoWindow, picture);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoWindow, trouble);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoWindow, words);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoWindow, next);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoWindow, previous);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "photo.next", NULL, next_action);
  gtk_widget_class_install_action (widget_class, "photo.previous", NULL, previous_action);
  gtk_widget_class_install_action (widget_class, "photo.save", NULL, save_action);
  gtk_widget_class_install_action (widget_class, "photo.close", NULL, close_action);
}

static void
hs_photo_window_init (HsPhotoWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

HsPhotoWindow *
hs_photo_window_present (HsPage *page, HsSnapshot *snapshot, GPtrArray *cards, const char *photo_id)
{
  HsPhotoWindow *self;
  guint at = 0;

  g_return_val_if_fail (HS_IS_PAGE (page) && cards->len > 0, NULL);

  self = g_object_new (HS_TYPE_PHOTO_WINDOW, "transient-for", gtk_widget_get_root (GTK_WIDGET (page)),
                       "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  self->snapshot = hs_snapshot_ref (snapshot);
  self->cards = cards;
  for (guint i = 0; i < cards->len; i++)
    if (g_strcmp0 (((HsPhotoCard *) g_ptr_array_index (cards, i))->id, photo_id) == 0)
      at = i;
  show_at (self, at);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  return self;
}

gboolean
hs_photo_window_has_picture (HsPhotoWindow *self)
{
  g_return_val_if_fail (HS_IS_PHOTO_WINDOW (self), FALSE);

  return gtk_picture_get_paintable (self->picture) != NULL;
}
