/* report-prove.c: what the weights do to the engine, see report-prove.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "report-prove.h"

#include "csv.h"
#include "number.h"

static const char *const stage_words[TG_BALANCE_N_STAGES] = { "before", "now", "then" };
static const char *const share_words[TG_BALANCE_N_SHARES] = { "own", "differences", "whole" };
static const char *const load_words[TG_BALANCE_N_LOADS] = { "force", "couple" };
static const char *const load_units[TG_BALANCE_N_LOADS] = { "N", "N·m" };

static gboolean
has_forces (const TgReportProve *report, TgBalanceStage stage)
{
  return report->speed_rpm > 0 && tg_balance_is_known (report->balance, stage);
}

static guint
n_loads (const TgReportProve *report)
{
  return report->balance->has_couples ? 2 : 1;
}

/* -- words --------------------------------------------------------------------------------------- */

static void
add_line (GString *out, const char *text)
{
  g_string_append_printf (out, "%s\n", text);
}

static void
add_engine (GString *out, const TgReportProve *report)
{
  const TgBalance *balance = report->balance;
  g_autofree char *stroke = tg_number_format_short (2 * balance->crank.radius_mm);
  g_autofree char *rod = tg_number_format_short (balance->crank.rod_mm);
  g_autofree char *rpm = tg_number_format (report->speed_rpm, 0);

  if (balance->has_layout)
    g_string_append_printf (out, "Engine: %s, %u cylinder%s", tg_engine_kind_label (balance->kind),
                            balance->layout.n, balance->layout.n == 1 ? "" : "s");
  if (balance->has_layout && balance->has_crank)
    g_string_append_printf (out, ", stroke %s mm, rod %s mm", stroke, rod);
  if (balance->has_layout && report->speed_rpm > 0)
    g_string_append_printf (out, ", at %s 1/min", rpm);
  if (balance->has_layout)
    add_line (out, ".");
  if (balance->missing[0])
    add_line (out, balance->missing);
  else if (report->speed_rpm <= 0)
    add_line (out, "The highest speed has not been said.");
  if (balance->has_layout && !balance->evenly)
    add_line (out, "This layout cannot fire at equal intervals.");
  else if (balance->has_layout && !balance->order_fits)
    add_line (out, "The firing order does not go with this layout.");
}

static void
add_masses (GString *out, const TgReportProve *report)
{
  const TgBalanceMasses *now = &report->balance->stages[TG_BALANCE_NOW];

  if (!now->known)
    {
      add_line (out, now->missing);
      return;
    }
  add_line (out, "Masses");
  for (guint i = 0; i < report->review->setup->cylinders; i++)
    {
      g_autofree char *up = tg_review_grams (report->review,
                                             1000 * now->masses.reciprocating_kg[i]);
      g_autofree char *round = tg_review_grams (report->review, 1000 * now->masses.rotating_kg[i]);

      g_string_append_printf (out, "  Bore %u: %s g up and down, %s g turning\n", i + 1, up, round);
    }
}

static TgBalanceFigure
figure_of (const TgReportProve *report, TgBalanceStage s, TgBalanceShare share, guint load, guint o)
{
  return o == TG_DYNAMICS_N_ORDERS
             ? tg_balance_peak (report->balance, s, share, load, report->speed_rpm)
             : tg_balance_figure (report->balance, s, share, load, o, report->speed_rpm);
}

static void
add_load (GString *out, const TgReportProve *report, guint load, guint o)
{
  TgBalanceFigure own = figure_of (report, TG_BALANCE_NOW, TG_BALANCE_OWN, load, o);
  TgBalanceFigure now = figure_of (report, TG_BALANCE_NOW, TG_BALANCE_SPREAD, load, o);
  g_autofree char *of_layout = tg_balance_plus_minus (own.largest, 0, load_units[load]);
  g_autofree char *adds = tg_balance_plus_minus (now.largest, now.expanded, load_units[load]);

  if (o == TG_DYNAMICS_N_ORDERS)
    g_string_append (out, "  all orders: ");
  else
    g_string_append_printf (out, "  order %u: ", tg_dynamics_order_number (o));
  g_string_append_printf (out, "the layout %s, the differences %s", of_layout, adds);
  if (has_forces (report, TG_BALANCE_BEFORE))
    {
      TgBalanceFigure was = figure_of (report, TG_BALANCE_BEFORE, TG_BALANCE_SPREAD, load, o);
      g_autofree char *before = tg_balance_number (was.largest, now.expanded);

      g_string_append_printf (out, " (before %s %s)", before, load_units[load]);
    }
  g_string_append_c (out, '\n');
}

