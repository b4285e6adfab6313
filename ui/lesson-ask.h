/* lesson-ask.h: what a lesson asks: a number to type, or answers to choose from, and the verdict
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "lesson-question.h"

G_BEGIN_DECLS

#define TG_TYPE_LESSON_ASK (tg_lesson_ask_get_type ())
G_DECLARE_FINAL_TYPE (TgLessonAsk, tg_lesson_ask, TG, LESSON_ASK, GtkBox)

/**
 * tg_lesson_ask_show:
 * @kind: of the question
 * @right: (nullable): what is right; NULL: nothing is asked.  Read and kept until the next call
 * @given: (nullable): what was answered last
 * @settled: it was right, and nothing more is to be answered
 * @anew: another question than before: what was typed is taken away
 */
void tg_lesson_ask_show (TgLessonAsk *ask,
                         TgLessonQuestionKind kind,
                         const TgLessonAnswer *right,
                         const char *given,
                         gboolean settled,
                         gboolean anew);

/* Puts the keyboard where an answer is given; FALSE if none is wanted. */
gboolean tg_lesson_ask_focus (TgLessonAsk *ask);

/**
 * TgLessonAsk::answered:
 * @value: as it is written down; something that can be an answer
 */

G_END_DECLS
