/* engine-drawing-private.h: what both views of an engine have in common
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "engine-drawing.h"

G_BEGIN_DECLS

/**
 * TgEngineGroup: cylinders of one bank, or crankpins of one throw
 * @angle_deg: −180 to 180
 * @members: numbers from 0, in the order of @n
 */
typedef struct
{
  double angle_deg;
  guint n;
  guint members[TG_ENGINE_LAYOUT_MAX];
} TgEngineGroup;

/* Banks in the order of their angles; returns how many. */
guint tg_engine_drawing_banks (const TgEngineLayout *layout, TgEngineGroup *banks);
/* Crankpins that stand at the same angle. */
guint tg_engine_drawing_throws (const TgEngineLayout *layout, TgEngineGroup *throws);

/* (transfer full): "−22.5°" */
char *tg_engine_drawing_degrees (double angle_deg);

/* (transfer full): "1, 3, 5"; more than two that follow each other as "1–4", and more than four at
 * equal steps as "1, 3 … 11" */
char *tg_engine_drawing_numbers (const TgEngineGroup *group);

/* A closed path, filled and outlined as the bores of bank @bank are: full, hatched or hatched the other
 * way. */
void tg_engine_drawing_fill_bore (cairo_t *cr, const TgPlot *plot, guint bank);

/* An arrow's head with its tip at @x, @y, pointing to @angle, radians from the x axis. */
void tg_engine_drawing_arrow (cairo_t *cr, const TgPlot *plot, double x, double y, double angle);

void tg_engine_front_draw (cairo_t *cr, TgPlot *plot, TgRect rect, const TgEngineDrawing *engine);
void tg_engine_along_draw (cairo_t *cr, TgPlot *plot, TgRect rect, const TgEngineDrawing *engine);

/**
 * TgEngineFrontPlaces: what lies where in the view from the front
 * @x, @y: the crank's middle
 * @r: from there to a crankpin; @pin: radius of a crankpin
 * @inner, @outer, @half: a bore, along its bank from the crank's middle, and half its width
 * @bank_deg: of the first two banks; @throw_deg: of the first throw
 */
typedef struct
{
  double x, y, r, pin;
  double inner, outer, half;
  double bank_deg[2];
  double throw_deg;
} TgEngineFrontPlaces;

/* FALSE where nothing is drawn. */
gboolean tg_engine_front_places (TgPlot *plot,
                                 TgRect rect,
                                 const TgEngineDrawing *engine,
                                 TgEngineFrontPlaces *places);

G_END_DECLS
