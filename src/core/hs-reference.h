// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-date.h"

G_BEGIN_DECLS

/**
 * HsReference:
 *
 * Tables that are data: makers by VIN, trouble codes, mileage rates, battery deposits. They lie in data/reference,
 * where each says where it comes from, and are handed in as bytes. A reference never changes and may be shared between
 * threads; what the lookups return belongs to it.
 */
typedef struct _HsReference HsReference;

/**
 * HsReferenceTables:
 * @makers: (nullable): data/reference/makers.csv
 * @trouble_codes: (nullable): data/reference/trouble-codes.ini
 * @mileage: (nullable): data/reference/mileage.ini
 * @deposits: (nullable): data/reference/deposits.ini
 *
 * What a reference is made from; a table that is %NULL is empty.
 */
typedef struct
{
  GBytes *makers;
  GBytes *trouble_codes;
  GBytes *mileage;
  GBytes *deposits;
} HsReferenceTables;

/**
 * hs_reference_new:
 * @tables: borrowed only while reading
 * @error: return location, %HS_CORE_ERROR_BAD_VALUE naming the table, the row and the field
 *
 * Reads and checks everything: a table with one row that is not understood is refused as a whole.
 *
 * Returns: (transfer full): free with hs_reference_unref(), or %NULL
 */
HsReference *hs_reference_new (const HsReferenceTables *tables, GError **error);
HsReference *hs_reference_ref (HsReference *reference);
void hs_reference_unref (HsReference *reference);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HsReference, hs_reference_unref)

/**
 * HsMakerType:
 *
 * What a maker's identifier stands for. %HS_MAKER_MPV is a multipurpose passenger vehicle; %HS_MAKER_TRUCK may be
 * light or heavy.
 */
typedef enum
{
  HS_MAKER_NO_TYPE,
  HS_MAKER_CAR,
  HS_MAKER_MPV,
  HS_MAKER_TRUCK,
  HS_MAKER_BUS,
  HS_MAKER_TRAILER,
  HS_MAKER_MOTORCYCLE,
  HS_MAKER_LOW_SPEED,
  HS_MAKER_INCOMPLETE,
  HS_MAKER_OFF_ROAD,
} HsMakerType;

/* hs_maker_type_label: (transfer none): "car", "bus" …; "" for %HS_MAKER_NO_TYPE. */
const char *hs_maker_type_label (HsMakerType type);

/**
 * HsMaker:
 * @wmi: world maker identifier: three characters, or six if the third is a 9
 * @name: as it is registered
 * @country: of the maker's address, which need not be where the vehicle was built; "" if not known
 */
typedef struct
{
  const char *wmi;
  const char *name;
  const char *country;
  HsMakerType type;
} HsMaker;

/* Who says what stands in makers.csv. */
#define HS_REFERENCE_MAKERS_SOURCE "NHTSA vPIC, makers by VIN, as of 2026-03"

/* hs_reference_lookup_maker: (transfer none) (nullable): by its three or six characters. */
const HsMaker *hs_reference_lookup_maker (const HsReference *reference, const char *wmi);
guint hs_reference_get_n_makers (const HsReference *reference);

/**
 * HsTroubleEntry:
 * @code: `P0562`
 * @meaning: in plain words
 * @next: what to look at; "" if nothing is said
 * @source: who says so
 * @sure: one of the words of hs-calc.h
 */
typedef struct
{
  const char *code;
  const char *meaning;
  const char *next;
  const char *source;
  const char *sure;
} HsTroubleEntry;

/* hs_reference_lookup_trouble: (transfer none) (nullable): by the code as it is written. */
const HsTroubleEntry *hs_reference_lookup_trouble (const HsReference *reference, const char *code);
guint hs_reference_get_n_troubles (const HsReference *reference);

/**
 * HsMileageRate:
 * @from: first day on which it holds
 * @centicents: hundredths of a US cent a mile: 72.5 cents are 7250
 */
typedef struct
{
  HsDate from;
  gint64 centicents;
  const char *source;
  const char *sure;
} HsMileageRate;

/* hs_reference_get_nth_rate: (transfer none) (nullable): by date, the oldest first; %NULL behind the last. */
const HsMileageRate *hs_reference_get_nth_rate (const HsReference *reference, guint nth);

/**
 * HsDepositRule:
 * @place: a state
 * @deposit_cents: asked for when no old battery is handed in, US cents
 * @days: within how many days of the sale it goes back; 0 if the source does not say
 * @checked: when the row was last held against its source
 */
typedef struct
{
  const char *place;
  gint64 deposit_cents;
  int days;
  HsDate checked;
  const char *source;
  const char *sure;
} HsDepositRule;

/* hs_reference_lookup_deposit: (transfer none) (nullable): letter case makes no difference. */
const HsDepositRule *hs_reference_lookup_deposit (const HsReference *reference, const char *place);

/* hs_reference_get_nth_deposit: (transfer none) (nullable): in the order of the table; %NULL behind the last. */
const HsDepositRule *hs_reference_get_nth_deposit (const HsReference *reference, guint nth);

G_END_DECLS
