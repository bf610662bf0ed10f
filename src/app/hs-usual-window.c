// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* A usual job by digits.
 *
 *   what ─▶ yes? ─▶ hs_deed_agree_usual ─▶ safe? ─▶ why ─▶ works now? ─▶ paid ─▶ hs_deed_finish_usual ─▶ receipt
 *                                            └── each step ─▶ HsDraft ─▶ "Where was I" ──┘
 *
 * Nothing is squared before Enter under the total. What the book refuses stands in the window with its reason, and one
 * step back mends it. */

#include "hs-usual-window-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "hs-deed-usual.h"
#include "hs-key-button.h"
#include "hs-mover.h"
#include "hs-pad-key.h"

#define MOST_DIGITS 6


/* Those that can be come back to have a name in drafts. */
static const struct
{
  const char *id;
  const char *title;
} steps[HS_USUAL_N_STEPS] = {
  [HS_USUAL_SAFE] = { "safe", N_("Make safe") },
  [HS_USUAL_WHY] = { "why", N_("Why") },     [HS_USUAL_PROOF] = { "proof", N_("Does it work now?") },
  [HS_USUAL_PAID] = { "paid", N_("Paid") },  [HS_USUAL_SQUARE] = { "square", N_("Squared up") },
};

static const char *const means[] = { "phone", "in_person" };


G_DEFINE_FINAL_TYPE (HsUsualWindow, hs_usual_window, ADW_TYPE_WINDOW)

enum
{
  DONE,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

const char *
hs_usual_window_field_title (const char *field)
{
  for (guint i = 0; i < HS_USUAL_N_STEPS; i++)
    if (steps[i].id != NULL && g_strcmp0 (steps[i].id, field) == 0)
      return _(steps[i].title);
  return "";
}

/* Where was I. ----------------------------------------------------------------------------------------------------- */

/* "1/0/=7/2": which one, why, what was keyed (or "#1": why not), how it is paid, as far as it is told. */
static char *
dup_text (HsUsualWindow *self)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%u", self->nth);
  if (self->step > HS_USUAL_WHY)
    g_string_append_printf (text, "/%d", self->why);
  if (self->step > HS_USUAL_UNPROVEN && self->unproven >= 0)
    g_string_append_printf (text, "/#%d", self->unproven);
  else if (self->step > HS_USUAL_UNPROVEN)
    g_string_append_printf (text, "/=%s", self->proof);
  if (self->step > HS_USUAL_PAID)
    g_string_append_printf (text, "/%d", self->way);
  return g_string_free (text, FALSE);
}

static void
note (HsUsualWindow *self)
{
  g_autofree char *text = dup_text (self);

  if (self->draft != NULL && self->job_id != NULL && steps[self->step].id != NULL)
    hs_draft_note (self->draft, self->job_id, HS_USUAL_PAGE, steps[self->step].id, text);
}

void
hs_usual_window_go_to (HsUsualWindow *self, HsUsualStep step)
{
  hs_usual_window_ask (self, step);
  note (self);
}

static gboolean
take_up_proof (HsUsualWindow *self, const char *part)
{
  int most = (int) g_strv_length ((char **) hs_usual_reasons);

  if (part == NULL || (*part != '=' && *part != '#'))
    return FALSE;
  self->unproven = *part == '#' ? CLAMP (atoi (part + 1), 0, most - 1) : -1;
  g_free (self->proof);
  self->proof = *part == '=' ? g_strdup (part + 1) : NULL;
  return TRUE;
}

static void
take_up (HsUsualWindow *self)
{
  g_auto (GStrv) parts = g_strsplit (self->gone_text, "/", 4);
  guint n = g_strv_length (parts);
  HsUsualStep step = HS_USUAL_WHAT;

  self->nth = n > 0 ? (guint) atoi (parts[0]) : 0;
  if (hs_usual_window_get (self) != NULL)
    {
      self->agreed = TRUE;
      step = HS_USUAL_SAFE;
    }
  if (step == HS_USUAL_SAFE && n > 1)
    {
      self->why = CLAMP (atoi (parts[1]), -1, (int) g_strv_length (hs_usual_window_get (self)->whys) - 1);
      step = HS_USUAL_PROOF;
    }
  if (step == HS_USUAL_PROOF && n > 2 && take_up_proof (self, parts[2]))
    step = HS_USUAL_PAID;
  if (step == HS_USUAL_PAID && n > 3)
    {
      self->way = CLAMP (atoi (parts[3]), 0, (int) HS_USUAL_N_WAYS - 1);
      step = HS_USUAL_SQUARE;
    }
  g_clear_pointer (&self->gone_text, g_free);
  if (step == HS_USUAL_SAFE)
    hs_usual_window_go_to_safe (self);
  else
    hs_usual_window_go_to (self, step);
}

