// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-post-body.h"

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

/* How rows become members; private to the message. */

typedef enum
{
  HS_POST_TEXT,
  HS_POST_AREA,
  HS_POST_INT,
  HS_POST_FLAG,
  HS_POST_DATE,
  HS_POST_INSTANT,
  HS_POST_MONEY,
  HS_POST_MILLI,
  HS_POST_BYTES,
} HsPostFieldType;

/* only: the switch without which it is held back. HS_POST_MILLI is a real, told in thousandths. */
typedef struct
{
  const char *name;
  HsPostFieldType type;
  gsize offset;
  HsPostShow only;
} HsPostField;

#define HS_POST_FIELD(Row, kind, field) { #field, HS_POST_##kind, G_STRUCT_OFFSET (Row, field), 0 }
#define HS_POST_FIELD_AS(Row, kind, field, said) { said, HS_POST_##kind, G_STRUCT_OFFSET (Row, field), 0 }
#define HS_POST_FIELD_IF(Row, kind, field, said, shown) \
  { said, HS_POST_##kind, G_STRUCT_OFFSET (Row, field), HS_POST_SHOW_##shown }

typedef struct
{
  HsBook *book;
  JsonBuilder *json;
  const char *currency;
  HsPostShow show;
} HsPostWriter;

/* hs_post_write_text: @text %NULL is null. */
void hs_post_write_text (HsPostWriter *writer, const char *name, const char *text);

/* hs_post_write_fields: the members of a row, without the braces. */
void hs_post_write_fields (HsPostWriter *writer, const HsPostField *fields, guint n_fields, gconstpointer row);

/* hs_post_write_rows: everything that hangs on the job, one array a kind. */
gboolean hs_post_write_rows (HsPostWriter *writer, const char *job_id, GError **error);

/* hs_post_write_photos: what they show, with their bytes while they fit. */
gboolean hs_post_write_photos (HsPostWriter *writer, const char *job_id, GError **error);

G_END_DECLS
