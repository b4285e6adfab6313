/* test-debrief-lines.c: each fault made on purpose is named, and none where it was not made
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Jobs put together by hand; what a reading is off by, and what a pass took, is set here or follows from
 * the bench by plain arithmetic.
 */
#include <math.h>
#include <string.h>

#include "debrief-case.h"
#include "debrief-private.h"
#include "practice-replay.h"

/* One reading at a bench with these faults that is off by @off_g; the line it gets, or NULL. */
typedef struct
{
  TgJob *job;
  TgDebrief *debrief;
  const TgDebriefLine *line;
} Reading;

static void
reading_clear (Reading *reading)
{
  tg_debrief_free (reading->debrief);
  tg_job_free (reading->job);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Reading, reading_clear)

static Reading
judge (TgJob *job)
{
  Reading reading = { .job = job, .debrief = case_debrief (job) };

  reading.line = case_line (reading.debrief, TG_DEBRIEF_WRONG, case_last (job), "");
  return reading;
}

static Reading
read_off (TgPracticeFaults faults, double off_g)
{
  TgSetup *setup = case_setup (2, FALSE);
  TgJob *job;

  setup->practice.faults = faults;
  job = tg_job_new (setup);
  case_zero (job, 0, TRUE);
  case_read (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, off_g);
  return judge (job);
}

static gboolean
says (const TgDebriefLine *line, const char *words)
{
  return line && strstr (line->text, words);
}

#define ASSERT_SAYS(line, words) g_assert_true (says (line, words))

/* -- readings that were wrong ------------------------------------------------------------------------ */

/* Half a step and 3.29 u of scatter and flicker are explained; the zero is honest here. */
static void
test_explained (void)
{
  const TgPracticeFaults faults = { .scatter_g = 0.3, .flicker_g = 0.4 };
  g_auto (Reading) within = read_off (faults, 1.6); /* 0.05 + 3.29 × 0.5 = 1.695 */
  g_auto (Reading) beyond = read_off (faults, 1.8);

  g_assert_null (within.line);
  g_assert_cmpuint (within.debrief->wrong, ==, 0);
  g_assert_nonnull (case_line (within.debrief, TG_DEBRIEF_WRONG, -1, "right"));
  g_assert_nonnull (beyond.line);
  g_assert_cmpuint (beyond.debrief->wrong, ==, 1);
  g_assert_null (case_line (beyond.debrief, TG_DEBRIEF_WRONG, -1, "right"));
}

static void
test_bearing (void)
{
  const TgPracticeFaults faults = { .catch_g = 0.8, .catch_share = 1 };
  g_autoptr (TgJob) blank = tg_job_new (case_setup (2, FALSE));
  const TgSlot slot = { 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP };
  g_autoptr (TgPracticeBench) bench = NULL;
  double catch_g;

  bench = tg_practice_bench_new (tg_job_setup (blank), "seed of the tests", 1, &faults);
  catch_g = tg_practice_bench_catches_g (bench, &slot);
  g_assert_cmpfloat (fabs (catch_g), ==, 0.8);
  {
    g_auto (Reading) caught = read_off (faults, catch_g);
    g_auto (Reading) other = read_off (faults, -catch_g);
    g_auto (Reading) half = read_off (faults, catch_g / 2);

    ASSERT_SAYS (caught.line, "not rocked free");
    g_assert_nonnull (strstr (caught.line->careful, "rocks"));
    g_assert_false (says (other.line, "not rocked free"));
    ASSERT_SAYS (half.line, "more than scatter and drift explain");
  }
}

