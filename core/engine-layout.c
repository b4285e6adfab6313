/* engine-layout.c: where an engine's cylinders and crank throws stand, see engine-layout.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A cylinder is at top dead centre when its crankpin points along its bore: at the crank angle
 * bank − throw.  A four-stroke engine fires evenly if, taken modulo 360°, these angles are the
 * multiples of 720° / n, since each may fire in either of two turns.  That fixes which throws an
 * engine has; their order along the crank is then searched for, as described in the header, by
 * going through the at most few thousand orders.  Left out: pistons whose pins are set off from the
 * bore's middle, rods that carry other rods, two-stroke engines, and the order of firing itself,
 * which the camshaft decides between the orders that the throws leave open.
 */
#include "engine-layout.h"

#include <complex.h>
#include <math.h>

#include "error.h"
#include "number.h"
#include "word.h"

#define SAME_DEG 1e-6
#define SAME_MM 1e-6
#define MAX_MM 10000.0
#define MAX_PINS 8
#define N_MERITS 4

#define RADIANS(degrees) ((degrees) * (G_PI / 180))

TG_DEFINE_WORDS (TgEngineKind,
                 engine_kind,
                 "single",
                 "twin-360",
                 "twin-180",
                 "twin-270",
                 "v-twin",
                 "inline",
                 "v6",
                 "v8-cross",
                 "v8-flat",
                 "v10",
                 "v12",
                 "boxer",
                 "free")

/* How the pins of a kind lie before their order is known: @pins of them, @distinct throws. */
typedef struct
{
  guint pins;
  guint distinct;
  double banks[2];
  guint n_banks;
} Frame;

static gboolean
refuse (GError **error, const char *what, double value, const char *unit, const char *limit)
{
  g_autofree char *shown = tg_number_format_short (value);

  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "%s: %s%s is not possible; it must be %s.", what,
               shown, unit, limit);
  return FALSE;
}

/* The vector of length 1 at @angle, radians. */
static double complex
towards (double angle)
{
  return cexp ((double complex) I * angle);
}

static gboolean
same_angle (double a, double b)
{
  return fabs (remainder (a - b, 360)) <= SAME_DEG;
}

gboolean
tg_engine_kind_is_vee (TgEngineKind kind)
{
  return kind == TG_ENGINE_V_TWIN || (kind >= TG_ENGINE_V6 && kind <= TG_ENGINE_V12);
}

const char *
tg_engine_kind_label (TgEngineKind kind)
{
  static const char *const labels[TG_ENGINE_N_KINDS] = {
    "single cylinder",
    "parallel twin, 360°",
    "parallel twin, 180°",
    "parallel twin, 270°",
    "V-twin",
    "in line",
    "V6",
    "V8, cross-plane",
    "V8, flat-plane",
    "V10",
    "V12",
    "boxer",
    "free",
  };

  g_return_val_if_fail ((guint) kind < TG_ENGINE_N_KINDS, NULL);

  return labels[kind];
}

gboolean
tg_engine_kind_fits (TgEngineKind kind, guint cylinders)
{
  static const guint fixed[TG_ENGINE_N_KINDS] = {
    [TG_ENGINE_SINGLE] = 1,   [TG_ENGINE_TWIN_360] = 2, [TG_ENGINE_TWIN_180] = 2,
    [TG_ENGINE_TWIN_270] = 2, [TG_ENGINE_V_TWIN] = 2,   [TG_ENGINE_V6] = 6,
    [TG_ENGINE_V8_CROSS] = 8, [TG_ENGINE_V8_FLAT] = 8,  [TG_ENGINE_V10] = 10,
    [TG_ENGINE_V12] = 12,
  };

  g_return_val_if_fail ((guint) kind < TG_ENGINE_N_KINDS, FALSE);

  if (kind == TG_ENGINE_INLINE)
    return (cylinders >= 3 && cylinders <= 6) || cylinders == 8;
  if (kind == TG_ENGINE_BOXER)
    return cylinders == 2 || cylinders == 4 || cylinders == 6;
  return kind == TG_ENGINE_FREE ? cylinders >= 1 && cylinders <= TG_ENGINE_LAYOUT_MAX
                                : cylinders == fixed[kind];
}

