/* test-history-drawing.c: the weights of a part over the days
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "fixture.h"
#include "history-drawing.h"
#include "history-fixture.h"
#include "picture.h"

static const TgRect sizes[] = {
  { 12, 12, 7, 5 },     { 12, 12, 60, 40 },   { 12, 12, 160, 70 },  { 12, 12, 300, 140 },
  { 12, 12, 328, 150 }, { 12, 12, 350, 200 }, { 12, 12, 640, 300 }, { 12, 12, 900, 400 },
};

static const guint parts[] = { HISTORY_ROD, HISTORY_PISTON };

static const TgColor paper = { 0.2, 0.9, 0.7 };

/* The size that it is made for. */
static gboolean
is_full (TgRect area)
{
  return area.width >= 300 && area.height >= 140;
}

static Picture *
draw (const TgReview *review, guint part, TgRect area, const TgStyle *style, TgColor ground)
{
  Picture *picture = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                  ground);

  tg_history_drawing_draw (picture->cr, area, review, part, style);
  g_assert_cmpint (cairo_status (picture->cr), ==, CAIRO_STATUS_SUCCESS);
  return picture;
}

static TgPlot *
plot_of (const TgReview *review, guint part, TgRect area, const TgStyle *style)
{
  Picture *picture = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                  style->ground);
  TgPlot *plot = tg_history_drawing_plot (picture->cr, area, review, part, style);

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

/* Ink stays inside at every size, none is cut off at the edge, and there is some. */
static void
check_ink (const TgReview *review, guint part, const TgStyle *style)
{
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      TgRect area = sizes[i];
      Picture *picture = draw (review, part, area, style, paper);

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

static void
test_ink (void)
{
  const TgStyle styles[] = { tg_style_light (), tg_style_dark (), tg_style_print (),
                             tg_style_high_contrast (tg_style_light ()) };

  for (guint c = 0; c < N_HISTORIES; c++)
    for (guint p = 0; p < G_N_ELEMENTS (parts); p++)
      {
        TgJob *job;
        TgReview *review = history_review ((HistoryCase) c, TRUE, &job);

        for (guint s = 0; s < G_N_ELEMENTS (styles); s++)
          check_ink (review, parts[p], &styles[s]);
        fixture_review_free (review);
        tg_job_free (job);
      }
}

/* Texts that are figures: digits with a point or without, no unit and no sign. */
static guint
count_figures (const TgPlot *plot)
{
  guint n = 0;

  for (guint i = 0; i < plot->texts->len; i++)
    {
      const char *text = g_array_index (plot->texts, TgPlotText, i).text;

      n += strspn (text, "0123456789.") == strlen (text);
    }
  return n;
}

/* Each size that it is made for says which weight it is, its target, the day and values. */
static void
check_words (const TgPlot *plot, gboolean rod)
{
  const char *const rods[] = { "small end in g", "big end in g", "target 171.3 to 171.5 g",
                               "target 412.1 to 412.3 g" };
  const char *const pistons[] = { "weight in g", "target 318.4 to 318.6 g" };
  const char *const *words = rod ? rods : pistons;
  guint n = rod ? G_N_ELEMENTS (rods) : G_N_ELEMENTS (pistons);
  gboolean day = FALSE;

  for (guint i = 0; i < n; i++)
    g_assert_cmpuint (count_texts (plot, words[i]), ==, 1);
  for (guint i = 0; i < plot->texts->len; i++)
    day = day || g_str_has_suffix (g_array_index (plot->texts, TgPlotText, i).text, "3 Mar");
  g_assert_true (day);
  g_assert_cmpuint (count_figures (plot), >=, 2);
}

static void
test_texts (void)
{
  const TgStyle styles[] = { tg_style_light (), tg_style_high_contrast (tg_style_dark ()) };

  for (guint c = 0; c < N_HISTORIES; c++)
    for (guint i = 0; i < G_N_ELEMENTS (sizes) * G_N_ELEMENTS (styles); i++)
      for (guint p = 0; p < G_N_ELEMENTS (parts); p++)
        {
          TgRect area = sizes[i / G_N_ELEMENTS (styles)];
          TgJob *job;
          TgReview *review = history_review ((HistoryCase) c, TRUE, &job);
          g_autoptr (TgPlot)
              plot = plot_of (review, parts[p], area, &styles[i % G_N_ELEMENTS (styles)]);

          picture_check_apart (plot);
          if (is_full (area) && c == HISTORY_EMPTY)
            g_assert_cmpuint (count_texts (plot, "Nothing weighed yet."), ==, 1);
          else if (is_full (area))
            check_words (plot, parts[p] == HISTORY_ROD);
          fixture_review_free (review);
          tg_job_free (job);
        }
}

/* Type twice as large: what is left is not cut off. */
static void
test_large_type (void)
{
  TgStyle style = tg_style_light ();
  TgJob *job;
  TgReview *review = history_review (HISTORY_EVENINGS, FALSE, &job);

  style.text_size *= 2;
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autoptr (TgPlot) plot = plot_of (review, HISTORY_ROD, sizes[i], &style);

      picture_check_apart (plot);
    }
  fixture_review_free (review);
  tg_job_free (job);
}

