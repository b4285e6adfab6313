/* pairing-fixture.c: invented pairings, see pairing-fixture.h
 *
 * Parts get weights from a fixed sequence.  Today part i is at bore i; afterwards each family in
 * turn is laid against what is there already, the heaviest part on the lightest sum.  All figures
 * are invented; the drawing must show whatever it is given.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "pairing-fixture.h"

#include <string.h>

#include "picture.h"

static const char *const families[] = { "piston", "rod", "pin", "rings", "clips", "bearings" };
/* As far as this family the parts are laid against each other; later ones stay where they are. */
static const guint laid[N_PAIRINGS] = { 2, 3, 4, 6, 3, 3 };
/* In steps of the scale. */
static const guint spreads[] = { 34, 41, 12, 7, 2, 5 };

typedef struct
{
  guint n, k, laid;
  guint weight[TG_PAIRING_DRAWING_MAX_FAMILIES][PAIRING_MAX_BARS];
  guint at[TG_PAIRING_DRAWING_MAX_FAMILIES][PAIRING_MAX_BARS];
} Set;

static guint
next_random (guint32 *state)
{
  *state = *state * 1664525u + 1013904223u;
  return *state >> 16;
}

/* Bores by @sum, the lightest first; equal ones stay in order. */
static void
sort_by (const guint *sum, guint n, guint *order)
{
  for (guint i = 0; i < n; i++)
    {
      guint j = i;

      for (; j > 0 && sum[order[j - 1]] > sum[i]; j--)
        order[j] = order[j - 1];
      order[j] = i;
    }
}

static void
pair (Set *set)
{
  guint sum[PAIRING_MAX_BARS] = { 0 };

  for (guint f = 0; f < set->k; f++)
    {
      guint bores[PAIRING_MAX_BARS], parts[PAIRING_MAX_BARS];

      sort_by (sum, set->n, bores);
      sort_by (set->weight[f], set->n, parts);
      for (guint i = 0; i < set->n; i++)
        {
          gboolean stays = f == 0 || f >= set->laid;
          guint bore = stays ? i : bores[i], part = stays ? i : parts[set->n - 1 - i];

          set->at[f][bore] = part;
          sum[bore] += set->weight[f][part];
        }
    }
}

static void
fill_set (Set *set, gboolean equal)
{
  guint32 state = 20260303 + set->n;

  for (guint f = 0; f < set->k; f++)
    {
      guint least = G_MAXUINT;

      for (guint i = 0; i < set->n; i++)
        {
          set->weight[f][i] = equal ? 0 : next_random (&state) % (spreads[f] + 1);
          least = MIN (least, set->weight[f][i]);
        }
      for (guint i = 0; i < set->n; i++)
        set->weight[f][i] -= least;
    }
  pair (set);
}

static void
fill_bars (PairingFixture *fixture, const Set *set, double step_g)
{
  guint n = set->n, sum[PAIRING_MAX_BARS] = { 0 }, today[PAIRING_MAX_BARS] = { 0 };
  guint least = G_MAXUINT, least_today = G_MAXUINT, tolerance = 2;
  TgPairingPicture *picture = &fixture->picture;

  for (guint i = 0; i < n; i++)
    {
      for (guint f = 0; f < set->k; f++)
        {
          guint part = set->at[f][i];

          fixture->bars[i].parts[f] = (TgPairingSegment){ .number = fixture->numbers[part],
                                                          .over_g = step_g * set->weight[f][part],
                                                          .moved = part != i };
          sum[i] += set->weight[f][part];
          today[i] += set->weight[f][i];
        }
      least = MIN (least, sum[i]);
      least_today = MIN (least_today, today[i]);
    }
  for (guint i = 0; i < n; i++)
    {
      TgPairingBar *bar = &fixture->bars[i];

      bar->label = fixture->numbers[i];
      bar->after_g = step_g * sum[i];
      bar->before_g = step_g * today[i];
      bar->removal_g = step_g * (sum[i] - MIN (sum[i], least + tolerance));
      bar->before_removal_g = step_g * (today[i] - MIN (today[i], least_today + tolerance));
      bar->touched = sum[i] > least + tolerance;
    }
  picture->band_lower_g = step_g * least;
  picture->band_upper_g = step_g * (least + tolerance);
}

