/* test-rod-statics.c: a rod on two supports
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>

#include "rod-statics.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

/* By hand: one gram off a rod of 150 mm. */
static void
test_effect (void)
{
  static const struct
  {
    double position, small, big;
  } cases[] = {
    { 150, 1, 0 },        /* at the small end */
    { 0, 0, 1 },          /* at the big end */
    { 75, 0.5, 0.5 },     /* in the middle */
    { 168, 1.12, -0.12 }, /* pad above the small end: the big end rises */
    { -30, -0.2, 1.2 },   /* cap side: the small end rises */
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TgRodStatics effect = tg_rod_statics_effect (150, cases[i].position);

      NEAR (effect.small, cases[i].small, 1e-12);
      NEAR (effect.big, cases[i].big, 1e-12);
    }
}

/* Case W4: rod of 4.738 kg and 381 mm, centre of gravity a quarter from the crankpin; the data were
 * read in an excerpt of a machinery text, the split 1.1845 and 3.5535 kg is recomputed.
 * Case W5: 2 kg, 220 mm, centre of gravity 150 mm from the small end; the problem was read in a
 * collection of exercises, the split 0.6364 and 1.3636 kg is recomputed. */
static void
test_split (void)
{
  TgRodStatics ends = tg_rod_statics_split (4.738, 381, 0.25 * 381);

  NEAR (ends.small, 1.1845, 1e-9);
  NEAR (ends.big, 3.5535, 1e-9);
  ends = tg_rod_statics_split (2, 220, 220 - 150);
  NEAR (ends.small, 0.6364, 5e-5);
  NEAR (ends.big, 1.3636, 5e-5);
}

/* Laws: ends sum to the whole, the split finds its centre of gravity again, and taking metal off
 * one rod is the same as weighing the rod without that metal. */
static void
test_laws (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (12);

  for (guint n = 0; n < 1000; n++)
    {
      double centres = g_rand_double_range (random, 50, 400);
      double whole = g_rand_double_range (random, 100, 5000);
      double cg = g_rand_double_range (random, -0.1, 1.1) * centres;
      double at = g_rand_double_range (random, -60, centres + 60);
      double off = g_rand_double_range (random, 0, 10);
      TgRodStatics ends = tg_rod_statics_split (whole, centres, cg);
      TgRodStatics effect = tg_rod_statics_effect (centres, at);
      TgRodStatics rest = tg_rod_statics_split (whole - off, centres,
                                                (whole * cg - off * at) / (whole - off));

      NEAR (ends.small + ends.big, whole, 1e-9);
      NEAR (tg_rod_statics_cg_mm (centres, ends), cg, 1e-9);
      NEAR (effect.small + effect.big, 1, 1e-12);
      NEAR (ends.small - off * effect.small, rest.small, 1e-9);
      NEAR (ends.big - off * effect.big, rest.big, 1e-9);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rod-statics/effect", test_effect);
  g_test_add_func ("/rod-statics/split", test_split);
  g_test_add_func ("/rod-statics/laws", test_laws);
  return g_test_run ();
}
