// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The answer to "which battery, since when?". Cover and age share one scale of months; past its cover it is hatched,
 * past its usual life cross-hatched. The usual life is an assumption and says so. */

#include "hs-battery-card.h"

#include <glib/gi18n.h>

#include "hs-decimal.h"
#include "hs-gauge.h"
#include "hs-glyph.h"
#include "hs-show.h"
#include "hs-sparkline.h"
#include "hs-verdict-label.h"

#define USUAL_LIFE_MONTHS 48
#define SCALE_MONTHS 60

struct _HsBatteryCard
{
  AdwBin parent_instance;

  GtkBox *columns;
  GtkWidget *facts;
  GtkLabel *months;
  GtkLabel *unit;
  GtkLabel *installed;
  GtkLabel *known_by;
  GtkLabel *kind;
  GtkLabel *place;
  GtkWidget *age;
  HsGauge *gauge;
  GtkLabel *cover;
  GtkLabel *life;
  GtkWidget *readings;
  GtkWidget *strength_box;
  GtkLabel *strength_name;
  HsVerdictLabel *strength;
  HsSparkline *strength_line;
  GtkWidget *rest_box;
  GtkLabel *rest_name;
  HsVerdictLabel *rest;
  HsSparkline *rest_line;
};

G_DEFINE_FINAL_TYPE (HsBatteryCard, hs_battery_card, ADW_TYPE_BIN)

static void
hs_battery_card_class_init (HsBatteryCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (HS_TYPE_GAUGE);
  g_type_ensure (HS_TYPE_GLYPH);
  g_type_ensure (HS_TYPE_SPARKLINE);
  g_type_ensure (HS_TYPE_VERDICT_LABEL);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/halfshaft/Halfshaft/ui/hs-battery-card.ui");
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, columns);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, facts);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, months);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, unit);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, installed);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, known_by);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, kind);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, place);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, age);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, gauge);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, cover);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, life);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, readings);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, strength_box);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, strength_name);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, strength);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, strength_line);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, rest_box);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, rest_name);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, rest);
  gtk_widget_class_bind_template_child (widget_class, HsBatteryCard, rest_line);
}

