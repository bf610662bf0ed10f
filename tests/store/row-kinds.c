// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Every kind of row, filled in with one of each. */

#include "row-kinds.h"

#include "hs-advice-row.h"
#include "hs-area-row.h"
#include "hs-chase-row.h"
#include "hs-core-row.h"
#include "hs-customer-row.h"
#include "hs-draft-row.h"
#include "hs-finding-row.h"
#include "hs-installed-row.h"
#include "hs-job-row.h"
#include "hs-money-row.h"
#include "hs-need-row.h"
#include "hs-odometer-row.h"
#include "hs-part-row.h"
#include "hs-plan-row.h"
#include "hs-reading-row.h"
#include "hs-road-row.h"
#include "hs-setting-row.h"
#include "hs-stock-row.h"
#include "hs-supplier-row.h"
#include "hs-van-row.h"
#include "hs-vehicle-row.h"
#include "hs-visit-row.h"

static const HsDate day = 20522; /* 2026-03-10 */

static void
set (char **field, const char *text)
{
  hs_row_set (field, text);
}

static void
fill_setting_row (gpointer data)
{
  HsSettingRow *row = data;

  set (&row->id, "base_area");
  set (&row->value, "T");
}

static void
fill_area_row (gpointer data)
{
  HsAreaRow *row = data;

  set (&row->id, "S");
  set (&row->name, "Sedge End");
  set (&row->signal, "none");
  row->lat = 41.5;
  row->lon = -71.25;
}

static void
fill_travel_row (gpointer data)
{
  HsTravelRow *row = data;

  set (&row->from_id, "O");
  set (&row->to_id, "Q");
  row->seconds = 360;
  row->millimiles = 1900;
  row->samples = 8;
}

static void
fill_van_row (gpointer data)
{
  HsVanRow *row = data;

  set (&row->letter, "B");
  set (&row->plate, "TDM 77");
  row->next_number = 1;
}

static void
fill_worker_row (gpointer data)
{
  HsWorkerRow *row = data;

  set (&row->name, "Milo Tarn");
  row->wage_cents = 1900;
}

static void
fill_customer_row (gpointer data)
{
  HsCustomerRow *row = data;

  set (&row->name, "Fennimore Bakery");
  set (&row->kind, "trade");
  set (&row->email, "isolde@example.org");
  set (&row->street, "1 Mill Lane");
  set (&row->area_id, "O");
  row->lat = 41.25;
  row->lon = -71.5;
  set (&row->access_note, "gate");
  row->reach_from_minutes = 630;
  row->reach_to_minutes = 1080;
  row->terms_days = 14;
  row->stop_credit = TRUE;
  set (&row->tax_free_ref, "TF-1");
  set (&row->note, "vans");
}

static void
fill_phone_row (gpointer data)
{
  HsPhoneRow *row = data;

  set (&row->customer_id, "c2");
  set (&row->shown, "555-0118");
  set (&row->whose, "office");
}

static void
fill_vehicle_row (gpointer data)
{
  HsVehicleRow *row = data;

  set (&row->plate, "tdm-2218");
  set (&row->plate_state, "RI");
  set (&row->vin, "1HGBH41JXMN109186");
  set (&row->make, "Orsane");
  set (&row->model, "Merle");
  row->year = 2018;
  set (&row->engine, "2.0");
  set (&row->fuel, "diesel");
  set (&row->battery_place, "trunk");
  set (&row->battery_size, "H7");
  set (&row->battery_kind, "AGM");
  row->battery_ah = 70.5;
  row->battery_cca = 760;
  row->stop_start = TRUE;
  row->needs_coding = TRUE;
  row->high_voltage = TRUE;
  row->wheel_torque_nm = 110.5;
  set (&row->odometer_unit, "km");
  set (&row->note, "taxi");
}

static void
fill_ownership_row (gpointer data)
{
  HsOwnershipRow *row = data;

  set (&row->vehicle_id, "v2");
  set (&row->customer_id, "c2");
  row->from_date = day;
  row->to_date = day;
}

