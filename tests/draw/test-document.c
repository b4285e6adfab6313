/* test-document.c: sheets and cards: their figures, their pages, their bytes, long names
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is on paper is read back with poppler's tools (pdftotext, pdftoppm), which know nothing of this
 * program.  All weights are invented.
 */
#include <glib.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "balance.h"
#include "bobweight.h"
#include "build.h"
#include "document.h"
#include "fixture.h"
#include "job-xml.h"
#include "number.h"

typedef struct
{
  char *folder;
  char *pdf;
  TgJob *job;
  TgReview *review;
} Fixture;

static const char *const demos[] = { "demo.tenthgram", "demo-pairing.tenthgram" };

static void
set_up_folder (Fixture *f)
{
  f->folder = g_dir_make_tmp ("document-XXXXXX", NULL);
  g_assert_nonnull (f->folder);
  f->pdf = g_build_filename (f->folder, "document.pdf", NULL);
  f->review = tg_review_new (f->job);
}

static void
set_up_demo (Fixture *f, gconstpointer data)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "data", data, NULL);
  g_autoptr (GError) error = NULL;

  f->job = tg_job_xml_load (path, &error);
  g_assert_no_error (error);
  set_up_folder (f);
}

#define LONG_NAME "Pleuelstangenkurbelzapfenlagerdeckelverschraubung hinten links außen"

static void
weigh (TgJob *job, const char *part, TgFigure figure, TgWay way, double grams)
{
  static guint n;
  g_autofree char *id = g_strdup_printf ("long-%u", ++n);
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);

  event.id = id;
  event.who = "Wilhelmine Oberhuber-Niedermeier";
  event.stamp = (TgStamp){ 1778000000 + 60 * (gint64) n, 60 };
  event.part = part;
  event.figure = figure;
  event.way = way;
  event.mass = tg_mass_from_g (grams);
  g_assert_true (tg_job_append (job, &event, NULL));
}

/* Sixteen bores on eight crankpins, every name as long as German makes them. */
static void
set_up_long (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  TgSetup *setup = tg_setup_new ();
  TgDesign *rod = fixture_design (FIXTURE_I_ROD), *piston = fixture_design (FIXTURE_SLIPPER_PISTON);
  GString *free_layout = g_string_new (NULL);
  g_autoptr (GError) error = NULL;

  setup->cylinders = 16;
  setup->layout = TG_LAYOUT_OTHER;
  setup->resolution = 100;
  g_free (setup->name);
  setup->name = g_strdup ("Donaudampfschifffahrtsgesellschaftskapitänsbarkasse, " LONG_NAME);
  for (guint b = 0; b < TG_N_BANDS; b++)
    setup->tolerance[b] = 500;
  tg_setup_add_design (setup, rod);
  tg_setup_add_design (setup, piston);
  for (guint i = 1; i <= 16; i++)
    {
      g_autofree char *rod_id = g_strdup_printf ("rod-%u", i);
      g_autofree char *piston_id = g_strdup_printf ("piston-%u", i);
      g_autofree char *name = g_strdup_printf ("%u %s", i, LONG_NAME);

      tg_setup_add_part (setup, rod_id, name, rod, i);
      tg_setup_add_part (setup, piston_id, name, piston, i);
      g_string_append_printf (free_layout, "%s%d:%u:%u:%u", i > 1 ? " " : "", i % 2 ? -45 : 45,
                              ((i - 1) / 2) * 90 % 360, (i - 1) / 2 * 110, (i - 1) / 2 + 1);
    }
  setup->engine.chosen = TRUE;
  setup->engine.kind = TG_ENGINE_FREE;
  g_free (setup->engine.free);
  setup->engine.free = g_string_free (free_layout, FALSE);
  setup->engine.stroke_mm = 90;
  setup->engine.spacing_mm = 110;
  setup->engine.speed_rpm = 3000;
  g_free (setup->engine.facing[TG_FACING_PISTON]);
  setup->engine.facing[TG_FACING_PISTON] = g_strdup (
      "zur Schwungradseite, Ventiltaschen nach innen");
  tg_setup_check (setup, &error);
  g_assert_no_error (error);
  f->job = tg_job_new (setup);
  for (guint i = 1; i <= 16; i++)
    {
      g_autofree char *rod_id = g_strdup_printf ("rod-%u", i);
      g_autofree char *piston_id = g_strdup_printf ("piston-%u", i);

      for (TgWay way = TG_WAY_MARK_UP; way <= TG_WAY_MARK_DOWN; way++)
        {
          weigh (f->job, rod_id, TG_FIGURE_SMALL_END, way, 211 + 0.2 * i);
          weigh (f->job, rod_id, TG_FIGURE_BIG_END, way, 1497.1 + 0.3 * i);
        }
      weigh (f->job, piston_id, TG_FIGURE_WHOLE, TG_WAY_ANY, 1431.4 + 0.1 * i);
    }
  set_up_folder (f);
}

