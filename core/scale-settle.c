/* scale-settle.c: when a load has come to rest, see scale-settle.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * It does not look at the time: a scale that sends ten lines in a second and one that sends two are
 * told apart by nobody but the person, who sets how many equal readings are waited for.
 */
#include "scale-settle.h"

TgScaleSettle
tg_scale_settle_new (TgMass step, guint in_a_row)
{
  TgScaleSettle settle = { .step = step, .in_a_row = in_a_row, .armed = TRUE };

  g_return_val_if_fail (step > 0, settle);

  return settle;
}

/* Whether the load stands, after the row has been counted. */
static gboolean
stands (const TgScaleSettle *settle, const TgScaleReading *reading)
{
  switch (reading->rest)
    {
    case TG_SCALE_REST_STANDING:
      return TRUE;
    case TG_SCALE_REST_MOVING:
      return FALSE;
    case TG_SCALE_REST_UNKNOWN:
    default:
      return settle->run >= settle->in_a_row;
    }
}

gboolean
tg_scale_settle_feed (TgScaleSettle *settle, const TgScaleReading *reading, TgMass *mass)
{
  TgMass band = TG_SCALE_SETTLE_STEPS * settle->step;

  if (reading->kind != TG_SCALE_LINE_READING)
    {
      settle->run = 0;
      return FALSE;
    }
  settle->run = settle->run > 0 && reading->mass == settle->last ? settle->run + 1 : 1;
  settle->last = reading->mass;
  if (reading->mass <= MAX (band, settle->handed / 2) || settle->in_a_row == 0)
    settle->armed = TRUE;
  if (reading->mass <= band || !stands (settle, reading))
    return FALSE;
  if (!settle->armed && ABS (reading->mass - settle->handed) <= band)
    return FALSE;
  settle->armed = FALSE;
  settle->handed = reading->mass;
  *mass = reading->mass;
  return TRUE;
}
