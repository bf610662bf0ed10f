// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The vehicle as it stands there, held against the record field by field; each goes to the book when it is left. */

#include "hs-identify-card.h"

#include <glib/gi18n.h>

#include "hs-deed-arrive.h"
#include "hs-field-row.h"
#include "hs-ident.h"
#include "hs-ops-error.h"
#include "hs-scan.h"
#include "hs-show.h"

#define N_FIELDS (HS_IDENTIFY_SAW_IT + 1)

/* In the order of HsIdentifyField. */
static const struct
{
  const char *id;
  const char *title;
} fields[N_FIELDS] = {
  { "plate", N_("Plate, as it is read off") },
  { "vin", N_("VIN, all of it or the last six signs") },
  { "odometer", N_("Odometer") },
  { "saw_it", N_("Did I see it happen?") },
};

/* How many signs of a plate say that it was read. */
#define PLATE_END 2

struct _HsIdentifyCard
{
  HsJobPane parent_instance;

  GtkBox *rows;

  HsFieldRow *fields[N_FIELDS];
  HsScan *scan;
  gboolean plate_read;
  gboolean vin_read; /* what stands in the field was read off the vehicle */
};

G_DEFINE_FINAL_TYPE (HsIdentifyCard, hs_identify_card, HS_TYPE_JOB_PANE)

typedef struct
{
  HsIdentifyCard *self;
  HsIdentifyField field;
} Deed;

const char *
hs_identify_card_field_title (const char *field)
{
  if (field == NULL || !g_str_has_prefix (field, HS_IDENTIFY_FIELD))
    return NULL;
  for (guint i = 0; i < N_FIELDS; i++)
    if (g_str_equal (field + strlen (HS_IDENTIFY_FIELD), fields[i].id))
      return _(fields[i].title);
  return NULL;
}

static guint
field_of (HsIdentifyCard *self, HsFieldRow *row)
{
  for (guint i = 0; i < N_FIELDS; i++)
    if (self->fields[i] == row)
      return i;
  g_assert_not_reached ();
}

/* Writing. */

/* Returns: (nullable): the plate on record. */
static const char *
get_plate (HsIdentifyCard *self)
{
  const HsJobShot *shot = hs_job_pane_get_shot (HS_JOB_PANE (self));

  return shot != NULL ? shot->arrival->identity->plate : NULL;
}

/* The end of the plate on record, read off the vehicle, stands for all of it. */
static gboolean
is_plate_end (const char *plate, const char *text)
{
  gsize length = strlen (text);

  return plate != NULL && length >= PLATE_END && length < strlen (plate)
         && g_ascii_strcasecmp (plate + strlen (plate) - length, text) == 0;
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Deed *deed = data;
  g_autoptr (HsIdentifyCard) self = deed->self;
  g_autoptr (GError) error = NULL;
  HsFieldRow *row = self->fields[deed->field];
  gpointer how = NULL;

  if (!hs_ledger_task_finish (HS_LEDGER (source), result, &how, &error))
    {
      hs_field_row_refuse (row, error->message, g_error_matches (error, HS_OPS_ERROR, HS_OPS_ERROR_WANTS_WHY));
      return;
    }
  self->vin_read |= deed->field == HS_IDENTIFY_VIN;
  if (deed->field == HS_IDENTIFY_PLATE)
    {
      self->plate_read = TRUE;
      hs_field_row_set_read_back (row, NULL);
    }
  hs_field_row_accept (row);
  if (deed->field == HS_IDENTIFY_PLATE && is_plate_end (get_plate (self), hs_field_row_get_text (row)))
    hs_field_row_set_stored (row, get_plate (self));
  if (deed->field == HS_IDENTIFY_PLATE || deed->field == HS_IDENTIFY_VIN)
    hs_field_row_say (row, GPOINTER_TO_INT (how) == HS_IDENTIFIED_AGREES    ? _("Agrees with the record.")
                           : GPOINTER_TO_INT (how) == HS_IDENTIFIED_WRITTEN ? _("Written down; nothing stood there.")
                                                                            : _("The record is corrected."), TRUE);
}

/* "1" for yes, "2" for no, or the words. */
static const char *
spell_saw_it (const char *text)
{
  if (g_str_equal (text, "1") || g_str_equal (text, hs_show_word (HS_WORDS_SAW_IT, "yes")))
    return "yes";
  if (g_str_equal (text, "2") || g_str_equal (text, hs_show_word (HS_WORDS_SAW_IT, "no")))
    return "no";
  return text;
}