static void
add_loads (GString *out, const TgReportProve *report)
{
  for (guint load = 0; load < n_loads (report); load++)
    {
      add_line (out, load == TG_BALANCE_FORCE ? "Shaking forces" : "Rocking couples");
      for (guint o = 0; o <= TG_DYNAMICS_N_ORDERS; o++)
        add_load (out, report, load, o);
    }
}

static void
add_unbalance (GString *out, const TgReportProve *report)
{
  TgBalanceUnbalance left;
  g_autofree char *whole = NULL;

  if (!tg_balance_unbalance (report->balance, report->review->setup, TG_BALANCE_NOW, &left))
    return;
  add_line (out, "Unbalance that the differences leave");
  for (guint p = 0; p < left.n_pins; p++)
    {
      g_autofree char *pin = tg_balance_plus_minus (left.pins[p].g_mm, left.pins[p].expanded,
                                                    "g·mm");

      g_string_append_printf (out, "  Crankpin %u: %s\n", p + 1, pin);
    }
  whole = tg_balance_plus_minus (left.resultant_g_mm, left.resultant_expanded, "g·mm");
  g_string_append_printf (out, "  All together: %s\n", whole);
  for (guint p = 0; p < 2 && left.has_planes; p++)
    {
      g_autofree char *plane = tg_balance_plus_minus (left.planes_g_mm[p], left.planes_expanded[p],
                                                      "g·mm");

      g_string_append_printf (out, "  %s plane: %s\n", p == 0 ? "First" : "Second", plane);
    }
  if (left.permissible_g_mm > 0)
    {
      g_autofree char *grade = tg_number_format_short (report->review->setup->engine.grade);
      g_autofree char *keeps = tg_number_format (left.grade, 2);
      g_autofree char *room = tg_balance_plus_minus (left.permissible_g_mm, 0, "g·mm");

      g_string_append_printf (out,
                              "  G %s leaves room for %s (ISO 21940-11); the differences alone "
                              "take G %s\n",
                              grade, room, keeps);
    }
}

static void
add_pin (GString *out, const TgReportProve *report, guint p)
{
  const TgBobweight *bobweight = report->bobweight;
  const TgBobweightPin *pin = &bobweight->pins[p];
  guint decimals = tg_bobweight_decimals (report->review);
  g_autofree char *sum = tg_number_format (pin->bobweight_g, decimals);
  g_autofree char *around = tg_review_plus_minus (report->review, pin->expanded_g);
  g_autofree char *up = tg_number_format (pin->reciprocating_g, decimals);
  g_autofree char *round = tg_number_format (pin->rotating_g, decimals);

  g_string_append_printf (out, "  Crankpin %u, bore%s", p + 1, pin->n_rods == 1 ? "" : "s");
  for (guint i = 0; i < pin->n_rods; i++)
    g_string_append_printf (out, "%s %u", i ? " and" : "", pin->bores[i]);
  g_string_append_printf (out, ": %s g turning, %s g up and down, bobweight %s g %s g\n", round, up,
                          sum, around);
  for (guint t = 0; t < TG_N_BOBWEIGHT_TERMS; t++)
    {
      g_autofree char *term = tg_number_format (pin->terms_g[t], decimals);

      if (bobweight->weighed[t])
        g_string_append_printf (out, "    %s: %s g\n", tg_bobweight_term_label (t), term);
    }
}

