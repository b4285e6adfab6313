/* test-review-reason.c: every finding, state, instruction and question has a reason that holds
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A reason ends with its rule and its source; every sum that it shows is worked out again from what is
 * shown.  The figures of each finding are reckoned by hand beside its case; quantiles of Student's t are
 * those of JCGM 100:2008, table G.2, where it has them.  All weights are invented.
 */
#include <math.h>
#include <string.h>

#include "fixture.h"
#include "reading-check.h"
#include "reason.h"

#define NEAR(a, b, e) g_assert_cmpfloat_with_epsilon (a, b, e)
#define MINUS "−"
#define TIMES "×"

/* 2026-03-07, midnight UTC; the clock of the bench has no offset. */
#define DAY0 G_GINT64_CONSTANT (1772841600)

/* -- reading a reason ------------------------------------------------------------------------- */

static const TgTerm *
term (const GPtrArray *why, const char *label)
{
  for (guint i = 0; i < why->len; i++)
    if (g_str_equal (((const TgTerm *) g_ptr_array_index (why, i))->label, label))
      return g_ptr_array_index (why, i);
  g_error ("no term “%s”", label);
  return NULL;
}

/* The numbers in @text; a minus sign counts to a number that follows it without a space. */
static guint
numbers (const char *text, double *values, guint most)
{
  guint n = 0;

  while (*text && n < most)
    {
      gboolean negative = g_str_has_prefix (text, MINUS) && g_ascii_isdigit (text[strlen (MINUS)]);
      const char *from = negative ? text + strlen (MINUS) : text;
      char *end;

      if (!g_ascii_isdigit (*from))
        {
          text = g_utf8_next_char (text);
          continue;
        }
      values[n] = g_ascii_strtod (from, &end);
      values[n] = negative ? -values[n] : values[n];
      n++;
      text = end;
    }
  return n;
}

static double
number_in (const GPtrArray *why, const char *label)
{
  double value[1];

  g_assert_cmpuint (numbers (term (why, label)->figure, value, 1), ==, 1);
  return value[0];
}

/* Half a unit of the last place of each number that takes part. */
static double
last_place (const char *figure)
{
  const char *point = strchr (figure, '.');
  guint decimals = 0;

  while (point && g_ascii_isdigit (point[decimals + 1]))
    decimals++;
  return pow (10, -(double) decimals);
}

/* "412.31 − 412.07 = 0.24 g" and "2.72 × 0.045 = 0.122 g" are true as they stand. */
static void
assert_sum (const TgTerm *sum)
{
  double v[4];
  guint n = numbers (sum->figure, v, G_N_ELEMENTS (v));

  if (strstr (sum->figure, " " MINUS " "))
    {
      g_assert_cmpuint (n, ==, 3);
      NEAR (v[0] - v[1], v[2],
            (strstr (sum->figure, "=") ? 1e-6 : 1.01 * last_place (sum->figure)));
    }
  else if (strstr (sum->figure, " " TIMES " ") && strstr (sum->figure, " = ") &&
           !strstr (sum->figure, "%"))
    {
      g_assert_cmpuint (n, ==, 3);
      NEAR (v[0] * v[1], v[2], 0.02 * v[2] + 1e-3);
    }
  else if (strstr (sum->figure, "√("))
    {
      /* √(a² + b²) = c */
      g_assert_cmpuint (n, ==, 3);
      NEAR (hypot (v[0], v[1]), v[2], 0.02 * v[2] + 1e-3);
    }
}

/* Figures first, then rule and source; returns @why. */
static GPtrArray *
sound (GPtrArray *why)
{
  const TgTerm *rule, *source;
  gboolean figure = FALSE;

  g_assert_nonnull (why);
  g_assert_cmpuint (why->len, >=, 3);
  rule = g_ptr_array_index (why, why->len - 2);
  source = g_ptr_array_index (why, why->len - 1);
  g_assert_cmpstr (rule->label, ==, TG_REASON_RULE);
  g_assert_cmpstr (source->label, ==, TG_REASON_SOURCE);
  g_assert_cmpuint (strlen (rule->remark), >, 20);
  g_assert_cmpuint (strlen (source->remark), >, 5);
  for (guint i = 0; i + 2 < why->len; i++)
    {
      const TgTerm *line = g_ptr_array_index (why, i);
      double value[1];

      g_assert_cmpstr (line->label, !=, "");
      g_assert_false (tg_reason_is_closing (line));
      g_assert_null (strstr (line->figure, "nan"));
      g_assert_null (strstr (line->figure, "inf"));
      figure |= numbers (line->figure, value, 1) > 0;
      assert_sum (line);
    }
  g_assert_true (figure);
  return why;
}

