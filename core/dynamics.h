/* dynamics.h: what the moving masses do to the engine
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Directions are those of engine-layout.h: x along angle 0 (up), y a quarter turn on in the sense in
 * which the crank turns.  Forces act on the engine block.  A couple is given by the plane in which it
 * rocks the engine: its x is the sum of position times force x, about the crank's middle; as a vector
 * of moment it stands a quarter turn on.  Where the forces do not sum to 0, another point would have
 * other couples.
 *
 * mm, degrees, kg and revolutions per minute go in; N, N·m and g·mm come out.
 */
#pragma once

#include "engine-layout.h"

G_BEGIN_DECLS

/* The least rod length over crank radius that is taken; engines have 3 to 5. */
#define TG_DYNAMICS_MIN_ROD_RATIO 1.1
#define TG_DYNAMICS_MAX_RPM 50000.0

/* Above 0; the rod from centre to centre, at least TG_DYNAMICS_MIN_ROD_RATIO radii. */
typedef struct
{
  double radius_mm;
  double rod_mm;
  double speed_rpm;
} TgDynamicsCrank;

/* Of a piston pin, along its bore away from the crank; m, m/s, m/s². */
typedef struct
{
  double position;
  double velocity;
  double acceleration;
} TgDynamicsMotion;

typedef enum
{
  TG_DYNAMICS_FIRST,
  TG_DYNAMICS_SECOND,
  TG_DYNAMICS_FOURTH,
  TG_DYNAMICS_SIXTH,
} TgDynamicsOrder;
#define TG_DYNAMICS_N_ORDERS 4

/**
 * TgDynamicsMasses:
 * @reciprocating_kg: by cylinder: piston, pin, clips, rings, small end
 * @rotating_kg: by cylinder: big end, bearings, and what else turns with its crankpin
 * @counterweight_kg: by cylinder: as if at the crank's radius, opposite its crankpin and level with
 *   its bore
 *
 * The first n of the layout are read.  Differences of masses may be negative.
 */
typedef struct
{
  double reciprocating_kg[TG_ENGINE_LAYOUT_MAX];
  double rotating_kg[TG_ENGINE_LAYOUT_MAX];
  double counterweight_kg[TG_ENGINE_LAYOUT_MAX];
} TgDynamicsMasses;

typedef struct
{
  double x;
  double y;
} TgDynamicsVector;

typedef struct
{
  TgDynamicsVector force;
  TgDynamicsVector couple;
} TgDynamicsLoad;

/* One order of a force or couple: two vectors, drawn as at crank angle 0, of which one turns with the
 * crank and one against it, each order times as fast. */
typedef struct
{
  TgDynamicsVector forward;
  TgDynamicsVector backward;
} TgDynamicsPair;

/* By order; nothing but numbers, so that sums add up number by number. */
typedef struct
{
  TgDynamicsPair force[TG_DYNAMICS_N_ORDERS];
  TgDynamicsPair couple[TG_DYNAMICS_N_ORDERS];
} TgDynamicsSums;

/**
 * TgDynamicsEllipse:
 * @largest: amplitude; the half major axis of what the pair draws in a turn
 * @smallest: the half minor axis; 0 if it goes to and fro in one line
 * @direction_deg: of the major axis, above −90 and at most 90; 0 for a circle
 */
typedef struct
{
  double largest;
  double smallest;
  double direction_deg;
} TgDynamicsEllipse;

/* @error: TG_ERROR_RANGE, naming what is not possible. */
gboolean tg_dynamics_check (const TgDynamicsCrank *crank, GError **error);

/* The exact motion of a pin whose crank throw is @angle_deg past top dead centre, at steady speed. */
TgDynamicsMotion tg_dynamics_motion (const TgDynamicsCrank *crank, double angle_deg);

/* 1, 2, 4 or 6 */
guint tg_dynamics_order_number (TgDynamicsOrder order);

/**
 * tg_dynamics_factors:
 * @crank: checked; its speed plays no part
 * @factors: (out): A_1 = 1, A_2, A_4, A_6
 *
 * The inertia force of a piston is m r ω² Σ A_n cos (n t).  Found by summing over equally spaced
 * angles, which for this periodic function is exact to rounding (about 1e-15), not by the series in
 * λ = r / l, whose first terms are λ + λ³/4 + 15 λ⁵/128, −(λ³/4 + 3 λ⁵/16) and 9 λ⁵/128.
 */
