// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The window's frame: header with tabs, lasting messages, views with one job page over them, bottom bar.
 *
 * Use hs_window_add_page() to fill it; the actions and keys are in hs-window-actions.c, what is said in -say.c, what
 * lies over it in -over.c. It refuses to know what a page shows: pages bring their widgets, titles and key hints.
 *
 *   HsRoom (narrow, cramped)
 *     header · notices · toasts over deck { views: GtkStack of five, job: one page } · footer · bottom tabs */

#include "hs-window-private.h"

#include "hs-chip.h"
#include "hs-glyph.h"
#include "hs-in-sight.h"
#include "hs-key-button.h"
#include "hs-page.h"
#include "hs-room.h"
#include "hs-spoken.h"
#include "hs-tabs.h"

enum
{
  PROP_0,
  PROP_CLOCK,
  PROP_NARROW,
  PROP_CRAMPED,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

enum
{
  JOB_CLOSED,
  PAGE_SHOWN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (HsWindow, hs_window, ADW_TYPE_APPLICATION_WINDOW)

static void
free_hints (gpointer data)
{
  GArray *hints = data;

  for (guint i = 0; i < hints->len; i++)
    {
      HsKeyHint *hint = &g_array_index (hints, HsKeyHint, i);

      g_free ((char *) hint->key);
      g_free ((char *) hint->label);
      g_free ((char *) hint->action);
    }
  g_array_unref (hints);
}

static gboolean
job_is_open (HsWindow *self)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (self->deck), "job") == 0;
}

static gboolean
cover_is_shown (HsWindow *self)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (self->deck), "cover") == 0;
}

static void
update_keys (HsWindow *self)
{
  const char *name = job_is_open (self) ? "job" : gtk_stack_get_visible_child_name (self->views);
  GArray *hints = name != NULL ? g_hash_table_lookup (self->hints, name) : NULL;

  if (hints == NULL)
    hs_key_row_set (self->keys, NULL, 0);
  else
    hs_key_row_set (self->keys, (const HsKeyHint *) (void *) hints->data, hints->len);
}

static void
update_narrow_title (HsWindow *self)
{
  GtkWidget *page = gtk_stack_get_visible_child (self->views);
  GtkStackPage *info;

  if (job_is_open (self))
    {
      gtk_label_set_label (self->narrow_title, gtk_label_get_label (self->job_title));
      return;
    }
  info = page != NULL ? gtk_stack_get_page (self->views, page) : NULL;
  gtk_label_set_label (self->narrow_title, info != NULL ? gtk_stack_page_get_title (info) : "");
}

static void
update_frame (HsWindow *self)
{
  gboolean narrow = hs_room_get_narrow (self->room), job = job_is_open (self), cover = cover_is_shown (self);
  gboolean slim = hs_room_get_slim (self->room), cramped = !narrow && hs_room_get_cramped (self->room);
  PangoEllipsizeMode cut = narrow ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE;
  GtkStack *stack = job ? self->job_stack : self->views;

  gtk_widget_set_visible (self->view_buttons, !job && !cover);
  gtk_widget_set_visible (GTK_WIDGET (self->title_stack), !cover);
  /* The icons below have no room for a word then, so the title has to have it; finding is one of them. */
  gtk_widget_set_visible (self->search_button, !slim);
  gtk_widget_set_visible (self->clock_box, !slim);
  hs_tabs_set_words (self->bottom_tabs, !slim);
  gtk_widget_set_visible (self->job_buttons, job);
  gtk_widget_set_visible (GTK_WIDGET (self->job_title), job && !narrow);
  gtk_widget_set_visible (GTK_WIDGET (self->date_label), !narrow);
  gtk_stack_set_visible_child_name (self->title_stack, narrow ? "narrow" : job ? "job" : "views");
  hs_tabs_set_stack (self->bottom_tabs, stack);
  gtk_widget_set_visible (GTK_WIDGET (self->bottom_tabs), narrow && stack != NULL && !cover);
  gtk_widget_set_visible (GTK_WIDGET (self->keys), !narrow);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->where_words),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_spacing (self->where_words, narrow ? 0 : 12);
  gtk_label_set_ellipsize (self->where_head, cut);
  gtk_label_set_ellipsize (self->age_label, cut);
  /* The keys of the page need the room; the mark and F2 say what it is. */
  gtk_widget_set_visible (GTK_WIDGET (self->where_head), !slim && !cramped);
  hs_key_button_set_bare (self->go_back, cramped);
  gtk_widget_set_visible (GTK_WIDGET (self->age_label), !slim);
  gtk_widget_set_hexpand (self->where_box, narrow);
  /* On a small screen a window is never made smaller or larger; the tabs need the room. */
  adw_header_bar_set_decoration_layout (self->header, narrow || hs_room_get_cramped (self->room) ? ":close" : NULL);
  gtk_widget_set_visible (self->footer, !cover && (!narrow || (self->where_place != NULL && !job)));
  update_narrow_title (self);
}

