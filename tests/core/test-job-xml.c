/* test-job-xml.c: job files, good and bad
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every file in tests/data/valid loads and gives the same bytes again; every file in
 * tests/data/invalid is refused for the reason in reasons.txt, at its line.
 */
#include <gio/gio.h>
#include <libxml/parser.h>
#include <libxml/relaxng.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "error.h"
#include "job-xml.h"
#include "storable.h"

static const char *const code_words[] = { "syntax",  "range",  "unknown", "duplicate", "version",
                                          "foreign", "unsafe", "size",    "io" };

static char *
data_path (const char *folder, const char *name)
{
  return g_test_build_filename (G_TEST_DIST, "data", folder, name, NULL);
}

static void
assert_same_bytes (const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TgJob) job = tg_job_xml_load (path, &error);
  g_autofree char *bytes = NULL;
  gsize size;
  GString *text;

  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (path, &bytes, &size, NULL));
  text = tg_job_xml_format (job);
  g_assert_cmpmem (text->str, text->len, bytes, size);
  g_string_free (text, TRUE);
}

static void
test_valid (void)
{
  g_autofree char *folder = data_path ("valid", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)))
    {
      g_autofree char *path = data_path ("valid", name);

      assert_same_bytes (path);
      n++;
    }
  g_assert_cmpuint (n, >=, 5);
}

static const TgEvent *
find_event (const TgJob *job, const char *id)
{
  return tg_job_event (job, (guint) tg_job_find_event (job, id));
}

/* Parts that only change hands, spares, what is in the sums, pairings and rules. */
static void
test_pairing (void)
{
  g_autofree char *path = data_path ("valid", "every-kind.tenthgram");
  g_autoptr (TgJob) job = tg_job_xml_load (path, NULL);
  const TgSetup *setup = tg_job_setup (job);
  const gboolean left_out[TG_N_PART_KINDS] = { [TG_PART_CLIPS] = TRUE };
  const TgEvent *event;

  g_assert_cmpmem (setup->left_out, sizeof left_out, left_out, sizeof left_out);
  g_assert_cmpint (setup->small_ends, ==, TG_SMALL_ENDS_BOTH);
  g_assert_cmpint (tg_setup_find_design (setup, "rings")->kind, ==, TG_PART_RINGS);
  g_assert_cmpstr (tg_setup_find_design (setup, "rings")->name, ==, "Ring packs, \"0.1 over\"");
  g_assert_cmpint (tg_setup_find_design (setup, "bearings")->kind, ==, TG_PART_BEARINGS);
  g_assert_cmpuint (tg_setup_find_part (setup, "pin 3:b", NULL)->bore, ==, 0);
  g_assert_cmpuint (tg_setup_find_part (setup, "bearings-2", NULL)->bore, ==, 2);

  event = find_event (job, "e19");
  g_assert_cmpint (event->rule, ==, TG_RULE_TOGETHER);
  g_assert_cmpstr (event->part, ==, "pin-1");
  g_assert_cmpstr (event->other, ==, "piston-1");
  g_assert_true (event->on);
  event = find_event (job, "e20");
  g_assert_cmpint (event->rule, ==, TG_RULE_APART);
  event = find_event (job, "e21");
  g_assert_cmpint (event->rule, ==, TG_RULE_BORE);
  g_assert_cmpuint (event->bore, ==, 2);
  g_assert_false (event->on);
  event = find_event (job, "e22");
  g_assert_cmpstr (event->places, ==, "pin-1:1 pin-2:0 pin%203%3Ab:2 rings-1:2 rings-2:1");
  g_assert_cmpstr (event->text, ==, "least metal");
}

