// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/*
 * The settings of a book: a table of keys with help, default and a rule each. Settings travel with the book, so rates,
 * tax and zone are here, while the looks of one machine are not. Refuses an unknown key with the known ones named, and
 * any value that a later sum would trip over.
 */

#include "hs-settings-op.h"

#include "hs-area-row.h"
#include "hs-decimal.h"
#include "hs-geo.h"
#include "hs-money.h"
#include "hs-ops-private.h"
#include "hs-outbox-row.h"
#include "hs-post-address.h"
#include "hs-post-private.h"
#include "hs-price.h"
#include "hs-setting-row.h"
#include "hs-usual.h"

#include <string.h>

typedef struct _Rule Rule;

/* Puts the value into its one spelling, or refuses it. */
typedef char *(*RuleCheck) (HsBook *book, const Rule *rule, const char *value, GError **error);

struct _Rule
{
  const char *key;
  const char *standard;
  RuleCheck check;
  gint64 least;
  gint64 most;
  const char *help;
};

static char *
check_decimal (const Rule *rule, const char *value, guint decimals, GError **error)
{
  g_autoptr (GError) unread = NULL;
  gint64 number;

  if (!hs_decimal_parse (value, decimals, &number, &unread))
    {
      hs_ops_refuse (error, "%s: %s", rule->key, unread->message);
      return NULL;
    }
  if (number < rule->least || number > rule->most)
    {
      g_autofree char *least = hs_decimal_format_short (rule->least, decimals);
      g_autofree char *most = hs_decimal_format_short (rule->most, decimals);
      hs_ops_refuse (error, "%s: %s must lie between %s and %s.", rule->key, value, least, most);
      return NULL;
    }
  return hs_decimal_format_short (number, decimals);
}

/* With a point it is refused even if it is whole: 60.00 for a setting in cents means something else. */
static char *
check_whole (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  if (strchr (value, '.') == NULL)
    return check_decimal (rule, value, 0, error);
  hs_ops_refuse (error, "%s: %s must be a whole number: %s.", rule->key, value, rule->help);
  return NULL;
}

/* least and most are in ten-thousandths of a percent. */
static char *
check_percent (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  return check_decimal (rule, value, 4, error);
}

static char *
check_thousandths (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  return check_decimal (rule, value, 3, error);
}

static char *
check_clock (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  g_autoptr (GError) unread = NULL;
  int minutes;

  if (hs_clock_parse (value, &minutes, &unread))
    return hs_clock_format (minutes);
  hs_ops_refuse (error, "%s: %s", rule->key, unread->message);
  return NULL;
}

/* An area that is not in the book yet is taken: it may come in after the setting. A position is one by itself. */
static char *
check_area (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  g_autoptr (GError) unread = NULL;
  HsGeo geo;

  if (!hs_geo_is_meant (value))
    return g_strdup (value);
  if (hs_geo_parse (value, &geo, &unread))
    return hs_geo_format (geo.latitude, geo.longitude);
  hs_ops_refuse (error, "%s: %s", rule->key, unread->message);
  return NULL;
}

static char *
check_zone (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_identifier (value);

  if (zone != NULL && strchr (value, ' ') == NULL && *value != '\0')
    return g_strdup (value);
  hs_ops_refuse (error, "%s: there is no time zone “%s”; write it like America/New_York.", rule->key, value);
  return NULL;
}

/* One line of at most that many letters. */
static char *
check_line (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  if (g_utf8_strlen (value, -1) <= rule->most && strpbrk (value, "\r\n\t") == NULL)
    return g_strdup (value);
  hs_ops_refuse (error, "%s: write one line of at most %d letters.", rule->key, (int) rule->most);
  return NULL;
}

static char *
check_paper (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  if (g_ascii_strcasecmp (value, "A4") == 0)
    return g_strdup ("A4");
  if (g_ascii_strcasecmp (value, "letter") == 0)
    return g_strdup ("letter");
  hs_ops_refuse (error, "%s: there is no paper “%s” here; write letter or A4.", rule->key, value);
  return NULL;
}

static char *
check_currency (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  g_autofree char *code = g_ascii_strup (value, -1);

  if (hs_currency_decimals (code) >= 0)
    return g_steal_pointer (&code);
  hs_ops_refuse (error, "%s: there is no currency “%s”; write its three letters, like USD.", rule->key, value);
  return NULL;
}