static void
tear_down (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_unlink (f->pdf);
  g_assert_cmpint (g_rmdir (f->folder), ==, 0);
  g_free (f->folder);
  g_free (f->pdf);
  tg_review_free (f->review);
  tg_job_free (f->job);
}

/* -- reading back -------------------------------------------------------------------------------- */

static char *
run (const char *const *argv)
{
  g_autoptr (GError) error = NULL;
  char *output = NULL;
  int status;

  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDERR_TO_DEV_NULL, NULL,
                NULL, &output, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_true (g_spawn_check_wait_status (status, NULL));
  return output;
}

static TgDocument *
write_document (Fixture *f, TgDocumentKind kind, TgPaper paper)
{
  TgDocument *document = tg_document_new (f->job, f->review, kind, paper);
  g_autoptr (GError) error = NULL;

  g_assert_true (tg_document_write (document, f->pdf, &error));
  g_assert_no_error (error);
  return document;
}

/* The words of the PDF with one blank between them; of all pages for 0. */
static char *
text_of (const Fixture *f, guint page)
{
  g_autofree char *number = g_strdup_printf ("%u", page);
  const char *one[] = { "pdftotext", "-layout", "-f", number, "-l", number, f->pdf, "-", NULL };
  const char *all[] = { "pdftotext", "-layout", f->pdf, "-", NULL };
  g_autofree char *raw = run (page > 0 ? one : all);
  GString *text = g_string_new (" ");

  for (const char *p = raw; *p; p++)
    if (!g_ascii_isspace (*p))
      g_string_append_c (text, *p);
    else if (text->str[text->len - 1] != ' ')
      g_string_append_c (text, ' ');
  return g_string_free (text, FALSE);
}

static void
assert_has (const char *text, const char *words, const char *what)
{
  if (strstr (text, words))
    return;
  g_test_message ("“%s” is not on the %s", words, what);
  g_test_fail ();
}

/* -- figures ------------------------------------------------------------------------------------- */

static void
check_frame (Fixture *f, const TgDocument *document, TgDocumentKind kind)
{
  guint n = tg_document_n_pages (document);

  for (guint i = 1; i <= n; i++)
    {
      g_autofree char *text = text_of (f, i);
      g_autofree char *page = g_strdup_printf ("page %u of %u", i, n);

      assert_has (text, page, "page");
      assert_has (text, tg_document_kind_label (kind), "page");
      assert_has (text, f->review->setup->name, "page");
      assert_has (text, "as recorded up to", "page");
      assert_has (text, "manual", "page");
    }
}

/* Every weight at a bore with its uncertainty, and every spread. */
static void
check_proof (const Fixture *f, const char *text)
{
  for (guint s = 0; s < f->review->sets->len; s++)
    for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
      {
        int index = g_array_index (f->review->sets, TgSetReview, s).part[kind];
        const TgPartReview *part;

        if (index < 0)
          continue;
        part = tg_review_part (f->review, (guint) index);
        assert_has (text, part->part->name, "proof card");
        for (guint figure = 0; figure < TG_N_FIGURES; figure++)
          {
            const TgWeight *weight = &part->weight[figure];
            g_autofree char *grams = tg_review_grams (f->review, weight->mean_g);
            g_autofree char *plus = tg_review_plus_minus (f->review, weight->expanded_g);
            g_autofree char *both = g_strdup_printf ("%s g %s", grams, plus);

            if (weight->basis == TG_WEIGHT_NONE ||
                (kind == TG_PART_ROD) == (figure == TG_FIGURE_WHOLE))
              continue;
            assert_has (text, both, "proof card");
          }
      }
}

