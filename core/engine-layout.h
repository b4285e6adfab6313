/* engine-layout.h: where an engine's cylinders and crank throws stand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Angles are in degrees, in the sense in which the crank turns, from the engine's line of symmetry
 * (straight up in a usual engine, and the line of the bores of an inline one).  Positions are in mm
 * along the crank from its middle, so that the crank turns right-handed about that direction.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define TG_ENGINE_LAYOUT_MAX 24

/**
 * TgEngineCylinder:
 * @bank_deg: where the bore points to, −180 to 180
 * @throw_deg: where the cylinder's crankpin stands when the crank is at 0, −720 to 720
 * @position_mm: of the bore's centre along the crank
 * @pin: number of the crankpin from 0; rods on one pin have the same throw
 */
typedef struct
{
  double bank_deg;
  double throw_deg;
  double position_mm;
  guint pin;
} TgEngineCylinder;

/**
 * TgEngineLayout:
 * @n: cylinders, 1 to TG_ENGINE_LAYOUT_MAX
 * @n_pins: crankpins, 1 to @n; each carries a rod
 *
 * A small value.  What tg_engine_layout_make() gives numbers the cylinders along the crank, at each
 * crankpin the bank of the lesser angle first; engine makers number in many ways.
 */
typedef struct
{
  guint n;
  guint n_pins;
  TgEngineCylinder cylinders[TG_ENGINE_LAYOUT_MAX];
} TgEngineLayout;

/**
 * TgEngineKind:
 * @TG_ENGINE_SINGLE: one cylinder
 * @TG_ENGINE_TWIN_360: two side by side, pistons together
 * @TG_ENGINE_TWIN_180: two side by side, pistons against each other
 * @TG_ENGINE_TWIN_270: two side by side, the second crankpin 270° after the first
 * @TG_ENGINE_V_TWIN: two on one crankpin
 * @TG_ENGINE_INLINE: 3, 4, 5, 6 or 8 in a row that fire evenly
 * @TG_ENGINE_V6: three crankpins 120° apart
 * @TG_ENGINE_V8_CROSS: four crankpins 90° apart
 * @TG_ENGINE_V8_FLAT: four crankpins in one plane
 * @TG_ENGINE_V10: five crankpins 72° apart
 * @TG_ENGINE_V12: the crank of an inline six
 * @TG_ENGINE_BOXER: 2, 4 or 6, pistons of a pair against each other on crankpins 180° apart
 * @TG_ENGINE_FREE: described cylinder by cylinder; tg_engine_layout_make() does not make it
 */
typedef enum
{
  TG_ENGINE_SINGLE,
  TG_ENGINE_TWIN_360,
  TG_ENGINE_TWIN_180,
  TG_ENGINE_TWIN_270,
  TG_ENGINE_V_TWIN,
  TG_ENGINE_INLINE,
  TG_ENGINE_V6,
  TG_ENGINE_V8_CROSS,
  TG_ENGINE_V8_FLAT,
  TG_ENGINE_V10,
  TG_ENGINE_V12,
  TG_ENGINE_BOXER,
  TG_ENGINE_FREE,
} TgEngineKind;
#define TG_ENGINE_N_KINDS 13

/**
 * TgEngineSpec:
 * @cylinders: read for INLINE and BOXER only
 * @bank_angle_deg: between the banks, above 0 and at most 180; read for the V engines only
 * @split_pins: the two rods of a pin get pins of their own, set off from each other by the least
 *   angle that makes the engine fire evenly (0 where it does on shared pins); V engines only
 * @spacing_mm: between the bores of one bank, above 0; not read where each bank has one
 * @offset_mm: by which the bank of the greater angle stands further along the crank, 0 or more and
 *   less than the spacing; V engines and boxers only.  A boxer's must be above 0: two pins cannot
 *   stand in one place.
 */
typedef struct
{
  TgEngineKind kind;
  guint cylinders;
  double bank_angle_deg;
  gboolean split_pins;
  double spacing_mm;
  double offset_mm;
} TgEngineSpec;

/**
 * tg_engine_layout_make:
 * @layout: (out): untouched on failure
 * @error: TG_ERROR_RANGE
 *
 * Throws follow from even firing, four-stroke: top dead centres 720° / cylinders apart.  Of the
 * orders along the crank that allow it, the one is taken that leaves the least first-order couple
 * that counterweights cannot reach, then the least second-order couple, then the least first-order
 * couple, then the least second-order couple of the front half; of equals, the first with throws in
 * rising order.  A V engine without @split_pins keeps its pins whether it fires evenly or not.
 */
gboolean tg_engine_layout_make (const TgEngineSpec *spec, TgEngineLayout *layout, GError **error);

/**
 * tg_engine_layout_check:
 * @error: TG_ERROR_RANGE for a number, TG_ERROR_DUPLICATE for two bores in one place, naming the
 *   cylinders (from 1)
 *
 * For a layout that was put together freely: could such an engine be?
 */
gboolean tg_engine_layout_check (const TgEngineLayout *layout, GError **error);

/* Words in files: "single", "twin-360" …, "v8-cross" …, "free" */
const char *tg_engine_kind_to_word (TgEngineKind kind);
gboolean tg_engine_kind_from_word (const char *word, TgEngineKind *kind);

/* What a person reads: "single cylinder", "parallel twin, 270°", "V8, cross-plane" */
const char *tg_engine_kind_label (TgEngineKind kind);

/* Whether the angle between the banks, split crankpins and the offset of the banks matter to @kind. */
gboolean tg_engine_kind_is_vee (TgEngineKind kind);

/* Whether an engine of this kind can have @cylinders. */
gboolean tg_engine_kind_fits (TgEngineKind kind, guint cylinders);

/* Whether a four-stroke engine of this checked layout can fire at equal intervals, to 1e-6°. */
gboolean tg_engine_layout_fires_evenly (const TgEngineLayout *layout);

G_END_DECLS