static char *
check_bands (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  guint decimals = (guint) hs_currency_decimals (hs_book_get_currency (book));
  g_autoptr (GError) unread = NULL;
  g_autoptr (GArray) bands = hs_price_bands_parse (value, decimals, &unread);

  if (bands != NULL)
    return hs_price_bands_format ((const HsPriceBand *) (gpointer) bands->data, bands->len, decimals);
  hs_ops_refuse (error, "%s: %s", rule->key, unread->message);
  return NULL;
}

static char *
check_vans (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  gboolean wanted[26] = { FALSE };
  g_autoptr (GString) letters = g_string_new (NULL);

  for (const char *sign = value; *sign != '\0'; sign++)
    {
      if (strchr (" ,;", *sign) != NULL)
        continue;
      if (!g_ascii_isalpha (*sign))
        {
          hs_ops_refuse (error, "%s: “%s” is not a list of letters; write it like A,B.", rule->key, value);
          return NULL;
        }
      wanted[g_ascii_toupper (*sign) - 'A'] = TRUE;
    }
  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++)
    if (wanted[i])
      g_string_append_printf (letters, "%s%c", letters->len == 0 ? "" : ",", 'A' + (int) i);
  if (letters->len > 0)
    return g_string_free (g_steal_pointer (&letters), FALSE);
  hs_ops_refuse (error, "%s: at least one van, by its letter, like A.", rule->key);
  return NULL;
}

/* Empty, or as hs-usual.h has it; its parts in one spelling. */
static char *
check_usual (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  g_autoptr (GError) unread = NULL;
  g_autoptr (HsUsual) usual = NULL;
  g_auto (GStrv) parts = g_strsplit (value, ";", HS_USUAL_PARTS);

  if (*value == '\0')
    return g_strdup ("");
  usual = hs_usual_parse (book, value, &unread);
  if (usual == NULL)
    {
      hs_ops_refuse (error, "%s: %s", rule->key, unread->message);
      return NULL;
    }
  for (guint i = 0; parts[i] != NULL; i++)
    g_strstrip (parts[i]);
  return g_strjoinv ("; ", parts);
}

/* Empty, or a local time at which the book's own clock starts. */
static char *
check_start (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  g_autoptr (GError) unread = NULL;
  HsInstant instant;

  if (*value == '\0' || hs_instant_parse (value, hs_book_get_zone (book), &instant, &unread))
    return g_strdup (value);
  hs_ops_refuse (error, "%s: %s", rule->key, unread->message);
  return NULL;
}

static char *
check_yes_no (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  if (g_ascii_strcasecmp (value, "yes") == 0)
    return g_strdup ("yes");
  if (g_ascii_strcasecmp (value, "no") == 0)
    return g_strdup ("no");
  hs_ops_refuse (error, "%s: write yes or no.", rule->key);
  return NULL;
}

static char *
check_endpoint (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  g_autofree char *private_network = hs_settings_dup (book, "post_private_network", error);
  g_autoptr (GError) unread = NULL;
  g_autoptr (HsPostAddress) address = NULL;

  if (private_network == NULL)
    return NULL;
  if (*value == '\0')
    return g_strdup ("");
  address = hs_post_address_parse (value, g_str_equal (private_network, "yes"), &unread);
  if (address != NULL)
    return g_strdup (address->url);
  hs_ops_refuse (error, "%s: %s", rule->key, unread->message);
  return NULL;
}

static char *
check_auth (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  HsPostAuth auth;

  if (hs_post_auth_parse (value, &auth))
    return g_strdup (hs_post_auth_id (auth));
  hs_ops_refuse (error, "%s: write none, bearer or basic.", rule->key);
  return NULL;
}

/* Of HTTP Basic: a colon would end it, and it holds no control characters (RFC 7617, 2). */
static char *
check_user (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  gboolean control = FALSE;

  for (const char *at = value; *at != '\0'; at = g_utf8_next_char (at))
    control |= g_unichar_iscntrl (g_utf8_get_char (at));
  if (strchr (value, ':') == NULL && !control)
    return check_line (book, rule, value, error);
  hs_ops_refuse (error, "%s: a name for the endpoint holds no colon, and nothing that is no letter or sign.",
                 rule->key);
  return NULL;
}

static char *
check_file (HsBook *book, const Rule *rule, const char *value, GError **error)
{
  if (*value == '\0' || g_path_is_absolute (value))
    return check_line (book, rule, value, error);
  hs_ops_refuse (error, "%s: write the whole path, from / on.", rule->key);
  return NULL;
}

