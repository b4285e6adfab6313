/* balance.h: what the evenness of a job's parts is worth in its engine
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Takes the masses that the review knows into engine-layout.h and dynamics.h.  Pure, like the review;
 * for a page or a sheet that shows it, not for every event.  Forces in N, couples in N·m, masses in kg
 * inside TgDynamicsMasses and in g elsewhere, angles in degrees, speeds in 1/min.
 */
#pragma once

#include "dynamics.h"
#include "job.h"
#include "review.h"

G_BEGIN_DECLS

/* Which masses: as every part was first weighed, in the bores where the job began; as they are now; as
 * they will be when the plan has been carried out. */
typedef enum
{
  TG_BALANCE_BEFORE,
  TG_BALANCE_NOW,
  TG_BALANCE_THEN,
} TgBalanceStage;
#define TG_BALANCE_N_STAGES 3

/* What of the load: the layout's own, with perfectly even parts of the mean masses; what the parts'
 * differences add; both. */
typedef enum
{
  TG_BALANCE_OWN,
  TG_BALANCE_SPREAD,
  TG_BALANCE_WHOLE,
} TgBalanceShare;
#define TG_BALANCE_N_SHARES 3

typedef enum
{
  TG_BALANCE_FORCE,
  TG_BALANCE_COUPLE,
} TgBalanceLoad;
#define TG_BALANCE_N_LOADS 2

/**
 * TgBalanceMasses:
 * @known: every figure that is needed has been weighed
 * @missing: what is not, one sentence; "" if @known
 * @masses, @u: by bore; reciprocating: piston, pin, rings, clips, small end and what the setup adds;
 *   rotating: big end, bearings and what the setup adds.  Parts of which the job has no family weigh
 *   nothing.  The counterweights are those of the layout's own: the whole mean rotating mass and the
 *   balance factor's share of the mean reciprocating mass, 0 where cranks of this layout are balanced
 *   by themselves.  @u: standard uncertainties, taken as independent
 * @freedom: degrees of freedom of @u, the least of all figures, since they rest on one scatter
 */
typedef struct
{
  gboolean known;
  char *missing;
  TgDynamicsMasses masses;
  TgDynamicsMasses u;
  double freedom;
} TgBalanceMasses;

/**
 * TgBalance:
 * @missing: what has still to be said of the engine before there are forces, one sentence; "" if nothing
 * @has_layout: @kind and @layout are known
 * @has_crank: @crank is known, but for its speed: stroke and rod length
 * @has_couples: the bore spacing is known, or there is one crankpin and no offset
 * @speed_rpm: the highest speed of the setup, 0 if not said
 * @weighed: by TgPartKind: the job has such parts
 * @factor: balance factor of the counterweights, 0 to 1: as said, else tg_bobweight_factor()
 * @evenly: the layout can fire at equal intervals; @order_fits: in the order that was said
 */
typedef struct
{
  char *missing;
  gboolean has_layout;
  gboolean has_crank;
  gboolean has_couples;
  gboolean evenly;
  gboolean order_fits;
  TgEngineKind kind;
  TgEngineLayout layout;
  TgDynamicsCrank crank;
  double speed_rpm;
  gboolean weighed[TG_N_PART_KINDS];
  double factor;
  TgBalanceMasses stages[TG_BALANCE_N_STAGES];
} TgBalance;

/* The result keeps nothing of @job and @review. */
TgBalance *tg_balance_new (const TgJob *job, const TgReview *review);
void tg_balance_free (TgBalance *balance);

/* There are forces of @stage at a speed: layout, crank and masses are known. */
gboolean tg_balance_is_known (const TgBalance *balance, TgBalanceStage stage);

/* The same, and @stage is not what the parts weigh now all over again: metal came off since, or is still
 * to come off. */
gboolean tg_balance_is_news (const TgBalance *balance, TgBalanceStage stage);

/**
 * TgBalanceFigure:
 * @largest: half major axis of what it draws in a turn; N or N·m
 * @smallest, @direction_deg: see TgDynamicsEllipse
 * @expanded: half width of the interval around @largest that holds the true one with TG_REVIEW_LEVEL,
 *   or more often where @largest is no more than its doubt (tests/core/test-balance-doubt.c); 0 for the
 *   layout's own
 */
