// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-chain.h"

G_BEGIN_DECLS

/**
 * HsChainFace:
 * @key: what stays the same when the chain is read again: the link, or on top the finding
 * @finding_id: its id in the book
 * @link_id: (nullable): the link to its effect
 * @kind: a node, a reference to one further up, or what was ruled out
 * @by: of the link
 * @end: how it is settled here
 * @open: it is an end and not settled
 * @complaint: it stands on top
 * @firm: more than said or suspected
 * @number, @level, @position, @n_siblings, @parent, @column, @from_column, @wires: as in #HsChainRow
 * @title: what it is
 * @proof_word: (nullable): “Read”, “Photo”, “Seen”, “Said”
 * @proof: (nullable): what shows it, in words
 * @end_title: (nullable): “Cured today”
 * @end_note: (nullable): more about the end
 * @spoken: all of it in one sentence
 *
 * One row of a why-chain as it is drawn; see #HsChainRow for what the places mean.
 */
typedef struct
{
  char *key;
  char *finding_id;
  char *link_id;
  HsChainRowKind kind;
  HsChainProof by;
  HsChainEnd end;
  gboolean open;
  gboolean complaint;
  gboolean firm;
  guint number;
  guint level;
  guint position;
  guint n_siblings;
  int parent;
  guint column;
  guint from_column;
  guint64 wires;
  char *title;
  char *proof_word;
  char *proof;
  char *end_title;
  char *end_note;
  char *spoken;
} HsChainFace;

void hs_chain_face_free (HsChainFace *face);

/* hs_chain_faces_new: (transfer full) (element-type HsChainFace): an empty array that frees what it holds. */
GPtrArray *hs_chain_faces_new (void);

G_END_DECLS