static void
room_changed (HsWindow *self)
{
  update_frame (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_NARROW]);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_CRAMPED]);
}

static void
view_changed (HsWindow *self)
{
  const char *name = gtk_stack_get_visible_child_name (self->views);

  update_keys (self);
  update_narrow_title (self);
  if (name != NULL)
    g_signal_emit (self, signals[PAGE_SHOWN], 0, name);
}

static void
time_changed (HsWindow *self)
{
  g_autofree char *time = hs_clock_dup_time_text (self->clock);
  g_autofree char *date = hs_clock_dup_date_text (self->clock);
  g_autofree char *spoken = g_strdup_printf ("%s, %s", time, date);

  gtk_label_set_label (self->time_label, time);
  gtk_label_set_label (self->date_label, date);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->clock_box), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

static void
hs_window_set_clock (HsWindow *self,
                     HsClock  *clock)
{
  if (clock == NULL)
    return;
  self->clock = g_object_ref (clock);
  g_signal_connect_object (clock, "notify", G_CALLBACK (time_changed), self, G_CONNECT_SWAPPED);
  time_changed (self);
}

static void
hs_window_get_property (GObject    *object,
                        guint       id,
                        GValue     *value,
                        GParamSpec *pspec)
{
  HsWindow *self = HS_WINDOW (object);

  switch (id)
    {
    case PROP_CLOCK:
      g_value_set_object (value, self->clock);
      break;
    case PROP_NARROW:
      g_value_set_boolean (value, hs_room_get_narrow (self->room));
      break;
    case PROP_CRAMPED:
      g_value_set_boolean (value, hs_room_get_cramped (self->room));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
hs_window_set_property (GObject      *object,
                        guint         id,
                        const GValue *value,
                        GParamSpec   *pspec)
{
  if (id == PROP_CLOCK)
    hs_window_set_clock (HS_WINDOW (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
hs_window_dispose (GObject *object)
{
  HsWindow *self = HS_WINDOW (object);

  g_clear_weak_pointer (&self->toast);
  g_clear_weak_pointer (&self->back_to);
  g_clear_object (&self->job_stack);
  g_clear_object (&self->clock);
  G_OBJECT_CLASS (hs_window_parent_class)->dispose (object);
}

static void
hs_window_finalize (GObject *object)
{
  HsWindow *self = HS_WINDOW (object);

  g_hash_table_unref (self->hints);
  g_free (self->where_place);
  g_free (self->where_age);
  G_OBJECT_CLASS (hs_window_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HsWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, room);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, header);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, title_stack);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, narrow_title);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, view_tabs);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, job_tabs);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, bottom_tabs);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, view_buttons);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, search_button);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, menu_button);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, unsent_button);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, job_buttons);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, job_title);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, time_label);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, date_label);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, clock_box);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, notice_revealer);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, notice_box);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, deck);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, views);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, job_slot);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, footer);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, where_box);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, where_words);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, where_head);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, where_label);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, age_label);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, go_back);
  gtk_widget_class_bind_template_child (widget_class, HsWindow, keys);
  gtk_widget_class_bind_template_callback (widget_class, room_changed);
  gtk_widget_class_bind_template_callback (widget_class, view_changed);
}

