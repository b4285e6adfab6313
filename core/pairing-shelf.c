/* pairing-shelf.c: which of many parts make the set
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Rods are chosen by both ends, all else by its weight; of what is not ground those that differ least.
 * The search (stock.h) counts each figure by itself; what the choice takes with the real zones is then
 * planned like any set.
 */
#include <math.h>
#include <string.h>

#include "pairing-private.h"
#include "reason.h"
#include "review-private.h"
#include "review-reason.h"
#include "stock.h"

typedef struct
{
  const TgReview *review;
  TgPartKind kind;
  guint n;
  guint index[TG_STOCK_MAX_PARTS];
  TgStockPart parts[TG_STOCK_MAX_PARTS];
  TgStockProblem problem;
} Shelf;

/* Down to a whole milligram: never more than there is. */
static TgMass
capacity_of (const TgPartReview *part, TgFigure figure)
{
  return tg_mass_from_g (floor (tg_review_capacity_g (part, figure) * 1000) / 1000);
}

static TgFigure
figure_of (TgPartKind kind, guint f)
{
  return kind != TG_PART_ROD ? TG_FIGURE_WHOLE : f == 0 ? TG_FIGURE_SMALL_END : TG_FIGURE_BIG_END;
}

static TgMass
tolerance_of (const TgReview *review, TgPartKind kind, guint f)
{
  TgBand band = kind != TG_PART_ROD ? TG_BAND_PISTON : f == 0 ? TG_BAND_ROD_SMALL : TG_BAND_ROD_BIG;

  /* nothing comes off the others: the closer they are the better */
  return tg_part_kind_has_outline (kind) ? review->setup->tolerance[band] : 0;
}

/* A part that has to stay at a bore has to be chosen. */
static gboolean
is_bound (const TgReview *review, guint part)
{
  for (guint r = 0; r < review->rules->len; r++)
    {
      const TgRuleReview *rule = &g_array_index (review->rules, TgRuleReview, r);

      if (rule->rule == TG_RULE_BORE && rule->part == part)
        return TRUE;
    }
  return FALSE;
}

static void
shelf_init (Shelf *shelf, const TgReview *review, TgPartKind kind)
{
  memset (shelf, 0, sizeof *shelf);
  shelf->review = review;
  shelf->kind = kind;
  shelf->problem = (TgStockProblem){ .n_figures = kind == TG_PART_ROD ? 2 : 1,
                                     .parts = shelf->parts,
                                     .n_chosen = review->setup->cylinders };
  for (guint f = 0; f < shelf->problem.n_figures; f++)
    shelf->problem.tolerance[f] = tolerance_of (review, kind, f);
  for (guint i = 0; i < review->parts->len && shelf->n < TG_STOCK_MAX_PARTS; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);
      TgStockPart *out = &shelf->parts[shelf->n];
      gboolean weighed = TRUE;

      if (part->design->kind != kind)
        continue;
      for (guint f = 0; f < shelf->problem.n_figures; f++)
        {
          TgFigure figure = figure_of (kind, f);

          weighed &= part->weight[figure].basis != TG_WEIGHT_NONE;
          out->weight[f] = tg_mass_from_g (part->weight[figure].mean_g);
          out->capacity[f] = tg_part_kind_has_outline (kind) ? capacity_of (part, figure)
                                                             : TG_STOCK_NO_LIMIT;
        }
      out->must = is_bound (review, i);
      if (weighed)
        shelf->index[shelf->n++] = i;
    }
  shelf->problem.n_parts = shelf->n;
}

/* Chosen ones keep their bores; the others fill what is free, in the order of their numbers. */
static TgEvent
put_at_bores (const Shelf *shelf, const TgStockChoice *choice)
{
  gboolean taken[TG_MAX_CYLINDERS + 1] = { TRUE };
  g_autofree guint *bore_of = g_new0 (guint, shelf->review->parts->len);
  guint free_bore = 1;

  for (guint pass = 0; pass < 2; pass++)
    for (guint k = 0; k < shelf->problem.n_chosen; k++)
      {
        guint index = shelf->index[choice->part[k]];
        guint bore = tg_review_part (shelf->review, index)->part->bore;

        if (pass == 0 && !taken[bore])
          bore_of[index] = bore;
        if (pass == 1 && bore_of[index] == 0)
          {
            while (taken[free_bore])
              free_bore++;
            bore_of[index] = free_bore;
          }
        taken[bore_of[index]] = TRUE;
      }
  return tg_pairing_event (shelf->review, 1u << shelf->kind, bore_of, "chosen from the shelf");
}

