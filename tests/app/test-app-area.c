// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The choice of an area: the pick outlasts the list that it was made in. */

#include <adwaita.h>

#include "hs-app-test.h"
#include "hs-area-choice.h"

typedef struct
{
  GtkWindow *window;
  HsAreaChoice *choice;
  guint n_chosen;
} Bed;

static void
chosen_cb (Bed *bed)
{
  bed->n_chosen++;
}

static void
make_bed (Bed *bed, gconstpointer data)
{
  bed->choice = g_object_new (HS_TYPE_AREA_CHOICE, NULL);
  g_signal_connect_swapped (bed->choice, "chosen", G_CALLBACK (chosen_cb), bed);
  bed->window = hs_app_test_show (GTK_WIDGET (bed->choice), 360, 120);
}

static void
clear_bed (Bed *bed, gconstpointer data)
{
  gtk_window_destroy (bed->window);
}

/* @names: areas in a row, "Q Quayside|O Old Market"; the code comes first. */
static void
list (Bed *bed, const char *names)
{
  g_auto (GStrv) rows = g_strsplit (names, "|", -1);
  g_autoptr (GPtrArray) places = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_place_free);
  g_autoptr (HsSnapshot) snapshot = NULL;

  for (guint i = 0; rows[i] != NULL; i++)
    {
      HsPlace *place = g_new0 (HsPlace, 1);
      g_auto (GStrv) sides = g_strsplit (rows[i], " ", 2);

      place->code = g_strdup (sides[0]);
      place->name = g_strdup (sides[1]);
      g_ptr_array_add (places, place);
    }
  snapshot = hs_snapshot_new (g_steal_pointer (&places), (GDestroyNotify) g_ptr_array_unref);
  hs_area_choice_set_places (bed->choice, snapshot);
}

static const char *
picked (Bed *bed)
{
  const HsPlace *place = hs_area_choice_get_place (bed->choice);

  return place != NULL ? place->code : NULL;
}

static GtkDropDown *
drop_down_of (Bed *bed)
{
  return GTK_DROP_DOWN (hs_app_test_find (GTK_WIDGET (bed->choice), GTK_TYPE_DROP_DOWN));
}

static void
test_code_or_name (Bed *bed, gconstpointer data)
{
  static const struct
  {
    const char *area, *code;
  } rows[] = {
    { "Q", "Q" }, { "Old Market", "O" }, { "O", "O" }, { "Quayside", "Q" }, { NULL, NULL }, { "Q", "Q" },
    { "X", NULL }, { "", NULL },
  };

  list (bed, "T Tannery Row|Q Quayside|O Old Market");
  g_assert_null (picked (bed));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      hs_area_choice_choose (bed->choice, rows[i].area);
      g_assert_cmpstr (picked (bed), ==, rows[i].code);
    }
}

/* Chosen before any list is there. */
static void
test_waits_for_the_list (Bed *bed, gconstpointer data)
{
  hs_area_choice_choose (bed->choice, "Quayside");
  g_assert_null (picked (bed));
  list (bed, "T Tannery Row");
  g_assert_null (picked (bed));
  list (bed, "T Tannery Row|Q Quayside");
  g_assert_cmpstr (picked (bed), ==, "Q");
  g_assert_cmpuint (bed->n_chosen, ==, 0);
}

/* An area that is put before the picked one, gone, back: the pick goes by its code, not by its line. */
static void
test_outlasts_the_list (Bed *bed, gconstpointer data)
{
  list (bed, "T Tannery Row|Q Quayside");
  gtk_drop_down_set_selected (drop_down_of (bed), 2);
  g_assert_cmpstr (picked (bed), ==, "Q");
  g_assert_cmpuint (bed->n_chosen, ==, 1);
  list (bed, "T Tannery Row|O Old Market|Q Quayside");
  g_assert_cmpstr (picked (bed), ==, "Q");
  list (bed, "T Tannery Row|O Old Market");
  g_assert_null (picked (bed));
  hs_area_choice_set_places (bed->choice, NULL);
  g_assert_null (picked (bed));
  list (bed, "Q Quayside Quarter");
  g_assert_cmpstr (picked (bed), ==, "Q");
  g_assert_cmpuint (bed->n_chosen, ==, 1);
}

/* "Not said yet" is a pick too: no later list brings the old one back. */
static void
test_not_said (Bed *bed, gconstpointer data)
{
  list (bed, "T Tannery Row|Q Quayside");
  hs_area_choice_choose (bed->choice, "T");
  g_assert_cmpuint (bed->n_chosen, ==, 1);
  hs_area_choice_choose (bed->choice, "T");
  g_assert_cmpuint (bed->n_chosen, ==, 1);
  gtk_drop_down_set_selected (drop_down_of (bed), 0);
  g_assert_cmpuint (bed->n_chosen, ==, 2);
  list (bed, "T Tannery Row|Q Quayside");
  g_assert_null (picked (bed));
}

