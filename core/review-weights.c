/* review-weights.c: replays the journal into present weights
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Model.  A figure (small end, big end, whole) is the mean of its readings since the last pass on
 * the part, each way up counting half.  A pass takes an unknown mass m from a zone; until a figure
 * is read again it is reckoned: before − effect × wanted.  The first figure that is read after the
 * pass shows what really came off, m = drop / effect, and with that the figures not yet read are
 * reckoned anew: this is how grinding the big end moves the small end without a second weighing.
 * Where several passes lie between two readings the drop is shared in proportion to what was
 * wanted.  A drop cannot be told from a zone whose lever arm for that figure is short (below a
 * quarter); then the wanted amount stands until the other end is read.  It also stands where an end
 * is read for the first time after the pass: there is no drop, and nothing more to wait for.
 *
 * The journal is replayed twice: once with the levers as they are drawn, which shows what passes
 * teach of them, and once with what was learned.  How well a figure is known is reckoned when its
 * readings are complete, at the next pass on the part and at the end.
 *
 * Not here: targets, judgement.
 */
#include <math.h>

#include "review-private.h"
#include "rounding.h"

#define SHORT_LEVER 0.25

typedef struct
{
  guint event;
  guint zone;
  guint day; /* index into the review's days */
  double wanted_g;
  double taken_g;
  double u_g;       /* of taken_g */
  double per_drop;  /* taken_g for one gram of the drop that showed it */
  gboolean alone;   /* no other pass shares that drop */
  int shown_by;     /* figure whose reading showed it, -1: none yet */
  gboolean settled; /* the end was read after it; what came off cannot be told, as it was not read
                       before */
} Pass;

/* From a moment when both ends were read on, with passes on one zone alone. */
typedef struct
{
  gboolean open;
  gboolean one_zone;
  guint zone;
  TgWeight before[2];
} Interval;

typedef struct
{
  GArray *passes; /* Pass, of the present piece */
  guint n_closed; /* the first so many passes wait for nothing any more */
  double sum_g[TG_N_FIGURES][TG_N_WAYS];
  GArray *readings[TG_N_FIGURES]; /* guint: events since the last pass */
  double before_g[TG_N_FIGURES];  /* at the first pass since the last reading */
  double before_u_g[TG_N_FIGURES];
  guint first_pass[TG_N_FIGURES]; /* index into passes of that pass */
  Interval interval;
} Track;

/* Coverage factors by the share of rounding in u. */
#define COVERAGE_STEPS 50

typedef struct
{
  double freedom;
  double k;
} Coverage;

typedef struct
{
  TgReview *review;
  const TgJob *job;
  const TgReviewBench *bench;
  TgReviewLessons *lessons;
  Track *tracks; /* by part */
  guint day;     /* of the present event */
  Coverage coverage[COVERAGE_STEPS + 1];
} Replay;

static const TgFigure *
figures_of (const TgPartReview *part, guint *n)
{
  static const TgFigure rod[] = { TG_FIGURE_SMALL_END, TG_FIGURE_BIG_END, TG_FIGURE_WHOLE };
  static const TgFigure piston[] = { TG_FIGURE_WHOLE };

  *n = part->design->kind == TG_PART_ROD ? 3 : 1;
  return part->design->kind == TG_PART_ROD ? rod : piston;
}

static double
pass_effect (const TgPartReview *part, const Pass *pass, TgFigure figure)
{
  return tg_review_effect (part, figure, pass->zone);
}

static void
reckon_mean (TgWeight *weight)
{
  guint up = weight->n[TG_WAY_MARK_UP], down = weight->n[TG_WAY_MARK_DOWN];

  if (weight->n[TG_WAY_ANY] > 0)
    weight->mean_g = weight->way_g[TG_WAY_ANY];
  else if (up > 0 && down > 0)
    {
      weight->mean_g = (weight->way_g[TG_WAY_MARK_UP] + weight->way_g[TG_WAY_MARK_DOWN]) / 2;
      weight->turn_g = weight->way_g[TG_WAY_MARK_UP] - weight->way_g[TG_WAY_MARK_DOWN];
      weight->has_turn = TRUE;
    }
  else if (up > 0)
    weight->mean_g = weight->way_g[TG_WAY_MARK_UP] - (weight->has_turn ? weight->turn_g / 2 : 0);
  else
    weight->mean_g = weight->way_g[TG_WAY_MARK_DOWN] + (weight->has_turn ? weight->turn_g / 2 : 0);
}

