/* review.c: everything that follows from a job, see review.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The steps stand in files of their own (review-weights, -plan, -findings, -decisions, -next); this
 * one builds the empty review, applies the refinements of the setup and runs the steps.
 */
#include "review.h"

#include <math.h>

#include "review-private.h"

static void
part_review_free (TgPartReview *part)
{
  g_array_unref (part->history);
  g_array_unref (part->pass_history);
  g_array_unref (part->zones);
  g_free (part);
}

static void
finding_free (TgFinding *finding)
{
  g_free (finding->text);
  g_free (finding->advice);
  g_free (finding);
}

void
tg_choice_free (TgChoice *choice)
{
  for (guint i = 0; i < choice->events->len; i++)
    {
      g_free ((char *) g_array_index (choice->events, TgEvent, i).path);
      g_free ((char *) g_array_index (choice->events, TgEvent, i).value);
    }
  g_free (choice->title);
  g_free (choice->detail);
  g_clear_pointer (&choice->why, g_ptr_array_unref);
  g_array_unref (choice->events);
  g_free (choice);
}

static void
decision_free (TgDecision *decision)
{
  g_free (decision->title);
  g_free (decision->text);
  g_ptr_array_unref (decision->choices);
  g_free (decision);
}

static void
day_free (TgDay *day)
{
  g_free (day->label);
  g_free (day);
}

void
tg_term_free (TgTerm *term)
{
  g_free (term->label);
  g_free (term->figure);
  g_free (term->remark);
  g_free (term);
}

GPtrArray *
tg_terms_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) tg_term_free);
}

void
tg_terms_add (GPtrArray *terms, const char *label, char *figure, const char *remark)
{
  TgTerm *term = g_new0 (TgTerm, 1);

  term->label = g_strdup (label);
  term->figure = figure;
  term->remark = g_strdup (remark);
  g_ptr_array_add (terms, term);
}

GPtrArray *
tg_choices_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) tg_choice_free);
}

void
tg_part_review_reset (TgPartReview *part)
{
  const TgPartReview blank = {
    .part = part->part,
    .design = part->design,
    .pieces = 1,
    .zones = part->zones,
    .history = part->history,
    .pass_history = part->pass_history,
  };

  *part = blank;
  g_array_set_size (part->history, 0);
  g_array_set_size (part->pass_history, 0);
  for (guint i = 0; i < part->zones->len; i++)
    {
      TgZoneReview *zone = &g_array_index (part->zones, TgZoneReview, i);
      const TgZoneReview blank_zone = {
        .zone = zone->zone,
        .lever = zone->lever,
        .left_g = tg_design_zone_capacity_g (part->design, zone->zone),
      };

      *zone = blank_zone;
    }
}

static TgPartReview *
part_review_new (const TgPart *part)
{
  TgPartReview *review = g_new0 (TgPartReview, 1);

  review->part = part;
  review->design = part->design;
  review->history = g_array_new (FALSE, FALSE, sizeof (TgHistoryPoint));
  review->pass_history = g_array_new (FALSE, FALSE, sizeof (TgHistoryPass));
  review->zones = g_array_new (FALSE, TRUE, sizeof (TgZoneReview));
  g_array_set_size (review->zones, part->design->zones->len);
  for (guint i = 0; i < review->zones->len; i++)
    {
      TgZoneReview *zone = &g_array_index (review->zones, TgZoneReview, i);

      zone->zone = tg_design_zone (part->design, i);
      zone->lever = tg_review_drawn_lever (part->design, zone->zone);
    }
  tg_part_review_reset (review);
  return review;
}

/* The setup in force: the job's own with the refinements that are not struck out, in order. A
 * refinement that no longer fits (what it built on was struck) is passed over. */
