/* test-review-random.c: whatever a person does, the review stays sane
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Thousands of journals are made up from a seed: readings near and far from the truth, passes before
 * any reading and on zones that must not be ground, decisions and their strikes, refined values,
 * pairings and rules, clocks that go backwards.  Whatever the job takes in is reviewed, and every review is held against
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

#define N_JOURNALS 1200
#define N_EVENTS 60
#define SLACK_G 1e-6

/* How often what matters came up: a run that meets none of it has tested nothing. */
typedef struct
{
  guint planned, feasible, out_of_reach, too_light, choices, again, fine, even, sums;
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

/* Parts that are only weighed, with spares, in the sums or not. */
static void
add_families (Run *run, TgSetup *setup)
{
  for (TgPartKind kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    {
      if (chance (run, 0.5))
        fixture_add_family (setup, kind, chance (run, 0.3) ? pick (run, 4) : 0);
      setup->left_out[kind] = chance (run, 0.2);
    }
  setup->small_ends = pick (run, TG_N_SMALL_ENDS);
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
  if (chance (run, 0.4))
    add_families (run, setup);
  return setup;
}

/* Near the truth of a set, now and then a slip. */
static TgMass
random_reading (Run *run, TgPartKind kind, TgFigure figure, TgMass step)
{
  static const double weights[TG_N_PART_KINDS] = { 582, 520, 98, 41, 12, 30 };
  double grams = figure == TG_FIGURE_SMALL_END ? 171
                 : figure == TG_FIGURE_BIG_END ? 411
                                               : weights[kind];

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
    { "sum.pin", "no" },
    { "sum.clips", "yes" },
    { "sum.bearings", "no" },
    { "sum.rod", "only" },
    { "sum.rod", "both" },
    { "sum.rod", "no" },
    { "crankpins", "banks" },
  };
  guint i = pick (run, G_N_ELEMENTS (values));

  event->path = values[i][0];
  event->value = values[i][1];
}

/* (transfer full): some families dealt out anew; now and then one that cannot be. */
static char *
random_places (Run *run, const TgSetup *setup)
{
  g_autoptr (TgSetup) dealt = tg_setup_copy (setup);
  guint kinds = 1 + pick (run, (1u << TG_N_PART_KINDS) - 1);
  g_autofree char *places = NULL;

  for (guint i = dealt->parts->len; i-- > 1;)
    {
      TgPart *one = tg_setup_part (dealt, i), *other = tg_setup_part (dealt, pick (run, i + 1));
      guint bore = one->bore;

      if (one->design->kind != other->design->kind)
        continue;
      one->bore = other->bore;
      other->bore = chance (run, 0.03) ? pick (run, setup->cylinders + 2) : bore;
    }
  places = tg_setup_places (dealt, kinds);
  return chance (run, 0.05) ? g_strconcat (places, " crank:1", NULL) : g_steal_pointer (&places);
}

static TgEventKind
random_kind (Run *run)
{
  static const TgEventKind kinds[] = { TG_EVENT_PASS,   TG_EVENT_PASS,   TG_EVENT_PASS,
                                       TG_EVENT_PASS,   TG_EVENT_TARGET, TG_EVENT_FREEZE,
                                       TG_EVENT_FREEZE, TG_EVENT_SET,    TG_EVENT_STRIKE,
                                       TG_EVENT_STRIKE, TG_EVENT_NOTE,   TG_EVENT_REPLACE,
                                       TG_EVENT_PAIR,   TG_EVENT_RULE };

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
  event.zone = part->design->zones->len == 0
                   ? "none"
                   : tg_design_zone (part->design, pick (run, part->design->zones->len))->id;
  event.rule = pick (run, TG_N_RULES);
  event.other = tg_setup_part (setup, pick (run, setup->parts->len))->id;
  event.bore = pick (run, setup->cylinders + 2);
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
      g_autofree char *places = random_places (run, tg_job_setup (job));

      event.id = id;
      event.places = places;
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

/* What @figure of part @index weighs when the planned amounts are off by the lever rule; 0 for -1. */
static double
weight_then (const TgReview *review, int index, TgFigure figure)
{
  const TgPartReview *part;
  double grams;

  if (index < 0)
    return 0;
  part = tg_review_part (review, (guint) index);
  grams = part->weight[figure].mean_g;
  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);
      double d = zone->lever.lever;

      grams -= zone->amount_g * (figure == TG_FIGURE_WHOLE       ? 1
                                 : figure == TG_FIGURE_SMALL_END ? d
                                                                 : 1 - d);
    }
  return grams;
}

static gboolean
is_known (const TgReview *review, int index, TgFigure figure)
{
  return index >= 0 &&
         tg_review_part (review, (guint) index)->weight[figure].basis != TG_WEIGHT_NONE;
}

/* Adds to @grams what goes with a band at a bore; FALSE if some of it is not there or not known. */
static gboolean
add_carried (const TgReview *review, const TgSetReview *set, TgBand band, double *grams)
{
  gboolean known = TRUE;

  for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      TgFigure figure = kind == TG_PART_ROD ? TG_FIGURE_SMALL_END : TG_FIGURE_WHOLE;

      if (kind == TG_PART_PISTON || !tg_setup_in_sum (review->setup, kind) ||
          (kind == TG_PART_BEARINGS) != (band == TG_BAND_ROD_BIG) || band == TG_BAND_ROD_SMALL)
        continue;
      known &= is_known (review, set->part[kind], figure);
      *grams += weight_then (review, set->part[kind], figure);
    }
  return known;
}