/* A practice job says what its bench is made from, and marks what was done there. */
static void
test_practice (void)
{
  g_autofree char *path = data_path ("valid", "practice.tenthgram");
  g_autoptr (TgJob) job = tg_job_xml_load (path, NULL);
  const TgPractice *practice = &tg_job_setup (job)->practice;
  g_autoptr (TgSetup) copy = tg_setup_copy (tg_job_setup (job));

  g_assert_true (practice->on);
  g_assert_cmpstr (practice->seed, ==, "autumn \"class\"");
  g_assert_cmpstr (practice->lesson, ==, "turning-over");
  g_assert_cmpfloat (practice->spread_g, ==, 0.6);
  g_assert_cmpfloat (practice->faults.scatter_g, ==, 0.05);
  g_assert_cmpfloat (practice->faults.touch_share, ==, 0.05);
  g_assert_cmpfloat (practice->faults.gain, ==, -0.0004);
  g_assert_true (find_event (job, "p1")->practice);
  g_assert_true (find_event (job, "p6")->practice);
  g_assert_false (find_event (job, "p7")->practice);
  g_assert_cmpstr (find_event (job, "p4")->path, ==, "turn");
  g_assert_cmpstr (find_event (job, "p4")->value, ==, "171.6");
  g_assert_cmpstr (find_event (job, "p5")->value, ==, "");
  g_assert_true (tg_setup_equal (tg_job_setup (job), copy));
  copy->practice.faults.hand += 0.01;
  g_assert_false (tg_setup_equal (tg_job_setup (job), copy));
}

/* What the file says in words that are known, whatever writes it. */
static void
test_every_kind (void)
{
  g_autofree char *path = data_path ("valid", "every-kind.tenthgram");
  g_autoptr (TgJob) job = tg_job_xml_load (path, NULL);
  const TgSetup *setup;
  const TgEvent *event;
  guint seen = 0;

  g_assert_nonnull (job);
  setup = tg_job_setup (job);
  g_assert_cmpstr (setup->name, ==, "Twin on the bench");
  g_assert_cmpuint (setup->cylinders, ==, 2);
  g_assert_cmpint (setup->resolution, ==, 50);
  g_assert_cmpstr (setup->scale, ==, "Kitchen scale, blue lid");
  g_assert_cmpint (setup->check_weight, ==, 200000);
  g_assert_cmpint (setup->check_class, ==, TG_CHECK_WEIGHT_F2);
  g_assert_cmpuint (setup->repeats, ==, 2);
  g_assert_cmpfloat (setup->overshoot_percent, ==, 2.5);
  g_assert_cmpint (setup->tolerance[TG_BAND_ROD_BIG], ==, 750);
  g_assert_cmpuint (setup->parts->len, ==, 13);
  g_assert_cmpfloat (tg_setup_find_design (setup, "rod")->rod.centres, ==, 140);
  g_assert_true (setup->engine.chosen);
  g_assert_cmpint (setup->engine.kind, ==, TG_ENGINE_TWIN_270);
  g_assert_cmpfloat (setup->engine.factor_percent, ==, 52.5);
  g_assert_cmpfloat (setup->engine.stroke_mm, ==, 84);
  g_assert_cmpstr (setup->engine.numbering, ==, "2-1");
  g_assert_cmpstr (setup->engine.facing[TG_FACING_ROD], ==, "numbers to the \"inlet\"");
  for (guint i = 0; i < tg_job_n_events (job); i++)
    seen |= 1u << tg_job_event (job, i)->kind;
  /* steps of lessons belong to practice jobs */
  g_assert_cmpuint (seen | 1u << TG_EVENT_STEP, ==, (1u << TG_N_EVENT_KINDS) - 1);
  event = tg_job_event (job, (guint) tg_job_find_event (job, "e3"));
  g_assert_cmpint (event->mass, ==, 301250);
  g_assert_true (event->kept);
  g_assert_true (event->sent);
  event = tg_job_event (job, (guint) tg_job_find_event (job, "e13"));
  g_assert_cmpint (event->effort, ==, TG_EFFORT_STROKES);
  g_assert_cmpuint (event->count, ==, 12);
  event = tg_job_event (job, (guint) tg_job_find_event (job, "e14"));
  g_assert_cmpint (event->effort, ==, TG_EFFORT_SECONDS);
  g_assert_cmpuint (event->count, ==, 90);
  g_assert_cmpint (event->mass, ==, 0);
  event = tg_job_event (job, (guint) tg_job_find_event (job, "e15"));
  g_assert_cmpint (event->mass, ==, -50);
  g_assert_true (event->set_back);
  event = tg_job_event (job, (guint) tg_job_find_event (job, "e17"));
  g_assert_cmpint (event->nominal, ==, 200000);
  g_assert_cmpint (event->mass, ==, 199950);
  g_assert_true (event->sent);
  event = tg_job_event (job, (guint) tg_job_find_event (job, "e24"));
  g_assert_cmpint (event->check, ==, TG_CHECK_ROD);
  g_assert_cmpstr (event->part, ==, "rod-1");
  event = tg_job_event (job, (guint) tg_job_find_event (job, "e25"));
  g_assert_cmpint (event->check, ==, TG_CHECK_CLIPS_NEW);
  g_assert_cmpuint (event->bore, ==, 2);
  g_assert_cmpstr (event->part, ==, "");
  event = tg_job_event (job, (guint) tg_job_find_event (job, "e11"));
  g_assert_cmpstr (event->text, ==, "Öl & \"Staub\" <weg>\nzweite Zeile\tEnde");
  event = tg_job_event (job, (guint) tg_job_find_event (job, "e12"));
  g_assert_cmpint (event->stamp.offset_min, ==, -210);
}