/* The units of least and most in the table. */
#define PERCENT 10000
#define THOUSAND 1000

#define USUAL "usual job: name; price; minutes; complaint group; check that proves it; why / why=chosen; caution"

static const Rule rules[] = {
  { "base_area", "", check_area, 0, 0, "code of the area, or the position, where the day starts and ends" },
  { "zone", "UTC", check_zone, 0, 0, "time zone of the business, like America/New_York" },
  { "leave_from", "07:30", check_clock, 0, 0, "earliest leaving, HH:MM" },
  { "leave_to", "09:30", check_clock, 0, 0, "latest leaving, HH:MM" },
  { "home_by", "24:00", check_clock, 0, 0, "when to be home, HH:MM, 24:00 is no limit; promises go first" },
  { "break_minutes", "0", check_whole, 0, 240, "length of the day's break in minutes; 0: none" },
  { "break_from", "11:00", check_clock, 0, 0, "the break begins at this time or later, HH:MM" },
  { "break_to", "14:00", check_clock, 0, 0, "the break is over by this time, HH:MM" },
  { "spare_minutes", "30", check_whole, 0, 720, "minutes that every promise should keep in hand" },
  { "minute_cents", "160", check_whole, 0, 100000, "what a minute away from base costs, in cents" },
  { "mile_cents", "42", check_whole, 0, 100000, "what a mile costs, in cents" },
  { "currency", "USD", check_currency, 0, 0, "three letters of the currency" },
  { "vans", "A", check_vans, 0, 0, "letters of the vans, like A,B" },
  { "tax_percent", "0", check_percent, 0, 100 * PERCENT, "sales tax on parts, percent" },
  { "call_out_cents", "6000", check_whole, 0, 100000000, "price of the call-out, in cents" },
  { "call_out_minutes", "30", check_whole, 0, 1440, "minutes on site that the call-out covers" },
  { "quarter_hour_cents", "2400", check_whole, 0, 100000000, "price of each started quarter hour after it, in cents" },
  { "canceled_fee_cents", "0", check_whole, 0, 100000000, "fee when a call is canceled, in cents" },
  { "no_show_fee_cents", "0", check_whole, 0, 100000000, "fee when nobody shows up, in cents" },
  { "gone_on_arrival_fee_cents", "0", check_whole, 0, 100000000,
    "fee when the vehicle is gone on arrival, in cents" },
  { "markup_bands", "10.00 x2.0, 40.00 x1.6, 100.00 x1.4, rest x1.25", check_bands, 0, 0,
    "sale price per cost, band by band" },
  { "overrun_cents", "0", check_whole, 0, 100000000,
    "how far the lines may pass a go-ahead where your local rule allows it, in cents" },
  { "card_fee_percent", "2.7", check_percent, 0, 100 * PERCENT, "what the card company keeps, percent" },
  { "card_fee_cents", "10", check_whole, 0, 100000, "what it keeps beside that for each payment, in cents" },
  { "paper_minutes", "10", check_whole, 0, 1440, "minutes of paper work that a job takes" },
  { "battery_life_months", "48", check_whole, 1, 600, "months that a battery is expected to last" },
  { "battery_usable_percent", "40", check_percent, PERCENT, 100 * PERCENT,
    "share of a battery that may be gone before it no longer starts, percent" },
  { "return_visit_days", "90", check_whole, 0, 3650, "days in which a call may be a return visit" },
  { "short_meters", "5000", check_whole, 0, 1000000, "guessed drives: straight lines below this are short, meters" },
  { "long_meters", "20000", check_whole, 0, 10000000, "guessed drives: straight lines beyond this are long, meters" },
  { "short_detour_percent", "140", check_whole, 100, 1000, "guessed drives: road per line when short, percent" },
  { "detour_percent", "130", check_whole, 100, 1000, "guessed drives: road per straight line, percent" },
  { "short_kmh", "30", check_whole, 1, 300, "guessed drives: speed when short, km/h" },
  { "medium_kmh", "40", check_whole, 1, 300, "guessed drives: speed in between, km/h" },
  { "long_kmh", "70", check_whole, 1, 300, "guessed drives: speed when long, km/h" },
  { "hop_minutes", "5", check_whole, 0, 720, "guessed drives: between two stops in one area, minutes" },
  { "hop_miles", "1.0", check_thousandths, 0, 1000 * THOUSAND, "guessed drives: between two stops in one area, miles" },
  { "return_minutes", "6", check_whole, 0, 720, "bring or leave: taking a part back to its counter, minutes" },
  { "second_trip_minutes", "38", check_whole, 0, 1440,
    "bring or leave: a second trip for a part left behind, minutes" },
  { "second_trip_miles", "9.0", check_thousandths, 0, 1000 * THOUSAND,
    "bring or leave: a second trip for a part left behind, miles" },
  { "usual_1",
    "Jump start; 65.00; 20; will_not_start; key_turn 7; lamp left on / parked too long / battery at its end=chosen; "
    "Eye protection, no flame or spark, never a frozen battery; last clamp on ground away from the battery, crank 15 s "
    "at most",
    check_usual, 0, 0, USUAL },
  { "usual_2",
    "Spare wheel put on; 70.00; 30; other; wheel_nuts; nail or screw / curb or pothole / tire worn out=chosen; Off the "
    "traffic, firm and level ground, chocks, the maker's jacking point; never under a jack alone",
    check_usual, 0, 0, USUAL },
  { "usual_3",
    "Fuel brought; 60.00; 20; other; key_turn 7; tank run empty / gauge reads wrong=chosen; Engine off, no flame or "
    "spark; ask which fuel before pouring",
    check_usual, 0, 0, USUAL },
  { "usual_4",
    "Battery clamp cleaned and tightened; 45.00; 20; will_not_start; key_turn 7; clamp loose=cured / clamp "
    "corroded=cured; Negative off first and on last; eye protection",
    check_usual, 0, 0, USUAL },
  { "usual_5", "", check_usual, 0, 0, USUAL },
  { "usual_6", "", check_usual, 0, 0, USUAL },
  { "business_name", "", check_line, 0, 80, "name of the business, as it stands on papers" },
  { "paper_size", "letter", check_paper, 0, 0, "size of papers that are printed: letter or A4" },
  { "post_url", "", check_endpoint, 0, 0, "address that jobs are posted to; with {id} in it each job is PUT there" },
  { "post_auth", "none", check_auth, 0, 0, "how the endpoint knows who posts: none, bearer or basic" },
  { "post_user", "", check_user, 0, 80, "name for basic" },
  { "post_secret_file", "", check_file, 0, 1000, "file of mode 0600 with the secret; empty: the machine's keyring" },
  { "post_ca_file", "", check_file, 0, 1000, "authorities of your own for https, PEM; empty: those of the machine" },
  { "post_private_network", "no", check_yes_no, 0, 0, "yes: http:// may be posted to within the own network" },
  { "post_phone", "no", check_yes_no, 0, 0, "yes: phone numbers and e-mail are posted too" },
  { "post_street", "no", check_yes_no, 0, 0, "yes: street and gate code are posted too" },
  { "post_signature", "no", check_yes_no, 0, 0, "yes: signatures are posted too" },
  { "post_photos", "no", check_yes_no, 0, 0, "yes: photos are posted too" },
  { "post_costs", "no", check_yes_no, 0, 0, "yes: what things cost you is posted too" },
  { "clock_starts", "", check_start, 0, 0, "local time at which this book's own clock starts; empty: the true time" },
};

