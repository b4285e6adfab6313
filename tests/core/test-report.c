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
      guint row = find_row (rows, "band", tg_band_to_word (b),
                            tg_figure_to_word (tg_band_figure (b)));

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
  {
    TgEvent event = tg_event_blank (TG_EVENT_SET);
    g_autofree char *words = NULL;

    event.path = "tolerance.rod-small";
    event.value = "0.8";
    words = tg_report_event (review, &event);
    g_assert_cmpstr (words, ==, "Tolerance of the small ends: 0.8 g");
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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/report/csv", test_csv);
  g_test_add_func ("/report/csv-names", test_csv_names);
  g_test_add_func ("/report/plan", test_plan);
  g_test_add_func ("/report/proof", test_proof);
  g_test_add_func ("/report/events", test_events);
  return g_test_run ();
}