/* One way up catches and the other does not: what reads like the one was not turned over. */
static void
test_not_turned (void)
{
  const TgPracticeFaults faults = { .catch_g = 0.8, .catch_share = 0.5 };
  guint tried = 0;

  for (guint i = 0; i < 40; i++)
    {
      TgSetup *setup = case_setup (2, FALSE);
      g_autoptr (TgPracticeBench) bench = NULL;
      TgSlot up = { 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP }, down = up;
      TgJob *job;

      g_free (setup->practice.seed);
      setup->practice.seed = g_strdup_printf ("turned %u", i);
      setup->practice.faults = faults;
      job = tg_job_new (setup);
      bench = tg_practice_replay (job, 0);
      down.way = TG_WAY_MARK_DOWN;
      if (tg_practice_bench_catches_g (bench, &up) == 0 ||
          tg_practice_bench_catches_g (bench, &down) != 0)
        {
          tg_job_free (job);
          continue;
        }
      case_zero (job, 0, TRUE);
      case_read (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN,
                 tg_practice_bench_catches_g (bench, &up));
      {
        g_auto (Reading) reading = judge (job);

        ASSERT_SAYS (reading.line, "mark up");
        ASSERT_SAYS (reading.line, "not turned over");
      }
      tried++;
    }
  g_assert_cmpuint (tried, >, 3);
}

static void
test_touch (void)
{
  const TgPracticeFaults faults = { .touch_g = 1.2, .touch_share = 0.1 };
  const TgPracticeFaults none = { .touch_g = 1.2 };
  g_auto (Reading) touched = read_off (faults, -1.2);
  g_auto (Reading) above = read_off (faults, 1.2);
  g_auto (Reading) never = read_off (none, -1.2);

  ASSERT_SAYS (touched.line, "touched something");
  ASSERT_SAYS (above.line, "more than scatter and drift explain");
  g_assert_false (says (never.line, "touched"));
}

/* The display is right, and what is typed is another figure. */
static TgMass
shown (const TgJob *job, TgFigure figure)
{
  return (TgMass) round (case_truth (job, "rod-1", figure) * 10) * 100;
}

/* The digits before and after the point, or the first two, where they differ. */
static TgMass
swapped (TgMass mass)
{
  g_autofree char *text = tg_mass_format (mass, 1);
  gsize a = strlen (text) - 1, b = a - 2;
  char digit;
  TgMass out;

  if (text[a] == text[b])
    a = 1, b = 0;
  digit = text[a];
  text[a] = text[b];
  text[b] = digit;
  g_assert_true (tg_mass_parse (text, &out, NULL));
  g_assert_cmpint (out, !=, mass);
  return out;
}

static void
test_slips (void)
{
  static const char *const words[] = { "two digits were swapped", "the decimal point slipped",
                                       "that is what its big end weighs" };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      TgJob *job = tg_job_new (case_setup (2, FALSE));
      TgMass right = shown (job, TG_FIGURE_SMALL_END);

      case_zero (job, 0, TRUE);
      case_read_mass (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP,
                      i == 0   ? swapped (right)
                      : i == 1 ? 10 * right
                               : shown (job, TG_FIGURE_BIG_END));
      {
        g_auto (Reading) reading = judge (job);

        ASSERT_SAYS (reading.line, words[i]);
        g_assert_cmpint (reading.line->verdict, ==, TG_DEBRIEF_POOR);
      }
    }
}

/* The bench itself shows what a display does on its way. */
static void
test_haste (void)
{
  TgJob *job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgPracticeBench) bench = tg_practice_replay (job, 0);
  const TgSlot slot = { 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP };
  double load = tg_practice_bench_truth (bench, 0, TG_FIGURE_SMALL_END), most = 0;
  TgMass early;

  tg_practice_bench_lay (bench, &slot);
  early = tg_practice_bench_display (bench, 900);
  for (guint ms = 0; ms < TG_PRACTICE_SETTLED_MS; ms++)
    most = fmax (most, tg_mass_to_g (tg_practice_bench_display (bench, ms)) - load);
  g_assert_cmpfloat (most, <=, TG_DEBRIEF_OVERSWING * load + 0.05);
  g_assert_cmpfloat (most, >=, TG_DEBRIEF_OVERSWING * load - 0.15);
  case_zero (job, 0, TRUE);
  case_read_mass (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, early);
  {
    g_auto (Reading) reading = judge (job);

    ASSERT_SAYS (reading.line, "before it had settled");
  }
}

