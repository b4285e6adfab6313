/* pairing-layout.h: where the rows, bars and words of one picture of a pairing lie
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Private to this folder.
 */
#pragma once

#include "pairing-drawing.h"

G_BEGIN_DECLS

/* What the legend explains. */
typedef enum
{
  TG_PAIRING_KEY_FAMILY,
  TG_PAIRING_KEY_TODAY,
  TG_PAIRING_KEY_OFF,
  TG_PAIRING_KEY_MOVED,
  TG_PAIRING_KEY_LOCKED,
  TG_PAIRING_KEY_BASE,
} TgPairingKeyKind;

/**
 * TgPairingKey: an entry of the legend
 * @family: of TG_PAIRING_KEY_FAMILY
 * @x, @y: left end and top of its line
 */
typedef struct
{
  TgPairingKeyKind kind;
  guint family;
  char *text;
  double x, y;
} TgPairingKey;

/**
 * TgPairingChip: a part in the second line of a row
 * @text: (owned): its number, or family and number; NULL: no such part
 * @x: its left end; @line: 0 for the first one
 */
typedef struct
{
  char *text;
  double x;
  guint line;
} TgPairingChip;

/**
 * TgPairingLayout:
 * @plot: with the ends of the scale as left and right
 * @inner: what rows may be written on, without the room for their frame
 * @label_width, @amount_width: of the columns at the left and at the right
 * @scale: px for a gram; @tick: g; @tick_decimals: that its figures need
 * @legend, @axis, @before, @chips: shown
 * @named: chips say their family
 * @keys: (element-type TgPairingKey)
 * @band_y, @tick_y: tops of the two lines over the rows
 * @top: of the first row; @row: height of each, 0: there is no room for any
 * @content: height of what is in a row
 * @chip_lines: as many in each row
 */
typedef struct
{
  TgPlot *plot;
  const TgPairingPicture *picture;
  TgRect inner;
  double label_width, amount_width;
  double scale, tick;
  guint tick_decimals;
  gboolean legend, axis, before, chips, named;
  GArray *keys;
  guint key_lines;
  double band_y, tick_y, top, row, content;
  guint chip_lines;
} TgPairingLayout;

TgPairingLayout *
tg_pairing_layout_new (TgRect area, const TgPairingPicture *picture, const TgStyle *style);
void tg_pairing_layout_free (TgPairingLayout *layout);
/* (transfer full): all but the plot is freed. */
TgPlot *tg_pairing_layout_free_to_plot (TgPairingLayout *layout);

/* What everything takes, from the upper edge of the area to the lower one. */
double tg_pairing_layout_height (const TgPairingLayout *layout);

/* x of @over_g over the base. */
double tg_pairing_layout_x (const TgPairingLayout *layout, double over_g);

/* Of a row: the middle of today's line, the bar (its height at the scale's whole length), the top of
 * a line of chips. */
double tg_pairing_layout_before (const TgPairingLayout *layout, guint i);
TgRect tg_pairing_layout_bar (const TgPairingLayout *layout, guint i);
double tg_pairing_layout_chip_y (const TgPairingLayout *layout, guint i, guint line);

/* Sizes that stand beside texts: a swatch of the second line and one of the legend, a dot with its
 * gap, a padlock with its gap. */
double tg_pairing_layout_swatch (const TgPairingLayout *layout);
double tg_pairing_layout_key_swatch (const TgPairingLayout *layout);
double tg_pairing_layout_dot (const TgPairingLayout *layout);
double tg_pairing_layout_lock (const TgPairingLayout *layout);

/* Fills @chips by family; free with tg_pairing_layout_chips_clear(). */
void tg_pairing_layout_chips (const TgPairingLayout *layout, guint i, TgPairingChip *chips);
void tg_pairing_layout_chips_clear (TgPairingChip *chips);

/* All parts of the bar are locked. */
gboolean tg_pairing_layout_all_locked (const TgPairingPicture *picture, guint i);

/* (transfer full): what has to come off: "0.6 g", or "even", or "light" for a bar that ends short of
 * the band. */
char *tg_pairing_layout_amount (const TgPairingPicture *picture, guint i);
gboolean tg_pairing_layout_is_light (const TgPairingPicture *picture, guint i);
/* (transfer full): the same of today's. */
char *tg_pairing_layout_before_amount (const TgPairingPicture *picture, guint i);
/* (transfer full): "1013.9 g" for @over_g over the base. */
char *tg_pairing_layout_grams (const TgPairingPicture *picture, double over_g);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgPairingLayout, tg_pairing_layout_free)

G_END_DECLS
