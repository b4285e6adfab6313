/* practice-bench.c: a bench to learn on, see practice-bench.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Statics as in rod-statics.h.  How a display settles, how much tools take and how parts of a family
 * differ is made up after common practice, no published source: it has to be plausible, not true.
 */
#include "practice-bench.h"

#include <math.h>

#include "practice-random.h"
#include "rod-statics.h"

/* g of an average part of a family; a rod has these two ends. */
#define SMALL_END_G 245.0
#define BIG_END_G 560.0
static const double family_g[TG_N_PART_KINDS] = {
  [TG_PART_PISTON] = 520, [TG_PART_PIN] = 118,     [TG_PART_RINGS] = 38,
  [TG_PART_CLIPS] = 4.2,  [TG_PART_BEARINGS] = 42,
};
/* How far families lie from that, either way. */
#define FAMILY_SHARE 0.2

/* g in a second. */
static const double tool_rates[TG_N_TOOLS] = {
  [TG_TOOL_BELT] = 0.035, [TG_TOOL_WHEEL] = 0.05, [TG_TOOL_FILE] = 0.008, [TG_TOOL_PAPER] = 0.004,
  [TG_TOOL_BURR] = 0.015, [TG_TOOL_MILL] = 0.06,  [TG_TOOL_LATHE] = 0.06,
};
/* No pass takes less than this share of the average, nor more than its inverse. */
#define LEAST_PASS 0.25

#define FLICKER_MS 200

typedef struct
{
  double small_g; /* of rods */
  double big_g;   /* of rods; of others the whole */
  double first_small_g, first_big_g;
  guint piece;
  double taken_g[TG_DESIGN_MAX_ZONES];
} Part;

struct _TgPracticeBench
{
  const TgSetup *setup;
  char *seed;
  double spread_g;
  TgPracticeFaults faults;
  GArray *parts; /* of Part */
  guint lays;
  guint passes;
  double zero_g;
  gboolean loaded;
  gboolean rocked;
  TgSlot slot;      /* of the part that lies there */
  double nominal_g; /* or the weight; 0: a part */
  double before_g;  /* what the display stood at when the load changed */
};

static const Part *
part_at (const TgPracticeBench *bench, guint index)
{
  return &g_array_index (bench->parts, Part, index);
}

static TgPartKind
kind_of (const TgPracticeBench *bench, guint index)
{
  return tg_setup_part (bench->setup, index)->design->kind;
}

/* ── what is hidden ─────────────────────────────────────────────────────────────────────────── */

static double
first_g (const char *seed, const char *what, double average_g, double spread_g, guint64 index)
{
  double family = average_g * (1 + FAMILY_SHARE * (2 * tg_practice_uniform (seed, what, 0) - 1));

  return MAX (average_g * 0.1, family + spread_g * tg_practice_normal (seed, what, index + 1));
}

static Part
make_piece (const TgPracticeBench *bench, guint index, guint piece)
{
  TgPartKind kind = kind_of (bench, index);
  guint64 which = ((guint64) piece << 32) + index;
  Part part = { .piece = piece };

  if (kind == TG_PART_ROD)
    {
      part.small_g = first_g (bench->seed, "small-end", SMALL_END_G, bench->spread_g, which);
      part.big_g = first_g (bench->seed, "big-end", BIG_END_G, bench->spread_g, which);
    }
  else
    part.big_g = first_g (bench->seed, tg_part_kind_to_word (kind), family_g[kind],
                          MIN (bench->spread_g, family_g[kind] * 0.02), which);
  part.first_small_g = part.small_g;
  part.first_big_g = part.big_g;
  return part;
}

static void
make_parts (TgPracticeBench *bench)
{
  for (guint i = 0; i < bench->setup->parts->len; i++)
    {
      Part part = make_piece (bench, i, 0);

      g_array_append_val (bench->parts, part);
    }
}

void
tg_practice_bench_replace (TgPracticeBench *bench, guint part)
{
  g_return_if_fail (bench && part < bench->parts->len);

  g_array_index (bench->parts, Part, part) = make_piece (bench, part,
                                                         part_at (bench, part)->piece + 1);
}