/* -- jobs ------------------------------------------------------------------------------------- */

static void
set (TgJob *job, const char *path, const char *value)
{
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  event.path = path;
  event.value = value;
  fixture_append (job, event);
}

/* The empty scale, or a check weight of 200 g. */
static void
look (TgJob *job, TgEventKind kind, double grams)
{
  TgEvent event = tg_event_blank (kind);

  event.stamp = (TgStamp){ DAY0 + 60 * tg_job_n_events (job), 0 };
  event.mass = tg_mass_from_g (grams);
  event.nominal = kind == TG_EVENT_CHECK_WEIGHT ? 200 * TG_MASS_G : 0;
  fixture_append (job, event);
}

static TgJob *
pistons (guint n, const double *grams)
{
  TgJob *job = tg_job_new (fixture_setup (n, FALSE, TRUE));

  for (guint i = 0; i < n; i++)
    fixture_weigh_piston (job, i + 1, grams[i]);
  return job;
}

static TgJob *
turn_job (void)
{
  TgJob *job = tg_job_new (fixture_setup (1, TRUE, FALSE));

  fixture_weigh (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 412.0);
  fixture_weigh (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_DOWN, 412.4);
  return job;
}

static TgJob *
closure_job (void)
{
  TgJob *job = tg_job_new (fixture_setup (1, TRUE, FALSE));

  fixture_weigh_rod (job, 1, 171.5, 412.0);
  fixture_weigh (job, "rod-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 583.8);
  return job;
}

/* Target 520.0 held, one piston at 519.6. */
static TgJob *
too_light_job (void)
{
  TgJob *job = pistons (3, (double[]){ 520.0, 520.9, 521.6 });

  fixture_target (job, TG_BAND_PISTON, 520.0);
  fixture_pass (job, "piston-1", "feet", 0.1);
  fixture_weigh_piston (job, 1, 519.6);
  return job;
}

/* The feet may give 2 × 300 mm² × 3 mm × 2.7 g/cm³ = 4.86 g: 530.0 comes down to 525.14 g. */
static TgJob *
out_of_reach_job (void)
{
  return pistons (3, (double[]){ 520.0, 520.0, 530.0 });
}

/* The mean of 520.1 and 520.2 is to come down to 520.0: 0.15 g, one and a half steps. */
static TgJob *
fine_job (void)
{
  TgJob *job = pistons (2, (double[]){ 520.0, 520.1 });

  fixture_weigh_piston (job, 2, 520.2);
  set (job, "tolerance.piston", "0");
  fixture_target (job, TG_BAND_PISTON, 520.0);
  return job;
}

static TgJob *
tolerance_job (void)
{
  TgJob *job = pistons (2, (double[]){ 520.0, 520.0 });

  set (job, "tolerance.piston", "0.1");
  return job;
}

static TgJob *
over_capacity_job (void)
{
  TgJob *job = pistons (1, (double[]){ 520.0 });

  set (job, "capacity", "500");
  return job;
}

static TgJob *
zone_never_job (void)
{
  TgJob *job = tg_job_new (fixture_setup (2, TRUE, FALSE));

  fixture_weigh_rod (job, 1, 172, 413);
  fixture_weigh_rod (job, 2, 171, 411);
  fixture_pass (job, "rod-1", "beam", 0.5);
  fixture_weigh_rod (job, 1, 171.75, 412.75);
  return job;
}

static TgJob *
zone_exceeded_job (void)
{
  TgJob *job = pistons (1, (double[]){ 530.0 });

  fixture_pass (job, "piston-1", "feet", 6);
  fixture_weigh_piston (job, 1, 524.0);
  return job;
}

static TgJob *
kept_job (void)
{
  TgJob *job = pistons (1, (double[]){ 520.0 });
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);

  event.part = "piston-1";
  event.figure = TG_FIGURE_WHOLE;
  event.mass = tg_mass_from_g (521.0);
  event.kept = TRUE;
  fixture_append (job, event);
  return job;
}