static void
fill_old_plate_row (gpointer data)
{
  HsOldPlateRow *row = data;

  set (&row->vehicle_id, "v2");
  set (&row->plate, "ABC 1");
  set (&row->plate_state, "MA");
  row->until = day;
}

static void
fill_odometer_row (gpointer data)
{
  HsOdometerRow *row = data;

  set (&row->vehicle_id, "v2");
  row->on_date = day;
  row->value = 81400;
  set (&row->job_id, "open");
  set (&row->doubted, "new cluster");
}

static void
fill_job_row (gpointer data)
{
  HsJobRow *row = data;

  set (&row->number, "A-0009");
  set (&row->van_id, "va");
  set (&row->customer_id, "c1");
  set (&row->vehicle_id, "v1");
  set (&row->kind, "return_visit");
  set (&row->stage, "promised");
  set (&row->complaint_group, "will_not_start");
  set (&row->words, "slow crank");
  row->called_at = 1773139500;
  set (&row->area_id, "Q");
  set (&row->street, "4 Quay Street");
  set (&row->access_note, "bell");
  row->day = day;
  row->window_from = 1773146000;
  row->window_to = 1773153200;
  set (&row->zone, "America/New_York");
  row->guess_seconds = 2400;
  set (&row->follows_job_id, "squared");
  set (&row->return_why, "not_decided");
  set (&row->unproved_why, "u");
  set (&row->turned_away_why, "t");
  set (&row->called_off_why, "c");
  set (&row->safe_to_drive, "told_not_to");
  set (&row->note, "n");
  set (&row->saw_it, "no");
  set (&row->called_off_how, "no_show");
}

static void
fill_visit_row (gpointer data)
{
  HsVisitRow *row = data;

  set (&row->job_id, "open");
  row->rolling_at = 100;
  row->arrived_at = 700;
  row->left_at = 3100;
  row->drive_seconds = 600;
  row->drive_millimiles = 3100;
  row->paper_seconds = 60;
  set (&row->safe_note, "moved");
}

static void
fill_pause_row (gpointer data)
{
  HsPauseRow *row = data;

  set (&row->visit_id, "vi");
  row->from_at = 800;
  row->to_at = 900;
  set (&row->why, "parts");
}

static void
fill_asked_row (gpointer data)
{
  HsAskedRow *row = data;

  set (&row->job_id, "open");
  set (&row->question, "lamps?");
  set (&row->answer, "dim");
  set (&row->said_by, "Rue");
  row->at = 50;
}

static void
fill_check_kind_row (gpointer data)
{
  HsCheckKindRow *row = data;

  set (&row->id, "starts");
  set (&row->name, "Starts");
  set (&row->unit, "count");
  row->decimals = 1;
}

static void
fill_check_own_row (gpointer data)
{
  HsCheckOwnRow *row = data;

  set (&row->vehicle_id, "v1");
  set (&row->check_id, "rest");
  set (&row->whose, "maker");
  row->low = 1240;
  row->high = 1290;
  set (&row->source, "manual");
}

static void
fill_reading_row (gpointer data)
{
  HsReadingRow *row = data;

  set (&row->job_id, "open");
  set (&row->finding_id, "f-open");
  set (&row->check_id, "rest");
  set (&row->unit, "V");
  row->decimals = 2;
  set (&row->place, "trunk");
  row->value = 1242;
  row->of_value = 1300;
  row->over_range = FALSE;
  set (&row->phase, "during");
  set (&row->conditions, "lamps on");
  row->taken_at = 77;
}

static void
fill_finding_row (gpointer data)
{
  HsFindingRow *row = data;

  set (&row->job_id, "open");
  set (&row->place, "hood");
  set (&row->what, "clamp loose");
  set (&row->role, "seen");
  set (&row->sure, "proven");
  set (&row->weight, "plan_it");
  set (&row->ended, "outside_told");
  row->entered_at = 5;
  set (&row->cause, "loose_clamp");
  set (&row->said_by, "Rue");
  row->told_at = 6;
}

static void
fill_because_row (gpointer data)
{
  HsBecauseRow *row = data;

  set (&row->job_id, "open");
  set (&row->effect_id, "g-open");
  set (&row->cause_id, "h-open");
  set (&row->how, "ate it");
  set (&row->proof, "12.42 V");
  set (&row->proof_kind, "reading");
  set (&row->reading_id, "r-before");
  set (&row->photo_id, "ph");
}