typedef struct
{
  double largest;
  double smallest;
  double direction_deg;
  double expanded;
} TgBalanceFigure;

/* @speed_rpm: above 0 */
TgBalanceFigure tg_balance_figure (const TgBalance *balance,
                                   TgBalanceStage stage,
                                   TgBalanceShare share,
                                   TgBalanceLoad load,
                                   TgDynamicsOrder order,
                                   double speed_rpm);

/* The largest that all orders make together anywhere in a turn; @smallest and @direction_deg are 0. */
TgBalanceFigure tg_balance_peak (const TgBalance *balance,
                                 TgBalanceStage stage,
                                 TgBalanceShare share,
                                 TgBalanceLoad load,
                                 double speed_rpm);

/**
 * TgBalancePair: the two bores whose masses differ most, and the force that the difference makes
 * @reciprocating: of what goes up and down, at top dead centre; else of what turns
 * @a, @b: bores, the heavier first
 */
typedef struct
{
  guint a, b;
  double difference_g;
  double force;
  double expanded;
} TgBalancePair;

TgBalancePair tg_balance_worst_pair (const TgBalance *balance,
                                     TgBalanceStage stage,
                                     gboolean reciprocating,
                                     double speed_rpm);

/* (transfer full): "31", "4.6", "0.35": a force, couple or unbalance with as many decimals as its
 * half width @expanded is worth; its own two digits where that is 0. */
char *tg_balance_number (double value, double expanded);

/* (transfer full): "4.2 N ± 6.1 N"; "31 N" where @expanded is 0.  The half width is rounded up. */
char *tg_balance_plus_minus (double value, double expanded, const char *unit);

/**
 * tg_balance_words:
 *
 * Returns: (transfer full): "At 6500 1/min the worst pair of pistons differed by 31 N; now 4 N ± 6 N
 * (bores 2 and 5)." and what there is to say of big ends, of the layout's own force and couple, and of
 * the crankpins; one sentence a line.  Says what is missing if it is.
 */
char *tg_balance_words (const TgBalance *balance, double speed_rpm);

/* A line or a closed curve of @n points. */
typedef struct
{
  guint n;
  double *x;
  double *y;
} TgBalanceCurve;

void tg_balance_curve_free (TgBalanceCurve *curve);

/* The tip of the force or couple over one turn (two of the points are the same: it is closed); x
 * across, to the side to which the crank turns at the top, y up. */
TgBalanceCurve *tg_balance_locus (const TgBalance *balance,
                                  TgBalanceStage stage,
                                  TgBalanceShare share,
                                  TgBalanceLoad load,
                                  double speed_rpm);

/* @across: the part across, else along the line of symmetry; x: crank angle 0 to 360 */
TgBalanceCurve *tg_balance_over_angle (const TgBalance *balance,
                                       TgBalanceStage stage,
                                       TgBalanceShare share,
                                       TgBalanceLoad load,
                                       gboolean across,
                                       double speed_rpm);

/* tg_balance_peak() over speed; x: 0 to @most_rpm */
TgBalanceCurve *tg_balance_over_speed (const TgBalance *balance,
                                       TgBalanceStage stage,
                                       TgBalanceShare share,
                                       TgBalanceLoad load,
                                       double most_rpm);

/**
 * TgBalancePin: unbalance of one crankpin that the parts' differences leave
 * @g_mm: above 0 towards the crankpin; of the rotating masses and the balance factor's share of the
 *   reciprocating ones, against the mean of all pins
 * @expanded: as in TgBalanceFigure
 */
typedef struct
{
  double g_mm;
  double expanded;
} TgBalancePin;

/**
 * TgBalanceUnbalance:
 * @n_pins, @pins: by crankpin
 * @resultant_g_mm: of all pins together, and @resultant_expanded
 * @planes_g_mm: what is left in each of two planes half a bore spacing beyond the first and last bore,
 *   and @planes_expanded; 0 and @has_planes FALSE where there is one pin or no spacing
 * @permissible_g_mm: of the whole rotor after ISO 21940-11 for the setup's grade, speed and mass of the
 *   crankshaft; 0 if mass or speed is not known.  Half of it for each plane
 * @grade: that the rotor just keeps, in the worse of both planes where there are planes; 0 as before
 * @listed_grade: see tg_dynamics_listed_grade()
 */