static void
add_bobweights (GString *out, const TgReportProve *report)
{
  const TgBobweight *bobweight = report->bobweight;
  g_autofree char *factor = tg_number_format_short (100 * bobweight->factor);
  g_autofree char *words = NULL;

  if (bobweight->ground[0])
    g_string_append_printf (out, "Bobweights, with %s %% of what goes up and down\n  %s\n", factor,
                            bobweight->ground);
  if (!bobweight->known)
    return;
  for (guint p = 0; p < bobweight->n_pins; p++)
    add_pin (out, report, p);
  words = tg_bobweight_words (bobweight, report->review);
  g_string_append_printf (out, "  %s\n", words);
}

char *
tg_report_prove (const TgReportProve *report)
{
  GString *out = g_string_new (NULL);

  add_engine (out, report);
  add_masses (out, report);
  if (has_forces (report, TG_BALANCE_NOW))
    {
      g_autofree char *words = tg_balance_words (report->balance, report->speed_rpm);
      g_autoptr (TgBalanceEnough)
          enough = tg_balance_enough (report->balance, report->review, report->speed_rpm);

      add_loads (out, report);
      add_line (out, "What that means");
      add_line (out, words);
      add_unbalance (out, report);
      add_line (out, "How even is enough");
      add_line (out, enough->words);
    }
  add_bobweights (out, report);
  add_line (out, "The maker’s manual comes first: where it says otherwise, follow it.");
  return g_string_free (out, FALSE);
}

/* -- CSV ----------------------------------------------------------------------------------------- */

#define HEADER "row,stage,what,share,order,number,value,expanded,unit\r\n"

/* A line; texts that do not apply are "", a number of 0 is left blank. */
typedef struct
{
  const char *row, *stage, *what, *share, *order;
  guint number;
  double value, expanded;
  const char *unit;
} Line;

static void
csv_line (GString *out, const Line *line)
{
  const char *const texts[] = { line->row, line->stage, line->what, line->share, line->order };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    tg_csv_add_field (out, texts[i] ? texts[i] : "");
  if (line->number > 0)
    tg_csv_add_count (out, line->number);
  else
    tg_csv_add_blank (out, 1);
  tg_csv_add_number (out, line->value, 6);
  tg_csv_add_number (out, line->expanded, 6);
  tg_csv_add_field (out, line->unit);
  tg_csv_end_row (out);
}

static void
csv_masses (GString *out, const TgReportProve *report, TgBalanceStage s)
{
  const TgBalanceMasses *of = &report->balance->stages[s];
  double k = tg_uncertainty_coverage (of->freedom, TG_REVIEW_LEVEL);

  for (guint i = 0; i < report->review->setup->cylinders; i++)
    {
      const Line up = { "mass",
                        stage_words[s],
                        "reciprocating",
                        NULL,
                        NULL,
                        i + 1,
                        1000 * of->masses.reciprocating_kg[i],
                        1000 * k * of->u.reciprocating_kg[i],
                        "g" };
      const Line round = { "mass",
                           stage_words[s],
                           "rotating",
                           NULL,
                           NULL,
                           i + 1,
                           1000 * of->masses.rotating_kg[i],
                           1000 * k * of->u.rotating_kg[i],
                           "g" };

      csv_line (out, &up);
      csv_line (out, &round);
    }
}

static void
csv_loads (GString *out, const TgReportProve *report, TgBalanceStage s)
{
  static const char *const orders[] = { "1", "2", "4", "6", "all" };

  for (guint load = 0; load < n_loads (report); load++)
    for (guint share = 0; share < TG_BALANCE_N_SHARES; share++)
      for (guint o = 0; o <= TG_DYNAMICS_N_ORDERS; o++)
        {
          TgBalanceFigure figure = figure_of (report, s, share, load, o);
          const Line line = {
            "load", stage_words[s], load_words[load], share_words[share], orders[o],
            0,      figure.largest, figure.expanded,  load_units[load]
          };

          csv_line (out, &line);
        }
}

