/* stock-evaluate.c: what a set from the shelf costs and whether it keeps the rules, see stock.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Shares nothing with the search but the problem: whatever the search finds has to pass here before
 * it is handed out, and a set that a person put together by hand is judged by the same figures.
 */
#include "stock.h"

static gboolean
numbers_rise (const TgStockProblem *problem, const TgStockChoice *choice)
{
  for (guint c = 0; c < problem->n_chosen; c++)
    if (choice->part[c] >= problem->n_parts || (c > 0 && choice->part[c] <= choice->part[c - 1]))
      return FALSE;
  return TRUE;
}

static void
weigh (const TgStockProblem *problem, TgStockChoice *choice)
{
  for (guint f = 0; f < problem->n_figures; f++)
    {
      choice->floor[f] = G_MAXINT64;
      for (guint c = 0; c < problem->n_chosen; c++)
        choice->floor[f] = MIN (choice->floor[f], problem->parts[choice->part[c]].weight[f]);
    }
  choice->total = choice->cut = 0;
  choice->touched = 0;
  for (guint c = 0; c < problem->n_chosen; c++)
    {
      gboolean touched = FALSE;

      for (guint f = 0; f < problem->n_figures; f++)
        {
          TgMass over = problem->parts[choice->part[c]].weight[f] - choice->floor[f];
          TgMass loss = MAX (0, over - problem->tolerance[f]);

          choice->loss[c][f] = loss;
          choice->total += loss;
          choice->cut = MAX (choice->cut, loss);
          touched = touched || loss > 0;
        }
      choice->touched += touched;
    }
}

static gboolean
rules_kept (const TgStockProblem *problem, const TgStockChoice *choice)
{
  guint must = 0;

  for (guint i = 0; i < problem->n_parts; i++)
    must += problem->parts[i].must;
  for (guint c = 0; c < problem->n_chosen; c++)
    {
      const TgStockPart *part = &problem->parts[choice->part[c]];

      if (part->never)
        return FALSE;
      must -= part->must;
      for (guint f = 0; f < problem->n_figures; f++)
        if (choice->loss[c][f] > part->capacity[f])
          return FALSE;
    }
  return must == 0;
}

gboolean
tg_stock_evaluate (const TgStockProblem *problem, TgStockChoice *choice)
{
  if (problem->n_chosen > problem->n_parts || !numbers_rise (problem, choice))
    return FALSE;
  weigh (problem, choice);
  return rules_kept (problem, choice);
}
