/* test-review-random.c: whatever a person does, the review stays sane
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Thousands of journals are made up from a seed: readings near and far from the truth, passes before
 * any reading and on zones that must not be ground, decisions and their strikes, refined values,
 * clocks that go backwards.  Whatever the job takes in is reviewed, and every review is held against
 * what must be true of any: figures are finite, no amount exceeds what its zone can give, none lies
 * on a zone or part that is not to be ground, a feasible plan ends in its bands.  The weights after
 * the plan are reckoned here from the lever rule alone: a gram off at d lowers the small end by d/L
 * and the big end by 1 − d/L (moments about either support; any text on statics).  All data are
 * invented.
 */
#include <math.h>
#include <string.h>

#include "fixture.h"
#include "job-xml.h"
#include "reading-check.h"
#include "report.h"

#define N_JOURNALS 1500
#define N_EVENTS 60
#define SLACK_G 1e-6

/* How often what matters came up: a run that meets none of it has tested nothing. */
typedef struct
{
  guint planned, feasible, out_of_reach, too_light, choices, again, fine, even;
} Met;

typedef struct
{
  GRand *rand;
  Met *met;
} Run;

static gboolean
chance (Run *run, double p)
{
  return g_rand_double (run->rand) < p;
}

static guint
pick (Run *run, guint n)
{
  return (guint) g_rand_int_range (run->rand, 0, (gint32) n);
}

/* -- a setup and a journal at random ----------------------------------------------------------- */

static void
shake_design (Run *run, TgDesign *design)
{
  for (guint z = 0; z < design->zones->len; z++)
    {
      TgZone *zone = tg_design_zone (design, z);

      if (chance (run, 0.2))
        zone->capacity = g_rand_int_range (run->rand, 0, 4000);
      if (chance (run, 0.2))
        zone->preference = g_rand_double_range (run->rand, 0.01, 20);
      if (chance (run, 0.1) && design->kind == TG_PART_ROD)
        zone->offset_mm = g_rand_double_range (run->rand, -30, 30);
      if (zone->standing == TG_STANDING_WITH_CARE && chance (run, 0.3))
        zone->use = TG_USE_YES;
      else if (chance (run, 0.1))
        zone->use = TG_USE_NO;
    }
}

static TgSetup *
random_setup (Run *run)
{
  static const guint cylinders[] = { 1, 2, 3, 4, 6 };
  static const TgMass steps[] = { 1, 10, 50, 100, 500, 1000 };
  static const TgMass tolerances[] = { 1, 20, 100, 500, 500, 1000, 3000 };
  guint what = pick (run, 3);
  TgSetup *setup = fixture_setup (cylinders[pick (run, G_N_ELEMENTS (cylinders))], what != 0,
                                  what != 1);

  setup->resolution = chance (run, 0.6) ? 100 : steps[pick (run, G_N_ELEMENTS (steps))];
  for (guint b = 0; b < TG_N_BANDS; b++)
    setup->tolerance[b] = tolerances[pick (run, G_N_ELEMENTS (tolerances))];
  for (guint d = 0; d < setup->designs->len; d++)
    shake_design (run, g_ptr_array_index (setup->designs, d));
  return setup;
}

/* Near the truth of a set, now and then a slip. */
static TgMass
random_reading (Run *run, TgPartKind kind, TgFigure figure, TgMass step)
{
  double grams = kind == TG_PART_PISTON          ? 520
                 : figure == TG_FIGURE_SMALL_END ? 171
                 : figure == TG_FIGURE_BIG_END   ? 411
                                                 : 582;

  grams += g_rand_double_range (run->rand, -2, 2);
  if (chance (run, 0.02))
    grams *= chance (run, 0.5) ? 10 : 0.1;
  if (chance (run, 0.005))
    return TG_MASS_MAX;
  if (chance (run, 0.005))
    return 1;
  return MAX (1, chance (run, 0.95) ? (TgMass) (grams * 1000 / (double) step) * step
                                    : (TgMass) (grams * 1000));
}