static void
fill_advice_row (gpointer data)
{
  HsAdviceRow *row = data;

  set (&row->job_id, "open");
  set (&row->finding_id, "f-open");
  set (&row->option_group, "g1");
  row->rank = 2;
  set (&row->wording, "belt only");
  row->price_cents = 15379;
  set (&row->choice, "later");
  set (&row->risk_told, "lamp");
  set (&row->decided_by, "Bram");
  row->decided_at = 9;
  set (&row->means, "phone");
  row->chase_on = day;
  row->signature = g_bytes_new_static ("ink", 3);
}

static void
fill_go_ahead_row (gpointer data)
{
  HsGoAheadRow *row = data;

  set (&row->job_id, "open");
  row->ceiling_cents = 22000;
  set (&row->by_whom, "Bram");
  row->at = 9;
  set (&row->means, "text");
  row->signature = g_bytes_new_static ("ink", 3);
}

static void
fill_supplier_row (gpointer data)
{
  HsSupplierRow *row = data;

  set (&row->name, "Larch & Weir");
  set (&row->area_id, "O");
  set (&row->phone, "5550141");
  set (&row->account, "77");
  set (&row->terms, "account");
  row->return_days = 14;
  row->restock_basis_points = 1500;
  row->core_days = 60;
  row->stop_seconds = 480;
  set (&row->note, "rebuilds");
}

static void
fill_hours_row (gpointer data)
{
  HsHoursRow *row = data;

  set (&row->supplier_id, "k");
  row->weekday = 6;
  row->opens_minutes = 480;
  row->shuts_minutes = 960;
}

static void
fill_counter_day_row (gpointer data)
{
  HsCounterDayRow *row = data;

  set (&row->supplier_id, "k");
  row->on_date = 20522;
  row->opens_minutes = 540;
  row->shuts_minutes = 720;
  set (&row->words, "Founders' Day");
}

static void
fill_supplier_bill_row (gpointer data)
{
  HsSupplierBillRow *row = data;

  set (&row->supplier_id, "k");
  set (&row->ref, "B-1");
  row->on_date = day;
  row->cents = 6200;
  row->due_on = day;
  row->paid_on = day;
}

static void
fill_part_row (gpointer data)
{
  HsPartRow *row = data;

  set (&row->number, "ST-15");
  set (&row->name, "starter");
  set (&row->kind, "starter");
  row->warranty_months = 12;
  row->warranty_millimiles = 12000000;
  row->core_deposit_cents = 4500;
}

static void
fill_price_row (gpointer data)
{
  HsPriceRow *row = data;

  set (&row->supplier_id, "k");
  set (&row->part_id, "b");
  row->cost_cents = 6200;
  row->seen_on = day;
}

static void
fill_stock_row (gpointer data)
{
  HsStockRow *row = data;

  set (&row->van_id, "va");
  set (&row->part_id, "b");
  row->quantity_milli = 1000;
  row->keep_milli = 2000;
  set (&row->bin, "shelf 1");
}

static void
fill_stock_move_row (gpointer data)
{
  HsStockMoveRow *row = data;

  set (&row->van_id, "va");
  set (&row->part_id, "b");
  row->quantity_milli = -500;
  set (&row->why, "scrapped");
  set (&row->job_id, "open");
  row->cost_cents = 62;
  row->at = 3;
}

static void
fill_need_row (gpointer data)
{
  HsNeedRow *row = data;

  set (&row->job_id, "open");
  set (&row->part_id, "b");
  row->quantity_milli = 2000;
  row->sure_percent = 38;
  set (&row->supplier_id, "k");
  row->quoted_cents = 11800;
  set (&row->state, "laid_aside");
  row->need_by = day;
  set (&row->counter_note, "Ana");
  set (&row->advice_line_id, "al-open");
}

