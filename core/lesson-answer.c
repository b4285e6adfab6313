/* lesson-answer.c: the answer to a question of a lesson, as the job gives it, see lesson-question.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every figure is one of the review, or follows from the drawing by statics; here it is only laid out
 * as a sum.
 */
#include <math.h>
#include <string.h>

#include "lesson-question.h"
#include "number.h"
#include "pairing.h"
#include "reason.h"
#include "review-private.h"

/* Depths are asked to a hundredth of a mm. */
#define DEPTH_MM 0.01

/* Sub-problems that the search for a pairing may look at. */
#define PAIRING_NODES 200000

typedef struct
{
  const TgLessonQuestion *question;
  const TgReview *review;
  TgLessonAnswer *answer;
} Ask;

static void
option_free (TgLessonOption *option)
{
  g_free (option->value);
  g_free (option->text);
  g_free (option);
}

static const TgPartReview *
part_of (const Ask *ask)
{
  return tg_review_part (ask->review, ask->question->about.index);
}

static double
half_step (const Ask *ask)
{
  return tg_mass_to_g (ask->review->setup->resolution) / 2;
}

/* -- small helpers of the sums --------------------------------------------------------------------- */

static char *
grams (const Ask *ask, double value_g)
{
  g_autofree char *number = tg_review_grams (ask->review, value_g);

  return g_strdup_printf ("%s g", number);
}

static void
term (const Ask *ask, const char *label, char *figure, const char *remark)
{
  tg_terms_add (ask->answer->sum, label, figure, remark);
}

static void
term_g (const Ask *ask, const char *label, double value_g, const char *remark)
{
  term (ask, label, grams (ask, value_g), remark);
}

static void
missing (const Ask *ask, char *text)
{
  g_free (ask->answer->missing);
  ask->answer->missing = text;
}

/* FALSE, and said so, if the figure of the part was never read. */
static gboolean
is_read (const Ask *ask, const TgPartReview *part, TgFigure figure)
{
  if (part->weight[figure].basis != TG_WEIGHT_NONE)
    return TRUE;
  missing (ask, g_strdup_printf ("%s: the %s was not read yet", part->part->name,
                                 tg_figure_label (part->design->kind, figure)));
  return FALSE;
}

static gboolean
band_is_known (const Ask *ask)
{
  TgBand band = ask->question->about.band;

  if (ask->review->bands[band].n_weighed == ask->review->bands[band].n_parts)
    return TRUE;
  missing (ask, g_strdup_printf ("Not all of the %s were read yet",
                                 tg_setup_band_label (ask->review->setup, band)));
  return FALSE;
}

/* -- statics --------------------------------------------------------------------------------------- */

static void
answer_effect (const Ask *ask)
{
  const TgLessonSubject *about = &ask->question->about;
  const TgDesign *design = part_of (ask)->design;
  const TgZone *zone = tg_design_zone (design, about->zone_index);
  TgRodStatics share = { 0, 0 };
  double whole = -about->grams, length = design->rod.centres;
  double position = tg_design_zone_position (design, zone);
  g_autofree char *off = tg_number_format_short (about->grams);

  if (design->kind == TG_PART_ROD)
    {
      g_autofree char *d = tg_number_format (position, 1);
      g_autofree char *l = tg_number_format (length, 1);

      share = tg_rod_statics_effect (length, position);
      ask->answer->moves = TRUE;
      ask->answer->effect = (TgRodStatics){ whole * share.small, whole * share.big };
      term (ask, "centre distance", g_strdup_printf ("%s mm", l),
            "from bore centre to bore centre");
      term (ask, zone->name, g_strdup_printf ("%s mm", d),
            "measured from the centre of the big end towards the small end");
      term (ask, "small end", tg_number_format_signed (whole * share.small, 2),
            "grams off × where they come off / centre distance");
      term (ask, "big end", tg_number_format_signed (whole * share.big, 2),
            "what is left, so that both together are the grams that came off");
      tg_reason_close (ask->answer->sum, TG_REASON_ASK_EFFECT);
    }
  else
    {
      term (ask, zone->name, g_strdup_printf ("−%s g", off), "");
      tg_reason_close (ask->answer->sum, TG_REASON_ASK_PISTON);
    }
  ask->answer->value = about->figure == TG_FIGURE_SMALL_END ? whole * share.small
                       : about->figure == TG_FIGURE_BIG_END ? whole * share.big
                                                            : whole;
  ask->answer->decimals = 2;
}

