/* design.h: a part design: outline dimensions, material and the zones where metal may come off
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A job carries its own copies of the designs it uses.  All lengths are in mm.  A zone sits at a
 * named place of the outline; where that place lies follows from the dimensions, so that a zone
 * moves with its part when a dimension is refined.
 */
#pragma once

#include <glib.h>

#include "mass.h"

G_BEGIN_DECLS

/* As many as one removal plan can hold. */
#define TG_DESIGN_MAX_ZONES 16

/* Rods and pistons have an outline and zones; the others are only weighed. */
typedef enum
{
  TG_PART_ROD,
  TG_PART_PISTON,
  TG_PART_PIN,
  TG_PART_RINGS,    /* the rings of one piston */
  TG_PART_CLIPS,    /* both clips of one pin */
  TG_PART_BEARINGS, /* both half shells of one big end */
} TgPartKind;
#define TG_N_PART_KINDS 6

typedef enum
{
  TG_METAL_STEEL,
  TG_METAL_ALUMINIUM,
  TG_METAL_TITANIUM,
  TG_METAL_IRON,
} TgMetal;
#define TG_N_METALS 4

typedef enum
{
  TG_BEAM_I,
  TG_BEAM_H,
} TgBeam;

typedef enum
{
  TG_SKIRT_FULL,
  TG_SKIRT_SLIPPER,
} TgSkirt;

typedef enum
{
  TG_STANDING_FREE,      /* may be ground */
  TG_STANDING_WITH_CARE, /* only after the person opts in; the reason is shown */
  TG_STANDING_NEVER,     /* drawn, never planned; the reason is shown */
} TgStanding;

/* What the person decided about one zone, over its standing. */
typedef enum
{
  TG_USE_DEFAULT, /* free zones are used, with-care zones are not */
  TG_USE_YES,     /* opted in; refused for never zones */
  TG_USE_NO,      /* left alone */
} TgUse;

/* A design has at most as many zones as a plan can hold. */
#define TG_DESIGN_MAX_ZONES 16

/* Rod places, by position from the big-end centre towards the small end (L = centre distance). */
typedef enum
{
  TG_PLACE_SMALL_END_PAD,     /* balancing pad above the small end, beyond L */
  TG_PLACE_SMALL_END_SIDES,   /* pair: flanks of the small-end eye, at L */
  TG_PLACE_BEAM,              /* the web, at L/2 */
  TG_PLACE_BEAM_EDGES,        /* pair: the flanges' edges, at L/2 */
  TG_PLACE_BIG_END_SHOULDERS, /* pair: bolt bosses on the rod side of the joint */
  TG_PLACE_BOLT_SEATS,        /* pair: where bolt heads or nuts bear */
  TG_PLACE_CAP_SHOULDERS,     /* pair: bolt bosses on the cap side, beyond 0 */
  TG_PLACE_CAP_PAD,           /* balancing pad below the cap, beyond 0 */
  TG_PLACE_CAP_BACK,          /* the back of the cap itself */
  /* piston places */
  TG_PLACE_PIN_BOSS_FEET,   /* pair: undersides of the pin bosses */
  TG_PLACE_SKIRT_FOOT,      /* pair: inside lower edge of the skirt */
  TG_PLACE_CROWN_UNDERSIDE, /* under the crown, between the bosses */
  TG_PLACE_CROWN_TOP,
  TG_PLACE_RING_LANDS, /* pair */
  TG_PLACE_PIN_BORE,   /* pair */
  TG_PLACE_SKIRT_FACE, /* pair: the running face of the skirt */
} TgPlace;
#define TG_N_PLACES 16

/**
 * TgZone:
 * @id: a name without dots, unique in its design
 * @name: what the person reads, for instance "small-end pad"
 * @reason: why with care or never; "" for free zones
 * @offset_mm: correction along the rod to the place's own position, 0 by default
 * @area_mm2: area of one side, 0 if unknown
 * @depth_mm: permitted depth, 0 if unknown
 * @capacity: most that may come off, both sides together; 0: follows from area, depth and density
 * @preference: cost per gram in the plan, 1 by default, > 0
 */
typedef struct
{
  char *id;
  char *name;
  char *reason;
  TgPlace place;
  TgStanding standing;
  TgUse use;
  double offset_mm;
  double area_mm2;
  double depth_mm;
  TgMass capacity;
  double preference;
} TgZone;

/* All mm. A pad of height 0 does not exist. */
typedef struct
{
  double centres;         /* L, between the bore centres */
  double big_bore;        /* diameter */
  double big_outer;       /* diameter over the eye */
  double small_bore;      /* diameter */
  double small_outer;     /* diameter over the eye */
  double beam_big;        /* width of the beam at the big end */
  double beam_small;      /* width of the beam at the small end */
  double shoulder_span;   /* across both bolt bosses */
  double shoulder;        /* length of the bolt bosses on the rod side of the joint */
  double cap_shoulder;    /* the same on the cap side */
  double cap_pad;         /* height of the pad below the cap */
  double cap_pad_width;   /* across the rod */
  double small_pad;       /* height of the pad above the small end */
  double small_pad_width; /* across the rod */
} TgRodDims;

typedef struct
{
  double bore;               /* diameter of the piston */
  double height;             /* crown to foot of the skirt */
  double compression_height; /* crown to pin axis */
  double pin;                /* diameter of the pin bore */
  double crown;              /* thickness of the crown */
  double ring_belt;          /* crown to lower edge of the last ring land */
  double boss_outer;         /* diameter of the pin bosses */
  double boss_gap;           /* between the inner faces of the bosses */
  double skirt_wall;         /* thickness of the skirt */
} TgPistonDims;

