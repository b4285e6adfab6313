/* proof-line.h: what the readings of one band prove, and how many more would
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_PROOF_LINE (tg_proof_line_get_type ())
G_DECLARE_FINAL_TYPE (TgProofLine, tg_proof_line, TG, PROOF_LINE, GtkBox)

/* Nothing while @session is NULL or nothing is to be proven.  Reckons anew only after an event. */
void tg_proof_line_show (TgProofLine *line, TgSession *session, TgBand band);

G_END_DECLS
