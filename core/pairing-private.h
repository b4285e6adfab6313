/* pairing-private.h: what the files of the pairing share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "pairing.h"

G_BEGIN_DECLS

/* FALSE, with the outputs undefined, if the part @part of the review takes no part. */
gboolean tg_pairing_find (const TgPairing *pairing, guint part, guint *family, guint *number);

G_END_DECLS
