/* debrief-bands.c: how even the set is, truly, and what the person's figures said
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>

#include "debrief-private.h"
#include "number.h"

/* The band that a figure counts in: a carried family's is that of the sum. */
static gboolean
band_of (const TgReview *review, TgPartKind kind, TgFigure figure, TgBand *band)
{
  if (kind == TG_PART_BEARINGS)
    *band = TG_BAND_ROD_BIG;
  else if (kind >= TG_PART_PIN)
    *band = TG_BAND_PISTON;
  else if (!tg_band_of (kind, figure, band))
    return FALSE;
  if (*band == TG_BAND_ROD_SMALL && tg_review_joint (review))
    *band = TG_BAND_PISTON;
  return review->bands[*band].present;
}

/* After each reading: how far the figure of the part is from what it ought to be by now. */
void
tg_debrief_watch_figures (TgDebriefWalk *walk)
{
  const TgPartReview *part;
  TgDebriefBand *band;
  TgBand which;
  double off_g;

  if (walk->event->kind != TG_EVENT_WEIGHING || walk->struck[walk->index])
    return;
  part = tg_review_part (walk->after, (guint) walk->part);
  if (!band_of (walk->after, part->design->kind, walk->event->figure, &which))
    return;
  band = &walk->debrief->bands[which];
  off_g = part->weight[walk->event->figure].mean_g -
          tg_debrief_shown_g (
              walk->setup,
              tg_practice_bench_truth (walk->bench_after, (guint) walk->part, walk->event->figure));
  if (band->worst_event >= 0 && fabs (off_g) <= fabs (band->worst_g))
    return;
  band->worst_g = off_g;
  band->worst_part = walk->part;
  band->worst_figure = walk->event->figure;
  band->worst_event = (int) walk->index;
}

/* -- at the end ------------------------------------------------------------------------------------ */

static void
fill_band (TgDebriefWalk *walk, TgBand which)
{
  const TgBandReview *review = &walk->end->bands[which];
  TgDebriefBand *band = &walk->debrief->bands[which];

  band->present = review->present;
  band->tolerance_g = tg_mass_to_g (tg_setup_tolerance (walk->setup, which));
  band->allowed_g = review->tolerance_g;
  band->true_g = tg_debrief_spread_g (walk->end, walk->bench_after, which);
  band->said = review->n_parts > 0 && review->n_weighed == review->n_parts;
  band->said_g = band->said ? review->spread_g : 0;
}

static const char *
said_words (TgDebriefBand *band)
{
  if (!band->said)
    return "not every part was weighed";
  return band->worst_event < 0 ? "" : "as the readings have it";
}

static GPtrArray *
why_spread (const TgDebriefWalk *walk, TgBand which)
{
  TgDebriefBand *band = &walk->debrief->bands[which];
  GPtrArray *why = tg_terms_new ();

  for (guint i = 0; i < walk->end->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (walk->end, i);

      if (part->in_work && part->design->kind == tg_band_kind (which))
        tg_debrief_term (why, walk->setup, part->part->name,
                         tg_debrief_sum_g (walk->end->setup, walk->bench_after, i, which),
                         "true, at the end");
    }
  tg_debrief_term (why, walk->setup, "true spread", band->true_g, "heaviest minus lightest");
  if (band->said)
    tg_debrief_term (why, walk->setup, "by your figures", band->said_g, said_words (band));
  else
    tg_terms_add (why, "by your figures", g_strdup ("–"), said_words (band));
  tg_debrief_term (why, walk->setup, "tolerance", band->tolerance_g, "as the job began");
  if (fabs (band->allowed_g - band->tolerance_g) > TG_REVIEW_TINY_G)
    tg_debrief_term (why, walk->setup, "tolerance", band->allowed_g, "as it was set later");
  return why;
}

static TgDebriefVerdict
verdict_of (const TgDebriefBand *band)
{
  if (band->true_g <= band->tolerance_g + TG_REVIEW_TINY_G)
    return TG_DEBRIEF_GOOD;
  return band->true_g <= band->allowed_g + TG_REVIEW_TINY_G ? TG_DEBRIEF_FAIR : TG_DEBRIEF_POOR;
}

