/* lesson-text.c: small lessons for the tests, see lesson-text.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-text.h"

#include <string.h>

#include "fixture.h"

char *
lesson_text (const char *job, const char *steps)
{
  return g_strdup_printf (
      "<lesson xmlns=\"urn:tenthgram:lesson\" version=\"1\" id=\"t\" title=\"T\" "
      "minutes=\"5\">\n<goal>G.</goal>\n%s%s<learned>L.</learned>\n</lesson>\n",
      job, steps);
}

TgLesson *
lesson_text_parse (const char *steps, GError **error)
{
  g_autoptr (TgLibrary) library = tg_library_load (NULL);
  g_autofree char *text = lesson_text (LESSON_TEXT_JOB, steps);

  return tg_lesson_parse (text, strlen (text), "t.xml", library, error);
}

static TgLesson *
one_step (const char *element, const char *inner)
{
  g_autofree char *step = g_strdup_printf ("<%s id=\"s\" title=\"S\"><text>T.</text>%s</%s>\n",
                                           element, inner, element);
  g_autoptr (GError) error = NULL;
  TgLesson *lesson = lesson_text_parse (step, &error);

  g_assert_no_error (error);
  return lesson;
}

TgLesson *
lesson_text_do (const char *condition)
{
  return one_step ("do", condition);
}

TgLesson *
lesson_text_ask (const char *question)
{
  return one_step ("ask", question);
}

void
lesson_text_append (TgJob *job, TgEvent event)
{
  g_autofree char *id = g_strdup_printf ("e%u", tg_job_n_events (job));
  g_autoptr (GError) error = NULL;

  event.id = id;
  event.practice = TRUE;
  event.stamp = (TgStamp){ 1780000000 + 10 * tg_job_n_events (job), 60 };
  tg_job_append (job, &event, &error);
  g_assert_no_error (error);
}

void
lesson_text_weigh (TgJob *job, const char *part, TgFigure figure, TgWay way, double grams)
{
  lesson_text_append (job, fixture_reading (part, figure, way, grams));
}

void
lesson_text_weigh_rod (TgJob *job, const char *part, double small_g, double big_g)
{
  for (TgWay way = TG_WAY_MARK_UP; way <= TG_WAY_MARK_DOWN; way++)
    {
      lesson_text_weigh (job, part, TG_FIGURE_SMALL_END, way, small_g);
      lesson_text_weigh (job, part, TG_FIGURE_BIG_END, way, big_g);
    }
}

void
lesson_text_pass (TgJob *job, const char *part, const char *zone, double wanted_g)
{
  TgEvent event = tg_event_blank (TG_EVENT_PASS);

  event.part = part;
  event.zone = zone;
  event.tool = TG_TOOL_FILE;
  event.mass = tg_mass_from_g (wanted_g);
  lesson_text_append (job, event);
}