static void
random_set (Run *run, TgEvent *event)
{
  static const char *const values[][2] = {
    { "tolerance.rod-small", "0.2" },
    { "tolerance.rod-big", "0" },
    { "tolerance.rod-big", "0.3" },
    { "tolerance.rod-small", "2" },
    { "tolerance.piston", "0.001" },
    { "tolerance.piston", "1.5" },
    { "resolution", "0.01" },
    { "resolution", "0.1" },
    { "resolution", "1" },
    { "capacity", "100" },
    { "capacity", "0" },
    { "rod.centres", "140" },
    { "rod.centres", "152.4" },
    { "rod.centres", "90" },
    { "rod.density", "4.5" },
    { "rod.cap-pad.depth", "0" },
    { "rod.cap-pad.capacity", "9" },
    { "rod.small-pad.area", "0" },
    { "rod.sides.use", "yes" },
    { "rod.sides.use", "default" },
    { "rod.shoulders.use", "no" },
    { "rod.beam.use", "yes" },
    { "rod.cap-pad.offset", "-12.5" },
    { "rod.shoulders.preference", "1000" },
    { "piston.skirt.use", "yes" },
    { "piston.feet.depth", "0.5" },
    { "piston.feet.capacity", "0.3" },
    { "name", "Other" },
    { "rod.beam.offset", "500" },
    { "rod.small-pad.offset", "-500" },
  };
  guint i = pick (run, G_N_ELEMENTS (values));

  event->path = values[i][0];
  event->value = values[i][1];
}

static TgEventKind
random_kind (Run *run)
{
  static const TgEventKind kinds[] = { TG_EVENT_PASS,   TG_EVENT_PASS,   TG_EVENT_PASS,
                                       TG_EVENT_PASS,   TG_EVENT_TARGET, TG_EVENT_FREEZE,
                                       TG_EVENT_FREEZE, TG_EVENT_SET,    TG_EVENT_STRIKE,
                                       TG_EVENT_STRIKE, TG_EVENT_NOTE,   TG_EVENT_REPLACE };

  return chance (run, 0.55) ? TG_EVENT_WEIGHING : kinds[pick (run, G_N_ELEMENTS (kinds))];
}

static TgEvent
random_event (Run *run, const TgJob *job)
{
  const TgSetup *setup = tg_job_setup (job);
  const TgPart *part = tg_setup_part (setup, pick (run, setup->parts->len));
  gboolean rod = part->design->kind == TG_PART_ROD;
  TgEvent event = tg_event_blank (random_kind (run));

  event.part = part->id;
  event.kept = chance (run, 0.1);
  event.on = chance (run, 0.6);
  event.zone = tg_design_zone (part->design, pick (run, part->design->zones->len))->id;
  event.tool = pick (run, TG_N_TOOLS);
  event.band = pick (run, TG_N_BANDS);
  event.automatic = chance (run, 0.4);
  if (event.kind == TG_EVENT_WEIGHING)
    {
      event.figure = rod ? (chance (run, 0.1) ? TG_FIGURE_WHOLE : pick (run, 2)) : TG_FIGURE_WHOLE;
      event.way = event.figure == TG_FIGURE_WHOLE ? TG_WAY_ANY : TG_WAY_MARK_UP + pick (run, 2);
      event.mass = random_reading (run, part->design->kind, event.figure, setup->resolution);
    }
  else if (event.kind == TG_EVENT_PASS)
    event.mass = chance (run, 0.1) ? 0 : g_rand_int_range (run->rand, 0, 2500);
  else if (event.kind == TG_EVENT_TARGET)
    event.mass = random_reading (run, tg_band_kind (event.band), tg_band_figure (event.band),
                                 setup->resolution);
  else if (event.kind == TG_EVENT_SET)
    random_set (run, &event);
  else if (event.kind == TG_EVENT_STRIKE)
    event.refers = tg_job_n_events (job) == 0
                       ? "none"
                       : tg_job_event (job, pick (run, tg_job_n_events (job)))->id;
  return event;
}

/* Appends one more event; what the job refuses is tried as another. */
static void
append_random (Run *run, TgJob *job)
{
  for (;;)
    {
      TgEvent event = random_event (run, job);
      g_autoptr (GError) error = NULL;
      g_autofree char *id = g_strdup_printf ("e%u", tg_job_n_events (job));

      event.id = id;
      event.who = "tester";
      event.stamp = (TgStamp){ 1772900000 + 3600 * (gint64) tg_job_n_events (job), 60 };
      if (chance (run, 0.05))
        event.stamp.seconds -= 400000;
      if (tg_job_append (job, &event, &error))
        return;
      g_assert_true (error != NULL && error->message[0] != '\0');
    }
}

