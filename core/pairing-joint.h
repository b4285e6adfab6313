/* pairing-joint.h: what rods and pistons that are planned together can do, for the files of the pairing
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "pairing-private.h"
#include "removal-plan.h"

G_BEGIN_DECLS

/**
 * TgPairingGround: a rod or a piston
 * @weight_g: small end; piston
 * @big_g: of rods, with what is carried
 * @zones: usable ones; rows: sum and big end; no weights
 */
typedef struct
{
  double weight_g;
  double big_g;
  TgPlanPart zones;
} TgPairingGround;

/**
 * TgPairingJoint:
 * @rods, @pistons: which families they are
 * @ground, @n_ground: rods, pistons: by number
 * @grams: of the other families: by number; NULL for rods and pistons
 */
struct _TgPairingJoint
{
  guint rods, pistons;
  TgPairingGround *ground[2];
  guint n_ground[2];
  double *grams[TG_MATCHING_MAX_FAMILIES];
  double tolerance_g[TG_PLAN_MAX_ROWS];
};

/* What tg_pairing_sets() and tg_pairing_part_g() say of pairings with @joint. */
double
tg_pairing_joint_sets (const TgPairing *pairing, const TgMatchingPlan *plan, TgPairingSet *sets);
double tg_pairing_joint_part_g (const TgPairingJoint *joint, guint family, guint number);

/* pairing-bound.c: no pairing takes less off rods and pistons together; 0 if nothing is known. */
double tg_pairing_joint_bound_g (const TgPairing *pairing);

G_END_DECLS
