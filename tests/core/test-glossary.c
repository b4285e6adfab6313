/* test-glossary.c: the terms, where they stand in texts, and which files are refused
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <string.h>

#include "bobweight.h"
#include "error.h"
#include "event.h"
#include "glossary.h"
#include "library.h"
#include "review.h"
#include "setup.h"

static TgGlossary *
load (void)
{
  g_autoptr (GError) error = NULL;
  TgGlossary *glossary = tg_glossary_load (&error);

  g_assert_no_error (error);
  return glossary;
}

/* -- what comes with the program -------------------------------------------------------------- */

/* Ends of sentences, counted in another way than the reader does. */
static guint
sentences (const char *text)
{
  g_auto (GStrv) parts = g_regex_split_simple ("[.!?](?: |$)", text, 0, 0);

  return g_strv_length (parts) - 1;
}

static void
test_terms (void)
{
  g_autoptr (TgGlossary) glossary = load ();
  guint by_ground[TG_N_GROUNDS] = { 0 };

  g_assert_cmpuint (glossary->terms->len, >=, 60);
  for (guint i = 0; i < glossary->terms->len; i++)
    {
      const TgGlossaryTerm *term = g_ptr_array_index (glossary->terms, i);
      g_autofree char *ground = tg_glossary_ground_words (term);

      g_assert_cmpuint (sentences (term->text), ==, 2);
      g_assert_true (g_unichar_isupper (g_utf8_get_char (term->text)));
      g_assert_null (strstr (term->text, "  "));
      g_assert_true (tg_glossary_find (glossary, term->id) == term);
      g_assert_true ((term->ground == TG_GROUND_STANDARD) == g_str_has_prefix (ground, "Open st"));
      by_ground[term->ground]++;
    }
  for (TgGround ground = 0; ground < TG_N_GROUNDS; ground++)
    g_assert_cmpuint (by_ground[ground], >, 0);
  g_assert_null (tg_glossary_find (glossary, "wood"));
}

/* Every spot is one of some term, and what is written there is a term, too. */
static void
test_spots (void)
{
  g_autoptr (TgGlossary) glossary = load ();
  gboolean used[TG_N_SPOTS] = { TRUE };

  for (guint i = 0; i < glossary->terms->len; i++)
    used[((const TgGlossaryTerm *) g_ptr_array_index (glossary->terms, i))->spot] = TRUE;
  for (TgGlossarySpot spot = TG_SPOT_NONE + 1; spot < TG_N_SPOTS; spot++)
    {
      g_autofree char *label = tg_glossary_spot_label (spot);
      g_autoptr (GPtrArray) terms = tg_glossary_in_text (glossary, label);
      TgGlossarySpot back;

      g_assert_true (used[spot]);
      if (terms->len != 1)
        g_error ("“%s” at a spot is not one term", label);
      g_assert_cmpint (((const TgGlossaryTerm *) g_ptr_array_index (terms, 0))->spot, ==, spot);
      g_assert_true (tg_glossary_spot_from_word (tg_glossary_spot_to_word (spot), &back));
      g_assert_cmpint (back, ==, spot);
    }
}

static void
check_has_term (const TgGlossary *glossary, const char *text)
{
  g_autoptr (GPtrArray) terms = tg_glossary_in_text (glossary, text);

  if (terms->len == 0)
    g_error ("no term stands in “%s”", text);
}

/* The words of the core that every page shows. */
static void
test_shown_words (void)
{
  g_autoptr (TgGlossary) glossary = load ();
  guint n;
  const TgField *fields = tg_design_rod_fields (&n);

  for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      check_has_term (glossary, tg_part_kind_label (kind));
      check_has_term (glossary, tg_part_kind_plural (kind));
      for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
        check_has_term (glossary, tg_figure_label (kind, figure));
    }
  for (TgBand band = 0; band < TG_N_BANDS; band++)
    check_has_term (glossary, tg_band_label (band));
  for (TgState state = 0; state <= TG_STATE_OUT_OF_REACH; state++)
    check_has_term (glossary, tg_state_label (state));
  for (TgWay way = TG_WAY_MARK_UP; way < TG_N_WAYS; way++)
    check_has_term (glossary, tg_way_label (way));
  for (TgTool tool = 0; tool < TG_N_TOOLS; tool++)
    check_has_term (glossary, tg_tool_label (tool));
  for (TgPlace place = 0; place < TG_N_PLACES; place++)
    check_has_term (glossary, tg_place_to_word (place));
  for (guint i = 0; i < n; i++)
    check_has_term (glossary, fields[i].label);
}

