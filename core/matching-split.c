/* matching-split.c: two batches mixed, searched in two halves
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * See matching-classes.c for light, heavy and points.  Close to the highest floor that the shares
 * allow, the assemblies with few points are all that matters: together they may be lighter than the
 * heaviest choice of parts by little only, while those with more points have metal in plenty, which
 * makes the windows of the plain search wide and useless.
 *
 * So a limit of points is chosen.  For every number of assemblies within it and every number of
 * points of theirs that the shares leave, all choices of their parts that are heavy enough are gone
 * through; each choice is two matchings on their own, the tight one of few parts and little metal
 * first, then that of the rest.
 *
 * Only without spares, where the weight of the rest follows from the choice.
 */
#include "matching-private.h"

#include <string.h>

#define MAX_POINTS TG_MATCHING_MAX_POINTS

typedef struct
{
  TgMatchingSearch *search;
  const TgMatchingSet *set;
  const TgMatchingShares *shares;
  const TgMatchingGoal *goal;
  guint limit;                        /* of points */
  guint l;                            /* assemblies within it */
  gint64 need;                        /* what they weigh at least */
  gint64 rest[K + 1][MAX_POINTS + 1]; /* the most from this family on, by points; -1 */
  gint64 sums[K][N + 1];              /* of the lightest so many */
  guint64 taken[K];
} Split;

static gboolean take_family (Split *s, guint f, guint points, gint64 weight);

static gint64
top_of (const Split *s)
{
  return s->goal->floor + s->set->tolerance;
}

/* What the chosen ones of the first half lose. */
static gint64
removal_of (const Split *s, guint8 chosen[N][K], guint n)
{
  gint64 removal = 0;

  for (guint a = 0; a < n; a++)
    {
      gint64 weight = 0;

      for (guint f = 0; f < s->set->k; f++)
        weight += s->set->weight[f][chosen[a][f]];
      removal += MAX (0, weight - top_of (s));
    }
  return removal;
}

/* Both halves on their own; the second may lose what the first leaves. */
static gboolean
match_halves (Split *s, gint64 weight)
{
  TgMatchingSearch *search = s->search;
  guint n = s->set->n, others = n - s->l;
  gint64 all = s->set->sums.all_high_heavy[n];
  TgMatchingLeft few = { .m = (guint16) s->l, .touched = (guint16) s->l };
  TgMatchingLeft rest = { .m = (guint16) others, .touched = (guint16) others };
  guint8 chosen[N][K];

  for (guint f = 0; f < s->set->k; f++)
    {
      few.left[f] = s->taken[f];
      rest.left[f] = s->set->all[f] & ~s->taken[f];
    }
  few.removal = s->goal->removal - MAX (0, all - weight - others * top_of (s));
  while (few.removal >= 0 && tg_matching_search_expand (search, &few))
    {
      gint64 removal = removal_of (s, search->chosen, s->l);

      memcpy (chosen, search->chosen, sizeof chosen);
      rest.removal = s->goal->removal - removal;
      if (tg_matching_search_expand (search, &rest))
        {
          memcpy (search->chosen[others], chosen, s->l * sizeof chosen[0]);
          return TRUE;
        }
      few.removal = removal - 1;
    }
  return FALSE;
}

/* The heaviest @n of the places from @from to below @to. */
static gint64
heaviest (const Split *s, guint f, guint from, guint to, guint n)
{
  return to - from < n ? -1 : s->sums[f][to] - s->sums[f][to - n];
}

/* Takes so many heavy and light parts of the places below @to, from the heaviest down. */
static gboolean
take_parts (Split *s, guint f, guint to, guint heavy, guint light, guint points, gint64 weight)
{
  guint border = s->set->n - s->shares->n_heavy[f];
  gint64 most_heavy = heaviest (s, f, border, MAX (to, border), heavy);
  gint64 most_light = heaviest (s, f, 0, MIN (to, border), light);
  guint i = to - 1;

  if (heavy + light == 0)
    return take_family (s, f + 1, points, weight);
  if (most_heavy < 0 || most_light < 0 ||
      weight + most_heavy + most_light + s->rest[f + 1][points] < s->need)
    return FALSE;
  if (i >= border ? heavy > 0 : light > 0)
    {
      s->taken[f] |= BIT (i);
      if (take_parts (s, f, i, heavy - (i >= border), light - (i < border), points,
                      weight + s->set->weight[f][i]))
        return TRUE;
      s->taken[f] &= ~BIT (i);
    }
  if (s->search->stopped)
    return FALSE;
  while (to > 1 && (s->set->earlier[f][i] >> (to - 2) & 1))
    to--;
  return to > 1 && take_parts (s, f, to - 1, heavy, light, points, weight);
}

static gboolean
take_family (Split *s, guint f, guint points, gint64 weight)
{
  guint step, n;

  if (f == s->set->k)
    return match_halves (s, weight);
  step = s->shares->points[f];
  n = s->shares->n_heavy[f];
  for (guint heavy = 0; heavy <= MIN (n, s->l); heavy++)
    {
      guint light = s->l - heavy, left = points - heavy * step;

      if (heavy * step > points || light > s->shares->n_light[f] || s->rest[f + 1][left] < 0)
        continue;
      if (!tg_matching_search_count (s->search))
        return FALSE;
      s->taken[f] = 0;
      if (take_parts (s, f, s->set->n, heavy, light, left, weight))
        return TRUE;
    }
  return FALSE;
}

