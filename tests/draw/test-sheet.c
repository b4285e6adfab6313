/* test-sheet.c: the grind sheet as a file, read back with poppler's tools
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "error.h"
#include "fixture.h"
#include "part-layout.h"
#include "picture.h"
#include "document.h"

static TgDocument *
sheet_new (const TgJob *job, const TgReview *review, TgPaper paper)
{
  return tg_document_new (job, review, TG_DOCUMENT_GRIND, paper);
}

static guint
sheet_n_pages (const TgJob *job, const TgReview *review, TgPaper paper)
{
  g_autoptr (TgDocument) sheet = sheet_new (job, review, paper);

  return tg_document_n_pages (sheet);
}

static gboolean
sheet_write (
    const TgJob *job, const TgReview *review, TgPaper paper, const char *path, GError **error)
{
  g_autoptr (TgDocument) sheet = sheet_new (job, review, paper);

  return tg_document_write (sheet, path, error);
}

typedef struct
{
  char *folder;
  char *pdf;
  TgJob *job;
  TgReview *review;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  guint cylinders = GPOINTER_TO_UINT (data);

  f->folder = g_dir_make_tmp ("sheet-XXXXXX", NULL);
  g_assert_nonnull (f->folder);
  f->pdf = g_build_filename (f->folder, "sheet.pdf", NULL);
  f->job = fixture_job (cylinders, cylinders > 8, 5, &f->review);
}

static void
tear_down (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_unlink (f->pdf);
  g_assert_cmpint (g_rmdir (f->folder), ==, 0);
  g_free (f->folder);
  g_free (f->pdf);
  tg_job_free (f->job);
  fixture_review_free (f->review);
}

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

/* Text of page @page (from 1), or of all for 0; runs of blanks and line ends become one blank. */
static char *
text_of (const char *pdf, guint page)
{
  g_autofree char *number = g_strdup_printf ("%u", page);
  const char *one[] = { "pdftotext", "-f", number, "-l", number, pdf, "-", NULL };
  const char *all[] = { "pdftotext", pdf, "-", NULL };
  g_autofree char *raw = run (page > 0 ? one : all);
  g_autoptr (GString) text = g_string_new (NULL);

  for (const char *p = raw; *p; p++)
    if (!g_ascii_isspace (*p))
      g_string_append_c (text, *p);
    else if (text->len > 0 && text->str[text->len - 1] != ' ')
      g_string_append_c (text, ' ');
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
assert_has (const char *text, const char *words)
{
  if (!strstr (text, words))
    {
      g_test_message ("“%s” is not on the sheet", words);
      g_test_fail ();
    }
}

static guint
count (const char *text, const char *words)
{
  guint n = 0;

  for (const char *p = text; (p = strstr (p, words)); p += strlen (words))
    n++;
  return n;
}

static void
write_pdf (Fixture *f, TgPaper paper)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (sheet_write (f->job, f->review, paper, f->pdf, &error));
  g_assert_no_error (error);
}

static void
test_text (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *text = NULL;

  write_pdf (f, TG_PAPER_A4);
  text = text_of (f->pdf, 0);
  assert_has (text, "Harbour launch");
  /* the last of five entries, an hour apart from 19:42 on */
  assert_has (text, "Sat 7 Mar 2026, 23:42");
  assert_has (text, "171.7 g");
  assert_has (text, "about 412.4 g");
  assert_has (text, "318.4 g");
  assert_has (text, "171.3 to 171.5 g");
  assert_has (text, "maker's manual");
  assert_has (text, "licensed practice");
  for (guint i = 0; i < f->review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (f->review, i);

      g_assert_cmpuint (count (text, part->part->name), ==, 1);
      for (guint j = 0; j < part->zones->len; j++)
        {
          const TgZoneReview *zone = tg_part_review_zone (part, j);
          g_autofree char *grams = tg_part_label_grams (zone->amount_g);
          g_autofree char *depth = tg_part_label_millimetres (zone->depth_mm);

          if (zone->amount_g > 0)
            {
              assert_has (text, grams);
              assert_has (text, depth);
              assert_has (text, zone->zone->name);
            }
        }
    }
  /* Rod 1, 4 and Piston 1, 4 */
  g_assert_cmpuint (count (text, "done: nothing to come off"), ==, 4);
}

