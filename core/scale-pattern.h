/* scale-pattern.h: what a line of a scale means, learned from a few sample lines
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Any scale that prints lines can be read: the person lets it send a few, types what the display
 * showed for at least one, and the pattern follows.  A line that does not fit the pattern from its
 * first to its last character is no reading, whatever number may stand in it.
 */
#pragma once

#include <glib.h>

#include "mass-unit.h"

G_BEGIN_DECLS

#define TG_SCALE_LINE_MAX 120 /* bytes of a line, without its end */
#define TG_SCALE_MAX_SAMPLES 10
#define TG_SCALE_MAX_ITEMS 32
#define TG_SCALE_MAX_WORDS 4
#define TG_SCALE_WORD_SIZE 16
#define TG_SCALE_MAX_SHAPES 4

/* Whether the load rests. */
typedef enum
{
  TG_SCALE_REST_UNKNOWN,
  TG_SCALE_REST_MOVING,
  TG_SCALE_REST_STANDING,
} TgScaleRest;
#define TG_N_SCALE_RESTS 3

typedef enum
{
  TG_SCALE_ITEM_READING, /* the number that is read, with its sign */
  TG_SCALE_ITEM_NUMBER,  /* another number, which varies */
  TG_SCALE_ITEM_TEXT,    /* one of a few words, numbers or signs that were seen here */
  TG_SCALE_ITEM_UNIT,    /* the word of a unit */
} TgScaleItemKind;

/**
 * TgScaleItem: one thing in a line; blanks and tabs between things play no part
 * @words: TEXT: what was seen here, @n_words of them
 * @units: UNIT: bit 1 << TgMassUnit for each that was seen
 */
typedef struct
{
  TgScaleItemKind kind;
  guint n_words;
  char words[TG_SCALE_MAX_WORDS][TG_SCALE_WORD_SIZE];
  guint units;
} TgScaleItem;

/* A line from its beginning to its end. Exactly one item is the reading. */
typedef struct
{
  TgScaleRest rest;
  guint n_items;
  TgScaleItem items[TG_SCALE_MAX_ITEMS];
} TgScaleShape;

typedef enum
{
  TG_SCALE_SIGN_FREE,   /* before the number, if there is one */
  TG_SCALE_SIGN_ALWAYS, /* before the number, always + or - */
  TG_SCALE_SIGN_BEHIND, /* directly behind the number, if there is one */
} TgScaleSign;
#define TG_N_SCALE_SIGNS 3

/**
 * TgScalePattern: a plain value, copied by assignment
 * @mark: the decimal mark, '.' or ','
 * @min_decimals, @max_decimals: of the reading, 0 to 6
 * @unit: of a line that names none
 * @width: every line has that many bytes; 0 if lines may differ
 * @marked: lines say whether the load rests; else equal readings in a row do
 */
typedef struct
{
  char mark;
  guint min_decimals, max_decimals;
  TgScaleSign sign;
  TgMassUnit unit;
  guint width;
  gboolean marked;
  guint n_shapes;
  TgScaleShape shapes[TG_SCALE_MAX_SHAPES];
} TgScalePattern;

/**
 * TgScaleSample:
 * @line: as it came, without its end; bytes, of any encoding
 * @length: bytes
 * @shown: (nullable): what the display showed, as typed: "171.6", "-3,4 g"; NULL or "" if not said
 * @rest: what the person says of the load at that moment
 */
typedef struct
{
  const char *line;
  gsize length;
  const char *shown;
  TgScaleRest rest;
} TgScaleSample;

/**
 * tg_scale_pattern_learn:
 * @samples: lines, at least one of them with @shown; lines without any digit are passed over
 * @n: 1 to TG_SCALE_MAX_SAMPLES
 * @pattern: (out): untouched on failure
 * @questions: (nullable) (element-type utf8): gets (transfer full) texts: what the samples left
 *   open and which further samples would decide it; the pattern was learned the careful way
 * @error: TG_ERROR_SYNTAX: @shown is no weight, or a line is longer or richer than a scale's line;
 *   TG_ERROR_UNKNOWN: no number in a line is what was shown; TG_ERROR_DUPLICATE: several numbers
 *   could be the reading; TG_ERROR_RANGE: the lines differ too much. The message says what to do.
 *
 * The pattern reads every sample as it was shown, or learning fails.
 */
gboolean tg_scale_pattern_learn (const TgScaleSample *samples,
                                 guint n,
                                 TgScalePattern *pattern,
                                 GPtrArray *questions,
                                 GError **error);

typedef enum
{
  TG_SCALE_LINE_READING,
  TG_SCALE_LINE_EMPTY,     /* nothing but blanks */
  TG_SCALE_LINE_NO_NUMBER, /* a word or dashes: over- or underload, a message */
  TG_SCALE_LINE_UNLIKE,    /* not like the samples: cut, disturbed, another mode of the scale */
  TG_SCALE_LINE_WIDTH,     /* like the samples, but shorter or longer than each of them */
  TG_SCALE_LINE_UNIT,      /* like the samples, but in a unit that was not in them */
  TG_SCALE_LINE_HEAVY,     /* more than TG_MASS_MAX */
} TgScaleLineKind;
#define TG_N_SCALE_LINE_KINDS 7

/**
 * TgScaleReading:
 * @mass: milligrams, maybe below zero; 0 unless a reading
 * @rest: TG_SCALE_REST_UNKNOWN unless the pattern is marked
 */
typedef struct
{
  TgScaleLineKind kind;
  TgMass mass;
  TgScaleRest rest;
} TgScaleReading;

/* What @line of @length bytes (any bytes, no end) means. Pure; one pass per shape. */
TgScaleReading
tg_scale_pattern_read (const TgScalePattern *pattern, const char *line, gsize length);

/* Why a line is no reading, in words; "a reading" if it is one. */
const char *tg_scale_line_label (TgScaleLineKind kind);

/* (transfer full): the pattern as one line of ASCII, for the settings. */
char *tg_scale_pattern_to_text (const TgScalePattern *pattern);

/**
 * tg_scale_pattern_from_text:
 * @pattern: (out): untouched on failure
 *
 * Returns: FALSE unless @text is what tg_scale_pattern_to_text() writes.
 */
gboolean tg_scale_pattern_from_text (const char *text, TgScalePattern *pattern);

G_END_DECLS
