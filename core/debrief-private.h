/* debrief-private.h: the topics of a debrief, for its own files only
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * tg_debrief_new() goes through the journal once.  Each topic sees every entry with the reviews and the
 * benches before and after it, and says at the end what there is to say of the whole.
 */
#pragma once

#include "debrief.h"
#include "practice-bench.h"
#include "review-private.h"

G_BEGIN_DECLS

/* Quantile of the deviation that a good reading has in 999 of 1000 cases (normal, two-sided). */
#define TG_DEBRIEF_SURE 3.29

/* On its way from one load to the next a display swings past by this share of the difference
 * (practice-bench.c); tests/core/test-debrief.c holds it against the bench. */
#define TG_DEBRIEF_OVERSWING 0.1351

/**
 * TgDebriefZero: what is known of the zero of the scale at an entry
 * @from_g: where it was known to be last
 * @walked: loads on and off since then
 * @zero_g: as the looks before and after it that day say, on a straight line
 * @lays: loads on and off for which it may have wandered from there
 * @since: loads since the zero was last known
 * @looked: there was one before it that day
 * @closed: there is one after it that day, before anything is set to zero anew, and what it showed can be
 */
typedef struct
{
  double from_g;
  double walked;
  double zero_g;
  double lays;
  guint since;
  gboolean looked;
  gboolean closed;
} TgDebriefZero;

/**
 * TgDebriefWalk: where the debrief is in the journal
 * @end: review of the whole job
 * @struck: by event: struck out in the end
 * @zeros: by event
 * @index, @event: the entry that is looked at
 * @part, @zone: of the entry: index, or -1
 * @before, @after: reviews without it and with it
 * @bench, @bench_after: the benches
 */
typedef struct
{
  const TgJob *job;
  const TgSetup *setup;
  TgDebrief *debrief;
  TgReview *end;
  gboolean *struck;
  TgDebriefZero *zeros;
  guint index;
  const TgEvent *event;
  int part;
  int zone;
  TgReview *before;
  TgReview *after;
  TgPracticeBench *bench;
  TgPracticeBench *bench_after;
} TgDebriefWalk;

/* Takes @text and @why, which gets the rule of @topic behind its figures; copies @careful. */
void tg_debrief_add (TgDebrief *debrief,
                     TgDebriefTopic topic,
                     TgDebriefVerdict verdict,
                     int event,
                     char *text,
                     const char *careful,
                     GPtrArray *why);

/* A term of a reason, in true figures: "1.46 g". */
void tg_debrief_term (
    GPtrArray *why, const TgSetup *setup, const char *label, double grams, const char *remark);

/* (transfer full): two counts, for what was done well */
GPtrArray *tg_debrief_why_well (const char *what, guint n, const char *fault, guint n_faults);

/* TRUE if no line of @topic has been said yet. */
gboolean tg_debrief_is_clean (const TgDebrief *debrief, TgDebriefTopic topic);

/* debrief-truth.c: true figures.  The sum of @band at the bore of @part as the setup in force has it. */
double
tg_debrief_sum_g (const TgSetup *setup, const TgPracticeBench *bench, guint part, TgBand band);
double tg_debrief_spread_g (const TgReview *review, const TgPracticeBench *bench, TgBand band);

/* What the scale ought to show of @true_g: its adjustment included. */
double tg_debrief_shown_g (const TgSetup *setup, double true_g);

/* (transfer full): by event */
TgDebriefZero *tg_debrief_zeros (const TgJob *job, const gboolean *struck);

/* How far what the empty scale shows at a look may be from .from_g. */
double tg_debrief_zero_reach_g (const TgSetup *setup, double walked);

/**
 * tg_debrief_explained_g:
 * @figure: what was read
 *
 * Returns: how far a good reading may be off: half a step, scatter, flicker and the way of the zero
 */
double tg_debrief_explained_g (const TgSetup *setup, TgFigure figure, const TgDebriefZero *zero);

/* debrief-bands.c */
void tg_debrief_watch_figures (TgDebriefWalk *walk);
void tg_debrief_judge_set (TgDebriefWalk *walk);

/* debrief-metal.c */
void tg_debrief_watch_metal (TgDebriefWalk *walk);
void tg_debrief_judge_metal (TgDebriefWalk *walk);

/* debrief-least.c: what had to come off, and in how many passes */
void tg_debrief_find_least (TgDebriefWalk *walk);

/* debrief-passes.c */
void tg_debrief_watch_passes (TgDebriefWalk *walk);
void tg_debrief_judge_passes (TgDebriefWalk *walk);

/* debrief-zones.c */
gboolean tg_debrief_is_forbidden (const TgZone *zone);
void tg_debrief_watch_zones (TgDebriefWalk *walk);
void tg_debrief_judge_zones (TgDebriefWalk *walk);

/* debrief-readings.c */
void tg_debrief_watch_readings (TgDebriefWalk *walk);
void tg_debrief_judge_readings (TgDebriefWalk *walk);

/* debrief-wrong.c */
void tg_debrief_watch_wrong (TgDebriefWalk *walk);
void tg_debrief_judge_wrong (TgDebriefWalk *walk);

/**
 * TgDebriefCause: what explains that a reading is off
 * @words: (nullable): a clause; NULL where the bench's figures bear nothing out
 * @careful: what keeps it from happening
 */
typedef struct
{
  char *words;
  const char *careful;
} TgDebriefCause;

/* debrief-cause.c: of the entry, a weighing that is off by @off_g.  Terms of the sum go to @why; .words
 * is the caller's. */
TgDebriefCause
tg_debrief_cause (const TgDebriefWalk *walk, double off_g, double explained_g, GPtrArray *why);

/* How far the entry, a weighing, is off: what was read less the zero and what ought to be shown. */
double tg_debrief_off_g (const TgDebriefWalk *walk);

/* debrief-warnings.c */
void tg_debrief_watch_warnings (TgDebriefWalk *walk);
void tg_debrief_judge_warnings (TgDebriefWalk *walk);

/* debrief-time.c */
void tg_debrief_judge_time (TgDebriefWalk *walk);

G_END_DECLS
