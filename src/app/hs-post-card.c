// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* How jobs are posted.
 *
 *   hs_ask_settings, hs_ask_unsent ─▶ fields and ticks      leave or tick one ─▶ hs_deed_set, hs_deed_post_switch
 *   the secret ─▶ hs_deed_keep_secret ─▶ the keyring; the field is empty again
 *
 * Everything is off and held back before it is ticked, one by one. Without a network in the program there is a sentence
 * instead. The secret is never read back. */

#include "hs-post-card.h"

#include <glib/gi18n.h>
#include <string.h>

#include "hs-act-check.h"
#include "hs-deed-post.h"
#include "hs-deed-setup.h"
#include "hs-follow.h"
#include "hs-key-button.h"
#include "hs-poster.h"
#include "hs-question.h"
#include "hs-refusal.h"
#include "hs-spoken.h"

struct _HsPostCard
{
  AdwBin parent_instance;

  GtkLabel *told;
  GtkWidget *all;
  GtkDropDown *auth;
  GtkListItemFactory *wrapped;
  GtkWidget *user_box;
  GtkWidget *secret_box;
  GtkEditable *secret;
  GtkCheckButton *on;

  HsLedger *ledger;
  HsQuestion *settings;
  HsQuestion *posting;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (HsPostCard, hs_post_card, ADW_TYPE_BIN)

static guint told_signal;

static const char *const entry_keys[] = { "post_url", "post_user", "post_secret_file", "post_ca_file", NULL };
static const char *const tick_keys[] = { "post_private_network", "post_phone", "post_street", "post_signature",
                                         "post_photos", "post_costs", NULL };
static const char *const auths[] = { "none", "bearer", "basic" };

static const char *
stored (HsPostCard *self, const char *key)
{
  GPtrArray *settings = self->settings != NULL ? hs_question_get (self->settings) : NULL;

  for (guint i = 0; settings != NULL && i < settings->len; i++)
    if (g_str_equal (((const HsSetting *) g_ptr_array_index (settings, i))->key, key))
      return ((const HsSetting *) g_ptr_array_index (settings, i))->value;
  return NULL;
}

/* Showing. */

static guint
auth_of (const char *id)
{
  for (guint i = 0; i < G_N_ELEMENTS (auths); i++)
    if (g_strcmp0 (auths[i], id) == 0)
      return i;
  return 0;
}

static void
show_fields (HsPostCard *self)
{
  guint auth = gtk_drop_down_get_selected (self->auth);

  gtk_widget_set_visible (self->user_box, g_str_equal (auths[auth], "basic"));
  gtk_widget_set_visible (self->secret_box, auth != 0);
}

static void
fill (HsPostCard *self)
{
  const HsPostOverview *posting = hs_question_get (self->posting);

  if (hs_question_get (self->settings) == NULL)
    return;
  self->filling = TRUE;
  for (guint i = 0; entry_keys[i] != NULL; i++)
    hs_follow_fill (GTK_EDITABLE (hs_post_card_get (self, entry_keys[i])), stored (self, entry_keys[i]));
  for (guint i = 0; tick_keys[i] != NULL; i++)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (hs_post_card_get (self, tick_keys[i])),
                                 g_strcmp0 (stored (self, tick_keys[i]), "yes") == 0);
  gtk_drop_down_set_selected (self->auth, auth_of (stored (self, "post_auth")));
  gtk_check_button_set_active (self->on, posting != NULL && posting->on);
  gtk_widget_set_visible (self->all, posting != NULL && posting->on);
  self->filling = FALSE;
  show_fields (self);
}

/* Writing. */

static void
say (HsPostCard *self, const char *text, gboolean good)
{
  g_signal_emit (self, told_signal, 0, text, good);
}

/* What is on its way to the book or the keyring; the window may be shut meanwhile. */
typedef struct
{
  HsPostCard *self;
  HsRefusal *asked; /* %NULL: of a card that stands in no window */
} Asking;

static void
asking_free (Asking *asking)
{
  g_clear_pointer (&asking->asked, hs_refusal_free);
  g_object_unref (asking->self);
  g_free (asking);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Asking, asking_free)

static Asking *
asking_new (HsPostCard *self, const char *typed)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  Asking *asking = g_new0 (Asking, 1);

  asking->self = g_object_ref (self);
  if (GTK_IS_WINDOW (root))
    asking->asked = hs_refusal_expect (GTK_WINDOW (root), typed);
  return asking;
}

static gboolean
is_late (const Asking *asking, const GError *error)
{
  return asking->asked != NULL && hs_refusal_late (asking->asked, error != NULL ? error->message : NULL);
}

