// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-ledger.h"
#include "hs-road-op.h"

G_BEGIN_DECLS

/**
 * HsRoadWorks:
 * @dup_folder: (transfer full): where this device's map lies
 * @dup_splitter: as hs_roads_dup_splitter()
 * @take_map: as hs_roads_take_map()
 * @sweep: takes away what hs_roads_is_left_over()
 * @has_map: as hs_roads_has_map()
 * @open: (transfer full): the map in a folder; %NULL with an error
 * @close: shuts it
 * @source: an open map as the operations want it
 *
 * Roads as the program wires them in; this layer knows no router. The functions but @dup_folder, @sweep and @has_map
 * are called in worker threads, one at a time.
 */
typedef struct
{
  char *(*dup_folder) (void);
  char **(*dup_splitter) (const char *extract, const char *folder, char **ret_stamp, GError **error);
  gboolean (*take_map) (const char *folder, const char *stamp, GError **error);
  void (*sweep) (const char *folder);
  gboolean (*has_map) (const char *folder);
  gpointer (*open) (const char *folder, GError **error);
  void (*close) (gpointer map);
  HsRoadSource (*source) (gpointer map);
} HsRoadWorks;

/* hs_road_works_install: @works: (nullable): stays for good; %NULL, as at the start: built without roads. */
void hs_road_works_install (const HsRoadWorks *works);
const HsRoadWorks *hs_road_works_get (void);

/**
 * HsRoadMakerState:
 * @HS_ROAD_MAKER_IDLE: nothing was asked for yet
 * @HS_ROAD_MAKER_READING: the extract is looked at
 * @HS_ROAD_MAKER_SPLITTING: the splitter makes the map
 * @HS_ROAD_MAKER_DRIVING: the places of the book are driven between
 * @HS_ROAD_MAKER_DONE: the map counts and the book knows its drives
 * @HS_ROAD_MAKER_FAILED: see hs_road_maker_get_trouble()
 * @HS_ROAD_MAKER_STOPPED: by hand
 */
typedef enum
{
  HS_ROAD_MAKER_IDLE,
  HS_ROAD_MAKER_READING,
  HS_ROAD_MAKER_SPLITTING,
  HS_ROAD_MAKER_DRIVING,
  HS_ROAD_MAKER_DONE,
  HS_ROAD_MAKER_FAILED,
  HS_ROAD_MAKER_STOPPED,
} HsRoadMakerState;

/**
 * HsRoadMaker:
 *
 * Makes the map of roads from an OpenStreetMap extract beside everything else that goes on, and has the book drive on
 * it. There is one for each ledger, and it goes on while no window looks.
 *
 * #HsRoadMaker::changed: state, step or trouble.
 */
#define HS_TYPE_ROAD_MAKER (hs_road_maker_get_type ())
G_DECLARE_FINAL_TYPE (HsRoadMaker, hs_road_maker, HS, ROAD_MAKER, GObject)

/* hs_road_maker_of: (transfer none): the ledger's; it is made when first asked for. */
HsRoadMaker *hs_road_maker_of (HsLedger *ledger);

/* hs_road_maker_make: @extract: path of the file. Does nothing while it is at work, or without roads. The map from
 * before stays until the new one is whole. */
void hs_road_maker_make (HsRoadMaker *self, const char *extract);

/* hs_road_maker_stop: what was begun is taken away. Driving is short and is not stopped. */
void hs_road_maker_stop (HsRoadMaker *self);

/* hs_road_maker_drive: drives between the places of the book on the map that is there, if any; for new places. */
void hs_road_maker_drive (HsRoadMaker *self);
HsRoadMakerState hs_road_maker_get_state (HsRoadMaker *self);
gboolean hs_road_maker_is_busy (HsRoadMaker *self);

/* hs_road_maker_get_share: how much of the steps is done, 0 to 1; steps differ in length. */
double hs_road_maker_get_share (HsRoadMaker *self);

/* hs_road_maker_get_step: (nullable): the splitter's own words for what it did last. */
const char *hs_road_maker_get_step (HsRoadMaker *self);

/* hs_road_maker_get_trouble: (nullable): what is wrong and what to do. */
const char *hs_road_maker_get_trouble (HsRoadMaker *self);

/* hs_road_maker_get_driven: how many drives were new to the book. */
guint hs_road_maker_get_driven (HsRoadMaker *self);

G_END_DECLS
