/* test-job.c: the journal: what it takes, what it strikes, how two are merged
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <string.h>

#include "error.h"
#include "job.h"
#include "library.h"
#include "storable.h"

/* One spare of each. */
static void
add_plain (TgSetup *setup, TgPartKind kind)
{
  TgDesign *design = tg_design_new (kind);

  g_free (design->id);
  design->id = g_strdup (tg_part_kind_to_word (kind));
  tg_setup_add_design (setup, design);
  tg_setup_add_set (setup, design, 1);
}

static TgSetup *
bench_setup (void)
{
  g_autoptr (TgLibrary) library = tg_library_load (NULL);
  TgSetup *setup = tg_setup_new ();
  static const char *const ids[] = { "rod-i", "piston-full" };

  setup->cylinders = 2;
  setup->resolution = 100;
  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      TgDesign *design = tg_design_copy (tg_library_find_design (library, ids[i]));

      tg_setup_add_design (setup, design);
      tg_setup_add_set (setup, design, 0);
    }
  add_plain (setup, TG_PART_PIN);
  add_plain (setup, TG_PART_RINGS);
  return setup;
}

static TgJob *
bench_job (void)
{
  return tg_job_new (bench_setup ());
}

static void
append (TgJob *job, TgEvent event, const char *id, gint64 seconds)
{
  g_autoptr (GError) error = NULL;

  event.id = id;
  event.stamp.seconds = seconds;
  g_assert_true (tg_job_append (job, &event, &error));
  g_assert_no_error (error);
}

static TgEvent
note (const char *text)
{
  TgEvent event = tg_event_blank (TG_EVENT_NOTE);

  event.text = text;
  return event;
}

static TgEvent
strike (const char *refers)
{
  TgEvent event = tg_event_blank (TG_EVENT_STRIKE);

  event.refers = refers;
  return event;
}

static TgEvent
weighing (const char *part, TgFigure figure, TgWay way, TgMass mass)
{
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);

  event.part = part;
  event.figure = figure;
  event.way = way;
  event.mass = mass;
  return event;
}

static TgEvent
pass (const char *part, const char *zone, TgMass mass)
{
  TgEvent event = tg_event_blank (TG_EVENT_PASS);

  event.part = part;
  event.zone = zone;
  event.mass = mass;
  return event;
}

static TgEvent
counted (TgEvent event, TgEffort effort, guint count)
{
  event.effort = effort;
  event.count = count;
  return event;
}

static TgEvent
zero (TgMass mass)
{
  TgEvent event = tg_event_blank (TG_EVENT_ZERO);

  event.mass = mass;
  event.set_back = TRUE;
  event.sent = TRUE;
  return event;
}

static TgEvent
check_weight (TgMass nominal, TgMass mass)
{
  TgEvent event = tg_event_blank (TG_EVENT_CHECK_WEIGHT);

  event.nominal = nominal;
  event.mass = mass;
  return event;
}

static TgEvent
target (TgMass mass, gboolean automatic)
{
  TgEvent event = tg_event_blank (TG_EVENT_TARGET);

  event.mass = mass;
  event.automatic = automatic;
  return event;
}

static TgEvent
of_part (TgEventKind kind, const char *part)
{
  TgEvent event = tg_event_blank (kind);

  event.part = part;
  return event;
}

static TgEvent
set (const char *path, const char *value)
{
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  event.path = path;
  event.value = value;
  return event;
}

static TgEvent
pair (const char *places)
{
  TgEvent event = tg_event_blank (TG_EVENT_PAIR);

  event.places = places;
  return event;
}

static TgEvent
rule (const char *part, TgRule which, const char *other, guint bore)
{
  TgEvent event = tg_event_blank (TG_EVENT_RULE);

  event.part = part;
  event.rule = which;
  event.other = other;
  event.bore = bore;
  event.on = TRUE;
  return event;
}

static TgEvent
at (TgEvent event, gint64 seconds, int offset)
{
  event.stamp.seconds = seconds;
  event.stamp.offset_min = offset;
  return event;
}

static TgEvent
named (TgEvent event, const char *id)
{
  event.id = id;
  return event;
}

#define FINE -1

