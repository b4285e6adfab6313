/* practice.h: what is said of a practice job: the seed of its bench, and how the bench lies
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A practice job has parts that only exist on its bench (practice-bench.h).  It is a job like any other,
 * with the same journal and the same review, but what was read at a practice bench is marked as such, and
 * neither kind of job takes what belongs to the other.
 */
#pragma once

#include <glib.h>

#include "design.h"

G_BEGIN_DECLS

/* What the name of a practice job begins with, so that it is marked wherever its name stands. */
#define TG_PRACTICE_NAME "Practice"

/**
 * TgPracticeFaults: how the bench lies; 0 for a fault that it does not have
 * @scatter_g: standard deviation from lay to lay, on the stand; half of it on the pan
 * @flicker_g: standard deviation of the display from moment to moment
 * @drift_g: standard deviation of what the zero moves by from lay to lay
 * @catch_g: by which an end reads off where the bearing catches, either way, until it is rocked free
 * @catch_share: of the rods' ends and ways up that catch, 0 to 1
 * @touch_g: that a rod touching something loses
 * @touch_share: of the lays of a rod's end at which it touches, 0 to 1
 * @hand: standard deviation of what a pass takes, as a share of what it takes on average
 * @gain: what the scale shows too much of each load, as a share of it
 */
typedef struct
{
  double scatter_g;
  double flicker_g;
  double drift_g;
  double catch_g;
  double catch_share;
  double touch_g;
  double touch_share;
  double hand;
  double gain;
} TgPracticeFaults;

/* How hard a bench is to work at. */
typedef enum
{
  TG_PRACTICE_HONEST,   /* nothing lies */
  TG_PRACTICE_USUAL,    /* a decent scale, a bearing that catches now and then */
  TG_PRACTICE_STUBBORN, /* everything lies */
} TgPracticeLevel;
#define TG_N_PRACTICE_LEVELS 3

/**
 * TgPractice:
 * @on: the job is practice; all else holds only then
 * @seed: any words; who has the same seed, setup and faults has the same bench
 * @lesson: id of the lesson that the job is for, "" for free practice
 * @spread_g: standard deviation of the parts' true figures within a family
 */
typedef struct
{
  gboolean on;
  char *seed;
  char *lesson;
  double spread_g;
  TgPracticeFaults faults;
} TgPractice;

/* Not practice. */
void tg_practice_init (TgPractice *practice);
void tg_practice_copy (const TgPractice *from, TgPractice *to); /* @to must be initialised */
gboolean tg_practice_equal (const TgPractice *a, const TgPractice *b);
void tg_practice_clear (TgPractice *practice);

/* A practice with @seed. */
void tg_practice_set (TgPractice *practice, const char *seed);

/* The spread and the faults as numbers with names; *n gets how many. Their default is 0. */
const TgField *tg_practice_fields (guint *n);

/* (nullable) (lends): the place of the number called @name. */
double *tg_practice_number (TgPractice *practice, const char *name);

/**
 * tg_practice_check:
 * @error: TG_ERROR_SYNTAX for the texts, TG_ERROR_RANGE for the numbers
 */
gboolean tg_practice_check (const TgPractice *practice, GError **error);

/* The faults of @level for a scale with steps of @step_g; made up after common practice, no published
 * source. */
TgPracticeFaults tg_practice_level_faults (TgPracticeLevel level, double step_g);

/* What a person reads: "honest", "usual", "stubborn"; and what it means in one sentence. */
const char *tg_practice_level_label (TgPracticeLevel level);
const char *tg_practice_level_words (TgPracticeLevel level);

G_END_DECLS