/* -- readings -------------------------------------------------------------------------------------- */

static gboolean
both_ways (const Ask *ask, const TgWeight *weight)
{
  if (weight->n[TG_WAY_MARK_UP] > 0 && weight->n[TG_WAY_MARK_DOWN] > 0)
    return TRUE;
  missing (ask,
           g_strdup_printf ("%s: the %s was not read both ways up yet", part_of (ask)->part->name,
                            tg_figure_label (TG_PART_ROD, ask->question->about.figure)));
  return FALSE;
}

static void
answer_ways (const Ask *ask)
{
  const TgWeight *weight = &part_of (ask)->weight[ask->question->about.figure];
  gboolean mean = ask->question->kind == TG_LESSON_ASK_MEAN;
  double up, down;

  if (!both_ways (ask, weight))
    return;
  up = weight->way_g[TG_WAY_MARK_UP];
  down = weight->way_g[TG_WAY_MARK_DOWN];
  term_g (ask, "mark up", up, weight->n[TG_WAY_MARK_UP] > 1 ? "mean of its readings" : "");
  term_g (ask, "mark down", down, weight->n[TG_WAY_MARK_DOWN] > 1 ? "mean of its readings" : "");
  ask->answer->value = mean ? (up + down) / 2 : up - down;
  if (mean)
    {
      term_g (ask, "mean", ask->answer->value, "(mark up + mark down) / 2");
      tg_reason_close (ask->answer->sum, TG_REASON_ASK_MEAN);
    }
  else
    {
      term (ask, "turn-over difference", tg_number_format_signed (up - down, 2),
            "mark up − mark down, in g");
      tg_reason_close (ask->answer->sum, TG_REASON_ASK_TURN);
    }
}

static void
answer_closure (const Ask *ask)
{
  const TgPartReview *part = part_of (ask);

  for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
    if (!is_read (ask, part, figure))
      return;
  for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
    term_g (ask, tg_figure_label (TG_PART_ROD, figure), part->weight[figure].mean_g, "");
  ask->answer->value = part->closure_g;
  term (ask, "closure", tg_number_format_signed (part->closure_g, 2),
        "small end + big end − whole, in g");
  tg_reason_close (ask->answer->sum, TG_REASON_ASK_CLOSURE);
}

/* -- bands and plans ------------------------------------------------------------------------------- */

static void
answer_spread (const Ask *ask)
{
  const TgBandReview *band = &ask->review->bands[ask->question->about.band];

  if (!band_is_known (ask))
    return;
  term_g (ask, "heaviest", band->heaviest_g,
          tg_review_part (ask->review, band->heaviest)->part->name);
  term_g (ask, "lightest", band->lightest_g,
          tg_review_part (ask->review, band->lightest)->part->name);
  term_g (ask, "spread", band->spread_g, "heaviest − lightest");
  ask->answer->value = band->spread_g;
  tg_reason_close (ask->answer->sum, TG_REASON_ASK_SPREAD);
}