/* The first readings of every part, so that most journals come as far as a plan. */
static void
weigh_all (Run *run, TgJob *job)
{
  const TgSetup *setup = tg_job_setup (job);

  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);
      gboolean rod = part->design->kind == TG_PART_ROD;

      if (chance (run, 0.02))
        continue;
      for (guint f = rod ? 0 : TG_FIGURE_WHOLE; f < (rod ? 2 : TG_N_FIGURES); f++)
        fixture_weigh (
            job, part->id, f, rod ? TG_WAY_MARK_UP : TG_WAY_ANY,
            tg_mass_to_g (random_reading (run, part->design->kind, f, setup->resolution)));
    }
}

/* -- what must be true of any review ----------------------------------------------------------- */

static void
check_finite (const double *values, guint n)
{
  for (guint i = 0; i < n; i++)
    g_assert_true (isfinite (values[i]));
}

static void
check_weights (const TgPartReview *part)
{
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      const TgWeight *weight = &part->weight[f];

      check_finite (&weight->mean_g, 1);
      check_finite (&weight->turn_g, 1);
      check_finite (weight->way_g, TG_N_WAYS);
      if (weight->basis == TG_WEIGHT_NONE)
        g_assert_cmpfloat (weight->mean_g, ==, 0);
    }
  check_finite (&part->closure_g, 1);
}

static void
check_zone (const TgPartReview *part, const TgZoneReview *zone)
{
  double all[] = { zone->amount_g, zone->depth_mm, zone->at_most_g, zone->taken_g, zone->left_g };

  check_finite (all, G_N_ELEMENTS (all));
  g_assert_cmpfloat (zone->amount_g, >=, 0);
  g_assert_cmpfloat (zone->depth_mm, >=, 0);
  g_assert_cmpfloat (zone->taken_g, >=, 0);
  g_assert_cmpfloat (zone->left_g, >=, 0);
  g_assert_cmpfloat (zone->amount_g, <=, zone->left_g + SLACK_G);
  if (zone->amount_g > 0)
    {
      g_assert_cmpint (zone->zone->standing, !=, TG_STANDING_NEVER);
      g_assert_true (tg_zone_usable (zone->zone));
      g_assert_false (part->frozen);
      g_assert_cmpfloat (zone->at_most_g, >=, zone->amount_g - SLACK_G);
    }
}

static gboolean
in_band (const TgBandReview *band, double grams)
{
  return grams >= band->target_g - SLACK_G && grams <= band->target_g + band->tolerance_g + SLACK_G;
}

/* Takes the planned amounts off by the lever rule and looks where the weights end. */
static void
check_ends_in_band (const TgReview *review, const TgPartReview *part)
{
  double small = part->weight[TG_FIGURE_SMALL_END].mean_g;
  double big = part->weight[TG_FIGURE_BIG_END].mean_g;
  double whole = part->weight[TG_FIGURE_WHOLE].mean_g;

  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);
      double d = zone->lever.lever;

      whole -= zone->amount_g;
      if (part->design->kind != TG_PART_ROD)
        continue;
      small -= zone->amount_g * d;
      big -= zone->amount_g * (1 - d);
    }
  if (part->design->kind == TG_PART_PISTON)
    {
      g_assert_true (in_band (&review->bands[TG_BAND_PISTON], whole));
      return;
    }
  g_assert_true (in_band (&review->bands[TG_BAND_ROD_SMALL], small));
  g_assert_true (in_band (&review->bands[TG_BAND_ROD_BIG], big));
}

