/* test-table-import.c: readings from tables that were made elsewhere
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The form of the tables is that of RFC 4180, section 2, with the separators and decimal commas that
 * spreadsheets write (common practice, no published source).  All readings are invented.
 */
#include <string.h>

#include "error.h"
#include "fixture.h"
#include "table-import.h"

static TgJob *
new_job (gboolean rods, gboolean pistons)
{
  return tg_job_new (fixture_setup (4, rods, pistons));
}

/* Three cylinders with everything, spare pins and ring packs, and one clip pair only. */
static TgJob *
full_job (void)
{
  TgSetup *setup = fixture_setup (3, TRUE, TRUE);
  TgDesign *clips = tg_design_new (TG_PART_CLIPS);

  fixture_add_family (setup, TG_PART_PIN, 2);
  fixture_add_family (setup, TG_PART_RINGS, 2);
  fixture_add_family (setup, TG_PART_BEARINGS, 0);
  tg_setup_add_design (setup, clips);
  tg_setup_add_part (setup, "clips", "Clips of all", clips, 1);
  return tg_job_new (setup);
}

static TgTableImport *
import_with (const TgJob *job, const char *text, const TgTableOptions *options)
{
  g_autoptr (GError) error = NULL;
  TgTableImport *import = tg_table_import_new (job, text, strlen (text), "table", options, &error);

  g_assert_no_error (error);
  return import;
}

/* "rod-1 small-end mark-up 171600" …, joined by "/"; a problem as its text. */
static char *
describe (const TgTableImport *import)
{
  GString *out = g_string_new (NULL);

  for (guint r = 0; r < import->rows->len; r++)
    {
      const TgTableRow *row = g_ptr_array_index (import->rows, r);

      if (row->problem)
        g_string_append_printf (out, "%s%s", out->len ? "/" : "", row->problem);
      for (guint e = 0; e < row->events->len; e++)
        {
          const TgEvent *event = &g_array_index (row->events, TgTableEvent, e).event;

          g_string_append_printf (out, "%s%s %s %s %d", out->len ? "/" : "", event->part,
                                  tg_figure_to_word (event->figure), tg_way_to_word (event->way),
                                  (int) event->mass);
        }
    }
  return g_string_free (out, FALSE);
}

static void
check (const TgJob *job, const char *text, const TgTableOptions *options, const char *expected)
{
  g_autoptr (TgTableImport) import = import_with (job, text, options);
  g_autofree char *got = describe (import);

  g_assert_cmpstr (got, ==, expected);
}

#define ROD_1                                                                                      \
  "rod-1 small-end mark-up 171600/rod-1 small-end mark-down 171700/"                               \
  "rod-1 big-end mark-up 412300/rod-1 big-end mark-down 412400/rod-1 whole any 584000"

static void
test_wide (void)
{
  g_autoptr (TgJob) job = new_job (TRUE, FALSE);

  check (job,
         "Rod,Small up,Small down,Big up,Big down,Whole\r\n1,171.6,171.7,412.3,412.4,584.0\r\n",
         NULL, ROD_1);
  check (job,
         "\xef\xbb\xbf\"Rod\";\"small end, mark up (g)\";small end mark-down;BIG UP;big "
         "down;total\n\nrod 1;171,6;171,7 g;412,3;412,4;584\n;;;;;\n",
         NULL, ROD_1);
  check (job, "Rod 1\t171,6\t171,7\t412,3\t412,4\t584,0", NULL, ROD_1);
  /* cells without a reading give nothing; columns may stand in any order */
  check (job, "big up,rod\n412.3,Rod 2\n,Rod 3\n", NULL,
         "rod-2 big-end mark-up 412300/Line 3: there is no reading in it");
  check (job, "rod,small up kg,small up kg\n2,0.1716,0.1717\n", NULL,
         "rod-2 small-end mark-up 171600/rod-2 small-end mark-up 171700");
  check (job, "Readings of a spring day,,\nby the window,,\nrod,small up,small down\n4,1,2\n", NULL,
         "rod-4 small-end mark-up 1000/rod-4 small-end mark-down 2000");
}

