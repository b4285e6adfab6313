/* test-review-joint.c: rods and pistons planned together, against GLPK
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * With small ends in the sum only, one linear programme holds the sums and the big ends.  GLPK (a
 * general solver, run in process) solves it for the parts as they sit, and as a mixed integer programme
 * over every way to put pistons and pins to rods.  The review's plan is in whole steps of the scale, so
 * it may cost a little more than the exact optimum and never less.  All figures are invented.
 */
#include <glpk.h>
#include <math.h>

#include "fixture.h"
#include "pairing.h"

#define MAX_N 5
#define STEP 0.1
#define TOLERANCE 0.5

typedef struct
{
  guint n;
  double small[MAX_N], big[MAX_N], piston[MAX_N], pin[MAX_N];
} Engine;

static double
around (GRand *rand, double middle, double spread)
{
  return round ((middle + g_rand_double_range (rand, -spread, spread)) * 10) / 10;
}

static Engine
engine_new (guint n, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  Engine engine = { .n = n };

  for (guint i = 0; i < n; i++)
    {
      engine.small[i] = around (rand, 170, 1);
      engine.big[i] = around (rand, 500, 1.2);
      engine.piston[i] = around (rand, 400, 1.2);
      engine.pin[i] = around (rand, 110, 0.6);
    }
  return engine;
}

static TgJob *
job_of (const Engine *engine)
{
  TgSetup *setup = fixture_setup (engine->n, TRUE, TRUE);
  TgJob *job;

  setup->small_ends = TG_SMALL_ENDS_SUM;
  fixture_add_family (setup, TG_PART_PIN, 0);
  job = tg_job_new (setup);
  for (guint i = 0; i < engine->n; i++)
    {
      g_autofree char *pin = g_strdup_printf ("pin-%u", i + 1);

      fixture_weigh_rod (job, i + 1, engine->small[i], engine->big[i]);
      fixture_weigh_piston (job, i + 1, engine->piston[i]);
      fixture_weigh (job, pin, TG_FIGURE_WHOLE, TG_WAY_ANY, engine->pin[i]);
    }
  return job;
}

/* -- the independent model ----------------------------------------------------------------------- */

typedef struct
{
  glp_prob *lp;
  int entries;
  int row[4096], column[4096];
  double value[4096];
} Model;

static int
add_column (Model *model, double lo, double hi, double cost, gboolean binary)
{
  int j = glp_add_cols (model->lp, 1);

  glp_set_col_bnds (model->lp, j, isinf (hi) ? GLP_LO : lo < hi ? GLP_DB : GLP_FX, lo, hi);
  glp_set_obj_coef (model->lp, j, cost);
  if (binary)
    glp_set_col_kind (model->lp, j, GLP_BV);
  return j;
}

static int
add_row (Model *model, int type, double lo, double hi)
{
  int i = glp_add_rows (model->lp, 1);

  glp_set_row_bnds (model->lp, i, type, lo, hi);
  return i;
}

static void
set (Model *model, int row, int column, double value)
{
  model->entries++;
  model->row[model->entries] = row;
  model->column[model->entries] = column;
  model->value[model->entries] = value;
}

/* Usable zones of a design: capacity and lever by hand from the fixture's dimensions. */
static guint
zones_of (const TgDesign *design, double *capacity, double *lever)
{
  guint n = 0;

  for (guint z = 0; z < design->zones->len; z++)
    {
      const TgZone *zone = tg_design_zone (design, z);
      double sides = tg_place_is_pair (zone->place) ? 2 : 1;

      if (zone->standing != TG_STANDING_FREE)
        continue;
      capacity[n] = zone->area_mm2 * sides * zone->depth_mm * design->density / 1000;
      lever[n++] = design->kind == TG_PART_ROD
                       ? tg_design_zone_position (design, zone) / design->rod.centres
                       : 1;
    }
  return n;
}