static void
check_part (const TgReview *review, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);
  TgBand band = part->design->kind == TG_PART_ROD ? TG_BAND_ROD_SMALL : TG_BAND_PISTON;
  double sum = 0, step = tg_mass_to_g (review->setup->resolution);

  check_weights (part);
  check_finite (part->plan.after_g, TG_PLAN_MAX_ROWS);
  check_finite (part->plan.violation_g, TG_PLAN_MAX_ROWS);
  check_finite (part->plan.amount_g, TG_PLAN_MAX_ZONES);
  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);

      check_zone (part, zone);
      sum += zone->amount_g;
      if (part->plan.status != TG_PLAN_FINE)
        g_assert_cmpfloat (fabs (zone->amount_g - round (zone->amount_g / step) * step), <,
                           SLACK_G);
    }
  g_assert_cmpfloat (fabs (sum - part->to_come_off_g), <, SLACK_G);
  g_assert_nonnull (tg_state_label (part->state));
  if (review->bands[band].known && review->feasible[part->design->kind] &&
      part->state != TG_STATE_UNWEIGHED)
    check_ends_in_band (review, part);
  if (part->state == TG_STATE_EVEN || part->state == TG_STATE_UNWEIGHED)
    g_assert_cmpfloat (part->to_come_off_g, ==, 0);
}

static void
check_bands (const TgReview *review)
{
  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      const TgBandReview *band = &review->bands[b];
      double all[] = { band->target_g, band->tolerance_g, band->lightest_g, band->heaviest_g,
                       band->spread_g };

      check_finite (all, G_N_ELEMENTS (all));
      g_assert_cmpfloat (band->spread_g, >=, 0);
      g_assert_cmpuint (band->n_in, <=, band->n_weighed);
      g_assert_cmpuint (band->n_weighed, <=, band->n_parts);
      if (band->even)
        g_assert_cmpfloat (band->spread_g, <=, band->tolerance_g + SLACK_G);
    }
  check_finite (review->least_metal_g, TG_N_PART_KINDS);
}

static void
check_next (const TgReview *review, const TgNext *next)
{
  double all[] = { next->amount_g, next->at_most_g, next->pass_g, next->depth_mm };

  check_finite (all, G_N_ELEMENTS (all));
  g_assert_cmpuint (next->slot.part, <, review->parts->len);
  g_assert_true (g_utf8_validate (next->title, -1, NULL));
  g_assert_true (g_utf8_validate (next->large, -1, NULL));
  g_assert_true (g_utf8_validate (next->detail, -1, NULL));
  if (next->kind == TG_NEXT_DECIDE)
    g_assert_cmpuint (next->decision, <, review->decisions->len);
  if (next->kind != TG_NEXT_GRIND)
    return;
  g_assert_cmpfloat (next->amount_g, >, 0);
  g_assert_cmpfloat (next->pass_g, >, 0);
  g_assert_cmpfloat (next->pass_g, <=, MAX (next->amount_g, next->at_most_g) + SLACK_G);
}

/* Each way out can be appended and leads to a review that is sane too. */
static void
check_decisions (const TgReview *review)
{
  for (guint i = 0; i < review->decisions->len; i++)
    {
      const TgDecision *decision = g_ptr_array_index (review->decisions, i);

      g_assert_true (g_utf8_validate (decision->title, -1, NULL));
      g_assert_true (g_utf8_validate (decision->text, -1, NULL));
      for (guint c = 0; c < decision->choices->len; c++)
        {
          const TgChoice *choice = g_ptr_array_index (decision->choices, c);

          g_assert_true (isfinite (choice->cost_g) && choice->cost_g >= 0);
          g_assert_true (g_utf8_validate (choice->title, -1, NULL));
          g_assert_cmpuint (choice->events->len, >, 0);
        }
    }
}

/* RFC 4180, section 2: records of equally many fields, quotes doubled inside quotes. Gives the
 * number of records. */
static guint
parse_csv (const char *text)
{
  guint records = 0, fields = 1, wanted = 0;
  gboolean quoted = FALSE;

  for (const char *p = text; *p; p++)
    {
      if (*p == '"')
        {
          quoted = !quoted;
          continue;
        }
      if (quoted)
        continue;
      if (*p == ',')
        fields++;
      if (*p != '\n')
        continue;
      if (records == 0)
        wanted = fields;
      g_assert_cmpuint (fields, ==, wanted);
      records++;
      fields = 1;
    }
  g_assert_false (quoted);
  return records;
}

/* A proof takes milliseconds and a text has one for each band: the texts of every twelfth journal. */
static gboolean
spelt_out (const TgJob *job)
{
  return tg_job_n_events (job) % 12 == 0;
}

