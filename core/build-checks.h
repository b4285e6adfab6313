/* build-checks.h: what a builder looks at before a bore is done
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Common practice; the engine maker's manual comes first and may ask for more.
 */
#pragma once

#include <glib.h>

#include "design.h"

G_BEGIN_DECLS

/* In the order of the work.  The first six are about the part in hand. */
typedef enum
{
  TG_CHECK_ROD,
  TG_CHECK_PISTON,
  TG_CHECK_PIN,
  TG_CHECK_RINGS,
  TG_CHECK_CLIPS,
  TG_CHECK_BEARINGS,
  TG_CHECK_PISTON_FACING,
  TG_CHECK_ROD_FACING,
  TG_CHECK_PIN_OILED,
  TG_CHECK_CLIPS_NEW,
  TG_CHECK_CLIPS_GAP,
  TG_CHECK_RINGS_PLACED,
  TG_CHECK_SHELLS,
  TG_CHECK_CAP,
  TG_CHECK_BOLTS,
  TG_CHECK_TURNS,
} TgBuildCheck;
#define TG_N_BUILD_CHECKS 16

/* Words in files: "rod" … "bearings", "piston-facing" … "turns" */
const char *tg_build_check_to_word (TgBuildCheck check);
gboolean tg_build_check_from_word (const char *word, TgBuildCheck *check);

/* TRUE if @check is about a part in hand; @kind: (out): of which kind */
gboolean tg_build_check_kind (TgBuildCheck check, TgPartKind *kind);

/* What a person ticks off, a short sentence: "Cap on its own rod, numbers on the same side". */
const char *tg_build_check_label (TgBuildCheck check);

/* Why, and what to look at: one or two sentences that defer to the maker's manual. */
const char *tg_build_check_detail (TgBuildCheck check);

/* Where that is from: a published source, or "common practice, no published source". */
const char *tg_build_check_source (TgBuildCheck check);

G_END_DECLS
