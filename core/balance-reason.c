/* balance-reason.c: why so much is even enough, and how the forces come about, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words only: the figures are those of balance-enough.c, balance-loads.c and balance-unbalance.c.
 */
#include <math.h>

#include "balance-private.h"
#include "number.h"
#include "reason.h"
#include "review-private.h"

/* "365 N / (2 × 12.3 N/g) = 14.8 g" */
static void
add_kept (GPtrArray *why,
          const TgSetup *setup,
          TgBand band,
          const TgBalanceLimit *kept,
          double g,
          const char *by)
{
  g_autofree char *label = g_strdup_printf ("%s%s", tg_setup_band_label (setup, band), by);
  g_autofree char *limit = tg_reason_figure (kept->limit);
  g_autofree char *worst = tg_reason_figure (kept->worst);
  g_autofree char *grams = tg_reason_figure (g);
  g_autofree char *remark = g_strdup_printf (
      "one gram of spread makes %s %s at worst%s", worst, kept->unit,
      kept->n > 1 ? "; so many bands add up and share it evenly" : "");

  tg_terms_add (
      why, label,
      kept->n > 1
          ? g_strdup_printf ("%s %s / (%u × %s) = %s g", limit, kept->unit, kept->n, worst, grams)
          : g_strdup_printf ("%s %s / %s = %s g", limit, kept->unit, worst, grams),
      remark);
}

static void
add_share (
    GPtrArray *why, const TgSetup *setup, double of, double allowed, const char *unit, gboolean one)
{
  g_autofree char *own = tg_reason_figure (of);
  g_autofree char *share = tg_number_format_short (setup->engine.share_percent);
  g_autofree char *may = tg_reason_figure (allowed);

  tg_terms_add (why, one ? "one piston makes" : "the layout makes",
                g_strdup_printf ("%s %s", own, unit),
                one ? "the layout as a whole makes next to nothing" : "however even the parts are");
  tg_terms_add (why, "may be added", g_strdup_printf ("%s %% × %s = %s %s", share, own, may, unit),
                "the share as set");
}

GPtrArray *
tg_balance_why_enough (const TgBalance *balance,
                       const TgReview *review,
                       const TgBalanceEnough *enough,
                       double speed_rpm)
{
  GPtrArray *why = tg_terms_new ();
  g_autofree char *rpm = tg_number_format (speed_rpm, 0);

  g_return_val_if_fail (balance && review && enough, why);

  tg_terms_add (why, "speed", g_strdup_printf ("%s 1/min", rpm),
                "forces grow alike with it, so that the spreads are those of every speed");
  if (tg_balance_is_known (balance, TG_BALANCE_NOW))
    {
      add_share (why, review->setup, enough->force_of, enough->force, "N", enough->of_one_piston);
      if (enough->has_couple)
        add_share (why, review->setup, enough->couple_of, enough->couple, "N·m",
                   enough->couple_of_one_piston);
      for (guint b = 0; b < TG_N_BANDS; b++)
        if (enough->tolerance_g[b] > 0)
          add_kept (why, review->setup, b, &enough->kept[b], enough->tolerance_g[b], "");
      for (guint b = 0; b < TG_N_BANDS; b++)
        if (enough->grade_tolerance_g[b] > 0)
          add_kept (why, review->setup, b, &enough->grade_kept[b], enough->grade_tolerance_g[b],
                    ", ISO 21940-11");
    }
  tg_reason_close (why, TG_REASON_ENOUGH);
  return why;
}