/* Sums and big ends in one model; pistons and pins free to go to any rod, or as they sit. */
static double
least_metal (const Engine *engine, const TgSetup *setup, gboolean any_pairing)
{
  g_autofree Model *model = g_new0 (Model, 1);
  double capacity[16], lever[16], piston_capacity[16], one[16], most = 0, optimum;
  guint n_zones = zones_of (tg_setup_find_design (setup, "rod"), capacity, lever);
  guint n_piston = zones_of (tg_setup_find_design (setup, "piston"), piston_capacity, one);
  int floor_sum, floor_big, piston_at[MAX_N][MAX_N], pin_at[MAX_N][MAX_N];
  glp_iocp options;

  for (guint z = 0; z < n_piston; z++)
    most += piston_capacity[z];
  model->lp = glp_create_prob ();
  glp_set_obj_dir (model->lp, GLP_MIN);
  floor_sum = add_column (model, 0, INFINITY, 0, FALSE);
  floor_big = add_column (model, 0, INFINITY, 0, FALSE);
  for (guint i = 0; i < engine->n; i++)
    for (guint j = 0; j < engine->n; j++)
      {
        gboolean fixed = !any_pairing;

        piston_at[i][j] = add_column (model, 0, 1, 0, TRUE);
        pin_at[i][j] = add_column (model, 0, 1, 0, TRUE);
        if (fixed)
          {
            glp_set_col_bnds (model->lp, piston_at[i][j], GLP_FX, i == j, i == j);
            glp_set_col_bnds (model->lp, pin_at[i][j], GLP_FX, i == j, i == j);
          }
      }
  for (guint i = 0; i < engine->n; i++)
    {
      int once[4];
      int sum = add_row (model, GLP_DB, -engine->small[i], TOLERANCE - engine->small[i]);
      int big = add_row (model, GLP_DB, -engine->big[i], TOLERANCE - engine->big[i]);
      int off_piston = add_column (model, 0, most, 1, FALSE);

      for (guint r = 0; r < 4; r++)
        once[r] = add_row (model, GLP_FX, 1, 1);
      set (model, sum, floor_sum, -1);
      set (model, big, floor_big, -1);
      set (model, sum, off_piston, -1);
      for (guint j = 0; j < engine->n; j++)
        {
          set (model, sum, piston_at[i][j], engine->piston[j]);
          set (model, sum, pin_at[i][j], engine->pin[j]);
          set (model, once[0], piston_at[i][j], 1);
          set (model, once[1], piston_at[j][i], 1);
          set (model, once[2], pin_at[i][j], 1);
          set (model, once[3], pin_at[j][i], 1);
        }
      for (guint z = 0; z < n_zones; z++)
        {
          int off = add_column (model, 0, capacity[z], 1, FALSE);

          set (model, sum, off, -lever[z]);
          set (model, big, off, lever[z] - 1);
        }
    }
  glp_load_matrix (model->lp, model->entries, model->row, model->column, model->value);
  glp_init_iocp (&options);
  options.presolve = GLP_ON;
  options.msg_lev = GLP_MSG_OFF;
  g_assert_cmpint (glp_intopt (model->lp, &options), ==, 0);
  g_assert_cmpint (glp_mip_status (model->lp), ==, GLP_OPT);
  optimum = glp_mip_obj_val (model->lp);
  glp_delete_prob (model->lp);
  return optimum;
}

static double
metal_of (const TgReview *review)
{
  return review->least_metal_g[TG_PART_ROD] + review->least_metal_g[TG_PART_PISTON];
}

static void
test_as_they_sit (void)
{
  for (guint32 seed = 1; seed <= 60; seed++)
    {
      Engine engine = engine_new (2 + seed % 4, seed);
      g_autoptr (TgJob) job = job_of (&engine);
      g_autoptr (TgReview) review = tg_review_new (job);
      double exact = least_metal (&engine, review->setup, FALSE);

      g_assert_false (review->bands[TG_BAND_ROD_SMALL].present);
      g_assert_true (review->bands[TG_BAND_PISTON].known);
      g_assert_true (review->feasible[TG_PART_ROD]);
      g_assert_cmpfloat (metal_of (review), >=, exact - 1e-6);
      /* two rows and whole steps: less than a step for each row of each rod */
      g_assert_cmpfloat (metal_of (review), <=, exact + 2 * engine.n * STEP);
      /* every band is kept after the plan */
      for (guint i = 0; i < review->parts->len; i++)
        g_assert_cmpint (tg_review_part (review, i)->plan.status, !=, TG_PLAN_UNREACHABLE);
    }
}

