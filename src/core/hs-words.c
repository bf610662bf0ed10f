// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The closed lists of words in which the book is kept: for storing, importing and showing them alike everywhere. A
 * word that is not on its list is refused with the list. */

#include "hs-words.h"

#include "hs-core-error.h"
#include "hs-text.h"

static const HsWord job_kinds[] = {
  { "repair", "repair", NULL },
  { "upkeep", "upkeep", "maintenance|service" },
  { "look_over", "look-over", "inspection" },
  { "return_visit", "return visit", "comeback" },
};

static const HsWord customer_kinds[] = {
  { "private", "private", NULL },
  { "trade", "trade", "business" },
};

static const HsWord fuels[] = {
  { "gas", "gas", "petrol|gasoline" },
  { "diesel", "diesel", NULL },
  { "hybrid", "hybrid", NULL },
  { "electric", "electric", NULL },
  { "other", "other", NULL },
};

/* In the order of HsBatteryKind. */
static const HsWord battery_kinds[] = {
  { "flooded", "flooded", NULL },
  { "EFB", "EFB", "enhanced flooded" },
  { "AGM", "AGM", NULL },
  { "lithium", "lithium", NULL },
  { "unknown", "kind not known", "not known" },
};

static const HsWord known_by[] = {
  { "we_installed_it", "we installed it", "we fitted it" },
  { "receipt", "receipt", NULL },
  { "date_stamp", "date stamp", NULL },
  { "customer_says", "customer says", NULL },
  { "not_known", "not known", "unknown" },
};

static const HsWord core_places[] = {
  { "on_the_vehicle", "on the vehicle", "on vehicle" },
  { "in_the_van", "in the van", "in van" },
  { "at_base", "at base", NULL },
  { "handed_in", "dropped off", "handed in" },
  { "credited", "credited", NULL },
  { "customer_kept_it", "customer kept it", "customer kept" },
  { "lost", "lost", NULL },
};

static const HsWord signals[] = {
  { "good", "good signal", NULL },
  { "patchy", "patchy signal", NULL },
  { "none", "no signal", NULL },
};

static const HsWord phases[] = {
  { "before", "before", NULL },
  { "during", "during", NULL },
  { "after", "after", NULL },
};

static const HsWord return_whys[] = {
  { "our_work", "our work", NULL },
  { "part_failed", "part failed", NULL },
  { "cause_missed", "cause missed", NULL },
  { "declined_earlier", "declined earlier", NULL },
  { "cheaper_choice", "cheaper choice", NULL },
  { "unrelated", "unrelated", NULL },
  { "not_decided", "not decided", NULL },
};

static const HsWord means[] = {
  { "signed_on_screen", "signed on screen", NULL },
  { "in_person", "in person", NULL },
  { "text", "text message", "sms" },
  { "phone", "phone", NULL },
  { "email", "email", NULL },
};

static const HsWord choices[] = {
  { "open", "no answer yet", NULL },
  { "yes", "yes", NULL },
  { "no", "no", NULL },
  { "later", "later", NULL },
};

/* By their place: what does most comes first. */
static const HsWord ranks[] = {
  { "best", "best", NULL },
  { "enough", "enough", NULL },
  { "least", "least", NULL },
};

static const HsWord need_states[] = {
  { "wanted", "wanted", NULL },
  { "asked_for", "asked for", NULL },
  { "laid_aside", "laid aside", NULL },
  { "in_the_van", "in the van", "in van" },
  { "installed", "installed", "fitted" },
  { "going_back", "going back", NULL },
  { "dropped", "not needed", NULL },
};

static const HsWord safe_to_drive[] = {
  { "yes", "yes", NULL },
  { "no", "no", NULL },
  { "told_not_to", "told not to", NULL },
};

static const HsWord line_kinds[] = {
  { "labor", "labor", "labour" },
  { "part", "part", NULL },
  { "call_out", "call-out", NULL },
  { "core_deposit", "core deposit", "deposit" },
  { "discount", "discount", NULL },
  { "sundry", "sundry", NULL },
  { "goodwill", "goodwill", NULL },
};

static const HsWord paid_how[] = {
  { "cash", "cash", NULL },
  { "card", "card", NULL },
  { "transfer", "bank transfer", NULL },
  { "check", "check", "cheque" },
  { "account", "on account", NULL },
};