static void
hs_battery_card_init (HsBatteryCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
set_shown (GtkLabel *label, const char *text)
{
  gtk_label_set_label (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static void
set_facts (HsBatteryCard *self, const HsBatteryFact *fact)
{
  g_autofree char *months = fact->age_months >= 0 ? g_strdup_printf ("%d", fact->age_months) : g_strdup ("?");
  g_autofree char *day = hs_date_format (fact->installed_on);
  g_autofree char *installed = *day != '\0' ? g_strdup_printf (_("installed %s"), day) : NULL;
  g_autofree char *ah = fact->ah > 0 ? g_strdup_printf (_("%g Ah"), fact->ah) : NULL;
  g_autofree char *cca = fact->cca > 0 ? g_strdup_printf (_("%g A CCA"), fact->cca) : NULL;
  g_autofree char *what = hs_show_joined (ah != NULL ? ah : "", hs_show_word (HS_WORDS_BATTERY_KIND, fact->kind),
                                          cca != NULL ? cca : "", NULL);
  g_autofree char *place = hs_show_joined (fact->maker != NULL ? fact->maker : "",
                                           fact->place != NULL ? fact->place : "", NULL);
  g_autofree char *known = hs_show_joined (hs_show_word (HS_WORDS_KNOWN_BY, fact->known_by),
                                           fact->job_number != NULL ? fact->job_number : "", NULL);

  gtk_label_set_label (self->months, months);
  gtk_label_set_label (self->unit, ngettext ("month", "months", (gulong) MAX (0, fact->age_months)));
  set_shown (self->installed, installed);
  set_shown (self->known_by, known);
  set_shown (self->kind, what);
  set_shown (self->place, place);
}

static void
set_age (HsBatteryCard *self, HsLedger *ledger, const HsBatteryFact *fact)
{
  HsDate today = hs_ledger_get_today (ledger);
  gboolean has_cover = fact->warranty_until != HS_DATE_NONE && fact->installed_on != HS_DATE_NONE;
  int cover = has_cover ? hs_date_months_between (fact->installed_on, hs_date_add_days (fact->warranty_until, 1)) : 0;
  int end = MAX (SCALE_MONTHS, fact->age_months + 6);
  g_autofree char *until = has_cover ? hs_date_format (fact->warranty_until) : NULL;
  g_autofree char *say = hs_show_months (fact->age_months);
  g_autofree char *cover_text = NULL;

  gtk_widget_set_visible (self->age, fact->age_months >= 0);
  hs_gauge_set_scale (self->gauge, 0, end, FALSE);
  if (cover > 0)
    hs_gauge_add_band (self->gauge, HS_GAUGE_BAND_WITHIN, MIN (cover, end), _("cover"));
  if (cover < USUAL_LIFE_MONTHS)
    hs_gauge_add_band (self->gauge, HS_GAUGE_BAND_WATCH, USUAL_LIFE_MONTHS, NULL);
  hs_gauge_add_band (self->gauge, HS_GAUGE_BAND_OUTSIDE, end, NULL);
  for (int month = 0; month <= end; month += 12)
    {
      g_autofree char *tick = g_strdup_printf ("%d", month);

      hs_gauge_add_tick (self->gauge, month, tick);
    }
  hs_gauge_set_needle (self->gauge, fact->age_months >= 0, MAX (0, fact->age_months), say);
  if (has_cover)
    cover_text = g_strdup_printf (fact->warranty_until < today ? _("Cover ended %s") : _("Cover until %s"), until);
  set_shown (self->cover, cover_text != NULL ? cover_text : _("No cover is written down"));
  if (fact->swapped)
    gtk_label_set_label (self->life, _("Swapped under warranty: the first one’s date counts"));
  else
    gtk_label_set_label (self->life, _("Life: 48 months assumed, too few of own"));
}

/* Adds one reading; texts like "over range" are no point on a line. */
static void
add_point (GArray *points, HsDate day, double part_of_day, const char *value, gboolean old)
{
  char *end;
  double number = value != NULL ? g_ascii_strtod (value, &end) : 0;
  HsSparkPoint point = { day + part_of_day, number, old, value };

  if (value != NULL && end != value)
    g_array_append_val (points, point);
}

/* The readings of one check over all visits, oldest first, and the newest that is of this battery. A reading of the day
 * of the swap belongs to the old battery before the work and to this one after it. */
static const HsHistoryReading *
collect (GPtrArray *entries, const char *name, HsDate installed_on, GArray *points)
{
  const HsHistoryReading *newest = NULL;

  for (guint i = entries != NULL ? entries->len : 0; i > 0; i--)
    {
      const HsHistoryEntry *entry = g_ptr_array_index (entries, i - 1);

      for (guint j = 0; entry->readings != NULL && j < entry->readings->len; j++)
        {
          const HsHistoryReading *reading = g_ptr_array_index (entry->readings, j);

          if (!g_str_has_prefix (reading->name, name))
            continue;
          add_point (points, entry->day, 0, reading->before, entry->day <= installed_on);
          add_point (points, entry->day, 0.5, reading->after, entry->day < installed_on);
          if (entry->day > installed_on || (entry->day == installed_on && reading->after != NULL))
            newest = reading;
        }
    }
  return newest;
}

/* Where "within" begins for this battery, as text; %NULL where the catalog has no single such limit. */
static char *
dup_limit (HsLedger *ledger, const HsCheck *check, const HsBatteryFact *fact, double *ret_value)
{
  HsConditions conditions = HS_CONDITIONS_INIT;
  g_autoptr (GArray) bands = NULL;

  if (fact != NULL && fact->kind != NULL)
    hs_battery_kind_parse (fact->kind, &conditions.battery_kind, NULL);
  if (fact != NULL)
    conditions.rated_cca = (gint64) fact->cca;
  bands = hs_check_dup_bands (hs_ledger_get_checks (ledger), check, &conditions, NULL);
  for (guint i = 1; i < bands->len; i++)
    {
      const HsCheckBand *band = &g_array_index (bands, HsCheckBand, i);

      if (band->verdict != HS_VERDICT_WITHIN)
        continue;
      *ret_value = (double) band->low;
      for (guint place = 0; place < check->decimals; place++)
        *ret_value /= 10;
      return hs_decimal_format_short (band->low, check->decimals);
    }
  return NULL;
}

static gboolean
set_line (GtkWidget *box, GtkLabel *name, HsVerdictLabel *verdict, HsSparkline *line, HsLedger *ledger,
          GPtrArray *entries, const HsBatteryFact *fact, const char *check_id)
{
  HsChecks *checks = hs_ledger_get_checks (ledger);
  const HsCheck *check = checks != NULL ? hs_checks_lookup (checks, check_id) : NULL;
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (HsSparkPoint));
  const HsHistoryReading *newest = NULL;
  g_autofree char *limit = NULL;
  g_autofree char *text = NULL;
  double limit_value = 0;

  if (check != NULL)
    newest = collect (entries, check->name, fact != NULL ? fact->installed_on : HS_DATE_NONE, points);
  gtk_widget_set_visible (box, newest != NULL && points->len > 0);
  if (newest == NULL || points->len == 0)
    return FALSE;
  limit = dup_limit (ledger, check, fact, &limit_value);
  text = newest->after != NULL ? hs_show_joined (newest->after, hs_show_verdict (newest->after_word), NULL)
                               : hs_show_joined (newest->before, hs_show_verdict (newest->before_word), NULL);
  gtk_label_set_label (name, hs_show_data (check->name));
  hs_verdict_label_set (verdict, text,
                        newest->after != NULL ? hs_show_verdict_shape (newest->after_verdict, newest->after_word)
                                              : hs_show_verdict_shape (newest->before_verdict, newest->before_word));
  hs_sparkline_set (line, hs_show_data (check->name), (const HsSparkPoint *) (void *) points->data, points->len, limit,
                    limit_value);
  return TRUE;
}

void
hs_battery_card_set (HsBatteryCard *self, HsLedger *ledger, const HsBatteryFact *fact, GPtrArray *entries)
{
  gboolean any;

  g_return_if_fail (HS_IS_BATTERY_CARD (self));

  any = set_line (self->strength_box, self->strength_name, self->strength, self->strength_line, ledger, entries, fact,
                  "battery_strength");
  any |= set_line (self->rest_box, self->rest_name, self->rest, self->rest_line, ledger, entries, fact, "battery_rest");
  gtk_widget_set_visible (self->readings, any);
  if (fact != NULL)
    {
      set_facts (self, fact);
      set_age (self, ledger, fact);
      return;
    }
  gtk_label_set_label (self->months, "?");
  gtk_label_set_label (self->unit, _("not known"));
  set_shown (self->installed, _("The date stamp on the case tells its age."));
  set_shown (self->known_by, NULL);
  set_shown (self->kind, NULL);
  set_shown (self->place, NULL);
  gtk_widget_set_visible (self->age, FALSE);
}

void
hs_battery_card_set_room (HsBatteryCard *self, gboolean narrow, gboolean cramped)
{
  g_return_if_fail (HS_IS_BATTERY_CARD (self));

  gtk_box_set_spacing (self->columns, cramped ? 14 : 28);
  gtk_widget_set_size_request (self->readings, cramped ? -1 : 220, -1);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->columns),
                                  narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  hs_gauge_set_compact (self->gauge, narrow);
}
