/* lesson-text.h: small lessons for the tests, and readings of their jobs
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All figures are invented.
 */
#pragma once

#include "lesson.h"

/* Rods of 150 mm, pistons with pins, two cylinders, a step of 0.1 g, a check weight. */
#define LESSON_TEXT_JOB                                                                            \
  "<job cylinders=\"2\" step=\"0.1\">\n"                                                           \
  "<family kind=\"rod\" design=\"rod-i\"/>\n"                                                      \
  "<family kind=\"piston\" design=\"piston-full\"/>\n"                                             \
  "<family kind=\"pin\"/>\n"                                                                       \
  "<set path=\"check-weight\" value=\"200\"/>\n"                                                   \
  "<bench seed=\"test\" spread=\"0.8\"/>\n"                                                        \
  "</job>\n"

/* (transfer full): the file; the job begins at line 3, the steps follow it. */
char *lesson_text (const char *job, const char *steps);

/* (transfer full) (nullable): of the steps @steps over LESSON_TEXT_JOB, as if it were called t.xml */
TgLesson *lesson_text_parse (const char *steps, GError **error);

/* (transfer full): a lesson of one practical step with @condition, or one question; it must be good. */
TgLesson *lesson_text_do (const char *condition);
TgLesson *lesson_text_ask (const char *question);

/* Appends at the practice bench with a fresh id; the event must be accepted. */
void lesson_text_append (TgJob *job, TgEvent event);
void lesson_text_weigh (TgJob *job, const char *part, TgFigure figure, TgWay way, double grams);
/* Both ways up of both ends alike. */
void lesson_text_weigh_rod (TgJob *job, const char *part, double small_g, double big_g);
void lesson_text_pass (TgJob *job, const char *part, const char *zone, double wanted_g);