/* Readings follow the zero: where looks show its way it is no error, where nobody looked it is. */
static void
test_zero (void)
{
  for (guint looked = 0; looked < 2; looked++)
    {
      TgSetup *setup = case_setup (2, FALSE);
      TgJob *job;

      setup->practice.faults.drift_g = 0.06;
      setup->practice.faults.scatter_g = 0.01;
      job = tg_job_new (setup);
      case_zero (job, 0, TRUE);
      for (guint i = 0; i < 35; i++)
        case_read (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 0.04 * i);
      case_read (job, "rod-2", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 1.4);
      {
        int moment = case_last (job);
        g_auto (Reading) reading = { .job = job };
        const TgDebriefLine *line;

        if (looked)
          case_zero (job, 1400, TRUE);
        reading.debrief = case_debrief (job);
        line = case_line (reading.debrief, TG_DEBRIEF_WRONG, moment, "");
        g_assert_true (looked == (line == NULL));
        if (!looked)
          ASSERT_SAYS (line, "zero ran away");
      }
    }
}

/* A scale that was set to zero in haste shows what no zero can have come to. */
static void
test_hasty_zero (void)
{
  TgJob *job = tg_job_new (case_setup (2, FALSE));
  TgMass load = shown (job, TG_FIGURE_SMALL_END);

  case_read_mass (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, load);
  case_zero (job, -(load / 1000), TRUE);
  {
    g_auto (Reading) reading = judge (job);

    ASSERT_SAYS (reading.line, "not come to rest");
    g_assert_cmpuint (reading.debrief->wrong, ==, 1);
  }
}

static void
test_struck_reading (void)
{
  TgJob *job = tg_job_new (case_setup (2, FALSE));
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

  case_zero (job, 0, TRUE);
  case_read (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 3);
  strike.refers = tg_job_event (job, 1)->id;
  case_append (job, strike);
  {
    g_auto (Reading) reading = judge (job);

    g_assert_cmpuint (reading.debrief->wrong, ==, 0);
    g_assert_cmpuint (reading.debrief->readings, ==, 0);
  }
}

/* -- too few, too many ---------------------------------------------------------------------------------- */

static void
test_too_few (void)
{
  for (guint all = 0; all < 2; all++)
    {
      TgSetup *setup = case_setup (2, FALSE);
      g_autoptr (TgJob) job = NULL;
      g_autoptr (TgDebrief) debrief = NULL;
      int moment;

      setup->repeats = 2;
      job = tg_job_new (setup);
      case_zero (job, 0, TRUE);
      case_read_all (job);
      case_read_all (job);
      if (!all)
        {
          TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

          strike.refers = tg_job_event (job, 1)->id; /* rod 1, small end, mark up */
          case_append (job, strike);
        }
      case_pass (job, "rod-1", "small-pad", 0.1, 10);
      moment = case_last (job);
      debrief = case_debrief (job);
      g_assert_true (all == (case_line (debrief, TG_DEBRIEF_READINGS, moment,
                                        "was ground with 1 reading missing") == NULL));
      g_assert_nonnull (case_line (debrief, TG_DEBRIEF_READINGS, moment,
                                   "ends with 8 readings missing since its last pass"));
      g_assert_null (case_line (debrief, TG_DEBRIEF_READINGS, -1, "Rod 2"));
    }
}

static void
test_too_many (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgDebrief) calm = NULL;
  g_autoptr (TgDebrief) debrief = NULL;

  case_zero (job, 0, TRUE);
  case_read_all (job);
  calm = case_debrief (job);
  g_assert_cmpuint (case_n_lines (calm, TG_DEBRIEF_READINGS, TG_DEBRIEF_FAIR), ==, 0);
  case_read (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 0);
  debrief = case_debrief (job);
  g_assert_nonnull (case_line (debrief, TG_DEBRIEF_READINGS, case_last (job), "nothing called"));
}

/* The two ways up differ: then one more is called for. */
static void
test_called_for (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgDebrief) debrief = NULL;

  case_zero (job, 0, TRUE);
  case_read_all (job);
  case_read (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 4); /* without need */
  case_read (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 0); /* in doubt */
  debrief = case_debrief (job);
  g_assert_null (case_line (debrief, TG_DEBRIEF_READINGS, case_last (job), ""));
  g_assert_nonnull (
      case_line (debrief, TG_DEBRIEF_READINGS, case_last (job) - 1, "nothing called"));
}

