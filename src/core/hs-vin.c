// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What a VIN says: check digit, region, model year, maker's identifier, and what may have been meant if it is wrong.
 * Refuses what cannot be a VIN by length or letters, saying what to read instead; a European VIN without a check digit
 * is none of that. */

#include "hs-vin.h"

#include "hs-core-error.h"

/* In the order of ISO 3780: letters first, 0 last. */
#define ORDER "ABCDEFGHJKLMNPRSTUVWXYZ1234567890"
#define YEAR_CODES "ABCDEFGHJKLMNPRSTVWXY123456789"
#define FIRST_YEAR 1980
#define YEAR_CYCLE 30
#define CHECK_AT 8
#define ERA_AT 6
#define YEAR_AT 9
#define FIRST_SURE_DIGIT 13
#define MODULUS 11

static const guint8 weights[HS_VIN_LENGTH] = { 8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2 };

static const char *const check_ids[] = { "valid", "wrong", "not_used" };

/* Two-character ranges and who builds there, as public tables print ISO 3780; only those that rows of the registry of
 * makers bear out. */
static const struct
{
  const char *first;
  const char *last;
  const char *country;
} countries[] = {
  { "AA", "AH", "South Africa" },         { "HA", "H0", "China" },          { "JA", "J0", "Japan" },
  { "KF", "KK", "Israel" },               { "KL", "KR", "South Korea" },    { "LA", "L0", "China" },
  { "MA", "ME", "India" },                { "MF", "MK", "Indonesia" },      { "ML", "MR", "Thailand" },
  { "NL", "NR", "Turkey" },               { "PA", "PE", "Philippines" },    { "PF", "PK", "Singapore" },
  { "RA", "RE", "United Arab Emirates" }, { "RF", "RK", "Taiwan" },         { "RL", "RR", "Vietnam" },
  { "RS", "RW", "Saudi Arabia" },         { "SA", "SM", "United Kingdom" }, { "SU", "SZ", "Poland" },
  { "TA", "TH", "Switzerland" },          { "TJ", "TP", "Czech Republic" }, { "TR", "TV", "Hungary" },
  { "TW", "T1", "Portugal" },             { "UH", "UM", "Denmark" },        { "UU", "UZ", "Romania" },
  { "VA", "VE", "Austria" },              { "VF", "VR", "France" },         { "VS", "VW", "Spain" },
  { "VX", "V2", "Serbia" },               { "V6", "V0", "Estonia" },        { "WA", "W0", "Germany" },
  { "XL", "XR", "Netherlands" },          { "XS", "XW", "Russia" },         { "X3", "X0", "Russia" },
  { "YA", "YE", "Belgium" },              { "YF", "YK", "Finland" },        { "YS", "YW", "Sweden" },
  { "YX", "Y2", "Norway" },               { "Y6", "Y0", "Ukraine" },        { "ZA", "ZR", "Italy" },
  { "ZX", "Z2", "Slovenia" },             { "1A", "10", "USA" },            { "2A", "20", "Canada" },
  { "3A", "3X", "Mexico" },               { "4A", "40", "USA" },            { "5A", "50", "USA" },
  { "6A", "6W", "Australia" },            { "6Y", "6Z", "New Zealand" },    { "7A", "7E", "New Zealand" },
  { "7F", "70", "USA" },                  { "8A", "8E", "Argentina" },      { "8X", "82", "Venezuela" },
  { "9A", "9E", "Brazil" },               { "9F", "9K", "Colombia" },       { "9S", "9W", "Uruguay" },
  { "93", "99", "Brazil" },
};

/* What is taken for what, the commonest first. O, I and Q never get this far. */
static const char lookalikes[][2] = {
  { '5', 'S' }, { '8', 'B' }, { '2', 'Z' }, { '0', 'D' }, { '1', 'L' }, { '6', 'G' }, { 'U', 'V' },
};

static gboolean
refuse (GError **error, const char *text, const char *reason)
{
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” is not a VIN: %s", text, reason);
  return FALSE;
}

static char *
bare (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  GString *kept = g_string_new (NULL);

  for (const char *at = valid; *at != '\0'; at++)
    if (!g_ascii_isspace (*at) && *at != '-')
      g_string_append_c (kept, g_ascii_toupper (*at));
  return g_string_free (kept, FALSE);
}

static gboolean
refuse_length (GError **error, const char *vin, glong length)
{
  g_autofree char *reason =
    g_strdup_printf ("it has %ld characters, a VIN has %d: %s. Vehicles built before 1981 have shorter numbers that "
                     "follow no rule",
                     length, HS_VIN_LENGTH, length < HS_VIN_LENGTH ? "count them again" : "there is one too many");

  return refuse (error, vin, reason);
}

