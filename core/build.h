/* build.h: the build cards: per bore which part, facing which way, what has been ticked off
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pure, from the journal.  A tick counts for the parts that sat at its bore when it was made: when one
 * of them that it hangs on is swapped, replaced, ground or weighed out of its band afterwards, or the
 * card says anew which way a part faces, the tick is stale and the card says so.
 */
#pragma once

#include "build-checks.h"
#include "job.h"
#include "review.h"

G_BEGIN_DECLS

/**
 * TgBuildPart: one part of a card
 * @part: index, or -1: the job has the family, but nothing sits here
 * @label: what a person reads for its kind: "rod and cap", "piston", …
 * @weight_g: whole (of rods small end + big end), as it is now; NAN if unknown
 * @proven: every figure of it that has a band, alone or in its sum, is proven inside it
 * @remark: what is wrong with it: "was ground after it was proven", "weighed 0.4 g under its band",
 *   "is not the piston that was proven here: Piston 5 was", "no pin sits at this bore"; "" if nothing
 */
typedef struct
{
  TgPartKind kind;
  int part;
  const char *label;
  double weight_g;
  gboolean proven;
  char *remark;
} TgBuildPart;

/**
 * TgBuildTick: one line of a card's list
 * @ticked: done, and still good
 * @stale: it was done, but not for what sits here now
 * @wrong: a part is in hand that is not the one of the card
 * @event: index of the last tick in force, or -1
 * @in_hand: index of the part that it named, or -1
 * @remark: why stale or wrong; "" otherwise
 */
typedef struct
{
  TgBuildCheck check;
  gboolean ticked;
  gboolean stale;
  gboolean wrong;
  int event;
  int in_hand;
  char *remark;
} TgBuildTick;

/**
 * TgBuildCard:
 * @parts: (element-type TgBuildPart): of the families that the job has, in the order of TgPartKind
 * @ticks: (element-type TgBuildTick): the checks that apply, in their order
 * @n_ticked: of them
 * @n_wrong: of them stale or wrong
 * @ready: every part is there and proven, nothing remarked
 * @done: ready and all ticked
 * @sum_g: of the parts that are in the sum with the pistons; NAN if unknown, or if nothing is in a sum
 */
typedef struct
{
  guint bore;
  GArray *parts;
  GArray *ticks;
  guint n_ticked;
  guint n_wrong;
  gboolean ready;
  gboolean done;
  double sum_g;
} TgBuildCard;

/**
 * TgBuild:
 * @cards: (element-type TgBuildCard): by bore
 * @facing: by TgFacing: what the card says of it, never ""
 */
typedef struct
{
  GPtrArray *cards;
  char *facing[TG_N_FACINGS];
  guint n_done;
} TgBuild;

TgBuild *tg_build_new (const TgJob *job, const TgReview *review);
void tg_build_free (TgBuild *build);

static inline const TgBuildCard *
tg_build_card (const TgBuild *build, guint bore)
{
  return (const TgBuildCard *) g_ptr_array_index (build->cards, bore - 1);
}

/* Reasons: (transfer full) (element-type TgTerm), closed by a rule and its source (reason.h). */

/* Why a bore is ready, done or neither. */
GPtrArray *tg_build_why_card (const TgReview *review, const TgBuildCard *card);

/* Why a tick of @card holds, or no longer does. */
GPtrArray *
tg_build_why_tick (const TgJob *job, const TgReview *review, const TgBuildCard *card, guint tick);

/* Whether a check applies to a job: the parts in hand for families that it has, clips where it has
 * pistons, caps where it has rods. */
gboolean tg_build_check_applies (const TgSetup *setup, TgBuildCheck check);

/**
 * tg_build_strikes:
 *
 * Returns: (transfer full) (element-type TgEvent): what takes back every tick in force of @check at
 *   @bore, to be appended; a new tick follows them.  They lend the ids of @job.
 */
GArray *tg_build_strikes (const TgJob *job, const TgReview *review, guint bore, TgBuildCheck check);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgBuild, tg_build_free)

G_END_DECLS