/* What the pass took is known without @figure; with @trust a settled pass took what was wanted. */
static gboolean
known_elsewhere (const Pass *pass, TgFigure figure, gboolean trust)
{
  if (pass->shown_by < 0)
    return trust && pass->settled;
  return pass->shown_by != (int) figure;
}

/* Shares the drop that @figure shows among the passes since its last reading that nothing else has
 * shown yet, and moves the figures that have not been read since. FALSE if the levers are short. */
static gboolean
share_drop (TgPartReview *part, Track *track, TgFigure figure, gboolean trust)
{
  double drop = track->before_g[figure] - part->weight[figure].mean_g;
  double expected = 0, weights = 0;
  gboolean unsaid = TRUE;
  guint n, sharers = 0;
  const TgFigure *figures = figures_of (part, &n);

  for (guint i = track->first_pass[figure]; i < track->passes->len; i++)
    {
      Pass *pass = &g_array_index (track->passes, Pass, i);

      if (known_elsewhere (pass, figure, trust))
        drop -= pass_effect (part, pass, figure) * pass->taken_g;
      else if (pass->wanted_g > 0)
        unsaid = FALSE;
    }
  for (guint i = track->first_pass[figure]; i < track->passes->len; i++)
    {
      Pass *pass = &g_array_index (track->passes, Pass, i);
      double share = unsaid ? 1 : pass->wanted_g;

      if (known_elsewhere (pass, figure, trust))
        continue;
      expected += pass_effect (part, pass, figure) * share;
      weights += share;
      sharers++;
    }
  if (weights <= 0 || fabs (expected) < SHORT_LEVER * weights)
    return FALSE;
  for (guint i = track->first_pass[figure]; i < track->passes->len; i++)
    {
      Pass *pass = &g_array_index (track->passes, Pass, i);
      double taken;

      if (known_elsewhere (pass, figure, trust))
        continue;
      pass->per_drop = (unsaid ? 1 : pass->wanted_g) / expected;
      pass->alone = sharers == 1;
      taken = MAX (0, drop * pass->per_drop);
      for (guint f = 0; f < n; f++)
        {
          TgWeight *other = &part->weight[figures[f]];

          if (figures[f] != figure && other->basis == TG_WEIGHT_ESTIMATED)
            other->mean_g -= pass_effect (part, pass, figures[f]) * (taken - pass->taken_g);
        }
      pass->taken_g = taken;
      pass->shown_by = (int) figure;
    }
  return TRUE;
}

static void
show_passes (TgPartReview *part, Track *track, TgFigure figure)
{
  if (!share_drop (part, track, figure, FALSE))
    share_drop (part, track, figure, TRUE);
}

/* Passes that lie before the first reading of @figure. */
static void
settle_passes (const TgPartReview *part, Track *track, TgFigure figure)
{
  if (tg_part_review_row (part, figure) < 0)
    return;
  for (guint i = track->n_closed; i < MIN (track->passes->len, track->first_pass[figure]); i++)
    {
      Pass *pass = &g_array_index (track->passes, Pass, i);

      if (fabs (pass_effect (part, pass, figure)) >= SHORT_LEVER)
        pass->settled = TRUE;
    }
}

static gboolean
pass_is_open (const Pass *pass)
{
  return pass->shown_by < 0 && !pass->settled;
}

/* A drop that could not be told from the levers of several passes may be clear once @figure has
 * shown some of them. */
static void
show_what_is_open (TgPartReview *part, Track *track, TgFigure figure)
{
  guint n;
  const TgFigure *figures = figures_of (part, &n);

  while (track->n_closed < track->passes->len &&
         !pass_is_open (&g_array_index (track->passes, Pass, track->n_closed)))
    track->n_closed++;
  for (guint f = 0; track->n_closed < track->passes->len && f < n; f++)
    if (figures[f] != figure && part->weight[figures[f]].basis == TG_WEIGHT_READ &&
        track->first_pass[figures[f]] < track->passes->len)
      show_passes (part, track, figures[f]);
}

