// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* What hangs on a job, as it stands in the message: one table of members a kind. */

#include "hs-post-body-private.h"

#include "hs-advice-row.h"
#include "hs-finding-row.h"
#include "hs-installed-row.h"
#include "hs-money-row.h"
#include "hs-photo-file.h"
#include "hs-photo-row.h"
#include "hs-reading-row.h"
#include "hs-visit-row.h"

static const HsPostField visit_fields[] = {
  HS_POST_FIELD (HsVisitRow, TEXT, id),
  HS_POST_FIELD (HsVisitRow, INSTANT, rolling_at),
  HS_POST_FIELD (HsVisitRow, INSTANT, arrived_at),
  HS_POST_FIELD (HsVisitRow, INSTANT, left_at),
  HS_POST_FIELD (HsVisitRow, INT, drive_seconds),
  HS_POST_FIELD (HsVisitRow, INT, drive_millimiles),
};

static const HsPostField asked_fields[] = {
  HS_POST_FIELD (HsAskedRow, TEXT, id),
  HS_POST_FIELD (HsAskedRow, TEXT, question),
  HS_POST_FIELD (HsAskedRow, TEXT, answer),
  HS_POST_FIELD (HsAskedRow, TEXT, said_by),
  HS_POST_FIELD (HsAskedRow, INSTANT, at),
};

static const HsPostField finding_fields[] = {
  HS_POST_FIELD (HsFindingRow, TEXT, id),
  HS_POST_FIELD (HsFindingRow, TEXT, place),
  HS_POST_FIELD (HsFindingRow, TEXT, what),
  HS_POST_FIELD (HsFindingRow, TEXT, role),
  HS_POST_FIELD (HsFindingRow, TEXT, sure),
  HS_POST_FIELD (HsFindingRow, TEXT, weight),
  HS_POST_FIELD (HsFindingRow, TEXT, ended),
  HS_POST_FIELD (HsFindingRow, TEXT, cause),
  HS_POST_FIELD (HsFindingRow, TEXT, said_by),
  HS_POST_FIELD (HsFindingRow, INSTANT, entered_at),
  HS_POST_FIELD (HsFindingRow, INSTANT, told_at),
};

static const HsPostField because_fields[] = {
  HS_POST_FIELD (HsBecauseRow, TEXT, id),
  HS_POST_FIELD (HsBecauseRow, TEXT, effect_id),
  HS_POST_FIELD (HsBecauseRow, TEXT, cause_id),
  HS_POST_FIELD (HsBecauseRow, TEXT, how),
  HS_POST_FIELD (HsBecauseRow, TEXT, proof),
  HS_POST_FIELD (HsBecauseRow, TEXT, proof_kind),
  HS_POST_FIELD (HsBecauseRow, TEXT, reading_id),
  HS_POST_FIELD (HsBecauseRow, TEXT, photo_id),
};

/* A value is a whole number and how many of its digits stand behind the point. */
static const HsPostField reading_fields[] = {
  HS_POST_FIELD (HsReadingRow, TEXT, id),
  HS_POST_FIELD (HsReadingRow, TEXT, finding_id),
  HS_POST_FIELD_AS (HsReadingRow, TEXT, check_id, "check"),
  HS_POST_FIELD (HsReadingRow, TEXT, unit),
  HS_POST_FIELD (HsReadingRow, INT, decimals),
  HS_POST_FIELD (HsReadingRow, TEXT, place),
  HS_POST_FIELD (HsReadingRow, INT, value),
  HS_POST_FIELD (HsReadingRow, INT, of_value),
  HS_POST_FIELD (HsReadingRow, FLAG, over_range),
  HS_POST_FIELD (HsReadingRow, TEXT, answer),
  HS_POST_FIELD (HsReadingRow, TEXT, not_measured_why),
  HS_POST_FIELD (HsReadingRow, TEXT, phase),
  HS_POST_FIELD (HsReadingRow, TEXT, conditions),
  HS_POST_FIELD (HsReadingRow, INSTANT, taken_at),
};

static const HsPostField advice_fields[] = {
  HS_POST_FIELD (HsAdviceRow, TEXT, id),
  HS_POST_FIELD (HsAdviceRow, TEXT, finding_id),
  HS_POST_FIELD (HsAdviceRow, TEXT, option_group),
  HS_POST_FIELD (HsAdviceRow, INT, rank),
  HS_POST_FIELD (HsAdviceRow, TEXT, wording),
  HS_POST_FIELD_AS (HsAdviceRow, MONEY, price_cents, "price"),
  HS_POST_FIELD (HsAdviceRow, TEXT, choice),
  HS_POST_FIELD (HsAdviceRow, TEXT, risk_told),
  HS_POST_FIELD (HsAdviceRow, TEXT, decided_by),
  HS_POST_FIELD (HsAdviceRow, INSTANT, decided_at),
  HS_POST_FIELD (HsAdviceRow, TEXT, means),
  HS_POST_FIELD (HsAdviceRow, DATE, chase_on),
};