static void
test_long (void)
{
  g_autoptr (TgJob) job = new_job (TRUE, TRUE);

  check (job,
         "part,figure,way,reading\nRod 1,small end,mark up,171.6\nrod-1,Big,down,412.4\n"
         "ROD_1,whole,,584\nPiston 1,weight,,520.9\npiston 2,,,521\n",
         NULL,
         "rod-1 small-end mark-up 171600/rod-1 big-end mark-down 412400/rod-1 whole any 584000/"
         "piston-1 whole any 520900/piston-2 whole any 521000");
  check (job, "Rod 1,small up,171.6\nPiston 1,whole,520.9\n", NULL,
         "rod-1 small-end mark-up 171600/piston-1 whole any 520900");
  check (job, "piston,weight\n3,520.9 g\n4,18.5 oz\n", NULL,
         /* 18.5 oz × 28.349523125 g (1959 agreement; NIST Handbook 44, Appendix C) */
         "piston-3 whole any 520900/piston-4 whole any 524466");
  /* an end is a rod's */
  check (job, "no;end;way;g\n1;small;up;171,6\n", NULL, "rod-1 small-end mark-up 171600");
}

/* Parts that are only weighed, as workshops write them down (common practice, no published source). */
static void
test_kinds (void)
{
  g_autoptr (TgJob) job = full_job ();

  check (
      job,
      "part;weight\nPin 3;98,1\npin 5;98,2\nRings 2;41,5\nRing pack 2;41,6\nring set no. 4;41,7\n"
      "Piston rings 1;41,8\nBearings 2;30,1\nBearing pair 3;30,2\nrod bearing shells 1;30,3\n"
      "Piston pin 1;98,3\nwrist pin #2;98,4\nRod-03;584\nPiston 02;520\n",
      NULL,
      "pin-3 whole any 98100/pin-5 whole any 98200/rings-2 whole any 41500/rings-2 whole any "
      "41600/rings-4 whole any 41700/rings-1 whole any 41800/bearings-2 whole any 30100/"
      "bearings-3 whole any 30200/bearings-1 whole any 30300/pin-1 whole any 98300/"
      "pin-2 whole any 98400/Line 13: it does not say which end of the rod, or whole/"
      "piston-2 whole any 520000");
  check (job, "Pin,weight\n4,98.1\n1,98.2\n", NULL, "pin-4 whole any 98100/pin-1 whole any 98200");
  check (job, "Rings,g\n5,41.5\n", NULL, "rings-5 whole any 41500");
  check (job, "part,g\nclips,2.3\nCirclips,2.4\nPin clips,2.5\n", NULL,
         "clips whole any 2300/clips whole any 2400/clips whole any 2500");
  check (job, "part,figure,reading\nPin 1,whole,98.1\nPin 2,weight,98.2\nPin 3,small end,98.3\n",
         NULL,
         "pin-1 whole any 98100/pin-2 whole any 98200/"
         "Line 4, column 3 (reading): “98.3” would be the end of a pin, which has none");
}

/* What could be several parts, or another kind, is no reading. */
static void
test_kinds_unsure (void)
{
  g_autoptr (TgJob) job = full_job ();

  check (job,
         "part,weight\n2,98.1\npins,98.1\nPin 6,98.1\nPin 1.5,98.1\nold pin 1,98.1\nPin 1 2,9\n",
         NULL,
         "Line 2, column 1 (part): “2” can be more than one part of this job/"
         "Line 3, column 1 (part): “pins” can be more than one part of this job/"
         "Line 4, column 1 (part): “Pin 6” is no part of this job/"
         "Line 5, column 1 (part): “Pin 1.5” is no part of this job/"
         "Line 6, column 1 (part): “old pin 1” is no part of this job/"
         "Line 7, column 1 (part): “Pin 1 2” is no part of this job");
  check (job, "part,pin weight\nPiston 1,98.1\nPin 1,98.1\n1,98.2\n", NULL,
         "Line 2, column 2 (pin weight): “98.1” stands under what is no weight of a piston/"
         "pin-1 whole any 98100/pin-1 whole any 98200");
  /* the weight of a bearing is no weight of an end */
  check (job, "rod,small up,big end bearing\n1,171.6,30.1\n", NULL,
         "rod-1 small-end mark-up 171600");
  check (job, "part,weight,set weight\nPiston 1,520,660\n", NULL, "piston-1 whole any 520000");
}

