/* test-lesson-condition.c: when practical steps are done, one condition after the other
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each case says what is done to a job and when, by that, the condition begins to hold.
 */
#include "lesson-condition.h"

#include "build.h"
#include "lesson-text.h"

typedef struct
{
  TgLesson *lesson;
  TgJob *job;
} Case;

static Case
begin (const char *condition)
{
  Case c = { .lesson = lesson_text_do (condition) };

  c.job = tg_lesson_new_job (c.lesson, (TgStamp){ 1780000000, 60 }, "");
  return c;
}

static void
end (Case *c)
{
  tg_job_free (c->job);
  tg_lesson_free (c->lesson);
}

static char *
missing (const Case *c)
{
  g_autoptr (TgReview) review = tg_review_new (c->job);

  return tg_lesson_condition_missing (
      g_ptr_array_index (tg_lesson_step (c->lesson, 0)->conditions, 0), c->job, review);
}

static void
assert_missing (const Case *c, const char *text)
{
  g_autofree char *said = missing (c);

  g_assert_cmpstr (said, ==, text);
}

static void
read_end (Case *c, TgWay way)
{
  lesson_text_weigh (c->job, "rod-1", TG_FIGURE_SMALL_END, way, 250);
}

static void
strike_last (Case *c)
{
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

  strike.refers = tg_job_event (c->job, tg_job_n_events (c->job) - 1)->id;
  lesson_text_append (c->job, strike);
}

