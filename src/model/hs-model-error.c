// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* The error domain of the model layer. */

#include "hs-model-error.h"

G_DEFINE_QUARK (hs-model-error-quark, hs_model_error)