static int
code_of (const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (code_words); i++)
    if (strcmp (code_words[i], word) == 0)
      return (int) i;
  g_error ("no error is called “%s”", word);
}

static void
assert_refused (const char *name, const char *code, const char *line, const char *cause)
{
  g_autofree char *file = g_strconcat (name, ".tenthgram", NULL);
  g_autofree char *path = data_path ("invalid", file);
  g_autofree char *place = g_strconcat (file, ":", line, ": ", NULL);
  g_autoptr (GError) error = NULL;
  gint64 start = g_get_monotonic_time ();

  g_test_message ("%s", file);
  g_assert_null (tg_job_xml_load (path, &error));
  g_assert_error (error, TG_ERROR, code_of (code));
  g_assert_true (g_str_has_prefix (error->message, place));
  g_assert_nonnull (strstr (error->message, cause));
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_null (strchr (error->message, '\n'));
  g_assert_cmpuint (strlen (error->message), <, 300);
  g_assert_cmpint (g_get_monotonic_time () - start, <, 5 * G_USEC_PER_SEC);
}

static void
test_invalid (void)
{
  g_autofree char *folder = data_path ("invalid", NULL);
  g_autofree char *path = data_path ("invalid", "reasons.txt");
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autofree char *reasons = NULL;
  g_auto (GStrv) lines = NULL;
  guint n = 0, files = 0;
  const char *name;

  g_assert_true (g_file_get_contents (path, &reasons, NULL, NULL));
  lines = g_strsplit (reasons, "\n", -1);
  for (guint i = 0; lines[i]; i++)
    {
      g_auto (GStrv) fields = g_strsplit (lines[i], "\t", 4);

      if (lines[i][0] == '#' || lines[i][0] == '\0')
        continue;
      g_assert_cmpuint (g_strv_length (fields), >=, 3);
      assert_refused (fields[0], fields[1], fields[2], fields[3] ? fields[3] : "");
      n++;
    }
  while ((name = g_dir_read_name (dir)))
    files += g_str_has_suffix (name, ".tenthgram");
  g_assert_cmpuint (n, ==, files);
  g_assert_cmpuint (n, >, 100);
}

/* Every beginning of a good file is refused and none brings the program down. */
static void
test_truncated (void)
{
  g_autofree char *path = data_path ("valid", "every-kind.tenthgram");
  g_autofree char *bytes = NULL;
  gsize size;

  g_assert_true (g_file_get_contents (path, &bytes, &size, NULL));
  for (gsize cut = 0; cut < size - 1; cut += 1 + cut % 7)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (tg_job_xml_parse (bytes, cut, "cut", &error));
      g_assert_nonnull (error);
      g_assert_true (error->domain == TG_ERROR);
    }
}

