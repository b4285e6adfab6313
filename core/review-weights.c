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
 * Not here: targets, judgement.
 */
#include <math.h>

#include "review-private.h"

#define SHORT_LEVER 0.25

typedef struct
{
  guint zone;
  guint day; /* index into the review's days */
  double wanted_g;
  double taken_g;
  int shown_by;     /* figure whose reading showed it, -1: none yet */
  gboolean settled; /* the end was read after it; what came off cannot be told, as it was not read
                       before */
} Pass;

typedef struct
{
  GArray *passes; /* Pass, of the present piece */
  guint n_closed; /* the first so many passes wait for nothing any more */
  double sum_g[TG_N_FIGURES][TG_N_WAYS];
  double before_g[TG_N_FIGURES];  /* at the first pass since the last reading */
  guint first_pass[TG_N_FIGURES]; /* index into passes of that pass */
} Track;

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
  return tg_review_effect (part->design, figure, tg_design_zone (part->design, pass->zone));
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
  guint n;
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
    }
  if (weights <= 0 || fabs (expected) < SHORT_LEVER * weights)
    return FALSE;
  for (guint i = track->first_pass[figure]; i < track->passes->len; i++)
    {
      Pass *pass = &g_array_index (track->passes, Pass, i);
      double taken;

      if (known_elsewhere (pass, figure, trust))
        continue;
      taken = MAX (0, drop / expected * (unsaid ? 1 : pass->wanted_g));
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

static void
take_reading (TgPartReview *part, Track *track, const TgEvent *event)
{
  TgWeight *weight = &part->weight[event->figure];
  gboolean ground = weight->basis == TG_WEIGHT_ESTIMATED ||
                    (weight->basis == TG_WEIGHT_READ &&
                     track->first_pass[event->figure] < track->passes->len);

  track->sum_g[event->figure][event->way] += tg_mass_to_g (event->mass);
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

static void
take_pass (TgPartReview *part, Track *track, const TgEvent *event, guint day)
{
  Pass pass = { .day = day, .wanted_g = tg_mass_to_g (event->mass), .shown_by = -1 };
  guint n;
  const TgFigure *figures = figures_of (part, &n);

  tg_design_find_zone (part->design, event->zone, &pass.zone);
  pass.taken_g = pass.wanted_g;
  for (guint f = 0; f < n; f++)
    {
      TgWeight *weight = &part->weight[figures[f]];

      if (weight->basis == TG_WEIGHT_READ)
        {
          track->before_g[figures[f]] = weight->mean_g;
          track->first_pass[figures[f]] = track->passes->len;
          weight->basis = TG_WEIGHT_ESTIMATED;
          for (guint way = 0; way < TG_N_WAYS; way++)
            {
              weight->n[way] = 0;
              weight->way_g[way] = 0;
              track->sum_g[figures[f]][way] = 0;
            }
        }
      if (weight->basis == TG_WEIGHT_ESTIMATED)
        weight->mean_g -= pass_effect (part, &pass, figures[f]) * pass.wanted_g;
    }
  g_array_append_val (track->passes, pass);
  part->passes++;
}

static void
track_reset (Track *track)
{
  g_array_set_size (track->passes, 0);
  track->n_closed = 0;
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      track->before_g[f] = 0;
      track->first_pass[f] = G_MAXUINT;
      for (guint way = 0; way < TG_N_WAYS; way++)
        track->sum_g[f][way] = 0;
    }
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

/* What came off the old piece stays in the tale of the days. */
static void
take_replacement (TgReview *review, TgPartReview *part, Track *track)
{
  count_removed (review, track);
  track_reset (track);
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
  else if (event->kind != TG_EVENT_STRIKE && event->kind != TG_EVENT_NOTE)
    day->decisions++;
}

static void
take_event (TgReview *review, TgPartReview *part, Track *track, const TgEvent *event)
{
  switch (event->kind)
    {
    case TG_EVENT_WEIGHING:
      take_reading (part, track, event);
      break;
    case TG_EVENT_PASS:
      take_pass (part, track, event, review->days->len - 1);
      break;
    case TG_EVENT_FREEZE:
      part->frozen = event->on;
      break;
    case TG_EVENT_REPLACE:
      take_replacement (review, part, track);
      break;
    default:
      break;
    }
}

void
tg_review_weigh (TgReview *review, const TgJob *job)
{
  guint n_parts = review->parts->len;
  g_autofree Track *tracks = g_new0 (Track, n_parts);
  g_autoptr (GHashTable) index_of = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < n_parts; i++)
    {
      tracks[i].passes = g_array_new (FALSE, FALSE, sizeof (Pass));
      track_reset (&tracks[i]);
      g_hash_table_insert (index_of, tg_review_part (review, i)->part->id,
                           GUINT_TO_POINTER (i + 1));
    }
  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      guint part;

      count_day (review, event, i);
      if (review->struck[i] || event->part[0] == '\0')
        continue;
      part = GPOINTER_TO_UINT (g_hash_table_lookup (index_of, event->part));
      if (part > 0)
        take_event (review, g_ptr_array_index (review->parts, part - 1), &tracks[part - 1], event);
    }
  for (guint i = 0; i < n_parts; i++)
    {
      TgPartReview *part = g_ptr_array_index (review->parts, i);

      count_passes (part, &tracks[i]);
      count_removed (review, &tracks[i]);
      part->has_closure = part->design->kind == TG_PART_ROD;
      for (guint f = 0; f < TG_N_FIGURES; f++)
        part->has_closure &= part->weight[f].basis == TG_WEIGHT_READ;
      if (part->has_closure)
        part->closure_g = part->weight[TG_FIGURE_SMALL_END].mean_g +
                          part->weight[TG_FIGURE_BIG_END].mean_g -
                          part->weight[TG_FIGURE_WHOLE].mean_g;
      g_array_unref (tracks[i].passes);
    }
}