static gboolean
check_count (const TgEngineSpec *spec, GError **error)
{
  guint n = spec->cylinders;

  if (spec->kind == TG_ENGINE_INLINE && !tg_engine_kind_fits (spec->kind, n))
    return refuse (error, "Cylinders in a row", n, "", "3, 4, 5, 6 or 8");
  if (spec->kind == TG_ENGINE_BOXER && !tg_engine_kind_fits (spec->kind, n))
    return refuse (error, "Cylinders of a boxer", n, "", "2, 4 or 6");
  return TRUE;
}

static Frame
frame_of (const TgEngineSpec *spec)
{
  static const struct
  {
    guint pins, distinct;
  } known[TG_ENGINE_N_KINDS] = {
    [TG_ENGINE_SINGLE] = { 1, 1 },   [TG_ENGINE_TWIN_360] = { 2, 1 },
    [TG_ENGINE_TWIN_180] = { 2, 2 }, [TG_ENGINE_TWIN_270] = { 2, 4 },
    [TG_ENGINE_V_TWIN] = { 1, 1 },   [TG_ENGINE_V6] = { 3, 3 },
    [TG_ENGINE_V8_CROSS] = { 4, 4 }, [TG_ENGINE_V8_FLAT] = { 4, 2 },
    [TG_ENGINE_V10] = { 5, 5 },      [TG_ENGINE_V12] = { 6, 3 },
  };
  Frame frame = { known[spec->kind].pins, known[spec->kind].distinct, { 0, 0 }, 1 };

  if (spec->kind == TG_ENGINE_INLINE)
    {
      frame.pins = spec->cylinders;
      frame.distinct = spec->cylinders % 2 ? spec->cylinders : spec->cylinders / 2;
    }
  if (spec->kind == TG_ENGINE_BOXER)
    frame = (Frame){ spec->cylinders / 2, spec->cylinders / 2, { -90, 90 }, 2 };
  if (tg_engine_kind_is_vee (spec->kind))
    {
      frame.banks[0] = -spec->bank_angle_deg / 2;
      frame.banks[1] = spec->bank_angle_deg / 2;
      frame.n_banks = 2;
    }
  return frame;
}

static gboolean
check_spec (const TgEngineSpec *spec, const Frame *frame, GError **error)
{
  double angle = spec->bank_angle_deg;
  double offset = spec->offset_mm;

  if (tg_engine_kind_is_vee (spec->kind) && !(angle > 0 && angle <= 180))
    return refuse (error, "Angle between the banks", angle, "°", "above 0° and at most 180°");
  if (frame->pins > 1 && !(spec->spacing_mm > 0 && spec->spacing_mm <= MAX_MM / frame->pins))
    return refuse (error, "Bore spacing", spec->spacing_mm, " mm",
                   "above 0 mm, and the whole engine at most 10 m long");
  if (frame->n_banks < 2)
    return TRUE;
  if (!(offset >= 0 && offset <= MAX_MM) || (frame->pins > 1 && offset >= spec->spacing_mm))
    return refuse (error, "Offset of the banks", offset, " mm",
                   "0 mm or more and less than the bore spacing");
  if (spec->kind == TG_ENGINE_BOXER && offset <= 0)
    return refuse (error, "Offset of the banks", offset, " mm",
                   "above 0 mm, since a boxer's opposite rods have crankpins of their own");
  return TRUE;
}

/* By how much the second rod's throw leads the first's. */
static double
pin_offset (const TgEngineSpec *spec, const Frame *frame)
{
  if (spec->kind == TG_ENGINE_BOXER)
    return 180;
  if (!spec->split_pins || frame->n_banks < 2)
    return 0;
  /* The banks' top dead centres, bank − throw, must lie one firing interval apart; a bank's own
   * come again after 360° / distinct. */
  return remainder (spec->bank_angle_deg - 720.0 / (2 * frame->pins), 360.0 / frame->distinct);
}