/* -- how well figures are known ---------------------------------------------------------------- */

static double
coverage_of (Replay *replay, TgUncertainty random, double rounding_u_g)
{
  double u_g = hypot (random.u, rounding_u_g), freedom = floor (random.freedom * (1 + 1e-12));
  guint step = (guint) lround (rounding_u_g / u_g * COVERAGE_STEPS);
  double share = (double) step / COVERAGE_STEPS;
  Coverage *coverage = &replay->coverage[step];
  const TgUncertainty rest = { sqrt (1 - share * share), MAX (1, freedom) };

  if (coverage->freedom == rest.freedom)
    return coverage->k;
  coverage->freedom = rest.freedom;
  coverage->k = tg_rounding_expanded (rest, share, 1, TG_REVIEW_LEVEL);
  return coverage->k;
}

/* Of a figure that was read since the last pass.  Both ways up weigh the same, so the step of the
 * display does the same to both, and their mean is not better for it than one of them. */
static void
reckon_read (Replay *replay, TgPartReview *part, const Track *track, TgFigure figure)
{
  const GArray *readings = track->readings[figure];
  TgWeight *weight = &part->weight[figure];
  const TgRepeatability *repeat = &replay->review->scale.repeatability[tg_review_support (figure)];
  TgUncertainty random = tg_review_mean_u (replay->review, replay->bench, weight, readings);

  weight->u_g = hypot (random.u, repeat->rounding_u_g);
  weight->freedom = random.freedom * pow (weight->u_g / MAX (random.u, 1e-12), 4);
  weight->expanded_g = coverage_of (replay, random, repeat->rounding_u_g) * weight->u_g;
}

static void
add_point (Replay *replay, TgPartReview *part, const Track *track, TgFigure figure)
{
  const TgWeight *weight = &part->weight[figure];
  const GArray *readings = track->readings[figure];
  const TgHistoryPoint point = {
    .figure = figure,
    .piece = part->pieces - 1,
    .stamp = tg_job_event (replay->job, g_array_index (readings, guint, readings->len - 1))->stamp,
    .n = readings->len,
    .mean_g = weight->mean_g,
    .u_g = weight->u_g,
    .expanded_g = weight->expanded_g,
  };

  g_array_append_val (part->history, point);
}

/* The readings since the last pass are complete. */
static void
close_readings (Replay *replay, TgPartReview *part, Track *track)
{
  guint n;
  const TgFigure *figures = figures_of (part, &n);

  for (guint f = 0; f < n; f++)
    {
      TgFigure figure = figures[f];
      TgWeight *weight = &part->weight[figure];

      if (weight->basis != TG_WEIGHT_READ || track->readings[figure]->len == 0)
        continue;
      reckon_read (replay, part, track, figure);
      tg_review_reckon_turn (replay->review, replay->bench, weight, track->readings[figure]);
      add_point (replay, part, track, figure);
      for (guint i = track->first_pass[figure]; i < track->passes->len; i++)
        {
          Pass *pass = &g_array_index (track->passes, Pass, i);

          if (pass->shown_by == (int) figure)
            pass->u_g = fabs (pass->per_drop) * hypot (track->before_u_g[figure], weight->u_g);
        }
    }
}

/* Of a figure that is only reckoned: its last readings and what the passes since may have taken. */
static void
reckon_estimated (TgPartReview *part, const Track *track, TgFigure figure)
{
  TgWeight *weight = &part->weight[figure];
  double variance = track->before_u_g[figure] * track->before_u_g[figure];

  for (guint i = track->first_pass[figure]; i < track->passes->len; i++)
    {
      const Pass *pass = &g_array_index (track->passes, Pass, i);
      double u_g = pass_effect (part, pass, figure) * pass->u_g;

      variance += u_g * u_g;
    }
  weight->u_g = sqrt (variance);
  weight->freedom = INFINITY;
  weight->expanded_g = tg_uncertainty_coverage (INFINITY, TG_REVIEW_LEVEL) * weight->u_g;
}

/* -- what passes teach ------------------------------------------------------------------------- */