void
hs_setting_free (HsSetting *setting)
{
  if (setting == NULL)
    return;
  g_free (setting->key);
  g_free (setting->help);
  g_free (setting->value);
  g_free (setting->warning);
  g_free (setting);
}

/* What may differ from van to van. */
static const char *const van_keys[]
    = { "leave_from", "leave_to", "home_by", "break_minutes", "break_from", "break_to", NULL };

/* "B.home_by" belongs to van B alone. */
static gboolean
is_of_van (const char *key)
{
  return g_ascii_isupper (key[0]) && key[1] == '.';
}

static const Rule *
find_rule (const char *key, GError **error)
{
  g_autoptr (GString) known = g_string_new (NULL);

  if (is_of_van (key) && g_strv_contains (van_keys, key + 2))
    return find_rule (key + 2, error);
  for (gsize i = 0; i < G_N_ELEMENTS (rules); i++)
    {
      if (g_str_equal (rules[i].key, key))
        return &rules[i];
      g_string_append_printf (known, "%s%s", i == 0 ? "" : ", ", rules[i].key);
    }
  hs_ops_refuse (error, "There is no setting “%s”. There are: %s.", key, known->str);
  return NULL;
}

static gboolean
load_value (HsBook *book, const Rule *rule, const char *key, char **ret_value, gboolean *ret_is_default,
            GError **error)
{
  g_autofree char *value = NULL;

  if (!hs_setting_row_get (hs_book_get_store (book), key, &value, error))
    return FALSE;
  *ret_is_default = value == NULL;
  if (value == NULL)
    value = g_strdup (is_of_van (key) ? "" : rule->standard);
  *ret_value = g_steal_pointer (&value);
  return TRUE;
}

