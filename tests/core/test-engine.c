/* test-engine.c: what may be said of a crank drive, and what is refused with which words
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "engine.h"

#include <math.h>
#include <string.h>

#include "error.h"

static void
say (TgEngine *engine, const char *name, const char *text)
{
  char **place = tg_engine_text (engine, name);

  g_assert_nonnull (place);
  g_free (*place);
  *place = g_strdup (text);
}

static void
test_defaults (void)
{
  TgEngine engine;
  guint n;
  const TgField *fields = tg_engine_fields (&n);

  tg_engine_init (&engine);
  g_assert_true (tg_engine_check (&engine, 1, NULL));
  g_assert_true (tg_engine_check (&engine, TG_ENGINE_LAYOUT_MAX, NULL));
  g_assert_false (engine.chosen);
  g_assert_cmpfloat (engine.factor_percent, ==, TG_ENGINE_FACTOR_BY_LAYOUT);
  for (guint i = 0; i < n; i++)
    g_assert_cmpfloat (*tg_field_ptr (&fields[i], &engine), ==, tg_engine_default (&fields[i]));
  g_assert_null (tg_engine_text (&engine, "spacing"));
  tg_engine_clear (&engine);
}

/* Every fact by itself makes two engines differ, and a copy carries it. */
static void
test_copy_and_equal (void)
{
  TgEngine plain, other, copy;
  guint n;
  const TgField *fields = tg_engine_fields (&n);

  tg_engine_init (&plain);
  tg_engine_init (&copy);
  for (guint i = 0; i < n + TG_ENGINE_N_TEXTS + 3; i++)
    {
      tg_engine_init (&other);
      if (i < n)
        *tg_field_ptr (&fields[i], &other) += 1;
      else if (i < n + TG_ENGINE_N_TEXTS)
        say (&other, tg_engine_text_names[i - n], "2-1");
      else if (i == n + TG_ENGINE_N_TEXTS)
        other.split_pins = TRUE;
      else if (i == n + TG_ENGINE_N_TEXTS + 1)
        other.factor_percent = 50;
      else
        other.chosen = TRUE;
      g_assert_false (tg_engine_equal (&plain, &other));
      tg_engine_copy (&other, &copy);
      g_assert_true (tg_engine_equal (&other, &copy));
      tg_engine_clear (&other);
      g_assert_false (tg_engine_equal (&plain, &copy)); /* owns its texts */
    }
  /* a kind that was not chosen does not count */
  tg_engine_init (&other);
  other.kind = TG_ENGINE_V12;
  g_assert_true (tg_engine_equal (&plain, &other));
  tg_engine_clear (&other);
  tg_engine_clear (&copy);
  tg_engine_clear (&plain);
}

/* Just inside both ends of each range, and just outside. */
static void
test_ranges (void)
{
  TgEngine engine;
  guint n;
  const TgField *fields = tg_engine_fields (&n);

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GError) low = NULL;
      g_autoptr (GError) high = NULL;
      double *value;

      tg_engine_init (&engine);
      value = tg_field_ptr (&fields[i], &engine);
      *value = fields[i].min;
      g_assert_true (tg_engine_check (&engine, 4, NULL));
      *value = fields[i].max;
      g_assert_true (tg_engine_check (&engine, 4, NULL));
      *value = nextafter (fields[i].min, -INFINITY);
      g_assert_false (tg_engine_check (&engine, 4, &low));
      g_assert_error (low, TG_ERROR, TG_ERROR_RANGE);
      g_assert_true (g_str_has_prefix (low->message, fields[i].label));
      *value = nextafter (fields[i].max, INFINITY);
      g_assert_false (tg_engine_check (&engine, 4, &high));
      g_assert_error (high, TG_ERROR, TG_ERROR_RANGE);
      *value = NAN;
      g_assert_false (tg_engine_check (&engine, 4, NULL));
      tg_engine_clear (&engine);
    }
}

