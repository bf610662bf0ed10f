// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A keyring that is locked and asks to be unlocked, on a bus of its own; nobody ever answers it. */
typedef struct _Keyring Keyring;

/* keyring_open: %NULL where there is no bus to be had. */
Keyring *keyring_open (void);
void keyring_close (Keyring *keyring);

/* keyring_wait_asked: until it asks to be unlocked. */
void keyring_wait_asked (Keyring *keyring);

G_END_DECLS
