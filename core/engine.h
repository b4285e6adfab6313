/* engine.h: what is said of a job's crank drive, beyond its layout and number of cylinders
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every value has a default that stands for "not said", so that a job needs none of them until the
 * forces, the bobweight or the build cards are wanted.
 */
#pragma once

#include <glib.h>

#include "design.h"
#include "engine-layout.h"

G_BEGIN_DECLS

/* Of one V engine, unless its owner says otherwise. */
#define TG_ENGINE_BANK_DEG 90.0
/* Grams of oil in the drillings and on the parts of one crankpin: common practice, no published
 * source. */
#define TG_ENGINE_OIL_G 4.0
/* "By the layout": see tg_bobweight_factor(). */
#define TG_ENGINE_FACTOR_BY_LAYOUT (-1.0)

/* Which face of a part points where, in the owner's words; "" for "as the maker's manual says". */
typedef enum
{
  TG_FACING_PISTON, /* where the mark on the crown points */
  TG_FACING_ROD,    /* where the numbers of rod and cap point */
  TG_FACING_CLIPS,  /* where the gap of the clips stands */
} TgFacing;
#define TG_N_FACINGS 3

/* Length of the texts, in characters; one line each. */
#define TG_ENGINE_MAX_FACING 60

/**
 * TgEngine:
 * @chosen: @kind was said; else it follows from layout and number of cylinders
 * @bank_angle_deg: between the banks of a V engine
 * @split_pins: see TgEngineSpec
 * @spacing_mm: between the bores of one bank; 0: not said
 * @offset_mm: by which one bank stands further along the crank; 0: not said
 * @stroke_mm: 0: not said
 * @rod_mm: centre to centre; 0: that of the rods' design
 * @speed_rpm: the highest speed in 1/min; 0: not said
 * @factor_percent: balance factor, or TG_ENGINE_FACTOR_BY_LAYOUT
 * @oil_g: allowance for each crankpin
 * @other_reciprocating_g: what goes up and down with each piston and is not weighed in this job
 * @other_rotating_g: what turns with each big end and is not weighed in this job
 * @crank_kg: of the balanced crankshaft; 0: not said
 * @grade: balance quality grade G that the residual unbalance is held against, mm/s
 * @share_percent: of the layout's own shaking force that the parts' differences may add
 * @order: order of firing, "1-3-4-2"; "" if not said
 * @numbering: of a layout that tg_engine_layout_make() makes, which bore stands at each of its
 *   places, "1-5-2-6-3-7-4-8"; "": as tg_setup_engine_layout() numbers them
 * @free: of a free layout, for each bore in turn "BANK:THROW:POSITION:PIN" in degrees, degrees, mm
 *   and a number from 1, parted by one blank; "" if not said
 * @facing: by TgFacing
 */
typedef struct
{
  gboolean chosen;
  TgEngineKind kind;
  double bank_angle_deg;
  gboolean split_pins;
  double spacing_mm;
  double offset_mm;
  double stroke_mm;
  double rod_mm;
  double speed_rpm;
  double factor_percent;
  double oil_g;
  double other_reciprocating_g;
  double other_rotating_g;
  double crank_kg;
  double grade;
  double share_percent;
  char *order;
  char *numbering;
  char *free;
  char *facing[TG_N_FACINGS];
} TgEngine;

void tg_engine_init (TgEngine *engine);
void tg_engine_copy (const TgEngine *from, TgEngine *to); /* @to must be initialised */
gboolean tg_engine_equal (const TgEngine *a, const TgEngine *b);
void tg_engine_clear (TgEngine *engine);

/* The numbers of TgEngine but the balance factor; *n gets how many. */
const TgField *tg_engine_fields (guint *n);

/* (nullable) (lends): the place of the number called @name, a field or "factor". */
double *tg_engine_number (TgEngine *engine, const char *name);

/* Whether 0 stands for "not said" in the field called @name, and is not a value. */
gboolean tg_engine_zero_is_unsaid (const char *name);

/* The default of one of these fields. */
double tg_engine_default (const TgField *field);

/**
 * tg_engine_text:
 *
 * Returns: (lends): the place of the text called @name, "order", "numbering", "free", "piston-facing",
 *   "rod-facing", "clips-facing"; NULL if there is none
 */
char **tg_engine_text (TgEngine *engine, const char *name);

#define TG_ENGINE_N_TEXTS 6
/* Their names, in this order; and what a person reads for them. */
extern const char *const tg_engine_text_names[TG_ENGINE_N_TEXTS];
extern const char *const tg_engine_text_labels[TG_ENGINE_N_TEXTS];

/**
 * tg_engine_check:
 * @cylinders: of the job
 * @error: TG_ERROR_RANGE, TG_ERROR_SYNTAX, TG_ERROR_DUPLICATE
 *
 * Ranges, and that kind, order, numbering and free layout go with @cylinders.
 */
gboolean tg_engine_check (const TgEngine *engine, guint cylinders, GError **error);

/**
 * tg_engine_read_numbers:
 * @text: "1-5-2-6", each of 1 to @n once
 * @numbers: (out): of @n
 */
gboolean tg_engine_read_numbers (const char *text, guint n, guint *numbers, GError **error);

/* @layout: (out): from TgEngine.free for @cylinders; untouched on failure */
gboolean
tg_engine_read_free (const char *text, guint cylinders, TgEngineLayout *layout, GError **error);

/* (transfer full): the text that tg_engine_read_free() reads back. */
char *tg_engine_format_free (const TgEngineLayout *layout);

G_END_DECLS