static void
hs_window_class_init (HsWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = hs_window_get_property;
  object_class->set_property = hs_window_set_property;
  object_class->dispose = hs_window_dispose;
  object_class->finalize = hs_window_finalize;
  properties[PROP_CLOCK] = g_param_spec_object ("clock", NULL, NULL, HS_TYPE_CLOCK,
                                                G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY | G_PARAM_STATIC_STRINGS);
  properties[PROP_NARROW] = g_param_spec_boolean ("narrow", NULL, NULL, FALSE,
                                                  G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  properties[PROP_CRAMPED] = g_param_spec_boolean ("cramped", NULL, NULL, FALSE,
                                                   G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  signals[JOB_CLOSED] = g_signal_new ("job-closed", HS_TYPE_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                      G_TYPE_NONE, 0);
  signals[PAGE_SHOWN] = g_signal_new ("page-shown", HS_TYPE_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                      G_TYPE_NONE, 1, G_TYPE_STRING);

  g_type_ensure (HS_TYPE_GLYPH);
  g_type_ensure (HS_TYPE_KEY_BUTTON);
  g_type_ensure (HS_TYPE_KEYCAP);
  g_type_ensure (HS_TYPE_KEY_ROW);
  g_type_ensure (HS_TYPE_ROOM);
  g_type_ensure (HS_TYPE_TABS);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-window.ui");
  bind_children (widget_class);
  hs_window_install_actions (widget_class);
}

static void
hs_window_init (HsWindow *self)
{
  self->hints = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, free_hints);
  gtk_widget_init_template (GTK_WIDGET (self));
  hs_spoken_stack (self->title_stack);
  hs_spoken_stack (self->deck);
  hs_spoken_stack (self->views);
  hs_window_watch_keys (self);
  hs_in_sight_follow (GTK_WINDOW (self));
  hs_window_set_where (self, NULL, NULL);
  update_frame (self);
}

HsWindow *
hs_window_new (GtkApplication *application,
               HsClock        *clock)
{
  g_return_val_if_fail (HS_IS_CLOCK (clock), NULL);

  return g_object_new (HS_TYPE_WINDOW, "application", application, "clock", clock, NULL);
}

HsClock *
hs_window_get_clock (HsWindow *self)
{
  g_return_val_if_fail (HS_IS_WINDOW (self), NULL);

  return self->clock;
}

void
hs_window_open_menu (HsWindow *self)
{
  gtk_menu_button_popup (self->menu_button);
}

void
hs_window_set_unsent (HsWindow *self, gboolean unsent)
{
  g_return_if_fail (HS_IS_WINDOW (self));

  gtk_widget_set_visible (self->unsent_button, unsent);
}

void
hs_window_add_page (HsWindow   *self,
                    const char *name,
                    const char *title,
                    const char *drawing,
                    GtkWidget  *page)
{
  GtkStackPage *info;

  g_return_if_fail (HS_IS_WINDOW (self));
  g_return_if_fail (GTK_IS_WIDGET (page));

  info = gtk_stack_add_titled (self->views, page, name, title);
  gtk_stack_page_set_icon_name (info, drawing);
  update_frame (self);
}

void
hs_window_set_keys (HsWindow        *self,
                    const char      *name,
                    const HsKeyHint *hints,
                    guint            n_hints)
{
  GArray *copy;

  g_return_if_fail (HS_IS_WINDOW (self));
  g_return_if_fail (name != NULL);

  copy = g_array_new (FALSE, FALSE, sizeof (HsKeyHint));
  for (guint i = 0; i < n_hints; i++)
    {
      HsKeyHint hint = { g_strdup (hints[i].key), g_strdup (hints[i].label), g_strdup (hints[i].action) };

      g_array_append_val (copy, hint);
    }
  g_hash_table_replace (self->hints, g_strdup (name), copy);
  update_keys (self);
}

void
hs_window_name_key (HsWindow *self, const char *name, const char *action, const char *label)
{
  GArray *hints;

  g_return_if_fail (HS_IS_WINDOW (self));

  hints = g_hash_table_lookup (self->hints, name);
  for (guint i = 0; hints != NULL && i < hints->len; i++)
    {
      HsKeyHint *hint = &g_array_index (hints, HsKeyHint, i);

      if (g_strcmp0 (hint->action, action) != 0 || g_str_equal (hint->label, label))
        continue;
      g_free ((char *) hint->label);
      hint->label = g_strdup (label);
      if (g_strcmp0 (hs_window_get_page (self), name) == 0)
        hs_key_row_set_label (self->keys, action, label);
    }
}

void
hs_window_show_page (HsWindow *self, const char *name)
{
  g_return_if_fail (HS_IS_WINDOW (self));

  hs_window_close_job (self);
  if (gtk_stack_get_child_by_name (self->views, name) != NULL)
    gtk_stack_set_visible_child_name (self->views, name);
  if (HS_IS_PAGE (hs_window_get_visible_page (self)))
    hs_page_lead_into (HS_PAGE (hs_window_get_visible_page (self)));
  /* F4 is for what has the cursor: whoever comes back sees where it is. */
  gtk_window_set_focus_visible (GTK_WINDOW (self), TRUE);
}

GtkSelectionModel *
hs_window_dup_views (HsWindow *self)
{
  g_return_val_if_fail (HS_IS_WINDOW (self), NULL);

  return gtk_stack_get_pages (self->views);
}

const char *
hs_window_get_page (HsWindow *self)
{
  g_return_val_if_fail (HS_IS_WINDOW (self), NULL);

  return job_is_open (self) ? "job" : gtk_stack_get_visible_child_name (self->views);
}

void
hs_window_open_job (HsWindow *self, const char *title, GtkStack *tabs, GtkWidget *page)
{
  GtkWidget *old;

  g_return_if_fail (HS_IS_WINDOW (self));
  g_return_if_fail (tabs == NULL || GTK_IS_STACK (tabs));
  g_return_if_fail (GTK_IS_WIDGET (page));

  if (!job_is_open (self))
    g_set_weak_pointer (&self->back_to, gtk_window_get_focus (GTK_WINDOW (self)));
  if ((old = gtk_widget_get_first_child (GTK_WIDGET (self->job_slot))) != NULL)
    gtk_box_remove (self->job_slot, old);
  gtk_widget_set_hexpand (page, TRUE);
  gtk_widget_set_vexpand (page, TRUE);
  gtk_box_append (self->job_slot, page);
  g_set_object (&self->job_stack, tabs);
  gtk_label_set_label (self->job_title, title);
  hs_tabs_set_stack (self->job_tabs, tabs);
  gtk_stack_set_visible_child_name (self->deck, "job");
  update_frame (self);
  update_keys (self);
  gtk_widget_child_focus (page, GTK_DIR_TAB_FORWARD);
}

void
hs_window_set_job_title (HsWindow   *self,
                         const char *title)
{
  g_return_if_fail (HS_IS_WINDOW (self));

  gtk_label_set_label (self->job_title, title);
  update_narrow_title (self);
}

void
hs_window_close_job (HsWindow *self)
{
  GtkWidget *page;

  g_return_if_fail (HS_IS_WINDOW (self));

  if (!job_is_open (self))
    return;
  gtk_stack_set_visible_child_name (self->deck, "views");
  hs_tabs_set_stack (self->job_tabs, NULL);
  g_clear_object (&self->job_stack);
  update_frame (self);
  update_keys (self);
  hs_window_give_back (GTK_WINDOW (self), self->back_to);
  g_clear_weak_pointer (&self->back_to);
  g_signal_emit (self, signals[JOB_CLOSED], 0);
  if (!job_is_open (self) && (page = gtk_widget_get_first_child (GTK_WIDGET (self->job_slot))) != NULL)
    gtk_box_remove (self->job_slot, page);
}

GtkWidget *
hs_window_get_job (HsWindow *self)
{
  g_return_val_if_fail (HS_IS_WINDOW (self), NULL);

  return job_is_open (self) ? gtk_widget_get_first_child (GTK_WIDGET (self->job_slot)) : NULL;
}

void
hs_window_set_cover (HsWindow  *self,
                     GtkWidget *cover)
{
  GtkWidget *old;

  g_return_if_fail (HS_IS_WINDOW (self));
  g_return_if_fail (cover == NULL || GTK_IS_WIDGET (cover));

  hs_window_close_job (self);
  gtk_stack_set_visible_child_name (self->deck, "views");
  if ((old = gtk_stack_get_child_by_name (self->deck, "cover")) != NULL)
    gtk_stack_remove (self->deck, old);
  if (cover != NULL)
    {
      gtk_stack_add_named (self->deck, cover, "cover");
      gtk_stack_set_visible_child_name (self->deck, "cover");
    }
  update_frame (self);
  update_keys (self);
}

GtkWidget *
hs_window_get_visible_page (HsWindow *self)
{
  GtkWidget *job;
  GtkWidget *view;

  g_return_val_if_fail (HS_IS_WINDOW (self), NULL);

  job = hs_window_get_job (self);
  view = gtk_stack_get_visible_child (self->views);
  if (job == NULL && ADW_IS_BIN (view) && !HS_IS_PAGE (view) && adw_bin_get_child (ADW_BIN (view)) != NULL)
    return adw_bin_get_child (ADW_BIN (view));
  return job != NULL ? job : view;
}

void
hs_window_set_where (HsWindow   *self,
                     const char *place,
                     const char *age)
{
  g_return_if_fail (HS_IS_WINDOW (self));

  if (self->where_place != place)
    {
      g_free (self->where_place);
      self->where_place = g_strdup (place);
    }
  if (self->where_age != age)
    {
      g_free (self->where_age);
      self->where_age = g_strdup (age);
    }
  gtk_label_set_label (self->where_label, place != NULL ? place : "");
  gtk_label_set_label (self->age_label, age != NULL ? age : "");
  gtk_widget_set_visible (self->where_box, place != NULL);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "win.where-was-i", place != NULL);
  update_frame (self);
}

gboolean
hs_window_get_narrow (HsWindow *self)
{
  g_return_val_if_fail (HS_IS_WINDOW (self), FALSE);

  return hs_room_get_narrow (self->room);
}

gboolean
hs_window_get_cramped (HsWindow *self)
{
  g_return_val_if_fail (HS_IS_WINDOW (self), FALSE);

  return hs_room_get_cramped (self->room);
}
