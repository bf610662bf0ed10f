// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The yes to what passes the go-ahead: offered for an answer that was sent, never for anything else. */

#include "hs-app-test.h"
#include "hs-ops-error.h"
#include "hs-past-yes.h"

typedef struct
{
  HsPastYes past;
  GtkWidget *said, *insist;
} Ask;

static void
set_up (Ask *ask, gconstpointer data)
{
  ask->said = g_object_ref_sink (gtk_label_new (NULL));
  ask->insist = g_object_ref_sink (gtk_button_new ());
  ask->past.said = GTK_LABEL (ask->said);
  ask->past.insist = ask->insist;
  gtk_widget_set_visible (ask->insist, FALSE);
}

static void
tear_down (Ask *ask, gconstpointer data)
{
  hs_past_yes_clear (&ask->past);
  g_object_unref (ask->said);
  g_object_unref (ask->insist);
}

static void
refuse (Ask *ask, HsOpsError code, const char *says)
{
  g_autoptr (GError) error = g_error_new_literal (HS_OPS_ERROR, (int) code, says);

  hs_past_yes_refuse (&ask->past, error);
  g_assert_nonnull (g_strstr_len (gtk_label_get_text (ask->past.said), -1, says));
}

static void
test_answer (Ask *ask, gconstpointer data)
{
  hs_past_yes_give (&ask->past, "48.00");
  refuse (ask, HS_OPS_ERROR_PAST_CEILING, "past by 12.00");
  g_assert_true (gtk_widget_get_visible (ask->insist));
  g_assert_cmpstr (ask->past.passes, ==, "48.00");
  hs_past_yes_forget (&ask->past);
  g_assert_false (gtk_widget_get_visible (ask->insist));
  g_assert_null (ask->past.passes);
}

/* Nothing was sent, or what was sent is refused already: told, with no key that would do nothing. */
static void
test_no_answer (Ask *ask, gconstpointer data)
{
  refuse (ask, HS_OPS_ERROR_PAST_CEILING, "past by 12.00");
  g_assert_false (gtk_widget_get_visible (ask->insist));
  g_assert_null (ask->past.passes);
  hs_past_yes_give (&ask->past, "48,0,0");
  refuse (ask, HS_OPS_ERROR_REFUSED, "no sum");
  g_assert_false (gtk_widget_get_visible (ask->insist));
  refuse (ask, HS_OPS_ERROR_PAST_CEILING, "past by 12.00");
  g_assert_false (gtk_widget_get_visible (ask->insist));
  g_assert_null (ask->past.passes);
}

#define ADD(name, func) g_test_add (name, Ask, NULL, set_up, func, tear_down)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("/past-yes/answer", test_answer);
  ADD ("/past-yes/no-answer", test_no_answer);
  return g_test_run ();
}
