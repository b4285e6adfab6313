/* bobweight.c: what is hung on each crankpin, see bobweight.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sum of the crankshaft shop, term by term, from the weights of the parts that run on each pin.
 * Oil and other allowances are taken for exact.  The factor says how much of what goes up and down
 * counts; bobweight-factor.c has the one of the layout.
 */
#include "bobweight.h"

#include <math.h>

#include "balance-private.h"
#include "number.h"

/* Which figure each term sums; the other terms are allowances. */
typedef struct
{
  gboolean weighed;
  TgPartKind kind;
  TgFigure figure;
} Source;

static const Source sources[TG_N_BOBWEIGHT_TERMS] = {
  [TG_TERM_BIG_ENDS] = { TRUE, TG_PART_ROD, TG_FIGURE_BIG_END },
  [TG_TERM_BEARINGS] = { TRUE, TG_PART_BEARINGS, TG_FIGURE_WHOLE },
  [TG_TERM_PISTONS] = { TRUE, TG_PART_PISTON, TG_FIGURE_WHOLE },
  [TG_TERM_PINS] = { TRUE, TG_PART_PIN, TG_FIGURE_WHOLE },
  [TG_TERM_RINGS] = { TRUE, TG_PART_RINGS, TG_FIGURE_WHOLE },
  [TG_TERM_CLIPS] = { TRUE, TG_PART_CLIPS, TG_FIGURE_WHOLE },
  [TG_TERM_SMALL_ENDS] = { TRUE, TG_PART_ROD, TG_FIGURE_SMALL_END },
};

const char *
tg_bobweight_term_label (TgBobweightTerm term)
{
  static const char *const labels[TG_N_BOBWEIGHT_TERMS] = {
    "big ends", "bearings",   "other parts with each big end", "oil", "pistons", "pins", "rings",
    "clips",    "small ends", "other parts with each piston",
  };

  g_return_val_if_fail ((guint) term < TG_N_BOBWEIGHT_TERMS, NULL);

  return labels[term];
}

static const TgWeight *
weight_at (const TgReview *review, const Source *source, guint bore)
{
  const TgPart *part = tg_setup_at_bore (review->setup, source->kind, bore);
  guint index;

  if (!part || !tg_setup_find_part (review->setup, part->id, &index))
    return NULL;
  return &tg_review_part (review, index)->weight[source->figure];
}

/* What each rod carries besides what is weighed. */
static double
allowance_g (const TgEngine *engine, TgBobweightTerm term)
{
  if (term == TG_TERM_OTHER_ROTATING)
    return engine->other_rotating_g;
  return term == TG_TERM_OTHER_RECIPROCATING ? engine->other_reciprocating_g : 0;
}

static void
find_terms (TgBobweight *bobweight, const TgReview *review)
{
  for (guint t = 0; t < TG_N_BOBWEIGHT_TERMS; t++)
    bobweight->weighed[t] = sources[t].weighed ? tg_setup_has_kind (review->setup, sources[t].kind)
                                               : allowance_g (&review->setup->engine, t) > 0;
  bobweight->weighed[TG_TERM_OIL] = review->setup->engine.oil_g > 0;
}

/* One rod and all that goes with it. */
static void
add_bore (TgBobweightPin *pin, const TgReview *review, double factor, guint bore, double *freedom)
{
  pin->bores[pin->n_rods++] = bore;
  for (guint t = 0; t < TG_N_BOBWEIGHT_TERMS; t++)
    {
      const TgWeight *weight = sources[t].weighed ? weight_at (review, &sources[t], bore) : NULL;
      double share = t >= TG_TERM_FIRST_RECIPROCATING ? factor : 1;

      pin->terms_g[t] += allowance_g (&review->setup->engine, t);
      if (!weight || weight->basis == TG_WEIGHT_NONE)
        continue;
      pin->terms_g[t] += weight->mean_g;
      pin->u_g = hypot (pin->u_g, share * weight->u_g);
      if (share * weight->u_g > 0 && weight->freedom > 0)
        *freedom = MIN (*freedom, weight->freedom);
    }
}

static void
sum_pin (TgBobweightPin *pin, double factor, double freedom)
{
  for (guint t = 0; t < TG_N_BOBWEIGHT_TERMS; t++)
    *(t >= TG_TERM_FIRST_RECIPROCATING ? &pin->reciprocating_g
                                       : &pin->rotating_g) += pin->terms_g[t];
  pin->bobweight_g = pin->rotating_g + factor * pin->reciprocating_g;
  pin->expanded_g = pin->u_g * tg_uncertainty_coverage (freedom, TG_REVIEW_LEVEL);
}

