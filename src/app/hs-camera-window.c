// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Picking the new photos of a camera. Nothing is added that was not ticked; where each goes stands beside it. */

#include "hs-camera-window.h"

#include <glib/gi18n.h>

#include "hs-act-check.h"
#include "hs-act-row.h"
#include "hs-ask-photo.h"
#include "hs-compat-file.h"
#include "hs-key-button.h"
#include "hs-photo-pane.h"
#include "hs-show.h"

/* Rows are widgets; who has more new photos than that adds the newest first. */
#define MOST_ROWS 200

struct _HsCameraWindow
{
  AdwWindow parent_instance;

  GtkLabel *where;
  GtkLabel *state;
  GtkListBox *list;
  GtkCheckButton *keep_place;

  HsPage *page; /* weak: under us */
  char *job_id;
  char *number;
  GPtrArray *found;
  guint stamp;
  gboolean busy;
};

G_DEFINE_FINAL_TYPE (HsCameraWindow, hs_camera_window, ADW_TYPE_WINDOW)

/* Where the last camera was, as long as the program runs. */
static GFile *last_folder;

static void
say_state (HsCameraWindow *self, const char *text)
{
  gtk_label_set_label (self->state, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->state), text != NULL);
}

static HsLedger *
get_ledger (HsCameraWindow *self)
{
  return self->page != NULL ? hs_page_get_ledger (self->page) : NULL;
}

/* Rows. */

static GtkCheckButton *
tick_of (GtkListBoxRow *row)
{
  return GTK_CHECK_BUTTON (gtk_list_box_row_get_child (row));
}

static char *
row_text (HsCameraWindow *self, const HsPhotoFound *one)
{
  g_autofree char *day = hs_show_day_of (get_ledger (self), one->at);
  g_autofree char *clock = hs_show_clock (get_ledger (self), one->at);
  g_autofree char *at = g_strdup_printf ("%s %s", day, clock);
  g_autofree char *to = one->job == NULL ? g_strdup_printf (_("no job by its time; goes to %s"), self->number)
                                         : g_strdup_printf (_("taken at %s"), one->job);

  return hs_show_joined (at, to, one->plate != NULL ? one->plate : "", one->name, NULL);
}

static GtkWidget *
row_new (HsCameraWindow *self, const HsPhotoFound *one)
{
  GtkWidget *row = hs_act_row_new (), *tick = hs_act_check_new (), *label;
  g_autofree char *text = row_text (self, one);

  label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_check_button_set_child (GTK_CHECK_BUTTON (tick), label);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (tick), g_strcmp0 (one->job_id, self->job_id) == 0);
  gtk_widget_set_size_request (tick, -1, 44);
  gtk_accessible_update_property (GTK_ACCESSIBLE (tick), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  gtk_widget_set_focusable (tick, FALSE);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), tick);
  g_object_set_data (G_OBJECT (row), "found", (gpointer) one);
  return row;
}

static void
clear_rows (HsCameraWindow *self)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
}

static void
fill_rows (HsCameraWindow *self)
{
  g_autofree char *text = NULL;
  guint n_new = 0, n_known = 0;

  clear_rows (self);
  for (guint i = 0; i < self->found->len; i++)
    {
      const HsPhotoFound *one = g_ptr_array_index (self->found, i);

      n_known += one->known;
      if (one->known || n_new++ >= MOST_ROWS)
        continue;
      gtk_list_box_append (self->list, row_new (self, one));
    }
  if (n_new == 0)
    text = g_strdup_printf (ngettext ("No new photos there; %u is in the book already.",
                                      "No new photos there; %u are in the book already.", n_known), n_known);
  else if (n_new > MOST_ROWS)
    text = g_strdup_printf (_("The newest %d of %u new photos. Add these first."), MOST_ROWS, n_new);
  say_state (self, text);
  if (n_new > 0)
    gtk_widget_grab_focus (GTK_WIDGET (gtk_list_box_get_row_at_index (self->list, 0)));
}

/* Looking. */

typedef struct
{
  HsCameraWindow *self;
  guint stamp;
} Look;

static void
looked_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Look *look = data;
  g_autoptr (HsCameraWindow) self = look->self;
  g_autoptr (GError) error = NULL;
  GPtrArray *found = hs_photo_look_finish (HS_LEDGER (source), result, &error);

  if (look->stamp != self->stamp || self->page == NULL)
    {
      g_clear_pointer (&found, g_ptr_array_unref);
      return;
    }
  self->busy = FALSE;
  if (found == NULL)
    {
      say_state (self, error->message);
      return;
    }
  clear_rows (self);
  g_clear_pointer (&self->found, g_ptr_array_unref);
  self->found = found;
  fill_rows (self);
}

void
hs_camera_window_look (HsCameraWindow *self, GFile *folder)
{
  g_autofree char *name = NULL;
  Look *look;

  g_return_if_fail (HS_IS_CAMERA_WINDOW (self) && G_IS_FILE (folder));

  if (self->page == NULL)
    return;
  g_set_object (&last_folder, folder);
  name = g_file_get_parse_name (folder);
  gtk_label_set_label (self->where, name);
  say_state (self, _("Looking…"));
  self->busy = TRUE;
  look = g_new0 (Look, 1);
  look->self = g_object_ref (self);
  look->stamp = ++self->stamp;
  hs_photo_look_async (get_ledger (self), folder, looked_cb, look);
}