/* Nobody has tried to make them even yet: there is nothing to blame. */
static gboolean
is_untouched (const TgDebriefWalk *walk, TgBand which)
{
  for (guint i = 0; i < walk->end->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (walk->end, i);

      if (part->design->kind == tg_band_kind (which) && part->passes > 0)
        return FALSE;
    }
  return TRUE;
}

static char *
spread_words (const TgDebriefWalk *walk, TgBand which, TgDebriefVerdict verdict)
{
  static const char *const ends[TG_N_DEBRIEF_VERDICTS] = {
    "even", "even only because the tolerance was widened", "not even"
  };
  const TgDebriefBand *band = &walk->debrief->bands[which];
  const char *label = tg_setup_band_label (walk->end->setup, which);
  g_autofree char *spread = tg_debrief_grams (walk->setup, band->true_g);
  g_autofree char *tolerance = tg_mass_format_exact (tg_mass_from_g (band->tolerance_g));
  g_autofree char *said = tg_debrief_grams (walk->setup, band->said_g);
  g_autofree char *figures = band->said ? g_strdup_printf ("by your figures %s g", said)
                                        : g_strdup ("not all of them were weighed");

  return g_strdup_printf (
      "Spread of the %s: truly %s g, %s; %s g is permitted: %s.", label, spread, figures, tolerance,
      verdict != TG_DEBRIEF_GOOD && is_untouched (walk, which) ? "nothing has been ground yet"
                                                               : ends[verdict]);
}

/* What a reading may be off by at most is that of one reading; of a mean it is less. */
static void
judge_worst (TgDebriefWalk *walk, TgBand which)
{
  const TgDebriefBand *band = &walk->debrief->bands[which];
  const TgPartReview *part;
  GPtrArray *why;
  double explained_g;
  gboolean rod;
  g_autofree char *off = NULL;

  if (band->worst_event < 0)
    return;
  part = tg_review_part (walk->end, (guint) band->worst_part);
  rod = part->design->kind == TG_PART_ROD;
  off = tg_debrief_grams (walk->setup, fabs (band->worst_g));
  why = tg_terms_new ();
  explained_g = tg_debrief_explained_g (walk->setup, band->worst_figure,
                                        &walk->zeros[band->worst_event]);
  tg_debrief_term (why, walk->setup, "the figure less the truth", band->worst_g, "");
  tg_debrief_term (why, walk->setup, "one good reading", explained_g,
                   "half a step, scatter, flicker and the way of the zero, 3.29 u");
  tg_debrief_term (why, walk->setup, "half the tolerance", band->tolerance_g / 2, "");
  tg_debrief_add (walk->debrief, TG_DEBRIEF_SET,
                  fabs (band->worst_g) <= explained_g             ? TG_DEBRIEF_GOOD
                  : fabs (band->worst_g) <= band->tolerance_g / 2 ? TG_DEBRIEF_FAIR
                                                                  : TG_DEBRIEF_POOR,
                  band->worst_event,
                  g_strdup_printf ("The figure farthest off among the %s: %s%s%s, by %s g too %s.",
                                   tg_setup_band_label (walk->end->setup, which), part->part->name,
                                   rod ? ", " : "",
                                   rod ? tg_figure_label (TG_PART_ROD, band->worst_figure) : "",
                                   off, band->worst_g > 0 ? "heavy" : "light"),
                  "", why);
}

void
tg_debrief_judge_set (TgDebriefWalk *walk)
{
  TgDebrief *debrief = walk->debrief;

  debrief->even = TRUE;
  for (TgBand which = 0; which < TG_N_BANDS; which++)
    {
      TgDebriefVerdict verdict;

      fill_band (walk, which);
      if (!debrief->bands[which].present)
        continue;
      verdict = verdict_of (&debrief->bands[which]);
      debrief->even &= verdict == TG_DEBRIEF_GOOD;
      if (verdict == TG_DEBRIEF_POOR && is_untouched (walk, which))
        verdict = TG_DEBRIEF_FAIR;
      tg_debrief_add (debrief, TG_DEBRIEF_SET, verdict, -1, spread_words (walk, which, verdict),
                      verdict == TG_DEBRIEF_GOOD
                          ? ""
                          : "Reads each figure until it repeats, and grinds until readings prove "
                            "the set.",
                      why_spread (walk, which));
      judge_worst (walk, which);
    }
}
