/* setup-engine.c: the engine that a setup describes, see setup.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * tg_engine_layout_make() numbers the cylinders along the crank; here they get the numbers of the
 * bores, which engine makers and builders give in many ways.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "error.h"
#include "setup.h"

G_STATIC_ASSERT (TG_ENGINE_LAYOUT_MAX == TG_MAX_CYLINDERS);

/* Degrees */
#define ANGLE_TINY 1e-6

static gboolean
kind_of_inline (guint cylinders, TgEngineKind *kind)
{
  *kind = cylinders == 1   ? TG_ENGINE_SINGLE
          : cylinders == 2 ? TG_ENGINE_TWIN_360
                           : TG_ENGINE_INLINE;
  return tg_engine_kind_fits (*kind, cylinders);
}

static gboolean
kind_of_vee (guint cylinders, TgEngineKind *kind)
{
  static const TgEngineKind kinds[] = { TG_ENGINE_V_TWIN, TG_ENGINE_V6, TG_ENGINE_V8_CROSS,
                                        TG_ENGINE_V10, TG_ENGINE_V12 };

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (tg_engine_kind_fits (kinds[i], cylinders))
      {
        *kind = kinds[i];
        return TRUE;
      }
  return FALSE;
}

gboolean
tg_setup_engine_kind (const TgSetup *setup, TgEngineKind *kind)
{
  TgEngineKind found = setup->engine.kind;
  gboolean known = setup->engine.chosen;

  if (!known && setup->layout == TG_LAYOUT_INLINE)
    known = kind_of_inline (setup->cylinders, &found);
  else if (!known && setup->layout == TG_LAYOUT_VEE)
    known = kind_of_vee (setup->cylinders, &found);
  else if (!known && setup->layout == TG_LAYOUT_BOXER)
    {
      found = TG_ENGINE_BOXER;
      known = tg_engine_kind_fits (found, setup->cylinders);
    }
  if (known)
    *kind = found;
  return known;
}

static gboolean
has_two_banks (TgEngineKind kind)
{
  return tg_engine_kind_is_vee (kind) || kind == TG_ENGINE_BOXER;
}

/* Which bore stands at each place of the layout as it was made. */
static void
number_bores (const TgSetup *setup, TgEngineKind kind, guint *bores)
{
  guint n = setup->cylinders;
  gboolean by_bank = has_two_banks (kind) && setup->sharing == TG_SHARING_BANKS;

  if (setup->engine.numbering[0] != '\0' &&
      tg_engine_read_numbers (setup->engine.numbering, n, bores, NULL))
    return;
  for (guint i = 0; i < n; i++)
    bores[i] = 1 + (by_bank ? i / 2 + (i % 2) * (n / 2) : i);
}

/* From one angle to another, 0 to below 360°; what rounding leaves of a full turn is none. */
static double
turn_deg (double from, double to)
{
  double turn = fmod (to - from, 360);

  if (turn < 0)
    turn += 360;
  return turn > 360 - ANGLE_TINY ? 0 : turn;
}

static int
compare_angles (gconstpointer a, gconstpointer b)
{
  const double *x = a, *y = b;

  return *x < *y ? -1 : *x > *y;
}

/* Whether both cranks have throws at the same angles to that of bore @first, whichever stands where:
 * a cross-plane crank is none with throws in one plane. */
static gboolean
same_angles (const TgEngineLayout *a, const TgEngineLayout *b, guint first)
{
  double angles[2][TG_ENGINE_LAYOUT_MAX];

  for (guint i = 0; i < a->n; i++)
    {
      angles[0][i] = turn_deg (a->cylinders[first].throw_deg, a->cylinders[i].throw_deg);
      angles[1][i] = turn_deg (b->cylinders[first].throw_deg, b->cylinders[i].throw_deg);
    }
  for (guint side = 0; side < 2; side++)
    qsort (angles[side], a->n, sizeof angles[side][0], compare_angles);
  for (guint i = 0; i < a->n; i++)
    if (fabs (angles[0][i] - angles[1][i]) > ANGLE_TINY)
      return FALSE;
  return TRUE;
}

/* Whether the rods that stand side by side, one of each bank, keep their angle to each other: one crankpin
 * for both, pins that are split by so much, or those of a boxer's pair. */
