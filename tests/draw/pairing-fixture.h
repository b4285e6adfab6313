/* pairing-fixture.h: invented pairings, for the tests of their drawing
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "pairing-drawing.h"

G_BEGIN_DECLS

#define PAIRING_MAX_BARS 24

typedef enum
{
  PAIRING_FOUR,    /* three families, no pairing of today */
  PAIRING_EIGHT,   /* five families, some parts locked, one row locked whole, one row selected */
  PAIRING_SIXTEEN, /* four families */
  PAIRING_FULL,    /* 24 bores, six families, hundredths of a gram */
  PAIRING_EQUAL,   /* every part as light as the lightest, no tolerance */
  PAIRING_LONG,    /* long names, a bore without a pin, one that is too light */
  N_PAIRINGS
} PairingCase;

/* Lends its parts to @picture, so it must not be moved. */
typedef struct
{
  TgPairingBar bars[PAIRING_MAX_BARS];
  char numbers[PAIRING_MAX_BARS][4];
  TgPairingPicture picture;
} PairingFixture;

/* (transfer full): free with g_free() */
PairingFixture *pairing_fixture_new (PairingCase which);

typedef enum
{
  PAIRING_LIGHT,
  PAIRING_DARK,
  PAIRING_PRINT,
  PAIRING_CONTRAST,
  PAIRING_CONTRAST_DARK,
  N_PAIRING_LOOKS
} PairingLook;

TgStyle pairing_style (PairingLook look);

/* @area, with the height that the drawing asks for where it is 0. */
TgRect pairing_sized (TgRect area, const TgPairingPicture *picture, const TgStyle *style);

/* (transfer full): what was written where */
TgPlot *pairing_plot (const TgPairingPicture *picture, TgRect area, const TgStyle *style);
guint pairing_count_texts (const TgPlot *plot, const char *text);

G_END_DECLS
