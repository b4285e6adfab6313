/* balance-words.c: what the evenness is worth, in sentences for a builder, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One sentence for each thing that the parts' differences do: what was, what is, and what the plan
 * will make of it.  A stage that is not known, or that shows the same figure, is left out.
 */
#include <math.h>

#include "balance-private.h"
#include "number.h"

static guint
decimals_of (double value, double expanded)
{
  double counts = expanded > 0 ? expanded * 3 : value;

  return counts >= 9.95 || counts <= 0 ? 0 : counts >= 0.995 ? 1 : 2;
}

char *
tg_balance_number (double value, double expanded)
{
  return tg_number_format (value, decimals_of (fabs (value), expanded));
}

char *
tg_balance_plus_minus (double value, double expanded, const char *unit)
{
  guint decimals = decimals_of (fabs (value), expanded);
  double step = pow (10, -(double) decimals);
  g_autofree char *shown = tg_number_format (value, decimals);
  g_autofree char *around = tg_number_format (ceil (expanded / step - 1e-3) * step, decimals);

  if (expanded <= 0)
    return g_strdup_printf ("%s %s", shown, unit);
  return g_strdup_printf ("%s %s ± %s %s", shown, unit, around, unit);
}

/* -- before, now, then --------------------------------------------------------------------------- */

/* One thing at the three stages; what is not known is below 0. */
typedef struct
{
  const char *unit;
  double value[TG_BALANCE_N_STAGES];
  double expanded; /* of now */
} Course;

static char *
shown_at (const Course *course, TgBalanceStage stage)
{
  return course->value[stage] < 0 ? NULL
                                  : tg_balance_number (course->value[stage], course->expanded);
}

/* "differed by 31 N; now 4 N ± 6 N; 2 N when the plan has been carried out", "differs by 4 N ± 6 N" */
static char *
course_words (const Course *course, const char *was, const char *is)
{
  g_autofree char *before = shown_at (course, TG_BALANCE_BEFORE);
  g_autofree char *now = shown_at (course, TG_BALANCE_NOW);
  g_autofree char *then = shown_at (course, TG_BALANCE_THEN);
  g_autofree char *figure = tg_balance_plus_minus (course->value[TG_BALANCE_NOW], course->expanded,
                                                   course->unit);
  GString *out = g_string_new (NULL);

  if (before && !g_str_equal (before, now))
    g_string_append_printf (out, "%s %s %s; now %s", was, before, course->unit, figure);
  else
    g_string_append_printf (out, "%s %s", is, figure);
  if (then && !g_str_equal (then, now))
    g_string_append_printf (out, "; %s %s when the plan has been carried out", then, course->unit);
  return g_string_free (out, FALSE);
}

/* -- sentences ----------------------------------------------------------------------------------- */

static void
add_pair (GString *out, const TgBalance *balance, gboolean reciprocating, double speed_rpm)
{
  const char *what = !reciprocating                     ? "big ends"
                     : balance->weighed[TG_PART_PISTON] ? "pistons"
                                                        : "small ends";
  Course course = { .unit = "N" };
  TgBalancePair now = tg_balance_worst_pair (balance, TG_BALANCE_NOW, reciprocating, speed_rpm);
  g_autofree char *rpm = tg_number_format (speed_rpm, 0);
  g_autofree char *words = NULL;

  if (balance->layout.n < 2 || (!reciprocating && !balance->weighed[TG_PART_ROD]))
    return;
  course.expanded = now.expanded;
  for (guint s = 0; s < TG_BALANCE_N_STAGES; s++)
    course.value[s] = tg_balance_is_known (balance, s)
                          ? tg_balance_worst_pair (balance, s, reciprocating, speed_rpm).force
                          : -1;
  words = course_words (&course, "differed by", "differs by");
  g_string_append_printf (out, "%sAt %s 1/min the worst pair of %s %s", out->len ? "\n" : "", rpm,
                          what, words);
  if (now.difference_g > 0)
    g_string_append_printf (out, " (bores %u and %u)", MIN (now.a, now.b), MAX (now.a, now.b));
  g_string_append_c (out, '.');
}

static Course
peak_course (const TgBalance *balance, TgBalanceLoad load, double speed_rpm)
{
  Course course = { .unit = load == TG_BALANCE_FORCE ? "N" : "N·m" };

  for (guint s = 0; s < TG_BALANCE_N_STAGES; s++)
    {
      TgBalanceFigure peak;

      course.value[s] = -1;
      if (!tg_balance_is_known (balance, s))
        continue;
      peak = tg_balance_peak (balance, s, TG_BALANCE_SPREAD, load, speed_rpm);
      course.value[s] = peak.largest;
      if (s == TG_BALANCE_NOW)
        course.expanded = peak.expanded;
    }
  return course;
}

/* The layout's own, and what the differences add to it. */
static void
add_load (GString *out, const TgBalance *balance, TgBalanceLoad load, double speed_rpm)
{
  gboolean force = load == TG_BALANCE_FORCE;
  const Course course = peak_course (balance, load, speed_rpm);
  double own = tg_balance_peak (balance, TG_BALANCE_NOW, TG_BALANCE_OWN, load, speed_rpm).largest;
  g_autofree char *shown = tg_balance_plus_minus (own, 0, course.unit);
  g_autofree char *words = course_words (&course, "was up to", "is up to");

  if (force && own < TG_BALANCE_OWN_SHARE * tg_balance_force_of_one (balance, speed_rpm))
    g_string_append (out, "\nThe layout has next to no shaking force of its own.");
  else if (own > 0)
    g_string_append_printf (out,
                            "\nThe layout itself %s the engine with up to %s, however even the "
                            "parts are.",
                            force ? "shakes" : "rocks", shown);
  if (balance->layout.n > 1)
    g_string_append_printf (out, "\nThe %s that the parts’ differences add %s.",
                            force ? "force" : "couple", words);
}

static void
add_pins (GString *out, const TgBalance *balance)
{
  Course course = { .unit = "g·mm" };
  g_autofree char *words = NULL;

  if (balance->layout.n_pins < 2)
    return;
  for (guint s = 0; s < TG_BALANCE_N_STAGES; s++)
    {
      TgBalanceResultant left = { -1, 0 };

      if (tg_balance_is_known (balance, s))
        left = tg_balance_resultant (balance, s);
      course.value[s] = left.g_mm;
      if (s == TG_BALANCE_NOW)
        course.expanded = left.expanded;
    }
  words = course_words (&course, "was", "is");
  g_string_append_printf (out, "\nThe unbalance that they leave on the crankshaft %s.", words);
}

char *
tg_balance_words (const TgBalance *balance, double speed_rpm)
{
  GString *out = g_string_new (NULL);

  g_return_val_if_fail (balance && speed_rpm > 0, g_string_free (out, FALSE));

  if (!tg_balance_is_known (balance, TG_BALANCE_NOW))
    {
      g_string_append (out, balance->missing[0] ? balance->missing
                                                : balance->stages[TG_BALANCE_NOW].missing);
      return g_string_free (out, FALSE);
    }
  add_pair (out, balance, TRUE, speed_rpm);
  add_pair (out, balance, FALSE, speed_rpm);
  add_load (out, balance, TG_BALANCE_FORCE, speed_rpm);
  if (balance->has_couples)
    add_load (out, balance, TG_BALANCE_COUPLE, speed_rpm);
  add_pins (out, balance);
  if (out->len > 0 && out->str[0] == '\n')
    g_string_erase (out, 0, 1);
  return g_string_free (out, FALSE);
}
