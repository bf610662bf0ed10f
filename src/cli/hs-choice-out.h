// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-choice-op.h"
#include "hs-cli.h"

G_BEGIN_DECLS

/* Options, go-aheads and what was declined earlier, as JSON and as text. */

/* hs_choice_out_write: the members choices, declined and go_ahead of the open object. */
void hs_choice_out_write (HsJsonOut *out, const HsJobChoices *job);

/* hs_choice_out_write_room: one object; @name as in hs_json_out_begin_object(). */
void hs_choice_out_write_room (HsJsonOut *out, const char *name, const HsJobChoices *job, const HsGoAheadRoom *room,
                               const char *words);
void hs_choice_out_print_declined (HsCli *cli, const HsJobChoices *job);
void hs_choice_out_print (HsCli *cli, const HsJobChoices *job);
void hs_choice_out_print_go_aheads (HsCli *cli, const HsJobChoices *job);

G_END_DECLS