static void
test_passes (void)
{
  TgStyle style = tg_style_light ();
  TgJob *job;
  TgReview *review = history_review (HISTORY_EVENINGS, FALSE, &job);
  g_autoptr (TgPlot) plot = plot_of (review, HISTORY_ROD, (TgRect){ 0, 0, 640, 300 }, &style);

  g_assert_cmpuint (count_texts (plot, "−0.6"), ==, 1);
  g_assert_cmpuint (count_texts (plot, "−0.3"), ==, 2);
  g_assert_cmpuint (count_texts (plot, "−0.5"), ==, 1);
  /* on the small end; the one on the big end was not weighed yet */
  g_assert_cmpuint (count_texts (plot, "−0.2"), ==, 1);
  /* once for each day */
  g_assert_cmpuint (count_texts (plot, "small-end pad"), ==, 2);
  g_assert_cmpuint (count_texts (plot, "cap pad"), ==, 2);
  fixture_review_free (review);
  tg_job_free (job);
}

/* A part that rose says so. */
static void
test_rose (void)
{
  TgStyle style = tg_style_light ();
  TgJob *job;
  TgReview *review = history_review (HISTORY_EVENINGS, FALSE, &job);
  GArray *passes = tg_review_part (review, HISTORY_ROD)->pass_history;
  g_autoptr (TgPlot) plot = NULL;

  g_array_index (passes, TgHistoryPass, 0).taken_g = -0.7;
  plot = plot_of (review, HISTORY_ROD, (TgRect){ 0, 0, 640, 300 }, &style);
  g_assert_cmpuint (count_texts (plot, "+0.7"), ==, 1);
  fixture_review_free (review);
  tg_job_free (job);
}

/* On paper, without colour: a pass that was weighed and one that was not. */
static void
test_hollow (void)
{
  TgStyle style = tg_style_print ();
  TgRect area = { 0, 0, 300, 140 };
  TgJob *job;
  TgReview *review = history_review (HISTORY_EVENINGS, FALSE, &job);
  GArray *passes = tg_review_part (review, HISTORY_ROD)->pass_history;
  Picture *hollow = draw (review, HISTORY_ROD, area, &style, style.ground);
  Picture *full;

  g_array_index (passes, TgHistoryPass, passes->len - 1).shown = TRUE;
  full = draw (review, HISTORY_ROD, area, &style, style.ground);
  g_assert_cmpuint (picture_differing (hollow, full, 100), >, 5);
  picture_free (hollow);
  picture_free (full);
  fixture_review_free (review);
  tg_job_free (job);
}

static void
test_new_piece (void)
{
  TgStyle style = tg_style_print ();

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      TgJob *job;
      TgReview *review = history_review (HISTORY_REPLACED, FALSE, &job);
      GArray *points = tg_review_part (review, HISTORY_PISTON)->history;
      Picture *two = draw (review, HISTORY_PISTON, sizes[i], &style, style.ground), *one;
      g_autoptr (TgPlot) plot = plot_of (review, HISTORY_PISTON, sizes[i], &style);

      if (is_full (sizes[i]))
        {
          g_assert_cmpuint (count_texts (plot, "new piece"), ==, 1);
          for (guint p = 0; p < points->len; p++)
            g_array_index (points, TgHistoryPoint, p).piece = 0;
          one = draw (review, HISTORY_PISTON, sizes[i], &style, style.ground);
          g_assert_cmpuint (picture_differing (one, two, 100), >, 20);
          picture_free (one);
        }
      picture_free (two);
      fixture_review_free (review);
      tg_job_free (job);
    }
}

