/* picture.c: drawing to memory and looking at the result, see picture.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "picture.h"

#include <math.h>
#include <stdlib.h>

Picture *
picture_new (int width, int height, TgColor ground)
{
  Picture *picture = g_new0 (Picture, 1);

  picture->width = width;
  picture->height = height;
  picture->surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  picture->cr = cairo_create (picture->surface);
  cairo_set_source_rgb (picture->cr, ground.r, ground.g, ground.b);
  cairo_paint (picture->cr);
  return picture;
}

void
picture_free (Picture *picture)
{
  cairo_destroy (picture->cr);
  cairo_surface_destroy (picture->surface);
  g_free (picture);
}

static const guint32 *
row (Picture *picture, int y)
{
  cairo_surface_flush (picture->surface);
  return (const guint32 *) (const void *) (cairo_image_surface_get_data (picture->surface) +
                                           (gsize) y * (gsize) cairo_image_surface_get_stride (
                                                           picture->surface));
}

static int
channel (guint32 pixel, int shift)
{
  return (int) ((pixel >> shift) & 0xff);
}

TgColor
picture_pixel (Picture *picture, int x, int y)
{
  guint32 pixel = row (picture, y)[x];

  return (TgColor){ channel (pixel, 16) / 255.0, channel (pixel, 8) / 255.0,
                    channel (pixel, 0) / 255.0 };
}

gboolean
picture_unchanged_outside (Picture *picture, TgRect area, TgColor ground)
{
  Picture *plain = picture_new (1, 1, ground);
  guint32 want = row (plain, 0)[0] & 0xffffff;

  picture_free (plain);
  for (int y = 0; y < picture->height; y++)
    {
      const guint32 *pixels = row (picture, y);

      for (int x = 0; x < picture->width; x++)
        {
          gboolean inside = x >= area.x && y >= area.y && x + 1 <= area.x + area.width &&
                            y + 1 <= area.y + area.height;

          if (!inside && (pixels[x] & 0xffffff) != want)
            return FALSE;
        }
    }
  return TRUE;
}

guint
picture_differing (Picture *a, Picture *b, int tolerance)
{
  guint n = 0;

  for (int y = 0; y < MIN (a->height, b->height); y++)
    {
      const guint32 *p = row (a, y), *q = row (b, y);

      for (int x = 0; x < MIN (a->width, b->width); x++)
        {
          int most = 0;

          for (int shift = 0; shift <= 16; shift += 8)
            most = MAX (most, abs (channel (p[x], shift) - channel (q[x], shift)));
          n += most > tolerance;
        }
    }
  return n;
}

void
picture_compare (Picture *picture, const char *name)
{
  g_autofree char *file = g_strconcat (name, ".png", NULL);
  g_autofree char *reference = g_test_build_filename (G_TEST_DIST, "draw", "reference", file, NULL);
  g_autofree char *failed = g_strconcat (name, "-failed.png", NULL);
  g_autofree char *output = g_test_build_filename (G_TEST_BUILT, failed, NULL);
  Picture *want;
  guint differing;

  if (g_getenv ("UPDATE_REF"))
    {
      g_assert_cmpint (cairo_surface_write_to_png (picture->surface, reference), ==,
                       CAIRO_STATUS_SUCCESS);
      return;
    }
  want = g_new0 (Picture, 1);
  want->surface = cairo_image_surface_create_from_png (reference);
  g_assert_cmpint (cairo_surface_status (want->surface), ==, CAIRO_STATUS_SUCCESS);
  want->cr = cairo_create (want->surface);
  want->width = cairo_image_surface_get_width (want->surface);
  want->height = cairo_image_surface_get_height (want->surface);
  g_assert_cmpint (want->width, ==, picture->width);
  g_assert_cmpint (want->height, ==, picture->height);
  differing = picture_differing (picture, want, 8);
  if (differing * 1000 > (guint) (picture->width * picture->height))
    {
      cairo_surface_write_to_png (picture->surface, output);
      g_test_message ("%s: %u pixels differ, see %s", name, differing, output);
      g_test_fail ();
    }
  picture_free (want);
}

void
picture_check_apart (const TgPlot *plot)
{
  for (guint i = 0; i < plot->texts->len; i++)
    {
      TgRect a = g_array_index (plot->texts, TgPlotText, i).rect;

      g_assert_cmpfloat (a.x, >=, plot->area.x - 0.01);
      g_assert_cmpfloat (a.y, >=, plot->area.y - 0.01);
      g_assert_cmpfloat (a.x + a.width, <=, plot->area.x + plot->area.width + 0.01);
      g_assert_cmpfloat (a.y + a.height, <=, plot->area.y + plot->area.height + 0.01);
      for (guint j = 0; j < i; j++)
        {
          TgRect b = g_array_index (plot->texts, TgPlotText, j).rect;

          g_assert_true (a.x >= b.x + b.width || b.x >= a.x + a.width ||
                         a.y >= b.y + b.height - 0.01 || b.y >= a.y + a.height - 0.01);
        }
    }
}