static void
test_append (void)
{
  g_autofree char *long_text = g_strnfill (4001, 't');
  g_autofree char *long_places = g_strnfill (TG_STORABLE_PLACES + 1, 'p');
  const struct
  {
    TgEvent event;
    int code;
    gboolean own_id; /* else "x" */
  } rows[] = {
    { weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 1), FINE, FALSE },
    { weighing ("rod-1", TG_FIGURE_WHOLE, TG_WAY_ANY, TG_MASS_MAX), FINE, FALSE },
    { weighing ("piston-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 300000), FINE, FALSE },
    { weighing ("rod-3", TG_FIGURE_WHOLE, TG_WAY_ANY, 1000), TG_ERROR_UNKNOWN, FALSE },
    { weighing ("", TG_FIGURE_WHOLE, TG_WAY_ANY, 1000), TG_ERROR_UNKNOWN, FALSE },
    { weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_ANY, 1000), TG_ERROR_RANGE, FALSE },
    { weighing ("rod-1", TG_FIGURE_WHOLE, TG_WAY_MARK_UP, 1000), TG_ERROR_RANGE, FALSE },
    { weighing ("piston-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 1000), TG_ERROR_RANGE, FALSE },
    { weighing ("piston-1", TG_FIGURE_WHOLE, TG_WAY_MARK_DOWN, 1000), TG_ERROR_RANGE, FALSE },
    { weighing ("rod-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 0), TG_ERROR_RANGE, FALSE },
    { weighing ("rod-1", TG_FIGURE_WHOLE, TG_WAY_ANY, -5), TG_ERROR_RANGE, FALSE },
    { weighing ("rod-1", TG_FIGURE_WHOLE, TG_WAY_ANY, TG_MASS_MAX + 1), TG_ERROR_RANGE, FALSE },
    { pass ("rod-1", "cap-pad", 500), FINE, FALSE },
    { pass ("rod-1", "cap-pad", 0), FINE, FALSE },
    { pass ("rod-1", "beam", 500), FINE,
      FALSE }, /* it happened; the review says what it thinks of it */
    { pass ("rod-1", "boss-feet", 500), TG_ERROR_UNKNOWN, FALSE },
    { pass ("rod-9", "cap-pad", 500), TG_ERROR_UNKNOWN, FALSE },
    { pass ("rod-1", "cap-pad", -1), TG_ERROR_RANGE, FALSE },
    { counted (pass ("rod-1", "cap-pad", 500), TG_EFFORT_STROKES, 12), FINE, FALSE },
    { counted (pass ("rod-1", "cap-pad", 0), TG_EFFORT_SECONDS, TG_MAX_EFFORT), FINE, FALSE },
    { counted (pass ("rod-1", "cap-pad", 0), TG_EFFORT_STROKES, 0), TG_ERROR_RANGE, FALSE },
    { counted (pass ("rod-1", "cap-pad", 0), TG_EFFORT_SECONDS, TG_MAX_EFFORT + 1), TG_ERROR_RANGE,
      FALSE },
    { zero (0), FINE, FALSE },
    { zero (-100), FINE, FALSE },
    { zero (TG_MAX_ZERO), FINE, FALSE },
    { zero (-TG_MAX_ZERO - 1), TG_ERROR_RANGE, FALSE },
    { check_weight (200000, 200100), FINE, FALSE },
    { check_weight (0, 200100), TG_ERROR_RANGE, FALSE },
    { check_weight (200000, 0), TG_ERROR_RANGE, FALSE },
    { check_weight (TG_MASS_MAX + 1, 200000), TG_ERROR_RANGE, FALSE },
    { target (171000, FALSE), FINE, FALSE },
    { target (0, TRUE), FINE, FALSE },
    { target (0, FALSE), TG_ERROR_RANGE, FALSE },
    { of_part (TG_EVENT_FREEZE, "rod-1"), FINE, FALSE },
    { of_part (TG_EVENT_FREEZE, ""), TG_ERROR_UNKNOWN, FALSE },
    { of_part (TG_EVENT_REPLACE, "piston-1"), FINE, FALSE },
    { of_part (TG_EVENT_REPLACE, "crank"), TG_ERROR_UNKNOWN, FALSE },
    { of_part (TG_EVENT_NOTE, ""), FINE, FALSE },
    { of_part (TG_EVENT_NOTE, "rod-2"), FINE, FALSE },
    { of_part (TG_EVENT_NOTE, "crank"), TG_ERROR_UNKNOWN, FALSE },
    { set ("rod-i.centres", "150.5"), FINE, FALSE },
    { set ("rod-i.centres", "50"), FINE, FALSE }, /* a matter of the moment */
    { set ("rod-i.centres", "5"), TG_ERROR_RANGE, FALSE },
    { set ("rod-i.centres", "five"), TG_ERROR_SYNTAX, FALSE },
    { set ("rod-i.beam.use", "yes"), TG_ERROR_RANGE, FALSE },
    { set ("rod-i.colour", "red"), TG_ERROR_UNKNOWN, FALSE },
    { set ("sum.pin", "no"), FINE, FALSE },
    { set ("sum.rod", "only"), FINE, FALSE },
    { set ("sum.bearings", "no"), FINE, FALSE }, /* though there are none */
    { set ("sum.rod", "yes"), TG_ERROR_SYNTAX, FALSE },
    { set ("sum.piston", "no"), TG_ERROR_SYNTAX, FALSE },
    { set ("pin.density", "7.85"), TG_ERROR_UNKNOWN, FALSE },
    { weighing ("pin-3", TG_FIGURE_WHOLE, TG_WAY_ANY, 98000), FINE, FALSE },
    { weighing ("pin-3", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 98000), TG_ERROR_RANGE, FALSE },
    { weighing ("rings-1", TG_FIGURE_WHOLE, TG_WAY_MARK_UP, 40000), TG_ERROR_RANGE, FALSE },
    { pass ("pin-1", "cap-pad", 500), TG_ERROR_UNKNOWN, FALSE },
    { of_part (TG_EVENT_FREEZE, "rings-3"), FINE, FALSE },
    { of_part (TG_EVENT_REPLACE, "pin-2"), FINE, FALSE },
    { pair ("pin-1:2 pin-2:1 pin-3:0"), FINE, FALSE },
    { pair ("pin-1:0 pin-2:0 pin-3:0"), FINE, FALSE },
    { pair ("rod-1:2 rod-2:1 piston-1:1 piston-2:2"), FINE, FALSE },
    { pair (""), TG_ERROR_SYNTAX, FALSE },
    { pair ("pin-1"), TG_ERROR_SYNTAX, FALSE },
    { pair ("pin-1:2 pin-2:1"), TG_ERROR_RANGE, FALSE },
    { pair ("pin-1:3 pin-2:1 pin-3:0"), TG_ERROR_RANGE, FALSE },
    { pair ("pin-1:1 pin-2:1 pin-3:0"), TG_ERROR_DUPLICATE, FALSE },
    { pair ("pin-1:1 pin-1:2 pin-3:0"), TG_ERROR_DUPLICATE, FALSE },
    { pair ("pin-1:1 pin-2:2 pin-4:0"), TG_ERROR_UNKNOWN, FALSE },
    { pair ("\xff:1"), TG_ERROR_SYNTAX, FALSE },
    { pair (long_places), TG_ERROR_RANGE, FALSE },
    { rule ("pin-1", TG_RULE_TOGETHER, "piston-2", 0), FINE, FALSE },
    { rule ("pin-1", TG_RULE_APART, "rod-1", 0), FINE, FALSE },
    { rule ("rings-3", TG_RULE_BORE, "", 2), FINE, FALSE },
    { rule ("rod-1", TG_RULE_BORE, "", 1), FINE, FALSE },
    { rule ("", TG_RULE_BORE, "", 1), TG_ERROR_UNKNOWN, FALSE },
    { rule ("crank", TG_RULE_APART, "pin-1", 0), TG_ERROR_UNKNOWN, FALSE },
    { rule ("pin-1", TG_RULE_TOGETHER, "", 0), TG_ERROR_UNKNOWN, FALSE },
    { rule ("pin-1", TG_RULE_TOGETHER, "crank", 0), TG_ERROR_UNKNOWN, FALSE },
    { rule ("pin-1", TG_RULE_TOGETHER, "pin-1", 0), TG_ERROR_RANGE, FALSE },
    { rule ("pin-1", TG_RULE_APART, "pin-2", 0), TG_ERROR_RANGE, FALSE },
    { rule ("pin-1", TG_RULE_BORE, "", 0), TG_ERROR_RANGE, FALSE },
    { rule ("pin-1", TG_RULE_BORE, "", 3), TG_ERROR_RANGE, FALSE },
    { rule ("pin-1", TG_RULE_TOGETHER, long_text, 0), TG_ERROR_RANGE, FALSE },
    { strike ("first"), FINE, FALSE },
    { strike ("nothing"), TG_ERROR_UNKNOWN, FALSE },
    { strike (""), TG_ERROR_UNKNOWN, FALSE },
    { strike ("x"), TG_ERROR_UNKNOWN, FALSE }, /* itself */
    { note ("tab\t, line\n, Ω"), FINE, FALSE },
    { note ("\x07"), TG_ERROR_SYNTAX, FALSE },
    { note ("\xe9"), TG_ERROR_SYNTAX, FALSE },
    { note (long_text), TG_ERROR_RANGE, FALSE },
    { named (note (""), ""), TG_ERROR_SYNTAX, TRUE },
    { named (note (""), "first"), TG_ERROR_DUPLICATE, TRUE },
    { named (note (""), long_text), TG_ERROR_RANGE, TRUE },
    { at (note (""), -62135596800, 0), FINE, FALSE },
    { at (note (""), -62135596801, 0), TG_ERROR_SYNTAX, FALSE },
    { at (note (""), -62135596801, 1), FINE, FALSE },
    { at (note (""), 253402300799, 0), FINE, FALSE },
    { at (note (""), 253402300800, 0), TG_ERROR_SYNTAX, FALSE },
    { at (note (""), G_MAXINT64, 0), TG_ERROR_SYNTAX, FALSE },
    { at (note (""), G_MININT64, 0), TG_ERROR_SYNTAX, FALSE },
    { at (note (""), 0, 1440), TG_ERROR_SYNTAX, FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (TgJob) job = bench_job ();
      g_autoptr (GError) error = NULL;
      TgEvent event = rows[i].event;

      append (job, note (""), "first", 0);
      if (!rows[i].own_id)
        event.id = "x";
      g_test_message ("row %u", i);
      g_assert_cmpint (tg_job_append (job, &event, &error), ==, rows[i].code == FINE);
      if (rows[i].code == FINE)
        {
          g_assert_no_error (error);
          g_assert_cmpuint (tg_job_n_events (job), ==, 2);
          g_assert_true (tg_event_equal (tg_job_event (job, 1), &event));
          continue;
        }
      g_assert_error (error, TG_ERROR, rows[i].code);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_assert_cmpuint (tg_job_n_events (job), ==, 1);
      g_assert_cmpint (tg_job_find_event (job, "x"), ==, -1);
    }
}

/* Only what matters to a kind is kept, and the strings are the job's own. */
static void
test_plain (void)
{
  g_autoptr (TgJob) job = bench_job ();
  char id[] = "id-1";
  TgEvent event = note ("text");
  const TgEvent *kept;

  event.zone = "cap-pad";
  event.mass = 77;
  event.on = TRUE;
  append (job, event, id, 5);
  id[0] = 'X';
  kept = tg_job_event (job, 0);
  g_assert_cmpstr (kept->id, ==, "id-1");
  g_assert_cmpstr (kept->zone, ==, "");
  g_assert_cmpint (kept->mass, ==, 0);
  g_assert_false (kept->on);
  event = target (500, TRUE);
  append (job, event, "id-2", 6);
  g_assert_cmpint (tg_job_event (job, 1)->mass, ==, 0);
  event = rule ("pin-1", TG_RULE_BORE, "rod-1", 2);
  event.places = "pin-1:2";
  append (job, event, "id-3", 7);
  kept = tg_job_event (job, 2);
  g_assert_cmpstr (kept->other, ==, "");
  g_assert_cmpuint (kept->bore, ==, 2);
  g_assert_cmpstr (kept->places, ==, "");
  event = rule ("pin-1", TG_RULE_APART, "rod-1", 2);
  append (job, event, "id-4", 8);
  g_assert_cmpuint (tg_job_event (job, 3)->bore, ==, 0);
  event = pair ("pin-1:2 pin-2:1 pin-3:0");
  event.part = "pin-1";
  event.other = "rod-1";
  event.bore = 2;
  event.on = TRUE;
  append (job, event, "id-5", 9);
  kept = tg_job_event (job, 4);
  g_assert_cmpstr (kept->part, ==, "");
  g_assert_cmpstr (kept->other, ==, "");
  g_assert_cmpuint (kept->bore, ==, 0);
  g_assert_false (kept->on);
}

/* Every field that a pairing or a rule has counts. */
static void
test_equal (void)
{
  TgEvent together = rule ("pin-1", TG_RULE_TOGETHER, "rod-1", 0), off = together;
  const TgEvent events[] = {
    together,
    rule ("pin-2", TG_RULE_TOGETHER, "rod-1", 0),
    rule ("pin-1", TG_RULE_TOGETHER, "rod-2", 0),
    rule ("pin-1", TG_RULE_APART, "rod-1", 0),
    rule ("pin-1", TG_RULE_BORE, "", 1),
    rule ("pin-1", TG_RULE_BORE, "", 2),
    pair ("pin-1:1 pin-2:2 pin-3:0"),
    pair ("pin-1:2 pin-2:1 pin-3:0"),
  };

  for (guint i = 0; i < G_N_ELEMENTS (events); i++)
    for (guint j = 0; j < G_N_ELEMENTS (events); j++)
      g_assert_cmpint (tg_event_equal (&events[i], &events[j]), ==, i == j);
  off.on = FALSE;
  g_assert_false (tg_event_equal (&together, &off));
}

static void
test_copy (void)
{
  g_autoptr (TgJob) job = bench_job (), copy = NULL;

  append (job, pair ("pin-1:2 pin-2:1 pin-3:0"), "p", 1);
  append (job, rule ("pin-1", TG_RULE_TOGETHER, "piston-2", 0), "r", 2);
  append (job, rule ("pin-3", TG_RULE_BORE, "", 2), "b", 3);
  append (job, strike ("p"), "s", 4);
  copy = tg_job_copy (job);
  g_assert_true (tg_setup_equal (tg_job_setup (job), tg_job_setup (copy)));
  g_assert_true (tg_job_setup (job) != tg_job_setup (copy));
  g_assert_cmpuint (tg_job_n_events (copy), ==, 4);
  for (guint i = 0; i < 4; i++)
    g_assert_true (tg_event_equal (tg_job_event (job, i), tg_job_event (copy, i)));
  append (copy, note ("more"), "n", 5);
  g_assert_cmpuint (tg_job_n_events (job), ==, 4);
}

/* A strike that comes later is not in force yet. */
static void
test_first (void)
{
  g_autoptr (TgJob) job = bench_job ();
  g_autoptr (TgJob) none = NULL;
  g_autoptr (TgJob) first = NULL;
  g_autofree gboolean *struck = NULL;

  append (job, note ("a"), "a", 1);
  append (job, note ("b"), "b", 2);
  append (job, strike ("a"), "c", 3);
  none = tg_job_first (job, 0);
  first = tg_job_first (job, 2);
  g_assert_cmpuint (tg_job_n_events (none), ==, 0);
  g_assert_true (tg_setup_equal (tg_job_setup (none), tg_job_setup (job)));
  g_assert_cmpuint (tg_job_n_events (first), ==, 2);
  g_assert_true (tg_event_equal (tg_job_event (first, 1), tg_job_event (job, 1)));
  struck = tg_job_struck (first);
  g_assert_false (struck[0]);
}

static void
test_drop_last (void)
{
  g_autoptr (TgJob) job = bench_job ();

  append (job, note ("a"), "a", 1);
  append (job, note ("b"), "b", 2);
  tg_job_drop_last (job);
  g_assert_cmpuint (tg_job_n_events (job), ==, 1);
  g_assert_cmpint (tg_job_find_event (job, "b"), ==, -1);
  g_assert_cmpint (tg_job_find_event (job, "a"), ==, 0);
  append (job, note ("again"), "b", 3);
  g_assert_cmpint (tg_job_find_event (job, "b"), ==, 1);
  g_assert_cmpstr (tg_job_event (job, 1)->text, ==, "again");
}

static void
test_struck (void)
{
  g_autoptr (TgJob) job = bench_job ();
  static const gboolean expected[] = { TRUE, FALSE, FALSE, TRUE, TRUE, FALSE, FALSE };
  g_autofree gboolean *struck = NULL;

  append (job, note ("wrong"), "a", 1);
  append (job, note ("right after all"), "b", 2);
  append (job, strike ("a"), "strike-a", 3);
  append (job, strike ("b"), "strike-b", 4); /* struck by the next but one */
  append (job, note ("wrong too"), "c", 5);
  append (job, strike ("strike-b"), "unstrike", 6); /* so b stands again */
  append (job, strike ("c"), "strike-c", 7);
  struck = tg_job_struck (job);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_cmpint (struck[i], ==, expected[i]);

  /* a strike of the strike of the strike: b is out again */
  g_clear_pointer (&struck, g_free);
  append (job, strike ("unstrike"), "once-more", 8);
  struck = tg_job_struck (job);
  g_assert_true (struck[1]);
  g_assert_true (struck[5]);
  g_assert_false (struck[3]);
}

static void
test_struck_twice (void)
{
  g_autoptr (TgJob) job = bench_job ();
  g_autofree gboolean *struck = NULL;

  append (job, note (""), "a", 1);
  append (job, strike ("a"), "s1", 2);
  append (job, strike ("a"), "s2", 3);
  append (job, strike ("s1"), "u1", 4);
  struck = tg_job_struck (job);
  g_assert_true (struck[0]); /* s2 still holds */
}

/* -- merging --------------------------------------------------------------------------------- */

static void
assert_order (const TgJob *job, const char *ids)
{
  GString *found = g_string_new (NULL);

  for (guint i = 0; i < tg_job_n_events (job); i++)
    g_string_append_printf (found, "%s%s", i ? " " : "", tg_job_event (job, i)->id);
  g_assert_cmpstr (found->str, ==, ids);
  g_string_free (found, TRUE);
}

static void
assert_equal_journals (const TgJob *a, const TgJob *b)
{
  g_assert_cmpuint (tg_job_n_events (a), ==, tg_job_n_events (b));
  for (guint i = 0; i < tg_job_n_events (a); i++)
    g_assert_true (tg_event_equal (tg_job_event (a, i), tg_job_event (b, i)));
}

static void
assert_merges (const TgJob *a, const TgJob *b, const char *ids)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TgJob) ab = tg_job_merge (a, b, &error);
  g_autoptr (TgJob) ba = tg_job_merge (b, a, &error);
  g_autoptr (TgJob) again = NULL, itself = NULL;

  g_assert_no_error (error);
  assert_order (ab, ids);
  assert_order (ba, ids);
  again = tg_job_merge (ab, b, &error);
  itself = tg_job_merge (ab, ab, &error);
  g_assert_no_error (error);
  assert_order (again, ids);
  assert_order (itself, ids);
  assert_equal_journals (ab, ba);
  assert_equal_journals (ab, again);
}

static void
test_merge (void)
{
  g_autoptr (TgJob) a = bench_job (), b = bench_job ();

  append (a, note ("both"), "c1", 10);
  append (b, note ("both"), "c1", 10);
  append (a, note (""), "a1", 20);
  append (b, note (""), "b1", 15);
  append (b, note (""), "b2", 20);
  append (a, strike ("c1"), "a2", 30);
  assert_merges (a, b, "c1 b1 a1 b2 a2");
}

/* Within a second and across a clock set back, each bench's own order holds. */
static void
test_merge_keeps_order (void)
{
  g_autoptr (TgJob) a = bench_job (), b = bench_job (), merged = NULL;
  g_autofree gboolean *struck = NULL;

  append (a, note (""), "z", 50);
  append (a, strike ("z"), "a", 50); /* its id comes first, it must not */
  append (a, note (""), "m", 40);    /* clock set back */
  append (b, note (""), "n", 45);
  assert_merges (a, b, "n z a m");
  merged = tg_job_merge (a, b, NULL);
  struck = tg_job_struck (merged);
  g_assert_true (struck[1]);
}

static void
test_merge_empty (void)
{
  g_autoptr (TgJob) a = bench_job (), b = bench_job ();

  assert_merges (a, b, "");
  append (a, note (""), "x", 1);
  assert_merges (a, b, "x");
}

/* Law over random journals: union, order of both kept, nothing twice, either way round the same. */
static void
test_merge_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (23);

  for (guint round = 0; round < 200; round++)
    {
      g_autoptr (TgJob) a = bench_job (), b = bench_job (), ab = NULL, ba = NULL;
      int shared = g_rand_int_range (rand, 0, 6), n = g_rand_int_range (rand, 0, 20), last = -1;

      for (int i = 0; i < shared + n; i++)
        {
          g_autofree char *id = g_strdup_printf ("%08x", g_rand_int (rand));
          gint64 seconds = g_rand_int_range (rand, 0, 10);
          gboolean left = g_rand_boolean (rand);

          if (i < shared || left)
            append (a, note (""), id, seconds);
          if (i < shared || !left)
            append (b, note (""), id, seconds);
        }
      ab = tg_job_merge (a, b, NULL);
      ba = tg_job_merge (b, a, NULL);
      g_assert_cmpuint (tg_job_n_events (ab), ==, (guint) (shared + n));
      for (guint i = 0; i < tg_job_n_events (ab); i++)
        g_assert_cmpstr (tg_job_event (ab, i)->id, ==, tg_job_event (ba, i)->id);
      for (guint i = 0; i < tg_job_n_events (a); i++)
        {
          int now = tg_job_find_event (ab, tg_job_event (a, i)->id);

          g_assert_cmpint (now, >, last);
          last = now;
        }
    }
}

/* -- the same facts with other stamps and names ------------------------------------------------ */

static TgEvent
reading (TgMass mass)
{
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);

  event.part = "piston-1";
  event.figure = TG_FIGURE_WHOLE;
  event.mass = mass;
  return event;
}

static void
append_by (TgJob *job, TgEvent event, const char *id, gint64 seconds, int offset, const char *who)
{
  event.id = id;
  event.who = who;
  event.stamp = (TgStamp){ seconds, offset };
  g_assert_true (tg_job_append (job, &event, NULL));
}

static void
assert_stamp (const TgJob *job, const char *id, gint64 seconds, int offset, const char *who)
{
  const TgEvent *event = tg_job_event (job, (guint) tg_job_find_event (job, id));

  g_assert_cmpint (event->stamp.seconds, ==, seconds);
  g_assert_cmpint (event->stamp.offset_min, ==, offset);
  g_assert_cmpstr (event->who, ==, who);
}

/* One table imported at two benches: each fact once, as it was first written down. */
static void
test_merge_same_facts (void)
{
  g_autoptr (TgJob) a = bench_job (), b = bench_job (), merged = NULL;

  append_by (a, reading (520000), "r1", 10, 60, "Nora");
  append_by (a, reading (521000), "r2", 10, 60, "Nora");
  append_by (a, reading (522000), "r3", 30, 60, "Nora");
  append_by (a, reading (523000), "r4", 40, 60, "Nora");
  append_by (b, reading (520000), "r1", 20, 0, "Ilse");
  append_by (b, reading (521000), "r2", 20, 0, "Ilse");
  append_by (b, reading (522000), "r3", 30, 60, "Ilse"); /* the same second: the lesser name */
  append_by (b, reading (523000), "r4", 40, 0, "Nora");  /* the same name: the lesser offset */
  assert_merges (a, b, "r1 r2 r3 r4");
  merged = tg_job_merge (a, b, NULL);
  assert_stamp (merged, "r1", 10, 60, "Nora");
  assert_stamp (merged, "r2", 10, 60, "Nora");
  assert_stamp (merged, "r3", 30, 60, "Ilse");
  assert_stamp (merged, "r4", 40, 0, "Nora");
  for (guint i = 0; i < 3; i++)
    {
      TgJob *again = tg_job_merge (merged, i % 2 ? a : b, NULL);

      assert_equal_journals (merged, again);
      tg_job_free (merged);
      merged = again;
    }
}

/* What one bench struck out of the table stays struck, also where the other took it later. */
static void
test_merge_same_facts_struck (void)
{
  g_autoptr (TgJob) a = bench_job (), b = bench_job (), merged = NULL;
  g_autofree gboolean *struck = NULL;

  append_by (a, reading (520000), "r1", 10, 0, "Nora");
  append_by (a, strike ("r1"), "s1", 11, 0, "Nora");
  append_by (a, reading (521000), "r2", 10, 0, "Nora");
  append_by (b, reading (521000), "r2", 50, 0, "Ilse"); /* their table was sorted otherwise */
  append_by (b, reading (520000), "r1", 50, 0, "Ilse");
  append_by (b, strike ("r2"), "s2", 51, 0, "Ilse");
  append_by (b, strike ("s2"), "u2", 52, 0, "Ilse");
  assert_merges (a, b, "r1 s1 r2 s2 u2");
  merged = tg_job_merge (b, a, NULL);
  struck = tg_job_struck (merged);
  g_assert_true (struck[0]);
  g_assert_false (struck[2]);
}

/* Anything else that differs is no longer the same fact. */
static void
test_merge_other_facts (void)
{
  TgEvent kept = reading (520000), heavier = reading (520100), sent = reading (520000);
  const TgEvent *others[] = { &kept, &heavier, &sent };

  kept.kept = TRUE;
  sent.sent = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (others); i++)
    {
      g_autoptr (TgJob) a = bench_job (), b = bench_job ();
      g_autoptr (GError) error = NULL;

      append_by (a, reading (520000), "r1", 10, 0, "Nora");
      append_by (b, *others[i], "r1", 10, 0, "Nora");
      g_assert_null (tg_job_merge (a, b, &error));
      g_assert_error (error, TG_ERROR, TG_ERROR_DUPLICATE);
    }
}