/* Every byte of a good file replaced: refused, or a job that can be written and read again. */
static void
test_damaged (void)
{
  static const char damage[] = { '"', '<', '&', '\0', '9', '-', (char) 0xff, 'x' };
  g_autofree char *path = data_path ("valid", "every-kind.tenthgram");
  g_autofree char *bytes = NULL;
  gsize size;

  g_assert_true (g_file_get_contents (path, &bytes, &size, NULL));
  for (gsize at = 0; at < size; at += 3)
    {
      char kept = bytes[at];
      g_autoptr (GError) error = NULL;
      g_autoptr (TgJob) job = NULL;

      bytes[at] = damage[at % sizeof damage];
      job = tg_job_xml_parse (bytes, size, "damaged", &error);
      g_assert_true ((job == NULL) == (error != NULL));
      if (job)
        {
          GString *text = tg_job_xml_format (job);
          g_autoptr (TgJob) again = tg_job_xml_parse (text->str, text->len, "again", &error);

          g_assert_no_error (error);
          g_assert_true (tg_setup_equal (tg_job_setup (job), tg_job_setup (again)));
          g_string_free (text, TRUE);
        }
      bytes[at] = kept;
    }
}

static TgSetup *
bench_setup (void)
{
  g_autofree char *path = data_path ("valid", "every-kind.tenthgram");
  g_autoptr (TgJob) job = tg_job_xml_load (path, NULL);

  return tg_setup_copy (tg_job_setup (job));
}

static char *
random_text (GRand *rand)
{
  static const char *const pieces[] = { "a", " ", "\n", "\t", "\r",  "&",     "<",    ">", "\"",
                                        "'", "é", "連", "🔧",  "]]>", "&#10;", "<!--", "  " };
  GString *text = g_string_new (NULL);

  for (gint n = g_rand_int_range (rand, 0, 12); n > 0; n--)
    g_string_append (text, pieces[g_rand_int_range (rand, 0, G_N_ELEMENTS (pieces))]);
  return g_string_free (text, FALSE);
}

/* Law: what a job holds is what the file gives back, whatever the texts and numbers. */
static void
test_round_trip (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  g_autoptr (TgJob) job = NULL, back = NULL;
  g_autoptr (GError) error = NULL;
  TgSetup *setup = bench_setup ();
  GString *text;

  setup->name[0] = '\0';
  tg_setup_find_design (setup, "rod")->rod.centres = 100 + 1.0 / 3;
  tg_setup_find_design (setup, "piston")->density = 2.6999999999999997;
  job = tg_job_new (setup);
  for (guint i = 0; i < 500; i++)
    {
      TgEvent event = tg_event_blank (i % 2 ? TG_EVENT_NOTE : TG_EVENT_WEIGHING);
      g_autofree char *id = g_strdup_printf ("%u", i);
      g_autofree char *note = random_text (rand);
      g_autofree char *who = random_text (rand);

      event.id = id;
      event.who = who;
      event.text = note;
      event.part = i % 2 ? "" : "rod-2";
      event.figure = TG_FIGURE_WHOLE;
      event.mass = g_rand_int_range (rand, 1, G_MAXINT);
      event.mass = event.mass % TG_MASS_MAX + 1;
      event.stamp.seconds = (gint64) g_rand_int (rand) * 40;
      event.stamp.offset_min = g_rand_int_range (rand, -1439, 1440);
      g_assert_true (tg_job_append (job, &event, &error));
      g_assert_no_error (error);
    }
  text = tg_job_xml_format (job);
  back = tg_job_xml_parse (text->str, text->len, "round", &error);
  g_string_free (text, TRUE);
  g_assert_no_error (error);
  g_assert_true (tg_setup_equal (tg_job_setup (job), tg_job_setup (back)));
  g_assert_cmpuint (tg_job_n_events (back), ==, tg_job_n_events (job));
  for (guint i = 0; i < tg_job_n_events (job); i++)
    g_assert_true (tg_event_equal (tg_job_event (job, i), tg_job_event (back, i)));
}