/* One row for each cylinder, one column for each kind. */
static void
test_kinds_wide (void)
{
  g_autoptr (TgJob) job = full_job ();
  const char *all = "piston-1 whole any 520100/pin-1 whole any 98100/rings-1 whole any 41500/"
                    "piston-2 whole any 520200/rings-2 whole any 41600/pin-4 whole any 98400";

  check (job, "Cylinder,Piston,Pin,Rings\n1,520.1,98.1,41.5\n2,520.2,,41.6\n4,,98.4,\n", NULL, all);
  check (job, "Pin;no.;Piston;Ring pack\n98,1;1;520,1;41,5\n;2;520,2;41,6\n98,4;4;;\n", NULL,
         "pin-1 whole any 98100/piston-1 whole any 520100/rings-1 whole any 41500/"
         "piston-2 whole any 520200/rings-2 whole any 41600/pin-4 whole any 98400");
  check (job, "bore,piston g,pin g,rings g\n1,520.1,98.1,41.5\n2,520.2,,41.6\n4,,98.4,\n", NULL,
         all);
  /* a row is read whole or not */
  check (job, "cylinder,piston,pin\n4,520.1,98.4\n", NULL,
         "Line 2, column 1 (cylinder): “4” is no part of this job");
}

static void
test_problems (void)
{
  g_autoptr (TgJob) job = new_job (TRUE, TRUE);

  check (job, "part,figure,way,reading\nRod 9,small,up,1\n", NULL,
         "Line 2, column 1 (part): “Rod 9” is no part of this job");
  check (job, "part,figure,way,reading\n,small,up,1\n", NULL, "Line 2: no part is named");
  check (job, "part,reading\n1,520\n", NULL,
         "Line 2, column 1 (part): “1” can be more than one part of this job");
  check (job, "part,figure,way,reading\nRod 1,small,,1\n", NULL,
         "Line 2: it does not say which way up the rod lay");
  check (job, "part,figure,way,reading\nRod 1,small,left,1\n", NULL,
         "Line 2, column 3 (way): “left” is not mark up or mark down");
  check (job, "part,figure,way,reading\nRod 1,middle,up,1\n", NULL,
         "Line 2, column 2 (figure): “middle” is not small end, big end or whole");
  check (job, "part,reading\nRod 1,584\n", NULL,
         "Line 2: it does not say which end of the rod, or whole");
  check (job, "part,figure,way,reading\nPiston 1,small,up,1\n", NULL,
         "Line 2, column 4 (reading): “1” would be the end of a piston, which has none");
  check (job, "part,reading\nPiston 1,12..4\n", NULL,
         "Line 2, column 2 (reading): “12..4” is not a weight");
  check (job, "part,reading\nPiston 1,-520\n", NULL,
         "Line 2, column 2 (reading): “-520” is below zero");
  check (job, "part,reading\nPiston 1,0.0\n", NULL,
         "Line 2, column 2 (reading): “0.0” is no weight of a part");
  check (job, "part,reading\nPiston 1,520.9004\n", NULL,
         "Line 2, column 2 (reading): “520.9004” is finer than a milligram");
  check (job, "part,reading\nPiston 1,520 stone\n", NULL,
         "Line 2, column 2 (reading): “520 stone” is not a weight");
  check (job, "part,reading\nPiston 1,100001\n", NULL,
         "Line 2, column 2 (reading): “100001” is heavier than any part of an engine");
  check (job, "part,reading\nPiston 1,about 520\n", NULL,
         "Line 2, column 2 (reading): “about 520” is not a weight");
  check (job, "part,reading,struck\nPiston 1,520,yes\nPiston 2,521,no\nPiston 3,522,maybe\n", NULL,
         "Line 2, column 3 (struck): “yes” says that the reading was struck out/"
         "piston-2 whole any 521000/"
         "Line 4, column 3 (struck): “maybe” is neither yes nor no");
}