/* Law over random journals that share facts in any order, with other stamps and names, and strikes. */
static void
test_merge_same_facts_random (void)
{
  static const char *const names[] = { "Ada", "Bo" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (29);

  for (guint round = 0; round < 300; round++)
    {
      g_autoptr (TgJob) a = bench_job (), b = bench_job (), ab = NULL, ba = NULL;
      TgJob *const jobs[] = { a, b };

      for (guint i = 0; i < 24; i++)
        {
          TgJob *job = jobs[i % 2];
          int fact = g_rand_int_range (rand, 0, 8);
          g_autofree char *id = g_strdup_printf ("f%d", fact);
          g_autofree char *own = g_strdup_printf ("x%08x", g_rand_int (rand));
          gboolean there = tg_job_find_event (job, id) >= 0;

          append_by (job, there ? strike (id) : reading (520000 + fact), there ? own : id,
                     g_rand_int_range (rand, 0, 4), g_rand_int_range (rand, 0, 2),
                     names[g_rand_int_range (rand, 0, 2)]);
        }
      ab = tg_job_merge (a, b, NULL);
      ba = tg_job_merge (b, a, NULL);
      assert_equal_journals (ab, ba);
      for (guint i = 0; i < 2; i++)
        {
          g_autoptr (TgJob) again = tg_job_merge (ab, jobs[i], NULL);
          g_autofree gboolean *struck = tg_job_struck (jobs[i]);
          g_autofree gboolean *now = tg_job_struck (ab);

          assert_equal_journals (ab, again);
          for (guint e = 0; e < tg_job_n_events (jobs[i]); e++)
            g_assert_true (!struck[e] ||
                           now[tg_job_find_event (ab, tg_job_event (jobs[i], e)->id)]);
        }
    }
}

/* Two benches pair and make rules: both stay, the later pairing after the earlier. */
static void
test_merge_pairs (void)
{
  g_autoptr (TgJob) a = bench_job (), b = bench_job (), c = bench_job ();
  g_autoptr (GError) error = NULL;

  append (a, pair ("pin-1:2 pin-2:1 pin-3:0"), "pa", 20);
  append (a, strike ("pa"), "sa", 25);
  append (b, rule ("pin-3", TG_RULE_APART, "piston-1", 0), "rb", 10);
  append (b, pair ("pin-1:1 pin-2:0 pin-3:2"), "pb", 22);
  assert_merges (a, b, "rb pa pb sa");
  append (c, pair ("pin-1:1 pin-2:2 pin-3:0"), "pa", 20);
  g_assert_null (tg_job_merge (a, c, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_DUPLICATE);
}

static void
test_merge_refused (void)
{
  g_autoptr (TgJob) a = bench_job (), b = bench_job (), other = NULL;
  g_autoptr (GError) differs = NULL, twice = NULL;
  TgSetup *setup = bench_setup ();

  setup->tolerance[TG_BAND_PISTON]++;
  other = tg_job_new (setup);
  g_assert_null (tg_job_merge (a, other, &differs));
  g_assert_error (differs, TG_ERROR, TG_ERROR_RANGE);
  setup = bench_setup ();
  setup->left_out[TG_PART_PIN] = TRUE;
  tg_job_free (other);
  other = tg_job_new (setup);
  g_clear_error (&differs);
  g_assert_null (tg_job_merge (a, other, &differs));
  g_assert_error (differs, TG_ERROR, TG_ERROR_RANGE);
  append (a, note ("one"), "x", 1);
  append (b, note ("two"), "x", 1);
  g_assert_null (tg_job_merge (a, b, &twice));
  g_assert_error (twice, TG_ERROR, TG_ERROR_DUPLICATE);
}

static void
test_too_many (void)
{
  g_autoptr (TgJob) job = bench_job ();
  g_autoptr (GError) error = NULL;
  TgEvent event = note ("");

  for (guint i = 0; i < TG_JOB_MAX_EVENTS; i++)
    {
      char id[16];

      g_snprintf (id, sizeof id, "%u", i);
      event.id = id;
      g_assert_true (tg_job_append (job, &event, NULL));
    }
  event.id = "one more";
  g_assert_false (tg_job_append (job, &event, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_RANGE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/job/append", test_append);
  g_test_add_func ("/job/plain", test_plain);
  g_test_add_func ("/job/equal", test_equal);
  g_test_add_func ("/job/copy", test_copy);
  g_test_add_func ("/job/first", test_first);
  g_test_add_func ("/job/drop-last", test_drop_last);
  g_test_add_func ("/job/struck", test_struck);
  g_test_add_func ("/job/struck-twice", test_struck_twice);
  g_test_add_func ("/job/merge", test_merge);
  g_test_add_func ("/job/merge-keeps-order", test_merge_keeps_order);
  g_test_add_func ("/job/merge-empty", test_merge_empty);
  g_test_add_func ("/job/merge-random", test_merge_random);
  g_test_add_func ("/job/merge-same-facts", test_merge_same_facts);
  g_test_add_func ("/job/merge-same-facts-struck", test_merge_same_facts_struck);
  g_test_add_func ("/job/merge-same-facts-random", test_merge_same_facts_random);
  g_test_add_func ("/job/merge-other-facts", test_merge_other_facts);
  g_test_add_func ("/job/merge-pairs", test_merge_pairs);
  g_test_add_func ("/job/merge-refused", test_merge_refused);
  g_test_add_func ("/job/too-many", test_too_many);
  return g_test_run ();
}