/* Seven pistons read twice, each 0.1 g apart; one read at 520.0 and 521.0. */
static TgJob *
outlier_job (void)
{
  TgJob *job = tg_job_new (fixture_setup (8, FALSE, TRUE));

  for (guint i = 1; i <= 8; i++)
    {
      fixture_weigh_piston (job, i, 520.0);
      fixture_weigh_piston (job, i, i == 8 ? 521.0 : 520.1);
    }
  return job;
}

/* One piston alone, read eight times. */
static TgJob *
outlier_alone_job (void)
{
  static const double grams[] = { 520.0, 520.1, 520.0, 520.1, 520.0, 520.1, 520.0, 522.0 };
  TgJob *job = tg_job_new (fixture_setup (1, FALSE, TRUE));

  for (guint i = 0; i < G_N_ELEMENTS (grams); i++)
    fixture_weigh_piston (job, 1, grams[i]);
  return job;
}

static TgJob *
zero_job (void)
{
  TgJob *job = pistons (1, (double[]){ 520.0 });

  look (job, TG_EVENT_ZERO, 2.0);
  return job;
}

static TgJob *
check_weight_job (void)
{
  TgJob *job = pistons (1, (double[]){ 520.0 });

  look (job, TG_EVENT_CHECK_WEIGHT, 203.0);
  return job;
}

static void
weigh_rod_twice (TgJob *job, guint number, double small_g, double big_g)
{
  fixture_weigh_rod (job, number, small_g, big_g);
  fixture_weigh_rod (job, number, small_g, big_g);
}

/* The shoulders lie 9 mm from the big end by the drawing; what they took says half-way. */
static TgJob *
lever_job (void)
{
  TgSetup *setup = fixture_setup (1, TRUE, FALSE);
  TgJob *job;

  setup->resolution = 10;
  job = tg_job_new (setup);
  weigh_rod_twice (job, 1, 172.0, 413.0);
  fixture_pass (job, "rod-1", "shoulders", 3);
  weigh_rod_twice (job, 1, 170.5, 411.5);
  return job;
}

/* -- findings --------------------------------------------------------------------------------- */

/* @sum: the label of the sum that must be there, with its three numbers. */
static const struct
{
  TgFindingCode code;
  TgJob *(*job) (void);
  const char *sum;
  double a, b, c;
} cases[] = {
  { TG_FINDING_TURN, turn_job, "difference", 412.0, 412.4, -0.4 },
  { TG_FINDING_CLOSURE, closure_job, "both ends − whole", 583.5, 583.8, -0.3 },
  { TG_FINDING_TOO_LIGHT, too_light_job, "below the band", 520.0, 519.6, 0.4 },
  { TG_FINDING_OUT_OF_REACH, out_of_reach_job, "above the band", 525.14, 520.5, 4.64 },
  { TG_FINDING_FINE, fine_job, NULL, 0, 0, 0 },
  { TG_FINDING_TOLERANCE, tolerance_job, "short of them by", 0.2, 0.1, 0.1 },
  { TG_FINDING_OVER_CAPACITY, over_capacity_job, "over it by", 520, 500, 20 },
  { TG_FINDING_ZONE_NEVER, zone_never_job, NULL, 0, 0, 0 },
  { TG_FINDING_ZONE_EXCEEDED, zone_exceeded_job, "more by", 6.0, 4.86, 1.14 },
  { TG_FINDING_KEPT, kept_job, "difference", 521.0, 520.5, 0.5 },
  { TG_FINDING_OUTLIER, outlier_job, "difference", 521.0, 520.0, 1.0 },
  { TG_FINDING_OUTLIER, outlier_alone_job, NULL, 0, 0, 0 },
  { TG_FINDING_ZERO, zero_job, NULL, 0, 0, 0 },
  { TG_FINDING_CHECK_WEIGHT, check_weight_job, "reading − nominal", 203.0, 200.0, 3.0 },
  { TG_FINDING_LEVER, lever_job, NULL, 0, 0, 0 },
};