static void
test_refused_texts (void)
{
  static const struct
  {
    const char *name, *text;
    int code;
    const char *words;
  } cases[] = {
    { "order", "1-3-4", TG_ERROR_SYNTAX, "does not name the 4 cylinders" },
    { "order", "1-3-4-2-5", TG_ERROR_SYNTAX, "more than 4 cylinders" },
    { "order", "1-3-4-5", TG_ERROR_SYNTAX, "does not name the 4 cylinders" },
    { "order", "1-3-4-0", TG_ERROR_SYNTAX, "does not name the 4 cylinders" },
    { "order", "1-3-4-3", TG_ERROR_DUPLICATE, "cylinder 3 twice" },
    { "order", "1,3,4,2", TG_ERROR_SYNTAX, "with “-” between them" },
    { "order", "1-3-4--2", TG_ERROR_SYNTAX, "does not name" },
    { "numbering", "4-3-2", TG_ERROR_SYNTAX, "does not name the 4 cylinders" },
    { "numbering", "4-4-2-1", TG_ERROR_DUPLICATE, "cylinder 4 twice" },
    { "free", "0:0:0:1", TG_ERROR_SYNTAX, "each of the 4 cylinders once" },
    { "free", "0:0:0:1 0:180:100:2 0:180:200:3 0:0:300", TG_ERROR_SYNTAX, "“0:0:300”" },
    { "free", "0:0:0:1 0:180:100:2 0:180:200:3 0:0:300:0", TG_ERROR_SYNTAX, "“0:0:300:0”" },
    { "free", "0:0:0:1 0:180:100:2 0:180:200:3 0:0:200:4", TG_ERROR_DUPLICATE, "" },
    { "rod-facing", "towards\001the inlet", TG_ERROR_SYNTAX, "Rod numbers point" },
    { "rod-facing", "towards\nthe inlet", TG_ERROR_SYNTAX, "one line only" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      TgEngine engine;

      tg_engine_init (&engine);
      say (&engine, cases[i].name, cases[i].text);
      g_assert_false (tg_engine_check (&engine, 4, &error));
      g_test_message ("%s", error->message);
      g_assert_error (error, TG_ERROR, cases[i].code);
      g_assert_nonnull (strstr (error->message, cases[i].words));
      tg_engine_clear (&engine);
    }
}

/* Each kind with every number of cylinders: refused exactly where it does not fit. */
static void
test_kinds (void)
{
  for (TgEngineKind kind = 0; kind < TG_ENGINE_N_KINDS; kind++)
    for (guint n = 1; n <= TG_ENGINE_LAYOUT_MAX; n++)
      {
        TgEngine engine;

        tg_engine_init (&engine);
        engine.chosen = TRUE;
        engine.kind = kind;
        g_assert_true (tg_engine_check (&engine, n, NULL) == tg_engine_kind_fits (kind, n));
        tg_engine_clear (&engine);
      }
}

/* Characters are counted, not bytes. */
static void
test_facing_length (void)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) error = NULL;
  TgEngine engine;

  for (guint i = 0; i < TG_ENGINE_MAX_FACING; i++)
    g_string_append (text, "ß");
  tg_engine_init (&engine);
  say (&engine, "clips-facing", text->str);
  g_assert_true (tg_engine_check (&engine, 4, NULL));
  g_string_append (text, "ß");
  say (&engine, "clips-facing", text->str);
  g_assert_false (tg_engine_check (&engine, 4, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_RANGE);
  g_assert_cmpstr (error->message, ==, "Gap of the clips stands: no more than 60 characters");
  tg_engine_clear (&engine);
}

/* What is written is read back to the last bit, whatever the engine. */
static void
test_free_round_trip (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (26);

  for (guint t = 0; t < 300; t++)
    {
      guint n = (guint) g_rand_int_range (rand, 1, TG_ENGINE_LAYOUT_MAX + 1);
      TgEngineLayout layout = { .n = n, .n_pins = n }, read = { 0 };
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL;

      for (guint i = 0; i < n; i++)
        layout.cylinders[i] = (TgEngineCylinder){ g_rand_double_range (rand, -180, 180),
                                                  g_rand_double_range (rand, -360, 360),
                                                  100.0 * i + g_rand_double (rand), i };
      g_assert_true (tg_engine_layout_check (&layout, &error));
      text = tg_engine_format_free (&layout);
      g_assert_true (tg_engine_read_free (text, n, &read, &error));
      g_assert_cmpuint (read.n, ==, n);
      g_assert_cmpuint (read.n_pins, ==, n);
      for (guint i = 0; i < n; i++)
        {
          g_assert_cmpfloat (read.cylinders[i].bank_deg, ==, layout.cylinders[i].bank_deg);
          g_assert_cmpfloat (read.cylinders[i].throw_deg, ==, layout.cylinders[i].throw_deg);
          g_assert_cmpfloat (read.cylinders[i].position_mm, ==, layout.cylinders[i].position_mm);
          g_assert_cmpuint (read.cylinders[i].pin, ==, layout.cylinders[i].pin);
        }
    }
}

static void
test_refused_leaves_all (void)
{
  guint numbers[4] = { 9, 9, 9, 9 };
  TgEngineLayout layout = { .n = 7 };

  g_assert_false (tg_engine_read_numbers ("1-2-3-3", 4, numbers, NULL));
  for (guint i = 0; i < 4; i++)
    g_assert_cmpuint (numbers[i], ==, 9);
  g_assert_false (tg_engine_read_free ("0:0:0:1 0:0:0:1", 2, &layout, NULL));
  g_assert_cmpuint (layout.n, ==, 7);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/engine/defaults", test_defaults);
  g_test_add_func ("/engine/copy-and-equal", test_copy_and_equal);
  g_test_add_func ("/engine/ranges", test_ranges);
  g_test_add_func ("/engine/refused-texts", test_refused_texts);
  g_test_add_func ("/engine/kinds", test_kinds);
  g_test_add_func ("/engine/facing-length", test_facing_length);
  g_test_add_func ("/engine/free-round-trip", test_free_round_trip);
  g_test_add_func ("/engine/refused-leaves-all", test_refused_leaves_all);
  return g_test_run ();
}