static gboolean
both_ends_read (const TgPartReview *part)
{
  return part->design->kind == TG_PART_ROD &&
         part->weight[TG_FIGURE_SMALL_END].basis == TG_WEIGHT_READ &&
         part->weight[TG_FIGURE_BIG_END].basis == TG_WEIGHT_READ;
}

static void
teach_arm (Replay *replay, const TgPartReview *part, const Interval *interval)
{
  const TgWeight *small = &part->weight[TG_FIGURE_SMALL_END];
  const TgWeight *big = &part->weight[TG_FIGURE_BIG_END];
  TgReviewArmLesson lesson = { .design = part->design, .zone = interval->zone };

  if (!interval->open || !interval->one_zone || !both_ends_read (part))
    return;
  lesson.pair.small_g = interval->before[0].mean_g - small->mean_g;
  lesson.pair.small_u_g = hypot (interval->before[0].u_g, small->u_g);
  lesson.pair.big_g = interval->before[1].mean_g - big->mean_g;
  lesson.pair.big_u_g = hypot (interval->before[1].u_g, big->u_g);
  g_array_append_val (replay->lessons->arms, lesson);
}

/* Before a pass: readings are complete, weights are still those before it. */
static void
watch_arm (Replay *replay, const TgPartReview *part, Track *track, guint zone)
{
  Interval *interval = &track->interval;

  if (!both_ends_read (part))
    {
      interval->one_zone &= interval->zone == zone;
      return;
    }
  teach_arm (replay, part, interval);
  interval->open = interval->one_zone = TRUE;
  interval->zone = zone;
  interval->before[0] = part->weight[TG_FIGURE_SMALL_END];
  interval->before[1] = part->weight[TG_FIGURE_BIG_END];
}

static void
teach_methods (Replay *replay, const TgPartReview *part, const Track *track)
{
  for (guint i = 0; i < track->passes->len; i++)
    {
      const Pass *pass = &g_array_index (track->passes, Pass, i);
      const TgEvent *event = tg_job_event (replay->job, pass->event);
      TgReviewPassLesson lesson = { .tool = event->tool, .metal = part->design->metal };

      if (pass->shown_by < 0 || !pass->alone)
        continue;
      lesson.pass.amount_g = pass->taken_g;
      lesson.pass.u_g = pass->u_g;
      lesson.pass.asked = pass->wanted_g;
      if (pass->wanted_g > 0)
        g_array_append_val (replay->lessons->passes, lesson);
      lesson.effort = event->effort;
      lesson.pass.asked = event->count;
      if (event->effort != TG_EFFORT_NONE)
        g_array_append_val (replay->lessons->passes, lesson);
    }
}

/* -- the journal ------------------------------------------------------------------------------ */

static void
take_reading (Replay *replay, TgPartReview *part, Track *track, guint index)
{
  const TgEvent *event = tg_job_event (replay->job, index);
  TgWeight *weight = &part->weight[event->figure];
  gboolean ground = weight->basis == TG_WEIGHT_ESTIMATED ||
                    (weight->basis == TG_WEIGHT_READ &&
                     track->first_pass[event->figure] < track->passes->len);

  g_array_append_val (track->readings[event->figure], index);
  track->sum_g[event->figure][event->way] += replay->bench->readings[index].value_g;
  weight->n[event->way]++;
  weight->way_g[event->way] = track->sum_g[event->figure][event->way] / weight->n[event->way];
  weight->basis = TG_WEIGHT_READ;
  reckon_mean (weight);
  part->readings++;
  settle_passes (part, track, event->figure);
  if (ground)
    show_passes (part, track, event->figure);
  show_what_is_open (part, track, event->figure);
}

/* A figure that was read is from now on reckoned. */
static void
begin_estimate (TgWeight *weight, Track *track, TgFigure figure)
{
  track->before_g[figure] = weight->mean_g;
  track->before_u_g[figure] = weight->u_g;
  track->first_pass[figure] = track->passes->len;
  g_array_set_size (track->readings[figure], 0);
  weight->basis = TG_WEIGHT_ESTIMATED;
  for (guint way = 0; way < TG_N_WAYS; way++)
    {
      weight->n[way] = 0;
      weight->way_g[way] = 0;
      track->sum_g[figure][way] = 0;
    }
}

