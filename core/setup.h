/* setup.h: what a job starts from: engine, scale, tolerance, part designs and parts
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The setup in the file never changes after the job has begun.  Refinements are events that set one
 * value by its path; tg_setup_set() applies them to a copy, so that the setup that is in force can
 * always be rebuilt and every change stays visible.
 */
#pragma once

#include <glib.h>

#include "check-weight.h"
#include "design.h"
#include "engine.h"
#include "practice.h"

G_BEGIN_DECLS

typedef enum
{
  TG_LAYOUT_INLINE,
  TG_LAYOUT_VEE,
  TG_LAYOUT_BOXER,
  TG_LAYOUT_OTHER,
} TgLayout;
#define TG_N_LAYOUTS 4

#define TG_MAX_CYLINDERS 24
/* Of one job, spares and a shelf to choose from included. */
#define TG_MAX_PARTS 600

/* Readings of each figure and way up that a job asks for, unless its owner says otherwise. */
#define TG_SETUP_REPEATS 1
#define TG_SETUP_MAX_REPEATS 20
/* The chance of an overshoot in a pass that is accepted, unless its owner says otherwise. */
#define TG_SETUP_OVERSHOOT_PERCENT 2.0

/* What is read off the scale for a part. All but rods have TG_FIGURE_WHOLE only. */
typedef enum
{
  TG_FIGURE_SMALL_END,
  TG_FIGURE_BIG_END,
  TG_FIGURE_WHOLE,
} TgFigure;
#define TG_N_FIGURES 3

/* The figures that have to become even over the set; each has a tolerance and a target.  Families
 * that are in the sum (TgSetup) are carried: the band is that of the figure together with them. */
typedef enum
{
  TG_BAND_ROD_SMALL,
  TG_BAND_ROD_BIG, /* with the bearing pair, if bearings are in the sum */
  TG_BAND_PISTON,  /* with pin, ring pack, clips and small end of its bore, as far as in the sum */
  TG_BAND_PISTON_ALONE, /* pistons that have to be even by themselves, too */
} TgBand;
#define TG_N_BANDS 4

/* What the small ends of the rods have to do with the pistons. */
typedef enum
{
  TG_SMALL_ENDS_APART, /* even by themselves */
  TG_SMALL_ENDS_SUM,   /* even in the sum with their pistons only: no band of their own */
  TG_SMALL_ENDS_BOTH,  /* even by themselves and counted in the sum */
} TgSmallEnds;
#define TG_N_SMALL_ENDS 3

/* Which rods share a crankpin. */
typedef enum
{
  TG_SHARING_OWN,        /* each rod has its own */
  TG_SHARING_NEIGHBOURS, /* bores 1 and 2, 3 and 4, … */
  TG_SHARING_BANKS,      /* of n bores 1 and n/2 + 1, 2 and n/2 + 2, … */
} TgSharing;
#define TG_N_SHARINGS 3

/**
 * TgPart:
 * @id: a name without dots, unique in the job, for instance "rod-3"
 * @name: what the person reads, "Rod 3"
 * @design: (not owned): the design of the setup that the part belongs to
 * @bore: cylinder number from 1; 0: a spare, at no bore.  Where it was when the job began, and in the
 *   setup that is in force where it is now
 */
typedef struct
{
  char *id;
  char *name;
  TgDesign *design;
  guint bore;
} TgPart;

/**
 * TgSetup:
 * @name: the job as its owner calls it
 * @resolution: step of the scale
 * @capacity: the most the scale can weigh, 0 if unknown
 * @scale: what its owner calls the scale, "" if nothing
 * @check_weight: what is stamped on the weight the scale is checked with, 0 if there is none
 * @check_class: of that weight, after OIML R 111-1
 * @repeats: readings of each figure and way up that are wanted, 1 to TG_SETUP_MAX_REPEATS
 * @overshoot_percent: the chance of an overshoot that is accepted for a pass, 0.1 to 20
 * @tolerance: by TgBand: the largest permitted spread, heaviest minus lightest; of pistons by
 *   themselves 0 stands for that of the sum (tg_setup_tolerance())
 * @left_out: by TgPartKind (pins, ring packs, clips, bearing pairs): such parts are in the job but not
 *   in the sum
 * @small_ends: what the small ends have to do with the pistons
 * @pistons_alone: pistons have to be even by themselves and in the sum, so that a spare can take the
 *   place of any; not with TG_SMALL_ENDS_SUM
 * @sharing: which rods share a crankpin; but for OWN there is an even number of cylinders
 * @engine: what is said of the crank drive
 * @practice: of a practice job, what is said of its bench
 * @designs: (element-type TgDesign) owned, at most 2 × TG_MAX_CYLINDERS
 * @parts: (element-type TgPart) owned, at most TG_MAX_PARTS
 */
typedef struct
{
  char *name;
  TgLayout layout;
  guint cylinders;
  TgMass resolution;
  TgMass capacity;
  char *scale;
  TgMass check_weight;
  TgCheckWeightClass check_class;
  guint repeats;
  double overshoot_percent;
  TgMass tolerance[TG_N_BANDS];
  gboolean left_out[TG_N_PART_KINDS];
  TgSmallEnds small_ends;
  gboolean pistons_alone;
  TgSharing sharing;
  TgEngine engine;
  TgPractice practice;
  GPtrArray *designs;
  GPtrArray *parts;
} TgSetup;

