/* test-scale-drawing.c: how the scale drifted over the days
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "fixture.h"
#include "picture.h"
#include "scale-drawing.h"
#include "scale-fixture.h"

static const TgRect sizes[] = {
  { 12, 12, 7, 5 },     { 12, 12, 60, 40 },   { 12, 12, 160, 70 },  { 12, 12, 300, 140 },
  { 12, 12, 350, 200 }, { 12, 12, 640, 300 }, { 12, 12, 900, 400 },
};

static const TgColor paper = { 0.2, 0.9, 0.7 };

/* The size that it is made for. */
static gboolean
is_full (TgRect area)
{
  return area.width >= 300 && area.height >= 140;
}

static Picture *
draw (const TgReview *review, TgRect area, const TgStyle *style, TgColor ground)
{
  Picture *picture = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                  ground);

  tg_scale_drawing_draw (picture->cr, area, review, style);
  g_assert_cmpint (cairo_status (picture->cr), ==, CAIRO_STATUS_SUCCESS);
  return picture;
}

static TgPlot *
plot_of (const TgReview *review, TgRect area, const TgStyle *style)
{
  Picture *picture = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                  style->ground);
  TgPlot *plot = tg_scale_drawing_plot (picture->cr, area, review, style);

  picture_free (picture);
  return plot;
}

static guint
count_texts (const TgPlot *plot, const char *text)
{
  guint n = 0;

  for (guint i = 0; i < plot->texts->len; i++)
    n += strcmp (g_array_index (plot->texts, TgPlotText, i).text, text) == 0;
  return n;
}

static void
check_ink (const TgReview *review, const TgStyle *style)
{
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      TgRect area = sizes[i];
      Picture *picture = draw (review, area, style, paper);

      g_assert_true (picture_unchanged_outside (picture, area, paper));
      if (is_full (area))
        {
          g_assert_true (picture_unchanged_outside (
              picture, (TgRect){ area.x + 1, area.y + 1, area.width - 2, area.height - 2 }, paper));
          g_assert_false (picture_unchanged_outside (picture, (TgRect){ 0, 0, 0, 0 }, paper));
        }
      picture_free (picture);
    }
}

/* Ink stays inside at every size, none is cut off at the edge, and there is some. */
static void
test_ink (void)
{
  const TgStyle styles[] = { tg_style_light (), tg_style_dark (), tg_style_print (),
                             tg_style_high_contrast (tg_style_dark ()) };

  for (guint c = 0; c < N_SCALES; c++)
    {
      TgJob *job;
      TgReview *review = scale_review ((ScaleCase) c, &job);

      for (guint s = 0; s < G_N_ELEMENTS (styles); s++)
        check_ink (review, &styles[s]);
      fixture_review_free (review);
      tg_job_free (job);
    }
}

static void
test_texts (void)
{
  const TgStyle style = tg_style_light ();
  const guint zeros[N_SCALES] = { 0, 1, 1, 0, 1, 1 };
  const guint weights[N_SCALES] = { 0, 0, 1, 0, 1, 1 };

  for (guint c = 0; c < N_SCALES; c++)
    for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
      {
        TgJob *job;
        TgReview *review = scale_review ((ScaleCase) c, &job);
        g_autoptr (TgPlot) plot = plot_of (review, sizes[i], &style);

        picture_check_apart (plot);
        if (is_full (sizes[i]))
          {
            g_assert_cmpuint (count_texts (plot, "zero in g"), ==, zeros[c]);
            g_assert_cmpuint (count_texts (plot, "check weight 500 g"), ==, weights[c]);
            g_assert_cmpuint (count_texts (plot, "check weights"), ==, c == SCALE_WEIGHTS);
            g_assert_cmpuint (count_texts (plot, "The scale was not checked yet."), ==,
                              c == SCALE_UNCHECKED);
            g_assert_cmpuint (count_texts (plot, "off") + count_texts (plot, "off beyond ± 0.3 g") +
                                  count_texts (plot, "off beyond ± 0.6 g"),
                              ==, c == SCALE_WEIGHTS ? 1 : zeros[c] + weights[c]);
          }
        fixture_review_free (review);
        tg_job_free (job);
      }
}

static void
test_large_type (void)
{
  TgStyle style = tg_style_light ();
  TgJob *job;
  TgReview *review = scale_review (SCALE_EVENINGS, &job);

  style.text_size *= 2;
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (TgPlot) plot = plot_of (review, sizes[i], &style);

      picture_check_apart (plot);
    }
  fixture_review_free (review);
  tg_job_free (job);
}

static void
test_words (void)
{
  TgStyle style = tg_style_light ();
  TgJob *job;
  TgReview *review = scale_review (SCALE_EVENINGS, &job);
  g_autoptr (TgPlot) plot = plot_of (review, (TgRect){ 0, 0, 560, 260 }, &style);
  g_autoptr (TgPlot) other = NULL;

  g_assert_cmpuint (count_texts (plot, "doubtful beyond ± 0.2 g"), ==, 2);
  g_assert_cmpuint (count_texts (plot, "set to zero"), ==, 1);
  fixture_review_free (review);
  tg_job_free (job);

  /* which weight it was, once for each change */
  review = scale_review (SCALE_WEIGHTS, &job);
  other = plot_of (review, (TgRect){ 0, 0, 560, 260 }, &style);
  g_assert_cmpuint (count_texts (other, "200 g"), ==, 1);
  g_assert_cmpuint (count_texts (other, "1000 g"), ==, 1);
  fixture_review_free (review);
  tg_job_free (job);
}