static void
test_pages (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  static const TgPaper papers[] = { { 595.276, 841.890 }, { 612, 792 } };

  for (guint p = 0; p < G_N_ELEMENTS (papers); p++)
    {
      guint n = sheet_n_pages (f->job, f->review, papers[p]);
      const char *info[] = { "pdfinfo", f->pdf, NULL };
      g_autofree char *want = g_strdup_printf ("Pages: %u\n", n);
      g_autofree char *facts = NULL;
      const char *found;
      guint is = 0;

      write_pdf (f, papers[p]);
      facts = run (info);
      found = strstr (facts, "Pages:");
      g_assert_nonnull (found);
      g_assert_cmpint (sscanf (found, "Pages: %u", &is), ==, 1);
      g_assert_cmpuint (is, ==, n);
      g_assert_cmpuint (n, >, 1);
      for (guint i = 1; i <= n; i++)
        {
          g_autofree char *text = text_of (f->pdf, i);
          g_autofree char *number = g_strdup_printf ("page %u of %u", i, n);

          assert_has (text, number);
          assert_has (text, "licensed practice");
        }
    }
}

typedef struct
{
  double x0, y0, x1, y1;
} Word;

/* Every word lies inside the margins and over no other. */
static void
test_words_apart (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const char *argv[] = { "pdftotext", "-bbox", f->pdf, "-", NULL };
  g_autofree char *boxes = NULL;
  g_auto (GStrv) lines = NULL;
  g_autoptr (GArray) words = g_array_new (FALSE, FALSE, sizeof (Word));
  guint n = 0;

  write_pdf (f, TG_PAPER_A4);
  boxes = run (argv);
  lines = g_strsplit (boxes, "\n", -1);
  for (guint i = 0; lines[i]; i++)
    {
      Word w;

      if (strstr (lines[i], "<page"))
        g_array_set_size (words, 0);
      if (sscanf (lines[i], " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &w.x0,
                  &w.y0, &w.x1, &w.y1) != 4)
        continue;
      n++;
      g_assert_cmpfloat (w.x0, >=, 41);
      g_assert_cmpfloat (w.y0, >=, 38);
      g_assert_cmpfloat (w.x1, <=, 595.276 - 41);
      g_assert_cmpfloat (w.y1, <=, 841.890 - 38);
      for (guint j = 0; j < words->len; j++)
        {
          const Word *v = &g_array_index (words, Word, j);
          double dx = MIN (w.x1, v->x1) - MAX (w.x0, v->x0);
          double dy = MIN (w.y1, v->y1) - MAX (w.y0, v->y0);

          /* boxes are a little taller than the letters */
          if (dx > 0.3 && dy > 2.2)
            {
              g_test_message ("words overlap: %s", lines[i]);
              g_test_fail ();
            }
        }
      g_array_append_val (words, w);
    }
  g_assert_cmpuint (n, >, 100);
}

static void
test_same_bytes (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  const char *info[] = { "pdfinfo", "-isodates", f->pdf, NULL };
  g_autofree char *first = NULL, *second = NULL, *facts = NULL;
  gsize n, m;

  write_pdf (f, TG_PAPER_A4);
  g_assert_true (g_file_get_contents (f->pdf, &first, &n, NULL));
  write_pdf (f, TG_PAPER_A4);
  g_assert_true (g_file_get_contents (f->pdf, &second, &m, NULL));
  g_assert_cmpmem (first, n, second, m);
  facts = run (info);
  assert_has (facts, "CreationDate:    2026-03-07T23:42:07+01");
}

/* A job with no entries has no date, but still the same bytes. */
static void
test_no_entries (void)
{
  TgReview *review;
  g_autoptr (TgJob) job = fixture_job (4, FALSE, 0, &review);
  g_autofree char *folder = g_dir_make_tmp ("sheet-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.pdf", NULL);
  g_autofree char *text = NULL;
  const char *info[] = { "pdfinfo", "-isodates", path, NULL };
  g_autofree char *facts = NULL;

  g_assert_true (sheet_write (job, review, TG_PAPER_A4, path, NULL));
  text = text_of (path, 1);
  assert_has (text, "nothing recorded yet");
  facts = run (info);
  assert_has (facts, "CreationDate:    1970-01-01");
  g_unlink (path);
  g_rmdir (folder);
  fixture_review_free (review);
}

static void
append (TgJob *job, TgEvent event)
{
  static guint n = 0;
  g_autoptr (GError) error = NULL;
  g_autofree char *id = g_strdup_printf ("event-%u", n++);

  event.id = id;
  event.stamp = (TgStamp){ 1772908927 + n, 60 };
  tg_job_append (job, &event, &error);
  g_assert_no_error (error);
}

static void
weigh (TgJob *job, const char *part, TgFigure figure, TgWay way, TgMass mass)
{
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);

  event.part = part;
  event.figure = figure;
  event.way = way;
  event.mass = mass;
  append (job, event);
}

