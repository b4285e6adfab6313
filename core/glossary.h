/* glossary.h: the terms that stand in the interface, each explained in two sentences
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Read from data/glossary.xml, carried inside the program and checked against its schema.  A term is
 * found wherever one of its forms stands in a text, so a label needs no mark of its own.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  TG_GROUND_TRADE,    /* a term of the trade */
  TG_GROUND_STANDARD, /* a term of an open standard, which is named */
  TG_GROUND_OURS,     /* a word of this program */
} TgGround;
#define TG_N_GROUNDS 3

/**
 * TgGlossarySpot: where on a drawing a term is to be seen
 *
 * In the order of the drawings: a rod, a piston with its pin, the rod on stand and scale, a scale, an
 * engine from the front, weights on a line, a force in a turn.
 */
typedef enum
{
  TG_SPOT_NONE,
  TG_SPOT_ROD,
  TG_SPOT_SMALL_END,
  TG_SPOT_BIG_END,
  TG_SPOT_CAP,
  TG_SPOT_CAP_JOINT,
  TG_SPOT_BEAM,
  TG_SPOT_BEAM_EDGE,
  TG_SPOT_BEARING_SHELL,
  TG_SPOT_SMALL_END_PAD,
  TG_SPOT_SMALL_END_SIDE,
  TG_SPOT_BIG_END_SHOULDER,
  TG_SPOT_BOLT_SEAT,
  TG_SPOT_CAP_SHOULDER,
  TG_SPOT_CAP_PAD,
  TG_SPOT_CAP_BACK,
  TG_SPOT_CENTRE_DISTANCE,
  TG_SPOT_LEVER_ARM,
  TG_SPOT_PISTON,
  TG_SPOT_CROWN,
  TG_SPOT_SKIRT,
  TG_SPOT_SKIRT_FOOT,
  TG_SPOT_PIN_BOSS,
  TG_SPOT_PIN_BOSS_FOOT,
  TG_SPOT_PIN_BORE,
  TG_SPOT_PIN,
  TG_SPOT_CLIP,
  TG_SPOT_RING_LAND,
  TG_SPOT_RING_PACK,
  TG_SPOT_COMPRESSION_HEIGHT,
  TG_SPOT_STAND,
  TG_SPOT_MARK,
  TG_SPOT_SCALE,
  TG_SPOT_READING,
  TG_SPOT_SCALE_STEP,
  TG_SPOT_CHECK_WEIGHT,
  TG_SPOT_CYLINDER,
  TG_SPOT_CRANKPIN,
  TG_SPOT_THROW,
  TG_SPOT_BANK,
  TG_SPOT_STROKE,
  TG_SPOT_BOBWEIGHT,
  TG_SPOT_RECIPROCATING,
  TG_SPOT_ROTATING,
  TG_SPOT_BAND,
  TG_SPOT_TARGET,
  TG_SPOT_TOLERANCE,
  TG_SPOT_SPREAD,
  TG_SPOT_PLUS_MINUS,
  TG_SPOT_OVERSHOOT,
  TG_SPOT_TO_COME_OFF,
  TG_SPOT_FIRST_ORDER,
  TG_SPOT_SECOND_ORDER,
} TgGlossarySpot;
#define TG_N_SPOTS 53

/**
 * TgGlossaryTerm:
 * @name: as it is written in the middle of a sentence, "big end"
 * @forms: (element-type utf8) the others in which it stands in the interface, "big ends"
 * @text: two sentences
 * @source: the standard it is of, "OIML R 111-1"; for a word of ours the one it leans on, or ""
 */
typedef struct
{
  char *id;
  char *name;
  GPtrArray *forms;
  char *text;
  TgGround ground;
  char *source;
  TgGlossarySpot spot;
} TgGlossaryTerm;

/**
 * TgGlossary:
 * @terms: (element-type TgGlossaryTerm) by their names
 */
typedef struct
{
  GPtrArray *terms;
} TgGlossary;

/**
 * TgGlossaryHit: a term that stands in a text
 * @start, @end: bytes, the second one behind it
 */
typedef struct
{
  const TgGlossaryTerm *term;
  gsize start;
  gsize end;
} TgGlossaryHit;

/* TRUE if the name or a form of @term holds what a person @typed, whatever its capitals and hyphens. */
gboolean tg_glossary_term_fits (const TgGlossaryTerm *term, const char *typed);

/* (transfer full): NULL with @error only if the carried file is broken, which the tests exclude. */
TgGlossary *tg_glossary_load (GError **error);

/**
 * tg_glossary_parse:
 * @name: of the file, for messages
 * @error: "NAME:LINE: cause": what does not fit the schema, an id or form that stands twice, an unknown
 *   spot, a text that is not two sentences, a standard that is not named
 *
 * Returns: (transfer full)
 */
TgGlossary *tg_glossary_parse (const char *data, gsize size, const char *name, GError **error);
void tg_glossary_free (TgGlossary *glossary);

/* (nullable) (lends) */
const TgGlossaryTerm *tg_glossary_find (const TgGlossary *glossary, const char *id);

/**
 * tg_glossary_hits:
 * @text: UTF-8, without the underscores of mnemonics
 *
 * Whole words only, from the left, of several forms the longest: “big-end bore” is one term and not
 * three.  Hyphens and blanks are the same, so are capitals and small letters, but a form of one or two
 * characters is a symbol and stands as it is: "g" is not "G".
 *
 * Returns: (transfer full) (element-type TgGlossaryHit)
 */
GArray *tg_glossary_hits (const TgGlossary *glossary, const char *text);

/* (transfer container) (element-type TgGlossaryTerm): those of tg_glossary_hits(), each once. */
GPtrArray *tg_glossary_in_text (const TgGlossary *glossary, const char *text);

/* Adds to @terms what of @text is not among them yet. */
void tg_glossary_add_from (const TgGlossary *glossary, const char *text, GPtrArray *terms);

/* (transfer full): "Trade term", "Open standard: OIML R 111-1", "Our own word, after JCGM 106" */
char *tg_glossary_ground_words (const TgGlossaryTerm *term);

const char *tg_ground_to_word (TgGround ground);
gboolean tg_ground_from_word (const char *word, TgGround *ground);
const char *tg_glossary_spot_to_word (TgGlossarySpot spot);
gboolean tg_glossary_spot_from_word (const char *word, TgGlossarySpot *spot);

/* (transfer full): what is written at the spot, "small end" */
char *tg_glossary_spot_label (TgGlossarySpot spot);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgGlossary, tg_glossary_free)

G_END_DECLS
