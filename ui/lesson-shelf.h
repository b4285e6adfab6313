/* lesson-shelf.h: which lessons there are, and how far each has come
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lessons of one's own lie in one folder, practice jobs in another; both need not exist yet.
 */
#pragma once

#include "lesson-progress.h"
#include "session.h"

G_BEGIN_DECLS

typedef enum
{
  TG_LESSON_NOT_BEGUN,
  TG_LESSON_BEGUN,
  TG_LESSON_FINISHED,
} TgLessonStanding;

/**
 * TgLessonPlace: one lesson on the shelf
 * @lesson: (lends)
 * @path: (nullable): of its practice job that was worked on last
 * @step: of it, the number of the current step from 1
 */
typedef struct
{
  const TgLesson *lesson;
  TgLessonStanding standing;
  char *path;
  guint step;
} TgLessonPlace;

/**
 * TgLessonShelf:
 * @places: (element-type TgLessonPlace)
 * @faults: (element-type utf8): files of lessons that are refused, one line each
 */
typedef struct
{
  TgLibrary *library;
  GPtrArray *lessons;
  GPtrArray *places;
  GPtrArray *faults;
} TgLessonShelf;

/* (transfer full): the person's own folders, in the data folder of the person. */
char *tg_lesson_shelf_own_folder (void);
char *tg_lesson_shelf_practice_folder (void);

/* Reads every lesson and every practice job: for a page that shows them. */
TgLessonShelf *tg_lesson_shelf_new (const char *own_folder, const char *practice_folder);
void tg_lesson_shelf_free (TgLessonShelf *shelf);

/**
 * tg_lesson_shelf_add:
 * @path: of a lesson file anywhere
 * @error: its fault, with the line; nothing is copied then
 *
 * Copies it into @own_folder, under its own name; a lesson that is there already is refused.
 */
gboolean tg_lesson_shelf_add (const TgLessonShelf *shelf,
                              const char *path,
                              const char *own_folder,
                              GError **error);

/**
 * tg_lesson_shelf_begin:
 *
 * Writes a new practice job for @lesson into @practice_folder, as far as its opening goes.
 * Returns: (transfer full) (nullable)
 */
TgSession *
tg_lesson_shelf_begin (const TgLesson *lesson, const char *practice_folder, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgLessonShelf, tg_lesson_shelf_free)

G_END_DECLS
