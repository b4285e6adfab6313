/* test-report.c: the review in words and as CSV
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The CSV is read back with GLib's own number reader and compared with the review, figure by figure;
 * its form is that of RFC 4180.  All data are invented.
 */
#include <math.h>
#include <string.h>

#include "fixture.h"
#include "report.h"

static TgJob *
half_way_job (void)
{
  TgJob *job = tg_job_new (fixture_setup (3, TRUE, TRUE));

  for (guint i = 1; i <= 3; i++)
    {
      fixture_weigh_rod (job, i, 171 + 0.7 * i, 412 + 0.4 * i);
      fixture_weigh_piston (job, i, 520 + 0.9 * i);
    }
  fixture_target (job, TG_BAND_ROD_SMALL, 171.7);
  fixture_target (job, TG_BAND_ROD_BIG, 412.4);
  fixture_pass (job, "rod-2", "small-pad", 0.4);
  return job;
}

/* Fields of one line of RFC 4180 without line breaks inside fields. */
static GPtrArray *
split (const char *line)
{
  GPtrArray *fields = g_ptr_array_new_with_free_func (g_free);
  GString *field = g_string_new (NULL);
  gboolean quoted = FALSE;

  for (const char *p = line; *p; p++)
    {
      if (quoted && p[0] == '"' && p[1] == '"')
        g_string_append_c (field, *p++);
      else if (*p == '"')
        quoted = !quoted;
      else if (*p == ',' && !quoted)
        {
          g_ptr_array_add (fields, g_strdup (field->str));
          g_string_truncate (field, 0);
        }
      else
        g_string_append_c (field, *p);
    }
  g_assert_false (quoted);
  g_ptr_array_add (fields, g_string_free (field, FALSE));
  return fields;
}

/* All lines of @csv, header first; every line has as many fields as the header. */
static GPtrArray *
read_csv (const char *csv)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref);
  g_auto (GStrv) lines = g_strsplit (csv, "\r\n", -1);

  g_assert_true (g_str_has_suffix (csv, "\r\n"));
  for (guint i = 0; lines[i] && lines[i][0]; i++)
    {
      g_assert_null (strpbrk (lines[i], "\r\n"));
      g_ptr_array_add (rows, split (lines[i]));
      g_assert_cmpuint (((GPtrArray *) g_ptr_array_index (rows, i))->len, ==,
                        ((GPtrArray *) g_ptr_array_index (rows, 0))->len);
    }
  return rows;
}

static const char *
field (const GPtrArray *rows, guint row, const char *column)
{
  GPtrArray *header = g_ptr_array_index (rows, 0);

  for (guint i = 0; i < header->len; i++)
    if (strcmp (g_ptr_array_index (header, i), column) == 0)
      return g_ptr_array_index ((GPtrArray *) g_ptr_array_index (rows, row), i);
  g_error ("no column %s", column);
  return NULL;
}

/* Row whose first columns are these; must be exactly one. */
static guint
find_row (const GPtrArray *rows, const char *row, const char *name, const char *figure)
{
  guint found = 0;

  for (guint i = 1; i < rows->len; i++)
    if (strcmp (field (rows, i, "row"), row) == 0 && strcmp (field (rows, i, "name"), name) == 0 &&
        strcmp (field (rows, i, "figure"), figure) == 0)
      {
        g_assert_cmpuint (found, ==, 0);
        found = i;
      }
  g_assert_cmpuint (found, >, 0);
  return found;
}

static void
same (const GPtrArray *rows, guint row, const char *column, double value)
{
  const char *text = field (rows, row, column);
  char *end = NULL;

  g_assert_cmpfloat_with_epsilon (g_ascii_strtod (text, &end), value, 0.00051);
  g_assert_true (end != text && *end == '\0');
}

