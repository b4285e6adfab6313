/* debrief.h: how a practice job was done, held against what was hidden
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A pure function of the job: the bench is rebuilt from the journal (practice-replay.h), and each entry
 * is held against the review of the moment before it and against the truth.  Nothing is said that
 * neither the journal nor the truth bears out.  The scale's own adjustment, which shows too much of all
 * parts alike, is no error of anybody's and is taken out.
 */
#pragma once

#include <glib.h>

#include "job.h"
#include "review.h"

G_BEGIN_DECLS

/* The entry with this id says that the practice was ended before the set was done, and the truth seen. */
#define TG_DEBRIEF_END_ID "practice-ended"

/* Entries farther apart than this have a pause between them that does not count as work. */
#define TG_DEBRIEF_PAUSE_S (15 * 60)

typedef enum
{
  TG_DEBRIEF_SET,      /* how even it is, truly */
  TG_DEBRIEF_METAL,    /* what came off against what had to */
  TG_DEBRIEF_PASSES,   /* how many, and which went too far */
  TG_DEBRIEF_READINGS, /* too few, too many */
  TG_DEBRIEF_WRONG,    /* readings that were wrong */
  TG_DEBRIEF_WARNINGS, /* warnings that nobody heeded */
  TG_DEBRIEF_ZONES,    /* places where nothing should come off */
  TG_DEBRIEF_TIME,
} TgDebriefTopic;
#define TG_N_DEBRIEF_TOPICS 8

typedef enum
{
  TG_DEBRIEF_GOOD,
  TG_DEBRIEF_FAIR,
  TG_DEBRIEF_POOR,
} TgDebriefVerdict;
#define TG_N_DEBRIEF_VERDICTS 3

/**
 * TgDebriefLine:
 * @text: what was, with figures
 * @event: index of the entry that is its moment, or -1
 * @careful: what a careful worker would have done, "" for nothing else
 * @why: (element-type TgTerm): figures, sum, rule, source
 */
typedef struct
{
  TgDebriefTopic topic;
  TgDebriefVerdict verdict;
  char *text;
  int event;
  char *careful;
  GPtrArray *why;
} TgDebriefLine;

/**
 * TgDebriefBand: one figure over the set; g
 * @present: the job has it
 * @tolerance_g: as the job began: what was to be reached
 * @allowed_g: as it is in force at the end
 * @true_g: heaviest minus lightest, with what is carried, truly, at the end
 * @said: every part was weighed: @said_g is the spread by the person's figures
 * @worst_g: greatest error of a figure of a part in this band, with sign; 0 with @worst_event -1
 * @worst_event: the reading after which it stood so
 */
typedef struct
{
  gboolean present;
  double tolerance_g;
  double allowed_g;
  double true_g;
  gboolean said;
  double said_g;
  double worst_g;
  int worst_part;
  TgFigure worst_figure;
  int worst_event;
} TgDebriefBand;

/**
 * TgDebriefMetal: g
 * @removed_g: truly, off all pieces
 * @known: the true parts, as they came, can be made even within the tolerances the job began with; else
 *   with those in force at the end, else @known is FALSE
 * @best_g: the least that had to come off, with the pairing that takes the least where one was open
 * @paired_g: the same with the pairing of the end
 * @open: parts could change hands
 * @proven: no pairing takes less than @best_g
 * @forbidden_g: of @removed_g, off places where nothing should come off
 * @discarded_g: of @removed_g, off pieces that were replaced later
 * @allowance_g: that a careful worker takes beyond, so that readings prove each band
 */
typedef struct
{
  double removed_g;
  gboolean known;
  double best_g;
  double paired_g;
  gboolean open;
  gboolean proven;
  double forbidden_g;
  double discarded_g;
  double allowance_g;
} TgDebriefMetal;

/**
 * TgDebrief:
 * @who: (nullable): who was at the bench last, else the first who is named
 * @bands: by TgBand
 * @even: every band is within the tolerance that the job began with, truly
 * @done: the review calls the set done
 * @passes_least: that who knows the true figures gets along with
 * @passes_careful: that a careful worker, who does not, gets along with
 * @forbidden: passes on places where nothing should come off
 * @seconds: of grinding; strokes count as one each
 * @readings: not struck out
 * @wrong: of these and of the looks at the empty scale, more off than scatter and drift explain
 * @ignored: warnings that nobody heeded
 * @work_s, @pauses_s: from the first entry to the last, and the pauses in between
 * @lines: (element-type TgDebriefLine), by topic, then in order of the journal
 */
typedef struct
{
  char *who;
  TgDebriefBand bands[TG_N_BANDS];
  gboolean even;
  gboolean done;
  TgDebriefMetal metal;
  guint passes;
  guint passes_least;
  guint passes_careful;
  guint forbidden;
  double seconds;
  guint readings;
  guint wrong;
  guint ignored;
  gboolean begun;
  TgStamp first;
  TgStamp last;
  gint64 work_s;
  gint64 pauses_s;
  GPtrArray *lines;
} TgDebrief;

/* (transfer full): "4 min" up to two hours, "7 h" up to two days, then "12 days" */
char *tg_debrief_time_words (gint64 seconds);

/**
 * tg_debrief_new:
 * @job: a practice job, in any state
 *
 * Reviews the job once for every entry, and searches for a pairing where one is open: some tenths of a
 * second for a large job.
 */
TgDebrief *tg_debrief_new (const TgJob *job);
void tg_debrief_free (TgDebrief *debrief);

/* TRUE if what is true may be seen: the set is done, or the practice was ended. */
gboolean tg_debrief_is_open (const TgJob *job, const TgReview *review);

/* (transfer full): true figures, in g: one decimal more than the scale of @setup shows. */
char *tg_debrief_grams (const TgSetup *setup, double grams);

/* (transfer full): "A careful worker takes …", "" for nothing */
char *tg_debrief_careful_words (const TgDebriefLine *line);

/* What a person reads: "The set", "Metal" …; "good", "fair", "poor" */
const char *tg_debrief_topic_label (TgDebriefTopic topic);
const char *tg_debrief_verdict_label (TgDebriefVerdict verdict);

/* Words in tables: "set", "metal" … */
const char *tg_debrief_topic_to_word (TgDebriefTopic topic);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgDebrief, tg_debrief_free)

G_END_DECLS
