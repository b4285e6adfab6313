/* lessons-page.h: the lessons that there are, to begin and to go on with
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_LESSONS_PAGE (tg_lessons_page_get_type ())
G_DECLARE_FINAL_TYPE (TgLessonsPage, tg_lessons_page, TG, LESSONS_PAGE, GtkWidget)

/**
 * Properties:
 * "session": TgSession, nullable: of the window; it makes no difference here
 * "own-folder", "practice-folder": those of the person, unless a test says others
 */

/* Adds the lesson file at @path; what is wrong with it is shown on the page. */
void tg_lessons_page_add (TgLessonsPage *page, const char *path);

/* Puts the keyboard on the first button. */
void tg_lessons_page_focus (TgLessonsPage *page);

/**
 * TgLessonsPage::open:
 * @session: a practice job that was begun or is to be gone on with
 */

G_END_DECLS
