/* matching-bound.c: what no pairing can do better, in closed form
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Subsets: j assemblies that hold the j lightest parts of a family weigh together at most these and
 * the j heaviest of every other family, so T ≤ that / j; with all parts, the mean.  The mirror of it
 * bounds the removal: the j heaviest with the j lightest of the others, less j (T + tolerance).
 *
 * Lattice: if only q parts are off their family's residue modulo g, n − q assemblies have one known
 * residue c, and each is above T by at least (c − T) mod g.
 *
 * Classes: each family is split into light and heavy at its widest gap.  H heavy parts in all: at
 * least l = m − ⌊H / (q + 1)⌋ assemblies hold no more than q of them, and together weigh at most
 * what l parts a family with no more than q l heavy ones can.
 *
 * With spares every bound takes the choice of parts that is best for it.  Rules about who may meet
 * whom and capacities do not enter: a bound that ignores them still holds.
 */
#include "matching-private.h"

#include <string.h>

#define MAX_MODULUS 60

static guint
count (guint64 mask)
{
  return (guint) __builtin_popcountll (mask);
}

/* The weights of a mask, rising. */
static guint
list_weights (const TgMatchingSet *set, guint f, guint64 mask, gint64 *weights)
{
  guint n = 0;

  for (; mask != 0; mask &= mask - 1)
    weights[n++] = set->weight[f][__builtin_ctzll (mask)];
  return n;
}

/* Sums of the first @m from @from on, or, @way -1, of the last @m before it. */
static void
add_up (const gint64 *from, int way, guint m, gint64 *sums)
{
  sums[0] = 0;
  for (guint j = 0; j < m; j++)
    sums[j + 1] = sums[j] + (way > 0 ? *from++ : *--from);
}

/* Without spares both choices are all that is left. */
static void
sum_family (const TgMatchingSet *set, guint f, guint64 left, TgMatchingSums *sums)
{
  gint64 weights[P];
  guint m = sums->m, n = list_weights (set, f, left, weights);

  add_up (weights, 1, m, sums->low_light[f]);
  if (n == m)
    {
      for (guint j = 0; j <= m; j++)
        sums->high_heavy[f][j] = sums->low_light[f][m] - sums->low_light[f][m - j];
      memcpy (sums->high_light[f], sums->low_light[f], (m + 1) * sizeof (gint64));
      memcpy (sums->low_heavy[f], sums->high_heavy[f], (m + 1) * sizeof (gint64));
      return;
    }
  add_up (weights + n - m, 1, m, sums->high_light[f]);
  add_up (weights + n, -1, m, sums->high_heavy[f]);
  add_up (weights + m, -1, m, sums->low_heavy[f]);
}

void
tg_matching_sums (const TgMatchingSet *set, const guint64 *left, guint m, TgMatchingSums *sums)
{
  sums->m = m;
  memset (sums->all_high_heavy, 0, (m + 1) * sizeof (gint64));
  memset (sums->all_low_light, 0, (m + 1) * sizeof (gint64));
  for (guint f = 0; f < set->k; f++)
    {
      sum_family (set, f, left[f], sums);
      for (guint j = 0; j <= m; j++)
        {
          sums->all_high_heavy[j] += sums->high_heavy[f][j];
          sums->all_low_light[j] += sums->low_light[f][j];
        }
    }
}

gboolean
tg_matching_bound_holds (
    const TgMatchingSums *sums, guint k, gint64 floor, gint64 top, gint64 removal)
{
  for (guint f = 0; f < k; f++)
    for (guint j = 1; j <= sums->m; j++)
      {
        gint64 most = sums->all_high_heavy[j] - sums->high_heavy[f][j] + sums->high_light[f][j];
        gint64 least = sums->all_low_light[j] - sums->low_light[f][j] + sums->low_heavy[f][j];

        if (most < (gint64) j * floor || least - (gint64) j * top > removal)
          return FALSE;
      }
  return TRUE;
}