static gboolean
same_pairs (const TgEngineLayout *a, const TgEngineLayout *b, const guint *bores)
{
  for (guint i = 0; i + 1 < a->n; i += 2)
    {
      guint one = bores[i] - 1, other = bores[i + 1] - 1;
      double was = turn_deg (a->cylinders[one].throw_deg, a->cylinders[other].throw_deg);
      double is = turn_deg (b->cylinders[one].throw_deg, b->cylinders[other].throw_deg);

      if (fabs (was - is) > ANGLE_TINY)
        return FALSE;
    }
  return TRUE;
}

/* Several cranks of a kind fire evenly, mirrored ones among them; takes the one that does so in the order
 * that was said, if there is one.  @bores: (nullable): by place in pairs, where there are two banks */
static void
throws_by_order (const TgSetup *setup, const guint *bores, TgEngineLayout *layout)
{
  guint order[TG_ENGINE_LAYOUT_MAX];
  TgEngineLayout ordered = *layout;
  const TgEngineCylinder *first;

  if (setup->engine.order[0] == '\0' ||
      !tg_engine_read_numbers (setup->engine.order, layout->n, order, NULL))
    return;
  first = &layout->cylinders[order[0] - 1];
  for (guint k = 0; k < layout->n; k++)
    {
      TgEngineCylinder *cylinder = &ordered.cylinders[order[k] - 1];
      double later = cylinder->bank_deg - first->bank_deg - k * 720.0 / layout->n;

      cylinder->throw_deg = turn_deg (0, first->throw_deg + later);
    }
  if (same_angles (layout, &ordered, order[0] - 1) &&
      (!bores || same_pairs (layout, &ordered, bores)))
    *layout = ordered;
}

gboolean
tg_setup_engine_layout (const TgSetup *setup, TgEngineLayout *layout, GError **error)
{
  const TgEngine *engine = &setup->engine;
  TgEngineSpec spec = { .cylinders = setup->cylinders,
                        .bank_angle_deg = engine->bank_angle_deg,
                        .split_pins = engine->split_pins,
                        .spacing_mm = engine->spacing_mm > 0 ? engine->spacing_mm : 1,
                        .offset_mm = engine->offset_mm };
  guint bores[TG_ENGINE_LAYOUT_MAX];
  TgEngineLayout made, numbered;

  g_return_val_if_fail (setup && layout, FALSE);

  if (!tg_setup_engine_kind (setup, &spec.kind) ||
      (spec.kind == TG_ENGINE_FREE && engine->free[0] == '\0'))
    {
      g_set_error_literal (error, TG_ERROR, TG_ERROR_UNKNOWN,
                           "The layout of the engine has not been described.");
      return FALSE;
    }
  if (spec.kind == TG_ENGINE_FREE)
    return tg_engine_read_free (engine->free, setup->cylinders, layout, error);
  if (spec.kind == TG_ENGINE_BOXER && engine->spacing_mm <= 0)
    spec.offset_mm = 0.5;
  else if (engine->spacing_mm <= 0)
    spec.offset_mm = 0;
  if (!tg_engine_layout_make (&spec, &made, error))
    return FALSE;
  numbered = made;
  number_bores (setup, spec.kind, bores);
  for (guint i = 0; i < made.n; i++)
    numbered.cylinders[bores[i] - 1] = made.cylinders[i];
  throws_by_order (setup, has_two_banks (spec.kind) ? bores : NULL, &numbered);
  *layout = numbered;
  return TRUE;
}

gboolean
tg_setup_order_is_even (const TgSetup *setup, const TgEngineLayout *layout)
{
  guint order[TG_ENGINE_LAYOUT_MAX];
  double first = 0;

  if (setup->engine.order[0] == '\0' ||
      !tg_engine_read_numbers (setup->engine.order, layout->n, order, NULL))
    return TRUE;
  for (guint k = 0; k < layout->n; k++)
    {
      const TgEngineCylinder *cylinder = &layout->cylinders[order[k] - 1];
      double dead_centre = cylinder->bank_deg - cylinder->throw_deg;

      if (k == 0)
        first = dead_centre;
      if (fabs (remainder (dead_centre - first - k * 720.0 / layout->n, 360)) > ANGLE_TINY)
        return FALSE;
    }
  return TRUE;
}

double
tg_setup_rod_mm (const TgSetup *setup)
{
  if (setup->engine.rod_mm > 0)
    return setup->engine.rod_mm;
  for (guint i = 0; i < setup->parts->len; i++)
    if (tg_setup_part (setup, i)->design->kind == TG_PART_ROD)
      return tg_setup_part (setup, i)->design->rod.centres;
  return 0;
}
