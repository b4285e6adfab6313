/* pairing-odd.c: the odd one out: which part, replaced by a fitting one, saves the most metal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The set is planned without each of its parts in turn, with free targets and the real zones and lever
 * arms.  A piece that lies in the bands of that plan needs no metal itself.  What is carried with the
 * part stays at its bore.
 */
#include <math.h>

#include "pairing.h"
#include "reason.h"
#include "review-private.h"
#include "review-reason.h"

/* Less is not worth a new piece, and more suggestions would not be read. */
#define LEAST_STEPS 2
#define MOST 3

typedef struct
{
  guint part;
  double own_g;
  double saved_g;
  TgTargetPlan plan;
} Odd;

static void
odd_free (TgPairingOdd *odd)
{
  g_free (odd->words);
  g_ptr_array_unref (odd->why);
  g_free (odd);
}

static gboolean
plan_set (TgReviewSet *set, TgTargetPlan *result)
{
  g_autofree TgRemovalPlan *plans = g_new (TgRemovalPlan, MAX (set->n, 1));

  for (guint row = 0; row < TG_PLAN_MAX_ROWS; row++)
    set->problem.fixed[row] = FALSE;
  if (set->n == 0)
    return FALSE;
  tg_target_plan_solve (&set->problem, plans, result);
  return result->status != TG_PLAN_UNREACHABLE;
}

/* What comes off the part itself, in the plan of the whole set. */
static double
own_share_g (const TgReviewSet *set, guint i, const TgTargetPlan *whole)
{
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  double hi_g[TG_PLAN_MAX_ROWS] = { 0 };
  TgRemovalPlan plan;

  for (guint row = 0; row < set->parts[i].n_rows; row++)
    hi_g[row] = whole->target_g[row] + set->problem.tolerance_g[row];
  tg_removal_plan_solve (lp, &set->parts[i], whole->target_g, hi_g, set->problem.step_g, &plan);
  return plan.total_g;
}

static char *
odd_words (const TgReview *review, const TgReviewSet *set, const Odd *odd)
{
  const TgPartReview *part = tg_review_part (review, odd->part);
  TgPartKind kind = part->design->kind;
  g_autofree char *saved = tg_review_grams (review, odd->saved_g);
  GString *words = g_string_new (NULL);

  g_string_append_printf (words, "Replacing %s saves %s g of grinding on the others; look for one",
                          part->part->name, saved);
  for (guint row = 0; row < tg_review_planned_rows (review, kind); row++)
    {
      TgFigure figure = tg_review_row_figure (kind, row);
      double with_g = tg_review_row_planned_g (review, part, row) - part->weight[figure].mean_g;
      double lo_g = odd->plan.target_g[row] - with_g;
      g_autofree char *lo = tg_review_grams (review, lo_g);
      g_autofree char *hi = tg_review_grams (review, lo_g + set->problem.tolerance_g[row]);

      g_string_append_printf (words, "%s a %s of %s to %s g", row ? " and" : " with",
                              tg_figure_label (kind, figure), lo, hi);
    }
  g_string_append_c (words, '.');
  return g_string_free (words, FALSE);
}

static GPtrArray *
odd_why (const TgReview *review, const Odd *odd, double whole_g)
{
  GPtrArray *why = tg_terms_new ();

  tg_reason_add_grams (review, why, "by today’s plan", whole_g, "comes off the whole set");
  tg_reason_add_grams (review, why, tg_review_part (review, odd->part)->part->name, odd->own_g,
                       "of that, which goes with it");
  tg_reason_add_grams (review, why, "without it", odd->plan.total_g, "comes off the others");
  tg_reason_add_grams (review, why, "saved", odd->saved_g, "on the others");
  tg_reason_close (why, TG_REASON_ODD);
  return why;
}

static int
most_first (gconstpointer a, gconstpointer b)
{
  const Odd *x = a, *y = b;

  if (fabs (x->saved_g - y->saved_g) > TG_REVIEW_TINY_G)
    return x->saved_g > y->saved_g ? -1 : 1;
  return x->part < y->part ? -1 : 1;
}

GPtrArray *
tg_pairing_odd_one_out (const TgReview *review, TgPartKind kind)
{
  GPtrArray *found = g_ptr_array_new_with_free_func ((GDestroyNotify) odd_free);
  g_autoptr (GArray) odds = g_array_new (FALSE, FALSE, sizeof (Odd));
  g_autofree TgReviewSet *set = g_new (TgReviewSet, 1);
  g_autofree TgReviewSet *rest = g_new (TgReviewSet, 1);
  double step_g = tg_mass_to_g (review->setup->resolution);
  TgTargetPlan whole;

  tg_review_set_init (set, review, kind, NULL, -1);
  if (set->n >= 3 && plan_set (set, &whole))
    for (guint i = 0; i < set->n; i++)
      {
        Odd odd = { .part = set->index[i] };

        tg_review_set_init (rest, review, kind, NULL, (int) odd.part);
        if (!plan_set (rest, &odd.plan))
          continue;
        odd.own_g = own_share_g (set, i, &whole);
        odd.saved_g = whole.total_g - odd.own_g - odd.plan.total_g;
        if (odd.saved_g >= LEAST_STEPS * step_g - TG_REVIEW_TINY_G)
          g_array_append_val (odds, odd);
      }
  g_array_sort (odds, most_first);
  for (guint i = 0; i < MIN (odds->len, MOST); i++)
    {
      const Odd *odd = &g_array_index (odds, Odd, i);
      TgPairingOdd *told = g_new (TgPairingOdd, 1);

      *told = (TgPairingOdd){ odd_words (review, set, odd), odd_why (review, odd, whole.total_g) };
      g_ptr_array_add (found, told);
    }
  return found;
}