/* -- warnings --------------------------------------------------------------------------------------------- */

static void
test_kept (void)
{
  for (guint wrong = 0; wrong < 2; wrong++)
    {
      g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
      g_autoptr (TgDebrief) debrief = NULL;
      TgEvent reading = tg_event_blank (TG_EVENT_WEIGHING);

      case_zero (job, 0, TRUE);
      reading.part = "rod-1";
      reading.way = TG_WAY_MARK_UP;
      reading.mass = shown (job, TG_FIGURE_SMALL_END) + (wrong ? 2000 : 0);
      reading.kept = TRUE;
      case_append (job, reading);
      debrief = case_debrief (job);
      g_assert_nonnull (case_line (debrief, TG_DEBRIEF_WARNINGS, case_last (job),
                                   wrong ? "the reading was wrong" : "it was right"));
      g_assert_cmpuint (debrief->ignored, ==, wrong);
    }
}

static void
test_doubt_and_zero (void)
{
  for (guint careless = 0; careless < 2; careless++)
    {
      g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
      g_autoptr (TgDebrief) debrief = NULL;

      if (!careless)
        case_zero (job, 0, TRUE);
      case_read_all (job);
      if (careless)
        case_read (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 6);
      case_pass (job, "rod-1", "small-pad", 0.1, 10);
      case_pass (job, "rod-1", "small-pad", 0.1, 10);
      debrief = case_debrief (job);
      g_assert_true (careless == (case_line (debrief, TG_DEBRIEF_WARNINGS, case_last (job) - 1,
                                             "in doubt") != NULL));
      g_assert_true (careless == (case_line (debrief, TG_DEBRIEF_WARNINGS, case_last (job) - 1,
                                             "empty scale") != NULL));
      g_assert_null (case_line (debrief, TG_DEBRIEF_WARNINGS, case_last (job), "empty scale"));
    }
}

/* A check weight that is off by 3 g, and work goes on or a second look comes first. */
static void
test_check_off (void)
{
  for (guint again = 0; again < 2; again++)
    {
      TgSetup *setup = case_setup (2, FALSE);
      g_autoptr (TgJob) job = NULL;
      g_autoptr (TgDebrief) debrief = NULL;
      TgEvent check = tg_event_blank (TG_EVENT_CHECK_WEIGHT);

      setup->check_weight = 500 * TG_MASS_G;
      job = tg_job_new (setup);
      case_zero (job, 0, TRUE);
      check.nominal = 500 * TG_MASS_G;
      check.mass = 503 * TG_MASS_G;
      case_append (job, check);
      check.mass = check.nominal;
      if (again)
        case_append (job, check);
      case_read (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 0);
      debrief = case_debrief (job);
      g_assert_true (again == (case_line (debrief, TG_DEBRIEF_WARNINGS, case_last (job),
                                          "which is off, and work went on") == NULL));
    }
}

/* A target above every rod makes them all too light: something to decide. */
static void
test_left_open (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgDebrief) before = NULL;
  g_autoptr (TgDebrief) debrief = NULL;
  TgEvent target = tg_event_blank (TG_EVENT_TARGET);

  case_zero (job, 0, TRUE);
  case_read_all (job);
  before = case_debrief (job);
  g_assert_null (case_line (before, TG_DEBRIEF_WARNINGS, -1, "Left open"));
  g_assert_nonnull (case_line (before, TG_DEBRIEF_WARNINGS, -1, "No warning"));
  for (TgBand band = TG_BAND_ROD_SMALL; band <= TG_BAND_ROD_BIG; band++)
    {
      target.band = band;
      target.mass = tg_mass_from_g (case_truth (job, "rod-1", tg_band_figure (band)) + 5);
      case_append (job, target);
    }
  debrief = case_debrief (job);
  g_assert_nonnull (case_line (debrief, TG_DEBRIEF_WARNINGS, -1, "Left open"));
}

/* -- places --------------------------------------------------------------------------------------------- */