static void
compare_pins (TgBobweight *bobweight)
{
  for (guint p = 0; p < bobweight->n_pins; p++)
    {
      double weight_g = bobweight->pins[p].bobweight_g;

      bobweight->mean_g += weight_g / bobweight->n_pins;
      if (weight_g < bobweight->pins[bobweight->lightest].bobweight_g)
        bobweight->lightest = p;
      if (weight_g > bobweight->pins[bobweight->heaviest].bobweight_g)
        bobweight->heaviest = p;
    }
  bobweight->spread_g = bobweight->pins[bobweight->heaviest].bobweight_g -
                        bobweight->pins[bobweight->lightest].bobweight_g;
}

static double
unbalance_g_mm (const TgBobweight *bobweight, const TgEngineLayout *layout, double radius_mm)
{
  double x = 0, y = 0;

  for (guint p = 0; p < bobweight->n_pins; p++)
    {
      const TgBobweightPin *pin = &bobweight->pins[p];
      double angle = layout->cylinders[pin->bores[0] - 1].throw_deg * (G_PI / 180);
      double moment = (pin->bobweight_g - bobweight->mean_g) * radius_mm;

      x += moment * cos (angle);
      y += moment * sin (angle);
    }
  return hypot (x, y);
}

static void
hang (TgBobweight *bobweight, const TgReview *review, const TgEngineLayout *layout)
{
  double freedom[TG_ENGINE_LAYOUT_MAX];

  bobweight->suggested = tg_bobweight_factor (layout, &bobweight->use, &bobweight->ground);
  bobweight->by_layout = review->setup->engine.factor_percent < 0;
  bobweight->factor = bobweight->by_layout ? bobweight->suggested
                                           : review->setup->engine.factor_percent / 100;
  bobweight->n_pins = layout->n_pins;
  for (guint p = 0; p < layout->n_pins; p++)
    {
      freedom[p] = (double) INFINITY;
      bobweight->pins[p].terms_g[TG_TERM_OIL] = review->setup->engine.oil_g;
    }
  for (guint i = 0; i < layout->n; i++)
    {
      guint p = layout->cylinders[i].pin;

      add_bore (&bobweight->pins[p], review, bobweight->factor, i + 1, &freedom[p]);
    }
  for (guint p = 0; p < layout->n_pins; p++)
    sum_pin (&bobweight->pins[p], bobweight->factor, freedom[p]);
  compare_pins (bobweight);
  bobweight->unbalance_g_mm = unbalance_g_mm (bobweight, layout,
                                              review->setup->engine.stroke_mm / 2);
}

guint
tg_bobweight_decimals (const TgReview *review)
{
  return MIN (3, tg_mass_decimals (review->setup->resolution) + 1);
}

char *
tg_bobweight_words (const TgBobweight *bobweight, const TgReview *review)
{
  guint decimals = tg_bobweight_decimals (review);
  g_autofree char *mean = NULL, *spread = NULL, *moment = NULL;
  GString *out;

  g_return_val_if_fail (bobweight->known, NULL);

  mean = tg_number_format (bobweight->mean_g, decimals);
  spread = tg_number_format (bobweight->spread_g, decimals);
  moment = tg_number_format (bobweight->unbalance_g_mm, 0);
  if (bobweight->n_pins == 1)
    return g_strdup_printf ("The bobweight is %s\302\240g.", mean);
  out = g_string_new (NULL);
  g_string_printf (out, "One bobweight for all crankpins: %s\302\240g. They differ by %s\302\240g.",
                   mean, spread);
  if (bobweight->unbalance_g_mm > 0)
    g_string_append_printf (out, " One for all leaves %s\302\240g·mm.", moment);
  return g_string_free (out, FALSE);
}

TgBobweight *
tg_bobweight_new (const TgReview *review)
{
  TgBobweight *bobweight = g_new0 (TgBobweight, 1);
  g_autoptr (GError) error = NULL;
  TgBalanceMasses masses = { 0 };
  TgEngineLayout layout;

  g_return_val_if_fail (review, bobweight);

  find_terms (bobweight, review);
  if (!tg_setup_engine_layout (review->setup, &layout, &error))
    {
      bobweight->missing = g_strdup (error->message);
      bobweight->ground = g_strdup ("");
      return bobweight;
    }
  tg_balance_weigh (&masses, review, review->setup, TG_BALANCE_NOW);
  bobweight->known = masses.known;
  bobweight->missing = masses.missing;
  hang (bobweight, review, &layout);
  return bobweight;
}

void
tg_bobweight_free (TgBobweight *bobweight)
{
  g_free (bobweight->missing);
  g_free (bobweight->ground);
  g_free (bobweight);
}