static void
store_cb (HsIdentifyCard *self, const char *text, const char *why, HsFieldRow *row)
{
  Deed *deed = g_new0 (Deed, 1);

  deed->self = g_object_ref (self);
  deed->field = field_of (self, row);
  if (deed->field == HS_IDENTIFY_PLATE && is_plate_end (get_plate (self), text))
    text = get_plate (self);
  hs_deed_identify (hs_page_get_ledger (HS_PAGE (self)), hs_job_pane_get_job_id (HS_JOB_PANE (self)), deed->field,
                    deed->field == HS_IDENTIFY_SAW_IT ? spell_saw_it (text) : text, why, written_cb, deed);
}

static void
typed_cb (HsIdentifyCard *self, const char *text, HsFieldRow *row)
{
  g_autofree char *field = g_strconcat (HS_IDENTIFY_FIELD, hs_field_row_get_id (row), NULL);

  hs_job_pane_note (HS_JOB_PANE (self), "call", field, text);
}

static void
onward_cb (HsIdentifyCard *self, HsFieldRow *row)
{
  guint next = field_of (self, row) + 1;

  if (next < N_FIELDS)
    gtk_widget_grab_focus (GTK_WIDGET (self->fields[next]));
  else
    gtk_widget_child_focus (GTK_WIDGET (gtk_widget_get_root (GTK_WIDGET (self))), GTK_DIR_TAB_FORWARD);
}

/* Reading. */

static void
say_vin (HsIdentifyCard *self, const HsIdentity *identity)
{
  g_autofree char *tail = identity->vin != NULL ? hs_vin_tail (identity->vin, HS_IDENTITY_VIN_TAIL) : NULL;
  /* Translators: the last signs of a VIN. */
  g_autofree char *text = tail != NULL ? g_strdup_printf (_("On record it ends in %s."), tail)
                                       : g_strdup (_("None on record yet."));

  if (!self->vin_read)
    hs_field_row_say (self->fields[HS_IDENTIFY_VIN], text, FALSE);
}

static char *
dup_last (const HsIdentity *identity)
{
  g_autofree char *day = hs_show_full_day (identity->last_on);

  if (identity->last_value == HS_INT_NONE)
    return g_strdup (_("Never read before."));
  /* Translators: a number of miles or kilometers, mi or km, and a day. */
  return g_strdup_printf (_("%d %s on %s."), (int) identity->last_value, identity->unit, day);
}

static void
say_odometer (HsIdentifyCard *self, const HsIdentity *identity)
{
  g_autofree char *last = dup_last (identity);
  g_autofree char *pace = NULL;
  g_autofree char *text = NULL;

  if (identity->doubted != NULL)
    pace = g_strdup_printf (_("Does not count: %s"), identity->doubted);
  else if (identity->a_day_tenths != HS_INT_NONE)
    /* Translators: miles or kilometers a day; mi or km. */
    pace = g_strdup_printf (_("%.1f %s a day since."), (double) identity->a_day_tenths / 10, identity->unit);
  text = pace != NULL ? g_strdup_printf ("%s %s", last, pace) : g_strdup (last);
  hs_field_row_say (self->fields[HS_IDENTIFY_ODOMETER], text, pace != NULL);
}

static void
show_job (HsJobPane *pane, const HsJobShot *shot)
{
  HsIdentifyCard *self = HS_IDENTIFY_CARD (pane);
  const HsIdentity *identity = shot->arrival->identity;
  g_autofree char *odometer
      = identity->odometer != HS_INT_NONE ? g_strdup_printf ("%d", (int) identity->odometer) : NULL;

  gtk_widget_set_sensitive (GTK_WIDGET (self), shot->view->tag->stage != HS_STAGE_SQUARED);
  hs_field_row_set_stored (self->fields[HS_IDENTIFY_PLATE], identity->plate);
  hs_field_row_set_read_back (self->fields[HS_IDENTIFY_PLATE],
                              self->plate_read ? NULL
                                               : _("Read it off the vehicle: its last two signs and Enter will do."));
  hs_field_row_set_stored (self->fields[HS_IDENTIFY_ODOMETER], odometer);
  hs_field_row_set_stored (self->fields[HS_IDENTIFY_SAW_IT],
                           identity->saw_it != NULL ? hs_show_word (HS_WORDS_SAW_IT, identity->saw_it) : NULL);
  say_vin (self, identity);
  if (identity->vehicle_id != NULL)
    say_odometer (self, identity);
}

