/* review-scale.c: what the journal says of the scale
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every reading is freed of the zero error that the zero checks of its day show, in a straight line
 * from one check to the next; after the last one the error stands as it was left.  Before the first
 * one the scale is taken to have been at zero at the first reading of the day.
 *
 * How well readings repeat is in review-repeats.c, what the checks say in review-checks.c.
 */
#include "review-private.h"

/* -- zero ------------------------------------------------------------------------------------ */

typedef struct
{
  TgReviewBench *bench;
  const TgJob *job;
  gboolean known; /* a zero check was made on this day */
  TgStamp stamp;
  gboolean fresh;  /* the last check was followed by setting to zero, or is the first of the day */
  double left_g;   /* the error as the last check left it */
  GArray *pending; /* guint: events since */
} ZeroWalk;

/* The readings since the last check, with the error that it left. */
static void
close_open (ZeroWalk *walk)
{
  const TgReviewSpan span = { .open = TRUE, .fresh = walk->fresh };
  int index = -1;

  if (walk->known && walk->pending->len > 0)
    {
      index = (int) walk->bench->spans->len;
      g_array_append_val (walk->bench->spans, span);
    }
  for (guint i = 0; i < walk->pending->len; i++)
    {
      TgReviewReading *reading = &walk->bench->readings[g_array_index (walk->pending, guint, i)];

      reading->value_g -= walk->known ? walk->left_g : 0;
      reading->span = index;
    }
  g_array_set_size (walk->pending, 0);
}

/* The readings between two checks of one day. */
static void
close_span (ZeroWalk *walk, TgStamp stamp, double error_g)
{
  const TgReviewSpan span = { .change_g = error_g - walk->left_g, .fresh = walk->fresh };
  double length = (double) (stamp.seconds - walk->stamp.seconds);

  for (guint i = 0; i < walk->pending->len; i++)
    {
      guint event = g_array_index (walk->pending, guint, i);
      TgReviewReading *reading = &walk->bench->readings[event];
      double since = (double) (tg_job_event (walk->job, event)->stamp.seconds -
                               walk->stamp.seconds);

      reading->share = length > 0 ? CLAMP (since / length, 0, 1) : 0.5;
      reading->span = (int) walk->bench->spans->len;
      reading->value_g -= walk->left_g + reading->share * span.change_g;
    }
  g_array_append_val (walk->bench->spans, span);
  g_array_set_size (walk->pending, 0);
}

static void
take_zero (ZeroWalk *walk, const TgEvent *event)
{
  double error_g = tg_mass_to_g (event->mass);

  if (!walk->known && walk->pending->len > 0)
    {
      walk->stamp = tg_job_event (walk->job, g_array_index (walk->pending, guint, 0))->stamp;
      walk->left_g = 0;
      walk->fresh = TRUE;
    }
  if (walk->known || walk->pending->len > 0)
    close_span (walk, event->stamp, error_g);
  walk->fresh = event->set_back || !walk->known;
  walk->known = TRUE;
  walk->stamp = event->stamp;
  walk->left_g = event->set_back ? 0 : error_g;
}

static TgSupport
support_of (const TgEvent *event)
{
  return event->kind == TG_EVENT_WEIGHING ? tg_review_support (event->figure) : TG_SUPPORT_SCALE;
}

static void
free_of_zero (TgReview *review, const TgJob *job, TgReviewBench *bench)
{
  ZeroWalk walk = { .bench = bench, .job = job };
  gint64 day = G_MININT64;

  walk.pending = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);

      bench->readings[i] = (TgReviewReading){ tg_mass_to_g (event->mass), 0, -1, support_of (event),
                                              event->way };
      if (review->struck[i])
        continue;
      if (tg_stamp_day (event->stamp) != day)
        {
          close_open (&walk);
          walk.known = FALSE;
          day = tg_stamp_day (event->stamp);
        }
      if (event->kind == TG_EVENT_ZERO)
        take_zero (&walk, event);
      else if (event->kind == TG_EVENT_WEIGHING || event->kind == TG_EVENT_CHECK_WEIGHT)
        g_array_append_val (walk.pending, i);
    }
  close_open (&walk);
  review->scale.zero_left_g = walk.known ? walk.left_g : 0;
  g_array_unref (walk.pending);
}

/* -- the whole -------------------------------------------------------------------------------- */

static void
find_parts (TgReview *review, const TgJob *job, TgReviewBench *bench)
{
  g_autoptr (GHashTable) index_of = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < review->parts->len; i++)
    g_hash_table_insert (index_of, tg_review_part (review, i)->part->id, GUINT_TO_POINTER (i + 1));
  for (guint i = 0; i < review->n_events; i++)
    {
      const char *id = tg_job_event (job, i)->part;

      bench->part_of[i] = id[0] ? (int) GPOINTER_TO_UINT (g_hash_table_lookup (index_of, id)) - 1
                                : -1;
    }
}

TgReviewBench *
tg_review_bench_new (TgReview *review, const TgJob *job)
{
  TgReviewBench *bench = g_new0 (TgReviewBench, 1);

  bench->readings = g_new (TgReviewReading, review->n_events + 1);
  bench->part_of = g_new (int, review->n_events + 1);
  bench->n_parts = review->parts->len;
  bench->slots = g_new0 (TgReviewSlots, bench->n_parts);
  bench->spans = g_array_new (FALSE, FALSE, sizeof (TgReviewSpan));
  bench->wander_freedom = 1;
  find_parts (review, job, bench);
  free_of_zero (review, job, bench);
  tg_review_find_repeatability (review, job, bench);
  tg_review_judge_checks (review, job, bench);
  return bench;
}

void
tg_review_bench_free (TgReviewBench *bench)
{
  g_free (bench->readings);
  g_free (bench->part_of);
  for (guint i = 0; i < bench->n_parts; i++)
    tg_review_slots_clear (bench->slots[i]);
  g_free (bench->slots);
  g_array_unref (bench->spans);
  g_free (bench);
}