static const HsPostField go_ahead_fields[] = {
  HS_POST_FIELD (HsGoAheadRow, TEXT, id),
  HS_POST_FIELD_AS (HsGoAheadRow, MONEY, ceiling_cents, "ceiling"),
  HS_POST_FIELD (HsGoAheadRow, TEXT, by_whom),
  HS_POST_FIELD (HsGoAheadRow, INSTANT, at),
  HS_POST_FIELD (HsGoAheadRow, TEXT, means),
  HS_POST_FIELD_IF (HsGoAheadRow, BYTES, signature, "signature", SIGNATURE),
};

static const HsPostField part_fields[] = {
  HS_POST_FIELD (HsInstalledRow, TEXT, id),
  HS_POST_FIELD (HsInstalledRow, TEXT, kind),
  HS_POST_FIELD (HsInstalledRow, TEXT, what),
  HS_POST_FIELD (HsInstalledRow, TEXT, place),
  HS_POST_FIELD (HsInstalledRow, TEXT, maker),
  HS_POST_FIELD (HsInstalledRow, TEXT, serial),
  HS_POST_FIELD (HsInstalledRow, TEXT, date_stamp),
  HS_POST_FIELD (HsInstalledRow, DATE, installed_on),
  HS_POST_FIELD (HsInstalledRow, INT, installed_odometer),
  HS_POST_FIELD (HsInstalledRow, DATE, warranty_from),
  HS_POST_FIELD (HsInstalledRow, INT, warranty_months),
  HS_POST_FIELD (HsInstalledRow, INT, warranty_millimiles),
  HS_POST_FIELD (HsInstalledRow, TEXT, stands_in_for_id),
  HS_POST_FIELD (HsInstalledRow, TEXT, replaced_why),
  HS_POST_FIELD (HsInstalledRow, TEXT, replaced_finding_id),
  HS_POST_FIELD (HsInstalledRow, TEXT, old_part),
};

static const HsPostField line_fields[] = {
  HS_POST_FIELD (HsLineRow, TEXT, id),
  HS_POST_FIELD (HsLineRow, TEXT, kind),
  HS_POST_FIELD (HsLineRow, TEXT, what),
  HS_POST_FIELD (HsLineRow, INT, quantity_milli),
  HS_POST_FIELD_IF (HsLineRow, MONEY, cost_cents, "cost", COSTS),
  HS_POST_FIELD_AS (HsLineRow, MONEY, price_cents, "price"),
  HS_POST_FIELD_AS (HsLineRow, MONEY, tax_cents, "tax"),
  HS_POST_FIELD (HsLineRow, TEXT, installed_part_id),
};

static const HsPostField invoice_fields[] = {
  HS_POST_FIELD (HsInvoiceRow, TEXT, id),
  HS_POST_FIELD (HsInvoiceRow, TEXT, number),
  HS_POST_FIELD (HsInvoiceRow, TEXT, credits_id),
  HS_POST_FIELD (HsInvoiceRow, DATE, issued_on),
  HS_POST_FIELD (HsInvoiceRow, DATE, due_on),
  HS_POST_FIELD_AS (HsInvoiceRow, MONEY, net_cents, "net"),
  HS_POST_FIELD_AS (HsInvoiceRow, MONEY, tax_cents, "tax"),
  HS_POST_FIELD_AS (HsInvoiceRow, MONEY, total_cents, "total"),
};

static const HsPostField payment_fields[] = {
  HS_POST_FIELD (HsPaymentRow, TEXT, id),
  HS_POST_FIELD (HsPaymentRow, INSTANT, at),
  HS_POST_FIELD_AS (HsPaymentRow, MONEY, cents, "amount"),
  HS_POST_FIELD (HsPaymentRow, TEXT, how),
  HS_POST_FIELD (HsPaymentRow, FLAG, taken),
  HS_POST_FIELD_IF (HsPaymentRow, MONEY, fee_cents, "fee", COSTS),
};