static void
answer_target (const Ask *ask)
{
  const TgBandReview *band = &ask->review->bands[ask->question->about.band];

  if (!band->known)
    {
      missing (ask, g_strdup ("There is no target yet: not everything was read"));
      return;
    }
  term_g (ask, "lightest", band->lightest_g,
          tg_review_part (ask->review, band->lightest)->part->name);
  term_g (ask, "tolerance", band->tolerance_g, "");
  term_g (ask, "target", band->target_g,
          band->decided ? "lower edge of the band, as decided"
                        : "lower edge of the band, with the least metal over the set");
  ask->answer->value = band->target_g;
  tg_reason_close (ask->answer->sum, TG_REASON_ASK_TARGET);
}

static void
answer_come_off (const Ask *ask)
{
  const TgLessonSubject *about = &ask->question->about;
  const TgPartReview *part = part_of (ask);

  if (part->state == TG_STATE_UNWEIGHED || part->state == TG_STATE_WAITING)
    {
      missing (ask, g_strdup_printf ("%s: there is no plan yet", part->part->name));
      return;
    }
  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);

      if ((about->zone && z != about->zone_index) || zone->amount_g <= 0)
        continue;
      term_g (ask, zone->zone->name, zone->amount_g, "as planned");
      ask->answer->value += zone->amount_g;
    }
  if (ask->answer->sum->len != 1)
    term_g (ask, "to come off", ask->answer->value, "");
  tg_reason_close (ask->answer->sum, TG_REASON_ASK_COME_OFF);
}

static void
answer_at_most (const Ask *ask)
{
  const TgPartReview *part = part_of (ask);
  const TgZoneReview *zone = tg_part_review_zone (part, ask->question->about.zone_index);

  if (part->state == TG_STATE_UNWEIGHED || part->state == TG_STATE_WAITING)
    {
      missing (ask, g_strdup_printf ("%s: there is no plan yet", part->part->name));
      return;
    }
  for (guint row = 0; row < tg_review_n_rows (ask->review, part->design->kind); row++)
    tg_review_why_row (ask->review, ask->answer->sum, part, row);
  term_g (ask, "to come off", zone->amount_g, zone->zone->name);
  term_g (ask, "at most", zone->at_most_g, "beyond it a figure falls below its band");
  ask->answer->value = zone->at_most_g;
  tg_reason_close (ask->answer->sum, TG_REASON_ASK_AT_MOST);
}

static void
answer_depth (const Ask *ask)
{
  const TgLessonSubject *about = &ask->question->about;
  const TgDesign *design = part_of (ask)->design;
  const TgZone *zone = tg_design_zone (design, about->zone_index);
  double depth = tg_design_zone_depth_mm (design, zone, about->grams);
  guint sides = tg_place_is_pair (zone->place) ? 2 : 1;
  g_autofree char *area = tg_number_format (zone->area_mm2, 0);
  g_autofree char *density = tg_number_format (design->density, 2);
  g_autofree char *off = tg_number_format_short (about->grams);
  g_autofree char *mm = tg_number_format (depth, 2);

  term (ask, "off", g_strdup_printf ("%s g", off), zone->name);
  term (ask, "area", g_strdup_printf ("%s%s mm²", sides == 2 ? "2 × " : "", area), "");
  term (ask, "density", g_strdup_printf ("%s g/cm³", density), design->material);
  term (ask, "depth", g_strdup_printf ("%s mm", mm), "1000 × grams / (area × density)");
  tg_reason_close (ask->answer->sum, TG_REASON_ASK_DEPTH);
  ask->answer->value = depth;
  ask->answer->decimals = 2;
  ask->answer->unit = "mm";
  ask->answer->tolerance = DEPTH_MM;
}