static void
check_part (const GPtrArray *rows, const TgReview *review, const TgPartReview *part)
{
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      int plan_row = tg_part_review_row (part, f);
      guint row;

      if (plan_row < 0)
        continue;
      row = find_row (rows, "part", part->part->name, tg_figure_to_word (f));
      same (rows, row, "weight_g", part->weight[f].mean_g);
      same (rows, row, "grams_g", part->to_come_off_g);
      same (rows, row, "after_g", part->plan.after_g[plan_row]);
      same (rows, row, "u_g", part->weight[f].u_g);
      same (rows, row, "expanded_g", part->weight[f].expanded_g);
      g_assert_cmpstr (field (rows, row, "verdict"), ==,
                       tg_weight_verdict_label (&part->weight[f]));
      if (part->weight[f].judged)
        same (rows, row, "probability", part->weight[f].probability);
      else
        g_assert_cmpstr (field (rows, row, "probability"), ==, "");
      g_assert_cmpstr (field (rows, row, "state"), ==, tg_state_label (part->state));
    }
  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);
      guint row;

      if (!tg_zone_usable (zone->zone))
        continue;
      row = find_row (rows, "zone", part->part->name, zone->zone->id);
      same (rows, row, "grams_g", zone->amount_g);
      same (rows, row, "depth_mm", zone->depth_mm);
      same (rows, row, "at_most_g", zone->at_most_g);
    }
  g_assert_nonnull (review);
}

static void
test_csv (void)
{
  g_autoptr (TgJob) job = half_way_job ();
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autofree char *csv = tg_report_plan_csv (review);
  g_autoptr (GPtrArray) rows = read_csv (csv);

  for (guint i = 0; i < review->parts->len; i++)
    check_part (rows, review, tg_review_part (review, i));
  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      guint row;

      if (!review->bands[b].present)
        continue;
      row = find_row (rows, "band", tg_band_to_word (b), tg_figure_to_word (tg_band_figure (b)));

      same (rows, row, "target_g", review->bands[b].target_g);
      same (rows, row, "tolerance_g", review->bands[b].tolerance_g);
      same (rows, row, "spread_g", review->bands[b].spread_g);
      same (rows, row, "inside", review->bands[b].n_in);
      g_assert_cmpstr (field (rows, row, "decided"), ==, review->bands[b].decided ? "yes" : "no");
    }
  same (rows, find_row (rows, "set", "rod", ""), "grams_g", review->least_metal_g[TG_PART_ROD]);
}

/* Names with commas and quotation marks stay one field; one that a spreadsheet would calculate is
 * turned into text. */
static void
test_csv_names (void)
{
  TgSetup *setup = fixture_setup (2, FALSE, TRUE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL;
  g_autofree char *csv = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  g_free (tg_setup_part (setup, 0)->name);
  tg_setup_part (setup, 0)->name = g_strdup ("Piston, the \"old\" one");
  g_free (tg_setup_part (setup, 1)->name);
  tg_setup_part (setup, 1)->name = g_strdup ("=SUM(A1)");
  job = tg_job_new (setup);
  fixture_weigh_piston (job, 1, 520);
  fixture_weigh_piston (job, 2, 521);
  review = tg_review_new (job);
  csv = tg_report_plan_csv (review);
  rows = read_csv (csv);
  find_row (rows, "part", "Piston, the \"old\" one", "whole");
  find_row (rows, "part", "'=SUM(A1)", "whole");
}

static void
test_plan (void)
{
  g_autoptr (TgJob) job = half_way_job ();
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autofree char *plan = tg_report_plan (review);
  g_autofree char *check = tg_report_check (review);

  for (guint i = 0; i < review->parts->len; i++)
    g_assert_nonnull (strstr (plan, tg_review_part (review, i)->part->name));
  g_assert_nonnull (strstr (plan, review->standing));
  g_assert_nonnull (strstr (check, review->next->title));
  g_assert_true (g_utf8_validate (plan, -1, NULL));
}

/* Text and table say of a set whether it is proven, in the same words as the review. */
static void
test_proof (void)
{
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (TgJob) job = tg_job_new (fixture_setup (3, TRUE, FALSE));
      g_autoptr (TgReview) review = NULL;
      g_autoptr (GPtrArray) rows = NULL;
      g_autoptr (TgProof) proof = NULL;
      g_autofree char *check = NULL;
      g_autofree char *plan = NULL;
      g_autofree char *csv = NULL;
      const char *word = i == 0 ? "even, proven" : "even, not proven";
      guint row;

      for (guint rod = 1; rod <= 3; rod++)
        fixture_weigh_rod (job, rod, 171 + (rod == 2) * (i == 0 ? 0.1 : 0.45), 412);
      review = tg_review_new (job);
      g_assert_true (review->done);
      check = tg_report_check (review);
      plan = tg_report_plan (review);
      csv = tg_report_plan_csv (review);
      rows = read_csv (csv);
      proof = tg_review_proof (review, TG_BAND_ROD_SMALL);
      g_assert_cmpint (proof->spread.verdict == TG_UNCERTAINTY_IN, ==, i == 0);
      g_assert_nonnull (strstr (check, proof->text));
      g_assert_nonnull (strstr (plan, proof->text));
      g_assert_nonnull (strstr (check, word));
      g_assert_nonnull (strstr (plan, word));
      g_assert_nonnull (strstr (plan, " g ± 0."));
      row = find_row (rows, "band", "rod-small", "small-end");
      g_assert_cmpstr (field (rows, row, "verdict"), ==, i == 0 ? "proven" : "not proven");
      same (rows, row, "probability", proof->spread.probability);
      g_assert_cmpstr (field (rows, find_row (rows, "band", "rod-big", "big-end"), "verdict"), ==,
                       "proven");
    }
}