static void
take_pass (Replay *replay, TgPartReview *part, Track *track, guint index)
{
  const TgEvent *event = tg_job_event (replay->job, index);
  Pass pass = { .event = index, .day = replay->day, .shown_by = -1 };
  guint n;
  const TgFigure *figures = figures_of (part, &n);

  tg_design_find_zone (part->design, event->zone, &pass.zone);
  pass.wanted_g = pass.taken_g = tg_mass_to_g (event->mass);
  pass.u_g = tg_lever_learning_unlearned (TRUE).scatter * pass.wanted_g;
  replay->review->tool[part->design->metal] = event->tool;
  close_readings (replay, part, track);
  watch_arm (replay, part, track, pass.zone);
  for (guint f = 0; f < n; f++)
    {
      TgWeight *weight = &part->weight[figures[f]];

      if (weight->basis == TG_WEIGHT_READ)
        begin_estimate (weight, track, figures[f]);
      if (weight->basis == TG_WEIGHT_ESTIMATED)
        weight->mean_g -= pass_effect (part, &pass, figures[f]) * pass.wanted_g;
    }
  g_array_append_val (track->passes, pass);
  part->passes++;
}

static void
track_init (Track *track)
{
  track->passes = g_array_new (FALSE, FALSE, sizeof (Pass));
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      track->readings[f] = g_array_new (FALSE, FALSE, sizeof (guint));
      track->first_pass[f] = G_MAXUINT;
    }
}

static void
track_clear (Track *track)
{
  g_array_unref (track->passes);
  for (guint f = 0; f < TG_N_FIGURES; f++)
    g_array_unref (track->readings[f]);
  *track = (Track){ 0 };
}

/* What the passes took, by day. */
static void
count_removed (TgReview *review, const Track *track)
{
  for (guint i = 0; i < track->passes->len; i++)
    {
      const Pass *pass = &g_array_index (track->passes, Pass, i);

      ((TgDay *) g_ptr_array_index (review->days, pass->day))->removed_g += pass->taken_g;
    }
}

static void
add_passes (const Replay *replay, TgPartReview *part, const Track *track)
{
  for (guint i = 0; i < track->passes->len; i++)
    {
      const Pass *pass = &g_array_index (track->passes, Pass, i);
      const TgHistoryPass point = {
        .stamp = tg_job_event (replay->job, pass->event)->stamp,
        .piece = part->pieces - 1,
        .zone = pass->zone,
        .taken_g = pass->taken_g,
        .shown = pass->shown_by >= 0,
        .event = pass->event,
      };

      g_array_append_val (part->pass_history, point);
    }
}

/* A piece has seen its last event: its passes go into the tale of the days and of the part. */
static void
finish_piece (Replay *replay, TgPartReview *part, Track *track)
{
  close_readings (replay, part, track);
  teach_arm (replay, part, &track->interval);
  teach_methods (replay, part, track);
  count_removed (replay->review, track);
  add_passes (replay, part, track);
}

static void
take_replacement (Replay *replay, TgPartReview *part, Track *track)
{
  finish_piece (replay, part, track);
  track_clear (track);
  track_init (track);
  for (guint f = 0; f < TG_N_FIGURES; f++)
    part->weight[f] = (TgWeight){ 0 };
  part->pieces++;
  part->readings = 0;
  part->passes = 0;
}

/* What the passes took, by zone. */
static void
count_passes (TgPartReview *part, const Track *track)
{
  for (guint i = 0; i < track->passes->len; i++)
    {
      const Pass *pass = &g_array_index (track->passes, Pass, i);
      TgZoneReview *zone = &g_array_index (part->zones, TgZoneReview, pass->zone);

      zone->passes++;
      zone->taken_g += pass->taken_g;
      zone->left_g = MAX (0, zone->left_g - pass->taken_g);
      part->pass_open |= pass_is_open (pass);
      part->last_zone = pass->zone;
    }
}

