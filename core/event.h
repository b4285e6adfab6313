/* event.h: one dated entry of the journal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

#include "build-checks.h"
#include "mass.h"
#include "setup.h"
#include "stamp.h"

G_BEGIN_DECLS

typedef enum
{
  TG_EVENT_WEIGHING, /* a reading: part, figure, way, mass, kept */
  TG_EVENT_PASS,     /* metal was taken off: part, zone, mass (wanted), tool */
  TG_EVENT_TARGET,   /* decision: band, mass, or automatic */
  TG_EVENT_FREEZE,   /* decision: part, on: the part is not ground */
  TG_EVENT_REPLACE,  /* decision: another piece takes the part's place; its readings start anew */
  TG_EVENT_SET,      /* decision: path, value: a value of the setup is refined */
  TG_EVENT_STRIKE,   /* an earlier event (refers) is struck out; it stays visible */
  TG_EVENT_NOTE,     /* text, part may be empty */
  TG_EVENT_ZERO,     /* what the empty scale shows: mass, maybe below zero; set_back */
  TG_EVENT_CHECK_WEIGHT, /* a weight of known value on the scale: nominal, mass (the reading) */
  TG_EVENT_PAIR,         /* decision: places: which part sits at which bore from now on */
  TG_EVENT_RULE,         /* decision: rule, on, part, other or bore: what the pairing has to keep */
  TG_EVENT_TICK, /* while building: check, bore, and the part in hand where the check is about one */
  TG_EVENT_STEP, /* practice: a step of the lesson was done: path (its id), value (the answer, or "") */
} TgEventKind;
#define TG_N_EVENT_KINDS 14

/* What a pairing has to keep. */
typedef enum
{
  TG_RULE_TOGETHER, /* part and other stay in one bore */
  TG_RULE_APART,    /* part and other never meet in one bore */
  TG_RULE_BORE,     /* part stays at bore */
} TgRule;
#define TG_N_RULES 3

/* Which face of the rod lay up. TG_WAY_ANY for whole parts and pistons. */
typedef enum
{
  TG_WAY_ANY,
  TG_WAY_MARK_UP,
  TG_WAY_MARK_DOWN,
} TgWay;
#define TG_N_WAYS 3

typedef enum
{
  TG_TOOL_BELT,  /* belt grinder */
  TG_TOOL_WHEEL, /* bench grinder */
  TG_TOOL_FILE,  /* hand file */
  TG_TOOL_PAPER, /* abrasive paper */
  TG_TOOL_BURR,  /* rotary burr or mounted point */
  TG_TOOL_MILL,  /* milling machine */
  TG_TOOL_LATHE, /* lathe */
} TgTool;
#define TG_N_TOOLS 7

/* How long a pass was, as the person counts it. */
typedef enum
{
  TG_EFFORT_NONE, /* not said */
  TG_EFFORT_STROKES,
  TG_EFFORT_SECONDS,
} TgEffort;
#define TG_N_EFFORTS 3

#define TG_MAX_EFFORT 100000

/* No empty scale shows more than this. */
#define TG_MAX_ZERO ((TgMass) 1000 * TG_MASS_G)

/**
 * TgEvent:
 *
 * A plain value. Only the fields of its kind matter; strings that do not are "". A TgEvent handed
 * in lends its strings for the call; those of a job live as long as the job.
 *
 * @id: unique without coordination (a random UUID by default)
 * @part: part id, or ""
 * @mass: weighing, zero, check weight: the reading; pass: what was wanted, 0 if not said; target: the
 *   lower edge
 * @kept: weighing: the person was asked about the reading and kept it
 * @sent: weighing, zero, check weight: the scale sent the reading, nobody typed it
 * @practice: weighing, zero, check weight, pass: at the bench of a practice job
 * @set_back: zero: the scale was set to zero after it was read
 * @nominal: check weight: what is stamped on it
 * @effort, @count: pass: strokes or seconds, @count of them
 * @automatic: target: back to the program's own choice
 * @on: freeze, rule
 * @places: pair: see tg_setup_place()
 * @rule: rule
 * @other: rule (together, apart): id of the other part, of another kind
 * @bore: rule (bore), tick: cylinder number from 1
 * @check: tick
 * @refers: strike: id of the event
 * @text: a note, or the reason of a decision
 */
