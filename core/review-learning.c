/* review-learning.c: what the passes of the job teach: levers, and what a pass takes
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A zone's lever belongs to the design, so the passes on that zone of every rod of it teach together;
 * what a pass takes belongs to the tool and the metal.  The arithmetic is in lever-learning.c.
 */
#include <math.h>

#include "review-private.h"

/* How well a place can be measured on a rod with a rule, mm; common practice, no published source. */
#define MEASURED_MM 0.5

TgLeverLearning
tg_review_drawn_lever (const TgDesign *design, const TgZone *zone)
{
  TgLeverLearning drawn = { .chance = 1, .consistent = TRUE };
  double length = design->rod.centres;

  if (design->kind != TG_PART_ROD)
    return drawn;
  drawn.lever = tg_design_zone_position (design, zone) / length;
  drawn.u = hypot (tg_uncertainty_of_interval (tg_design_zone_length (design, zone) / 2),
                   MEASURED_MM) /
            length;
  return drawn;
}

static TgLeverLearning
learn_arm (const TgReviewLessons *lessons, const TgDesign *design, guint zone)
{
  g_autofree TgLeverLearningPair *pairs = g_new (TgLeverLearningPair, lessons->arms->len + 1);
  TgLeverLearning drawn = tg_review_drawn_lever (design, tg_design_zone (design, zone));
  guint n = 0;

  for (guint i = 0; i < lessons->arms->len; i++)
    {
      const TgReviewArmLesson *lesson = &g_array_index (lessons->arms, TgReviewArmLesson, i);

      if (lesson->design == design && lesson->zone == zone)
        pairs[n++] = lesson->pair;
    }
  return n > 0 ? tg_lever_learning_arm (pairs, n, drawn.lever, drawn.u) : drawn;
}

static void
give_arm (TgReview *review, const TgDesign *design, guint zone, const TgLeverLearning *lever)
{
  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);

      if (part->design == design)
        g_array_index (part->zones, TgZoneReview, zone).lever = *lever;
    }
}

gboolean
tg_review_learn_arms (TgReview *review, const TgReviewLessons *lessons)
{
  for (guint d = 0; lessons->arms->len > 0 && d < review->setup->designs->len; d++)
    {
      const TgDesign *design = g_ptr_array_index (review->setup->designs, d);

      for (guint zone = 0; design->kind == TG_PART_ROD && zone < design->zones->len; zone++)
        {
          const TgLeverLearning lever = learn_arm (lessons, design, zone);

          give_arm (review, design, zone, &lever);
        }
    }
  return lessons->arms->len > 0;
}

static TgMethodReview *
find_method (const TgReview *review, TgTool tool, TgMetal metal, TgEffort effort)
{
  for (guint i = 0; i < review->methods->len; i++)
    {
      TgMethodReview *method = &g_array_index (review->methods, TgMethodReview, i);

      if (method->tool == tool && method->metal == metal && method->effort == effort)
        return method;
    }
  return NULL;
}

void
tg_review_learn_methods (TgReview *review, const TgReviewLessons *lessons)
{
  for (guint i = 0; i < lessons->passes->len; i++)
    {
      const TgReviewPassLesson *lesson = &g_array_index (lessons->passes, TgReviewPassLesson, i);
      TgMethodReview *method = find_method (review, lesson->tool, lesson->metal, lesson->effort);

      if (!method)
        {
          const TgMethodReview unlearned = {
            .tool = lesson->tool,
            .metal = lesson->metal,
            .effort = lesson->effort,
            .method = tg_lever_learning_unlearned (lesson->effort == TG_EFFORT_NONE),
          };

          g_array_append_val (review->methods, unlearned);
          method = &g_array_index (review->methods, TgMethodReview, review->methods->len - 1);
        }
      method->n += (guint) tg_lever_learning_method (&lesson->pass, 1, &method->method,
                                                     &method->method);
    }
}

TgLeverLearningMethod
tg_review_method (const TgReview *review, TgTool tool, TgMetal metal, TgEffort effort, guint *n)
{
  const TgMethodReview *found = find_method (review, tool, metal, effort);

  *n = found ? found->n : 0;
  return found ? found->method : tg_lever_learning_unlearned (effort == TG_EFFORT_NONE);
}