/* @order: for each pin along the crank which of the distinct throws it has */
static void
lay_out (const TgEngineSpec *spec, const Frame *frame, const guint *order, TgEngineLayout *layout)
{
  double offset_deg = pin_offset (spec, frame);
  gboolean own = fabs (offset_deg) > SAME_DEG;

  *layout = (TgEngineLayout){ .n = frame->pins * frame->n_banks,
                              .n_pins = frame->pins * (own ? 2 : 1) };
  for (guint i = 0; i < layout->n; i++)
    {
      guint pin = i / frame->n_banks;
      guint bank = i % frame->n_banks;
      double aside = frame->n_banks == 2 ? (bank - 0.5) * spec->offset_mm : 0;
      double along = frame->pins > 1 ? (pin - (frame->pins - 1) / 2.0) * spec->spacing_mm : 0;

      layout->cylinders[i] = (TgEngineCylinder){
        .bank_deg = frame->banks[bank],
        .throw_deg = order[pin] * 360.0 / frame->distinct + bank * offset_deg,
        .position_mm = along + aside,
        .pin = own ? i : pin,
      };
    }
}

/* What the orders along the crank are compared by, the most important first; one unit of mass, the
 * spacing as unit of length. */
static void
rate (const TgEngineLayout *layout, double spacing_mm, double merits[N_MERITS])
{
  double complex forward[2] = { 0 };
  double complex backward[2] = { 0 };
  double complex front[2] = { 0 };

  for (guint i = 0; i < layout->n; i++)
    {
      const TgEngineCylinder *cylinder = &layout->cylinders[i];
      double bank = RADIANS (cylinder->bank_deg);
      double own = RADIANS (cylinder->throw_deg) - bank;
      double arm = cylinder->position_mm / spacing_mm;

      for (int order = 1; order <= 2; order++)
        {
          forward[order - 1] += arm * towards (bank + order * own);
          backward[order - 1] += arm * towards (bank - order * own);
        }
      if (i < layout->n / 2)
        {
          front[0] += arm * towards (bank + 2 * own);
          front[1] += arm * towards (bank - 2 * own);
        }
    }
  merits[0] = cabs (backward[0]);
  merits[1] = cabs (forward[1]) + cabs (backward[1]);
  merits[2] = cabs (forward[0]);
  merits[3] = cabs (front[0]) + cabs (front[1]);
}

static gboolean
is_better (const double a[N_MERITS], const double b[N_MERITS])
{
  for (guint i = 0; i < N_MERITS; i++)
    if (fabs (a[i] - b[i]) > 1e-9)
      return a[i] < b[i];
  return FALSE;
}

static void
swap (guint *a, guint *b)
{
  guint kept = *a;

  *a = *b;
  *b = kept;
}

/* The next order in rising sequence; the first pin stays as it is. FALSE after the last. */
static gboolean
next_order (guint *order, guint n)
{
  guint i = n - 1;
  guint j = n - 1;

  while (i >= 2 && order[i - 1] >= order[i])
    i--;
  if (i < 2)
    return FALSE;
  while (order[j] <= order[i - 1])
    j--;
  swap (&order[i - 1], &order[j]);
  for (guint a = i, b = n - 1; a < b; a++, b--)
    swap (&order[a], &order[b]);
  return TRUE;
}

gboolean
tg_engine_layout_make (const TgEngineSpec *spec, TgEngineLayout *layout, GError **error)
{
  guint order[MAX_PINS] = { 0 };
  double merits[N_MERITS];
  double best_merits[N_MERITS];
  TgEngineLayout best, other;
  Frame frame;

  g_return_val_if_fail (spec && (guint) spec->kind < TG_ENGINE_FREE && layout, FALSE);
  if (!check_count (spec, error))
    return FALSE;
  frame = frame_of (spec);
  if (!check_spec (spec, &frame, error))
    return FALSE;
  for (guint i = 0; i < frame.pins; i++)
    order[i] = i * frame.distinct / frame.pins;
  if (spec->kind == TG_ENGINE_TWIN_270)
    order[1] = 3;
  lay_out (spec, &frame, order, &best);
  if (frame.pins > 2)
    {
      rate (&best, spec->spacing_mm, best_merits);
      while (next_order (order, frame.pins))
        {
          lay_out (spec, &frame, order, &other);
          rate (&other, spec->spacing_mm, merits);
          if (!is_better (merits, best_merits))
            continue;
          best = other;
          for (guint i = 0; i < N_MERITS; i++)
            best_merits[i] = merits[i];
        }
    }
  *layout = best;
  return TRUE;
}

