/* lesson-private.h: what the files of lessons share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "lesson.h"
#include "xml.h"

G_BEGIN_DECLS

/* lesson.c */
TgLesson *tg_lesson_new (void);
TgLessonStep *tg_lesson_step_new (TgLessonStepKind kind);
TgLessonOpening *tg_lesson_opening_new (TgLessonOpeningKind kind);

/* lesson-job.c: the element "job" of a lesson whose id and title are known */
gboolean tg_lesson_read_job (
    xmlNode *node, const char *file, const TgLibrary *library, TgLesson *lesson, GError **error);

/* lesson-opening.c: the element "opening", after the job */
gboolean tg_lesson_read_opening (xmlNode *node, const char *file, TgLesson *lesson, GError **error);

G_END_DECLS
