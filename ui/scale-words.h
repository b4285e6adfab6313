/* scale-words.h: what there is to say about the scale on a cable
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "scale-link.h"

G_BEGIN_DECLS

/* (transfer full): where it stands, one line: "Scale: 171.6 g, moving" */
char *tg_scale_words_standing (TgScaleLink *link);

/* (transfer full): what it shows now, "171.6 g"; NULL while that is unknown */
char *tg_scale_words_load (TgScaleLink *link);

/* (transfer full): as typed: "171.6"; as many decimals as a scale of @step has, or as are needed */
char *tg_scale_words_figure (TgMass mass, TgMass step);

/* (transfer full): a line as it can be shown: bytes that are no printable ASCII as \xHH */
char *tg_scale_words_line (const char *line, gsize length);

G_END_DECLS
