// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

/* What the files of a job's page share: hs-job-page.c has the widget and where the owner is, -actions.c the keys. */

#include "hs-job-page.h"

#include "hs-ask.h"
#include "hs-chip.h"
#include "hs-glyph.h"
#include "hs-job-pane.h"
#include "hs-key-button.h"
#include "hs-key-row.h"
#include "hs-tabs.h"

G_BEGIN_DECLS

/* The panes that need nothing but the job: under their place in the template and their name in hs_job_page_go(). */
enum
{
  PANE_CALL,
  PANE_CHAIN,
  PANE_PHOTOS,
  PANE_CHOICES,
  PANE_BILL,
  PANE_AFTER,
  N_PANES,
};

extern const char *const hs_job_page_panes[N_PANES];

struct _HsJobPage
{
  HsPage parent_instance;

  GtkWidget *head;
  HsGlyph *glyph;
  HsPlateChip *plate;
  GtkLabel *words;
  GtkLabel *vehicle;
  HsKeyButton *stage;
  HsKeyButton *unsafe;
  GtkStack *stack;
  AdwBin *call_bin;
  AdwBin *findings_bin;
  GtkWidget *pad_bar;
  HsKeyRow *pad_keys;
  HsTabs *face_tabs;
  GtkStack *faces;
  GtkLabel *shut;
  AdwBin *chain_bin;
  AdwBin *photos_bin;
  AdwBin *choices_bin;
  AdwBin *bill_bin;
  AdwBin *after_bin;

  HsFindings *findings;
  HsJobPane *panes[N_PANES];
  HsDraft *draft;
  HsQuestion *ask;
  char *job_id;
  char *go_page;
  char *go_field;
  char *go_text;
  gboolean reads; /* a reading is half typed */
  gboolean typed; /* what was typed and not stored is there again */
  gboolean gone;
  gboolean worked;     /* more was done here than to look */
  const char *visited; /* of hs_job_page_panes[]: where the owner was last */
  char *told_open; /* (nullable): what was said to be left open, nothing done since */
};

/* hs_job_page_get_shot: (nullable): what the book said last. */
const HsJobShot *hs_job_page_get_shot (HsJobPage *self);

/* hs_job_page_show_pane: @name: (nullable): as for hs_job_page_go(). */
void hs_job_page_show_pane (HsJobPage *self, const char *name);
gboolean hs_job_page_shows_readings (HsJobPage *self);

/* hs_job_page_prints: whether what is shown has something to print. */
gboolean hs_job_page_prints (HsJobPage *self);

/* hs-job-page-actions.c */
void hs_job_page_install_actions (GtkWidgetClass *widget_class);
gboolean hs_job_page_tab_key_cb (HsJobPage *self, guint keyval, guint keycode, GdkModifierType state);

G_END_DECLS