/* I, O and Q are never used, since they look like 1 and 0. */
static gboolean
refuse_letters (GError **error, const char *vin)
{
  g_autofree char *meant = g_strdelimit (g_strdelimit (g_strdup (vin), "I", '1'), "OQ", '0');
  gboolean whole = strspn (meant, ORDER) == HS_VIN_LENGTH;
  gboolean right = whole && hs_vin_check (meant) == HS_VIN_VALID;
  g_autofree char *reason =
    g_strdup_printf ("it never has I, O or Q; read I as 1, O and Q as 0: %s%s", meant,
                     right ? ", whose check digit is right" : "");

  return refuse (error, vin, reason);
}

gboolean
hs_vin_read (const char *text, char **ret_vin, GError **error)
{
  g_autofree char *vin = bare (text);
  glong length = g_utf8_strlen (vin, -1);

  if (length != HS_VIN_LENGTH)
    return refuse_length (error, vin, length);
  for (const char *at = vin; *at != '\0'; at++)
    if (strchr (ORDER "IOQ", *at) == NULL && (at != vin + CHECK_AT || *at != HS_VIN_UNREADABLE))
      return refuse (error, vin, "it has letters A to Z and digits only; a ? may stand at position 9");
  if (strpbrk (vin, "IOQ") != NULL)
    return refuse_letters (error, vin);
  *ret_vin = g_steal_pointer (&vin);
  return TRUE;
}

static guint
value_of (char sign)
{
  static const guint8 letters[] = {
    /* A to I */ 1, 2, 3, 4, 5, 6, 7, 8, 0, /* J to R */ 1, 2, 3, 4, 5, 0, 7, 0, 9, /* S to Z */ 2, 3, 4, 5, 6, 7, 8, 9,
  };

  if (g_ascii_isdigit (sign))
    return (guint) (sign - '0');
  return g_ascii_isupper (sign) ? letters[sign - 'A'] : 0;
}

guint
hs_vin_sum (const char *vin)
{
  guint sum = 0;

  for (guint i = 0; i < HS_VIN_LENGTH; i++)
    sum += weights[i] * value_of (vin[i]);
  return sum;
}

char
hs_vin_check_digit (const char *vin)
{
  return "0123456789X"[hs_vin_sum (vin) % MODULUS];
}

static int
place_of (char sign)
{
  return (int) (strchr (ORDER, sign) - ORDER);
}

static gboolean
is_between (const char *vin, const char *first, const char *last)
{
  return vin[0] == first[0] && place_of (vin[1]) >= place_of (first[1]) && place_of (vin[1]) <= place_of (last[1]);
}

static gboolean
is_north_american (const char *vin)
{
  return (vin[0] >= '1' && vin[0] <= '5') || is_between (vin, "7F", "70");
}

gboolean
hs_vin_needs_check_digit (const char *vin)
{
  return is_north_american (vin) || vin[0] == 'L' || vin[0] == 'H';
}

HsVinCheck
hs_vin_check (const char *vin)
{
  if (vin[CHECK_AT] == hs_vin_check_digit (vin))
    return HS_VIN_VALID;
  return hs_vin_needs_check_digit (vin) ? HS_VIN_WRONG : HS_VIN_NOT_USED;
}

const char *
hs_vin_check_id (HsVinCheck check)
{
  return check_ids[check];
}

const char *
hs_vin_region (const char *vin)
{
  if (is_north_american (vin))
    return "North America";
  if (vin[0] >= 'A' && vin[0] <= 'G')
    return "Africa";
  if (vin[0] >= 'H' && vin[0] <= 'R')
    return "Asia";
  if (vin[0] >= 'S' && vin[0] <= 'Z')
    return "Europe";
  if (vin[0] == '6' || vin[0] == '7')
    return "Oceania";
  return vin[0] == '0' ? "" : "South America";
}

const char *
hs_vin_country (const char *vin)
{
  for (guint i = 0; i < G_N_ELEMENTS (countries); i++)
    if (is_between (vin, countries[i].first, countries[i].last))
      return countries[i].country;
  return "";
}

char *
hs_vin_dup_wmi (const char *vin)
{
  if (vin[2] != '9')
    return g_strndup (vin, 3);
  return g_strdup_printf ("%.3s%.3s", vin, vin + 11);
}

HsVinEra
hs_vin_era (const char *vin, HsMakerType type)
{
  if (type != HS_MAKER_CAR && type != HS_MAKER_MPV)
    return HS_VIN_ERA_OPEN;
  if (!is_north_american (vin) && hs_vin_check (vin) != HS_VIN_VALID)
    return HS_VIN_ERA_OPEN;
  return g_ascii_isdigit (vin[ERA_AT]) ? HS_VIN_ERA_EARLY : HS_VIN_ERA_LATE;
}