/* A row with one bad cell gives nothing of its good ones. */
static void
test_not_half (void)
{
  g_autoptr (TgJob) job = new_job (TRUE, FALSE);
  g_autoptr (TgTableImport)
      import = import_with (job, "rod,small up,small down\n1,171.6,17l.7\n2,171.6,171.7\n", NULL);
  const TgTableRow *row = g_ptr_array_index (import->rows, 0);

  g_assert_cmpuint (row->events->len, ==, 0);
  g_assert_cmpstr (row->problem, ==, "Line 2, column 3 (small down): “17l.7” is not a weight");
  g_assert_cmpuint (import->n_problems, ==, 1);
  g_assert_cmpuint (import->n_new, ==, 2);
}

static void
test_marks (void)
{
  g_autoptr (TgJob) job = new_job (FALSE, TRUE);
  TgTableOptions options = { 0 };
  g_autoptr (TgTableImport) thirds = import_with (job, "piston;g\n1;1,520\n2;1,521\n", NULL);
  g_autoptr (TgTableImport) mixed = import_with (job, "piston;g\n1;5,1\n2;5,2\n3;5.3\n", NULL);
  g_autofree char *mixed_text = describe (mixed);

  g_assert_cmpuint (thirds->notes->len, ==, 1);
  g_assert_nonnull (strstr (g_ptr_array_index (thirds->notes, 0), "thousands"));
  g_assert_cmpuint (mixed->notes->len, ==, 1);
  g_assert_cmpstr (
      mixed_text, ==,
      "piston-1 whole any 5100/piston-2 whole any 5200/Line 4, column 2 (g): “5.3” has "
      "a point where decimals stand behind a comma");
  /* thousands are never guessed */
  check (job, "piston;g\n1;1.520,5\n", NULL,
         "Line 2, column 2 (g): “1.520,5” has a comma where decimals stand behind a point");
  options.marks[1] = '.';
  check (job, "piston;g\n1;520,5\n", &options,
         "Line 2, column 2 (g): “520,5” has a comma where decimals stand behind a point");
}

static void
test_options (void)
{
  g_autoptr (TgJob) job = new_job (TRUE, TRUE);
  TgTableOptions options = { 0 };
  g_autoptr (TgTableImport) import = NULL;

  options.columns[0] = TG_COLUMN_SMALL;
  options.columns[1] = TG_COLUMN_IGNORE;
  options.columns[2] = TG_COLUMN_PART;
  options.way = TG_WAY_MARK_DOWN;
  options.separator = ',';
  options.header = TG_TABLE_HEADER_NO;
  check (job, "171.6,9,Rod 1\n", &options, "rod-1 small-end mark-down 171600");
  options.header = TG_TABLE_HEADER_YES;
  check (job, "171.6,9,Rod 1\n171.7,9,Rod 2\n", &options, "rod-2 small-end mark-down 171700");
  /* what was guessed is told */
  import = import_with (job, "piston;weight\n1;520,5\n", NULL);
  g_assert_cmpint (import->options.separator, ==, ';');
  g_assert_cmpint (import->options.header, ==, TG_TABLE_HEADER_YES);
  g_assert_cmpint (import->options.columns[0], ==, TG_COLUMN_PART);
  g_assert_cmpint (import->options.columns[1], ==, TG_COLUMN_READING);
  g_assert_cmpint (import->options.marks[1], ==, ',');
  g_assert_cmpuint (import->n_columns, ==, 2);
  g_assert_cmpstr (g_ptr_array_index (import->titles, 1), ==, "weight");
}