TgSetup *tg_setup_new (void);
TgSetup *tg_setup_copy (const TgSetup *setup);
/* TRUE if every value is the same: the same job. */
gboolean tg_setup_equal (const TgSetup *a, const TgSetup *b);
void tg_setup_free (TgSetup *setup);

/* Takes @design. */
void tg_setup_add_design (TgSetup *setup, TgDesign *design);

/* (lends): the new part, valid as long as @setup. @design must belong to @setup. */
TgPart *
tg_setup_add_part (TgSetup *setup, const char *id, const char *name, TgDesign *design, guint bore);

/* Adds "Rod 1" … (ids rod-1 …), "Piston 1" …, "Pin 1" (pin-1), "Rings 1" (rings-1), "Clips 1",
 * "Bearings 1" … of @design, one for each cylinder, and then @spares spares that are numbered on. */
void tg_setup_add_set (TgSetup *setup, TgDesign *design, guint spares);

/* (nullable) (lends) */
TgDesign *tg_setup_find_design (const TgSetup *setup, const char *id);
TgPart *tg_setup_find_part (const TgSetup *setup, const char *id, guint *index);

static inline TgPart *
tg_setup_part (const TgSetup *setup, guint index)
{
  return (TgPart *) g_ptr_array_index (setup->parts, index);
}

gboolean tg_setup_has_kind (const TgSetup *setup, TgPartKind kind);

/* (nullable) (lends): the first part of @kind at @bore */
const TgPart *tg_setup_at_bore (const TgSetup *setup, TgPartKind kind, guint bore);

/**
 * tg_setup_in_sum:
 *
 * TRUE if parts of @kind are in the job and carried in a sum: pins, ring packs and clips with the
 * piston of their bore, bearing pairs with the big end of their bore, rods' small ends with the piston
 * (TG_SMALL_ENDS_SUM or _BOTH, where there are pistons), and pistons as soon as anything is carried
 * with them.
 */
gboolean tg_setup_in_sum (const TgSetup *setup, TgPartKind kind);

/* The largest permitted spread of @band. */
TgMass tg_setup_tolerance (const TgSetup *setup, TgBand band);

/* TRUE if @band is one that this job has: for small ends not with TG_SMALL_ENDS_SUM, for pistons by
 * themselves only where that is asked for and pistons are in a sum. */
gboolean tg_setup_has_band (const TgSetup *setup, TgBand band);

/* The two bores of crankpin @pin, from 0 to cylinders / 2 − 1.  For jobs where rods share one only. */
void tg_setup_crankpin (const TgSetup *setup, guint pin, guint bores[2]);

/**
 * tg_setup_engine_kind:
 * @kind: (out): as chosen, or what layout and number of cylinders suggest
 *
 * Returns: FALSE if nothing was chosen and nothing is usual: an inline engine of 7, a boxer of 8
 */
gboolean tg_setup_engine_kind (const TgSetup *setup, TgEngineKind *kind);

/**
 * tg_setup_engine_layout:
 * @layout: (out): cylinder i is bore i + 1; untouched on failure
 * @error: TG_ERROR_UNKNOWN: no kind, or a free layout that was not described; else as
 *   tg_engine_layout_make()
 *
 * Bores are numbered along the crank, at each crankpin the bank of the lesser angle first, and with
 * TG_SHARING_BANKS one bank after the other, unless a numbering was said.  Where a crank of the same
 * kind (throws at the same angles, the rods of each pair at the same angle to each other) fires evenly
 * in the order that was said, it is that one; else the one that tg_engine_layout_make() gives.  Where
 * the bore spacing was not said, 1 mm stands for it: no couple can then be told.
 */
gboolean tg_setup_engine_layout (const TgSetup *setup, TgEngineLayout *layout, GError **error);

/**
 * tg_setup_order_is_even:
 *
 * Whether the crank of @layout can fire at equal intervals in the order that was said; also TRUE if
 * none was.  For engines that fire evenly only.
 */
gboolean tg_setup_order_is_even (const TgSetup *setup, const TgEngineLayout *layout);

/* Centre to centre in mm: as said, else that of the first rods' design; 0 if there is neither. */
double tg_setup_rod_mm (const TgSetup *setup);

/* What a person reads for a band of this job: "small ends", "big ends with bearings", "pistons",
 * "piston sets" where anything is carried with them. */
const char *tg_setup_band_label (const TgSetup *setup, TgBand band);

/**
 * tg_setup_places:
 * @kinds: 1 << TgPartKind of every family that is asked for
 *
 * Returns: (transfer full): where the parts of these families are, for tg_setup_place(); "" if the
 *   setup has none of them.  A setup that has two of a kind at one bore gives places that are refused.
 */
char *tg_setup_places (const TgSetup *setup, guint kinds);