static void
weigh_all (Case *c, double piston_2)
{
  lesson_text_weigh_rod (c->job, "rod-1", 250, 600);
  lesson_text_weigh_rod (c->job, "rod-2", 250.1, 600.1);
  lesson_text_weigh (c->job, "piston-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 400);
  lesson_text_weigh (c->job, "piston-2", TG_FIGURE_WHOLE, TG_WAY_ANY, piston_2);
  lesson_text_weigh (c->job, "pin-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 100);
  lesson_text_weigh (c->job, "pin-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 100);
}

static void
test_readings (void)
{
  Case both = begin ("<readings part=\"rod-1\" figure=\"small-end\" way=\"both\"/>");
  Case twice = begin ("<readings part=\"rod-1\" figure=\"small-end\" at-least=\"2\"/>");
  Case down = begin ("<readings part=\"rod-1\" figure=\"small-end\" way=\"mark-down\"/>");
  Case ends = begin ("<readings part=\"rod-1\"/>");
  Case pins = begin ("<readings kind=\"pin\"/>");

  assert_missing (&both, "Rod 1, small end, both ways up: 0 of 1 reading");
  read_end (&both, TG_WAY_MARK_UP);
  read_end (&both, TG_WAY_MARK_UP);
  assert_missing (&both, "Rod 1, small end, both ways up: 0 of 1 reading");
  read_end (&both, TG_WAY_MARK_DOWN);
  assert_missing (&both, NULL);
  strike_last (&both);
  assert_missing (&both, "Rod 1, small end, both ways up: 0 of 1 reading");

  read_end (&twice, TG_WAY_MARK_UP);
  assert_missing (&twice, "Rod 1, small end: 1 of 2 readings");
  read_end (&twice, TG_WAY_MARK_UP);
  assert_missing (&twice, NULL);
  lesson_text_pass (twice.job, "rod-1", "small-pad", 0.2);
  assert_missing (&twice, "Rod 1, small end: 0 of 2 readings");

  read_end (&down, TG_WAY_MARK_UP);
  assert_missing (&down, "Rod 1, small end, mark down: 0 of 1 reading");
  read_end (&down, TG_WAY_MARK_DOWN);
  assert_missing (&down, NULL);

  read_end (&ends, TG_WAY_MARK_UP);
  assert_missing (&ends, "Rod 1, big end: 0 of 1 reading");
  lesson_text_weigh (ends.job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 600);
  assert_missing (&ends, NULL);

  lesson_text_weigh (pins.job, "pin-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 100);
  assert_missing (&pins, "Pin 2, weight: 0 of 1 reading");
  lesson_text_weigh (pins.job, "pin-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 100);
  assert_missing (&pins, NULL);
  end (&both);
  end (&twice);
  end (&down);
  end (&ends);
  end (&pins);
}

static void
test_all_read (void)
{
  Case c = begin ("<all-read/>");

  assert_missing (&c, "Rod 1, small end, mark up is still to be read");
  weigh_all (&c, 400.1);
  assert_missing (&c, NULL);
  end (&c);
}

static void
test_scale (void)
{
  Case zero = begin ("<zero at-least=\"2\"/>");
  Case weight = begin ("<check-weight/>");
  Case repeats = begin ("<repeatability/>");
  TgEvent look = tg_event_blank (TG_EVENT_ZERO), lay = tg_event_blank (TG_EVENT_CHECK_WEIGHT);

  lesson_text_append (zero.job, look);
  assert_missing (&zero, "The empty scale was looked at and set to zero 0 of 2 times");
  look.set_back = TRUE;
  lesson_text_append (zero.job, look);
  lesson_text_append (zero.job, look);
  assert_missing (&zero, NULL);

  assert_missing (&weight, "The check weight was laid on 0 of 1 times");
  lay.nominal = lay.mass = 200 * TG_MASS_G;
  lesson_text_append (weight.job, lay);
  assert_missing (&weight, NULL);

  assert_missing (&repeats, "Too few readings were repeated to say how well the scale repeats");
  for (guint i = 0; i < 6; i++)
    lesson_text_weigh (repeats.job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP,
                       250 + 0.1 * (i % 3));
  assert_missing (&repeats, NULL);
  end (&zero);
  end (&weight);
  end (&repeats);
}

static void
test_passes (void)
{
  Case any = begin ("<passes at-least=\"2\"/>");
  Case there = begin ("<passes part=\"rod-1\" zone=\"cap-pad\"/>");
  Case never = begin ("<never-kept/>");
  g_autofree char *said = NULL;

  lesson_text_pass (any.job, "rod-1", "cap-pad", 0.1);
  assert_missing (&any, "1 of 2 passes made");
  lesson_text_pass (any.job, "piston-1", "boss-feet", 0.1);
  assert_missing (&any, NULL);
  strike_last (&any);
  assert_missing (&any, "1 of 2 passes made");

  lesson_text_pass (there.job, "rod-1", "small-pad", 0.1);
  lesson_text_pass (there.job, "rod-2", "cap-pad", 0.1);
  assert_missing (&there, "0 of 1 pass made");
  lesson_text_pass (there.job, "rod-1", "cap-pad", 0.1);
  assert_missing (&there, NULL);

  lesson_text_pass (never.job, "rod-1", "small-pad", 0.1);
  assert_missing (&never, NULL);
  lesson_text_pass (never.job, "rod-2", "beam", 0.1);
  assert_missing (&never, "Rod 2 was ground at a place where none ever is, web of the beam. That "
                          "cannot be undone: begin the lesson anew");
  strike_last (&never);
  said = missing (&never);
  g_assert_nonnull (said);
  end (&any);
  end (&there);
  end (&never);
}

static void
test_decisions (void)
{
  Case target = begin ("<target band=\"piston\"/>");
  Case paired = begin ("<paired/>");
  Case decided = begin ("<decided/>");
  TgEvent event = tg_event_blank (TG_EVENT_TARGET), pair = tg_event_blank (TG_EVENT_PAIR);
  g_autoptr (TgReview) review = NULL;
  g_autofree char *said = NULL;

  weigh_all (&target, 401);
  assert_missing (&target, "No target is decided for the piston sets");
  event.band = TG_BAND_PISTON;
  event.mass = 500 * TG_MASS_G;
  lesson_text_append (target.job, event);
  assert_missing (&target, NULL);
  event.automatic = TRUE;
  lesson_text_append (target.job, event);
  assert_missing (&target, "No target is decided for the piston sets");

  assert_missing (&paired, "No pairing was accepted yet");
  pair.places = "pin-1:2 pin-2:1";
  lesson_text_append (paired.job, pair);
  assert_missing (&paired, NULL);

  /* piston 2 was ground below the target that was held */
  weigh_all (&decided, 401);
  assert_missing (&decided, NULL);
  event.automatic = FALSE;
  lesson_text_append (decided.job, event);
  lesson_text_pass (decided.job, "piston-2", "boss-feet", 0.5);
  lesson_text_weigh (decided.job, "piston-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 398);
  said = missing (&decided);
  g_assert_true (g_str_has_prefix (said, "To be decided: "));
  review = tg_review_new (decided.job);
  {
    const TgDecision *decision = g_ptr_array_index (review->decisions, 0);
    const TgChoice *choice = g_ptr_array_index (decision->choices, 0);

    for (guint i = 0; i < choice->events->len; i++)
      lesson_text_append (decided.job, g_array_index (choice->events, TgEvent, i));
  }
  assert_missing (&decided, NULL);
  end (&target);
  end (&paired);
  end (&decided);
}

/* The two ways up of an end differ by more than a bench explains. */
static void
test_doubt (void)
{
  Case c = begin ("<no-doubt part=\"rod-1\"/>");
  Case other = begin ("<no-doubt part=\"rod-2\"/>");
  g_autofree char *said = NULL;

  read_end (&c, TG_WAY_MARK_UP);
  lesson_text_weigh (c.job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, 252);
  said = missing (&c);
  g_assert_true (g_str_has_prefix (said, "Still in doubt: Rod 1, small end"));
  strike_last (&c);
  assert_missing (&c, NULL);

  read_end (&other, TG_WAY_MARK_UP);
  lesson_text_weigh (other.job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, 252);
  assert_missing (&other, NULL);
  end (&c);
  end (&other);
}

static void
test_bands (void)
{
  Case even = begin ("<even band=\"piston\"/>");
  Case proven = begin ("<proven band=\"piston\"/>");
  Case done = begin ("<done/>");
  Case *const cases[] = { &even, &proven, &done };
  g_autofree char *said = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    weigh_all (cases[i], 402);
  assert_missing (&even, "The piston sets are not even yet: 1 of 2");
  assert_missing (&proven, "The piston sets are not proven even yet: 0 of 2");
  said = missing (&done);
  g_assert_true (g_str_has_prefix (said, "The set is not done: "));
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      lesson_text_pass (cases[i]->job, "piston-2", "boss-feet", 1.9);
      lesson_text_weigh (cases[i]->job, "piston-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 400.1);
    }
  assert_missing (&even, NULL);
  assert_missing (&done, NULL);
  /* many readings that agree leave little doubt */
  for (guint i = 0; i < 12; i++)
    for (guint part = 0; part < 4; part++)
      {
        static const char *const parts[] = { "piston-1", "piston-2", "pin-1", "pin-2" };
        static const double grams[] = { 400, 400.1, 100, 100 };

        lesson_text_weigh (proven.job, parts[part], TG_FIGURE_WHOLE, TG_WAY_ANY, grams[part]);
      }
  assert_missing (&proven, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    end (cases[i]);
}

static void
tick_bore (TgJob *job, guint bore)
{
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autoptr (TgBuild) build = tg_build_new (job, review);
  const TgBuildCard *card = tg_build_card (build, bore);

  for (guint i = 0; i < card->ticks->len; i++)
    {
      TgEvent event = tg_event_blank (TG_EVENT_TICK);
      TgPartKind kind;

      event.check = g_array_index (card->ticks, TgBuildTick, i).check;
      event.bore = bore;
      if (tg_build_check_kind (event.check, &kind))
        event.part = tg_setup_at_bore (review->setup, kind, bore)->id;
      lesson_text_append (job, event);
    }
}

static void
test_ticks (void)
{
  Case one = begin ("<ticks bore=\"1\"/>");
  Case all = begin ("<ticks/>");
  g_autofree char *said = missing (&one);

  g_assert_true (g_str_has_prefix (said, "Bore 1: 0 of "));
  tick_bore (one.job, 1);
  assert_missing (&one, NULL);
  tick_bore (all.job, 1);
  g_free (said);
  said = missing (&all);
  g_assert_true (g_str_has_prefix (said, "Bore 2: 0 of "));
  tick_bore (all.job, 2);
  assert_missing (&all, NULL);
  end (&one);
  end (&all);
}

/* Steps of the lesson that are struck out do not count. */
static void
test_struck (void)
{
  Case c = begin ("<struck/>");
  TgEvent step = tg_event_blank (TG_EVENT_STEP);

  step.path = "s";
  lesson_text_append (c.job, step);
  strike_last (&c);
  assert_missing (&c, "0 of 1 entry struck out");
  read_end (&c, TG_WAY_MARK_UP);
  assert_missing (&c, "0 of 1 entry struck out");
  strike_last (&c);
  assert_missing (&c, NULL);
  end (&c);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lesson-condition/readings", test_readings);
  g_test_add_func ("/lesson-condition/all-read", test_all_read);
  g_test_add_func ("/lesson-condition/scale", test_scale);
  g_test_add_func ("/lesson-condition/passes", test_passes);
  g_test_add_func ("/lesson-condition/decisions", test_decisions);
  g_test_add_func ("/lesson-condition/doubt", test_doubt);
  g_test_add_func ("/lesson-condition/bands", test_bands);
  g_test_add_func ("/lesson-condition/ticks", test_ticks);
  g_test_add_func ("/lesson-condition/struck", test_struck);
  return g_test_run ();
}
