/* debrief-case.c: see debrief-case.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "debrief-case.h"

#include <math.h>
#include <string.h>

#include "fixture.h"
#include "practice-replay.h"
#include "reason.h"

TgSetup *
case_setup (guint cylinders, gboolean pistons)
{
  TgSetup *setup = fixture_setup (cylinders, TRUE, pistons);

  g_free (setup->name);
  setup->name = g_strdup ("Practice set");
  tg_practice_set (&setup->practice, "seed of the tests");
  setup->practice.spread_g = 1;
  return setup;
}

void
case_append_after (TgJob *job, TgEvent event, guint seconds)
{
  guint n = tg_job_n_events (job);
  g_autofree char *id = g_strdup_printf ("c%u", n);
  g_autoptr (GError) error = NULL;

  event.id = event.id[0] ? event.id : id;
  event.who = "Tester";
  event.practice = TRUE;
  event.stamp = (TgStamp){ 1790000000, 60 };
  if (n > 0)
    event.stamp.seconds = tg_job_event (job, n - 1)->stamp.seconds + seconds;
  tg_job_append (job, &event, &error);
  g_assert_no_error (error);
}

void
case_append (TgJob *job, TgEvent event)
{
  case_append_after (job, event, 30);
}

TgDebrief *
case_debrief (const TgJob *job)
{
  TgDebrief *debrief = tg_debrief_new (job);

  for (guint i = 0; i < debrief->lines->len; i++)
    {
      const GPtrArray *why = ((TgDebriefLine *) g_ptr_array_index (debrief->lines, i))->why;

      g_assert_cmpuint (why->len, >, 2);
      for (guint t = 0; t < why->len; t++)
        {
          const TgTerm *term = g_ptr_array_index (why, t);

          g_assert_true (tg_reason_is_closing (term) == (t + 2 >= why->len));
          g_assert_true (term->figure[0] != '\0' || term->remark[0] != '\0');
        }
    }
  return debrief;
}

double
case_truth (const TgJob *job, const char *part, TgFigure figure)
{
  g_autoptr (TgPracticeBench) bench = tg_practice_replay (job, tg_job_n_events (job));
  guint index;

  g_assert_nonnull (tg_setup_find_part (tg_job_setup (job), part, &index));
  return tg_practice_bench_truth (bench, index, figure);
}

void
case_read_mass (TgJob *job, const char *part, TgFigure figure, TgWay way, TgMass mass)
{
  TgEvent reading = tg_event_blank (TG_EVENT_WEIGHING);

  reading.part = part;
  reading.figure = figure;
  reading.way = way;
  reading.mass = mass;
  case_append (job, reading);
}

void
case_read (TgJob *job, const char *part, TgFigure figure, TgWay way, double off_g)
{
  TgMass step = tg_job_setup (job)->resolution;
  double grams = case_truth (job, part, figure) + off_g;

  case_read_mass (job, part, figure, way, (TgMass) round (grams * 1000 / (double) step) * step);
}

void
case_read_all (TgJob *job)
{
  const TgSetup *setup = tg_job_setup (job);

  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);

      if (part->design->kind != TG_PART_ROD)
        case_read (job, part->id, TG_FIGURE_WHOLE, TG_WAY_ANY, 0);
      else
        for (TgFigure figure = TG_FIGURE_SMALL_END; figure <= TG_FIGURE_BIG_END; figure++)
          for (TgWay way = TG_WAY_MARK_UP; way <= TG_WAY_MARK_DOWN; way++)
            case_read (job, part->id, figure, way, 0);
    }
}

void
case_zero (TgJob *job, TgMass shown, gboolean set_back)
{
  TgEvent zero = tg_event_blank (TG_EVENT_ZERO);

  zero.mass = shown;
  zero.set_back = set_back;
  case_append (job, zero);
}

void
case_pass (TgJob *job, const char *part, const char *zone, double wanted_g, guint seconds)
{
  TgEvent pass = tg_event_blank (TG_EVENT_PASS);

  pass.part = part;
  pass.zone = zone;
  pass.mass = tg_mass_from_g (wanted_g);
  pass.tool = TG_TOOL_FILE;
  pass.effort = TG_EFFORT_SECONDS;
  pass.count = seconds;
  case_append (job, pass);
}

const TgDebriefLine *
case_line (const TgDebrief *debrief, TgDebriefTopic topic, int event, const char *words)
{
  for (guint i = 0; i < debrief->lines->len; i++)
    {
      const TgDebriefLine *line = g_ptr_array_index (debrief->lines, i);

      if (line->topic == topic && line->event == event && strstr (line->text, words))
        return line;
    }
  return NULL;
}

guint
case_n_lines (const TgDebrief *debrief, TgDebriefTopic topic, TgDebriefVerdict at_least)
{
  guint n = 0;

  for (guint i = 0; i < debrief->lines->len; i++)
    {
      const TgDebriefLine *line = g_ptr_array_index (debrief->lines, i);

      n += line->topic == topic && line->verdict >= at_least;
    }
  return n;
}

int
case_last (const TgJob *job)
{
  return (int) tg_job_n_events (job) - 1;
}