/* -- the next pass ---------------------------------------------------------------------------- */

/* A zone hardly moves a figure below this; then the other one says how much may come off. */
#define LEAST_EFFECT 0.02

/* The most that may be asked of a pass, in the method's own unit, so that no figure goes under its
 * band with more than the chance that is set: each has its own room and is known as well as it is. */
static double
most_asked (const TgReview *review,
            const TgPartReview *part,
            const TgNext *next,
            const TgLeverLearningMethod *method)
{
  double chance = review->setup->overshoot_percent / 100, most = INFINITY;

  for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
    {
      TgFigure figure = tg_review_row_figure (part->design->kind, row);
      TgBand band = tg_review_row_band (review, part->design->kind, row);
      double effect = tg_review_effect (part, figure, next->zone), room_g, u_g;

      if (effect < LEAST_EFFECT)
        continue;
      room_g = tg_review_row_planned_g (review, part, row) - review->bands[band].target_g;
      u_g = tg_review_row_sum (review, part, row).u_g;
      most = MIN (most, tg_lever_learning_next (method, room_g / effect, u_g / effect, chance));
    }
  return isfinite (most) ? most : 0;
}

/* Far enough inside the band that a reading will prove it, and that the scatter of the pass is not
 * spent on a second pass, but not beyond the middle. */
static double
aim_g (const TgPartReview *part, const TgNext *next, double scatter)
{
  double effect = fabs (tg_review_effect (part, next->slot.figure, next->zone));
  double u_g = part->weight[next->slot.figure].u_g / MAX (effect, LEAST_EFFECT);
  double guard = tg_uncertainty_guard_band ((TgUncertainty){ u_g, INFINITY }, TG_REVIEW_LEVEL);
  double middle = (next->amount_g + MAX (next->amount_g, next->at_most_g)) / 2;

  return MIN (middle, next->amount_g + hypot (guard, scatter * next->amount_g));
}

void
tg_review_plan_pass (const TgReview *review, TgNext *next, TgTool tool)
{
  const TgPartReview *part = tg_review_part (review, next->slot.part);
  double unit = tg_mass_to_g (review->setup->resolution) / 2, most, aim;
  guint n;
  TgLeverLearningMethod method = tg_review_method (review, tool, part->design->metal,
                                                   TG_EFFORT_NONE, &n);

  /* a hand that takes less than is asked is asked for more, but not for more than may come off */
  aim = aim_g (part, next, method.scatter) /
        tg_lever_learning_ratio (&method, TG_REVIEW_LEVEL, NULL, NULL);
  most = MIN (most_asked (review, part, next, &method), next->at_most_g);
  /* in halves of a step: whole ones would waste much of a narrow band */
  next->pass_g = MIN (floor (most / unit + 1e-6), round (aim / unit)) * unit;
  if (next->pass_g <= 0)
    next->pass_g = MIN (MAX (MIN (most, aim), MIN (2 * unit, next->amount_g) / 2), next->at_most_g);
  next->count = tg_review_pass_effort (review, next->slot.part, next, tool, &next->effort);
}

guint
tg_review_pass_effort (
    const TgReview *review, guint index, const TgNext *next, TgTool tool, TgEffort *effort)
{
  const TgPartReview *part = tg_review_part (review, index);
  guint most = 0;
  double count = 0;

  *effort = TG_EFFORT_NONE;
  for (TgEffort e = TG_EFFORT_STROKES; e <= TG_EFFORT_SECONDS; e++)
    {
      guint n;
      TgLeverLearningMethod method = tg_review_method (review, tool, part->design->metal, e, &n);

      if (n <= most)
        continue;
      most = n;
      *effort = e;
      count = MIN (most_asked (review, part, next, &method),
                   aim_g (part, next, method.scatter) /
                       tg_lever_learning_ratio (&method, TG_REVIEW_LEVEL, NULL, NULL));
    }
  return *effort == TG_EFFORT_NONE ? 0 : (guint) CLAMP (floor (count), 1, TG_MAX_EFFORT);
}