guint
hs_vin_years (const char *vin, HsVinEra era, int newest, gint64 ret_years[2])
{
  const char *code = strchr (YEAR_CODES, vin[YEAR_AT]);
  gint64 early = code == NULL ? 0 : FIRST_YEAR + (code - YEAR_CODES);

  if (code == NULL)
    return 0;
  ret_years[0] = era == HS_VIN_ERA_LATE ? early + YEAR_CYCLE : early;
  ret_years[1] = early + YEAR_CYCLE;
  return era == HS_VIN_ERA_OPEN && ret_years[1] <= newest ? 2 : 1;
}

/* One way in which the VIN may have been meant; less is likelier. */
typedef struct
{
  char vin[HS_VIN_LENGTH + 1];
  guint cost;
} Reading;

#define COST_SWAP G_N_ELEMENTS (lookalikes)
#define COST_NO_MAKER 100

static gboolean
has_maker (const char *vin, const HsReference *reference)
{
  g_autofree char *wmi = hs_vin_dup_wmi (vin);

  return reference != NULL && hs_reference_lookup_maker (reference, wmi) != NULL;
}

/* Keeps a reading that can be: check digit right, a year code, and digits at the end (49 CFR 565.15(d)). */
static void
consider (GArray *readings, const char *vin, guint cost, const HsReference *reference)
{
  Reading reading = { .cost = cost };

  if (hs_vin_check (vin) != HS_VIN_VALID || strchr (YEAR_CODES, vin[YEAR_AT]) == NULL)
    return;
  if (strspn (vin + FIRST_SURE_DIGIT, "0123456789") != HS_VIN_LENGTH - FIRST_SURE_DIGIT)
    return;
  if (!has_maker (vin, reference))
    reading.cost += COST_NO_MAKER;
  memcpy (reading.vin, vin, HS_VIN_LENGTH);
  g_array_append_val (readings, reading);
}

static void
consider_lookalike (GArray *readings, const char *vin, guint place, const HsReference *reference)
{
  for (guint i = 0; i < G_N_ELEMENTS (lookalikes); i++)
    for (guint side = 0; side < 2; side++)
      {
        g_autofree char *meant = g_strdup (vin);

        if (vin[place] != lookalikes[i][side])
          continue;
        meant[place] = lookalikes[i][1 - side];
        consider (readings, meant, i, reference);
      }
}

/* A first character that made the VIN look like one from elsewhere: only where the maker bears it out. */
static void
consider_region (GArray *readings, const char *vin, const HsReference *reference)
{
  consider_lookalike (readings, vin, 0, reference);
  for (guint i = readings->len; i > 0; i--)
    {
      const Reading *reading = &g_array_index (readings, Reading, i - 1);

      if (reading->cost >= COST_NO_MAKER || !hs_vin_needs_check_digit (reading->vin))
        g_array_remove_index (readings, i - 1);
    }
}

static void
consider_swaps (GArray *readings, const char *vin, const HsReference *reference)
{
  for (guint place = 0; place + 1 < HS_VIN_LENGTH; place++)
    {
      g_autofree char *meant = g_strdup (vin);

      if (vin[place] == vin[place + 1])
        continue;
      meant[place] = vin[place + 1];
      meant[place + 1] = vin[place];
      consider (readings, meant, COST_SWAP, reference);
    }
}

static int
compare_readings (const void *one, const void *other)
{
  const Reading *first = one, *second = other;

  if (first->cost != second->cost)
    return first->cost < second->cost ? -1 : 1;
  return strcmp (first->vin, second->vin);
}

char **
hs_vin_suggest (const char *vin, const HsReference *reference)
{
  g_autoptr (GArray) readings = g_array_new (FALSE, TRUE, sizeof (Reading));
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();

  if (vin[CHECK_AT] == HS_VIN_UNREADABLE)
    {
      g_autofree char *meant = g_strdup (vin);

      meant[CHECK_AT] = hs_vin_check_digit (vin);
      consider (readings, meant, 0, reference);
    }
  else if (hs_vin_check (vin) == HS_VIN_WRONG)
    {
      for (guint place = 0; place < HS_VIN_LENGTH; place++)
        consider_lookalike (readings, vin, place, reference);
      consider_swaps (readings, vin, reference);
    }
  else if (hs_vin_check (vin) == HS_VIN_NOT_USED)
    consider_region (readings, vin, reference);
  g_array_sort (readings, compare_readings);
  for (guint i = 0; i < MIN (readings->len, HS_VIN_MOST_SUGGESTIONS); i++)
    g_strv_builder_add (builder, g_array_index (readings, Reading, i).vin);
  return g_strv_builder_end (builder);
}
