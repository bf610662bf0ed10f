// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-after-pane.h"
#include "hs-change-grid.h"
#include "hs-past-yes.h"

G_BEGIN_DECLS

/* What the parts of the pane share: hs-after-pane.c shows the job, hs-after-ask.c asks. */

/* What the entry asks for. */
typedef enum
{
  HS_AFTER_ASK_NOTHING,
  HS_AFTER_ASK_FIT,
  HS_AFTER_ASK_WHICH, /* field of a part */
  HS_AFTER_ASK_FIELD,
  HS_AFTER_ASK_DISTURBED,
  HS_AFTER_ASK_TRIES,
  HS_AFTER_ASK_UNPROVED,
  HS_AFTER_ASK_SAFE,
  HS_AFTER_ASK_ODOMETER,
} HsAfterAsks;

struct _HsAfterPane
{
  HsJobPane parent_instance;

  GtkBox *panes;
  GtkWidget *facts_box;
  GtkWidget *ask_box;
  GtkWidget *more;
  GtkWidget *tick_key;
  GtkWidget *remove_key;
  GtkWidget *frozen;
  GtkLabel *figure_name;
  GtkLabel *figure;
  GtkBox *missing;
  GtkBox *looks;
  GtkBox *parts;
  GtkLabel *handed;
  HsChangeGrid *changes;
  GtkLabel *changes_none;
  GtkLabel *because;
  GtkLabel *caution;
  GtkBox *acts;
  GtkLabel *asked;
  GtkEntry *entry;

  HsAfterAsks asks;
  char *part_id;     /* whose field is asked for */
  guint field;       /* in hs_part_fields */
  guint page;        /* of the choices, nine each */
  gboolean fitted;   /* a part is in the book and not shown yet; its fields are asked for when it is */
  gboolean in_turn;  /* one field after the other, for a part that was just put in */
  GPtrArray *values; /* what each choice stands for; its digit is its place from 1 */
  HsAfterList *list;
  gboolean busy;
  HsPastYes past;
};

/* hs_after_ask_start: under @digit of the acts. Returns: whether there is such an act. */
gboolean hs_after_ask_start (HsAfterPane *self, guint digit);

/* hs_after_ask_part: which field of a part is to be altered. */
void hs_after_ask_part (HsAfterPane *self, const char *part_id);

/* hs_after_ask_update: shows what is asked for, or what can be done. */
void hs_after_ask_update (HsAfterPane *self);
void hs_after_ask_stop (HsAfterPane *self);

/* hs_after_ask_shown: the job was shown anew. */
void hs_after_ask_shown (HsAfterPane *self);

/* hs_after_ask_take: the text in the entry is the answer. */
void hs_after_ask_take (HsAfterPane *self);

/* hs_after_ask_insist: yes to what was told to pass the go-ahead. Returns: whether there is such an answer. */
gboolean hs_after_ask_insist (HsAfterPane *self);

/* hs_after_ask_choose: the answer under a number of the whole list. */
void hs_after_ask_choose (HsAfterPane *self, guint number);

/* hs_after_ask_press: the answer under a digit, while nothing is typed. Returns: there is one. */
gboolean hs_after_ask_press (HsAfterPane *self, guint digit);

/* hs_after_ask_turn: the next choices of a long list. */
void hs_after_ask_turn (HsAfterPane *self);

/* hs_after_ask_go: goes on where it was left; see hs_job_pane_go(). */
void hs_after_ask_go (HsAfterPane *self, const char *field, const char *text);

/* hs_after_ask_note: keeps what is typed. */
void hs_after_ask_note (HsAfterPane *self);
void hs_after_pane_say (HsAfterPane *self, const char *text);

/* hs_after_pane_done: a deed has ended; says why if it was refused. */
gboolean hs_after_pane_done (HsAfterPane *self, GObject *source, GAsyncResult *result, gpointer *ret_answer);

G_END_DECLS