static void
csv_pairs (GString *out, const TgReportProve *report, TgBalanceStage s)
{
  for (guint turning = 0; turning < 2 && report->balance->layout.n > 1; turning++)
    {
      TgBalancePair pair = tg_balance_worst_pair (report->balance, s, !turning, report->speed_rpm);
      const Line line = { "pair",     stage_words[s], turning ? "rotating" : "reciprocating",
                          NULL,       NULL,           0,
                          pair.force, pair.expanded,  "N" };

      csv_line (out, &line);
    }
}

static void
csv_unbalance (GString *out, const TgReportProve *report, TgBalanceStage s)
{
  TgBalanceUnbalance left;
  Line line = { .row = "unbalance", .stage = stage_words[s], .unit = "g·mm" };

  if (!tg_balance_unbalance (report->balance, report->review->setup, s, &left))
    return;
  line.what = "crankpin";
  for (guint p = 0; p < left.n_pins; p++)
    {
      line.number = p + 1;
      line.value = left.pins[p].g_mm;
      line.expanded = left.pins[p].expanded;
      csv_line (out, &line);
    }
  line.what = "plane";
  for (guint p = 0; p < 2 && left.has_planes; p++)
    {
      line.number = p + 1;
      line.value = left.planes_g_mm[p];
      line.expanded = left.planes_expanded[p];
      csv_line (out, &line);
    }
  line.number = 0;
  line.what = "resultant";
  line.value = left.resultant_g_mm;
  line.expanded = left.resultant_expanded;
  csv_line (out, &line);
  line.what = "permissible";
  line.value = left.permissible_g_mm;
  line.expanded = 0;
  if (left.permissible_g_mm > 0)
    csv_line (out, &line);
  line.what = "grade";
  line.value = left.grade;
  line.unit = "mm/s";
  if (left.permissible_g_mm > 0)
    csv_line (out, &line);
}

static void
csv_enough (GString *out, const TgReportProve *report)
{
  g_autoptr (TgBalanceEnough)
      enough = tg_balance_enough (report->balance, report->review, report->speed_rpm);

  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      const char *label = tg_setup_band_label (report->review->setup, b);
      const Line load = { "enough", "now", label, "load", NULL, 0, enough->tolerance_g[b], 0, "g" };
      const Line grade = { "enough", "now", label, "grade", NULL, 0, enough->grade_tolerance_g[b],
                           0,        "g" };

      if (enough->tolerance_g[b] > 0)
        csv_line (out, &load);
      if (enough->grade_tolerance_g[b] > 0)
        csv_line (out, &grade);
    }
}

static void
csv_bobweights (GString *out, const TgReportProve *report)
{
  const TgBobweight *bobweight = report->bobweight;

  for (guint p = 0; p < bobweight->n_pins && bobweight->known; p++)
    {
      const TgBobweightPin *pin = &bobweight->pins[p];
      const Line sum = { "bobweight",      "now",           "bobweight", NULL, NULL, p + 1,
                         pin->bobweight_g, pin->expanded_g, "g" };

      for (guint t = 0; t < TG_N_BOBWEIGHT_TERMS; t++)
        {
          const Line term = {
            "bobweight", "now", tg_bobweight_term_label (t), NULL, NULL, p + 1, pin->terms_g[t],
            0,           "g"
          };

          if (bobweight->weighed[t])
            csv_line (out, &term);
        }
      csv_line (out, &sum);
    }
}

char *
tg_report_prove_csv (const TgReportProve *report)
{
  GString *out = g_string_new (HEADER);

  for (guint s = 0; s < TG_BALANCE_N_STAGES; s++)
    {
      if (report->balance->stages[s].known)
        csv_masses (out, report, s);
      if (!has_forces (report, s))
        continue;
      csv_loads (out, report, s);
      csv_pairs (out, report, s);
      csv_unbalance (out, report, s);
    }
  if (has_forces (report, TG_BALANCE_NOW))
    csv_enough (out, report);
  csv_bobweights (out, report);
  return g_string_free (out, FALSE);
}