static const HsWord stock_whys[] = {
  { "bought", "bought", NULL },
  { "installed", "installed", "fitted" },
  { "returned", "returned", NULL },
  { "moved_van", "moved to another van", NULL },
  { "count_fix", "count corrected", NULL },
  { "scrapped", "scrapped", NULL },
};

static const HsWord follow_ups[] = {
  { "declined_work", "declined work", NULL },
  { "aging_battery", "aging battery", "ageing battery" },
  { "upkeep_due", "upkeep due", NULL },
  { "unpaid", "unpaid", NULL },
  { "retorque", "re-torque", NULL },
  { "how_is_it_running", "how is it running", NULL },
  { "core_deposit", "core deposit", "deposit" },
  { "part_return", "part to return", NULL },
};

static const HsWord finding_roles[] = {
  { "complaint", "complaint", NULL },
  { "seen", "seen", NULL },
  { "cause", "cause", NULL },
  { "customer_said", "customer said", NULL },
  { "ruled_out", "ruled out", NULL },
};

static const HsWord sureness[] = {
  { "suspected", "suspected", NULL },
  { "proven", "proven", "proved" },
  { "not_known", "not known", NULL },
};

static const HsWord weights[] = {
  { "do_not_drive", "do not drive", NULL },
  { "fix_this_visit", "fix this visit", NULL },
  { "plan_it", "plan it", NULL },
  { "watch_it", "watch it", NULL },
  { "sound", "sound", NULL },
};

static const HsWord purposes[] = {
  { "job", "job", NULL },
  { "parts", "parts", NULL },
  { "supplies", "supplies", NULL },
  { "private", "private", NULL },
  { "other_business", "other business", NULL },
};

static const HsWord odometer_units[] = {
  { "mi", "miles", NULL },
  { "km", "kilometers", "kilometres" },
};

/* In the order of HsStage. */
static const HsWord stages[] = {
  { "called_in", "Just called", NULL },
  { "penciled", "Penciled in", "pencilled" },
  { "promised", "Time given", NULL },
  { "rolling", "Rolling", NULL },
  { "on_site", "At the vehicle", NULL },
  { "waiting_part", "Needs a part", NULL },
  { "waiting_yes", "Needs a yes", NULL },
  { "proven", "Tested good", "proved" },
  { "squared", "Squared up", NULL },
  { "called_off", "Called off", NULL },
  { "turned_away", "Passed on", NULL },
};

/* Where a drop is measured, each with a limit of its own (US Army TM 5-3820-256-24-4 and others). */
static const HsWord drop_places[] = {
  { "connection", "One connection", "joint" },
  { "short-cable", "Cable under 3 ft", NULL },
  { "cable", "Cable, 3 to 6 ft", NULL },
  { "mechanical-switch", "Mechanical switch", NULL },
  { "solenoid-switch", "Solenoid switch", NULL },
  { "magnetic-switch", "Magnetic switch", NULL },
  { "ground", "Ground side", NULL },
  { "starter-positive", "Starter feed side, whole", NULL },
  { "starter-negative", "Starter ground side, whole", NULL },
  { "charging-positive", "Alternator stud to battery +", NULL },
  { "charging-negative", "Alternator case to battery −", NULL },
};

static const HsWord engine_states[] = {
  { "off", "off", "stopped" },
  { "cranking", "cranking", NULL },
  { "idling", "idling", "idle" },
  { "raised", "1,500 to 2,500 rpm", "fast|1500|2000|2500" },
};

static const HsWord meter_places[] = {
  { "battery", "across the battery's posts", "posts|battery posts" },
  { "stud", "at the alternator's stud", "alternator|b+" },
};

/* Boiling points by 49 CFR 571.116. */
static const HsWord brake_fluids[] = {
  { "DOT3", "DOT 3", NULL },
  { "DOT4", "DOT 4", NULL },
  { "DOT5", "DOT 5", NULL },
  { "DOT5.1", "DOT 5.1", NULL },
};

static const HsWord coolants[] = {
  { "EG", "ethylene glycol", "ethylene" },
  { "PG", "propylene glycol", "propylene" },
};