static void
test_headings (void)
{
  g_autoptr (TgJob) job = new_job (FALSE, TRUE);

  /* what is not this job's reading is not taken for one */
  check (job, "piston,target weight,weight\n1,519,520\n", NULL, "piston-1 whole any 520000");
  /* a first row that names a part is no heading, even without a reading */
  check (job, "Piston 1,whole,\nPiston 2,whole,520\n", NULL,
         "Line 1: there is no reading in it/piston-2 whole any 520000");
  /* numbers under "id" are no ids of entries */
  check (job, "id,piston,weight\n7,1,520\n", NULL, "piston-1 whole any 520000");
  check (job, "id,weight\n1,520\n", NULL, "piston-1 whole any 520000");
}

/* Appends what is new and gives how much that was. */
static guint
take (TgJob *job, const char *text, const char *source)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TgTableImport)
      import = tg_table_import_new (job, text, strlen (text), source, NULL, &error);
  g_autoptr (GArray) events = NULL;

  g_assert_no_error (error);
  events = tg_table_import_new_events (import);
  for (guint i = 0; i < events->len; i++)
    {
      TgEvent event = g_array_index (events, TgEvent, i);

      event.stamp = (TgStamp){ 1772900000, 60 };
      g_assert_true (tg_job_append (job, &event, &error));
    }
  g_assert_cmpuint (events->len, ==, import->n_new);
  return events->len;
}

/* Law: importing twice changes nothing; see table-import.h for edited tables. */
static void
test_twice (void)
{
  g_autoptr (TgJob) job = new_job (FALSE, TRUE);
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);
  g_autofree char *first = NULL;

  g_assert_cmpuint (take (job, "piston,g\n1,520\n2,521\n1,520\n", "a"), ==, 3);
  g_assert_cmpuint (take (job, "piston,g\n1,520\n2,521\n1,520\n", "a"), ==, 0);
  /* the same in another form, sorted and with a row between */
  g_assert_cmpuint (take (job, "piston;g\r\n2;521,0\r\n1;520,0\r\n1;520,0\r\n", "a"), ==, 0);
  g_assert_cmpuint (take (job, "piston,g\n3,500\n1,520\n2,521\n1,520\n", "a"), ==, 1);
  /* a third equal reading, a changed one, a removed one */
  g_assert_cmpuint (take (job, "piston,g\n1,520\n2,521\n1,520\n1,520\n", "a"), ==, 1);
  g_assert_cmpuint (take (job, "piston,g\n2,521.5\n", "a"), ==, 1);
  g_assert_cmpuint (tg_job_n_events (job), ==, 6);
  /* another source is another table */
  g_assert_cmpuint (take (job, "piston,g\n1,520\n", "b"), ==, 1);
  /* what was struck out is not brought back */
  first = g_strdup (tg_job_event (job, 0)->id);
  strike.id = "strike";
  strike.refers = first;
  strike.stamp = (TgStamp){ 1772900001, 60 };
  g_assert_true (tg_job_append (job, &strike, NULL));
  g_assert_cmpuint (take (job, "piston,g\n1,520\n", "a"), ==, 0);
  g_assert_true (g_uuid_string_is_valid (first));
}

static void
test_ids (void)
{
  g_autoptr (TgJob) job = new_job (FALSE, TRUE);
  static const char once[] = "id,piston,g\n2ed6657d-e927-568b-95e1-2665a8aea6a2,1,520\n";
  static const char twice[] = "id,piston,g\n2ed6657d-e927-568b-95e1-2665a8aea6a2,1,520\n"
                              "2ed6657d-e927-568b-95e1-2665a8aea6a2,2,521\n";

  check (job, twice, NULL, "piston-1 whole any 520000/Line 3: its id stands in a row before");
  g_assert_cmpuint (take (job, once, "a"), ==, 1);
  g_assert_cmpuint (take (job, once, "b"), ==, 0);
  check (job, "id,piston,g\n2ed6657d-e927-568b-95e1-2665a8aea6a2,1,520.5\n", NULL,
         "Line 2, column 1 (id): “2ed6657d-e927-568b-95e1-2665a8aea6a2” is the id of another entry "
         "of this job");
}