/* Bore by bore: the sums are those of the readings, and all that comes off adds up. */
static void
check_sets (const Engine *engine, const TgPairing *pairing, const TgPairingResult *result)
{
  TgPairingSet sets[MAX_N];
  double off = 0;

  g_assert_cmpfloat (tg_pairing_sets (pairing, &result->sums.plan, sets), >, 600);
  for (guint c = 0; c < engine->n; c++)
    {
      /* families: pistons, pins, rods */
      double sum = engine->piston[result->sums.plan.part[0][c]] +
                   engine->pin[result->sums.plan.part[1][c]] +
                   engine->small[result->sums.plan.part[2][c]];

      g_assert_cmpfloat_with_epsilon (sets[c].weight_g, sum, 1e-9);
      g_assert_cmpfloat (sets[c].off_g, >=, 0);
      off += sets[c].off_g;
    }
  g_assert_cmpfloat_with_epsilon (off, result->metal_g, 1e-6);
}

static void
test_any_pairing (void)
{
  double ours = 0, whole = 0, exact = 0, bound = 0, before = 0;

  for (guint32 seed = 1; seed <= 12; seed++)
    {
      Engine engine = engine_new (3 + seed % 2, 100 + seed);
      g_autoptr (TgJob) job = job_of (&engine);
      g_autoptr (TgReview) review = tg_review_new (job), after = NULL;
      g_autoptr (TgPairing) pairing = NULL;
      g_autofree char *why_not = NULL;
      const TgMatchingLimits limits = { .nodes = 1000000 };
      TgPairingResult result;
      TgChoice *choice;
      double optimum = least_metal (&engine, review->setup, TRUE);

      pairing = tg_pairing_new (review, TG_PAIRING_PISTONS, &why_not);
      g_assert_nonnull (pairing);
      g_assert_cmpint (pairing->families[pairing->problem.n_families - 1].kind, ==, TG_PART_ROD);
      tg_pairing_solve (pairing, &limits, &result);
      g_assert_true (result.joint);
      g_assert_cmpfloat (result.bound_g, <=, optimum + 1e-6);
      g_assert_cmpfloat (result.metal_g, >=, optimum - 1e-6);
      g_assert_cmpfloat_with_epsilon (tg_pairing_metal_g (pairing, &result.sums.plan),
                                      result.metal_g, 1e-9);
      check_sets (&engine, pairing, &result);
      choice = tg_pairing_accept (review, pairing, &result.sums.plan);
      after = tg_review_preview (job, (const TgEvent *) (gpointer) choice->events->data,
                                 choice->events->len);
      g_assert_nonnull (after);
      tg_choice_free (choice);
      g_assert_cmpfloat (metal_of (after), >=, optimum - 1e-6);
      before += metal_of (review);
      whole += metal_of (after);
      ours += result.metal_g;
      bound += result.bound_g;
      exact += optimum;
    }
  g_test_message (
      "as they sit %.1f g; paired %.2f g, in whole steps %.1f g; exact optimum over all "
      "pairings %.2f g, bound %.2f g",
      before, ours, whole, exact, bound);
  g_assert_cmpfloat (ours, <, before);
  /* a search that may miss the best, but not by much */
  g_assert_cmpfloat (ours - exact, <=, 0.02 * (before - exact));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  glp_term_out (GLP_OFF);
  g_test_add_func ("/review-joint/as-they-sit", test_as_they_sit);
  g_test_add_func ("/review-joint/any-pairing", test_any_pairing);
  return g_test_run ();
}
