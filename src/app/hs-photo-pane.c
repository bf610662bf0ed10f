// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The photos of a job, with one hand. What is done acts on the chosen photo; F10 takes it back. */

#include "hs-photo-pane.h"

#include <glib/gi18n.h>

#include "hs-camera-window.h"
#include "hs-compat-file.h"
#include "hs-flow-layout.h"
#include "hs-key-button.h"
#include "hs-key-row.h"
#include "hs-pad-key.h"
#include "hs-photo-op.h"
#include "hs-photo-strip.h"
#include "hs-photo-window.h"
#include "hs-show.h"

/* As many as there are digits. */
#define MOST_SUBJECTS 9

struct _HsPhotoPane
{
  HsJobPane parent_instance;

  GtkWidget *none;
  HsKeyButton *first;
  GtkWidget *sheet;
  AdwBin *strip_bin;
  GtkLabel *facts;
  GtkWidget *shows;
  GtkBox *subjects;
  GtkWidget *frozen;
  HsKeyRow *keys;

  HsPhotoStrip *strip;
};

G_DEFINE_FINAL_TYPE (HsPhotoPane, hs_photo_pane, HS_TYPE_JOB_PANE)

static HsLedger *
get_ledger (HsPhotoPane *self)
{
  return hs_page_get_ledger (HS_PAGE (self));
}

static const HsPhotoCard *
get_card (HsPhotoPane *self)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (self));
  const char *id = hs_photo_strip_get_chosen (self->strip);

  for (guint i = 0; shot != NULL && id != NULL && i < shot->photos->len; i++)
    if (g_str_equal (((HsPhotoCard *) g_ptr_array_index (shot->photos, i))->id, id))
      return g_ptr_array_index (shot->photos, i);
  return NULL;
}

/* What it may show. */

static void
add_subject (HsPhotoPane *self, guint digit, const char *text, gboolean now)
{
  g_autofree char *key = g_strdup_printf ("%u", digit);
  g_autofree char *action = g_strdup_printf ("photos.shows(%u)", digit);
  /* Translators: what a photo shows now, among what it could show. */
  g_autofree char *marked = now ? g_strdup_printf (_("%s (now)"), text) : g_strdup (text);
  GtkWidget *button = hs_key_button_new (key, marked, action);

  hs_key_button_set_wraps_at (HS_KEY_BUTTON (button), 40);
  gtk_box_append (self->subjects, button);
}

static void
update_subjects (HsPhotoPane *self, const HsPhotoCard *card)
{
  GPtrArray *subjects = hs_job_pane_get_shot (HS_JOB_PANE (self))->photo_subjects;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->subjects))) != NULL)
    gtk_box_remove (self->subjects, child);
  for (guint i = 0; i < MIN (MOST_SUBJECTS, subjects->len); i++)
    {
      const HsPhotoSubject *subject = g_ptr_array_index (subjects, i);

      add_subject (self, i + 1, subject->what, g_strcmp0 (card->finding_id, subject->id) == 0);
    }
  if (subjects->len > 0)
    add_subject (self, 0, _("Nothing in particular"), card->finding_id == NULL);
  gtk_widget_set_visible (self->shows, subjects->len > 0);
}

static void
chosen_cb (HsPhotoPane *self)
{
  const HsPhotoCard *card = get_card (self);
  g_autofree char *say = NULL;

  if (card == NULL)
    return;
  say = hs_photo_say (get_ledger (self), card);
  gtk_label_set_label (self->facts, say);
  update_subjects (self, card);
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsPhotoPane *self = HS_PHOTO_PANE (pane);
  gboolean any = shot->photos->len > 0;
  GtkWidget *focus = hs_page_get_focus (HS_PAGE (self));

  /* A picture that is missing may still be put in again. */
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "photos.phase", !hs_job_pane_is_frozen (pane));
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "photos.remove", !hs_job_pane_is_frozen (pane));
  gtk_widget_set_visible (self->frozen, hs_job_pane_is_frozen (pane));
  gtk_widget_set_sensitive (GTK_WIDGET (self->subjects), !hs_job_pane_is_frozen (pane));
  hs_photo_strip_set (self->strip, get_ledger (self), shot->photos);
  gtk_widget_set_visible (self->none, !any);
  gtk_widget_set_visible (self->sheet, any);
  chosen_cb (self);
  hs_page_keep_focus (HS_PAGE (self), focus != NULL, any ? GTK_WIDGET (self->strip) : GTK_WIDGET (self->first));
}