/* A wish that no list has yet is no pick of none. */
static void
test_wish_is_silent (Bed *bed, gconstpointer data)
{
  list (bed, "T Tannery Row");
  hs_area_choice_choose (bed->choice, "T");
  hs_area_choice_choose (bed->choice, "Q");
  g_assert_null (picked (bed));
  g_assert_cmpuint (bed->n_chosen, ==, 1);
  list (bed, "T Tannery Row|Q Quayside");
  g_assert_cmpstr (picked (bed), ==, "Q");
}

/* Whoever goes to the choice stands on the drop-down. */
static void
test_focus (Bed *bed, gconstpointer data)
{
  GtkWidget *focus;

  list (bed, "T Tannery Row");
  g_assert_true (gtk_widget_grab_focus (GTK_WIDGET (bed->choice)));
  focus = gtk_window_get_focus (bed->window);
  g_assert_nonnull (focus);
  g_assert_true (gtk_widget_is_ancestor (focus, GTK_WIDGET (bed->choice)));
}

/* @keys: typed one after the other; "|" stands for a pause. */
static void
type (Bed *bed, const char *keys)
{
  for (const char *at = keys; *at != '\0'; at = g_utf8_next_char (at))
    if (*at == '|')
      g_usleep (1600 * 1000);
    else
      hs_app_test_key (GTK_WIDGET (drop_down_of (bed)), gdk_unicode_to_keyval (g_utf8_get_char (at)), 0);
}

static void
test_typing_finds (Bed *bed, gconstpointer data)
{
  static const struct
  {
    const char *keys, *code;
  } rows[] = {
    { "o", "O" },     /* a code */
    { "quay", "Q" },  /* the begin of a name */
    { "QUAY", "Q" },  { "quax", "Q" }, /* what no name goes on with is left out */
    { "row", "T" },   /* a word within a name */
    { "old n", "N" }, /* over a space */
    { "cafe", "E" },  /* without its accent */
    { "t", "T" },     { "tt", "X" }, /* the next one that it begins */
    { "ttt", "T" },   { "quay|o", "O" }, /* a new word after a pause */
    { "z", NULL },
  };

  list (bed, "T Tannery Row|Q Quayside|O Old Market|N Old North|X Tower Hill|E Café Corner");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].keys);
      hs_area_choice_choose (bed->choice, NULL);
      g_usleep (1600 * 1000);
      type (bed, rows[i].keys);
      g_assert_cmpstr (picked (bed), ==, rows[i].code);
    }
}

/* Space opens the list, Ctrl and a letter are for the window, and what is picked by typing is told as any pick. */
static void
test_typing_leaves_other_keys (Bed *bed, gconstpointer data)
{
  list (bed, "T Tannery Row|Q Quayside");
  g_assert_false (hs_app_test_key (GTK_WIDGET (drop_down_of (bed)), GDK_KEY_space, 0));
  g_assert_false (hs_app_test_key (GTK_WIDGET (drop_down_of (bed)), GDK_KEY_q, GDK_CONTROL_MASK));
  g_assert_false (hs_app_test_key (GTK_WIDGET (drop_down_of (bed)), GDK_KEY_Return, 0));
  g_assert_null (picked (bed));
  g_assert_cmpuint (bed->n_chosen, ==, 0);
  type (bed, "q");
  g_assert_cmpuint (bed->n_chosen, ==, 1);
}

/* The list, opened. */

static GtkWidget *
open_list (Bed *bed)
{
  GtkWidget *popover = hs_app_test_find (GTK_WIDGET (drop_down_of (bed)), GTK_TYPE_POPOVER);

  gtk_widget_grab_focus (GTK_WIDGET (bed->choice));
  g_signal_emit_by_name (drop_down_of (bed), "activate");
  hs_app_test_wait (gtk_widget_get_mapped (popover));
  hs_app_test_frames ();
  return popover;
}

/* @keys typed into the open list at whatever has the focus, one right behind the other; "\n" is Enter. */
static void
type_in_list (Bed *bed, const char *keys)
{
  for (const char *at = keys; *at != '\0'; at++)
    {
      GtkWidget *focus = gtk_window_get_focus (bed->window);
      guint keyval = *at == '\n' ? GDK_KEY_Return : gdk_unicode_to_keyval ((guchar) *at);
      char text[2] = { *at, '\0' };
      int end = -1;

      if (hs_app_test_key (focus, keyval, 0))
        continue;
      if (GTK_IS_TEXT (focus) && *at == '\n')
        g_signal_emit_by_name (focus, "activate");
      else if (GTK_IS_TEXT (focus))
        {
          gtk_editable_delete_selection (GTK_EDITABLE (focus));
          gtk_editable_insert_text (GTK_EDITABLE (focus), text, -1, &end);
        }
    }
}

/* The first opening and every later one: the letters find, Enter takes the first that is left, what was not found takes
 * none. */
