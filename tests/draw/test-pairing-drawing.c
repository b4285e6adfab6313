/* test-pairing-drawing.c: which part goes with which
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>

#include "pairing-drawing.h"
#include "pairing-fixture.h"
#include "picture.h"

/* A height of 0 is the one that the drawing asks for. */
static const TgRect sizes[] = {
  { 12, 12, 7, 5 },   { 12, 12, 60, 40 },   { 12, 12, 160, 300 },
  { 12, 12, 328, 0 }, { 12, 12, 328, 200 }, { 12, 12, 328, 400 },
  { 12, 12, 500, 0 }, { 12, 12, 800, 0 },   { 12, 12, 800, 2000 },
};

static const TgColor paper = { 0.2, 0.9, 0.7 };

static Picture *
draw (const TgPairingPicture *picture, TgRect area, const TgStyle *style, TgColor ground)
{
  Picture *drawn = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                ground);

  tg_pairing_drawing_draw (drawn->cr, area, picture, style);
  g_assert_cmpint (cairo_status (drawn->cr), ==, CAIRO_STATUS_SUCCESS);
  return drawn;
}

/* Ink stays inside at every size; with room for everything none is cut off at the edge, and there is
 * some. */
static void
test_ink (void)
{
  for (guint c = 0; c < N_PAIRINGS; c++)
    for (guint look = 0; look < N_PAIRING_LOOKS; look++)
      for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
        {
          g_autofree PairingFixture *fixture = pairing_fixture_new ((PairingCase) c);
          TgStyle style = pairing_style ((PairingLook) look);
          TgRect area = pairing_sized (sizes[i], &fixture->picture, &style);
          Picture *drawn = draw (&fixture->picture, area, &style, paper);

          g_assert_true (picture_unchanged_outside (drawn, area, paper));
          if (area.width >= 328 &&
              area.height >= tg_pairing_drawing_height (area.width, &fixture->picture, &style))
            {
              g_assert_true (picture_unchanged_outside (
                  drawn, (TgRect){ area.x + 1, area.y + 1, area.width - 2, area.height - 2 },
                  paper));
              g_assert_false (picture_unchanged_outside (drawn, (TgRect){ 0, 0, 0, 0 }, paper));
            }
          picture_free (drawn);
        }
}

/* At any size and with type twice as large. */
static void
test_apart (void)
{
  for (guint c = 0; c < N_PAIRINGS; c++)
    for (guint look = PAIRING_PRINT; look <= PAIRING_CONTRAST; look++)
      for (guint i = 0; i < 2 * G_N_ELEMENTS (sizes); i++)
        {
          g_autofree PairingFixture *fixture = pairing_fixture_new ((PairingCase) c);
          TgStyle style = pairing_style ((PairingLook) look);
          g_autoptr (TgPlot) plot = NULL;

          style.text_size *= 1 + i % 2;
          plot = pairing_plot (&fixture->picture,
                               pairing_sized (sizes[i / 2], &fixture->picture, &style), &style);
          picture_check_apart (plot);
        }
}

static double
x_of (const TgPlot *plot, const char *text)
{
  for (guint i = 0; i < plot->texts->len; i++)
    {
      const TgPlotText *written = &g_array_index (plot->texts, TgPlotText, i);

      if (strcmp (written->text, text) == 0)
        return written->rect.x + written->rect.width / 2;
    }
  g_assert_not_reached ();
}

/* The middle of the bar in @row, which is that of the bore's label. */
static int
y_of (const TgPlot *plot, TgRect row)
{
  for (guint i = 0; i < plot->texts->len; i++)
    {
      TgRect rect = g_array_index (plot->texts, TgPlotText, i).rect;

      if (rect.x < row.x + 10 && rect.y > row.y && rect.y + rect.height < row.y + row.height)
        return (int) (rect.y + rect.height / 2);
    }
  g_assert_not_reached ();
}

/* The end of the bar at @y: the last column up to @last that is not as the one at @above. */
static int
end_of (Picture *drawn, int y, int above, int last)
{
  for (int x = last; x > 0; x--)
    {
      TgColor a = picture_pixel (drawn, x, y), b = picture_pixel (drawn, x, above);

      if (fabs (a.r - b.r) + fabs (a.g - b.g) + fabs (a.b - b.b) > 0.3)
        return x;
    }
  return 0;
}

