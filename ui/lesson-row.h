/* lesson-row.h: one lesson of the list: title, goal, how far it has come
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "lesson-shelf.h"

G_BEGIN_DECLS

#define TG_TYPE_LESSON_ROW (tg_lesson_row_get_type ())
G_DECLARE_FINAL_TYPE (TgLessonRow, tg_lesson_row, TG, LESSON_ROW, GtkBox)

/* @number: from 1; @place must outlive the row */
GtkWidget *tg_lesson_row_new (const TgLessonPlace *place, guint number);

/* (lends) */
const TgLessonPlace *tg_lesson_row_place (TgLessonRow *row);

/**
 * TgLessonRow::start: a new practice job for the lesson is wanted
 * TgLessonRow::go-on: its last practice job is wanted
 */

G_END_DECLS