static gboolean
warn_about_area (HsBook *book, HsSetting *setting, GError **error)
{
  g_autoptr (HsAreaRow) area = NULL;
  g_autoptr (GError) missing = NULL;

  if (hs_geo_is_meant (setting->value))
    return TRUE;
  if (*setting->value == '\0')
    setting->warning = g_strdup ("not set yet; the day cannot be planned without it");
  else if (!hs_area_row_load (hs_book_get_store (book), setting->value, &area, &missing))
    {
      if (!hs_ops_only_missing (&missing, error))
        return FALSE;
      setting->warning = g_strdup_printf ("there is no area “%s” in the book yet; import areas", setting->value);
    }
  return TRUE;
}

static HsSetting *
load_setting (HsBook *book, const Rule *rule, const char *key, GError **error)
{
  g_autoptr (HsSetting) setting = g_new0 (HsSetting, 1);

  setting->key = g_strdup (key);
  setting->help = is_of_van (key) ? g_strdup_printf ("van %c: %s; empty: like the others", key[0], rule->help)
                                  : g_strdup (rule->help);
  if (!load_value (book, rule, key, &setting->value, &setting->is_default, error))
    return NULL;
  if (rule->check == check_area && !warn_about_area (book, setting, error))
    return NULL;
  return g_steal_pointer (&setting);
}

static gboolean
add_setting (HsBook *book, GPtrArray *settings, const Rule *rule, const char *key, GError **error)
{
  HsSetting *setting = load_setting (book, rule, key, error);

  if (setting == NULL)
    return FALSE;
  g_ptr_array_add (settings, setting);
  return TRUE;
}

/* The first van is the one that everything is set for. */
static gboolean
list_of_vans (HsBook *book, GPtrArray *settings, GError **error)
{
  g_autoptr (GPtrArray) vans = NULL;

  if (!hs_van_row_list (hs_book_get_store (book), &vans, error))
    return FALSE;
  for (guint i = 1; i < vans->len; i++)
    for (guint k = 0; van_keys[k] != NULL; k++)
      {
        g_autofree char *key
            = g_strdup_printf ("%s.%s", ((const HsVanRow *) g_ptr_array_index (vans, i))->letter, van_keys[k]);

        if (!add_setting (book, settings, find_rule (key, NULL), key, error))
          return FALSE;
      }
  return TRUE;
}

GPtrArray *
hs_settings_list (HsBook *book, GError **error)
{
  g_autoptr (GPtrArray) settings = g_ptr_array_new_with_free_func ((GDestroyNotify) hs_setting_free);

  for (gsize i = 0; i < G_N_ELEMENTS (rules); i++)
    if (!add_setting (book, settings, &rules[i], rules[i].key, error))
      return NULL;
  return list_of_vans (book, settings, error) ? g_steal_pointer (&settings) : NULL;
}

char *
hs_settings_dup (HsBook *book, const char *key, GError **error)
{
  const Rule *rule = find_rule (key, error);
  gboolean is_default;
  char *value;

  if (rule == NULL || !load_value (book, rule, key, &value, &is_default, error))
    return NULL;
  return value;
}

char *
hs_settings_dup_of_van (HsBook *book, const char *letter, const char *key, GError **error)
{
  g_autofree char *own = NULL;
  g_autofree char *value = NULL;

  if (letter == NULL)
    return hs_settings_dup (book, key, error);
  own = g_strdup_printf ("%s.%s", letter, key);
  if (!hs_setting_row_get (hs_book_get_store (book), own, &value, error))
    return NULL;
  return value != NULL && *value != '\0' ? g_steal_pointer (&value) : hs_settings_dup (book, key, error);
}

gboolean
hs_settings_get_int (HsBook *book, const char *key, gint64 *ret_value, GError **error)
{
  return hs_settings_get_scaled (book, key, 0, ret_value, error);
}