/* On paper, without colour: each verdict, and a zero that was set back, look different. */
static void
test_verdicts_differ (void)
{
  TgStyle style = tg_style_print ();
  TgRect area = { 0, 0, 300, 140 };
  TgJob *job;
  TgReview *review = scale_review (SCALE_ONE, &job);
  TgScaleCheck *check = &g_array_index (review->scale.checks, TgScaleCheck, 0);
  Picture *pictures[4];

  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    {
      check->verdict = (TgCheckWeightVerdict) (i % 3);
      check->set_back = i == 3;
      pictures[i] = draw (review, area, &style, style.ground);
    }
  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    for (guint j = 0; j < i; j++)
      g_assert_cmpuint (picture_differing (pictures[i], pictures[j], 60), >, 3);
  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    picture_free (pictures[i]);
  fixture_review_free (review);
  tg_job_free (job);
}

/* Limits that are the same step of the scale are one line, and the key names it alone. */
static void
test_one_limit (void)
{
  TgStyle style = tg_style_light ();
  TgRect area = { 0, 0, 560, 260 };
  TgJob *job;
  TgReview *review = scale_review (SCALE_ONE, &job);
  TgScaleCheck *check = &g_array_index (review->scale.checks, TgScaleCheck, 0);
  g_autoptr (TgPlot) plot = NULL;

  check->doubtful_g = check->off_g;
  plot = plot_of (review, area, &style);
  g_assert_cmpuint (count_texts (plot, "off beyond ± 0.3 g"), ==, 1);
  g_assert_cmpuint (count_texts (plot, "doubtful beyond ± 0.3 g"), ==, 0);
  fixture_review_free (review);
  tg_job_free (job);
}

static double
middle_of (Picture *picture, TgColor color)
{
  double sum = 0, n = 0;

  for (int y = 24; y < picture->height - 24; y++)
    for (int x = 50; x < picture->width; x++)
      {
        TgColor c = picture_pixel (picture, x, y);

        if (fabs (c.r - color.r) + fabs (c.g - color.g) + fabs (c.b - color.b) < 0.06)
          {
            sum += y;
            n += 1;
          }
      }
  g_assert_cmpfloat (n, >, 3);
  return sum / n;
}

/* A check lies where its error is between the limits, which are alike above and below zero. */
static void
test_where (void)
{
  TgStyle style = tg_style_light ();
  TgRect area = { 0, 0, 400, 300 };
  const double errors[] = { -0.3, 0, 0.15, 0.3 };
  double at[G_N_ELEMENTS (errors)], limits[G_N_ELEMENTS (errors)];
  TgJob *job;
  TgReview *review = scale_review (SCALE_ONE, &job);
  TgScaleCheck *check = &g_array_index (review->scale.checks, TgScaleCheck, 0);

  style.line = 2.5;
  for (guint i = 0; i < G_N_ELEMENTS (errors); i++)
    {
      Picture *picture;

      check->error_g = errors[i];
      picture = draw (review, area, &style, style.ground);
      at[i] = middle_of (picture, style.accent);
      limits[i] = middle_of (picture, style.alert);
      picture_free (picture);
    }
  for (guint i = 0; i < G_N_ELEMENTS (errors); i++)
    g_assert_cmpfloat_with_epsilon (limits[i], at[1], 2);
  g_assert_cmpfloat (at[0] - at[1], >, 60);
  g_assert_cmpfloat_with_epsilon (at[0] - at[1], at[1] - at[3], 2);
  g_assert_cmpfloat_with_epsilon (at[1] - at[2], (at[1] - at[3]) / 2, 2);
  fixture_review_free (review);
  tg_job_free (job);
}

static const struct
{
  const char *name;
  ScaleCase which;
  int width, height;
  enum
  {
    LIGHT,
    DARK,
    PRINT,
    CONTRAST
  } look;
} references[] = {
  { "scale-evenings", SCALE_EVENINGS, 560, 260, LIGHT },
  { "scale-evenings-dark", SCALE_EVENINGS, 350, 200, DARK },
  { "scale-weights-print", SCALE_WEIGHTS, 350, 200, PRINT },
  { "scale-days-contrast", SCALE_DAYS, 350, 200, CONTRAST },
  { "scale-sixty", SCALE_SIXTY, 350, 200, LIGHT },
};

static void
test_reference (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  const TgStyle styles[] = { tg_style_light (), tg_style_dark (), tg_style_print (),
                             tg_style_high_contrast (tg_style_light ()) };
  const TgStyle *style = &styles[references[i].look];
  TgRect area = { 0, 0, references[i].width, references[i].height };
  TgJob *job;
  TgReview *review = scale_review (references[i].which, &job);
  Picture *picture = draw (review, area, style, style->ground);

  picture_compare (picture, references[i].name);
  picture_free (picture);
  fixture_review_free (review);
  tg_job_free (job);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scale-drawing/ink", test_ink);
  g_test_add_func ("/scale-drawing/texts", test_texts);
  g_test_add_func ("/scale-drawing/large-type", test_large_type);
  g_test_add_func ("/scale-drawing/words", test_words);
  g_test_add_func ("/scale-drawing/verdicts-differ", test_verdicts_differ);
  g_test_add_func ("/scale-drawing/one-limit", test_one_limit);
  g_test_add_func ("/scale-drawing/where", test_where);
  for (guint i = 0; i < G_N_ELEMENTS (references); i++)
    {
      g_autofree char *path = g_strconcat ("/scale-drawing/reference/", references[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_reference);
    }
  return g_test_run ();
}