/* Bars end where the scale says so: the distance of two ticks is the grams between them. */
static void
test_scale (void)
{
  g_autofree PairingFixture *fixture = pairing_fixture_new (PAIRING_FOUR);
  TgPairingPicture *picture = &fixture->picture;
  const double over[] = { 2, 4, 6, 7.5 };
  TgStyle style = pairing_style (PAIRING_PRINT);
  TgRect area = { 0, 0, 700, 0 };
  g_autoptr (TgPlot) plot = NULL;
  Picture *drawn;
  double gram, zero;

  picture->n_families = 1;
  picture->base_g = 1000;
  picture->band_lower_g = 7;
  picture->band_upper_g = 8;
  for (guint i = 0; i < 4; i++)
    {
      fixture->bars[i].after_g = fixture->bars[i].parts[0].over_g = over[i];
      fixture->bars[i].touched = FALSE;
    }
  area = pairing_sized (area, picture, &style);
  plot = pairing_plot (picture, area, &style);
  drawn = draw (picture, area, &style, style.ground);
  gram = (x_of (plot, "1006") - x_of (plot, "1002")) / 4;
  zero = x_of (plot, "1002") - 2 * gram;
  g_assert_cmpfloat (gram, >, 50);
  for (guint i = 0; i < 4; i++)
    {
      TgRect row = tg_pairing_drawing_row (area, picture, &style, i);
      int end = end_of (drawn, y_of (plot, row), (int) row.y + 2, (int) (zero + 7.9 * gram));

      g_assert_cmpfloat (fabs (end - (zero + over[i] * gram)), <, 2);
    }
  picture_free (drawn);
}

/* Pieces of the bar stand in the families' order, each as long as it weighs. */
static void
test_pieces (void)
{
  g_autofree PairingFixture *fixture = pairing_fixture_new (PAIRING_FOUR);
  TgPairingPicture *picture = &fixture->picture;
  TgStyle style = pairing_style (PAIRING_PRINT);
  TgRect area = { 0, 0, 700, 0 }, row;
  g_autoptr (TgPlot) plot = NULL;
  const double grams[] = { 3, 1, 2 };
  Picture *drawn;
  double luminance = 0, over = 0;

  picture->base_g = 1000;
  picture->band_lower_g = 6;
  picture->band_upper_g = 8;
  for (guint f = 0; f < 3; f++)
    fixture->bars[0].parts[f].over_g = grams[f];
  fixture->bars[0].after_g = 6;
  fixture->bars[0].touched = FALSE;
  area = pairing_sized (area, picture, &style);
  plot = pairing_plot (picture, area, &style);
  drawn = draw (picture, area, &style, style.ground);
  row = tg_pairing_drawing_row (area, picture, &style, 0);
  for (guint f = 0; f < 3; f++)
    {
      double gram = (x_of (plot, "1006") - x_of (plot, "1002")) / 4;
      double from = x_of (plot, "1002") + (over - 2) * gram;
      int y = y_of (plot, row);
      /* at its ends, clear of its number */
      double first = tg_color_luminance (picture_pixel (drawn, (int) (from + 0.1 * gram), y));
      double last = tg_color_luminance (
          picture_pixel (drawn, (int) (from + (grams[f] - 0.1) * gram), y));

      g_assert_cmpfloat (fabs (first - last), <, 0.01);
      g_assert_cmpfloat (first, >, luminance + 0.02);
      luminance = first;
      over += grams[f];
    }
  picture_free (drawn);
}

/* FALSE if a pixel that is not in @row differs. */
static gboolean
differ_only_in (Picture *a, Picture *b, TgRect row)
{
  for (int y = 0; y < a->height; y++)
    for (int x = 0; x < a->width; x++)
      {
        TgColor p = picture_pixel (a, x, y), q = picture_pixel (b, x, y);

        if (fabs (p.g - q.g) > 0.02 && (y + 1 < row.y || y > row.y + row.height))
          return FALSE;
      }
  return TRUE;
}

/* On paper, without colour: each sign changes the picture in its row, and only there. */
static void
test_signs (void)
{
  TgStyle style = pairing_style (PAIRING_PRINT);

  for (guint sign = 0; sign < 5; sign++)
    {
      g_autofree PairingFixture *fixture = pairing_fixture_new (PAIRING_EIGHT);
      TgPairingPicture *picture = &fixture->picture;
      TgPairingBar *bar = &fixture->bars[7];
      TgRect area = { 0, 0, 500, 0 };
      Picture *without, *with;

      bar->parts[3].over_g = picture->band_upper_g + 1 - bar->after_g;
      bar->after_g += bar->parts[3].over_g;
      area = pairing_sized (area, picture, &style);
      without = draw (picture, area, &style, style.ground);
      switch (sign)
        {
        case 0:
          bar->parts[0].moved = TRUE;
          break;
        case 1:
          bar->parts[0].locked = TRUE;
          break;
        case 2:
          bar->selected = TRUE;
          break;
        case 3:
          bar->touched = TRUE;
          break;
        default:
          for (guint f = 0; f < picture->n_families; f++)
            bar->parts[f].locked = TRUE;
          break;
        }
      with = draw (picture, area, &style, style.ground);
      g_assert_cmpuint (picture_differing (without, with, 100), >, sign == 3 ? 80 : 8);
      g_assert_true (
          differ_only_in (without, with, tg_pairing_drawing_row (area, picture, &style, 7)));
      picture_free (without);
      picture_free (with);
    }
}