/* In the order of HsVerdict. */
static const HsWord verdicts[] = {
  { "within", "within", NULL },
  { "watch", "watch", NULL },
  { "outside", "outside", NULL },
  { "cannot_tell", "cannot tell", NULL },
  { "depends", "depends", NULL },
};

/* How an end of a why-chain is settled. */
static const HsWord ends[] = {
  { "cured", "cured today", "cured" },
  { "chosen", "the customer's choice", "choice" },
  { "outside_told", "outside influence, told", "outside" },
  { "not_known_told", "not known, told", NULL },
};

/* From the strongest to the weakest. */
static const HsWord proofs[] = {
  { "reading", "a reading", NULL },
  { "photo", "a photo", NULL },
  { "seen", "seen", NULL },
  { "said", "only said", NULL },
};

static const HsWord safety_answers[] = {
  { "done", "done", NULL },
  { "not_here", "does not apply here", NULL },
  { "refused", "work refused", "not_so" },
};

static const HsWord saw_it[] = {
  { "yes", "yes", NULL },
  { "no", "no", NULL },
};

static const HsWord called_off_hows[] = {
  { "canceled", "canceled", "cancelled" },
  { "no_show", "no-show", NULL },
  { "gone_on_arrival", "gone on arrival", NULL },
};

static const HsWord old_parts[] = {
  { "shown", "shown", NULL },
  { "kept", "kept by us", NULL },
  { "handed_over", "handed over", NULL },
  { "core", "goes back as a core", NULL },
};

static const HsWord note_topics[] = {
  { "place", "where it is", NULL },
  { "knack", "the knack", NULL },
  { "part_name", "the counter's name for the part", NULL },
  { "caution", "beware", NULL },
};

/* Why a part was put in place of another. */
static const HsWord replaced_whys[] = {
  { "failed", "the old one failed", "failed" },
  { "due", "the old one was due", "due|worn|upkeep" },
  { "none_before", "there was none before", "none|new" },
  { "not_known", "not known, told", "not known|unknown" },
};

#define LIST(title, words) { title, words, G_N_ELEMENTS (words) }

static const struct
{
  const char *title;
  const HsWord *words;
  gsize n_words;
} lists[HS_N_WORDS] = {
  [HS_WORDS_JOB_KIND] = LIST ("kind of job", job_kinds),
  [HS_WORDS_CUSTOMER_KIND] = LIST ("kind of customer", customer_kinds),
  [HS_WORDS_FUEL] = LIST ("fuel", fuels),
  [HS_WORDS_BATTERY_KIND] = LIST ("kind of battery", battery_kinds),
  [HS_WORDS_KNOWN_BY] = LIST ("way to know a date", known_by),
  [HS_WORDS_CORE_PLACE] = LIST ("place of a core", core_places),
  [HS_WORDS_SIGNAL] = LIST ("phone signal", signals),
  [HS_WORDS_PHASE] = LIST ("phase of a reading", phases),
  [HS_WORDS_RETURN_WHY] = LIST ("reason for a return visit", return_whys),
  [HS_WORDS_MEANS] = LIST ("way to decide", means),
  [HS_WORDS_CHOICE] = LIST ("reply to a recommendation", choices),
  [HS_WORDS_RANK] = LIST ("rank of an option", ranks),
  [HS_WORDS_NEED_STATE] = LIST ("state of a needed part", need_states),
  [HS_WORDS_SAFE_TO_DRIVE] = LIST ("reply to “safe to drive”", safe_to_drive),
  [HS_WORDS_LINE_KIND] = LIST ("kind of line", line_kinds),
  [HS_WORDS_PAID_HOW] = LIST ("way to pay", paid_how),
  [HS_WORDS_STOCK_WHY] = LIST ("reason for a stock move", stock_whys),
  [HS_WORDS_FOLLOW_UP] = LIST ("reason to call", follow_ups),
  [HS_WORDS_FINDING_ROLE] = LIST ("role of a finding", finding_roles),
  [HS_WORDS_SURE] = LIST ("grade of certainty", sureness),
  [HS_WORDS_WEIGHT] = LIST ("weight of a finding", weights),
  [HS_WORDS_PURPOSE] = LIST ("purpose of a trip", purposes),
  [HS_WORDS_ODOMETER_UNIT] = LIST ("unit of an odometer", odometer_units),
  [HS_WORDS_STAGE] = LIST ("stage of a job", stages),
  [HS_WORDS_VERDICT] = LIST ("verdict", verdicts),
  [HS_WORDS_DROP_PLACE] = LIST ("place of a voltage drop", drop_places),
  [HS_WORDS_ENGINE] = LIST ("what the engine did", engine_states),
  [HS_WORDS_METER_AT] = LIST ("place of the meter", meter_places),
  [HS_WORDS_BRAKE_FLUID] = LIST ("kind of brake fluid", brake_fluids),
  [HS_WORDS_COOLANT] = LIST ("kind of coolant", coolants),
  [HS_WORDS_ENDED] = LIST ("settling of a why-chain", ends),
  [HS_WORDS_PROOF] = LIST ("kind of proof", proofs),
  [HS_WORDS_SAFETY_ANSWER] = LIST ("reply to the safety list", safety_answers),
  [HS_WORDS_SAW_IT] = LIST ("reply to “I saw it happen”", saw_it),
  [HS_WORDS_CALLED_OFF_HOW] = LIST ("way to be called off", called_off_hows),
  [HS_WORDS_OLD_PART] = LIST ("whereabouts of an old part", old_parts),
  [HS_WORDS_NOTE_TOPIC] = LIST ("topic of a note", note_topics),
  [HS_WORDS_REPLACED_WHY] = LIST ("reason to replace a part", replaced_whys),
};

