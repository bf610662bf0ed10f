// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One hit of a search. A past owner's row says until when; whose the vehicle is now is not told there. */

#include "hs-hit-row.h"

#include <glib/gi18n.h>

#include "hs-chip.h"
#include "hs-show.h"

struct _HsHitRow
{
  AdwBin parent_instance;

  HsPlateChip *plate;
  GtkLabel *vehicle;
  GtkLabel *owner;
  GtkLabel *age;
};

G_DEFINE_FINAL_TYPE (HsHitRow, hs_hit_row, ADW_TYPE_BIN)

static void
hs_hit_row_class_init (HsHitRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (HS_TYPE_PLATE_CHIP);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-hit-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HsHitRow, plate);
  gtk_widget_class_bind_template_child (widget_class, HsHitRow, vehicle);
  gtk_widget_class_bind_template_child (widget_class, HsHitRow, owner);
  gtk_widget_class_bind_template_child (widget_class, HsHitRow, age);
}

static void
hs_hit_row_init (HsHitRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
hs_hit_row_new (void)
{
  return g_object_new (HS_TYPE_HIT_ROW, NULL);
}

static char *
owner_text (HsLedger *ledger, const HsHit *hit)
{
  g_autofree char *until = NULL, *seen = NULL;

  if (hit->job_id != NULL)
    return hs_show_joined (_(hs_stage_label (hit->stage)), hit->vehicle, hit->customer, NULL);
  if (hit->customer == NULL)
    return g_strdup (_("no owner known"));
  if (!hit->present && hit->until != HS_DATE_NONE)
    {
      until = hs_date_format (hit->until);
      /* Translators: a past owner and the last day of owning. */
      return g_strdup_printf (_("%s, until %s"), hit->customer, until);
    }
  seen = hs_show_day_of (ledger, hit->last_seen);
  return hs_show_joined (hit->customer, seen, NULL);
}

static char *
age_text (const HsHit *hit)
{
  if (hit->vehicle_id == NULL || hit->job_id != NULL)
    return g_strdup ("");
  if (hit->battery == NULL || hit->battery->age_months < 0)
    return g_strdup (_("not known"));
  /* Translators: age of a battery in months, short. */
  return g_strdup_printf (_("%d mo"), hit->battery->age_months);
}

void
hs_hit_row_set (HsHitRow *self, HsLedger *ledger, const HsHit *hit)
{
  g_autofree char *owner = owner_text (ledger, hit);
  g_autofree char *age = age_text (hit);

  hs_chip_set_text (HS_CHIP (self->plate), hit->plate);
  gtk_label_set_label (self->vehicle, hit->job_id != NULL    ? hit->job_number
                                      : hit->vehicle != NULL ? hit->vehicle
                                                             : _("no vehicle yet"));
  gtk_label_set_label (self->owner, owner);
  gtk_label_set_label (self->age, age);
}

char *
hs_hit_row_say (HsLedger *ledger, const HsHit *hit)
{
  g_autofree char *owner = owner_text (ledger, hit);
  g_autofree char *age = age_text (hit);

  if (hit->job_id != NULL)
    return hs_show_joined (hit->job_number, owner, hit->plate != NULL ? hit->plate : "", NULL);
  return g_strdup_printf (_("%s, %s, %s, battery %s"), hit->plate != NULL ? hit->plate : "",
                          hit->vehicle != NULL ? hit->vehicle : "", owner, age);
}