static void
count_day (TgReview *review, const TgEvent *event, guint index)
{
  gint64 number = tg_stamp_day (event->stamp);
  TgDay *day = review->days->len ? (TgDay *) g_ptr_array_index (review->days, review->days->len - 1)
                                 : NULL;

  if (!day || day->day != number)
    {
      day = g_new0 (TgDay, 1);
      day->day = number;
      day->label = tg_stamp_format_day (event->stamp);
      day->first = index;
      g_ptr_array_add (review->days, day);
    }
  day->last = index;
  if (review->struck[index])
    day->struck++;
  else if (event->kind == TG_EVENT_WEIGHING)
    day->weighings++;
  else if (event->kind == TG_EVENT_PASS)
    day->passes++;
  else if (event->kind != TG_EVENT_STRIKE && event->kind != TG_EVENT_NOTE &&
           event->kind != TG_EVENT_ZERO && event->kind != TG_EVENT_CHECK_WEIGHT)
    day->decisions++;
}

static void
take_event (Replay *replay, TgPartReview *part, Track *track, guint index)
{
  const TgEvent *event = tg_job_event (replay->job, index);

  switch (event->kind)
    {
    case TG_EVENT_WEIGHING:
      take_reading (replay, part, track, index);
      break;
    case TG_EVENT_PASS:
      take_pass (replay, part, track, index);
      break;
    case TG_EVENT_FREEZE:
      part->frozen = event->on;
      break;
    case TG_EVENT_REPLACE:
      take_replacement (replay, part, track);
      break;
    default:
      break;
    }
}

static void
finish_part (Replay *replay, TgPartReview *part, Track *track)
{
  finish_piece (replay, part, track);
  count_passes (part, track);
  part->has_closure = part->design->kind == TG_PART_ROD;
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      part->has_closure &= part->weight[f].basis == TG_WEIGHT_READ;
      if (part->weight[f].basis == TG_WEIGHT_ESTIMATED)
        reckon_estimated (part, track, f);
    }
  if (part->has_closure)
    tg_review_reckon_closure (replay->review, replay->bench, part, track->readings);
}

static void
replay_journal (Replay *replay)
{
  TgReview *review = replay->review;
  guint n_parts = review->parts->len;

  replay->tracks = g_new0 (Track, n_parts);
  replay->day = 0;
  for (guint i = 0; i < n_parts; i++)
    track_init (&replay->tracks[i]);
  for (guint i = 0; i < review->n_events; i++)
    {
      int part = replay->bench->part_of[i];

      while (i > ((const TgDay *) g_ptr_array_index (review->days, replay->day))->last)
        replay->day++;
      if (part >= 0 && !review->struck[i])
        take_event (replay, g_ptr_array_index (review->parts, (guint) part), &replay->tracks[part],
                    i);
    }
  for (guint i = 0; i < n_parts; i++)
    {
      finish_part (replay, g_ptr_array_index (review->parts, i), &replay->tracks[i]);
      track_clear (&replay->tracks[i]);
    }
  g_clear_pointer (&replay->tracks, g_free);
}

/* As before the replay, but for what was learned. */
static void
forget_replay (TgReview *review, TgReviewLessons *lessons)
{
  for (guint i = 0; i < review->parts->len; i++)
    tg_part_review_reset (g_ptr_array_index (review->parts, i));
  for (guint i = 0; i < review->days->len; i++)
    ((TgDay *) g_ptr_array_index (review->days, i))->removed_g = 0;
  g_array_set_size (lessons->arms, 0);
  g_array_set_size (lessons->passes, 0);
}

void
tg_review_weigh (TgReview *review, const TgJob *job, const TgReviewBench *bench)
{
  TgReviewLessons lessons = { g_array_new (FALSE, FALSE, sizeof (TgReviewArmLesson)),
                              g_array_new (FALSE, FALSE, sizeof (TgReviewPassLesson)) };
  g_autofree Replay *replay = g_new0 (Replay, 1);

  for (guint i = 0; i < review->n_events; i++)
    count_day (review, tg_job_event (job, i), i);
  replay->review = review;
  replay->job = job;
  replay->bench = bench;
  replay->lessons = &lessons;
  replay_journal (replay);
  if (tg_review_learn_arms (review, &lessons))
    {
      forget_replay (review, &lessons);
      replay_journal (replay);
    }
  tg_review_learn_methods (review, &lessons);
  g_array_unref (lessons.arms);
  g_array_unref (lessons.passes);
}