/* What is done. ---------------------------------------------------------------------------------------------------- */

gboolean
hs_usual_window_finish_task (HsRefusal *asked, GObject *source, GAsyncResult *result, gpointer *ret_answer)
{
  g_autoptr (GError) error = NULL;
  HsUsualWindow *self = hs_refusal_get_window (asked);
  gboolean done = hs_ledger_task_finish (HS_LEDGER (source), result, ret_answer, &error);

  self->busy = FALSE;
  if (!hs_refusal_late (asked, done ? NULL : error->message) && !done)
    hs_usual_window_tell (self, error->message);
  return done;
}

static void
agreed_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsUsualWindow *self = hs_refusal_get_window (asked);

  if (!hs_usual_window_finish_task (asked, source, result, NULL))
    return;
  self->agreed = TRUE;
  if (self->home != NULL)
    {
      g_autofree char *what = g_strdup_printf (_("Go-ahead: %s"), hs_usual_window_get (self)->name);

      hs_window_did (self->home, what, NULL, NULL, NULL);
    }
  hs_usual_window_go_to_safe (self);
}

static void
squared_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (HsRefusal) asked = data;
  HsUsualWindow *self = hs_refusal_get_window (asked);
  HsJobView *view = NULL;

  if (!hs_usual_window_finish_task (asked, source, result, (gpointer *) &view))
    return;
  self->receipt = view;
  if (self->home != NULL)
    hs_mover_tell_in (self->home, view->tag->number, HS_STAGE_SQUARED);
  hs_usual_window_go_to (self, HS_USUAL_RECEIPT);
}

