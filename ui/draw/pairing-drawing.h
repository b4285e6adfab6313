/* pairing-drawing.h: which part goes with which, as one bar for each bore on a scale of grams
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An assembly weighs some hundred grams and the differences are tenths, so a bar shows what each
 * part weighs over the lightest of its family.  All the lightest together are the left edge of the
 * scale; where a bar ends is what its assembly weighs.  The target band is a strip through all rows,
 * and what stands beyond its upper edge has to be ground.
 */
#pragma once

#include "plot.h"

G_BEGIN_DECLS

#define TG_PAIRING_DRAWING_MAX_FAMILIES 6

/**
 * TgPairingSegment: a part in a bar
 * @number: (nullable): of the part in its family, for instance "3"; NULL: the bore has none
 * @over_g: what it weighs over the lightest of its family, ≥ 0
 * @moved: it is at another bore today
 * @locked: the person has fixed it here
 */
typedef struct
{
  const char *number;
  double over_g;
  gboolean moved;
  gboolean locked;
} TgPairingSegment;

/**
 * TgPairingBar: a bore
 * @label: of the bore without that word, for instance "1"
 * @parts: by family
 * @after_g: its assembly over TgPairingPicture.base_g, ≥ 0: the sum of over_g
 * @removal_g: what has to come off it
 * @touched: something has to come off it
 * @before_g, @before_removal_g: the same of what is in this bore today, only with has_before
 * @selected: has the accent's frame
 */
typedef struct
{
  const char *label;
  TgPairingSegment parts[TG_PAIRING_DRAWING_MAX_FAMILIES];
  double after_g, removal_g;
  gboolean touched;
  double before_g, before_removal_g;
  gboolean selected;
} TgPairingBar;

/**
 * TgPairingPicture: all strings and arrays are lent
 * @n_families: 1 to TG_PAIRING_DRAWING_MAX_FAMILIES
 * @family_label: for instance "piston", in the order of the bars from the left
 * @n_bars: ≥ 1
 * @bars: (array length=n_bars)
 * @base_g: the lightest parts of all families together
 * @band_lower_g, @band_upper_g: the target and the target with its tolerance, over @base_g
 * @has_before: today's pairing is shown too
 * @decimals: of grams
 */
typedef struct
{
  guint n_families;
  const char *family_label[TG_PAIRING_DRAWING_MAX_FAMILIES];
  guint n_bars;
  const TgPairingBar *bars;
  double base_g;
  double band_lower_g, band_upper_g;
  gboolean has_before;
  guint decimals;
} TgPairingPicture;

/* The height that shows everything at @width, with rows of at least 44, high enough for a finger. On
 * paper, which is type below 10, they are as much lower as its type. */
double
tg_pairing_drawing_height (double width, const TgPairingPicture *picture, const TgStyle *style);

/**
 * tg_pairing_drawing_draw:
 *
 * Made for 300 px of ordinary text 13 high and more.  In less than tg_pairing_drawing_height() the
 * second lines of the rows, the legend, today's lines and the scale are left out in this order.
 * Nothing is drawn outside @area and the cairo state is restored.
 */
void tg_pairing_drawing_draw (cairo_t *cr,
                              TgRect area,
                              const TgPairingPicture *picture,
                              const TgStyle *style);

/* The same; what was written where is for the tests. (transfer full) (nullable): NULL: nothing drawn */
TgPlot *tg_pairing_drawing_plot (cairo_t *cr,
                                 TgRect area,
                                 const TgPairingPicture *picture,
                                 const TgStyle *style);

/* The row of bar @i as it is drawn in @area, for the frame of the keyboard's focus; no height where
 * no rows are drawn. */
TgRect tg_pairing_drawing_row (TgRect area,
                               const TgPairingPicture *picture,
                               const TgStyle *style,
                               guint i);

/* The bar whose row has @y in it, -1: none. */
int tg_pairing_drawing_row_at (TgRect area,
                               const TgPairingPicture *picture,
                               const TgStyle *style,
                               double y);

/* (transfer full): bar @i in a sentence: "Bore 2: piston 3 (from another bore), pin 5 (locked),
 * together 1013.9 g, 0.6 g to come off; today 1.4 g to come off." */
char *tg_pairing_drawing_describe_bar (const TgPairingPicture *picture, guint i);

/* (transfer full): a sentence for each bar, each on a line of its own. */
char *tg_pairing_drawing_describe (const TgPairingPicture *picture);

G_END_DECLS