static void
test_flags (void)
{
  g_autoptr (TgJob) job = new_job (FALSE, TRUE);
  g_autoptr (TgTableImport) import = import_with (
      job, "piston,g,kept,sent\n1,520,yes,\n2,521,No,YES\n3,522,maybe,no\n", NULL);
  const TgTableRow *first = g_ptr_array_index (import->rows, 0);
  const TgTableRow *second = g_ptr_array_index (import->rows, 1);
  const TgTableRow *third = g_ptr_array_index (import->rows, 2);

  g_assert_true (g_array_index (first->events, TgTableEvent, 0).event.kept);
  g_assert_false (g_array_index (first->events, TgTableEvent, 0).event.sent);
  g_assert_false (g_array_index (second->events, TgTableEvent, 0).event.kept);
  g_assert_true (g_array_index (second->events, TgTableEvent, 0).event.sent);
  g_assert_cmpstr (third->problem, ==, "Line 4, column 3 (kept): “maybe” is neither yes nor no");
}

static void
refuse (const TgJob *job, const char *text, const char *words)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (tg_table_import_new (job, text, strlen (text), "table", NULL, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_SYNTAX);
  g_assert_nonnull (strstr (error->message, words));
}

static void
test_refuse (void)
{
  g_autoptr (TgJob) job = new_job (TRUE, TRUE);

  refuse (job, "", "nothing in the table");
  refuse (job, " ;;\n\t;\n", "nothing in the table");
  refuse (job, "part,reading\n\"Rod 1,2\n", "line 2");
  refuse (job, "part,reading\nRod 1,2\xff\n", "UTF-8");
}

/* The columns can still be shown, so that the person can say what stands in them. */
static void
test_no_column (void)
{
  static const struct
  {
    const char *text, *words;
  } cases[] = { { "hello", "name the part" },
                { "part,figure\nRod 1,small\nRod 2,small\n", "have readings" },
                { "small up,small down\n1,2\n", "name the part" } };
  g_autoptr (TgJob) job = new_job (TRUE, TRUE);
  TgTableOptions options = { .columns = { TG_COLUMN_SMALL_UP, TG_COLUMN_PART } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TgTableImport) import = import_with (job, cases[i].text, NULL);

      g_assert_nonnull (strstr (import->problem, cases[i].words));
      g_assert_cmpuint (import->n_new + import->n_known, ==, 0);
      g_assert_cmpuint (import->n_problems, ==, import->rows->len);
      for (guint r = 0; r < import->rows->len; r++)
        {
          const TgTableRow *row = g_ptr_array_index (import->rows, r);

          g_assert_nonnull (strstr (row->problem, "before it is known"));
          g_assert_cmpuint (row->cells->len, >, 0);
        }
    }
  check (job, "small up,small down\n171.6,Rod 2\n", &options, "rod-2 small-end mark-up 171600");
}

/* A table that comes again under another name is told; a single equal reading is nothing unusual. */
static void
test_alike (void)
{
  static const char table[] = "piston,g\n1,520\n2,521\n";
  g_autoptr (TgJob) job = new_job (FALSE, TRUE);
  g_autoptr (TgTableImport) same = NULL, one = NULL, more = NULL;

  g_assert_cmpuint (take (job, table, "a"), ==, 2);
  same = import_with (job, table, NULL);
  g_assert_cmpuint (same->n_new, ==, 2);
  g_assert_cmpuint (same->notes->len, ==, 1);
  g_assert_nonnull (strstr (g_ptr_array_index (same->notes, 0), "in the journal already"));
  one = import_with (job, "piston,g\n1,520\n", NULL);
  g_assert_cmpuint (one->notes->len, ==, 0);
  more = import_with (job, "piston,g\n1,520\n2,521\n3,522\n", NULL);
  g_assert_cmpuint (more->notes->len, ==, 0);
}

/* Ends that do not say a way up: one row may be a slip, of several the person is told what to do. */
static void
test_wayless (void)
{
  g_autoptr (TgJob) job = new_job (TRUE, FALSE);
  g_autoptr (TgTableImport) one = import_with (job, "rod,small,big up\n1,2,\n2,,3\n", NULL);
  g_autoptr (TgTableImport) all = import_with (job, "rod,small\n1,2\n2,3\n", NULL);

  g_assert_cmpuint (one->n_problems, ==, 1);
  g_assert_cmpuint (one->notes->len, ==, 0);
  g_assert_cmpuint (all->n_problems, ==, 2);
  g_assert_cmpuint (all->notes->len, ==, 1);
  g_assert_nonnull (strstr (g_ptr_array_index (all->notes, 0), "same way up"));
}