/* By number: sums of the lightest, and of the heaviest of the @m lightest, by net weight. */
static void
sum_net (const TgMatchingSet *set, guint f, guint64 left, guint m, gint64 *light, gint64 *heavy)
{
  guint n = 0;

  light[0] = 0;
  for (guint i = 0; n < m; i++)
    {
      guint place = set->by_net[f][i];

      if (!(left >> place & 1))
        continue;
      light[n + 1] = light[n] + set->net[f][place];
      n++;
    }
  for (guint j = 0; j <= m; j++)
    heavy[j] = light[m] - light[m - j];
}

/* The least top that the parts left can be brought below. */
static gint64
least_top (const TgMatchingSet *set, const guint64 *left, guint m)
{
  gint64 light[K][N + 1], heavy[K][N + 1], top = G_MININT64;

  for (guint f = 0; f < set->k; f++)
    sum_net (set, f, left[f], m, light[f], heavy[f]);
  for (gint64 j = 1; j <= m; j++)
    {
      gint64 all = 0;

      for (guint f = 0; f < set->k; f++)
        all += light[f][j];
      for (guint f = 0; f < set->k; f++)
        {
          gint64 least = all - light[f][j] + heavy[f][j];

          top = MAX (top, least > 0 ? (least + j - 1) / j : least / j);
        }
    }
  return top;
}

gboolean
tg_matching_bound_net (const TgMatchingSet *set, const guint64 *left, guint m, gint64 top)
{
  return m == 0 || least_top (set, left, m) <= top;
}

gint64
tg_matching_bound_lowest (const TgMatchingSet *set)
{
  gint64 floor = 0;

  for (guint f = 0; f < set->k; f++)
    floor += set->weight[f][0];
  return MAX (floor, least_top (set, set->all, set->n) - set->tolerance);
}

/* The most that @l parts of each family weigh with @limit heavy ones; FALSE: there are too few light
 * ones. */
static gboolean
heaviest_with (gint64 light[K][N + 1],
               gint64 heavy[K][N + 1],
               const guint *n_light,
               const guint *n_heavy,
               guint k,
               guint l,
               guint limit,
               gint64 *sum)
{
  guint used[K], total = 0;

  *sum = 0;
  for (guint f = 0; f < k; f++)
    {
      used[f] = l > n_light[f] ? l - n_light[f] : 0;
      total += used[f];
      *sum += heavy[f][used[f]] + light[f][l - used[f]];
    }
  while (total < limit)
    {
      gint64 gain = 0;
      guint best = 0;

      for (guint f = 0; f < k; f++)
        if (used[f] < MIN (n_heavy[f], l))
          {
            gint64 more = heavy[f][used[f] + 1] - heavy[f][used[f]] - light[f][l - used[f]] +
                          light[f][l - used[f] - 1];

            if (more > gain)
              {
                gain = more;
                best = f;
              }
          }
      if (gain == 0)
        break;
      *sum += gain;
      used[best]++;
      total++;
    }
  return total <= limit;
}

gint64
tg_matching_bound_classes (const TgMatchingSet *set,
                           const guint64 *left,
                           guint m,
                           guint *assemblies)
{
  gint64 light[K][N + 1], heavy[K][N + 1], floor = G_MAXINT64;
  guint n_light[K], n_heavy[K], all_heavy = 0;

  for (guint f = 0; f < set->k; f++)
    {
      gint64 weights[P];
      guint n;

      n = list_weights (set, f, left[f] & ~set->heavy[f], weights);
      n_light[f] = MIN (n, m);
      add_up (weights + n, -1, n_light[f], light[f]);
      n = list_weights (set, f, left[f] & set->heavy[f], weights);
      n_heavy[f] = MIN (n, m);
      add_up (weights + n, -1, n_heavy[f], heavy[f]);
      all_heavy += n_heavy[f];
    }
  for (guint q = 0; q < set->k; q++)
    {
      guint l = m - MIN (m, all_heavy / (q + 1));
      gint64 sum;

      if (l == 0)
        continue;
      if (!heaviest_with (light, heavy, n_light, n_heavy, set->k, l, q * l, &sum))
        return -1;
      if (sum / (gint64) l >= floor)
        continue;
      floor = sum / (gint64) l;
      *assemblies = l;
    }
  return floor;
}

