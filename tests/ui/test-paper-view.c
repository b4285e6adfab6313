/* test-paper-view.c: sheets and cards on the screen: what is chosen, shown, saved and printed
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files are read back with poppler's tools (pdftotext, pdfinfo), which know nothing of this project.
 * All weights are invented.
 */
#include <locale.h>
#include <math.h>
#include <string.h>

#include "bench.h"
#include "error.h"
#include "page-fixture.h"
#include "paper-print.h"
#include "paper-view.h"

static PageRig *
rig_new (guint cylinders, int width)
{
  PageRig *rig = page_rig_new (tg_paper_view_new (), cylinders, width, 700);

  page_settle ();
  return rig;
}

static void
choose (const PageRig *rig, const char *list, guint item)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (bench_child (rig->page, list)), item);
  page_settle ();
}

static void
click (const PageRig *rig, const char *button)
{
  GtkWidget *widget = bench_child (rig->page, button);

  g_assert_true (gtk_widget_get_sensitive (widget));
  g_signal_emit_by_name (widget, "clicked");
  page_settle ();
}

/* What the view shows, made anew from the job. (transfer full) */
static TgDocument *
document_of (const PageRig *rig)
{
  TgPaperView *view = TG_PAPER_VIEW (rig->page);

  return tg_document_new (tg_session_job (rig->session), tg_session_review (rig->session),
                          tg_paper_view_kind (view), tg_paper_view_paper (view));
}

static void
check_where (const PageRig *rig, guint page)
{
  g_autoptr (TgDocument) document = document_of (rig);
  guint n = tg_document_n_pages (document);
  g_autofree char *words = g_strdup_printf ("page %u of %u", page, n);

  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (bench_child (rig->page, "where"))), ==, words);
  g_assert_true (gtk_widget_get_sensitive (bench_child (rig->page, "back")) == (page > 1));
  g_assert_true (gtk_widget_get_sensitive (bench_child (rig->page, "forth")) == (page < n));
}

/* -- the picture --------------------------------------------------------------------------------- */