GPtrArray *
tg_balance_why_grade (const TgBalance *balance,
                      const TgReview *review,
                      const TgBalanceUnbalance *unbalance)
{
  GPtrArray *why = tg_terms_new ();
  const TgEngine *engine = &review->setup->engine;
  g_autofree char *grade = tg_number_format_short (engine->grade);
  g_autofree char *kg = tg_number_format_short (engine->crank_kg);
  g_autofree char *rpm = tg_number_format (balance->speed_rpm, 0);
  g_autofree char *may = tg_balance_plus_minus (unbalance->permissible_g_mm, 0, "g·mm");
  g_autofree char *half = tg_balance_plus_minus (unbalance->permissible_g_mm / 2, 0, "g·mm");
  g_autofree char *left = tg_balance_plus_minus (unbalance->resultant_g_mm,
                                                 unbalance->resultant_expanded, "g·mm");
  g_autofree char *sum = g_strdup_printf ("9549.3 × %s mm/s × %s kg / %s 1/min", grade, kg, rpm);

  tg_terms_add (why, "left by the differences", g_strdup (left), "on all crankpins together");
  for (guint plane = 0; plane < 2 && unbalance->has_planes; plane++)
    {
      g_autofree char *in_plane = tg_balance_plus_minus (unbalance->planes_g_mm[plane],
                                                         unbalance->planes_expanded[plane], "g·mm");

      tg_terms_add (why, plane ? "in the plane at the other end" : "in the plane at the front",
                    g_strdup (in_plane), "");
    }
  if (unbalance->permissible_g_mm > 0)
    {
      g_autofree char *keeps = tg_reason_figure (unbalance->grade);

      tg_terms_add (why, "permissible", g_strdup (may), sum);
      if (unbalance->has_planes)
        tg_terms_add (why, "in each plane", g_strdup (half), "half of it");
      tg_terms_add (why, "keeps", g_strdup_printf ("G %s", keeps),
                    "the grade whose permissible unbalance is as much as is left");
    }
  else
    tg_terms_add (why, "permissible", g_strdup ("not known"),
                  "mass of the crankshaft or highest speed was not said");
  tg_reason_close (why, TG_REASON_GRADE);
  return why;
}

static void
add_peak (GPtrArray *why, const TgBalance *balance, TgBalanceLoad load, double speed_rpm)
{
  static const char *const units[TG_BALANCE_N_LOADS] = { "N", "N·m" };
  static const char *const names[TG_BALANCE_N_LOADS] = { "force", "couple" };
  static const char *const remarks[TG_BALANCE_N_SHARES] = {
    [TG_BALANCE_OWN] = "the layout’s own, with even parts",
    [TG_BALANCE_SPREAD] = "added by the parts’ differences",
    [TG_BALANCE_WHOLE] = "both together",
  };

  for (TgBalanceShare share = 0; share < TG_BALANCE_N_SHARES; share++)
    {
      TgBalanceFigure peak = tg_balance_peak (balance, TG_BALANCE_NOW, share, load, speed_rpm);
      g_autofree char *words = tg_balance_plus_minus (peak.largest, peak.expanded, units[load]);

      tg_terms_add (why, names[load], g_strdup (words), remarks[share]);
    }
}

GPtrArray *
tg_balance_why_forces (const TgBalance *balance, double speed_rpm)
{
  GPtrArray *why = tg_terms_new ();
  g_autofree char *rpm = tg_number_format (speed_rpm, 0);
  g_autofree char *radius = tg_number_format_short (balance->crank.radius_mm);
  g_autofree char *rod = tg_number_format_short (balance->crank.rod_mm);
  g_autofree char *one = NULL;

  g_return_val_if_fail (balance && speed_rpm > 0, why);

  tg_terms_add (why, "speed", g_strdup_printf ("%s 1/min", rpm), "");
  tg_terms_add (why, "crank radius, rod length", g_strdup_printf ("%s mm, %s mm", radius, rod), "");
  if (tg_balance_is_known (balance, TG_BALANCE_NOW))
    {
      one = tg_balance_plus_minus (tg_balance_force_of_one (balance, speed_rpm), 0, "N");
      tg_terms_add (why, "one piston", g_strdup (one),
                    "with all that goes with it, at the top: m r ω² (1 + r/l)");
      add_peak (why, balance, TG_BALANCE_FORCE, speed_rpm);
      if (balance->has_couples)
        add_peak (why, balance, TG_BALANCE_COUPLE, speed_rpm);
    }
  tg_reason_close (why, TG_REASON_FORCES);
  return why;
}