/* 1 << TgPartKind of every family that @places names; 0 if it could not be placed. */
guint tg_setup_places_kinds (const TgSetup *setup, const char *places);

/**
 * tg_setup_place:
 * @places: "part:bore" for every part of each kind that is named, parted by one blank, bore 0 for
 *   spares; in the order of the setup.  In an id everything but letters, digits, "-", "_", "~" and
 *   what is beyond ASCII is written as in a URI (RFC 3986, 2.1): "rod 3" is "rod%203"
 * @error: TG_ERROR_SYNTAX, TG_ERROR_UNKNOWN (no such part), TG_ERROR_RANGE (bore), TG_ERROR_DUPLICATE
 *   (a part or, of one kind, a bore twice; a part of the kind left out is TG_ERROR_RANGE)
 *
 * Puts the parts at their bores.  On failure @setup is as before.
 */
gboolean tg_setup_place (TgSetup *setup, const char *places, GError **error);

/* Whether it could. */
gboolean tg_setup_check_places (const TgSetup *setup, const char *places, GError **error);

/**
 * tg_setup_check:
 *
 * Every design, ids unique and without dots, at least one part, bores within the cylinders, scale
 * and tolerances within possible limits.  The message names the thing and the value.
 */
gboolean tg_setup_check (const TgSetup *setup, GError **error);

/* The same, for a setup that is still being put together: it may have no parts yet. */
gboolean tg_setup_check_so_far (const TgSetup *setup, GError **error);

/**
 * tg_setup_set:
 * @path: "name", "tolerance.BAND" (g), "resolution", "capacity" (g), "scale" (its name),
 *   "check-weight" (g, 0 for none), "check-class", "repeats", "overshoot" (%), "sum.KIND" with KIND of
 *   pin, rings, clips, bearings ("yes", "no"), "engine.kind" (a word, or "by-layout"),
 *   "engine.factor" (%, or "by-layout"), "engine.split-pins" ("yes", "no"), "engine.FIELD" with FIELD
 *   of tg_engine_fields() or a name of tg_engine_text(), "sum.rod" ("no", "only", "both"), "sum.piston" ("only", "both"), "crankpins" ("own", "neighbours", "banks"), "DESIGN.FIELD" with
 *   FIELD of its dimensions or "density", "material", "metal", "DESIGN.ZONE.FIELD" with FIELD of its numbers
 *   or "use" ("yes", "no", "default") or "capacity" (g)
 * @value: as in a file: decimal point, no unit
 * @error: TG_ERROR_UNKNOWN for the path, TG_ERROR_SYNTAX or TG_ERROR_RANGE for the value
 *
 * On failure @setup is as before. A change that makes the setup impossible (tg_setup_check()) fails.
 */
gboolean tg_setup_set (TgSetup *setup, const char *path, const char *value, GError **error);

/**
 * tg_setup_check_value:
 *
 * What can be said of @value at @path whatever the other values are: the path leads somewhere, the
 * form is right, the limits of the field are kept, no never zone is opted in. A value that passes
 * can still be refused by tg_setup_set(), because of other values at that moment.
 * @error: as tg_setup_set()
 */
gboolean
tg_setup_check_value (const TgSetup *setup, const char *path, const char *value, GError **error);

/* (transfer full) (nullable): the present value at @path as in a file; NULL if there is none. */
char *tg_setup_get (const TgSetup *setup, const char *path);

/* (transfer full): what a person reads for @path, "Rod: cap pad: permitted depth"; *@unit gets "mm", or
 * NULL where no unit follows. */
char *tg_setup_name (const TgSetup *setup, const char *path, const char **unit);

/* (transfer full): the same with its unit, "Rod: cap pad: permitted depth, mm". */
char *tg_setup_describe (const TgSetup *setup, const char *path);

/* The band that a figure of a kind of part belongs to; FALSE for the whole rod. */
gboolean tg_band_of (TgPartKind kind, TgFigure figure, TgBand *band);
TgPartKind tg_band_kind (TgBand band);
TgFigure tg_band_figure (TgBand band);

/* Words in files: "own", "neighbours", "banks" */
const char *tg_sharing_to_word (TgSharing sharing);
gboolean tg_sharing_from_word (const char *word, TgSharing *sharing);

/* Words in files: "no", "only", "both" */
const char *tg_small_ends_to_word (TgSmallEnds small_ends);
gboolean tg_small_ends_from_word (const char *word, TgSmallEnds *small_ends);

/* Words in files: "inline" …, "small-end" …, "rod-small" … */
const char *tg_layout_to_word (TgLayout layout);
gboolean tg_layout_from_word (const char *word, TgLayout *layout);
const char *tg_figure_to_word (TgFigure figure);
gboolean tg_figure_from_word (const char *word, TgFigure *figure);
const char *tg_band_to_word (TgBand band);
gboolean tg_band_from_word (const char *word, TgBand *band);

/* What a person reads: "small end", "big end", "whole" ("weight" for pistons). */
const char *tg_figure_label (TgPartKind kind, TgFigure figure);
/* "small ends", "big ends", "pistons" */
const char *tg_band_label (TgBand band);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgSetup, tg_setup_free)

G_END_DECLS