/* Two bores with pins and clips, a spare piston; all invented. */
static TgJob *
job_with_sums (TgSmallEnds small_ends)
{
  static const TgPartKind plain[] = { TG_PART_PIN, TG_PART_CLIPS };
  TgSetup *setup = tg_setup_new ();
  TgJob *job;

  setup->cylinders = 2;
  setup->resolution = 100;
  setup->small_ends = small_ends;
  for (guint b = 0; b < TG_N_BANDS; b++)
    setup->tolerance[b] = 500;
  tg_setup_add_design (setup, fixture_design (FIXTURE_I_ROD));
  tg_setup_add_set (setup, tg_setup_find_design (setup, "i"), 0);
  tg_setup_add_design (setup, fixture_design (FIXTURE_SLIPPER_PISTON));
  tg_setup_add_set (setup, tg_setup_find_design (setup, "slipper"), 1);
  for (guint i = 0; i < G_N_ELEMENTS (plain); i++)
    {
      TgDesign *design = tg_design_new (plain[i]);

      g_free (design->id);
      design->id = g_strdup (tg_part_kind_to_word (plain[i]));
      tg_setup_add_design (setup, design);
      tg_setup_add_set (setup, design, 0);
    }
  job = tg_job_new (setup);
  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);

      if (part->design->kind != TG_PART_ROD)
        weigh (job, part->id, TG_FIGURE_WHOLE, TG_WAY_ANY,
               (part->design->kind == TG_PART_PISTON ? 318400 : 90000) + 100 * (TgMass) i);
      for (TgFigure f = 0; part->design->kind == TG_PART_ROD && f < TG_FIGURE_WHOLE; f++)
        for (TgWay way = TG_WAY_MARK_UP; way <= TG_WAY_MARK_DOWN; way++)
          weigh (job, part->id, f, way, f == TG_FIGURE_SMALL_END ? 171500 : 412300);
    }
  return job;
}

/* (transfer full): the text of the sheet of @job */
static char *
sheet_text (const TgJob *job)
{
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autofree char *folder = g_dir_make_tmp ("sheet-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "a.pdf", NULL);
  char *text;

  g_assert_true (sheet_write (job, review, TG_PAPER_A4, path, NULL));
  text = text_of (path, 0);
  g_unlink (path);
  g_rmdir (folder);
  return text;
}

/* Only what is ground is on the sheet; what counts with it is named, and its target is its own. */
static void
test_sums (void)
{
  g_autoptr (TgJob) job = job_with_sums (TG_SMALL_ENDS_APART);
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autofree char *text = sheet_text (job);
  g_autofree char *low = NULL;
  TgEvent pair = tg_event_blank (TG_EVENT_PAIR);
  guint piston;

  assert_has (text, "piston sets");
  assert_has (text, "with Pin 2, Clips 2");
  g_assert_cmpuint (count (text, "Pin 1"), ==, 1);
  g_assert_cmpuint (count (text, "Piston 3"), ==, 0);
  /* the band of the set less pin 2 and clips 2: 90.6 and 90.8 g */
  g_assert_nonnull (tg_setup_find_part (review->setup, "piston-2", &piston));
  g_assert_cmpfloat_with_epsilon (tg_review_own_target_g (review, piston, TG_FIGURE_WHOLE),
                                  review->bands[TG_BAND_PISTON].target_g - 90.6 - 90.8, 1e-6);
  low = tg_review_grams (review, review->bands[TG_BAND_PISTON].target_g - 90.6 - 90.8);
  g_assert_cmpuint (strlen (low), ==, 5);
  {
    g_autofree char *between = g_strconcat (low, " to ", NULL);

    assert_has (text, between);
  }
  g_assert_null (strstr (text, ", bore "));

  /* the spare comes in for piston 2 */
  pair.places = "piston-1:2 piston-2:0 piston-3:1";
  append (job, pair);
  g_free (text);
  text = sheet_text (job);
  assert_has (text, "Piston 1, bore 2");
  assert_has (text, "Piston 3, bore 1");
  g_assert_true (strstr (text, "Piston 3, bore 1") < strstr (text, "Piston 1, bore 2"));
  assert_has (text, "with Pin 2, Clips 2");
  g_assert_cmpuint (count (text, "Piston 2"), ==, 0);
}

/* Small ends that only count with their pistons have no band; the piston names them. */
static void
test_sums_with_small_ends (void)
{
  g_autoptr (TgJob) job = job_with_sums (TG_SMALL_ENDS_SUM);
  g_autofree char *text = sheet_text (job);

  assert_has (text, "any, with the piston");
  assert_has (text, "Rod 1 (small end)");
  g_assert_null (strstr (text, "small ends"));
}

static guint
n_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  g_assert_nonnull (dir);
  while (g_dir_read_name (dir))
    n++;
  return n;
}