TgPracticeBench *
tg_practice_bench_new (const TgSetup *setup,
                       const char *seed,
                       double spread_g,
                       const TgPracticeFaults *faults)
{
  TgPracticeBench *bench;

  g_return_val_if_fail (setup && seed && faults && spread_g >= 0, NULL);

  bench = g_new0 (TgPracticeBench, 1);
  bench->setup = setup;
  bench->seed = g_strdup (seed);
  bench->faults = *faults;
  bench->spread_g = spread_g;
  bench->parts = g_array_new (FALSE, FALSE, sizeof (Part));
  make_parts (bench);
  return bench;
}

void
tg_practice_bench_free (TgPracticeBench *bench)
{
  if (!bench)
    return;
  g_array_unref (bench->parts);
  g_free (bench->seed);
  g_free (bench);
}

static double
figure_g (TgFigure figure, double small_g, double big_g)
{
  return figure == TG_FIGURE_SMALL_END ? small_g
         : figure == TG_FIGURE_BIG_END ? big_g
                                       : small_g + big_g;
}

double
tg_practice_bench_truth (const TgPracticeBench *bench, guint part, TgFigure figure)
{
  g_return_val_if_fail (bench && part < bench->parts->len, 0);

  return figure_g (figure, part_at (bench, part)->small_g, part_at (bench, part)->big_g);
}

double
tg_practice_bench_truth_at_first (const TgPracticeBench *bench, guint part, TgFigure figure)
{
  g_return_val_if_fail (bench && part < bench->parts->len, 0);

  return figure_g (figure, part_at (bench, part)->first_small_g,
                   part_at (bench, part)->first_big_g);
}

/* ── the stand and the scale ────────────────────────────────────────────────────────────────── */

static gboolean
on_stand (const TgSlot *slot)
{
  return slot->figure != TG_FIGURE_WHOLE;
}

double
tg_practice_bench_catches_g (const TgPracticeBench *bench, const TgSlot *slot)
{
  guint64 where;
  double draw;

  g_return_val_if_fail (bench && slot, 0);

  if (!on_stand (slot) || bench->faults.catch_share <= 0)
    return 0;
  where = (slot->part * TG_N_FIGURES + slot->figure) * TG_N_WAYS + slot->way;
  draw = tg_practice_uniform (bench->seed, "catch", where);
  if (draw >= bench->faults.catch_share)
    return 0;
  return draw < bench->faults.catch_share / 2 ? -bench->faults.catch_g : bench->faults.catch_g;
}

gboolean
tg_practice_bench_lies (const TgPracticeBench *bench, TgSlot *slot)
{
  g_return_val_if_fail (bench, FALSE);

  if (!bench->loaded || bench->nominal_g > 0)
    return FALSE;
  if (slot)
    *slot = bench->slot;
  return TRUE;
}

gboolean
tg_practice_bench_touches (const TgPracticeBench *bench)
{
  g_return_val_if_fail (bench, FALSE);

  return tg_practice_bench_lies (bench, NULL) && on_stand (&bench->slot) &&
         tg_practice_uniform (bench->seed, "touch", bench->lays) < bench->faults.touch_share;
}

/* What the display comes to rest at, before it is rounded. */
static double
at_rest_g (const TgPracticeBench *bench)
{
  double scatter = bench->faults.scatter_g;
  double load;

  if (!bench->loaded)
    return bench->zero_g;
  if (bench->nominal_g > 0 || !on_stand (&bench->slot))
    scatter /= 2;
  load = bench->nominal_g > 0
             ? bench->nominal_g
             : tg_practice_bench_truth (bench, bench->slot.part, bench->slot.figure);
  if (bench->nominal_g <= 0 && !bench->rocked)
    load += tg_practice_bench_catches_g (bench, &bench->slot);
  if (tg_practice_bench_touches (bench))
    load -= bench->faults.touch_g;
  return bench->zero_g + load * (1 + bench->faults.gain) +
         scatter * tg_practice_normal (bench->seed, "lay", bench->lays);
}

static void
change_load (TgPracticeBench *bench, const TgSlot *slot, double nominal_g)
{
  bench->before_g = at_rest_g (bench);
  bench->lays++;
  bench->zero_g += bench->faults.drift_g * tg_practice_normal (bench->seed, "zero", bench->lays);
  bench->loaded = slot || nominal_g > 0;
  bench->rocked = FALSE;
  bench->nominal_g = nominal_g;
  if (slot)
    bench->slot = *slot;
}