static void
answer_proof (const Ask *ask)
{
  TgBand band = ask->question->about.band;
  g_autoptr (TgProof) proof = tg_review_proof (ask->review, band);

  if (proof->needed == 0)
    {
      missing (ask, g_strdup ("This scale cannot prove the tolerance, however often it is read"));
      return;
    }
  term_g (ask, "tolerance", ask->review->bands[band].tolerance_g, "");
  for (guint i = 0; i < TG_PROOF_STEPS && proof->can[i].readings > 0; i++)
    {
      g_autofree char *label = g_strdup_printf ("%u reading%s", proof->can[i].readings,
                                                proof->can[i].readings == 1 ? "" : "s");

      term_g (ask, label, proof->can[i].spread_g, "the narrowest spread that they can prove");
    }
  term (ask, "needed", g_strdup_printf ("%u", proof->needed), proof->text);
  tg_reason_close (ask->answer->sum, TG_REASON_ASK_PROOF);
  ask->answer->value = proof->needed;
  ask->answer->decimals = 0;
  ask->answer->unit = "readings";
  ask->answer->tolerance = 0;
}

static void
answer_sum (const Ask *ask)
{
  const TgSetReview *set = &g_array_index (ask->review->sets, TgSetReview,
                                           ask->question->about.bore - 1);

  if (!set->known)
    {
      missing (ask, g_strdup_printf ("Not all parts at bore %u were read yet", set->bore));
      return;
    }
  for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      gboolean rod = kind == TG_PART_ROD;
      const TgPartReview *part;

      if (set->part[kind] < 0 || kind == TG_PART_BEARINGS ||
          !tg_setup_in_sum (ask->review->setup, kind))
        continue;
      part = tg_review_part (ask->review, (guint) set->part[kind]);
      term_g (ask, part->part->name,
              part->weight[rod ? TG_FIGURE_SMALL_END : TG_FIGURE_WHOLE].mean_g,
              rod ? "its small end" : "");
    }
  term_g (ask, "sum", set->sum_g, "");
  ask->answer->value = set->sum_g;
  tg_reason_close (ask->answer->sum, TG_REASON_ASK_SUM);
}

/* -- which part ------------------------------------------------------------------------------------ */

static void
add_option (const Ask *ask, const char *value, const char *text, gboolean right)
{
  TgLessonOption *option = g_new0 (TgLessonOption, 1);

  option->value = g_strdup (value);
  option->text = g_strdup (text);
  option->right = right;
  g_ptr_array_add (ask->answer->options, option);
}

static void
answer_choice (const Ask *ask)
{
  for (guint i = 0; i < ask->question->choices->len; i++)
    {
      const TgLessonChoice *choice = g_ptr_array_index (ask->question->choices, i);
      g_autofree char *value = g_strdup_printf ("%u", i + 1);

      add_option (ask, value, choice->text, choice->right);
    }
}

/* Equal ones are equally right. */
static void
answer_extreme (const Ask *ask)
{
  TgBand b = ask->question->about.band;
  const TgBandReview *band = &ask->review->bands[b];
  gboolean lightest = ask->question->kind == TG_LESSON_ASK_LIGHTEST;
  double extreme = lightest ? band->lightest_g : band->heaviest_g;

  if (!band_is_known (ask))
    return;
  for (guint i = 0; i < ask->review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (ask->review, i);
      int row = tg_part_review_row (part, tg_band_figure (b));
      double weight;

      if (part->design->kind != tg_band_kind (b) || !part->in_work || row < 0)
        continue;
      weight = part->weight[tg_band_figure (b)].mean_g;
      if (b != TG_BAND_PISTON_ALONE && part->carried[row].any)
        weight += part->carried[row].grams;
      term_g (ask, part->part->name, weight, "");
      add_option (ask, part->part->id, part->part->name,
                  fabs (weight - extreme) < TG_REVIEW_TINY_G);
    }
  tg_reason_close (ask->answer->sum, lightest ? TG_REASON_ASK_LIGHTEST : TG_REASON_ASK_HEAVIEST);
}

static gboolean
find_in_pairing (const TgPairing *pairing, guint part, guint *family, guint *number)
{
  for (guint f = 0; f < pairing->problem.n_families; f++)
    for (guint i = 0; i < pairing->families[f].n; i++)
      if (pairing->families[f].part[i] == part)
        {
          *family = f;
          *number = i;
          return TRUE;
        }
  return FALSE;
}