static void
go (HsJobPane *pane, const char *field, const char *text)
{
  HsIdentifyCard *self = HS_IDENTIFY_CARD (pane);

  for (guint i = 0; i < N_FIELDS; i++)
    {
      g_autofree char *name = g_strconcat (HS_IDENTIFY_FIELD, fields[i].id, NULL);

      if (g_strcmp0 (name, field) != 0)
        continue;
      if (text != NULL && *text != '\0')
        hs_field_row_set_text (self->fields[i], text);
      gtk_widget_grab_focus (GTK_WIDGET (self->fields[i]));
    }
}

gboolean
hs_identify_card_go_on (HsIdentifyCard *self)
{
  gboolean begun;

  g_return_val_if_fail (HS_IS_IDENTIFY_CARD (self), FALSE);

  begun = hs_field_row_is_stored (self->fields[HS_IDENTIFY_ODOMETER]);
  for (guint i = 0; i < N_FIELDS; i++)
    if (!begun || !hs_field_row_is_stored (self->fields[i]))
      return gtk_widget_grab_focus (GTK_WIDGET (self->fields[i]));
  return FALSE;
}

/* A scanner. */

static gboolean
key_cb (HsIdentifyCard *self, guint keyval, guint keycode, GdkModifierType state, GtkEventController *controller)
{
  guint32 stamp = gtk_event_controller_get_current_event_time (controller);
  gint64 now = stamp != GDK_CURRENT_TIME ? stamp : g_get_monotonic_time () / 1000;
  g_autofree char *scanned = NULL;

  scanned = hs_scan_feed (self->scan, hs_page_get_focus (HS_PAGE (self)), keyval, now);
  if (scanned == NULL)
    return GDK_EVENT_PROPAGATE;
  for (guint i = 0; i < N_FIELDS; i++)
    hs_field_row_drop_keys (self->fields[i]);
  gtk_widget_grab_focus (GTK_WIDGET (self->fields[HS_IDENTIFY_VIN]));
  hs_field_row_set_text (self->fields[HS_IDENTIFY_VIN], scanned);
  hs_field_row_enter (self->fields[HS_IDENTIFY_VIN]);
  return GDK_EVENT_STOP;
}

static void
add_rows (HsIdentifyCard *self)
{
  const char *const yes_no[]
      = { hs_show_word (HS_WORDS_SAW_IT, "yes"), hs_show_word (HS_WORDS_SAW_IT, "no"), NULL };

  for (guint i = 0; i < N_FIELDS; i++)
    {
      GtkWidget *row = hs_field_row_new (fields[i].id, _(fields[i].title));

      self->fields[i] = HS_FIELD_ROW (row);
      g_signal_connect_object (row, "typed", G_CALLBACK (typed_cb), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (row, "store", G_CALLBACK (store_cb), self, G_CONNECT_SWAPPED);
      g_signal_connect_object (row, "onward", G_CALLBACK (onward_cb), self, G_CONNECT_SWAPPED);
      gtk_box_append (self->rows, row);
    }
  hs_field_row_set_pad (self->fields[HS_IDENTIFY_ODOMETER]);
  hs_field_row_set_pad (self->fields[HS_IDENTIFY_SAW_IT]);
  hs_field_row_set_choices (self->fields[HS_IDENTIFY_SAW_IT], yes_no);
}

static void
hs_identify_card_finalize (GObject *object)
{
  hs_scan_free (HS_IDENTIFY_CARD (object)->scan);
  G_OBJECT_CLASS (hs_identify_card_parent_class)->finalize (object);
}

static void
hs_identify_card_class_init (HsIdentifyCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = hs_identify_card_finalize;
  HS_JOB_PANE_CLASS (klass)->show = show_job;
  HS_JOB_PANE_CLASS (klass)->go = go;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-identify-card.ui");
  gtk_widget_class_bind_template_child (widget_class, HsIdentifyCard, rows);
  gtk_widget_class_bind_template_callback (widget_class, key_cb);
}

static void
hs_identify_card_init (HsIdentifyCard *self)
{
  self->scan = hs_scan_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  add_rows (self);
}