static void
check_texts (const TgReview *review, const TgJob *job)
{
  g_autofree char *check = spelt_out (job) ? tg_report_check (review) : g_strdup ("");
  g_autofree char *plan = spelt_out (job) ? tg_report_plan (review) : g_strdup ("");
  g_autofree char *csv = tg_report_plan_csv (review);
  const char *const texts[] = { check, plan, csv };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *lower = g_ascii_strdown (texts[i], -1);

      g_assert_true (g_utf8_validate (texts[i], -1, NULL));
      g_assert_null (strstr (lower, "nan"));
      g_assert_null (strstr (lower, "-0.0 "));
    }
  g_assert_null (strstr (csv, "inf,"));
  g_assert_cmpuint (parse_csv (csv), >, review->parts->len);
  for (guint i = 0; i < tg_job_n_events (job); i++)
    {
      g_autofree char *sentence = tg_report_event (review, tg_job_event (job, i));

      g_assert_true (g_utf8_validate (sentence, -1, NULL));
      g_assert_cmpint (sentence[0], !=, '\0');
    }
}

/* The window says that the set is even if and only if it is. */
static void
check_done (const TgReview *review)
{
  gboolean all = TRUE;

  for (guint i = 0; i < review->parts->len; i++)
    all &= tg_review_part (review, i)->state == TG_STATE_EVEN;
  g_assert_true (review->next->kind != TG_NEXT_DONE || all);
  g_assert_true (!review->done || all);
  for (guint b = 0; b < TG_N_BANDS; b++)
    g_assert_true (!review->done || !review->bands[b].present || review->bands[b].even);
}

static void
check_review (const TgReview *review, const TgJob *job)
{
  check_bands (review);
  for (guint i = 0; i < review->parts->len; i++)
    {
      g_autoptr (TgNext) next = tg_review_next_for (review, i);

      check_part (review, i);
      check_next (review, next);
      for (guint z = 0; z < tg_review_part (review, i)->zones->len; z++)
        g_ptr_array_unref (tg_review_why_zone (review, i, z));
    }
  check_next (review, review->next);
  check_done (review);
  check_decisions (review);
  check_texts (review, job);
}

static void
check_reading_questions (Run *run, const TgReview *review)
{
  TgSlot slot;

  if (!tg_review_next_slot (review, NULL, TRUE, &slot))
    slot = review->next->slot;
  for (guint i = 0; i < 3; i++)
    {
      TgPartKind kind = tg_review_part (review, slot.part)->design->kind;
      g_autofree char *text = NULL;
      TgReadingVerdict verdict = tg_reading_check (
          review, slot, random_reading (run, kind, slot.figure, 100), &text);

      g_assert_true ((verdict == TG_READING_FINE) == (text == NULL));
      g_assert_true (!text || g_utf8_validate (text, -1, NULL));
    }
}

static void
check_same_again (const TgReview *review, const TgJob *job)
{
  g_autoptr (TgReview) again = tg_review_new (job);
  g_autofree char *one = tg_report_plan_csv (review);
  g_autofree char *two = tg_report_plan_csv (again);
  g_autofree char *check_one = spelt_out (job) ? tg_report_check (review) : NULL;
  g_autofree char *check_two = spelt_out (job) ? tg_report_check (again) : NULL;

  g_assert_cmpstr (one, ==, two);
  g_assert_cmpstr (check_one, ==, check_two);
}

/* The job as it comes back from its file. */
static TgJob *
through_a_file (const TgJob *job)
{
  g_autoptr (GString) text = tg_job_xml_format (job);
  g_autoptr (GError) error = NULL;
  TgJob *copy = tg_job_xml_parse (text->str, text->len, "random.tenthgram", &error);

  g_assert_no_error (error);
  return copy;
}

/* Every way out that is offered can be taken; one whose cost is known brings its part within reach. */
static void
check_ways_out (const TgReview *review, const TgJob *job)
{
  for (guint i = 0; i < review->decisions->len; i++)
    {
      const TgDecision *decision = g_ptr_array_index (review->decisions, i);

      for (guint c = 0; c < decision->choices->len; c++)
        {
          const TgChoice *choice = g_ptr_array_index (decision->choices, c);
          g_autoptr (TgJob) copy = through_a_file (job);
          g_autoptr (TgReview) after = NULL;

          for (guint e = 0; e < choice->events->len; e++)
            fixture_append (copy, g_array_index (choice->events, TgEvent, e));
          after = tg_review_new (copy);
          check_review (after, copy);
          if (choice->extra &&
              tg_review_part (after, (guint) decision->part)->plan.status == TG_PLAN_UNREACHABLE)
            g_error ("%s: “%s” does not help", decision->title, choice->title);
        }
    }
}