static void
test_zone_names (void)
{
  g_autoptr (TgGlossary) glossary = load ();
  g_autoptr (GError) error = NULL;
  g_autoptr (TgLibrary) library = tg_library_load (&error);

  g_assert_no_error (error);
  for (guint d = 0; d < library->designs->len; d++)
    {
      const TgDesign *design = g_ptr_array_index (library->designs, d);

      for (guint z = 0; z < design->zones->len; z++)
        check_has_term (glossary, tg_design_zone (design, z)->name);
    }
}

/* -- terms in a text -------------------------------------------------------------------------- */

/* @expected: ids in the order in which they are found. */
static void
check_found (const char *text, const char *expected)
{
  g_autoptr (TgGlossary) glossary = load ();
  g_autoptr (GPtrArray) terms = tg_glossary_in_text (glossary, text);
  g_autoptr (GString) found = g_string_new (NULL);

  for (guint i = 0; i < terms->len; i++)
    g_string_append_printf (found, "%s%s", i > 0 ? " " : "",
                            ((const TgGlossaryTerm *) g_ptr_array_index (terms, i))->id);
  g_assert_cmpstr (found->str, ==, expected);
}

static void
test_in_text (void)
{
  check_found ("", "");
  check_found ("Nothing of it here.", "");
  check_found ("Big ends", "big-end");
  check_found ("the small-end pads and the cap pad", "small-end-pad cap-pad");
  /* the longest one, not those inside it */
  check_found ("Big-end bore", "big-end-bore");
  check_found ("bore of the big end, then its bore", "big-end-bore bore");
  check_found ("small\302\240end\nof a rod", "small-end rod");
  /* each once, in the order of the text */
  check_found ("piston, rod, Piston, RODS", "piston rod");
  /* whole words */
  check_found ("pinned, rodent, recap, spinning", "");
  check_found ("rod’s, (pin), “crown”, skirt.", "rod pin crown skirt");
  check_found ("let’s: it’s not a second", "");
  check_found ("20 s", "seconds");
  /* symbols stand as they are */
  check_found ("0.1 g", "gram");
  check_found ("G 6.3", "");
  check_found ("± 0.1", "plus-minus");
  check_found ("Überpin pinß", "");
}

static void
test_hits (void)
{
  g_autoptr (TgGlossary) glossary = load ();
  const char *text = "± of the BIG-END bore’s wall";
  g_autoptr (GArray) hits = tg_glossary_hits (glossary, text);
  const TgGlossaryHit *hit = &g_array_index (hits, TgGlossaryHit, 1);
  g_autofree char *found = g_strndup (text + hit->start, hit->end - hit->start);

  g_assert_cmpuint (hits->len, ==, 2);
  g_assert_cmpstr (found, ==, "BIG-END bore");
  g_assert_cmpuint (g_array_index (hits, TgGlossaryHit, 0).end, ==, strlen ("±"));
}

/* -- files that are refused ------------------------------------------------------------------- */

#define HEAD "<glossary xmlns=\"urn:tenthgram:glossary\" version=\"1\">\n"
#define TAIL "</glossary>\n"
#define GOOD                                                                                       \
  "<term id=\"pin\" name=\"pin\" ground=\"trade\"><form>pins</form><text>One. "                    \
  "Two.</text></term>\n"

