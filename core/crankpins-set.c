/* crankpins-set.c: the sets in the order of their weight, and what is alike among sets and pins
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "crankpins-private.h"

#include <string.h>

static int
compare_sets (gconstpointer a, gconstpointer b, gpointer data)
{
  const TgCrankpinsProblem *problem = data;
  guint i = *(const guint *) a, j = *(const guint *) b;
  TgMass x = problem->set[i].weight, y = problem->set[j].weight;

  return x != y ? (x > y) - (x < y) : (i > j) - (i < j);
}

void
tg_crankpins_set_prepare (TgCrankpinsSearch *s,
                          const TgCrankpinsProblem *problem,
                          const TgCrankpinsLimits *limits)
{
  memset (s, 0, sizeof *s);
  s->problem = problem;
  s->limits = limits;
  s->m = problem->n_pins;
  s->n = 2 * s->m;
  for (guint i = 0; i < s->n; i++)
    s->number[i] = i;
  g_qsort_with_data (s->number, (int) s->n, sizeof *s->number, compare_sets, (gpointer) problem);
  for (guint i = 0; i < s->n; i++)
    {
      const TgCrankpinsSet *set = &problem->set[s->number[i]];

      s->weight[i] = set->weight;
      FOR_EACH_BIT (b, set->bores & (BIT (s->n) - 1))
      s->fit[b] |= BIT (i);
      if (set->today >= 0)
        s->today[set->today] = BIT (i);
    }
}

void
tg_crankpins_set_clear (TgCrankpinsSearch *s)
{
  g_clear_pointer (&s->failed, g_free);
}

void
tg_crankpins_set_opposite (const TgCrankpinsSearch *s,
                           guint32 left,
                           TgMass *lightest,
                           TgMass *heaviest)
{
  *lightest = G_MAXINT64;
  *heaviest = 0;
  while (left != 0)
    {
      guint first = (guint) __builtin_ctz (left), last = 31 - (guint) __builtin_clz (left);
      TgMass sum = s->weight[first] + s->weight[last];

      *lightest = MIN (*lightest, sum);
      *heaviest = MAX (*heaviest, sum);
      left &= ~(BIT (first) | BIT (last));
    }
}

static guint32
bores_of (const TgCrankpinsSearch *s, guint i)
{
  guint32 bores = 0;

  for (guint b = 0; b < s->n; b++)
    if (s->fit[b] & BIT (i))
      bores |= BIT (b);
  return bores;
}

static void
find_twins (TgCrankpinsSearch *s)
{
  guint32 keepers = 0;

  for (guint b = 0; b < s->n; b++)
    keepers |= s->keep[b];
  for (guint i = 0; i < s->n; i++)
    {
      s->partners[i] = s->twins[i] = 0;
      for (guint j = 0; j < s->n; j++)
        {
          TgMass sum = s->weight[i] + s->weight[j];

          if (j != i && sum >= s->lo && sum <= s->hi)
            s->partners[i] |= BIT (j);
          if (j < i && s->weight[j] == s->weight[i] && !((keepers >> i | keepers >> j) & 1) &&
              bores_of (s, i) == bores_of (s, j))
            s->twins[i] |= BIT (j);
        }
    }
}

static void
find_alike (TgCrankpinsSearch *s)
{
  for (guint p = 0; p < s->m; p++)
    {
      const guint *a = s->problem->bore[p];

      s->alike[p] = 0;
      for (guint q = 0; q < p; q++)
        {
          const guint *b = s->problem->bore[q];
          guint turned = s->fit[a[0]] != s->fit[b[0]];

          if (s->fit[a[0]] == s->fit[b[turned]] && s->fit[a[1]] == s->fit[b[1 - turned]])
            s->alike[p] |= BIT (q);
        }
    }
}

void
tg_crankpins_set_compare (TgCrankpinsSearch *s)
{
  find_twins (s);
  find_alike (s);
}