static void
fill_installed_row (gpointer data)
{
  HsInstalledRow *row = data;

  set (&row->vehicle_id, "v1");
  set (&row->job_id, "open");
  set (&row->part_id, "b");
  set (&row->kind, "battery");
  set (&row->what, "battery 55 Ah");
  set (&row->place, "hood");
  set (&row->serial, "S1");
  set (&row->date_stamp, "K4");
  row->installed_on = day;
  row->installed_odometer = 81400;
  set (&row->known_by, "receipt");
  set (&row->supplier_id, "k");
  set (&row->supplier_bill, "B-1");
  set (&row->maker, "Brackwater");
  row->warranty_from = day;
  row->warranty_months = 24;
  row->warranty_millimiles = 9000000;
  set (&row->replaced_why, "failed");
  set (&row->replaced_finding_id, "g-open");
  row->told_at = 6;
  row->removed_on = day;
  set (&row->removed_job_id, "open2");
  set (&row->battery_kind, "flooded");
  row->battery_ah = 55.5;
  row->battery_cca = 480;
  set (&row->old_part, "handed_over");
}

static void
fill_core_row (gpointer data)
{
  HsCoreRow *row = data;

  set (&row->supplier_id, "k");
  set (&row->part_id, "b");
  set (&row->job_id, "open");
  row->deposit_cents = 1800;
  row->paid_on = day;
  row->due_on = day;
  set (&row->where_now, "credited");
  row->handed_in_on = day;
  row->credited_on = day;
  set (&row->credit_ref, "CR-5521");
  row->charged_cents = 100;
}

static void
fill_return_row (gpointer data)
{
  HsReturnRow *row = data;

  set (&row->supplier_id, "k");
  set (&row->part_id, "b");
  set (&row->job_id, "open");
  row->quantity_milli = 3000;
  row->amount_cents = 4650;
  row->bought_on = day;
  row->last_day = day;
  row->handed_in_on = day;
  row->credited_on = day;
  set (&row->credit_ref, "CR-1");
}

static void
fill_line_row (gpointer data)
{
  HsLineRow *row = data;

  set (&row->job_id, "open");
  set (&row->kind, "part");
  set (&row->what, "starter");
  row->quantity_milli = 2000;
  row->cost_cents = 11800;
  row->price_cents = 17920;
  row->tax_cents = 1434;
  set (&row->installed_part_id, "i-open");
  set (&row->advice_line_id, "al-open");
}

static void
fill_invoice_row (gpointer data)
{
  HsInvoiceRow *row = data;

  set (&row->number, "A-0001");
  set (&row->job_id, "open");
  row->issued_on = day;
  row->due_on = day;
  row->net_cents = 100;
  row->tax_cents = 8;
  row->total_cents = 108;
  set (&row->frozen, "{}");
  set (&row->sha256, "x");
}

static void
fill_payment_row (gpointer data)
{
  HsPaymentRow *row = data;

  set (&row->job_id, "open");
  row->at = 9;
  row->cents = 108;
  set (&row->how, "card");
  row->taken = FALSE;
  row->fee_cents = 13;
  set (&row->ref, "R");
}

static void
fill_chase_row (gpointer data)
{
  HsChaseRow *row = data;

  set (&row->kind, "unpaid");
  set (&row->vehicle_id, "v1");
  set (&row->customer_id, "c1");
  set (&row->job_id, "open");
  row->due_on = day;
  row->done_on = day;
  set (&row->outcome, "booked");
}

static void
fill_trip_row (gpointer data)
{
  HsTripRow *row = data;

  set (&row->van_id, "va");
  row->on_date = day;
  set (&row->from_area_id, "O");
  set (&row->to_area_id, "Q");
  row->odometer_start = 88410;
  row->odometer_end = 88452;
  row->millimiles = 33300;
  row->seconds = 4860;
  set (&row->purpose, "parts");
  set (&row->job_id, "open");
  row->left_at = 1773139500;
}

static void
fill_road_row (gpointer data)
{
  HsRoadRow *row = data;

  set (&row->from_place, "41.50000,-71.25000");
  set (&row->to_place, "41.25000,-71.50000");
  set (&row->profile, "motorcar");
  set (&row->stamp, "m1");
  row->seconds = 1500;
  row->millimiles = 14800;
}

