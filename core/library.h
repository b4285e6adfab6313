/* library.h: the materials, part designs and cautions that come with the program
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Read once from data/library.xml, carried inside the program and checked against its schema.
 */
#pragma once

#include <glib.h>

#include "design.h"
#include "event.h"

G_BEGIN_DECLS

/**
 * TgMaterial:
 * @density: g/cm³ at 20 °C
 * @source: where the density was published
 */
typedef struct
{
  char *id;
  char *name;
  TgMetal metal;
  double density;
  char *source;
} TgMaterial;

typedef enum
{
  TG_STAGE_SETUP,
  TG_STAGE_WEIGH,
  TG_STAGE_GRIND,
  TG_STAGE_BUILD,
} TgStage;
#define TG_N_STAGES 4

/**
 * TgCaution: one thing that can hurt a person, a part or an engine
 * @title: a few words
 * @text: the usual practice in one to three sentences
 * @ground: the regulation, standard or publication, or "common practice, no published source"
 * @stages, @metals, @tools: bit masks (1 << member) of where it fits; 0: everywhere
 * @fracture_split: only for cracked caps
 * @first: belongs to the short list that is read before the first stroke of a day
 */
typedef struct
{
  char *id;
  char *title;
  char *text;
  char *ground;
  guint stages;
  guint metals;
  guint tools;
  gboolean fracture_split;
  gboolean first;
} TgCaution;

/**
 * TgLibrary:
 * @materials: (element-type TgMaterial)
 * @designs: (element-type TgDesign): their material is one of @materials
 * @cautions: (element-type TgCaution) in the order they are shown
 */
typedef struct
{
  GPtrArray *materials;
  GPtrArray *designs;
  GPtrArray *cautions;
} TgLibrary;

/* (transfer full): NULL with @error only if the carried file is broken, which the tests exclude. */
TgLibrary *tg_library_load (GError **error);
void tg_library_free (TgLibrary *library);

/* (nullable) (lends) */
const TgMaterial *tg_library_find_material (const TgLibrary *library, const char *id);
const TgDesign *tg_library_find_design (const TgLibrary *library, const char *id);

/**
 * tg_library_cautions:
 * @tools: bit mask of the tools at hand; 0: not known, every tool's cautions fit
 * @designs: (element-type TgDesign): the designs in work; their metals and splits decide
 *
 * Returns: (transfer container) (element-type TgCaution): those that fit, in order.
 */
GPtrArray *tg_library_cautions (const TgLibrary *library,
                                TgStage stage,
                                guint tools,
                                const GPtrArray *designs);

const char *tg_stage_to_word (TgStage stage);
gboolean tg_stage_from_word (const char *word, TgStage *stage);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgLibrary, tg_library_free)

G_END_DECLS