/* Deeds. */

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsPhotoPane) self = data;
  g_autoptr (GError) error = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error))
    hs_page_tell (HS_PAGE (self), error->message);
}

static void
phase_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsPhotoPane *self = HS_PHOTO_PANE (widget);
  const HsPhotoCard *card = get_card (self);
  guint at = 0;

  if (card == NULL)
    return;
  while (hs_ask_phases[at] != NULL && !g_str_equal (hs_ask_phases[at], card->phase))
    at++;
  at = hs_ask_phases[at] == NULL || hs_ask_phases[at + 1] == NULL ? 0 : at + 1;
  hs_deed_set_photo_phase (get_ledger (self), card->id, hs_ask_phases[at], done_cb, g_object_ref (self));
}

static void
bind (HsPhotoPane *self, guint digit)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (self));
  const HsPhotoCard *card = get_card (self);

  if (card == NULL || digit > shot->photo_subjects->len)
    return;
  hs_deed_bind_photo (get_ledger (self), card->id,
                      digit == 0 ? NULL
                                 : ((HsPhotoSubject *) g_ptr_array_index (shot->photo_subjects, digit - 1))->id,
                      done_cb, g_object_ref (self));
}

static void
shows_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  bind (HS_PHOTO_PANE (widget), (guint) g_variant_get_int32 (parameter));
}

static void
remove_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsPhotoPane *self = HS_PHOTO_PANE (widget);
  const HsPhotoCard *card = get_card (self);

  if (card != NULL)
    hs_deed_remove_photo (get_ledger (self), card->id, done_cb, g_object_ref (self));
}

static void
look_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  HsPhotoPane *self = HS_PHOTO_PANE (widget);
  const HsPhotoCard *card = get_card (self);

  if (card != NULL)
    hs_photo_window_present (HS_PAGE (self), hs_job_pane_get_snapshot (HS_JOB_PANE (self)),
                             hs_job_pane_get_shot (HS_JOB_PANE (self))->photos, card->id);
}

static void
opened_cb (HsPhotoPane *self)
{
  look_action (GTK_WIDGET (self), NULL, NULL);
}

/* Adding. */

/* One sentence; several refusals are told together, the reason of the first as an example. */
void
hs_photo_pane_tell (HsPage *page, const HsPhotoReport *report)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (report->n_added > 0)
    g_string_append_printf (text, ngettext ("%u photo added.", "%u photos added.", report->n_added), report->n_added);
  if (report->n_bared > 0)
    g_string_append_printf (text, " %s", ngettext ("The place where it was taken was left out.",
                                                   "The places where they were taken were left out.",
                                                   report->n_bared));
  if (report->n_mended > 0)
    g_string_append_printf (text, ngettext (" %u missing picture is there again.",
                                            " %u missing pictures are there again.", report->n_mended),
                            report->n_mended);
  if (report->refused->len > 1)
    g_string_append_printf (text, ngettext (" %u was not added.", " %u were not added.", report->refused->len),
                            report->refused->len);
  if (report->refused->len > 0)
    g_string_append_printf (text, " %s", (const char *) g_ptr_array_index (report->refused, 0));
  hs_page_tell (page, g_strstrip (text->str));
}

static void
added_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsPhotoPane) self = data;
  g_autoptr (HsPhotoReport) report = hs_photos_add_finish (HS_LEDGER (source), result);

  hs_photo_pane_tell (HS_PAGE (self), report);
}

void
hs_photo_pane_add (HsPhotoPane *self, GListModel *files)
{
  GPtrArray *orders;

  g_return_if_fail (HS_IS_PHOTO_PANE (self) && G_IS_LIST_MODEL (files));

  orders = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_photo_order_free);
  for (guint i = 0; i < g_list_model_get_n_items (files); i++)
    {
      g_autoptr (GFile) file = g_list_model_get_item (files, i);
      g_autofree char *uri = g_file_get_uri (file);

      g_ptr_array_add (orders, hs_photo_order_new (uri, hs_job_pane_get_job_id (HS_JOB_PANE (self))));
    }
  hs_photos_add_async (get_ledger (self), orders, FALSE, added_cb, g_object_ref (self));
}

