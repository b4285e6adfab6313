/* balance-enough-words.c: how even is even enough, in sentences, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "balance-private.h"
#include "number.h"

static char *
compared_with (const TgBalanceEnough *enough, const TgSetup *setup, double speed_rpm)
{
  g_autofree char *rpm = tg_number_format (speed_rpm, 0);
  g_autofree char *of = tg_balance_number (enough->force_of);
  g_autofree char *may = tg_balance_number (enough->force);
  g_autofree char *share = tg_number_format_short (setup->engine.share_percent);

  if (enough->by_force)
    return g_strdup_printf (
        "At %s 1/min the layout itself shakes with up to %s N, however even the "
        "parts are. %s %% of that is %s N.",
        rpm, of, share, may);
  return g_strdup_printf (
      "The layout has next to no shaking force of its own. %s %% of what one piston "
      "makes, %s N at %s 1/min, is %s N.",
      share, of, rpm, may);
}

/* The narrowest spread that the scale proves with the readings that are asked for. */
static double
provable_g (const TgProof *proof)
{
  double spread_g = 0;

  for (guint i = 0; i < TG_PROOF_STEPS; i++)
    if (proof->can[i].readings > 0 && proof->can[i].readings <= MAX (proof->readings, 1))
      spread_g = proof->can[i].spread_g;
  return spread_g;
}

static void
add_proof (GString *out, const TgReview *review, TgBand band, double enough_g)
{
  g_autoptr (TgProof) proof = tg_review_proof (review, band);
  double least_g = provable_g (proof);
  g_autofree char *least = tg_review_grams (review, least_g);

  if (proof->n_parts < 2 || least_g <= 0)
    return;
  if (enough_g < least_g)
    g_string_append_printf (out, " The scale proves no less than %s g with %u reading%s of each.",
                            least, proof->readings, proof->readings == 1 ? "" : "s");
}

static void
add_band (GString *out, const TgReview *review, const TgBalanceEnough *enough, TgBand band)
{
  double enough_g = enough->tolerance_g[band];
  double asked_g = tg_mass_to_g (tg_setup_tolerance (review->setup, band));
  g_autofree char *does = tg_balance_number (enough_g);
  g_autofree char *asked = tg_review_grams (review, asked_g);
  g_autofree char *label = g_strdup (tg_setup_band_label (review->setup, band));

  if (enough_g <= 0)
    return;
  label[0] = g_ascii_toupper (label[0]);
  if (asked_g <= enough_g)
    g_string_append_printf (out,
                            "\n%s: a spread of %s g keeps it, whatever the order of the parts; the "
                            "job asks for %s g.",
                            label, does, asked);
  else
    g_string_append_printf (out,
                            "\n%s: the job allows %s g, but only %s g keeps it in every order of "
                            "the parts.",
                            label, asked, does);
  add_proof (out, review, band, enough_g);
}

char *
tg_balance_enough_words (const TgBalance *balance,
                         const TgReview *review,
                         const TgBalanceEnough *enough,
                         double speed_rpm)
{
  GString *out = g_string_new (NULL);
  g_autofree char *compared = NULL;

  if (!tg_balance_is_known (balance, TG_BALANCE_NOW))
    {
      g_string_append (out, balance->missing[0] ? balance->missing
                                                : balance->stages[TG_BALANCE_NOW].missing);
      return g_string_free (out, FALSE);
    }
  compared = compared_with (enough, review->setup, speed_rpm);
  g_string_append (out, compared);
  for (guint b = 0; b < TG_N_BANDS; b++)
    add_band (out, review, enough, b);
  return g_string_free (out, FALSE);
}
