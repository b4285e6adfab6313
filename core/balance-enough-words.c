/* balance-enough-words.c: how even is even enough, in sentences, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * First what is compared, then each band: the spread that is even enough, what the job asks for, and
 * what the scale can prove, so that nobody grinds for what cannot be told apart.
 */
#include <math.h>

#include "balance-private.h"
#include "number.h"

/* What stays within is rounded down, to two digits. */
static char *
spread_words (double spread_g)
{
  guint decimals = spread_g >= 10 ? 0 : spread_g >= 1 ? 1 : spread_g >= 0.1 ? 2 : 3;
  double step = pow (10, -(double) decimals);

  return tg_number_format (floor (spread_g / step + 1e-6) * step, decimals);
}

/* "5 % of that is 365 N: so much may the parts’ differences add." */
static void
add_allowance (GString *out, const TgSetup *setup, double allowed, const char *unit)
{
  g_autofree char *share = tg_number_format_short (setup->engine.share_percent);
  g_autofree char *may = tg_balance_plus_minus (allowed, 0, unit);

  g_string_append_printf (out, " %s %% of that is %s.", share, may);
}

static void
add_comparison (GString *out, const TgBalanceEnough *enough, const TgSetup *setup, double speed_rpm)
{
  g_autofree char *rpm = tg_number_format (speed_rpm, 0);
  g_autofree char *force = tg_balance_plus_minus (enough->force_of, 0, "N");
  g_autofree char *couple = tg_balance_plus_minus (enough->couple_of, 0, "N·m");

  g_string_append_printf (out,
                          enough->by_force
                              ? "At %s 1/min the layout itself shakes with up to %s."
                              : "At %s 1/min one piston alone shakes with up to %s; the "
                                "layout as a whole with next to nothing.",
                          rpm, force);
  add_allowance (out, setup, enough->force, "N");
  if (!enough->has_couple)
    return;
  g_string_append_printf (out,
                          enough->couple_of_one_piston
                              ? " One piston makes %s over one bore spacing; the layout as a whole "
                                "next to nothing."
                              : " The layout itself rocks the engine with up to %s.",
                          couple);
  add_allowance (out, setup, enough->couple, "N·m");
}

static void
add_proof (GString *out, const TgReview *review, TgBand band, double enough_g, double asked_g)
{
  g_autoptr (TgProof) proof = tg_review_proof (review, band);
  double least_g = proof->can[0].spread_g;
  g_autofree char *least = tg_review_grams (review, least_g);

  if (proof->n_parts < 2 || least_g <= 0 || least_g <= asked_g)
    return;
  g_string_append_printf (out, " With %u reading%s of each this scale proves %s g, %s.",
                          proof->readings, proof->readings == 1 ? "" : "s", least,
                          least_g <= enough_g ? "enough for the engine but not for what is asked"
                                              : "not enough for that");
}

static char *
capital (const char *label)
{
  char *text = g_strdup (label);

  text[0] = g_ascii_toupper (text[0]);
  return text;
}

static void
add_band (GString *out, const TgReview *review, const TgBalanceEnough *enough, TgBand band)
{
  double enough_g = enough->tolerance_g[band];
  double asked_g = tg_mass_to_g (tg_setup_tolerance (review->setup, band));
  double graded_g = enough->grade_tolerance_g[band];
  double useful_g = graded_g > 0 ? MIN (enough_g, graded_g) : enough_g;
  g_autofree char *spread = spread_words (enough_g);
  g_autofree char *useful = spread_words (useful_g);
  g_autofree char *asked = tg_review_grams (review, asked_g);
  g_autofree char *label = capital (tg_setup_band_label (review->setup, band));

  if (enough_g <= 0)
    return;
  g_string_append_printf (
      out, "\n%s: a spread of %s g stays within that, whichever part sits where. ", label, spread);
  g_string_append_printf (out,
                          asked_g <= enough_g
                              ? "The job asks for %s g: what is finer than %s g adds little here."
                              : "The job allows %s g, more than %s g.",
                          asked, spread);
  add_proof (out, review, band, enough_g, asked_g);
}

static void
add_grade (GString *out,
           const TgBalance *balance,
           const TgReview *review,
           const TgBalanceEnough *enough)
{
  const TgEngine *engine = &review->setup->engine;
  g_autofree char *grade = tg_number_format_short (engine->grade);
  g_autofree char *rpm = tg_number_format (balance->speed_rpm, 0);
  double permissible = tg_dynamics_permissible_unbalance (engine->grade, engine->crank_kg,
                                                          balance->speed_rpm);
  g_autofree char *allowed = tg_balance_plus_minus (permissible, 0, "g·mm");

  g_string_append_printf (out,
                          "\nOn the crankshaft G %s leaves room for %s at %s 1/min (ISO 21940-11). "
                          "These spreads keep it, whichever part sits where:",
                          grade, allowed, rpm);
  for (guint b = 0, n = 0; b < TG_N_BANDS; b++)
    {
      double enough_g = enough->grade_tolerance_g[b];
      g_autofree char *spread = spread_words (enough_g);

      if (enough_g > 0)
        g_string_append_printf (out, "%s %s %s g", n++ ? "," : "",
                                tg_setup_band_label (review->setup, b), spread);
    }
  g_string_append_c (out, '.');
}

char *
tg_balance_enough_words (const TgBalance *balance,
                         const TgReview *review,
                         const TgBalanceEnough *enough,
                         double speed_rpm)
{
  GString *out = g_string_new (NULL);
  gboolean graded = FALSE;

  if (!tg_balance_is_known (balance, TG_BALANCE_NOW))
    {
      g_string_append (out, balance->missing[0] ? balance->missing
                                                : balance->stages[TG_BALANCE_NOW].missing);
      return g_string_free (out, FALSE);
    }
  if (balance->layout.n < 2)
    {
      g_string_append (out, "With one cylinder there is nothing to be even with.");
      return g_string_free (out, FALSE);
    }
  add_comparison (out, enough, review->setup, speed_rpm);
  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      add_band (out, review, enough, b);
      graded |= enough->grade_tolerance_g[b] > 0;
    }
  if (graded)
    add_grade (out, balance, review, enough);
  g_string_append (out,
                   "\nThese are reckoned figures: what the maker of the engine or of the parts "
                   "allows comes first.");
  return g_string_free (out, FALSE);
}