/* The residue that most of the family have, and how many have another. */
static gint64
common_residue (const TgMatchingSet *set, guint f, gint64 modulus, guint *others)
{
  guint n = count (set->all[f]), seen[MAX_MODULUS] = { 0 };
  gint64 best = 0;

  for (guint i = 0; i < n; i++)
    {
      gint64 residue = set->weight[f][i] % modulus;

      if (++seen[residue] > seen[best])
        best = residue;
    }
  *others += n - seen[best];
  return best;
}

/* FALSE: the sums that are alike modulo @modulus leave too little for the rest. */
static gboolean
lattice_holds (const TgMatchingSet *set, gint64 modulus, gint64 floor, gint64 all)
{
  gint64 residue = 0, above;
  guint others = 0;

  for (guint f = 0; f < set->k; f++)
    residue += common_residue (set, f, modulus, &others);
  if (others >= set->n)
    return TRUE;
  above = ((residue - floor) % modulus + modulus) % modulus;
  return (gint64) set->n * floor + (gint64) (set->n - others) * above <= all;
}

/* The largest multiple of the step at or below @floor. */
static gint64
round_down (const TgMatchingSet *set, gint64 floor)
{
  gint64 above;

  if (set->modulus == 0)
    return floor;
  above = ((floor - set->residue) % set->modulus + set->modulus) % set->modulus;
  return floor - above;
}

static gint64
subset_floor (const TgMatchingSet *set,
              const TgMatchingSums *sums,
              gint64 floor,
              TgMatchingResult *why)
{
  for (guint j = sums->m; j >= 1; j--)
    for (guint f = 0; f < set->k; f++)
      {
        gint64 most = sums->all_high_heavy[j] - sums->high_heavy[f][j] + sums->high_light[f][j];

        if (most / (gint64) j >= floor)
          continue;
        floor = most / (gint64) j;
        why->reason = j == set->n ? TG_MATCHING_BOUND_MEAN : TG_MATCHING_BOUND_SUBSET;
        why->family = f;
        why->count = j;
      }
  return floor;
}

/* The first modulus that rules the floor out, 0. */
static gint64
lattice_against (const TgMatchingSet *set, gint64 floor, gint64 all)
{
  if (round_down (set, floor) < floor)
    return set->modulus;
  for (gint64 modulus = 2; modulus <= MAX_MODULUS; modulus++)
    if (!lattice_holds (set, modulus, floor, all))
      return modulus;
  return 0;
}

gint64
tg_matching_bound_residue (const TgMatchingSet *set, gint64 floor, TgMatchingResult *why)
{
  gint64 modulus;

  while ((modulus = lattice_against (set, floor, set->sums.all_high_heavy[set->n])) != 0)
    {
      floor = MIN (floor - 1, round_down (set, floor - 1));
      why->reason = TG_MATCHING_BOUND_LATTICE;
      why->modulus = modulus;
    }
  return floor;
}

gint64
tg_matching_bound_floor (const TgMatchingSet *set,
                         const TgMatchingShares *shares,
                         TgMatchingResult *why)
{
  gint64 floor = subset_floor (set, &set->sums, G_MAXINT64 / K, why);

  floor = tg_matching_bound_residue (set, floor, why);
  if (shares != NULL && shares->floor < floor)
    {
      floor = shares->floor;
      why->reason = TG_MATCHING_BOUND_CLASSES;
      why->count = shares->count;
    }
  return tg_matching_bound_residue (set, floor, why);
}

gint64
tg_matching_bound_total (const TgMatchingSet *set, gint64 floor, TgMatchingResult *why)
{
  const TgMatchingSums *sums = &set->sums;
  gint64 top = floor + set->tolerance, total;

  total = sums->all_low_light[set->n] - (gint64) set->n * top;
  for (guint j = 1; j < set->n; j++)
    for (guint f = 0; f < set->k; f++)
      {
        gint64 least = sums->all_low_light[j] - sums->low_light[f][j] + sums->low_heavy[f][j];

        if (least - (gint64) j * top <= MAX (total, 0))
          continue;
        total = least - (gint64) j * top;
        why->reason = TG_MATCHING_BOUND_OVERSET;
        why->family = f;
        why->count = j;
      }
  if (total > 0)
    return total;
  why->reason = TG_MATCHING_BOUND_NOTHING;
  return 0;
}
