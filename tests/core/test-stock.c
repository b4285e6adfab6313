/* test-stock.c: sets from a shelf against full enumeration, GLPK, cases by hand and laws
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <string.h>

#include "stock-oracle.h"
#include "stock.h"

typedef struct
{
  TgMass total, touched, cut;
} Figures;

/* Written apart from tg_stock_evaluate(): pair by pair against every other chosen part, whose
 * figure plus the tolerance is then the limit. */
static gboolean
figure (const TgStockProblem *p, guint chosen, Figures *out)
{
  memset (out, 0, sizeof *out);
  for (guint i = 0; i < p->n_parts; i++)
    {
      gboolean in = chosen >> i & 1, touched = FALSE;

      if ((in && p->parts[i].never) || (!in && p->parts[i].must))
        return FALSE;
      for (guint f = 0; f < p->n_figures && in; f++)
        {
          TgMass worst = 0;

          for (guint j = 0; j < p->n_parts; j++)
            if (chosen >> j & 1)
              worst = MAX (worst, p->parts[i].weight[f] - p->parts[j].weight[f] - p->tolerance[f]);
          if (worst > p->parts[i].capacity[f])
            return FALSE;
          out->total += worst;
          out->cut = MAX (out->cut, worst);
          touched = touched || worst > 0;
        }
      out->touched += touched;
    }
  return TRUE;
}

/* Of two sets of the same size: TRUE if the rising numbers of @a come first. */
static gboolean
has_lower_numbers (guint a, guint b)
{
  guint lowest = (a ^ b) & -(a ^ b);

  return (a & lowest) != 0;
}

static gboolean
enumerate (const TgStockProblem *p, Figures *best, guint *set)
{
  gboolean found = FALSE;

  for (guint chosen = 0; chosen < 1u << p->n_parts; chosen++)
    {
      Figures now;
      int order;

      if ((guint) __builtin_popcount (chosen) != p->n_chosen || !figure (p, chosen, &now))
        continue;
      order = !found                             ? -1
              : now.total != best->total         ? (now.total < best->total ? -1 : 1)
              : now.touched != best->touched     ? (now.touched < best->touched ? -1 : 1)
              : now.cut != best->cut             ? (now.cut < best->cut ? -1 : 1)
              : has_lower_numbers (chosen, *set) ? -1
                                                 : 1;
      if (order > 0)
        continue;
      found = TRUE;
      *best = now;
      *set = chosen;
    }
  return found;
}

/* All objectives, and the very set, on everything that is small. */
static void
test_enumeration (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (101);
  guint found = 0, none = 0, costly = 0;

  for (guint round = 0; round < 3000; round++)
    {
      OracleShelf shelf;
      TgStockChoice choice;
      Figures best = { 0 };
      guint set = 0, chosen = 0;
      int spread = g_rand_int_range (random, 1, 30);
      guint parts = (guint) g_rand_int_range (random, 1, 10);
      guint n = (guint) g_rand_int_range (random, 1, 6);

      oracle_draw_shelf (random, 1 + round % 2, parts, n, spread, &shelf);
      if (round % 4 > 0)
        oracle_draw_shelf_rules (random, spread, &shelf);
      if (!enumerate (&shelf.problem, &best, &set))
        {
          g_assert_cmpint (tg_stock_choose (&shelf.problem, &choice), ==, TG_STOCK_NONE_EXISTS);
          none++;
          continue;
        }
      g_assert_cmpint (tg_stock_choose (&shelf.problem, &choice), ==, TG_STOCK_OPTIMAL);
      for (guint c = 0; c < n; c++)
        chosen |= 1u << choice.part[c];
      g_assert_cmpint (choice.total, ==, best.total);
      g_assert_cmpint (choice.touched, ==, best.touched);
      g_assert_cmpint (choice.cut, ==, best.cut);
      g_assert_cmpuint (chosen, ==, set);
      found++;
      costly += best.total > 0;
    }
  g_test_message ("found %u (%u that lose metal), none %u", found, costly, none);
  g_assert_cmpuint (costly, >, 900);
  g_assert_cmpuint (none, >, 300);
}