/* What was said of the job reads as a person would say it, whatever the word for it in files. */
static void
test_set_events (void)
{
  static const char *const cases[][3] = {
    { "tolerance.rod-small", "0.8", "Tolerance of the small ends: 0.8 g" },
    { "sum.rod", "only", "Small ends in the sum with their pistons: yes, and only there" },
    { "crankpins", "banks", "Rods on a crankpin: those at one place of both banks share one" },
    { "engine.kind", "v8-cross", "Layout of the engine: V8, cross-plane" },
    { "engine.kind", "by-layout", "Layout of the engine: by the layout" },
    { "engine.factor", "by-layout", "Balance factor: by the layout" },
    { "engine.stroke", "88", "Stroke: 88 mm" },
    { "engine.stroke", "0", "Stroke: not said" },
    { "engine.oil", "0", "Oil on each crankpin: 0 g" },
    { "rod.cap-pad.use", "no", "Rod, old, with pads: cap pad: May be ground: no" },
    { "rod.centres", "151", "Rod, old, with pads: Centre distance: 151 mm" },
    { "engine.factor", "52.5", "Balance factor: 52.5 %" },
    { "engine.crank-mass", "14", "Mass of the crankshaft: 14 kg" },
    { "engine.order", "1-3-4-2", "Firing order: 1-3-4-2" },
    { "engine.numbering", "2-1", "Cylinders along the crank: 2-1" },
    { "engine.free", "0:0:0:1", "Banks and throws: 0:0:0:1" },
    { "engine.free", "", "Banks and throws: not said" },
    { "engine.piston-facing", "", "Piston mark points: not said" },
    { "engine.split-pins", "yes", "Crankpins split for even firing: yes" },
  };
  TgSetup *setup = fixture_setup (3, TRUE, TRUE);
  TgDesign *design = (TgDesign *) tg_setup_find_design (setup, "rod");
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL;

  /* a comma in a name is no border to a unit */
  g_free (design->name);
  design->name = g_strdup ("Rod, old, with pads");
  job = tg_job_new (setup);
  review = tg_review_new (job);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TgEvent event = tg_event_blank (TG_EVENT_SET);
      g_autofree char *words = NULL;

      event.path = cases[i][0];
      event.value = cases[i][1];
      words = tg_report_event (review, &event);
      g_assert_cmpstr (words, ==, cases[i][2]);
    }
}