static const TgFinding *
find (const TgReview *review, TgFindingCode code)
{
  for (guint i = 0; i < review->findings->len; i++)
    if (((const TgFinding *) g_ptr_array_index (review->findings, i))->code == code)
      return g_ptr_array_index (review->findings, i);
  return NULL;
}

/* Whatever else a job of this test is found to have has a sound reason, too. */
static void
assert_all_sound (const TgReview *review)
{
  for (guint i = 0; i < review->findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (review->findings, i);
      g_autoptr (GPtrArray) why = sound (tg_review_why_finding (review, finding));

      g_assert_cmpuint (why->len, >=, 3);
      NEAR (finding->held.limit,
            (finding->held.u > 0
                 ? MAX (finding->held.coverage * finding->held.u, finding->held.least)
                 : finding->held.limit),
            1e-12);
    }
  for (guint i = 0; i < review->parts->len; i++)
    g_ptr_array_unref (sound (tg_review_why_part (review, i)));
  for (guint i = 0; i < review->scale.checks->len; i++)
    g_ptr_array_unref (sound (tg_review_why_check (review, i)));
  for (TgBand b = 0; b < TG_N_BANDS; b++)
    if (review->bands[b].present)
      {
        g_autoptr (TgProof) proof = tg_review_proof (review, b);

        g_ptr_array_unref (sound (tg_review_why_band (review, b)));
        g_ptr_array_unref (sound (tg_review_why_target (review, b)));
        g_ptr_array_unref (sound (tg_review_why_proof (review, b, proof)));
      }
  for (guint i = 0; i < review->decisions->len; i++)
    {
      const TgDecision *decision = g_ptr_array_index (review->decisions, i);

      g_ptr_array_unref (sound (tg_review_why_decision (review, decision)));
      for (guint c = 0; c < decision->choices->len; c++)
        g_ptr_array_unref (
            sound (tg_review_why_choice (review, g_ptr_array_index (decision->choices, c))));
    }
}

static void
test_findings (void)
{
  gboolean seen[TG_N_FINDING_CODES] = { FALSE };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TgJob) job = cases[i].job ();
      g_autoptr (TgReview) review = tg_review_new (job);
      const TgFinding *finding = find (review, cases[i].code);
      g_autoptr (GPtrArray) why = NULL;
      double v[3];

      g_test_message ("finding %u, case %u", cases[i].code, i);
      g_assert_nonnull (finding);
      why = sound (tg_review_why_finding (review, finding));
      assert_all_sound (review);
      seen[cases[i].code] = TRUE;
      if (!cases[i].sum)
        continue;
      g_assert_cmpuint (numbers (term (why, cases[i].sum)->figure, v, 3), ==, 3);
      NEAR (v[0], cases[i].a, 1e-9);
      NEAR (v[1], cases[i].b, 1e-9);
      NEAR (v[2], cases[i].c, 1e-9);
    }
  for (guint code = 0; code < TG_N_FINDING_CODES; code++)
    g_assert_true (seen[code]);
}

static GPtrArray *
why_of (TgJob *(*make) (void), TgFindingCode code)
{
  g_autoptr (TgJob) job = make ();
  g_autoptr (TgReview) review = tg_review_new (job);

  return tg_review_why_finding (review, find (review, code));
}

/* Half a step, 0.05 g, is taken with 4 degrees of freedom: u of a difference 0.05 √2 = 0.0707 g; t of 98 %
 * at 4 is 3.747 (any table of Student's t): 0.265 g, more than one step. */
static void
test_turn_limit (void)
{
  g_autoptr (GPtrArray) why = why_of (turn_job, TG_FINDING_TURN);
  double v[3];

  NEAR (number_in (why, "standard uncertainty"), 0.0707, 1e-3);
  g_assert_cmpuint (numbers (term (why, "limit")->figure, v, 3), ==, 3);
  NEAR (v[0], 3.747, 6e-3);
  NEAR (v[2], 0.265, 1e-3);
  NEAR (number_in (why, "never below"), 0.1, 1e-9);
  g_assert_nonnull (strstr (term (why, "limit")->remark, "2 of 100"));
  g_assert_nonnull (strstr (term (why, "limit")->remark, "; 4 degrees"));
}

