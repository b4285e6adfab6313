/* debrief.c: how a practice job was done, see debrief.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "debrief.h"

#include <string.h>

#include "debrief-private.h"
#include "number.h"
#include "practice-replay.h"
#include "reason.h"

G_STATIC_ASSERT (TG_REASON_DEBRIEF_TIME - TG_REASON_DEBRIEF_SET == TG_N_DEBRIEF_TOPICS - 1);

static void
line_free (TgDebriefLine *line)
{
  g_free (line->text);
  g_free (line->careful);
  g_ptr_array_unref (line->why);
  g_free (line);
}

void
tg_debrief_free (TgDebrief *debrief)
{
  if (!debrief)
    return;
  g_ptr_array_unref (debrief->lines);
  g_free (debrief->who);
  g_free (debrief);
}

void
tg_debrief_add (TgDebrief *debrief,
                TgDebriefTopic topic,
                TgDebriefVerdict verdict,
                int event,
                char *text,
                const char *careful,
                GPtrArray *why)
{
  TgDebriefLine *line = g_new0 (TgDebriefLine, 1);

  line->topic = topic;
  line->verdict = verdict;
  line->event = event;
  line->text = text;
  line->careful = g_strdup (careful);
  line->why = why;
  tg_reason_close (why, TG_REASON_DEBRIEF_SET + topic);
  g_ptr_array_add (debrief->lines, line);
}

void
tg_debrief_term (
    GPtrArray *why, const TgSetup *setup, const char *label, double grams, const char *remark)
{
  g_autofree char *shown = tg_debrief_grams (setup, grams);

  tg_terms_add (why, label, g_strdup_printf ("%s g", shown), remark);
}

GPtrArray *
tg_debrief_why_well (const char *what, guint n, const char *fault, guint n_faults)
{
  GPtrArray *why = tg_terms_new ();

  tg_terms_add (why, what, g_strdup_printf ("%u", n), "in the journal");
  tg_terms_add (why, fault, g_strdup_printf ("%u", n_faults), "");
  return why;
}

gboolean
tg_debrief_is_clean (const TgDebrief *debrief, TgDebriefTopic topic)
{
  for (guint i = 0; i < debrief->lines->len; i++)
    if (((const TgDebriefLine *) g_ptr_array_index (debrief->lines, i))->topic == topic)
      return FALSE;
  return TRUE;
}

/* By topic; what is of the whole first, then in order of the journal. */
static gint
compare_lines (gconstpointer a, gconstpointer b)
{
  const TgDebriefLine *one = *(TgDebriefLine *const *) a, *two = *(TgDebriefLine *const *) b;

  if (one->topic != two->topic)
    return one->topic < two->topic ? -1 : 1;
  return (one->event > two->event) - (one->event < two->event);
}

/* -- through the journal --------------------------------------------------------------------------- */

static void
find_part (TgDebriefWalk *walk)
{
  const TgPart *part;
  guint index;

  walk->part = walk->zone = -1;
  part = tg_setup_find_part (walk->setup, walk->event->part, &index);
  if (!part)
    return;
  walk->part = (int) index;
  if (walk->event->kind == TG_EVENT_PASS &&
      tg_design_find_zone (part->design, walk->event->zone, &index))
    walk->zone = (int) index;
}

static void
watch (TgDebriefWalk *walk)
{
  tg_debrief_watch_figures (walk);
  tg_debrief_watch_metal (walk);
  tg_debrief_watch_passes (walk);
  tg_debrief_watch_zones (walk);
  tg_debrief_watch_readings (walk);
  tg_debrief_watch_wrong (walk);
  tg_debrief_watch_warnings (walk);
}

/* A piece whose coming was struck out never came, as in practice-replay.h. */
static void
replay (TgDebriefWalk *walk, TgPracticeBench *bench)
{
  if (!walk->struck[walk->index] || walk->event->kind != TG_EVENT_REPLACE)
    tg_practice_replay_event (bench, walk->job, walk->event);
}