/* Once every figure is read after all that was done, nothing asks for a reading any more. */
static void
check_readings_settle (const TgReview *review, const TgJob *job)
{
  g_autoptr (TgJob) copy = through_a_file (job);
  g_autoptr (TgReview) after = NULL;

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPart *part = tg_review_part (review, i)->part;
      guint number = part->bore;

      if (part->design->kind == TG_PART_ROD)
        fixture_weigh_rod (copy, number, 171, 411);
      else
        fixture_weigh_piston (copy, number, 520);
    }
  after = tg_review_new (copy);
  for (guint i = 0; i < after->parts->len; i++)
    {
      TgState state = tg_review_part (after, i)->state;

      g_assert_cmpint (state, !=, TG_STATE_UNWEIGHED);
      g_assert_cmpint (state, !=, TG_STATE_WAITING);
      g_assert_cmpint (state, !=, TG_STATE_WEIGH_AGAIN);
    }
  g_assert_cmpint (after->next->kind, !=, TG_NEXT_WEIGH);
}

static void
count (Met *met, const TgReview *review)
{
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      gboolean known = review->bands[kind == TG_PART_ROD ? TG_BAND_ROD_BIG : TG_BAND_PISTON].known;

      met->feasible += known && review->feasible[kind] && review->least_metal_g[kind] > 0;
    }
  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);

      met->planned += part->state == TG_STATE_TO_GRIND;
      met->out_of_reach += part->state == TG_STATE_OUT_OF_REACH;
      met->too_light += part->state == TG_STATE_TOO_LIGHT;
      met->again += part->state == TG_STATE_WEIGH_AGAIN;
      met->even += part->state == TG_STATE_EVEN;
      met->fine += part->plan.status == TG_PLAN_FINE;
    }
  for (guint i = 0; i < review->decisions->len; i++)
    met->choices += ((const TgDecision *) g_ptr_array_index (review->decisions, i))->choices->len;
}

static void
run_journal (guint32 seed, Met *met)
{
  Run run = { g_rand_new_with_seed (seed), met };
  g_autoptr (TgJob) job = tg_job_new (random_setup (&run));
  guint n = 1 + pick (&run, N_EVENTS), shown = pick (&run, n);

  if (g_test_verbose ())
    g_test_message ("journal %u", seed);
  if (chance (&run, 0.8))
    weigh_all (&run, job);
  for (guint i = 0; i < n; i++)
    {
      append_random (&run, job);
      if (i == shown || i + 1 == n)
        {
          g_autoptr (TgReview) review = tg_review_new (job);

          check_review (review, job);
          count (met, review);
          check_reading_questions (&run, review);
          if (i + 1 == n)
            {
              check_same_again (review, job);
              check_ways_out (review, job);
              check_readings_settle (review, job);
            }
        }
    }
  g_rand_free (run.rand);
}

static void
test_journals (void)
{
  const char *only = g_getenv ("TG_TEST_SEED");
  Met met = { 0 };

  if (only) /* one journal that failed, once more */
    {
      run_journal ((guint32) g_ascii_strtoull (only, NULL, 10), &met);
      return;
    }
  for (guint32 seed = 1; seed <= N_JOURNALS; seed++)
    run_journal (seed, &met);
  g_test_message ("to grind %u, feasible sets %u, out of reach %u, too light %u, weigh again %u, "
                  "even %u, finer than a step %u, ways out %u",
                  met.planned, met.feasible, met.out_of_reach, met.too_light, met.again, met.even,
                  met.fine, met.choices);
  g_assert_cmpuint (met.planned, >, 300);
  g_assert_cmpuint (met.feasible, >, 100);
  g_assert_cmpuint (met.out_of_reach, >, 100);
  g_assert_cmpuint (met.too_light, >, 100);
  g_assert_cmpuint (met.again, >, 100);
  g_assert_cmpuint (met.even, >, 100);
  g_assert_cmpuint (met.choices, >, 300);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/review-random/journals", test_journals);
  return g_test_run ();
}