/* A camera is plugged in under a root of its own. */
static GFile *
find_camera (void)
{
  g_autoptr (GVolumeMonitor) monitor = g_volume_monitor_get ();
  g_autolist (GMount) mounts = g_volume_monitor_get_mounts (monitor);

  for (GList *at = mounts; at != NULL; at = at->next)
    {
      g_autoptr (GFile) root = g_mount_get_root (at->data);

      if (g_file_has_uri_scheme (root, "gphoto2") || g_file_has_uri_scheme (root, "mtp"))
        return g_steal_pointer (&root);
    }
  return last_folder != NULL ? g_object_ref (last_folder) : NULL;
}

static void
folder_cb (GFile *file, gpointer data)
{
  g_autoptr (HsCameraWindow) self = data;

  if (file != NULL)
    hs_camera_window_look (self, file);
}

static void
folder_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_compat_choose_folder (GTK_WINDOW (widget), _("Folder of a Camera"), last_folder, folder_cb,
                           g_object_ref (widget));
}

/* Adding. */

static void
added_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsCameraWindow) self = data;
  g_autoptr (HsPhotoReport) report = hs_photos_add_finish (HS_LEDGER (source), result);

  self->busy = FALSE;
  if (self->page == NULL)
    return;
  hs_photo_pane_tell (self->page, report);
  gtk_window_close (GTK_WINDOW (self));
}

static void
add_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsCameraWindow *self = HS_CAMERA_WINDOW (widget);
  g_autoptr (GPtrArray) orders = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_photo_order_free);
  GtkListBoxRow *row;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->list, i)) != NULL; i++)
    {
      const HsPhotoFound *one = g_object_get_data (G_OBJECT (row), "found");

      if (gtk_check_button_get_active (tick_of (row)))
        g_ptr_array_add (orders, hs_photo_order_new (one->uri, one->job_id != NULL ? one->job_id : self->job_id));
    }
  if (self->busy || self->page == NULL)
    return;
  if (orders->len == 0)
    {
      say_state (self, _("Nothing is ticked. + ticks a photo."));
      return;
    }
  self->busy = TRUE;
  say_state (self, _("Adding…"));
  hs_photos_add_async (get_ledger (self), g_steal_pointer (&orders), gtk_check_button_get_active (self->keep_place),
                       added_cb, g_object_ref (self));
}

static void
tick_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsCameraWindow *self = HS_CAMERA_WINDOW (widget);
  GtkWidget *row = gtk_widget_get_focus_child (GTK_WIDGET (self->list));

  if (GTK_IS_LIST_BOX_ROW (row))
    gtk_check_button_set_active (tick_of (GTK_LIST_BOX_ROW (row)),
                                 !gtk_check_button_get_active (tick_of (GTK_LIST_BOX_ROW (row))));
}

static void
row_activated_cb (HsCameraWindow *self)
{
  tick_action (GTK_WIDGET (self), NULL, NULL);
}

static void
close_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

/* On their way down, for a row of the list takes + for its own. */
static gboolean
key_cb (HsCameraWindow *self, guint keyval)
{
  static const struct
  {
    guint keyval;
    const char *action;
  } keys[] = {
    { GDK_KEY_Escape, "camera.close" }, { GDK_KEY_F4, "camera.add" },      { GDK_KEY_F5, "camera.folder" },
    { GDK_KEY_plus, "camera.tick" },    { GDK_KEY_KP_Add, "camera.tick" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i].keyval == keyval)
      return gtk_widget_activate_action (GTK_WIDGET (self), keys[i].action, NULL);
  return GDK_EVENT_PROPAGATE;
}

static void
hs_camera_window_dispose (GObject *object)
{
  HsCameraWindow *self = HS_CAMERA_WINDOW (object);

  g_clear_weak_pointer (&self->page);
  G_OBJECT_CLASS (hs_camera_window_parent_class)->dispose (object);
  g_clear_pointer (&self->found, g_ptr_array_unref);
  g_clear_pointer (&self->job_id, g_free);
  g_clear_pointer (&self->number, g_free);
}

static void
hs_camera_window_class_init (HsCameraWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_camera_window_dispose;
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_ACT_CHECK);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-camera-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsCameraWindow, where);
  gtk_widget_class_bind_template_child (widget_class, HsCameraWindow, state);
  gtk_widget_class_bind_template_child (widget_class, HsCameraWindow, list);
  gtk_widget_class_bind_template_child (widget_class, HsCameraWindow, keep_place);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  gtk_widget_class_install_action (widget_class, "camera.folder", NULL, folder_action);
  gtk_widget_class_install_action (widget_class, "camera.add", NULL, add_action);
  gtk_widget_class_install_action (widget_class, "camera.tick", NULL, tick_action);
  gtk_widget_class_install_action (widget_class, "camera.close", NULL, close_action);
}

static void
hs_camera_window_init (HsCameraWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

HsCameraWindow *
hs_camera_window_present (HsPage *page, const char *job_id, const char *number)
{
  g_autoptr (GFile) folder = find_camera ();
  HsCameraWindow *self;

  g_return_val_if_fail (HS_IS_PAGE (page), NULL);

  self = g_object_new (HS_TYPE_CAMERA_WINDOW, "transient-for", gtk_widget_get_root (GTK_WIDGET (page)),
                       "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->page, page);
  self->job_id = g_strdup (job_id);
  self->number = g_strdup (number);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  if (folder != NULL)
    hs_camera_window_look (self, folder);
  else
    say_state (self, _("No camera is plugged in. F5 chooses the folder where its photos are."));
  return self;
}

gboolean
hs_camera_window_is_busy (HsCameraWindow *self)
{
  g_return_val_if_fail (HS_IS_CAMERA_WINDOW (self), FALSE);

  return self->busy;
}