static gboolean
is_near (TgColor a, TgColor b)
{
  return fabs (a.r - b.r) + fabs (a.g - b.g) + fabs (a.b - b.b) < 0.06;
}

/* First and last row with that colour, left of the middle below the head line. */
static void
rows_of (Picture *picture, TgColor color, int *first, int *last)
{
  *first = *last = -1;
  for (int y = 24; y < picture->height - 24; y++)
    for (int x = 50; x < picture->width; x++)
      if (is_near (picture_pixel (picture, x, y), color))
        {
          *first = *first < 0 ? y : *first;
          *last = y;
        }
}

/* One piston in the middle of its band, its error bar as long as the band is high. */
static void
test_where (void)
{
  TgStyle style = tg_style_light ();
  TgRect area = { 0, 0, 400, 300 };
  TgJob *job;
  TgReview *review = history_review (HISTORY_ONE, FALSE, &job);
  GArray *points = tg_review_part (review, HISTORY_PISTON)->history;
  TgHistoryPoint *point = &g_array_index (points, TgHistoryPoint, 0);
  const TgBandReview *band = &review->bands[TG_BAND_PISTON];
  Picture *picture;
  int top, bottom, high, low;

  point->mean_g = band->target_g + band->tolerance_g / 2;
  point->expanded_g = band->tolerance_g / 2;
  style.line = 2.5;
  picture = draw (review, HISTORY_PISTON, area, &style, style.ground);
  rows_of (picture, style.accent, &top, &bottom);
  rows_of (picture, style.good, &high, &low);
  g_assert_cmpint (bottom - top, >, 60);
  g_assert_cmpint (ABS (top - high), <=, 2);
  g_assert_cmpint (ABS (bottom - low), <=, 2);
  picture_free (picture);

  /* half as long */
  point->expanded_g /= 2;
  picture = draw (review, HISTORY_PISTON, area, &style, style.ground);
  rows_of (picture, style.accent, &top, &bottom);
  rows_of (picture, style.good, &high, &low);
  g_assert_cmpint (ABS ((bottom - top) - (low - high) / 2), <=, 4);
  g_assert_cmpint (ABS ((bottom + top) - (low + high)), <=, 4);
  picture_free (picture);
  fixture_review_free (review);
  tg_job_free (job);
}

static const struct
{
  const char *name;
  HistoryCase which;
  gboolean long_names;
  guint part;
  int width, height;
  enum
  {
    LIGHT,
    DARK,
    PRINT,
    CONTRAST
  } look;
} references[] = {
  { "history-rod", HISTORY_EVENINGS, FALSE, HISTORY_ROD, 350, 200, LIGHT },
  { "history-rod-small", HISTORY_EVENINGS, FALSE, HISTORY_ROD, 300, 140, DARK },
  { "history-rod-large", HISTORY_DAYS, TRUE, HISTORY_ROD, 900, 400, LIGHT },
  { "history-replaced-print", HISTORY_REPLACED, FALSE, HISTORY_ROD, 350, 200, PRINT },
  { "history-sixty", HISTORY_SIXTY, FALSE, HISTORY_ROD, 350, 200, LIGHT },
  { "history-one-contrast", HISTORY_ONE, FALSE, HISTORY_ROD, 350, 200, CONTRAST },
  { "history-piston", HISTORY_EVENINGS, FALSE, HISTORY_PISTON, 350, 150, LIGHT },
  { "history-empty", HISTORY_EMPTY, FALSE, HISTORY_ROD, 300, 140, LIGHT },
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
  TgReview *review = history_review (references[i].which, references[i].long_names, &job);
  Picture *picture = draw (review, references[i].part, area, style, style->ground);

  picture_compare (picture, references[i].name);
  picture_free (picture);
  fixture_review_free (review);
  tg_job_free (job);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/history-drawing/ink", test_ink);
  g_test_add_func ("/history-drawing/texts", test_texts);
  g_test_add_func ("/history-drawing/large-type", test_large_type);
  g_test_add_func ("/history-drawing/passes", test_passes);
  g_test_add_func ("/history-drawing/rose", test_rose);
  g_test_add_func ("/history-drawing/hollow", test_hollow);
  g_test_add_func ("/history-drawing/new-piece", test_new_piece);
  g_test_add_func ("/history-drawing/where", test_where);
  for (guint i = 0; i < G_N_ELEMENTS (references); i++)
    {
      g_autofree char *path = g_strconcat ("/history-drawing/reference/", references[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_reference);
    }
  return g_test_run ();
}