static TgSetup *
setup_in_force (const TgJob *job, const gboolean *struck)
{
  TgSetup *setup = tg_setup_copy (tg_job_setup (job));

  for (guint i = 0; i < tg_job_n_events (job); i++)
    {
      const TgEvent *event = tg_job_event (job, i);

      if (event->kind == TG_EVENT_SET && !struck[i])
        tg_setup_set (setup, event->path, event->value, NULL);
      if (event->kind == TG_EVENT_PAIR && !struck[i])
        tg_setup_place (setup, event->places, NULL);
    }
  return setup;
}

/* What is ground to a band.  The plan holds no more of a kind. */
static void
find_work (TgReview *review)
{
  guint n[TG_N_PART_KINDS] = { 0 };

  for (guint i = 0; i < review->parts->len; i++)
    {
      TgPartReview *part = g_ptr_array_index (review->parts, i);
      TgPartKind kind = part->design->kind;

      part->in_work = part->part->bore > 0 && tg_part_kind_has_outline (kind) &&
                      n[kind]++ < 2 * TG_MAX_CYLINDERS;
    }
}

static gboolean
same_rule (const TgRuleReview *a, const TgRuleReview *b)
{
  if (a->rule != b->rule)
    return FALSE;
  if (a->rule == TG_RULE_BORE)
    return a->part == b->part;
  return (a->part == b->part && a->other == b->other) ||
         (a->part == b->other && a->other == b->part);
}

/* The last word on each pair of parts, and on each part and its bore, counts. */
static void
find_rules (TgReview *review, const TgJob *job)
{
  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      TgRuleReview rule = { .rule = event->rule, .bore = event->bore, .event = i };

      if (event->kind == TG_EVENT_PAIR && !review->struck[i])
        review->paired = (int) i;
      if (event->kind != TG_EVENT_RULE || review->struck[i])
        continue;
      tg_setup_find_part (review->setup, event->part, &rule.part);
      if (event->rule != TG_RULE_BORE)
        tg_setup_find_part (review->setup, event->other, &rule.other);
      for (guint r = review->rules->len; r-- > 0;)
        if (same_rule (&g_array_index (review->rules, TgRuleReview, r), &rule))
          g_array_remove_index (review->rules, r);
      if (event->on)
        g_array_append_val (review->rules, rule);
    }
}

TgReview *
tg_review_new (const TgJob *job)
{
  TgReview *review;
  g_autoptr (TgReviewBench) bench = NULL;

  g_return_val_if_fail (job != NULL, NULL);

  review = g_new0 (TgReview, 1);
  review->struck = tg_job_struck (job);
  review->n_events = tg_job_n_events (job);
  review->setup = setup_in_force (job, review->struck);
  review->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) part_review_free);
  review->findings = g_ptr_array_new_with_free_func ((GDestroyNotify) finding_free);
  review->decisions = g_ptr_array_new_with_free_func ((GDestroyNotify) decision_free);
  review->days = g_ptr_array_new_with_free_func ((GDestroyNotify) day_free);
  review->scale.checks = g_array_new (FALSE, FALSE, sizeof (TgScaleCheck));
  review->methods = g_array_new (FALSE, FALSE, sizeof (TgMethodReview));
  review->sets = g_array_new (FALSE, TRUE, sizeof (TgSetReview));
  review->rules = g_array_new (FALSE, FALSE, sizeof (TgRuleReview));
  review->paired = -1;
  for (guint i = 0; i < review->setup->parts->len; i++)
    g_ptr_array_add (review->parts, part_review_new (tg_setup_part (review->setup, i)));

  bench = tg_review_bench_new (review, job);
  tg_review_weigh (review, job, bench);
  find_work (review);
  find_rules (review, job);
  tg_review_find_sums (review);
  tg_review_plan (review, job);
  tg_review_find (review, job, bench);
  tg_review_decide (review);
  tg_review_look_ahead (review, job);
  return review;
}