static void
check_refused (const char *body, int code, const char *line, const char *cause)
{
  g_autofree char *file = g_strconcat (HEAD, body, TAIL, NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *start = g_strdup_printf ("broken.xml:%s: ", line);

  g_assert_null (tg_glossary_parse (file, strlen (file), "broken.xml", &error));
  g_assert_error (error, TG_ERROR, code);
  if (!g_str_has_prefix (error->message, start) || !strstr (error->message, cause))
    g_error ("refused with “%s”", error->message);
}

static void
test_refusals (void)
{
  const char *good = HEAD GOOD TAIL;
  g_autoptr (GError) error = NULL;
  g_autoptr (TgGlossary) glossary = tg_glossary_parse (good, strlen (good), "good", &error);

  g_assert_no_error (error);
  g_assert_cmpuint (glossary->terms->len, ==, 1);
  check_refused (GOOD "<term id=\"pin\" name=\"rod\" ground=\"trade\"><text>A. B.</text></term>\n",
                 TG_ERROR_DUPLICATE, "3", "pin");
  check_refused (GOOD "<term id=\"p\" name=\"Pins\" ground=\"trade\"><text>A. B.</text></term>\n",
                 TG_ERROR_DUPLICATE, "3", "Pins");
  check_refused (GOOD "<term id=\"p\" name=\"q\" ground=\"trade\">\n<form>pin</form>"
                      "<text>A. B.</text></term>\n",
                 TG_ERROR_DUPLICATE, "4", "pin");
  check_refused (GOOD "<term id=\"p\" name=\"q\" ground=\"trade\" spot=\"moon\">"
                      "<text>A. B.</text></term>\n",
                 TG_ERROR_SYNTAX, "3", "moon");
  check_refused ("<term id=\"p\" name=\"q\" ground=\"trade\"><text>One only.</text></term>\n",
                 TG_ERROR_RANGE, "2", "two sentences");
  check_refused ("<term id=\"p\" name=\"q\" ground=\"trade\"><text>A. B. C.</text></term>\n",
                 TG_ERROR_RANGE, "2", "two sentences");
  check_refused ("<term id=\"p\" name=\"q\" ground=\"trade\"><text>A. B. and</text></term>\n",
                 TG_ERROR_RANGE, "2", "two sentences");
  check_refused ("<term id=\"p\" name=\"q\" ground=\"trade\"></term>\n", TG_ERROR_RANGE, "2",
                 "two sentences");
  check_refused ("<term id=\"p\" name=\"q\" ground=\"hearsay\"><text>A. B.</text></term>\n",
                 TG_ERROR_SYNTAX, "2", "hearsay");
  check_refused ("<term id=\"p\" name=\"q\" ground=\"standard\"><text>A. B.</text></term>\n",
                 TG_ERROR_SYNTAX, "2", "names no standard");
  check_refused ("<term id=\"p\" name=\"q\" ground=\"trade\" source=\"a book\">"
                 "<text>A. B.</text></term>\n",
                 TG_ERROR_SYNTAX, "2", "names a source");
  check_refused ("<term name=\"q\" ground=\"trade\"><text>A. B.</text></term>\n", TG_ERROR_SYNTAX,
                 "2", "id");
  check_refused ("<term id=\"p\" name=\"q\" ground=\"trade\"><text>A. B.</text><more/></term>\n",
                 TG_ERROR_SYNTAX, "2", "");
  check_refused ("<word/>\n", TG_ERROR_SYNTAX, "2", "word");
}

/* What a person types into the search: a part of a form, whatever its capitals and hyphens. */
static void
test_fits (void)
{
  static const struct
  {
    const char *id;
    const char *typed;
    gboolean fits;
  } rows[] = {
    { "turn-over", "turn over diff", TRUE },
    { "turn-over", " TURN-OVER ", TRUE },
    { "turn-over", "turnover", FALSE },
    { "turn-over", "", TRUE },
    { "pin", "GUDGEON", TRUE },
    { "pin", "gudgeons and more", FALSE },
    { "small-end", "mall e", TRUE },
    { "small-end", "big", FALSE },
  };
  g_autoptr (TgGlossary) glossary = load ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const TgGlossaryTerm *term = tg_glossary_find (glossary, rows[i].id);

      if (tg_glossary_term_fits (term, rows[i].typed) != rows[i].fits)
        g_error ("“%s” and the term %s", rows[i].typed, rows[i].id);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/glossary/terms", test_terms);
  g_test_add_func ("/glossary/spots", test_spots);
  g_test_add_func ("/glossary/shown-words", test_shown_words);
  g_test_add_func ("/glossary/zone-names", test_zone_names);
  g_test_add_func ("/glossary/in-text", test_in_text);
  g_test_add_func ("/glossary/hits", test_hits);
  g_test_add_func ("/glossary/refusals", test_refusals);
  g_test_add_func ("/glossary/fits", test_fits);
  return g_test_run ();
}