static void
fill_plan_row (gpointer data)
{
  HsPlanRow *row = data;

  set (&row->van_id, "va");
  row->day = day;
  row->leave_at = 100;
  row->home_at = 900;
  row->accepted_at = 50;
}

static void
fill_plan_stop_row (gpointer data)
{
  HsPlanStopRow *row = data;

  set (&row->plan_id, "pl");
  row->position = 3;
  set (&row->job_id, "open");
  row->locked = TRUE;
  row->arrive_at = 1;
  row->start_at = 2;
  row->depart_at = 3;
}

static void
fill_tick_row (gpointer data)
{
  HsTickRow *row = data;

  row->day = day;
  set (&row->kind, "pick_up");
  set (&row->row_id, "n1");
  row->at = 4;
}

static void
fill_draft_row (gpointer data)
{
  HsDraftRow *row = data;

  set (&row->job_id, "open");
  set (&row->page, "findings");
  set (&row->field, "rest");
  set (&row->text, "12.4");
  row->at = 5;
}

const Kind kinds[] = {
  KIND (hs_setting_row, "setting", fill_setting_row,
    "base_area|T", FALSE),
  KIND (hs_area_row, "area", fill_area_row,
    "S|Sedge End|none|41.5|-71.25", FALSE),
  KIND (hs_travel_row, "travel", fill_travel_row,
    "O|Q|360|1900|8", FALSE),
  KIND (hs_van_row, "van", fill_van_row,
    "B|TDM 77|1", FALSE),
  KIND (hs_worker_row, "worker", fill_worker_row,
    "Milo Tarn|1900", FALSE),
  KIND (hs_customer_row, "customer", fill_customer_row,
    "Fennimore Bakery|trade|isolde@example.org|1 Mill Lane|O|41.25|-71.5|gate|630|1080|14|1|TF-1|vans", FALSE),
  KIND (hs_phone_row, "phone", fill_phone_row,
    "c2|555-0118|5550118|office", FALSE),
  KIND (hs_vehicle_row, "vehicle", fill_vehicle_row,
    "tdm-2218|RI|TDM2218|1HGBH41JXMN109186|Orsane|Merle|2018|2.0|diesel|trunk|H7|AGM|70.5|760|1|1|1|110.5"
    "|km|taxi", FALSE),
  KIND (hs_ownership_row, "ownership", fill_ownership_row,
    "v2|c2|2026-03-10|2026-03-10", FALSE),
  KIND (hs_old_plate_row, "old_plate", fill_old_plate_row,
    "v2|ABC 1|MA|2026-03-10", FALSE),
  KIND (hs_odometer_row, "odometer", fill_odometer_row,
    "v2|2026-03-10|81400|open|new cluster", FALSE),
  KIND (hs_job_row, "job", fill_job_row,
    "A-0009|va|-|c1|v1|return_visit|promised|will_not_start|slow crank|1773139500|Q|4 Quay Street|bell|20"
    "26-03-10|1773146000|1773153200|America/New_York|2400|squared|not_decided|u|t|c|told_not_to|n|0|1|177"
    "3139500|no|no_show", FALSE),
  KIND (hs_visit_row, "visit", fill_visit_row,
    "open|100|700|3100|600|3100|60|moved", FALSE),
  KIND (hs_pause_row, "pause", fill_pause_row,
    "vi|800|900|parts", FALSE),
  KIND (hs_asked_row, "asked", fill_asked_row,
    "open|lamps?|dim|Rue|50", FALSE),
  KIND (hs_check_kind_row, "check_kind", fill_check_kind_row,
    "starts|Starts|count|1", FALSE),
  KIND (hs_check_own_row, "check_own", fill_check_own_row,
    "v1|rest|maker|1240|1290|manual", FALSE),
  KIND (hs_reading_row, "reading", fill_reading_row,
    "open|f-open|rest|V|2|trunk|1242|1300|0|-|-|during|lamps on|77", FALSE),
  KIND (hs_finding_row, "finding", fill_finding_row,
    "open|hood|clamp loose|seen|proven|plan_it|outside_told|5|loose_clamp|Rue|6", FALSE),
  KIND (hs_because_row, "because", fill_because_row,
    "open|g-open|h-open|ate it|12.42 V|reading|r-before|ph", FALSE),
  KIND (hs_advice_row, "advice", fill_advice_row,
    "open|f-open|g1|2|belt only|15379|later|lamp|Bram|9|phone|2026-03-10|ink", FALSE),
  KIND (hs_go_ahead_row, "go_ahead", fill_go_ahead_row,
    "open|22000|Bram|9|text|ink", TRUE),
  KIND (hs_supplier_row, "supplier", fill_supplier_row,
    "Larch & Weir|O|5550141|77|account|14|1500|60|480|rebuilds", FALSE),
  KIND (hs_hours_row, "supplier_hours", fill_hours_row,
    "k|6|480|960", FALSE),
  KIND (hs_counter_day_row, "counter_day", fill_counter_day_row,
    "k|2026-03-10|540|720|Founders' Day", FALSE),
  KIND (hs_supplier_bill_row, "supplier_bill", fill_supplier_bill_row,
    "k|B-1|2026-03-10|6200|2026-03-10|2026-03-10", FALSE),
  KIND (hs_part_row, "part", fill_part_row,
    "ST-15|starter|starter|12|12000000|4500", FALSE),
  KIND (hs_price_row, "price", fill_price_row,
    "k|b|6200|2026-03-10", FALSE),
  KIND (hs_stock_row, "stock", fill_stock_row,
    "va|b|1000|2000|shelf 1", FALSE),
  KIND (hs_stock_move_row, "stock_move", fill_stock_move_row,
    "va|b|-500|scrapped|open|62|3", FALSE),
  KIND (hs_need_row, "need", fill_need_row,
    "open|b|2000|38|k|11800|laid_aside|2026-03-10|Ana|al-open", FALSE),
  KIND (hs_installed_row, "installed_part", fill_installed_row,
    "v1|open|b|battery|battery 55 Ah|hood|S1|K4|2026-03-10|81400|receipt|k|B-1|Brackwater|2026-03-10|24|9"
    "000000|-|failed|g-open|6|2026-03-10|open2|flooded|55.5|480|handed_over", FALSE),
  KIND (hs_core_row, "core", fill_core_row,
    "k|b|open|1800|2026-03-10|2026-03-10|credited|2026-03-10|2026-03-10|CR-5521|100", FALSE),
  KIND (hs_return_row, "return_part", fill_return_row,
    "k|b|open|3000|4650|2026-03-10|2026-03-10|2026-03-10|2026-03-10|CR-1", FALSE),
  KIND (hs_line_row, "line", fill_line_row,
    "open|part|starter|2000|11800|17920|1434|i-open|al-open", FALSE),
  KIND (hs_invoice_row, "invoice", fill_invoice_row,
    "A-0001|open|-|2026-03-10|2026-03-10|100|8|108|{}|x", TRUE),
  KIND (hs_payment_row, "payment", fill_payment_row,
    "open|9|108|card|0|13|R", FALSE),
  KIND (hs_chase_row, "chase", fill_chase_row,
    "unpaid|v1|c1|open|2026-03-10|2026-03-10|booked", FALSE),
  KIND (hs_trip_row, "trip", fill_trip_row,
    "va|2026-03-10|O|Q|88410|88452|33300|4860|parts|open|1773139500", FALSE),
  KIND (hs_road_row, "road_drive", fill_road_row,
    "41.50000,-71.25000|41.25000,-71.50000|motorcar|m1|1500|14800", FALSE),
  KIND (hs_plan_row, "day_plan", fill_plan_row,
    "va|2026-03-10|100|900|50", FALSE),
  KIND (hs_plan_stop_row, "day_stop", fill_plan_stop_row,
    "pl|3|open|-|1|1|2|3", FALSE),
  KIND (hs_tick_row, "tick", fill_tick_row,
    "2026-03-10|pick_up|n1|4", FALSE),
  KIND (hs_draft_row, "draft", fill_draft_row,
    "open|findings|rest|12.4|5", FALSE),
};
const guint n_kinds = G_N_ELEMENTS (kinds);