/* As many parts as there may be, with the longest ids and names that can all be placed, paired. */
static TgJob *
largest_job (void)
{
  TgSetup *setup = bench_setup ();
  TgEvent event = tg_event_blank (TG_EVENT_PAIR);
  g_autofree char *note = g_strnfill (TG_STORABLE_TEXT, '"');
  g_autofree char *who = g_strnfill (TG_STORABLE_NAME, '&');
  g_autofree char *id = g_strnfill (TG_STORABLE_ID, '<');
  g_autofree char *places = NULL;
  TgJob *job;

  g_ptr_array_set_size (setup->parts, 0);
  for (guint i = 0; i < TG_MAX_PARTS; i++)
    {
      g_autofree char *part = g_strdup_printf ("%s %052u", i % 2 ? "a" : "b", i);
      TgDesign *design = g_ptr_array_index (setup->designs, i % setup->designs->len);

      tg_setup_add_part (setup, part, who, design, 0);
    }
  places = tg_setup_places (setup, (1u << TG_N_PART_KINDS) - 1);
  g_assert_cmpuint (strlen (places), >, TG_STORABLE_PLACES * 9 / 10);
  event.places = places;
  event.id = id;
  event.who = who;
  event.text = note;
  job = tg_job_new (setup);
  g_assert_true (tg_job_append (job, &event, NULL));
  return job;
}

/* Law: what a job can hold its file can hold. */
static void
test_largest (void)
{
  g_autoptr (TgJob) job = largest_job (), back = NULL;
  g_autoptr (GError) error = NULL;
  GString *text = tg_job_xml_format (job);
  gint64 start = g_get_monotonic_time ();

  back = tg_job_xml_parse (text->str, text->len, "largest", &error);
  g_assert_no_error (error);
  g_assert_cmpint (g_get_monotonic_time () - start, <, 5 * G_USEC_PER_SEC);
  g_assert_true (tg_setup_equal (tg_job_setup (job), tg_job_setup (back)));
  g_assert_true (tg_event_equal (tg_job_event (job, 0), tg_job_event (back, 0)));
  g_test_message ("%" G_GSIZE_FORMAT " bytes in %.1f ms", text->len,
                  (double) (g_get_monotonic_time () - start) / 1000);
  g_string_free (text, TRUE);
}

