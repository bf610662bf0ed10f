// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* Links taken back with or without their causes, and undone; what a job offers to its next link. */

#include "hs-chain-offer.h"
#include "hs-chain-op.h"
#include "hs-job-life.h"
#include "hs-ops-test.h"
#include "hs-photo-op.h"
#include "hs-undo.h"
#include "photo-test.h"

#include <libintl.h>
#include <string.h>

#define NOW HS_OPS_TEST_NOW

typedef struct
{
  HsOpsTest *test;
  HsBook *book;
  char *job_id;
} Site;

static Site
site_start (const char *group)
{
  Site site = { .test = hs_ops_test_open () };

  hs_ops_test_fill (site.test);
  hs_ops_test_import_ok (site.test, "jobs",
                         "number,customer_phone,words,plate,day\n"
                         "A-0001,555-0115,battery lamp on,TDM 5508,2026-03-10\n",
                         1, 0, 0);
  site.book = site.test->book;
  site.job_id = hs_job_find (site.book, "A-0001", NULL);
  if (group != NULL)
    g_assert_true (hs_job_set_group (site.book, site.job_id, group, NOW, NULL));
  return site;
}

static void
site_clear (Site *site)
{
  hs_ops_test_close (site->test);
  g_free (site->job_id);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Site, site_clear)

static char *
extend (Site *site, const char *effect_id, const char *what, const char *role, const char *by)
{
  g_autoptr (GError) error = NULL;
  char *id = hs_chain_extend (site->book, site->job_id, effect_id, &(HsFindingEntry){ .what = what, .role = role },
                              &(HsBecauseEntry){ .kind = by, .proof = "it shows" }, NOW, &error);

  g_assert_no_error (error);
  return id;
}

static HsJobChain *
load (Site *site)
{
  g_autoptr (GError) error = NULL;
  HsJobChain *chain = hs_job_chain_load (site->book, site->job_id, &error);

  g_assert_no_error (error);
  return chain;
}

/* The link in which the finding is the cause. */
static char *
link_to (Site *site, const char *cause_id)
{
  g_autoptr (HsJobChain) chain = load (site);

  for (guint i = 0; i < hs_chain_get_n_links (chain->chain); i++)
    if (g_str_equal (hs_chain_get_link (chain->chain, i)->cause_id, cause_id))
      return g_strdup (hs_chain_get_link (chain->chain, i)->id);
  g_assert_not_reached ();
}

static char *
read_check (Site *site, const char *check, const char *text, const char *phase)
{
  HsReadingEntry entry = { .check = check, .text = text, .phase = phase, .at = NOW };
  g_autoptr (GError) error = NULL;
  g_autoptr (HsReadingResult) result = hs_reading_add (site->book, site->job_id, &entry, NOW, &error);

  g_assert_no_error (error);
  return g_strdup (result->id);
}

/* A cause that nothing else rests on goes with its link, proven or not; one step back and it is there again. */
static void
test_takes_both (void)
{
  static const char *const bys[] = { "seen", "said" };

  for (gsize i = 0; i < G_N_ELEMENTS (bys); i++)
    {
      g_auto (Site) site = site_start (NULL);
      g_autofree char *belt = extend (&site, NULL, "belt glazed", NULL, "seen");
      g_autofree char *seal = extend (&site, belt, "seal weeps", NULL, bys[i]);
      g_autofree char *link = link_to (&site, seal);
      g_autoptr (GError) error = NULL;
      g_autoptr (HsJobChain) after = NULL;
      g_autoptr (HsJobChain) undone = NULL;

      g_assert_true (hs_chain_take_back (site.book, link, NOW, &error));
      g_assert_no_error (error);
      after = load (&site);
      g_assert_cmpuint (hs_chain_get_n_findings (after->chain), ==, 2);
      g_assert_cmpuint (hs_chain_get_n_links (after->chain), ==, 1);
      g_assert_null (hs_chain_find (after->chain, seal));
      g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, &error));
      undone = load (&site);
      g_assert_cmpuint (hs_chain_get_n_links (undone->chain), ==, 2);
      g_assert_cmpint (hs_chain_find (undone->chain, seal)->sure, ==,
                       i == 0 ? HS_CHAIN_PROVEN : HS_CHAIN_SUSPECTED);
    }
}