static void
check_bobweight (const Fixture *f, const char *text)
{
  g_autoptr (TgBobweight) bobweight = tg_bobweight_new (f->review);
  guint decimals = tg_bobweight_decimals (f->review);
  g_autofree char *mean = tg_number_format (bobweight->mean_g, decimals);
  g_autofree char *percent = tg_number_format_short (100 * bobweight->factor);

  g_assert_true (bobweight->known);
  for (guint p = 0; p < bobweight->n_pins; p++)
    {
      g_autofree char *sum = tg_number_format (bobweight->pins[p].bobweight_g, decimals);

      assert_has (text, sum, "bobweight card");
      for (guint t = 0; t < TG_N_BOBWEIGHT_TERMS; t++)
        {
          g_autofree char *grams = tg_number_format (bobweight->pins[p].terms_g[t], decimals);

          if (!bobweight->weighed[t])
            continue;
          assert_has (text, tg_bobweight_term_label (t), "bobweight card");
          assert_has (text, grams, "bobweight card");
        }
    }
  assert_has (text, mean, "bobweight card");
  assert_has (text, percent, "bobweight card");
  assert_has (text, f->review->setup->engine.order, "bobweight card");
}

static void
check_build (const Fixture *f, const char *text)
{
  g_autoptr (TgBuild) build = tg_build_new (f->job, f->review);

  for (guint b = 1; b <= f->review->setup->cylinders; b++)
    {
      const TgBuildCard *card = tg_build_card (build, b);
      g_autofree char *title = g_strdup_printf ("Bore %u", b);

      assert_has (text, title, "build cards");
      for (guint i = 0; i < card->parts->len; i++)
        {
          const TgBuildPart *part = &g_array_index (card->parts, TgBuildPart, i);
          g_autofree char *grams = tg_review_grams (f->review, part->weight_g);

          assert_has (text, tg_review_part (f->review, (guint) part->part)->part->name,
                      "build cards");
          assert_has (text, grams, "build cards");
        }
      for (guint i = 0; i < card->ticks->len; i++)
        assert_has (text, tg_build_check_label (g_array_index (card->ticks, TgBuildTick, i).check),
                    "build cards");
    }
}

static void
check_weigh (const Fixture *f, const char *text)
{
  for (guint i = 0; i < f->review->parts->len; i++)
    assert_has (text, tg_review_part (f->review, i)->part->name, "weigh sheet");
  assert_has (text, "mark up", "weigh sheet");
  assert_has (text, "empty scale shows", "weigh sheet");
}

static void
test_figures (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  static void (*const checks[TG_N_DOCUMENT_KINDS]) (const Fixture *, const char *) = {
    [TG_DOCUMENT_WEIGH] = check_weigh,
    [TG_DOCUMENT_PROOF] = check_proof,
    [TG_DOCUMENT_BOBWEIGHT] = check_bobweight,
    [TG_DOCUMENT_BUILD] = check_build,
  };
  const TgPaper papers[] = { TG_PAPER_A4, TG_PAPER_LETTER };

  for (guint p = 0; p < G_N_ELEMENTS (papers); p++)
    for (TgDocumentKind kind = 0; kind < TG_N_DOCUMENT_KINDS; kind++)
      {
        g_autoptr (TgDocument) document = write_document (f, kind, papers[p]);
        g_autofree char *text = text_of (f, 0);

        check_frame (f, document, kind);
        if (checks[kind])
          checks[kind](f, text);
      }
}

static void
test_same_bytes (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  for (TgDocumentKind kind = 0; kind < TG_N_DOCUMENT_KINDS; kind++)
    {
      g_autofree char *first = NULL, *second = NULL;
      gsize first_size, second_size;

      tg_document_free (write_document (f, kind, TG_PAPER_A4));
      g_assert_true (g_file_get_contents (f->pdf, &first, &first_size, NULL));
      tg_document_free (write_document (f, kind, TG_PAPER_A4));
      g_assert_true (g_file_get_contents (f->pdf, &second, &second_size, NULL));
      g_assert_cmpmem (first, first_size, second, second_size);
    }
}

