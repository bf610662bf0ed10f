// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* Why-chains written down in short, for the tests of the chain. */

#include "core-test.h"
#include "hs-chain.h"

/*
 * Puts what @text says, one a line, and refuses nothing:
 *   "complaint lamp"  "cause flat = battery flat"  "said water?^ = plain water"
 *   "lamp < flat reading 11.95 V"
 * A finding is its role (complaint, seen, cause, said, cut), its id and its words after "="; signs behind the id tell
 * more: "?" suspected (a finding is proven otherwise), "~" not known, "!" with a proof of its own, "+" cured, "*"
 * chosen, "^" outside and told, "0" not known and told.
 */
static inline void
chain_put_link_line (HsChain *chain, char **words)
{
  static const char *const proofs[] = { "reading", "photo", "seen", "said" };
  g_autofree char *id = g_strdup_printf ("%s<%s", words[0], words[2]);
  HsChainLink link = { .id = id, .effect_id = words[0], .cause_id = words[2], .proof = words[4] };
  g_autoptr (GError) error = NULL;

  while (!g_str_equal (proofs[link.by], words[3]))
    link.by++;
  hs_chain_put_link (chain, &link, &error);
  g_assert_no_error (error);
}

static inline void
chain_put_finding_line (HsChain *chain, const char *line, char **words)
{
  static const char *const roles[] = { "complaint", "seen", "cause", "said", "cut" };
  static const char *const ends = "+*^0";
  g_autofree char *id = g_strdup (words[1]);
  const char *what = strstr (line, " = ");
  HsChainFinding finding = { .id = id, .what = id, .sure = HS_CHAIN_PROVEN, .end = HS_CHAIN_NO_END };

  while (!g_str_equal (roles[finding.role], words[0]))
    finding.role++;
  for (char *sign = id + strcspn (id, "?~!+*^0"); *sign != '\0'; sign++)
    {
      if (*sign == '?' || *sign == '~')
        finding.sure = *sign == '?' ? HS_CHAIN_SUSPECTED : HS_CHAIN_NOT_KNOWN;
      else if (*sign == '!')
        finding.has_proof = TRUE;
      else
        finding.end = (HsChainEnd) (HS_CHAIN_CURED + (strchr (ends, *sign) - ends));
      *sign = '\0';
    }
  if (what != NULL)
    finding.what = what + strlen (" = ");
  hs_chain_put_finding (chain, &finding);
}

/* The chain of @text: lines parted by line ends. */
static inline HsChain *
chain_of (const char *text)
{
  HsChain *chain = hs_chain_new ();
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) words = g_strsplit (lines[i], " ", 5);

      if (g_strv_length (words) < 2)
        continue;
      if (g_str_equal (words[1], "<"))
        chain_put_link_line (chain, words);
      else
        chain_put_finding_line (chain, lines[i], words);
    }
  return chain;
}

/* What A-0013 came to: five links, three ends, one cause ruled out. */
static const char chain_a0013[] =
  "complaint lamp = battery lamp, slow crank\n"
  "cause flat = battery nearly empty\n"
  "cause under = not being charged\n"
  "cause belt+ = drive belt glazed and wet\n"
  "cause pump* = water pump seal weeping onto the belt\n"
  "said water?^ = topped up with plain water for months\n"
  "cut alternator = alternator\n"
  "lamp < flat reading 11.95 V at rest, 9 %\n"
  "flat < under reading 12.30 V at 1,500 rpm\n"
  "under < alternator reading 88 of 90 A with a dry belt\n"
  "under < belt photo belt wet and glazed\n"
  "belt < pump reading 0.3 bar lost in 10 min\n"
  "pump < water said topped up with plain water\n";