static void
lock_some (PairingFixture *fixture)
{
  for (guint f = 0; f < fixture->picture.n_families; f++)
    fixture->bars[2].parts[f].locked = TRUE;
  fixture->bars[0].parts[1].locked = TRUE;
  fixture->bars[5].parts[0].locked = TRUE;
  fixture->bars[5].parts[3].locked = TRUE;
  fixture->bars[4].selected = TRUE;
}

static void
make_long (PairingFixture *fixture)
{
  TgPairingBar *bars = fixture->bars;

  fixture->picture.family_label[0] = "piston with its oversize rings";
  fixture->picture.family_label[1] = "rod with cap, bolts and shells";
  bars[0].label = "front of the left bank, the one by the stairs";
  bars[1].label = "second on the right";
  bars[1].after_g -= bars[1].parts[2].over_g;
  bars[1].parts[2].number = NULL;
  bars[3].touched = FALSE;
  bars[3].after_g = bars[3].parts[0].over_g = fixture->picture.band_lower_g / 2;
  bars[3].parts[1].over_g = bars[3].parts[2].over_g = 0;
}

PairingFixture *
pairing_fixture_new (PairingCase which)
{
  static const guint n[] = { 4, 8, 16, 24, 6, 4 }, k[] = { 3, 5, 4, 6, 3, 3 };
  PairingFixture *fixture = g_new0 (PairingFixture, 1);
  Set set = { .n = n[which], .k = k[which], .laid = laid[which] };
  gboolean fine = which == PAIRING_FULL;

  fill_set (&set, which == PAIRING_EQUAL);
  for (guint i = 0; i < set.n; i++)
    g_snprintf (fixture->numbers[i], sizeof fixture->numbers[i], "%u", i + 1);
  fixture->picture = (TgPairingPicture){ .n_families = set.k,
                                         .n_bars = set.n,
                                         .bars = fixture->bars,
                                         .base_g = fine ? 1187.42 : 1008.4,
                                         .has_before = which != PAIRING_FOUR,
                                         .decimals = fine ? 2 : 1 };
  memcpy (fixture->picture.family_label, families, sizeof families);
  fill_bars (fixture, &set, fine ? 0.01 : 0.1);
  if (which == PAIRING_EIGHT)
    lock_some (fixture);
  if (which == PAIRING_EQUAL)
    fixture->picture.band_upper_g = fixture->picture.band_lower_g;
  if (which == PAIRING_LONG)
    make_long (fixture);
  return fixture;
}

TgStyle
pairing_style (PairingLook look)
{
  const TgStyle styles[] = { tg_style_light (), tg_style_dark (), tg_style_print (),
                             tg_style_high_contrast (tg_style_light ()),
                             tg_style_high_contrast (tg_style_dark ()) };

  return styles[look];
}

TgRect
pairing_sized (TgRect area, const TgPairingPicture *picture, const TgStyle *style)
{
  if (area.height <= 0)
    area.height = tg_pairing_drawing_height (area.width, picture, style);
  return area;
}

TgPlot *
pairing_plot (const TgPairingPicture *picture, TgRect area, const TgStyle *style)
{
  Picture *drawn = picture_new (1, 1, style->ground);
  TgPlot *plot = tg_pairing_drawing_plot (drawn->cr, area, picture, style);

  picture_free (drawn);
  return plot;
}

guint
pairing_count_texts (const TgPlot *plot, const char *text)
{
  guint n = 0;

  for (guint i = 0; i < plot->texts->len; i++)
    n += strcmp (g_array_index (plot->texts, TgPlotText, i).text, text) == 0;
  return n;
}