static void
test_refused (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  static const char *const bad[] = { "sheet.txt", "sheet", "sheet.pdf.bak" };
  g_autofree char *nowhere = g_build_filename (f->folder, "nowhere", "sheet.pdf", NULL);
  g_autofree char *taken = g_build_filename (f->folder, "taken.pdf", NULL);
  const char *targets[] = { nowhere, taken };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *path = g_build_filename (f->folder, bad[i], NULL);
      g_autoptr (GError) error = NULL;

      g_assert_false (sheet_write (f->job, f->review, TG_PAPER_A4, path, &error));
      g_assert_error (error, TG_ERROR, TG_ERROR_SYNTAX);
    }
  g_assert_cmpint (g_mkdir (taken, 0755), ==, 0);
  for (guint i = 0; i < G_N_ELEMENTS (targets); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (sheet_write (f->job, f->review, TG_PAPER_A4, targets[i], &error));
      g_assert_error (error, TG_ERROR, TG_ERROR_IO);
      g_assert_nonnull (strstr (error->message, targets[i]));
    }
  /* only the folder that stood there before */
  g_assert_cmpuint (n_files (f->folder), ==, 1);
  g_rmdir (taken);
}

/* An existing file keeps its mode and a link keeps pointing. */
static void
test_link (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *link = g_build_filename (f->folder, "link.pdf", NULL);
  GStatBuf st;

  g_assert_true (g_file_set_contents (f->pdf, "old", -1, NULL));
  g_assert_cmpint (g_chmod (f->pdf, 0600), ==, 0);
  g_assert_cmpint (symlink (f->pdf, link), ==, 0);
  g_assert_true (sheet_write (f->job, f->review, TG_PAPER_A4, link, NULL));
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_cmpint (g_stat (f->pdf, &st), ==, 0);
  g_assert_cmpint (st.st_mode & 0777, ==, 0600);
  g_assert_cmpint (st.st_size, >, 1000);
  g_unlink (link);
}

static void
test_svg_png (Fixture *f, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *svg = g_build_filename (f->folder, "sheet.svg", NULL);
  g_autofree char *png = g_build_filename (f->folder, "sheet.png", NULL);
  g_autofree char *text = NULL;
  guint n = sheet_n_pages (f->job, f->review, TG_PAPER_A4);
  cairo_surface_t *image;

  g_assert_true (sheet_write (f->job, f->review, TG_PAPER_A4, svg, NULL));
  g_assert_true (g_file_get_contents (svg, &text, NULL, NULL));
  assert_has (text, "<svg");
  assert_has (text, "</svg>");
  g_assert_true (sheet_write (f->job, f->review, TG_PAPER_A4, png, NULL));
  image = cairo_image_surface_create_from_png (png);
  g_assert_cmpint (cairo_surface_status (image), ==, CAIRO_STATUS_SUCCESS);
  g_assert_cmpfloat_with_epsilon ((double) cairo_image_surface_get_height (image) /
                                      cairo_image_surface_get_width (image),
                                  n * 841.890 / 595.276, 0.01);
  cairo_surface_destroy (image);
  g_unlink (svg);
  g_unlink (png);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/sheet/text", Fixture, GUINT_TO_POINTER (4), set_up, test_text, tear_down);
  g_test_add ("/sheet/pages", Fixture, GUINT_TO_POINTER (4), set_up, test_pages, tear_down);
  g_test_add ("/sheet/pages-16", Fixture, GUINT_TO_POINTER (16), set_up, test_pages, tear_down);
  g_test_add ("/sheet/words-apart", Fixture, GUINT_TO_POINTER (4), set_up, test_words_apart,
              tear_down);
  g_test_add ("/sheet/words-apart-16", Fixture, GUINT_TO_POINTER (16), set_up, test_words_apart,
              tear_down);
  g_test_add ("/sheet/same-bytes", Fixture, GUINT_TO_POINTER (4), set_up, test_same_bytes,
              tear_down);
  g_test_add_func ("/sheet/no-entries", test_no_entries);
  g_test_add_func ("/sheet/sums", test_sums);
  g_test_add_func ("/sheet/sums-with-small-ends", test_sums_with_small_ends);
  g_test_add ("/sheet/refused", Fixture, GUINT_TO_POINTER (4), set_up, test_refused, tear_down);
  g_test_add ("/sheet/link", Fixture, GUINT_TO_POINTER (4), set_up, test_link, tear_down);
  g_test_add ("/sheet/svg-png", Fixture, GUINT_TO_POINTER (16), set_up, test_svg_png, tear_down);
  return g_test_run ();
}