/* What was seen before the chain, and what something else names, stays. */
static void
test_leaves_cause (void)
{
  g_auto (Site) site = site_start (NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *belt = extend (&site, NULL, "belt glazed", NULL, "seen");
  g_autofree char *wet = hs_finding_add (site.book, site.job_id, &(HsFindingEntry){ .what = "belt wet" }, NOW, &error);
  g_autofree char *seen = hs_because_add (site.book, belt, wet, &(HsBecauseEntry){ .kind = "seen", .proof = "drips" },
                                          NOW, &error);
  g_autofree char *pump = extend (&site, belt, "pump leaks", NULL, "said");
  g_autofree char *said = link_to (&site, pump);
  g_autofree char *part = NULL;
  g_autoptr (HsJobChain) after = NULL;

  g_assert_no_error (error);
  g_assert_true (hs_chain_take_back (site.book, seen, NOW, &error));
  part = hs_part_install (site.book, site.job_id,
                          &(HsInstallEntry){ .what = "water pump", .why_finding_id = pump, .cost_cents = 4000 }, NOW,
                          &error);
  g_assert_no_error (error);
  g_assert_true (hs_chain_take_back (site.book, said, NOW, &error));
  after = load (&site);
  g_assert_nonnull (hs_chain_find (after->chain, wet));
  g_assert_nonnull (hs_chain_find (after->chain, pump));
  g_assert_cmpuint (hs_chain_get_n_links (after->chain), ==, 1);
}

/* In the middle of a chain a cause stays; called proven, it does not fall back on words alone. */
static void
test_refused (void)
{
  g_auto (Site) site = site_start (NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *belt = extend (&site, NULL, "belt glazed", NULL, "seen");
  g_autofree char *seal = extend (&site, belt, "seal weeps", NULL, "seen");
  g_autofree char *water = extend (&site, seal, "plain water", "customer_said", "said");
  g_autofree char *seen = link_to (&site, seal);
  g_autofree char *top = hs_complaint_ensure (site.book, site.job_id, NOW, NULL);
  g_autofree char *said = hs_because_add (site.book, top, seal, &(HsBecauseEntry){ .kind = "said", .proof = "x" }, NOW,
                                          &error);

  g_assert_no_error (error);
  g_assert_nonnull (water);
  g_assert_false (hs_chain_take_back (site.book, seen, NOW, &error));
  hs_ops_test_refused (&error, "“seal weeps” is called proven by this link. Call it suspected first.");
  g_assert_cmpint (hs_ops_test_count (site.test, "because"), ==, 4);
  g_assert_true (hs_chain_take_back (site.book, said, NOW, &error));
  g_assert_true (hs_chain_take_back (site.book, seen, NOW, &error));
  g_assert_no_error (error);
  g_assert_cmpint (hs_ops_test_count (site.test, "because"), ==, 2);
  g_assert_cmpint (hs_ops_test_count (site.test, "finding"), ==, 4);
  g_assert_false (hs_chain_take_back (site.book, "nothing", NOW, &error));
  g_assert_nonnull (error);
}

/* A finding that is there is joined to the complaint, which is written down on the way; refused, neither is. */
static void
test_join (void)
{
  g_auto (Site) site = site_start (NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *wet = hs_finding_add (site.book, site.job_id, &(HsFindingEntry){ .what = "belt wet" }, NOW, &error);
  g_autofree char *link = NULL;
  g_autoptr (HsJobChain) chain = NULL;

  g_assert_null (hs_chain_join (site.book, site.job_id, NULL, wet, &(HsBecauseEntry){ .kind = "seen" }, NOW, &error));
  hs_ops_test_refused (&error, "battery lamp on ← belt wet needs a proof");
  g_assert_cmpint (hs_ops_test_count (site.test, "finding"), ==, 1);
  link = hs_chain_join (site.book, site.job_id, NULL, wet, &(HsBecauseEntry){ .kind = "seen", .proof = "drips" }, NOW,
                        &error);
  g_assert_no_error (error);
  chain = load (&site);
  g_assert_cmpuint (hs_chain_get_n_links (chain->chain), ==, 1);
  g_assert_cmpstr (hs_chain_get_link (chain->chain, 0)->id, ==, link);
  g_assert_cmpuint (hs_chain_get_n_findings (chain->chain), ==, 2);
  g_assert_true (hs_undo_last (hs_book_get_store (site.book), site.job_id, NOW, NULL, &error));
  g_assert_cmpint (hs_ops_test_count (site.test, "finding"), ==, 1);
  g_assert_null (hs_chain_join (site.book, site.job_id, NULL, "nobody",
                                &(HsBecauseEntry){ .kind = "seen", .proof = "x" }, NOW, &error));
  hs_ops_test_refused (&error, "no such finding");
}

static void
assert_offered (GPtrArray *offers, const char *expected)
{
  g_autoptr (GString) told = g_string_new (NULL);

  for (guint i = 0; i < offers->len; i++)
    {
      const HsChainOffer *one = g_ptr_array_index (offers, i);

      g_string_append_printf (told, "%s%s", i > 0 ? " | " : "", one->words);
    }
  g_assert_cmpstr (told->str, ==, expected);
}

static HsChainOffers *
load_offers (Site *site)
{
  g_autoptr (GError) error = NULL;
  HsChainOffers *offers = hs_chain_offers_load (site->book, site->job_id, &error);

  g_assert_no_error (error);
  return offers;
}

/* Findings beside the chain first; a usual reason that was written down is offered as a finding only; what is outside
 * its limits comes before what is within. */
static void
test_offers (void)
{
  g_auto (Site) site = site_start ("charging_lamp");
  g_autoptr (GError) error = NULL;
  g_autofree char *rest = read_check (&site, "battery_rest", "11.95", "before");
  g_autofree char *charging = read_check (&site, "charging", "14.20", "before");
  g_autofree char *none = NULL;
  g_autofree char *belt = NULL;
  g_autofree char *wet = NULL;
  g_autoptr (HsChainOffers) before = load_offers (&site);
  g_autoptr (HsChainOffers) after = NULL;

  assert_offered (before->findings, "");
  assert_offered (before->reasons, "Alternator or its regulator | Belt is off, worn or slips | Plug, lamp circuit or "
                                   "its fuse | Feed cable, its joint or main fuse | Tensioner or pulley | Battery "
                                   "drags it down | Alternator's ground");
  assert_offered (before->readings, "Battery at rest 11.95 V | Charging 14.20 V");
  assert_offered (before->photos, "");
  g_assert_cmpstr (((HsChainOffer *) g_ptr_array_index (before->readings, 0))->id, ==, rest);
  g_assert_cmpstr (((HsChainOffer *) g_ptr_array_index (before->readings, 1))->id, ==, charging);
  g_assert_cmpstr (before->customer, ==, "Teo Calloway");

  g_assert_cmpstr (((HsChainOffer *) g_ptr_array_index (before->reasons, 1))->id, ==, "belt");
  belt = hs_chain_extend (site.book, site.job_id, NULL, &(HsFindingEntry){ .what = "belt glazed", .cause = "belt" },
                          &(HsBecauseEntry){ .kind = "seen", .proof = "shines" }, NOW, &error);
  wet = hs_finding_add (site.book, site.job_id, &(HsFindingEntry){ .what = "belt wet" }, NOW, &error);
  none = extend (&site, NULL, "Alternator or its regulator", "ruled_out", "seen");
  g_assert_no_error (error);
  after = load_offers (&site);
  assert_offered (after->findings, "belt wet | belt glazed");
  assert_offered (after->reasons, "Plug, lamp circuit or its fuse | Feed cable, its joint or main fuse | Tensioner or "
                                  "pulley | Battery drags it down | Alternator's ground");
  g_assert_null (hs_chain_offers_load (site.book, "nobody", &error));
  g_assert_nonnull (error);
  hs_chain_offers_free (NULL);
}

static guint
rank_of (const HsJobNext *next, const char *id)
{
  for (guint i = 0; i < next->causes->len; i++)
    if (g_str_equal (((const HsNextCause *) g_ptr_array_index (next->causes, i))->id, id))
      return i;
  g_assert_not_reached ();
}

/* Usual reasons stand as what was read ranks them, with how they stand and what speaks for them; a reason that nobody
 * ranks stays behind. */
static void
test_ranked (void)
{
  static const HsTongue english = { gettext, ngettext };
  g_auto (Site) site = site_start ("charging_lamp");
  g_autofree char *belt = read_check (&site, "belt", "wet", "before");
  g_autoptr (HsChainOffers) offers = load_offers (&site);
  g_autoptr (HsJobNext) next = hs_job_next_load (site.book, site.job_id, NULL, NOW, NULL);
  const HsChainOffer *one;

  g_assert_nonnull (next);
  one = g_ptr_array_index (offers->reasons, 0);
  g_assert_cmpstr (one->id, ==, "alternator");
  g_assert_null (one->note);
  g_free (((HsChainOffer *) g_ptr_array_index (offers->reasons, 0))->id);
  ((HsChainOffer *) g_ptr_array_index (offers->reasons, 0))->id = g_strdup ("nobody ranks it");
  hs_chain_offers_rank (offers, next, &english);
  one = g_ptr_array_index (offers->reasons, 0);
  g_assert_cmpstr (one->id, ==, "belt");
  g_assert_cmpstr (one->note, ==, "possible · for: Belt: wet");
  for (guint i = 1; i + 1 < offers->reasons->len; i++)
    {
      const HsChainOffer *before = g_ptr_array_index (offers->reasons, i - 1);

      one = g_ptr_array_index (offers->reasons, i);
      g_assert_cmpuint (rank_of (next, before->id), <, rank_of (next, one->id));
      g_assert_nonnull (one->note);
    }
  one = g_ptr_array_index (offers->reasons, offers->reasons->len - 1);
  g_assert_cmpstr (one->id, ==, "nobody ranks it");
  g_assert_null (one->note);
}

static char *
add_photo (Site *site, const char *name, guint shade, const char *words)
{
  g_autoptr (GBytes) data = photo_jpeg (NULL, 40, 30, shade);
  g_autoptr (GError) error = NULL;
  g_autoptr (HsPhotoIntake) intake = hs_photo_intake_take (name, data, FALSE, &error);
  char *id = hs_photo_add (site->book, site->job_id, intake, &(HsPhotoEntry){ .words = words }, NOW, NULL, &error);

  g_assert_no_error (error);
  return id;
}

/* A photo is offered by what there is to see, else by its name; it proves, also what a customer said. */
static void
test_photo (void)
{
  g_auto (Site) site = site_start (NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *clamp = add_photo (&site, "IMG_1.jpg", 1, "the clamp, green");
  g_autofree char *other = add_photo (&site, "IMG_2.jpg", 2, NULL);
  g_autoptr (HsChainOffers) offers = load_offers (&site);
  g_autofree char *said = NULL;
  g_autoptr (HsJobChain) chain = NULL;

  assert_offered (offers->photos, "the clamp, green | IMG_2.jpg");
  g_assert_cmpstr (((HsChainOffer *) g_ptr_array_index (offers->photos, 1))->id, ==, other);
  said = hs_chain_extend (site.book, site.job_id, NULL, &(HsFindingEntry){ .what = "loose", .role = "customer_said" },
                          &(HsBecauseEntry){ .kind = "photo", .photo_id = clamp, .proof = "green" }, NOW, &error);
  g_assert_no_error (error);
  chain = load (&site);
  g_assert_cmpint (hs_chain_find (chain->chain, said)->sure, ==, HS_CHAIN_PROVEN);
  g_assert_cmpint (hs_chain_get_link (chain->chain, 0)->by, ==, HS_CHAIN_BY_PHOTO);
}

/* Of several models of a group, those that fit how the key turned; before it was turned, all of them. */
static void
test_offers_by_answer (void)
{
  g_auto (Site) site = site_start ("will_not_start");
  g_autoptr (HsChainOffers) all = load_offers (&site);
  g_autofree char *turned = read_check (&site, "key_turn", "silent", "before");
  g_autoptr (HsChainOffers) silent = load_offers (&site);

  g_assert_cmpuint (all->reasons->len, >, silent->reasons->len);
  g_assert_cmpuint (silent->reasons->len, >, 2);
  assert_offered (silent->readings, "Key turned to start silent");
}

/* No group, no usual reasons. */
static void
test_offers_bare (void)
{
  g_auto (Site) site = site_start (NULL);
  g_autoptr (HsChainOffers) offers = load_offers (&site);

  g_assert_cmpuint (offers->reasons->len, ==, 0);
  g_assert_cmpuint (offers->readings->len, ==, 0);
}

/* Asking whether a move would do changes nothing and says the sentence of the move. */
static void
test_check_move (void)
{
  g_auto (Site) site = site_start (NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *belt = NULL;
  g_autofree char *starts = NULL;

  g_assert_true (hs_job_move_stage (site.book, site.job_id, HS_STAGE_ON_SITE, NULL, NOW, &error));
  starts = read_check (&site, "starts_good", "5 of 5", "after");
  belt = extend (&site, NULL, "belt glazed", NULL, "seen");
  g_assert_false (hs_job_check_move (site.book, site.job_id, HS_STAGE_PROVEN, NULL, &error));
  hs_ops_test_refused (&error, "“belt glazed”");
  g_assert_true (hs_finding_settle (site.book, belt, "cured", NOW, &error));
  g_assert_true (hs_job_check_move (site.book, site.job_id, HS_STAGE_PROVEN, NULL, &error));
  g_assert_no_error (error);
  hs_ops_test_one (site.test, "job WHERE stage = 'on_site'");
  g_assert_false (hs_job_check_move (site.book, "nobody", HS_STAGE_PROVEN, NULL, &error));
  g_assert_nonnull (error);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chain-back/takes-both", test_takes_both);
  g_test_add_func ("/chain-back/leaves-cause", test_leaves_cause);
  g_test_add_func ("/chain-back/refused", test_refused);
  g_test_add_func ("/chain-back/join", test_join);
  g_test_add_func ("/chain-offer/offers", test_offers);
  g_test_add_func ("/chain-offer/ranked", test_ranked);
  g_test_add_func ("/chain-offer/photo", test_photo);
  g_test_add_func ("/chain-offer/by-answer", test_offers_by_answer);
  g_test_add_func ("/chain-offer/bare", test_offers_bare);
  g_test_add_func ("/chain-back/check-move", test_check_move);
  return g_test_run ();
}