const HsWord *
hs_words_get (HsWords words, gsize *ret_n_words)
{
  g_return_val_if_fail (words < HS_N_WORDS, NULL);
  if (ret_n_words != NULL)
    *ret_n_words = lists[words].n_words;
  return lists[words].words;
}

const char *
hs_words_title (HsWords words)
{
  g_return_val_if_fail (words < HS_N_WORDS, NULL);
  return lists[words].title;
}

int
hs_words_index (HsWords words, const char *id)
{
  gsize n_words;
  const HsWord *list = hs_words_get (words, &n_words);

  for (gsize i = 0; id != NULL && i < n_words; i++)
    if (g_str_equal (list[i].id, id))
      return (int) i;
  return -1;
}

const char *
hs_words_label (HsWords words, const char *id)
{
  int index = hs_words_index (words, id);

  return index < 0 ? id : hs_words_get (words, NULL)[index].label;
}

/* Letters and digits alone: what is left when case, blanks, dashes and underscores make no difference. */
static char *
bare (const char *text)
{
  g_auto (GStrv) parts = hs_text_words (text);

  return g_strjoinv (NULL, parts);
}

static gboolean
is_spelled (const HsWord *word, const char *bare_text)
{
  g_autofree char *spellings = g_strjoin ("|", word->id, word->label, word->aliases, NULL);
  g_auto (GStrv) each = g_strsplit (spellings, "|", -1);

  for (guint i = 0; each[i] != NULL; i++)
    {
      g_autofree char *spelling = bare (each[i]);

      if (g_str_equal (spelling, bare_text))
        return TRUE;
    }
  return FALSE;
}

/* "a, b or c". */
static char *
join_ids (const HsWord *list, gsize n_words)
{
  GString *text = g_string_new (list[0].id);

  for (gsize i = 1; i < n_words; i++)
    g_string_append_printf (text, "%s%s", i + 1 == n_words ? " or " : ", ", list[i].id);
  return g_string_free (text, FALSE);
}

gboolean
hs_words_parse_index (HsWords words, const char *text, int *ret_index, GError **error)
{
  gsize n_words;
  const HsWord *list = hs_words_get (words, &n_words);
  g_autofree char *wanted = bare (text);
  g_autofree char *accepted = NULL;

  for (gsize i = 0; i < n_words; i++)
    if (is_spelled (&list[i], wanted))
      {
        *ret_index = (int) i;
        return TRUE;
      }
  accepted = join_ids (list, n_words);
  g_set_error (error, HS_CORE_ERROR, HS_CORE_ERROR_BAD_VALUE, "“%s” is not a %s: write %s", text,
               lists[words].title, accepted);
  return FALSE;
}

gboolean
hs_words_parse (HsWords words, const char *text, const char **ret_id, GError **error)
{
  int index;

  if (!hs_words_parse_index (words, text, &index, error))
    return FALSE;
  *ret_id = hs_words_get (words, NULL)[index].id;
  return TRUE;
}