static cairo_surface_t *
shot_of (GtkWidget *widget)
{
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  GskRenderNode *node;
  cairo_t *cr = cairo_create (surface);

  GTK_WIDGET_GET_CLASS (widget)->snapshot (widget, snapshot);
  node = gtk_snapshot_free_to_node (snapshot);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  if (node)
    gsk_render_node_draw (node, cr);
  g_clear_pointer (&node, gsk_render_node_unref);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* A page on its own, as wide as the widget with an edge of 14 around it. */
static cairo_surface_t *
page_alone (const TgDocument *document, guint page, int width, int height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  double scale = (width - 28) / tg_document_paper (document).width_pt;
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_translate (cr, 14, 14);
  cairo_scale (cr, scale, scale);
  tg_document_draw_page (cr, document, page);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* Mean darkness of the square of 16 from there on, 0 to 255. */
static double
darkness (cairo_surface_t *surface, int left, int top)
{
  const guint8 *data = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  double sum = 0;

  for (int y = top; y < top + 16; y++)
    for (int x = left; x < left + 16; x++)
      sum += 255 - data[y * stride + 4 * x + 1];
  return sum / 256;
}

/* Largest difference between any two squares, the edge of the paper left out. */
static double
difference (cairo_surface_t *one, cairo_surface_t *other)
{
  int width = cairo_image_surface_get_width (one), height = cairo_image_surface_get_height (one);
  double most = 0;

  g_assert_cmpint (cairo_image_surface_get_width (other), ==, width);
  g_assert_cmpint (cairo_image_surface_get_height (other), ==, height);
  for (int y = 32; y + 32 < height; y += 16)
    for (int x = 32; x + 32 < width; x += 16)
      most = fmax (most, fabs (darkness (one, x, y) - darkness (other, x, y)));
  return most;
}

static void
check_picture (const PageRig *rig, guint page)
{
  g_autoptr (TgDocument) document = document_of (rig);
  GtkWidget *preview = bench_child (rig->page, "page");
  TgPaper paper = tg_document_paper (document);
  int width = gtk_widget_get_width (preview);
  cairo_surface_t *shot = shot_of (preview);
  int height = cairo_image_surface_get_height (shot);
  cairo_surface_t *alone = page_alone (document, page, width, height);
  cairo_surface_t *blank = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (blank);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_flush (blank);
  g_assert_cmpint (height, >=, (int) ((width - 28) * paper.height_pt / paper.width_pt));
  g_assert_cmpfloat (difference (shot, alone), <, 12);
  g_assert_cmpfloat (difference (shot, blank), >, 24);
  cairo_surface_destroy (blank);
  cairo_surface_destroy (alone);
  cairo_surface_destroy (shot);
}

/* -- files --------------------------------------------------------------------------------------- */

static char *
run (const char *const *argv)
{
  g_autoptr (GError) error = NULL;
  char *out = NULL;
  int status;

  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, NULL, &status,
                &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  return out;
}

/* Its words with one blank between them, a form feed after each page. */
static char *
text_of (const char *pdf)
{
  const char *argv[] = { "pdftotext", "-layout", pdf, "-", NULL };
  g_autofree char *raw = run (argv);
  GString *text = g_string_new (" ");

  for (const char *p = raw; *p; p++)
    if (*p == '\f' || !g_ascii_isspace (*p))
      g_string_append_c (text, *p);
    else if (text->str[text->len - 1] != ' ')
      g_string_append_c (text, ' ');
  return g_string_free (text, FALSE);
}

static void
check_pdf (const char *pdf, const TgDocument *document)
{
  const char *argv[] = { "pdfinfo", pdf, NULL };
  g_autofree char *info = run (argv);
  const char *pages = strstr (info, "\nPages:"), *size = strstr (info, "\nPage size:");
  TgPaper paper = tg_document_paper (document);
  char *rest;

  g_assert_true (pages && size);
  g_assert_cmpuint (g_ascii_strtoull (pages + strlen ("\nPages:"), NULL, 10), ==,
                    tg_document_n_pages (document));
  g_assert_cmpfloat_with_epsilon (g_ascii_strtod (size + strlen ("\nPage size:"), &rest),
                                  paper.width_pt, 0.6);
  g_assert_true (g_str_has_prefix (rest, " x "));
  g_assert_cmpfloat_with_epsilon (g_ascii_strtod (rest + 3, NULL), paper.height_pt, 0.6);
}

/* Saves and prints what is shown, as the window does, and holds both against each other. */
static char *
check_paper (const PageRig *rig)
{
  TgPaperView *view = TG_PAPER_VIEW (rig->page);
  TgDocumentKind kind = tg_paper_view_kind (view);
  TgPaper paper = tg_paper_view_paper (view);
  const TgJob *job = tg_session_job (rig->session);
  g_autofree char *saved = g_build_filename (rig->folder, "saved.pdf", NULL);
  g_autofree char *printed = g_build_filename (rig->folder, "printed.pdf", NULL);
  g_autofree char *words = NULL;
  g_autoptr (TgDocument) document = document_of (rig);
  g_autoptr (GError) error = NULL;
  char *text;

  g_assert_true (tg_paper_save (job, tg_session_review (rig->session), kind, paper, saved, &error));
  g_assert_no_error (error);
  g_assert_true (tg_paper_print (job, kind, paper, rig->window, printed, &error));
  g_assert_no_error (error);
  check_pdf (saved, document);
  check_pdf (printed, document);
  text = text_of (saved);
  words = text_of (printed);
  g_assert_cmpstr (words, ==, text);
  g_assert_nonnull (strstr (text, tg_document_kind_label (kind)));
  return text;
}

/* -- tests --------------------------------------------------------------------------------------- */

static void
test_choices (void)
{
  g_autoptr (PageRig) rig = rig_new (4, 800);
  TgPaperView *view = TG_PAPER_VIEW (rig->page);
  GListModel *kinds = gtk_drop_down_get_model (
      GTK_DROP_DOWN (bench_child (rig->page, "documents")));

  g_assert_cmpuint (g_list_model_get_n_items (kinds), ==, TG_N_DOCUMENT_KINDS);
  g_assert_cmpint (tg_paper_view_kind (view), ==, TG_DOCUMENT_PROOF);
  page_weigh_all (rig->session, 4);
  for (guint paper = 0; paper < 2; paper++)
    for (TgDocumentKind kind = 0; kind < TG_N_DOCUMENT_KINDS; kind++)
      {
        g_autoptr (GtkStringObject) item = g_list_model_get_item (kinds, kind);

        choose (rig, "papers", paper);
        choose (rig, "documents", kind);
        g_assert_cmpint (tg_paper_view_kind (view), ==, kind);
        g_assert_cmpstr (gtk_string_object_get_string (item), ==, tg_document_kind_label (kind));
        g_assert_cmpfloat (tg_paper_view_paper (view).width_pt, ==,
                           paper == 1 ? TG_PAPER_LETTER.width_pt : TG_PAPER_A4.width_pt);
        check_where (rig, 1);
        check_picture (rig, 0);
        g_free (check_paper (rig));
      }
  tg_paper_view_show (view, TG_DOCUMENT_BOBWEIGHT);
  g_assert_cmpint (tg_paper_view_kind (view), ==, TG_DOCUMENT_BOBWEIGHT);
}

/* glibc's locales: A4 where nothing else is said, Letter in the United States. */
static void
test_usual_paper (void)
{
  g_autofree char *before = g_strdup (setlocale (LC_PAPER, NULL));

  g_assert_nonnull (setlocale (LC_PAPER, "C"));
  g_assert_cmpfloat (tg_paper_usual ().width_pt, ==, TG_PAPER_A4.width_pt);
  if (setlocale (LC_PAPER, "en_US.UTF-8"))
    {
      g_autoptr (PageRig) rig = rig_new (3, 700);

      g_assert_cmpfloat (tg_paper_view_paper (TG_PAPER_VIEW (rig->page)).width_pt, ==,
                         TG_PAPER_LETTER.width_pt);
    }
  else
    g_test_skip ("the locale en_US.UTF-8 is not installed");
  setlocale (LC_PAPER, before);
}

static void
test_pages (void)
{
  g_autoptr (PageRig) rig = rig_new (8, 800);
  g_autoptr (TgDocument) document = NULL;
  guint n;

  page_weigh_all (rig->session, 8);
  choose (rig, "documents", TG_DOCUMENT_GRIND);
  document = document_of (rig);
  n = tg_document_n_pages (document);
  g_assert_cmpuint (n, >, 2);
  for (guint page = 1; page < n; page++)
    {
      check_where (rig, page);
      check_picture (rig, page - 1);
      click (rig, "forth");
    }
  check_where (rig, n);
  check_picture (rig, n - 1);
  click (rig, "back");
  check_where (rig, n - 1);
  /* another sheet begins at its first page */
  choose (rig, "documents", TG_DOCUMENT_BUILD);
  check_where (rig, 1);
}

/* The page that is looked at stays, with what has become of it. */
static void
test_follows_the_job (void)
{
  g_autoptr (PageRig) rig = rig_new (8, 800);
  GtkWidget *preview = bench_child (rig->page, "page");
  g_autofree char *before = NULL, *after = NULL;
  cairo_surface_t *first, *second;

  page_weigh_all (rig->session, 8);
  choose (rig, "documents", TG_DOCUMENT_GRIND);
  click (rig, "forth");
  choose (rig, "documents", TG_DOCUMENT_PROOF);
  before = check_paper (rig);
  first = shot_of (preview);
  g_assert_null (strstr (before, "389.7 g"));
  /* so far off that it says so */
  for (guint i = 0; i < 3; i++)
    page_weigh (rig->session, "piston-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 389.7);
  page_settle ();
  second = shot_of (preview);
  after = check_paper (rig);
  g_assert_cmpstr (after, !=, before);
  g_assert_cmpfloat (difference (first, second), >, 2);
  check_picture (rig, 0);
  cairo_surface_destroy (first);
  cairo_surface_destroy (second);
  choose (rig, "documents", TG_DOCUMENT_GRIND);
  click (rig, "forth");
  page_weigh (rig->session, "piston-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 410.9);
  page_settle ();
  check_where (rig, 2);
  check_picture (rig, 1);
}

/* Nothing has been weighed: what is missing is said, and no figure is made up. */
static void
test_nothing_yet (void)
{
  static const char *const says[TG_N_DOCUMENT_KINDS] = {
    [TG_DOCUMENT_WEIGH] = "Rod 3",
    [TG_DOCUMENT_GRIND] = "Rod 3 not weighed yet",
    [TG_DOCUMENT_PROOF] = "– not weighed yet",
    [TG_DOCUMENT_BOBWEIGHT] = "Not weighed yet: ",
    [TG_DOCUMENT_BUILD] = "not ready",
  };
  g_autoptr (PageRig) rig = rig_new (3, 800);
  g_autofree char *part = NULL;

  for (TgDocumentKind kind = 0; kind < TG_N_DOCUMENT_KINDS; kind++)
    {
      g_autofree char *text = NULL;

      choose (rig, "documents", kind);
      check_where (rig, 1);
      check_picture (rig, 0);
      text = check_paper (rig);
      if (!strstr (text, says[kind]))
        {
          g_test_message ("%s: no “%s” in: %s", tg_document_kind_label (kind), says[kind], text);
          g_test_fail ();
        }
      g_assert_null (strstr (text, "nan"));
      g_assert_null (strstr (text, "not even"));
    }
  /* half of it */
  page_weigh (rig->session, "piston-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 410.6);
  choose (rig, "documents", TG_DOCUMENT_PROOF);
  part = check_paper (rig);
  g_assert_nonnull (strstr (part, "– open: 1 of 3 weighed"));
}

static void
test_no_job (void)
{
  g_autoptr (PageRig) rig = rig_new (3, 700);

  g_object_set (rig->page, "session", NULL, NULL);
  page_settle ();
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (bench_child (rig->page, "where"))), ==, "");
  g_assert_false (gtk_widget_get_sensitive (bench_child (rig->page, "back")));
  g_assert_false (gtk_widget_get_sensitive (bench_child (rig->page, "forth")));
  choose (rig, "documents", TG_DOCUMENT_BUILD);
  choose (rig, "papers", 1);
  g_object_set (rig->page, "session", rig->session, NULL);
  page_settle ();
  check_where (rig, 1);
  check_picture (rig, 0);
}

static void
test_cannot_be_written (void)
{
  g_autoptr (PageRig) rig = rig_new (3, 700);
  const TgJob *job = tg_session_job (rig->session);
  const TgReview *review = tg_session_review (rig->session);
  g_autofree char *nowhere = g_build_filename (rig->folder, "no", "sheet.pdf", NULL);
  g_autofree char *other = g_build_filename (rig->folder, "sheet.doc", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_false (tg_paper_save (job, review, TG_DOCUMENT_PROOF, TG_PAPER_A4, nowhere, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_IO);
  g_clear_error (&error);
  g_assert_false (tg_paper_save (job, review, TG_DOCUMENT_PROOF, TG_PAPER_A4, other, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_SYNTAX);
  g_assert_false (g_file_test (other, G_FILE_TEST_EXISTS));
}

static void
test_names_and_width (void)
{
  g_autoptr (PageRig) rig = rig_new (8, 360);
  int least;

  page_weigh_all (rig->session, 8);
  page_settle ();
  g_assert_cmpuint (page_check_names (rig->page), >, 5);
  gtk_widget_measure (rig->page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
}

/* On a narrow screen a page can be made large enough to read; then it scrolls sideways. */
static void
test_large (void)
{
  g_autoptr (PageRig) rig = rig_new (3, 360);
  GtkWidget *preview = bench_child (rig->page, "page");
  GtkToggleButton *large = GTK_TOGGLE_BUTTON (bench_child (rig->page, "large"));
  GtkScrolledWindow *scroller = GTK_SCROLLED_WINDOW (bench_child (rig->page, "scroller"));
  GtkAdjustment *across = gtk_scrolled_window_get_hadjustment (scroller);
  int narrow = gtk_widget_get_width (preview), least;

  g_assert_cmpint (narrow, <=, 360);
  gtk_toggle_button_set_active (large, TRUE);
  page_settle ();
  g_assert_cmpint (gtk_widget_get_width (preview), >=, 2 * narrow);
  g_assert_cmpfloat (gtk_adjustment_get_upper (across), >, gtk_adjustment_get_page_size (across));
  check_picture (rig, 0);
  gtk_widget_measure (rig->page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
  gtk_toggle_button_set_active (large, FALSE);
  page_settle ();
  g_assert_cmpint (gtk_widget_get_width (preview), ==, narrow);
}

static void
test_large_and_wide (void)
{
  g_autoptr (PageRig) rig = rig_new (3, 1200);
  GtkWidget *preview = bench_child (rig->page, "page");
  int before = gtk_widget_get_width (preview);

  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (bench_child (rig->page, "large")), TRUE);
  page_settle ();
  g_assert_cmpint (gtk_widget_get_width (preview), >, before + 200);
  check_picture (rig, 0);
}

int
main (int argc, char **argv)
{
  bench_init (&argc, &argv);
  g_test_add_func ("/paper-view/choices", test_choices);
  g_test_add_func ("/paper-view/usual-paper", test_usual_paper);
  g_test_add_func ("/paper-view/pages", test_pages);
  g_test_add_func ("/paper-view/follows-the-job", test_follows_the_job);
  g_test_add_func ("/paper-view/nothing-yet", test_nothing_yet);
  g_test_add_func ("/paper-view/no-job", test_no_job);
  g_test_add_func ("/paper-view/cannot-be-written", test_cannot_be_written);
  g_test_add_func ("/paper-view/names-and-width", test_names_and_width);
  g_test_add_func ("/paper-view/large", test_large);
  g_test_add_func ("/paper-view/large-and-wide", test_large_and_wide);
  return g_test_run ();
}