/* What was refused is shown as it is. */
static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Asking) asking = data;
  HsPostCard *self = asking->self;
  g_autoptr (GError) error = NULL;
  gboolean good = hs_ledger_task_finish (HS_LEDGER (source), result, NULL, &error);

  if (is_late (asking, error))
    return;
  say (self, good ? _("Written down.") : error->message, good);
  if (!good && self->settings != NULL)
    fill (self);
}

static void
save (HsPostCard *self, const char *key, const char *value)
{
  const char *before = stored (self, key);

  if (self->filling || before == NULL || g_str_equal (before, value))
    return;
  hs_deed_set (self->ledger, key, value, done_cb, asking_new (self, value));
}

static void
save_entry (HsPostCard *self, GtkWidget *entry)
{
  if (hs_follow_is_touched (GTK_EDITABLE (entry)))
    save (self, gtk_buildable_get_buildable_id (GTK_BUILDABLE (entry)), gtk_editable_get_text (GTK_EDITABLE (entry)));
}

static void
entry_left_cb (HsPostCard *self, GtkEventController *controller)
{
  save_entry (self, gtk_event_controller_get_widget (controller));
}

static void
ticked_cb (HsPostCard *self, GtkCheckButton *tick)
{
  save (self, gtk_buildable_get_buildable_id (GTK_BUILDABLE (tick)), gtk_check_button_get_active (tick) ? "yes" : "no");
}

static void
auth_cb (HsPostCard *self)
{
  guint auth = gtk_drop_down_get_selected (self->auth);

  if (auth >= G_N_ELEMENTS (auths))
    return;
  show_fields (self);
  save (self, "post_auth", auths[auth]);
}

static void
switched_cb (HsPostCard *self)
{
  const HsPostOverview *posting = hs_question_get (self->posting);
  gboolean on = gtk_check_button_get_active (self->on);

  if (self->filling || posting == NULL || posting->on == on)
    return;
  hs_deed_post_switch (self->ledger, on, done_cb, asking_new (self, NULL));
}

static void
queued_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Asking) asking = data;
  g_autoptr (GError) error = NULL;
  gboolean good;
  gpointer n_jobs = NULL;
  guint n;
  g_autofree char *text = NULL;

  good = hs_ledger_task_finish (HS_LEDGER (source), result, &n_jobs, &error);
  if (is_late (asking, error))
    return;
  if (!good)
    {
      say (asking->self, error->message, FALSE);
      return;
    }
  n = GPOINTER_TO_UINT (n_jobs);
  text = g_strdup_printf (ngettext ("%u job waits to be posted.", "%u jobs wait to be posted.", n), n);
  say (asking->self, text, TRUE);
}

static void
all_cb (HsPostCard *self)
{
  hs_deed_post_all (self->ledger, queued_cb, asking_new (self, NULL));
}

/* The secret: never shown again, and told to nobody who reports what was typed. A keyring may ask to be unlocked first,
 * and the window be shut meanwhile. */

static void
secret_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Asking) asking = data;
  g_autoptr (GError) error = NULL;
  gboolean good = hs_deed_keep_secret_finish (HS_LEDGER (source), result, &error);

  if (!is_late (asking, error))
    say (asking->self, good ? _("Done; the keyring of this machine has it so.") : error->message, good);
}

static void
keep (HsPostCard *self, const char *secret)
{
  if (self->ledger != NULL)
    hs_deed_keep_secret (self->ledger, secret, secret_cb, asking_new (self, NULL));
}

static void
keep_secret_cb (HsPostCard *self)
{
  g_autofree char *secret = g_strdup (gtk_editable_get_text (self->secret));

  if (*secret == '\0')
    return;
  keep (self, secret);
  explicit_bzero (secret, strlen (secret));
  gtk_editable_set_text (self->secret, "");
}

static void
forget_secret_cb (HsPostCard *self)
{
  keep (self, NULL);
}

