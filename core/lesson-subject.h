/* lesson-subject.h: what a condition or a question of a lesson is about
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "setup.h"
#include "xml.h"

G_BEGIN_DECLS

/* Which readings of a rod's end count. */
typedef enum
{
  TG_LESSON_WAYS_ALL,  /* all of them together */
  TG_LESSON_WAYS_UP,   /* those with the mark up */
  TG_LESSON_WAYS_DOWN, /* those with the mark down */
  TG_LESSON_WAYS_BOTH, /* as many with the mark up as with the mark down */
} TgLessonWays;
#define TG_N_LESSON_WAYS 4

/* Which of its fields were said, and which may be said. */
typedef enum
{
  TG_LESSON_HAS_PART = 1 << 0,
  TG_LESSON_HAS_ZONE = 1 << 1,
  TG_LESSON_HAS_KIND = 1 << 2,
  TG_LESSON_HAS_FIGURE = 1 << 3,
  TG_LESSON_HAS_WAYS = 1 << 4,
  TG_LESSON_HAS_BAND = 1 << 5,
  TG_LESSON_HAS_BORE = 1 << 6,
  TG_LESSON_HAS_GRAMS = 1 << 7,
  TG_LESSON_HAS_AT_LEAST = 1 << 8,
} TgLessonHas;

/**
 * TgLessonSubject:
 * @has: TgLessonHas: what was said; of the rest the fields are 0 or ""
 * @part: id of a part of the lesson's job; @index: of it
 * @zone: id of a zone of that part's design; @zone_index: of it
 * @kind: family of parts
 * @bore: cylinder number from 1
 * @grams: above 0
 * @at_least: how many, 1 if it was not said
 */
typedef struct
{
  guint has;
  char *part;
  guint index;
  char *zone;
  guint zone_index;
  TgPartKind kind;
  TgFigure figure;
  TgLessonWays ways;
  TgBand band;
  guint bore;
  double grams;
  guint at_least;
} TgLessonSubject;

#define TG_LESSON_MOST 100

/**
 * tg_lesson_subject_read:
 * @taker: of an element with the attributes "part", "zone", "kind", "figure", "way", "band", "bore",
 *   "grams" and "at-least", as far as @may has them
 * @need, @may: TgLessonHas
 * @setup: of the lesson's job: what is named has to be in it
 * @subject: (out): tg_lesson_subject_clear() afterwards, on failure too
 * @error: with file and line
 */
gboolean tg_lesson_subject_read (TgXmlTaker *taker,
                                 guint need,
                                 guint may,
                                 const TgSetup *setup,
                                 TgLessonSubject *subject,
                                 GError **error);

void tg_lesson_subject_clear (TgLessonSubject *subject);

/* Words in files: "mark-up", "mark-down", "both"; "all" for all together. */
const char *tg_lesson_ways_to_word (TgLessonWays ways);
gboolean tg_lesson_ways_from_word (const char *word, TgLessonWays *ways);

G_END_DECLS