static void
square (HsUsualWindow *self)
{
  HsUsualEnd end = { .nth = self->nth, .why = self->why, .paid = hs_usual_ways[self->way] };

  end.keyed = self->unproven < 0 ? self->proof : NULL;
  end.unproven = self->unproven >= 0 ? _(hs_usual_reasons[self->unproven]) : NULL;
  self->busy = TRUE;
  /* Before the deed, which takes the job's drafts out. */
  if (self->draft != NULL)
    hs_draft_flush (self->draft);
  hs_deed_finish_usual (self->ledger, self->job_id, &end, squared_cb,
                        hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
press_what (HsUsualWindow *self, guint digit)
{
  const char *job_id;

  self->nth = digit;
  if (hs_usual_window_get (self) == NULL)
    return;
  if (self->job_id == NULL)
    {
      job_id = self->get_job (hs_usual_window_get (self), self->data);
      if (job_id == NULL)
        {
          gtk_window_close (GTK_WINDOW (self));
          return;
        }
      self->job_id = g_strdup (job_id);
    }
  hs_usual_window_go_to (self, HS_USUAL_YES);
}

static void
press_yes (HsUsualWindow *self, guint digit)
{
  if (digit == 0)
    gtk_window_close (GTK_WINDOW (self));
  if (digit < 1 || digit > G_N_ELEMENTS (means))
    return;
  self->busy = TRUE;
  hs_deed_agree_usual (self->ledger, self->job_id, self->nth, means[digit - 1], agreed_cb,
                       hs_refusal_expect (GTK_WINDOW (self), NULL));
}

static void
press_why (HsUsualWindow *self, guint digit)
{
  if (digit > g_strv_length (hs_usual_window_get (self)->whys))
    return;
  self->why = (int) digit - 1;
  hs_usual_window_go_to (self, HS_USUAL_PROOF);
}

static void
prove (HsUsualWindow *self, const char *keyed, int unproven)
{
  g_free (self->proof);
  self->proof = g_strdup (keyed);
  self->unproven = unproven;
  hs_usual_window_go_to (self, HS_USUAL_PAID);
}

static void
press_proof (HsUsualWindow *self, char sign)
{
  const HsUsual *usual = hs_usual_window_get (self);
  const HsCheck *check = hs_usual_window_get_check (self);
  HsReading reading;
  g_autoptr (GError) error = NULL;

  if (sign == '*')
    hs_usual_window_go_to (self, HS_USUAL_UNPROVEN);
  else if (check == NULL)
    return;
  else if (usual->keyed != NULL && sign == '1')
    prove (self, usual->keyed, -1);
  else if (usual->keyed == NULL && (g_ascii_isdigit (sign) || sign == '.') && self->typed->len < MOST_DIGITS)
    {
      g_string_append_c (self->typed, sign);
      hs_usual_window_go_to (self, HS_USUAL_PROOF);
    }
  else if (usual->keyed == NULL && sign == '\n' && hs_check_read_pad (check, self->typed->str, &reading, &error))
    prove (self, self->typed->str, -1);
  else if (error != NULL)
    hs_usual_window_tell (self, error->message);
}

static void
press_back (HsUsualWindow *self)
{
  if (self->step == HS_USUAL_PROOF && self->typed->len > 0)
    {
      g_string_truncate (self->typed, self->typed->len - 1);
      hs_usual_window_go_to (self, HS_USUAL_PROOF);
    }
  else if (self->step == HS_USUAL_PROOF)
    hs_usual_window_go_to (self, HS_USUAL_WHY);
  else if (self->step == HS_USUAL_UNPROVEN || self->step == HS_USUAL_PAID)
    hs_usual_window_go_to (self, HS_USUAL_PROOF);
  else if (self->step == HS_USUAL_SQUARE)
    hs_usual_window_go_to (self, HS_USUAL_PAID);
}

static void
press_digit (HsUsualWindow *self, guint digit)
{
  if (self->step == HS_USUAL_WHAT)
    press_what (self, digit);
  else if (self->step == HS_USUAL_YES)
    press_yes (self, digit);
  else if (self->step == HS_USUAL_WHY)
    press_why (self, digit);
  else if (self->step == HS_USUAL_UNPROVEN && digit >= 1 && digit <= g_strv_length ((char **) hs_usual_reasons))
    prove (self, NULL, (int) digit - 1);
  else if (self->step == HS_USUAL_PAID && digit >= 1 && digit <= HS_USUAL_N_WAYS)
    {
      self->way = (int) digit - 1;
      hs_usual_window_go_to (self, HS_USUAL_SQUARE);
    }
}

static gboolean
press (HsUsualWindow *self, char sign)
{
  if (self->busy)
    return sign != '\0';
  if (sign == '-' || sign == '\b')
    press_back (self);
  else if (self->step == HS_USUAL_PROOF)
    press_proof (self, sign);
  else if (self->step == HS_USUAL_SAFE)
    return hs_usual_window_press_safe (self, sign);
  else if (g_ascii_isdigit (sign))
    press_digit (self, (guint) (sign - '0'));
  else if (sign == '\n' && self->step == HS_USUAL_SQUARE)
    square (self);
  else if (sign == '\n' && self->step == HS_USUAL_RECEIPT)
    gtk_window_close (GTK_WINDOW (self));
  else
    return FALSE;
  return TRUE;
}

/* Enter on a button is the button's. */
static gboolean
key_cb (HsUsualWindow *self, guint keyval, guint keycode, GdkModifierType state)
{
  char sign = hs_pad_key_sign (keyval);

  gboolean repeats = sign == '\n' && self->held && self->step == HS_USUAL_SAFE;

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0 || sign == '\0')
    return GDK_EVENT_PROPAGATE;
  self->held = sign == '\n';
  if (repeats)
    return GDK_EVENT_STOP;
  return press (self, sign) ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

static void
key_released_cb (HsUsualWindow *self)
{
  self->held = FALSE;
}

static void
press_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  press (HS_USUAL_WINDOW (widget), (char) g_variant_get_int32 (parameter));
}

static void
leave_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gtk_window_close (GTK_WINDOW (widget));
}

static void
back_action (GtkWidget *widget, const char *name, GVariant *parameter)
{
  press_back (HS_USUAL_WINDOW (widget));
}

/* What is on its way to the book is waited for: its answer may be a refusal that has to be seen. */
static gboolean
close_request_cb (HsUsualWindow *self)
{
  if (self->busy)
    return TRUE;
  if (self->draft != NULL)
    hs_draft_flush (self->draft);
  if (self->agreed)
    g_signal_emit (self, signals[DONE], 0, self->receipt);
  return FALSE;
}