/* What the parts that sit at the bores now would lose; FALSE if a bore has none or too much is asked. */
static gboolean
cost_now (const Shelf *shelf, TgMass *total)
{
  g_autofree TgStockChoice *now = g_new0 (TgStockChoice, 1);
  guint n = 0;

  for (guint k = 0; k < shelf->n; k++)
    if (tg_review_part (shelf->review, shelf->index[k])->part->bore > 0 &&
        n < shelf->problem.n_chosen)
      now->part[n++] = k;
  if (n < shelf->problem.n_chosen || !tg_stock_evaluate (&shelf->problem, now))
    return FALSE;
  *total = now->total;
  return TRUE;
}

/* What each chosen part weighs, and what they lose against those in use now. */
static GPtrArray *
why_of (const Shelf *shelf, const TgStockChoice *stock, const TgMass *now)
{
  gboolean ground = tg_part_kind_has_outline (shelf->kind);
  GPtrArray *why = tg_terms_new ();

  tg_terms_add (why, "to choose from",
                g_strdup_printf ("%u for %u bores", shelf->n, shelf->problem.n_chosen), "weighed");
  for (guint k = 0; k < shelf->problem.n_chosen; k++)
    {
      const TgPartReview *part = tg_review_part (shelf->review, shelf->index[stock->part[k]]);

      for (guint f = 0; f < shelf->problem.n_figures; f++)
        {
          TgFigure figure = figure_of (shelf->kind, f);

          tg_reason_add_grams (shelf->review, why, part->part->name, part->weight[figure].mean_g,
                               tg_figure_label (shelf->kind, figure));
        }
    }
  if (ground)
    tg_reason_add_grams (shelf->review, why, "these lose", tg_mass_to_g (stock->total),
                         "over all of them");
  if (ground && now)
    tg_reason_add_grams (shelf->review, why, "those in use lose", tg_mass_to_g (*now),
                         "over all of them");
  tg_reason_close (why, ground ? TG_REASON_SHELF : TG_REASON_SHELF_ALIKE);
  return why;
}

static TgChoice *
choice_of (const Shelf *shelf, const TgStockChoice *stock)
{
  TgChoice *choice = g_new0 (TgChoice, 1);
  TgEvent event = put_at_bores (shelf, stock);
  GString *names = g_string_new (NULL);
  g_autofree char *total = tg_mass_format_exact (stock->total);
  const char *plural = tg_part_kind_plural (shelf->kind);
  g_autofree char *now = NULL;
  TgMass now_total;
  gboolean in_use = cost_now (shelf, &now_total);

  for (guint k = 0; k < shelf->problem.n_chosen; k++)
    g_string_append_printf (
        names, "%s%s", k ? ", " : "",
        tg_review_part (shelf->review, shelf->index[stock->part[k]])->part->name);
  if (in_use)
    {
      g_autofree char *grams = tg_mass_format_exact (now_total);

      now = g_strdup_printf (" Those in use now lose %s g.", grams);
    }
  choice->title = g_strdup_printf ("Take %s", names->str);
  choice->detail = tg_part_kind_has_outline (shelf->kind)
                       ? g_strdup_printf (
                             "Of %u %s these lose the least, %s g%s.%s", shelf->n, plural, total,
                             shelf->kind == TG_PART_ROD ? ", both ends counted for themselves" : "",
                             now ? now : "")
                       : g_strdup_printf ("Of %u %s these differ least.", shelf->n, plural);
  choice->cost_g = tg_mass_to_g (stock->total);
  choice->extra = TRUE;
  choice->why = why_of (shelf, stock, in_use ? &now_total : NULL);
  choice->events = g_array_new (FALSE, FALSE, sizeof (TgEvent));
  g_array_append_val (choice->events, event);
  g_string_free (names, TRUE);
  return choice;
}

TgChoice *
tg_pairing_choose (const TgReview *review, TgPartKind kind, char **why_not)
{
  g_autofree Shelf *shelf = g_new (Shelf, 1);
  g_autofree TgStockChoice *stock = g_new0 (TgStockChoice, 1);
  const char *plural = tg_part_kind_plural (kind);

  *why_not = NULL;
  shelf_init (shelf, review, kind);
  if (kind != TG_PART_ROD && tg_setup_in_sum (review->setup, kind) &&
      shelf->n <= TG_MATCHING_MAX_PARTS)
    *why_not = g_strdup_printf ("Spare %s are tried in the pairing itself.", plural);
  else if (shelf->n <= review->setup->cylinders)
    *why_not = g_strdup_printf ("There is nothing to choose from: %u weighed %s for %u bores.",
                                shelf->n, plural, review->setup->cylinders);
  else if (tg_stock_choose (&shelf->problem, stock) != TG_STOCK_OPTIMAL)
    *why_not = g_strdup_printf (
        "No %u of the %u %s can be made even with what their zones can give.",
        review->setup->cylinders, shelf->n, plural);
  if (*why_not)
    return NULL;
  return choice_of (shelf, stock);
}