/* The least total, -1: no set. */
static TgMass
least_total (const OracleShelf *shelf)
{
  TgStockChoice choice;

  return tg_stock_choose (&shelf->problem, &choice) == TG_STOCK_OPTIMAL ? choice.total : -1;
}

static void
test_oracle (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (202);
  guint equal = 0, none = 0;

  for (guint round = 0; round < 80; round++)
    {
      OracleShelf shelf;
      TgMass total;
      int spread = g_rand_int_range (random, 10, 200);

      oracle_draw_shelf (random, 1 + round % 2, (guint) g_rand_int_range (random, 10, 19),
                         (guint) g_rand_int_range (random, 3, 9), spread, &shelf);
      if (round % 4 > 1)
        oracle_draw_shelf_rules (random, spread, &shelf);
      if (!oracle_choose (&shelf.problem, 200, &total))
        continue;
      g_assert_cmpint (least_total (&shelf), ==, total);
      equal += total >= 0;
      none += total < 0;
    }
  g_test_message ("equal %u, none exists %u, of 80", equal, none);
  g_assert_cmpuint (equal, >, 40);
  g_assert_cmpuint (none, >, 2);
}

/* A part more, a wider band, more capacity, a part less that must or must not be: never dearer. */
static void
test_freedom (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (303);
  guint cheaper = 0;

  for (guint round = 0; round < 500; round++)
    {
      OracleShelf shelf, freer;
      int spread = g_rand_int_range (random, 5, 200);
      TgMass before, after;
      guint f, i;

      oracle_draw_shelf (random, 1 + round % 2, (guint) g_rand_int_range (random, 8, 40),
                         (guint) g_rand_int_range (random, 2, 9), spread, &shelf);
      oracle_draw_shelf_rules (random, spread, &shelf);
      f = (guint) g_rand_int_range (random, 0, (int) shelf.problem.n_figures);
      i = (guint) g_rand_int_range (random, 0, (int) shelf.problem.n_parts);
      oracle_copy_shelf (&shelf, &freer);
      if (round % 5 < 2)
        oracle_add_part (random, spread, &freer);
      else if (round % 5 == 2)
        freer.problem.tolerance[f] += spread / 20 + 1;
      else if (round % 5 == 3)
        freer.parts[i].capacity[f] = TG_STOCK_NO_LIMIT;
      else
        for (i = 0; i < freer.problem.n_parts; i++)
          freer.parts[i].must = freer.parts[i].never = FALSE;
      before = least_total (&shelf);
      after = least_total (&freer);
      if (before < 0)
        continue;
      g_assert_cmpint (after, >=, 0);
      g_assert_cmpint (after, <=, before);
      cheaper += after < before;
    }
  g_assert_cmpuint (cheaper, >, 80);
}

/* Numbers reversed: the same figures.  Ends exchanged, all weights moved alike: the same set. */
static void
test_relabelled (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (404);

  for (guint round = 0; round < 150; round++)
    {
      OracleShelf shelf, reversed, turned;
      TgStockChoice a, b, c;
      int spread = g_rand_int_range (random, 5, 100);
      guint n = (guint) g_rand_int_range (random, 8, 60);

      oracle_draw_shelf (random, 2, n, (guint) g_rand_int_range (random, 2, 9), spread, &shelf);
      oracle_draw_shelf_rules (random, spread, &shelf);
      oracle_copy_shelf (&shelf, &reversed);
      oracle_copy_shelf (&shelf, &turned);
      for (guint i = 0; i < n; i++)
        {
          reversed.parts[i] = shelf.parts[n - 1 - i];
          for (guint f = 0; f < 2; f++)
            {
              turned.parts[i].weight[f] = shelf.parts[i].weight[1 - f] + 12345 + f;
              turned.parts[i].capacity[f] = shelf.parts[i].capacity[1 - f];
              turned.problem.tolerance[f] = shelf.problem.tolerance[1 - f];
            }
        }
      if (tg_stock_choose (&shelf.problem, &a) == TG_STOCK_NONE_EXISTS)
        {
          g_assert_cmpint (least_total (&reversed), ==, -1);
          g_assert_cmpint (least_total (&turned), ==, -1);
          continue;
        }
      g_assert_cmpint (tg_stock_choose (&reversed.problem, &b), ==, TG_STOCK_OPTIMAL);
      g_assert_cmpint (tg_stock_choose (&turned.problem, &c), ==, TG_STOCK_OPTIMAL);
      g_assert_cmpint (a.total, ==, b.total);
      g_assert_cmpint (a.touched, ==, b.touched);
      g_assert_cmpint (a.cut, ==, b.cut);
      g_assert_cmpmem (a.part, sizeof a.part, c.part, sizeof c.part);
    }
}

