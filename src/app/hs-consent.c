// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Who says so and how, for an answer and for a go-ahead. It decides nothing: what is missing the book says. */

#include "hs-consent.h"

#include <glib/gi18n.h>

#include "hs-key-button.h"
#include "hs-show.h"
#include "hs-words.h"

struct _HsConsent
{
  GtkBox parent_instance;

  GtkEditable *who;
  GtkFlowBox *ways;
  GtkWidget *signing;
  HsSignaturePad *pad;

  const char *means;
  GBytes *signature;
};

enum
{
  CHANGED,
  ENTERED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HsConsent, hs_consent, GTK_TYPE_BOX)

static gboolean
is_signed (HsConsent *self)
{
  return g_strcmp0 (self->means, "signed_on_screen") == 0;
}

static GtkWidget *
get_way (HsConsent *self, guint i)
{
  GtkFlowBoxChild *child = gtk_flow_box_get_child_at_index (self->ways, (int) i);

  return child == NULL ? NULL : gtk_flow_box_child_get_child (child);
}

static void
update (HsConsent *self)
{
  g_autofree char *hint = NULL;
  const char *who = gtk_editable_get_text (self->who);
  gsize n_ways;
  const HsWord *ways = hs_words_get (HS_WORDS_MEANS, &n_ways);

  for (guint i = 0; i < n_ways; i++)
    {
      GtkWidget *way = get_way (self, i);
      gboolean chosen = g_strcmp0 (self->means, ways[i].id) == 0;

      if (chosen)
        gtk_widget_add_css_class (way, "hs-chosen");
      else
        gtk_widget_remove_css_class (way, "hs-chosen");
      gtk_accessible_update_state (GTK_ACCESSIBLE (way), GTK_ACCESSIBLE_STATE_PRESSED, chosen, -1);
    }
  /* Translators: in the box for a signature; the name of who signs. */
  hint = *who == '\0' ? g_strdup (_("Sign here")) : g_strdup_printf (_("Sign here: %s"), who);
  hs_signature_pad_set_hint (self->pad, hint);
  gtk_widget_set_visible (self->signing, is_signed (self) && self->signature == NULL);
  g_signal_emit (self, signals[CHANGED], 0);
}

gboolean
hs_consent_press (HsConsent *self, guint digit)
{
  gsize n_ways;
  const HsWord *ways = hs_words_get (HS_WORDS_MEANS, &n_ways);

  g_return_val_if_fail (HS_IS_CONSENT (self), FALSE);

  if (digit < 1 || digit > n_ways)
    return FALSE;
  self->means = ways[digit - 1].id;
  update (self);
  return TRUE;
}

static void
way_clicked_cb (HsConsent *self, GtkWidget *button)
{
  hs_consent_press (self, GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "digit")));
}

static void
who_changed_cb (HsConsent *self)
{
  update (self);
}

static void
who_entered_cb (HsConsent *self)
{
  g_signal_emit (self, signals[ENTERED], 0);
}

static void
signed_cb (HsConsent *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
clear_clicked_cb (HsConsent *self)
{
  hs_signature_pad_clear (self->pad);
  gtk_widget_grab_focus (GTK_WIDGET (self->pad));
}

static void
hs_consent_finalize (GObject *object)
{
  g_clear_pointer (&HS_CONSENT (object)->signature, g_bytes_unref);
  G_OBJECT_CLASS (hs_consent_parent_class)->finalize (object);
}

static void
hs_consent_class_init (HsConsentClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_consent_finalize;
  signals[CHANGED] = g_signal_new ("changed", HS_TYPE_CONSENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[ENTERED] = g_signal_new ("entered", HS_TYPE_CONSENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (HS_TYPE_SIGNATURE_PAD);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-consent.ui");
  gtk_widget_class_bind_template_child (widget_class, HsConsent, who);
  gtk_widget_class_bind_template_child (widget_class, HsConsent, ways);
  gtk_widget_class_bind_template_child (widget_class, HsConsent, signing);
  gtk_widget_class_bind_template_child (widget_class, HsConsent, pad);
  gtk_widget_class_bind_template_callback (widget_class, who_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, who_entered_cb);
  gtk_widget_class_bind_template_callback (widget_class, signed_cb);
  gtk_widget_class_bind_template_callback (widget_class, clear_clicked_cb);
}

static void
hs_consent_init (HsConsent *self)
{
  gsize n_ways;
  const HsWord *ways = hs_words_get (HS_WORDS_MEANS, &n_ways);

  gtk_widget_init_template (GTK_WIDGET (self));
  for (guint i = 0; i < n_ways; i++)
    {
      g_autofree char *key = g_strdup_printf ("%u", i + 1);
      GtkWidget *button = hs_key_button_new (key, hs_show_word (HS_WORDS_MEANS, ways[i].id), NULL);

      g_object_set_data (G_OBJECT (button), "digit", GUINT_TO_POINTER (i + 1));
      g_signal_connect_object (button, "clicked", G_CALLBACK (way_clicked_cb), self, G_CONNECT_SWAPPED);
      gtk_flow_box_append (self->ways, button);
      gtk_widget_set_focusable (gtk_widget_get_parent (button), FALSE);
    }
  update (self);
}

void
hs_consent_set_who (HsConsent *self, const char *who)
{
  g_return_if_fail (HS_IS_CONSENT (self));

  gtk_editable_set_text (self->who, who != NULL ? who : "");
}

const char *
hs_consent_get_who (HsConsent *self)
{
  g_return_val_if_fail (HS_IS_CONSENT (self), NULL);

  return gtk_editable_get_text (self->who);
}

const char *
hs_consent_get_means (HsConsent *self)
{
  g_return_val_if_fail (HS_IS_CONSENT (self), NULL);

  return self->means;
}

void
hs_consent_set_means (HsConsent *self, const char *id)
{
  int nth = hs_words_index (HS_WORDS_MEANS, id);

  g_return_if_fail (HS_IS_CONSENT (self));

  if (nth >= 0)
    hs_consent_press (self, (guint) nth + 1);
}

const char *
hs_consent_say_missing (void)
{
  return _("How did the answer come? Press a digit: in person, by phone or another way.");
}

void
hs_consent_focus (HsConsent *self)
{
  g_return_if_fail (HS_IS_CONSENT (self));

  gtk_widget_grab_focus (
      get_way (self, self->means != NULL ? (guint) hs_words_index (HS_WORDS_MEANS, self->means) : 0));
}

void
hs_consent_show_digits (HsConsent *self, gboolean shown)
{
  GtkWidget *way;

  g_return_if_fail (HS_IS_CONSENT (self));

  for (guint i = 0; (way = get_way (self, i)) != NULL; i++)
    hs_key_button_set_show_key (HS_KEY_BUTTON (way), shown);
}

GBytes *
hs_consent_dup_signature (HsConsent *self)
{
  g_return_val_if_fail (HS_IS_CONSENT (self), NULL);

  if (!is_signed (self))
    return NULL;
  return self->signature != NULL ? g_bytes_ref (self->signature) : hs_signature_pad_dup_bytes (self->pad);
}

HsSignaturePad *
hs_consent_get_pad (HsConsent *self)
{
  g_return_val_if_fail (HS_IS_CONSENT (self), NULL);

  return self->pad;
}

void
hs_consent_set_signed (HsConsent *self, GBytes *signature)
{
  g_return_if_fail (HS_IS_CONSENT (self));

  if (signature == NULL)
    return;
  g_clear_pointer (&self->signature, g_bytes_unref);
  self->signature = g_bytes_ref (signature);
  hs_consent_press (self, 1);
}