/* -- room ---------------------------------------------------------------------------------------- */

typedef struct
{
  double x, y, right, bottom;
  char *text;
} Word;

static void
word_clear (gpointer word)
{
  g_free (((Word *) word)->text);
}

/* Words of one page with their boxes in points, as pdftotext finds them. */
static GArray *
words_of (const Fixture *f, guint page)
{
  g_autofree char *number = g_strdup_printf ("%u", page);
  const char *argv[] = { "pdftotext", "-bbox", "-f", number, "-l", number, f->pdf, "-", NULL };
  g_autofree char *html = run (argv);
  g_autoptr (GRegex) regex = g_regex_new ("<word xMin=\"([0-9.-]+)\" yMin=\"([0-9.-]+)\" "
                                          "xMax=\"([0-9.-]+)\" yMax=\"([0-9.-]+)\">([^<]*)<",
                                          0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  GArray *words = g_array_new (FALSE, FALSE, sizeof (Word));

  g_array_set_clear_func (words, word_clear);
  for (g_regex_match (regex, html, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL))
    {
      double at[4];
      Word word;

      for (int i = 0; i < 4; i++)
        {
          g_autofree char *digits = g_match_info_fetch (match, i + 1);

          at[i] = g_ascii_strtod (digits, NULL);
        }
      word = (Word){ at[0], at[1], at[2], at[3], g_match_info_fetch (match, 5) };
      g_array_append_val (words, word);
    }
  return words;
}

/* Boxes of words reach from ascent to descent: lines may touch by a little, but not letters. */
static gboolean
overlap (const Word *a, const Word *b)
{
  return MIN (a->right, b->right) - MAX (a->x, b->x) > 0.6 &&
         MIN (a->bottom, b->bottom) - MAX (a->y, b->y) >
             0.35 * MIN (a->bottom - a->y, b->bottom - b->y);
}

static void
check_words (const Fixture *f, TgPaper paper, guint page)
{
  g_autoptr (GArray) words = words_of (f, page);

  g_assert_cmpuint (words->len, >, 10);
  for (guint i = 0; i < words->len; i++)
    {
      const Word *a = &g_array_index (words, Word, i);

      if (a->x < 36 || a->y < 36 || a->right > paper.width_pt - 36 ||
          a->bottom > paper.height_pt - 36)
        {
          g_test_message ("“%s” leaves the page at %d, %d", a->text, (int) a->x, (int) a->y);
          g_test_fail ();
        }
      for (guint j = 0; j < i; j++)
        {
          const Word *b = &g_array_index (words, Word, j);

          if (overlap (a, b))
            {
              g_test_message ("“%s” and “%s” overlap at %d, %d", a->text, b->text, (int) a->x,
                              (int) a->y);
              g_test_fail ();
            }
        }
    }
}

static void
test_room (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const TgPaper papers[] = { TG_PAPER_A4, TG_PAPER_LETTER };

  for (guint p = 0; p < G_N_ELEMENTS (papers); p++)
    for (TgDocumentKind kind = 0; kind < TG_N_DOCUMENT_KINDS; kind++)
      {
        g_autoptr (TgDocument) document = write_document (f, kind, papers[p]);
        guint n = tg_document_n_pages (document);

        g_test_message ("%s", tg_document_kind_label (kind));
        for (guint page = 1; page <= n; page++)
          check_words (f, papers[p], page);
      }
}

/* -- the same on paper as on the screen ----------------------------------------------------------- */

static double
darkness (cairo_surface_t *image, int left, int top, int size)
{
  const unsigned char *data = cairo_image_surface_get_data (image);
  int stride = cairo_image_surface_get_stride (image), sum = 0, n = 0;

  for (int y = top; y < MIN (top + size, cairo_image_surface_get_height (image)); y++)
    for (int x = left; x < MIN (left + size, cairo_image_surface_get_width (image)); x++, n++)
      sum += 255 - data[y * stride + 4 * x + 1];
  return n > 0 ? (double) sum / n : 0;
}

static void
compare_page (const Fixture *f, const TgDocument *document, guint page)
{
  g_autofree char *number = g_strdup_printf ("%u", page + 1);
  g_autofree char *root = g_build_filename (f->folder, "page", NULL);
  g_autofree char *png = g_strconcat (root, ".png", NULL);
  const char *argv[] = { "pdftoppm", "-r",   "72",          "-png", "-f", number,
                         "-l",       number, "-singlefile", f->pdf, root, NULL };
  g_autofree char *nothing = run (argv);
  cairo_surface_t *read = cairo_image_surface_create_from_png (png);
  int width = cairo_image_surface_get_width (read), height = cairo_image_surface_get_height (read);
  cairo_surface_t *drawn = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (drawn);

  tg_document_draw_page (cr, document, page);
  cairo_destroy (cr);
  cairo_surface_flush (drawn);
  g_assert_cmpint (cairo_surface_status (read), ==, CAIRO_STATUS_SUCCESS);
  for (int y = 0; y < height; y += 32)
    for (int x = 0; x < width; x += 32)
      {
        double difference = darkness (read, x, y, 32) - darkness (drawn, x, y, 32);

        g_assert_cmpfloat (fabs (difference), <, 20);
      }
  cairo_surface_destroy (drawn);
  cairo_surface_destroy (read);
  g_unlink (png);
}

static void
test_rendered (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  for (TgDocumentKind kind = 0; kind < TG_N_DOCUMENT_KINDS; kind++)
    {
      g_autoptr (TgDocument) document = write_document (f, kind, TG_PAPER_A4);

      for (guint page = 0; page < tg_document_n_pages (document); page++)
        compare_page (f, document, page);
    }
}

/* Nothing weighed, nothing said: pages all the same, which say so. */
static void
test_nothing_known (void)
{
  Fixture f = { 0 };
  TgSetup *setup = tg_setup_new ();
  TgDesign *rod = fixture_design (FIXTURE_I_ROD);

  setup->cylinders = 7;
  setup->layout = TG_LAYOUT_OTHER;
  setup->resolution = 100;
  g_free (setup->name);
  setup->name = g_strdup ("Seven");
  tg_setup_add_design (setup, rod);
  tg_setup_add_set (setup, rod, 0);
  f.job = tg_job_new (setup);
  set_up_folder (&f);
  for (TgDocumentKind kind = 0; kind < TG_N_DOCUMENT_KINDS; kind++)
    {
      g_autoptr (TgDocument) document = write_document (&f, kind, TG_PAPER_A4);
      g_autofree char *text = text_of (&f, 0);

      assert_has (text, "Seven", "page");
      assert_has (text, "nothing recorded yet", "page");
      if (kind == TG_DOCUMENT_PROOF || kind == TG_DOCUMENT_BUILD)
        assert_has (text, "not weighed", tg_document_kind_label (kind));
      if (kind == TG_DOCUMENT_BOBWEIGHT)
        assert_has (text, "has not been described", "bobweight card");
    }
  tear_down (&f, NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (demos); i++)
    {
      const char *name = i ? "v8" : "three";
      g_autofree char *figures = g_strdup_printf ("/document/%s/figures", name);
      g_autofree char *bytes = g_strdup_printf ("/document/%s/same-bytes", name);
      g_autofree char *room = g_strdup_printf ("/document/%s/room", name);
      g_autofree char *rendered = g_strdup_printf ("/document/%s/rendered", name);

      g_test_add (figures, Fixture, demos[i], set_up_demo, test_figures, tear_down);
      g_test_add (bytes, Fixture, demos[i], set_up_demo, test_same_bytes, tear_down);
      g_test_add (room, Fixture, demos[i], set_up_demo, test_room, tear_down);
      g_test_add (rendered, Fixture, demos[i], set_up_demo, test_rendered, tear_down);
    }
  g_test_add ("/document/long/room", Fixture, NULL, set_up_long, test_room, tear_down);
  g_test_add ("/document/long/same-bytes", Fixture, NULL, set_up_long, test_same_bytes, tear_down);
  g_test_add_func ("/document/nothing-known", test_nothing_known);
  return g_test_run ();
}