void tg_dynamics_factors (const TgDynamicsCrank *crank, double factors[TG_DYNAMICS_N_ORDERS]);

/* The whole load with the crank at @angle_deg, all orders in one. */
TgDynamicsLoad tg_dynamics_load (const TgEngineLayout *layout,
                                 const TgDynamicsCrank *crank,
                                 const TgDynamicsMasses *masses,
                                 double angle_deg);

/* The load's orders; linear in the masses. */
void tg_dynamics_sums (const TgEngineLayout *layout,
                       const TgDynamicsCrank *crank,
                       const TgDynamicsMasses *masses,
                       TgDynamicsSums *sums);

/* The vector that the pair makes with the crank at @angle_deg. */
TgDynamicsVector
tg_dynamics_pair_at (const TgDynamicsPair *pair, TgDynamicsOrder order, double angle_deg);

TgDynamicsEllipse tg_dynamics_pair_ellipse (const TgDynamicsPair *pair);

/**
 * tg_dynamics_counterweigh:
 * @masses: (inout): all counterweights are set, equal, as one bobweight card orders them
 * @rotating_share: 1 for the whole mean rotating mass
 * @factor: share of the mean reciprocating mass, the balance factor
 */
void tg_dynamics_counterweigh (const TgEngineLayout *layout,
                               double rotating_share,
                               double factor,
                               TgDynamicsMasses *masses);

/**
 * tg_dynamics_spread:
 * @spread: (out): by how much each mass differs from its mean over the cylinders
 *
 * Since loads are linear in the masses, the sums of @spread are those of the engine less those of the
 * same engine with perfectly even parts.  The counterweights are the same in both and leave nothing.
 */
void tg_dynamics_spread (const TgEngineLayout *layout,
                         const TgDynamicsMasses *masses,
                         TgDynamicsMasses *spread);

/**
 * tg_dynamics_uncertainty:
 * @uncertainties: the standard uncertainty of each mass, 0 or more; independent of each other
 * @sums: (out): the standard uncertainty of each number of tg_dynamics_sums()
 *
 * JCGM 100:2008, 5.1.2; exact, since the sums are linear.
 */
void tg_dynamics_uncertainty (const TgEngineLayout *layout,
                              const TgDynamicsCrank *crank,
                              const TgDynamicsMasses *uncertainties,
                              TgDynamicsSums *sums);

/* The same for the sums of tg_dynamics_spread(): each mass also moves the mean. Uncertainties of
 * counterweights are not read. */
void tg_dynamics_spread_uncertainty (const TgEngineLayout *layout,
                                     const TgDynamicsCrank *crank,
                                     const TgDynamicsMasses *uncertainties,
                                     TgDynamicsSums *sums);

/**
 * tg_dynamics_pins:
 * @factor: share of the reciprocating mass that is taken as turning, 0 for none
 * @pins: (out): of the layout's n_pins: unbalance in g·mm, above 0 towards the crankpin; of masses
 *   from tg_dynamics_spread() what the parts' differences leave at each pin
 *
 * Returns: the resultant unbalance of all pins, g·mm, with the crank at 0.
 */
TgDynamicsVector tg_dynamics_pins (const TgEngineLayout *layout,
                                   double radius_mm,
                                   const TgDynamicsMasses *masses,
                                   double factor,
                                   double *pins);

/**
 * tg_dynamics_permissible_unbalance:
 * @grade: G in mm/s
 * @mass_kg: of the rotor
 * @speed_rpm: highest service speed
 *
 * ISO 21940-11:2016: U_per = G m / ω, which is 60 000/2π = 9549.3 G m / n.
 * Returns: g·mm for the whole rotor
 */
double tg_dynamics_permissible_unbalance (double grade, double mass_kg, double speed_rpm);

/* The G in mm/s that a rotor with @unbalance_g_mm just keeps. */
double tg_dynamics_grade (double unbalance_g_mm, double mass_kg, double speed_rpm);

/* The finest of the standard's grades, 0.4 to 4000, that is no less than @grade; 0 if none is. */
double tg_dynamics_listed_grade (double grade);

G_END_DECLS