/* Made here, because such files are too large to keep. */
static void
test_oversized (void)
{
  g_autofree char *folder = g_dir_make_tmp ("tenthgram-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "huge.tenthgram", NULL);
  g_autofree char *elements = NULL;
  g_autoptr (GError) error = NULL, too_many = NULL;
  const char *head = "<job xmlns=\"urn:tenthgram:job\" version=\"1\">\n";
  gsize n = 250000;

  g_assert_true (g_file_set_contents (path, "<", 1, NULL));
  g_assert_cmpint (truncate (path, (gint64) TG_JOB_XML_MAX_BYTES + 1), ==, 0);
  g_assert_null (tg_job_xml_load (path, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_SIZE);
  g_assert_cmpint (remove (path), ==, 0);
  g_assert_cmpint (remove (folder), ==, 0);

  /* a million bytes of the smallest elements would be a tree of many times that */
  elements = g_malloc (strlen (head) + n * 5 + 1);
  strcpy (elements, head);
  for (gsize i = 0; i < n; i++)
    memcpy (elements + strlen (head) + i * 5, "<a/>\n", 6);
  g_assert_null (tg_job_xml_parse (elements, strlen (elements), "many", &too_many));
  g_assert_error (too_many, TG_ERROR, TG_ERROR_SIZE);
}

static void
test_not_a_file (void)
{
  g_autofree char *folder = data_path ("valid", NULL);
  g_autofree char *missing = data_path ("valid", "missing.tenthgram");
  const char *const paths[] = { folder, missing, "/dev/zero", "/dev/null" };

  for (guint i = 0; i < G_N_ELEMENTS (paths); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (tg_job_xml_load (paths[i], &error));
      g_assert_error (error, TG_ERROR, TG_ERROR_IO);
    }
}

static int loads;

static xmlParserInput *
count_loads (const char *url G_GNUC_UNUSED,
             const char *id G_GNUC_UNUSED,
             xmlParserCtxt *ctxt G_GNUC_UNUSED)
{
  loads++;
  return NULL;
}

/* Nothing outside is asked for, and what others set in libxml2 stays as it is. */
static void
test_nothing_external (void)
{
  static const char *const names[] = { "external-entity", "external-dtd", "parameter-entity",
                                       "xinclude", "entity-bomb" };
  xmlExternalEntityLoader before = xmlGetExternalEntityLoader ();
  xmlStructuredErrorFunc errors = xmlStructuredError;

  xmlSetExternalEntityLoader (count_loads);
  loads = 0;
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *file = g_strconcat (names[i], ".tenthgram", NULL);
      g_autofree char *path = data_path ("invalid", file);

      g_assert_null (tg_job_xml_load (path, NULL));
    }
  g_assert_cmpint (loads, ==, 0);
  g_assert_true (xmlGetExternalEntityLoader () == count_loads);
  g_assert_true (xmlStructuredError == errors);
  xmlSetExternalEntityLoader (before);
}

static void
fail_on_grammar_error (void *data G_GNUC_UNUSED, xmlErrorPtr fault)
{
  g_error ("schema, line %d: %s", fault->line, fault->message);
}

/* The files of the schema are RELAX NG as they stand, with their includes, for other programs. */
static void
test_schema_files (void)
{
  static const char *const schemas[] = { "job.rng", "library.rng" };

  for (guint i = 0; i < G_N_ELEMENTS (schemas); i++)
    {
      g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data", schemas[i], NULL);
      xmlRelaxNGParserCtxt *parser = xmlRelaxNGNewParserCtxt (path);
      xmlRelaxNG *relax;

      xmlRelaxNGSetParserStructuredErrors (parser, fail_on_grammar_error, NULL);
      relax = xmlRelaxNGParse (parser);
      g_assert_nonnull (relax);
      xmlRelaxNGFree (relax);
      xmlRelaxNGFreeParserCtxt (parser);
    }
}

static gpointer
load_many (gpointer path)
{
  for (guint i = 0; i < 30; i++)
    {
      g_autoptr (TgJob) job = tg_job_xml_load (path, NULL);

      g_assert_nonnull (job);
    }
  return NULL;
}

static void
test_threads (void)
{
  g_autofree char *path = data_path ("valid", "every-kind.tenthgram");
  GThread *threads[4];

  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("load", load_many, path);
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    g_thread_join (threads[i]);
}

/* A fault beyond line 65,535 still has its own line. */
static void
test_far_line (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = data_path ("valid", "every-kind.tenthgram");
  g_autofree char *bytes = NULL;
  g_auto (GStrv) halves = NULL;
  GString *text;

  g_assert_true (g_file_get_contents (path, &bytes, NULL, NULL));
  halves = g_strsplit (bytes, "  </journal>", 2);
  text = g_string_new (halves[0]);
  for (guint i = 0; i < 70000; i++)
    g_string_append (text, i % 1000 ? "\n" : "<!-- -->\n");
  g_string_append (text, "<strike id=\"s\" at=\"2026-03-07T10:00:00+01:00\" refers=\"no\"/>\n");
  g_string_append_printf (text, "  </journal>%s", halves[1]);
  g_assert_null (tg_job_xml_parse (text->str, text->len, "far", &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_UNKNOWN);
  g_test_message ("%s", error->message);
  g_assert_true (g_str_has_prefix (error->message, "far:70085: "));
  g_string_free (text, TRUE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job-xml/valid", test_valid);
  g_test_add_func ("/job-xml/every-kind", test_every_kind);
  g_test_add_func ("/job-xml/practice", test_practice);
  g_test_add_func ("/job-xml/pairing", test_pairing);
  g_test_add_func ("/job-xml/invalid", test_invalid);
  g_test_add_func ("/job-xml/truncated", test_truncated);
  g_test_add_func ("/job-xml/damaged", test_damaged);
  g_test_add_func ("/job-xml/round-trip", test_round_trip);
  g_test_add_func ("/job-xml/largest", test_largest);
  g_test_add_func ("/job-xml/oversized", test_oversized);
  g_test_add_func ("/job-xml/not-a-file", test_not_a_file);
  g_test_add_func ("/job-xml/nothing-external", test_nothing_external);
  g_test_add_func ("/job-xml/schema-files", test_schema_files);
  g_test_add_func ("/job-xml/threads", test_threads);
  g_test_add_func ("/job-xml/far-line", test_far_line);
  return g_test_run ();
}