/* Rows lie under each other without a gap, a finger high, and each is found again. */
static void
test_rows (void)
{
  for (guint c = 0; c < N_PAIRINGS; c++)
    for (guint w = 328; w <= 800; w += 59)
      {
        g_autofree PairingFixture *fixture = pairing_fixture_new ((PairingCase) c);
        const TgPairingPicture *picture = &fixture->picture;
        TgStyle style = pairing_style (w % 2 ? PAIRING_LIGHT : PAIRING_DARK);
        TgRect area = pairing_sized ((TgRect){ 5, 7, w, 0 }, picture, &style), row = { 0 };

        for (guint i = 0; i < picture->n_bars; i++)
          {
            double above = row.y + row.height;

            row = tg_pairing_drawing_row (area, picture, &style, i);
            g_assert_cmpfloat (row.height, >=, 44);
            g_assert_cmpfloat (row.x, >=, area.x);
            g_assert_cmpfloat (row.x + row.width, <=, area.x + area.width);
            if (i > 0)
              g_assert_cmpfloat_with_epsilon (row.y, above, 1e-6);
            for (guint step = 0; step < 4; step++)
              g_assert_cmpint (tg_pairing_drawing_row_at (area, picture, &style,
                                                          row.y + (0.1 + 0.25 * step) * row.height),
                               ==, (int) i);
          }
        g_assert_cmpfloat (row.y + row.height, <=, area.y + area.height);
        g_assert_cmpint (tg_pairing_drawing_row_at (area, picture, &style, area.y + 1), ==, -1);
        g_assert_cmpint (
            tg_pairing_drawing_row_at (area, picture, &style, row.y + row.height + 0.5), ==, -1);
      }
}

/* Where there is no room for rows there are none. */
static void
test_no_room (void)
{
  g_autofree PairingFixture *fixture = pairing_fixture_new (PAIRING_FULL);
  TgStyle style = pairing_style (PAIRING_LIGHT);
  TgRect area = { 0, 0, 328, 60 };
  g_autoptr (TgPlot) plot = pairing_plot (&fixture->picture, area, &style);

  g_assert_cmpuint (plot->texts->len, ==, 0);
  g_assert_cmpint (tg_pairing_drawing_row_at (area, &fixture->picture, &style, 30), ==, -1);
  g_assert_cmpfloat (tg_pairing_drawing_row (area, &fixture->picture, &style, 0).height, ==, 0);
}

static const struct
{
  const char *name;
  PairingCase which;
  int width, height;
  PairingLook look;
} references[] = {
  { "pairing-four", PAIRING_FOUR, 328, 0, PAIRING_LIGHT },
  { "pairing-eight", PAIRING_EIGHT, 328, 0, PAIRING_LIGHT },
  { "pairing-eight-dark", PAIRING_EIGHT, 800, 0, PAIRING_DARK },
  { "pairing-eight-print", PAIRING_EIGHT, 480, 0, PAIRING_PRINT },
  { "pairing-sixteen", PAIRING_SIXTEEN, 800, 0, PAIRING_LIGHT },
  { "pairing-full-contrast", PAIRING_FULL, 328, 0, PAIRING_CONTRAST },
  { "pairing-long", PAIRING_LONG, 328, 0, PAIRING_LIGHT },
  { "pairing-equal-contrast-dark", PAIRING_EQUAL, 328, 0, PAIRING_CONTRAST_DARK },
  { "pairing-low", PAIRING_SIXTEEN, 328, 400, PAIRING_LIGHT },
};

static void
test_reference (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autofree PairingFixture *fixture = pairing_fixture_new (references[i].which);
  TgStyle style = pairing_style (references[i].look);
  TgRect area = { 0, 0, references[i].width, references[i].height };
  Picture *drawn = draw (&fixture->picture, pairing_sized (area, &fixture->picture, &style), &style,
                         style.ground);

  picture_compare (drawn, references[i].name);
  picture_free (drawn);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pairing-drawing/ink", test_ink);
  g_test_add_func ("/pairing-drawing/apart", test_apart);
  g_test_add_func ("/pairing-drawing/scale", test_scale);
  g_test_add_func ("/pairing-drawing/pieces", test_pieces);
  g_test_add_func ("/pairing-drawing/signs", test_signs);
  g_test_add_func ("/pairing-drawing/rows", test_rows);
  g_test_add_func ("/pairing-drawing/no-room", test_no_room);
  for (guint i = 0; i < G_N_ELEMENTS (references); i++)
    {
      g_autofree char *path = g_strconcat ("/pairing-drawing/reference/", references[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_reference);
    }
  return g_test_run ();
}