static void
test_mark (void)
{
  g_autoptr (TgJob) job = new_job (TRUE, FALSE);
  g_autoptr (TgTableImport) comma = import_with (job, "rod;small up;big up\n1;1,5;2,5\n", NULL);
  g_autoptr (TgTableImport) mixed = import_with (job, "rod;small up;big up\n1;1,5;2.5\n", NULL);

  g_assert_cmpint (tg_table_import_mark (comma), ==, ',');
  g_assert_cmpint (tg_table_import_mark (mixed), ==, 0);
}

/* Law: whatever is cut off or changed in a table, no reading appears that is not in it. */
static void
test_damaged (void)
{
  static const char text[] =
      "Rod;Small up;Small down;Big up;Big down\r\n1;171,6;171,7;412,3;412,4\r\n"
      "\"Rod 2\";171,5;171,4;412,1;412,2\r\n";
  static const char bytes[] = "\"; \r\n,.-1a\xff\t";
  g_autoptr (TgJob) job = new_job (TRUE, FALSE);
  gsize size = strlen (text);

  for (gsize at = 0; at <= size; at++)
    for (gsize b = 0; b < strlen (bytes); b++)
      {
        g_autofree char *damaged = g_strdup (text);
        g_autoptr (TgTableImport) import = NULL;

        if (at < size)
          damaged[at] = bytes[b];
        import = tg_table_import_new (job, damaged, b ? size : at, "table", NULL, NULL);
        for (guint r = 0; import && r < import->rows->len; r++)
          {
            const TgTableRow *row = g_ptr_array_index (import->rows, r);

            g_assert_true ((row->problem != NULL) == (row->events->len == 0));
            for (guint e = 0; e < row->events->len; e++)
              {
                const TgTableEvent *event = &g_array_index (row->events, TgTableEvent, e);
                TgMass mass;
                g_autoptr (GString)
                    cell = g_string_new (g_ptr_array_index (row->cells, event->column));

                g_string_replace (cell, ",", ".", 0);
                g_strstrip (cell->str);
                g_assert_true (tg_mass_parse (cell->str, &mass, NULL));
                g_assert_cmpint (event->event.mass, ==, mass);
              }
          }
      }
}

static void
test_labels (void)
{
  for (guint c = 0; c < TG_N_COLUMNS; c++)
    g_assert_cmpuint (strlen (tg_column_label ((TgColumn) c)), >, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/table-import/wide", test_wide);
  g_test_add_func ("/table-import/long", test_long);
  g_test_add_func ("/table-import/kinds", test_kinds);
  g_test_add_func ("/table-import/kinds-unsure", test_kinds_unsure);
  g_test_add_func ("/table-import/kinds-wide", test_kinds_wide);
  g_test_add_func ("/table-import/problems", test_problems);
  g_test_add_func ("/table-import/not-half", test_not_half);
  g_test_add_func ("/table-import/marks", test_marks);
  g_test_add_func ("/table-import/options", test_options);
  g_test_add_func ("/table-import/headings", test_headings);
  g_test_add_func ("/table-import/twice", test_twice);
  g_test_add_func ("/table-import/ids", test_ids);
  g_test_add_func ("/table-import/flags", test_flags);
  g_test_add_func ("/table-import/refuse", test_refuse);
  g_test_add_func ("/table-import/no-column", test_no_column);
  g_test_add_func ("/table-import/alike", test_alike);
  g_test_add_func ("/table-import/wayless", test_wayless);
  g_test_add_func ("/table-import/mark", test_mark);
  g_test_add_func ("/table-import/damaged", test_damaged);
  g_test_add_func ("/table-import/labels", test_labels);
  return g_test_run ();
}