typedef struct
{
  TgEventKind kind;
  TgStamp stamp;
  const char *id;
  const char *who;
  const char *part;
  TgFigure figure;
  TgWay way;
  TgMass mass;
  gboolean kept;
  gboolean sent;
  gboolean practice;
  gboolean set_back;
  TgMass nominal;
  TgEffort effort;
  guint count;
  const char *zone;
  TgTool tool;
  TgBand band;
  gboolean automatic;
  gboolean on;
  const char *path;
  const char *value;
  const char *refers;
  const char *text;
  const char *places;
  TgRule rule;
  const char *other;
  guint bore;
  TgBuildCheck check;
} TgEvent;

/* Which fields matter to a kind; id, stamp, who and text belong to every kind. */
typedef enum
{
  TG_EVENT_USES_PART = 1 << 0,
  TG_EVENT_USES_FIGURE = 1 << 1,
  TG_EVENT_USES_WAY = 1 << 2,
  TG_EVENT_USES_ZONE = 1 << 3,
  TG_EVENT_USES_TOOL = 1 << 4,
  TG_EVENT_USES_BAND = 1 << 5,
  TG_EVENT_USES_MASS = 1 << 6,
  TG_EVENT_USES_AUTOMATIC = 1 << 7,
  TG_EVENT_USES_ON = 1 << 8,
  TG_EVENT_USES_PATH = 1 << 9,
  TG_EVENT_USES_VALUE = 1 << 10,
  TG_EVENT_USES_REFERS = 1 << 11,
  TG_EVENT_USES_KEPT = 1 << 12,
  TG_EVENT_USES_SENT = 1 << 13,
  TG_EVENT_USES_SET_BACK = 1 << 14,
  TG_EVENT_USES_NOMINAL = 1 << 15,
  TG_EVENT_USES_EFFORT = 1 << 16,
  TG_EVENT_USES_PLACES = 1 << 17,
  TG_EVENT_USES_RULE = 1 << 18,  /* rule, and other or bore as the rule asks for */
  TG_EVENT_USES_CHECK = 1 << 19, /* check and bore */
  TG_EVENT_USES_PRACTICE = 1 << 20,
} TgEventUses;

guint tg_event_uses (TgEventKind kind);

/* An event of @kind with every string "". */
TgEvent tg_event_blank (TgEventKind kind);

/* @event without what does not matter to its kind (nor the mass of an automatic target). */
TgEvent tg_event_plain (const TgEvent *event);

/* TRUE if everything that matters is the same. */
gboolean tg_event_equal (const TgEvent *a, const TgEvent *b);

/* Words in files: "weighing", "pass" …; "any", "mark-up", "mark-down"; "belt" … */
const char *tg_event_kind_to_word (TgEventKind kind);
gboolean tg_event_kind_from_word (const char *word, TgEventKind *kind);
const char *tg_way_to_word (TgWay way);
gboolean tg_way_from_word (const char *word, TgWay *way);
const char *tg_tool_to_word (TgTool tool);
gboolean tg_tool_from_word (const char *word, TgTool *tool);

const char *tg_effort_to_word (TgEffort effort);
gboolean tg_effort_from_word (const char *word, TgEffort *effort);

const char *tg_rule_to_word (TgRule rule); /* "together", "apart", "bore" */
gboolean tg_rule_from_word (const char *word, TgRule *rule);

/* What a person reads: "mark up"; "belt grinder". "" for TG_WAY_ANY. */
const char *tg_way_label (TgWay way);
const char *tg_tool_label (TgTool tool);

G_END_DECLS
