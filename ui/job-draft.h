/* job-draft.h: the few answers that a new job is made from
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "setup.h"

G_BEGIN_DECLS

/**
 * TgJobDraft:
 * @rod, @piston: (nullable) (not owned): designs of the library; NULL: not matched
 * @centres_mm: of the rods; 0: as the design has it
 * @takes_part: by TgPartKind, of pins, ring packs, clips and bearing pairs: one for each cylinder
 * @spares: by TgPartKind: how many more of each family that takes part
 * @small_ends, @sharing: as in TgSetup
 * @tolerance: by band, of the kinds that are matched
 * @seed: (nullable): of a practice job, with @spread_g and @level of its bench; NULL: a real one
 */
typedef struct
{
  const char *name;
  TgLayout layout;
  guint cylinders;
  const TgDesign *rod;
  const TgDesign *piston;
  double centres_mm;
  gboolean takes_part[TG_N_PART_KINDS];
  guint spares[TG_N_PART_KINDS];
  TgSmallEnds small_ends;
  TgSharing sharing;
  TgMass resolution;
  TgMass tolerance[TG_N_BANDS];
  const char *seed;
  double spread_g;
  TgPracticeLevel level;
} TgJobDraft;

/* (transfer full) (nullable): a setup that passes tg_setup_check(), with one part of each family per cylinder
 * and the spares */
TgSetup *tg_job_draft_setup (const TgJobDraft *draft, GError **error);

/* (transfer full): a name to start from: "Four in line", "V eight" */
char *tg_job_draft_name (TgLayout layout, guint cylinders);

/**
 * tg_job_draft_path:
 * @folder: where to
 * @name: of the job; what a file name cannot hold is replaced
 *
 * Returns: (transfer full): a path in @folder ending in .tenthgram that no file has yet.
 */
char *tg_job_draft_path (const char *folder, const char *name);

/* (transfer full): the documents folder of the person if there is one, else the home folder. */
char *tg_job_draft_folder (void);

G_END_DECLS