/**
 * TgDesign:
 * @id: a name without dots, unique in its job
 * @material: name of the material as a person reads it; "" where the kind has no outline, and @metal,
 *   @density and all below then mean nothing
 * @metal: its family, which decides the cautions
 * @density: g/cm³
 * @fracture_split: rods only: the cap was cracked off, some makers forbid reuse
 * @zones: (element-type TgZone)
 */
typedef struct
{
  char *id;
  char *name;
  TgPartKind kind;
  char *material;
  TgMetal metal;
  double density;
  TgBeam beam;
  TgSkirt skirt;
  gboolean fracture_split;
  TgRodDims rod;
  TgPistonDims piston;
  GPtrArray *zones;
} TgDesign;

/**
 * TgField: one number of a struct that can be set by name
 * @name: as in files and paths, for instance "big-bore"
 * @label: as a person reads it
 * @unit: "mm", "mm²", "g/cm³", "g" or ""
 * @offset: of the double in its struct
 */
typedef struct
{
  const char *name;
  const char *label;
  const char *unit;
  double min, max;
  gsize offset;
} TgField;

/* The fields of TgRodDims, TgPistonDims and the plain doubles of TgZone; *n gets their number. */
const TgField *tg_design_rod_fields (guint *n);
const TgField *tg_design_piston_fields (guint *n);
const TgField *tg_design_zone_fields (guint *n);

static inline double *
tg_field_ptr (const TgField *field, gpointer base)
{
  return (double *) G_STRUCT_MEMBER_P (base, field->offset);
}

static inline double
tg_field_get (const TgField *field, gconstpointer base)
{
  return *(const double *) G_STRUCT_MEMBER_P (base, field->offset);
}

TgDesign *tg_design_new (TgPartKind kind);
TgDesign *tg_design_copy (const TgDesign *design);
/* TRUE if every field and every zone is the same. */
gboolean tg_design_equal (const TgDesign *a, const TgDesign *b);
void tg_design_free (TgDesign *design);

TgZone *tg_zone_new (void);
TgZone *tg_zone_copy (const TgZone *zone);
void tg_zone_free (TgZone *zone);

/* (nullable) lends the zone, valid as long as @design; @index may be NULL */
TgZone *tg_design_find_zone (const TgDesign *design, const char *zone_id, guint *index);

static inline TgZone *
tg_design_zone (const TgDesign *design, guint index)
{
  return (TgZone *) g_ptr_array_index (design->zones, index);
}

/* TRUE if the plan may use the zone: free and not left alone, or with care and opted in. */
gboolean tg_zone_usable (const TgZone *zone);

/* TRUE if the place stands on both sides of the part; amounts are halved between the sides. */
gboolean tg_place_is_pair (TgPlace place);
TgPartKind tg_place_kind (TgPlace place);

/* TRUE for rods and pistons: an outline, dimensions and zones. */
gboolean tg_part_kind_has_outline (TgPartKind kind);

/* What a person reads: "rod", "piston", "pin", "ring pack", "clip pair", "bearing pair"; and many. */
const char *tg_part_kind_label (TgPartKind kind);
const char *tg_part_kind_plural (TgPartKind kind);

/**
 * tg_design_zone_position:
 *
 * Returns: mm from the big-end centre towards the small end, of a rod's zone; 0 for pistons.
 */
double tg_design_zone_position (const TgDesign *design, const TgZone *zone);

/**
 * tg_design_zone_length:
 *
 * Returns: mm that the zone's place reaches along the rod; 0 for pistons.
 */
double tg_design_zone_length (const TgDesign *design, const TgZone *zone);

/**
 * tg_design_zone_capacity_g:
 *
 * Returns: the most grams the zone may give from its untouched state, both sides together:
 * the stated capacity, else area × sides × depth × density, else 0.
 */
double tg_design_zone_capacity_g (const TgDesign *design, const TgZone *zone);

/**
 * tg_design_zone_depth_mm:
 * @grams: off this zone, both sides together, ≥ 0
 *
 * depth = mass / (density × area × sides): the skim of a flat pad.
 * Returns: mm on each side; 0 if the area is not known.
 */
double tg_design_zone_depth_mm (const TgDesign *design, const TgZone *zone, double grams);

/**
 * tg_design_check:
 *
 * What the field limits cannot say: bores smaller than eyes, a pad zone where there is no pad, a
 * place of the other kind of part, unique zone ids, with-care and never zones with a reason, no more
 * than TG_DESIGN_MAX_ZONES, texts that a file can hold.
 */
gboolean tg_design_check (const TgDesign *design, GError **error);

/* Words used in files: "rod", "rings", "steel", "i", "slipper", "with-care", "yes", "cap-pad" ... */
const char *tg_part_kind_to_word (TgPartKind kind);
const char *tg_metal_to_word (TgMetal metal);
const char *tg_beam_to_word (TgBeam beam);
const char *tg_skirt_to_word (TgSkirt skirt);
const char *tg_standing_to_word (TgStanding standing);
const char *tg_use_to_word (TgUse use);
const char *tg_place_to_word (TgPlace place);
/* FALSE, with the output untouched, if @word is none of them. */
gboolean tg_part_kind_from_word (const char *word, TgPartKind *kind);
gboolean tg_metal_from_word (const char *word, TgMetal *metal);
gboolean tg_beam_from_word (const char *word, TgBeam *beam);
gboolean tg_skirt_from_word (const char *word, TgSkirt *skirt);
gboolean tg_standing_from_word (const char *word, TgStanding *standing);
gboolean tg_use_from_word (const char *word, TgUse *use);
gboolean tg_place_from_word (const char *word, TgPlace *place);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgDesign, tg_design_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgZone, tg_zone_free)

G_END_DECLS