/* TRUE if the set can become even in @band as planned. */
static gboolean
is_planned (const TgReview *review, TgBand band)
{
  gboolean joint = review->setup->small_ends == TG_SMALL_ENDS_SUM &&
                   tg_setup_has_kind (review->setup, TG_PART_ROD) &&
                   tg_setup_has_kind (review->setup, TG_PART_PISTON);

  return review->bands[band].known && review->feasible[tg_band_kind (band)] &&
         (!joint || (review->feasible[TG_PART_ROD] && review->feasible[TG_PART_PISTON]));
}

/* Takes the planned amounts off and looks where the figures and sums of each bore end. */
static void
check_ends_in_bands (Met *met, const TgReview *review)
{
  for (guint s = 0; s < review->sets->len; s++)
    for (TgBand band = 0; band < TG_N_BANDS; band++)
      {
        const TgSetReview *set = &g_array_index (review->sets, TgSetReview, s);
        int index = set->part[tg_band_kind (band)];
        TgFigure figure = tg_band_figure (band);
        double own, grams;

        if (!is_planned (review, band) || !is_known (review, index, figure) ||
            tg_review_part (review, (guint) index)->state == TG_STATE_UNWEIGHED)
          continue;
        grams = own = weight_then (review, index, figure);
        if (!add_carried (review, set, band, &grams))
          continue;
        g_assert_true (in_band (&review->bands[band], grams));
        met->sums += grams > own;
      }
}

static void
check_part (const TgReview *review, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);
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
      g_autofree char *sentence = tg_report_entry (review, job, i);

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
    all &= !tg_review_part (review, i)->in_work ||
           tg_review_part (review, i)->state == TG_STATE_EVEN;
  g_assert_true (review->next->kind != TG_NEXT_DONE || all);
  g_assert_true (!review->done || all);
  for (guint b = 0; b < TG_N_BANDS; b++)
    g_assert_true (!review->done || !review->bands[b].present || review->bands[b].even);
}

/* What sits where follows from the last pairing of each family alone. */
static void
check_sets (const TgReview *review)
{
  g_assert_cmpuint (review->sets->len, ==, review->setup->cylinders);
  for (guint s = 0; s < review->sets->len; s++)
    {
      const TgSetReview *set = &g_array_index (review->sets, TgSetReview, s);
      const double all[] = { set->sum_g, set->u_g, set->expanded_g };

      check_finite (all, G_N_ELEMENTS (all));
      g_assert_cmpuint (set->bore, ==, s + 1);
      for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
        {
          const TgPart *part = tg_setup_at_bore (review->setup, kind, set->bore);

          g_assert_cmpint (set->part[kind] < 0, ==, part == NULL);
          g_assert_true (!part || tg_review_part (review, (guint) set->part[kind])->part == part);
        }
    }
}

static void
check_review (Met *met, const TgReview *review, const TgJob *job)
{
  check_bands (review);
  check_sets (review);
  check_ends_in_bands (met, review);
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
check_ways_out (Met *met, const TgReview *review, const TgJob *job)
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
          check_review (met, after, copy);
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
  gboolean complete = TRUE;

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPart *part = tg_review_part (review, i)->part;

      if (part->design->kind != TG_PART_ROD)
        fixture_weigh (copy, part->id, TG_FIGURE_WHOLE, TG_WAY_ANY, 520);
      else
        for (guint reading = 0; reading < 4; reading++)
          fixture_weigh (copy, part->id, reading / 2 ? TG_FIGURE_BIG_END : TG_FIGURE_SMALL_END,
                         reading % 2 ? TG_WAY_MARK_DOWN : TG_WAY_MARK_UP, reading / 2 ? 411 : 171);
    }
  after = tg_review_new (copy);
  for (guint s = 0; s < after->sets->len; s++)
    for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
      complete &= g_array_index (after->sets, TgSetReview, s).part[kind] >= 0 ||
                  !tg_setup_in_sum (after->setup, kind);
  for (guint i = 0; complete && i < after->parts->len; i++)
    {
      TgState state = tg_review_part (after, i)->state;

      g_assert_cmpint (state, !=, TG_STATE_UNWEIGHED);
      /* a piston may wait for the small end that counts with it to come down */
      if (tg_review_part (after, i)->in_work &&
          !(tg_review_part (after, i)->design->kind == TG_PART_PISTON &&
            tg_setup_in_sum (after->setup, TG_PART_ROD)))
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

          check_review (met, review, job);
          count (met, review);
          check_reading_questions (&run, review);
          if (i + 1 == n)
            {
              check_same_again (review, job);
              check_ways_out (met, review, job);
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
                  "even %u, finer than a step %u, ways out %u, sums in band %u",
                  met.planned, met.feasible, met.out_of_reach, met.too_light, met.again, met.even,
                  met.fine, met.choices, met.sums);
  g_assert_cmpuint (met.planned, >, 300);
  g_assert_cmpuint (met.feasible, >, 100);
  g_assert_cmpuint (met.out_of_reach, >, 100);
  g_assert_cmpuint (met.too_light, >, 100);
  g_assert_cmpuint (met.again, >, 100);
  g_assert_cmpuint (met.even, >, 100);
  g_assert_cmpuint (met.choices, >, 300);
  g_assert_cmpuint (met.sums, >, 300);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/review-random/journals", test_journals);
  return g_test_run ();
}