gboolean
hs_settings_get_scaled (HsBook *book, const char *key, guint decimals, gint64 *ret_value, GError **error)
{
  g_autofree char *value = hs_settings_dup (book, key, error);

  return value != NULL && hs_decimal_parse (value, decimals, ret_value, error);
}

gboolean
hs_settings_get_clock (HsBook *book, const char *key, int *ret_minutes, GError **error)
{
  g_autofree char *value = hs_settings_dup (book, key, error);

  return value != NULL && hs_clock_parse (value, ret_minutes, error);
}

/* A van stays in the book once it is there: its jobs and its stock name it. */
static gboolean
keep_vans (GPtrArray *vans, const char *letters, GError **error)
{
  for (guint i = 0; i < vans->len; i++)
    {
      const HsVanRow *van = g_ptr_array_index (vans, i);

      if (strstr (letters, van->letter) == NULL)
        return hs_ops_refuse (error, "vans: van %s is in the book and stays there; name it too, like %s,%s.",
                              van->letter, van->letter, letters);
    }
  return TRUE;
}

static gboolean
has_van (GPtrArray *vans, const char *letter)
{
  for (guint i = 0; i < vans->len; i++)
    if (g_str_equal (((const HsVanRow *) g_ptr_array_index (vans, i))->letter, letter))
      return TRUE;
  return FALSE;
}

static gboolean
save_vans (HsBook *book, const char *letters, GError **error)
{
  HsStore *store = hs_book_get_store (book);
  g_autoptr (GPtrArray) vans = NULL;
  g_auto (GStrv) wanted = g_strsplit (letters, ",", -1);

  if (!hs_van_row_list (store, &vans, error) || !keep_vans (vans, letters, error))
    return FALSE;
  for (guint i = 0; wanted[i] != NULL; i++)
    {
      g_autoptr (HsVanRow) van = hs_van_row_new ();

      if (has_van (vans, wanted[i]))
        continue;
      hs_row_set (&van->letter, wanted[i]);
      if (!hs_van_row_save (store, van, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
know_van (HsBook *book, const char *key, GError **error)
{
  g_autoptr (GPtrArray) vans = NULL;
  const char letter[] = { key[0], '\0' };

  if (!hs_van_row_list (hs_book_get_store (book), &vans, error))
    return FALSE;
  return has_van (vans, letter) || hs_ops_refuse (error, "%s: the book has no van %s.", key, letter);
}

static gboolean
says_what_is_told (const char *key)
{
  static const char *const keys[]
    = { "post_phone", "post_street", "post_signature", "post_photos", "post_costs", NULL };

  return g_strv_contains (keys, key);
}

/* What was not sent for the old setting's sake is tried again, and tells no more than may be told now. Where the
 * endpoint is, or how it knows who posts, is another: what the old one refused waits no longer. */
static gboolean
follow_posting (HsBook *book, const char *key, const char *value, GError **error)
{
  g_autoptr (GError) unset = NULL;
  g_autofree char *before = hs_settings_dup (book, key, &unset);

  if (!g_str_has_prefix (key, "post_") || g_strcmp0 (before, value) == 0)
    return TRUE;
  if (!hs_post_resume (book, error))
    return FALSE;
  return says_what_is_told (key) ? hs_outbox_row_remake (hs_book_get_store (book), error)
                                 : hs_outbox_row_release (hs_book_get_store (book), NULL, error);
}

static gboolean
save_value (HsBook *book, const Rule *rule, const char *key, const char *value, GError **error)
{
  return (rule->check != check_vans || save_vans (book, value, error))
         && (!is_of_van (key) || know_van (book, key, error))
         && follow_posting (book, key, value, error)
         && hs_setting_row_put (hs_book_get_store (book), key, value, error);
}

/* Nothing at all stands for a van that is like the others. */
static char *
check_value (HsBook *book, const Rule *rule, const char *key, const char *value, GError **error)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (value));

  return is_of_van (key) && *trimmed == '\0' ? g_strdup ("") : rule->check (book, rule, trimmed, error);
}

gboolean
hs_settings_set (HsBook *book, const char *key, const char *value, HsInstant now, GError **error)
{
  const Rule *rule = find_rule (key, error);
  g_autofree char *written = rule == NULL ? NULL : check_value (book, rule, key, value, error);

  if (written == NULL || !hs_store_begin (hs_book_get_store (book), now, error))
    return FALSE;
  return hs_store_end (hs_book_get_store (book), save_value (book, rule, key, written, error), error)
         && hs_book_refresh (book, error);
}
