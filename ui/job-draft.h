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
 * @tolerance: by band, of the kinds that are matched
 */
typedef struct
{
  const char *name;
  TgLayout layout;
  guint cylinders;
  const TgDesign *rod;
  const TgDesign *piston;
  double centres_mm;
  TgMass resolution;
  TgMass tolerance[TG_N_BANDS];
} TgJobDraft;

/* (transfer full) (nullable): a setup that passes tg_setup_check(), with one part per cylinder */
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
