/* bench-load.c: how loading, reviewing and saving a long job compare with bare libxml2
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything is measured side by side in this one run and printed as ratios; nothing here fails for
 * being slow.  Usage: bench-load [EVENTS...], default 100 1000 10000 100000.
 */
#include <libxml/parser.h>
#include <libxml/relaxng.h>
#include <stdio.h>
#include <stdlib.h>

#include <gio/gio.h>
#include <glib/gstdio.h>

#include "fixture.h"
#include "job-xml.h"
#include "review.h"

#define REPEATS 7

/* Sixteen cylinders, weighed, then grinding and weighing on and on, like a very long job. */
static TgJob *
long_job (guint n_events)
{
  TgJob *job = tg_job_new (fixture_setup (16, TRUE, TRUE));
  g_autoptr (FixtureBench) bench = fixture_bench_new (tg_job_setup (job), 16);
  guint n_parts = tg_job_setup (job)->parts->len;

  for (guint i = 0; i < n_events; i++)
    {
      guint part = i / 5 % n_parts;
      const TgPart *which = tg_setup_part (tg_job_setup (job), part);
      gboolean rod = which->design->kind == TG_PART_ROD;
      TgSlot slot = { part, TG_FIGURE_WHOLE, TG_WAY_ANY };

      if (i / 5 >= n_parts && i % 5 == 0)
        {
          fixture_pass (job, which->id, rod ? "shoulders" : "feet", 0.001);
          continue;
        }
      if (rod)
        {
          slot.figure = i % 5 < 3 ? TG_FIGURE_SMALL_END : TG_FIGURE_BIG_END;
          slot.way = i % 2 ? TG_WAY_MARK_UP : TG_WAY_MARK_DOWN;
        }
      fixture_weigh (job, which->id, slot.figure, slot.way, fixture_bench_read (bench, slot));
    }
  return job;
}

static int
compare (const void *a, const void *b)
{
  gint64 x = *(const gint64 *) a, y = *(const gint64 *) b;

  return x < y ? -1 : x > y;
}

static double
median_ms (gint64 *times)
{
  qsort (times, REPEATS, sizeof times[0], compare);
  return (double) times[REPEATS / 2] / 1000;
}

/* What any program that checks against the schema must do at the least. */
static void
bare_load (const GString *text)
{
  xmlRelaxNGParserCtxtPtr parser = xmlRelaxNGNewParserCtxt (SCHEMA);
  xmlRelaxNGPtr relax = xmlRelaxNGParse (parser);
  xmlRelaxNGValidCtxtPtr valid = xmlRelaxNGNewValidCtxt (relax);
  xmlDocPtr doc = xmlReadMemory (text->str, (int) text->len, "bench", NULL,
                                 XML_PARSE_NONET | XML_PARSE_BIG_LINES);

  if (!doc || xmlRelaxNGValidateDoc (valid, doc) != 0)
    g_error ("the job does not fit its schema");
  xmlFreeDoc (doc);
  xmlRelaxNGFreeValidCtxt (valid);
  xmlRelaxNGFree (relax);
  xmlRelaxNGFreeParserCtxt (parser);
}

static void
measure (guint n_events, double *first_per_event)
{
  g_autoptr (TgJob) job = long_job (n_events);
  g_autoptr (GString) text = tg_job_xml_format (job);
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "bench-load.tenthgram", NULL);
  gint64 bare[REPEATS], load[REPEATS], review[REPEATS], save[REPEATS];
  double bare_ms, load_ms, review_ms, save_ms, per_event;

  for (guint i = 0; i < REPEATS; i++)
    {
      g_autoptr (TgJob) loaded = NULL;
      g_autoptr (TgReview) seen = NULL;
      g_autoptr (GError) error = NULL;
      gint64 start = g_get_monotonic_time ();

      bare_load (text);
      bare[i] = g_get_monotonic_time () - start;
      start = g_get_monotonic_time ();
      loaded = tg_job_xml_parse (text->str, text->len, "bench", &error);
      load[i] = g_get_monotonic_time () - start;
      g_assert_no_error (error);
      start = g_get_monotonic_time ();
      seen = tg_review_new (loaded);
      review[i] = g_get_monotonic_time () - start;
      start = g_get_monotonic_time ();
      if (!tg_job_xml_save (loaded, path, &error))
        g_error ("%s", error->message);
      save[i] = g_get_monotonic_time () - start;
    }
  g_remove (path);
  bare_ms = median_ms (bare);
  load_ms = median_ms (load);
  review_ms = median_ms (review);
  save_ms = median_ms (save);
  per_event = (load_ms + review_ms + save_ms) / n_events;
  if (*first_per_event == 0)
    *first_per_event = per_event;
  printf ("%7u %9.1f %9.1f %9.1f %9.1f %9.2f %9.2f %9.2f %9.3f\n", n_events, bare_ms, load_ms,
          review_ms, save_ms, load_ms / bare_ms, review_ms / load_ms, review_ms / 16,
          per_event / *first_per_event);
}

int
main (int argc, char **argv)
{
  static const guint sizes[] = { 100, 1000, 10000, 100000 };
  double first = 0;

  printf ("16 cylinders, rods and pistons; medians of %d, ms; ratios of this run\n", REPEATS);
  printf (" events      bare      load    review      save load/bare rev./load review/16ms "
          "per event, to first\n");
  if (argc > 1)
    for (int i = 1; i < argc; i++)
      measure ((guint) strtoul (argv[i], NULL, 10), &first);
  else
    for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
      measure (sizes[i], &first);
  return 0;
}
