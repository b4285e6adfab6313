/* pairing-search.h: looks for the best pairing while the window goes on
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

#include "pairing.h"

G_BEGIN_DECLS

#define TG_TYPE_PAIRING_SEARCH (tg_pairing_search_get_type ())
G_DECLARE_FINAL_TYPE (TgPairingSearch, tg_pairing_search, TG, PAIRING_SEARCH, GObject)

/**
 * Properties, both read-only and notifying:
 * "running"
 * "progress": time used against time allowed, 0 to 1; 0 as long as the search is too short for a
 *   person to notice, and when none runs
 */
TgPairingSearch *tg_pairing_search_new (void);

/**
 * tg_pairing_search_start:
 * @pairing: referenced
 * @allowed_ms: after this time the search ends with what it has
 *
 * A search that runs is cancelled first; what it finds is dropped.
 */
void tg_pairing_search_start (TgPairingSearch *search, TgPairing *pairing, guint allowed_ms);

/* Nothing of the search that runs is kept, and nothing is said. */
void tg_pairing_search_cancel (TgPairingSearch *search);

gboolean tg_pairing_search_is_running (TgPairingSearch *search);
double tg_pairing_search_progress (TgPairingSearch *search);

/* TRUE if @result has a pairing. */
gboolean tg_pairing_search_found (const TgPairingResult *result);

/**
 * TgPairingSearch::finished:
 * @search: the object
 * @pairing: (type TgPairing): what was given to start
 * @result: (type TgPairingResult): valid during the signal; a pairing in it has been judged by
 *   tg_pairing_rules_kept(), apart from the search
 *
 * From the main loop; not after a cancel.
 */

G_END_DECLS
