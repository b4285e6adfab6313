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

/* Weighs all but rods. */
void pairing_weigh (TgJob *job);

/* The same with rods and bearing pairs, which make a sum of their own. (transfer full) */
TgJob *pairing_both_job (guint cylinders);

/* 24 bores on a scale of 0.001 g, weights far apart and no tolerance: so few of all pairings come near
 * to even that nobody waits for the proof.  (transfer full) */
TgJob *pairing_hard_job (void);

/* Saves @job (taken) in @folder and opens it. (transfer full) */
TgSession *pairing_session_new (const char *folder, TgJob *job);

/* Appends a rule; @other or @bore as it asks for. */
void
pairing_rule (TgSession *session, TgRule rule, const char *part, const char *other, guint bore);