static void
offer_partners (const Ask *ask, const TgPairing *pairing, const TgMatchingPlan *plan)
{
  guint mine, number, bore = 0;

  if (!find_in_pairing (pairing, ask->question->about.index, &mine, &number))
    return;
  while (bore < pairing->problem.n_cylinders && plan->part[mine][bore] != number)
    bore++;
  for (guint f = 0; f < pairing->problem.n_families; f++)
    for (guint i = 0;
         pairing->families[f].kind == ask->question->about.kind && i < pairing->families[f].n; i++)
      {
        const TgPartReview *part = tg_review_part (ask->review, pairing->families[f].part[i]);

        term_g (ask, part->part->name, tg_pairing_part_g (pairing, f, i), "");
        add_option (ask, part->part->id, part->part->name,
                    bore < pairing->problem.n_cylinders && plan->part[f][bore] == i);
      }
}

static void
answer_partner (const Ask *ask)
{
  const TgMatchingLimits limits = { .nodes = PAIRING_NODES };
  char *why_not = NULL;
  g_autoptr (TgPairing) pairing = tg_pairing_new (ask->review, TG_PAIRING_PISTONS, &why_not);
  TgPairingResult result;
  g_autofree char *plan = NULL;
  g_autofree char *proof = NULL;

  if (!pairing)
    {
      missing (ask, why_not);
      return;
    }
  tg_pairing_solve (pairing, &limits, &result);
  offer_partners (ask, pairing, &result.sums.plan);
  plan = tg_pairing_plan_words (pairing, &result.sums.plan);
  proof = tg_pairing_proof_words (pairing, &result);
  term (ask, "best pairing", g_strdup (plan), proof);
  tg_reason_close (ask->answer->sum, TG_REASON_ASK_PARTNER);
}

/* -- all of them ----------------------------------------------------------------------------------- */

static void (*const answers[TG_N_LESSON_QUESTIONS]) (const Ask *ask) = {
  [TG_LESSON_ASK_CHOICE] = answer_choice,    [TG_LESSON_ASK_EFFECT] = answer_effect,
  [TG_LESSON_ASK_MEAN] = answer_ways,        [TG_LESSON_ASK_TURN] = answer_ways,
  [TG_LESSON_ASK_CLOSURE] = answer_closure,  [TG_LESSON_ASK_SPREAD] = answer_spread,
  [TG_LESSON_ASK_TARGET] = answer_target,    [TG_LESSON_ASK_COME_OFF] = answer_come_off,
  [TG_LESSON_ASK_AT_MOST] = answer_at_most,  [TG_LESSON_ASK_DEPTH] = answer_depth,
  [TG_LESSON_ASK_PROOF] = answer_proof,      [TG_LESSON_ASK_SUM] = answer_sum,
  [TG_LESSON_ASK_LIGHTEST] = answer_extreme, [TG_LESSON_ASK_HEAVIEST] = answer_extreme,
  [TG_LESSON_ASK_PARTNER] = answer_partner,
};

TgLessonAnswer *
tg_lesson_answer_new (const TgLessonQuestion *question, const TgReview *review)
{
  TgLessonAnswer *answer = g_new0 (TgLessonAnswer, 1);
  const Ask ask = { question, review, answer };

  answer->missing = g_strdup ("");
  answer->options = g_ptr_array_new_with_free_func ((GDestroyNotify) option_free);
  answer->sum = tg_terms_new ();
  answer->unit = "g";
  answer->decimals = tg_mass_decimals (review->setup->resolution) + 1;
  answer->tolerance = half_step (&ask);
  answers[question->kind](&ask);
  return answer;
}

void
tg_lesson_answer_free (TgLessonAnswer *answer)
{
  g_free (answer->missing);
  g_ptr_array_unref (answer->options);
  g_ptr_array_unref (answer->sum);
  g_free (answer);
}
