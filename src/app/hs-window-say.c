// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What the window says: lasting messages in a row of their own, passing words as a toast, refusals for a while. */

#include "hs-window-private.h"

#include <glib/gi18n.h>

/* How long the words of a toast are on their way, and some more. */
#define TOAST_MOVES (600 * G_TIME_SPAN_MILLISECOND)
/* How long a refusal stands at least; then the next word of the program takes it away. */
#define REFUSAL_STAYS (10 * G_TIME_SPAN_SECOND)

static GtkWidget *
find_notice (HsWindow   *self,
             const char *id)
{
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->notice_box)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (g_str_equal (gtk_widget_get_name (child), id))
      return child;
  return NULL;
}

void
hs_window_set_notice (HsWindow   *self,
                      const char *id,
                      const char *text)
{
  GtkWidget *notice;

  g_return_if_fail (HS_IS_WINDOW (self));
  g_return_if_fail (id != NULL);

  notice = find_notice (self, id);
  if (text == NULL && notice != NULL)
    gtk_box_remove (self->notice_box, notice);
  else if (text != NULL && notice != NULL)
    gtk_label_set_label (GTK_LABEL (notice), text);
  else if (text != NULL)
    {
      notice = g_object_new (GTK_TYPE_LABEL, "label", text, "name", id, "wrap", TRUE, "xalign", 0.0f, NULL);
      gtk_widget_add_css_class (notice, "hs-strong");
      gtk_box_append (self->notice_box, notice);
    }
  gtk_revealer_set_reveal_child (self->notice_revealer,
                                 gtk_widget_get_first_child (GTK_WIDGET (self->notice_box)) != NULL);
}

/* The toolkit leaves the cross of a toast without a name. */
static void
name_cross (GtkWidget *widget)
{
  if (GTK_IS_BUTTON (widget) && gtk_button_get_label (GTK_BUTTON (widget)) == NULL
      && GTK_IS_IMAGE (gtk_button_get_child (GTK_BUTTON (widget))))
    gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Close"), -1);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    name_cross (child);
}

static void
name_crosses (HsWindow *self)
{
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self->toasts)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (child != adw_toast_overlay_get_child (self->toasts))
      name_cross (child);
}

/* Of its own title the toolkit shows one line and cuts the rest. */
static GtkWidget *
words_new (void)
{
  GtkWidget *words = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (words), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (words), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_natural_wrap_mode (GTK_LABEL (words), GTK_NATURAL_WRAP_NONE);
  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_widget_add_css_class (words, "heading");
  return words;
}

static void
set_toast (AdwToast *toast, const char *text, const char *button, const char *action)
{
  if (adw_toast_get_custom_title (toast) == NULL)
    adw_toast_set_custom_title (toast, words_new ());
  gtk_label_set_label (GTK_LABEL (adw_toast_get_custom_title (toast)), text);
  adw_toast_set_button_label (toast, button);
  adw_toast_set_detailed_action_name (toast, button != NULL ? action : NULL);
}

/* The latest word counts: one that waits for the former to go would answer a key long after it. Where the former is
 * still on its way in or out, libadwaita 1.2 frees it twice when it is sent away, so it says the new words itself. */
void
hs_window_toast (HsWindow   *self,
                 const char *text,
                 const char *button,
                 const char *action)
{
  gint64 now = g_get_monotonic_time ();
  AdwToast *toast;

  g_return_if_fail (HS_IS_WINDOW (self));

  if (now - self->refused_at > REFUSAL_STAYS)
    hs_window_set_notice (self, "refused", NULL);
  if (self->toast != NULL && now - self->toast_at < TOAST_MOVES)
    {
      set_toast (self->toast, text, button, action);
      return;
    }
  if (self->toast != NULL)
    adw_toast_dismiss (self->toast);
  toast = adw_toast_new ("");
  set_toast (toast, text, button, action);
  g_set_weak_pointer (&self->toast, toast);
  self->toast_at = now;
  adw_toast_overlay_add_toast (self->toasts, toast);
  name_crosses (self);
}

void
hs_window_refuse (HsWindow   *self,
                  const char *text)
{
  g_return_if_fail (HS_IS_WINDOW (self));

  hs_window_set_notice (self, "refused", text);
  self->refused_at = g_get_monotonic_time ();
}
