// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include "hs-page.h"

G_BEGIN_DECLS

/** Jobs: every open job as a tag on the wire of its stage, what wants attention first, and what comes next. */
#define HS_TYPE_JOBS_PAGE (hs_jobs_page_get_type ())
G_DECLARE_FINAL_TYPE (HsJobsPage, hs_jobs_page, HS, JOBS_PAGE, HsPage)

G_END_DECLS