typedef struct
{
  guint n_pins;
  TgBalancePin pins[TG_ENGINE_LAYOUT_MAX];
  double resultant_g_mm;
  double resultant_expanded;
  gboolean has_planes;
  double planes_g_mm[2];
  double planes_expanded[2];
  double permissible_g_mm;
  double grade;
  double listed_grade;
} TgBalanceUnbalance;

/* FALSE if the masses of @stage or the crank are not known. */
gboolean tg_balance_unbalance (const TgBalance *balance,
                               const TgSetup *setup,
                               TgBalanceStage stage,
                               TgBalanceUnbalance *unbalance);

/* Below this share of what one piston makes the layout has no force or couple of its own that is worth
 * a comparison: an inline six still has a sixth order. */
#define TG_BALANCE_OWN_SHARE 0.1

/**
 * TgBalanceLimit: what a tolerance keeps within
 * @limit: N, N·m or g·mm (@unit)
 * @n: bands that share it
 * @worst: what one gram of spread makes at worst, in that unit
 */
typedef struct
{
  double limit;
  guint n;
  double worst;
  const char *unit;
} TgBalanceLimit;

/**
 * TgBalanceEnough: how even is even enough
 * @by_force: the layout has a force of its own to compare with (else the shaking force of one piston is
 *   taken, @of_one_piston; neither: nothing can be told, and all is 0)
 * @force: what may be added, N; @force_of: the force of which that is the setup's share, N: the largest
 *   of all orders together in a turn
 * @has_couple: a couple is held against the layout's own, too, else (@couple_of_one_piston) against
 *   what one piston makes over one bore spacing; @couple, @couple_of: N·m
 * @by_couple: it is the couple that asks for more than the force does
 * @tolerance_g: by TgBand, the largest spread with which whatever parts inside the band, in the least
 *   lucky bores, stay below @force and @couple; 0 for a band that the job has not or that does nothing.
 *   Bands whose figures add up share the allowance evenly; a band of what is in the sum of another
 *   one has that of the sum
 * @kept: by TgBand: the narrowest of the limits that @tolerance_g keeps: limit / (n × worst)
 * @by_grade: mass, grade and speed are known
 * @grade_tolerance_g, @grade_kept: the same for ISO 21940-11, both planes and the resultant
 * @words: what that means against the tolerances of the job and against what the scale can prove, a
 *   few sentences, parted by line ends
 *
 * Forces grow alike with the speed, so that the tolerances for force and couple are those of every
 * speed.  Parts that are in no band are taken as even.
 */
typedef struct
{
  gboolean by_force;
  gboolean of_one_piston;
  double force;
  double force_of;
  gboolean has_couple;
  gboolean couple_of_one_piston;
  gboolean by_couple;
  double couple;
  double couple_of;
  double tolerance_g[TG_N_BANDS];
  TgBalanceLimit kept[TG_N_BANDS];
  gboolean by_grade;
  double grade_tolerance_g[TG_N_BANDS];
  TgBalanceLimit grade_kept[TG_N_BANDS];
  char *words;
} TgBalanceEnough;

TgBalanceEnough *
tg_balance_enough (const TgBalance *balance, const TgReview *review, double speed_rpm);
void tg_balance_enough_free (TgBalanceEnough *enough);

/* Reasons: (transfer full) (element-type TgTerm), closed by a rule and its source (reason.h). */

/* Why so much is even enough; @enough: of @balance at @speed_rpm */
GPtrArray *tg_balance_why_enough (const TgBalance *balance,
                                  const TgReview *review,
                                  const TgBalanceEnough *enough,
                                  double speed_rpm);

/* Why the unbalance that is left does or does not keep the grade of ISO 21940-11. */
GPtrArray *tg_balance_why_grade (const TgBalance *balance,
                                 const TgReview *review,
                                 const TgBalanceUnbalance *unbalance);

/* How the forces now come about at a speed. */
GPtrArray *tg_balance_why_forces (const TgBalance *balance, double speed_rpm);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgBalance, tg_balance_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgBalanceCurve, tg_balance_curve_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgBalanceEnough, tg_balance_enough_free)

G_END_DECLS
