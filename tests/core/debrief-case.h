/* debrief-case.h: practice jobs put together by hand, for the debrief's tests
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The truth comes from the bench that follows from seed and journal; all else is invented.
 */
#pragma once

#include "debrief.h"
#include "job.h"
#include "practice-bench.h"

/* Rods, and pistons if asked for, step 0.1 g, tolerance 0.5 g; the bench is honest. (transfer full) */
TgSetup *case_setup (guint cylinders, gboolean pistons);

/* Appends with a fresh id, as of the practice bench, 30 s after the last one. */
void case_append (TgJob *job, TgEvent event);
/* The same, so many seconds after the last one. */
void case_append_after (TgJob *job, TgEvent event, guint seconds);

/* What is true of a figure now, in g. */
double case_truth (const TgJob *job, const char *part, TgFigure figure);

/* A reading that is off by @off_g from the truth, to the step; and one of just this mass. */
void case_read (TgJob *job, const char *part, TgFigure figure, TgWay way, double off_g);
void case_read_mass (TgJob *job, const char *part, TgFigure figure, TgWay way, TgMass mass);
/* Everything that the setup asks for, once and right. */
void case_read_all (TgJob *job);
void case_zero (TgJob *job, TgMass shown, gboolean set_back);
/* A pass with the file. */
void case_pass (TgJob *job, const char *part, const char *zone, double wanted_g, guint seconds);

/* tg_debrief_new(); the reason of each line has its figures or words, then its rule and its source */
TgDebrief *case_debrief (const TgJob *job);

/* (nullable): the line of @topic whose moment is entry @event (-1: of the whole) and that has @words */
const TgDebriefLine *
case_line (const TgDebrief *debrief, TgDebriefTopic topic, int event, const char *words);
guint case_n_lines (const TgDebrief *debrief, TgDebriefTopic topic, TgDebriefVerdict at_least);

/* The index of the last entry. */
int case_last (const TgJob *job);