/* rest[] for l assemblies. */
static void
sum_rest (Split *s, guint points)
{
  const TgMatchingShares *shares = s->shares;

  memset (s->rest, 0xff, sizeof s->rest);
  s->rest[s->set->k][0] = 0;
  for (guint f = s->set->k; f-- > 0;)
    for (guint heavy = 0; heavy <= MIN (shares->n_heavy[f], s->l); heavy++)
      for (guint h = 0;
           s->l - heavy <= shares->n_light[f] && h + heavy * shares->points[f] <= points; h++)
        if (s->rest[f + 1][h] >= 0)
          {
            gint64 *rest = &s->rest[f][h + heavy * shares->points[f]];

            *rest = MAX (*rest, s->rest[f + 1][h] + shares->heavy[f][heavy] +
                                    shares->light[f][s->l - heavy]);
          }
}

/* Which numbers of assemblies within the limit, with which points, the shares leave at the floor. */
static void
list_shares (const Split *s, guint limit, guint8 open[N + 1][MAX_POINTS + 1])
{
  const TgMatchingShares *shares = s->shares;
  guint all = tg_matching_all_points (shares);

  memset (open, 0, (N + 1) * (MAX_POINTS + 1));
  open[0][0] = TRUE;
  for (guint points = 0; points <= limit; points++)
    for (guint l = 0; l < s->set->n; l++)
      for (guint h = 0; h <= l * all; h++)
        if (open[l][h] && shares->most[l + 1][h + points] >= (l + 1) * s->goal->floor)
          open[l + 1][h + points] = TRUE;
}

/* The points of all parts leave so many for assemblies above the limit. */
static gboolean
rest_fits (const Split *s, guint limit, guint l, guint h)
{
  guint all = 0, others = s->set->n - l;

  for (guint f = 0; f < s->set->k; f++)
    all += s->shares->n_heavy[f] * s->shares->points[f];
  return h + others * (limit + 1) <= all && all <= h + others * tg_matching_all_points (s->shares);
}

/* What the group weighs at least: it reaches the floor, and leaves the rest no more than it may
 * lose. */
static gint64
need_of (const Split *s, guint l)
{
  guint n = s->set->n;
  gint64 left = s->set->sums.all_high_heavy[n] - s->goal->removal - (n - l) * top_of (s);

  return MAX (l * s->goal->floor, left);
}

/* The most that an assembly of the group may have above its need on average; -1: useless. */
static double
slack_of (const Split *s, guint limit, guint8 open[N + 1][MAX_POINTS + 1])
{
  double most = 0;

  for (guint l = 0; l <= s->set->n; l++)
    for (guint h = 0; h <= MAX_POINTS; h++)
      {
        gint64 slack;

        if (!open[l][h] || !rest_fits (s, limit, l, h))
          continue;
        if (l == 0 || l == s->set->n)
          return -1;
        slack = s->shares->most[l][h] - need_of (s, l);
        most = MAX (most, (double) slack / l);
      }
  return most;
}

static gboolean
choose_limit (Split *s)
{
  g_autofree guint8 *table = g_new (guint8, (N + 1) * (MAX_POINTS + 1));
  guint8 (*open)[MAX_POINTS + 1] = (guint8 (*)[MAX_POINTS + 1]) table;
  double least = -1;

  for (guint limit = 0; limit < tg_matching_all_points (s->shares); limit++)
    {
      double slack;

      list_shares (s, limit, open);
      slack = slack_of (s, limit, open);
      if (slack < 0 || (least >= 0 && slack >= least))
        continue;
      least = slack;
      s->limit = limit;
    }
  return least >= 0;
}

static gboolean
try_shares (Split *s)
{
  g_autofree guint8 *table = g_new (guint8, (N + 1) * (MAX_POINTS + 1));
  guint8 (*open)[MAX_POINTS + 1] = (guint8 (*)[MAX_POINTS + 1]) table;

  list_shares (s, s->limit, open);
  for (guint l = 1; l < s->set->n; l++)
    for (guint h = 0; h <= MAX_POINTS; h++)
      {
        if (!open[l][h] || !rest_fits (s, s->limit, l, h))
          continue;
        s->l = l;
        s->need = need_of (s, l);
        sum_rest (s, h);
        if (take_family (s, 0, h, 0))
          return TRUE;
        if (s->search->stopped)
          return FALSE;
      }
  return FALSE;
}

TgMatchingAnswer
tg_matching_split_decide (TgMatchingSearch *search,
                          const TgMatchingShares *shares,
                          const TgMatchingGoal *goal)
{
  g_autofree Split *s = g_new0 (Split, 1);
  const TgMatchingSet *set = search->set;

  *s = (Split){ .search = search, .set = set, .shares = shares, .goal = goal };
  for (guint f = 0; f < set->k; f++)
    {
      if (set->problem->families[f].n_parts > set->n)
        return TG_MATCHING_OPEN;
      for (guint i = 0; i < set->n; i++)
        s->sums[f][i + 1] = s->sums[f][i] + set->weight[f][i];
    }
  if (!choose_limit (s))
    return TG_MATCHING_OPEN;
  tg_matching_search_aim (search, goal);
  if (try_shares (s))
    return TG_MATCHING_YES;
  return search->stopped ? TG_MATCHING_OPEN : TG_MATCHING_NO;
}
