// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-geo.h"

G_BEGIN_DECLS

/* hs_geo_finish: checks the range of what @text said, makes the position the one of its place, hands it out. */
gboolean hs_geo_finish (const char *text, HsGeo *geo, HsGeo *ret_geo, GError **error);

/* hs_geo_check_size: refuses a text that is too long to be a position. */
gboolean hs_geo_check_size (const char *text, GError **error);

G_END_DECLS
