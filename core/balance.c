/* balance.c: what the evenness is worth, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "balance.h"

TgBalance *
tg_balance_new (const TgJob *job, const TgReview *review)
{
  TgBalance *balance = g_new0 (TgBalance, 1);

  (void) job;
  balance->missing = g_strdup ("The engine has not been described yet.");
  balance->has_layout = tg_setup_engine_layout (review->setup, &balance->layout, NULL);
  for (guint s = 0; s < TG_BALANCE_N_STAGES; s++)
    balance->stages[s].missing = g_strdup ("Not weighed yet.");
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