/* The ends, each the mean of two readings on the stand, together 0.05 g with 4 degrees of freedom, the whole
 * 0.05 g with 4 of its own: 0.0707 g, (2 × 0.05²)² / (2 × 0.05⁴/4) = 8 degrees: 3.36 (JCGM 100, table
 * G.2, 99 % at 8) × 0.0707 = 0.237 g. */
static void
test_closure_limit (void)
{
  g_autoptr (GPtrArray) why = why_of (closure_job, TG_FINDING_CLOSURE);
  double v[3];

  g_assert_cmpuint (numbers (term (why, "limit")->figure, v, 3), ==, 3);
  NEAR (v[0], 3.36, 6e-3);
  NEAR (v[1], 0.0707, 1e-3);
  NEAR (v[2], 0.237, 1e-3);
}

/* Class M1 of 200 g may be out by 10 mg (OIML R 111-1:2004, table 1): 10/√3 = 5.77 mg. */
static void
test_check_weight_terms (void)
{
  TgSetup *setup = fixture_setup (1, FALSE, TRUE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL;
  g_autoptr (GPtrArray) why = NULL;
  const TgScaleCheck *check;
  double v[2];

  setup->check_class = TG_CHECK_WEIGHT_M1;
  job = tg_job_new (setup);
  fixture_weigh_piston (job, 1, 520.0);
  look (job, TG_EVENT_CHECK_WEIGHT, 200.1);
  review = tg_review_new (job);
  check = &g_array_index (review->scale.checks, TgScaleCheck, 0);
  NEAR (check->mpe_mg, 10, 1e-9);
  NEAR (check->u_g, hypot (check->scale_u_g, check->weight_u_g), 1e-12);
  NEAR (check->doubtful_g, ceil (2 * check->u_g / 0.1 - 1e-9) * 0.1, 1e-9);
  why = sound (tg_review_why_check (review, 0));
  g_assert_cmpuint (numbers (term (why, "the weight")->figure, v, 2), ==, 2);
  NEAR (v[0], 10, 1e-9);
  g_assert_nonnull (strstr (term (why, "the weight")->figure, "= 0.0058 g"));
  NEAR (number_in (why, "doubtful beyond"), check->doubtful_g, 1e-9);
  NEAR (number_in (why, "off beyond"), check->off_g, 1e-9);
}

/* The terms of a zero are those of its limit: √(scatter² + setting²), to the last step within. */
static void
test_zero_terms (void)
{
  g_autoptr (TgJob) job = zero_job ();
  g_autoptr (TgReview) review = tg_review_new (job);
  const TgScaleCheck *check = &g_array_index (review->scale.checks, TgScaleCheck, 0);

  /* a quarter of 0.1 g, rectangular: 0.025/√3 = 0.01443 g, 1.95996 times that */
  NEAR (check->setting_g, 0.01443 * 1.95996, 1e-5);
  NEAR (check->reach_g, hypot (check->scatter_g, check->setting_g), 1e-12);
  NEAR (check->doubtful_g, floor (check->reach_g / 0.1 + 0.5) * 0.1, 1e-9);
}

/* 520.0 and seven times 520.0 or 520.1; Grubbs' critical value of 8 at 1 % two-sided is 2.2744
 * (NIST/SEMATECH e-Handbook 1.3.5.17.1, with t of 0.01/16 at 6 = 5.6 or so); the reason keeps what was
 * used. */
static void
test_grubbs_terms (void)
{
  g_autoptr (TgJob) job = outlier_alone_job ();
  g_autoptr (TgReview) review = tg_review_new (job);
  const TgFinding *finding = find (review, TG_FINDING_OUTLIER);
  double mean = (4 * 520.0 + 3 * 520.1 + 522.0) / 8, squares = 0, deviation;

  g_assert_true (finding && finding->alone);
  squares = 4 * pow (520.0 - mean, 2) + 3 * pow (520.1 - mean, 2) + pow (522.0 - mean, 2);
  deviation = sqrt (squares / 7);
  NEAR (finding->held.value, 522.0 - (4 * 520.0 + 3 * 520.1) / 7, 1e-6);
  NEAR (finding->held.u, deviation * 8 / 7, 1e-6);
  g_assert_cmpfloat (finding->held.coverage, >, 2.2);
  g_assert_cmpfloat (finding->held.coverage, <, 2.47); /* (n−1)/√n */
  g_assert_cmpfloat (finding->held.value, >, finding->held.limit);
}

/* -- states and instructions -------------------------------------------------------------------- */

static TgJob *
nothing_job (void)
{
  return tg_job_new (fixture_setup (2, FALSE, TRUE));
}

static TgJob *
half_weighed_job (void)
{
  TgJob *job = nothing_job ();

  fixture_weigh_piston (job, 1, 520.0);
  return job;
}

static TgJob *
grind_job (void)
{
  return pistons (2, (double[]){ 520.0, 522.0 });
}

static TgJob *
ground_job (void)
{
  TgJob *job = grind_job ();

  fixture_pass (job, "piston-2", "feet", 1.0);
  return job;
}

static TgJob *
even_job (void)
{
  return pistons (2, (double[]){ 520.0, 520.1 });
}

static void
test_states (void)
{
  static TgJob *(*const makers[]) (void) = { nothing_job,     half_weighed_job, grind_job,
                                             ground_job,      even_job,         too_light_job,
                                             out_of_reach_job };
  gboolean seen[TG_N_STATES] = { FALSE };

  for (guint i = 0; i < G_N_ELEMENTS (makers); i++)
    {
      g_autoptr (TgJob) job = makers[i]();
      g_autoptr (TgReview) review = tg_review_new (job);

      for (guint p = 0; p < review->parts->len; p++)
        {
          g_autoptr (GPtrArray) why = sound (tg_review_why_part (review, p));

          seen[tg_review_part (review, p)->state] = TRUE;
        }
      assert_all_sound (review);
    }
  for (guint state = 0; state < TG_N_STATES; state++)
    g_assert_true (seen[state]);
}

/* Pistons and pins of two bores, that may change hands. */
static TgJob *
pair_job (void)
{
  TgSetup *setup = fixture_setup (2, FALSE, TRUE);
  TgJob *job;

  fixture_add_family (setup, TG_PART_PIN, 0);
  job = tg_job_new (setup);
  for (guint i = 1; i <= 2; i++)
    {
      g_autofree char *pin = g_strdup_printf ("pin-%u", i);

      fixture_weigh_piston (job, i, 520.0 + i);
      fixture_weigh (job, pin, TG_FIGURE_WHOLE, TG_WAY_ANY, 110.0 + i);
    }
  return job;
}

static void
test_instructions (void)
{
  static TgJob *(*const makers[]) (void) = { nothing_job, grind_job,     ground_job,
                                             even_job,    too_light_job, pair_job };
  gboolean seen[TG_N_NEXT_KINDS] = { FALSE };

  for (guint i = 0; i < G_N_ELEMENTS (makers); i++)
    {
      g_autoptr (TgJob) job = makers[i]();
      g_autoptr (TgReview) review = tg_review_new (job);

      seen[review->next->kind] = TRUE;
      sound (review->next->why);
      for (guint p = 0; p < review->parts->len; p++)
        {
          g_autoptr (TgNext) next = tg_review_next_for (review, p);
          const TgPartReview *part = tg_review_part (review, p);

          sound (next->why);
          for (guint z = 0; z < part->zones->len && part->state != TG_STATE_UNWEIGHED; z++)
            g_ptr_array_unref (sound (tg_review_why_zone (review, p, z)));
        }
    }
  for (guint kind = 0; kind < TG_N_NEXT_KINDS; kind++)
    g_assert_true (seen[kind]);
}

/* 520.0 and 522.0, tolerance 0.5: the heavier comes down to 520.5, so 1.5 g off the set. */
static void
test_target (void)
{
  g_autoptr (TgJob) job = grind_job ();
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autoptr (GPtrArray) chosen = sound (tg_review_why_target (review, TG_BAND_PISTON));
  g_autoptr (TgReview) held = NULL;
  g_autoptr (GPtrArray) decided = NULL;

  NEAR (number_in (chosen, "target"), 520.0, 1e-9);
  NEAR (number_in (chosen, "upper edge"), 520.5, 1e-9);
  NEAR (number_in (chosen, "comes off the whole set"), 1.5, 1e-9);
  g_assert_cmpstr (term (chosen, TG_REASON_RULE)->remark, ==,
                   tg_reason_rule (TG_REASON_TARGET_CHOSEN));
  fixture_target (job, TG_BAND_PISTON, 519.8);
  held = tg_review_new (job);
  decided = sound (tg_review_why_target (held, TG_BAND_PISTON));
  NEAR (number_in (decided, "target"), 519.8, 1e-9);
  g_assert_cmpstr (term (decided, TG_REASON_RULE)->remark, ==,
                   tg_reason_rule (TG_REASON_TARGET_DECIDED));
}

/* Lowering the target to 519.6 costs 1.9 − 1.1 = 0.8 g: by today's plan 520.9 − 520.5 and 521.6 −
 * 520.5 come off, then 520.9 − 520.1 and 521.6 − 520.1. */
static void
test_choice (void)
{
  g_autoptr (TgJob) job = too_light_job ();
  g_autoptr (TgReview) review = tg_review_new (job);
  const TgDecision *decision = g_ptr_array_index (review->decisions, 0);
  gboolean lowered = FALSE;

  for (guint i = 0; i < decision->choices->len; i++)
    {
      const TgChoice *choice = g_ptr_array_index (decision->choices, i);
      g_autoptr (GPtrArray) why = sound (tg_review_why_choice (review, choice));
      double v[3];

      if (choice->extra)
        NEAR (choice->cost_g, MAX (0, choice->then_g - choice->today_g), 1e-12);
      if (!g_str_has_prefix (choice->title, "Lower the target"))
        continue;
      lowered = TRUE;
      g_assert_cmpuint (numbers (term (why, "costs")->figure, v, 3), ==, 3);
      NEAR (v[0], 2.3, 1e-9);
      NEAR (v[1], 1.5, 1e-9);
      NEAR (v[2], 0.8, 1e-9);
    }
  g_assert_true (lowered);
}

/* -- questions ---------------------------------------------------------------------------------- */

/* Whatever is asked or refused has a reason, and nothing else has. */
static void
assert_question (const TgReview *review, TgSlot slot, double grams, const char *label, double value)
{
  g_autofree char *text = NULL;
  TgMass mass = tg_mass_from_g (grams);
  TgReadingVerdict verdict = tg_reading_check (review, slot, mass, &text);
  g_autoptr (GPtrArray) why = tg_reading_why (review, slot, mass);

  if (!label)
    {
      g_assert_cmpint (verdict, ==, TG_READING_FINE);
      g_assert_cmpuint (why->len, ==, 0);
      return;
    }
  g_assert_cmpint (verdict, !=, TG_READING_FINE);
  sound (why);
  NEAR (number_in (why, label), value, 1e-9);
}

static void
test_questions (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (2, TRUE, FALSE));
  g_autoptr (TgReview) review = NULL;
  const TgSlot up = { 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP };
  const TgSlot down = { 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN };
  const TgSlot whole = { 0, TG_FIGURE_WHOLE, TG_WAY_ANY };
  const TgSlot other = { 1, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP };
  const TgSlot ground = { 1, TG_FIGURE_BIG_END, TG_WAY_MARK_UP };

  fixture_weigh (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171.6);
  fixture_weigh (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 412.0);
  fixture_weigh (job, "rod-2", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 413.0);
  fixture_pass (job, "rod-2", "cap-pad", 0.5);
  review = tg_review_new (job);
  assert_question (review, up, 171.6, NULL, 0);
  assert_question (review, up, 0, "the reading", 0);
  assert_question (review, up, 6000, "capacity", 5000);
  assert_question (review, up, 172.9, "read before, this way up", 171.6);
  assert_question (review, down, 172.9, "the other way up", 171.6);
  assert_question (review, whole, 600.0, "left by the other figures", 583.6);
  assert_question (review, other, 250.0, "mean of the others", 171.6);
  assert_question (review, ground, 415.0, "before the pass", 413.0);
  assert_question (review, up, 171.65, "step of the scale", 0.1);
}