static void
go_through (TgDebriefWalk *walk)
{
  g_autoptr (TgJob) so_far = tg_job_first (walk->job, 0);

  walk->bench = tg_practice_replay (walk->job, 0);
  walk->bench_after = tg_practice_replay (walk->job, 0);
  walk->after = tg_review_new (so_far);
  for (walk->index = 0; walk->index < tg_job_n_events (walk->job); walk->index++)
    {
      walk->event = tg_job_event (walk->job, walk->index);
      tg_job_append (so_far, walk->event, NULL);
      g_clear_pointer (&walk->before, tg_review_free);
      walk->before = walk->after;
      walk->after = tg_review_new (so_far);
      find_part (walk);
      replay (walk, walk->bench_after);
      watch (walk);
      replay (walk, walk->bench);
    }
}

static void
judge (TgDebriefWalk *walk)
{
  tg_debrief_judge_set (walk);
  tg_debrief_find_least (walk);
  tg_debrief_judge_metal (walk);
  tg_debrief_judge_passes (walk);
  tg_debrief_judge_zones (walk);
  tg_debrief_judge_readings (walk);
  tg_debrief_judge_wrong (walk);
  tg_debrief_judge_warnings (walk);
  tg_debrief_judge_time (walk);
}

TgDebrief *
tg_debrief_new (const TgJob *job)
{
  TgDebriefWalk walk = { .job = job };
  TgDebrief *debrief;

  g_return_val_if_fail (job && tg_job_setup (job)->practice.on, NULL);

  debrief = g_new0 (TgDebrief, 1);
  debrief->lines = g_ptr_array_new_with_free_func ((GDestroyNotify) line_free);
  for (TgBand band = 0; band < TG_N_BANDS; band++)
    debrief->bands[band].worst_event = -1;
  walk.setup = tg_job_setup (job);
  walk.debrief = debrief;
  walk.struck = tg_job_struck (job);
  walk.zeros = tg_debrief_zeros (job, walk.struck);
  walk.end = tg_review_new (job);
  debrief->done = walk.end->done;
  go_through (&walk);
  judge (&walk);
  g_ptr_array_sort (debrief->lines, compare_lines);

  g_free (walk.struck);
  g_free (walk.zeros);
  tg_review_free (walk.end);
  g_clear_pointer (&walk.before, tg_review_free);
  tg_review_free (walk.after);
  tg_practice_bench_free (walk.bench);
  tg_practice_bench_free (walk.bench_after);
  return debrief;
}

/* -- words ---------------------------------------------------------------------------------------- */

/* What was seen is seen: the entry counts though it be struck out. */
gboolean
tg_debrief_is_open (const TgJob *job, const TgReview *review)
{
  return review->done || tg_job_find_event (job, TG_DEBRIEF_END_ID) >= 0;
}

char *
tg_debrief_grams (const TgSetup *setup, double grams)
{
  return tg_number_format (grams, MIN (3, tg_mass_decimals (setup->resolution) + 1));
}

char *
tg_debrief_careful_words (const TgDebriefLine *line)
{
  if (line->careful[0] == '\0')
    return g_strdup ("");
  return g_strdup_printf ("A careful worker %c%s", g_ascii_tolower (line->careful[0]),
                          line->careful + 1);
}

const char *
tg_debrief_topic_label (TgDebriefTopic topic)
{
  static const char *const labels[TG_N_DEBRIEF_TOPICS] = {
    "The set",
    "Metal",
    "Passes",
    "Readings",
    "Readings that were wrong",
    "Warnings",
    "Where it was ground",
    "Time",
  };

  g_return_val_if_fail ((guint) topic < TG_N_DEBRIEF_TOPICS, NULL);

  return labels[topic];
}

const char *
tg_debrief_verdict_label (TgDebriefVerdict verdict)
{
  static const char *const labels[TG_N_DEBRIEF_VERDICTS] = { "good", "fair", "poor" };

  g_return_val_if_fail ((guint) verdict < TG_N_DEBRIEF_VERDICTS, NULL);

  return labels[verdict];
}

const char *
tg_debrief_topic_to_word (TgDebriefTopic topic)
{
  static const char *const words[TG_N_DEBRIEF_TOPICS] = {
    "set", "metal", "passes", "readings", "wrong", "warnings", "zones", "time",
  };

  g_return_val_if_fail ((guint) topic < TG_N_DEBRIEF_TOPICS, NULL);

  return words[topic];
}