/* A full shelf: no part of the set can be exchanged for another one with profit, and the figures
 * are those of the judge. */
static void
test_full_shelf (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (505);

  for (guint round = 0; round < 3; round++)
    {
      OracleShelf shelf;
      TgStockChoice best;
      gboolean in[TG_STOCK_MAX_PARTS] = { FALSE };

      oracle_draw_shelf (random, 2, TG_STOCK_MAX_PARTS, 8, 30000, &shelf);
      shelf.problem.tolerance[0] = shelf.problem.tolerance[1] = 200 * round;
      g_assert_cmpint (tg_stock_choose (&shelf.problem, &best), ==, TG_STOCK_OPTIMAL);
      g_assert_cmpint (best.total, >, 0);
      for (guint c = 0; c < 8; c++)
        in[best.part[c]] = TRUE;
      for (guint c = 0; c < 8; c++)
        for (guint i = 0; i < TG_STOCK_MAX_PARTS; i++)
          {
            TgStockChoice other = { 0 };

            if (in[i])
              continue;
            for (guint j = 0, n = 0; j < TG_STOCK_MAX_PARTS; j++)
              if (j == i || (in[j] && j != best.part[c]))
                other.part[n++] = j;
            g_assert_true (tg_stock_evaluate (&shelf.problem, &other));
            g_assert_cmpint (other.total, >=, best.total);
          }
    }
}

/* By hand, invented: four of eight pistons within 0.1 g.  From 402.3 g only the one of 402.5 g loses
 * 0.1 g; from 402.1 g, 402.4 g, or with a heavy one it is more. */
static void
test_pistons (void)
{
  const TgMass weight[][2] = { { 403900 }, { 402400 }, { 402100 }, { 402500 },
                               { 405000 }, { 402300 }, { 402400 }, { 401000 } };
  OracleShelf shelf;
  TgStockChoice choice;

  oracle_list_shelf (weight, 1, 8, 4, &shelf);
  shelf.problem.tolerance[0] = 100;
  g_assert_cmpint (tg_stock_choose (&shelf.problem, &choice), ==, TG_STOCK_OPTIMAL);
  g_assert_cmpint (choice.total, ==, 100);
  g_assert_cmpint (choice.floor[0], ==, 402300);
  g_assert_cmpuint (choice.touched, ==, 1);
  g_assert_cmpuint (choice.part[0], ==, 1);
  g_assert_cmpuint (choice.part[1], ==, 3);
  g_assert_cmpint (choice.loss[1][0], ==, 100);
  g_assert_cmpuint (choice.part[2], ==, 5);
  g_assert_cmpuint (choice.part[3], ==, 6);

  /* the one of 402.5 g is frozen: 402.1 g leaves 0 + 0.1 + 0.2 + 0.2 */
  shelf.parts[3].capacity[0] = 0;
  g_assert_cmpint (tg_stock_choose (&shelf.problem, &choice), ==, TG_STOCK_OPTIMAL);
  g_assert_cmpint (choice.total, ==, 500);
  g_assert_cmpint (choice.floor[0], ==, 402100);

  /* and has to be in it: from 402.4 g, with the one of 403.9 g, 1.4 g */
  shelf.parts[3].must = TRUE;
  g_assert_cmpint (tg_stock_choose (&shelf.problem, &choice), ==, TG_STOCK_OPTIMAL);
  g_assert_cmpint (choice.total, ==, 1400);
  g_assert_cmpint (choice.floor[0], ==, 402400);

  /* nobody else may lose anything: three at most */
  for (guint i = 0; i < 8; i++)
    shelf.parts[i].capacity[0] = 0;
  g_assert_cmpint (tg_stock_choose (&shelf.problem, &choice), ==, TG_STOCK_NONE_EXISTS);
}