static void
test_questions_of_the_scale (void)
{
  TgSetup *setup = fixture_setup (1, FALSE, TRUE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL;
  g_autoptr (GPtrArray) zero = NULL;
  g_autoptr (GPtrArray) weight = NULL;
  g_autoptr (GPtrArray) fine = NULL;

  setup->check_weight = 200 * TG_MASS_G;
  job = tg_job_new (setup);
  review = tg_review_new (job);
  zero = sound (tg_reading_why_zero (review, tg_mass_from_g (-7)));
  NEAR (number_in (zero, "not asked up to"), 5, 1e-9); /* 50 steps, and 5 g */
  weight = sound (tg_reading_why_weight (review, tg_mass_from_g (500)));
  NEAR (number_in (weight, "stamped on the weight"), 200, 1e-9);
  g_assert_nonnull (strstr (term (weight, "limit")->figure, "= 10.0 g")); /* 5 % of 200 g */
  fine = tg_reading_why_zero (review, 0);
  g_assert_cmpuint (fine->len, ==, 0);
}

/* -- the table ---------------------------------------------------------------------------------- */

/* Every rule is a sentence; every source is one that is published or says that it is none. */
static void
test_rules (void)
{
  static const char *const named[] = { "JCGM 10",
                                       "ISO ",
                                       "OIML R ",
                                       "NIST/",
                                       "ASTM ",
                                       "textbook",
                                       "Common practice, no published ",
                                       "A rule of this program",
                                       "plate or the manual" };

  for (TgReason reason = 0; reason < TG_N_REASONS; reason++)
    {
      const char *rule = tg_reason_rule (reason), *source = tg_reason_source (reason);
      gboolean known = FALSE;

      g_assert_nonnull (rule);
      g_assert_nonnull (source);
      g_assert_true (g_str_has_suffix (rule, "."));
      g_assert_false (g_str_has_suffix (source, "."));
      for (guint i = 0; i < G_N_ELEMENTS (named); i++)
        known |= strstr (source, named[i]) != NULL;
      g_assert_true (known);
    }
}

static void
test_sums (void)
{
  g_autofree char *exact = tg_reason_difference (412.31, 412.07, "g", 1);
  g_autofree char *wide = tg_reason_difference (520.0, 520.0 - 1.0 / 3, "g", 1);
  g_autofree char *product = tg_reason_product (3.169, 0.0707107, "g");

  g_assert_cmpstr (exact, ==, "412.31 " MINUS " 412.07 = 0.24 g");
  g_assert_cmpstr (wide, ==, "520.000 " MINUS " 519.667 = 0.333 g");
  g_assert_cmpstr (product, ==, "3.17 " TIMES " 0.0707 = 0.224 g");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/review-reason/findings", test_findings);
  g_test_add_func ("/review-reason/turn-limit", test_turn_limit);
  g_test_add_func ("/review-reason/closure-limit", test_closure_limit);
  g_test_add_func ("/review-reason/check-weight", test_check_weight_terms);
  g_test_add_func ("/review-reason/zero", test_zero_terms);
  g_test_add_func ("/review-reason/grubbs", test_grubbs_terms);
  g_test_add_func ("/review-reason/states", test_states);
  g_test_add_func ("/review-reason/instructions", test_instructions);
  g_test_add_func ("/review-reason/target", test_target);
  g_test_add_func ("/review-reason/choice", test_choice);
  g_test_add_func ("/review-reason/questions", test_questions);
  g_test_add_func ("/review-reason/questions-of-the-scale", test_questions_of_the_scale);
  g_test_add_func ("/review-reason/rules", test_rules);
  g_test_add_func ("/review-reason/sums", test_sums);
  return g_test_run ();
}
