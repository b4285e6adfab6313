/* build-private.h: what the files of the build cards share, see build.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "build.h"

G_BEGIN_DECLS

/* Event @event put another part of @kind at @bore; @before: which was there until then, -1: none */
typedef struct
{
  int event;
  TgPartKind kind;
  guint bore;
  int before;
} TgBuildMove;

/**
 * TgBuildHistory: how the parts came to where they are
 * @job, @review: of today
 * @moves: (element-type TgBuildMove): in order of the journal
 * @past: (element-type TgReview): what the journal said before an event, by the index of that event
 */
typedef struct
{
  const TgJob *job;
  const TgReview *review;
  GArray *moves;
  GHashTable *past;
} TgBuildHistory;

TgBuildHistory tg_build_history (const TgJob *job, const TgReview *review);
void tg_build_history_clear (TgBuildHistory *history);

/* Index of the last event of @kind in force for part @part, or -1. */
int tg_build_last_of (const TgBuildHistory *history, TgEventKind kind, guint part);

/**
 * tg_build_moved:
 *
 * Index of the last pairing in force after event @after (-1: after the beginning) that put another part
 * of @kind at @bore, or -1.
 * @before: (out) (optional): which part was there until then, -1: none
 */
int
tg_build_moved (const TgBuildHistory *history, TgPartKind kind, guint bore, int after, int *before);

/* Whether every figure of @part that has a band, alone or in its sum, is proven inside it. */
gboolean tg_build_proven (const TgReview *review, guint part);

/* (transfer full): what is wrong with part @part at @bore, see TgBuildPart; "" if nothing */
char *tg_build_remark (TgBuildHistory *history, guint part, guint bore);

/* (transfer full): "weighs 0.4 g under its band" where a figure of @part was weighed out of it; else NULL */
char *tg_build_out_words (const TgReview *review, guint part);

/* A tick of @check says something of parts of @kind. */
gboolean tg_build_hangs_on (TgBuildCheck check, TgPartKind kind);

/* Fills what hangs on the journal in @tick, whose check stands, of @card, whose parts stand. */
void tg_build_tick (const TgBuildHistory *history, const TgBuildCard *card, TgBuildTick *tick);

G_END_DECLS
