/* history-fixture.h: histories put together by hand, for the tests of their drawings
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "review.h"

G_BEGIN_DECLS

typedef enum
{
  HISTORY_EMPTY,
  HISTORY_ONE,      /* a single point of the first figure */
  HISTORY_EVENINGS, /* three evenings over two weeks, passes, the last one not shown yet */
  HISTORY_REPLACED, /* another piece on the last day */
  HISTORY_SIXTY,    /* thirty passes on each end, sixty points */
  HISTORY_DAYS,     /* twelve days with a pass or two on each */
  N_HISTORIES
} HistoryCase;

/* "empty", "one" … */
const char *history_name (HistoryCase which);

/**
 * history_review:
 * @job: (out)
 * @long_names: zones with long names
 *
 * The first rod and the first piston have a history.
 * Returns: (transfer full): free with fixture_review_free()
 */
TgReview *history_review (HistoryCase which, gboolean long_names, TgJob **job);

#define HISTORY_ROD 0
#define HISTORY_PISTON 2

G_END_DECLS
