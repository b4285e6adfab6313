/* balance.c: the engine and the masses that balance.h is about
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The job knows what each part weighs and where it sits; the setup knows the crank drive.  Here the
 * two meet.  What the masses do is in balance-loads.c and balance-unbalance.c, how well that is known
 * in balance-doubt.c, what it is worth in balance-enough.c, and in words in balance-words.c.
 */
#include "balance.h"

#include <math.h>

#include "balance-private.h"
#include "bobweight.h"

static void
say_engine (TgBalance *balance, const TgSetup *setup)
{
  g_autoptr (GError) error = NULL;

  balance->has_layout = tg_setup_engine_layout (setup, &balance->layout, &error) &&
                        tg_setup_engine_kind (setup, &balance->kind);
  if (!balance->has_layout)
    {
      balance->missing = g_strdup (error->message);
      return;
    }
  balance->evenly = tg_engine_layout_fires_evenly (&balance->layout);
  balance->order_fits = balance->evenly && tg_setup_order_is_even (setup, &balance->layout);
}

/* Positions are those of the engine, not of a spacing that stands for one. */
static gboolean
knows_positions (const TgBalance *balance, const TgSetup *setup)
{
  if (!balance->has_layout)
    return FALSE;
  return balance->kind == TG_ENGINE_FREE || setup->engine.spacing_mm > 0 ||
         (balance->layout.n_pins == 1 && setup->engine.offset_mm <= 0);
}

static void
say_crank (TgBalance *balance, const TgSetup *setup)
{
  g_autoptr (GError) error = NULL;
  TgDynamicsCrank crank = { setup->engine.stroke_mm / 2, tg_setup_rod_mm (setup), 1000 };

  balance->speed_rpm = balance->crank.speed_rpm = setup->engine.speed_rpm;
  balance->crank.radius_mm = crank.radius_mm;
  balance->crank.rod_mm = crank.rod_mm;
  balance->has_crank = tg_dynamics_check (&crank, &error);
  if (balance->missing || balance->has_crank)
    return;
  if (crank.radius_mm <= 0)
    balance->missing = g_strdup (crank.rod_mm > 0
                                     ? "The stroke has not been said."
                                     : "Stroke and length of the rods have not been said.");
  else if (crank.rod_mm <= 0)
    balance->missing = g_strdup ("The length of the rods has not been said.");
  else
    balance->missing = g_strdup (error->message);
}

static void
counterweigh (TgBalance *balance, const TgSetup *setup)
{
  TgBobweightUse use;
  g_autofree char *ground = NULL;

  if (!balance->has_layout)
    return;
  balance->factor = tg_bobweight_factor (&balance->layout, &use, &ground);
  if (setup->engine.factor_percent >= 0)
    balance->factor = setup->engine.factor_percent / 100;
  for (guint s = 0; s < TG_BALANCE_N_STAGES; s++)
    tg_dynamics_counterweigh (&balance->layout, 1, balance->factor, &balance->stages[s].masses);
}

TgBalance *
tg_balance_new (const TgJob *job, const TgReview *review)
{
  TgBalance *balance = g_new0 (TgBalance, 1);

  g_return_val_if_fail (job && review, balance);

  say_engine (balance, review->setup);
  balance->has_couples = knows_positions (balance, review->setup);
  say_crank (balance, review->setup);
  if (!balance->missing)
    balance->missing = g_strdup ("");
  tg_balance_weigh (&balance->stages[TG_BALANCE_BEFORE], review, tg_job_setup (job),
                    TG_BALANCE_BEFORE);
  tg_balance_weigh (&balance->stages[TG_BALANCE_NOW], review, review->setup, TG_BALANCE_NOW);
  tg_balance_weigh (&balance->stages[TG_BALANCE_THEN], review, review->setup, TG_BALANCE_THEN);
  counterweigh (balance, review->setup);
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    balance->weighed[kind] = tg_setup_has_kind (review->setup, kind);
  return balance;
}

void
tg_balance_free (TgBalance *balance)
{
  g_free (balance->missing);
  for (guint s = 0; s < TG_BALANCE_N_STAGES; s++)
    g_free (balance->stages[s].missing);
  g_free (balance);
}

gboolean
tg_balance_is_known (const TgBalance *balance, TgBalanceStage stage)
{
  g_return_val_if_fail (balance && (guint) stage < TG_BALANCE_N_STAGES, FALSE);
  return balance->has_layout && balance->has_crank && balance->stages[stage].known;
}

/* A tenth of the finest mass that a job holds. */
#define HARDLY_KG 1e-7

gboolean
tg_balance_is_news (const TgBalance *balance, TgBalanceStage stage)
{
  const TgDynamicsMasses *now, *then;

  if (!tg_balance_is_known (balance, stage))
    return FALSE;
  if (stage == TG_BALANCE_NOW || !tg_balance_is_known (balance, TG_BALANCE_NOW))
    return TRUE;
  now = &balance->stages[TG_BALANCE_NOW].masses;
  then = &balance->stages[stage].masses;
  for (guint i = 0; i < balance->layout.n; i++)
    if (fabs (now->reciprocating_kg[i] - then->reciprocating_kg[i]) > HARDLY_KG ||
        fabs (now->rotating_kg[i] - then->rotating_kg[i]) > HARDLY_KG)
      return TRUE;
  return FALSE;
}

TgDynamicsCrank
tg_balance_crank (const TgBalance *balance, double speed_rpm)
{
  return (TgDynamicsCrank){ balance->crank.radius_mm, balance->crank.rod_mm, speed_rpm };
}
