/* lesson-panel.h: the lesson that a practice job is for, step by step above its pages
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hidden unless the job is for a lesson that there is.  Practical steps are recorded by themselves as
 * soon as they are done; what is shown waits for a button, what is asked for a right answer.
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_LESSON_PANEL (tg_lesson_panel_get_type ())
G_DECLARE_FINAL_TYPE (TgLessonPanel, tg_lesson_panel, TG, LESSON_PANEL, GtkBox)

/**
 * Properties:
 * "session": TgSession, nullable
 * "page": the page of the window that is shown, so that the panel can say where to go
 */
GtkWidget *tg_lesson_panel_new (void);

/* TRUE if the session's job is for a lesson. */
gboolean tg_lesson_panel_has_lesson (TgLessonPanel *panel);

/* (lends) (nullable): the page of the present step, "" if it makes no difference. */
const char *tg_lesson_panel_wants_page (TgLessonPanel *panel);

/* Unfolds it and puts the keyboard where it goes on. */
void tg_lesson_panel_focus (TgLessonPanel *panel);

G_END_DECLS
