// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-cli.h"

G_BEGIN_DECLS

/** hs_photo_out_write: @photos: (element-type HsPhotoCard): as an array of objects. */
void hs_photo_out_write (HsJsonOut *out, const char *name, GPtrArray *photos);

/** hs_photo_out_print: a line for each, with @title in front of the first. */
void hs_photo_out_print (HsCli *cli, const char *title, GPtrArray *photos);

G_END_DECLS
