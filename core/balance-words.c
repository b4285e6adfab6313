/* balance-words.c: what the evenness is worth, in sentences for a builder, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>

#include "balance-private.h"
#include "number.h"

char *
tg_balance_number (double value)
{
  double size = fabs (value);

  /* the last digit that is shown is worth no more than a tenth */
  return tg_number_format (value, size >= 9.95 || size == 0 ? 0 : size >= 0.995 ? 1 : 2);
}

/* "4 N ± 6 N"; "" after it where nothing is known of how well it is known */
static char *
figure_words (double value, double expanded, const char *unit)
{
  g_autofree char *shown = tg_balance_number (value);
  g_autofree char *around = tg_balance_number (expanded);

  if (expanded <= 0)
    return g_strdup_printf ("%s %s", shown, unit);
  return g_strdup_printf ("%s %s ± %s %s", shown, unit, around, unit);
}

/* What two stages say of one figure: "differed by 31 N; now 4 N ± 6 N", or "differ by 4 N ± 6 N" where
 * the first is not known or the same. */
static char *
both_words (const char *was, const char *is, double before, double now, double expanded)
{
  g_autofree char *first = tg_balance_number (before);
  g_autofree char *second = tg_balance_number (now);
  g_autofree char *figure = figure_words (now, expanded, "N");

  if (before < 0 || g_str_equal (first, second))
    return g_strdup_printf ("%s %s", is, figure);
  return g_strdup_printf ("%s %s N; now %s", was, first, figure);
}

static char *
pair_words (const TgBalance *balance, gboolean reciprocating, const char *what, double speed_rpm)
{
  TgBalancePair now = tg_balance_worst_pair (balance, TG_BALANCE_NOW, reciprocating, speed_rpm);
  double before = -1;
  g_autofree char *rpm = tg_number_format (speed_rpm, 0);
  g_autofree char *figures = NULL;

  if (tg_balance_is_known (balance, TG_BALANCE_BEFORE))
    before = tg_balance_worst_pair (balance, TG_BALANCE_BEFORE, reciprocating, speed_rpm).force;
  figures = both_words ("differed by", "differs by", before, now.force, now.expanded);
  return g_strdup_printf ("At %s 1/min the worst pair of %s %s.", rpm, what, figures);
}

char *
tg_balance_words (const TgBalance *balance, double speed_rpm)
{
  GString *out = g_string_new (NULL);

  if (!tg_balance_is_known (balance, TG_BALANCE_NOW))
    g_string_append (out, balance->missing[0] ? balance->missing
                                              : balance->stages[TG_BALANCE_NOW].missing);
  else
    {
      g_autofree char *pistons = pair_words (balance, TRUE, "pistons", speed_rpm);
      g_autofree char *big_ends = pair_words (balance, FALSE, "big ends", speed_rpm);

      g_string_append_printf (out, "%s\n%s", pistons, big_ends);
    }
  return g_string_free (out, FALSE);
}