static void
files_cb (GListModel *files, gpointer data)
{
  g_autoptr (HsPhotoPane) self = data;

  if (files != NULL)
    hs_photo_pane_add (self, files);
}

static void
add_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  hs_compat_choose_photos (GTK_WINDOW (gtk_widget_get_root (widget)), _("Add Photos"), files_cb,
                           g_object_ref (widget));
}

static void
camera_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (widget));

  if (shot != NULL)
    hs_camera_window_present (HS_PAGE (widget), hs_job_pane_get_job_id (HS_JOB_PANE (widget)),
                              shot->view->tag->number);
}

/* Keys. */

static gboolean
key_cb (HsPhotoPane *self, guint keyval, guint keycode, GdkModifierType state)
{
  static const struct
  {
    char sign;
    const char *action;
  } keys[] = {
    { '/', "photos.add" }, { '*', "photos.camera" }, { '+', "photos.phase" }, { '-', "photos.remove" },
  };
  char sign = hs_pad_key_sign (keyval);

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if ((sign == '+' || sign == '-' || g_ascii_isdigit (sign)) && hs_job_pane_tell_frozen (HS_JOB_PANE (self)))
    return GDK_EVENT_STOP;
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i].sign == sign)
      return gtk_widget_activate_action (GTK_WIDGET (self), keys[i].action, NULL);
  if (!g_ascii_isdigit (sign) || get_card (self) == NULL)
    return GDK_EVENT_PROPAGATE;
  bind (self, (guint) (sign - '0'));
  return GDK_EVENT_STOP;
}

static void
set_keys (HsPhotoPane *self)
{
  const HsKeyHint hints[] = {
    { "/", _("add photos"), "photos.add" },
    { "*", _("from a camera"), "photos.camera" },
    { "Enter", _("look at it"), "photos.look" },
    { "+", _("before / during / after"), "photos.phase" },
    { "−", _("take it away"), "photos.remove" },
    { "F9", _("readings"), "win.side" },
  };

  hs_key_row_set (self->keys, hints, G_N_ELEMENTS (hints));
}

static void
hs_photo_pane_constructed (GObject *object)
{
  HsPhotoPane *self = HS_PHOTO_PANE (object);

  G_OBJECT_CLASS (hs_photo_pane_parent_class)->constructed (object);
  self->strip = HS_PHOTO_STRIP (hs_photo_strip_new ());
  adw_bin_set_child (self->strip_bin, GTK_WIDGET (self->strip));
  g_signal_connect_object (self->strip, "chosen", G_CALLBACK (chosen_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->strip, "opened", G_CALLBACK (opened_cb), self, G_CONNECT_SWAPPED);
  set_keys (self);
}

static void
hs_photo_pane_class_init (HsPhotoPaneClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->constructed = hs_photo_pane_constructed;
  HS_JOB_PANE_CLASS (klass)->show = show_job;
  g_type_ensure (HS_TYPE_FLOW_LAYOUT);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_KEY_ROW);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-photo-pane.ui");
  gtk_widget_class_bind_template_child (widget_class, HsPhotoPane, none);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoPane, first);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoPane, sheet);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoPane, strip_bin);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoPane, facts);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoPane, shows);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoPane, subjects);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoPane, frozen);
  gtk_widget_class_bind_template_child (widget_class, HsPhotoPane, keys);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_install_action (widget_class, "photos.add", NULL, add_action);
  gtk_widget_class_install_action (widget_class, "photos.camera", NULL, camera_action);
  gtk_widget_class_install_action (widget_class, "photos.look", NULL, look_action);
  gtk_widget_class_install_action (widget_class, "photos.phase", NULL, phase_action);
  gtk_widget_class_install_action (widget_class, "photos.remove", NULL, remove_action);
  gtk_widget_class_install_action (widget_class, "photos.shows", "i", shows_action);
}

static void
hs_photo_pane_init (HsPhotoPane *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
hs_photo_pane_focus (HsPhotoPane *self)
{
  g_return_if_fail (HS_IS_PHOTO_PANE (self));

  if (hs_photo_strip_get_chosen (self->strip) != NULL)
    hs_photo_strip_choose (self->strip, NULL, TRUE);
  else
    gtk_widget_grab_focus (GTK_WIDGET (self->first));
}
