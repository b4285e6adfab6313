/* pairing-job.h: jobs whose parts can change hands, for the tests
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All figures are invented.
 */
#pragma once

#include "session.h"

/* Pistons, pins, ring packs and clip pairs for @cylinders bores, and @spares spare pins; step 0.1 g,
 * tolerance 0.5 g. (transfer full) */
TgSetup *pairing_setup (guint cylinders, guint spares);

/* The same, everything weighed: pairing as the parts sit takes metal, and another one takes less.
 * (transfer full) */
TgJob *pairing_job (guint cylinders, guint spares);

/* 24 bores, as many spares of all but pistons, on a scale of 0.001 g without any tolerance: nobody waits for the proof.
 * (transfer full) */
TgJob *pairing_hard_job (void);

/* Saves @job (taken) in @folder and opens it. (transfer full) */
TgSession *pairing_session_new (const char *folder, TgJob *job);

/* Pairs, in step with the journal. */
void
pairing_rule (TgSession *session, TgRule rule, const char *part, const char *other, guint bore);