static void
hs_post_card_dispose (GObject *object)
{
  HsPostCard *self = HS_POST_CARD (object);

  g_clear_object (&self->settings);
  g_clear_object (&self->posting);
  g_clear_object (&self->ledger);
  G_OBJECT_CLASS (hs_post_card_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HsPostCard, told);
  gtk_widget_class_bind_template_child (widget_class, HsPostCard, all);
  gtk_widget_class_bind_template_child (widget_class, HsPostCard, user_box);
  gtk_widget_class_bind_template_child (widget_class, HsPostCard, secret_box);
  gtk_widget_class_bind_template_child (widget_class, HsPostCard, secret);
  gtk_widget_class_bind_template_child (widget_class, HsPostCard, on);
  gtk_widget_class_bind_template_child_full (widget_class, "post_auth", FALSE, G_STRUCT_OFFSET (HsPostCard, auth));
  gtk_widget_class_bind_template_child (widget_class, HsPostCard, wrapped);
  gtk_widget_class_bind_template_child_full (widget_class, "fields", FALSE, 0);
  for (guint i = 0; entry_keys[i] != NULL; i++)
    gtk_widget_class_bind_template_child_full (widget_class, entry_keys[i], FALSE, 0);
  for (guint i = 0; tick_keys[i] != NULL; i++)
    gtk_widget_class_bind_template_child_full (widget_class, tick_keys[i], FALSE, 0);
  gtk_widget_class_bind_template_callback (widget_class, save_entry);
  gtk_widget_class_bind_template_callback (widget_class, entry_left_cb);
  gtk_widget_class_bind_template_callback (widget_class, ticked_cb);
  gtk_widget_class_bind_template_callback (widget_class, auth_cb);
  gtk_widget_class_bind_template_callback (widget_class, switched_cb);
  gtk_widget_class_bind_template_callback (widget_class, all_cb);
  gtk_widget_class_bind_template_callback (widget_class, keep_secret_cb);
  gtk_widget_class_bind_template_callback (widget_class, forget_secret_cb);
}

static void
hs_post_card_class_init (HsPostCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_post_card_dispose;
  told_signal = g_signal_new ("told", HS_TYPE_POST_CARD, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                              G_TYPE_STRING, G_TYPE_BOOLEAN);
  g_type_ensure (HS_TYPE_ACT_CHECK);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-post-card.ui");
  bind_children (widget_class);
}

static void
hs_post_card_init (HsPostCard *self)
{
  const char *words[] = { _("nothing"), _("a token (bearer)"), _("a name and a password (basic)"), NULL };
  g_autoptr (GtkStringList) list = gtk_string_list_new (words);

  self->filling = TRUE;
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_drop_down_set_model (self->auth, G_LIST_MODEL (list));
  /* The list keeps its own rows, with their tick; the button is as narrow as its longest word. */
  gtk_drop_down_set_list_factory (self->auth, gtk_drop_down_get_factory (self->auth));
  gtk_drop_down_set_factory (self->auth, self->wrapped);
  hs_spoken_name_drop_down (self->auth, _("How the endpoint knows who posts"));
  self->filling = FALSE;
  show_fields (self);
}

void
hs_post_card_set_ledger (HsPostCard *self, HsLedger *ledger)
{
  gboolean built_in = hs_post_net_get () != NULL;

  g_return_if_fail (HS_IS_POST_CARD (self));
  g_return_if_fail (self->ledger == NULL);

  self->ledger = g_object_ref (ledger);
  gtk_widget_set_visible (GTK_WIDGET (gtk_widget_get_template_child (GTK_WIDGET (self), HS_TYPE_POST_CARD, "fields")),
                          built_in);
  if (!built_in)
    {
      gtk_label_set_label (self->told, _("This build does not post: nothing ever leaves this machine by itself."));
      return;
    }
  self->settings = hs_question_new (ledger, hs_ask_settings, (GDestroyNotify) g_ptr_array_unref);
  self->posting = hs_question_new (ledger, hs_ask_unsent, (GDestroyNotify) hs_post_overview_free);
  g_signal_connect_object (self->settings, "answered", G_CALLBACK (fill), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->posting, "answered", G_CALLBACK (fill), self, G_CONNECT_SWAPPED);
  hs_question_ask (self->settings, NULL);
  hs_question_ask (self->posting, g_variant_new ("(ut)", 0, (guint64) 0));
}

void
hs_post_card_flush (HsPostCard *self)
{
  g_return_if_fail (HS_IS_POST_CARD (self));

  if (self->settings == NULL)
    return;
  for (guint i = 0; entry_keys[i] != NULL; i++)
    save_entry (self, hs_post_card_get (self, entry_keys[i]));
  keep_secret_cb (self);
}

gboolean
hs_post_card_has (const char *key)
{
  return g_strv_contains (entry_keys, key) || g_strv_contains (tick_keys, key) || g_str_equal (key, "post_auth");
}

GtkWidget *
hs_post_card_get (HsPostCard *self, const char *key)
{
  g_return_val_if_fail (HS_IS_POST_CARD (self), NULL);

  return GTK_WIDGET (gtk_widget_get_template_child (GTK_WIDGET (self), HS_TYPE_POST_CARD, key));
}