TgReview *
tg_review_preview (const TgJob *job, const TgEvent *events, guint n)
{
  g_autoptr (TgJob) copy = tg_job_copy (job);

  for (guint i = 0; i < n; i++)
    {
      TgEvent event = events[i];
      g_autofree char *id = g_strdup_printf ("preview %u", i);

      event.id = id;
      if (tg_job_n_events (job) > 0)
        event.stamp = tg_job_event (job, tg_job_n_events (job) - 1)->stamp;
      if (!tg_job_append (copy, &event, NULL))
        return NULL;
    }
  return tg_review_new (copy);
}

void
tg_review_free (TgReview *review)
{
  if (review->next)
    tg_next_free (review->next);
  g_ptr_array_unref (review->parts);
  g_ptr_array_unref (review->findings);
  g_ptr_array_unref (review->decisions);
  g_ptr_array_unref (review->days);
  g_array_unref (review->sets);
  g_array_unref (review->rules);
  g_array_unref (review->scale.checks);
  g_array_unref (review->methods);
  tg_setup_free (review->setup);
  g_free (review->struck);
  g_free (review->standing);
  g_free (review);
}

double
tg_review_effect (const TgPartReview *part, TgFigure figure, guint zone)
{
  double lever;

  if (part->design->kind != TG_PART_ROD)
    return figure != TG_FIGURE_BIG_END;
  if (figure == TG_FIGURE_WHOLE)
    return 1;
  lever = tg_part_review_zone (part, zone)->lever.lever;
  return figure == TG_FIGURE_SMALL_END ? lever : 1 - lever;
}

guint
tg_review_n_rows (const TgReview *review, TgPartKind kind)
{
  if (kind == TG_PART_PISTON)
    return tg_setup_has_band (review->setup, TG_BAND_PISTON_ALONE) ? 2 : 1;
  return kind == TG_PART_ROD ? 2 : 0;
}

TgFigure
tg_review_row_figure (TgPartKind kind, guint row)
{
  if (kind != TG_PART_ROD)
    return TG_FIGURE_WHOLE;
  return row == 0 ? TG_FIGURE_SMALL_END : TG_FIGURE_BIG_END;
}

int
tg_part_review_row (const TgPartReview *part, TgFigure figure)
{
  if (part->design->kind != TG_PART_ROD)
    return figure == TG_FIGURE_WHOLE ? 0 : -1;
  return figure == TG_FIGURE_WHOLE ? -1 : (int) figure;
}

double
tg_review_reading_u_g (const TgReview *review, TgSupport support)
{
  const TgRepeatability *repeat = &review->scale.repeatability[support];

  return hypot (repeat->deviation_g, repeat->rounding_u_g);
}

char *
tg_review_grams (const TgReview *review, double grams)
{
  guint decimals = tg_mass_decimals (review->setup->resolution);
  TgMass mass = tg_mass_from_g (CLAMP (grams, -1e5, 1e5));
  TgMass unit = decimals >= 3 ? 1 : decimals == 2 ? 10 : decimals == 1 ? 100 : 1000;

  if (decimals < 3 && mass % unit != 0)
    decimals++;
  return tg_mass_format (mass, decimals);
}

const char *
tg_state_label (TgState state)
{
  static const char *const labels[] = { "not weighed", "weighed",   "to grind",    "weigh again",
                                        "even",        "too light", "out of reach" };

  g_return_val_if_fail ((guint) state < G_N_ELEMENTS (labels), NULL);

  return labels[state];
}

const char *
tg_part_review_label (const TgPartReview *part)
{
  if (part->state != TG_STATE_EVEN)
    return tg_state_label (part->state);
  for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
    if (part->weight[figure].judged && !part->weight[figure].proven)
      return "even, not proven";
  return "even, proven";
}

const char *
tg_weight_verdict_label (const TgWeight *weight)
{
  if (!weight->judged)
    return "";
  if (weight->verdict == TG_UNCERTAINTY_OUT)
    return "out";
  return weight->proven ? "proven" : "not proven";
}