void
tg_practice_bench_lay (TgPracticeBench *bench, const TgSlot *slot)
{
  g_return_if_fail (bench && (!slot || slot->part < bench->parts->len));

  change_load (bench, slot, 0);
}

void
tg_practice_bench_lay_weight (TgPracticeBench *bench, TgMass nominal)
{
  g_return_if_fail (bench && nominal > 0);

  change_load (bench, NULL, tg_mass_to_g (nominal));
}

void
tg_practice_bench_rock (TgPracticeBench *bench)
{
  g_return_if_fail (tg_practice_bench_lies (bench, NULL));

  bench->before_g = at_rest_g (bench);
  bench->rocked = TRUE;
}

void
tg_practice_bench_set_zero (TgPracticeBench *bench)
{
  g_return_if_fail (bench && !bench->loaded);

  bench->zero_g = bench->before_g = 0;
}

/* What is still missing of the way from the former load: it runs up, swings past once and dies away.
 * Products only, which come out the same on every machine. */
static double
unsettled (guint ms)
{
  double left, cube;

  if (ms >= TG_PRACTICE_SETTLED_MS)
    return 0;
  left = 1 - (double) ms / TG_PRACTICE_SETTLED_MS;
  cube = left * left * left;
  return cube * cube * (1 - 7 * (1 - left));
}

TgMass
tg_practice_bench_display (const TgPracticeBench *bench, guint ms)
{
  double step, rest, shown;
  guint64 moment;

  g_return_val_if_fail (bench, 0);

  step = tg_mass_to_g (bench->setup->resolution);
  moment = ((guint64) bench->lays << 32) + ms / FLICKER_MS;
  rest = at_rest_g (bench);
  shown = rest + (bench->before_g - rest) * unsettled (ms) +
          bench->faults.flicker_g * tg_practice_normal (bench->seed, "flicker", moment);
  return tg_mass_from_g (round (shown / step) * step);
}

/* ── the grinder ────────────────────────────────────────────────────────────────────────────── */

double
tg_practice_bench_rate (const TgPracticeBench *bench, guint part, TgTool tool)
{
  TgPartKind kind;

  g_return_val_if_fail (bench && part < bench->parts->len && (guint) tool < TG_N_TOOLS, 0);

  kind = kind_of (bench, part);
  return tool_rates[tool] *
         (0.7 + 0.6 * tg_practice_uniform (bench->seed, "rate", kind * TG_N_TOOLS + tool));
}

double
tg_practice_tool_rate (TgTool tool)
{
  g_return_val_if_fail ((guint) tool < TG_N_TOOLS, 0);

  return tool_rates[tool];
}

double
tg_practice_bench_grind (
    TgPracticeBench *bench, guint part, guint zone, TgTool tool, double seconds)
{
  const TgDesign *design;
  Part *metal;
  TgRodStatics effect = { 0, 1 };
  double share, grams;

  g_return_val_if_fail (bench && part < bench->parts->len && seconds > 0, 0);
  design = tg_setup_part (bench->setup, part)->design;
  g_return_val_if_fail (zone < design->zones->len, 0);

  share = 1 + bench->faults.hand * tg_practice_normal (bench->seed, "pass", ++bench->passes);
  grams = tg_practice_bench_rate (bench, part, tool) * seconds *
          CLAMP (share, LEAST_PASS, 1 / LEAST_PASS);
  if (design->kind == TG_PART_ROD)
    effect = tg_rod_statics_effect (
        design->rod.centres, tg_design_zone_position (design, tg_design_zone (design, zone)));
  tg_practice_bench_lay (bench, NULL);
  metal = &g_array_index (bench->parts, Part, part);
  metal->taken_g[zone] += grams;
  metal->small_g -= grams * effect.small;
  metal->big_g -= grams * effect.big;
  return grams;
}

double
tg_practice_bench_taken (const TgPracticeBench *bench, guint part, guint zone)
{
  g_return_val_if_fail (bench && part < bench->parts->len && zone < TG_DESIGN_MAX_ZONES, 0);

  return part_at (bench, part)->taken_g[zone];
}