static gboolean
check_cylinder (const TgEngineLayout *layout, guint i, GError **error)
{
  const TgEngineCylinder *cylinder = &layout->cylinders[i];
  g_autofree char *name = g_strdup_printf ("Cylinder %u", i + 1);
  g_autofree char *bank = g_strconcat (name, ", bank", NULL);
  g_autofree char *crank = g_strconcat (name, ", crank throw", NULL);
  g_autofree char *place = g_strconcat (name, ", position", NULL);
  g_autofree char *pin = g_strconcat (name, ", crankpin", NULL);

  if (!(fabs (cylinder->bank_deg) <= 180))
    return refuse (error, bank, cylinder->bank_deg, "°", "from −180° to 180°");
  if (!(fabs (cylinder->throw_deg) <= 720))
    return refuse (error, crank, cylinder->throw_deg, "°", "from −720° to 720°");
  if (!(fabs (cylinder->position_mm) <= MAX_MM))
    return refuse (error, place, cylinder->position_mm, " mm", "within 10 m of the crank’s middle");
  if (cylinder->pin >= layout->n_pins)
    return refuse (error, pin, cylinder->pin + 1.0, "", "one of the crankpins there are");
  return TRUE;
}

static gboolean
check_pair (const TgEngineLayout *layout, guint i, guint j, GError **error)
{
  const TgEngineCylinder *a = &layout->cylinders[i];
  const TgEngineCylinder *b = &layout->cylinders[j];

  if (same_angle (a->bank_deg, b->bank_deg) && fabs (a->position_mm - b->position_mm) <= SAME_MM)
    g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE,
                 "Cylinders %u and %u have the same bank and position.", i + 1, j + 1);
  else if (a->pin == b->pin && !same_angle (a->throw_deg, b->throw_deg))
    g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
                 "Cylinders %u and %u share crankpin %u, but their crank throws differ.", i + 1,
                 j + 1, a->pin + 1);
  else
    return TRUE;
  return FALSE;
}

gboolean
tg_engine_layout_check (const TgEngineLayout *layout, GError **error)
{
  gboolean used[TG_ENGINE_LAYOUT_MAX] = { FALSE };

  g_return_val_if_fail (layout, FALSE);
  if (layout->n < 1 || layout->n > TG_ENGINE_LAYOUT_MAX)
    return refuse (error, "Cylinders", layout->n, "", "1 to 24");
  if (layout->n_pins < 1 || layout->n_pins > layout->n)
    return refuse (error, "Crankpins", layout->n_pins, "", "1 to the number of cylinders");
  for (guint i = 0; i < layout->n; i++)
    {
      if (!check_cylinder (layout, i, error))
        return FALSE;
      for (guint j = 0; j < i; j++)
        if (!check_pair (layout, j, i, error))
          return FALSE;
      used[layout->cylinders[i].pin] = TRUE;
    }
  for (guint pin = 0; pin < layout->n_pins; pin++)
    if (!used[pin])
      return refuse (error, "Crankpin", pin + 1.0, "", "one that carries a rod");
  return TRUE;
}

gboolean
tg_engine_layout_fires_evenly (const TgEngineLayout *layout)
{
  gboolean taken[TG_ENGINE_LAYOUT_MAX] = { FALSE };
  double first;

  g_return_val_if_fail (layout && layout->n >= 1 && layout->n <= TG_ENGINE_LAYOUT_MAX, FALSE);
  first = layout->cylinders[0].bank_deg - layout->cylinders[0].throw_deg;
  for (guint i = 0; i < layout->n; i++)
    {
      double dead_centre = layout->cylinders[i].bank_deg - layout->cylinders[i].throw_deg;
      guint k = 0;

      while (k < layout->n &&
             (taken[k] || !same_angle (dead_centre, first + k * 720.0 / layout->n)))
        k++;
      if (k == layout->n)
        return FALSE;
      taken[k] = TRUE;
    }
  return TRUE;
}