static void
test_events (void)
{
  g_autoptr (TgJob) job = half_way_job ();
  g_autoptr (TgReview) review = tg_review_new (job);
  static const struct
  {
    guint event;
    const char *words;
  } cases[] = {
    { 0, "Rod 1, small end, mark up: 171.7 g" },
    { 4, "Piston 1: 520.9 g" },
    { 15, "Target of the small ends: 171.7 g" },
    { 17, "Rod 2: pass on the small pad, 0.4 g wanted, belt grinder" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *words = tg_report_event (review, tg_job_event (job, cases[i].event));

      g_assert_cmpstr (words, ==, cases[i].words);
    }
  /* Every kind of event has words of its own. */
  for (guint kind = 0; kind < TG_N_EVENT_KINDS; kind++)
    {
      TgEvent event = tg_event_blank (kind);
      g_autofree char *words = NULL;

      event.part = "rod-1";
      event.zone = "beam";
      event.path = "rod.beam.use";
      event.value = "no";
      event.text = "because";
      event.mass = 1000;
      words = tg_report_event (review, &event);
      g_assert_cmpuint (strlen (words), >, 5);
    }
}

/* -- parts that change hands ------------------------------------------------------------------- */

/* Three cylinders with everything, a spare pin, and the first readings of all. */
static TgJob *
paired_job (void)
{
  TgSetup *setup = fixture_setup (3, TRUE, TRUE);
  TgJob *job;

  for (TgPartKind kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    fixture_add_family (setup, kind, kind == TG_PART_PIN ? 1 : 0);
  job = tg_job_new (setup);
  for (guint i = 1; i <= 3; i++)
    {
      fixture_weigh_rod (job, i, 171 + 0.7 * i, 412 + 0.4 * i);
      fixture_weigh_piston (job, i, 520 + 0.9 * i);
    }
  fixture_weigh (job, "pin-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 98.1);
  fixture_weigh (job, "pin-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 98.2);
  fixture_weigh (job, "pin-4", TG_FIGURE_WHOLE, TG_WAY_ANY, 98.4);
  fixture_weigh (job, "rings-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 41.5);
  fixture_weigh (job, "clips-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 2.3);
  fixture_weigh (job, "bearings-3", TG_FIGURE_WHOLE, TG_WAY_ANY, 30.6);
  return job;
}

static void
append_pair (TgJob *job, const char *places, const char *text)
{
  TgEvent event = tg_event_blank (TG_EVENT_PAIR);

  event.places = places;
  event.text = text;
  fixture_append (job, event);
}

static void
append_rule (TgJob *job, const char *part, TgRule rule, const char *other, guint bore, gboolean on)
{
  TgEvent event = tg_event_blank (TG_EVENT_RULE);

  event.part = part;
  event.rule = rule;
  event.other = other;
  event.bore = bore;
  event.on = on;
  fixture_append (job, event);
}

/* A pairing says what it changes, whatever came before or was struck out; a rule what it asks. */
static void
test_pairing_entries (void)
{
  static const char *const words[] = {
    "New pairing: Pin 1 to bore 2, Pin 2 to bore 1 – least metal",
    "New pairing: Pin 2 to the spares, Pin 4 to bore 1",
    "An entry struck out",
    "New pairing: Pin 1 to bore 3, Pin 2 to bore 2, Pin 3 to bore 1",
    "New pairing: every part stays where it is",
    "New pairing: 3 pistons, 2 pins and 2 bearing pairs change places",
    "Pin 1 and Piston 1 stay together",
    "Pin 1 and Piston 1 need not stay together",
    "Pin 1 and Rod 2 never go together",
    "Pin 1 and Rod 2 may go together",
    "Pin 4 stays at bore 2",
    "Pin 4 need not stay at bore 2",
  };
  g_autoptr (TgJob) job = paired_job ();
  g_autoptr (TgReview) review = NULL;
  guint first = tg_job_n_events (job);
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);
  g_autofree char *plain = NULL;

  append_pair (job, "pin-1:2 pin-2:1 pin-3:3 pin-4:0", "least metal");
  append_pair (job, "pin-1:2 pin-2:0 pin-3:3 pin-4:1", "");
  strike.refers = tg_job_event (job, first + 1)->id;
  fixture_append (job, strike);
  append_pair (job, "pin-1:3 pin-2:2 pin-3:1 pin-4:0", "");
  append_pair (job, "pin-1:3 pin-2:2 pin-3:1 pin-4:0", "");
  append_pair (job,
               "piston-1:2 piston-2:3 piston-3:1 pin-1:3 pin-2:1 pin-3:2 pin-4:0 "
               "rings-1:1 rings-2:2 rings-3:3 bearings-1:1 bearings-2:3 bearings-3:2",
               "");
  append_rule (job, "pin-1", TG_RULE_TOGETHER, "piston-1", 0, TRUE);
  append_rule (job, "pin-1", TG_RULE_TOGETHER, "piston-1", 0, FALSE);
  append_rule (job, "pin-1", TG_RULE_APART, "rod-2", 0, TRUE);
  append_rule (job, "pin-1", TG_RULE_APART, "rod-2", 0, FALSE);
  append_rule (job, "pin-4", TG_RULE_BORE, "", 2, TRUE);
  append_rule (job, "pin-4", TG_RULE_BORE, "", 2, FALSE);
  review = tg_review_new (job);
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      g_autofree char *entry = tg_report_entry (review, job, first + i);

      g_assert_cmpstr (entry, ==, words[i]);
    }
  plain = tg_report_event (review, tg_job_event (job, first + 5));
  g_assert_cmpstr (plain, ==, "New pairing of the pistons, pins, ring packs and bearing pairs");
}

/* Text and table say where each part sits now, and what each bore weighs together. */
static void
test_sums (void)
{
  g_autoptr (TgJob) job = paired_job ();
  g_autoptr (TgReview) review = NULL;
  g_autofree char *plan = NULL;
  g_autofree char *csv = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  guint row;

  append_pair (job, "pin-1:0 pin-2:2 pin-3:3 pin-4:1", "");
  append_rule (job, "pin-3", TG_RULE_BORE, "", 3, TRUE);
  append_rule (job, "pin-2", TG_RULE_APART, "rod-2", 0, TRUE);
  append_rule (job, "pin-2", TG_RULE_APART, "rod-2", 0, FALSE);
  review = tg_review_new (job);
  plan = tg_report_plan (review);
  csv = tg_report_plan_csv (review);
  rows = read_csv (csv);
  g_assert_nonnull (strstr (plan, "\nPin 1, spare:  weight 98.1 g"));
  g_assert_nonnull (strstr (plan, "\nPin 4, bore 1:  weight 98.4 g"));
  g_assert_nonnull (strstr (plan, "\nPin 3, bore 3:  weight –  not weighed"));
  /* 520.9 + 98.4 + 41.5 + 2.3 */
  g_assert_nonnull (strstr (plan, "\nbore 1: Piston 1, Pin 4, Rings 1, Clips 1: 663.1 g ±"));
  g_assert_nonnull (strstr (plan, "\nbore 2: Piston 2, Pin 2, Rings 2, Clips 2: not all there"));
  /* 412 + 3 × 0.4 + 30.6 */
  g_assert_nonnull (strstr (plan, "\nbore 3: Rod 3 (big end), Bearings 3: 443.8 g ±"));
  g_assert_nonnull (strstr (plan, "\npiston sets: "));
  g_assert_nonnull (strstr (plan, "\nbig ends with bearings: "));
  g_assert_null (strstr (plan, "pins: "));
  g_assert_nonnull (strstr (plan, "\nrule: Pin 3 stays at bore 3\n"));
  g_assert_null (strstr (plan, "Rod 2 never"));

  row = find_row (rows, "part", "Pin 1", "whole");
  g_assert_cmpstr (field (rows, row, "bore"), ==, "");
  g_assert_cmpstr (field (rows, row, "target_g"), ==, "");
  same (rows, row, "weight_g", 98.1);
  row = find_row (rows, "part", "Pin 4", "whole");
  same (rows, row, "bore", 1);
  row = find_row (rows, "sum", "Piston 1", "whole");
  same (rows, row, "weight_g", 663.1);
  same (rows, row, "bore", 1);
  same (rows, row, "u_g", g_array_index (review->sets, TgSetReview, 0).u_g);
  same (rows, row, "expanded_g", g_array_index (review->sets, TgSetReview, 0).expanded_g);
  row = find_row (rows, "sum", "Piston 2", "whole");
  g_assert_cmpstr (field (rows, row, "weight_g"), ==, "");
  g_assert_cmpstr (field (rows, row, "basis"), ==, "none");
  same (rows, find_row (rows, "sum", "Rod 3", "big-end"), "weight_g", 443.8);
  for (guint i = 1; i < rows->len; i++)
    g_assert_false (strcmp (field (rows, i, "row"), "set") == 0 &&
                    strcmp (field (rows, i, "name"), "pin") == 0);
}

/* Of parts that stay where they are, with nothing carried, nothing is said of bores and sums. */
static void
test_no_sums (void)
{
  g_autoptr (TgJob) job = half_way_job ();
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autofree char *plan = tg_report_plan (review);
  g_autofree char *csv = tg_report_plan_csv (review);

  g_assert_null (strstr (plan, "bore"));
  g_assert_null (strstr (csv, "sum,"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/report/csv", test_csv);
  g_test_add_func ("/report/csv-names", test_csv_names);
  g_test_add_func ("/report/plan", test_plan);
  g_test_add_func ("/report/proof", test_proof);
  g_test_add_func ("/report/events", test_events);
  g_test_add_func ("/report/set-events", test_set_events);
  g_test_add_func ("/report/pairing-entries", test_pairing_entries);
  g_test_add_func ("/report/sums", test_sums);
  g_test_add_func ("/report/no-sums", test_no_sums);
  return g_test_run ();
}