/* By hand: two rods of four.  0 and 1 are alike at the small end, 1 and 2 at the big end, but 0 and
 * 3 are near at both: 2 + 1. */
static void
test_rods (void)
{
  const TgMass near[][2] = { { 100, 300 }, { 100, 320 }, { 115, 320 }, { 102, 301 } };
  const TgMass ties[][2] = { { 0, 0 }, { 4, 0 }, { 4, 1 }, { 3, 2 } };
  OracleShelf shelf;
  TgStockChoice choice;

  oracle_list_shelf (near, 2, 4, 2, &shelf);
  g_assert_cmpint (tg_stock_choose (&shelf.problem, &choice), ==, TG_STOCK_OPTIMAL);
  g_assert_cmpuint (choice.part[0], ==, 0);
  g_assert_cmpuint (choice.part[1], ==, 3);
  g_assert_cmpint (choice.total, ==, 3);
  g_assert_cmpuint (choice.touched, ==, 1);
  g_assert_cmpint (choice.cut, ==, 2);
  g_assert_cmpint (choice.loss[1][0], ==, 2);
  g_assert_cmpint (choice.loss[1][1], ==, 1);

  /* with 0: 1 loses 4, and 2 or 3 loses 5; 3 has the smaller cut, but 1 is cut by 4 anyway */
  oracle_list_shelf (ties, 2, 4, 3, &shelf);
  shelf.parts[0].must = TRUE;
  g_assert_cmpint (tg_stock_choose (&shelf.problem, &choice), ==, TG_STOCK_OPTIMAL);
  g_assert_cmpint (choice.total, ==, 9);
  g_assert_cmpint (choice.cut, ==, 4);
  g_assert_cmpuint (choice.part[1], ==, 1);
  g_assert_cmpuint (choice.part[2], ==, 2);
}

/* Each rule that a set put together by hand can break. */
static void
test_rules (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1);
  TgStockChoice choice = { .part = { 0, 1, 3 } };
  OracleShelf shelf;

  oracle_draw_shelf (random, 1, 4, 3, 0, &shelf);
  g_assert_true (tg_stock_evaluate (&shelf.problem, &choice));
  choice.part[1] = 0;
  g_assert_false (tg_stock_evaluate (&shelf.problem, &choice));
  choice.part[1] = 4;
  g_assert_false (tg_stock_evaluate (&shelf.problem, &choice));
  choice.part[1] = 1;
  shelf.parts[3].never = TRUE;
  g_assert_false (tg_stock_evaluate (&shelf.problem, &choice));
  shelf.parts[3].never = FALSE;
  shelf.parts[2].must = TRUE;
  g_assert_false (tg_stock_evaluate (&shelf.problem, &choice));
  shelf.parts[2].must = FALSE;
  shelf.parts[0].weight[0] += 5;
  shelf.parts[0].capacity[0] = 4;
  g_assert_false (tg_stock_evaluate (&shelf.problem, &choice));
  g_assert_cmpint (choice.total, ==, 5);
  shelf.problem.tolerance[0] = 1;
  g_assert_true (tg_stock_evaluate (&shelf.problem, &choice));
  g_assert_cmpint (choice.total, ==, 4);
  shelf.problem.n_chosen = 5;
  g_assert_false (tg_stock_evaluate (&shelf.problem, &choice));
  g_assert_cmpint (tg_stock_choose (&shelf.problem, &choice), ==, TG_STOCK_NONE_EXISTS);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stock/enumeration", test_enumeration);
  g_test_add_func ("/stock/oracle", test_oracle);
  g_test_add_func ("/stock/freedom", test_freedom);
  g_test_add_func ("/stock/relabelled", test_relabelled);
  g_test_add_func ("/stock/full-shelf", test_full_shelf);
  g_test_add_func ("/stock/pistons", test_pistons);
  g_test_add_func ("/stock/rods", test_rods);
  g_test_add_func ("/stock/rules", test_rules);
  return g_test_run ();
}