static void
listed_cb (HsUsualWindow *self)
{
  if (hs_question_get_trouble (self->ask) != NULL)
    hs_usual_window_tell (self, hs_question_get_trouble (self->ask));
  else if (self->gone_text != NULL)
    take_up (self);
  else if (self->step == HS_USUAL_WHAT)
    hs_usual_window_go_to (self, HS_USUAL_WHAT);
}

static void
hs_usual_window_dispose (GObject *object)
{
  HsUsualWindow *self = HS_USUAL_WINDOW (object);

  g_clear_weak_pointer (&self->home);
  g_clear_object (&self->ask);
  g_clear_object (&self->arrival);
  g_clear_object (&self->draft);
  g_clear_object (&self->ledger);
  G_OBJECT_CLASS (hs_usual_window_parent_class)->dispose (object);
}

static void
hs_usual_window_finalize (GObject *object)
{
  HsUsualWindow *self = HS_USUAL_WINDOW (object);

  g_free (self->job_id);
  g_free (self->proof);
  g_free (self->gone_text);
  g_string_free (self->typed, TRUE);
  hs_job_view_free (self->receipt);
  G_OBJECT_CLASS (hs_usual_window_parent_class)->finalize (object);
}

static void
hs_usual_window_class_init (HsUsualWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hs_usual_window_dispose;
  G_OBJECT_CLASS (klass)->finalize = hs_usual_window_finalize;
  signals[DONE] = g_signal_new ("done", HS_TYPE_USUAL_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                G_TYPE_POINTER);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-usual-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HsUsualWindow, so_far);
  gtk_widget_class_bind_template_child (widget_class, HsUsualWindow, figure);
  gtk_widget_class_bind_template_child (widget_class, HsUsualWindow, question);
  gtk_widget_class_bind_template_child (widget_class, HsUsualWindow, caution);
  gtk_widget_class_bind_template_child (widget_class, HsUsualWindow, answers);
  gtk_widget_class_bind_template_child (widget_class, HsUsualWindow, refusal);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
  gtk_widget_class_bind_template_callback (widget_class, key_released_cb);
  gtk_widget_class_bind_template_callback (widget_class, close_request_cb);
  gtk_widget_class_install_action (widget_class, "usual.press", "i", press_action);
  gtk_widget_class_install_action (widget_class, "usual.leave", NULL, leave_action);
  gtk_widget_class_install_action (widget_class, "usual.back", NULL, back_action);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "usual.leave", NULL);
}

static void
hs_usual_window_init (HsUsualWindow *self)
{
  self->typed = g_string_new (NULL);
  self->unproven = -1;
  gtk_widget_init_template (GTK_WIDGET (self));
}

HsUsualWindow *
hs_usual_window_present (GtkWindow *over, HsWindow *home, HsLedger *ledger, HsDraft *draft, const char *job_id,
                         HsUsualJobFunc get_job, gpointer data)
{
  HsUsualWindow *self;

  g_return_val_if_fail (GTK_IS_WINDOW (over), NULL);
  g_return_val_if_fail (job_id != NULL || get_job != NULL, NULL);

  self = g_object_new (HS_TYPE_USUAL_WINDOW, "transient-for", over, "destroy-with-parent", TRUE, NULL);
  g_set_weak_pointer (&self->home, home);
  self->ledger = g_object_ref (ledger);
  g_set_object (&self->draft, draft);
  self->job_id = g_strdup (job_id);
  self->get_job = get_job;
  self->data = data;
  self->ask = hs_question_new (ledger, hs_ask_usual, (GDestroyNotify) g_ptr_array_unref);
  g_signal_connect_object (self->ask, "answered", G_CALLBACK (listed_cb), self, G_CONNECT_SWAPPED);
  hs_question_ask (self->ask, NULL);
  hs_window_fit_over (GTK_WINDOW (self));
  gtk_window_present (GTK_WINDOW (self));
  return self;
}

void
hs_usual_window_go (HsUsualWindow *self, const char *text)
{
  g_return_if_fail (HS_IS_USUAL_WINDOW (self));

  g_free (self->gone_text);
  self->gone_text = g_strdup (text != NULL ? text : "");
}