static void
test_places (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgDebrief) debrief = NULL;
  TgEvent set = tg_event_blank (TG_EVENT_SET);

  case_zero (job, 0, TRUE);
  case_read_all (job);
  case_pass (job, "rod-1", "small-pad", 0.1, 5);
  case_pass (job, "rod-1", "beam", 0.1, 5);
  case_pass (job, "rod-1", "sides", 0.1, 5);
  set.path = "rod.sides.use";
  set.value = "yes";
  case_append (job, set);
  case_pass (job, "rod-1", "sides", 0.1, 5);
  debrief = case_debrief (job);
  g_assert_cmpuint (debrief->forbidden, ==, 2);
  g_assert_cmpuint (case_n_lines (debrief, TG_DEBRIEF_ZONES, TG_DEBRIEF_GOOD), ==, 2);
  g_assert_nonnull (case_line (debrief, TG_DEBRIEF_ZONES, case_last (job) - 3, "nothing may ever"));
  g_assert_nonnull (case_line (debrief, TG_DEBRIEF_ZONES, case_last (job) - 2, "needs care"));
}

/* 300 mm² × 2 mm × 7.85 g/cm³ = 4.71 g: the pass that goes past it is named, the ones around it are not. */
static void
test_depth (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgPracticeBench) bench = tg_practice_replay (job, 0);
  double rate = tg_practice_bench_rate (bench, 0, TG_TOOL_FILE);
  g_autoptr (TgDebrief) debrief = NULL;
  guint most = (guint) floor (4.71 / rate);

  case_zero (job, 0, TRUE);
  case_read_all (job);
  case_pass (job, "rod-1", "small-pad", 0.1, most);
  case_pass (job, "rod-1", "small-pad", 0.1, 2);
  case_pass (job, "rod-1", "small-pad", 0.1, 2);
  debrief = case_debrief (job);
  g_assert_cmpuint (case_n_lines (debrief, TG_DEBRIEF_ZONES, TG_DEBRIEF_POOR), ==, 1);
  g_assert_nonnull (case_line (debrief, TG_DEBRIEF_ZONES, case_last (job) - 1, "4.71 g"));
}

static void
test_time_words (void)
{
  static const struct
  {
    gint64 seconds;
    const char *words;
  } cases[] = { { 0, "0 min" },          { 29, "0 min" },        { 90, "2 min" },
                { 120 * 60, "120 min" }, { 121 * 60, "2 h" },    { 47 * 3600, "47 h" },
                { 49 * 3600, "2 days" }, { 86400 * 9, "9 days" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *words = tg_debrief_time_words (cases[i].seconds);

      g_assert_cmpstr (words, ==, cases[i].words);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/debrief-lines/explained", test_explained);
  g_test_add_func ("/debrief-lines/bearing", test_bearing);
  g_test_add_func ("/debrief-lines/not-turned", test_not_turned);
  g_test_add_func ("/debrief-lines/touch", test_touch);
  g_test_add_func ("/debrief-lines/slips", test_slips);
  g_test_add_func ("/debrief-lines/haste", test_haste);
  g_test_add_func ("/debrief-lines/zero", test_zero);
  g_test_add_func ("/debrief-lines/hasty-zero", test_hasty_zero);
  g_test_add_func ("/debrief-lines/struck-reading", test_struck_reading);
  g_test_add_func ("/debrief-lines/too-few", test_too_few);
  g_test_add_func ("/debrief-lines/too-many", test_too_many);
  g_test_add_func ("/debrief-lines/called-for", test_called_for);
  g_test_add_func ("/debrief-lines/kept", test_kept);
  g_test_add_func ("/debrief-lines/doubt-and-zero", test_doubt_and_zero);
  g_test_add_func ("/debrief-lines/check-off", test_check_off);
  g_test_add_func ("/debrief-lines/left-open", test_left_open);
  g_test_add_func ("/debrief-lines/places", test_places);
  g_test_add_func ("/debrief-lines/depth", test_depth);
  g_test_add_func ("/debrief-lines/time-words", test_time_words);
  return g_test_run ();
}