static void
test_finds_in_the_list (Bed *bed, gconstpointer data)
{
  static const struct
  {
    const char *keys, *code;
  } rows[] = {
    { "Old\n", "O" }, { "quay\n", "Q" }, { "Old N\n", "N" }, { "t\n", "T" }, { "Old\n", "O" },
  };

  list (bed, "T Tannery Row|Q Quayside|O Old Market|N Old North");
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      GtkWidget *popover = open_list (bed);

      g_test_message ("%s", rows[i].keys);
      type_in_list (bed, rows[i].keys);
      hs_app_test_wait (!gtk_widget_get_mapped (popover));
      g_assert_cmpstr (picked (bed), ==, rows[i].code);
      g_assert_cmpuint (bed->n_chosen, ==, i + 1);
    }
}

/* Letters while the focus is elsewhere in the list, or on the closed part of it still, are not lost; nothing is picked
 * before Enter. */
static void
test_letters_from_elsewhere (Bed *bed, gconstpointer data)
{
  GtkWidget *popover, *row;

  list (bed, "T Tannery Row|Q Quayside|O Old Market");
  popover = open_list (bed);
  row = hs_app_test_find (popover, GTK_TYPE_LIST_VIEW);
  gtk_widget_child_focus (row, GTK_DIR_DOWN);
  type_in_list (bed, "qu");
  g_assert_null (picked (bed));
  type_in_list (bed, "\n");
  g_assert_cmpstr (picked (bed), ==, "Q");
  popover = open_list (bed);
  gtk_widget_grab_focus (gtk_widget_get_first_child (GTK_WIDGET (drop_down_of (bed))));
  type_in_list (bed, "ol\n");
  g_assert_cmpstr (picked (bed), ==, "O");
  popover = open_list (bed);
  type_in_list (bed, "zz\n");
  g_assert_true (gtk_widget_get_mapped (popover));
  g_assert_cmpstr (picked (bed), ==, "O");
}

/* A widget behind the choice, as a form has them. */
static GtkWidget *
put_entry_behind (Bed *bed)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *entry = gtk_entry_new ();

  g_object_ref (bed->choice);
  gtk_window_set_child (bed->window, box);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (bed->choice));
  gtk_box_append (GTK_BOX (box), entry);
  g_object_unref (bed->choice);
  /* Tab goes by where things stand, so wait for the frame that lays them out, however long a busy machine takes. */
  do
    hs_app_test_frames ();
  while (gtk_widget_get_width (entry) == 0);
  return entry;
}

static gboolean
is_on (Bed *bed, GtkWidget *widget)
{
  GtkWidget *focus = gtk_window_get_focus (bed->window);

  return focus != NULL && (focus == widget || gtk_widget_is_ancestor (focus, widget));
}

/* Letters pick, Enter goes on to the next field; without letters Enter is the list's. Tab leaves the open list and
 * what was picked. */
static void
test_enter_goes_on (Bed *bed, gconstpointer data)
{
  GtkWidget *entry = put_entry_behind (bed), *popover;

  list (bed, "T Tannery Row|Q Quayside|O Old Market");
  gtk_widget_grab_focus (GTK_WIDGET (bed->choice));
  g_assert_false (hs_app_test_key (GTK_WIDGET (drop_down_of (bed)), GDK_KEY_Return, 0));
  type (bed, "old");
  g_assert_true (hs_app_test_key (GTK_WIDGET (drop_down_of (bed)), GDK_KEY_Return, 0));
  g_assert_true (is_on (bed, entry));
  g_assert_cmpstr (picked (bed), ==, "O");
  gtk_widget_grab_focus (GTK_WIDGET (bed->choice));
  hs_app_test_frames ();
  g_assert_false (hs_app_test_key (GTK_WIDGET (drop_down_of (bed)), GDK_KEY_KP_Enter, 0));
  popover = open_list (bed);
  g_assert_true (hs_app_test_key (gtk_window_get_focus (bed->window), GDK_KEY_Tab, 0));
  hs_app_test_frames ();
  g_assert_false (gtk_widget_get_mapped (popover));
  g_assert_true (is_on (bed, entry));
  g_assert_cmpstr (picked (bed), ==, "O");
}

#define ADD(name, func) g_test_add ("/app/area/" name, Bed, NULL, make_bed, func, clear_bed)

int
main (int argc, char *argv[])
{
  hs_app_test_init (&argc, &argv);
  ADD ("code-or-name", test_code_or_name);
  ADD ("waits-for-the-list", test_waits_for_the_list);
  ADD ("outlasts-the-list", test_outlasts_the_list);
  ADD ("not-said", test_not_said);
  ADD ("wish-is-silent", test_wish_is_silent);
  ADD ("focus", test_focus);
  ADD ("typing-finds", test_typing_finds);
  ADD ("typing-leaves-other-keys", test_typing_leaves_other_keys);
  ADD ("enter-goes-on", test_enter_goes_on);
  ADD ("finds-in-the-list", test_finds_in_the_list);
  ADD ("letters-from-elsewhere", test_letters_from_elsewhere);
  return g_test_run ();
}