static const HsPostField photo_fields[] = {
  HS_POST_FIELD (HsPhotoRow, TEXT, id),
  HS_POST_FIELD (HsPhotoRow, TEXT, visit_id),
  HS_POST_FIELD (HsPhotoRow, TEXT, finding_id),
  HS_POST_FIELD (HsPhotoRow, TEXT, reading_id),
  HS_POST_FIELD_AS (HsPhotoRow, TEXT, file_id, "sha256"),
  HS_POST_FIELD (HsPhotoRow, TEXT, words),
  HS_POST_FIELD (HsPhotoRow, TEXT, phase),
  HS_POST_FIELD (HsPhotoRow, INSTANT, taken_at),
  HS_POST_FIELD (HsPhotoRow, INSTANT, added_at),
};

#define KIND(said, lists, fields) { said, lists, fields, G_N_ELEMENTS (fields) }

static const struct
{
  const char *name;
  gboolean (*list_of) (HsStore *store, const char *job_id, GPtrArray **ret_rows, GError **error);
  const HsPostField *fields;
  guint n_fields;
} kinds[] = {
  KIND ("visits", hs_visit_row_list_of, visit_fields),
  KIND ("answers", hs_asked_row_list_of, asked_fields),
  KIND ("findings", hs_finding_row_list_of, finding_fields),
  KIND ("because", hs_because_row_list_of, because_fields),
  KIND ("readings", hs_reading_row_list_of, reading_fields),
  KIND ("advice", hs_advice_row_list_of, advice_fields),
  KIND ("go_aheads", hs_go_ahead_row_list_of, go_ahead_fields),
  KIND ("parts", hs_installed_row_list_of_job, part_fields),
  KIND ("lines", hs_line_row_list_of, line_fields),
  KIND ("invoices", hs_invoice_row_list_of, invoice_fields),
  KIND ("payments", hs_payment_row_list_of, payment_fields),
};

gboolean
hs_post_write_rows (HsPostWriter *writer, const char *job_id, GError **error)
{
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (GPtrArray) rows = NULL;

      if (!kinds[i].list_of (hs_book_get_store (writer->book), job_id, &rows, error))
        return FALSE;
      json_builder_set_member_name (writer->json, kinds[i].name);
      json_builder_begin_array (writer->json);
      for (guint n = 0; n < rows->len; n++)
        {
          json_builder_begin_object (writer->json);
          hs_post_write_fields (writer, kinds[i].fields, kinds[i].n_fields, g_ptr_array_index (rows, n));
          json_builder_end_object (writer->json);
        }
      json_builder_end_array (writer->json);
    }
  return TRUE;
}

/* The bytes of a photo that is in the book and still fits; %NULL otherwise. */
static gboolean
load_data (HsPostWriter *writer, const HsPhotoFile *file, gint64 *left, GBytes **ret_data, GError **error)
{
  gboolean whole = FALSE;

  if (file == NULL || file->bytes > *left)
    return TRUE;
  if (!hs_photo_file_is_whole (hs_book_get_store (writer->book), file->id, &whole, error))
    return FALSE;
  *left -= whole ? file->bytes : 0;
  return !whole || hs_photo_file_load_data (hs_book_get_store (writer->book), file->id, ret_data, error);
}

static gboolean
write_photo (HsPostWriter *writer, const HsPhotoRow *photo, gint64 *left, GError **error)
{
  g_autoptr (HsPhotoFile) file = NULL;
  g_autoptr (GBytes) data = NULL;
  g_autofree char *text = NULL;

  if (!hs_photo_file_find (hs_book_get_store (writer->book), photo->file_id, &file, error)
      || !load_data (writer, file, left, &data, error))
    return FALSE;
  if (data != NULL)
    text = g_base64_encode (g_bytes_get_data (data, NULL), g_bytes_get_size (data));
  json_builder_begin_object (writer->json);
  hs_post_write_fields (writer, photo_fields, G_N_ELEMENTS (photo_fields), photo);
  hs_post_write_text (writer, "media_type", file == NULL ? NULL : file->media_type);
  hs_post_write_text (writer, "data", text);
  json_builder_end_object (writer->json);
  return TRUE;
}

gboolean
hs_post_write_photos (HsPostWriter *writer, const char *job_id, GError **error)
{
  g_autoptr (GPtrArray) photos = NULL;
  gint64 left = HS_POST_BODY_PHOTO_BYTES;

  if ((writer->show & HS_POST_SHOW_PHOTOS) == 0)
    return TRUE;
  if (!hs_photo_row_list_of (hs_book_get_store (writer->book), job_id, &photos, error))
    return FALSE;
  json_builder_set_member_name (writer->json, "photos");
  json_builder_begin_array (writer->json);
  for (guint i = 0; i < photos->len; i++)
    if (!write_photo (writer, g_ptr_array_index (photos, i), &left, error))
      return FALSE;
  json_builder_end_array (writer->json);
  return TRUE;
}
