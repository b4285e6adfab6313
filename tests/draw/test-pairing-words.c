/* test-pairing-words.c: what a picture of a pairing says, in its rows and in sentences
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <string.h>

#include "pairing-drawing.h"
#include "pairing-fixture.h"
#include "picture.h"

/* Every part's number stands in the second line of its row, whether it has a width or not. */
static void
check_row (const TgPlot *plot, const TgPairingPicture *picture, guint i, TgRect row)
{
  guint found = 0, wanted = 0;

  for (guint f = 0; f < picture->n_families; f++)
    {
      const char *number = picture->bars[i].parts[f].number;
      g_autofree char *named = g_strconcat (picture->family_label[f], " ", number, NULL);
      gboolean here = FALSE;

      for (guint t = 0; number && t < plot->texts->len; t++)
        {
          const TgPlotText *text = &g_array_index (plot->texts, TgPlotText, t);

          here = here || (text->rect.y > row.y + 0.4 * row.height && text->rect.x > row.x + 20 &&
                          text->rect.y < row.y + row.height &&
                          (strcmp (text->text, number) == 0 || strcmp (text->text, named) == 0));
        }
      wanted += number != NULL;
      found += here;
    }
  g_assert_cmpuint (found, ==, wanted);
}

/* In the height that it asks for nothing is left out. */
static void
test_rows (void)
{
  const double widths[] = { 328, 500, 800 };

  for (guint c = 0; c < N_PAIRINGS; c++)
    for (guint w = 0; w < 2 * G_N_ELEMENTS (widths); w++)
      {
        g_autofree PairingFixture *fixture = pairing_fixture_new ((PairingCase) c);
        const TgPairingPicture *picture = &fixture->picture;
        TgStyle style = pairing_style (PAIRING_LIGHT);
        TgRect area = { 0, 0, widths[w / 2], 0 };
        g_autoptr (TgPlot) plot = NULL;
        guint amounts = 0;

        style.text_size *= w % 2 ? 1.3 : 1;
        area = pairing_sized (area, picture, &style);
        plot = pairing_plot (picture, area, &style);
        for (guint f = 0; f < picture->n_families; f++)
          g_assert_cmpuint (pairing_count_texts (plot, picture->family_label[f]), ==, 1);
        g_assert_cmpuint (pairing_count_texts (plot, "bore"), ==, 1);
        g_assert_cmpuint (pairing_count_texts (plot, "today"), ==, picture->has_before);
        for (guint i = 0; i < picture->n_bars; i++)
          check_row (plot, picture, i, tg_pairing_drawing_row (area, picture, &style, i));
        for (guint t = 0; t < plot->texts->len; t++)
          {
            const char *text = g_array_index (plot->texts, TgPlotText, t).text;

            amounts += strcmp (text, "even") == 0 || strcmp (text, "light") == 0 ||
                       (g_str_has_suffix (text, " g") && g_ascii_isdigit (text[0]));
          }
        g_assert_cmpuint (amounts, ==, picture->n_bars * (picture->has_before ? 2 : 1));
      }
}

/* The figures as they were given, and the absolute grams of band and scale. */
static void
test_figures (void)
{
  g_autofree PairingFixture *fixture = pairing_fixture_new (PAIRING_FOUR);
  TgPairingPicture *picture = &fixture->picture;
  TgStyle style = pairing_style (PAIRING_LIGHT);
  g_autoptr (TgPlot) plot = NULL;

  picture->base_g = 998.75;
  picture->band_lower_g = 2.5;
  picture->band_upper_g = 3;
  picture->decimals = 2;
  fixture->bars[1].touched = TRUE;
  fixture->bars[1].removal_g = 0.37;
  plot = pairing_plot (picture, pairing_sized ((TgRect){ 0, 0, 600, 0 }, picture, &style), &style);
  g_assert_cmpuint (pairing_count_texts (plot, "target 1001.25 to 1001.75 g"), ==, 1);
  g_assert_cmpuint (pairing_count_texts (plot, "left edge: lightest of each, 998.75 g"), ==, 1);
  g_assert_cmpuint (pairing_count_texts (plot, "0.37 g"), ==, 1);
  g_assert_cmpuint (pairing_count_texts (plot, "999") + pairing_count_texts (plot, "1000"), >=, 1);
}

/* Twice as large type in a narrow window: the grams of the band and of the left edge stay. */
static void
test_large_type (void)
{
  g_autofree PairingFixture *fixture = pairing_fixture_new (PAIRING_EIGHT);
  TgStyle style = pairing_style (PAIRING_LIGHT);
  g_autoptr (TgPlot) plot = NULL;

  style.text_size *= 2;
  plot = pairing_plot (&fixture->picture,
                       pairing_sized ((TgRect){ 0, 0, 328, 0 }, &fixture->picture, &style), &style);
  g_assert_cmpuint (pairing_count_texts (plot, "1011.2 to 1011.4 g"), ==, 1);
  g_assert_cmpuint (pairing_count_texts (plot, "left edge: 1008.4 g"), ==, 1);
  g_assert_cmpuint (pairing_count_texts (plot, "0.8 g"), ==, 3);
}

/* A name that is too long for its column is cut, but there. */
static void
test_labels (void)
{
  const double sizes[] = { 1, 2 };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree PairingFixture *fixture = pairing_fixture_new (PAIRING_LONG);
      TgStyle style = pairing_style (PAIRING_LIGHT);
      g_autoptr (TgPlot) plot = NULL;
      guint n = 0;

      style.text_size *= sizes[i];
      plot = pairing_plot (&fixture->picture,
                           pairing_sized ((TgRect){ 0, 0, 328, 0 }, &fixture->picture, &style),
                           &style);
      for (guint t = 0; t < plot->texts->len; t++)
        {
          const char *text = g_array_index (plot->texts, TgPlotText, t).text;

          n += g_str_has_suffix (text, "…") &&
               (g_str_has_prefix (text, "fr") || g_str_has_prefix (text, "se"));
        }
      g_assert_cmpuint (n, ==, 2);
    }
}

/* Too light is said, and not called even. */
static void
test_light (void)
{
  g_autofree PairingFixture *fixture = pairing_fixture_new (PAIRING_LONG);
  TgStyle style = pairing_style (PAIRING_LIGHT);
  g_autoptr (TgPlot) plot = pairing_plot (
      &fixture->picture, pairing_sized ((TgRect){ 0, 0, 328, 0 }, &fixture->picture, &style),
      &style);

  g_assert_cmpuint (pairing_count_texts (plot, "light"), ==, 1);
}

static void
test_describe (void)
{
  TgPairingBar bars[] = {
    { .label = "1",
      .parts = { { "3", 1.5, TRUE, FALSE }, { "5", 2, FALSE, TRUE }, { "1", 0, TRUE, TRUE } },
      .after_g = 3.5,
      .removal_g = 0.6,
      .touched = TRUE,
      .before_g = 4.3,
      .before_removal_g = 1.4 },
    { .label = "2", .parts = { { "1", 0 }, { NULL, 0 }, { "2", 2.9 } }, .after_g = 2.9 },
  };
  TgPairingPicture picture = { .n_families = 3,
                               .family_label = { "piston", "rod", "pin" },
                               .n_bars = 2,
                               .bars = bars,
                               .base_g = 1010.4,
                               .band_lower_g = 2.7,
                               .band_upper_g = 2.9,
                               .has_before = TRUE,
                               .decimals = 1 };
  g_autofree char *both = tg_pairing_drawing_describe (&picture), *alone = NULL;

  g_assert_cmpstr (
      both, ==,
      "Bore 1: piston 3 (from another bore), rod 5 (locked), pin 1 (from another bore, "
      "locked), together 1013.9 g, 0.6 g to come off; today 1.4 g to come off.\n"
      "Bore 2: piston 1, pin 2, together 1013.3 g, even; today even.");
  picture.has_before = FALSE;
  bars[1].after_g = 2.5;
  alone = tg_pairing_drawing_describe_bar (&picture, 1);
  g_assert_cmpstr (alone, ==, "Bore 2: piston 1, pin 2, together 1012.9 g, light.");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pairing-words/rows", test_rows);
  g_test_add_func ("/pairing-words/figures", test_figures);
  g_test_add_func ("/pairing-words/large-type", test_large_type);
  g_test_add_func ("/pairing-words/labels", test_labels);
  g_test_add_func ("/pairing-words/light", test_light);
  g_test_add_func ("/pairing-words/describe", test_describe);
  return g_test_run ();
}
